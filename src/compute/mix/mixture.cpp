#include "dosewright/mix/mixture.hpp"

#include <algorithm>

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
  if (is_liquid_by_volume(ingredient, product)) return {std::get<Volume>(ingredient.amount), {}};
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

}  // namespace

Mixture mix(const Stock& stock, const std::vector<Product>& products) {
  Mixture mixture;
  mixture.makes = stock.water.volume;
  Volume uncertain;
  bool scooped = false;
  for (const Ingredient& ingredient : stock.recipe) {
    const Product& product = *find(products, ingredient.product);
    scooped = scooped || is_scooped(ingredient, product);
    if (stock.water.kind != RecipeWater::Kind::added) continue;
    const Gain gain = gain_of(ingredient, product);
    mixture.makes = mixture.makes + gain.volume;
    uncertain = uncertain + gain.bound;
  }
  for (const Ingredient& ingredient : stock.recipe) {
    const Product& product = *find(products, ingredient.product);
    mixture.components.push_back(component_of(ingredient, product, mixture.makes));
  }
  const double by_volume = uncertain / (mixture.makes - uncertain);
  mixture.strength_bound = share(by_volume + (scooped ? as_ratio(kScoopBound) : 0));
  return mixture;
}

Mixture scaled(const Mixture& mixture, Volume wanted) {
  const double factor = wanted / mixture.makes;
  Mixture out = mixture;
  out.makes = wanted;
  for (Component& component : out.components) {
    std::visit([&](auto& amount) { amount = amount * factor; }, component.amount);
  }
  return out;
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
