// What a recipe makes: how strong and how much; not how it is dosed.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

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
  /// Half-width of the strength's relative bound from scooping and from unknown displacement; 0
  /// when the recipe is weighed and made up to volume (errors of the scale are not in it).
  Share strength_bound;
};

/// Level scoops of powder are taken to be within this of the stated bulk density. Our own default:
/// published loose-to-tapped spreads are 1.2 to 1.6 (Handbook of Pharmaceutical Excipients, entries
/// for sodium hydrogencarbonate and ascorbic acid).
inline constexpr Share kScoopBound = share(0.25);

/// Volume gained by dissolving one gram of powder when the description does not say: between
/// nothing and 0.8 mL. Our own default. The Laliberté (2009) density model gives 0.17 to 0.54 mL/g
/// for eight salts; anhydrous salts can gain less, organic powders more.
inline constexpr VolumePerMass kUnknownDisplacement = millilitres_per_gram(0.4);
inline constexpr VolumePerMass kUnknownDisplacementBound = millilitres_per_gram(0.4);

/// Strength = amount / finished volume. "Made up to V" finishes at V; "added" finishes at the water
/// plus what the products take up: c = m / (V_water + sum(d_i m_i) + sum(V_liquid)).
/// Precondition: every product of the recipe is in `products`; a scooped powder has a bulk density.
[[nodiscard]] Mixture mix(const Stock& stock, const std::vector<Product>& products);

/// The same recipe for a bottle: everything times `wanted` over what the recipe makes.
[[nodiscard]] Mixture scaled(const Mixture& mixture, Volume wanted);

/// What the products in these amounts cost, by the price of their packs. Nothing when a price is
/// not known, an amount is not weighed, or two currencies meet: a part of a cost misleads.
[[nodiscard]] std::optional<Money> cost_of(const Mixture& mixture,
                                           const std::vector<Product>& products);

}  // namespace dosewright
