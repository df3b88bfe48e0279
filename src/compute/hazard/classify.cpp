#include "dosewright/hazard/classify.hpp"

#include <algorithm>
#include <cmath>

#include "classifier.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// Parts of the same id are one ingredient: a sensitiser split over two tubs is still all there.
std::vector<HazardPart> merged(const std::vector<HazardPart>& parts) {
  std::vector<HazardPart> out;
  for (const HazardPart& part : parts) {
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const HazardPart& p) { return p.id == part.id; });
    if (same == out.end()) {
      out.push_back(part);
      continue;
    }
    same->least = same->least + part.least;
    same->most = std::min(same->most + part.most, share(1));
  }
  return out;
}

void name_unknowns(const Classifying& work) {
  for (const HazardPart& part : work.mixture.parts) {
    if (part.known->state == Classification::State::unknown)
      work.out.unclassified.push_back(part.name);
  }
}

// Liquids that burn or feed a fire may still do so diluted; what is true of a solid is not true of
// its solution.
bool may_still_burn(const HazardClass& listed) {
  for (const char* kind : {"Flam. Liq.", "Ox. Liq.", "Pyr. Liq.", "Self-react.", "Org. Perox."}) {
    if (listed.name.starts_with(kind)) return true;
  }
  return false;
}

// A mixture has one category of each kind of physical hazard. The lower category, or the earlier
// letter, is the graver.
std::optional<HazardClass> keep_physical(std::vector<HazardClass>& classes,
                                         const HazardClass& least) {
  const std::string kind = kind_of(least.name);
  for (const HazardClass& one : classes) {
    if (kind_of(one.name) == kind && category_of(one.name) <= category_of(least.name)) return {};
  }
  std::erase_if(classes, [&](const HazardClass& one) { return kind_of(one.name) == kind; });
  classes.push_back(least);
  return least;
}

// Physical classes: a band of the ingredient may say; else those of a solid do not carry over to
// its solution and cannot be calculated (CLP Annex I, part 2: tests on the mixture as supplied).
void classify_physical(const Classifying& work) {
  Phrases carried;
  for (const HazardPart& part : work.mixture.parts) {
    if (const LimitBand* band = band_of(part, Endpoint::physical)) {
      RuleStep step;
      step.endpoint = Endpoint::physical;
      step.rule = {{"own limits of {1}", {part.name}}};
      step.source = part.known->source;
      count_in(step, part);
      step.sum = percent(part.most);
      step.limit = percent(band->from);
      step.unit = "%";
      step.met = true;
      step.gives = band->gives.name + ' ' + band->gives.statement;
      work.out.steps.push_back(std::move(step));
      (void)keep_physical(work.out.classes, band->gives);
      continue;
    }
    for (const HazardClass& listed : part.known->classes) {
      if (listed.endpoint != Endpoint::physical) continue;
      const bool banded = has_limits(part, Endpoint::physical);
      const Phrase words{"{1} is {2}", {part.name, listed.name + ' ' + listed.statement}};
      // What is nearly all of one liquid burns as that does, and a powder already does with a tenth
      // of it (ours); less is for tests to say.
      const bool liquid = work.mixture.as_bought && as_ratio(part.least) >= 0.9;
      const bool powder = !work.mixture.solution && as_ratio(part.most) >= 0.1;
      const bool itself = work.mixture.as_supplied || liquid || powder;
      if (itself && !banded) {
        (void)keep_physical(work.out.classes, listed);
        if (!work.mixture.as_supplied && as_ratio(part.least) < 0.9)
          work.out.notes.push_back({"{1} is carried over from {2}; only tests find it",
                                    {listed.name + ' ' + listed.statement, part.name}});
      } else {
        carried.push_back(words);
        // Below the limits of its entry it has no such class.
        const bool may_burn = may_still_burn(listed) || !work.mixture.solution;
        if (may_burn && !banded && reaches(percent(part.most), 1))
          work.out.may_burn.push_back(words);
      }
    }
  }
  const bool nothing_open = !work.mixture.solution && carried.empty();
  if (nothing_open || work.mixture.as_supplied || is_tested(work.mixture, Endpoint::physical)) {
    work.out.may_burn.clear();
    return;
  }
  work.out.physical_open = true;
  Phrases open = {
      {work.mixture.solution
           ? "physical hazards of the solution: they are found by tests, not by calculation"
           : "physical hazards of the mixture: they are found by tests, not by calculation",
       {}}};
  for (const Phrase& one : carried) {
    open.push_back({open.size() == 1 ? "; undiluted, " : "; ", {}});
    open.push_back(one);
  }
  work.out.not_evaluated.push_back(std::move(open));
}

// Strong acids and bases corrode below every limit of the sums; only the pH tells.
void mind_the_ph(const Classifying& work) {
  const bool tested =
      is_tested(work.mixture, Endpoint::skin) && is_tested(work.mixture, Endpoint::eye);
  if (work.mixture.ph || !work.mixture.solution || tested) return;
  work.out.ph_open = true;
  std::vector<std::string> names;
  for (const HazardPart& part : work.mixture.parts) {
    if (part.acid || part.base) names.push_back(part.name);
  }
  Phrases open = {{"extreme pH, because the pH is not stated", {}}};
  if (!names.empty()) open.push_back({"; {1} can make it extreme", {list_of(names)}});
  work.out.not_evaluated.push_back(std::move(open));
}

// What somebody states of an endpoint, in place of a sum.
void note_stated(const Classifying& work, Endpoint endpoint, const char* rule, const char* source,
                 const std::optional<HazardClass>& gives) {
  RuleStep step;
  step.endpoint = endpoint;
  step.rule = {{rule, {}}};
  step.source = source;
  step.figures = {{"as the description states", {}}};
  step.tested = true;
  step.met = gives.has_value();
  step.gives = gives ? gives->name + ' ' + gives->statement : "no class";
  work.out.steps.push_back(std::move(step));
}

// What a test of the mixture itself has shown goes before the calculation (CLP Article 9).
void put_tests_first(const Classifying& work) {
  for (const TestedEndpoint& test : work.mixture.tested) {
    std::erase_if(work.out.classes,
                  [&](const HazardClass& c) { return c.endpoint == test.endpoint; });
    note_stated(work, test.endpoint,
                "tested on the solution itself; this goes before the calculation", "CLP Article 9",
                test.gives);
    if (test.gives) work.out.classes.push_back(*test.gives);
  }
}

// Two effects are no repetition: what is known otherwise and what is calculated are put together.
std::optional<HazardClass> keep_effects(std::vector<HazardClass>& classes,
                                        const HazardClass& least) {
  std::vector<HazardClass> all = {least};
  for (const HazardClass& one : classes) {
    if (one.endpoint == Endpoint::reproduction) all.push_back(one);
  }
  const HazardClass joined = joined_effects(all);
  const bool there = all.size() == 2 && joined.statement == all[1].statement;
  if (there) return {};
  std::erase_if(classes,
                [](const HazardClass& one) { return one.endpoint == Endpoint::reproduction; });
  classes.push_back(joined);
  return joined;
}

bool names_organs(Endpoint endpoint) {
  return endpoint == Endpoint::single_exposure || endpoint == Endpoint::repeated_exposure;
}

// Organs of two sources stand together, each in the graver of its categories (CLP Annex I, Tables
// 3.8.4 and 3.9.5: all organs affected). One that names none speaks of all.
std::optional<HazardClass> keep_organs(std::vector<HazardClass>& classes, HazardClass least) {
  std::vector<std::string> organs = without_routes(named_in(least.fill));
  for (const HazardClass& one : classes) {
    if (one.endpoint != least.endpoint || one.statement > least.statement) continue;
    if (one.fill.empty()) return {};
    const std::vector<std::string> there = without_routes(named_in(one.fill));
    std::erase_if(organs, [&](const std::string& organ) { return among(there, organ); });
  }
  if (organs.empty()) return {};
  for (HazardClass& one : classes) {
    if (one.endpoint != least.endpoint || one.statement < least.statement) continue;
    std::vector<std::string> there = without_routes(named_in(one.fill));
    if (one.statement == least.statement) {
      there.insert(there.end(), organs.begin(), organs.end());
      one.fill = all_of(there);
      return one;
    }
    // The milder one keeps what the graver does not name.
    std::erase_if(there, [&](const std::string& organ) { return among(organs, organ); });
    one.fill = all_of(there);
  }
  std::erase_if(classes, [&](const HazardClass& one) {
    return one.endpoint == least.endpoint && one.statement > least.statement && one.fill.empty();
  });
  least.fill = all_of(organs);
  classes.push_back(least);
  return least;
}

// Adds a class unless one as grave is there: within an endpoint the lower number of two statements
// is the graver one, then the category. Gives what it added.
std::optional<HazardClass> keep_least(std::vector<HazardClass>& classes, const HazardClass& least) {
  if (least.endpoint == Endpoint::reproduction) return keep_effects(classes, least);
  if (least.endpoint == Endpoint::physical) return keep_physical(classes, least);
  if (names_organs(least.endpoint) && !least.fill.empty()) return keep_organs(classes, least);
  const auto milder = [&](const HazardClass& c) {
    const bool by_category =
        c.statement == least.statement && severity(c.name) < severity(least.name);
    return c.endpoint == least.endpoint && (c.statement > least.statement || by_category);
  };
  const bool there = std::any_of(classes.begin(), classes.end(), [&](const HazardClass& c) {
    return c.endpoint == least.endpoint && !milder(c);
  });
  if (there) return {};
  std::erase_if(classes, milder);
  classes.push_back(least);
  return least;
}

// What is known of a weaker mixture holds for this one, unless the calculation finds it graver.
void keep_at_least(const Classifying& work) {
  for (const HazardClass& least : work.mixture.least) {
    if (least.endpoint == Endpoint::supplement) {
      work.out.supplements.push_back(least);
      continue;
    }
    if (const auto added = keep_least(work.out.classes, least))
      note_stated(work, least.endpoint, "stated of a weaker solution; this one is not milder",
                  "the description", added);
  }
}

// Non-additive limits are for what harms more than its sum says; they never excuse what the sum
// says. H314 before H315, H318 before H319: the lower number is the graver one.
void worse_of_both(const Classifying& work, void (*rule)(const Classifying&), Endpoint endpoint) {
  if (!work.conservative) {
    rule(work);
    return;
  }
  MixtureClasses other = work.out;
  rule(work);
  const std::size_t steps = other.steps.size();
  rule({work.mixture, work.book, false, other});
  const auto same = [&](const HazardClass& c) { return c.endpoint == endpoint; };
  const auto mine = std::find_if(work.out.classes.begin(), work.out.classes.end(), same);
  const auto theirs = std::find_if(other.classes.begin(), other.classes.end(), same);
  if (theirs == other.classes.end()) return;
  if (mine != work.out.classes.end() && mine->statement <= theirs->statement) return;
  std::erase_if(work.out.classes, same);
  work.out.classes.push_back(*theirs);
  for (std::size_t i = steps; i < other.steps.size(); ++i) {
    if (other.steps[i].met) work.out.steps.push_back(other.steps[i]);
  }
}

}  // namespace

bool is_tested(const HazardMixture& mixture, Endpoint endpoint) {
  return std::any_of(mixture.tested.begin(), mixture.tested.end(),
                     [&](const TestedEndpoint& t) { return t.endpoint == endpoint; });
}

std::string percent_figure(double value) { return significant_figure(value, 3) + " %"; }

void count_in(RuleStep& step, const HazardPart& part, const std::string& over) {
  if (!step.figures.empty()) step.figures.push_back({" + ", {}});
  step.figures.push_back({"{1} {2}", {part.name, percent_figure(percent(part.most))}});
  if (!over.empty()) step.figures.push_back({" / {1}", {over}});
  step.counted.push_back(part.name);
}

const HazardClass* class_of(const HazardPart& part, Endpoint endpoint) {
  const HazardClass* out = nullptr;
  for (const HazardClass& listed : part.known->classes) {
    if (listed.endpoint != endpoint) continue;
    if (out == nullptr || severity(listed.name) > severity(out->name)) out = &listed;
  }
  return out;
}

bool has_limits(const HazardPart& part, Endpoint endpoint) {
  return std::any_of(part.known->limits.begin(), part.known->limits.end(),
                     [&](const LimitBand& band) { return band.gives.endpoint == endpoint; });
}

const LimitBand* band_of(const HazardPart& part, Endpoint endpoint) {
  const LimitBand* worst = nullptr;
  for (const LimitBand& band : part.known->limits) {
    // Where the share is known within bounds alone, any of it may be in the band.
    const bool above = band.below && reaches(percent(part.least), percent(*band.below));
    const bool within = reaches(percent(part.most), percent(band.from)) && !above;
    if (band.gives.endpoint != endpoint || !within) continue;
    if (worst == nullptr || severity(band.gives.name) > severity(worst->gives.name)) worst = &band;
  }
  return worst;
}

int severity(const std::string& name) {
  const std::string category = category_of(name);
  if (category.empty()) return 0;
  // A digit counts most, lowest first; then the letter: 1A, 1B, 1C, 1, 2A, 2B, 2 …
  const int digit = 9 - (category.front() - '0');
  int letter = 0;
  if (category.size() > 1) letter = 'D' - category[1];
  // Skin corrosion and eye damage stand above irritation by name.
  return name.starts_with("Skin Corr.") && category == "1" ? 0 : digit * 10 + letter;
}

// Annex VI is European law. HazCom lets a classifier depart from its own limits on data about the
// ingredient (Appendix A, A.0.4.3, from memory).
void note_foreign_limits(const Classifying& work) {
  if (work.book.name != RuleBookName::us_hazcom) return;
  std::vector<std::string> names;
  for (const HazardPart& part : work.mixture.parts) {
    if (!part.known->limits.empty()) names.push_back(part.name);
  }
  if (!names.empty())
    work.out.notes.push_back(
        {"the specific limits of {1} are those of the entry or data sheet it was taken from, not "
         "of "
         "HazCom; they stand for data on the ingredient",
         {list_of(names)}});
}

namespace {

void classify_health(const Classifying& work) {
  worse_of_both(work, classify_skin, Endpoint::skin);
  worse_of_both(work, classify_eye, Endpoint::eye);
  classify_single(work);
  classify_additive_effects(work);
}

// The limits of the entries are European law: HazCom's own hold too, and what is graver counts.
void classify_without_limits(const Classifying& work) {
  HazardMixture bare = work.mixture;
  std::vector<Classification> known;
  known.reserve(bare.parts.size());
  for (HazardPart& part : bare.parts) {
    known.push_back(*part.known);
    known.back().limits.clear();
    part.known = &known.back();
  }
  MixtureClasses other;
  classify_health({bare, work.book, work.conservative, other});
  for (const HazardClass& one : other.classes) {
    const auto as_grave = [&](const HazardClass& mine) {
      return mine.endpoint == one.endpoint && severity(mine.name) >= severity(one.name);
    };
    auto& classes = work.out.classes;
    if (std::any_of(classes.begin(), classes.end(), as_grave)) continue;
    std::erase_if(classes, [&](const HazardClass& c) { return c.endpoint == one.endpoint; });
    classes.push_back(one);
    for (const RuleStep& step : other.steps) {
      if (step.met && step.endpoint == one.endpoint) work.out.steps.push_back(step);
    }
  }
}

// The chapters of the UN's book, and the sections of HazCom's Appendix A, in which the rules of an
// endpoint stand (UN GHS, revision 10; 29 CFR 1910.1200 from memory).
std::string chapter_of(Endpoint endpoint, bool un) {
  const std::string part = un ? "3." : "A.";
  switch (endpoint) {
    case Endpoint::acute_oral:
    case Endpoint::acute_dermal:
    case Endpoint::acute_inhalation:
      return part + '1';
    case Endpoint::skin:
      return part + '2';
    case Endpoint::eye:
      return part + '3';
    case Endpoint::respiratory_sensitisation:
    case Endpoint::skin_sensitisation:
      return part + '4';
    case Endpoint::mutagenicity:
      return part + '5';
    case Endpoint::carcinogenicity:
      return part + '6';
    case Endpoint::reproduction:
    case Endpoint::lactation:
      return part + '7';
    case Endpoint::single_exposure:
    case Endpoint::airway_irritation:
    case Endpoint::narcosis:
      return part + '8';
    case Endpoint::repeated_exposure:
      return part + '9';
    case Endpoint::aspiration:
      return part + "10";
    case Endpoint::ozone:
      return "4.2";
    default:
      return "4.1";
  }
}

// Where another book's rules stand: the tables of CLP are not theirs.
void cite_own_book(const Classifying& work) {
  if (!worded_by_un(work.book.name)) return;
  const bool un = work.book.name == RuleBookName::un_ghs;
  for (RuleStep& step : work.out.steps) {
    const bool test = step.source == "CLP Article 9";
    if (!test && !step.source.starts_with("CLP Annex I,")) continue;
    const std::string chapter = test ? (un ? "1.3" : "A.0") : chapter_of(step.endpoint, un);
    step.source = un ? "UN GHS, chapter " + chapter
                     : "29 CFR 1910.1200, Appendix A, " + chapter + ", from memory";
  }
}

}  // namespace

void keep_graver(MixtureClasses& found, const MixtureClasses& other) {
  for (const HazardClass& one : other.classes) (void)keep_least(found.classes, one);
  const auto words_of = [](const RuleStep& step) {
    return in_english(step.rule) + step.gives + in_english(step.figures);
  };
  for (const RuleStep& step : other.steps) {
    const bool there =
        std::any_of(found.steps.begin(), found.steps.end(),
                    [&](const RuleStep& mine) { return words_of(mine) == words_of(step); });
    if (!there) found.steps.push_back(step);
  }
  for (const HazardClass& one : other.supplements) {
    const bool there = std::any_of(
        found.supplements.begin(), found.supplements.end(), [&](const HazardClass& mine) {
          return mine.statement == one.statement && mine.fill == one.fill;
        });
    if (!there) found.supplements.push_back(one);
  }
  for (const std::string& name : other.m_open) {
    if (!among(found.m_open, name)) found.m_open.push_back(name);
  }
  for (const std::string& words : other.not_covered) {
    if (!among(found.not_covered, words)) found.not_covered.push_back(words);
  }
  // Unless it is said to burn, what is in it may make it do so.
  const bool burns =
      std::any_of(found.classes.begin(), found.classes.end(),
                  [](const HazardClass& one) { return one.endpoint == Endpoint::physical; });
  if (burns || !found.may_burn.empty()) return;
  found.may_burn = other.may_burn;
  if (!found.may_burn.empty() && !found.physical_open) {
    found.physical_open = true;
    found.not_evaluated.insert(found.not_evaluated.end(), other.not_evaluated.begin(),
                               other.not_evaluated.end());
  }
}

bool adds_to(const PartMember& member, Endpoint endpoint, const std::string& statement, Share of) {
  const bool acute = endpoint <= Endpoint::acute_inhalation;
  const bool sums = acute || endpoint == Endpoint::skin || endpoint == Endpoint::eye ||
                    endpoint == Endpoint::airway_irritation || endpoint == Endpoint::narcosis ||
                    endpoint == Endpoint::aspiration;
  std::optional<Share> from;
  const auto is_cause = [&](const HazardClass& one) {
    // What corrodes the skin damages the eyes as well.
    const bool here =
        one.endpoint == endpoint || (endpoint == Endpoint::eye && one.statement == "H314");
    return here && (acute || one.statement.substr(0, 4) <= statement.substr(0, 4));
  };
  for (const LimitBand& band : member.known->limits) {
    if (band.gives.endpoint == endpoint && (!from || band.from < *from)) from = band.from;
    // Some effects stand with the limits alone.
    if (is_cause(band.gives) && reaches(percent(of), percent(band.from))) return true;
  }
  for (const HazardClass& one : member.known->classes) {
    if (!is_cause(one)) continue;
    // Acute categories 1 to 3 count from 0.1 % on.
    const bool little = acute && category_of(one.name) != "4";
    const Share cut_off = from.value_or(share(sums && !little ? 0.01 : 0.001));
    if (reaches(percent(of), percent(cut_off))) return true;
  }
  return false;
}

namespace {

// Whether one list of organs names all of the other; what names none, but some must be, does not
// cover what is named.
bool covers_organs(const std::string& mine, const std::string& theirs) {
  const std::vector<std::string> have = without_routes(named_in(mine));
  const std::vector<std::string> want = without_routes(named_in(theirs));
  return std::all_of(want.begin(), want.end(),
                     [&](const std::string& organ) { return among(have, organ); });
}

}  // namespace

bool is_as_grave(const HazardClass& one, const HazardClass& other) {
  if (one.endpoint != other.endpoint || one.statement.substr(0, 4) > other.statement.substr(0, 4))
    return false;
  if (!covers_letters(one.statement, other.statement)) return false;
  if (names_organs(one.endpoint) && !covers_organs(one.fill, other.fill)) return false;
  const std::string mine = category_of(one.name);
  const std::string theirs = category_of(other.name);
  // A category without letter may be any of those with one.
  if (mine.size() != theirs.size() && mine.substr(0, 1) == theirs.substr(0, 1)) return true;
  return severity(one.name) >= severity(other.name);
}

namespace {

std::vector<Phrase> causes_in(const std::vector<PartMember>& members, Endpoint endpoint,
                              const std::string& statement, bool diluted) {
  std::vector<Phrase> out;
  for (const PartMember& member : members) {
    const auto inner = causes_in(member.members, endpoint, statement, diluted);
    out.insert(out.end(), inner.begin(), inner.end());
    const Share of = diluted ? member.most : member.undiluted;
    if (inner.empty() && adds_to(member, endpoint, statement, of)) out.push_back(member.label_name);
  }
  return out;
}

}  // namespace

std::vector<Phrase> names_for(const HazardPart& part, Endpoint endpoint,
                              const std::string& statement) {
  // A dilution can have the class by the whole's limits, with too little of each for its own: then
  // the causes are those of the mixture as bought.
  for (const bool diluted : {true, false}) {
    auto causes = causes_in(part.members, endpoint, statement, diluted);
    if (!causes.empty()) return causes;
  }
  if (!part.members.empty()) return {};
  return {part.label_name.fills.empty() ? Phrase{"{1}", {part.name}} : part.label_name};
}

MixtureClasses classify(const HazardMixture& mixture, const HazardRules& rules) {
  MixtureClasses out;
  HazardMixture whole = mixture;
  whole.parts = merged(mixture.parts);
  const RuleBook book = rule_book(rules.book);
  const Classifying work{whole, book, rules.conservative, out};
  name_unknowns(work);
  classify_physical(work);
  classify_acute(work);
  classify_health(work);
  if (book.name == RuleBookName::us_hazcom) classify_without_limits(work);
  classify_aquatic(work);
  put_tests_first(work);
  keep_at_least(work);
  classify_supplements(work);
  note_foreign_limits(work);
  mind_the_ph(work);
  cite_own_book(work);
  return out;
}

}  // namespace dosewright
