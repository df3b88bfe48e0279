// The drawings of the fills of one dose, side by side in a cell of a chart; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

class ChartFills {
 public:
  /// A drawing of a dose and what stands after it: nothing, or how many times.
  struct Fill {
    const ToolPicture* picture = nullptr;
    std::string times;
  };

  /// `counts` is the type of the words after a drawing.
  ChartFills(const TextMeasurer& measurer, const Type& counts)
      : measurer_(measurer), counts_(counts) {}

  /// Every fill by itself where there is room, else each kind once with its count; nothing where
  /// there is no room for that. A part of a dose would be taken for the whole.
  [[nodiscard]] std::vector<Fill> of(const CellContent& cell, double width) const;
  void draw(Pen& pen, const std::vector<Fill>& fills, const Box& box) const;

 private:
  [[nodiscard]] double times_width(const Fill& fill) const;
  [[nodiscard]] double each_width(const std::vector<Fill>& fills, double width) const;

  const TextMeasurer& measurer_;
  Type counts_;
};

}  // namespace dosewright
