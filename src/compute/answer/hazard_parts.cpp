// What a mixture is made of for the hazard rules: bought mixtures taken apart, chemicals by the
// built-in table.
#include "hazard_parts.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "harmonised.hpp"
#include "identity.hpp"

namespace dosewright {

namespace {

const Classification& unknown_hazards() {
  static const Classification unknown;
  return unknown;
}

}  // namespace

HazardClass class_with(const std::string& code, const std::string& fill, const ClassBook& classes,
                       RuleBookName book) {
  for (const std::string& name : classes.names()) {
    if (classes.find(name, code, book) != nullptr)
      return {endpoint_of(name, code), name, code, fill};
  }
  return {Endpoint::supplement, code, code, fill};
}

std::string organs_in_words(const std::string& organs, const HazardSources& sources) {
  std::string out;
  for (const std::string& organ : without_routes(named_in(organs)))
    out += (out.empty() ? "" : ", ") + (sources.organ ? sources.organ(organ) : organ);
  return out;
}

bool acts_alone(Endpoint endpoint) {
  return endpoint == Endpoint::supplement ||
         (endpoint >= Endpoint::respiratory_sensitisation &&
          endpoint <= Endpoint::single_exposure) ||
         endpoint == Endpoint::repeated_exposure;
}

bool asks_for_a_name(Endpoint endpoint, const std::string& class_name) {
  switch (endpoint) {
    case Endpoint::skin:
      return class_name.starts_with("Skin Corr.");
    case Endpoint::eye:
      return class_name.starts_with("Eye Dam.");
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
bool is_as_grave_as_stated(HazardClass found, const HazardClass& stated) {
  if (found.fill.empty()) found.fill = stated.fill;
  return is_as_grave(found, stated);
}

void take_organs(const Classification& from, Classification& into) {
  const auto name = [&](HazardClass& mine) {
    if (!mine.fill.empty() || mine.statement.rfind("H37", 0) != 0) return;
    for (const HazardClass& one : from.classes) {
      if (one.endpoint == mine.endpoint) mine.fill = one.fill;
    }
  };
  for (HazardClass& one : into.classes) name(one);
  for (LimitBand& band : into.limits) name(band.gives);
}

std::optional<Share> held_by(const Product& product, const Substance* substance) {
  const bool by_table = product.hazards.state == Classification::State::unknown;
  const bool classified =
      substance != nullptr && substance->hazards.state == Classification::State::classified;
  if (!classified || !by_table) return {};
  return product.form == Product::Form::liquid ? product.active : std::nullopt;
}

Product without_hazards(const Product& product) {
  Product out = product;
  out.hazards = Classification();
  return out;
}

// A bought mixture that nobody has classified as a whole is worked out from what it contains.
bool is_calculated(const Product& product) {
  return !product.contains.empty() && product.hazards.state == Classification::State::unknown;
}

std::vector<Content> contents_of(const Product& product, const Knowledge& knowledge) {
  const Substance* substance = substance_of(product, knowledge);
  const bool solution = substance != nullptr && product.form == Product::Form::liquid &&
                        product.active && product.hazards.state != Classification::State::unknown &&
                        substance->hazards.state == Classification::State::classified &&
                        is_sold_as_solution(product, *substance);
  if (!solution) return product.contains;
  std::vector<Content> out = {{substance->cas, product.origin, *product.active}};
  const Substance* water = known_as(knowledge, "water");
  if (!substance->named_by_strength.empty() && water != nullptr)
    out.push_back({water->cas, product.origin, share(1 - as_ratio(*product.active))});
  return out;
}

namespace {

using Apart = std::vector<const Product*>;

// Gathers the parts of one mixture.
class PartsMaker {
 public:
  // Parts go into `mixture`. `apart`: which mixtures with classes of their own are taken apart;
  // `by_law`: chemicals that a data sheet has milder than the law have the classes of the law.
  PartsMaker(const Room& room, const HazardSources& sources, HazardAnswer& out,
             HazardMixture& mixture, Apart apart, bool by_law = false)
      : room_(room),
        sources_(sources),
        out_(out),
        mixture_(mixture),
        apart_(std::move(apart)),
        by_law_(by_law) {}

  // A product that makes up this part of the whole; a bought mixture gives its contents.
  void add(const Product& product, Share least, Share most) {
    if (denies_what_is_known(product, sources_.knowledge, room_.hazard_rules)) {
      add_one(without_hazards(product), least, most);
      return;
    }
    const bool apart = std::find(apart_.begin(), apart_.end(), &product) != apart_.end();
    if (!apart && !is_calculated(product)) {
      add_one(product, least, most);
      return;
    }
    double known = 0;
    for (const Content& content : contents_of(product, sources_.knowledge)) {
      const double part = as_ratio(content.part);
      known += part;
      add_content(content, least * part, most * part, apart ? &product.hazards : nullptr);
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

  // `sheet`: of the mixture that it is in, where that has one.
  void add_content(const Content& content, Share least, Share most,
                   const Classification* sheet = nullptr) {
    if (const Product* product = find(room_.products, content.what)) {
      add(*product, least, most);
      return;
    }
    const Substance& substance = *known_as(sources_.knowledge, content.what);
    HazardPart part = blank(substance.cas, substance.name);
    part.least = least;
    part.most = most;
    take_default(substance, part);
    add_strength(substance, most, part);
    if (sheet != nullptr) go_by_sheet(*sheet, part);
    mixture_.parts.push_back(part);
  }

  // What the sheet of a mixture knows better of what is in it: M-factors, which are those of a
  // substance (CLP Article 10), and organs.
  static void go_by_sheet(const Classification& sheet, HazardPart& part) {
    Classification better = *part.known;
    const auto lists = [&](Endpoint endpoint) {
      return std::any_of(better.classes.begin(), better.classes.end(),
                         [&](const HazardClass& one) { return one.endpoint == endpoint; });
    };
    const auto raise = [&](Endpoint endpoint, std::optional<int>& mine,
                           const std::optional<int>& theirs) {
      if (theirs && lists(endpoint) && (!mine || *theirs > *mine)) mine = theirs;
    };
    raise(Endpoint::aquatic_acute, better.m_acute, sheet.m_acute);
    raise(Endpoint::aquatic_chronic, better.m_chronic, sheet.m_chronic);
    take_organs(sheet, better);
    part.made = std::make_shared<const Classification>(std::move(better));
    part.known = part.made.get();
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
    const std::string& by = substance.named_by_strength;
    if (strength)
      part.label_name = {by == "w/w" ? "{1} {2} w/w" : "{1} ({2} " + by + ')',
                         {name, significant_figure(as_ratio(*strength) * 100, 3) + " %"}};
  }

  // "phosphoric acid" is an acid, also where nobody has listed it; "phosphoric acid ester" by its
  // name as well, which costs a look at its pH.
  static bool is_corrosive_called(const Product& product, const std::string& word) {
    const auto& classes = product.hazards.classes;
    const bool corrosive = std::any_of(classes.begin(), classes.end(), [](const HazardClass& one) {
      return one.statement == "H314" || one.statement == "H318" || one.statement == "H290";
    });
    return corrosive && among(split(lowered(product.name), ' '), word);
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
    part.acid = among(families, "acid") || is_corrosive_called(product, "acid");
    // Its solutions are kept alkaline.
    part.base = among(families, "base") || among(families, "hypochlorite") ||
                is_corrosive_called(product, "hydroxide");
    if (substance != nullptr) {
      part.label_name = {"{1}", {chemical_name(product, *substance)}};
      add_strength(*substance, holds ? most : strength_in(product, most), part);
    }
    if (product.hazards.state != Classification::State::unknown) {
      part.known = &product.hazards;
      part.members = members_of(product, most);
      leave_to_members(product, part);
      go_by_law(product, substance, part);
      if (!product.hazards.inhaled_stated)
        part.inhaled_as = breathed_in_as(product, room_, sources_.knowledge);
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
    // With the classes that each has by itself.
    inner.as_supplied = true;
    PartsMaker maker(room_, sources_, unused, inner, {});
    for (const Content& content : contents_of(product, sources_.knowledge))
      maker.add_content(content, Share(), most * as_ratio(content.part));
    for (const HazardPart& part : inner.parts) {
      const bool named = !part.label_name.fills.empty();
      out.push_back({named ? part.label_name : Phrase{"{1}", {part.name}}, part.known, part.most,
                     Share(), part.acid || part.base, part.members});
    }
    set_undiluted(out, most);
    return out;
  }

  static void set_undiluted(std::vector<PartMember>& members, Share whole) {
    for (PartMember& member : members) {
      member.undiluted = as_ratio(whole) > 0 ? share(member.most / whole) : Share();
      set_undiluted(member.members, whole);
    }
  }

  // Where all that is in a dilution is known, its effects go by the share of what has them, with
  // the limits of that (CLP Annex I, 1.1.2.1); the mixture is taken apart for it.
  void leave_to_members(const Product& product, HazardPart& part) const {
    double known = 0;
    for (const Content& content : contents_of(product, sources_.knowledge))
      known += as_ratio(content.part);
    const bool complete = known > 1 - 1e-9 && all_classified(part.members);
    if (mixture_.as_supplied || !complete) return;
    // Only a class that the contents reach undiluted is left to them.
    const MixtureClasses found = classes_by_contents(room_, sources_, product);
    auto rest = std::make_shared<Classification>(product.hazards);
    std::erase_if(rest->classes, [&](const HazardClass& one) {
      const auto explains = [&](const HazardClass& other) {
        // A sub-category of corrosion is no other effect.
        if (one.endpoint == Endpoint::supplement || one.endpoint == Endpoint::skin)
          return other.endpoint == one.endpoint && other.statement <= one.statement;
        return is_as_grave_as_stated(other, one);
      };
      const auto& all = one.endpoint == Endpoint::supplement ? found.supplements : found.classes;
      return one.endpoint != Endpoint::physical && std::any_of(all.begin(), all.end(), explains);
    });
    std::erase_if(rest->limits, [&](const LimitBand& band) {
      return std::none_of(rest->classes.begin(), rest->classes.end(), [&](const HazardClass& one) {
        return one.endpoint == band.gives.endpoint;
      });
    });
    if (rest->classes.size() < product.hazards.classes.size()) part.stated = &product.hazards;
    part.made = rest;
    part.known = rest.get();
  }

  // Where the law has the chemical in a graver class than its data sheet, or from a lower share on.
  void go_by_law(const Product& product, const Substance* substance, HazardPart& part) const {
    if (substance == nullptr || is_sold_as_solution(product, *substance)) return;
    const auto law = harmonised(product.hazards, *substance, room_.hazard_rules);
    if (!law) return;
    part.milder_than_law = true;
    add_to(out_.by_default, part.name);
    if (!by_law_) return;
    part.made = std::make_shared<const Classification>(law->mended);
    part.known = part.made.get();
  }

  static bool all_classified(const std::vector<PartMember>& members) {
    return std::all_of(members.begin(), members.end(), [](const PartMember& member) {
      return member.known->state != Classification::State::unknown;
    });
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
    add_once(out_.outdated, outdated);
  }

  const Room& room_;
  const HazardSources& sources_;
  HazardAnswer& out_;
  HazardMixture& mixture_;
  Apart apart_;
  bool by_law_;
};

// The mixtures with classes of their own that are in this one, however deep.
void find_both(const Product& product, const Room& room, const Knowledge& knowledge, Apart& out) {
  const bool both = product.hazards.state != Classification::State::unknown &&
                    !contents_of(product, knowledge).empty();
  if (both && std::find(out.begin(), out.end(), &product) == out.end()) out.push_back(&product);
  for (const Content& content : product.contains) {
    if (const Product* inner = find(room.products, content.what))
      find_both(*inner, room, knowledge, out);
  }
}

// Which of them to take apart, one list for each way: every choice where there are few of them,
// for each product may enter a sum in its graver way.
std::vector<Apart> ways_of(const Apart& all) {
  constexpr std::size_t kFew = 4;
  if (all.empty()) return {};
  std::vector<Apart> out = {all};
  if (all.size() > kFew) return out;
  for (std::size_t choice = 1; choice + 1 < (1U << all.size()); ++choice) {
    Apart some;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if ((choice >> i & 1U) != 0) some.push_back(all[i]);
    }
    out.push_back(some);
  }
  return out;
}

}  // namespace

MixtureClasses classes_by_contents(const Room& room, const HazardSources& sources,
                                   const Product& product) {
  HazardAnswer answer;
  answer.mixture.as_bought = true;
  answer.mixture.solution = product.form == Product::Form::liquid;
  Apart both;
  find_both(product, room, sources.knowledge, both);
  PartsMaker(room, sources, answer, answer.mixture, both).add(product, share(1), share(1));
  return classify(answer.mixture, room.hazard_rules);
}

void gather(const Room& room, const HazardSources& sources,
            const std::vector<ProductShare>& products, HazardAnswer& answer) {
  const auto add_all = [&](PartsMaker maker) {
    for (const ProductShare& one : products) maker.add(*one.product, one.least, one.most);
  };
  const HazardMixture facts = answer.mixture;
  add_all(PartsMaker(room, sources, answer, answer.mixture, {}));
  Apart both;
  for (const ProductShare& one : products) find_both(*one.product, room, sources.knowledge, both);
  const auto add_way = [&](const Apart& apart, bool by_law) {
    HazardMixture mixture = facts;
    // What its parts come to is calculated, also of a whole as its data sheet has it.
    mixture.as_supplied = facts.as_supplied && apart.empty();
    add_all(PartsMaker(room, sources, answer, mixture, apart, by_law));
    const bool changed = std::any_of(mixture.parts.begin(), mixture.parts.end(),
                                     [](const HazardPart& part) { return part.milder_than_law; });
    if (!by_law || changed) answer.by_contents.push_back(std::move(mixture));
  };
  for (const Apart& apart : ways_of(both)) add_way(apart, false);
  add_way(both, true);
}

}  // namespace dosewright
