#include "chart_fills.hpp"

#include <algorithm>

#include "tools.hpp"

namespace dosewright {

namespace {

constexpr double kBetweenFills = 3;    // mm
constexpr double kLeastOfFill = 22;    // mm wide
constexpr double kBeforeTimes = 1.5;   // mm
constexpr std::size_t kMostFills = 4;  // side by side; more are said, not drawn

}  // namespace

double ChartFills::times_width(const Fill& fill) const {
  return fill.times.empty() ? 0 : kBeforeTimes + width_of(measurer_, fill.times, counts_);
}

// Width of each drawing when they stand side by side.
double ChartFills::each_width(const std::vector<Fill>& fills, double width) const {
  double room = width + kBetweenFills;
  for (const Fill& fill : fills) room -= kBetweenFills + times_width(fill);
  return room / static_cast<double>(fills.size());
}

std::vector<ChartFills::Fill> ChartFills::of(const CellContent& cell, double width) const {
  if (cell.pictures.empty()) return {};
  std::vector<Fill> each;
  std::vector<Fill> counted;
  for (const ToolPicture& picture : cell.pictures) {
    each.insert(each.end(), static_cast<std::size_t>(std::max(1, picture.count)),
                Fill{&picture, ""});
    counted.push_back({&picture, times_text(picture)});
  }
  if (each.size() <= kMostFills && each_width(each, width) >= kLeastOfFill) return each;
  if (each_width(counted, width) >= kLeastOfFill) return counted;
  return {};
}

void ChartFills::draw(Pen& pen, const std::vector<Fill>& fills, const Box& box) const {
  if (fills.empty()) return;
  const double width = each_width(fills, box.width);
  double x = box.x;
  for (const Fill& fill : fills) {
    draw_tool_lying(pen, *fill.picture, {x, box.y, width, box.height});
    x += width;
    pen.text({x + kBeforeTimes, box.y + (box.height + pen.cap_height(counts_)) / 2}, counts_,
             fill.times);
    x += times_width(fill) + kBetweenFills;
  }
}

}  // namespace dosewright
