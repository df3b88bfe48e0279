// All figures of a room, computed once: what every document and command shows; not how it is shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/dose/strength_code.hpp"
#include "dosewright/hazard/block.hpp"
#include "dosewright/measure/measure.hpp"
#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// A stock with everything that follows from its recipe and dose rule.
struct StockAnswer {
  const Stock* stock = nullptr;
  Mixture mixture;
  VolumePerVolume rate;
  StrengthCode code;
  HazardBlock hazards;
};

/// One dose: for this much water, exactly so much, measured like this.
struct DoseAnswer {
  Volume water;
  Volume exact;
  MeasureAnswer measured;
};

/// The worst-case error of the tools over the exact dose. Precondition: the dose is measured.
[[nodiscard]] Share tool_share(const DoseAnswer& dose);

/// A label's figures.
struct LabelAnswer {
  const StockAnswer* stock = nullptr;
  const Container* container = nullptr;
  Mixture filled;  ///< the recipe scaled to the container's fill
  std::optional<Date> use_by;
  DoseAnswer dose;         ///< for a handy amount of water
  std::string water_text;  ///< that amount in words, such as "20 L"
};

/// A chart's figures: rows of buckets or tanks, columns of stocks or water changes.
struct ChartAnswer {
  std::vector<const StockAnswer*> stocks;
  std::vector<std::vector<DoseAnswer>> rows;
};

/// The room's stocks in the order of the description, and what a careful person would mend. The
/// answers point into the room, which must outlive them.
struct RoomAnswer {
  const Room* room = nullptr;
  std::vector<StockAnswer> stocks;
  Diagnostics problems;
};

[[nodiscard]] RoomAnswer answer_room(const Room& room, const StatementBook& book);

[[nodiscard]] const StockAnswer* find_stock(const RoomAnswer& answers, const std::string& id);

/// The dose of a stock for `water`, with the tools it may be measured with.
[[nodiscard]] DoseAnswer answer_dose(const Room& room, const StockAnswer& stock, Volume water);

[[nodiscard]] LabelAnswer answer_label(const RoomAnswer& answers, const LabelRequest& label);
[[nodiscard]] ChartAnswer answer_chart(const RoomAnswer& answers, const Document& document);

/// `date` moved on by whole days.
[[nodiscard]] Date later(const Date& date, Duration by);

}  // namespace dosewright
