#include "dosewright/hazard/statements.hpp"

#include <algorithm>
#include <cctype>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kColumns = 7;
constexpr std::string_view kBlank = "{1}";
constexpr std::string_view kSecondBlank = "{2}";
constexpr std::string_view kOptional = "(empty)";

Statement from_columns(const std::vector<std::string>& columns) {
  Statement made;
  made.code = columns[0];
  made.kind = columns[1] == "H" ? Statement::Kind::hazard : Statement::Kind::precautionary;
  made.law_text = columns[2];
  made.pattern = columns[3];
  made.has_blank = made.pattern.find(kBlank) != std::string::npos;
  made.blank_may_stay_empty = columns[4] == kOptional;
  if (!made.blank_may_stay_empty) made.default_fill = columns[4];
  made.signal = columns[5];
  if (!columns[6].empty() && columns[6] != "none") made.pictograms = split(columns[6], ',');
  return made;
}

// "50 kg / 30 °C" for a statement with two blanks.
std::optional<std::string> twice_filled(const Statement& statement, std::string_view fill) {
  const std::size_t slash = fill.find(" / ");
  if (slash == std::string_view::npos) return std::nullopt;
  std::string out = statement.pattern;
  out.replace(out.find(kSecondBlank), kSecondBlank.size(), trimmed(fill.substr(slash + 3)));
  return out.replace(out.find(kBlank), kBlank.size(), trimmed(fill.substr(0, slash)));
}

}  // namespace

std::variant<StatementBook, std::string> StatementBook::from_table(std::string_view table) {
  StatementBook book;
  const std::vector<std::string> lines = split(table, '\n');
  bool heading = true;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (trimmed(lines[i]).empty() || lines[i].front() == '#') continue;
    if (heading) {
      heading = false;
      continue;
    }
    const std::vector<std::string> columns = split(lines[i], '\t');
    if (columns.size() != kColumns) {
      return "line " + std::to_string(i + 1) + " has " + std::to_string(columns.size()) +
             " columns instead of " + std::to_string(kColumns);
    }
    book.statements_.push_back(from_columns(columns));
  }
  if (book.statements_.empty()) return std::string("the table holds no statement");
  return book;
}

const Statement* StatementBook::find(std::string_view code) const {
  const auto found = std::find_if(statements_.begin(), statements_.end(),
                                  [&](const Statement& s) { return s.code == code; });
  return found == statements_.end() ? nullptr : &*found;
}

std::vector<std::string> StatementBook::codes() const {
  std::vector<std::string> out;
  for (const Statement& statement : statements_) out.push_back(statement.code);
  return out;
}

std::string normalised_code(std::string_view code) {
  std::string out;
  bool leading =
      true;  // the letters before a number; those behind it, as in H360Fd, keep their case
  for (const char c : code) {
    if (c == ' ') continue;
    if (std::isdigit(static_cast<unsigned char>(c)) != 0) leading = false;
    if (c == '+') leading = true;
    out += leading ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : c;
  }
  return out;
}

std::optional<std::string> sentence(const Statement& statement, std::string_view fill) {
  if (!statement.has_blank) return statement.pattern;
  if (statement.pattern.find(kSecondBlank) != std::string::npos)
    return twice_filled(statement, fill);
  std::string filled(fill.empty() ? std::string_view(statement.default_fill) : fill);
  while (!filled.empty() && (filled.back() == '.' || filled.back() == ' ')) filled.pop_back();
  if (filled.empty() && !statement.blank_may_stay_empty) return std::nullopt;
  const std::size_t at = statement.pattern.find(kBlank);
  const bool joins_a_word =
      at > 0 && std::isalpha(static_cast<unsigned char>(statement.pattern[at - 1])) != 0;
  if (!filled.empty() && joins_a_word) filled.insert(0, 1, ' ');
  std::string out = statement.pattern;
  return out.replace(at, kBlank.size(), filled);
}

}  // namespace dosewright
