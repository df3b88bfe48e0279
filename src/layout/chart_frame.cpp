#include "chart_frame.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "signs.hpp"

namespace dosewright {

namespace {

constexpr double kHeadingFactor = 1.1;  // a column's name, over the text

constexpr double kProofLength = 100;  // mm; the bar that proves a print true

// What would have to be made smaller than this is broken into lines: a title is large enough to
// give some of its size for staying on one.
constexpr double kLeastTitle = 0.65;
constexpr double kLeastSubtitle = 0.85;
constexpr std::size_t kMostTitleLines = 2;
constexpr std::size_t kMostSubtitleLines = 5;

// Each sentence on lines of its own where that costs none: "cell for cell" is not torn apart.
std::vector<std::string> lines_of_sentences(const TextMeasurer& measurer, const std::string& words,
                                            const Type& type, double width) {
  auto run_on = wrapped(measurer, words, type, width);
  std::vector<std::string> out;
  std::size_t start = 0;
  while (start < words.size()) {
    const std::size_t stop = words.find(". ", start);
    const std::size_t end = stop == std::string::npos ? words.size() : stop + 1;
    const auto lines = wrapped(measurer, words.substr(start, end - start), type, width);
    if (lines.empty() || out.size() + lines.size() > run_on.size()) return run_on;
    out.insert(out.end(), lines.begin(), lines.end());
    start = end + 1;
  }
  return out;
}

}  // namespace

ChartFrame::ChartFrame(const ChartContent& content, const PaperSize& paper, const ChartStyle& style,
                       const TextMeasurer& measurer, ColumnHeads heads)
    : content_(content),
      style_(style),
      measurer_(measurer),
      heads_(heads),
      width_(in_millimetres(paper.width)),
      height_(in_millimetres(paper.height)),
      margin_(in_millimetres(style.margin)) {
  small_paper_ = std::min(1.0, std::min(width_, height_) / 205);
  left_ = margin_ + in_millimetres(style.strip.cell_width) + 5;
  // Columns with codes of their own need no strip beside the page.
  if (!content.code) left_ = margin_;
  right_ = width_ - margin_;
  measure_frame();
}

std::string ChartFrame::before_sign(const std::string& figure) const {
  return figure.substr(0, figure.find(content_.words.decimal_sign));
}

std::string ChartFrame::from_sign(const std::string& figure) const {
  const std::size_t sign = figure.find(content_.words.decimal_sign);
  return sign == std::string::npos ? "" : figure.substr(sign);
}

double ChartFrame::comma_tail(double size) const {
  return content_.words.decimal_sign == ',' ? size * 0.17 : 0;
}

std::string ChartFrame::starting_with(const Amount& first) const {
  const std::string row = first.figure + (first.unit.empty() ? "" : ' ' + first.unit);
  return filled_in(content_.words.starts, {content_.title, row});
}

Type ChartFrame::type(Length size, Face face) const {
  return {in_millimetres(size) * small_paper_, face};
}

Type ChartFrame::small() const { return type(style_.small); }

// Limits and errors are sought with care: on small paper they give less of their size.
Type ChartFrame::foot_type() const {
  return {in_millimetres(style_.small) * (1 + 2 * small_paper_) / 3, Face::regular};
}

Type ChartFrame::text(Face face) const { return type(style_.text, face); }

double ChartFrame::cap(const Type& t) const {
  return measurer_.metrics(t.face).cap_height * t.size;
}

double ChartFrame::wide(const std::string& words, const Type& t) const {
  return width_of(measurer_, words, t);
}

bool ChartFrame::lying_strips() const { return !content_.code; }

void ChartFrame::measure_frame() {
  const Type title = title_type();
  title_ = head_lines(content_.title, title, kLeastTitle, kMostTitleLines);
  subtitle_ =
      head_lines(content_.subtitle, type(style_.subtitle), kLeastSubtitle, kMostSubtitleLines);
  head_ = margin_ + std::max(title_height(), code_height());
  head_ += subtitle_height();
  head_ += head_air();
  rule_y_ = head_;
  head_ += heading_height();
  const double inner = right_ - left_;
  match_ = lines_of_sentences(measurer_, content_.match, text(Face::bold), inner);
  words_.clear();
  const auto paragraphs = split(content_.small, '\n');
  // Of several, each begins left of its further lines.
  const double hung = paragraphs.size() > 1 ? foot_type().size * 1.2 : 0;
  for (const std::string& paragraph : paragraphs) {
    const auto lines = wrapped(measurer_, trimmed(paragraph), foot_type(), inner - hung);
    // frame_fits finds what is missing.
    if (lines.empty() && !trimmed(paragraph).empty()) words_.clear();
    if (lines.empty()) break;
    for (std::size_t i = 0; i < lines.size(); ++i) words_.push_back({lines[i], i > 0 ? hung : 0});
  }
  foot_ = text().size * 1.7 + text().size * 1.2 * static_cast<double>(match_.size()) +
          small().size * 0.6 + foot_type().size * 1.25 * static_cast<double>(words_.size()) + 7 +
          small().size * 2.6 + margin_;
}

// One line, if it is not made much smaller for it; none of nothing.
std::vector<std::string> ChartFrame::head_lines(const std::string& words, const Type& wanted,
                                                double least, std::size_t most) const {
  if (words.empty()) return {};
  if (wide(words, wanted) * least <= title_room()) return {words};
  for (double factor = 1; factor > least; factor -= 0.05) {
    auto lines = wrapped(measurer_, words, {wanted.size * factor, wanted.face}, title_room());
    if (!lines.empty() && lines.size() <= most) return lines;
  }
  return {words};
}

// The size in which all of the lines fit.
Type ChartFrame::fitted_lines(Type wanted, const std::vector<std::string>& lines) const {
  for (const std::string& line : lines) wanted = fitted(wanted, line, title_room());
  return wanted;
}

double ChartFrame::title_height() const {
  const double more = title_.empty() ? 0 : static_cast<double>(title_.size() - 1);
  return cap(title_type()) + title_type().size * 1.05 * more;
}

double ChartFrame::subtitle_height() const {
  if (subtitle_.empty()) return 0;
  return type(style_.subtitle).size * (1.45 + 1.2 * static_cast<double>(subtitle_.size() - 1));
}

double ChartFrame::least_size(Face face) const {
  return in_millimetres(style_.least_figure) / measurer_.metrics(face).cap_height;
}

double ChartFrame::least_dose_size() const {
  return least_size(Face::bold) / std::min(1.0, style_.heading_factor);
}

// A title is worth a fifth more than the least figure.
Type ChartFrame::title_type() const {
  return {std::max(type(style_.title).size, least_size(Face::bold) * 1.2), Face::bold};
}

Type ChartFrame::code_type() const {
  return {std::max(title_type().size * 0.82, least_size(Face::bold)), Face::bold};
}

// Next to the strip every size of type is allowed, so this is the width of the column alone.
Type ChartFrame::column_code_type(double width) const {
  const double wanted = std::max(type(style_.subtitle).size * 1.35, least_size(Face::bold));
  return {std::min(wanted, width / 4.2), Face::bold};
}

// From afar the date is read beside the code.
bool ChartFrame::shows_date() const {
  return in_millimetres(style_.least_figure) > 0 && !content_.dated.empty();
}

// What stands at the right of the head, over the title's first line; 0 where the title is higher.
double ChartFrame::code_height() const {
  if (in_millimetres(style_.least_figure) <= 0) return 0;
  const Type date{least_size(Face::regular), Face::regular};
  const double code = content_.code ? cap(text()) + text().size * 0.7 + cap(code_type()) : 0;
  const double dated = shows_date() ? (code > 0 ? date.size * 0.5 : 0) + cap(date) : 0;
  return code + dated - subtitle_height();
}

// From the last baseline of the head to its rule: what hangs below a line must not touch it.
double ChartFrame::head_air() const {
  const double air = type(style_.subtitle).size * 0.55;
  if (!content_.subtitle.empty()) return air;
  const double descent = measurer_.metrics(Face::bold).descent * title_type().size;
  return std::max(air, descent + 1.5);
}

double ChartFrame::heading_height() const {
  if (heads_ == ColumnHeads::none) return 0;
  const double captions = text().size * 1.9;
  const double more = heads_stand() ? line_of_heading() * static_cast<double>(heading_lines()) -
                                          text().size * kHeadingFactor
                                    : 0;
  if (!lying_strips()) return captions + more;
  return more + text().size * 0.9 + above_heading() + under_heading() - small().size * 1.35 +
         small().size * 1.25 * static_cast<double>(below_lines()) +
         std::max(type(style_.subtitle).size * 1.5, least_size(Face::bold) * 1.15) +
         in_millimetres(style_.strip.cell_width) + 4.5;
}

// Columns will get about this width.
double ChartFrame::about_wide() const {
  return (right_ - left_) * 0.8 / static_cast<double>(content_.columns.size()) - gap();
}

// From afar a dose is worth nothing without the name of its column.
Type ChartFrame::heading_type() const {
  return {std::max(text().size * kHeadingFactor, least_size(Face::bold)), Face::bold};
}

// From the rule to the top of a name, and from its last line to what stands under it.
double ChartFrame::above_heading() const {
  return std::max(text().size * 0.7, heading_type().size * 0.35);
}

double ChartFrame::under_heading() const {
  const double descent = measurer_.metrics(Face::bold).descent * heading_type().size;
  return std::max(small().size * 1.35, descent + small().size);
}

double ChartFrame::line_of_heading() const {
  return std::max(text().size * kHeadingFactor, least_size(Face::bold) * 1.15);
}

// In one line where it may be made smaller, else in as many as it takes.
std::vector<std::string> ChartFrame::heading_of(const ColumnContent& column) const {
  if (in_millimetres(style_.least_figure) <= 0) return {column.heading};
  auto lines = wrapped(measurer_, column.heading, heading_type(), about_wide());
  if (lines.empty()) lines = {column.heading};
  return lines;
}

std::size_t ChartFrame::heading_lines() const {
  std::size_t most = 1;
  for (const ColumnContent& column : content_.columns)
    most = std::max(most, heading_of(column).size());
  return most;
}

bool ChartFrame::heading_fits(const ColumnContent& column, double width) const {
  if (column.code && column_code_type(width).size < least_size(Face::bold)) return false;
  const auto lines = heading_of(column);
  return std::none_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return in_millimetres(style_.least_figure) > 0 ? wide(line, heading_type()) > width
                                                   : shrinks_too_far(heading_type(), line, width);
  });
}

// Lines under the columns' names.
std::vector<std::string> ChartFrame::below_of(const ColumnContent& column) const {
  return wrapped(measurer_, column.below, small(), std::max(about_wide(), strip_length()));
}

std::size_t ChartFrame::below_lines() const {
  std::size_t most = 1;
  for (const ColumnContent& column : content_.columns)
    most = std::max(most, below_of(column).size());
  return most;
}

bool ChartFrame::is_single_column() const { return content_.columns.size() == 1; }

double ChartFrame::gap() const { return std::max(3.0, 7 * small_paper_); }

// A strip is printed whole, in the size it has on the bottle.
double ChartFrame::strip_length() const {
  return in_millimetres(style_.strip.cell_height) * style_.strip.cells + 1;
}

// The type, made smaller where the words would not fit; choose_sizes refuses what would get too
// small.
Type ChartFrame::fitted(Type wanted, const std::string& words, double room) const {
  const double natural = wide(words, wanted);
  if (natural > room) wanted.size *= room / natural;
  return wanted;
}

bool ChartFrame::shrinks_too_far(const Type& wanted, const std::string& words, double room) const {
  return wide(words, wanted) * 0.6 > room;
}

double ChartFrame::title_room() const {
  const double code = content_.code ? wide(content_.code->letters, title_type()) + 6 : 0;
  const double from_afar = content_.code ? wide(content_.code->letters, code_type()) + 6 : 0;
  const double date =
      shows_date() ? wide(content_.dated, {least_size(Face::regular), Face::regular}) + 6 : 0;
  return right_ - left_ - std::max({code, from_afar, date});
}

double ChartFrame::foot_room() const {
  return right_ - left_ - wide(filled_in(content_.words.page_of, {"00", "00"}), small()) - 6;
}

// Lines of which there is just one: title, subtitle, foot with its bar.
bool ChartFrame::frame_fits() const {
  if (left_ + kProofLength > right_) return false;
  // No sentence of the foot may be lost.
  if (match_.empty() || words_.empty()) return false;
  const auto fits = [&](const std::vector<std::string>& lines, const Type& wanted) {
    return std::none_of(lines.begin(), lines.end(), [&](const std::string& line) {
      return shrinks_too_far(wanted, line, title_room());
    });
  };
  return fits(title_, title_type()) && fits(subtitle_, type(style_.subtitle)) &&
         !shrinks_too_far(small(), content_.foot, foot_room());
}

// "Dechlorinator · for new water": what the page is for is bold where it stands below a title, for
// pages of other stocks hang beside it.
void ChartFrame::draw_subtitle(Pen& pen, const std::string& line, double y) const {
  Type plain = fitted_lines(type(style_.subtitle), subtitle_);
  Type strong{plain.size, Face::bold};
  const std::size_t end = line.find(" · ");
  const std::string first = line.substr(0, end);
  const std::string rest = end == std::string::npos ? "" : line.substr(end);
  const double both = wide(first, strong) + wide(rest, plain);
  const bool fits = both * kLeastSubtitle <= title_room();
  const bool names_it = content_.code && end != std::string::npos && &line == &subtitle_.front();
  if (!fits || !names_it) {
    pen.text({left_, y}, plain, line);
    return;
  }
  if (both > title_room()) strong.size = plain.size = plain.size * title_room() / both;
  pen.text({left_, y}, strong, first);
  pen.text({left_ + wide(first, strong) + wide(" ", plain), y}, plain, rest.substr(1));
}

void ChartFrame::draw_head(Pen& pen) const {
  double title_y = margin_ + cap(title_type());
  for (const std::string& line : title_) {
    pen.text({left_, title_y}, fitted_lines(title_type(), title_), line);
    title_y += title_type().size * 1.05;
  }
  double subtitle_y = rule_y_ - head_air() - subtitle_height() + type(style_.subtitle).size * 1.45;
  for (const std::string& line : subtitle_) {
    draw_subtitle(pen, line, subtitle_y);
    subtitle_y += type(style_.subtitle).size * 1.2;
  }
  if (content_.code) {
    const Type code = code_type();
    const Type caption = text();
    pen.text_right({right_, margin_ + cap(caption)}, caption, content_.code_caption);
    pen.text_right({right_, margin_ + cap(caption) + caption.size * 0.7 + cap(code)}, code,
                   content_.code->letters);
    draw_strip(pen, content_.code->strip, style_.strip.cells,
               {margin_, margin_ + 0.4, in_millimetres(style_.strip.cell_width),
                in_millimetres(style_.strip.cell_height)},
               false);
  }
  if (shows_date()) {
    const Type date{least_size(Face::regular), Face::regular};
    const double code =
        content_.code ? cap(text()) + text().size * 0.7 + cap(code_type()) + date.size * 0.5 : 0;
    pen.text_right({right_, margin_ + code + cap(date)}, date, content_.dated);
  }
  pen.rule(left_, rule_y_, right_ - left_, in_millimetres(style_.rules.heavy));
}

void ChartFrame::draw_column_head(Pen& pen, const ColumnContent& column, double x, double width,
                                  double base) const {
  const auto lines = heading_of(column);
  Type heading = heading_type();
  for (const std::string& line : lines) heading = fitted(heading, line, width);
  const double more = line_of_heading() * static_cast<double>(lines.size() - 1);
  double y = column.code ? rule_y_ + above_heading() + cap(heading) : base - more;
  for (const std::string& line : lines) {
    pen.text({x, y}, heading, line);
    y += line_of_heading();
  }
  if (!column.code) return;
  const double cell = in_millimetres(style_.strip.cell_width);
  double below_y = y - line_of_heading() + under_heading();
  for (const std::string& line : below_of(column)) {
    pen.text({x, below_y}, small(), line);
    below_y += small().size * 1.25;
  }
  const Type code = column_code_type(width);
  pen.text({x, base - cell - 2.2}, code, column.code->letters);
  draw_strip(pen, column.code->strip, style_.strip.cells,
             {x + 0.2, base - cell + 0.6, cell, in_millimetres(style_.strip.cell_height)}, true);
}

void ChartFrame::draw_two_lines(Pen& pen, const std::string& words, Point last_base, double width,
                                const Type& largest) const {
  constexpr double kStep = 25.4 / 72;  // a printer's point in mm
  Type large = largest;
  const auto fits = [](const std::vector<std::string>& lines) {
    return !lines.empty() && lines.size() <= 2;
  };
  auto lines = wrapped(measurer_, words, large, width);
  while (large.size > text().size && !fits(lines)) {
    large.size -= kStep;
    lines = wrapped(measurer_, words, large, width);
  }
  if (!fits(lines)) {
    lines = {words};
    large = fitted(text(Face::bold), words, width);
  }
  const double line = large.size * 1.1;
  double y = last_base.y - line * static_cast<double>(lines.size() - 1);
  for (const std::string& one : lines) {
    pen.text({last_base.x, y}, large, one);
    y += line;
  }
}

void ChartFrame::draw_give_and_how(Pen& pen, double x, double how, double base,
                                   bool named_rows) const {
  std::string give = content_.words.give;
  // What it is for before that it is given.
  const std::string& what = content_.columns[0].heading;
  const auto has_room = [&](const std::string& words) { return x + wide(words, text()) + 1 < how; };
  if (named_rows && has_room(what + content_.words.colon + give))
    give = what + content_.words.colon + give;
  else if (named_rows && has_room(what))
    give = what;
  pen.text({x, base}, text(), give);
  pen.text({std::max(how, x + wide(give, text()) + 1), base}, text(), content_.words.how);
}

Type ChartFrame::unit_type(double size) const {
  return {std::max({size * 0.5, small().size, least_size(Face::regular)}), Face::regular};
}

FigureColumn ChartFrame::dose_column(std::size_t column, double size) const {
  FigureColumn out;
  for (const RowContent& row : content_.rows) {
    const Amount& dose = row.cells[column].dose;
    if (dose.figure.empty()) continue;
    out.whole = std::max(out.whole, wide(before_sign(dose.figure), dose_type(size)));
    const double decimals = wide(from_sign(dose.figure), dose_type(size));
    out.decimals = std::max(out.decimals, decimals);
    out.unit = std::max(out.unit, decimals + size * kUnitGap + wide(dose.unit, unit_type(size)));
  }
  // What stands in place of a figure must stay readable where no row has one.
  for (const RowContent& row : content_.rows) {
    const double instead = wide(row.cells[column].instead, text(Face::bold)) * 0.85;
    out.unit = std::max(out.unit, instead - out.whole);
  }
  return out;
}

bool ChartFrame::has_steps() const {
  return std::any_of(content_.rows.begin(), content_.rows.end(), [](const RowContent& row) {
    return std::any_of(row.cells.begin(), row.cells.end(),
                       [](const CellContent& cell) { return !cell.instead.empty(); });
  });
}

LayoutProblem ChartFrame::page_too_small(const std::string& what, const std::string& hint) const {
  return {"the page of " + figure(width_, 1) + " x " + figure(height_, 1) +
              " mm is too small for " + what,
          hint};
}

void ChartFrame::draw_foot(Pen& pen, double rows_end, std::size_t number, std::size_t pages) const {
  double y = rows_end + text().size * 1.7;
  for (const std::string& line : match_) {
    pen.text({left_, y}, text(Face::bold), line);
    y += text().size * 1.2;
  }
  y += small().size * 0.4;
  for (const IndentedLine& line : words_) {
    pen.text({left_ + line.indent, y}, foot_type(), line.words);
    y += foot_type().size * 1.25;
  }
  const double foot_y = height_ - margin_;
  pen.text({left_, foot_y}, fitted(small(), content_.foot, foot_room()), content_.foot);
  pen.text_right(
      {right_, foot_y}, small(),
      filled_in(content_.words.page_of, {std::to_string(number), std::to_string(pages)}));
  draw_proof_bar(pen, foot_y - small().size * 2.1);
}

void ChartFrame::draw_proof_bar(Pen& pen, double y) const {
  pen.rule(left_, y, kProofLength, 0.3);
  for (int i = 0; i <= 10; ++i) {
    pen.rectangle({left_ + i * 10.0 -
                       (i == 0    ? 0
                        : i == 10 ? 0.2
                                  : 0.1),
                   y - 2, 0.2, 2},
                  Ink::black);
  }
  const std::string& legend = content_.words.true_print;
  const double beside = left_ + kProofLength + 3;
  // On narrow paper the words stand above the bar.
  const bool fits = beside + wide(legend, small()) <= right_;
  pen.text({fits ? beside : left_, fits ? y : y - 3.2}, small(), legend);
}

}  // namespace dosewright
