#include "dosewright/hazard/statements.hpp"

#include <algorithm>
#include <cctype>
#include <map>
#include <utility>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/classes.hpp"
#include "table.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kColumns = 4;
constexpr std::string_view kBlank = "{1}";
constexpr std::string_view kSecondBlank = "{2}";
constexpr std::string_view kOptional = "(empty)";

// What a code means in every language.
struct CodeFacts {
  Statement::Kind kind = Statement::Kind::precautionary;
  std::string signal;
  std::vector<std::string> pictograms;
};

// "P280.gloves" is a P280; a key such as "SIGNAL.danger" has no entry of its own.
std::string without_choice(const std::string& code) { return code.substr(0, code.find('.')); }

Statement from_columns(const std::vector<std::string>& columns, const CodeFacts& facts) {
  Statement made;
  made.code = columns[0];
  made.kind = facts.kind;
  made.law_text = columns[1];
  made.pattern = columns[2];
  made.has_blank = made.pattern.find(kBlank) != std::string::npos;
  made.blank_may_stay_empty = columns[3] == kOptional;
  if (!made.blank_may_stay_empty) made.default_fill = columns[3];
  made.signal = facts.signal;
  made.pictograms = facts.pictograms;
  return made;
}

// A sentence that begins with what is filled in begins with a capital.
std::string with_capital(const std::string& words) {
  std::u32string characters = to_characters(words);
  if (!characters.empty()) characters[0] = capital_of(characters[0]);
  return to_utf8(characters);
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

std::variant<StatementBook, std::string> StatementBook::from_tables(const StatementTables& tables) {
  std::map<std::string, CodeFacts> facts;
  auto problem = for_each_row(tables.codes, kColumns, [&](const std::vector<std::string>& columns) {
    CodeFacts& one = facts[columns[0]];
    one.kind = columns[1] == "H" ? Statement::Kind::hazard : Statement::Kind::precautionary;
    one.signal = columns[2];
    one.pictograms = listed(columns[3], ',');
  });
  if (problem) return "codes: " + *problem;
  StatementBook book;
  std::string stray;
  std::map<std::string, std::size_t> places;
  const auto add = [&](const std::vector<std::string>& columns) {
    const auto found = facts.find(without_choice(columns[0]));
    const bool signal = columns[0].starts_with("SIGNAL.");
    if (found == facts.end() && !signal) stray = columns[0];
    Statement made =
        from_columns(columns, signal ? CodeFacts() : facts[without_choice(columns[0])]);
    const auto [at, fresh] = places.try_emplace(made.code, book.statements_.size());
    if (fresh) {
      book.statements_.push_back(std::move(made));
    } else {
      book.statements_[at->second] = std::move(made);
    }
  };
  problem = for_each_row(tables.language, kColumns, add);
  if (!problem) problem = for_each_row(tables.over, kColumns, add);
  if (problem) return *problem;
  if (!stray.empty()) return stray + " is not among the codes";
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
  for (const Statement& statement : statements_) {
    if (statement.code.find('.') == std::string::npos) out.push_back(statement.code);
  }
  return out;
}

void StatementBook::spell_as_in_the_united_states() {
  for (Statement& statement : statements_) {
    for (std::size_t at = statement.pattern.find("vapour"); at != std::string::npos;
         at = statement.pattern.find("vapour", at))
      statement.pattern.replace(at, 6, "vapor");
  }
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

namespace {

// As it was written, save for routes of exposure among the organs.
std::string organs_alone(std::string_view stated) {
  const std::vector<std::string> all = named_in(std::string(stated));
  const std::vector<std::string> organs = without_routes(all);
  return organs.size() == all.size() ? std::string(stated) : all_of(organs);
}

// H370 to H373, in another language than English.
bool names_organs(const Statement& statement) {
  return statement.code.size() == 4 && statement.code.starts_with("H37") &&
         statement.default_fill != "organs";
}

}  // namespace

std::optional<std::string> sentence(const Statement& statement, std::string_view stated) {
  if (!statement.has_blank) return statement.pattern;
  const std::string fill =
      statement.code.starts_with("H37") ? organs_alone(stated) : std::string(stated);
  if (statement.pattern.find(kSecondBlank) != std::string::npos)
    return twice_filled(statement, fill);
  std::string filled(fill.empty() ? std::string_view(statement.default_fill) : fill);
  // Only the English sentence takes an organ's name in place of "organs" in every case: elsewhere
  // the blank holds an article or the damage itself, and the name stands behind it.
  if (names_organs(statement) && !fill.empty())
    filled = statement.default_fill + " (" + std::string(fill) + ')';
  while (!filled.empty() && (filled.back() == '.' || filled.back() == ' ')) filled.pop_back();
  if (filled.empty() && !statement.blank_may_stay_empty) return std::nullopt;
  const std::size_t at = statement.pattern.find(kBlank);
  // Letters beyond ASCII are letters too: their bytes are 128 or more.
  const auto before = static_cast<unsigned char>(at > 0 ? statement.pattern[at - 1] : ' ');
  const bool joins_a_word = before >= 0x80 || std::isalpha(before) != 0;
  if (!filled.empty() && joins_a_word) filled.insert(0, 1, ' ');
  if (at == 0) filled = with_capital(filled);
  std::string out = statement.pattern;
  return out.replace(at, kBlank.size(), filled);
}

}  // namespace dosewright
