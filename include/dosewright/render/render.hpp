// Drawing finished pages: PDF for the printer, PNG and SVG as its proofs. Nothing is decided here.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "dosewright/layout/display_list.hpp"
#include "dosewright/render/fonts.hpp"

namespace dosewright {

/// What a renderer could not do, in words for the user.
struct RenderProblem {
  std::string message;
};

/// Facts about a document that are not on its pages.
struct PdfFacts {
  std::string title;
  std::string creator;
  std::optional<long long>
      made_at;                  ///< seconds since 1970-01-01 UTC; without it, no date is written
  std::string language = "en";  ///< of its words, a tag of BCP 47
};

/// The PDF's bytes: fonts embedded and subset, print scaling none, an outline, a label and a trim
/// box for each page. The same pages and facts give the same bytes.
[[nodiscard]] std::variant<std::string, RenderProblem> render_pdf(const Pages& pages,
                                                                  const PdfFacts& facts,
                                                                  const Fonts& fonts);

/// One PNG a page, at `dpi` dots per inch (30 to 1200).
[[nodiscard]] std::variant<std::vector<std::string>, RenderProblem> render_png(const Pages& pages,
                                                                               int dpi,
                                                                               const Fonts& fonts);

/// One SVG a page, at its true size; letters are outlines.
[[nodiscard]] std::variant<std::vector<std::string>, RenderProblem> render_svg(const Pages& pages,
                                                                               const Fonts& fonts);

/// Red, green and blue of an ink, 0 to 1. The red is ours: no law fixes its shade. Against white
/// the contrast is 5.5:1 by WCAG 2.2, and on a black-and-white printer it stays darker than mid
/// grey.
struct Rgb {
  double red;
  double green;
  double blue;
};
[[nodiscard]] Rgb colour_of(Ink ink);

}  // namespace dosewright
