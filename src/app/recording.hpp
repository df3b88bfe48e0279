// What is printed, for the print record; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "commands.hpp"
#include "dosewright/record/record.hpp"
#include "printer.hpp"

namespace dosewright {

/// The record's file: --record, or the description's name with .record behind it.
[[nodiscard]] std::string record_path(const Options& options);

/// The record as it stands; empty when there is no file yet. A sentence for the user when it cannot
/// be read or is of a newer version.
struct OpenedRecord {
  Record record;
  std::string trouble;
};
[[nodiscard]] OpenedRecord open_record(const Options& options);

/// The entry of a document as it is laid out now; its time is left empty.
[[nodiscard]] RecordEntry entry_for(const Loaded& loaded, const Document& document,
                                    const Pages& pages);

/// Adds all that was printed to the record, unless --no-record. False, with a word to the user,
/// when nothing could be recorded or the clock stands before the last entry.
bool record_printed(const Loaded& loaded, const Printer& printer, const Options& options,
                    const Streams& streams);

/// Now, in UTC: "2026-11-26T02:50:00Z"; SOURCE_DATE_EPOCH when it is set.
[[nodiscard]] std::string time_now();

}  // namespace dosewright
