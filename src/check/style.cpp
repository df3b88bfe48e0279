// Template files: how labels and charts look.
#include <charconv>

#include "dosewright/check/check.hpp"
#include "map_reader.hpp"

namespace dosewright {

namespace {

Parsed<double> parse_factor(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool good =
      failed == std::errc() && end == text.data() + text.size() && value >= 0.1 && value <= 20;
  if (!good)
    return QuantityProblem{"expected a factor, found " + quoted(text), "write a number such as 1.4",
                           0, false};
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

}  // namespace

std::optional<LabelStyle> check_label_style(const Node& tree, Diagnostics& out) {
  const std::size_t before = out.size();
  const Checking checking{out};
  const MapReader map(
      checking, tree, "",
      {"error", "margin", "strip", "rules", "text", "line pitch", "times", "pictogram"});
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
  if (style.line_pitch < 1.2) {
    map.error(map.node().place, "line pitch", "hazard text wants lines at least 1.2 sizes apart",
              "write 1.2 or more");
  }
  if (out.size() > before) return std::nullopt;
  return style;
}

std::optional<ChartStyle> check_chart_style(const Node& tree, Diagnostics& out) {
  const std::size_t before = out.size();
  const Checking checking{out};
  const MapReader map(checking, tree, "",
                      {"error", "margin", "strip", "rules", "title", "subtitle", "text", "small",
                       "dose", "row", "heading factor"});
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
  if (out.size() > before) return std::nullopt;
  return style;
}

}  // namespace dosewright
