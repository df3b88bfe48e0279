// One mixing of a stock: how strong it really is, what mends it, and the dose that belongs to it.
#include <catch2/catch.hpp>
#include <random>

#include "dosewright/answer/bottle.hpp"
#include "dosewright/dose/dose.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

constexpr const char* kProducts =
    "  salt: {name: sodium chloride, displacement: 0.33 mL/g}\n"
    "  soda: {name: sodium hydrogencarbonate, displacement: 0.4 mL/g}\n"
    "  alcohol: {name: ethanol 96 % v/v, form: liquid}\n"
    "  fluffy: {name: sodium ascorbate, bulk density: 0.8 g/mL}\n";

struct Made {
  std::unique_ptr<Room> room;
  RoomAnswer answers;
  [[nodiscard]] const StockAnswer& stock(std::size_t i = 0) const { return answers.stocks[i]; }
  [[nodiscard]] Mending mending(const Strengths& found, Volume volume, std::size_t i = 0) const {
    return mend(*stock(i).stock, room->products, stock(i).mixture, found, volume);
  }
};

Made made(const std::string& stocks) {
  auto read = testing::read_room("room: {name: R, measures: US}\nproducts:\n" +
                                 std::string(kProducts) + "stocks:\n" + stocks);
  INFO(stocks);
  for (const auto& problem : read.problems) UNSCOPED_INFO(format(problem));
  REQUIRE(read.room);
  Made out{std::make_unique<Room>(std::move(*read.room)), {}};
  out.answers = answer_room(*out.room, testing::hazard_sources());
  return out;
}

std::string stock(const std::string& recipe, const std::string& water = "water to: 1 L",
                  const std::string& dose = "give: 10 mL per 100 L") {
  return "  s:\n    name: S\n    recipe: {" + recipe + "}\n    " + water + "\n    dose: {" + dose +
         "}\n";
}

double grams_of(const std::variant<Mass, Volume>& amount) {
  return in_grams(std::get<Mass>(amount));
}

double grams_in(const std::variant<Concentration, VolumePerVolume>& strength) {
  return in_grams_per_litre(std::get<Concentration>(strength));
}

// What the water of a dose gets of a product, in mg per L.
double brought(const StockAnswer& stock, std::size_t product) {
  return grams_in(stock.mixture.components[product].strength) * per_litre(stock.all);
}

}  // namespace

TEST_CASE("batch: what was weighed is what it is strong") {
  // Mass over volume: 82 g made up to 1.2 L are 68.33 g per L.
  const Made room = made(stock("salt: 100 g"));
  const Mixture mixed =
      mix_weighed(*room.stock().stock, room.room->products, {}, millilitres(1200), {grams(82)});
  CHECK(grams_in(mixed.components.front().strength) == Approx(82 / 1.2));
  const auto times = times_as_strong(strengths_of(room.stock().mixture), strengths_of(mixed));
  REQUIRE(times);
  CHECK(*times == Approx(82 / 120.0));
}

TEST_CASE("batch: with too much in it only water is added, by C1 V1 = C2 V2") {
  const Made room = made(stock("salt: 100 g"));
  const Mending mending = room.mending({grams_per_litre(125)}, millilitres(800));
  CHECK(grams_of(mending.add.front()) == Approx(0).margin(1e-9));
  // 125 x 800 = 100 x 1000.
  CHECK(in_millilitres(mending.water) == Approx(200));
  CHECK(in_millilitres(mending.finishes) == Approx(1000));
}

TEST_CASE("batch: with too little in it powder is added, and takes up room") {
  const Made room = made(stock("salt: 100 g"));
  const Mending mending = room.mending({grams_per_litre(80)}, millilitres(1000));
  const double added = grams_of(mending.add.front());
  CHECK(in_millilitres(mending.water) == Approx(0).margin(1e-9));
  // (80 g + a) / (1000 mL + 0.33 a) = 0.1 g per mL: a = 20 / (1 - 0.033).
  CHECK(added == Approx(20 / 0.967));
  CHECK(in_millilitres(mending.finishes) == Approx(1000 + 0.33 * added));
}

TEST_CASE("batch: mending always comes to the recipe, whatever was in it") {
  const Made room = made(stock("salt: 100 g, soda: 40 g, alcohol: 50 mL"));
  const Strengths wanted = strengths_of(room.stock().mixture);
  std::mt19937 random(11);
  std::uniform_real_distribution<double> off(0.3, 2.5);
  for (int round = 0; round < 500; ++round) {
    const Volume volume = millilitres(100 + 20 * static_cast<double>(random() % 100));
    Strengths found;
    for (const auto& strength : wanted)
      std::visit([&](const auto& value) { found.emplace_back(value * off(random)); }, strength);
    const Mending mending = room.mending(found, volume);
    const double litres_in_all = in_litres(mending.finishes);
    for (std::size_t i = 0; i < 2; ++i) {
      CHECK(grams_of(mending.add[i]) >= 0);
      const double there = grams_in(found[i]) * in_litres(volume) + grams_of(mending.add[i]);
      CHECK(there / litres_in_all == Approx(grams_in(wanted[i])));
    }
    const double liquid =
        in_millilitres_per_litre(std::get<VolumePerVolume>(found[2])) * in_litres(volume) +
        in_millilitres(std::get<Volume>(mending.add[2]));
    CHECK(liquid / litres_in_all == Approx(50));
    CHECK(in_millilitres(mending.water) >= 0);
    // What goes in is what it comes to: nothing is added that is not needed.
    const double gained = 0.33 * grams_of(mending.add[0]) + 0.4 * grams_of(mending.add[1]) +
                          in_millilitres(std::get<Volume>(mending.add[2]));
    CHECK(in_millilitres(mending.finishes) ==
          Approx(in_millilitres(volume) + gained + in_millilitres(mending.water)));
  }
}

TEST_CASE("batch: what is mixed from a stronger stock is mended with that") {
  const Made room = made(
      "  s:\n    name: S\n    recipe: {salt: 200 g}\n    water to: 1 L\n    dose: {give: 1 mL per "
      "10 L}\n  weak:\n    name: Weak\n    diluted from: s\n    take: 100 mL\n    water to: 1 L\n"
      "    dose: {give: 10 mL per 10 L}\n");
  // 15 g per L where 20 are wanted: 500 mL of it and v of 200 g per L: 7.5 + 0.2 v = 0.02 (500 +
  // v).
  const Mending mending = room.mending({grams_per_litre(15)}, millilitres(500), 1);
  const double taken = in_millilitres(std::get<Volume>(mending.add.front()));
  CHECK(taken == Approx(2.5 / 0.18));
  CHECK((7.5 + 0.2 * taken) / (500 + taken) == Approx(0.02));
  CHECK(in_millilitres(room.mending({grams_per_litre(25)}, millilitres(400), 1).water) ==
        Approx(100));
}

TEST_CASE("batch: mending stands on the marks at hand, within a step of the scale") {
  const Made room = made(stock("salt: 100 g", "water to: 1 L\n    weighed with: scale") +
                         "tools:\n  scale: {kind: scale, holds: 500 g, marks: every 0.1 g}\n");
  const MendAnswer mend =
      answer_mending(room.answers, room.stock(), {grams_per_litre(81)}, millilitres(730));
  REQUIRE(mend.steps.size() == 1);
  REQUIRE(mend.steps.front().measured);
  const double shown = in_grams(mend.steps.front().measured->total);
  const double exact = grams_of(mend.steps.front().amount);
  CHECK(std::abs(shown - exact) <= 0.05 + 1e-9);
  const double comes_to = (81 * 0.73 + shown) / (0.73 + 0.00033 * shown);
  CHECK(comes_to == Approx(100).margin(0.1));
}

TEST_CASE("batch: a bottle of another strength brings as much into the water as the recipe") {
  for (const char* dose : {"give: 10 mL per 100 L", "reach: 20 mg/L", "treats: 4000 L"}) {
    for (const char* water : {"water to: 1 L", "water added: 1 L"}) {
      const std::string for_one = std::string(dose).starts_with("reach") ? "reach: 20 mg/L" : dose;
      const Made room = made(stock("salt: 100 g", water, for_one));
      for (const double times : {0.5, 0.82, 1.3, 2.4}) {
        const Room changed = room_of_bottle(room.answers, room.stock(), times);
        const RoomAnswer answers = answer_room(changed, testing::hazard_sources());
        const StockAnswer& own = answers.stocks.front();
        INFO(dose << ", " << water << ", " << times);
        CHECK(grams_in(own.mixture.components[0].strength) ==
              Approx(times * grams_in(room.stock().mixture.components[0].strength)));
        // A target also counts the dose's own water, which a weaker bottle brings more of.
        CHECK(brought(own, 0) ==
              Approx(brought(room.stock(), 0)).epsilon(std::string(dose) == for_one ? 1e-3 : 1e-9));
        CHECK(own.code.letters != room.stock().code.letters);
      }
    }
  }
}

TEST_CASE("batch: its limits keep to its strength") {
  const Made room = made(stock("salt: 100 g", "water to: 1 L",
                               "give: 10 mL per 100 L, at most: 20 mL per 100 L, at least: 5 mL "
                               "per 100 L"));
  const Stock own = as_in_bottle(*room.stock().stock, room.stock().mixture, 0.5);
  CHECK(per_litre(*own.dose.ceiling) == Approx(0.4));
  CHECK(per_litre(*own.dose.floor) == Approx(0.1));
  CHECK(own.dose.ceiling_text.empty());
}

TEST_CASE("batch: products out of proportion have no dose") {
  const Made room = made(stock("salt: 100 g, soda: 40 g"));
  const Strengths recipe = strengths_of(room.stock().mixture);
  CHECK(times_as_strong(recipe, {grams_per_litre(120), grams_per_litre(48)}) == Approx(1.2));
  CHECK_FALSE(times_as_strong(recipe, {grams_per_litre(120), grams_per_litre(40)}));
  CHECK_FALSE(times_as_strong(recipe, {grams_per_litre(120)}));
  CHECK_FALSE(times_as_strong(recipe, {millilitres_per_litre(120), grams_per_litre(48)}));
}

TEST_CASE("batch: what the scale cannot tell from the recipe is the recipe") {
  const Made room = made(stock("salt: 100 g", "water to: 1 L\n    weighed with: scale") +
                         "tools:\n  scale: {kind: scale, holds: 500 g, marks: every 0.1 g}\n");
  const Mixture filled = room.stock().mixture;
  const auto by_recipe = [&](double weighed) {
    const Mixture batch = mix_weighed(*room.stock().stock, room.room->products, room.room->tools,
                                      filled.makes, {grams(weighed)});
    return is_by_recipe(room.answers, room.stock(), filled, batch);
  };
  CHECK(by_recipe(100));
  CHECK(by_recipe(99.1));
  CHECK_FALSE(by_recipe(98.5));
  CHECK_FALSE(by_recipe(101.5));
  CHECK_FALSE(by_recipe(82));
}

TEST_CASE("batch: strengths in the record are read as they were written, in any order") {
  const Made room = made(stock("salt: 1500 g, alcohol: 50 mL", "water to: 10 L"));
  const Mixture& recipe = room.stock().mixture;
  auto text = strengths_as_text(*room.room, strengths_of(recipe), recipe);
  REQUIRE(text.size() == 2);
  CHECK(text.front() == "sodium chloride=150");
  std::swap(text[0], text[1]);
  const auto again = strengths_from_text(*room.room, text, recipe);
  REQUIRE(again);
  CHECK(times_as_strong(strengths_of(recipe), *again) == Approx(1));
  CHECK_FALSE(strengths_from_text(*room.room, {"sodium chloride=150"}, recipe));
  CHECK_FALSE(strengths_from_text(*room.room, {"sodium chloride=150", "water~50"}, recipe));
  CHECK_FALSE(strengths_from_text(*room.room, {"sodium chloride=x", text[0]}, recipe));
}

TEST_CASE("strength code: over random edits it changes if and only if strength or dose does") {
  struct Edit {
    const char* from;
    const char* to;
    bool counts;
  };
  const std::vector<Edit> edits = {
      {"soda: 60 g", "soda: 0.06 kg", false},
      {"water to: 1 L", "water to: 1000 mL", false},
      {"give: 10 mL per 20 L", "give: 1 mL per 2 L", false},
      {"name: Buffer", "name: Puffer", false},
      {"keeps: 90 days", "keeps: 30 days", false},
      {"name: Test room", "name: Another room", false},
      {"marks: every 0.5 mL", "marks: every 1 mL", false},
      {"  soda:\n    name: sodium hydrogencarbonate\n    bulk density: 0.9 g/mL\n  acid:\n"
       "    name: acetic acid 10 % w/w\n    form: liquid\n",
       "  acid:\n    name: acetic acid 10 % w/w\n    form: liquid\n  soda:\n"
       "    name: sodium hydrogencarbonate\n    bulk density: 0.8 g/mL\n",
       false},
      {"soda: 60 g", "soda: 60.1 g", true},
      {"water to: 1 L", "water to: 1.01 L", true},
      {"give: 10 mL per 20 L", "give: 10.1 mL per 20 L", true},
      {"for: new water", "for: new water\n      over: 2 days", true},
      {"for: new water", "for: new water\n      round: never under", true},
      {"for: new water", "for: new water\n      at most: 40 mL per 20 L", true},
      {"name: sodium hydrogencarbonate", "name: potassium hydrogencarbonate", true}};
  const auto code_of = [](const std::string& text) {
    const auto read = testing::read_room(text);
    INFO(text);
    REQUIRE(read.room);
    return answer_room(*read.room, testing::hazard_sources()).stocks.front().code.letters;
  };
  const std::string start = code_of(testing::base_room());
  std::mt19937 random(23);
  int changed = 0;
  for (int round = 0; round < 200; ++round) {
    std::string text = testing::base_room();
    std::string said;
    bool counts = false;
    for (int i = 0; i < 3; ++i) {
      const Edit& edit = edits[random() % (round % 2 == 0 ? 8 : edits.size())];
      const std::size_t at = text.find(edit.from);
      if (at == std::string::npos || text.find(edit.to) != std::string::npos) continue;
      text.replace(at, std::string(edit.from).size(), edit.to);
      said += std::string(edit.to) + "; ";
      counts = counts || edit.counts;
    }
    INFO(said);
    CHECK((code_of(text) != start) == counts);
    changed += counts ? 1 : 0;
  }
  CHECK(changed > 40);
}
