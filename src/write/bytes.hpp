// Bytes to an open file; private to this folder.
#pragma once

#include <string>

namespace dosewright {

/// Writes all of them and flushes the file to the disk: 0, or the errno of what went wrong.
[[nodiscard]] int write_all(int file, const std::string& bytes);

}  // namespace dosewright
