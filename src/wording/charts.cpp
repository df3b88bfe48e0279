// The words of charts and measuring cards.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string rounding_words(const DoseRule& rule, const Words& w) {
  if (rule.rounding == Rounding::never_under) return w.say("Rounded up to a mark.") + ' ';
  if (rule.rounding == Rounding::never_over) return w.say("Rounded down to a mark.") + ' ';
  return w.say("Rounded to a mark, at most {1} away.", {w.quantity(percent_text(rule.tolerance))}) +
         ' ';
}

// The worst of a stock's doses on a chart: by rounding and tools, and with strength and water.
struct WorstShares {
  Share measuring;
  Share all;
};

WorstShares worst_shares(const ChartAnswer& answer, const StockAnswer* stock) {
  WorstShares worst;
  for (const auto& row : answer.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool counts = answer.stocks.size() == 1 || answer.stocks[i] == stock;
      if (!counts || !row[i].can_be_measured()) continue;
      worst.measuring = std::max(worst.measuring, off_by_share(row[i]));
      worst.all = std::max(worst.all, share(row[i].error.bound / row[i].exact));
    }
  }
  return worst;
}

// The usual changes of a tank chart's tanks, ascending, each once.
std::vector<Share> changes_of(const Room& room, const ChartRequest& chart,
                              const StockAnswer& stock) {
  if (chart.vessels.empty()) return stock.changes;
  std::vector<Share> out;
  for (const std::string& id : chart.vessels) {
    if (const auto change = find(room.vessels, id)->usual_change) out.push_back(*change);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::string stock_words(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                        const StockAnswer& stock, const Words& w) {
  std::string said = answer.stocks.size() > 1 ? stock.stock->name + w.say(": ") : "";
  const std::string remarks = dose_remarks(stock, room.measures, changes_of(room, chart, stock), w);
  if (!remarks.empty()) said += (said.empty() ? capitalised(remarks) : remarks) + ". ";
  said += parts_words(stock.stock->dose, w) + rounding_words(stock.stock->dose, w);
  const WorstShares worst = worst_shares(answer, &stock);
  if (as_ratio(worst.all) <= 0) return said;
  const std::vector<std::string> by = {percent_up(worst.measuring), percent_up(worst.all)};
  // Beside other stocks in as few words as say it.
  if (answer.stocks.size() > 1)
    return said +
           w.say(stock.stock->dry
                     ? "Measuring is off by up to {1}, with purity and water by up to {2}."
                     : "Measuring is off by up to {1}, with strength and water by up to {2}.",
                 by);
  const std::string off =
      stock.stock->dry
          ? w.say(
                "Measuring can be off by up to {1} of a dose; with what the powder's purity and "
                "the water's volume can be off, by up to {2} in all.",
                by)
          : w.say(
                "Measuring can be off by up to {1} of a dose; with what the bottle's strength and "
                "the water's volume can be off, by up to {2} in all.",
                by);
  return said + off + ' ';
}

// What must not meet in a bucket must not meet in a syringe either; each pair is said once.
std::string rinse_words(const ChartAnswer& answer, const Words& w) {
  std::string pairs;
  for (std::size_t i = 0; i < answer.stocks.size(); ++i) {
    std::vector<std::string> names;
    for (const Clash& clash : answer.stocks[i]->clashes) {
      const auto before = answer.stocks.begin() + static_cast<std::ptrdiff_t>(i);
      const bool said = std::any_of(answer.stocks.begin(), before, [&](const StockAnswer* other) {
        return other->stock->id == clash.id;
      });
      if (!said) names.push_back(clash.name);
    }
    if (names.empty()) continue;
    pairs = joined_remarks(
        pairs, w.say("{1} must not meet {2}", {answer.stocks[i]->stock->name, w.either(names)}), w);
  }
  if (pairs.empty()) return "";
  return w.say("Rinse a tool before it goes into another stock: {1}.", {pairs}) + ' ';
}

std::string small_words(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                        const Words& w) {
  std::string out;
  // Of several stocks each has lines of its own.
  const std::string end = answer.stocks.size() > 1 ? "\n" : "";
  for (const StockAnswer* stock : answer.stocks)
    out += stock_words(room, chart, answer, *stock, w) + end;
  return out + rinse_words(answer, w) + past_date_words(answer.stocks, w) + no_replacement(w);
}

// A dilution takes several lines anyway: in a narrow column its error stands among them, where it
// may wrap.
CellContent chart_cell(const StockAnswer& stock, const DoseAnswer& dose, ErrorShown shown,
                       std::size_t columns, const Words& w) {
  CellContent cell = cell_content(stock, dose, shown, w);
  if (columns == 1 || cell.instead.empty() || cell.off_by.empty()) return cell;
  const std::string stop = cell.how.ends_with('.') ? " " : ". ";
  cell.how += stop + capitalised(cell.off_by) + '.';
  cell.off_by.clear();
  return cell;
}

void add_bucket_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                     ErrorShown shown, const Words& w, ChartContent& out) {
  for (std::size_t i = 0; i < chart.buckets.size(); ++i) {
    const BucketRow& bucket = chart.buckets[i];
    RowContent row;
    row.name = bucket.name;
    row.water = water_as_written(bucket.text, bucket.water, room.measures, w);
    for (std::size_t j = 0; j < answer.stocks.size(); ++j)
      row.cells.push_back(
          chart_cell(*answer.stocks[j], answer.rows[i][j], shown, answer.stocks.size(), w));
    out.rows.push_back(std::move(row));
  }
}

// After the first dose of a tank only the new water of each change is dosed.
bool gives_parts(const DoseRule& rule) {
  return rule.basis == WaterBasis::whole_vessel && rule.then == AfterChange::new_water;
}

std::string tank_words(const DoseRule& rule, const Words& w) {
  const std::string days = rule.days > 1 ? ", " + days_words(rule, w) : "";
  if (rule.basis == WaterBasis::new_water)
    return w.say("dose for the new water of a change") + days;
  if (gives_parts(rule))
    return w.say("dose for all the water in the tank first, then for the new water of a change") +
           days;
  return w.say("dose for all the water in the tank") + days +
         (rule.then == AfterChange::again ? w.say("; ") + w.say("again after each change") : "");
}

void add_tank_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                   ErrorShown shown, const Words& w, ChartContent& out) {
  const DoseRule& rule = answer.stocks.front()->stock->dose;
  const bool parts = gives_parts(rule);
  const bool whole = rule.basis == WaterBasis::whole_vessel && !parts;
  for (const Share change : chart.changes) {
    const bool first = parts && out.columns.empty();
    const std::string heading =
        first ? w.say("first") : w.say("change {1}", {w.quantity(percent_text(change))});
    out.columns.push_back({whole ? w.say("whole tank") : heading, "", std::nullopt});
  }
  // Where no tank has a usual change none is set apart.
  const bool any_usual = std::any_of(
      chart.vessels.begin(), chart.vessels.end(),
      [&](const std::string& id) { return find(room.vessels, id)->usual_change.has_value(); });
  for (std::size_t i = 0; i < chart.vessels.size(); ++i) {
    const Vessel& vessel = *find(room.vessels, chart.vessels[i]);
    RowContent row;
    row.name = vessel.name;
    row.place = vessel.place;
    row.water = water_as_written(vessel.as_given, vessel.water, room.measures, w);
    row.each = w.say("{1} each", {row.water.figure + ' ' + row.water.unit});
    for (std::size_t j = 0; j < chart.changes.size(); ++j) {
      CellContent cell =
          chart_cell(*answer.stocks.front(), answer.rows[i][j], shown, chart.changes.size(), w);
      const bool usual = vessel.usual_change && std::abs(as_ratio(*vessel.usual_change) -
                                                         as_ratio(chart.changes[j])) < 1e-9;
      const bool first = parts && j == 0;
      cell.strong = whole || first || usual || !any_usual;
      row.cells.push_back(std::move(cell));
    }
    out.rows.push_back(std::move(row));
  }
}

// Whether some cells are set apart from others by weight.
bool has_light_and_heavy(const ChartContent& chart) {
  bool light = false;
  bool heavy = false;
  for (const RowContent& row : chart.rows) {
    for (const CellContent& cell : row.cells) (cell.strong ? heavy : light) = true;
  }
  return light && heavy;
}

}  // namespace

namespace {

// The same chart once for each stock.
ChartContent own_pages_content(const RoomAnswer& answers, const Document& document,
                               ErrorShown shown, const Words& w) {
  ChartContent out;
  out.words = frame_words(w);
  out.title = title_of(document.chart, "Buckets", w);
  for (const std::string& stock : document.chart.stocks) {
    Document one = document;
    one.chart.own_pages = false;
    one.chart.stocks = {stock};
    out.own_pages.push_back(chart_content(answers, one, shown, w));
    out.own_pages.back().is_own_page = true;
  }
  return out;
}

}  // namespace

ChartContent chart_content(const RoomAnswer& answers, const Document& document, ErrorShown shown,
                           const Words& w) {
  if (document.chart.own_pages) return own_pages_content(answers, document, shown, w);
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  const ChartAnswer answer = answer_chart(answers, document);
  ChartContent out;
  const Stock& first = *answer.stocks.front()->stock;
  out.words = frame_words(w);
  if (answer.stocks.size() == 1) set_code(*answer.stocks.front(), out, w);
  if (document.type == Document::Type::bucket_chart) {
    out.title = title_of(chart, "Buckets", w);
    if (answer.stocks.size() == 1) out.subtitle = named_unless_titled(out.title, first, w);
    out.row_caption = w.say("water");
    out.columns = stock_columns(answer.stocks, w);
    add_bucket_rows(room, chart, answer, shown, w, out);
  } else {
    out.title = chart.title.empty() ? first.name : chart.title;
    const std::string dose = tank_words(first.dose, w);
    out.subtitle = out.title == first.name ? capitalised(dose) : first.name + " · " + dose;
    out.row_caption = w.say("tank");
    out.by_tank = true;
    add_tank_rows(room, chart, answer, shown, w, out);
  }
  out.subtitle = only_for_words(chart, out.subtitle, w);
  out.match = match_words(answer.stocks, w);
  out.small = small_words(room, chart, answer, w);
  if (has_light_and_heavy(out))
    out.small =
        (gives_parts(first.dose)
             ? w.say("Heavy figures: the first dose and the part for the tank's usual change.")
             : w.say("Heavy figures: the tank's usual change.")) +
        ' ' + out.small;
  out.foot = foot_words(room, chart, w);
  out.dated = dated_words(chart, w);
  return out;
}

namespace {

// A row of more names than these would cost the names their size.
constexpr std::size_t kMostTogether = 8;
constexpr std::size_t kMostLetters = 32;

bool says_the_same(const CellContent& a, const CellContent& b) {
  return a.dose.figure == b.dose.figure && a.dose.unit == b.dose.unit && a.instead == b.instead &&
         a.how == b.how && a.off_by == b.off_by && a.strong == b.strong;
}

bool can_join(const RowContent& row, const RowContent& next) {
  std::size_t letters = row.name.size() + next.name.size();
  for (const std::string& name : row.with) letters += name.size();
  return row.with.size() + 2 <= kMostTogether && letters <= kMostLetters &&
         row.place == next.place && row.changed == next.changed &&
         row.water.figure == next.water.figure && row.water.unit == next.water.unit &&
         std::equal(row.cells.begin(), row.cells.end(), next.cells.begin(), next.cells.end(),
                    says_the_same);
}

}  // namespace

ChartContent gathered_rows(const ChartContent& chart) {
  if (!chart.by_tank) return chart;
  ChartContent out = chart;
  out.rows.clear();
  for (const RowContent& row : chart.rows) {
    if (!out.rows.empty() && can_join(out.rows.back(), row))
      out.rows.back().with.push_back(row.name);
    else
      out.rows.push_back(row);
  }
  return out;
}

MeasuringCardContent measuring_card_content(const RoomAnswer& answers, const Document& document,
                                            ErrorShown shown, const Words& w) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  const ChartAnswer answer = answer_chart(answers, document);
  const StockAnswer& stock = *answer.stocks.front();
  MeasuringCardContent out;
  out.page.words = frame_words(w);
  out.page.title = title_of(chart, "How to measure", w);
  out.page.subtitle =
      only_for_words(chart, named_unless_titled(out.page.title, *stock.stock, w), w);
  set_code(stock, out.page, w);
  out.page.row_caption = w.say("water");
  out.page.columns = stock_columns(answer.stocks, w);
  out.page.match = match_words(answer.stocks, w);
  out.page.small = small_words(room, chart, answer, w);
  out.page.foot = foot_words(room, chart, w);
  for (std::size_t i = 0; i < chart.buckets.size(); ++i) {
    const BucketRow& bucket = chart.buckets[i];
    out.panels.push_back({bucket.name,
                          water_as_written(bucket.text, bucket.water, room.measures, w),
                          cell_content(stock, answer.rows[i].front(), shown, w)});
  }
  return out;
}

}  // namespace dosewright
