#include "dosewright/dose/dose.hpp"

namespace dosewright {

VolumePerVolume dose_rate(const DoseRule& rule, const Mixture& mixture) {
  if (const auto* rate = std::get_if<VolumePerVolume>(&rule.amount)) return *rate;
  const auto& target = std::get<Target>(rule.amount);
  Concentration strength;
  for (const Component& component : mixture.components) {
    if (component.product == target.product) strength = std::get<Concentration>(component.strength);
  }
  // c1 V1 = c2 V2, the volume of the dose itself neglected: mL/L = 1000 (g/L) / (g/L).
  return millilitres_per_litre(1000 * (target.concentration / strength));
}

Volume water_to_dose(const DoseRule& rule, Volume vessel, Share change) {
  return rule.basis == WaterBasis::whole_vessel ? vessel : vessel * as_ratio(change);
}

}  // namespace dosewright
