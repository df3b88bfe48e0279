// What is wrong with the user's input, where, and what to write instead; not for bugs in the
// program.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "dosewright/base/phrase.hpp"

namespace dosewright {

/// A text as it was read, kept so that a message can show the line it speaks of.
struct SourceText {
  std::string name;  ///< the file's name as the user gave it
  std::string text;  ///< the whole text, valid UTF-8

  /// Line `number` (1-based) without its line end; empty when there is no such line.
  [[nodiscard]] std::string line(std::size_t number) const;
};

/// A spot in a text. Lines and columns count from 1; columns count characters, not bytes.
struct Place {
  std::shared_ptr<const SourceText> source;
  std::size_t line = 0;
  std::size_t column = 0;
};

enum class Severity {
  error,   ///< bad input: nothing is computed or written
  finding  ///< something a careful person would mend: documents are still made
};

/// One problem. `path` names the value, such as `stocks.dechlorinator.dose.give`.
struct Diagnostic {
  Severity severity = Severity::error;
  Place place;
  std::string path;
  std::string message;
  std::string hint;   ///< what to write instead; may be empty
  Phrases said = {};  ///< the message, where pages in other languages say it too
};

using Diagnostics = std::vector<Diagnostic>;

/// `file:line:column: error: path: message`, the source line, a caret, the hint. Ends in a newline.
[[nodiscard]] std::string format(const Diagnostic& diagnostic);

/// Orders by file, line and column; problems at the same place keep their order.
void sort_by_place(Diagnostics& diagnostics);

[[nodiscard]] bool has_error(const Diagnostics& diagnostics);

[[nodiscard]] std::string_view name_of(Severity severity);

}  // namespace dosewright
