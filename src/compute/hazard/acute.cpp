// Acute toxicity of mixtures (CLP Annex I, 3.1.3.6).
#include <algorithm>
#include <array>
#include <cmath>

#include "classifier.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kCategories = 5;

// CLP Annex I, Table 3.1.1, and for category 5 UN GHS Table 3.1.1.
constexpr std::array<std::array<double, kCategories>, 5> kUpper = {{
    {5, 50, 300, 2000, 5000},        // oral, mg/kg
    {50, 200, 1000, 2000, 5000},     // dermal, mg/kg
    {100, 500, 2500, 20000, 20000},  // gas, ppm by volume
    {0.5, 2, 10, 20, 20},            // vapour, mg/L
    {0.05, 0.5, 1, 5, 5},            // dust and mist, mg/L
}};

// CLP Annex I, Table 3.1.2; the last column UN GHS Table 3.1.2, from memory.
constexpr std::array<std::array<double, kCategories>, 5> kConverted = {{
    {0.5, 5, 100, 500, 2500},
    {5, 50, 300, 1100, 2500},
    {10, 100, 700, 4500, 4500},
    {0.05, 0.5, 3, 11, 11},
    {0.005, 0.05, 0.5, 1.5, 1.5},
}};

std::size_t row_of(Route route) { return static_cast<std::size_t>(route); }

std::string unit_of_route(Route route) {
  if (route == Route::oral || route == Route::dermal) return "mg/kg";
  return route == Route::gas ? "ppm" : "mg/L";
}

std::string words_of_route(Route route) {
  switch (route) {
    case Route::oral:
      return "swallowed";
    case Route::dermal:
      return "on the skin";
    case Route::gas:
      return "inhaled as gas";
    case Route::vapour:
      return "inhaled as vapour";
    case Route::mist:
      return "inhaled as dust or mist";
  }
  return "";
}

Endpoint endpoint_for(Route route) {
  if (route == Route::oral) return Endpoint::acute_oral;
  return route == Route::dermal ? Endpoint::acute_dermal : Endpoint::acute_inhalation;
}

// Categories 1 and 2 share a statement: H300, H300, H301, H302, H303.
std::string statement_for(Route route, int category) {
  int base = 300;
  if (route == Route::dermal) base = 310;
  if (endpoint_for(route) == Endpoint::acute_inhalation) base = 330;
  return 'H' + std::to_string(base + std::max(0, category - 2));
}

// One route of one mixture.
class AcuteRoute {
 public:
  AcuteRoute(const Classifying& work, Route route) : work_(work), route_(route) {}

  void run() {
    for (const HazardPart& part : work_.mixture.parts) add(part);
    // Said once for inhalation, whatever the state in air.
    const bool said = route_ != Route::gas && route_ != Route::vapour;
    if (unknown_ > 0 && said)
      work_.out.unknown.push_back({endpoint_for(route_), share(unknown_ / 100)});
    if (parts_ == 0) return;
    const double left = unknown_ > 10 * (1 + kLimitSlack) ? 100 - unknown_ : 100;
    const double mixture = left / sum_;
    note_step(left, mixture);
    const int category = category_of_mixture(mixture);
    if (category == 0) return;
    work_.out.classes.push_back({endpoint_for(route_), "Acute Tox. " + std::to_string(category),
                                 statement_for(route_, category), ""});
  }

  [[nodiscard]] int relevant() const { return parts_; }

 private:
  [[nodiscard]] int last_category() const {
    return work_.book.acute_5 && (route_ == Route::oral || route_ == Route::dermal) ? 5 : 4;
  }

  [[nodiscard]] int category_for(double estimate) const {
    for (int category = 1; category <= last_category(); ++category) {
      if (estimate <= acute_limit(route_, category) * (1 + kLimitSlack)) return category;
    }
    return 0;
  }

  // The ingredient's estimate; nothing when it is not toxic by this route, or beyond the last
  // category of the rule book.
  [[nodiscard]] std::optional<double> estimate_of(const HazardPart& part) const {
    const Classification& known = *part.known;
    const bool inhaled = endpoint_for(route_) == Endpoint::acute_inhalation;
    if (const auto given = known.estimates.find(route_); given != known.estimates.end()) {
      const double value = in_route_units(given->second);
      if (category_for(value) == 0) return std::nullopt;
      return value;
    }
    if (inhaled && part.state_in_air() != route_) return std::nullopt;
    const HazardClass* listed = class_of(part, endpoint_for(route_));
    if (listed == nullptr) return std::nullopt;
    const int category = listed->name.back() - '0';
    if (category > last_category()) return std::nullopt;
    return in_route_units(converted_estimate(route_, category));
  }

  void add(const HazardPart& part) {
    const double share_percent = percent(part.most);
    if (part.known->state == Classification::State::unknown) {
      if (reaches(share_percent, 1)) unknown_ += share_percent;
      return;
    }
    const auto estimate = estimate_of(part);
    if (!estimate) return;
    // Table 1.1: categories 1 to 3 count from 0.1 %, the others from 1 %.
    const double cut_off = category_for(*estimate) <= 3 ? 0.1 : 1;
    if (!reaches(share_percent, cut_off)) return;
    ++parts_;
    const HazardClass* listed = class_of(part, endpoint_for(route_));
    const bool given = part.known->estimates.contains(route_) || listed == nullptr;
    gravest_ = std::min(gravest_, given ? category_for(*estimate) : listed->name.back() - '0');
    sum_ += share_percent / *estimate;
    count_in(step_, part, significant_figure(*estimate, 4));
  }

  // A converted estimate can stand on the limit of the next graver category (100 ppm of a gas,
  // Table 3.1.2), which no mixture of milder ingredients is in.
  [[nodiscard]] int category_of_mixture(double mixture) const {
    const int category = category_for(mixture);
    return category == 0 ? 0 : std::max(category, std::min(gravest_, last_category()));
  }

  void note_step(double left, double mixture) {
    RuleStep& step = step_;
    step.endpoint = endpoint_for(route_);
    step.rule = {{"ATE of the mixture, {1}: {2} over the sum of C / ATE",
                  {words_of_route(route_), significant_figure(left, 4)}}};
    step.source = "CLP Annex I, 3.1.3.6";
    step.sum = mixture;
    step.unit = unit_of_route(route_);
    step.at_most = true;
    const int category = category_of_mixture(mixture);
    step.met = category != 0;
    const int shown = step.met ? category : last_category();
    step.limit = acute_limit(route_, shown);
    step.gives = "Acute Tox. " + std::to_string(shown) + ' ' + statement_for(route_, shown);
    work_.out.steps.push_back(step);
  }

  const Classifying& work_;
  Route route_;
  int parts_ = 0;
  int gravest_ = 5;  // category of an ingredient
  double sum_ = 0;
  double unknown_ = 0;
  RuleStep step_;
};

// The states in air give one class between them: the worst.
void keep_worst_inhalation(std::vector<HazardClass>& classes) {
  const HazardClass* worst = nullptr;
  for (const HazardClass& found : classes) {
    if (found.endpoint != Endpoint::acute_inhalation) continue;
    if (worst == nullptr || found.name < worst->name) worst = &found;
  }
  if (worst == nullptr) return;
  const HazardClass kept = *worst;
  std::erase_if(classes,
                [](const HazardClass& c) { return c.endpoint == Endpoint::acute_inhalation; });
  classes.push_back(kept);
}

// What a solution would do as mist, which it makes only when somebody sprays it.
// A stock makes no mist unless somebody sprays it. What is sold is classified for whatever may be
// done with it.
bool makes_mist(const HazardMixture& mixture) {
  return !mixture.solution || mixture.sprayed || mixture.as_bought;
}

void note_mist(const Classifying& work) {
  work.out.not_evaluated.push_back({{"its mist, because it is not said to be sprayed", {}}});
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, Endpoint::acute_inhalation);
    if (listed != nullptr && part.state_in_air() == Route::mist && reaches(percent(part.most), 0.1))
      work.out.mist_open.push_back(
          {"{1} is {2}", {part.name, listed->name + ' ' + listed->statement}});
  }
}

// One substance as it is supplied is not calculated: it has the classes of its source. Whether
// there were any; where there are only estimates these decide.
bool takes_classes_of_source(const Classifying& work) {
  if (!work.mixture.as_supplied || work.mixture.parts.size() != 1) return false;
  const HazardPart& part = work.mixture.parts.front();
  bool any = false;
  for (const Endpoint endpoint :
       {Endpoint::acute_oral, Endpoint::acute_dermal, Endpoint::acute_inhalation}) {
    const HazardClass* listed = class_of(part, endpoint);
    if (listed == nullptr || (listed->name.ends_with('5') && !work.book.acute_5)) continue;
    any = true;
    RuleStep step;
    step.endpoint = endpoint;
    step.rule = {{"as its source classifies it", {}}};
    step.source = part.known->source;
    count_in(step, part);
    step.sum = percent(part.most);
    step.limit = 100;
    step.unit = "%";
    step.met = true;
    step.gives = listed->name + ' ' + listed->statement;
    work.out.steps.push_back(std::move(step));
    work.out.classes.push_back(*listed);
  }
  return any;
}

}  // namespace

double acute_limit(Route route, int category) {
  return kUpper.at(row_of(route)).at(static_cast<std::size_t>(category - 1));
}

ToxicityEstimate converted_estimate(Route route, int category) {
  return toxicity_estimate(kConverted.at(row_of(route)).at(static_cast<std::size_t>(category - 1)));
}

void classify_acute(const Classifying& work) {
  if (takes_classes_of_source(work)) return;
  for (const Route route : {Route::oral, Route::dermal}) {
    AcuteRoute one(work, route);
    one.run();
    if (one.relevant() == 0) work.out.without.push_back(endpoint_for(route));
  }
  int inhaled = 0;
  for (const Route route : {Route::gas, Route::vapour, Route::mist}) {
    if (route == Route::mist && !makes_mist(work.mixture)) continue;
    AcuteRoute one(work, route);
    one.run();
    inhaled += one.relevant();
  }
  if (inhaled == 0 && makes_mist(work.mixture))
    work.out.without.push_back(Endpoint::acute_inhalation);
  if (!makes_mist(work.mixture)) note_mist(work);
  keep_worst_inhalation(work.out.classes);
}

}  // namespace dosewright
