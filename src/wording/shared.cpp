#include "shared.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// A mass in printing style, when that says the same mass.
std::string mass_as_written(const std::string& text) {
  const auto mass = parse_mass(text);
  const auto* found = std::get_if<Mass>(&mass);
  if (found == nullptr) return "";
  const auto printed = parse_mass(mass_text(*found));
  const auto* again = std::get_if<Mass>(&printed);
  const bool same =
      again != nullptr && std::fabs(in_grams(*again) - in_grams(*found)) <= 1e-9 * in_grams(*found);
  return same ? mass_text(*found) : "";
}

// A ceiling or floor as written, in printing style: "10 mL/L" is said "10 mL per L". What was
// written in another form is said for 10 L, a ceiling rounded down, a floor up.
std::string limit_words(const DoseRate& limit, const std::string& text, bool up,
                        MeasureSystem system) {
  const std::size_t per = text.find(" per ");
  const std::size_t slash = text.find('/');
  const bool in_words = per != std::string::npos;
  if (in_words || slash != std::string::npos) {
    const std::string above = trimmed(text.substr(0, in_words ? per : slash));
    std::string below = trimmed(text.substr(in_words ? per + 5 : slash + 1));
    const bool bare =
        !below.empty() && std::isdigit(static_cast<unsigned char>(below.front())) == 0;
    const auto water = volume_as_written(bare ? "1 " + below : below, system);
    std::string dose;
    if (const auto volume = volume_as_written(above, system))
      dose = volume->figure + ' ' + volume->unit;
    if (dose.empty()) dose = mass_as_written(above);
    if (!dose.empty() && water) {
      return dose + " per " + (bare ? "" : water->figure + ' ') + water->unit;
    }
  }
  // At three figures: it must not fall to nothing either.
  const double for_ten = per_litre(limit) * 10;
  const std::string unit = std::holds_alternative<Concentration>(limit) ? " g" : " mL";
  return significant_figure(rounded_outward(for_ten, 3, up), 3) + unit + " per 10 L";
}

ToolPicture picture_of(const Pour& pour) {
  const Tool& tool = *pour.tool;
  ToolPicture picture;
  picture.kind = tool.kind;
  for (std::size_t i = 0; i < tool.marks.size(); ++i) {
    const Portion mark = tool.marks[i];
    picture.marks.push_back({mark / tool.holds, static_cast<int>(std::lround(mark / tool.step)),
                             significant_figure(mark.stored(), 3)});
    const double gap = i > 0 ? (mark - tool.marks[i - 1]) / tool.step : 1;
    picture.even = picture.even && std::fabs(gap - 1) < 1e-6;
  }
  picture.fill = pour.to / tool.holds;
  picture.fill_text = fill_text(pour);
  picture.count = pour.count;
  return picture;
}

// What a target stands for and comes to, so that a wrong one is seen, then the user's own words.
std::string basis_and_note(const DoseRule& rule, bool named) {
  std::string out = rule.basis_text;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) out += (out.empty() ? "" : "; ") + words;
  };
  add(rule.target_text + (named && !rule.target_text.empty() ? " of " + rule.target_name : ""));
  add(rule.note);
  return out;
}

// Limits stand for the whole dose, however many days it is given over.
std::string in_all(const DoseRule& rule) {
  return rule.days > 1 ? " in all " + std::to_string(rule.days) + " days" : "";
}

std::string peak_words(const Peak& peak) {
  std::string out = "towards " + significant_figure(peak.times, 3) + " times it";
  if (peak.comes_to) {
    const double grams = in_grams_per_litre(*peak.comes_to);
    out += grams < 1 ? ", " + significant_figure(grams * 1000, 3) + " mg per L"
                     : ", " + significant_figure(grams, 3) + " g per L";
  }
  return out + ", at changes of " + percent_text(peak.change);
}

// What follows the first dose of a vessel, and where that leads at these changes.
std::string then_words(const StockAnswer& stock, const std::vector<Share>& changes) {
  switch (stock.stock->dose.then) {
    case AfterChange::unstated:
      return "";
    case AfterChange::new_water:
      return "after each change only the part for its new water";
    case AfterChange::again:
      break;
  }
  std::vector<std::string> peaks;
  for (const Share change : changes) {
    if (const auto peak = peak_of(stock, change)) peaks.push_back(peak_words(*peak));
  }
  return "the full dose again after each change: it " +
         (peaks.empty() ? "piles up" : "runs " + all_of(peaks));
}

// The worst case alone, where there is room for one.
std::vector<Share> smallest_change(const StockAnswer& stock) {
  if (stock.changes.empty()) return {};
  return {stock.changes.front()};
}

// The limits stand beside a dose, and for the same water: two figures for two waters get mixed up.
std::string remarks_for(const DoseRule& rule, Volume water, bool named) {
  std::string out = basis_and_note(rule, named);
  const auto add = [&](const std::string& words, Portion limit, bool up) {
    const double figure = rounded_outward(limit.stored(), 3, up);
    out += (out.empty() ? "" : "; ") + words + significant_figure(figure, 3) + ' ' +
           unit_of(limit) + " for it" + in_all(rule);
  };
  if (rule.ceiling) add("never more than ", *rule.ceiling * water, false);
  if (rule.floor) add("never less than ", *rule.floor * water, true);
  return out;
}

}  // namespace

std::string joined_remarks(const std::string& one, const std::string& other) {
  return one + (one.empty() || other.empty() ? "" : "; ") + other;
}

std::string days_words(const DoseRule& rule) {
  return rule.days > 1 ? "each day, " + std::to_string(rule.days) + " days" : "";
}

std::string parts_words(const DoseRule& rule) {
  return rule.days > 1 ? "A figure is one day's part: give it " + days_words(rule) + ". " : "";
}

std::string all_days_words(const DoseRule& rule, Portion part) {
  const Portion all = part * rule.days;
  return significant_figure(all.stored(), 3) + ' ' + unit_of(all) + " in all";
}

std::string basis_words(const DoseRule& rule) {
  return rule.basis == WaterBasis::new_water ? "of new water" : "in the vessel";
}

std::string column_words(const DoseRule& rule) {
  const std::string days = rule.days > 1 ? ", " + days_words(rule) : "";
  return (rule.basis == WaterBasis::new_water ? "for new water"
                                              : "for all the water in the vessel") +
         days;
}

CodeContent code_of(const StockAnswer& stock) { return {stock.code.letters, stock.code.strip}; }

std::string capitalised(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string dose_remarks(const StockAnswer& stock, Volume water, std::optional<Share> change) {
  const auto changes = change ? std::vector<Share>{*change} : smallest_change(stock);
  return joined_remarks(remarks_for(stock.stock->dose, water, true), then_words(stock, changes));
}

std::string label_remarks(const StockAnswer& stock, Volume water) {
  const bool named = stock.mixture.components.size() > 1;
  return joined_remarks(remarks_for(stock.stock->dose, water, named),
                        then_words(stock, smallest_change(stock)));
}

std::string dose_remarks(const StockAnswer& stock, MeasureSystem system,
                         const std::vector<Share>& changes) {
  const DoseRule& rule = stock.stock->dose;
  std::string out = basis_and_note(rule, true);
  const auto add = [&](const std::string& words) { out += (out.empty() ? "" : "; ") + words; };
  if (rule.ceiling)
    add("never more than " + limit_words(*rule.ceiling, rule.ceiling_text, false, system) +
        in_all(rule));
  if (rule.floor)
    add("never less than " + limit_words(*rule.floor, rule.floor_text, true, system) +
        in_all(rule));
  return joined_remarks(out, then_words(stock, changes));
}

CellContent cell_content(const StockAnswer& stock, const DoseAnswer& dose, ErrorShown shown) {
  CellContent cell;
  const std::string days = days_words(stock.stock->dose);
  const std::string daily = days.empty() ? "" : days + ": ";
  cell.off_by = error_text(dose, shown);
  if (dose.measured.dilution) {
    // No figure: the amount of the dilution must not be taken for an amount of the stock.
    cell.instead = "dilute first";
    cell.how = daily + how_to_dilute(*dose.measured.dilution, stock.stock->name);
    if (!cell.off_by.empty()) cell.off_by += " of the stock";
    return cell;
  }
  if (!dose.measured.measured) {
    cell.how = why_not(dose.measured);
    return cell;
  }
  const Measured& measured = *dose.measured.measured;
  cell.dose = dose_amount(measured);
  cell.how = daily + how_to_measure(measured);
  for (const Pour& pour : measured.pours) cell.pictures.push_back(picture_of(pour));
  return cell;
}

std::vector<ColumnContent> stock_columns(const std::vector<const StockAnswer*>& stocks) {
  std::vector<ColumnContent> out;
  for (const StockAnswer* stock : stocks) {
    ColumnContent column{stock->stock->name, column_words(stock->stock->dose), std::nullopt};
    if (stocks.size() > 1 && !stock->stock->dose.note.empty())
      column.below += "; " + stock->stock->dose.note;
    if (stocks.size() > 1) column.code = code_of(*stock);
    out.push_back(std::move(column));
  }
  return out;
}

std::string foot_words(const Room& room, const ChartRequest& chart) {
  std::string out = room.name;
  if (!chart.place.empty()) out += ", " + chart.place;
  if (!chart.revision.empty()) out += " · revision " + chart.revision;
  if (chart.revised) out += " of " + date_text(*chart.revised);
  if (!chart.replaces.empty()) out += ", replaces revision " + chart.replaces;
  return out;
}

std::string dated_words(const ChartRequest& chart) {
  std::string out = chart.revision.empty() ? "" : "revision " + chart.revision;
  if (chart.revised) out += (out.empty() ? "" : " of ") + date_text(*chart.revised);
  return out;
}

std::string vessel_word(const Stock& stock) { return stock.dry ? "tub" : "bottle"; }

void set_code(const StockAnswer& stock, ChartContent& page) {
  page.code = code_of(stock);
  page.code_caption = "match the " + vessel_word(*stock.stock);
}

std::string match_words(const std::vector<const StockAnswer*>& stocks) {
  if (stocks.size() > 1) {
    return "Only when the bottle shows the code above its column. Lay the bottle down, its strip's "
           "top to the left, and hold it against the column's: cell for cell the same.";
  }
  const std::string vessel = vessel_word(*stocks.front()->stock);
  return "Only when the " + vessel + " shows " + stocks.front()->code.letters + ". Hold the " +
         vessel + "'s strip against this one: cell for cell the same.";
}

std::string past_date_words(const std::vector<const StockAnswer*>& stocks) {
  const bool any = std::any_of(stocks.begin(), stocks.end(), [](const StockAnswer* stock) {
    return stock->stock->keeps.has_value();
  });
  return any ? "Past its use-by: discard it by local rules. " : "";
}

bool may_be_corrosive(const HazardAnswer& answer) {
  const auto& parts = answer.mixture.parts;
  const auto& hazards = answer.block.hazards;
  const bool strong = std::any_of(parts.begin(), parts.end(),
                                  [](const HazardPart& part) { return part.acid || part.base; });
  const bool said = std::any_of(hazards.begin(), hazards.end(),
                                [](const PrintedStatement& one) { return one.code == "H314"; });
  return answer.block.assessment == Hazards::Assessment::computed && answer.found.ph_open &&
         strong && !said;
}

std::vector<std::string> unknown_lines(const HazardAnswer& answer) {
  std::vector<std::string> out;
  if (answer.block.assessment != Hazards::Assessment::computed) return out;
  const MixtureClasses& found = answer.found;
  if (!found.unclassified.empty()) {
    out.push_back("Nobody has said what " + all_of(found.unclassified) +
                  " can do. Treat it as harmful.");
    if (!found.unknown.empty()) {
      out.push_back(percent_up(found.unknown.front().part) +
                    " of the mixture consists of ingredients of unknown acute toxicity.");
    }
  }
  // CLP Annex I, 4.1.3.6.1, from memory.
  if (as_ratio(found.unknown_aquatic) > 0) {
    out.push_back("Contains " + percent_up(found.unknown_aquatic) +
                  " of components with unknown hazards to the aquatic environment.");
  }
  if (!found.not_covered.empty())
    out.push_back("Not covered by these rules: " + all_of(found.not_covered) + '.');
  if (may_be_corrosive(answer)) out.emplace_back("Can be corrosive: its pH has not been measured.");
  return out;
}

}  // namespace dosewright
