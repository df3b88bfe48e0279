// How far a stock's product goes in this room; not how it is worded.
#pragma once

#include <optional>

#include "dosewright/answer/answer.hpp"
#include "dosewright/supply/supply.hpp"

namespace dosewright {

/// A bottle that outlasts its date is mixed in smaller batches; what is left of one is thrown away.
struct ShortLived {
  std::string container;
  Duration full_lasts;   ///< what a full bottle would
  Volume each;           ///< to mix at a time
  bool is_more = false;  ///< than is used: fewer grams cannot be weighed within the tolerance
};

struct SupplyAnswer {
  const StockAnswer* stock = nullptr;
  const Product* product = nullptr;  ///< the one of the recipe that the sheet is about
  Mass pack;
  Mass in_stock;
  /// Of the product, per L of water treated, with what is thrown away of batches that do not keep.
  Concentration used;
  std::optional<Volume> makes;  ///< of the stock from one pack; nothing for a powder from its tub
  Volume treats;                ///< with one pack
  int tanks = 0;                ///< that are changed
  std::vector<std::string> left_out;  ///< tanks whose change nobody states
  Volume water_each_time;             ///< that is dosed at each round of changes; may be nothing
  Duration period;
  std::optional<Duration> lasting;  ///< of what is in stock; nothing when no water is changed
  std::optional<Mass> reorder;      ///< what is left when it is time to order
  std::optional<Money> cost;        ///< of treating 1,000 L
  std::optional<Money> ready_made;  ///< the same with the ready-made liquid
  std::optional<ShortLived> short_lived;
};

/// Precondition: the request was checked: its stock weighs its first product, whose pack is known.
[[nodiscard]] SupplyAnswer answer_supply(const RoomAnswer& answers, const Document& document);

}  // namespace dosewright
