// An exact dose on the marks of the tools at hand: the best way to measure it, and its error.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "dosewright/measure/tool_error.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// `count` fills of one tool to one of its marks. The tool belongs to the room.
struct Pour {
  const Tool* tool = nullptr;
  Portion to;
  int count = 1;
};

/// How sure a way is: by the tools' worst case over its total, taken for the whole and for each
/// tool that brings a fifth of it or more.
enum class Grade {
  good,    ///< within the tolerance, and no tool is filled below a fifth of its capacity
  fair,    ///< within kCoarse
  coarse,  ///< beyond
};

/// Our own limit: a dose whose tools can be off by more than this part of it is worth a word.
inline constexpr Share kCoarse = share(0.25);

/// A dose that can be measured.
struct Measured {
  std::vector<Pour> pours;   ///< in the order of pouring: larger tools first
  Portion total;             ///< in mL of a liquid, in g of a powder
  Portion tool_bound;        ///< worst case of the tools: calibration and reading, added up
  Portion tool_uncertainty;  ///< their standard uncertainty
  Portion off_by;  ///< |total - exact| + tool_bound: how far from the exact dose it can be
  Grade grade = Grade::good;
};

/// A dose too small to be measured, made measurable: `take` made up with water in `make_up`, and
/// `give` of that.
struct WorkingDilution {
  Pour take;
  Pour make_up;
  Pour give;
  Portion delivers;  ///< of the stock, in mL or g
  Portion bound;     ///< worst case of the three fills
  Portion uncertainty;
  Portion off_by;
};

enum class MeasureProblem {
  none,
  no_tool,           ///< there is no tool for this
  too_small,         ///< below what any tool can show within the tolerance
  too_large,         ///< more pours than are reasonable
  outside_tolerance  ///< no marks come near enough
};

struct MeasureAnswer {
  std::optional<Measured> measured;
  std::optional<WorkingDilution> dilution;  ///< instead of a measured dose
  MeasureProblem problem = MeasureProblem::no_tool;
  Portion smallest_mark;  ///< over all tools; for the message
  Portion largest_dose;   ///< the most that can be poured reasonably; for the message
  Portion wanted_size;    ///< too large: the next cylinder of a usual size that would do
};

/// A dose that misses its exact amount by no more than this part of it counts as reached, also
/// where it must never be under or over: the volume of the dose itself would else turn a plain
/// 7 mL into 7.5 mL. Far below what any tool shows; a ceiling or floor has no such slack.
inline constexpr double kReached = 1e-3;

/// What is asked of a measured dose.
struct MeasureTask {
  Portion exact;
  Rounding rounding = Rounding::nearest;
  Share tolerance = share(0.1);    ///< of the exact dose
  std::optional<Portion> ceiling;  ///< never above this
  std::optional<Portion> floor;    ///< never below this
};

/// A powder by volume: what a spoon of it weighs.
struct PowderByVolume {
  Concentration bulk_density;
  Share spread;  ///< half-width over the density
};

/// What one stock is measured with.
struct ToolSet {
  std::vector<const Tool*> tools;
  std::vector<const Tool*> for_dilution;  ///< for liquids; cylinders and cups to stir a dilution in
  std::optional<PowderByVolume> powder;   ///< for doses in g; with density 0 a scale alone serves
};

/// What the tools can do, fill by fill; known to the search alone.
struct ToolUses;

/// The tools for one stock, ready to be searched.
///
/// A way to measure takes one to three tools. A tool is filled to one and the same mark each time,
/// or to its highest mark and then once to another: what hands remember. The fills of a tool are no
/// more than its `pours`, all fills together no more than the largest `pours` among the tools used
/// (and 6 where tools are mixed). No tool is filled past its highest mark, or below its `least`. A
/// scale is used alone; three tools are mixed only where none has more than 400 marks.
///
/// Of all ways whose total lies within the tolerance, the rounding rule, ceiling and floor, the
/// answer is the first by: grade, fewest fills, fewest tools, least `off_by`; on a tie the one
/// whose tools stand first. Amounts that differ by less than a millionth count as equal. The grade
/// goes by the way's own total, not by the exact dose: so more water never gets a smaller dose.
class Measurer {
 public:
  explicit Measurer(const ToolSet& set);

  [[nodiscard]] MeasureAnswer measure(const MeasureTask& task) const;

  /// The same for all doses of a column. Where several tools are equally good (same grade, fills
  /// and number of tools) and all of the error stays within the tolerance, the tool that serves
  /// most of the column's doses is taken for them, so that the column reads evenly (of two that
  /// serve as many, the one that is less off); then the one that serves most of the rest, and so
  /// on.
  [[nodiscard]] std::vector<MeasureAnswer> measure_column(
      const std::vector<MeasureTask>& tasks) const;

 private:
  std::shared_ptr<const ToolUses> uses_;
};

/// One dose by itself.
[[nodiscard]] MeasureAnswer measure(const MeasureTask& task, const std::vector<const Tool*>& tools);

}  // namespace dosewright
