// What hangs and stands out there by the print record, beside what the description makes of it now;
// private to this folder.
#pragma once

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/bottle.hpp"
#include "printer.hpp"
#include "recording.hpp"

namespace dosewright {

/// The room as it is for one bottle of another strength than the recipe's.
struct BottleRoom {
  Room room;
  RoomAnswer answers;
};

/// A document of the record and what it would be now.
struct Standing {
  const RecordEntry* before = nullptr;
  std::optional<Printable> now;  ///< nothing when it is to be taken down, or left as it is
  Phrases down;                  ///< why it is to be taken down; empty: it is left
  std::string stuck;             ///< why what it would be now finds no room on its paper
  std::vector<FactChange> changes;
  bool out_of_date = false;
};

/// A chart for bottles of one code that is not the recipe's, in place of one that hangs there.
struct BottleChart {
  std::string stock;
  std::string code;
  Printable chart;
};

/// A bottle by its label.
struct BottleStanding {
  const RecordEntry* before = nullptr;
  const StockAnswer* stock = nullptr;  ///< by the recipe now; null when it is no longer described
  std::optional<Strengths> held;
  std::optional<double> times;    ///< as strong as the recipe now; nothing when not comparable
  std::optional<Printable> own;   ///< a label for it as it is, where it is of another strength
  std::string code;               ///< that it should show as it is; empty when not comparable
  std::string use_by;             ///< the earlier of the label's and that by the description
  std::optional<long> days_left;  ///< to its use-by
  [[nodiscard]] bool is_overdue() const { return days_left && *days_left < 0; }
  [[nodiscard]] bool is_other_strength() const { return times && !is_same_strength(*times); }
  /// Nothing that is printed is for it: it is mended, discarded, or its stock described again.
  [[nodiscard]] bool is_lost() const { return !times; }
};

class Survey {
 public:
  /// `record` must outlive it.
  Survey(const Loaded& loaded, const Options& options, const Record& record);

  /// Lays out all that stands there as it would be now.
  void look();

  [[nodiscard]] const std::vector<Standing>& printed() const { return printed_; }
  [[nodiscard]] const std::vector<BottleStanding>& bottles() const { return bottles_; }
  /// Charts for bottles of another strength, each once for a code.
  [[nodiscard]] std::vector<const Printable*> charts_for(const BottleStanding& bottle) const;
  /// What of those hangs nowhere yet, and labels of theirs that do not hold any more.
  [[nodiscard]] const std::vector<Printable>& missing() const { return missing_; }
  [[nodiscard]] const std::vector<const Document*>& never_printed() const { return never_printed_; }
  /// Labels that still hold, of bottles without a batch whose document now is another one: to be
  /// remembered when that is printed.
  [[nodiscard]] const std::vector<RecordEntry>& carried() const { return carried_; }
  /// Documents never printed, where others are no longer asked for: then they were renamed, and the
  /// wall would stay bare.
  [[nodiscard]] const std::vector<Printable>& renamed() const { return renamed_; }
  [[nodiscard]] bool is_all_current() const;
  /// Charts for bottles of another strength that find no room on their paper, however it is turned.
  [[nodiscard]] const std::vector<Phrases>& unprintable() const { return unprintable_; }
  /// Whether lines of the record are lost: then nobody knows what else is out there.
  [[nodiscard]] bool is_doubtful() const { return doubtful_; }

 private:
  void add_bottle(const RecordEntry& before);
  void give_own_room(BottleStanding& bottle);
  void add_charts(const BottleStanding& bottle, const RoomAnswer& answers);
  [[nodiscard]] bool finds_room(const Printable& chart, Document& document) const;
  [[nodiscard]] Standing standing_of(const RecordEntry& before);
  void stand_label(const BottleStanding& bottle, Standing& out);
  void stand_bottle_chart(Standing& out);
  void compare(Standing& standing);
  void compare_own_labels();
  void look_for_missing();
  void look_for_renamed();
  [[nodiscard]] bool hangs(const Document& document) const;
  void look_for_never_printed();
  [[nodiscard]] const BottleStanding* bottle_by(const RecordEntry& label) const;
  [[nodiscard]] Printable label_for(const Document& document, const BottleEntry& bottle,
                                    const RoomAnswer& answers, bool own);

  const Loaded& loaded_;
  const Options& options_;
  std::vector<const RecordEntry*> latest_;
  std::vector<Standing> printed_;
  std::vector<BottleStanding> bottles_;
  std::vector<BottleChart> bottle_charts_;
  std::vector<Printable> missing_;
  std::vector<RecordEntry> carried_;
  std::vector<Printable> renamed_;
  std::vector<Phrases> unprintable_;
  bool doubtful_ = false;
  std::vector<const Document*> never_printed_;
  std::deque<Document> documents_;  ///< that are no entries of the description
  std::deque<BottleRoom> rooms_;
};

/// How much was in a bottle when it was labelled; nothing when that cannot be read.
[[nodiscard]] std::optional<Volume> volume_of(const BottleEntry& bottle);

/// Whole days from one time of the record to another, by their dates; nothing when one cannot be
/// read.
[[nodiscard]] std::optional<long> days_between(const std::string& from, const std::string& to);

/// Bottles that the description itself dates, and that are past their use-by today.
void find_past_their_date(const RoomAnswer& answers, Diagnostics& problems);

/// What `print` would make the record forget: bottles that were labelled by hand at another
/// strength, which stay known by their code. Each is a finding, and so are those of the same
/// strength whose label says something else now.
[[nodiscard]] std::vector<RecordEntry> old_blank_labels(const Options& options,
                                                        const std::vector<Made>& made,
                                                        Diagnostics& problems);

/// Takes labels out whose batch was recorded at another strength: on that bottle they would lie.
void leave_out_old_bottles(const Loaded& loaded, const Options& options,
                           std::vector<Printable>& documents, Diagnostics& problems);

}  // namespace dosewright
