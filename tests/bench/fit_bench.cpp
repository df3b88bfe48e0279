// What it costs to find the largest type for a label, over what it costs to write the found label
// as a PDF: a ratio, since a machine's own speed says nothing. Not a test: run it by hand.
#include <chrono>
#include <cstdio>

#include "dosewright/check/check.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/read/tree.hpp"
#include "dosewright/render/render.hpp"
#include "helpers.hpp"

namespace {

using namespace dosewright;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

LabelStyle design(const std::string& name) {
  const auto path = testing::source_folder() / "templates/labels" / (name + ".yaml");
  Diagnostics problems;
  const auto text = std::get<std::shared_ptr<const SourceText>>(read_text_file(path.string()));
  return *check_label_style(*read_tree(text, problems), problems);
}

// Every label of a sample whose sheet is stated, in one design.
void compare(const char* sample, const char* name) {
  const auto read = testing::read_room(
      testing::read_file(testing::source_folder() / "samples" / sample / "room.yaml"));
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  const LabelStyle style = design(name);
  double fitting = 0;
  double writing = 0;
  int labels = 0;
  constexpr int kRounds = 5;
  for (const Document& document : read.room->documents) {
    if (document.type != Document::Type::label) continue;
    const LabelContent content = label_content(answers, document.label, ErrorShown::measuring);
    for (int i = 0; i < kRounds; ++i) {
      auto start = Clock::now();
      const auto pages = lay_out_label(content, document.label.sheet, style, testing::fonts());
      if (!std::holds_alternative<Pages>(pages)) break;
      fitting += seconds_since(start);
      start = Clock::now();
      (void)render_pdf(std::get<Pages>(pages), {"label", "bench", std::nullopt}, testing::fonts());
      writing += seconds_since(start);
      ++labels;
    }
  }
  if (labels == 0) return;
  std::printf("%-10s %-10s fit / PDF = %5.2f   (%.1f ms a label)\n", sample, name,
              fitting / writing, 1e3 * fitting / labels);
}

}  // namespace

int main() {
  for (const char* sample : {"millrace", "ferrystep"}) {
    for (const char* name : {"stacked", "beside", "two-sided"}) compare(sample, name);
  }
  return 0;
}
