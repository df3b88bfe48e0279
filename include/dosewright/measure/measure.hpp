// An exact dose on the marks of the tools at hand, and how far off that can be.
#pragma once

#include <optional>
#include <vector>

#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// `count` fills of one tool to one of its marks. The tool belongs to the room.
struct Pour {
  const Tool* tool = nullptr;
  Volume to;
  int count = 1;
};

/// A dose that can be measured.
struct Measured {
  std::vector<Pour> pours;  ///< larger fills first
  Volume total;
  Volume tool_bound;  ///< worst case of the tools: calibration and reading, added over the pours
  Volume off_by;      ///< |total - exact| + tool_bound: how far from the exact dose it can be
};

enum class MeasureProblem {
  none,
  no_tool,           ///< there is no tool for liquids
  too_small,         ///< below what any tool can show within the tolerance
  too_large,         ///< more pours than are reasonable
  outside_tolerance  ///< no marks come near enough
};

struct MeasureAnswer {
  std::optional<Measured> measured;
  MeasureProblem problem = MeasureProblem::no_tool;
  Volume smallest_mark;  ///< over all tools; for the message
  Volume largest_dose;   ///< the most that can be poured reasonably; for the message
};

/// What is asked of a measured dose.
struct MeasureTask {
  Volume exact;
  Rounding rounding = Rounding::nearest;
  Share tolerance = share(0.1);   ///< of the exact dose
  std::optional<Volume> ceiling;  ///< never above this
};

/// Among full fills of one tool followed by one fill to a mark of the same or another tool: within
/// the tolerance and the rounding rule, then fewest pours, then fewest different tools, then the
/// least possible error. Doses that differ by less than a millionth count as equal.
[[nodiscard]] MeasureAnswer measure(const MeasureTask& task, const std::vector<const Tool*>& tools);

/// Worst-case error of one fill of `tool` to `to`: calibration plus reading.
/// Syringes: ISO 7886-1 Table 1 (figures from memory): below half the capacity 1.5 % of the
/// capacity plus 2 % (from 5 mL on 1 %) of the fill, from half on 5 % (from 5 mL on 4 %) of the
/// fill; reading half a division. Cylinders: one smallest division, reading half. Pipettes with a
/// bulb: 10 % of the capacity; cups and spoons: 5 % of the fill and as much for the level. All but
/// the syringe are our own defaults. The user's own figure replaces the calibration part.
[[nodiscard]] Volume fill_bound(const Tool& tool, Volume to);

}  // namespace dosewright
