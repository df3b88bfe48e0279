#include "dosewright/read/file.hpp"

#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <system_error>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

using Outcome = std::variant<std::shared_ptr<const SourceText>, Diagnostic>;

Diagnostic refusal(const std::string& path, std::string message, std::string hint,
                   Place place = {}) {
  if (!place.source) place.source = std::make_shared<SourceText>(SourceText{path, ""});
  return {Severity::error, std::move(place), "", std::move(message), std::move(hint)};
}

Place place_of_byte(const std::shared_ptr<const SourceText>& source, std::size_t offset) {
  Place place{source, 1, 1};
  for (std::size_t at = 0; at < offset && at < source->text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(source->text[at]);
    if (byte == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((byte & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
  return place;
}

bool is_unwanted_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7F;
}

// A place in a damaged text must not show its line: the bytes could upset the terminal.
Place without_line(const Place& place, const std::string& path) {
  return {std::make_shared<SourceText>(SourceText{path, ""}), place.line, place.column};
}

Outcome checked(const std::string& path, std::string text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    return refusal(path, "the file is UTF-16 text", "save it again as UTF-8");
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  const auto source = std::make_shared<SourceText>(SourceText{path, std::move(text)});
  for (std::size_t at = 0; at < source->text.size(); ++at) {
    if (!is_unwanted_control(source->text[at])) continue;
    const bool nul = source->text[at] == '\0';
    return refusal(path,
                   nul ? "the file holds a NUL byte: it is not a text file"
                       : "the file holds a control character: it is not a plain text file",
                   "give a description written as plain UTF-8 text",
                   without_line(place_of_byte(source, at), path));
  }
  if (const auto bad = find_malformed_utf8(source->text)) {
    return refusal(path, "the file is not UTF-8 text from here on", "save it again as UTF-8",
                   without_line(place_of_byte(source, *bad), path));
  }
  if (trimmed(source->text).empty()) {
    return refusal(path, "the file is empty", "a description starts with \"room:\"");
  }
  return source;
}

}  // namespace

Outcome read_text_file(const std::string& path) {
  struct stat info {};
  if (stat(path.c_str(), &info) != 0) {
    return refusal(path, "cannot read the file: " + std::generic_category().message(errno),
                   "check the name and the folder");
  }
  if (S_ISDIR(info.st_mode)) {
    return refusal(path, "this is a folder, not a file", "name the description inside it");
  }
  if (!S_ISREG(info.st_mode)) {
    return refusal(path, "this is not a regular file", "name a description written as a text file");
  }
  if (static_cast<std::size_t>(info.st_size) > kLargestText) {
    return refusal(path, "the file is larger than 4 MB", "a description is a text of a few pages");
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    return refusal(path, "cannot read the file: " + std::generic_category().message(errno),
                   "check who may read it");
  }
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (in.bad()) return refusal(path, "the file could not be read to its end", "try again");
  return checked(path, std::move(text));
}

}  // namespace dosewright
