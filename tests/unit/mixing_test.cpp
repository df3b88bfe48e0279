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

namespace {

// A stock "strong" of so much salt, and "s" mixed from it.
Made diluted(const std::string& strong, const std::string& how) {
  const std::string text =
      "room: {name: R, measures: US}\nproducts:\n  salt: {name: sodium chloride, cas: 7647-14-5}\n"
      "stocks:\n  strong:\n    recipe: {salt: " +
      strong +
      "}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n"
      "  s:\n    diluted from: strong\n    " +
      how + "\n    dose: {give: 1 mL per 10 L}\n";
  auto read = testing::read_room(text);
  INFO(text);
  REQUIRE(read.room);
  return {std::move(*read.room), {}};
}

double strength_of(const Stock& stock, const Room& room) {
  const Mixture mixture = mix(stock, room.products, room.tools);
  return in_grams_per_litre(std::get<Concentration>(mixture.components.front().strength));
}

}  // namespace

TEST_CASE("dilution: textbook problems of C1 V1 = C2 V2") {
  // OpenStax, Chemistry: Atoms First 2e, module m68703 (molar there; the ratio is what counts).
  struct Case {
    const char* strong;
    const char* how;
    double expected;   // g/L
    double tolerance;  // half the last printed digit
  };
  for (const Case& one : {Case{"50 g/L", "take: 850 mL\n    water to: 1.8 L", 23.6, 0.05},
                          Case{"204 g/L", "take: 25 mL\n    water to: 500 mL", 10.2, 0.05},
                          Case{"25 g/L", "take: 1 L\n    water to: 2 L", 12.5, 0.05},
                          Case{"122.2 g/L", "take: 500 mL\n    water to: 1.25 L", 48.88, 0.005},
                          Case{"35 g/L", "take: 2.35 L\n    water to: 4 L", 20.6, 0.05},
                          Case{"2.5 g/L", "take: 22.5 mL\n    water to: 100 mL", 0.56, 0.005}}) {
    const Made room = diluted(one.strong, one.how);
    INFO(one.strong << " " << one.how);
    CHECK(strength_of(room.room.stocks.back(), room.room) ==
          Approx(one.expected).margin(one.tolerance));
  }
}

TEST_CASE("dilution: how much of the strong one a wanted strength takes") {
  // mathcentral.uregina.ca QQ.09.07/h/ken3 and freemathhelp.com thread 124799: of 12.5 %, 4 gal for
  // 50 gal of 1 %, and 14.4 gal for 30 gal of 6 %. OpenStax m68703: 50.00 mL of 3.00 M for 0.575 M
  // fill 0.261 L.
  const auto taken = [](const char* strong, const char* how) {
    return in_litres(diluted(strong, how).room.stocks.back().taken);
  };
  constexpr double kGallon = 3.785411784;
  CHECK(taken("12.5 % w/v", "strength: 1 % w/v\n    water to: 50 US gal") ==
        Approx(4 * kGallon).epsilon(1e-9));
  CHECK(taken("12.5 % w/v", "strength: 6 % w/v\n    water to: 30 US gal") ==
        Approx(14.4 * kGallon).epsilon(1e-9));
  CHECK(taken("300 g/L", "strength: 57.5 g/L\n    water to: 261 mL") ==
        Approx(0.05).margin(0.00005));
}

TEST_CASE("dilution: the errors of both volumes come on top of the strong one's") {
  // Without named tools: the strong one 1 % by weight and 5 % by volume, then 5 % and 5 % again.
  // At worst 1.01 / 0.95 x 1.05 / 0.95 - 1.
  const Made room = diluted("100 g/L", "take: 100 mL\n    water to: 1 L");
  const Mixture weak = mix(room.room.stocks.back(), room.room.products, room.room.tools);
  CHECK(as_ratio(weak.strength_error.worst) == Approx(1.01 / 0.95 * 1.05 / 0.95 - 1).margin(0.004));
  // Conservation: all the salt of what is taken is in the mix.
  const auto amount = std::get<Mass>(weak.components.front().amount);
  CHECK(in_grams(amount) == Approx(10).epsilon(1e-9));
  const Mixture three =
      mix_batch(room.room.stocks.back(), room.room.products, room.room.tools, litres(3));
  CHECK(in_millilitres(three.taken) == Approx(300).epsilon(1e-9));
}

TEST_CASE("a strength that is asked for is weighed as the hydrate that was bought") {
  // 1 g of anhydrous thiosulfate is 1.5697 g of the pentahydrate; magnesium sulfate heptahydrate
  // is 48.83 % without its water (from the IUPAC's atomic weights; both worked out by hand).
  const auto grams_for = [](const std::string& product, const std::string& strength) {
    const Made room = made(
        "  p: {" + product + "}\n",
        "    recipe: {p: " + strength + "}\n    water to: 2 L\n    dose: {give: 1 mL per 10 L}\n");
    return in_grams(std::get<Mass>(room.room.stocks.front().recipe.front().amount));
  };
  CHECK(grams_for("name: sodium thiosulfate, cas: 10102-17-7", "10 g/L as anhydrous") ==
        Approx(2 * 15.697).epsilon(1e-4));
  CHECK(grams_for("name: magnesium sulfate, cas: 10034-99-8", "10 g/L as anhydrous") ==
        Approx(20 / 0.4883).epsilon(1e-4));
  CHECK(grams_for("name: sodium thiosulfate, cas: 10102-17-7", "10 % w/v") == Approx(200));
}

TEST_CASE("the error of a small batch is that of its own grams and millilitres") {
  // A scale of 0.1 g: 1 % of 5 g is less than two divisions, 0.2 g, and half a division each for
  // tare and weight come to 0.1 g: 6 %. A cylinder of 10 mL divisions at 100 mL: 10 and 5 mL, 15 %.
  // 1.06 / 0.85 - 1 = 24.7 %. Of 50 g and 1 L: 1.012 / 0.985 - 1 = 2.7 %.
  const std::string text =
      "room: {name: R}\nproducts:\n  salt: {name: sodium chloride, cas: 7647-14-5}\n"
      "stocks:\n  s:\n    recipe: {salt: 50 g}\n    water to: 1 L\n    weighed with: scale\n"
      "    made up in: jug\n    dose: {give: 1 mL per 10 L}\n    container: bottle\n"
      "containers:\n  bottle: {holds: 125 mL}\n"
      "tools:\n  scale: {kind: scale, holds: 500 g, marks: every 0.1 g}\n"
      "  jug: {kind: cylinder, holds: 1 L, marks: every 10 mL}\n";
  const auto read = testing::read_room(text);
  REQUIRE(read.room);
  const Stock& stock = read.room->stocks.front();
  const auto worst = [&](double ml) {
    return as_ratio(mix_batch(stock, read.room->products, read.room->tools, millilitres(ml))
                        .strength_error.worst);
  };
  CHECK(worst(100) == Approx(1.06 / 0.85 - 1).epsilon(1e-6));
  CHECK(worst(1000) == Approx(1.012 / 0.985 - 1).epsilon(1e-6));
  // The stock goes by the batch that fills its bottle, the worse of the two.
  const RoomAnswer answers = answer_room(*read.room, testing::hazard_sources());
  CHECK(as_ratio(answers.stocks.front().mixture.strength_error.worst) ==
        Approx(1.06 / 0.85 - 1).epsilon(1e-6));
}

namespace {

MixAnswer mixing_of(Made& one) {
  one.answers = answer_room(one.room, testing::hazard_sources());
  return answer_mixing(one.answers, one.answers.stocks.front(), litres(1), nullptr);
}

}  // namespace

TEST_CASE("the first water leaves room for what is stirred in") {
  // 800 g of thiosulfate pentahydrate in a litre at 1.354 g/mL and more leave at most 0.56 L of
  // water; nine tenths of it are less than the usual 0.7 L. Half a litre of a liquid leaves less
  // than half.
  Made strong =
      made("  p: {name: sodium thiosulfate pentahydrate, cas: 10102-17-7}\n",
           "    recipe: {p: 800 g}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n");
  const MixAnswer first = mixing_of(strong);
  REQUIRE(first.first_water);
  CHECK(in_litres(*first.first_water) < 0.9 * 0.56);
  CHECK(first.dissolving == Dissolving::cools);
  Made half = made("  p: {name: x, form: liquid, density: 1.2 g/mL}\n",
                   "    recipe: {p: 500 mL}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n");
  const MixAnswer second = mixing_of(half);
  REQUIRE(second.first_water);
  CHECK(in_litres(*second.first_water) < 0.5);
  Made full = made("  p: {name: x, form: liquid, density: 1.2 g/mL}\n",
                   "    recipe: {p: 1 L}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n");
  CHECK_FALSE(mixing_of(full).first_water);
  Made lye = made("  p: {name: sodium hydroxide, cas: 1310-73-2}\n",
                  "    recipe: {p: 20 g}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L}\n");
  CHECK(mixing_of(lye).dissolving == Dissolving::heats);
}

TEST_CASE("salts beside each other are not said to stay dissolved") {
  Made room = made(
      "  soda: {name: sodium hydrogencarbonate, cas: 144-55-8}\n"
      "  salt: {name: sodium chloride, cas: 7647-14-5}\n",
      "    recipe: {soda: 60 g, salt: 250 g}\n    water to: 1 L\n"
      "    dose: {give: 1 mL per 10 L}\n");
  const auto found = solubility_of(room);
  REQUIRE(found.size() == 2);
  CHECK_FALSE(found.front().alone);
}

TEST_CASE("mixing: what no tool holds is measured in equal parts") {
  Made room = made("  salt: {name: sodium chloride}\n",
                   "    recipe: {salt: 500 g}\n    water to: 8 L\n    weighed with: scale\n"
                   "    dose: {give: 1 mL per 10 L}\ntools:\n"
                   "  scale: {kind: scale, holds: 200 g, marks: every 0.1 g}\n"
                   "  jug: {kind: cylinder, holds: 1 L, marks: every 10 mL}\n");
  room.answers = answer_room(room.room, testing::hazard_sources());
  const MixAnswer mix =
      answer_mixing(room.answers, room.answers.stocks.front(), litres(8), nullptr);
  REQUIRE(mix.steps.size() == 1);
  REQUIRE(mix.steps.front().measured);
  const Measured& measured = *mix.steps.front().measured;
  REQUIRE(measured.pours.size() == 1);
  CHECK(measured.pours.front().count == 3);
  // Three times 166.7 g.
  CHECK(in_grams(measured.total) == Approx(500.1));
  REQUIRE(mix.water_measured);
  CHECK(mix.water_measured->pours.front().count == 8);
}
