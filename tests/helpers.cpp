#include "helpers.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "dosewright/read/file.hpp"
#include "dosewright/read/tree.hpp"

namespace testing {

namespace {

// The day on which the tests live: dates on the samples' labels must not run out.
const bool kDayIsSet = setenv("SOURCE_DATE_EPOCH", "1795694400", 0) == 0;  // 2026-11-26 12:00

}  // namespace

Run shell(const std::string& command) {
  if (!kDayIsSet) throw std::runtime_error("no day for the tests to live on");
  const TemporaryFolder folder;
  const std::string both =
      "{ " + command + "\n} >'" + (folder / "out") + "' 2>'" + (folder / "err") + "'";
  const int raw = std::system(both.c_str());
  Run run;
  run.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw);
  run.out = read_file(folder / "out");
  run.err = read_file(folder / "err");
  return run;
}

Run program(const std::string& arguments) {
  // The record has tests of its own; all others leave the folder of their description alone.
  const bool prints =
      arguments.starts_with("print ") && arguments.find("-record") == std::string::npos;
  return shell(std::string("'" PROGRAM "' ") + arguments + (prints ? " --no-record" : ""));
}

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void write_file(const fs::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
}

TemporaryFolder::TemporaryFolder() {
  std::string name = (fs::temp_directory_path() / "dosewright-test-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path source_folder() { return SOURCE_FOLDER; }
std::string sample() { return (source_folder() / "samples/millrace/room.yaml").string(); }

ReadRoom read_room(const std::string& text) {
  ReadRoom out;
  const auto source =
      std::make_shared<dosewright::SourceText>(dosewright::SourceText{"room.yaml", text});
  const auto tree = dosewright::read_tree(source, out.problems);
  if (tree)
    out.room =
        dosewright::check_room(*tree, {statement_book(), class_book(), knowledge()}, out.problems);
  return out;
}

const dosewright::StatementBook& statement_book() {
  static const dosewright::StatementBook book = [] {
    const std::string codes = read_file(source_folder() / "templates/hazard/codes.tsv");
    const std::string words = read_file(source_folder() / "templates/hazard/statements_en.tsv");
    auto made = dosewright::StatementBook::from_tables({codes, words, ""});
    return std::get<dosewright::StatementBook>(std::move(made));
  }();
  return book;
}

const dosewright::ClassBook& class_book() {
  static const dosewright::ClassBook book =
      std::get<dosewright::ClassBook>(dosewright::ClassBook::from_table(
          read_file(source_folder() / "templates/hazard/classes.tsv")));
  return book;
}

const dosewright::Knowledge& knowledge() {
  static const dosewright::Knowledge made = [] {
    const auto tree_of = [](const std::string& name, dosewright::Diagnostics& problems) {
      const fs::path path = source_folder() / "templates/hazard" / name;
      const auto text =
          std::make_shared<dosewright::SourceText>(dosewright::SourceText{name, read_file(path)});
      return dosewright::read_tree(text, problems).value();
    };
    dosewright::Diagnostics problems;
    const auto substances = tree_of("substances.yaml", problems);
    const auto incompatibles = tree_of("incompatibles.yaml", problems);
    auto known = dosewright::check_knowledge(substances, incompatibles, class_book(), problems);
    for (const auto& problem : problems) throw std::runtime_error(dosewright::format(problem));
    return std::move(known).value();
  }();
  return made;
}

const dosewright::HazardSources& hazard_sources() {
  static const dosewright::HazardSources sources{statement_book(), class_book(), knowledge()};
  return sources;
}

dosewright::HazardClass hazard_class(const std::string& text) {
  return std::get<dosewright::HazardClass>(class_book().parse(text));
}

const dosewright::Fonts& fonts() {
  static const auto loaded = std::get<0>(dosewright::Fonts::load(dosewright::kFontFolder));
  return *loaded;
}

Picture read_png(const fs::path& path) {
  const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
      cairo_image_surface_create_from_png(path.c_str()), cairo_surface_destroy);
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error("not a picture: " + path.string());
  }
  Picture out;
  out.width = cairo_image_surface_get_width(surface.get());
  out.height = cairo_image_surface_get_height(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      const unsigned char* pixel = data + y * stride + x * 4;
      out.pixels.insert(out.pixels.end(), {pixel[2], pixel[1], pixel[0]});
    }
  }
  return out;
}

double difference(const Picture& a, const Picture& b) {
  if (a.width != b.width || a.height != b.height || a.pixels.empty()) return 1;
  std::size_t differing = 0;
  for (std::size_t i = 0; i < a.pixels.size(); i += 3) {
    bool differs = false;
    for (std::size_t c = 0; c < 3; ++c) {
      differs = differs || std::abs(a.pixels[i + c] - b.pixels[i + c]) > 16;
    }
    if (differs) ++differing;
  }
  return static_cast<double>(differing) / (static_cast<double>(a.pixels.size()) / 3);
}

Picture means(const Picture& fine, int side) {
  Picture out{fine.width / side, fine.height / side, {}};
  std::vector<int> sums(static_cast<std::size_t>(out.width * out.height) * 3);
  for (int y = 0; y < out.height * side; ++y) {
    const unsigned char* row = fine.pixels.data() + static_cast<std::ptrdiff_t>(y) * fine.width * 3;
    int* sum = sums.data() + static_cast<std::ptrdiff_t>(y / side) * out.width * 3;
    for (int x = 0; x < out.width * side; ++x) {
      for (int channel = 0; channel < 3; ++channel)
        sum[x / side * 3 + channel] += row[x * 3 + channel];
    }
  }
  for (const int sum : sums) out.pixels.push_back(static_cast<unsigned char>(sum / (side * side)));
  return out;
}

Picture part_of(const Picture& picture, int width, int height) {
  Picture out{std::min(width, picture.width), std::min(height, picture.height), {}};
  for (int y = 0; y < out.height; ++y) {
    const auto row = picture.pixels.begin() + static_cast<std::ptrdiff_t>(y) * picture.width * 3;
    out.pixels.insert(out.pixels.end(), row, row + static_cast<std::ptrdiff_t>(out.width) * 3);
  }
  return out;
}

std::string with_keyboard_quotes(std::string text) {
  const std::pair<std::string, std::string> pairs[] = {{"’", "'"}, {"“", "\""}, {"”", "\""}};
  for (const auto& [printed, written] : pairs) {
    for (std::size_t at = text.find(printed); at != std::string::npos; at = text.find(printed, at))
      text.replace(at, printed.size(), written);
  }
  return text;
}

std::string base_room() { return read_file(source_folder() / "tests/messages/base.yaml"); }

dosewright::ChartStyle chart_style() {
  dosewright::Diagnostics problems;
  const auto text =
      dosewright::read_text_file((source_folder() / "templates/charts/plain.yaml").string());
  const auto tree = dosewright::read_tree(std::get<0>(text), problems);
  return *dosewright::check_chart_style(*tree, problems);
}

dosewright::PaperSize paper(double width_mm, double height_mm) {
  return {"paper", dosewright::millimetres(width_mm), dosewright::millimetres(height_mm)};
}

}  // namespace testing
