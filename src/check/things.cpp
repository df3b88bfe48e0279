// Products, containers, measuring tools and vessels.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "dosewright/base/text.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kMostMarks = 2000;
constexpr double kFinestStep = 0.001;  // mL; finer marks could not be printed

MapReader::Parse<Volume> volume_in(const Checking& checking) {
  return [system = checking.measures](std::string_view text) { return parse_volume(text, system); };
}

// A volume that must be more than nothing.
std::optional<Volume> real_volume(const MapReader& map, std::string_view key,
                                  std::string_view example) {
  const auto found = map.needed<Volume>(key, example, volume_in(map.checking()));
  if (found && in_millilitres(*found) <= 0) {
    map.error(map.find(key)->place, map.path_of(key), "a volume of nothing",
              "write " + std::string(example));
    return std::nullopt;
  }
  return found;
}

// Registry numbers end in a check digit: the other digits, weighted 1, 2, 3 … from the right,
// summed, modulo 10 (Chemical Abstracts Service, "Check Digit Verification of CAS Registry
// Numbers").
bool is_cas_number(const std::string& text) {
  const std::vector<std::string> parts = split(text, '-');
  if (parts.size() != 3 || parts[0].size() < 2 || parts[1].size() != 2 || parts[2].size() != 1)
    return false;
  const std::string digits = parts[0] + parts[1];
  if ((digits + parts[2]).find_first_not_of("0123456789") != std::string::npos) return false;
  int sum = 0;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    sum += static_cast<int>(i + 1) * (digits[digits.size() - 1 - i] - '0');
  }
  return sum % 10 == parts[2][0] - '0';
}

Product read_product(const Checking& checking, const std::string& id, const Node& node,
                     const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kProduct);
  Product product;
  product.id = id;
  product.origin = {place, path};
  product.name = map.text("name", id);
  product.form = map.word("form", {"powder", "liquid"}, "powder") == "liquid"
                     ? Product::Form::liquid
                     : Product::Form::powder;
  product.cas = map.text("cas");
  if (!product.cas.empty() && !is_cas_number(product.cas)) {
    map.error(map.find("cas")->place, map.path_of("cas"),
              quoted(product.cas) + " is not a CAS number: its check digit is wrong",
              "copy it from the safety data sheet, such as 7647-14-5");
  }
  const MeasureSystem system = checking.measures;
  product.bulk_density = map.value<Concentration>(
      "bulk density", [system](std::string_view t) { return parse_concentration(t, system); });
  product.displacement = map.value<VolumePerMass>(
      "displacement", [system](std::string_view t) { return parse_volume_per_mass(t, system); });
  product.price = map.value<Money>("price", parse_money);
  product.pack = map.value<Mass>("pack", parse_mass);
  if (product.pack && in_grams(*product.pack) <= 0) {
    map.error(map.find("pack")->place, map.path_of("pack"), "a pack of nothing",
              "write its weight, such as 1 kg");
  }
  if (product.price && !product.pack) {
    map.error(map.find("price")->place, map.path_of("price"),
              "a price without the size of its pack",
              "add pack: with the weight the price is for, such as 1 kg");
  }
  return product;
}

// "every 0.1 mL", "every 0.1 mL from 0.5 mL", or a list of volumes.
class MarksReader {
 public:
  MarksReader(const MapReader& map, Tool& tool) : map_(map), tool_(tool) {}

  void read() {
    const bool scoop = tool_.kind == Tool::Kind::spoon || tool_.kind == Tool::Kind::cup;
    if (scoop && map_.find("marks") == nullptr && in_millilitres(tool_.holds) > 0) {
      tool_.marks = {tool_.holds};
      tool_.step = tool_.holds;
      return;
    }
    const Node* node = map_.need("marks", "every 0.1 mL");
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

  void read_list(const Node& node) {
    for (const Node& item : node.items) {
      if (const auto mark = map_.parsed<Volume>(item, path(), volume_in(map_.checking()))) {
        tool_.marks.push_back(*mark);
      }
    }
    std::sort(tool_.marks.begin(), tool_.marks.end());
  }

  std::optional<Volume> part(const Node& node, std::size_t at, std::size_t length) {
    Node piece = node;
    piece.text = node.text.substr(at, length);
    piece.place.column += at;
    return map_.parsed<Volume>(piece, path(), volume_in(map_.checking()));
  }

  void read_steps(const Node& node) {
    const std::string every = "every ";
    if (!node.text.starts_with(every)) {
      refuse(node, "expected the distance between the marks, found " + quoted(node.text),
             "write every 0.1 mL, or a list such as [1 mL, 2 mL]");
      return;
    }
    const std::size_t from = node.text.find(" from ");
    const auto step = part(node, every.size(), std::min(from, node.text.size()) - every.size());
    std::optional<Volume> first = step;
    if (from != std::string::npos) first = part(node, from + 6, std::string::npos);
    if (!step || !first) return;
    if (in_millilitres(*step) < kFinestStep) {
      refuse(node, "marks closer than 0.001 mL",
             "write the distance between two marks of the real tool");
      return;
    }
    const double count = in_millilitres(tool_.holds) / in_millilitres(*step);
    if (!(count <= static_cast<double>(kMostMarks))) {
      refuse(node, "more than 2000 marks", "write the distance between two marks of the real tool");
      return;
    }
    add_steps(*step, *first);
  }

  // Marks are counted from the first one, so that no rounding adds up along the scale.
  void add_steps(Volume step, Volume first) {
    const double limit = in_millilitres(tool_.holds) * (1 + 1e-9);
    for (int i = 0; in_millilitres(first + step * i) <= limit; ++i) {
      tool_.marks.push_back(first + step * i);
    }
  }

  void finish(const Node& node) {
    if (in_millilitres(tool_.holds) <= 0 || map_.checking().out.size() > before_) return;
    if (tool_.marks.empty()) {
      refuse(node, "no mark lies within what the tool holds",
             "write every 0.1 mL, or a list such as [1 mL, 2 mL]");
      return;
    }
    for (std::size_t i = 1; i < tool_.marks.size(); ++i) {
      if (in_millilitres(tool_.marks[i] - tool_.marks[i - 1]) >= kFinestStep * (1 - 1e-9)) continue;
      refuse(node, "two marks at the same place", "write each mark once");
      return;
    }
    if (in_millilitres(tool_.marks.front()) <= 0) {
      refuse(node, "a mark at nothing", "leave the zero out");
      return;
    }
    if (tool_.marks.back() > tool_.holds * (1 + 1e-9)) {
      refuse(node, "a mark above what the tool holds", "check holds: and marks:");
      return;
    }
    tool_.step = tool_.marks.size() > 1 ? tool_.marks[1] - tool_.marks[0] : tool_.marks[0];
    for (std::size_t i = 1; i < tool_.marks.size(); ++i) {
      tool_.step = std::min(tool_.step, tool_.marks[i] - tool_.marks[i - 1]);
    }
  }

  const MapReader& map_;
  Tool& tool_;
  std::size_t before_ = 0;  // problems that were there already
};

Tool::Kind tool_kind(const std::string& word) {
  if (word == "pipette") return Tool::Kind::transfer_pipette;
  if (word == "cylinder") return Tool::Kind::cylinder;
  if (word == "cup") return Tool::Kind::cup;
  if (word == "spoon") return Tool::Kind::spoon;
  return Tool::Kind::syringe;
}

void read_accuracy(const MapReader& map, Tool& tool) {
  const Node* node = map.find("accuracy");
  if (node == nullptr) return;
  if (node->kind == Node::Kind::scalar && node->text.find('%') != std::string::npos) {
    if (const auto found = map.value<Share>("accuracy", parse_share)) tool.accuracy = *found;
  } else if (const auto found = map.value<Volume>("accuracy", volume_in(map.checking()))) {
    tool.accuracy = *found;
  }
}

Tool read_tool(const Checking& checking, const std::string& id, const Node& node,
               const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kTool);
  Tool tool;
  tool.id = id;
  tool.origin = {place, path};
  tool.name = map.text("name", id);
  if (map.need("kind", "syringe, pipette, cylinder, cup or spoon") != nullptr) {
    tool.kind =
        tool_kind(map.word("kind", {"syringe", "pipette", "cylinder", "cup", "spoon"}, "syringe"));
  }
  if (const auto holds = real_volume(map, "holds", "10 mL")) tool.holds = *holds;
  MarksReader(map, tool).read();
  read_accuracy(map, tool);
  tool.pours = map.count("pours", tool.pours, 1, 20);
  return tool;
}

// The water of a box or an upright cylinder filled to a height, both from inside measures.
class ShapeReader {
 public:
  explicit ShapeReader(const MapReader& map) : map_(map) {}

  std::optional<Volume> read() {
    const int given = (map_.find("volume") != nullptr ? 1 : 0) +
                      (map_.find("inside") != nullptr ? 1 : 0) +
                      (map_.find("across") != nullptr ? 1 : 0);
    if (given != 1 && map_.is_map()) {
      map_.error(map_.node().place, map_.path(),
                 given == 0 ? "the volume is missing" : "the volume is given in more than one way",
                 "give one of volume: 20 US gal, inside: 30 x 12 x 18 in, or across: 60 cm");
      return std::nullopt;
    }
    if (map_.find("volume") != nullptr) return real_volume(map_, "volume", "20 US gal");
    return map_.find("inside") != nullptr ? box() : cylinder();
  }

 private:
  std::optional<Length> fill_height() {
    return map_.needed<Length>("filled to", "the height of the water, such as 16 in", parse_length);
  }

  std::optional<Volume> box() {
    const auto sides = map_.value<std::vector<Length>>(
        "inside", [](std::string_view text) { return parse_lengths(text, 3); });
    const auto height = fill_height();
    if (!sides || !height) return std::nullopt;
    if (*height > (*sides)[2]) {
      map_.error(map_.find("filled to")->place, map_.path_of("filled to"),
                 "the water stands higher than the vessel",
                 "inside: is length x width x height; the water ends below the height");
      return std::nullopt;
    }
    return box_volume((*sides)[0], (*sides)[1], *height);
  }

  std::optional<Volume> cylinder() {
    const auto across = map_.value<Length>("across", parse_length);
    const auto height = fill_height();
    if (!across || !height) return std::nullopt;
    return box_volume(*across, *across, *height) * (std::numbers::pi / 4);
  }

  const MapReader& map_;
};

Vessel read_vessel(const Checking& checking, const std::string& id, const Node& node,
                   const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kVessel);
  Vessel vessel;
  vessel.id = id;
  vessel.origin = {place, path};
  vessel.name = map.text("name", id);
  vessel.kind = map.word("kind", {"tank", "bucket"}, "tank") == "bucket" ? Vessel::Kind::bucket
                                                                         : Vessel::Kind::tank;
  vessel.place = map.text("place");
  if (const auto water = ShapeReader(map).read()) {
    vessel.water = *water;
    if (in_millilitres(*water) <= 0)
      map.error(node.place, path, "a vessel without water", "check its measures");
    if (map.find("volume") != nullptr) vessel.as_given = map.text("volume");
  }
  const auto displaced = map.value<Volume>("displaced", volume_in(checking));
  if (displaced && in_millilitres(vessel.water) > 0) {
    if (*displaced >= vessel.water) {
      map.error(map.find("displaced")->place, map.path_of("displaced"),
                "what stands in the vessel takes up all of its water", "check the amounts");
    }
    vessel.water = vessel.water - *displaced;
    vessel.as_given.clear();
  }
  vessel.usual_change = map.value<Share>("change", parse_share);
  return vessel;
}

Container read_container(const Checking& checking, const std::string& id, const Node& node,
                         const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kContainer);
  Container container;
  container.id = id;
  container.origin = {place, path};
  container.name = map.text("name", id);
  if (const auto holds = real_volume(map, "holds", "1 L")) container.holds = *holds;
  if (const auto fill = map.value<Share>("fill", parse_share)) {
    container.fill = *fill;
    if (as_ratio(*fill) < 0.1 || as_ratio(*fill) > 0.95) {
      map.error(map.find("fill")->place, map.path_of("fill"),
                "a bottle wants to be filled, and room for shaking",
                "write 10 to 95 %; 80 % is usual");
    }
  }
  container.held_food = map.truth("held food", false);
  return container;
}

}  // namespace

void check_products(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "products",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.products.push_back(read_product(checking, id, node, path, place));
                 });
}

void check_containers(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "containers",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.containers.push_back(read_container(checking, id, node, path, place));
                 });
}

void check_tools(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "tools",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.tools.push_back(read_tool(checking, id, node, path, place));
                 });
}

void check_vessels(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "vessels",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.vessels.push_back(read_vessel(checking, id, node, path, place));
                 });
}

}  // namespace dosewright
