// The fields of a label, dates and batch and so on, dealt out over rows; private to this folder.
#pragma once

#include <cstddef>
#include <vector>

#include "dosewright/layout/text_measurer.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// Fields in text of one size within one width, both in mm. Content, style and measurer must
/// outlive it. `factor` is the size of the values over that of the text.
class LabelFields {
 public:
  LabelFields(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
              double text, double inner)
      : content_(content), style_(style), measurer_(measurer), text_(text), inner_(inner) {}

  /// Of one field; an empty one is as wide as what will be written into it.
  [[nodiscard]] double width(const Field& field, double factor) const;

  /// As many in a row as fit with air between them; of several rows none is nearly empty.
  [[nodiscard]] std::vector<std::vector<Field>> rows(double factor) const;

  /// One row is read faster than two: the values give up some of their size for it, all of it where
  /// the label is tight.
  [[nodiscard]] double values_factor(bool tight) const;

  /// Whether a further row can stand under the first one's fields, which begin at `grid` in a
  /// region from `left` on.
  [[nodiscard]] bool fit_grid(const std::vector<Field>& row, const std::vector<double>& grid,
                              double left, double factor) const;

 private:
  [[nodiscard]] std::vector<std::vector<Field>> rows_of(std::size_t most, double factor) const;

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  double text_;
  double inner_;
};

}  // namespace dosewright
