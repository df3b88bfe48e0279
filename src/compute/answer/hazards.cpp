// From a recipe to its hazards: shares by weight, what is known of each ingredient, the classes,
// and which stocks must not meet.
#include <algorithm>
#include <cmath>

#include "dosewright/answer/answer.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "hazard_parts.hpp"
#include "identity.hpp"
#include "solution.hpp"

namespace dosewright {

namespace {

MixtureClasses classes_of(const HazardMixture& whole, const std::vector<HazardMixture>& by_contents,
                          const HazardRules& rules) {
  MixtureClasses out = classify(whole, rules);
  if (by_contents.empty()) return out;
  for (const HazardMixture& apart : by_contents) keep_graver(out, classify(apart, rules));
  for (const HazardPart& part : whole.parts) {
    if (part.milder_than_law)
      out.notes.push_back(
          {"{1}: the harmonised classification counts where its data sheet is milder (CLP Article "
           "4)",
           {part.name}});
  }
  std::vector<std::string> names;
  for (const HazardPart& part : whole.parts) {
    if (!part.members.empty()) names.push_back(part.name);
  }
  if (names.empty()) return out;
  out.notes.push_back(
      {"{1}: calculated by the classes of the data sheet and by what is in it; what is graver "
       "counts",
       {list_of(names)}});
  for (const HazardPart& part : whole.parts) {
    if (part.stated != nullptr)
      out.notes.push_back(
          {"what {1} does goes by what is in it, all of which is known", {part.name}});
  }
  return out;
}

// The ingredients that count in a step, by the names that a label has for them.
std::vector<Phrase> names_of(const HazardAnswer& answer, const RuleStep& step,
                             const std::string& statement) {
  std::vector<HazardPart> parts = answer.mixture.parts;
  for (const HazardMixture& apart : answer.by_contents)
    parts.insert(parts.end(), apart.parts.begin(), apart.parts.end());
  std::vector<Phrase> out;
  for (const HazardPart& part : parts) {
    if (!among(step.counted, part.name)) continue;
    const auto names = names_for(part, step.endpoint, statement);
    out.insert(out.end(), names.begin(), names.end());
  }
  return out;
}

// Which ingredients brought about a class that asks for their names.
void name_ingredients(HazardAnswer& answer) {
  std::vector<std::string> open;
  std::vector<std::string> named;
  for (const RuleStep& step : answer.found.steps) {
    // EUH208 holds the name already. A test may have taken the class away.
    const bool asks = step.gives != "EUH208" && asks_for_a_name(step.endpoint, step.gives);
    const auto& classes = answer.found.classes;
    const bool is_left = std::any_of(classes.begin(), classes.end(), [&](const HazardClass& one) {
      return one.endpoint == step.endpoint;
    });
    if (!step.met || !asks || !is_left) continue;
    const std::string statement = step.gives.substr(step.gives.find_last_of(' ') + 1);
    const std::vector<Phrase> names = names_of(answer, step, statement);
    for (const Phrase& name : names) add_once(answer.to_be_named, name);
    (names.empty() ? open : named).push_back(statement);
  }
  for (const std::string& statement : open) {
    if (!among(named, statement) && !among(answer.unnamed, statement))
      answer.unnamed.push_back(statement);
  }
}

// The classes that the mixture would fall into if the strength's error were all on the strong side.
void look_at_upper_end(const Room& room, HazardAnswer& answer) {
  if (as_ratio(answer.strength_error) <= 0) return;
  const auto stronger = [&](HazardMixture mixture) {
    for (HazardPart& part : mixture.parts)
      part.most = std::min(part.most * (1 + as_ratio(answer.strength_error)), share(1));
    return mixture;
  };
  std::vector<HazardMixture> apart;
  for (const HazardMixture& one : answer.by_contents) apart.push_back(stronger(one));
  const MixtureClasses strong = classes_of(stronger(answer.mixture), apart, room.hazard_rules);
  for (const HazardClass& one : strong.classes) {
    const auto& mine = answer.found.classes;
    const bool same = std::any_of(mine.begin(), mine.end(),
                                  [&](const HazardClass& c) { return c.name == one.name; });
    if (!same) answer.at_upper_end.push_back(one.name + ' ' + one.statement);
  }
}

// Whether something in it can be breathed in though nobody sprays it.
bool gives_vapours(const HazardMixture& mixture) {
  return std::any_of(mixture.parts.begin(), mixture.parts.end(),
                     [](const HazardPart& part) { return part.state_in_air() != Route::mist; });
}

std::string basis_of(const HazardAnswer& answer) {
  const std::string built_in = "built-in figures for " + all_of(answer.by_default);
  std::string out = "calculation from its ingredients";
  // One substance as it is: nothing is added up.
  if (is_by_table(answer))
    out = built_in;
  else if (!answer.by_default.empty())
    out += ", with " + built_in;
  if (!answer.outdated.empty()) out += " (out of date)";
  if (!answer.mixture.least.empty()) out += ", and by what is stated of a weaker solution";
  return out;
}

// "EUH031 (bleach)" as "contact with acids liberates toxic gas (bleach)": nobody at a sink reads a
// code.
void put_into_words(const StatementBook& statements, std::vector<std::string>& not_covered) {
  for (std::string& one : not_covered) {
    const std::size_t space = one.find(' ');
    const Statement* statement =
        one.find('H') < space ? statements.find(one.substr(0, space)) : nullptr;
    if (statement == nullptr || statement->has_blank) continue;
    const std::string words =
        statement->pattern.substr(0, statement->pattern.find_last_not_of(". ") + 1);
    one = words + one.substr(space);
  }
}

// "liver, kidneys" in the language of the sentence, each where it is known; what is no English
// word for an organ is taken as written in that language.
std::string organs_said(const std::string& language, const HazardSources& sources,
                        const HazardClass& one, HazardAnswer& answer) {
  if (!one.statement.starts_with("H37") || one.fill.empty() || language == "en") return one.fill;
  std::vector<std::string> known = without_routes(named_in(one.fill));
  std::erase_if(known, [](const std::string& organ) { return !is_known_organ(organ); });
  if (known.empty()) return one.fill;
  if (!sources.organ) answer.organs_in_english.push_back(one.statement + ' ' + all_of(known));
  return organs_in_words(one.fill, sources);
}

// The classes with the names in EUH208 in the language of its sentence.
MixtureClasses with_names_said(const Room& room, const HazardSources& sources,
                               HazardAnswer& answer) {
  MixtureClasses said = answer.found;
  const std::string& language =
      sources.language.empty() ? room.hazard_rules.language : sources.language;
  for (HazardClass& one : said.classes) one.fill = organs_said(language, sources, one, answer);
  for (HazardClass& one : said.supplements) {
    if (one.statement != "EUH208") continue;
    const Substance* built_in = known_as(sources.knowledge, one.fill);
    const bool english = language == "en" || built_in == nullptr;
    if (sources.chemical)
      one.fill = sources.chemical(one.fill);
    else if (!english && built_in->name == one.fill)
      answer.names_in_english.push_back(one.fill);
  }
  return said;
}

void finish(const Room& room, const HazardSources& sources, const Hazards& stated,
            const LabelFacts& facts, HazardAnswer& answer) {
  answer.found = classes_of(answer.mixture, answer.by_contents, room.hazard_rules);
  put_into_words(sources.statements, answer.found.not_covered);
  name_ingredients(answer);
  look_at_upper_end(room, answer);
  // A tub that is said to need no class, and has one by what it contains.
  const bool more = !answer.found.classes.empty() || !answer.found.supplements.empty() ||
                    !answer.found.may_burn.empty();
  const bool contradicted = answer.mixture.as_bought && more && !answer.by_contents.empty();
  if (stated.assessment != Hazards::Assessment::computed && !contradicted) {
    answer.block = hazard_block(stated, sources.statements);
    return;
  }
  LabelFacts all = facts;
  const MixtureClasses said = with_names_said(room, sources, answer);
  all.vapours = gives_vapours(answer.mixture) ||
                std::any_of(answer.by_contents.begin(), answer.by_contents.end(), gives_vapours);
  answer.block =
      computed_block(said, all, room.hazard_rules.book, {sources.statements, sources.classes});
  answer.block.basis = basis_of(answer);
}

// What solutions of a chemical hold beside it and water, where the description says no more than
// their strength.
void note_what_it_is_sold_with(const Product& product, const HazardSources& sources,
                               HazardAnswer& answer) {
  const Substance* substance = substance_of(product, sources.knowledge);
  if (substance == nullptr || substance->sold_with.empty() || !product.contains.empty() ||
      product.form != Product::Form::liquid)
    return;
  add_once(answer.not_counted, {"Not counted: {1}, with which solutions of {2} are often sold.",
                                {substance->sold_with, substance->name}});
}

}  // namespace

bool is_sold_as_solution(const Product& product, const Substance& substance) {
  const bool diluted = product.active && *product.active < share(0.9);
  return product.form == Product::Form::liquid && (diluted || !substance.named_by_strength.empty());
}

void complete_hazards(Room& room, const Knowledge& knowledge) {
  for (Product& product : room.products) {
    Classification& stated = product.hazards;
    const Substance* substance = substance_of(product, knowledge);
    if (stated.state != Classification::State::classified || substance == nullptr ||
        is_sold_as_solution(product, *substance))
      continue;
    const Classification& shipped = substance->hazards;
    const auto lists = [&](Endpoint endpoint) {
      return std::any_of(stated.classes.begin(), stated.classes.end(),
                         [&](const HazardClass& one) { return one.endpoint == endpoint; });
    };
    if (stated.limits.empty()) {
      for (const LimitBand& band : shipped.limits) {
        const bool eyes = band.gives.endpoint == Endpoint::eye && lists(Endpoint::skin);
        if (!lists(band.gives.endpoint) && !eyes) continue;
        stated.limits.push_back(band);
        stated.completed = true;
      }
    }
    take_organs(Classification(stated), stated);
    const auto fill_in = [&](Endpoint endpoint, std::optional<int>& mine,
                             const std::optional<int>& theirs) {
      if (mine || !theirs || !lists(endpoint)) return;
      mine = theirs;
      stated.completed = true;
    };
    fill_in(Endpoint::aquatic_acute, stated.m_acute, shipped.m_acute);
    fill_in(Endpoint::aquatic_chronic, stated.m_chronic, shipped.m_chronic);
  }
}

std::vector<std::string> families_of(const Product& product, const Room& room,
                                     const Knowledge& knowledge) {
  std::vector<std::string> out = product.families;
  const auto add = [&](const std::vector<std::string>& more) {
    for (const std::string& family : more) {
      if (!among(out, family)) out.push_back(family);
    }
  };
  if (const Substance* substance = substance_of(product, knowledge)) add(substance->families);
  for (const Content& content : product.contains) {
    if (const Substance* substance = known_as(knowledge, content.what)) add(substance->families);
    const Product* inner = find(room.products, content.what);
    if (inner != nullptr) add(families_of(*inner, room, knowledge));
  }
  return out;
}

HazardAnswer answer_hazards(const Room& room, const Stock& stock, const Mixture& mixture,
                            const HazardSources& sources) {
  HazardAnswer answer;
  answer.mixture.solution = !stock.dry;
  answer.mixture.ph = stock.hazards.ph;
  answer.mixture.sprayed = stock.hazards.sprayed;
  answer.mixture.tested = stock.hazards.tested;
  answer.mixture.least = stock.hazards.least;
  answer.strength_error = mixture.strength_error.worst;
  if (stock.dry) {
    const Product& product = *find(room.products, stock.recipe.front().product);
    answer.mixture.as_supplied = !is_calculated(product);
    gather(room, sources, {{&product, share(1), share(1)}}, answer);
    finish(room, sources, stock.hazards, {true, false}, answer);
    return answer;
  }
  std::vector<Dissolved> dissolved;
  for (const Component& component : mixture.components) {
    const Product& product = *find(room.products, component.product);
    const auto weight = weight_of(component, product);
    if (!weight) {
      answer.unknown_weight.push_back(product.name);
      continue;
    }
    dissolved.push_back(dissolved_from(product, *weight, sources.knowledge));
  }
  const SolutionDensity density = density_of(stock, dissolved);
  answer.density = density.how;
  std::vector<ProductShare> products;
  for (const Component& component : mixture.components) {
    const Product& product = *find(room.products, component.product);
    const auto weight = weight_of(component, product);
    const auto part = [&](Concentration whole) {
      return share(weight ? std::min(1.0, *weight / whole) : 1);
    };
    // How much of a liquid by volume there is nobody can say in % by weight: all of it at worst.
    note_what_it_is_sold_with(product, sources, answer);
    products.push_back({&product, weight ? part(density.most) : Share(), part(density.least)});
  }
  gather(room, sources, products, answer);
  finish(room, sources, stock.hazards, {false, stock.hazards.sprayed}, answer);
  return answer;
}

HazardAnswer answer_tub_hazards(const Room& room, const Product& product,
                                const HazardSources& sources) {
  if (denies_what_is_known(product, sources.knowledge, room.hazard_rules))
    return answer_tub_hazards(room, without_hazards(product), sources);
  HazardAnswer answer;
  // One substance is not calculated: its classes are those of its source.
  Hazards stated;
  if (product.hazards.state == Classification::State::not_classified)
    stated.assessment = Hazards::Assessment::not_classified;
  stated.basis = product.hazards.source;
  const bool liquid = product.form == Product::Form::liquid;
  answer.mixture.solution = liquid;
  const Substance* substance = substance_of(product, sources.knowledge);
  // A solution of what is sold in several strengths is calculated like any other.
  answer.mixture.as_supplied = !is_calculated(product) && !held_by(product, substance);
  answer.mixture.as_bought = true;
  note_what_it_is_sold_with(product, sources, answer);
  gather(room, sources, {{&product, share(1), share(1)}}, answer);
  finish(room, sources, stated, {!liquid, false}, answer);
  // What the calculation adds is not by the data sheet.
  const auto& classes = product.hazards.classes;
  const bool added = std::any_of(
      answer.found.classes.begin(), answer.found.classes.end(), [&](const HazardClass& one) {
        return std::none_of(classes.begin(), classes.end(), [&](const HazardClass& mine) {
          return mine.name == one.name && mine.statement == one.statement;
        });
      });
  answer.basis_stated = product.hazards.state != Classification::State::unknown && !added;
  if (answer.basis_stated) answer.block.basis = product.hazards.source;
  // The label of a substance has its chemical name in any case (CLP Article 18 (2)).
  if (substance != nullptr && chemical_name(product, *substance) != product.name) {
    add_once(answer.to_be_named, answer.mixture.parts.front().label_name);
  }
  return answer;
}

}  // namespace dosewright
