// Random racks of tools and every way there is to measure a dose with them, by plain nested choice:
// what the search is held against, in the tests and in the benchmark.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <tuple>
#include <vector>

#include "dosewright/measure/measure.hpp"

namespace testing {

using namespace dosewright;

// A random rack of tools: even and uneven marks, some kept from being used low.
inline std::vector<Tool> random_tools(std::mt19937& random, int most_marks) {
  const auto between = [&](int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random);
  };
  constexpr std::array<Tool::Kind, 5> kKinds = {Tool::Kind::syringe, Tool::Kind::transfer_pipette,
                                                Tool::Kind::graduated_pipette, Tool::Kind::cylinder,
                                                Tool::Kind::cup};
  constexpr std::array<double, 4> kSteps = {0.05, 0.1, 0.5, 2};
  std::vector<Tool> tools(static_cast<std::size_t>(between(1, 3)));
  for (Tool& tool : tools) {
    tool.kind = kKinds.at(static_cast<std::size_t>(between(0, 4)));
    tool.step = millilitres(kSteps.at(static_cast<std::size_t>(between(0, 3))));
    const int marks = between(1, most_marks);
    int at = between(1, 2);
    for (int i = 0; i < marks; ++i) {
      tool.marks.push_back(tool.step * at);
      at += between(0, 3) == 0 ? 2 : 1;
    }
    tool.holds = tool.marks.back() * (between(0, 3) == 0 ? 1.2 : 1.0);
    tool.pours = between(1, 3);
    tool.least = share(between(0, 1) * 0.15);
  }
  return tools;
}

inline MeasureTask random_task(std::mt19937& random, const std::vector<Tool>& tools) {
  double most = 0;
  for (const Tool& tool : tools) most = std::max(most, in_millilitres(tool.marks.back()));
  std::uniform_real_distribution<double> part(0.05, 4.0);
  std::uniform_real_distribution<double> tolerance(0.01, 0.3);
  MeasureTask task;
  task.exact = millilitres(most * part(random) * part(random) / 4);
  task.rounding = static_cast<Rounding>(random() % 3);
  task.tolerance = share(tolerance(random));
  if (random() % 4 == 0) task.ceiling = task.exact * 1.05;
  if (random() % 4 == 0) task.floor = task.exact * 0.97;
  return task;
}

inline std::vector<const Tool*> pointers(const std::vector<Tool>& tools) {
  std::vector<const Tool*> out;
  for (const Tool& tool : tools) out.push_back(&tool);
  return out;
}

// ---- every way there is, by plain nested choice

struct Part {
  double total = 0;
  double bound = 0;
  bool small = false;
  int fills = 0;
  int pours = 0;  // the tool's limit
};

// All that one tool can do: the same mark every time, or full ones and a lesser one.
inline std::vector<Part> parts_of(const Tool& tool) {
  std::vector<Part> out;
  const auto usable = [&](Portion mark) {
    return mark.stored() >= as_ratio(tool.least) * tool.holds.stored() * (1 - 1e-9);
  };
  const Portion top = tool.marks.back();
  const double top_bound = fill_bound(tool, top).stored();
  for (const Portion mark : tool.marks) {
    if (!usable(mark)) continue;
    const double bound = fill_bound(tool, mark).stored();
    const bool small = is_small_fill(tool, mark);
    for (int fills = 1; fills <= tool.pours; ++fills) {
      out.push_back({mark.stored() * fills, bound * fills, small, fills, tool.pours});
      if (fills == 1 || mark == top) continue;
      out.push_back({top.stored() * (fills - 1) + mark.stored(), top_bound * (fills - 1) + bound,
                     small || is_small_fill(tool, top), fills, tool.pours});
    }
  }
  return out;
}

struct Found {
  bool any = false;
  int grade = 0;
  int fills = 0;
  int tools = 0;
  double off_by = 0;
};

class Everything {
 public:
  Everything(const MeasureTask& task, const std::vector<Tool>& tools) : task_(task) {
    for (const Tool& tool : tools) parts_.push_back(parts_of(tool));
    choose(0, Part(), 0);
  }
  [[nodiscard]] const Found& best() const { return best_; }

 private:
  void choose(std::size_t tool, const Part& sum, int tools) {
    if (tool == parts_.size()) {
      if (tools > 0) judge(sum, tools);
      return;
    }
    choose(tool + 1, sum, tools);
    for (const Part& part : parts_[tool]) {
      chosen_.resize(static_cast<std::size_t>(tools));
      chosen_.push_back(&part);
      choose(tool + 1,
             {sum.total + part.total, sum.bound + part.bound, sum.small || part.small,
              sum.fills + part.fills, std::max(sum.pours, part.pours)},
             tools + 1);
    }
  }

  void judge(const Part& way, int tools) {
    const double exact = task_.exact.stored();
    const double relative = way.total / exact - 1;
    const double tolerance = as_ratio(task_.tolerance);
    if (way.fills > way.pours || (tools > 1 && way.fills > 6)) return;
    if (std::fabs(relative) > tolerance + 1e-6) return;
    if (task_.rounding == Rounding::never_under && relative < -dosewright::kReached) return;
    if (task_.rounding == Rounding::never_over && relative > dosewright::kReached) return;
    if (task_.ceiling && way.total > task_.ceiling->stored() * (1 + 1e-6)) return;
    if (task_.floor && way.total < task_.floor->stored() * (1 - 1e-6)) return;
    double part = way.bound / way.total;
    for (int i = 0; i < tools; ++i) {
      const Part& one = *chosen_[static_cast<std::size_t>(i)];
      if (one.total >= 0.2 * way.total) part = std::max(part, one.bound / one.total);
    }
    int grade = part > tolerance + 1e-6 || way.small ? 1 : 0;
    if (part > std::max(tolerance, 0.25) + 1e-6) grade = 2;
    const Found made{true, grade, way.fills, tools, std::fabs(way.total - exact) + way.bound};
    const auto key = [](const Found& f) {
      return std::make_tuple(f.grade, f.fills, f.tools, f.off_by);
    };
    if (!best_.any || key(made) < key(best_)) best_ = made;
  }

  const MeasureTask& task_;
  std::vector<std::vector<Part>> parts_;
  std::vector<const Part*> chosen_;  // of the tools so far
  Found best_;
};

}  // namespace testing
