// A round label for a cap.
#include <algorithm>
#include <cmath>

#include "dosewright/units/print.hpp"
#include "label_sheet.hpp"

namespace dosewright {

namespace {

struct Line {
  std::string words;
  Type type;
  double above = 0;  // air over it
};

// Lines in the middle of a round label, and whether each is shorter than the label is wide there.
class Dot {
 public:
  Dot(std::vector<Line> lines, const TextMeasurer& measurer, double radius)
      : lines_(std::move(lines)), measurer_(measurer), radius_(radius) {
    for (const Line& line : lines_) height_ += line.above + cap(line);
  }

  [[nodiscard]] bool fits() const {
    double top = -height_ / 2;
    for (const Line& line : lines_) {
      top += line.above;
      const double below =
          top + cap(line) + measurer_.metrics(line.type.face).descent * line.type.size;
      const double farthest = std::max(std::abs(top), std::abs(below));
      if (farthest >= radius_) return false;
      const double half = std::sqrt(radius_ * radius_ - farthest * farthest);
      if (width_of(measurer_, line.words, line.type) > 2 * half) return false;
      top += cap(line);
    }
    return true;
  }

  void draw(Pen& pen, Point centre) const {
    double y = centre.y - height_ / 2;
    for (const Line& line : lines_) {
      y += line.above + cap(line);
      pen.text_centred({centre.x, y}, line.type, line.words);
    }
  }

 private:
  [[nodiscard]] double cap(const Line& line) const {
    return measurer_.metrics(line.type.face).cap_height * line.type.size;
  }

  std::vector<Line> lines_;
  const TextMeasurer& measurer_;
  double radius_;
  double height_ = 0;
};

std::vector<Line> lines_of(const LabelContent& content, double size,
                           const std::vector<std::string>& name) {
  std::vector<Line> out;
  for (const std::string& line : name)
    out.push_back({line, {size, Face::bold}, out.empty() ? 0 : size * 0.45});
  if (!content.code.letters.empty())
    out.push_back({content.code.letters, {size * 1.6, Face::bold}, size * 0.7});
  if (!content.signal.empty()) out.push_back({content.signal, {size, Face::bold}, size * 0.7});
  out.push_back({content.on_cap, {size, Face::regular}, size * 0.5});
  return out;
}

}  // namespace

std::variant<Pages, LayoutProblem> lay_out_cap_dot(const LabelContent& content,
                                                   const LabelSheet& sheet, const LabelStyle& style,
                                                   const TextMeasurer& measurer) {
  const double across = in_millimetres(sheet.label_width);
  const double radius = across / 2 - 1.5;
  const double smallest = in_millimetres(style.text.smallest);
  for (double size = in_millimetres(style.text.largest) * 1.5; size >= smallest; size *= 0.97) {
    for (const double width : {across, across * 0.6}) {
      const auto name = wrapped(measurer, content.name, {size, Face::bold}, width);
      if (name.empty() || name.size() > 2) continue;
      const Dot dot(lines_of(content, size, name), measurer, radius);
      if (!dot.fits()) continue;
      Page label{across, across, "", {}};
      Pen pen(label, measurer);
      dot.draw(pen, {across / 2, across / 2});
      return on_sheets({label}, sheet, content.name, measurer);
    }
  }
  return LayoutProblem{
      "a cap of " + figure(across, 1) + " mm is too small for the name " + content.name,
      "give the bottle a shorter name, or leave the cap bare: its own label is what counts"};
}

}  // namespace dosewright
