#include "row_names.hpp"

#include <algorithm>

namespace dosewright {

namespace {

std::size_t most_together(const std::vector<RowContent>& rows) {
  std::size_t most = 1;
  for (const RowContent& row : rows) most = std::max(most, row.with.size() + 1);
  return most;
}

}  // namespace

std::vector<std::string> name_lines(const RowContent& row, std::size_t each) {
  std::vector<std::string> out = {row.name};
  for (std::size_t i = 0; i < row.with.size(); ++i) {
    out.back() += ',';
    if ((i + 1) % each == 0)
      out.push_back(row.with[i]);
    else
      out.back() += ' ' + row.with[i];
  }
  return out;
}

double widest(const std::vector<RowContent>& rows, const Type& type, const TextMeasurer& measurer,
              std::string (*words)(const RowContent&)) {
  double out = 0;
  for (const RowContent& row : rows) out = std::max(out, width_of(measurer, words(row), type));
  return out;
}

double width_of_names(const std::vector<RowContent>& rows, const NameLines& lines,
                      const TextMeasurer& measurer) {
  double out = 0;
  for (const RowContent& row : rows) {
    for (const std::string& line : name_lines(row, lines.each))
      out = std::max(out, width_of(measurer, line, {lines.size, Face::bold}));
  }
  return out;
}

NameLines lines_of_names(const std::vector<RowContent>& rows, const NameRoom& room,
                         const TextMeasurer& measurer) {
  const std::size_t together = most_together(rows);
  NameLines best;
  for (std::size_t most = 1; most <= together; ++most) {
    // Evenly: no line with a single name under a full one.
    NameLines lines{(together + most - 1) / most, most, room.wanted};
    const double widest = width_of_names(rows, lines, measurer);
    if (widest > room.width) lines.size *= room.width / widest;
    const double high =
        measurer.metrics(Face::bold).cap_height + kNameLine * static_cast<double>(lines.most - 1);
    if (lines.most > 1) lines.size = std::min(lines.size, room.height / high);
    if (lines.size > best.size + 1e-6) best = lines;
  }
  return best;
}

}  // namespace dosewright
