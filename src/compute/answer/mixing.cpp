#include "dosewright/answer/mixing.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "identity.hpp"
#include "solution.hpp"
#include "steps.hpp"

namespace dosewright {

namespace {

// What the strength's error would be, were every weighed powder scooped.
std::optional<RelativeError> error_if_scooped(const Room& room, const Stock& stock) {
  Stock scooped = stock;
  for (Ingredient& ingredient : scooped.recipe) {
    const Product& product = *find(room.products, ingredient.product);
    const auto* mass = std::get_if<Mass>(&ingredient.amount);
    if (product.form == Product::Form::liquid || mass == nullptr) continue;
    if (!product.bulk_density) return std::nullopt;
    ingredient.amount = litres(*mass / (*product.bulk_density * litres(1)));
  }
  return mix(scooped, room.products, room.tools).strength_error;
}

Solubility solubility_of(const Product& product, const Knowledge& knowledge) {
  const Substance* substance = substance_of(product, knowledge);
  Solubility out;
  if (substance != nullptr) out = {substance->soluble, substance->soluble_cold};
  if (product.soluble) out = {product.soluble, std::nullopt};
  return out;
}

std::vector<Dissolved> everything_in(const Room& room, const StockAnswer& stock,
                                     const Knowledge& knowledge) {
  std::vector<Dissolved> out;
  for (const Component& component : stock.mixture.components) {
    const Product& product = *find(room.products, component.product);
    const auto weight = weight_of(component, product);
    if (weight) out.push_back(dissolved_from(product, *weight, knowledge));
  }
  return out;
}

// What is known of the heat of dissolving; acids and bases that nobody knows are taken to heat.
Dissolving dissolving_of(const StockAnswer& stock, const Room& room, const Knowledge& knowledge) {
  const auto& ph = stock.stock->hazards.ph;
  bool heats = among(stock.families, "base") || (ph && (*ph <= 2 || *ph >= 11.5));
  bool cools = true;
  for (const Ingredient& ingredient : stock.stock->recipe) {
    const Substance* known = substance_of(*find(room.products, ingredient.product), knowledge);
    heats = heats || (known != nullptr && known->dissolving == "heats");
    cools = cools && known != nullptr && known->dissolving == "cools";
  }
  if (heats) return Dissolving::heats;
  return cools ? Dissolving::cools : Dissolving::plain;
}

// Seven tenths of the finished volume, and nine tenths of the water that it holds at least: what is
// stirred in must not rise above the mark.
std::optional<Volume> first_water_of(const MixAnswer& mix, const Room& room) {
  const Volume makes = mix.filled.makes;
  if (mix.stock->stock->stronger != nullptr) {
    const Volume rest = (makes - mix.filled.taken) * 0.9;
    return rest < makes * 0.05 ? std::nullopt : std::optional(std::min(rest, makes * 0.7));
  }
  double grams_in_litre = 0;
  for (const Component& component : mix.filled.components) {
    const auto weight = weight_of(component, *find(room.products, component.product));
    // A liquid whose density is not known is taken to be as heavy as any of the trade.
    grams_in_litre +=
        weight ? in_grams_per_litre(*weight)
               : 1.5 * in_millilitres_per_litre(std::get<VolumePerVolume>(component.strength));
  }
  const double water = (in_grams_per_litre(mix.density.least) - grams_in_litre) / 998.2;
  const double part = std::min(0.7, 0.9 * water);
  if (part < 0.05) return std::nullopt;
  return litres(rounded_outward(in_litres(makes) * part, 2, false));
}

// --- claims

// Grams of the claim's product; of a scoop by its bulk density.
Mass mass_of(const Claim& claim, const Product& product) {
  if (const auto* mass = std::get_if<Mass>(&claim.amount)) return *mass;
  const bool powder = product.form == Product::Form::powder;
  return (powder ? *product.bulk_density : *product.density) * std::get<Volume>(claim.amount);
}

// What the recipe holds of a product, in g per L; nothing for a liquid whose weight is not known.
std::optional<Concentration> held(const Room& room, const StockAnswer& stock,
                                  const std::string& id) {
  for (const Component& component : stock.mixture.components) {
    if (component.product == id) return weight_of(component, *find(room.products, id));
  }
  return std::nullopt;
}

std::optional<double> factor_of(const Room& room, const StockAnswer& stock, const Claim& claim) {
  const double rate = per_litre(stock.all);
  if (claim.product.empty()) {
    const VolumePerVolume said = rate_of(std::get<Volume>(claim.amount), claim.water);
    return in_millilitres_per_litre(said) / rate;
  }
  const Concentration said = mass_of(claim, *find(room.products, claim.product)) / claim.water;
  if (stock.stock->dry) return in_grams_per_litre(said) / rate;
  const auto strength = held(room, stock, claim.product);
  if (!strength || in_grams_per_litre(*strength) <= 0) return std::nullopt;
  if (claim.kind == Claim::Kind::strength) return said / *strength;
  return in_grams_per_litre(said) / (in_grams_per_litre(*strength) * rate / 1000);
}

DoseRate times(const DoseRate& rate, double factor) {
  return std::visit([&](auto value) { return DoseRate(value * factor); }, rate);
}

}  // namespace

std::vector<SolubilityAnswer> answer_solubility(const Room& room, const StockAnswer& stock,
                                                const Knowledge& knowledge) {
  std::vector<SolubilityAnswer> out;
  if (stock.stock->dry) return out;
  const std::vector<Dissolved> all = everything_in(room, stock, knowledge);
  const SolutionDensity density = density_of(*stock.stock, all);
  Concentration everything;
  for (const Dissolved& one : all) everything = everything + one.strength;
  for (const Component& component : stock.mixture.components) {
    const Product& product = *find(room.products, component.product);
    const auto weight = weight_of(component, product);
    if (product.form == Product::Form::liquid || !weight) continue;
    SolubilityAnswer one;
    one.product = &product;
    one.at = stock.stock->coldest.value_or(degrees_celsius(20));
    one.known_at = std::min(one.at, degrees_celsius(20));
    one.alone = stock.mixture.components.size() == 1;
    one.soluble = soluble_at(solubility_of(product, knowledge), one.at);
    one.result = dissolves(*weight, everything, density, one.soluble);
    // As strong as its error allows.
    const double strong = 1 + as_ratio(stock.mixture.strength_error.worst);
    if (one.result == Dissolves::yes &&
        dissolves(*weight * strong, everything * strong, density, one.soluble) != Dissolves::yes)
      one.result = Dissolves::perhaps;
    out.push_back(one);
  }
  return out;
}

MixAnswer answer_mixing(const RoomAnswer& answers, const StockAnswer& stock, Volume makes,
                        const Container* container) {
  const Room& room = *answers.room;
  MixAnswer out;
  out.stock = &stock;
  out.container = container;
  out.filled = mix_batch(*stock.stock, room.products, room.tools, makes);
  if (stock.stock->stronger != nullptr) {
    out.stronger = find_stock(answers, stock.stock->stronger->id);
    out.steps.push_back(step_taking(room, *stock.stock, out.filled.taken));
  } else {
    for (const Component& component : out.filled.components)
      out.steps.push_back(step_for(room, *stock.stock, component));
  }
  out.water = stock.stock->water.volume * (makes / stock.mixture.makes);
  out.water_measured = on_marks(out.water, tools_to_mix_with(room, stock.stock->made_up_in, false));
  out.density = density_of(*stock.stock, everything_in(room, stock, answers.sources->knowledge));
  const bool weighed = std::any_of(out.steps.begin(), out.steps.end(), [](const MixStep& step) {
    const bool powder = step.product != nullptr && step.product->form == Product::Form::powder;
    return powder && std::holds_alternative<Mass>(step.amount);
  });
  if (weighed)
    out.if_scooped = error_if_scooped(room, scaled(*stock.stock, makes / stock.mixture.makes));
  if (stock.stock->water.kind == RecipeWater::Kind::made_up_to)
    out.first_water = first_water_of(out, room);
  out.dissolving = dissolving_of(stock, room, answers.sources->knowledge);
  out.solubility = answer_solubility(room, stock, answers.sources->knowledge);
  return out;
}

std::vector<ClaimAnswer> answer_claims(const Room& room, const StockAnswer& stock) {
  std::vector<ClaimAnswer> out = {{"dose", "", stock.stock->dose.origin, 1, stock.all}};
  for (const Claim& claim : stock.stock->claims) {
    const auto factor = factor_of(room, stock, claim);
    if (!factor) continue;
    out.push_back({claim.name, claim.text, claim.origin, *factor, times(stock.all, *factor)});
  }
  return out;
}

bool disagree(const ClaimAnswer& one, const ClaimAnswer& other, Share tolerance) {
  const double more = std::max(one.factor, other.factor);
  const double less = std::min(one.factor, other.factor);
  return more > less * (1 + as_ratio(tolerance)) * (1 + 1e-9);
}

}  // namespace dosewright
