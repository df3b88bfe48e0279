// A label in two languages.
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

std::string both(const std::string& one, const std::string& other, const char* between = " / ") {
  if (one == other || other.empty()) return one;
  return one.empty() ? other : one + between + other;
}

std::vector<std::string> all(std::vector<std::string> one, const std::vector<std::string>& other) {
  for (const std::string& line : other) {
    bool there = false;
    for (const std::string& known : one) there = there || known == line;
    if (!there) one.push_back(line);
  }
  return one;
}

}  // namespace

LabelContent in_both(const LabelContent& first, const LabelContent& second) {
  LabelContent out = first;
  out.contents = both(first.contents, second.contents);
  out.code_caption = both(first.code_caption, second.code_caption);
  out.treats = both(first.treats, second.treats);
  out.note = both(first.note, second.note);
  for (std::size_t i = 0; i < out.fields.size() && i < second.fields.size(); ++i)
    out.fields[i].caption = both(first.fields[i].caption, second.fields[i].caption);
  out.signal = both(first.signal, second.signal);
  out.hazard_lines = all(first.hazard_lines, second.hazard_lines);
  out.precautions = both(first.precautions, second.precautions, " ");
  out.short_hazard_lines = all(first.short_hazard_lines, second.short_hazard_lines);
  out.short_precautions = both(first.short_precautions, second.short_precautions, " ");
  out.short_words = both(first.short_words, second.short_words, " ");
  out.warning_lines = all(first.warning_lines, second.warning_lines);
  out.safety = both(first.safety, second.safety, " ");
  out.elsewhere = both(first.elsewhere, second.elsewhere, " ");
  out.short_elsewhere = both(first.short_elsewhere, second.short_elsewhere, " ");
  out.on_cap = both(first.on_cap, second.on_cap);
  return out;
}

}  // namespace dosewright
