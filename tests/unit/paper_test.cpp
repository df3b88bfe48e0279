// Pages that are measured with a ruler or filled in with a pen.
#include <catch2/catch.hpp>
#include <random>

#include "dosewright/layout/documents.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

struct Made {
  std::unique_ptr<Room> room;
  RoomAnswer answers;
};

Made made(const std::string& documents) {
  auto read = testing::read_room(
      "room: {name: R, measures: metric}\nproducts: {salt: {name: sodium chloride}}\nstocks:\n  s: "
      "{name: S, recipe: {salt: 100 g}, 'water to': 1 L, dose: {give: 1 mL per 10 L}}\n"
      "documents:\n" +
      documents);
  for (const auto& problem : read.problems) UNSCOPED_INFO(format(problem));
  REQUIRE(read.room);
  Made out{std::make_unique<Room>(std::move(*read.room)), {}};
  out.answers = answer_room(*out.room, testing::hazard_sources());
  return out;
}

struct Extent {
  double left = 1e9;
  double top = 1e9;
  double right = -1e9;
  double bottom = -1e9;
};

Extent extent_of(const Shape& shape) {
  Extent out;
  for (const PathStep& step : shape.steps) {
    if (step.kind == PathStep::Kind::close) continue;
    out.left = std::min(out.left, step.to.x);
    out.right = std::max(out.right, step.to.x);
    out.top = std::min(out.top, step.to.y);
    out.bottom = std::max(out.bottom, step.to.y);
  }
  return out;
}

std::vector<Extent> shapes_of(const Page& page) {
  std::vector<Extent> out;
  for (const Mark& mark : page.marks) {
    if (const auto* shape = std::get_if<Shape>(&mark)) out.push_back(extent_of(*shape));
  }
  return out;
}

const Pages& good(const std::variant<Pages, LayoutProblem>& laid) {
  if (const auto* problem = std::get_if<LayoutProblem>(&laid)) FAIL(problem->message);
  return std::get<Pages>(laid);
}

}  // namespace

TEST_CASE("dosing log: its lines are high enough to write on, and there are as many pages") {
  const Made room = made("  log: {type: dosing log, stock: s, pages: 3}\n");
  const auto content = dosing_log_content(room.answers, room.room->documents.front());
  CHECK(content.page.code->letters == room.answers.stocks.front().code.letters);
  for (const auto& [width, height] : {std::pair(148.0, 210.0), std::pair(210.0, 297.0),
                                      std::pair(297.0, 210.0), std::pair(297.0, 420.0)}) {
    const auto laid = lay_out_dosing_log(content, testing::paper(width, height),
                                         testing::chart_style(), testing::fonts());
    const Pages& pages = good(laid);
    REQUIRE(pages.pages.size() == 3);
    // Light rules that begin at the left margin, one below the other.
    std::vector<double> lines;
    double left = 1e9;
    for (const Extent& one : shapes_of(pages.pages.front())) {
      if (one.bottom - one.top < 0.3 && one.right - one.left > 12) left = std::min(left, one.left);
    }
    for (const Extent& one : shapes_of(pages.pages.front())) {
      if (one.bottom - one.top < 0.25 && one.right - one.left > 12 && one.left < left + 0.01)
        lines.push_back(one.top);
    }
    INFO(width << " x " << height);
    REQUIRE(lines.size() >= 6);
    std::sort(lines.begin(), lines.end());
    // The last one is the bar at the foot.
    for (std::size_t i = 1; i + 1 < lines.size(); ++i) {
      CHECK(lines[i] - lines[i - 1] >= 8.45);
      CHECK(lines[i] - lines[i - 1] <= 11.05);
    }
  }
  const auto small = lay_out_dosing_log(content, testing::paper(148, 105), testing::chart_style(),
                                        testing::fonts());
  CHECK(std::holds_alternative<LayoutProblem>(small));
}

TEST_CASE("printer check: every millimetre stands where it should") {
  const Made room = made("  check: {type: printer check}\n");
  const auto content = printer_check_content(room.answers, room.room->documents.front());
  const auto laid = lay_out_printer_check(content, testing::paper(210, 297), testing::fonts());
  const Page& page = good(laid).pages.front();
  int across = 0;
  int down = 0;
  for (const Extent& one : shapes_of(page)) {
    const bool tick_across =
        std::abs(one.top - 19) < 0.01 && one.right - one.left < 0.13 && one.bottom - one.top < 6;
    const bool tick_down =
        std::abs(one.left - 10) < 0.01 && one.bottom - one.top < 0.13 && one.right - one.left < 6;
    if (tick_across) {
      CHECK((one.left + one.right) / 2 == Approx(10 + across).margin(0.01));
      ++across;
    }
    if (tick_down) {
      CHECK((one.top + one.bottom) / 2 == Approx(33 + down).margin(0.01));
      ++down;
    }
  }
  CHECK(across == 151);
  CHECK(down == 201);
  CHECK(std::holds_alternative<LayoutProblem>(
      lay_out_printer_check(content, testing::paper(148, 210), testing::fonts())));
}

TEST_CASE("printer: what is drawn comes out where it was meant, whatever the printer does") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> off(-3, 3);
  std::uniform_real_distribution<double> scale(0.96, 1.04);
  std::uniform_real_distribution<double> somewhere(20, 180);
  for (int round = 0; round < 100; ++round) {
    const double offset_x = off(random);
    const double offset_y = off(random);
    const double scale_x = scale(random);
    const double scale_y = scale(random);
    // What such a printer makes of the check page: the cross at 10 mm, rulers of 150 and 200 mm.
    const PrinterError error{millimetres(offset_x + scale_x * 10),
                             millimetres(offset_y + scale_y * 10), millimetres(scale_x * 150),
                             millimetres(scale_y * 200)};
    const Point wanted{somewhere(random), somewhere(random)};
    Pages pages;
    pages.pages.push_back(Page{210, 297, "", {TextRun{wanted, 3, Face::regular, Ink::black, "x"}}});
    const auto laid = corrected(pages, error);
    const auto& run = std::get<TextRun>(good(laid).pages.front().marks.front());
    CHECK(offset_x + scale_x * run.at.x == Approx(wanted.x));
    CHECK(offset_y + scale_y * run.at.y == Approx(wanted.y));
    CHECK(run.size * std::sqrt(scale_x * scale_y) == Approx(3));
  }
  Pages edge;
  edge.pages.push_back(Page{210, 297, "", {TextRun{{0.5, 5}, 3, Face::regular, Ink::black, "x"}}});
  CHECK(std::holds_alternative<LayoutProblem>(corrected(
      edge, PrinterError{millimetres(13), millimetres(10), millimetres(150), millimetres(200)})));
}
