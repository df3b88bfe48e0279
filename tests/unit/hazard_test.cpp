// Hazard statements and the rules of precedence.
#include <catch2/catch.hpp>

#include "dosewright/hazard/block.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

HazardBlock block_of(const std::vector<std::string>& codes) {
  Hazards hazards;
  hazards.assessment = Hazards::Assessment::classified;
  for (const std::string& code : codes) hazards.statements.push_back({code, {}, ""});
  return hazard_block(hazards, testing::statement_book());
}

std::string text_of(const std::string& code, const std::string& fill = "") {
  const Statement* statement = testing::statement_book().find(code);
  REQUIRE(statement != nullptr);
  return sentence(*statement, fill).value_or("");
}

}  // namespace

// Regulation (EC) No 1272/2008, consolidated 2025-09-01, Annex III (hazard) and Annex IV
// (precautionary statements): the wording is fixed by law.
TEST_CASE("statements are worded as the law words them") {
  CHECK(text_of("H302") == "Harmful if swallowed.");
  CHECK(text_of("H314") == "Causes severe skin burns and eye damage.");
  CHECK(text_of("H315") == "Causes skin irritation.");
  CHECK(text_of("H318") == "Causes serious eye damage.");
  CHECK(text_of("H319") == "Causes serious eye irritation.");
  CHECK(text_of("H335") == "May cause respiratory irritation.");
  CHECK(text_of("H361d") == "Suspected of damaging the unborn child.");
  CHECK(text_of("H410") == "Very toxic to aquatic life with long lasting effects.");
  CHECK(text_of("H411") == "Toxic to aquatic life with long lasting effects.");
  CHECK(text_of("H412") == "Harmful to aquatic life with long lasting effects.");
  CHECK(text_of("EUH031") == "Contact with acids liberates toxic gas.");
  CHECK(text_of("P102") == "Keep out of reach of children.");
  CHECK(text_of("P305+P351+P338") ==
        "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if "
        "present and easy "
        "to do. Continue rinsing.");
  CHECK(text_of("P405") == "Store locked up.");
}

TEST_CASE("choices and blanks are resolved, never printed raw") {
  CHECK(text_of("P264") == "Wash hands thoroughly after handling.");
  CHECK(text_of("P280", "protective gloves and eye protection") ==
        "Wear protective gloves and eye protection.");
  CHECK(text_of("P280").empty());
  CHECK(text_of("P310") == "Immediately call a POISON CENTER or doctor.");
  CHECK(text_of("P337+P313") == "If eye irritation persists: Get medical advice.");
  CHECK(text_of("P280", "gloves.") == "Wear gloves.");
  CHECK(text_of("P413", "50 kg / 30 °C") ==
        "Store bulk masses greater than 50 kg at temperatures not exceeding 30 °C.");
  CHECK(text_of("P413", "50 kg").empty());
  CHECK(normalised_code("p305+p351+p338") == "P305+P351+P338");
  CHECK(normalised_code("H360Fd") == "H360Fd");
  CHECK(text_of("H350") == "May cause cancer.");
  CHECK(text_of("H350", "by inhalation") == "May cause cancer by inhalation.");
  CHECK(text_of("H373") == "May cause damage to organs through prolonged or repeated exposure.");
  for (const Statement& statement : testing::statement_book().all()) {
    if (statement.code.starts_with("SIGNAL.")) continue;  // a word, not a sentence
    const auto printed = sentence(statement, "water / cold");
    INFO(statement.code);
    REQUIRE(printed);
    for (const char* raw : {"…", "<", ">", "[", "]", "{"})
      CHECK(printed->find(raw) == std::string::npos);
    // A colon marks the first half of a combined statement; the checker refuses it alone.
    CHECK((printed->back() == '.' || printed->back() == ':'));
  }
}

TEST_CASE("the table is complete and without repeats") {
  const auto codes = testing::statement_book().codes();
  CHECK(codes.size() > 240);
  for (std::size_t i = 0; i < codes.size(); ++i) {
    INFO(codes[i]);
    CHECK(std::count(codes.begin(), codes.end(), codes[i]) == 1);
  }
}

// CLP Article 20: Danger leaves no room for Warning.
TEST_CASE("the stronger signal word stands alone") {
  CHECK(block_of({"H319"}).signal == "Warning");
  CHECK(block_of({"H318", "H315"}).signal == "Danger");
  CHECK(block_of({"H412"}).signal.empty());
}

// CLP Article 26: which pictogram makes another one unnecessary.
TEST_CASE("pictograms follow the rules of precedence") {
  using Codes = std::vector<std::string>;
  CHECK(block_of({"H319"}).pictograms == Codes{"GHS07"});
  CHECK(block_of({"H301", "H315"}).pictograms == Codes{"GHS06"});
  CHECK(block_of({"H314", "H319"}).pictograms == Codes{"GHS05"});
  CHECK(block_of({"H318", "H302"}).pictograms == Codes{"GHS05", "GHS07"});
  CHECK(block_of({"H334", "H317", "H319"}).pictograms == Codes{"GHS08"});
  CHECK(block_of({"H334", "H302"}).pictograms == Codes{"GHS07", "GHS08"});
  CHECK(block_of({"H361d", "H315", "H318", "H411"}).pictograms == Codes{"GHS05", "GHS08", "GHS09"});
  CHECK(block_of({"H412"}).pictograms.empty());
}

TEST_CASE("where only the signal word varies, the pictogram still comes from the code") {
  Hazards hazards;
  hazards.assessment = Hazards::Assessment::classified;
  hazards.signal = "Warning";
  for (const auto& [code, pictogram] :
       std::vector<std::pair<std::string, std::string>>{{"H207", "GHS02"},
                                                        {"H228", "GHS02"},
                                                        {"H242", "GHS02"},
                                                        {"H261", "GHS02"},
                                                        {"H272", "GHS03"}}) {
    hazards.statements = {{code, {}, ""}};
    INFO(code);
    CHECK(hazard_block(hazards, testing::statement_book()).pictograms ==
          std::vector<std::string>{pictogram});
  }
}

TEST_CASE("what a description overrules is kept in mind") {
  Hazards hazards;
  hazards.assessment = Hazards::Assessment::classified;
  hazards.statements = {{"H314", {}, ""}};
  hazards.signal = "Warning";
  hazards.pictograms = {"GHS07"};
  hazards.pictograms_given = true;
  const HazardBlock block = hazard_block(hazards, testing::statement_book());
  CHECK(block.signal == "Warning");
  CHECK(block.left_out == std::vector<std::string>{"GHS05", "Danger"});
}

TEST_CASE("supplemental statements stand apart") {
  const HazardBlock block = block_of({"H302", "EUH031"});
  REQUIRE(block.hazards.size() == 1);
  CHECK(block.hazards.front().text == "Harmful if swallowed.");
  REQUIRE(block.supplements.size() == 1);
  CHECK(block.supplements.front().text == "Contact with acids liberates toxic gas.");
}

TEST_CASE("a damaged table is refused with its line") {
  const std::string codes = "code\tkind\tsignal\tpictograms\nH999\tH\tnone\tnone\n";
  const auto problem_of = [&](const std::string& table) {
    const auto broken = StatementBook::from_tables({codes, table, ""});
    const auto* problem = std::get_if<std::string>(&broken);
    return problem != nullptr ? *problem : "none";
  };
  CHECK(problem_of("code\ttext\n\nH999\tonly two\n") == "line 3 has 2 columns instead of 4");
  CHECK(problem_of("code\ttext\nH998\ta\tb\t\n") == "H998 is not among the codes");
  CHECK(problem_of("code\ttext\nH999\ta\tb\t\n") == "none");
  CHECK(std::holds_alternative<std::string>(ClassBook::from_table("rulebook\tclass\nCLP\tX\n")));
}

TEST_CASE("every precaution that a class calls for can be worded, or is never chosen") {
  for (const std::string& name : testing::class_book().names()) {
    // Classes of the UN's book alone, with codes that the law has no words for.
    if (name == "Expl. 2B" || name == "Expl. 2C") continue;
    for (const char* statement :
         {"H200", "H201", "H202", "H203", "H204", "H205", "H206", "H207", "H208", "H220", "H221",
          "H222", "H223", "H224", "H225", "H226", "H228", "H229", "H240", "H241", "H242", "H250",
          "H251", "H252", "H260", "H261", "H270", "H271", "H272", "H280", "H281", "H290"}) {
      if (testing::class_book().find(name, statement, RuleBookName::eu_clp) == nullptr) continue;
      MixtureClasses found;
      found.classes.push_back({Endpoint::physical, name, statement, ""});
      const HazardBlock block = computed_block(found, {true, false}, RuleBookName::eu_clp,
                                               {testing::statement_book(), testing::class_book()});
      INFO(name << ' ' << statement);
      std::string codes;
      for (const std::string& code : block.untranslated) codes += code + " ";
      INFO(codes);
      CHECK(block.untranslated.empty());
    }
  }
}
