// What was printed when, with which code and figures, and which bottle holds what: lines of a plain
// text file; not where the file lies, nor what is out of date.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dosewright {

/// The version of the lines that this program writes, and the newest that it reads. Version 2 knows
/// bottles and what is gone; lines of version 1 are read as they are.
inline constexpr int kRecordVersion = 2;

/// Something that a document shows: "5 L" and "0.35 mL".
struct ShownFact {
  std::string what;
  std::string figure;
};

/// The bottle that a label stands on; of a chart for bottles of another strength than the recipe's
/// `stock` and `own` alone. All but `stock` may be empty.
struct BottleEntry {
  std::string stock;  ///< id
  std::string batch;
  std::string container;  ///< id
  std::string mixed;      ///< as in ISO 8601, as the next one
  std::string use_by;
  std::string by;
  std::string volume;                ///< in words: "1.2 L"
  std::vector<std::string> weighed;  ///< in words: "82 g of sodium chloride"
  std::vector<std::string> holds;    ///< "7647-14-5=82", for each product
  bool own = false;                  ///< not as strong as the recipe was then
};

/// One document as it was printed.
struct RecordEntry {
  std::string when;  ///< UTC, as in ISO 8601: "2026-11-26T02:50:00Z"
  std::string document;
  std::string type;
  std::string place;  ///< may be empty, as the next two
  std::string revision;
  std::string code;    ///< strength codes, of several stocks joined by ", "
  std::string digest;  ///< of everything that it shows
  std::vector<ShownFact> shows;
  std::optional<BottleEntry> bottle;
  bool marked = false;  ///< its changes are marked on it
  bool gone = false;    ///< taken down, emptied or thrown away; then nothing else counts
};

/// What a record file holds. Lines are counted from 1.
struct Record {
  std::vector<RecordEntry> entries;
  std::vector<std::size_t> damaged;  ///< lines that were cut off or changed: they alone are lost
  std::optional<std::size_t> newer;  ///< the first line of a later version; then nothing is certain
};

/// One line, with its end. Fields are joined by tabs: "dosewright record 2", then key=value, and at
/// last sum=, a 32-bit FNV-1a of all before it. Tabs, line ends and backslashes in values are
/// written as \t, \n and \\.
[[nodiscard]] std::string record_line(const RecordEntry& entry);

/// Reads all lines; empty ones are passed over.
[[nodiscard]] Record read_record(std::string_view text);

/// Whether it is the label on a bottle; a tub's has no bottle, a chart's is not on it.
[[nodiscard]] bool is_bottle_label(const RecordEntry& entry);

/// What an entry stands for, whatever it says: a later one of the same key takes its place. A
/// bottle's is its stock with its batch, or without one the document with what it holds, a chart's
/// for bottles of another strength than the recipe's its document with their code.
[[nodiscard]] std::string key_of(const RecordEntry& entry);

/// The last entry of each key, in the order in which the keys came up first, without those gone.
[[nodiscard]] std::vector<const RecordEntry*> latest_of(const Record& record);

/// A fact that is no longer what was printed. Empty figures: it was not there, or is gone.
struct FactChange {
  std::string what;
  std::string was;
  std::string now;
};

/// What moved between the two, in the order of the new one, then what is gone.
[[nodiscard]] std::vector<FactChange> changes_between(const RecordEntry& before,
                                                      const RecordEntry& now);

/// 64-bit FNV-1a of a text as 16 hexadecimal digits.
[[nodiscard]] std::string digest_of(std::string_view text);

}  // namespace dosewright
