// Every measured dose on a page, read back from the PDF as a person reads it and worked out anew by
// hand: none of the program's arithmetic is used.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <regex>

#include "dosewright/base/text.hpp"
#include "helpers.hpp"

namespace {

constexpr double kUsGallon = 3.785411784;  // L, 231 cubic inches (NIST Handbook 44, Appendix C)

// A stock's rule as the sample states it, in mL (or g) per litre of water.
struct Rule {
  double per_litre = 0;
  double tolerance = 0.1;
  bool never_under = false;
  bool never_over = false;
  double at_most = 1e9;
};

// 1.4 mL per 20 L.
const Rule kDechlorinator{1.4 / 20, 0.15, true, false, 3.0 / 20};
// 30 mg/L from 60 g/L: V c = (V + v) c_target.
const Rule kBuffer{1000 * 0.030 / (60 - 0.030)};
const Rule kSaltBath{1000 * 3.0 / (250 - 3), 0.1, false, false, 15};
const Rule kPermanganate{1000 * 0.002 / (40 - 0.002), 0.2, false, true, 0.08};
const Rule kDescaler{5, 0.1, false, false, 10};
const Rule kMagnesium{5.0 / 100, 0.1, false, false, 8.0 / 100};

struct Chart {
  std::string name;
  std::vector<Rule> columns;    // one, or one for each column
  std::vector<double> changes;  // tank charts
  std::string unit = "mL";
};

const std::vector<Chart>& charts() {
  static const std::vector<Chart> all = {
      {"sink-chart", {kDechlorinator}, {}},
      {"bench-chart", {kDechlorinator, kBuffer, kSaltBath, kDescaler}, {}},
      {"rack-chart", {kDechlorinator}, {0.1, 0.25, 0.5}},
      {"buffer-chart", {kBuffer}, {0.1, 0.25, 0.5}},
      {"permanganate-chart", {kPermanganate}, {1}},
      {"hospital-chart", {kPermanganate}, {}},
      {"tub-chart", {kMagnesium}, {}, "g"},
      {"sink-card", {kDechlorinator}, {}},
  };
  return all;
}

std::string page_text(const std::string& name) {
  static const testing::TemporaryFolder folder;
  static const bool once = [] {
    return testing::program("print '" + testing::sample() + "' --to '" + folder.path().string() +
                            "'")
               .status == 0;
  }();
  REQUIRE(once);
  const std::string raw =
      testing::shell("pdftotext -raw '" + (folder / (name + ".pdf")) + "' -").out;
  // The foot of each page speaks of doses too; the rows end where it begins.
  std::string rows;
  for (const std::string& page : dosewright::split(raw, '\f'))
    rows += page.substr(0, page.find("Only when the bottle")) + '\n';
  // Where words take several lines the error stands among them, behind a comma.
  rows = std::regex_replace(rows, std::regex(",\\s+off by at most"), " off by at most");
  return std::regex_replace(rows, std::regex("\\s+"), " ");
}

double number(std::string text) {
  std::erase(text, ',');
  return std::stod(text);
}

// What a tool holds when it is "full": its name in the sample says so.
double capacity(const std::string& tool) {
  std::smatch found;
  REQUIRE(std::regex_search(tool, found, std::regex(R"((\d+) mL)")));
  return number(found[1]);
}

// "10 mL syringe to 10 mL, 2 times, then 3 mL more": the sum of what is poured.
double poured(const std::string& how) {
  double sum = 0;
  std::string tool;
  std::string rest = how;
  static const std::regex step(
      R"(^(?:(.*?(?:syringe|cylinder|scale:)) )?(?:to ([\d.,]+) mL|([\d.,]+) g|([\d.,]+) mL more|full)(?:, (\d+) times)?(?:, then )?)");
  std::smatch found;
  while (!rest.empty() && std::regex_search(rest, found, step)) {
    if (found[1].matched) tool = found[1];
    const double fill = found[2].matched   ? number(found[2])
                        : found[3].matched ? number(found[3])
                        : found[4].matched ? number(found[4])
                                           : capacity(tool);
    sum += fill * (found[5].matched ? number(found[5]) : 1);
    rest = found.suffix();
    if (found.length() == 0) break;
  }
  INFO(how << ": not understood: " << rest);
  CHECK(rest.find_first_not_of(' ') == std::string::npos);
  return sum;
}

// One dose as the page states it.
struct Stated {
  double water = 0;  // L, of the whole row
  std::size_t column = 0;
  double dose = 0;
  double off_by = 0;
  bool diluted = false;
};

// "1. Fill the violet 10 mL syringe to 5 mL with … 2. Fill up with water to 500 mL … 4. Give 5 mL
// of the mixture": the stock in it.
double diluted(const std::string& words) {
  static const std::regex pattern(
      R"(1\. Fill the .*? to ([\d.]+) mL with .*? 2\. Fill up with water to ([\d.,]+) mL.*? 4\. Give ([\d.]+) mL of the mixture)");
  std::smatch found;
  REQUIRE(std::regex_search(words, found, pattern));
  return number(found[1]) * number(found[3]) / number(found[2]);
}

class PageReader {
 public:
  explicit PageReader(const Chart& chart) : chart_(chart), text_(page_text(chart.name)) {}

  std::vector<Stated> read() {
    const std::regex cell("([\\d.,]+) " + chart_.unit +
                          " ((?!off by).*?) off by at most ([\\d.]+) " + chart_.unit);
    const std::regex dilution("dilute first (.*?) off by at most ([\\d.]+) mL");
    std::vector<Stated> out;
    std::smatch found;
    std::smatch dilute;
    std::string rest = text_;
    while (true) {
      const bool has_dilution = std::regex_search(rest, dilute, dilution);
      const bool has_cell = std::regex_search(rest, found, cell);
      if (!has_cell && !has_dilution) break;
      const bool first = has_dilution && (!has_cell || dilute.position() <= found.position());
      const std::smatch& match = first ? dilute : found;
      start(match.prefix());
      if (first) {
        out.push_back({water_, column_, diluted(match[1]), number(match[2]), true});
      } else {
        const double sum = poured(cleaned(match[2]));
        INFO(chart_.name << ": " << match.str());
        CHECK(sum == Approx(number(match[1])).epsilon(1e-9));
        out.push_back({water_, column_, number(match[1]), number(match[3]), false});
      }
      const std::string after = match.suffix();
      rest = after;
    }
    return out;
  }

 private:
  // A row's water stands before its first dose; a measuring card writes "give" between the two.
  void start(const std::string& before) {
    static const std::regex water(R"(([\d.,]+) (US gal|L)\b)");
    std::smatch found;
    std::string rest = before;
    bool any = false;
    while (std::regex_search(rest, found, water)) {
      water_ = number(found[1]) * (found[2] == "L" ? 1 : kUsGallon);
      any = true;
      const std::string after = found.suffix();
      rest = after;
    }
    column_ = any ? 0 : column_ + 1;
  }

  // On a card the drawings' own figures stand between the dose and the words that say how.
  static std::string cleaned(const std::string& how) {
    static const std::regex last(
        R"(.*?((?:violet )?\d+ mL (?:syringe|cylinder) .*|pocket scale .*))");
    std::smatch found;
    return std::regex_match(how, found, last) ? found[1].str() : how;
  }

  const Chart& chart_;
  std::string text_;
  double water_ = 0;
  std::size_t column_ = 0;
};

}  // namespace

TEST_CASE("every measured dose on a page is right, worked out by hand") {
  std::size_t doses = 0;
  std::size_t dilutions = 0;
  for (const Chart& chart : charts()) {
    const auto stated = PageReader(chart).read();
    INFO(chart.name);
    CHECK(stated.size() >= 4);
    for (const Stated& one : stated) {
      const Rule& rule = chart.columns.at(chart.columns.size() > 1 ? one.column : 0);
      const double change = chart.changes.empty() ? 1 : chart.changes.at(one.column);
      const double water = one.water * change;
      const double exact = rule.per_litre * water;
      INFO(water << " L: " << one.dose << " against " << exact);
      // Waters worked out from a tank's measures are printed to three figures.
      constexpr double kPrinted = 0.005;
      CHECK(std::fabs(one.dose / exact - 1) <= rule.tolerance + kPrinted);
      if (rule.never_under) CHECK(one.dose >= exact * (1 - kPrinted));
      if (rule.never_over) CHECK(one.dose <= exact * (1 + kPrinted));
      CHECK(one.dose <= rule.at_most * water * (1 + kPrinted));
      CHECK(one.off_by > std::fabs(one.dose - exact) - kPrinted * exact);
      CHECK(one.off_by < 0.5 * exact);
      ++doses;
      dilutions += one.diluted ? 1 : 0;
    }
  }
  CHECK(doses > 80);
  CHECK(dilutions == 2);
}

// Labels say one dose: "1.4 mL", "treats 20 L of new water".
TEST_CASE("every label's dose is right, worked out by hand") {
  const std::map<std::string, Rule> labels = {
      {"label-dechlorinator", kDechlorinator}, {"label-buffer", kBuffer},
      {"label-salt-bath", kSaltBath},          {"label-permanganate", kPermanganate},
      {"label-descaler", kDescaler},           {"label-magnesium", kMagnesium}};
  for (const auto& [name, rule] : labels) {
    const std::string text = page_text(name);
    static const std::regex dose(R"(([\d.,]+) (?:mL|g) treats ([\d.,]+) (L|US gal))");
    std::smatch found;
    INFO(name << ": " << text);
    REQUIRE(std::regex_search(text, found, dose));
    const double water = number(found[2]) * (found[3] == "L" ? 1 : kUsGallon);
    const double exact = rule.per_litre * water;
    const double given = number(found[1]);
    CHECK(std::fabs(given / exact - 1) <= rule.tolerance + 1e-6);
    if (rule.never_under) CHECK(given >= exact * (1 - 1e-6));
    if (rule.never_over) CHECK(given <= exact * (1 + 1e-6));
    CHECK(given <= rule.at_most * water * (1 + 1e-6));
  }
}
