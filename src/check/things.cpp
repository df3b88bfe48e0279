// Products, containers and vessels.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// A volume that must be more than nothing and not absurd.
std::optional<Volume> real_volume(const MapReader& map, std::string_view key,
                                  std::string_view example, Volume largest) {
  const auto found = map.needed<Volume>(key, example, volume_in(map.checking()));
  if (!found) return found;
  if (in_millilitres(*found) <= 0) {
    map.error(map.find(key)->place, map.path_of(key), "a volume of nothing",
              "write " + std::string(example));
    return std::nullopt;
  }
  if (*found > largest) {
    map.error(map.find(key)->place, map.path_of(key),
              "an absurd volume: more than " + volume_text(largest), "check its unit");
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

// "0.9 g/mL", or what it can be between: "0.85 to 1.15 g/mL".
void read_bulk_density(const MapReader& map, Product& product) {
  const Node* node = map.find("bulk density");
  if (node == nullptr) return;
  const MapReader::Parse<Concentration> parse =
      [system = map.checking().measures](std::string_view text) {
        return parse_concentration(text, system);
      };
  const std::size_t to = node->text.find(" to ");
  if (node->kind != Node::Kind::scalar || to == std::string::npos) {
    product.bulk_density = map.value<Concentration>("bulk density", parse);
    return;
  }
  const std::string path = map.path_of("bulk density");
  const std::size_t unit = node->text.find_last_of("0123456789") + 1;
  Node low = *node;
  low.text = node->text.substr(0, to) + node->text.substr(unit);
  Node high = *node;
  high.text = node->text.substr(to + 4);
  high.place.column += to + 4;
  const auto lowest = map.parsed<Concentration>(low, path, parse);
  const auto highest = map.parsed<Concentration>(high, path, parse);
  if (!lowest || !highest) return;
  if (in_grams_per_litre(*lowest) <= 0 || *highest < *lowest) {
    map.error(node->place, path, "a density that does not rise",
              "write the loosest and the densest, such as 0.85 to 1.15 g/mL");
    return;
  }
  product.bulk_density = (*lowest + *highest) * 0.5;
  product.bulk_spread = share((*highest - *lowest) / (*highest + *lowest));
}

// What the product is to the hazard rules.
void read_product_hazards(const MapReader& map, const HazardBooks& books,
                          const std::vector<std::string>& products, Product& product) {
  product.hazards = read_classification(map, books.classes);
  product.families =
      refer_each(map, "families", "family of chemicals", known_families(books.knowledge));
  product.contains = read_contents(map, books.knowledge, products);
  product.density = read_density(map);
  if (!product.contains.empty() && product.hazards.state != Classification::State::unknown) {
    map.error(map.find("contains")->place, map.path_of("contains"),
              "both what it contains and its own classes are given",
              "keep contains: for a mixture that is to be calculated, hazards: for what its data "
              "sheet says of the whole");
  }
}

Product read_product(const Checking& checking, const std::string& id, const Node& node,
                     const std::string& path, const Place& place, const HazardBooks& books,
                     const std::vector<std::string>& products) {
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
  read_bulk_density(map, product);
  if (const auto purity = map.value<Share>("purity", parse_share)) {
    product.impurity = share(1 - as_ratio(*purity));
    if (as_ratio(*purity) < 0.5) {
      map.error(map.find("purity")->place, map.path_of("purity"),
                "less than half of it is what it is called", "check the data sheet");
    }
  }
  product.displacement = map.value<VolumePerMass>(
      "displacement", [system](std::string_view t) { return parse_volume_per_mass(t, system); });
  if (product.displacement && in_millilitres_per_gram(*product.displacement) > 2) {
    map.error(map.find("displacement")->place, map.path_of("displacement"),
              "a gram that takes up more than 2 mL", "most powders take up 0.2 to 0.7 mL/g");
  }
  read_product_hazards(map, books, products, product);
  product.soluble = map.value<Concentration>(
      "soluble", [system](std::string_view t) { return parse_concentration(t, system); });
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
    if (map_.find("volume") != nullptr) return real_volume(map_, "volume", "20 US gal", kMostWater);
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
  if (vessel.usual_change && as_ratio(*vessel.usual_change) <= 0) {
    map.error(map.find("change")->place, map.path_of("change"), "a change of nothing",
              "write the part of the water that is changed, such as 25 %");
  }
  if (const auto right = map.value<Share>("right to", parse_share)) {
    vessel.right_to = *right;
    if (as_ratio(*right) > 0.5 || as_ratio(*right) <= 0) {
      map.error(map.find("right to")->place, map.path_of("right to"),
                as_ratio(*right) > 0 ? "a volume known to no better than half"
                                     : "no volume is known to nothing",
                "measure it, and write 2 % or so");
    }
  }
  return vessel;
}

Container read_container(const Checking& checking, const std::string& id, const Node& node,
                         const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kContainer);
  Container container;
  container.id = id;
  container.origin = {place, path};
  container.name = map.text("name", id);
  if (const auto holds = real_volume(map, "holds", "1 L", kLargestBottle)) container.holds = *holds;
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

void check_products(const Checking& checking, const Node& tree, const HazardBooks& books,
                    Room& room) {
  std::vector<std::string> ids;
  for (const Entry& entry : tree.entries) {
    if (entry.key != "products") continue;
    for (const Entry& item : entry.value.entries) ids.push_back(item.key);
  }
  for_each_entry(
      checking, tree, "products",
      [&](const auto& id, const Node& node, const auto& path, const Place& place) {
        room.products.push_back(read_product(checking, id, node, path, place, books, ids));
      });
}

void check_containers(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "containers",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.containers.push_back(read_container(checking, id, node, path, place));
                 });
}

void check_vessels(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "vessels",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.vessels.push_back(read_vessel(checking, id, node, path, place));
                 });
}

}  // namespace dosewright
