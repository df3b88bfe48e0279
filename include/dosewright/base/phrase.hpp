// A sentence with blanks, kept apart so that it can be said in another language.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dosewright {

/// `pattern` is English, with {1}, {2} … where the fills go.
struct Phrase {
  std::string pattern;
  std::vector<std::string> fills;
};

/// Said one after the other, with nothing between them.
using Phrases = std::vector<Phrase>;

/// A fill that is a list: commas and "and" are put between its items as the language has them.
[[nodiscard]] std::string list_of(const std::vector<std::string>& items);
[[nodiscard]] bool is_list(const std::string& fill);
[[nodiscard]] std::vector<std::string> items_of(const std::string& list);

/// The pattern with its fills; a blank without one stays as it is.
[[nodiscard]] std::string filled_in(std::string_view pattern,
                                    const std::vector<std::string>& fills);
[[nodiscard]] std::string in_english(const Phrases& phrases);
/// Adds one unless the same is said already.
void add_once(std::vector<Phrase>& phrases, const Phrase& phrase);
/// Each by itself.
[[nodiscard]] std::vector<std::string> each_in_english(const Phrases& phrases);

}  // namespace dosewright
