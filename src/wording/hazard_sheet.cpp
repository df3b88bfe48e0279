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
  double all = 0;
  for (const HazardPart& part : answer.mixture.parts) all += as_ratio(part.most);
  if (answer.mixture.solution && all < 1 - 1e-9)
    block.paragraphs.emplace_back("The rest is water.");
  return block;
}

// A test that shows nothing gives no class; a sum below its limit does not give the class it could.
std::string gives_words(const RuleStep& step) {
  return step.met || step.tested ? step.gives : "not " + step.gives;
}

SheetBlock rules(const HazardAnswer& answer) {
  SheetBlock block;
  block.heading = "Every rule that was tried";
  block.table.headings = {"rule", "figures", "result", "limit", "gives"};
  block.table.widths = {0.27, 0.28, 0.13, 0.14, 0.18};
  for (const RuleStep& step : answer.found.steps) {
    block.table.rows.push_back({step.rule + " (" + step.source + ")", step.figures, step_sum(step),
                                step_limit(step), gives_words(step)});
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
  for (const std::string& line : unknown_lines(answer, english())) block.paragraphs.push_back(line);
  const auto& classes = answer.found.classes;
  const auto has = [&](const char* code) {
    return std::any_of(classes.begin(), classes.end(),
                       [&](const HazardClass& c) { return c.statement == code; });
  };
  if (has("H400") && has("H411"))
    block.paragraphs.emplace_back("H400 and H411 together are said as H410.");
  for (const auto* list : {&said.hazards, &said.supplements, &said.precautions}) {
    for (const PrintedStatement& one : *list)
      block.paragraphs.push_back(one.code + "  " + one.text);
  }
  if (said.precautions.empty() && may_be_corrosive(answer))
    block.paragraphs.emplace_back("Wear gloves and eye protection (because the pH is not known).");
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
  if (!answer.at_upper_end.empty()) {
    block.paragraphs.push_back(
        "Where the strength's error of " + percent_up(answer.strength_error) +
        " is on the strong side, it would also be " + all_of(answer.at_upper_end) + '.');
  }
  for (const std::string& one : answer.outdated) block.paragraphs.push_back(capitalised(one) + '.');
  if (!answer.by_default.empty()) {
    block.paragraphs.push_back("Built-in figures were used for " + all_of(answer.by_default) +
                               ": check them against the supplier's safety data sheet.");
  }
  return block;
}

// What stands on a shelf: a stock in its bottle, or a product in its own tub.
struct Stored {
  std::string name;
  std::string product;  // id, of a tub
  const Stock* stock = nullptr;
  std::vector<std::string> families;
  std::vector<std::string> unclassified;
};

std::vector<Stored> all_stored(const RoomAnswer& answers) {
  std::vector<Stored> out;
  for (const StockAnswer& one : answers.stocks) {
    out.push_back({one.stock->name, "", one.stock, one.families, one.hazards.found.unclassified});
  }
  const Room& room = *answers.room;
  for (const Document& document : room.documents) {
    const std::string& id = document.label.product;
    const bool again = std::any_of(out.begin(), out.end(),
                                   [&](const Stored& s) { return !id.empty() && s.product == id; });
    if (id.empty() || again) continue;
    const Product& product = *find(room.products, id);
    out.push_back({capitalised(product.name) + " as bought", id, nullptr,
                   families_of(product, room, answers.sources->knowledge),
                   answer_tub_hazards(room, product, *answers.sources).found.unclassified});
  }
  return out;
}

// A stock made of this very product is no stranger to it.
bool made_of(const Stored& stored, const Stored& tub) {
  if (stored.stock == nullptr || tub.product.empty()) return false;
  return std::any_of(stored.stock->recipe.begin(), stored.stock->recipe.end(),
                     [&](const Ingredient& i) { return i.product == tub.product; });
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
  set_code(stock, out.page, english());
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
  out.page.small = no_replacement(english());
  out.page.foot = foot_words(room, chart, english());
  return out;
}

SheetContent storage_list_content(const RoomAnswer& answers, const ChartRequest& chart) {
  SheetContent out;
  out.page.title = "What may not stand together";
  out.page.subtitle = answers.room->name;
  SheetBlock pairs;
  pairs.table.headings = {"keep this", "away from", "because", "published in"};
  pairs.table.widths = {0.18, 0.18, 0.26, 0.38};
  const std::vector<Stored> stored = all_stored(answers);
  std::vector<bool> paired(stored.size(), false);
  for (std::size_t i = 0; i < stored.size(); ++i) {
    for (std::size_t j = i + 1; j < stored.size(); ++j) {
      if (made_of(stored[i], stored[j])) continue;
      const Incompatibility* why =
          clash_between(stored[i].families, stored[j].families, answers.sources->knowledge);
      if (why == nullptr) continue;
      paired[i] = paired[j] = true;
      pairs.table.rows.push_back({stored[i].name, stored[j].name,
                                  why->because + (why->apart ? "; store apart" : "; never mix"),
                                  why->source});
      pairs.table.strong.push_back(false);
    }
  }
  if (pairs.table.rows.empty())
    pairs.paragraphs.emplace_back("No two things of this room are known to be incompatible.");
  out.blocks.push_back(pairs);
  SheetBlock rest;
  std::vector<std::string> unpaired;
  for (std::size_t i = 0; i < stored.size(); ++i) {
    if (!stored[i].unclassified.empty()) {
      rest.paragraphs.push_back(stored[i].name + ": nobody has said what " +
                                all_of(stored[i].unclassified) +
                                " can do. Keep it apart from everything else.");
    } else if (!paired[i]) {
      unpaired.push_back(stored[i].name);
    }
  }
  if (!unpaired.empty()) {
    rest.paragraphs.push_back(
        "For " + all_of(unpaired) +
        " no published pair is known here. That is no permission to mix: ask the supplier.");
  }
  rest.paragraphs.emplace_back(
      "Only published pairs are listed. Keep everything in its own labelled bottle, upright, "
      "locked, away from food.");
  out.blocks.push_back(rest);
  out.page.match = "Before anything that is not listed stands here, ask its supplier.";
  out.page.small = no_replacement(english());
  out.page.foot = foot_words(*answers.room, chart, english());
  return out;
}

}  // namespace dosewright
