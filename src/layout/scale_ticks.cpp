#include "scale_ticks.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

namespace dosewright {

namespace {

constexpr double kSlack = 1e-6;   // mm; positions are sums of doubles
constexpr double kEvenAir = 1.7;  // ours

// 1, 2, 5, 10, 20, 50 …
long leading_digit(long step) {
  while (step % 10 == 0) step /= 10;
  return step;
}
long next_step(long step) { return leading_digit(step) == 2 ? step / 2 * 5 : step * 2; }

// Neighbouring ticks thinned by one step. At a cut it meets the next stretch; that tick is always
// kept, so that the change of step happens at a figure.
struct Stretch {
  std::span<const ScaleTick> ticks;
  bool even = false;
  bool cut_before = false;
  bool cut_after = false;

  [[nodiscard]] bool has(const ScaleTick& tick, long step) const {
    return tick.division % step == 0 || (cut_before && &tick == &ticks.front()) ||
           (cut_after && &tick == &ticks.back());
  }
};

struct Steps {
  long ticks = 1;
  long figures = 1;
};

bool far_enough(const Stretch& stretch, long step, double least, double length) {
  const ScaleTick* last = nullptr;
  for (const ScaleTick& tick : stretch.ticks) {
    if (!stretch.has(tick, step)) continue;
    // The odd end of a part gives no measure: what stands too near it gives way to it later.
    const bool odd_end = &tick == &stretch.ticks.back() && tick.division % step != 0;
    if (odd_end && last != nullptr && last != &stretch.ticks.front()) continue;
    if (last != nullptr && (tick.at - last->at) * length < least - kSlack) return false;
    last = &tick;
  }
  return true;
}

// The smallest multiple of `base` that leaves this much room; nothing when the cuts alone crowd.
std::optional<long> smallest_step(const Stretch& stretch, long base, double least, double length) {
  const long enough = stretch.ticks.back().division;
  for (long step = base;; step = next_step(step)) {
    if (step % base == 0 && far_enough(stretch, step, least, length)) return step;
    if (step > enough * 10) return std::nullopt;
  }
}

long figured_count(const Stretch& stretch, long step) {
  return std::count_if(stretch.ticks.begin(), stretch.ticks.end(),
                       [&](const ScaleTick& tick) { return stretch.has(tick, step); });
}

// The finest ticks that are told apart. What one of them is worth can be counted only between two
// figures, so a step that leaves room for fewer is passed over for a coarser one.
std::optional<Steps> counted_steps(const Stretch& stretch, const TickSpacing& spacing,
                                   double figure_room) {
  for (long base = 1; base <= stretch.ticks.back().division;) {
    const auto ticks = smallest_step(stretch, base, spacing.between, spacing.length);
    if (!ticks || figured_count(stretch, *ticks) < 2) return std::nullopt;
    const auto figures = smallest_step(stretch, *ticks, figure_room, spacing.length);
    if (figures && figured_count(stretch, *figures) >= 2) return Steps{*ticks, *figures};
    base = next_step(*ticks);
  }
  return std::nullopt;
}

std::optional<Steps> steps_of(const Stretch& stretch, const TickSpacing& spacing) {
  // Crowding figures are tight at one end only; a long even row of them needs more air.
  if (stretch.even) {
    if (const auto airy = counted_steps(stretch, spacing, spacing.figure_room * kEvenAir))
      return airy;
  }
  if (const auto counted = counted_steps(stretch, spacing, spacing.figure_room)) return counted;
  // Room for one figure only: it stands alone, without ticks that could not be counted.
  const auto alone = smallest_step(stretch, 1, spacing.figure_room, spacing.length);
  if (!alone) return std::nullopt;
  return Steps{*alone, *alone};
}

// Halves between two figures, or every second tick; 0 for none.
long middle_step(const Steps& steps) {
  for (const long middle : {steps.ticks * 5, steps.ticks * 2}) {
    if (steps.figures > middle && steps.figures % middle == 0) return middle;
  }
  return 0;
}

// Whether equal numbers of divisions take equal lengths, within a fiftieth.
bool is_even(std::span<const ScaleTick> ticks) {
  if (ticks.size() < 3) return true;
  const auto slope = [](const ScaleTick& a, const ScaleTick& b) {
    return (b.at - a.at) / static_cast<double>(std::max(1L, b.division - a.division));
  };
  const ScaleTick& middle = ticks[ticks.size() / 2];
  const double first = slope(ticks.front(), middle);
  const double second = slope(middle, ticks.back());
  return std::abs(first - second) <= 0.02 * std::max(first, second);
}

enum class Cuts { by_one_two_five, by_tens };

bool is_cut(const ScaleTick& tick, Cuts cuts) {
  if (tick.division <= 0) return false;
  const long digit = leading_digit(tick.division);
  return digit == 1 || (cuts == Cuts::by_one_two_five && (digit == 2 || digit == 5));
}

std::vector<Stretch> stretches_of(std::span<const ScaleTick> ticks, Cuts cuts) {
  std::vector<Stretch> out;
  std::size_t first = 0;
  for (std::size_t i = 1; i < ticks.size(); ++i) {
    const bool last = i + 1 == ticks.size();
    if (!last && !is_cut(ticks[i], cuts)) continue;
    out.push_back({.ticks = ticks.subspan(first, i - first + 1),
                   .cut_before = first == 0 || is_cut(ticks[first], cuts),
                   .cut_after = last || is_cut(ticks[i], cuts)});
    first = i;
  }

  return out;
}

void keep(const Stretch& stretch, const Steps& steps, std::vector<KeptTick>& out) {
  const long middle = middle_step(steps);
  for (const ScaleTick& tick : stretch.ticks) {
    if (!stretch.has(tick, steps.ticks)) continue;
    // The tick at a cut ends one stretch and starts the next.
    if (&tick == &stretch.ticks.front() && !out.empty() && out.back().at == tick.at) continue;
    if (stretch.has(tick, steps.figures)) {
      out.push_back({tick.at, TickRank::figured, tick.figure});
    } else {
      const bool stands_out = middle > 0 && tick.division % middle == 0;
      out.push_back({tick.at, stands_out ? TickRank::middle : TickRank::minor, ""});
    }
  }
}

bool keep_all(const std::vector<Stretch>& stretches, const TickSpacing& spacing,
              std::vector<KeptTick>& out) {
  std::vector<KeptTick> kept;
  for (const Stretch& stretch : stretches) {
    const auto steps = steps_of(stretch, spacing);
    if (!steps) return false;
    keep(stretch, *steps, kept);
  }
  out.insert(out.end(), kept.begin(), kept.end());
  return true;
}

void keep_part(const ScalePart& part, const TickSpacing& spacing, std::vector<KeptTick>& out) {
  if (part.ticks.empty()) return;
  if (!is_even(part.ticks)) {
    for (const Cuts cuts : {Cuts::by_one_two_five, Cuts::by_tens}) {
      if (keep_all(stretches_of(part.ticks, cuts), spacing, out)) return;
    }
  }
  keep_all({{.ticks = part.ticks, .even = is_even(part.ticks)}}, spacing, out);
}

std::vector<KeptTick> without_crowding(const std::vector<KeptTick>& ticks,
                                       const TickSpacing& spacing) {
  std::vector<KeptTick> out;
  // The odd end of a scale stands out of step: without the tick after it the next would be counted
  // as that one, so these two may stand as near as they can be told apart.
  constexpr double kToldApart = 0.5;  // mm
  const auto crowds = [&](const KeptTick& tick) {
    const double least = out.size() == 1 ? std::min(spacing.between, kToldApart) : spacing.between;
    return !out.empty() && (tick.at - out.back().at) * spacing.length < least - kSlack;
  };
  for (const KeptTick& tick : ticks) {
    // The last tick says how far the scale reaches: it stays whatever stands before it.
    const bool last = &tick == &ticks.back() && out.size() > 1;
    while (crowds(tick) && (tick.rank > out.back().rank || last)) out.pop_back();
    if (!crowds(tick)) out.push_back(tick);
  }
  return out;
}

// The ends of an axis carry their figures, whatever the step: between them the scale can be read.
void figure_ends(const ScaleAxis& axis, std::vector<KeptTick>& ticks) {
  std::vector<const ScaleTick*> all;
  for (const ScalePart& part : axis.parts) {
    for (const ScaleTick& tick : part.ticks) all.push_back(&tick);
  }
  if (all.empty()) return;
  const auto figured = [](const ScaleTick& tick) {
    return KeptTick{tick.at, TickRank::figured, tick.figure};
  };
  if (ticks.empty() || ticks.front().at > all.front()->at) {
    ticks.insert(ticks.begin(), figured(*all.front()));
  } else {
    ticks.front() = figured(*all.front());
  }
  if (ticks.back().at < all.back()->at) {
    ticks.push_back(figured(*all.back()));
  } else {
    ticks.back() = figured(*all.back());
  }
}

void drop_touching_figures(std::vector<KeptTick>& ticks, const TickSpacing& spacing) {
  KeptTick* last = nullptr;
  const auto without_figure = [](KeptTick& tick) {
    tick.rank = TickRank::middle;
    tick.figure.clear();
  };
  for (KeptTick& tick : ticks) {
    if (tick.rank != TickRank::figured) continue;
    // The odd figure at the end is out of step with the one before it and wants more air.
    constexpr double kEndRoom = 1.4;
    const bool end = &tick == &ticks.back() && last != &ticks.front();
    const double room = spacing.figure_room * (end ? kEndRoom : 1);
    if (last != nullptr && (tick.at - last->at) * spacing.length < room - kSlack) {
      without_figure(end ? *last : tick);
      if (!end) continue;
    }
    last = &tick;
  }
  // Beside a single figure no other tick can be counted.
  const auto figured = [](const KeptTick& tick) { return tick.rank == TickRank::figured; };
  if (std::count_if(ticks.begin(), ticks.end(), figured) == 1)
    std::erase_if(ticks, [&](const KeptTick& tick) { return !figured(tick); });
}

// Puts ticks back that thinning took out but reading needs: from one tick to the next no dose may
// be rounded beyond its tolerance.
class NeededTicks {
 public:
  NeededTicks(std::vector<KeptTick>& kept, const TickSpacing& spacing)
      : kept_(kept), spacing_(spacing) {}

  void add(const ScalePart& part) {
    if (part.words.empty() || part.ticks.empty()) return;
    const ScaleTick* last = nullptr;
    const ScaleTick* passed = nullptr;  // the latest that was left out since
    for (const ScaleTick& tick : part.ticks) {
      if (last != nullptr && passed != nullptr && tick.at > last->next_by + kHair) {
        insert(*passed);
        last = passed;
      }
      passed = &tick;
      const bool end = &tick == &part.ticks.front() || &tick == &part.ticks.back();
      const bool limited = tick.next_by < ScaleTick().next_by;
      if (end && limited && nearest_to(tick.at) >= spacing_.between) insert(tick);
      if (!is_kept(tick)) continue;
      last = &tick;
      passed = nullptr;
    }
  }

 private:
  static constexpr double kHair = 1e-9;

  [[nodiscard]] bool is_kept(const ScaleTick& tick) const {
    return std::any_of(kept_.begin(), kept_.end(),
                       [&](const KeptTick& k) { return std::abs(k.at - tick.at) <= kHair; });
  }

  // Millimetres to the nearest tick kept; with figures only, to the nearest figure.
  [[nodiscard]] double nearest_to(double at, bool figured = false) const {
    double nearest = spacing_.length;
    for (const KeptTick& kept : kept_) {
      if (figured && kept.rank != TickRank::figured) continue;
      nearest = std::min(nearest, std::abs(kept.at - at) * spacing_.length);
    }
    return nearest;
  }

  void insert(const ScaleTick& tick) {
    const bool room = nearest_to(tick.at, true) >= spacing_.figure_room;
    const KeptTick made{tick.at, room ? TickRank::figured : TickRank::minor,
                        room ? tick.figure : ""};
    const auto place = std::find_if(kept_.begin(), kept_.end(),
                                    [&](const KeptTick& kept) { return kept.at > tick.at; });
    kept_.insert(place, made);
  }

  std::vector<KeptTick>& kept_;
  const TickSpacing& spacing_;
};

}  // namespace

std::vector<KeptTick> kept_ticks(const ScaleAxis& axis, const TickSpacing& spacing) {
  std::vector<KeptTick> all;
  for (const ScalePart& part : axis.parts) keep_part(part, spacing, all);
  figure_ends(axis, all);
  std::vector<KeptTick> out = without_crowding(all, spacing);
  drop_touching_figures(out, spacing);
  NeededTicks needed(out, spacing);
  for (const ScalePart& part : axis.parts) needed.add(part);
  return out;
}

}  // namespace dosewright
