// One region of a label: parts of it, one below the other; private to this folder.
#pragma once

#include <memory>
#include <vector>

#include "dosewright/layout/text_measurer.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// Where the pictograms stand: in one column, two or a row left of the words, or in as many rows as
/// they take above them.
enum class Arrangement { column, pairs, row, above };

struct LabelSizes {
  double text;       ///< em, mm
  double pictogram;  ///< side of the square, mm
  Arrangement arrangement;
  bool run_on = false;  ///< hazard statements one behind the other, not a line each
  bool airy = false;    ///< large type, which wants a little height left over between the parts
  bool tight = false;   ///< without the air that a label only has where there is room
  bool square_apart = false;  ///< a region of the face has the square code to itself
};

class LabelColumn {
 public:
  LabelColumn() = default;
  LabelColumn(const LabelColumn&) = delete;
  LabelColumn& operator=(const LabelColumn&) = delete;
  virtual ~LabelColumn() = default;
  [[nodiscard]] virtual double height() const = 0;
  /// From `top` down over `room`, at least height().
  virtual void draw(Pen& pen, double top, double room) const = 0;
};

/// Null when something is too wide for `width`. Content and style must outlive it.
[[nodiscard]] std::unique_ptr<LabelColumn> set_column(
    const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
    const LabelSizes& sizes, double left, double width, const std::vector<LabelPart>& parts);

}  // namespace dosewright
