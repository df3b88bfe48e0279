// The figures in which the rule books differ; not the rules themselves.
#pragma once

#include <string>
#include <vector>

#include "dosewright/model/hazards.hpp"

namespace dosewright {

/// Limits are percentages by weight. Sources: CLP Annex I (Tables 3.4.5, 3.5.2, 3.6.2, 3.7.2), UN
/// GHS chapters 3.4 to 3.7 with the stricter of the limits a competent authority may choose, and 29
/// CFR 1910.1200 Appendix A. Of the US column all but the eye split, and of CLP the sensitisation
/// and carcinogenicity limits, are from memory.
struct RuleBook {
  RuleBookName name = RuleBookName::eu_clp;
  bool acute_5 = false;          ///< acute toxicity has a category 5
  bool skin_3 = false;           ///< mild skin irritation is a category
  bool eye_split = false;        ///< eye irritation is 2A or 2B
  bool aspiration_2 = false;     ///< aspiration has a category 2
  bool environment = true;       ///< aquatic hazards are covered
  bool weak_aquatic = false;     ///< Aquatic Acute 2 and 3
  bool supplements = true;       ///< EUH statements
  bool classes_of_2023 = false;  ///< endocrine disruption, PBT and PMT: Regulation (EU) 2023/707
  bool target_organ_1 = false;   ///< STOT ingredients count from 1 % on, category 1 as category 1
  double sensitiser = 1;  ///< Resp. Sens. and Skin Sens. 1; of 1A 0.1 and of 1B 1 in all books
  double carcinogen_2 = 1;
  double reproduction_1 = 0.3;
  double reproduction_2 = 3;
  double lactation = 0.3;
};

[[nodiscard]] RuleBook rule_book(RuleBookName name);

/// Whether statements stand in the UN's English, with the spelling of the United States.
[[nodiscard]] bool worded_by_un(RuleBookName name);

/// "EU CLP, Regulation (EC) No 1272/2008", for the explanation.
[[nodiscard]] std::string rule_book_title(RuleBookName name);

/// As the description names them: "EU CLP", "GB CLP", "UN GHS", "US HazCom".
[[nodiscard]] std::vector<std::string> rule_book_names();
[[nodiscard]] RuleBookName rule_book_named(const std::string& name);

}  // namespace dosewright
