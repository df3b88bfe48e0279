#include "dosewright/measure/measure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "search.hpp"

namespace dosewright {

namespace {

// What one fill brings, in the unit of the dose.
struct Fill {
  double mark = 0;  // in the tool's own unit
  double value = 0;
  double calibration = 0;  // worst
  double calibration_u = 0;
  double density_u = 0;
  double reading = 0;
  double reading_u = 0;
  bool small = false;
};

Fill fill_of(const Tool& tool, Portion mark, const std::optional<PowderByVolume>& powder) {
  const FillError error = fill_error(tool, mark);
  Fill fill;
  fill.mark = mark.stored();
  fill.value = mark.stored();
  fill.calibration = error.calibration.worst.stored();
  fill.calibration_u = error.calibration.standard.stored();
  fill.reading = error.reading.worst.stored();
  fill.reading_u = error.reading.standard.stored();
  fill.small = is_small_fill(tool, mark);
  if (!powder || mark.is_powder()) return fill;
  // A spoon of powder: the volume times its bulk density, both at their worst corner. The density's
  // spread is the same at every fill and for every spoon.
  const double density = in_grams_per_litre(powder->bulk_density) / 1000;
  const double spread = as_ratio(powder->spread);
  fill.calibration += (fill.value + fill.calibration + fill.reading) * spread;
  fill.density_u = fill.value * spread / std::numbers::sqrt3;
  for (double* part : {&fill.value, &fill.calibration, &fill.calibration_u, &fill.density_u,
                       &fill.reading, &fill.reading_u}) {
    *part *= density;
  }
  return fill;
}

// `full` fills to the highest mark, then one to `rest`; or, with full = 0, `same` equal fills.
Option option_of(const Fill& top, int full, const Fill& rest, int same) {
  Option out;
  out.total = top.value * full + rest.value * same;
  out.bound = (top.calibration + top.reading) * full + (rest.calibration + rest.reading) * same;
  out.calibration_u = top.calibration_u * full + rest.calibration_u * same;
  out.density_u = top.density_u * full + rest.density_u * same;
  out.reading_u2 = top.reading_u * top.reading_u * full + rest.reading_u * rest.reading_u * same;
  out.small = rest.small || (full > 0 && top.small);
  out.mark = full > 0 ? top.mark : rest.mark;
  out.rest = rest.mark;
  out.fills = full + same;
  return out;
}

std::vector<Fill> fills_of(const Tool& tool, const std::optional<PowderByVolume>& powder) {
  std::vector<Fill> out;
  const double least = as_ratio(tool.least) * tool.holds.stored() * (1 - 1e-9);
  for (const Portion mark : tool.marks) {
    if (mark.stored() >= least) out.push_back(fill_of(tool, mark, powder));
  }
  return out;
}

Use use_of(const Tool& tool, const std::optional<PowderByVolume>& powder) {
  Use use;
  use.tool = &tool;
  use.by_fills.resize(static_cast<std::size_t>(tool.pours) + 1);
  const std::vector<Fill> fills = fills_of(tool, powder);
  for (int count = 1; count <= tool.pours; ++count) {
    auto& options = use.by_fills[static_cast<std::size_t>(count)];
    for (const Fill& fill : fills) {
      options.push_back(option_of(fill, 0, fill, count));
      const bool lesser = count > 1 && fill.mark < fills.back().mark;
      if (lesser) options.push_back(option_of(fills.back(), count - 1, fill, 1));
    }
    std::stable_sort(options.begin(), options.end(),
                     [](const Option& a, const Option& b) { return a.total < b.total; });
  }
  return use;
}

// Capacities of measuring cylinders in mL (ISO 4788).
constexpr std::array<double, 9> kCylinders = {5, 10, 25, 50, 100, 250, 500, 1000, 2000};

// The smallest cylinder that takes the dose in two fills; a larger one than any when none does.
double size_for(double exact) {
  const double half = exact / 2.02;  // a hair over is no reason for the next size
  for (const double size : kCylinders) {
    if (half <= size) return size;
  }
  const double unit = std::pow(10.0, std::floor(std::log10(half)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (half <= unit * step) return unit * step;
  }
  return unit * 10;
}

MeasureProblem problem_of(const MeasureTask& task, const MeasureAnswer& answer) {
  if (task.exact < answer.smallest_mark) return MeasureProblem::too_small;
  if (task.exact > answer.largest_dose) return MeasureProblem::too_large;
  return MeasureProblem::outside_tolerance;
}

bool serves(const Tool& tool, const std::optional<PowderByVolume>& powder) {
  if (tool.marks.empty()) return false;
  if (!powder) return !tool.holds.is_powder();
  return tool.holds.is_powder() || in_grams_per_litre(powder->bulk_density) > 0;
}

// Takes over, for the doses it serves, the tool that serves most of those still open; of two that
// serve as many, the one that is less off.
void even_out(const std::vector<std::vector<std::optional<Measured>>>& by_tool,
              std::vector<MeasureAnswer>& answers) {
  const std::size_t tools = by_tool.size();
  std::vector<bool> open(answers.size(), true);
  std::vector<Portion> least_of;
  for (const MeasureAnswer& answer : answers)
    least_of.push_back(answer.measured ? answer.measured->off_by : Portion());
  for (std::size_t round = 0; round < tools; ++round) {
    std::size_t best = tools;
    std::size_t most = 0;
    double least_off = 0;  // each over the least there is for that dose
    for (std::size_t tool = 0; tool < tools; ++tool) {
      std::size_t served = 0;
      double off = 0;
      for (std::size_t i = 0; i < answers.size(); ++i) {
        if (!open[i] || !by_tool[tool][i]) continue;
        ++served;
        off += by_tool[tool][i]->off_by / least_of[i];
      }
      if (served == 0 || served < most || (served == most && off >= least_off)) continue;
      most = served;
      least_off = off;
      best = tool;
    }
    if (best == tools) return;
    for (std::size_t i = 0; i < answers.size(); ++i) {
      if (!open[i] || !by_tool[best][i]) continue;
      answers[i].measured = by_tool[best][i];
      open[i] = false;
    }
  }
}

// More water must never get a smaller dose, whichever tools the column is evened out with.
bool never_falls(const std::vector<MeasureTask>& tasks, const std::vector<MeasureAnswer>& answers) {
  std::vector<std::pair<double, double>> doses;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    if (answers[i].measured)
      doses.emplace_back(tasks[i].exact.stored(), answers[i].measured->total.stored());
  }
  std::sort(doses.begin(), doses.end());
  return std::is_sorted(doses.begin(), doses.end(), [](const auto& a, const auto& b) {
    return a.second < b.second * (1 - 1e-9);
  });
}

}  // namespace

Measurer::Measurer(const ToolSet& set) {
  ToolUses uses;
  for (const Tool* tool : set.tools) {
    if (serves(*tool, set.powder)) uses.own.push_back(use_of(*tool, set.powder));
  }
  for (const Tool* tool : set.for_dilution) {
    if (serves(*tool, std::nullopt)) uses.liquids.push_back(use_of(*tool, std::nullopt));
  }
  uses_ = std::make_shared<const ToolUses>(std::move(uses));
}

MeasureAnswer Measurer::measure(const MeasureTask& task) const {
  MeasureAnswer answer;
  const auto portion = [&](double stored) { return Portion::like(task.exact, stored); };
  answer.smallest_mark = portion(0);
  answer.largest_dose = portion(0);
  answer.wanted_size = portion(size_for(task.exact.stored()));
  double smallest = 0;
  double largest = 0;
  for (const Use& use : uses_->own) {
    if (use.by_fills[1].empty()) continue;
    const double first = use.by_fills[1].front().total;
    smallest = smallest > 0 ? std::min(smallest, first) : first;
    largest = std::max(largest, use.by_fills.back().back().total);
  }
  if (smallest <= 0) return answer;
  answer.smallest_mark = portion(smallest);
  answer.largest_dose = portion(largest);
  answer.measured = best_way(task, uses_->own);
  answer.problem = answer.measured ? MeasureProblem::none : problem_of(task, answer);
  const bool unsure = !answer.measured || answer.measured->grade == Grade::coarse;
  if (unsure && answer.problem != MeasureProblem::too_large) {
    answer.dilution = best_dilution(task, uses_->own, uses_->liquids);
    if (answer.dilution) answer.measured.reset();
  }
  return answer;
}

std::vector<MeasureAnswer> Measurer::measure_column(const std::vector<MeasureTask>& tasks) const {
  std::vector<MeasureAnswer> answers;
  answers.reserve(tasks.size());
  for (const MeasureTask& task : tasks) answers.push_back(measure(task));
  std::vector<std::vector<std::optional<Measured>>> by_tool(uses_->own.size());
  for (std::size_t tool = 0; tool < uses_->own.size(); ++tool) {
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      const bool one_tool = answers[i].measured && tools_of(*answers[i].measured) == 1;
      std::optional<Measured> way;
      if (one_tool) way = way_as_good(tasks[i], uses_->own[tool], *answers[i].measured);
      // Evenness may cost exactness only as long as all of the error stays within the tolerance.
      const double most = tasks[i].exact.stored() * as_ratio(tasks[i].tolerance);
      if (way && way->off_by.stored() > most && answers[i].measured->off_by < way->off_by)
        way.reset();
      by_tool[tool].push_back(std::move(way));
    }
  }
  std::vector<MeasureAnswer> even = answers;
  even_out(by_tool, even);
  return never_falls(tasks, even) ? even : answers;
}

MeasureAnswer measure(const MeasureTask& task, const std::vector<const Tool*>& tools) {
  return Measurer({tools, tools, std::nullopt}).measure(task);
}

}  // namespace dosewright
