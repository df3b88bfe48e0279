#include "dosewright/hazard/block.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string_view>
#include <utility>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "precautions.hpp"

namespace dosewright {

namespace {

// A pictogram and the statement that asks for it.
using Reason = std::pair<std::string, std::string>;
using Classes = std::vector<HazardClass>;

bool any_with(const std::vector<Reason>& reasons, std::string_view pictogram) {
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](const Reason& r) { return r.first == pictogram; });
}

bool is_irritation(const std::string& code) {
  return code == "H315" || code == "H319" || code == "H320";
}

// CLP Article 26: the skull drops the exclamation mark altogether; corrosion drops it for skin and
// eye irritation; the health hazard sign for respiratory sensitisation drops it for skin
// sensitisation and for skin and eye irritation. The bomb makes flame and flame over circle
// optional, the flame or the skull the gas cylinder: what is optional is left away.
bool is_suppressed(const Reason& reason, const std::vector<Reason>& reasons) {
  const std::string& sign = reason.first;
  // Of H241 both are compulsory (Tables 2.8.3 and 2.15.3).
  if (sign == "GHS02" || sign == "GHS03")
    return any_with(reasons, "GHS01") && reason.second != "H241";
  if (sign == "GHS04") return any_with(reasons, "GHS02") || any_with(reasons, "GHS06");
  if (sign != "GHS07") return false;
  if (any_with(reasons, "GHS06")) return true;
  if (any_with(reasons, "GHS05") && is_irritation(reason.second)) return true;
  const bool respiratory = std::any_of(reasons.begin(), reasons.end(),
                                       [](const Reason& r) { return r.second == "H334"; });
  return respiratory && (is_irritation(reason.second) || reason.second == "H317");
}

int rank_of(std::string_view signal) {
  if (signal == "Danger") return 2;
  return signal == "Warning" ? 1 : 0;
}

void keep_stronger(std::string& signal, const std::string& other) {
  if (rank_of(other) > rank_of(signal)) signal = other;
}

std::string word_in_language(const std::string& signal, const StatementBook& book) {
  const Statement* word = book.find(signal == "Danger" ? "SIGNAL.danger" : "SIGNAL.warning");
  return signal.empty() || word == nullptr ? signal : word->pattern;
}

bool has(const Classes& classes, std::string_view statement) {
  return std::any_of(classes.begin(), classes.end(),
                     [&](const HazardClass& c) { return c.statement == statement; });
}

// Whether another statement says the same and more (CLP Article 27; UN GHS 1.4.10.5.3.3). Of one
// effect the lower number is the graver.
bool is_repetition(const std::string& code, const std::vector<std::string>& codes) {
  using Codes = std::vector<std::string>;
  static const std::vector<std::pair<std::string, Codes>> says_more = {
      {"H300", {"H301", "H302", "H303"}},
      {"H301", {"H302", "H303"}},
      {"H302", {"H303"}},
      {"H310", {"H311", "H312", "H313"}},
      {"H311", {"H312", "H313"}},
      {"H312", {"H313"}},
      {"H330", {"H331", "H332", "H333"}},
      {"H331", {"H332", "H333"}},
      {"H332", {"H333"}},
      {"H314", {"H315", "H316", "H318", "H319", "H320"}},
      {"H315", {"H316"}},
      {"H318", {"H319", "H320"}},
      {"H319", {"H320"}},
      {"H340", {"H341"}},
      {"H350", {"H351"}},
      {"H304", {"H305"}},
      {"H400", {"H401", "H402"}},
      {"H410", {"H400", "H401", "H402", "H411", "H412", "H413"}},
      {"H411", {"H401", "H402", "H412", "H413"}},
      {"H412", {"H402", "H413"}}};
  return std::any_of(says_more.begin(), says_more.end(), [&](const auto& one) {
    return among(one.second, code) && among(codes, one.first);
  });
}

}  // namespace

namespace {

// Each code of a combined statement by itself: H301+H311.
std::vector<std::string> each_code(const std::vector<std::string>& codes) {
  std::vector<std::string> out;
  for (const std::string& one : codes) {
    for (const std::string& code : split(one, '+')) out.push_back(code);
  }
  return out;
}

}  // namespace

bool is_said_by(const std::string& code, const std::vector<std::string>& statements) {
  const std::vector<std::string> stated = each_code(statements);
  if (code.find('+') != std::string::npos) {
    const std::vector<std::string> all = each_code({code});
    return std::all_of(all.begin(), all.end(),
                       [&](const std::string& one) { return is_said_by(one, stated); });
  }
  if (among(stated, code) || is_repetition(code, stated)) return true;
  // Of one effect the lower number is the graver; of the Union's own the pairs behind.
  const bool own = code.starts_with("EUH");
  const std::string number = own ? code : code.substr(0, 4);
  static const std::vector<std::pair<std::string, std::string>> milder = {
      {"H341", "H340"},     {"H351", "H350"},     {"H361", "H360"},     {"H371", "H370"},
      {"H373", "H372"},     {"EUH031", "EUH032"}, {"EUH381", "EUH380"}, {"EUH431", "EUH430"},
      {"EUH440", "EUH441"}, {"EUH450", "EUH451"}};
  return std::any_of(stated.begin(), stated.end(), [&](const std::string& one) {
    const std::string mine = own ? one : one.substr(0, 4);
    const bool graver =
        std::find(milder.begin(), milder.end(), std::pair(number, mine)) != milder.end();
    if (own) return graver;
    return (mine == number || graver) && covers_letters(one, code);
  });
}

namespace {

// --- computed

// Puts a block together from classes.
class Composer {
 public:
  Composer(const MixtureClasses& found, const LabelFacts& facts, RuleBookName rules,
           const LabelBooks& books)
      : found_(found), facts_(facts), rules_(rules), books_(books) {}

  HazardBlock compose() {
    block_.assessment = Hazards::Assessment::computed;
    std::vector<Reason> reasons;
    for (const HazardClass& one : found_.classes) {
      const ClassRow* row = books_.classes.find(one.name, one.statement, rules_);
      if (row == nullptr) continue;
      keep_stronger(block_.signal, row->signal);
      for (const std::string& pictogram : row->pictograms)
        reasons.emplace_back(pictogram, one.statement);
    }
    block_.signal_word = word_in_language(block_.signal, books_.statements);
    block_.pictograms = pictograms_for(reasons);
    block_.hazards = statements_for(found_.classes);
    for (const HazardClass& one : found_.supplements)
      print(one.statement, one.fill, block_.supplements);
    block_.precautions = precautions_for(found_.classes);
    shorten();
    return std::move(block_);
  }

 private:
  void print(const std::string& code, const std::string& fill, std::vector<PrintedStatement>& to) {
    const Statement* statement = books_.statements.find(code);
    const auto text = statement != nullptr ? sentence(*statement, fill) : std::nullopt;
    if (text) {
      to.push_back({code, *text});
    } else {
      block_.untranslated.push_back(code);
    }
  }

  // Without what another statement says already, in the order of their codes.
  [[nodiscard]] Classes without_repetition(const Classes& classes) const {
    Classes out;
    std::vector<std::string> codes;
    for (const HazardClass& one : classes) codes.push_back(one.statement);
    // Acute 1 with Chronic 2 is said as H410: entries of CLP Annex VI such as glutaral. The UN's
    // 1.4.10.5.3.3 knows no such thing.
    const bool joined = has(classes, "H400") && has(classes, "H411") && !worded_by_un(rules_);
    for (HazardClass one : classes) {
      if (joined && one.statement == "H411") one.statement = "H410";
      if (joined && one.statement == "H400") continue;
      if (!is_repetition(one.statement, codes)) out.push_back(std::move(one));
    }
    // The Union's own statements stand behind those that all share.
    std::sort(out.begin(), out.end(), [](const HazardClass& a, const HazardClass& b) {
      const bool a_own = a.statement.starts_with("EUH");
      const bool b_own = b.statement.starts_with("EUH");
      return a_own != b_own ? b_own : a.statement < b.statement;
    });
    return out;
  }

  // H302, H312 and H332 in one sentence, where the law has one (CLP Annex III).
  void join_acute(Classes& classes) {
    using Routes = std::array<const char*, 3>;
    for (const Routes& routes : {Routes{"H300", "H310", "H330"}, Routes{"H301", "H311", "H331"},
                                 Routes{"H302", "H312", "H332"}}) {
      std::string joint;
      for (const char* code : routes) {
        if (has(classes, code)) joint += (joint.empty() ? "" : "+") + std::string(code);
      }
      const bool single = joint.find('+') == std::string::npos;
      if (single || books_.statements.find(joint) == nullptr) continue;
      const std::string first = joint.substr(0, 4);
      std::erase_if(classes, [&](const HazardClass& c) {
        return c.statement != first &&
               std::find(routes.begin(), routes.end(), c.statement) != routes.end();
      });
      for (HazardClass& one : classes) {
        if (one.statement == first) one.statement = joint;
      }
    }
  }

  std::vector<PrintedStatement> statements_for(const Classes& classes) {
    Classes kept = without_repetition(classes);
    join_acute(kept);
    std::vector<PrintedStatement> out;
    for (const HazardClass& one : kept) print(one.statement, one.fill, out);
    return out;
  }

  std::vector<PrintedStatement> precautions_for(const Classes& classes) {
    std::vector<std::string> codes;
    for (const HazardClass& one : classes) {
      const ClassRow* row = books_.classes.find(one.name, one.statement, rules_);
      if (row == nullptr) continue;
      codes.insert(codes.end(), row->precautions.begin(), row->precautions.end());
    }
    std::vector<PrintedStatement> out;
    const ChosenPrecautions chosen = chosen_precautions(codes, classes, facts_);
    block_.more_precautions = block_.more_precautions || chosen.more;
    for (const std::string& code : chosen.codes) {
      const std::string key = worded_precaution(code, classes, facts_);
      const Statement* statement = books_.statements.find(key);
      const auto text = statement != nullptr ? sentence(*statement, "") : std::nullopt;
      if (text) {
        out.push_back({code, *text});
      } else {
        block_.untranslated.push_back(key);
      }
    }
    return out;
  }

  // A relief of CLP; the UN leaves it to each country, and a workplace in the United States has
  // another.
  void shorten() {
    if (worded_by_un(rules_)) return;
    Classes bound;
    for (const HazardClass& one : found_.classes) {
      if (!is_relieved_when_small(one)) bound.push_back(one);
    }
    block_.may_be_shortened = bound.size() < found_.classes.size();
    if (!block_.may_be_shortened) return;
    block_.small_hazards = statements_for(bound);
    block_.small_precautions = precautions_for(bound);
  }

  const MixtureClasses& found_;
  const LabelFacts& facts_;
  RuleBookName rules_;
  const LabelBooks& books_;
  HazardBlock block_;
};

}  // namespace

std::vector<std::string> pictograms_for(const std::vector<Reason>& reasons) {
  std::set<std::string> kept;
  for (const Reason& reason : reasons) {
    if (!is_suppressed(reason, reasons)) kept.insert(reason.first);
  }
  return {kept.begin(), kept.end()};
}

namespace {

// P280 in the law's own words has a wording in every language: its key, or nothing.
std::string what_is_worn(const StatementCode& code) {
  if (code.code != "P280") return "";
  static const std::map<std::string, std::string> keys = {
      {"protective gloves", "P280.gloves"},
      {"gloves", "P280.gloves"},
      {"eye protection", "P280.eyes"},
      {"protective gloves and eye protection", "P280.gloves+eyes"},
      {"gloves and eye protection", "P280.gloves+eyes"},
      {"protective gloves, eye protection", "P280.gloves+eyes"},
      {"protective gloves/eye protection", "P280.gloves+eyes"},
      {"protective gloves/protective clothing/eye protection/face protection", "P280.all"},
      {"protective gloves, protective clothing, eye protection and face protection", "P280.all"}};
  const auto found = keys.find(lowered(trimmed(code.fill)));
  return found == keys.end() ? "" : found->second;
}

}  // namespace

HazardBlock hazard_block(const Hazards& hazards, const StatementBook& book) {
  HazardBlock block;
  block.assessment = hazards.assessment;
  block.basis = hazards.basis;
  std::vector<Reason> reasons;
  const auto print = [&](const StatementCode& code, std::vector<PrintedStatement>& to) {
    const std::string worn = what_is_worn(code);
    const Statement* statement = book.find(worn.empty() ? code.code : worn);
    const auto text = statement != nullptr ? sentence(*statement, code.fill) : std::nullopt;
    if (text)
      to.push_back({code.code, *text});
    else
      block.untranslated.push_back(code.code);
    return statement;
  };
  std::vector<std::string> stated;
  for (const StatementCode& code : hazards.statements) stated.push_back(code.code);
  for (const StatementCode& code : hazards.statements) {
    if (is_repetition(code.code, stated)) continue;
    const bool supplement = code.code.starts_with("EUH");
    const Statement* statement = print(code, supplement ? block.supplements : block.hazards);
    if (statement == nullptr) continue;
    keep_stronger(block.signal, statement->signal);
    for (const std::string& pictogram : statement->pictograms) {
      if (pictogram != "varies") reasons.emplace_back(pictogram, code.code);
    }
  }
  for (const StatementCode& code : hazards.precautions) print(code, block.precautions);
  const std::vector<std::string> due = pictograms_for(reasons);
  block.pictograms = hazards.pictograms_given ? hazards.pictograms : due;
  std::sort(block.pictograms.begin(), block.pictograms.end());
  for (const std::string& pictogram : due) {
    if (std::find(block.pictograms.begin(), block.pictograms.end(), pictogram) ==
        block.pictograms.end()) {
      block.left_out.push_back(pictogram);
    }
  }
  const std::string signal_due = block.signal;
  if (!hazards.signal.empty()) block.signal = hazards.signal == "none" ? "" : hazards.signal;
  if (rank_of(block.signal) < rank_of(signal_due)) block.left_out.push_back(signal_due);
  block.signal_word = word_in_language(block.signal, book);
  return block;
}

HazardBlock computed_block(const MixtureClasses& found, const LabelFacts& facts, RuleBookName rules,
                           const LabelBooks& books) {
  return Composer(found, facts, rules, books).compose();
}

}  // namespace dosewright
