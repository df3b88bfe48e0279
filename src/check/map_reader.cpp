#include "map_reader.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

#include "dosewright/base/text.hpp"
#include "dosewright/check/check.hpp"

namespace dosewright {

namespace {

std::string kind_of(const Node& node) {
  switch (node.kind) {
    case Node::Kind::map:
      return "a map of keys";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::empty:
      return "nothing";
    case Node::Kind::scalar:
      break;
  }
  return "a single value";
}

int days_in(int year, int month) {
  static constexpr std::array<int, 12> kDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return month == 2 && leap ? 29 : kDays[static_cast<std::size_t>(month - 1)];
}

}  // namespace

std::string quoted(std::string_view text) { return '"' + std::string(text) + '"'; }

void Checking::error(const Place& place, std::string path, std::string message,
                     std::string hint) const {
  out.push_back({Severity::error, place, std::move(path), std::move(message), std::move(hint)});
}

MapReader::MapReader(const Checking& checking, const Node& node, std::string path,
                     const std::vector<std::string>& known)
    : checking_(checking), node_(node), path_(std::move(path)) {
  if (!is_map()) {
    error(node.place, path_, "expected a map of keys, found " + kind_of(node),
          known.empty() ? "write keys on the lines below" : "known keys: " + all_of(known));
    return;
  }
  for (const Entry& entry : node.entries) {
    if (among(known, entry.key)) continue;
    const auto near = nearest(entry.key, known);
    if (near) misspelt_.push_back(*near);
    error(entry.key_place, path_of(entry.key), "unknown key " + quoted(entry.key),
          near ? "did you mean " + quoted(*near) + "?" : "known keys: " + all_of(known));
  }
}

const Node* MapReader::find(std::string_view key) const {
  for (const Entry& entry : node_.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

bool MapReader::is_misspelt(std::string_view key) const {
  return among(misspelt_, std::string(key));
}

const Node* MapReader::need(std::string_view key, std::string_view example) const {
  const Node* found = find(key);
  if (found == nullptr && is_map() && !is_misspelt(key)) {
    error(node_.place, path_, "the key " + quoted(key) + " is missing",
          "add " + std::string(key) + ": " + std::string(example));
  }
  return found;
}

std::string MapReader::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : path_ + '.' + std::string(key);
}

Origin MapReader::origin_of(std::string_view key) const {
  const Node* found = find(key);
  return {found != nullptr ? found->place : node_.place, path_of(key)};
}

bool MapReader::is_scalar(const Node& node, const std::string& path) const {
  if (node.kind == Node::Kind::scalar && !trimmed(node.text).empty()) return true;
  const bool blank = node.kind == Node::Kind::scalar || node.kind == Node::Kind::empty;
  error(node.place, path,
        blank ? "the value is missing" : "expected a single value, found " + kind_of(node),
        blank ? "write a value behind the colon" : "write it on one line behind the colon");
  return false;
}

std::string MapReader::text(std::string_view key, std::string fallback) const {
  const Node* node = find(key);
  if (node == nullptr) return fallback;
  if (!is_scalar(*node, path_of(key))) return fallback;
  if (node->text.find('\n') != std::string::npos) {
    error(node->place, path_of(key), "a text of more than one line", "write it on one line");
    return fallback;
  }
  return trimmed(node->text);
}

std::string MapReader::needed_text(std::string_view key, std::string_view example) const {
  if (need(key, example) == nullptr) return "";
  return text(key);
}

bool MapReader::truth(std::string_view key, bool fallback) const {
  const Node* node = find(key);
  if (node == nullptr || !is_scalar(*node, path_of(key))) return fallback;
  if (node->text == "true") return true;
  if (node->text == "false") return false;
  error(node->place, path_of(key), "expected true or false, found " + quoted(node->text),
        "write true or false");
  return fallback;
}

int MapReader::count(std::string_view key, int fallback, int smallest, int largest) const {
  const auto found = value<int>(key, parse_count);
  if (!found) return fallback;
  if (*found >= smallest && *found <= largest) return *found;
  error(find(key)->place, path_of(key), "out of range: " + std::to_string(*found),
        "write a number from " + std::to_string(smallest) + " to " + std::to_string(largest));
  return fallback;
}

std::vector<std::string> MapReader::texts(std::string_view key) const {
  std::vector<std::string> out;
  const Node* node = find(key);
  if (node == nullptr) return out;
  if (node->kind != Node::Kind::list) {
    error(node->place, path_of(key), "expected a list, found " + kind_of(*node),
          "write " + std::string(key) + ": [one, another]");
    return out;
  }
  for (const Node& item : node->items) {
    if (!is_scalar(item, path_of(key))) continue;
    if (item.text.find('\n') != std::string::npos) {
      error(item.place, path_of(key), "a text of more than one line", "write it on one line");
      continue;
    }
    out.push_back(trimmed(item.text));
  }
  return out;
}

std::string MapReader::word(std::string_view key, const std::vector<std::string>& words,
                            const std::string& fallback) const {
  const Node* node = find(key);
  if (node == nullptr) return fallback;
  if (!is_scalar(*node, path_of(key))) return fallback;
  for (const std::string& known : words) {
    if (lowered(trimmed(node->text)) == lowered(known)) return known;
  }
  error(node->place, path_of(key), quoted(node->text) + " is not known here",
        "write " + either(words));
  return fallback;
}

std::optional<Date> MapReader::date(std::string_view key) const {
  const Node* node = find(key);
  if (node == nullptr || !is_scalar(*node, path_of(key))) return std::nullopt;
  const auto found = parse_date(trimmed(node->text));
  if (!found) {
    error(node->place, path_of(key), quoted(node->text) + " is not a date",
          "write year-month-day, such as 2026-11-25");
  }
  return found;
}

void MapReader::report(const Node& node, const std::string& path,
                       const QuantityProblem& problem) const {
  Place place = node.place;
  const std::string before = node.text.substr(0, std::min(problem.at, node.text.size()));
  place.column += to_characters(before).size() + (node.quoted ? 1 : 0);
  error(place, path, problem.message, problem.hint);
}

std::optional<Date> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i != 4 && i != 7 && std::isdigit(static_cast<unsigned char>(text[i])) == 0)
      return std::nullopt;
  }
  const auto number = [&](std::size_t at, std::size_t length) {
    return std::stoi(std::string(text.substr(at, length)));
  };
  const Date date{number(0, 4), number(5, 2), number(8, 2)};
  const bool real = date.year > 0 && date.month >= 1 && date.month <= 12 && date.day >= 1 &&
                    date.day <= days_in(date.year, date.month);
  if (!real) return std::nullopt;
  return date;
}

bool refer(const MapReader& map, const Node& node, const std::string& path, const std::string& what,
           const std::string& id, const std::vector<std::string>& known) {
  if (among(known, id)) return true;
  const auto near = nearest(id, known);
  std::string hint = "no " + what + " is described yet";
  if (!known.empty()) hint = "described are: " + all_of(known);
  if (near) hint = "did you mean " + quoted(*near) + "?";
  map.error(node.place, path, "no " + what + " is called " + quoted(id), hint);
  return false;
}

std::vector<std::string> refer_each(const MapReader& map, std::string_view key,
                                    const std::string& what,
                                    const std::vector<std::string>& known) {
  std::vector<std::string> words = map.texts(key);
  const Node* list = map.find(key);
  if (list == nullptr || list->kind != Node::Kind::list) return words;
  std::vector<std::string> seen;
  for (const Node& item : list->items) {
    if (item.kind != Node::Kind::scalar) continue;
    const std::string id = trimmed(item.text);
    if (id.empty()) continue;
    (void)refer(map, item, map.path_of(key), what, id, known);
    if (among(seen, id)) {
      map.error(item.place, map.path_of(key), quoted(id) + " is named twice",
                "take one of them out");
    }
    seen.push_back(id);
  }
  return words;
}

}  // namespace dosewright
