// The words and figures of a dose scale: where each tick stands and what is written beside it.
#include <algorithm>
#include <cmath>
#include <optional>

#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

// Where an amount of water stands between the ends: 0 to 1.
class Ruler {
 public:
  explicit Ruler(const ScaleRequest& scale) : scale_(scale) {}

  [[nodiscard]] double at(Volume water) const {
    if (!scale_.logarithmic) return (water - scale_.from) / (scale_.to - scale_.from);
    return std::log(water / scale_.from) / std::log(scale_.to / scale_.from);
  }

 private:
  const ScaleRequest& scale_;
};

bool within(double at) { return at > -1e-9 && at < 1 + 1e-9; }

// Ticks every `step` units from one end to the other, both in units.
ScalePart water_part(const Ruler& ruler, const ScaleRequest& scale, double from, double to,
                     double step, const Words& w) {
  ScalePart part;
  part.from = std::clamp(ruler.at(scale.one_unit * from), 0.0, 1.0);
  part.to = std::clamp(ruler.at(scale.one_unit * to), 0.0, 1.0);
  for (auto i = static_cast<long>(std::ceil(from / step - 1e-9));
       static_cast<double>(i) * step <= to * (1 + 1e-9); ++i) {
    const double value = static_cast<double>(i) * step;
    const double at = ruler.at(scale.one_unit * value);
    if (within(at))
      part.ticks.push_back({std::clamp(at, 0.0, 1.0), i, w.number(significant_figure(value, 6))});
  }
  return part;
}

// A power of ten, so that its multiples by 2 and 5 are round; finer than anyone reads, for layout
// thins what it is given.
double fine_step(const ScaleRequest& scale) {
  const double from = scale.from / scale.one_unit;
  const double to = scale.to / scale.one_unit;
  if (!scale.logarithmic) return std::pow(10.0, std::floor(std::log10((to - from) / 200)));
  const double decade = std::pow(10.0, std::floor(std::log10(from) + 1e-9));
  return from < 2 * decade ? decade / 100 : decade / 10;
}

ScaleAxis water_axis(const ScaleRequest& scale, const Words& w) {
  ScaleAxis axis;
  axis.unit = scale.unit;
  axis.parts.push_back(water_part(Ruler(scale), scale, scale.from / scale.one_unit,
                                  scale.to / scale.one_unit, fine_step(scale), w));
  return axis;
}

ScalePart dose_part(const Ruler& ruler, const StockAnswer& stock, const ScaleRange& range,
                    const Words& w) {
  ScalePart part;
  const Tool& tool = *range.tool;
  const auto at = [&](Portion dose) {
    return std::clamp(ruler.at(water_for(stock, dose)), 0.0, 1.0);
  };
  part.from = at(range.from);
  part.to = at(range.to);
  part.words = tool.name;
  // The axis says mL throughout; how many drops that is stands beside the tool.
  if (tool.kind == Tool::Kind::dropper)
    part.words += ", " + w.say("{1} drops per mL", {std::to_string(tool.drops_per_mL)});
  // Counted in a power of ten, so that thinning leaves 0.2, 1 and 2 and never 0.4.
  const double unit = std::pow(10.0, -decimals_of(tool.step.stored()));
  for (const Portion mark : tool.marks) {
    const double slack = 1e-9 * mark.stored();
    if (mark.stored() < range.from.stored() - slack || mark.stored() > range.to.stored() + slack)
      continue;
    // Of the exact place, not clamped to the page.
    const double next = ruler.at(water_for(stock, next_mark_by(stock, mark)));
    part.ticks.push_back(
        {at(mark), std::lround(mark.stored() / unit), mark_figure(tool, mark, w), next});
  }
  return part;
}

ScaleAxis dose_axis(const StockAnswer& stock, const ScaleRequest& scale,
                    const std::vector<ScaleRange>& ranges, const Words& w) {
  const Ruler ruler(scale);
  ScaleAxis axis;
  axis.unit = unit_of(stock.rate * scale.to);
  for (const ScaleRange& range : ranges) axis.parts.push_back(dose_part(ruler, stock, range, w));
  return axis;
}

// The marks nearest to the ends from outside, where a dose at the end is rounded to them; nothing
// where none is near.
struct EndMarks {
  std::optional<Portion> below;
  std::optional<Portion> above;
};

// Whether a dose between these two marks may go to the farther outside one of them.
bool rounds_outward(Rounding rounding, Rounding outward, Portion dose, const Portion& outside,
                    const std::optional<Portion>& inside) {
  if (rounding != Rounding::nearest) return rounding == outward;
  const double there = std::fabs((dose - outside).stored());
  return !inside || there <= std::fabs((*inside - dose).stored());
}

EndMarks end_marks(const Room& room, const StockAnswer& stock, const ScaleRequest& scale) {
  constexpr double kNear = 1.15;
  const Portion low = stock.rate * scale.from;
  const Portion high = stock.rate * scale.to;
  EndMarks out;
  EndMarks inside;
  for (const ScaleRange& range : scale_ranges(room, stock, low * (1 / kNear), high * kNear)) {
    for (const Portion mark : range.tool->marks) {
      if (mark < range.from || mark > range.to) continue;
      if (mark <= low && (!out.below || mark > *out.below)) out.below = mark;
      if (mark >= high && (!out.above || mark < *out.above)) out.above = mark;
      if (mark >= low && (!inside.below || mark < *inside.below)) inside.below = mark;
      if (mark <= high && (!inside.above || mark > *inside.above)) inside.above = mark;
    }
  }
  const Rounding rounding = stock.stock->dose.rounding;
  if (out.below && !rounds_outward(rounding, Rounding::never_over, low, *out.below, inside.below))
    out.below.reset();
  if (out.above && !rounds_outward(rounding, Rounding::never_under, high, *out.above, inside.above))
    out.above.reset();
  return out;
}

// The marks next to the ends are part of the scale: without the next larger one, the last stretch
// of water would have no dose to round up to.
ScaleRequest widened(const Room& room, const std::vector<const StockAnswer*>& stocks,
                     const ScaleRequest& scale) {
  ScaleRequest out = scale;
  for (const StockAnswer* stock : stocks) {
    const EndMarks marks = end_marks(room, *stock, scale);
    if (marks.below) out.from = std::min(out.from, water_for(*stock, *marks.below));
    if (marks.above) out.to = std::max(out.to, water_for(*stock, *marks.above));
  }
  const auto rounded = [&](Volume water, bool up) {
    return scale.one_unit * rounded_outward(water / scale.one_unit, 2, up);
  };
  constexpr double kSame = 1e-9;
  out.to = out.to > scale.to * (1 + kSame) ? rounded(out.to, true) : scale.to;
  out.from = out.from < scale.from * (1 - kSame) ? rounded(out.from, false) : scale.from;
  return out;
}

// Between two ticks the rule of the stock says which way to go.
std::string reading_words(const StockAnswer& stock, bool name_it, const Words& w) {
  const std::string out = name_it ? stock.stock->name + w.say(": ") : "";
  switch (stock.stock->dose.rounding) {
    case Rounding::never_under:
      return out + w.say("between two ticks take the larger dose; a hair past a tick is past it.") +
             ' ';
    case Rounding::never_over:
      return out +
             w.say(
                 "between two ticks take the smaller dose; a hair short of a tick is short of "
                 "it.") +
             ' ';
    case Rounding::nearest:
      break;
  }
  return out + w.say("between two ticks take the nearer one.") + ' ';
}

}  // namespace

DoseScaleContent dose_scale_content(const RoomAnswer& answers, const Document& document,
                                    const Words& w) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  DoseScaleContent out;
  std::vector<const StockAnswer*> stocks;
  for (const std::string& id : chart.stocks) stocks.push_back(find_stock(answers, id));
  const bool several = stocks.size() > 1;
  out.page.words = frame_words(w);
  out.page.title = title_of(chart, "Dose scale", w);
  if (!several) {
    const Stock& stock = *stocks.front()->stock;
    out.page.subtitle = named_unless_titled(out.page.title, stock, w);
    set_code(*stocks.front(), out.page, w);
  }
  const ScaleRequest scale = widened(room, stocks, document.scale);
  out.water = water_axis(scale, w);
  // A scale in gallons hangs beside one in litres.
  if (out.water.unit != "L")
    out.page.subtitle += (several ? "" : " · ") + w.say("water in {1}", {out.water.unit});
  out.page.subtitle =
      only_for_words(chart, several ? capitalised(out.page.subtitle) : out.page.subtitle, w);
  out.page.row_caption = w.say("water");
  out.page.columns = stock_columns(stocks, w);
  out.page.match = match_words(stocks, w);
  out.page.small = w.say("Read straight across from the water to the dose.") + ' ';
  for (const StockAnswer* stock : stocks) {
    const auto ranges =
        scale_ranges(room, *stock, stock->rate * scale.from, stock->rate * scale.to);
    out.doses.push_back(dose_axis(*stock, scale, ranges, w));
    const std::string remarks = dose_remarks(*stock, room.measures, stock->changes, w);
    std::string said = reading_words(*stock, several, w);
    if (!ranges.empty())
      said += w.say("Measuring can be off by {1} of a dose.",
                    {percent_up(scale_bound(ranges, stock->stock->dose.rounding))}) +
              ' ';
    if (!remarks.empty()) said += capitalised(remarks) + ". ";
    said += parts_words(stock->stock->dose, w);
    out.page.small += several ? said : capitalised(said);
  }
  out.page.small += past_date_words(stocks, w) + no_replacement(w);
  out.page.foot = foot_words(room, chart, w);
  return out;
}

}  // namespace dosewright
