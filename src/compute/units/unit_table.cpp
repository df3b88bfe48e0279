#include "unit_table.hpp"

#include <array>
#include <utility>

namespace dosewright {

namespace {

// Metric prefixes: the SI brochure, 9th edition. Inch 25.4 mm, pound 453.59237 g, ounce 1/16 lb,
// grain 1/7000 lb: NIST SP 811 (2008) Appendix B.8 and NIST Handbook 44 Appendix C.
constexpr double kInch = 25.4;
constexpr double kPound = 453.59237;

// US gallon = 231 cubic inches exactly: NIST Handbook 44 Appendix C.
constexpr double kUsGallon = 231 * kInch * kInch * kInch / 1000;
// Imperial gallon = 4.54609 L exactly: NIST SP 811 Appendix B.8; UK Units of Measurement
// Regulations 1995.
constexpr double kImperialGallon = 4546.09;
constexpr double kImperialFluidOunce = kImperialGallon / 160;

}  // namespace

const std::vector<Unit>& plain_units() {
  static const std::vector<Unit> units = {
      {"ml", Dimension::volume, 1},
      {"ul", Dimension::volume, 0.001},
      {"µl", Dimension::volume, 0.001},  // the micro sign, and the letter mu
      {"μl", Dimension::volume, 0.001},
      {"millilitre", Dimension::volume, 1},
      {"millilitres", Dimension::volume, 1},
      {"milliliter", Dimension::volume, 1},
      {"milliliters", Dimension::volume, 1},
      {"cl", Dimension::volume, 10},
      {"dl", Dimension::volume, 100},
      {"l", Dimension::volume, 1000},
      {"litre", Dimension::volume, 1000},
      {"litres", Dimension::volume, 1000},
      {"liter", Dimension::volume, 1000},
      {"liters", Dimension::volume, 1000},
      {"cm3", Dimension::volume, 1},
      {"m3", Dimension::volume, 1e6},
      {"in3", Dimension::volume, kInch * kInch * kInch / 1000},
      {"ft3", Dimension::volume, 1728 * kInch * kInch * kInch / 1000},
      {"mg", Dimension::mass, 0.001},
      {"g", Dimension::mass, 1},
      {"gram", Dimension::mass, 1},
      {"grams", Dimension::mass, 1},
      {"kg", Dimension::mass, 1000},
      {"lb", Dimension::mass, kPound},
      {"lbs", Dimension::mass, kPound},
      {"pound", Dimension::mass, kPound},
      {"pounds", Dimension::mass, kPound},
      {"oz", Dimension::mass, kPound / 16},
      {"ounce", Dimension::mass, kPound / 16},
      {"ounces", Dimension::mass, kPound / 16},
      {"grain", Dimension::mass, kPound / 7000},
      {"grains", Dimension::mass, kPound / 7000},
      {"mm", Dimension::length, 1},
      {"cm", Dimension::length, 10},
      {"m", Dimension::length, 1000},
      {"in", Dimension::length, kInch},
      {"inch", Dimension::length, kInch},
      {"inches", Dimension::length, kInch},
      {"ft", Dimension::length, 12 * kInch},
      {"foot", Dimension::length, 12 * kInch},
      {"feet", Dimension::length, 12 * kInch},
      {"pt", Dimension::length, kInch / 72},  // the printer's point, ISO 32000-1 8.3.2.3
      {"h", Dimension::time, 1.0 / 24},
      {"hour", Dimension::time, 1.0 / 24},
      {"hours", Dimension::time, 1.0 / 24},
      {"day", Dimension::time, 1},
      {"days", Dimension::time, 1},
      {"week", Dimension::time, 7},
      {"weeks", Dimension::time, 7},
  };
  return units;
}

const std::vector<SystemUnit>& system_units() {
  using enum MeasureSystem;
  // US customary divisions of the gallon: NIST Handbook 44 Appendix C. Imperial divisions: UK
  // Weights and Measures Act 1985, Schedule 1. Metric cup 250 mL and spoons of 15 and 5 mL, the
  // Australian 20 mL tablespoon, and the UK spoons of 15 and 5 mL: the units database of GNU
  // units 2.22. The imperial cup is half an imperial pint, same database.
  static const std::vector<SystemUnit> units = {
      {"gal", us, kUsGallon},
      {"qt", us, kUsGallon / 4},
      {"pt", us, kUsGallon / 8},
      {"cup", us, kUsGallon / 16},
      {"fl oz", us, kUsGallon / 128},
      {"tbsp", us, kUsGallon / 256},
      {"tsp", us, kUsGallon / 768},
      {"gal", imperial, kImperialGallon},
      {"qt", imperial, kImperialGallon / 4},
      {"pt", imperial, kImperialGallon / 8},
      {"cup", imperial, kImperialGallon / 16},
      {"fl oz", imperial, kImperialFluidOunce},
      {"tbsp", imperial, 15},
      {"tsp", imperial, 5},
      {"cup", metric, 250},
      {"tbsp", metric, 15},
      {"tsp", metric, 5},
      {"cup", australian, 250},
      {"tbsp", australian, 20},
      {"tsp", australian, 5},
  };
  return units;
}

std::string_view system_measure(std::string_view spelling) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 25> kSpellings = {{
      {"gal", "gal"},
      {"gals", "gal"},
      {"gallon", "gal"},
      {"gallons", "gal"},
      {"qt", "qt"},
      {"quart", "qt"},
      {"quarts", "qt"},
      {"pt", "pt"},
      {"pint", "pt"},
      {"pints", "pt"},
      {"cup", "cup"},
      {"cups", "cup"},
      {"fl oz", "fl oz"},
      {"floz", "fl oz"},
      {"fluid ounce", "fl oz"},
      {"fluid ounces", "fl oz"},
      {"tbsp", "tbsp"},
      {"tbs", "tbsp"},
      {"tablespoon", "tbsp"},
      {"tablespoons", "tbsp"},
      {"tsp", "tsp"},
      {"teaspoon", "tsp"},
      {"teaspoons", "tsp"},
      {"fl. oz", "fl oz"},
      {"fl. oz.", "fl oz"},
  }};
  for (const auto& [known, measure] : kSpellings) {
    if (known == spelling) return measure;
  }
  return {};
}

MeasureSystem system_word(std::string_view word) {
  if (word == "us" || word == "u.s.") return MeasureSystem::us;
  if (word == "imperial" || word == "imp" || word == "uk") return MeasureSystem::imperial;
  if (word == "metric") return MeasureSystem::metric;
  if (word == "australian" || word == "au") return MeasureSystem::australian;
  return MeasureSystem::undeclared;
}

std::string_view name_of(MeasureSystem system) {
  switch (system) {
    case MeasureSystem::us:
      return "US";
    case MeasureSystem::imperial:
      return "imperial";
    case MeasureSystem::metric:
      return "metric";
    case MeasureSystem::australian:
      return "Australian";
    case MeasureSystem::undeclared:
      break;
  }
  return "undeclared";
}

}  // namespace dosewright
