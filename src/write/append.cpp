// Lines at the end of a file that is never written anew.
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "bytes.hpp"
#include "dosewright/write/files.hpp"

namespace dosewright {

namespace {

// A line that was cut off while it was written ends here, so that the next one stays whole.
bool ends_inside_a_line(int file) {
  struct stat facts {};
  if (::fstat(file, &facts) != 0 || facts.st_size == 0) return false;
  char last = '\n';
  return ::pread(file, &last, 1, facts.st_size - 1) == 1 && last != '\n';
}

}  // namespace

FileLock::FileLock(const std::string& path) : file_(::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {
  while (file_ >= 0 && ::flock(file_, LOCK_EX) != 0 && errno == EINTR) continue;
}

FileLock::~FileLock() {
  if (file_ >= 0) (void)::close(file_);
}

std::optional<std::string> append_lines(const std::string& path, const std::string& lines) {
  const auto trouble = [&](int code) {
    return "cannot add to " + path + ": " + std::generic_category().message(code);
  };
  const int file = ::open(path.c_str(), O_RDWR | O_APPEND | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0644);
  if (file < 0) return trouble(errno);
  // Two runs at once wait for each other; the lock goes with the handle.
  while (::flock(file, LOCK_EX) != 0) {
    if (errno == EINTR) continue;
    const int code = errno;
    (void)::close(file);
    return trouble(code);
  }
  const int failed = write_all(file, ends_inside_a_line(file) ? '\n' + lines : lines);
  const int closed = ::close(file) == 0 ? 0 : errno;
  if (failed != 0 || closed != 0) return trouble(failed != 0 ? failed : closed);
  return std::nullopt;
}

}  // namespace dosewright
