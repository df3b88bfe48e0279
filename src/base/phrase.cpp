#include "dosewright/base/phrase.hpp"

namespace dosewright {

std::string filled_in(std::string_view pattern, const std::vector<std::string>& fills) {
  std::string out;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    const bool blank = pattern[i] == '{' && i + 2 < pattern.size() && pattern[i + 2] == '}' &&
                       pattern[i + 1] >= '1' && pattern[i + 1] <= '9';
    const std::size_t number = blank ? static_cast<std::size_t>(pattern[i + 1] - '1') : 0;
    if (!blank || number >= fills.size()) {
      out += pattern[i];
      continue;
    }
    out += fills[number];
    i += 2;
  }
  return out;
}

std::string in_english(const Phrases& phrases) {
  std::string out;
  for (const Phrase& phrase : phrases) out += filled_in(phrase.pattern, phrase.fills);
  return out;
}

std::vector<std::string> each_in_english(const Phrases& phrases) {
  std::vector<std::string> out;
  for (const Phrase& phrase : phrases) out.push_back(in_english({phrase}));
  return out;
}

}  // namespace dosewright
