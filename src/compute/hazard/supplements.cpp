// The Union's own statements, EUH0xx and EUH2xx (CLP Annex II).
#include <algorithm>
#include <array>

#include "classifier.hpp"
#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

bool has_statement(const MixtureClasses& found, const std::string& statement) {
  return std::any_of(found.classes.begin(), found.classes.end(),
                     [&](const HazardClass& c) { return c.statement == statement; });
}

// Ours: a gas-releasing ingredient counts from 1 % on unless its entry sets a limit; the law speaks
// of "dangerous amounts" and gives no number (CLP Annex II, part 1).
constexpr double kSupplementFrom = 1;

// Those for which the law says from what on: poison to the eye, from 0.1 %; isocyanates and epoxy
// in whatever amount (the last two from memory).
struct OwnLimit {
  const char* statement;
  double from;  // %
  const char* where;
};
constexpr std::array kOwnLimits = {OwnLimit{"EUH070", 0.1, "CLP Annex II, 1.2.5"},
                                   OwnLimit{"EUH204", 0, "CLP Annex II, 2.4"},
                                   OwnLimit{"EUH205", 0, "CLP Annex II, 2.5"}};

bool has_endpoint(const MixtureClasses& found, Endpoint endpoint) {
  return std::any_of(found.classes.begin(), found.classes.end(),
                     [&](const HazardClass& c) { return c.endpoint == endpoint; });
}

// What the classes of the mixture make superfluous.
bool is_due(const Classifying& work, const HazardPart& part, const HazardClass& listed) {
  // Annex II, 1.2.6: in addition to poison by breathing, or to corrosion.
  const bool corrodes = has_statement(work.out, "H314");
  if (listed.statement == "EUH071" && !corrodes &&
      !has_endpoint(work.out, Endpoint::acute_inhalation)) {
    const bool open = !work.out.mist_open.empty();
    work.out.notes.push_back(
        {open ? "EUH071 of {1} is left away: the mixture is not corrosive, and its mist was not "
                "evaluated"
              : "EUH071 of {1} is left away: the mixture is neither corrosive nor toxic if inhaled",
         {part.name}});
    return false;
  }
  // Annex II, 1.2.4: for what does not irritate the skin by its classes.
  if (listed.statement == "EUH066" && (corrodes || has_statement(work.out, "H315"))) {
    work.out.notes.push_back(
        {"EUH066 of {1} is left away: the mixture has a class for its effect on the skin",
         {part.name}});
    return false;
  }
  return true;
}

void supplement_of(const Classifying& work, const HazardPart& part, const HazardClass& listed) {
  if (!is_due(work, part, listed)) return;
  // Annex II, 1.1 and 1.2, speak of what meets water; this is in it already.
  const bool of_water = listed.statement == "EUH014" || listed.statement == "EUH029";
  if (of_water && work.mixture.solution && !work.mixture.as_supplied) {
    work.out.notes.push_back(
        {"{1} of {2} is left away: it is dissolved in water", {listed.statement, part.name}});
    return;
  }
  double limit = kSupplementFrom;
  std::string source = "CLP Annex II, part 1; from 1 % on by our own rule";
  for (const auto& [statement, from, where] : kOwnLimits) {
    if (listed.statement != statement) continue;
    limit = from;
    source = where;
  }
  for (const LimitBand& band : part.known->limits) {
    if (band.gives.statement != listed.statement) continue;
    limit = percent(band.from);
    source = part.known->source;
  }
  RuleStep step;
  step.endpoint = Endpoint::supplement;
  step.rule = {{"ingredients with {1}", {listed.statement}}};
  step.source = source;
  count_in(step, part);
  step.sum = percent(part.most);
  step.limit = limit;
  step.unit = "%";
  step.met = reaches(step.sum, limit);
  step.gives = listed.statement;
  const bool again =
      std::any_of(work.out.supplements.begin(), work.out.supplements.end(),
                  [&](const HazardClass& c) { return c.statement == listed.statement; });
  if (step.met && !again) work.out.supplements.push_back(listed);
  work.out.steps.push_back(std::move(step));
}

// What the European book would add and the others do not know.
void note_left_supplements(const Classifying& work) {
  std::vector<std::string> left;
  for (const HazardPart& part : work.mixture.parts) {
    for (const HazardClass& listed : part.known->classes) {
      if (listed.endpoint != Endpoint::supplement) continue;
      left.push_back(listed.statement + " (" + part.name + ')');
      // The label says so too, as with classes that this book does not know.
      if (reaches(percent(part.most), kSupplementFrom)) work.out.not_covered.push_back(left.back());
    }
  }
  if (!left.empty())
    work.out.notes.push_back(
        {"this rule book has no EUH statements; left away: {1}", {list_of(left)}});
}

}  // namespace

void classify_supplements(const Classifying& work) {
  if (!work.book.supplements) {
    note_left_supplements(work);
    return;
  }
  for (const HazardPart& part : work.mixture.parts) {
    for (const HazardClass& listed : part.known->classes) {
      if (listed.endpoint == Endpoint::supplement) supplement_of(work, part, listed);
    }
  }
}

}  // namespace dosewright
