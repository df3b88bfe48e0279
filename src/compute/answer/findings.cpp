#include "findings.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "chemistry.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "identity.hpp"

namespace dosewright {

namespace {

// The parts of all days together.
Portion all_days(const StockAnswer& stock, Portion part) { return part * stock.stock->dose.days; }

bool passes_ceiling(const StockAnswer& stock, const DoseAnswer& dose) {
  const auto& ceiling = stock.stock->dose.ceiling;
  return ceiling && all_days(stock, dose.error.most) > *ceiling * dose.water * (1 + 1e-9);
}

bool passes_floor(const StockAnswer& stock, const DoseAnswer& dose) {
  const auto& floor = stock.stock->dose.floor;
  return floor && all_days(stock, dose.error.least) < *floor * dose.water * (1 - 1e-9);
}

// Spoons of powder are held to the dose's own tolerance: a scale does better.
Share coarse_limit(const StockAnswer& stock) {
  return stock.stock->dry ? std::min(stock.stock->dose.tolerance, kCoarse) : kCoarse;
}

// A bound rounded up, a limit rounded down: four figures, so that the one stays above the other.
std::string rounded_text(Portion portion, bool up) {
  const std::string unit = ' ' + unit_of(portion);
  if (portion.stored() <= 0) return '0' + unit;
  return significant_figure(rounded_outward(portion.stored(), 4, up), 4) + unit;
}

std::string coarse_words(const StockAnswer& stock, const DoseAnswer& dose) {
  std::string out = "the tools can be off by " + percent_above(tool_share(dose)) +
                    " of the dose of " + portion_text(dose.exact);
  if (stock.stock->dry && stock.stock->dose.tolerance < kCoarse)
    out += ", more than its tolerance of " + percent_text(stock.stock->dose.tolerance);
  return out;
}

// Which of a document's doses is meant.
std::string whose(const StockAnswer& stock, const DoseAnswer& dose) {
  return " (" + stock.stock->name + " for " + volume_text(dose.water) + ')';
}

std::string finer_remedy(const StockAnswer& stock, const DoseAnswer& dose) {
  if (!stock.stock->dry) return "add a tool with finer marks, or mix the stock weaker";
  const auto& measured = dose.measured.measured;
  const bool scooped = measured && !measured->pours.front().to.is_powder();
  return scooped ? "weigh it: describe a scale under tools:" : "add a scale with finer divisions";
}

std::string dose_words(const StockAnswer& stock, const DoseAnswer& dose) {
  const int days = stock.stock->dose.days;
  return "with all errors the dose of " + portion_text(all_days(stock, dose.exact)) +
         (days > 1 ? " in " + std::to_string(days) + " days" : "") + " can come to ";
}

std::string ceiling_words(const StockAnswer& stock, const DoseAnswer& dose) {
  return dose_words(stock, dose) + rounded_text(all_days(stock, dose.error.most), true) +
         ", above its ceiling of " + rounded_text(*stock.stock->dose.ceiling * dose.water, false);
}

std::string floor_words(const StockAnswer& stock, const DoseAnswer& dose) {
  return dose_words(stock, dose) + rounded_text(all_days(stock, dose.error.least), false) +
         ", below its floor of " + rounded_text(*stock.stock->dose.floor * dose.water, true);
}

std::string remedy(const MeasureAnswer& answer) {
  switch (answer.problem) {
    case MeasureProblem::no_tool:
      return answer.smallest_mark.is_powder()
                 ? "describe a scale under tools:, or give the powder's bulk density: for spoons"
                 : "describe a measuring tool for liquids under tools:";
    case MeasureProblem::too_small:
      if (answer.smallest_mark.is_powder())
        return "the least that the tools at hand measure is " + portion_text(answer.smallest_mark) +
               "; describe a scale with finer divisions under tools:";
      return "the least that the tools at hand measure is " + portion_text(answer.smallest_mark) +
             "; add a finer tool, mix the stock weaker, or add a cylinder to dilute it in";
    case MeasureProblem::too_large:
      return "the most that the tools at hand pour reasonably is " +
             portion_text(answer.largest_dose) + "; add one that holds " +
             portion_text(answer.wanted_size);
    default:
      break;
  }
  return "no marks come within the tolerance; add a finer tool or widen tolerance:";
}

class Findings {
 public:
  explicit Findings(RoomAnswer& answers) : answers_(answers) {}

  void collect() {
    for (const Product& product : answers_.room->products) {
      collect_doubts(product, *answers_.room, answers_.sources->knowledge, answers_.problems);
      collect_contradictions(product, *answers_.room, *answers_.sources, answers_.problems);
    }
    for (const StockAnswer& stock : answers_.stocks) look_at(stock);
    for (std::size_t i = 0; i < answers_.stocks.size(); ++i) look_for_twin(i);
    look_for_namesakes(answers_.room->tools, "tool");
    look_for_namesakes(answers_.room->vessels, "vessel");
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

  // What pages say too, in their language.
  void tell(const Origin& origin, Phrases message, std::string hint) {
    answers_.problems.push_back(said_finding(origin, std::move(message), std::move(hint)));
  }

  // What is known to be dangerous beside each other is more so in one bottle.
  void look_at_quarrel(const StockAnswer& answer) {
    if (!answer.quarrel) return;
    const Quarrel& quarrel = *answer.quarrel;
    tell(answer.stock->origin,
         {{"{1} and {2} must not meet, and this recipe puts them into one bottle: {3}",
           {quarrel.one->name, quarrel.other->name, quarrel.why->because}}},
         "take one of them out; published in " + quarrel.why->source);
  }

  void look_at(const StockAnswer& answer) {
    const Stock& stock = *answer.stock;
    look_at_quarrel(answer);
    collect_hazards(*answers_.room, answer, answers_.sources->knowledge, answers_.problems);
    look_at_strength(answer);
    collect_chemistry(*answers_.room, answer, answers_.sources->knowledge, answers_.problems);
    look_at_limits(answer);
    const Share strength = answer.mixture.strength_error.worst;
    if (as_ratio(strength) > as_ratio(stock.dose.tolerance) + 1e-9) {
      tell(
          stock.origin,
          {{"the strength can be off by {1}, more than the dose's tolerance of {2}",
            {percent_above(strength), percent_text(stock.dose.tolerance)}}},
          "weigh or measure more exactly, name weighed with: and made up in:, or widen tolerance:");
    }
  }

  void look_at_limits(const StockAnswer& answer) {
    const DoseRule& rule = answer.stock->dose;
    if (rule.ceiling && per_litre(answer.all) > per_litre(*rule.ceiling) * (1 + 1e-9)) {
      add(Severity::error, rule.origin,
          "the dose comes to " + rate_text(answer.all, true) + ", above its ceiling of " +
              rate_text(*rule.ceiling, false),
          "a chart above the ceiling is not printed: mend " + rule.target_key +
              ":, the recipe, or at most:");
    }
    if (rule.floor && per_litre(answer.all) < per_litre(*rule.floor) * (1 - 1e-9)) {
      add(Severity::error, rule.origin,
          "the dose comes to " + rate_text(answer.all, false) + ", below its floor of " +
              rate_text(*rule.floor, true),
          "a chart below the floor is not printed: mend " + rule.target_key +
              ":, the recipe, or at least:");
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
      tell(stock.origin, {{"more than 1 kg of product in each litre", {}}},
           "check the recipe and the water");
    }
    const double rate = per_litre(answer.all);
    if (!(rate > 0) || !std::isfinite(rate)) {
      add(Severity::error, stock.dose.origin, "the stock is no stronger than what it is to reach",
          "mix it stronger, or check " + stock.dose.target_key + ':');
    } else if (rate > 100 && !stock.dry) {
      tell(stock.dose.origin,
           {{"the dose is more than a tenth of the water: {1}", {rate_text(answer.all, false)}}},
           "check the dose, or mix the stock stronger");
    }
  }

  // Rounded away from what it is held against, so that the one stays above the other.
  static std::string rate_text(const DoseRate& rate, bool up) {
    if (const auto* powder = std::get_if<Concentration>(&rate)) return concentration_text(*powder);
    return significant_figure(rounded_outward(per_litre(rate), 4, up), 4) + " mL per L";
  }

  void look_for_twin(std::size_t at) {
    const StockAnswer& one = answers_.stocks[at];
    for (std::size_t i = 0; i < at; ++i) {
      const StockAnswer& other = answers_.stocks[i];
      if (other.stock->name == one.stock->name) {
        tell(one.stock->origin,
             {{"has the same name as {1}: {2}", {other.stock->id, one.stock->name}}},
             "two bottles of one name are mixed up; give one of them another");
      }
      if (other.code.letters != one.code.letters) continue;
      const bool same = other.code.canonical == one.code.canonical;
      tell(one.stock->origin,
           {{"has the same strength code as {1}: {2}", {other.stock->id, one.code.letters}}},
           same ? "the two are the same strength and dose; keep one of them"
                : "change the strength a little, so that the two bottles can be told apart");
    }
  }

  // Two of one name cannot be told apart on paper.
  template <class Item>
  void look_for_namesakes(const std::vector<Item>& items, const std::string& what) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (lowered(items[i].name) != lowered(items[j].name)) continue;
        add(Severity::finding, items[i].origin,
            "another " + what + ", " + items[j].id + ", has the same name: " + items[i].name,
            "give one of them another name");
      }
    }
  }

  void look_at(const Document& document) {
    if (document.type == Document::Type::label) {
      look_at_label(document);
    } else if (document.type == Document::Type::dose_scale) {
      look_at_scale(document);
    } else {
      look_at_chart(document);
    }
  }

  // The label of a product as it was bought: it has no dose.
  void look_at_tub(const Document& document) {
    const Room& room = *answers_.room;
    const Product& product = *find(room.products, document.label.product);
    const HazardAnswer answer = answer_tub_hazards(room, product, *answers_.sources);
    if (!answer.found.unclassified.empty()) {
      add(Severity::finding, document.origin,
          "nothing is known of the hazards of " + all_of(answer.found.unclassified),
          "add hazards: to the product, with the classes of the supplier's safety data sheet and "
          "its source:");
    }
    // Of a mixture with classes of its own it is said there.
    if (!answer.found.may_burn.empty() && answer.by_contents.empty()) {
      add(Severity::finding, document.origin,
          "whether this product burns or feeds a fire is not known: undiluted, " +
              all_of(each_in_english(answer.found.may_burn)),
          "add hazards: to the product, with the classes of its own safety data sheet");
    }
    look_at_package(document, *find(room.containers, document.label.container));
  }

  void look_at_label(const Document& document) {
    if (!document.label.product.empty()) {
      look_at_tub(document);
      return;
    }
    const LabelAnswer label = answer_label(answers_, document.label);
    look_at_package(document, *label.container);
    if (!label.dose.can_be_measured()) {
      add(Severity::finding, document.origin, "no handy dose of this stock can be measured",
          remedy(label.dose.measured));
    }
    look_at_doses(document, {&label.dose}, *label.stock);
  }

  void look_at_package(const Document& document, const Container& container) {
    if (answers_.room->emergency.empty()) {
      add(Severity::finding, document.origin,
          "nobody to call is named; the label leaves a line for it",
          "add emergency: to room, such as \"Doctor 555 0142\"");
    }
    // Said once for a container, however many labels go on it.
    if (container.held_food && food_said_.insert(container.id).second) {
      add(Severity::finding, container.origin,
          "this container held food or drink: somebody may drink from it",
          "use a bottle that never did; until then the label says so in words");
    }
  }

  void look_at_chart(const Document& document) {
    const ChartAnswer chart = answer_chart(answers_, document);
    for (std::size_t column = 0; column < chart.stocks.size(); ++column) {
      std::vector<const DoseAnswer*> doses;
      for (const auto& row : chart.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
          if (chart.stocks.size() == 1 || i == column) doses.push_back(&row[i]);
        }
      }
      look_at_missing(document, doses, *chart.stocks[column]);
      look_at_doses(document, doses, *chart.stocks[column]);
    }
    look_at_changes(document);
  }

  void look_at_scale(const Document& document) {
    for (const std::string& id : document.chart.stocks) {
      const StockAnswer& stock = *find_stock(answers_, id);
      look_at_scale(document, stock, stock.rate * document.scale.from,
                    stock.rate * document.scale.to);
    }
  }

  // The first reading of a scale whose errors can pass the ceiling or the floor.
  void look_at_readings(const Document& document, const StockAnswer& stock,
                        const std::vector<ScaleReading>& readings) {
    bool high = false;
    bool low = false;
    for (const ScaleReading& reading : readings) {
      const DoseAnswer most = read_as(stock, reading, reading.lowest);
      if (!high && passes_ceiling(stock, most)) {
        high = true;
        add(Severity::finding, document.origin, ceiling_words(stock, most) + whose(stock, most),
            "use finer tools, weigh and make up the stock with better ones, or raise at most:");
      }
      const DoseAnswer least = read_as(stock, reading, reading.highest);
      if (!low && passes_floor(stock, least)) {
        low = true;
        add(Severity::finding, document.origin, floor_words(stock, least) + whose(stock, least),
            "use finer tools, weigh and make up the stock with better ones, or lower at least:");
      }
    }
  }

  // The dose that is given when this exact one is read off as a mark.
  static DoseAnswer read_as(const StockAnswer& stock, const ScaleReading& reading, Portion exact) {
    DoseAnswer dose;
    dose.water = water_for(stock, exact);
    dose.exact = exact;
    dose.delivers = reading.mark;
    const FillError error = fill_error(*reading.tool, reading.mark);
    const Portion bound = error.calibration.worst + error.reading.worst;
    dose.error = dose_error(exact, reading.mark, bound, bound, stock.mixture.strength_error,
                            evenly_spread(Vessel().right_to));
    return dose;
  }

  // Parts of a scale that no tool reads, if they are more than a hair.
  void look_at_scale(const Document& document, const StockAnswer& stock, Portion from, Portion to) {
    constexpr double kHair = 1.03;
    const Portion start = std::max(from, to * 1e-3);  // a linear scale may start at nothing
    std::vector<std::pair<Portion, Portion>> gaps;
    Portion at = start;
    const auto ranges = scale_ranges(*answers_.room, stock, start, to);
    look_at_readings(document, stock, scale_readings(ranges, stock.stock->dose.rounding));
    for (const ScaleRange& range : ranges) {
      if (range.from > at * kHair) gaps.emplace_back(at, range.from);
      at = range.to;
    }
    if (to > at * kHair) gaps.emplace_back(at, to);
    if (gaps.empty()) return;
    add(Severity::finding, document.origin,
        "no tool reads a dose of " + stock.stock->name + " between " +
            portion_text(gaps.front().first) + " and " + portion_text(gaps.front().second) +
            " within its tolerance" + (gaps.size() > 1 ? ", nor in other places" : ""),
        "describe a tool with marks in that range, change from: and to:, or widen tolerance:");
  }

  void look_at_missing(const Document& document, const std::vector<const DoseAnswer*>& doses,
                       const StockAnswer& stock) {
    std::vector<const DoseAnswer*> missing;
    for (const DoseAnswer* dose : doses) {
      if (!dose->can_be_measured()) missing.push_back(dose);
    }
    if (missing.empty()) return;
    const DoseAnswer& first = *missing.front();
    const bool none_near = std::all_of(missing.begin(), missing.end(), [](const DoseAnswer* dose) {
      return dose->measured.problem == MeasureProblem::outside_tolerance;
    });
    if (none_near && missing.size() == doses.size()) {
      if (!said_of_.insert(stock.stock->id).second) return;
      add(Severity::error, stock.stock->dose.origin,
          "no tool meets a tolerance of " + percent_text(stock.stock->dose.tolerance) +
              ", not for any dose of " + document.id,
          "add a tool with finer marks, or widen tolerance:");
      return;
    }
    add(Severity::finding, document.origin,
        (missing.size() == 1
             ? "the dose of " + portion_text(first.exact) + " on this chart cannot be measured"
             : std::to_string(missing.size()) +
                   " doses of this chart cannot be measured, the first of them " +
                   portion_text(first.exact)) +
            whose(stock, first),
        remedy(first.measured));
  }

  // The worst of a document's doses, once for each thing that is amiss.
  void look_at_doses(const Document& document, const std::vector<const DoseAnswer*>& doses,
                     const StockAnswer& stock) {
    const DoseAnswer* coarse = nullptr;
    const DoseAnswer* high = nullptr;
    const DoseAnswer* low = nullptr;
    for (const DoseAnswer* dose : doses) {
      if (!dose->can_be_measured()) continue;
      if (coarse == nullptr || tool_share(*dose) > tool_share(*coarse)) coarse = dose;
      if (passes_ceiling(stock, *dose) && (high == nullptr || above(*dose) > above(*high)))
        high = dose;
      if (passes_floor(stock, *dose) && (low == nullptr || above(*dose) < above(*low))) low = dose;
    }
    if (coarse != nullptr && as_ratio(tool_share(*coarse)) > as_ratio(coarse_limit(stock))) {
      add(Severity::finding, document.origin, coarse_words(stock, *coarse) + whose(stock, *coarse),
          finer_remedy(stock, *coarse));
    }
    if (high != nullptr) {
      add(Severity::finding, document.origin, ceiling_words(stock, *high) + whose(stock, *high),
          "use finer tools, weigh and make up the stock with better ones, or raise at most:");
    }
    if (low != nullptr) {
      add(Severity::finding, document.origin, floor_words(stock, *low) + whose(stock, *low),
          "use finer tools, weigh and make up the stock with better ones, or lower at least:");
    }
  }

  static double above(const DoseAnswer& dose) { return dose.error.most / dose.exact; }

  // The heavy figure of a tank that has no column for its usual change would be missing.
  void look_at_changes(const Document& document) {
    std::vector<std::string> without;
    for (const std::string& id : document.chart.vessels) {
      const Vessel& vessel = *find(answers_.room->vessels, id);
      const auto& columns = document.chart.changes;
      const DoseRule& rule = find_stock(answers_, document.chart.stocks.front())->stock->dose;
      const bool whole =
          rule.basis == WaterBasis::whole_vessel && rule.then != AfterChange::new_water;
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

  RoomAnswer& answers_;
  std::set<std::string> food_said_;  // containers
  std::set<std::string> said_of_;    // stocks whose tolerance was found wanting
};

}  // namespace

std::vector<std::string> dose_warnings(const StockAnswer& stock, const DoseAnswer& dose) {
  std::vector<std::string> out;
  const bool can = dose.can_be_measured();
  if (!can) out.push_back("the dose cannot be measured: " + remedy(dose.measured));
  if (can && as_ratio(tool_share(dose)) > as_ratio(coarse_limit(stock)))
    out.push_back(coarse_words(stock, dose));
  if (can && passes_ceiling(stock, dose)) out.push_back(ceiling_words(stock, dose));
  if (can && passes_floor(stock, dose)) out.push_back(floor_words(stock, dose));
  out.insert(out.end(), stock.findings.begin(), stock.findings.end());
  return out;
}

std::vector<const Diagnostic*> findings_about(const RoomAnswer& answers, const Stock& stock) {
  std::vector<std::string> paths = {stock.origin.path};
  for (const Ingredient& ingredient : stock.recipe)
    paths.push_back(find(answers.room->products, ingredient.product)->origin.path);
  std::vector<const Diagnostic*> out;
  for (const Diagnostic& one : answers.problems) {
    const bool about = std::any_of(paths.begin(), paths.end(), [&](const std::string& path) {
      return one.path == path || one.path.starts_with(path + '.');
    });
    if (about) out.push_back(&one);
  }
  return out;
}

void collect_findings(RoomAnswer& answers) { Findings(answers).collect(); }

}  // namespace dosewright
