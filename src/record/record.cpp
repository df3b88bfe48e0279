#include "dosewright/record/record.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <cstdio>
#include <utility>

#include "dosewright/base/hash.hpp"
#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr std::string_view kStart = "dosewright record ";

std::string hexadecimal(std::uint64_t value, int digits) {
  char buffer[24] = {};
  (void)std::snprintf(buffer, sizeof buffer, "%0*llx", digits,
                      static_cast<unsigned long long>(value));
  return buffer;
}

std::string sum_of(std::string_view text) { return hexadecimal(fnv1a_32(text), 8); }

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\t') {
      out += "\\t";
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\\') {
      out += "\\\\";
    } else {
      out += c;
    }
  }
  return out;
}

std::string plain(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\' || i + 1 == text.size()) {
      out += text[i];
      continue;
    }
    const char next = text[++i];
    out += next == 't' ? '\t' : next == 'n' ? '\n' : next;
  }
  return out;
}

// Fields of one text each, in the order in which they are written; read by the same tables.
template <class Owner>
struct TextField {
  std::string_view key;
  std::string Owner::*text;
};

constexpr std::array<TextField<RecordEntry>, 7> kEntryFields = {
    {{"when", &RecordEntry::when},
     {"document", &RecordEntry::document},
     {"type", &RecordEntry::type},
     {"place", &RecordEntry::place},
     {"revision", &RecordEntry::revision},
     {"code", &RecordEntry::code},
     {"digest", &RecordEntry::digest}}};

// `bottle=` begins them.
constexpr std::array<TextField<BottleEntry>, 7> kBottleFields = {
    {{"bottle", &BottleEntry::stock},
     {"batch", &BottleEntry::batch},
     {"container", &BottleEntry::container},
     {"mixed", &BottleEntry::mixed},
     {"use by", &BottleEntry::use_by},
     {"by", &BottleEntry::by},
     {"volume", &BottleEntry::volume}}};

// Whether the key is one of the table's; then its text is taken.
template <class Owner, std::size_t count>
bool take_text(const std::array<TextField<Owner>, count>& fields, const std::string& key,
               std::string& value, Owner& to) {
  for (const TextField<Owner>& field : fields) {
    if (field.key != key) continue;
    to.*field.text = std::move(value);
    return true;
  }
  return false;
}

void take(const std::string& key, std::string value, BottleEntry& bottle) {
  if (take_text(kBottleFields, key, value, bottle)) return;
  if (key == "weighed")
    bottle.weighed.push_back(std::move(value));
  else if (key == "holds")
    bottle.holds.push_back(std::move(value));
  else if (key == "own")
    bottle.own = value == "yes";
}

void take(const std::string& key, std::string value, RecordEntry& entry) {
  if (key == "bottle") entry.bottle.emplace();
  if (take_text(kEntryFields, key, value, entry)) return;
  if (key == "shows")
    entry.shows.push_back({std::move(value), ""});
  else if (key == "figure" && !entry.shows.empty())
    entry.shows.back().figure = std::move(value);
  else if (key == "marked")
    entry.marked = value == "yes";
  else if (key == "gone")
    entry.gone = value == "yes";
  else if (entry.bottle)
    take(key, std::move(value), *entry.bottle);
}

// As fields of a line, by a function that adds one.
template <class Add>
void add_bottle(const BottleEntry& bottle, const Add& add) {
  for (const auto& field : kBottleFields) add(field.key, bottle.*field.text);
  for (const std::string& one : bottle.weighed) add("weighed", one);
  for (const std::string& one : bottle.holds) add("holds", one);
  if (bottle.own) add("own", "yes");
}

// The version of a line; 0 when it does not begin as one of ours.
int version_of(std::string_view line) {
  if (!line.starts_with(kStart)) return 0;
  const std::string_view rest = line.substr(kStart.size());
  int version = 0;
  const auto [end, failed] = std::from_chars(rest.data(), rest.data() + rest.size(), version);
  const bool ends = failed == std::errc() && end != rest.data() + rest.size() && *end == '\t';
  return ends ? version : 0;
}

std::optional<RecordEntry> entry_of(std::string_view line) {
  const std::size_t sum = line.rfind("\tsum=");
  if (sum == std::string_view::npos || line.substr(sum + 5) != sum_of(line.substr(0, sum)))
    return std::nullopt;
  RecordEntry entry;
  for (const std::string& field : split(line.substr(0, sum), '\t')) {
    const std::size_t equals = field.find('=');
    if (equals == std::string::npos) continue;
    take(field.substr(0, equals), plain(std::string_view(field).substr(equals + 1)), entry);
  }
  return entry;
}

}  // namespace

bool is_bottle_label(const RecordEntry& entry) { return entry.bottle && entry.type == "label"; }

std::string key_of(const RecordEntry& entry) {
  if (!entry.bottle) return entry.document;
  const BottleEntry& bottle = *entry.bottle;
  if (!is_bottle_label(entry)) return entry.document + "\tfor\t" + bottle.stock + '\t' + entry.code;
  if (!bottle.batch.empty()) return "batch\t" + bottle.stock + '\t' + bottle.batch;
  // Bottles without a batch are told apart by what they hold.
  return entry.document + "\tblank" + (bottle.own ? '\t' + entry.code : std::string());
}

std::string record_line(const RecordEntry& entry) {
  std::string out = std::string(kStart) + std::to_string(kRecordVersion);
  const auto add = [&](std::string_view key, const std::string& value) {
    out += '\t' + std::string(key) + '=' + escaped(value);
  };
  for (const auto& field : kEntryFields) add(field.key, entry.*field.text);
  for (const ShownFact& fact : entry.shows) {
    add("shows", fact.what);
    add("figure", fact.figure);
  }
  if (entry.marked) add("marked", "yes");
  if (entry.gone) add("gone", "yes");
  if (entry.bottle) add_bottle(*entry.bottle, add);
  return out + "\tsum=" + sum_of(out) + '\n';
}

Record read_record(std::string_view text) {
  Record out;
  const std::vector<std::string> lines = split(text, '\n');
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].empty()) continue;
    if (version_of(lines[i]) > kRecordVersion && !out.newer) out.newer = i + 1;
    const bool known = version_of(lines[i]) >= 1 && version_of(lines[i]) <= kRecordVersion;
    auto entry = known ? entry_of(lines[i]) : std::nullopt;
    if (entry) {
      out.entries.push_back(std::move(*entry));
    } else if (version_of(lines[i]) <= kRecordVersion) {
      out.damaged.push_back(i + 1);
    }
  }
  return out;
}

std::vector<const RecordEntry*> latest_of(const Record& record) {
  std::vector<const RecordEntry*> out;
  for (const RecordEntry& entry : record.entries) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const RecordEntry* one) {
      return key_of(*one) == key_of(entry);
    });
    if (same == out.end()) {
      out.push_back(&entry);
    } else {
      *same = &entry;
    }
  }
  std::erase_if(out, [](const RecordEntry* one) { return one->gone; });
  return out;
}

std::vector<FactChange> changes_between(const RecordEntry& before, const RecordEntry& now) {
  std::vector<FactChange> out;
  const auto figure_in = [](const RecordEntry& entry, const std::string& what) -> std::string {
    for (const ShownFact& fact : entry.shows) {
      if (fact.what == what) return fact.figure;
    }
    return "";
  };
  if (before.code != now.code) out.push_back({"code", before.code, now.code});
  for (const ShownFact& fact : now.shows) {
    const std::string was = figure_in(before, fact.what);
    if (was != fact.figure) out.push_back({fact.what, was, fact.figure});
  }
  for (const ShownFact& fact : before.shows) {
    if (figure_in(now, fact.what).empty() && !fact.figure.empty())
      out.push_back({fact.what, fact.figure, ""});
  }
  return out;
}

std::string digest_of(std::string_view text) { return hexadecimal(fnv1a_64(text), 16); }

}  // namespace dosewright
