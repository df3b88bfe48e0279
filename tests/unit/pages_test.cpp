// Layout and rendering, called directly: gates, fitting, letters as pictures.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "../../src/layout/pen.hpp"
#include "../../src/layout/signs.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/render/render.hpp"
#include "dosewright/write/files.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

LabelStyle label_style() {
  Diagnostics problems;
  const auto text =
      read_text_file((testing::source_folder() / "templates/labels/stacked.yaml").string());
  const auto tree = read_tree(std::get<0>(text), problems);
  return *check_label_style(*tree, problems);
}

LabelContent label_of(const std::string& text) {
  const auto read = testing::read_room(text);
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  return label_content(answers, read.room->documents.front().label, ErrorShown::measuring);
}

LabelSheet roll(double width, double height) {
  LabelSheet sheet;
  sheet.label_width = millimetres(width);
  sheet.label_height = millimetres(height);
  sheet.paper = {"roll", sheet.label_width, sheet.label_height};
  sheet.pitch_x = sheet.label_width;
  sheet.pitch_y = sheet.label_height;
  return sheet;
}

// Lines of text that fill a page, from code points.
Pages specimen(const std::vector<char32_t>& characters, Face face) {
  Pages out;
  out.title = "Letters";
  out.pages.push_back({210, 297, "Letters", {}});
  Pen pen(out.pages.back(), testing::fonts());
  double x = 12;
  double y = 20;
  for (const char32_t c : characters) {
    pen.text({x, y}, {7, face}, to_utf8({&c, 1}));
    x += 10;
    if (x > 190) {
      x = 12;
      y += 11;
    }
  }
  return out;
}

std::vector<char32_t> range(char32_t first, char32_t last) {
  std::vector<char32_t> out;
  for (char32_t c = first; c <= last; ++c) {
    if (testing::fonts().covers(c)) out.push_back(c);
  }
  return out;
}

testing::Picture drawn_by_reader(const std::string& pdf, int dpi) {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "a.pdf", pdf);
  const auto run = testing::shell("pdftocairo -png -singlefile -r " + std::to_string(dpi) + " '" +
                                  (folder / "a.pdf") + "' '" + (folder / "a") + "'");
  REQUIRE(run.status == 0);
  return testing::read_png(folder / "a.png");
}

testing::Picture drawn_by_proof(const Pages& pages, int dpi) {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "a.png",
                      std::get<0>(render_png(pages, dpi, testing::fonts())).front());
  return testing::read_png(folder / "a.png");
}

double contrast(Ink a, Ink b) {
  const auto luminance = [](Ink ink) {
    const auto linear = [](double c) {
      return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    const Rgb c = colour_of(ink);
    return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
  };
  const double l1 = luminance(a);
  const double l2 = luminance(b);
  return (std::max(l1, l2) + 0.05) / (std::min(l1, l2) + 0.05);
}

}  // namespace

// Text extraction shows the right letters even where the wrong ones are drawn (a composite letter
// inside a composite letter loses its base in libharu 2.3.0). So the drawn pictures are compared:
// the PDF through poppler's cairo output against our own cairo proof, by means of half a millimetre
// (the reader puts letters on whole pixels, so it draws twice as finely). What remains of that and
// of libharu's rounding of coordinates is well below 0.2 %. A lost base letter on a page of 180
// letters differs by far more than that.
TEST_CASE("every alphabet is drawn with its own letters") {
  const std::vector<std::vector<char32_t>> alphabets = {
      range(0x20, 0x7E),   range(0xA0, 0xFF),   range(0x100, 0x17F),  range(0x218, 0x21B),
      range(0x386, 0x3CE), range(0x400, 0x45F), range(0x2010, 0x2044)};
  for (const auto& alphabet : alphabets) {
    REQUIRE(!alphabet.empty());
    for (const Face face : {Face::regular, Face::bold}) {
      const Pages pages = specimen(alphabet, face);
      const auto pdf = render_pdf(pages, {"Letters", "test", std::nullopt}, testing::fonts());
      REQUIRE(std::holds_alternative<std::string>(pdf));
      const auto read = testing::means(drawn_by_reader(std::get<std::string>(pdf), 400), 8);
      const auto proof = testing::means(drawn_by_proof(pages, 200), 4);
      CHECK(testing::difference(read, proof) < 0.002);
    }
  }
}

TEST_CASE("the comparison of pictures sees one wrong letter") {
  const auto right = specimen({U'a', U'b', U'š'}, Face::bold);
  const auto wrong = specimen({U'a', U'b', U's'}, Face::bold);
  const double difference =
      testing::difference(drawn_by_proof(right, 100), drawn_by_proof(wrong, 100));
  CHECK(difference > 0);
  CHECK(testing::difference(drawn_by_proof(right, 100), drawn_by_proof(right, 100)) == 0);
}

TEST_CASE("a letter the font lacks is refused before drawing") {
  const Pages pages = specimen({U'a', U'漢'}, Face::regular);
  const auto pdf = render_pdf(pages, {"Letters", "test", std::nullopt}, testing::fonts());
  REQUIRE(std::holds_alternative<RenderProblem>(pdf));
  CHECK(std::get<RenderProblem>(pdf).message == "the printing font has no letter for 漢 in 漢");
}

TEST_CASE("fonts that would print wrong are refused at load") {
  const testing::TemporaryFolder folder;
  namespace fs = std::filesystem;
  const fs::path nested = "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf";
  REQUIRE(fs::exists(nested));
  fs::copy_file(nested, folder / "Go-Bold.ttf");
  fs::copy_file(fs::path(kFontFolder) / "Go-Regular.ttf", folder / "Go-Regular.ttf");
  const auto loaded = Fonts::load(folder.path().string());
  REQUIRE(std::holds_alternative<std::string>(loaded));
  CHECK(std::get<std::string>(loaded).find("nests composite letters") != std::string::npos);

  testing::write_file(folder / "Go-Regular.ttf", "not a font");
  CHECK(std::get<std::string>(Fonts::load(folder.path().string())).find("not a usable font") !=
        std::string::npos);
  CHECK(std::get<std::string>(Fonts::load("/nonexistent")).find("missing") != std::string::npos);
}

TEST_CASE("marks that are no numbers or leave the page are stopped") {
  Page page{100, 100, "", {}};
  Pen pen(page, testing::fonts());
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(pen.rectangle({nan, 0, 10, 10}, Ink::black), LayoutFault);
  CHECK_THROWS_AS(pen.rectangle({95, 0, 10, 10}, Ink::black), LayoutFault);
  CHECK_THROWS_AS(pen.text({90, 50}, {10, Face::regular}, "too long for the page"), LayoutFault);
  CHECK_THROWS_AS(pen.text({10, std::numeric_limits<double>::infinity()}, {10, Face::regular}, "x"),
                  LayoutFault);
  CHECK(page.marks.empty());
}

TEST_CASE("lines break between words, never between a number and its unit") {
  const Type type{5, Face::regular};
  const std::string text = "Never more than 1.5 mL for each 10 L of water in the vessel";
  for (double width = 22; width < 120; width += 1) {
    const auto lines = wrapped(testing::fonts(), text, type, width);
    std::string joined;
    for (const std::string& line : lines) {
      CHECK(width_of(testing::fonts(), line, type) <= width);
      CHECK_FALSE(line.starts_with("mL"));
      CHECK_FALSE(line.starts_with("L "));
      joined += (joined.empty() ? "" : " ") + line;
    }
    if (!lines.empty()) CHECK(joined == text);
  }
  CHECK(wrapped(testing::fonts(), "unbreakable", type, 5).empty());
  // Nor between a step of a list and its number.
  for (double width = 22; width < 60; width += 1) {
    for (const std::string& line :
         wrapped(testing::fonts(), "1. Fill up. 2. Stir it. 3. Give some.", type, width))
      CHECK_FALSE((line.ends_with("1.") || line.ends_with("2.") || line.ends_with("3.")));
  }
}

TEST_CASE("no line ends in a not, and a new line stays one") {
  const Type type{5, Face::regular};
  for (const char* text : {"into a jug that holds it all; not into the bottle",
                           "en una jarra en la que quepa todo; no en el frasco",
                           "dans un pichet assez grand pour le tout ; pas dans le flacon",
                           "Pulver ins Wasser, nie Wasser auf das Pulver"}) {
    for (double width = 30; width < 120; width += 1) {
      for (const std::string& line : wrapped(testing::fonts(), text, type, width)) {
        INFO(line);
        const std::string last = line.substr(line.rfind(' ') + 1);
        CHECK_FALSE((last == "not" || last == "no" || last == "pas" || last == "nie"));
      }
    }
  }
  const auto two = wrapped(testing::fonts(), "No ingerir.\nNot for drinking.", type, 100);
  CHECK(two == std::vector<std::string>{"No ingerir.", "Not for drinking."});
}

// CLP Annex I, Table 1.3 and Regulation (EU) 2024/2865: x-height 1.2 mm up to 0.5 L, 1.4 to 3
// L, 1.8 to 50 L; pictograms 10 mm up to 3 L, 23 mm to 50 L.
TEST_CASE("hazard text keeps the lawful size whatever the label") {
  const double x_height = testing::fonts().metrics(Face::regular).x_height;
  const struct {
    const char* holds;
    double floor;
  } cases[] = {{"400 mL", 1.2}, {"1 L", 1.4}, {"20 L", 1.8}, {"120 L", 2.0}};
  for (const auto& [holds, floor] : cases) {
    std::string text = testing::base_room();
    text.replace(text.find("holds: 1 L"), 10, "holds: " + std::string(holds));
    const LabelContent content = label_of(text);
    for (const double width : {110.0, 150.0, 210.0}) {
      const auto pages =
          lay_out_label(content, roll(width, width * 0.75), label_style(), testing::fonts());
      if (std::holds_alternative<LayoutProblem>(pages)) continue;
      double smallest = 1000;
      for (const Mark& mark : std::get<Pages>(pages).pages.front().marks) {
        if (const auto* run = std::get_if<TextRun>(&mark))
          smallest = std::min(smallest, run->size * x_height);
      }
      INFO(holds << " on " << width);
      CHECK(smallest >= floor - 1e-6);
    }
  }
}

TEST_CASE("the smallest label that is named does hold everything, and a smaller one does not") {
  const LabelContent content = label_of(testing::base_room());
  const auto refused = lay_out_label(content, roll(60, 45), label_style(), testing::fonts());
  REQUIRE(std::holds_alternative<LayoutProblem>(refused));
  const std::string hint = std::get<LayoutProblem>(refused).hint;
  double width = 0;
  double height = 0;
  REQUIRE(std::sscanf(hint.c_str(),
                      "the smallest label of this shape that would do is %lf x %lf mm", &width,
                      &height) == 2);
  CHECK(std::holds_alternative<Pages>(
      lay_out_label(content, roll(width, height), label_style(), testing::fonts())));
  CHECK(std::holds_alternative<LayoutProblem>(
      lay_out_label(content, roll(width * 0.96, height * 0.96), label_style(), testing::fonts())));
}

TEST_CASE("no hazard word is dropped from a label of any size that is accepted") {
  const LabelContent content = label_of(testing::base_room());
  int accepted = 0;
  for (double width = 70; width <= 200; width += 13) {
    for (double height = 50; height <= 150; height += 13) {
      const auto pages =
          lay_out_label(content, roll(width, height), label_style(), testing::fonts());
      if (std::holds_alternative<LayoutProblem>(pages)) continue;
      ++accepted;
      std::string said;
      for (const Mark& mark : std::get<Pages>(pages).pages.front().marks) {
        if (const auto* run = std::get_if<TextRun>(&mark)) said += run->text + ' ';
      }
      for (const char* word :
           {"Warning", "Causes", "serious", "irritation.", "Wash", "hands", "thoroughly", "medical",
            "advice.", "drinking.", "children.", "0100.", "vet."}) {
        INFO(width << " x " << height << ": " << said);
        CHECK(said.find(word) != std::string::npos);
      }
    }
  }
  CHECK(accepted > 20);
}

// WCAG 2.2: contrast of 7:1 for text. The red frame of a pictogram is not text; 3:1 is asked of it.
TEST_CASE("inks stand out from the paper") {
  CHECK(contrast(Ink::black, Ink::white) == Approx(21));
  CHECK(contrast(Ink::black, Ink::tint) > 7);
  CHECK(contrast(Ink::black, Ink::fill) > 7);
  CHECK(contrast(Ink::red, Ink::white) > 4.5);
  CHECK(colour_of(Ink::tint).red >= 0.92);
}

TEST_CASE("each pictogram is drawn inside its square and differs from the others") {
  std::vector<testing::Picture> pictures;
  for (int i = 1; i <= 9; ++i) {
    Pages pages;
    pages.pages.push_back({40, 40, "", {}});
    Pen pen(pages.pages.back(), testing::fonts());
    draw_pictogram(pen, "GHS0" + std::to_string(i), {20, 20}, 20);
    pictures.push_back(drawn_by_proof(pages, 150));
    const auto pdf =
        std::get<std::string>(render_pdf(pages, {"Sign", "test", std::nullopt}, testing::fonts()));
    CHECK(testing::difference(drawn_by_reader(pdf, 150), pictures.back()) < 0.01);
  }
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) CHECK(testing::difference(pictures[i], pictures[j]) > 0.03);
  }
  Page page{40, 40, "", {}};
  Pen pen(page, testing::fonts());
  CHECK_THROWS_AS(draw_pictogram(pen, "GHS10", {20, 20}, 20), LayoutFault);
}

TEST_CASE("no two patterns of the strip look alike") {
  std::vector<testing::Picture> pictures;
  for (const CellPattern pattern :
       {CellPattern::blank, CellPattern::striped, CellPattern::dotted, CellPattern::solid}) {
    Pages pages;
    pages.pages.push_back({20, 60, "", {}});
    Pen pen(pages.pages.back(), testing::fonts());
    std::array<CellPattern, 8> cells{};
    cells.fill(pattern);
    draw_strip(pen, cells, 8, {5, 5, 6, 5}, false);
    pictures.push_back(drawn_by_proof(pages, 150));
  }
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) CHECK(testing::difference(pictures[i], pictures[j]) > 0.02);
  }
}

TEST_CASE("files are written whole or not at all") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "a.pdf", "old");
  std::filesystem::create_directory(folder / "b.pdf");
  const auto trouble =
      write_files(folder.path().string(), {{folder / "a.pdf", "new"}, {folder / "b.pdf", "new"}});
  REQUIRE(trouble);
  CHECK(trouble->find("in the way") != std::string::npos);
  CHECK(testing::read_file(folder / "a.pdf") == "old");
  CHECK_FALSE(
      write_files(folder.path().string(), {{folder / "a.pdf", "new"}, {folder / "c.pdf", "more"}}));
  CHECK(testing::read_file(folder / "a.pdf") == "new");
  CHECK(testing::read_file(folder / "c.pdf") == "more");
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
    files += entry.is_regular_file() ? 1 : 0;
  CHECK(files == 2);
}
