// Doses asked for by what they remove or raise: what they come to, what is printed of them, and the
// strength code. The chemistry itself is held in dose_chemistry_test.cpp.
#include <catch2/catch.hpp>

#include "dosewright/dose/chemistry.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

// The base room, its stock made of `product` ("name, CAS number"), dosed by these lines.
std::string text_of(const std::string& name, const std::string& cas, const std::string& dose) {
  std::string text = with(testing::base_room(), "name: sodium hydrogencarbonate",
                          "name: " + name + "\n    cas: " + cas);
  return with(text, "give: 10 mL per 20 L", dose);
}

Room room_of(const std::string& text) {
  auto read = testing::read_room(text);
  for (const Diagnostic& problem : read.problems) UNSCOPED_INFO(format(problem));
  REQUIRE(read.room);
  return *read.room;
}

DoseRule rule_of(const std::string& name, const std::string& cas, const std::string& dose) {
  return room_of(text_of(name, cas, dose)).stocks.front().dose;
}

// mg of the product as bought in each litre of treated water.
double target(const DoseRule& rule) {
  return in_grams_per_litre(std::get<Target>(rule.amount).concentration) * 1000;
}

DoseRule thiosulfate(const std::string& dose) {
  return rule_of("sodium thiosulfate pentahydrate", "10102-17-7", dose);
}
DoseRule bicarbonate(const std::string& dose) {
  return rule_of("sodium hydrogencarbonate", "144-55-8", dose);
}
DoseRule nitrate(const std::string& dose) {
  return rule_of("potassium nitrate", "7757-79-1", dose);
}

const char* const kChlorine = "remove: 2 mg/L\n      what: chlorine\n      ratio: 7";

}  // namespace

TEST_CASE("removing chlorine takes the ratio that was written, and says so") {
  const DoseRule rule = thiosulfate(kChlorine);
  CHECK(target(rule) == Approx(14).epsilon(1e-12));
  CHECK(in_english(rule.basis_text) == "for 2 mg per L chlorine at 7 mg per mg");
  CHECK(in_english(rule.target_text) == "brings 14 mg per L");
  // Half of the ratio, half of the dose: nothing is hidden.
  CHECK(target(thiosulfate("remove: 2 mg/L\n      what: chlorine\n      ratio: 3.5")) ==
        Approx(7).epsilon(1e-12));
}

// 70.90 / 51.473 = 1.3774; 14.007 / 70.90 = 0.1976 (worked out from atomic weights).
TEST_CASE("chloramine counts as chlorine or as itself, and tells of its ammonia") {
  const DoseRule as_chlorine =
      thiosulfate("remove: 2 mg/L\n      what: chloramine as chlorine\n      ratio: 7");
  CHECK(target(as_chlorine) == Approx(14).epsilon(1e-12));
  CHECK(in_english(as_chlorine.basis_text) ==
        "for 2 mg per L chloramine (as Cl2) at 7 mg per mg of Cl2, which frees 0.395 mg per L "
        "ammonia-N");
  const DoseRule as_itself = thiosulfate("remove: 2 mg/L\n      what: chloramine\n      ratio: 7");
  CHECK(target(as_itself) == Approx(14 * 1.3774).epsilon(1e-4));
  CHECK(in_english(as_itself.basis_text).find("(as NH2Cl)") != std::string::npos);
  CHECK(in_english(as_itself.basis_text).find("frees 0.544 mg per L ammonia-N") !=
        std::string::npos);
}

// 29.961 mg/L for 1 dKH, 84.006 for 1 meq/L, 1.6787 for 1 mg/L CaCO3 (worked out from atomic
// weights).
TEST_CASE("raising alkalinity in its three measures") {
  CHECK(target(bicarbonate("raise: 1 dKH")) == Approx(29.961).epsilon(1e-4));
  CHECK(target(bicarbonate("raise: 1.5 DKH")) == Approx(1.5 * 29.961).epsilon(1e-4));
  CHECK(target(bicarbonate("raise: 0.5 meq/L")) == Approx(0.5 * 84.006).epsilon(1e-4));
  CHECK(target(bicarbonate("raise: 20 mg/L CaCO3")) == Approx(20 * 1.6787).epsilon(1e-4));
  CHECK(target(bicarbonate("raise: 20 ppm as CaCO3")) == Approx(20 * 1.6787).epsilon(1e-4));
  CHECK(in_english(bicarbonate("raise: 1 dKH").basis_text) == "raises alkalinity by 1 dKH");
  CHECK(in_english(bicarbonate("raise: 1 dKH").target_text) == "brings 30 mg per L");
  CHECK(in_english(bicarbonate("raise: 0.5 meq/L").basis_text) ==
        "raises alkalinity by 0.5 meq per L");
  CHECK(in_english(bicarbonate("raise: 0.5 meq/L").target_text) == "brings 42 mg per L");
  CHECK(in_english(bicarbonate("raise: 20 mg/L CaCO3").basis_text) ==
        "raises alkalinity by 20 mg per L as CaCO3");
  CHECK(in_english(bicarbonate("raise: 20 mg/L CaCO3").target_text) == "brings 33.6 mg per L");
}

// 1 dGH: CaCl2 19.790, its dihydrate 26.215, MgSO4 heptahydrate 43.951 mg/L (worked out from atomic
// weights).
TEST_CASE("raising hardness counts the hydrate") {
  CHECK(target(rule_of("calcium chloride", "10043-52-4", "raise: 1 dGH")) ==
        Approx(19.790).epsilon(1e-4));
  const DoseRule hydrate = rule_of("calcium chloride", "10035-04-8", "raise: 1 dGH");
  CHECK(target(hydrate) == Approx(26.215).epsilon(1e-4));
  CHECK(in_english(hydrate.basis_text) == "raises hardness by 1 dGH");
  CHECK(in_english(hydrate.target_text) == "brings 26.2 mg per L");
  CHECK(target(rule_of("bitter salt", "10034-99-8", "raise: 1 dGH")) ==
        Approx(43.951).epsilon(1e-4));
  CHECK(target(rule_of("bitter salt", "10034-99-8", "raise: 10 mg/L CaCO3")) ==
        Approx(24.625).epsilon(1e-4));
}

// KNO3 is 61.33 % NO3, 38.67 % K, 13.85 % N (worked out from atomic weights).
TEST_CASE("raising a nutrient as ion or as element") {
  CHECK(target(nitrate("raise: 10 mg/L NO3")) == Approx(16.306).epsilon(1e-4));
  CHECK(target(nitrate("raise: 10 mg/L N")) == Approx(10 / 0.1385).epsilon(5e-4));
  CHECK(target(nitrate("raise: 5 mg/L k")) == Approx(5 / 0.3867).epsilon(2e-4));
  CHECK(in_english(nitrate("raise: 10 mg/L as NO3").basis_text) == "adds 10 mg per L NO3");
  CHECK(in_english(nitrate("raise: 10 mg/L as NO3").target_text) == "brings 16.3 mg per L");
}

TEST_CASE("no salt raises both alkalinity and hardness, so that meq/L is clear") {
  const Equivalents some = milliequivalents_per_litre(1);
  for (const Salt& salt : salts()) {
    INFO(salt.name);
    CHECK_FALSE((salt_for_alkalinity(salt, some) && salt_for_hardness(salt, some)));
  }
}

TEST_CASE("a target is printed wherever the dose is") {
  const auto answers_of = [](const Room& room) {
    return answer_room(room, testing::hazard_sources());
  };
  const Room room = room_of(text_of("sodium thiosulfate pentahydrate", "10102-17-7", kChlorine));
  const RoomAnswer answers = answers_of(room);
  const std::string words = "or 2 mg per L chlorine at 7 mg per mg; brings 14 mg per L";
  CHECK(dose_remarks(answers.stocks.front(), litres(20)) ==
        "f" + words + " of sodium thiosulfate pentahydrate");
  for (const Document& document : room.documents) {
    INFO(document.id);
    const std::string printed =
        document.type == Document::Type::label
            ? label_content(answers, document.label, ErrorShown::measuring).note
            : chart_content(answers, document, ErrorShown::measuring).small;
    CHECK(printed.find(words) != std::string::npos);  // but for the first letter, here a capital
    const bool names_it = printed.find(" of sodium thiosulfate") != std::string::npos;
    CHECK(names_it);
  }
  // A target of the product itself is printed too, before the user's own note.
  const Room plain =
      room_of(text_of("sodium hydrogencarbonate", "144-55-8", "reach: 30 ppm\n      note: daily"));
  CHECK(dose_remarks(answers_of(plain).stocks.front(), litres(20)) ==
        "brings 30 mg per L of sodium hydrogencarbonate; daily");
  const Room given = room_of(testing::base_room());
  CHECK(dose_remarks(answers_of(given).stocks.front(), litres(20)).empty());
}

TEST_CASE("the strength code follows what a basis comes to, not how it was asked") {
  const auto code = [](const std::string& cas, const std::string& dose) {
    const Room room = room_of(text_of("a salt", cas, dose));
    return answer_room(room, testing::hazard_sources()).stocks.front().code.letters;
  };
  const std::string reach = code("10102-17-7", "reach: 14 mg/L");
  CHECK(code("10102-17-7", kChlorine) == reach);
  CHECK(code("10102-17-7", "remove: 4 mg/L\n      what: chlorine\n      ratio: 3.5") == reach);
  CHECK(code("10102-17-7", "remove: 2 mg/L\n      what: chloramine as chlorine\n      ratio: 7") ==
        reach);
  CHECK(code("10102-17-7", "remove: 2 mg/L\n      what: chloramine\n      ratio: 7") != reach);
  CHECK(code("10102-17-7", "remove: 2 mg/L\n      what: chlorine\n      ratio: 6") != reach);
  CHECK(code("10102-17-7", "remove: 3 mg/L\n      what: chlorine\n      ratio: 7") != reach);
  CHECK(code("144-55-8", "raise: 1 dKH") != code("144-55-8", "raise: 2 dKH"));
  CHECK(code("144-55-8", "raise: 1 dKH") == code("144-55-8", "raise: 1.0 dKH"));
}

TEST_CASE("a powder from its tub is dosed by what it removes") {
  std::string text =
      with(testing::base_room(), "    recipe:\n      soda: 60 g\n    water to: 1 L\n",
           "    powder: soda\n");
  text = with(text, "name: sodium hydrogencarbonate",
              "name: sodium thiosulfate pentahydrate\n    cas: 10102-17-7");
  text = with(text, "give: 10 mL per 20 L", kChlorine);
  const Room room = room_of(text);
  const auto rate =
      dose_rate(room.stocks.front().dose, mix(room.stocks.front(), room.products, room.tools));
  CHECK(in_grams(rate * litres(100)) == Approx(1.4));
}
