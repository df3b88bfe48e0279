// Charts read from afar: figures by visual angle, and what is lost in grey.
#include "dosewright/layout/reading.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "dosewright/render/render.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

// WCAG 2.2, relative luminance and contrast ratio.
double luminance(const Rgb& colour) {
  const auto linear = [](double c) {
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(const Rgb& a, const Rgb& b) {
  const double one = luminance(a) + 0.05;
  const double other = luminance(b) + 0.05;
  return std::max(one, other) / std::min(one, other);
}

Rgb rgb(int red, int green, int blue) { return {red / 255.0, green / 255.0, blue / 255.0}; }

const std::vector<PaperSize>& papers() {
  static const std::vector<PaperSize> known = {
      {"A5", millimetres(148), millimetres(210)}, {"A5", millimetres(210), millimetres(148)},
      {"A4", millimetres(210), millimetres(297)}, {"A4", millimetres(297), millimetres(210)},
      {"A3", millimetres(297), millimetres(420)}, {"A3", millimetres(420), millimetres(297)}};
  return known;
}

ChartContent sample_chart(const std::string& id) {
  const auto read = testing::read_room(testing::read_file(testing::sample()));
  REQUIRE(read.room);
  static Room room;
  room = *read.room;
  const auto answers = answer_room(room, testing::hazard_sources());
  return chart_content(answers, *find(room.documents, id), ErrorShown::measuring);
}

}  // namespace

// h = 2 D tan(a / 2). 16 and 22 minutes: ISO 9241-3 and NUREG-0700; the heights were worked out
// from the formula by hand and agree with the tables of ASR A6 (D/155 is 22 minutes).
TEST_CASE("figure heights by visual angle") {
  const struct {
    double metres, least, aimed;
  } table[] = {{0.3, 1.40, 1.92}, {0.5, 2.33, 3.20}, {1, 4.65, 6.40},  {1.5, 6.98, 9.60},
               {2, 9.31, 12.80},  {3, 13.96, 19.20}, {5, 23.27, 32.00}};
  for (const auto& row : table) {
    const Length distance = millimetres(row.metres * 1000);
    CHECK(in_millimetres(figure_height(distance, kLeastArc)) == Approx(row.least).margin(0.006));
    CHECK(in_millimetres(figure_height(distance, kAimedArc)) == Approx(row.aimed).margin(0.006));
  }
  CHECK(in_millimetres(figure_height(millimetres(1000), 22)) ==
        Approx(1000.0 / 156.26).margin(0.01));
}

TEST_CASE("doses, columns, waters, code and date of a chart can be read from where it says") {
  int charts = 0;
  for (const char* id : {"sink-chart", "bench-chart", "rack-chart", "buffer-chart", "tub-chart"}) {
    const ChartContent content = sample_chart(id);
    for (const double metres : {0.7, 1.0, 1.5, 2.0, 2.5, 3.0}) {
      const Length distance = millimetres(metres * 1000);
      const auto out = lay_out_chart_to_read(content, distance, papers(), testing::chart_style(),
                                             testing::fonts());
      const auto* pages = std::get_if<Pages>(&out);
      if (pages == nullptr) continue;
      ++charts;
      const double least = in_millimetres(figure_height(distance, kLeastArc));
      std::vector<std::string> wanted;
      if (content.code) wanted.push_back(content.code->letters);
      if (!content.dated.empty()) wanted.push_back(content.dated);
      for (const ColumnContent& column : content.columns) {
        if (column.code) wanted.push_back(column.code->letters);
      }
      std::vector<std::string> figures;
      for (const RowContent& row : content.rows) {
        for (const CellContent& cell : row.cells) {
          figures.push_back(cell.dose.figure);
          figures.push_back(cell.dose.unit);
        }
        figures.push_back(content.row_caption == "tank" ? row.name : row.water.figure);
      }
      for (const Page& page : pages->pages) {
        std::vector<std::string> seen;
        std::string large;  // whatever is high enough
        for (const Mark& mark : page.marks) {
          const auto* run = std::get_if<TextRun>(&mark);
          if (run == nullptr) continue;
          const double height = run->size * testing::fonts().metrics(run->face).cap_height;
          const bool is_wanted = std::find(wanted.begin(), wanted.end(), run->text) != wanted.end();
          const bool is_figure =
              std::find(figures.begin(), figures.end(), run->text) != figures.end();
          if (is_wanted) seen.push_back(run->text);
          if (height >= least - 0.01) large += run->text + ' ';
          INFO(id << " from " << metres << " m: " << run->text);
          if (is_wanted || is_figure) CHECK(height >= least - 0.01);
        }
        for (const std::string& word : wanted) {
          INFO(id << " from " << metres << " m: " << word);
          CHECK(std::find(seen.begin(), seen.end(), word) != seen.end());
        }
        if (content.columns.size() == 1) continue;
        for (const ColumnContent& column : content.columns) {
          INFO(id << " from " << metres << " m: " << column.heading << " in " << large);
          CHECK(large.find(column.heading + ' ') != std::string::npos);
        }
      }
    }
  }
  CHECK(charts >= 20);
}

TEST_CASE("a chart takes the smallest paper that does, and says what would fit when none does") {
  const ChartContent content = sample_chart("sink-chart");
  double before = 0;
  for (const double metres : {0.5, 1.0, 2.0, 3.0}) {
    const auto out = lay_out_chart_to_read(content, millimetres(metres * 1000), papers(),
                                           testing::chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    const Pages& pages = std::get<Pages>(out);
    const double area = pages.pages.front().width * pages.pages.front().height *
                        static_cast<double>(pages.pages.size());
    CHECK(area >= before);
    before = area;
  }
  const std::vector<PaperSize> small = {papers()[0], papers()[1]};
  const auto refused = lay_out_chart_to_read(content, millimetres(8000), small,
                                             testing::chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<LayoutProblem>(refused));
  const auto& problem = std::get<LayoutProblem>(refused);
  CHECK(
      problem.message ==
      "to be read from 8 m its figures must be 37.2 mm high, and there is no room for that on A5");
  double from = 0;
  REQUIRE(std::sscanf(problem.hint.c_str(), "it could be read from %lf m", &from) == 1);
  CHECK(std::holds_alternative<Pages>(lay_out_chart_to_read(
      content, millimetres(from * 1000), small, testing::chart_style(), testing::fonts())));
}

// Check values of the formula: computed from WCAG 2.2 and listed by many; 4.54, 4.48 and 7.00 are
// the usual borderline greys.
TEST_CASE("words keep a contrast of 7 to 1, and grey alone says nothing") {
  CHECK(contrast(rgb(0, 0, 0), rgb(255, 255, 255)) == Approx(21));
  CHECK(contrast(rgb(0x76, 0x76, 0x76), rgb(255, 255, 255)) == Approx(4.5422).margin(0.0001));
  CHECK(contrast(rgb(0x59, 0x59, 0x59), rgb(255, 255, 255)) == Approx(7.0047).margin(0.0001));
  CHECK(contrast(rgb(255, 0, 0), rgb(255, 255, 255)) == Approx(3.9985).margin(0.0001));
  const Rgb black = colour_of(Ink::black);
  CHECK(contrast(black, colour_of(Ink::white)) >= 7);
  CHECK(contrast(black, colour_of(Ink::tint)) >= 7);
  CHECK(contrast(black, colour_of(Ink::fill)) >= 7);
  // Rows are tinted by at most 8 % ink; what fills a tool is far darker than they are.
  CHECK(colour_of(Ink::tint).red >= 0.92);
  CHECK(colour_of(Ink::fill).red < 0.75);
  // Printed in black the red of a frame is darker than mid grey, and to an eye without red cones
  // (the L cone's share of luminance taken away) it is darker still.
  CHECK(luminance(colour_of(Ink::red)) < 0.18);
  CHECK(contrast(colour_of(Ink::red), colour_of(Ink::white)) >= 4.5);
  Rgb without_red = colour_of(Ink::red);
  without_red.red *= 0.3;
  CHECK(contrast(without_red, colour_of(Ink::white)) >= 7);
}

TEST_CASE("every word is black") {
  for (const char* id : {"sink-chart", "bench-chart", "rack-chart"}) {
    const auto out = lay_out_chart(sample_chart(id), testing::paper(297, 420),
                                   testing::chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    for (const Page& page : std::get<Pages>(out).pages) {
      for (const Mark& mark : page.marks) {
        const auto* run = std::get_if<TextRun>(&mark);
        if (run != nullptr) CHECK(run->ink == Ink::black);
      }
    }
  }
}

namespace {

// The rightmost of those words: a dose stands right of a water of the same figure.
const TextRun* run_of(const Page& page, const std::string& words) {
  const TextRun* out = nullptr;
  for (const Mark& mark : page.marks) {
    const auto* run = std::get_if<TextRun>(&mark);
    if (run != nullptr && run->text == words && (out == nullptr || run->at.x > out->at.x))
      out = run;
  }
  return out;
}

double end_of(const TextRun& run) {
  return run.at.x + testing::fonts().width(run.text, run.face) * run.size;
}

}  // namespace

// "0.35 mL 1 mL syringe": what stands nearest is read together.
TEST_CASE("a unit stands nearer to its figure than to anything else") {
  for (const char* id : {"sink-chart", "tub-chart", "hospital-chart"}) {
    const ChartContent content = sample_chart(id);
    const PaperSize paper =
        id == std::string("tub-chart") ? testing::paper(148, 210) : testing::paper(210, 297);
    const auto out = lay_out_chart(content, paper, testing::chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    const Page& page = std::get<Pages>(out).pages.front();
    int seen = 0;
    for (const RowContent& row : content.rows) {
      const CellContent& cell = row.cells.front();
      const TextRun* dose = run_of(page, cell.dose.figure);
      const TextRun* how = run_of(page, cell.how);
      if (dose == nullptr || how == nullptr || dose->face != Face::bold) continue;
      for (const Mark& mark : page.marks) {
        const auto* unit = std::get_if<TextRun>(&mark);
        if (unit == nullptr || unit->text != cell.dose.unit || unit->at.y != dose->at.y) continue;
        INFO(id << ": " << cell.dose.figure);
        const double before = unit->at.x - end_of(*dose);
        CHECK(before > 0);
        CHECK(how->at.x - end_of(*unit) > 1.5 * before);
        ++seen;
      }
    }
    CHECK(seen >= 3);
  }
}

TEST_CASE("the numbers of steps hang out, and a tool's name stays on one line") {
  const ChartContent content = sample_chart("hospital-chart");
  const auto out =
      lay_out_chart(content, testing::paper(210, 297), testing::chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(out));
  const Page& page = std::get<Pages>(out).pages.front();
  int numbers = 0;
  double words = 0;
  for (const Mark& mark : page.marks) {
    const auto* run = std::get_if<TextRun>(&mark);
    if (run == nullptr) continue;
    CHECK(run->text.find("\xC2\xA0") == std::string::npos);
    CHECK_FALSE(run->text.ends_with("violet 10 mL"));
    if (run->text.starts_with("Fill the ")) words = run->at.x;
    if (run->text.size() == 2 && run->text.back() == '.') {
      ++numbers;
      CHECK((words == 0 || run->at.x < words));
    }
  }
  CHECK(numbers == 8);
  // Turned lines stand under the words, not under the numbers.
  int turned = 0;
  for (const Mark& mark : page.marks) {
    const auto* run = std::get_if<TextRun>(&mark);
    if (run == nullptr || !run->text.starts_with("dispose of the rest")) continue;
    CHECK(run->at.x == Approx(words).margin(0.01));
    ++turned;
  }
  CHECK(turned == 2);
}
