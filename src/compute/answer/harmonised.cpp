#include "harmonised.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "dosewright/hazard/classes.hpp"
#include "dosewright/hazard/classify.hpp"
#include "dosewright/units/print.hpp"
#include "hazard_parts.hpp"
#include "identity.hpp"

namespace dosewright {

namespace {

std::string named(const HazardClass& one) {
  return one.name == one.statement ? one.name : one.name + ' ' + one.statement;
}

// Puts the entry's class in the place of a milder one, with its limits.
void mend_classes(const Classification& entry, Classification& mended) {
  for (const HazardClass& one : entry.classes) {
    const bool by_itself =
        one.endpoint == Endpoint::physical || one.endpoint == Endpoint::supplement;
    if (!left_out(mended.classes, {one}).empty()) {
      if (!by_itself)
        std::erase_if(mended.classes,
                      [&](const HazardClass& mine) { return mine.endpoint == one.endpoint; });
      mended.classes.push_back(one);
    }
    if (by_itself) continue;
    // No others may be set beside those of the entry, not even where it has none of its own.
    std::erase_if(mended.limits,
                  [&](const LimitBand& band) { return band.gives.endpoint == one.endpoint; });
  }
  for (const LimitBand& band : entry.limits) {
    const bool there =
        std::any_of(mended.limits.begin(), mended.limits.end(), [&](const LimitBand& mine) {
          return mine.gives.endpoint == band.gives.endpoint && mine.from == band.from &&
                 mine.gives.statement == band.gives.statement;
        });
    if (!there) mended.limits.push_back(band);
  }
  std::stable_sort(
      mended.limits.begin(), mended.limits.end(),
      [](const LimitBand& a, const LimitBand& b) { return as_ratio(a.from) < as_ratio(b.from); });
}

Classification mended_by(const Classification& entry, const Classification& stated) {
  Classification mended = stated;
  mended.state = Classification::State::classified;
  mend_classes(entry, mended);
  take_organs(stated, mended);
  if (entry.m_acute) mended.m_acute = entry.m_acute;
  if (entry.m_chronic) mended.m_chronic = entry.m_chronic;
  for (const auto& [route, estimate] : entry.estimates) {
    // Inhalation has one class for all states in air.
    mended.estimates.erase(route);
    mended.estimates.emplace(route, estimate);
  }
  return mended;
}

// Strengths at which limits lie, from a thousandth of a per cent to the whole.
const std::vector<double>& strengths() {
  static const std::vector<double> all = [] {
    std::vector<double> out;
    for (int decade = -5; decade < 0; ++decade) {
      for (const double step : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0})
        out.push_back(step * std::pow(10.0, decade));
    }
    out.push_back(1);
    return out;
  }();
  return all;
}

// The class with the figure that weakens it, if that figure is a factor or an estimate.
std::string with_figure(const HazardClass& one, const Classification& entry,
                        const Classification& stated, Share strength) {
  const auto m = [&](const std::optional<int>& law, const std::optional<int>& mine) {
    return law && law != mine ? named(one) + " (M " + std::to_string(*law) + ')' : std::string();
  };
  if (one.endpoint == Endpoint::aquatic_acute) {
    if (std::string out = m(entry.m_acute, stated.m_acute); !out.empty()) return out;
  }
  if (one.endpoint == Endpoint::aquatic_chronic) {
    if (std::string out = m(entry.m_chronic, stated.m_chronic); !out.empty()) return out;
  }
  if (one.endpoint <= Endpoint::acute_inhalation) {
    for (const auto& [route, estimate] : entry.estimates) {
      const bool here = one.endpoint == Endpoint::acute_oral     ? route == Route::oral
                        : one.endpoint == Endpoint::acute_dermal ? route == Route::dermal
                                                                 : route >= Route::gas;
      if (here)
        return named(one) + " (ATE " + significant_figure(in_route_units(estimate), 3) + ')';
    }
  }
  return named(one) + " (≥ " + significant_figure(as_ratio(strength) * 100, 3) + " %)";
}

}  // namespace

std::vector<HazardClass> classes_at(const Classification& known, Share strength,
                                    const HazardRules& rules) {
  HazardMixture mixture;
  HazardPart part;
  part.id = part.name = "it";
  part.least = part.most = strength;
  part.known = &known;
  mixture.parts.push_back(part);
  const MixtureClasses found = classify(mixture, rules);
  std::vector<HazardClass> out = found.classes;
  out.insert(out.end(), found.supplements.begin(), found.supplements.end());
  return out;
}

bool has_harmonised_entries(RuleBookName book) {
  return book == RuleBookName::eu_clp || book == RuleBookName::gb_clp;
}

std::optional<Harmonised> harmonised(const Classification& stated, const Substance& known,
                                     const HazardRules& rules) {
  const Classification& entry = known.hazards;
  // "Not classified" of what is known to be is no opinion on limits, under any rules.
  const bool denied = stated.state == Classification::State::not_classified;
  if ((!has_harmonised_entries(rules.book) && !denied) || !known.outdated.empty() ||
      entry.state != Classification::State::classified ||
      stated.state == Classification::State::unknown)
    return std::nullopt;
  Harmonised out{mended_by(entry, stated), left_out(stated.classes, entry.classes)};
  std::vector<Endpoint> told;
  for (const HazardClass& one : entry.classes) {
    if (!left_out(stated.classes, {one}).empty()) told.push_back(one.endpoint);
  }
  // Of each effect the gravest class is told, from where on the sheet has it not.
  std::map<Endpoint, std::pair<std::string, std::string>> by_figures;
  for (const double part : strengths()) {
    const auto mine = classes_at(stated, share(part), rules);
    for (const HazardClass& one : classes_at(out.mended, share(part), rules)) {
      const bool again = std::find(told.begin(), told.end(), one.endpoint) != told.end();
      if (again || left_out(mine, {one}).empty()) continue;
      const auto before = by_figures.find(one.endpoint);
      if (before != by_figures.end() && before->second.first == one.name) continue;
      by_figures[one.endpoint] = {one.name, with_figure(one, entry, stated, share(part))};
    }
  }
  for (const auto& [endpoint, said] : by_figures) out.weakened.push_back(said.second);
  if (out.weakened.empty()) return std::nullopt;
  return out;
}

}  // namespace dosewright
