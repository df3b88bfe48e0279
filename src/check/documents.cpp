// What is to be printed: labels, bucket charts and tank charts.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "dosewright/base/text.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

std::vector<std::string> paper_names() {
  std::vector<std::string> names;
  for (const PaperSize& paper : papers()) names.push_back(paper.name);
  return names;
}

PaperSize paper_named(const std::string& name) {
  for (const PaperSize& paper : papers()) {
    if (paper.name == name) return paper;
  }
  return papers().front();
}

std::optional<std::vector<Length>> pair_of(const MapReader& map, std::string_view key) {
  return map.value<std::vector<Length>>(
      key, [](std::string_view text) { return parse_lengths(text, 2); });
}

// The grid of a label sheet, whose sums must fit the paper.
class SheetReader {
 public:
  explicit SheetReader(const MapReader& map) : map_(map) {}

  LabelSheet read() {
    sheet_.origin = {map_.node().place, map_.path()};
    std::vector<std::string> names = paper_names();
    names.emplace_back("roll");
    const std::string paper = map_.need("paper", "A4, Letter or roll") == nullptr
                                  ? "A4"
                                  : map_.word("paper", names, "A4");
    sheet_.copies = map_.count("copies", 1, 1, 1000);
    if (map_.need("label", "105 x 74 mm") == nullptr) return sheet_;
    const auto label = pair_of(map_, "label");
    if (!label) return sheet_;
    sheet_.label_width = (*label)[0];
    sheet_.label_height = (*label)[1];
    if (in_millimetres(sheet_.label_width) > 1000 || in_millimetres(sheet_.label_height) > 1000) {
      map_.error(map_.find("label")->place, map_.path_of("label"), "larger than any label",
                 "write width x height, at most 1000 x 1000 mm");
    }
    if (in_millimetres(sheet_.label_width) < 20 || in_millimetres(sheet_.label_height) < 15) {
      map_.error(map_.find("label")->place, map_.path_of("label"), "too small for any label",
                 "write width x height, at least 20 x 15 mm");
    }
    if (paper == "roll") {
      read_roll();
    } else {
      sheet_.paper = paper_named(paper);
      read_grid();
    }
    return sheet_;
  }

 private:
  void read_roll() {
    sheet_.paper = {"roll", sheet_.label_width, sheet_.label_height};
    sheet_.pitch_x = sheet_.label_width;
    sheet_.pitch_y = sheet_.label_height;
    for (const char* key : {"rows", "columns", "pitch", "margins", "start at"}) {
      if (map_.find(key) == nullptr) continue;
      map_.error(map_.find(key)->place, map_.path_of(key), "a roll has one label a page",
                 "take this line out");
    }
  }

  void read_grid() {
    sheet_.rows = map_.count("rows", 1, 1, 100);
    sheet_.columns = map_.count("columns", 1, 1, 50);
    const auto pitch = pair_of(map_, "pitch");
    sheet_.pitch_x = pitch ? (*pitch)[0] : sheet_.label_width;
    sheet_.pitch_y = pitch ? (*pitch)[1] : sheet_.label_height;
    // Without margins given, the grid stands in the middle of the sheet.
    sheet_.left =
        (sheet_.paper.width - grid(sheet_.columns, sheet_.pitch_x, sheet_.label_width)) * 0.5;
    sheet_.top =
        (sheet_.paper.height - grid(sheet_.rows, sheet_.pitch_y, sheet_.label_height)) * 0.5;
    if (const auto margins = pair_of(map_, "margins")) {
      sheet_.left = (*margins)[0];
      sheet_.top = (*margins)[1];
    }
    sheet_.start_at = map_.count("start at", 1, 1, sheet_.rows * sheet_.columns);
    check_sums();
  }

  static Length grid(int count, Length pitch, Length size) { return pitch * (count - 1) + size; }

  void check_sums() {
    const Length slack = millimetres(0.05);
    if (sheet_.pitch_x + slack < sheet_.label_width ||
        sheet_.pitch_y + slack < sheet_.label_height) {
      const Node* node = map_.find("pitch");
      map_.error(node != nullptr ? node->place : map_.node().place, map_.path_of("pitch"),
                 "the labels overlap: their pitch is smaller than the label",
                 "the pitch is measured from one label's edge to the same edge of the next");
      return;
    }
    const Length right = sheet_.left + grid(sheet_.columns, sheet_.pitch_x, sheet_.label_width);
    const Length bottom = sheet_.top + grid(sheet_.rows, sheet_.pitch_y, sheet_.label_height);
    const bool inside = in_millimetres(sheet_.left) > -0.05 && in_millimetres(sheet_.top) > -0.05 &&
                        right < sheet_.paper.width + slack && bottom < sheet_.paper.height + slack;
    if (inside) return;
    map_.error(map_.node().place, map_.path(), "the labels reach beyond the paper",
               "margin + labels + gaps come to " + figure_mm(right) + " x " + figure_mm(bottom) +
                   " mm on paper of " + figure_mm(sheet_.paper.width) + " x " +
                   figure_mm(sheet_.paper.height) + " mm");
  }

  static std::string figure_mm(Length length) {
    const long tenths = std::lround(in_millimetres(length) * 10);
    return std::to_string(tenths / 10) +
           (tenths % 10 != 0 ? '.' + std::to_string(std::abs(tenths % 10)) : "");
  }

  const MapReader& map_;
  LabelSheet sheet_;
};

LabelRequest read_label(const MapReader& map, const Room& room) {
  LabelRequest label;
  label.stock = map.needed_text("stock", "the id of a stock");
  if (!label.stock.empty()) {
    refer(map, *map.find("stock"), map.path_of("stock"), "stock", label.stock, ids_of(room.stocks));
  }
  const Stock* stock = find(room.stocks, label.stock);
  label.container = map.text("container", stock != nullptr ? stock->container : "");
  if (map.find("container") != nullptr && !label.container.empty()) {
    refer(map, *map.find("container"), map.path_of("container"), "container", label.container,
          ids_of(room.containers));
  } else if (label.container.empty() && stock != nullptr) {
    map.error(map.node().place, map.path(), "which bottle does it go on?",
              "add container: here or to stocks." + label.stock);
  }
  label.mixed = map.date("mixed");
  label.batch = map.text("batch");
  label.by = map.text("by", room.by);
  if (const Node* node = map.need("sheet", "with paper: and label: below it")) {
    const MapReader sheet(map.checking(), *node, map.path_of("sheet"), keys::kSheet);
    if (sheet.is_map()) label.sheet = SheetReader(sheet).read();
  }
  return label;
}

void read_chart_frame(const MapReader& map, const std::string& paper, ChartRequest& chart) {
  chart.paper = paper_named(map.word("paper", paper_names(), paper));
  if (map.word("orientation", {"portrait", "landscape"}, "portrait") == "landscape") {
    std::swap(chart.paper.width, chart.paper.height);
  }
  chart.place = map.text("place");
  chart.revision = map.text("revision");
  chart.revised = map.date("revised");
  chart.replaces = map.text("replaces");
}

void refuse_repeats(const MapReader& map, std::string_view key,
                    const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (std::find(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(i), words[i]) ==
        words.begin() + static_cast<std::ptrdiff_t>(i))
      continue;
    map.error(map.find(key)->place, map.path_of(key), quoted(words[i]) + " is named twice",
              "take one of them out");
  }
}

// A row of a bucket chart is a vessel's id or a volume written out.
std::optional<BucketRow> read_bucket(const MapReader& map, const Node& item, const Room& room) {
  const std::string path = map.path_of("buckets");
  if (!map.is_scalar(item, path)) return std::nullopt;
  const std::string word = trimmed(item.text);
  if (const Vessel* vessel = find(room.vessels, word)) {
    return BucketRow{vessel->water, vessel->as_given, vessel->name};
  }
  const bool amount = word.front() >= '0' && word.front() <= '9';
  if (!amount) {
    refer(map, item, path, "vessel", word, ids_of(room.vessels));
    return std::nullopt;
  }
  const MeasureSystem system = map.checking().measures;
  const auto volume = map.parsed<Volume>(
      item, path, [system](std::string_view text) { return parse_volume(text, system); });
  if (!volume) return std::nullopt;
  if (in_millilitres(*volume) <= 0) {
    map.error(item.place, path, "a bucket without water", "write its volume, such as 10 L");
    return std::nullopt;
  }
  return BucketRow{*volume, word, ""};
}

ChartRequest read_bucket_chart(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title", "Buckets");
  read_chart_frame(map, paper, chart);
  if (map.need("stocks", "[one, another]") != nullptr) chart.stocks = map.texts("stocks");
  for (const std::string& id : chart.stocks) {
    refer(map, *map.find("stocks"), map.path_of("stocks"), "stock", id, ids_of(room.stocks));
  }
  refuse_repeats(map, "stocks", chart.stocks);
  if (chart.stocks.size() > 5) {
    map.error(map.find("stocks")->place, map.path_of("stocks"),
              "more than five stocks on one chart",
              "make two charts of it; narrow columns are misread");
  }
  const Node* rows = map.need("buckets", "[5 L, 10 L, 20 L]");
  if (rows == nullptr) return chart;
  if (rows->kind != Node::Kind::list) {
    map.error(rows->place, map.path_of("buckets"), "expected a list",
              "write buckets: [5 L, 10 L, 20 L]");
    return chart;
  }
  for (const Node& item : rows->items) {
    auto row = read_bucket(map, item, room);
    if (!row) continue;
    chart.buckets.push_back(std::move(*row));
  }
  if (rows->items.empty() || (chart.stocks.empty() && map.find("stocks") != nullptr)) {
    map.error(map.node().place, map.path(), "a chart without rows or columns",
              "name at least one stock and one bucket");
  }
  return chart;
}

// The vessels named by id, those on the racks named, or every tank.
std::vector<std::string> read_vessels(const MapReader& map, const Room& room) {
  std::vector<std::string> out = map.texts("tanks");
  for (const std::string& id : out) {
    refer(map, *map.find("tanks"), map.path_of("tanks"), "vessel", id, ids_of(room.vessels));
  }
  refuse_repeats(map, "tanks", out);
  const std::vector<std::string> racks = map.texts("racks");
  refuse_repeats(map, "racks", racks);
  std::vector<std::string> places;
  for (const Vessel& vessel : room.vessels) places.push_back(vessel.place);
  for (const std::string& rack : racks) {
    refer(map, *map.find("racks"), map.path_of("racks"), "place with vessels", rack, places);
    for (const Vessel& vessel : room.vessels) {
      const bool named = std::find(out.begin(), out.end(), vessel.id) != out.end();
      if (vessel.place == rack && vessel.kind == Vessel::Kind::tank && !named)
        out.push_back(vessel.id);
    }
  }
  if (map.find("tanks") == nullptr && map.find("racks") == nullptr) {
    for (const Vessel& vessel : room.vessels) {
      if (vessel.kind == Vessel::Kind::tank) out.push_back(vessel.id);
    }
  }
  return out;
}

ChartRequest read_tank_chart(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  const std::string stock = map.needed_text("stock", "the id of a stock");
  if (!stock.empty()) {
    refer(map, *map.find("stock"), map.path_of("stock"), "stock", stock, ids_of(room.stocks));
    chart.stocks.push_back(stock);
  }
  chart.vessels = read_vessels(map, room);
  if (chart.vessels.empty()) {
    map.error(map.node().place, map.path(), "a tank chart without tanks",
              "describe vessels, or name some with tanks:");
  }
  const Stock* dosed = find(room.stocks, stock);
  const bool whole = dosed != nullptr && dosed->dose.basis == WaterBasis::whole_vessel;
  const Node* changes = map.find("changes");
  if (changes == nullptr) {
    chart.changes = whole ? std::vector<Share>{share(1)}
                          : std::vector<Share>{share(0.1), share(0.25), share(0.5)};
    return chart;
  }
  if (changes->kind != Node::Kind::list) (void)map.texts("changes");
  for (const Node& item : changes->items) {
    const auto part = map.parsed<Share>(item, map.path_of("changes"), parse_share);
    if (!part) continue;
    const bool again = std::any_of(chart.changes.begin(), chart.changes.end(),
                                   [&](Share s) { return s == *part; });
    if (again || as_ratio(*part) <= 0) {
      map.error(item.place, map.path_of("changes"),
                again ? "a change that is there already" : "a change of nothing", "take it out");
    }
    chart.changes.push_back(*part);
  }
  if (whole) {
    map.error(changes->place, map.path_of("changes"),
              "this stock is dosed on the whole vessel; the water change does not matter",
              "take the line out");
  } else if (chart.changes.empty() || chart.changes.size() > 6) {
    map.error(changes->place, map.path_of("changes"), "expected one to six water changes",
              "write changes: [10 %, 25 %, 50 %]");
  }
  return chart;
}

Document read_document(const Checking& checking, const std::string& id, const Node& node,
                       const std::string& path, const Place& place, const std::string& paper,
                       const Room& room) {
  Document document;
  document.id = id;
  document.origin = {place, path};
  Diagnostics unused;
  // The type decides which keys are known, so it is looked at first.
  const Checking quiet{unused, checking.measures};
  const std::string type = MapReader(quiet, node, path, {}).text("type");
  if (type == "label") {
    document.type = Document::Type::label;
    const MapReader map(checking, node, path, keys::kLabel);
    document.label = read_label(map, room);
  } else if (type == "bucket chart") {
    document.type = Document::Type::bucket_chart;
    const MapReader map(checking, node, path, keys::kBucketChart);
    document.chart = read_bucket_chart(map, paper, room);
  } else if (type == "tank chart") {
    document.type = Document::Type::tank_chart;
    const MapReader map(checking, node, path, keys::kTankChart);
    document.chart = read_tank_chart(map, paper, room);
  } else {
    std::vector<std::string> any = keys::kTankChart;
    for (const auto* more : {&keys::kLabel, &keys::kBucketChart}) {
      any.insert(any.end(), more->begin(), more->end());
    }
    const MapReader map(checking, node, path, any);
    if (map.need("type", "label, bucket chart or tank chart") != nullptr) {
      (void)map.word("type", {"label", "bucket chart", "tank chart"}, "label");
    }
  }
  return document;
}

}  // namespace

const std::vector<PaperSize>& papers() {
  // ISO 216 and, for Letter and Tabloid, ANSI/ASME Y14.1.
  static const std::vector<PaperSize> known = {
      {"A4", millimetres(210), millimetres(297)},
      {"A5", millimetres(148), millimetres(210)},
      {"A3", millimetres(297), millimetres(420)},
      {"Letter", millimetres(215.9), millimetres(279.4)},
      {"Tabloid", millimetres(279.4), millimetres(431.8)},
  };
  return known;
}

void check_documents(const Checking& checking, const Node& tree, const std::string& paper,
                     Room& room) {
  std::vector<std::string> file_names;
  for_each_entry(
      checking, tree, "documents",
      [&](const auto& id, const Node& node, const auto& path, const Place& place) {
        room.documents.push_back(read_document(checking, id, node, path, place, paper, room));
        const std::string name = lowered(as_file_name(id));
        if (std::find(file_names.begin(), file_names.end(), name) != file_names.end()) {
          checking.error(place, path, "two documents would be written to " + name + ".pdf",
                         "give one of them another id");
        }
        file_names.push_back(name);
      });
}

}  // namespace dosewright
