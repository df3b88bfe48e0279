#include "dosewright/write/files.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "bytes.hpp"

namespace dosewright {

namespace {

std::string why(int code) { return std::generic_category().message(code); }

std::string part_name(const std::string& path) { return path + ".part" + std::to_string(getpid()); }

int write_part(const OutputFile& file) {
  const int handle = ::open(part_name(file.path).c_str(),
                            O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0644);
  if (handle < 0) return errno;
  const int failed = write_all(handle, file.bytes);
  const int closed = ::close(handle) == 0 ? 0 : errno;
  return failed != 0 ? failed : closed;
}

void remove_parts(const std::vector<OutputFile>& files) {
  for (const OutputFile& file : files) (void)::unlink(part_name(file.path).c_str());
}

// So that the new names outlive a loss of power. Not every file system offers it; that is no fault.
void flush_folder(const std::string& folder) {
  const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle < 0) return;
  (void)fsync(handle);
  (void)::close(handle);
}

}  // namespace

int write_all(int file, const std::string& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t wrote = ::write(file, bytes.data() + done, bytes.size() - done);
    if (wrote < 0) {
      if (errno == EINTR) continue;
      return errno;
    }
    done += static_cast<std::size_t>(wrote);
  }
  return fsync(file) == 0 ? 0 : errno;
}

std::optional<std::string> write_files(const std::string& folder,
                                       const std::vector<OutputFile>& files) {
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  if (failed) return "cannot make the folder " + folder + ": " + failed.message();
  for (const OutputFile& file : files) {
    if (std::filesystem::is_directory(file.path, failed)) {
      return "cannot write " + file.path + ": a folder of that name is in the way";
    }
  }
  for (const OutputFile& file : files) {
    const int code = write_part(file);
    if (code == 0) continue;
    remove_parts(files);
    return "cannot write " + file.path + ": " + why(code);
  }
  for (const OutputFile& file : files) {
    if (std::rename(part_name(file.path).c_str(), file.path.c_str()) == 0) continue;
    const int code = errno;
    remove_parts(files);
    return "cannot write " + file.path + ": " + why(code);
  }
  flush_folder(folder);
  return std::nullopt;
}

}  // namespace dosewright
