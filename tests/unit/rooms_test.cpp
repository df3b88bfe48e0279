// Random rooms, from their text to the doses of a chart: what must hold in every one of them.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <sstream>

#include "helpers.hpp"

using namespace dosewright;

namespace {

struct RandomRoom {
  std::string text;
  double per_litre = 0;  // mL or g
  std::string rounding;
  double tolerance = 0;
  double ceiling = 0;
  std::vector<double> buckets;  // L, rising
};

RandomRoom random_room(std::mt19937& random) {
  const auto pick = [&](int count) {
    return static_cast<int>(random() % static_cast<unsigned>(count));
  };
  std::uniform_real_distribution<double> unit(0, 1);
  RandomRoom out;
  const bool dry = pick(4) == 0;
  out.per_litre = std::round((dry ? 0.02 : 0.05) * std::pow(100, unit(random)) * 1000) / 1000;
  out.rounding =
      std::array{"nearest", "never under", "never over"}.at(static_cast<std::size_t>(pick(3)));
  out.tolerance = 5 + pick(16);
  out.ceiling = std::round(out.per_litre * (1.02 + 0.5 * unit(random)) * 10000) / 10000;
  std::ostringstream text;
  text.precision(12);
  const char* const per = dry ? "g" : "mL";
  text << "room: {name: Test}\nproducts:\n  p: {name: sodium chloride}\nstocks:\n  s:\n    name: "
          "S\n";
  text << (dry ? "    powder: p\n" : "    recipe: {p: 100 g}\n    water to: 1 L\n");
  text << "    dose: {give: " << out.per_litre << ' ' << per << " per 1 L, round: " << out.rounding
       << ", tolerance: " << out.tolerance << " %, at most: " << out.ceiling << ' ' << per
       << " per 1 L}\n";
  text << "tools:\n  a: {kind: syringe, holds: 1 mL, marks: every 0.05 mL}\n"
          "  scale: {kind: scale, holds: 50 g, marks: every 0.1 g}\n";
  if (pick(2) == 0) text << "  b: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n";
  if (pick(2) == 0) text << "  c: {kind: cylinder, holds: 100 mL, marks: every 1 mL from 10 mL}\n";
  if (pick(2) == 0)
    text << "  d: {kind: transfer pipette, holds: 3 mL, marks: [1 mL, 2 mL, 3 mL]}\n";
  text << "documents:\n  chart:\n    type: bucket chart\n    stocks: [s]\n    buckets: [";
  double water = 0.2 + unit(random);
  for (int i = 0; i < 14; ++i) {
    out.buckets.push_back(std::round(water * 1000) / 1000);
    text << (i > 0 ? ", " : "") << out.buckets.back() << " L";
    water *= 1.1 + unit(random);
  }
  text << "]\n";
  out.text = text.str();
  return out;
}

}  // namespace

TEST_CASE("in every room no rule is broken and no dose falls") {
  std::mt19937 random(42);
  int measured = 0;
  int diluted = 0;
  int weighed = 0;
  for (int i = 0; i < 300; ++i) {
    const RandomRoom made = random_room(random);
    INFO(made.text);
    const auto read = testing::read_room(made.text);
    REQUIRE(read.room);
    const auto answers = answer_room(*read.room, testing::statement_book());
    const ChartAnswer chart = answer_chart(answers, read.room->documents.front());
    double before = 0;
    for (std::size_t row = 0; row < made.buckets.size(); ++row) {
      const DoseAnswer& dose = chart.rows[row].front();
      const double exact = made.per_litre * made.buckets[row];
      CHECK(dose.exact.stored() == Approx(exact).epsilon(1e-9));
      if (!dose.can_be_measured()) {
        CHECK(dose.measured.problem != MeasureProblem::none);
        continue;
      }
      const double given = dose.delivers.stored();
      CHECK(given > 0);
      CHECK(std::fabs(given / exact - 1) <= made.tolerance / 100 + 2e-6);
      if (made.rounding == "never under") CHECK(given >= exact * (1 - 2e-6));
      if (made.rounding == "never over") CHECK(given <= exact * (1 + 2e-6));
      CHECK(given <= made.ceiling * made.buckets[row] * (1 + 2e-6));
      CHECK(dose.off_by.stored() >= std::fabs(given - exact) - 1e-9);
      CHECK(dose.error.bound.stored() >= dose.off_by.stored() * (1 - 1e-9));
      CHECK(dose.error.uncertainty.stored() < dose.error.bound.stored());
      if (dose.measured.measured) {
        CHECK(given >= before * (1 - 1e-9));
        before = given;
        ++measured;
        weighed += dose.exact.is_powder() ? 1 : 0;
      } else {
        ++diluted;
      }
    }
  }
  CHECK(measured > 1500);
  CHECK(diluted > 30);
  CHECK(weighed > 200);
}
