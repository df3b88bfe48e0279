// Plain text work shared by all layers: UTF-8, words, near misses; not for numbers or units.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dosewright {

/// Byte offset of the first byte that is not part of well-formed UTF-8 (overlong forms and
/// surrogates count as malformed); nothing when the whole text is well formed.
[[nodiscard]] std::optional<std::size_t> find_malformed_utf8(std::string_view text);

/// The text in Unicode normalisation form C. Precondition: well-formed UTF-8.
[[nodiscard]] std::string to_nfc(std::string_view text);

[[nodiscard]] std::u32string to_characters(std::string_view utf8);
[[nodiscard]] std::string to_utf8(std::u32string_view characters);

/// The candidate nearest to `word` by edit distance (a swap of neighbours counts as one edit),
/// or nothing when none is near enough to be a likely slip.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 const std::vector<std::string>& candidates);

/// "a", "a or b", "a, b or c".
[[nodiscard]] std::string either(const std::vector<std::string>& words);

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string all_of(const std::vector<std::string>& words);

[[nodiscard]] bool among(const std::vector<std::string>& words, std::string_view word);

[[nodiscard]] std::string trimmed(std::string_view text);
[[nodiscard]] char32_t capital_of(char32_t letter);        ///< by Unicode; itself if it has none
[[nodiscard]] std::string lowered(std::string_view text);  ///< letters of every language
[[nodiscard]] std::vector<std::string> split(std::string_view text, char separator);

/// Byte offsets at which a line may be broken, by the Unicode line breaking algorithm (UAX 14).
[[nodiscard]] std::vector<std::size_t> line_breaks(std::string_view text);

/// A file name made of the word: letters and digits kept, anything else becomes one hyphen.
[[nodiscard]] std::string as_file_name(std::string_view word);

}  // namespace dosewright
