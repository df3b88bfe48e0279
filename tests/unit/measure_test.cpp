// Doses on the marks of real tools.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "dosewright/measure/measure.hpp"
#include "dosewright/wording/content.hpp"

using namespace dosewright;

namespace {

Tool tool(const char* name, Tool::Kind kind, double holds, double step, double first = 0,
          int pours = 4) {
  Tool made;
  made.id = name;
  made.name = name;
  made.kind = kind;
  made.holds = millilitres(holds);
  made.step = millilitres(step);
  made.pours = pours;
  made.least = share(0);
  for (int i = 0;; ++i) {
    const double mark = (first > 0 ? first : step) + step * i;
    if (mark > holds * (1 + 1e-9)) break;
    made.marks.push_back(millilitres(mark));
  }
  return made;
}

const Tool kOne = tool("1 mL syringe", Tool::Kind::syringe, 1, 0.05);
const Tool kThree = tool("3 mL syringe", Tool::Kind::syringe, 3, 0.1);
const Tool kTen = tool("10 mL syringe", Tool::Kind::syringe, 10, 0.5);
const std::vector<const Tool*> kSyringes = {&kOne, &kThree, &kTen};

MeasureTask task(double exact, Rounding rounding = Rounding::nearest, double tolerance = 0.1) {
  return {millilitres(exact), rounding, share(tolerance), std::nullopt, std::nullopt};
}

MeasureAnswer ask(double exact, Rounding rounding = Rounding::nearest, double tolerance = 0.1) {
  return measure(task(exact, rounding, tolerance), kSyringes);
}

std::string how(double exact, Rounding rounding = Rounding::nearest) {
  const MeasureAnswer answer = ask(exact, rounding);
  return answer.measured ? how_to_measure(*answer.measured) : "";
}

}  // namespace

// ISO 7886-1, Table 1, figures from memory: 1.5 % of capacity + 2 % (1 % from 5 mL on) of the fill
// below half the capacity, 5 % (4 %) of the fill from half on. Reading adds half a division.
TEST_CASE("syringe errors follow the tolerance table") {
  const auto calibration = [](const Tool& t, double to) {
    return in_millilitres(fill_bound(t, millilitres(to))) - in_millilitres(t.step) / 2;
  };
  CHECK(calibration(kOne, 0.1) == Approx(0.017));
  CHECK(calibration(kOne, 0.5) == Approx(0.025));
  CHECK(calibration(kOne, 1) == Approx(0.05));
  CHECK(calibration(kThree, 0.5) == Approx(0.055));
  CHECK(calibration(kThree, 1.5) == Approx(0.075));
  CHECK(calibration(kThree, 3) == Approx(0.15));
  CHECK(calibration(kTen, 1) == Approx(0.16));
  CHECK(calibration(kTen, 4.9) == Approx(0.199));
  CHECK(calibration(kTen, 5) == Approx(0.20));
  CHECK(calibration(kTen, 10) == Approx(0.40));
}

TEST_CASE("the user's own accuracy replaces the table") {
  Tool own = kTen;
  own.accuracy = share(0.02);
  CHECK(in_millilitres(fill_bound(own, millilitres(8))) == Approx(0.16 + 0.25));
  own.accuracy = millilitres(0.1);
  CHECK(in_millilitres(fill_bound(own, millilitres(8))) == Approx(0.1 + 0.25));
}

// A cylinder without a class is right to one division, 0.2 mL here; three fills: 3 x (0.2 + 0.1)
// mL.
TEST_CASE("repeated fills add their worst cases") {
  Tool cylinder = tool("10 mL cylinder", Tool::Kind::cylinder, 10, 0.2);
  const std::vector<const Tool*> tools = {&cylinder};
  const auto answer = measure(task(30), tools);
  REQUIRE(answer.measured);
  CHECK(answer.measured->pours.front().count == 3);
  CHECK(in_millilitres(answer.measured->tool_bound) == Approx(0.9));
}

TEST_CASE("a dose is put into words as it is done") {
  CHECK(how(0.35) == "1 mL syringe to 0.35 mL");
  CHECK(how(1.4) == "3 mL syringe to 1.4 mL");
  CHECK(how(3) == "3 mL syringe to 3 mL");
  // Below half full a syringe is less sure, so two equal fills beat a full one and a small one.
  CHECK(how(14) == "10 mL syringe to 7 mL, 2 times");
  CHECK(how(15.5) == "10 mL syringe to 10 mL, then 5.5 mL more");
  CHECK(how(20) == "10 mL syringe to 10 mL, 2 times");
  CHECK(how(23.1) == "10 mL syringe to 10 mL, 2 times, then 3 mL more");
  // A second tool only where one alone cannot come near enough.
  CHECK(how_to_measure(*ask(10.3, Rounding::nearest, 0.01).measured) ==
        "10 mL syringe to 9.5 mL, then 1 mL syringe to 0.8 mL");
}

TEST_CASE("rounding rules hold") {
  CHECK(in_millilitres(ask(1.42, Rounding::never_under).measured->total) == Approx(1.5));
  CHECK(in_millilitres(ask(1.48, Rounding::never_over).measured->total) == Approx(1.4));
  CHECK(in_millilitres(ask(1.42, Rounding::nearest).measured->total) == Approx(1.4));
  // An amount that is on the mark stays there whatever the rule.
  for (const Rounding rule : {Rounding::never_under, Rounding::never_over, Rounding::nearest}) {
    CHECK(in_millilitres(ask(0.1 + 0.2, rule).measured->total) == Approx(0.3));
  }
}

TEST_CASE("what cannot be measured is said, not rounded away") {
  CHECK(ask(0.02).problem == MeasureProblem::too_small);
  CHECK_FALSE(ask(0.02).measured);
  CHECK(ask(0.02).smallest_mark == millilitres(0.05));
  CHECK(ask(90).problem == MeasureProblem::too_large);
  CHECK(ask(90).largest_dose == millilitres(40));
  CHECK(ask(0.075, Rounding::nearest, 0.1).problem == MeasureProblem::outside_tolerance);
  CHECK(measure(task(1), {}).problem == MeasureProblem::no_tool);
}

TEST_CASE("a tool is filled to its marks, never to an unmarked brim") {
  Tool jug;
  jug.name = "jug";
  jug.kind = Tool::Kind::cylinder;
  jug.holds = millilitres(1000);
  jug.marks = {millilitres(250), millilitres(500)};
  jug.step = millilitres(250);
  const std::vector<const Tool*> tools = {&jug};
  const auto answer = measure(task(1000), tools);
  REQUIRE(answer.measured);
  CHECK(how_to_measure(*answer.measured) == "jug to 500 mL, 2 times");
  CHECK(answer.largest_dose == millilitres(2000));
}

TEST_CASE("reading goes by the widest division beside the mark") {
  Tool cup;
  cup.kind = Tool::Kind::syringe;
  cup.holds = millilitres(10);
  cup.marks = {millilitres(1), millilitres(2), millilitres(5), millilitres(10)};
  cup.step = millilitres(1);
  cup.accuracy = millilitres(0);
  CHECK(in_millilitres(fill_bound(cup, millilitres(1))) == Approx(0.5));
  CHECK(in_millilitres(fill_bound(cup, millilitres(2))) == Approx(1.5));
  CHECK(in_millilitres(fill_bound(cup, millilitres(10))) == Approx(2.5));
}

TEST_CASE("the reasonable number of fills counts all fills of a tool") {
  const Tool once = tool("10 mL syringe", Tool::Kind::syringe, 10, 0.5, 0, 1);
  const std::vector<const Tool*> tools = {&once};
  CHECK_FALSE(measure(task(15), tools).measured);
  CHECK(measure(task(10), tools).measured);
}

TEST_CASE("a ceiling is never passed by rounding up") {
  MeasureTask limited = task(1.48, Rounding::nearest, 0.2);
  CHECK(in_millilitres(measure(limited, kSyringes).measured->total) == Approx(1.5));
  limited.ceiling = millilitres(1.45);
  const auto answer = measure(limited, kSyringes);
  REQUIRE(answer.measured);
  CHECK(in_millilitres(answer.measured->total) <= 1.45);
}
