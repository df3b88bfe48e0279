// A label in two languages.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

namespace {

std::string both(const std::string& one, const std::string& other, const char* between = " / ") {
  if (one == other || other.empty()) return one;
  return one.empty() ? other : one + between + other;
}

// Each language on lines of its own.
std::string below(const std::string& one, const std::string& other) {
  return both(one, other, "\n");
}

// The user's own remark ends both notes and is said once.
std::string note_in_both(const std::string& one, const std::string& other) {
  std::size_t same = 0;
  while (same < one.size() && same < other.size() &&
         one[one.size() - 1 - same] == other[other.size() - 1 - same])
    ++same;
  const std::string end = one.substr(one.size() - same);
  std::size_t start = std::string::npos;
  for (const char* mark : {". ", "; "}) {
    const std::size_t at = end.find(mark);
    if (at != std::string::npos) start = std::min(start, at + 2);
  }
  if (start == std::string::npos || one == other) return below(one, other);
  const std::string remark = end.substr(start);
  const auto without = [&](const std::string& note) {
    std::string out = note.substr(0, note.size() - remark.size());
    while (!out.empty() && (out.back() == ' ' || out.back() == ';')) out.pop_back();
    return out;
  };
  return without(one) + '\n' + without(other) + '\n' + capitalised(remark);
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
  out.contents = below(first.contents, second.contents);
  out.code_caption = both(first.code_caption, second.code_caption);
  out.treats = both(first.treats, second.treats);
  out.note = note_in_both(first.note, second.note);
  for (std::size_t i = 0; i < out.fields.size() && i < second.fields.size(); ++i)
    out.fields[i].caption = both(first.fields[i].caption, second.fields[i].caption);
  out.signal = both(first.signal, second.signal);
  out.hazard_lines = all(first.hazard_lines, second.hazard_lines);
  out.precautions = below(first.precautions, second.precautions);
  out.short_hazard_lines = all(first.short_hazard_lines, second.short_hazard_lines);
  out.short_precautions = below(first.short_precautions, second.short_precautions);
  out.short_words = below(first.short_words, second.short_words);
  out.warning_lines = all(first.warning_lines, second.warning_lines);
  out.safety = below(first.safety, second.safety);
  out.elsewhere = below(first.elsewhere, second.elsewhere);
  out.short_elsewhere = below(first.short_elsewhere, second.short_elsewhere);
  out.on_cap = both(first.on_cap, second.on_cap);
  return out;
}

}  // namespace dosewright
