// The hazard standard's statements by code, with their signal words and pictograms; not for
// deciding which of them a mixture calls for.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace dosewright {

/// One hazard (H…, EUH…) or precautionary (P…) statement.
struct Statement {
  enum class Kind { hazard, precautionary };
  std::string code;
  Kind kind = Kind::hazard;
  std::string law_text;  ///< as the law prints it, choices and blanks unresolved
  std::string pattern;   ///< ready to print, with {1} where something is filled in
  std::string default_fill;
  bool has_blank = false;
  bool blank_may_stay_empty = false;
  std::string signal;                   ///< "Danger", "Warning", "none", or "varies"
  std::vector<std::string> pictograms;  ///< GHS01 …
};

/// The tables a book is read from, each tab-separated, its first line naming the columns.
struct StatementTables {
  std::string_view codes;     ///< code, kind (H or P), signal word, pictograms
  std::string_view language;  ///< code, text of the law, text for print, default fill
  std::string_view over;      ///< rows of the same form that replace or add to it; may be empty
};

/// All statements of one edition in one language. Besides the law's codes it holds whole sentences
/// for one choice ("P280.gloves") and the signal words ("SIGNAL.danger").
class StatementBook {
 public:
  /// Gives a message with the line number when a line does not have all columns, and one when a
  /// statement has no entry among the codes.
  [[nodiscard]] static std::variant<StatementBook, std::string> from_tables(
      const StatementTables& tables);

  [[nodiscard]] const Statement* find(std::string_view code) const;
  [[nodiscard]] const std::vector<Statement>& all() const { return statements_; }
  /// The law's own codes, without the sentences for single choices.
  [[nodiscard]] std::vector<std::string> codes() const;
  /// "vapour" becomes "vapor", as the statements of the United States have it.
  void spell_as_in_the_united_states();

 private:
  std::vector<Statement> statements_;
};

/// "p305 + p351+P338" as "P305+P351+P338". Letters behind the number, as in H360Fd, keep their
/// case.
[[nodiscard]] std::string normalised_code(std::string_view code);

/// The statement ready to print. `fill` goes into the blank; empty takes the default. Nothing when
/// the blank has neither, or when one of two blanks ("50 kg / 30 °C") is missing: such a statement
/// must never be printed.
[[nodiscard]] std::optional<std::string> sentence(const Statement& statement,
                                                  std::string_view fill);

}  // namespace dosewright
