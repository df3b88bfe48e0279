// Finished pages as marks in millimetres: what both renderers draw and nothing else decides.
#pragma once

#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace dosewright {

/// Millimetres from the page's top left corner, y downwards.
struct Point {
  double x = 0;
  double y = 0;
};

/// The only colours there are. `tint` is 7 % black, `fill` 30 % black.
enum class Ink { black, white, tint, fill, red };

enum class Face { regular, bold };

struct PathStep {
  enum class Kind { move, line, curve, close };
  Kind kind = Kind::move;
  Point to;
  Point control1;  ///< curves only
  Point control2;
};

/// A filled outline (non-zero winding, or even-odd). Lines are drawn as thin filled rectangles, so
/// that every renderer agrees on their edges.
struct Shape {
  std::vector<PathStep> steps;
  Ink ink = Ink::black;
  bool even_odd = false;
};

/// One line of text in one size. `at` is the start of its baseline, `size` the em in millimetres.
struct TextRun {
  Point at;
  double size = 0;
  Face face = Face::regular;
  Ink ink = Ink::black;
  std::string text;
};

using Mark = std::variant<Shape, TextRun>;

struct Page {
  double width = 0;  ///< mm
  double height = 0;
  std::string title;  ///< for the outline of a document with several pages
  std::vector<Mark> marks;
};

struct Pages {
  std::string title;
  std::vector<Page> pages;
  int next_label = 1;  ///< of a sheet of labels: the first free one on its last page, 1 if none is
};

/// A fault of the program: a mark that is not a number or lies outside its page.
class LayoutFault : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

}  // namespace dosewright
