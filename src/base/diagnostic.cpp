#include "dosewright/base/diagnostic.hpp"

#include <algorithm>
#include <tuple>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

// Very long lines are shown around the column only, so that a message stays readable.
constexpr std::size_t kShownCharacters = 110;
constexpr std::size_t kCharactersBefore = 60;

struct ShownLine {
  std::string text;
  std::size_t caret_column = 1;
};

ShownLine shown_line(const Place& place) {
  const std::u32string characters = to_characters(place.source->line(place.line));
  const std::size_t column = std::max<std::size_t>(place.column, 1);
  if (characters.size() <= kShownCharacters) return {to_utf8(characters), column};
  const std::size_t start = column > kCharactersBefore ? column - kCharactersBefore : 0;
  const std::u32string part =
      characters.substr(std::min(start, characters.size()), kShownCharacters);
  return {to_utf8(part), column - std::min(start, column - 1)};
}

std::string one_line(const Diagnostic& diagnostic) {
  std::string out;
  if (diagnostic.place.source) {
    out += diagnostic.place.source->name;
    if (diagnostic.place.line > 0) {
      out += ':' + std::to_string(diagnostic.place.line);
      out += ':' + std::to_string(diagnostic.place.column);
    }
    out += ": ";
  }
  out += std::string(name_of(diagnostic.severity)) + ": ";
  if (!diagnostic.path.empty()) out += diagnostic.path + ": ";
  return out + diagnostic.message + '\n';
}

}  // namespace

std::string SourceText::line(std::size_t number) const {
  std::size_t start = 0;
  for (std::size_t at = 1; at < number; ++at) {
    const std::size_t end = text.find('\n', start);
    if (end == std::string::npos) return {};
    start = end + 1;
  }
  std::string found = text.substr(start, text.find('\n', start) - start);
  if (!found.empty() && found.back() == '\r') found.pop_back();
  // A tab would move the caret; one space keeps the columns true.
  std::replace(found.begin(), found.end(), '\t', ' ');
  return found;
}

std::string format(const Diagnostic& diagnostic) {
  std::string out = one_line(diagnostic);
  if (diagnostic.place.source && diagnostic.place.line > 0) {
    const ShownLine shown = shown_line(diagnostic.place);
    if (!shown.text.empty()) {
      out += "    " + shown.text + "\n    " + std::string(shown.caret_column - 1, ' ') + "^\n";
    }
  }
  if (!diagnostic.hint.empty()) out += "    " + diagnostic.hint + '\n';
  return out;
}

void sort_by_place(Diagnostics& diagnostics) {
  const auto key = [](const Diagnostic& d) {
    return std::make_tuple(d.place.source ? d.place.source->name : std::string(), d.place.line,
                           d.place.column);
  };
  std::stable_sort(diagnostics.begin(), diagnostics.end(),
                   [&](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
}

bool has_error(const Diagnostics& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::string_view name_of(Severity severity) {
  return severity == Severity::error ? "error" : "finding";
}

}  // namespace dosewright
