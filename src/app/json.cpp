// The answers as JSON: documented in README.md and stable, for scripts to lean on.
#include <cmath>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

using Json = nlohmann::ordered_json;

// Twelve figures: what the arithmetic is good for, without the noise of binary fractions.
double clean(double value) {
  if (value == 0) return 0;
  const double scale = std::pow(10.0, 11 - std::floor(std::log10(std::fabs(value))));
  return std::round(value * scale) / scale;
}

Json finding_json(const Diagnostic& problem) {
  Json out;
  out["severity"] = name_of(problem.severity);
  out["file"] = problem.place.source ? problem.place.source->name : "";
  out["line"] = problem.place.line;
  out["column"] = problem.place.column;
  out["path"] = problem.path;
  out["message"] = problem.message;
  out["hint"] = problem.hint;
  return out;
}

Json stock_json(const Room& room, const StockAnswer& stock) {
  Json out;
  out["stock"] = stock.stock->id;
  out["name"] = stock.stock->name;
  out["code"] = stock.code.letters;
  out["contents"] = contents_text(room, stock.mixture);
  out[stock.stock->dry ? "dose_g_per_L" : "dose_mL_per_L"] = clean(per_litre(stock.rate));
  out["days"] = stock.stock->dose.days;
  out[stock.stock->dry ? "total_g_per_L" : "total_mL_per_L"] = clean(per_litre(stock.all));
  out["strength_bound_percent"] = clean(100 * as_ratio(stock.mixture.strength_error.worst));
  return out;
}

Json vessel_json(const Vessel& vessel) {
  Json out;
  out["vessel"] = vessel.id;
  out["name"] = vessel.name;
  out["net_L"] = clean(in_litres(vessel.water));
  out["full_L"] = vessel.nominal ? Json(clean(in_litres(*vessel.nominal))) : Json();
  out["right_to_percent"] = clean(100 * as_ratio(vessel.right_to));
  return out;
}

Json statements_json(const std::vector<PrintedStatement>& statements) {
  Json out = Json::array();
  for (const PrintedStatement& one : statements)
    out.push_back({{"code", one.code}, {"text", one.text}});
  return out;
}

Json step_json(const RuleStep& step) {
  Json out;
  out["class"] = endpoint_words(step.endpoint);
  out["rule"] = in_english(step.rule);
  out["source"] = step.source;
  out["figures"] = in_english(step.figures);
  out["sum"] = clean(step.sum);
  out["limit"] = clean(step.limit);
  out["unit"] = step.unit;
  out["met"] = step.met;
  out["gives"] = step.gives;
  return out;
}

Json hazards_of(const StockAnswer& stock, const Room& room) {
  const HazardAnswer& answer = stock.hazards;
  const HazardBlock& block = answer.block;
  const bool computed = block.assessment == Hazards::Assessment::computed;
  Json out;
  out["stock"] = stock.stock->id;
  out["rule_book"] = rule_book_title(room.hazard_rules.book);
  out["basis"] = block.basis;
  out["stated"] = !computed;
  out["classes"] = Json::array();
  for (const HazardClass& one : answer.found.classes)
    out["classes"].push_back({{"class", one.name}, {"statement", one.statement}});
  out["signal_word"] = block.signal_word;
  out["pictograms"] = block.pictograms;
  out["statements"] = statements_json(block.hazards);
  out["precautionary"] = statements_json(block.precautions);
  out["supplemental"] = statements_json(block.supplements);
  out["ingredients"] = Json::array();
  for (const HazardPart& part : answer.mixture.parts) {
    out["ingredients"].push_back({{"name", part.name},
                                  {"percent_least", clean(100 * as_ratio(part.least))},
                                  {"percent_most", clean(100 * as_ratio(part.most))}});
  }
  out["steps"] = Json::array();
  for (const RuleStep& step : answer.found.steps) out["steps"].push_back(step_json(step));
  out["density"] = in_english(answer.density);
  out["unclassified"] = answer.found.unclassified;
  out["stated_of_stronger"] = statements_json(answer.stronger_states);
  out["not_evaluated"] = nlohmann::json::array();
  for (const Phrases& one : answer.found.not_evaluated)
    out["not_evaluated"].push_back(in_english(one));
  out["notes"] = each_in_english(answer.found.notes);
  out["defaults"] = answer.by_default;
  out["named"] = each_in_english(answer.to_be_named);
  return out;
}

std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

// Liquids are keyed in mL, powders in g: a script that expects the one never reads the other.
std::string key(const std::string& word, Portion portion) {
  return word + (portion.is_powder() ? "_g" : "_mL");
}

Json pour_json(const Pour& pour) {
  return {{"tool", pour.tool->id},
          {key("to", pour.to), clean(pour.to.stored())},
          {"count", pour.count}};
}

Json dilution_json(const WorkingDilution& dilution) {
  Json out;
  out["take"] = pour_json(dilution.take);
  out["make_up"] = pour_json(dilution.make_up);
  out["give"] = pour_json(dilution.give);
  return out;
}

Json one_dose(const StockDose& asked) {
  const StockAnswer& stock = *asked.stock;
  const DoseAnswer& dose = *asked.dose;
  const Portion kind = dose.exact;
  const bool can = dose.can_be_measured();
  const auto known = [&](Portion value) { return can ? Json(clean(value.stored())) : Json(); };
  Json out;
  out["stock"] = stock.stock->id;
  out["code"] = stock.code.letters;
  out["water"] = asked.water;
  out["volume_L"] = clean(in_litres(dose.water));
  out[key("exact", kind)] = clean(dose.exact.stored());
  out[key("measured", kind)] = known(dose.delivers);
  out["days"] = stock.stock->dose.days;
  out[key("total", kind)] = known(dose.delivers * stock.stock->dose.days);
  out[key("off_by", kind)] = known(dose.off_by);
  out[key("bound", kind)] = known(dose.error.bound);
  out[key("uncertainty", kind)] = known(dose.error.uncertainty);
  out["pours"] = Json::array();
  if (dose.measured.measured) {
    for (const Pour& pour : dose.measured.measured->pours) out["pours"].push_back(pour_json(pour));
  }
  out["working_dilution"] =
      dose.measured.dilution ? dilution_json(*dose.measured.dilution) : Json();
  out["rule"] = dose_remarks(stock, dose.water, asked.change);
  if (!can) out["problem"] = why_not(dose.measured);
  out["warnings"] = Json(dose_warnings(stock, dose));
  return out;
}

// g per L of a product; null for a liquid by volume.
Json strength_json(const Component& component) {
  const auto* weight = std::get_if<Concentration>(&component.strength);
  return weight != nullptr ? Json(clean(in_grams_per_litre(*weight))) : Json();
}

Json one_mix(const MixAnswer& mix) {
  Json out;
  out["stock"] = mix.stock->stock->id;
  out["code"] = mix.stock->code.letters;
  out["volume_mL"] = clean(in_millilitres(mix.filled.makes));
  out["container"] = mix.container != nullptr ? Json(mix.container->id) : Json();
  out["amounts"] = Json::array();
  for (const MixStep& step : mix.steps) {
    Json one = step.stronger != nullptr ? Json{{"stock", step.stronger->id}}
                                        : Json{{"product", step.product->id}};
    if (const auto* mass = std::get_if<Mass>(&step.amount)) one["g"] = clean(in_grams(*mass));
    if (const auto* volume = std::get_if<Volume>(&step.amount))
      one["mL"] = clean(in_millilitres(*volume));
    one["scooped"] = step.scooped;
    one["pours"] = Json::array();
    if (step.measured) {
      for (const Pour& pour : step.measured->pours) one["pours"].push_back(pour_json(pour));
    }
    out["amounts"].push_back(std::move(one));
  }
  const bool made_up = mix.stock->stock->water.kind == RecipeWater::Kind::made_up_to;
  out[made_up ? "water_to_mL" : "water_added_mL"] = clean(in_millilitres(mix.water));
  const auto& components = mix.stock->mixture.components;
  if (components.size() == 1) {
    out["strength_g_per_L"] = strength_json(components.front());
  } else {
    for (const Component& one : components)
      out["strength_g_per_L"][one.product] = strength_json(one);
  }
  out["strength_bound"] = clean(as_ratio(mix.filled.strength_error.worst));
  if (mix.if_scooped) out["strength_bound_scooped"] = clean(as_ratio(mix.if_scooped->worst));
  return out;
}

}  // namespace

std::string check_json(const Diagnostics& problems, const RoomAnswer* answers) {
  Json out;
  out["findings"] = Json::array();
  for (const Diagnostic& problem : problems) out["findings"].push_back(finding_json(problem));
  out["stocks"] = Json::array();
  out["vessels"] = Json::array();
  if (answers != nullptr) {
    for (const StockAnswer& stock : answers->stocks)
      out["stocks"].push_back(stock_json(*answers->room, stock));
    for (const Vessel& vessel : answers->room->vessels)
      out["vessels"].push_back(vessel_json(vessel));
  }
  return dumped(out);
}

std::string dose_json(const std::vector<StockDose>& doses) {
  if (doses.size() == 1) return dumped(one_dose(doses.front()));
  Json out = Json::array();
  for (const StockDose& dose : doses) out.push_back(one_dose(dose));
  return dumped(out);
}

std::string water_json(const std::vector<const StockAnswer*>& stocks,
                       const std::vector<WaterAnswer>& answers) {
  Json all = Json::array();
  for (std::size_t i = 0; i < stocks.size(); ++i) {
    Json out;
    out["stock"] = stocks[i]->stock->id;
    out["code"] = stocks[i]->code.letters;
    out[key("amount", answers[i].amount)] = clean(answers[i].amount.stored());
    const int days = stocks[i]->stock->dose.days;
    out["days"] = days;
    out[key("total", answers[i].amount)] = clean(answers[i].amount.stored() * days);
    out["water_L"] = clean(in_litres(answers[i].water));
    all.push_back(std::move(out));
  }
  return dumped(all.size() == 1 ? all.front() : all);
}

std::string mix_json(const std::vector<MixAnswer>& answers,
                     const std::vector<Diagnostics>& findings) {
  Json all = Json::array();
  for (std::size_t i = 0; i < answers.size(); ++i) {
    Json one = one_mix(answers[i]);
    one["findings"] = Json::array();
    for (const Diagnostic& found : findings[i]) one["findings"].push_back(finding_json(found));
    all.push_back(std::move(one));
  }
  return dumped(all.size() == 1 ? all.front() : all);
}

std::string hazards_json(const std::vector<const StockAnswer*>& stocks, const Room& room) {
  Json out;
  out["room"] = room.name;
  out["stocks"] = Json::array();
  for (const StockAnswer* stock : stocks) out["stocks"].push_back(hazards_of(*stock, room));
  return dumped(out);
}

}  // namespace dosewright
