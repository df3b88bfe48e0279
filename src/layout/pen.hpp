// Putting marks on a page: lines of text, rules, rectangles, outlines; private to this folder.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "dosewright/layout/display_list.hpp"
#include "dosewright/layout/text_measurer.hpp"

namespace dosewright {

struct Box {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;
};

/// A size and weight of type.
struct Type {
  double size = 0;  ///< em, mm
  Face face = Face::regular;
};

/// Builds outlines step by step.
class Outline {
 public:
  Outline& move(Point to);
  Outline& line(Point to);
  Outline& curve(Point control1, Point control2, Point to);
  Outline& close();
  Outline& rectangle(const Box& box);
  Outline& polygon(const std::vector<Point>& corners);
  /// A circle, drawn clockwise; `hole` turns it round, so that it cuts out of what it lies in.
  Outline& circle(Point centre, double radius, bool hole = false);
  Outline& ellipse(Point centre, double radius_x, double radius_y, bool hole = false);
  /// A straight stroke of some width with square ends.
  Outline& stroke(Point from, Point to, double width);
  [[nodiscard]] const std::vector<PathStep>& steps() const { return steps_; }

 private:
  std::vector<PathStep> steps_;
};

/// Draws on one page. Every number goes through one gate: finite, inside the page, rounded to a
/// hundredth of a point.
class Pen {
 public:
  Pen(Page& page, const TextMeasurer& measurer) : page_(page), measurer_(measurer) {}

  void text(Point baseline, const Type& type, std::string_view words, Ink ink = Ink::black);
  void text_right(Point baseline_end, const Type& type, std::string_view words);
  void text_centred(Point baseline_middle, const Type& type, std::string_view words);
  void rectangle(const Box& box, Ink ink);
  /// A horizontal rule whose middle lies at `y`.
  void rule(double x, double y, double width, double thickness);
  void frame(const Box& box, double thickness);
  void fill(const Outline& outline, Ink ink, bool even_odd = false);
  void add(const Mark& mark);

  [[nodiscard]] double width_of(std::string_view words, const Type& type) const;
  [[nodiscard]] double cap_height(const Type& type) const;
  [[nodiscard]] double descent(const Type& type) const;
  [[nodiscard]] const TextMeasurer& measurer() const { return measurer_; }
  [[nodiscard]] const Page& page() const { return page_; }

 private:
  Page& page_;
  const TextMeasurer& measurer_;
};

[[nodiscard]] double width_of(const TextMeasurer& measurer, std::string_view words,
                              const Type& type);

/// The text broken into lines no wider than `width`: at the places Unicode allows, never between a
/// number and its unit, and with no single word left over where another break avoids it. Empty when
/// one word alone is too wide.
[[nodiscard]] std::vector<std::string> wrapped(const TextMeasurer& measurer, std::string_view text,
                                               const Type& type, double width);

/// “ ” and ’ for what keyboards have instead.
[[nodiscard]] std::string with_printers_quotes(std::string_view words);

/// What hard spaces kept on one line needs them no longer once it is set.
[[nodiscard]] std::string with_soft_spaces(std::string line);

/// The mark seen from (0, 0) at `factor` times its size.
[[nodiscard]] Mark scaled(const Mark& mark, double factor);

/// The mark moved by (dx, dy).
[[nodiscard]] Mark moved(const Mark& mark, double dx, double dy);

}  // namespace dosewright
