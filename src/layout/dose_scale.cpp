// The dose scale: for each stock one long scale, water left of its line, the dose right of it, so
// that a volume and its dose stand at one height. Positions come ready; none is computed here.
#include <algorithm>
#include <optional>

#include "chart_frame.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "pen.hpp"
#include "scale_ticks.hpp"

namespace dosewright {

namespace {

constexpr double kTickDistance = 1.1;  // mm; ours: finer marks cannot be counted on a copy
constexpr double kLeastLength = 60;    // mm of scale below which it says too little; ours
constexpr double kFigureRoom = 1.22;   // least pitch of figures over their height
constexpr double kLeading = 1.2;       // baseline distance of the tools' names over their size
constexpr double kBracketEnd = 0.45;   // mm a bracket keeps from the end of its part
constexpr double kCaptionGap = 1;      // mm between a caption and the line's middle
constexpr double kHook = 1.3;          // mm; the ends of a bracket

// The tool's name beside its part, wrapped.
struct WordBlock {
  std::vector<std::string> lines;
  double top = 0;  // mm on the page
  double height = 0;
};

// Lengths of the three ranks of ticks.
struct TickLengths {
  double figured = 0;
  double middle = 0;
  double minor = 0;
  [[nodiscard]] double of(TickRank rank) const {
    return rank == TickRank::figured ? figured : rank == TickRank::middle ? middle : minor;
  }
};

// Type on the scale: the dose is what the reader came for; water and the tools' names are set in a
// smaller size that the page has anyway.
struct ScaleSizes {
  Type dose;
  Type water;
  Type words;
  double least_length = 0;  // mm of scale below which so large figures leave too few of them
};

// One scale on the page; every x is the left edge of what it names, mm.
struct ScaleColumn {
  double x = 0;
  double width = 0;
  double line = 0;
  double figures = 0;
  double whole = 0;  // widest part of a dose figure before the decimal point
  double bracket = 0;
  double words = 0;
  std::vector<KeptTick> ticks;
  std::vector<WordBlock> blocks;  // one for each part
};

class DoseScaleLayout : private ChartFrame {
 public:
  DoseScaleLayout(const DoseScaleContent& content, const PaperSize& paper, const ChartStyle& style,
                  const TextMeasurer& measurer)
      : ChartFrame(content.page, paper, style, measurer), scale_(content) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (!frame_fits()) return no_room("its title, subtitle or foot");
    if (const auto too_few = too_few_marks()) return *too_few;
    if (!columns_fit()) return no_room("a scale for each stock side by side");
    if (!choose_sizes()) return no_room("a legible scale with the names of its tools");
    Pages out;
    out.title = content_.title;
    out.pages.push_back(draw_page());
    return out;
  }

 private:
  // ---- sizes

  [[nodiscard]] double rows_end() const { return height_ - foot_; }
  [[nodiscard]] double page_length() const { return rows_end() - head_; }
  [[nodiscard]] std::size_t count() const { return scale_.doses.size(); }

  [[nodiscard]] Type caption_type(Face face = Face::regular) const {
    return {std::max(text().size * 1.3, water_type().size), face};
  }
  // Below the strips of several stocks the captions have a line of their own; a single stock's
  // stand where a chart's do, below the title's rule.
  [[nodiscard]] double caption_base() const {
    const double above = lying_strips() ? head_ + text().size * 0.5 : rule_y_ + text().size * 0.8;
    return above + cap(caption_type());
  }

  [[nodiscard]] const Type& dose_type() const { return sizes_.dose; }
  [[nodiscard]] const Type& water_type() const { return sizes_.water; }
  [[nodiscard]] const Type& words_type() const { return sizes_.words; }
  [[nodiscard]] TickLengths tick_lengths() const {
    return {dose_type().size * 1.15, dose_type().size * 0.8, dose_type().size * 0.5};
  }
  [[nodiscard]] double figure_gap() const { return std::max(0.8, dose_type().size * 0.22); }
  [[nodiscard]] double line_width() const { return in_millimetres(style_.rules.heavy); }

  [[nodiscard]] double top() const {
    return caption_base() + text().size * 0.9 + cap(dose_type()) / 2;
  }
  [[nodiscard]] double bottom() const { return rows_end() - cap(dose_type()) / 2 - 0.5; }
  [[nodiscard]] double y_of(double at) const { return top() + at * (bottom() - top()); }

  [[nodiscard]] TickSpacing spacing(const Type& figures) const {
    return {bottom() - top(), kTickDistance, cap(figures) * kFigureRoom};
  }

  [[nodiscard]] double column_width() const {
    const auto n = static_cast<double>(count());
    return (right_ - left_ - gap() * (n - 1)) / n;
  }

  [[nodiscard]] bool columns_fit() const {
    return std::all_of(content_.columns.begin(), content_.columns.end(),
                       [&](const ColumnContent& column) {
                         return (!column.code || strip_length() <= column_width()) &&
                                !shrinks_too_far(text(Face::bold), column.heading, column_width());
                       });
  }

  // Largest first. A scale needs some twenty figures one below the other; the largest figures are
  // for scales with room for a few more.
  [[nodiscard]] std::vector<ScaleSizes> possible_sizes() const {
    const Type subtitle = type(style_.subtitle);
    const Type large{subtitle.size * 1.4, Face::bold};
    const Type medium{subtitle.size, Face::bold};
    const Type little{text().size * 1.25, Face::bold};
    const Type least = text(Face::bold);
    return {{large, subtitle, subtitle, large.size * 24},
            {medium, text(), text(Face::bold), medium.size * 22},
            {medium, text(), small(), medium.size * 22},
            {little, small(), text(Face::bold), little.size * 20},
            {little, small(), small(), little.size * 20},
            {least, small(), text(Face::bold), kLeastLength},
            {least, small(), small(), kLeastLength}};
  }

  // The largest figures with which every column holds its ticks and words, with whole captions if
  // these do not make them smaller.
  bool choose_sizes() {
    for (const ScaleSizes& sizes : possible_sizes()) {
      sizes_ = sizes;
      if (bottom() - top() < std::max(kLeastLength, sizes.least_length)) continue;
      for (const bool whole_captions : {true, false}) {
        whole_captions_ = whole_captions;
        if (plan_columns()) return true;
      }
    }
    return false;
  }

  // ---- planning

  bool plan_columns() {
    water_ = kept_ticks(scale_.water, spacing(water_type()));
    columns_.clear();
    for (std::size_t i = 0; i < count(); ++i) {
      columns_.push_back(planned(i));
      if (!is_legible(columns_.back().ticks) || !place_words(columns_.back(), scale_.doses[i]))
        return false;
    }
    return is_legible(water_);
  }

  // A dose that hardly changes over the range cannot be cured by paper.
  [[nodiscard]] std::optional<LayoutProblem> too_few_marks() const {
    for (std::size_t i = 0; i < count(); ++i) {
      std::size_t marks = 0;
      for (const ScalePart& part : scale_.doses[i].parts) marks += part.ticks.size();
      if (marks >= 2) continue;
      const std::string name = content_.columns[i].code ? content_.columns[i].heading : "";
      return LayoutProblem{"the scale" + (name.empty() ? name : " of " + name) +
                               " holds fewer than two marks of its tools",
                           "give it a wider range of volumes, or the stock a finer tool"};
    }
    return std::nullopt;
  }

  // One figure alone gives no scale to read between.
  [[nodiscard]] static bool is_legible(const std::vector<KeptTick>& ticks) {
    return std::count_if(ticks.begin(), ticks.end(),
                         [](const KeptTick& tick) { return tick.rank == TickRank::figured; }) >= 2;
  }

  [[nodiscard]] ScaleColumn planned(std::size_t index) const {
    ScaleColumn out;
    out.width = column_width();
    out.x = left_ + static_cast<double>(index) * (out.width + gap());
    out.ticks = kept_ticks(scale_.doses[index], spacing(dose_type()));
    double water = 0;
    for (const KeptTick& tick : water_) water = std::max(water, wide(tick.figure, water_type()));
    double rest = 0;
    for (const KeptTick& tick : out.ticks) {
      const double whole = wide(before_sign(tick.figure), dose_type());
      out.whole = std::max(out.whole, whole);
      rest = std::max(rest, wide(tick.figure, dose_type()) - whole);
    }
    const double side = tick_lengths().figured + figure_gap();
    out.line = out.x + std::max(water + side, caption_width() + kCaptionGap);
    out.figures = out.line + line_width() + side;
    out.bracket = out.figures + out.whole + rest + kHook + 1.5;
    out.words = out.bracket + words_type().size * 0.6;
    centre(out, scale_.doses[index]);
    return out;
  }

  // A single scale stands in the middle of the page; several begin under the heads of their
  // columns.
  void centre(ScaleColumn& column, const ScaleAxis& axis) const {
    double end = column.words;
    for (const ScalePart& part : axis.parts)
      end = std::max(end, column.words + wide(part.words, words_type()));
    const double spare = (column.x + column.width - end) / 2;
    if (lying_strips() || spare <= 0) return;
    for (double* x : {&column.line, &column.figures, &column.bracket, &column.words}) *x += spare;
  }

  // Names stand at the middle of their parts, moved apart where parts are low, but never past the
  // end of their own bracket.
  [[nodiscard]] bool place_words(ScaleColumn& column, const ScaleAxis& axis) const {
    const double room = column.x + column.width - column.words;
    double free_from = top() - cap(dose_type()) / 2;
    for (const ScalePart& part : axis.parts) {
      WordBlock block;
      block.lines = wrapped(measurer_, part.words, words_type(), room);
      if (block.lines.empty() && !part.words.empty()) return false;
      block.height = block_height(block.lines.size());
      const double middle = (y_of(part.from) + y_of(part.to)) / 2;
      block.top = std::max(free_from, middle - block.height / 2);
      if (block.top > y_of(part.to)) return false;
      free_from = block.top + block.height + words_type().size * 0.5;
      column.blocks.push_back(block);
    }
    return move_up(column, axis);
  }

  // Lifts the names that were pushed below the end of the scale.
  [[nodiscard]] bool move_up(ScaleColumn& column, const ScaleAxis& axis) const {
    double free_to = rows_end();
    for (std::size_t i = column.blocks.size(); i-- > 0;) {
      WordBlock& block = column.blocks[i];
      block.top = std::min(block.top, free_to - block.height);
      if (block.top + block.height < y_of(axis.parts[i].from)) return false;
      free_to = block.top - words_type().size * 0.5;
    }
    return true;
  }

  [[nodiscard]] double block_height(std::size_t lines) const {
    if (lines == 0) return 0;
    return cap(words_type()) + words_type().size * kLeading * static_cast<double>(lines - 1);
  }

  [[nodiscard]] LayoutProblem no_room(const std::string& what) const {
    const std::string fewer = count() > 1 ? ", print fewer stocks on it" : "";
    return page_too_small(what,
                          "choose a larger paper, turn it" + fewer + ", or shorten the names");
  }

  // ---- drawing

  Page draw_page() const {
    Page page{width_, height_, content_.title, {}};
    Pen pen(page, measurer_);
    draw_head(pen);
    for (std::size_t i = 0; i < count(); ++i) {
      const ColumnContent& head = content_.columns[i];
      if (lying_strips())
        draw_column_head(pen, head, columns_[i].x, columns_[i].width, head_ - text().size * 0.6);
      draw_column(pen, columns_[i], scale_.doses[i]);
    }
    draw_foot(pen, rows_end(), 1, 1);
    return page;
  }

  void draw_column(Pen& pen, const ScaleColumn& column, const ScaleAxis& axis) const {
    draw_captions(pen, column, axis);
    pen.rectangle(
        {column.line, y_of(0) - kFiguredTick / 2, line_width(), y_of(1) - y_of(0) + kFiguredTick},
        Ink::black);
    for (const KeptTick& tick : water_) draw_water_tick(pen, column, tick);
    for (const KeptTick& tick : column.ticks) draw_dose_tick(pen, column, tick);
    for (std::size_t i = 0; i < axis.parts.size(); ++i)
      draw_part(pen, column, axis.parts[i], column.blocks[i]);
    draw_gaps(pen, column, axis);
  }

  [[nodiscard]] double caption_width() const {
    const double unit = wide(scale_.water.unit, caption_type(Face::bold));
    if (!whole_captions_) return unit;
    return wide(content_.row_caption, caption_type()) + caption_type().size * kUnitGap + unit;
  }

  // "water L" left of the line, "give mL" right of it; where that is too wide, the unit alone.
  void draw_captions(Pen& pen, const ScaleColumn& column, const ScaleAxis& axis) const {
    const double base = caption_base();
    const double water = column.line - kCaptionGap;
    pen.text_right({water, base}, caption_type(Face::bold), scale_.water.unit);
    if (whole_captions_)
      pen.text({water - caption_width(), base}, caption_type(), content_.row_caption);
    const double give = column.line + line_width() + kCaptionGap;
    pen.text({give, base}, caption_type(), content_.words.give);
    pen.text(
        {give + wide(content_.words.give, caption_type()) + caption_type().size * kUnitGap, base},
        caption_type(Face::bold), axis.unit);
  }

  static constexpr double kFiguredTick = 0.45;  // mm; thickness

  [[nodiscard]] double thickness(TickRank rank) const {
    return rank == TickRank::figured ? kFiguredTick : in_millimetres(style_.rules.light);
  }

  void draw_water_tick(Pen& pen, const ScaleColumn& column, const KeptTick& tick) const {
    const double length = tick_lengths().of(tick.rank);
    pen.rule(column.line - length, y_of(tick.at), length, thickness(tick.rank));
    const double end = column.line - tick_lengths().figured - figure_gap();
    pen.text_right({end, y_of(tick.at) + cap(water_type()) / 2}, water_type(), tick.figure);
  }

  void draw_dose_tick(Pen& pen, const ScaleColumn& column, const KeptTick& tick) const {
    const double length = tick_lengths().of(tick.rank);
    pen.rule(column.line + line_width(), y_of(tick.at), length, thickness(tick.rank));
    const double whole = wide(before_sign(tick.figure), dose_type());
    pen.text({column.figures + column.whole - whole, y_of(tick.at) + cap(dose_type()) / 2},
             dose_type(), tick.figure);
  }

  void draw_part(Pen& pen, const ScaleColumn& column, const ScalePart& part,
                 const WordBlock& block) const {
    const double light = in_millimetres(style_.rules.light) * 1.5;
    const double from = y_of(part.from) + kBracketEnd;
    const double to = y_of(part.to) - kBracketEnd;
    // Of a short one the hooks would read as an equals sign.
    constexpr double kLeastBracket = 4;  // mm
    if (to - from > 2 * light && to - from < kLeastBracket) {
      pen.rectangle({column.bracket, from, light, to - from}, Ink::black);
    } else if (to - from > 2 * light) {
      pen.rectangle({column.bracket, from, light, to - from}, Ink::black);
      for (const double y : {from, to - light})
        pen.rectangle({column.bracket - kHook, y, kHook, light}, Ink::black);
    } else {
      // Too short for any: at the start of a scale a bar has room above it, so that the name is not
      // taken for the next one's. No dash, which would make a range of the figures beside it.
      const double foot = y_of(part.to) - 0.1;
      if (part.from <= 0.02) pen.rectangle({column.bracket, foot - 3, light, 3}, Ink::black);
    }
    double y = block.top + cap(words_type());
    for (const std::string& line : block.lines) {
      pen.text({column.words, y}, words_type(), line);
      y += words_type().size * kLeading;
    }
  }

  // Where nothing can be measured the paper says so, so that blank is not taken for a fault.
  void draw_gaps(Pen& pen, const ScaleColumn& column, const ScaleAxis& axis) const {
    double from = 0;
    for (const ScalePart& part : axis.parts) {
      draw_gap(pen, column, from, part.from);
      from = part.to;
    }
    draw_gap(pen, column, from, 1);
  }

  void draw_gap(Pen& pen, const ScaleColumn& column, double from, double to) const {
    // Figures at both ends reach into the gap by half their height.
    const double room = y_of(to) - y_of(from) - cap(dose_type()) - 2;
    if (room < cap(small())) return;
    const double base = (y_of(from) + y_of(to) + cap(small())) / 2;
    if (column.figures + wide(content_.words.no_tool, small()) > column.x + column.width) return;
    // Names of tools with little room of their own may reach into the gap.
    for (const WordBlock& block : column.blocks) {
      if (block.top < base + 1 && block.top + block.height > base - cap(small()) - 1) return;
    }
    pen.text({column.figures, base}, small(), content_.words.no_tool);
  }

  const DoseScaleContent& scale_;
  ScaleSizes sizes_;
  bool whole_captions_ = true;
  std::vector<KeptTick> water_;
  std::vector<ScaleColumn> columns_;
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_dose_scale(const DoseScaleContent& content,
                                                      const PaperSize& paper,
                                                      const ChartStyle& style,
                                                      const TextMeasurer& measurer) {
  if (content.doses.empty() || content.doses.size() != content.page.columns.size())
    throw LayoutFault("a dose scale needs one axis for each column");
  return DoseScaleLayout(content, paper, style, measurer).lay_out();
}

}  // namespace dosewright
