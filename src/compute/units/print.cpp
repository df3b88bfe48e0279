#include "dosewright/units/print.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "unit_table.hpp"

namespace dosewright {

namespace {

// The decimal digits of |value| at 12 significant figures, as digits and the place of the point.
struct Digits {
  std::string digits;  // "d1d2…", value = 0.d1d2… * 10^point
  int point = 0;
};

Digits digits_of(double value) {
  std::array<char, 64> buffer{};
  const auto made = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value),
                                  std::chars_format::scientific, 11);
  const std::string text(buffer.data(), made.ptr);
  const std::size_t e = text.find('e');
  Digits out;
  for (const char c : text.substr(0, e)) {
    if (c != '.') out.digits += c;
  }
  int exponent = 0;
  const char* first = text.data() + e + 1;
  if (*first == '+') ++first;
  std::from_chars(first, text.data() + text.size(), exponent);
  out.point = exponent + 1;
  return out;
}

// Rounds half away from zero so that `keep` digits behind the point remain.
Digits rounded(Digits value, int keep) {
  const int wanted = value.point + keep;
  if (wanted < 0) return {"0", 1};
  const auto length = static_cast<std::size_t>(wanted);
  if (length >= value.digits.size()) return value;
  const bool up = value.digits[length] >= '5';
  value.digits.resize(length);
  if (!up) return value.digits.empty() ? Digits{"0", 1} : value;
  std::size_t at = length;
  while (at > 0 && value.digits[at - 1] == '9') value.digits[--at] = '0';
  if (at == 0) {
    value.digits.insert(value.digits.begin(), '1');
    ++value.point;
  } else {
    ++value.digits[at - 1];
  }
  return value;
}

std::string grouped(const std::string& whole) {
  std::string out;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    if (i > 0 && (whole.size() - i) % 3 == 0) out += ',';
    out += whole[i];
  }
  return out;
}

std::string laid_out(Digits value) {
  if (value.point <= 0) {
    value.digits.insert(0, static_cast<std::size_t>(1 - value.point), '0');
    value.point = 1;
  }
  const auto point = static_cast<std::size_t>(value.point);
  if (value.digits.size() < point) value.digits.append(point - value.digits.size(), '0');
  std::string fraction = value.digits.substr(point);
  while (!fraction.empty() && fraction.back() == '0') fraction.pop_back();
  const std::string whole = grouped(value.digits.substr(0, point));
  return fraction.empty() ? whole : whole + '.' + fraction;
}

bool reads_as_zero(const std::string& text) {
  return text.find_first_of("123456789") == std::string::npos;
}

}  // namespace

std::string figure(double value, int decimals) {
  const std::string text = laid_out(rounded(digits_of(value), std::clamp(decimals, 0, 9)));
  if (reads_as_zero(text)) return "0";
  return value < 0 ? '-' + text : text;
}

std::string significant_figure(double value, int significant) {
  if (value == 0) return "0";
  const Digits exact = digits_of(value);
  const std::string text = laid_out(rounded(exact, significant - exact.point));
  return value < 0 ? '-' + text : text;
}

double rounded_outward(double value, int significant, bool up) {
  const double unit = std::pow(10.0, std::floor(std::log10(value)) + 1 - significant);
  constexpr double kHair = 1e-9;  // what is on the figure but for binary noise stays there
  return (up ? std::ceil(value / unit - kHair) : std::floor(value / unit + kHair)) * unit;
}

int decimals_of(double step) {
  for (int decimals = 0; decimals < 6; ++decimals) {
    const double scaled = step * std::pow(10.0, decimals);
    if (std::fabs(scaled - std::round(scaled)) < 1e-6 * std::max(1.0, scaled)) return decimals;
  }
  return 6;
}

std::string in_words_mL(Volume volume, int decimals) {
  return figure(in_millilitres(volume), decimals) + " mL";
}

std::string volume_text(Volume volume) {
  if (in_millilitres(volume) >= 1000) return significant_figure(in_litres(volume), 4) + " L";
  return significant_figure(in_millilitres(volume), 3) + " mL";
}

std::string mass_text(Mass mass) {
  const double g = in_grams(mass);
  if (g >= 1000) return significant_figure(g / 1000, 4) + " kg";
  if (g < 1) return significant_figure(g * 1000, 3) + " mg";
  return significant_figure(g, 4) + " g";
}

std::string unit_of(Portion portion) { return portion.is_powder() ? "g" : "mL"; }

std::string portion_text(Portion portion) {
  if (portion.is_powder()) return mass_text(grams(in_grams(portion)));
  return volume_text(millilitres(in_millilitres(portion)));
}

std::string concentration_text(Concentration concentration) {
  const double g = in_grams_per_litre(concentration);
  if (g < 1) return significant_figure(g * 1000, 3) + " mg per L";
  return significant_figure(g, 3) + " g per L";
}

std::string percent_text(Share share) {
  return significant_figure(as_ratio(share) * 100, 3) + " %";
}

std::string length_text(Length length) { return figure(in_millimetres(length), 1) + " mm"; }

std::string money_text(const Money& money) {
  std::string text = figure(money.amount, 2);
  const std::size_t point = text.find('.');
  if (point == std::string::npos) text += ".00";
  if (point != std::string::npos && text.size() - point == 2) text += '0';
  return text + ' ' + money.currency;
}

FigureAndUnit water_text(Volume volume, MeasureSystem system, int significant) {
  for (const SystemUnit& unit : system_units()) {
    if (unit.system != system || unit.spelling != "gal") continue;
    return {significant_figure(in_millilitres(volume) / unit.millilitres, significant),
            std::string(name_of(system)) + " gal"};
  }
  return {significant_figure(in_litres(volume), significant), "L"};
}

}  // namespace dosewright
