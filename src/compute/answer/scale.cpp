// Which tool reads which part of a dose scale.
#include <algorithm>
#include <cmath>
#include <optional>

#include "dosewright/answer/answer.hpp"
#include "dosewright/measure/tool_error.hpp"

namespace dosewright {

namespace {

// How far above and below an exact dose a mark may lie, as factors.
struct Allowed {
  double above = 1;
  double below = 1;
};

Allowed allowed_for(const StockAnswer& stock) {
  const DoseRule& rule = stock.stock->dose;
  const double rate = per_litre(stock.all);
  Allowed out{1 + as_ratio(rule.tolerance), 1 - as_ratio(rule.tolerance)};
  if (rule.ceiling) out.above = std::min(out.above, per_litre(*rule.ceiling) / rate);
  if (rule.floor) out.below = std::max(out.below, per_litre(*rule.floor) / rate);
  return out;
}

// The smallest dose between two neighbouring marks from which on the rule is kept up to the upper
// one: `low` when it is kept all the way.
double start_between(double low, double high, Rounding rounding, const Allowed& allowed) {
  const double up_from = high / allowed.above;  // from here on the upper mark will do
  const double down_to = low / allowed.below;   // up to here the lower mark will do
  const double middle = (low + high) / 2;
  switch (rounding) {
    case Rounding::never_under:
      return std::max(low, up_from);
    case Rounding::never_over:
      return down_to < high * (1 - 1e-9) ? high : low;
    case Rounding::nearest:
      break;
  }
  const bool kept = up_from <= middle * (1 + 1e-9) && down_to >= middle * (1 - 1e-9);
  return kept ? low : std::max(middle, up_from);
}

bool is_usable(const Tool& tool, Portion mark) {
  return mark.stored() >= tool.holds.stored() * as_ratio(tool.least) * (1 - 1e-9) &&
         fill_bound(tool, mark) / mark <= as_ratio(kCoarse);
}

// From this dose on, every reading of the tool keeps the rule, and the tool is not coarse. Nothing
// when not even its highest mark will do.
std::optional<double> usable_from(const Tool& tool, Rounding rounding, const Allowed& allowed) {
  if (!is_usable(tool, tool.marks.back())) return std::nullopt;
  for (std::size_t i = tool.marks.size() - 1; i > 0; --i) {
    const double low = tool.marks[i - 1].stored();
    const double high = tool.marks[i].stored();
    if (!is_usable(tool, tool.marks[i - 1])) return high;
    const double start = start_between(low, high, rounding, allowed);
    if (start > low * (1 + 1e-9)) return start;
  }
  return tool.marks.front().stored();
}

// A stock's own tools first, then the smaller ones, then the finer ones.
std::vector<const Tool*> in_order(const Room& room, const StockAnswer& stock, bool powder) {
  std::vector<const Tool*> tools = tools_for(room, *stock.stock).tools;
  // A spoonful of powder is no scale to read a weight from.
  std::erase_if(tools, [&](const Tool* tool) { return tool->holds.is_powder() != powder; });
  std::stable_sort(tools.begin(), tools.end(), [](const Tool* a, const Tool* b) {
    if (a->only_for.empty() != b->only_for.empty()) return b->only_for.empty();
    if (a->marks.back() != b->marks.back()) return a->marks.back() < b->marks.back();
    return a->step < b->step;
  });
  return tools;
}

// The part of [from, to] that no range covers yet goes to `tool`, piece by piece.
void add_uncovered(const Tool& tool, double from, double to, Portion kind,
                   std::vector<ScaleRange>& ranges) {
  std::vector<ScaleRange> added;
  const auto add = [&](double start, double end) {
    if (end > start * (1 + 1e-9))
      added.push_back({&tool, Portion::like(kind, start), Portion::like(kind, end)});
  };
  double at = from;
  for (const ScaleRange& taken : ranges) {
    if (taken.from.stored() > at) add(at, std::min(to, taken.from.stored()));
    at = std::max(at, taken.to.stored());
    if (at >= to) break;
  }
  if (at < to) add(at, to);
  ranges.insert(ranges.end(), added.begin(), added.end());
  std::sort(ranges.begin(), ranges.end(),
            [](const ScaleRange& a, const ScaleRange& b) { return a.from < b.from; });
}

}  // namespace

std::vector<ScaleRange> scale_ranges(const Room& room, const StockAnswer& stock, Portion from,
                                     Portion to) {
  const Rounding rounding = stock.stock->dose.rounding;
  const Allowed allowed = allowed_for(stock);
  std::vector<ScaleRange> out;
  for (const Tool* tool : in_order(room, stock, from.is_powder())) {
    const auto usable = usable_from(*tool, rounding, allowed);
    if (!usable) continue;
    const double start = std::max(from.stored(), *usable);
    const double end = std::min(to.stored(), tool->marks.back().stored());
    if (end > start) add_uncovered(*tool, start, end, from, out);
  }
  return out;
}

Portion next_mark_by(const StockAnswer& stock, Portion mark) {
  const Allowed allowed = allowed_for(stock);
  switch (stock.stock->dose.rounding) {
    case Rounding::never_under:
      return mark * allowed.above;
    case Rounding::never_over:
      return mark * (1 / allowed.below);
    case Rounding::nearest:
      break;
  }
  // Half way up must be near enough to both: n / above <= (m + n) / 2 <= m / below.
  return mark * std::min(1 / (2 / allowed.above - 1), 2 / allowed.below - 1);
}

std::vector<ScaleReading> scale_readings(const std::vector<ScaleRange>& ranges, Rounding rounding) {
  std::vector<ScaleReading> out;
  for (const ScaleRange& range : ranges) {
    const auto& marks = range.tool->marks;
    for (std::size_t i = 0; i < marks.size(); ++i) {
      const Portion mark = marks[i];
      if (mark < range.from || mark > range.to) continue;
      const Portion below = i > 0 ? std::max(marks[i - 1], range.from) : range.from;
      const Portion above = i + 1 < marks.size() ? std::min(marks[i + 1], range.to) : range.to;
      ScaleReading reading{range.tool, mark, mark, mark};
      if (rounding == Rounding::never_under) reading.lowest = std::min(below, mark);
      if (rounding == Rounding::never_over) reading.highest = std::max(above, mark);
      if (rounding == Rounding::nearest) {
        reading.lowest = std::min((below + mark) * 0.5, mark);
        reading.highest = std::max((above + mark) * 0.5, mark);
      }
      out.push_back(reading);
    }
  }
  return out;
}

Share scale_bound(const std::vector<ScaleRange>& ranges, Rounding rounding) {
  Share worst;
  for (const ScaleReading& reading : scale_readings(ranges, rounding)) {
    const Portion bound = fill_bound(*reading.tool, reading.mark);
    const Portion high = reading.mark + bound - reading.lowest;
    const Portion low = reading.highest - reading.mark + bound;
    worst = std::max({worst, share(high / reading.lowest), share(low / reading.highest)});
  }
  return worst;
}

}  // namespace dosewright
