// Whether what a recipe asks for stays dissolved; not how fast it dissolves.
#pragma once

#include <optional>

#include "dosewright/mix/density.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// How much of a substance dissolves, in g of the weighed form per L of water.
struct Solubility {
  std::optional<Concentration> at_20;  ///< at 20 °C
  std::optional<Concentration> at_0;   ///< at 0 °C
};

/// The solubility at a temperature: from 20 °C on that of 20 °C (the safe side for what dissolves
/// better in warm water); between 0 and 20 °C by the geometric mean weighted with the temperature,
/// which lies below the straight line; nothing where a value is missing or it is colder than 0 °C.
[[nodiscard]] std::optional<Concentration> soluble_at(const Solubility& limits, Temperature at);

/// What holds of one dissolved substance.
enum class Dissolves { yes, no, perhaps, unknown };

/// Compares strength over the water in a litre of solution with the solubility. The water is what
/// the density leaves beside everything that was weighed in; where the density is only bounded, the
/// answer may be "perhaps".
[[nodiscard]] Dissolves dissolves(Concentration strength, Concentration everything,
                                  const SolutionDensity& density,
                                  const std::optional<Concentration>& soluble);

}  // namespace dosewright
