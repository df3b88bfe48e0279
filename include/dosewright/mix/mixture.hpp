// What a recipe makes: how strong and how much; not how it is dosed.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "dosewright/measure/uncertainty.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// One product in the finished stock.
struct Component {
  std::string product;                                    ///< id
  std::variant<Concentration, VolumePerVolume> strength;  ///< by weight, or a liquid by volume
  std::variant<Mass, Volume> amount;  ///< what the recipe takes for the whole of `makes`
  bool scooped = false;               ///< a powder measured by volume
};

/// The finished stock of a recipe as written.
struct Mixture {
  std::vector<Component> components;
  Volume makes;
  Volume taken;  ///< of the stronger stock, when it is mixed from one
  /// How far off the strength can be: weighing or scooping, purity, and the measured water, of the
  /// product that is least sure. For a powder from the tub its purity alone.
  RelativeError strength_error;
};

/// A weight when no scale is named, and a volume of water or liquid when no measure is: our own
/// defaults for a kitchen scale and for marks on jugs and buckets.
inline constexpr Share kUnknownWeighing = share(0.01);
inline constexpr Share kUnknownVolume = share(0.05);

/// A scoop in a recipe is right to this, and its level to as much again (household measures,
/// ANSI/ASA Z61.1); the spread of the powder's density comes on top.
inline constexpr Share kScoop = share(0.05);

/// Volume gained by dissolving one gram of powder when the description does not say: between
/// nothing and 0.8 mL. Our own default. The Laliberté (2009) density model gives 0.17 to 0.54 mL/g
/// for eight salts; anhydrous salts can gain less, organic powders more.
inline constexpr VolumePerMass kUnknownDisplacement = millilitres_per_gram(0.4);
inline constexpr VolumePerMass kUnknownDisplacementBound = millilitres_per_gram(0.4);

/// Strength = amount / finished volume. "Made up to V" finishes at V; "added" finishes at the water
/// plus what the products take up: c = m / (V_water + sum(d_i m_i) + sum(V_liquid)).
/// What is mixed from a stronger stock has C2 = C1 V1 / V2, and adds the errors of both volumes to
/// the stronger one's.
/// Precondition: every product of the recipe is in `products`; a scooped powder has a bulk density.
/// `tools` are searched for those the stock was weighed and made up with.
[[nodiscard]] Mixture mix(const Stock& stock, const std::vector<Product>& products,
                          const std::vector<Tool>& tools);

/// The same recipe with everything times a factor.
[[nodiscard]] Stock scaled(const Stock& stock, double factor);

/// The recipe for a bottle: everything times `wanted` over what the recipe makes. Its error is that
/// of these amounts: a scale's division weighs more in a small batch.
[[nodiscard]] Mixture mix_batch(const Stock& stock, const std::vector<Product>& products,
                                const std::vector<Tool>& tools, Volume wanted);

/// What the products in these amounts cost, by the price of their packs. Nothing when a price is
/// not known, an amount is not weighed, or two currencies meet: a part of a cost misleads.
[[nodiscard]] std::optional<Money> cost_of(const Mixture& mixture,
                                           const std::vector<Product>& products);

}  // namespace dosewright
