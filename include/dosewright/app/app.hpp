// The commands: what they read, in which order they work, what they say and how they end.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace dosewright {

/// What the program's exit status says.
enum class ExitStatus {
  done = 0,
  findings = 1,        ///< done, but a careful person would mend something
  bad_input = 2,       ///< nothing was computed or written
  could_not_write = 3  ///< a folder, the disk, a font or a template failed
};

/// Runs one command line (without the program's name).
[[nodiscard]] ExitStatus run(const std::vector<std::string>& arguments, std::ostream& out,
                             std::ostream& err);

}  // namespace dosewright
