// How far a pack goes.
#include <catch2/catch.hpp>

#include "dosewright/supply/supply.hpp"
#include "dosewright/units/parse.hpp"

using namespace dosewright;

namespace {

Volume us_gal(double gallons) {
  return std::get<Volume>(parse_volume("1 gal", MeasureSystem::us)) * gallons;
}

double years(Duration time) { return in_days(time) / 365.25; }

}  // namespace

TEST_CASE("supply: grams, litres and money by the mass balance") {
  // 100 g/L at 0.07 mL/L: 7 mg in each litre; 1 kg treats 142,857 L and makes 10 L.
  const Concentration used = used_per_water(grams_per_litre(100), millilitres_per_litre(0.07));
  CHECK(in_grams_per_litre(used) == Approx(0.007));
  CHECK(in_litres(treated_by(grams(1000), used)) == Approx(142857.142857));
  CHECK(cost_of_treating(litres(1000), used, {8.9, "EUR"}, grams(1000)).amount == Approx(0.0623));
  const Duration lasting = lasts(grams(1000), used, litres(1000), days(7));
  CHECK(in_days(lasting) == Approx(1000));
  // What is left when it is time to order lasts just as long as the order takes.
  const Mass left = reorder_at(used, litres(1000), days(7), days(14));
  CHECK(in_days(lasts(left, used, litres(1000), days(7))) == Approx(14));
  // Doses come in lumps: two rounds can fall into ten days.
  CHECK(in_grams(reorder_at(used, litres(1000), days(7), days(10))) == Approx(14));
  CHECK(in_grams(reorder_at(used, litres(1000), days(7), days(2))) == Approx(7));
}

TEST_CASE("supply: two to three years of a tub fit the habit, not the coverage claim") {
  // Common practice, no source: 4 level tablespoons counted for 14,400 US gal by the claim, dosed
  // at 1 mL per 5 US gal by habit from 1.5 L; a 1 kg tub lasting two to three years at 500 to 1,000
  // US gal a week. The powder's bulk density is taken as 1.2 g/mL.
  const Mass powder = grams(4 * 14.78676478125 * 1.2);
  const Concentration by_claim = powder / us_gal(14400);
  const Concentration by_habit = powder / us_gal(1500 * 5);
  const auto years_of = [](Concentration used, double weekly) {
    return years(lasts(grams(1000), used, us_gal(weekly), days(7)));
  };
  // Over the middle of the range, 750 gal a week.
  CHECK(years_of(by_habit, 750) > 2);
  CHECK(years_of(by_habit, 750) < 3);
  CHECK(years_of(by_claim, 750) > 3);
  // At no point of the range does the claim come down to three years.
  CHECK(years_of(by_claim, 1000) > 3);
  CHECK(years_of(by_claim, 750) / years_of(by_habit, 750) == Approx(1.92));
}

TEST_CASE("supply: what is left falls from all to nothing in even steps") {
  for (const double periods : {0.4, 1.0, 7.3, 39.0, 40.0, 500.0}) {
    const UseOverTime use = use_over_time(days(7 * periods), days(7), 40);
    INFO(periods);
    REQUIRE(!use.left.empty());
    CHECK(use.left.size() <= 40);
    CHECK(use.left.front() == 1);
    CHECK(use.left.back() == 0);
    for (std::size_t i = 1; i < use.left.size(); ++i) CHECK(use.left[i] < use.left[i - 1]);
  }
}
