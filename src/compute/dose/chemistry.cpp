// What salts bring to water, and amounts by weight.
#include "dosewright/dose/chemistry.hpp"

#include <cmath>

namespace dosewright {

namespace {

// Of one divalent ion, g/mol: half of it is one equivalent.
double carbonate_mass() { return in_grams_per_mole(molar_mass("CaCO3")); }
double lime_mass() { return in_grams_per_mole(molar_mass("CaO")); }

// meq/L of something of which a mole of the salt brings `per_mole` equivalents.
std::optional<Concentration> salt_for(const Salt& salt, Equivalents rise, int per_mole) {
  if (per_mole == 0) return std::nullopt;
  const double milligrams =
      in_milliequivalents_per_litre(rise) * in_grams_per_mole(molar_mass(salt.formula)) / per_mole;
  return grams_per_litre(milligrams / 1000);
}

int moles_of(const Salt& salt, std::string_view nutrient) {
  if (nutrient == "NO3") return salt.nitrates;
  if (nutrient == "PO4") return salt.phosphates;
  return atoms_in(salt.formula, nutrient);
}

}  // namespace

// CAS numbers and formulas as in templates/hazard/substances.yaml where that has them, else from
// memory; a test holds every check digit, and every formula against the molar mass given there.
const std::vector<Salt>& salts() {
  static const std::vector<Salt> table = {
      {"144-55-8", "sodium hydrogencarbonate", "NaHCO3", 1, 0, 0},
      {"298-14-6", "potassium hydrogencarbonate", "KHCO3", 1, 0, 0},
      {"497-19-8", "sodium carbonate", "Na2CO3", 2, 0, 0},
      {"5968-11-6", "sodium carbonate monohydrate", "Na2CO3·H2O", 2, 0, 0},
      {"6132-02-1", "sodium carbonate decahydrate", "Na2CO3·10H2O", 2, 0, 0},
      {"584-08-7", "potassium carbonate", "K2CO3", 2, 0, 0},
      {"10043-52-4", "calcium chloride", "CaCl2", 0, 0, 0},
      {"10035-04-8", "calcium chloride dihydrate", "CaCl2·2H2O", 0, 0, 0},
      {"7774-34-7", "calcium chloride hexahydrate", "CaCl2·6H2O", 0, 0, 0},
      {"10101-41-4", "calcium sulfate dihydrate", "CaSO4·2H2O", 0, 0, 0},
      {"7487-88-9", "magnesium sulfate", "MgSO4", 0, 0, 0},
      {"10034-99-8", "magnesium sulfate heptahydrate", "MgSO4·7H2O", 0, 0, 0},
      {"7786-30-3", "magnesium chloride", "MgCl2", 0, 0, 0},
      {"7791-18-6", "magnesium chloride hexahydrate", "MgCl2·6H2O", 0, 0, 0},
      {"7757-79-1", "potassium nitrate", "KNO3", 0, 1, 0},
      {"7631-99-4", "sodium nitrate", "NaNO3", 0, 1, 0},
      {"13477-34-4", "calcium nitrate tetrahydrate", "Ca(NO3)2·4H2O", 0, 2, 0},
      {"13446-18-9", "magnesium nitrate hexahydrate", "Mg(NO3)2·6H2O", 0, 2, 0},
      {"7778-77-0", "potassium dihydrogenphosphate", "KH2PO4", 0, 0, 1},
      {"7778-80-5", "potassium sulfate", "K2SO4", 0, 0, 0},
      {"7447-40-7", "potassium chloride", "KCl", 0, 0, 0},
      {"7758-98-7", "copper sulfate", "CuSO4", 0, 0, 0},
      {"7758-99-8", "copper sulfate pentahydrate", "CuSO4·5H2O", 0, 0, 0},
  };
  return table;
}

const Salt* find_salt(std::string_view cas) {
  for (const Salt& salt : salts()) {
    if (salt.cas == cas) return &salt;
  }
  return nullptr;
}

Equivalents degrees_of_hardness(double degrees) {
  return milliequivalents_per_litre(degrees * 10 / (lime_mass() / 2));
}

Equivalents of_calcium_carbonate(Concentration as_carbonate) {
  return milliequivalents_per_litre(in_grams_per_litre(as_carbonate) * 1000 /
                                    (carbonate_mass() / 2));
}

Concentration as_calcium_carbonate(Equivalents equivalents) {
  return grams_per_litre(in_milliequivalents_per_litre(equivalents) * (carbonate_mass() / 2) /
                         1000);
}

std::optional<Concentration> salt_for_alkalinity(const Salt& salt, Equivalents rise) {
  return salt_for(salt, rise, salt.bases);
}

std::optional<Concentration> salt_for_hardness(const Salt& salt, Equivalents rise) {
  return salt_for(salt, rise, 2 * (atoms_in(salt.formula, "Ca") + atoms_in(salt.formula, "Mg")));
}

const std::vector<std::string>& nutrients() {
  static const std::vector<std::string> all = {"NO3", "N", "PO4", "P", "K", "Ca", "Mg", "Cu"};
  return all;
}

std::optional<Share> part_of(const Salt& salt, std::string_view nutrient) {
  const int moles = moles_of(salt, nutrient);
  if (moles == 0) return std::nullopt;
  return share(moles * (molar_mass(nutrient) / molar_mass(salt.formula)));
}

Mass treatment(Concentration active, Volume water, Share share_active) {
  return active * water * (1 / as_ratio(share_active));
}

Concentration weight_by_volume(Share by_weight, Concentration density) {
  return density * as_ratio(by_weight);
}

Share weight_by_weight(Concentration by_volume, Concentration density) {
  return share(by_volume / density);
}

}  // namespace dosewright
