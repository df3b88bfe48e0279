#include "stronger.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "hazard_parts.hpp"

namespace dosewright {

namespace {

using Classes = std::vector<HazardClass>;

bool has(const Classes& classes, const char* statement) {
  return std::any_of(classes.begin(), classes.end(),
                     [&](const HazardClass& one) { return one.statement == statement; });
}

// Everything that is said of a stock, one class for each effect.
Classes said_of(const StockAnswer& stock, const RoomAnswer& answers) {
  Classes out = stock.hazards.found.classes;
  const Hazards& stated = stock.stock->hazards;
  if (stated.assessment == Hazards::Assessment::not_classified) return {};
  if (stated.assessment == Hazards::Assessment::classified) {
    out.clear();
    for (const StatementCode& one : stated.statements) {
      for (const std::string& code : split(one.code, '+'))
        out.push_back(
            class_with(code, one.fill, answers.sources->classes, answers.room->hazard_rules.book));
    }
  } else {
    const Classes& supplements = stock.hazards.found.supplements;
    out.insert(out.end(), supplements.begin(), supplements.end());
  }
  // What corrodes the skin damages the eyes (CLP Annex I, 3.3.2).
  if (has(out, "H314") && !has(out, "H318"))
    out.push_back({Endpoint::eye, "Eye Dam. 1", "H318", ""});
  return out;
}

// What the ingredients of a stock come to, without what is stated or tested of it.
Classes explained_by_ingredients(const Room& room, const HazardAnswer& hazards, bool with_ph) {
  Classes out;
  std::vector<HazardMixture> all = hazards.by_contents;
  all.push_back(hazards.mixture);
  for (HazardMixture& mixture : all) {
    mixture.tested.clear();
    mixture.least.clear();
    if (!with_ph) mixture.ph.reset();
    const MixtureClasses found = classify(mixture, room.hazard_rules);
    out.insert(out.end(), found.classes.begin(), found.classes.end());
    out.insert(out.end(), found.supplements.begin(), found.supplements.end());
  }
  // As labels join them.
  if (has(out, "H400") && has(out, "H411"))
    out.push_back({Endpoint::aquatic_chronic, "Aquatic Chronic 1", "H410", ""});
  return out;
}

bool is_among(const HazardClass& one, const Classes& classes) {
  const bool organs =
      one.endpoint == Endpoint::single_exposure || one.endpoint == Endpoint::repeated_exposure;
  if (organs)
    return std::any_of(classes.begin(), classes.end(),
                       [&](const HazardClass& other) { return is_as_grave(other, one); });
  std::vector<std::string> codes;
  codes.reserve(classes.size());
  for (const HazardClass& other : classes) codes.push_back(other.statement);
  return is_said_by(one.statement, codes);
}

bool is_tested_for(const Hazards& hazards, Endpoint endpoint) {
  return std::any_of(hazards.tested.begin(), hazards.tested.end(),
                     [&](const TestedEndpoint& test) { return test.endpoint == endpoint; });
}

// In the language of the label.
std::string fill_of(const HazardClass& one, const HazardSources& sources) {
  if (!one.statement.starts_with("H37") || !sources.organ) return one.fill;
  return organs_in_words(one.fill, sources);
}

void print(const HazardSources& sources, HazardAnswer& answer) {
  Classes all;
  for (const StrongerClass& one : answer.stronger_classes) all.push_back(one.what);
  for (const HazardClass& one : all) {
    if (one.statement == "H318" && has(all, "H314")) continue;
    const Statement* statement = sources.statements.find(one.statement);
    const auto text =
        statement != nullptr ? sentence(*statement, fill_of(one, sources)) : std::nullopt;
    if (text)
      answer.stronger_states.push_back({one.statement, *text});
    else
      answer.block.untranslated.push_back(one.statement);
  }
}

}  // namespace

void mind_the_stronger(const RoomAnswer& answers, StockAnswer& one) {
  const Hazards& own = one.stock->hazards;
  if (one.stock->stronger == nullptr || own.assessment != Hazards::Assessment::computed) return;
  const StockAnswer* stronger = find_stock(answers, one.stock->stronger->id);
  if (stronger == nullptr) return;
  std::vector<StrongerClass>& out = one.hazards.stronger_classes;
  out = stronger->hazards.stronger_classes;
  const Classes bare = explained_by_ingredients(*answers.room, stronger->hazards, false);
  const Classes with_ph = explained_by_ingredients(*answers.room, stronger->hazards, true);
  for (const HazardClass& said : said_of(*stronger, answers)) {
    if (!is_among(said, bare)) out.push_back({said, is_among(said, with_ph)});
  }
  Classes mine = one.hazards.found.classes;
  mine.insert(mine.end(), one.hazards.found.supplements.begin(),
              one.hazards.found.supplements.end());
  // A measured pH of this one ends what followed from another, a test of it goes before all, and
  // what it has anyway needs no second word.
  std::erase_if(out, [&](const StrongerClass& other) {
    return (other.by_ph && own.ph) || is_tested_for(own, other.what.endpoint) ||
           is_among(other.what, mine);
  });
  print(*answers.sources, one.hazards);
}

}  // namespace dosewright
