// What water changes leave of a dose, and what brings it back; not how a dose is measured out.
#pragma once

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// What is left after `times` changes of the same part of the water: (1 - f)^n.
[[nodiscard]] Share left_after_changes(Share change, int times);

/// What brings a vessel back to `target` after one change: C f V, the dose for the new water.
[[nodiscard]] Mass restoring_dose(Concentration target, Volume vessel, Share change);

/// The concentration right after the `times`-th dose when the full dose for the whole vessel is
/// repeated after every change: C x sum of (1 - f)^k for k from 0 to n - 1. Precondition: times
/// >= 1.
[[nodiscard]] Concentration peak_of_repeats(Concentration full_dose, Share change, int times);
/// Where those peaks run to: C / f. Precondition: a change of something.
[[nodiscard]] Concentration peak_in_the_end(Concentration full_dose, Share change);

/// The part of the water that is new when water runs through a vessel that stays mixed: 1 -
/// e^(-turnovers), turnovers = flow x time / volume (Kraul and others, Prog. Fish-Cult. 47:69,
/// 1985).
[[nodiscard]] Share replaced_by_flow(double turnovers);

/// The change that takes `now` to `wanted` with water of `fresh`: (C_w - C_0) / (C_f - C_0).
/// Precondition: wanted lies between the two, which differ.
[[nodiscard]] Share change_to_reach(Concentration wanted, Concentration now, Concentration fresh);

}  // namespace dosewright
