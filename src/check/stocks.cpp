// Stocks: recipe, dose rule and the hazards as the description states them.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// Our own limit.
constexpr Temperature kWarmest = degrees_celsius(45);

bool starts_a_mass(const std::string& text) {
  return std::holds_alternative<Mass>(parse_mass(text));
}

// False for a well-formed amount of zero; what is not well formed is reported elsewhere.
bool is_some(const std::string& text, MeasureSystem system) {
  const auto mass = parse_mass(text);
  if (const auto* m = std::get_if<Mass>(&mass)) return in_grams(*m) > 0;
  const auto volume = parse_volume(text, system);
  const auto* v = std::get_if<Volume>(&volume);
  return v == nullptr || in_millilitres(*v) > 0;
}

// The volume of an ingredient. What is neither a weight nor a volume is reported as what its
// product wants first: a weight for a powder, a volume for a liquid.
std::optional<Volume> recipe_volume(const MapReader& recipe, const Entry& entry,
                                    const Product& product) {
  const std::string path = recipe.path_of(entry.key);
  const MeasureSystem system = recipe.checking().measures;
  auto volume = parse_volume(entry.value.text, system);
  if (const auto* found = std::get_if<Volume>(&volume)) return *found;
  const bool household = std::get<QuantityProblem>(volume).needs_system;
  if (product.form == Product::Form::powder && !household) {
    (void)recipe.parsed<Mass>(entry.value, path, parse_mass);
  } else {
    (void)recipe.parsed<Volume>(entry.value, path, [&](std::string_view) { return volume; });
  }
  return std::nullopt;
}

// "100 g", or a volume: scoops of a powder, millilitres of a liquid.
std::optional<Ingredient> read_ingredient(const MapReader& recipe, const Entry& entry,
                                          const Room& room, const RecipeWater& water) {
  const std::string path = recipe.path_of(entry.key);
  const Node place_of_key{Node::Kind::scalar, entry.key_place, entry.key, false, {}, {}};
  if (!refer(recipe, place_of_key, path, "product", entry.key, ids_of(room.products))) {
    return std::nullopt;
  }
  Ingredient ingredient;
  ingredient.product = entry.key;
  ingredient.origin = {entry.value.place, path};
  if (!recipe.is_scalar(entry.value, path)) return std::nullopt;
  const Product& product = *find(room.products, entry.key);
  const std::string unit = lowered(entry.value.text);
  if (product.form == Product::Form::liquid && (unit.ends_with("oz") && !unit.ends_with("fl oz"))) {
    recipe.error(entry.value.place, path, "\"oz\" of a liquid can be weight or volume",
                 "write grams, mL, or US fl oz");
    return std::nullopt;
  }
  if (asks_for_strength(entry.value.text)) {
    const auto amount = amount_for_strength(recipe, entry, product, water);
    if (!amount) return std::nullopt;
    ingredient.amount = *amount;
    return ingredient;
  }
  if (!is_some(entry.value.text, recipe.checking().measures)) {
    recipe.error(entry.value.place, path, "an amount of nothing",
                 "write how much goes in, such as 100 g");
    return std::nullopt;
  }
  if (starts_a_mass(entry.value.text)) {
    ingredient.amount = std::get<Mass>(parse_mass(entry.value.text));
    return ingredient;
  }
  const auto volume = recipe_volume(recipe, entry, product);
  if (!volume) return std::nullopt;
  if (product.form == Product::Form::powder && !product.bulk_density) {
    recipe.error(entry.value.place, path, "a powder by volume, but its bulk density is not known",
                 "weigh it and write grams, or add bulk density: to products." + entry.key);
    return std::nullopt;
  }
  ingredient.amount = *volume;
  return ingredient;
}

void read_recipe(const MapReader& map, const Room& room, Stock& stock) {
  const Node* node = map.need("recipe", "with a product and its amount below it");
  if (node == nullptr) return;
  // Every key is taken here: what is not a product's id is reported as such.
  std::vector<std::string> written;
  for (const Entry& entry : node->entries) written.push_back(entry.key);
  const MapReader recipe(map.checking(), *node, map.path_of("recipe"), written);
  if (!recipe.is_map()) return;
  if (node->entries.empty())
    map.error(node->place, recipe.path(), "an empty recipe", "write a product and its amount");
  for (const Entry& entry : node->entries) {
    if (auto ingredient = read_ingredient(recipe, entry, room, stock.water))
      stock.recipe.push_back(*ingredient);
  }
}

void read_water(const MapReader& map, Stock& stock) {
  const bool to = map.find("water to") != nullptr;
  const bool added = map.find("water added") != nullptr;
  const bool misspelt = map.is_misspelt("water to") || map.is_misspelt("water added");
  if (to == added && map.is_map() && (to || !misspelt)) {
    map.error(map.node().place, map.path(),
              to ? "\"water to\" and \"water added\" are two different things; both are given"
                 : "the water is missing",
              "give water to: for the finished volume, or water added: for what is poured in");
    return;
  }
  const char* const key = to ? "water to" : "water added";
  stock.water.kind = to ? RecipeWater::Kind::made_up_to : RecipeWater::Kind::added;
  const MeasureSystem system = map.checking().measures;
  const auto volume = map.value<Volume>(
      key, [system](std::string_view text) { return parse_volume(text, system); });
  if (!volume) return;
  stock.water.volume = *volume;
  if (in_millilitres(*volume) <= 0) {
    map.error(map.find(key)->place, map.path_of(key), "a volume of nothing", "write 1 L or so");
  }
}

// "1.4 mL per 20 L" is stated for 20 L: the label repeats the words its reader knows.
void read_reference_water(const MapReader& map, DoseRule& dose) {
  const std::string text = map.text("give");
  const std::size_t per = text.find(" per ");
  if (per == std::string::npos) return;
  dose.per_text = trimmed(text.substr(per + 5));
  const auto water = parse_volume(dose.per_text, map.checking().measures);
  if (const auto* volume = std::get_if<Volume>(&water)) dose.per = *volume;
}

// mL per L of a stock; g per L of a powder from the tub.
std::optional<DoseRate> read_rate(const MapReader& map, std::string_view key, bool dry) {
  const MeasureSystem system = map.checking().measures;
  const std::string written = map.text(key);
  const bool by_volume =
      std::holds_alternative<VolumePerVolume>(parse_volume_per_volume(written, system));
  const bool by_weight =
      std::holds_alternative<Concentration>(parse_concentration(written, system));
  if (dry ? by_volume : by_weight) {
    map.error(map.find(key)->place, map.path_of(key),
              dry ? "a powder straight from its tub is dosed by weight"
                  : "a mixed stock is dosed by volume",
              dry ? "write grams, such as 5 g per 100 L"
                  : "write mL of the stock, such as 1.4 mL per 20 L; reach: takes a concentration");
    return std::nullopt;
  }
  if (dry) {
    const auto found = map.value<Concentration>(
        key, [system](std::string_view text) { return parse_concentration(text, system); });
    if (found) return DoseRate(*found);
    return std::nullopt;
  }
  const auto found = map.value<VolumePerVolume>(
      key, [system](std::string_view text) { return parse_volume_per_volume(text, system); });
  if (found) return DoseRate(*found);
  return std::nullopt;
}

void read_dose_amount(const MapReader& map, const Stock& stock, const Room& room,
                      const Knowledge& knowledge, DoseRule& dose) {
  std::vector<std::string> ways;
  for (const char* key : {"give", "reach", "remove", "raise", "treats"}) {
    if (map.find(key) != nullptr) ways.emplace_back(key);
  }
  refuse_stray_keys(map);
  if (ways.size() != 1 && map.is_map()) {
    map.error(map.node().place, map.path(),
              ways.empty() ? "the dose is missing"
                           : "the dose is given in more than one way: " + all_of(ways),
              "give one of give: 1.4 mL per 20 L, reach: 7 mg/L, remove: 2 mg/L, raise: 1 dKH or "
              "treats: 5000 US gal");
    return;
  }
  if (ways.size() == 1 && ways.front() == "treats") {
    read_whole_mix(map, stock, dose);
    return;
  }
  if (ways.size() == 1 && ways.front() != "give") {
    read_dose_target(map, ways.front(), stock, room, knowledge, dose);
    return;
  }
  const auto rate = read_rate(map, "give", stock.dry);
  if (!rate) return;
  std::visit([&](auto amount) { dose.amount = amount; }, *rate);
  read_reference_water(map, dose);
}

bool is_zero_dose(const DoseRule& dose) {
  if (const auto* rate = std::get_if<VolumePerVolume>(&dose.amount)) {
    return in_millilitres_per_litre(*rate) <= 0;
  }
  if (const auto* powder = std::get_if<Concentration>(&dose.amount)) {
    return in_grams_per_litre(*powder) <= 0;
  }
  const auto* target = std::get_if<Target>(&dose.amount);
  return target != nullptr && in_grams_per_litre(target->concentration) <= 0;
}

Rounding rounding_named(const std::string& word) {
  if (word == "never under") return Rounding::never_under;
  if (word == "never over") return Rounding::never_over;
  return Rounding::nearest;
}

// A ceiling below the dose, a floor above it: one of the figures is a slip.
void check_limits(const MapReader& map, const DoseRule& dose) {
  std::optional<double> given;
  if (const auto* rate = std::get_if<VolumePerVolume>(&dose.amount))
    given = in_millilitres_per_litre(*rate);
  if (const auto* powder = std::get_if<Concentration>(&dose.amount))
    given = in_grams_per_litre(*powder);
  if (!given) return;
  if (dose.ceiling && per_litre(*dose.ceiling) < *given * (1 - 1e-9)) {
    map.error(map.find("at most")->place, map.path_of("at most"), "the ceiling is below the dose",
              "check give: and at most:; one of them is a slip");
  }
  if (dose.floor && per_litre(*dose.floor) > *given * (1 + 1e-9)) {
    map.error(map.find("at least")->place, map.path_of("at least"), "the floor is above the dose",
              "check give: and at least:; one of them is a slip");
  }
}

void read_dose(const MapReader& stock_map, const Room& room, const Knowledge& knowledge,
               Stock& stock) {
  const Node* node = stock_map.need("dose", "with give: 1.4 mL per 20 L below it");
  if (node == nullptr) return;
  const std::size_t before = stock_map.checking().out.size();
  const MapReader map(stock_map.checking(), *node, stock_map.path_of("dose"), keys::kDose);
  DoseRule& dose = stock.dose;
  dose.origin = {node->place, map.path()};
  read_dose_amount(map, stock, room, knowledge, dose);
  dose.basis = map.word("for", {"new water", "whole vessel"}, "new water") == "whole vessel"
                   ? WaterBasis::whole_vessel
                   : WaterBasis::new_water;
  read_course(map, dose);
  dose.rounding =
      rounding_named(map.word("round", {"nearest", "never under", "never over"}, "nearest"));
  if (const auto tolerance = map.value<Share>("tolerance", parse_share)) {
    dose.tolerance = *tolerance;
    if (as_ratio(*tolerance) <= 0 || as_ratio(*tolerance) > 0.5) {
      map.error(map.find("tolerance")->place, map.path_of("tolerance"),
                as_ratio(*tolerance) <= 0 ? "no tool meets a tolerance of nothing"
                                          : "a tolerance of more than half the dose",
                "write how far a dose may be from the exact one: 5 to 20 % is usual");
    }
  }
  dose.ceiling = read_rate(map, "at most", stock.dry);
  dose.ceiling_text = map.text("at most");
  dose.floor = read_rate(map, "at least", stock.dry);
  dose.floor_text = map.text("at least");
  dose.note = map.text("note");
  check_limits(map, dose);
  const bool clean = map.checking().out.size() == before && !stock.recipe.empty();
  if (clean && map.is_map() && is_zero_dose(dose)) {
    map.error(node->place, map.path(), "a dose of nothing", "write more than 0");
  }
}

// What a liquid adds to the volume cannot be guessed from its weight.
void check_displacement(const MapReader& map, const Room& room, const Stock& stock) {
  if (stock.water.kind != RecipeWater::Kind::added) return;
  for (const Ingredient& ingredient : stock.recipe) {
    const Product* product = find(room.products, ingredient.product);
    const bool weighed = std::holds_alternative<Mass>(ingredient.amount);
    if (product == nullptr || product->form != Product::Form::liquid || !weighed ||
        product->displacement)
      continue;
    map.error(ingredient.origin.place, ingredient.origin.path,
              "a liquid by weight into water added: its volume is not known",
              "write mL, use water to:, or add displacement: to products." + ingredient.product);
  }
}

// What says how a stronger stock is diluted says nothing without one.
void refuse_dilution_keys(const MapReader& map) {
  for (const char* key : {"take", "strength", "taken with"}) {
    if (map.find(key) == nullptr) continue;
    map.error(map.find(key)->place, map.path_of(key), "from which stock?",
              "add diluted from: with the stronger stock's id, or write the strength beside the "
              "product in recipe:");
  }
}

// A powder that is dosed straight from its tub.
void read_powder(const MapReader& map, const Room& room, Stock& stock) {
  stock.dry = true;
  for (const char* key : {"recipe", "water to", "water added", "weighed with", "made up in",
                          "diluted from", "take", "strength", "taken with"}) {
    if (map.find(key) == nullptr) continue;
    map.error(map.find(key)->place, map.path_of(key), "a powder straight from its tub is not mixed",
              "take powder: out, or take this line out");
  }
  Ingredient tub;
  tub.product = map.text("powder");
  tub.origin = map.origin_of("powder");
  tub.amount = grams(0);
  if (tub.product.empty() || !refer(map, *map.find("powder"), map.path_of("powder"), "product",
                                    tub.product, ids_of(room.products)))
    return;
  if (find(room.products, tub.product)->form == Product::Form::liquid) {
    map.error(tub.origin.place, tub.origin.path, quoted(tub.product) + " is a liquid",
              "write recipe: and water to: for a liquid");
  }
  stock.recipe.push_back(tub);
}

void refuse_tool(const MapReader& map, const Node& item, const Tool& tool, bool dry) {
  map.error(item.place, map.path_of("tools"),
            quoted(tool.id) + (dry ? " is a tool for liquids, and this is a powder"
                                   : " is a scale, and this is a liquid"),
            dry ? "name a scale, or a spoon or cup with for: powder"
                : "name a syringe, pipette, cylinder or cup");
}

void read_stock_tools(const MapReader& map, const Room& room, Stock& stock) {
  stock.tools = refer_each(map, "tools", "measuring tool", ids_of(room.tools));
  const Node* list = map.find("tools");
  if (list == nullptr || list->kind != Node::Kind::list) return;
  if (list->items.empty()) {
    map.error(list->place, map.path_of("tools"), "a list without tools",
              "name at least one, or take the line out: then all that suit are used");
  }
  for (const Node& item : list->items) {
    const Tool* tool = find(room.tools, trimmed(item.text));
    if (tool == nullptr) continue;
    const bool wrong = stock.dry ? !tool->for_powder : tool->holds.is_powder();
    if (wrong) refuse_tool(map, item, *tool, stock.dry);
    const Product* powder =
        stock.dry && !stock.recipe.empty() ? find(room.products, stock.recipe[0].product) : nullptr;
    if (powder != nullptr && !powder->bulk_density && tool->for_powder &&
        !tool->holds.is_powder()) {
      map.error(item.place, map.path_of("tools"), "what a scoop of this powder weighs is not known",
                "add bulk density: to products." + powder->id + ", or name a scale");
    }
    if (!tool->only_for.empty() && tool->only_for != stock.id) {
      map.error(item.place, map.path_of("tools"),
                quoted(tool->id) + " is kept for " + quoted(tool->only_for),
                "name another tool, or take only for: out of tools." + tool->id);
    }
  }
}

void check_measurable(const MapReader& map, std::string_view key, const Tool& tool,
                      Portion amount) {
  if (tool.marks.empty() || amount.stored() <= 0) return;
  if (amount.stored() >= tool.marks.front().stored() * (1 - 1e-9)) return;
  map.error(map.find(key)->place, map.path_of(key),
            quoted(tool.id) + " does not measure " + portion_text(amount) + ": its first mark is " +
                portion_text(tool.marks.front()),
            "name a smaller tool, or mix more at a time");
}

// What the powder was weighed with and the water measured in: they bound the strength's error.
void read_mixing_tools(const MapReader& map, const Room& room, Stock& stock) {
  const auto tool_of = [&](std::string_view key, bool scale) {
    std::string id = map.text(key);
    if (id.empty() ||
        !refer(map, *map.find(key), map.path_of(key), "measuring tool", id, ids_of(room.tools)))
      return std::string();
    if (find(room.tools, id)->holds.is_powder() != scale) {
      map.error(map.find(key)->place, map.path_of(key),
                quoted(id) + (scale ? " is no scale" : " is a scale"),
                scale ? "name a tool of kind: scale" : "name a cylinder or cup");
      return std::string();
    }
    return id;
  };
  stock.weighed_with = tool_of("weighed with", true);
  stock.made_up_in = tool_of("made up in", false);
  stock.taken_with = tool_of("taken with", false);
  const Tool* taking = find(room.tools, stock.taken_with);
  if (taking != nullptr) check_measurable(map, "taken with", *taking, stock.taken);
  // Below its first mark a tool measures nothing.
  const Tool* scale = find(room.tools, stock.weighed_with);
  for (const Ingredient& ingredient : stock.recipe) {
    const auto* mass = std::get_if<Mass>(&ingredient.amount);
    if (stock.stronger != nullptr) continue;
    if (scale != nullptr && mass != nullptr) check_measurable(map, "weighed with", *scale, *mass);
  }
  const Tool* vessel = find(room.tools, stock.made_up_in);
  if (vessel != nullptr) check_measurable(map, "made up in", *vessel, stock.water.volume);
}

// What goes in must leave room for water: more liquid than the finished volume is a slip.
void check_volume(const MapReader& map, const Room& room, const Stock& stock) {
  if (stock.water.kind != RecipeWater::Kind::made_up_to || stock.dry) return;
  Volume liquids;
  for (const Ingredient& ingredient : stock.recipe) {
    const auto* volume = std::get_if<Volume>(&ingredient.amount);
    const Product* product = find(room.products, ingredient.product);
    if (volume != nullptr && product != nullptr && product->form == Product::Form::liquid)
      liquids = liquids + *volume;
  }
  if (in_millilitres(stock.water.volume) <= 0 || liquids <= stock.water.volume) return;
  map.error(map.find("water to")->place, map.path_of("water to"),
            "the liquids of the recipe are more than the finished volume",
            "water to: is the volume of all of it together");
}

Stock read_stock(const Checking& checking, const std::string& id, const Node& node,
                 const std::string& path, const Place& place, const HazardBooks& books,
                 const Room& room) {
  const MapReader map(checking, node, path, keys::kStock);
  Stock stock;
  stock.id = id;
  stock.origin = {place, path};
  stock.name = map.text("name", id);
  if (map.find("powder") != nullptr) {
    read_powder(map, room, stock);
  } else {
    read_water(map, stock);
    if (map.find("diluted from") != nullptr) {
      read_dilution(map, room, stock);
    } else {
      read_recipe(map, room, stock);
      refuse_dilution_keys(map);
    }
  }
  read_dose(map, room, books.knowledge, stock);
  stock.keeps = map.value<Duration>("keeps", parse_duration);
  constexpr double kLongest = 7300;  // days: twenty years
  if (stock.keeps && (in_days(*stock.keeps) <= 0 || in_days(*stock.keeps) > kLongest)) {
    map.error(map.find("keeps")->place, map.path_of("keeps"),
              "not a shelf life: " + quoted(map.text("keeps")), "write a time of up to 7300 days");
  }
  read_mixing_tools(map, room, stock);
  check_displacement(map, room, stock);
  check_volume(map, room, stock);
  stock.container = map.text("container");
  if (!stock.container.empty()) {
    refer(map, *map.find("container"), map.path_of("container"), "container", stock.container,
          ids_of(room.containers));
  }
  read_stock_tools(map, room, stock);
  stock.hazards = check_hazards(map, books);
  stock.density = read_density(map);
  stock.never_mix_with = map.texts("never mix with");
  stock.coldest = map.value<Temperature>("coldest", parse_temperature);
  if (stock.coldest && (*stock.coldest < degrees_celsius(-10) || *stock.coldest > kWarmest)) {
    map.error(map.find("coldest")->place, map.path_of("coldest"),
              "no bottle of the trade stands so cold or so warm", "write it as 5 °C");
  }
  stock.claims = read_claims(map, stock, room);
  return stock;
}

}  // namespace

void check_stocks(const Checking& checking, const Node& tree, const HazardBooks& books,
                  Room& room) {
  for_each_entry(checking, tree, "stocks",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.stocks.push_back(read_stock(checking, id, node, path, place, books, room));
                 });
}

}  // namespace dosewright
