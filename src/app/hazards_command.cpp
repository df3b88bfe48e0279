// Why a label says what it says, in the terminal.
#include <algorithm>
#include <ostream>
#include <utility>

#include "commands.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/wording/content.hpp"
#include "wanted.hpp"

namespace dosewright {

ExitStatus hazards_command(const Options& options, const Streams& streams) {
  const LoadOutcome outcome = load(options);
  if (!outcome.loaded) return stopped(outcome, streams);
  const auto wanted = wanted_stocks(*outcome.loaded, options);
  if (const auto* problem = std::get_if<LineProblem>(&wanted)) return refused(streams, *problem);
  const auto& stocks = std::get<Stocks>(wanted);
  if (options.format == "json") {
    streams.out << hazards_json(stocks, outcome.loaded->room);
  } else {
    bool first = true;
    for (const StockAnswer* stock : stocks) {
      if (!std::exchange(first, false)) streams.out << '\n';
      put_sheet(streams.out, hazard_sheet_content(outcome.loaded->answers, *stock, {}));
    }
  }
  const bool open = std::any_of(stocks.begin(), stocks.end(), [](const StockAnswer* stock) {
    return stock->stock->hazards.assessment == Hazards::Assessment::computed &&
           !stock->hazards.found.unclassified.empty();
  });
  return open ? ExitStatus::findings : ExitStatus::done;
}

}  // namespace dosewright
