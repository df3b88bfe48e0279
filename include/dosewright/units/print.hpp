// Printing amounts in medication-safety style: 0.5 mL, 5 mL, 1,500 mL; never .5, 5.0, ml or cc.
// Source of the style: the Institute for Safe Medication Practices' list of error-prone dose
// designations (leading zero, no trailing zero, space before the unit, comma from 1,000 up).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// `value` rounded half away from zero at `decimals` (0 to 9), trailing zeros dropped, comma from
/// 1,000 up. The value is first taken to 12 significant figures, so that 2.675 (stored as
/// 2.67499…) rounds as it reads. Never prints "-0".
[[nodiscard]] std::string figure(double value, int decimals);

/// `value` at `significant` figures (1 to 12); for amounts no tool has to show.
[[nodiscard]] std::string significant_figure(double value, int significant);

/// `value` taken up or down to `significant` figures: a bound must not shrink in print, a limit not
/// rise. Precondition: more than 0.
[[nodiscard]] double rounded_outward(double value, int significant, bool up);

/// The number of decimals that a step of marks resolves: 0.05 gives 2, 0.2 gives 1, 5 gives 0.
[[nodiscard]] int decimals_of(double step);

[[nodiscard]] std::string in_words_mL(Volume volume, int decimals);  ///< "1,500 mL"
[[nodiscard]] std::string volume_text(Volume volume);                ///< "0.35 mL", "1.5 L"
[[nodiscard]] std::string portion_text(Portion portion);             ///< as the one or the other
[[nodiscard]] std::string unit_of(Portion portion);                  ///< "mL" or "g"
[[nodiscard]] std::string mass_text(Mass mass);                      ///< "0.5 mg", "82 g", "1.2 kg"
[[nodiscard]] std::string concentration_text(Concentration concentration);  ///< "100 g per L"
[[nodiscard]] std::string percent_text(Share share);                        ///< "25 %"
[[nodiscard]] std::string length_text(Length length);                       ///< "38.1 mm"

/// "1.08 EUR": two decimals as money is written, whatever follows the point.
[[nodiscard]] std::string money_text(const Money& money);

/// A water volume in the room's own measure: "20 US gal", "75.7 L".
struct FigureAndUnit {
  std::string figure;
  std::string unit;
};
/// The volume `text` says, in printing style: "5 us gallons" gives 5 and US gal, "1 1/2 gal" 1.5
/// and US gal. Nothing when it is not a volume or when four decimals would change its meaning.
[[nodiscard]] std::optional<FigureAndUnit> volume_as_written(std::string_view text,
                                                             MeasureSystem system);
[[nodiscard]] FigureAndUnit water_text(Volume volume, MeasureSystem system, int significant = 3);

}  // namespace dosewright
