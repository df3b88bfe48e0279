// The print record as its user meets it: what was printed, what is out of date, what is printed
// anew.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "helpers.hpp"

namespace {

using nlohmann::json;
using testing::fs::path;

// A room in a folder of its own, printed and recorded.
struct Room {
  testing::TemporaryFolder folder;
  std::string text = testing::base_room();

  Room() { write(); }
  [[nodiscard]] std::string file() const { return folder / "room.yaml"; }
  [[nodiscard]] std::string record() const { return folder / "room.record"; }
  void write() const { testing::write_file(file(), text); }
  void change(const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    write();
  }
  [[nodiscard]] testing::Run run(const std::string& command, const std::string& more) const {
    return testing::program(command + " '" + file() + "' --record '" + record() + "' " + more);
  }
  [[nodiscard]] testing::Run print(const std::string& more = "") const {
    return run("print", "--to '" + (folder / "out") + "' " + more);
  }
  [[nodiscard]] json state() const {
    const auto found = run("record", "--format json");
    INFO(found.err);
    return json::parse(found.out);
  }
};

std::set<std::string> files_in(const path& folder) {
  std::set<std::string> out;
  if (!testing::fs::exists(folder)) return out;
  for (const auto& entry : testing::fs::directory_iterator(folder))
    out.insert(entry.path().filename().string());
  return out;
}

std::set<std::string> out_of_date(const json& state) {
  std::set<std::string> out;
  for (const auto& one : state["printed"]) {
    if (one["out_of_date"].get<bool>()) out.insert(one["document"].get<std::string>());
  }
  return out;
}

}  // namespace

TEST_CASE("record: what was printed is known, and nothing is out of date") {
  const Room room;
  CHECK(room.run("record", "").out.find("Nothing has been recorded yet") != std::string::npos);
  REQUIRE(room.print().status == 0);
  const json state = room.state();
  REQUIRE(state["printed"].size() >= 2);
  CHECK(state["never_printed"].empty());
  CHECK(out_of_date(state).empty());
  CHECK(state["printed"][0]["days"].get<int>() == 0);
  const auto again = room.run("reprint", "--to '" + (room.folder / "again") + "'");
  CHECK(again.status == 0);
  CHECK(again.out.find("Nothing that was printed is out of date") != std::string::npos);
  CHECK(files_in(room.folder.path() / "again").empty());
}

TEST_CASE("record: a changed recipe is told by its figures, and only its documents come again") {
  Room room;
  REQUIRE(room.print().status == 0);
  room.change("give: 10 mL per 20 L", "give: 12 mL per 20 L");
  const auto dry = room.run("reprint", "--dry-run --to '" + (room.folder / "again") + "'");
  INFO(dry.out << dry.err);
  CHECK(dry.status == 1);
  CHECK(files_in(room.folder.path() / "again").empty());
  CHECK(dry.out.find("code: was") != std::string::npos);
  CHECK(dry.out.find("was 10 mL, now 12 mL") != std::string::npos);
  const std::set<std::string> stale = out_of_date(room.state());
  REQUIRE(room.run("reprint", "--to '" + (room.folder / "again") + "'").status == 0);
  std::set<std::string> expected;
  for (const std::string& document : stale) expected.insert(document + ".pdf");
  std::set<std::string> written = files_in(room.folder.path() / "again");
  // And a notice, whose name holds the time.
  CHECK(std::erase_if(written, [](const std::string& name) {
          return name.starts_with("change-notice.");
        }) == 1);
  CHECK(written == expected);
  CHECK(out_of_date(room.state()).empty());
}

TEST_CASE("record: it knows where a bottle stands") {
  Room room;
  room.change("    holds: 1 L\n", "    holds: 1 L\n    place: rack B\n");
  REQUIRE(room.print().status == 0);
  bool told = false;
  const json state = room.state();
  for (const auto& one : state["printed"])
    told = told || (one["type"] == "label" && one["place"] == "rack B");
  CHECK(told);
}

TEST_CASE("record: a document is out of date if and only if its page changed") {
  // Random edits, some that show and some that do not; the truth is the words on the page.
  struct Edit {
    const char* from;
    const char* to;
  };
  const std::vector<Edit> edits = {{"give: 10 mL per 20 L", "give: 11 mL per 20 L"},
                                   {"soda: 60 g", "soda: 61 g"},
                                   {"soda: 60 g", "soda: 0.06 kg"},
                                   {"water to: 1 L", "water to: 1000 mL"},
                                   {"keeps: 90 days", "keeps: 80 days"},
                                   {"name: Buffer", "name: Puffer"},
                                   {"volume: 20 gal", "volume: 21 gal"},
                                   {"volume: 20 gal", "volume: 20 US gal"},
                                   {"products:", "# a comment\nproducts:"}};
  std::mt19937 random(5);
  const auto pages = [](const Room& room, const std::string& to) {
    REQUIRE(
        testing::program("print '" + room.file() + "' --to '" + (room.folder / to) + "'").status <=
        1);
    std::map<std::string, std::string> out;
    for (const std::string& name : files_in(room.folder.path() / to))
      out[name] =
          testing::shell("pdftotext -layout '" + (room.folder / (to + '/' + name)) + "' -").out;
    return out;
  };
  for (int round = 0; round < 12; ++round) {
    Room room;
    REQUIRE(room.print().status == 0);
    const auto before = pages(room, "before");
    std::string said;
    for (int i = 0; i < 1 + static_cast<int>(random() % 2); ++i) {
      const Edit& edit = edits[random() % edits.size()];
      if (room.text.find(edit.from) == std::string::npos) continue;
      room.change(edit.from, edit.to);
      said += std::string(edit.to) + "; ";
    }
    const auto after = pages(room, "after");
    std::set<std::string> changed;
    for (const auto& [name, text] : after) {
      if (before.at(name) != text) changed.insert(name.substr(0, name.size() - 4));
    }
    INFO(said);
    CHECK(out_of_date(room.state()) == changed);
  }
}

TEST_CASE("record: damage, a later version, a folder that cannot be written, a clock set back") {
  const Room room;
  REQUIRE(room.print().status == 0);
  const std::string whole = testing::read_file(room.record());
  std::string broken = whole;
  broken[broken.find("digest=") + 9] = '!';
  testing::write_file(room.record(), broken);
  const auto damaged = room.run("record", "");
  CHECK(damaged.status == 1);
  CHECK(damaged.err.find("room.record:1: finding: this line was cut off or changed") !=
        std::string::npos);
  CHECK(damaged.out.find("chart") != std::string::npos);

  testing::write_file(room.record(), "dosewright record 9\twhen=2030\n" + whole);
  const auto newer = room.run("record", "");
  CHECK(newer.status == 2);
  CHECK(newer.err.find("newer version") != std::string::npos);
  const auto printed = room.print();
  CHECK(printed.status == 1);
  CHECK(printed.err.find("nothing was recorded") != std::string::npos);
  CHECK(testing::fs::exists(room.folder.path() / "out"));

  const auto nowhere = testing::program("print '" + room.file() + "' --to '" +
                                        (room.folder / "out") + "' --record /proc/none/r.record");
  CHECK(nowhere.status == 1);
  CHECK(nowhere.err.find("printed, but nothing was recorded") != std::string::npos);

  testing::write_file(room.record(), "");
  REQUIRE(room.print().status == 0);
  const auto back =
      testing::shell("SOURCE_DATE_EPOCH=1000000000 '" PROGRAM "' print '" + room.file() +
                     "' --record '" + room.record() + "' --to '" + (room.folder / "out") + "'");
  CHECK(back.status == 1);
  CHECK(back.err.find("set the clock right") != std::string::npos);
}

TEST_CASE("record: printing killed at any moment leaves description and record whole") {
  const Room room;
  REQUIRE(room.print().status == 0);
  const std::string description = testing::read_file(room.file());
  std::mt19937 random(3);
  std::size_t lines = 0;
  for (int i = 0; i < 100; ++i) {
    const std::string wait = "0.0" + std::to_string(10 + random() % 90);
    (void)testing::shell("timeout -s KILL " + wait + " '" PROGRAM "' print '" + room.file() +
                         "' --record '" + room.record() + "' --to '" + (room.folder / "out") +
                         "' > /dev/null 2>&1");
    REQUIRE(testing::read_file(room.file()) == description);
    const json state = room.state();
    CHECK(state["damaged_lines"].size() <= static_cast<std::size_t>(i) + 1);
    CHECK(out_of_date(state).empty());
    const std::string text = testing::read_file(room.record());
    const auto now = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    REQUIRE(now >= lines);
    lines = now;
  }
  // What stands in the folder is whole: a PDF is renamed when it is complete.
  for (const std::string& name : files_in(room.folder.path() / "out")) {
    if (!name.ends_with(".pdf")) continue;
    const std::string file = room.folder / ("out/" + name);
    CHECK(testing::shell("qpdf --check '" + file + "' > /dev/null 2>&1").status == 0);
  }
}
