// What is to be printed: charts, scales and cards; labels are in labels.cpp.
#include <algorithm>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

void read_chart_frame(const MapReader& map, const std::string& paper, ChartRequest& chart) {
  chart.paper = paper_named(map.word("paper", paper_names(), paper));
  if (map.word("orientation", {"portrait", "landscape"}, "portrait") == "landscape") {
    std::swap(chart.paper.width, chart.paper.height);
  }
  chart.place = map.text("place");
  chart.revision = map.text("revision");
  chart.revised = map.date("revised");
  chart.replaces = map.text("replaces");
  if (!chart.replaces.empty() && chart.replaces == chart.revision) {
    map.error(map.find("replaces")->place, map.path_of("replaces"),
              "a revision that replaces itself", "write the number of the one before");
  }
}

// Which papers a chart may choose from, each upright and lying unless the description says how.
void read_distance(const MapReader& map, const std::string& usual, ChartRequest& chart) {
  const auto distance = map.value<Length>("read from", parse_length);
  if (!distance) return;
  if (in_millimetres(*distance) < 300 || in_millimetres(*distance) > 10'000) {
    map.error(map.find("read from")->place, map.path_of("read from"),
              "nobody reads a chart from there", "write a distance of 0.3 to 10 m, such as 1.5 m");
    return;
  }
  chart.read_from = distance;
  std::vector<std::string> names = {"A5", "A4", "A3"};
  if (usual == "Letter" || usual == "Tabloid") names = {"Letter", "Tabloid"};
  if (map.find("paper") != nullptr) names = {chart.paper.name};
  for (const std::string& name : names) {
    const PaperSize upright = paper_named(name);
    const PaperSize lying{upright.name, upright.height, upright.width};
    if (map.find("orientation") == nullptr) {
      chart.papers.insert(chart.papers.end(), {upright, lying});
    } else {
      chart.papers.push_back(chart.paper.width < chart.paper.height ? upright : lying);
    }
  }
}

// A row of a bucket chart is a vessel's id or a volume written out.
std::optional<BucketRow> read_bucket(const MapReader& map, const Node& item, const Room& room) {
  const std::string path = map.path_of("buckets");
  if (!map.is_scalar(item, path)) return std::nullopt;
  const std::string word = trimmed(item.text);
  if (const Vessel* vessel = find(room.vessels, word)) {
    return BucketRow{vessel->water, vessel->as_given, vessel->name, vessel->right_to};
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
  if (*volume > kMostWater) {
    map.error(item.place, path, "an absurd volume: more than " + volume_text(kMostWater),
              "check its unit");
    return std::nullopt;
  }
  return BucketRow{*volume, word, "", Vessel().right_to};
}

void read_chart_stocks(const MapReader& map, const Room& room, ChartRequest& chart) {
  if (map.need("stocks", "[one, another]") != nullptr)
    chart.stocks = refer_each(map, "stocks", "stock", ids_of(room.stocks));
  if (chart.stocks.size() > 5 && !chart.own_pages) {
    map.error(map.find("stocks")->place, map.path_of("stocks"),
              "more than five stocks on one chart",
              "make two charts of it; narrow columns are misread");
  }
}

void read_one_stock(const MapReader& map, const Room& room, ChartRequest& chart) {
  const std::string stock = map.needed_text("stock", "the id of a stock");
  if (stock.empty()) return;
  refer(map, *map.find("stock"), map.path_of("stock"), "stock", stock, ids_of(room.stocks));
  chart.stocks.push_back(stock);
}

void read_buckets(const MapReader& map, const Room& room, ChartRequest& chart) {
  const Node* rows = map.need("buckets", "[5 L, 10 L, 20 L]");
  if (rows == nullptr) return;
  if (rows->kind != Node::Kind::list) {
    map.error(rows->place, map.path_of("buckets"), "expected a list",
              "write buckets: [5 L, 10 L, 20 L]");
    return;
  }
  for (const Node& item : rows->items) {
    auto row = read_bucket(map, item, room);
    if (!row) continue;
    const bool again =
        std::any_of(chart.buckets.begin(), chart.buckets.end(), [&](const BucketRow& other) {
          return other.water == row->water && other.name == row->name;
        });
    if (again) {
      map.error(item.place, map.path_of("buckets"), "a bucket that is there already",
                "take one of them out");
    }
    chart.buckets.push_back(std::move(*row));
  }
  const bool no_stock = chart.stocks.empty() && map.find("stocks") != nullptr;
  if (rows->items.empty() || no_stock) {
    map.error(map.node().place, map.path(), "a chart without rows or columns",
              "name at least one stock and one bucket");
  }
}

ChartRequest read_bucket_chart(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  read_distance(map, paper, chart);
  chart.own_pages = map.truth("own pages", false);
  read_chart_stocks(map, room, chart);
  read_buckets(map, room, chart);
  return chart;
}

ChartRequest read_measuring_card(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  read_one_stock(map, room, chart);
  read_buckets(map, room, chart);
  return chart;
}

ChartRequest read_mixing_card(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  read_chart_frame(map, paper, chart);
  read_one_stock(map, room, chart);
  chart.container = map.text("container");
  if (!chart.container.empty())
    refer(map, *map.find("container"), map.path_of("container"), "container", chart.container,
          ids_of(room.containers));
  const Stock* stock = chart.stocks.empty() ? nullptr : find(room.stocks, chart.stocks.front());
  if (stock == nullptr) return chart;
  if (stock->dry) {
    map.error(map.find("stock")->place, map.path_of("stock"),
              quoted(stock->id) + " is dosed straight from its tub: there is nothing to mix",
              "name a stock with a recipe");
  }
  if (chart.container.empty()) chart.container = stock->container;
  return chart;
}

ChartRequest read_dosing_log(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  if (map.find("stock") != nullptr) read_one_stock(map, room, chart);
  return chart;
}

// "12.90 EUR treats 20000 L": what a ready-made liquid costs.
void read_ready_made(const MapReader& map, SupplyRequest& supply) {
  const Node* node = map.find("ready made");
  if (node == nullptr || !map.is_scalar(*node, map.path_of("ready made"))) return;
  const std::string word = " treats ";
  const std::size_t at = node->text.find(word);
  if (at == std::string::npos) {
    map.error(node->place, map.path_of("ready made"), "no price of a ready-made liquid",
              "write what a bottle costs and how much water it treats: 12.90 EUR treats 20000 L");
    return;
  }
  Node price = *node;
  price.text = trimmed(node->text.substr(0, at));
  Node water = *node;
  water.text = trimmed(node->text.substr(at + word.size()));
  supply.ready_price = map.parsed<Money>(price, map.path_of("ready made"), parse_money);
  supply.ready_treats =
      map.parsed<Volume>(water, map.path_of("ready made"), volume_in(map.checking()));
  if (supply.ready_treats && in_litres(*supply.ready_treats) <= 0)
    map.error(node->place, map.path_of("ready made"), "it treats no water",
              "write how much water a bottle treats, as it says itself");
}

// A time of at least a day.
Duration time_of(const MapReader& map, std::string_view key, Duration fallback) {
  const auto found = map.value<Duration>(key, parse_duration);
  if (!found) return fallback;
  if (in_days(*found) >= 1 && in_days(*found) <= 366) return *found;
  map.error(map.find(key)->place, map.path_of(key), "not a time of a day to a year",
            "write it as 7 days");
  return fallback;
}

void read_supply_sheet(const MapReader& map, const std::string& paper, const Room& room,
                       Document& document) {
  ChartRequest& chart = document.chart;
  SupplyRequest& supply = document.supply;
  read_chart_frame(map, paper, chart);
  read_one_stock(map, room, chart);
  supply.in_stock = map.value<Mass>("in stock", parse_mass);
  supply.every = time_of(map, "every", days(7));
  supply.order_takes = time_of(map, "order takes", days(14));
  supply.water = map.value<Volume>("water", volume_in(map.checking()));
  read_ready_made(map, supply);
  const Stock* stock = chart.stocks.empty() ? nullptr : find(room.stocks, chart.stocks.front());
  if (stock == nullptr || stock->recipe.empty()) return;
  const Ingredient& first = stock->recipe.front();
  const Product* product = find(room.products, first.product);
  if (product == nullptr) return;
  if (!product->pack) {
    map.error(map.find("stock")->place, map.path_of("stock"),
              "how much of " + quoted(product->id) + " is in a pack is not known",
              "add pack: to products." + product->id + ", such as 1 kg");
  }
  if (product->form == Product::Form::liquid && std::holds_alternative<Volume>(first.amount)) {
    map.error(map.find("stock")->place, map.path_of("stock"),
              quoted(product->id) + " is measured by volume, so its grams are not known",
              "write the recipe in grams");
  }
  if (supply.in_stock && in_grams(*supply.in_stock) <= 0) {
    map.error(map.find("in stock")->place, map.path_of("in stock"), "nothing is in stock",
              "write what is left in the tub, such as 600 g");
  }
}

// A water at an end of a scale, and the unit it is written in.
std::optional<Volume> scale_end(const MapReader& map, std::string_view key,
                                std::string_view example, std::string& unit) {
  const auto found = map.needed<Volume>(key, example, volume_in(map.checking()));
  if (!found) return std::nullopt;
  // What stands behind the last digit is the unit, in whatever spelling.
  const std::string text = map.text(key);
  const std::string tail = trimmed(text.substr(text.find_last_of("0123456789") + 1));
  if (const auto one = volume_as_written("1 " + tail, map.checking().measures)) unit = one->unit;
  return found;
}

ScaleRequest read_scale_ends(const MapReader& map) {
  ScaleRequest scale;
  std::string unit_from;
  std::string unit_to;
  const auto from = scale_end(map, "from", "5 L", unit_from);
  const auto to = scale_end(map, "to", "300 L", unit_to);
  scale.logarithmic = map.word("scale", {"logarithmic", "linear"}, "logarithmic") != "linear";
  if (!from || !to) return scale;
  const bool from_nothing = in_millilitres(*from) <= 0;
  if (!from_nothing && unit_from != unit_to) {
    map.error(map.find("to")->place, map.path_of("to"),
              "from: is in " + unit_from + " and to: in " + unit_to,
              "write both in the same unit; the scale is numbered in it");
    return scale;
  }
  const double ratio = *to / *from;
  // A linear scale may start at nothing.
  const bool rises = scale.logarithmic ? ratio >= 1.5 && ratio <= 1'000 : *to > *from * 1.2;
  if (!rises || *to > kMostWater) {
    map.error(map.find("to")->place, map.path_of("to"),
              "a scale that reaches too little or too far",
              scale.logarithmic ? "write a to: of 1.5 to 1,000 times from:, and a from: above 0"
                                : "write a to: of at least 1.2 times from:");
    return scale;
  }
  scale.from = *from;
  scale.to = *to;
  scale.unit = unit_to;
  const auto one = parse_volume("1 " + unit_to, map.checking().measures);
  scale.one_unit = std::get<Volume>(one);
  return scale;
}

void read_dose_scale(const MapReader& map, const std::string& paper, const Room& room,
                     Document& document) {
  ChartRequest& chart = document.chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  read_chart_stocks(map, room, chart);
  if (chart.stocks.empty() && map.find("stocks") != nullptr) {
    map.error(map.find("stocks")->place, map.path_of("stocks"), "a scale without a stock",
              "name at least one");
  }
  document.scale = read_scale_ends(map);
}

// The vessels named by id, those on the racks named, or every tank.
std::vector<std::string> read_vessels(const MapReader& map, const Room& room) {
  std::vector<std::string> out = refer_each(map, "tanks", "vessel", ids_of(room.vessels));
  std::vector<std::string> places;
  for (const Vessel& vessel : room.vessels) {
    const bool known = among(places, vessel.place);
    if (!vessel.place.empty() && !known) places.push_back(vessel.place);
  }
  for (const std::string& rack : refer_each(map, "racks", "place with vessels", places)) {
    for (const Vessel& vessel : room.vessels) {
      const bool named = among(out, vessel.id);
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

// Whether the chart's stock has one dose for a tank, whatever is changed.
bool ignores_changes(const DoseRule& rule) {
  return rule.basis == WaterBasis::whole_vessel && rule.then != AfterChange::new_water;
}

// Ahead of the changes the first dose, for all the water.
void put_first_dose(const DoseRule& rule, ChartRequest& chart) {
  if (rule.basis == WaterBasis::whole_vessel && rule.then == AfterChange::new_water)
    chart.changes.insert(chart.changes.begin(), share(1));
}

ChartRequest read_tank_chart(const MapReader& map, const std::string& paper, const Room& room) {
  ChartRequest chart;
  chart.title = map.text("title");
  read_chart_frame(map, paper, chart);
  read_distance(map, paper, chart);
  chart.own_rows = map.truth("own rows", false);
  read_one_stock(map, room, chart);
  chart.vessels = read_vessels(map, room);
  if (chart.vessels.empty()) {
    map.error(map.node().place, map.path(), "a tank chart without tanks",
              "describe vessels, or name some with tanks:");
  }
  const Stock* dosed =
      find(room.stocks, chart.stocks.empty() ? std::string() : chart.stocks.front());
  const DoseRule rule = dosed != nullptr ? dosed->dose : DoseRule();
  const bool whole = ignores_changes(rule);
  const Node* changes = map.find("changes");
  if (changes == nullptr) {
    chart.changes = whole ? std::vector<Share>{share(1)}
                          : std::vector<Share>{share(0.1), share(0.25), share(0.5)};
    put_first_dose(rule, chart);
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
  put_first_dose(rule, chart);
  return chart;
}

std::vector<std::string> keys_of(const Node& node) {
  std::vector<std::string> out;
  for (const Entry& entry : node.entries) out.push_back(entry.key);
  return out;
}

void refuse_type(const Checking& checking, const Node& node, const std::string& path) {
  std::vector<std::string> any = keys::kTankChart;
  for (const auto* more :
       {&keys::kLabel, &keys::kBucketChart, &keys::kDoseScale, &keys::kMeasuringCard,
        &keys::kMixingCard, &keys::kHazardSheet, &keys::kSupplySheet, &keys::kDosingLog}) {
    any.insert(any.end(), more->begin(), more->end());
  }
  const std::vector<std::string> types = {
      "label",        "bucket chart", "tank chart",   "dose scale", "measuring card", "mixing card",
      "hazard sheet", "storage list", "supply sheet", "dosing log", "printer check"};
  // Which of the other keys are known goes by the type; only a slip of the pen is told.
  Diagnostics found;
  const MapReader all(Checking{found, checking.measures}, node, path, any);
  std::copy_if(found.begin(), found.end(), std::back_inserter(checking.out),
               [](const Diagnostic& one) { return one.hint.starts_with("did you mean"); });
  if (all.is_misspelt("type")) return;
  const MapReader map(checking, node, path, keys_of(node));
  if (map.need("type", either(types)) != nullptr) (void)map.word("type", types, "label");
}

// A bottle stands where its container does, unless its label says otherwise.
std::string label_place(const MapReader& map, const LabelRequest& label, const Room& room) {
  const Container* container = find(room.containers, label.container);
  return map.text("place", container != nullptr ? container->place : "");
}

// Of a label there may be two: everybody who takes the bottle up must be able to read it.
void read_languages(const Checking& checking, const MapReader& map, const Room& room,
                    Document& document) {
  document.languages = {room.language};
  document.language_origin = room.language_origin;
  const Node* node = map.find("language");
  if (node == nullptr) return;
  document.language_origin = map.origin_of("language");
  document.languages = node->kind == Node::Kind::list
                           ? map.texts("language")
                           : std::vector<std::string>{map.text("language")};
  const std::size_t most = map.text("type") == "label" ? 2 : 1;
  if (document.languages.empty() || document.languages.size() > most) {
    checking.error(node->place, map.path_of("language"),
                   most == 2 ? "expected one language or two" : "expected one language",
                   most == 2 ? "write language: de, or language: [de, en]"
                             : "write language: de; a label may have two");
    document.languages = {room.language};
  }
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
  const MapReader first(quiet, node, path, {});
  const std::string type = first.text("type");
  document.design = first.text("design");
  document.design_origin = first.origin_of("design");
  read_languages(checking, first, room, document);
  if (type == "label") {
    document.type = Document::Type::label;
    const MapReader map(checking, node, path, keys::kLabel);
    document.label = read_label(map, room);
    document.chart.place = label_place(map, document.label, room);
  } else if (type == "bucket chart") {
    document.type = Document::Type::bucket_chart;
    const MapReader map(checking, node, path, keys::kBucketChart);
    document.chart = read_bucket_chart(map, paper, room);
  } else if (type == "tank chart") {
    document.type = Document::Type::tank_chart;
    const MapReader map(checking, node, path, keys::kTankChart);
    document.chart = read_tank_chart(map, paper, room);
  } else if (type == "dose scale") {
    document.type = Document::Type::dose_scale;
    const MapReader map(checking, node, path, keys::kDoseScale);
    read_dose_scale(map, paper, room, document);
  } else if (type == "measuring card") {
    document.type = Document::Type::measuring_card;
    const MapReader map(checking, node, path, keys::kMeasuringCard);
    document.chart = read_measuring_card(map, paper, room);
  } else if (type == "hazard sheet") {
    document.type = Document::Type::hazard_sheet;
    const MapReader map(checking, node, path, keys::kHazardSheet);
    read_one_stock(map, room, document.chart);
    read_chart_frame(map, paper, document.chart);
  } else if (type == "mixing card") {
    document.type = Document::Type::mixing_card;
    const MapReader map(checking, node, path, keys::kMixingCard);
    document.chart = read_mixing_card(map, paper, room);
  } else if (type == "supply sheet") {
    document.type = Document::Type::supply_sheet;
    const MapReader map(checking, node, path, keys::kSupplySheet);
    read_supply_sheet(map, paper, room, document);
  } else if (type == "storage list") {
    document.type = Document::Type::storage_list;
    const MapReader map(checking, node, path, keys::kStorageList);
    read_chart_frame(map, paper, document.chart);
  } else if (type == "dosing log") {
    document.type = Document::Type::dosing_log;
    const MapReader map(checking, node, path, keys::kDosingLog);
    document.chart = read_dosing_log(map, paper, room);
    document.log.pages = map.count("pages", 1, 1, 50);
  } else if (type == "printer check") {
    document.type = Document::Type::printer_check;
    const MapReader map(checking, node, path, keys::kPrinterCheck);
    document.chart.title = map.text("title");
    read_chart_frame(map, paper, document.chart);
  } else {
    refuse_type(checking, node, path);
  }
  return document;
}

// What stands on a cap is no label: the bottle needs its own.
void refuse_bare_dots(const Checking& checking, const Room& room) {
  for (const Document& dot : room.documents) {
    const LabelRequest& label = dot.label;
    if (dot.type != Document::Type::label || label.sheet.form != LabelForm::dot) continue;
    const bool has_label =
        std::any_of(room.documents.begin(), room.documents.end(), [&](const Document& other) {
          return other.type == Document::Type::label && other.label.sheet.form != LabelForm::dot &&
                 other.label.stock == label.stock && other.label.product == label.product;
        });
    if (!has_label)
      checking.error(dot.origin.place, dot.origin.path,
                     "a cap has no room for the hazards, so it cannot be the only label",
                     "add a label of another form for the same bottle");
  }
}

}  // namespace

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
  for (const LabelSheet& sheet : room.sheets) file_names.push_back(lowered(as_file_name(sheet.id)));
  for_each_entry(
      checking, tree, "documents",
      [&](const auto& id, const Node& node, const auto& path, const Place& place) {
        room.documents.push_back(read_document(checking, id, node, path, place, paper, room));
        const std::string name = lowered(as_file_name(id));
        if (among(file_names, name)) {
          checking.error(place, path, "two files would be called " + name + ".pdf",
                         "give one of them another id");
        }
        file_names.push_back(name);
      });
  refuse_bare_dots(checking, room);
}

}  // namespace dosewright
