#include "label_fields.hpp"

#include <algorithm>

namespace dosewright {

double LabelFields::width(const Field& field, double factor) const {
  constexpr double kWritten = 20;  // mm for a pen
  const bool bold =
      std::find(style_.bold.begin(), style_.bold.end(), LabelWord::values) != style_.bold.end();
  const Type value{text_ * factor, bold ? Face::bold : Face::regular};
  const bool empty = field.value.empty();
  return std::max({width_of(measurer_, field.caption, {text_, Face::regular}),
                   width_of(measurer_, empty ? "0000-00-00" : field.value, value),
                   empty ? kWritten : 0});
}

std::vector<std::vector<Field>> LabelFields::rows(double factor) const {
  const std::size_t all = content_.fields.size();
  auto filled = rows_of(all, factor);
  auto even = rows_of((all + filled.size() - 1) / filled.size(), factor);
  return even.size() == filled.size() ? even : filled;
}

double LabelFields::values_factor(bool tight) const {
  if (tight && rows(1).size() == 1) return 1;
  for (double factor = style_.values; factor > 0.99; factor -= 0.1) {
    if (rows(factor).size() == 1) return factor;
  }
  return style_.values;
}

std::vector<std::vector<Field>> LabelFields::rows_of(std::size_t most, double factor) const {
  std::vector<std::vector<Field>> out(1);
  double used = 0;
  for (const Field& field : content_.fields) {
    const double wide = width(field, factor) + text_;
    if (!out.back().empty() && (out.back().size() == most || used + wide > inner_ + text_)) {
      out.emplace_back();
      used = 0;
    }
    out.back().push_back(field);
    used += wide;
  }
  return out;
}

bool LabelFields::fit_grid(const std::vector<Field>& row, const std::vector<double>& grid,
                           double left, double factor) const {
  if (grid.size() < row.size()) return false;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const bool last = i + 1 == row.size();
    const double end = last ? left + inner_ + 1e-6 : grid[i + 1] - text_ * 0.5;
    if (grid[i] + width(row[i], factor) > end) return false;
  }
  return true;
}

}  // namespace dosewright
