// The dose scale: every figure stands where its value says, ticks and figures keep apart, a volume
// and its dose stand at one height. Positions are worked out here from the value and the rate.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>

#include "../../src/layout/scale_ticks.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/units/print.hpp"
#include "helpers.hpp"

using namespace dosewright;
using testing::chart_style;
using testing::paper;

namespace {

// How a volume of water becomes a place on the scale.
struct Range {
  double from = 0;  // L
  double to = 100;
  bool logarithmic = false;

  [[nodiscard]] double at(double litres) const {
    if (logarithmic) return std::log(litres / from) / std::log(to / from);
    return (litres - from) / (to - from);
  }
};

// A tool read from `from` to `to` mL, with marks each `unit` * `every`; divisions count units.
struct Tool {
  std::string words;
  double unit = 0.1;
  long every = 1;
  double from = 0;
  double to = 0;
};

ScalePart part_of(const Tool& tool, double rate, const Range& range) {
  ScalePart out{range.at(tool.from / rate), range.at(tool.to / rate), tool.words, {}};
  const long first = std::lround(std::ceil(tool.from / tool.unit - 1e-9));
  for (long i = (first + tool.every - 1) / tool.every * tool.every;
       static_cast<double>(i) * tool.unit <= tool.to + 1e-9; i += tool.every) {
    const double value = static_cast<double>(i) * tool.unit;
    out.ticks.push_back({range.at(value / rate), i, figure(value, decimals_of(tool.unit))});
  }
  return out;
}

ScaleAxis dose_axis(const std::vector<Tool>& tools, double rate, const Range& range) {
  ScaleAxis out{"mL", {}};
  for (const Tool& tool : tools) out.parts.push_back(part_of(tool, rate, range));
  return out;
}

CodeContent code(const std::string& letters, int seed) {
  CodeContent out{letters, {}};
  for (std::size_t i = 0; i < 8; ++i)
    out.strip.at(i) = static_cast<CellPattern>((static_cast<int>(i * i) + seed) % 4);
  return out;
}

void fill_page(DoseScaleContent& content) {
  content.page.row_caption = "water";
  content.page.match =
      "Only when the bottle shows the code. Hold the bottle's strip against this one: cell for "
      "cell the same.";
  content.page.small =
      "Read straight across from the water to the dose. Between two marks, take the nearer one. "
      "Does not replace the safety data sheet, local rules or a vet.";
  content.page.foot = "Fish room, mixing bench · revision 1 of 2026-11-25";
}

const Range kLinear{0, 100, false};
const Range kLogarithmic{5, 500, true};

// 0 to 100 L at 0.07 mL per L: a 1 mL syringe by 0.01 mL, a 10 mL syringe by 0.2 mL.
DoseScaleContent one_stock() {
  DoseScaleContent out;
  fill_page(out);
  out.page.title = "Any volume";
  out.page.subtitle = "Dechlorinator · for new water";
  out.page.code = code("K7 4HM", 1);
  out.page.columns = {{"give", "", std::nullopt}};
  out.water = dose_axis({{"", 1, 1, 0, 100}}, 1, kLinear);
  out.water.unit = "L";
  out.doses = {
      dose_axis({{"1 mL syringe", 0.01, 1, 0, 1}, {"10 mL syringe", 0.1, 2, 1, 7}}, 0.07, kLinear)};
  return out;
}

constexpr double kRates[] = {0.07, 0.5, 6};

// 5 to 500 L at 0.07, 0.5 and 6 mL per L, of the first `stocks` of them.
DoseScaleContent several_stocks(std::size_t stocks) {
  const std::vector<std::vector<Tool>> tools = {{{"1 mL syringe", 0.01, 1, 0.35, 1},
                                                 {"3 mL syringe", 0.1, 1, 1, 3},
                                                 {"10 mL syringe", 0.1, 2, 3, 10},
                                                 {"50 mL syringe", 1, 1, 10, 35}},
                                                {{"3 mL syringe", 0.1, 1, 2.5, 3},
                                                 {"10 mL syringe", 0.1, 2, 3, 10},
                                                 {"50 mL syringe", 1, 1, 10, 50},
                                                 {"250 mL cylinder", 1, 2, 50, 250}},
                                                {{"50 mL syringe", 1, 1, 40, 50},
                                                 {"250 mL cylinder", 1, 2, 50, 250},
                                                 {"1 L cylinder", 10, 1, 250, 1000}}};
  const std::vector<ColumnContent> heads = {
      {"Dechlorinator", "for new water; at up to 1 mg per L chlorine", code("K7 4HM", 1)},
      {"Buffer", "for new water; raises alkalinity by 1 dKH", code("PC A3Y", 3)},
      {"Salt bath", "for all the water in the vessel, watched all the time", code("9E N4N", 2)}};
  DoseScaleContent out;
  fill_page(out);
  out.page.title = "Any volume at the bench";
  out.water = dose_axis({{"", 1, 1, 5, 500}}, 1, kLogarithmic);
  out.water.unit = "L";
  for (std::size_t i = 0; i < stocks; ++i) {
    out.page.columns.push_back(heads[i]);
    out.doses.push_back(dose_axis(tools[i], kRates[i], kLogarithmic));
  }
  return out;
}

Pages laid_out(const DoseScaleContent& content, const PaperSize& size) {
  const auto out = lay_out_dose_scale(content, size, chart_style(), testing::fonts());
  if (const auto* problem = std::get_if<LayoutProblem>(&out)) FAIL(problem->message);
  return std::get<Pages>(out);
}

// A rectangle on the page, mm.
struct Area {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return bottom - top; }
  [[nodiscard]] double middle() const { return (top + bottom) / 2; }
};

bool meet(const Area& a, const Area& b, double clear) {
  return a.left < b.right + clear && b.left < a.right + clear && a.top < b.bottom + clear &&
         b.top < a.bottom + clear;
}

Area area_of(const Shape& shape) {
  Area out{1e9, 1e9, -1e9, -1e9};
  for (const PathStep& step : shape.steps) {
    if (step.kind == PathStep::Kind::close) continue;
    out = {std::min(out.left, step.to.x), std::min(out.top, step.to.y),
           std::max(out.right, step.to.x), std::max(out.bottom, step.to.y)};
  }
  return out;
}

// Figures have neither ascenders nor descenders: their height is that of capitals.
Area area_of(const TextRun& run) {
  const double width = testing::fonts().width(run.text, run.face) * run.size;
  const double height = testing::fonts().metrics(run.face).cap_height * run.size;
  return {run.at.x, run.at.y - height, run.at.x + width, run.at.y};
}

struct Figure {
  double value = 0;
  Area area;
};

// What was drawn of one scale, from the display list alone.
struct DrawnScale {
  Area line;
  std::vector<Area> water_ticks;
  std::vector<Area> dose_ticks;
  std::vector<Figure> water;
  std::vector<Figure> dose;
};

std::optional<double> number_of(std::string text) {
  std::erase(text, ',');
  if (text.empty() || text.find_first_not_of("0123456789.") != std::string::npos) return {};
  return std::stod(text);
}

bool is_near(double a, double b, double within) { return std::abs(a - b) <= within; }

// The heavy line is the only black mark that is narrow and longer than the strip of cells.
std::vector<DrawnScale> lines_of(const Page& page) {
  std::vector<DrawnScale> out;
  for (const Mark& mark : page.marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr) continue;
    const Area area = area_of(*shape);
    if (is_near(area.width(), 0.7, 0.02) && area.height() > 50)
      out.push_back({area, {}, {}, {}, {}});
  }
  return out;
}

void add_ticks(const Page& page, DrawnScale& scale) {
  for (const Mark& mark : page.marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr) continue;
    const Area area = area_of(*shape);
    if (area.height() > 0.6 || area.width() > 12) continue;
    if (is_near(area.right, scale.line.left, 0.02)) scale.water_ticks.push_back(area);
    if (is_near(area.left, scale.line.right, 0.02)) scale.dose_ticks.push_back(area);
  }
}

void add_figures(const Page& page, DrawnScale& scale) {
  for (const Mark& mark : page.marks) {
    const auto* run = std::get_if<TextRun>(&mark);
    const auto value = run == nullptr ? std::nullopt : number_of(run->text);
    if (!value) continue;
    const Area area = area_of(*run);
    if (area.right < scale.line.left && area.right > scale.line.left - 12)
      scale.water.push_back({*value, area});
    if (area.left > scale.line.right && area.left < scale.line.right + 24)
      scale.dose.push_back({*value, area});
  }
}

std::vector<DrawnScale> scales_of(const Page& page) {
  std::vector<DrawnScale> out = lines_of(page);
  for (DrawnScale& scale : out) {
    add_ticks(page, scale);
    add_figures(page, scale);
  }
  return out;
}

double longest(const std::vector<Area>& ticks) {
  double out = 0;
  for (const Area& tick : ticks) out = std::max(out, tick.width());
  return out;
}

// Each figure stands where its value says and beside one of the longest ticks.
void check_places(const std::vector<Figure>& figures, const std::vector<Area>& ticks, double rate,
                  const Range& range, const Area& line) {
  // The line reaches past both ends of the scale by half a tick.
  const double start = line.top + 0.225;
  const double length = line.height() - 0.45;
  for (const Figure& drawn : figures) {
    INFO("figure " << drawn.value << " at rate " << rate);
    const double expected = start + range.at(drawn.value / rate) * length;
    CHECK(is_near(drawn.area.middle(), expected, 0.1));
    CHECK(std::any_of(ticks.begin(), ticks.end(), [&](const Area& tick) {
      return is_near(tick.middle(), drawn.area.middle(), 0.02) &&
             is_near(tick.width(), longest(ticks), 0.02);
    }));
  }
}

void check_apart(std::vector<Area> ticks) {
  std::sort(ticks.begin(), ticks.end(),
            [](const Area& a, const Area& b) { return a.middle() < b.middle(); });
  for (std::size_t i = 1; i < ticks.size(); ++i)
    CHECK(ticks[i].middle() - ticks[i - 1].middle() >= 1.0);
}

// No words touch other words or a mark. Returns what does.
std::string touching(const Page& page) {
  std::vector<std::pair<Area, std::string>> words;
  std::vector<Area> marks;
  for (const Mark& mark : page.marks) {
    if (const auto* run = std::get_if<TextRun>(&mark)) words.emplace_back(area_of(*run), run->text);
    if (const auto* shape = std::get_if<Shape>(&mark)) marks.push_back(area_of(*shape));
  }
  for (std::size_t i = 0; i < words.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (meet(words[i].first, words[j].first, 0.3))
        return words[i].second + " touches " + words[j].second;
    }
    for (const Area& mark : marks) {
      if (meet(words[i].first, mark, 0.3)) return words[i].second + " touches a mark";
    }
  }
  return "";
}

// The strip's frame is drawn round its cells, half outside the margin.
bool inside_margins(const Page& page) {
  constexpr double kMargin = 12 - 0.25;
  return std::all_of(page.marks.begin(), page.marks.end(), [&](const Mark& mark) {
    const auto* run = std::get_if<TextRun>(&mark);
    const Area area = run != nullptr ? area_of(*run) : area_of(std::get<Shape>(mark));
    return area.left >= kMargin && area.top >= kMargin && area.right <= page.width - kMargin &&
           area.bottom <= page.height - kMargin;
  });
}

// How many volumes have a figure whose dose has one, too; these must stand at one height.
int check_heights(const DrawnScale& scale, double rate) {
  int pairs = 0;
  for (const Figure& water : scale.water) {
    for (const Figure& dose : scale.dose) {
      if (!is_near(dose.value, rate * water.value, 1e-9)) continue;
      INFO(water.value << " L, " << dose.value << " mL");
      CHECK(is_near(water.area.middle(), dose.area.middle(), 0.02));
      ++pairs;
    }
  }
  return pairs;
}

// Returns how many pairs of equal height were found.
int check_scale(const DrawnScale& scale, double rate, const Range& range) {
  CHECK(scale.water.size() >= 5);
  CHECK(scale.dose.size() >= 5);
  check_places(scale.water, scale.water_ticks, 1, range, scale.line);
  check_places(scale.dose, scale.dose_ticks, rate, range, scale.line);
  check_apart(scale.water_ticks);
  check_apart(scale.dose_ticks);
  return check_heights(scale, rate);
}

const PaperSize kA4 = paper(210, 297);
const PaperSize kA4Landscape = paper(297, 210);
const PaperSize kA5 = paper(148, 210);
const PaperSize kLetterLandscape = paper(279.4, 215.9);

// A part of an axis with equal steps, as long as the whole scale.
ScaleAxis even_axis(long divisions) {
  ScaleAxis out{"mL", {{0, 1, "", {}}}};
  for (long i = 0; i <= divisions; ++i) {
    const double at = static_cast<double>(i) / static_cast<double>(divisions);
    out.parts.front().ticks.push_back({at, i, std::to_string(i)});
  }
  return out;
}

}  // namespace

TEST_CASE("a volume and its dose stand at one height, all figures where their values say") {
  for (const PaperSize& size : {kA4, kA5, kA4Landscape, kLetterLandscape}) {
    INFO("paper " << in_millimetres(size.width) << " mm wide");
    const Pages pages = laid_out(one_stock(), size);
    REQUIRE(pages.pages.size() == 1);
    const auto scales = scales_of(pages.pages.front());
    REQUIRE(scales.size() == 1);
    CHECK(check_scale(scales.front(), 0.07, kLinear) >= 2);
    CHECK_THAT(touching(pages.pages.front()), Catch::Equals(""));
    CHECK(inside_margins(pages.pages.front()));
  }
}

TEST_CASE("scales of several stocks stand side by side, each true") {
  for (const PaperSize& size : {kA4, kA4Landscape, kLetterLandscape}) {
    INFO("paper " << in_millimetres(size.width) << " mm wide");
    const Pages pages = laid_out(several_stocks(3), size);
    REQUIRE(pages.pages.size() == 1);
    const auto scales = scales_of(pages.pages.front());
    REQUIRE(scales.size() == 3);
    int pairs = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      pairs += check_scale(scales[i], kRates[i], kLogarithmic);
      // One ruler laid across the page meets the same volume on every scale.
      CHECK(scales[i].line.top == Approx(scales.front().line.top));
      CHECK(scales[i].line.bottom == Approx(scales.front().line.bottom));
    }
    CHECK(pairs >= 5);
    CHECK_THAT(touching(pages.pages.front()), Catch::Equals(""));
    CHECK(inside_margins(pages.pages.front()));
  }
}

TEST_CASE("the paper names every tool once and says where there is none") {
  const Pages pages = laid_out(several_stocks(3), kA4);
  std::string said;
  for (const Mark& mark : pages.pages.front().marks) {
    if (const auto* run = std::get_if<TextRun>(&mark)) said += run->text + ' ';
  }
  // The salt bath's first mark is 40 mL, for 6.7 L; its last 1,000 mL, for 167 of 500 L.
  const std::size_t first = said.find("no tool ");
  REQUIRE(first != std::string::npos);
  CHECK(said.find("no tool ", first + 1) != std::string::npos);
  for (const char* tool : {"1 mL syringe", "3 mL syringe", "250 mL cylinder", "1 L cylinder"})
    CHECK(said.find(tool) != std::string::npos);
}

TEST_CASE("paper too small for a scale is refused with what would do") {
  const struct {
    DoseScaleContent content;
    PaperSize size;
  } cases[] = {{one_stock(), paper(105, 148)},
               {one_stock(), paper(210, 105)},
               {several_stocks(3), paper(148, 210)},
               {several_stocks(3), paper(60, 60)}};
  for (const auto& [content, size] : cases) {
    const auto out = lay_out_dose_scale(content, size, chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<LayoutProblem>(out));
    CHECK(std::get<LayoutProblem>(out).message.find("is too small for") != std::string::npos);
    CHECK(std::get<LayoutProblem>(out).hint.find("larger paper") != std::string::npos);
  }
}

TEST_CASE("a range too narrow for two marks is refused, whatever the paper") {
  DoseScaleContent content = one_stock();
  content.doses = {dose_axis({{"10 mL syringe", 0.1, 2, 3, 3.1}}, 0.07, kLinear)};
  const auto out = lay_out_dose_scale(content, kA4, chart_style(), testing::fonts());
  REQUIRE(std::holds_alternative<LayoutProblem>(out));
  CHECK(std::get<LayoutProblem>(out).hint.find("wider range") != std::string::npos);
}

TEST_CASE("a scale is refused or drawn whole on paper of any size") {
  int accepted = 0;
  for (double width = 60; width <= 420; width += 24) {
    for (double height = 60; height <= 420; height += 24) {
      for (const auto& content : {one_stock(), several_stocks(2), several_stocks(3)}) {
        const auto out =
            lay_out_dose_scale(content, paper(width, height), chart_style(), testing::fonts());
        if (std::holds_alternative<LayoutProblem>(out)) continue;
        INFO(width << " x " << height << " mm, " << content.doses.size());
        CHECK_THAT(touching(std::get<Pages>(out).pages.front()), Catch::Equals(""));
        CHECK(inside_margins(std::get<Pages>(out).pages.front()));
        ++accepted;
      }
    }
  }
  CHECK(accepted > 100);
}

TEST_CASE("ticks are thinned by 1, 2 or 5 times ten, and none moves") {
  for (const long divisions : {10L, 70L, 100L, 250L, 700L, 1000L, 5000L}) {
    const ScaleAxis axis = even_axis(divisions);
    const TickSpacing spacing{200, 1.1, 5};
    const auto kept = kept_ticks(axis, spacing);
    REQUIRE(kept.size() > 5);
    const long step = std::lround(kept[1].at * static_cast<double>(divisions));
    CHECK(std::string("125").find(std::to_string(step).front()) != std::string::npos);
    for (std::size_t i = 0; i < kept.size(); ++i) {
      const auto division = static_cast<std::size_t>(step) * i;
      CHECK(kept[i].at == axis.parts.front().ticks[division].at);
      if (!kept[i].figure.empty()) CHECK(kept[i].figure == std::to_string(division));
    }
    // The smallest step that will do: half of it would bring the ticks too near.
    CHECK(static_cast<double>(step) * 200 / static_cast<double>(divisions) >= 1.1);
    if (step > 1) CHECK(static_cast<double>(step) / 2 * 200 / static_cast<double>(divisions) < 1.1);
  }
}

TEST_CASE("ticks and figures keep apart on a logarithmic axis of any length and range") {
  for (const double to : {20.0, 500.0, 30000.0}) {
    const Range range{2, to, true};
    const ScaleAxis axis = dose_axis({{"", 1, 1, 2, to}}, 1, range);
    for (double length = 10; length < 300; length += 7) {
      INFO("2 to " << to << " on " << length << " mm");
      const auto kept = kept_ticks(axis, {length, 1.1, 5});
      REQUIRE(!kept.empty());
      double last_tick = -10;
      double last_figure = -10;
      for (const KeptTick& tick : kept) {
        CHECK((tick.at - last_tick) * length >= 1.1 - 1e-6);
        last_tick = tick.at;
        if (tick.rank != TickRank::figured) continue;
        CHECK((tick.at - last_figure) * length >= 5 - 1e-6);
        last_figure = tick.at;
      }
    }
  }
}

TEST_CASE("no tick is left whose worth two figures do not show") {
  // 2.5 to 3 mL by 0.1 mL within 4.5 mm: both ends are figured or what lies between is left out.
  const Range range{5, 500, true};
  for (double length = 60; length < 400; length += 10) {
    const ScaleAxis axis = dose_axis({{"3 mL syringe", 0.1, 1, 2.5, 3}}, 0.5, range);
    const auto kept = kept_ticks(axis, {length, 1.1, 4.3});
    const auto figured = std::count_if(kept.begin(), kept.end(), [](const KeptTick& tick) {
      return tick.rank == TickRank::figured;
    });
    INFO("length " << length << ": " << figured << " of " << kept.size());
    CHECK((figured >= 2 || kept.size() == static_cast<std::size_t>(figured)));
  }
}

// A reader takes the next tick there is: what thinning leaves out must not push a dose beyond its
// tolerance. 1.2 to 2 mL by 0.2 mL, each next mark at most 18 % above the one before.
TEST_CASE("ticks that the tolerance needs are never thinned away") {
  ScaleAxis axis;
  axis.unit = "mL";
  ScalePart part;
  part.words = "5 mL syringe";
  const auto at = [](double dose) { return std::log(dose / 0.5) / std::log(40.0); };
  for (int i = 6; i <= 25; ++i)
    part.ticks.push_back({at(0.2 * i), 2L * i, std::to_string(0.2 * i), at(0.2 * i * 1.18)});
  part.from = part.ticks.front().at;
  part.to = part.ticks.back().at;
  axis.parts.push_back(part);
  for (double length = 60; length < 400; length += 10) {
    const auto kept = kept_ticks(axis, {length, 1.1, 6});
    INFO("length " << length);
    REQUIRE(kept.size() >= 2);
    for (std::size_t i = 1; i < kept.size(); ++i) {
      const double ratio = std::exp((kept[i].at - kept[i - 1].at) * std::log(40.0));
      CHECK(ratio <= 1.18 + 1e-9);
    }
  }
}
