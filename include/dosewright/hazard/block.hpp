// The hazard wording of one stock, ready to print; not how it is laid out.
#pragma once

#include <string>
#include <vector>

#include "dosewright/hazard/statements.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

struct HazardBlock {
  Hazards::Assessment assessment = Hazards::Assessment::not_assessed;
  std::string signal;                    ///< "Danger", "Warning" or empty
  std::vector<std::string> pictograms;   ///< GHS codes in ascending order
  std::vector<std::string> hazards;      ///< hazard statements, ready to print
  std::vector<std::string> supplements;  ///< EUH statements
  std::vector<std::string> precautions;  ///< precautionary statements
  std::vector<std::string> left_out;     ///< what the codes call for and the description overrules
  std::string basis;                     ///< where the assessment comes from; may be empty
};

/// The block for the codes a description gives. The strongest signal word of the statements counts
/// (CLP Article 20); pictograms follow the rules of precedence of CLP Article 26. Signal word and
/// pictograms that the description states itself replace what follows from the codes.
/// Precondition: every code is in `book` and its blank can be filled.
[[nodiscard]] HazardBlock hazard_block(const Hazards& hazards, const StatementBook& book);

}  // namespace dosewright
