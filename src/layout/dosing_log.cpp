// Dosing logs: lines to write on with a pen, in columns, as many as the page holds.
#include <algorithm>
#include <cmath>

#include "chart_frame.hpp"
#include "dosewright/layout/documents.hpp"
#include "pen.hpp"

namespace dosewright {

namespace {

// A line of handwriting, by an adult in a hurry (common practice, no source): 8 mm at least, and
// there is no need for more than 11.
constexpr double kLeastLine = 8.5;
constexpr double kMostLine = 11;
constexpr double kLeastLines = 6;  // less is not worth a page

class DosingLogLayout : private ChartFrame {
 public:
  DosingLogLayout(const DosingLogContent& content, const PaperSize& paper, const ChartStyle& style,
                  const TextMeasurer& measurer)
      : ChartFrame(content.page, paper, style, measurer, ColumnHeads::none), log_(content) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (!frame_fits()) return no_room("its title, subtitle or foot");
    const double room = height_ - head_ - captions() - foot_;
    const double lines = std::floor(room / kLeastLine);
    if (lines < kLeastLines || !captions_fit()) return no_room("six lines to write on");
    line_ = std::min(room / lines, kMostLine);
    Pages out;
    out.title = content_.title;
    for (int number = 1; number <= log_.pages; ++number)
      out.pages.push_back(drawn(static_cast<int>(lines), number));
    return out;
  }

 private:
  [[nodiscard]] static LayoutProblem no_room(const std::string& what) {
    return {"the page is too small for " + what, "choose a larger paper"};
  }
  [[nodiscard]] double captions() const { return text().size * 1.9; }
  [[nodiscard]] double between() const { return 4; }

  [[nodiscard]] double column_width(std::size_t column) const {
    const double gaps = between() * static_cast<double>(log_.columns.size() - 1);
    return (right_ - left_ - gaps) * log_.columns[column].width;
  }

  [[nodiscard]] bool captions_fit() const {
    for (std::size_t column = 0; column < log_.columns.size(); ++column) {
      if (wide(log_.columns[column].caption, text()) > column_width(column)) return false;
    }
    return true;
  }

  [[nodiscard]] Page drawn(int lines, int number) const {
    Page page{width_, height_, content_.title, {}};
    Pen pen(page, measurer_);
    draw_head(pen);
    const double top = head_ + captions();
    double x = left_;
    for (std::size_t column = 0; column < log_.columns.size(); ++column) {
      pen.text({x, top - text().size * 0.6}, text(), log_.columns[column].caption);
      for (int line = 1; line <= lines; ++line)
        pen.rule(x, top + line_ * line, column_width(column), in_millimetres(style_.rules.light));
      x += column_width(column) + between();
    }
    draw_foot(pen, top + line_ * lines, static_cast<std::size_t>(number),
              static_cast<std::size_t>(log_.pages));
    return page;
  }

  const DosingLogContent& log_;
  double line_ = 0;
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_dosing_log(const DosingLogContent& content,
                                                      const PaperSize& paper,
                                                      const ChartStyle& style,
                                                      const TextMeasurer& measurer) {
  return DosingLogLayout(content, paper, style, measurer).lay_out();
}

}  // namespace dosewright
