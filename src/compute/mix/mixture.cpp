#include "dosewright/mix/mixture.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {

bool is_scooped(const Ingredient& ingredient, const Product& product) {
  return product.form == Product::Form::powder && std::holds_alternative<Volume>(ingredient.amount);
}

// Grams of the ingredient; a powder by volume counts by its bulk density. Not for liquids by
// volume.
Mass weight_of(const Ingredient& ingredient, const Product& product) {
  if (const auto* mass = std::get_if<Mass>(&ingredient.amount)) return *mass;
  return *product.bulk_density * std::get<Volume>(ingredient.amount);
}

bool is_liquid_by_volume(const Ingredient& ingredient, const Product& product) {
  return product.form == Product::Form::liquid && std::holds_alternative<Volume>(ingredient.amount);
}

struct Gain {
  Volume volume;
  Volume bound;
};

// What an ingredient adds to the volume of the water it goes into.
Gain gain_of(const Ingredient& ingredient, const Product& product) {
  if (is_liquid_by_volume(ingredient, product)) {
    const Volume volume = std::get<Volume>(ingredient.amount);
    return {volume, volume * as_ratio(kUnknownVolume)};
  }
  const Mass mass = weight_of(ingredient, product);
  if (product.displacement) return {*product.displacement * mass, {}};
  return {kUnknownDisplacement * mass, kUnknownDisplacementBound * mass};
}

Component component_of(const Ingredient& ingredient, const Product& product, Volume makes) {
  Component made;
  made.product = ingredient.product;
  made.amount = ingredient.amount;
  made.scooped = is_scooped(ingredient, product);
  if (is_liquid_by_volume(ingredient, product)) {
    made.strength = rate_of(std::get<Volume>(ingredient.amount), makes);
  } else {
    made.strength = weight_of(ingredient, product) / makes;
  }
  return made;
}

// The error of an amount measured with this tool in as many fills as it takes.
RelativeError measured_error(const Tool* tool, Portion amount, Share unknown) {
  if (tool == nullptr) return evenly_spread(unknown);
  // Below its first mark a tool is off by as much as at it, if not more; what it cannot show at all
  // is taken to be nine tenths off.
  const Portion first = tool->marks.front();
  if (amount.stored() < first.stored() * (1 - 1e-9)) {
    const FillError error = fill_error(*tool, first);
    const Portion worst = error.calibration.worst + error.reading.worst;
    return evenly_spread(share(std::min(0.9, worst / amount)));
  }
  const double fills = std::ceil(amount / tool->marks.back() - 1e-9);
  const FillError one = fill_error(*tool, amount * (1 / fills));
  const Portion worst = (one.calibration.worst + one.reading.worst) * fills;
  const double u = std::hypot(one.calibration.standard.stored() * fills,
                              one.reading.standard.stored() * std::sqrt(fills));
  return {share(worst / amount), share(u / amount.stored())};
}

RelativeError amount_error(const Ingredient& ingredient, const Product& product,
                           const Tool* scale) {
  if (is_scooped(ingredient, product)) {
    const RelativeError spoon = evenly_spread(kScoop);
    return {worst_of({share(2 * as_ratio(kScoop)), product.bulk_spread}, {}),
            combined({spoon.standard, spoon.standard, rectangular(product.bulk_spread)})};
  }
  const auto* mass = std::get_if<Mass>(&ingredient.amount);
  if (mass == nullptr) return evenly_spread(kUnknownVolume);
  return measured_error(scale, *mass, kUnknownWeighing);
}

RelativeError quotient(const RelativeError& amount, const RelativeError& purity,
                       const RelativeError& volume, const RelativeError& gain) {
  return {worst_of({amount.worst, purity.worst}, {volume.worst, gain.worst}),
          combined({amount.standard, purity.standard, volume.standard, gain.standard})};
}

void keep_larger(RelativeError& kept, const RelativeError& other) {
  if (other.worst > kept.worst) kept = other;
}

// C2 = C1 V1 / V2.
Mixture diluted(const Stock& stock, const std::vector<Product>& products,
                const std::vector<Tool>& tools) {
  Mixture mixture;
  mixture.makes = stock.water.volume;
  mixture.taken = stock.taken;
  for (const Ingredient& ingredient : stock.recipe)
    mixture.components.push_back(
        component_of(ingredient, *find(products, ingredient.product), mixture.makes));
  const RelativeError water =
      measured_error(find(tools, stock.made_up_in), stock.water.volume, kUnknownVolume);
  const RelativeError taken =
      measured_error(find(tools, stock.taken_with), stock.taken, kUnknownVolume);
  const RelativeError strong = mix(*stock.stronger, products, tools).strength_error;
  mixture.strength_error = quotient(strong, taken, water, {});
  return mixture;
}

Mixture from_the_tub(const Stock& stock, const std::vector<Product>& products) {
  Mixture mixture;
  for (const Ingredient& ingredient : stock.recipe) {
    Component pure;
    pure.product = ingredient.product;
    mixture.components.push_back(pure);
    const Product& product = *find(products, ingredient.product);
    keep_larger(mixture.strength_error, evenly_spread(product.impurity));
  }
  return mixture;
}

}  // namespace

Mixture mix(const Stock& stock, const std::vector<Product>& products,
            const std::vector<Tool>& tools) {
  if (stock.dry) return from_the_tub(stock, products);
  if (stock.stronger != nullptr) return diluted(stock, products, tools);
  Mixture mixture;
  mixture.makes = stock.water.volume;
  Volume uncertain;
  for (const Ingredient& ingredient : stock.recipe) {
    if (stock.water.kind != RecipeWater::Kind::added) continue;
    const Gain gain = gain_of(ingredient, *find(products, ingredient.product));
    mixture.makes = mixture.makes + gain.volume;
    uncertain = uncertain + gain.bound;
  }
  const RelativeError water =
      measured_error(find(tools, stock.made_up_in), stock.water.volume, kUnknownVolume);
  const RelativeError gain = evenly_spread(share(uncertain / mixture.makes));
  for (const Ingredient& ingredient : stock.recipe) {
    const Product& product = *find(products, ingredient.product);
    mixture.components.push_back(component_of(ingredient, product, mixture.makes));
    const RelativeError amount = amount_error(ingredient, product, find(tools, stock.weighed_with));
    keep_larger(mixture.strength_error,
                quotient(amount, evenly_spread(product.impurity), water, gain));
  }
  return mixture;
}

Stock scaled(const Stock& stock, double factor) {
  Stock out = stock;
  for (Ingredient& ingredient : out.recipe)
    std::visit([&](auto& amount) { amount = amount * factor; }, ingredient.amount);
  out.water.volume = stock.water.volume * factor;
  out.taken = stock.taken * factor;
  return out;
}

Mixture mix_batch(const Stock& stock, const std::vector<Product>& products,
                  const std::vector<Tool>& tools, Volume wanted) {
  const double factor = wanted / mix(stock, products, tools).makes;
  return mix(scaled(stock, factor), products, tools);
}

std::optional<Money> cost_of(const Mixture& mixture, const std::vector<Product>& products) {
  Money total;
  for (const Component& component : mixture.components) {
    const Product& product = *find(products, component.product);
    const auto* strength = std::get_if<Concentration>(&component.strength);
    const bool other =
        !total.currency.empty() && product.price && product.price->currency != total.currency;
    if (!product.price || !product.pack || strength == nullptr || other) return std::nullopt;
    total.amount += product.price->amount * (*strength * mixture.makes / *product.pack);
    total.currency = product.price->currency;
  }
  return total;
}

}  // namespace dosewright
