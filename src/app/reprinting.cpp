#include "reprinting.hpp"

#include <algorithm>
#include <ostream>

#include "wanted.hpp"

namespace dosewright {

namespace {

std::string what_it_is(const RecordEntry& entry) {
  std::string out = entry.type;
  if (entry.bottle && !entry.bottle->batch.empty()) out += ", batch " + entry.bottle->batch;
  if (!entry.place.empty()) out += ", " + entry.place;
  if (!entry.revision.empty()) out += ", revision " + entry.revision;
  return out + (entry.code.empty() ? "" : ", code " + entry.code);
}

}  // namespace

bool Surveyed::open(const Streams& streams) {
  outcome_ = load(options_);
  if (!outcome_.loaded) {
    stop_ = stopped(outcome_, streams);
    return false;
  }
  opened_ = open_record(options_);
  if (opened_.trouble.empty()) return true;
  streams.err << "dosewright: " << opened_.trouble << '\n';
  stop_ = ExitStatus::bad_input;
  return false;
}

void Surveyed::look() {
  survey_ = std::make_unique<Survey>(loaded(), options_, record());
  survey_->look();
}

std::string bottle_name(const RecordEntry& label) {
  const BottleEntry& bottle = *label.bottle;
  return bottle.stock + ' ' + (bottle.batch.empty() ? label.code : bottle.batch);
}

std::string standing_name(const RecordEntry& entry) {
  if (!entry.bottle) return entry.document;
  return is_bottle_label(entry) ? bottle_name(entry) : entry.document + " " + entry.code;
}

std::string change_text(const FactChange& change) {
  constexpr std::size_t kLongest = 60;
  if (change.was.size() > kLongest || change.now.size() > kLongest)
    return change.what + ": its words changed";
  if (change.was.empty()) return change.what + ": new, " + change.now;
  if (change.now.empty()) return change.what + ": was " + change.was + ", now gone";
  return change.what + ": was " + change.was + ", now " + change.now;
}

void show_standing(const Standing& standing, const std::string& now, std::ostream& out) {
  const RecordEntry& entry = *standing.before;
  const auto age = days_between(entry.when, now);
  std::string words = what_it_is(entry) + "; printed " + entry.when.substr(0, 10);
  if (age) words += " (" + std::to_string(*age) + (*age == 1 ? " day ago)" : " days ago)");
  put_wrapped(out, (is_bottle_label(entry) ? entry.document : standing_name(entry)) + ": ", words,
              2);
  if (!standing.out_of_date) return;
  if (!standing.stuck.empty()) {
    put_wrapped(out, "  out of date, and the new one finds no room: ", standing.stuck, 4);
    return;
  }
  if (!standing.now) {
    put_wrapped(out, "  take it down: ", in_english(standing.down), 4);
    return;
  }
  constexpr std::size_t kMost = 8;
  const auto& changes = standing.changes;
  put_wrapped(out, "  out of date: ",
              changes.empty() ? "its words or its paper changed" : change_text(changes.front()), 4);
  for (std::size_t i = 1; i < std::min(kMost, changes.size()); ++i)
    put_wrapped(out, "    ", change_text(changes[i]), 6);
  if (changes.size() > kMost)
    put_wrapped(out, "    ", "and " + std::to_string(changes.size() - kMost) + " figures more", 6);
}

void show_doubt(const Record& record, std::ostream& out) {
  if (!record.damaged.empty())
    out << "Of what the damaged lines told nothing is known: look at the walls, or print all.\n";
}

}  // namespace dosewright
