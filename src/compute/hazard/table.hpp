// Rows of the tab-separated tables in templates/hazard; private to this folder.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dosewright {

/// Calls `take(columns)` for every row behind the heading, leaving out comments and empty lines.
/// Gives a message with the line number at the first row that does not have so many columns.
[[nodiscard]] std::optional<std::string> for_each_row(
    std::string_view table, std::size_t columns,
    const std::function<void(const std::vector<std::string>&)>& take);

/// "GHS05,GHS07" or "P280 P310" as a list; "none" and "" give an empty one.
[[nodiscard]] std::vector<std::string> listed(std::string_view cell, char separator);

}  // namespace dosewright
