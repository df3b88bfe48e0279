// The parts of a label, set one below the other in one region of it.
#include "label_column.hpp"

#include <algorithm>
#include <functional>

#include "label_fields.hpp"
#include "signs.hpp"
#include "square_code.hpp"

namespace dosewright {

namespace {

// A part of the label: drawn with its top at y, it takes `height`.
struct Part {
  double height = 0;
  std::function<void(Pen&, double)> draw;
};

// Parts are made first; when their heights fit, they are drawn with what is left over spread
// between them.
class SetColumn : public LabelColumn {
 public:
  SetColumn(const LabelContent& content, const LabelStyle& style, const TextMeasurer& measurer,
            const LabelSizes& sizes, double left, double width)
      : content_(content),
        style_(style),
        measurer_(measurer),
        sizes_(sizes),
        left_(left),
        inner_(width) {}

  bool make(const std::vector<LabelPart>& parts) {
    return inner_ > 15 &&
           std::all_of(parts.begin(), parts.end(), [this](LabelPart part) { return make(part); });
  }

  [[nodiscard]] double height() const override {
    double total = 0;
    for (const Part& part : parts_) total += part.height;
    return total;
  }

  void draw(Pen& pen, double top, double room) const override {
    // What is left over goes between the parts, evenly; a little more air never hurts.
    const double gaps = static_cast<double>(std::max<std::size_t>(parts_.size(), 2) - 1);
    double gap = (room - height()) / gaps;
    // A back with few words holds together at its top.
    if (gap > sizes_.text * 1.6) gap = sizes_.text * 1.2;
    double y = top;
    for (const Part& part : parts_) {
      part.draw(pen, y);
      y += part.height + gap;
    }
  }

 private:
  bool make(LabelPart part) {
    switch (part) {
      case LabelPart::name_and_code:
        return head();
      case LabelPart::dose:
        return dose();
      case LabelPart::fields:
        return fields();
      case LabelPart::hazards:
        return hazards(false);
      case LabelPart::hazards_in_short:
        return hazards(true);
      case LabelPart::warnings:
        return warnings();
      case LabelPart::square_code:
        return square_code();
      case LabelPart::heavy_rule:
        add_rule(in_millimetres(style_.rules.heavy));
        return true;
      case LabelPart::light_rule:
        // What was bought has no dose; two rules must not meet.
        if (!content_.treats.empty()) add_rule(in_millimetres(style_.rules.light));
        return true;
    }
    return true;
  }

  [[nodiscard]] Type regular(double factor = 1) const {
    return {sizes_.text * factor, Face::regular};
  }
  [[nodiscard]] Type type(LabelWord word, double factor = 1) const {
    const bool bold = std::find(style_.bold.begin(), style_.bold.end(), word) != style_.bold.end();
    return {sizes_.text * factor, bold ? Face::bold : Face::regular};
  }
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
    const double air = sizes_.text * (sizes_.tight ? 0.3 : 0.4);
    add(thickness + 2 * air, [this, thickness, air](Pen& pen, double y) {
      pen.rule(left_, y + air + thickness / 2, inner_, thickness);
    });
  }

  // The largest size for the name, down to the size of the values, on one line or two.
  bool choose_name(double width, Type& name, std::vector<std::string>& lines) const {
    for (double factor = style_.name; factor >= style_.values - 1e-9; factor -= 0.1) {
      name = type(LabelWord::name, factor);
      lines = wrapped(measurer_, content_.name, name, width);
      const std::size_t most =
          factor > style_.name * 0.7 ? 1 : static_cast<std::size_t>(style_.name_lines);
      if (!lines.empty() && lines.size() <= most) return true;
    }
    // A name that had to be broken may take a line more, in the smallest size.
    return lines.size() == static_cast<std::size_t>(style_.name_lines) + 1 &&
           lines.front().ends_with('-');
  }

  // The code and the words above it, on two lines where they are wider than the code.
  struct CodeBlock {
    std::vector<std::string> caption;
    double width = 0;
  };
  [[nodiscard]] CodeBlock code_block(const Type& code) const {
    CodeBlock out{{content_.code_caption}, wide(content_.code.letters, code)};
    const double one_line = wide(content_.code_caption, regular());
    if (one_line <= out.width * 1.15) {
      out.width = std::max(out.width, one_line);
      return out;
    }
    for (double width = out.width; width < one_line; width += sizes_.text * 0.5) {
      auto lines = wrapped(measurer_, content_.code_caption, regular(), width);
      if (lines.empty() || lines.size() > 2) continue;
      out.caption = std::move(lines);
      out.width = width;
      return out;
    }
    out.width = one_line;
    return out;
  }

  // A name is read before the code: a long one takes some of the code's size.
  bool head() {
    constexpr double kRank = 1.1;
    double factor = style_.code;
    for (; factor > style_.values; factor -= 0.1) {
      const Type code = type(LabelWord::code, factor);
      const double code_width = content_.code.letters.empty() ? 0 : code_block(code).width;
      Type name;
      std::vector<std::string> lines;
      const double width = inner_ - code_width - (code_width > 0 ? sizes_.text * 1.2 : 0);
      if (width >= 8 && choose_name(width, name, lines) && name.size >= code.size * kRank) break;
    }
    return head(std::max(factor, std::min(style_.code, style_.values)));
  }

  bool head(double code_factor) {
    const Type caption = regular();
    const Type code = type(LabelWord::code, code_factor);
    // A tub as it was bought has no chart to match.
    const bool coded = !content_.code.letters.empty();
    const CodeBlock block_of_code = coded ? code_block(code) : CodeBlock();
    const double code_width = block_of_code.width;
    const double captions =
        pitch(caption) *
        static_cast<double>(std::max<std::size_t>(block_of_code.caption.size(), 1) - 1);
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
    const double right_height =
        coded ? cap(caption) + captions + sizes_.text * 0.75 + cap(code) : 0;
    const double contents_top =
        below ? std::max(under_name, right_height + descent(code) + sizes_.text * 0.35)
              : under_name;
    const double height =
        std::max(contents_top + block(contents.size(), caption), right_height + descent(caption));
    add(height, [=, this](Pen& pen, double y) {
      put_lines(pen, left_, y, lines, name, pitch(name), cap(name));
      put_lines(pen, left_, y + contents_top, contents, caption, pitch(caption), cap(caption));
      if (!coded) return;
      const double right = left_ + inner_;
      double caption_y = y + cap(caption);
      for (const std::string& line : block_of_code.caption) {
        pen.text_right({right, caption_y}, caption, line);
        caption_y += pitch(caption);
      }
      pen.text_right({right, y + right_height}, code, content_.code.letters);
    });
    return true;
  }

  bool dose() {
    if (content_.treats.empty()) return true;
    const Type large = type(LabelWord::dose, style_.dose);
    const Type beside = type(LabelWord::treats, style_.values);
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
    if (figure > 0 && dose_above_words(large, height)) return true;
    add(height, [=, this](Pen& pen, double y) {
      pen.text({left_, y + (height + figure) / 2}, large, content_.dose);
      const double x = left_ + dose_width;
      const double top = y + (height - words) / 2;
      put_lines(pen, x, top, treats, beside, pitch(beside), cap(beside));
      put_lines(pen, x, top + block(treats.size(), beside) + sizes_.text * 0.3, notes, note,
                pitch(note), cap(note));
    });
    return true;
  }

  // Beside a wide figure words may stand in a narrow column; where that is higher than the figure
  // with the words below it, they stand below. Whether they do.
  bool dose_above_words(const Type& large, double beside_height) {
    const Type strong = type(LabelWord::treats, style_.values);
    const Type note = regular();
    const auto treats = wrapped(measurer_, content_.treats, strong, inner_);
    const auto notes = content_.note.empty() ? std::vector<std::string>{}
                                             : wrapped(measurer_, content_.note, note, inner_);
    if (treats.empty() || (notes.empty() && !content_.note.empty())) return false;
    if (wide(content_.dose, large) > inner_) return false;
    const double air =
        sizes_.tight ? 0 : sizes_.text * 0.25;  // below the rule, for a figure of such size
    const double gap = sizes_.text * 0.6;
    const double notes_gap = notes.empty() ? 0 : sizes_.text * 0.3;
    const double height = air + cap(large) + gap + block(treats.size(), strong) + notes_gap +
                          block(notes.size(), note);
    if (height > beside_height - 0.01) return false;
    add(height, [=, this](Pen& pen, double y) {
      pen.text({left_, y + air + cap(large)}, large, content_.dose);
      const double top = y + air + cap(large) + gap;
      put_lines(pen, left_, top, treats, strong, pitch(strong), cap(strong));
      put_lines(pen, left_, top + block(treats.size(), strong) + notes_gap, notes, note,
                pitch(note), cap(note));
    });
    return true;
  }

  bool fields() {
    const LabelFields fields(content_, style_, measurer_, sizes_.text, inner_);
    const double factor = fields.values_factor(sizes_.tight);
    const Type caption = regular();
    const Type value = type(LabelWord::values, factor);
    const double height =
        cap(caption) + descent(caption) + sizes_.text * 0.25 + cap(value) + sizes_.text * 0.15;
    bool first = true;
    bool written = false;
    std::vector<double> grid;  // where the fields of the first row begin
    const auto rows = fields.rows(factor);
    // Below a line to write on the next caption keeps clear of the pen; the line gives that height.
    const double clear_of_pen = rows.size() > 1 ? 1 : 0;
    for (const std::vector<Field>& row : rows) {
      if (!first)
        add(sizes_.text * (sizes_.tight ? 0.5 : 0.7) + (written ? clear_of_pen : 0),
            [](Pen&, double) {});
      first = false;
      double natural = 0;
      for (const Field& field : row) {
        if (fields.width(field, factor) > inner_) return false;
        natural += fields.width(field, factor);
      }
      const double gap =
          row.size() > 1 ? (inner_ - natural) / static_cast<double>(row.size() - 1) : 0;
      std::vector<double> starts;
      double start = left_;
      for (const Field& field : row) {
        starts.push_back(start);
        start += fields.width(field, factor) + gap;
      }
      if (fields.fit_grid(row, grid, left_, factor)) starts = grid;
      if (grid.empty()) grid = starts;
      const bool empty =
          std::any_of(row.begin(), row.end(), [](const Field& f) { return f.value.empty(); });
      written = empty;
      // Handwriting wants more height than type.
      const double full = height + (empty ? 3 - clear_of_pen : 0);
      add(full, [=, this](Pen& pen, double y) {
        for (std::size_t i = 0; i < row.size(); ++i) {
          const Field& field = row[i];
          const double x = starts[i];
          pen.text({x, y + cap(caption)}, caption, field.caption);
          pen.text({x, y + full - sizes_.text * 0.15}, value, field.value);
          const double width = fields.width(field, factor);
          if (field.value.empty())
            pen.rule(x, y + full - 0.1, width, in_millimetres(style_.rules.light));
        }
      });
    }
    // A line to write on is no part of the rule below it, nor is a tail of a letter.
    add(sizes_.text * (written ? 0.4 : sizes_.tight ? 0 : 0.2), [](Pen&, double) {});
    return true;
  }

  struct HazardWords {
    std::vector<std::string> hazards;
    std::vector<std::string> precautions;
    double height = 0;
    bool good = false;
  };

  [[nodiscard]] static std::vector<std::string> run_on(const std::vector<std::string>& lines) {
    std::string all;
    for (const std::string& line : lines) all += (all.empty() ? "" : " ") + line;
    return all.empty() ? std::vector<std::string>{} : std::vector<std::string>{all};
  }

  [[nodiscard]] HazardWords hazard_words(double width, bool with_signal) const {
    static const std::vector<std::string> none;
    const std::vector<std::string> statements = in_short_       ? none
                                                : sizes_.run_on ? run_on(content_.hazard_lines)
                                                                : content_.hazard_lines;
    const std::string& then = in_short_ ? content_.elsewhere : content_.precautions;
    HazardWords out;
    if (width < 18) return out;
    const Type strong = type(LabelWord::hazards);
    const Type plain = regular();
    for (const std::string& line : statements) {
      const auto lines = wrapped(measurer_, line, strong, width);
      if (lines.empty()) return out;
      out.hazards.insert(out.hazards.end(), lines.begin(), lines.end());
    }
    out.precautions = wrapped(measurer_, then, plain, width);
    if (out.precautions.empty() && !then.empty()) return out;
    if (with_signal && !content_.signal.empty()) {
      if (wide(content_.signal, type(LabelWord::signal, style_.signal)) > width) return out;
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
    const Type signal = type(LabelWord::signal, style_.signal);
    return signal_air() + cap(signal) + descent(signal) * 0.8 + sizes_.text * 0.25;
  }

  void put_hazard_words(Pen& pen, double x, double y, const HazardWords& words,
                        bool with_signal) const {
    if (with_signal && !content_.signal.empty()) {
      const Type signal = type(LabelWord::signal, style_.signal);
      pen.text({x, y + signal_air() + cap(signal)}, signal, content_.signal);
      y += signal_height();
    }
    const Type strong = type(LabelWord::hazards);
    put_lines(pen, x, y, words.hazards, strong, pitch(strong), cap(strong));
    y += block(words.hazards.size(), strong) + sizes_.text * 0.3;
    put_lines(pen, x, y, words.precautions, regular(), pitch(regular()), cap(regular()));
  }

  // The clear space around a pictogram: a tenth of its side.
  [[nodiscard]] double clear() const { return sizes_.pictogram * 0.1; }

  // Pictograms in rows of `each`.
  struct Signs {
    std::size_t each = 1;
    double width = 0;
    double height = 0;
  };

  [[nodiscard]] Signs in_rows_of(std::size_t each) const {
    const std::size_t count = content_.pictograms.size();
    if (count == 0) return {};
    const auto run = [&](std::size_t of) {
      return static_cast<double>(of) * (pictogram_width(sizes_.pictogram) + clear()) - clear();
    };
    return {each, run(std::min(each, count)), run((count + each - 1) / each)};
  }

  void put_pictograms(Pen& pen, double x, double y, const Signs& signs) const {
    const double width = pictogram_width(sizes_.pictogram);
    for (std::size_t i = 0; i < content_.pictograms.size(); ++i) {
      const std::size_t row = i / signs.each;
      const double right = static_cast<double>(i - row * signs.each) * (width + clear());
      const double down = static_cast<double>(row) * (width + clear());
      draw_pictogram(pen, content_.pictograms[i], {x + right + width / 2, y + down + width / 2},
                     sizes_.pictogram);
    }
  }

  bool hazards(bool in_short) {
    in_short_ = in_short;
    const std::size_t count = content_.pictograms.size();
    if (count == 0) return beside_pictograms({});
    switch (sizes_.arrangement) {
      case Arrangement::column:
        return beside_pictograms(in_rows_of(1));
      case Arrangement::pairs:
        return beside_pictograms(in_rows_of(2));
      case Arrangement::row:
        return beside_pictograms(in_rows_of(count));
      case Arrangement::above:
        break;
    }
    for (std::size_t each = count; each > 0; --each) {
      if (in_rows_of(each).width <= inner_) return above_words(in_rows_of(each));
    }
    return false;
  }

  bool beside_pictograms(const Signs& signs) {
    const double indent = signs.width > 0 ? signs.width + clear() + sizes_.text * 0.9 : 0;
    const HazardWords words = hazard_words(inner_ - indent, true);
    if (!words.good) return false;
    const double height = std::max(words.height, signs.height > 0 ? signs.height + clear() : 0);
    add(height, [=, this](Pen& pen, double y) {
      put_pictograms(pen, left_, y + (signs.height > 0 ? clear() / 2 : 0), signs);
      const double lower = std::max(0.0, (height - words.height) / 2);
      put_hazard_words(pen, left_ + indent, y + std::min(lower, sizes_.text * 1.5), words, true);
    });
    return true;
  }

  // The signal word stands right of one row where it finds room there, else above the statements.
  bool above_words(const Signs& signs) {
    const Type signal = type(LabelWord::signal, style_.signal);
    const double signal_x = signs.width + clear() + sizes_.text;
    const bool one_row = signs.each >= content_.pictograms.size();
    const bool beside = one_row && signal_x + wide(content_.signal, signal) <= inner_;
    const HazardWords words = hazard_words(inner_, !beside);
    if (!words.good) return false;
    const double top = signs.height + clear();
    add(top + sizes_.text * 0.3 + words.height, [=, this](Pen& pen, double y) {
      put_pictograms(pen, left_, y + clear() / 2, signs);
      if (beside)
        pen.text({left_ + signal_x, y + (top + cap(signal)) / 2}, signal, content_.signal);
      put_hazard_words(pen, left_, y + top + sizes_.text * 0.3, words, !beside);
    });
    return true;
  }

  bool warnings() {
    const bool has_square = !content_.square.empty() && !sizes_.square_apart;
    const double square = has_square ? square_code_side(content_.square) : 0;
    const WarningWords beside = warning_words(inner_ - (square > 0 ? square + sizes_.text : 0));
    const WarningWords whole = warning_words(inner_);
    const double under_height = whole.height + square;
    // Words in a narrow column beside the square may be higher than both below each other.
    if (square > 0 && whole.good &&
        (!beside.good || under_height < std::max(beside.height, square))) {
      add(under_height, [=, this](Pen& pen, double y) {
        put_warning_words(pen, y, whole);
        put_square_with_caption(pen, y + whole.height, square);
      });
      return true;
    }
    if (!beside.good) return false;
    const double height = std::max(beside.height, square);
    add(height, [=, this](Pen& pen, double y) {
      put_warning_words(pen, y, beside);
      if (square > 0)
        draw_square_code(pen, content_.square,
                         {left_ + inner_ - square, y + height - square, square, square});
    });
    return true;
  }

  bool square_code() {
    if (content_.square.empty()) return true;
    const double side = square_code_side(content_.square);
    if (side > inner_ + square_code_quiet()) return false;
    // Without room beside it the caption stands below.
    const auto lines = wrapped(measurer_, content_.square_caption, regular(), inner_);
    const bool below = beside_square(side).empty() && !lines.empty();
    const double height = side - square_code_quiet() + sizes_.text * 0.3;
    add(below ? height + block(lines.size(), regular()) : side, [=, this](Pen& pen, double y) {
      put_square_with_caption(pen, y, side);
      if (below)
        put_lines(pen, left_, y + height, lines, regular(), pitch(regular()), cap(regular()));
    });
    return true;
  }

  // The lines of the caption right of the square; none where they find no room.
  [[nodiscard]] std::vector<std::string> beside_square(double square) const {
    const double width = inner_ - square;
    auto lines = wrapped(measurer_, content_.square_caption, regular(), width);
    if (block(lines.size(), regular()) > square - 2 * square_code_quiet()) lines.clear();
    return lines;
  }

  struct WarningWords {
    std::vector<std::string> warnings;
    std::vector<std::string> safety;
    double gap = 0;  // above them
    double height = 0;
    bool good = false;
  };

  [[nodiscard]] WarningWords warning_words(double width) const {
    WarningWords out;
    if (width < 18) return out;
    const Type strong = type(LabelWord::warnings);
    for (const std::string& line : content_.warning_lines) {
      const auto lines = wrapped(measurer_, line, strong, width);
      if (lines.empty()) return out;
      out.warnings.insert(out.warnings.end(), lines.begin(), lines.end());
    }
    out.safety = wrapped(measurer_, content_.safety, regular(), width);
    // On top of a region its first line stands level with those of its neighbours.
    out.gap = parts_.empty() ? 0 : sizes_.text * 0.5;
    out.height = out.gap + warnings_height(out) + block(out.safety.size(), regular());
    out.good = !out.safety.empty();
    return out;
  }

  [[nodiscard]] double warnings_height(const WarningWords& words) const {
    if (words.warnings.empty()) return 0;
    return block(words.warnings.size(), type(LabelWord::warnings)) + sizes_.text * 0.3;
  }

  void put_warning_words(Pen& pen, double y, const WarningWords& words) const {
    const Type strong = type(LabelWord::warnings);
    put_lines(pen, left_, y + words.gap, words.warnings, strong, pitch(strong), cap(strong));
    put_lines(pen, left_, y + words.gap + warnings_height(words), words.safety, regular(),
              pitch(regular()), cap(regular()));
  }

  // The square's dark part stands under the words; its quiet zone reaches into the margin.
  void put_square_with_caption(Pen& pen, double y, double square) const {
    const double quiet = square_code_quiet();
    draw_square_code(pen, content_.square, {left_ - quiet, y, square, square});
    put_lines(pen, left_ + square, y + quiet, beside_square(square), regular(), pitch(regular()),
              cap(regular()));
  }

  const LabelContent& content_;
  const LabelStyle& style_;
  const TextMeasurer& measurer_;
  LabelSizes sizes_;
  double left_ = 0;
  double inner_ = 0;
  bool in_short_ = false;
  std::vector<Part> parts_;
};

}  // namespace

std::unique_ptr<LabelColumn> set_column(const LabelContent& content, const LabelStyle& style,
                                        const TextMeasurer& measurer, const LabelSizes& sizes,
                                        double left, double width,
                                        const std::vector<LabelPart>& parts) {
  auto column = std::make_unique<SetColumn>(content, style, measurer, sizes, left, width);
  if (!column->make(parts)) return nullptr;
  return column;
}

}  // namespace dosewright
