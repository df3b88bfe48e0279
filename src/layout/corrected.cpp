// A page drawn wrong by as much as the printer draws wrong, the other way round.
#include <cmath>

#include "dosewright/layout/documents.hpp"

namespace dosewright {

namespace {

// What is drawn at x comes out at offset + scale x.
struct Axis {
  double offset = 0;
  double scale = 1;
  [[nodiscard]] double drawn_for(double wanted) const { return (wanted - offset) / scale; }
};

Axis axis_of(Length cross, Length ruler, Length true_ruler) {
  Axis out;
  out.scale = ruler / true_ruler;
  out.offset = in_millimetres(cross) - out.scale * in_millimetres(kCheckFromEdge);
  return out;
}

class Corrector {
 public:
  explicit Corrector(const PrinterError& printer)
      : x_(axis_of(printer.cross_left, printer.across, kCheckAcross)),
        y_(axis_of(printer.cross_top, printer.down, kCheckDown)) {}

  [[nodiscard]] Point at(Point wanted) const {
    return {x_.drawn_for(wanted.x), y_.drawn_for(wanted.y)};
  }

  [[nodiscard]] Mark operator()(TextRun run) const {
    run.at = at(run.at);
    // Letters keep their shape: they go by the mean of both scales.
    run.size /= std::sqrt(x_.scale * y_.scale);
    return run;
  }

  [[nodiscard]] Mark operator()(Shape shape) const {
    for (PathStep& step : shape.steps) {
      step.to = at(step.to);
      step.control1 = at(step.control1);
      step.control2 = at(step.control2);
    }
    return shape;
  }

 private:
  Axis x_;
  Axis y_;
};

// Whether a mark begins on the page; a label stands clear of its edges.
bool is_inside(const Mark& mark, const Page& page) {
  const auto inside = [&](Point at) {
    return at.x >= 0 && at.y >= 0 && at.x <= page.width && at.y <= page.height;
  };
  if (const auto* run = std::get_if<TextRun>(&mark)) return inside(run->at);
  for (const PathStep& step : std::get<Shape>(mark).steps) {
    if (step.kind != PathStep::Kind::close && !inside(step.to)) return false;
  }
  return true;
}

}  // namespace

std::variant<Pages, LayoutProblem> corrected(const Pages& pages, const PrinterError& printer) {
  const Corrector corrector(printer);
  Pages out = pages;
  for (Page& page : out.pages) {
    for (Mark& mark : page.marks) {
      mark = std::visit(corrector, mark);
      if (!is_inside(mark, page))
        return LayoutProblem{"corrected for the printer, the labels reach beyond the paper",
                             "leave wider margins, or take printer: out of room:"};
    }
  }
  return out;
}

}  // namespace dosewright
