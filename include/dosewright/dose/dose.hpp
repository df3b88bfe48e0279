// The exact dose of a stock for an amount of water; not how it is measured out.
#pragma once

#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// mL of stock, or g of a powder from its tub, per L of water. For a target concentration: target /
/// (strength - target), the mass balance with the volume of the dose itself; negative or infinite
/// when the stock is no stronger than the target. A powder from its tub is taken to be all target:
/// g per L. Precondition: the target's product is part of `mixture`, by weight.
[[nodiscard]] DoseRate dose_rate(const DoseRule& rule, const Mixture& mixture);

/// The water a dose is counted on: what a water change brings in, or the whole vessel.
[[nodiscard]] Volume water_to_dose(const DoseRule& rule, Volume vessel, Share change);

}  // namespace dosewright
