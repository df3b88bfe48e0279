// The answers as JSON: documented in README.md and stable, for scripts to lean on.
#include <cmath>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

using Json = nlohmann::ordered_json;

// Twelve figures: what the arithmetic is good for, without the noise of binary fractions.
double clean(double value) {
  if (value == 0) return 0;
  const double scale = std::pow(10.0, 11 - std::floor(std::log10(std::fabs(value))));
  return std::round(value * scale) / scale;
}

Json finding_json(const Diagnostic& problem) {
  Json out;
  out["severity"] = name_of(problem.severity);
  out["file"] = problem.place.source ? problem.place.source->name : "";
  out["line"] = problem.place.line;
  out["column"] = problem.place.column;
  out["path"] = problem.path;
  out["message"] = problem.message;
  out["hint"] = problem.hint;
  return out;
}

Json stock_json(const Room& room, const StockAnswer& stock) {
  Json out;
  out["stock"] = stock.stock->id;
  out["name"] = stock.stock->name;
  out["code"] = stock.code.letters;
  out["contents"] = contents_text(room, stock.mixture);
  out["dose_mL_per_L"] = clean(in_millilitres_per_litre(stock.rate));
  out["strength_bound_percent"] = clean(100 * as_ratio(stock.mixture.strength_bound));
  return out;
}

}  // namespace

std::string check_json(const Diagnostics& problems, const RoomAnswer* answers) {
  Json out;
  out["findings"] = Json::array();
  for (const Diagnostic& problem : problems) out["findings"].push_back(finding_json(problem));
  out["stocks"] = Json::array();
  if (answers != nullptr) {
    for (const StockAnswer& stock : answers->stocks)
      out["stocks"].push_back(stock_json(*answers->room, stock));
  }
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string dose_json(const StockAnswer& stock, const DoseAnswer& dose) {
  Json out;
  out["stock"] = stock.stock->id;
  out["code"] = stock.code.letters;
  out["volume_L"] = clean(in_litres(dose.water));
  out["exact_mL"] = clean(in_millilitres(dose.exact));
  out["measured_mL"] = nullptr;
  out["off_by_mL"] = nullptr;
  out["pours"] = Json::array();
  if (const auto& measured = dose.measured.measured) {
    out["measured_mL"] = clean(in_millilitres(measured->total));
    out["off_by_mL"] = clean(in_millilitres(measured->off_by));
    for (const Pour& pour : measured->pours) {
      out["pours"].push_back({{"tool", pour.tool->id},
                              {"to_mL", clean(in_millilitres(pour.to))},
                              {"count", pour.count}});
    }
  } else {
    out["problem"] = why_not(dose.measured);
  }
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace dosewright
