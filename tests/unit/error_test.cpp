// Errors of tools by published tables, and errors put together as the literature does it.
#include <catch2/catch.hpp>
#include <cmath>

#include "dosewright/measure/tool_error.hpp"
#include "dosewright/measure/uncertainty.hpp"
#include "dosewright/units/print.hpp"

using namespace dosewright;

namespace {

Tool tool(Tool::Kind kind, double holds, double step, AccuracyClass by = AccuracyClass::by_kind) {
  Tool made;
  made.kind = kind;
  made.holds = millilitres(holds);
  made.step = millilitres(step);
  made.accuracy_class = by;
  for (int i = 1; step * i <= holds * (1 + 1e-9); ++i) made.marks.push_back(millilitres(step * i));
  return made;
}

double limit(const Tool& of, double to) {
  return in_millilitres(fill_error(of, millilitres(to)).calibration.worst);
}

}  // namespace

// ASTM E1272-02 (2012), Table 1, class A and twice that for class B.
TEST_CASE("cylinders keep ASTM E1272") {
  const double rows[][2] = {{5, 0.05},   {10, 0.10},  {25, 0.17}, {50, 0.25},
                            {100, 0.50}, {250, 1.00}, {500, 2.00}};
  for (const auto& row : rows) {
    const double step = row[0] / 50;
    INFO(row[0] << " mL");
    CHECK(limit(tool(Tool::Kind::cylinder, row[0], step, AccuracyClass::astm_e1272_a), row[0]) ==
          Approx(row[1]));
    CHECK(limit(tool(Tool::Kind::cylinder, row[0], step, AccuracyClass::astm_e1272_b), row[0]) ==
          Approx(2 * row[1]));
  }
  // "A size between two listed ones takes the smaller one's": 300 mL goes by 250 mL.
  CHECK(limit(tool(Tool::Kind::cylinder, 300, 5, AccuracyClass::astm_e1272_a), 300) == Approx(1));
}

// ISO 4788, from memory: class A half a smallest division, class B a whole one.
TEST_CASE("cylinders keep ISO 4788") {
  const double rows[][3] = {
      {10, 0.1, 0.2}, {25, 0.25, 0.5}, {100, 0.5, 1}, {500, 2.5, 5}, {1000, 5, 10}};
  for (const auto& row : rows) {
    CHECK(limit(tool(Tool::Kind::cylinder, row[0], row[2], AccuracyClass::iso_4788_a), row[0]) ==
          Approx(row[1]));
    CHECK(limit(tool(Tool::Kind::cylinder, row[0], row[2], AccuracyClass::iso_4788_b), row[0]) ==
          Approx(row[2]));
  }
}

// USP <31>: 2, 5 and 10 mL as in USP 29; class B is twice class A.
TEST_CASE("graduated pipettes keep USP 31") {
  for (const auto& row : {std::pair(2.0, 0.010), std::pair(5.0, 0.020), std::pair(10.0, 0.030)}) {
    const double step = row.first / 20;
    CHECK(limit(tool(Tool::Kind::graduated_pipette, row.first, step, AccuracyClass::usp_31_a),
                row.first) == Approx(row.second));
    CHECK(limit(tool(Tool::Kind::graduated_pipette, row.first, step, AccuracyClass::usp_31_b),
                row.first) == Approx(2 * row.second));
  }
}

// ISO 8655-2: 1000 µL, 8 µL systematic and 3 µL random, at every setting. A published test of a
// 200 to 1000 µL pipette (tsijournals, October 2019, Table 2) allows 4 %, 1.6 % and 0.8 %
// systematic, 1.5 %, 0.6 % and 0.3 % random at 200, 500 and 1000 µL.
TEST_CASE("piston pipettes keep ISO 8655-2 at every setting") {
  const Tool pipette = tool(Tool::Kind::piston_pipette, 1, 0.005);
  const double settings[][3] = {{0.2, 0.04, 0.015}, {0.5, 0.016, 0.006}, {1.0, 0.008, 0.003}};
  for (const auto& row : settings) {
    const FillError error = fill_error(pipette, millilitres(row[0]));
    CHECK(in_millilitres(error.calibration.worst) / row[0] == Approx(row[1]));
    CHECK(in_millilitres(error.reading.standard) / row[0] == Approx(row[2]));
  }
}

// USP <1101>: a calibrated dropper is right to 15 %. ANSI/ASA Z61.1: household measures to 5 %.
TEST_CASE("droppers and household measures keep their limits") {
  Tool dropper = tool(Tool::Kind::dropper, 1, 0.05);
  CHECK(limit(dropper, 0.5) == Approx(0.075));
  CHECK(in_millilitres(fill_bound(dropper, millilitres(0.5))) == Approx(0.075));
  CHECK(limit(tool(Tool::Kind::cup, 236.588, 236.588), 236.588) == Approx(11.829).epsilon(1e-4));
}

TEST_CASE("a class says nothing of what it is not about") {
  CHECK(class_objection(tool(Tool::Kind::syringe, 10, 0.5, AccuracyClass::iso_7886_1)).empty());
  CHECK(class_objection(tool(Tool::Kind::cylinder, 100, 1, AccuracyClass::iso_7886_1)) ==
        "ISO 7886-1 is about syringes");
  CHECK(class_objection(tool(Tool::Kind::cylinder, 2, 0.1, AccuracyClass::astm_e1272_b)) ==
        "ASTM E1272 class B has no limit for a tool of this size");
}

// Three fills of 10 mL with a class B cylinder of 10 mL (0.2 mL, ASTM E1272), read to 0.1 mL: the
// calibration is the same each time, the reading is new each time. Worked out by hand.
TEST_CASE("repeated fills add calibration linearly and reading by the root") {
  const Tool cylinder = tool(Tool::Kind::cylinder, 10, 0.2, AccuracyClass::astm_e1272_b);
  const MeasureTask thirty{millilitres(30), Rounding::nearest, share(0.1), {}, {}};
  const auto answer = measure(thirty, {&cylinder});
  REQUIRE(answer.measured);
  CHECK(in_millilitres(answer.measured->tool_bound) == Approx(0.90));
  CHECK(in_millilitres(answer.measured->tool_uncertainty) == Approx(0.360555).epsilon(1e-5));
}

// EURACHEM/CITAC Guide CG 4, Quantifying Uncertainty in Analytical Measurement, example A1: a
// cadmium standard, c = 1000 m P / V with m = 100.28 mg, P = 0.9999, V = 100.0 mL.
TEST_CASE("the cadmium standard of EURACHEM example A1") {
  const double c = 1000 * 100.28 * 0.9999 / 100.0;
  CHECK(c == Approx(1002.7).epsilon(1e-5));
  const Share purity = rectangular(share(0.0001)) * (1 / 0.9999);
  CHECK(as_ratio(purity) == Approx(0.000058).epsilon(0.01));
  const Share mass = share(0.05 / 100.28);

  // At full precision: the flask 0.1 mL triangular, 0.02 mL repeatability, 4 °C of water's
  // expansion, 2.1e-4 per °C, rectangular. The guide's model file holds 0.0664730521840743 mL.
  const Share volume =
      combined({triangular(share(0.001)), share(0.0002), rectangular(share(4 * 2.1e-4))});
  CHECK(as_ratio(volume) * 100 == Approx(0.0664730521840743).epsilon(1e-9));
  const double full = c * as_ratio(combined({purity, mass, volume}));
  CHECK(full == Approx(0.8352).margin(1e-4));

  // As printed: the volume's uncertainty rounded to 0.07 mL gives the guide's 0.9 mg/L.
  const double rounded = c * as_ratio(combined({purity, mass, share(0.07 / 100)}));
  CHECK(rounded == Approx(0.8637).margin(1e-4));
  CHECK(significant_figure(rounded, 1) == "0.9");
}

// OpenStax College Physics, section 1.3 "Accuracy, Precision, and Significant Figures": the method
// of adding percents, whose results are printed to one or two figures.
TEST_CASE("percent uncertainties of a physics textbook") {
  // A floor of 4.00 m at 2 % by 3.00 m at 1 %: 12.0 m2 at 3 %.
  CHECK(100 * as_ratio(worst_of({share(0.02), share(0.01)}, {})) == Approx(3).margin(0.05));
  // 1.80 ± 0.01 by 2.05 ± 0.02 by 3.1 ± 0.1 cm: 11.4 ± 0.6 cm3.
  const double box = 1.80 * 2.05 * 3.1;
  const Share sides = worst_of({share(0.01 / 1.80), share(0.02 / 2.05), share(0.1 / 3.1)}, {});
  CHECK(significant_figure(box, 3) == "11.4");
  CHECK(significant_figure(box * as_ratio(sides), 1) == "0.6");
  // 40 ± 1 beats in 30.0 ± 0.5 s: 80 ± 3 beats per minute.
  const Share beats = worst_of({share(1.0 / 40)}, {share(0.5 / 30)});
  CHECK(significant_figure(80 * as_ratio(beats), 1) == "3");
  // 5.1 lb give or take 0.4 lb is 8 %.
  CHECK(significant_figure(100 * 0.4 / 5.1, 1) == "8");
}

TEST_CASE("strength and vessel join the tools' error, at their corners and in quadrature") {
  // 10 mL wanted, 10.5 measured to 0.4 mL (u 0.2), strength to 3 % and water to 5 %.
  const DoseError error =
      dose_error(millilitres(10), millilitres(10.5), millilitres(0.4), millilitres(0.2),
                 evenly_spread(share(0.03)), evenly_spread(share(0.05)));
  CHECK(in_millilitres(error.most) == Approx(10.9 * 1.03 / 0.95));
  CHECK(in_millilitres(error.least) == Approx(10.1 * 0.97 / 1.05));
  CHECK(in_millilitres(error.bound) == Approx(10.9 * 1.03 / 0.95 - 10));
  CHECK(in_millilitres(error.uncertainty) ==
        Approx(10.5 * std::sqrt(std::pow(0.2 / 10.5, 2) + (0.0009 + 0.0025) / 3)));
}
