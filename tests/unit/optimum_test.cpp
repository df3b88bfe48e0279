// The way to measure a dose is the best there is: against every way, and against what must hold.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "every_way.hpp"

using namespace dosewright;
using namespace testing;

namespace {

int fills_in(const Measured& way) {
  int out = 0;
  for (const Pour& pour : way.pours) out += pour.count;
  return out;
}

int tools_in(const Measured& way) {
  std::vector<const Tool*> seen;
  for (const Pour& pour : way.pours) {
    if (std::find(seen.begin(), seen.end(), pour.tool) == seen.end()) seen.push_back(pour.tool);
  }
  return static_cast<int>(seen.size());
}

}  // namespace

TEST_CASE("the optimum is the best of all ways, 100,000 times") {
  std::mt19937 random(20261125);
  int measured = 0;
  int mixed = 0;
  int repeated = 0;
  for (int i = 0; i < 100000; ++i) {
    const std::vector<Tool> tools = random_tools(random, 6);
    const MeasureTask task = random_task(random, tools);
    // A dilution is looked for beside the ways; here the ways alone are compared.
    const MeasureAnswer answer = Measurer({pointers(tools), {}, std::nullopt}).measure(task);
    const Found best = Everything(task, tools).best();
    if (best.any != answer.measured.has_value()) {
      FAIL("case " << i << ": one finds a way, the other none");
    }
    if (!best.any) continue;
    const Measured& way = *answer.measured;
    const bool same = static_cast<int>(way.grade) == best.grade && fills_in(way) == best.fills &&
                      tools_in(way) == best.tools &&
                      std::fabs(way.off_by.stored() - best.off_by) <= 1e-9 * best.off_by;
    if (!same) {
      FAIL("case " << i << ": grade " << static_cast<int>(way.grade) << " against " << best.grade
                   << ", fills " << fills_in(way) << " against " << best.fills << ", tools "
                   << tools_in(way) << " against " << best.tools << ", off by "
                   << way.off_by.stored() << " against " << best.off_by);
    }
    ++measured;
    mixed += best.tools > 1 ? 1 : 0;
    repeated += best.fills > 1 ? 1 : 0;
  }
  CHECK(measured > 30000);
  CHECK(mixed > 2000);
  CHECK(repeated > 5000);
}

TEST_CASE("a way is made of real marks, and its sums are right") {
  std::mt19937 random(7);
  int seen = 0;
  for (int i = 0; i < 20000; ++i) {
    const std::vector<Tool> tools = random_tools(random, 30);
    const MeasureTask task = random_task(random, tools);
    const auto answer = measure(task, pointers(tools));
    if (!answer.measured) continue;
    ++seen;
    double total = 0;
    double bound = 0;
    for (const Pour& pour : answer.measured->pours) {
      const auto& marks = pour.tool->marks;
      CHECK(std::find(marks.begin(), marks.end(), pour.to) != marks.end());
      total += pour.to.stored() * pour.count;
      bound += fill_bound(*pour.tool, pour.to).stored() * pour.count;
    }
    const double exact = task.exact.stored();
    CHECK(total == Approx(answer.measured->total.stored()).epsilon(1e-12));
    CHECK(bound == Approx(answer.measured->tool_bound.stored()).epsilon(1e-12));
    CHECK(std::fabs(total / exact - 1) <= as_ratio(task.tolerance) + 2e-6);
    if (task.rounding == Rounding::never_under) CHECK(total >= exact * (1 - kReached - 2e-6));
    if (task.rounding == Rounding::never_over) CHECK(total <= exact * (1 + kReached + 2e-6));
    if (task.ceiling) CHECK(total <= task.ceiling->stored() * (1 + 2e-6));
    if (task.floor) CHECK(total >= task.floor->stored() * (1 - 2e-6));
    CHECK(answer.measured->tool_uncertainty.stored() <= bound);
  }
  CHECK(seen > 5000);
}

// More water, more dose or the same: over random rooms, dose by dose and as an evened-out column.
TEST_CASE("more water never gets a smaller dose") {
  std::mt19937 random(11);
  int compared = 0;
  for (int room = 0; room < 400; ++room) {
    const std::vector<Tool> tools = random_tools(random, 25);
    const Measurer measurer({pointers(tools), {}, std::nullopt});
    MeasureTask task = random_task(random, tools);
    const double start = in_millilitres(tools.front().marks.front());
    std::vector<MeasureTask> column;
    for (double exact = start; column.size() < 60; exact *= 1.03) {
      task.exact = millilitres(exact);
      if (task.ceiling) task.ceiling = millilitres(exact * 1.05);
      if (task.floor) task.floor = millilitres(exact * 0.97);
      column.push_back(task);
    }
    const auto evened = measurer.measure_column(column);
    double before = 0;
    double before_evened = 0;
    for (std::size_t i = 0; i < column.size(); ++i) {
      if (const auto alone = measurer.measure(column[i]).measured) {
        CHECK(alone->total.stored() >= before * (1 - 1e-9));
        before = alone->total.stored();
        ++compared;
      }
      if (evened[i].measured) {
        CHECK(evened[i].measured->total.stored() >= before_evened * (1 - 1e-9));
        before_evened = evened[i].measured->total.stored();
      }
    }
  }
  CHECK(compared > 5000);
}

TEST_CASE("one dose alone gets the way that is least off, in whatever order the tools stand") {
  std::mt19937 random(5);
  int compared = 0;
  for (int i = 0; i < 5000; ++i) {
    const std::vector<Tool> tools = random_tools(random, 20);
    const MeasureTask task = random_task(random, tools);
    std::vector<const Tool*> order = pointers(tools);
    const auto alone = Measurer({order, {}, std::nullopt}).measure(task).measured;
    std::reverse(order.begin(), order.end());
    const auto column = Measurer({order, {}, std::nullopt}).measure_column({task}).front().measured;
    REQUIRE(alone.has_value() == column.has_value());
    if (!alone) continue;
    ++compared;
    CHECK(column->off_by.stored() == Approx(alone->off_by.stored()).epsilon(1e-9));
  }
  CHECK(compared > 1000);
}
