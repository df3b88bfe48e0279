// A bottle as its user meets it: labelled as it was mixed, found again after a change, mended, used
// up by charts of its own, gone.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "helpers.hpp"

namespace {

using nlohmann::json;

std::string quoted(const std::string& text) { return "'" + text + "'"; }

// The small room of the story, in a folder of its own, on a day of its own.
struct Cellar {
  testing::TemporaryFolder folder;
  std::string day = "2026-09-01";

  Cellar() {
    const auto sample = testing::source_folder() / "samples/tidegate/room.yaml";
    testing::write_file(file(), testing::read_file(sample));
  }
  [[nodiscard]] std::string file() const { return folder / "room.yaml"; }
  void change(const std::string& from, const std::string& to) const {
    std::string text = testing::read_file(file());
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    testing::write_file(file(), text);
  }
  // One bottle labelled by a recipe that has changed since.
  void outlive_a_recipe() const {
    REQUIRE(to("print", "out").status == 0);
    REQUIRE(label().status == 0);
    change("thiosulfate: 60 g", "thiosulfate: 75 g");
  }
  [[nodiscard]] testing::Run run(const std::string& command, const std::string& more = "") const {
    return testing::shell("SOURCE_DATE_EPOCH=$(date -u -d '" + day + " 09:00' +%s) '" PROGRAM "' " +
                          command + ' ' + quoted(file()) + ' ' + more);
  }
  [[nodiscard]] testing::Run to(const std::string& command, const std::string& where,
                                const std::string& more = "") const {
    return run(command, "--to " + quoted(folder / where) + ' ' + more);
  }
  [[nodiscard]] testing::Run label(const std::string& more = "",
                                   const std::string& where = "out") const {
    return to("label", where, "--stock conditioner " + more);
  }
  [[nodiscard]] std::string words(const std::string& name) const {
    return testing::shell("pdftotext -layout " + quoted(folder / name) + " -").out;
  }
  [[nodiscard]] std::set<std::string> files(const std::string& where) const {
    std::set<std::string> out;
    for (const auto& entry : testing::fs::directory_iterator(folder.path() / where)) {
      std::string name = entry.path().filename().string();
      // The notice's name holds its time.
      if (name.starts_with("change-notice.")) name = "change-notice";
      out.insert(name);
    }
    return out;
  }
  [[nodiscard]] std::string notice(const std::string& where) const {
    for (const auto& entry : testing::fs::directory_iterator(folder.path() / where)) {
      const std::string name = entry.path().filename().string();
      if (name.starts_with("change-notice.")) return words(where + '/' + name);
    }
    return "";
  }
  [[nodiscard]] json state() const {
    const auto found = run("record", "--format json");
    INFO(found.err);
    return json::parse(found.out);
  }
  [[nodiscard]] json bottle(const std::string& name) const {
    const json all = state();
    for (const json& one : all["bottles"]) {
      if (one["bottle"] == name) return one;
    }
    return {};
  }
};

bool holds(const std::string& text, const std::string& part) {
  // Lines of a terminal and of a page end anywhere.
  const auto flat = [](const std::string& given) {
    std::string out;
    for (const char c : given) {
      const char one = c == '\n' ? ' ' : c;
      if (one != ' ' || out.empty() || out.back() != ' ') out += one;
    }
    return out;
  };
  return flat(text).find(flat(part)) != std::string::npos;
}

}  // namespace

TEST_CASE("label: a bottle mixed by the recipe has the code of the charts, and is recorded") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  const auto made = room.label();
  INFO(made.out << made.err);
  CHECK(made.status == 0);
  const std::string words = room.words("out/conditioner-label.batch-1.pdf");
  CHECK(holds(words, "2026-09-01"));
  CHECK(holds(words, "2026-10-31"));  // 60 days on
  CHECK(holds(room.words("out/sink-chart.pdf"), "93 AVV"));
  CHECK(holds(words, "93 AVV"));
  room.day = "2026-09-11";
  const json bottle = room.bottle("conditioner 1");
  CHECK(bottle["code"] == "93 AVV");
  CHECK(bottle["weighed"] == json({"48 g of sodium thiosulfate pentahydrate"}));
  CHECK(bottle["days_left"] == 50);
  CHECK(bottle["overdue"] == false);
  // The next one is the next one.
  CHECK(holds(room.label().out, "batch 2:"));
}

TEST_CASE("label: what was weighed off the recipe has a code and a dose of its own") {
  const Cellar room;
  const auto made = room.label("--weighed '44 g'");
  CHECK(made.status == 0);
  CHECK(holds(made.out, "0.917 times as strong as the recipe"));
  const std::string words = room.words("out/conditioner-label.batch-1.pdf");
  CHECK_FALSE(holds(words, "93 AVV"));
  CHECK(holds(words, "55 g per L"));
  // 7 mg per L out of 55 g per L: 1.27 mL for 10 L, and never under it.
  CHECK(holds(words, "1.3 mL"));
  CHECK(room.bottle("conditioner 1")["times_as_strong"].get<double>() == Approx(44.0 / 48));
}

TEST_CASE("label: out of tolerance it says what mends it, and mended it is the recipe") {
  const Cellar room;
  const auto weak = room.label("--weighed '40 g'");
  CHECK(weak.status == 1);
  CHECK(holds(weak.err, "0.833 times as strong as the recipe"));
  // 40 g + a = 0.06 (800 mL + 0.5 a): a = 8 / 0.97 = 8.25 g, on the marks 8.2 g.
  CHECK(holds(weak.err, "add 8.2 g sodium thiosulfate pentahydrate"));
  CHECK(room.bottle("conditioner 1")["code"] != "93 AVV");
  const auto strong = room.label("--weighed '60 g'");
  CHECK(strong.status == 1);
  // 75 g per L to 60 in 800 mL: 200 mL more.
  CHECK(holds(strong.err, "add 200 mL water; that makes 1,000 mL"));
  // Nobody has said that it was mended.
  const auto unmended = room.label("--batch 1");
  CHECK(unmended.status == 2);
  CHECK(holds(unmended.err, "batch 1 was recorded at another strength"));
  CHECK(room.bottle("conditioner 1")["code"] != "93 AVV");
  CHECK(room.label("--batch 1 --anew").status == 0);
  CHECK(room.bottle("conditioner 1")["code"] == "93 AVV");
  CHECK(room.label("--batch 1").status == 0);  // a smudged label
  CHECK(room.label("--batch 1 --mixed 2026-09-02").status == 2);
  CHECK(room.state()["bottles"].size() == 2);
}

TEST_CASE("label: what it cannot do is said, with what to write instead") {
  const Cellar room;
  struct Case {
    std::string more;
    std::string message;
  };
  for (const Case& one :
       {Case{"--weighed '40 mL'", "--weighed"}, Case{"--weighed 0 --weighed 3", "--weighed"},
        Case{"--weighed '40 g of sald'", "the recipe holds no \"sald\""},
        Case{"--weighed '40 g' --weighed '41 g'", "is there twice"},
        Case{"--weighed '0 g'", "an amount of nothing"},
        Case{"--mixed 2026-02-30", "no day of the calendar"},
        Case{"--mixed tomorrow", "no day of the calendar"},
        Case{"--volume '2 L'", "does not hold it"}, Case{"--volume 'a lot'", "--volume"},
        Case{"--container jug", "no container is called \"jug\""}}) {
    const auto run = room.label(one.more);
    INFO(one.more << ": " << run.err);
    CHECK(run.status == 2);
    CHECK(holds(run.err, one.message));
  }
  CHECK(room.to("label", "out", "--stock nothing").status == 2);
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "out"));
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "room.record"));
  const auto later = room.label("--mixed 2026-09-02");
  CHECK(later.status == 1);
  CHECK(holds(later.err, "that day is still to come"));
}

TEST_CASE("reprint: an old bottle gets its own charts, and the notice says what to do with it") {
  Cellar room;
  room.outlive_a_recipe();
  room.day = "2026-09-11";
  const std::string record = testing::read_file(room.folder / "room.record");
  const auto dry = room.to("reprint", "dry", "--dry-run");
  CHECK(dry.status == 1);
  CHECK(holds(dry.out, "blue pail 10 L: was 1.2 mL, now 1 mL"));
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "dry"));
  CHECK(testing::read_file(room.folder / "room.record") == record);

  const auto done = room.to("reprint", "new");
  INFO(done.out << done.err);
  CHECK(done.status == 1);  // the revision is still the old one
  CHECK(holds(done.err, "it changed and is still revision 1"));
  CHECK(room.files("new") == std::set<std::string>{"change-notice", "conditioner-label.pdf",
                                                   "sink-chart.pdf", "wall-chart.pdf",
                                                   "sink-chart.93AVV.pdf", "wall-chart.93AVV.pdf"});
  const std::string notice = room.notice("new");
  CHECK(holds(notice, "code 93 AVV is now TF YTR"));
  CHECK(holds(notice, "Batch 1, mixed 2026-09-01, use by 2026-10-31"));
  CHECK(holds(notice, "0.8 times as strong as the recipe now"));
  // 48 g + a = 0.075 (800 mL + 0.5 a): a = 12 / 0.9625 = 12.47 g.
  CHECK(holds(notice, "12.5 g sodium thiosulfate pentahydrate"));
  // The walk goes by the order of the places: the sink before the wall.
  CHECK(notice.find("Above the sink") < notice.find("North wall"));
  CHECK(notice.find("Conditioner with code 93 AVV") < notice.find("North wall"));
  // The chart for the old bottle has its code and its figures; the new one says what it was.
  CHECK(holds(room.words("new/sink-chart.93AVV.pdf"), "Only for bottles with code 93 AVV"));
  CHECK(holds(room.words("new/sink-chart.93AVV.pdf"), "1.2 mL"));
  const std::string marked = room.words("new/sink-chart.pdf");
  CHECK(holds(marked, "(was 1.2 mL)"));
  CHECK(holds(marked, "This page replaces revision 1 of 2026-09-01 with code 93 AVV"));

  // Then all is as it should be, and the marks go when that is asked for.
  CHECK(room.to("reprint", "again").status == 0);
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "again"));
  CHECK(room.to("reprint", "clean", "--clean").status == 0);
  CHECK(room.files("clean") == std::set<std::string>{"sink-chart.pdf", "wall-chart.pdf"});
  CHECK_FALSE(holds(room.words("clean/sink-chart.pdf"), "was"));
  CHECK(room.to("reprint", "again", "--clean").status == 0);
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "again"));
}

TEST_CASE("reprint: when the old bottles are gone, so are their charts") {
  Cellar room;
  room.outlive_a_recipe();
  REQUIRE(room.to("reprint", "new").status == 1);
  CHECK(room.run("record", "--gone 'conditoner 1'").status == 2);
  CHECK(room.run("record", "--gone 'conditioner 1'").status == 0);
  CHECK(room.to("reprint", "again").status == 0);  // there may be others with that code
  CHECK(room.run("record", "--gone 'conditioner 93 AVV'").status == 0);
  const auto down = room.to("reprint", "down");
  INFO(down.out << down.err);
  CHECK(room.files("down") == std::set<std::string>{"change-notice"});
  CHECK(holds(down.out, "take it down: no bottle with code 93 AVV is left"));
  CHECK(holds(room.notice("down"), "take it down"));
  CHECK(room.to("reprint", "last").status == 0);
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "last"));
}

TEST_CASE("reprint: another dose of the same strength is a new label, not another bottle") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label().status == 0);
  room.change("reach: 7 mg/L", "reach: 9 mg/L");
  const auto done = room.to("reprint", "new");
  INFO(done.out << done.err);
  CHECK(room.files("new") == std::set<std::string>{"change-notice", "conditioner-label.pdf",
                                                   "conditioner-label.batch-1.pdf",
                                                   "sink-chart.pdf", "wall-chart.pdf"});
  const std::string label = room.words("new/conditioner-label.batch-1.pdf");
  CHECK(holds(label, "2026-09-01"));
  CHECK(holds(label, "60 g per L"));
  CHECK_FALSE(holds(label, "93 AVV"));
  CHECK(room.to("reprint", "again").status == 0);
}

TEST_CASE("reprint: other products leave nothing but to discard what is there") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label().status == 0);
  room.change("    name: sodium thiosulfate pentahydrate\n    cas: 10102-17-7\n",
              "    name: sodium ascorbate\n    cas: 134-03-2\n");
  const auto done = room.to("reprint", "new");
  INFO(done.out << done.err);
  CHECK(holds(room.notice("new"), "nothing makes it the same"));
  CHECK(holds(room.notice("new"), "Discard it by local rules"));
  CHECK_FALSE(holds(room.notice("new"), "if this much is left"));
}

TEST_CASE("reprint: what is past its date is discarded, not mended") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label().status == 0);
  room.day = "2026-11-05";
  CHECK(room.bottle("conditioner 1")["overdue"] == true);
  const auto told = room.run("record");
  CHECK(told.status == 1);
  CHECK(holds(told.out, "5 days past it: discard it by local rules"));
  room.change("thiosulfate: 60 g", "thiosulfate: 75 g");
  REQUIRE(room.to("reprint", "new").status == 1);
  CHECK(holds(room.notice("new"), "Past its date. Do not use or mend it"));
}

TEST_CASE("print: a bottle that the description dates is found when it is past its date") {
  Cellar room;
  room.change("    stock: conditioner\n    sheet",
              "    stock: conditioner\n    mixed: 2026-09-01\n"
              "    batch: 5\n    sheet");
  CHECK(room.run("check").status == 0);
  room.day = "2026-10-31";
  CHECK(room.run("check").status == 0);
  room.day = "2026-11-01";
  const auto late = room.run("check");
  CHECK(late.status == 1);
  CHECK(holds(late.err, "batch 5 is past its use-by of 2026-10-31"));
  const auto printed = room.to("print", "out");
  CHECK(printed.status == 1);
  CHECK(holds(printed.err, "batch 5 is past its use-by of 2026-10-31"));
  CHECK(holds(room.words("out/sink-chart.pdf"), "Past its use-by: discard it by local rules."));
}

TEST_CASE("print: a label never puts a new strength on a bottle of the old one") {
  Cellar room;
  room.change("    stock: conditioner\n    sheet",
              "    stock: conditioner\n    mixed: 2026-09-01\n"
              "    batch: 5\n    sheet");
  REQUIRE(room.to("print", "out").status == 0);
  room.change("thiosulfate: 60 g", "thiosulfate: 75 g");
  const auto again = room.to("print", "again");
  CHECK(again.status == 1);
  CHECK(holds(again.err, "batch 5 was mixed at another strength"));
  CHECK_FALSE(room.files("again").contains("conditioner-label.pdf"));
  // Its own label still says what is in it.
  REQUIRE(room.to("reprint", "new").status <= 1);
  CHECK(room.bottle("conditioner 5")["code"] == "93 AVV");
  room.change("batch: 5", "batch: 6");
  room.change("mixed: 2026-09-01", "mixed: 2026-10-01");
  REQUIRE(room.to("print", "third").status == 0);
  CHECK(holds(room.words("third/conditioner-label.pdf"), "75 g per L"));
}

TEST_CASE("label: killed at any moment the record keeps its bottles") {
  const Cellar room;
  REQUIRE(room.label().status == 0);
  const std::string description = testing::read_file(room.file());
  for (int i = 0; i < 40; ++i) {
    const std::string wait = "0.0" + std::to_string(10 + i * 2);
    (void)testing::shell("timeout -s KILL " + wait + " '" PROGRAM "' label " + quoted(room.file()) +
                         " --stock conditioner --weighed '48 g' --to " +
                         quoted(room.folder / "out") + " > /dev/null 2>&1");
    CHECK(testing::read_file(room.file()) == description);
  }
  const json state = room.state();
  CHECK(state["bottles"].size() >= 1);
  CHECK(state["bottles"].front()["bottle"] == "conditioner 1");
}

TEST_CASE("story: it runs to its end, with the notice and only the right documents") {
  const testing::TemporaryFolder folder;
  const auto run = testing::shell("DOSEWRIGHT='" PROGRAM "' bash " +
                                  quoted((testing::source_folder() / "samples/story.sh").string()) +
                                  ' ' + quoted(folder / "story"));
  INFO(run.out << run.err);
  REQUIRE(run.status == 0);
  std::set<std::string> pages;
  for (const auto& entry : testing::fs::directory_iterator(folder / "story/5-reprint")) {
    if (entry.path().extension() != ".pdf") continue;
    pages.insert(entry.path().filename().string());
    const auto checked = testing::shell("qpdf --check " + quoted(entry.path().string()));
    CHECK(checked.status == 0);
  }
  CHECK(pages == std::set<std::string>{"change-notice.2026-10-06-090000.pdf",
                                       "conditioner-label.pdf", "sink-chart.93AVV.pdf",
                                       "sink-chart.pdf", "wall-chart.93AVV.pdf", "wall-chart.pdf"});
}

TEST_CASE("label: the code on it is the one that the record works out again") {
  const Cellar room;
  for (const char* weighed : {"42 g", "52 g", "58 g", "37.3 g", "71.9 g"}) {
    (void)room.label("--volume '900 mL' --weighed '" + std::string(weighed) + "'");
  }
  const json state = room.state();
  REQUIRE(state["printed"].size() == 5);
  for (const json& one : state["printed"]) {
    INFO(one.dump());
    CHECK(one["out_of_date"] == false);
  }
}

TEST_CASE("label: hazards stated of the recipe are not printed on what is stronger") {
  const Cellar room;
  room.change(
      "    hazards:\n      ph: 7.5\n",
      "    hazards:\n      not classified: true\n      source: sheet of the 6 % solution\n");
  const std::string stated = "according to sheet of the 6 % solution";
  CHECK(room.label("--weighed '46 g'").status == 0);
  CHECK(holds(room.words("out/conditioner-label.batch-1.pdf"), stated));
  const auto strong = room.label("--weighed '52 g'");
  CHECK(strong.status == 1);
  CHECK(holds(strong.err, "are the least, with what is calculated for this strength"));
  const std::string words = room.words("out/conditioner-label.batch-2.pdf");
  CHECK_FALSE(holds(words, stated));
  CHECK(holds(words, "extreme pH"));
}

TEST_CASE("label: it says when what was mixed does not all dissolve") {
  const Cellar room;
  // 35.9 g of sodium chloride in 100 g of water at 20 °C (handbook): 350 g per L is too much.
  const auto strong = room.to("label", "out", "--stock brine --weighed '1400 g'");
  CHECK(strong.status == 1);
  CHECK(holds(strong.err, "dissolve"));
}

TEST_CASE("label: out of proportion there is no label, and the bottle is known") {
  const Cellar room;
  room.change("      thiosulfate: 60 g\n", "      thiosulfate: 60 g\n      salt: 20 g\n");
  room.change("reach: 7 mg/L", "of: thiosulfate\n      reach: 7 mg/L");
  const auto odd = room.label("--weighed '48 g of thiosulfate' --weighed '8 g of salt'");
  INFO(odd.err);
  CHECK(odd.status == 1);
  CHECK_FALSE(testing::fs::exists(room.folder.path() / "out"));
  CHECK(holds(odd.err, "and 8.1 g sodium chloride"));
  CHECK(room.bottle("conditioner 1")["code"] == "none");
  const auto told = room.run("record");
  CHECK(told.status == 1);
  CHECK(holds(told.out, "8.1 g sodium chloride"));
  CHECK(holds(room.label().out, "batch 2:"));
}

TEST_CASE("label: runs at once never take the same number") {
  const Cellar room;
  (void)testing::shell("for w in 30 48 70; do '" PROGRAM "' label " + quoted(room.file()) +
                       " --stock conditioner --weighed \"$w g\" --to " +
                       quoted(room.folder / "out") + " > /dev/null 2>&1 & done; wait");
  CHECK(room.state()["bottles"].size() == 3);
  CHECK(room.files("out").size() == 3);
}

TEST_CASE("reprint: a blank label is for new bottles, and one filled in by hand is not forgotten") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  room.change("thiosulfate: 60 g", "thiosulfate: 75 g");
  // Even when somebody prints instead of reprinting.
  const auto again = room.to("print", "out");
  CHECK(again.status == 1);
  CHECK(holds(again.err, "labelled by hand with code 93 AVV may still stand there"));
  CHECK(room.bottle("conditioner 93 AVV")["times_as_strong"].get<double>() == Approx(0.8));
  (void)room.to("reprint", "new");
  CHECK(room.files("new") ==
        std::set<std::string>{"change-notice", "sink-chart.93AVV.pdf", "wall-chart.93AVV.pdf"});
  const Cellar other;
  REQUIRE(other.to("print", "out").status == 0);
  other.change("thiosulfate: 60 g", "thiosulfate: 30 g");
  const auto done = other.to("reprint", "new", "--dry-run");
  CHECK(holds(done.out, "throw the unused ones away"));
  CHECK(holds(done.out, "Never put it on a filled one"));
}

TEST_CASE("reprint: with lines lost nothing is taken down that nobody knows of") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label("--weighed '44 g'").status == 0);
  REQUIRE(room.to("reprint", "new").status == 0);
  std::string record = testing::read_file(room.folder / "room.record");
  const std::size_t at = record.find("bottle=conditioner\tbatch=1");
  REQUIRE(at != std::string::npos);
  record[at + 8] = 'K';
  testing::write_file(room.folder / "room.record", record);
  const auto done = room.to("reprint", "again");
  CHECK(done.status == 1);
  CHECK_FALSE(holds(done.out, "take it down"));
  CHECK(holds(room.label().out, "batch 2:"));  // the lost line may have been the first
  room.change("reach: 7 mg/L", "reach: 9 mg/L");
  REQUIRE(room.to("reprint", "last").status == 1);
  CHECK(holds(room.notice("last"), "Lines of the print record are lost"));
}

TEST_CASE("reprint: what moves is taken down here and hung up there") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  room.change("    place: above the sink\n    revision: 1",
              "    place: by the door\n    revision: 2");
  const auto done = room.to("reprint", "new", "--dry-run");
  INFO(done.out);
  CHECK(holds(done.out, "take it down: it hangs here now: by the door"));
  CHECK(holds(done.out, "By the door"));
  CHECK(holds(done.out, "hang up sink-chart.pdf"));
}

TEST_CASE("reprint: a filled bottle keeps its label when nobody describes it any more") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label().status == 0);
  room.change(
      "  conditioner-label:\n    type: label\n    stock: conditioner\n    sheet: {paper: "
      "roll, label: 120 x 90 mm}\n",
      "");
  const auto done = room.to("reprint", "new");
  INFO(done.out);
  CHECK(done.status == 0);
  CHECK_FALSE(holds(done.out, "take it down"));
}

TEST_CASE("reprint: a chart for an odd bottle finds room, turned if it must be") {
  const testing::TemporaryFolder folder;
  const std::string room = folder / "room.yaml";
  testing::write_file(room, testing::read_file(testing::sample()));
  const auto run = [&](const std::string& command) {
    return testing::program(command + ' ' + quoted(room) + " --record " +
                            quoted(folder / "room.record"));
  };
  REQUIRE(testing::program("print " + quoted(room) + " --record " + quoted(folder / "room.record") +
                           " --to " + quoted(folder / "out"))
              .status == 0);
  for (const char* weighed : {"105 g", "110 g", "125 g", "150 g"}) {
    REQUIRE(testing::program("label " + quoted(room) + " --record " +
                             quoted(folder / "room.record") + " --stock dechlorinator --to " +
                             quoted(folder / "out") + " --weighed '" + weighed + "'")
                .status <= 1);
  }
  const auto done =
      testing::program("reprint " + quoted(room) + " --record " + quoted(folder / "room.record") +
                       " --to " + quoted(folder / "new"));
  INFO(done.out << done.err);
  CHECK(done.status <= 1);
  CHECK_FALSE(holds(done.out, "finds no room"));
  CHECK(run("record").status == 0);
}

TEST_CASE("label: what is diluted from a bottle of another strength is minded") {
  const Cellar room;
  room.change("  brine:\n",
              "  weak:\n    name: Weak\n    diluted from: conditioner\n    take: 100 mL\n"
              "    water to: 1 L\n    dose: {give: 10 mL per 10 L}\n    container: "
              "bottle\n  brine:\n");
  // A stock stands before what is diluted from it.
  room.change("  brine-label:\n",
              "  weak-label:\n    type: label\n    stock: weak\n    sheet: {paper: "
              "roll, label: 140 x 110 mm}\n  brine-label:\n");
  CHECK(room.to("label", "out", "--stock weak").status == 0);
  REQUIRE(room.label("--weighed '60 g'").status == 1);
  const auto doubtful = room.to("label", "out", "--stock weak");
  INFO(doubtful.err);
  CHECK(doubtful.status == 1);
  CHECK(holds(doubtful.err, "this label is right only if it was taken from one with code 93 AVV"));
}

TEST_CASE("reprint: what is stated of the recipe is the least that is said of a stronger bottle") {
  Cellar room;
  room.change("sheet: {paper: roll, label: 120 x 90 mm}",
              "sheet: {paper: roll, label: 148 x 105 mm}");
  room.change("    hazards:\n      ph: 7.5\n",
              "    hazards:\n      statements: [H314]\n      source: its sheet\n");
  REQUIRE(room.to("print", "out").status <= 1);
  REQUIRE(room.label().status <= 1);
  // The recipe gets weaker, and with it what is said of it.
  room.change("thiosulfate: 60 g", "thiosulfate: 30 g");
  room.change("statements: [H314]", "statements: [H319]");
  (void)room.to("reprint", "new");
  const std::string label = room.words("new/conditioner-label.batch-1.pdf");
  CHECK(holds(label, "Causes serious eye irritation."));
  CHECK(holds(label, "Its earlier label said: Danger Causes severe skin burns and eye damage."));
  CHECK_FALSE(holds(label, "no hazard statement"));
  const auto strong = room.label("--weighed '25 g'");
  CHECK(holds(room.words("out/conditioner-label.batch-2.pdf"), "Causes serious eye irritation."));
}

TEST_CASE("label: of a stronger bottle the graver of what is stated and calculated is said, once") {
  const Cellar room;
  room.change("sheet: {paper: roll, label: 120 x 90 mm}",
              "sheet: {paper: roll, label: 148 x 105 mm}");
  room.change(
      "      not classified: true\n      source: the supplier's safety data sheet of 2026-05\n",
      "      classes: [Skin Corr. 1B, Eye Dam. 1]\n      source: its sheet\n");
  room.change(
      "    hazards:\n      ph: 7.5\n",
      "    hazards:\n      statements: [H319]\n      precautions: [\"P280: eye protection\"]\n"
      "      source: sheet of the solution\n");
  // 120 g per L is above 5 % by weight: Skin Corr. 1B (CLP Annex I, Table 3.2.3).
  (void)room.label("--weighed '96 g'");
  const std::string words = room.words("out/conditioner-label.batch-1.pdf");
  CHECK(holds(words, "Causes severe skin burns and eye damage."));
  CHECK_FALSE(holds(words, "serious eye irritation"));
  CHECK(holds(words, "protective gloves"));
  CHECK(holds(words, "stated of a weaker solution"));
  CHECK(holds(words, "Not evaluated: physical hazards"));
}

TEST_CASE("reprint: hand-labelled bottles of the same strength get the new label too") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  room.change("reach: 7 mg/L", "reach: 3 mg/L");
  const auto dry = room.to("reprint", "new", "--dry-run");
  CHECK(holds(dry.out, "over the old one on every filled bottle too"));
  const auto printed = room.to("print", "out");
  CHECK(printed.status == 1);
  CHECK(holds(printed.err, "and their label says something else now"));
}

TEST_CASE("reprint: a label that has become too small stops nothing else") {
  Cellar room;
  room.change("sheet: {paper: roll, label: 120 x 90 mm}",
              "sheet: {paper: roll, label: 102 x 79 mm}");
  REQUIRE(room.to("print", "out").status == 0);
  room.change("    never mix with: [acids, bleach]\n",
              "    never mix with: [acids, bleach, peroxide, permanganate, every acid of the "
              "pantry, every cleaner of the kitchen, everything that foams or fumes or smells of "
              "gas, formalin, anything that "
              "burns, and whatever else stands under the stairs of the house next door]\n");
  room.change("reach: 1 g/L", "reach: 2 g/L");
  const auto told = room.run("record");
  CHECK(told.status == 1);
  CHECK(holds(told.out, "out of date, and the new one finds no room"));
  const auto done = room.to("reprint", "new");
  INFO(done.out << done.err);
  CHECK(done.status == 1);
  CHECK(room.files("new").contains("brine-chart.pdf"));
  CHECK_FALSE(room.files("new").contains("conditioner-label.pdf"));
}

TEST_CASE("reprint: a renamed chart is hung up under its new name") {
  Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  REQUIRE(room.label("--weighed '44 g'").status == 0);
  REQUIRE(room.to("reprint", "own").status == 0);
  room.change("  sink-chart:\n", "  bucket-sheet:\n");
  const auto done = room.to("reprint", "new");
  INFO(done.out << done.err);
  CHECK(room.files("new").contains("bucket-sheet.pdf"));
  CHECK(room.files("new").size() == 3);  // the notice, the chart, and its twin for the bottle
  CHECK(room.to("reprint", "again").status == 0);
}

TEST_CASE("label: a number is a number, however it is written") {
  const Cellar room;
  REQUIRE(room.label("--weighed '40 g'").status == 1);
  for (const char* batch : {"01", "' 1'", "'1 '"})
    CHECK(room.label(std::string("--batch ") + batch).status == 2);
}

TEST_CASE("label: a recipe that changed since the charts were printed is told") {
  const Cellar room;
  REQUIRE(room.to("print", "out").status == 0);
  room.change("thiosulfate: 60 g", "thiosulfate: 75 g");
  const auto made = room.label();
  CHECK(made.status == 1);
  CHECK(
      holds(made.err, "what hangs there is of another recipe or dose: sink-chart and wall-chart"));
}
