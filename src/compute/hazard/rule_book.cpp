#include "dosewright/hazard/rule_book.hpp"

namespace dosewright {

RuleBook rule_book(RuleBookName name) {
  RuleBook book;
  book.name = name;
  book.classes_of_2023 = name == RuleBookName::eu_clp;
  if (name == RuleBookName::un_ghs) {
    book.acute_5 = book.skin_3 = book.eye_split = book.weak_aquatic = book.aspiration_2 = true;
    book.supplements = false;
    book.target_organ_1 = true;
    book.sensitiser = book.carcinogen_2 = 0.1;
    book.reproduction_1 = book.reproduction_2 = book.lactation = 0.1;
  }
  if (name == RuleBookName::us_hazcom) {
    book.eye_split = book.target_organ_1 = true;
    book.environment = book.supplements = false;
    book.sensitiser = book.carcinogen_2 = 0.1;
    book.reproduction_1 = book.reproduction_2 = book.lactation = 0.1;
  }
  return book;
}

bool worded_by_un(RuleBookName name) {
  return name == RuleBookName::un_ghs || name == RuleBookName::us_hazcom;
}

std::string rule_book_title(RuleBookName name) {
  switch (name) {
    case RuleBookName::eu_clp:
      return "EU CLP: Regulation (EC) No 1272/2008, consolidated 2025-09-01";
    case RuleBookName::gb_clp:
      return "GB CLP: retained Regulation (EC) No 1272/2008";
    case RuleBookName::un_ghs:
      return "UN GHS, revision 10, all building blocks, the stricter limits";
    case RuleBookName::us_hazcom:
      return "US HazCom: 29 CFR 1910.1200, workplace container";
  }
  return "";
}

std::vector<std::string> rule_book_names() { return {"EU CLP", "GB CLP", "UN GHS", "US HazCom"}; }

RuleBookName rule_book_named(const std::string& name) {
  if (name == "GB CLP") return RuleBookName::gb_clp;
  if (name == "UN GHS") return RuleBookName::un_ghs;
  return name == "US HazCom" ? RuleBookName::us_hazcom : RuleBookName::eu_clp;
}

}  // namespace dosewright
