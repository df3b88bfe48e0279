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
                        MeasureSystem system, const Words& w) {
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
    if (!dose.empty() && water)
      return w.quantity(dose + " per " + (bare ? "" : water->figure + ' ') + water->unit);
  }
  // At three figures: it must not fall to nothing either.
  const double for_ten = per_litre(limit) * 10;
  const std::string unit = std::holds_alternative<Concentration>(limit) ? " g" : " mL";
  return w.quantity(significant_figure(rounded_outward(for_ten, 3, up), 3) + unit + " per 10 L");
}

ToolPicture picture_of(const Pour& pour, const Words& w) {
  const Tool& tool = *pour.tool;
  ToolPicture picture;
  picture.kind = tool.kind;
  for (std::size_t i = 0; i < tool.marks.size(); ++i) {
    const Portion mark = tool.marks[i];
    picture.marks.push_back({mark / tool.holds, static_cast<int>(std::lround(mark / tool.step)),
                             w.number(significant_figure(mark.stored(), 3))});
    const double gap = i > 0 ? (mark - tool.marks[i - 1]) / tool.step : 1;
    picture.even = picture.even && std::fabs(gap - 1) < 1e-6;
  }
  picture.fill = pour.to / tool.holds;
  picture.fill_text = fill_text(pour, w);
  picture.count = pour.count;
  if (pour.count > 1) picture.times = w.say("{1} times", {std::to_string(pour.count)});
  return picture;
}

// What a target stands for and comes to, so that a wrong one is seen, then the user's own words.
std::string basis_and_note(const DoseRule& rule, bool named, const Words& w) {
  Phrases brings = rule.target_text;
  if (named && !brings.empty())
    brings = {{brings.front().pattern + " of {2}",
               {brings.front().fills.front(), w.chemical(rule.target_name)}}};
  const std::string target = w.say(brings);
  return joined_remarks(joined_remarks(w.say(rule.basis_text), target, w), rule.note, w);
}

// Limits stand for the whole dose, however many days it is given over.
std::string in_all(const DoseRule& rule, const std::string& limit, const Words& w) {
  return rule.days > 1 ? w.say("{1} in all {2} days", {limit, std::to_string(rule.days)}) : limit;
}

std::string peak_words(const Peak& peak, const Words& w) {
  const std::string times = w.number(significant_figure(peak.times, 3));
  const std::string change = w.quantity(percent_text(peak.change));
  if (!peak.comes_to) return w.say("towards {1} times it, at changes of {2}", {times, change});
  const double grams = in_grams_per_litre(*peak.comes_to);
  const std::string strength = grams < 1 ? significant_figure(grams * 1000, 3) + " mg per L"
                                         : significant_figure(grams, 3) + " g per L";
  return w.say("towards {1} times it, {2}, at changes of {3}",
               {times, w.quantity(strength), change});
}

// What follows the first dose of a vessel, and where that leads at these changes.
std::string then_words(const StockAnswer& stock, const std::vector<Share>& changes,
                       const Words& w) {
  switch (stock.stock->dose.then) {
    case AfterChange::unstated:
      return "";
    case AfterChange::new_water:
      return w.say("after each change only the part for its new water");
    case AfterChange::again:
      break;
  }
  std::vector<std::string> peaks;
  for (const Share change : changes) {
    if (const auto peak = peak_of(stock, change)) peaks.push_back(peak_words(*peak, w));
  }
  if (peaks.empty()) return w.say("the full dose again after each change: it piles up");
  return w.say("the full dose again after each change: it runs {1}", {w.all_of(peaks)});
}

// The worst case alone, where there is room for one.
std::vector<Share> smallest_change(const StockAnswer& stock) {
  if (stock.changes.empty()) return {};
  return {stock.changes.front()};
}

// The limits stand beside a dose, and for the same water: two figures for two waters get mixed up.
// `of`: that water in words, where it does not stand right before.
std::string remarks_for(const DoseRule& rule, Volume water, bool named, const Words& w,
                        const std::string& of = "") {
  std::string out = basis_and_note(rule, named, w);
  const auto add = [&](const char* words, Portion limit, bool up) {
    const std::string amount =
        w.number(significant_figure(rounded_outward(limit.stored(), 3, up), 3)) + ' ' +
        unit_of(limit);
    out = joined_remarks(out, in_all(rule, w.say(words, {amount, of}), w), w);
  };
  const bool said = !of.empty();
  if (rule.ceiling)
    add(said ? "never more than {1} for {2}" : "never more than {1} for that volume",
        *rule.ceiling * water, false);
  if (rule.floor)
    add(said ? "never less than {1} for {2}" : "never less than {1} for that volume",
        *rule.floor * water, true);
  return out;
}

}  // namespace

std::string joined_remarks(const std::string& one, const std::string& other, const Words& w) {
  return one + (one.empty() || other.empty() ? "" : w.say("; ")) + other;
}

std::string days_words(const DoseRule& rule, const Words& w) {
  return rule.days > 1 ? w.say("each day, {1} days", {std::to_string(rule.days)}) : "";
}

std::string parts_words(const DoseRule& rule, const Words& w) {
  if (rule.days <= 1) return "";
  return w.say("A figure is one day's part: give it {1}.", {days_words(rule, w)}) + ' ';
}

std::string all_days_words(const DoseRule& rule, Portion part, const Words& w) {
  const Portion all = part * rule.days;
  return w.say("{1} in all", {w.number(significant_figure(all.stored(), 3)) + ' ' + unit_of(all)});
}

std::string column_words(const DoseRule& rule, const Words& w) {
  const std::string days = rule.days > 1 ? ", " + days_words(rule, w) : "";
  return (rule.basis == WaterBasis::new_water ? w.say("for new water")
                                              : w.say("for all the water in the vessel")) +
         days;
}

std::vector<std::string> with_these(std::vector<std::string> names, const Words& w) {
  for (std::string& name : names) name = w.with_it(name);
  return names;
}

std::string source_words(const std::string& source, const Words& w) {
  const std::string sheet = "the supplier's safety data sheet";
  if (source == sheet) return w.say(sheet);
  const std::string dated = sheet + " of ";
  if (!source.starts_with(dated)) return source;
  const std::string date = source.substr(dated.size());
  if (date.find_first_not_of("0123456789-") != std::string::npos) return source;
  return w.say(dated + "{1}", {date});
}

std::string named_unless_titled(const std::string& title, const Stock& stock, const Words& w) {
  const std::string words = column_words(stock.dose, w);
  return title == stock.name ? capitalised(words) : stock.name + " · " + words;
}

CodeContent code_of(const StockAnswer& stock) { return {stock.code.letters, stock.code.strip}; }

std::string capitalised(std::string text) {
  std::u32string characters = to_characters(text);
  if (characters.empty()) return text;
  characters.front() = capital_of(characters.front());
  return to_utf8(characters);
}

std::string dose_remarks(const StockAnswer& stock, Volume water, std::optional<Share> change,
                         const Words& w) {
  const auto changes = change ? std::vector<Share>{*change} : smallest_change(stock);
  return joined_remarks(remarks_for(stock.stock->dose, water, true, w),
                        then_words(stock, changes, w), w);
}

std::string dose_remarks(const StockAnswer& stock, Volume water, const std::vector<Share>& changes,
                         const Words& w) {
  return joined_remarks(remarks_for(stock.stock->dose, water, true, w),
                        then_words(stock, changes, w), w);
}

std::string label_remarks(const StockAnswer& stock, Volume water, const std::string& of,
                          const Words& w) {
  return joined_remarks(remarks_for(stock.stock->dose, water, true, w, of),
                        then_words(stock, smallest_change(stock), w), w);
}

std::string dose_remarks(const StockAnswer& stock, MeasureSystem system,
                         const std::vector<Share>& changes, const Words& w) {
  const DoseRule& rule = stock.stock->dose;
  std::string out = basis_and_note(rule, true, w);
  const auto add = [&](const char* words, const std::string& limit) {
    out = joined_remarks(out, in_all(rule, w.say(words, {limit}), w), w);
  };
  if (rule.ceiling)
    add("never more than {1}", limit_words(*rule.ceiling, rule.ceiling_text, false, system, w));
  if (rule.floor)
    add("never less than {1}", limit_words(*rule.floor, rule.floor_text, true, system, w));
  return joined_remarks(out, then_words(stock, changes, w), w);
}

namespace {

// A tool's name on one line, with hard spaces: half of it, "violet 10 mL", would be read as a dose.
void keep_together(const std::string& name, std::string& words) {
  constexpr std::size_t kMost = 24;  // what is longer must be broken
  if (name.size() > kMost) return;
  std::string hard;
  for (const char c : name) hard += c == ' ' ? std::string("\xC2\xA0") : std::string(1, c);
  for (std::size_t at = words.find(name); at != std::string::npos;
       at = words.find(name, at + hard.size()))
    words.replace(at, name.size(), hard);
}

}  // namespace

CellContent cell_content(const StockAnswer& stock, const DoseAnswer& dose, ErrorShown shown,
                         const Words& w) {
  CellContent cell;
  const std::string days = days_words(stock.stock->dose, w);
  const std::string daily = days.empty() ? "" : days + w.say(": ");
  cell.off_by = error_text(dose, shown, w);
  if (dose.measured.dilution) {
    // No figure: the amount of the dilution must not be taken for an amount of the stock.
    cell.instead = w.say("dilute first");
    cell.how = daily + how_to_dilute(*dose.measured.dilution, stock.stock->name, w);
    const WorkingDilution& dilution = *dose.measured.dilution;
    for (const Pour& pour : {dilution.take, dilution.give, dilution.make_up})
      keep_together(pour.tool->name, cell.how);
    if (!cell.off_by.empty()) cell.off_by = w.say("{1} of the stock", {cell.off_by});
    return cell;
  }
  if (!dose.measured.measured) {
    cell.how = why_not(dose.measured, w);
    return cell;
  }
  const Measured& measured = *dose.measured.measured;
  cell.dose = dose_amount(measured, w);
  cell.how = daily + how_to_measure(measured, w);
  for (const Pour& pour : measured.pours) cell.pictures.push_back(picture_of(pour, w));
  return cell;
}

FrameWords frame_words(const Words& w) {
  FrameWords out;
  for (std::string* phrase :
       {&out.give, &out.how, &out.no_tool, &out.page_of, &out.true_print, &out.starts, &out.colon})
    *phrase = w.say(*phrase);
  out.decimal_sign = w.decimal_sign();
  return out;
}

std::vector<ColumnContent> stock_columns(const std::vector<const StockAnswer*>& stocks,
                                         const Words& w) {
  std::vector<ColumnContent> out;
  for (const StockAnswer* stock : stocks) {
    ColumnContent column{stock->stock->name, column_words(stock->stock->dose, w), std::nullopt};
    if (stocks.size() > 1 && !stock->stock->dose.note.empty())
      column.below += w.say("; ") + stock->stock->dose.note;
    if (stocks.size() > 1) column.code = code_of(*stock);
    out.push_back(std::move(column));
  }
  return out;
}

std::string dated_words(const ChartRequest& chart, const Words& w) {
  std::string date = chart.revised ? date_text(*chart.revised) : "";
  if (chart.revision.empty()) return date;
  if (date.empty()) return w.say("revision {1}", {chart.revision});
  return w.say("revision {1} of {2}", {chart.revision, date});
}

std::string foot_words(const Room& room, const ChartRequest& chart, const Words& w) {
  std::string out = room.name;
  if (!chart.place.empty()) out += ", " + chart.place;
  const std::string dated = dated_words(chart, w);
  if (!dated.empty()) out += " · " + dated;
  if (!chart.replaces.empty()) out += ", " + w.say("replaces revision {1}", {chart.replaces});
  return out;
}

// The phrase is what a page is called whose description does not say.
std::string title_of(const ChartRequest& chart, const char* phrase, const Words& w) {
  return chart.title.empty() ? w.say(phrase) : chart.title;
}

std::string only_for_words(const ChartRequest& chart, const std::string& subtitle, const Words& w) {
  if (chart.only_for.empty()) return subtitle;
  const std::string only = w.say("Only for {1}", {w.say(chart.only_for)});
  return subtitle.empty() ? only : only + " · " + subtitle;
}

void set_code(const StockAnswer& stock, ChartContent& page, const Words& w) {
  page.code = code_of(stock);
  page.code_caption = stock.stock->dry ? w.say("match the tub") : w.say("match the bottle");
}

std::string match_words(const std::vector<const StockAnswer*>& stocks, const Words& w) {
  if (stocks.size() > 1)
    return w.say(
        "Only when the bottle shows the code above its column. Lay the bottle down, its "
        "strip's top to the left, and hold it against the column's: cell for cell the "
        "same.");
  const std::vector<std::string> code = {stocks.front()->code.letters};
  if (stocks.front()->stock->dry)
    return w.say(
        "Only when the tub shows {1}. Hold the tub's strip against this one: cell for "
        "cell the same.",
        code);
  return w.say(
      "Only when the bottle shows {1}. Hold the bottle's strip against this one: cell for "
      "cell the same.",
      code);
}

std::string no_replacement(const Words& w) {
  return w.say("Does not replace the safety data sheet, local rules or a vet.");
}

std::string past_date_words(const std::vector<const StockAnswer*>& stocks, const Words& w) {
  const bool any = std::any_of(stocks.begin(), stocks.end(), [](const StockAnswer* stock) {
    return stock->stock->keeps.has_value();
  });
  return any ? w.say("Past its use-by: discard it by local rules.") + ' ' : "";
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

std::vector<std::string> suspected_lines(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> out;
  if (!answer.found.may_burn.empty()) out.push_back(w.say("May burn or feed a fire: not tested."));
  if (answer.stronger_states.empty()) return out;
  std::string all;
  for (const PrintedStatement& one : answer.stronger_states)
    all += (all.empty() ? "" : " ") + one.text;
  out.push_back(w.say("Stated of the stronger stock, not worked out for this one: {1}", {all}));
  return out;
}

std::vector<std::string> unknown_lines(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> out;
  if (answer.block.assessment != Hazards::Assessment::computed) return out;
  const MixtureClasses& found = answer.found;
  if (!found.unclassified.empty()) {
    std::vector<std::string> names;
    for (const std::string& name : found.unclassified) names.push_back(w.say({{"{1}", {name}}}));
    out.push_back(
        w.say("Nobody has said what {1} can do. Treat it as harmful.", {w.all_of(names)}));
    if (!found.unknown.empty()) {
      out.push_back(w.say("{1} of the mixture consists of ingredients of unknown acute toxicity.",
                          {percent_up(found.unknown.front().part)}));
    }
  }
  // CLP Annex I, 4.1.3.6.1, from memory.
  if (as_ratio(found.unknown_aquatic) > 0) {
    out.push_back(
        w.say("Contains {1} of components with unknown hazards to the aquatic environment.",
              {percent_up(found.unknown_aquatic)}));
  }
  if (!found.m_open.empty())
    out.push_back(w.say("Can harm water life more than stands here: no M-factor of {1} is known.",
                        {w.all_of(found.m_open)}));
  if (!found.not_covered.empty())
    out.push_back(w.say("Not covered by these rules: {1}.", {w.all_of(found.not_covered)}));
  if (may_be_corrosive(answer))
    out.push_back(w.say("Can be corrosive: its pH has not been measured."));
  for (const Phrase& one : answer.not_counted)
    out.push_back(w.say(one.pattern, {w.say(one.fills[0]), w.chemical(one.fills[1])}));
  const std::vector<std::string> more = suspected_lines(answer, w);
  out.insert(out.end(), more.begin(), more.end());
  return out;
}

}  // namespace dosewright
