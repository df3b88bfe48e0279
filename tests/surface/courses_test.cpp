// What a user sees of a dose that is given over days, of what follows a water change, and of a
// whole mix.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <regex>

#include "helpers.hpp"

using nlohmann::json;

namespace {

const char* const kRoom = R"(room: {name: Test room, measures: US, emergency: Doctor 555 0100}
products:
  salt:
    name: sodium chloride
    cas: 7647-14-5
    hazards: {not classified: true, source: its data sheet of 2026-01}
  remedy:
    name: a remedy of our own
    active: 40 %
    hazards: {not classified: true, source: its data sheet of 2026-01}
stocks:
  bath:
    name: Bath
    recipe: {salt: 200 g}
    water to: 1 L
    dose: {reach: 0.1 % w/v, for: whole vessel, then: new water}
    container: jug
  cure:
    name: Cure
    recipe: {remedy: 10 g}
    water to: 1 L
    dose: {reach: 2 mg/L, counted as: active, for: whole vessel, over: 3 days}
    container: jug
  mix:
    name: Mix
    recipe: {salt: 100 g}
    water to: 1500 mL
    dose: {treats: 3 x 5000 gal}
    container: jug
containers:
  jug: {name: jug, holds: 2 L}
tools:
  small: {name: 3 mL syringe, kind: syringe, holds: 3 mL, marks: every 0.1 mL}
  large: {name: 20 mL syringe, kind: syringe, holds: 20 mL, marks: every 1 mL}
  tall: {name: cylinder, kind: cylinder, holds: 500 mL, marks: every 5 mL from 50 mL}
vessels:
  A1: {volume: 100 L, change: 25 %}
documents:
  label: {type: label, stock: cure, sheet: {paper: roll, label: 120 x 90 mm}}
  bath-chart: {type: tank chart, stock: bath, changes: [25 %, 50 %]}
  cure-chart: {type: tank chart, stock: cure}
  cure-card: {type: measuring card, stock: cure, buckets: [10 L, 20 L]}
  cure-mix: {type: mixing card, stock: cure}
)";

// The room in a folder of its own.
class Place {
 public:
  Place() { testing::write_file(folder_ / "room.yaml", kRoom); }
  [[nodiscard]] testing::Run run(const std::string& command, const std::string& arguments) const {
    return testing::program(command + " '" + (folder_ / "room.yaml") + "' " + arguments);
  }
  [[nodiscard]] json ask(const std::string& arguments) const {
    const auto out = run("dose", arguments + " --format json");
    INFO(out.err);
    REQUIRE((out.status == 0 || out.status == 1));
    return json::parse(out.out);
  }
  // The words of a page, one space between two.
  [[nodiscard]] std::string page(const std::string& document) const {
    const auto printed = run("print", "--only " + document + " --to '" + (folder_ / "out") + "'");
    INFO(printed.err);
    REQUIRE(printed.status <= 1);
    const std::string text =
        testing::shell("pdftotext -layout '" + (folder_ / ("out/" + document + ".pdf")) + "' -")
            .out;
    return std::regex_replace(text, std::regex("\\s+"), " ");
  }

 private:
  testing::TemporaryFolder folder_;
};

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

// 2 mg/L of active from 40 %: 5 mg/L of the powder; 10 g/L: 100 L take 500 mg and what the dose
// itself adds, 50.03 mL, 16.7 mL a day.
TEST_CASE("a dose over days is answered as one day's part with the whole beside it") {
  const Place place;
  const json dose = place.ask("--stock cure --volume A1");
  const double all = 1000 * 0.005 / (10 - 0.005) * 100;
  CHECK(dose["days"] == 3);
  CHECK(dose["exact_mL"] == Approx(all / 3));
  CHECK(dose["measured_mL"] == Approx(17));
  CHECK(dose["total_mL"] == Approx(51));
  const auto words = place.run("dose", "--stock cure --volume A1").out;
  CHECK(has(words, "give   17 mL each day, 3 days (51 mL in all)\n"));
  CHECK(has(words, "exact  16.7 mL a day, "));
  // There and back again.
  const json back = place.ask("--stock cure --amount '17 mL'");
  CHECK(back["amount_mL"] == Approx(17));
  CHECK(back["days"] == 3);
  CHECK(back["total_mL"] == Approx(51));
  CHECK(back["water_L"] == Approx(51 / (all / 100)));
  CHECK(has(place.run("dose", "--stock cure --amount '17 mL'").out,
            "17 mL of Cure each day, 3 days (51 mL in all)"));
  // A dose that is given at once is its own whole.
  const json once = place.ask("--stock bath --volume A1");
  CHECK(once["days"] == 1);
  CHECK(once["total_mL"] == once["measured_mL"]);
}

TEST_CASE("every page of a dose over days says so beside its figures") {
  const Place place;
  for (const char* document : {"label", "cure-chart", "cure-card", "cure-mix"}) {
    INFO(document);
    CHECK(has(place.page(document), "each day, 3 days"));
  }
  CHECK(has(place.page("label"), "in all) for 10 US gal in the vessel"));
  CHECK(has(place.page("cure-chart"), "each day, 3 days: 20 mL syringe to 17 mL"));
  CHECK(has(place.page("label"), "For 2 mg per L of active, 40 % of the powder"));
}

// 1 g/L from 200 g/L: 5.025 mL for each litre.
TEST_CASE("after the first dose a named change is answered with its part") {
  const Place place;
  const double per_litre = 1000.0 / (200 - 1);
  const json first = place.ask("--stock bath --volume A1");
  CHECK(first["volume_L"] == Approx(100));
  CHECK(first["exact_mL"] == Approx(100 * per_litre));
  const json part = place.ask("--stock bath --volume A1 --change '25 %'");
  CHECK(part["volume_L"] == Approx(25));
  CHECK(part["exact_mL"] == Approx(25 * per_litre));
  CHECK(has(part["water"].get<std::string>(), "25 % of 100 L: 25 L of new water"));
  CHECK(has(part["rule"].get<std::string>(), "after each change only the part for its new water"));
  const std::string chart = place.page("bath-chart");
  CHECK(has(chart, "tank first change 25 % change 50 %"));
  CHECK(has(chart, "500 mL 125 mL 250 mL"));
}

TEST_CASE("all of a mix treats what it says") {
  const Place place;
  const json dose = place.ask("--stock mix --volume '1000 gal'");
  CHECK(dose["exact_mL"] == Approx(100));
  CHECK(dose["rule"] ==
        "the whole recipe as written treats 15,000 US gal, counted as 3 x 5,000 US gal");
  // The whole bottle, the other way round.
  CHECK(place.ask("--stock mix --amount '1500 mL'")["water_L"] == Approx(15000 * 3.785411784));
}
