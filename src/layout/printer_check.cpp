// The printer check page: rulers, corner marks, grey steps and small words, to be measured once
// with a ruler that is trusted.
#include <algorithm>
#include <cmath>

#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "pen.hpp"

namespace dosewright {

namespace {

constexpr double kPoint = 25.4 / 72;
constexpr double kText = 12;  // pt

class PrinterCheckLayout {
 public:
  PrinterCheckLayout(const PrinterCheckContent& content, const PaperSize& paper,
                     const TextMeasurer& measurer)
      : content_(content),
        measurer_(measurer),
        width_(in_millimetres(paper.width)),
        height_(in_millimetres(paper.height)) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (width_ < content_.across + 2 * content_.from_edge + 10 ||
        height_ < content_.down + 2 * content_.from_edge + 10)
      return LayoutProblem{"the page is too small for its rulers", "print it on A4 or Letter"};
    Pages out;
    out.title = content_.title;
    out.pages.push_back(Page{width_, height_, content_.title, {}});
    Pen pen(out.pages.front(), measurer_);
    draw_corners(pen);
    draw_ruler_across(pen);
    draw_ruler_down(pen);
    draw_words(pen);
    return out;
  }

 private:
  [[nodiscard]] std::string points_text(double points) const {
    std::string out = figure(points, 1);
    std::replace(out.begin(), out.end(), '.', content_.decimal_sign);
    return out + " pt";
  }

  [[nodiscard]] Type words(double points, Face face = Face::regular) const {
    return {points * kPoint, face};
  }
  [[nodiscard]] double left() const { return content_.from_edge + 22; }
  [[nodiscard]] double right() const { return width_ - content_.from_edge - 8; }

  // A cross in each corner, as far from both edges as is written beside it.
  void draw_corners(Pen& pen) const {
    const double d = content_.from_edge;
    for (const Point at : {Point{d, d}, Point{width_ - d, d}, Point{d, height_ - d},
                           Point{width_ - d, height_ - d}}) {
      pen.rectangle({at.x - 4, at.y - 0.1, 8, 0.2}, Ink::black);
      pen.rectangle({at.x - 0.1, at.y - 4, 0.2, 8}, Ink::black);
    }
  }

  // Long lines at every 10 mm, with their figures; middle ones at 5.
  static double tick_of(int millimetre) {
    return millimetre % 10 == 0 ? 5 : millimetre % 5 == 0 ? 3.5 : 2;
  }

  void draw_ruler_across(Pen& pen) const {
    const double x = content_.from_edge;
    const double y = content_.from_edge + 9;
    for (int mm = 0; mm <= static_cast<int>(content_.across); ++mm) {
      pen.rectangle({x + mm - 0.06, y, 0.12, tick_of(mm)}, Ink::black);
      if (mm % 10 == 0) pen.text_centred({x + mm, y + 8.4}, words(8), std::to_string(mm));
    }
    pen.rule(x, y, content_.across, 0.2);
  }

  void draw_ruler_down(Pen& pen) const {
    const double x = content_.from_edge;
    const double y = content_.from_edge + 23;
    for (int mm = 0; mm <= static_cast<int>(content_.down); ++mm) {
      pen.rectangle({x, y + mm - 0.06, tick_of(mm), 0.12}, Ink::black);
      if (mm % 10 == 0) pen.text({x + 6, y + mm + 1}, words(8), std::to_string(mm));
    }
    pen.rectangle({x - 0.1, y, 0.2, content_.down}, Ink::black);
  }

  void draw_words(Pen& pen) const {
    double y = content_.from_edge + 34;
    const Type title = words(26, Face::bold);
    pen.text({left(), y}, title, content_.title);
    y += 5;
    pen.rule(left(), y, right() - left(), 0.7);
    y += 8;
    for (const std::string& paragraph : content_.paragraphs) {
      for (const std::string& line :
           wrapped(measurer_, paragraph, words(kText), right() - left())) {
        pen.text({left(), y}, words(kText), line);
        y += kText * kPoint * 1.35;
      }
      y += 3;
    }
    y = draw_fields(pen, y + 4);
    y = draw_greys(pen, y + 16);
    draw_sizes(pen, y + 15);
    pen.text({left(), height_ - content_.from_edge - 2}, words(8.5), content_.foot);
  }

  // Lines to write what was measured on.
  double draw_fields(Pen& pen, double y) const {
    for (const Field& field : content_.fields) {
      y += 13;
      pen.text({left(), y}, words(kText, Face::bold), field.caption);
      pen.rule(left() + 100, y + 0.6, 30, 0.2);
      pen.text({left() + 132, y}, words(kText), field.value);
    }
    return y;
  }

  // The greys that are used: a printer on which two of them look alike needs another setting.
  double draw_greys(Pen& pen, double y) const {
    pen.text({left(), y}, words(kText, Face::bold), content_.greys);
    y += 4;
    double x = left();
    for (const Ink ink : {Ink::white, Ink::tint, Ink::fill, Ink::black, Ink::red}) {
      pen.rectangle({x, y, 24, 18}, ink);
      pen.frame({x, y, 24, 18}, 0.2);
      x += 30;
    }
    return y + 18;
  }

  void draw_sizes(Pen& pen, double y) const {
    pen.text({left(), y}, words(kText, Face::bold), content_.sizes);
    for (const double points : {5.0, 6.0, 7.0, 8.5, 10.0}) {
      y += points * kPoint * 1.3 + 4;
      pen.text({left(), y}, words(points), points_text(points) + "  " + content_.sample);
    }
  }

  const PrinterCheckContent& content_;
  const TextMeasurer& measurer_;
  double width_;
  double height_;
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_printer_check(const PrinterCheckContent& content,
                                                         const PaperSize& paper,
                                                         const TextMeasurer& measurer) {
  return PrinterCheckLayout(content, paper, measurer).lay_out();
}

}  // namespace dosewright
