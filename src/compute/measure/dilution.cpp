// Doses too small for any tool: a working dilution that makes them measurable.
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "search.hpp"

namespace dosewright {

namespace {

// How many times the stock is diluted, handiest first: what a person can reckon with.
constexpr std::array<double, 9> kHandy = {10, 100, 5, 20, 50, 2, 4, 25, 200};

// Powder is dissolved no stronger than this in a working dilution: nearly all salts of the trade
// dissolve that far. Our own limit.
constexpr double kStrongest = 0.02;  // g/mL

// What is not given is thrown away: so much stock at most, in mL or g. Our own limit.
constexpr double kMostTaken = 5;

constexpr std::array<double, 3> kRound = {1, 2, 5};

bool can_be_stirred_in(const Tool& tool) {
  return tool.kind == Tool::Kind::cylinder || tool.kind == Tool::Kind::cup;
}

struct Step {
  const Use* use = nullptr;
  const Option* option = nullptr;
  [[nodiscard]] double part() const { return option->bound / option->total; }
  // Relative, of the tool itself and of one reading.
  [[nodiscard]] double calibration() const { return option->calibration_u / option->total; }
  [[nodiscard]] double reading2() const {
    return option->reading_u2 / (option->total * option->total);
  }
  [[nodiscard]] Pour pour() const {
    return {use->tool, Portion::like(use->tool->holds, option->mark), 1};
  }
};

// 1, 2 or 5 of some power of ten: what a person takes for a dilution.
bool is_round(double value) {
  const double mantissa = value / std::pow(10.0, std::floor(std::log10(value) + 1e-9));
  return std::any_of(std::begin(kRound), std::end(kRound),
                     [&](double round) { return std::fabs(mantissa / round - 1) < kSame; });
}

std::vector<Step> single_fills(const std::vector<Use>& uses, bool powder) {
  std::vector<Step> out;
  for (const Use& use : uses) {
    if (use.tool->holds.is_powder() != powder) continue;
    for (const Option& option : use.by_fills[1]) {
      if (!option.small) out.push_back({&use, &option});
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Step& a, const Step& b) { return a.option->total < b.option->total; });
  return out;
}

class DilutionSearch {
 public:
  DilutionSearch(const MeasureTask& task, const std::vector<Use>& uses,
                 const std::vector<Use>& liquids)
      : task_(task), window_(window_of(task)) {
    const bool powder = task.exact.is_powder();
    takes_ = single_fills(uses, powder);
    gives_ = powder ? single_fills(liquids, false) : takes_;
    make_ups_ = single_fills(liquids, false);
  }

  std::optional<WorkingDilution> best() {
    for (const Step& make_up : make_ups_) {
      if (!can_be_stirred_in(*make_up.use->tool) || !is_round(make_up.option->total)) continue;
      for (const Step& take : takes_) try_ratio(take, make_up);
    }
    return best_;
  }

 private:
  using Key = std::tuple<Grade, std::size_t, double, double>;

  void try_ratio(const Step& take, const Step& make_up) {
    if (!is_round(take.option->total) || take.option->total > kMostTaken) return;
    const double ratio = make_up.option->total / take.option->total;
    if (task_.exact.is_powder() && 1 / ratio > kStrongest * (1 + kSame)) return;
    const auto* handy = std::find_if(kHandy.begin(), kHandy.end(),
                                     [&](double h) { return std::fabs(ratio / h - 1) < kSame; });
    // A powder's ratio is grams to millilitres; any that its solubility allows will do.
    if (handy == kHandy.end() && !task_.exact.is_powder()) return;
    auto give_at =
        std::lower_bound(gives_.begin(), gives_.end(), window_.least * ratio,
                         [](const Step& step, double total) { return step.option->total < total; });
    for (; give_at != gives_.end() && give_at->option->total <= window_.most * ratio; ++give_at) {
      const Step& give = *give_at;
      if (give.option->total > make_up.option->total) continue;
      consider(take, make_up, give, static_cast<std::size_t>(handy - kHandy.begin()));
    }
  }

  void consider(const Step& take, const Step& make_up, const Step& give, std::size_t handy) {
    const double delivered = give.option->total * take.option->total / make_up.option->total;
    // Corners, not a first-order sum: all errors of one sign, and the dilution's of the other.
    const double above =
        (1 + take.part()) * (1 + give.part()) / std::max(1e-9, 1 - make_up.part()) - 1;
    const double bound = delivered * above;
    const Grade grade = grade_of(above, false, task_.tolerance);
    if (grade == Grade::coarse) return;
    const double off_by = std::fabs(delivered - task_.exact.stored()) + bound;
    const Key key{grade, handy, make_up.option->total, off_by};
    if (best_ && key >= key_) return;
    key_ = key;
    const double u = std::sqrt(calibration_variance(take, make_up, give) + take.reading2() +
                               make_up.reading2() + give.reading2());
    const auto portion = [&](double stored) { return Portion::like(task_.exact, stored); };
    best_ =
        WorkingDilution{take.pour(),    make_up.pour(),         give.pour(),    portion(delivered),
                        portion(bound), portion(delivered * u), portion(off_by)};
  }

  // A tool that is off is off the same way each time: it adds up where it takes and gives, and
  // cancels, in part, where it also makes up the volume.
  static double calibration_variance(const Step& take, const Step& make_up, const Step& give) {
    const std::array<const Step*, 3> steps = {&take, &give, &make_up};
    const std::array<double, 3> parts = {take.calibration(), give.calibration(),
                                         -make_up.calibration()};
    // Tool by tool: the product of two parts counts when one tool made both.
    double variance = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      for (std::size_t j = 0; j < steps.size(); ++j)
        variance +=
            steps.at(i)->use->tool == steps.at(j)->use->tool ? parts.at(i) * parts.at(j) : 0;
    }
    return variance;
  }

  const MeasureTask& task_;
  Window window_;
  std::vector<Step> takes_;
  std::vector<Step> gives_;
  std::vector<Step> make_ups_;
  Key key_;
  std::optional<WorkingDilution> best_;
};

}  // namespace

std::optional<WorkingDilution> best_dilution(const MeasureTask& task, const std::vector<Use>& uses,
                                             const std::vector<Use>& liquids) {
  return DilutionSearch(task, uses, liquids).best();
}

}  // namespace dosewright
