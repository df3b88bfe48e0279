// Drawings of measuring tools, one fill each; private to this folder.
#pragma once

#include <string>

#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// How far the heavy line of a lying tool stands out of its box, up and down, in mm.
inline constexpr double kLineStandsOut = 0.8;

/// Marks of a tool are drawn at least this far apart, in mm; closer ones are thinned.
inline constexpr double kMarkGap = 0.9;

/// One fill, lying, its outlet or foot on the left. `box`: 22 to 80 mm wide, 3 to 6 mm high. Only
/// the heavy line, a syringe's grips and the heap on a scale leave the box, up and down, by at most
/// kLineStandsOut. `count` is not said.
void draw_tool_lying(Pen& pen, const ToolPicture& picture, const Box& box);

/// One fill, upright and inside the box: marks with their figures, the heavy line with the fill's
/// text large beside it, under it the count when it is more than 1. `box`: 20 to 90 mm wide, 40 to
/// 150 mm high. `figures` is the type of the figures at the marks.
void draw_tool_upright(Pen& pen, const ToolPicture& picture, const Box& box, const Type& figures);

/// "3 times"; empty for once.
[[nodiscard]] std::string times_text(const ToolPicture& picture);

}  // namespace dosewright
