#include "dosewright/measure/measure.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace dosewright {

namespace {

constexpr double kSame = 1e-6;  // relative: below this two amounts are one

// The highest mark: a tool is never filled past it, to the brim.
Volume full_mark(const Tool& tool) { return tool.marks.back(); }

// The widest distance from a mark to its neighbours, below and above.
Volume division_at(const Tool& tool, Volume to) {
  Volume widest = tool.step;
  const double near = in_millilitres(tool.step) * 1e-3;
  for (std::size_t i = 0; i < tool.marks.size(); ++i) {
    if (std::fabs(in_millilitres(tool.marks[i] - to)) > near) continue;
    if (i > 0) widest = std::max(widest, tool.marks[i] - tool.marks[i - 1]);
    if (i + 1 < tool.marks.size()) widest = std::max(widest, tool.marks[i + 1] - tool.marks[i]);
  }
  return widest;
}

Volume calibration_default(const Tool& tool, Volume to) {
  const Volume holds = tool.holds;
  switch (tool.kind) {
    case Tool::Kind::syringe: {
      const bool small = in_millilitres(holds) < 5;
      if (to * 2 < holds) return holds * 0.015 + to * (small ? 0.02 : 0.01);
      return to * (small ? 0.05 : 0.04);
    }
    case Tool::Kind::cylinder:
      return division_at(tool, to);
    case Tool::Kind::cup:
    case Tool::Kind::spoon:
      return to * 0.05;
    default:
      return holds * 0.1;
  }
  return holds * 0.1;
}

Volume reading_bound(const Tool& tool, Volume to) {
  if (tool.kind == Tool::Kind::cup || tool.kind == Tool::Kind::spoon) return to * 0.05;
  return division_at(tool, to) * 0.5;
}

// One way to measure, with what it is judged by.
struct Candidate {
  Measured measured;
  int pours = 0;
  int tools = 0;
};

class Search {
 public:
  Search(const MeasureTask& task, const std::vector<const Tool*>& tools)
      : task_(task), tools_(tools) {}

  std::optional<Measured> best() {
    for (const Tool* big : tools_) {
      // 0 full fills of any tool but the first would only repeat the same single fills.
      const int first = big == tools_.front() ? 0 : 1;
      for (int full = first; full <= big->pours; ++full) {
        if (full_mark(*big) * full > task_.exact * (1 + as_ratio(task_.tolerance) + kSame)) break;
        consider_rest(*big, full);
      }
    }
    if (!best_) return std::nullopt;
    return best_->measured;
  }

 private:
  void consider_rest(const Tool& big, int full) {
    const Volume rest = task_.exact - full_mark(big) * full;
    if (full > 0) consider(big, full, nullptr, Volume());
    for (const Tool* small : tools_) {
      // The mark at or below the rest, and the one above it.
      const auto above = std::upper_bound(small->marks.begin(), small->marks.end(), rest);
      if (above != small->marks.end()) consider(big, full, small, *above);
      if (above != small->marks.begin()) consider(big, full, small, *std::prev(above));
    }
  }

  void consider(const Tool& big, int full, const Tool* small, Volume mark) {
    Candidate made;
    if (full > 0) add(made, big, full_mark(big), full);
    if (small != nullptr) {
      // A rest that fills the same tool is another full fill.
      const bool same = full > 0 && small == &big && std::fabs(mark / full_mark(big) - 1) < kSame;
      if (same) {
        made = Candidate();
        add(made, big, full_mark(big), full + 1);
      } else {
        add(made, *small, mark, 1);
      }
    }
    made.tools =
        made.measured.pours.size() > 1 && made.measured.pours[0].tool != made.measured.pours[1].tool
            ? 2
            : 1;
    const Volume off = distance(made.measured.total);
    made.measured.off_by = off + made.measured.tool_bound;
    if (allowed(made) && (!best_ || better(made, *best_))) best_ = made;
  }

  static void add(Candidate& made, const Tool& tool, Volume to, int count) {
    made.measured.pours.push_back({&tool, to, count});
    made.measured.total = made.measured.total + to * count;
    made.measured.tool_bound = made.measured.tool_bound + fill_bound(tool, to) * count;
    made.pours += count;
  }

  [[nodiscard]] Volume distance(Volume total) const {
    return millilitres(std::fabs(in_millilitres(total) - in_millilitres(task_.exact)));
  }

  [[nodiscard]] bool allowed(const Candidate& made) const {
    const Volume total = made.measured.total;
    const double relative = total / task_.exact - 1;
    if (std::fabs(relative) > as_ratio(task_.tolerance) + kSame) return false;
    if (task_.rounding == Rounding::never_under && relative < -kSame) return false;
    if (task_.rounding == Rounding::never_over && relative > kSame) return false;
    if (task_.ceiling && total > *task_.ceiling * (1 + kSame)) return false;
    for (const Pour& pour : made.measured.pours) {
      int fills = 0;
      for (const Pour& other : made.measured.pours)
        fills += other.tool == pour.tool ? other.count : 0;
      if (fills > pour.tool->pours) return false;
    }
    return true;
  }

  static bool better(const Candidate& a, const Candidate& b) {
    const auto key = [](const Candidate& c) {
      return std::make_tuple(c.pours, c.tools, in_millilitres(c.measured.off_by));
    };
    return key(a) < key(b);
  }

  const MeasureTask& task_;
  const std::vector<const Tool*>& tools_;
  std::optional<Candidate> best_;
};

MeasureProblem problem_of(const MeasureTask& task, const MeasureAnswer& answer) {
  if (task.exact < answer.smallest_mark) return MeasureProblem::too_small;
  if (task.exact > answer.largest_dose) return MeasureProblem::too_large;
  return MeasureProblem::outside_tolerance;
}

}  // namespace

Volume fill_bound(const Tool& tool, Volume to) {
  Volume calibration = calibration_default(tool, to);
  if (const auto* part = std::get_if<Share>(&tool.accuracy)) calibration = to * as_ratio(*part);
  if (const auto* fixed = std::get_if<Volume>(&tool.accuracy)) calibration = *fixed;
  return calibration + reading_bound(tool, to);
}

MeasureAnswer measure(const MeasureTask& task, const std::vector<const Tool*>& tools) {
  MeasureAnswer answer;
  if (tools.empty()) return answer;
  answer.smallest_mark = tools.front()->marks.front();
  for (const Tool* tool : tools) {
    answer.smallest_mark = std::min(answer.smallest_mark, tool->marks.front());
    answer.largest_dose = std::max(answer.largest_dose, full_mark(*tool) * tool->pours);
  }
  answer.measured = Search(task, tools).best();
  answer.problem = answer.measured ? MeasureProblem::none : problem_of(task, answer);
  return answer;
}

}  // namespace dosewright
