#include "dosewright/dose/dose.hpp"

namespace dosewright {

DoseRate dose_rate(const DoseRule& rule, const Mixture& mixture) {
  if (const auto* rate = std::get_if<VolumePerVolume>(&rule.amount)) return *rate;
  if (const auto* powder = std::get_if<Concentration>(&rule.amount)) return *powder;
  const auto& target = std::get<Target>(rule.amount);
  // A powder of no volume to speak of: the water stays what it was.
  if (in_millilitres(mixture.makes) <= 0) return target.concentration;
  Concentration strength;
  for (const Component& component : mixture.components) {
    if (component.product == target.product) strength = std::get<Concentration>(component.strength);
  }
  // The dose itself adds to the water: V c = (V + v) c_target, so v / V = c_target / (c -
  // c_target).
  const double reached = in_grams_per_litre(target.concentration);
  return millilitres_per_litre(1000 * reached / (in_grams_per_litre(strength) - reached));
}

Volume water_to_dose(const DoseRule& rule, Volume vessel, Share change) {
  return rule.basis == WaterBasis::whole_vessel ? vessel : vessel * as_ratio(change);
}

}  // namespace dosewright
