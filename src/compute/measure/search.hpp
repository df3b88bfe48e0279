// The exact search over ways to measure; private to this folder.
#pragma once

#include <optional>
#include <vector>

#include "dosewright/measure/measure.hpp"

namespace dosewright {

/// Relative: below this two amounts are one.
inline constexpr double kSame = 1e-6;

/// What totals are allowed, in mL or g.
struct Window {
  double least = 0;
  double most = 0;
};

[[nodiscard]] Window window_of(const MeasureTask& task);

/// The grade of a way of this total and bound.
[[nodiscard]] Grade grade_of(double total, double bound, bool small, Share tolerance);

/// The best of all ways, by the order that Measurer states.
[[nodiscard]] std::optional<Measured> best_way(const MeasureTask& task,
                                               const std::vector<Measurer::Use>& uses);

/// The best way with this tool alone, if one has the grade and the number of fills of `as`.
[[nodiscard]] std::optional<Measured> way_as_good(const MeasureTask& task, const Measurer::Use& use,
                                                  const Measured& as);

/// The best working dilution with single fills: grade good or fair only. It is stirred in a
/// cylinder or cup of `liquids`; a liquid is taken and given with `uses`, the dilution of a powder
/// is given with `liquids`.
[[nodiscard]] std::optional<WorkingDilution> best_dilution(
    const MeasureTask& task, const std::vector<Measurer::Use>& uses,
    const std::vector<Measurer::Use>& liquids);

[[nodiscard]] int fills_of(const Measured& way);
[[nodiscard]] int tools_of(const Measured& way);

}  // namespace dosewright
