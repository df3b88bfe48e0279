// The print record: lines that lose nothing but themselves, whatever happens to the file.
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdint>
#include <random>
#include <string>

#include "dosewright/record/record.hpp"
#include "dosewright/write/files.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

RecordEntry entry(const std::string& document, const std::string& figure = "1.4 mL") {
  RecordEntry out;
  out.when = "2026-11-26T02:50:00Z";
  out.document = document;
  out.type = "bucket chart";
  out.place = "above\tthe\\sink\n";
  out.revision = "3";
  out.code = "X4 9RF";
  out.digest = digest_of(document + figure);
  out.shows = {{"20 L", figure}, {"5 L = a pail", "0.35 mL"}};
  return out;
}

std::string lines_of(const std::string& document, int count) {
  std::string out;
  for (int i = 0; i < count; ++i) out += record_line(entry(document + std::to_string(i)));
  return out;
}

// Runs `work` in a process of its own.
template <class Work>
pid_t started(const Work& work) {
  const pid_t child = fork();
  if (child == 0) {
    work();
    _exit(0);
  }
  return child;
}

// Or give up after ten seconds: then the checks behind it fail.
void wait_until_longer_than(const std::string& path, std::uintmax_t length) {
  for (int i = 0; i < 100'000; ++i) {
    std::error_code none;
    const std::uintmax_t now = testing::fs::file_size(path, none);
    if (!none && now > length) return;
    (void)usleep(100);
  }
}

}  // namespace

TEST_CASE("record: what is written is read again") {
  const RecordEntry one = entry("sink-chart");
  const std::string line = record_line(one);
  CHECK(std::count(line.begin(), line.end(), '\n') == 1);
  const Record record = read_record(line + record_line(entry("other")));
  REQUIRE(record.entries.size() == 2);
  CHECK(record.damaged.empty());
  const RecordEntry& again = record.entries.front();
  CHECK(again.place == one.place);
  CHECK(again.code == one.code);
  CHECK(again.digest == one.digest);
  REQUIRE(again.shows.size() == 2);
  CHECK(again.shows[1].what == "5 L = a pail");
  CHECK(again.shows[1].figure == "0.35 mL");
}

TEST_CASE("record: the check sum and the digest are FNV-1a") {
  // Test vectors of the IETF draft "The FNV Non-Cryptographic Hash Algorithm", 64 bit.
  CHECK(digest_of("") == "cbf29ce484222325");
  CHECK(digest_of("a") == "af63dc4c8601ec8c");
  CHECK(digest_of("foobar") == "85944171f73967e8");
}

TEST_CASE("record: any one letter changed loses that line alone") {
  const std::string text = lines_of("d", 3);
  std::mt19937 random(7);
  const std::size_t first_end = text.find('\n');
  const std::size_t second_end = text.find('\n', first_end + 1);
  for (int i = 0; i < 300; ++i) {
    std::string changed = text;
    const std::size_t at = first_end + 1 + random() % (second_end - first_end - 1);
    const char other = static_cast<char>('!' + random() % 90);
    if (changed[at] == other) continue;
    changed[at] = other;
    const Record record = read_record(changed);
    // A letter of the version may make it a line of a later program.
    if (record.newer) continue;
    INFO(at << ' ' << other);
    CHECK(record.entries.size() == 2);
    CHECK(record.damaged == std::vector<std::size_t>{2});
  }
}

TEST_CASE("record: a line cut off at any letter loses that line alone") {
  const std::string whole = lines_of("d", 2);
  const std::string last = record_line(entry("last"));
  for (std::size_t cut = 1; cut + 1 < last.size(); ++cut) {
    const Record record = read_record(whole + last.substr(0, cut));
    CHECK(record.entries.size() == 2);
    CHECK(record.damaged.size() == 1);
  }
}

TEST_CASE("record: a later version is seen, whatever else it holds") {
  std::string line = record_line(entry("d"));
  line.replace(line.find("record 2"), 8, "record 3");
  const Record record = read_record(lines_of("d", 1) + line);
  REQUIRE(record.newer);
  CHECK(*record.newer == 2);
  CHECK(record.damaged.empty());
}

TEST_CASE("record: lines of version 1 are read as they are") {
  // As the first version wrote them, with its sum.
  std::string line = record_line(entry("d"));
  line.replace(line.find("record 2"), 8, "record 1");
  CHECK(read_record(line).damaged.size() == 1);
  const std::string old =
      "dosewright record 1\twhen=2026-11-26T02:50:00Z\tdocument=d\ttype=label\tplace=\trevision=\t"
      "code=X4 9RF\tdigest=0123456789abcdef\tshows=20 L\tfigure=1.4 mL\tsum=7bb293a5\n";
  const Record record = read_record(old);
  REQUIRE(record.entries.size() == 1);
  CHECK(record.entries.front().code == "X4 9RF");
  CHECK_FALSE(record.entries.front().bottle);
}

TEST_CASE("record: a bottle is read again as it was written, and its batches are told apart") {
  RecordEntry one = entry("label");
  one.type = "label";
  one.bottle.emplace();
  one.bottle->stock = "salt bath";
  one.bottle->batch = "7";
  one.bottle->container = "jerrycan";
  one.bottle->mixed = "2026-11-25";
  one.bottle->use_by = "2027-11-25";
  one.bottle->by = "J. Adeyemi";
  one.bottle->volume = "1.2 L";
  one.bottle->weighed = {"82 g of salt", "2 g of soda"};
  one.bottle->holds = {"7647-14-5=82", "144-55-8=2"};
  one.bottle->own = true;
  RecordEntry two = one;
  two.bottle->batch = "8";
  const Record record = read_record(record_line(one) + record_line(two) + record_line(one));
  REQUIRE(record.entries.size() == 3);
  REQUIRE(record.entries.front().bottle);
  const BottleEntry& again = *record.entries.front().bottle;
  CHECK(again.stock == one.bottle->stock);
  CHECK(again.container == one.bottle->container);
  CHECK(again.mixed == one.bottle->mixed);
  CHECK(again.use_by == one.bottle->use_by);
  CHECK(again.by == one.bottle->by);
  CHECK(again.volume == one.bottle->volume);
  CHECK(again.weighed == one.bottle->weighed);
  CHECK(again.holds == one.bottle->holds);
  CHECK(again.own);
  CHECK(latest_of(record).size() == 2);
  // What is gone is gone, until it is labelled again.
  RecordEntry gone = one;
  gone.gone = true;
  const std::string lines = record_line(one) + record_line(two) + record_line(gone);
  CHECK(latest_of(read_record(lines)).size() == 1);
  CHECK(latest_of(read_record(lines + record_line(one))).size() == 2);
}

TEST_CASE("record: the last entry of each document counts, and what moved is told") {
  const Record record = read_record(record_line(entry("a", "1 mL")) + record_line(entry("b")) +
                                    record_line(entry("a", "2 mL")));
  const auto latest = latest_of(record);
  REQUIRE(latest.size() == 2);
  CHECK(latest.front()->shows.front().figure == "2 mL");
  RecordEntry now = entry("a", "3 mL");
  now.code = "PC A3Y";
  now.shows.push_back({"60 L", "4 mL"});
  now.shows.erase(now.shows.begin() + 1);
  const auto changes = changes_between(*latest.front(), now);
  REQUIRE(changes.size() == 4);
  CHECK(changes[0].what == "code");
  CHECK(changes[1].was == "2 mL");
  CHECK(changes[1].now == "3 mL");
  CHECK(changes[2].was.empty());
  CHECK(changes[3].now.empty());
}

TEST_CASE("record: eight runs at once do not mix their lines") {
  const testing::TemporaryFolder folder;
  const std::string path = folder / "room.record";
  constexpr int kRuns = 8;
  constexpr int kTimes = 25;
  std::vector<pid_t> children;
  for (int run = 0; run < kRuns; ++run) {
    children.push_back(started([&] {
      for (int i = 0; i < kTimes; ++i)
        if (append_lines(path, lines_of(std::to_string(run) + '-', 3))) _exit(1);
    }));
  }
  for (const pid_t child : children) {
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(status == 0);
  }
  const Record record = read_record(testing::read_file(path));
  CHECK(record.damaged.empty());
  REQUIRE(record.entries.size() == kRuns * kTimes * 3);
  // The lines of one run stand together.
  for (std::size_t i = 0; i < record.entries.size(); i += 3) {
    const std::string& first = record.entries[i].document;
    CHECK(record.entries[i + 2].document.substr(0, 2) == first.substr(0, 2));
  }
}

TEST_CASE("record: killed at any moment it loses nothing that was there") {
  const testing::TemporaryFolder folder;
  const std::string path = folder / "room.record";
  std::mt19937 random(11);
  std::size_t whole = 0;
  std::uintmax_t length = 0;
  for (int i = 0; i < 300; ++i) {
    const pid_t child = started([&] {
      for (;;)
        if (append_lines(path, lines_of("k", 5))) _exit(1);
    });
    // Every third is killed at once, the others somewhere behind their first lines, however slow
    // the machine is.
    if (i % 3 != 0) wait_until_longer_than(path, length);
    (void)usleep(static_cast<useconds_t>(random() % 2000));
    (void)kill(child, SIGKILL);
    REQUIRE(waitpid(child, nullptr, 0) == child);
    const Record record = read_record(testing::read_file(path));
    REQUIRE(record.entries.size() >= whole);
    REQUIRE(record.damaged.size() <= static_cast<std::size_t>(i) + 1);
    whole = record.entries.size();
    length = testing::fs::exists(path) ? testing::fs::file_size(path) : 0;
  }
  CHECK(whole > 0);
  // After all that a new line is read whole.
  REQUIRE_FALSE(append_lines(path, record_line(entry("after"))));
  const Record record = read_record(testing::read_file(path));
  CHECK(record.entries.size() == whole + 1);
  CHECK(record.entries.back().document == "after");
}

TEST_CASE("record: a line begun by a stopped run does not swallow the next") {
  const testing::TemporaryFolder folder;
  const std::string path = folder / "room.record";
  testing::write_file(path, record_line(entry("one")) + "dosewright record 1\twhen=2026");
  REQUIRE_FALSE(append_lines(path, record_line(entry("two"))));
  const Record record = read_record(testing::read_file(path));
  CHECK(record.entries.size() == 2);
  CHECK(record.damaged == std::vector<std::size_t>{2});
}
