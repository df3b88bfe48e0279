#include "dosewright/wording/notice.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string step_words(const RoomAnswer& answers, const MixStep& step) {
  std::string amount;
  if (step.measured) {
    const Amount shown = dose_amount(*step.measured);
    amount = shown.figure + ' ' + shown.unit;
  } else {
    const auto portion = std::visit([](auto value) { return Portion(value); }, step.amount);
    amount = significant_figure(portion.stored(), 3) + ' ' + unit_of(portion);
  }
  if (step.stronger == nullptr) return amount + " of " + step.product->name;
  const StockAnswer* stronger = find_stock(answers, step.stronger->id);
  return amount + " of " + step.stronger->name + " with code " + stronger->code.letters;
}

std::string water_words(const MendAnswer& mend) {
  if (!mend.water_measured)
    return significant_figure(in_millilitres(mend.water), 3) + " mL of water";
  const Amount shown = dose_amount(*mend.water_measured);
  return shown.figure + ' ' + shown.unit + " of water";
}

std::string add_words(const RoomAnswer& answers, const MendAnswer& mend) {
  std::vector<std::string> parts;
  for (const MixStep& step : mend.steps) parts.push_back(step_words(answers, step));
  if (in_millilitres(mend.water) > 1e-9) parts.push_back(water_words(mend));
  return all_of(parts);
}

// What to add to a full bottle and to what may be left in it.
SheetTable mending_table(const RoomAnswer& answers, const NoticeBottle& bottle) {
  SheetTable table;
  table.headings = {"if this much is left", "add", "that makes"};
  table.widths = {0.24, 0.46, 0.3};
  const Volume full =
      bottle.container != nullptr ? filling_of(*bottle.container) : bottle.stock->mixture.makes;
  for (const double part : {1.0, 0.75, 0.5, 0.25}) {
    const Volume left = full * part;
    const MendAnswer mend = answer_mending(answers, *bottle.stock, bottle.held, left);
    const bool fits = bottle.container == nullptr || mend.finishes <= bottle.container->holds;
    const auto makes = [](Volume volume) {
      return significant_figure(in_millilitres(volume), 3) + " mL";
    };
    table.rows.push_back(
        {makes(left), add_words(answers, mend),
         makes(mend.finishes) + (fits ? "" : ": more than it holds, use a larger one")});
    table.strong.push_back(false);
  }
  return table;
}

std::string heading_words(const NoticeBottle& bottle) {
  return bottle.stock_name + " with code " + bottle.code +
         (bottle.container != nullptr ? ", " + bottle.container->name : std::string());
}

// "Batch 18, mixed 2026-09-01, use by 2026-10-31."
std::string batch_words(const NoticeBatch& batch) {
  std::string out = batch.batch.empty() ? "Any bottle that was labelled by hand with this code"
                                        : "Batch " + batch.batch;
  if (!batch.mixed.empty()) out += ", mixed " + batch.mixed;
  if (!batch.use_by.empty()) out += ", use by " + batch.use_by;
  return out + ". ";
}

std::string strength_words(const NoticeBottle& bottle) {
  return significant_figure(*bottle.times, 3) +
         " times as strong as the recipe now: the charts with code " + bottle.stock->code.letters +
         " are not for it. Do one of these three.";
}

std::string use_up_words(const NoticeBottle& bottle) {
  std::string out = "1. Use it up as it is: ";
  out += bottle.labels.empty() ? "its label holds"
                               : "stick its new label over the old one (" + all_of(bottle.labels) +
                                     ", code " + bottle.own_code + ')';
  if (bottle.charts.empty()) return out + ". No chart is for it: dose it by its label alone.";
  return out + ", and dose it by the charts with code " + bottle.own_code +
         " alone: " + all_of(bottle.charts) + '.';
}

SheetBlock bottle_block(const RoomAnswer& answers, const NoticeBottle& bottle) {
  SheetBlock block;
  block.together = true;
  block.heading = heading_words(bottle);
  std::string batches;
  for (const NoticeBatch& batch : bottle.batches) batches += batch_words(batch);
  block.paragraphs.push_back(trimmed(batches));
  if (bottle.overdue) {
    block.paragraphs.emplace_back(
        "Past its date. Do not use or mend it: discard it by local rules.");
    return block;
  }
  if (!bottle.times && !bottle.held.empty() && bottle.stock != nullptr) {
    block.paragraphs.emplace_back(
        "Its products are not in the recipe's proportions: no dose of it is right. Discard it by "
        "local rules, or make it the recipe's: add what stands below, shake, and give it the label "
        "of the recipe at once: dosewright label --batch with its number and --anew.");
    block.table = mending_table(answers, bottle);
    return block;
  }
  if (!bottle.times) {
    block.paragraphs.push_back((bottle.stock == nullptr
                                    ? std::string("Its stock is no longer described. ")
                                    : "It holds other products, or in other proportions, than the "
                                      "recipe now: nothing makes it the same. ") +
                               "No chart of this room is for it. Discard it by local rules.");
    return block;
  }
  block.paragraphs.push_back(strength_words(bottle));
  block.paragraphs.push_back(use_up_words(bottle));
  block.paragraphs.emplace_back("2. Discard it by local rules.");
  block.paragraphs.push_back(
      "3. Make it as strong as the recipe: add what stands below, shake, take its label off, and "
      "give it the label with code " +
      bottle.stock->code.letters +
      " at once: dosewright label --batch with its number and --anew, or a new blank one where it "
      "has none.");
  block.table = mending_table(answers, bottle);
  return block;
}

std::string to_do(const NoticePage& page) {
  if (page.blank && page.same_bottles)
    return "throw the unused ones away; stick " + page.file + " (" + page.now +
           ") over the old one on every filled bottle too, and copy its dates.";
  if (page.blank)
    return "throw the unused ones away; " + page.file + " (" + page.now +
           ") is for bottles that are mixed from now on. Never put it on a filled one.";
  if (page.now.empty()) return "take it down" + (page.why.empty() ? "" : ": " + page.why);
  return (page.was.empty() ? "hang up " : "put in its place ") + page.file + " (" + page.now + ')';
}

// What is done at one place, then the bottles that stand there.
void add_place(const RoomAnswer& answers, const Notice& notice, const std::string& place,
               int& number, SheetContent& out) {
  SheetBlock block;
  block.heading = place.empty() ? "Wherever it is" : capitalised(place);
  block.table.headings = {"", "what", "as it was", "do"};
  block.table.widths = {0.05, 0.27, 0.3, 0.38};
  for (const NoticePage& page : notice.pages) {
    if (page.place != place) continue;
    block.table.rows.push_back({std::to_string(number++), page.name, page.was, to_do(page)});
    block.table.strong.push_back(false);
  }
  std::vector<SheetBlock> bottles;
  for (const NoticeBottle& bottle : notice.bottles) {
    if (bottle.place == place) bottles.push_back(bottle_block(answers, bottle));
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
  return "add " + add_words(answers, mend) + "; that makes " +
         significant_figure(in_millilitres(mend.finishes), 3) + " mL" +
         (fits ? "" : ", more than the " + container->name + " holds: use a larger one");
}

SheetContent notice_content(const RoomAnswer& answers, const Notice& notice) {
  SheetContent out;
  out.page.title = "Change notice";
  out.page.subtitle = answers.room->name + " · " + notice.date;
  SheetBlock first;
  first.heading = "First";
  first.paragraphs = {"Dose nothing before the last line is done."};
  first.paragraphs.insert(first.paragraphs.end(), notice.doubts.begin(), notice.doubts.end());
  out.blocks.push_back(first);
  SheetBlock changes;
  changes.heading = "What changed";
  changes.paragraphs = notice.changes;
  if (!changes.paragraphs.empty()) out.blocks.push_back(changes);
  int number = 1;
  std::vector<std::string> places = notice.places;
  places.emplace_back();
  for (const std::string& place : places) add_place(answers, notice, place, number, out);
  out.page.match = "Walk it from top to bottom.";
  out.page.small = no_replacement(english());
  out.page.foot = answers.room->name + " · change notice of " + notice.date;
  return out;
}

}  // namespace dosewright
