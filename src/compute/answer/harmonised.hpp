// What the law has decided about a chemical, beside what a data sheet says of it; private to this
// folder.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/hazard/rule_book.hpp"
#include "dosewright/model/hazards.hpp"

namespace dosewright {

/// A data sheet's classification, mended where it is milder than the harmonised entry.
struct Harmonised {
  Classification mended;
  /// What the sheet leaves out or weakens: "Eye Dam. 1 H318", "Aquatic Acute 1 H400 (M 10)",
  /// "Acute Tox. 4 H302 (ATE 481)", "Skin Corr. 1A H314 (≥ 5 %)". Not empty.
  std::vector<std::string> weakened;
};

/// Nothing where the sheet is nowhere milder than the entry, under rule books without such entries
/// (save where the sheet has no class at all), where the built-in entry is out of date or empty,
/// and where nothing is stated. A harmonised entry binds its supplier, with its limits, M-factors
/// and estimates (CLP Articles 4 (3) and 10).
[[nodiscard]] std::optional<Harmonised> harmonised(const Classification& stated,
                                                   const Substance& known,
                                                   const HazardRules& rules);

/// The classes and EUH statements of a solution of nothing else, at this strength.
[[nodiscard]] std::vector<HazardClass> classes_at(const Classification& known, Share strength,
                                                  const HazardRules& rules);

/// Whether harmonised entries are law under this rule book.
[[nodiscard]] bool has_harmonised_entries(RuleBookName book);

}  // namespace dosewright
