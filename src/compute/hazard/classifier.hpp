// The parts of a classification, one for each kind of rule; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/hazard/classes.hpp"
#include "dosewright/hazard/classify.hpp"

namespace dosewright {

/// What all rules share.
struct Classifying {
  const HazardMixture& mixture;  ///< parts of the same id are already one
  const RuleBook& book;
  bool conservative = false;
  MixtureClasses& out;
};

[[nodiscard]] inline double percent(Share part) { return as_ratio(part) * 100; }
[[nodiscard]] inline bool reaches(double value, double limit) {
  return value >= limit * (1 - kLimitSlack);
}

/// "4.77 %", to three significant figures.
[[nodiscard]] std::string percent_figure(double value);

/// Notes the ingredient in the step: "copper sulfate 4.77 %", or with what its share is divided by
/// behind it, "copper sulfate 4.77 % / 10 %".
void count_in(RuleStep& step, const HazardPart& part, const std::string& over = {});

/// The ingredient's class for an endpoint, the most severe if there are several; null if none.
[[nodiscard]] const HazardClass* class_of(const HazardPart& part, Endpoint endpoint);
/// Whether a specific concentration limit is set for this endpoint.
[[nodiscard]] bool has_limits(const HazardPart& part, Endpoint endpoint);
/// The band the ingredient's share falls into; null if none.
[[nodiscard]] const LimitBand* band_of(const HazardPart& part, Endpoint endpoint);

/// How severe the category of a class's name is: higher is worse. "1A" before "1B" before "1".
[[nodiscard]] int severity(const std::string& name);

void classify_acute(const Classifying& work);
void classify_skin(const Classifying& work);
void classify_eye(const Classifying& work);
void classify_single(const Classifying& work);            ///< sensitisers, CMR, STOT 1 and 2, ozone
void classify_additive_effects(const Classifying& work);  ///< STOT SE 3, aspiration
void classify_aquatic(const Classifying& work);
void classify_supplements(const Classifying& work);

/// Effects on fertility and on the unborn child of several classes in one, at the graver category:
/// H361f and H361d are H361fd (CLP Annex VI, 1.1.2.1.2). Precondition: at least one.
[[nodiscard]] HazardClass joined_effects(const std::vector<HazardClass>& found);

}  // namespace dosewright
