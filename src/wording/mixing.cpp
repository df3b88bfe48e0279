// The words of the mixing card, for paper and terminal: how a bottle is filled by its recipe.
#include <algorithm>

#include "dosewright/answer/mixing.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

bool is_of_family(const StockAnswer& stock, const std::string& family) {
  return among(stock.families, family);
}

// "120 g", on its tool's marks where there is one.
std::string amount_words(const MixStep& step) {
  if (step.measured) {
    const Amount amount = dose_amount(*step.measured);
    return amount.figure + ' ' + amount.unit;
  }
  if (const auto* mass = std::get_if<Mass>(&step.amount)) return mass_text(*mass);
  return volume_text(std::get<Volume>(step.amount));
}

std::string how_words(const MixStep& step) {
  if (step.measured) return how_to_measure(*step.measured);
  if (step.scooped) return "level scoops, struck off with a straight edge";
  return std::holds_alternative<Mass>(step.amount) ? "weigh it; no scale here shows it well"
                                                   : "no measure here shows it well";
}

std::string water_words(const MixAnswer& mix) {
  switch (mix.dissolving) {
    case Dissolving::heats:
      return "cold water";
    case Dissolving::cools:
      return "lukewarm water";
    case Dissolving::plain:
      break;
  }
  return "water";
}

// The last step: not so much more water, but up to so much in all.
std::string filling_up_words(const MixAnswer& mix) {
  const std::string all = volume_text(mix.water);
  const std::string first =
      mix.dissolving == Dissolving::heats ? "let it cool; then add water " : "add water ";
  if (!mix.water_measured)
    return first + "until all of it together stands at " + all + "; no measure here shows that";
  const auto& pours = mix.water_measured->pours;
  int fills = 0;
  for (const Pour& pour : pours) fills += pour.count;
  if (fills == 1)
    return first + "until all of it together stands at " + all + " in the " +
           pours.front().tool->name;
  // No measure holds it at once: a mark on the jug, set with the measure, does.
  return first + "up to a mark on the jug at " + all +
         ", set beforehand with plain water: " + how_to_measure(*mix.water_measured);
}

// The code of the stock that this one is mixed from.
std::string code_of_stronger(const MixAnswer& mix) {
  return mix.stronger != nullptr ? mix.stronger->code.letters : "";
}

// Powder goes into water; acid into water, never the other way round (common practice, no source).
SheetBlock steps_block(const MixAnswer& mix) {
  SheetBlock block;
  block.heading = "The work";
  block.table.large = true;
  block.table.headings = {"", "take", "of", "how"};
  block.table.widths = {0.05, 0.3, 0.26, 0.39};
  const bool made_up = mix.stock->stock->water.kind == RecipeWater::Kind::made_up_to;
  const std::string water = water_words(mix);
  int number = 1;
  const auto add = [&](const std::string& amount, const std::string& what, const std::string& how) {
    block.table.rows.push_back({std::to_string(number++), amount, what, how});
    block.table.strong.push_back(false);
  };
  if (made_up && mix.first_water) {
    add(volume_text(*mix.first_water), "or so of " + water,
        "into a jug that holds it all; not into the bottle");
  } else if (!made_up) {
    add(volume_text(mix.water), water,
        mix.water_measured ? how_to_measure(*mix.water_measured) : "by the marks of a jug");
  }
  for (const MixStep& step : mix.steps) {
    add(amount_words(step), step.stronger != nullptr ? step.stronger->name : step.product->name,
        how_words(step) + (step.stronger != nullptr
                               ? "; only from the bottle that shows " + code_of_stronger(mix)
                               : "; stir it in a little at a time"));
  }
  if (made_up) {
    add("up to " + volume_text(mix.water), "water, all together", filling_up_words(mix));
  }
  return block;
}

std::string error_words(const RelativeError& error) {
  return "off by at most " + percent_up(error.worst);
}

SheetBlock strength_block(const Room& room, const MixAnswer& mix) {
  SheetBlock block;
  block.heading = "What it comes to";
  const Stock& stock = *mix.stock->stock;
  block.paragraphs.push_back("Makes " + volume_text(mix.filled.makes) + ": " +
                             strengths_text(room, mix.filled) + " in water.");
  std::string error =
      "Mixed in this amount as described, the strength is " +
      error_words(mix.filled.strength_error) +
      (mix.filled.strength_error.worst > stock.dose.tolerance
           ? ", more than the dose's tolerance of " + percent_text(stock.dose.tolerance) +
                 ": mix more at a time, or measure more finely."
           : ".");
  if (mix.if_scooped) {
    error += " Were the powder scooped level instead of weighed, " + error_words(*mix.if_scooped) +
             (mix.if_scooped->worst > stock.dose.tolerance
                  ? ": more than the dose's tolerance of " + percent_text(stock.dose.tolerance) +
                        ", so weigh it."
                  : ".");
  }
  block.paragraphs.push_back(error);
  block.paragraphs.push_back(capitalised(mix.density.how) + '.');
  for (const SolubilityAnswer& one : mix.solubility) {
    const std::string at = " at " + figure(in_degrees_celsius(one.at), 1) + " °C";
    const std::string known_at = " at " + figure(in_degrees_celsius(one.known_at), 1) + " °C";
    std::string words;
    switch (one.result) {
      case Dissolves::yes:
        words = one.product->name +
                (one.alone ? " stays dissolved" : " by itself stays dissolved") + at +
                ": a litre of water takes up " +
                significant_figure(in_grams_per_litre(*one.soluble), 3) + " g" + known_at +
                (one.alone ? "." : ". Not checked: whether it does beside the others.");
        break;
      case Dissolves::no:
        words = one.product->name + " does not all dissolve" + at + ". Mix it weaker.";
        break;
      case Dissolves::perhaps:
        words = one.product->name + " may not all dissolve" + at + ". Look for crystals.";
        break;
      case Dissolves::unknown:
        words = "Not checked: whether " + one.product->name + " stays dissolved" + at + '.';
        break;
    }
    block.paragraphs.push_back(capitalised(words));
  }
  return block;
}

// "Danger. Causes serious eye damage." of a product as it is bought.
std::string tub_words(const RoomAnswer& answers, const Product& product) {
  const HazardAnswer tub = answer_tub_hazards(*answers.room, product, *answers.sources);
  std::string out = product.name + " as bought: ";
  if (!tub.found.unclassified.empty())
    return out + "nobody has said what it can do; treat it as harmful.";
  const HazardBlock& block = tub.block;
  if (!block.signal_word.empty()) out += block.signal_word + ". ";
  for (const auto* list : {&block.hazards, &block.supplements}) {
    for (const PrintedStatement& one : *list) out += one.text + ' ';
  }
  if (block.hazards.empty() && block.supplements.empty())
    out += "no hazard statement, according to " + block.basis + ". ";
  return trimmed(out);
}

// The same of a stronger stock, by its own label.
std::string stock_words(const StockAnswer& stronger) {
  const HazardBlock& block = stronger.hazards.block;
  std::string out = stronger.stock->name + ": ";
  if (!block.signal_word.empty()) out += block.signal_word + ". ";
  for (const auto* list : {&block.hazards, &block.supplements}) {
    for (const PrintedStatement& one : *list) out += one.text + ' ';
  }
  for (const std::string& line : unknown_lines(stronger.hazards, english())) out += line + ' ';
  return out + "Read its label.";
}

SheetBlock cautions_block(const RoomAnswer& answers, const MixAnswer& mix) {
  SheetBlock block;
  block.heading = "Before you start";
  const StockAnswer& stock = *mix.stock;
  for (const MixStep& step : mix.steps) {
    const std::string words =
        step.stronger != nullptr ? stock_words(*mix.stronger) : tub_words(answers, *step.product);
    if (!among(block.paragraphs, words)) block.paragraphs.push_back(capitalised(words));
  }
  std::string usual = "Gloves and eye protection on, window open, nothing to eat near.";
  const bool powder = std::any_of(mix.steps.begin(), mix.steps.end(), [](const MixStep& step) {
    return step.product != nullptr && step.product->form == Product::Form::powder;
  });
  if (powder) usual += " Powder into water, never water onto powder.";
  if (is_of_family(stock, "acid")) usual += " Acid into water, never water onto acid.";
  if (mix.dissolving == Dissolving::heats)
    usual +=
        " It can heat the water strongly, up to boiling: cold water, a little at a time, never in "
        "a closed bottle.";
  if (is_of_family(stock, "dithionite"))
    usual += " Cool water; keep water away from the tub. Make it fresh, use it the same day.";
  block.paragraphs.push_back(usual);
  std::vector<std::string> never = stock.stock->never_mix_with;
  for (const Clash& clash : stock.clashes) {
    const bool said = std::any_of(never.begin(), never.end(), [&](const std::string& word) {
      return lowered(word) == lowered(clash.name);
    });
    if (!said) never.push_back(clash.name);
  }
  if (!never.empty()) block.paragraphs.push_back("Never together with " + either(never) + '.');
  if (mix.container != nullptr && mix.container->held_food)
    block.paragraphs.emplace_back(
        "The container once held food or drink: take another, or label "
        "it before it is filled.");
  return block;
}

// What a careful person minds before the first gram: it stands above everything else.
SheetBlock mind_block(const RoomAnswer& answers, const MixAnswer& mix) {
  SheetBlock block;
  for (const Diagnostic* one : findings_about(answers, *mix.stock->stock)) {
    // Claims have a table of their own below.
    if (one->path.find(".claims.") != std::string::npos) continue;
    block.paragraphs.push_back(capitalised(one->message) + '.');
  }
  if (!block.paragraphs.empty()) block.heading = "Mind this first";
  return block;
}

// Instead of steps.
SheetBlock refusal(const Quarrel& quarrel) {
  SheetBlock block;
  block.heading = "Do not mix this";
  block.paragraphs.push_back(capitalised(quarrel.one->name) + " and " + quarrel.other->name +
                             " must not meet: " + quarrel.why->because +
                             ". No steps are printed for it.");
  return block;
}

SheetBlock label_block(const MixAnswer& mix) {
  SheetBlock block;
  block.heading = "Then, at once, the label";
  const Stock& stock = *mix.stock->stock;
  std::string words =
      stock.name + ", code " + mix.stock->code.letters + ", mixed: today's date, batch, by whom";
  if (stock.keeps)
    words += ", use by: " + figure(in_days(*stock.keeps), 0) +
             (in_days(*stock.keeps) == 1 ? " day from today" : " days from today");
  block.paragraphs.push_back(
      words +
      ". If you weighed another amount than stands here, this code does "
      "not hold: add powder or water until the amounts agree, or label it by what you weighed.");
  return block;
}

// What the bottle is dosed by: a mixer sees whether it is the one that is wanted.
SheetBlock dose_block(const Room& room, const StockAnswer& stock) {
  SheetBlock block;
  const DoseRule& rule = stock.stock->dose;
  const std::string remarks = dose_remarks(stock, room.measures, stock.changes, english());
  if (remarks.empty() && rule.days == 1) return block;
  block.heading = "How it is dosed";
  const Portion part = stock.rate * litres(100);
  block.paragraphs.push_back(significant_figure(part.stored(), 3) + ' ' + unit_of(part) +
                             " for each 100 L, " + column_words(rule, english()) +
                             (rule.days > 1 ? " (" + all_days_words(rule, part) + ')' : "") +
                             (remarks.empty() ? "" : ": " + remarks) + '.');
  return block;
}

// All statements side by side, when there are any besides the dose.
SheetBlock claims_block(const Room& room, const StockAnswer& stock) {
  SheetBlock block;
  const std::vector<ClaimAnswer> claims = answer_claims(room, stock);
  if (claims.size() < 2) return block;
  const int days = stock.stock->dose.days;
  block.heading = "What else is said of it";
  block.table.headings = {
      "who says it", "in words",
      days > 1 ? "for 100 L, " + std::to_string(days) + " days" : "for 100 L of water",
      "times the dose"};
  block.table.widths = {0.26, 0.34, 0.22, 0.18};
  for (const ClaimAnswer& one : claims) {
    const double for_hundred = per_litre(one.rate) * 100;
    const std::string unit = stock.stock->dry ? " g" : " mL";
    const bool apart = disagree(one, claims.front(), stock.stock->dose.tolerance);
    block.table.rows.push_back({one.name, one.text.empty() ? "as printed" : one.text,
                                significant_figure(for_hundred, 3) + unit,
                                significant_figure(one.factor, 3)});
    block.table.strong.push_back(apart);
  }
  return block;
}

}  // namespace

SheetContent mixing_content(const RoomAnswer& answers, const MixAnswer& mix,
                            const ChartRequest& chart) {
  SheetContent out;
  const Room& room = *answers.room;
  const Stock& stock = *mix.stock->stock;
  out.page.title = "Mixing " + stock.name;
  out.page.subtitle = volume_text(mix.filled.makes) +
                      (mix.container != nullptr ? " in the " + mix.container->name : std::string());
  set_code(*mix.stock, out.page, english());
  out.page.code_caption = "goes on the label";
  std::vector<SheetBlock> blocks;
  if (mix.stock->quarrel) {
    out.page.subtitle = "not to be mixed";
    out.page.code.reset();
    out.page.code_caption.clear();
    blocks = {refusal(*mix.stock->quarrel), mind_block(answers, mix)};
  } else {
    blocks = {mind_block(answers, mix), cautions_block(answers, mix)};
    blocks.push_back(steps_block(mix));
    blocks.push_back(label_block(mix));
    blocks.push_back(strength_block(room, mix));
    blocks.push_back(dose_block(room, *mix.stock));
    blocks.push_back(claims_block(room, *mix.stock));
  }
  for (SheetBlock& block : blocks) {
    if (!block.paragraphs.empty() || !block.table.rows.empty())
      out.blocks.push_back(std::move(block));
  }
  out.page.match = mix.stock->quarrel ? "Do not mix this: take one of the two out of the recipe."
                                      : "Label the bottle before it leaves the bench.";
  out.page.small = no_replacement(english());
  out.page.foot = foot_words(room, chart, english());
  return out;
}

}  // namespace dosewright
