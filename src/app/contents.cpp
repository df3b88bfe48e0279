#include "contents.hpp"

#include <algorithm>
#include <regex>

#include "dosewright/layout/reading.hpp"
#include "dosewright/render/hyphens.hpp"

namespace dosewright {

namespace {

SheetContent mixing_card_content(const RoomAnswer& answers, const ChartRequest& chart,
                                 const Words& w) {
  const StockAnswer& stock = *find_stock(answers, chart.stocks.front());
  const Container* container = find(answers.room->containers, chart.container);
  const Volume makes = container != nullptr ? filling_of(*container) : stock.mixture.makes;
  return mixing_content(answers, answer_mixing(answers, stock, makes, container), chart, w);
}

std::vector<ShownFigure> as_figures(const std::vector<ShownFact>& facts) {
  std::vector<ShownFigure> out;
  for (const ShownFact& fact : facts) out.push_back({fact.what, fact.figure});
  return out;
}

// On a page in English that hangs among pages with decimal commas, 1,000 L would be read as one
// litre: there thousands are not grouped.
std::string ungrouped(const std::string& text) {
  static const std::regex grouped("([0-9]),([0-9]{3})(?![0-9])");
  std::string out = text;
  while (std::regex_search(out, grouped)) out = std::regex_replace(out, grouped, "$1$2");
  return out;
}

// "revision 2 of 2026-11-20 with code X4 9RF".
std::string print_words(const RecordEntry& entry, const Words& w) {
  const std::string day = entry.when.substr(0, 10);
  const std::string out = entry.revision.empty()
                              ? w.say("the print of {1}", {day})
                              : w.say("revision {1} of {2}", {entry.revision, day});
  return entry.code.empty() ? out : w.say("{1} with code {2}", {out, entry.code});
}

LabelContent label_in(const Loaded& loaded, const RoomAnswer& answers, const Document& document,
                      const std::string& language) {
  const std::string statements = statement_language(loaded, document, language);
  return label_content(answers_in(loaded, answers, statements), document.label,
                       label_style_of(loaded, document).error, loaded.words.at(language));
}

LabelContent label_in_its_languages(const Loaded& loaded, const RoomAnswer& answers,
                                    const Document& document) {
  LabelContent out = label_in(loaded, answers, document, document.languages.front());
  if (document.languages.size() == 1) return out;
  return in_both(out, label_in(loaded, answers, document, document.languages.back()));
}

PageContent content_in_its_language(const Loaded& loaded, const RoomAnswer& answers,
                                    const Document& document) {
  const std::string& language = document.languages.front();
  const Words& w = loaded.words.at(language);
  if (document.type == Document::Type::label)
    return label_in_its_languages(loaded, answers, document);
  const ErrorShown shown = chart_style_of(loaded, document).error;
  // With the statements of the law in the page's language.
  const auto in_its_language = [&]() -> const RoomAnswer& {
    return answers_in(loaded, answers, statement_language(loaded, document, language));
  };
  switch (document.type) {
    case Document::Type::label:
    case Document::Type::bucket_chart:
    case Document::Type::tank_chart:
      break;
    case Document::Type::dose_scale:
      return dose_scale_content(answers, document, w);
    case Document::Type::measuring_card:
      return measuring_card_content(answers, document, shown, w);
    case Document::Type::mixing_card:
      return mixing_card_content(in_its_language(), document.chart, w);
    case Document::Type::hazard_sheet: {
      const RoomAnswer& said = in_its_language();
      return hazard_sheet_content(said, *find_stock(said, document.chart.stocks.front()),
                                  document.chart, w);
    }
    case Document::Type::storage_list:
      return storage_list_content(answers, document.chart, w);
    case Document::Type::supply_sheet:
      return supply_content(answers, document, w);
    case Document::Type::dosing_log:
      return dosing_log_content(answers, document, w);
    case Document::Type::printer_check:
      return printer_check_content(answers, document, w);
  }
  return chart_content(answers, document, shown, w);
}

}  // namespace

PageContent page_content(const Loaded& loaded, const RoomAnswer& answers,
                         const Document& document) {
  PageContent out = content_in_its_language(loaded, answers, document);
  auto* sheet = std::get_if<SheetContent>(&out);
  if (sheet != nullptr && document.languages.front() == "en" && has_decimal_commas(loaded))
    ungroup(*sheet);
  return out;
}

void ungroup(SheetContent& sheet) {
  ChartContent& page = sheet.page;
  for (std::string* text : {&page.subtitle, &page.small, &page.foot, &page.match})
    *text = ungrouped(*text);
  for (SheetBlock& block : sheet.blocks) {
    block.heading = ungrouped(block.heading);
    for (std::string& text : block.paragraphs) text = ungrouped(text);
    for (auto& row : block.table.rows) {
      for (std::string& cell : row) cell = ungrouped(cell);
    }
    if (!block.picture) continue;
    for (std::string* text :
         {&block.picture->top, &block.picture->start, &block.picture->end, &block.picture->order})
      *text = ungrouped(*text);
  }
}

bool has_decimal_commas(const Loaded& loaded) {
  return std::any_of(loaded.words.begin(), loaded.words.end(),
                     [](const auto& one) { return one.second.decimal_sign() == ','; });
}

namespace {

bool is_refused(const std::variant<Pages, LayoutProblem>& pages) {
  return std::holds_alternative<LayoutProblem>(pages);
}

// Words stay whole where that finds room; a statement is left off only when hyphens do not help.
std::variant<Pages, LayoutProblem> lay_out_label_content(const Loaded& loaded,
                                                         const LabelContent& content,
                                                         const Document& document) {
  const LabelSheet& sheet = document.label.sheet;
  const LabelStyle& style = label_style_of(loaded, document);
  LabelContent whole = content;
  whole.may_be_shortened = false;
  auto pages = lay_out_label(whole, sheet, style, *loaded.fonts);
  if (!is_refused(pages)) return pages;
  const Hyphens hyphens(*loaded.fonts, document.languages.front());
  pages = lay_out_label(whole, sheet, style, hyphens);
  if (!is_refused(pages) || !content.may_be_shortened) return pages;
  pages = lay_out_label(content, sheet, style, *loaded.fonts);
  return is_refused(pages) ? lay_out_label(content, sheet, style, hyphens) : pages;
}

std::variant<Pages, LayoutProblem> lay_out_page(const Loaded& loaded, const PageContent& content,
                                                const Document& document,
                                                const TextMeasurer& fonts) {
  const PaperSize& paper = document.chart.paper;
  const ChartStyle& style = chart_style_of(loaded, document);
  if (const auto* log = std::get_if<DosingLogContent>(&content))
    return lay_out_dosing_log(*log, paper, style, fonts);
  if (const auto* check = std::get_if<PrinterCheckContent>(&content))
    return lay_out_printer_check(*check, paper, fonts);
  if (const auto* scale = std::get_if<DoseScaleContent>(&content))
    return lay_out_dose_scale(*scale, paper, style, fonts);
  if (const auto* card = std::get_if<MeasuringCardContent>(&content))
    return lay_out_measuring_card(*card, paper, style, fonts);
  if (const auto* sheet = std::get_if<SheetContent>(&content))
    return lay_out_sheet(*sheet, paper, style, fonts);
  const ChartRequest& asked = document.chart;
  const ChartContent& whole = std::get<ChartContent>(content);
  const ChartContent chart = asked.own_rows ? whole : gathered_rows(whole);
  if (asked.own_pages && asked.read_from)
    return lay_out_charts_to_read(chart.title, chart.own_pages, *asked.read_from, asked.papers,
                                  style, fonts);
  if (asked.own_pages) return lay_out_charts(chart.title, chart.own_pages, paper, style, fonts);
  if (asked.read_from)
    return lay_out_chart_to_read(chart, *asked.read_from, asked.papers, style, fonts);
  return lay_out_chart(chart, paper, style, fonts);
}

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_content(const Loaded& loaded, const PageContent& content,
                                                   const Document& document) {
  if (const auto* label = std::get_if<LabelContent>(&content)) {
    auto pages = lay_out_label_content(loaded, *label, document);
    // A roll comes out of another machine.
    const bool roll = document.label.sheet.paper.name == "roll";
    if (!loaded.room.printer || roll || std::holds_alternative<LayoutProblem>(pages)) return pages;
    return corrected(std::get<Pages>(pages), *loaded.room.printer);
  }
  auto pages = lay_out_page(loaded, content, document, *loaded.fonts);
  if (!is_refused(pages)) return pages;
  return lay_out_page(loaded, content, document,
                      Hyphens(*loaded.fonts, document.languages.front()));
}

std::vector<ShownFact> facts_of(const PageContent& content) {
  std::vector<ShownFact> out;
  std::visit(
      [&](const auto& page) {
        for (ShownFigure& one : figures_of(page))
          out.push_back({std::move(one.what), std::move(one.figure)});
      },
      content);
  return out;
}

bool mark_against(const RecordEntry& before, const Words& w, PageContent& content) {
  const auto figures = as_figures(before.shows);
  if (auto* chart = std::get_if<ChartContent>(&content))
    return mark_changes(*chart, figures, print_words(before, w), w);
  if (auto* card = std::get_if<MeasuringCardContent>(&content))
    return mark_changes(*card, figures, print_words(before, w), w);
  return false;
}

std::string type_word(Document::Type type) {
  switch (type) {
    case Document::Type::label:
      return "label";
    case Document::Type::bucket_chart:
      return "bucket chart";
    case Document::Type::tank_chart:
      return "tank chart";
    case Document::Type::dose_scale:
      return "dose scale";
    case Document::Type::measuring_card:
      return "measuring card";
    case Document::Type::mixing_card:
      return "mixing card";
    case Document::Type::hazard_sheet:
      return "hazard sheet";
    case Document::Type::storage_list:
      return "storage list";
    case Document::Type::supply_sheet:
      return "supply sheet";
    case Document::Type::dosing_log:
      return "dosing log";
    case Document::Type::printer_check:
      return "printer check";
  }
  return "";
}

bool tells_doses(const Document& document) {
  switch (document.type) {
    case Document::Type::bucket_chart:
    case Document::Type::tank_chart:
    case Document::Type::dose_scale:
    case Document::Type::measuring_card:
      return true;
    default:
      return false;
  }
}

std::vector<std::string> stocks_of(const Document& document) {
  if (document.type != Document::Type::label) return document.chart.stocks;
  if (document.label.stock.empty()) return {};
  return {document.label.stock};
}

}  // namespace dosewright
