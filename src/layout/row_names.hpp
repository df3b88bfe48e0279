// The names of a tank chart's rows: one tank's, or those of all that share the row.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "dosewright/layout/text_measurer.hpp"
#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// How names stand in their rows: so many on a line, so many lines at most, in mm.
struct NameLines {
  std::size_t each = 1;
  std::size_t most = 1;
  double size = 0;
};

/// Room for the names of a row, in mm.
struct NameRoom {
  double wanted = 0;  ///< size of type; never more
  double width = 0;
  double height = 0;  ///< counts where names take more than one line
};

/// From one line of names to the next, over their size.
inline constexpr double kNameLine = 1.12;

/// "A1, A2," and "A3, A4".
[[nodiscard]] std::vector<std::string> name_lines(const RowContent& row, std::size_t each);

/// Names on as many lines as make them largest, in all rows alike.
[[nodiscard]] NameLines lines_of_names(const std::vector<RowContent>& rows, const NameRoom& room,
                                       const TextMeasurer& measurer);

/// The widest line.
[[nodiscard]] double width_of_names(const std::vector<RowContent>& rows, const NameLines& lines,
                                    const TextMeasurer& measurer);

/// The widest of these words of the rows.
[[nodiscard]] double widest(const std::vector<RowContent>& rows, const Type& type,
                            const TextMeasurer& measurer, std::string (*words)(const RowContent&));

}  // namespace dosewright
