// Designs of one's own, forms of labels, proofs and what a PDF says of itself, as a user meets
// them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>

#include "dosewright/base/text.hpp"
#include "helpers.hpp"

namespace {

std::string quoted(const std::string& path) { return "'" + path + "'"; }

std::string gallery() {
  return (testing::source_folder() / "samples/ferrystep/room.yaml").string();
}

std::string text_of(const std::string& pdf) {
  const std::string text = testing::shell("pdftotext -layout '" + pdf + "' -").out;
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

// A folder with the base room, one line of it changed, and a design of one's own.
struct OwnDesign {
  testing::TemporaryFolder folder;
  testing::Run run;

  OwnDesign(const std::string& kind, const std::string& from, const std::string& to,
            const std::string& file = "stacked") {
    const auto folder_of = testing::source_folder() / "templates" / kind;
    std::string design = testing::read_file(folder_of / (file + ".yaml"));
    const std::size_t at = design.find(from);
    REQUIRE(at != std::string::npos);
    design.replace(at, from.size(), to);
    testing::write_file(folder / "mine.yaml", design);
    std::string room = testing::base_room();
    const std::string before = kind == "labels" ? "    type: label\n" : "    type: bucket chart\n";
    room.replace(room.find(before), before.size(), before + "    design: mine.yaml\n");
    testing::write_file(folder / "room.yaml", room);
    run = testing::program("print " + quoted(folder / "room.yaml") + " --to " +
                           quoted(folder / "out") + " --no-record");
  }
};

}  // namespace

TEST_CASE("a design of one's own is used, and a slip in it is shown where it stands") {
  const OwnDesign good("labels", "name: 2.9", "name: 2.2");
  INFO(good.run.err);
  CHECK(good.run.status == 0);
  CHECK(testing::fs::exists(good.folder / "out/label.pdf"));

  const struct {
    const char* from;
    const char* to;
    const char* message;
  } slips[] = {
      {"width: 100 %", "width: 110 %", "more than the whole"},
      {"width: 100 %", "width: 90 %",
       "front: the widths of the regions come to 90 %: some of the label stays empty"},
      {"[name and code,", "[name and cod,", "no part of a label is called \"name and cod\""},
      {"rule, hazards, warnings]", "rule, warnings]", "front: no label may go without its hazards"},
      {"fields, heavy rule, hazards", "heavy rule, hazards",
       "front: no label may go without its fields"},
      {"rule, hazards, warnings]", "rule, hazards, hazards, warnings]",
       "\"hazards\" stands there already"},
      {"smallest: 5.5 pt", "smallest: 25 pt", "the largest size is below the smallest"},
      {"margin: 3.5 mm", "margins: 3.5 mm", "margins: unknown key"},
      {"line pitch: 1.2", "line pitch: 1.1", "hazard text wants lines at least 1.2 sizes apart"},
      {"line pitch: 1.2", "# no line pitch", "the key \"line pitch\" is missing"},
      {"bold: [name,", "bold: [nam,", "no word of a label is called \"nam\""},
  };
  for (const auto& slip : slips) {
    const OwnDesign bad("labels", slip.from, slip.to);
    INFO(slip.to << '\n' << bad.run.err);
    CHECK(bad.run.status == 2);
    CHECK(std::regex_search(bad.run.err, std::regex("mine\\.yaml:[0-9]+:[0-9]+: error: ")));
    CHECK(bad.run.err.find(slip.message) != std::string::npos);
    CHECK_FALSE(testing::fs::exists(bad.folder / "out/label.pdf"));
  }
  const OwnDesign overlapping("labels", "smallest: 44 %", "smallest: 70 %", "beside");
  INFO(overlapping.run.err);
  CHECK(overlapping.run.status == 2);
  CHECK(overlapping.run.err.find("the largest width is below the smallest") != std::string::npos);
  const OwnDesign wide("labels", "largest: 64 %}", "largest: 64 %}\n    strip: true", "beside");
  INFO(wide.run.err);
  CHECK(wide.run.err.find("two strips on one label") != std::string::npos);
  const OwnDesign bare("labels", "hazards in short", "light rule", "two-sided");
  INFO(bare.run.err);
  CHECK(bare.run.err.find("a label without a word of hazard") != std::string::npos);
}

TEST_CASE("charts have designs too, and an unknown one names those there are") {
  const OwnDesign ruled("charts", "tint: true", "tint: false", "plain");
  CHECK(ruled.run.status == 0);
  const testing::TemporaryFolder folder;
  std::string room = testing::base_room();
  room.replace(room.find("    type: bucket chart\n"), 23,
               "    type: bucket chart\n    design: large\n");
  testing::write_file(folder / "room.yaml", room);
  const auto run = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(run.status == 2);
  CHECK(run.err.find("no design is called \"large\"") != std::string::npos);
  CHECK(run.err.find("write large-print, plain or ruled, or the file of your own") !=
        std::string::npos);
}

TEST_CASE("every design of a chart prints every kind of page") {
  const testing::TemporaryFolder folder;
  for (const char* design : {"large-print", "ruled"}) {
    const std::string text = testing::read_file(testing::sample());
    const std::size_t documents = text.find("\ndocuments:");
    std::string room = text.substr(0, documents);
    room += std::regex_replace(
        text.substr(documents),
        std::regex(
            "(    type: (bucket chart|tank chart|dose scale|measuring card|mixing card|hazard "
            "sheet|storage list)\n)"),
        "$1    design: " + std::string(design) + "\n");
    testing::write_file(folder / "room.yaml", room);
    const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                      " --no-record --to " + quoted(folder / design));
    INFO(design << '\n' << run.err);
    // Larger words ask for larger paper on the smallest of the sample's charts.
    const bool only_too_small = std::regex_search(run.err, std::regex("is too small for"));
    CHECK((run.status == 0 || (std::string(design) == "large-print" && only_too_small)));
  }
}

TEST_CASE("the gallery prints labels for every size of container") {
  const testing::TemporaryFolder folder;
  const auto run = testing::program("print " + quoted(gallery()) + " --no-record --to " +
                                    quoted(folder.path().string()) + " --contact-sheet --dpi 90");
  INFO(run.err);
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  // Each carries hazard words and its code; what stands on a cap points at them.
  for (const char* name : {"vial", "dropper", "small-bottle", "tube", "bottle", "panel", "tag",
                           "jerrycan", "can", "drum"}) {
    const std::string text = std::regex_replace(
        testing::shell("pdftotext '" + (folder / (std::string(name) + ".pdf")) + "' -").out,
        std::regex("\\s+"), " ");
    INFO(name << ": " << text);
    CHECK(text.find("Not for drinking") != std::string::npos);
    const bool says = text.find("Warning") != std::string::npos ||
                      text.find("Danger") != std::string::npos ||
                      text.find("Harmful to aquatic life") != std::string::npos ||
                      text.find("no hazard statement is called for") != std::string::npos;
    CHECK(says);
  }
  CHECK(text_of(folder / "cap.pdf").find("see the label") != std::string::npos);
  CHECK(testing::difference(
            testing::read_png(testing::source_folder() / "samples/ferrystep/gallery.png"),
            testing::read_png(folder / "contact.sheet.png")) < 0.005);
}

TEST_CASE("a cap's label is never the only one") {
  const testing::TemporaryFolder folder;
  std::string room = testing::base_room();
  room.replace(room.find("    holds: 1 L\n"), 15, "    holds: 1 L\n    cap: 40 mm\n");
  const std::size_t sheet = room.find("    sheet:");
  room.replace(sheet, room.find('\n', sheet) - sheet, "    form: dot");
  testing::write_file(folder / "room.yaml", room);
  const auto run = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(run.status == 2);
  CHECK(run.err.find("a cap has no room for the hazards, so it cannot be the only label") !=
        std::string::npos);
}

// Read with another program's decoder.
TEST_CASE("the square code holds the label's own words, and no link") {
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print " + quoted(gallery()) + " --only small-bottle --no-record --to " +
                           quoted(folder.path().string()) + " --proof png --dpi 300")
              .status == 0);
  const auto read = testing::shell("zbarimg -q --raw '" + (folder / "small-bottle.png") + "'");
  CHECK(read.status == 0);
  CHECK(read.out ==
        "Dechlorinator\nsodium thiosulfate pentahydrate 100 g per L in water, give or take 7 %\n"
        "code TF 7AF\nmixed 2026-11-20\nuse by 2027-02-18\nbatch 12\nby T. Okafor\n"
        "contents 200 mL\n");
  CHECK(read.out.find("http") == std::string::npos);
  // What the paper says with letters is what it says with squares.
  const std::string words = text_of(folder / "small-bottle.pdf");
  for (const char* word : {"TF 7AF", "2026-11-20", "2027-02-18", "200 mL"})
    CHECK(words.find(word) != std::string::npos);
}

// cairo's SVG drawn by librsvg, against the PDF drawn by poppler, both at 300 dots per inch. One
// fills the outlines of letters where they are, the other moves each glyph to a whole pixel, so
// edges differ by up to half a pixel; the mean of 8 x 8 of them hardly does. Measured: at most 0.3
// % of the means differ by more than 16 of 255.
TEST_CASE("an SVG proof shows what the printer prints, and says it the same twice") {
  const testing::TemporaryFolder folder;
  for (const char* to : {"a", "b"}) {
    REQUIRE(testing::program("print " + quoted(gallery()) + " --no-record --proof svg --to " +
                             quoted(folder / to))
                .status == 0);
  }
  CHECK(testing::shell("diff -r '" + (folder / "a") + "' '" + (folder / "b") + "'").status == 0);
  for (const char* name : {"bottle", "drum", "vial"}) {
    const std::string base = folder / ("a/" + std::string(name));
    const std::string svg = testing::read_file(base + ".svg");
    CHECK(std::regex_search(svg, std::regex("width=\"[0-9.]+pt\"")));
    REQUIRE(testing::shell("rsvg-convert -d 300 -p 300 '" + base + ".svg' -o '" +
                           (folder / "svg.png") + "'")
                .status == 0);
    REQUIRE(testing::shell("pdftocairo -png -singlefile -r 300 '" + base + ".pdf' '" +
                           (folder / "pdf") + "'")
                .status == 0);
    const auto drawn = testing::means(testing::read_png(folder / "svg.png"), 8);
    const auto printed = testing::means(testing::read_png(folder / "pdf.png"), 8);
    INFO(name << ' ' << drawn.width << " x " << drawn.height << " / " << printed.width << " x "
              << printed.height << ": " << testing::difference(drawn, printed));
    CHECK(testing::difference(drawn, printed) < 0.01);
  }
}

TEST_CASE(
    "a PDF says what it is: trim box, page labels, outline, language, and no reader complains") {
  const testing::TemporaryFolder folder;
  REQUIRE(testing::program("print " + quoted(testing::sample()) + " --no-record --to " +
                           quoted(folder.path().string()))
              .status == 0);
  for (const auto& entry : testing::fs::directory_iterator(folder.path())) {
    const std::string pdf = entry.path().string();
    INFO(pdf);
    const auto info = testing::shell("pdfinfo -box '" + pdf + "'");
    CHECK(info.err.empty());
    std::smatch media;
    std::smatch trim;
    REQUIRE(std::regex_search(info.out, media, std::regex("MediaBox: +([0-9. ]+)")));
    REQUIRE(std::regex_search(info.out, trim, std::regex("TrimBox: +([0-9. ]+)")));
    CHECK(media[1] == trim[1]);
    const auto text = testing::shell("pdftotext '" + pdf + "' -");
    CHECK(text.err.empty());
    const std::string inside = testing::shell("qpdf --json '" + pdf + "'").out;
    CHECK(inside.find("\"/Lang\": \"u:en\"") != std::string::npos);
    CHECK(inside.find("\"/PageLabels\"") != std::string::npos);
    CHECK(inside.find("\"/Outlines\"") != std::string::npos);
    const bool label = entry.path().filename().string().rfind("label-", 0) == 0;
    // One label; a further copy has a page of its own.
    constexpr std::size_t kPage = 3'000;
    const std::size_t copies =
        static_cast<std::size_t>(std::stoi(testing::shell("qpdf --show-npages '" + pdf + "'").out));
    if (label) CHECK(testing::fs::file_size(entry.path()) < 60'000 + kPage * (copies - 1));
  }
}
