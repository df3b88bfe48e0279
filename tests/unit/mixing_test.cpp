// Recipes for the bottle at hand, solubility, and statements of one strength held against each
// other.
#include <catch2/catch.hpp>

#include "dosewright/answer/mixing.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

// A room around one stock, and its answers.
struct Made {
  Room room;
  RoomAnswer answers;
};

Made made(const std::string& products, const std::string& stock) {
  const std::string text = "room: {name: R, measures: US}\nproducts:\n" + products +
                           "stocks:\n  s:\n    name: S\n" + stock;
  auto read = testing::read_room(text);
  INFO(text);
  REQUIRE(read.room);
  Made out{std::move(*read.room), {}};
  return out;
}

std::vector<ClaimAnswer> claims_of(Made& one) {
  one.answers = answer_room(one.room, testing::hazard_sources());
  return answer_claims(one.room, one.answers.stocks.front());
}

std::vector<SolubilityAnswer> solubility_of(Made& one) {
  one.answers = answer_room(one.room, testing::hazard_sources());
  return answer_solubility(one.room, one.answers.stocks.front(), testing::knowledge());
}

std::string soda(const std::string& grams, const std::string& coldest = "") {
  return "    recipe: {soda: " + grams + "}\n    water to: 1 L\n" +
         (coldest.empty() ? "" : "    coldest: " + coldest + "\n") +
         "    dose: {give: 1 mL per 10 L}\n";
}

constexpr const char* kSoda = "  soda: {name: sodium hydrogencarbonate, cas: 144-55-8}\n";

}  // namespace

TEST_CASE("solubility: sodium hydrogencarbonate at 20 and 0 degrees") {
  // 9.6 g at 20 °C and 6.9 g at 0 °C in 100 g of water (handbook table, romek.info 04-26).
  struct Case {
    const char* grams;
    const char* coldest;
    Dissolves expected;
  };
  // 80 g per L is 84 g per L of water: dissolved at 20 °C, and crystals at 0 °C.
  for (const Case& one :
       {Case{"60 g", "", Dissolves::yes}, Case{"60 g", "0 °C", Dissolves::yes},
        Case{"80 g", "", Dissolves::yes}, Case{"80 g", "0 °C", Dissolves::no},
        Case{"110 g", "", Dissolves::no}, Case{"60 g", "-5 °C", Dissolves::unknown}}) {
    Made room = made(kSoda, soda(one.grams, one.coldest));
    INFO(one.grams << ' ' << one.coldest);
    const auto found = solubility_of(room);
    REQUIRE(found.size() == 1);
    CHECK(found.front().result == one.expected);
  }
  const Solubility table{grams_per_litre(96), grams_per_litre(69)};
  CHECK(in_grams_per_litre(*soluble_at(table, degrees_celsius(0))) == Approx(69));
  CHECK(in_grams_per_litre(*soluble_at(table, degrees_celsius(20))) == Approx(96));
  CHECK(in_grams_per_litre(*soluble_at(table, degrees_celsius(30))) == Approx(96));
  // Between the two it lies below the straight line, which would give 82.5.
  CHECK(in_grams_per_litre(*soluble_at(table, degrees_celsius(10))) == Approx(81.39).margin(0.01));
  CHECK(!soluble_at({grams_per_litre(96), std::nullopt}, degrees_celsius(10)));
}

TEST_CASE("solubility: permanganate at the strength of a printed rule of thumb is too much") {
  // 285 g in 1 US gal (UF/IFAS FA37) is 75.3 g/L; about 64 g/L dissolve at 20 °C (from memory).
  Made room = made("  p: {name: potassium permanganate, cas: 7722-64-7}\n",
                   "    recipe: {p: 285 g}\n    water to: 1 US gal\n"
                   "    dose: {give: 1 mL per 10 L}\n");
  CHECK(solubility_of(room).front().result == Dissolves::no);
}

TEST_CASE("claims: habit, coverage and a slip of the tongue") {
  // Common practice, no source: 500 mL of a reference liquid treats about 5000 US gal, 4800 by a
  // cautious count; 4 level tablespoons in three times 500 mL of water counted as three such
  // bottles, 14400 gal; 1 mL per 5 gal by habit; "10 mL for 10 gal" is a slip.
  Made room = made("  p: {name: some powder, bulk density: 1.2 g/mL}\n",
                   "    recipe: {p: 4 tbsp}\n    water added: 1500 mL\n"
                   "    dose: {give: 1 mL per 5 gal}\n"
                   "    claims:\n"
                   "      bottle: 500 mL treats 5000 gal\n"
                   "      cautious: 500 mL treats 4800 gal\n"
                   "      three bottles: 1500 mL treats 14400 gal\n"
                   "      habit: 2 mL per 10 gal\n"
                   "      slip: 10 mL per 10 gal\n");
  const auto claims = claims_of(room);
  REQUIRE(claims.size() == 6);
  const auto over = [&](std::size_t one, std::size_t other) {
    return claims[one].factor / claims[other].factor;
  };
  CHECK(over(0, 1) == Approx(2));
  CHECK(over(0, 2) == Approx(1.92));
  CHECK(over(0, 3) == Approx(1.92));
  CHECK(over(4, 0) == Approx(1));
  CHECK(over(5, 1) == Approx(10));
  CHECK(disagree(claims[0], claims[1], share(0.1)));
  CHECK(!disagree(claims[1], claims[2], share(0.1)));
  std::string said;
  for (const Diagnostic& problem : room.answers.problems) said += problem.message + '\n';
  INFO(said);
  CHECK(said.find("\"slip\" puts in 5 times what \"dose\"") != std::string::npos);
  CHECK(said.find("10 times what \"bottle\"") != std::string::npos);
  CHECK(said.find("\"bottle\" puts in 1/2 of what \"dose\"") != std::string::npos);
}

TEST_CASE("claims: the same amount in grams, scoops, millilitres and another strength") {
  // 100 g/L; 1 mL per 10 L is 0.01 g per L.
  Made room = made("  p: {name: some powder, bulk density: 1 g/mL}\n",
                   "    recipe: {p: 100 g}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n"
                   "    claims:\n"
                   "      grams: 1 g of p per 100 L\n"
                   "      bare grams: 10 mg per 1 L\n"
                   "      scoops: 5 mL of p per 500 L\n"
                   "      drops of it: 0.1 mL per 1 L\n"
                   "      recipe: 50 g of p in 500 mL\n"
                   "      twice as strong: 200 mL of p in 1 L\n");
  const auto claims = claims_of(room);
  REQUIRE(claims.size() == 7);
  for (std::size_t i = 0; i < 6; ++i) {
    INFO(claims[i].name);
    CHECK(claims[i].factor == Approx(1));
  }
  CHECK(claims[6].factor == Approx(2));
}

TEST_CASE("a recipe for another bottle keeps its strength and its masses") {
  Made room = made(kSoda, soda("60 g"));
  room.answers = answer_room(room.room, testing::hazard_sources());
  const StockAnswer& stock = room.answers.stocks.front();
  for (const double litres_wanted : {0.01, 0.3, 1.0, 4.5, 25.0}) {
    const MixAnswer mix = answer_mixing(room.answers, stock, litres(litres_wanted), nullptr);
    const Mass mass = std::get<Mass>(mix.steps.front().amount);
    // C = m / V (conservation of mass).
    CHECK(in_grams(mass) / litres_wanted == Approx(60));
    CHECK(in_litres(mix.water) == Approx(litres_wanted));
    CHECK(in_litres(mix.filled.makes) == Approx(litres_wanted));
  }
}
