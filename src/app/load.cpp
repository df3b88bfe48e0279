// From a file's name to computed answers: read, check, compute.
#include <algorithm>
#include <filesystem>
#include <functional>
#include <set>
#include <utility>

#include "commands.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/read/file.hpp"
#include "dosewright/read/tree.hpp"

namespace dosewright {

namespace {

namespace fs = std::filesystem;

using Text = std::shared_ptr<const SourceText>;

class Loader {
 public:
  explicit Loader(const Options& options) : options_(options), made_(std::make_unique<Loaded>()) {}

  LoadOutcome load() {
    if (load_equipment() && load_room() && load_label_words() && load_languages()) {
      complete_hazards(made_->room, made_->knowledge);
      made_->sources.chemical = names_by(made_->room.hazard_rules.language, &Words::chemical);
      made_->sources.organ = names_by(made_->room.hazard_rules.language, &Words::organ);
      made_->answers = answer_room(made_->room, made_->sources);
      Diagnostics more = std::move(outcome_.problems);
      outcome_.problems = made_->answers.problems;
      outcome_.problems.insert(outcome_.problems.end(), more.begin(), more.end());
      if (has_error(outcome_.problems)) {
        outcome_.status = ExitStatus::bad_input;
      } else {
        outcome_.loaded = std::move(made_);
      }
    }
    return std::move(outcome_);
  }

 private:
  bool fail(ExitStatus status, std::string trouble) {
    outcome_.status = status;
    outcome_.trouble = std::move(trouble);
    return false;
  }

  // Fonts, statements and looks: when one of them fails, it is not the description's fault.
  bool load_equipment() {
    auto fonts = Fonts::load(options_.fonts.empty() ? kFontFolder : options_.fonts);
    if (auto* trouble = std::get_if<std::string>(&fonts))
      return fail(ExitStatus::could_not_write, *trouble);
    made_->fonts = std::get<std::unique_ptr<Fonts>>(std::move(fonts));
    return load_statements() && load_styles();
  }

  // The text of a file of templates/hazard; empty, with the trouble told, when it cannot be read.
  std::optional<Text> hazard_text(const std::string& name) {
    const std::string path = template_folder(options_) + "/hazard/" + name;
    const auto text = read_text_file(path);
    if (const auto* problem = std::get_if<Diagnostic>(&text)) {
      fail(ExitStatus::could_not_write,
           "the hazard statements cannot be read: " + path + ": " + problem->message);
      return std::nullopt;
    }
    return std::get<Text>(text);
  }

  bool damaged(const std::string& name, const std::string& problem) {
    return fail(ExitStatus::could_not_write,
                "the hazard statements are damaged: " + template_folder(options_) + "/hazard/" +
                    name + ": " + problem);
  }

  // In a language, and with the UN's wording over the law's where the rule book asks for it.
  bool load_book(const std::string& language, bool un, StatementBook& to) {
    const std::string name = "statements_" + language + ".tsv";
    const auto codes = hazard_text("codes.tsv");
    const auto words = codes ? hazard_text(name) : std::nullopt;
    const auto over = words && un ? hazard_text("statements_un_en.tsv") : std::nullopt;
    if (!codes || !words || (un && !over)) return false;
    auto book = StatementBook::from_tables(
        {(*codes)->text, (*words)->text, un ? std::string_view((*over)->text) : ""});
    if (auto* problem = std::get_if<std::string>(&book)) return damaged(name, *problem);
    to = std::get<StatementBook>(std::move(book));
    if (made_->room.hazard_rules.book == RuleBookName::us_hazcom)
      to.spell_as_in_the_united_states();
    return true;
  }

  bool load_statements() {
    if (!load_book("en", false, made_->statements)) return false;
    const auto text = hazard_text("classes.tsv");
    if (!text) return false;
    auto classes = ClassBook::from_table((*text)->text);
    if (auto* problem = std::get_if<std::string>(&classes)) return damaged("classes.tsv", *problem);
    made_->classes = std::get<ClassBook>(std::move(classes));
    return load_knowledge();
  }

  bool load_knowledge() {
    const std::string folder = template_folder(options_) + "/hazard/";
    const auto substances = tree_of(folder + "substances.yaml");
    const auto incompatibles = tree_of(folder + "incompatibles.yaml");
    if (substances && incompatibles) {
      auto knowledge =
          check_knowledge(*substances, *incompatibles, made_->classes, outcome_.problems);
      if (knowledge) {
        made_->knowledge = std::move(*knowledge);
        learn_names();
        return true;
      }
    }
    return fail(ExitStatus::could_not_write, "the table of known chemicals could not be used");
  }

  // Whoever writes "ácido cítrico" is understood in a room of any language. A table that is damaged
  // is told of when its words are wanted.
  void learn_names() {
    std::error_code failed;
    std::set<fs::path> files;
    for (const auto& entry : fs::directory_iterator(words_folder(), failed)) {
      if (entry.path().extension() == ".tsv") files.insert(entry.path());
    }
    for (const fs::path& file : files) {
      const auto text = read_text_file(file.string());
      if (std::holds_alternative<Diagnostic>(text)) continue;
      auto words = Words::from_table(file.stem().string(), std::get<Text>(text)->text);
      if (std::holds_alternative<Words>(words))
        tables_.push_back(std::get<Words>(std::move(words)));
    }
    for (Substance& substance : made_->knowledge.substances) {
      std::vector<std::string> names = substance.also;
      names.push_back(substance.name);
      for (const Words& words : tables_) {
        for (const auto& [english, said] : words.names_of_chemicals()) {
          if (!among(names, english) || among(substance.also, said)) continue;
          substance.also.push_back(said);
          if (among(substance.trade_names, english)) substance.trade_names.push_back(said);
        }
      }
    }
  }

  [[nodiscard]] fs::path words_folder() const {
    return fs::path(template_folder(options_)) / "words";
  }

  void learn_names(Words& words) const {
    for (const Words& other : tables_) {
      if (other.language() != words.language()) words.learn_names(other);
    }
  }

  // The words of the labels, once the description has said in which language and by which rules.
  bool load_label_words() {
    const HazardRules& rules = made_->room.hazard_rules;
    const bool un = worded_by_un(rules.book);
    if (rules.language == "en" && !un) return true;
    outcome_.status = ExitStatus::done;
    return load_book(rules.language, un, made_->statements);
  }

  // The phrases of every language that a document speaks, and the statements that go with it.
  bool load_languages() {
    made_->words.emplace("en", Words());
    if (!load_words("en", made_->room.language_origin)) return false;
    const Words all = made_->words.at("en");
    made_->words.at("en") = Words();
    learn_names(made_->words.at("en"));
    // The change notice is in the room's own.
    const std::string& rooms = made_->room.language;
    if (rooms != "en") {
      if (!load_words(rooms, made_->room.language_origin)) return false;
      tell_what_lacks(rooms, made_->room.language_origin, all);
    }
    for (const Document& document : made_->room.documents) {
      for (const std::string& language : document.languages) {
        if (!load_other_statements(document, language)) return false;
        if (language == "en") continue;
        const bool known = made_->words.count(language) > 0;
        if (!known && !load_words(language, document.language_origin)) return false;
        if (!known) tell_what_lacks(language, document.language_origin, all);
        tell_other_statements(document, language);
      }
    }
    return true;
  }

  // What chemicals, or organs, are called in this language; nothing where no words of it are there.
  std::function<std::string(const std::string&)> names_by(
      const std::string& language, std::string (Words::*in)(const std::string&) const) {
    const fs::path file = words_folder() / (language + ".tsv");
    std::error_code failed;
    const bool known = made_->words.count(language) > 0;
    const bool there = language != "en" && fs::exists(file, failed);
    if (!known && (!there || !load_words(language, made_->room.language_origin))) return {};
    return [&words = made_->words.at(language), in](const std::string& name) {
      return (words.*in)(name);
    };
  }

  bool load_words(const std::string& language, const Origin& origin) {
    const fs::path folder = words_folder();
    const fs::path file = folder / (language + ".tsv");
    std::error_code failed;
    if (!fs::exists(file, failed)) {
      std::vector<std::string> known;
      for (const auto& entry : fs::directory_iterator(folder, failed))
        known.push_back(entry.path().stem().string());
      std::sort(known.begin(), known.end());
      outcome_.status = ExitStatus::bad_input;
      outcome_.problems.push_back({Severity::error, origin.place, origin.path,
                                   "there are no words in \"" + language + '"',
                                   "write " + either(known) + ", or add " + language +
                                       ".tsv to the templates' folder words"});
      return false;
    }
    const auto text = read_text_file(file.string());
    if (const auto* problem = std::get_if<Diagnostic>(&text))
      return fail(ExitStatus::could_not_write, file.string() + ": " + problem->message);
    auto words = Words::from_table(language, std::get<Text>(text)->text);
    if (const auto* problem = std::get_if<std::string>(&words))
      return fail(ExitStatus::could_not_write, file.string() + ", " + *problem);
    learn_names(std::get<Words>(words));
    made_->words.insert_or_assign(language, std::get<Words>(std::move(words)));
    return have_letters(file.string(), made_->words.at(language));
  }

  bool have_letters(const std::string& file, const Words& words) {
    for (const auto& [phrase, said] : words.table()) {
      for (const char32_t c : to_characters(said)) {
        if (!made_->fonts->covers(c))
          return fail(ExitStatus::could_not_write, file +
                                                       ": the printing font has no letter for \"" +
                                                       to_utf8({&c, 1}) + "\" in \"" + said + '"');
      }
    }
    return true;
  }

  // A phrase that is missing is printed in English, and that is said.
  void tell_what_lacks(const std::string& language, const Origin& origin, const Words& all) {
    const std::vector<std::string> lacks = made_->words.at(language).lacks(all);
    if (lacks.empty()) return;
    outcome_.problems.push_back(
        {Severity::finding, origin.place, origin.path,
         std::to_string(lacks.size()) + (lacks.size() == 1 ? " phrase is" : " phrases are") +
             " not translated and printed in English, such as \"" + lacks.front() + '"',
         "add " + std::string(lacks.size() == 1 ? "it" : "them") + " to words/" + language +
             ".tsv"});
  }

  void tell_other_statements(const Document& document, const std::string& language) {
    const bool states = document.type == Document::Type::label ||
                        document.type == Document::Type::mixing_card ||
                        document.type == Document::Type::hazard_sheet;
    const std::string statements = statement_language(*made_, document, language);
    if (states && statements != language)
      outcome_.problems.push_back(
          {Severity::finding, document.language_origin.place, document.language_origin.path,
           "its hazard statements are in \"" + statements + "\", its other words in \"" + language +
               '"',
           "the law's statements are there in 24 languages, the UN's in English only"});
  }

  bool load_other_statements(const Document& document, const std::string& language) {
    const std::string wanted = statement_language(*made_, document, language);
    const bool there =
        wanted == made_->room.hazard_rules.language || made_->other_statements.count(wanted) > 0;
    if (there) return true;
    outcome_.status = ExitStatus::done;
    StatementBook book;
    if (!load_book(wanted, false, book)) return false;
    made_->other_statements.emplace(wanted, std::move(book));
    return true;
  }

  std::optional<Node> tree_of(const std::string& path) {
    const auto text = read_text_file(path);
    if (const auto* problem = std::get_if<Diagnostic>(&text)) {
      outcome_.problems.push_back(*problem);
      return std::nullopt;
    }
    return read_tree(std::get<Text>(text), outcome_.problems);
  }

  bool load_styles() {
    const bool all = load_designs(made_->label_styles, "labels", check_label_style) &&
                     load_designs(made_->chart_styles, "charts", check_chart_style);
    return all || fail(ExitStatus::could_not_write, "a template could not be used");
  }

  // Every design of a folder, by the name of its file.
  template <class Style>
  bool load_designs(std::map<std::string, Style>& to, const std::string& kind,
                    std::optional<Style> (*check)(const Node&, Diagnostics&)) {
    const fs::path folder = fs::path(template_folder(options_)) / kind;
    std::error_code failed;
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder, failed)) {
      if (entry.path().extension() == ".yaml") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    for (const fs::path& file : files) {
      const auto tree = tree_of(file.string());
      const auto style = tree ? check(*tree, outcome_.problems) : std::nullopt;
      if (!style) return false;
      to.emplace(file.stem().string(), *style);
    }
    const std::string plain = kind == "labels" ? kPlainLabel : kPlainChart;
    if (to.count(plain) > 0) return true;
    const fs::path missing = folder / (plain + ".yaml");
    (void)tree_of(missing.string());
    return false;
  }

  bool load_room() {
    outcome_.status = ExitStatus::bad_input;
    const auto tree = tree_of(options_.room_file);
    if (!tree) return false;
    const Fonts& fonts = *made_->fonts;
    check_letters(
        *tree, [&](char32_t c) { return fonts.covers(c); }, outcome_.problems);
    const std::size_t letters = outcome_.problems.size();
    StatementBook un;
    if (!load_book("en", true, un)) return false;
    outcome_.status = ExitStatus::bad_input;
    auto room = check_room(*tree, {made_->statements, made_->classes, made_->knowledge, &un},
                           outcome_.problems);
    if (!room || letters > 0) {
      sort_by_place(outcome_.problems);
      return false;
    }
    made_->room = std::move(*room);
    if (!find_designs()) return false;
    outcome_.status = ExitStatus::done;
    return true;
  }

  // A design is the name of a template, or a file of the user's own beside the description.
  bool find_designs() {
    for (const Document& document : made_->room.documents) {
      if (document.design.empty()) continue;
      if (document.type == Document::Type::label) {
        find_design(document, made_->label_styles, check_label_style);
      } else {
        find_design(document, made_->chart_styles, check_chart_style);
      }
    }
    return !has_error(outcome_.problems);
  }

  template <class Style>
  void find_design(const Document& document, std::map<std::string, Style>& styles,
                   std::optional<Style> (*check)(const Node&, Diagnostics&)) {
    if (styles.count(document.design) > 0) return;
    const fs::path name(document.design);
    if (name.extension() == ".yaml") {
      const auto tree = tree_of((fs::path(options_.room_file).parent_path() / name).string());
      const auto style = tree ? check(*tree, outcome_.problems) : std::nullopt;
      if (style) {
        styles.emplace(document.design, *style);
        return;
      }
      outcome_.problems.push_back(
          {Severity::error, document.design_origin.place, document.design_origin.path,
           "its design \"" + document.design + "\" cannot be used",
           "mend what is said of that file; it lies beside the description"});
      return;
    }
    std::vector<std::string> names;
    for (const auto& [known, style] : styles) names.push_back(known);
    outcome_.problems.push_back(
        {Severity::error, document.design_origin.place, document.design_origin.path,
         "no design is called \"" + document.design + '"',
         "write " + either(names) + ", or the file of your own, such as my-design.yaml"});
  }

  const Options& options_;
  std::unique_ptr<Loaded> made_;
  LoadOutcome outcome_;
  std::vector<Words> tables_;  // of every language there are words in
};

}  // namespace

std::string statement_language(const Loaded& loaded, const Document& document,
                               const std::string& language) {
  const HazardRules& rules = loaded.room.hazard_rules;
  // What the room says holds for documents in the room's language.
  const bool rooms = document.languages.size() == 1 && language == loaded.room.language;
  if (rooms || worded_by_un(rules.book)) return rules.language;
  return among(statement_languages(), language) ? language : rules.language;
}

const RoomAnswer& answers_in(const Loaded& loaded, const RoomAnswer& answers,
                             const std::string& language) {
  if (language == loaded.room.hazard_rules.language) return answers;
  auto& made = loaded.other_answers[{answers.room, language}];
  if (made == nullptr) {
    made = std::make_unique<AnswersInLanguage>(
        HazardSources{loaded.other_statements.at(language), loaded.classes, loaded.knowledge, {}});
    made->sources.language = language;
    const auto words = loaded.words.find(language);
    if (words != loaded.words.end())
      made->sources.chemical = [&words = words->second](const std::string& name) {
        return words.chemical(name);
      };
    if (words != loaded.words.end())
      made->sources.organ = [&words = words->second](const std::string& name) {
        return words.organ(name);
      };
    made->answers = answer_room(*answers.room, made->sources);
  }
  return made->answers;
}

const LabelStyle& label_style_of(const Loaded& loaded, const Document& document) {
  if (!document.design.empty()) return loaded.label_styles.at(document.design);
  const LabelForm form = document.label.sheet.form;
  const bool wings = form == LabelForm::flag || form == LabelForm::tag;
  const char* plain = form == LabelForm::wrap ? kPlainWrap : wings ? kPlainWings : kPlainLabel;
  const auto found = loaded.label_styles.find(plain);
  return found != loaded.label_styles.end() ? found->second : loaded.label_styles.at(kPlainLabel);
}

const ChartStyle& chart_style_of(const Loaded& loaded, const Document& document) {
  return loaded.chart_styles.at(document.design.empty() ? kPlainChart : document.design);
}

LoadOutcome load(const Options& options) { return Loader(options).load(); }

std::string template_folder(const Options& options) {
  if (!options.templates.empty()) return options.templates;
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);
  const fs::path installed =
      program.parent_path().parent_path() / "share" / "dosewright" / "templates";
  if (!failed && fs::exists(installed / "labels", failed)) return installed.string();
  return DOSEWRIGHT_SOURCE_TEMPLATES;
}

}  // namespace dosewright
