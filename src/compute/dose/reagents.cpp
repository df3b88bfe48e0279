// What removes chlorine, what chloramine leaves behind.
#include <cmath>

#include "dosewright/dose/chemistry.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// Dechlorination ratios as published, mg for each mg of chlorine:
// - AWWA field guide "Disinfection of Pipelines and Storage Facilities", table 7-2, "field results"
//   at pH 7: bisulfite 1.61, metabisulfite 1.47, sulfite 1.96, thiosulfate 1.9, ascorbic acid 2.5,
//   sodium ascorbate 2.8.
// - AWWA C651, appendix B (from memory): SO2 1.00, bisulfite 1.50, sulfite 1.75, thiosulfate
//   pentahydrate 1.438, ascorbic acid 2.50.
// - Piper and others, Fish Hatchery Management (1982), p. 283: 5.6 g of thiosulfate against 200 ppm
//   in 1 US gal, which is 7.40 of the pentahydrate.
// - Standard Methods, 23rd edition (second-hand): 0.1 mL of 10 % thiosulfate covers 15 mg/L in a
//   bottle of 120 mL, which is 5.56 of the anhydrous salt.
// - water-chemistry.in, note on metabisulfite: theory 1.34, practice 3.0.
// - A forest service's tip on ascorbic acid (from memory): 1 g per 100 US gal, which is 2.64.
// Where the equation asks for less than any of these, the equation is the least. Two bulletins
// that print 0.70 and 0.75 for metabisulfite contradict their own equations and are left out.
PublishedRatio published(double ratio, std::string_view basis) {
  return {grams_per_gram(ratio), basis};
}

constexpr std::string_view kBest = "to sulfate, by the equation";
constexpr std::string_view kField = "field results";

// The tetrathionate is what thiosulfate becomes in neutral water without delay; sulfur and sulfate
// come with acid, time and an excess of chlorine.
std::vector<Reaction> thiosulfate() {
  return {{1, "tetrathionate"}, {2, "sulfur and sulfate"}, {8, "sulfate"}};
}

}  // namespace

MassPerMass reagent_ratio(MolarMass reagent, int electrons) {
  return grams_per_gram(2 * (reagent / molar_mass("Cl2")) / electrons);
}

MassPerMass oxygen_taken(MolarMass reagent, int electrons) {
  return grams_per_gram(electrons * (molar_mass("O2") / reagent) / 4);
}

const std::vector<Reagent>& reagents() {
  static const std::vector<Reagent> table = {
      {"10102-17-7", "sodium thiosulfate pentahydrate", "Na2S2O3·5H2O", thiosulfate(),
       published(0.875, kBest), published(7.4, "to tetrathionate, with a little to spare")},
      {"7772-98-7", "sodium thiosulfate, anhydrous", "Na2S2O3", thiosulfate(),
       published(0.5575, kBest), published(5.56, "to tetrathionate, with a quarter to spare")},
      {"7757-83-7",
       "sodium sulfite",
       "Na2SO3",
       {{2, "sulfate"}},
       published(1.75, "waterworks practice, to sulfate"),
       published(1.96, kField)},
      {"10102-15-5",
       "sodium sulfite heptahydrate",
       "Na2SO3·7H2O",
       {{2, "sulfate"}},
       published(3.556, kBest),
       std::nullopt},
      {"7631-90-5",
       "sodium hydrogensulfite",
       "NaHSO3",
       {{2, "sulfate"}},
       published(1.468, kBest),
       published(1.61, kField)},
      {"7681-57-4",
       "sodium metabisulfite",
       "Na2S2O5",
       {{4, "sulfate"}},
       published(1.341, kBest),
       published(3.0, "practice, with more than twice to spare")},
      {"7446-09-5",
       "sulfur dioxide",
       "SO2",
       {{2, "sulfate"}},
       published(0.9035, kBest),
       published(1.0, "waterworks practice")},
      {"7775-14-6",
       "sodium dithionite",
       "Na2S2O4",
       {{6, "sulfate"}},
       published(0.8185, "to sulfate, by the equation, fresh and with nothing lost to air"),
       std::nullopt},
      {"50-81-7",
       "ascorbic acid",
       "C6H8O6",
       {{2, "dehydroascorbic acid"}},
       published(2.484, "to dehydroascorbic acid, by the equation"),
       published(2.64, "practice, with a little to spare")},
      {"134-03-2",
       "sodium ascorbate",
       "C6H7NaO6",
       {{2, "dehydroascorbic acid"}},
       published(2.794, "to dehydroascorbic acid, by the equation"),
       published(2.8, kField)},
      {"7722-84-1",
       "hydrogen peroxide",
       "H2O2",
       {{2, "oxygen"}},
       published(0.4797, "to oxygen, by the equation, against free chlorine"),
       std::nullopt},
  };
  return table;
}

const Reagent* find_reagent(std::string_view cas) {
  for (const Reagent& reagent : reagents()) {
    if (reagent.cas == cas) return &reagent;
  }
  return nullptr;
}

Phrases published_range(const Reagent& reagent) {
  std::vector<std::string> fills;
  const auto add = [&](const PublishedRatio& end) {
    fills.push_back(significant_figure(in_grams_per_gram(end.ratio), 4));
    fills.emplace_back(end.basis);
  };
  add(reagent.least);
  if (!reagent.most) return {{"{1} ({2}) and upwards", fills}};
  add(*reagent.most);
  return {{"{1} ({2}) to {3} ({4})", fills}};
}

RatioStands compared(MassPerMass ratio, const Reagent& reagent) {
  constexpr double kHalfPerCent = 0.005;
  if (ratio < reagent.least.ratio * (1 - kHalfPerCent)) return RatioStands::below;
  if (reagent.most && ratio > reagent.most->ratio * (1 + kHalfPerCent)) return RatioStands::above;
  return RatioStands::within;
}

Concentration monochloramine_as_chlorine(Concentration as_itself) {
  return as_itself * (molar_mass("Cl2") / molar_mass("NH2Cl"));
}

Concentration dichloramine_as_chlorine(Concentration as_itself) {
  return as_itself * (2 * (molar_mass("Cl2") / molar_mass("NHCl2")));
}

Concentration ammonia_nitrogen_freed(Concentration as_chlorine) {
  return as_chlorine * (molar_mass("N") / molar_mass("Cl2"));
}

Share unionised_share(Temperature temperature, double ph) {
  const double kelvin = 273.15 + in_degrees_celsius(temperature);
  const double pka = 0.09018 + 2729.92 / kelvin;
  return share(1 / (1 + std::pow(10.0, pka - ph)));
}

}  // namespace dosewright
