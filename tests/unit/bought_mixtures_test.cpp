// Bought mixtures: what is in them, what their data sheets say, and what becomes of both when they
// are diluted or mixed.
#include <catch2/catch.hpp>

#include "dosewright/answer/answer.hpp"
#include "dosewright/wording/content.hpp"
#include "hazard_mix.hpp"

using namespace dosewright;
using testing::Mix;

namespace {

// A room of these products with one stock, and what is found of it and of its first product's tub.
struct Looked {
  std::string classes;  // of the stock: "Eye Dam. 1 H318; …"
  std::string named;
  std::string tub;
  std::string tub_named;
  std::string problems;
  std::vector<std::string> precautions;
  std::string unnamed;
  std::string tub_organs;
  std::string not_counted;  // of the stock
};

std::string classes_in(const dosewright::HazardAnswer& answer) {
  std::string out;
  for (const HazardClass& one : answer.found.classes) out += one.name + ' ' + one.statement + "; ";
  for (const HazardClass& one : answer.found.supplements) out += one.statement + "; ";
  return out;
}

std::string names_in(const dosewright::HazardAnswer& answer) {
  std::string out;
  for (const auto& name : answer.to_be_named) out += dosewright::in_english({name}) + "; ";
  return out;
}

Looked looked_at(const std::string& products, const std::string& recipe,
                 const std::string& hazards = "{ph: 7}") {
  auto made = testing::read_room(
      "room: {name: R, measures: metric, emergency: D}\nproducts:\n" + products +
      "stocks:\n  s:\n    name: S\n    recipe: {" + recipe +
      "}\n    water to: 1 L\n    dose: {give: 1 mL per 10 L, for: new water}\n    hazards: " +
      hazards + "\n");
  REQUIRE(made.room);
  complete_hazards(*made.room, testing::knowledge());
  const auto answers = answer_room(*made.room, testing::hazard_sources());
  const auto& stock = answers.stocks.front().hazards;
  const auto tub =
      answer_tub_hazards(*made.room, made.room->products.front(), testing::hazard_sources());
  Looked out{classes_in(stock),
             names_in(stock),
             classes_in(tub),
             names_in(tub),
             "",
             {},
             "",
             "",
             dosewright::in_english(stock.not_counted)};
  for (const HazardClass& one : tub.found.classes) out.tub_organs += one.fill + "; ";
  for (const std::string& code : stock.unnamed) out.unnamed += code + "; ";
  for (const auto& problem : answers.problems) out.problems += problem.message + '\n';
  for (const PrintedStatement& one : stock.block.precautions) out.precautions.push_back(one.text);
  return out;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// A liquid product on one line, as heavy as water.
std::string liquid(const std::string& id, const std::string& contains, const std::string& hazards) {
  return "  " + id + ": {form: liquid, density: 1 g/mL, contains: {" + contains + "}" +
         (hazards.empty() ? "" : ", hazards: {" + hazards + ", source: s}") + "}\n";
}

}  // namespace

// CLP Article 18 (3) (b): the ingredients of a mixture that bring about its classes are named.
TEST_CASE("a bought mixture with its own classes is labelled by the names of what is in it") {
  const Looked corrosive =
      looked_at(liquid("wash", "sodium hydroxide: 20 %, water: rest", "classes: [Skin Corr. 1A]"),
                "wash: 120 g");
  CHECK(holds(corrosive.tub, "Skin Corr. 1A"));
  CHECK(corrosive.tub_named == "sodium hydroxide; ");
  // All of it is known: 12 % of the whole are 2.4 % of the lye, which corrode from 2 % on (Annex
  // VI, 011-002-00-6).
  CHECK(holds(corrosive.classes, "Skin Corr. 1B H314"));
  CHECK_FALSE(holds(corrosive.classes, "Skin Corr. 1A"));
  CHECK(corrosive.named == "sodium hydroxide; ");
  // What irritates the eyes adds nothing to Eye Dam. 1 (Table 3.3.3), and is not named for it.
  const Looked two =
      looked_at(liquid("cure", "copper sulfate pentahydrate: 30 %, citric acid: 10 %, water: rest",
                       "classes: [Acute Tox. 4 H302, Eye Dam. 1, Aquatic Chronic 1], m chronic: 1"),
                "cure: 200 g");
  CHECK(two.tub_named == "copper(II) sulfate pentahydrate; ");
  CHECK(two.named == "copper(II) sulfate pentahydrate; ");
}

// CLP Annex I, Tables 3.3.3 and 4.1.1: the limits of what is in it are lower than those of the
// whole.
TEST_CASE("a bought mixture with its own classes is diluted by what is in it as well") {
  const std::string a =
      liquid("a", "copper sulfate pentahydrate: 8 %, water: rest", "classes: [Aquatic Chronic 2]");
  const Looked once = looked_at(a, "a: 600 mL");
  CHECK(holds(once.classes, "Eye Dam. 1 H318"));
  CHECK(holds(once.classes, "Aquatic Acute 1 H400"));
  // The same inside another mixture, whether that has classes of its own or not.
  for (const char* own : {"", "classes: [Aquatic Chronic 2]"}) {
    INFO(own);
    const Looked twice = looked_at(liquid("b", "a: 90 %, water: rest", own) + a, "b: 667 mL");
    CHECK(holds(twice.classes, "Eye Dam. 1 H318"));
    CHECK(holds(twice.classes, "Aquatic Acute 1 H400"));
    CHECK(holds(twice.named, "copper(II) sulfate pentahydrate"));
    CHECK(holds(twice.tub, "Eye Dam. 1 H318"));
  }
  // Each of two mixtures enters the sum in its graver way: 2.06 % + 1.82 % are Eye Dam. 1.
  const Looked crossed =
      looked_at(liquid("ta", "copper sulfate pentahydrate: 12 %, water: rest",
                       "classes: [Eye Irrit. 2, Aquatic Chronic 2]") +
                    "  scent: {form: liquid, hazards: {classes: [Skin Sens. 1], source: s}}\n" +
                    liquid("tb", "scent: 2 %, water: rest", "classes: [Eye Dam. 1]"),
                "ta: 170 mL, tb: 18 mL");
  CHECK(holds(crossed.classes, "Eye Dam. 1 H318"));
}

// CLP Article 6 (3): what causes cancer goes by the ingredients; Annex II, 2.6 and 2.8.
TEST_CASE("a tub's label goes by what is in it where its own classes are milder") {
  const Looked formalin =
      looked_at(liquid("tonic", "formaldehyde: 0.15 %, water: rest", "not classified: true"),
                "tonic: 950 mL");
  CHECK(holds(formalin.tub, "Carc. 1B H350"));
  CHECK(holds(formalin.tub, "EUH208"));
  CHECK(holds(formalin.problems, "tonic leave out or weaken Carc. 1B H350"));
  const Looked bleach =
      looked_at(liquid("cleaner", "sodium hypochlorite: 14 %, water: rest",
                       "classes: [Skin Corr. 1B, Eye Dam. 1, Aquatic Acute 1, Aquatic Chronic 1]"),
                "cleaner: 10 mL", "{ph: 9}");
  CHECK(holds(bleach.tub, "EUH206"));
  CHECK(holds(bleach.tub, "EUH031"));
  // M-factors are of ingredients, and the ingredient's is known.
  CHECK_FALSE(holds(bleach.problems, "M-factor"));
  // A class that nothing in it explains leaves its label without the name.
  const Looked odd =
      looked_at(liquid("soap", "sodium carbonate: 4 %, water: rest", "classes: [Skin Sens. 1]"),
                "soap: 500 mL");
  CHECK(holds(odd.problems,
              "nothing that soap is said to contain is known to cause Skin Sens. 1 H317"));
}

// CLP Annex I, Table 3.1.2: the form in which it is breathed in decides on the estimate.
TEST_CASE("what is in a mixture says how it is breathed in") {
  const Looked methanol = looked_at(
      liquid("delta", "methanol: 20 %, water: rest",
             "classes: [Acute Tox. 3 H331, Acute Tox. 3 H301, Acute Tox. 3 H311, STOT SE 1 H370]"),
      "delta: 500 mL");
  CHECK(holds(methanol.classes, "Acute Tox. 3 H331"));
  CHECK_FALSE(holds(methanol.problems, "whether it is breathed in"));
  const Looked formalin = looked_at(liquid("f", "formaldehyde: 37 %, methanol: 10 %, water: rest",
                                           "classes: [Acute Tox. 2 H330, Carc. 1B H350]"),
                                    "f: 250 mL");
  CHECK(holds(formalin.classes, "Acute Tox. 2 H330"));
  CHECK(std::any_of(formalin.precautions.begin(), formalin.precautions.end(),
                    [](const std::string& one) { return holds(one, "vapour"); }));
  // Nobody says it of what is in this one.
  const Looked open = looked_at(
      liquid("g", "copper sulfate pentahydrate: 20 %, water: rest", "classes: [Acute Tox. 3 H331]"),
      "g: 500 mL");
  CHECK(holds(open.problems, "whether it is breathed in as vapour or as mist"));
}

// CLP Article 6 (3); Tables 3.3.3, 3.5.2 and 3.6.2.
TEST_CASE("stated statements that are milder than the calculation are a finding") {
  const std::string formalin = liquid("f", "formaldehyde: 37 %, methanol: 10 %, water: rest", "");
  const std::string stated = ", precautions: [P273], source: lab}";
  const Looked mild = looked_at(formalin, "f: 100 mL", "{statements: [H319]" + stated);
  CHECK(holds(mild.problems, "milder than the calculation, which gives"));
  CHECK(holds(mild.problems, "Carc. 1B H350"));
  const std::string copper = "  c: {name: copper sulfate pentahydrate, cas: 7758-99-8}\n";
  CHECK(holds(looked_at(copper, "c: 100 g", "{statements: [H318, H412]" + stated).problems,
              "which gives Aquatic"));
  CHECK_FALSE(holds(looked_at(copper, "c: 100 g", "{statements: [H314, H410]" + stated).problems,
                    "milder"));
}

// CLP Annex VI, 008-003-00-9: Ox. Liq. from 50 %, Skin Corr. from 50 %.
TEST_CASE("what a solution's data sheet leaves out below the entry's limits is no finding") {
  const Looked peroxide = looked_at(
      "  p: {name: hydrogen peroxide, cas: 7722-84-1, form: liquid, active: 35 %, density: 1.13 "
      "g/mL, hazards: {classes: [Acute Tox. 4 H302, Acute Tox. 4 H332, Skin Irrit. 2, Eye Dam. 1, "
      "STOT SE 3 H335], source: s}}\n",
      "p: 100 mL");
  CHECK_FALSE(holds(peroxide.problems, "leave out or weaken"));
  const Looked formalin = looked_at(
      "  f: {name: formaldehyde, cas: 50-00-0, form: liquid, active: 37 %, density: 1.08 g/mL}\n",
      "f: 10 mL");
  CHECK(holds(formalin.problems, "often sold with 6 to 15 % methanol"));
  CHECK(holds(formalin.not_counted, "Not counted: 6 to 15 % methanol"));
}

TEST_CASE("products that contain each other in a ring of any length are refused") {
  const auto made = testing::read_room(
      "room: {name: R, measures: metric, emergency: D}\nproducts:\n" +
      liquid("a", "b: 50 %, water: rest", "") + liquid("b", "c: 50 %, water: rest", "") +
      liquid("c", "a: 50 %, water: rest", ""));
  CHECK_FALSE(made.room);
}

// CLP Annex I, 3.4.2.2.1.1, note: category 1 without sub-category may be 1A.
TEST_CASE("sensitisers of which one has no sub-category leave the mixture without one") {
  CHECK(Mix()
            .add(2, {"Skin Sens. 1B H317"})
            .add(2, {"Skin Sens. 1 H317"})
            .names()
            .find("Skin Sens. 1 H317") != std::string::npos);
  CHECK(Mix()
            .add(2, {"Skin Sens. 1B H317"})
            .add(0.5, {"Skin Sens. 1 H317"})
            .names()
            .find("Skin Sens. 1B H317") != std::string::npos);
  CHECK(Mix()
            .add(2, {"Skin Sens. 1A H317"})
            .add(2, {"Skin Sens. 1 H317"})
            .names()
            .find("Skin Sens. 1A H317") != std::string::npos);
}

// CLP Annex I, 2.6: a liquid burns by its flash point, which nobody calculates.
TEST_CASE("a bought mixture with something flammable in it is no all-clear") {
  const Looked spirit = looked_at(
      liquid("spirit", "ethanol: 60 %, water: rest", "not classified: true"), "spirit: 900 mL");
  CHECK(
      holds(spirit.problems, "whether it burns or feeds a fire is not known: undiluted, ethanol"));
  const Looked told = looked_at(
      liquid("spirit", "ethanol: 60 %, water: rest", "classes: [Flam. Liq. 2]"), "spirit: 9 mL");
  CHECK_FALSE(holds(told.problems, "spirit burns"));
}

// CLP Article 18 (3) (b); Tables 3.4.5, 3.6.2, 3.7.2.
TEST_CASE("what is in a bought mixture decides where effects do not add up") {
  const std::string formalin =
      liquid("f", "formaldehyde: 10 %, water: rest", "classes: [Carc. 1B H350, Skin Sens. 1 H317]");
  // 1.1 g/L of the whole are 0.011 % formaldehyde, below every limit of both effects.
  CHECK_FALSE(holds(looked_at(formalin, "f: 1.1 g").classes, "H350"));
  CHECK_FALSE(holds(looked_at(formalin, "f: 1.1 g").classes, "H317"));
  CHECK(holds(looked_at(formalin, "f: 30 g").classes, "H350"));
  CHECK(looked_at(formalin, "f: 30 g").named == "formaldehyde 0.301 % w/w; ");
  // What is not known to the end keeps the classes of the whole, and the name of what has them.
  const Looked open =
      looked_at(liquid("f", "formaldehyde: 10 %", "classes: [Carc. 1B H350]"), "f: 1.1 g");
  CHECK(holds(open.classes, "H350"));
  CHECK(holds(open.named, "formaldehyde"));
  // A chemical of which nothing is known is never named as the cause.
  const Looked salt =
      looked_at(liquid("c", "copper sulfate pentahydrate: 30 %, sodium chloride: 10 %, water: rest",
                       "classes: [Eye Dam. 1]"),
                "c: 32 g");
  CHECK(salt.named == "copper(II) sulfate pentahydrate; ");
  // Annex II, 2.8: the substance, not the mixture.
  const Looked little = looked_at(formalin, "f: 12 g");
  CHECK(holds(little.classes, "EUH208"));
}

// Table 3.8.3 and limits of Annex VI; 3.2.3.1.2 on pH.
TEST_CASE("a cause that stands in limits, or in the pH, explains a class") {
  const Looked peroxide = looked_at(
      liquid("p", "hydrogen peroxide: 49 %, water: rest", "classes: [STOT SE 3 H335, Eye Dam. 1]"),
      "p: 10 g");
  CHECK_FALSE(holds(peroxide.problems, "is known to cause"));
  const Looked acid = looked_at(
      liquid("a", "citric acid: 30 %, water: rest", "classes: [Skin Corr. 1 H314]"), "a: 10 g");
  CHECK_FALSE(holds(acid.problems, "is known to cause"));
}

// CLP Annex I, 2.11 and 2.14: by tests alone.
TEST_CASE("a little of what feeds fire does not make a powder do so by calculation") {
  const std::string mixed =
      "  salt: {name: rock salt, hazards: {not classified: true, source: s}}\n";
  const auto powder = [&](const std::string& percent) {
    return "  mix: {contains: {potassium permanganate: " + percent + " %, salt: rest}}\n" + mixed;
  };
  CHECK_FALSE(holds(looked_at(powder("0.3"), "mix: 10 g").tub, "H272"));
  CHECK(holds(looked_at(powder("60"), "mix: 10 g").tub, "H272"));
  CHECK(holds(looked_at(powder("97"), "mix: 10 g").tub, "H272"));
}

// The classes of the mixture itself stand first where what is in it does not account for them (CLP
// Articles 6 (1) and 9).
TEST_CASE("contents that do not reach a class at the tub's own strength do not take it away") {
  const Looked resp =
      looked_at(liquid("e", "formaldehyde: 0.02 %, copper sulfate pentahydrate: 2 %, water: rest",
                       "classes: [Skin Sens. 1A H317, Aquatic Chronic 3 H412]"),
                "e: 900 g");
  CHECK(holds(resp.classes, "H317"));
  CHECK(holds(resp.problems, "is known to cause Skin Sens. 1A H317"));
  // Annex VI, 603-001-00-X: STOT SE 1 from 10 % methanol on.
  const Looked spirit = looked_at(
      liquid("m", "methanol: 5 %, water: rest", "classes: [STOT SE 1 H370, Acute Tox. 4 H302]"),
      "m: 500 g");
  CHECK(holds(spirit.classes, "STOT SE 1 H370"));
}

TEST_CASE("bought mixtures in bought mixtures are named by what is in them, and by nothing else") {
  const std::string formalin = liquid("fm", "formaldehyde: 37 %, methanol: 10 %, water: rest",
                                      "classes: [Acute Tox. 3 H331, Skin Corr. 1B, Skin Sens. 1A "
                                      "H317, Carc. 1B H350, STOT SE 1 H370]");
  const std::string nest =
      liquid("c", "fm: 1 %, water: rest", "classes: [Skin Sens. 1A H317, Carc. 1B H350]");
  // 0.37 % formaldehyde in the tub, 0.11 % in the stock: H317 from 0.2 %, H350 from 0.1 % on.
  const Looked nested = looked_at(nest + formalin, "c: 300 g");
  CHECK(holds(nested.tub, "Skin Sens. 1A H317"));
  CHECK(holds(nested.tub, "Carc. 1B H350"));
  CHECK(holds(nested.classes, "Carc. 1B H350"));
  CHECK(holds(nested.classes, "EUH208"));
  CHECK_FALSE(holds(nested.classes, "H317"));
  CHECK(nested.tub_named == "formaldehyde 0.37 % w/w; ");
  // 3 % methanol are STOT SE 2: the inner mixture does not count as a whole.
  const Looked third = looked_at(
      liquid("c", "fm: 30 %, water: rest", "classes: [STOT SE 2 H371, Carc. 1B H350]") + formalin,
      "c: 10 g");
  CHECK_FALSE(holds(third.problems, "STOT SE 1"));
}

// CLP Table 3.1.2: 100 ppm stand for category 2 of a gas, and for the limit of category 1.
TEST_CASE("no mixture is more acutely toxic than its gravest ingredient") {
  const std::string names = Mix().add(100, {"Acute Tox. 2 H330"}).inhaled_as(Route::gas).names();
  CHECK(names.find("Acute Tox. 2 H330") != std::string::npos);
}

// CLP Annex I, 2.14.2: one category for a mixture.
TEST_CASE("a mixture has one category of each kind of physical hazard, the gravest") {
  const std::string salt =
      "  salt: {name: rock salt, hazards: {not classified: true, source: s}}\n";
  const Looked sheet = looked_at(
      "  q: {contains: {potassium permanganate: 97 %, salt: rest}, hazards: {classes: [Ox. Sol. 3 "
      "H272, Acute Tox. 4 H302], source: s}}\n" +
          salt,
      "q: 1 g");
  CHECK(holds(sheet.tub, "Ox. Sol. 2 H272"));
  CHECK_FALSE(holds(sheet.tub, "Ox. Sol. 3"));
  CHECK(holds(sheet.problems, "leave out or weaken"));
  CHECK(holds(sheet.problems, "Ox. Sol. 2 H272"));
  const Looked two = looked_at(
      "  q: {contains: {potassium permanganate: 12 %, nit: 40 %, salt: rest}}\n  nit: {name: "
      "nitrate, hazards: {classes: [Ox. Sol. 3 H272], source: s}}\n" +
          salt,
      "q: 1 g");
  CHECK(holds(two.tub, "Ox. Sol. 2 H272"));
  CHECK_FALSE(holds(two.tub, "Ox. Sol. 3"));
}

// CLP Article 18 (3) (b).
TEST_CASE("a cause that nobody has named is told, and no other is named in its place") {
  const Looked open = looked_at(
      liquid("e", "formaldehyde: 0.02 %, water: rest", "classes: [Skin Sens. 1 H317]"), "e: 900 g");
  CHECK(open.named.empty());
  CHECK(open.unnamed == "H317; ");
  const Looked copper = looked_at(
      liquid("c", "copper sulfate pentahydrate: 8 %, water: rest", "classes: [Eye Dam. 1]"),
      "c: 500 g");
  CHECK(copper.named == "copper(II) sulfate pentahydrate; ");
  CHECK(copper.unnamed.empty());
}

// CLP Article 9 and Annex I, 1.1.3: what is known of the stronger mixture must not be lost.
TEST_CASE("what is stated of a stronger stock is told on what is diluted from it") {
  const auto made = [](const std::string& stated) {
    auto read = testing::read_room(
        "room: {name: R, measures: metric, emergency: D}\nproducts:\n"
        "  a: {name: four, hazards: {classes: [Acute Tox. 4 H302], source: sheet}}\n"
        "stocks:\n"
        "  strong: {name: Strong, recipe: {a: 400 g}, water to: 1 L, density: 1 g/mL, "
        "hazards: {statements: " +
        stated +
        ", precautions: [P264], source: sheet}, dose: {give: 1 mL per 10 L, for: new water}}\n"
        "  weak: {name: Weak, diluted from: strong, take: 700 mL, water to: 1 L, density: 1 g/mL, "
        "dose: {give: 1 mL per 10 L, for: new water}}\n");
    for (const auto& problem : read.problems) INFO(problem.message);
    REQUIRE(read.room);
    static dosewright::Room room;
    room = std::move(*read.room);
    return answer_room(room, testing::hazard_sources());
  };
  const auto lost = made("[H301, H317]");
  std::string codes;
  for (const auto& one : find_stock(lost, "weak")->hazards.stronger_states) codes += one.code;
  CHECK(codes == "H301H317");
  std::string problems;
  for (const auto& one : lost.problems) problems += one.message + '\n';
  CHECK(holds(problems,
              "Strong is stated to be H301 and H317, which its ingredients do not explain"));
  CHECK(find_stock(made("[H302]"), "weak")->hazards.stronger_states.empty());
}

TEST_CASE(
    "a class left to what is in a mixture still stands on its sheet, and is not called absent") {
  const std::string products =
      "  m: {name: mix, form: liquid, density: 1 g/mL, contains: {a: 0.5 %, water: rest}, "
      "hazards: {classes: [Repr. 1B H360D], source: sheet of the mix}}\n"
      "  a: {name: repr, hazards: {classes: [Repr. 1B H360D], source: sheet of a}}\n";
  CHECK(looked_at(products, "m: 100 g").classes.empty());
  auto read = testing::read_room(
      "room: {name: R, measures: metric, emergency: D}\nproducts:\n" + products +
      "stocks:\n  s: {name: S, recipe: {m: 100 g}, water to: 1 L, dose: {give: 1 mL per 10 L, "
      "for: new water}}\n");
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  std::string sheet;
  for (const auto& block : hazard_sheet_content(answers, answers.stocks.front(), {}).blocks) {
    for (const auto& line : block.paragraphs) sheet += line + '\n';
    for (const auto& row : block.table.rows) {
      for (const auto& cell : row) sheet += cell + '\n';
    }
  }
  INFO(sheet);
  CHECK(holds(sheet, "Repr. 1B H360D (sheet of the mix)"));
  CHECK(holds(sheet, "What mix does goes by what is in it"));
  const std::size_t absent = sheet.find("No known ingredient is classified for");
  REQUIRE(absent != std::string::npos);
  CHECK(sheet.find("reproductive toxicity", absent) == std::string::npos);
}

namespace {

// Strong, then Mid of half of it, then Weak of half of that.
std::string lost_on_the_way(const std::string& product, const std::string& of_strong,
                            const std::string& of_weak = "") {
  auto read = testing::read_room(
      "room: {name: R, measures: metric, emergency: D}\nproducts:\n  a: " + product +
      "\nstocks:\n"
      "  strong: {name: Strong, recipe: {a: 400 g}, water to: 1 L, density: 1 g/mL, hazards: " +
      of_strong +
      ", dose: {give: 1 mL per 10 L, for: new water}}\n"
      "  mid: {name: Mid, diluted from: strong, take: 500 mL, water to: 1 L, density: 1 g/mL, "
      "dose: {give: 1 mL per 10 L, for: new water}}\n"
      "  weak: {name: Weak, diluted from: mid, take: 500 mL, water to: 1 L, density: 1 g/mL, " +
      (of_weak.empty() ? "" : "hazards: " + of_weak + ", ") +
      "dose: {give: 1 mL per 10 L, for: new water}}\n");
  for (const auto& problem : read.problems) UNSCOPED_INFO(problem.message);
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  std::string out;
  for (const auto& one : find_stock(answers, "weak")->hazards.stronger_states)
    out += one.code + ' ';
  return out;
}

const std::string kHarmless = "{name: blank, hazards: {not classified: true, source: sheet}}";

}  // namespace

// CLP Article 9: what tests of a mixture show goes before its calculation.
TEST_CASE("what is tested or measured of a stronger stock goes down the whole chain") {
  CHECK(lost_on_the_way(kHarmless, "{tested: {skin: Skin Corr. 1B H314}, source: lab}") == "H314 ");
  CHECK(lost_on_the_way(kHarmless, "{tested: {physical: Flam. Liq. 2 H225}, source: lab}") ==
        "H225 ");
  CHECK(lost_on_the_way(kHarmless, "{ph: 1, source: lab}") == "H314 ");
  CHECK(lost_on_the_way(kHarmless, "{tested: {skin: none}, source: lab}").empty());
  // What its ingredients do is calculated for each by itself.
  CHECK(lost_on_the_way("{name: b, hazards: {classes: [Eye Dam. 1 H318], source: sheet}}",
                        "{tested: {eyes: Eye Dam. 1 H318}, source: lab}")
            .empty());
  // A test of the weak one goes before all, each for its own effect: what corrodes the skin damages
  // the eyes too (CLP Annex I, 3.3.2).
  const std::string corrodes = "{tested: {skin: Skin Corr. 1B H314}, source: lab}";
  CHECK(lost_on_the_way(kHarmless, corrodes, "{tested: {skin: none}, source: lab}") == "H318 ");
  CHECK(lost_on_the_way(kHarmless, corrodes, "{tested: {skin: none, eyes: none}, source: lab}")
            .empty());
  const std::string both = "{statements: [H301+H311, H350i], precautions: [P264], source: lab}";
  CHECK(lost_on_the_way(kHarmless, both) == "H301 H311 H350i ");
  CHECK(lost_on_the_way(kHarmless, both, "{tested: {oral: none}, source: lab}") == "H311 H350i ");
  // A pH of its own ends what followed from another, however far up.
  CHECK(lost_on_the_way(kHarmless, "{ph: 1, source: lab}", "{ph: 6, source: lab}").empty());
  CHECK(lost_on_the_way("{name: b, hazards: {classes: [Acute Tox. 4 H302], source: sheet}}",
                        "{statements: [H302+H312], precautions: [P264], source: lab}") == "H312 ");
}

// CLP Annex II, 2.4 and 2.8, hold for mixtures without a class too.
TEST_CASE("what is stated without the Union's own statements is milder than the calculation") {
  const auto look =
      looked_at("  a: {name: sens, hazards: {classes: [Skin Sens. 1 H317], source: sheet}}\n",
                "a: 5 g", "{not classified: true, source: sheet}");
  CHECK(holds(look.problems, "the calculation gives EUH208"));
}

TEST_CASE("fire is asked for also where the hazards are stated") {
  const std::string spirit =
      "  a: {name: ethanol, cas: 64-17-5, form: liquid, density: 0.79 g/mL}\n";
  const std::string asked = "whether it burns or feeds a fire is not known";
  CHECK(
      holds(looked_at(spirit, "a: 300 mL", "{statements: [H319], source: sheet}").problems, asked));
  CHECK_FALSE(holds(
      looked_at(spirit, "a: 300 mL", "{statements: [H226, H319], source: sheet}").problems, asked));
}

// CLP Annex VI, 008-003-00-9: ATE (mist) 1.5 mg/L of 100 % by category 4; 3.1.3.6.1: 1.5 / 0.35 =
// 4.3 mg/L is category 4 still.
TEST_CASE("what is sold is classified for its mist, a stock only when it is sprayed") {
  const std::string peroxide =
      "  p: {name: hydrogen peroxide, form: liquid, density: 1.13 g/mL, active: 35 %}\n";
  const auto look = looked_at(peroxide, "p: 900 g");
  CHECK(holds(look.tub, "H332"));
  CHECK_FALSE(holds(look.classes, "H332"));
}

// CLP Annex I, Tables 3.7.2, 3.8.4 and 3.9.5; Annex VI, 1.1.2.1.2.
TEST_CASE("effects and organs that the contents do not have stay with the data sheet") {
  const auto mixture = [](const std::string& sheet, const std::string& content,
                          const std::string& percent) {
    return "  m: {name: mix, form: liquid, density: 1 g/mL, contains: {a: " + percent +
           " %, water: rest}, hazards: {classes: ['" + sheet +
           "'], source: sheet}}\n  a: {name: part, hazards: {classes: ['" + content +
           "'], source: sheet}}\n";
  };
  CHECK(holds(looked_at(mixture("Repr. 1B H360F", "Repr. 1B H360D", "1"), "m: 100 g").classes,
              "Repr. 1B H360F"));
  CHECK(holds(looked_at(mixture("Repr. 2 H361f", "Repr. 2 H361d", "4"), "m: 100 g").classes,
              "Repr. 2 H361f"));
  CHECK(looked_at(mixture("Repr. 1B H360D", "Repr. 1B H360FD", "1"), "m: 100 g").classes.empty());
  const auto organs =
      looked_at(mixture("STOT RE 1 H372 (liver)", "STOT RE 1 H372 (kidneys)", "12"), "m: 200 g");
  CHECK(holds(organs.classes, "STOT RE 1 H372"));
  CHECK(holds(organs.tub_organs, "liver and kidneys"));
}

TEST_CASE("one statement says another") {
  const auto said = [](const char* code, const std::vector<std::string>& by) {
    return dosewright::is_said_by(code, by);
  };
  CHECK(said("H301", {"H300+H310"}));
  CHECK(said("H302", {"H301+H311"}));
  CHECK(said("H350i", {"H350"}));
  CHECK_FALSE(said("H350", {"H350i"}));
  CHECK_FALSE(said("H360", {"H360F"}));
  CHECK(said("H360", {"H360FD"}));
  CHECK(said("H361d", {"H360FD"}));
  CHECK_FALSE(said("H361d", {"H360F"}));
  CHECK(said("EUH031", {"EUH032"}));
  CHECK(said("H302+H312", {"H302", "H311"}));
  CHECK_FALSE(said("H302+H312", {"H302"}));
}
