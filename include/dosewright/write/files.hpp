// Bytes to files, all or none: what is there already stays whole until the new file is complete.
// And lines to the end of a file.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dosewright {

struct OutputFile {
  std::string path;
  std::string bytes;
};

/// Makes `folder` if it is missing, writes every file beside its place under another name, flushes
/// it to the disk, and only when all of them are complete renames them. On any failure the files
/// begun are removed and a sentence for the user is returned.
[[nodiscard]] std::optional<std::string> write_files(const std::string& folder,
                                                     const std::vector<OutputFile>& files);

/// Adds whole lines to the end of a file, which is made if it is missing, and flushes it. What was
/// there is never touched; runs at the same time wait for each other; after a line that a stopped
/// run has left unfinished a new one is begun. A sentence for the user when it fails.
[[nodiscard]] std::optional<std::string> append_lines(const std::string& path,
                                                      const std::string& lines);

/// Keeps other runs that ask for the same waiting, for as long as it lives. Without effect where
/// the file cannot be opened; it is not touched.
class FileLock {
 public:
  explicit FileLock(const std::string& path);
  FileLock(const FileLock&) = delete;
  FileLock& operator=(const FileLock&) = delete;
  ~FileLock();

 private:
  int file_ = -1;
};

}  // namespace dosewright
