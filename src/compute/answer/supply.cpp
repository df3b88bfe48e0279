#include "dosewright/answer/supply.hpp"

#include "dosewright/dose/dose.hpp"

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
  out.treats = treated_by(out.pack, out.used);
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
