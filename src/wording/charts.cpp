// The words of charts and measuring cards.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string rounding_words(const DoseRule& rule) {
  if (rule.rounding == Rounding::never_under) return "Rounded up to a mark. ";
  if (rule.rounding == Rounding::never_over) return "Rounded down to a mark. ";
  return "Rounded to a mark, at most " + percent_text(rule.tolerance) + " away. ";
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
                        const StockAnswer& stock) {
  std::string said = answer.stocks.size() > 1 ? stock.stock->name + ": " : "";
  const std::string remarks = dose_remarks(stock, room.measures, changes_of(room, chart, stock));
  if (!remarks.empty()) said += (said.empty() ? capitalised(remarks) : remarks) + ". ";
  said += parts_words(stock.stock->dose) + rounding_words(stock.stock->dose);
  const WorstShares worst = worst_shares(answer, &stock);
  if (as_ratio(worst.all) <= 0) return said;
  return said + "Measuring can be off by " + percent_up(worst.measuring) +
         " of a dose; with what the bottle's strength and the water's volume can be off, by " +
         percent_up(worst.all) + " in all. ";
}

// What must not meet in a bucket must not meet in a syringe either; each pair is said once.
std::string rinse_words(const ChartAnswer& answer) {
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
    pairs += (pairs.empty() ? "" : "; ") + answer.stocks[i]->stock->name + " must not meet " +
             either(names);
  }
  return pairs.empty() ? "" : "Rinse a tool before it goes into another stock: " + pairs + ". ";
}

std::string small_words(const Room& room, const ChartRequest& chart, const ChartAnswer& answer) {
  std::string out;
  for (const StockAnswer* stock : answer.stocks) out += stock_words(room, chart, answer, *stock);
  return out + rinse_words(answer) + past_date_words(answer.stocks) + kNoReplacement;
}

// A dilution takes several lines anyway: in a narrow column its error stands among them, where it
// may wrap.
CellContent chart_cell(const StockAnswer& stock, const DoseAnswer& dose, ErrorShown shown,
                       std::size_t columns) {
  CellContent cell = cell_content(stock, dose, shown);
  if (columns == 1 || cell.instead.empty() || cell.off_by.empty()) return cell;
  const std::string stop = cell.how.ends_with('.') ? " " : ". ";
  cell.how += stop + capitalised(cell.off_by) + '.';
  cell.off_by.clear();
  return cell;
}

void add_bucket_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                     ErrorShown shown, ChartContent& out) {
  for (std::size_t i = 0; i < chart.buckets.size(); ++i) {
    const BucketRow& bucket = chart.buckets[i];
    RowContent row;
    row.name = bucket.name;
    row.water = water_as_written(bucket.text, bucket.water, room.measures);
    for (std::size_t j = 0; j < answer.stocks.size(); ++j)
      row.cells.push_back(
          chart_cell(*answer.stocks[j], answer.rows[i][j], shown, answer.stocks.size()));
    out.rows.push_back(std::move(row));
  }
}

// After the first dose of a tank only the new water of each change is dosed.
bool gives_parts(const DoseRule& rule) {
  return rule.basis == WaterBasis::whole_vessel && rule.then == AfterChange::new_water;
}

std::string tank_words(const DoseRule& rule) {
  const std::string days = rule.days > 1 ? days_words(rule) : "";
  if (rule.basis == WaterBasis::new_water)
    return "for the new water of a change" + (days.empty() ? "" : ", " + days);
  if (gives_parts(rule))
    return "for all the water in the tank first, then for the new water of a change" +
           (days.empty() ? "" : "; " + days);
  return "for all the water in the tank" + (days.empty() ? "" : ", " + days) +
         (rule.then == AfterChange::again ? "; again after each change" : "");
}

void add_tank_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                   ErrorShown shown, ChartContent& out) {
  const DoseRule& rule = answer.stocks.front()->stock->dose;
  const bool parts = gives_parts(rule);
  const bool whole = rule.basis == WaterBasis::whole_vessel && !parts;
  for (const Share change : chart.changes) {
    const bool first = parts && out.columns.empty();
    const std::string heading = first ? "first" : "change " + percent_text(change);
    out.columns.push_back({whole ? "whole tank" : heading, "", std::nullopt});
  }
  // Where no tank has a usual change none is set apart.
  const bool any_usual = std::any_of(
      chart.vessels.begin(), chart.vessels.end(),
      [&](const std::string& id) { return find(room.vessels, id)->usual_change.has_value(); });
  for (std::size_t i = 0; i < chart.vessels.size(); ++i) {
    const Vessel& vessel = *find(room.vessels, chart.vessels[i]);
    RowContent row;
    row.name = vessel.name;
    row.water = water_as_written(vessel.as_given, vessel.water, room.measures);
    for (std::size_t j = 0; j < chart.changes.size(); ++j) {
      CellContent cell =
          chart_cell(*answer.stocks.front(), answer.rows[i][j], shown, chart.changes.size());
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

ChartContent chart_content(const RoomAnswer& answers, const Document& document, ErrorShown shown) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  const ChartAnswer answer = answer_chart(answers, document);
  ChartContent out;
  const Stock& first = *answer.stocks.front()->stock;
  if (answer.stocks.size() == 1) set_code(*answer.stocks.front(), out);
  if (document.type == Document::Type::bucket_chart) {
    out.title = chart.title;
    out.subtitle = answer.stocks.size() == 1 ? first.name + " · " + column_words(first.dose) : "";
    out.row_caption = "water";
    out.columns = stock_columns(answer.stocks);
    add_bucket_rows(room, chart, answer, shown, out);
  } else {
    out.title = chart.title.empty() ? first.name : chart.title;
    out.subtitle =
        (chart.title.empty() ? "Dose " : first.name + " · dose ") + tank_words(first.dose);
    out.row_caption = "tank";
    add_tank_rows(room, chart, answer, shown, out);
  }
  if (!chart.only_for.empty())
    out.subtitle =
        "Only for " + chart.only_for + (out.subtitle.empty() ? "" : " · " + out.subtitle);
  out.match = match_words(answer.stocks);
  out.small = small_words(room, chart, answer);
  if (has_light_and_heavy(out))
    out.small = std::string("Heavy figures: ") +
                (gives_parts(first.dose) ? "the first dose and the part for the tank's usual change"
                                         : "the tank's usual change") +
                ". " + out.small;
  out.foot = foot_words(room, chart);
  out.dated = dated_words(chart);
  return out;
}

MeasuringCardContent measuring_card_content(const RoomAnswer& answers, const Document& document,
                                            ErrorShown shown) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  const ChartAnswer answer = answer_chart(answers, document);
  const StockAnswer& stock = *answer.stocks.front();
  MeasuringCardContent out;
  out.page.title = chart.title;
  out.page.subtitle = (chart.only_for.empty() ? "" : "Only for " + chart.only_for + " · ") +
                      stock.stock->name + " · " + column_words(stock.stock->dose);
  set_code(stock, out.page);
  out.page.row_caption = "water";
  out.page.columns = stock_columns(answer.stocks);
  out.page.match = match_words(answer.stocks);
  out.page.small = small_words(room, chart, answer);
  out.page.foot = foot_words(room, chart);
  for (std::size_t i = 0; i < chart.buckets.size(); ++i) {
    const BucketRow& bucket = chart.buckets[i];
    out.panels.push_back({bucket.name, water_as_written(bucket.text, bucket.water, room.measures),
                          cell_content(stock, answer.rows[i].front(), shown)});
  }
  return out;
}

}  // namespace dosewright
