// What hangs and stands out there by the print record, and printing anew what is out of date.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "recording.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

using Json = nlohmann::ordered_json;

// A document of the record beside what the description makes of it now.
struct Standing {
  const RecordEntry* before = nullptr;
  const Document* document = nullptr;  ///< null when the description no longer asks for it
  std::vector<FactChange> changes;
  bool out_of_date = false;
};

struct Survey {
  std::vector<Standing> printed;
  std::vector<const Document*> never_printed;
};

Survey survey_of(const Loaded& loaded, const Printer& printer, const Record& record) {
  Survey out;
  std::vector<std::string> known;
  for (const RecordEntry* before : latest_of(record)) {
    Standing standing;
    standing.before = before;
    standing.out_of_date = true;
    known.push_back(before->document);
    for (const auto& [document, pages] : printer.made()) {
      if (document->id != before->document) continue;
      const RecordEntry now = entry_for(loaded, *document, pages);
      standing.document = document;
      standing.out_of_date = now.digest != before->digest;
      standing.changes = changes_between(*before, now);
    }
    out.printed.push_back(std::move(standing));
  }
  for (const auto& [document, pages] : printer.made()) {
    if (!among(known, document->id)) out.never_printed.push_back(document);
  }
  return out;
}

std::string change_text(const FactChange& change) {
  if (change.was.empty()) return change.what + ": new, " + change.now;
  if (change.now.empty()) return change.what + ": was " + change.was + ", now gone";
  return change.what + ": was " + change.was + ", now " + change.now;
}

std::string what_it_is(const RecordEntry& entry) {
  std::string out = entry.type;
  if (!entry.place.empty()) out += ", " + entry.place;
  if (!entry.revision.empty()) out += ", revision " + entry.revision;
  return out + (entry.code.empty() ? "" : ", code " + entry.code);
}

// Whole days between two times of day one; nothing when one cannot be read.
std::optional<long> days_between(const std::string& from, const std::string& to) {
  using namespace std::chrono;
  const auto day = [](const std::string& text) -> std::optional<sys_days> {
    int year_number = 0;
    unsigned month_number = 0;
    unsigned day_number = 0;
    if (std::sscanf(text.c_str(), "%d-%u-%u", &year_number, &month_number, &day_number) != 3)
      return std::nullopt;
    const year_month_day date{year{year_number}, month{month_number}, std::chrono::day{day_number}};
    return date.ok() ? std::optional(sys_days{date}) : std::nullopt;
  };
  const auto start = day(from);
  const auto end = day(to);
  if (!start || !end) return std::nullopt;
  return (*end - *start).count();
}

void show_standing(const Standing& standing, const std::string& now, std::ostream& out) {
  const RecordEntry& entry = *standing.before;
  const auto days = days_between(entry.when, now);
  std::string words = what_it_is(entry) + "; printed " + entry.when.substr(0, 10);
  if (days) words += " (" + std::to_string(*days) + (*days == 1 ? " day ago)" : " days ago)");
  put_wrapped(out, entry.document + ": ", words, 2);
  if (!standing.out_of_date) return;
  if (standing.document == nullptr) {
    put_wrapped(out, "  take it down: ", "the description no longer asks for it", 4);
    return;
  }
  constexpr std::size_t kMost = 8;
  put_wrapped(out, "  out of date: ",
              standing.changes.empty() ? "its words or its paper changed"
                                       : change_text(standing.changes.front()),
              4);
  for (std::size_t i = 1; i < std::min(kMost, standing.changes.size()); ++i)
    put_wrapped(out, "    ", change_text(standing.changes[i]), 6);
  if (standing.changes.size() > kMost)
    put_wrapped(out, "    ",
                "and " + std::to_string(standing.changes.size() - kMost) + " figures more", 6);
}

Json standing_json(const Standing& standing, const std::string& now) {
  const RecordEntry& entry = *standing.before;
  const auto days = days_between(entry.when, now);
  Json out;
  out["document"] = entry.document;
  out["type"] = entry.type;
  out["place"] = entry.place;
  out["revision"] = entry.revision;
  out["code"] = entry.code;
  out["printed"] = entry.when;
  out["days"] = days ? Json(*days) : Json();
  out["out_of_date"] = standing.out_of_date;
  out["asked_for"] = standing.document != nullptr;
  out["changes"] = Json::array();
  for (const FactChange& change : standing.changes)
    out["changes"].push_back({{"what", change.what}, {"was", change.was}, {"now", change.now}});
  return out;
}

std::string survey_json(const Survey& survey, const Record& record, const std::string& now) {
  Json out;
  out["printed"] = Json::array();
  for (const Standing& one : survey.printed) out["printed"].push_back(standing_json(one, now));
  out["never_printed"] = Json::array();
  for (const Document* document : survey.never_printed)
    out["never_printed"].push_back(document->id);
  out["damaged_lines"] = record.damaged;
  return out.dump(2) + '\n';
}

void show_damage(const Options& options, const Record& record, std::ostream& err) {
  for (const std::size_t line : record.damaged)
    err << record_path(options) << ':' << line
        << ": finding: this line was cut off or changed and is lost; the others are not\n";
}

// What stood in a damaged line may hang on the wall all the same.
void show_doubt(const Record& record, std::ostream& out) {
  if (!record.damaged.empty())
    out << "Of what the damaged lines told nothing is known: look at the walls, or print all.\n";
}

// All documents laid out as they are now, with the record beside them.
struct Opened {
  LoadOutcome outcome;
  std::unique_ptr<Printer> printer;
  OpenedRecord opened;
  ExitStatus stop = ExitStatus::done;  ///< anything else: the command ends here
};

Opened open_all(const Options& options, const Streams& streams) {
  Opened out;
  out.outcome = load(options);
  if (!out.outcome.loaded) {
    out.stop = stopped(out.outcome, streams);
    return out;
  }
  out.printer = std::make_unique<Printer>(*out.outcome.loaded, options);
  Diagnostics problems = out.outcome.problems;
  if (!out.printer->lay_out(wanted_documents(out.outcome.loaded->room, ""), problems)) {
    sort_by_place(problems);
    show(problems, streams.err);
    out.stop = ExitStatus::bad_input;
    return out;
  }
  out.opened = open_record(options);
  if (!out.opened.trouble.empty()) {
    streams.err << "dosewright: " << out.opened.trouble << '\n';
    out.stop = ExitStatus::bad_input;
  }
  return out;
}

bool any_out_of_date(const Survey& survey) {
  return std::any_of(survey.printed.begin(), survey.printed.end(),
                     [](const Standing& one) { return one.out_of_date; });
}

}  // namespace

ExitStatus record_command(const Options& options, const Streams& streams) {
  const Opened all = open_all(options, streams);
  if (all.stop != ExitStatus::done) return all.stop;
  const Record& record = all.opened.record;
  const Survey survey = survey_of(*all.outcome.loaded, *all.printer, record);
  const std::string now = time_now();
  show_damage(options, record, streams.err);
  if (options.format == "json") {
    streams.out << survey_json(survey, record, now);
  } else {
    for (const Standing& one : survey.printed) show_standing(one, now, streams.out);
    if (survey.printed.empty()) streams.out << "Nothing has been recorded yet.\n";
    std::vector<std::string> never;
    for (const Document* document : survey.never_printed) never.push_back(document->id);
    if (!never.empty()) put_wrapped(streams.out, "Never printed: ", all_of(never) + '.', 2);
    show_doubt(record, streams.out);
  }
  const bool calm = !any_out_of_date(survey) && record.damaged.empty();
  return calm ? ExitStatus::done : ExitStatus::findings;
}

ExitStatus reprint_command(const Options& options, const Streams& streams) {
  const Opened all = open_all(options, streams);
  if (all.stop != ExitStatus::done) return all.stop;
  const Record& record = all.opened.record;
  const Loaded& loaded = *all.outcome.loaded;
  const Survey survey = survey_of(loaded, *all.printer, record);
  show_damage(options, record, streams.err);
  if (!any_out_of_date(survey)) {
    streams.out << (survey.printed.empty() ? "Nothing has been recorded yet: print first.\n"
                                           : "Nothing that was printed is out of date.\n");
    show_doubt(record, streams.out);
    return record.damaged.empty() ? ExitStatus::done : ExitStatus::findings;
  }
  const std::string now = time_now();
  std::vector<const Document*> stale;
  for (const Standing& one : survey.printed) {
    if (!one.out_of_date) continue;
    show_standing(one, now, streams.out);
    if (one.document != nullptr) stale.push_back(one.document);
  }
  if (options.dry_run) return ExitStatus::findings;
  if (stale.empty()) return ExitStatus::findings;
  return print_documents(loaded, stale, all.outcome.problems, options, streams);
}

}  // namespace dosewright
