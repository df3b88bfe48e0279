// A recipe for the container at hand, in the terminal.
#include <algorithm>
#include <ostream>

#include "commands.hpp"
#include "dosewright/answer/mixing.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

// How much is to be mixed, and for which container.
struct Wanted {
  Volume makes;
  const Container* container = nullptr;
};

// "the whole 500 g tub": the volume in which the first product of the recipe is so much.
std::variant<Volume, LineProblem> volume_using(const StockAnswer& stock, const std::string& text) {
  const auto mass = parse_mass(text);
  if (const auto* bad = std::get_if<QuantityProblem>(&mass))
    return LineProblem{"--use: " + bad->message, bad->hint};
  if (stock.stock->stronger != nullptr)
    return LineProblem{
        "--use: this stock is mixed from " + stock.stock->stronger->name + ", not from a tub",
        "give --volume or --container instead"};
  const auto* recipe = std::get_if<Mass>(&stock.mixture.components.front().amount);
  if (recipe == nullptr)
    return LineProblem{"--use: the recipe does not weigh its product", "give --volume instead"};
  const Mass wanted = std::get<Mass>(mass);
  if (in_grams(wanted) <= 0) return LineProblem{"--use: an amount of nothing", "write more than 0"};
  return stock.mixture.makes * (wanted / *recipe);
}

std::variant<Wanted, LineProblem> wanted_amount(const Loaded& loaded, const Options& options,
                                                const StockAnswer& stock) {
  const int given = (options.use.empty() ? 0 : 1) + (options.container.empty() ? 0 : 1) +
                    static_cast<int>(options.volumes.size());
  if (given > 1)
    return LineProblem{"--volume, --container and --use each say how much to mix",
                       "give one of them"};
  Wanted out;
  if (!options.use.empty()) {
    const auto volume = volume_using(stock, options.use);
    if (const auto* bad = std::get_if<LineProblem>(&volume)) return *bad;
    out.makes = std::get<Volume>(volume);
    return out;
  }
  if (!options.volumes.empty()) {
    const auto volume = parse_volume(options.volumes.front(), loaded.room.measures);
    if (const auto* bad = std::get_if<QuantityProblem>(&volume))
      return LineProblem{"--volume: " + bad->message, bad->hint};
    out.makes = std::get<Volume>(volume);
    if (in_millilitres(out.makes) <= 0 || out.makes > litres(2000))
      return LineProblem{"--volume: nothing that is mixed at a bench", "write 1.5 L or so"};
    return out;
  }
  const std::string id = options.container.empty() ? stock.stock->container : options.container;
  if (id.empty()) {
    out.makes = stock.mixture.makes;
    return out;
  }
  std::size_t of_name = 0;
  out.container = called(loaded.room.containers, id, of_name);
  if (out.container == nullptr)
    return nothing_called("container", id, loaded.room.containers, of_name);
  out.makes = filling_of(*out.container);
  return out;
}

// What `check` finds of the stock, and what is amiss with this batch of it.
Diagnostics findings_of(const Loaded& loaded, const MixAnswer& mix) {
  const Stock& stock = *mix.stock->stock;
  Diagnostics out;
  for (const Diagnostic* one : findings_about(loaded.answers, stock)) out.push_back(*one);
  const Share error = mix.filled.strength_error.worst;
  const bool said = mix.stock->mixture.strength_error.worst > stock.dose.tolerance;
  if (error > stock.dose.tolerance && !said)
    out.push_back({Severity::finding, stock.origin.place, stock.origin.path,
                   "the strength of this batch can be off by " + percent_up(error) +
                       ", more than the dose's tolerance of " + percent_text(stock.dose.tolerance),
                   "mix more at a time, or measure more finely"});
  return out;
}

}  // namespace

ExitStatus mix_command(const Options& options, const Streams& streams) {
  const LoadOutcome outcome = load(options);
  if (!outcome.loaded) return stopped(outcome, streams);
  const Loaded& loaded = *outcome.loaded;
  const auto stocks = wanted_stocks(loaded, options);
  if (const auto* problem = std::get_if<LineProblem>(&stocks)) return refused(streams, *problem);
  std::vector<MixAnswer> answers;
  std::vector<Diagnostics> findings;
  for (const StockAnswer* stock : std::get<Stocks>(stocks)) {
    if (stock->stock->dry) {
      if (options.stocks.empty()) continue;
      return refused(streams, {stock->stock->name + " is dosed straight from its tub",
                               "there is nothing to mix; dosewright dose says how much to give"});
    }
    const auto wanted = wanted_amount(loaded, options, *stock);
    if (const auto* problem = std::get_if<LineProblem>(&wanted)) return refused(streams, *problem);
    const auto& amount = std::get<Wanted>(wanted);
    answers.push_back(answer_mixing(loaded.answers, *stock, amount.makes, amount.container));
    findings.push_back(findings_of(loaded, answers.back()));
  }
  if (answers.empty())
    return refused(streams, {"no stock of this description is mixed", "describe one with recipe:"});
  bool calm = true;
  for (const auto& list : findings) calm = calm && list.empty();
  if (options.format == "json") {
    streams.out << mix_json(answers, findings);
    return calm ? ExitStatus::done : ExitStatus::findings;
  }
  for (std::size_t i = 0; i < answers.size(); ++i) {
    if (i > 0) streams.out << '\n';
    const SheetContent sheet = mixing_content(loaded.answers, answers[i], {});
    put_sheet(streams.out, sheet);
    // What the card says on top is not said again; check has the remedies too.
    const auto& on_top = sheet.blocks.front().paragraphs;
    for (const Diagnostic& one : findings[i]) {
      if (!among(on_top, capitalised(one.message) + '.'))
        put_wrapped(streams.out, "finding: ", one.message + ". " + capitalised(one.hint) + '.', 4);
    }
  }
  return calm ? ExitStatus::done : ExitStatus::findings;
}

}  // namespace dosewright
