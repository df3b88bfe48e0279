#include "survey.hpp"

#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// A bottle's or a tub's.
bool is_label(const RecordEntry& entry) { return entry.type == type_word(Document::Type::label); }

// What a label of the record holds, beside the recipe now.
std::optional<Strengths> held_in(const Loaded& loaded, const BottleEntry& bottle,
                                 const StockAnswer& stock) {
  return strengths_from_text(loaded.room, bottle.holds, stock.mixture);
}

// The hazards as a label of the record says them.
std::string hazards_on(const RecordEntry& label) {
  for (const ShownFact& fact : label.shows) {
    if (fact.what == "hazards") return fact.figure;
  }
  return "";
}

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

}  // namespace

std::optional<long> days_between(const std::string& from, const std::string& to) {
  constexpr std::size_t kDay = 10;  // the day of a time, before its T
  const auto start = parse_date(from.substr(0, kDay));
  const auto end = parse_date(to.substr(0, kDay));
  if (!start || !end) return std::nullopt;
  return days_from(*start, *end);
}

std::optional<Volume> volume_of(const BottleEntry& bottle) {
  std::string words = bottle.volume;
  std::erase(words, ',');
  const auto volume = parse_volume(words, MeasureSystem::undeclared);
  const auto* found = std::get_if<Volume>(&volume);
  return found != nullptr ? std::optional(*found) : std::nullopt;
}

Survey::Survey(const Loaded& loaded, const Options& options, const Record& record)
    : loaded_(loaded),
      options_(options),
      latest_(latest_of(record)),
      doubtful_(!record.damaged.empty()) {
  look_for_never_printed();
  look_for_renamed();
  for (const RecordEntry* entry : latest_) {
    if (is_bottle_label(*entry)) add_bottle(*entry);
  }
  for (BottleStanding& bottle : bottles_) {
    if (bottle.is_other_strength()) give_own_room(bottle);
  }
  for (const RecordEntry* entry : latest_) printed_.push_back(standing_of(*entry));
  look_for_missing();
}

void Survey::add_bottle(const RecordEntry& before) {
  BottleStanding out;
  out.before = &before;
  const BottleEntry& bottle = *before.bottle;
  out.use_by = bottle.use_by;
  const StockAnswer* stock = find_stock(loaded_.answers, bottle.stock);
  if (stock != nullptr && !stock->stock->dry) {
    out.stock = stock;
    out.held = held_in(loaded_, bottle, *stock);
    if (out.held) out.times = times_as_strong(strengths_of(stock->mixture), *out.held);
    if (out.times) out.code = stock->code.letters;
    // A shelf life that was shortened holds for what stands there too.
    if (const auto use_by = use_by_of(*stock->stock, parse_date(bottle.mixed))) {
      const std::string now = date_text(*use_by);
      if (out.use_by.empty() || now < out.use_by) out.use_by = now;
    }
  }
  out.days_left = days_between(date_text(today()), out.use_by);
  bottles_.push_back(std::move(out));
}

// The whole room, for what stands in the bottle also decides its hazards and its charts.
void Survey::give_own_room(BottleStanding& bottle) {
  BottleRoom& made = rooms_.emplace_back();
  made.room = room_of_bottle(loaded_.answers, *bottle.stock, *bottle.times);
  made.answers = answer_room(made.room, loaded_.sources);
  if (has_error(made.answers.problems)) {
    bottle.times.reset();
    return;
  }
  bottle.code = find_stock(made.answers, bottle.stock->stock->id)->code.letters;
  const Document* document = find(loaded_.room.documents, bottle.before->document);
  if (document != nullptr && document->type == Document::Type::label) {
    // What was stated of it when it was mixed may have been for its strength alone.
    const bool stated = *bottle.times > 1 && states_hazards(bottle.stock->stock->hazards);
    Document own = *document;
    own.label.earlier = stated ? hazards_on(*bottle.before) : "";
    bottle.own = label_for(own, *bottle.before->bottle, made.answers, true);
  }
  if (!bottle.is_overdue()) add_charts(bottle, made.answers);
}

Printable Survey::label_for(const Document& document, const BottleEntry& bottle,
                            const RoomAnswer& answers, bool own) {
  Document& made = documents_.emplace_back(document);
  made.label.batch = bottle.batch;
  made.label.by = bottle.by;
  made.label.mixed = parse_date(bottle.mixed);
  if (find(loaded_.room.containers, bottle.container) != nullptr)
    made.label.container = bottle.container;
  if (const auto volume = volume_of(bottle)) made.label.volume = *volume;
  Printable out;
  out.answers = &answers;
  out.document = &made;
  out.file = as_file_name(document.id) +
             (bottle.batch.empty() ? ".as-mixed" : ".batch-" + as_file_name(bottle.batch));
  out.bottle = bottle;
  out.bottle->own = own;
  if (const auto now = bottle_of(answers, made)) out.bottle->use_by = now->use_by;
  return out;
}

// Bottles of one code share their charts, as bottles of the recipe do.
void Survey::add_charts(const BottleStanding& bottle, const RoomAnswer& answers) {
  const std::string& stock = bottle.stock->stock->id;
  if (!charts_for(bottle).empty()) return;
  for (const Document& listed : loaded_.room.documents) {
    if (!tells_doses(listed) || !among(listed.chart.stocks, stock) || !hangs(listed)) continue;
    Document& made = documents_.emplace_back(listed);
    made.chart.stocks = {stock};
    made.chart.only_for = {{"bottles with code {1}", {bottle.code}}};
    Printable one;
    one.answers = &answers;
    one.document = &made;
    one.file = as_file_name(listed.id) + '.' + without_spaces(bottle.code);
    one.bottle.emplace();
    one.bottle->stock = stock;
    one.bottle->own = true;
    if (!finds_room(one, made)) {
      unprintable_.push_back({{"{1}, for bottles with code {2}", {listed.id, bottle.code}}});
      continue;
    }
    bottle_charts_.push_back({stock, bottle.code, std::move(one)});
  }
}

// Whether it is on the wall, or is about to be.
bool Survey::hangs(const Document& document) const {
  const bool printed = std::any_of(latest_.begin(), latest_.end(), [&](const RecordEntry* entry) {
    return !entry->bottle && entry->document == document.id;
  });
  return printed || std::any_of(renamed_.begin(), renamed_.end(),
                                [&](const Printable& one) { return one.document == &document; });
}

// Turned, where that takes fewer pages: other figures may take more room than the recipe's.
bool Survey::finds_room(const Printable& chart, Document& document) const {
  PaperSize& paper = document.chart.paper;
  const auto pages_of = [&](const PaperSize& size) -> std::size_t {
    paper = size;
    Printer printer(loaded_, options_);
    Diagnostics problems;
    return printer.lay_out({chart}, problems) ? printer.made().front().pages.pages.size() : 0;
  };
  const PaperSize upright = paper;
  const PaperSize turned{paper.name, paper.height, paper.width};
  const std::size_t as_asked = pages_of(upright);
  const std::size_t other = pages_of(turned);
  paper = other == 0 || (as_asked != 0 && as_asked <= other) ? upright : turned;
  return as_asked + other > 0;
}

std::vector<const Printable*> Survey::charts_for(const BottleStanding& bottle) const {
  std::vector<const Printable*> out;
  if (!bottle.is_other_strength() || bottle.is_overdue()) return out;
  for (const BottleChart& one : bottle_charts_) {
    if (one.stock == bottle.before->bottle->stock && one.code == bottle.code)
      out.push_back(&one.chart);
  }
  return out;
}

const BottleStanding* Survey::bottle_by(const RecordEntry& label) const {
  for (const BottleStanding& bottle : bottles_) {
    if (bottle.before == &label) return &bottle;
  }
  return nullptr;
}

Standing Survey::standing_of(const RecordEntry& before) {
  Standing out;
  out.before = &before;
  if (before.bottle && !is_bottle_label(before)) {
    stand_bottle_chart(out);
    return out;
  }
  const Document* document = find(loaded_.room.documents, before.document);
  if (document == nullptr || type_word(document->type) != before.type) {
    // What is filled keeps its label for as long as anything is in it.
    if (!is_label(before)) out.down = {{"the description no longer asks for it", {}}};
    return out;
  }
  if (const BottleStanding* bottle = bottle_by(before)) {
    stand_label(*bottle, out);
    return out;
  }
  out.now = as_described(loaded_, *document);
  return out;
}

void Survey::stand_label(const BottleStanding& bottle, Standing& out) {
  const RecordEntry& before = *out.before;
  const Document& document = *find(loaded_.room.documents, before.document);
  const BottleEntry& entry = *before.bottle;
  const std::string mixed = document.label.mixed ? date_text(*document.label.mixed) : "";
  const bool unchanged = document.label.stock == entry.stock && !entry.own &&
                         document.label.batch == entry.batch && mixed == entry.mixed &&
                         document.label.container == entry.container;
  // A label to be filled in by pen is for the next bottle too.
  const bool blank = unchanged && entry.batch.empty() && entry.mixed.empty();
  if (blank || (unchanged && bottle.times && !bottle.is_other_strength())) {
    out.now = as_described(loaded_, document);
  } else if (bottle.is_other_strength() && bottle.own) {
    out.now = bottle.own;
  } else if (bottle.times && document.label.stock == entry.stock) {
    out.now = label_for(document, entry, loaded_.answers, false);
  }
  // Else it keeps its label until it is empty; the notice says that nothing makes it the same.
}

// It hangs there for as long as there is a bottle with its code.
void Survey::stand_bottle_chart(Standing& out) {
  for (const BottleChart& one : bottle_charts_) {
    if (one.stock == out.before->bottle->stock && one.code == out.before->code &&
        one.chart.document->id == out.before->document)
      out.now = one.chart;
  }
  // With lines lost, nobody knows which bottles there are.
  if (out.now || doubtful_) return;
  const RecordEntry& before = *out.before;
  const Document* document = find(loaded_.room.documents, before.document);
  const bool hangs = std::any_of(latest_.begin(), latest_.end(), [&](const RecordEntry* entry) {
    return !entry->bottle && entry->document == before.document;
  });
  bool recipe = false;
  bool left = false;
  for (const BottleStanding& bottle : bottles_) {
    if (bottle.before->bottle->stock != before.bottle->stock || bottle.code != before.code)
      continue;
    left = true;
    recipe = recipe || (bottle.times && !bottle.is_other_strength());
  }
  if (document == nullptr)
    out.down = {{"the description no longer asks for {1}", {before.document}}};
  else if (!hangs)
    out.down = {{"{1} does not hang there any more either", {before.document}}};
  else if (recipe)
    out.down = {{"the recipe has this code again: its own chart is for these bottles", {}}};
  else
    out.down = {{left ? "the bottles with code {1} are past their date"
                      : "no bottle with code {1} is left, as far as is recorded",
                 {before.code}}};
}

void Survey::compare(Standing& standing) {
  standing.out_of_date = !standing.down.empty();
  if (!standing.now) return;
  Printer printer(loaded_, options_);
  Diagnostics problems;
  if (!printer.lay_out({*standing.now}, problems)) {
    // It would say something else, for what it said did find room.
    standing.out_of_date = true;
    standing.stuck = problems.front().message + "; " + problems.front().hint;
    standing.now.reset();
    return;
  }
  const RecordEntry& now = printer.made().front().entry;
  standing.out_of_date = now.digest != standing.before->digest;
  standing.changes = changes_between(*standing.before, now);
}

// A bottle without a batch whose label document is now that of the new recipe: what it shows still
// has to be known.
void Survey::compare_own_labels() {
  for (const BottleStanding& bottle : bottles_) {
    if (!bottle.own || bottle.before->bottle->own || !bottle.before->bottle->batch.empty())
      continue;
    Printer printer(loaded_, options_);
    Diagnostics problems;
    if (!printer.lay_out({*bottle.own}, problems)) {
      unprintable_.push_back({{"a label for bottles with code {1}", {bottle.before->code}}});
      carried_.push_back(*bottle.before);
      carried_.back().bottle->own = true;
      continue;
    }
    const RecordEntry& entry = printer.made().front().entry;
    if (entry.digest == bottle.before->digest) {
      carried_.push_back(entry);
    } else {
      missing_.push_back(*bottle.own);
    }
  }
}

void Survey::look() {
  for (Standing& standing : printed_) compare(standing);
  compare_own_labels();
}

void Survey::look_for_missing() {
  for (const BottleChart& wanted : bottle_charts_) {
    const bool hangs = std::any_of(printed_.begin(), printed_.end(), [&](const Standing& one) {
      return one.now && one.now->document == wanted.chart.document;
    });
    if (!hangs) missing_.push_back(wanted.chart);
  }
}

void Survey::look_for_never_printed() {
  for (const Document& document : loaded_.room.documents) {
    const auto bottle = bottle_of(loaded_.answers, document);
    const bool known = std::any_of(latest_.begin(), latest_.end(), [&](const RecordEntry* entry) {
      if (entry->document != document.id || type_word(document.type) != entry->type) return false;
      return !bottle || !entry->bottle || entry->bottle->batch == bottle->batch;
    });
    if (!known) never_printed_.push_back(&document);
  }
}

void Survey::look_for_renamed() {
  const bool any = std::any_of(latest_.begin(), latest_.end(), [&](const RecordEntry* entry) {
    return !entry->bottle && !is_label(*entry) &&
           find(loaded_.room.documents, entry->document) == nullptr;
  });
  if (!any) return;
  for (const Document* document : never_printed_) {
    if (document->type != Document::Type::label)
      renamed_.push_back(as_described(loaded_, *document));
  }
}

bool Survey::is_all_current() const {
  return missing_.empty() && unprintable_.empty() &&
         std::none_of(printed_.begin(), printed_.end(),
                      [](const Standing& one) { return one.out_of_date; });
}

void find_past_their_date(const RoomAnswer& answers, Diagnostics& problems) {
  const std::string day = date_text(today());
  for (const Document& document : answers.room->documents) {
    const auto bottle = bottle_of(answers, document);
    const auto left = bottle ? days_between(day, bottle->use_by) : std::nullopt;
    if (!left || *left >= 0) continue;
    problems.push_back({Severity::finding, document.origin.place, document.origin.path,
                        (bottle->batch.empty() ? "this bottle" : "batch " + bottle->batch) +
                            " is past its use-by of " + bottle->use_by,
                        "discard what is in it by local rules; the next one gets its own mixed: "
                        "and batch:"});
  }
}

std::vector<RecordEntry> old_blank_labels(const Options& options, const std::vector<Made>& made,
                                          Diagnostics& problems) {
  std::vector<RecordEntry> out;
  const OpenedRecord opened = open_record(options);
  for (const RecordEntry* before : latest_of(opened.record)) {
    const bool blank =
        is_bottle_label(*before) && !before->bottle->own && before->bottle->batch.empty();
    for (const Made& one : made) {
      if (!blank || key_of(one.entry) != key_of(*before) || one.entry.digest == before->digest)
        continue;
      const bool other = one.entry.bottle->holds != before->bottle->holds;
      const std::string bottles =
          "bottles that were labelled by hand with code " + before->code + " may still stand there";
      problems.push_back(
          {Severity::finding, one.what.document->origin.place, one.what.document->origin.path,
           bottles + (other ? "; this label is not for them"
                            : ", and their label says something else now"),
           other ? "dosewright reprint prints what they need; record --gone \"" +
                       before->bottle->stock + ' ' + before->code + "\" when they are empty"
                 : "stick a new one over each old one, and copy its dates"});
      if (!other) continue;
      out.push_back(*before);
      out.back().bottle->own = true;
    }
  }
  return out;
}

void leave_out_old_bottles(const Loaded& loaded, const Options& options,
                           std::vector<Printable>& documents, Diagnostics& problems) {
  const OpenedRecord opened = open_record(options);
  const auto latest = latest_of(opened.record);
  const auto lies = [&](const Printable& one) {
    if (!one.bottle || one.bottle->batch.empty()) return false;
    const StockAnswer& stock = *find_stock(loaded.answers, one.bottle->stock);
    for (const RecordEntry* entry : latest) {
      if (!is_bottle_label(*entry) || entry->bottle->stock != one.bottle->stock ||
          entry->bottle->batch != one.bottle->batch)
        continue;
      // Another day is another bottle; that its number was given before is said elsewhere.
      const std::string& day = one.bottle->mixed;
      if (!day.empty() && !entry->bottle->mixed.empty() && day != entry->bottle->mixed) continue;
      const auto held = held_in(loaded, *entry->bottle, stock);
      const auto times =
          held ? times_as_strong(strengths_of(stock.mixture), *held) : std::optional<double>();
      if (times && is_same_strength(*times)) continue;
      problems.push_back({Severity::finding, one.document->origin.place, one.document->origin.path,
                          "batch " + entry->bottle->batch +
                              " was mixed at another strength (its label has code " + entry->code +
                              "): a label with the recipe's strength would be wrong on it, and is "
                              "left out",
                          "dosewright reprint prints what this bottle needs; for a new bottle "
                          "write its own batch: and mixed:"});
      return true;
    }
    return false;
  };
  std::erase_if(documents, lies);
}

}  // namespace dosewright
