// What a careful person would mend in the hazards of a stock.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "findings.hpp"
#include "hazard_parts.hpp"
#include "identity.hpp"

namespace dosewright {

namespace {

// "whether it burns or feeds a fire is not known: undiluted, ethanol is Flam. Liq. 2 H225".
Phrases whether_it_burns(const Phrases& may_burn) {
  Phrases burns = {{"whether it burns or feeds a fire is not known: undiluted, ", {}}};
  for (const Phrase& one : may_burn) {
    if (burns.size() > 1) burns.push_back({", ", {}});
    burns.push_back(one);
  }
  return burns;
}

class HazardFindings {
 public:
  HazardFindings(const Room& room, const Knowledge& knowledge, Diagnostics& out)
      : room_(room), knowledge_(knowledge), out_(out) {}

  void look_at(const StockAnswer& answer) {
    if (answer.stock->hazards.assessment == Hazards::Assessment::computed) look_at_computed(answer);
    look_at_fire(answer);
    look_at_wording(answer);
    look_at_names(answer);
    look_at_overrules(answer);
  }

 private:
  void error(const Origin& origin, std::string message, std::string hint) {
    out_.push_back(
        {Severity::error, origin.place, origin.path, std::move(message), std::move(hint)});
  }
  void tell(const Origin& origin, Phrases message, std::string hint) {
    out_.push_back(said_finding(origin, std::move(message), std::move(hint)));
  }

  // What the calculation lacks: an unknown is said, never taken for harmless.
  void look_at_computed(const StockAnswer& answer) {
    const Stock& stock = *answer.stock;
    const MixtureClasses& found = answer.hazards.found;
    if (!found.unclassified.empty()) {
      tell(stock.origin,
           {{"the hazards of this stock have not been assessed: nothing is known of {1}",
             {list_of(found.unclassified)}}},
           name_hint(answer) +
               "add hazards: to the product, with the classes of the supplier's safety data sheet "
               "and the name of that sheet as source:");
    }
    for (const std::string& name : answer.hazards.unknown_weight) {
      if (among(found.unclassified, name)) continue;
      error(stock.origin, "the hazard rules go by weight, and " + name + " is measured by volume",
            "add density: to the product, such as 1.08 g/mL, or write its amount in grams");
    }
    for (const Phrase& outdated : answer.hazards.outdated)
      tell(stock.origin, {outdated},
           "give the classes of the supplier's safety data sheet under hazards: of the product");
    if (!answer.hazards.at_upper_end.empty()) {
      tell(stock.origin,
           {{"where the strength's error of {1} is on the strong side, it would also be {2}",
             {percent_above(answer.hazards.strength_error), list_of(answer.hazards.at_upper_end)}}},
           "weigh and make up more exactly, mix it weaker, or state the hazards under hazards:");
    }
    if (!found.m_open.empty()) {
      tell(stock.origin,
           {{"no M-factor of {1} is known: the stock can harm water life more than its label says",
             {list_of(found.m_open)}}},
           "add m acute: and m chronic: to the product's hazards, from section 2, 3 or 12 of its "
           "safety data sheet");
    }
    look_at_ph(answer);
    look_at_stronger(answer);
  }

  // Also where the hazards are stated, unless they speak of fire.
  void look_at_fire(const StockAnswer& answer) {
    const Hazards& stated = answer.stock->hazards;
    const bool said =
        std::any_of(stated.statements.begin(), stated.statements.end(),
                    [](const StatementCode& one) { return one.code.starts_with("H2"); });
    if (said || answer.hazards.found.may_burn.empty()) return;
    tell(answer.stock->origin, whether_it_burns(answer.hazards.found.may_burn),
         "ask its supplier, and write hazards: {tested: {physical: none}, source: …}, or the class "
         "in place of none");
  }

  void look_at_stronger(const StockAnswer& answer) {
    if (answer.hazards.stronger_states.empty()) return;
    std::vector<std::string> codes;
    for (const PrintedStatement& one : answer.hazards.stronger_states) codes.push_back(one.code);
    tell(answer.stock->origin,
         {{"{1} is stated to be {2}, which its ingredients do not explain: for this weaker stock "
           "nobody has said it",
           {answer.stock->stronger->name, list_of(codes)}}},
         "give the product its classes, as its data sheet has them, or state the hazards of this "
         "strength under hazards:");
  }

  // The known names nearest to those of which nothing is known.
  [[nodiscard]] std::string name_hint(const StockAnswer& answer) const {
    for (const Ingredient& ingredient : answer.stock->recipe) {
      const Product& product = *find(room_.products, ingredient.product);
      const bool unknown = among(answer.hazards.found.unclassified, product.name);
      const std::string near = nearest_name(product, knowledge_);
      const bool is_known = known_as(knowledge_, product.name) != nullptr;
      if (unknown && !is_known && product.cas.empty() && !near.empty()) return near + " Else ";
    }
    return "";
  }

  void look_at_ph(const StockAnswer& answer) {
    if (!answer.hazards.found.ph_open) return;
    for (const HazardPart& part : answer.hazards.mixture.parts) {
      if (!part.acid && !part.base) continue;
      tell(answer.stock->origin,
           {{"the pH of this stock is not known, and {1} can make it corrosive at any strength",
             {part.name}}},
           "measure it and write hazards: with ph: below it");
      return;
    }
  }

  // A statement that the label's language lacks would be missing without a trace.
  void look_at_wording(const StockAnswer& answer) {
    std::vector<std::string> missing = answer.hazards.block.untranslated;
    if (missing.empty()) return;
    std::sort(missing.begin(), missing.end());
    missing.erase(std::unique(missing.begin(), missing.end()), missing.end());
    error(answer.stock->origin, "the label's language has no wording for " + all_of(missing),
          "choose another hazard language: in room:");
  }

  // The built-in names of chemicals are known in few languages.
  void look_at_names(const StockAnswer& answer) {
    for (const std::string& name : answer.hazards.names_in_english)
      tell(answer.stock->origin,
           {{"EUH208 names {1} in English, for its name in the label's language is not known",
             {name}}},
           "describe it as a product with that name and its cas:, and write the product under "
           "contains:");
    for (const std::string& organs : answer.hazards.organs_in_english)
      tell(answer.stock->origin,
           {{"{1} names organs ({2}) whose words in the label's language are not known",
             {organs.substr(0, organs.find(' ')), organs.substr(organs.find(' ') + 1)}}},
           "write the organs in the language of the label, as the data sheet in that language has "
           "them");
    for (const HazardClass& one : answer.hazards.found.supplements) {
      if (one.statement != "EUH208" || !is_unnamed_mixture(one.fill)) continue;
      tell(answer.stock->origin,
           {{"EUH208 names {1}, and nobody has said what in it sensitises", {one.fill}}},
           "add contains: to the product, with the sensitiser from section 3 of its data sheet; or "
           "cas:, if it is one chemical");
    }
  }

  // A product of which nobody has said what it is or contains.
  [[nodiscard]] bool is_unnamed_mixture(const std::string& name) const {
    for (const Product& product : room_.products) {
      if (product.name != name) continue;
      return product.form == Product::Form::liquid && product.contains.empty() &&
             product.cas.empty() && substance_of(product, knowledge_) == nullptr;
    }
    return false;
  }

  void look_at_overrules(const StockAnswer& answer) {
    const Hazards& hazards = answer.stock->hazards;
    if (!answer.hazards.block.left_out.empty()) {
      tell(hazards.origin,
           {{"the statements call for {1}, which the description overrules",
             {list_of(answer.hazards.block.left_out)}}},
           "take signal: and pictograms: out, unless the safety data sheet for this strength says "
           "so");
    }
    std::vector<std::string> found;
    for (const HazardClass& one : answer.hazards.found.classes)
      found.push_back(one.name + ' ' + one.statement);
    for (const HazardClass& one : answer.hazards.found.supplements) found.push_back(one.statement);
    if (hazards.assessment == Hazards::Assessment::not_classified && !found.empty()) {
      tell(hazards.origin,
           {{"it is stated as not classified, and the calculation gives {1}", {list_of(found)}}},
           "take not classified: out, or state under tested: what was tested");
    }
    if (hazards.assessment == Hazards::Assessment::classified) look_at_milder(answer);
    if (!hazards.statements.empty() && hazards.precautions.empty()) {
      tell(hazards.origin, {{"hazard statements without precautions", {}}},
           "add precautions: from the safety data sheet, such as [P264, P280: eye protection]");
    }
  }

  // What is stated of the solution, and is less than the calculation gives.
  void look_at_milder(const StockAnswer& answer) {
    std::vector<std::string> stated;
    for (const StatementCode& one : answer.stock->hazards.statements) stated.push_back(one.code);
    std::vector<std::string> more;
    for (const HazardClass& one : answer.hazards.found.classes) {
      if (!is_said_by(one.statement, stated)) more.push_back(one.name + ' ' + one.statement);
    }
    for (const HazardClass& one : answer.hazards.found.supplements) {
      if (!among(stated, one.statement)) more.push_back(one.statement);
    }
    if (more.empty()) return;
    tell(answer.stock->hazards.origin,
         {{"the statements are milder than the calculation, which gives {1}", {list_of(more)}}},
         "ask for the data sheet of this strength again; what causes cancer or harms genes or the "
         "unborn child goes by its ingredients (CLP Article 6 (3))");
  }

  const Room& room_;
  const Knowledge& knowledge_;
  Diagnostics& out_;
};

}  // namespace

std::string percent_above(Share part) {
  const double value = as_ratio(part) * 100;
  const double unit = value >= 100 ? 1 : 0.1;
  return significant_figure(std::ceil(value / unit - 1e-6) * unit, 4) + " %";
}

Diagnostic said_finding(const Origin& origin, Phrases message, std::string hint) {
  return {Severity::finding,   origin.place,    origin.path,
          in_english(message), std::move(hint), std::move(message)};
}

namespace {

bool is_sensitising(const std::vector<HazardClass>& classes) {
  return std::any_of(classes.begin(), classes.end(), [](const HazardClass& one) {
    return one.endpoint == Endpoint::skin_sensitisation ||
           one.endpoint == Endpoint::respiratory_sensitisation;
  });
}

}  // namespace

void collect_contradictions(const Product& product, const Room& room, const HazardSources& sources,
                            Diagnostics& out) {
  if (product.contains.empty() || product.hazards.state == Classification::State::unknown) return;
  const HazardAnswer tub = answer_tub_hazards(room, product, sources);
  std::vector<HazardClass> found = tub.found.classes;
  found.insert(found.end(), tub.found.supplements.begin(), tub.found.supplements.end());
  // The name that a sensitiser is given anyway.
  std::erase_if(found, [&](const HazardClass& one) {
    // What only concerns sale to the public no data sheet need have.
    return one.statement == "EUH206" ||
           (one.statement == "EUH208" && is_sensitising(product.hazards.classes));
  });
  if (!tub.found.may_burn.empty())
    out.push_back(said_finding(product.hazards.origin, whether_it_burns(tub.found.may_burn),
                               "ask its supplier, and add the class to its hazards:"));
  const std::vector<std::string> missing = left_out(product.hazards.classes, found);
  if (!missing.empty())
    out.push_back(said_finding(
        product.hazards.origin,
        {{"the classes of {1} leave out or weaken {2}, which it has by what it contains",
          {product.name, list_of(missing)}}},
        "the label goes by the graver of both; read sections 2 and 3 of the supplier's safety data "
        "sheet again"));
  if (!missing.empty()) {
    for (const Phrase& outdated : tub.outdated)
      out.push_back(said_finding(product.hazards.origin, {outdated},
                                 "compare it with the supplier's safety data sheet"));
  }
  std::vector<std::string> unexplained;
  const MixtureClasses by_contents = classes_by_contents(room, sources, product);
  for (const HazardClass& one : product.hazards.classes) {
    if (!asks_for_a_name(one.endpoint, one.name)) continue;
    const std::vector<PartMember>& members = tub.mixture.parts.front().members;
    const bool explained =
        std::any_of(members.begin(), members.end(), [&](const PartMember& member) {
          const bool by_ph = member.acid_or_base &&
                             (one.endpoint == Endpoint::skin || one.endpoint == Endpoint::eye);
          return by_ph || (!acts_alone(one.endpoint) &&
                           adds_to(member, one.endpoint, one.statement, share(1)));
        });
    const bool reached =
        std::any_of(by_contents.classes.begin(), by_contents.classes.end(),
                    [&](const HazardClass& other) { return is_as_grave_as_stated(other, one); });
    if (!explained && !reached) unexplained.push_back(one.name + ' ' + one.statement);
  }
  if (unexplained.empty()) return;
  out.push_back(said_finding(
      product.hazards.origin,
      {{"nothing that {1} is said to contain is known to cause {2}; the label must name what does",
        {product.name, list_of(unexplained)}}},
      "write what causes it under contains:, as a product of its own with its hazards: from "
      "section "
      "3 of the safety data sheet"));
}

void collect_hazards(const Room& room, const StockAnswer& stock, const Knowledge& knowledge,
                     Diagnostics& out) {
  HazardFindings(room, knowledge, out).look_at(stock);
}

}  // namespace dosewright
