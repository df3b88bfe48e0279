#include "dosewright/mix/solubility.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {

// Strength over the water at this density: g per L of water.
double in_the_water(Concentration strength, Concentration everything, Concentration density) {
  const double water = in_grams_per_litre(density) - in_grams_per_litre(everything);
  if (water <= 0) return HUGE_VAL;
  // A litre of water weighs 998 g at 20 °C (CIPM formula).
  return in_grams_per_litre(strength) / (water / 998.2);
}

}  // namespace

std::optional<Concentration> soluble_at(const Solubility& limits, Temperature at) {
  const double degrees = in_degrees_celsius(at);
  if (!limits.at_20 || degrees < 0) return std::nullopt;
  if (degrees >= 20) return limits.at_20;
  if (!limits.at_0) return std::nullopt;
  const double warm = in_grams_per_litre(*limits.at_20);
  const double cold = in_grams_per_litre(*limits.at_0);
  return grams_per_litre(cold * std::pow(warm / cold, degrees / 20));
}

Dissolves dissolves(Concentration strength, Concentration everything,
                    const SolutionDensity& density, const std::optional<Concentration>& soluble) {
  if (!soluble) return Dissolves::unknown;
  const double limit = in_grams_per_litre(*soluble);
  const double most_water = in_the_water(strength, everything, density.most);
  const double least_water = in_the_water(strength, everything, density.least);
  if (most_water > limit * (1 + 1e-9)) return Dissolves::no;
  return least_water > limit * (1 + 1e-9) ? Dissolves::perhaps : Dissolves::yes;
}

}  // namespace dosewright
