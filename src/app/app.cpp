// The command line. The only file that knows CLI11.
#include "dosewright/app/app.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "commands.hpp"

namespace dosewright {

namespace {

constexpr const char* kAbout =
    "Labels for mixed stock solutions and wall charts of measured doses, from one description.\n"
    "\n"
    "A description is a YAML file of what you buy, mix, measure with and dose. Start with check:\n"
    "it names every problem with its line. Then print, and pin up what comes out.";

constexpr const char* kFooter =
    "Exit status: 0 done, 1 done with findings, 2 bad input (nothing written), 3 could not write.\n"
    "\n"
    "  dosewright check room.yaml\n"
    "  dosewright print room.yaml --to paper\n"
    "  dosewright print room.yaml --to paper --only sink-chart --proof png\n"
    "  dosewright reprint room.yaml --to paper --dry-run\n"
    "  dosewright dose room.yaml --stock dechlorinator --volume \"40 US gal\" --volume A1\n"
    "  dosewright dose room.yaml --stock dechlorinator --amount \"4 mL\"\n"
    "  dosewright hazards room.yaml --stock oxidiser\n"
    "  dosewright mix room.yaml --stock dechlorinator --use \"500 g\"";

void add_common(CLI::App& command, Options& options) {
  command.add_option("ROOM.yaml", options.room_file, "The description of your room")->required();
  command.add_option("--fonts", options.fonts, "Folder of Go-Regular.ttf and Go-Bold.ttf");
  command.add_option("--templates", options.templates,
                     "Folder of labels/, charts/, words/ and hazard/");
}

void add_stocks(CLI::App& command, Options& options) {
  command
      .add_option("--stock", options.stocks,
                  "A stock's id or name; may be repeated; all stocks if not given")
      ->expected(1)
      ->take_all();
}

void add_format(CLI::App& command, Options& options) {
  command.add_option("--format", options.format, "How to answer: text or json")
      ->check(CLI::IsMember({"text", "json"}));
}

void add_proof(CLI::App& command, Options& options) {
  command.add_option("--proof", options.proof, "Draw each page as a picture too: png or svg")
      ->check(CLI::IsMember({"png", "svg"}));
  command.add_flag(
      "--contact-sheet", options.contact_sheet,
      "Draw all pages side by side in one picture, as svg with --proof svg, else as png");
  command.add_option("--dpi", options.dpi, "Dots per inch of the proofs")
      ->check(CLI::Range(30, 600));
}

void add_record(CLI::App& command, Options& options) {
  command.add_option("--record", options.record,
                     "The print record; the description's name with .record if not given");
}

// An option with nothing behind it was meant to say something.
const CLI::Validator kWritten(
    [](const std::string& value) {
      if (value.empty()) return std::string("nothing is written behind it");
      const bool control =
          std::any_of(value.begin(), value.end(), [](unsigned char c) { return c < 32; });
      return control ? std::string("it holds a line end or a tab") : std::string();
    },
    "");

struct CommandLine {
  CLI::App app{kAbout, "dosewright"};
  Options options;
  CLI::App* check = nullptr;
  CLI::App* print = nullptr;
  CLI::App* dose = nullptr;
  CLI::App* hazards = nullptr;
  CLI::App* mix = nullptr;
  CLI::App* record = nullptr;
  CLI::App* reprint = nullptr;
  CLI::App* label = nullptr;

  CommandLine() {
    app.set_version_flag("--version", "dosewright " DOSEWRIGHT_VERSION,
                         "Print the version and end");
    app.set_help_flag("--help,-h", "Print this help and end");
    app.footer(kFooter);
    app.require_subcommand(1);
    check = app.add_subcommand("check", "Name every problem of a description, with its line");
    add_common(*check, options);
    add_format(*check, options);
    print = app.add_subcommand("print", "Write the documents a description asks for, as PDF");
    add_common(*print, options);
    print->add_option("--to", options.to, "Folder for the documents; made if it is missing")
        ->required();
    print->add_option("--only", options.only, "Just the document of this id");
    add_proof(*print, options);
    add_record(*print, options);
    print->add_flag("--no-record", options.no_record, "Do not record what is printed");
    add_record_commands();
    dose = app.add_subcommand("dose", "Answer at the sink: how much for this much water");
    add_common(*dose, options);
    add_stocks(*dose, options);
    dose->add_option("--volume", options.volumes,
                     "The water, such as \"40 US gal\", or a vessel's id or name; may be repeated")
        ->expected(1)
        ->take_all();
    dose->add_option("--change", options.change,
                     "The part of a tank that is changed, such as \"25 %\"; its usual change if "
                     "not given")
        ->check(kWritten);
    dose->add_option("--with", options.with, "Measure with this tool alone")->check(kWritten);
    dose->add_option("--amount", options.amount,
                     "The other way round: how much water does, say, \"4 mL\" treat")
        ->check(kWritten);
    add_format(*dose, options);
    hazards = app.add_subcommand("hazards", "Say why a label carries the hazards it does");
    add_common(*hazards, options);
    add_stocks(*hazards, options);
    add_format(*hazards, options);
    mix = app.add_subcommand("mix", "Say how a stock is mixed for the container at hand");
    add_common(*mix, options);
    add_stocks(*mix, options);
    mix->add_option("--container", options.container,
                    "Fill this container; the stock's own if not given")
        ->check(kWritten);
    mix->add_option("--volume", options.volumes, "Make this much instead, such as \"1.5 L\"")
        ->expected(1);
    mix->add_option("--use", options.use,
                    "Use so much of the first product, such as the whole tub of \"500 g\"")
        ->check(kWritten);
    add_format(*mix, options);
  }

  void add_record_commands() {
    record = app.add_subcommand("record", "Say what was printed, and what of it is out of date");
    add_common(*record, options);
    add_record(*record, options);
    add_format(*record, options);
    record
        ->add_option("--gone", options.gone,
                     "Record that this document hangs there no more, or that this bottle, such as "
                     "\"dechlorinator 18\", is empty or thrown away")
        ->check(kWritten);
    reprint = app.add_subcommand("reprint", "Print anew what is out of date, and nothing else");
    add_common(*reprint, options);
    add_record(*reprint, options);
    reprint->add_option("--to", options.to, "Folder for the documents; made if it is missing")
        ->required();
    reprint->add_flag("--dry-run", options.dry_run, "Say what would be printed and why");
    reprint->add_flag("--clean", options.clean,
                      "Without marks of what changed; pages that bear marks are printed anew too");
    add_proof(*reprint, options);
    add_label_command();
  }

  void add_label_command() {
    label = app.add_subcommand("label", "Label a freshly mixed bottle, and record the batch");
    add_common(*label, options);
    label->add_option("--stock", options.stocks, "The stock's id or name")->expected(1)->required();
    label->add_option("--to", options.to, "Folder for the label; made if it is missing")
        ->required();
    label->add_option("--mixed", options.mixed, "The day of the mixing; today if not given")
        ->check(kWritten);
    label
        ->add_option("--weighed", options.weighed,
                     "What really went in, such as \"82 g\" or \"82 g of salt\"; by the recipe if "
                     "not given; repeated for several products")
        ->expected(1)
        ->take_all();
    label->add_option("--volume", options.volumes, "How much was mixed; a full bottle if not given")
        ->expected(1);
    label
        ->add_option("--container", options.container,
                     "What it is in; as its label has it if not "
                     "given")
        ->check(kWritten);
    label->add_option("--batch", options.batch, "Its number; the next one if not given")
        ->check(kWritten);
    label->add_flag(
        "--anew", options.anew,
        "The batch was recorded at another strength or day: it has been mended, or what "
        "was said of it was wrong");
    label->add_option("--by", options.by, "Who mixed it; as its label has it if not given")
        ->check(kWritten);
    add_proof(*label, options);
    add_record(*label, options);
    label->add_flag("--no-record", options.no_record, "Do not record the batch");
  }
};

ExitStatus carry_out(const CommandLine& line, const Streams& streams) {
  if (line.check->parsed()) return check_command(line.options, streams);
  if (line.print->parsed()) return print_command(line.options, streams);
  if (line.label->parsed()) return label_command(line.options, streams);
  if (line.record->parsed()) return record_command(line.options, streams);
  if (line.reprint->parsed()) return reprint_command(line.options, streams);
  if (line.mix->parsed()) return mix_command(line.options, streams);
  if (line.hazards->parsed()) return hazards_command(line.options, streams);
  return dose_command(line.options, streams);
}

// An answer that did not get out is no answer.
ExitStatus finished(ExitStatus status, std::ostream& out, std::ostream& err) {
  out.flush();
  if (out) return status;
  err << "dosewright: the answer could not be written to the standard output\n";
  return ExitStatus::could_not_write;
}

const std::vector<std::string>& commands() {
  static const std::vector<std::string> known = {"check",  "print", "label",   "reprint",
                                                 "record", "dose",  "hazards", "mix"};
  return known;
}

// A word where a command should stand; empty when there is none or it is one.
std::string unknown_command(const std::vector<std::string>& arguments) {
  if (arguments.empty() || arguments.front().empty() || arguments.front().front() == '-') return "";
  const auto& known = commands();
  const bool is_one = among(known, arguments.front());
  return is_one ? "" : arguments.front();
}

}  // namespace

ExitStatus run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  if (const std::string word = unknown_command(arguments); !word.empty()) {
    const auto near = nearest(word, commands());
    err << "dosewright: no command is called \"" << word << "\"\n    "
        << (near ? "did you mean \"" + *near + "\"?" : "there are " + all_of(commands())) << '\n';
    return ExitStatus::bad_input;
  }
  CommandLine line;
  try {
    std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
    line.app.parse(reversed);
  } catch (const CLI::ParseError& stop) {
    if (stop.get_exit_code() != 0) {
      err << "dosewright: " << stop.what()
          << "\n    dosewright --help shows the commands and options\n";
      return ExitStatus::bad_input;
    }
    (void)line.app.exit(stop, out, err);
    return finished(ExitStatus::done, out, err);
  }
  return finished(carry_out(line, {out, err}), out, err);
}

}  // namespace dosewright
