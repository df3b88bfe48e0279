// Working dilutions, powders from the tub, and habits with tools.
#include <catch2/catch.hpp>
#include <cmath>

#include "dosewright/measure/measure.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

Tool tool(const char* name, Tool::Kind kind, Portion holds, double step, double first = 0) {
  Tool made;
  made.id = name;
  made.name = name;
  made.kind = kind;
  made.holds = holds;
  made.step = Portion::like(holds, step);
  made.least = least_by_kind(kind);
  for (double mark = first > 0 ? first : step; mark <= holds.stored() * (1 + 1e-9); mark += step)
    made.marks.push_back(Portion::like(holds, std::round(mark / step) * step));
  return made;
}

const Tool kSyringe = tool("1 mL syringe", Tool::Kind::syringe, millilitres(1), 0.05);
const Tool kFive = tool("5 mL syringe", Tool::Kind::syringe, millilitres(5), 0.2);
const Tool kCylinder = tool("100 mL cylinder", Tool::Kind::cylinder, millilitres(100), 1, 10);
const Tool kScale = tool("scale", Tool::Kind::scale, grams(100), 0.1);
const Tool kSpoon = [] {
  Tool spoon = tool("5 mL spoon", Tool::Kind::spoon, millilitres(5), 5);
  spoon.for_powder = true;
  return spoon;
}();

MeasureTask asked(Portion exact, double tolerance = 0.1, Rounding rounding = Rounding::nearest) {
  return {exact, rounding, share(tolerance), std::nullopt, std::nullopt};
}

double delivered(const WorkingDilution& d) {
  return d.take.to.stored() * d.give.to.stored() / d.make_up.to.stored();
}

}  // namespace

TEST_CASE("a dose too small for the tools is diluted until it can be measured") {
  const Measurer measurer({{&kSyringe, &kFive}, {&kSyringe, &kFive, &kCylinder}, std::nullopt});
  const MeasureAnswer answer = measurer.measure(asked(millilitres(0.04)));
  CHECK_FALSE(answer.measured);
  REQUIRE(answer.dilution);
  const WorkingDilution& way = *answer.dilution;
  CHECK(delivered(way) == Approx(way.delivers.stored()));
  CHECK(std::fabs(way.delivers.stored() / 0.04 - 1) <= 0.1 + 1e-6);
  CHECK(way.make_up.tool == &kCylinder);
  CHECK(way.bound.stored() / way.delivers.stored() <= 0.25);
  // All three errors at their worst: more taken and given, less made up to.
  const double take = way.take.to.stored() + fill_bound(*way.take.tool, way.take.to).stored();
  const double give = way.give.to.stored() + fill_bound(*way.give.tool, way.give.to).stored();
  const double up = way.make_up.to.stored() - fill_bound(kCylinder, way.make_up.to).stored();
  CHECK(way.bound.stored() == Approx(take * give / up - delivered(way)));
  CHECK(
      how_to_dilute(way, "Stock") ==
      "1. Fill the 5 mL syringe to 5 mL with Stock, empty it into the 100 mL cylinder. 2. Fill up "
      "with water to 50 mL, stir. 3. Rinse the 5 mL syringe. 4. Give 0.4 mL of the "
      "mixture with the 1 mL syringe, dispose of the rest as the bottle's label says.");
}

TEST_CASE("a dilution keeps the rule, and is not offered without a vessel for it") {
  for (const double exact : {0.004, 0.012, 0.017, 0.033, 0.041, 0.06, 0.09}) {
    for (const Rounding rule : {Rounding::never_under, Rounding::never_over}) {
      const Measurer measurer({{&kSyringe, &kFive}, {&kCylinder}, std::nullopt});
      const MeasureAnswer answer = measurer.measure(asked(millilitres(exact), 0.15, rule));
      INFO(exact);
      REQUIRE(answer.dilution);
      const double part = delivered(*answer.dilution) / exact;
      CHECK(std::fabs(part - 1) <= 0.15 + 1e-6);
      if (rule == Rounding::never_under) CHECK(part >= 1 - 2e-6);
      if (rule == Rounding::never_over) CHECK(part <= 1 + 2e-6);
    }
  }
  const Measurer without({{&kSyringe, &kFive}, {&kSyringe, &kFive}, std::nullopt});
  const MeasureAnswer none = without.measure(asked(millilitres(0.04)));
  CHECK_FALSE(none.dilution);
  CHECK_FALSE(none.measured);
  CHECK(none.problem == MeasureProblem::too_small);
}

TEST_CASE("too large a dose names the size that is missing") {
  const MeasureAnswer answer = measure(asked(millilitres(450)), {&kSyringe, &kFive});
  CHECK(answer.problem == MeasureProblem::too_large);
  // Cylinders come in 250 mL (ISO 4788): two fills of one do.
  CHECK(answer.wanted_size.stored() == 250);
  CHECK(why_not(answer) == "too large for the tools at hand: one that holds 250 mL is missing");
}

// Sodium hydrogencarbonate, loose 0.869 and tapped 1.369 g/mL (Handbook of Pharmaceutical
// Excipients): middle 1.119 g/mL, half-width 22 %.
TEST_CASE("powder is weighed first, and scooped only where it must be") {
  const PowderByVolume powder{grams_per_litre(1119), share(0.25 / 1.119)};
  const Measurer both({{&kSpoon, &kScale}, {}, powder});
  const auto weighed = both.measure(asked(grams(5.6), 0.4)).measured;
  REQUIRE(weighed);
  CHECK(weighed->pours.front().tool == &kScale);
  CHECK(in_grams(weighed->total) == Approx(5.6));

  const Measurer spoon({{&kSpoon}, {}, powder});
  const auto scooped = spoon.measure(asked(grams(5.6), 0.4)).measured;
  REQUIRE(scooped);
  CHECK(in_grams(scooped->total) == Approx(5 * 1.119));
  // 5 % of the spoon and 5 % for its level, at the corner with 22.3 % of the density.
  CHECK(scooped->tool_bound / scooped->total == Approx(1.10 * (1 + 0.25 / 1.119) - 1));
  CHECK(how_to_measure(*scooped) == "5 mL spoon level");

  // Without a bulk density a spoonful weighs nobody knows what.
  const Measurer blind({{&kSpoon}, {}, PowderByVolume{}});
  CHECK(blind.measure(asked(grams(5.6), 0.4)).problem == MeasureProblem::no_tool);
}

TEST_CASE("liquid and powder are never measured against each other") {
  CHECK_THROWS_AS(Portion(grams(1)) + Portion(millilitres(1)), std::logic_error);
  CHECK_THROWS_AS(Portion(grams(1)) < Portion(millilitres(1)), std::logic_error);
  CHECK_THROWS_AS(in_millilitres(Portion(grams(1))), std::logic_error);
}

TEST_CASE("a tool is not filled below the share it is kept from") {
  Tool big = tool("10 mL syringe", Tool::Kind::syringe, millilitres(10), 0.5);
  CHECK(as_ratio(big.least) == Approx(0.1));
  CHECK_FALSE(measure(asked(millilitres(0.5)), {&big}).measured);
  big.least = share(0.05);
  CHECK(measure(asked(millilitres(0.5)), {&big}).measured);
  // Between the two it is avoided: a second fill of a smaller one is taken instead.
  const auto way = measure(asked(millilitres(1.5)), {&big, &kSyringe}).measured;
  REQUIRE(way);
  CHECK(how_to_measure(*way) == "1 mL syringe to 1 mL, then 0.5 mL more");
}

TEST_CASE("a column of doses keeps to one tool where that costs nothing") {
  Tool fine = tool("fine 10 mL syringe", Tool::Kind::syringe, millilitres(10), 0.2);
  Tool plain = tool("plain 10 mL syringe", Tool::Kind::syringe, millilitres(10), 0.5);
  const Measurer measurer({{&plain, &fine}, {}, std::nullopt});
  std::vector<MeasureTask> tasks;
  for (const double exact : {4.2, 5.0, 6.2, 7.0, 7.8}) tasks.push_back(asked(millilitres(exact)));
  for (const MeasureAnswer& answer : measurer.measure_column(tasks)) {
    REQUIRE(answer.measured);
    CHECK(answer.measured->pours.front().tool == &fine);
  }
}

TEST_CASE("a tool kept for one stock is used for it and for no other") {
  std::string text = testing::base_room();
  const auto replace = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  replace("tools:\n",
          "tools:\n  own: {kind: syringe, holds: 10 mL, marks: every 0.5 mL, only for: buffer}\n");
  const auto room = testing::read_room(text).room;
  REQUIRE(room);
  const auto answers = answer_room(*room, testing::hazard_sources());
  const DoseAnswer dose = answer_dose(*room, answers.stocks.front(), litres(10), share(0.05));
  REQUIRE(dose.measured.measured);
  CHECK(dose.measured.measured->pours.front().tool->id == "own");
  Stock other = room->stocks.front();
  other.id = "other";
  for (const Tool* usable : tools_for(*room, other).tools) CHECK(usable->id != "own");
}

TEST_CASE("drops are counted and said in mL by the dose") {
  Tool dropper;
  dropper.name = "dropper";
  dropper.kind = Tool::Kind::dropper;
  dropper.holds = millilitres(1);
  dropper.step = millilitres(0.05);  // 20 drops per mL: UCUM's drop
  for (int drops = 1; drops <= 20; ++drops) dropper.marks.push_back(millilitres(0.05 * drops));
  const auto way = measure(asked(millilitres(0.35), 0.2), {&dropper}).measured;
  REQUIRE(way);
  CHECK(how_to_measure(*way) == "dropper 7 drops");
  CHECK(dose_amount(*way).figure == "0.35");
  CHECK(in_millilitres(way->tool_bound) == Approx(0.15 * 0.35));
}
