// Skin and eyes: sums of ingredients over their limits (CLP Annex I, Tables 3.2.3, 3.2.4, 3.3.3 and
// 3.3.4), and extreme pH.
#include <algorithm>
#include <functional>
#include <optional>

#include "classifier.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// Percentages from which on ingredients without limits of their own count for an outcome.
struct Generic {
  double severe;          // corrosive, or damaging the eyes
  double mild_of_mild;    // irritant ingredients, for irritation
  double mild_of_severe;  // severe ingredients, for irritation: "10 x severe + mild >= 10"
};

// Acids, bases, salts, aldehydes, phenols and surfactants may not add up: Tables 3.2.4 and 3.3.4.
Generic skin_limits(bool conservative) {
  return conservative ? Generic{1, 3, 1} : Generic{5, 10, 1};
}
Generic eye_limits(bool conservative) {
  return conservative ? Generic{1, 3, 1} : Generic{3, 10, 1};
}

using LimitOf = std::function<std::optional<double>(const HazardPart&)>;

// The lowest start of the bands that give one of the statements; with a least severity of category.
std::optional<double> lowest_band(const HazardPart& part, Endpoint endpoint,
                                  const std::string& statement, int least_severity = 0) {
  std::optional<double> out;
  for (const LimitBand& band : part.known->limits) {
    const bool right = band.gives.endpoint == endpoint && band.gives.statement == statement &&
                       severity(band.gives.name) >= least_severity;
    if (right && (!out || percent(band.from) < *out)) out = percent(band.from);
  }
  return out;
}

bool is_listed(const HazardPart& part, Endpoint endpoint, const std::string& statement,
               int least_severity = 0) {
  return std::any_of(part.known->classes.begin(), part.known->classes.end(),
                     [&](const HazardClass& c) {
                       return c.endpoint == endpoint && c.statement == statement &&
                              severity(c.name) >= least_severity;
                     });
}

// From here on an ingredient is relevant at all: 1 %, or its lowest limit for any category of the
// class (CLP Annex I, 1.1.2.2.2 and Table 1.1).
double cut_off(const HazardPart& part, Endpoint endpoint) {
  double out = 1;
  for (const LimitBand& band : part.known->limits) {
    if (band.gives.endpoint == endpoint) out = std::min(out, percent(band.from));
  }
  return out;
}

// Sum of C / L over the ingredients that have a limit and reach the cut-off. With `adding` off, the
// largest alone.
RuleStep ratio_step(const Classifying& work, Endpoint endpoint, const LimitOf& limit_of,
                    bool adding) {
  RuleStep step;
  step.endpoint = endpoint;
  step.limit = 1;
  for (const HazardPart& part : work.mixture.parts) {
    const auto limit = limit_of(part);
    if (!limit || !reaches(percent(part.most), std::min(*limit, cut_off(part, endpoint)))) continue;
    const double ratio = percent(part.most) / *limit;
    step.sum = adding ? step.sum + ratio : std::max(step.sum, ratio);
    count_in(step, part, percent_figure(*limit));
  }
  step.met = reaches(step.sum, 1);
  return step;
}

void keep(const Classifying& work, RuleStep step, Phrases rule, std::string source,
          const std::string& name, const std::string& statement) {
  step.rule = std::move(rule);
  step.source = std::move(source);
  step.gives = name + ' ' + statement;
  if (step.met) work.out.classes.push_back({step.endpoint, name, statement, ""});
  if (!step.figures.empty()) work.out.steps.push_back(std::move(step));
}

// "skin corrosive ingredients, sum of C / limit".
Phrases in_a_way(const char* ingredients, bool conservative) {
  return {{ingredients, {}},
          {conservative ? ", the largest of C / limit (non-additive)" : ", sum of C / limit", {}}};
}

// --- skin

std::optional<double> corrosive_limit(const HazardPart& part, int least_severity,
                                      const Generic& generic) {
  const bool banded = lowest_band(part, Endpoint::skin, "H314").has_value();
  if (banded) return lowest_band(part, Endpoint::skin, "H314", least_severity);
  if (is_listed(part, Endpoint::skin, "H314", least_severity)) return generic.severe;
  return std::nullopt;
}

std::optional<double> irritant_limit(const HazardPart& part, const Generic& generic) {
  if (const auto band = lowest_band(part, Endpoint::skin, "H315")) return band;
  if (is_listed(part, Endpoint::skin, "H314")) return generic.mild_of_severe;
  if (is_listed(part, Endpoint::skin, "H315")) return generic.mild_of_mild;
  return std::nullopt;
}

std::string skin_table(bool conservative) {
  return conservative ? "CLP Annex I, Table 3.2.4" : "CLP Annex I, Table 3.2.3";
}

bool counts_without_category(const Classifying& work, const Generic& generic) {
  return std::any_of(
      work.mixture.parts.begin(), work.mixture.parts.end(), [&](const HazardPart& part) {
        const HazardClass* listed = class_of(part, Endpoint::skin);
        const bool plain = listed != nullptr && listed->name == "Skin Corr. 1";
        const auto limit = corrosive_limit(part, 0, generic);
        return plain && limit &&
               reaches(percent(part.most), std::min(*limit, cut_off(part, Endpoint::skin)));
      });
}

bool corrosive(const Classifying& work, const Generic& generic) {
  // 1A, then 1B with it, then 1C with both; what is left without a sub-category is plain 1.
  for (const char* name : {"Skin Corr. 1A", "Skin Corr. 1B", "Skin Corr. 1C", "Skin Corr. 1"}) {
    const int least = severity(name);
    const RuleStep step = ratio_step(
        work, Endpoint::skin,
        [&](const HazardPart& part) { return corrosive_limit(part, least, generic); },
        !work.conservative);
    // The weaker sub-categories only say something when they are met, or when none is.
    const bool last = least == 0;
    if (!step.met && !last) continue;
    // One that nobody has put into a sub-category leaves the mixture without one (Table 3.2.3, note
    // 1, from memory).
    if (!last && counts_without_category(work, generic)) continue;
    keep(work, step, in_a_way("skin corrosive ingredients", work.conservative),
         skin_table(work.conservative), name, "H314");
    if (step.met) return true;
  }
  return false;
}

// UN GHS Table 3.2.3 for category 3, from memory: mild irritation from a tenth of the limits on.
std::optional<double> mild_limit(const HazardPart& part, const Generic& generic) {
  if (is_listed(part, Endpoint::skin, "H316")) return 10;
  const auto irritant = irritant_limit(part, generic);
  if (!irritant) return std::nullopt;
  return std::max(1.0, *irritant / 10);
}

// --- eyes

// An ingredient that damages eyes, by itself or because it corrodes skin, counts once.
std::optional<double> damage_limit(const HazardPart& part, const Generic& generic) {
  if (const auto band = lowest_band(part, Endpoint::eye, "H318")) return band;
  // Bands of irritation with an upper end: beyond it the eye is damaged.
  for (const LimitBand& band : part.known->limits) {
    if (band.gives.endpoint == Endpoint::eye && band.gives.statement != "H318" && band.below)
      return percent(*band.below);
  }
  if (is_listed(part, Endpoint::eye, "H318") || is_listed(part, Endpoint::skin, "H314"))
    return generic.severe;
  return std::nullopt;
}

bool irritates_eyes(const HazardPart& part) {
  return is_listed(part, Endpoint::eye, "H319") || is_listed(part, Endpoint::eye, "H320");
}

std::optional<double> eye_irritant_limit(const HazardPart& part, const Generic& generic) {
  for (const char* statement : {"H319", "H320"}) {
    if (const auto band = lowest_band(part, Endpoint::eye, statement)) return band;
  }
  if (is_listed(part, Endpoint::eye, "H318") || is_listed(part, Endpoint::skin, "H314"))
    return generic.mild_of_severe;
  if (irritates_eyes(part)) return generic.mild_of_mild;
  return std::nullopt;
}

std::string eye_table(bool conservative) {
  return conservative ? "CLP Annex I, Table 3.3.4" : "CLP Annex I, Table 3.3.3";
}

// Only ingredients of category 2B give 2B.
bool only_2b(const Classifying& work) {
  return std::all_of(work.mixture.parts.begin(), work.mixture.parts.end(),
                     [](const HazardPart& part) {
                       const bool severe = is_listed(part, Endpoint::eye, "H318") ||
                                           is_listed(part, Endpoint::eye, "H319") ||
                                           is_listed(part, Endpoint::skin, "H314");
                       return !severe;
                     });
}

// --- pH

bool is_extreme(double ph) { return ph <= 2 + kLimitSlack || ph >= 11.5 - kLimitSlack; }

// Where none is known as an acid or a base: those that harm skin or eyes at all, else everything
// that somebody has not said to be inert.
void count_the_likely(const Classifying& work, RuleStep& step) {
  for (const HazardPart& part : work.mixture.parts) {
    if (class_of(part, Endpoint::skin) != nullptr || class_of(part, Endpoint::eye) != nullptr)
      step.counted.push_back(part.name);
  }
  if (!step.counted.empty()) return;
  for (const HazardPart& part : work.mixture.parts) {
    // Water has no source of its classification.
    const bool inert =
        part.known->state == Classification::State::not_classified && part.known->source.empty();
    if (!inert) step.counted.push_back(part.name);
  }
}

// A limit of the entry itself may give a milder class than the pH.
void note_milder_limits(const Classifying& work) {
  std::vector<std::string> names;
  for (const HazardPart& part : work.mixture.parts) {
    if (has_limits(part, Endpoint::skin)) names.push_back(part.name);
  }
  if (names.empty()) return;
  Phrase words{
      "the pH goes before the limits of {1}, which may give a milder class: that is the safe side",
      {list_of(names)}};
  const bool said = std::any_of(work.out.notes.begin(), work.out.notes.end(),
                                [&](const Phrase& one) { return one.pattern == words.pattern; });
  if (!said) work.out.notes.push_back(std::move(words));
}

RuleStep ph_step(const Classifying& work, Endpoint endpoint) {
  RuleStep step;
  step.endpoint = endpoint;
  step.sum = *work.mixture.ph;
  step.limit = step.sum <= 7 ? 2 : 11.5;
  step.at_most = step.sum <= 7;
  step.unit = "pH";
  step.met = is_extreme(step.sum);
  step.figures = {{"pH {1}", {figure(step.sum, 2)}}};
  // What makes it so must be named on the label.
  for (const HazardPart& part : work.mixture.parts) {
    const bool strong =
        is_listed(part, Endpoint::skin, "H314") || (step.at_most ? part.acid : part.base);
    if (strong) step.counted.push_back(part.name);
  }
  if (step.counted.empty()) count_the_likely(work, step);
  return step;
}

// True when the pH decides by itself.
bool decided_by_ph(const Classifying& work, Endpoint endpoint) {
  if (!work.mixture.ph) return false;
  const bool skin = endpoint == Endpoint::skin;
  const RuleStep step = ph_step(work, endpoint);
  keep(work, step, {{"pH of the solution, at most {1} or at least {2}", {"2", "11.5"}}},
       skin ? "CLP Annex I, 3.2.3.1.2" : "CLP Annex I, 3.3.3.1.2",
       skin ? "Skin Corr. 1" : "Eye Dam. 1", skin ? "H314" : "H318");
  if (step.met && skin && !is_tested(work.mixture, endpoint)) note_milder_limits(work);
  return step.met;
}

bool any_listed(const Classifying& work, Endpoint endpoint) {
  return std::any_of(work.mixture.parts.begin(), work.mixture.parts.end(),
                     [&](const HazardPart& part) {
                       return class_of(part, endpoint) != nullptr || has_limits(part, endpoint);
                     });
}

}  // namespace

void classify_skin(const Classifying& work) {
  if (!any_listed(work, Endpoint::skin) && !work.mixture.ph)
    work.out.without.push_back(Endpoint::skin);
  const Generic generic = skin_limits(work.conservative);
  // The sum goes first where it says corrosive: it knows the sub-category.
  const bool by_sum = corrosive(work, generic);
  if (by_sum || decided_by_ph(work, Endpoint::skin)) return;
  const RuleStep irritant = ratio_step(
      work, Endpoint::skin, [&](const HazardPart& part) { return irritant_limit(part, generic); },
      !work.conservative);
  keep(work, irritant, in_a_way("skin irritant and corrosive ingredients", work.conservative),
       skin_table(work.conservative), "Skin Irrit. 2", "H315");
  if (irritant.met || !work.book.skin_3) return;
  const RuleStep mild = ratio_step(
      work, Endpoint::skin, [&](const HazardPart& part) { return mild_limit(part, generic); },
      !work.conservative);
  keep(work, mild, in_a_way("mildly irritant ingredients", work.conservative),
       "UN GHS Table 3.2.3, from memory", "Skin Irrit. 3", "H316");
}

void classify_eye(const Classifying& work) {
  const bool corrosive_mixture =
      std::any_of(work.out.classes.begin(), work.out.classes.end(),
                  [](const HazardClass& c) { return c.statement == "H314"; });
  if (!any_listed(work, Endpoint::eye) && !any_listed(work, Endpoint::skin) && !work.mixture.ph)
    work.out.without.push_back(Endpoint::eye);
  if (decided_by_ph(work, Endpoint::eye)) return;
  const Generic generic = eye_limits(work.conservative);
  RuleStep damage = ratio_step(
      work, Endpoint::eye, [&](const HazardPart& part) { return damage_limit(part, generic); },
      !work.conservative);
  // What corrodes the skin damages the eyes (3.3.2.1.2.2), whatever the sum says.
  if (corrosive_mixture && !damage.met) {
    damage.met = true;
    if (!damage.figures.empty()) damage.figures.push_back({"; ", {}});
    damage.figures.push_back({"skin corrosive", {}});
  }
  keep(work, damage, in_a_way("eye damaging and skin corrosive ingredients", work.conservative),
       eye_table(work.conservative), "Eye Dam. 1", "H318");
  if (damage.met) return;
  const RuleStep irritant = ratio_step(
      work, Endpoint::eye,
      [&](const HazardPart& part) { return eye_irritant_limit(part, generic); },
      !work.conservative);
  std::string name = "Eye Irrit. 2";
  std::string statement = "H319";
  if (work.book.eye_split) {
    name = only_2b(work) ? "Eye Irrit. 2B" : "Eye Irrit. 2A";
    statement = only_2b(work) ? "H320" : "H319";
  }
  keep(work, irritant,
       in_a_way("eye irritant, eye damaging and skin corrosive ingredients", work.conservative),
       eye_table(work.conservative), name, statement);
}

}  // namespace dosewright
