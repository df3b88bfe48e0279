// A square code (ISO/IEC 18004) that carries plain text; private to this folder.
#pragma once

#include <string>

#include "pen.hpp"

namespace dosewright {

/// Side in mm with its quiet zone of four modules; modules of 0.42 mm, which telephones read (our
/// own choice: no standard fixes it). 0 for a text that no code holds.
[[nodiscard]] double square_code_side(const std::string& text);

/// Of that, the quiet zone on each side.
[[nodiscard]] double square_code_quiet();

/// Fills the box, its quiet zone included.
void draw_square_code(Pen& pen, const std::string& text, const Box& box);

}  // namespace dosewright
