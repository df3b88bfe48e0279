#include "chart_settings.hpp"

namespace dosewright {

namespace {

void add_for_one_column(bool one_line, std::vector<ChartSetting>& out) {
  for (const double scale : {1.4, 1.2, 1.0}) {
    for (const bool all_drawn : {true, false})
      out.push_back({CellShape::beside, true, scale, kMostForNames, one_line, all_drawn});
  }
}

// Several names in a row may stand on more lines for the doses' sake.
void add_for_columns(bool one_line, bool shared_rows, std::vector<ChartSetting>& out) {
  std::vector<double> shares = {kMostForNames};
  if (shared_rows) shares.insert(shares.end(), {0.2, 0.15});
  for (const bool large_words : {true, false}) {
    for (const double share : shares) {
      for (const CellShape shape : {CellShape::beside, CellShape::below})
        out.push_back({shape, large_words, 1, share, one_line, false});
    }
  }
}

}  // namespace

std::vector<ChartSetting> chart_settings(bool single_column, bool shared_rows) {
  std::vector<ChartSetting> out;
  for (const bool one_line : {true, false}) {
    if (single_column)
      add_for_one_column(one_line, out);
    else
      add_for_columns(one_line, shared_rows, out);
  }
  return out;
}

}  // namespace dosewright
