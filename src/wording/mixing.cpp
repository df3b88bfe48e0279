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
std::string amount_words(const MixStep& step, const Words& w) {
  if (step.measured) {
    const Amount amount = dose_amount(*step.measured, w);
    return amount.figure + ' ' + amount.unit;
  }
  if (const auto* mass = std::get_if<Mass>(&step.amount)) return w.quantity(mass_text(*mass));
  return w.quantity(volume_text(std::get<Volume>(step.amount)));
}

std::string how_words(const MixStep& step, const Words& w) {
  if (step.measured) return how_to_measure(*step.measured, w);
  if (step.scooped) return w.say("level scoops, struck off with a straight edge");
  return std::holds_alternative<Mass>(step.amount) ? w.say("weigh it; no scale here shows it well")
                                                   : w.say("no measure here shows it well");
}

std::string water_words(const MixAnswer& mix, const Words& w) {
  switch (mix.dissolving) {
    case Dissolving::heats:
      return w.say("cold water");
    case Dissolving::cools:
      return w.say("lukewarm water");
    case Dissolving::plain:
      break;
  }
  return w.say("water");
}

std::string adding_water_words(const MixAnswer& mix, const Words& w) {
  const std::string all = w.quantity(volume_text(mix.water));
  if (!mix.water_measured)
    return w.say("add water until all of it together stands at {1}; no measure here shows that",
                 {all});
  const auto& pours = mix.water_measured->pours;
  int fills = 0;
  for (const Pour& pour : pours) fills += pour.count;
  if (fills == 1)
    return w.say("add water until all of it together stands at {1} in the {2}",
                 {all, pours.front().tool->name});
  // No measure holds it at once: a mark on the jug, set with the measure, does.
  return w.say("add water up to a mark on the jug at {1}, set beforehand with plain water: {2}",
               {all, how_to_measure(*mix.water_measured, w)});
}

// The last step: not so much more water, but up to so much in all.
std::string filling_up_words(const MixAnswer& mix, const Words& w) {
  const std::string words = adding_water_words(mix, w);
  return mix.dissolving == Dissolving::heats ? w.say("let it cool; then {1}", {words}) : words;
}

// The code of the stock that this one is mixed from.
std::string code_of_stronger(const MixAnswer& mix) {
  return mix.stronger != nullptr ? mix.stronger->code.letters : "";
}

// Powder goes into water; acid into water, never the other way round (common practice, no source).
SheetBlock steps_block(const MixAnswer& mix, const Words& w) {
  SheetBlock block;
  block.heading = w.say("The work");
  block.table.large = true;
  block.table.headings = {"", w.say("take"), w.say("of"), w.say("how")};
  block.table.widths = {0.07, 0.28, 0.26, 0.39};
  const bool made_up = mix.stock->stock->water.kind == RecipeWater::Kind::made_up_to;
  const std::string water = water_words(mix, w);
  int number = 1;
  const auto add = [&](const std::string& amount, const std::string& what, const std::string& how) {
    block.table.rows.push_back({std::to_string(number++), amount, what, how});
    block.table.strong.push_back(false);
  };
  if (made_up && mix.first_water) {
    add(w.quantity(volume_text(*mix.first_water)), w.say("{1}, about so much", {water}),
        w.say("into a jug that holds it all; not into the bottle"));
  } else if (!made_up) {
    add(w.quantity(volume_text(mix.water)), water,
        mix.water_measured ? how_to_measure(*mix.water_measured, w)
                           : w.say("by the marks of a jug"));
  }
  for (const MixStep& step : mix.steps) {
    const std::string how = how_words(step, w);
    if (step.stronger != nullptr) {
      add(amount_words(step, w), step.stronger->name,
          w.say("{1}; only from the bottle that shows {2}", {how, code_of_stronger(mix)}));
    } else {
      add(amount_words(step, w), w.chemical(step.product->name),
          w.say("{1}; stir it in a little at a time", {how}));
    }
  }
  if (made_up) {
    add(w.say("up to {1}", {w.quantity(volume_text(mix.water))}), w.say("water, all together"),
        filling_up_words(mix, w));
  }
  return block;
}

// How far the strength can be off in this batch, and were it scooped.
std::string error_words(const MixAnswer& mix, const Words& w) {
  const Share tolerance = mix.stock->stock->dose.tolerance;
  const std::string limit = w.quantity(percent_text(tolerance));
  const Share worst = mix.filled.strength_error.worst;
  std::string out =
      worst > tolerance
          ? w.say(
                "Mixed in this amount as described, the strength is off by at most {1}, more than "
                "the dose's tolerance of {2}: mix more at a time, or measure more finely.",
                {percent_up(worst), limit})
          : w.say("Mixed in this amount as described, the strength is off by at most {1}.",
                  {percent_up(worst)});
  if (!mix.if_scooped) return out;
  const std::string scooped = percent_up(mix.if_scooped->worst);
  return out + ' ' +
         (mix.if_scooped->worst > tolerance
              ? w.say("Were the powder scooped level instead of weighed, it would be off by up to "
                      "{1}: more than the dose's tolerance of {2}, so weigh it.",
                      {scooped, limit})
              : w.say("Were the powder scooped level instead of weighed, it would be off by up to "
                      "{1}.",
                      {scooped}));
}

std::string degrees(Temperature at, const Words& w) {
  return w.quantity(figure(in_degrees_celsius(at), 1) + " °C");
}

std::string solubility_words(const SolubilityAnswer& one, const Words& w) {
  const std::string name = w.chemical(one.product->name);
  const std::string at = degrees(one.at, w);
  switch (one.result) {
    case Dissolves::yes: {
      const std::vector<std::string> fills = {
          name, at, w.quantity(significant_figure(in_grams_per_litre(*one.soluble), 3) + " g"),
          degrees(one.known_at, w)};
      return one.alone
                 ? w.say("{1} stays dissolved at {2}: a litre of water takes up {3} at {4}.", fills)
                 : w.say(
                       "{1} by itself stays dissolved at {2}: a litre of water takes up {3} at "
                       "{4}. Not checked: whether it does beside the others.",
                       fills);
    }
    case Dissolves::no:
      return w.say("{1} does not all dissolve at {2}. Mix it weaker.", {name, at});
    case Dissolves::perhaps:
      return w.say("{1} may not all dissolve at {2}. Look for crystals.", {name, at});
    case Dissolves::unknown:
      break;
  }
  return w.say("Not checked: whether {1} stays dissolved at {2}.", {name, at});
}

SheetBlock strength_block(const Room& room, const MixAnswer& mix, const Words& w) {
  SheetBlock block;
  block.heading = w.say("What it comes to");
  block.paragraphs.push_back(
      w.say("Makes {1}: {2} in water.",
            {w.quantity(volume_text(mix.filled.makes)), strengths_text(room, mix.filled, w)}));
  block.paragraphs.push_back(error_words(mix, w));
  block.paragraphs.push_back(capitalised(w.say(mix.density.how)) + '.');
  for (const SolubilityAnswer& one : mix.solubility)
    block.paragraphs.push_back(capitalised(solubility_words(one, w)));
  return block;
}

std::string hazard_words(const HazardBlock& block) {
  std::string out;
  if (!block.signal_word.empty()) out += block.signal_word + ". ";
  for (const auto* list : {&block.hazards, &block.supplements}) {
    for (const PrintedStatement& one : *list) out += one.text + ' ';
  }
  return out;
}

// "Danger. Causes serious eye damage." of a product as it is bought.
std::string tub_words(const RoomAnswer& answers, const Product& product, const Words& w) {
  const HazardAnswer tub = answer_tub_hazards(*answers.room, product, *answers.sources);
  if (!tub.found.unclassified.empty())
    return w.say("{1} as bought: nobody has said what it can do; treat it as harmful.",
                 {w.chemical(product.name)});
  std::string said = hazard_words(tub.block);
  if (tub.block.hazards.empty() && tub.block.supplements.empty())
    said += w.say("no hazard statement, according to {1}.", {basis_words(tub, w)});
  return w.say("{1} as bought: {2}", {w.chemical(product.name), trimmed(said)});
}

// The same of a stronger stock, by its own label.
std::string stock_words(const StockAnswer& stronger, const Words& w) {
  std::string out = stronger.stock->name + w.say(": ") + hazard_words(stronger.hazards.block);
  for (const std::string& line : unknown_lines(stronger.hazards, w)) out += line + ' ';
  return out + w.say("Read its label.");
}

// Common practice, no source.
std::string usual_cautions(const MixAnswer& mix, const Words& w) {
  std::string out = w.say("Gloves and eye protection on, window open, nothing to eat near.");
  const auto add = [&](bool holds, const char* words) {
    if (holds) out += ' ' + w.say(words);
  };
  const bool powder = std::any_of(mix.steps.begin(), mix.steps.end(), [](const MixStep& step) {
    return step.product != nullptr && step.product->form == Product::Form::powder;
  });
  add(powder, "Powder into water, never water onto powder.");
  add(is_of_family(*mix.stock, "acid"), "Acid into water, never water onto acid.");
  add(mix.dissolving == Dissolving::heats,
      "It can heat the water strongly, up to boiling: cold water, a little at a time, never in a "
      "closed bottle.");
  add(is_of_family(*mix.stock, "dithionite"),
      "Cool water; keep water away from the tub. Make it fresh, use it the same day.");
  return out;
}

SheetBlock cautions_block(const RoomAnswer& answers, const MixAnswer& mix, const Words& w) {
  SheetBlock block;
  block.heading = w.say("Before you start");
  const StockAnswer& stock = *mix.stock;
  for (const MixStep& step : mix.steps) {
    const std::string words = step.stronger != nullptr ? stock_words(*mix.stronger, w)
                                                       : tub_words(answers, *step.product, w);
    if (!among(block.paragraphs, words)) block.paragraphs.push_back(capitalised(words));
  }
  block.paragraphs.push_back(usual_cautions(mix, w));
  std::vector<std::string> never = with_these(stock.stock->never_mix_with, w);
  for (const Clash& clash : stock.clashes) {
    const auto is_it = [&](const std::string& word) {
      return lowered(word) == lowered(clash.name);
    };
    const auto& written = stock.stock->never_mix_with;
    const bool said = std::any_of(never.begin(), never.end(), is_it) ||
                      std::any_of(written.begin(), written.end(), is_it);
    if (!said) never.push_back(clash.name);
  }
  if (!never.empty())
    block.paragraphs.push_back(w.say("Never together with {1}.", {w.either(never)}));
  if (mix.container != nullptr && mix.container->held_food)
    block.paragraphs.push_back(
        w.say("The container once held food or drink: take another, or label it before it is "
              "filled."));
  return block;
}

// What a careful person minds before the first gram: it stands above everything else.
SheetBlock mind_block(const RoomAnswer& answers, const MixAnswer& mix, const Words& w) {
  SheetBlock block;
  for (const Diagnostic* one : findings_about(answers, *mix.stock->stock)) {
    // Claims are said in fewer words, and have a table of their own below.
    if (one->path.find(".claims.") != std::string::npos) continue;
    block.paragraphs.push_back(capitalised(one->said.empty() ? one->message : w.say(one->said)) +
                               '.');
  }
  const std::vector<ClaimAnswer> claims = answer_claims(*answers.room, *mix.stock);
  for (const ClaimAnswer& one : claims) {
    if (!disagree(one, claims.front(), mix.stock->stock->dose.tolerance)) continue;
    block.paragraphs.push_back(
        w.say("\"{1}\" puts in {2} times the dose. Do not dose by it: find out which is right.",
              {one.name, w.number(significant_figure(one.factor, 2))}));
  }
  if (!block.paragraphs.empty()) block.heading = w.say("Mind this first");
  return block;
}

// Instead of steps.
SheetBlock refusal(const Quarrel& quarrel, const Words& w) {
  SheetBlock block;
  block.heading = w.say("Do not mix this");
  block.paragraphs.push_back(
      capitalised(w.say("{1} and {2} must not meet: {3}. No steps are printed for it.",
                        {quarrel.one->name, quarrel.other->name, w.say(quarrel.why->because)})));
  return block;
}

SheetBlock label_block(const MixAnswer& mix, const Words& w) {
  SheetBlock block;
  block.heading = w.say("Then, at once, the label");
  const Stock& stock = *mix.stock->stock;
  std::string words = w.say("{1}, code {2}, mixed: today's date, batch, by whom",
                            {stock.name, mix.stock->code.letters});
  if (stock.keeps)
    words +=
        ", " + (in_days(*stock.keeps) == 1 ? w.say("use by: 1 day from today")
                                           : w.say("use by: {1} days from today",
                                                   {w.number(figure(in_days(*stock.keeps), 0))}));
  block.paragraphs.push_back(
      words + ". " +
      w.say("If another amount went in than stands here, this code does not hold: add what is "
            "missing until the amounts agree, or label it by what went in."));
  return block;
}

// What the bottle is dosed by: a mixer sees whether it is the one that is wanted.
SheetBlock dose_block(const StockAnswer& stock, const Words& w) {
  SheetBlock block;
  const DoseRule& rule = stock.stock->dose;
  const std::string remarks = dose_remarks(stock, litres(100), stock.changes, w);
  if (remarks.empty() && rule.days == 1) return block;
  block.heading = w.say("How it is dosed");
  const Portion part = stock.rate * litres(100);
  const std::string amount = w.number(significant_figure(part.stored(), 3)) + ' ' + unit_of(part);
  block.paragraphs.push_back(w.say("{1} for each {2}", {amount, "100 L"}) + ", " +
                             column_words(rule, w) +
                             (rule.days > 1 ? " (" + all_days_words(rule, part, w) + ')' : "") +
                             (remarks.empty() ? "" : w.say(": ") + remarks) + '.');
  return block;
}

// "5 mL per 20 gal (US gal)": a bare gallon is quoted, and which one was meant is said.
std::string as_read(const std::string& text, MeasureSystem system, const Words& w) {
  const bool bare = text.find(" gal") != std::string::npos &&
                    text.find("US gal") == std::string::npos &&
                    text.find("imperial gal") == std::string::npos;
  if (!bare || system == MeasureSystem::metric) return text;
  const char* const meant = system == MeasureSystem::us ? "US gal" : "imperial gal";
  return text + " (" + w.quantity(meant) + ')';
}

// All statements side by side, when there are any besides the dose.
SheetBlock claims_block(const Room& room, const StockAnswer& stock, const Words& w) {
  SheetBlock block;
  const std::vector<ClaimAnswer> claims = answer_claims(room, stock);
  if (claims.size() < 2) return block;
  const int days = stock.stock->dose.days;
  block.heading = w.say("What else is said of it");
  block.table.headings = {w.say("who says it"), w.say("in words"),
                          days > 1 ? w.say("for {1}, {2} days", {"100 L", std::to_string(days)})
                                   : w.say("for {1} of water", {"100 L"}),
                          w.say("times the dose")};
  block.table.widths = {0.26, 0.3, 0.2, 0.24};
  for (const ClaimAnswer& one : claims) {
    const double for_hundred = per_litre(one.rate) * 100;
    const std::string unit = stock.stock->dry ? " g" : " mL";
    const bool apart = disagree(one, claims.front(), stock.stock->dose.tolerance);
    // The rule that everything is printed from has no name of the user's.
    const bool own = &one == &claims.front();
    const std::string times = w.number(significant_figure(one.factor, 3));
    block.table.rows.push_back(
        {own ? w.say(one.name) : one.name,
         one.text.empty() ? w.say("this sheet") : as_read(one.text, room.measures, w),
         w.number(significant_figure(for_hundred, 3)) + unit,
         apart ? w.say("{1}: do not use", {times}) : times});
    // What is bold is taken for what holds.
    block.table.strong.push_back(own);
  }
  return block;
}

}  // namespace

SheetContent mixing_content(const RoomAnswer& answers, const MixAnswer& mix,
                            const ChartRequest& chart, const Words& w) {
  SheetContent out;
  const Room& room = *answers.room;
  const Stock& stock = *mix.stock->stock;
  const std::string makes = w.quantity(volume_text(mix.filled.makes));
  out.page.title = w.say("Mixing {1}", {stock.name});
  out.page.subtitle =
      mix.container != nullptr ? w.say("{1} in the {2}", {makes, mix.container->name}) : makes;
  set_code(*mix.stock, out.page, w);
  out.page.code_caption = w.say("goes on the label");
  std::vector<SheetBlock> blocks;
  if (mix.stock->quarrel) {
    out.page.subtitle = w.say("not to be mixed");
    out.page.code.reset();
    out.page.code_caption.clear();
    blocks = {refusal(*mix.stock->quarrel, w), mind_block(answers, mix, w)};
  } else {
    blocks = {mind_block(answers, mix, w), cautions_block(answers, mix, w)};
    blocks.push_back(steps_block(mix, w));
    blocks.push_back(label_block(mix, w));
    blocks.push_back(strength_block(room, mix, w));
    blocks.push_back(dose_block(*mix.stock, w));
    blocks.push_back(claims_block(room, *mix.stock, w));
  }
  for (SheetBlock& block : blocks) {
    if (!block.paragraphs.empty() || !block.table.rows.empty())
      out.blocks.push_back(std::move(block));
  }
  out.page.match = mix.stock->quarrel
                       ? w.say("Do not mix this: take one of the two out of the recipe.")
                       : w.say("Label the bottle before it leaves the bench.");
  out.page.words = frame_words(w);
  out.page.small = no_replacement(w);
  out.page.foot = foot_words(room, chart, w);
  return out;
}

}  // namespace dosewright
