// The hazard wording of one stock, ready to print; not how it is laid out.
#pragma once

#include <string>
#include <vector>

#include "dosewright/hazard/classes.hpp"
#include "dosewright/hazard/classify.hpp"
#include "dosewright/hazard/statements.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// A statement as it is printed.
struct PrintedStatement {
  std::string code;
  std::string text;
};

struct HazardBlock {
  Hazards::Assessment assessment = Hazards::Assessment::computed;
  std::string signal;                         ///< "Danger", "Warning" or empty
  std::string signal_word;                    ///< the same in the label's language
  std::vector<std::string> pictograms;        ///< GHS codes in ascending order
  std::vector<PrintedStatement> hazards;      ///< hazard statements
  std::vector<PrintedStatement> supplements;  ///< EUH statements
  std::vector<PrintedStatement> precautions;  ///< precautionary statements
  bool more_precautions = false;              ///< the classes call for more than are chosen here
  std::vector<std::string> left_out;      ///< what the codes call for and the description overrules
  std::vector<std::string> untranslated;  ///< codes without a wording in the label's language
  std::string basis;                      ///< where the assessment comes from; may be empty

  /// What a package of at most 125 mL must still say when there is no room for all (CLP Annex I,
  /// 1.5.2.1; under other rule books nothing); signal word, pictograms and supplements stay as they
  /// are.
  std::vector<PrintedStatement> small_hazards;
  std::vector<PrintedStatement> small_precautions;
  bool may_be_shortened = false;
};

/// What the wording of a computed block depends on beside the classes.
struct LabelFacts {
  bool powder = false;   ///< dust instead of mist
  bool sprayed = false;  ///< then mist can be breathed in
  bool vapours = false;  ///< an ingredient is a gas or gives off vapour
};

/// The books a label's words come from.
struct LabelBooks {
  const StatementBook& statements;
  const ClassBook& classes;
};

/// The block for the codes a description gives. The strongest signal word of the statements counts
/// (CLP Article 20); pictograms follow the rules of precedence of CLP Article 26. Signal word and
/// pictograms that the description states itself replace what follows from the codes.
[[nodiscard]] HazardBlock hazard_block(const Hazards& hazards, const StatementBook& book);

/// The block for computed classes.
///  - Signal word: Danger before Warning (CLP Article 20).
///  - Pictograms by Article 26.
///  - Statements without repetition (Article 27): H410 stands for H400 and H411, H314 for H318,
///    H315 and H319, H318 for H319; acute toxicity of one category by several routes is one
///    sentence.
///  - At most six precautionary statements (Article 28), chosen by most_urgent_first().
[[nodiscard]] HazardBlock computed_block(const MixtureClasses& found, const LabelFacts& facts,
                                         RuleBookName rules, const LabelBooks& books);

/// The most precautionary statements on one label (CLP Article 28 (3)). "Unless necessary to
/// reflect the nature and the severity of the hazards": one more for each grave kind of hazard that
/// the six leave without a measure (fire, breathing and its first aid, a call for help, lasting
/// harm, water life).
inline constexpr std::size_t kMostPrecautions = 6;

/// Precautionary codes in the order in which they win a place on the label: protection and first
/// aid of corrosives before everything, then poisons, then what keeps exposure away, then the
/// environment and storage. The order is ours.
[[nodiscard]] const std::vector<std::string>& most_urgent_first();

/// Whether statements say this one, or the same and more (CLP Article 27): H314 says H318, H300
/// says H302.
[[nodiscard]] bool is_said_by(const std::string& code, const std::vector<std::string>& statements);

/// The pictograms left by CLP Article 26 of those that statements ask for, in ascending order.
/// `reasons` are pairs of pictogram and statement.
[[nodiscard]] std::vector<std::string> pictograms_for(
    const std::vector<std::pair<std::string, std::string>>& reasons);

}  // namespace dosewright
