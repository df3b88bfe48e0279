// Drawn signs: the hazard pictograms and the strip of patterned cells; private to this folder.
#pragma once

#include <array>
#include <string>

#include "dosewright/dose/strength_code.hpp"
#include "pen.hpp"

namespace dosewright {

/// Width over all of a pictogram whose square has this side: it stands on a point.
[[nodiscard]] double pictogram_width(double side);

/// A hazard pictogram, centred. The frame is 8 % of the side, and the symbol keeps 4 % of the side
/// clear of it. Throws LayoutFault for a code that is not GHS01 … GHS09.
void draw_pictogram(Pen& pen, const std::string& code, Point centre, double side);

/// The strip upright, its first cell on top; or lying, its first cell on the left.
void draw_strip(Pen& pen, const std::array<CellPattern, 8>& cells, int count, const Box& first_cell,
                bool lying);

}  // namespace dosewright
