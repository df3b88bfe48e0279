// The words of the change notice: a walk through the room after a change; not what is out of date.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/bottle.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

/// A page that comes down, or a bottle whose label does not hold any more.
struct NoticePage {
  std::string place;   ///< may be empty
  std::string name;    ///< "sink-chart, bucket chart"
  std::string was;     ///< "revision 2, code X4 9RF, printed 2026-11-20"; empty: nothing hung there
  std::string now;     ///< "revision 3, code K7 4HM"; empty: nothing takes its place
  std::string why;     ///< of what is only taken down
  std::string file;    ///< of what takes its place
  bool blank = false;  ///< a label that is filled in by pen
  bool same_bottles = false;  ///< then it is also for the filled ones, as strong as ever
};

/// One of several bottles that look alike. A batch that is not known is any bottle of that code.
struct NoticeBatch {
  std::string batch;  ///< may be empty, as the next two
  std::string mixed;
  std::string use_by;
};

/// Bottles at one place that are not as strong as the recipe now, or that no recipe makes any more.
struct NoticeBottle {
  std::string place;
  std::string stock_name;
  std::vector<NoticeBatch> batches;
  std::string code;      ///< on their labels
  std::string own_code;  ///< that the labels must show if the bottles stay as they are
  bool overdue = false;
  const StockAnswer* stock = nullptr;  ///< null when it is no longer described
  std::optional<double> times;         ///< as strong as the recipe now
  Strengths held;                      ///< in the order of that recipe, when `times` is known
  const Container* container = nullptr;
  std::vector<std::string> labels;  ///< files of new ones; none when the old ones hold
  std::vector<std::string> charts;  ///< files of their own charts
};

struct Notice {
  std::string date;
  std::vector<std::string> doubts;   ///< what the record does not know
  std::vector<std::string> changes;  ///< "Dechlorinator: code X4 9RF is now K7 4HM"
  std::vector<std::string> places;   ///< in the order of the walk
  std::vector<NoticePage> pages;
  std::vector<NoticeBottle> bottles;
};

/// What to take down where, what takes its place, and what to do with each bottle, place by place.
/// The notice's own words are in the language of `w`.
[[nodiscard]] SheetContent notice_content(const RoomAnswer& answers, const Notice& notice,
                                          const Words& w = english());

/// What makes a liquid as strong as the recipe: "add 24 g of sodium chloride". `found` as of
/// answer_mending. Amounts stand on the marks of the tools at hand where these show them.
[[nodiscard]] std::string mending_words(const RoomAnswer& answers, const StockAnswer& stock,
                                        const Strengths& found, Volume volume,
                                        const Container* container);

}  // namespace dosewright
