#include "dosewright/base/phrase.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr char kBetweenItems = '\x1f';  // ASCII's own separator of units

}  // namespace

std::string list_of(const std::vector<std::string>& items) {
  std::string out;
  for (const std::string& item : items)
    out += (out.empty() ? std::string() : std::string(1, kBetweenItems)) + item;
  return out;
}

bool is_list(const std::string& fill) { return fill.find(kBetweenItems) != std::string::npos; }

std::vector<std::string> items_of(const std::string& list) { return split(list, kBetweenItems); }

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
    out += is_list(fills[number]) ? all_of(items_of(fills[number])) : fills[number];
    i += 2;
  }
  return out;
}

std::string in_english(const Phrases& phrases) {
  std::string out;
  for (const Phrase& phrase : phrases) out += filled_in(phrase.pattern, phrase.fills);
  return out;
}

void add_once(std::vector<Phrase>& phrases, const Phrase& phrase) {
  const bool there = std::any_of(phrases.begin(), phrases.end(), [&](const Phrase& known) {
    return in_english({known}) == in_english({phrase});
  });
  if (!there) phrases.push_back(phrase);
}

std::vector<std::string> each_in_english(const Phrases& phrases) {
  std::vector<std::string> out;
  for (const Phrase& phrase : phrases) out.push_back(in_english({phrase}));
  return out;
}

}  // namespace dosewright
