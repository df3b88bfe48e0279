#include "recording.hpp"

#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <ostream>

#include "dosewright/base/text.hpp"
#include "dosewright/wording/content.hpp"

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

std::string amount_text(const Amount& amount) {
  return amount.figure.empty() ? "" : amount.figure + ' ' + amount.unit;
}

void add_rows(const ChartContent& chart, RecordEntry& entry) {
  for (const RowContent& row : chart.rows) {
    const std::string water = amount_text(row.water);
    const std::string name = row.name.empty() ? water : row.name + ' ' + water;
    for (std::size_t i = 0; i < row.cells.size() && i < chart.columns.size(); ++i) {
      const CellContent& cell = row.cells[i];
      std::string figure = amount_text(cell.dose);
      if (figure.empty()) figure = cell.instead.empty() ? cell.how : cell.instead;
      const std::string column =
          chart.columns.size() > 1 ? ", " + chart.columns[i].heading : std::string();
      entry.shows.push_back({name + column, figure});
    }
  }
}

void add_label(const Loaded& loaded, const LabelRequest& request, RecordEntry& entry) {
  const LabelContent label = label_content(loaded.answers, request, loaded.label_style.error);
  entry.shows.push_back({"contents", label.contents});
  if (!label.treats.empty()) entry.shows.push_back({label.treats, label.dose});
  std::string hazards = label.signal;
  for (const std::string& line : label.hazard_lines) hazards += (hazards.empty() ? "" : " ") + line;
  entry.shows.push_back({"hazards", hazards});
}

void add_facts(const Loaded& loaded, const Document& document, RecordEntry& entry) {
  switch (document.type) {
    case Document::Type::label:
      add_label(loaded, document.label, entry);
      return;
    case Document::Type::bucket_chart:
    case Document::Type::tank_chart:
      add_rows(chart_content(loaded.answers, document, loaded.chart_style.error), entry);
      return;
    case Document::Type::measuring_card: {
      const auto card = measuring_card_content(loaded.answers, document, loaded.chart_style.error);
      for (const MeasurePanel& panel : card.panels) {
        const std::string figure = amount_text(panel.cell.dose);
        entry.shows.push_back(
            {(panel.name.empty() ? "" : panel.name + ' ') + amount_text(panel.water),
             figure.empty() ? panel.cell.instead : figure});
      }
      return;
    }
    case Document::Type::dose_scale:
    case Document::Type::mixing_card:
    case Document::Type::hazard_sheet:
    case Document::Type::storage_list:
    case Document::Type::supply_sheet:
      return;
  }
}

std::vector<std::string> stocks_of(const Document& document) {
  if (document.type != Document::Type::label) return document.chart.stocks;
  if (document.label.stock.empty()) return {};
  return {document.label.stock};
}

std::string type_word(Document::Type type) {
  switch (type) {
    case Document::Type::label:
      return "label";
    case Document::Type::bucket_chart:
      return "bucket chart";
    case Document::Type::tank_chart:
      return "tank chart";
    case Document::Type::dose_scale:
      return "dose scale";
    case Document::Type::measuring_card:
      return "measuring card";
    case Document::Type::mixing_card:
      return "mixing card";
    case Document::Type::hazard_sheet:
      return "hazard sheet";
    case Document::Type::storage_list:
      return "storage list";
    case Document::Type::supply_sheet:
      return "supply sheet";
  }
  return "";
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

RecordEntry entry_for(const Loaded& loaded, const Document& document, const Pages& pages) {
  RecordEntry entry;
  entry.document = document.id;
  entry.type = type_word(document.type);
  entry.place = document.chart.place;
  entry.revision = document.chart.revision;
  for (const std::string& id : stocks_of(document)) {
    const StockAnswer* stock = find_stock(loaded.answers, id);
    if (stock != nullptr) entry.code += (entry.code.empty() ? "" : ", ") + stock->code.letters;
  }
  entry.digest = digest_of(shown_by(pages));
  add_facts(loaded, document, entry);
  return entry;
}

std::string time_now() {
  const auto given = source_date();
  const std::time_t now =
      given ? static_cast<std::time_t>(*given)
            : std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  (void)gmtime_r(&now, &parts);
  char buffer[64] = {};
  (void)std::strftime(buffer, sizeof buffer, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return buffer;
}

bool record_printed(const Loaded& loaded, const Printer& printer, const Options& options,
                    const Streams& streams) {
  if (options.no_record) return true;
  const OpenedRecord opened = open_record(options);
  const auto nothing = [&](const std::string& why) {
    streams.err << "dosewright: printed, but nothing was recorded: " << why << '\n';
    return false;
  };
  if (!opened.trouble.empty()) return nothing(opened.trouble);
  const std::string now = time_now();
  std::string lines;
  for (const auto& [document, pages] : printer.made()) {
    RecordEntry entry = entry_for(loaded, *document, pages);
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

}  // namespace dosewright
