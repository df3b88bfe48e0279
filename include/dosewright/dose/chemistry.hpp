// The chemistry behind a dose: what a reagent removes, what a salt brings; not how it is measured
// out, nor what was asked for.
//
// Molar masses are summed from the abridged standard atomic weights of the IUPAC (2021; from
// memory). "Chlorine" is always counted as Cl2, 70.90 g/mol.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "dosewright/base/phrase.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

using MolarMass = Quantity<struct MolarMassKind>;     // stored in g/mol
using Equivalents = Quantity<struct EquivalentKind>;  // charge per volume, stored in meq/L

constexpr MolarMass grams_per_mole(double v) { return MolarMass(v); }
constexpr Equivalents milliequivalents_per_litre(double v) { return Equivalents(v); }
constexpr double in_grams_per_mole(MolarMass v) { return v.stored(); }
constexpr double in_milliequivalents_per_litre(Equivalents v) { return v.stored(); }

/// Of a formula such as "Ca(NO3)2·4H2O". A formula that cannot be read is a fault of the program
/// and throws std::logic_error, as it does below.
[[nodiscard]] MolarMass molar_mass(std::string_view formula);
/// How many atoms of an element one formula unit holds.
[[nodiscard]] int atoms_in(std::string_view formula, std::string_view element);

// ---- removing chlorine -------------------------------------------------------------------------

/// mg of a reagent for each mg of chlorine: 2 M / (e x 70.90), for Cl2 takes up two electrons and a
/// mole of the reagent gives up e.
[[nodiscard]] MassPerMass reagent_ratio(MolarMass reagent, int electrons);

/// mg of oxygen that a mg of left-over reagent takes from the water: e x 31.998 / (4 M).
[[nodiscard]] MassPerMass oxygen_taken(MolarMass reagent, int electrons);

/// One way in which a reagent can react.
struct Reaction {
  int electrons = 0;      ///< given up by one mole
  std::string_view ends;  ///< what becomes of it: "tetrathionate"
};

/// A ratio as published, or by an equation that is: what it rests on, in words for the user.
struct PublishedRatio {
  MassPerMass ratio;
  std::string_view basis;  ///< "if it all ends as sulfate"
};

/// What removes chlorine. A hydrate is a reagent of its own.
struct Reagent {
  std::string_view cas;
  std::string_view name;
  std::string_view formula;
  std::vector<Reaction> reactions;
  PublishedRatio least;
  std::optional<PublishedRatio> most;  ///< nothing when no higher figure was found
};

[[nodiscard]] const std::vector<Reagent>& reagents();
/// Null for a CAS number that is not in the table.
[[nodiscard]] const Reagent* find_reagent(std::string_view cas);

/// "0.875 (to sulfate, by the equation) to 7.4 (…)": for messages.
[[nodiscard]] Phrases published_range(const Reagent& reagent);

/// How a ratio stands to the published ones. They are printed to three figures, so half a per cent
/// beyond them is still within.
enum class RatioStands { below, within, above };
[[nodiscard]] RatioStands compared(MassPerMass ratio, const Reagent& reagent);

/// Chloramine stated as NH2Cl, as chlorine: x 70.90 / 51.473, for NH2Cl takes up two electrons as
/// Cl2 does. Dichloramine, stated as NHCl2, takes up four: x 2 x 70.90 / 85.915.
[[nodiscard]] Concentration monochloramine_as_chlorine(Concentration as_itself);
[[nodiscard]] Concentration dichloramine_as_chlorine(Concentration as_itself);

/// Ammonia that chloramine, stated as chlorine, sets free, as nitrogen: x 14.007 / 70.90. No
/// reagent of the table takes it up (Tikkanen, Schroeter, Leong and Ganesh, Guidance Manual for the
/// Disposal of Chlorinated Water).
[[nodiscard]] Concentration ammonia_nitrogen_freed(Concentration as_chlorine);

/// The part of ammonia that is un-ionised, NH3, in fresh water of 0 to 50 °C: 1 / (1 + 10^(pKa -
/// pH)), pKa = 0.09018 + 2729.92 / T, T in kelvin (Emerson, Russo, Lund and Thurston, J. Fish. Res.
/// Board Can. 32:2379, 1975). In sea water it is about a fifth less.
[[nodiscard]] Share unionised_share(Temperature temperature, double ph);

// ---- raising alkalinity, hardness and nutrients ------------------------------------------------

/// A salt that brings something to the water. A hydrate is a salt of its own.
struct Salt {
  std::string_view cas;
  std::string_view name;
  std::string_view formula;
  int bases = 0;  ///< moles of acid that a mole takes up on the way to CO2: 1 for HCO3, 2 for CO3
  int nitrates = 0;
  int phosphates = 0;
};

[[nodiscard]] const std::vector<Salt>& salts();
/// Null for a CAS number that is not in the table.
[[nodiscard]] const Salt* find_salt(std::string_view cas);

/// A degree of alkalinity (dKH) or hardness (dGH) is 10 mg of CaO per litre, 0.35665 meq/L.
[[nodiscard]] Equivalents degrees_of_hardness(double degrees);
/// Alkalinity or hardness stated as CaCO3: 1 meq/L is 50.043 mg/L.
[[nodiscard]] Equivalents of_calcium_carbonate(Concentration as_carbonate);
[[nodiscard]] Concentration as_calcium_carbonate(Equivalents equivalents);

/// The salt as bought for so much alkalinity: meq/L x M / bases. Nothing when it brings none.
[[nodiscard]] std::optional<Concentration> salt_for_alkalinity(const Salt& salt, Equivalents rise);
/// The same for hardness: meq/L x M / (2 (Ca + Mg)).
[[nodiscard]] std::optional<Concentration> salt_for_hardness(const Salt& salt, Equivalents rise);

/// What a nutrient may be stated as, in the order in which users are told.
[[nodiscard]] const std::vector<std::string>& nutrients();
/// The part of the salt as bought that is one of `nutrients()`, as ion (NO3, PO4) or as element
/// (N, P, K, Ca, Mg, Cu): n x M(nutrient) / M(salt). Nothing when it holds none.
[[nodiscard]] std::optional<Share> part_of(const Salt& salt, std::string_view nutrient);

// ---- amounts -----------------------------------------------------------------------------------

/// Product for a treatment: concentration of the active part x volume / share that is active.
[[nodiscard]] Mass treatment(Concentration active, Volume water, Share share_active);

/// Weight by weight and weight by volume are told apart by the density of the solution: c = w rho.
[[nodiscard]] Concentration weight_by_volume(Share by_weight, Concentration density);
[[nodiscard]] Share weight_by_weight(Concentration by_volume, Concentration density);

}  // namespace dosewright
