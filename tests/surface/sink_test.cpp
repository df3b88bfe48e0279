// Answers at the sink, and the dose scale read off with a ruler against them.
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "dosewright/base/text.hpp"
#include "helpers.hpp"

using nlohmann::json;

namespace {

testing::Run ask(const std::string& arguments) {
  return testing::program("dose '" + testing::sample() + "' " + arguments);
}

json ask_json(const std::string& arguments) {
  const auto run = ask(arguments + " --format json");
  INFO(run.err);
  REQUIRE((run.status == 0 || run.status == 1));
  return json::parse(run.out);
}

// A number on a page and where its middle stands, in points.
struct Figure {
  double value = 0;
  double x = 0;
  double y = 0;
};

std::vector<Figure> figures_of(const std::string& document) {
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print '" + testing::sample() + "' --only " + document + " --to '" +
                           folder.path().string() + "'")
              .status == 0);
  const std::string page =
      testing::shell("pdftotext -bbox '" + (folder / (document + ".pdf")) + "' -").out;
  static const std::regex word(
      R"re(xMin="([0-9.]+)" yMin="([0-9.]+)" xMax="([0-9.]+)" yMax="([0-9.]+)">([0-9][0-9.,]*)<)re");
  std::vector<Figure> out;
  for (std::sregex_iterator it(page.begin(), page.end(), word), end; it != end; ++it) {
    std::string number = (*it)[5];
    std::erase(number, ',');
    out.push_back({std::stod(number), (std::stod((*it)[1]) + std::stod((*it)[3])) / 2,
                   (std::stod((*it)[2]) + std::stod((*it)[4])) / 2});
  }
  return out;
}

// The figures of one side of a scale: those that rise steadily down the page about one upright.
std::vector<Figure> column_near(const std::vector<Figure>& all, double x, double reach,
                                double bottom) {
  std::vector<Figure> out;
  for (const Figure& figure : all) {
    const bool here = std::fabs(figure.x - x) < reach && figure.y < bottom;
    if (here && (out.empty() || figure.value > out.back().value)) out.push_back(figure);
  }
  return out;
}

// Where a value stands on a scale, between its two neighbours, both ways in logarithms.
double place_of(const std::vector<Figure>& scale, double value) {
  for (std::size_t i = 1; i < scale.size(); ++i) {
    if (value > scale[i].value || value < scale[i - 1].value) continue;
    const double part =
        std::log(value / scale[i - 1].value) / std::log(scale[i].value / scale[i - 1].value);
    return scale[i - 1].y + part * (scale[i].y - scale[i - 1].y);
  }
  return -1;
}

}  // namespace

TEST_CASE("one question gives one answer, several a list") {
  const json one = ask_json("--stock dechlorinator --volume '100 L'");
  CHECK(one.is_object());
  CHECK(one["exact_mL"] == Approx(7));
  CHECK(one["working_dilution"].is_null());
  CHECK(one["warnings"].empty());
  // 10 mL syringe to 7 mL: 4 % (ISO 7886-1) and half a division of 0.5 mL.
  CHECK(one["off_by_mL"] == Approx(0.28 + 0.25));
  CHECK(one["bound_mL"] > one["off_by_mL"]);
  CHECK(one["uncertainty_mL"] < one["off_by_mL"]);

  const json many =
      ask_json("--stock dechlorinator --stock buffer --volume '10 L' --volume A1 --volume 'Vat 1'");
  REQUIRE(many.is_array());
  CHECK(many.size() == 6);
  // A1 is 20 US gal, a quarter of which is changed.
  CHECK(many[1]["volume_L"] == Approx(20 * 3.785411784 / 4));
  CHECK(many[3]["stock"] == "buffer");
  // All stocks when none is named.
  CHECK(ask_json("--volume '10 L'").size() == 7);
}

// The bound by hand: 7 mL measured to 0.53 mL, water to 5 %, strength of 100 g by a scale of 0.01 g
// (1 % and 0.01 g) and purity of 99 % in 1 L. Its bottle takes 1.2 L of it, by 500 mL class B three
// times (5 mL, and 2.5 mL of reading), which is less sure than twice for 1 L.
TEST_CASE("the bound and the uncertainty are the ones worked out by hand") {
  const json one = ask_json("--stock dechlorinator --volume '100 L'");
  const double strength = (1 + 0.01 + 0.01 / 120) * 1.01 / (1 - 0.01875) - 1;
  CHECK(one["bound_mL"] == Approx(7.53 * (1 + strength) / 0.95 - 7).epsilon(1e-6));
  const double root3 = std::sqrt(3.0);
  const double tools = std::hypot(0.28 / root3, 0.25 / root3) / 7;
  const double scale = std::hypot(1.2 / root3, 0.01 * std::sqrt(1.0 / 6)) / 120;
  const double volume = std::hypot(3 * 5 / root3, std::sqrt(3.0) * 2.5 / root3) / 1200;
  const double u =
      std::sqrt(tools * tools + scale * scale + 0.0001 / 3 + volume * volume + 0.05 * 0.05 / 3);
  CHECK(one["uncertainty_mL"] == Approx(7 * u).epsilon(1e-6));
}

TEST_CASE("a tool of one's own choice, and a tank changed by another part") {
  const auto words = ask("--stock dechlorinator --volume '100 L' --with '3 mL syringe'");
  CHECK(words.status == 0);
  CHECK(words.out.find("how    3 mL syringe to 3 mL, 2 times, then 1 mL more\n") !=
        std::string::npos);
  CHECK(ask_json("--stock dechlorinator --volume A1 --change '50 %'")["volume_L"] ==
        Approx(10 * 3.785411784));
  const std::pair<const char*, const char*> refused[] = {
      {"--stock dechlorinator --volume 1L --with 'pocket scale'",
       "dosewright: pocket scale does not measure liquids\n    name a syringe, pipette, cylinder "
       "or "
       "cup\n"},
      {"--stock dechlorinator --volume 1L --with 'violet syringe'",
       "dosewright: violet 10 mL syringe is kept for another stock: oxidiser\n    name another "
       "tool, "
       "or take only for: out of tools.violet syringe\n"},
      {"--stock dechlorinator --volume 1L --with spoon",
       "dosewright: no measuring tool is called \"spoon\"\n    the description has fine syringe, "
       "small "
       "syringe, large syringe, violet syringe, small cylinder, large cylinder, pocket scale and "
       "kitchen scale\n"},
      {"--stock dechlorinator",
       "dosewright: how much water?\n    give --volume for a dose, or "
       "--amount for how much water it treats\n"},
      {"--stock dechlorinator --volume 1L --amount 1mL",
       "dosewright: --volume and --amount are two questions\n    give --volume for a dose, or "
       "--amount for how much water it treats\n"},
      {"--stock dechlorinator --volume '-5 L'",
       "dosewright: --volume: an amount cannot be negative: \"-5 L\"\n    write a number and a "
       "unit, "
       "such as 5 mL or 1.5 US gal\n"},
      {"--stock dechlorinator --volume '99999999 L'",
       "dosewright: --volume: an absurd volume: more than 20,000,000 L\n    check its unit\n"},
      {"--stock dechlorinator --volume 1L --with ''",
       "dosewright: --with: nothing is written behind it\n    dosewright --help shows the commands "
       "and "
       "options\n"},
      {"--stock dechlorinator --volume 1L --change '25 %'",
       "dosewright: --change says nothing about these volumes\n    name a tank with --volume, and "
       "a "
       "stock that is dosed for new water\n"},
      {"--stock dechlorinator --volume A9",
       "dosewright: no vessel is called \"A9\"\n    did you mean \"A1\"?\n"},
      {"--stock dechlorinator --volume A1 --change 120%",
       "dosewright: --change: more than the whole: \"120%\"\n    write a percentage from 0 to 100 "
       "%\n"},
      {"--stock 'magnesium salt' --amount '4 mL'",
       "dosewright: --amount: \"mL\" is not a unit of a "
       "weight\n    did you mean \"mg\"?\n"},
  };
  for (const auto& [arguments, says] : refused) {
    const auto run = ask(arguments);
    INFO(arguments);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(run.err == says);
  }
}

TEST_CASE("the other way round: how much water an amount treats") {
  const json water = ask_json("--stock dechlorinator --amount '4 mL'");
  CHECK(water["amount_mL"] == Approx(4));
  CHECK(water["water_L"] == Approx(4 / 0.07));
  const auto words = ask("--stock dechlorinator --amount '4 mL'");
  CHECK(words.out.find("4 mL of Dechlorinator treats 57.14 L (15.1 US gal) of new water") !=
        std::string::npos);
  // There and back again.
  const double back = ask_json("--stock buffer --amount '12 mL'")["water_L"];
  CHECK(ask_json("--stock buffer --volume '" + std::to_string(back) + " L'")["exact_mL"] ==
        Approx(12).epsilon(1e-6));
  CHECK(ask_json("--stock 'magnesium salt' --amount '5 g'")["water_L"] == Approx(100));
}

TEST_CASE("what is too small is diluted, what is amiss is said and shows in the exit status") {
  const auto run = ask("--stock oxidiser --volume '1 L' --format json");
  CHECK(run.status == 0);
  const json tiny = json::parse(run.out);
  REQUIRE(tiny["working_dilution"].is_object());
  const json& way = tiny["working_dilution"];
  const double delivered = way["take"]["to_mL"].get<double>() * way["give"]["to_mL"].get<double>() /
                           way["make_up"]["to_mL"].get<double>();
  CHECK(tiny["measured_mL"] == Approx(delivered));
  CHECK(delivered == Approx(0.05).epsilon(0.2));
  CHECK(delivered <= tiny["exact_mL"].get<double>() * (1 + 1e-6));
  CHECK(tiny["pours"].empty());

  // One syringe alone is coarse for so little: said, and the status is 1.
  const auto coarse = ask("--stock dechlorinator --volume '20 L' --with 'large syringe'");
  CHECK(coarse.status == 1);
  CHECK(coarse.out.find("mind   the tools can be off by ") != std::string::npos);
  const auto large = ask("--stock oxidiser --volume '20000 L'");
  CHECK(large.status == 1);
  CHECK(std::regex_search(large.out, std::regex("one that\\s+holds\\s+500 mL is missing")));
}

TEST_CASE("every line of an answer fits 80 columns") {
  for (const char* question :
       {"--volume '40 US gal' --volume A1 --volume '2000 L'", "--stock oxidiser --volume '1 L'",
        "--amount '4 g' --stock 'magnesium salt'", "--volume '3 mL'"}) {
    for (const std::string& line : dosewright::split(ask(question).out, '\n')) {
      INFO(line);
      CHECK(dosewright::to_characters(line).size() <= 80);
    }
  }
}

// The scale of the sink: straight across from each printed volume lies its dose, as `dose` says it.
TEST_CASE("a dose scale read off agrees with the answer at the sink") {
  const auto all = figures_of("sink-scale");
  // The first figure of the water's side is 5, of the dose's side 0.4.
  const auto first =
      std::find_if(all.begin(), all.end(), [](const Figure& f) { return f.value == 5; });
  const auto dose =
      std::find_if(all.begin(), all.end(), [](const Figure& f) { return f.value == 0.35; });
  REQUIRE(first != all.end());
  REQUIRE(dose != all.end());
  const auto water = column_near(all, first->x, 16, 730);
  const auto doses = column_near(all, dose->x, 22, 730);
  CHECK(water.size() > 20);
  CHECK(doses.size() > 12);
  int compared = 0;
  for (const Figure& figure : water) {
    const json answer =
        ask_json("--stock dechlorinator --volume '" + std::to_string(figure.value) + " L'");
    const double y = place_of(doses, answer["exact_mL"]);
    if (y < 0) continue;
    INFO(figure.value << " L");
    // Half a millimetre: what an eye with a ruler resolves.
    CHECK(std::fabs(y - figure.y) < 0.5 / 25.4 * 72);
    ++compared;
  }
  CHECK(compared > 15);
}

TEST_CASE("a measuring card names each bucket, its dose, the tool and the line") {
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print '" + testing::sample() + "' --only sink-card --to '" +
                           folder.path().string() + "'")
              .status == 0);
  const std::string text = std::regex_replace(
      testing::shell("pdftotext -raw '" + (folder / "sink-card.pdf") + "' -").out,
      std::regex("\\s+"), " ");
  for (const char* words :
       {"white pail", "1 mL syringe to 0.35 mL", "grey bucket", "1 mL syringe to 0.7 mL",
        "3 mL syringe to 1.4 mL", "10 mL syringe to 7 mL", "50 mL cylinder to 21 mL",
        "off by at most 0.047 mL", "Only when the bottle shows"}) {
    INFO(words);
    CHECK(text.find(words) != std::string::npos);
  }
}
