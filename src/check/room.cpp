#include <algorithm>
#include <cmath>

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
void read_hazard_rules(const MapReader& head, const std::string& language, HazardRules& rules) {
  rules.book = rule_book_named(head.word("hazard rules", rule_book_names(), "EU CLP"));
  rules.conservative =
      head.word("additivity", {"standard", "conservative"}, "standard") == "conservative";
  const std::vector<std::string>& languages = statement_languages();
  const bool un = worded_by_un(rules.book);
  const std::string usual = !un && among(languages, language) ? language : "en";
  rules.language = head.word("hazard language", languages, usual);
  if (un && rules.language != "en") {
    head.error(head.find("hazard language")->place, head.path_of("hazard language"),
               "the wording of this rule book is known in English only",
               "write hazard language: en, or hazard rules: EU CLP");
  }
}

// What was measured on the printer check page. More than a few per cent is another paper size or
// "fit to page".
void read_printer(const MapReader& head, Room& room) {
  const Node* node = head.find("printer");
  if (node == nullptr) return;
  const MapReader map(head.checking(), *node, head.path_of("printer"), keys::kPrinter);
  if (!map.is_map()) return;
  const auto two = [](std::string_view text) { return parse_lengths(text, 2); };
  const auto cross = map.needed<std::vector<Length>>("cross", "10 x 10 mm", two);
  const auto rulers = map.needed<std::vector<Length>>("rulers", "150 x 200 mm", two);
  if (!cross || !rulers) return;
  const PrinterError error{(*cross)[0], (*cross)[1], (*rulers)[0], (*rulers)[1]};
  const auto off = [](Length found, Length wanted) {
    return std::fabs(in_millimetres(found) - in_millimetres(wanted));
  };
  if (off(error.cross_left, kCheckFromEdge) > 8 || off(error.cross_top, kCheckFromEdge) > 8)
    map.error(map.find("cross")->place, map.path_of("cross"),
              "no printer is so far off: the middle of the cross is 10 mm from both edges when it "
              "is true",
              "measure from the paper's edge to the middle of the top left cross");
  else if (error.across / kCheckAcross < 0.9 || error.across / kCheckAcross > 1.1 ||
           error.down / kCheckDown < 0.9 || error.down / kCheckDown > 1.1)
    map.error(map.find("rulers")->place, map.path_of("rulers"),
              "no printer is so far off: the rulers are 150 mm across and 200 mm down when it is "
              "true",
              "print the page at 100 %, without fit to page, and measure again");
  else
    room.printer = error;
}

// What ammonia is to fish hangs on both: one of them alone says nothing.
void read_water(const MapReader& head, Room& room) {
  room.water_ph = read_number(head, "water ph", 4, 11, "the pH of the treated water, such as 7.8");
  room.water_temperature = head.value<Temperature>("water temperature", parse_temperature);
  const auto& at = room.water_temperature;
  if (at && (*at < degrees_celsius(0) || *at > degrees_celsius(50))) {
    head.error(head.find("water temperature")->place, head.path_of("water temperature"),
               "un-ionised ammonia is published for 0 to 50 °C", "write it as 25 °C");
  }
  const bool ph = head.find("water ph") != nullptr;
  if (ph == (head.find("water temperature") != nullptr)) return;
  const std::string given = ph ? "water ph" : "water temperature";
  head.error(head.find(given)->place, head.path_of(given),
             given + ": is of use only together with " + (ph ? "water temperature:" : "water ph:"),
             ph ? "add water temperature: 25 °C, or what it is, or take the line out"
                : "add water ph: 7.8, or what it is, or take the line out");
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
  read_water(head, room);
  read_printer(head, room);
  const Node* language = head.find("language");
  if (language != nullptr && language->kind == Node::Kind::list) {
    head.error(language->place, head.path_of("language"), "a room has one language",
               "write language: de here; a label may have two: language: [de, en]");
  } else {
    room.language = head.text("language", "en");
  }
  room.language_origin = head.origin_of("language");
  read_hazard_rules(head, room.language, room.hazard_rules);
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

const std::vector<std::string>& statement_languages() {
  static const std::vector<std::string> languages = {
      "bg", "cs", "da", "de", "el", "en", "es", "et", "fi", "fr", "ga", "hr",
      "hu", "it", "lt", "lv", "mt", "nl", "pl", "pt", "ro", "sk", "sl", "sv"};
  return languages;
}

std::optional<Room> check_room(const Node& tree, const HazardBooks& all, Diagnostics& out) {
  const std::size_t before = out.size();
  Checking checking{out};
  Room room;
  const MapReader top(checking, tree, "", keys::kTop);
  const std::string paper = check_head(checking, top, room);
  // The UN and the United States have statements that the Union lacks.
  const bool un = all.un != nullptr && worded_by_un(room.hazard_rules.book);
  const HazardBooks books{un ? *all.un : all.statements, all.classes, all.knowledge};
  check_products(checking, tree, books, room);
  check_containers(checking, tree, room);
  check_tools(checking, tree, room);
  check_vessels(checking, tree, room);
  check_stocks(checking, tree, books, room);
  room.paper = paper_named(paper);
  check_sheets(checking, tree, room);
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
