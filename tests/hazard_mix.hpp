// A mixture of invented ingredients for tests of the hazard rules.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <deque>
#include <string>
#include <vector>

#include "dosewright/hazard/block.hpp"
#include "dosewright/hazard/classify.hpp"
#include "helpers.hpp"

namespace testing {

using dosewright::Classification;
using dosewright::computed_block;
using dosewright::Endpoint;
using dosewright::HazardBlock;
using dosewright::HazardClass;
using dosewright::HazardMixture;
using dosewright::HazardPart;
using dosewright::LabelFacts;
using dosewright::MixtureClasses;
using dosewright::PrintedStatement;
using dosewright::Route;
using dosewright::RuleBookName;
using dosewright::RuleStep;
using dosewright::share;
using dosewright::Substance;
using dosewright::toxicity_estimate;

// Ingredients by their classes, in % by weight.
class Mix {
 public:
  Mix& add(double percent, const std::vector<std::string>& classes) {
    Classification& known = start(percent);
    known.state = Classification::State::classified;
    for (const std::string& text : classes) known.classes.push_back(testing::hazard_class(text));
    return *this;
  }
  Mix& harmless(double percent) {
    start(percent).state = Classification::State::not_classified;
    return *this;
  }
  Mix& unknown(double percent) {
    start(percent);
    return *this;
  }
  // A chemical as the shipped table has it.
  Mix& of(const std::string& cas, double percent) {
    const auto& all = testing::knowledge().substances;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Substance& s) { return s.cas == cas; });
    REQUIRE(found != all.end());
    start(percent) = found->hazards;
    return *this;
  }
  Mix& ate(Route route, double value) {
    known_.back().estimates[route] = toxicity_estimate(value);
    return *this;
  }
  Mix& m(int acute, int chronic) {
    known_.back().m_acute = acute;
    known_.back().m_chronic = chronic;
    return *this;
  }
  // The last one's share is only known to be from so much on.
  Mix& at_least(double percent) {
    mixture_.parts.back().least = share(percent / 100);
    return *this;
  }
  Mix& band(const std::string& text, double from, double below) {
    known_.back().limits.push_back(
        {testing::hazard_class(text), share(from / 100), share(below / 100)});
    return *this;
  }
  Mix& limit(const std::string& text, double from) {
    known_.back().limits.push_back({testing::hazard_class(text), share(from / 100), std::nullopt});
    return *this;
  }
  Mix& ph(double value) {
    mixture_.ph = value;
    return *this;
  }
  Mix& inhaled_as(Route route) {
    known_.back().inhaled_as = route;
    mixture_.sprayed = true;
    return *this;
  }
  // The last ingredient once more, under its own name.
  Mix& same_again(double percent) {
    mixture_.parts.push_back(mixture_.parts.back());
    mixture_.parts.back().least = mixture_.parts.back().most = share(percent / 100);
    return *this;
  }
  Mix& reversed() {
    std::reverse(mixture_.parts.begin(), mixture_.parts.end());
    return *this;
  }
  // As much thinner.
  Mix& thinned(double factor) {
    for (HazardPart& part : mixture_.parts) {
      part.most = part.most * factor;
      part.least = part.least * factor;
    }
    return *this;
  }

  [[nodiscard]] MixtureClasses classes(RuleBookName book = RuleBookName::eu_clp,
                                       bool conservative = false) const {
    return classify(mixture_, {book, conservative, "en"});
  }
  [[nodiscard]] std::string names(RuleBookName book = RuleBookName::eu_clp,
                                  bool conservative = false) const {
    std::vector<std::string> out;
    for (const HazardClass& one : classes(book, conservative).classes)
      out.push_back(one.name + ' ' + one.statement);
    std::sort(out.begin(), out.end());
    std::string text;
    for (const std::string& one : out) text += (text.empty() ? "" : "; ") + one;
    return text;
  }
  [[nodiscard]] double figure_of(Endpoint endpoint,
                                 RuleBookName book = RuleBookName::eu_clp) const {
    for (const RuleStep& step : classes(book).steps) {
      if (step.endpoint == endpoint) return step.sum;
    }
    return -1;
  }
  [[nodiscard]] HazardBlock block(const LabelFacts& facts = {},
                                  RuleBookName book = RuleBookName::eu_clp) const {
    return computed_block(classes(book), facts, book,
                          {testing::statement_book(), testing::class_book()});
  }
  [[nodiscard]] std::string statements(RuleBookName book = RuleBookName::eu_clp) const {
    std::string out;
    const HazardBlock made = block({}, book);
    for (const auto* list : {&made.hazards, &made.supplements}) {
      for (const PrintedStatement& one : *list) out += (out.empty() ? "" : " ") + one.code;
    }
    return out;
  }

 private:
  Classification& start(double percent) {
    known_.emplace_back();
    HazardPart part;
    part.id = part.name = "part " + std::to_string(known_.size());
    part.least = part.most = share(percent / 100);
    part.known = &known_.back();
    mixture_.parts.push_back(part);
    return known_.back();
  }

  std::deque<Classification> known_;  // parts point into it
  HazardMixture mixture_;
};

}  // namespace testing
