// From a file's name to computed answers: read, check, compute.
#include <filesystem>

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
    if (load_equipment() && load_room() && load_label_words()) {
      made_->answers = answer_room(made_->room, made_->sources);
      outcome_.problems = made_->answers.problems;
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
        return true;
      }
    }
    return fail(ExitStatus::could_not_write, "the table of known chemicals could not be used");
  }

  // The words of the labels, once the description has said in which language and by which rules.
  bool load_label_words() {
    const HazardRules& rules = made_->room.hazard_rules;
    const bool un = worded_by_un(rules.book);
    if (rules.language == "en" && !un) return true;
    outcome_.status = ExitStatus::done;
    return load_book(rules.language, un, made_->statements);
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
    const auto label = tree_of(template_folder(options_) + "/label.yaml");
    const auto chart = tree_of(template_folder(options_) + "/chart.yaml");
    if (label && chart) {
      const auto label_style = check_label_style(*label, outcome_.problems);
      const auto chart_style = check_chart_style(*chart, outcome_.problems);
      if (label_style && chart_style) {
        made_->label_style = *label_style;
        made_->chart_style = *chart_style;
        return true;
      }
    }
    return fail(ExitStatus::could_not_write, "a template could not be used");
  }

  bool load_room() {
    outcome_.status = ExitStatus::bad_input;
    const auto tree = tree_of(options_.room_file);
    if (!tree) return false;
    const Fonts& fonts = *made_->fonts;
    check_letters(
        *tree, [&](char32_t c) { return fonts.covers(c); }, outcome_.problems);
    const std::size_t letters = outcome_.problems.size();
    auto room =
        check_room(*tree, {made_->statements, made_->classes, made_->knowledge}, outcome_.problems);
    if (!room || letters > 0) {
      sort_by_place(outcome_.problems);
      return false;
    }
    made_->room = std::move(*room);
    outcome_.status = ExitStatus::done;
    return true;
  }

  const Options& options_;
  std::unique_ptr<Loaded> made_;
  LoadOutcome outcome_;
};

}  // namespace

LoadOutcome load(const Options& options) { return Loader(options).load(); }

std::string template_folder(const Options& options) {
  if (!options.templates.empty()) return options.templates;
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);
  const fs::path installed =
      program.parent_path().parent_path() / "share" / "dosewright" / "templates";
  if (!failed && fs::exists(installed / "label.yaml", failed)) return installed.string();
  return DOSEWRIGHT_SOURCE_TEMPLATES;
}

}  // namespace dosewright
