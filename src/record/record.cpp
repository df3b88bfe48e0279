#include "dosewright/record/record.hpp"

#include <algorithm>
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

// Fields of a bottle; `bottle=` begins them.
void take(const std::string& key, std::string value, BottleEntry& bottle) {
  if (key == "batch")
    bottle.batch = std::move(value);
  else if (key == "container")
    bottle.container = std::move(value);
  else if (key == "mixed")
    bottle.mixed = std::move(value);
  else if (key == "use by")
    bottle.use_by = std::move(value);
  else if (key == "by")
    bottle.by = std::move(value);
  else if (key == "volume")
    bottle.volume = std::move(value);
  else if (key == "weighed")
    bottle.weighed.push_back(std::move(value));
  else if (key == "holds")
    bottle.holds.push_back(std::move(value));
  else if (key == "own")
    bottle.own = value == "yes";
}

void take(const std::string& key, std::string value, RecordEntry& entry) {
  if (key == "when")
    entry.when = std::move(value);
  else if (key == "document")
    entry.document = std::move(value);
  else if (key == "type")
    entry.type = std::move(value);
  else if (key == "place")
    entry.place = std::move(value);
  else if (key == "revision")
    entry.revision = std::move(value);
  else if (key == "code")
    entry.code = std::move(value);
  else if (key == "digest")
    entry.digest = std::move(value);
  else if (key == "shows")
    entry.shows.push_back({std::move(value), ""});
  else if (key == "figure" && !entry.shows.empty())
    entry.shows.back().figure = std::move(value);
  else if (key == "marked")
    entry.marked = value == "yes";
  else if (key == "gone")
    entry.gone = value == "yes";
  else if (key == "bottle")
    entry.bottle.emplace().stock = std::move(value);
  else if (entry.bottle)
    take(key, std::move(value), *entry.bottle);
}

// As fields of a line, by a function that adds one.
template <class Add>
void add_bottle(const BottleEntry& bottle, const Add& add) {
  add("bottle", bottle.stock);
  add("batch", bottle.batch);
  add("container", bottle.container);
  add("mixed", bottle.mixed);
  add("use by", bottle.use_by);
  add("by", bottle.by);
  add("volume", bottle.volume);
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

std::string key_of(const RecordEntry& entry) {
  if (!entry.bottle) return entry.document;
  const BottleEntry& bottle = *entry.bottle;
  if (entry.type != "label") return entry.document + "\tfor\t" + bottle.stock + '\t' + entry.code;
  if (!bottle.batch.empty()) return "batch\t" + bottle.stock + '\t' + bottle.batch;
  // Bottles without a batch are told apart by what they hold.
  return entry.document + "\tblank" + (bottle.own ? '\t' + entry.code : std::string());
}

std::string record_line(const RecordEntry& entry) {
  std::string out = std::string(kStart) + std::to_string(kRecordVersion);
  const auto add = [&](const char* key, const std::string& value) {
    out += std::string("\t") + key + '=' + escaped(value);
  };
  add("when", entry.when);
  add("document", entry.document);
  add("type", entry.type);
  add("place", entry.place);
  add("revision", entry.revision);
  add("code", entry.code);
  add("digest", entry.digest);
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
