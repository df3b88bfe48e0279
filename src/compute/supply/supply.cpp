#include "dosewright/supply/supply.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

Concentration used_per_water(Concentration strength, VolumePerVolume dose) {
  return strength * (in_millilitres_per_litre(dose) / 1000);
}

Volume treated_by(Mass product, Concentration used) {
  return litres(in_grams(product) / in_grams_per_litre(used));
}

Duration lasts(Mass product, Concentration used, Volume water, Duration period) {
  return period * (treated_by(product, used) / water);
}

Mass reorder_at(Concentration used, Volume water, Duration period, Duration order_takes) {
  // Doses come in lumps: as many rounds as can fall into the time.
  return used * water * std::max(1.0, std::ceil(order_takes / period - 1e-9));
}

Money cost_of_treating(Volume water, Concentration used, const Money& price, Mass pack) {
  return {price.amount * (used * water / pack), price.currency};
}

UseOverTime use_over_time(Duration lasting, Duration period, std::size_t most) {
  UseOverTime out;
  const double periods = lasting / period;
  out.periods_a_step =
      std::max(1, static_cast<int>(std::ceil(periods / static_cast<double>(most - 1))));
  for (std::size_t i = 0; i < most; ++i) {
    const double gone = static_cast<double>(i) * out.periods_a_step / periods;
    out.left.push_back(std::max(0.0, 1 - gone));
    if (gone >= 1) break;
  }
  return out;
}

}  // namespace dosewright
