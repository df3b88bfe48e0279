// Densities of solutions against the model's own test values and handbook tables.
#include <catch2/catch.hpp>

#include "dosewright/mix/density.hpp"

using namespace dosewright;

namespace {

double water(double celsius) { return in_grams_per_litre(water_density(degrees_celsius(celsius))); }

double apparent(const char* cas, double w, double celsius) {
  const auto found = apparent_density(cas, share(w), degrees_celsius(celsius));
  REQUIRE(found);
  return in_grams_per_litre(*found);
}

// The density of a solution of a mass fraction, from the apparent density of its solute.
double solution(const char* cas, double w, double celsius) {
  return 1 / ((1 - w) / water(celsius) + w / apparent(cas, w, celsius));
}

SolutionDensity of(const char* cas, double g_per_L) {
  Dissolved one;
  one.name = "salt";
  one.strength = grams_per_litre(g_per_L);
  one.anhydrous_cas = cas;
  return solution_density({one});
}

}  // namespace

// Test values of the open libraries thermo and chemicals for Laliberté's model (2009).
TEST_CASE("the density model gives its published test values") {
  CHECK(water(25) == Approx(997.0448954).epsilon(1e-9));
  CHECK(water(50) == Approx(988.0362916).epsilon(1e-9));
  CHECK(water(20) == Approx(998.2041).epsilon(1e-6));
  CHECK(apparent("7647-14-5", 0.0037838838, 0) == Approx(3761.8917585).epsilon(1e-8));
  CHECK(solution("7647-14-5", 0.0037838838, 0) == Approx(1002.6250120).epsilon(1e-9));
}

// Handbook densities at 20 °C and 10 % by weight, from memory: NaCl 1.0707, CaCl2 1.0835, KNO3
// 1.0627, MgSO4 1.1034, within 0.001.
TEST_CASE("the density model agrees with handbook tables") {
  CHECK(solution("7647-14-5", 0.1, 20) == Approx(1070.7).margin(1));
  CHECK(solution("10043-52-4", 0.1, 20) == Approx(1083.5).margin(1));
  CHECK(solution("7757-79-1", 0.1, 20) == Approx(1062.7).margin(1));
  CHECK(solution("7487-88-9", 0.1, 20) == Approx(1103.4).margin(1));
}

TEST_CASE("grams per litre become per cent by weight through the density") {
  // 100 g of sodium chloride per litre: 9.38 %, 1066.1 g/L (worked out from the model).
  const SolutionDensity salt = of("7647-14-5", 100);
  CHECK(in_grams_per_litre(salt.least) == Approx(1066.1).margin(0.2));
  CHECK(salt.least == salt.most);
  CHECK(100 / in_grams_per_litre(salt.least) == Approx(0.0938).margin(0.0001));
  CHECK(in_grams_per_litre(of("7758-98-7", 200).least) == Approx(1191.4).margin(0.3));
}

TEST_CASE("without data the density is bounded and says so") {
  const SolutionDensity unknown = of("", 100);
  CHECK(in_grams_per_litre(unknown.least) < 999);
  CHECK(in_grams_per_litre(unknown.most) > 1095);
  CHECK_THAT(in_english(unknown.how), Catch::Contains("no density data for salt"));
  // Beyond the range of the fit it is not asked: sodium chloride only goes to 26.6 %.
  CHECK(!apparent_density("7647-14-5", share(0.3), degrees_celsius(20)));
  CHECK(in_grams_per_litre(of("7647-14-5", 400).most) >
        in_grams_per_litre(of("7647-14-5", 400).least));
}

// CRC Handbook, from memory: n-hexane, 0.661 g/mL. 300 g in a litre take up 454 mL, mixing apart:
// whoever takes water's density for a lower bound says 30 % where it is 35 %.
TEST_CASE("a liquid of unknown density may be lighter than water") {
  Dissolved liquid;
  liquid.name = "a liquid";
  liquid.strength = grams_per_litre(300);
  liquid.liquid = true;
  const SolutionDensity unknown = solution_density({liquid});
  const double hexane = 300 + (1000 - 300 / 0.661) * 0.9982;
  CHECK(in_grams_per_litre(unknown.least) < hexane);
  CHECK(in_grams_per_litre(unknown.most) > 1150);
  CHECK_THAT(in_english(unknown.how), Catch::Contains("no density data for a liquid"));
}

TEST_CASE("a hydrate is taken for its salt and its water") {
  Dissolved hydrate;
  hydrate.name = "copper(II) sulfate pentahydrate";
  hydrate.strength = grams_per_litre(100 * 249.68 / 159.60);
  hydrate.anhydrous_cas = "7758-98-7";
  hydrate.anhydrous = share(159.60 / 249.68);
  const double from_hydrate = in_grams_per_litre(solution_density({hydrate}).least);
  CHECK(from_hydrate == Approx(in_grams_per_litre(of("7758-98-7", 100).least)).epsilon(1e-4));
}
