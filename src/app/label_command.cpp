// The label of a freshly mixed bottle: what was really weighed, what that comes to, and a line in
// the record.
#include <algorithm>
#include <charconv>
#include <ostream>

#include "dosewright/answer/bottle.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/check/check.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "dosewright/wording/notice.hpp"
#include "reprinting.hpp"
#include "wanted.hpp"

namespace dosewright {

namespace {

// One mixing as the command line and the record tell it.
struct Batch {
  const StockAnswer* stock = nullptr;
  Document document;  ///< the label of the description, filled in
  Amounts weighed;
  std::vector<std::string> words;  ///< of what was weighed
  Mixture filled;                  ///< as the recipe has it
  Mixture mixed;                   ///< as it was weighed
  bool by_recipe = true;
  /// What it holds, in the figures of the record: code and dose are worked out from these, now and
  /// whenever the record is read.
  std::vector<std::string> holds;
};

std::string amount_words(const std::variant<Mass, Volume>& amount, const std::string& of) {
  const auto portion = std::visit([](auto value) { return Portion(value); }, amount);
  return portion_text(portion) + " of " + of;
}

// "82 g", or "82 g of salt" by a product's id or name.
struct WeighedWord {
  std::string amount;
  std::string of;
};

// " 01" is 1.
std::string plain_number(const std::string& batch) {
  std::string out = trimmed(batch);
  const bool digits = out.find_first_not_of("0123456789") == std::string::npos;
  while (digits && out.size() > 1 && out.front() == '0') out.erase(0, 1);
  return out;
}

WeighedWord taken_apart(const std::string& text) {
  const std::size_t at = text.find(" of ");
  if (at == std::string::npos) return {text, ""};
  return {trimmed(text.substr(0, at)), trimmed(text.substr(at + 4))};
}

class BatchReader {
 public:
  BatchReader(const Surveyed& all, const Options& options)
      : all_(all), room_(all.loaded().room), options_(options) {}

  std::variant<Batch, LineProblem> read() {
    for (auto step : {&BatchReader::find_stock_and_label, &BatchReader::read_batch,
                      &BatchReader::read_container, &BatchReader::read_weighed,
                      &BatchReader::mix_it, &BatchReader::compare_with_record}) {
      if (auto problem = (this->*step)()) return *problem;
    }
    return batch_;
  }

 private:
  using Problem = std::optional<LineProblem>;

  Problem find_stock_and_label() {
    std::size_t of_name = 0;
    const Stock* stock = called(room_.stocks, options_.stocks.front(), of_name);
    if (stock == nullptr)
      return nothing_called("stock", options_.stocks.front(), room_.stocks, of_name);
    batch_.stock = find_stock(all_.loaded().answers, stock->id);
    if (stock->dry)
      return LineProblem{stock->name + " is dosed straight from its tub: nothing is mixed",
                         "print its label with dosewright print --only"};
    for (const Document& document : room_.documents) {
      if (document.type != Document::Type::label || document.label.stock != stock->id) continue;
      batch_.document = document;
      return std::nullopt;
    }
    return LineProblem{
        "the description has no label for " + stock->name,
        "add one to documents: with type: label, stock: " + stock->id + " and a sheet:"};
  }

  // The batch named, or the next number.
  Problem read_batch() {
    LabelRequest& label = batch_.document.label;
    label.batch = options_.batch.empty() ? next_number() : plain_number(options_.batch);
    if (!options_.by.empty()) label.by = options_.by;
    const RecordEntry* before = options_.batch.empty() ? nullptr : earlier();
    if (before != nullptr) known_ = before->bottle;
    label.mixed = today();
    if (known_) {
      if (const auto date = parse_date(known_->mixed)) label.mixed = date;
    }
    if (options_.mixed.empty()) return std::nullopt;
    label.mixed = parse_date(options_.mixed);
    if (!label.mixed)
      return LineProblem{"--mixed: \"" + options_.mixed + "\" is no day of the calendar",
                         "write it as 2026-11-25"};
    return std::nullopt;
  }

  [[nodiscard]] const RecordEntry* earlier() const {
    for (const RecordEntry* entry : latest_of(all_.record())) {
      if (is_bottle_label(*entry) && entry->bottle->stock == batch_.stock->stock->id &&
          plain_number(entry->bottle->batch) == batch_.document.label.batch)
        return entry;
    }
    return nullptr;
  }

  // One more than the highest that the record or the description knows of this stock.
  [[nodiscard]] std::string next_number() const {
    long highest = 0;
    const auto look = [&](const std::string& batch) {
      long number = 0;
      const auto [end, failed] = std::from_chars(batch.data(), batch.data() + batch.size(), number);
      if (failed == std::errc() && end == batch.data() + batch.size())
        highest = std::max(highest, number);
    };
    for (const RecordEntry& entry : all_.record().entries) {
      if (entry.bottle && entry.bottle->stock == batch_.stock->stock->id) look(entry.bottle->batch);
    }
    for (const Document& document : room_.documents) {
      if (document.label.stock == batch_.stock->stock->id) look(document.label.batch);
    }
    // A lost line may have held the next one.
    const std::size_t lost = all_.record().damaged.size();
    return std::to_string(highest + 1 + static_cast<long>(lost));
  }

  Problem read_container() {
    LabelRequest& label = batch_.document.label;
    if (known_ && find(room_.containers, known_->container) != nullptr)
      label.container = known_->container;
    if (!options_.container.empty()) {
      std::size_t of_name = 0;
      const Container* container = called(room_.containers, options_.container, of_name);
      if (container == nullptr)
        return nothing_called("container", options_.container, room_.containers, of_name);
      label.container = container->id;
      batch_.document.chart.place = container->place;
    }
    const Container& container = *find(room_.containers, label.container);
    Volume makes = filling_of(container);
    if (!options_.volumes.empty()) {
      const auto volume = parse_volume(options_.volumes.front(), room_.measures);
      if (const auto* bad = std::get_if<QuantityProblem>(&volume))
        return LineProblem{"--volume: " + bad->message, bad->hint};
      makes = std::get<Volume>(volume);
    }
    if (in_millilitres(makes) <= 0 || makes > container.holds)
      return LineProblem{"--volume: the " + container.name + " does not hold it",
                         "write how much was mixed, at most " + volume_text(container.holds)};
    label.volume = makes;
    batch_.filled = mix_batch(*batch_.stock->stock, room_.products, room_.tools, makes);
    return std::nullopt;
  }

  // Who weighs by the recipe need not say so.
  Problem read_weighed() {
    batch_.weighed = amounts_of(*batch_.stock->stock, batch_.filled);
    std::vector<bool> said(batch_.weighed.size(), false);
    for (const std::string& text : options_.weighed) {
      const WeighedWord word = taken_apart(text);
      std::size_t which = 0;
      if (auto problem = find_ingredient(word, which)) return problem;
      if (said[which])
        return LineProblem{"--weighed: " + name_of(which) + " is there twice", "write it once"};
      said[which] = true;
      if (auto problem = read_amount(word, which)) return problem;
    }
    const auto missing = std::find(said.begin(), said.end(), false);
    if (!options_.weighed.empty() && missing != said.end())
      return LineProblem{"--weighed: how much " +
                             name_of(static_cast<std::size_t>(missing - said.begin())) +
                             " went in?",
                         "give --weighed for every product of the recipe"};
    for (std::size_t i = 0; i < batch_.weighed.size(); ++i)
      batch_.words.push_back(amount_words(batch_.weighed[i], name_of(i)));
    return std::nullopt;
  }

  Problem mix_it() {
    const Stock& stock = *batch_.stock->stock;
    batch_.mixed =
        mix_weighed(stock, room_.products, room_.tools, batch_.filled.makes, batch_.weighed);
    batch_.by_recipe =
        is_by_recipe(all_.loaded().answers, *batch_.stock, batch_.filled, batch_.mixed);
    const Mixture& recipe = batch_.stock->mixture;
    batch_.holds =
        strengths_as_text(room_, strengths_of(batch_.by_recipe ? recipe : batch_.mixed), recipe);
    return std::nullopt;
  }

  // A number given twice, or a bottle that nobody has mended, must not pass for the recipe's.
  Problem compare_with_record() {
    if (!known_ || options_.anew) return std::nullopt;
    const Mixture& recipe = batch_.stock->mixture;
    const auto before = strengths_from_text(room_, known_->holds, recipe);
    const auto now = strengths_from_text(room_, batch_.holds, recipe);
    const auto times = before && now ? times_as_strong(*before, *now) : std::optional<double>();
    const std::string day = date_text(*batch_.document.label.mixed);
    const bool same_day = known_->mixed.empty() || known_->mixed == day;
    if (times && is_same_strength(*times) && same_day) return std::nullopt;
    const std::string name = "batch " + options_.batch;
    if (!same_day)
      return LineProblem{name + " was recorded as mixed on " + known_->mixed,
                         "leave --batch out for a new bottle, or add --anew if that day was wrong"};
    return LineProblem{
        name + " was recorded at another strength: " + all_of(known_->holds) + " in g or mL per L",
        "add --anew if it has been mended, or what was said of it was wrong; leave "
        "--batch out for a new bottle"};
  }

  [[nodiscard]] std::string name_of(std::size_t which) const {
    const Stock& stock = *batch_.stock->stock;
    if (stock.stronger != nullptr) return stock.stronger->name;
    return find(room_.products, stock.recipe[which].product)->name;
  }

  Problem find_ingredient(const WeighedWord& word, std::size_t& which) const {
    const Stock& stock = *batch_.stock->stock;
    std::vector<std::string> ids;
    if (word.of.empty()) {
      if (batch_.weighed.size() == 1) return std::nullopt;
      return LineProblem{"--weighed: of which product?",
                         "write \"" + word.amount + " of " + stock.recipe.front().product + "\""};
    }
    for (which = 0; which < batch_.weighed.size(); ++which) {
      const std::string id =
          stock.stronger != nullptr ? stock.stronger->id : stock.recipe[which].product;
      if (lowered(word.of) == lowered(id) || lowered(word.of) == lowered(name_of(which)))
        return std::nullopt;
      ids.push_back(id);
    }
    const auto near = nearest(word.of, ids);
    return LineProblem{"--weighed: the recipe holds no \"" + word.of + '"',
                       near ? "did you mean \"" + *near + "\"?" : "it holds " + all_of(ids)};
  }

  Problem read_amount(const WeighedWord& word, std::size_t which) {
    std::variant<Mass, Volume>& amount = batch_.weighed[which];
    const auto mass = parse_mass(word.amount);
    const auto volume = parse_volume(word.amount, room_.measures);
    const bool liquid =
        batch_.stock->stock->stronger != nullptr ||
        std::holds_alternative<VolumePerVolume>(batch_.filled.components[which].strength);
    const bool scooped = !liquid && std::holds_alternative<Volume>(amount);
    if (!liquid && std::holds_alternative<Mass>(mass)) {
      amount = std::get<Mass>(mass);
    } else if ((liquid || scooped) && std::holds_alternative<Volume>(volume)) {
      amount = std::get<Volume>(volume);
    } else {
      const auto* bad =
          liquid ? std::get_if<QuantityProblem>(&volume) : std::get_if<QuantityProblem>(&mass);
      return LineProblem{"--weighed: " + (bad != nullptr ? bad->message : "not an amount of it"),
                         liquid ? "write it as 120 mL" : "write it as 82 g"};
    }
    if (std::visit([](auto value) { return value.stored() <= 0; }, amount))
      return LineProblem{"--weighed: an amount of nothing", "write what was weighed, such as 82 g"};
    return std::nullopt;
  }

  const Surveyed& all_;
  const Room& room_;
  const Options& options_;
  Batch batch_;
  std::optional<BottleEntry> known_;  ///< the same batch, as it was labelled before
};

std::string times_words(double times) {
  return significant_figure(times, 3) + " times as strong as the recipe";
}

// What a careful person would mend, in one finding.
Diagnostic off_the_recipe(const Surveyed& all, const Batch& batch, const std::string& message,
                          const Strengths& found, Volume makes) {
  return {Severity::finding, batch.stock->stock->origin.place, batch.stock->stock->origin.path,
          message,
          "to make it as strong as the recipe, " +
              mending_words(all.loaded().answers, *batch.stock, found, makes,
                            find(all.loaded().room.containers, batch.document.label.container)) +
              "; then label it with --batch " + batch.document.label.batch +
              " --anew. It was taken to be " + volume_text(makes) +
              " in all: give --volume if it is not"};
}

// A dose or a limit that the bottle itself makes impossible.
bool shows_errors(const RoomAnswer& answers, Diagnostics& problems) {
  for (const Diagnostic& one : answers.problems) {
    if (one.severity == Severity::error) problems.push_back(one);
  }
  return has_error(problems);
}

class LabelMaker {
 public:
  LabelMaker(const Surveyed& all, Batch batch, const Options& options)
      : all_(all), batch_(std::move(batch)), options_(options) {}

  ExitStatus make(const Streams& streams) {
    const Loaded& loaded = all_.loaded();
    const RoomAnswer* answers = &loaded.answers;
    mind_the_date();
    mind_the_parent();
    mind_the_charts();
    BottleRoom own;
    if (!batch_.by_recipe) {
      if (!look_at(batch_.mixed)) return record_without_label(streams);
      own.room = room_of_bottle(loaded.answers, *batch_.stock, times_);
      own.answers = answer_room(own.room, loaded.sources);
      if (shows_errors(own.answers, problems_)) return stop(streams);
      look_at_its_own(own.answers);
      batch_.document.label.volume = batch_.mixed.makes;
      answers = &own.answers;
    }
    mind_the_shelf_life();
    Printable label{
        answers, &batch_.document,
        as_file_name(batch_.document.id) + ".batch-" + as_file_name(batch_.document.label.batch),
        bottle_of(*answers, batch_.document), nullptr};
    label.bottle->own = !batch_.by_recipe;
    label.bottle->weighed = batch_.words;
    label.bottle->holds = batch_.holds;
    Printer printer(loaded, options_);
    if (!printer.lay_out({label}, problems_)) return record_without_label(streams);
    tell(*answers, streams);
    return write_printed(printer, std::move(problems_), {}, options_, streams);
  }

 private:
  // Also what the description is found to lack, for this is a bottle of it.
  void mind_the_date() {
    const Date& mixed = *batch_.document.label.mixed;
    if (days_from(today(), mixed) > 0)
      problems_.push_back({Severity::finding, batch_.document.origin.place,
                           batch_.document.origin.path,
                           "mixed on " + date_text(mixed) + ": that day is still to come",
                           "give the day of the mixing with --mixed, or set the clock right"});
  }

  void add_finding(const std::string& message, const std::string& hint) {
    problems_.push_back({Severity::finding, batch_.stock->stock->origin.place,
                         batch_.stock->stock->origin.path, message, hint});
  }

  void mind_the_shelf_life() {
    const auto use_by = use_by_of(*batch_.stock->stock, batch_.document.label.mixed);
    if (use_by && days_from(today(), *use_by) < 0)
      add_finding("it is past its use-by of " + date_text(*use_by) + " already",
                  "discard what is in it by local rules");
  }

  // What is diluted is as strong as what it was taken from.
  void mind_the_parent() {
    const auto& stronger = batch_.stock->stock->stronger;
    if (stronger == nullptr) return;
    const StockAnswer& parent = *find_stock(all_.loaded().answers, stronger->id);
    std::vector<std::string> others;
    for (const RecordEntry* entry : latest_of(all_.record())) {
      if (is_bottle_label(*entry) && entry->bottle->stock == stronger->id &&
          entry->code != parent.code.letters && !among(others, entry->code))
        others.push_back(entry->code);
    }
    if (!others.empty())
      add_finding("there are bottles of " + stronger->name + " with code " + all_of(others) +
                      ": this label is right only if it was taken from one with code " +
                      parent.code.letters,
                  "mix it anew if it was not, or discard it by local rules");
  }

  // Charts of the recipe as it was are no more for this bottle than for any other.
  void mind_the_charts() {
    const std::string& code = batch_.stock->code.letters;
    std::vector<std::string> old;
    for (const RecordEntry* entry : latest_of(all_.record())) {
      const Document* document = find(all_.loaded().room.documents, entry->document);
      if (entry->bottle || document == nullptr || !tells_doses(*document)) continue;
      if (!among(document->chart.stocks, batch_.stock->stock->id)) continue;
      if (entry->code.find(code) == std::string::npos) old.push_back(entry->document);
    }
    if (!old.empty())
      add_finding("what hangs there is of another recipe or dose: " + all_of(old),
                  "dosewright reprint prints what is out of date; dose nothing before it hangs "
                  "there");
  }

  // What is amiss with this bottle and not with the recipe, and what no longer holds for it.
  void look_at_its_own(const RoomAnswer& own) {
    const Stock& stock = *batch_.stock->stock;
    std::vector<std::string> known;
    for (const Diagnostic* one : findings_about(all_.loaded().answers, stock))
      known.push_back(one->message);
    for (const Diagnostic* one : findings_about(own, *find_stock(own, stock.id)->stock)) {
      if (!among(known, one->message)) problems_.push_back(*one);
    }
    if (times_ > 1 && states_hazards(stock.hazards))
      add_finding(
          "the hazards that the description states are those of the recipe; on this label they are "
          "the least, with what is calculated for this strength",
          "ask the supplier's safety data sheet about a solution of this strength");
  }

  // A bottle that stands there without a label is known all the same.
  ExitStatus record_without_label(const Streams& streams) {
    RecordEntry entry;
    entry.document = batch_.document.id;
    entry.type = "label";
    entry.place = batch_.document.chart.place;
    entry.code = "none";
    entry.bottle = bottle_of(all_.loaded().answers, batch_.document);
    entry.bottle->own = true;
    entry.bottle->weighed = batch_.words;
    entry.bottle->holds = batch_.holds;
    (void)record_entries({entry}, options_, streams);
    return stop(streams);
  }

  bool look_at(const Mixture& mixed) {
    const Strengths found =
        *strengths_from_text(all_.loaded().room, batch_.holds, batch_.stock->mixture);
    const auto times = times_as_strong(strengths_of(batch_.stock->mixture), found);
    if (!times) {
      problems_.push_back(off_the_recipe(
          all_, batch_,
          "the products are not in the recipe's proportions: no dose of this is right for all of "
          "them, and no label is printed",
          found, mixed.makes));
      return false;
    }
    times_ = *times;
    const DoseRule& rule = batch_.stock->stock->dose;
    const double off = times_ > 1 ? times_ - 1 : 1 - times_;
    if (off > as_ratio(rule.tolerance) * (1 + 1e-9)) {
      problems_.push_back(off_the_recipe(all_, batch_,
                                         "what was weighed makes it " + times_words(times_) +
                                             ", further off than the dose's tolerance of " +
                                             percent_text(rule.tolerance) +
                                             ": the charts that hang there are not for it",
                                         found, mixed.makes));
    } else {
      mend_ = mending_words(all_.loaded().answers, *batch_.stock, found, mixed.makes,
                            find(all_.loaded().room.containers, batch_.document.label.container));
    }
    return true;
  }

  ExitStatus stop(const Streams& streams) {
    sort_by_place(problems_);
    show(problems_, streams.err);
    return has_error(problems_) ? ExitStatus::bad_input : ExitStatus::findings;
  }

  void tell(const RoomAnswer& answers, const Streams& streams) const {
    const LabelAnswer label = answer_label(answers, batch_.document.label);
    std::string words = contents_text(*answers.room, label.filled) + "; " +
                        volume_text(label.filled.makes) + ", code " + label.stock->code.letters +
                        ", mixed " + date_text(*batch_.document.label.mixed);
    if (label.use_by) words += ", use by " + date_text(*label.use_by);
    put_wrapped(streams.out,
                label.stock->stock->name + ", batch " + batch_.document.label.batch + ": ", words,
                2);
    if (mend_.empty()) return;
    put_wrapped(streams.out, "  off the recipe: ",
                times_words(times_) +
                    ", so it has a code and a dose of its own, and the charts "
                    "that hang there are not for it. Print its own with reprint; or " +
                    mend_ + ", and label it with --batch " + batch_.document.label.batch +
                    " --anew. It was taken to be " + volume_text(batch_.mixed.makes) +
                    " in all: give --volume if it is not.",
                4);
  }

  const Surveyed& all_;
  Batch batch_;
  const Options& options_;
  Diagnostics problems_;
  double times_ = 1;
  std::string mend_;  ///< of a bottle off the recipe but within the tolerance
};

}  // namespace

ExitStatus label_command(const Options& options, const Streams& streams) {
  // From the choice of its number to its line in the record no other run may choose one.
  const FileLock lock(options.room_file);
  Surveyed all(options);
  if (!all.open(streams)) return all.stop();
  show_damage(options, all.record(), streams);
  auto batch = BatchReader(all, options).read();
  if (const auto* problem = std::get_if<LineProblem>(&batch)) return refused(streams, *problem);
  return LabelMaker(all, std::get<Batch>(std::move(batch)), options).make(streams);
}

}  // namespace dosewright
