#include "dosewright/wording/notice.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string millilitres_text(Volume volume, const Words& w) {
  return w.number(significant_figure(in_millilitres(volume), 3)) + " mL";
}

std::string step_words(const RoomAnswer& answers, const MixStep& step, const Words& w) {
  std::string amount;
  if (step.measured) {
    const Amount shown = dose_amount(*step.measured, w);
    amount = shown.figure + ' ' + shown.unit;
  } else {
    const auto portion = std::visit([](auto value) { return Portion(value); }, step.amount);
    amount = w.number(significant_figure(portion.stored(), 3)) + ' ' + unit_of(portion);
  }
  if (step.stronger == nullptr) return w.say("{1} {2}", {amount, w.chemical(step.product->name)});
  const StockAnswer* stronger = find_stock(answers, step.stronger->id);
  return w.say("{1} {2} with code {3}", {amount, step.stronger->name, stronger->code.letters});
}

std::string water_words(const MendAnswer& mend, const Words& w) {
  std::string amount = millilitres_text(mend.water, w);
  if (mend.water_measured) {
    const Amount shown = dose_amount(*mend.water_measured, w);
    amount = shown.figure + ' ' + shown.unit;
  }
  return w.say("{1} {2}", {amount, w.say("water")});
}

std::string add_words(const RoomAnswer& answers, const MendAnswer& mend, const Words& w) {
  std::vector<std::string> parts;
  for (const MixStep& step : mend.steps) parts.push_back(step_words(answers, step, w));
  if (in_millilitres(mend.water) > 1e-9) parts.push_back(water_words(mend, w));
  return w.all_of(parts);
}

// What to add to a full bottle and to what may be left in it.
SheetTable mending_table(const RoomAnswer& answers, const NoticeBottle& bottle, const Words& w) {
  SheetTable table;
  table.headings = {w.say("if this much is left"), w.say("add"), w.say("that makes")};
  table.widths = {0.24, 0.46, 0.3};
  const Volume full =
      bottle.container != nullptr ? filling_of(*bottle.container) : bottle.stock->mixture.makes;
  for (const double part : {1.0, 0.75, 0.5, 0.25}) {
    const Volume left = full * part;
    const MendAnswer mend = answer_mending(answers, *bottle.stock, bottle.held, left);
    const bool fits = bottle.container == nullptr || mend.finishes <= bottle.container->holds;
    const std::string makes = millilitres_text(mend.finishes, w);
    table.rows.push_back(
        {millilitres_text(left, w), add_words(answers, mend, w),
         fits ? makes : w.say("{1}: more than it holds, use a larger one", {makes})});
    table.strong.push_back(false);
  }
  return table;
}

std::string heading_words(const NoticeBottle& bottle, const Words& w) {
  // As the label of a bottle out of proportion says it.
  const bool coded = bottle.code != "none";
  return (coded ? w.say("{1} with code {2}", {bottle.stock_name, bottle.code})
                : w.say("{1}, without a code", {bottle.stock_name})) +
         (bottle.container != nullptr ? ", " + bottle.container->name : std::string());
}

// "Batch 18, mixed 2026-09-01, use by 2026-10-31."
std::string batch_words(const NoticeBatch& batch, const Words& w) {
  std::string out = batch.batch.empty()
                        ? w.say("Any bottle that was labelled by hand with this code")
                        : w.say("Batch {1}", {batch.batch});
  if (!batch.mixed.empty()) out += ", " + w.say("mixed {1}", {batch.mixed});
  if (!batch.use_by.empty()) out += ", " + w.say("use by {1}", {batch.use_by});
  return out + ". ";
}

std::string strength_words(const NoticeBottle& bottle, const Words& w) {
  return w.say(
      "{1} times as strong as the recipe now: the charts with code {2} are not for it. Do one of "
      "these three.",
      {w.number(significant_figure(*bottle.times, 3)), bottle.stock->code.letters});
}

std::string use_up_words(const NoticeBottle& bottle, const Words& w) {
  const std::string label =
      bottle.labels.empty()
          ? w.say("1. Use it up as it is: its label holds.")
          : w.say("1. Use it up as it is: stick its new label over the old one ({1}, code {2}).",
                  {w.all_of(bottle.labels), bottle.own_code});
  const std::string charts = bottle.charts.empty()
                                 ? w.say("No chart is for it: dose it by its label alone.")
                                 : w.say("Dose it by the charts with code {1} alone: {2}.",
                                         {bottle.own_code, w.all_of(bottle.charts)});
  return label + ' ' + charts;
}

// What nothing can be dosed from; empty where something can.
std::string discard_words(const NoticeBottle& bottle, const Words& w) {
  if (bottle.overdue)
    return w.say("Past its date. Do not use or mend it: discard it by local rules.");
  if (bottle.times) return "";
  if (bottle.stock == nullptr)
    return w.say(
        "Its stock is no longer described. No chart of this room is for it. Discard it by local "
        "rules.");
  if (!bottle.held.empty()) return "";
  return w.say(
      "It holds other products, or in other proportions, than the recipe now: nothing makes it the "
      "same. No chart of this room is for it. Discard it by local rules.");
}

SheetBlock bottle_block(const RoomAnswer& answers, const NoticeBottle& bottle, const Words& w) {
  SheetBlock block;
  block.together = true;
  block.heading = heading_words(bottle, w);
  std::string batches;
  for (const NoticeBatch& batch : bottle.batches) batches += batch_words(batch, w);
  block.paragraphs.push_back(trimmed(batches));
  if (const std::string words = discard_words(bottle, w); !words.empty()) {
    block.paragraphs.push_back(words);
    return block;
  }
  const std::string command = "dosewright label --batch … --anew";
  if (!bottle.times) {
    block.paragraphs.push_back(
        w.say("Its products are not in the recipe's proportions: no dose of it is right. Discard "
              "it by local rules, or make it the recipe's: add what stands below, shake, and give "
              "it the label of the recipe at once ({1}, with its number).",
              {command}));
    block.table = mending_table(answers, bottle, w);
    return block;
  }
  block.paragraphs.push_back(strength_words(bottle, w));
  block.paragraphs.push_back(use_up_words(bottle, w));
  block.paragraphs.push_back(w.say("2. Discard it by local rules."));
  block.paragraphs.push_back(
      w.say("3. Make it as strong as the recipe: add what stands below, shake, take its label off, "
            "and give it the label with code {1} at once ({2}, with its number, or a new blank one "
            "where it has none).",
            {bottle.stock->code.letters, command}));
  block.table = mending_table(answers, bottle, w);
  return block;
}

std::string to_do(const NoticePage& page, const Words& w) {
  const std::vector<std::string> fills = {page.file, page.now};
  if (page.blank && page.same_bottles)
    return w.say(
        "throw the unused ones away; stick {1} ({2}) over the old one on every filled bottle too, "
        "and copy its dates.",
        fills);
  if (page.blank)
    return w.say(
        "throw the unused ones away; {1} ({2}) is for bottles that are mixed from now on. Never "
        "put it on a filled one.",
        fills);
  if (page.now.empty())
    return page.why.empty() ? w.say("take it down") : w.say("take it down: {1}", {page.why});
  return page.was.empty() ? w.say("hang up {1} ({2})", fills)
                          : w.say("put in its place {1} ({2})", fills);
}

// What is done at one place, then the bottles that stand there.
void add_place(const RoomAnswer& answers, const Notice& notice, const std::string& place,
               int& number, const Words& w, SheetContent& out) {
  SheetBlock block;
  block.heading = place.empty() ? w.say("Wherever it is") : capitalised(place);
  block.table.headings = {"", w.say("what"), w.say("as it was"), w.say("do")};
  block.table.widths = {0.05, 0.27, 0.3, 0.38};
  for (const NoticePage& page : notice.pages) {
    if (page.place != place) continue;
    block.table.rows.push_back({std::to_string(number++), page.name, page.was, to_do(page, w)});
    block.table.strong.push_back(false);
  }
  std::vector<SheetBlock> bottles;
  for (const NoticeBottle& bottle : notice.bottles) {
    if (bottle.place == place) bottles.push_back(bottle_block(answers, bottle, w));
  }
  if (block.table.rows.empty() && bottles.empty()) return;
  out.blocks.push_back(std::move(block));
  for (SheetBlock& bottle : bottles) out.blocks.push_back(std::move(bottle));
}

}  // namespace

std::string mending_words(const RoomAnswer& answers, const StockAnswer& stock,
                          const Strengths& found, Volume volume, const Container* container) {
  const MendAnswer mend = answer_mending(answers, stock, found, volume);
  const bool fits = container == nullptr || mend.finishes <= container->holds;
  return "add " + add_words(answers, mend, english()) + "; that makes " +
         significant_figure(in_millilitres(mend.finishes), 3) + " mL" +
         (fits ? "" : ", more than the " + container->name + " holds: use a larger one");
}

SheetContent notice_content(const RoomAnswer& answers, const Notice& notice, const Words& w) {
  SheetContent out;
  out.page.title = w.say("Change notice");
  out.page.subtitle = answers.room->name + " · " + notice.date;
  SheetBlock first;
  first.heading = w.say("First");
  first.paragraphs = {w.say("Dose nothing before the last line is done.")};
  first.paragraphs.insert(first.paragraphs.end(), notice.doubts.begin(), notice.doubts.end());
  out.blocks.push_back(first);
  SheetBlock changes;
  changes.heading = w.say("What changed");
  changes.paragraphs = notice.changes;
  if (!changes.paragraphs.empty()) out.blocks.push_back(changes);
  int number = 1;
  std::vector<std::string> places = notice.places;
  places.emplace_back();
  for (const std::string& place : places) add_place(answers, notice, place, number, w, out);
  out.page.words = frame_words(w);
  out.page.match = w.say("Walk it from top to bottom.");
  out.page.small = no_replacement(w);
  out.page.foot = answers.room->name + " · " + w.say("change notice of {1}", {notice.date});
  return out;
}

}  // namespace dosewright
