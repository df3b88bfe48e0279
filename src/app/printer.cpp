#include "printer.hpp"

#include <charconv>
#include <cstdlib>
#include <ostream>

#include "dosewright/render/render.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

constexpr const char* kCreator = "dosewright " DOSEWRIGHT_VERSION;

}  // namespace

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

bool Printer::lay_out(const std::vector<const Document*>& documents, Diagnostics& problems) {
  for (const Document* document : documents) {
    auto pages = safely_laid_out(*document);
    if (const auto* problem = std::get_if<LayoutProblem>(&pages)) {
      const Origin& origin =
          document->type == Document::Type::label ? document->label.sheet.origin : document->origin;
      problems.push_back(
          {Severity::error, origin.place, origin.path, problem->message, problem->hint});
    } else {
      made_.emplace_back(document, std::get<Pages>(std::move(pages)));
    }
  }
  return !has_error(problems);
}

std::variant<std::vector<OutputFile>, std::string> Printer::render() const {
  std::vector<OutputFile> files;
  for (const auto& [document, pages] : made_) {
    const std::string name = as_file_name(document->id);
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

// A fault of ours still names the document, and what else is wrong is still said.
std::variant<Pages, LayoutProblem> Printer::safely_laid_out(const Document& document) const {
  try {
    return laid_out(document);
  } catch (const LayoutFault& fault) {
    return LayoutProblem{
        std::string("a fault of the program while laying out this document: ") + fault.what(),
        "please report it; another paper or shorter texts may help until it is mended"};
  }
}

std::variant<Pages, LayoutProblem> Printer::laid_out(const Document& document) const {
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
    return lay_out_sheet(hazard_sheet_content(loaded_.answers, stock, document.chart), paper, style,
                         *loaded_.fonts);
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

SheetContent Printer::mixing_card_content(const ChartRequest& chart) const {
  const StockAnswer& stock = *find_stock(loaded_.answers, chart.stocks.front());
  const Container* container = find(loaded_.room.containers, chart.container);
  const Volume makes = container != nullptr ? filling_of(*container) : stock.mixture.makes;
  return mixing_content(loaded_.answers, answer_mixing(loaded_.answers, stock, makes, container),
                        chart);
}

void Printer::add_proofs(const std::string& name, std::vector<std::string> proofs,
                         std::vector<OutputFile>& files) const {
  for (std::size_t page = 0; page < proofs.size(); ++page) {
    // A full stop keeps it apart from every document's own name.
    const std::string number = proofs.size() == 1 ? "" : ".page" + std::to_string(page + 1);
    files.push_back({options_.to + '/' + name + number + ".png", std::move(proofs[page])});
  }
}

std::vector<const Document*> wanted_documents(const Room& room, const std::string& only) {
  std::vector<const Document*> out;
  for (const Document& document : room.documents) {
    if (only.empty() || document.id == only) out.push_back(&document);
  }
  return out;
}

void show(const Diagnostics& problems, std::ostream& err) {
  for (const Diagnostic& problem : problems) err << format(problem);
}

}  // namespace dosewright
