// How far a pack goes: what it makes, treats, costs and how long it lasts; not where the doses come
// from.
#pragma once

#include <vector>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// Grams of product in each litre of water that is treated: strength times dose, c = c_stock * v /
/// V (mass balance; the volume of the dose itself is left out of the water).
[[nodiscard]] Concentration used_per_water(Concentration strength, VolumePerVolume dose);

/// How much water so much product treats: V = m / c. Precondition: c is more than 0.
[[nodiscard]] Volume treated_by(Mass product, Concentration used);

/// How long it lasts when `water` is treated in each `period`: t = m / (c V) * period.
/// Precondition: c and water are more than 0.
[[nodiscard]] Duration lasts(Mass product, Concentration used, Volume water, Duration period);

/// What is left when it is time to order: what is used while an order is on its way.
[[nodiscard]] Mass reorder_at(Concentration used, Volume water, Duration period,
                              Duration order_takes);

/// What treating so much water costs, at a price for a pack.
[[nodiscard]] Money cost_of_treating(Volume water, Concentration used, const Money& price,
                                     Mass pack);

/// What is left at the end of each period, as a part of what there was: 1, …, 0. At most `most`
/// values; where it lasts longer, every n-th period is shown, n in `periods_a_step`.
struct UseOverTime {
  std::vector<double> left;
  int periods_a_step = 1;
};
[[nodiscard]] UseOverTime use_over_time(Duration lasting, Duration period, std::size_t most);

}  // namespace dosewright
