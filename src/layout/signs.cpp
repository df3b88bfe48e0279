#include "signs.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {

constexpr double kFrame = 0.25;  // mm

// Stripes at 45 degrees, rising to the right, cut off at the cell's edges.
Outline stripes(const Box& cell) {
  constexpr double kPitch = 1.3;  // mm along the horizontal edge: wide enough for a photocopier
  constexpr double kInk = 0.55;
  Outline out;
  const double right = cell.x + cell.width;
  const double bottom = cell.y + cell.height;
  // A line x + y = c crosses the cell where both stay inside it.
  const auto top_of = [&](double c) -> Point {
    const double x = std::min(right, c - cell.y);
    return {x, c - x};
  };
  const auto foot_of = [&](double c) -> Point {
    const double y = std::min(bottom, c - cell.x);
    return {c - y, y};
  };
  const double first = cell.x + cell.y;
  const double last = right + bottom;
  for (double c = first + kPitch / 2; c < last; c += kPitch) {
    const double end = std::min(c + kInk, last);
    std::vector<Point> corners = {foot_of(c), top_of(c)};
    const Point upper{right, cell.y};
    if (c < right + cell.y && end > right + cell.y) corners.push_back(upper);
    corners.push_back(top_of(end));
    corners.push_back(foot_of(end));
    const Point lower{cell.x, bottom};
    if (c < cell.x + bottom && end > cell.x + bottom) corners.push_back(lower);
    out.polygon(corners);
  }
  return out;
}

void draw_cell(Pen& pen, CellPattern pattern, const Box& cell) {
  switch (pattern) {
    case CellPattern::solid:
      // A white edge keeps two solid neighbours apart.
      pen.rectangle({cell.x + 0.45, cell.y + 0.45, cell.width - 0.9, cell.height - 0.9},
                    Ink::black);
      break;
    case CellPattern::striped:
      pen.fill(stripes(cell), Ink::black);
      break;
    case CellPattern::dotted:
      pen.fill(Outline().circle({cell.x + cell.width / 2, cell.y + cell.height / 2},
                                std::min(cell.width, cell.height) * 0.28),
               Ink::black);
      break;
    case CellPattern::blank:
      break;
  }
}

}  // namespace

void draw_strip(Pen& pen, const std::array<CellPattern, 8>& cells, int count, const Box& first_cell,
                bool lying) {
  const double dx = lying ? first_cell.height : 0;
  const double dy = lying ? 0 : first_cell.height;
  const double width = lying ? first_cell.height : first_cell.width;
  const double height = lying ? first_cell.width : first_cell.height;
  for (int i = 0; i < count; ++i) {
    const Box cell{first_cell.x + i * dx, first_cell.y + i * dy, width, height};
    draw_cell(pen, cells.at(static_cast<std::size_t>(i)), cell);
    if (i == 0) continue;
    const Box seam =
        lying ? Box{cell.x - 0.06, cell.y, 0.12, height} : Box{cell.x, cell.y - 0.06, width, 0.12};
    pen.rectangle(seam, Ink::black);
  }
  pen.frame({first_cell.x - kFrame / 2, first_cell.y - kFrame / 2,
             width + dx * (count - 1) + kFrame, height + dy * (count - 1) + kFrame},
            kFrame);
}

}  // namespace dosewright
