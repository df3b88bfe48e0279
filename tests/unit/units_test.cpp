// Units: exact factors against published tables, reading and printing.
#include <catch2/catch.hpp>

#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"

using namespace dosewright;

namespace {

double mL(const char* text, MeasureSystem system = MeasureSystem::undeclared) {
  const auto parsed = parse_volume(text, system);
  INFO(text);
  REQUIRE(std::holds_alternative<Volume>(parsed));
  return in_millilitres(std::get<Volume>(parsed));
}

double g(const char* text) {
  const auto parsed = parse_mass(text);
  INFO(text);
  REQUIRE(std::holds_alternative<Mass>(parsed));
  return in_grams(std::get<Mass>(parsed));
}

double g_per_L(const char* text, MeasureSystem system = MeasureSystem::undeclared) {
  const auto parsed = parse_concentration(text, system);
  INFO(text);
  REQUIRE(std::holds_alternative<Concentration>(parsed));
  return in_grams_per_litre(std::get<Concentration>(parsed));
}

double mL_per_L(const char* text) {
  const auto parsed = parse_volume_per_volume(text, MeasureSystem::us);
  INFO(text);
  REQUIRE(std::holds_alternative<VolumePerVolume>(parsed));
  return in_millilitres_per_litre(std::get<VolumePerVolume>(parsed));
}

std::string trouble(const Parsed<Volume>& parsed) {
  const auto* problem = std::get_if<QuantityProblem>(&parsed);
  return problem == nullptr ? "" : problem->message + " | " + problem->hint;
}

Approx exactly(double value) { return Approx(value).epsilon(1e-12); }

}  // namespace

// NIST Handbook 44, Appendix C (gallon of 231 cubic inches and its divisions); inch of 25.4 mm,
// NIST SP 811 Appendix B.8. The digits follow by exact arithmetic.
TEST_CASE("US liquid measures are exact") {
  CHECK(mL("1 US gal") == exactly(3785.411784));
  CHECK(mL("1 US qt") == exactly(946.352946));
  CHECK(mL("1 US pt") == exactly(473.176473));
  CHECK(mL("1 US cup") == exactly(236.5882365));
  CHECK(mL("1 US fl oz") == exactly(29.5735295625));
  CHECK(mL("1 US tbsp") == exactly(14.78676478125));
  CHECK(mL("1 US tsp") == exactly(4.92892159375));
  CHECK(mL("1/2 US tsp") == exactly(2.464460796875));
  CHECK(mL("1 in3") == exactly(16.387064));
  CHECK(mL("1 ft3") == exactly(28316.846592));
}

// NIST SP 811 (2008), Appendix B.8: the printed, rounded factors to cubic metres and kilograms.
TEST_CASE("factors agree with the digits printed in NIST SP 811") {
  CHECK(mL("1 US gal") / 1e6 == Approx(3.785412e-03).epsilon(1e-6));
  CHECK(mL("1 US qt") / 1e6 == Approx(9.463529e-04).epsilon(1e-6));
  CHECK(mL("1 US fl oz") / 1e6 == Approx(2.957353e-05).epsilon(1e-6));
  CHECK(mL("1 US tbsp") / 1e6 == Approx(1.478676e-05).epsilon(1e-6));
  CHECK(mL("1 US tsp") / 1e6 == Approx(4.928922e-06).epsilon(1e-6));
  CHECK(mL("1 imperial gal") / 1e6 == Approx(4.54609e-03).epsilon(1e-9));
  CHECK(mL("1 imperial fl oz") / 1e6 == Approx(2.841306e-05).epsilon(1e-6));
  CHECK(g("1 oz") / 1e3 == Approx(2.834952e-02).epsilon(1e-6));
  CHECK(g("1 grain") / 1e3 == Approx(6.479891e-05).epsilon(1e-9));
}

// UK Weights and Measures Act 1985, Schedule 1 (divisions of the gallon of 4.54609 L).
TEST_CASE("imperial measures are kept apart from US ones") {
  CHECK(mL("1 imperial gal") == exactly(4546.09));
  CHECK(mL("1 imp pt") == exactly(568.26125));
  CHECK(mL("1 imperial fl oz") == exactly(28.4130625));
  CHECK(mL("1 imperial gal") / mL("1 US gal") == exactly(1.200949925504855));
  CHECK(mL("1 imperial fl oz") / mL("1 US fl oz") == exactly(0.960759940403884));
}

// The units database of GNU units 2.22: metric, Australian and UK kitchen measures.
TEST_CASE("kitchen measures follow their system") {
  CHECK(mL("1 tbsp", MeasureSystem::us) == exactly(14.78676478125));
  CHECK(mL("1 tbsp", MeasureSystem::metric) == 15);
  CHECK(mL("1 tbsp", MeasureSystem::australian) == 20);
  CHECK(mL("1 tbsp", MeasureSystem::imperial) == 15);
  CHECK(mL("1 cup", MeasureSystem::metric) == 250);
  CHECK(mL("1 cup", MeasureSystem::imperial) == exactly(284.130625));
  CHECK(mL("2 Australian tsp") == 10);
  CHECK(mL("3 metric cups") == 750);
}

// NIST Handbook 44, Appendix C: pound of 453.59237 g.
TEST_CASE("weights are exact") {
  CHECK(g("1 lb") == exactly(453.59237));
  CHECK(g("1 oz") == exactly(28.349523125));
  CHECK(g("1 grain") == exactly(0.06479891));
  CHECK(g("0.5 kg") == 500);
  CHECK(g("250 mg") == 0.25);
}

// Ratios worked out from the exact definitions above.
TEST_CASE("rates combine two units") {
  CHECK(mL_per_L("1 tsp per 1 gal") == exactly(1.0 / 768 * 1000));
  CHECK(mL_per_L("1 tsp per 10 US gal") == exactly(0.13020833333333334));
  CHECK(mL_per_L("1 tbsp/gal") == exactly(3.90625));
  CHECK(mL_per_L("1 fl oz per gal") == exactly(7.8125));
  CHECK(mL_per_L("1.4 mL per 20 L") == exactly(0.07));
  CHECK(mL_per_L("2 % v/v") == exactly(20));
  CHECK(g_per_L("1 oz/US gal") == Approx(7.489151707).epsilon(1e-9));
  CHECK(g_per_L("1 lb per US gal") == Approx(119.826427317).epsilon(1e-11));
  CHECK(g_per_L("1 grain/US gal") * 1000 == Approx(17.11806105).epsilon(1e-9));
  CHECK(g_per_L("1 grain/imperial gal") * 1000 == Approx(14.25376752).epsilon(1e-9));
  CHECK(g_per_L("2 % w/v") == exactly(20));
  CHECK(g_per_L("7 ppm") == exactly(0.007));
  CHECK(g_per_L("120 g/L") == exactly(120));
  CHECK(g_per_L("1 g/mL") == exactly(1000));
}

TEST_CASE("a bare household measure is refused until the file declares its system") {
  for (const char* text : {"1 gal", "2 cups", "1 tbsp", "8 fl oz", "1 tsp", "3 quarts", "1 pint"}) {
    INFO(text);
    CHECK(trouble(parse_volume(text, MeasureSystem::undeclared)).find("any of several sizes") !=
          std::string::npos);
    CHECK(trouble(parse_volume(text, MeasureSystem::us)).empty());
  }
  CHECK(trouble(parse_volume("1 gal", MeasureSystem::australian)) ==
        "Australian measures have no \"gal\" | write US gal or imperial gal");
}

TEST_CASE("what could be read two ways is refused") {
  CHECK(trouble(parse_volume("1,500 mL", MeasureSystem::us)).find("two ways") != std::string::npos);
  CHECK(trouble(parse_volume(".5 mL", MeasureSystem::us)).find("0.5 mL") != std::string::npos);
  CHECK(trouble(parse_volume("5 cc", MeasureSystem::us)).find("mL") != std::string::npos);
  CHECK(trouble(parse_volume("5 oz", MeasureSystem::us)).find("weight") != std::string::npos);
  CHECK(trouble(parse_volume("-5 mL", MeasureSystem::us)).find("negative") != std::string::npos);
  CHECK(trouble(parse_volume("5", MeasureSystem::us)).find("unit is missing") != std::string::npos);
  CHECK(trouble(parse_volume("1e3 mL", MeasureSystem::us)).find("not a unit") != std::string::npos);
  CHECK(trouble(parse_volume("nan mL", MeasureSystem::us)).find("expected a volume") !=
        std::string::npos);
  CHECK(trouble(parse_volume("1/0 mL", MeasureSystem::us)).find("zero") != std::string::npos);
  CHECK(trouble(parse_volume("1 2 mL", MeasureSystem::us)).find("two numbers") !=
        std::string::npos);
  CHECK(std::holds_alternative<QuantityProblem>(parse_concentration("2 %", MeasureSystem::us)));
  CHECK(std::holds_alternative<QuantityProblem>(parse_duration("2 months")));
  CHECK(std::holds_alternative<QuantityProblem>(parse_count("010")));
  CHECK(std::holds_alternative<QuantityProblem>(parse_share("140 %")));
}

TEST_CASE("lengths joined by x share the last unit") {
  const auto box = parse_lengths("30 x 12 x 18 in", 3);
  REQUIRE(std::holds_alternative<std::vector<Length>>(box));
  const auto& sides = std::get<std::vector<Length>>(box);
  CHECK(in_millimetres(sides[0]) == exactly(762));
  CHECK(in_millimetres(sides[1]) == exactly(304.8));
  const auto mixed = std::get<std::vector<Length>>(parse_lengths("1 m x 40 cm", 2));
  CHECK(in_millimetres(mixed[0]) == 1000);
  CHECK(in_millimetres(mixed[1]) == 400);
  CHECK(std::holds_alternative<QuantityProblem>(parse_lengths("30 x 12 in", 3)));
}

TEST_CASE("a price carries its currency") {
  const auto price = std::get<Money>(parse_money("14.90 EUR"));
  CHECK(price.amount == 14.9);
  CHECK(price.currency == "EUR");
  CHECK(std::get<Money>(parse_money("USD 3")).currency == "USD");
  CHECK(std::holds_alternative<QuantityProblem>(parse_money("14.90")));
}

// Institute for Safe Medication Practices, list of error-prone dose designations: a zero before the
// point, none trailing, a comma from 1,000 up.
TEST_CASE("figures are printed in medication-safety style") {
  CHECK(figure(0.5, 1) == "0.5");
  CHECK(figure(1.0, 2) == "1");
  CHECK(figure(10.50, 2) == "10.5");
  CHECK(figure(1500, 0) == "1,500");
  CHECK(figure(1234567.891, 2) == "1,234,567.89");
  CHECK(figure(0.30000000000000004, 3) == "0.3");
  CHECK(figure(-0.0, 2) == "0");
  CHECK(figure(-0.001, 2) == "0");
  CHECK(figure(2.675, 2) == "2.68");
  CHECK(figure(0.05, 2) == "0.05");
  CHECK(figure(0.004, 2) == "0");
  CHECK(figure(9.996, 2) == "10");
  CHECK(figure(999.95, 1) == "1,000");
  CHECK(significant_figure(0.0123456, 3) == "0.0123");
  CHECK(significant_figure(83279.06, 4) == "83,280");
  CHECK(in_words_mL(millilitres(1500), 0) == "1,500 mL");
  CHECK(volume_text(millilitres(0.35)) == "0.35 mL");
  CHECK(volume_text(litres(1.5)) == "1.5 L");
  CHECK(mass_text(grams(0.0005)) == "0.5 mg");
  CHECK(concentration_text(grams_per_litre(100)) == "100 g per L");
  CHECK(percent_text(share(0.25)) == "25 %");
  CHECK(money_text({1.5, "EUR"}) == "1.50 EUR");
  CHECK(money_text({12, "USD"}) == "12.00 USD");
}

TEST_CASE("a step of marks decides the decimals") {
  CHECK(decimals_of(0.05) == 2);
  CHECK(decimals_of(0.2) == 1);
  CHECK(decimals_of(5) == 0);
  CHECK(decimals_of(0.25) == 2);
}

TEST_CASE("every printed volume reads back as the same volume") {
  for (int i = 1; i < 4000; ++i) {
    const Volume volume = millilitres(i * 0.05);
    const std::string text = figure(in_millilitres(volume), 2);
    if (text.find(',') != std::string::npos) continue;
    CHECK(mL((text + " mL").c_str()) == Approx(in_millilitres(volume)).epsilon(1e-9));
  }
}

TEST_CASE("a volume is printed as it was written, and means the same") {
  const auto printed = [](const char* text) {
    const auto written = volume_as_written(text, MeasureSystem::us);
    return written ? written->figure + '|' + written->unit : std::string("not as written");
  };
  CHECK(printed("5 gallons") == "5|US gal");
  CHECK(printed("5 us gal") == "5|US gal");
  CHECK(printed("5US gal") == "5|US gal");
  CHECK(printed("1 1/2 gal") == "1.5|US gal");
  CHECK(printed("2 LITRES") == "2|L");
  CHECK(printed("5 ML") == "5|mL");
  CHECK(printed("1 qt") == "1|US qt");
  CHECK(printed("3 imp gal") == "3|imperial gal");
  CHECK(printed("1500 L") == "1,500|L");
  // A third of a gallon and half a thousandth of a cubic metre do not survive the printed decimals.
  CHECK(printed("1/3 gal") == "not as written");
  CHECK(printed("0.00005 m3") == "not as written");
}

TEST_CASE("amounts beyond any room are refused") {
  CHECK(trouble(parse_volume(std::string(309, '9') + " L", MeasureSystem::us))
            .find("expected a volume") != std::string::npos);
  CHECK(trouble(parse_volume(std::string(20, '9') + " L", MeasureSystem::us)).find("too large") !=
        std::string::npos);
}
