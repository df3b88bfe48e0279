// The ways to set the cells of a chart, among which its layout chooses.
#pragma once

#include <vector>

namespace dosewright {

/// How a cell stands: words beside the dose, or below it.
enum class CellShape { beside, below };

/// Names of tanks take at most this part of the width.
inline constexpr double kMostForNames = 0.26;

struct ChartSetting {
  CellShape shape = CellShape::beside;
  bool large_words = false;
  double words_scale = 1;              ///< of the way to measure, in a chart of one column
  double names_share = kMostForNames;  ///< of the width, at most
  bool one_line = false;               ///< no cell's words may wrap
  bool all_drawn = false;              ///< no cell goes without its tools
};

/// In the order of preference. `shared_rows`: some rows stand for several tanks.
[[nodiscard]] std::vector<ChartSetting> chart_settings(bool single_column, bool shared_rows);

}  // namespace dosewright
