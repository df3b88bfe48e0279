// The commands: help, answers, exit status, and what happens when the world does not play along.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "helpers.hpp"

using nlohmann::json;

namespace {

std::string quoted(const std::string& text) { return '\'' + text + '\''; }

std::vector<std::string> files_in(const std::string& folder) {
  std::vector<std::string> out;
  if (!testing::fs::exists(folder)) return out;
  for (const auto& entry : testing::fs::directory_iterator(folder))
    out.push_back(entry.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("help teaches and version tells") {
  const auto help = testing::program("--help");
  CHECK(help.status == 0);
  for (const char* word : {"check", "print", "dose", "Exit status", "room.yaml"})
    CHECK(help.out.find(word) != std::string::npos);
  for (const char* command : {"check", "print", "dose"}) {
    const auto own = testing::program(std::string(command) + " --help");
    CHECK(own.status == 0);
    CHECK(own.out.find("ROOM.yaml") != std::string::npos);
  }
  const auto version = testing::program("--version");
  CHECK(version.status == 0);
  CHECK(std::regex_match(version.out, std::regex("dosewright [0-9]+\\.[0-9]+\\.[0-9]+\n")));
}

TEST_CASE("a wrong command line is bad input") {
  for (const char* line : {"", "mix", "check", "print room.yaml", "check room.yaml --colour",
                           "dose room.yaml --stock a --volume 1 --format xml"}) {
    const auto run = testing::program(line);
    INFO(line);
    CHECK(run.status == 2);
    CHECK_FALSE(run.err.empty());
    CHECK(run.out.empty());
  }
}

TEST_CASE("a command that is none is named, with the nearest") {
  CHECK(testing::program("chek room.yaml").err ==
        "dosewright: no command is called \"chek\"\n    did you mean \"check\"?\n");
  CHECK(testing::program("weigh").err ==
        "dosewright: no command is called \"weigh\"\n    there are check, print, label, reprint, "
        "record, dose, hazards and mix\n");
}

TEST_CASE("check answers in words and in JSON") {
  const auto words = testing::program("check " + quoted(testing::sample()));
  CHECK(words.status == 0);
  CHECK(words.err.empty());
  CHECK(words.out.find("7 stocks, 32 vessels, 22 documents, 0 findings") != std::string::npos);
  CHECK(words.out.find("to fill 1.5 L bottle: 120 g sodium thiosulfate pentahydrate and water to "
                       "1.2 L; costs 1.07 EUR") != std::string::npos);

  const testing::TemporaryFolder folder;
  std::string room = testing::base_room();
  room.replace(room.find("    keeps: 90 days\n"), 19, "    keeps: 3 months\n    colour: green\n");
  testing::write_file(folder / "room.yaml", room);
  const auto run = testing::program("check " + quoted(folder / "room.yaml") + " --format json");
  CHECK(run.status == 2);
  CHECK(run.err.empty());
  const json answer = json::parse(run.out);
  REQUIRE(answer["findings"].size() == 2);
  const json& first = answer["findings"][0];
  CHECK(first["severity"] == "error");
  CHECK(first["file"] == folder / "room.yaml");
  CHECK(first["line"] == 23);
  CHECK(first["column"] == 14);
  CHECK(first["path"] == "stocks.buffer.keeps");
  CHECK(first["message"] == "a month has 28 to 31 days");
  CHECK(first["hint"] == "write days or weeks, such as 90 days");
}

TEST_CASE("check says the net and the full volume of a vessel") {
  const testing::TemporaryFolder folder;
  std::string room = testing::base_room();
  room.replace(room.find("    volume: 20 gal\n"), 19,
               "    name: A1\n    inside: 120 x 45 x 50 cm\n    filled to: 46 cm\n"
               "    substrate: {depth: 5 cm, porosity: 38 %}\n");
  room.replace(room.find("  measures: US\n"), 15, "  measures: metric\n");
  testing::write_file(folder / "room.yaml", room);
  const std::string command = "check " + quoted(folder / "room.yaml");
  const auto words = testing::program(command);
  CHECK(words.out.find("\n  A1: 231.66 L net of 270 L full, right to 5 %\n") != std::string::npos);
  CHECK(words.out.find("pail: ") == std::string::npos);  // its water is as its user wrote it

  const json answer = json::parse(testing::program(command + " --format json").out);
  REQUIRE(answer["vessels"].size() == 2);
  const json& tank = answer["vessels"][0];
  CHECK(tank["vessel"] == "tank");
  CHECK(tank["name"] == "A1");
  CHECK(tank["net_L"] == 231.66);
  CHECK(tank["full_L"] == 270);
  CHECK(tank["right_to_percent"] == 5);
  CHECK(answer["vessels"][1]["net_L"] == 5);
  CHECK(answer["vessels"][1]["full_L"].is_null());
}

TEST_CASE("dose answers at the sink") {
  const auto run = testing::program("dose " + quoted(testing::sample()) +
                                    " --stock dechlorinator --volume '40 gal'");
  CHECK(run.status == 0);
  CHECK(run.out.find("40 US gal of new water\ngive   11 mL\nhow    50 mL cylinder to 11 mL\nexact  "
                     "10.6 mL, off by at most 2 mL\n") != std::string::npos);
  CHECK(run.out.find("error  with the strength's and the water's errors off by at most") !=
        std::string::npos);
  CHECK(testing::program("dose " + quoted(testing::sample()) + " --stock 'Salt bath' --volume 10L")
            .status == 0);

  const auto unknown = testing::program("dose " + quoted(testing::sample()) +
                                        " --stock dechlorinater --volume '40 gal'");
  CHECK(unknown.status == 2);
  CHECK(unknown.err ==
        "dosewright: no stock is called \"dechlorinater\"\n    did you mean \"dechlorinator\"?\n");
  const auto bad = testing::program("dose " + quoted(testing::sample()) +
                                    " --stock dechlorinator --volume '40 gl'");
  CHECK(bad.status == 2);
  CHECK(bad.err ==
        "dosewright: --volume: \"gl\" is not a unit of a volume\n    did you mean \"mL\"?\n");
  CHECK(testing::program("dose " + quoted(testing::sample()) +
                         " --stock dechlorinator --volume '0 L'")
            .status == 2);

  const auto tiny = testing::program("dose " + quoted(testing::sample()) +
                                     " --stock dechlorinator --volume '1 mL' --format json");
  CHECK(tiny.status == 1);
  const json answer = json::parse(tiny.out);
  CHECK(answer["measured_mL"].is_null());
  CHECK(answer["pours"].empty());
  CHECK(answer["problem"] == "too small: the least that the tools measure is 0.1 mL");
}

TEST_CASE("one document can be printed alone") {
  const testing::TemporaryFolder folder;
  const auto run = testing::program("print " + quoted(testing::sample()) +
                                    " --only sink-chart --to " + quoted(folder / "out"));
  CHECK(run.status == 0);
  CHECK(files_in(folder / "out") == std::vector<std::string>{"sink-chart.pdf"});
  const auto none = testing::program("print " + quoted(testing::sample()) +
                                     " --only sink-chrat --to " + quoted(folder / "none"));
  CHECK(none.status == 2);
  CHECK(none.err ==
        "dosewright: no document is called \"sink-chrat\"\n    did you mean \"sink-chart\"?\n");
  CHECK(files_in(folder / "none").empty());
}

TEST_CASE("bad input leaves what was printed before as it was") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml", testing::base_room());
  const std::string line =
      "print " + quoted(folder / "room.yaml") + " --to " + quoted(folder / "out");
  REQUIRE(testing::program(line).status == 0);
  const std::string before = testing::read_file(folder / "out/label.pdf");
  for (const auto& change : {std::pair<std::string, std::string>{"soda: 60 g", "soda: 60"},
                             {"120 x 90 mm", "60 x 40 mm"}}) {
    std::string room = testing::base_room();
    room.replace(room.find(change.first), change.first.size(), change.second);
    testing::write_file(folder / "room.yaml", room);
    CHECK(testing::program(line).status == 2);
    CHECK(testing::read_file(folder / "out/label.pdf") == before);
    CHECK(files_in(folder / "out") ==
          std::vector<std::string>{"label.pdf", "rack.pdf", "sink.pdf"});
  }
}

TEST_CASE("files that are no descriptions are refused in a sentence") {
  const testing::TemporaryFolder folder;
  const auto says = [&](const std::string& name, const std::string& words) {
    const auto run = testing::program("check " + quoted(name));
    INFO(name << ": " << run.err);
    CHECK(run.status == 2);
    CHECK(run.err.find(words) != std::string::npos);
    CHECK(run.out.empty());
  };
  testing::write_file(folder / "empty.yaml", "");
  testing::write_file(folder / "blank.yaml", "\n  \n");
  testing::write_file(folder / "comment.yaml", "# nothing yet\n");
  testing::write_file(folder / "comma.yaml", ",");
  testing::write_file(folder / "large.yaml", std::string(20'000'000, 'a'));
  testing::write_file(folder / "binary.yaml", testing::read_file(PROGRAM).substr(0, 5000));
  testing::write_file(folder / "utf16.yaml", std::string("\xFF\xFEr\0o\0", 6));
  says(folder / "missing.yaml", "cannot read the file: No such file or directory");
  says(folder.path().string(), "this is a folder, not a file");
  says("/dev/null", "this is not a regular file");
  says(folder / "empty.yaml", "the file is empty");
  says(folder / "blank.yaml", "the file is empty");
  says(folder / "comment.yaml", "not a map of keys");
  says(folder / "comma.yaml", "error:");
  says(folder / "large.yaml", "larger than 4 MB");
  says(folder / "binary.yaml", "it is not a");
  says(folder / "utf16.yaml", "UTF-16");
}

TEST_CASE("a byte order mark and Windows line ends are no trouble") {
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "\xEF\xBB\xBF" + std::regex_replace(testing::base_room(), std::regex("\n"), "\r\n"));
  const auto run = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(run.status == 0);
  CHECK(run.err.empty());
}

TEST_CASE("what cannot be written is said, and no part of it stays") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml", testing::base_room());
  const std::string room = quoted(folder / "room.yaml");

  const auto blocked =
      testing::program("print " + room + " --to " + quoted(folder / "room.yaml/out"));
  CHECK(blocked.status == 3);
  CHECK(blocked.err.find("cannot make the folder") != std::string::npos);

  // A file size limit of a few kilobytes fails in the middle of a write, as a full disk does.
  const auto full = testing::shell("trap '' XFSZ; ulimit -f 4; '" PROGRAM "' print " + room +
                                   " --no-record --to " + quoted(folder / "full"));
  CHECK(full.status == 3);
  CHECK(full.err.find("cannot write") != std::string::npos);
  CHECK(files_in(folder / "full").empty());

  const auto font =
      testing::program("print " + room + " --fonts /nonexistent --to " + quoted(folder / "out"));
  CHECK(font.status == 3);
  CHECK(font.err.find("the printing font is missing: /nonexistent/Go-Regular.ttf") !=
        std::string::npos);
  CHECK(files_in(folder / "out").empty());

  const auto templates = testing::program("print " + room + " --templates /nonexistent --to " +
                                          quoted(folder / "out"));
  CHECK(templates.status == 3);
  CHECK(files_in(folder / "out").empty());
}

TEST_CASE("a template with a slip is refused with its line") {
  const testing::TemporaryFolder folder;
  testing::fs::copy(testing::source_folder() / "templates", folder / "looks",
                    testing::fs::copy_options::recursive);
  std::string label = testing::read_file(folder / "looks/labels/stacked.yaml");
  label.replace(label.find("margin: 3.5 mm"), 14, "margin: 3.5");
  testing::write_file(folder / "looks/labels/stacked.yaml", label);
  const auto run = testing::program("check " + quoted(testing::sample()) + " --templates " +
                                    quoted(folder / "looks"));
  CHECK(run.status == 3);
  CHECK(run.err.find("stacked.yaml:3:") != std::string::npos);
  CHECK(run.err.find("error: margin: the unit is missing") != std::string::npos);
}

// Random damage to a good description: whatever comes of it, the program ends in an orderly way.
TEST_CASE("damaged descriptions end in a message, never in a crash") {
  const testing::TemporaryFolder folder;
  const std::string good = testing::base_room();
  unsigned seed = 12345;
  const auto next = [&] { return seed = seed * 1103515245U + 12345U; };
  const std::string junk = ":-[]{}\"'#&*!|>%@`,\n\t 0.9aL/\\";
  for (int i = 0; i < 150; ++i) {
    std::string room = good;
    for (int j = 0; j < 3; ++j) {
      const std::size_t at = (next() >> 8U) % room.size();
      const char c = junk[(next() >> 8U) % junk.size()];
      if ((next() >> 8U) % 2 == 0) {
        room[at] = c;
      } else {
        room.erase(at, (next() >> 8U) % 20);
      }
    }
    testing::write_file(folder / "room.yaml", room);
    const auto run = testing::program("check " + quoted(folder / "room.yaml"));
    INFO(room << "\n----\n" << run.err);
    CHECK((run.status == 0 || run.status == 1 || run.status == 2));
    CHECK((run.status == 0 || !run.err.empty()));
    CHECK(run.err.find("fault of the program") == std::string::npos);
  }
}

// Legitimate descriptions of awkward shapes: every one is printed or refused with its place, and
// what is printed is sound.
TEST_CASE("no paper, name or label shape makes the program stumble") {
  const testing::TemporaryFolder folder;
  const std::string long_name =
      "Sodium thiosulfate dechlorinator for the big buckets by the window";
  int printed = 0;
  for (const char* paper_name : {"A5", "A4", "A3", "Letter", "Tabloid"}) {
    for (const char* orientation_name : {"portrait", "landscape"}) {
      for (const int shape : {0, 1, 2, 3}) {
        const std::string paper = paper_name;
        const std::string orientation = orientation_name;
        std::string room = testing::read_file(testing::sample());
        // Labels have sheets of their own; the next test is about them.
        const std::size_t labels = room.find("  label-dechlorinator:");
        room.erase(labels, room.find("  sink-chart:") - labels);
        const auto replace = [&](const std::string& from, const std::string& to) {
          for (std::size_t at = room.find(from); at != std::string::npos;
               at = room.find(from, at + to.size()))
            room.replace(at, from.size(), to);
        };
        replace("    orientation: landscape\n", "");
        replace("    paper: Letter\n", "");
        replace("    paper: A5\n", "");
        for (const char* type : {"bucket chart", "tank chart", "dose scale", "measuring card"}) {
          const std::string line = std::string("    type: ") + type + "\n";
          replace(line, line + "    paper: " + paper + "\n    orientation: " + orientation + "\n");
        }
        if (shape == 1) replace("name: Dechlorinator", "name: " + long_name);
        if (shape == 2)
          replace("place: above the sink",
                  "place: above the sink, in the corner by the back door, room two of the hatchery "
                  "on the quay");
        if (shape == 3) replace("{name: Vat 1,", "{name: The long stock vat behind the door,");
        testing::write_file(folder / "room.yaml", room);
        const auto run = testing::program("print " + quoted(folder / "room.yaml") + " --to " +
                                          quoted(folder / "out"));
        INFO(paper << ' ' << orientation << ' ' << shape << '\n' << run.err);
        CHECK(run.err.find("fault of the program") == std::string::npos);
        CHECK((run.status == 0 ||
               (run.status == 2 && run.err.find(": error: documents.") != std::string::npos)));
        if (run.status == 0) ++printed;
      }
    }
  }
  CHECK(printed > 15);
}

TEST_CASE("labels of every shape are printed or refused, assessed or not") {
  const testing::TemporaryFolder folder;
  int printed = 0;
  for (const bool assessed : {true, false}) {
    for (const int width : {40, 55, 60, 74, 90, 120, 150, 300}) {
      for (const int height : {40, 60, 105, 165, 300}) {
        std::string room = testing::base_room();
        const std::string hazards =
            "    hazards:\n      statements: [H319]\n      precautions: [P264, P337+P313]\n"
            "      source: its data sheet of 2026-01\n";
        if (!assessed) room.replace(room.find(hazards), hazards.size(), "");
        room.replace(room.find("120 x 90 mm"), 11,
                     std::to_string(width) + " x " + std::to_string(height) + " mm");
        testing::write_file(folder / "room.yaml", room);
        const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                          " --only label --to " + quoted(folder / "out"));
        INFO(width << " x " << height << '\n' << run.err);
        CHECK(run.err.find("fault of the program") == std::string::npos);
        CHECK(run.status != 3);
        if (run.status < 2) ++printed;
      }
    }
  }
  CHECK(printed > 25);
}

TEST_CASE("an answer that does not get out is no answer") {
  CHECK(
      testing::shell("'" PROGRAM "' check " + quoted(testing::sample()) + " > /dev/full").status ==
      3);
}

// Every command line the manual shows in a block of shell text is run as it stands.
TEST_CASE("the commands of the manual work as written") {
  const testing::TemporaryFolder folder;
  std::istringstream manual(testing::read_file(testing::source_folder() / "README.md"));
  bool in_block = false;
  int commands = 0;
  for (std::string line; std::getline(manual, line);) {
    if (line.starts_with("```")) {
      in_block = line == "```sh";
      continue;
    }
    if (!in_block || !line.starts_with("dosewright ")) continue;
    ++commands;
    const auto run =
        testing::shell("cd " + quoted(folder.path().string()) + " && { [ -d samples ] || cp -r " +
                       quoted((testing::source_folder() / "samples").string()) +
                       " samples; } && PATH=$(dirname " + quoted(PROGRAM) + "):$PATH && " + line);
    INFO(line << "\n" << run.err);
    CHECK(run.status == 0);
  }
  CHECK(commands >= 4);
  const std::string text = testing::read_file(testing::source_folder() / "README.md");
  for (const char* script : {"bash samples/demo.sh", "bash tests/run.sh"})
    CHECK(text.find(script) != std::string::npos);
}
