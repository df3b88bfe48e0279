// Random rooms, from their text to the doses of a chart: what must hold in every one of them.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <sstream>

#include "dosewright/wording/content.hpp"
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
    const auto answers = answer_room(*read.room, testing::hazard_sources());
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
      if (made.rounding == "never under") CHECK(given >= exact * (1 - kReached - 2e-6));
      if (made.rounding == "never over") CHECK(given <= exact * (1 + kReached + 2e-6));
      CHECK(given <= made.ceiling * made.buckets[row] * (1 + 2e-6));
      CHECK(dose.off_by.stored() >= std::fabs(given - exact) - 1e-9);
      CHECK(dose.error.bound.stored() >= dose.off_by.stored() * (1 - 1e-9));
      CHECK(dose.error.uncertainty.stored() < dose.error.bound.stored());
      CHECK(given >= before * (1 - 1e-9));
      before = given;
      if (dose.measured.measured) {
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

namespace {

const char* const kScaleRoom =
    "room: {name: Test}\nproducts: {p: {name: sodium chloride}}\nstocks:\n  s:\n    name: S\n"
    "    recipe: {p: 100 g}\n    water to: 1 L\n"
    "    dose: {give: 1 mL per 10 L, round: ROUND, tolerance: 20 %CEILING}\n"
    "tools:\n  drops: {kind: dropper}\n  coarse: {kind: syringe, holds: 20 mL, marks: every 5 mL}\n"
    "  fine: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
    "documents:\n  scale: {type: dose scale, stocks: [s], from: 5 L, to: 190 L}\n";

Room scale_room(const std::string& rounding, const std::string& ceiling) {
  std::string text = kScaleRoom;
  text.replace(text.find("ROUND"), 5, rounding);
  text.replace(text.find("CEILING"), 7, ceiling);
  const auto read = testing::read_room(text);
  for (const auto& problem : read.problems) UNSCOPED_INFO(problem.message);
  REQUIRE(read.room);
  return *read.room;
}

// The mark a reader of a range takes for an exact dose, by the rule of the stock.
double read_off(const ScaleRange& range, double exact, Rounding rounding) {
  double below = 0;
  double above = 0;
  for (const Portion mark : range.tool->marks) {
    const double at = mark.stored();
    if (at <= exact * (1 + 1e-9)) below = at;
    if (above == 0 && at >= exact * (1 - 1e-9)) above = at;
  }
  if (rounding == Rounding::never_under) return above;
  if (rounding == Rounding::never_over) return below;
  return above > 0 && above - exact <= exact - below ? above : below;
}

}  // namespace

TEST_CASE("whatever is read off a dose scale keeps the tolerance, the rule and the ceiling") {
  int readings = 0;
  for (const std::string rounding : {"nearest", "never under", "never over"}) {
    for (const std::string ceiling : {"", ", at most: 1.08 mL per 10 L"}) {
      const Room room = scale_room(rounding, ceiling);
      const auto answers = answer_room(room, testing::hazard_sources());
      const StockAnswer& stock = answers.stocks.front();
      const auto ranges = scale_ranges(room, stock, millilitres(0.5), millilitres(19));
      REQUIRE_FALSE(ranges.empty());
      for (const ScaleRange& range : ranges) {
        const double low = range.from.stored();
        const double high = range.to.stored();
        for (double exact = low * 1.0001; exact < high; exact += (high - low) / 200) {
          const double given = read_off(range, exact, stock.stock->dose.rounding);
          INFO(rounding << ceiling << ": " << range.tool->id << " at " << exact << ": " << given);
          CHECK(std::fabs(given / exact - 1) <= 0.2 + 1e-6);
          if (rounding == "never under") CHECK(given >= exact * (1 - 1e-6));
          if (rounding == "never over") CHECK(given <= exact * (1 + 1e-6));
          if (!ceiling.empty()) CHECK(given <= exact * 1.08 * (1 + 1e-6));
          CHECK(given > 0);
          ++readings;
        }
      }
    }
  }
  CHECK(readings > 2000);
}

TEST_CASE("a dropper's part of a scale is figured in mL, as its axis says") {
  const Room room = scale_room("nearest", "");
  const auto answers = answer_room(room, testing::hazard_sources());
  const DoseScaleContent scale = dose_scale_content(answers, room.documents.front());
  REQUIRE(scale.doses.size() == 1);
  CHECK(scale.doses.front().unit == "mL");
  const ScalePart& drops = scale.doses.front().parts.front();
  CHECK(drops.words == "drops, 20 drops per mL");
  for (const ScaleTick& tick : drops.ticks) {
    INFO(tick.figure);
    CHECK(std::stod(tick.figure) <= 1);
  }
}
