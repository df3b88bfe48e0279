// Finer points of the law that a reader of labels looks for.
#include <catch2/catch.hpp>

#include "dosewright/answer/answer.hpp"
#include "dosewright/base/text.hpp"
#include "hazard_mix.hpp"

using namespace dosewright;
using testing::Mix;

namespace {

StatementCode code(const std::string& text) {
  StatementCode out;
  out.code = text;
  return out;
}

std::string printed(const std::vector<std::string>& codes) {
  Hazards hazards;
  hazards.assessment = Hazards::Assessment::classified;
  for (const std::string& one : codes) hazards.statements.push_back(code(one));
  std::string out;
  for (const PrintedStatement& one : hazard_block(hazards, testing::statement_book()).hazards)
    out += (out.empty() ? "" : " ") + one.code;
  return out;
}

std::vector<std::string> codes_of(const std::vector<PrintedStatement>& statements) {
  std::vector<std::string> out;
  for (const PrintedStatement& one : statements) out.push_back(one.code);
  return out;
}

StatementBook book_in(const std::string& language) {
  const auto folder = testing::source_folder() / "templates/hazard";
  const auto made = StatementBook::from_tables(
      {testing::read_file(folder / "codes.tsv"),
       testing::read_file(folder / ("statements_" + language + ".tsv")), ""});
  REQUIRE(std::holds_alternative<StatementBook>(made));
  return std::get<StatementBook>(made);
}

}  // namespace

// CLP Annex I, Tables 2.8.3 and 2.15.3: bomb and flame; Article 26 (1)(a) lets the flame go only
// where it is not compulsory.
TEST_CASE("H241 keeps both of its pictograms") {
  const std::vector<std::string> both = {"GHS01", "GHS02"};
  CHECK(pictograms_for({{"GHS01", "H241"}, {"GHS02", "H241"}}) == both);
  CHECK(pictograms_for({{"GHS01", "H201"}, {"GHS02", "H225"}}) ==
        std::vector<std::string>{"GHS01"});
}

// CLP Article 27.
TEST_CASE("stated statements are not said twice either") {
  CHECK(printed({"H314", "H318", "H315", "H319", "H400", "H410"}) == "H314 H410");
  CHECK(printed({"H301", "H302"}) == "H301");
  CHECK(printed({"H302", "H312"}) == "H302 H312");
  CHECK(printed({"H412", "H413"}) == "H412");
  CHECK(printed({"H350", "H351"}) == "H350");
  CHECK(printed({"H315", "H319"}) == "H315 H319");
  CHECK(printed({"H400", "H411"}) == "H400 H411");
}

// UN GHS 1.4.10.5.3.3: H410 displaces H400, H411 displaces H401. That Acute 1 with Chronic 2 is
// said as H410 is a custom of Annex VI.
TEST_CASE("the UN's book does not join H400 and H411") {
  Mix mix;
  mix.add(2.5, {"Aquatic Acute 1", "Aquatic Chronic 1"}).m(10, 1);
  CHECK(mix.statements() == "H410");
  CHECK(mix.statements(RuleBookName::un_ghs) == "H400 H411");
  CHECK(Mix()
            .add(3, {"Aquatic Acute 1", "Aquatic Chronic 1"})
            .m(1, 1)
            .statements(RuleBookName::un_ghs) == "H411");
}

// UN GHS 3.10.3.3, from memory: category 1 adds up ingredients of category 1 alone.
TEST_CASE("aspiration of category 2 makes no category 1") {
  const RuleBookName un = RuleBookName::un_ghs;
  CHECK(Mix().add(12, {"Asp. Tox. 2 H305"}).names(un) == "Asp. Tox. 2 H305");
  CHECK(Mix().add(5, {"Asp. Tox. 1"}).add(6, {"Asp. Tox. 2 H305"}).names(un).empty());
  CHECK(Mix().add(10, {"Asp. Tox. 1"}).names(un) == "Asp. Tox. 1 H304");
  CHECK(Mix().add(10, {"Asp. Tox. 1"}).names() == "Asp. Tox. 1 H304");
}

// CLP Annex III, H373: in Danish the blank holds "organskader", the damage itself.
TEST_CASE("an organ's name does not replace the damage in other languages") {
  const struct {
    const char* language;
    const char* says;
  } cases[] = {{"da", "Kan forårsage organskader (nyrer) ved længerevarende"},
               {"sv", "Kan orsaka organskador (nyrer) genom lång"},
               {"it", "Può provocare danni agli organi (nyrer) in caso di"},
               {"de", "Kann die Organe (nyrer) schädigen bei längerer"}};
  for (const auto& one : cases) {
    const StatementBook book = book_in(one.language);
    const auto text = sentence(*book.find("H373"), "nyrer");
    REQUIRE(text);
    INFO(*text);
    CHECK(text->find(one.says) == 0);
    CHECK(sentence(*book.find("H373"), "")->find("nyrer") == std::string::npos);
  }
  CHECK(sentence(*testing::statement_book().find("H373"), "kidneys")
            ->find("May cause damage to kidneys through") == 0);
}

// CLP Annex I, Table 3.8.3 and 1.1.3: a share that is known within bounds can be anywhere in them.
TEST_CASE("a limit that is a band holds where the share's bounds touch it") {
  const auto mix = [](double most, double least) {
    return Mix()
        .add(most, {"STOT SE 3 H335"})
        .band("STOT SE 3 H335", 0.5, 5)
        .at_least(least)
        .names();
  };
  CHECK(mix(5.2, 4.9) == "STOT SE 3 H335");
  CHECK(mix(5.2, 5.1).empty());
  CHECK(mix(0.4, 0.3).empty());
}

// CLP Article 10 (4): where Annex VI prints no M-factor one is set from data; here nobody has.
TEST_CASE("an M-factor that nobody gives is left open, where it could make a graver class") {
  Mix open;
  open.add(1, {"Aquatic Acute 1", "Aquatic Chronic 1"});
  CHECK(open.classes().m_open == std::vector<std::string>{"part 1"});
  CHECK(Mix().add(1, {"Aquatic Acute 1", "Aquatic Chronic 1"}).m(1, 1).classes().m_open.empty());
  // The gravest already, or too little at an M of 1,000.
  CHECK(Mix().add(30, {"Aquatic Acute 1", "Aquatic Chronic 1"}).classes().m_open.empty());
  CHECK(Mix().add(0.02, {"Aquatic Acute 1", "Aquatic Chronic 1"}).classes().m_open.empty());
  CHECK(Mix().add(1, {"Aquatic Chronic 2"}).classes().m_open.empty());
  CHECK(open.classes(RuleBookName::us_hazcom).m_open.empty());
}

// The pentahydrate and the dry salt of the same copper are the same solution.
TEST_CASE("two forms of one salt are as hazardous to water") {
  const auto water = [](const char* cas, double percent) {
    std::string out;
    for (const HazardClass& one : Mix().of(cas, percent).classes().classes) {
      if (one.endpoint == Endpoint::aquatic_acute || one.endpoint == Endpoint::aquatic_chronic)
        out += one.name + ' ';
    }
    return out;
  };
  for (const double dry : {0.3, 1.0, 3.0, 10.0}) {
    INFO(dry);
    CHECK(water("7758-98-7", dry) == water("7758-99-8", dry * 249.68 / 159.60));
  }
  CHECK(water("569-64-2", 5) == water("2437-29-8", 5));
  CHECK_FALSE(water("569-64-2", 5).empty());
}

// CLP Annex II, 1.1.1 and 1.2.1: of what meets water; a solution has met it.
TEST_CASE("what reacts with water is not said of its solution in water") {
  CHECK(Mix().add(5, {"EUH014", "EUH029"}).statements().empty());
  CHECK(Mix().add(5, {"EUH031"}).statements() == "EUH031");
}

// 29 CFR 1910.1200, Table A.8.2, from memory: category 1 from 1 % on. The limits of CLP Annex VI
// are not HazCom's.
TEST_CASE("under HazCom its own limits hold beside those of the entry") {
  const auto methanol = [](double percent, RuleBookName book) {
    return Mix().of("67-56-1", percent).names(book);
  };
  CHECK(methanol(1.08, RuleBookName::eu_clp).find("STOT SE") == std::string::npos);
  CHECK(methanol(1.08, RuleBookName::us_hazcom).find("STOT SE 1 H370") != std::string::npos);
  CHECK(methanol(0.9, RuleBookName::us_hazcom).find("STOT SE") == std::string::npos);
  // A lower limit of the entry goes on to hold.
  CHECK(Mix().of("1310-73-2", 0.6).names(RuleBookName::us_hazcom) ==
        "Eye Irrit. 2A H319; Skin Irrit. 2 H315");
}

TEST_CASE("a rule is cited from the book that it stands in") {
  const auto source = [](RuleBookName book) {
    return Mix().add(5, {"Carc. 2"}).classes(book).steps.front().source;
  };
  CHECK(source(RuleBookName::eu_clp) == "CLP Annex I, Table 3.6.2");
  CHECK(source(RuleBookName::un_ghs) == "UN GHS, chapter 3.6");
  CHECK(source(RuleBookName::us_hazcom) == "29 CFR 1910.1200, Appendix A, A.6, from memory");
  for (const RuleStep& step : Mix().of("111-30-8", 20).ph(1).classes(RuleBookName::un_ghs).steps) {
    INFO(step.source);
    CHECK(step.source.find("CLP Annex I,") == std::string::npos);
  }
}

// CLP Article 28 (3): six statements. Locking up what merely irritates the airways is worth less
// than what to do when it has harmed somebody.
TEST_CASE("first aid goes before locking up what only irritates") {
  const auto codes = codes_of(Mix()
                                  .add(40, {"Acute Tox. 4 H302", "Skin Irrit. 2", "Skin Sens. 1",
                                            "Eye Irrit. 2", "STOT SE 3 H335", "Aquatic Chronic 2"})
                                  .block()
                                  .precautions);
  INFO(all_of(codes));
  CHECK(among(codes, "P333+P313"));
  CHECK_FALSE(among(codes, "P405"));
  CHECK(among(codes_of(Mix().add(40, {"Acute Tox. 3 H301"}).block().precautions), "P405"));
}

// CLP Article 10: the limits of Annex VI go with the chemical, whoever lists its classes.
TEST_CASE("classes of a data sheet keep the limits and M-factors of the entry") {
  const auto classes = [](const std::string& product, const std::string& rules = "EU CLP") {
    auto made = testing::read_room(
        "room: {name: R, measures: metric, emergency: D, hazard rules: " + rules +
        "}\nproducts:\n  p:\n" + product +
        "stocks:\n  s:\n    name: S\n    recipe: {p: 30 g}\n    water to: 1 L\n"
        "    dose: {give: 1 mL per 10 L, for: new water}\n    hazards: {ph: 7}\n");
    REQUIRE(made.room);
    complete_hazards(*made.room, testing::knowledge());
    const auto answers = answer_room(*made.room, testing::hazard_sources());
    std::string out;
    for (const HazardClass& one : answers.stocks.front().hazards.found.classes)
      out += one.name + ' ' + one.statement + "; ";
    return out;
  };
  // Annex VI, 011-002-00-6: 1B from 2 % on. The generic limit is 5 %.
  const std::string lye =
      "    name: sodium hydroxide\n    cas: 1310-73-2\n"
      "    hazards: {classes: [Skin Corr. 1A], source: s}\n";
  CHECK(classes(lye).find("Skin Corr. 1B H314") != std::string::npos);
  // Annex VI, 029-023-00-4: M 10. 3 % of it are category 1 only with that.
  const std::string copper =
      "    name: copper sulfate pentahydrate\n    cas: 7758-99-8\n"
      "    hazards: {classes: [Aquatic Acute 1, Aquatic Chronic 1], source: s}\n";
  CHECK(classes(copper).find("Aquatic Acute 1 H400") != std::string::npos);
  // Its supplier may set no other (Article 10); where the EU's entries are no law he may.
  const std::string milder =
      copper.substr(0, copper.find(", source")) + ", m acute: 1, m chronic: 1, source: s}\n";
  CHECK(classes(milder).find("Aquatic Acute 1 H400") != std::string::npos);
  CHECK(classes(milder, "UN GHS").find("Aquatic Acute 1") == std::string::npos);
}

// CLP Annex III, H370 to H373: the route is a part of its own.
TEST_CASE("a route of exposure is no organ") {
  const Statement& h373 = *testing::statement_book().find("H373");
  CHECK(sentence(h373, "inhalation") == sentence(h373, ""));
  CHECK(sentence(h373, "kidneys, oral") == sentence(h373, "kidneys"));
  CHECK(sentence(h373, "respiratory tract and inhalation") == sentence(h373, "respiratory tract"));
  // Also where the classes are put together.
  const HazardBlock block = Mix().add(20, {"STOT RE 2 H373 (kidneys, oral)"}).block();
  REQUIRE(block.hazards.size() == 1);
  CHECK(block.hazards.front().text.find("damage to kidneys through") != std::string::npos);
  CHECK(Mix()
            .add(20, {"STOT RE 2 H373 (oral)"})
            .block()
            .hazards.front()
            .text.find("damage to organs through") != std::string::npos);
  CHECK(sentence(h373, "liver and kidneys")->find("damage to liver and kidneys") !=
        std::string::npos);
}

// Table 3.2.3, note 1, from memory.
TEST_CASE("one corrosive ingredient without a sub-category leaves the mixture without one") {
  CHECK(Mix()
            .add(6, {"Skin Corr. 1 H314"})
            .add(6, {"Skin Corr. 1C"})
            .names()
            .find("Skin Corr. 1 H314") != std::string::npos);
  CHECK(Mix()
            .add(0.5, {"Skin Corr. 1 H314"})
            .add(6, {"Skin Corr. 1C"})
            .names()
            .find("Skin Corr. 1C H314") != std::string::npos);
}

// CLP Annex II, 1.2.4 to 1.2.6 (consolidated 2025-09-01); 2.4 and 2.5 from memory.
TEST_CASE("the Union's own statements keep their own limits and conditions") {
  // From 0.1 % on, below the 1 % of the others.
  CHECK(Mix().add(0.5, {"EUH070"}).add(12, {"Eye Irrit. 2 H319"}).statements() == "H319 EUH070");
  CHECK(Mix().add(0.09, {"EUH070"}).add(12, {"Eye Irrit. 2 H319"}).statements() == "H319");
  CHECK(Mix().add(0.05, {"EUH204"}).statements() == "EUH204");
  // In addition to poison by breathing or to corrosion, and not by itself.
  CHECK(Mix().add(30, {"Acute Tox. 2 H330", "EUH071"}).inhaled_as(Route::vapour).statements() ==
        "H330 EUH071");
  CHECK(Mix().add(30, {"Skin Corr. 1B H314", "EUH071"}).statements() == "H314 EUH071");
  Mix thin;
  thin.add(2, {"Skin Corr. 1B H314", "EUH071"});
  CHECK(thin.statements().find("EUH071") == std::string::npos);
  CHECK(thin.classes().notes.front().pattern.find("neither corrosive nor toxic") !=
        std::string::npos);
  // Where the skin has a class, that its dryness may crack says nothing more.
  CHECK(Mix().add(20, {"Skin Irrit. 2 H315", "EUH066"}).statements() == "H315");
  CHECK(Mix().add(5, {"Skin Irrit. 2 H315", "EUH066"}).statements() == "EUH066");
}

// The only measure of prevention that Table 3.9.4 of CLP Annex I has for STOT RE 2 is P260.
TEST_CASE("what harms organs has a measure against it") {
  const HazardBlock block = Mix().add(20, {"STOT RE 2 H373 (kidneys)"}).block();
  CHECK(codes_of(block.precautions) == std::vector<std::string>{"P260", "P314", "P501"});
}

// HazCom, Appendix C, C.2.4 (from memory), asks for all; Article 28 of CLP for six.
TEST_CASE("that precautions are chosen is known") {
  Mix harmful;
  harmful.add(60, {"Acute Tox. 4 H302", "Skin Irrit. 2 H315", "Eye Irrit. 2 H319", "STOT SE 3 H335",
                   "Skin Sens. 1 H317"});
  CHECK(harmful.block({}, RuleBookName::us_hazcom).more_precautions);
  CHECK_FALSE(Mix().add(20, {"Eye Irrit. 2 H319"}).block().more_precautions);
}

// Annex VI has the types of organic peroxides each by itself (607-094-00-8, from memory).
TEST_CASE("types of organic peroxides stand alone or two and two") {
  CHECK(testing::hazard_class("Org. Perox. D H242").name == "Org. Perox. CD");
  CHECK(testing::hazard_class("Self-react. F H242").name == "Self-react. EF");
}

TEST_CASE("what is worn is said in the law's words of every language") {
  Hazards hazards;
  hazards.assessment = Hazards::Assessment::classified;
  StatementCode worn = code("P280");
  worn.fill = "eye protection";
  hazards.precautions = {worn};
  CHECK(hazard_block(hazards, book_in("de")).precautions.front().text == "Augenschutz tragen.");
  CHECK(hazard_block(hazards, book_in("en")).precautions.front().text == "Wear eye protection.");
}

// CLP Annex II, 1.2.6.
TEST_CASE("why EUH071 is left away is not said better than it is known") {
  Mix thin;
  thin.add(6, {"Acute Tox. 2 H330", "EUH071"});
  CHECK(thin.statements().empty());
  CHECK(thin.classes().notes.front().pattern.find("its mist was not evaluated") !=
        std::string::npos);
}

TEST_CASE("organs are taken apart, routes left out") {
  using List = std::vector<std::string>;
  CHECK(without_routes(named_in("kidneys; liver")) == List{"kidneys", "liver"});
  CHECK(without_routes(named_in("lungs, if inhaled")) == List{"lungs"});
  CHECK(is_known_organ("hearing organs"));
  CHECK_FALSE(is_known_organ("Nieren"));
}
