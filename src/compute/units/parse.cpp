#include "dosewright/units/parse.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "unit_table.hpp"

namespace dosewright {

namespace {

// What each kind of amount is called in a message, with an example to copy.
struct Wanted {
  std::string noun;
  std::string example;
};

// A number at the start of a text and where its unit begins.
struct Measured {
  double number = 0;
  std::string unit;  // as written, trimmed, inner spaces single
  std::size_t unit_at = 0;
};

constexpr double kLargest = 1e12;  // a million cubic metres in mL: no room holds more

bool is_digit(char c) { return c >= '0' && c <= '9'; }

QuantityProblem problem(std::string message, std::string hint, std::size_t at = 0) {
  return {std::move(message), std::move(hint), at, false};
}

std::string quoted(std::string_view text) { return '"' + std::string(text) + '"'; }

std::string example_hint(const Wanted& wanted) { return "write " + wanted.example; }

std::size_t skip_spaces(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\t')) ++at;
  return at;
}

// Digits with at most one decimal point, from `at`; moves `at` past them.
std::optional<double> plain_number(std::string_view text, std::size_t& at) {
  const std::size_t start = at;
  while (at < text.size() && (is_digit(text[at]) || text[at] == '.')) ++at;
  double value = 0;
  const char* const first = text.data() + start;
  const char* const last = text.data() + at;
  const auto [end, failed] = std::from_chars(first, last, value, std::chars_format::fixed);
  const bool usable = failed == std::errc() && end == last && std::isfinite(value);
  if (!usable || start == at) return std::nullopt;
  return value;
}

// "/ 4" behind a number already read: a fraction, or nothing.
std::optional<double> denominator(std::string_view text, std::size_t& at) {
  std::size_t next = at;
  if (next >= text.size() || text[next] != '/') return std::nullopt;
  ++next;
  if (next >= text.size() || !is_digit(text[next])) return std::nullopt;
  const std::optional<double> value = plain_number(text, next);
  if (value) at = next;
  return value;
}

// "1", "1.5", "1/2" or "1 1/2".
std::variant<double, QuantityProblem> leading_number(std::string_view text, std::size_t& at,
                                                     const Wanted& wanted) {
  const std::size_t start = at;
  if (at < text.size() && text[at] == '-') {
    return problem("an amount cannot be negative: " + quoted(text), example_hint(wanted), at);
  }
  if (at < text.size() && text[at] == '.') {
    return problem("a bare decimal point is easily overlooked: " + quoted(text),
                   "write a zero before the point: 0" + std::string(text.substr(at)), at);
  }
  std::optional<double> value = plain_number(text, at);
  if (!value) {
    return problem("expected " + wanted.noun + ", found " + quoted(text), example_hint(wanted),
                   start);
  }
  if (at < text.size() && text[at] == ',') {
    return problem("a comma inside a number can be read two ways: " + quoted(text),
                   "write 1500 for fifteen hundred, 1.5 for one and a half", at);
  }
  if (const std::optional<double> below = denominator(text, at)) {
    if (*below <= 0)
      return problem("a fraction over zero: " + quoted(text), example_hint(wanted), at);
    return *value / *below;
  }
  std::size_t next = skip_spaces(text, at);
  if (next > at && next < text.size() && is_digit(text[next])) {
    const std::optional<double> top = plain_number(text, next);
    const std::optional<double> below = denominator(text, next);
    const bool whole = text.substr(start, at - start).find('.') == std::string_view::npos;
    if (!top || !below || *below <= 0 || !whole) {
      return problem("two numbers in a row: " + quoted(text), example_hint(wanted), at);
    }
    at = next;
    return *value + *top / *below;
  }
  return *value;
}

std::string single_spaced(std::string_view text) {
  std::string out;
  for (const char c : trimmed(text)) {
    if ((c == ' ' || c == '\t') && !out.empty() && out.back() == ' ') continue;
    out += c == '\t' ? ' ' : c;
  }
  return out;
}

std::variant<Measured, QuantityProblem> measured(std::string_view text, const Wanted& wanted) {
  if (trimmed(text).empty()) return problem("expected " + wanted.noun, example_hint(wanted));
  std::size_t at = skip_spaces(text, 0);
  const auto number = leading_number(text, at, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&number)) return *bad;
  const std::size_t unit_at = skip_spaces(text, at);
  return Measured{std::get<double>(number), single_spaced(text.substr(at)), unit_at};
}

std::vector<std::string> spellings(Dimension dimension) {
  std::vector<std::string> out;
  for (const Unit& unit : plain_units()) {
    if (unit.dimension == dimension) out.emplace_back(unit.spelling);
  }
  return out;
}

QuantityProblem bare_measure(std::string_view measure, std::size_t at) {
  std::vector<std::string> ways;
  for (const SystemUnit& unit : system_units()) {
    if (unit.spelling == measure) {
      ways.push_back(std::string(name_of(unit.system)) + ' ' + std::string(measure));
    }
  }
  QuantityProblem out = problem("a bare " + quoted(measure) + " can be any of several sizes",
                                "write " + either(ways) + ", or declare room.measures", at);
  out.needs_system = true;
  return out;
}

// A volume's unit in printing style: "litres" is L, a bare "gallons" is the declared system's gal.
std::string canonical_unit(std::string_view unit, MeasureSystem declared) {
  std::string low = lowered(unit);
  if (low == "l" || low.starts_with("lit")) return "L";
  if (low == "ml" || low.starts_with("mil")) return "mL";
  if (low == "cl") return "cL";
  if (low == "dl") return "dL";
  MeasureSystem system = declared;
  const std::size_t space = low.find(' ');
  if (space != std::string::npos &&
      system_word(low.substr(0, space)) != MeasureSystem::undeclared) {
    system = system_word(low.substr(0, space));
    low = low.substr(space + 1);
  }
  const std::string_view measure = system_measure(low);
  if (measure.empty()) return low;
  return std::string(name_of(system)) + ' ' + std::string(measure);
}

// The factor of a measure whose size depends on the system, or why there is none.
std::optional<Parsed<double>> system_factor(std::string_view unit, MeasureSystem declared,
                                            std::size_t at) {
  MeasureSystem system = declared;
  std::string rest(unit);
  const std::size_t space = rest.find(' ');
  if (space != std::string::npos) {
    const MeasureSystem named = system_word(rest.substr(0, space));
    if (named != MeasureSystem::undeclared) {
      system = named;
      rest = rest.substr(space + 1);
    }
  }
  const std::string_view measure = system_measure(rest);
  if (measure.empty()) return std::nullopt;
  if (system == MeasureSystem::undeclared) return bare_measure(measure, at);
  for (const SystemUnit& known : system_units()) {
    if (known.system == system && known.spelling == measure) return known.millilitres;
  }
  return problem(std::string(name_of(system)) + " measures have no " + quoted(measure),
                 "write US " + std::string(measure) + " or imperial " + std::string(measure), at);
}

QuantityProblem unknown_unit(std::string_view unit, Dimension dimension, const Wanted& wanted,
                             std::size_t at) {
  const std::string low = lowered(unit);
  if (unit.empty()) return problem("the unit is missing", example_hint(wanted), at);
  if (low == "cc" || low == "ccm") {
    return problem("\"cc\" is easily misread", "write mL, it is the same amount", at);
  }
  if (dimension == Dimension::volume && (low == "oz" || low == "ounce" || low == "ounces")) {
    return problem("\"oz\" is a weight; a volume wants fluid ounces",
                   "write US fl oz or imperial fl oz", at);
  }
  if (dimension == Dimension::time && low.starts_with("month")) {
    return problem("a month has 28 to 31 days", "write days or weeks, such as 90 days", at);
  }
  if (dimension == Dimension::time && low.starts_with("year")) {
    return problem("a year has 365 or 366 days", "write days or weeks, such as 365 days", at);
  }
  std::string hint = example_hint(wanted);
  if (const auto near = nearest(unit, spellings(dimension))) {
    hint = "did you mean " + quoted(*near == "ml" ? "mL" : *near == "l" ? "L" : *near) + "?";
  }
  return problem(quoted(unit) + " is not a unit of " + wanted.noun, hint, at);
}

Parsed<double> factor_of(std::string_view unit, Dimension dimension, MeasureSystem system,
                         const Wanted& wanted, std::size_t at) {
  const std::string low = lowered(unit);
  for (const Unit& known : plain_units()) {
    if (known.dimension == dimension && known.spelling == low) return known.factor;
  }
  if (dimension == Dimension::volume) {
    if (auto found = system_factor(low, system, at)) return *found;
  }
  return unknown_unit(unit, dimension, wanted, at);
}

Parsed<double> simple_amount(std::string_view text, Dimension dimension, MeasureSystem system,
                             const Wanted& wanted) {
  const auto read = measured(text, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
  const auto& amount = std::get<Measured>(read);
  const auto factor = factor_of(amount.unit, dimension, system, wanted, amount.unit_at);
  if (const auto* bad = std::get_if<QuantityProblem>(&factor)) return *bad;
  const double value = amount.number * std::get<double>(factor);
  if (!std::isfinite(value) || value > kLargest) {
    return problem("too large an amount: " + quoted(text), "check the number and its unit");
  }
  return value;
}

// Splits "1.4 mL per 20 L" or "120 g/L" at its "per" or "/"; nothing when there is neither.
struct Halves {
  std::string above;
  std::string below;
  std::size_t below_at = 0;
};

std::optional<Halves> halves(std::string_view text) {
  const std::size_t per = text.find(" per ");
  if (per != std::string_view::npos) {
    return Halves{std::string(text.substr(0, per)), std::string(text.substr(per + 5)), per + 5};
  }
  for (std::size_t at = 1; at < text.size(); ++at) {
    const bool fraction = is_digit(text[at - 1]) && at + 1 < text.size() && is_digit(text[at + 1]);
    if (text[at] == '/' && !fraction) {
      return Halves{std::string(text.substr(0, at)), std::string(text.substr(at + 1)), at + 1};
    }
  }
  return std::nullopt;
}

struct RatioKind {
  Dimension above = Dimension::volume;
  Dimension below = Dimension::volume;
  Wanted wanted;
};

Parsed<double> ratio(std::string_view text, const RatioKind& kind, MeasureSystem system) {
  const std::optional<Halves> parts = halves(text);
  if (!parts) {
    return problem("expected " + kind.wanted.noun + ", found " + quoted(text),
                   example_hint(kind.wanted));
  }
  const auto above = simple_amount(parts->above, kind.above, system, kind.wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&above)) return *bad;
  std::string below = trimmed(parts->below);
  if (!below.empty() && !is_digit(below.front())) below = "1 " + below;
  auto under = simple_amount(below, kind.below, system, kind.wanted);
  if (auto* bad = std::get_if<QuantityProblem>(&under)) {
    bad->at = parts->below_at;
    return *bad;
  }
  if (std::get<double>(under) <= 0) {
    return problem("an amount per nothing: " + quoted(text), example_hint(kind.wanted),
                   parts->below_at);
  }
  return std::get<double>(above) / std::get<double>(under);
}

// A percentage that says what it is a percentage of; nothing when the text has no "%".
std::optional<Parsed<double>> percentage(std::string_view text, std::string_view basis,
                                         const Wanted& wanted) {
  if (text.find('%') == std::string_view::npos) return std::nullopt;
  const auto read = measured(text, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
  const auto& amount = std::get<Measured>(read);
  std::string unit = lowered(amount.unit);
  unit.erase(std::remove(unit.begin(), unit.end(), ' '), unit.end());
  if (unit == '%' + std::string(basis)) return amount.number;
  if (unit == "%") {
    return problem("a bare % does not say of what",
                   "write % " + std::string(basis) + ", or " + wanted.example, amount.unit_at);
  }
  return problem(quoted(amount.unit) + " is not " + wanted.noun,
                 "write % " + std::string(basis) + ", or " + wanted.example, amount.unit_at);
}

template <class Value>
Parsed<Value> as(const Parsed<double>& raw, double scale = 1) {
  if (const auto* bad = std::get_if<QuantityProblem>(&raw)) return *bad;
  return Value(std::get<double>(raw) * scale);
}

std::optional<double> parts_per_million(std::string_view text, const Wanted& wanted) {
  const auto read = measured(text, wanted);
  const auto* amount = std::get_if<Measured>(&read);
  if (amount == nullptr || lowered(amount->unit) != "ppm") return std::nullopt;
  return amount->number;
}

}  // namespace

Parsed<Volume> parse_volume(std::string_view text, MeasureSystem system) {
  const Wanted wanted{"a volume", "a number and a unit, such as 5 mL or 1.5 US gal"};
  return as<Volume>(simple_amount(text, Dimension::volume, system, wanted));
}

std::optional<FigureAndUnit> volume_as_written(std::string_view text, MeasureSystem system) {
  const Wanted wanted{"a volume", ""};
  const auto read = measured(text, wanted);
  const auto* amount = std::get_if<Measured>(&read);
  if (amount == nullptr) return std::nullopt;
  FigureAndUnit out{figure(amount->number, 4), canonical_unit(amount->unit, system)};
  // What is printed must mean what was computed.
  std::string plain = out.figure;
  plain.erase(std::remove(plain.begin(), plain.end(), ','), plain.end());
  const auto again = parse_volume(plain + ' ' + out.unit, system);
  const auto meant = parse_volume(text, system);
  const auto* a = std::get_if<Volume>(&again);
  const auto* b = std::get_if<Volume>(&meant);
  const bool same = a != nullptr && b != nullptr && std::fabs(*a / *b - 1) < 1e-9;
  if (!same) return std::nullopt;
  return out;
}

Parsed<Mass> parse_mass(std::string_view text) {
  const Wanted wanted{"a weight", "a number and a unit, such as 100 g or 2 lb"};
  return as<Mass>(simple_amount(text, Dimension::mass, MeasureSystem::undeclared, wanted));
}

Parsed<Length> parse_length(std::string_view text) {
  const Wanted wanted{"a length", "a number and a unit, such as 40 cm or 16 in"};
  return as<Length>(simple_amount(text, Dimension::length, MeasureSystem::undeclared, wanted));
}

Parsed<Duration> parse_duration(std::string_view text) {
  const Wanted wanted{"a time", "a number and a unit, such as 60 days"};
  return as<Duration>(simple_amount(text, Dimension::time, MeasureSystem::undeclared, wanted));
}

Parsed<Temperature> parse_temperature(std::string_view text) {
  const Wanted wanted{"a temperature", "a number and a unit, such as 5 °C"};
  const std::string whole = trimmed(text);
  const bool below = whole.starts_with('-');
  const auto read = measured(below ? std::string_view(whole).substr(1) : whole, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
  const auto& amount = std::get<Measured>(read);
  const double number = below ? -amount.number : amount.number;
  if (amount.unit == "°C" || amount.unit == "C") return degrees_celsius(number);
  if (amount.unit == "°F" || amount.unit == "F") return degrees_celsius((number - 32) * 5 / 9);
  return problem("expected a temperature, found " + quoted(text), example_hint(wanted),
                 amount.unit_at);
}

Parsed<Share> parse_share(std::string_view text) {
  const Wanted wanted{"a percentage", "a number and a percent sign, such as 25 %"};
  const auto read = measured(text, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
  const auto& amount = std::get<Measured>(read);
  if (amount.unit != "%") {
    return problem("expected a percentage, found " + quoted(text), example_hint(wanted),
                   amount.unit_at);
  }
  if (amount.number > 100) {
    return problem("more than the whole: " + quoted(text), "write a percentage from 0 to 100 %");
  }
  return share(amount.number / 100);
}

Parsed<Concentration> parse_concentration(std::string_view text, MeasureSystem system) {
  const RatioKind kind{
      Dimension::mass, Dimension::volume, {"a weight per volume", "an amount such as 120 g/L"}};
  if (const auto percent = percentage(text, "w/v", kind.wanted)) {
    return as<Concentration>(*percent, 10);  // 1 % w/v = 1 g per 100 mL
  }
  if (const auto ppm = parts_per_million(text, kind.wanted)) return grams_per_litre(*ppm / 1000);
  return as<Concentration>(ratio(text, kind, system), 1000);  // g/mL to g/L
}

Parsed<VolumePerVolume> parse_volume_per_volume(std::string_view text, MeasureSystem system) {
  const RatioKind kind{Dimension::volume,
                       Dimension::volume,
                       {"a volume per volume", "an amount such as 1.4 mL per 20 L"}};
  if (const auto percent = percentage(text, "v/v", kind.wanted)) {
    return as<VolumePerVolume>(*percent, 10);  // 1 % v/v = 1 mL per 100 mL
  }
  return as<VolumePerVolume>(ratio(text, kind, system), 1000);
}

Parsed<MassPerMass> parse_mass_per_mass(std::string_view text) {
  const RatioKind kind{
      Dimension::mass, Dimension::mass, {"a weight per weight", "an amount such as 98 % w/w"}};
  if (const auto percent = percentage(text, "w/w", kind.wanted)) {
    return as<MassPerMass>(*percent, 0.01);
  }
  return as<MassPerMass>(ratio(text, kind, MeasureSystem::undeclared));
}

Parsed<VolumePerMass> parse_volume_per_mass(std::string_view text, MeasureSystem system) {
  const RatioKind kind{
      Dimension::volume, Dimension::mass, {"a volume per weight", "an amount such as 0.5 mL/g"}};
  return as<VolumePerMass>(ratio(text, kind, system));
}

Parsed<std::vector<Length>> parse_lengths(std::string_view text, std::size_t count) {
  const std::string example =
      count == 2 ? "two lengths, such as 105 x 74 mm" : "three lengths, such as 30 x 12 x 18 in";
  const Wanted wanted{"a length", example};
  std::vector<std::string> parts;
  std::string rest = single_spaced(text);
  for (std::size_t cross = rest.find(" x "); cross != std::string::npos; cross = rest.find(" x ")) {
    parts.push_back(rest.substr(0, cross));
    rest = rest.substr(cross + 3);
  }
  parts.push_back(rest);
  if (parts.size() != count) {
    return problem(
        "expected " + std::to_string(count) + " lengths joined by \" x \", found " + quoted(text),
        "write " + example);
  }
  const auto last = measured(parts.back(), wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&last)) return *bad;
  const std::string shared_unit = std::get<Measured>(last).unit;
  std::vector<Length> out;
  for (const std::string& part : parts) {
    const auto read = measured(part, wanted);
    if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
    const auto& amount = std::get<Measured>(read);
    const auto factor = factor_of(amount.unit.empty() ? shared_unit : amount.unit,
                                  Dimension::length, MeasureSystem::undeclared, wanted, 0);
    if (const auto* bad = std::get_if<QuantityProblem>(&factor)) return *bad;
    out.push_back(millimetres(amount.number * std::get<double>(factor)));
  }
  return out;
}

Parsed<Money> parse_money(std::string_view text) {
  const Wanted wanted{"a price", "a number and a currency, such as 14.90 EUR"};
  std::string words = single_spaced(text);
  const auto is_letter = [](unsigned char c) { return std::isupper(c) != 0; };
  if (words.size() > 4 && is_letter(static_cast<unsigned char>(words[0])) && words[3] == ' ') {
    words = words.substr(4) + ' ' + words.substr(0, 3);
  }
  const auto read = measured(words, wanted);
  if (const auto* bad = std::get_if<QuantityProblem>(&read)) return *bad;
  const auto& amount = std::get<Measured>(read);
  const bool currency =
      amount.unit.size() == 3 && std::all_of(amount.unit.begin(), amount.unit.end(), is_letter);
  if (!currency) {
    return problem("a price wants its currency in three capital letters, found " + quoted(text),
                   example_hint(wanted), amount.unit_at);
  }
  return Money{amount.number, amount.unit};
}

Parsed<int> parse_count(std::string_view text) {
  const std::string word = trimmed(text);
  const bool digits = !word.empty() && std::all_of(word.begin(), word.end(), is_digit);
  if (!digits)
    return problem("expected a whole number, found " + quoted(text),
                   "write digits only, such as 3");
  if (word.size() > 1 && word.front() == '0') {
    return problem("a leading zero is read differently by different programs: " + quoted(text),
                   "write " + word.substr(std::min(word.find_first_not_of('0'), word.size() - 1)));
  }
  int value = 0;
  const auto [end, failed] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (failed != std::errc() || end != word.data() + word.size() || value > 1000000) {
    return problem("too large a number: " + quoted(text), "write a number up to 1000000");
  }
  return value;
}

}  // namespace dosewright
