// The whole text of every message a wrong description can give. The cases stand in
// tests/messages/cases.txt: a change to base.yaml, then what `check` must print, caret and all.
// DOSEWRIGHT_UPDATE=1 writes the present texts into the file, to be read before they are committed.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "helpers.hpp"

namespace {

struct Case {
  std::string name;
  std::string from;
  std::string to;
  std::string says;
};

constexpr const char* kCase = "=== ";
constexpr const char* kBecomes = "--- becomes\n";
constexpr const char* kSays = "--- says\n";

std::vector<Case> read_cases(const std::string& text) {
  std::vector<Case> cases;
  std::size_t at = text.find(kCase);
  while (at != std::string::npos) {
    std::size_t next = text.find(std::string("\n") + kCase, at);
    const std::string part = text.substr(at, next == std::string::npos ? next : next + 1 - at);
    const std::size_t line = part.find('\n') + 1;
    const std::size_t becomes = part.find(kBecomes);
    const std::size_t says = part.find(kSays);
    REQUIRE(becomes != std::string::npos);
    REQUIRE(says != std::string::npos);
    const std::size_t to = becomes + std::string(kBecomes).size();
    cases.push_back({part.substr(4, line - 5), part.substr(line, becomes - line),
                     part.substr(to, says - to), part.substr(says + std::string(kSays).size())});
    at = next == std::string::npos ? next : next + 1;
  }
  return cases;
}

std::string as_text(const std::vector<Case>& cases) {
  std::string out;
  for (const Case& one : cases)
    out += kCase + one.name + '\n' + one.from + kBecomes + one.to + kSays + one.says;
  return out;
}

// The escapes \0, \t and \xFF let the file itself stay plain text.
std::string unescaped(std::string text) {
  const std::pair<std::string, std::string> escapes[] = {
      {"\\0", std::string(1, '\0')}, {"\\t", "\t"}, {"\\xFF", "\xFF"}};
  for (const auto& [written, meant] : escapes) {
    for (std::size_t at = text.find(written); at != std::string::npos;
         at = text.find(written, at + meant.size())) {
      text.replace(at, written.size(), meant);
    }
  }
  return text;
}

std::string changed_room(const Case& one) {
  std::string room = testing::base_room();
  if (one.from.empty()) return unescaped(one.to);
  const std::size_t at = room.find(one.from);
  INFO(one.name << " changes lines that base.yaml does not have");
  REQUIRE(at != std::string::npos);
  return room.replace(at, one.from.size(), unescaped(one.to));
}

}  // namespace

TEST_CASE("every message says where, what and what to write instead") {
  const auto path = testing::source_folder() / "tests/messages/cases.txt";
  std::vector<Case> cases = read_cases(testing::read_file(path));
  CHECK(cases.size() >= 40);
  const bool update = std::getenv("DOSEWRIGHT_UPDATE") != nullptr;
  const testing::TemporaryFolder folder;
  for (Case& one : cases) {
    testing::write_file(folder / "room.yaml", changed_room(one));
    const auto run =
        testing::shell("cd '" + folder.path().string() + "' && '" PROGRAM "' check room.yaml");
    INFO(one.name);
    const bool finding_only = run.err.find(": error: ") == std::string::npos;
    CHECK(run.status == (finding_only ? 1 : 2));
    if (update) {
      one.says = run.err;
    } else {
      CHECK(run.err == one.says);
    }
  }
  if (update) testing::write_file(path, as_text(cases));
}

TEST_CASE("the unchanged description has nothing to mend") {
  const auto run = testing::program(
      "check '" + (testing::source_folder() / "tests/messages/base.yaml").string() + "'");
  CHECK(run.status == 0);
  CHECK(run.err.empty());
}
