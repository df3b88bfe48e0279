// Phrases and numbers of a language.
#include <algorithm>
#include <set>

#include "dosewright/base/text.hpp"
#include "dosewright/wording/words.hpp"

namespace dosewright {

namespace {

constexpr std::string_view kDecimalSign = "decimal sign";
constexpr std::string_view kChemical = "chemical: ";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "1,500.5 mL" and "14", but not "2-phenoxyethanol".
bool is_amount(const std::string& text) {
  const std::string number = text.substr(0, text.find(' '));
  return !number.empty() && is_digit(number.front()) &&
         number.find_first_not_of("0123456789.,") == std::string::npos;
}

// The blanks of a phrase: "12" for {1} and {2}.
std::set<char> blanks_of(std::string_view phrase) {
  std::set<char> out;
  for (std::size_t i = 0; i + 2 < phrase.size(); ++i) {
    if (phrase[i] == '{' && phrase[i + 2] == '}') out.insert(phrase[i + 1]);
  }
  return out;
}

// The vowel, or a silent h before it; "hie" and "hia" sound otherwise.
bool starts_with_sound(const std::string& word, std::string_view vowel) {
  const std::string plain = lowered(word);
  const bool silent = plain.starts_with('h');
  const std::string from = plain.substr(silent ? 1 : 0);
  if (!from.starts_with(vowel)) return false;
  return !(silent && (from.starts_with("ie") || from.starts_with("ia")));
}

std::string at_line(std::size_t line, const std::string& message) {
  return "line " + std::to_string(line) + ": " + message;
}

}  // namespace

std::variant<Words, std::string> Words::from_table(std::string language, std::string_view text) {
  Words out;
  out.language_ = std::move(language);
  const std::vector<std::string> lines = split(text, '\n');
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& line = lines[i];
    if (line.empty() || line.front() == '#') continue;
    const std::size_t tab = line.find('\t');
    if (tab == std::string::npos || tab + 1 == line.size())
      return at_line(i + 1, "no tab between the English phrase and what it is in this language");
    const std::string phrase = line.substr(0, tab);
    const std::string said = line.substr(tab + 1);
    if (phrase == kDecimalSign) {
      if (said != "." && said != ",")
        return at_line(i + 1, "the decimal sign is a point or a comma");
      out.decimal_sign_ = said.front();
      continue;
    }
    if (phrase == "and before i" || phrase == "or before o") {
      (phrase.front() == 'a' ? out.and_before_i_ : out.or_before_o_) = said;
      continue;
    }
    if (phrase == "per before a number") {
      out.per_number_ = said;
      continue;
    }
    if (blanks_of(phrase) != blanks_of(said))
      return at_line(i + 1, "the blanks of \"" + phrase + "\" are not those of \"" + said + '"');
    if (!out.table_.emplace(phrase, said).second)
      return at_line(i + 1, "\"" + phrase + "\" stands there already");
  }
  return out;
}

std::string Words::say(std::string_view phrase, const std::vector<std::string>& fills) const {
  const auto found = table_.find(phrase);
  return filled_in(found == table_.end() ? phrase : std::string_view(found->second), fills);
}

std::string Words::say(const Phrases& phrases) const {
  std::string out;
  for (const Phrase& phrase : phrases) {
    std::vector<std::string> fills;
    for (const std::string& fill : phrase.fills) fills.push_back(said_fill(fill));
    out += say(phrase.pattern, fills);
  }
  return out;
}

std::string Words::chemical(const std::string& name) const {
  const auto known = names_.find(lowered(name));
  const std::string& english = known == names_.end() ? name : known->second;
  const auto found = table_.find(std::string(kChemical) + english);
  return found == table_.end() ? english : found->second;
}

std::string Words::with_it(const std::string& name) const {
  const auto known = names_.find(lowered(name));
  const auto found = table_.find("with: " + (known == names_.end() ? name : known->second));
  if (found != table_.end()) return found->second;
  // Its own name of it: "eau de Javel" of a description in French.
  for (const auto& [phrase, said] : table_) {
    if (!phrase.starts_with(kChemical) || lowered(said) != lowered(name)) continue;
    const auto own = table_.find("with: " + phrase.substr(kChemical.size()));
    if (own != table_.end()) return own->second;
  }
  return chemical(name);
}

void Words::learn_names(const Words& other) {
  for (const auto& [english, said] : other.names_of_chemicals())
    names_.emplace(lowered(said), english);
}

std::vector<std::pair<std::string, std::string>> Words::names_of_chemicals() const {
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto& [phrase, said] : table_) {
    if (phrase.starts_with(kChemical)) out.emplace_back(phrase.substr(kChemical.size()), said);
  }
  return out;
}

std::string Words::organ(const std::string& name) const {
  const auto found = table_.find("organ: " + name);
  return found == table_.end() ? name : found->second;
}

std::string Words::said_fill(const std::string& fill) const {
  constexpr std::string_view kRest = "the rest of ";
  if (fill.starts_with(kRest)) return say("the rest of {1}", {fill.substr(kRest.size())});
  if (!is_list(fill) && is_amount(fill)) return quantity(fill);
  if (!is_list(fill)) return table_.contains(fill) ? say(fill) : chemical(fill);
  std::vector<std::string> items;
  for (const std::string& item : items_of(fill)) items.push_back(said_fill(item));
  return all_of(items);
}

std::string Words::number(std::string text) const {
  if (decimal_sign_ == '.') return text;
  std::erase(text, ',');
  const std::size_t whole = std::min(text.find_first_not_of("0123456789"), text.size());
  std::replace(text.begin(), text.end(), '.', decimal_sign_);
  // From five digits on in groups of three, parted by a space (ISO 80000-1, 7.3.1): one that no
  // line breaks at.
  constexpr std::string_view kGap = "\xC2\xA0";
  if (whole < 5) return text;
  for (std::size_t at = whole - 3; at > 0 && at < whole; at -= 3) {
    text.insert(at, kGap);
    if (at < 4) break;
  }
  return text;
}

std::string Words::quantity(const std::string& text) const {
  if (!is_amount(text)) return text;
  const std::size_t space = text.find(' ');
  if (space == std::string::npos) return number(text);
  std::string unit = text.substr(space + 1);
  for (const char* by : {"w/w", "w/v"}) {
    const std::size_t at = unit.find(by);
    if (at != std::string::npos) unit.replace(at, 3, say(by));
  }
  const std::string amount = number(text.substr(0, space));
  constexpr std::string_view kPer = " per ";
  const std::size_t per = unit.find(kPer);
  if (per == std::string::npos) return amount + ' ' + unit;
  const std::string one = amount + ' ' + unit.substr(0, per);
  const std::string of = quantity(unit.substr(per + kPer.size()));
  if (!per_number_.empty() && is_digit(of.front())) return one + ' ' + per_number_ + ' ' + of;
  return say("{1} per {2}", {one, of});
}

std::string Words::either(const std::vector<std::string>& words) const {
  if (words.size() < 2) return words.empty() ? "" : words.front();
  std::string out = words.front();
  for (std::size_t i = 1; i + 1 < words.size(); ++i) out += ", " + words[i];
  if (!or_before_o_.empty() && starts_with_sound(words.back(), "o"))
    return out + ' ' + or_before_o_ + ' ' + words.back();
  return say("{1} or {2}", {out, words.back()});
}

std::string Words::all_of(const std::vector<std::string>& words) const {
  if (words.size() < 2) return words.empty() ? "" : words.front();
  std::string out = words.front();
  for (std::size_t i = 1; i + 1 < words.size(); ++i) out += ", " + words[i];
  if (!and_before_i_.empty() && starts_with_sound(words.back(), "i"))
    return out + ' ' + and_before_i_ + ' ' + words.back();
  return say("{1} and {2}", {out, words.back()});
}

std::vector<std::string> Words::lacks(const Words& other) const {
  std::vector<std::string> out;
  for (const auto& [phrase, said] : other.table_) {
    if (table_.count(phrase) == 0) out.push_back(phrase);
  }
  return out;
}

const Words& english() {
  static const Words words;
  return words;
}

}  // namespace dosewright
