// The law's own classes beside those of a data sheet, and solutions of one chemical of known
// strength.
#include <catch2/catch.hpp>

#include "dosewright/answer/answer.hpp"
#include "dosewright/base/text.hpp"
#include "hazard_mix.hpp"

using namespace dosewright;
using testing::Mix;

namespace {

struct Looked {
  std::string stock;  // "Eye Dam. 1 H318; "
  std::string tub;
  std::string problems;
  std::string notes;
  std::vector<std::string> by_default;
  std::string open;  // what the tub's label leaves open or to other rules
};

std::string classes_in(const HazardAnswer& answer) {
  std::string out;
  for (const HazardClass& one : answer.found.classes) out += one.name + ' ' + one.statement + "; ";
  for (const HazardClass& one : answer.found.supplements) out += one.statement + "; ";
  return out;
}

Looked looked_at(const std::string& product, const std::string& amount,
                 const std::string& rules = "EU CLP") {
  auto made =
      testing::read_room("room: {name: R, measures: metric, emergency: D, hazard rules: " + rules +
                         "}\nproducts:\n  p: {" + product +
                         "}\nstocks:\n  s:\n    name: S\n    recipe: {p: " + amount +
                         "}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L, for: new water}\n"
                         "    hazards: {ph: 7}\n");
  REQUIRE(made.room);
  complete_hazards(*made.room, testing::knowledge());
  const auto answers = answer_room(*made.room, testing::hazard_sources());
  const HazardAnswer& stock = answers.stocks.front().hazards;
  const auto tub =
      answer_tub_hazards(*made.room, made.room->products.front(), testing::hazard_sources());
  Looked out{classes_in(stock), classes_in(tub), "", "", stock.by_default, ""};
  for (const Phrases& one : tub.found.not_evaluated) out.open += in_english(one) + '\n';
  for (const std::string& one : tub.found.not_covered) out.open += one + '\n';
  for (const auto& problem : answers.problems)
    out.problems += problem.message + " | " + problem.hint + '\n';
  for (const Phrase& note : stock.found.notes) out.notes += in_english({note}) + '\n';
  return out;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::vector<std::string> precautions(const std::vector<std::string>& classes,
                                     RuleBookName book = RuleBookName::eu_clp) {
  std::vector<std::string> out;
  const HazardBlock block = Mix().add(60, classes).block({}, book);
  for (const PrintedStatement& one : block.precautions) out.push_back(one.code);
  // The UN's own codes, which the EU's book has no words for.
  out.insert(out.end(), block.untranslated.begin(), block.untranslated.end());
  return out;
}

std::size_t place_of(const std::vector<std::string>& codes, const std::string& code) {
  return static_cast<std::size_t>(std::find(codes.begin(), codes.end(), code) - codes.begin());
}

const std::string kCopper = "name: copper(II) sulfate pentahydrate, cas: 7758-99-8, hazards: ";

}  // namespace

// CLP Article 4 (3): a harmonised class binds. Annex VI, 029-023-00-4: Acute Tox. 4 H302 (ATE 481),
// Eye Dam. 1 H318, Aquatic Acute 1 H400 (M 10), Aquatic Chronic 1 H410 (M 1).
TEST_CASE("a data sheet that leaves out what the law has does not make it harmless") {
  const Looked silent = looked_at(kCopper + "{not classified: true, source: sheet}", "40 g");
  for (const char* one :
       {"Acute Tox. 4 H302", "Eye Dam. 1 H318", "Aquatic Acute 1 H400", "Aquatic Chronic 1 H410"}) {
    INFO(one);
    CHECK(holds(silent.tub, one));
    CHECK(holds(silent.problems, one));
  }
  CHECK(holds(silent.stock, "Eye Dam. 1 H318"));
  CHECK(holds(silent.problems, "the label goes by the graver of both (CLP Article 4)"));
  // Its figures are named as ours.
  CHECK(among(silent.by_default, "copper(II) sulfate pentahydrate"));
  // Where such entries are no law it is no different: the classes are known.
  const Looked elsewhere =
      looked_at(kCopper + "{not classified: true, source: sheet}", "40 g", "US HazCom");
  CHECK(holds(elsewhere.stock, "Eye Dam. 1 H318"));
  CHECK(holds(elsewhere.problems, "the hazards leave out or weaken"));
  // A milder class of a sheet is taken at its word there, and doubted.
  const Looked milder = looked_at(
      kCopper + "{classes: [Acute Tox. 4 H302, Eye Irrit. 2], source: sheet}", "40 g", "US HazCom");
  CHECK_FALSE(holds(milder.stock, "H318"));
  CHECK(holds(milder.problems, "the hazards leave out or weaken"));
}

// CLP Article 10: no other limits, M-factors or estimates beside those of a harmonised class.
TEST_CASE("a data sheet's figures that are milder than the law's are told and do not count") {
  const std::string classes =
      "{classes: [Acute Tox. 4 H302, Eye Dam. 1, Aquatic Acute 1, Aquatic Chronic 1], "
      "source: sheet, ";
  const Looked m = looked_at(kCopper + classes + "m acute: 1, m chronic: 1}", "40 g");
  CHECK(holds(m.stock, "Aquatic Acute 1 H400"));
  CHECK(holds(m.problems, "weaken Aquatic Acute 1 H400 (M 10), which"));
  CHECK(holds(m.notes, "the harmonised classification counts"));
  // The generic limit of Eye Dam. 1 is 3 %: the entry has none of its own.
  const Looked limits = looked_at(
      kCopper + classes + "limits: {Eye Dam. 1: from 10 %, Eye Irrit. 2: 3 to 10 %}}", "40 g");
  CHECK(holds(limits.stock, "Eye Dam. 1 H318"));
  CHECK(holds(limits.problems, "Eye Dam. 1 H318 (≥ 3 %)"));
  // 300 g in 1 L are about 26 %: 481 / 0.26 = 1850 mg/kg, 1900 / 0.26 = 7300.
  const Looked ate = looked_at(kCopper + classes + "ate oral: 1900 mg/kg}", "300 g");
  CHECK(holds(ate.stock, "Acute Tox. 4 H302"));
  CHECK(holds(ate.problems, "Acute Tox. 4 H302 (ATE 481)"));
  // Annex VI, 011-002-00-6: Skin Corr. 1B from 2 %.
  const Looked lye = looked_at(
      "name: sodium hydroxide, cas: 1310-73-2, hazards: {classes: [Skin Corr. 1A], limits: "
      "{Skin Corr. 1A: from 10 %, Skin Irrit. 2: 1 to 10 %}, source: sheet}",
      "40 g");
  CHECK(holds(lye.stock, "Skin Corr. 1B H314"));
  // A sheet that is nowhere milder is left alone.
  const Looked strict = looked_at(kCopper + classes + "m acute: 10, m chronic: 10}", "40 g");
  CHECK_FALSE(holds(strict.problems, "weaken"));
  CHECK_FALSE(holds(strict.notes, "harmonised"));
  CHECK(strict.by_default.empty());
  CHECK(holds(strict.stock, "Aquatic Chronic 1 H410"));
}

TEST_CASE("a solution that is stated as harmless has what is in it all the same") {
  const std::string bleach =
      "name: sodium hypochlorite, cas: 7681-52-9, form: liquid, active: 12 %, density: 1.2 g/mL, "
      "hazards: {not classified: true, source: sheet}";
  for (const char* const rules : {"EU CLP", "UN GHS", "US HazCom"}) {
    const Looked found = looked_at(bleach, "500 mL", rules);
    INFO(rules);
    CHECK(holds(found.tub, "Skin Corr. 1"));
    CHECK(holds(found.stock, "Skin Corr. 1"));
    CHECK(holds(found.problems, "leave out or weaken"));
    // Just as if nothing had been said of it.
    const Looked silent = looked_at(bleach.substr(0, bleach.find(", hazards")), "500 mL", rules);
    CHECK(found.stock == silent.stock);
    CHECK(found.tub == silent.tub);
    CHECK(found.open == silent.open);
  }
}

// Annex VI, 008-003-00-9: Eye Dam. 1 from 8 %, Eye Irrit. 2 from 5 %; 017-011-00-1 (Note B).
TEST_CASE("a bought solution of known strength is diluted by the limits of the chemical in it") {
  const std::string peroxide =
      "name: hydrogen peroxide, cas: 7722-84-1, form: liquid, active: 35 %, density: 1.13 g/mL, "
      "hazards: {classes: [Ox. Liq. 2 H272, Acute Tox. 4 H302, Acute Tox. 4 H332, Skin Irrit. 2, "
      "Eye Dam. 1, STOT SE 3 H335], inhaled as: mist, source: sheet}";
  // 80 mL in 1 L are 9 % of the product and 3.2 % of the peroxide.
  CHECK(looked_at(peroxide, "80 mL").stock.empty());
  CHECK(holds(looked_at(peroxide, "150 mL").stock, "Eye Irrit. 2 H319"));
  CHECK(holds(looked_at(peroxide, "260 mL").stock, "Eye Dam. 1 H318"));
  CHECK(holds(looked_at(peroxide, "80 mL").tub, "Eye Dam. 1 H318"));
  // What the chemical does not explain stays with the product.
  const std::string more = peroxide.substr(0, peroxide.find("STOT SE 3")) +
                           "Skin Sens. 1 H317], inhaled as: mist, source: sheet}";
  CHECK(holds(looked_at(more, "80 mL").stock, "Skin Sens. 1 H317"));
  // Vinegar essence: Annex VI, 607-002-00-6, has acetic acid as an irritant from 10 % on.
  const std::string essence =
      "name: essence, form: liquid, density: 1.03 g/mL, contains: {acetic acid: 25 %, water: "
      "rest}, "
      "hazards: {classes: [Skin Corr. 1B, Eye Dam. 1], source: sheet}";
  CHECK(looked_at(essence, "200 mL").stock.empty());
  CHECK(holds(looked_at(essence, "500 mL").stock, "Skin Irrit. 2 H315"));
}

// CLP Article 10 (2) and Annex I, 4.1.3.5.5.5: an M-factor is the substance's; a sheet that has it
// for a solution knows it of what is in it.
TEST_CASE("the M-factor of a bought solution counts for the chemical in it") {
  const std::string liquor =
      "name: liquor, form: liquid, density: 1.15 g/mL, contains: {copper sulfate pentahydrate: 28 "
      "%, water: rest}, hazards: {classes: [Acute Tox. 4 H302, Eye Dam. 1, Aquatic Acute 1, "
      "Aquatic Chronic 1], m acute: 10, m chronic: 10, source: sheet}";
  // 1.6 % of the salt: 10 * 10 * 1.6 = 160 of 25.
  CHECK(holds(looked_at(liquor, "50 mL").stock, "Aquatic Chronic 2 H411"));
  // 25 % ammonia, M 10: 130 mL are 3 % of it.
  const std::string ammonia =
      "name: ammonia solution, form: liquid, active: 25 %, density: 0.91 g/mL, hazards: {classes: "
      "[Skin Corr. 1B, STOT SE 3 H335, Aquatic Acute 1], m acute: 10, source: sheet}";
  CHECK(holds(looked_at(ammonia, "130 mL").stock, "Aquatic Acute 1 H400"));
  // One that is stated is not asked for again.
  const std::string one =
      ammonia.substr(0, ammonia.find("m acute")) + "m acute: 1, m chronic: 1, source: sheet}";
  CHECK_FALSE(holds(looked_at(one, "130 mL").problems, "no M-factor"));
}

// CLP Annex VI, 1.1.3.1, Note B, and the limits of Annex I: a solution has what its strength gives.
TEST_CASE("a solution is held against its strength, not against the neat chemical") {
  const auto doubts = [](const std::string& product) {
    return holds(looked_at(product, "50 mL").problems, "leave out or weaken");
  };
  CHECK_FALSE(doubts(
      "name: hydrogen peroxide, form: liquid, active: 12 %, density: 1.04 g/mL, hazards: {classes: "
      "[Eye Dam. 1], source: sheet}"));
  CHECK_FALSE(doubts(
      "name: sodium hypochlorite, form: liquid, active: 4 %, density: 1.05 g/mL, hazards: "
      "{classes: "
      "[Skin Irrit. 2, Eye Dam. 1, Aquatic Acute 1, Aquatic Chronic 2], m acute: 10, m chronic: 1, "
      "source: sheet}"));
  // At 35 % it is Acute Tox. 4 and Eye Dam. 1.
  CHECK(doubts(
      "name: hydrogen peroxide, form: liquid, active: 35 %, density: 1.13 g/mL, hazards: {classes: "
      "[Eye Irrit. 2], source: sheet}"));
  // Sub-categories of corrosion are one effect: Annex VI, 607-002-00-6, has 80 % in 1B.
  CHECK(looked_at("name: acetic acid, form: liquid, active: 80 %, density: 1.07 g/mL, hazards: "
                  "{classes: [Skin Corr. 1A H314], source: sheet}",
                  "75 mL")
            .stock.empty());
}

// CLP Annex III, H370 and H371: all organs affected, if known.
TEST_CASE("organs that a data sheet names stand on the labels of its dilutions") {
  for (const char* const what : {"name: methanol",
                                 "name: wash, contains: {methanol: 60 %, water: "
                                 "rest}"}) {
    auto made = testing::read_room(
        std::string("room: {name: R, measures: metric, emergency: D}\nproducts:\n  p: {") + what +
        ", form: liquid, density: 0.8 g/mL, hazards: {classes: [Acute Tox. 3 H301, Acute Tox. 3 "
        "H311, Acute Tox. 3 H331, STOT SE 1 H370 (eyes)], inhaled as: vapour, source: sheet}}\n"
        "stocks:\n  s:\n    name: S\n    recipe: {p: 250 mL}\n    water to: 1 L\n    dose: {give: "
        "1 "
        "mL per 10 L, for: new water}\n");
    REQUIRE(made.room);
    complete_hazards(*made.room, testing::knowledge());
    const auto answers = answer_room(*made.room, testing::hazard_sources());
    INFO(what);
    std::string said;
    for (const auto& one : answers.stocks.front().hazards.block.hazards) said += one.text + '\n';
    CHECK(holds(said, "damage to eyes"));
  }
}

// CLP Annex I, 3.2.3.1.2: what its name says of it is enough to ask for its pH.
TEST_CASE("a corrosive that is called an acid or a hydroxide wants its pH measured") {
  for (const char* const name : {"phosphoric acid", "Lithium hydroxide", "phosphor-clear"}) {
    auto made = testing::read_room(
        std::string("room: {name: R, measures: metric, emergency: D}\nproducts:\n  p: {name: ") +
        name +
        ", hazards: {classes: [Skin Corr. 1B], source: sheet}}\nstocks:\n  s:\n    name: S\n    "
        "recipe: {p: 5 g}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L, for: new water}\n");
    REQUIRE(made.room);
    const auto answers = answer_room(*made.room, testing::hazard_sources());
    INFO(name);
    std::string problems;
    for (const auto& problem : answers.problems) problems += problem.message + '\n';
    CHECK(holds(problems, "the pH of this stock is not known") ==
          (name != std::string("phosphor-clear")));
  }
}

// The UN's and the US's rules know no EUH statements, and say so of what the table has.
TEST_CASE("what other rules do not cover is said of what is in a solution, too") {
  const std::string bleach =
      "name: sodium hypochlorite, cas: 7681-52-9, form: liquid, active: 12 %, density: 1.2 g/mL, "
      "hazards: {classes: [Skin Corr. 1B H314, Eye Dam. 1 H318, Aquatic Acute 1 H400], source: "
      "sheet}";
  for (const char* const rules : {"UN GHS", "US HazCom"}) {
    INFO(rules);
    CHECK(holds(looked_at(bleach, "500 mL", rules).open, "liberates toxic gas"));
  }
}

// Annex VI, 603-001-00-X: methanol, STOT SE 1 from 10 %, STOT SE 2 from 3 % on; it names no organ.
TEST_CASE("an organ that only the data sheet names does not hide what causes the effect") {
  const std::string formalin =
      "name: formalin, form: liquid, density: 1.08 g/mL, contains: {formaldehyde: 37 %, methanol: "
      "10 %, water: rest}, hazards: {classes: [Acute Tox. 3 H301, Acute Tox. 3 H311, Acute Tox. 2 "
      "H330, Skin Corr. 1B, Eye Dam. 1, Skin Sens. 1 H317, Muta. 2 H341, Carc. 1B H350, STOT SE 1 "
      "H370 (eyes), STOT SE 3 H335], inhaled as: vapour, source: sheet}";
  const Looked weak = looked_at(formalin, "30 mL");
  CHECK_FALSE(holds(weak.problems, "STOT SE 1"));
  CHECK_FALSE(holds(weak.stock, "H371"));
  CHECK(holds(weak.tub, "STOT SE 1 H370"));
}

// CLP Annex I, Tables 3.1.3 and 3.10.2, and Annex IV: P330 and P331 say no more of their own when.
TEST_CASE("what to do with the mouth stands behind \"if swallowed\"") {
  const auto poison = precautions({"Acute Tox. 3 H301", "Eye Dam. 1"});
  CHECK(among(poison, "P301+P310"));
  CHECK(among(poison, "P310"));
  const auto oil = precautions({"Asp. Tox. 1 H304", "Eye Dam. 1"});
  REQUIRE(among(oil, "P331"));
  CHECK(place_of(oil, "P331") == place_of(oil, "P301+P310") + 1);
  // Never alone.
  for (const char* const eye : {"Eye Dam. 1", "Eye Irrit. 2"}) {
    const auto harmful = precautions({"Acute Tox. 4 H302", eye});
    INFO(eye);
    if (among(harmful, "P330"))
      CHECK(place_of(harmful, "P330") == place_of(harmful, "P301+P312") + 1);
  }
  // Help is called for each route (UN GHS Annex 3, P316 and P317; from memory).
  const auto un = precautions({"Acute Tox. 3 H301", "Eye Dam. 1"}, RuleBookName::un_ghs);
  CHECK(among(un, "P301+P316"));
  CHECK(among(un, "P317"));
  const auto all =
      precautions({"Acute Tox. 3 H301", "Skin Corr. 1B", "STOT SE 1 H370"}, RuleBookName::un_ghs);
  CHECK(among(all, "P308+P316"));
  CHECK_FALSE(among(all, "P301+P316"));
  // Corrosive: one sentence says it all.
  const auto lye = precautions({"Acute Tox. 3 H301", "Skin Corr. 1B"});
  CHECK(among(lye, "P301+P330+P331"));
  CHECK_FALSE(among(lye, "P301+P310"));
}
