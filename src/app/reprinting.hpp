// The record opened beside the room, and what is said of it in the terminal; private to this
// folder.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "survey.hpp"

namespace dosewright {

/// A description with its record.
class Surveyed {
 public:
  explicit Surveyed(const Options& options) : options_(options) {}

  /// Reads both; false when the command must stop.
  bool open(const Streams& streams);
  /// Lays out all that is out there.
  void look();

  [[nodiscard]] ExitStatus stop() const { return stop_; }
  [[nodiscard]] const Loaded& loaded() const { return *outcome_.loaded; }
  [[nodiscard]] const Diagnostics& problems() const { return outcome_.problems; }
  [[nodiscard]] const Record& record() const { return opened_.record; }
  [[nodiscard]] const Survey& survey() const { return *survey_; }

 private:
  const Options& options_;
  LoadOutcome outcome_;
  OpenedRecord opened_;
  std::unique_ptr<Survey> survey_;
  ExitStatus stop_ = ExitStatus::done;
};

/// "dechlorinator 18"; without a batch its code stands in for it.
[[nodiscard]] std::string bottle_name(const RecordEntry& label);
/// What the user calls it by: a bottle as above, else the document; a chart for bottles of another
/// strength with their code behind it.
[[nodiscard]] std::string standing_name(const RecordEntry& entry);

/// "X4 9RF was 4 mL, now 6 mL"; what is longer than a figure is not spelt out.
[[nodiscard]] std::string change_text(const FactChange& change);

/// One line for a document as it was printed, and below it what is out of date.
void show_standing(const Standing& standing, const std::string& now, std::ostream& out);

/// What stood in a damaged line may hang on the wall all the same.
void show_doubt(const Record& record, std::ostream& out);

}  // namespace dosewright
