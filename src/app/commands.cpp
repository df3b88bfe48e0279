#include "commands.hpp"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/render/render.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"
#include "dosewright/write/files.hpp"

namespace dosewright {

namespace {

constexpr const char* kCreator = "dosewright " DOSEWRIGHT_VERSION;

void show(const Diagnostics& problems, std::ostream& err) {
  for (const Diagnostic& problem : problems) err << format(problem);
}

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

std::optional<long long> source_date() {
  const char* text = std::getenv("SOURCE_DATE_EPOCH");
  if (text == nullptr) return std::nullopt;
  long long value = 0;
  const std::string_view digits(text);
  const auto [end, failed] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  const bool good = failed == std::errc() && end == digits.data() + digits.size() && value >= 0;
  constexpr long long kYear9999 = 253402300799;
  return good && value <= kYear9999 ? std::optional(value) : std::nullopt;
}

// One document, from words to bytes.
class Printer {
 public:
  Printer(const Loaded& loaded, const Options& options) : loaded_(loaded), options_(options) {}

  /// Lays out everything before anything is drawn; false when a document does not fit.
  bool lay_out(const std::vector<const Document*>& documents, Diagnostics& problems) {
    for (const Document* document : documents) {
      auto pages = safely_laid_out(*document);
      if (const auto* problem = std::get_if<LayoutProblem>(&pages)) {
        const Origin& origin = document->type == Document::Type::label
                                   ? document->label.sheet.origin
                                   : document->origin;
        problems.push_back(
            {Severity::error, origin.place, origin.path, problem->message, problem->hint});
      } else {
        made_.emplace_back(as_file_name(document->id), std::get<Pages>(std::move(pages)));
      }
    }
    return !has_error(problems);
  }

  /// Bytes of all files, or what failed.
  std::variant<std::vector<OutputFile>, std::string> render() const {
    std::vector<OutputFile> files;
    for (const auto& [name, pages] : made_) {
      const PdfFacts facts{loaded_.room.name + ": " + pages.title, kCreator, source_date()};
      auto pdf = render_pdf(pages, facts, *loaded_.fonts);
      if (const auto* problem = std::get_if<RenderProblem>(&pdf))
        return name + ": " + problem->message;
      files.push_back({options_.to + '/' + name + ".pdf", std::get<std::string>(std::move(pdf))});
      if (options_.proof.empty()) continue;
      auto proofs = render_png(pages, options_.dpi, *loaded_.fonts);
      if (const auto* problem = std::get_if<RenderProblem>(&proofs))
        return name + ": " + problem->message;
      add_proofs(name, std::get<std::vector<std::string>>(std::move(proofs)), files);
    }
    return files;
  }

 private:
  // A fault of ours still names the document, and what else is wrong is still said.
  [[nodiscard]] std::variant<Pages, LayoutProblem> safely_laid_out(const Document& document) const {
    try {
      return laid_out(document);
    } catch (const LayoutFault& fault) {
      return LayoutProblem{
          std::string("a fault of the program while laying out this document: ") + fault.what(),
          "please report it; another paper or shorter texts may help until it is mended"};
    }
  }

  [[nodiscard]] std::variant<Pages, LayoutProblem> laid_out(const Document& document) const {
    if (document.type == Document::Type::label) {
      const LabelContent content =
          label_content(loaded_.answers, document.label, loaded_.label_style.error);
      return lay_out_label(content, document.label.sheet, loaded_.label_style, *loaded_.fonts);
    }
    const ChartStyle& style = loaded_.chart_style;
    const PaperSize& paper = document.chart.paper;
    if (document.type == Document::Type::dose_scale) {
      return lay_out_dose_scale(dose_scale_content(loaded_.answers, document), paper, style,
                                *loaded_.fonts);
    }
    if (document.type == Document::Type::hazard_sheet) {
      const StockAnswer& stock = *find_stock(loaded_.answers, document.chart.stocks.front());
      return lay_out_sheet(hazard_sheet_content(loaded_.answers, stock, document.chart), paper,
                           style, *loaded_.fonts);
    }
    if (document.type == Document::Type::supply_sheet) {
      return lay_out_sheet(supply_content(loaded_.answers, document), paper, style, *loaded_.fonts);
    }
    if (document.type == Document::Type::mixing_card) {
      return lay_out_sheet(mixing_card_content(document.chart), paper, style, *loaded_.fonts);
    }
    if (document.type == Document::Type::storage_list) {
      return lay_out_sheet(storage_list_content(loaded_.answers, document.chart), paper, style,
                           *loaded_.fonts);
    }
    if (document.type == Document::Type::measuring_card) {
      return lay_out_measuring_card(measuring_card_content(loaded_.answers, document, style.error),
                                    paper, style, *loaded_.fonts);
    }
    return lay_out_chart(chart_content(loaded_.answers, document, style.error), paper, style,
                         *loaded_.fonts);
  }

  [[nodiscard]] SheetContent mixing_card_content(const ChartRequest& chart) const {
    const StockAnswer& stock = *find_stock(loaded_.answers, chart.stocks.front());
    const Container* container = find(loaded_.room.containers, chart.container);
    const Volume makes =
        container != nullptr ? container->holds * as_ratio(container->fill) : stock.mixture.makes;
    return mixing_content(loaded_.answers, answer_mixing(loaded_.answers, stock, makes, container),
                          chart);
  }

  void add_proofs(const std::string& name, std::vector<std::string> proofs,
                  std::vector<OutputFile>& files) const {
    for (std::size_t page = 0; page < proofs.size(); ++page) {
      // A full stop keeps it apart from every document's own name.
      const std::string number = proofs.size() == 1 ? "" : ".page" + std::to_string(page + 1);
      files.push_back({options_.to + '/' + name + number + ".png", std::move(proofs[page])});
    }
  }

  const Loaded& loaded_;
  const Options& options_;
  std::vector<std::pair<std::string, Pages>> made_;
};

std::vector<const Document*> wanted_documents(const Room& room, const std::string& only) {
  std::vector<const Document*> out;
  for (const Document& document : room.documents) {
    if (only.empty() || document.id == only) out.push_back(&document);
  }
  return out;
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
    (void)printer.lay_out(wanted_documents(outcome.loaded->room, ""), problems);
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
  const auto documents = wanted_documents(loaded.room, options.only);
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
  Printer printer(loaded, options);
  const bool fits = printer.lay_out(documents, problems);
  sort_by_place(problems);
  show(problems, streams.err);
  if (!fits) return ExitStatus::bad_input;
  const auto files = printer.render();
  if (const auto* trouble = std::get_if<std::string>(&files)) {
    streams.err << "dosewright: " << *trouble << '\n';
    return ExitStatus::could_not_write;
  }
  const auto& made = std::get<std::vector<OutputFile>>(files);
  if (const auto trouble = write_files(options.to, made)) {
    streams.err << "dosewright: " << *trouble << '\n';
    return ExitStatus::could_not_write;
  }
  for (const OutputFile& file : made) streams.out << file.path << '\n';
  return problems.empty() ? ExitStatus::done : ExitStatus::findings;
}

}  // namespace dosewright
