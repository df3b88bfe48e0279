#include "dosewright/dose/dose.hpp"

#include "dosewright/dose/chemistry.hpp"

namespace dosewright {

DoseRate dose_rate(const DoseRule& rule, const Mixture& mixture) {
  if (const auto* rate = std::get_if<VolumePerVolume>(&rule.amount)) return *rate;
  if (const auto* powder = std::get_if<Concentration>(&rule.amount)) return *powder;
  if (const auto* mix = std::get_if<WholeMix>(&rule.amount))
    return rate_of(mixture.makes, mix->treats);
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

DoseRate one_days_part(const DoseRule& rule, const DoseRate& all) {
  return std::visit([&](auto rate) { return DoseRate(rate * (1.0 / rule.days)); }, all);
}

Volume water_to_dose(const DoseRule& rule, Volume vessel, Share change) {
  const bool whole = rule.basis == WaterBasis::whole_vessel && rule.then != AfterChange::new_water;
  return whole ? vessel : vessel * as_ratio(change);
}

Concentration chlorine_in(const Removal& removal) {
  return removal.what == Oxidant::chloramine ? monochloramine_as_chlorine(removal.removed)
                                             : removal.removed;
}

std::optional<Concentration> unionised_freed(const Removal& removal, const Room& room) {
  if (removal.what == Oxidant::chlorine || !room.water_ph || !room.water_temperature)
    return std::nullopt;
  const Share part = unionised_share(*room.water_temperature, *room.water_ph);
  return ammonia_nitrogen_freed(chlorine_in(removal)) * as_ratio(part);
}

}  // namespace dosewright
