// Labels of every design, form and size: nothing overlaps, nothing leaves its label, nothing is
// lost.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "dosewright/base/text.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

LabelStyle design(const std::string& name) {
  Diagnostics problems;
  const auto text =
      read_text_file((testing::source_folder() / ("templates/labels/" + name + ".yaml")).string());
  const auto tree = read_tree(std::get<0>(text), problems);
  const auto style = check_label_style(*tree, problems);
  REQUIRE(style);
  return *style;
}

const std::vector<std::string> kDesigns = {"stacked", "beside", "two-sided", "around"};

// The base room with a container and a label of one's own.
LabelRequest request_of(const std::string& container, const std::string& label, Room& room) {
  std::string text = testing::base_room();
  const std::size_t holds = text.find("holds: 1 L");
  REQUIRE(holds != std::string::npos);
  text.replace(holds, 10, container);
  const std::size_t sheet = text.find("    sheet:");
  REQUIRE(sheet != std::string::npos);
  text.replace(sheet, text.find('\n', sheet) - sheet, "    " + label);
  auto read = testing::read_room(text);
  INFO(text);
  for (const Diagnostic& problem : read.problems) INFO(format(problem));
  REQUIRE(read.room);
  room = std::move(*read.room);
  return room.documents.front().label;
}

struct Extent {
  double left, top, right, bottom;
  bool text;
  std::string what;
};

// What a mark takes up: of words the space from capitals to descenders.
Extent extent_of(const Mark& mark) {
  if (const auto* run = std::get_if<TextRun>(&mark)) {
    const FaceMetrics metrics = testing::fonts().metrics(run->face);
    return {run->at.x,
            run->at.y - metrics.cap_height * run->size,
            run->at.x + testing::fonts().width(run->text, run->face) * run->size,
            run->at.y + metrics.descent * run->size * 0.8,
            true,
            run->text};
  }
  Extent out{1e9, 1e9, -1e9, -1e9, false, "an outline"};
  for (const PathStep& step : std::get<Shape>(mark).steps) {
    if (step.kind == PathStep::Kind::close) continue;
    out.left = std::min(out.left, step.to.x);
    out.right = std::max(out.right, step.to.x);
    out.top = std::min(out.top, step.to.y);
    out.bottom = std::max(out.bottom, step.to.y);
  }
  return out;
}

bool overlap(const Extent& a, const Extent& b) {
  constexpr double kSlack = 0.05;
  return a.left < b.right - kSlack && b.left < a.right - kSlack && a.top < b.bottom - kSlack &&
         b.top < a.bottom - kSlack;
}

// Words on words or on an outline; the first such pair.
std::string first_overlap(const Page& page) {
  std::vector<Extent> all;
  for (const Mark& mark : page.marks) all.push_back(extent_of(mark));
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if ((all[i].text || all[j].text) && overlap(all[i], all[j]))
        return all[i].what + " / " + all[j].what;
    }
  }
  return "";
}

std::string words_of(const Page& page) {
  std::string out;
  for (const Mark& mark : page.marks) {
    if (const auto* run = std::get_if<TextRun>(&mark)) out += run->text + ' ';
  }
  return testing::with_keyboard_quotes(out);
}

LabelSheet roll(double width, double height, LabelForm form = LabelForm::panel, double around = 0) {
  LabelSheet sheet;
  sheet.label_width = millimetres(width);
  sheet.label_height = millimetres(height);
  sheet.paper = {"roll", sheet.label_width, sheet.label_height};
  sheet.pitch_x = sheet.label_width;
  sheet.pitch_y = sheet.label_height;
  sheet.form = form;
  sheet.around = millimetres(around);
  return sheet;
}

LabelContent content_of(const std::string& container, const std::string& more = "") {
  Room room;
  const LabelRequest request =
      request_of(container, "sheet: {paper: roll, label: 200 x 150 mm}" + more, room);
  const auto answers = answer_room(room, testing::hazard_sources());
  return label_content(answers, request, ErrorShown::measuring);
}

bool all_words_are_there(const LabelContent& content, const std::string& words) {
  const std::string all = [&] {
    std::string out = content.precautions + ' ' + content.safety;
    for (const std::string& line : content.hazard_lines) out += ' ' + line;
    for (const std::string& line : content.warning_lines) out += ' ' + line;
    return out;
  }();
  for (const std::string& word : split(all, ' ')) {
    if (words.find(word) == std::string::npos) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("on labels of any design, form and size nothing overlaps, leaves or gets lost") {
  unsigned seed = 7;
  const auto next = [&](int below) {
    seed = seed * 1103515245U + 12345U;
    return static_cast<double>((seed >> 8) % static_cast<unsigned>(below));
  };
  int accepted = 0;
  for (const char* holds : {"holds: 40 mL", "holds: 1 L", "holds: 20 L", "holds: 120 L"}) {
    LabelContent content = content_of(holds);
    for (int round = 0; round < 2; ++round) {
      if (round == 1) content.square = content.name + "\ncode " + content.code.letters;
      for (const std::string& name : kDesigns) {
        const LabelStyle style = design(name);
        for (int i = 0; i < 12; ++i) {
          const auto form = static_cast<LabelForm>(i % 4);
          const double around = form == LabelForm::flag ? 30 + next(60) : 0;
          const LabelSheet sheet = roll(60 + next(260) + around, 40 + next(170), form, around);
          const auto out = lay_out_label(content, sheet, style, testing::fonts());
          const auto* pages = std::get_if<Pages>(&out);
          if (pages == nullptr) continue;
          ++accepted;
          std::string words;
          for (const Page& page : pages->pages) {
            INFO(name << ' ' << holds << " form " << i % 4 << ' ' << page.width << " x "
                      << page.height);
            CHECK(first_overlap(page).empty());
            for (const Mark& mark : page.marks) {
              const Extent box = extent_of(mark);
              // On the end that goes under the other stands that it does.
              if (box.what == "goes" || box.what == "under") continue;
              const bool words_inside = box.left > 1.5 && box.top > 1.5 &&
                                        box.right < page.width - 1.5 &&
                                        box.bottom < page.height - 1.5;
              if (box.text && !words_inside) CHECK(box.what.empty());
              // What goes round the tube, or under the overlap, carries no words.
              const double middle = page.width / 2;
              const bool round_tube = form == LabelForm::flag &&
                                      box.right > middle - around / 2 + 1e-6 &&
                                      box.left < middle + around / 2 - 1e-6;
              const bool under = form == LabelForm::wrap && box.right > page.width - 8;
              if (box.text && (round_tube || under)) CHECK(box.what.empty());
            }
            words += words_of(page);
          }
          CHECK((all_words_are_there(content, words) || content.may_be_shortened));
        }
      }
    }
  }
  CHECK(accepted > 150);
}

TEST_CASE("what finds no room on the front goes onto the back whole, and the front says so") {
  const LabelContent content = content_of("holds: 1 L");
  const LabelStyle style = design("two-sided");
  const auto roomy = lay_out_label(content, roll(150, 120), style, testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(roomy));
  CHECK(std::get<Pages>(roomy).pages.size() == 1);
  CHECK(words_of(std::get<Pages>(roomy).pages[0]).find("stands on the label") == std::string::npos);
  // The smallest label that takes it on two, found by trying.
  for (double width = 60;; width += 2) {
    const auto out = lay_out_label(content, roll(width, width * 0.7), style, testing::fonts());
    const auto* pages = std::get_if<Pages>(&out);
    if (pages == nullptr) continue;
    REQUIRE(pages->pages.size() == 2);
    const std::string front = words_of(pages->pages[0]);
    const std::string back = words_of(pages->pages[1]);
    CHECK(all_words_are_there(content, back));
    CHECK(front.find(content.dose) != std::string::npos);
    CHECK(front.find(content.signal) != std::string::npos);
    CHECK(front.find("at the back.") != std::string::npos);
    for (const std::string& face : {front, back}) {
      CHECK(face.find(content.code.letters) != std::string::npos);
      CHECK(face.find(content.name) != std::string::npos);
    }
    // In one column it would have been refused.
    CHECK(std::holds_alternative<LayoutProblem>(
        lay_out_label(content, roll(width, width * 0.7), design("stacked"), testing::fonts())));
    break;
  }
}

TEST_CASE("a label takes its size from the container") {
  Room room;
  const double girth = 3.14159265358979 * 88;
  const auto wrap =
      request_of("holds: 1 L\n    across: 88 mm\n    straight: 132 mm", "form: wrap", room);
  CHECK(in_millimetres(wrap.sheet.label_width) == Approx(girth + 8));
  CHECK(in_millimetres(wrap.sheet.label_height) == Approx(128));
  CHECK(wrap.sheet.cut_marks);
  // A third of the girth is seen without turning the bottle.
  const auto panel =
      request_of("holds: 1 L\n    around: 270 mm\n    straight: 132 mm", "by: me", room);
  CHECK(in_millimetres(panel.sheet.label_width) == Approx(90));
  const auto flat = request_of("holds: 5 L\n    flat: 130 x 190 mm", "by: me", room);
  CHECK(in_millimetres(flat.sheet.label_width) == Approx(120));
  CHECK(in_millimetres(flat.sheet.label_height) == Approx(180));
  const auto flag =
      request_of("holds: 40 mL\n    around: 80 mm\n    straight: 60 mm", "form: flag", room);
  CHECK(in_millimetres(flag.sheet.label_width) == Approx(2 * 74 + 80));
  CHECK(in_millimetres(flag.sheet.around) == Approx(80));
}

TEST_CASE("a proposed label lies on plain paper, with marks outside it to cut by") {
  Room room;
  const LabelRequest request =
      request_of("holds: 1 L\n    across: 88 mm\n    straight: 100 mm", "form: wrap", room);
  const auto answers = answer_room(room, testing::hazard_sources());
  const auto content = label_content(answers, request, ErrorShown::measuring);
  const auto out = lay_out_label(content, request.sheet, design("around"), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(out));
  const Page& page = std::get<Pages>(out).pages.front();
  // 284.5 mm find room on A4 lying only.
  CHECK(page.width == Approx(297));
  CHECK(page.height == Approx(210));
  const double width = in_millimetres(request.sheet.label_width);
  const double height = in_millimetres(request.sheet.label_height);
  const double left = (297 - width) / 2;
  int ticks = 0;
  for (const Mark& mark : page.marks) {
    const Extent box = extent_of(mark);
    if (box.text) {
      CHECK(box.left > left);
      CHECK(box.right < left + width);
      continue;
    }
    const bool outside = box.right < left - 0.9 || box.left > left + width + 0.9;
    const bool upright =
        std::abs(box.right - box.left - 0.15) < 0.01 && std::abs(box.bottom - box.top - 3) < 0.01;
    if (outside || upright) ++ticks;
  }
  CHECK(ticks == 8);
  CHECK(height < 200);
}

TEST_CASE("words keep clear of round corners, which are drawn on plain paper") {
  Room room;
  const LabelRequest request =
      request_of("holds: 1 L\n    across: 88 mm\n    straight: 130 mm", "form: panel", room);
  const auto answers = answer_room(room, testing::hazard_sources());
  const auto content = label_content(answers, request, ErrorShown::measuring);
  for (const double radius : {0.0, 3.0, 8.0, 15.0}) {
    LabelSheet sheet = roll(150, 120);
    sheet.round_corners = millimetres(radius);
    for (const char* name : {"beside", "stacked"}) {
      const auto out = lay_out_label(content, sheet, design(name), testing::fonts());
      INFO(name << ", corners of " << radius << " mm");
      REQUIRE(std::holds_alternative<Pages>(out));
      for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
        const Extent box = extent_of(mark);
        for (const double x : {box.left, box.right}) {
          for (const double y : {box.top, box.bottom}) {
            const double in_x = std::max({radius - x, x - (150 - radius), 0.0});
            const double in_y = std::max({radius - y, y - (120 - radius), 0.0});
            INFO(box.what << " at " << x << ", " << y);
            if (in_x > 0 && in_y > 0) CHECK(std::hypot(in_x, in_y) < radius - 0.8);
          }
        }
      }
    }
  }
  LabelSheet plain = request.sheet;
  plain.round_corners = millimetres(6);
  const auto out = lay_out_label(content, plain, design("stacked"), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(out));
  int arcs = 0;
  for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
    const Extent box = extent_of(mark);
    if (!box.text && std::abs(box.right - box.left - 6) < 0.02 &&
        std::abs(box.bottom - box.top - 6) < 0.02)
      ++arcs;
  }
  CHECK(arcs % 4 == 0);
  CHECK(arcs >= 4);
}

TEST_CASE("a tag keeps its hole free and folds in the middle") {
  const LabelContent content = content_of("holds: 1 L");
  const auto out =
      lay_out_label(content, roll(240, 95, LabelForm::tag), design("two-sided"), testing::fonts());
  REQUIRE(std::holds_alternative<Pages>(out));
  const Page& page = std::get<Pages>(out).pages.front();
  int rings = 0;
  for (const Mark& mark : page.marks) {
    const Extent box = extent_of(mark);
    const bool ring = !box.text && std::abs(box.right - box.left - 5) < 0.05 && box.top > 3 &&
                      std::abs(box.bottom - box.top - 5) < 0.05;
    rings += ring ? 1 : 0;
    // Nothing but the holes in the upper centimetre; nothing across the fold but its ticks.
    if (box.text) {
      CHECK(box.top > 10);
      CHECK((box.right < 120 || box.left > 120));
    }
  }
  CHECK(rings == 2);
}

TEST_CASE("words on a cap stay inside its circle") {
  for (const double across : {26.0, 34.0, 52.0}) {
    const LabelContent content = content_of("holds: 1 L");
    const auto out = lay_out_label(content, roll(across, across, LabelForm::dot), design("stacked"),
                                   testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    const Page& page = std::get<Pages>(out).pages.front();
    for (const Mark& mark : page.marks) {
      const Extent box = extent_of(mark);
      for (const double x : {box.left, box.right}) {
        for (const double y : {box.top, box.bottom})
          CHECK(std::hypot(x - across / 2, y - across / 2) < across / 2 - 1);
      }
    }
    const std::string words = words_of(page);
    CHECK(words.find(content.code.letters) != std::string::npos);
    CHECK(words.find(content.signal) != std::string::npos);
    CHECK(words.find("see the label") != std::string::npos);
  }
  const auto refused = lay_out_label(content_of("holds: 1 L"), roll(9, 9, LabelForm::dot),
                                     design("stacked"), testing::fonts());
  REQUIRE(std::holds_alternative<LayoutProblem>(refused));
  CHECK(std::get<LayoutProblem>(refused).message.find("a cap of 9 mm is too small") == 0);
}

// Rank is made by size: the name and the dose over the code, the code over the dates, the dates
// over the small print.
TEST_CASE("ranks are kept on every label") {
  const LabelContent content = content_of("holds: 1 L");
  for (const std::string& name : kDesigns) {
    const auto out = lay_out_label(content, roll(240, 120), design(name), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    double name_size = 0;
    double dose = 0;
    double code = 0;
    double value = 0;
    double small = 1e9;
    for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
      const auto* run = std::get_if<TextRun>(&mark);
      if (run == nullptr) continue;
      if (run->text == content.name) name_size = run->size;
      if (run->text == content.dose) dose = run->size;
      if (run->text == content.code.letters) code = run->size;
      if (run->text == content.fields.back().value) value = run->size;
      small = std::min(small, run->size);
    }
    INFO(name);
    CHECK(name_size > code * 1.3);
    CHECK(dose > code * 1.3);
    CHECK(code > value * 1.3);
    CHECK(value >= small);
  }
}

TEST_CASE("a region takes the width that lets the type be largest, within its limits") {
  LabelStyle style = design("beside");
  const LabelContent content = content_of("holds: 1 L");
  const auto smallest_type = [&](const LabelStyle& with) {
    const auto out = lay_out_label(content, roll(170, 70), with, testing::fonts());
    double small = 1e9;
    for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
      if (const auto* run = std::get_if<TextRun>(&mark)) small = std::min(small, run->size);
    }
    return small;
  };
  const double free = smallest_type(style);
  double best_fixed = 0;
  for (double left = 0.36; left < 0.565; left += 0.05) {
    LabelStyle fixed = style;
    fixed.front[0].narrowest = fixed.front[0].widest = share(left);
    fixed.front[1].narrowest = fixed.front[1].widest = share(1 - left);
    best_fixed = std::max(best_fixed, smallest_type(fixed));
  }
  CHECK(free >= best_fixed * 0.97);
}

// CLP Annex I, Table 1.3: pictograms of 16 mm if possible. It is possible where any sharing of the
// label has room for them.
TEST_CASE("pictograms are as large as the law wishes where any sharing of a label has the room") {
  const LabelContent content = content_of("holds: 1 L");
  const auto sign = [&](const LabelStyle& style, double width, double height) {
    const auto out = lay_out_label(content, roll(width, height), style, testing::fonts());
    double widest = 0;
    if (!std::holds_alternative<Pages>(out)) return widest;
    for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
      const auto* shape = std::get_if<Shape>(&mark);
      if (shape == nullptr || shape->ink != Ink::red) continue;
      const Extent box = extent_of(mark);
      widest = std::max(widest, (box.right - box.left) / std::sqrt(2.0));
    }
    return widest;
  };
  const LabelStyle free = design("beside");
  int possible = 0;
  for (const double width : {120, 130, 140, 150, 160}) {
    for (const double height : {52, 56, 60, 66, 72}) {
      const double chosen = sign(free, width, height);
      for (double left = 0.36; left < 0.565; left += 0.05) {
        LabelStyle fixed = free;
        fixed.front[0].narrowest = fixed.front[0].widest = share(left);
        fixed.front[1].narrowest = fixed.front[1].widest = share(1 - left);
        if (sign(fixed, width, height) < 16) continue;
        INFO(width << " x " << height << ", left " << left);
        CHECK(chosen >= 16);
        ++possible;
      }
    }
  }
  CHECK(possible > 0);
}

// The same table. Statements on a line each read better, and give way where the law's wish hangs on
// it; many pictograms stand in rows.
TEST_CASE("many pictograms find room for the law's wish in rows and by statements that run on") {
  LabelContent content = content_of("holds: 2 L");
  content.pictograms = {"GHS03", "GHS05", "GHS07", "GHS08", "GHS09"};
  content.hazard_lines = {"May intensify fire; oxidiser.", "Harmful if swallowed.",
                          "Causes severe skin burns and eye damage.",
                          "Suspected of damaging the unborn child.",
                          "Very toxic to aquatic life with long lasting effects."};
  std::size_t in_rows = 0;
  std::size_t run_on = 0;
  for (double width = 90; width <= 150; width += 5) {
    for (double height = 80; height <= 130; height += 5) {
      const auto out =
          lay_out_label(content, roll(width, height), design("stacked"), testing::fonts());
      if (!std::holds_alternative<Pages>(out)) continue;
      double widest = 0;
      std::set<long> levels;
      bool together = false;
      for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
        if (const auto* run = std::get_if<TextRun>(&mark))
          together = together || run->text.find("oxidiser. Harmful") != std::string::npos;
        const auto* shape = std::get_if<Shape>(&mark);
        if (shape == nullptr || shape->ink != Ink::red) continue;
        const Extent box = extent_of(mark);
        widest = std::max(widest, (box.right - box.left) / std::sqrt(2.0));
        levels.insert(std::lround(box.top * 10));
      }
      INFO(width << " x " << height);
      if (together) CHECK(widest >= 16);
      run_on += together ? 1U : 0U;
      in_rows += levels.size() > 1 && levels.size() < 5 ? 1U : 0U;
    }
  }
  CHECK(run_on > 0);
  CHECK(in_rows > 0);
}

// CLP Article 29 (2) and Annex I, 1.5.1: statements may be left off a small package only where a
// tag cannot carry them either; Table 1.3: pictograms of 16 mm if possible, which it is where the
// label may be as large as it likes.
TEST_CASE("a tag or flag of free size carries everything, with pictograms as the law wishes them") {
  for (const char* form : {"form: tag", "form: flag"}) {
    Room room;
    const LabelRequest request =
        request_of("holds: 60 mL\n    around: 80 mm\n    straight: 60 mm", form, room);
    const auto answers = answer_room(room, testing::hazard_sources());
    LabelContent content = label_content(answers, request, ErrorShown::measuring);
    // As a calculated one: it may be shortened when there is no room.
    content.may_be_shortened = true;
    content.short_precautions = "";
    content.short_words = "left off";
    LabelSheet sheet = request.sheet;
    sheet.paper = {"roll", sheet.label_width, sheet.label_height};
    const auto out = lay_out_label(content, sheet, design("two-sided"), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    std::string words;
    double widest = 0;
    for (const Page& page : std::get<Pages>(out).pages) {
      words += words_of(page);
      for (const Mark& mark : page.marks) {
        const auto* shape = std::get_if<Shape>(&mark);
        if (shape == nullptr || shape->ink != Ink::red) continue;
        const Extent box = extent_of(mark);
        widest = std::max(widest, box.right - box.left);
      }
    }
    INFO(form << ": " << words);
    CHECK(all_words_are_there(content, words));
    CHECK(words.find("left off") == std::string::npos);
    // It stands on a point: 16.1 mm of side are 22.8 mm across.
    CHECK(widest > 16 * 1.414);
  }
}

TEST_CASE(
    "a wrap that does not reach round is refused, and what may be corrosive is never shortened") {
  std::string text = testing::base_room();
  text.replace(text.find("holds: 1 L"), 10, "holds: 1 L\n    around: 251 mm");
  const std::size_t sheet = text.find("    sheet: {paper: roll, label: 120 x 90 mm}");
  text.replace(sheet, text.find('\n', sheet) - sheet,
               "    form: wrap\n    sheet: {paper: roll, label: 240 x 90 mm}");
  const auto read = testing::read_room(text);
  CHECK_FALSE(read.room);
  REQUIRE(read.problems.size() == 1);
  CHECK(read.problems.front().message == "a wrap that does not reach round a container of 251 mm");
  CHECK(read.problems.front().hint == "make it 259 mm wide, or take form: panel");

  // CLP Annex I, 1.5.2.1 frees small packages of Eye Irrit. 2, not of Skin Corr. 1.
  Room room;
  std::string soda =
      "room: {name: R, measures: metric}\nproducts:\n  soda: {name: sodium carbonate, cas: "
      "497-19-8}\nstocks:\n  s:\n    name: Soda\n    recipe: {soda: 120 g}\n    water to: 1 L\n"
      "    dose: {give: 1 mL per 10 L, for: new water}\n    container: b\n"
      "containers:\n  b: {holds: 50 mL}\ntools:\n  y: {kind: syringe, holds: 10 mL, marks: every "
      "0.5 mL}\ndocuments:\n  l: {type: label, stock: s, sheet: {paper: roll, label: 120 x 90 "
      "mm}}\n";
  const auto open = testing::read_room(soda);
  REQUIRE(open.room);
  const auto answers = answer_room(*open.room, testing::hazard_sources());
  const LabelRequest& request = open.room->documents.front().label;
  CHECK_FALSE(label_content(answers, request, ErrorShown::measuring).may_be_shortened);
  soda.replace(soda.find("    container: b\n"), 17, "    container: b\n    hazards: {ph: 11.3}\n");
  const auto known = testing::read_room(soda);
  REQUIRE(known.room);
  const auto again = answer_room(*known.room, testing::hazard_sources());
  CHECK(label_content(again, known.room->documents.front().label, ErrorShown::measuring)
            .may_be_shortened);
}

// A wrap has room for the square code on the side that is seen last.
TEST_CASE("a square code stands where the design wants it, once") {
  LabelContent content = content_of("holds: 200 mL");
  content.square = content.name + "\ncode " + content.code.letters;
  content.square_caption = "for a phone";
  for (const std::string& name : {std::string("around"), std::string("stacked")}) {
    const auto out = lay_out_label(content, roll(200, 70), design(name), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    double name_x = -1;
    std::vector<Extent> squares;
    for (const Mark& mark : std::get<Pages>(out).pages.front().marks) {
      const auto* run = std::get_if<TextRun>(&mark);
      if (run != nullptr && run->text == content.name) name_x = run->at.x;
      // All its dark runs are one outline of very many corners.
      const auto* shape = std::get_if<Shape>(&mark);
      if (shape != nullptr && shape->steps.size() > 500) squares.push_back(extent_of(mark));
    }
    INFO(name);
    REQUIRE(squares.size() == 1);
    CHECK(squares[0].right - squares[0].left ==
          Approx(squares[0].bottom - squares[0].top).margin(0.01));
    if (name == "around")
      CHECK(squares[0].right < name_x);
    else
      CHECK(squares[0].left > name_x);
  }
}
