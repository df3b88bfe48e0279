// The dose scale: every figure stands where its value says, ticks and figures keep apart, a volume
// and its dose stand at one height. Positions are worked out here from the value and the rate.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>

#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/render/render.hpp"
#include "dosewright/units/print.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

ChartStyle chart_style() {
  Diagnostics problems;
  const auto text = read_text_file((testing::source_folder() / "templates/chart.yaml").string());
  const auto tree = read_tree(std::get<0>(text), problems);
  return *check_chart_style(*tree, problems);
}

PaperSize paper(double width, double height) {
  return {"paper", millimetres(width), millimetres(height)};
}

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

// Pages to look at are written where DOSEWRIGHT_LOOK points; without it nothing is written.
void show(const Pages& pages, const std::string& name, int dpi) {
  const char* folder = std::getenv("DOSEWRIGHT_LOOK");
  if (folder == nullptr) return;
  testing::write_file(std::string(folder) + '/' + name + ".png",
                      std::get<0>(render_png(pages, dpi, testing::fonts())).front());
}

Pages laid_out(const DoseScaleContent& content, const PaperSize& size) {
  const auto out = lay_out_dose_scale(content, size, chart_style(), testing::fonts());
  if (const auto* problem = std::get_if<LayoutProblem>(&out)) FAIL(problem->message);
  return std::get<Pages>(out);
}

}  // namespace

TEST_CASE("dose scales to look at") {
  show(laid_out(one_stock(), paper(210, 297)), "a4-one", 110);
  show(laid_out(several_stocks(3), paper(210, 297)), "a4-three", 110);
  show(laid_out(one_stock(), paper(148, 210)), "a5-one", 150);
  show(laid_out(several_stocks(2), paper(279.4, 215.9)), "letter-two", 110);
}
