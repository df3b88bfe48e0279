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

std::string times(int count) { return count == 1 ? "" : ", " + std::to_string(count) + " times"; }

long drops_of(const Pour& pour) { return std::lround(pour.to / pour.tool->step); }

std::string drops_text(const Pour& pour) {
  const long drops = drops_of(pour);
  return std::to_string(drops) + (drops == 1 ? " drop" : " drops");
}

std::string one_pour(const Pour& pour, bool name_it) {
  const std::string name = name_it ? pour.tool->name + ' ' : std::string();
  if (pour.tool->kind == Tool::Kind::dropper) return name + drops_text(pour) + times(pour.count);
  const bool level = pour.tool->kind == Tool::Kind::spoon || pour.tool->for_powder;
  if (is_full(pour) && !pour.to.is_powder())
    return name + (level ? "level" : "full") + times(pour.count);
  return name + "to " + fill_text(pour) + times(pour.count);
}

bool is_dry(const Mixture& mixture) { return in_millilitres(mixture.makes) <= 0; }

std::string amount_text(const std::variant<Mass, Volume>& amount, bool scooped) {
  if (const auto* mass = std::get_if<Mass>(&amount)) return mass_text(*mass);
  return volume_text(std::get<Volume>(amount)) + (scooped ? ", level" : "");
}

std::string strength_text(const Component& component) {
  if (const auto* by_weight = std::get_if<Concentration>(&component.strength)) {
    return concentration_text(*by_weight);
  }
  const double ml = in_millilitres_per_litre(std::get<VolumePerVolume>(component.strength));
  return significant_figure(ml, 3) + " mL per L";
}

}  // namespace

std::string how_to_measure(const Measured& measured) {
  std::string out;
  const Tool* before = nullptr;
  for (const Pour& pour : measured.pours) {
    if (!out.empty()) out += ", then ";
    out += one_pour(pour, pour.tool != before);
    before = pour.tool;
  }
  return out;
}

std::string mark_figure(const Tool& tool, Portion mark) {
  return figure(mark.stored(), decimals_of_pour({&tool, mark, 1}));
}

std::string fill_text(const Pour& pour) {
  if (pour.tool->kind == Tool::Kind::dropper) return drops_text(pour);
  return mark_figure(*pour.tool, pour.to) + ' ' + unit_of(pour.to);
}

Amount dose_amount(const Measured& measured) {
  int decimals = 0;
  for (const Pour& pour : measured.pours) {
    // A spoon of powder is measured in mL, but its dose is grams: two figures, rounded.
    if (pour.to.is_powder() != measured.total.is_powder())
      return {significant_figure(measured.total.stored(), 2), unit_of(measured.total)};
    decimals = std::max(decimals, decimals_of_pour(pour));
  }
  return {figure(measured.total.stored(), decimals), unit_of(measured.total)};
}

std::string how_to_dilute(const WorkingDilution& dilution, const std::string& stock) {
  const Pour& take = dilution.take;
  const std::string into = "into the " + dilution.make_up.tool->name + ". ";
  std::string first = "1. Fill the " + take.tool->name + " to " + fill_text(take) + " with " +
                      stock + ", empty it " + into;
  if (take.to.is_powder())
    first =
        "1. Weigh " + fill_text(take) + " of " + stock + " on the " + take.tool->name + ' ' + into;
  return first + "2. Fill up with water to " + fill_text(dilution.make_up) +
         ", stir. 3. Rinse what has touched the stock. 4. Give " + fill_text(dilution.give) +
         " of the mixture with the " + dilution.give.tool->name +
         ", dispose of the rest as its label says.";
}

std::string why_not(const MeasureAnswer& answer) {
  switch (answer.problem) {
    case MeasureProblem::no_tool:
      return "no measuring tool for it is described";
    case MeasureProblem::too_small:
      return "too small: the least that the tools measure is " + portion_text(answer.smallest_mark);
    case MeasureProblem::too_large:
      return "too large for the tools at hand: one that holds " + portion_text(answer.wanted_size) +
             " is missing";
    default:
      break;
  }
  return "no mark comes near enough";
}

std::string rounded_up(Portion bound) {
  return significant_figure(rounded_outward(bound.stored(), 2, true), 2) + ' ' + unit_of(bound);
}

std::string off_by_text(Portion off_by) { return "off by at most " + rounded_up(off_by); }

std::string error_text(const DoseAnswer& dose, ErrorShown shown) {
  if (!dose.can_be_measured()) return "";
  switch (shown) {
    case ErrorShown::measuring:
      return off_by_text(dose.off_by);
    case ErrorShown::all:
      return "off by at most " + rounded_up(dose.error.bound) + " all told";
    case ErrorShown::standard:
      return "standard uncertainty " + rounded_up(dose.error.uncertainty);
    case ErrorShown::none:
      break;
  }
  return "";
}

std::string percent_up(Share part) {
  return figure(std::ceil(as_ratio(part) * 100 - 1e-9), 0) + " %";
}

std::string strengths_text(const Room& room, const Mixture& mixture) {
  std::string out;
  for (const Component& component : mixture.components) {
    if (!out.empty()) out += ", ";
    out += find(room.products, component.product)->name;
    if (!is_dry(mixture)) out += ' ' + strength_text(component);
  }
  return out;
}

std::string contents_text(const Room& room, const Mixture& mixture) {
  std::string out = strengths_text(room, mixture);
  if (is_dry(mixture)) return out + ", as bought";
  out += " in water";
  if (as_ratio(mixture.strength_error.worst) > 0.005)
    out += ", give or take " + percent_up(mixture.strength_error.worst);
  return out;
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

Amount water_as_written(const std::string& text, Volume water, MeasureSystem system) {
  if (const auto written = volume_as_written(text, system)) return {written->figure, written->unit};
  const FigureAndUnit own = water_text(water, system);
  return {own.figure, own.unit};
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
