// Reading amounts as people write them: "1.5 US gal", "120 g/L", "2 % w/v"; not for dates or names.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// Why a text is not the wanted amount, and what to write instead.
struct QuantityProblem {
  std::string message;
  std::string hint;
  std::size_t at = 0;         ///< offset in bytes of the offending part
  bool needs_system = false;  ///< a household measure whose size nobody has declared
};

template <class Value>
using Parsed = std::variant<Value, QuantityProblem>;

/// All of these accept a number (decimal point, or a fraction such as 1/2 or 1 1/2; no thousands
/// separators, no exponent), a space, and a unit. Negative, empty and non-finite values are
/// refused. `system` decides what a bare gal, qt, pt, fl oz, cup, tbsp or tsp means; undeclared
/// refuses them.
[[nodiscard]] Parsed<Volume> parse_volume(std::string_view text, MeasureSystem system);
[[nodiscard]] Parsed<Mass> parse_mass(std::string_view text);
[[nodiscard]] Parsed<Length> parse_length(std::string_view text);
[[nodiscard]] Parsed<Duration> parse_duration(std::string_view text);

/// "5 °C", "41 °F"; a minus sign is allowed.
[[nodiscard]] Parsed<Temperature> parse_temperature(std::string_view text);

/// A part of a whole, "25 %"; between 0 and 100 %.
[[nodiscard]] Parsed<Share> parse_share(std::string_view text);

/// Mass per volume: "120 g/L", "2 % w/v", "1 lb per 10 US gal", "7 ppm" (taken as mg/L of water).
[[nodiscard]] Parsed<Concentration> parse_concentration(std::string_view text,
                                                        MeasureSystem system);

/// Volume per volume: "1.4 mL per 20 L", "2 % v/v", "1 tsp per 10 US gal".
[[nodiscard]] Parsed<VolumePerVolume> parse_volume_per_volume(std::string_view text,
                                                              MeasureSystem system);

/// Mass per mass: "98 % w/w", "9 g per kg".
[[nodiscard]] Parsed<MassPerMass> parse_mass_per_mass(std::string_view text);

/// Volume per mass: "0.5 mL/g".
[[nodiscard]] Parsed<VolumePerMass> parse_volume_per_mass(std::string_view text,
                                                          MeasureSystem system);

/// `count` lengths joined by "x": "30 x 12 x 18 in". One unit at the end serves all of them.
[[nodiscard]] Parsed<std::vector<Length>> parse_lengths(std::string_view text, std::size_t count);

/// "14.90 EUR" or "EUR 14.90".
[[nodiscard]] Parsed<Money> parse_money(std::string_view text);

/// A bare whole number, 0 to 1,000,000. "010" is refused: it means 8 to some programs.
[[nodiscard]] Parsed<int> parse_count(std::string_view text);

}  // namespace dosewright
