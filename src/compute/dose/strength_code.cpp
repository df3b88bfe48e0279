#include "dosewright/dose/strength_code.hpp"

#include <algorithm>
#include <cstdint>

#include "dosewright/base/hash.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// The output function of splitmix64 (Steele, Lea and Flood, 2014).
std::uint64_t mixed(std::uint64_t z) {
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31U);
}

std::string six(double value) { return significant_figure(value, 6); }

std::string_view rounding_word(Rounding rounding) {
  if (rounding == Rounding::never_under) return "never under";
  return rounding == Rounding::never_over ? "never over" : "nearest";
}

std::string canonical_form(const Stock& stock, const Mixture& mixture,
                           const std::vector<Product>& products) {
  std::vector<std::string> parts;
  for (const Component& component : mixture.components) {
    parts.push_back(component_text(component, products));
    if (stock.dry) parts.back() = "from the tub: " + parts.back().substr(0, parts.back().find('='));
  }
  std::sort(parts.begin(), parts.end());
  std::string out;
  for (const std::string& part : parts) out += part + '|';
  out += "dose=" + six(per_litre(dose_rate(stock.dose, mixture)));
  out += stock.dose.basis == WaterBasis::new_water ? "|new water|" : "|whole vessel|";
  out += rounding_word(stock.dose.rounding);
  if (stock.dose.days > 1) out += "|over=" + std::to_string(stock.dose.days) + " days";
  if (stock.dose.then == AfterChange::new_water) out += "|then=new water";
  if (stock.dose.then == AfterChange::again) out += "|then=again";
  if (stock.dose.ceiling) out += "|atmost=" + six(per_litre(*stock.dose.ceiling));
  if (stock.dose.floor) out += "|atleast=" + six(per_litre(*stock.dose.floor));
  return out;
}

}  // namespace

std::string component_text(const Component& component, const std::vector<Product>& products) {
  const Product* product = find(products, component.product);
  const std::string name = product->cas.empty() ? lowered(product->name) : product->cas;
  if (const auto* by_weight = std::get_if<Concentration>(&component.strength)) {
    return name + '=' + six(in_grams_per_litre(*by_weight));
  }
  return name + '~' + six(in_millilitres_per_litre(std::get<VolumePerVolume>(component.strength)));
}

StrengthCode strength_code(const Stock& stock, const Mixture& mixture,
                           const std::vector<Product>& products) {
  StrengthCode code;
  code.canonical = canonical_form(stock, mixture, products);
  std::uint64_t bits = mixed(fnv1a_64(code.canonical));
  for (CellPattern& cell : code.strip) {
    cell = static_cast<CellPattern>(bits & 3U);
    bits >>= 2U;
  }
  for (int i = 0; i < 5; ++i) {
    if (i == 2) code.letters += ' ';
    code.letters += kCodeCharacters[bits % kCodeCharacters.size()];
    bits /= kCodeCharacters.size();
  }
  return code;
}

}  // namespace dosewright
