#include "dosewright/answer/supply.hpp"

#include <algorithm>
#include <cmath>

#include "dosewright/dose/dose.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

Concentration used_of(const StockAnswer& stock, const std::string& product) {
  if (stock.stock->dry) return std::get<Concentration>(stock.all);
  for (const Component& component : stock.mixture.components) {
    const auto* strength = std::get_if<Concentration>(&component.strength);
    if (component.product == product && strength != nullptr)
      return used_per_water(*strength, std::get<VolumePerVolume>(stock.all));
  }
  return {};
}

// The smallest batch from this volume up whose strength keeps the dose's tolerance.
Volume least_batch(const Room& room, const Stock& stock, Volume from, Volume to) {
  for (Volume batch = from; batch < to; batch = batch * 1.25) {
    const Mixture mixture = mix_batch(stock, room.products, room.tools, batch);
    if (mixture.strength_error.worst <= stock.dose.tolerance) return batch;
  }
  return to;
}

// Nothing where a full bottle is used up within its time. A batch counts as what is used by the
// doses alone, and what is thrown away raises `used`.
void mind_the_bottles_date(const Room& room, SupplyAnswer& out) {
  const Stock& stock = *out.stock->stock;
  const Container* container = find(room.containers, stock.container);
  if (!stock.keeps || container == nullptr || !out.makes) return;
  const Volume filled = filling_of(*container);
  const Mass in_bottle = out.pack * (in_litres(filled) / in_litres(*out.makes));
  const Duration full_lasts = lasts(in_bottle, out.used, out.water_each_time, out.period);
  if (full_lasts <= *stock.keeps) return;
  // Where it does not keep from one round to the next, what one round takes.
  const double rounds = std::max(1.0, std::floor(*stock.keeps / out.period + 1e-9));
  const Volume used = filled * (out.period * rounds / full_lasts);
  const Volume batch = least_batch(room, stock, used, filled);
  const Volume each = litres(rounded_outward(in_litres(batch), 2, true));
  out.short_lived = ShortLived{container->name, full_lasts, each, batch > used};
  if (each > used) out.used = out.used * (each / used);
}

}  // namespace

SupplyAnswer answer_supply(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  const SupplyRequest& request = document.supply;
  SupplyAnswer out;
  out.stock = find_stock(answers, document.chart.stocks.front());
  const Stock& stock = *out.stock->stock;
  out.product = find(room.products, stock.recipe.front().product);
  out.pack = *out.product->pack;
  out.in_stock = request.in_stock.value_or(out.pack);
  out.used = used_of(*out.stock, out.product->id);
  for (const Component& component : out.stock->mixture.components) {
    const auto* strength = std::get_if<Concentration>(&component.strength);
    if (!stock.dry && component.product == out.product->id && strength != nullptr)
      out.makes = litres(in_grams(out.pack) / in_grams_per_litre(*strength));
  }
  for (const Vessel& vessel : room.vessels) {
    if (vessel.kind == Vessel::Kind::tank && !vessel.usual_change && !request.water)
      out.left_out.push_back(vessel.name);
    if (vessel.kind != Vessel::Kind::tank || !vessel.usual_change) continue;
    ++out.tanks;
    out.water_each_time =
        out.water_each_time + water_to_dose(stock.dose, vessel.water, *vessel.usual_change);
  }
  if (request.water) {
    out.water_each_time = *request.water;
    out.tanks = 0;
  }
  out.period = request.every;
  if (in_litres(out.water_each_time) > 0) mind_the_bottles_date(room, out);
  out.treats = treated_by(out.pack, out.used);
  if (in_litres(out.water_each_time) > 0) {
    out.lasting = lasts(out.in_stock, out.used, out.water_each_time, out.period);
    out.reorder = reorder_at(out.used, out.water_each_time, out.period, request.order_takes);
  }
  if (out.product->price)
    out.cost = cost_of_treating(litres(1000), out.used, *out.product->price, out.pack);
  if (request.ready_price && request.ready_treats)
    out.ready_made = Money{request.ready_price->amount * (litres(1000) / *request.ready_treats),
                           request.ready_price->currency};
  return out;
}

}  // namespace dosewright
