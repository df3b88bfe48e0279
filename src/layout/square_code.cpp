#include "square_code.hpp"

#include <qrencode.h>

#include <memory>

namespace dosewright {

namespace {

constexpr double kModule = 0.42;  // mm
constexpr int kQuiet = 4;         // modules

using Code = std::unique_ptr<QRcode, decltype(&QRcode_free)>;

// Recovery level M: 15 % of the code may be lost to a drop or a scratch.
Code encoded(const std::string& text) {
  return {QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M), QRcode_free};
}

}  // namespace

double square_code_side(const std::string& text) {
  const Code code = encoded(text);
  return code == nullptr ? 0 : (code->width + 2 * kQuiet) * kModule;
}

double square_code_quiet() { return kQuiet * kModule; }

void draw_square_code(Pen& pen, const std::string& text, const Box& box) {
  const Code code = encoded(text);
  if (code == nullptr) return;
  const int side = code->width;
  const double module = box.width / (side + 2 * kQuiet);
  const auto dark = [&](int row, int column) {
    return column < side && (code->data[row * side + column] & 1U) != 0;
  };
  // One outline for all, each run of dark modules as one rectangle.
  Outline outline;
  for (int row = 0; row < side; ++row) {
    for (int column = 0; column < side; ++column) {
      if (!dark(row, column)) continue;
      const int start = column;
      while (dark(row, column + 1)) ++column;
      outline.rectangle({box.x + (kQuiet + start) * module, box.y + (kQuiet + row) * module,
                         (column + 1 - start) * module, module});
    }
  }
  pen.fill(outline, Ink::black);
}

}  // namespace dosewright
