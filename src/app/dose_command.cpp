// The answer at the sink: how much of a stock for this water, or how much water this amount treats.
#include <algorithm>
#include <optional>
#include <ostream>

#include "commands.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

// An amount of water asked about: written out, or a vessel's.
struct Asked {
  std::string text;
  Volume water;  // of the whole vessel
  const Vessel* vessel = nullptr;
};

std::variant<Asked, LineProblem> asked_water(const Loaded& loaded, const std::string& word) {
  std::size_t of_name = 0;
  if (const Vessel* vessel = called(loaded.room.vessels, trimmed(word), of_name))
    return Asked{vessel->as_given, vessel->water, vessel};
  const auto volume = parse_volume(word, loaded.room.measures);
  if (const auto* found = std::get_if<Volume>(&volume)) {
    if (in_millilitres(*found) <= 0)
      return LineProblem{"--volume: a volume of nothing", "write more than 0"};
    if (*found > kMostWater) {
      return LineProblem{"--volume: an absurd volume: more than " + volume_text(kMostWater),
                         "check its unit"};
    }
    return Asked{trimmed(word), *found, nullptr};
  }
  const auto& problem = std::get<QuantityProblem>(volume);
  const bool amount = word.empty() || std::string_view("0123456789.-+").find(word.front()) !=
                                          std::string_view::npos;
  if (amount || loaded.room.vessels.empty())
    return LineProblem{"--volume: " + problem.message, problem.hint};
  return nothing_called("vessel", trimmed(word), loaded.room.vessels, of_name);
}

// A question about one stock and one water, and its answer.
struct Answered {
  const StockAnswer* stock = nullptr;
  std::string water;            // in words: "40 US gal of new water"
  std::string short_water;      // "A1, 25 % of 20 US gal"
  std::optional<Share> change;  // the vessel's
  DoseAnswer dose;
};

class Asking {
 public:
  Asking(const Loaded& loaded, const Options& options) : loaded_(loaded), options_(options) {}

  /// Whether --change said anything about one of the answers.
  [[nodiscard]] bool used_change() const { return used_change_; }

  std::variant<Answered, LineProblem> answer(const StockAnswer& stock, const Asked& asked,
                                             const Tool* with) {
    const DoseRule& rule = stock.stock->dose;
    // Of a vessel that is dosed whole first, a change that is named asks for its part.
    const bool part = rule.then == AfterChange::new_water && !options_.change.empty() &&
                      asked.vessel != nullptr && asked.vessel->kind == Vessel::Kind::tank;
    const bool new_water = rule.basis == WaterBasis::new_water || part;
    const Amount whole = water_as_written(asked.text, asked.water, loaded_.room.measures);
    const std::string amount = whole.figure + ' ' + whole.unit;
    Answered out;
    out.stock = &stock;
    Volume water = asked.water;
    out.short_water = amount;
    if (asked.vessel != nullptr && new_water && asked.vessel->kind == Vessel::Kind::tank) {
      const auto change = changed_part(*asked.vessel);
      if (!change) {
        return LineProblem{"how much of " + asked.vessel->name + " is changed?",
                           "write --change \"25 %\", or change: in the description"};
      }
      water = water_to_dose(rule, asked.water, *change);
      used_change_ = true;
      out.short_water = percent_text(*change) + " of " + amount;
    }
    if (asked.vessel != nullptr && asked.vessel->kind == Vessel::Kind::tank) {
      out.change = changed_part(*asked.vessel);
      if (rule.then == AfterChange::again && out.change) used_change_ = true;
    }
    if (asked.vessel != nullptr) out.short_water = asked.vessel->name + ", " + out.short_water;
    const std::string kind = new_water ? " of new water" : " of water in the vessel";
    out.water = out.short_water + kind;
    // A tank's litres are not on its name plate when they are a part, or gallons.
    const std::string litres_text = volume_text(water);
    if (asked.vessel != nullptr && !out.short_water.ends_with(", " + litres_text))
      out.water = out.short_water + ": " + litres_text + kind;
    const Share right_to = asked.vessel != nullptr ? asked.vessel->right_to : Vessel().right_to;
    out.dose = answer_dose(loaded_.room, stock, water, right_to, with);
    return out;
  }

 private:
  [[nodiscard]] std::optional<Share> changed_part(const Vessel& vessel) const {
    if (options_.change.empty()) return vessel.usual_change;
    const auto change = parse_share(options_.change);
    if (const auto* part = std::get_if<Share>(&change)) return *part;
    return std::nullopt;
  }

  const Loaded& loaded_;
  const Options& options_;
  bool used_change_ = false;
};

// A caption and words set in behind it.
void put(std::ostream& out, const std::string& caption, const std::string& words) {
  constexpr std::size_t kIndent = 7;
  put_wrapped(out, caption + std::string(kIndent - caption.size(), ' '), words, kIndent);
}

std::string error_words(const DoseAnswer& dose) {
  return "with the strength's and the water's errors off by at most " +
         rounded_up(dose.error.bound) + ", standard uncertainty " +
         rounded_up(dose.error.uncertainty);
}

// In one unit with what stands beside it.
std::string exact_text(Portion exact) {
  return significant_figure(exact.stored(), 3) + ' ' + unit_of(exact);
}

// One day's part must not be taken for the whole.
std::string each_day(const DoseRule& rule, Portion part) {
  if (rule.days <= 1) return "";
  return ' ' + days_words(rule) + " (" + all_days_words(rule, part) + ')';
}

void show_details(const Answered& answered, std::ostream& out) {
  const DoseAnswer& dose = answered.dose;
  const MeasureAnswer& measured = dose.measured;
  const DoseRule& rule = answered.stock->stock->dose;
  const std::string a_day = rule.days > 1 ? " a day" : "";
  if (measured.measured) {
    const Amount amount = dose_amount(*measured.measured);
    put(out, "give", amount.figure + ' ' + amount.unit + each_day(rule, measured.measured->total));
    put(out, "how", how_to_measure(*measured.measured));
  } else if (measured.dilution) {
    put(out, "give",
        "too little to measure by itself: dilute first" +
            (rule.days > 1 ? "," + each_day(rule, dose.delivers) + " of the stock" : ""));
    put(out, "how", how_to_dilute(*measured.dilution, answered.stock->stock->name));
  } else {
    put(out, "exact",
        exact_text(dose.exact) + (rule.days > 1 ? ' ' + days_words(rule) : "") +
            ", but no dose can be measured: " + why_not(measured));
    return;
  }
  put(out, "exact",
      exact_text(dose.exact) + a_day + ", " + off_by_text(dose.off_by) +
          (measured.dilution ? " of the stock" : ""));
  put(out, "error", error_words(dose));
  const std::string remarks = dose_remarks(*answered.stock, dose.water, answered.change);
  if (!remarks.empty()) put(out, "rule", remarks);
  for (const std::string& warning : dose_warnings(*answered.stock, dose)) put(out, "mind", warning);
}

void show(const std::vector<Answered>& answers, std::ostream& out) {
  const StockAnswer* before = nullptr;
  const bool several = std::any_of(answers.begin(), answers.end(), [&](const Answered& one) {
    return one.stock != answers.front().stock;
  });
  if (several) out << "Each dose is for its stock alone: they are not to be given together.\n\n";
  for (const Answered& answered : answers) {
    const StockAnswer& stock = *answered.stock;
    if (before != nullptr) out << '\n';
    if (&stock != before) {
      out << stock.stock->name
          << (stock.stock->dry ? ", only from the tub with code "
                               : ", only from the bottle with code ")
          << stock.code.letters << '\n';
    }
    out << answered.water << '\n';
    show_details(answered, out);
    before = &stock;
  }
}

// A liquid's amount in mL, a powder's in g.
std::variant<Portion, LineProblem> asked_amount(const Loaded& loaded, const Options& options,
                                                const StockAnswer& stock) {
  const auto wrong = [](const QuantityProblem& problem) {
    return LineProblem{"--amount: " + problem.message, problem.hint};
  };
  Portion found;
  if (stock.stock->dry) {
    const auto mass = parse_mass(options.amount);
    if (const auto* problem = std::get_if<QuantityProblem>(&mass)) return wrong(*problem);
    found = std::get<Mass>(mass);
  } else {
    const auto volume = parse_volume(options.amount, loaded.room.measures);
    if (const auto* problem = std::get_if<QuantityProblem>(&volume)) return wrong(*problem);
    found = std::get<Volume>(volume);
  }
  if (found.stored() <= 0)
    return LineProblem{"--amount: an amount of nothing", "write more than 0"};
  return found;
}

// How much water an amount treats.
ExitStatus answer_amount(const Loaded& loaded, const Options& options, const Stocks& stocks,
                         const Streams& streams) {
  Stocks fitting;
  std::vector<WaterAnswer> answers;
  std::optional<LineProblem> first_problem;
  for (const StockAnswer* stock : stocks) {
    const auto amount = asked_amount(loaded, options, *stock);
    if (const auto* problem = std::get_if<LineProblem>(&amount)) {
      if (!first_problem) first_problem = *problem;
      // Where no stock was named, powders do not answer for mL, nor liquids for grams.
      if (!options.stocks.empty()) break;
      continue;
    }
    fitting.push_back(stock);
    answers.push_back({std::get<Portion>(amount), water_for(*stock, std::get<Portion>(amount))});
  }
  if (first_problem && (!options.stocks.empty() || answers.empty()))
    return refused(streams, *first_problem);
  if (options.format == "json") {
    streams.out << water_json(fitting, answers);
    return ExitStatus::done;
  }
  for (std::size_t i = 0; i < fitting.size(); ++i) {
    const Stock& stock = *fitting[i]->stock;
    const FigureAndUnit own = water_text(answers[i].water, loaded.room.measures);
    std::string water = volume_text(answers[i].water);
    if (own.unit != "L") water += " (" + own.figure + ' ' + own.unit + ')';
    put(streams.out, fitting[i]->code.letters,
        portion_text(answers[i].amount) + " of " + stock.name +
            each_day(stock.dose, answers[i].amount) + " treats " + water +
            (stock.dose.basis == WaterBasis::new_water ? " of new water" : " of water"));
  }
  return ExitStatus::done;
}

// A tool named on the command line must suit every stock asked about.
std::variant<const Tool*, LineProblem> wanted_tool(const Loaded& loaded, const Options& options,
                                                   const Stocks& stocks) {
  if (options.with.empty()) return static_cast<const Tool*>(nullptr);
  std::size_t of_name = 0;
  const Tool* tool = called(loaded.room.tools, options.with, of_name);
  if (tool == nullptr)
    return nothing_called("measuring tool", options.with, loaded.room.tools, of_name);
  for (const StockAnswer* stock : stocks) {
    if (is_kept_for_another(*tool, *stock->stock)) {
      return LineProblem{tool->name + " is kept for another stock: " + tool->only_for,
                         "name another tool, or take only for: out of tools." + tool->id};
    }
    if (!suits(*tool, *stock->stock)) {
      return LineProblem{
          tool->name + " does not measure " + (stock->stock->dry ? "powder" : "liquids"),
          stock->stock->dry ? "name a scale or a spoon for powder"
                            : "name a syringe, pipette, cylinder or cup"};
    }
  }
  return tool;
}

// What cannot be answered whatever the description says.
std::optional<LineProblem> unclear(const Options& options) {
  const std::string what = "give --volume for a dose, or --amount for how much water it treats";
  if (options.volumes.empty() && options.amount.empty())
    return LineProblem{"how much water?", what};
  if (!options.volumes.empty() && !options.amount.empty())
    return LineProblem{"--volume and --amount are two questions", what};
  if (!options.amount.empty() && (!options.with.empty() || !options.change.empty()))
    return LineProblem{"--amount goes with neither --with nor --change", "take them out"};
  if (options.change.empty()) return std::nullopt;
  const auto change = parse_share(options.change);
  if (const auto* problem = std::get_if<QuantityProblem>(&change))
    return LineProblem{"--change: " + problem->message, problem->hint};
  if (as_ratio(std::get<Share>(change)) <= 0)
    return LineProblem{"--change: a change of nothing", "write a part such as \"25 %\""};
  return std::nullopt;
}

std::variant<std::vector<Answered>, LineProblem> all_answers(const Loaded& loaded,
                                                             const Options& options,
                                                             const Stocks& stocks,
                                                             const Tool* tool) {
  std::vector<Answered> out;
  Asking asking(loaded, options);
  for (const StockAnswer* stock : stocks) {
    for (const std::string& word : options.volumes) {
      const auto asked = asked_water(loaded, word);
      if (const auto* problem = std::get_if<LineProblem>(&asked)) return *problem;
      auto answer = asking.answer(*stock, std::get<Asked>(asked), tool);
      if (const auto* problem = std::get_if<LineProblem>(&answer)) return *problem;
      out.push_back(std::get<Answered>(std::move(answer)));
    }
  }
  if (!options.change.empty() && !asking.used_change()) {
    return LineProblem{"--change says nothing about these volumes",
                       "name a tank with --volume, and a stock that is dosed for new water"};
  }
  return out;
}

}  // namespace

ExitStatus dose_command(const Options& options, const Streams& streams) {
  const LoadOutcome outcome = load(options);
  if (!outcome.loaded) return stopped(outcome, streams);
  const Loaded& loaded = *outcome.loaded;
  if (const auto problem = unclear(options)) return refused(streams, *problem);
  const auto stocks = wanted_stocks(loaded, options);
  if (const auto* problem = std::get_if<LineProblem>(&stocks)) return refused(streams, *problem);
  const auto& wanted = std::get<Stocks>(stocks);
  if (!options.amount.empty()) return answer_amount(loaded, options, wanted, streams);
  const auto tool = wanted_tool(loaded, options, wanted);
  if (const auto* problem = std::get_if<LineProblem>(&tool)) return refused(streams, *problem);
  const auto answers = all_answers(loaded, options, wanted, std::get<const Tool*>(tool));
  if (const auto* problem = std::get_if<LineProblem>(&answers)) return refused(streams, *problem);
  const auto& found = std::get<std::vector<Answered>>(answers);
  if (options.format == "json") {
    std::vector<StockDose> doses;
    for (const Answered& one : found)
      doses.push_back({one.stock, &one.dose, one.water, one.change});
    streams.out << dose_json(doses);
  } else {
    show(found, streams.out);
  }
  const bool calm = std::all_of(found.begin(), found.end(), [](const Answered& one) {
    return dose_warnings(*one.stock, one.dose).empty();
  });
  return calm ? ExitStatus::done : ExitStatus::findings;
}

}  // namespace dosewright
