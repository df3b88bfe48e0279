// Wall charts: a heading, rows of equal height that fill the page, a foot; repeated on every page.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "chart_fills.hpp"
#include "chart_frame.hpp"
#include "chart_settings.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "pen.hpp"
#include "row_names.hpp"
#include "signs.hpp"
#include "tools.hpp"

namespace dosewright {

namespace {

constexpr double kAfterSteps = 0.5;   // from steps to the error of all, over its size
constexpr double kMostOfHead = 0.86;  // of a row's height
constexpr std::size_t kMostPagesMore = 6;

class ChartLayout : private ChartFrame {
 public:
  ChartLayout(const ChartContent& content, const PaperSize& paper, const ChartStyle& style,
              const TextMeasurer& measurer)
      : ChartFrame(content, paper, style, measurer), fills_(measurer, small()) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (!choose_rows_per_page(0)) return no_room("its rows");
    // Words that need more lines than a row holds get higher rows, over more pages.
    bool fits = choose_sizes();
    for (std::size_t more = 1; !fits && more <= kMostPagesMore && more < content_.rows.size();
         ++more)
      fits = choose_rows_per_page(more) && choose_sizes();
    if (!fits) return no_room("its columns");
    if (!frame_fits() || !names_fit()) return no_room("its title, subtitle or foot");
    Pages out;
    out.title = content_.title;
    const std::size_t pages = (content_.rows.size() + rows_per_page_ - 1) / rows_per_page_;
    // Rows are dealt out evenly, so that no page is left with a single row.
    const std::size_t each = (content_.rows.size() + pages - 1) / pages;
    for (std::size_t page = 0; page < pages; ++page) {
      const std::size_t first = page * each;
      const std::size_t last = std::min(first + each, content_.rows.size());
      if (first >= last) break;
      out.pages.push_back(draw_page(first, last, page + 1, pages));
    }
    return out;
  }

 private:
  // Names above the columns, where these have codes.
  [[nodiscard]] bool names_fit() const {
    for (std::size_t i = 0; i < content_.columns.size(); ++i) {
      if (heads_stand() && !heading_fits(content_.columns[i], column_widths_[i])) return false;
    }
    return true;
  }

  // Tools are drawn under the words where rows are high, right of them where rows are low.
  enum class ToolPlace { none, under, beside };
  [[nodiscard]] bool draws_tools() const { return tools_ == ToolPlace::under; }

  // As few pages as the rows take, and so many more.
  bool choose_rows_per_page(std::size_t more) {
    const double room = height_ - head_ - foot_;
    const double least =
        std::max(in_millimetres(style_.row.smallest) * (is_single_column() ? 1.25 : 1.5),
                 cap({least_dose_size(), Face::bold}) * 1.3);
    const auto most = static_cast<std::size_t>(std::max(0.0, std::floor(room / least)));
    if (most == 0) return false;
    const std::size_t pages =
        std::min((content_.rows.size() + most - 1) / most + more, content_.rows.size());
    rows_per_page_ = (content_.rows.size() + pages - 1) / pages;
    row_height_ = std::min(room / static_cast<double>(rows_per_page_),
                           std::max(in_millimetres(style_.row.largest), least));
    return true;
  }

  // The heading column: names and volumes of the rows.
  [[nodiscard]] double head_size() const { return dose_size_ * style_.heading_factor; }
  [[nodiscard]] bool has_names() const {
    return std::any_of(content_.rows.begin(), content_.rows.end(),
                       [](const RowContent& row) { return !row.name.empty(); });
  }
  [[nodiscard]] bool shares_rows() const {
    return std::any_of(content_.rows.begin(), content_.rows.end(),
                       [](const RowContent& row) { return !row.with.empty(); });
  }
  // A tank is found by its name, a bucket by its size: what is looked for is large.
  [[nodiscard]] bool named_rows() const { return content_.by_tank; }

  [[nodiscard]] double head_column_width() const {
    return std::max(wide(content_.row_caption, text()), head_figure_width() + head_unit_width());
  }

  // A long name must not cost the doses their size: names take at most part of the width, and of
  // the height of a row what is left by the volume under them.
  [[nodiscard]] NameLines names() const {
    NameLines out = lines_of_names(content_.rows,
                                   {head_size(), (right_ - left_) * names_share_,
                                    row_height_ * kMostOfHead - under_names(head_size())},
                                   measurer_);
    out.size = std::max(out.size, std::min(head_size(), text().size));
    return out;
  }

  [[nodiscard]] Type row_head_type() const {
    return {named_rows() ? names().size : head_size(), Face::bold};
  }

  // What stands under a tank's name, or under those of a row.
  [[nodiscard]] static std::string water_of(const RowContent& row) {
    return row.with.empty() ? row.water.figure + ' ' + row.water.unit : row.each;
  }
  [[nodiscard]] Type water_type() const { return large_words_ ? text() : small(); }

  // From the last line of names to the volume under them, clear of the commas between names.
  [[nodiscard]] double under_names(double size) const {
    const double tail = shares_rows() ? measurer_.metrics(Face::bold).descent * size : 0;
    return std::max(water_type().size * 1.3, tail + cap(water_type()) + 0.6);
  }

  // Widest name of a tank, or widest figure of a bucket; what stands right of it.
  [[nodiscard]] double head_figure_width() const {
    double out = 0;
    for (const RowContent& row : content_.rows) {
      out = std::max(out, named_rows() ? wide(water_of(row), water_type())
                                       : wide(row.water.figure, row_head_type()));
    }
    return named_rows() ? std::max(out, width_of_names(content_.rows, names(), measurer_)) : out;
  }
  // Where litres and gallons stand in one column, the unit weighs as much as the figure.
  [[nodiscard]] Type row_unit_type() const {
    Type unit = unit_type(head_size());
    unit.size = std::max(unit.size, least_size(unit.face));
    const std::string& first = content_.rows.front().water.unit;
    const bool mixed = std::any_of(content_.rows.begin(), content_.rows.end(),
                                   [&](const RowContent& row) { return row.water.unit != first; });
    if (mixed) unit = {std::max(unit.size, head_size() * 0.7), Face::bold};
    return unit;
  }
  [[nodiscard]] double head_unit_width() const {
    if (named_rows()) return 0;
    return std::max(widest_unit(), widest_name(small())) + head_size() * kUnitGap;
  }
  [[nodiscard]] double widest_unit() const {
    return widest(content_.rows, row_unit_type(), measurer_,
                  [](const RowContent& row) { return row.water.unit; });
  }
  [[nodiscard]] double widest_name(const Type& type) const {
    return widest(content_.rows, type, measurer_, [](const RowContent& row) { return row.name; });
  }
  // The name of a bucket, as large as the width allows that it has anyway.
  [[nodiscard]] Type bucket_name_type() const {
    const double room = std::max({widest_unit(), widest_name(small()), 1.0});
    const double widest = std::max(widest_name(text()), 1.0);
    return {std::clamp(text().size * room / widest, small().size, text().size), Face::regular};
  }

  // A unit belongs to the figure left of it, not to what follows: so more air stands behind it than
  // before it, and a name or a large unit is not read together with the dose right of it.
  [[nodiscard]] double head_gap() const {
    return std::max(gap(), (named_rows() ? names().size : row_unit_type().size) * 0.9) + extra_;
  }
  [[nodiscard]] double words_gap() const {
    return std::max(gap() * 0.7, unit_type(dose_size_).size * 0.9);
  }
  [[nodiscard]] double columns_room() const {
    return right_ - left_ - head_column_width() - head_gap() -
           gap() * static_cast<double>(content_.columns.size() - 1);
  }

  // What a column would take with its words on one line.
  [[nodiscard]] double natural_width(std::size_t column, CellShape shape) const {
    const double dose = dose_column(column, dose_size_).width();
    double words = 0;
    for (const RowContent& row : content_.rows)
      words = std::max(words, wide(row.cells[column].how, how_type()));
    return shape == CellShape::beside ? dose + words_gap() + words : std::max(dose, words);
  }

  // Columns take what they need when all can, with the rest shared out; else they are equal.
  void share_out_columns(CellShape shape) {
    const std::size_t count = content_.columns.size();
    extra_ = 0;
    const double room = columns_room();
    column_widths_.assign(count, room / static_cast<double>(count));
    if (content_.columns.front().code) return;  // strips and codes want equal columns
    double natural = 0;
    for (std::size_t i = 0; i < count; ++i) natural += natural_width(i, shape);
    if (natural > room) return;
    // Names get their part of what is over.
    const auto parts = static_cast<double>(count + (named_rows() && count > 1 ? 1 : 0));
    const double more = (room - natural) / parts;
    if (named_rows() && count > 1) extra_ = more;
    for (std::size_t i = 0; i < count; ++i) column_widths_[i] = natural_width(i, shape) + more;
  }

  // Whether every cell's words fit at this size and shape.
  [[nodiscard]] bool cells_fit(CellShape shape) const {
    for (std::size_t column = 0; column < content_.columns.size(); ++column) {
      const double width = column_widths_[column];
      if (width < 12 || (content_.columns[column].code && width < strip_length())) return false;
      const FigureColumn figures = dose_column(column, dose_size_);
      const double words =
          shape == CellShape::beside ? width - figures.width() - words_gap() : width;
      if (figures.width() > width || words < 14) return false;
      for (const RowContent& row : content_.rows) {
        if (!cell_fits(row.cells[column], shape, words)) return false;
      }
    }
    return true;
  }

  [[nodiscard]] Type how_type() const {
    if (is_single_column()) return {text().size * words_scale_, Face::bold};
    return large_words_ ? text() : small();
  }

  // Steps are read in order, and none of their volumes is the dose.
  [[nodiscard]] Type cell_type(const CellContent& cell) const {
    return {how_type().size, cell.instead.empty() ? how_type().face : Face::regular};
  }

  // Numbers of steps hang out: no volume at the start of a turned line is taken for one.
  [[nodiscard]] double step_indent(const CellContent& cell) const {
    return cell.instead.empty() ? 0 : wide("0. ", cell_type(cell));
  }
  [[nodiscard]] std::vector<std::string> lines_of(const CellContent& cell, double width) const {
    return wrapped(measurer_, cell.how, cell_type(cell), width - step_indent(cell));
  }

  [[nodiscard]] Type off_by_type() const {
    return {is_single_column() ? text().size * words_scale_ : small().size, Face::regular};
  }

  // Height of a cell's words with what stands among them.
  struct Words {
    std::size_t lines = 1;
    bool off_by = false;
    bool tool = false;  // under them
    bool steps = false;
  };

  [[nodiscard]] double words_height(const Words& words) const {
    double out = cap(how_type()) + how_type().size * 1.2 * static_cast<double>(words.lines - 1) +
                 how_type().size * 0.25;
    if (words.tool) out += above_tool() + tool_height() + below_tool();
    if (words.off_by) out += off_by_type().size * (words.steps ? 1.25 + kAfterSteps : 1.25);
    return out;
  }

  [[nodiscard]] Words words_of(const CellContent& cell, std::size_t lines, double width) const {
    return {lines, !cell.off_by.empty(),
            draws_tools() && !fills_.of(cell, drawn_width(width)).empty(), !cell.instead.empty()};
  }

  // A longer drawing is no easier to read.
  [[nodiscard]] static double drawn_width(double room) { return std::min(room, 78.0); }

  // From the baseline of the words to the tool under them, and from the tool to where the next line
  // would begin without it: the heavy line touches neither.
  [[nodiscard]] double above_tool() const { return kLineStandsOut + how_type().size * 0.45; }
  [[nodiscard]] double below_tool() const { return kLineStandsOut + 0.2; }

  // Words of several lines take in the error behind them, which spares a line.
  [[nodiscard]] CellContent as_set(const CellContent& cell, double width) const {
    CellContent out{cell.dose, cell.instead, cell.how, cell.off_by, cell.strong, {}};
    const auto lines = lines_of(cell, width);
    if (lines.size() < 2 || cell.off_by.empty()) return out;
    out.how += ", " + cell.off_by;
    out.off_by.clear();
    return out;
  }

  [[nodiscard]] bool cell_fits(const CellContent& whole, CellShape shape,
                               double words_width) const {
    if (shape == CellShape::beside) return set_cell_fits(whole, shape, words_width);
    return set_cell_fits(as_set(whole, words_width), shape, words_width);
  }

  [[nodiscard]] bool set_cell_fits(const CellContent& cell, CellShape shape,
                                   double words_width) const {
    const auto lines = lines_of(cell, words_width);
    if (lines.empty() || (one_line_ && lines.size() > 1)) return false;
    if (wide(cell.off_by, off_by_type()) > words_width) return false;
    if (all_drawn_ && !is_drawn(cell, words_width)) return false;
    const double words = words_height(words_of(cell, lines.size(), words_width));
    // In the middle of its row a figure has as much room above as its comma needs below.
    const double tail = comma_tail(dose_size_);
    const double figure = cap(dose_type(dose_size_));
    if (shape == CellShape::beside)
      return std::max(figure + 1.5 * tail, words) <= row_height_ * 0.84;
    return figure + words + below_dose() <= row_height_ * 0.9;
  }

  // From the baseline of a dose to the top of the words below it: a comma hangs into that.
  [[nodiscard]] double below_dose() const {
    return std::max(how_type().size * 0.75, comma_tail(dose_size_) + how_type().size * 0.3);
  }

  [[nodiscard]] bool head_fits() const {
    const double below = named_rows()  ? under_names(row_head_type().size)
                         : has_names() ? bucket_name_type().size * 1.3
                                       : 0;
    if (row_head_type().size < least_size(Face::bold) - 1e-6) return false;
    const NameLines lines = named_rows() ? names() : NameLines{1, 1, head_size()};
    const double more = kNameLine * static_cast<double>(lines.most - 1) * lines.size;
    const Type large{lines.most > 1 ? lines.size : head_size(), Face::bold};
    return cap(large) + more + below <= row_height_ * kMostOfHead;
  }

  void apply(const ChartSetting& setting) {
    shape_ = setting.shape;
    large_words_ = setting.large_words;
    words_scale_ = setting.words_scale;
    names_share_ = setting.names_share;
    one_line_ = setting.one_line;
    all_drawn_ = setting.all_drawn;
  }

  // Tools under the words where there is room for both; else beside them.
  bool choose_sizes() {
    constexpr double kLeastForUnder = 15;  // mm of a row
    const bool draws = is_single_column() && right_ - left_ > 130;
    if (draws && row_height_ >= kLeastForUnder) {
      tools_ = ToolPlace::under;
      if (choose_setting()) return true;
    }
    tools_ = draws ? ToolPlace::beside : ToolPlace::none;
    return choose_setting();
  }

  // The largest dose that fits, over all ways to set the words. Words that can be read from where
  // the dose is read are worth a dose a tenth smaller, words on one line and tools drawn in every
  // row a dose a quarter smaller.
  bool choose_setting() {
    double best = 0;
    double best_size = 0;
    ChartSetting best_setting;
    for (const ChartSetting& setting : chart_settings(is_single_column(), shares_rows())) {
      apply(setting);
      // Words in place of a drawing are worth their size, beside one a quarter of it.
      const double words = (setting.words_scale - 1) * (tools_ == ToolPlace::none ? 1.0 : 0.25);
      const double score = largest_dose(setting.shape) * (setting.large_words ? 1.1 : 1.0) *
                           (1 + words) * (setting.one_line ? 1.35 : 1.0) *
                           (setting.all_drawn ? 1.35 : 1.0);
      if (score <= best) continue;
      best = score;
      best_size = dose_size_;
      best_setting = setting;
    }
    dose_size_ = best_size;
    apply(best_setting);
    if (best > 0) share_out_columns(shape_);
    return best > 0;
  }

  // Leaves dose_size_ at the largest size that fits; 0 when none does.
  double largest_dose(CellShape shape) {
    const double smallest =
        std::max(in_millimetres(style_.dose.smallest) * small_paper_, least_dose_size());
    const double by_row = row_height_ * (is_single_column() ? 0.95 : 0.8);
    const double largest = std::min(std::max(in_millimetres(style_.dose.largest), smallest * 1.5),
                                    std::max(by_row, smallest));
    constexpr double kStep = 12.7 / 72;  // half a printer's point in mm
    for (dose_size_ = largest; dose_size_ >= smallest - 1e-6; dose_size_ -= kStep) {
      share_out_columns(shape);
      if (head_fits() && cells_fit(shape)) return dose_size_;
    }
    return 0;
  }

  [[nodiscard]] LayoutProblem no_room(const std::string& what) const {
    const char* turn = width_ < height_ ? "turn it to landscape, choose" : "choose";
    const char* alone = "; a dose that is diluted first takes room: give it a chart of its own";
    return page_too_small(what, std::string(turn) +
                                    " a larger paper, print fewer columns, or shorten the names" +
                                    (has_steps() ? alone : ""));
  }

  Page draw_page(std::size_t first, std::size_t last, std::size_t number, std::size_t pages) {
    Page page{width_, height_, "", {}};
    const RowContent& start = content_.rows[first];
    page.title = starting_with(named_rows() ? Amount{start.name, ""} : start.water);
    Pen pen(page, measurer_);
    draw_head(pen);
    draw_column_heads(pen);
    // Bands first: they must not cover the rule of the row above.
    double y = head_;
    for (std::size_t i = first; i < last; i += 2) {
      if (style_.tint) pen.rectangle({left_ - 2, y, right_ - left_ + 4, row_height_}, Ink::tint);
      y += 2 * row_height_;
    }
    y = head_;
    for (std::size_t i = first; i < last; ++i) {
      draw_row(pen, content_.rows[i], y);
      y += row_height_;
    }
    draw_foot(pen, y, number, pages);
    return page;
  }

  [[nodiscard]] double column_x(std::size_t column) const {
    double x = left_ + head_column_width() + head_gap();
    for (std::size_t i = 0; i < column; ++i) x += column_widths_[i] + gap();
    return x;
  }

  void draw_column_heads(Pen& pen) const {
    const double base = head_ - text().size * 0.6;
    pen.text({left_, base}, text(), content_.row_caption);
    if (!heads_stand()) {
      const double x = column_x(0);
      draw_give_and_how(pen, x, x + dose_column(0, dose_size_).width() + words_gap(), base,
                        named_rows());
      return;
    }
    for (std::size_t column = 0; column < content_.columns.size(); ++column)
      draw_column_head(pen, content_.columns[column], column_x(column), column_widths_[column],
                       base);
  }

  void draw_row(Pen& pen, const RowContent& row, double y) const {
    // Clear of the strip, which is on the left.
    if (row.changed) pen.rectangle({right_ + 3, y + 1, 1.6, row_height_ - 2}, Ink::black);
    // Doses of one row stand on one baseline.
    std::size_t most_lines = 1;
    std::vector<CellContent> cells = row.cells;
    for (std::size_t column = 0; column < cells.size() && shape_ == CellShape::below; ++column) {
      CellContent& cell = cells[column];
      cell = as_set(cell, column_widths_[column]);
      const std::size_t taken_in = cell.off_by.empty() ? 1 : 0;
      const auto lines = lines_of(cell, column_widths_[column]);
      most_lines = std::max(most_lines, lines.size() - std::min(lines.size(), taken_in));
    }
    draw_row_head(pen, row, y, most_lines);
    for (std::size_t column = 0; column < cells.size(); ++column) {
      draw_cell(pen, cells[column], column, y, most_lines);
    }
    pen.rule(left_ - 2, y + row_height_, right_ - left_ + 4, in_millimetres(style_.rules.light));
  }

  // Baseline of the doses of a row whose words stand below them.
  [[nodiscard]] double dose_base(double y, std::size_t most_lines) const {
    const double figure_cap = cap(dose_type(dose_size_));
    // Up to the last baseline: nothing below it is as heavy as a figure.
    const double block = figure_cap + below_dose() + words_height({most_lines, true, false}) -
                         how_type().size * 0.25;
    return y + (row_height_ - block) / 2 + figure_cap;
  }

  void draw_row_head(Pen& pen, const RowContent& row, double y, std::size_t most_lines) const {
    const Type large = row_head_type();
    const double below = named_rows() ? under_names(large.size) : bucket_name_type().size * 1.5;
    const auto lines = name_lines(row, named_rows() ? names().each : 1);
    const double line = large.size * kNameLine;
    const double block = cap(large) + line * static_cast<double>(lines.size() - 1) +
                         (named_rows() || has_names() ? below : 0);
    const double own = y + (row_height_ - block) / 2 + cap(large);
    // Several lines of names stand in the middle of their row.
    const double figure_cap = cap(dose_type(dose_size_));
    const double beside = y + (row_height_ + figure_cap) / 2;
    const bool has_room = beside + below < y + row_height_ - 0.8;
    double base = shape_ == CellShape::below ? dose_base(y, most_lines) : has_room ? beside : own;
    if (lines.size() > 1) base = own;
    if (named_rows()) {
      for (const std::string& words : lines) {
        pen.text({left_, base}, large, words);
        base += line;
      }
      pen.text({left_, base - line + below}, water_type(), water_of(row));
      return;
    }
    const double edge = left_ + head_figure_width();
    const double unit_x = edge + head_size() * kUnitGap;
    pen.text_right({edge, base}, large, row.water.figure);
    pen.text({unit_x, base}, row_unit_type(), row.water.unit);
    pen.text({unit_x, base + below}, bucket_name_type(), row.name);
  }

  void draw_cell(Pen& pen, const CellContent& cell, std::size_t column, double y,
                 std::size_t most_lines) const {
    const double x = column_x(column);
    const FigureColumn figures = dose_column(column, dose_size_);
    const Type figure_type = cell.strong ? dose_type(dose_size_) : Type{dose_size_, Face::regular};
    const double figure_cap = cap(dose_type(dose_size_));
    const bool beside = shape_ == CellShape::beside;
    const double words_width =
        beside ? column_widths_[column] - figures.width() - words_gap() : column_widths_[column];
    const auto lines = lines_of(cell, words_width);
    const double words = words_height(
        words_of(cell, shape_ == CellShape::below ? most_lines : lines.size(), words_width));
    double base = y + (row_height_ + figure_cap) / 2;
    double top = y + (row_height_ - words) / 2;
    if (!beside) {
      base = dose_base(y, most_lines);
      top = base + below_dose();
    }
    draw_dose(pen, cell, {x, base}, figures, figure_type);
    draw_words(pen, cell, lines, beside ? x + figures.width() + words_gap() : x, top, words_width);
  }

  void draw_dose(Pen& pen, const CellContent& cell, Point at, const FigureColumn& figures,
                 const Type& figure_type) const {
    if (!cell.instead.empty()) {
      draw_two_lines(pen, cell.instead, at, figures.width(), dose_type(dose_size_ * 0.5));
      return;
    }
    if (cell.dose.figure.empty()) {
      // A dash as wide as a figure: nothing here can be taken for a number.
      pen.rectangle({at.x, at.y - cap(figure_type) / 2 - 0.3, dose_size_ * 0.6, 0.6}, Ink::black);
      return;
    }
    const double whole = wide(before_sign(cell.dose.figure), figure_type);
    pen.text({at.x + figures.whole - whole, at.y}, figure_type, cell.dose.figure);
    pen.text(
        {at.x + figures.whole - whole + wide(cell.dose.figure, figure_type) + dose_size_ * kUnitGap,
         at.y},
        unit_type(dose_size_), cell.dose.unit);
  }

  void draw_words(Pen& pen, const CellContent& cell, const std::vector<std::string>& lines,
                  double x, double top, double width) const {
    double y = top + cap(how_type());
    const double indent = step_indent(cell);
    for (const std::string& line : lines) {
      const bool number = indent > 0 && line.size() > 3 && line.substr(1, 2) == ". ";
      if (number) pen.text({x, y}, cell_type(cell), line.substr(0, 2));
      pen.text({x + indent, y}, cell_type(cell), with_soft_spaces(number ? line.substr(3) : line));
      y += how_type().size * 1.2;
    }
    y -= how_type().size * 1.2;
    const auto fills = fills_.of(cell, drawn_width(width));
    if (draws_tools() && !fills.empty()) {
      y += above_tool();
      fills_.draw(pen, fills, {x, y, drawn_width(width), tool_height()});
      y += tool_height() + below_tool();
    }
    if (!cell.off_by.empty())
      pen.text({x + indent, y + off_by_type().size * (indent > 0 ? 1.2 + kAfterSteps : 1.2)},
               off_by_type(), cell.off_by);
    if (tools_ != ToolPlace::beside) return;
    const double beside = beside_width(width);
    const double middle = top + words_height({lines.size(), true, false}) / 2;
    fills_.draw(
        pen, fills_.of(cell, beside),
        {x + width - room_beside(width), middle - tool_height() / 2, beside, tool_height()});
  }

  // Right of the widest words of the column, where words may take up to `width`.
  [[nodiscard]] double room_beside(double width) const {
    double words = 0;
    for (const RowContent& row : content_.rows) {
      if (!row.cells[0].pictures.empty())
        words = std::max(words, wide(row.cells[0].how, how_type()));
    }
    return std::max(0.0, width - words - gap());
  }
  [[nodiscard]] double beside_width(double width) const {
    return std::min(std::max(0.0, room_beside(width) - 1), 70.0);
  }

  // Whether the cell's tools find room, if it has any.
  [[nodiscard]] bool is_drawn(const CellContent& cell, double width) const {
    if (cell.pictures.empty() || tools_ == ToolPlace::none) return true;
    return !fills_.of(cell, draws_tools() ? drawn_width(width) : beside_width(width)).empty();
  }

  [[nodiscard]] double tool_height() const {
    return std::min(5.5, row_height_ * (draws_tools() ? 0.22 : 0.38));
  }

  ChartFills fills_;
  double row_height_ = 0;
  double dose_size_ = 0;
  std::size_t rows_per_page_ = 1;
  CellShape shape_ = CellShape::beside;
  bool large_words_ = false;
  double words_scale_ = 1;
  double names_share_ = kMostForNames;
  bool one_line_ = false;
  bool all_drawn_ = false;
  ToolPlace tools_ = ToolPlace::none;
  double extra_ = 0;  // of what is over, behind the names
  std::vector<double> column_widths_;
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_chart(const ChartContent& content,
                                                 const PaperSize& paper, const ChartStyle& style,
                                                 const TextMeasurer& measurer) {
  return ChartLayout(content, paper, style, measurer).lay_out();
}

}  // namespace dosewright
