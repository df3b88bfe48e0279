// One label: its parts in the order of reading, in the largest type that fits.
#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "dosewright/layout/documents.hpp"
#include "dosewright/units/print.hpp"
#include "pen.hpp"
#include "signs.hpp"

namespace dosewright {

namespace {

// What the law asks of a label by the container's size.
struct Floor {
  double x_height;   // of hazard text, mm
  double pictogram;  // side of the square, mm
  double wanted_pictogram;
  double short_side;  // of the label; 0 where the law only wishes it
  double long_side;
};

// CLP Annex I, Table 1.3; x-heights: Regulation (EU) 2024/2865. A side of 16.1 mm is the strict
// 1/15 of 52 x 74 mm.
Floor floor_for(Volume capacity) {
  const double litres = in_litres(capacity);
  if (litres <= 0.5) return {1.2, 10, 16.1, 0, 0};
  if (litres <= 3) return {1.4, 10, 16.1, 0, 0};
  if (litres <= 50) return {1.8, 23, 23, 74, 105};
  if (litres <= 500) return {2.0, 32.2, 32.2, 105, 148};
  return {2.0, 46, 46, 148, 210};
}

// Where the pictograms stand: in a column or a row left of the words, or in a row above them.
enum class Arrangement { column, row, above };

struct Sizes {
  double text;
  double pictogram;
  Arrangement arrangement;
};

// A part of the label: drawn with its top at y, it takes `height`.
struct Part {
  double height = 0;
  std::function<void(Pen&, double)> draw;
};

// One try at a label in given sizes. Parts are made first; when their heights fit, they are drawn
// with what is left over spread between them.
class Attempt {
 public:
  Attempt(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
          double width, double height, const Sizes& sizes)
      : content_(content), style_(style), measurer_(measurer), height_(height), sizes_(sizes) {
    margin_ = in_millimetres(style.margin);
    const double strip = in_millimetres(style.strip.cell_width);
    left_ = margin_ + strip + std::max(2.5, strip * 0.55);
    if (content.code.letters.empty()) left_ = margin_;
    inner_ = width - margin_ - left_;
  }

  bool make() {
    const bool fits = cells() * in_millimetres(style_.strip.cell_height) <= height_ - 2 * margin_ &&
                      inner_ > 15 && head() && dose() && fields() && hazards() && warnings();
    if (!fits) return false;
    double total = 2 * margin_;
    for (const Part& part : parts_) total += part.height;
    spare_ = height_ - total;
    return spare_ >= 0;
  }

  void draw(Pen& pen) const {
    if (!content_.code.letters.empty())
      draw_strip(pen, content_.code.strip, cells(),
                 {margin_, margin_, in_millimetres(style_.strip.cell_width),
                  in_millimetres(style_.strip.cell_height)},
                 false);
    // What is left over goes between the parts, evenly; a little more air never hurts.
    const double gap = spare_ / static_cast<double>(parts_.size() - 1);
    double y = margin_;
    for (const Part& part : parts_) {
      part.draw(pen, y);
      y += part.height + gap;
    }
  }

 private:
  [[nodiscard]] int cells() const {
    return height_ < in_millimetres(style_.strip.short_below) ? style_.strip.short_cells
                                                              : style_.strip.cells;
  }
  [[nodiscard]] Type regular(double factor = 1) const {
    return {sizes_.text * factor, Face::regular};
  }
  [[nodiscard]] Type bold(double factor = 1) const { return {sizes_.text * factor, Face::bold}; }
  [[nodiscard]] double cap(const Type& type) const {
    return measurer_.metrics(type.face).cap_height * type.size;
  }
  [[nodiscard]] double descent(const Type& type) const {
    return measurer_.metrics(type.face).descent * type.size;
  }
  [[nodiscard]] double pitch(const Type& type) const { return type.size * style_.line_pitch; }
  [[nodiscard]] double wide(const std::string& words, const Type& type) const {
    return width_of(measurer_, words, type);
  }
  // Height of lines from the top of the first capital to the foot of the last descender.
  [[nodiscard]] double block(std::size_t lines, const Type& type) const {
    if (lines == 0) return 0;
    return cap(type) + pitch(type) * static_cast<double>(lines - 1) + descent(type);
  }

  static void put_lines(Pen& pen, double x, double top, const std::vector<std::string>& lines,
                        const Type& type, double pitch, double cap) {
    for (std::size_t i = 0; i < lines.size(); ++i) {
      pen.text({x, top + cap + pitch * static_cast<double>(i)}, type, lines[i]);
    }
  }

  void add(double height, std::function<void(Pen&, double)> draw) {
    parts_.push_back({height, std::move(draw)});
  }

  void add_rule(double thickness) {
    const double air = sizes_.text * 0.3;
    add(thickness + 2 * air, [this, thickness, air](Pen& pen, double y) {
      pen.rule(left_, y + air + thickness / 2, inner_, thickness);
    });
  }

  // The largest size for the name, down to the size of the values, on one line or two.
  bool choose_name(double width, Type& type, std::vector<std::string>& lines) const {
    for (double factor = style_.name; factor >= style_.values - 1e-9; factor -= 0.1) {
      type = bold(factor);
      lines = wrapped(measurer_, content_.name, type, width);
      const std::size_t most = factor > style_.name * 0.7 ? 1 : 2;
      if (!lines.empty() && lines.size() <= most) return true;
    }
    return false;
  }

  bool head() {
    const Type caption = regular();
    const Type code = bold(style_.code);
    // A tub as it was bought has no chart to match.
    const bool coded = !content_.code.letters.empty();
    const double code_width =
        coded ? std::max(wide(content_.code.letters, code), wide("match the chart", caption)) : 0;
    const double width = inner_ - code_width - (coded ? sizes_.text * 1.2 : 0);
    Type name;
    std::vector<std::string> lines;
    if (width < 8 || !choose_name(width, name, lines)) return false;
    auto contents = wrapped(measurer_, content_.contents, caption, width);
    // Contents that run on go below the code, over the full width, where that saves a line.
    const auto full = wrapped(measurer_, content_.contents, caption, inner_);
    if (contents.empty() && full.empty()) return false;
    const bool below = contents.empty() || full.size() < contents.size();
    if (below) contents = full;
    const double name_height = cap(name) + pitch(name) * static_cast<double>(lines.size() - 1);
    const double under_name = name_height + descent(name) * 0.9 + sizes_.text * 0.25;
    const double right_height = coded ? cap(caption) + sizes_.text * 0.75 + cap(code) : 0;
    const double contents_top =
        below ? std::max(under_name, right_height + sizes_.text * 0.55) : under_name;
    const double height =
        std::max(contents_top + block(contents.size(), caption), right_height + descent(caption));
    add(height, [=, this](Pen& pen, double y) {
      put_lines(pen, left_, y, lines, name, pitch(name), cap(name));
      put_lines(pen, left_, y + contents_top, contents, caption, pitch(caption), cap(caption));
      if (!coded) return;
      const double right = left_ + inner_;
      pen.text_right({right, y + cap(caption)}, caption, "match the chart");
      pen.text_right({right, y + right_height}, code, content_.code.letters);
    });
    add_rule(in_millimetres(style_.rules.heavy));
    return true;
  }

  bool dose() {
    if (content_.treats.empty()) return true;
    const Type large = bold(style_.dose);
    const Type beside = bold(style_.values);
    const Type note = regular();
    const double dose_width =
        content_.dose.empty() ? 0 : wide(content_.dose, large) + sizes_.text * 1.6;
    const double width = inner_ - dose_width;
    if (width < 10) return false;
    const auto treats = wrapped(measurer_, content_.treats, beside, width);
    const auto notes = content_.note.empty() ? std::vector<std::string>{}
                                             : wrapped(measurer_, content_.note, note, width);
    if (treats.empty() || (notes.empty() && !content_.note.empty())) return false;
    const double words = block(treats.size(), beside) +
                         (notes.empty() ? 0 : sizes_.text * 0.3 + block(notes.size(), note));
    const double figure = content_.dose.empty() ? 0 : cap(large);
    const double height = std::max(words, figure);
    add(height, [=, this](Pen& pen, double y) {
      pen.text({left_, y + (height + figure) / 2}, large, content_.dose);
      const double x = left_ + dose_width;
      const double top = y + (height - words) / 2;
      put_lines(pen, x, top, treats, beside, pitch(beside), cap(beside));
      put_lines(pen, x, top + block(treats.size(), beside) + sizes_.text * 0.3, notes, note,
                pitch(note), cap(note));
    });
    add_rule(in_millimetres(style_.rules.light));
    return true;
  }

  // An empty field is as wide as what will be written into it.
  [[nodiscard]] double field_width(const Field& field, double factor) const {
    const std::string value = field.value.empty() ? "0000-00-00" : field.value;
    const double written = field.value.empty() ? 16 : 0;  // mm for a pen
    return std::max({wide(field.caption, regular()), wide(value, bold(factor)), written});
  }

  // As many fields in a row as fit with air between them.
  [[nodiscard]] std::vector<std::vector<Field>> field_rows(double factor) const {
    std::vector<std::vector<Field>> rows(1);
    double used = 0;
    for (const Field& field : content_.fields) {
      const double width = field_width(field, factor) + sizes_.text;
      if (!rows.back().empty() && used + width > inner_ + sizes_.text) {
        rows.emplace_back();
        used = 0;
      }
      rows.back().push_back(field);
      used += width;
    }
    return rows;
  }

  bool fields() {
    // One row is read faster than two: the values give up their size for it.
    const bool one_row_if_plain = field_rows(style_.values).size() > 1 && field_rows(1).size() == 1;
    const double factor = one_row_if_plain ? 1 : style_.values;
    const Type caption = regular();
    const Type value = bold(factor);
    const double height =
        cap(caption) + descent(caption) + sizes_.text * 0.25 + cap(value) + sizes_.text * 0.15;
    bool first = true;
    for (const std::vector<Field>& row : field_rows(factor)) {
      if (!first) add(sizes_.text * 0.5, [](Pen&, double) {});
      first = false;
      double natural = 0;
      for (const Field& field : row) {
        if (field_width(field, factor) > inner_) return false;
        natural += field_width(field, factor);
      }
      const double gap =
          row.size() > 1 ? (inner_ - natural) / static_cast<double>(row.size() - 1) : 0;
      const bool empty =
          std::any_of(row.begin(), row.end(), [](const Field& f) { return f.value.empty(); });
      // Handwriting wants more height than type.
      const double full = height + (empty ? 3 : 0);
      add(full, [=, this](Pen& pen, double y) {
        double x = left_;
        for (const Field& field : row) {
          pen.text({x, y + cap(caption)}, caption, field.caption);
          pen.text({x, y + full - sizes_.text * 0.15}, value, field.value);
          const double width = field_width(field, factor);
          if (field.value.empty())
            pen.rule(x, y + full - 0.1, width, in_millimetres(style_.rules.light));
          x += width + gap;
        }
      });
    }
    add_rule(in_millimetres(style_.rules.heavy));
    return true;
  }

  struct HazardWords {
    std::vector<std::string> hazards;
    std::vector<std::string> precautions;
    double height = 0;
    bool good = false;
  };

  [[nodiscard]] HazardWords hazard_words(double width, bool with_signal) const {
    HazardWords out;
    if (width < 18) return out;
    const Type strong = bold();
    const Type plain = regular();
    for (const std::string& line : content_.hazard_lines) {
      const auto lines = wrapped(measurer_, line, strong, width);
      if (lines.empty()) return out;
      out.hazards.insert(out.hazards.end(), lines.begin(), lines.end());
    }
    out.precautions = wrapped(measurer_, content_.precautions, plain, width);
    if (out.precautions.empty() && !content_.precautions.empty()) return out;
    if (with_signal && !content_.signal.empty()) {
      if (wide(content_.signal, bold(style_.signal)) > width) return out;
      out.height += signal_height();
    }
    out.height += block(out.hazards.size(), strong);
    if (!out.precautions.empty())
      out.height += sizes_.text * 0.3 + block(out.precautions.size(), plain);
    out.good = true;
    return out;
  }

  // Between the heavy rule and the largest word below it.
  [[nodiscard]] double signal_air() const { return sizes_.text * 0.3; }
  [[nodiscard]] double signal_height() const {
    const Type signal = bold(style_.signal);
    return signal_air() + cap(signal) + descent(signal) * 0.8 + sizes_.text * 0.25;
  }

  void put_hazard_words(Pen& pen, double x, double y, const HazardWords& words,
                        bool with_signal) const {
    if (with_signal && !content_.signal.empty()) {
      const Type signal = bold(style_.signal);
      pen.text({x, y + signal_air() + cap(signal)}, signal, content_.signal);
      y += signal_height();
    }
    put_lines(pen, x, y, words.hazards, bold(), pitch(bold()), cap(bold()));
    y += block(words.hazards.size(), bold()) + sizes_.text * 0.3;
    put_lines(pen, x, y, words.precautions, regular(), pitch(regular()), cap(regular()));
  }

  // The clear space around a pictogram: a tenth of its side.
  [[nodiscard]] double clear() const { return sizes_.pictogram * 0.1; }

  void put_pictograms(Pen& pen, double x, double y, bool in_column) const {
    const double width = pictogram_width(sizes_.pictogram);
    for (const std::string& code : content_.pictograms) {
      draw_pictogram(pen, code, {x + width / 2, y + width / 2}, sizes_.pictogram);
      (in_column ? y : x) += width + clear();
    }
  }

  bool hazards() {
    const double width = pictogram_width(sizes_.pictogram);
    const auto count = static_cast<double>(content_.pictograms.size());
    if (count == 0) return beside_pictograms(0, 0, true);
    const double run = count * width + (count - 1) * clear();
    if (sizes_.arrangement == Arrangement::column) return beside_pictograms(width, run, true);
    if (sizes_.arrangement == Arrangement::row) return beside_pictograms(run, width, false);
    return above_words(run, width);
  }

  bool beside_pictograms(double signs_width, double signs_height, bool in_column) {
    const double indent = signs_width > 0 ? signs_width + clear() + sizes_.text * 0.9 : 0;
    const HazardWords words = hazard_words(inner_ - indent, true);
    if (!words.good) return false;
    const double height = std::max(words.height, signs_height > 0 ? signs_height + clear() : 0);
    add(height, [=, this](Pen& pen, double y) {
      put_pictograms(pen, left_, y + (signs_height > 0 ? clear() / 2 : 0), in_column);
      const double lower = std::max(0.0, (height - words.height) / 2);
      put_hazard_words(pen, left_ + indent, y + std::min(lower, sizes_.text * 1.5), words, true);
    });
    return true;
  }

  bool above_words(double signs_width, double signs_height) {
    const Type signal = bold(style_.signal);
    const double signal_x = signs_width + clear() + sizes_.text;
    if (signal_x + wide(content_.signal, signal) > inner_) return false;
    const HazardWords words = hazard_words(inner_, false);
    if (!words.good) return false;
    const double top = signs_height + clear();
    add(top + sizes_.text * 0.3 + words.height, [=, this](Pen& pen, double y) {
      put_pictograms(pen, left_, y + clear() / 2, false);
      pen.text({left_ + signal_x, y + (top + cap(signal)) / 2}, signal, content_.signal);
      put_hazard_words(pen, left_, y + top + sizes_.text * 0.3, words, false);
    });
    return true;
  }

  bool warnings() {
    const Type strong = bold(1.0);
    std::vector<std::string> warnings;
    for (const std::string& line : content_.warning_lines) {
      const auto lines = wrapped(measurer_, line, strong, inner_);
      if (lines.empty()) return false;
      warnings.insert(warnings.end(), lines.begin(), lines.end());
    }
    const auto safety = wrapped(measurer_, content_.safety, regular(), inner_);
    if (safety.empty()) return false;
    const double gap = sizes_.text * 0.5;
    const double above =
        block(warnings.size(), strong) + (warnings.empty() ? 0 : sizes_.text * 0.3);
    add(gap + above + block(safety.size(), regular()), [=, this](Pen& pen, double y) {
      put_lines(pen, left_, y + gap, warnings, strong, pitch(strong), cap(strong));
      put_lines(pen, left_, y + gap + above, safety, regular(), pitch(regular()), cap(regular()));
    });
    return true;
  }

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  double height_;
  Sizes sizes_;
  double margin_ = 0;
  double left_ = 0;
  double inner_ = 0;
  double spare_ = 0;
  std::vector<Part> parts_;
};

// Finds the largest sizes at which a label of some width and height holds everything.
class Fitter {
 public:
  Fitter(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer)
      : content_(content), style_(style), measurer_(measurer), floor_(floor_for(content.capacity)) {
    const double by_law = floor_.x_height / measurer.metrics(Face::regular).x_height;
    smallest_ = std::max(in_millimetres(style.text.smallest), by_law);
    largest_ = std::max(in_millimetres(style.text.largest), smallest_);
  }

  std::optional<Sizes> best(double width, double height) const {
    if (below_lawful_size(width, height)) return std::nullopt;
    // The wished-for pictograms first; then what still is lawful, in small steps.
    for (double side = floor_.wanted_pictogram; side > floor_.pictogram - 0.01; side -= 1) {
      if (auto sizes = best_text(width, height, side)) return enlarged(width, height, *sizes);
      if (side > floor_.pictogram && side - 1 < floor_.pictogram) side = floor_.pictogram + 1;
    }
    return std::nullopt;
  }

  [[nodiscard]] bool below_lawful_size(double width, double height) const {
    return std::min(width, height) < floor_.short_side - 0.05 ||
           std::max(width, height) < floor_.long_side - 0.05;
  }

  // The smallest label of about these proportions on which everything fits, in whole millimetres.
  std::optional<std::pair<double, double>> smallest_label(double width, double height) const {
    for (double factor = 1; factor < 6; factor += 0.02) {
      const double w = std::ceil(width * factor);
      const double h = std::ceil(height * factor);
      if (below_lawful_size(w, h)) continue;
      for (const Arrangement arrangement :
           {Arrangement::column, Arrangement::row, Arrangement::above}) {
        if (fits(w, h, {smallest_, floor_.pictogram, arrangement})) return std::make_pair(w, h);
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] const Floor& law() const { return floor_; }
  [[nodiscard]] double smallest_text() const { return smallest_; }

 private:
  bool fits(double width, double height, const Sizes& sizes) const {
    return Attempt(content_, style_, measurer_, width, height, sizes).make();
  }

  std::optional<Sizes> best_text(double width, double height, double side) const {
    constexpr int kSteps = 48;
    for (int i = kSteps; i >= 0; --i) {
      const double text =
          smallest_ * std::pow(largest_ / smallest_, i / static_cast<double>(kSteps));
      for (const Arrangement arrangement :
           {Arrangement::column, Arrangement::row, Arrangement::above}) {
        const Sizes sizes{text, side, arrangement};
        if (fits(width, height, sizes)) return sizes;
      }
    }
    return std::nullopt;
  }

  // With the text settled, the pictograms grow into what room is left.
  Sizes enlarged(double width, double height, Sizes sizes) const {
    for (Sizes next = sizes; next.pictogram <= in_millimetres(style_.pictogram.largest);
         next.pictogram += 0.5) {
      if (fits(width, height, next)) sizes = next;
    }
    return sizes;
  }

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  Floor floor_;
  double smallest_ = 0;
  double largest_ = 0;
};

std::string size_text(double width, double height) {
  return figure(width, 1) + " x " + figure(height, 1) + " mm";
}

LayoutProblem too_small(const Fitter& fitter, const LabelContent& content, double width,
                        double height) {
  LayoutProblem problem;
  problem.message = "a label of " + size_text(width, height) + " is too small for " + content.name;
  if (fitter.below_lawful_size(width, height)) {
    problem.message += ": a container of " + volume_text(content.capacity) + " wants at least " +
                       size_text(fitter.law().long_side, fitter.law().short_side) +
                       " (CLP Annex I, Table 1.3)";
  } else {
    problem.message +=
        " and its hazard text at an x-height of " + figure(fitter.law().x_height, 1) + " mm";
  }
  const auto enough = fitter.smallest_label(width, height);
  problem.hint = enough ? "the smallest label of this shape that would do is " +
                              size_text(enough->first, enough->second)
                        : "shorten the texts or choose another shape";
  return problem;
}

// The page positions of a sheet, label by label.
Pages on_sheets(const std::vector<Mark>& marks, const LabelSheet& sheet, const std::string& title) {
  Pages out;
  out.title = title;
  const int per_page = sheet.rows * sheet.columns;
  const int last = sheet.start_at - 1 + sheet.copies;
  for (int position = sheet.start_at - 1; position < last; ++position) {
    const int slot = position % per_page;
    if (out.pages.empty() || slot == 0) {
      out.pages.push_back(
          {in_millimetres(sheet.paper.width), in_millimetres(sheet.paper.height), title, {}});
    }
    const int row = slot / sheet.columns;
    const double x = in_millimetres(sheet.left + sheet.pitch_x * (slot % sheet.columns));
    const double y = in_millimetres(sheet.top + sheet.pitch_y * row);
    for (const Mark& mark : marks) out.pages.back().marks.push_back(moved(mark, x, y));
  }
  return out;
}

}  // namespace

namespace {

// CLP Annex I, 1.5.2.1: what a package of at most 125 mL may leave away when there is no room.
constexpr Volume kSmallPackage = millilitres(125);

LabelContent shortened(LabelContent content) {
  content.hazard_lines = content.short_hazard_lines;
  content.precautions = content.short_precautions;
  content.warning_lines.push_back(content.short_words);
  return content;
}

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_label(const LabelContent& content,
                                                 const LabelSheet& sheet, const LabelStyle& style,
                                                 const TextMeasurer& measurer) {
  const double width = in_millimetres(sheet.label_width);
  const double height = in_millimetres(sheet.label_height);
  const Fitter fitter(content, style, measurer);
  const auto sizes = fitter.best(width, height);
  if (!sizes && content.may_be_shortened && content.capacity <= kSmallPackage) {
    LabelContent less = shortened(content);
    less.may_be_shortened = false;
    return lay_out_label(less, sheet, style, measurer);
  }
  if (!sizes) return too_small(fitter, content, width, height);
  Page label{width, height, "", {}};
  Pen pen(label, measurer);
  Attempt attempt(content, style, measurer, width, height, *sizes);
  if (!attempt.make()) throw LayoutFault("a label that fitted does not fit");
  attempt.draw(pen);
  return on_sheets(label.marks, sheet, content.name);
}

}  // namespace dosewright
