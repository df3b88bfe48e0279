// The units the tool knows and their exact factors; private to this folder.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

enum class Dimension { volume, mass, length, time };

/// One spelling of one unit. `factor` turns it into the stored unit (mL, g, mm, day).
struct Unit {
  std::string_view spelling;  ///< lower case, single spaces
  Dimension dimension;
  double factor;
};

/// A household or trade measure whose size depends on the system: "gal", "cup", "tbsp" …
struct SystemUnit {
  std::string_view spelling;
  MeasureSystem system;
  double millilitres;
};

[[nodiscard]] const std::vector<Unit>& plain_units();
[[nodiscard]] const std::vector<SystemUnit>& system_units();

/// The measure's short name for any of its spellings ("gallons" gives "gal"); empty when unknown.
[[nodiscard]] std::string_view system_measure(std::string_view spelling);

/// The system a leading word names ("us", "imperial", "imp" …); undeclared when it names none.
[[nodiscard]] MeasureSystem system_word(std::string_view word);

[[nodiscard]] std::string_view name_of(MeasureSystem system);

}  // namespace dosewright
