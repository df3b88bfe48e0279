// The words of the dosing log.
#include "shared.hpp"

namespace dosewright {

DosingLogContent dosing_log_content(const RoomAnswer& answers, const Document& document,
                                    const Words& w) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  DosingLogContent out;
  out.pages = document.log.pages;
  out.page.words = frame_words(w);
  out.page.title = title_of(chart, "Dosing log", w);
  if (chart.stocks.empty()) {
    // Of which stock is then written down too, and by which bottle.
    out.columns = {{w.say("date"), 0.13},           {w.say("tank"), 0.17},
                   {w.say("stock and code"), 0.25}, {w.say("change"), 0.13},
                   {w.say("dose and unit"), 0.15},  {w.say("by"), 0.17}};
    out.page.match = w.say("Write what was really given, and the code on the bottle it came from.");
  } else {
    const StockAnswer& stock = *find_stock(answers, chart.stocks.front());
    out.page.subtitle = stock.stock->name + " · " + column_words(stock.stock->dose, w);
    set_code(stock, out.page, w);
    out.columns = {{w.say("date"), 0.18},
                   {w.say("tank"), 0.24},
                   {w.say("change"), 0.18},
                   {w.say("dose in {1}", {stock.stock->dry ? "g" : "mL"}), 0.2},
                   {w.say("by"), 0.2}};
    out.page.match = w.say(
        "Only for bottles that show {1}. Write what was really given, not what should have been.",
        {stock.code.letters});
  }
  out.page.small = no_replacement(w);
  out.page.foot = foot_words(room, chart, w);
  return out;
}

}  // namespace dosewright
