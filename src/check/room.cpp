#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

MeasureSystem measures_named(const std::string& word) {
  if (word == "US") return MeasureSystem::us;
  if (word == "imperial") return MeasureSystem::imperial;
  if (word == "metric") return MeasureSystem::metric;
  if (word == "Australian") return MeasureSystem::australian;
  return MeasureSystem::undeclared;
}

// The UN wording is here in English only, as the book that was read has it.
void read_hazard_rules(const MapReader& head, HazardRules& rules) {
  rules.book = rule_book_named(head.word("hazard rules", rule_book_names(), "EU CLP"));
  rules.conservative =
      head.word("additivity", {"standard", "conservative"}, "standard") == "conservative";
  static const std::vector<std::string> languages = {
      "bg", "cs", "da", "de", "el", "en", "es", "et", "fi", "fr", "ga", "hr",
      "hu", "it", "lt", "lv", "mt", "nl", "pl", "pt", "ro", "sk", "sl", "sv"};
  rules.language = head.word("hazard language", languages, "en");
  const bool un = worded_by_un(rules.book);
  if (un && rules.language != "en") {
    head.error(head.find("hazard language")->place, head.path_of("hazard language"),
               "the wording of this rule book is known in English only",
               "write hazard language: en, or hazard rules: EU CLP");
  }
}

std::string check_head(Checking& checking, const MapReader& top, Room& room) {
  const Node* node = top.need("room", "with a name below it");
  if (node == nullptr) return "A4";
  const MapReader head(checking, *node, "room", keys::kRoom);
  room.name = head.needed_text("name", "the name of your fish room");
  room.measures =
      measures_named(head.word("measures", {"US", "imperial", "metric", "Australian"}, ""));
  room.emergency = head.text("emergency");
  room.by = head.text("by");
  read_hazard_rules(head, room.hazard_rules);
  checking.measures = room.measures;
  std::vector<std::string> names;
  for (const PaperSize& paper : papers()) names.push_back(paper.name);
  return head.word("paper", names, "A4");
}

void check_node_letters(const Node& node, const std::string& path,
                        const std::function<bool(char32_t)>& can_print, Diagnostics& out) {
  const auto refuse = [&](const std::string& text, Place place, bool is_quoted) {
    const std::u32string characters = to_characters(text);
    const auto bad = std::find_if(characters.begin(), characters.end(),
                                  [&](char32_t c) { return c != U'\n' && !can_print(c); });
    if (bad == characters.end()) return;
    place.column += static_cast<std::size_t>(bad - characters.begin()) + (is_quoted ? 1 : 0);
    out.push_back({Severity::error, place, path,
                   "the printing font has no letter for \"" + to_utf8({&*bad, 1}) + "\"",
                   "write it in other letters"});
  };
  if (node.kind == Node::Kind::scalar) refuse(node.text, node.place, node.quoted);
  for (const Entry& entry : node.entries) {
    const std::string below = path.empty() ? entry.key : path + '.' + entry.key;
    refuse(entry.key, entry.key_place, false);
    check_node_letters(entry.value, below, can_print, out);
  }
  for (const Node& item : node.items) check_node_letters(item, path, can_print, out);
}

}  // namespace

std::optional<Room> check_room(const Node& tree, const HazardBooks& books, Diagnostics& out) {
  const std::size_t before = out.size();
  Checking checking{out};
  Room room;
  const MapReader top(checking, tree, "", keys::kTop);
  const std::string paper = check_head(checking, top, room);
  check_products(checking, tree, books, room);
  check_containers(checking, tree, room);
  check_tools(checking, tree, room);
  check_vessels(checking, tree, room);
  check_stocks(checking, tree, books, room);
  check_documents(checking, tree, paper, room);
  sort_by_place(out);
  if (out.size() > before) return std::nullopt;
  return room;
}

void check_letters(const Node& tree, const std::function<bool(char32_t)>& can_print,
                   Diagnostics& out) {
  check_node_letters(tree, "", can_print, out);
}

}  // namespace dosewright
