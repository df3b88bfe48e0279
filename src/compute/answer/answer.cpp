#include "dosewright/answer/answer.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "dosewright/base/text.hpp"
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

// Our own limit: a chart whose tools can be off by more than this part of a dose is worth a word.
constexpr double kCoarse = 0.25;

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
    look_at_overrules(answer);
    look_at_strength(answer);
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

  void look_at_overrules(const StockAnswer& answer) {
    const Hazards& hazards = answer.stock->hazards;
    if (!answer.hazards.left_out.empty()) {
      add(Severity::finding, hazards.origin,
          "the statements call for " + all_of(answer.hazards.left_out) +
              ", which the description overrules",
          "take signal: and pictograms: out, unless the safety data sheet for this strength says "
          "so");
    }
    if (!hazards.statements.empty() && hazards.precautions.empty()) {
      add(Severity::finding, hazards.origin, "hazard statements without precautions",
          "add precautions: from the safety data sheet, such as [P264, P280: eye protection]");
    }
  }

  // What no bottle can hold, and what no dose can reach.
  void look_at_strength(const StockAnswer& answer) {
    const Stock& stock = *answer.stock;
    double grams = 0;
    Volume solids;
    for (const Component& component : answer.mixture.components) {
      const auto* strength = std::get_if<Concentration>(&component.strength);
      if (strength == nullptr) continue;
      grams += in_grams_per_litre(*strength);
      const Product& product = *find(answers_.room->products, component.product);
      if (product.displacement) solids = solids + *product.displacement * (*strength * litres(1));
    }
    if (in_litres(solids) >= 1) {
      add(Severity::error, stock.origin, "the products alone take up more than the finished volume",
          "check the recipe and water to:");
    } else if (grams > 1000) {
      add(Severity::finding, stock.origin, "more than 1 kg of product in each litre",
          "check the recipe and the water");
    }
    const double rate = in_millilitres_per_litre(answer.rate);
    if (!(rate > 0) || !std::isfinite(rate)) {
      add(Severity::error, stock.dose.origin, "the stock is no stronger than what it is to reach",
          "mix it stronger, or check reach:");
    } else if (rate > 100) {
      add(Severity::finding, stock.dose.origin,
          "the dose is more than a tenth of the water: " + rate_text(answer.rate),
          "check the dose, or mix the stock stronger");
    }
  }

  static std::string rate_text(VolumePerVolume rate) {
    return significant_figure(in_millilitres_per_litre(rate), 4) + " mL per L";
  }

  void look_for_twin(std::size_t at) {
    const StockAnswer& one = answers_.stocks[at];
    for (std::size_t i = 0; i < at; ++i) {
      const StockAnswer& other = answers_.stocks[i];
      if (other.stock->name == one.stock->name) {
        add(Severity::finding, one.stock->origin,
            "has the same name as " + other.stock->id + ": " + one.stock->name,
            "two bottles of one name are mixed up; give one of them another");
      }
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
          reason(label.dose.measured));
    }
  }

  void look_at_chart(const Document& document) {
    const ChartAnswer chart = answer_chart(answers_, document);
    std::size_t missing = 0;
    const DoseAnswer* first = nullptr;
    const DoseAnswer* worst = nullptr;
    for (const auto& row : chart.rows) {
      for (const DoseAnswer& dose : row) {
        if (!dose.measured.measured) {
          ++missing;
          if (first == nullptr) first = &dose;
        } else if (worst == nullptr || tool_share(dose) > tool_share(*worst)) {
          worst = &dose;
        }
      }
    }
    if (worst != nullptr && as_ratio(tool_share(*worst)) > kCoarse) {
      add(Severity::finding, document.origin,
          "the tools can be off by " + percent_text(tool_share(*worst)) + " of the dose of " +
              volume_text(worst->exact),
          "add a tool with finer marks, or mix the stock weaker");
    }
    look_at_changes(document);
    if (missing == 0) return;
    add(Severity::finding, document.origin,
        missing == 1
            ? "the dose of " + volume_text(first->exact) + " on this chart cannot be measured"
            : std::to_string(missing) +
                  " doses of this chart cannot be measured, the first of them " +
                  volume_text(first->exact),
        reason(first->measured));
  }

  // The heavy figure of a tank that has no column for its usual change would be missing.
  void look_at_changes(const Document& document) {
    std::vector<std::string> without;
    for (const std::string& id : document.chart.vessels) {
      const Vessel& vessel = *find(answers_.room->vessels, id);
      const auto& columns = document.chart.changes;
      const bool whole = find_stock(answers_, document.chart.stocks.front())->stock->dose.basis ==
                         WaterBasis::whole_vessel;
      const bool there = std::any_of(columns.begin(), columns.end(), [&](Share s) {
        return vessel.usual_change &&
               std::fabs(as_ratio(s) - as_ratio(*vessel.usual_change)) < 1e-9;
      });
      if (!whole && vessel.usual_change && !there) without.push_back(vessel.name);
    }
    if (without.empty()) return;
    add(Severity::finding, document.origin,
        "the chart has no column for the usual change of " + all_of(without), "add it to changes:");
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
    const DoseAnswer dose = answer_dose(room, *label.stock, std::get<Volume>(volume));
    // The first one stands when none can be measured.
    if (!label.water_text.empty() && !dose.measured.measured) continue;
    label.dose = dose;
    label.water_text = water;
    if (dose.measured.measured) return;
  }
}

}  // namespace

Share tool_share(const DoseAnswer& dose) {
  return share(dose.measured.measured->tool_bound / dose.exact);
}

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
