// The words of labels and charts.
#include <algorithm>
#include <cctype>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

std::string basis_words(const DoseRule& rule) {
  return rule.basis == WaterBasis::new_water ? "of new water" : "in the vessel";
}

std::string column_words(const DoseRule& rule) {
  return rule.basis == WaterBasis::new_water ? "for new water" : "for all the water in the vessel";
}

CodeContent code_of(const StockAnswer& stock) { return {stock.code.letters, stock.code.strip}; }

void add_hazards(const HazardBlock& block, LabelContent& out) {
  out.signal = block.signal;
  out.pictograms = block.pictograms;
  switch (block.assessment) {
    case Hazards::Assessment::not_assessed:
      out.signal = "Hazards not assessed";
      out.hazard_lines = {"Nobody has worked out what this mixture can do. Treat it as harmful."};
      out.precautions =
          "Wear gloves and eye protection. Read the suppliers' safety data sheets before use.";
      return;
    case Hazards::Assessment::not_classified:
      out.hazard_lines = {"No hazard statement is called for, according to " + block.basis + "."};
      break;
    case Hazards::Assessment::classified:
      out.hazard_lines = block.hazards;
      break;
  }
  for (const std::string& line : block.supplements) out.hazard_lines.push_back(line);
  for (const std::string& line : block.precautions) {
    out.precautions += (out.precautions.empty() ? "" : " ") + line;
  }
}

std::string safety_words(const Room& room, const HazardBlock& block) {
  std::string out = "Not for drinking. Keep out of reach of children. ";
  if (!room.emergency.empty()) out += "In an emergency: " + room.emergency + ". ";
  const bool stated = block.assessment == Hazards::Assessment::classified && !block.basis.empty();
  if (stated) out += "Hazards according to " + block.basis + ". ";
  return out + "Does not replace the supplier's safety data sheet, local rules or a vet.";
}

std::string capitalised(std::string text, bool really = true) {
  if (really && !text.empty())
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

// The ceiling as written, in printing style: "10 mL/L" is said "10 mL per L". What was written in
// another form is said for 10 L, rounded down: a ceiling must not rise in print.
std::string ceiling_words(const DoseRule& rule, MeasureSystem system) {
  const std::string& text = rule.ceiling_text;
  const std::size_t per = text.find(" per ");
  const std::size_t slash = text.find('/');
  const bool in_words = per != std::string::npos;
  if (in_words || slash != std::string::npos) {
    const std::string above = trimmed(text.substr(0, in_words ? per : slash));
    std::string below = trimmed(text.substr(in_words ? per + 5 : slash + 1));
    const bool bare =
        !below.empty() && std::isdigit(static_cast<unsigned char>(below.front())) == 0;
    const auto dose = volume_as_written(above, system);
    const auto water = volume_as_written(bare ? "1 " + below : below, system);
    if (dose && water) {
      return dose->figure + ' ' + dose->unit + " per " + (bare ? "" : water->figure + ' ') +
             water->unit;
    }
  }
  const double for_ten = in_millilitres_per_litre(*rule.ceiling) * 10;
  return figure(std::floor(for_ten * 100 + 1e-9) / 100, 2) + " mL per 10 L";
}

// The rule's own note, and its ceiling in the user's words.
std::string dose_remarks(const StockAnswer& stock, MeasureSystem system) {
  const DoseRule& rule = stock.stock->dose;
  std::string out = rule.note;
  if (!rule.ceiling) return out;
  if (!out.empty()) out += "; ";
  return out + "never more than " + ceiling_words(rule, system);
}

void add_dose(const LabelAnswer& label, const MeasureSystem system, LabelContent& out) {
  const DoseRule& rule = label.stock->stock->dose;
  const Amount water = water_as_written(label.water_text, label.dose.water, system);
  if (!label.dose.measured.measured) {
    out.treats = "No dose for " + water.figure + ' ' + water.unit + " can be measured";
    out.note = why_not(label.dose.measured);
    return;
  }
  const Measured& measured = *label.dose.measured.measured;
  const Amount dose = dose_amount(measured);
  out.dose = dose.figure + ' ' + dose.unit;
  out.treats = "treats " + water.figure + ' ' + water.unit + ' ' + basis_words(rule);
  const std::string how = how_to_measure(measured) + ", " + off_by_text(measured.off_by);
  out.note = dose_remarks(*label.stock, system);
  out.note += (out.note.empty() ? "" : ". ") + capitalised(how, !out.note.empty());
}

CellContent cell_content(const DoseAnswer& dose) {
  CellContent cell;
  if (!dose.measured.measured) {
    cell.how = why_not(dose.measured);
    return cell;
  }
  const Measured& measured = *dose.measured.measured;
  cell.dose = dose_amount(measured);
  cell.how = how_to_measure(measured);
  cell.off_by = off_by_text(measured.off_by);
  // A picture of the last of several fills would be taken for the whole dose.
  const Pour& last = measured.pours.back();
  if (measured.pours.size() > 1 || last.count > 1) return cell;
  ToolPicture picture;
  picture.kind = last.tool->kind;
  for (const Volume mark : last.tool->marks) {
    picture.marks.push_back({mark / last.tool->holds,
                             static_cast<int>(std::lround(mark / last.tool->step)),
                             significant_figure(in_millilitres(mark), 3)});
  }
  picture.fill = last.to / last.tool->holds;
  picture.fill_text = volume_text(last.to);
  cell.pictures.push_back(std::move(picture));
  return cell;
}

std::string foot_words(const Room& room, const ChartRequest& chart) {
  std::string out = room.name;
  if (!chart.place.empty()) out += ", " + chart.place;
  if (!chart.revision.empty()) out += " · revision " + chart.revision;
  if (chart.revised) out += " of " + date_text(*chart.revised);
  if (!chart.replaces.empty()) out += ", replaces revision " + chart.replaces;
  return out;
}

std::string rounding_words(const DoseRule& rule) {
  if (rule.rounding == Rounding::never_under) return "Rounded up to a mark. ";
  if (rule.rounding == Rounding::never_over) return "Rounded down to a mark. ";
  return "Rounded to a mark, at most " + percent_text(rule.tolerance) + " away. ";
}

// A share as a whole percentage, rounded up: a bound must not shrink in print.
std::string percent_up(Share part) {
  return figure(std::ceil(as_ratio(part) * 100 - 1e-9), 0) + " %";
}

// What the tools can be off by in the worst row, for one stock.
Share worst_tool_share(const ChartAnswer& answer, const StockAnswer* stock) {
  Share worst;
  for (const auto& row : answer.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const bool counts = answer.stocks.size() == 1 || answer.stocks[i] == stock;
      if (counts && row[i].measured.measured) worst = std::max(worst, tool_share(row[i]));
    }
  }
  return worst;
}

std::string stock_words(const ChartAnswer& answer, const StockAnswer& stock, MeasureSystem system) {
  std::string said = answer.stocks.size() > 1 ? stock.stock->name + ": " : "";
  const std::string remarks = dose_remarks(stock, system);
  if (!remarks.empty()) said += (said.empty() ? capitalised(remarks) : remarks) + ". ";
  said += rounding_words(stock.stock->dose);
  said += "Beyond that, tools can be off by " + percent_up(worst_tool_share(answer, &stock)) +
          " of a dose. ";
  const Share strength = stock.mixture.strength_bound;
  if (as_ratio(strength) > 0.005)
    said += "The strength can be off by " + percent_up(strength) + " as well. ";
  return said;
}

std::string small_words(const ChartAnswer& answer, MeasureSystem system) {
  std::string out;
  for (const StockAnswer* stock : answer.stocks) out += stock_words(answer, *stock, system);
  return out + "Does not replace the safety data sheet, local rules or a vet.";
}

std::string match_words(const std::vector<const StockAnswer*>& stocks) {
  if (stocks.size() > 1) {
    return "Only when the bottle shows the code above its column. Lay the bottle down, its strip's "
           "top to the "
           "left, and hold it against the column's: cell for cell the same.";
  }
  return "Only when the bottle shows " + stocks.front()->code.letters +
         ". Hold the bottle's strip against this one: cell for cell the same.";
}

void add_bucket_columns(const ChartAnswer& answer, ChartContent& out) {
  for (const StockAnswer* stock : answer.stocks) {
    ColumnContent column{stock->stock->name, column_words(stock->stock->dose), std::nullopt};
    if (answer.stocks.size() > 1 && !stock->stock->dose.note.empty())
      column.below += "; " + stock->stock->dose.note;
    if (answer.stocks.size() > 1) column.code = code_of(*stock);
    out.columns.push_back(std::move(column));
  }
}

void add_bucket_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                     ChartContent& out) {
  for (std::size_t i = 0; i < chart.buckets.size(); ++i) {
    const BucketRow& bucket = chart.buckets[i];
    RowContent row;
    row.name = bucket.name;
    row.water = water_as_written(bucket.text, bucket.water, room.measures);
    for (const DoseAnswer& dose : answer.rows[i]) row.cells.push_back(cell_content(dose));
    out.rows.push_back(std::move(row));
  }
}

void add_tank_rows(const Room& room, const ChartRequest& chart, const ChartAnswer& answer,
                   ChartContent& out) {
  const bool whole = answer.stocks.front()->stock->dose.basis == WaterBasis::whole_vessel;
  for (const Share change : chart.changes) {
    out.columns.push_back(
        {whole ? "whole tank" : "change " + percent_text(change), "", std::nullopt});
  }
  for (std::size_t i = 0; i < chart.vessels.size(); ++i) {
    const Vessel& vessel = *find(room.vessels, chart.vessels[i]);
    RowContent row;
    row.name = vessel.name;
    row.water = water_as_written(vessel.as_given, vessel.water, room.measures);
    for (std::size_t j = 0; j < chart.changes.size(); ++j) {
      CellContent cell = cell_content(answer.rows[i][j]);
      const bool usual = vessel.usual_change && std::abs(as_ratio(*vessel.usual_change) -
                                                         as_ratio(chart.changes[j])) < 1e-9;
      cell.strong = whole || usual || !vessel.usual_change;
      row.cells.push_back(std::move(cell));
    }
    out.rows.push_back(std::move(row));
  }
}

}  // namespace

LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request) {
  const Room& room = *answers.room;
  const LabelAnswer label = answer_label(answers, request);
  const Stock& stock = *label.stock->stock;
  LabelContent out;
  out.name = stock.name;
  out.contents = contents_text(room, label.stock->mixture);
  out.code = code_of(*label.stock);
  add_dose(label, room.measures, out);
  out.fields = {{"mixed", request.mixed ? date_text(*request.mixed) : ""},
                {"use by", label.use_by ? date_text(*label.use_by) : ""},
                {"batch", request.batch},
                {"by", request.by},
                {"contents", volume_text(label.filled.makes)}};
  add_hazards(label.stock->hazards, out);
  if (!stock.never_mix_with.empty()) {
    out.warning_lines.push_back("Never mix with " + either(stock.never_mix_with) + '.');
  }
  if (label.container->held_food) {
    out.warning_lines.emplace_back("This bottle once held food or drink. Do not drink from it.");
  }
  if (room.emergency.empty()) out.fields.push_back({"in an emergency call", ""});
  out.safety = safety_words(room, label.stock->hazards);
  out.capacity = label.container->holds;
  return out;
}

ChartContent chart_content(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  const ChartAnswer answer = answer_chart(answers, document);
  ChartContent out;
  const Stock& first = *answer.stocks.front()->stock;
  if (answer.stocks.size() == 1) out.code = code_of(*answer.stocks.front());
  if (document.type == Document::Type::bucket_chart) {
    out.title = chart.title;
    out.subtitle = answer.stocks.size() == 1 ? first.name + " · " + column_words(first.dose) : "";
    out.row_caption = "bucket";
    add_bucket_columns(answer, out);
    add_bucket_rows(room, chart, answer, out);
  } else {
    out.title = chart.title.empty() ? first.name : chart.title;
    out.subtitle =
        (chart.title.empty() ? "Dose " : first.name + " · dose ") +
        std::string(first.dose.basis == WaterBasis::new_water ? "for the new water of a change"
                                                              : "for all the water in the tank");
    out.row_caption = "tank";
    add_tank_rows(room, chart, answer, out);
  }
  out.match = match_words(answer.stocks);
  out.small = small_words(answer, room.measures);
  const bool mixed_weights =
      std::any_of(out.rows.begin(), out.rows.end(), [](const RowContent& row) {
        return std::any_of(row.cells.begin(), row.cells.end(),
                           [](const CellContent& c) { return !c.strong; });
      });
  if (mixed_weights) out.small = "Heavy figures: the tank's usual change. " + out.small;
  out.foot = foot_words(room, chart);
  return out;
}

}  // namespace dosewright
