// What stands around a chart's rows: title, code and strip on top, sentences, proof bar and page
// number at the foot; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/layout/documents.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// Between a figure and its unit, over the figure's size.
inline constexpr double kUnitGap = 0.17;

/// Widths of a column of figures that stand with their decimal points below each other.
struct FigureColumn {
  double whole = 0;
  double decimals = 0;
  double unit = 0;  // of the widest decimals with the unit that follows them
  [[nodiscard]] double width() const { return whole + unit; }
};

/// A line of the foot, and how far in it begins.
struct IndentedLine {
  std::string words;
  double indent = 0;
};

/// Whether a line of captions stands between the title and the rows.
enum class ColumnHeads { shown, none };

/// The frame of every page of one chart or card; what fills it is laid out by the class that builds
/// on it.
class ChartFrame {
 protected:
  ChartFrame(const ChartContent& content, const PaperSize& paper, const ChartStyle& style,
             const TextMeasurer& measurer, ColumnHeads heads = ColumnHeads::shown);

  [[nodiscard]] Type type(Length size, Face face = Face::regular) const;
  [[nodiscard]] Type small() const;
  [[nodiscard]] Type foot_type() const;  ///< of the sentences below the rows
  [[nodiscard]] Type text(Face face = Face::regular) const;
  [[nodiscard]] double cap(const Type& t) const;
  [[nodiscard]] double wide(const std::string& words, const Type& t) const;
  /// Whether a dose is diluted first.
  [[nodiscard]] bool has_steps() const;
  [[nodiscard]] LayoutProblem page_too_small(const std::string& what,
                                             const std::string& hint) const;

  /// Whether columns carry codes and strips of their own.
  [[nodiscard]] bool lying_strips() const;
  [[nodiscard]] bool is_single_column() const;
  /// Length of a whole strip in the size it has on the bottle.
  [[nodiscard]] double strip_length() const;
  /// Between two columns.
  [[nodiscard]] double gap() const;
  /// The lines under a column's name.
  [[nodiscard]] std::vector<std::string> below_of(const ColumnContent& column) const;

  /// The em of figures as low as may be read from afar; 0 where that is not asked.
  [[nodiscard]] double least_size(Face face) const;
  /// The same of a dose, whose row's own figure must be read from as far away.
  [[nodiscard]] double least_dose_size() const;
  /// Whether every column has its name over it; one alone has captions instead.
  [[nodiscard]] bool heads_stand() const { return !is_single_column() || lying_strips(); }
  /// Whether a column's name and code keep a readable size in this width.
  [[nodiscard]] bool heading_fits(const ColumnContent& column, double width) const;
  /// The code over a column of its own.
  [[nodiscard]] Type column_code_type(double width) const;
  [[nodiscard]] Type title_type() const;
  [[nodiscard]] Type code_type() const;
  [[nodiscard]] bool shows_date() const;

  [[nodiscard]] static Type dose_type(double size) { return {size, Face::bold}; }
  [[nodiscard]] Type unit_type(double size) const;
  /// Widths of a column's doses in this size.
  [[nodiscard]] FigureColumn dose_column(std::size_t column, double size) const;

  /// The part of a figure before its decimal sign, and the figure from there on.
  [[nodiscard]] std::string before_sign(const std::string& figure) const;
  [[nodiscard]] std::string from_sign(const std::string& figure) const;

  /// How far a decimal comma of this size reaches below its line; 0 for a point.
  [[nodiscard]] double comma_tail(double size) const;
  /// The title of a page in the outline, by what its first row is for.
  [[nodiscard]] std::string starting_with(const Amount& first) const;

  /// The type, made smaller where the words would not fit.
  [[nodiscard]] Type fitted(Type wanted, const std::string& words, double room) const;
  [[nodiscard]] bool shrinks_too_far(const Type& wanted, const std::string& words,
                                     double room) const;
  /// Whether title, subtitle and foot keep a readable size and the bar its length.
  [[nodiscard]] bool frame_fits() const;

  void draw_head(Pen& pen) const;
  /// A column's name from `x` on, at most `width` wide; for a stock of its own also what it is for,
  /// its code and its lying strip, which ends just below the baseline `base`.
  void draw_column_head(Pen& pen, const ColumnContent& column, double x, double width,
                        double base) const;
  /// "whole tank: give" from x on, and "how" from `how` on, of charts of one column.
  void draw_give_and_how(Pen& pen, double x, double how, double base, bool named_rows) const;
  /// Words in the largest type, from `largest` down, that takes no more than two lines, the last
  /// one from `last_base` on.
  void draw_two_lines(Pen& pen, const std::string& words, Point last_base, double width,
                      const Type& largest) const;
  void draw_foot(Pen& pen, double rows_end, std::size_t number, std::size_t pages) const;

  const ChartContent& content_;
  const ChartStyle& style_;
  const TextMeasurer& measurer_;
  ColumnHeads heads_;
  double width_;
  double height_;
  double margin_;
  double small_paper_ = 1;  ///< type shrinks with paper below A4
  double left_ = 0;
  double right_ = 0;
  double head_ = 0;    ///< where the rows begin
  double rule_y_ = 0;  ///< the rule under the title
  double foot_ = 0;    ///< height of the foot

 private:
  void measure_frame();
  [[nodiscard]] double code_height() const;
  [[nodiscard]] double head_air() const;
  [[nodiscard]] double heading_height() const;
  [[nodiscard]] Type heading_type() const;
  [[nodiscard]] double about_wide() const;
  [[nodiscard]] std::vector<std::string> heading_of(const ColumnContent& column) const;
  [[nodiscard]] std::size_t heading_lines() const;
  [[nodiscard]] double line_of_heading() const;
  [[nodiscard]] double above_heading() const;
  [[nodiscard]] double under_heading() const;
  [[nodiscard]] std::size_t below_lines() const;
  [[nodiscard]] double title_room() const;
  [[nodiscard]] double foot_room() const;
  void draw_proof_bar(Pen& pen, double y) const;
  void draw_subtitle(Pen& pen, const std::string& line, double y) const;

  [[nodiscard]] std::vector<std::string> head_lines(const std::string& words, const Type& wanted,
                                                    double least, std::size_t most) const;
  [[nodiscard]] Type fitted_lines(Type wanted, const std::vector<std::string>& lines) const;
  [[nodiscard]] double title_height() const;
  [[nodiscard]] double subtitle_height() const;

  std::vector<std::string> title_;     // as the subtitle
  std::vector<std::string> subtitle_;  // one line, made smaller, or several at full size
  std::vector<std::string> match_;
  std::vector<IndentedLine> words_;
};

}  // namespace dosewright
