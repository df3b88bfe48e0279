// Strengths that are asked for: of a recipe, and of what is mixed from a stronger stock.
#include <memory>

#include "dosewright/base/text.hpp"
#include "dosewright/dose/chemistry.hpp"
#include "dosewright/mix/mixture.hpp"
#include "dosewright/units/print.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

constexpr std::string_view kAsAnhydrous = " as anhydrous";

// The salt's formula with its crystal water, from the tables of the dose chemistry.
std::string formula_of(const Product& product) {
  if (const Reagent* reagent = find_reagent(product.cas)) return std::string(reagent->formula);
  const Salt* salt = find_salt(product.cas);
  return salt != nullptr ? std::string(salt->formula) : "";
}

// Grams of the hydrate for each gram without crystal water.
std::optional<double> hydrate_factor(const Product& product) {
  const std::string formula = formula_of(product);
  const std::size_t water = formula.find("\u00b7");
  if (formula.empty()) return std::nullopt;
  if (water == std::string::npos) return 1;
  return molar_mass(formula) / molar_mass(formula.substr(0, water));
}

// The product that a strength speaks of: the only one of the stronger stock.
const Component* only_component(const MapReader& map, const Stock& strong, const Mixture& mixture) {
  if (mixture.components.size() == 1 &&
      std::holds_alternative<Concentration>(mixture.components.front().strength))
    return &mixture.components.front();
  map.error(map.find("strength")->place, map.path_of("strength"),
            quoted(strong.id) + (mixture.components.size() > 1
                                     ? " holds several products; the strength of which?"
                                     : " is not known by weight"),
            "write take: with the volume of it that goes in, such as 200 mL");
  return nullptr;
}

// V1 = C2 V2 / C1.
std::optional<Volume> volume_for(const MapReader& map, const Stock& strong, const Mixture& mixture,
                                 Volume makes) {
  const MeasureSystem system = map.checking().measures;
  const auto wanted = map.value<Concentration>(
      "strength", [system](std::string_view text) { return parse_concentration(text, system); });
  const Component* component = wanted ? only_component(map, strong, mixture) : nullptr;
  if (component == nullptr) return std::nullopt;
  const auto has = std::get<Concentration>(component->strength);
  if (in_grams_per_litre(*wanted) <= 0 || *wanted > has * (1 + 1e-9)) {
    map.error(map.find("strength")->place, map.path_of("strength"),
              "not a dilution: " + quoted(strong.id) + " holds " +
                  significant_figure(in_grams_per_litre(has), 3) + " g per L",
              "write a strength above 0 and below that");
    return std::nullopt;
  }
  return makes * (*wanted / has);
}

std::optional<Volume> volume_taken(const MapReader& map, const Stock& strong,
                                   const Mixture& mixture, Volume makes) {
  const bool take = map.find("take") != nullptr;
  if (take == (map.find("strength") != nullptr)) {
    map.error(map.find("diluted from")->place, map.path_of("diluted from"),
              take ? "\"take\" and \"strength\" both say how much of it goes in"
                   : "how much of it goes in?",
              "give take: 200 mL, or strength: 20 g/L");
    return std::nullopt;
  }
  return take ? map.value<Volume>("take", volume_in(map.checking()))
              : volume_for(map, strong, mixture, makes);
}

// The stock of this id, which must stand above: so no stock is ever mixed from itself.
const Stock* stronger_stock(const MapReader& map, const Room& room, const Stock& stock) {
  const std::string id = map.text("diluted from");
  const Node& node = *map.find("diluted from");
  const Stock* strong = find(room.stocks, id);
  if (strong == nullptr && id == stock.id) {
    map.error(node.place, map.path_of("diluted from"), "a stock mixed from itself",
              "name the stronger stock, and write its entry above this one");
    return nullptr;
  }
  if (strong == nullptr) {
    std::string hint = "write the stronger stock's entry above this one";
    if (const auto near = nearest(id, ids_of(room.stocks)))
      hint = "did you mean " + quoted(*near) + "? Otherwise " + hint;
    map.error(node.place, map.path_of("diluted from"),
              "no stock above this one is called " + quoted(id), hint);
    return nullptr;
  }
  if (strong->dry) {
    map.error(node.place, map.path_of("diluted from"), quoted(id) + " is a powder from its tub",
              "write recipe: with its product");
    return nullptr;
  }
  return strong;
}

void check_dilution_keys(const MapReader& map) {
  for (const char* key : {"recipe", "weighed with"}) {
    if (map.find(key) != nullptr)
      map.error(map.find(key)->place, map.path_of(key),
                "a stock that is diluted from another has no recipe of its own",
                "take this line out, or diluted from:");
  }
  if (map.find("water added") != nullptr)
    map.error(map.find("water added")->place, map.path_of("water added"),
              "a dilution is stated by its finished volume", "write water to: instead");
}

}  // namespace

bool asks_for_strength(const std::string& text) {
  std::string plain = text;
  if (plain.ends_with(kAsAnhydrous)) plain.resize(plain.size() - kAsAnhydrous.size());
  const auto mass = parse_mass(plain);
  return !std::holds_alternative<Mass>(mass) &&
         std::holds_alternative<Concentration>(
             parse_concentration(plain, MeasureSystem::undeclared));
}

std::optional<Mass> amount_for_strength(const MapReader& recipe, const Entry& entry,
                                        const Product& product, const RecipeWater& water) {
  const std::string path = recipe.path_of(entry.key);
  if (water.kind != RecipeWater::Kind::made_up_to || in_millilitres(water.volume) <= 0) {
    recipe.error(entry.value.place, path, "a strength needs the finished volume",
                 "give water to:, or write grams");
    return std::nullopt;
  }
  std::string plain = entry.value.text;
  double factor = 1;
  if (plain.ends_with(kAsAnhydrous)) {
    plain.resize(plain.size() - kAsAnhydrous.size());
    const auto known = hydrate_factor(product);
    if (!known) {
      recipe.error(entry.value.place, path,
                   "how much crystal water " + quoted(entry.key) + " holds is not known here",
                   product.cas.empty() ? "add cas: to products." + entry.key
                                       : "write the strength of the product as bought");
      return std::nullopt;
    }
    factor = *known;
  }
  const auto strength =
      std::get<Concentration>(parse_concentration(plain, MeasureSystem::undeclared));
  const Mass amount = strength * water.volume * factor;
  if (in_grams(amount) <= 0) {
    recipe.error(entry.value.place, path, "a strength of nothing", "write more than 0");
    return std::nullopt;
  }
  return amount;
}

void read_dilution(const MapReader& map, const Room& room, Stock& stock) {
  check_dilution_keys(map);
  const Stock* strong = stronger_stock(map, room, stock);
  if (strong == nullptr || strong->recipe.empty() || in_millilitres(stock.water.volume) <= 0)
    return;
  const Mixture mixture = mix(*strong, room.products, room.tools);
  const auto taken = volume_taken(map, *strong, mixture, stock.water.volume);
  if (!taken) return;
  if (in_millilitres(*taken) <= 0 || *taken > stock.water.volume * (1 + 1e-9)) {
    map.error(map.find("take")->place, map.path_of("take"),
              "what is taken must be more than nothing and less than the finished volume",
              "water to: is the volume of all of it together");
    return;
  }
  stock.stronger = std::make_shared<const Stock>(*strong);
  stock.taken = *taken;
  for (const Component& component : mixture.components) {
    Ingredient part;
    part.product = component.product;
    part.origin = map.origin_of("diluted from");
    part.amount = std::visit(
        [&](const auto& amount) {
          return std::variant<Mass, Volume>(amount * (*taken / mixture.makes));
        },
        component.amount);
    stock.recipe.push_back(part);
  }
}

}  // namespace dosewright
