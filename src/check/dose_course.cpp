// The whole recipe for so much water, and the course of a dose: over how many days it is given, and
// what follows a water change.
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// Our own limit.
constexpr double kMostDays = 60;

void error(const MapReader& map, std::string_view key, std::string message, std::string hint) {
  map.error(map.find(key)->place, map.path_of(key), std::move(message), std::move(hint));
}

// "3 x 5000 US gal": so many bottles that treat so much each.
struct Counted {
  std::string bottles;  // empty when the water stands alone
  std::string water;
};

Counted taken_apart(const std::string& text) {
  const std::size_t cross = text.find(" x ");
  if (cross == std::string::npos) return {"", trimmed(text)};
  return {trimmed(text.substr(0, cross)), trimmed(text.substr(cross + 3))};
}

// Read as a number of g/L, for numbers are read in one place only.
std::optional<double> bottles_of(const MapReader& map, const std::string& text) {
  const auto read = parse_concentration(text + " g/L", MeasureSystem::undeclared);
  const auto* found = std::get_if<Concentration>(&read);
  if (found != nullptr && in_grams_per_litre(*found) > 0) return in_grams_per_litre(*found);
  error(map, "treats", "not a number of bottles: " + quoted(text),
        "write treats: 3 x 5000 US gal, or the water alone");
  return std::nullopt;
}

std::string water_words(const std::string& text, Volume water, MeasureSystem system) {
  const auto written = volume_as_written(text, system);
  return written ? written->figure + ' ' + written->unit : volume_text(water);
}

// In the unit it was written in: 3 x 5000 US gal is 15,000 US gal.
std::string all_water(const Counted& counted, double bottles, Volume one, MeasureSystem system) {
  const auto written = volume_as_written(counted.water, system);
  const auto unit =
      written ? parse_volume("1 " + written->unit, system) : Parsed<Volume>(QuantityProblem{});
  const auto* size = std::get_if<Volume>(&unit);
  if (size == nullptr) return volume_text(one * bottles);
  return significant_figure(one * bottles / *size, 4) + ' ' + written->unit;
}

}  // namespace

void read_whole_mix(const MapReader& map, const Stock& stock, DoseRule& dose) {
  dose.target_key = "treats";
  const Node& node = *map.find("treats");
  if (!map.is_scalar(node, map.path_of("treats"))) return;
  if (stock.dry) {
    error(map, "treats", "a powder straight from its tub has no recipe that could treat water",
          "write give: with grams, such as 5 g per 100 L");
    return;
  }
  const MeasureSystem system = map.checking().measures;
  const Counted counted = taken_apart(node.text);
  const auto bottles =
      counted.bottles.empty() ? std::optional(1.0) : bottles_of(map, counted.bottles);
  Node part = node;
  part.text = counted.water;
  const auto one = map.parsed<Volume>(part, map.path_of("treats"), volume_in(map.checking()));
  if (!bottles || !one) return;
  const Volume water = *one * *bottles;
  if (in_millilitres(water) <= 0 || water > kMostWater) {
    error(map, "treats",
          in_millilitres(water) <= 0 ? "water of nothing"
                                     : "an absurd volume: more than " + volume_text(kMostWater),
          "write how much water all that is mixed treats, such as 3 x 5000 US gal");
    return;
  }
  dose.amount = WholeMix{water};
  dose.basis_text = {
      {"the whole recipe as written treats {1}", {all_water(counted, *bottles, *one, system)}}};
  if (!counted.bottles.empty())
    dose.basis_text.push_back(
        {", counted as {1} x {2}",
         {significant_figure(*bottles, 4), water_words(counted.water, *one, system)}});
}

void read_course(const MapReader& map, DoseRule& dose) {
  if (const auto over = map.value<Duration>("over", parse_duration)) {
    const double days = std::round(in_days(*over));
    if (std::fabs(days - in_days(*over)) > 1e-9 || days < 2 || days > kMostDays) {
      error(map, "over", "not a number of days to give a dose over: " + quoted(map.text("over")),
            "write whole days, 2 to " + figure(kMostDays, 0) +
                ", such as 3 days; a dose given at once needs no over:");
    } else {
      dose.days = static_cast<int>(days);
    }
  }
  const std::string then = map.word("then", {"new water", "again"}, "");
  if (then == "new water") dose.then = AfterChange::new_water;
  if (then == "again") dose.then = AfterChange::again;
  if (dose.then == AfterChange::unstated || dose.basis == WaterBasis::whole_vessel) return;
  error(map, "then", "then: says what follows a dose for the whole vessel",
        "add for: whole vessel, or take then: out: a dose for new water is given at each change");
}

}  // namespace dosewright
