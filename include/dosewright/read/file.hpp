// Bringing a text file into memory, or saying plainly why that cannot be done.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <variant>

#include "dosewright/base/diagnostic.hpp"

namespace dosewright {

/// The largest description that is read: 4 MB, far above what a room of 10,000 vessels needs.
inline constexpr std::size_t kLargestText = 4'000'000;

/// The file's text, or the problem: missing, not readable, not a file, empty, larger than
/// kLargestText, binary (NUL or control characters), UTF-16, or malformed UTF-8. A byte order mark
/// is dropped.
[[nodiscard]] std::variant<std::shared_ptr<const SourceText>, Diagnostic> read_text_file(
    const std::string& path);

}  // namespace dosewright
