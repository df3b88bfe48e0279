#include "dosewright/base/text.hpp"

#include <unicase.h>
#include <unilbrk.h>
#include <uninorm.h>
#include <unistr.h>

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <memory>

namespace dosewright {

namespace {

const std::uint8_t* bytes_of(std::string_view text) {
  return reinterpret_cast<const std::uint8_t*>(text.data());
}

// Damerau-Levenshtein distance (optimal string alignment).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> cost(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) cost[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
    }
  }
  return cost[a.size()][b.size()];
}

std::size_t common_start(std::string_view a, std::string_view b) {
  std::size_t at = 0;
  while (at < std::min(a.size(), b.size()) && a[at] == b[at]) ++at;
  return at;
}

std::string joined(const std::vector<std::string>& words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? std::string(last) : std::string(", ");
    out += words[i];
  }
  return out;
}

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

}  // namespace

std::optional<std::size_t> find_malformed_utf8(std::string_view text) {
  const std::uint8_t* bad = u8_check(bytes_of(text), text.size());
  if (bad == nullptr) return std::nullopt;
  return static_cast<std::size_t>(bad - bytes_of(text));
}

std::string to_nfc(std::string_view text) {
  std::size_t length = 0;
  const std::unique_ptr<std::uint8_t, decltype(&std::free)> made(
      u8_normalize(UNINORM_NFC, bytes_of(text), text.size(), nullptr, &length), &std::free);
  if (!made) return std::string(text);
  return {reinterpret_cast<const char*>(made.get()), length};
}

std::u32string to_characters(std::string_view utf8) {
  std::u32string out;
  std::size_t at = 0;
  while (at < utf8.size()) {
    ucs4_t character = 0;
    const int used = u8_mbtouc(&character, bytes_of(utf8) + at, utf8.size() - at);
    out += static_cast<char32_t>(character);
    at += static_cast<std::size_t>(std::max(used, 1));
  }
  return out;
}

std::string to_utf8(std::u32string_view characters) {
  std::string out;
  for (const char32_t character : characters) {
    std::uint8_t buffer[6] = {};
    const int used = u8_uctomb(buffer, static_cast<ucs4_t>(character), sizeof buffer);
    for (int i = 0; i < used; ++i) out += static_cast<char>(buffer[i]);
  }
  return out;
}

std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates) {
  const std::string wanted = lowered(word);
  std::optional<std::string> best;
  std::size_t best_start = 0;
  std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& candidate : candidates) {
    const std::string other = lowered(candidate);
    const std::size_t distance = edit_distance(wanted, other);
    const std::size_t start = common_start(wanted, other);
    // Among equally near ones, the one that begins alike.
    const bool nearer =
        distance < best_distance || (best && distance == best_distance && start > best_start);
    if (!nearer) continue;
    best = candidate;
    best_distance = distance;
    best_start = start;
  }
  return best;
}

std::string either(const std::vector<std::string>& words) { return joined(words, " or "); }

std::string all_of(const std::vector<std::string>& words) { return joined(words, " and "); }

bool among(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::string trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return std::string(text);
}

char32_t capital_of(char32_t letter) { return uc_toupper(letter); }

std::string lowered(std::string_view text) {
  std::u32string out;
  for (const char32_t c : to_characters(text)) out.push_back(uc_tolower(c));
  return to_utf8(out);
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  while (true) {
    const std::size_t end = text.find(separator, start);
    parts.emplace_back(text.substr(start, end - start));
    if (end == std::string_view::npos) return parts;
    start = end + 1;
  }
}

std::vector<std::size_t> line_breaks(std::string_view text) {
  std::vector<char> marks(text.size());
  u8_possible_linebreaks(bytes_of(text), text.size(), "UTF-8", marks.data());
  std::vector<std::size_t> out;
  for (std::size_t at = 1; at < marks.size(); ++at) {
    if (marks[at] == UC_BREAK_POSSIBLE || marks[at] == UC_BREAK_MANDATORY) out.push_back(at);
  }
  return out;
}

std::string as_file_name(std::string_view word) {
  std::string out;
  for (const char c : word) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || std::isalnum(byte) != 0) {
      out += c;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "document" : out;
}

}  // namespace dosewright
