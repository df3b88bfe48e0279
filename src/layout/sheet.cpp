// Pages of words and tables for reading at a desk: headings, paragraphs, rows of wrapped cells,
// over as many pages as they take.
#include <algorithm>
#include <functional>
#include <map>
#include <optional>

#include "chart_frame.hpp"
#include "dosewright/layout/documents.hpp"
#include "pen.hpp"

namespace dosewright {

namespace {

// A piece that stays on one page.
struct Piece {
  double height = 0;
  std::function<void(Pen&, double)> draw;
  bool with_next = false;     // a heading stays with what follows
  std::size_t table_row = 0;  // from 1 on; a table that goes on repeats its headings
  const SheetTable* table = nullptr;
  double whole = 0;  // height of the block that begins here and stays together
};

class SheetLayout : private ChartFrame {
 public:
  SheetLayout(const SheetContent& content, const PaperSize& paper, const ChartStyle& style,
              const TextMeasurer& measurer)
      : ChartFrame(content.page, paper, style, measurer, ColumnHeads::none),
        blocks_(content.blocks) {}

  std::variant<Pages, LayoutProblem> lay_out() {
    if (!frame_fits()) return no_room("its title, subtitle or foot");
    if (const auto problem = fill(1)) return *problem;
    const std::size_t least = on_pages().size();
    if (least > 1) {
      // A page for the last few lines is not worth a little size.
      for (double scale = 1; scale > kSmallest; scale -= 0.02) {
        if (!fill(scale) && on_pages().size() < least) return paginated();
      }
    }
    // The words grow as long as that takes no further page: nobody reads from an empty quarter.
    for (double scale = kLargest; scale > 1; scale -= 0.05) {
      if (!fill(scale) && on_pages().size() == least) return paginated();
    }
    (void)fill(1);
    return paginated();
  }

 private:
  static constexpr double kLargest = 1.4;
  static constexpr double kSmallest = 0.85;

  // The pieces at this size of the words.
  std::optional<LayoutProblem> fill(double scale) {
    scale_ = scale;
    pieces_.clear();
    widths_.clear();
    for (const SheetBlock& block : blocks_) widths_[&block.table] = fitted_widths(block.table);
    for (const SheetBlock& block : blocks_) {
      if (!add_block(block)) return no_room("its words");
    }
    for (const Piece& piece : pieces_) {
      const double headed = piece.table != nullptr ? headings_height(*piece.table) : 0;
      if (piece.height + headed > room()) return no_room("one of its rows");
    }
    return std::nullopt;
  }

  [[nodiscard]] Type text(Face face = Face::regular) const { return grown(ChartFrame::text(face)); }
  [[nodiscard]] Type small() const { return grown(ChartFrame::small()); }
  [[nodiscard]] Type grown(Type type) const {
    type.size *= scale_;
    return type;
  }
  [[nodiscard]] double leading(const Type& t) const { return t.size * 1.25; }
  [[nodiscard]] double air() const { return text().size * 0.5; }
  [[nodiscard]] double room() const { return height_ - foot_ - head_ - air(); }
  [[nodiscard]] Type heading_type() const {
    Type out = text(Face::bold);
    out.size *= 1.4;
    return out;
  }
  [[nodiscard]] static bool has_headings(const SheetTable& table) {
    return std::any_of(table.headings.begin(), table.headings.end(),
                       [](const std::string& heading) { return !heading.empty(); });
  }
  [[nodiscard]] double headings_height(const SheetTable& table) const {
    return has_headings(table) ? leading(small()) + air() : 0;
  }

  LayoutProblem no_room(const std::string& what) const {
    return {"the page is too small for " + what, "choose a larger paper"};
  }

  void add(double height, std::function<void(Pen&, double)> draw, bool with_next = false) {
    pieces_.push_back({height, std::move(draw), with_next, 0, nullptr, 0});
  }

  bool add_block(const SheetBlock& block) {
    const std::size_t first = pieces_.size();
    if (!add_parts(block)) return false;
    if (!block.together || first == pieces_.size()) return true;
    for (std::size_t i = first; i < pieces_.size(); ++i)
      pieces_[first].whole +=
          pieces_[i].height + (pieces_[i].table_row == 1 ? headings_height(*pieces_[i].table) : 0);
    return true;
  }

  bool add_parts(const SheetBlock& block) {
    if (!block.heading.empty()) {
      const Type type = heading_type();
      add(
          type.size * 1.3 + 2 * air(),
          [this, type, &block](Pen& pen, double y) {
            pen.text({left_, y + 2 * air() + cap(type)}, type, block.heading);
          },
          true);
    }
    // Nor words without a heading to the rule of the head.
    if (pieces_.empty() && !block.paragraphs.empty())
      add(
          air() * 1.5, [](Pen&, double) {}, true);
    for (const std::string& paragraph : block.paragraphs) {
      if (!add_paragraph(paragraph)) return false;
    }
    // Headings of a table must not cling to the words above.
    const bool follows = block.heading.empty() || !block.paragraphs.empty();
    if (follows && has_headings(block.table) && !block.table.rows.empty() && !pieces_.empty())
      add(
          air() * 1.5, [](Pen&, double) {}, true);
    for (std::size_t row = 0; row < block.table.rows.size(); ++row) {
      if (!add_row(block.table, row)) return false;
    }
    if (block.picture) add_picture(*block.picture);
    return true;
  }

  // Bars from left to right, what is left at each step; a line where it is time to order.
  void add_picture(const UsePicture& picture) {
    const double height = text().size * 12;
    const double line = leading(small());
    add(height + 2 * line + air(), [this, &picture, height, line](Pen& pen, double y) {
      const double side = std::max(wide(picture.top, small()), wide("0 g", small())) + air();
      const double order = wide(picture.order, small()) + air();
      const double left = left_ + side;
      const double width = right_ - order - left;
      const double step = width / static_cast<double>(picture.left.size());
      const double base = y + air() + height;
      for (std::size_t i = 0; i < picture.left.size(); ++i) {
        const double tall = height * picture.left[i];
        const double x = left + step * static_cast<double>(i);
        if (tall > 0.05) pen.rectangle({x, base - tall, step * 0.72, tall}, Ink::black);
      }
      pen.rule(left, base, width, in_millimetres(style_.rules.light));
      const double at = base - height * picture.reorder;
      // The line is set off from bars that pass it, and takes nothing from those that end at it.
      for (std::size_t i = 0; i < picture.left.size(); ++i) {
        if (height * (picture.left[i] - picture.reorder) < 1) continue;
        pen.rectangle({left + step * static_cast<double>(i), at - 0.35, step * 0.72, 0.7},
                      Ink::white);
      }
      pen.rule(left, at, width, in_millimetres(style_.rules.light) * 2);
      pen.text({right_ - order + air(), at + cap(small()) / 2}, small(), picture.order);
      pen.text_right({left - air() / 2, base - height + cap(small())}, small(), picture.top);
      pen.text_right({left - air() / 2, base}, small(), "0 g");
      pen.text({left, base + line}, small(), picture.start);
      pen.text_right({left + width, base + line}, small(), picture.end);
    });
  }

  bool add_paragraph(const std::string& words) {
    const Type type = text();
    // Below a table there is a rule to keep clear of.
    const double above = !pieces_.empty() && pieces_.back().table != nullptr ? 2 * air() : 0;
    const auto lines = wrapped(measurer_, words, type, right_ - left_);
    if (lines.empty()) return false;
    add(above + leading(type) * static_cast<double>(lines.size()) + air() * 0.4,
        [this, type, lines, above](Pen& pen, double y) {
          y += above;
          for (const std::string& line : lines) {
            pen.text({left_, y + cap(type)}, type, line);
            y += leading(type);
          }
        });
    return true;
  }

  [[nodiscard]] double column_start(const SheetTable& table, std::size_t column) const {
    double out = left_;
    for (std::size_t i = 0; i < column; ++i) out += widths_.at(&table)[i] * (right_ - left_);
    return out;
  }
  [[nodiscard]] double column_width(const std::vector<double>& widths, std::size_t column) const {
    const bool last = column + 1 == widths.size();
    return widths[column] * (right_ - left_) - (last ? 0 : text().size * 0.8);
  }
  [[nodiscard]] double column_width(const SheetTable& table, std::size_t column) const {
    return column_width(widths_.at(&table), column);
  }

  // Whether every word of a column finds room.
  [[nodiscard]] bool column_fits(const SheetTable& table, std::size_t column,
                                 const std::vector<double>& widths) const {
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      if (column >= table.rows[row].size()) continue;
      const std::string& words = table.rows[row][column];
      const Type type = table.large ? large_type(column) : row_type(table, row);
      const double width = column_width(widths, column);
      if (!words.empty() && (width <= 0 || wrapped(measurer_, words, type, width).empty()))
        return false;
    }
    return true;
  }

  // A column that is too narrow for one of its words takes a little from the widest that has it.
  [[nodiscard]] std::vector<double> fitted_widths(const SheetTable& table) const {
    constexpr double kStep = 0.01;
    constexpr int kMostSteps = 40;
    std::vector<double> widths = table.widths;
    std::size_t column = 0;
    for (int step = 0; step < kMostSteps && column < widths.size();) {
      if (column_fits(table, column, widths)) {
        ++column;
        continue;
      }
      ++step;
      widths[column] += kStep;
      std::size_t giver = widths.size();
      for (std::size_t other = 0; other < widths.size(); ++other) {
        std::vector<double> less = widths;
        less[other] -= kStep;
        const bool gives = other != column && column_fits(table, other, less);
        if (gives && (giver == widths.size() || widths[other] > widths[giver])) giver = other;
      }
      if (giver == widths.size()) return table.widths;
      widths[giver] -= kStep;
    }
    return column < widths.size() ? table.widths : widths;
  }

  // The digits before the decimal sign of a cell that is a figure; empty when it is none.
  [[nodiscard]] static std::string whole_digits(const std::string& cell) {
    return cell.substr(0, cell.find_first_not_of("0123456789"));
  }
  [[nodiscard]] Type row_type(const SheetTable& table, std::size_t row) const {
    return {small().size, table.strong[row] ? Face::bold : Face::regular};
  }

  // In a column of nothing but figures these stand with their decimal signs under each other.
  [[nodiscard]] double figure_shift(const SheetTable& table, std::size_t row,
                                    std::size_t column) const {
    double widest = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const std::string whole = whole_digits(table.rows[i][column]);
      if (whole.empty()) return 0;
      widest = std::max(widest, wide(whole, row_type(table, i)));
    }
    const std::string& cell = table.rows[row][column];
    const double shift = widest - wide(whole_digits(cell), row_type(table, row));
    const bool has_room = shift + wide(cell, row_type(table, row)) <= column_width(table, column);
    return has_room ? shift : 0;
  }

  bool add_row(const SheetTable& table, std::size_t row) {
    if (table.large) return add_large_row(table, row);
    const Type type = row_type(table, row);
    std::vector<std::vector<std::string>> cells;
    std::size_t most = 1;
    for (std::size_t column = 0; column < table.rows[row].size(); ++column) {
      const std::string& words = table.rows[row][column];
      auto lines = wrapped(measurer_, words, type, column_width(table, column));
      if (lines.empty() && !words.empty()) return false;
      most = std::max(most, lines.size());
      cells.push_back(std::move(lines));
    }
    const double height = leading(type) * static_cast<double>(most) + air();
    Piece piece;
    piece.height = height;
    piece.table_row = row + 1;
    piece.table = &table;
    piece.draw = [this, type, cells, height, most, row, &table](Pen& pen, double y) {
      for (std::size_t column = 0; column < cells.size(); ++column) {
        const double shift = cells[column].size() > 1 ? 0 : figure_shift(table, row, column);
        // As much room above as below.
        const double block = cap(type) + leading(type) * static_cast<double>(most - 1);
        double baseline = y + (height - block) / 2 + cap(type);
        for (const std::string& line : cells[column]) {
          pen.text({column_start(table, column) + shift, baseline}, type, line);
          baseline += leading(type);
        }
      }
      pen.rule(left_, y + height, right_ - left_, in_millimetres(style_.rules.light));
    };
    pieces_.push_back(std::move(piece));
    return true;
  }

  // The second column in large figures, the third half as large: what is read from a step away.
  [[nodiscard]] Type large_type(std::size_t column) const {
    Type type = text(column == 1 ? Face::bold : Face::regular);
    if (column == 1) type.size *= 2.1;
    if (column == 2) type.size *= 1.3;
    return type;
  }

  bool add_large_row(const SheetTable& table, std::size_t row) {
    std::vector<std::vector<std::string>> cells;
    double below = 0;  // of the first baseline, which all columns share
    for (std::size_t column = 0; column < table.rows[row].size(); ++column) {
      const std::string& words = table.rows[row][column];
      const Type type = large_type(column);
      auto lines = wrapped(measurer_, words, type, column_width(table, column));
      if (lines.empty() && !words.empty()) return false;
      const double more = lines.empty() ? 0 : static_cast<double>(lines.size() - 1);
      below = std::max(below, leading(type) * more + 0.3 * type.size);
      cells.push_back(std::move(lines));
    }
    const double height = air() * 1.4 + cap(large_type(1)) + below + air();
    Piece piece;
    piece.height = height;
    piece.table_row = row + 1;
    piece.table = &table;
    piece.draw = [this, cells, height, &table](Pen& pen, double y) {
      // All columns begin on the baseline of the largest.
      const double first = y + air() * 1.4 + cap(large_type(1));
      for (std::size_t column = 0; column < cells.size(); ++column) {
        double baseline = first;
        if (column == 0 && !cells[0].empty()) {
          draw_step(pen, cells[0].front(), {left_, first - cap(large_type(1)) / 2});
          continue;
        }
        for (const std::string& line : cells[column]) {
          pen.text({column_start(table, column), baseline}, large_type(column), line);
          baseline += leading(large_type(column));
        }
      }
      pen.rule(left_, y + height, right_ - left_, in_millimetres(style_.rules.light));
    };
    pieces_.push_back(std::move(piece));
    return true;
  }

  // A step's number in a ring: before an amount it must not be read as a part of it.
  void draw_step(Pen& pen, const std::string& number, Point left_middle) const {
    const Type type = large_type(0);
    const double radius = type.size * 0.85;
    const Point centre{left_middle.x + radius, left_middle.y};
    Outline ring;
    ring.circle(centre, radius);
    ring.circle(centre, radius - 0.3, true);
    pen.fill(ring, Ink::black);
    pen.text_centred({centre.x, centre.y + cap(type) / 2}, type, number);
  }

  void draw_headings(Pen& pen, const SheetTable& table, double y) const {
    if (!has_headings(table)) return;
    Type type = small();
    type.face = Face::bold;
    for (std::size_t column = 0; column < table.headings.size(); ++column) {
      const std::string& words = table.headings[column];
      pen.text({column_start(table, column), y + cap(type)},
               fitted(type, words, column_width(table, column)), words);
    }
    pen.rule(left_, y + headings_height(table), right_ - left_, in_millimetres(style_.rules.light));
  }

  // How much room the pieces from `first` on take that must stay together.
  [[nodiscard]] double together(std::size_t first) const {
    double out = 0;
    for (std::size_t i = first; i < pieces_.size(); ++i) {
      out += pieces_[i].height;
      if (pieces_[i].table_row == 1) out += headings_height(*pieces_[i].table);
      if (!pieces_[i].with_next) break;
    }
    return out;
  }

  // Which pieces stand on which page.
  [[nodiscard]] std::vector<std::vector<std::size_t>> on_pages() const {
    std::vector<std::vector<std::size_t>> pages(1);
    double used = 0;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const bool whole_fits = pieces_[i].whole <= room();
      const double needed = std::max(together(i), whole_fits ? pieces_[i].whole : 0);
      if (!pages.back().empty() && used + needed > room()) {
        pages.emplace_back();
        used = 0;
      }
      const bool headed =
          pieces_[i].table != nullptr && (pieces_[i].table_row == 1 || pages.back().empty());
      used += pieces_[i].height + (headed ? headings_height(*pieces_[i].table) : 0);
      pages.back().push_back(i);
    }
    return pages;
  }

  Pages paginated() const {
    const auto pages = on_pages();
    Pages out;
    out.title = content_.title;
    for (std::size_t number = 0; number < pages.size(); ++number)
      out.pages.push_back(drawn(pages[number], number + 1, pages.size()));
    return out;
  }

  [[nodiscard]] Page drawn(const std::vector<std::size_t>& indices, std::size_t number,
                           std::size_t pages) const {
    Page page{width_, height_, content_.title, {}};
    Pen pen(page, measurer_);
    draw_head(pen);
    double y = head_ + air();
    bool first = true;
    for (const std::size_t index : indices) {
      const Piece& piece = pieces_[index];
      if (piece.table != nullptr && (piece.table_row == 1 || first)) {
        draw_headings(pen, *piece.table, y);
        y += headings_height(*piece.table);
      }
      first = false;
      piece.draw(pen, y);
      y += piece.height;
    }
    draw_foot(pen, height_ - foot_, number, pages);
    return page;
  }

  const std::vector<SheetBlock>& blocks_;
  std::vector<Piece> pieces_;
  std::map<const SheetTable*, std::vector<double>> widths_;  // of the columns, of 1 together
  double scale_ = 1;                                         // of the words between head and foot
};

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_sheet(const SheetContent& content,
                                                 const PaperSize& paper, const ChartStyle& style,
                                                 const TextMeasurer& measurer) {
  return SheetLayout(content, paper, style, measurer).lay_out();
}

}  // namespace dosewright
