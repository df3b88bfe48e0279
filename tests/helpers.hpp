// Running the program and reading what it made; shared by all tests.
#pragma once

#include <cairo.h>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/render/fonts.hpp"

namespace testing {

namespace fs = std::filesystem;

/// What a command came to.
struct Run {
  int status = -1;
  std::string out;
  std::string err;
};

/// Runs a shell command.
Run shell(const std::string& command);

/// Runs the program with these (already quoted) arguments.
Run program(const std::string& arguments);

std::string read_file(const fs::path& path);
void write_file(const fs::path& path, const std::string& text);

/// A fresh folder that is removed with everything in it.
class TemporaryFolder {
 public:
  TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder();
  const fs::path& path() const { return path_; }
  std::string operator/(const std::string& name) const { return (path_ / name).string(); }

 private:
  fs::path path_;
};

fs::path source_folder();
std::string sample();  ///< path of the sample room

/// A description read and checked in memory; `problems` holds what was wrong.
struct ReadRoom {
  std::optional<dosewright::Room> room;
  dosewright::Diagnostics problems;
};
ReadRoom read_room(const std::string& text);
const dosewright::StatementBook& statement_book();
const dosewright::ClassBook& class_book();
const dosewright::Knowledge& knowledge();  ///< as it ships
const dosewright::HazardSources& hazard_sources();
/// A class as a description writes it, such as "Acute Tox. 4 H302".
dosewright::HazardClass hazard_class(const std::string& text);
const dosewright::Fonts& fonts();

/// The chart template as it ships.
dosewright::ChartStyle chart_style();
dosewright::PaperSize paper(double width_mm, double height_mm);

/// A picture as rows of 8-bit red, green, blue.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> pixels;
};
Picture read_png(const fs::path& path);

/// Share of pixels of which some channel differs by more than 16 of 255. 1 when sizes differ.
double difference(const Picture& a, const Picture& b);

/// Means of squares of `side` pixels; what is left at the right and the foot is left off.
Picture means(const Picture& fine, int side);
/// The upper left part.
Picture part_of(const Picture& picture, int width, int height);

/// ' and " for what is printed as ’ and “ ”, so that words can be looked for as they are written.
std::string with_keyboard_quotes(std::string text);

/// The smallest complete description; tests change a line of it.
std::string base_room();

}  // namespace testing
