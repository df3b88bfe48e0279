// Salt in the treated water stated by weight; not how it is asked for or measured out.
#pragma once

#include "dosewright/mix/density.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// g per L of the treated water. Where its density is not known the strength is counted by that of
/// fresh water, and can be up to `most`; else the two are equal.
struct BathStrength {
  Concentration strength;
  Concentration most;
};

/// So many grams of a salt, as weighed, in each gram of the treated water at 20 °C: c = w rho(c),
/// rho by `solution_density`. Without density data c = w rho of fresh water, at most w rho / (1 -
/// w): a salt takes up no less room than none. `salt.strength` is not looked at. Precondition:
/// less than all of it.
[[nodiscard]] BathStrength bath_by_weight(Share by_weight, Dissolved salt);

/// What is added to each litre of fresh water at 20 °C for such a bath: rho w / (1 - w).
[[nodiscard]] Concentration added_by_weight(Share by_weight);

}  // namespace dosewright
