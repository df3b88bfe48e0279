#include "recording.hpp"

#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <ostream>

#include "dosewright/answer/bottle.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

// The words of the pages in the order in which they are drawn, and the size of the paper: a change
// of mere arrangement shows nothing new.
std::string shown_by(const Pages& pages) {
  std::string out;
  for (const Page& page : pages.pages) {
    out += std::to_string(page.width) + " x " + std::to_string(page.height) + '\n';
    for (const Mark& mark : page.marks) {
      const auto* run = std::get_if<TextRun>(&mark);
      // Heavy figures and grey ones say something too.
      if (run != nullptr)
        out += run->text + (run->face == Face::bold ? "* " : run->ink == Ink::fill ? "- " : " ");
    }
  }
  return out;
}

std::tm split_time(std::time_t time, bool local) {
  std::tm parts{};
  (void)(local ? localtime_r(&time, &parts) : gmtime_r(&time, &parts));
  return parts;
}

std::time_t seconds_now() {
  const auto given = source_date();
  return given ? static_cast<std::time_t>(*given)
               : std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
}

}  // namespace

std::string record_path(const Options& options) {
  if (!options.record.empty()) return options.record;
  std::string path = options.room_file;
  for (const char* ending : {".yaml", ".yml"}) {
    if (path.ends_with(ending)) path.resize(path.size() - std::string(ending).size());
  }
  return path + ".record";
}

OpenedRecord open_record(const Options& options) {
  OpenedRecord out;
  const std::string path = record_path(options);
  std::ifstream file(path, std::ios::binary);
  std::error_code failed;
  if (!file && std::filesystem::exists(path, failed)) {
    out.trouble = path + " cannot be read";
    return out;
  }
  const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  out.record = read_record(text);
  if (out.record.newer)
    out.trouble = path + " was written by a newer version of this program (line " +
                  std::to_string(*out.record.newer) +
                  "); use that one, or name another file with "
                  "--record";
  return out;
}

RecordEntry entry_for(const Printable& printable, const PageContent& content, const Pages& pages) {
  const Document& document = *printable.document;
  RecordEntry entry;
  entry.document = document.id;
  entry.type = type_word(document.type);
  entry.place = document.chart.place;
  entry.revision = document.chart.revision;
  for (const std::string& id : stocks_of(document)) {
    const StockAnswer* stock = find_stock(*printable.answers, id);
    if (stock != nullptr) entry.code += (entry.code.empty() ? "" : ", ") + stock->code.letters;
  }
  entry.digest = digest_of(shown_by(pages));
  entry.shows = facts_of(content);
  entry.bottle = printable.bottle;
  return entry;
}

std::optional<BottleEntry> bottle_of(const RoomAnswer& answers, const Document& document) {
  const LabelRequest& label = document.label;
  if (document.type != Document::Type::label || label.stock.empty()) return std::nullopt;
  const StockAnswer& stock = *find_stock(answers, label.stock);
  if (stock.stock->dry) return std::nullopt;
  const Container& container = *find(answers.room->containers, label.container);
  BottleEntry out;
  out.stock = label.stock;
  out.batch = label.batch;
  out.container = label.container;
  if (label.mixed) out.mixed = date_text(*label.mixed);
  if (const auto use_by = use_by_of(*stock.stock, label.mixed)) out.use_by = date_text(*use_by);
  out.by = label.by;
  out.volume = volume_text(label.volume.value_or(filling_of(container)));
  out.holds = strengths_as_text(*answers.room, strengths_of(stock.mixture), stock.mixture);
  return out;
}

std::string time_now() {
  const std::tm parts = split_time(seconds_now(), false);
  char buffer[64] = {};
  (void)std::strftime(buffer, sizeof buffer, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return buffer;
}

Date today() {
  const std::tm parts = split_time(seconds_now(), !source_date());
  return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

bool record_entries(std::vector<RecordEntry> entries, const Options& options,
                    const Streams& streams) {
  if (options.no_record || entries.empty()) return true;
  const OpenedRecord opened = open_record(options);
  const auto nothing = [&](const std::string& why) {
    streams.err << "dosewright: printed, but nothing was recorded: " << why << '\n';
    return false;
  };
  if (!opened.trouble.empty()) return nothing(opened.trouble);
  const std::string now = time_now();
  std::string lines;
  for (RecordEntry& entry : entries) {
    entry.when = now;
    lines += record_line(entry);
  }
  if (const auto trouble = append_lines(record_path(options), lines)) return nothing(*trouble);
  const auto& before = opened.record.entries;
  if (before.empty() || before.back().when <= now) return true;
  streams.err << "dosewright: the clock says " << now << ", and the last entry of "
              << record_path(options) << " is of " << before.back().when
              << "\n    set the clock right: ages and dates are worked out from it\n";
  return false;
}

void show_damage(const Options& options, const Record& record, const Streams& streams) {
  for (const std::size_t line : record.damaged)
    streams.err << record_path(options) << ':' << line
                << ": finding: this line was cut off or changed and is lost; the others are not\n";
}

}  // namespace dosewright
