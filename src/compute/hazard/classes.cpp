#include "dosewright/hazard/classes.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/statements.hpp"
#include "table.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kColumns = 10;

// "acutetox4": spaces, full stops and capitals do not matter.
std::string bare(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0)
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

ClassRow from_columns(const std::vector<std::string>& columns) {
  ClassRow row;
  row.list = columns[0];
  row.name = columns[1];
  row.bare_name = bare(row.name);
  row.statements = listed(columns[2], ' ');
  row.signal = columns[3];
  row.pictograms = listed(columns[4], ',');
  for (std::size_t i = 5; i < 9; ++i) {
    for (std::string& code : listed(columns[i], ' ')) row.precautions.push_back(std::move(code));
  }
  return row;
}

// The classes of one statement each, by the beginning of their short names.
constexpr std::array kEndpoints = {
    std::pair("Skin Corr.", Endpoint::skin),
    std::pair("Skin Irrit.", Endpoint::skin),
    std::pair("Eye Dam.", Endpoint::eye),
    std::pair("Eye Irrit.", Endpoint::eye),
    std::pair("Resp. Sens.", Endpoint::respiratory_sensitisation),
    std::pair("Skin Sens.", Endpoint::skin_sensitisation),
    std::pair("Muta.", Endpoint::mutagenicity),
    std::pair("Carc.", Endpoint::carcinogenicity),
    std::pair("Repr.", Endpoint::reproduction),
    std::pair("Lact.", Endpoint::lactation),
    std::pair("STOT RE", Endpoint::repeated_exposure),
    std::pair("Asp. Tox.", Endpoint::aspiration),
    std::pair("Aquatic Acute", Endpoint::aquatic_acute),
    std::pair("Aquatic Chronic", Endpoint::aquatic_chronic),
    std::pair("Ozone", Endpoint::ozone),
    std::pair("ED HH", Endpoint::endocrine_health),
    std::pair("ED ENV", Endpoint::endocrine_environment),
    std::pair("PBT", Endpoint::pbt),
    std::pair("vPvB", Endpoint::vpvb),
    std::pair("PMT", Endpoint::pmt),
    std::pair("vPvM", Endpoint::vpvm),
};

// How far a row's list is from a rule book; the nearest row counts. HazCom 2024 stands on the UN's
// seventh revision, whose precautions CLP has too (89 FR 44144, its summary); the UN rows are of
// the ninth and tenth.
int distance(const ClassRow& row, RuleBookName book) {
  if (book == RuleBookName::un_ghs) return row.list == "UN" ? 0 : 1;
  if (book == RuleBookName::us_hazcom && row.list == "US") return 0;
  return row.list == "UN" ? 2 : 1;
}

Endpoint acute_by(std::string_view statement) {
  if (statement.starts_with("H31")) return Endpoint::acute_dermal;
  return statement.starts_with("H33") ? Endpoint::acute_inhalation : Endpoint::acute_oral;
}

// What is written, taken apart: "STOT RE 2", "H373", "kidneys".
struct Written {
  std::string name;
  std::string statement;
  std::string fill;
};

Written taken_apart(std::string_view text) {
  Written out;
  std::string rest = trimmed(text);
  const std::size_t open = rest.find('(');
  if (open != std::string::npos && rest.back() == ')') {
    out.fill = trimmed(std::string_view(rest).substr(open + 1, rest.size() - open - 2));
    rest = trimmed(std::string_view(rest).substr(0, open));
  }
  const std::size_t space = rest.rfind(' ');
  const std::string last = rest.substr(space == std::string::npos ? 0 : space + 1);
  const std::string code = normalised_code(last);
  const bool is_code = (code.starts_with('H') || code.starts_with("EUH")) && code.size() >= 4 &&
                       std::isdigit(static_cast<unsigned char>(code[code.size() - 1])) != 0;
  const bool with_letters = code.size() > 4 && code.starts_with('H') &&
                            std::isdigit(static_cast<unsigned char>(code[3])) != 0;
  if (is_code || with_letters) {
    out.statement = code;
    rest = space == std::string::npos ? "" : trimmed(std::string_view(rest).substr(0, space));
  }
  out.name = rest;
  return out;
}

// Annex VI and data sheets have the types C to F each by itself, the label tables two and two.
std::string in_the_tables_letters(const std::string& name) {
  for (const char* kind : {"Org. Perox. ", "Self-react. "}) {
    if (!name.starts_with(kind)) continue;
    const std::string type = name.substr(std::string_view(kind).size());
    if (type == "C" || type == "D") return std::string(kind) + "CD";
    if (type == "E" || type == "F") return std::string(kind) + "EF";
  }
  return name;
}

}  // namespace

std::variant<ClassBook, std::string> ClassBook::from_table(std::string_view table) {
  ClassBook book;
  const auto problem = for_each_row(table, kColumns, [&](const std::vector<std::string>& columns) {
    book.rows_.push_back(from_columns(columns));
  });
  if (problem) return *problem;
  if (book.rows_.empty()) return std::string("the table holds no class");
  return book;
}

const ClassRow* ClassBook::find(std::string_view name, std::string_view statement,
                                RuleBookName book) const {
  const ClassRow* best = nullptr;
  for (const ClassRow& row : rows_) {
    const bool has = among(row.statements, statement);
    if (row.name != name || !has) continue;
    if (best == nullptr || distance(row, book) < distance(*best, book)) best = &row;
  }
  return best;
}

Parsed<HazardClass> ClassBook::parse(std::string_view text) const {
  Written written = taken_apart(text);
  if (written.statement == "EUH208" && written.fill.empty())
    return QuantityProblem{"EUH208 names what sensitises, and here nothing is named",
                           "write it behind, as in EUH208 (formaldehyde)"};
  if (written.statement == "EUH018" && written.fill.empty())
    return QuantityProblem{"EUH018 leaves open whether the vapour-air mixture burns or explodes",
                           "write what the data sheet says behind it, as in EUH018 (flammable)"};
  if (written.name.empty() && written.statement.starts_with("EUH")) {
    return HazardClass{Endpoint::supplement, written.statement, written.statement, written.fill};
  }
  std::vector<std::string> statements;
  std::string name;
  const std::string wanted = bare(in_the_tables_letters(written.name));
  for (const ClassRow& row : rows_) {
    if (row.bare_name != wanted) continue;
    name = row.name;
    for (const std::string& code : row.statements) {
      if (!among(statements, code)) statements.push_back(code);
    }
  }
  const std::string shown = '"' + std::string(text) + '"';
  if (written.fill.find_first_of("()") != std::string::npos) {
    return QuantityProblem{shown + " has more than one pair of brackets",
                           "write the organs alone, as in STOT RE 2 H373 (liver, kidneys)"};
  }
  if (name.empty()) {
    const auto near = nearest(written.name, names());
    return QuantityProblem{shown + " is not a hazard class in short form",
                           near ? "did you mean \"" + *near + "\"?"
                                : "write class, category and statement as section 2 or 3 of the "
                                  "safety data sheet has them, such as Acute Tox. 4 H302"};
  }
  if (written.statement.empty() && statements.size() == 1) written.statement = statements.front();
  if (written.statement.empty()) {
    return QuantityProblem{
        name + " goes with more than one statement",
        "add " + either(statements) + ", as in " + name + ' ' + statements.front()};
  }
  if (!among(statements, written.statement)) {
    return QuantityProblem{written.statement + " does not go with " + name,
                           name + " goes with " + either(statements)};
  }
  return HazardClass{endpoint_of(name, written.statement), name, written.statement, written.fill};
}

std::vector<std::string> ClassBook::names() const {
  std::vector<std::string> out;
  for (const ClassRow& row : rows_) {
    if (!among(out, row.name)) out.push_back(row.name);
  }
  return out;
}

Endpoint endpoint_of(std::string_view name, std::string_view statement) {
  if (statement.starts_with("EUH") && name.starts_with("EUH")) return Endpoint::supplement;
  if (name.starts_with("Acute Tox.")) return acute_by(statement);
  if (statement == "H335") return Endpoint::airway_irritation;
  if (statement == "H336") return Endpoint::narcosis;
  if (name.starts_with("STOT SE")) return Endpoint::single_exposure;
  for (const auto& [beginning, endpoint] : kEndpoints) {
    if (name.starts_with(beginning)) return endpoint;
  }
  return Endpoint::physical;
}

std::vector<std::string> named_in(std::string words) {
  for (std::size_t at = words.find(" and "); at != std::string::npos; at = words.find(" and "))
    words.replace(at, 5, ",");
  std::replace(words.begin(), words.end(), ';', ',');
  std::vector<std::string> out;
  for (const std::string& word : split(words, ',')) {
    const std::string name = lowered(trimmed(word));
    if (!name.empty() && !among(out, name)) out.push_back(name);
  }
  return out;
}

bool covers_letters(const std::string& stated, const std::string& code) {
  const std::string mine = lowered(stated.substr(std::min<std::size_t>(4, stated.size())));
  const std::string wanted = lowered(code.substr(std::min<std::size_t>(4, code.size())));
  // Without letters it speaks of every way and effect; only both letters of reproduction do so too.
  if (mine.empty()) return true;
  if (wanted.empty()) return mine == "fd" || mine == "df";
  return std::all_of(wanted.begin(), wanted.end(),
                     [&](char letter) { return mine.find(letter) != std::string::npos; });
}

bool is_known_organ(const std::string& name) {
  static const std::vector<std::string> organs = {"adrenal glands",
                                                  "bladder",
                                                  "blood",
                                                  "blood system",
                                                  "bone",
                                                  "bone marrow",
                                                  "bones",
                                                  "brain",
                                                  "cardiovascular system",
                                                  "central nervous system",
                                                  "eye",
                                                  "eyes",
                                                  "gastrointestinal tract",
                                                  "hearing organs",
                                                  "heart",
                                                  "immune system",
                                                  "intestine",
                                                  "kidney",
                                                  "kidneys",
                                                  "larynx",
                                                  "liver",
                                                  "lung",
                                                  "lungs",
                                                  "lymphatic system",
                                                  "muscles",
                                                  "nasal cavity",
                                                  "nervous system",
                                                  "nose",
                                                  "optic nerve",
                                                  "pancreas",
                                                  "peripheral nervous system",
                                                  "reproductive organs",
                                                  "respiratory system",
                                                  "respiratory tract",
                                                  "skin",
                                                  "spleen",
                                                  "stomach",
                                                  "teeth",
                                                  "testes",
                                                  "throat",
                                                  "thyroid",
                                                  "thyroid gland",
                                                  "upper respiratory tract",
                                                  "vascular system",
                                                  "visual organs"};
  return among(organs, name);
}

std::vector<std::string> without_routes(std::vector<std::string> organs) {
  static const std::vector<std::string> routes = {
      "oral",          "dermal",        "inhalation",     "inhaled",
      "swallowed",     "if inhaled",    "if swallowed",   "through inhalation",
      "by inhalation", "oral exposure", "dermal exposure"};
  std::erase_if(organs, [](const std::string& organ) { return among(routes, organ); });
  return organs;
}

std::string endpoint_words(Endpoint endpoint) {
  switch (endpoint) {
    case Endpoint::acute_oral:
      return "acute toxicity if swallowed";
    case Endpoint::acute_dermal:
      return "acute toxicity in contact with skin";
    case Endpoint::acute_inhalation:
      return "acute toxicity if inhaled";
    case Endpoint::skin:
      return "skin corrosion or irritation";
    case Endpoint::eye:
      return "eye damage or irritation";
    case Endpoint::respiratory_sensitisation:
      return "respiratory sensitisation";
    case Endpoint::skin_sensitisation:
      return "skin sensitisation";
    case Endpoint::mutagenicity:
      return "germ cell mutagenicity";
    case Endpoint::carcinogenicity:
      return "carcinogenicity";
    case Endpoint::reproduction:
      return "reproductive toxicity";
    case Endpoint::lactation:
      return "effects on or via lactation";
    case Endpoint::single_exposure:
      return "organ damage by a single exposure";
    case Endpoint::airway_irritation:
      return "irritation of the airways";
    case Endpoint::narcosis:
      return "narcotic effects";
    case Endpoint::repeated_exposure:
      return "organ damage by repeated exposure";
    case Endpoint::aspiration:
      return "aspiration";
    case Endpoint::aquatic_acute:
      return "acute aquatic hazard";
    case Endpoint::aquatic_chronic:
      return "long-term aquatic hazard";
    case Endpoint::ozone:
      return "the ozone layer";
    case Endpoint::endocrine_health:
      return "endocrine disruption in people";
    case Endpoint::endocrine_environment:
      return "endocrine disruption in the environment";
    case Endpoint::pbt:
      return "persistent, bioaccumulative and toxic properties";
    case Endpoint::vpvb:
      return "very persistent and very bioaccumulative properties";
    case Endpoint::pmt:
      return "persistent, mobile and toxic properties";
    case Endpoint::vpvm:
      return "very persistent and very mobile properties";
    case Endpoint::physical:
      return "physical hazards";
    case Endpoint::supplement:
      return "supplemental information";
  }
  return "";
}

std::string category_of(std::string_view name) {
  const std::size_t space = name.rfind(' ');
  return std::string(space == std::string_view::npos ? "" : name.substr(space + 1));
}

std::string kind_of(std::string_view name) { return std::string(name.substr(0, name.rfind(' '))); }

}  // namespace dosewright
