// Sentences shared by paper and terminal.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

// As many decimals as the amount has, up to three; of a household measure in mL, which has more,
// what shows it to half a percent: nobody reads finer.
int decimals_for(Portion amount) {
  const int exact = decimals_of(amount.stored());
  if (exact <= 3) return exact;
  for (int decimals = 0; decimals < 4; ++decimals) {
    const double unit = std::pow(10.0, decimals);
    const double shown = std::round(amount.stored() * unit) / unit;
    if (std::fabs(shown - amount.stored()) <= 0.005 * amount.stored()) return decimals;
  }
  return 4;
}

// A mark of a list, or of a scale that starts off its step, may need more decimals than the step.
int decimals_of_pour(const Pour& pour) {
  return std::max(decimals_for(pour.tool->step), decimals_for(pour.to));
}

bool is_full(const Pour& pour) { return std::fabs(pour.to / pour.tool->holds - 1) < 1e-6; }

std::string times(int count, const Words& w) {
  return count == 1 ? "" : ", " + w.say("{1} times", {std::to_string(count)});
}

long drops_of(const Pour& pour) { return std::lround(pour.to / pour.tool->step); }

std::string drops_text(const Pour& pour, const Words& w) {
  const long drops = drops_of(pour);
  return drops == 1 ? w.say("1 drop") : w.say("{1} drops", {std::to_string(drops)});
}

std::string one_pour(const Pour& pour, bool name_it, const Words& w) {
  const std::string name = name_it ? pour.tool->name + ' ' : std::string();
  const std::string often = times(pour.count, w);
  if (pour.tool->kind == Tool::Kind::dropper) return name + drops_text(pour, w) + often;
  const bool level = pour.tool->kind == Tool::Kind::spoon || pour.tool->for_powder;
  // "Full" may mean the brim, or a plunger's stop: where there are marks, the last one is named.
  const bool marked = pour.tool->marks.size() > 1;
  if (is_full(pour) && !pour.to.is_powder() && (level || !marked))
    return name + (level ? w.say("level") : w.say("full")) + often;
  // A scale is not filled to a mark.
  if (pour.tool->kind == Tool::Kind::scale)
    return (name_it ? pour.tool->name + w.say(": ") : "") + fill_text(pour, w) + often;
  return name + w.say("to {1}", {fill_text(pour, w)}) + often;
}

bool is_dry(const Mixture& mixture) { return in_millilitres(mixture.makes) <= 0; }

std::string amount_text(const std::variant<Mass, Volume>& amount, bool scooped) {
  if (const auto* mass = std::get_if<Mass>(&amount)) return mass_text(*mass);
  return volume_text(std::get<Volume>(amount)) + (scooped ? ", level" : "");
}

std::string strength_text(const Component& component, const Words& w) {
  if (const auto* by_weight = std::get_if<Concentration>(&component.strength)) {
    return w.quantity(concentration_text(*by_weight));
  }
  const double ml = in_millilitres_per_litre(std::get<VolumePerVolume>(component.strength));
  return w.quantity(significant_figure(ml, 3) + " mL per L");
}

}  // namespace

std::string how_to_measure(const Measured& measured, const Words& w) {
  std::string out;
  const Tool* before = nullptr;
  for (const Pour& pour : measured.pours) {
    const std::string next = one_pour(pour, true, w);
    // "to 50 mL, then to 11 mL" would be read as letting some out again.
    if (before == nullptr)
      out = next;
    else if (pour.tool == before)
      out = w.say("{1}, then {2} more", {out, fill_text(pour, w) + times(pour.count, w)});
    else
      out = w.say("{1}, then {2}", {out, next});
    before = pour.tool;
  }
  return out;
}

std::string mark_figure(const Tool& tool, Portion mark, const Words& w) {
  return w.number(figure(mark.stored(), decimals_of_pour({&tool, mark, 1})));
}

std::string fill_text(const Pour& pour, const Words& w) {
  if (pour.tool->kind == Tool::Kind::dropper) return drops_text(pour, w);
  return mark_figure(*pour.tool, pour.to, w) + ' ' + unit_of(pour.to);
}

Amount dose_amount(const Measured& measured, const Words& w) {
  int decimals = 0;
  for (const Pour& pour : measured.pours) {
    // A spoon of powder is measured in mL, but its dose is grams: two figures, rounded.
    if (pour.to.is_powder() != measured.total.is_powder())
      return {w.number(significant_figure(measured.total.stored(), 2)), unit_of(measured.total)};
    decimals = std::max(decimals, decimals_of_pour(pour));
  }
  return {w.number(figure(measured.total.stored(), decimals)), unit_of(measured.total)};
}

std::string how_to_dilute(const WorkingDilution& dilution, const std::string& stock,
                          const Words& w) {
  const Pour& take = dilution.take;
  const std::string& vessel = dilution.make_up.tool->name;
  const std::vector<std::string> fills = {take.tool->name, fill_text(take, w), stock, vessel};
  const std::string first =
      take.to.is_powder() ? w.say("1. Weigh {2} of {3} on the {1} into the {4}.", fills)
                          : w.say("1. Fill the {1} to {2} with {3}, empty it into the {4}.", fills);
  // The vessel holds the mixture: only the tool is rinsed.
  const std::string rinse = take.to.is_powder() ? w.say("3. Wipe the {1}.", {take.tool->name})
                                                : w.say("3. Rinse the {1}.", {take.tool->name});
  return first + ' ' +
         w.say("2. Fill up with water to {1}, stir.", {fill_text(dilution.make_up, w)}) + ' ' +
         rinse + ' ' +
         w.say(
             "4. Give {1} of the mixture with the {2}, dispose of the rest as the bottle's label "
             "says.",
             {fill_text(dilution.give, w), dilution.give.tool->name});
}

std::string why_not(const MeasureAnswer& answer, const Words& w) {
  switch (answer.problem) {
    case MeasureProblem::no_tool:
      return w.say("no measuring tool for it is described");
    case MeasureProblem::too_small:
      return w.say("too small: the least that the tools measure is {1}",
                   {w.quantity(portion_text(answer.smallest_mark))});
    case MeasureProblem::too_large:
      return w.say("too large for the tools at hand: one that holds {1} is missing",
                   {w.quantity(portion_text(answer.wanted_size))});
    default:
      break;
  }
  return w.say("no mark comes near enough");
}

std::string rounded_up(Portion bound, const Words& w) {
  return w.number(significant_figure(rounded_outward(bound.stored(), 2, true), 2)) + ' ' +
         unit_of(bound);
}

std::string off_by_text(Portion off_by, const Words& w) {
  return w.say("off by at most {1}", {rounded_up(off_by, w)});
}

std::string error_text(const DoseAnswer& dose, ErrorShown shown, const Words& w) {
  if (!dose.can_be_measured()) return "";
  switch (shown) {
    case ErrorShown::measuring:
      return off_by_text(dose.off_by, w);
    case ErrorShown::all:
      return w.say("off by at most {1} all told", {rounded_up(dose.error.bound, w)});
    case ErrorShown::standard:
      return w.say("standard uncertainty {1}", {rounded_up(dose.error.uncertainty, w)});
    case ErrorShown::none:
      break;
  }
  return "";
}

std::string percent_up(Share part) {
  return figure(std::ceil(as_ratio(part) * 100 - 1e-9), 0) + " %";
}

std::string strengths_text(const Room& room, const Mixture& mixture, const Words& w) {
  std::string out;
  for (const Component& component : mixture.components) {
    if (!out.empty()) out += ", ";
    const Product& product = *find(room.products, component.product);
    out += w.chemical(product.name);
    // Grams of a liquid that is itself a solution say little without its strength.
    const bool diluted = product.form == Product::Form::liquid && product.active &&
                         as_ratio(*product.active) < 0.9 &&
                         product.name.find('%') == std::string::npos;
    if (diluted)
      out += " (" + w.quantity(significant_figure(as_ratio(*product.active) * 100, 3) + " %") + ')';
    if (!is_dry(mixture)) out += ' ' + strength_text(component, w);
  }
  return out;
}

std::string contents_text(const Room& room, const Mixture& mixture, const Words& w) {
  const std::string all = strengths_text(room, mixture, w);
  if (is_dry(mixture)) return w.say("{1}, as bought", {all});
  if (as_ratio(mixture.strength_error.worst) <= 0.005) return w.say("{1} in water", {all});
  return w.say("{1} in water, give or take {2}", {all, percent_up(mixture.strength_error.worst)});
}

std::vector<std::string> recipe_lines(const Room& room, const Stock& stock, const Mixture& filled) {
  std::vector<std::string> out;
  if (stock.stronger != nullptr)
    out.push_back(volume_text(filled.taken) + " of " + stock.stronger->name);
  for (const Component& component : filled.components) {
    if (stock.stronger != nullptr) break;
    out.push_back(amount_text(component.amount, component.scooped) + ' ' +
                  find(room.products, component.product)->name);
  }
  const double factor = filled.makes / mix(stock, room.products, room.tools).makes;
  const std::string water = volume_text(stock.water.volume * factor);
  out.push_back(stock.water.kind == RecipeWater::Kind::made_up_to ? "water to " + water
                                                                  : water + " water added");
  return out;
}

std::string date_text(const Date& date) {
  char buffer[32] = {};
  (void)std::snprintf(buffer, sizeof buffer, "%04d-%02d-%02d", date.year, date.month, date.day);
  return buffer;
}

Amount water_as_written(const std::string& text, Volume water, MeasureSystem system,
                        const Words& w) {
  if (const auto written = volume_as_written(text, system))
    return {w.number(written->figure), written->unit};
  const FigureAndUnit own = water_text(water, system);
  return {w.number(own.figure), own.unit};
}

std::string vessel_text(const Vessel& vessel, MeasureSystem system) {
  if (!vessel.as_given.empty()) return "";
  // Five figures: net and full are to be told apart, and compared with a sum done by hand.
  const auto text = [system](Volume volume) {
    const FigureAndUnit own = water_text(volume, system, 5);
    return own.figure + ' ' + own.unit;
  };
  const std::string of =
      vessel.nominal ? " of " + text(*vessel.nominal) + " full" : ", its full volume unknown";
  return vessel.name + ": " + text(vessel.water) + " net" + of + ", right to " +
         percent_up(vessel.right_to);
}

}  // namespace dosewright
