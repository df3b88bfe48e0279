// How labels and charts look, as a template file says it; not what they hold.
#pragma once

#include <vector>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// A size that layout may choose between two ends.
struct SizeRange {
  Length smallest;
  Length largest;
};

/// The strip of patterned cells: the same size on every bottle and chart.
struct StripStyle {
  Length cell_width;
  Length cell_height;
  int cells = 8;
  int short_cells = 4;  ///< on labels lower than short_below
  Length short_below;
};

/// Rules between the parts of a page.
struct RuleStyle {
  Length heavy;
  Length light;
};

/// Which error stands beside a dose.
enum class ErrorShown {
  measuring,  ///< rounding and tools, at their worst
  all,        ///< with the strength's and the water's, at their worst
  standard,   ///< the standard uncertainty of all but the rounding
  none
};

/// What a label is made of.
enum class LabelPart {
  name_and_code,  ///< with its contents
  dose,
  fields,            ///< dates, batch, by whom, how much
  hazards,           ///< pictograms, signal word, statements, precautions: never parted
  hazards_in_short,  ///< pictograms and signal word, and where the rest stands
  warnings,          ///< what it must not meet, whom to call
  square_code,       ///< where a label has one; beside the warnings if no region names it
  heavy_rule,
  light_rule
};

/// Words whose weight a design chooses.
enum class LabelWord { name, code, dose, treats, values, signal, hazards, warnings };

/// A part of a label's width, with parts of the label from the top down.
struct LabelRegion {
  Share narrowest;
  Share widest;        ///< the fit chooses between them
  bool strip = false;  ///< the strength strip stands at its left
  std::vector<LabelPart> parts;
};

/// Regions from left to right; at the narrowest they come to at most 1, at the widest to at
/// least 1.
using LabelFace = std::vector<LabelRegion>;

struct LabelStyle {
  ErrorShown error = ErrorShown::measuring;
  Length margin;
  StripStyle strip;
  RuleStyle rules;
  SizeRange text;           ///< type size of hazard text and small print; the others are multiples
  double line_pitch = 1.2;  ///< baseline distance over type size; at least 1.2
  double values = 1.4;
  double code = 2;
  double signal = 2;
  double dose = 2.9;
  double name = 2.9;
  SizeRange pictogram;  ///< side of the square standing on a point
  int name_lines = 2;   ///< as many lines as the name may take
  std::vector<LabelWord> bold;
  LabelFace front;
  /// Two labels, for when not all of it fits on the front: both or neither.
  LabelFace full_front;
  LabelFace full_back;
};

struct ChartStyle {
  ErrorShown error = ErrorShown::measuring;
  Length margin;
  StripStyle strip;
  RuleStyle rules;
  Length title;  ///< type sizes from here on
  Length subtitle;
  Length text;
  Length small;
  SizeRange dose;
  SizeRange row;                 ///< height of a row
  bool tint = true;              ///< every other row in grey
  double heading_factor = 0.65;  ///< the row's own figure over the dose
  /// Height of the lowest figure that must be read from afar, set by layout; 0 where none is.
  Length least_figure;
};

}  // namespace dosewright
