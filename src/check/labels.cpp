// Labels and the sheets they are printed on.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "dosewright/base/text.hpp"
#include "keys.hpp"
#include "label_sizes.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

std::optional<std::vector<Length>> pair_of(const MapReader& map, std::string_view key) {
  return map.value<std::vector<Length>>(
      key, [](std::string_view text) { return parse_lengths(text, 2); });
}

std::string figure_mm(Length length) {
  const long tenths = std::lround(in_millimetres(length) * 10);
  return std::to_string(tenths / 10) +
         (tenths % 10 != 0 ? '.' + std::to_string(std::abs(tenths % 10)) : "");
}

// A label of this size that does not go onto its container as its form says.
void refuse_misfit(const MapReader& map, std::string_view key, const LabelSheet& sheet,
                   const Container* container) {
  const bool round = container != nullptr && container->around.has_value();
  if (sheet.form == LabelForm::wrap && round && sheet.label_width < *container->around) {
    map.error(
        map.find(key)->place, map.path_of(key),
        "a wrap that does not reach round a container of " + figure_mm(*container->around) + " mm",
        "make it " + figure_mm(*container->around + kWrapOverlap) +
            " mm wide, or take form: panel");
  }
  if (sheet.form == LabelForm::flag && sheet.around <= Length()) {
    map.error(map.node().place, map.path(), "how far is it round the tube?",
              "add around: or across: to the container");
  }
}

// The grid of a label sheet, whose sums must fit the paper.
class SheetReader {
 public:
  SheetReader(const MapReader& map, LabelForm form, const Container* container,
              const std::string& paper)
      : map_(map), form_(form), container_(container), usual_paper_(paper) {}

  LabelSheet read() {
    read_size();
    read_corners();
    return sheet_;
  }

 private:
  void read_size() {
    sheet_.origin = {map_.node().place, map_.path()};
    std::vector<std::string> names = paper_names();
    names.emplace_back("roll");
    sheet_.form = form_;
    sheet_.copies = map_.count("copies", 1, 1, 1000);
    if (form_ == LabelForm::flag && container_ != nullptr && container_->around)
      sheet_.around = *container_->around;
    const auto size = container_ != nullptr ? proposed_label(*container_, form_) : std::nullopt;
    if (map_.find("label") == nullptr && size) {
      propose(*size, map_.word("paper", names, usual_paper_));
      return;
    }
    const std::string paper = map_.need("paper", "A4, Letter or roll") == nullptr
                                  ? "A4"
                                  : map_.word("paper", names, "A4");
    sheet_.cut_marks = map_.truth("cut marks", false);
    const char* example = container_ == nullptr
                              ? "105 x 74 mm"
                              : "105 x 74 mm; or give the container its measures, and its label is "
                                "proposed";
    if (map_.need("label", example) == nullptr) return;
    const auto label = pair_of(map_, "label");
    if (!label) return;
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
    refuse_misfit(map_, "label", sheet_, container_);
  }

  void read_roll() {
    sheet_.paper = {"roll", sheet_.label_width, sheet_.label_height};
    sheet_.pitch_x = sheet_.label_width;
    sheet_.pitch_y = sheet_.label_height;
    for (const char* key : {"rows", "columns", "pitch", "margins", "start at", "cut marks"}) {
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

  void read_corners() {
    const auto radius = map_.value<Length>("round corners", parse_length);
    if (!radius) return;
    const Place& place = map_.find("round corners")->place;
    const Length most = std::min(sheet_.label_width, sheet_.label_height) * 0.5;
    if (form_ == LabelForm::dot) {
      map_.error(place, map_.path_of("round corners"), "a dot has no corners",
                 "take this line out");
    } else if (*radius > most && most > Length()) {
      map_.error(place, map_.path_of("round corners"),
                 "a radius larger than half of the label's shorter side",
                 "write how far in the corners begin, at most " + figure_mm(most) + " mm");
    } else {
      sheet_.round_corners = *radius;
    }
  }

  // On plain paper, to be cut out: as large as container and paper allow.
  void propose(const std::pair<Length, Length>& size, const std::string& paper) {
    sheet_.label_width = size.first;
    sheet_.label_height = size.second;
    sheet_.proposed = true;
    if (paper == "roll") {
      read_roll();
      return;
    }
    for (const char* key : {"rows", "columns", "pitch", "margins"}) {
      if (map_.find(key) == nullptr) continue;
      map_.error(map_.find(key)->place, map_.path_of(key), "a grid without the size of its labels",
                 "add label: with their width x height");
    }
    sheet_.paper = paper_named(paper);
    sheet_.start_at = map_.count("start at", 1, 1, 100);
    sheet_.cut_marks = map_.truth("cut marks", true);
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

  const MapReader& map_;
  LabelForm form_;
  const Container* container_;
  std::string usual_paper_;
  LabelSheet sheet_;
};

const char* measures_for(LabelForm form) {
  switch (form) {
    case LabelForm::wrap:
      return "around: (or across:) and straight:";
    case LabelForm::flag:
      return "around: or across:";
    case LabelForm::dot:
      return "cap:";
    default:
      return "around:, across:, flat: or cap:";
  }
}

LabelForm form_of(const MapReader& map) {
  const std::string word = map.word("form", {"panel", "wrap", "flag", "tag", "dot"}, "panel");
  if (word == "wrap") return LabelForm::wrap;
  if (word == "flag") return LabelForm::flag;
  if (word == "tag") return LabelForm::tag;
  return word == "dot" ? LabelForm::dot : LabelForm::panel;
}

Node empty_map() {
  Node node;
  node.kind = Node::Kind::map;
  return node;
}

// A stock, or a product as it was bought.
void read_what_is_in_it(const MapReader& map, const Room& room, LabelRequest& label) {
  label.product = map.text("product");
  if (label.product.empty()) {
    label.stock = map.needed_text("stock", "the id of a stock, or product: with that of a product");
    if (!label.stock.empty())
      refer(map, *map.find("stock"), map.path_of("stock"), "stock", label.stock,
            ids_of(room.stocks));
    return;
  }
  refer(map, *map.find("product"), map.path_of("product"), "product", label.product,
        ids_of(room.products));
  if (map.find("stock") != nullptr) {
    map.error(map.find("stock")->place, map.path_of("stock"),
              "a label for a stock or for a product, not for both", "keep one of the two");
  }
}

// A sheet described once, under sheets:, that other labels go onto as well.
LabelSheet shared_sheet(const MapReader& map, const Node& name, const Room& room, LabelForm form,
                        const Container* container) {
  LabelSheet out;
  const std::string id = trimmed(name.text);
  if (!refer(map, name, map.path_of("sheet"), "sheet", id, ids_of(room.sheets))) return out;
  out = *find(room.sheets, id);
  out.origin = map.origin_of("sheet");
  out.form = form;
  if (form == LabelForm::flag && container != nullptr && container->around)
    out.around = *container->around;
  out.copies = map.count("copies", 1, 1, 1000);
  refuse_misfit(map, "sheet", out, container);
  return out;
}

}  // namespace

void check_sheets(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "sheets",
                 [&](const auto& id, const Node& node, const auto& path, const Place&) {
                   const MapReader map(checking, node, path, keys::kSharedSheet);
                   if (!map.is_map()) return;
                   LabelSheet sheet =
                       SheetReader(map, LabelForm::panel, nullptr, room.paper.name).read();
                   sheet.id = id;
                   room.sheets.push_back(std::move(sheet));
                 });
}

LabelRequest read_label(const MapReader& map, const Room& room) {
  LabelRequest label;
  read_what_is_in_it(map, room, label);
  const Stock* stock = find(room.stocks, label.stock);
  label.container = map.text("container", stock != nullptr ? stock->container : "");
  if (map.find("container") != nullptr && !label.container.empty()) {
    refer(map, *map.find("container"), map.path_of("container"), "container", label.container,
          ids_of(room.containers));
  } else if (label.container.empty() && stock != nullptr) {
    map.error(map.node().place, map.path(), "which bottle does it go on?",
              "add container: here or to stocks." + label.stock);
  } else if (label.container.empty() && !label.product.empty()) {
    map.error(map.node().place, map.path(), "which tub does it go on?", "add container:");
  }
  label.mixed = map.date("mixed");
  label.batch = map.text("batch");
  label.by = map.text("by", room.by);
  label.square_code = map.truth("square code", false);
  const LabelForm form = form_of(map);
  const Container* container = find(room.containers, label.container);
  // What is measured needs no sheet: it comes on plain paper, to be cut out.
  const bool proposed = container != nullptr && proposed_label(*container, form).has_value();
  const Node* given = map.find("sheet");
  if (given != nullptr && given->kind == Node::Kind::scalar) {
    label.sheet = shared_sheet(map, *given, room, form, container);
    return label;
  }
  if (form == LabelForm::dot && label.square_code)
    map.error(map.find("square code")->place, map.path_of("square code"),
              "a cap has no room for a square code", "put it on the bottle's own label");
  if (given == nullptr && !proposed && form != LabelForm::panel && container != nullptr) {
    map.error(map.find("form")->place, map.path_of("form"),
              "the container lacks the measures for this form",
              "add " + std::string(measures_for(form)) + " to containers." + container->id +
                  ", or sheet: with paper: and label: to the document");
    return label;
  }
  static const Node nothing = empty_map();
  const Node* node = given == nullptr && proposed
                         ? &nothing
                         : map.need("sheet", "with paper: and label: below it");
  if (node == nullptr) return label;
  const MapReader sheet(map.checking(), *node, map.path_of("sheet"), keys::kSheet);
  if (sheet.is_map()) label.sheet = SheetReader(sheet, form, container, room.paper.name).read();
  if (const Node* copies = map.find("copies")) {
    if (sheet.find("copies") != nullptr)
      map.error(copies->place, map.path_of("copies"), "the number of copies is given twice",
                "keep the one under sheet:, or this one");
    label.sheet.copies = map.count("copies", 1, 1, 1000);
  }
  if (given == nullptr) label.sheet.origin = {map.node().place, map.path()};
  return label;
}

}  // namespace dosewright
