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

// Marks at least this far apart are drawn; closer ones are thinned to every 2nd, 5th, 10th …
constexpr double kMarkGap = 0.9;  // mm

std::size_t mark_step(const std::vector<MarkPicture>& marks, double length) {
  if (marks.size() < 2) return 1;
  const double gap =
      (marks.back().at - marks.front().at) / static_cast<double>(marks.size() - 1) * length;
  for (std::size_t scale = 1; scale <= 1000; scale *= 10) {
    for (const std::size_t step : {scale, 2 * scale, 5 * scale}) {
      if (gap * static_cast<double>(step) >= kMarkGap) return step;
    }
  }
  return marks.size();
}

void draw_marks(Pen& pen, const ToolPicture& picture, const Box& barrel) {
  const std::size_t step = mark_step(picture.marks, barrel.width);
  for (std::size_t i = 0; i < picture.marks.size(); ++i) {
    const std::size_t number = i + 1;
    const bool is_long = number % (5 * step) == 0;
    if (number % step != 0 && picture.marks.size() > 1) continue;
    if (picture.marks[i].at > 0.999) continue;
    const double height = barrel.height * (is_long ? 0.5 : 0.28);
    pen.rectangle({barrel.x + picture.marks[i].at * barrel.width - 0.08,
                   barrel.y + barrel.height - height, 0.16, height},
                  Ink::black);
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

void draw_tool(Pen& pen, const ToolPicture& picture, const Box& box) {
  constexpr double kWall = 0.22;
  const double nozzle = picture.kind == Tool::Kind::syringe ? 4 : 0;
  const Box barrel{box.x + nozzle, box.y, box.width - nozzle, box.height};
  pen.rectangle(barrel, Ink::white);
  pen.rectangle({barrel.x, barrel.y, barrel.width * picture.fill, barrel.height}, Ink::fill);
  if (picture.kind == Tool::Kind::syringe) {
    const Box tip{box.x, box.y + box.height * 0.34, nozzle + kWall, box.height * 0.32};
    pen.rectangle(tip, Ink::white);
    pen.frame(tip, kWall);
  }
  draw_marks(pen, picture, barrel);
  pen.frame(barrel, kWall);
  const double line = std::min(barrel.x + barrel.width * picture.fill, barrel.x + barrel.width);
  pen.rectangle({line - 0.35, barrel.y - 1, 0.7, barrel.height + 2}, Ink::black);
}

}  // namespace dosewright
