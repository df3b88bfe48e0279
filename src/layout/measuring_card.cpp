// Measuring cards: one panel for each dose, with its tools drawn large; a grid that fills the page.
#include <algorithm>
#include <cmath>

#include "chart_frame.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "pen.hpp"
#include "tools.hpp"

namespace dosewright {

namespace {

constexpr double kPoint = 25.4 / 72;  // a printer's point in mm

// On A4; smaller paper takes less. All in mm, our own measures.
constexpr double kPanelWidth = 76;       // a column is at least this wide where there are several
constexpr double kDrawingHeight = 45;    // a drawing is at least this high
constexpr double kHighestDrawing = 140;  // and at most
constexpr double kDrawingWidth = 24;     // a drawing is at least this wide
constexpr double kPadding = 5;           // in a panel, above and below

// "1. … 2. … 3. …" taken apart; anything else stays whole.
std::vector<std::string> steps_of(const std::string& how) {
  std::vector<std::string> out;
  std::size_t from = 0;
  for (char number = '2'; number <= '9'; ++number) {
    const std::size_t at = how.find(std::string(". ") + number + ". ", from);
    if (at == std::string::npos) break;
    out.push_back(how.substr(from, at + 1 - from));
    from = at + 2;
  }
  out.push_back(how.substr(from));
  return out;
}

class MeasuringCardLayout : private ChartFrame {
 public:
  MeasuringCardLayout(const MeasuringCardContent& content, const PaperSize& paper,
                      const ChartStyle& style, const TextMeasurer& measurer)
      : ChartFrame(content.page, paper, style, measurer, ColumnHeads::none),
        panels_(content.panels) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (!frame_fits()) return no_room("its title, subtitle or foot");
    if (!choose_grid()) return no_room("its panels");
    Pages out;
    out.title = content_.title;
    const std::size_t pages = (panels_.size() + each_ - 1) / each_;
    for (std::size_t page = 0; page < pages; ++page) {
      const std::size_t first = page * each_;
      out.pages.push_back(
          draw_page(first, std::min(first + each_, panels_.size()), page + 1, pages));
    }
    return out;
  }

 private:
  // ---- types

  [[nodiscard]] Type dose_type() const { return {dose_size_, Face::bold}; }
  [[nodiscard]] double water_size() const { return dose_size_ * style_.heading_factor; }
  [[nodiscard]] Type unit_type(double size) const {
    return {std::max(size * 0.5, small().size), Face::regular};
  }
  [[nodiscard]] Type how_type() const { return text(Face::bold); }

  // ---- measures

  [[nodiscard]] double amount_width(const Amount& amount, double size) const {
    return wide(amount.figure, {size, Face::bold}) + size * kUnitGap +
           wide(amount.unit, unit_type(size));
  }
  [[nodiscard]] double water_width() const {
    double out = 0;
    for (const MeasurePanel& panel : panels_)
      out = std::max(out, amount_width(panel.water, water_size()));
    return out;
  }
  // From a panel's left edge to its dose: water, then the word content_.words.give.
  [[nodiscard]] double dose_offset() const {
    return water_width() + gap() + wide(content_.words.give, text()) + text().size * 0.7;
  }
  [[nodiscard]] double then_width() const { return wide("then", text()) + 2 * kThenGap; }
  [[nodiscard]] double padding() const { return kPadding * small_paper_; }
  [[nodiscard]] double head_height() const {
    return cap(dose_type()) + small().size * 1.5 + 5 * small_paper_;
  }
  [[nodiscard]] double words_height() const {
    return 4 * small_paper_ + cap(how_type()) +
           how_type().size * 1.2 * static_cast<double>(most_lines_ - 1) + text().size * 1.55;
  }
  [[nodiscard]] double drawing_height() const {
    return panel_height_ - 2 * padding() - head_height() - words_height();
  }
  [[nodiscard]] double least_panel_height() const {
    return 2 * padding() + head_height() + words_height() + kDrawingHeight * small_paper_;
  }
  [[nodiscard]] double panel_gap() const { return gap() * 1.4; }
  [[nodiscard]] double width_for(std::size_t columns) const {
    return (right_ - left_ + panel_gap()) / static_cast<double>(columns) - panel_gap();
  }
  // Width of each of several drawings.
  [[nodiscard]] double drawing_width(std::size_t drawings) const {
    const auto count = static_cast<double>(std::max<std::size_t>(drawings, 1));
    return (panel_width_ - (count - 1) * then_width()) / count;
  }

  // ---- choosing

  // Panels of one line of words each, as long as they fit: then the grid, then the rest.
  bool choose_grid() {
    const double least = (kPanelWidth * small_paper_) + panel_gap();
    const auto most =
        static_cast<std::size_t>(std::max(1.0, std::floor((right_ - left_ + panel_gap()) / least)));
    for (std::size_t columns = std::min(most, panels_.size()); columns >= 1; --columns) {
      panel_width_ = width_for(columns);
      if (choose_dose() && choose_rows(columns) && reasons_fit()) return true;
    }
    return false;
  }

  // The largest dose with which every panel keeps its width and a page holds a row of panels.
  bool choose_dose() {
    const double smallest = in_millimetres(style_.dose.smallest) * small_paper_;
    const double largest = std::min(in_millimetres(style_.dose.largest) * small_paper_,
                                    type(style_.title).size * 1.15);
    if (!words_fit()) return false;
    for (dose_size_ = largest; dose_size_ >= smallest - 1e-6; dose_size_ -= kPoint / 2) {
      if (heads_fit() && least_panel_height() <= room()) return true;
    }
    return false;
  }

  [[nodiscard]] bool heads_fit() const {
    return std::all_of(panels_.begin(), panels_.end(), [&](const MeasurePanel& panel) {
      return dose_offset() + amount_width(panel.cell.dose, dose_size_) <= panel_width_ &&
             !shrinks_too_far(small(), panel.name, panel_width_);
    });
  }

  // Words under the drawings and the drawings themselves; also finds the most lines.
  bool words_fit() {
    most_lines_ = 1;
    for (const MeasurePanel& panel : panels_) {
      const auto lines = wrapped(measurer_, panel.cell.how, how_type(), panel_width_);
      if (lines.empty() && !panel.cell.how.empty()) return false;
      if (panel.cell.dose.figure.empty()) continue;
      if (wide(panel.cell.off_by, text()) > panel_width_) return false;
      if (drawing_width(panel.cell.pictures.size()) < kDrawingWidth * small_paper_) return false;
      most_lines_ = std::max(most_lines_, lines.size());
    }
    return true;
  }

  [[nodiscard]] double room() const { return height_ - head_ - foot_; }

  // Deals the panels out evenly over pages, and over the rows of a page.
  bool choose_rows(std::size_t columns) {
    const auto most = static_cast<std::size_t>(std::floor(room() / least_panel_height()));
    if (most == 0) return false;
    const std::size_t pages = (panels_.size() + most * columns - 1) / (most * columns);
    each_ = (panels_.size() + pages - 1) / pages;
    const std::size_t rows = (each_ + columns - 1) / columns;
    columns_ = (each_ + rows - 1) / rows;
    panel_width_ = width_for(columns_);
    panel_height_ = room() / static_cast<double>(rows);
    return words_fit();
  }

  // Why a dose can't be measured stands where the drawing would.
  [[nodiscard]] bool reasons_fit() const {
    return std::all_of(panels_.begin(), panels_.end(), [&](const MeasurePanel& panel) {
      if (!panel.cell.dose.figure.empty()) return true;
      double height = text().size * 1.3;  // how far off it can be
      for (const std::string& step : steps_of(panel.cell.how)) {
        const auto lines = wrapped(measurer_, step, how_type(), panel_width_);
        height += how_type().size * (1.2 * static_cast<double>(lines.size()) + 0.3);
      }
      return height <= drawing_height() + words_height();
    });
  }

  [[nodiscard]] LayoutProblem no_room(const std::string& what) const {
    return page_too_small(what, "choose a larger paper, turn it, or shorten the names");
  }

  // ---- drawing

  Page draw_page(std::size_t first, std::size_t last, std::size_t number, std::size_t pages) const {
    Page page{width_, height_, "", {}};
    page.title = starting_with(panels_[first].water);
    Pen pen(page, measurer_);
    draw_head(pen);
    for (std::size_t i = first; i < last; ++i) {
      const std::size_t column = (i - first) % columns_;
      const std::size_t row = (i - first) / columns_;
      const double x = left_ + static_cast<double>(column) * (panel_width_ + panel_gap());
      const double y = head_ + static_cast<double>(row) * panel_height_;
      draw_panel(pen, panels_[i], {x, y});
      if (column == 0)
        pen.rule(left_, y + panel_height_, right_ - left_, in_millimetres(style_.rules.light));
    }
    const std::size_t rows = (each_ + columns_ - 1) / columns_;
    draw_foot(pen, head_ + panel_height_ * static_cast<double>(rows), number, pages);
    return page;
  }

  void draw_panel(Pen& pen, const MeasurePanel& panel, Point at) const {
    const double base = at.y + padding() + cap(dose_type());
    draw_amount(pen, {at.x, base}, panel.water, water_size());
    pen.text({at.x, base + small().size * 1.5}, fitted(small(), panel.name, panel_width_),
             panel.name);
    const double top = at.y + padding() + head_height();
    if (panel.cell.dose.figure.empty()) {
      // No number stands here; a dash where there is nothing to say.
      if (panel.cell.instead.empty()) {
        pen.rectangle(
            {at.x + dose_offset(), base - cap(dose_type()) / 2 - 0.3, dose_size_ * 0.6, 0.6},
            Ink::black);
      }
      pen.text({at.x + dose_offset(), base}, text(Face::bold), panel.cell.instead);
      Point line{at.x, top + cap(how_type())};
      for (const std::string& step : steps_of(panel.cell.how))
        line.y = draw_lines(pen, step, line) + how_type().size * 1.5;
      pen.text(line, text(), panel.cell.off_by);
      return;
    }
    pen.text({at.x + water_width() + gap(), base}, text(), content_.words.give);
    draw_amount(pen, {at.x + dose_offset(), base}, panel.cell.dose, dose_size_);
    draw_tools(pen, panel.cell.pictures, {at.x, top, panel_width_, drawing_height()});
    const double words = top + drawing_height() + 4 * small_paper_ + cap(how_type());
    const double end = draw_lines(pen, panel.cell.how, {at.x, words});
    pen.text({at.x, end + text().size * 1.3}, text(), panel.cell.off_by);
  }

  void draw_amount(Pen& pen, Point at, const Amount& amount, double size) const {
    const Type type{size, Face::bold};
    pen.text(at, type, amount.figure);
    pen.text({at.x + wide(amount.figure, type) + size * kUnitGap, at.y}, unit_type(size),
             amount.unit);
  }

  // Baseline of the last line.
  double draw_lines(Pen& pen, const std::string& words, Point at) const {
    double last = at.y;
    for (const std::string& line : wrapped(measurer_, words, how_type(), panel_width_)) {
      pen.text({at.x, at.y}, how_type(), line);
      last = at.y;
      at.y += how_type().size * 1.2;
    }
    return last;
  }

  void draw_tools(Pen& pen, const std::vector<ToolPicture>& pictures, Box box) const {
    if (pictures.empty()) return;
    const double width = drawing_width(pictures.size());
    const double height = std::min(box.height, kHighestDrawing);
    box.y += (box.height - height) / 2;
    double x = box.x;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
      if (i > 0) {
        pen.text({x + kThenGap, box.y + (height + cap(text())) / 2}, text(), "then");
        x += then_width();
      }
      draw_tool_upright(pen, pictures[i], {x, box.y, width, height}, small());
      x += width;
    }
  }

  static constexpr double kThenGap = 2;  // mm, on both sides of "then"

  const std::vector<MeasurePanel>& panels_;
  std::size_t columns_ = 1;
  std::size_t each_ = 1;  // panels on a page
  std::size_t most_lines_ = 1;
  double panel_width_ = 0;
  double panel_height_ = 0;
  double dose_size_ = 0;
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_measuring_card(const MeasuringCardContent& content,
                                                          const PaperSize& paper,
                                                          const ChartStyle& style,
                                                          const TextMeasurer& measurer) {
  return MeasuringCardLayout(content, paper, style, measurer).lay_out();
}

}  // namespace dosewright
