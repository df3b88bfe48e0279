#include "solution.hpp"

#include "dosewright/units/print.hpp"
#include "identity.hpp"

namespace dosewright {

std::optional<Concentration> weight_of(const Component& component, const Product& product) {
  if (const auto* strength = std::get_if<Concentration>(&component.strength)) return *strength;
  if (!product.density) return std::nullopt;
  const auto rate = std::get<VolumePerVolume>(component.strength);
  return *product.density * (in_millilitres_per_litre(rate) / 1000);
}

Dissolved dissolved_from(const Product& product, Concentration strength,
                         const Knowledge& knowledge) {
  Dissolved out;
  out.name = product.name;
  out.strength = strength;
  out.takes_up = product.displacement;
  const Substance* substance = substance_of(product, knowledge);
  const Substance* anhydrous = anhydrous_form(substance, knowledge);
  if (anhydrous != nullptr) out.anhydrous_cas = anhydrous->cas;
  if (anhydrous != nullptr && substance->molar_mass > 0 && anhydrous->molar_mass > 0)
    out.anhydrous = share(anhydrous->molar_mass / substance->molar_mass);
  out.liquid = product.form == Product::Form::liquid;
  if (out.liquid && product.density)
    out.takes_up = millilitres_per_gram(1000 / in_grams_per_litre(*product.density));
  return out;
}

SolutionDensity density_of(const Stock& stock, const std::vector<Dissolved>& dissolved) {
  if (stock.density)
    return {*stock.density,
            *stock.density,
            {{"density {1}, as the description states",
              {figure(in_grams_per_litre(*stock.density) / 1000, 3) + " g per mL"}}}};
  SolutionDensity out = solution_density(dissolved);
  // What is diluted from something lighter than water can be as light, and then weighs more by
  // share.
  const auto& stronger = stock.stronger;
  if (stronger != nullptr && stronger->density && *stronger->density < out.least) {
    out.least = *stronger->density;
    out.how.push_back({", down to the {1} of what it is diluted from",
                       {figure(in_grams_per_litre(out.least) / 1000, 3) + " g per mL"}});
  }
  return out;
}

}  // namespace dosewright
