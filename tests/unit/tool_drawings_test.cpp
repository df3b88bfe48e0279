// Drawings of tools as display lists and as pictures: their outlines, their marks, their places.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "../../src/layout/tools.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/render/render.hpp"
#include "dosewright/units/print.hpp"
#include "helpers.hpp"

using namespace dosewright;
using testing::chart_style;
using testing::paper;

namespace {

constexpr double kRounding = 0.02;  // mm; the pen rounds to a hundredth of a point

const std::vector<Tool::Kind>& kinds() {
  static const std::vector<Tool::Kind> all = {Tool::Kind::syringe,
                                              Tool::Kind::transfer_pipette,
                                              Tool::Kind::graduated_pipette,
                                              Tool::Kind::piston_pipette,
                                              Tool::Kind::cylinder,
                                              Tool::Kind::cup,
                                              Tool::Kind::dropper,
                                              Tool::Kind::spoon,
                                              Tool::Kind::scale};
  return all;
}

// A tool marked from division `first` to `last`, filled to one of them.
ToolPicture picture(Tool::Kind kind, int first, int last, int filled, int count = 1) {
  ToolPicture out;
  out.kind = kind;
  out.count = count;
  out.fill = static_cast<double>(filled) / last;
  out.fill_text = std::to_string(filled) + (kind == Tool::Kind::dropper ? " drops" : " mL");
  for (int division = first; division <= last; ++division)
    out.marks.push_back({static_cast<double>(division) / last, division, std::to_string(division)});
  return out;
}

struct Drawing {
  Pages pages;
  Box box;
  [[nodiscard]] const std::vector<Mark>& marks() const { return pages.pages.front().marks; }
};

Drawing lying(const ToolPicture& tool, double width, double height) {
  Drawing out{{}, {5, 5, width, height}};
  out.pages.pages.push_back({width + 10, height + 10, "", {}});
  Pen pen(out.pages.pages.back(), testing::fonts());
  draw_tool_lying(pen, tool, out.box);
  return out;
}

Drawing upright(const ToolPicture& tool, double width, double height) {
  Drawing out{{}, {5, 5, width, height}};
  out.pages.pages.push_back({width + 10, height + 10, "", {}});
  Pen pen(out.pages.pages.back(), testing::fonts());
  draw_tool_upright(pen, tool, out.box, {3, Face::regular});
  return out;
}

// What a mark covers, letters by their cap height.
Box extent(const Mark& mark) {
  if (const auto* run = std::get_if<TextRun>(&mark)) {
    const double cap = testing::fonts().metrics(run->face).cap_height * run->size;
    return {run->at.x, run->at.y - cap, testing::fonts().width(run->text, run->face) * run->size,
            cap};
  }
  double left = 1e9;
  double right = -1e9;
  double top = 1e9;
  double bottom = -1e9;
  for (const PathStep& step : std::get<Shape>(mark).steps) {
    if (step.kind == PathStep::Kind::close) continue;
    left = std::min(left, step.to.x);
    right = std::max(right, step.to.x);
    top = std::min(top, step.to.y);
    bottom = std::max(bottom, step.to.y);
  }
  return {left, top, right - left, bottom - top};
}

// Single black bars of one thickness across a lying tool, from left to right.
std::vector<Box> bars(const std::vector<Mark>& marks, double thickness) {
  std::vector<Box> out;
  for (const Mark& mark : marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr || shape->ink != Ink::black || shape->steps.size() != 5) continue;
    const Box box = extent(mark);
    if (std::abs(box.width - thickness) < kRounding) out.push_back(box);
  }
  std::sort(out.begin(), out.end(), [](const Box& a, const Box& b) { return a.x < b.x; });
  return out;
}

// Thicknesses of lying tools, as tools.cpp draws them.
constexpr double kTickThickness = 0.18;
constexpr double kLineThickness = 0.7;

double middle(const Box& bar) { return bar.x + bar.width / 2; }

std::vector<TextRun> words(const Page& page) {
  std::vector<TextRun> out;
  for (const Mark& mark : page.marks) {
    if (const auto* run = std::get_if<TextRun>(&mark)) out.push_back(*run);
  }
  return out;
}

bool says(const std::vector<Mark>& marks, const std::string& text) {
  return std::any_of(marks.begin(), marks.end(), [&](const Mark& mark) {
    const auto* run = std::get_if<TextRun>(&mark);
    return run != nullptr && run->text == text;
  });
}

testing::Picture proof(const Pages& pages) {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "a.png",
                      std::get<0>(render_png(pages, 150, testing::fonts())).front());
  return testing::read_png(folder / "a.png");
}

ChartContent frame_words() {
  ChartContent out;
  out.title = "Buckets";
  out.subtitle = "Dechlorinator";
  out.code = CodeContent{"X4 9RF", {}};
  out.row_caption = "bucket";
  out.columns.resize(1);
  out.match = "Only when the bottle shows X4 9RF.";
  out.small = "Does not replace the safety data sheet, local rules or a vet.";
  out.foot = "above the sink";
  return out;
}

MeasurePanel panel(const std::string& water, const std::string& dose,
                   const std::vector<ToolPicture>& pictures) {
  MeasurePanel out;
  out.name = "grey bucket";
  out.water = {water, "L"};
  out.cell.dose = {dose, "mL"};
  out.cell.how = "50 mL cylinder to " + dose + " mL";
  out.cell.off_by = "off by at most 0.06 mL";
  out.cell.pictures = pictures;
  return out;
}

MeasuringCardContent card_of_every_kind() {
  MeasuringCardContent out;
  out.page = frame_words();
  for (const Tool::Kind kind : kinds()) {
    out.panels.push_back(panel("10", "7", {picture(kind, 1, 10, 7)}));
    out.panels.push_back(
        panel("300", "107.5", {picture(kind, 1, 10, 10, 2), picture(kind, 5, 50, 7)}));
  }
  return out;
}

bool overlap(const Box& a, const Box& b) {
  return a.x + kRounding < b.x + b.width && b.x + kRounding < a.x + a.width &&
         a.y + kRounding < b.y + b.height && b.y + kRounding < a.y + a.height;
}

}  // namespace

TEST_CASE("no two kinds of tools are drawn alike") {
  std::vector<testing::Picture> flat;
  std::vector<testing::Picture> tall;
  for (const Tool::Kind kind : kinds()) {
    flat.push_back(proof(lying(picture(kind, 1, 10, 7), 42, 5.5).pages));
    tall.push_back(proof(upright(picture(kind, 1, 10, 7), 40, 70).pages));
  }
  for (std::size_t i = 0; i < kinds().size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      INFO(i << " and " << j);
      CHECK(testing::difference(flat[i], flat[j]) > 0.03);
      CHECK(testing::difference(tall[i], tall[j]) > 0.03);
    }
  }
}

TEST_CASE("a tick stands at the fill, under the heavy line") {
  for (const Tool::Kind kind :
       {Tool::Kind::syringe, Tool::Kind::transfer_pipette, Tool::Kind::graduated_pipette,
        Tool::Kind::cylinder, Tool::Kind::cup}) {
    for (const int filled : {3, 37, 50, 100}) {
      const Drawing drawing = lying(picture(kind, 1, 100, filled), 42, 5.5);
      const auto line = bars(drawing.marks(), kLineThickness);
      REQUIRE(line.size() == 1);
      const auto ticks = bars(drawing.marks(), kTickThickness);
      CHECK(std::count_if(ticks.begin(), ticks.end(), [&](const Box& tick) {
              return std::abs(middle(tick) - middle(line[0])) < kRounding;
            }) == 1);
      CHECK(line[0].height > ticks[0].height);
    }
  }
}

TEST_CASE("long ticks stand at multiples of ten divisions, even where marks begin late") {
  constexpr int kFirst = 5;
  constexpr int kFilled = 23;
  const Drawing drawing = lying(picture(Tool::Kind::cylinder, kFirst, 50, kFilled), 78, 5.5);
  const auto ticks = bars(drawing.marks(), kTickThickness);
  REQUIRE(ticks.size() == 46);  // every mark has room
  std::map<int, double> heights;
  for (std::size_t i = 0; i < ticks.size(); ++i)
    heights[kFirst + static_cast<int>(i)] = ticks[i].height;
  for (const auto& [division, height] : heights) {
    if (division == kFilled) continue;
    INFO(division);
    const double like = division % 10 == 0  ? heights[10]
                        : division % 5 == 0 ? heights[5]
                                            : heights[6];
    CHECK(height == Approx(like).margin(kRounding));
  }
  CHECK(heights[10] > heights[5] * 1.2);
  CHECK(heights[5] > heights[6] * 1.2);
}

TEST_CASE("a tool without figures shows every mark or none but the fill") {
  int whole = 0;
  int bare = 0;
  for (const int last : {10, 20, 50, 100, 250, 500, 3000}) {
    for (const double width : {22.0, 42.0, 78.0}) {
      const int filled = last * 37 / 100;
      const Drawing drawing = lying(picture(Tool::Kind::syringe, 1, last, filled), width, 4);
      const double line = middle(bars(drawing.marks(), kLineThickness).at(0));
      const auto ticks = bars(drawing.marks(), kTickThickness);
      INFO(last << " marks on " << width << " mm: " << ticks.size());
      ticks.size() == 1 ? ++bare : ++whole;
      // The heavy line may hide its neighbours.
      if (ticks.size() > 1) CHECK(ticks.size() >= static_cast<std::size_t>(last) - 2);
      double before = -100;
      for (const Box& tick : ticks) {
        if (std::abs(middle(tick) - line) < kRounding) continue;
        CHECK(middle(tick) - before >= kMarkGap - kRounding);
        CHECK(std::abs(middle(tick) - line) >= 0.5);  // not run together with the heavy line
        before = middle(tick);
      }
    }
  }
  CHECK(whole >= 5);
  CHECK(bare >= 5);
}

TEST_CASE("marks at unequal distances are all long") {
  ToolPicture cup = picture(Tool::Kind::cup, 1, 12, 6);
  cup.even = false;
  cup.marks = {{1.0 / 12, 1, "2.5"}, {2.0 / 12, 2, "5"}, {6.0 / 12, 6, "15"}, {1, 12, "30"}};
  const Drawing drawing = lying(cup, 42, 5.5);
  const auto ticks = bars(drawing.marks(), kTickThickness);
  REQUIRE(ticks.size() == 4);
  for (const Box& tick : ticks) CHECK(tick.height > 1.5);
}

TEST_CASE("a lying tool stays in its box but for the heavy line") {
  for (const Tool::Kind kind : kinds()) {
    for (const double width : {22.0, 30.0, 42.0, 78.0}) {
      for (const double height : {3.5, 5.5}) {
        for (const int filled : {1, 7, 10}) {
          const Drawing drawing = lying(picture(kind, 1, 10, filled, 3), width, height);
          for (const Mark& mark : drawing.marks()) {
            const Box e = extent(mark);
            INFO(static_cast<int>(kind) << " in " << width << " x " << height << ": " << e.x << ' '
                                        << e.y << ' ' << e.width << ' ' << e.height);
            CHECK(e.x >= 5 - kRounding);
            CHECK(e.x + e.width <= 5 + width + kRounding);
            CHECK(e.y >= 5 - kLineStandsOut - kRounding);
            CHECK(e.y + e.height <= 5 + height + kLineStandsOut + kRounding);
          }
        }
      }
    }
  }
}

TEST_CASE("an upright tool stays in its box, its words apart from each other") {
  for (const Tool::Kind kind : kinds()) {
    for (const auto& [width, height] :
         std::vector<std::pair<double, double>>{{24, 45}, {25, 110}, {40, 80}, {84, 140}}) {
      for (const int last : {10, 200}) {
        const Drawing drawing = upright(picture(kind, 1, last, last * 7 / 10, 3), width, height);
        for (const Mark& mark : drawing.marks()) {
          const Box e = extent(mark);
          INFO(static_cast<int>(kind) << " in " << width << " x " << height << ": " << e.x << ' '
                                      << e.y << ' ' << e.width << ' ' << e.height);
          CHECK(e.x >= 5 - kRounding);
          CHECK(e.x + e.width <= 5 + width + kRounding);
          CHECK(e.y >= 5 - kRounding);
          CHECK(e.y + e.height <= 5 + height + kRounding);
        }
        const auto runs = words(drawing.pages.pages.front());
        for (std::size_t i = 0; i < runs.size(); ++i) {
          for (std::size_t j = 0; j < i; ++j) {
            INFO(runs[i].text << " and " << runs[j].text);
            CHECK_FALSE(overlap(extent(runs[i]), extent(runs[j])));
          }
        }
      }
    }
  }
}

TEST_CASE("a drawing says its fill where no marks can be read, and its count when upright") {
  for (const Tool::Kind kind : {Tool::Kind::piston_pipette, Tool::Kind::spoon, Tool::Kind::scale}) {
    CHECK(says(lying(picture(kind, 1, 10, 7), 42, 5.5).marks(), "7 mL"));
  }
  for (const Tool::Kind kind : kinds()) {
    CHECK(says(upright(picture(kind, 1, 10, 7, 3), 40, 80).marks(), "3 times"));
    CHECK_FALSE(says(upright(picture(kind, 1, 10, 7), 40, 80).marks(), "1 times"));
  }
  CHECK(says(upright(picture(Tool::Kind::syringe, 1, 10, 7), 60, 80).marks(), "7 mL"));
  CHECK(times_text(picture(Tool::Kind::syringe, 1, 10, 7)).empty());
}

TEST_CASE("drops are drawn one by one up to ten, then as a number") {
  const auto drops = [](int count) {
    const Drawing drawing = lying(picture(Tool::Kind::dropper, 1, 20, count), 60, 5.5);
    std::size_t out = 0;
    for (const Mark& mark : drawing.marks()) {
      const auto* shape = std::get_if<Shape>(&mark);
      if (shape != nullptr && shape->ink == Ink::black && shape->steps.size() == 6 &&
          shape->steps[1].kind == PathStep::Kind::curve)
        ++out;
    }
    return std::pair{out, says(drawing.marks(), std::to_string(count) + " drops")};
  };
  CHECK(drops(1) == std::pair<std::size_t, bool>{1, false});
  CHECK(drops(7) == std::pair<std::size_t, bool>{7, false});
  CHECK(drops(10) == std::pair<std::size_t, bool>{10, false});
  CHECK(drops(11) == std::pair<std::size_t, bool>{1, true});
}

TEST_CASE("a chart draws every fill of a dose, or each with its count") {
  const auto drawn = [](const std::vector<ToolPicture>& pictures) {
    ChartContent chart = frame_words();
    const MeasurePanel one = panel("10", "7", pictures);
    for (int i = 0; i < 4; ++i) chart.rows.push_back({one.name, one.water, {one.cell}});
    const auto pages = lay_out_chart(chart, paper(297, 210), chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(pages));
    const auto& marks = std::get<Pages>(pages).pages.front().marks;
    std::size_t counts = 0;
    for (const TextRun& run : words(std::get<Pages>(pages).pages.front()))
      counts += run.text.ends_with(" times") ? 1U : 0U;
    return std::pair{bars(marks, kLineThickness).size(), counts};
  };
  using Drawn = std::pair<std::size_t, std::size_t>;
  const ToolPicture full = picture(Tool::Kind::syringe, 1, 10, 10, 2);
  const ToolPicture rest = picture(Tool::Kind::syringe, 1, 10, 4);
  const ToolPicture many = picture(Tool::Kind::cylinder, 1, 10, 10, 12);
  CHECK(drawn({rest}) == Drawn{4, 0});
  CHECK(drawn({full, rest}) == Drawn{12, 0});
  CHECK(drawn({many, rest}) == Drawn{8, 4});
  CHECK(drawn({}) == Drawn{0, 0});
  CHECK(drawn(std::vector<ToolPicture>(9, rest)) == Drawn{0, 0});
}

TEST_CASE("the heavy line of a chart's tool keeps clear of the words") {
  ChartContent chart = frame_words();
  const MeasurePanel one = panel("10", "7", {picture(Tool::Kind::syringe, 1, 10, 7)});
  for (std::size_t rows = 1; rows <= 16; ++rows) {
    chart.rows.push_back({one.name, one.water, {one.cell}});
    const auto pages = lay_out_chart(chart, paper(210, 297), chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(pages));
    const Page& page = std::get<Pages>(pages).pages.front();
    for (const Box& line : bars(page.marks, kLineThickness)) {
      for (const TextRun& run : words(page)) {
        Box box = extent(run);
        const double descent = testing::fonts().metrics(run.face).descent * run.size;
        box.height += descent;
        INFO(rows << " rows: " << run.text);
        CHECK_FALSE(overlap(line, box));
        if (run.text.starts_with("off by") && box.x < line.x && box.x + 80 > line.x &&
            box.y > line.y && box.y < line.y + 15)
          CHECK(box.y - (line.y + line.height) >= 1 - kRounding);
      }
    }
  }
}

TEST_CASE("a card of seven panels shows each dose exactly once, dealt out evenly") {
  MeasuringCardContent card;
  card.page = frame_words();
  // None of them is a figure at a long tick.
  const std::vector<int> given = {21, 22, 23, 24, 26, 27, 28};
  for (const int dose : given) {
    card.panels.push_back(panel(std::to_string(dose + 100), std::to_string(dose),
                                {picture(Tool::Kind::cylinder, 5, 50, dose)}));
  }
  const auto laid = lay_out_measuring_card(card, paper(210, 297), chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(laid));
  const Pages& pages = std::get<Pages>(laid);
  REQUIRE(pages.pages.size() == 2);
  std::map<std::string, int> seen;
  std::vector<int> doses(2, 0);
  for (std::size_t p = 0; p < 2; ++p) {
    for (const TextRun& run : words(pages.pages[p])) {
      ++seen[run.text];
      if (run.text == "give") ++doses[p];
    }
  }
  for (const int dose : given) {
    CHECK(seen[std::to_string(dose)] == 1);
    CHECK(seen[std::to_string(dose) + " mL"] == 1);  // at the heavy line
    CHECK(seen[std::to_string(dose + 100)] == 1);
  }
  CHECK(doses == std::vector<int>{4, 3});
}

TEST_CASE("on a card of any paper no two words touch, and none is lost") {
  const MeasuringCardContent card = card_of_every_kind();
  for (const auto& [width, height] : std::vector<std::pair<double, double>>{
           {210, 297}, {297, 210}, {216, 279}, {148, 210}, {210, 148}, {297, 420}}) {
    const auto laid =
        lay_out_measuring_card(card, paper(width, height), chart_style(), testing::fonts());
    INFO(width << " x " << height);
    REQUIRE(std::holds_alternative<Pages>(laid));
    std::size_t given = 0;
    std::size_t then = 0;
    for (const Page& page : std::get<Pages>(laid).pages) {
      const auto runs = words(page);
      for (std::size_t i = 0; i < runs.size(); ++i) {
        given += runs[i].text == "give" ? 1U : 0U;
        then += runs[i].text == "then" ? 1U : 0U;
        for (std::size_t j = 0; j < i; ++j) {
          INFO(runs[i].text << " and " << runs[j].text);
          CHECK_FALSE(overlap(extent(runs[i]), extent(runs[j])));
        }
      }
    }
    CHECK(given == card.panels.size());
    CHECK(then == kinds().size());
  }
}

TEST_CASE("a card says why a dose can't be measured, and draws nothing for it") {
  MeasuringCardContent card;
  card.page = frame_words();
  MeasurePanel none = panel("10", "", {});
  none.cell.dose = {};
  none.cell.how = "less than any tool can measure";
  none.cell.off_by = "";
  card.panels = {none};
  const auto laid = lay_out_measuring_card(card, paper(210, 297), chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(laid));
  const auto& marks = std::get<Pages>(laid).pages.front().marks;
  CHECK(says(marks, "less than any tool can measure"));
  CHECK_FALSE(says(marks, "give"));
}

TEST_CASE("a card that does not fit is refused with what would do") {
  MeasuringCardContent card = card_of_every_kind();
  const auto small = lay_out_measuring_card(card, paper(105, 148), chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<LayoutProblem>(small));
  CHECK_FALSE(std::get<LayoutProblem>(small).hint.empty());
  card.panels.front().cell.pictures.assign(30, picture(Tool::Kind::syringe, 1, 10, 7));
  CHECK(std::holds_alternative<LayoutProblem>(
      lay_out_measuring_card(card, paper(210, 297), chart_style(), testing::fonts())));
}
