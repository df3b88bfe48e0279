#include "dosewright/dose/bath.hpp"

#include "dosewright/dose/chemistry.hpp"

namespace dosewright {

namespace {

constexpr Temperature kBath = degrees_celsius(20);

}  // namespace

Concentration added_by_weight(Share by_weight) {
  return water_density(kBath) * (as_ratio(by_weight) / (1 - as_ratio(by_weight)));
}

BathStrength bath_by_weight(Share by_weight, Dissolved salt) {
  const Concentration fresh = weight_by_volume(by_weight, water_density(kBath));
  salt.strength = fresh;
  constexpr int kRounds = 60;  // each round is nearer by the share of the salt
  for (int i = 0; i < kRounds; ++i) {
    const SolutionDensity density = solution_density({salt}, kBath);
    if (density.least != density.most) return {fresh, added_by_weight(by_weight)};
    salt.strength = weight_by_volume(by_weight, density.least);
  }
  return {salt.strength, salt.strength};
}

}  // namespace dosewright
