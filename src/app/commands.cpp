#include "commands.hpp"

#include <algorithm>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"
#include "printer.hpp"
#include "recording.hpp"
#include "survey.hpp"

namespace dosewright {

namespace {

std::string plural(std::size_t count, const std::string& word) {
  return std::to_string(count) + ' ' + word + (count == 1 ? "" : "s");
}

void show_stock(const Room& room, const StockAnswer& answer, std::ostream& out) {
  const Stock& stock = *answer.stock;
  out << "  " << answer.code.letters << "  " << stock.name << ": "
      << contents_text(room, answer.mixture) << '\n';
  const Container* container = find(room.containers, stock.container);
  if (container == nullptr || stock.dry) return;
  const Mixture filled = mix_batch(stock, room.products, room.tools, filling_of(*container));
  out << "          to fill " << container->name << ": "
      << all_of(recipe_lines(room, stock, filled));
  if (const auto cost = cost_of(filled, room.products)) out << "; costs " << money_text(*cost);
  out << '\n';
}

void show_vessels(const Room& room, std::ostream& out) {
  for (const Vessel& vessel : room.vessels) {
    const std::string line = vessel_text(vessel, room.measures);
    if (!line.empty()) out << "  " << line << '\n';
  }
}

}  // namespace

ExitStatus stopped(const LoadOutcome& outcome, const Streams& streams) {
  show(outcome.problems, streams.err);
  if (!outcome.trouble.empty()) streams.err << "dosewright: " << outcome.trouble << '\n';
  return outcome.status;
}

ExitStatus check_command(const Options& options, const Streams& streams) {
  const LoadOutcome outcome = load(options);
  const RoomAnswer* answers = outcome.loaded ? &outcome.loaded->answers : nullptr;
  Diagnostics problems = outcome.problems;
  if (outcome.loaded) {
    // What does not fit on its paper is found here, before anybody prints.
    Printer printer(*outcome.loaded, options);
    (void)printer.lay_out(wanted_documents(*outcome.loaded, ""), problems);
    find_past_their_date(outcome.loaded->answers, problems);
    sort_by_place(problems);
  }
  if (options.format == "json" && outcome.trouble.empty()) {
    streams.out << check_json(problems, answers);
  } else {
    show(problems, streams.err);
    if (!outcome.trouble.empty()) streams.err << "dosewright: " << outcome.trouble << '\n';
  }
  if (!outcome.loaded) return outcome.status;
  const Room& room = outcome.loaded->room;
  if (options.format != "json") {
    streams.out << room.name << ": " << plural(room.stocks.size(), "stock") << ", "
                << plural(room.vessels.size(), "vessel") << ", "
                << plural(room.documents.size(), "document") << ", "
                << plural(problems.size(), "finding") << '\n';
    for (const StockAnswer& stock : answers->stocks) show_stock(room, stock, streams.out);
    show_vessels(room, streams.out);
  }
  if (has_error(problems)) return ExitStatus::bad_input;
  return problems.empty() ? ExitStatus::done : ExitStatus::findings;
}

ExitStatus print_command(const Options& options, const Streams& streams) {
  const LoadOutcome outcome = load(options);
  if (!outcome.loaded) return stopped(outcome, streams);
  const Loaded& loaded = *outcome.loaded;
  auto documents = wanted_documents(loaded, options.only);
  if (loaded.room.documents.empty()) {
    streams.err << "dosewright: the description asks for no documents\n    add documents: with a "
                   "label or a chart\n";
    return ExitStatus::bad_input;
  }
  if (documents.empty()) {
    streams.err << "dosewright: no document is called \"" << options.only << "\"\n    "
                << did_you_mean(options.only, loaded.room.documents) << '\n';
    return ExitStatus::bad_input;
  }
  Diagnostics problems = outcome.problems;
  find_past_their_date(loaded.answers, problems);
  leave_out_old_bottles(loaded, options, documents, problems);
  Printer printer(loaded, options);
  (void)printer.lay_out(documents, problems);
  const auto also = old_blank_labels(options, printer.made(), problems);
  return write_printed(printer, std::move(problems), also, options, streams);
}

}  // namespace dosewright
