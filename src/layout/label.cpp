// One label: the faces of its design in the largest type that fits.
#include <algorithm>
#include <cmath>
#include <optional>

#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "label_column.hpp"
#include "label_sheet.hpp"
#include "pen.hpp"
#include "signs.hpp"

namespace dosewright {

namespace {

// What the law asks of a label by the container's size.
struct Floor {
  double x_height;   // of hazard text, mm
  double pictogram;  // side of the square, mm
  double wanted_pictogram;
  double short_side;  // of the label; 0 where the law only wishes it
  double long_side;
};

// CLP Annex I, Table 1.3; x-heights: Regulation (EU) 2024/2865. A side of 16.1 mm is the strict
// 1/15 of 52 x 74 mm.
Floor floor_for(Volume capacity) {
  const double litres = in_litres(capacity);
  if (litres <= 0.5) return {1.2, 10, 16.1, 0, 0};
  if (litres <= 3) return {1.4, 10, 16.1, 0, 0};
  if (litres <= 50) return {1.8, 23, 23, 74, 105};
  if (litres <= 500) return {2.0, 32.2, 32.2, 105, 148};
  return {2.0, 46, 46, 148, 210};
}

// One face of a label and where it lies on it.
struct Placed {
  const LabelFace* face = nullptr;
  std::vector<double> widths;  // of its regions, over the whole
  Box box;
  std::size_t label = 0;  // 1: on a second label
  double free = 0;        // at least so much along its edges
};
using Plan = std::vector<Placed>;

// Type from this size on (mm) is large enough to give some of it for air.
constexpr double kAiry = 3;

// A large label keeps more free at its edges than the design's margin.
constexpr double kMarginShare = 0.035;

// How far in from both edges a corner of `radius` still leaves this much free.
constexpr double kFreeOfCorner = 1;  // mm
double clear_of_corner(double radius) {
  return radius - std::max(0.0, radius - kFreeOfCorner) / std::sqrt(2.0);
}

// Labels that reach the paper's edge lose what a printer cannot reach there: many desktop printers
// leave 4.2 mm, a sixth of an inch (common practice, no source).
double printers_margin(const LabelSheet& sheet) {
  constexpr double kReach = 4.2;
  if (sheet.paper.name == "roll" || sheet.proposed) return 0;
  const Length right =
      sheet.paper.width - sheet.left - sheet.pitch_x * (sheet.columns - 1) - sheet.label_width;
  const Length bottom =
      sheet.paper.height - sheet.top - sheet.pitch_y * (sheet.rows - 1) - sheet.label_height;
  const Length nearest = std::min({sheet.left, sheet.top, right, bottom});
  return std::max(0.0, kReach - in_millimetres(nearest));
}

// One try at a face in given sizes. Its regions are set first; when they fit, they are drawn.
class Attempt {
 public:
  Attempt(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
          const Placed& placed, const LabelSizes& sizes)
      : content_(content),
        style_(style),
        measurer_(measurer),
        placed_(placed),
        sizes_(sizes),
        margin_(std::max({in_millimetres(style.margin), placed.free,
                          kMarginShare * std::min(placed.box.width, placed.box.height)})),
        strip_(in_millimetres(style.strip.cell_width)) {}

  bool make() {
    const Box& box = placed_.box;
    sizes_.square_apart = stands_apart(LabelPart::square_code);
    const double gutters = gutter() * static_cast<double>(placed_.face->size() - 1);
    const double inner = box.width - 2 * margin_ - gutters;
    room_ = box.height - 2 * margin_;
    double x = box.x + margin_;
    for (std::size_t i = 0; i < placed_.face->size(); ++i) {
      const LabelRegion& region = (*placed_.face)[i];
      const double width = inner * placed_.widths[i];
      const bool strip = region.strip && !content_.code.letters.empty();
      if (strip) strip_x_ = x;
      const double beside = strip ? strip_ + std::max(2.5, strip_ * 0.55) : 0;
      auto column =
          set_column(content_, style_, measurer_, sizes_, x + beside, width - beside, region.parts);
      if (column == nullptr || column->height() > filled_room()) return false;
      columns_.push_back(std::move(column));
      x += width + gutter();
    }
    return cells() * in_millimetres(style_.strip.cell_height) <= room_;
  }

  /// Of its highest region.
  [[nodiscard]] double height() const {
    double out = 0;
    for (const auto& column : columns_) out = std::max(out, column->height());
    return out;
  }

  void draw(Pen& pen) const {
    const double top = placed_.box.y + margin_;
    if (strip_x_ >= 0)
      draw_strip(pen, content_.code.strip, cells(),
                 {strip_x_, top, strip_, in_millimetres(style_.strip.cell_height)}, false);
    for (const auto& column : columns_) column->draw(pen, top, room_);
  }

 private:
  [[nodiscard]] bool stands_apart(LabelPart part) const {
    return std::any_of(placed_.face->begin(), placed_.face->end(), [&](const LabelRegion& region) {
      return std::find(region.parts.begin(), region.parts.end(), part) != region.parts.end();
    });
  }
  [[nodiscard]] double filled_room() const { return sizes_.airy ? room_ * 0.95 : room_; }
  [[nodiscard]] int cells() const {
    return placed_.box.height < in_millimetres(style_.strip.short_below) ? style_.strip.short_cells
                                                                         : style_.strip.cells;
  }
  [[nodiscard]] double gutter() const { return std::max(margin_, sizes_.text * 1.6); }

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  Placed placed_;
  LabelSizes sizes_;
  double margin_;
  double strip_;
  double strip_x_ = -1;
  double room_ = 0;
  std::vector<std::unique_ptr<LabelColumn>> columns_;
};

// Widths between the regions' limits that come to 1: what is over or missing is shared out by how
// far each may still give, first among all but the region `kept`.
std::vector<double> filled(const LabelFace& face, std::vector<double> widths, std::size_t kept) {
  for (const bool all : {false, true}) {
    double missing = 1;
    for (const double width : widths) missing -= width;
    const auto give = [&](std::size_t i) {
      if (i == kept && !all) return 0.0;
      return missing > 0 ? as_ratio(face[i].widest) - widths[i]
                         : widths[i] - as_ratio(face[i].narrowest);
    };
    double room = 0;
    for (std::size_t i = 0; i < face.size(); ++i) room += give(i);
    if (room <= 0) continue;
    const double part = std::clamp(missing / room, -1.0, 1.0);
    for (std::size_t i = 0; i < face.size(); ++i) widths[i] += part * give(i);
  }
  return widths;
}

// Ways to share out a face: all regions in the middle of what they may be, and each in turn nearer
// its ends, with the others in the middle.
std::vector<std::vector<double>> sharings(const LabelFace& face) {
  std::vector<double> middle;
  bool fixed = true;
  for (const LabelRegion& region : face) {
    middle.push_back((as_ratio(region.narrowest) + as_ratio(region.widest)) / 2);
    fixed = fixed && region.narrowest == region.widest;
  }
  std::vector<std::vector<double>> out = {filled(face, middle, face.size())};
  if (fixed) return out;
  for (std::size_t i = 0; i < face.size(); ++i) {
    for (const double part : {0.0, 0.25, 0.75, 1.0}) {
      std::vector<double> wished = middle;
      const double least = as_ratio(face[i].narrowest);
      wished[i] = least + part * (as_ratio(face[i].widest) - least);
      out.push_back(filled(face, std::move(wished), i));
    }
  }
  return out;
}

// The ways a design deals out a label of this form: on its front, or on front and back if it knows
// that; each with all sharings of its faces.
std::vector<std::vector<Plan>> plans_for(const LabelStyle& style, const LabelSheet& sheet,
                                         double width, double height) {
  const std::vector<Box> boxes = face_boxes(sheet, width, height);
  const double corner = clear_of_corner(in_millimetres(sheet.round_corners));
  std::vector<double> margins = {corner};
  // Within the printer's reach where there is room for that.
  if (printers_margin(sheet) > corner) margins.insert(margins.begin(), printers_margin(sheet));
  std::vector<std::vector<Plan>> out;
  for (const double free : margins) {
    out.emplace_back();
    for (const auto& widths : sharings(style.front)) {
      Plan plan;
      for (const Box& box : boxes) plan.push_back({&style.front, widths, box, 0, free});
      out.back().push_back(std::move(plan));
    }
  }
  if (style.full_front.empty()) return out;
  const std::size_t second = boxes.size() == 1 ? 1 : 0;
  for (const double free : margins) {
    out.emplace_back();
    for (const auto& front : sharings(style.full_front)) {
      for (const auto& back : sharings(style.full_back))
        out.back().push_back({{&style.full_front, front, boxes.front(), 0, free},
                              {&style.full_back, back, boxes.back(), second, free}});
    }
  }
  return out;
}

// A plan and the sizes of each of its faces.
struct Chosen {
  const Plan* plan;
  std::vector<LabelSizes> sizes;
};

// Finds the largest sizes at which a label of some width and height holds everything.
class Fitter {
 public:
  Fitter(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
         bool may_be_tight = true)
      : content_(content),
        style_(style),
        measurer_(measurer),
        may_be_tight_(may_be_tight),
        floor_(floor_for(content.capacity)) {
    const double by_law = floor_.x_height / measurer.metrics(Face::regular).x_height;
    smallest_ = std::max(in_millimetres(style.text.smallest), by_law);
    largest_ = std::max(in_millimetres(style.text.largest), smallest_);
  }

  // The sizes of each face; nothing when it does not fit.
  std::optional<std::vector<LabelSizes>> best(const Plan& plan) const {
    if (below_lawful_size(plan)) return std::nullopt;
    // The wished-for pictograms first; then what still is lawful, in small steps.
    const double least = std::max(floor_.pictogram, in_millimetres(style_.pictogram.smallest));
    const double most = std::max(floor_.wanted_pictogram, least);
    for (double side = most; side > least - 0.01; side -= 1) {
      // A line for each statement and air round the parts read better, but are not what the law
      // wishes.
      const bool wished = side >= floor_.wanted_pictogram - 1e-9 && !content_.pictograms.empty();
      for (const Closeness close : {Closeness{false, false}, Closeness{true, false},
                                    Closeness{false, true}, Closeness{true, true}}) {
        if ((close.run_on && !wished) || (close.tight && !may_be_tight_)) continue;
        if (auto sizes = best_text(plan, side, close))
          return enlarged(plan, rearranged(plan, *sizes));
      }
      if (side > least && side - 1 < least) side = least + 1;
    }
    return std::nullopt;
  }

  // The plan with the largest text, first of those whose pictograms are as the law wishes them;
  // null when none fits.
  [[nodiscard]] std::optional<Chosen> best_of(const std::vector<Plan>& plans) const {
    std::optional<Chosen> out;
    for (const Plan& plan : plans) {
      auto sizes = best(plan);
      if (!sizes) continue;
      if (!out || is_larger(sizes->front(), out->sizes.front()))
        out = Chosen{&plan, std::move(*sizes)};
    }
    return out;
  }

  // Of the ways to deal out a label the first whose pictograms are as the law wishes them, or else
  // the first that fits.
  [[nodiscard]] std::optional<Chosen> first_of(const std::vector<std::vector<Plan>>& ways) const {
    std::optional<Chosen> first;
    for (const auto& plans : ways) {
      auto chosen = best_of(plans);
      if (chosen && chosen->sizes.front().pictogram >= floor_.wanted_pictogram - 1e-9)
        return chosen;
      if (!first) first = std::move(chosen);
    }
    return first;
  }

  [[nodiscard]] bool below_lawful_size(const Plan& plan) const {
    const Box& box = plan.front().box;
    return std::min(box.width, box.height) < floor_.short_side - 0.05 ||
           std::max(box.width, box.height) < floor_.long_side - 0.05;
  }

  // The smallest label of about these proportions on which everything fits, in whole millimetres.
  std::optional<std::pair<double, double>> smallest_label(const LabelSheet& sheet) const {
    const double across = around_of(sheet);
    const double width = in_millimetres(sheet.label_width) - across;
    const double height = in_millimetres(sheet.label_height);
    for (double factor = 1; factor < 6; factor += 0.02) {
      const double w = std::ceil(width * factor) + across;
      const double h = std::ceil(height * factor);
      for (const auto& plans : plans_for(style_, sheet, w, h)) {
        for (const Plan& plan : plans) {
          if (!below_lawful_size(plan) &&
              sizes_at(plan, smallest_, floor_.pictogram, {false, true}))
            return std::make_pair(w, h);
        }
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] const Floor& law() const { return floor_; }
  [[nodiscard]] double smallest_text() const { return smallest_; }

 private:
  [[nodiscard]] bool is_larger(const LabelSizes& one, const LabelSizes& other) const {
    const double wanted = floor_.wanted_pictogram - 1e-9;
    if ((one.pictogram >= wanted) != (other.pictogram >= wanted)) return one.pictogram >= wanted;
    if (std::fabs(one.text - other.text) > 1e-9) return one.text > other.text;
    return one.pictogram > other.pictogram + 1e-9;
  }

  // What a label gives up where it has no room.
  struct Closeness {
    bool run_on = false;
    bool tight = false;
  };

  // All faces in one size of text; each arranges its pictograms as it can.
  std::optional<std::vector<LabelSizes>> sizes_at(const Plan& plan, double text, double side,
                                                  const Closeness& close) const {
    std::vector<LabelSizes> out;
    for (const Placed& placed : plan) {
      bool made = false;
      for (const Arrangement arrangement : arrangements()) {
        const bool airy = text > kAiry && text > smallest_ * 1.15;
        const LabelSizes sizes{text, side, arrangement, close.run_on, airy, close.tight};
        if (!Attempt(content_, style_, measurer_, placed, sizes).make()) continue;
        out.push_back(sizes);
        made = true;
        break;
      }
      if (!made) return std::nullopt;
    }
    return out;
  }

  [[nodiscard]] std::vector<Arrangement> arrangements() const {
    std::vector<Arrangement> out = {Arrangement::column, Arrangement::row, Arrangement::above};
    if (content_.pictograms.size() > 2) out.push_back(Arrangement::pairs);
    return out;
  }

  // Another way to place the pictograms is taken where it takes much less height; than words in a
  // narrow column beside a row of them, which leave a hole below it, any that is lower is better.
  std::vector<LabelSizes> rearranged(const Plan& plan, std::vector<LabelSizes> sizes) const {
    constexpr double kMuch = 0.88;
    for (std::size_t i = 0; i < plan.size(); ++i) {
      double least = 0;
      for (const Arrangement arrangement : arrangements()) {
        LabelSizes tried = sizes[i];
        tried.arrangement = arrangement;
        Attempt attempt(content_, style_, measurer_, plan[i], tried);
        const double most = sizes[i].arrangement == Arrangement::row ? least : least * kMuch;
        if (!attempt.make() || (least > 0 && attempt.height() > most)) continue;
        least = attempt.height();
        sizes[i] = tried;
      }
    }
    return sizes;
  }

  std::optional<std::vector<LabelSizes>> best_text(const Plan& plan, double side,
                                                   const Closeness& close) const {
    constexpr int kSteps = 48;
    constexpr int kStride = 6;
    const auto at = [&](int step) {
      return sizes_at(
          plan, smallest_ * std::pow(largest_ / smallest_, step / static_cast<double>(kSteps)),
          side, close);
    };
    // Most tries fail, and fail at the smallest size already.
    if (!at(0)) return std::nullopt;
    int coarse = kSteps;
    while (coarse > 0 && !at(coarse)) coarse -= kStride;
    for (int step = std::min(kSteps, coarse + kStride - 1); step > coarse; --step) {
      if (auto sizes = at(step)) return sizes;
    }
    return at(coarse);
  }

  // With the text settled, the pictograms grow into what room is left.
  std::vector<LabelSizes> enlarged(const Plan& plan, std::vector<LabelSizes> sizes) const {
    for (double side = sizes.front().pictogram; side <= in_millimetres(style_.pictogram.largest);
         side += 0.5) {
      std::vector<LabelSizes> next = sizes;
      bool all = true;
      for (std::size_t i = 0; i < plan.size() && all; ++i) {
        next[i].pictogram = side;
        all = Attempt(content_, style_, measurer_, plan[i], next[i]).make();
      }
      if (all) sizes = next;
    }
    return sizes;
  }

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  bool may_be_tight_;
  Floor floor_;
  double smallest_ = 0;
  double largest_ = 0;
};

std::string size_text(double width, double height) {
  return figure(width, 1) + " x " + figure(height, 1) + " mm";
}

LayoutProblem too_small(const Fitter& fitter, const LabelContent& content, const LabelSheet& sheet,
                        const Plan& plan) {
  LayoutProblem problem;
  problem.message =
      "a label of " +
      size_text(in_millimetres(sheet.label_width), in_millimetres(sheet.label_height)) +
      " is too small for " + content.name;
  if (fitter.below_lawful_size(plan)) {
    problem.message += ": a container of " + volume_text(content.capacity) + " wants at least " +
                       size_text(fitter.law().long_side, fitter.law().short_side) +
                       " (CLP Annex I, Table 1.3, which is kept here for every bottle)";
  } else {
    problem.message +=
        " and its hazard text at an x-height of " + figure(fitter.law().x_height, 1) + " mm";
  }
  if (sheet.proposed) {
    problem.hint =
        "there is no more room on it: take form: tag, which is tied on and as large as "
        "its words need, or another container";
    return problem;
  }
  const auto enough = fitter.smallest_label(sheet);
  problem.hint = enough ? "the smallest label of this shape that would do is " +
                              size_text(enough->first, enough->second)
                        : "shorten the texts or choose another shape";
  return problem;
}

// CLP Annex I, 1.5.2.1: what a package of at most 125 mL may leave away when there is no room.
constexpr Volume kSmallPackage = millilitres(125);

LabelContent shortened(LabelContent content) {
  content.hazard_lines = content.short_hazard_lines;
  content.precautions = content.short_precautions;
  content.elsewhere = content.short_elsewhere;
  content.warning_lines.push_back(content.short_words);
  return content;
}

LayoutProblem no_paper_for(const LabelSheet& sheet) {
  const double edges = 10;
  return {"a label of " +
              size_text(in_millimetres(sheet.label_width), in_millimetres(sheet.label_height)) +
              " finds no room on " + sheet.paper.name,
          "take paper of at least " +
              size_text(in_millimetres(sheet.label_width) + edges,
                        in_millimetres(sheet.label_height) + edges) +
              ", a roll, or another form: a panel, or a tag that is tied on"};
}

// The label drawn on its faces, in the largest sizes that fit; nothing when none do.
std::optional<std::vector<Page>> drawn(const LabelContent& content, const LabelSheet& sheet,
                                       const LabelStyle& style, const TextMeasurer& measurer,
                                       bool may_be_tight = true) {
  const double width = in_millimetres(sheet.label_width);
  const double height = in_millimetres(sheet.label_height);
  const Fitter fitter(content, style, measurer, may_be_tight);
  const auto ways = plans_for(style, sheet, width, height);
  if (const auto chosen = fitter.first_of(ways)) {
    const Plan& plan = *chosen->plan;
    const std::vector<LabelSizes>& sizes = chosen->sizes;
    std::vector<Page> labels(plan.back().label + 1, Page{width, height, "", {}});
    for (std::size_t i = 0; i < plan.size(); ++i) {
      Pen pen(labels[plan[i].label], measurer);
      Attempt attempt(content, style, measurer, plan[i], sizes[i]);
      if (!attempt.make()) throw LayoutFault("a label that fitted does not fit");
      attempt.draw(pen);
    }
    for (Page& label : labels) {
      Pen pen(label, measurer);
      mark_folds(pen, sheet, in_millimetres(style.rules.light), content.under);
    }
    return labels;
  }
  if (!content.may_be_shortened || content.capacity > kSmallPackage) return std::nullopt;
  LabelContent less = shortened(content);
  less.may_be_shortened = false;
  return drawn(less, sheet, style, measurer, may_be_tight);
}

// What a label of free size is made for: nothing left off, and pictograms as the law wishes them.
struct Wishes {
  bool whole = true;
  bool wanted_pictograms = true;
  bool air = true;
};

// A flag or a tag that was proposed is as large as its words need: a tag in proportion, a flag,
// which is no higher than its tube, by its wings alone. Its sheet is left at that size; nothing
// when no such label finds room.
std::optional<std::vector<Page>> drawn_in_free_size(LabelSheet& sheet, const LabelContent& asked,
                                                    const LabelStyle& style,
                                                    const TextMeasurer& measurer,
                                                    const Wishes& wishes) {
  LabelContent content = asked;
  content.may_be_shortened = asked.may_be_shortened && !wishes.whole;
  LabelStyle wished = style;
  if (wishes.wanted_pictograms)
    wished.pictogram.smallest = millimetres(floor_for(content.capacity).wanted_pictogram);
  LabelSheet tried = sheet;
  const double width = in_millimetres(sheet.label_width) - around_of(sheet);
  const double height = in_millimetres(sheet.label_height);
  for (double factor = 1; factor < 4; factor += 0.04) {
    tried.label_width = millimetres(std::ceil(width * factor) + around_of(sheet));
    if (sheet.form == LabelForm::tag) tried.label_height = millimetres(std::ceil(height * factor));
    if (!on_plain_paper(tried)) return std::nullopt;
    auto labels = drawn(content, tried, wished, measurer, !wishes.air);
    if (!labels) continue;
    sheet = tried;
    return labels;
  }
  return std::nullopt;
}

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_label(const LabelContent& content,
                                                 const LabelSheet& asked, const LabelStyle& style,
                                                 const TextMeasurer& measurer) {
  LabelSheet sheet = asked;
  const bool wings = asked.form == LabelForm::flag || asked.form == LabelForm::tag;
  if (asked.proposed && wings) {
    for (const Wishes wishes : {Wishes{true, true, true}, Wishes{true, true, false},
                                Wishes{true, false, false}, Wishes{false, false, false}}) {
      const auto labels = drawn_in_free_size(sheet, content, style, measurer, wishes);
      if (labels) return on_sheets(*labels, *on_plain_paper(sheet), content.name, measurer);
    }
  }
  if (asked.proposed) {
    const auto placed = on_plain_paper(sheet);
    if (!placed) return no_paper_for(sheet);
    sheet = *placed;
  }
  if (sheet.form == LabelForm::dot) return lay_out_cap_dot(content, sheet, style, measurer);
  if (const auto labels = drawn(content, sheet, style, measurer))
    return on_sheets(*labels, sheet, content.name, measurer);
  const double width = in_millimetres(sheet.label_width);
  const double height = in_millimetres(sheet.label_height);
  return too_small(Fitter(content, style, measurer), content, sheet,
                   plans_for(style, sheet, width, height).front().front());
}

}  // namespace dosewright
