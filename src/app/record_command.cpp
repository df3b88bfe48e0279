// What hangs and stands out there by the print record, and what is gone.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/notice.hpp"
#include "reprinting.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

using Json = nlohmann::ordered_json;

std::string stock_name(const Loaded& loaded, const std::string& id) {
  const Stock* stock = find(loaded.room.stocks, id);
  return stock != nullptr ? stock->name : id;
}

// Of a bottle that nothing printed is for.
std::string lost_words(const Loaded& loaded, const BottleStanding& bottle) {
  if (!bottle.held) return "; not as any recipe now makes it: discard it by local rules";
  const auto full = volume_of(*bottle.before->bottle);
  return "; its products are not in the recipe's proportions: no dose of it is right" +
         (!full
              ? std::string()
              : "; if it is full, " +
                    mending_words(loaded.answers, *bottle.stock, *bottle.held, *full,
                                  find(loaded.room.containers, bottle.before->bottle->container)));
}

void show_bottle(const Loaded& loaded, const BottleStanding& bottle, std::ostream& out) {
  const BottleEntry& entry = *bottle.before->bottle;
  std::string words =
      stock_name(loaded, entry.stock) + ", " + entry.volume + ", code " + bottle.before->code;
  if (!bottle.before->place.empty()) words += ", " + bottle.before->place;
  if (!entry.mixed.empty()) words += ", mixed " + entry.mixed;
  if (entry.batch.empty()) words += ", labelled by hand, if there is one";
  if (!bottle.use_by.empty()) words += ", use by " + bottle.use_by;
  if (bottle.days_left) {
    const long days = *bottle.days_left;
    words += days < 0 ? " (" + std::to_string(-days) + (days == -1 ? " day" : " days") +
                            " past it: discard it by local rules)"
                      : " (" + std::to_string(days) + (days == 1 ? " day left)" : " days left)");
  }
  if (bottle.is_other_strength())
    words += "; " + significant_figure(*bottle.times, 3) + " times as strong as the recipe";
  if (bottle.is_lost()) words += lost_words(loaded, bottle);
  put_wrapped(out, bottle_name(*bottle.before) + ": ", words, 2);
}

Json bottle_json(const BottleStanding& bottle) {
  const BottleEntry& entry = *bottle.before->bottle;
  Json out;
  out["bottle"] = bottle_name(*bottle.before);
  out["stock"] = entry.stock;
  out["batch"] = entry.batch;
  out["container"] = entry.container;
  out["place"] = bottle.before->place;
  out["document"] = bottle.before->document;
  out["code"] = bottle.before->code;
  out["volume"] = entry.volume;
  out["weighed"] = entry.weighed;
  out["holds"] = entry.holds;
  out["mixed"] = entry.mixed;
  out["use_by"] = bottle.use_by;
  out["days_left"] = bottle.days_left ? Json(*bottle.days_left) : Json();
  out["overdue"] = bottle.is_overdue();
  out["times_as_strong"] = bottle.times ? Json(*bottle.times) : Json();
  return out;
}

Json standing_json(const Standing& standing, const std::string& now) {
  const RecordEntry& entry = *standing.before;
  const auto age = days_between(entry.when, now);
  Json out;
  out["document"] = entry.document;
  out["type"] = entry.type;
  out["batch"] = entry.bottle ? entry.bottle->batch : "";
  out["place"] = entry.place;
  out["revision"] = entry.revision;
  out["code"] = entry.code;
  out["printed"] = entry.when;
  out["days"] = age ? Json(*age) : Json();
  out["out_of_date"] = standing.out_of_date;
  out["asked_for"] = standing.now.has_value();
  out["take_down"] = in_english(standing.down);
  out["finds_no_room"] = standing.stuck;
  out["changes"] = Json::array();
  for (const FactChange& change : standing.changes)
    out["changes"].push_back({{"what", change.what}, {"was", change.was}, {"now", change.now}});
  return out;
}

std::string survey_json(const Survey& survey, const Record& record, const std::string& now) {
  Json out;
  out["printed"] = Json::array();
  for (const Standing& one : survey.printed()) out["printed"].push_back(standing_json(one, now));
  out["bottles"] = Json::array();
  for (const BottleStanding& one : survey.bottles()) out["bottles"].push_back(bottle_json(one));
  out["missing"] = Json::array();
  for (const Printable& one : survey.missing()) out["missing"].push_back(one.file);
  out["never_printed"] = Json::array();
  for (const Document* document : survey.never_printed())
    out["never_printed"].push_back(document->id);
  out["damaged_lines"] = record.damaged;
  return out.dump(2) + '\n';
}

void show_survey(const Loaded& loaded, const Survey& survey, const Record& record,
                 std::ostream& out) {
  const std::string now = time_now();
  for (const Standing& one : survey.printed()) show_standing(one, now, out);
  if (survey.printed().empty()) out << "Nothing has been recorded yet.\n";
  if (!survey.bottles().empty()) out << "\nBottles\n";
  for (const BottleStanding& one : survey.bottles()) show_bottle(loaded, one, out);
  std::vector<std::string> missing;
  for (const Printable& one : survey.missing()) missing.push_back(one.file);
  for (const Phrases& one : survey.unprintable())
    put_wrapped(out, in_english(one) + ": ",
                "finds no room on its paper; mend the bottle, or discard it", 2);
  if (!missing.empty())
    put_wrapped(out, "Missing: ", all_of(missing) + " (reprint makes them).", 2);
  std::vector<std::string> never;
  for (const Document* document : survey.never_printed()) never.push_back(document->id);
  if (!never.empty())
    put_wrapped(
        out, record.damaged.empty() ? "Never printed: " : "Never printed, as far as is recorded: ",
        all_of(never) + '.', 2);
  show_doubt(record, out);
}

// What is gone stays in the file, with a line that says so.
ExitStatus record_gone(const Options& options, const Record& record, const Streams& streams) {
  std::vector<RecordEntry> gone;
  std::vector<std::string> known;
  for (const RecordEntry* entry : latest_of(record)) {
    const std::string name = standing_name(*entry);
    known.push_back(name);
    if (lowered(name) != lowered(options.gone)) continue;
    gone.push_back(*entry);
    gone.back().gone = true;
    gone.back().shows.clear();
  }
  if (gone.empty()) {
    const auto near = nearest(options.gone, known);
    return refused(streams, {"--gone: nothing out there is called \"" + options.gone + '"',
                             near            ? "did you mean \"" + *near + "\"?"
                             : known.empty() ? "nothing has been recorded yet"
                                             : "there are " + all_of(known)});
  }
  if (!record_entries(gone, options, streams)) return ExitStatus::could_not_write;
  for (const RecordEntry& entry : gone) {
    streams.out << standing_name(entry) << " is gone.\n";
  }
  return ExitStatus::done;
}

}  // namespace

ExitStatus record_command(const Options& options, const Streams& streams) {
  Surveyed all(options);
  if (!all.open(streams)) return all.stop();
  const Record& record = all.record();
  show_damage(options, record, streams);
  if (!options.gone.empty()) return record_gone(options, record, streams);
  all.look();
  const Survey& survey = all.survey();
  if (options.format == "json") {
    streams.out << survey_json(survey, record, time_now());
  } else {
    show_survey(all.loaded(), survey, record, streams.out);
  }
  const bool fine =
      std::none_of(survey.bottles().begin(), survey.bottles().end(),
                   [](const BottleStanding& one) { return one.is_overdue() || one.is_lost(); });
  const bool calm = survey.is_all_current() && fine && record.damaged.empty();
  return calm ? ExitStatus::done : ExitStatus::findings;
}

}  // namespace dosewright
