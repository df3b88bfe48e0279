// Mixing as the user sees it: the command, its JSON and the printed card say the same.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "helpers.hpp"

namespace {

std::string second_sample() {
  return (testing::fs::path(testing::sample()).parent_path().parent_path() / "weirside/room.yaml")
      .string();
}

}  // namespace

TEST_CASE("mix: text, JSON and the printed card agree") {
  const std::string call = "mix '" + testing::sample() + "' --stock dechlorinator";
  const auto json_run = testing::program(call + " --format json");
  REQUIRE(json_run.status == 0);
  const auto json = nlohmann::json::parse(json_run.out);
  CHECK(json["amounts"][0]["g"].get<double>() == Approx(120));
  CHECK(json["strength_g_per_L"].get<double>() == Approx(100));
  CHECK(json["volume_mL"].get<double>() == Approx(1200));
  CHECK(json["strength_bound"].get<double>() < 0.04);
  CHECK(json["strength_bound_scooped"].get<double>() > 0.15);
  CHECK(json["findings"].empty());
  const auto text = testing::program(call);
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print '" + testing::sample() + "' --only mix-dechlorinator --to '" +
                           folder.path().string() + "'")
              .status == 0);
  const std::string card =
      testing::shell("pdftotext -layout '" + (folder / "mix-dechlorinator.pdf") + "' -").out;
  for (const char* words : {"120 g", "to 1.2 L", "sodium thiosulfate", "X4 9RF",
                            "off by at most 4 %", "never water", "stays dissolved at 20 °C"}) {
    INFO(words);
    CHECK(card.find(words) != std::string::npos);
    CHECK(text.out.find(words) != std::string::npos);
  }
}

TEST_CASE("mix: a whole tub, another volume, and what cannot be") {
  const std::string room = "mix '" + testing::sample() + "' --format json --stock ";
  const auto json = [&](const std::string& more) {
    const auto run = testing::program(room + more);
    REQUIRE(run.status == 0);
    return nlohmann::json::parse(run.out);
  };
  // 500 g at 100 g/L make 5 L.
  CHECK(json("dechlorinator --use '500 g'")["volume_mL"].get<double>() == Approx(5000));
  CHECK(json("dechlorinator --volume '250 mL'")["amounts"][0]["g"].get<double>() == Approx(25));
  CHECK(testing::program(room + "magnesium").status == 2);
  CHECK(testing::program(room + "dechlorinator --volume 0L").status == 2);
  CHECK(testing::program(room + "dechlorinator --volume 1L --use '5 g'").status == 2);
}

TEST_CASE("the second sample: check finds the disagreement, with lines and factors") {
  const auto run = testing::program("check '" + second_sample() + "'");
  INFO(run.err);
  CHECK(run.status == 1);
  // 5 mL per 10 US gal is 13.2 mL per 100 L against 6 (exact factor 2.2014).
  CHECK(run.err.find("\"word of mouth\" puts in 2.2 times what \"dose\" in line") !=
        std::string::npos);
  CHECK(run.err.find("the label of the powder\" puts in") == std::string::npos);
  // On paper a bare gallon is quoted, and which one was meant is said.
  const testing::TemporaryFolder folder;
  CHECK(testing::program("print '" + second_sample() + "' --only mix --no-record --to '" +
                         folder.path().string() + "'")
            .status == 1);
  const std::string card = testing::shell("pdftotext -layout '" + (folder / "mix.pdf") + "' -").out;
  CHECK(card.find("5 mL per 10 gal (US gal)") != std::string::npos);
}

TEST_CASE("the supply sheet: what a tub does, by hand") {
  const testing::TemporaryFolder folder;
  const auto run = testing::program("print '" + second_sample() + "' --only supply --to '" +
                                    folder.path().string() + "'");
  INFO(run.err);
  REQUIRE(run.status == 1);  // the sample's disagreement
  const std::string text =
      testing::shell("pdftotext -raw '" + (folder / "supply.pdf") + "' - | tr '\\n' ' '").out;
  INFO(text);
  // 50 g/L: 1 kg makes 20 L. It keeps a day, so each weekly round of 450 L takes a batch of 170 mL,
  // 8.5 g, though its doses of 6 mL per 100 L use 1.35 g of it. 1 kg lasts 117.6 rounds of 450 L,
  // 52,941 L; 1,000 L take 18.9 g, 0.406 EUR of 21.50; the ready-made liquid 11.90 over 9 = 1.32
  // EUR. 60 g last 7.06 weeks; in the 10 days of an order two rounds can fall.
  for (const char* words :
       {"20 L", "52,900 L", "18.9 g used up for 1,000 L, with what is thrown away", "0.41 EUR",
        "1.32 EUR", "7 weeks", "17 g", "keeps 1 day", "Mix 170 mL at a time"}) {
    INFO(words);
    CHECK(text.find(words) != std::string::npos);
  }
}

namespace {

// A room with one stock of these products, checked, mixed and printed.
struct Bench {
  testing::TemporaryFolder folder;
  testing::Run check;
  testing::Run mix;
  std::string card;
  std::string label;

  explicit Bench(const std::string& products, const std::string& recipe,
                 const std::string& more = "") {
    testing::write_file(
        folder / "room.yaml",
        "room: {name: R, emergency: Doctor 555 0100}\nproducts:\n" + products +
            "stocks:\n  s:\n    name: Mixed\n    recipe: {" + recipe +
            "}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L, tolerance: 30 %}\n"
            "    container: bottle\n" +
            more +
            "containers: {bottle: {holds: 1 L}}\n"
            "tools:\n  syringe: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
            "documents:\n  card: {type: mixing card, stock: s}\n"
            "  label: {type: label, stock: s, sheet: {paper: roll, label: 210 x 148 mm}}\n");
    const std::string room = '\'' + (folder / "room.yaml") + '\'';
    check = testing::program("check " + room);
    mix = testing::program("mix " + room + " --stock s");
    (void)testing::program("print " + room + " --to '" + (folder / "out") + "'");
    card = text_of("card");
    label = text_of("label");
  }

  [[nodiscard]] std::string text_of(const std::string& document) const {
    return testing::shell("pdftotext -raw '" + (folder / ("out/" + document + ".pdf")) +
                          "' - | tr '\\n' ' '")
        .out;
  }
};

}  // namespace

TEST_CASE("what must not meet is not mixed into one bottle") {
  const Bench bench(
      "  bleach: {name: bleach, form: liquid, density: 1.2 g/mL, contains: {sodium hypochlorite: 5 "
      "%, water: rest}}\n"
      "  citric: {name: citric acid monohydrate, cas: 5949-29-1}\n",
      "bleach: 100 mL, citric: 50 g");
  CHECK(bench.check.status == 1);
  CHECK_THAT(bench.check.err, Catch::Contains("bleach and citric acid monohydrate must not meet"));
  CHECK(bench.mix.status == 1);
  for (const std::string* text : {&bench.mix.out, &bench.card}) {
    INFO(*text);
    CHECK_THAT(*text, Catch::Contains("Do not mix this"));
    CHECK_THAT(*text, Catch::Contains("chlorine gas is set free"));
    CHECK_THAT(*text, !Catch::Contains("The work"));
  }
  CHECK_THAT(bench.label, Catch::Contains("Do not mix this."));
}

TEST_CASE("what heats goes into cold water, and findings stand on top of the card") {
  const Bench lye("  lye: {name: sodium hydroxide, cas: 1310-73-2}\n", "lye: 200 g");
  INFO(lye.card);
  CHECK_THAT(lye.card, Catch::Contains("cold water"));
  CHECK_THAT(lye.card, Catch::Contains("up to boiling"));
  CHECK_THAT(lye.card, !Catch::Contains("lukewarm"));
  const auto mind = lye.card.find("Mind this first");
  REQUIRE(mind != std::string::npos);
  CHECK(mind < lye.card.find("The work"));
  // The last step is a level, not an amount of water.
  CHECK_THAT(lye.card, Catch::Contains("up to 800 mL"));
  CHECK_THAT(lye.card, Catch::Contains("all of it together"));
}

TEST_CASE("a name that hides the crystal water is a finding, and dose minds it") {
  const Bench bench(
      "  mag:\n    name: magnesium sulfate\n    cas: 10034-99-8\n"
      "    hazards: {not classified: true, source: its sheet}\n",
      "mag: 50 g");
  CHECK_THAT(bench.check.err, Catch::Contains("hides the crystal water"));
  const auto dose =
      testing::program("dose '" + (bench.folder / "room.yaml") + "' --stock s --volume '40 L'");
  INFO(dose.out);
  CHECK(dose.status == 1);
  CHECK_THAT(dose.out, Catch::Contains("hides the crystal water"));
}

TEST_CASE("whether it stays dissolved in the cold is asked, and not known: a finding") {
  const Bench bench(
      "  nitrate:\n    name: potassium nitrate\n    cas: 7757-79-1\n    soluble: 316 g/L\n"
      "    hazards: {classes: [Ox. Sol. 3 H272], source: its sheet}\n",
      "nitrate: 200 g", "    coldest: 0 °C\n");
  INFO(bench.check.err);
  CHECK_THAT(bench.check.err, Catch::Contains("stays dissolved at 0 °C is not known here"));
}
