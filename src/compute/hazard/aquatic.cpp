// Hazards to the aquatic environment: summation with M-factors (CLP Annex I, Tables 4.1.1, 4.1.2).
#include <algorithm>
#include <array>

#include "classifier.hpp"
#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

// An ingredient of category 1 whose M-factor nobody gives counts as M 1. From this share on it
// could be of category 1 by itself with an M of 1,000; a higher one is rare (ours).
constexpr double kOpenFrom = 0.025;

void note_open_factor(const Classifying& work, const HazardPart& part, bool acute) {
  if (!reaches(percent(part.most), kOpenFrom)) return;
  // M-factors belong to the ingredients of a mixture (CLP Article 10); it is also taken apart.
  if (!part.members.empty()) return;
  work.out.notes.push_back({acute ? "no acute M-factor is known for {1}; it is taken as 1"
                                  : "no long-term M-factor is known for {1}; it is taken as 1",
                            {part.name}});
  if (!among(work.out.m_open, part.name)) work.out.m_open.push_back(part.name);
}

// What is of the gravest category already cannot be graver.
void forget_open_factors(const Classifying& work, const char* gravest) {
  const auto& classes = work.out.classes;
  const bool met = std::any_of(classes.begin(), classes.end(),
                               [&](const HazardClass& one) { return one.name == gravest; });
  if (met) work.out.m_open.clear();
}

// Percentages, M-weighted for category 1, of the ingredients in each category.
struct Sums {
  std::array<double, 4> by_category{};  // 1 to 4
  std::array<double, 4> plain{};        // without M-factors
  Phrases figures;
};

Sums sums_of(const Classifying& work, Endpoint endpoint) {
  Sums out;
  const bool acute = endpoint == Endpoint::aquatic_acute;
  for (const HazardPart& part : work.mixture.parts) {
    const HazardClass* listed = class_of(part, endpoint);
    if (listed == nullptr) continue;
    const auto category = static_cast<std::size_t>(listed->name.back() - '1');
    const auto& stated = acute ? part.known->m_acute : part.known->m_chronic;
    const int m = category == 0 ? stated.value_or(1) : 1;
    if (category == 0 && !stated) note_open_factor(work, part, acute);
    // Table 1.1: category 1 counts from 0.1 % over its M-factor, the others from 1 %.
    const double cut_off = category == 0 ? 0.1 / m : 1;
    if (!reaches(percent(part.most), cut_off)) continue;
    out.by_category.at(category) += percent(part.most) * m;
    out.plain.at(category) += percent(part.most);
    if (!out.figures.empty()) out.figures.push_back({"; ", {}});
    out.figures.push_back(
        {"{1} {2}, category {3}",
         {part.name, percent_figure(percent(part.most)), std::to_string(category + 1)}});
    if (category > 0) continue;
    out.figures.push_back({", M {1}", {std::to_string(m)}});
  }
  return out;
}

// One line of the table. True when it is met.
bool tried(const Classifying& work, Endpoint endpoint, const Sums& sums, double sum,
           const std::string& rule, const std::string& source, const std::string& name,
           const std::string& statement) {
  RuleStep step;
  step.endpoint = endpoint;
  step.rule = {{rule, {}}};
  step.source = source;
  step.figures = sums.figures;
  step.sum = sum;
  step.limit = 25;
  step.unit = std::string("%");
  step.met = reaches(sum, 25);
  step.gives = name + ' ' + statement;
  if (step.met) work.out.classes.push_back({endpoint, name, statement, ""});
  const bool met = step.met;
  work.out.steps.push_back(std::move(step));
  return met;
}

void acute(const Classifying& work) {
  const Endpoint endpoint = Endpoint::aquatic_acute;
  const Sums sums = sums_of(work, endpoint);
  if (sums.figures.empty()) {
    work.out.without.push_back(endpoint);
    return;
  }
  const auto& c = sums.by_category;
  const std::string table = "CLP Annex I, Table 4.1.1";
  if (tried(work, endpoint, sums, c[0], "M × category 1", table, "Aquatic Acute 1", "H400")) return;
  if (!work.book.weak_aquatic) return;
  const std::string un = "UN GHS Table 4.1.3";
  if (tried(work, endpoint, sums, 10 * c[0] + c[1], "10 × M × category 1 + category 2", un,
            "Aquatic Acute 2", "H401"))
    return;
  tried(work, endpoint, sums, 100 * c[0] + 10 * c[1] + c[2],
        "100 × M × category 1 + 10 × category 2 + category 3", un, "Aquatic Acute 3", "H402");
}

void chronic(const Classifying& work) {
  const Endpoint endpoint = Endpoint::aquatic_chronic;
  const Sums sums = sums_of(work, endpoint);
  if (sums.figures.empty()) {
    work.out.without.push_back(endpoint);
    return;
  }
  const auto& c = sums.by_category;
  const auto& plain = sums.plain;
  const std::string table = "CLP Annex I, Table 4.1.2";
  if (tried(work, endpoint, sums, c[0], "M × category 1", table, "Aquatic Chronic 1", "H410"))
    return;
  if (tried(work, endpoint, sums, 10 * c[0] + c[1], "10 × M × category 1 + category 2", table,
            "Aquatic Chronic 2", "H411"))
    return;
  if (tried(work, endpoint, sums, 100 * c[0] + 10 * c[1] + c[2],
            "100 × M × category 1 + 10 × category 2 + category 3", table, "Aquatic Chronic 3",
            "H412"))
    return;
  tried(work, endpoint, sums, plain[0] + plain[1] + plain[2] + plain[3],
        "categories 1 to 4 together", table, "Aquatic Chronic 4", "H413");
}

}  // namespace

void classify_aquatic(const Classifying& work) {
  if (!work.book.environment) {
    work.out.not_evaluated.push_back(
        {{"hazards to the aquatic environment, which this rule book does not cover", {}}});
    return;
  }
  double unknown = 0;
  for (const HazardPart& part : work.mixture.parts) {
    if (part.known->state == Classification::State::unknown && reaches(percent(part.most), 1))
      unknown += percent(part.most);
  }
  acute(work);
  forget_open_factors(work, "Aquatic Acute 1");
  chronic(work);
  // H410 says what H400 does.
  forget_open_factors(work, "Aquatic Chronic 1");
  work.out.unknown_aquatic = share(unknown / 100);
}

}  // namespace dosewright
