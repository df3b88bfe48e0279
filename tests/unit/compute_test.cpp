// Mixing, doses and volumes against published worked examples. Each check names its source.
#include <catch2/catch.hpp>

#include "dosewright/answer/answer.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;
using testing::base_room;

namespace {

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

Room room_of(const std::string& text) {
  auto read = testing::read_room(text);
  for (const Diagnostic& problem : read.problems) UNSCOPED_INFO(format(problem));
  REQUIRE(read.room);
  return *read.room;
}

double litres_of_vessel(const std::string& keys) {
  const Room room = room_of(with(base_room(), "    volume: 20 gal\n", keys));
  return in_litres(room.vessels.front().water);
}

double us_gallons(double litres) { return litres / 3.785411784; }

// c1 V1 = c2 V2 by way of the product's own types: how much stock of `strength` goes into a
// finished volume of `finished` litres at `target`. The dose rule counts on the water without the
// dose; so the finished volume is the water and the dose together.
double stock_for(double target, double finished, double strength) {
  Mixture mixture;
  mixture.components.push_back({"solute", grams_per_litre(strength), grams(1), false});
  mixture.makes = litres(1);
  DoseRule rule;
  rule.amount = Target{grams_per_litre(target), "solute"};
  const double stock_per_water = per_litre(dose_rate(rule, mixture)) / 1000;
  return finished * stock_per_water / (1 + stock_per_water);
}

}  // namespace

// OpenStax Chemistry 2e, section 3.4 "Other Units for Solution Concentrations" and 3.3 "Molarity":
// worked examples and exercises on dilution. Concentrations in mol/L stand in for g/L: the law is
// the same. "V2" is the finished volume, so the dose rule's "litres of treated water" is that
// volume.
TEST_CASE("dilutions agree with a chemistry textbook") {
  CHECK(stock_for(2.36, 1.80, 5.00) == Approx(0.850).epsilon(2e-3));
  CHECK(stock_for(0.102, 0.500, 2.04) * 1000 == Approx(25.0).epsilon(2e-3));
  CHECK(stock_for(0.125, 3.76, 1.88) == Approx(0.250).epsilon(2e-3));
  CHECK(stock_for(0.100, 5.00, 1.59) == Approx(0.314).epsilon(2e-3));
  CHECK(stock_for(0.575, 0.261, 3.00) * 1000 == Approx(50.0).epsilon(2e-3));
  CHECK(stock_for(0.1222, 0.5000, 0.3556) == Approx(0.1718).epsilon(2e-3));
  CHECK(stock_for(0.125, 2.00, 0.250) == Approx(1.00).epsilon(1e-9));
  CHECK(stock_for(0.04888, 1.250, 0.1222) == Approx(0.5000).epsilon(1e-4));
  CHECK(stock_for(0.206, 4.00, 0.350) == Approx(2.35).epsilon(3e-3));
  CHECK(stock_for(0.0056, 0.1000, 0.025) * 1000 == Approx(22.50).epsilon(6e-3));
}

// freemathhelp.com, thread 124799, worked answers: diluting 12.5 % bleach.
TEST_CASE("dilutions agree with worked answers on bleach") {
  CHECK(stock_for(1, 50, 12.5) == Approx(4).epsilon(1e-9));
  CHECK(stock_for(6, 30, 12.5) == Approx(14.4).epsilon(1e-9));
  // mathcentral.uregina.ca, QQ.09.07: 20 gal of concentrate at 0.5 % v/v make 4,000 gal.
  CHECK(stock_for(0.5, 4000, 100) == Approx(20).epsilon(1e-9));
}

// Chlorine Monitoring and Dechlorinating Techniques Handbook, p. 46: a stock of 20.3 g/L in a tank
// of 3,000 imperial gallons (13,650 L as printed) takes 277.1 kg.
TEST_CASE("a stock tank holds what the handbook prints") {
  const Mass mass = grams_per_litre(20.3) * litres(13650);
  CHECK(in_grams(mass) / 1000 == Approx(277.1).epsilon(5e-4));
}

// The same handbook, table 3-5: 708 mL of the "2 %" stock (20.3 g/L) for 10,000 L at 1 mg/L of
// chlorine. AWWA C651, appendix B (from memory) asks 1.2 lb per 100,000 US gal, that is 1.438 mg
// for each mg.
TEST_CASE("a dechlorinating dose agrees with the handbook") {
  const double ratio = 1.2 * 453.59237 / (100000 * 3.785411784) * 1000;  // mg per mg/L and litre
  CHECK(stock_for(ratio / 1000, 10000, 20.3) * 1000 == Approx(708).epsilon(2e-3));
}

// Merck Veterinary Manual, formulae to calculate tank volumes.
TEST_CASE("boxes and cylinders agree with a veterinary handbook") {
  CHECK(litres_of_vessel("    inside: 30 x 12 x 25 cm\n    filled to: 20 cm\n") ==
        Approx(7.2).epsilon(1e-9));
  CHECK(litres_of_vessel("    across: 20 cm\n    filled to: 20 cm\n") ==
        Approx(6.28).epsilon(1e-3));
  CHECK(litres_of_vessel("    volume: 1 gal\n") == Approx(3.785).epsilon(2e-4));
  CHECK(litres_of_vessel("    volume: 231 in3\n") == Approx(3.785).epsilon(2e-4));
}

// "Use and Application of Salt in Aquaculture", examples 1 and 2 (cubic feet).
TEST_CASE("tanks in feet agree with an aquaculture fact sheet") {
  const double cubic_foot = 28.316846592;
  CHECK(litres_of_vessel("    inside: 12 x 3 x 4 ft\n    filled to: 3 ft\n") / cubic_foot ==
        Approx(108).epsilon(1e-9));
  // The sheet takes pi as 3.14.
  CHECK(litres_of_vessel("    across: 12 ft\n    filled to: 4.5 ft\n") / cubic_foot ==
        Approx(508.7).epsilon(1e-3));
}

// wastewater101.net, worked volumes, at 7.48 gal per cubic foot.
TEST_CASE("tanks in gallons agree with a water operator's course") {
  const double basin = litres_of_vessel("    inside: 40 x 25 x 13 ft\n    filled to: 12 ft\n");
  CHECK(us_gallons(basin) == Approx(89760).epsilon(1e-3));
  const double cubic_foot = 28.316846592;
  CHECK(litres_of_vessel("    across: 10 ft\n    filled to: 12 ft\n") / cubic_foot ==
        Approx(942).epsilon(1e-3));
  // Spellman and Whiting, Mathematics and Statistics for the Environment, example 23.17, at 7.48.
  const double pond = litres_of_vessel("    inside: 250 x 110 x 16 ft\n    filled to: 15 ft\n");
  CHECK(us_gallons(pond) == Approx(3085500).epsilon(1e-3));
}

// Commercial Gardening (chestofbooks.com), table of tanks in imperial gallons at 6.2288 per cubic
// foot.
TEST_CASE("tanks in imperial gallons agree with a gardening handbook") {
  const auto imperial = [](double litres) { return litres / 4.54609; };
  CHECK(imperial(litres_of_vessel("    inside: 6 x 3 x 5 ft\n    filled to: 3 ft\n")) ==
        Approx(336).epsilon(2e-3));
  CHECK(imperial(litres_of_vessel("    inside: 6 x 3 x 5 ft\n    filled to: 4 ft\n")) ==
        Approx(448).epsilon(2e-3));
  CHECK(imperial(litres_of_vessel("    inside: 10 x 10 x 6 ft\n    filled to: 5 ft\n")) ==
        Approx(3116).epsilon(1e-3));
  CHECK(imperial(litres_of_vessel("    across: 4 ft\n    filled to: 3 ft\n")) ==
        Approx(234.946).epsilon(1e-3));
}

TEST_CASE("what stands in a vessel is taken off its water") {
  CHECK(litres_of_vessel("    volume: 100 L\n    displaced: 12.5 L\n") ==
        Approx(87.5).epsilon(1e-12));
}

TEST_CASE("water to and water added make different strengths") {
  const Room made_up = room_of(with(base_room(), "soda: 60 g", "soda: 250 g"));
  const Mixture to = mix(made_up.stocks.front(), made_up.products, made_up.tools);
  CHECK(in_litres(to.makes) == 1);
  CHECK(in_grams_per_litre(std::get<Concentration>(to.components.front().strength)) == 250);
  // Nobody said what it was weighed and made up with: 1 % and 5 %, our own defaults.
  CHECK(as_ratio(to.strength_error.worst) == Approx(1.01 / 0.95 - 1));

  // Sodium thiosulfate pentahydrate, 250 g in 1 L of finished solution, displaces 0.516 mL/g
  // (Laliberté 2009 density model, fit range 25-80 °C, taken at 20 °C): 250 g and 1 L of water make
  // about 1.13 L, not 1 L.
  const std::string known =
      with(with(with(base_room(), "soda: 60 g", "soda: 250 g"), "water to", "water added"),
           "    bulk density: 0.9 g/mL\n", "    displacement: 0.516 mL/g\n");
  const Room added_room = room_of(known);
  const Mixture added = mix(added_room.stocks.front(), added_room.products, added_room.tools);
  CHECK(in_litres(added.makes) == Approx(1.129).epsilon(1e-3));
  CHECK(in_grams_per_litre(std::get<Concentration>(added.components.front().strength)) ==
        Approx(250 / 1.129).epsilon(1e-3));

  const Room unknown =
      room_of(with(with(base_room(), "soda: 60 g", "soda: 250 g"), "water to", "water added"));
  const Mixture bounded = mix(unknown.stocks.front(), unknown.products, unknown.tools);
  // The bound must take in every salt that the model was evaluated for (0.171 to 0.543 mL/g) and,
  // from memory, anhydrous sodium carbonate (about 0.06) and sugars and organic acids (about 0.6).
  const double strength =
      in_grams_per_litre(std::get<Concentration>(bounded.components.front().strength));
  for (const double d : {0.0, 0.06, 0.171, 0.278, 0.322, 0.405, 0.516, 0.543, 0.62, 0.8}) {
    const double real = 250 / (1 + 0.250 * d);
    CHECK(std::fabs(real / strength - 1) <= as_ratio(bounded.strength_error.worst) + 1e-12);
  }
}

TEST_CASE("a scooped recipe goes by bulk density and says how far off it can be") {
  // Handbook of Pharmaceutical Excipients, sodium hydrogencarbonate: bulk density 0.869 g/mL; a
  // level US teaspoon then holds 4.28 g.
  const Room room =
      room_of(with(with(base_room(), "0.9 g/mL", "0.869 g/mL"), "soda: 60 g", "soda: 10 tsp"));
  const Mixture mixture = mix(room.stocks.front(), room.products, room.tools);
  CHECK(in_grams_per_litre(std::get<Concentration>(mixture.components.front().strength)) ==
        Approx(42.8).epsilon(2e-3));
  CHECK(as_ratio(mixture.strength_error.worst) == Approx(1.1 * 1.25 / 0.95 - 1));
  CHECK(contents_text(room, mixture) ==
        "sodium hydrogencarbonate 42.8 g per L in water, give or take 45 %");
}

TEST_CASE("a range of bulk density is a scoop's error") {
  // Sodium hydrogencarbonate, product sheets: 0.85 to 1.15 g/mL.
  const Room room = room_of(
      with(with(base_room(), "0.9 g/mL", "0.85 to 1.15 g/mL"), "soda: 60 g", "soda: 10 tsp"));
  CHECK(in_grams_per_litre(*room.products.front().bulk_density) == Approx(1000));
  CHECK(as_ratio(room.products.front().bulk_spread) == Approx(0.15));
  const Mixture mixture = mix(room.stocks.front(), room.products, room.tools);
  CHECK(as_ratio(mixture.strength_error.worst) == Approx(1.1 * 1.15 / 0.95 - 1));
}

TEST_CASE("strength is as sure as scale, purity and measure") {
  const std::string tools =
      "  pocket scale: {kind: scale, holds: 100 g, marks: every 0.1 g}\n"
      "  jug: {kind: cylinder, holds: 1 L, marks: every 10 mL from 100 mL, class: ISO 4788 class "
      "B}\n";
  std::string text = with(base_room(), "tools:\n", "tools:\n" + tools);
  text = with(text, "    water to: 1 L\n",
              "    water to: 1 L\n    weighed with: pocket scale\n    made up in: jug\n");
  text = with(text, "0.9 g/mL\n", "0.9 g/mL\n    purity: 98 %\n");
  const Room room = room_of(text);
  const Mixture mixture = mix(room.stocks.front(), room.products, room.tools);
  // 60 g: 1 % (0.6 g) and a division of 0.1 g for tare and weight; 2 % purity; 10 mL (class B) and
  // half a division of 10 mL in 1 L.
  CHECK(as_ratio(mixture.strength_error.worst) == Approx((1 + 0.7 / 60) * 1.02 / (1 - 0.015) - 1));
  const double u_scale = std::hypot(0.6 / std::sqrt(3.0), 0.1 * std::sqrt(1.0 / 6)) / 60;
  const double u_purity = 0.02 / std::sqrt(3.0);
  const double u_volume = std::hypot(10, 5) / std::sqrt(3.0) / 1000;
  CHECK(as_ratio(mixture.strength_error.standard) ==
        Approx(std::sqrt(u_scale * u_scale + u_purity * u_purity + u_volume * u_volume)));
}

TEST_CASE("a recipe is scaled to its container and leaves room for shaking") {
  const Room room = room_of(base_room());
  const auto answers = answer_room(room, testing::hazard_sources());
  const LabelAnswer label = answer_label(answers, room.documents.front().label);
  CHECK(in_litres(label.filled.makes) == Approx(0.8));
  CHECK(in_grams(std::get<Mass>(label.filled.components.front().amount)) == Approx(48));
  CHECK(recipe_lines(room, room.stocks.front(), label.filled) ==
        std::vector<std::string>{"48 g sodium hydrogencarbonate", "water to 800 mL"});
}

TEST_CASE("a bottle costs its share of the pack") {
  const std::string priced =
      with(base_room(), "    bulk density: 0.9 g/mL\n", "    price: 7.50 EUR\n    pack: 500 g\n");
  const Room room = room_of(priced);
  const Mixture filled = mix_batch(room.stocks.front(), room.products, room.tools, litres(0.8));
  const auto cost = cost_of(filled, room.products);
  REQUIRE(cost);
  CHECK(cost->amount == Approx(48.0 / 500 * 7.5));
  CHECK(cost->currency == "EUR");
  const Room free = room_of(base_room());
  CHECK_FALSE(cost_of(mix(free.stocks.front(), free.products, free.tools), free.products));
}

TEST_CASE("a dose counts the new water or all of it") {
  DoseRule rule;
  rule.basis = WaterBasis::new_water;
  CHECK(in_litres(water_to_dose(rule, litres(200), share(0.25))) == Approx(50));
  rule.basis = WaterBasis::whole_vessel;
  CHECK(in_litres(water_to_dose(rule, litres(200), share(0.25))) == Approx(200));
}

TEST_CASE("a target concentration is reached, mass in equals mass out") {
  for (double strength = 5; strength < 400; strength *= 1.7) {
    for (double target = 0.0005; target < 4; target *= 2.3) {
      const double dose = stock_for(target, 137, strength);
      CHECK(dose * strength == Approx(target * 137).epsilon(1e-12));
    }
  }
}

TEST_CASE("use-by dates follow the calendar") {
  CHECK(date_text(later({2026, 11, 25}, days(60))) == "2027-01-24");
  CHECK(date_text(later({2024, 2, 28}, days(1))) == "2024-02-29");
  CHECK(date_text(later({2023, 2, 28}, days(1))) == "2023-03-01");
  CHECK(date_text(later({2026, 12, 31}, days(1.5))) == "2027-01-01");
}

TEST_CASE("the strength code follows strength and dose and nothing else") {
  const auto code = [](const std::string& text) {
    const Room room = room_of(text);
    return answer_room(room, testing::hazard_sources()).stocks.front().code;
  };
  const std::string base = base_room();
  const StrengthCode plain = code(base);
  CHECK(plain.canonical == "sodium hydrogencarbonate=60|dose=0.5|new water|nearest");

  SECTION("cosmetic edits keep it") {
    CHECK(code(with(base, "name: Buffer", "name: Alkalinity")).letters == plain.letters);
    CHECK(code(with(base, "soda: 60 g", "soda: 0.06 kg")).letters == plain.letters);
    CHECK(code(with(with(base, "soda: 60 g", "soda: 120 g"), "water to: 1 L", "water to: 2000 mL"))
              .letters == plain.letters);
    CHECK(code(with(base, "10 mL per 20 L", "0.5 mL/L")).letters == plain.letters);
    CHECK(code(with(base, "keeps: 90 days", "keeps: 30 days")).letters == plain.letters);
  }
  SECTION("a change of strength or dose changes it") {
    CHECK(code(with(base, "soda: 60 g", "soda: 61 g")).letters != plain.letters);
    CHECK(code(with(base, "10 mL per 20 L", "11 mL per 20 L")).letters != plain.letters);
    CHECK(code(with(with(base, "for: new water", "for: whole vessel"), "    changes: [25 %]\n", ""))
              .letters != plain.letters);
    CHECK(code(with(base, "for: new water", "round: never over")).letters != plain.letters);
    CHECK(code(with(base, "for: new water", "at most: 12 mL per 20 L")).letters != plain.letters);
  }
  SECTION("its characters cannot be confused") {
    for (const char c : std::string("0OQD1IL5S2Z8B6GU"))
      CHECK(kCodeCharacters.find(c) == std::string_view::npos);
    CHECK(plain.letters.size() == 6);
  }
}
