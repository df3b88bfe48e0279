// How dense an aqueous solution is, so that g per L becomes % by weight; not for powders.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/phrase.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// One thing dissolved, as it was weighed in.
struct Dissolved {
  std::string name;
  Concentration strength;                 ///< g of the weighed form per L of solution
  std::string anhydrous_cas;              ///< which salt the model is asked for; may be empty
  Share anhydrous = share(1);             ///< part of the weighed form that is not crystal water
  std::optional<VolumePerMass> takes_up;  ///< volume gained per gram, when somebody measured it
  bool liquid = false;                    ///< then takes_up is 1 / its density, mixing apart
};

/// No liquid of the trade is lighter (pentane, the lightest that is poured: 0.626 g/mL at 20
/// degrees, CRC Handbook, from memory) or denser.
inline constexpr Concentration kLightestLiquid = grams_per_litre(600);
inline constexpr Concentration kDensestLiquid = grams_per_litre(3000);

/// The density lies between these two; they are equal where it is known.
struct SolutionDensity {
  Concentration least;
  Concentration most;
  Phrases how;  ///< one sentence without a full stop
};

/// Density of pure water at ordinary pressure, 0 to 100 degrees Celsius (Kell 1975, as used by
/// Laliberté 2004).
[[nodiscard]] Concentration water_density(Temperature at);

/// Apparent density of a dissolved salt at a mass fraction of all solutes (Laliberté, J. Chem. Eng.
/// Data 54 (2009) 1725): rho = (c0 w + c1) exp(1e-6 (t + c4)^2) / (w + c2 + c3 t). Nothing for a
/// salt without published coefficients, or outside their range of w.
[[nodiscard]] std::optional<Concentration> apparent_density(const std::string& anhydrous_cas,
                                                            Share solutes, Temperature at);

/// 1 / rho = w_water / rho_water + sum(w_i / rho_i). What has no coefficients takes up 0 to 1 mL
/// per gram (our own bound: no powder of the trade is lighter than water in solution); a liquid its
/// own volume within 5 %, and where its density is not known what lies between the lightest and the
/// densest liquid.
[[nodiscard]] SolutionDensity solution_density(const std::vector<Dissolved>& dissolved,
                                               Temperature at = degrees_celsius(20));

}  // namespace dosewright
