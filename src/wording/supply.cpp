// The words of the supply sheet: how far a tub goes, and when to order the next.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

// Rounded down: a supply must not be said to last longer than it does.
std::string time_words(Duration time, const Words& w) {
  const auto said = [&](const char* words, double number, int decimals) {
    return w.say(words, {w.number(figure(number, decimals))});
  };
  const double whole_days = std::floor(in_days(time) + 1e-9);
  if (whole_days == 1) return w.say("1 day");
  if (whole_days < 28) return said("{1} days", whole_days, 0);
  const double weeks = std::floor(whole_days / 7);
  if (weeks < 104) return said("{1} weeks", weeks, 0);
  return said("{1} years", std::floor(whole_days / 365.25 * 10) / 10, 1);
}

std::string each_period(Duration period, const std::string& water, const Words& w) {
  const double number = in_days(period);
  if (number == 1) return w.say("each day {1}", {water});
  if (number == 7) return w.say("each week {1}", {water});
  return w.say("every {1} days {2}", {w.number(figure(number, 1)), water});
}

// "14,300 L", in the room's own measure behind it.
std::string water_words(Volume water, MeasureSystem system, const Words& w) {
  const FigureAndUnit own = water_text(water, system);
  const std::string metric = w.number(significant_figure(in_litres(water), 3)) + " L";
  return own.unit == "L" ? metric : metric + " (" + w.number(own.figure) + ' ' + own.unit + ')';
}

// Money to three figures: what treats a litre costs next to nothing.
std::string small_money(const Money& money, const Words& w) {
  return w.quantity(money.amount >= 1 ? money_text(money)
                                      : significant_figure(money.amount, 2) + ' ' + money.currency);
}

// Rounded up: ordering a little early does no harm.
std::string order_text(Mass mass, const Words& w) {
  return w.quantity(mass_text(grams(rounded_outward(in_grams(mass), 2, true))));
}

// A bottle that outlasts its date is thrown away half full.
std::string bottle_words(const SupplyAnswer& answer, const Words& w) {
  if (!answer.short_lived) return "";
  const ShortLived& bottle = *answer.short_lived;
  const std::vector<std::string> fills = {bottle.container, time_words(bottle.full_lasts, w),
                                          time_words(*answer.stock->stock->keeps, w),
                                          w.quantity(volume_text(bottle.each))};
  return bottle.is_more
             ? w.say(
                   "{1}, full: it would last {2} and keeps {3}. Mix {4} at a time (fewer grams "
                   "cannot be weighed within the tolerance) and throw the rest away: the figures "
                   "above count it.",
                   fills)
             : w.say(
                   "{1}, full: it would last {2} and keeps {3}. Mix {4} at a time, or most of it "
                   "is thrown away.",
                   fills);
}

class SupplyWords {
 public:
  SupplyWords(const SupplyAnswer& answer, MeasureSystem system, const Words& w)
      : answer_(answer), system_(system), w_(w) {
    block_.table.large = true;
    block_.table.headings = {"", "", "", ""};
    block_.table.widths = {0, 0.32, 0.35, 0.33};
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
    const std::string pack = w_.say("from {1} of {2}", {w_.quantity(mass_text(answer_.pack)),
                                                        w_.chemical(answer_.product->name)});
    const auto litres_of = [&](Volume volume) {
      return w_.number(significant_figure(in_litres(volume), 3)) + " L";
    };
    if (answer_.makes)
      row(litres_of(*answer_.makes), w_.say("of {1}", {answer_.stock->stock->name}), pack);
    const std::string used =
        w_.number(significant_figure(in_grams_per_litre(answer_.used) * 1000, 3)) + " g";
    // The litres stand at the left already.
    const FigureAndUnit own = water_text(answer_.treats, system_);
    // Not the dose, where most of a batch is thrown away.
    const bool counted = answer_.short_lived && answer_.short_lived->is_more;
    const std::string rate =
        w_.say(counted ? "{1} used up for {2}, with what is thrown away" : "{1} for {2}",
               {used, w_.quantity("1,000 L")});
    const std::string how =
        own.unit == "L" ? rate : w_.number(own.figure) + ' ' + own.unit + ", " + rate;
    row(litres_of(answer_.treats), w_.say("of water treated"), pack + w_.say(": ") + how);
  }

  void what_it_costs() {
    if (!answer_.cost) return;
    std::string how = w_.say("for the product alone");
    const auto& ready = answer_.ready_made;
    if (ready && ready->currency == answer_.cost->currency)
      how = w_.say("the ready-made liquid: {1}, {2} times as much",
                   {small_money(*ready, w_),
                    w_.number(significant_figure(ready->amount / answer_.cost->amount, 2))});
    row(small_money(*answer_.cost, w_), w_.say("for {1} of water", {w_.quantity("1,000 L")}), how);
  }

  // "each week 240 L in 3 tanks".
  [[nodiscard]] std::string use_words() const {
    std::string water =
        each_period(answer_.period, water_words(answer_.water_each_time, system_, w_), w_);
    if (answer_.tanks == 0) return water;
    return answer_.tanks == 1 ? w_.say("{1} in 1 tank", {water})
                              : w_.say("{1} in {2} tanks", {water, std::to_string(answer_.tanks)});
  }

  void how_long_it_lasts() {
    if (!answer_.lasting) return;
    const bool enough = *answer_.lasting >= answer_.period;
    row(enough ? time_words(*answer_.lasting, w_) : w_.say("not one round"),
        enough ? w_.say("till the tub is empty") : w_.say("with what is in stock"),
        w_.say("with {1} in stock, and {2}",
               {w_.quantity(mass_text(answer_.in_stock)), use_words()}));
    row(order_text(*answer_.reorder, w_),
        *answer_.reorder >= answer_.in_stock ? w_.say("left: order the next now")
                                             : w_.say("left: order the next"),
        w_.say("what the rounds use while an order is on its way"));
  }

  const SupplyAnswer& answer_;
  MeasureSystem system_;
  const Words& w_;
  SheetBlock block_;
};

UsePicture picture_of(const SupplyAnswer& answer, const Words& w) {
  constexpr std::size_t kBars = 40;
  const UseOverTime use = use_over_time(*answer.lasting, answer.period, kBars);
  UsePicture out;
  out.left = use.left;
  out.reorder = std::min(1.0, *answer.reorder / answer.in_stock);
  out.top = w.quantity(mass_text(answer.in_stock));
  out.start = w.say("today");
  out.end = w.say("empty after {1}", {time_words(*answer.lasting, w)});
  out.order = w.say("order at {1}", {order_text(*answer.reorder, w)});
  return out;
}

}  // namespace

SheetContent supply_content(const RoomAnswer& answers, const Document& document, const Words& w) {
  const Room& room = *answers.room;
  const SupplyAnswer answer = answer_supply(answers, document);
  SheetContent out;
  out.page.title = w.say("Supply: {1}", {answer.stock->stock->name});
  out.page.subtitle = w.chemical(answer.product->name);
  set_code(*answer.stock, out.page, w);
  out.page.code_caption = w.say("at the strength of");
  out.blocks.push_back(SupplyWords(answer, room.measures, w).block());
  if (answer.lasting && *answer.lasting >= answer.period) {
    SheetBlock picture;
    picture.heading = w.say("What is left");
    picture.picture = picture_of(answer, w);
    out.blocks.push_back(picture);
  }
  SheetBlock notes;
  if (!answer.lasting)
    notes.paragraphs.push_back(
        w.say("How long it lasts is not known: no tank has a usual change, and no water is "
              "stated."));
  if (!answer.left_out.empty())
    notes.paragraphs.push_back(w.say("Not counted, for their usual change is not stated: {1}.",
                                     {w.all_of(answer.left_out)}));
  if (const std::string words = bottle_words(answer, w); !words.empty())
    notes.paragraphs.push_back(words);
  const bool counted = answer.short_lived && answer.short_lived->is_more;
  notes.paragraphs.push_back(
      counted ? w.say("Doses as the rule has them; rounding at the tools and spills come on top.")
              : w.say("Doses as the rule has them; rounding at the tools, spills and what is "
                      "thrown away come on top."));
  out.blocks.push_back(notes);
  out.page.match =
      w.say("Worked out for this strength and dose alone: after a change, print it anew.");
  out.page.words = frame_words(w);
  out.page.small = no_replacement(w);
  out.page.foot = foot_words(room, document.chart, w);
  return out;
}

}  // namespace dosewright
