#include "dosewright/measure/uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {
constexpr double kBoundless = 0.99;
}  // namespace

Share rectangular(Share half) { return half * (1 / std::sqrt(3.0)); }

Share triangular(Share half) { return half * (1 / std::sqrt(6.0)); }

RelativeError evenly_spread(Share half) { return {half, rectangular(half)}; }

Share combined(const std::vector<Share>& parts) {
  double sum = 0;
  for (const Share part : parts) sum += as_ratio(part) * as_ratio(part);
  return share(std::sqrt(sum));
}

Share worst_of(const std::vector<Share>& factors, const std::vector<Share>& divisors) {
  double worst = 1;
  for (const Share factor : factors) worst *= 1 + as_ratio(factor);
  for (const Share divisor : divisors) {
    // A divisor that may be nothing bounds nothing.
    if (as_ratio(divisor) >= kBoundless) return kUnbounded;
    worst /= 1 - as_ratio(divisor);
  }
  return std::min(share(worst - 1), kUnbounded);
}

DoseError dose_error(Portion exact, Portion delivered, Portion tool_bound, Portion tool_uncertainty,
                     const RelativeError& strength, const RelativeError& vessel) {
  const double s = as_ratio(strength.worst);
  const double v = std::min(as_ratio(vessel.worst), kBoundless);
  DoseError out;
  out.most = (delivered + tool_bound) * ((1 + s) / (1 - v));
  const Portion nothing = delivered * 0;
  out.least = std::max(nothing, delivered - tool_bound) * (std::max(0.0, 1 - s) / (1 + v));
  // Never less than rounding and tools alone, also where the tools' error is larger than the dose.
  const Portion rounding = std::max(delivered - exact, exact - delivered);
  out.bound = std::max({out.most - exact, exact - out.least, rounding + tool_bound});
  const Share tools = share(tool_uncertainty / delivered);
  out.uncertainty = delivered * as_ratio(combined({tools, strength.standard, vessel.standard}));
  return out;
}

}  // namespace dosewright
