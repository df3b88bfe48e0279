// How much dearer it is to try every way to measure a dose than to search for the best: as ratios,
// since a machine's own speed says nothing. Not a test: run it by hand.
#include <chrono>
#include <cstdio>

#include "every_way.hpp"

namespace {

using namespace testing;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

// The same racks and doses for both sides; the sums keep the compiler from leaving work out.
void compare(int most_marks, int racks, int doses_each) {
  std::mt19937 random(1);
  double searching = 0;
  double setting_up = 0;
  double trying = 0;
  double sum = 0;
  for (int i = 0; i < racks; ++i) {
    const std::vector<Tool> tools = random_tools(random, most_marks);
    std::vector<MeasureTask> tasks;
    for (int dose = 0; dose < doses_each; ++dose) tasks.push_back(random_task(random, tools));
    auto start = Clock::now();
    const Measurer measurer({pointers(tools), {}, std::nullopt});
    setting_up += seconds_since(start);
    start = Clock::now();
    for (const MeasureTask& task : tasks) {
      const auto answer = measurer.measure(task);
      sum += answer.measured ? answer.measured->off_by.stored() : 0;
    }
    searching += seconds_since(start);
    start = Clock::now();
    for (const MeasureTask& task : tasks) sum -= Everything(task, tools).best().off_by;
    trying += seconds_since(start);
  }
  const double doses = static_cast<double>(racks) * doses_each;
  std::printf(
      "up to 3 tools of up to %2d marks: every way / search = %8.0f   (search %.1f us a dose, "
      "making ready %.1f us a rack; difference of all answers %.1e mL)\n",
      most_marks, trying / searching, 1e6 * searching / doses, 1e6 * setting_up / racks, sum);
}

}  // namespace

int main() {
  compare(6, 400, 20);
  compare(20, 60, 20);
  compare(40, 10, 10);
  return 0;
}
