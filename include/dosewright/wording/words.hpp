// The language that a page speaks: its phrases, and how it writes numbers.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "dosewright/base/phrase.hpp"

namespace dosewright {

/// English is what the code says itself. Any other language is a table of templates/words: the
/// English phrase, a tab, what it is in that language; blanks {1}, {2} … keep their numbers and may
/// change their order. The line `decimal sign` says what parts a number from its decimals; where
/// that is a comma, thousands are not grouped, so that 1,500 is never taken for 1.5. The lines `and
/// before i` and `or before o` say what these are before such a sound, where the language minds.
class Words {
 public:
  Words() = default;

  /// A message with the line number where a line has no tab, a phrase stands twice, or blanks were
  /// lost or added.
  [[nodiscard]] static std::variant<Words, std::string> from_table(std::string language,
                                                                   std::string_view text);

  [[nodiscard]] const std::string& language() const { return language_; }

  /// The phrase with its fills, which are not translated; English where the table lacks it.
  [[nodiscard]] std::string say(std::string_view english,
                                const std::vector<std::string>& fills = {}) const;
  /// Fills are quantities, or English words that have a line of their own.
  [[nodiscard]] std::string say(const Phrases& phrases) const;

  /// "1,500.5" as this language writes it: "1500,5".
  [[nodiscard]] std::string number(std::string english) const;
  [[nodiscard]] char decimal_sign() const { return decimal_sign_; }
  /// An amount in printing style, "1,500.5 mL" or "14 mg per L"; anything else comes back as it is.
  [[nodiscard]] std::string quantity(const std::string& english) const;

  /// A known chemical's name in this language, where the table has a line "chemical: …" for it; the
  /// name may be English or of a language that was learnt.
  [[nodiscard]] std::string chemical(const std::string& name) const;
  /// The same behind "with": "de l'eau de Javel", where the table has a line "with: …".
  [[nodiscard]] std::string with_it(const std::string& name) const;
  /// Takes up what `other` calls the known chemicals: a name in that language is then understood.
  void learn_names(const Words& other);
  /// The known chemicals' names in English and in this language.
  [[nodiscard]] std::vector<std::pair<std::string, std::string>> names_of_chemicals() const;
  /// A target organ, such as "kidneys", alike.
  [[nodiscard]] std::string organ(const std::string& english) const;

  [[nodiscard]] std::string either(const std::vector<std::string>& words) const;
  [[nodiscard]] std::string all_of(const std::vector<std::string>& words) const;

  /// The phrases of `other` that this table lacks.
  [[nodiscard]] std::vector<std::string> lacks(const Words& other) const;
  [[nodiscard]] const std::map<std::string, std::string, std::less<>>& table() const {
    return table_;
  }

 private:
  [[nodiscard]] std::string said_fill(const std::string& fill) const;

  std::string language_ = "en";
  char decimal_sign_ = '.';
  std::string and_before_i_;
  std::string or_before_o_;
  std::string
      per_number_;  ///< "pour" of "3 mL pour 20 L", where that is another word than for "per L"
  std::map<std::string, std::string, std::less<>> table_;
  std::map<std::string, std::string, std::less<>> names_;  ///< of other languages; to the English
};

[[nodiscard]] const Words& english();

}  // namespace dosewright
