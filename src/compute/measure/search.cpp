#include "search.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace dosewright {

namespace {

constexpr int kMostTools = 3;
constexpr int kMostMixedFills = 6;
constexpr std::size_t kMostMarksInThree = 400;
// A tool that brings this part of a dose must be good for it by itself: a sure trifle on top makes
// no coarse fill surer.
constexpr double kMajorPart = 0.2;

// A choice for each tool that is used, the first `used` of the arrays.
struct Way {
  std::array<const Use*, kMostTools> uses{};
  std::array<const Option*, kMostTools> options{};
  std::size_t used = 0;
  double total = 0;
  double bound = 0;
  bool small = false;
  int most_pours = 0;

  // The worst of the whole and of each tool that brings a fifth of it or more, as bound over total.
  [[nodiscard]] double doubt(const Option& last) const {
    const double sum = total + last.total;
    double worst = (bound + last.bound) / sum;
    const auto look = [&](const Option& part) {
      if (part.total >= kMajorPart * sum) worst = std::max(worst, part.bound / part.total);
    };
    for (std::size_t i = 0; i < used; ++i) look(*options.at(i));
    look(last);
    return worst;
  }

  [[nodiscard]] Way with(const Use& use, const Option& option) const {
    Way out = *this;
    out.uses.at(used) = &use;
    out.options.at(used) = &option;
    ++out.used;
    out.total += option.total;
    out.bound += option.bound;
    out.small = out.small || option.small;
    out.most_pours = std::max(most_pours, use.tool->pours);
    return out;
  }
};

Portion in_unit_of(const Tool& tool, double mark) { return Portion::like(tool.holds, mark); }

Measured measured_of(const Way& way, const MeasureTask& task, Grade grade) {
  Measured out;
  const auto portion = [&](double stored) { return Portion::like(task.exact, stored); };
  double variance = 0;
  double density_u = 0;
  for (std::size_t i = 0; i < way.used; ++i) {
    const Tool* tool = way.uses.at(i)->tool;
    const Option& option = *way.options.at(i);
    const bool same = option.rest == option.mark;
    const int first = same ? option.fills : option.fills - 1;
    out.pours.push_back({tool, in_unit_of(*tool, option.mark), first});
    if (!same) out.pours.push_back({tool, in_unit_of(*tool, option.rest), 1});
    variance += option.calibration_u * option.calibration_u + option.reading_u2;
    density_u += option.density_u;
  }
  variance += density_u * density_u;
  out.grade = grade;
  out.total = portion(way.total);
  out.tool_bound = portion(way.bound);
  out.tool_uncertainty = portion(std::sqrt(variance));
  out.off_by = portion(std::fabs(way.total - task.exact.stored()) + way.bound);
  return out;
}

// Larger tools are poured first, whatever their order in the description.
void put_large_first(Measured& way) {
  std::stable_sort(way.pours.begin(), way.pours.end(), [](const Pour& a, const Pour& b) {
    if (a.tool == b.tool) return false;
    return a.tool->holds.stored() > b.tool->holds.stored();
  });
}

// Looks through all ways, fewest fills and tools first, and keeps the best of each grade.
class Search {
 public:
  Search(const MeasureTask& task, const std::vector<Use>& uses)
      : task_(task), uses_(uses), window_(window_of(task)), exact_(task.exact.stored()) {}

  std::optional<Measured> best() {
    int most = 0;
    for (const Use& use : uses_) {
      most = std::max(most, use.tool->pours);
      if (!use.by_fills[1].empty()) largest_ = std::max(largest_, use.by_fills[1].back().total);
    }
    const std::size_t hopeful = best_possible_grade();
    for (int fills = 1; fills <= most; ++fills) {
      const int tools = fills > kMostMixedFills ? 1 : std::min(fills, kMostTools);
      for (int k = 1; k <= tools; ++k) {
        k_ = k;
        open_ = {!found_[0].used, !found_[1].used, !found_[2].used};
        extend(Way(), 0, fills, k, fills);
        if (found_.at(hopeful).used > 0) return finished(hopeful);
      }
    }
    for (std::size_t grade = 0; grade < found_.size(); ++grade) {
      if (found_.at(grade).used > 0) return finished(grade);
    }
    return std::nullopt;
  }

 private:
  // No way is surer than its surest fill, so a search for more can end early.
  [[nodiscard]] std::size_t best_possible_grade() const {
    auto best = Grade::coarse;
    for (const Use& use : uses_) {
      for (const Option& option : use.by_fills[1]) {
        if (option.total > window_.most) break;
        best = std::min(best, grade_of(option.bound / option.total, option.small, task_.tolerance));
      }
    }
    return static_cast<std::size_t>(best);
  }

  // Nobody weighs on two scales; and three tools of very many marks would take minutes to search.
  static bool may_be_mixed(const Use& use, int tools) {
    if (tools == 1) return true;
    if (use.tool->holds.is_powder()) return false;
    return tools == 2 || use.tool->marks.size() <= kMostMarksInThree;
  }

  void extend(const Way& so_far, std::size_t from, int left, int tools, int all) {
    for (std::size_t i = from; i < uses_.size(); ++i) {
      const Use& use = uses_[i];
      if (!may_be_mixed(use, k_)) continue;
      const int most = std::min(left - (tools - 1), use.tool->pours);
      if (tools == 1) {
        if (left <= use.tool->pours) close(so_far, use, left, all);
        continue;
      }
      for (int count = 1; count <= most; ++count) {
        for (const Option& option : use.by_fills[static_cast<std::size_t>(count)]) {
          if (so_far.total + option.total > window_.most) break;
          if (so_far.total + option.total + largest_ * (left - count) < window_.least) continue;
          extend(so_far.with(use, option), i + 1, left - count, tools - 1, all);
        }
      }
    }
  }

  // The last tool must bring the total into the window.
  void close(const Way& so_far, const Use& use, int fills, int all) {
    if (std::max(so_far.most_pours, use.tool->pours) < all) return;
    const auto& options = use.by_fills[static_cast<std::size_t>(fills)];
    const double least = window_.least - so_far.total;
    auto option = std::lower_bound(options.begin(), options.end(), least,
                                   [](const Option& o, double v) { return o.total < v; });
    for (; option != options.end() && so_far.total + option->total <= window_.most; ++option)
      consider(so_far, use, *option);
  }

  void consider(const Way& so_far, const Use& use, const Option& option) {
    const double total = so_far.total + option.total;
    const double bound = so_far.bound + option.bound;
    const bool small = so_far.small || option.small;
    const auto grade =
        static_cast<std::size_t>(grade_of(so_far.doubt(option), small, task_.tolerance));
    if (!open_.at(grade)) return;  // found with fewer fills or tools
    const double off_by = std::fabs(total - exact_) + bound;
    Way& best = found_.at(grade);
    if (best.used > 0 && off_by >= off_by_.at(grade) * (1 - 1e-12)) return;
    best = so_far.with(use, option);
    off_by_.at(grade) = off_by;
  }

  [[nodiscard]] Measured finished(std::size_t grade) const {
    Measured out = measured_of(found_.at(grade), task_, static_cast<Grade>(grade));
    put_large_first(out);
    return out;
  }

  const MeasureTask& task_;
  const std::vector<Use>& uses_;
  Window window_;
  double exact_;
  double largest_ = 0;  // single fill of any tool
  int k_ = 1;           // tools in the ways looked through now
  std::array<Way, 3> found_{};
  std::array<double, 3> off_by_{};
  std::array<bool, 3> open_{};
};

}  // namespace

Window window_of(const MeasureTask& task) {
  const double exact = task.exact.stored();
  const double tolerance = as_ratio(task.tolerance);
  Window window{exact * (1 - tolerance - kSame), exact * (1 + tolerance + kSame)};
  if (task.rounding == Rounding::never_under)
    window.least = std::max(window.least, exact * (1 - kReached));
  if (task.rounding == Rounding::never_over)
    window.most = std::min(window.most, exact * (1 + kReached));
  if (task.ceiling) window.most = std::min(window.most, task.ceiling->stored() * (1 + kSame));
  if (task.floor) window.least = std::max(window.least, task.floor->stored() * (1 - kSame));
  return window;
}

Grade grade_of(double doubt, bool small, Share tolerance) {
  const double wanted = as_ratio(tolerance) + kSame;
  if (doubt > std::max(wanted, as_ratio(kCoarse) + kSame)) return Grade::coarse;
  return doubt > wanted || small ? Grade::fair : Grade::good;
}

std::optional<Measured> best_way(const MeasureTask& task, const std::vector<Use>& uses) {
  return Search(task, uses).best();
}

std::optional<Measured> way_as_good(const MeasureTask& task, const Use& use, const Measured& as) {
  const int fills = fills_of(as);
  if (use.by_fills.size() <= static_cast<std::size_t>(fills)) return std::nullopt;
  const Window window = window_of(task);
  std::optional<Measured> best;
  for (const Option& option : use.by_fills[static_cast<std::size_t>(fills)]) {
    if (option.total < window.least || option.total > window.most) continue;
    const Grade grade = grade_of(option.bound / option.total, option.small, task.tolerance);
    if (grade != as.grade) continue;
    Measured made = measured_of(Way().with(use, option), task, grade);
    if (!best || made.off_by.stored() < best->off_by.stored() * (1 - 1e-12)) best = std::move(made);
  }
  return best;
}

int fills_of(const Measured& way) {
  int out = 0;
  for (const Pour& pour : way.pours) out += pour.count;
  return out;
}

int tools_of(const Measured& way) {
  int out = 0;
  const Tool* before = nullptr;
  for (const Pour& pour : way.pours) {
    out += pour.tool != before ? 1 : 0;
    before = pour.tool;
  }
  return out;
}

}  // namespace dosewright
