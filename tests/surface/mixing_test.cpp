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
  // 50 g/L and 6 mL per 100 L: 3 mg in each litre. 1 kg makes 20 L and treats 333,333 L; 1,000 L
  // take 3 g, 0.0645 EUR of 21.50; the ready-made liquid 11.90 over 9 = 1.32 EUR. 60 g treat
  // 20,000 L, 44.4 weeks of 450 L; an order of 10 days uses 1.93 g.
  for (const char* words :
       {"20 L", "333,000 L", "0.065 EUR", "1.32 EUR", "44 weeks", "2 g", "keeps 1 day"}) {
    INFO(words);
    CHECK(text.find(words) != std::string::npos);
  }
}
