#include "dosewright/mix/batch.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {

// Strength over strength; nothing when one is by weight and the other by volume, or there is none.
std::optional<double> ratio(const std::variant<Concentration, VolumePerVolume>& bottle,
                            const std::variant<Concentration, VolumePerVolume>& recipe) {
  if (const auto* weight = std::get_if<Concentration>(&recipe)) {
    const auto* other = std::get_if<Concentration>(&bottle);
    if (other == nullptr || in_grams_per_litre(*weight) <= 0) return std::nullopt;
    return *other / *weight;
  }
  const auto* other = std::get_if<VolumePerVolume>(&bottle);
  const double whole = in_millilitres_per_litre(std::get<VolumePerVolume>(recipe));
  if (other == nullptr || whole <= 0) return std::nullopt;
  return in_millilitres_per_litre(*other) / whole;
}

// g in a mL, or mL in a mL: what the mass balance is reckoned in.
double in_a_millilitre(const std::variant<Concentration, VolumePerVolume>& strength) {
  if (const auto* weight = std::get_if<Concentration>(&strength))
    return in_grams_per_litre(*weight) / 1000;
  return in_millilitres_per_litre(std::get<VolumePerVolume>(strength)) / 1000;
}

// mL gained for each g, or mL, that is added.
double gain(const std::variant<Concentration, VolumePerVolume>& strength, const Product& product) {
  if (std::holds_alternative<VolumePerVolume>(strength)) return 1;
  const VolumePerMass displacement = product.displacement.value_or(kUnknownDisplacement);
  return in_millilitres(displacement * grams(1));
}

// A powder that the recipe scoops is added as it is measured there.
std::variant<Mass, Volume> as_measured(double amount, const Component& component,
                                       const Product& product) {
  if (std::holds_alternative<VolumePerVolume>(component.strength)) return millilitres(amount);
  if (!component.scooped) return grams(amount);
  return litres(grams(amount) / (*product.bulk_density * litres(1)));
}

// Of what is mixed from a stronger stock: that is taken, and water.
Mending mend_with_stronger(const Mixture& target, double times, Volume volume) {
  Mending out;
  out.finishes = volume;
  if (times >= 1) {
    out.add = {Volume()};
    out.water = volume * (times - 1);
    out.finishes = volume + out.water;
    return out;
  }
  // c V + S v = C (V + v), S = C makes / taken.
  const double stronger = target.makes / target.taken;
  const Volume taken = volume * ((1 - times) / (stronger - 1));
  out.add = {taken};
  out.finishes = volume + taken;
  return out;
}

}  // namespace

Strengths strengths_of(const Mixture& mixture) {
  Strengths out;
  for (const Component& component : mixture.components) out.push_back(component.strength);
  return out;
}

Amounts amounts_of(const Stock& stock, const Mixture& filled) {
  if (stock.stronger != nullptr) return {filled.taken};
  Amounts out;
  for (const Component& component : filled.components) out.push_back(component.amount);
  return out;
}

Mixture mix_weighed(const Stock& stock, const std::vector<Product>& products,
                    const std::vector<Tool>& tools, Volume wanted, const Amounts& amounts) {
  Stock batch = scaled(stock, wanted / mix(stock, products, tools).makes);
  if (batch.stronger != nullptr) {
    const double factor = std::get<Volume>(amounts.front()) / batch.taken;
    batch.taken = batch.taken * factor;
    for (Ingredient& ingredient : batch.recipe)
      std::visit([&](auto& amount) { amount = amount * factor; }, ingredient.amount);
    return mix(batch, products, tools);
  }
  for (std::size_t i = 0; i < batch.recipe.size(); ++i) batch.recipe[i].amount = amounts[i];
  return mix(batch, products, tools);
}

std::optional<double> times_as_strong(const Strengths& recipe, const Strengths& bottle) {
  if (recipe.empty() || recipe.size() != bottle.size()) return std::nullopt;
  std::optional<double> first;
  for (std::size_t i = 0; i < recipe.size(); ++i) {
    const auto times = ratio(bottle[i], recipe[i]);
    if (!times || *times <= 0) return std::nullopt;
    if (first && std::fabs(*times / *first - 1) > as_ratio(kSameStrength)) return std::nullopt;
    if (!first) first = times;
  }
  return first;
}

bool is_same_strength(double times) {
  return std::fabs(times - 1) <= as_ratio(kSameStrength) * (1 + 1e-9);
}

Stock as_in_bottle(const Stock& stock, const Mixture& mixture, double times) {
  Stock out = stock;
  // x times the amounts in the same water: x m / (W + x G) = times m / (W + G), G what they gain.
  const Volume water = stock.water.volume;
  const Volume gained = mixture.makes - water;
  const double more = times * (water / (mixture.makes - gained * times));
  for (Ingredient& ingredient : out.recipe)
    std::visit([&](auto& amount) { amount = amount * more; }, ingredient.amount);
  out.taken = stock.taken * more;
  const auto less = [&](DoseRate& rate) {
    if (auto* volume = std::get_if<VolumePerVolume>(&rate)) *volume = *volume * (1 / times);
  };
  if (auto* rate = std::get_if<VolumePerVolume>(&out.dose.amount)) *rate = *rate * (1 / times);
  if (auto* whole = std::get_if<WholeMix>(&out.dose.amount))
    whole->treats = whole->treats * (times * ((water + gained * more) / mixture.makes));
  if (out.dose.ceiling) less(*out.dose.ceiling);
  if (out.dose.floor) less(*out.dose.floor);
  // The limits are no longer those that the user wrote.
  out.dose.ceiling_text.clear();
  out.dose.floor_text.clear();
  out.claims.clear();
  // It was weighed for the recipe. Where that is lighter than water, water would make the share by
  // weight smaller than it can be.
  const bool lighter = out.density && *out.density < grams_per_litre(998.2);
  if (times != 1 && !lighter) out.density.reset();
  return out;
}

Mending mend(const Stock& stock, const std::vector<Product>& products, const Mixture& target,
             const Strengths& found, Volume volume) {
  const Strengths wanted = strengths_of(target);
  if (stock.stronger != nullptr)
    return mend_with_stronger(target, *ratio(found.front(), wanted.front()), volume);
  const double start = in_millilitres(volume);
  double most = 0;
  double gained_now = 0;
  double gained_wanted = 0;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const double d = gain(wanted[i], *find(products, target.components[i].product));
    most = std::max(most, *ratio(found[i], wanted[i]));
    gained_now += d * in_a_millilitre(found[i]);
    gained_wanted += d * in_a_millilitre(wanted[i]);
  }
  const double finishes = std::max(start * most, start * (1 - gained_now) / (1 - gained_wanted));
  Mending out;
  double water = finishes - start;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Product& product = *find(products, target.components[i].product);
    const double amount =
        std::max(0.0, in_a_millilitre(wanted[i]) * finishes - in_a_millilitre(found[i]) * start);
    water -= gain(wanted[i], product) * amount;
    out.add.push_back(as_measured(amount, target.components[i], product));
  }
  out.water = millilitres(std::max(0.0, water));
  out.finishes = millilitres(finishes);
  return out;
}

}  // namespace dosewright
