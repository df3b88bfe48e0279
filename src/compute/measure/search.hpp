// The exact search over ways to measure; private to this folder.
#pragma once

#include <optional>
#include <vector>

#include "dosewright/measure/measure.hpp"

namespace dosewright {

/// One way to use one tool: the same mark each time, or full ones and a rest. In mL or g.
struct Option {
  double total = 0;
  double bound = 0;
  double calibration_u = 0;
  double density_u = 0;   ///< of a powder by volume: common to all spoons of it
  double reading_u2 = 0;  ///< squared
  bool small = false;
  double rest = 0;  ///< the mark of the last fill, in the tool's own unit; the others go to `mark`
  double mark = 0;
  int fills = 0;
};

/// What one tool can do, by number of fills.
struct Use {
  const Tool* tool = nullptr;
  std::vector<std::vector<Option>> by_fills;  ///< [n]: n fills, ascending totals
};

struct ToolUses {
  std::vector<Use> own;      ///< for the dose itself
  std::vector<Use> liquids;  ///< for working dilutions
};

/// Relative: below this two amounts are one.
inline constexpr double kSame = 1e-6;

/// What totals are allowed, in mL or g.
struct Window {
  double least = 0;
  double most = 0;
};

[[nodiscard]] Window window_of(const MeasureTask& task);

/// The grade of a way by its doubt, the bound over the total; see Grade.
[[nodiscard]] Grade grade_of(double doubt, bool small, Share tolerance);

/// The best of all ways, by the order that Measurer states.
[[nodiscard]] std::optional<Measured> best_way(const MeasureTask& task,
                                               const std::vector<Use>& uses);

/// The best way with this tool alone, if one has the grade and the number of fills of `as`.
[[nodiscard]] std::optional<Measured> way_as_good(const MeasureTask& task, const Use& use,
                                                  const Measured& as);

/// The best working dilution with single fills: grade good or fair only. It is stirred in a
/// cylinder or cup of `liquids`; a liquid is taken and given with `uses`, the dilution of a powder
/// is given with `liquids`.
[[nodiscard]] std::optional<WorkingDilution> best_dilution(const MeasureTask& task,
                                                           const std::vector<Use>& uses,
                                                           const std::vector<Use>& liquids);

[[nodiscard]] int fills_of(const Measured& way);
[[nodiscard]] int tools_of(const Measured& way);

}  // namespace dosewright
