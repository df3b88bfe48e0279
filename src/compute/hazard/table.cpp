#include "table.hpp"

#include <utility>

#include "dosewright/base/text.hpp"

namespace dosewright {

std::optional<std::string> for_each_row(
    std::string_view table, std::size_t columns,
    const std::function<void(const std::vector<std::string>&)>& take) {
  const std::vector<std::string> lines = split(table, '\n');
  bool heading = true;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (trimmed(lines[i]).empty() || lines[i].front() == '#') continue;
    if (std::exchange(heading, false)) continue;
    const std::vector<std::string> cells = split(lines[i], '\t');
    if (cells.size() != columns) {
      return "line " + std::to_string(i + 1) + " has " + std::to_string(cells.size()) +
             " columns instead of " + std::to_string(columns);
    }
    take(cells);
  }
  return std::nullopt;
}

std::vector<std::string> listed(std::string_view cell, char separator) {
  std::vector<std::string> out;
  for (const std::string& word : split(cell, separator)) {
    if (!trimmed(word).empty() && word != "none") out.push_back(trimmed(word));
  }
  return out;
}

}  // namespace dosewright
