#include "dosewright/dose/changes.hpp"

#include <cmath>

namespace dosewright {

Share left_after_changes(Share change, int times) {
  return share(std::pow(1 - as_ratio(change), times));
}

Mass restoring_dose(Concentration target, Volume vessel, Share change) {
  return target * (vessel * as_ratio(change));
}

Concentration peak_of_repeats(Concentration full_dose, Share change, int times) {
  double doses = 0;
  for (int k = 0; k < times; ++k) doses += as_ratio(left_after_changes(change, k));
  return full_dose * doses;
}

Concentration peak_in_the_end(Concentration full_dose, Share change) {
  return full_dose * (1 / as_ratio(change));
}

Share replaced_by_flow(double turnovers) { return share(1 - std::exp(-turnovers)); }

Share change_to_reach(Concentration wanted, Concentration now, Concentration fresh) {
  return share((wanted - now) / (fresh - now));
}

}  // namespace dosewright
