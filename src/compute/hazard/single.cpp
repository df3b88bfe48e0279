// Rules that look at each ingredient by itself, and the two effects that add up: sensitisers, CMR,
// specific target organs, aspiration, the ozone layer.
#include <algorithm>
#include <optional>
#include <set>

#include "classifier.hpp"
#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

// Where an endpoint's limits stand.
struct Rule {
  Endpoint endpoint;
  std::string words;
  std::string source;
};

RuleStep step_for(const Rule& rule, const HazardPart& part, double limit,
                  const std::string& gives) {
  RuleStep step;
  step.endpoint = rule.endpoint;
  step.rule = {{rule.words, {}}};
  step.source = rule.source;
  count_in(step, part);
  step.sum = percent(part.most);
  step.limit = limit;
  step.unit = "%";
  step.met = reaches(step.sum, limit);
  step.gives = gives;
  return step;
}

// The worst of what single ingredients give: the more severe category, letters put together.
class Worst {
 public:
  void add(const HazardClass& found) {
    if (!found_ || severity(found.name) > severity(found_->name)) found_ = found;
    all_.push_back(found);
  }
  [[nodiscard]] const std::optional<HazardClass>& best() const { return found_; }
  [[nodiscard]] const std::vector<HazardClass>& all() const { return all_; }

 private:
  std::optional<HazardClass> found_;
  std::vector<HazardClass> all_;
};

// Effects on fertility and the unborn child of several ingredients in one statement: capitals for
// category 1, small letters for 2. A statement without letters stands for both.
std::string reproductive_statement(const std::vector<HazardClass>& found, bool known) {
  std::set<char> letters;
  for (const HazardClass& one : found) {
    const bool both = one.statement.size() == 4;
    if (both && one.statement.starts_with("H360") == known) return one.statement;
    if (both) letters.insert({'f', 'd'});
    for (const char c : one.statement.substr(4)) letters.insert(c);
  }
  std::string out = known ? "H360" : "H361";
  for (const char upper : {'F', 'D'}) {
    const char lower = upper == 'F' ? 'f' : 'd';
    if (letters.contains(upper))
      out += upper;
    else if (letters.contains(lower))
      out += lower;
  }
  // The law knows H360Fd and H360Df, the letter of category 1 first.
  return out == "H360fD" ? "H360Df" : out;
}

// All organs that are named for a statement; none when an ingredient's is not known: then the
// sentence says "organs".
std::vector<std::string> organs_of(const std::vector<HazardClass>& found,
                                   const std::string& statement) {
  std::vector<std::string> out;
  for (const HazardClass& one : found) {
    if (one.statement != statement) continue;
    std::vector<std::string> organs = without_routes(named_in(one.fill));
    if (organs.empty()) return {};
    for (std::string& organ : organs) {
      if (!among(out, organ)) out.push_back(std::move(organ));
    }
  }
  return out;
}

bool is_sensitiser(Endpoint endpoint) {
  return endpoint == Endpoint::respiratory_sensitisation ||
         endpoint == Endpoint::skin_sensitisation;
}

void give(const Classifying& work, Endpoint endpoint, const Worst& worst) {
  if (!worst.best()) return;
  HazardClass given = *worst.best();
  // How strong a sensitiser of category 1 is, nobody has said: it may be more than 1B.
  if (category_of(given.name) == "1B" && is_sensitiser(endpoint)) {
    for (const HazardClass& one : worst.all()) {
      if (category_of(one.name) == "1") given.name = one.name;
    }
  }
  if (endpoint == Endpoint::reproduction)
    given.statement = reproductive_statement(worst.all(), given.statement.starts_with("H360"));
  given.fill = all_of(organs_of(worst.all(), given.statement));
  // Cancer by inhalation alone only if every ingredient that counts is so limited.
  if (given.statement == "H350i") {
    for (const HazardClass& one : worst.all()) {
      if (one.statement == "H350") given.statement = "H350";
    }
  }
  work.out.classes.push_back(given);
}

}  // namespace

HazardClass joined_effects(const std::vector<HazardClass>& found) {
  HazardClass out = found.front();
  for (const HazardClass& one : found) {
    if (severity(one.name) > severity(out.name)) out = one;
  }
  out.statement = reproductive_statement(found, out.statement.starts_with("H360"));
  return out;
}

namespace {

// The ingredient's own limit for the endpoint: its lowest band, else the rule book's.
double own_limit(const HazardPart& part, Endpoint endpoint, double generic) {
  std::optional<double> lowest;
  for (const LimitBand& band : part.known->limits) {
    if (band.gives.endpoint == endpoint && (!lowest || percent(band.from) < *lowest))
      lowest = percent(band.from);
  }
  return lowest.value_or(generic);
}

bool is_category(const HazardClass& found, char digit) {
  const std::string category = category_of(found.name);
  return !category.empty() && category.front() == digit;
}

// Ingredients at or above a limit give their own class.
template <class Generic>
bool each_by_itself(const Classifying& work, const Rule& rule, const Generic& generic) {
  Worst worst;
  bool any = false;
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, rule.endpoint);
    if (listed == nullptr) continue;
    any = true;
    const double limit = own_limit(part, rule.endpoint, generic(*listed));
    RuleStep step = step_for(rule, part, limit, listed->name + ' ' + listed->statement);
    if (step.met) worst.add(*listed);
    work.out.steps.push_back(std::move(step));
  }
  give(work, rule.endpoint, worst);
  if (!any) work.out.without.push_back(rule.endpoint);
  return worst.best().has_value();
}

// --- sensitisation

double sensitiser_limit(const HazardClass& listed, double generic) {
  if (category_of(listed.name) == "1B") return 1;
  return category_of(listed.name) == "1A" ? 0.1 : generic;
}

// From this share on people who are allergic already may react (Table 3.4.6); a tenth of a specific
// limit where that is lower.
double elicitation_limit(const HazardPart& part, const HazardClass& listed) {
  const double generic = category_of(listed.name) == "1A" ? 0.01 : 0.1;
  if (!has_limits(part, listed.endpoint)) return generic;
  return std::min(generic, own_limit(part, listed.endpoint, generic) / 10);
}

void sensitisers(const Classifying& work, const Rule& rule, std::set<std::string>& named) {
  each_by_itself(work, rule, [&](const HazardClass& listed) {
    return sensitiser_limit(listed, work.book.sensitiser);
  });
  if (!work.book.supplements) return;
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, rule.endpoint);
    if (listed == nullptr) continue;
    const double limit =
        own_limit(part, rule.endpoint, sensitiser_limit(*listed, work.book.sensitiser));
    if (reaches(percent(part.most), limit)) continue;  // then its name is on the label anyway
    Rule eliciting{rule.endpoint, "named for people already allergic",
                   "CLP Annex II, 2.8; Annex I, Table 3.4.6"};
    RuleStep step = step_for(eliciting, part, elicitation_limit(part, *listed), "EUH208");
    if (step.met) {
      const auto names = names_for(part, rule.endpoint, listed->statement);
      for (const Phrase& name : names) named.insert(name.fills.front());
      if (names.empty()) named.insert(part.name);
    }
    work.out.steps.push_back(std::move(step));
  }
}

// --- specific target organs, categories 1 and 2

// Another organ by another ingredient stands beside the first, though in a weaker category.
void give_weaker(const Classifying& work, Endpoint endpoint, const Worst& worst) {
  if (!worst.best()) return;
  const auto strong = organs_of(worst.all(), worst.best()->statement);
  Worst weaker;
  for (HazardClass one : worst.all()) {
    if (one.statement == worst.best()->statement || strong.empty()) continue;
    std::vector<std::string> organs = without_routes(named_in(one.fill));
    std::erase_if(organs, [&](const std::string& organ) { return among(strong, organ); });
    if (organs.empty()) continue;
    one.fill = all_of(organs);
    weaker.add(one);
  }
  give(work, endpoint, weaker);
}

void target_organs(const Classifying& work, const Rule& rule, const std::string& beginning,
                   const std::string& first, const std::string& second) {
  Worst worst;
  bool any = false;
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, rule.endpoint);
    if (listed == nullptr) continue;
    any = true;
    if (has_limits(part, rule.endpoint)) {
      const LimitBand* band = band_of(part, rule.endpoint);
      const double limit = own_limit(part, rule.endpoint, 10);
      RuleStep step = step_for(rule, part, band != nullptr ? percent(band->from) : limit,
                               band != nullptr ? band->gives.name + ' ' + band->gives.statement
                                               : beginning + " 2 " + second);
      step.met = band != nullptr;
      if (band != nullptr) worst.add(band->gives);
      work.out.steps.push_back(std::move(step));
      continue;
    }
    const bool one = is_category(*listed, '1');
    const bool full = reaches(percent(part.most), 10) || work.book.target_organ_1;
    const bool as_one = one && full;
    // HazCom, and the UN's stricter limits: both categories from 1 % on (29 CFR 1910.1200, Tables
    // A.8.2 and A.9; UN GHS Tables 3.8.2 and 3.9.3; from memory).
    const double weak = work.book.target_organ_1 ? 1 : 10;
    const double limit = one ? (full && !work.book.target_organ_1 ? 10 : 1) : weak;
    HazardClass gives = *listed;
    gives.name = beginning + (as_one ? " 1" : " 2");
    gives.statement = as_one ? first : second;
    RuleStep step = step_for(rule, part, limit, gives.name + ' ' + gives.statement);
    if (step.met) worst.add(gives);
    work.out.steps.push_back(std::move(step));
  }
  give(work, rule.endpoint, worst);
  give_weaker(work, rule.endpoint, worst);
  if (!any) work.out.without.push_back(rule.endpoint);
}

// --- classes that a rule book leaves out

// Notes the classes between two endpoints that ingredients from 0.1 % on have: the label says them,
// for "no hazard statement" would read as an all-clear.
std::vector<std::string> not_covered(const Classifying& work, Endpoint first, Endpoint last) {
  std::vector<std::string> out;
  for (const HazardPart& part : work.mixture.parts) {
    for (const HazardClass& listed : part.known->classes) {
      const bool between = listed.endpoint >= first && listed.endpoint <= last;
      if (between && reaches(percent(part.most), 0.1))
        out.push_back(listed.name + " (" + part.name + ')');
      if (between && reaches(percent(part.most), 0.1))
        work.out.not_covered.push_back(listed.statement + " (" + part.name + ')');
    }
  }
  return out;
}

// --- classes of the EU since 2023

// Endocrine disruptors from 0.1 % (category 1) and 1 % (category 2) on: CLP Annex I, Tables 3.11.2
// and 4.2.2; persistent ones from 0.1 % on, 4.3.3 and 4.4.3 (those two from memory).
void lasting_in_the_environment(const Classifying& work) {
  if (!work.book.classes_of_2023) {
    const auto left = not_covered(work, Endpoint::endocrine_health, Endpoint::vpvm);
    if (!left.empty())
      work.out.notes.push_back(
          {"this rule book does not know {1}, classes of the European Union", {list_of(left)}});
    return;
  }
  const auto endocrine = [](const HazardClass& c) { return is_category(c, '2') ? 1.0 : 0.1; };
  const auto persistent = [](const HazardClass&) { return 0.1; };
  each_by_itself(work,
                 {Endpoint::endocrine_health, "endocrine disruptors, each by itself",
                  "CLP Annex I, Table 3.11.2"},
                 endocrine);
  each_by_itself(
      work,
      {Endpoint::endocrine_environment, "endocrine disruptors in the environment, each by itself",
       "CLP Annex I, 4.2.3, from memory"},
      endocrine);
  for (const Endpoint endpoint : {Endpoint::pbt, Endpoint::vpvb}) {
    each_by_itself(work,
                   {endpoint, "persistent and bioaccumulative, each by itself",
                    "CLP Annex I, 4.3.3, from memory"},
                   persistent);
  }
  for (const Endpoint endpoint : {Endpoint::pmt, Endpoint::vpvm}) {
    each_by_itself(
        work,
        {endpoint, "persistent and mobile, each by itself", "CLP Annex I, 4.4.3, from memory"},
        persistent);
  }
}

// --- effects that add up

void add_up(const Classifying& work, const Rule& rule, double generic, double cut_off,
            const std::string& name, const std::string& statement) {
  RuleStep step;
  step.endpoint = rule.endpoint;
  step.rule = {{rule.words, {}}};
  step.source = rule.source;
  step.limit = 1;
  step.gives = name + ' ' + statement;
  bool any = false;
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, rule.endpoint);
    const bool banded = has_limits(part, rule.endpoint);
    if (listed == nullptr && !banded) continue;
    any = true;
    // Category 2 of aspiration does not count for category 1.
    if (!banded && listed->statement != statement) continue;
    const double limit = own_limit(part, rule.endpoint, generic);
    const bool above =
        banded && reaches(percent(part.most), limit) && band_of(part, rule.endpoint) == nullptr;
    if (above || !reaches(percent(part.most), std::min(limit, cut_off))) continue;
    step.sum += percent(part.most) / limit;
    count_in(step, part, percent_figure(limit));
  }
  if (!any && std::find(work.out.without.begin(), work.out.without.end(), rule.endpoint) ==
                  work.out.without.end())
    work.out.without.push_back(rule.endpoint);
  step.met = reaches(step.sum, 1);
  if (step.met) work.out.classes.push_back({rule.endpoint, name, statement, ""});
  if (!step.figures.empty()) work.out.steps.push_back(step);
}

}  // namespace

void classify_single(const Classifying& work) {
  std::set<std::string> named;
  sensitisers(work,
              {Endpoint::respiratory_sensitisation, "respiratory sensitisers, each by itself",
               "CLP Annex I, Table 3.4.5"},
              named);
  sensitisers(work,
              {Endpoint::skin_sensitisation, "skin sensitisers, each by itself",
               "CLP Annex I, Table 3.4.5"},
              named);
  for (const std::string& name : named)
    work.out.supplements.push_back({Endpoint::supplement, "EUH208", "EUH208", name});
  const RuleBook& book = work.book;
  each_by_itself(work,
                 {Endpoint::mutagenicity, "mutagens, each by itself", "CLP Annex I, Table 3.5.2"},
                 [](const HazardClass& c) { return is_category(c, '2') ? 1.0 : 0.1; });
  each_by_itself(
      work, {Endpoint::carcinogenicity, "carcinogens, each by itself", "CLP Annex I, Table 3.6.2"},
      [&](const HazardClass& c) { return is_category(c, '2') ? book.carcinogen_2 : 0.1; });
  each_by_itself(work,
                 {Endpoint::reproduction, "toxic for reproduction, each by itself",
                  "CLP Annex I, Table 3.7.2"},
                 [&](const HazardClass& c) {
                   return is_category(c, '2') ? book.reproduction_2 : book.reproduction_1;
                 });
  each_by_itself(work,
                 {Endpoint::lactation, "effects on or via lactation, each by itself",
                  "CLP Annex I, Table 3.7.2"},
                 [&](const HazardClass&) { return book.lactation; });
  target_organs(work,
                {Endpoint::single_exposure, "target organs, single exposure, each by itself",
                 "CLP Annex I, Table 3.8.3"},
                "STOT SE", "H370", "H371");
  target_organs(work,
                {Endpoint::repeated_exposure, "target organs, repeated exposure, each by itself",
                 "CLP Annex I, Table 3.9.4"},
                "STOT RE", "H372", "H373");
  lasting_in_the_environment(work);
  if (!book.environment) {
    (void)not_covered(work, Endpoint::aquatic_acute, Endpoint::ozone);
    return;
  }
  each_by_itself(work, {Endpoint::ozone, "the ozone layer", "CLP Annex I, Table 5.1, from memory"},
                 [](const HazardClass&) { return 0.1; });
}

void classify_additive_effects(const Classifying& work) {
  add_up(
      work,
      {Endpoint::airway_irritation, "airway irritants, sum of C / limit", "CLP Annex I, 3.8.3.4.5"},
      20, 1, "STOT SE 3", "H335");
  add_up(work, {Endpoint::narcosis, "narcotics, sum of C / limit", "CLP Annex I, 3.8.3.4.5"}, 20, 1,
         "STOT SE 3", "H336");
  const std::size_t before = work.out.classes.size();
  add_up(work, {Endpoint::aspiration, "aspiration, sum of C / limit", "CLP Annex I, 3.10.3.3"}, 10,
         1, "Asp. Tox. 1", "H304");
  // UN GHS 3.10.3.3, from memory.
  if (work.out.classes.size() == before && work.book.aspiration_2)
    add_up(work, {Endpoint::aspiration, "aspiration, sum of C / limit", "UN GHS, chapter 3.10"}, 10,
           1, "Asp. Tox. 2", "H305");
  if (work.out.classes.size() > before)
    work.out.notes.push_back(
        {"the viscosity is not known; it is taken to be low enough for aspiration", {}});
}

}  // namespace dosewright
