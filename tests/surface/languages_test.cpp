// Pages in other languages, as printed.
#include <catch2/catch.hpp>
#include <regex>

#include "helpers.hpp"

namespace {

std::string quoted(const std::string& path) { return "'" + path + "'"; }

// The gallery with a language.
std::string gallery_in(const std::string& language) {
  std::string text = testing::read_file(testing::source_folder() / "samples/ferrystep/room.yaml");
  const std::size_t at = text.find("  measures: metric");
  REQUIRE(at != std::string::npos);
  text.insert(at, "  language: " + language + '\n');
  text +=
      "  chart: {type: bucket chart, stocks: [descaler, dechlorinator], buckets: [0.5 L, 10 L]}\n"
      "  racks: {type: tank chart, stock: dechlorinator}\n"
      "  scale: {type: dose scale, stocks: [dechlorinator], from: 30 L, to: 60 L}\n"
      "  card: {type: measuring card, stock: dechlorinator, buckets: [2.5 L, 10 L]}\n"
      "  log: {type: dosing log}\n"
      "  true: {type: printer check}\n";
  return text;
}

std::string words_of(const std::string& pdf) {
  const auto run = testing::shell("pdftotext '" + pdf + "' -");
  CHECK(run.err.empty());
  return std::regex_replace(run.out, std::regex("\\s+"), " ");
}

}  // namespace

TEST_CASE("languages: every document prints in each of them, searchable, without a complaint") {
  const struct {
    const char* language;
    const char* dose;  // on the chart
    const char* eyes;  // H319, CLP Annex III
    const char* match;
  } cases[] = {
      {"en", "0.7 mL", "Causes serious eye irritation.", "match the chart"},
      {"es", "0,7 mL", "Provoca irritación ocular grave.", "cotejar con la tabla"},
      {"fr", "0,7 mL", "Provoque une sévère irritation des yeux.", "à comparer au tableau"},
      {"de", "0,7 mL", "Verursacht schwere Augenreizung.", "mit der Tafel vergleichen"}};
  for (const auto& one : cases) {
    const testing::TemporaryFolder folder;
    testing::write_file(folder / "room.yaml", gallery_in(one.language));
    const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                      " --no-record --to " + quoted(folder / "out"));
    INFO(one.language << '\n' << run.err);
    REQUIRE(run.status == 0);
    CHECK(run.err.empty());
    const std::string tag = words_of(folder / "out/tag.pdf");
    INFO(tag);
    CHECK(tag.find(one.eyes) != std::string::npos);
    CHECK(tag.find(one.match) != std::string::npos);
    CHECK(words_of(folder / "out/chart.pdf").find(one.dose) != std::string::npos);
    CHECK(words_of(folder / "out/chart.pdf")
              .find(std::string(one.language) == "en" ? "0.5" : "0,5") != std::string::npos);
    for (const auto& entry : testing::fs::directory_iterator(folder / "out")) {
      const std::string pdf = entry.path().string();
      INFO(pdf);
      CHECK(testing::shell("qpdf --json '" + pdf + "'")
                .out.find("\"/Lang\": \"u:" + std::string(one.language)) != std::string::npos);
      CHECK(testing::shell("qpdf --check '" + pdf + "'").status == 0);
    }
  }
}

TEST_CASE("languages: the sheets for the desk speak them too, with the law's own statements") {
  const struct {
    const char* language;
    const char* mixing;
    const char* water;  // filling up
    const char* supply;
    const char* storage;
    const char* why;
    const char* eyes;  // H319, CLP Annex III
  } cases[] = {{"es", "Antes de empezar", "complete con agua hasta", "hasta vaciar el bote",
                "Qué no debe guardarse junto", "Todas las reglas comprobadas",
                "Provoca irritación ocular grave."},
               {"fr", "Avant de commencer", "ajouter de l’eau", "jusqu’à ce que le pot",
                "Ce qui ne doit pas être rangé ensemble", "Toutes les règles appliquées",
                "Provoque une sévère irritation des yeux."},
               {"de", "Bevor es losgeht", "mit Wasser auffüllen, bis", "bis der Behälter leer ist",
                "Was nicht zusammen gelagert werden darf", "Alle geprüften Regeln",
                "Verursacht schwere Augenreizung."}};
  for (const auto& one : cases) {
    const testing::TemporaryFolder folder;
    std::string room = gallery_in(one.language);
    const std::size_t at = room.find("    cas: 10102-17-7\n");
    REQUIRE(at != std::string::npos);
    room.insert(at, "    pack: 5 kg\n");
    room +=
        "  mixing: {type: mixing card, stock: descaler}\n"
        "  supply: {type: supply sheet, stock: dechlorinator}\n"
        "  shelf: {type: storage list}\n"
        "  why: {type: hazard sheet, stock: descaler}\n";
    testing::write_file(folder / "room.yaml", room);
    const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                      " --no-record --to " + quoted(folder / "out"));
    INFO(one.language << '\n' << run.err);
    REQUIRE(run.status == 0);
    CHECK(run.err.empty());
    const auto says = [&](const char* file, const char* words) {
      INFO(file << ": " << words);
      CHECK(words_of((folder / "out") + '/' + file).find(words) != std::string::npos);
    };
    says("mixing.pdf", one.mixing);
    says("mixing.pdf", one.water);
    says("mixing.pdf", one.eyes);
    says("supply.pdf", one.supply);
    says("shelf.pdf", one.storage);
    says("why.pdf", one.why);
    says("why.pdf", one.eyes);
    // 1.08 g/mL and the like.
    CHECK_FALSE(
        std::regex_search(words_of(folder / "out/mixing.pdf"), std::regex("[0-9]\\.[0-9]")));
  }
}

TEST_CASE("languages: a label in two of them carries the statements of both") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml",
                      gallery_in("en") +
                          "  both: {type: label, stock: descaler, language: [fr, de], sheet: "
                          "{paper: roll, label: 160 x 140 mm}}\n");
  const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                    " --only both --no-record --to " + quoted(folder / "out"));
  INFO(run.err);
  REQUIRE(run.status == 0);
  const std::string words = words_of(folder / "out/both.pdf");
  INFO(words);
  for (const char* said :
       {"Provoque une sévère irritation des yeux.", "Verursacht schwere Augenreizung.",
        "Attention / Achtung", "Ne pas avaler.", "Nicht einnehmen.", "préparé / angesetzt"})
    CHECK(words.find(said) != std::string::npos);
  CHECK(words.find("Causes serious") == std::string::npos);
}

TEST_CASE("languages: what is not translated is a finding, never silent") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml",
                      gallery_in("de") + "  why: {type: hazard sheet, stock: descaler}\n");
  CHECK(testing::program("check " + quoted(folder / "room.yaml")).status == 0);
  // Statements in a language of their own are the user's choice, and said.
  std::string mixed = gallery_in("de") + "  why: {type: hazard sheet, stock: descaler}\n";
  mixed.insert(mixed.find("  measures: metric"), "  hazard language: fr\n");
  testing::write_file(folder / "room.yaml", mixed);
  const auto sheet = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(sheet.status == 1);
  CHECK(sheet.err.find("its hazard statements are in \"fr\", its other words in \"de\"") !=
        std::string::npos);

  testing::fs::copy(testing::source_folder() / "templates", folder / "looks",
                    testing::fs::copy_options::recursive);
  const std::string table = testing::read_file(folder / "looks/words/de.tsv");
  const auto with = [&](const std::string& text) {
    testing::write_file(folder / "looks/words/de.tsv", text);
    testing::write_file(folder / "room.yaml", gallery_in("de"));
    return testing::program("check " + quoted(folder / "room.yaml") + " --templates " +
                            quoted(folder / "looks"));
  };
  const auto lacking = with(std::regex_replace(table, std::regex("\nuse by\t[^\n]*"), ""));
  INFO(lacking.err);
  CHECK(lacking.status == 1);
  CHECK(lacking.err.find("1 phrase is not translated and printed in English, such as \"use by\"") !=
        std::string::npos);
  const auto damaged = with(std::regex_replace(table, std::regex("\nuse by\t[^\n]*"), "\nuse by"));
  CHECK(damaged.status == 3);
  CHECK(damaged.err.find("de.tsv, line ") != std::string::npos);
  // U+4E2D has no letter in the printing font.
  const auto foreign =
      with(std::regex_replace(table, std::regex("\nuse by\t[^\n]*"), "\nuse by\t\u4e2d"));
  CHECK(foreign.status == 3);
  CHECK(foreign.err.find("the printing font has no letter for") != std::string::npos);
}

TEST_CASE("languages: one that is not there names those that are") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml", gallery_in("it"));
  const auto run = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(run.status == 2);
  CHECK(run.err.find("room.language: there are no words in \"it\"") != std::string::npos);
  CHECK(run.err.find("write de, en, es or fr, or add it.tsv") != std::string::npos);
  std::string two = gallery_in("en");
  two += "  both: {type: bucket chart, language: [en, de], stocks: [descaler], buckets: [5 L]}\n";
  testing::write_file(folder / "room.yaml", two);
  const auto chart = testing::program("check " + quoted(folder / "room.yaml"));
  CHECK(chart.status == 2);
  CHECK(chart.err.find("documents.both.language: expected one language") != std::string::npos);
}

TEST_CASE("languages: a label in English among German ones has English statements") {
  const testing::TemporaryFolder folder;
  testing::write_file(folder / "room.yaml",
                      gallery_in("de") +
                          "  guest: {type: label, stock: descaler, language: en, sheet: {paper: "
                          "roll, label: 160 x 140 mm}}\n"
                          "  both: {type: label, stock: descaler, language: [de, en], sheet: "
                          "{paper: roll, label: 170 x 150 mm}}\n");
  const auto run = testing::program("print " + quoted(folder / "room.yaml") + " --no-record --to " +
                                    quoted(folder / "out"));
  INFO(run.err);
  REQUIRE(run.status == 0);
  const std::string guest = words_of(folder / "out/guest.pdf");
  CHECK(guest.find("Causes serious eye irritation.") != std::string::npos);
  CHECK(guest.find("Augenreizung") == std::string::npos);
  const std::string both = words_of(folder / "out/both.pdf");
  CHECK(both.find("Causes serious eye irritation.") != std::string::npos);
  CHECK(both.find("Verursacht schwere Augenreizung.") != std::string::npos);
}

// 1,000 L must not be read as one litre by whoever reads 0,5 as a half.
TEST_CASE("languages: pages that stay English do not group thousands among decimal commas") {
  const testing::TemporaryFolder folder;
  std::string room = gallery_in("fr");
  const std::size_t at = room.find("    cas: 10102-17-7\n");
  REQUIRE(at != std::string::npos);
  room.insert(at, "    pack: 5 kg\n");
  testing::write_file(
      folder / "room.yaml",
      room + "  supply: {type: supply sheet, stock: dechlorinator, language: en}\n");
  const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                    " --only supply --no-record --to " + quoted(folder / "out"));
  INFO(run.err);
  CHECK(run.status == 0);
  const std::string words = words_of(folder / "out/supply.pdf");
  INFO(words);
  CHECK(words.find("1000 L") != std::string::npos);
  CHECK_FALSE(std::regex_search(words, std::regex("[0-9],[0-9]{3}")));
}

// Every document of every sample in every language: labels and charts find their room, and no PDF
// has a complaint.
TEST_CASE("languages: all samples print in all of them") {
  for (const char* sample : {"millrace", "weirside", "tidegate", "ferrystep"}) {
    const std::string text =
        testing::read_file(testing::source_folder() / "samples" / sample / "room.yaml");
    const std::size_t at = text.find("  measures:");
    REQUIRE(at != std::string::npos);
    for (const char* language : {"es", "fr", "de"}) {
      const testing::TemporaryFolder folder;
      testing::write_file(folder / "room.yaml",
                          text.substr(0, at) + "  language: " + language + '\n' + text.substr(at));
      const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                        " --no-record --to " + quoted(folder / "out"));
      INFO(sample << " in " << language << '\n' << run.err);
      // Weirside's two findings are there in English, too.
      CHECK(run.status == (std::string(sample) == "weirside" ? 1 : 0));
      int pages = 0;
      for (const auto& entry : testing::fs::directory_iterator(folder / "out")) {
        const auto words = testing::shell("pdftotext '" + entry.path().string() + "' -");
        CHECK(words.err.empty());
        CHECK_FALSE(words.out.empty());
        // No blank was left open.
        CHECK(words.out.find("{1}") == std::string::npos);
        ++pages;
      }
      CHECK(pages >= 3);
    }
  }
}

// CLP Annex VI, 011-002-00-6 and the like: names of one word. A label that is narrower than a word
// breaks it where the language's patterns do (hyph_de_DE of the LibreOffice dictionaries).
TEST_CASE("languages: a long name is broken where it may be, and only where it must") {
  const auto room = [](const std::string& name, const char* label) {
    return "room: {name: R, measures: metric, language: de, emergency: D}\nproducts:\n  p:\n"
           "    name: " +
           name +
           "\n    hazards: {not classified: true, source: s}\n"
           "stocks:\n  s:\n    name: " +
           name +
           "\n    recipe: {p: 50 g}\n    water to: 1 L\n"
           "    dose: {give: 1 mL per 10 L, for: new water}\n    container: c\n    hazards: {ph: "
           "7}\n"
           "containers: {c: {holds: 100 mL}}\n"
           "tools: {t: {name: Spritze, kind: syringe, holds: 5 mL, marks: every 0.1 mL}}\n"
           "documents:\n  label: {type: label, stock: s, sheet: {paper: roll, label: " +
           std::string(label) + "}}\n";
  };
  const testing::TemporaryFolder folder;
  const auto words = [&](const std::string& name, const char* label) {
    testing::write_file(folder / "room.yaml", room(name, label));
    const auto run = testing::program("print " + quoted(folder / "room.yaml") +
                                      " --no-record --to " + quoted(folder / "out"));
    return run.status < 2 ? testing::shell("pdftotext '" + (folder / "out/label.pdf") + "' -").out
                          : run.err;
  };
  // The reader of the PDF puts the two halves together again; the picture of the page has them
  // on two lines.
  const std::string name = "Natriumthiosulfat";
  const auto lines_of_name = [&](const char* label) {
    CHECK(words(name, label).find(name) != std::string::npos);
    const std::string boxes =
        testing::shell("pdftotext -bbox '" + (folder / "out/label.pdf") + "' -").out;
    return boxes.find(">sulfat<") != std::string::npos ? 2 : 1;
  };
  CHECK(lines_of_name("120 x 60 mm") == 1);
  CHECK(lines_of_name("54 x 200 mm") == 2);
  // What is no word of letters is never broken.
  CHECK(words("A1234567890123456789012345", "54 x 200 mm").find("too small") != std::string::npos);
}

// A room in Spanish: chemicals are known by their Spanish names (as in the harmonised list,
// EUR-Lex, Spanish edition of CLP Annex VI), and the English half of a label has the English ones.
TEST_CASE("languages: chemicals are understood by their names in the room's language") {
  const testing::TemporaryFolder folder;
  const std::string room = testing::source_folder() / "samples/molino/room.yaml";
  const auto check = testing::program("check " + quoted(room));
  CHECK(check.status == 0);
  CHECK(check.err.empty());
  const auto run = testing::program("print " + quoted(room) + " --no-record --to " +
                                    quoted(folder.path().string()));
  INFO(run.err);
  REQUIRE(run.status == 0);
  const std::string descaler = words_of(folder / "etiqueta-antical.pdf");
  INFO(descaler);
  CHECK(descaler.find("ácido cítrico 100 g por L en agua") != std::string::npos);
  CHECK(descaler.find("citric acid 100 g per L in water") != std::string::npos);
  CHECK(descaler.find("No mezclar nunca con lejía") != std::string::npos);
  CHECK(descaler.find("Never mix with bleach") != std::string::npos);
  // The chemical's name stands on the label already (CLP Article 18 (2)).
  CHECK(descaler.find("Contiene ") == std::string::npos);
  const std::string conditioner = words_of(folder / "etiqueta-anticloro.pdf");
  INFO(conditioner);
  CHECK(conditioner.find("tiosulfato de sodio pentahidratado 60 g por L") != std::string::npos);
  CHECK(conditioner.find("sodium thiosulfate pentahydrate 60 g per L") != std::string::npos);
  CHECK(conditioner.find("la ficha de datos de seguridad del proveedor, de 2026-05") !=
        std::string::npos);
  CHECK(conditioner.find("the supplier’s safety data sheet of 2026-05") != std::string::npos);
}

TEST_CASE("languages: a name in another language is not taken for a trade name or a dry salt") {
  const testing::TemporaryFolder folder;
  std::string room = testing::read_file(testing::source_folder() / "samples/molino/room.yaml");
  const auto check_with = [&](const std::string& from, const std::string& to) {
    std::string changed = room;
    const std::size_t at = changed.find(from);
    REQUIRE(at != std::string::npos);
    testing::write_file(folder / "room.yaml", changed.replace(at, from.size(), to));
    return testing::program("check " + quoted(folder / "room.yaml"));
  };
  // Known by the name alone, whichever language it is in and however it is capitalised.
  for (const char* name : {"Ácido cítrico", "acide citrique", "Citronensäure"}) {
    const auto run =
        check_with("name: ácido cítrico\n    cas: 77-92-9", "name: " + std::string(name));
    INFO(name << '\n' << run.out << run.err);
    CHECK(run.status == 0);
  }
  // The dry salt's name on the hydrate's number is still told.
  const auto dry = check_with("tiosulfato de sodio pentahidratado", "tiosulfato de sodio");
  CHECK(dry.status == 1);
  CHECK_THAT(dry.err, Catch::Contains("hides the crystal water"));
  // And two different chemicals are an error, as in English.
  const auto other = check_with("tiosulfato de sodio pentahidratado", "cloruro de calcio");
  CHECK(other.status == 2);
  CHECK_THAT(other.err, Catch::Contains("name and CAS number are of two substances"));
}
