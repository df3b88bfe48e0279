// The words of the supply sheet: how far a tub goes, and when to order the next.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

// Rounded down: a supply must not be said to last longer than it does.
std::string time_words(Duration time) {
  const double whole_days = std::floor(in_days(time) + 1e-9);
  if (whole_days < 28) return figure(whole_days, 0) + (whole_days == 1 ? " day" : " days");
  const double weeks = std::floor(whole_days / 7);
  if (weeks < 104) return figure(weeks, 0) + " weeks";
  return figure(std::floor(whole_days / 365.25 * 10) / 10, 1) + " years";
}

std::string period_words(Duration period) {
  const double number = in_days(period);
  return number == 1 ? "day" : number == 7 ? "week" : figure(number, 1) + " days";
}

// "14,300 L", in the room's own measure behind it.
std::string water_words(Volume water, MeasureSystem system) {
  const FigureAndUnit own = water_text(water, system);
  const std::string metric = significant_figure(in_litres(water), 3) + " L";
  return own.unit == "L" ? metric : metric + " (" + own.figure + ' ' + own.unit + ')';
}

// Money to three figures: what treats a litre costs next to nothing.
std::string small_money(const Money& money) {
  return money.amount >= 1 ? money_text(money)
                           : significant_figure(money.amount, 2) + ' ' + money.currency;
}

// Rounded up: ordering a little early does no harm.
std::string order_text(Mass mass) {
  return mass_text(grams(rounded_outward(in_grams(mass), 2, true)));
}

// The smallest batch from this volume up whose strength keeps the dose's tolerance.
Volume least_batch(const Room& room, const Stock& stock, Volume from, Volume to) {
  for (Volume batch = from; batch < to; batch = batch * 1.25) {
    const Mixture mixture = mix_batch(stock, room.products, room.tools, batch);
    if (mixture.strength_error.worst <= stock.dose.tolerance) return batch;
  }
  return to;
}

// A bottle that outlasts its date is thrown away half full.
std::string bottle_words(const Room& room, const SupplyAnswer& answer) {
  const Stock& stock = *answer.stock->stock;
  const Container* container = find(room.containers, stock.container);
  if (!stock.keeps || container == nullptr || !answer.makes || !answer.lasting) return "";
  const Volume filled = filling_of(*container);
  const double product = in_litres(filled) / in_litres(*answer.makes);
  const Duration bottle = *answer.lasting * (answer.pack * product / answer.in_stock);
  if (bottle <= *stock.keeps) return "";
  // Where it does not keep from one round to the next, what one round takes.
  const double rounds = std::max(1.0, std::floor(*stock.keeps / answer.period + 1e-9));
  const Volume used = filled * (answer.period * rounds / bottle);
  const Volume batch = least_batch(room, stock, used, filled);
  return "A full " + container->name + " would last " + time_words(bottle) + " and keeps " +
         time_words(*stock.keeps) + ": mix " +
         volume_text(litres(rounded_outward(in_litres(batch), 2, true))) + " at a time" +
         (batch > used ? " (fewer grams cannot be weighed within the tolerance) and throw the "
                         "rest away."
                       : ", or most of it is thrown away.");
}

class SupplyWords {
 public:
  SupplyWords(const SupplyAnswer& answer, MeasureSystem system) : answer_(answer), system_(system) {
    block_.table.large = true;
    block_.table.headings = {"", "", "", ""};
    block_.table.widths = {0.01, 0.31, 0.34, 0.34};
  }

  SheetBlock block() {
    what_a_pack_does();
    what_it_costs();
    how_long_it_lasts();
    return block_;
  }

 private:
  void row(const std::string& figure, const std::string& what, const std::string& how) {
    block_.table.rows.push_back({"", figure, what, how});
    block_.table.strong.push_back(false);
  }

  void what_a_pack_does() {
    const std::string pack = "from " + mass_text(answer_.pack) + " of " + answer_.product->name;
    if (answer_.makes) {
      row(significant_figure(in_litres(*answer_.makes), 3) + " L",
          "of " + answer_.stock->stock->name, pack);
    }
    row(significant_figure(in_litres(answer_.treats), 3) + " L", "of water treated",
        pack + ": " + water_words(answer_.treats, system_) + ", at " +
            significant_figure(in_grams_per_litre(answer_.used) * 1000, 3) + " g for 1,000 L");
  }

  void what_it_costs() {
    if (!answer_.cost) return;
    std::string how = "for the product alone";
    const auto& ready = answer_.ready_made;
    if (ready && ready->currency == answer_.cost->currency) {
      how = "the ready-made liquid: " + small_money(*ready) + ", " +
            significant_figure(ready->amount / answer_.cost->amount, 2) + " times as much";
    }
    row(small_money(*answer_.cost), "for 1,000 L of water", how);
  }

  void how_long_it_lasts() {
    if (!answer_.lasting) return;
    const bool enough = *answer_.lasting >= answer_.period;
    row(enough ? time_words(*answer_.lasting) : "not one round",
        enough ? "till the tub is empty" : "with what is in stock",
        "with " + mass_text(answer_.in_stock) + " in stock, and each " +
            period_words(answer_.period) + ' ' + water_words(answer_.water_each_time, system_) +
            (answer_.tanks > 0 ? " in " + std::to_string(answer_.tanks) +
                                     (answer_.tanks == 1 ? " tank" : " tanks")
                               : ""));
    row(order_text(*answer_.reorder),
        *answer_.reorder >= answer_.in_stock ? "left: order the next now" : "left: order the next",
        "what the rounds use while an order is on its way");
  }

  const SupplyAnswer& answer_;
  MeasureSystem system_;
  SheetBlock block_;
};

UsePicture picture_of(const SupplyAnswer& answer) {
  constexpr std::size_t kBars = 40;
  const UseOverTime use = use_over_time(*answer.lasting, answer.period, kBars);
  UsePicture out;
  out.left = use.left;
  out.reorder = std::min(1.0, *answer.reorder / answer.in_stock);
  out.top = mass_text(answer.in_stock);
  out.start = "today";
  out.end = "empty after " + time_words(*answer.lasting);
  out.order = "order at " + order_text(*answer.reorder);
  return out;
}

}  // namespace

SheetContent supply_content(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  const SupplyAnswer answer = answer_supply(answers, document);
  SheetContent out;
  out.page.title = "Supply: " + answer.stock->stock->name;
  out.page.subtitle = answer.product->name;
  set_code(*answer.stock, out.page, english());
  out.page.code_caption = "at the strength of";
  out.blocks.push_back(SupplyWords(answer, room.measures).block());
  if (answer.lasting && *answer.lasting >= answer.period) {
    SheetBlock picture;
    picture.heading = "What is left";
    picture.picture = picture_of(answer);
    out.blocks.push_back(picture);
  }
  SheetBlock notes;
  if (!answer.lasting)
    notes.paragraphs.emplace_back(
        "How long it lasts is not known: no tank has a usual change:, and no water is stated.");
  if (!answer.left_out.empty())
    notes.paragraphs.push_back(
        "Not counted, for their usual change is not stated: " + all_of(answer.left_out) + '.');
  if (const std::string words = bottle_words(room, answer); !words.empty())
    notes.paragraphs.push_back(words);
  notes.paragraphs.emplace_back(
      "Doses as the rule has them; rounding at the tools, spills and what is thrown away come on "
      "top.");
  out.blocks.push_back(notes);
  out.page.match = "Worked out for this strength and dose alone: after a change, print it anew.";
  out.page.small = no_replacement(english());
  out.page.foot = foot_words(room, document.chart, english());
  return out;
}

}  // namespace dosewright
