// The words of the dosing log.
#include "shared.hpp"

namespace dosewright {

DosingLogContent dosing_log_content(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  const ChartRequest& chart = document.chart;
  DosingLogContent out;
  out.pages = document.log.pages;
  out.page.title = chart.title;
  if (chart.stocks.empty()) {
    // Of which stock is then written down too, and by which bottle.
    out.columns = {{"date", 0.13},   {"tank", 0.17}, {"stock and code", 0.25},
                   {"change", 0.13}, {"dose", 0.15}, {"by", 0.17}};
    out.page.match = "Write what was really given, and the code on the bottle it came from.";
  } else {
    const StockAnswer& stock = *find_stock(answers, chart.stocks.front());
    out.page.subtitle = stock.stock->name + " · " + column_words(stock.stock->dose);
    set_code(stock, out.page);
    out.columns = {{"date", 0.18}, {"tank", 0.24}, {"change", 0.18}, {"dose", 0.2}, {"by", 0.2}};
    out.page.match = "Only for bottles that show " + stock.code.letters +
                     ". Write what was really given, not what should have been.";
  }
  out.page.small = kNoReplacement;
  out.page.foot = foot_words(room, chart);
  return out;
}

}  // namespace dosewright
