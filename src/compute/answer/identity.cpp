#include "identity.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/classes.hpp"
#include "dosewright/units/print.hpp"
#include "findings.hpp"
#include "harmonised.hpp"

namespace dosewright {

namespace {

// "Copper Sulphate" as "copper sulfate".
std::string plain_name(const std::string& name) {
  std::string out = lowered(trimmed(name));
  for (std::size_t at = out.find("sulph"); at != std::string::npos; at = out.find("sulph", at))
    out.replace(at, 5, "sulf");
  return out;
}

bool same_classes(const Classification& one, const Classification& other) {
  if (one.state != other.state || one.classes.size() != other.classes.size()) return false;
  for (std::size_t i = 0; i < one.classes.size(); ++i) {
    if (one.classes[i].name != other.classes[i].name ||
        one.classes[i].statement != other.classes[i].statement)
      return false;
  }
  return true;
}

// Forms with water of crystals whose hazards differ from those of the dry one.
std::vector<const Substance*> other_forms(const Substance& dry, const Knowledge& knowledge) {
  std::vector<const Substance*> out;
  for (const Substance& form : knowledge.substances) {
    if (form.anhydrous == dry.cas && !same_classes(form.hazards, dry.hazards)) out.push_back(&form);
  }
  return out;
}

bool says_which_form(const std::string& name) {
  // In English, German, French and Spanish.
  constexpr std::array<std::string_view, 5> kWords = {"hydrat", "anhydr", "hidrat", "anhidr",
                                                      "wasserfrei"};
  const std::string plain = plain_name(name);
  return std::any_of(kWords.begin(), kWords.end(),
                     [&](std::string_view word) { return plain.find(word) != std::string::npos; });
}

bool leaves_form_open(const Product& product, const Substance& found, const Knowledge& knowledge) {
  return product.cas.empty() && !says_which_form(product.name) &&
         !other_forms(found, knowledge).empty();
}

// Whether a class is milder than another of the same endpoint: by the digit of its category, and
// irritation below corrosion and damage.
bool is_milder(const HazardClass& one, const HazardClass& other) {
  const auto irritates = [](const HazardClass& c) {
    return c.name.find("Irrit.") != std::string::npos;
  };
  if (irritates(one) != irritates(other)) return irritates(one);
  return category_of(one.name).substr(0, 1) > category_of(other.name).substr(0, 1);
}

}  // namespace

std::vector<std::string> left_out(const std::vector<HazardClass>& stated,
                                  const std::vector<HazardClass>& others) {
  std::vector<std::string> out;
  for (const HazardClass& one : others) {
    const bool said = std::any_of(stated.begin(), stated.end(), [&](const HazardClass& c) {
      // What corrodes the skin damages the eyes as well.
      const bool covers = c.statement == "H314" && one.endpoint == Endpoint::eye;
      return covers ||
             (c.endpoint == one.endpoint && !is_milder(c, one) &&
              (one.endpoint != Endpoint::supplement || c.statement == one.statement) &&
              (one.endpoint != Endpoint::physical || kind_of(c.name) == kind_of(one.name)));
    });
    const std::string words = one.name == one.statement ? one.name : one.name + ' ' + one.statement;
    if (!said && !among(out, words)) out.push_back(words);
  }
  return out;
}

std::optional<Route> breathed_in_as(const Product& product, const Room& room,
                                    const Knowledge& knowledge) {
  if (product.hazards.inhaled_stated) return product.hazards.inhaled_as;
  const Substance* known = substance_of(product, knowledge);
  if (known != nullptr && known->hazards.inhaled_stated) return known->hazards.inhaled_as;
  std::optional<Route> out;
  for (const Content& content : product.contains) {
    const Product* inner = find(room.products, content.what);
    const Substance* substance = inner == nullptr ? known_as(knowledge, content.what) : nullptr;
    std::optional<Route> air;
    if (inner != nullptr) air = breathed_in_as(*inner, room, knowledge);
    if (substance != nullptr && substance->hazards.inhaled_stated)
      air = substance->hazards.inhaled_as;
    // A gas is the least that a solution can hold back.
    if (air && (!out || *air < *out)) out = air;
  }
  return out;
}

namespace {

// What the law has of a chemical, or of its solution of this strength. What only concerns sale to
// the public (CLP Annex II, 2.6) no data sheet need have.
std::vector<HazardClass> lawful_classes(const Substance& substance, std::optional<Share> strength,
                                        const HazardRules& rules) {
  std::vector<HazardClass> out =
      strength ? classes_at(substance.hazards, *strength, rules) : substance.hazards.classes;
  std::erase_if(out, [](const HazardClass& one) { return one.statement == "EUH206"; });
  return out;
}

}  // namespace

bool denies_what_is_known(const Product& product, const Knowledge& knowledge,
                          const HazardRules& rules) {
  const Substance* known = substance_of(product, knowledge);
  if (product.hazards.state != Classification::State::not_classified || known == nullptr ||
      known->hazards.state != Classification::State::classified)
    return false;
  if (!is_sold_as_solution(product, *known))
    return harmonised(product.hazards, *known, rules).has_value();
  return !lawful_classes(*known, product.active, rules).empty();
}

namespace {

// A liquid that is toxic to breathe, and nobody knows whether as vapour or as mist alone.
template <class Tell>
void doubt_the_air(const Product& product, const Room& room, const Knowledge& knowledge,
                   const Tell& tell) {
  const Classification& hazards = product.hazards;
  const auto inhaled = std::find_if(
      hazards.classes.begin(), hazards.classes.end(),
      [](const HazardClass& one) { return one.endpoint == Endpoint::acute_inhalation; });
  if (product.form != Product::Form::liquid || inhaled == hazards.classes.end() ||
      breathed_in_as(product, room, knowledge))
    return;
  tell(hazards.origin,
       {{"{1} does not say whether it is breathed in as vapour or as mist; it is taken as mist, "
         "which a solution makes only when it is sprayed",
         {inhaled->name + ' ' + inhaled->statement}}},
       "add inhaled as: vapour, gas or mist, from section 2 or 11 of the data sheet");
}

// The classes of a solution, as its data sheet has them, lack the limits of the chemical in it.
template <class Tell>
void doubt_the_limits(const Product& product, const Substance* known, const Tell& tell) {
  const bool stated = product.hazards.state == Classification::State::classified;
  // With its strength and nothing but water beside it, dilutions go by them.
  const bool counted = product.active && known != nullptr && !known->named_by_strength.empty();
  if (!stated || counted || known == nullptr || !is_sold_as_solution(product, *known) ||
      !product.hazards.limits.empty() || known->hazards.limits.empty())
    return;
  const std::string strength =
      product.active ? significant_figure(as_ratio(*product.active) * 100, 4) + " %" : "35 %";
  tell(product.hazards.origin,
       {{"the classes of {1} are those of the solution as sold; CLP Annex VI has limits by the "
         "strength of the chemical in it, which its dilutions go by",
         {product.name}}},
       "write what it is of instead, such as contains: {" + known->name + ": " + strength +
           ", water: rest}, or the limits that the data sheet states");
}

// What is sold in several strengths.
template <class Tell>
void doubt_the_strength(const Product& product, const Substance* known, const Tell& tell) {
  if (known == nullptr || known->named_by_strength.empty() || product.active ||
      product.form != Product::Form::liquid)
    return;
  tell(product.origin,
       {{"how strong this {1} is is not stated: it is taken to be all of it", {known->name}}},
       "say what is in it: contains: {" + known->name + ": 30 %}, or active: 30 %");
}

// What such solutions hold beside water.
template <class Tell>
void doubt_the_rest(const Product& product, const Substance* known, const Tell& tell) {
  if (known == nullptr || known->sold_with.empty() || !product.active ||
      product.form != Product::Form::liquid)
    return;
  tell(product.origin,
       {{"solutions of {1} are often sold with {2}, which has hazards of its own; none is counted",
         {known->name, known->sold_with}}},
       "look into section 3 of the safety data sheet, and write contains: with all that is in it, "
       "and water: rest");
}

}  // namespace

const Substance* known_as(const Knowledge& knowledge, const std::string& word) {
  const std::string wanted = plain_name(word);
  for (const Substance& substance : knowledge.substances) {
    const bool other =
        std::any_of(substance.also.begin(), substance.also.end(),
                    [&](const std::string& name) { return plain_name(name) == wanted; });
    if (substance.cas == word || plain_name(substance.name) == wanted || other) return &substance;
  }
  return nullptr;
}

std::string chemical_name(const Product& product, const Substance& substance) {
  const std::string own = plain_name(product.name);
  const auto holds = [&](const std::vector<std::string>& names) {
    return std::any_of(names.begin(), names.end(),
                       [&](const std::string& name) { return plain_name(name) == own; });
  };
  const bool chemical =
      own == plain_name(substance.name) || (holds(substance.also) && !holds(substance.trade_names));
  return chemical ? product.name : substance.name;
}

const Substance* substance_of(const Product& product, const Knowledge& knowledge) {
  if (!product.contains.empty()) return nullptr;
  const Substance* found = known_as(knowledge, product.cas.empty() ? product.name : product.cas);
  const bool open = found != nullptr && leaves_form_open(product, *found, knowledge);
  return open ? nullptr : found;
}

const Substance* anhydrous_form(const Substance* substance, const Knowledge& knowledge) {
  if (substance == nullptr || substance->anhydrous.empty()) return substance;
  return known_as(knowledge, substance->anhydrous);
}

void collect_doubts(const Product& product, const Room& room, const Knowledge& knowledge,
                    Diagnostics& out) {
  const auto tell = [&](const Origin& origin, Phrases message, std::string hint) {
    out.push_back(said_finding(origin, std::move(message), std::move(hint)));
  };
  doubt_the_air(product, room, knowledge, tell);
  if (!product.contains.empty()) return;
  const Substance* by_name = known_as(knowledge, product.name);
  const Substance* by_cas = product.cas.empty() ? nullptr : known_as(knowledge, product.cas);
  // A plain name may stand for any hydrate; the number then says which.
  const bool same_salt = by_name != nullptr && by_cas != nullptr &&
                         anhydrous_form(by_name, knowledge) == anhydrous_form(by_cas, knowledge) &&
                         !says_which_form(product.name);
  if (by_name != nullptr && by_cas != nullptr && by_name != by_cas && !same_salt) {
    out.push_back(
        {Severity::error,
         product.origin.place,
         product.origin.path,
         "name and CAS number are of two substances: " + product.cas + " is " + by_cas->name,
         by_name->name + " is " + by_name->cas + "; the wrong one of the two gives wrong warnings",
         {}});
    return;
  }
  if (by_name != nullptr && leaves_form_open(product, *by_name, knowledge) &&
      product.hazards.state == Classification::State::unknown) {
    std::vector<std::string> forms = {by_name->name + " without water of crystals, " +
                                      by_name->cas};
    for (const Substance* form : other_forms(*by_name, knowledge))
      forms.push_back(form->name + ", " + form->cas);
    tell(product.origin,
         {{"the name \"{1}\" leaves open which hydrate it is, and its hazards differ",
           {product.name}}},
         "add cas: from the tub: " + either(forms));
  }
  // On paper only the name is read, and the dry salt is up to three times as strong.
  if (by_cas != nullptr && by_name != by_cas && says_which_form(by_cas->name) &&
      !says_which_form(product.name)) {
    tell(product.origin,
         {{"the name \"{1}\" hides the crystal water: {2} is {3}",
           {product.name, product.cas, by_cas->name}}},
         "write name: " + by_cas->name + ", for whoever refills it goes by the name on the paper");
  }
  const Substance* known = by_cas != nullptr ? by_cas : substance_of(product, knowledge);
  doubt_the_limits(product, known, tell);
  doubt_the_strength(product, known, tell);
  doubt_the_rest(product, known, tell);
  if (known == nullptr || product.hazards.state == Classification::State::unknown) return;
  const bool solution = is_sold_as_solution(product, *known);
  std::vector<std::string> missing =
      left_out(product.hazards.classes,
               lawful_classes(*known, solution ? product.active : std::optional<Share>(),
                              room.hazard_rules));
  const auto law = solution ? std::nullopt : harmonised(product.hazards, *known, room.hazard_rules);
  if (law) missing = law->weakened;
  // Of a solution of known strength what is in it counts beside its classes.
  const bool is_law = has_harmonised_entries(room.hazard_rules.book);
  const bool graver_counts = law || denies_what_is_known(product, knowledge, room.hazard_rules) ||
                             (solution && product.active && is_law);
  const std::string again = "read sections 2 and 3 of the supplier's safety data sheet again";
  if (missing.empty()) return;
  tell(product.hazards.origin,
       {{"the hazards leave out or weaken {1}, which {2} has for {3}",
         {list_of(missing), known->hazards.source, known->name}}},
       !graver_counts ? again
       : is_law       ? "the label goes by the graver of both (CLP Article 4); " + again
                      : "the label goes by the graver of both; " + again);
}

std::string nearest_name(const Product& product, const Knowledge& knowledge) {
  std::vector<std::string> names;
  for (const Substance& substance : knowledge.substances) {
    names.push_back(substance.name);
    names.insert(names.end(), substance.also.begin(), substance.also.end());
  }
  const auto near = nearest(plain_name(product.name), names);
  return near ? "did you mean \"" + *near + "\"?" : "";
}

}  // namespace dosewright
