// Sentences shared by paper and terminal.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

std::string mark_text(const Tool& tool, Volume to) {
  const int decimals =
      std::max(decimals_of(in_millilitres(tool.step)), decimals_of(in_millilitres(to)));
  return in_words_mL(to, std::min(decimals, 4));
}

bool is_full(const Pour& pour) { return std::fabs(pour.to / pour.tool->holds - 1) < 1e-6; }

std::string times(int count) { return count == 1 ? "" : ' ' + std::to_string(count) + " times"; }

std::string one_pour(const Pour& pour, bool name_it) {
  const std::string name = name_it ? pour.tool->name + ' ' : std::string();
  if (is_full(pour)) return name + "full" + times(pour.count);
  return name + "to " + mark_text(*pour.tool, pour.to) + times(pour.count);
}

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

Amount dose_amount(const Measured& measured) {
  int decimals = 0;
  for (const Pour& pour : measured.pours) {
    decimals = std::max(decimals, decimals_of(in_millilitres(pour.tool->step)));
    decimals = std::max(decimals, std::min(decimals_of(in_millilitres(pour.to)), 4));
  }
  return {figure(in_millilitres(measured.total), decimals), "mL"};
}

std::string why_not(const MeasureAnswer& answer) {
  switch (answer.problem) {
    case MeasureProblem::no_tool:
      return "no measuring tool is described";
    case MeasureProblem::too_small:
      return "too small: the finest mark is " + volume_text(answer.smallest_mark);
    case MeasureProblem::too_large:
      return "too large for the tools at hand";
    default:
      break;
  }
  return "no mark comes near enough";
}

std::string off_by_text(Volume off_by) {
  const double value = in_millilitres(off_by);
  const int exponent = static_cast<int>(std::floor(std::log10(value)));
  const double unit = std::pow(10.0, exponent - 1);
  const double up = std::ceil(value / unit - 1e-9) * unit;
  return "off by at most " + significant_figure(up, 2) + " mL";
}

std::string contents_text(const Room& room, const Mixture& mixture) {
  std::string out;
  for (const Component& component : mixture.components) {
    if (!out.empty()) out += ", ";
    out += find(room.products, component.product)->name + ' ' + strength_text(component);
  }
  out += " in water";
  if (as_ratio(mixture.strength_bound) > 0.005) {
    out += ", give or take " + significant_figure(100 * as_ratio(mixture.strength_bound), 2) + " %";
  }
  return out;
}

std::vector<std::string> recipe_lines(const Room& room, const Stock& stock, const Mixture& filled) {
  std::vector<std::string> out;
  for (const Component& component : filled.components) {
    out.push_back(amount_text(component.amount, component.scooped) + ' ' +
                  find(room.products, component.product)->name);
  }
  const double factor = filled.makes / mix(stock, room.products).makes;
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

}  // namespace dosewright
