// Printing anew what is out of date, with a notice of what to do where.
#include <algorithm>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/notice.hpp"
#include "reprinting.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

// The places of the room in the order in which the description names them.
std::vector<std::string> places_of(const Room& room) {
  std::vector<std::string> out;
  const auto add = [&](const std::string& place) {
    if (!place.empty() && !among(out, place)) out.push_back(place);
  };
  for (const Container& container : room.containers) add(container.place);
  for (const Vessel& vessel : room.vessels) add(vessel.place);
  for (const Document& document : room.documents) add(document.chart.place);
  return out;
}

// "revision 2, code X4 9RF, printed 2026-11-20".
std::string print_words(const RecordEntry& entry, const Words& w) {
  std::string out = entry.revision.empty() ? "" : w.say("revision {1}", {entry.revision}) + ", ";
  if (!entry.code.empty()) out += w.say("code {1}", {entry.code}) + ", ";
  return out + w.say("printed {1}", {entry.when.substr(0, 10)});
}

class NoticeMaker {
 public:
  NoticeMaker(const Surveyed& all, const std::vector<Made>& made, const Words& w)
      : all_(all), survey_(all.survey()), made_(made), w_(w) {}

  Notice make() {
    notice_.date = date_text(today());
    notice_.places = places_of(all_.loaded().room);
    add_doubts();
    for (const Standing& standing : survey_.printed()) {
      if (standing.out_of_date) add_page(standing);
    }
    for (const Printable& one : survey_.missing()) {
      if (is_chart(one)) add_missing(one);
    }
    for (const Printable& one : survey_.renamed()) add_missing(one);
    for (const BottleStanding& bottle : survey_.bottles()) {
      if (needs_a_word(bottle)) add_bottle(bottle);
    }
    for (const NoticePage& page : notice_.pages) add_place(page.place);
    for (const NoticeBottle& bottle : notice_.bottles) add_place(bottle.place);
    return notice_;
  }

 private:
  void add_doubts() {
    if (survey_.is_doubtful())
      notice_.doubts.push_back(
          w_.say("Lines of the print record are lost: there may be pages and bottles that stand "
                 "nowhere below. Look at every one, and dose only where the codes agree."));
    for (const Phrases& one : survey_.unprintable())
      notice_.doubts.push_back(
          w_.say("Not printed, for it finds no room on its paper: {1}. Mend these bottles, or "
                 "discard them by local rules.",
                 {w_.say(one)}));
    std::vector<std::string> never;
    for (const Document* document : survey_.never_printed()) never.push_back(document->id);
    if (!never.empty())
      notice_.doubts.push_back(
          survey_.is_doubtful()
              ? w_.say("Never printed, as far as is recorded: {1}.", {w_.all_of(never)})
              : w_.say("Never printed: {1}.", {w_.all_of(never)}));
  }

  static bool is_chart(const Printable& one) { return one.document->type != Document::Type::label; }

  // A place that only the record knows.
  void add_place(const std::string& place) {
    if (!place.empty() && !among(notice_.places, place)) notice_.places.push_back(place);
  }

  // Whether filled bottles with this label are as strong as the recipe now.
  [[nodiscard]] bool same_strength(const RecordEntry& label) const {
    for (const BottleStanding& bottle : survey_.bottles()) {
      if (bottle.before == &label) return bottle.times && !bottle.is_other_strength();
    }
    return false;
  }

  [[nodiscard]] const Made* made_from(const Document* document) const {
    for (const Made& made : made_) {
      if (made.what.document == document) return &made;
    }
    return nullptr;
  }

  void add_page(const Standing& standing) {
    const RecordEntry& before = *standing.before;
    NoticePage page;
    page.place = before.place;
    const std::string type = w_.say(before.type);
    page.name = before.document == before.type ? type : before.document + ", " + type;
    if (before.bottle && !before.bottle->batch.empty())
      page.name += ", " + w_.say("batch {1}", {before.bottle->batch});
    page.was = print_words(before, w_);
    page.why = w_.say(standing.down);
    if (!standing.stuck.empty())
      page.why = w_.say(
          "it is out of date, and the new one finds no room on its paper: mend the description "
          "and print it");
    page.same_bottles = same_strength(before);
    // A label of its own is for the very bottle that it was printed for.
    const bool own = standing.now && standing.now->bottle && standing.now->bottle->own;
    page.blank = is_bottle_label(before) && before.bottle->batch.empty() && standing.now && !own;
    const bool moves = standing.now && !is_bottle_label(before) &&
                       standing.now->document->chart.place != before.place;
    if (moves) {
      const std::string& place = standing.now->document->chart.place;
      page.why = place.empty() ? w_.say("it has no place any more")
                               : w_.say("it hangs here now: {1}", {place});
      notice_.pages.push_back(page);
      page.place = place;
      page.was.clear();
      page.why.clear();
    }
    if (standing.now) {
      const Made* made = made_from(standing.now->document);
      page.file = standing.now->file + ".pdf";
      page.now = made != nullptr ? now_words(made->entry) : "";
    }
    // What to do with a bottle of another strength is told with the bottle.
    const bool told =
        is_bottle_label(before) && (own || (!before.bottle->batch.empty() && !standing.now));
    if (!told) notice_.pages.push_back(std::move(page));
    add_change(standing);
  }

  [[nodiscard]] std::string now_words(const RecordEntry& entry) const {
    std::string out = entry.revision.empty() ? "" : w_.say("revision {1}", {entry.revision});
    if (!entry.code.empty()) out += (out.empty() ? "" : ", ") + w_.say("code {1}", {entry.code});
    return out.empty() ? w_.say("of today") : out;
  }

  void add_missing(const Printable& one) {
    NoticePage page;
    page.place = one.document->chart.place;
    const Phrases& only_for = one.document->chart.only_for;
    page.name = only_for.empty()
                    ? w_.say("{1}, new", {one.document->id})
                    : w_.say("{1}, only for {2}", {one.document->id, w_.say(only_for)});
    page.file = one.file + ".pdf";
    const Made* made = made_from(one.document);
    page.now = made != nullptr ? now_words(made->entry) : "";
    notice_.pages.push_back(std::move(page));
  }

  // The codes and contents that moved, each once: labels tell them for their stock.
  void add_change(const Standing& standing) {
    if (!standing.now) return;
    const auto stocks = stocks_of(*standing.now->document);
    if (stocks.size() != 1 || (standing.now->bottle && standing.now->bottle->own)) return;
    const StockAnswer* stock = find_stock(*standing.now->answers, stocks.front());
    const bool label = standing.now->document->type == Document::Type::label;
    for (const FactChange& change : standing.changes) {
      const bool tells = change.what == "code" || (label && change.what != "hazards");
      if (!tells) continue;
      const std::string words = stock->stock->name + ": " + change_words(change);
      if (!among(notice_.changes, words)) notice_.changes.push_back(words);
    }
  }

  [[nodiscard]] std::string change_words(const FactChange& change) const {
    const std::vector<std::string> fills = {change.was, change.now};
    if (change.what == "code") return w_.say("code {1} is now {2}.", fills);
    const std::string what = change.what == "contents" ? "" : change.what + ": ";
    if (change.was.empty()) return what + w_.say("now {1}.", {change.now});
    return what + (change.now.empty() ? w_.say("was {1}, and is gone.", {change.was})
                                      : w_.say("was {1}, is now {2}.", fills));
  }

  [[nodiscard]] static bool needs_a_word(const BottleStanding& bottle) {
    return bottle.is_lost() || bottle.is_other_strength() || bottle.is_overdue();
  }

  // Bottles that look alike are told together.
  [[nodiscard]] NoticeBottle& group_of(const NoticeBottle& one) {
    for (NoticeBottle& other : notice_.bottles) {
      if (other.place == one.place && other.stock_name == one.stock_name &&
          other.code == one.code && other.own_code == one.own_code &&
          other.container == one.container && other.overdue == one.overdue)
        return other;
    }
    return notice_.bottles.emplace_back(one);
  }

  void add_bottle(const BottleStanding& bottle) {
    const RecordEntry& before = *bottle.before;
    const BottleEntry& entry = *before.bottle;
    NoticeBottle out;
    const Stock* stock = find(all_.loaded().room.stocks, entry.stock);
    out.place = before.place;
    out.stock_name = stock != nullptr ? stock->name : entry.stock;
    out.code = before.code;
    out.own_code = bottle.code;
    out.container = find(all_.loaded().room.containers, entry.container);
    out.overdue = bottle.is_overdue();
    out.stock = bottle.stock;
    out.times = bottle.times;
    if (bottle.held) out.held = *bottle.held;
    for (const Printable* chart : survey_.charts_for(bottle))
      out.charts.push_back(chart->file + ".pdf");
    NoticeBottle& group = group_of(out);
    group.batches.push_back({entry.batch, entry.mixed, bottle.use_by});
    if (bottle.own && made_from(bottle.own->document) != nullptr)
      group.labels.push_back(bottle.own->file + ".pdf");
  }

  const Surveyed& all_;
  const Survey& survey_;
  const std::vector<Made>& made_;
  const Words& w_;
  Notice notice_;
};

// What still bears marks, and is printed without them because that was asked for.
bool loses_marks(const Standing& one, const Options& options) {
  return options.clean && !one.out_of_date && one.before->marked && one.now;
}

// All that is printed anew: what is out of date, what a bottle lacks, what loses its marks.
std::vector<Printable> wanted_of(const Survey& survey, const Options& options) {
  std::vector<Printable> out;
  for (const Standing& one : survey.printed()) {
    if (!one.now || (!one.out_of_date && !loses_marks(one, options))) continue;
    out.push_back(*one.now);
    if (!options.clean && !is_bottle_label(*one.before)) out.back().before = one.before;
  }
  out.insert(out.end(), survey.missing().begin(), survey.missing().end());
  out.insert(out.end(), survey.renamed().begin(), survey.renamed().end());
  return out;
}

// A page that says other figures under the same revision cannot be told from the old one.
void find_same_revisions(const Survey& survey, Diagnostics& problems) {
  for (const Standing& one : survey.printed()) {
    if (!one.out_of_date || !one.now || one.before->revision.empty() || one.before->bottle)
      continue;
    const Document& document = *one.now->document;
    if (document.chart.revision != one.before->revision) continue;
    problems.push_back({Severity::finding, document.origin.place, document.origin.path,
                        "it changed and is still revision " + document.chart.revision,
                        "write the next revision: and the day as revised:, and what it replaces"});
  }
}

void show_plan(const Survey& survey, const Options& options, std::ostream& out) {
  const std::string now = time_now();
  for (const Standing& one : survey.printed()) {
    if (one.out_of_date) show_standing(one, now, out);
  }
  for (const Printable& one : survey.missing())
    put_wrapped(out, one.file + ": ",
                one.document->chart.only_for.empty()
                    ? "a label for a bottle that is not as strong as the recipe now"
                    : "missing, for " + in_english(one.document->chart.only_for),
                2);
  for (const Standing& one : survey.printed()) {
    if (loses_marks(one, options))
      put_wrapped(out, one.now->file + ": ", "without its marks of changes", 2);
  }
  for (const Printable& one : survey.renamed()) put_wrapped(out, one.file + ": ", "new", 2);
}

std::string notice_file() {
  const std::string now = time_now();
  return "change-notice." + now.substr(0, 10) + '-' + now.substr(11, 2) + now.substr(14, 2) +
         now.substr(17, 2);
}

// Labels that still hold, and pages that the notice has taken down. A bottle stays where it is
// until somebody says that it is gone.
std::vector<RecordEntry> to_record_only(const Survey& survey) {
  std::vector<RecordEntry> out = survey.carried();
  for (const Standing& one : survey.printed()) {
    if (one.now || one.down.empty() || is_bottle_label(*one.before)) continue;
    out.push_back(*one.before);
    out.back().gone = true;
    out.back().shows.clear();
  }
  return out;
}

ExitStatus print_anew(const Surveyed& all, const std::vector<Printable>& wanted,
                      const Options& options, const Streams& streams) {
  Diagnostics problems = all.problems();
  find_same_revisions(all.survey(), problems);
  Printer printer(all.loaded(), options);
  (void)printer.lay_out(wanted, problems);
  // Where only marks go, nothing has to be done anywhere but hanging the page up.
  if (!all.survey().is_all_current()) {
    // Paper speaks the room's language, the terminal English.
    const Words& w =
        options.dry_run ? english() : all.loaded().words.at(all.loaded().room.language);
    const Notice notice = NoticeMaker(all, printer.made(), w).make();
    const SheetContent content = notice_content(all.loaded().answers, notice, w);
    if (!options.dry_run) {
      (void)printer.lay_out_notice(content, all.loaded().room.paper, notice_file(), problems);
    } else {
      streams.out << '\n';
      put_sheet(streams.out, content);
    }
  }
  if (options.dry_run) {
    sort_by_place(problems);
    show(problems, streams.err);
    return has_error(problems) ? ExitStatus::bad_input : ExitStatus::findings;
  }
  const ExitStatus status =
      write_printed(printer, std::move(problems), to_record_only(all.survey()), options, streams);
  const bool doubt = all.survey().is_doubtful() || !all.survey().unprintable().empty();
  return status == ExitStatus::done && doubt ? ExitStatus::findings : status;
}

}  // namespace

ExitStatus reprint_command(const Options& options, const Streams& streams) {
  Surveyed all(options);
  if (!all.open(streams)) return all.stop();
  show_damage(options, all.record(), streams);
  all.look();
  const Survey& survey = all.survey();
  const std::vector<Printable> wanted = wanted_of(survey, options);
  if (survey.is_all_current() && wanted.empty()) {
    const bool lost =
        std::any_of(survey.bottles().begin(), survey.bottles().end(),
                    [](const BottleStanding& one) { return one.is_lost() || one.is_overdue(); });
    if (lost) streams.out << "There are bottles that nothing printed is for: see record.\n";
    streams.out << (survey.printed().empty() ? "Nothing has been recorded yet: print first.\n"
                                             : "Nothing that was printed is out of date.\n");
    show_doubt(all.record(), streams.out);
    return all.record().damaged.empty() && !lost ? ExitStatus::done : ExitStatus::findings;
  }
  show_plan(survey, options, streams.out);
  return print_anew(all, wanted, options, streams);
}

}  // namespace dosewright
