// A stock as a solution: what is dissolved in it, and how dense it is; private to this folder.
#pragma once

#include <optional>
#include <vector>

#include "dosewright/mix/density.hpp"
#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// Grams of a component in a litre of the solution; nothing for a liquid by volume whose density
/// nobody has stated.
[[nodiscard]] std::optional<Concentration> weight_of(const Component& component,
                                                     const Product& product);

/// What the density model is asked about a product.
[[nodiscard]] Dissolved dissolved_from(const Product& product, Concentration strength,
                                       const Knowledge& knowledge);

/// The density the description states, else that of the model or its bound.
[[nodiscard]] SolutionDensity density_of(const Stock& stock,
                                         const std::vector<Dissolved>& dissolved);

}  // namespace dosewright
