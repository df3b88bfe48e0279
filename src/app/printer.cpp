#include "printer.hpp"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <map>
#include <ostream>

#include "contents.hpp"
#include "dosewright/units/print.hpp"
#include "recording.hpp"

namespace dosewright {

namespace {

constexpr const char* kCreator = "dosewright " DOSEWRIGHT_VERSION;

// A fault of ours still names the document, and what else is wrong is still said.
template <class LayOut>
std::variant<Pages, LayoutProblem> safely(const LayOut& lay_out) {
  try {
    return lay_out();
  } catch (const LayoutFault& fault) {
    return LayoutProblem{
        std::string("a fault of the program while laying out this document: ") + fault.what(),
        "please report it; another paper or shorter texts may help until it is mended"};
  }
}

void add_problem(const Document& document, const LayoutProblem& problem, Diagnostics& problems) {
  const Origin& origin =
      document.type == Document::Type::label ? document.label.sheet.origin : document.origin;
  problems.push_back({Severity::error, origin.place, origin.path, problem.message, problem.hint});
}

// Its file is then named after the sheet.
bool shares_a_sheet(const Printable& one) {
  const std::string& sheet = one.document->label.sheet.id;
  return !sheet.empty() && one.file == as_file_name(sheet);
}

// Labels go on where those before them end: on the same page, if that has some left.
void put_behind(Pages& sheet, const Pages& more) {
  std::size_t first = 0;
  if (sheet.next_label > 1) {
    Page& page = sheet.pages.back();
    const Page& other = more.pages.front();
    page.marks.insert(page.marks.end(), other.marks.begin(), other.marks.end());
    page.title += ", " + other.title;
    first = 1;
  }
  sheet.pages.insert(sheet.pages.end(), more.pages.begin() + static_cast<std::ptrdiff_t>(first),
                     more.pages.end());
  sheet.title += ", " + more.title;
  sheet.next_label = more.next_label;
}

}  // namespace

std::optional<long long> source_date() {
  const char* text = std::getenv("SOURCE_DATE_EPOCH");
  if (text == nullptr) return std::nullopt;
  long long value = 0;
  const std::string_view digits(text);
  const auto [end, failed] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  const bool good = failed == std::errc() && end == digits.data() + digits.size() && value >= 0;
  constexpr long long kYear9999 = 253402300799;
  return good && value <= kYear9999 ? std::optional(value) : std::nullopt;
}

bool Printer::lay_out(const std::vector<Printable>& documents, Diagnostics& problems) {
  std::map<std::string, int> next_on;  // by file: the first label that is still free
  for (const Printable& one : documents) {
    Document document = *one.document;
    // Labels that share a sheet follow each other on it.
    const auto next = next_on.find(one.file);
    if (next != next_on.end()) document.label.sheet.start_at = next->second;
    PageContent content = page_content(loaded_, *one.answers, document);
    auto pages = safely([&] { return lay_out_content(loaded_, content, document); });
    RecordEntry entry;
    if (std::holds_alternative<Pages>(pages))
      entry = entry_for(one, content, std::get<Pages>(pages));
    const Words& words = loaded_.words.at(document.languages.front());
    if (one.before != nullptr && mark_against(*one.before, words, content)) {
      auto marked = safely([&] { return lay_out_content(loaded_, content, document); });
      // Marks take room. A page without them is better than none.
      entry.marked = std::holds_alternative<Pages>(marked);
      if (entry.marked || !std::holds_alternative<Pages>(pages)) pages = std::move(marked);
    }
    if (const auto* problem = std::get_if<LayoutProblem>(&pages)) {
      add_problem(document, *problem, problems);
    } else {
      if (shares_a_sheet(one)) next_on[one.file] = std::get<Pages>(pages).next_label;
      made_.push_back({one, std::get<Pages>(std::move(pages)), std::move(entry)});
    }
  }
  return !has_error(problems);
}

bool Printer::lay_out_notice(const SheetContent& sheet, const PaperSize& paper,
                             const std::string& file, Diagnostics& problems) {
  SheetContent notice = sheet;
  if (has_decimal_commas(loaded_) && loaded_.room.language == "en") ungroup(notice);
  auto pages = safely([&] {
    return lay_out_sheet(notice, paper, loaded_.chart_styles.at(kPlainChart), *loaded_.fonts);
  });
  if (const auto* problem = std::get_if<LayoutProblem>(&pages)) {
    problems.push_back({Severity::error, {}, "the change notice", problem->message, problem->hint});
    return false;
  }
  notices_.emplace_back(file, std::get<Pages>(std::move(pages)));
  return true;
}

std::variant<std::vector<OutputFile>, std::string> Printer::render() const {
  std::vector<OutputFile> files;
  for (const auto& [name, pages] : notices_) {
    if (const auto trouble = render(name, pages, loaded_.room.language, files)) return *trouble;
  }
  for (const File& file : this->files()) {
    if (const auto trouble = render(file.name, file.pages, file.language, files)) return *trouble;
  }
  if (options_.contact_sheet) {
    if (const auto trouble = add_contact_sheet(files)) return *trouble;
  }
  return files;
}

std::vector<Printer::File> Printer::files() const {
  std::vector<File> out;
  for (const Made& made : made_) {
    const auto same = std::find_if(out.begin(), out.end(),
                                   [&](const File& file) { return file.name == made.what.file; });
    if (same == out.end()) {
      out.push_back({made.what.file, made.pages, made.what.document->languages.front()});
    } else {
      put_behind(same->pages, made.pages);
    }
  }
  return out;
}

std::optional<std::string> Printer::add_contact_sheet(std::vector<OutputFile>& files) const {
  std::vector<Exhibit> exhibits;
  const Words& w = loaded_.words.at(loaded_.room.language);
  const auto add = [&](const std::string& name, const Pages& pages) {
    Exhibit one{{}, &pages};
    const std::size_t count = pages.pages.size();
    for (std::size_t i = 1; i <= count; ++i) {
      const std::string number = w.say("{1} of {2}", {std::to_string(i), std::to_string(count)});
      one.captions.push_back(count == 1 ? name : name + ", " + number);
    }
    exhibits.push_back(std::move(one));
  };
  for (const auto& [name, pages] : notices_) add(name, pages);
  const std::vector<File> all = this->files();
  for (const File& file : all) add(file.name, file.pages);
  if (exhibits.empty()) return std::nullopt;
  Pages sheet{"contact sheet", {}};
  const std::string scale =
      w.say("all at {1} of their size", {w.quantity(percent_text(kContactShare))});
  sheet.pages.push_back(lay_out_contact_sheet(loaded_.room.name, scale, exhibits, *loaded_.fonts));
  auto drawn = proofs_of(sheet);
  if (const auto* problem = std::get_if<RenderProblem>(&drawn)) return problem->message;
  // A full stop keeps it apart from every document's own name.
  add_proofs("contact.sheet", std::get<std::vector<std::string>>(std::move(drawn)), files);
  return std::nullopt;
}

Printer::Proofs Printer::proofs_of(const Pages& pages) const {
  if (options_.proof == "svg") return render_svg(pages, *loaded_.fonts);
  return render_png(pages, options_.dpi, *loaded_.fonts);
}

std::optional<std::string> Printer::render(const std::string& name, const Pages& pages,
                                           const std::string& language,
                                           std::vector<OutputFile>& files) const {
  const PdfFacts facts{loaded_.room.name + ": " + pages.title, kCreator, source_date(), language};
  auto pdf = render_pdf(pages, facts, *loaded_.fonts);
  if (const auto* problem = std::get_if<RenderProblem>(&pdf)) return name + ": " + problem->message;
  files.push_back({options_.to + '/' + name + ".pdf", std::get<std::string>(std::move(pdf))});
  if (options_.proof.empty()) return std::nullopt;
  auto proofs = proofs_of(pages);
  if (const auto* problem = std::get_if<RenderProblem>(&proofs))
    return name + ": " + problem->message;
  add_proofs(name, std::get<std::vector<std::string>>(std::move(proofs)), files);
  return std::nullopt;
}

void Printer::add_proofs(const std::string& name, std::vector<std::string> proofs,
                         std::vector<OutputFile>& files) const {
  for (std::size_t page = 0; page < proofs.size(); ++page) {
    // A full stop keeps it apart from every document's own name.
    const std::string number = proofs.size() == 1 ? "" : ".page" + std::to_string(page + 1);
    const std::string ending = options_.proof == "svg" ? ".svg" : ".png";
    files.push_back({options_.to + '/' + name + number + ending, std::move(proofs[page])});
  }
}

Printable as_described(const Loaded& loaded, const Document& document) {
  const std::string& sheet = document.label.sheet.id;
  return {&loaded.answers, &document, as_file_name(sheet.empty() ? document.id : sheet),
          bottle_of(loaded.answers, document), nullptr};
}

std::vector<Printable> wanted_documents(const Loaded& loaded, const std::string& only) {
  std::vector<Printable> out;
  for (const Document& document : loaded.room.documents) {
    if (only.empty() || document.id == only) out.push_back(as_described(loaded, document));
  }
  return out;
}

ExitStatus write_printed(const Printer& printer, Diagnostics problems,
                         const std::vector<RecordEntry>& also, const Options& options,
                         const Streams& streams) {
  sort_by_place(problems);
  show(problems, streams.err);
  if (has_error(problems)) return ExitStatus::bad_input;
  const auto files = printer.render();
  if (const auto* trouble = std::get_if<std::string>(&files)) {
    streams.err << "dosewright: " << *trouble << '\n';
    return ExitStatus::could_not_write;
  }
  const auto& made = std::get<std::vector<OutputFile>>(files);
  if (const auto trouble = write_files(options.to, made)) {
    streams.err << "dosewright: " << *trouble << '\n';
    return ExitStatus::could_not_write;
  }
  for (const OutputFile& file : made) streams.out << file.path << '\n';
  std::vector<RecordEntry> entries;
  for (const Made& one : printer.made()) entries.push_back(one.entry);
  entries.insert(entries.end(), also.begin(), also.end());
  const bool recorded = record_entries(std::move(entries), options, streams);
  return problems.empty() && recorded ? ExitStatus::done : ExitStatus::findings;
}

namespace {

// The same fault in many places of one file is told once, with where else it stands.
bool is_same_fault(const Diagnostic& one, const Diagnostic& other) {
  return one.severity == other.severity && one.message == other.message && one.hint == other.hint &&
         one.place.source == other.place.source && one.place.line > 0 && other.place.line > 0;
}

std::string elsewhere(const std::vector<const Diagnostic*>& others) {
  std::string out = "    the same at";
  for (std::size_t i = 0; i < others.size(); ++i) {
    const bool last = i + 1 == others.size();
    out += (i == 0 ? " "
            : last ? " and "
                   : ", ") +
           others[i]->path + " (line " + std::to_string(others[i]->place.line) + ")";
  }
  return out + '\n';
}

}  // namespace

void show(const Diagnostics& problems, std::ostream& err) {
  constexpr std::size_t kFewest = 2;  // further places from which on they are gathered
  std::vector<const Diagnostic*> told;
  for (const Diagnostic& problem : problems) {
    if (std::find(told.begin(), told.end(), &problem) != told.end()) continue;
    err << format(problem);
    std::vector<const Diagnostic*> others;
    for (const Diagnostic& other : problems) {
      if (&other != &problem && is_same_fault(problem, other) &&
          std::find(told.begin(), told.end(), &other) == told.end())
        others.push_back(&other);
    }
    told.push_back(&problem);
    if (others.size() < kFewest) continue;
    err << elsewhere(others);
    told.insert(told.end(), others.begin(), others.end());
  }
}

}  // namespace dosewright
