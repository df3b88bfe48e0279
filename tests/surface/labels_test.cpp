// Labels from the smallest bottle to the largest carboy, read back from their PDFs.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <regex>
#include <string>
#include <vector>

#include "helpers.hpp"

namespace {

struct Word {
  std::string text;
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;  // in points from the top left
};

struct Page {
  double width = 0;
  double height = 0;
  std::vector<Word> words;
};

Page page_of(const std::string& pdf) {
  const std::string html = testing::shell("pdftotext -bbox '" + pdf + "' -").out;
  Page page;
  std::smatch size;
  REQUIRE(
      std::regex_search(html, size, std::regex("<page width=\"([0-9.]+)\" height=\"([0-9.]+)\"")));
  page.width = std::stod(size[1]);
  page.height = std::stod(size[2]);
  static const std::regex word(
      "<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" xMax=\"([0-9.-]+)\" "
      "yMax=\"([0-9.-]+)\">([^<]*)</word>");
  for (std::sregex_iterator it(html.begin(), html.end(), word), end; it != end; ++it) {
    page.words.push_back({(*it)[5], std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]),
                          std::stod((*it)[4])});
  }
  return page;
}

Word first(const Page& page, const std::string& text) {
  const auto found = std::find_if(page.words.begin(), page.words.end(),
                                  [&](const Word& word) { return word.text == text; });
  INFO(text);
  REQUIRE(found != page.words.end());
  return *found;
}

// A container and a label that suits it.
struct Size {
  std::string holds;
  int width;   // mm
  int height;  // mm
};

const std::vector<Size>& sizes() {
  static const std::vector<Size> all = {
      {"30 mL", 105, 74},  {"60 mL", 105, 74}, {"125 mL", 105, 74}, {"250 mL", 112, 78},
      {"500 mL", 112, 78}, {"1 L", 130, 92},   {"3 L", 130, 92},    {"5 L", 175, 120},
      {"10 L", 175, 120},  {"20 L", 210, 148}};
  return all;
}

std::string room_for(const Size& size) {
  return "room: {name: R, emergency: Doctor 555 0100, by: A. Reader}\n"
         "products:\n  copper: {name: copper sulfate pentahydrate, cas: 7758-99-8}\n"
         "stocks:\n  s:\n    name: Copper\n    recipe: {copper: 4 g}\n    water to: 100 mL\n"
         "    dose: {reach: 1 mg/L, for: whole vessel, at most: 0.35 mL per 10 L}\n"
         "    keeps: 180 days\n    container: bottle\n    hazards: {ph: 4}\n"
         "containers:\n  bottle: {holds: " +
         size.holds +
         "}\ntools:\n  t: {kind: syringe, holds: 1 mL, marks: every 0.05 mL}\n"
         "documents:\n  label: {type: label, stock: s, mixed: 2026-11-25, batch: 1, sheet: {paper: "
         "roll, label: " +
         std::to_string(size.width) + " x " + std::to_string(size.height) + " mm}}\n";
}

std::string joined(const Page& page) {
  std::string out;
  for (const Word& word : page.words) out += (out.empty() ? "" : " ") + word.text;
  return out;
}

// From top to bottom: name, dose, signal word, safety; the code at the top right.
void check_layout(const Page& page) {
  const Word name = first(page, "Copper");
  const Word treats = first(page, "treats");
  const Word danger = first(page, "Danger");
  const Word safety = first(page, "drinking.");
  CHECK(name.top < page.height / 4);
  CHECK(name.bottom < treats.bottom);
  CHECK(treats.bottom < danger.top);
  CHECK(danger.bottom < safety.bottom);
  const Word match = first(page, "match");
  CHECK(match.left > page.width / 2);
  CHECK(match.bottom < page.height / 2);
  // Name before dose before hazard block: larger to smaller.
  CHECK(name.bottom - name.top > danger.bottom - danger.top);
}

void check_inside(const Page& page) {
  constexpr double kEdge = 1.5 * 72 / 25.4;
  for (const Word& word : page.words) {
    INFO(word.text);
    CHECK(word.left >= kEdge);
    CHECK(word.top >= 0);
    CHECK(word.right <= page.width - kEdge);
    CHECK(word.bottom <= page.height);
  }
}

}  // namespace

TEST_CASE("labels keep their layout from a 30 mL dropper bottle to a 20 L carboy") {
  const testing::TemporaryFolder folder;
  double before = 0;
  for (const Size& size : sizes()) {
    INFO(size.holds);
    testing::write_file(folder / "room.yaml", room_for(size));
    const auto run =
        testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
    INFO(run.err);
    REQUIRE(run.status <= 1);
    const Page page = page_of(folder / "out/label.pdf");
    CHECK(page.width == Approx(size.width * 72 / 25.4).margin(0.1));
    CHECK(page.height == Approx(size.height * 72 / 25.4).margin(0.1));
    check_layout(page);
    check_inside(page);
    const std::string text = joined(page);
    for (const char* statement :
         {"Causes serious eye damage.", "Very toxic to aquatic life with long lasting effects.",
          "Wear eye protection.", "Avoid release to the environment.",
          "Remove contact lenses, if present and easy to do.", "Doctor 555 0100"}) {
      INFO(statement << '\n' << text);
      const bool shortened = text.find("Small package:") != std::string::npos;
      const bool lesser = std::string(statement).find("aquatic") != std::string::npos ||
                          std::string(statement).find("release") != std::string::npos;
      CHECK((text.find(statement) != std::string::npos || (shortened && lesser)));
    }
    // The law's text grows with the bottle and never shrinks.
    const Word hazard = first(page, "Causes");
    CHECK(hazard.bottom - hazard.top >= before - 1);
    before = hazard.bottom - hazard.top;
  }
}

TEST_CASE("a label that names an acid, peroxide or formaldehyde gives its per cent") {
  // CLP Annex VI, 1.1.3.1, Note B. 370 g/kg of formalin at 1.09 g/mL, 50 mL in a litre: 54.5 g of
  // it, 20.2 g of formaldehyde in at most 1,005 g, so about 2 %.
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "room: {name: R, emergency: Doctor 555 0100}\n"
      "products:\n  formalin:\n    name: formalin\n    form: liquid\n    density: 1.09 g/mL\n"
      "    contains: {formaldehyde: 37 %, methanol: 10 %, water: rest}\n"
      "stocks:\n  s:\n    name: Bath\n    recipe: {formalin: 50 mL}\n    water to: 1 L\n"
      "    dose: {give: 5 mL per 10 L}\n    container: bottle\n"
      "containers:\n  bottle: {holds: 1 L}\n"
      "tools:\n  syringe: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
      "documents:\n"
      "  label: {type: label, stock: s, sheet: {paper: roll, label: 210 x 148 mm}}\n"
      "  why: {type: hazard sheet, stock: s}\n");
  const auto run =
      testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
  INFO(run.err);
  REQUIRE(run.status <= 1);
  const std::string text = joined(page_of(folder / "out/label.pdf"));
  INFO(text);
  CHECK(std::regex_search(text, std::regex("Contains [^.]*formaldehyde 2\\.[0-9]+ % w/w")));
  const std::string why = testing::shell("pdftotext '" + (folder / "out/why.pdf") + "' -").out;
  CHECK_THAT(why, Catch::Contains("The rest is water."));
}

// The small sample, whose two labels share a sheet.
std::string weirside() {
  return (testing::fs::path(testing::sample()).parent_path().parent_path() / "weirside/room.yaml")
      .string();
}

// Column and row on a sheet of 105 x 74 mm labels of each time that a word stands there.
std::vector<std::pair<int, int>> places_of(const std::string& pdf, const std::string& word) {
  constexpr double kPoint = 25.4 / 72;
  std::vector<std::pair<int, int>> out;
  for (const Word& one : page_of(pdf).words) {
    if (one.text != word) continue;
    out.emplace_back(static_cast<int>(one.left * kPoint / 105),
                     static_cast<int>((one.top * kPoint - 0.5) / 74));
  }
  return out;
}

TEST_CASE("labels of several stocks share a sheet, each where the one before it ends") {
  const testing::TemporaryFolder folder;
  const std::string pdf = folder / "out/bench.pdf";
  const auto print = [&](const std::string& more) {
    const auto run = testing::program("print '" + weirside() + "' --no-record --to '" +
                                      (folder / "out") + "'" + more);
    CHECK(run.status == 1);  // the sample's own finding
  };
  using Places = std::vector<std::pair<int, int>>;
  print("");
  CHECK(places_of(pdf, "Neutraliser") == Places{{0, 1}, {1, 1}});
  CHECK(places_of(pdf, "opened") == Places{{0, 2}});
  CHECK(testing::shell("qpdf --check '" + pdf + "'").status == 0);
  CHECK_FALSE(testing::fs::exists(folder / "out/label.pdf"));
  // One of them alone takes the first free place.
  print(" --only 'tub label'");
  CHECK(places_of(pdf, "Neutraliser").empty());
  CHECK(places_of(pdf, "opened") == Places{{0, 1}});
}

TEST_CASE("labels that a sheet has no room for go onto the next one") {
  std::string room = testing::read_file(weirside());
  const testing::TemporaryFolder folder;
  const std::size_t copies = room.find("    copies: 2\n");
  REQUIRE(copies != std::string::npos);
  room.replace(copies, 14, "    copies: 6\n");
  testing::write_file(folder / "room.yaml", room);
  const auto run = testing::program("print '" + (folder / "room.yaml") + "' --no-record --to '" +
                                    (folder / "out") + "'");
  CHECK(run.status == 1);
  const auto page = [&](const std::string& number) {
    return testing::shell("pdftotext -f " + number + " -l " + number + " '" +
                          (folder / "out/bench.pdf") + "' -")
        .out;
  };
  CHECK(page("1").find("opened") == std::string::npos);
  CHECK(page("2").find("opened") != std::string::npos);
  CHECK(page("2").find("Neutraliser") == std::string::npos);
}
