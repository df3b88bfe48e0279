// The exact dose of a stock for an amount of water; not how it is measured out.
#pragma once

#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// mL of stock, or g of a powder from its tub, per L of water. For a target concentration: target /
/// (strength - target), the mass balance with the volume of the dose itself; negative or infinite
/// when the stock is no stronger than the target. A powder from its tub is taken to be all target:
/// g per L. Of a whole mix: what it makes / the water it treats. Precondition: the target's product
/// is part of `mixture`, by weight. However many days it is given over, it is all of the dose.
[[nodiscard]] DoseRate dose_rate(const DoseRule& rule, const Mixture& mixture);

/// What is given on one day.
[[nodiscard]] DoseRate one_days_part(const DoseRule& rule, const DoseRate& all);

/// The water a dose is counted on after a change: what the change brings in, or the whole vessel.
[[nodiscard]] Volume water_to_dose(const DoseRule& rule, Volume vessel, Share change);

/// What is to be removed, counted as Cl2.
[[nodiscard]] Concentration chlorine_in(const Removal& removal);

/// Of the ammonia that a removal frees from chloramine the un-ionised part, as nitrogen, in fresh
/// water of the room's pH and temperature; nothing when they are not stated, nor for chlorine.
[[nodiscard]] std::optional<Concentration> unionised_freed(const Removal& removal,
                                                           const Room& room);

}  // namespace dosewright
