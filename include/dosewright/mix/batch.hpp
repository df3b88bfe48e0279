// One mixing of a stock: what was really weighed, how strong that is beside the recipe, and what
// brings it there; not who mixed it, when, or where it stands.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "dosewright/mix/mixture.hpp"

namespace dosewright {

/// What a liquid holds of each product, in the order of the recipe.
using Strengths = std::vector<std::variant<Concentration, VolumePerVolume>>;
[[nodiscard]] Strengths strengths_of(const Mixture& mixture);

/// What was weighed, scooped or poured of each product, in the order of the recipe; of a stock that
/// is mixed from a stronger one a single volume, that was taken of it.
using Amounts = std::vector<std::variant<Mass, Volume>>;
/// The amounts that the recipe asks for, in the same form.
[[nodiscard]] Amounts amounts_of(const Stock& stock, const Mixture& filled);

/// The recipe for `wanted`, with these amounts in place of its own: "made up to" finishes at
/// `wanted` all the same, "added" with the water of the recipe and what the products take up.
/// Precondition: `amounts` is of the form that amounts_of gives.
[[nodiscard]] Mixture mix_weighed(const Stock& stock, const std::vector<Product>& products,
                                  const std::vector<Tool>& tools, Volume wanted,
                                  const Amounts& amounts);

/// Two strengths this close are the same to a bench: our own limit. Beyond it a batch has a code
/// of its own.
inline constexpr Share kSameStrength = share(0.01);

/// How many times as strong as the recipe; nothing when the products are not all as many times as
/// strong (to kSameStrength), so that no dose is right for all of them, or are not the same ones.
[[nodiscard]] std::optional<double> times_as_strong(const Strengths& recipe,
                                                    const Strengths& bottle);
[[nodiscard]] bool is_same_strength(double times);

/// The stock as it is in a bottle that is `times` as strong as its recipe makes it (`mixture`). Its
/// dose brings as much of each product into the same water: a dose by volume is the recipe's over
/// `times`, one by target is left as it is, and so are its limits.
/// Precondition: not dry; 0 < times, and the recipe still finds room in what it makes.
[[nodiscard]] Stock as_in_bottle(const Stock& stock, const Mixture& mixture, double times);

/// What is added to a liquid of other strength to bring it to the recipe's.
struct Mending {
  Amounts add;  ///< of the form that amounts_of gives; 0 where nothing is missing
  Volume water;
  Volume finishes;  ///< what it comes to in all
};

/// Mass balance for each product: c V + a = C F, with the finished volume
/// F = V + sum(d_i a_i) + water, the least for which neither an amount nor the water is below 0.
/// With nothing to add but water this is C1 V1 = C2 V2. A powder of unknown displacement is taken
/// to gain kUnknownDisplacement. `target` is the recipe's own mixture, `found` what is in the
/// liquid.
[[nodiscard]] Mending mend(const Stock& stock, const std::vector<Product>& products,
                           const Mixture& target, const Strengths& found, Volume volume);

}  // namespace dosewright
