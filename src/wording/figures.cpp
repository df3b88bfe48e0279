// What pages show in figures, and what moved between two prints of one.
#include <algorithm>
#include <optional>

#include "dosewright/base/text.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

std::string amount_text(const Amount& amount) {
  return amount.figure.empty() ? "" : amount.figure + ' ' + amount.unit;
}

std::string cell_text(const CellContent& cell) {
  std::string dose = amount_text(cell.dose);
  if (!dose.empty()) return dose;
  return cell.instead.empty() ? cell.how : cell.instead;
}

std::string named(const std::string& name, const Amount& water) {
  return (name.empty() ? "" : name + ' ') + amount_text(water);
}

std::string cell_name(const ChartContent& chart, const RowContent& row, std::size_t column) {
  return named(row.name, row.water) + (chart.columns.size() > 1 || chart.is_own_page
                                           ? ", " + chart.columns[column].heading
                                           : std::string());
}

// The first cell that says something, and all that stand behind it.
ShownFigure row_figure(const SheetTable& table, const std::vector<std::string>& cells) {
  if (table.large && cells.size() > 2) return {cells[2], cells[1]};
  ShownFigure out;
  for (const std::string& cell : cells) {
    if (cell.empty()) continue;
    if (out.what.empty()) {
      out.what = cell;
    } else {
      out.figure += (out.figure.empty() ? "" : "; ") + cell;
    }
  }
  return out;
}

std::optional<std::string> figure_in(const std::vector<ShownFigure>& figures,
                                     const std::string& what) {
  for (const ShownFigure& one : figures) {
    if (one.what == what) return one.figure;
  }
  return std::nullopt;
}

// Whether the cell's figure is not the one before; then it says so.
bool mark_cell(CellContent& cell, const std::string& name, const std::vector<ShownFigure>& before,
               const Words& w) {
  const auto was = figure_in(before, name);
  if (was && *was == cell_text(cell)) return false;
  cell.how += ' ' + (was ? w.say("(was {1})", {*was}) : w.say("(new)"));
  return true;
}

}  // namespace

std::vector<ShownFigure> figures_of(const LabelContent& label) {
  std::vector<ShownFigure> out = {{"contents", label.contents}};
  if (!label.treats.empty()) out.push_back({label.treats, label.dose});
  std::string hazards = label.signal;
  for (const std::string& line : label.hazard_lines) hazards += (hazards.empty() ? "" : " ") + line;
  out.push_back({"hazards", hazards});
  return out;
}

std::vector<ShownFigure> figures_of(const ChartContent& chart) {
  std::vector<ShownFigure> out;
  for (const ChartContent& part : chart.own_pages) {
    const auto figures = figures_of(part);
    out.insert(out.end(), figures.begin(), figures.end());
  }
  for (const RowContent& row : chart.rows) {
    for (std::size_t i = 0; i < row.cells.size() && i < chart.columns.size(); ++i)
      out.push_back({cell_name(chart, row, i), cell_text(row.cells[i])});
  }
  return out;
}

std::vector<ShownFigure> figures_of(const MeasuringCardContent& card) {
  std::vector<ShownFigure> out;
  for (const MeasurePanel& panel : card.panels)
    out.push_back({named(panel.name, panel.water), cell_text(panel.cell)});
  return out;
}

std::vector<ShownFigure> figures_of(const DoseScaleContent& scale) {
  std::vector<ShownFigure> out;
  for (std::size_t i = 0; i < scale.doses.size(); ++i) {
    for (const ScalePart& part : scale.doses[i].parts) {
      if (part.ticks.empty()) continue;
      out.push_back({scale.page.columns[i].heading + ", " + part.words,
                     part.ticks.front().figure + " to " + part.ticks.back().figure + ' ' +
                         scale.doses[i].unit});
    }
  }
  return out;
}

std::vector<ShownFigure> figures_of(const SheetContent& sheet) {
  std::vector<ShownFigure> out;
  for (const SheetBlock& block : sheet.blocks) {
    for (const auto& row : block.table.rows) out.push_back(row_figure(block.table, row));
    // Words have no figure of their own: they are told by their heading, as they stand.
    std::string words;
    for (const std::string& paragraph : block.paragraphs)
      words += (words.empty() ? "" : " ") + paragraph;
    if (!words.empty()) out.push_back({block.heading.empty() ? "its words" : block.heading, words});
  }
  return out;
}

std::vector<ShownFigure> figures_of(const DosingLogContent& /*log*/) { return {}; }
std::vector<ShownFigure> figures_of(const PrinterCheckContent& /*page*/) { return {}; }

bool mark_changes(ChartContent& chart, const std::vector<ShownFigure>& before,
                  const std::string& against, const Words& w) {
  if (before.empty()) return false;
  bool any = false;
  for (ChartContent& part : chart.own_pages) any = mark_changes(part, before, against, w) || any;
  if (!chart.own_pages.empty()) return any;
  for (RowContent& row : chart.rows) {
    for (std::size_t i = 0; i < row.cells.size() && i < chart.columns.size(); ++i)
      row.changed = mark_cell(row.cells[i], cell_name(chart, row, i), before, w) || row.changed;
    any = any || row.changed;
  }
  if (any)
    chart.small = w.say("A bar at the right: changed. This page replaces {1}.", {against}) + ' ' +
                  chart.small;
  return any;
}

bool mark_changes(MeasuringCardContent& card, const std::vector<ShownFigure>& before,
                  const std::string& against, const Words& w) {
  if (before.empty()) return false;
  bool any = false;
  for (MeasurePanel& panel : card.panels)
    any = mark_cell(panel.cell, named(panel.name, panel.water), before, w) || any;
  if (any) card.page.small = w.say("This page replaces {1}.", {against}) + ' ' + card.page.small;
  return any;
}

}  // namespace dosewright
