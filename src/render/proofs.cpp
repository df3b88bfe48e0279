// Proofs: the display list drawn by cairo, as PNG or SVG.
#include <cairo-ft.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <regex>

#include "dosewright/base/text.hpp"
#include "dosewright/render/render.hpp"

namespace dosewright {

namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;
using FontFace = std::unique_ptr<cairo_font_face_t, decltype(&cairo_font_face_destroy)>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void set_ink(cairo_t* cr, Ink ink) {
  const Rgb colour = colour_of(ink);
  cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
}

void draw(cairo_t* cr, const Shape& shape) {
  cairo_new_path(cr);
  for (const PathStep& step : shape.steps) {
    switch (step.kind) {
      case PathStep::Kind::move:
        cairo_move_to(cr, step.to.x, step.to.y);
        break;
      case PathStep::Kind::line:
        cairo_line_to(cr, step.to.x, step.to.y);
        break;
      case PathStep::Kind::curve:
        cairo_curve_to(cr, step.control1.x, step.control1.y, step.control2.x, step.control2.y,
                       step.to.x, step.to.y);
        break;
      case PathStep::Kind::close:
        cairo_close_path(cr);
        break;
    }
  }
  cairo_set_fill_rule(cr, shape.even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
  set_ink(cr, shape.ink);
  cairo_fill(cr);
}

class Proof {
 public:
  Proof(const Fonts& fonts)
      : fonts_(fonts),
        regular_(cairo_ft_font_face_create_for_ft_face(
                     static_cast<FT_Face>(fonts.native(Face::regular)), FT_LOAD_NO_HINTING),
                 cairo_font_face_destroy),
        bold_(cairo_ft_font_face_create_for_ft_face(static_cast<FT_Face>(fonts.native(Face::bold)),
                                                    FT_LOAD_NO_HINTING),
              cairo_font_face_destroy) {}

  std::variant<std::string, RenderProblem> png(const Page& page, int dpi) const {
    const double scale = dpi / 25.4;
    const int width = static_cast<int>(std::ceil(page.width * scale - 1e-6));
    const int height = static_cast<int>(std::ceil(page.height * scale - 1e-6));
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height),
                          cairo_surface_destroy);
    const Context cr(cairo_create(surface.get()), cairo_destroy);
    draw_on(cr.get(), page, scale);
    std::string bytes;
    const cairo_status_t drawn = cairo_status(cr.get());
    if (drawn != CAIRO_STATUS_SUCCESS) return failed(drawn);
    const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
    if (status != CAIRO_STATUS_SUCCESS) return failed(status);
    return bytes;
  }

  std::variant<std::string, RenderProblem> svg(const Page& page) const {
    constexpr double kPointsPerMm = 72 / 25.4;
    std::string bytes;
    {
      const Surface surface(
          cairo_svg_surface_create_for_stream(append, &bytes, page.width * kPointsPerMm,
                                              page.height * kPointsPerMm),
          cairo_surface_destroy);
      const Context cr(cairo_create(surface.get()), cairo_destroy);
      draw_on(cr.get(), page, kPointsPerMm);
      const cairo_status_t drawn = cairo_status(cr.get());
      if (drawn != CAIRO_STATUS_SUCCESS) return failed(drawn);
      cairo_surface_finish(surface.get());
      const cairo_status_t status = cairo_surface_status(surface.get());
      if (status != CAIRO_STATUS_SUCCESS) return failed(status);
    }
    return with_steady_names(bytes);
  }

 private:
  static RenderProblem failed(cairo_status_t status) {
    return {std::string("the proof could not be drawn: ") + cairo_status_to_string(status)};
  }

  void draw_on(cairo_t* cr, const Page& page, double scale) const {
    set_ink(cr, Ink::white);
    cairo_paint(cr);
    cairo_scale(cr, scale, scale);
    for (const Mark& mark : page.marks) {
      if (const auto* shape = std::get_if<Shape>(&mark)) draw(cr, *shape);
      if (const auto* run = std::get_if<TextRun>(&mark)) text(cr, *run);
    }
  }

  // cairo 1.16 counts the surfaces of a process and writes the count into each file.
  static std::string with_steady_names(const std::string& bytes) {
    static const std::regex counted("surface[0-9]+");
    return std::regex_replace(bytes, counted, "page");
  }

  void text(cairo_t* cr, const TextRun& run) const {
    cairo_set_font_face(cr, run.face == Face::regular ? regular_.get() : bold_.get());
    cairo_set_font_size(cr, run.size);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cr, options);
    cairo_font_options_destroy(options);
    set_ink(cr, run.ink);
    std::vector<cairo_glyph_t> glyphs;
    double x = run.at.x;
    auto* face = static_cast<FT_Face>(fonts_.native(run.face));
    for (const char32_t c : to_characters(run.text)) {
      glyphs.push_back({FT_Get_Char_Index(face, c), x, run.at.y});
      x += fonts_.advance(c, run.face) * run.size;
    }
    const auto count = static_cast<int>(glyphs.size());
    if (cairo_surface_get_type(cairo_get_target(cr)) != CAIRO_SURFACE_TYPE_IMAGE) {
      cairo_show_glyphs(cr, glyphs.data(), count);
      return;
    }
    // cairo 1.16 puts the letters of a picture on whole pixels, which tears small words apart;
    // outlines stand where they belong.
    cairo_new_path(cr);
    cairo_glyph_path(cr, glyphs.data(), count);
    cairo_set_fill_rule(cr, CAIRO_FILL_RULE_WINDING);
    cairo_fill(cr);
  }

  const Fonts& fonts_;
  FontFace regular_;
  FontFace bold_;
};

}  // namespace

std::variant<std::vector<std::string>, RenderProblem> render_png(const Pages& pages, int dpi,
                                                                 const Fonts& fonts) {
  std::vector<std::string> out;
  const Proof proof(fonts);
  for (const Page& page : pages.pages) {
    auto made = proof.png(page, std::clamp(dpi, 30, 1200));
    if (auto* problem = std::get_if<RenderProblem>(&made)) return *problem;
    out.push_back(std::get<std::string>(std::move(made)));
  }
  return out;
}

std::variant<std::vector<std::string>, RenderProblem> render_svg(const Pages& pages,
                                                                 const Fonts& fonts) {
  std::vector<std::string> out;
  const Proof proof(fonts);
  for (const Page& page : pages.pages) {
    auto made = proof.svg(page);
    if (auto* problem = std::get_if<RenderProblem>(&made)) return *problem;
    out.push_back(std::get<std::string>(std::move(made)));
  }
  return out;
}

Rgb colour_of(Ink ink) {
  switch (ink) {
    case Ink::black:
      return {0, 0, 0};
    case Ink::white:
      return {1, 1, 1};
    case Ink::tint:
      return {0.93, 0.93, 0.93};
    case Ink::fill:
      return {0.7, 0.7, 0.7};
    case Ink::red:
      return {0.83, 0.02, 0.09};
  }
  return {0, 0, 0};
}

}  // namespace dosewright
