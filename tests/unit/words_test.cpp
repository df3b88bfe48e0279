// Languages: every phrase is there, numbers cannot be misread, nothing stays English unseen.
#include "dosewright/wording/words.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <regex>
#include <set>

#include "dosewright/answer/mixing.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/render/hyphens.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

std::string file_of(const std::string& language) {
  return testing::read_file(testing::source_folder() / "templates/words" / (language + ".tsv"));
}

Words words_of(const std::string& language) {
  const auto read = Words::from_table(language, file_of(language));
  if (const auto* problem = std::get_if<std::string>(&read)) FAIL(*problem);
  return std::get<Words>(read);
}

const std::vector<std::string> kOthers = {"es", "fr", "de"};

// Literals that stand one after the other are one text.
std::string text_of(const std::string& literals) {
  static const std::regex part("\"((?:[^\"\\\\]|\\\\.)*)\"");
  std::string out;
  for (std::sregex_iterator p(literals.begin(), literals.end(), part), end; p != end; ++p)
    out += std::regex_replace((*p)[1].str(), std::regex("\\\\\""), "\"");
  return out;
}

void collect(const std::string& file, const std::regex& call, std::set<std::string>& out) {
  const std::string text = testing::read_file(testing::source_folder() / file);
  for (std::sregex_iterator it(text.begin(), text.end(), call), end; it != end; ++it) {
    for (std::size_t group = 1; group < it->size(); ++group)
      if ((*it)[group].matched) out.insert(text_of((*it)[group]));
  }
}

const std::string kLiterals = "((?:\"(?:[^\"\\\\]|\\\\.)*\"\\s*)+)";

// Every text in quotes behind `say(` and its like in the sources of words, and every phrase with
// its blanks in those of what is computed.
std::set<std::string> phrases_in_the_source() {
  std::set<std::string> out;
  const std::regex call("(?:say|title_of|said|in_a_way|note_stated)\\(\\s*" +
                        std::string("(?:chart, |document\\.chart, |words, |work, [a-z.]*,\\s*)?") +
                        kLiterals);
  const std::regex added("add\\((?:\\s*|[^;\"]*,\\s*)" + kLiterals);
  const std::regex phrase("\\{(?:[^;{}\"?]*\\?\\s*" + kLiterals + ":\\s*)?" + kLiterals +
                          ",\\s*\\{");
  for (const auto& entry :
       testing::fs::directory_iterator(testing::source_folder() / "src/wording")) {
    const std::string file = "src/wording/" + entry.path().filename().string();
    collect(file, call, out);
    if (file.ends_with("shared.cpp") || file.ends_with("mixing.cpp")) collect(file, added, out);
  }
  for (const char* file : {"src/app/reprint_command.cpp", "src/app/contents.cpp"})
    collect(file, call, out);
  for (const char* file :
       {"src/app/survey.cpp", "src/compute/answer/findings.cpp",
        "src/compute/answer/hazard_findings.cpp", "src/compute/answer/chemistry.cpp",
        "src/compute/answer/identity.cpp", "src/compute/answer/solution.cpp",
        "src/compute/answer/hazards.cpp", "src/compute/dose/reagents.cpp",
        "src/compute/hazard/acute.cpp", "src/compute/hazard/aquatic.cpp",
        "src/compute/hazard/classify.cpp", "src/compute/hazard/single.cpp",
        "src/compute/hazard/skin_eye.cpp", "src/compute/mix/density.cpp"})
    collect(file, phrase, out);
  for (const char* file : {"src/compute/hazard/classify.cpp", "src/compute/hazard/skin_eye.cpp"})
    collect(file, call, out);
  collect("src/compute/hazard/single.cpp",
          std::regex("(?:Endpoint::\\w+|endpoint),\\s*" + kLiterals + ",\\s*\""), out);
  collect("src/compute/hazard/aquatic.cpp", std::regex("tried\\([^\"]*" + kLiterals + ","), out);
  collect("src/compute/dose/reagents.cpp", std::regex("published\\([0-9.]+, " + kLiterals), out);
  collect("src/compute/dose/reagents.cpp", std::regex("string_view k\\w+ = " + kLiterals), out);
  // Formulas and CAS numbers of tables, and what has no letters.
  const std::regex no_phrase("[A-Z][A-Za-z0-9·]*|\\{1\\}|[0-9-]+|EUH208|mm|acid|dithionite|\\s*");
  std::erase_if(out, [&](const std::string& one) { return std::regex_match(one, no_phrase); });
  return out;
}

// What the tables of the program say beside the sources.
std::set<std::string> phrases_in_the_tables() {
  std::set<std::string> out;
  for (int i = 0; i <= static_cast<int>(Endpoint::vpvm); ++i) {
    const std::string words = endpoint_words(static_cast<Endpoint>(i));
    if (static_cast<Endpoint>(i) != Endpoint::physical &&
        static_cast<Endpoint>(i) != Endpoint::supplement)
      out.insert(words);
  }
  for (const std::string& name : rule_book_names())
    out.insert(rule_book_title(rule_book_named(name)));
  const Knowledge& knowledge = testing::hazard_sources().knowledge;
  for (const Incompatibility& one : knowledge.incompatibilities) out.insert(one.because);
  for (const Substance& one : knowledge.substances) {
    if (!one.outdated.empty()) out.insert(one.outdated);
    // What is named on labels is named in their language.
    if (one.cas != "7732-18-5") out.insert("chemical: " + one.name);
  }
  return out;
}

std::set<std::string> words_in(const std::string& text) {
  std::set<std::string> out;
  const std::regex word("[A-Za-z]{3,}");
  for (std::sregex_iterator it(text.begin(), text.end(), word), end; it != end; ++it)
    out.insert(lowered(it->str()));
  return out;
}

void gather(const LabelContent& label, std::string& out) {
  out += label.contents + ' ' + label.code_caption + ' ' + label.treats + ' ' + label.note + ' ' +
         label.signal + ' ' + label.safety + ' ' + label.elsewhere + ' ' + label.on_cap + ' ' +
         label.short_words + ' ';
  for (const Field& field : label.fields) out += field.caption + ' ';
  for (const std::string& line : label.warning_lines) out += line + ' ';
}

void gather(const CellContent& cell, std::string& out) {
  out += cell.how + ' ' + cell.off_by + ' ' + cell.instead + ' ';
}

void gather(const ChartContent& chart, std::string& out) {
  out += chart.title + ' ' + chart.subtitle + ' ' + chart.code_caption + ' ' + chart.row_caption +
         ' ' + chart.match + ' ' + chart.small + ' ' + chart.foot + ' ' + chart.dated + ' ';
  for (const ColumnContent& column : chart.columns)
    out += column.heading + ' ' + column.below + ' ';
  for (const RowContent& row : chart.rows) {
    for (const CellContent& cell : row.cells) gather(cell, out);
  }
  out += chart.words.give + ' ' + chart.words.how + ' ' + chart.words.no_tool + ' ' +
         chart.words.page_of + ' ' + chart.words.true_print + ' ' + chart.words.starts + ' ';
}

// A sheet's own words: the sources of a storage list are titles of books and the like.
void gather(const SheetContent& sheet, std::string& out) {
  gather(sheet.page, out);
  for (const SheetBlock& block : sheet.blocks) {
    out += block.heading + ' ';
    for (const std::string& paragraph : block.paragraphs) out += paragraph + ' ';
    for (const std::string& heading : block.table.headings) out += heading + ' ';
    for (const auto& row : block.table.rows) {
      const bool source = row.size() == 2 && row.front().size() == 1;
      for (std::size_t i = 0; i < row.size() && !source; ++i) out += row[i] + ' ';
    }
    if (block.picture)
      out += block.picture->start + ' ' + block.picture->end + ' ' + block.picture->order + ' ';
  }
}

// The law's statements are in the language of its own books.
std::string without_statements(std::string text, const RoomAnswer& answers) {
  std::vector<std::string> statements;
  const auto add = [&](const HazardBlock& block) {
    for (const auto* list : {&block.hazards, &block.supplements, &block.precautions}) {
      for (const PrintedStatement& one : *list) statements.push_back(one.text);
    }
    if (!block.signal_word.empty()) statements.push_back(block.signal_word);
  };
  for (const StockAnswer& stock : answers.stocks) add(stock.hazards.block);
  for (const Product& product : answers.room->products)
    add(answer_tub_hazards(*answers.room, product, *answers.sources).block);
  for (const std::string& one : statements) {
    for (std::size_t at = text.find(one); at != std::string::npos; at = text.find(one, at))
      text.erase(at, one.size());
  }
  return text;
}

// All that the documents of a room say.
std::string all_words(const RoomAnswer& answers, const Words& w) {
  std::string out;
  for (const Document& document : answers.room->documents) {
    switch (document.type) {
      case Document::Type::label:
        gather(label_content(answers, document.label, ErrorShown::all, w), out);
        break;
      case Document::Type::bucket_chart:
      case Document::Type::tank_chart:
        gather(chart_content(answers, document, ErrorShown::measuring, w), out);
        break;
      case Document::Type::dose_scale: {
        const auto scale = dose_scale_content(answers, document, w);
        gather(scale.page, out);
        break;
      }
      case Document::Type::measuring_card: {
        const auto card = measuring_card_content(answers, document, ErrorShown::standard, w);
        gather(card.page, out);
        for (const MeasurePanel& panel : card.panels) gather(panel.cell, out);
        break;
      }
      case Document::Type::dosing_log: {
        const auto log = dosing_log_content(answers, document, w);
        gather(log.page, out);
        for (const LogColumn& column : log.columns) out += column.caption + ' ';
        break;
      }
      case Document::Type::printer_check: {
        const auto check = printer_check_content(answers, document, w);
        for (const std::string& paragraph : check.paragraphs) out += paragraph + ' ';
        for (const Field& field : check.fields) out += field.caption + ' ';
        out += check.title + ' ' + check.greys + ' ' + check.sizes + ' ';
        break;
      }
      case Document::Type::hazard_sheet:
        gather(hazard_sheet_content(answers, *find_stock(answers, document.chart.stocks.front()),
                                    document.chart, w),
               out);
        break;
      case Document::Type::storage_list:
        gather(storage_list_content(answers, document.chart, w), out);
        break;
      case Document::Type::supply_sheet:
        gather(supply_content(answers, document, w), out);
        break;
      case Document::Type::mixing_card:
        break;
    }
  }
  // Of every stock, whether it has a card or not.
  for (const StockAnswer& stock : answers.stocks) {
    gather(hazard_sheet_content(answers, stock, {}, w), out);
    if (stock.stock->dry) continue;
    gather(
        mixing_content(answers, answer_mixing(answers, stock, stock.mixture.makes, nullptr), {}, w),
        out);
  }
  return out;
}

}  // namespace

TEST_CASE("words: every phrase of the source has a line, and every language has every line") {
  const Words english_table = words_of("en");
  const std::set<std::string> source = phrases_in_the_source();
  CHECK(source.size() > 400);
  for (const std::string& phrase : source) {
    INFO(phrase);
    CHECK(english_table.table().count(phrase) == 1);
  }
  const std::set<std::string> tables = phrases_in_the_tables();
  CHECK(tables.size() > 90);
  for (const std::string& phrase : tables) {
    INFO(phrase);
    CHECK(english_table.table().count(phrase) == 1);
  }
  for (const auto& [phrase, said] : english_table.table()) CHECK(phrase == said);
  for (const std::string& language : kOthers) {
    const Words words = words_of(language);
    INFO(language);
    CHECK(words.lacks(english_table).empty());
    CHECK(english_table.lacks(words).empty());
    CHECK(words.decimal_sign() == ',');
    for (const auto& [phrase, said] : words.table()) {
      INFO(phrase << " / " << said);
      // A sentence stays a sentence.
      if (phrase.ends_with('.')) CHECK((said.ends_with('.') || said.ends_with('}')));
      for (const char32_t c : to_characters(said)) CHECK(testing::fonts().covers(c));
    }
  }
}

TEST_CASE("words: numbers keep their meaning in every language") {
  const Words german = words_of("de");
  CHECK(english().number("1,500.5") == "1,500.5");
  CHECK(german.number("1,500.5") == "1500,5");
  CHECK(german.number("0.5") == "0,5");
  CHECK(german.quantity("0.05 mL") == "0,05 mL");
  CHECK(german.quantity("1,500 mL") == "1500 mL");
  CHECK(german.quantity("14.5 mg per L") == "14,5 mg je L");
  CHECK(german.quantity("1.4 mL per 20.5 L") == "1,4 mL je 20,5 L");
  CHECK(words_of("fr").quantity("100 g per L") == "100 g par L");
  CHECK(words_of("es").quantity("12.5 %") == "12,5 %");
  CHECK(german.quantity("rack 2.1") == "rack 2.1");
  CHECK(words_of("fr").quantity("0.3 % w/w") == "0,3 % m/m");
  CHECK(german.quantity("2-phenoxyethanol 1.5") == "2-phenoxyethanol 1.5");
  // Spanish: y before an i, o before an o.
  const Words spanish = words_of("es");
  CHECK(spanish.all_of({"sal", "hidróxido de sodio"}) == "sal e hidróxido de sodio");
  CHECK(spanish.all_of({"sal", "hierro"}) == "sal y hierro");
  CHECK(spanish.either({"sal", "oxalato"}) == "sal u oxalato");
  CHECK(german.all_of({"a", "b", "c"}) == "a, b und c");
  CHECK(words_of("es").either({"a", "b"}) == "a o b");
  CHECK(german.say("{1} of {2}", {"2", "3"}) == "2 von 3");
  CHECK(german.say("no such phrase {1}", {"x"}) == "no such phrase x");
}

TEST_CASE("words: a damaged table is refused with its line") {
  const auto problem = [](const std::string& text) {
    const auto read = Words::from_table("xx", text);
    const auto* found = std::get_if<std::string>(&read);
    return found == nullptr ? "" : *found;
  };
  CHECK(problem("# note\ngive\n").find("line 2: no tab between") == 0);
  CHECK(problem("give\t\n").find("line 1: no tab between") == 0);
  CHECK(problem("give\tgeben\ngive\tgib\n") == "line 2: \"give\" stands there already");
  CHECK(problem("off by {1}\tum\n").find("line 1: the blanks of \"off by {1}\"") == 0);
  CHECK(problem("{1} of {2}\t{2} von {1}\n").empty());
  CHECK(problem("decimal sign\t;\n") == "line 1: the decimal sign is a point or a comma");
}

// In a language of our own every letter is an x: what is still English was forgotten.
TEST_CASE("words: nothing that the program says itself stays English") {
  std::string table = "decimal sign\t,\n";
  std::string vocabulary;
  const Words english_table = words_of("en");
  for (const auto& [phrase, said] : english_table.table()) {
    vocabulary += phrase + ' ';
    std::string pseudo;
    for (std::size_t i = 0; i < phrase.size(); ++i) {
      const char c = phrase[i];
      pseudo += (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ? 'x' : c;
    }
    table += phrase + '\t' + pseudo + '\n';
  }
  const auto read = Words::from_table("xx", table);
  REQUIRE(std::holds_alternative<Words>(read));
  const Words& pseudo = std::get<Words>(read);
  int rooms = 0;
  for (const char* name : {"millrace", "weirside", "tidegate", "ferrystep"}) {
    const std::string text =
        testing::read_file(testing::source_folder() / "samples" / name / "room.yaml");
    const auto made = testing::read_room(text);
    REQUIRE(made.room);
    const auto answers = answer_room(*made.room, testing::hazard_sources());
    // The law's statements are not ours to translate, and the keys of a description stay English.
    std::string not_ours = text + " cross rulers CLP GHS Skin Eye Aquatic Acute ";
    for (const char* code : {"EUH206", "EUH031"})
      not_ours += testing::statement_book().find(code)->pattern + ' ';
    const std::set<std::string> own = words_in(not_ours);
    const std::set<std::string> known = words_in(vocabulary);
    const std::string said = without_statements(all_words(answers, pseudo), answers);
    CHECK(words_in(said).count("xxx") == 1);
    for (const std::string& word : words_in(said)) {
      const bool of_ours = known.count(word) > 0 && own.count(word) == 0;
      INFO(name << ": " << word << " in " << said);
      CHECK_FALSE(of_ours);
    }
    // No point between two digits but in the user's words.
    const std::regex law("\\((CLP|UN GHS|29 CFR)[^)]*\\)|(CLP|UN GHS|29 CFR|40 CFR)[^;)]*");
    const std::string figures = std::regex_replace(said, law, "");
    const std::regex point("[0-9]\\.[0-9]");
    INFO(name);
    std::smatch found;
    if (std::regex_search(figures, found, point))
      CHECK(text.find(found.str()) != std::string::npos);
    ++rooms;
  }
  CHECK(rooms == 4);
}

TEST_CASE("words: on a label in two languages everything stands twice, figures once") {
  const auto read = testing::read_room(testing::base_room());
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  const LabelRequest& request = read.room->documents.front().label;
  const LabelContent one = label_content(answers, request, ErrorShown::measuring);
  const LabelContent other = label_content(answers, request, ErrorShown::measuring, words_of("de"));
  const LabelContent both = in_both(one, other);
  CHECK(both.dose == one.dose);
  CHECK(both.name == one.name);
  CHECK(both.treats == one.treats + " / " + other.treats);
  CHECK(both.safety == one.safety + '\n' + other.safety);
  REQUIRE(both.fields.size() == one.fields.size());
  CHECK(both.fields[0].caption == "mixed / angesetzt");
  CHECK(both.fields.back().value == one.fields.back().value);
  // The statements are the same here, in one language: once is enough.
  CHECK(both.hazard_lines == one.hazard_lines);
  CHECK(in_both(one, one).safety == one.safety);
}

TEST_CASE("words: a tub's label names the sheet that its hazards are from") {
  const auto read = testing::read_room(testing::read_file(testing::sample()));
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  const Document& tub = *find(read.room->documents, std::string("tub-permanganate"));
  const LabelContent label = label_content(answers, tub.label, ErrorShown::measuring);
  CHECK(label.safety.find("Hazards by the supplier's safety data sheet of 2026-03.") !=
        std::string::npos);
}

TEST_CASE("words: the tail of a decimal comma keeps clear of the words and rules below it") {
  const auto read = testing::read_room(testing::read_file(testing::sample()));
  REQUIRE(read.room);
  const auto answers = answer_room(*read.room, testing::hazard_sources());
  const Words german = words_of("de");
  for (const char* id : {"permanganate-chart", "rack-chart", "buffer-chart", "sink-chart"}) {
    const Document& document = *find(read.room->documents, std::string(id));
    const ChartContent content = chart_content(answers, document, ErrorShown::measuring, german);
    const auto out =
        lay_out_chart(content, document.chart.paper, testing::chart_style(), testing::fonts());
    REQUIRE(std::holds_alternative<Pages>(out));
    for (const Page& page : std::get<Pages>(out).pages) {
      for (const Mark& mark : page.marks) {
        const auto* figure = std::get_if<TextRun>(&mark);
        if (figure == nullptr || figure->size < 5 ||
            figure->text.find_first_not_of("0123456789,") != std::string::npos ||
            figure->text.find(',') == std::string::npos)
          continue;
        const double left = figure->at.x;
        const double right =
            left + testing::fonts().width(figure->text, figure->face) * figure->size;
        const double tail = figure->at.y + 0.16 * figure->size;
        for (const Mark& other : page.marks) {
          double top = 1e9;
          double from = 1e9;
          double to = -1e9;
          if (const auto* run = std::get_if<TextRun>(&other)) {
            top = run->at.y - testing::fonts().metrics(run->face).cap_height * run->size;
            from = run->at.x;
            to = from + testing::fonts().width(run->text, run->face) * run->size;
          } else {
            // Rules; the tint lies behind the whole row.
            const auto& shape = std::get<Shape>(other);
            if (shape.ink != Ink::black) continue;
            for (const PathStep& step : shape.steps) {
              if (step.kind == PathStep::Kind::close) continue;
              top = std::min(top, step.to.y);
              from = std::min(from, step.to.x);
              to = std::max(to, step.to.x);
            }
          }
          const bool below = top > figure->at.y && from < right && to > left;
          if (!below) continue;
          INFO(id << ": " << figure->text << " at " << figure->at.y);
          CHECK(top > tail);
        }
      }
    }
  }
}

// The patterns are those of the LibreOffice dictionaries (libhyphen): between the parts of a name.
TEST_CASE("words: long names may be broken between their parts, by the language's patterns") {
  const auto parts = [](const char* language, const std::string& word) {
    const Hyphens hyphens(testing::fonts(), language);
    std::string out;
    std::size_t from = 0;
    for (const std::size_t at : hyphens.hyphen_points(word)) {
      out += word.substr(from, at - from) + '-';
      from = at;
    }
    return out + word.substr(from);
  };
  CHECK(parts("de", "Natriumhydrogencarbonat") == "Natri-um-hy-dro-gen-car-bonat");
  CHECK(parts("en", "dihydrogenphosphate") == "dihy-dro-gen-phos-phate");
  CHECK(parts("fr", "hydrogénocarbonate") == "hydro-gé-no-car-bo-nate");
  CHECK(parts("es", "hidrogenocarbonato") == "hidro-ge-no-car-bo-nato");
  CHECK(parts("de", "Kaliumdihydrogenphosphatlösung") == "Kali-um-dihy-dro-gen-phos-phat-lö-sung");
  CHECK(parts("de", "Wasser") == "Wasser");
  CHECK(parts("en", "A1234567890123") == "A1234567890123");
  CHECK(parts("xx", "Natriumhydrogencarbonat") == "Natriumhydrogencarbonat");
}

TEST_CASE("words: no heading or cell of a sheet leaves its page's margin, in any language") {
  for (const char* name : {"weirside", "millrace"}) {
    const auto read = testing::read_room(
        testing::read_file(testing::source_folder() / "samples" / name / "room.yaml"));
    REQUIRE(read.room);
    const auto answers = answer_room(*read.room, testing::hazard_sources());
    const ChartStyle style = testing::chart_style();
    const double margin = in_millimetres(style.margin);
    for (const char* language : {"en", "es", "fr", "de"}) {
      const Words w = std::string(language) == "en" ? Words() : words_of(language);
      std::vector<SheetContent> sheets;
      for (const StockAnswer& stock : answers.stocks) {
        sheets.push_back(hazard_sheet_content(answers, stock, {}, w));
        if (stock.stock->dry) continue;
        sheets.push_back(mixing_content(
            answers, answer_mixing(answers, stock, stock.mixture.makes, nullptr), {}, w));
      }
      sheets.push_back(storage_list_content(answers, {}, w));
      for (const SheetContent& sheet : sheets) {
        const auto out = lay_out_sheet(sheet, testing::paper(210, 297), style, testing::fonts());
        INFO(name << ", " << language << ": " << sheet.page.title);
        REQUIRE(std::holds_alternative<Pages>(out));
        for (const Page& page : std::get<Pages>(out).pages) {
          for (const Mark& mark : page.marks) {
            const auto* run = std::get_if<TextRun>(&mark);
            if (run == nullptr) continue;
            INFO(run->text);
            const double right =
                run->at.x + testing::fonts().width(run->text, run->face) * run->size;
            CHECK(right <= 210 - margin + 0.1);
          }
        }
      }
    }
  }
}
