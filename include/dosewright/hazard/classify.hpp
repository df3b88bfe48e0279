// Which hazard classes a mixture falls into, worked out from its ingredients; not how it is
// labelled. Every rule names the table it comes from beside its result.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/phrase.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "dosewright/model/hazards.hpp"

namespace dosewright {

/// What is known to be in a bought mixture that has classes of its own.
struct PartMember {
  Phrase label_name;
  const Classification* known = nullptr;
  Share most;       ///< of the whole
  Share undiluted;  ///< of the mixture as it was bought
  bool acid_or_base = false;
  std::vector<PartMember> members = {};  ///< when it is such a mixture itself
};

/// One ingredient, by weight.
struct HazardPart {
  std::string id;    ///< parts of the same id are one ingredient
  std::string name;  ///< as it is printed
  Share least;
  Share most;  ///< where a range is known, the upper end classifies
  const Classification* known = nullptr;
  bool acid = false;
  bool base = false;
  Phrase label_name;                                ///< by which a label names it; empty: `name`
  std::optional<Route> inhaled_as;                  ///< known better than by its classification
  std::vector<PartMember> members = {};             ///< a label names these in its stead
  std::shared_ptr<const Classification> made = {};  ///< keeps `known` alive where nothing else does
  /// As its data sheet has it, where `known` leaves some effects to what is in it; else null.
  const Classification* stated = nullptr;
  bool milder_than_law = false;  ///< its data sheet, so that the harmonised entry counts as well
  [[nodiscard]] Route state_in_air() const { return inhaled_as.value_or(known->inhaled_as); }
};

/// Everything the rules look at. Precondition: every part points to a classification, which may be
/// unknown; shares are 0 to 1.
struct HazardMixture {
  std::vector<HazardPart> parts;
  std::optional<double> ph;
  bool solution = true;  ///< dissolved in water; physical classes of the powder do not carry over
  bool as_supplied = false;  ///< one product as its data sheet classifies it; then they do
  bool as_bought = false;    ///< a product in its own tub, mixed or not
  bool sprayed = false;
  std::vector<TestedEndpoint> tested;
  std::vector<HazardClass> least;  ///< known of a weaker one; the calculation may only add to them
};

/// Whether a test of the mixture itself speaks of this endpoint.
[[nodiscard]] bool is_tested(const HazardMixture& mixture, Endpoint endpoint);

/// One rule applied: what came out, what it was held against, what follows.
struct RuleStep {
  Endpoint endpoint = Endpoint::skin;
  Phrases rule;        ///< "skin corrosive ingredients, sum of C / limit"
  std::string source;  ///< "CLP Annex I, Table 3.2.3"
  Phrases figures;     ///< "copper sulfate pentahydrate 4.77 %"
  double sum = 0;
  double limit = 0;
  std::string unit;      ///< "%", "mg/kg"; empty for a ratio
  bool at_most = false;  ///< met when the sum is at or below the limit, not at or above
  bool met = false;
  std::string gives;                 ///< "Eye Dam. 1 H318"; what it would give when it is not met
  std::vector<std::string> counted;  ///< names of the ingredients in the sum
  bool tested = false;               ///< a test of the mixture; then there is no sum
};

/// A part of the mixture of which nobody knows how toxic it is by this route.
struct UnknownToxicity {
  Endpoint endpoint = Endpoint::acute_oral;
  Share part;
};

/// What the rules say of a mixture.
struct MixtureClasses {
  std::vector<HazardClass> classes;      ///< one for each endpoint that is met; two for STOT SE 3
  std::vector<HazardClass> supplements;  ///< EUH statements with their fills
  std::vector<RuleStep> steps;
  std::vector<Endpoint> without;         ///< no ingredient is classified for these
  std::vector<UnknownToxicity> unknown;  ///< must be said on the label
  Share unknown_aquatic;                 ///< of unknown hazard to the aquatic environment
  std::vector<std::string> m_open;       ///< ingredients whose M-factor could make it graver

  std::vector<std::string> unclassified;  ///< names of ingredients nobody has classified
  std::vector<Phrases> not_evaluated;     ///< sentences without a full stop
  bool physical_open = false;             ///< physical hazards are among them
  Phrases may_burn;                       ///< then: "ethanol is Flam. Liq. 2 H225", undiluted
  bool ph_open = false;                   ///< so is an extreme pH
  Phrases mist_open;                      ///< "formaldehyde is Acute Tox. 2 H330", as mist alone
  std::vector<std::string> not_covered;   ///< classes of ingredients that this book does not know
  std::vector<Phrase> notes;              ///< assumptions made, without a full stop
};

/// Applies the rule book to the mixture.
///  - Acute toxicity: 100 / ATEmix = sum of C_i / ATE_i, with (100 - unknown) on the left when
///    ingredients of unknown toxicity exceed 10 % (CLP Annex I, 3.1.3.6).
///  - Skin, eye, airway irritation, narcosis, aspiration: sum of C_i / L_i >= 1, where L_i is the
///    ingredient's own specific limit or the generic one (CLP Annex I, Tables 3.2.3 and 3.3.3).
///  - Sensitisation, CMR, STOT 1 and 2: each ingredient by itself (Tables 3.4.5 to 3.9.4).
///  - Aquatic: summation with M-factors (Tables 4.1.1 and 4.1.2).
///  - pH <= 2 or >= 11.5: skin and eye corrosive unless tested (3.2.3.1.2, 3.3.3.1.2).
[[nodiscard]] MixtureClasses classify(const HazardMixture& mixture, const HazardRules& rules);

/// Adds the classes of the same mixture looked at in another way, and the rules that were tried: of
/// each effect the graver counts.
void keep_graver(MixtureClasses& found, const MixtureClasses& other);

/// Whether a class of the same effect is as grave as another, or graver.
[[nodiscard]] bool is_as_grave(const HazardClass& one, const HazardClass& other);

/// Whether an ingredient that is so much of a mixture is a cause of its class of this endpoint with
/// this statement: not below its cut-off (CLP Annex I, Table 1.1), nor by a milder effect, save for
/// acute toxicity.
[[nodiscard]] bool adds_to(const PartMember& member, Endpoint endpoint,
                           const std::string& statement, Share of);

/// The names by which a label names an ingredient for such a class: of a bought mixture those in it
/// that cause it; none where none is known to.
[[nodiscard]] std::vector<Phrase> names_for(const HazardPart& part, Endpoint endpoint,
                                            const std::string& statement);

/// Ingredients are kept in the sum from a limit on when they come within this of it: C >= L is
/// meant, not what is left of it after binary arithmetic.
inline constexpr double kLimitSlack = 1e-9;

/// Upper limits of the acute categories 1 to 5, in the units of the route (CLP Annex I, Table
/// 3.1.1; category 5: UN GHS Table 3.1.1).
[[nodiscard]] double acute_limit(Route route, int category);
/// The estimate that stands for a category (CLP Annex I, Table 3.1.2; category 5: UN GHS Table
/// 3.1.2, from memory).
[[nodiscard]] ToxicityEstimate converted_estimate(Route route, int category);

}  // namespace dosewright
