// The statement tables of all languages: complete, printable, and worded as an independent data set
// has them. The tables are read as files here, whatever the program makes of them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "dosewright/base/text.hpp"
#include "helpers.hpp"

using dosewright::find_malformed_utf8;
using dosewright::split;
using dosewright::to_characters;
using dosewright::to_nfc;
using dosewright::trimmed;

namespace {

using Cells = std::vector<std::string>;
using Names = std::vector<std::string>;

const Names& languages() {
  static const Names all = {"bg", "cs", "da", "de", "el", "en", "es", "et", "fi", "fr", "ga", "hr",
                            "hu", "it", "lt", "lv", "mt", "nl", "pl", "pt", "ro", "sk", "sl", "sv"};
  return all;
}

// The rows under the heading of a table, comments skipped, every row with the columns it should
// have.
std::vector<Cells> rows_of(const std::string& path, std::size_t columns) {
  INFO(path);
  const std::string text = testing::read_file(testing::source_folder() / path);
  REQUIRE_FALSE(text.empty());
  CHECK_FALSE(find_malformed_utf8(text).has_value());
  std::vector<Cells> rows;
  bool heading = true;
  for (const std::string& line : split(text, '\n')) {
    if (line.empty() || line.front() == '#') continue;
    const Cells cells = split(line, '\t');
    INFO(line);
    REQUIRE(cells.size() == columns);
    for (const std::string& cell : cells) CHECK(trimmed(cell) == cell);
    if (!heading) rows.push_back(cells);
    heading = false;
  }
  REQUIRE_FALSE(rows.empty());
  return rows;
}

struct Worded {
  std::string law;
  std::string print;
  std::string fill;
};

struct Table {
  Names order;
  std::map<std::string, Worded> entries;

  [[nodiscard]] const Worded& at(const std::string& code) const { return entries.at(code); }
  [[nodiscard]] bool has(const std::string& code) const { return entries.count(code) == 1; }
};

Table table_from(const std::string& name) {
  Table table;
  for (const Cells& row : rows_of("templates/hazard/" + name, 4)) {
    table.order.push_back(row[0]);
    table.entries[row[0]] = {row[1], row[2], row[3]};
  }
  return table;
}

const Table& table(const std::string& language) {
  static const std::map<std::string, Table> all = [] {
    std::map<std::string, Table> made;
    for (const std::string& name : languages()) {
      made[name] = table_from("statements_" + name + ".tsv");
    }
    return made;
  }();
  return all.at(language);
}

const Table& united_nations() {
  static const Table made = table_from("statements_un_en.tsv");
  return made;
}

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

bool is_signal(const std::string& code) { return contains(code, "SIGNAL."); }
// A row of our own: a signal word or a complete sentence put together from the law's words.
bool is_ours(const std::string& code) { return contains(code, "."); }
bool has_blank(const Worded& entry) { return contains(entry.print, "{1}"); }

std::set<std::string> words_of(const std::string& text) {
  std::set<std::string> words;
  for (const std::string& word : split(text, ' ')) {
    if (!word.empty()) words.insert(word);
  }
  return words;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

void shrink(std::string& text, std::string_view from, std::string_view to) {
  while (contains(text, from)) replace_all(text, from, to);
}

// The wording alone: parts in angle brackets, spacing, the form of the apostrophe and the final
// stop taken away.
std::string wording(std::string text) {
  for (std::size_t open = text.find('<'); open != std::string::npos; open = text.find('<')) {
    const std::size_t close = text.find('>', open);
    if (close == std::string::npos) break;
    text.erase(open, close - open + 1);
  }
  for (const char* apostrophe : {"\u2019", "\u2018"}) replace_all(text, apostrophe, "'");
  replace_all(text, "\u00a0", " ");
  shrink(text, "  ", " ");
  for (const char* sign : {".", ",", ";", ":", "!", "?", "/", "…", "°", ")", "]"}) {
    shrink(text, std::string(" ") + sign, sign);
  }
  for (const char* sign : {"/", "(", "[", "…"}) shrink(text, std::string(sign) + " ", sign);
  while (!text.empty() && (text.back() == '.' || text.back() == ' ')) text.pop_back();
  return trimmed(text);
}

}  // namespace

TEST_CASE("statement data: every language holds the codes of the English, Irish but for 17") {
  const std::set<std::string> missing_in_irish = {
      "H350i",  "H360F",  "H360D",  "H360FD", "H360Fd", "H360Df", "H361f",  "H361d", "H361fd",
      "EUH380", "EUH381", "EUH430", "EUH431", "EUH440", "EUH441", "EUH450", "EUH451"};
  CHECK(missing_in_irish.size() == 17);
  for (const std::string& language : languages()) {
    INFO(language);
    const Table& its = table(language);
    CHECK(its.order.size() == its.entries.size());  // no code twice
    Names expected;
    for (const std::string& code : table("en").order) {
      if (language != "ga" || missing_in_irish.count(code) == 0) expected.push_back(code);
    }
    CHECK(its.order == expected);
  }
  CHECK(united_nations().order.size() == united_nations().entries.size());
}

TEST_CASE("statement data: variants and signal words are there and complete") {
  const Names variants = {"P280.gloves",   "P280.eyes",     "P280.gloves+eyes", "P280.all",
                          "P260.dust",     "P260.mist",     "P260.gas",         "P260.vapours",
                          "P261.dust",     "P261.mist",     "P261.gas",         "P261.vapours",
                          "SIGNAL.danger", "SIGNAL.warning"};
  for (const std::string& language : languages()) {
    INFO(language);
    const Table& its = table(language);
    for (const std::string& code : variants) {
      INFO(code);
      REQUIRE(its.has(code));
      CHECK(its.at(code).law.empty());
      CHECK(its.at(code).fill.empty());
      CHECK_FALSE(contains(its.at(code).print, "{"));
      CHECK_FALSE(its.at(code).print.empty());
    }
    for (const std::string& code : its.order) {
      if (is_ours(code)) CHECK(std::count(variants.begin(), variants.end(), code) == 1);
    }
  }
  // Read in the tables of label elements, CLP Annex I, in these languages.
  CHECK(table("en").at("SIGNAL.danger").print == "Danger");
  CHECK(table("en").at("SIGNAL.warning").print == "Warning");
  CHECK(table("de").at("SIGNAL.danger").print == "Gefahr");
  CHECK(table("de").at("SIGNAL.warning").print == "Achtung");
  CHECK(table("cs").at("SIGNAL.danger").print == "Nebezpečí");
  CHECK(table("cs").at("SIGNAL.warning").print == "Varování");
}

TEST_CASE("statement data: choices, blanks and optional parts are resolved") {
  std::vector<std::pair<std::string, const Table*>> tables = {{"un_en", &united_nations()}};
  for (const std::string& language : languages()) tables.emplace_back(language, &table(language));
  for (const auto& [name, its] : tables) {
    for (const auto& [code, entry] : its->entries) {
      INFO(name << " " << code << ": " << entry.print);
      for (const char* raw : {"…", "[", "]", "<", ">", "..", "  ", " .", " ,", "\"", "”", "»"}) {
        CHECK_FALSE(contains(entry.print, raw));
        CHECK_FALSE(contains(entry.fill, raw));
      }
      CHECK(to_nfc(entry.print + entry.fill) == entry.print + entry.fill);
      CHECK_FALSE(contains(entry.fill, "/"));
      // "and/or" is no choice of the supplier's, and the law of these two joins a noun with a
      // slash.
      const bool slash_is_the_laws =
          code == "H231" || (code == "EUH018" && (name == "de" || name == "hu"));
      if (!slash_is_the_laws) CHECK_FALSE(contains(entry.print, "/"));
      const auto braces = std::count(entry.print.begin(), entry.print.end(), '{');
      CHECK(braces == (has_blank(entry) ? 1 : 0) + (contains(entry.print, "{2}") ? 1 : 0));
      CHECK(contains(entry.print, "{2}") == (code == "P413"));
      if (!entry.fill.empty()) CHECK(has_blank(entry));
      if (!is_signal(code)) CHECK((entry.print.back() == '.' || entry.print.back() == ':'));
      if (!is_ours(code)) CHECK_FALSE(entry.law.empty());
    }
  }
}

TEST_CASE("statement data: blanks the user must fill are few and known") {
  const std::set<std::string> to_fill = {
      "EUH018", "EUH208", "P230", "P241", "P250", "P260", "P261",      "P280",
      "P320",   "P321",   "P378", "P401", "P411", "P413", "P370+P378", "P370+P380+P375+P378"};
  // Where grammar or the law's own wording leaves nothing to fill in.
  const std::map<std::string, std::set<std::string>> without_blank = {
      {"bg", {"P264"}},      {"lt", {"P250"}},   {"hu", {"P406"}},
      {"ga", {"P302+P352"}}, {"cs", {"EUH018"}}, {"es", {"EUH018"}},
      {"lv", {"EUH018"}},    {"mt", {"EUH018"}}, {"pl", {"EUH018"}}};
  for (const std::string& language : languages()) {
    INFO(language);
    std::set<std::string> open;
    std::set<std::string> missing;
    for (const auto& [code, entry] : table(language).entries) {
      INFO(code);
      const Worded& english = table("en").at(code);
      if (has_blank(entry) && entry.fill.empty()) open.insert(code);
      if (has_blank(english) && !has_blank(entry)) missing.insert(code);
      if (has_blank(entry)) {
        CHECK(has_blank(english));
        CHECK(entry.fill.empty() == english.fill.empty());
        CHECK((entry.fill == "(empty)") == (english.fill == "(empty)"));
      }
    }
    const auto known = without_blank.find(language);
    CHECK(missing == (known == without_blank.end() ? std::set<std::string>{} : known->second));
    std::set<std::string> expected = to_fill;
    for (const std::string& code : missing) expected.erase(code);
    CHECK(open == expected);
  }
  for (const auto& [code, entry] : united_nations().entries) {
    INFO(code);
    if (has_blank(entry) && entry.fill.empty()) {
      CHECK((to_fill.count(code) == 1 || code == "P236"));
    }
  }
}

TEST_CASE("statement data: both printing fonts have every letter") {
  std::set<char32_t> letters;
  const auto collect = [&](const Table& its) {
    for (const auto& [code, entry] : its.entries) {
      for (const char32_t c : to_characters(entry.print + entry.fill)) letters.insert(c);
    }
  };
  for (const std::string& language : languages()) collect(table(language));
  collect(united_nations());
  for (const char32_t expected : {U'ș', U'ț', U'ġ', U'ħ', U'ċ', U'ő', U'ю', U'ώ', U'ķ', U'ł'}) {
    CHECK(letters.count(expected) == 1);
  }
  for (const char32_t c : letters) {
    INFO("U+" << std::hex << static_cast<unsigned>(c));
    CHECK(testing::fonts().covers(c));
  }
}

// Letters that look alike in two scripts would print, but not be found, copied or read aloud.
TEST_CASE("statement data: no word mixes scripts") {
  const auto script = [](char32_t c) {
    if ((c >= U'A' && c <= U'Z') || (c >= U'a' && c <= U'z')) return 1;
    if (c >= 0x370 && c <= 0x3FF) return 2;
    if (c >= 0x400 && c <= 0x4FF) return 3;
    return 0;
  };
  for (const std::string& language : languages()) {
    for (const auto& [code, entry] : table(language).entries) {
      INFO(language << " " << code);
      for (const std::string& word : words_of(entry.print + " " + entry.fill)) {
        INFO(word);
        std::set<int> scripts;
        for (const char32_t c : to_characters(word)) {
          if (script(c) != 0) scripts.insert(script(c));
        }
        CHECK(scripts.size() <= 1);
      }
    }
  }
}

// The law itself names one way into the body twice and another not at all (consolidated version
// 2025-09-01); printed is what the statements for the single ways say.
TEST_CASE("statement data: slips of the law that turn the sense are mended in print") {
  const std::vector<std::vector<std::string>> slips = {{"da", "H302+H312+H332", "indtagelse"},
                                                       {"el", "H301+H311+H331", "εισπνοής"},
                                                       {"sv", "H311+H331", "inandning"}};
  for (const auto& slip : slips) {
    INFO(slip[0] << " " << slip[1]);
    CHECK_FALSE(contains(table(slip[0]).at(slip[1]).law, slip[2]));
    CHECK(contains(table(slip[0]).at(slip[1]).print, slip[2]));
  }
}

TEST_CASE("statement data: codes.tsv knows every code once") {
  std::set<std::string> known;
  for (const Cells& row : rows_of("templates/hazard/codes.tsv", 4)) {
    INFO(row[0]);
    CHECK(known.insert(row[0]).second);
    CHECK((table("en").has(row[0]) || united_nations().has(row[0])));
    const bool hazard = row[0].front() != 'P';
    CHECK(row[1] == (hazard ? "H" : "P"));
    CHECK(row[2].empty() == !hazard);
    CHECK(row[3].empty() == !hazard);
  }
  for (const Table* its : {&table("en"), &united_nations()}) {
    for (const std::string& code : its->order) {
      INFO(code);
      if (!is_ours(code)) CHECK(known.count(code) == 1);
    }
  }
}

TEST_CASE("statement data: the classes name known codes and agree with codes.tsv") {
  std::map<std::string, Cells> codes;
  for (const Cells& row : rows_of("templates/hazard/codes.tsv", 4)) codes[row[0]] = row;
  std::map<std::string, std::set<std::string>> signals;
  std::map<std::string, std::set<std::string>> pictograms;
  std::set<std::string> seen;
  for (const Cells& row : rows_of("templates/hazard/classes.tsv", 10)) {
    INFO(row[0] << " " << row[1] << " " << row[2]);
    const bool european = row[0] == "CLP";
    CHECK((european || row[0] == "UN" || row[0] == "US"));
    CHECK(seen.insert(row[0] + '\t' + row[1] + '\t' + row[2]).second);
    CHECK((row[3] == "Danger" || row[3] == "Warning" || row[3] == "none"));
    CHECK((row[9].rfind("READ", 0) == 0 || row[9].rfind("MEMORY", 0) == 0));
    for (const std::string& code : words_of(row[2])) {
      INFO(code);
      REQUIRE(codes.count(code) == 1);
      if (european) {
        CHECK(table("en").has(code));
        signals[code].insert(row[3]);
        pictograms[code].insert(row[4]);
      }
    }
    for (std::size_t column = 5; column <= 8; ++column) {
      for (const std::string& code : words_of(row[column])) {
        INFO(code);
        if (european) {
          for (const std::string& language : languages()) CHECK(table(language).has(code));
        } else {
          CHECK((table("en").has(code) || united_nations().has(code)));
        }
      }
    }
  }
  for (const auto& [code, its] : signals) {
    INFO(code);
    CHECK(codes[code][2] == (its.size() == 1 ? *its.begin() : "varies"));
    CHECK(codes[code][3] == (pictograms[code].size() == 1 ? *pictograms[code].begin() : "varies"));
  }
  // Every hazard statement of CLP that a class can bear, joint and supplemental ones apart.
  for (const std::string& code : table("en").order) {
    if (code.front() != 'H' || contains(code, "+")) continue;
    INFO(code);
    CHECK(signals.count(code) == 1);
  }
}

// Annex I, tables 3.1.3, 3.4.7, 2.13.2 (reachlex.eu, consolidated version 2025-09-01).
TEST_CASE("statement data: classes as the tables of the law have them") {
  std::map<std::string, Cells> rows;
  for (const Cells& row : rows_of("templates/hazard/classes.tsv", 10)) {
    if (row[0] == "CLP") rows[row[1] + " " + row[2]] = row;
  }
  CHECK(rows.at("Acute Tox. 4 H302")[5] == "P264 P270");
  CHECK(rows.at("Acute Tox. 4 H302")[6] == "P301+P312 P330");
  CHECK(rows.at("Acute Tox. 3 H311")[6] == "P302+P352 P312 P321 P361+P364");
  CHECK(rows.at("Skin Sens. 1A H317")[6] == "P302+P352 P333+P313 P321 P362+P364");
  CHECK(rows.at("Resp. Sens. 1 H334")[6] == "P304+P340 P342+P311");
  CHECK(rows.at("Ox. Liq. 1 H271")[6] == "P306+P360 P371+P380+P375 P370+P378");
  CHECK(rows.at("Ox. Liq. 2 H272")[3] == "Danger");
  CHECK(rows.at("Ox. Liq. 3 H272")[3] == "Warning");
}

// Compared with the wording of 2008-12-16 as the LaTeX package ghsystem 4.8c gathered it (Debian
// texlive-science 2022.20230122-4), independently of where our wording comes from.
TEST_CASE("statement data: every difference from an independent data set is explained") {
  std::map<std::string, std::string> others;
  for (const Cells& row : rows_of("tests/data/statements_2008.tsv", 3)) {
    CHECK(others.emplace(row[0] + ' ' + row[1], row[2]).second);
  }
  std::map<std::string, std::string> reasons;
  for (const Cells& row : rows_of("tests/data/differences_2008.tsv", 3)) {
    INFO(row[0] << " " << row[1]);
    CHECK(reasons.emplace(row[0] + ' ' + row[1], row[2]).second);
    CHECK_FALSE(row[2].empty());
  }
  std::set<std::string> different;
  std::size_t alike = 0;
  for (const std::string& language : Names{"en", "de", "fr", "es", "it"}) {
    for (const auto& [code, entry] : table(language).entries) {
      if (is_ours(code)) continue;
      const auto other = others.find(language + ' ' + code);
      if (other != others.end() && wording(other->second) == wording(entry.law)) {
        ++alike;
      } else {
        different.insert(language + ' ' + code);
      }
    }
  }
  for (const auto& [key, text] : others) {
    const std::size_t blank = key.find(' ');
    if (!table(key.substr(0, blank)).has(key.substr(blank + 1))) different.insert(key);
  }
  for (const std::string& key : different) {
    INFO(key);
    CHECK(reasons.count(key) == 1);
  }
  for (const auto& [key, reason] : reasons) {
    INFO(key << ": " << reason);
    CHECK(different.count(key) == 1);
  }
  CHECK(others.size() == 5 * 233);
  CHECK(alike > 800);
}
