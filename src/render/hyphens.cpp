#include "dosewright/render/hyphens.hpp"

#include <hyphen.h>

#include <cctype>
#include <cstdlib>
#include <map>
#include <vector>

#include "dosewright/base/text.hpp"

#ifdef __SANITIZE_ADDRESS__
// libhyphen 2.8 loses about a kilobyte of each dictionary while it reads it; nobody can free that.
extern "C" const char* __lsan_default_suppressions() { return "leak:libhyphen"; }
extern "C" const char* __lsan_default_options() { return "print_suppressions=0"; }
#endif

namespace dosewright {

namespace {

// At least so many letters on either side of a break, and in a word that is broken at all.
constexpr std::size_t kLeastLetters = 4;
constexpr std::size_t kLeastWord = 10;

std::string pattern_file(const std::string& language) {
  static const std::map<std::string, std::string> files = {{"en", "hyph_en_US.dic"},
                                                           {"es", "hyph_es_ES.dic"},
                                                           {"fr", "hyph_fr.dic"},
                                                           {"de", "hyph_de_DE.dic"}};
  const auto found = files.find(language);
  return "/usr/share/hyphen/" +
         (found != files.end() ? found->second : "hyph_" + language + ".dic");
}

bool is_letter(char32_t c) { return c >= 0x80 || (c < 0x80 && std::isalpha(static_cast<int>(c))); }

// The word in the encoding of the patterns; empty where that lacks one of its letters.
std::string encoded(const std::u32string& word, bool utf8) {
  if (utf8) return to_utf8(word);
  std::string out;
  for (const char32_t c : word) {
    if (c > 0xff) return "";
    out += static_cast<char>(c);
  }
  return out;
}

}  // namespace

struct Hyphens::Patterns {
  HyphenDict* dictionary = nullptr;
};

// Read once and kept until the program ends.
Hyphens::Hyphens(const TextMeasurer& fonts, const std::string& language) : fonts_(fonts) {
  static std::map<std::string, Patterns> known;
  const auto [at, fresh] = known.try_emplace(language);
  if (fresh) at->second.dictionary = hnj_hyphen_load(pattern_file(language).c_str());
  patterns_ = &at->second;
}

double Hyphens::width(std::string_view text, Face face) const { return fonts_.width(text, face); }

FaceMetrics Hyphens::metrics(Face face) const { return fonts_.metrics(face); }

std::vector<std::size_t> Hyphens::hyphen_points(std::string_view word) const {
  std::u32string letters = to_characters(word);
  const std::size_t count = letters.size();
  if (patterns_->dictionary == nullptr || count < kLeastWord) return {};
  for (char32_t& c : letters) {
    if (!is_letter(c)) return {};
    if (c < 0x80) c = static_cast<char32_t>(std::tolower(static_cast<int>(c)));
  }
  const std::string bytes = encoded(letters, patterns_->dictionary->utf8 != 0);
  if (bytes.empty()) return {};
  std::vector<char> marks(bytes.size() + 5);
  char** replacements = nullptr;
  int* positions = nullptr;
  int* cuts = nullptr;
  const int failed =
      hnj_hyphen_hyphenate2(patterns_->dictionary, bytes.c_str(), static_cast<int>(bytes.size()),
                            marks.data(), nullptr, &replacements, &positions, &cuts);
  std::vector<std::size_t> out;
  std::size_t byte = 0;
  for (std::size_t i = 0; failed == 0 && i + kLeastLetters < count; ++i) {
    byte += to_utf8(std::u32string(1, letters[i])).size();
    // A break that changes the spelling is left out.
    const bool plain = replacements == nullptr || replacements[i] == nullptr;
    if (i + 1 >= kLeastLetters && (marks[i] & 1) != 0 && plain) out.push_back(byte);
  }
  if (replacements != nullptr) {
    for (std::size_t i = 0; i < bytes.size(); ++i) std::free(replacements[i]);
    std::free(replacements);
    std::free(positions);
    std::free(cuts);
  }
  return out;
}

}  // namespace dosewright
