// Why a label says what it says, in the terminal.
#include <algorithm>
#include <ostream>
#include <utility>

#include "commands.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/wording/content.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

void put(std::ostream& out, const std::string& words, std::size_t indent, std::size_t hang) {
  put_wrapped(out, std::string(indent, ' '), words, hang);
}

void put_table(std::ostream& out, const SheetTable& table) {
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::vector<std::string>& cells = table.rows[row];
    put(out, (table.strong[row] ? "* " : "- ") + cells.front(), 2, 4);
    for (std::size_t i = 1; i < cells.size(); ++i) {
      if (!cells[i].empty()) put(out, table.headings[i] + ": " + cells[i], 6, 8);
    }
  }
}

void show(const SheetContent& sheet, std::ostream& out) {
  put(out, sheet.page.title + (sheet.page.code ? " (" + sheet.page.code->letters + ")" : ""), 0, 2);
  put(out, sheet.page.subtitle, 0, 2);
  for (const SheetBlock& block : sheet.blocks) {
    if (!block.heading.empty()) out << '\n' << block.heading << '\n';
    for (const std::string& paragraph : block.paragraphs) put(out, paragraph, 2, 4);
    put_table(out, block.table);
  }
  out << '\n';
  put(out, sheet.page.small, 0, 0);
}

}  // namespace

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
      show(hazard_sheet_content(outcome.loaded->answers, *stock, {}), streams.out);
    }
  }
  const bool open = std::any_of(stocks.begin(), stocks.end(), [](const StockAnswer* stock) {
    return stock->stock->hazards.assessment == Hazards::Assessment::computed &&
           !stock->hazards.found.unclassified.empty();
  });
  return open ? ExitStatus::findings : ExitStatus::done;
}

}  // namespace dosewright
