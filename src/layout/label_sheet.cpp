#include "label_sheet.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr double kTick = 2;        // mm
constexpr double kPunchFrom = 6;   // mm from the top edge of a tag to the middle of its hole
constexpr double kPunchRoom = 10;  // mm
constexpr double kPunchRadius = 2.5;

bool has_wings(const LabelSheet& sheet) {
  return sheet.form == LabelForm::flag || sheet.form == LabelForm::tag;
}

// Its outer edge has the radius given.
void ring(Pen& pen, Point centre, double radius, double thickness) {
  Outline outline;
  outline.circle(centre, radius);
  outline.circle(centre, radius - thickness, true);
  pen.fill(outline, Ink::black);
}

// Short strokes outside the corners, where to cut; each as far from the label as it may be off.
void mark_cuts(Pen& pen, const Box& label) {
  constexpr double kFrom = 1;
  constexpr double kLong = 3;
  constexpr double kThick = 0.15;
  const Page& page = pen.page();
  const auto tick = [&](const Box& box) {
    const bool on_paper = box.x >= 0 && box.y >= 0 && box.x + box.width <= page.width &&
                          box.y + box.height <= page.height;
    // At the paper's own edge there is nothing to cut.
    if (on_paper) pen.rectangle(box, Ink::black);
  };
  for (const double x : {label.x, label.x + label.width}) {
    for (const double y : {label.y - kFrom - kLong, label.y + label.height + kFrom})
      tick({x - kThick / 2, y, kThick, kLong});
  }
  for (const double y : {label.y, label.y + label.height}) {
    for (const double x : {label.x - kFrom - kLong, label.x + label.width + kFrom})
      tick({x, y - kThick / 2, kLong, kThick});
  }
}

// A corner to cut round, as the label's edge runs there.
void mark_arc(Pen& pen, Point centre, double radius, double across, double down) {
  constexpr double kThick = 0.15;
  constexpr double kControl = 0.5522847498;  // of a quarter circle drawn as one Bezier curve
  Outline outline;
  const auto at = [&](double r, double x, double y) {
    return Point{centre.x + across * r * x, centre.y + down * r * y};
  };
  outline.move(at(radius, 1, 0))
      .curve(at(radius, 1, kControl), at(radius, kControl, 1), at(radius, 0, 1));
  const double inner = radius - kThick;
  outline.line(at(inner, 0, 1))
      .curve(at(inner, kControl, 1), at(inner, 1, kControl), at(inner, 1, 0))
      .close();
  pen.fill(outline, Ink::black);
}

void mark_round_corners(Pen& pen, const Box& label, double radius) {
  if (radius < 0.5) return;
  for (const double across : {-1.0, 1.0}) {
    for (const double down : {-1.0, 1.0}) {
      const double x = across < 0 ? label.x + radius : label.x + label.width - radius;
      const double y = down < 0 ? label.y + radius : label.y + label.height - radius;
      mark_arc(pen, {x, y}, radius, across, down);
    }
  }
}

}  // namespace

double around_of(const LabelSheet& sheet) {
  switch (sheet.form) {
    case LabelForm::wrap:
      return in_millimetres(kWrapOverlap);
    case LabelForm::flag:
      return in_millimetres(sheet.around);
    default:
      return 0;
  }
}

std::vector<Box> face_boxes(const LabelSheet& sheet, double width, double height) {
  const double across = around_of(sheet);
  if (!has_wings(sheet)) return {{0, 0, width - across, height}};
  const double wing = (width - across) / 2;
  const double top = sheet.form == LabelForm::tag ? kPunchRoom : 0;
  return {{0, top, wing, height - top}, {width - wing, top, wing, height - top}};
}

std::optional<LabelSheet> on_plain_paper(LabelSheet sheet) {
  if (sheet.paper.name == "roll") {
    sheet.paper = {"roll", sheet.label_width, sheet.label_height};
    sheet.pitch_x = sheet.label_width;
    sheet.pitch_y = sheet.label_height;
    return sheet;
  }
  const Length edge = millimetres(5);
  const Length gap = millimetres(10);  // room for the marks of both
  if (sheet.label_width > sheet.paper.width - edge * 2)
    std::swap(sheet.paper.width, sheet.paper.height);
  const Length across = sheet.paper.width - edge * 2;
  const Length down = sheet.paper.height - edge * 2;
  const bool may_shrink = sheet.form == LabelForm::panel;
  if (may_shrink) {
    sheet.label_width = std::min(sheet.label_width, across);
    sheet.label_height = std::min(sheet.label_height, down);
  }
  if (sheet.label_width > across || sheet.label_height > down) return std::nullopt;
  sheet.columns = static_cast<int>((across + gap) / (sheet.label_width + gap));
  sheet.rows = static_cast<int>((down + gap) / (sheet.label_height + gap));
  sheet.pitch_x = sheet.label_width + gap;
  sheet.pitch_y = sheet.label_height + gap;
  sheet.left = (sheet.paper.width + gap - sheet.pitch_x * sheet.columns) * 0.5;
  sheet.top = (sheet.paper.height + gap - sheet.pitch_y * sheet.rows) * 0.5;
  return sheet;
}

void mark_folds(Pen& pen, const LabelSheet& sheet, double thickness, const std::string& under) {
  const double width = pen.page().width;
  const double height = pen.page().height;
  const double across = around_of(sheet);
  std::vector<double> at;
  if (sheet.form == LabelForm::wrap) at = {width - across};
  if (sheet.form == LabelForm::flag) at = {(width - across) / 2, (width + across) / 2};
  if (sheet.form == LabelForm::tag) at = {width / 2};
  for (const double x : at) {
    for (const double y : {0.0, height - kTick})
      pen.rectangle({x - thickness / 2, y, thickness, kTick}, Ink::black);
  }
  if (sheet.form == LabelForm::wrap && !under.empty()) {
    // A word a line: the flap is narrow.
    const double room = across - 1.6;
    const std::vector<std::string> lines = split(under, ' ');
    Type type{2.3, Face::regular};
    for (const std::string& line : lines)
      type.size *= std::min(1.0, room / pen.width_of(line, type));
    double y = height / 2 - type.size * 0.6 * static_cast<double>(lines.size() - 1);
    for (const std::string& line : lines) {
      pen.text_centred({width - across / 2, y}, type, line);
      y += type.size * 1.2;
    }
  }
  if (sheet.form != LabelForm::tag) return;
  for (const double x : {width / 4, width * 3 / 4})
    ring(pen, {x, kPunchFrom}, kPunchRadius, thickness);
}

Pages on_sheets(const std::vector<Page>& labels, const LabelSheet& sheet, const std::string& title,
                const TextMeasurer& measurer) {
  Pages out;
  out.title = title;
  const int per_page = sheet.rows * sheet.columns;
  const int count = sheet.copies * static_cast<int>(labels.size());
  const int first = sheet.start_at - 1;
  for (int position = first; position < first + count; ++position) {
    const int slot = position % per_page;
    if (out.pages.empty() || slot == 0) {
      out.pages.push_back(
          {in_millimetres(sheet.paper.width), in_millimetres(sheet.paper.height), title, {}});
    }
    const int row = slot / sheet.columns;
    const double x = in_millimetres(sheet.left + sheet.pitch_x * (slot % sheet.columns));
    const double y = in_millimetres(sheet.top + sheet.pitch_y * row);
    Page& page = out.pages.back();
    const Page& label = labels[static_cast<std::size_t>(position - first) % labels.size()];
    for (const Mark& mark : label.marks) page.marks.push_back(moved(mark, x, y));
    if (!sheet.cut_marks) continue;
    Page cuts{page.width, page.height, "", {}};
    Pen pen(cuts, measurer);
    const bool round = sheet.form == LabelForm::dot;
    if (round) {
      ring(pen, {x + label.width / 2, y + label.width / 2}, label.width / 2, 0.15);
    } else {
      mark_cuts(pen, {x, y, label.width, label.height});
      mark_round_corners(pen, {x, y, label.width, label.height},
                         in_millimetres(sheet.round_corners));
    }
    page.marks.insert(page.marks.end(), cuts.marks.begin(), cuts.marks.end());
  }
  out.next_label = (first + count) % per_page + 1;
  return out;
}

}  // namespace dosewright
