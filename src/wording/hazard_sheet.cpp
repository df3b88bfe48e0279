// The words that explain a label, and the list of what may not stand together.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string percent_range(const HazardPart& part) {
  const std::string most = significant_figure(as_ratio(part.most) * 100, 3) + " %";
  const std::string least = significant_figure(as_ratio(part.least) * 100, 3);
  return least + " %" == most ? most : least + " to " + most;
}

std::string state_words(const HazardPart& part) {
  switch (part.known->state) {
    case Classification::State::unknown:
      return "unknown: nobody has said";
    case Classification::State::not_classified:
      return part.known->source.empty() ? "none" : "not classified (" + part.known->source + ")";
    case Classification::State::classified:
      break;
  }
  std::vector<std::string> classes;
  for (const HazardClass& one : part.known->classes) {
    const bool supplement = one.endpoint == Endpoint::supplement;
    classes.push_back(supplement ? one.name : one.name + ' ' + one.statement);
  }
  std::string out;
  for (const std::string& one : classes) out += (out.empty() ? "" : "; ") + one;
  return out + " (" + part.known->source + ")";
}

SheetBlock ingredients(const HazardAnswer& answer) {
  SheetBlock block;
  block.heading = "What is in it, by weight";
  if (!answer.density.empty()) block.paragraphs.push_back(capitalised(answer.density) + '.');
  block.table.headings = {"ingredient", "share", "classes (where they were read)"};
  block.table.widths = {0.27, 0.17, 0.56};
  for (const HazardPart& part : answer.mixture.parts) {
    const auto& defaults = answer.by_default;
    const bool built_in = among(defaults, part.name);
    block.table.rows.push_back({part.name + (built_in ? " (built-in figures)" : ""),
                                percent_range(part), state_words(part)});
    block.table.strong.push_back(false);
  }
  for (const std::string& name : answer.unknown_weight)
    block.paragraphs.push_back("The share by weight of " + name + " is not known.");
  return block;
}

SheetBlock rules(const HazardAnswer& answer) {
  SheetBlock block;
  block.heading = "Every rule that was tried";
  block.table.headings = {"rule", "figures", "result", "limit", "gives"};
  block.table.widths = {0.27, 0.28, 0.13, 0.14, 0.18};
  for (const RuleStep& step : answer.found.steps) {
    block.table.rows.push_back({step.rule + " (" + step.source + ")", step.figures, step_sum(step),
                                step_limit(step), (step.met ? "" : "not ") + step.gives});
    block.table.strong.push_back(step.met);
  }
  if (block.table.rows.empty()) block.paragraphs.emplace_back("No rule had anything to add up.");
  std::vector<std::string> without;
  for (const Endpoint endpoint : answer.found.without) without.push_back(endpoint_words(endpoint));
  if (!without.empty())
    block.paragraphs.push_back("No known ingredient is classified for " + all_of(without) + '.');
  return block;
}

SheetBlock label_lines(const HazardAnswer& answer) {
  SheetBlock block;
  const HazardBlock& said = answer.block;
  block.heading = "What the label says";
  if (said.assessment != Hazards::Assessment::computed) {
    block.paragraphs.push_back(
        "The label follows the description, which goes before the calculation: " + said.basis +
        '.');
  }
  const bool silent = said.hazards.empty() && said.supplements.empty();
  std::string signs = said.signal.empty() ? "No signal word" : said.signal_word;
  signs += said.pictograms.empty() ? "; no pictogram." : "; " + all_of(said.pictograms) + '.';
  block.paragraphs.push_back(signs);
  if (silent) block.paragraphs.emplace_back("No hazard statement.");
  for (const auto* list : {&said.hazards, &said.supplements, &said.precautions}) {
    for (const PrintedStatement& one : *list)
      block.paragraphs.push_back(one.code + "  " + one.text);
  }
  return block;
}

SheetBlock open_points(const HazardAnswer& answer) {
  SheetBlock block;
  block.heading = "Not evaluated, and assumed";
  const MixtureClasses& found = answer.found;
  for (const std::string& name : found.unclassified)
    block.paragraphs.push_back("Not evaluated: " + name + ", of which no classification is known.");
  for (const std::string& one : found.not_evaluated)
    block.paragraphs.push_back("Not evaluated: " + one + '.');
  for (const std::string& one : found.notes) block.paragraphs.push_back(capitalised(one) + '.');
  for (const std::string& one : answer.outdated) block.paragraphs.push_back(capitalised(one) + '.');
  if (!answer.by_default.empty()) {
    block.paragraphs.push_back("Built-in figures were used for " + all_of(answer.by_default) +
                               ": check them against the supplier's safety data sheet.");
  }
  return block;
}

bool stands_apart(const StockAnswer& one, const StockAnswer& other) {
  return std::any_of(one.clashes.begin(), one.clashes.end(),
                     [&](const Clash& clash) { return clash.id == other.stock->id; });
}

}  // namespace

std::string step_sum(const RuleStep& step) {
  if (step.tested) return "";
  if (step.unit == "pH") return "pH " + figure(step.sum, 2);
  return significant_figure(step.sum, 3) + (step.unit.empty() ? "" : ' ' + step.unit);
}

std::string step_limit(const RuleStep& step) {
  if (step.tested) return "";
  const std::string words = step.at_most ? "at most " : "from ";
  return words + significant_figure(step.limit, 4) +
         (step.unit.empty() || step.unit == "pH" ? "" : ' ' + step.unit);
}

SheetContent hazard_sheet_content(const RoomAnswer& answers, const StockAnswer& stock,
                                  const ChartRequest& chart) {
  SheetContent out;
  const Room& room = *answers.room;
  out.page.title = "Why this label: " + stock.stock->name;
  out.page.subtitle = contents_text(room, stock.mixture);
  set_code(stock, out.page);
  SheetBlock basis;
  basis.paragraphs.push_back("Rule book: " + rule_book_title(room.hazard_rules.book) +
                             ". Skin and eyes: " +
                             (room.hazard_rules.conservative ? "non-additive (conservative) limits."
                                                             : "additive (standard) limits."));
  out.blocks.push_back(basis);
  out.blocks.push_back(label_lines(stock.hazards));
  out.blocks.push_back(ingredients(stock.hazards));
  out.blocks.push_back(rules(stock.hazards));
  out.blocks.push_back(open_points(stock.hazards));
  out.page.match = "Keep it with the suppliers' safety data sheets.";
  out.page.small = kNoReplacement;
  out.page.foot = foot_words(room, chart);
  return out;
}

SheetContent storage_list_content(const RoomAnswer& answers, const ChartRequest& chart) {
  SheetContent out;
  out.page.title = "What may not stand together";
  out.page.subtitle = answers.room->name;
  SheetBlock pairs;
  pairs.table.headings = {"keep this", "away from", "because", "published in"};
  pairs.table.widths = {0.18, 0.18, 0.26, 0.38};
  for (std::size_t i = 0; i < answers.stocks.size(); ++i) {
    for (const Clash& clash : answers.stocks[i].clashes) {
      const StockAnswer& other = *find_stock(answers, clash.id);
      if (&other < &answers.stocks[i]) continue;  // each pair once
      pairs.table.rows.push_back(
          {answers.stocks[i].stock->name, clash.name,
           clash.why->because + (clash.why->apart ? "; store apart" : "; never mix"),
           clash.why->source});
      pairs.table.strong.push_back(false);
    }
  }
  if (pairs.table.rows.empty())
    pairs.paragraphs.emplace_back("No two stocks of this room are known to be incompatible.");
  out.blocks.push_back(pairs);
  SheetBlock rest;
  std::vector<std::string> unknown;
  for (const StockAnswer& stock : answers.stocks) {
    const bool alone =
        std::none_of(answers.stocks.begin(), answers.stocks.end(),
                     [&](const StockAnswer& other) { return stands_apart(stock, other); });
    if (alone) unknown.push_back(stock.stock->name);
  }
  if (!unknown.empty()) {
    rest.paragraphs.push_back(
        "For " + all_of(unknown) +
        " no published pair is known here. That is no permission to mix: ask the supplier.");
  }
  rest.paragraphs.emplace_back(
      "Only published pairs are listed. Keep everything in its own labelled bottle, upright, "
      "locked, away from food.");
  out.blocks.push_back(rest);
  out.page.match = "Before anything that is not listed stands here, ask its supplier.";
  out.page.small = kNoReplacement;
  out.page.foot = foot_words(*answers.room, chart);
  return out;
}

}  // namespace dosewright
