// The architecture, checked: which folder may include which, and that the documents name them.
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "../../src/check/keys.hpp"
#include "dosewright/base/text.hpp"
#include "helpers.hpp"

namespace {

namespace fs = std::filesystem;

using Names = std::set<std::string>;

// Folder -> the project's folders it may include, besides itself. The arrows go one way.
const std::map<std::string, Names>& allowed() {
  static const std::map<std::string, Names> table = {
      {"base", {}},
      {"units", {"base"}},
      {"model", {"base", "units"}},
      {"vessel", {"base", "units"}},
      {"read", {"base"}},
      {"hazard", {"base", "units", "model"}},
      {"check", {"base", "units", "model", "read", "hazard", "measure", "mix", "dose", "vessel"}},
      {"mix", {"base", "units", "model", "measure"}},
      {"dose", {"base", "units", "model", "mix"}},
      {"measure", {"base", "units", "model"}},
      {"supply", {"base", "units"}},
      {"answer", {"base", "units", "model", "mix", "dose", "measure", "hazard", "supply"}},
      {"wording", {"base", "units", "model", "mix", "dose", "measure", "hazard", "answer"}},
      {"layout", {"base", "units", "model", "dose", "wording"}},
      {"render", {"base", "layout"}},
      {"write", {"base"}},
      {"record", {"base"}},
      {"app",
       {"base", "units", "model", "read", "check", "mix", "dose", "measure", "hazard", "answer",
        "wording", "layout", "render", "write", "record"}},
  };
  return table;
}

// The library a header belongs to -> the only folder that may include it.
const std::map<std::string, std::string>& owners() {
  static const std::map<std::string, std::string> table = {
      {"yaml-cpp/", "read"}, {"hpdf", "render"},   {"cairo", "render"}, {"ft2build.h", "render"},
      {"CLI/", "app"},       {"nlohmann/", "app"}, {"unistr", "base"},  {"uninorm", "base"},
      {"unilbrk", "base"},   {"unicase", "base"},
  };
  return table;
}

std::string folder_of(const fs::path& file) {
  for (const auto& part : file.parent_path()) {
    if (allowed().contains(part.string())) return part.string();
  }
  return "";
}

std::vector<fs::path> sources() {
  std::vector<fs::path> out;
  for (const char* top : {"src", "include"}) {
    for (const auto& entry : fs::recursive_directory_iterator(testing::source_folder() / top)) {
      const auto extension = entry.path().extension();
      if (extension == ".cpp" || extension == ".hpp") out.push_back(entry.path());
    }
  }
  return out;
}

// Why an #include is not allowed in this folder; empty when it is.
std::string objection(const std::string& folder, const std::string& header) {
  const std::string own = "dosewright/";
  if (header.starts_with(own)) {
    const std::string other = header.substr(own.size(), header.find('/', own.size()) - own.size());
    if (other == folder || allowed().at(folder).contains(other)) return "";
    return folder + " must not include " + other;
  }
  for (const auto& [library, owner] : owners()) {
    if (header.starts_with(library) && owner != folder) return folder + " must not know " + header;
  }
  return "";
}

}  // namespace

TEST_CASE("no layer includes what it must not") {
  const std::regex include(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
  std::size_t seen = 0;
  for (const fs::path& file : sources()) {
    const std::string folder = folder_of(fs::relative(file, testing::source_folder()));
    if (folder.empty()) continue;  // main.cpp
    std::istringstream lines(testing::read_file(file));
    for (std::string line; std::getline(lines, line);) {
      std::smatch found;
      if (!std::regex_search(line, found, include)) continue;
      ++seen;
      INFO(file);
      CHECK(objection(folder, found[1]) == "");
    }
  }
  CHECK(seen > 150);
}

TEST_CASE("the layer check sees a forbidden include") {
  CHECK(objection("layout", "yaml-cpp/yaml.h") == "layout must not know yaml-cpp/yaml.h");
  CHECK(objection("measure", "dosewright/layout/documents.hpp") ==
        "measure must not include layout");
  CHECK(objection("read", "dosewright/units/parse.hpp") == "read must not include units");
  CHECK(objection("app", "dosewright/layout/documents.hpp").empty());
}

TEST_CASE("main holds nothing but argv and the exit status") {
  const std::string text = testing::read_file(testing::source_folder() / "src/main.cpp");
  CHECK(std::count(text.begin(), text.end(), '\n') < 20);
}

TEST_CASE("the guide names every folder and the manual every key") {
  const std::string guide = testing::read_file(testing::source_folder() / "DEVELOPERS.md");
  for (const auto& [folder, unused] : allowed()) {
    INFO(folder);
    CHECK(guide.find('/' + folder + '/') != std::string::npos);
  }
  const std::string manual = testing::read_file(testing::source_folder() / "README.md");
  namespace keys = dosewright::keys;
  for (const auto* list :
       {&keys::kTop, &keys::kRoom, &keys::kProduct, &keys::kStock, &keys::kDose, &keys::kHazards,
        &keys::kContainer, &keys::kTool, &keys::kVessel, &keys::kJoined, &keys::kSubstrate,
        &keys::kTracer, &keys::kLabel, &keys::kSheet, &keys::kBucketChart, &keys::kTankChart}) {
    for (const std::string& key : *list) {
      INFO(key);
      CHECK(manual.find('`' + key + '`') != std::string::npos);
    }
  }
}

TEST_CASE("files stay short enough to be read") {
  for (const fs::path& file : sources()) {
    const std::string text = testing::read_file(file);
    INFO(file);
    CHECK(std::count(text.begin(), text.end(), '\n') <= 600);
  }
}

TEST_CASE("every header says what it is for and guards itself") {
  for (const fs::path& file : sources()) {
    if (file.extension() != ".hpp") continue;
    const std::string text = testing::read_file(file);
    INFO(file);
    CHECK(text.starts_with("// "));
    CHECK(text.find("#pragma once") != std::string::npos);
  }
}
