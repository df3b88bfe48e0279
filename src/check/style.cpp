// Template files: how labels and charts look.
#include <algorithm>
#include <charconv>
#include <utility>

#include "dosewright/base/text.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/units/print.hpp"
#include "map_reader.hpp"

namespace dosewright {

namespace {

Parsed<double> parse_factor(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool good =
      failed == std::errc() && end == text.data() + text.size() && value >= 0.1 && value <= 20;
  if (!good)
    return QuantityProblem{"expected a factor of 0.1 to 20, found " + quoted(text),
                           "write a number such as 1.4", 0, false};
  return value;
}

class StyleReader {
 public:
  explicit StyleReader(const MapReader& map) : map_(map) {}

  Length length(std::string_view key, std::string_view example) const {
    return map_.needed<Length>(key, example, parse_length).value_or(Length());
  }
  double factor(std::string_view key) const {
    return map_.needed<double>(key, "1.4", parse_factor).value_or(1);
  }
  int count(std::string_view key) const {
    if (map_.need(key, "8") == nullptr) return 1;
    return map_.count(key, 1, 1, 12);
  }
  std::vector<Length> pair(std::string_view key) const {
    const auto found = map_.needed<std::vector<Length>>(
        key, "6 x 5 mm", [](std::string_view text) { return parse_lengths(text, 2); });
    return found.value_or(std::vector<Length>(2));
  }
  SizeRange range(std::string_view key) const {
    const Node* node = map_.need(key, "with smallest: and largest: below it");
    if (node == nullptr) return {};
    const MapReader inner(map_.checking(), *node, map_.path_of(key), {"smallest", "largest"});
    const StyleReader reader(inner);
    const SizeRange found{reader.length("smallest", "8 pt"), reader.length("largest", "12 pt")};
    if (found.largest < found.smallest) {
      map_.error(node->place, map_.path_of(key), "the largest size is below the smallest",
                 "swap the two");
    }
    return found;
  }
  RuleStyle rules() const {
    const Node* node = map_.need("rules", "with heavy: and light: below it");
    if (node == nullptr) return {};
    const MapReader inner(map_.checking(), *node, map_.path_of("rules"), {"heavy", "light"});
    const StyleReader reader(inner);
    return {reader.length("heavy", "0.5 mm"), reader.length("light", "0.2 mm")};
  }
  StripStyle strip() const {
    const Node* node = map_.need("strip", "with cell: 6 x 5 mm and cells: 8 below it");
    if (node == nullptr) return {};
    const MapReader inner(map_.checking(), *node, map_.path_of("strip"),
                          {"cell", "cells", "short cells", "short below"});
    const StyleReader reader(inner);
    if (inner.find("cells") != nullptr && reader.count("cells") != 8)
      inner.error(inner.find("cells")->place, inner.path_of("cells"),
                  "a strip of another length than on all other paper",
                  "write cells: 8; a low label may have short cells: 4");
    const std::vector<Length> cell = reader.pair("cell");
    return {cell[0], cell[1], reader.count("cells"), reader.count("short cells"),
            reader.length("short below", "45 mm")};
  }

 private:
  const MapReader& map_;
};

ErrorShown error_shown(const MapReader& map) {
  if (map.need("error", "measuring, all, standard or none") == nullptr)
    return ErrorShown::measuring;
  const std::string word = map.word("error", {"measuring", "all", "standard", "none"}, "measuring");
  if (word == "all") return ErrorShown::all;
  if (word == "standard") return ErrorShown::standard;
  return word == "none" ? ErrorShown::none : ErrorShown::measuring;
}

void read_factors(const MapReader& map, LabelStyle& style) {
  const Node* node = map.need("times", "with values:, code:, signal:, dose: and name: below it");
  if (node == nullptr) return;
  const MapReader inner(map.checking(), *node, map.path_of("times"),
                        {"values", "code", "signal", "dose", "name"});
  const StyleReader reader(inner);
  style.values = reader.factor("values");
  style.code = reader.factor("code");
  style.signal = reader.factor("signal");
  style.dose = reader.factor("dose");
  style.name = reader.factor("name");
}

template <class Value>
using Named = std::vector<std::pair<std::string, Value>>;

const Named<LabelPart>& part_names() {
  static const Named<LabelPart> names = {{"name and code", LabelPart::name_and_code},
                                         {"dose", LabelPart::dose},
                                         {"fields", LabelPart::fields},
                                         {"hazards", LabelPart::hazards},
                                         {"hazards in short", LabelPart::hazards_in_short},
                                         {"warnings", LabelPart::warnings},
                                         {"square code", LabelPart::square_code},
                                         {"heavy rule", LabelPart::heavy_rule},
                                         {"light rule", LabelPart::light_rule}};
  return names;
}

const Named<LabelWord>& bold_names() {
  static const Named<LabelWord> names = {
      {"name", LabelWord::name},       {"code", LabelWord::code},
      {"dose", LabelWord::dose},       {"treats", LabelWord::treats},
      {"values", LabelWord::values},   {"signal", LabelWord::signal},
      {"hazards", LabelWord::hazards}, {"warnings", LabelWord::warnings}};
  return names;
}

template <class Value>
std::vector<Value> named_each(const MapReader& map, std::string_view key, const std::string& what,
                              const Named<Value>& names) {
  std::vector<std::string> known;
  for (const auto& [name, value] : names) known.push_back(name);
  std::vector<Value> out;
  for (const std::string& word : refer_each(map, key, what, known)) {
    for (const auto& [name, value] : names) {
      if (name == word) out.push_back(value);
    }
  }
  return out;
}

std::vector<LabelWord> bold_words(const MapReader& map) {
  if (map.need("bold", "[name, code, dose, signal, hazards]") == nullptr) return {};
  return named_each(map, "bold", "word of a label", bold_names());
}

bool stands_on(const LabelFace& face, LabelPart part) {
  return std::any_of(face.begin(), face.end(), [part](const LabelRegion& region) {
    return std::find(region.parts.begin(), region.parts.end(), part) != region.parts.end();
  });
}

// The regions of one face, whose widths must fill it and not overlap.
class FaceReader {
 public:
  FaceReader(const MapReader& map, std::string_view key) : map_(map), key_(key) {}

  LabelFace read() {
    const Node* node = map_.need(key_, "a list of regions, each with width: and parts:");
    if (node == nullptr) return {};
    if (node->kind != Node::Kind::list || node->items.empty()) {
      map_.error(node->place, map_.path_of(key_), "expected a list of regions",
                 "write - width: 100 % with parts: below it");
      return {};
    }
    for (const Node& item : node->items) read_region(item);
    check_widths(*node);
    return face_;
  }

 private:
  void read_region(const Node& item) {
    const MapReader region(map_.checking(), item, map_.path_of(key_), {"width", "strip", "parts"});
    if (!region.is_map()) return;
    LabelRegion out;
    read_width(region, out);
    out.strip = region.truth("strip", face_.empty());
    if (region.need("parts", "[name and code, dose, hazards]") != nullptr)
      out.parts = parts_of(region);
    if (as_ratio(out.narrowest) < 0.15) {
      region.error(item.place, region.path(), "a region narrower than 15 % of its label",
                   "give it more, or put its parts into another");
    }
    face_.push_back(std::move(out));
  }

  // One width, or the two between which the fit chooses.
  static void read_width(const MapReader& region, LabelRegion& out) {
    const Node* node = region.need("width", "50 %, or smallest: and largest: below it");
    if (node == nullptr) return;
    if (node->kind != Node::Kind::map) {
      out.narrowest = region.value<Share>("width", parse_share).value_or(share(1));
      out.widest = out.narrowest;
      return;
    }
    const MapReader range(region.checking(), *node, region.path_of("width"),
                          {"smallest", "largest"});
    out.narrowest = range.needed<Share>("smallest", "30 %", parse_share).value_or(share(1));
    out.widest = range.needed<Share>("largest", "50 %", parse_share).value_or(share(1));
    if (out.widest < out.narrowest)
      region.error(node->place, region.path_of("width"), "the largest width is below the smallest",
                   "swap the two");
  }

  // Rules may be drawn again and again, all else once.
  std::vector<LabelPart> parts_of(const MapReader& region) const {
    std::vector<std::string> known;
    for (const auto& [name, value] : part_names()) known.push_back(name);
    std::vector<LabelPart> out;
    (void)region.texts("parts");
    for (const Node& item : region.find("parts")->items) {
      const std::string word = trimmed(item.text);
      if (item.kind != Node::Kind::scalar ||
          !refer(region, item, region.path_of("parts"), "part of a label", word, known))
        continue;
      const auto named = std::find_if(part_names().begin(), part_names().end(),
                                      [&](const auto& one) { return one.first == word; });
      const LabelPart part = named->second;
      const bool rule = part == LabelPart::heavy_rule || part == LabelPart::light_rule;
      const bool again = std::find(out.begin(), out.end(), part) != out.end();
      if (!rule && (again || stands_on(face_, part)))
        region.error(item.place, region.path_of("parts"), quoted(word) + " stands there already",
                     "take one of them out");
      out.push_back(part);
    }
    return out;
  }

  void check_widths(const Node& node) const {
    double least = 0;
    double most = 0;
    int strips = 0;
    for (const LabelRegion& region : face_) {
      least += as_ratio(region.narrowest);
      most += as_ratio(region.widest);
      strips += region.strip ? 1 : 0;
    }
    const std::string come = "the widths of the regions come to ";
    if (least > 1.0005)
      map_.error(node.place, map_.path_of(key_),
                 come + percent_text(share(least)) + ": they overlap", "make it 100 %");
    if (most < 0.9995)
      map_.error(node.place, map_.path_of(key_),
                 come + percent_text(share(most)) + ": some of the label stays empty",
                 "make it 100 %");
    if (strips > 1)
      map_.error(node.place, map_.path_of(key_), "two strips on one label",
                 "write strip: false at all regions but one");
  }

  const MapReader& map_;
  std::string key_;
  LabelFace face_;
};

// What may never be left off, and never stand there twice.
void check_whole(const MapReader& map, std::string_view key, const LabelFace& one,
                 const LabelFace& other) {
  for (const LabelPart part : {LabelPart::dose, LabelPart::fields, LabelPart::hazards,
                               LabelPart::warnings, LabelPart::name_and_code}) {
    std::string name;
    for (const auto& [word, value] : part_names()) {
      if (value == part) name = word;
    }
    const int times = (stands_on(one, part) ? 1 : 0) + (stands_on(other, part) ? 1 : 0);
    if (times == 0)
      map.error(map.find(key)->place, map.path_of(key), "no label may go without its " + name,
                "add " + name + " to the parts of a region");
  }
  for (const LabelFace* face : {&one, &other}) {
    if (face->empty()) continue;
    if (!stands_on(*face, LabelPart::name_and_code))
      map.error(map.find(key)->place, map.path_of(key),
                "a label that does not say what is in the bottle",
                "add name and code to the parts of a region");
    const bool hazards = stands_on(*face, LabelPart::hazards);
    if (!hazards && !stands_on(*face, LabelPart::hazards_in_short))
      map.error(map.find(key)->place, map.path_of(key), "a label without a word of hazard",
                "add hazards in short to the parts of a region");
  }
}

void read_faces(const MapReader& map, LabelStyle& style) {
  const std::size_t before = map.checking().out.size();
  style.front = FaceReader(map, "front").read();
  const Node* full = map.find("too full");
  if (map.checking().out.size() == before) check_whole(map, "front", style.front, {});
  if (full == nullptr) return;
  const MapReader inner(map.checking(), *full, map.path_of("too full"), {"front", "back"});
  if (!inner.is_map()) return;
  style.full_front = FaceReader(inner, "front").read();
  style.full_back = FaceReader(inner, "back").read();
  if (map.checking().out.size() == before)
    check_whole(map, "too full", style.full_front, style.full_back);
}

}  // namespace

std::optional<LabelStyle> check_label_style(const Node& tree, Diagnostics& out) {
  const std::size_t before = out.size();
  const Checking checking{out};
  const MapReader map(checking, tree, "",
                      {"error", "margin", "strip", "rules", "text", "line pitch", "times",
                       "pictogram", "name lines", "bold", "front", "too full"});
  const StyleReader reader(map);
  LabelStyle style;
  style.error = error_shown(map);
  style.margin = reader.length("margin", "3 mm");
  style.strip = reader.strip();
  style.rules = reader.rules();
  style.text = reader.range("text");
  style.line_pitch = reader.factor("line pitch");
  read_factors(map, style);
  style.pictogram = reader.range("pictogram");
  style.name_lines = map.count("name lines", 2, 1, 3);
  style.bold = bold_words(map);
  read_faces(map, style);
  if (map.find("line pitch") != nullptr && style.line_pitch < 1.2) {
    map.error(map.find("line pitch")->place, "line pitch",
              "hazard text wants lines at least 1.2 sizes apart", "write 1.2 or more");
  }
  if (out.size() > before) return std::nullopt;
  return style;
}

std::optional<ChartStyle> check_chart_style(const Node& tree, Diagnostics& out) {
  const std::size_t before = out.size();
  const Checking checking{out};
  const MapReader map(checking, tree, "",
                      {"error", "margin", "strip", "rules", "title", "subtitle", "text", "small",
                       "dose", "row", "heading factor", "tint"});
  const StyleReader reader(map);
  ChartStyle style;
  style.error = error_shown(map);
  style.margin = reader.length("margin", "12 mm");
  style.strip = reader.strip();
  style.rules = reader.rules();
  style.title = reader.length("title", "34 pt");
  style.subtitle = reader.length("subtitle", "15 pt");
  style.text = reader.length("text", "10 pt");
  style.small = reader.length("small", "7.5 pt");
  style.dose = reader.range("dose");
  style.row = reader.range("row");
  style.heading_factor = reader.factor("heading factor");
  style.tint = map.truth("tint", true);
  if (out.size() > before) return std::nullopt;
  return style;
}

}  // namespace dosewright
