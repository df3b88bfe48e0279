// From a recipe to its hazards: shares by weight, what is known of each ingredient, the classes,
// and which stocks must not meet.
#include <algorithm>
#include <cmath>

#include "dosewright/answer/answer.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "identity.hpp"
#include "solution.hpp"

namespace dosewright {

namespace {

const Classification& unknown_hazards() {
  static const Classification unknown;
  return unknown;
}

// Results whose ingredients the label must name (CLP Article 18 (3)): not irritation of skin and
// eyes.
bool asks_for_a_name(const RuleStep& step) {
  // That sentence holds the name already.
  if (step.gives == "EUH208") return false;
  switch (step.endpoint) {
    case Endpoint::skin:
      return step.gives.starts_with("Skin Corr.");
    case Endpoint::eye:
      return step.gives.starts_with("Eye Dam.");
    case Endpoint::aquatic_acute:
    case Endpoint::aquatic_chronic:
    case Endpoint::ozone:
    case Endpoint::physical:
    case Endpoint::supplement:
      return false;
    default:
      return true;
  }
}

// A liquid that has the hazards of the table is the chemical itself by this part. The rest is water
// where such solutions are what is sold (Note B of CLP Annex VI); else nobody has said.
std::optional<Share> held_by(const Product& product, const Substance* substance) {
  const bool by_table = product.hazards.state == Classification::State::unknown;
  const bool classified =
      substance != nullptr && substance->hazards.state == Classification::State::classified;
  if (!classified || !by_table) return {};
  return product.form == Product::Form::liquid ? product.active : std::nullopt;
}

// A bought mixture that nobody has classified as a whole is worked out from what it contains.
bool is_calculated(const Product& product) {
  return !product.contains.empty() && product.hazards.state == Classification::State::unknown;
}

bool has_classes_and_contents(const Product& product) {
  return !product.contains.empty() && product.hazards.state != Classification::State::unknown;
}

// Gathers the parts of one mixture.
class PartsMaker {
 public:
  // Parts go into `mixture`. `apart`: mixtures with classes of their own are taken apart, too.
  PartsMaker(const Room& room, const HazardSources& sources, HazardAnswer& out,
             HazardMixture& mixture, bool apart)
      : room_(room), sources_(sources), out_(out), mixture_(mixture), apart_(apart) {}

  // A product that makes up this part of the whole; a bought mixture gives its contents.
  void add(const Product& product, Share least, Share most) {
    const bool apart = apart_ && has_classes_and_contents(product);
    if (!apart && !is_calculated(product)) {
      add_one(product, least, most);
      return;
    }
    double known = 0;
    for (const Content& content : product.contains) {
      const double part = as_ratio(content.part);
      known += part;
      add_content(content, least * part, most * part);
    }
    // What the rest does is in the classes of the whole.
    if (known > 1 - 1e-9 || apart) return;
    HazardPart rest = blank("rest of " + product.id, "the rest of " + product.name);
    rest.least = least * (1 - known);
    rest.most = most * (1 - known);
    mixture_.parts.push_back(rest);
  }

 private:
  static HazardPart blank(const std::string& id, const std::string& name) {
    HazardPart part;
    part.id = id;
    part.name = name;
    part.known = &unknown_hazards();
    return part;
  }

  void add_content(const Content& content, Share least, Share most) {
    if (const Product* product = find(room_.products, content.what)) {
      // A mixture inside a mixture inside a mixture is one too many: it stays unknown.
      if (!is_calculated(*product)) return add_one(*product, least, most);
      HazardPart part = blank(product->id, product->name);
      part.least = least;
      part.most = most;
      mixture_.parts.push_back(part);
      return;
    }
    const Substance& substance = *known_as(sources_.knowledge, content.what);
    HazardPart part = blank(substance.cas, substance.name);
    part.least = least;
    part.most = most;
    take_default(substance, part);
    add_strength(substance, most, part);
    mixture_.parts.push_back(part);
  }

  // Nothing where nobody has said how strong a liquid is that is sold in several strengths.
  static std::optional<Share> strength_in(const Product& product, Share most) {
    if (product.active) return most * as_ratio(*product.active);
    return product.form == Product::Form::liquid ? std::nullopt : std::optional(most);
  }

  // "formaldehyde 5.12 % w/w": Note B of CLP Annex VI, 1.1.3.1, asks for the strength on the label.
  static void add_strength(const Substance& substance, std::optional<Share> strength,
                           HazardPart& part) {
    if (substance.named_by_strength.empty()) return;
    const std::string name = part.label_name.fills.empty() ? part.name : part.label_name.fills[0];
    part.label_name = {"{1} (strength not stated)", {name}};
    if (strength)
      part.label_name = {"{1} {2} " + substance.named_by_strength,
                         {name, significant_figure(as_ratio(*strength) * 100, 3) + " %"}};
  }

  void add_one(const Product& product, Share least, Share most) {
    const Substance* substance = substance_of(product, sources_.knowledge);
    const std::optional<Share> holds = held_by(product, substance);
    const Share whole_least = least;
    const Share whole_most = most;
    if (holds) {
      least = least * as_ratio(*holds);
      most = most * as_ratio(*holds);
    }
    HazardPart part = blank(product.cas.empty() ? product.name : product.cas, product.name);
    part.least = least;
    part.most = most;
    const std::vector<std::string> families = families_of(product, room_, sources_.knowledge);
    part.acid = among(families, "acid");
    // Its solutions are kept alkaline.
    part.base = among(families, "base") || among(families, "hypochlorite");
    if (substance != nullptr) {
      part.label_name = {"{1}", {chemical_name(product, *substance)}};
      add_strength(*substance, holds ? most : strength_in(product, most), part);
      if (!product.hazards.inhaled_stated && substance->hazards.inhaled_stated)
        part.inhaled_as = substance->hazards.inhaled_as;
    }
    if (product.hazards.state != Classification::State::unknown) {
      part.known = &product.hazards;
      part.members = members_of(product, most);
      if (product.hazards.completed) add_to(out_.by_default, part.name);
      if (product.hazards.state == Classification::State::not_classified)
        add_to(out_.taken_as_harmless, part.name);
    } else if (substance != nullptr) {
      take_default(*substance, part);
    }
    mixture_.parts.push_back(part);
    if (!holds || !substance->named_by_strength.empty() || *holds >= share(1)) return;
    HazardPart rest = blank("rest of " + product.id, "the rest of " + product.name);
    rest.least = whole_least * (1 - as_ratio(*holds));
    rest.most = whole_most * (1 - as_ratio(*holds));
    mixture_.parts.push_back(rest);
  }

  // What a mixture with classes of its own is made of, as a label names it (CLP Article 18 (3)).
  [[nodiscard]] std::vector<PartMember> members_of(const Product& product, Share most) const {
    std::vector<PartMember> out;
    HazardAnswer unused;
    HazardMixture inner;
    PartsMaker maker(room_, sources_, unused, inner, false);
    for (const Content& content : product.contains) {
      maker.add_content(content, Share(), most * as_ratio(content.part));
      const HazardPart& part = inner.parts.back();
      const bool named = !part.label_name.fills.empty();
      out.push_back({named ? part.label_name : Phrase{"{1}", {part.name}}, part.known});
    }
    return out;
  }

  static void add_to(std::vector<std::string>& names, const std::string& name) {
    if (!among(names, name)) names.push_back(name);
  }

  void take_default(const Substance& substance, HazardPart& part) {
    part.acid = part.acid || among(substance.families, "acid");
    part.base = part.base || among(substance.families, "base");
    if (substance.hazards.state == Classification::State::unknown) return;
    part.known = &substance.hazards;
    if (!substance.inert) add_to(out_.by_default, part.name);
    if (substance.outdated.empty()) return;
    const Phrase outdated{"the built-in entry of {1} is out of date: {2}",
                          {part.name, substance.outdated}};
    const bool there =
        std::any_of(out_.outdated.begin(), out_.outdated.end(),
                    [&](const Phrase& one) { return in_english({one}) == in_english({outdated}); });
    if (!there) out_.outdated.push_back(outdated);
  }

  const Room& room_;
  const HazardSources& sources_;
  HazardAnswer& out_;
  HazardMixture& mixture_;
  bool apart_ = false;
};

// One product and its share of the whole.
struct ProductShare {
  const Product* product = nullptr;
  Share least;
  Share most;
};

// The parts that these products come to; with mixtures also taken apart where `apart` says so.
void gather(const Room& room, const HazardSources& sources,
            const std::vector<ProductShare>& products, bool apart, HazardAnswer& answer) {
  PartsMaker whole(room, sources, answer, answer.mixture, false);
  for (const ProductShare& one : products) whole.add(*one.product, one.least, one.most);
  const bool any = std::any_of(products.begin(), products.end(), [](const ProductShare& one) {
    return has_classes_and_contents(*one.product);
  });
  if (!apart || !any) return;
  HazardMixture taken_apart = answer.mixture;
  taken_apart.parts.clear();
  PartsMaker maker(room, sources, answer, taken_apart, true);
  for (const ProductShare& one : products) maker.add(*one.product, one.least, one.most);
  answer.by_contents = taken_apart;
}

MixtureClasses classes_of(const HazardMixture& whole,
                          const std::optional<HazardMixture>& by_contents,
                          const HazardRules& rules) {
  MixtureClasses out = classify(whole, rules);
  if (!by_contents) return out;
  keep_graver(out, classify(*by_contents, rules));
  std::vector<std::string> names;
  for (const HazardPart& part : whole.parts) {
    if (!part.members.empty()) names.push_back(part.name);
  }
  out.notes.push_back(
      {"{1}: calculated by the classes of the data sheet and by what is in it; what is graver "
       "counts",
       {list_of(names)}});
  return out;
}

void add_name(const Phrase& name, HazardAnswer& answer) {
  const bool there =
      std::any_of(answer.to_be_named.begin(), answer.to_be_named.end(),
                  [&](const Phrase& known) { return in_english({known}) == in_english({name}); });
  if (!there) answer.to_be_named.push_back(name);
}

// Which ingredients brought about a class that asks for their names.
void name_ingredients(HazardAnswer& answer) {
  for (const RuleStep& step : answer.found.steps) {
    if (!step.met || !asks_for_a_name(step)) continue;
    std::vector<HazardPart> parts = answer.mixture.parts;
    if (answer.by_contents)
      parts.insert(parts.end(), answer.by_contents->parts.begin(), answer.by_contents->parts.end());
    for (const HazardPart& part : parts) {
      if (!among(step.counted, part.name)) continue;
      for (const Phrase& name : names_for(part, step.endpoint)) add_name(name, answer);
    }
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
  std::optional<HazardMixture> apart;
  if (answer.by_contents) apart = stronger(*answer.by_contents);
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

void finish(const Room& room, const HazardSources& sources, const Hazards& stated,
            const LabelFacts& facts, HazardAnswer& answer) {
  answer.found = classes_of(answer.mixture, answer.by_contents, room.hazard_rules);
  name_ingredients(answer);
  look_at_upper_end(room, answer);
  if (stated.assessment != Hazards::Assessment::computed) {
    answer.block = hazard_block(stated, sources.statements);
    return;
  }
  LabelFacts all = facts;
  all.vapours = gives_vapours(answer.mixture);
  answer.block = computed_block(answer.found, all, room.hazard_rules.book,
                                {sources.statements, sources.classes});
  answer.block.basis = basis_of(answer);
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
    if (inner != nullptr && inner->contains.empty()) add(families_of(*inner, room, knowledge));
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
    gather(room, sources, {{&product, share(1), share(1)}}, false, answer);
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
    products.push_back({&product, weight ? part(density.most) : Share(), part(density.least)});
  }
  gather(room, sources, products, true, answer);
  finish(room, sources, stock.hazards, {false, stock.hazards.sprayed}, answer);
  return answer;
}

HazardAnswer answer_tub_hazards(const Room& room, const Product& product,
                                const HazardSources& sources) {
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
  gather(room, sources, {{&product, share(1), share(1)}}, false, answer);
  finish(room, sources, stated, {!liquid, false}, answer);
  if (product.hazards.state != Classification::State::unknown)
    answer.block.basis = product.hazards.source;
  answer.basis_stated = product.hazards.state != Classification::State::unknown;
  // The label of a substance has its chemical name in any case (CLP Article 18 (2)).
  if (substance != nullptr && chemical_name(product, *substance) != product.name) {
    add_name(answer.mixture.parts.front().label_name, answer);
  }
  return answer;
}

}  // namespace dosewright
