// Products and containers.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

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

namespace {

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
  product.active = map.value<Share>("active", parse_share);
  if (product.active && as_ratio(*product.active) <= 0) {
    map.error(map.find("active")->place, map.path_of("active"), "nothing of it that acts",
              "write the part by weight from its label, such as 40 %");
  }
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

constexpr double kPi = 3.14159265358979323846;

std::optional<Length> measure_of(const MapReader& map, std::string_view key) {
  const auto found = map.value<Length>(key, parse_length);
  if (!found) return std::nullopt;
  if (in_millimetres(*found) >= 5 && in_millimetres(*found) <= 3000) return found;
  map.error(map.find(key)->place, map.path_of(key), "not a measure of any container",
            "write what a tape measure shows, such as 210 mm");
  return std::nullopt;
}

// What a tape measure says of it, where its label goes.
void read_label_measures(const MapReader& map, Container& container) {
  container.around = measure_of(map, "around");
  if (const auto across = measure_of(map, "across")) {
    if (container.around)
      map.error(map.find("across")->place, map.path_of("across"),
                "both its diameter and its girth are given", "keep one of them; around is surer");
    container.around = *across * kPi;
  }
  container.straight = measure_of(map, "straight");
  container.cap = measure_of(map, "cap");
  const auto flat = map.value<std::vector<Length>>(
      "flat", [](std::string_view text) { return parse_lengths(text, 2); });
  if (!flat) return;
  container.flat_width = (*flat)[0];
  container.flat_height = (*flat)[1];
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
  container.place = map.text("place");
  read_label_measures(map, container);
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
  refuse_rings(checking, room);
}

void check_containers(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "containers",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.containers.push_back(read_container(checking, id, node, path, place));
                 });
}

}  // namespace dosewright
