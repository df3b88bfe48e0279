// Measuring tools: their marks, what they are good for, how far off they can be.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/measure/tool_error.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kMostMarks = 1000;
constexpr std::size_t kMostWeights = 20'000;
constexpr double kFinestStep = 0.001;  // mL or g; finer marks could not be printed

// g for a scale, mL for all others.
MapReader::Parse<Portion> portion_of(const Checking& checking, Tool::Kind kind) {
  return [system = checking.measures, kind](std::string_view text) -> Parsed<Portion> {
    if (kind == Tool::Kind::scale) {
      auto mass = parse_mass(text);
      if (const auto* found = std::get_if<Mass>(&mass)) return Portion(*found);
      return std::get<QuantityProblem>(std::move(mass));
    }
    auto volume = parse_volume(text, system);
    if (const auto* found = std::get_if<Volume>(&volume)) return Portion(*found);
    return std::get<QuantityProblem>(std::move(volume));
  };
}

std::string every_example(Tool::Kind kind) {
  return kind == Tool::Kind::scale ? "every 0.1 g" : "every 0.1 mL";
}

// "every 0.1 mL", "every 0.1 mL from 0.5 mL", or a list of amounts.
class MarksReader {
 public:
  MarksReader(const MapReader& map, Tool& tool) : map_(map), tool_(tool) {}

  void read() {
    if (tool_.kind == Tool::Kind::dropper) {
      read_drops();
      return;
    }
    const bool scoop = tool_.kind == Tool::Kind::spoon || tool_.kind == Tool::Kind::cup;
    if (scoop && map_.find("marks") == nullptr && tool_.holds.stored() > 0) {
      tool_.marks = {tool_.holds};
      tool_.step = tool_.holds;
      return;
    }
    const Node* node = map_.need("marks", every_example(tool_.kind));
    if (node == nullptr) return;
    before_ = map_.checking().out.size();
    if (node->kind == Node::Kind::list) {
      read_list(*node);
    } else if (map_.is_scalar(*node, path())) {
      read_steps(*node);
    }
    finish(*node);
  }

 private:
  [[nodiscard]] std::string path() const { return map_.path_of("marks"); }

  void refuse(const Node& node, std::string message, std::string hint) {
    map_.error(node.place, path(), std::move(message), std::move(hint));
    tool_.marks.clear();
  }

  // A dropper is read by counting.
  void read_drops() {
    if (const Node* node = map_.find("marks")) {
      refuse(*node, "a dropper is read in drops, not by marks",
             "take marks: out; write drops per mL: 20 when you have counted them");
      return;
    }
    const Portion drop = millilitres(1.0 / tool_.drops_per_mL);
    const double most = std::floor(tool_.holds / drop * (1 + 1e-9));
    for (int drops = 1; drops <= most && drops <= static_cast<int>(kMostMarks); ++drops)
      tool_.marks.push_back(drop * drops);
    tool_.step = drop;
    if (tool_.marks.empty()) {
      map_.error(map_.node().place, map_.path(), "a dropper that holds less than a drop",
                 "check holds: and drops per mL:");
    }
  }

  void read_list(const Node& node) {
    for (const Node& item : node.items) {
      const auto mark = map_.parsed<Portion>(item, path(), portion_of(map_.checking(), tool_.kind));
      if (!mark) continue;
      if (!tool_.marks.empty() && *mark < tool_.marks.back()) {
        map_.error(item.place, path(), "a mark that is below the one before it",
                   "write the marks in rising order");
      }
      tool_.marks.push_back(*mark);
    }
  }

  std::optional<Portion> part(const Node& node, std::size_t at, std::size_t length) {
    Node piece = node;
    piece.text = node.text.substr(at, length);
    piece.place.column += at;
    return map_.parsed<Portion>(piece, path(), portion_of(map_.checking(), tool_.kind));
  }

  void read_steps(const Node& node) {
    const std::string every = "every ";
    if (!node.text.starts_with(every)) {
      refuse(node, "expected the distance between the marks, found " + quoted(node.text),
             "write " + every_example(tool_.kind) + ", or a list such as [1 mL, 2 mL]");
      return;
    }
    const std::size_t from = node.text.find(" from ");
    const auto step = part(node, every.size(), std::min(from, node.text.size()) - every.size());
    std::optional<Portion> first = step;
    if (from != std::string::npos) first = part(node, from + 6, std::string::npos);
    if (!step || !first) return;
    if (step->stored() < kFinestStep) {
      refuse(node, "marks closer than 0.001 " + std::string(unit()),
             "write the distance between two marks of the real tool");
      return;
    }
    const std::size_t most = tool_.kind == Tool::Kind::scale ? kMostWeights : kMostMarks;
    if (!(tool_.holds / *step <= static_cast<double>(most))) {
      refuse(node, "more than " + std::to_string(most) + " marks",
             "write the distance between two marks of the real tool");
      return;
    }
    add_steps(*step, *first);
  }

  [[nodiscard]] const char* unit() const { return tool_.holds.is_powder() ? "g" : "mL"; }

  // Marks are counted from the first one, so that no rounding adds up along the scale.
  void add_steps(Portion step, Portion first) {
    const double limit = tool_.holds.stored() * (1 + 1e-9);
    for (int i = 0; (first + step * i).stored() <= limit; ++i)
      tool_.marks.push_back(first + step * i);
  }

  void finish(const Node& node) {
    if (tool_.holds.stored() <= 0 || map_.checking().out.size() > before_) return;
    if (tool_.marks.empty()) {
      refuse(node, "no mark lies within what the tool holds",
             "write every 0.1 mL, or a list such as [1 mL, 2 mL]");
      return;
    }
    for (std::size_t i = 1; i < tool_.marks.size(); ++i) {
      if ((tool_.marks[i] - tool_.marks[i - 1]).stored() >= kFinestStep * (1 - 1e-9)) continue;
      refuse(node, "two marks at the same place", "write each mark once");
      return;
    }
    if (tool_.marks.front().stored() <= 0) {
      refuse(node, "a mark at nothing", "leave the zero out");
      return;
    }
    if (tool_.marks.front().stored() < kFinestStep * (1 - 1e-9)) {
      refuse(node, "a mark below 0.001 " + std::string(unit()), "check its unit");
      return;
    }
    if (tool_.marks.back() > tool_.holds * (1 + 1e-9)) {
      refuse(node, "a mark above what the tool holds", "check holds: and marks:");
      return;
    }
    tool_.step = tool_.marks.size() > 1 ? tool_.marks[1] - tool_.marks[0] : tool_.marks[0];
    for (std::size_t i = 1; i < tool_.marks.size(); ++i)
      tool_.step = std::min(tool_.step, tool_.marks[i] - tool_.marks[i - 1]);
  }

  const MapReader& map_;
  Tool& tool_;
  std::size_t before_ = 0;  // problems that were there already
};

struct KindWord {
  const char* word;
  Tool::Kind kind;
};
constexpr KindWord kKinds[] = {{"syringe", Tool::Kind::syringe},
                               {"transfer pipette", Tool::Kind::transfer_pipette},
                               {"graduated pipette", Tool::Kind::graduated_pipette},
                               {"piston pipette", Tool::Kind::piston_pipette},
                               {"cylinder", Tool::Kind::cylinder},
                               {"cup", Tool::Kind::cup},
                               {"dropper", Tool::Kind::dropper},
                               {"spoon", Tool::Kind::spoon},
                               {"scale", Tool::Kind::scale}};

Tool::Kind read_kind(const MapReader& map) {
  std::vector<std::string> words;
  for (const KindWord& known : kKinds) words.emplace_back(known.word);
  if (map.need("kind", either(words)) == nullptr) return Tool::Kind::syringe;
  const std::string word = map.word("kind", words, "syringe");
  for (const KindWord& known : kKinds) {
    if (word == known.word) return known.kind;
  }
  return Tool::Kind::syringe;
}

void read_holds(const MapReader& map, Tool& tool) {
  const bool scale = tool.kind == Tool::Kind::scale;
  tool.holds = scale ? Portion(grams(0)) : Portion(millilitres(0));
  if (tool.kind == Tool::Kind::dropper && map.find("holds") == nullptr) {
    tool.holds = millilitres(20.0 / tool.drops_per_mL);  // twenty drops: more are miscounted
    return;
  }
  const std::string example = scale ? "200 g" : "10 mL";
  const auto holds = map.needed<Portion>("holds", example, portion_of(map.checking(), tool.kind));
  if (!holds) return;
  const Portion largest = scale ? Portion(kLargestScale) : Portion(kLargestTool);
  if (holds->stored() <= 0 || *holds > largest) {
    map.error(map.find("holds")->place, map.path_of("holds"),
              holds->stored() <= 0
                  ? std::string(scale ? "a weight" : "a volume") + " of nothing"
                  : "larger than any tool for doses: more than " + portion_text(largest),
              "write " + example);
    return;
  }
  tool.holds = *holds;
}

void read_accuracy(const MapReader& map, Tool& tool) {
  const auto portion = portion_of(map.checking(), tool.kind);
  if (const Node* node = map.find("accuracy")) {
    if (node->kind == Node::Kind::scalar && node->text.find('%') != std::string::npos) {
      if (const auto found = map.value<Share>("accuracy", parse_share)) tool.accuracy = *found;
    } else if (const auto found = map.value<Portion>("accuracy", portion)) {
      tool.accuracy = *found;
    }
    const auto* part = std::get_if<Share>(&tool.accuracy);
    const auto* fixed = std::get_if<Portion>(&tool.accuracy);
    if ((part != nullptr && as_ratio(*part) <= 0) || (fixed != nullptr && fixed->stored() <= 0)) {
      map.error(node->place, map.path_of("accuracy"), "no tool is right to nothing",
                "write what its data sheet says, or leave accuracy: out");
    }
  }
  tool.reading = map.value<Portion>("reading", portion);
  const Node* by = map.find("class");
  if (by != nullptr)
    tool.accuracy_class = accuracy_class_named(map.word("class", accuracy_class_names(), ""));
  // Its own figure goes before any table; without one, the table must reach it.
  const bool own = !std::holds_alternative<std::monostate>(tool.accuracy);
  const std::string objection = own && by == nullptr ? "" : class_objection(tool);
  if (objection.empty() || tool.holds.stored() <= 0) return;
  map.error(by != nullptr ? by->place : map.node().place,
            by != nullptr ? map.path_of("class") : map.path(), objection,
            by != nullptr ? "choose another class, or write the tool's own accuracy:"
                          : "write the tool's own accuracy:, from its data sheet");
}

// What it measures: liquids, but for scales and spoons.
void read_purpose(const MapReader& map, Tool& tool) {
  const bool scale = tool.kind == Tool::Kind::scale;
  const bool scoop = tool.kind == Tool::Kind::spoon || tool.kind == Tool::Kind::cup;
  const bool by_kind = scale || tool.kind == Tool::Kind::spoon;
  tool.for_powder =
      map.word("for", {"liquid", "powder"}, by_kind ? "powder" : "liquid") == "powder";
  if (tool.for_powder && !scale && !scoop) {
    map.error(map.find("for")->place, map.path_of("for"), "a tool for liquids cannot take powder",
              "powder is weighed on a scale, or scooped with a spoon or cup");
  }
  if (!tool.for_powder && scale) {
    map.error(map.find("for")->place, map.path_of("for"), "liquids are measured by volume here",
              "describe a syringe, pipette, cylinder or cup for them");
  }
}

std::vector<std::string> stock_ids(const Node& tree) {
  std::vector<std::string> out;
  for (const Entry& entry : tree.entries) {
    if (entry.key != "stocks") continue;
    for (const Entry& stock : entry.value.entries) out.push_back(stock.key);
  }
  return out;
}

Tool read_tool(const Checking& checking, const std::string& id, const Node& node,
               const std::string& path, const Place& place,
               const std::vector<std::string>& stocks) {
  const MapReader map(checking, node, path, keys::kTool);
  Tool tool;
  tool.id = id;
  tool.origin = {place, path};
  tool.name = map.text("name", id);
  tool.kind = read_kind(map);
  tool.drops_per_mL = map.count("drops per mL", tool.drops_per_mL, 5, 100);
  if (map.find("drops per mL") != nullptr && tool.kind != Tool::Kind::dropper) {
    map.error(map.find("drops per mL")->place, map.path_of("drops per mL"),
              "only a dropper is read in drops", "take the line out, or write kind: dropper");
  }
  read_holds(map, tool);
  MarksReader(map, tool).read();
  read_accuracy(map, tool);
  read_purpose(map, tool);
  tool.least = map.value<Share>("not below", parse_share).value_or(least_by_kind(tool.kind));
  // A weighing is done once; drops are counted in two rows at most.
  int pours = tool.pours;
  if (tool.kind == Tool::Kind::scale) pours = 1;
  if (tool.kind == Tool::Kind::dropper) pours = 2;
  tool.pours = map.count("pours", pours, 1, tool.kind == Tool::Kind::scale ? 4 : 20);
  tool.only_for = map.text("only for");
  if (!tool.only_for.empty()) {
    refer(map, *map.find("only for"), map.path_of("only for"), "stock", tool.only_for, stocks);
  }
  return tool;
}

}  // namespace

void check_tools(const Checking& checking, const Node& tree, Room& room) {
  const std::vector<std::string> stocks = stock_ids(tree);
  for_each_entry(checking, tree, "tools",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.tools.push_back(read_tool(checking, id, node, path, place, stocks));
                 });
}

}  // namespace dosewright
