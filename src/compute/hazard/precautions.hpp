// Which precautionary statements win a place on a label, and in which words; private to this
// folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/hazard/block.hpp"

namespace dosewright {

/// The codes chosen, in the order in which they are printed, and whether the classes call for more.
struct ChosenPrecautions {
  std::vector<std::string> codes;
  bool more = false;
};

/// About six of the codes that the classes call for.
[[nodiscard]] ChosenPrecautions chosen_precautions(const std::vector<std::string>& codes,
                                                   const std::vector<HazardClass>& classes,
                                                   const LabelFacts& facts);

/// The key of the wording that fits the classes: "P280" becomes "P280.gloves+eyes", "P260"
/// "P260.mist".
[[nodiscard]] std::string worded_precaution(const std::string& code,
                                            const std::vector<HazardClass>& classes,
                                            const LabelFacts& facts);

/// Whether hazard and precautionary statements of this class may be left away on a package of at
/// most 125 mL (CLP Annex I, 1.5.2.1.1).
[[nodiscard]] bool is_relieved_when_small(const HazardClass& found);

}  // namespace dosewright
