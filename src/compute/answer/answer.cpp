#include "dosewright/answer/answer.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "dosewright/dose/dose.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

std::vector<const Tool*> tools_for(const Room& room, const Stock& stock) {
  std::vector<const Tool*> tools;
  for (const Tool& tool : room.tools) {
    const bool tied = !stock.tools.empty();
    const bool named =
        std::find(stock.tools.begin(), stock.tools.end(), tool.id) != stock.tools.end();
    // A spoon measures powder; it is taken for a liquid only when the stock asks for it by name.
    const bool usable = tied ? named : tool.kind != Tool::Kind::spoon;
    if (usable) tools.push_back(&tool);
  }
  return tools;
}

StockAnswer answer_stock(const Room& room, const Stock& stock, const StatementBook& book) {
  StockAnswer answer;
  answer.stock = &stock;
  answer.mixture = mix(stock, room.products);
  answer.rate = dose_rate(stock.dose, answer.mixture);
  answer.code = strength_code(stock, answer.mixture, room.products);
  answer.hazards = hazard_block(stock.hazards, book);
  return answer;
}

class Findings {
 public:
  explicit Findings(RoomAnswer& answers) : answers_(answers) {}

  void collect() {
    for (const StockAnswer& stock : answers_.stocks) look_at(stock);
    for (std::size_t i = 0; i < answers_.stocks.size(); ++i) look_for_twin(i);
    // With a dose that must not be given, nothing that follows from it is worth a word.
    if (!has_error(answers_.problems)) {
      for (const Document& document : answers_.room->documents) look_at(document);
    }
    sort_by_place(answers_.problems);
  }

 private:
  void add(Severity severity, const Origin& origin, std::string message, std::string hint) {
    answers_.problems.push_back(
        {severity, origin.place, origin.path, std::move(message), std::move(hint)});
  }

  void look_at(const StockAnswer& answer) {
    const Stock& stock = *answer.stock;
    if (stock.hazards.assessment == Hazards::Assessment::not_assessed) {
      add(Severity::finding, stock.origin, "the hazards of this stock have not been assessed",
          "add hazards: with the statements of the supplier's safety data sheet");
    }
    if (stock.dose.ceiling && answer.rate > *stock.dose.ceiling * (1 + 1e-9)) {
      add(Severity::error, stock.dose.origin,
          "the dose comes to " + rate_text(answer.rate) + ", above its ceiling of " +
              rate_text(*stock.dose.ceiling),
          "a chart above the ceiling is not printed: mend reach:, the recipe, or at most:");
    }
    if (as_ratio(answer.mixture.strength_bound) > as_ratio(stock.dose.tolerance) + 1e-9) {
      add(Severity::finding, stock.origin,
          "the strength can be off by " + percent_text(answer.mixture.strength_bound) +
              ", more than the dose's tolerance of " + percent_text(stock.dose.tolerance),
          "weigh the powder and make up to a volume, or widen tolerance:");
    }
  }

  static std::string rate_text(VolumePerVolume rate) {
    return significant_figure(in_millilitres_per_litre(rate), 4) + " mL per L";
  }

  void look_for_twin(std::size_t at) {
    const StockAnswer& one = answers_.stocks[at];
    for (std::size_t i = 0; i < at; ++i) {
      const StockAnswer& other = answers_.stocks[i];
      if (other.code.letters != one.code.letters) continue;
      const bool same = other.code.canonical == one.code.canonical;
      add(Severity::finding, one.stock->origin,
          "has the same strength code as " + other.stock->id + ": " + one.code.letters,
          same ? "the two are the same strength and dose; keep one of them"
               : "change the strength a little, so that the two bottles can be told apart");
    }
  }

  void look_at(const Document& document) {
    if (document.type == Document::Type::label) {
      look_at_label(document);
    } else {
      look_at_chart(document);
    }
  }

  void look_at_label(const Document& document) {
    const LabelAnswer label = answer_label(answers_, document.label);
    if (answers_.room->emergency.empty()) {
      add(Severity::finding, document.origin,
          "nobody to call is named; the label leaves a line for it",
          "add emergency: to room, such as \"Poison help 555 0142\"");
    }
    if (label.container->held_food) {
      add(Severity::finding, label.container->origin,
          "this container held food or drink: somebody may drink from it",
          "use a bottle that never did; until then the label says so in words");
    }
    if (!label.dose.measured.measured) {
      add(Severity::finding, document.origin, "no handy dose of this stock can be measured",
          "add a tool with finer marks, or mix the stock weaker");
    }
  }

  void look_at_chart(const Document& document) {
    const ChartAnswer chart = answer_chart(answers_, document);
    std::size_t missing = 0;
    const DoseAnswer* first = nullptr;
    for (const auto& row : chart.rows) {
      for (const DoseAnswer& dose : row) {
        if (dose.measured.measured) continue;
        ++missing;
        if (first == nullptr) first = &dose;
      }
    }
    if (missing == 0) return;
    add(Severity::finding, document.origin,
        missing == 1
            ? "the dose of " + volume_text(first->exact) + " on this chart cannot be measured"
            : std::to_string(missing) +
                  " doses of this chart cannot be measured, the first of them " +
                  volume_text(first->exact),
        reason(first->measured));
  }

  static std::string reason(const MeasureAnswer& answer) {
    switch (answer.problem) {
      case MeasureProblem::no_tool:
        return "describe a measuring tool for liquids under tools:";
      case MeasureProblem::too_small:
        return "the smallest mark at hand is " + volume_text(answer.smallest_mark) +
               "; add a finer tool or mix the stock weaker";
      case MeasureProblem::too_large:
        return "the most that the tools at hand pour reasonably is " +
               volume_text(answer.largest_dose) + "; add a larger tool";
      default:
        break;
    }
    return "no marks come within the tolerance; add a finer tool or widen tolerance:";
  }

  RoomAnswer& answers_;
};

// The water a label speaks of when the rule names none: the first handy amount whose dose can be
// measured.
std::vector<std::string> handy_waters(MeasureSystem system) {
  std::string unit = " L";
  if (system == MeasureSystem::us) unit = " US gal";
  if (system == MeasureSystem::imperial) unit = " imperial gal";
  std::vector<std::string> out;
  for (const char* amount : {"10", "20", "50", "100", "200", "500", "5", "2", "1"}) {
    out.push_back(amount + unit);
  }
  return out;
}

void choose_label_dose(const Room& room, const DoseRule& rule, LabelAnswer& label) {
  std::vector<std::string> waters = handy_waters(room.measures);
  if (rule.per) waters.insert(waters.begin(), rule.per_text);
  for (const std::string& water : waters) {
    const auto volume = parse_volume(water, room.measures);
    if (!std::holds_alternative<Volume>(volume)) continue;
    label.dose = answer_dose(room, *label.stock, std::get<Volume>(volume));
    label.water_text = water;
    if (label.dose.measured.measured) return;
  }
}

}  // namespace

RoomAnswer answer_room(const Room& room, const StatementBook& book) {
  RoomAnswer answers;
  answers.room = &room;
  for (const Stock& stock : room.stocks) answers.stocks.push_back(answer_stock(room, stock, book));
  Findings(answers).collect();
  return answers;
}

const StockAnswer* find_stock(const RoomAnswer& answers, const std::string& id) {
  for (const StockAnswer& stock : answers.stocks) {
    if (stock.stock->id == id) return &stock;
  }
  return nullptr;
}

DoseAnswer answer_dose(const Room& room, const StockAnswer& stock, Volume water) {
  const DoseRule& rule = stock.stock->dose;
  DoseAnswer answer;
  answer.water = water;
  answer.exact = stock.rate * water;
  MeasureTask task{answer.exact, rule.rounding, rule.tolerance, std::nullopt};
  if (rule.ceiling) task.ceiling = *rule.ceiling * water;
  answer.measured = measure(task, tools_for(room, *stock.stock));
  return answer;
}

LabelAnswer answer_label(const RoomAnswer& answers, const LabelRequest& request) {
  const Room& room = *answers.room;
  LabelAnswer label;
  label.stock = find_stock(answers, request.stock);
  label.container = find(room.containers, request.container);
  label.filled =
      scaled(label.stock->mixture, label.container->holds * as_ratio(label.container->fill));
  const Stock& stock = *label.stock->stock;
  if (request.mixed && stock.keeps) label.use_by = later(*request.mixed, *stock.keeps);
  choose_label_dose(room, stock.dose, label);
  return label;
}

ChartAnswer answer_chart(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  ChartAnswer chart;
  for (const std::string& id : document.chart.stocks)
    chart.stocks.push_back(find_stock(answers, id));
  for (const BucketRow& row : document.chart.buckets) {
    auto& cells = chart.rows.emplace_back();
    for (const StockAnswer* stock : chart.stocks)
      cells.push_back(answer_dose(room, *stock, row.water));
  }
  for (const std::string& id : document.chart.vessels) {
    auto& cells = chart.rows.emplace_back();
    const StockAnswer& stock = *chart.stocks.front();
    for (const Share change : document.chart.changes) {
      const Volume water = water_to_dose(stock.stock->dose, find(room.vessels, id)->water, change);
      cells.push_back(answer_dose(room, stock, water));
    }
  }
  return chart;
}

Date later(const Date& date, Duration by) {
  using namespace std::chrono;
  const sys_days start = year_month_day(year(date.year), month(static_cast<unsigned>(date.month)),
                                        day(static_cast<unsigned>(date.day)));
  // Part days do not lengthen a shelf life.
  const auto whole = static_cast<int>(std::floor(in_days(by) + 1e-9));
  const year_month_day end(start + std::chrono::days(whole));
  return {static_cast<int>(end.year()), static_cast<int>(static_cast<unsigned>(end.month())),
          static_cast<int>(static_cast<unsigned>(end.day()))};
}

}  // namespace dosewright
