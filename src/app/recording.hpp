// What is printed and what stands where, for the print record; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "commands.hpp"
#include "contents.hpp"
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

/// The entry of a document as it is laid out now, without marks; its time is left empty.
[[nodiscard]] RecordEntry entry_for(const Printable& printable, const PageContent& content,
                                    const Pages& pages);

/// The bottle that a label of the description stands on; nothing for a tub and all else.
[[nodiscard]] std::optional<BottleEntry> bottle_of(const RoomAnswer& answers,
                                                   const Document& document);

/// Adds entries to the record, all at this moment, unless --no-record. False, with a word to the
/// user, when nothing could be recorded or the clock stands before the last entry.
bool record_entries(std::vector<RecordEntry> entries, const Options& options,
                    const Streams& streams);

/// Says which lines of the record are lost.
void show_damage(const Options& options, const Record& record, const Streams& streams);

/// Now, in UTC: "2026-11-26T02:50:00Z"; SOURCE_DATE_EPOCH when it is set.
[[nodiscard]] std::string time_now();

/// The day by the clock on the wall; of SOURCE_DATE_EPOCH in UTC when it is set.
[[nodiscard]] Date today();

}  // namespace dosewright
