// How high a figure must be to be read from some distance, and charts made for that.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "dosewright/layout/documents.hpp"

namespace dosewright {

/// Minutes of arc that a figure's height takes up at the eye: 16 is the least for reading at all,
/// 20 to 22 is preferred. ISO 9241-3:1992, 5.4 (as quoted in secondary sources), and NUREG-0700,
/// rev. 3: text of 16 to 24 minutes, 20 to 22 preferred.
inline constexpr double kLeastArc = 16;
inline constexpr double kAimedArc = 22;

/// h = 2 d tan(a / 2), in the unit of `distance`: 6.981 mm for 16 minutes at 1.5 m.
[[nodiscard]] Length figure_height(Length distance, double arc_minutes);

/// The chart on whichever of `papers` (smallest first, in either turn) lets its figures, its code
/// and its date be read from `distance`: one page at the height aimed at before one page at the
/// least, the smallest paper first; then several pages. A problem names the distance from which it
/// could be read. Precondition: at least one paper.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_chart_to_read(
    const ChartContent& content, Length distance, const std::vector<PaperSize>& papers,
    const ChartStyle& style, const TextMeasurer& measurer);

/// One chart after the other, each beginning a new page, on paper of one size.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_charts(
    const std::string& title, const std::vector<ChartContent>& charts, const PaperSize& paper,
    const ChartStyle& style, const TextMeasurer& measurer);
/// The same for reading from `distance`: on the paper that the chart needs that needs the largest.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_charts_to_read(
    const std::string& title, const std::vector<ChartContent>& charts, Length distance,
    const std::vector<PaperSize>& papers, const ChartStyle& style, const TextMeasurer& measurer);

}  // namespace dosewright
