// The hazard classes by their short names, and what a label says for each; not which of them a
// mixture falls into.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "dosewright/model/hazards.hpp"
#include "dosewright/units/parse.hpp"

namespace dosewright {

/// The label elements of one class and category.
struct ClassRow {
  std::string list;  ///< "CLP", "UN" or "US": whose label elements these are
  std::string name;
  std::string bare_name;                ///< in small letters and digits alone, for comparing
  std::vector<std::string> statements;  ///< one of these goes with it
  std::string signal;                   ///< "Danger", "Warning", "none"
  std::vector<std::string> pictograms;
  std::vector<std::string> precautions;  ///< P codes of all four kinds
};

/// All classes of all rule books.
class ClassBook {
 public:
  /// Reads the tab-separated table of templates/hazard/classes.tsv. Gives a message with the line
  /// number when a line does not have all columns.
  [[nodiscard]] static std::variant<ClassBook, std::string> from_table(std::string_view table);

  /// The row of this class and statement, in the rule book's own form where it differs.
  [[nodiscard]] const ClassRow* find(std::string_view name, std::string_view statement,
                                     RuleBookName book) const;

  /// "Acute Tox. 4 H302", "Eye Dam. 1", "STOT RE 2 H373 (kidneys)", "EUH031". The statement may be
  /// left out where only one goes with the class.
  [[nodiscard]] Parsed<HazardClass> parse(std::string_view text) const;

  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::vector<ClassRow> rows_;
};

/// Which endpoint a class speaks of; STOT SE and acute toxicity need the statement to tell.
[[nodiscard]] Endpoint endpoint_of(std::string_view name, std::string_view statement);

/// "skin corrosion or irritation".
[[nodiscard]] std::string endpoint_words(Endpoint endpoint);

/// "liver, Kidneys and blood" as three, in small letters, each once.
/// Whether the letters behind a number name all that those of another one do: H360FD names what
/// H360D and H360Fd name, H360F does not; H350 names H350i, and not the other way round.
[[nodiscard]] bool covers_letters(const std::string& stated, const std::string& code);
/// Whether this is the English name of an organ as data sheets name target organs; not all.
[[nodiscard]] bool is_known_organ(const std::string& name);
[[nodiscard]] std::vector<std::string> named_in(std::string words);
/// Without routes of exposure: data sheets write "kidneys, oral", and CLP Annex III has the route
/// as a part of its own, which may be left off.
[[nodiscard]] std::vector<std::string> without_routes(std::vector<std::string> organs);

/// The category at the end of a class's name: "4", "1B".
[[nodiscard]] std::string category_of(std::string_view name);
/// What stands before it: "Ox. Sol."; the whole name when it has no category.
[[nodiscard]] std::string kind_of(std::string_view name);

}  // namespace dosewright
