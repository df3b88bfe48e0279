// The printed pages as a user gets them, looked at with other people's tools: qpdf and poppler.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using nlohmann::json;
using testing::fs::path;

namespace {

// An odd figure on purpose: letters are drawn on quarters of a pixel, and at 100 dpi many of our
// hundredths of a point fall just between two, so that a hair's difference moves a whole line.
constexpr const char* kDpi = "103";
constexpr const char* kTwiceDpi = "206";
constexpr double kPixelsPerMm = 103 / 25.4;

// The sample's pages, printed once for all checks.
struct Printed {
  testing::TemporaryFolder folder;
  testing::Run run;
  std::vector<path> pdfs;

  Printed() {
    run = testing::program("print '" + testing::sample() + "' --to '" + folder.path().string() +
                           "' --proof png --dpi " + kDpi);
    for (const auto& entry : testing::fs::directory_iterator(folder.path())) {
      if (entry.path().extension() == ".pdf") pdfs.push_back(entry.path());
    }
    std::sort(pdfs.begin(), pdfs.end());
  }
};

const Printed& printed() {
  static const Printed pages;
  return pages;
}

std::string text_of(const path& pdf) {
  return testing::shell("pdftotext -layout '" + pdf.string() + "' -").out;
}

std::string one_line(const std::string& text) {
  return std::regex_replace(testing::with_keyboard_quotes(text), std::regex("\\s+"), " ");
}

// The sample's rack chart with a row for each of its 26 tanks.
std::string chart_with_own_rows(const path& folder) {
  std::string room = testing::read_file(testing::sample());
  const std::string place = "    place: end of rack A\n";
  const std::size_t at = room.find(place);
  REQUIRE(at != std::string::npos);
  room.insert(at, "    own rows: true\n");
  testing::write_file(folder / "room.yaml", room);
  const auto run =
      testing::program("print '" + (folder / "room.yaml").string() +
                       "' --only rack-chart --no-record --to '" + folder.string() + "'");
  REQUIRE(run.status == 0);
  return folder / "rack-chart.pdf";
}

dosewright::Room sample_room() {
  const auto read = testing::read_room(testing::read_file(testing::sample()));
  REQUIRE(read.room);
  return *read.room;
}

std::size_t count_of(const std::string& text, const std::string& word) {
  std::size_t count = 0;
  for (std::size_t at = text.find(word); at != std::string::npos;
       at = text.find(word, at + word.size()))
    ++count;
  return count;
}

json dose(const std::string& stock, const std::string& volume) {
  const auto run = testing::program("dose '" + testing::sample() + "' --stock '" + stock +
                                    "' --volume '" + volume + "' --format json");
  REQUIRE(run.status == 0);
  return json::parse(run.out);
}

}  // namespace

TEST_CASE("the sample prints without a word of complaint") {
  CHECK(printed().run.status == 0);
  CHECK(printed().run.err.empty());
  CHECK(printed().pdfs.size() == 22);
  for (const path& pdf : printed().pdfs)
    CHECK(printed().run.out.find(pdf.filename().string()) != std::string::npos);
}

TEST_CASE("every PDF is sound, with its fonts inside and subset") {
  for (const path& pdf : printed().pdfs) {
    INFO(pdf);
    const auto sound = testing::shell("qpdf --check '" + pdf.string() + "'");
    CHECK(sound.status == 0);
    CHECK(sound.out.find("No syntax or stream encoding errors found") != std::string::npos);
    const auto fonts = testing::shell("pdffonts '" + pdf.string() + "'");
    CHECK(fonts.err.empty());
    const std::vector<std::string> lines = dosewright::split(fonts.out, '\n');
    int seen = 0;
    for (std::size_t i = 2; i < lines.size(); ++i) {
      if (lines[i].empty()) continue;
      ++seen;
      CHECK(
          std::regex_search(lines[i], std::regex(R"(\+Go\S*\s.*TrueType.*\s+yes\s+yes\s+yes\s)")));
    }
    CHECK(seen == 2);
  }
}

TEST_CASE("pages have the size, the title and the print scaling that were asked for") {
  const std::map<std::string, std::string> sizes = {{"sink-chart", "595.276 x 841.89"},
                                                    {"bench-chart", "841.89 x 595.276"},
                                                    {"buffer-chart", "792 x 612"},
                                                    {"label-permanganate", "396.85 x 294.803"},
                                                    {"label-buffer", "612 x 792"}};
  for (const auto& [name, size] : sizes) {
    const std::string pdf = printed().folder / (name + ".pdf");
    const auto info = testing::shell("pdfinfo '" + pdf + "'").out;
    INFO(info);
    CHECK(one_line(info).find("Page size: " + size) != std::string::npos);
    CHECK(info.find("Millrace Street fish room: ") != std::string::npos);
    CHECK(testing::shell("qpdf --qdf --object-streams=disable '" + pdf + "' -")
              .out.find("/PrintScaling /None") != std::string::npos);
  }
}

TEST_CASE("a chart with pages of its own for each stock shows one code a page") {
  const std::string pdf = printed().folder / "quarantine-charts.pdf";
  CHECK(one_line(testing::shell("pdfinfo '" + pdf + "'").out).find("Pages: 3") !=
        std::string::npos);
  const std::vector<std::string> stocks = {"Dechlorinator", "Buffer", "Salt bath"};
  const auto room = sample_room();
  const auto answers = answer_room(room, testing::hazard_sources());
  for (std::size_t page = 0; page < stocks.size(); ++page) {
    const std::string number = std::to_string(page + 1);
    const std::string text =
        testing::shell("pdftotext -layout -f " + number + " -l " + number + " '" + pdf + "' -").out;
    for (const auto& stock : answers.stocks) {
      INFO(number << ": " << stock.stock->name);
      CHECK((text.find(stock.code.letters) != std::string::npos) ==
            (stock.stock->name == stocks[page]));
    }
    CHECK(text.find(stocks[page] + " ") != std::string::npos);
    CHECK(text.find("1 of 1") != std::string::npos);
  }
  const std::string raw = testing::shell("qpdf --qdf --object-streams=disable '" + pdf + "' -").out;
  // Titles are UTF-16.
  std::string title;
  for (const char c : std::string("Buffer: Quarantine tubs, from 5 L")) {
    char hex[5];
    (void)std::snprintf(hex, sizeof hex, "%04x", static_cast<unsigned>(c));
    title += hex;
  }
  CHECK(raw.find("/Title <feff" + title + '>') != std::string::npos);
}

TEST_CASE("a chart of several pages has an outline and repeats its heading") {
  const testing::TemporaryFolder folder;
  const std::string pdf = chart_with_own_rows(folder.path());
  CHECK(one_line(testing::shell("pdfinfo '" + pdf + "'").out).find("Pages: 2") !=
        std::string::npos);
  const std::string raw = testing::shell("qpdf --qdf --object-streams=disable '" + pdf + "' -").out;
  CHECK(raw.find("/Type /Outlines") != std::string::npos);
  CHECK(count_of(raw, "/Dest ") >= 2);
  for (const char* page : {"1", "2"}) {
    const std::string text = testing::shell(std::string("pdftotext -layout -f ") + page + " -l " +
                                            page + " '" + pdf + "' -")
                                 .out;
    CHECK(text.find("change 25 %") != std::string::npos);
    CHECK(text.find("match the bottle") != std::string::npos);
    CHECK(text.find(std::string(page) + " of 2") != std::string::npos);
  }
}

// Tanks of one place with the same water and the same doses: A1 to A4 hold 20 US gal, A5 to A8 29.
TEST_CASE(
    "tanks that have all in common but their name share a row, unless each is to have its own") {
  const std::string shared = text_of(printed().folder / "rack-chart.pdf");
  CHECK(count_of(shared, "20 US gal") == 1);
  CHECK(count_of(shared, "29 US gal") == 1);
  const std::string words = one_line(
      testing::shell("pdftotext -raw '" + (printed().folder / "rack-chart.pdf") + "' -").out);
  CHECK(words.find("A1, A2, A3, A4 20 US gal") != std::string::npos);
  CHECK(words.find("A5, A6, A7, A8 29 US gal") != std::string::npos);
  // Nobody must share one dose out among them.
  CHECK(words.find("A4 20 US gal each") != std::string::npos);
  // B1 to B4 hold 10 US gal and B5 to B8 hold 40 L; their doses are alike.
  CHECK(words.find("B1, B2, B3, B4 10 US gal") != std::string::npos);
  CHECK(words.find("B5, B6, B7, B8 40 L") != std::string::npos);
  const testing::TemporaryFolder folder;
  const std::string own = text_of(chart_with_own_rows(folder.path()));
  CHECK(count_of(own, "20 US gal") == 4);
  CHECK(count_of(own, "29 US gal") == 4);
  CHECK(own.find("A1,") == std::string::npos);
}

TEST_CASE("every dose of every chart stands on its page") {
  const dosewright::Room room = sample_room();
  const auto answers = dosewright::answer_room(room, testing::hazard_sources());
  std::size_t doses = 0;
  for (const auto& document : room.documents) {
    const bool chart = document.type == dosewright::Document::Type::bucket_chart ||
                       document.type == dosewright::Document::Type::tank_chart;
    if (!chart) continue;
    const auto content = dosewright::gathered_rows(
        dosewright::chart_content(answers, document, dosewright::ErrorShown::measuring));
    const std::string pdf = printed().folder / (document.id + ".pdf");
    const std::string text = one_line(testing::shell("pdftotext -raw '" + pdf + "' -").out);
    std::map<std::string, std::size_t> wanted;
    for (const auto& row : content.rows) {
      for (const auto& cell : row.cells) {
        ++doses;
        if (!cell.dose.figure.empty()) ++wanted[cell.dose.figure + ' ' + cell.dose.unit];
        // Hard spaces that keep a tool's name on one line are not printed.
        const std::string how = std::regex_replace(cell.how, std::regex("\xC2\xA0"), " ");
        INFO(how);
        CHECK(text.find(how) != std::string::npos);
        CHECK(text.find(cell.off_by) != std::string::npos);
      }
      if (!row.name.empty()) CHECK(text.find(row.name) != std::string::npos);
      for (const std::string& name : row.with) CHECK(text.find(name) != std::string::npos);
    }
    for (const auto& [words, count] : wanted) {
      INFO(document.id << ": " << words);
      CHECK(count_of(text, words) >= count);
    }
  }
  CHECK(doses > 70);
}

// The arithmetic of the page, done by hand: 7 mg of sodium thiosulfate pentahydrate for each mg of
// chlorine (2 S2O3 + Cl2, molar masses 248.18 and 70.90: 7.00) at 1 mg/L from a stock of 100 g/L is
// 0.07 mL for each litre.
TEST_CASE("the doses are the ones worked out by hand") {
  CHECK(2 * 248.172 / 70.90 == Approx(7.0).epsilon(1e-3));
  const json tank = dose("dechlorinator", "20 US gal");
  CHECK(tank["volume_L"] == Approx(75.70823568).epsilon(1e-10));
  CHECK(tank["exact_mL"] == Approx(5.2995764976).epsilon(1e-10));
  CHECK(tank["measured_mL"] == Approx(5.5));
  CHECK(tank["pours"].size() == 1);
  CHECK(tank["pours"][0]["tool"] == "large syringe");
  CHECK(tank["pours"][0]["to_mL"] == Approx(5.5));
  CHECK(tank["pours"][0]["count"] == 1);
  CHECK(tank["stock"] == "dechlorinator");
  CHECK(std::regex_match(tank["code"].get<std::string>(), std::regex("[A-Z0-9]{2} [A-Z0-9]{3}")));
  // Sodium hydrogencarbonate raises alkalinity by 1 dKH at 29.96 mg/L (84.006 / 2.804): 30 mg/L
  // from 60 g/L.
  CHECK(dose("buffer", "100 L")["exact_mL"] == Approx(50).epsilon(1e-3));
  // 3 g/L of salt from 250 g/L; the 60 L grow by the dose: 60 * 3 / (250 - 3).
  CHECK(dose("salt bath", "60 L")["exact_mL"] == Approx(60000 * 3.0 / 247).epsilon(1e-9));
  // "1 tsp per 10 US gal" and the like are covered by the unit tests; here imperial gallons differ.
  CHECK(dose("dechlorinator", "1 imperial gal")["exact_mL"] ==
        Approx(0.07 * 4.54609).epsilon(1e-9));
}

TEST_CASE("bottle and chart carry the same code and strip") {
  const std::string code = dose("dechlorinator", "10 L")["code"];
  for (const char* name : {"label-dechlorinator", "sink-chart", "bench-chart", "rack-chart"}) {
    INFO(name);
    CHECK(text_of(printed().folder / (std::string(name) + ".pdf")).find(code) != std::string::npos);
  }
  const std::string other = dose("oxidiser", "10 L")["code"];
  CHECK(other != code);
}

TEST_CASE("no page breaks the rules of medication-safe figures") {
  const std::vector<std::pair<std::string, std::regex>> faults = {
      {"a bare decimal point", std::regex(R"((^|[^0-9.])\.[0-9])")},
      {"a trailing zero", std::regex(R"([0-9]\.[0-9]*0( |$)(mL|L|g|mg|kg|US))")},
      {"a unit in the wrong letters", std::regex(R"([0-9] ?(ml|ML|Ml|cc|mls|gms|lt|gm)\b)")},
      {"no space before the unit", std::regex(R"([0-9](mL|L|g|mg|kg|%)\b)")},
      {"a large figure without its comma",
       std::regex(R"((^| )[0-9]{4,}(\.[0-9]+)? (mL|L|g|mg)\b)")},
      {"a raw blank or choice", std::regex(R"(…|\[|\]|\w/\w)")},
  };
  for (const path& pdf : printed().pdfs) {
    // In reading order as written: poppler's other modes run two lone letters such as "9 L"
    // together.
    const std::string text =
        one_line(testing::shell("pdftotext -raw '" + pdf.string() + "' -").out);
    for (const auto& [fault, pattern] : faults) {
      // A hazard sheet cites laws by number and year.
      if (fault.starts_with("a raw") && pdf.stem().string().starts_with("why-")) continue;
      std::smatch found;
      const bool faulty = std::regex_search(text, found, pattern);
      INFO(pdf << ": " << fault << " in: "
               << (faulty ? text.substr(static_cast<std::size_t>(found.position()), 40) : ""));
      CHECK_FALSE(faulty);
    }
  }
}

TEST_CASE("every label carries the hazard block and the safety lines") {
  const auto words = [](const char* name) {
    return one_line(text_of(printed().folder / (std::string(name) + ".pdf")));
  };
  for (const path& pdf : printed().pdfs) {
    if (pdf.filename().string().find("label") != 0) continue;
    const std::string text = one_line(text_of(pdf));
    INFO(pdf);
    for (const char* line : {"Not for drinking.", "Keep out of reach of children.",
                             "Doctor 555 0142", "safety data sheet", "local rules or a vet"}) {
      CHECK(text.find(line) != std::string::npos);
    }
  }
  const std::string permanganate = words("label-permanganate");
  for (const char* line :
       {"Danger", "Suspected of damaging the unborn child.", "Causes skin irritation.",
        "Causes serious eye damage.", "Toxic to aquatic life with long lasting effects.",
        "Wear protective gloves and eye protection.", "Store locked up.",
        "Immediately call a POISON CENTER or doctor.",
        "Never mix with formalin, peroxide, acids or anything that burns, nor with", "use by",
        "2027-05-23", "potassium permanganate 40 g per L in water"}) {
    INFO(permanganate);
    CHECK(permanganate.find(line) != std::string::npos);
  }
  // Worked out: nothing is called for, and what no calculation finds is said.
  for (const char* line : {"By calculation from the supplier's safety data sheet of",
                           "2025-11 no hazard statement is called for. Not",
                           "evaluated: physical hazards and extreme pH."}) {
    INFO(line);
    CHECK(words("label-buffer").find(line) != std::string::npos);
  }
  // A chemical known without its data sheet is named as such.
  CHECK(words("label-copper").find("with built-in figures for copper sulfate pentahydrate") !=
        std::string::npos);
}

TEST_CASE("a stock that nobody assessed says so, and a food bottle too") {
  const testing::TemporaryFolder folder;
  std::string room = testing::base_room();
  const std::string hazards =
      "    hazards:\n      statements: [H319]\n      precautions: [P264, P337+P313]\n"
      "      source: its data sheet of 2026-01\n";
  room.replace(room.find(hazards), hazards.size(), "");
  room.replace(room.find("    holds: 1 L\n"), 15, "    holds: 1 L\n    held food: true\n");
  testing::write_file(folder / "room.yaml", room);
  const auto run =
      testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
  CHECK(run.status == 1);
  CHECK(run.err.find("have not been assessed") != std::string::npos);
  const std::string text = one_line(text_of(folder / "out/label.pdf"));
  CHECK(text.find("Hazards not assessed") != std::string::npos);
  CHECK(text.find("This bottle once held food or drink. Do not drink from it.") !=
        std::string::npos);
}

TEST_CASE("labels fill the sheet from the position asked for") {
  const std::string text =
      testing::shell("pdftotext -bbox '" + (printed().folder / "label-dechlorinator.pdf") + "' -")
          .out;
  const std::regex word(R"re(xMin="([0-9.]+)" yMin="([0-9.]+)"[^>]*>Dechlorinator<)re");
  std::vector<std::pair<double, double>> at;
  for (std::sregex_iterator it(text.begin(), text.end(), word), end; it != end; ++it)
    at.emplace_back(std::stod((*it)[1]), std::stod((*it)[2]));
  REQUIRE(at.size() == 2);
  // Two columns, start at 3: the second row, 101 mm apart, below 7.5 + 71 mm.
  CHECK(at[1].first - at[0].first == Approx(101 * 72 / 25.4).epsilon(1e-3));
  CHECK(at[0].second == Approx(at[1].second));
  CHECK(at[0].second > (7.5 + 71) * 72 / 25.4);
  CHECK(at[0].second < (7.5 + 2 * 71) * 72 / 25.4);
}

// poppler's cairo output and our cairo proof share a rasteriser (its other output differs by 8 %
// even from itself). What may differ is libharu's rounding of coordinates to five figures: measured
// below 0.1 % of pixels; the bound is five times that.
// The reader puts letters on whole pixels, so it draws twice as finely; what is compared are means
// of 4 x 4 pixels of the proof, about 1 mm. Measured: at most 0.55 % of them differ.
TEST_CASE("the proof shows what the printer prints") {
  int compared = 0;
  for (const path& pdf : printed().pdfs) {
    const std::string name = pdf.stem().string();
    const bool single = testing::fs::exists(printed().folder / (name + ".png"));
    const std::string proof = printed().folder / (name + (single ? ".png" : ".page1.png"));
    const testing::TemporaryFolder scratch;
    const auto drawn =
        testing::shell(std::string("pdftocairo -png -singlefile -f 1 -l 1 -r ") + kTwiceDpi + " '" +
                       pdf.string() + "' '" + (scratch / "page") + "'");
    REQUIRE(drawn.status == 0);
    INFO(name);
    const auto print = testing::means(testing::read_png(scratch / "page.png"), 8);
    const auto shown = testing::means(testing::read_png(proof), 4);
    REQUIRE(std::abs(print.width - shown.width) <= 1);
    REQUIRE(std::abs(print.height - shown.height) <= 1);
    const double off = testing::difference(testing::part_of(print, shown.width, shown.height),
                                           testing::part_of(shown, print.width, print.height));
    INFO(off);
    CHECK(off < 0.01);
    ++compared;
  }
  CHECK(compared == 22);
}

TEST_CASE("the manual's pictures show what is printed now") {
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print '" + testing::sample() + "' --proof png --dpi 72 --to '" +
                           folder.path().string() + "'")
              .status == 0);
  int pictures = 0;
  for (const auto& entry :
       testing::fs::directory_iterator(testing::source_folder() / "samples/millrace/pictures")) {
    ++pictures;
    INFO(entry.path());
    CHECK(testing::difference(testing::read_png(entry.path()),
                              testing::read_png(folder / entry.path().filename().string())) <
          0.005);
  }
  CHECK(pictures == 6);
}

TEST_CASE("the 100 mm bar is 100 mm") {
  const testing::Picture page = testing::read_png(printed().folder / "sink-chart.png");
  const auto dark = [&](int x, int y) {
    return page.pixels[static_cast<std::size_t>((y * page.width + x) * 3)] < 128;
  };
  double longest = 0;
  for (int y = page.height - page.height / 8; y < page.height; ++y) {
    int run = 0;
    for (int x = 0; x < page.width; ++x) {
      run = dark(x, y) ? run + 1 : 0;
      longest = std::max(longest, run / kPixelsPerMm);
    }
  }
  CHECK(longest == Approx(100).margin(0.3));
}

TEST_CASE("the same input gives the same bytes, and only SOURCE_DATE_EPOCH dates them") {
  const testing::TemporaryFolder folder;
  for (const char* to : {"a", "b"}) {
    REQUIRE(testing::program("print '" + testing::sample() + "' --proof png --dpi 60 --to '" +
                             (folder / to) + "'")
                .status == 0);
  }
  CHECK(testing::shell("diff -r '" + (folder / "a") + "' '" + (folder / "b") + "'").status == 0);
  const auto undated = testing::shell(
      "env -u SOURCE_DATE_EPOCH '" PROGRAM "' print '" +
      (testing::source_folder() / "samples/tidegate/room.yaml").string() + "' --no-record --to '" +
      (folder / "u") + "' && pdfinfo '" + (folder / "u/sink-chart.pdf") + "'");
  CHECK(undated.status == 0);
  CHECK(undated.out.find("CreationDate") == std::string::npos);
  const auto dated =
      testing::shell("SOURCE_DATE_EPOCH=1764028800 '" PROGRAM "' print '" + testing::sample() +
                     "' --no-record --to '" + (folder / "c") + "' && TZ=UTC pdfinfo -isodates '" +
                     (folder / "c/sink-chart.pdf") + "'");
  CHECK(dated.out.find("2025-11-25T00:00:00") != std::string::npos);
}

TEST_CASE("red is the only colour, and only in the pictograms") {
  const testing::Picture chart = testing::read_png(printed().folder / "rack-chart.png");
  for (std::size_t i = 0; i < chart.pixels.size(); i += 3) {
    const bool grey =
        chart.pixels[i] == chart.pixels[i + 1] && chart.pixels[i] == chart.pixels[i + 2];
    if (!grey) FAIL("a coloured pixel on a chart");
  }
  const testing::Picture label =
      testing::read_png(printed().folder / "label-permanganate.page1.png");
  std::size_t red = 0;
  for (std::size_t i = 0; i < label.pixels.size(); i += 3) {
    if (label.pixels[i] > 180 && label.pixels[i + 1] < 80) ++red;
  }
  CHECK(red > 500);
}

TEST_CASE("nothing is printed closer to the edge than printers reach") {
  for (const char* name :
       {"sink-chart.png", "bench-chart.png", "rack-chart.png", "quarantine-charts.page1.png",
        "buffer-chart.png", "permanganate-chart.png"}) {
    const testing::Picture page = testing::read_png(printed().folder / name);
    const int edge = static_cast<int>(6.35 * kPixelsPerMm);
    INFO(name);
    bool clean = true;
    for (int y = 0; y < page.height; ++y) {
      for (int x = 0; x < page.width; ++x) {
        const bool margin =
            x < edge || y < edge || x >= page.width - edge || y >= page.height - edge;
        if (margin && page.pixels[static_cast<std::size_t>((y * page.width + x) * 3)] < 250)
          clean = false;
      }
    }
    CHECK(clean);
  }
}
