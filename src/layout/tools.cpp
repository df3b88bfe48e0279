#include "tools.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>

#include "tool_vessels.hpp"

namespace dosewright {

namespace {

// ---- words in drawings

// The largest bold type in which the words fit.
Type fitting(const Pen& pen, const std::string& words, double width, double height,
             double largest) {
  const Type one{1, Face::bold};
  return {std::min({largest, width / std::max(1e-6, pen.width_of(words, one)),
                    height / pen.cap_height(one)}),
          Face::bold};
}

// As `fitting`, but short words get no larger than long ones beside them would be, and what hangs
// below the line stays inside.
Type even_fitting(const Pen& pen, const std::string& words, const std::string& usual, double width,
                  double height, double largest) {
  const Type one{1, Face::bold};
  const double room = height * pen.cap_height(one) / (pen.cap_height(one) + 2 * pen.descent(one));
  const Type type = fitting(pen, words, width, room, largest);
  return {std::min(type.size, fitting(pen, usual, width, room, largest).size), Face::bold};
}

void words_in(Pen& pen, const std::string& words, const Box& box, double largest) {
  const Type type = even_fitting(pen, words, "0.57 g", box.width, box.height, largest);
  pen.text_centred({box.x + box.width / 2, box.y + (box.height + pen.cap_height(type)) / 2}, type,
                   words);
}

// Splits "1.4 mL" into its figure and its unit.
std::pair<std::string, std::string> parted(const std::string& text) {
  const std::size_t space = text.rfind(' ');
  if (space == std::string::npos) return {text, ""};
  return {text.substr(0, space), text.substr(space + 1)};
}

// The figure with its unit smaller under it.
void words_stacked(Pen& pen, const std::string& words, const Box& box) {
  const auto [figure, unit] = parted(words);
  const Type large =
      even_fitting(pen, figure, "0.25", 0.92 * box.width, 0.5 * box.height, box.height);
  const Type less = fitting(pen, unit, box.width, box.height, 0.6 * large.size);
  const double lead = unit.empty() ? 0 : 0.45 * large.size + pen.cap_height(less);
  const double x = box.x + box.width / 2;
  const double base = box.y + (box.height - pen.cap_height(large) - lead) / 2;
  pen.text_centred({x, base + pen.cap_height(large)}, large, figure);
  pen.text_centred({x, base + pen.cap_height(large) + lead}, less, unit);
}

// ---- tools without marks to read: the number is the point

void draw_piston_pipette(Pen& pen, const Stand& stand, const ToolPicture& picture, double length,
                         double half, const Weights& weights) {
  const double wall = weights.wall;
  const Profile tip = {{0, 0.1 * half}, {0.2 * length, 0.32 * half}};
  draw_profile(pen, stand, tip, wall);
  Profile liquid = part_of(tip, wall / 2, 0.14 * length);
  for (Station& station : liquid) station.half = std::max(0.0, station.half - wall / 2);
  pen.fill(Outline().polygon(corners_of(stand, liquid)), Ink::fill);
  draw_profile(pen, stand,
               {{0.2 * length, 0.46 * half},
                {0.29 * length, 0.46 * half},
                {0.33 * length, half},
                {0.88 * length, half},
                {0.9 * length, 0.8 * half}},
               wall);
  const double thick = 1.6 * wall;
  draw_profile(pen, stand, {{0.9 * length, 0.2 * half}, {length - thick, 0.2 * half}}, wall);
  draw_bar(pen, stand, length - thick / 2, -0.55 * half, 0.55 * half, thick);
  // The window is a length of the body between two lines.
  for (const double end : {0.4, 0.8}) draw_bar(pen, stand, end * length, -half, half, wall);
  const Point a = stand.at(0.4 * length, half);
  const Point b = stand.at(0.8 * length, -half);
  const double clear = wall + 0.35;
  const Box window{std::min(a.x, b.x) + clear, std::min(a.y, b.y) + clear,
                   std::abs(b.x - a.x) - 2 * clear, std::abs(b.y - a.y) - 2 * clear};
  if (stand.upright) {
    words_stacked(pen, picture.fill_text, window);
  } else {
    words_in(pen, picture.fill_text, window, half * 2);
  }
}

// The lower half of an ellipse, cut off level where it is filled to.
std::vector<Point> bowl(Point middle, double rx, double ry, double filled) {
  constexpr int kSteps = 32;
  const double start = std::asin(std::clamp(1 - filled, 0.0, 0.999));
  std::vector<Point> out;
  for (int i = 0; i <= kSteps; ++i) {
    const double angle = start + (std::numbers::pi - 2 * start) * i / kSteps;
    out.push_back({middle.x + rx * std::cos(angle), middle.y + ry * std::sin(angle)});
  }
  return out;
}

// A spoon from the side, its bowl on the left; `box` holds bowl and handle.
void draw_spoon(Pen& pen, const ToolPicture& picture, const Box& box, double bowl_width,
                const Weights& weights) {
  const double wall = weights.wall;
  const double rx = bowl_width / 2 - wall / 2;
  const double ry = box.height - weights.line / 2 - wall / 2;
  const Point middle{box.x + bowl_width / 2, box.y + weights.line / 2};
  const double thick = std::max(1.1, 0.14 * bowl_width);
  const double from = middle.x + rx * 0.96;
  const double end = box.x + box.width - 1.3 * wall;
  draw_shape(pen,
             {{from, middle.y},
              {end - 0.3 * thick, middle.y},
              {end, middle.y + 0.3 * thick},
              {end, middle.y + 0.7 * thick},
              {end - 0.3 * thick, middle.y + thick},
              {from - rx * 0.02, middle.y + thick}},
             Ink::white, wall);
  draw_shape(pen, bowl(middle, rx, ry, 1), Ink::white, wall);
  pen.fill(Outline().polygon(bowl(middle, rx - wall / 2, ry - wall / 2, picture.fill)), Ink::fill);
  const double level = middle.y + ry * (1 - std::clamp(picture.fill, 0.0, 1.0));
  pen.rectangle({box.x, level - weights.line / 2, bowl_width, weights.line}, Ink::black);
}

// A scale from the front: a heap on its pan, the number in its display.
void draw_scale(Pen& pen, const ToolPicture& picture, const Box& box, const Weights& weights) {
  const double wall = weights.wall;
  const double heap = 0.17 * box.height;
  const double pan = 1.6 * wall;
  const double neck = 0.06 * box.height;
  const double middle = box.x + box.width / 2;
  std::vector<Point> mound;
  for (const Point& p : bowl({middle, -(box.y + heap)}, 0.26 * box.width, heap - wall / 2, 1))
    mound.push_back({p.x, -p.y});
  draw_shape(pen, mound, Ink::fill, wall);
  pen.rectangle({box.x + 0.08 * box.width, box.y + heap, 0.84 * box.width, pan}, Ink::black);
  pen.rectangle({middle - 0.06 * box.width, box.y + heap + pan, 0.12 * box.width, neck},
                Ink::black);
  const double top = box.y + heap + pan + neck;
  const double bottom = box.y + box.height - wall / 2;
  const double slope = std::min(0.12 * box.width, 0.5 * (bottom - top));
  draw_shape(pen,
             {{box.x + wall + slope, top + wall / 2},
              {box.x + box.width - wall - slope, top + wall / 2},
              {box.x + box.width - wall, bottom},
              {box.x + wall, bottom}},
             Ink::white, wall);
  const double clear = wall + 0.1 * (bottom - top);
  words_in(pen, picture.fill_text,
           {box.x + slope + 1, top + clear, box.width - 2 * slope - 2, bottom - top - 2 * clear},
           0.5 * box.width);
}

// ---- drops

int drops_of(const ToolPicture& picture) {
  int drops = 0;
  const std::string& text = picture.fill_text;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), drops);
  return read.ec == std::errc() ? drops : 0;
}

constexpr int kMostDrops = 10;  // more can't be counted at a glance

void draw_drop(Pen& pen, Point middle, double width) {
  const double r = width / 2;
  const double top = middle.y - 1.7 * r;
  const double round = middle.y + 0.5 * r;
  const double k = 0.5523 * r;
  pen.fill(Outline()
               .move({middle.x, top})
               .curve({middle.x + 0.3 * r, top + 0.9 * r}, {middle.x + r, round - k - 0.2 * r},
                      {middle.x + r, round})
               .curve({middle.x + r, round + k}, {middle.x + k, round + r}, {middle.x, round + r})
               .curve({middle.x - k, round + r}, {middle.x - r, round + k}, {middle.x - r, round})
               .curve({middle.x - r, round - k - 0.2 * r}, {middle.x - 0.3 * r, top + 0.9 * r},
                      {middle.x, top})
               .close(),
           Ink::black);
}

// A short glass tube with a rubber bulb.
void draw_dropper_tube(Pen& pen, const Stand& stand, double length, double half, double wall) {
  const double tube = 0.42 * half;
  draw_profile(
      pen, stand,
      {{0, 0.4 * tube}, {0.2 * length, 0.5 * tube}, {0.32 * length, tube}, {0.55 * length, tube}},
      wall);
  Profile bulb = {{0.55 * length, 0.75 * half}, {0.64 * length, 0.75 * half}};
  add_bulb(bulb, 0.5 * length, length, half * 0.99, half);
  bulb.erase(std::remove_if(bulb.begin() + 2, bulb.end(),
                            [&](const Station& s) { return s.u <= 0.64 * length; }),
             bulb.end());
  draw_profile(pen, stand, bulb, wall);
}

void draw_dropper_lying(Pen& pen, const ToolPicture& picture, const Box& box) {
  const double tube = std::min(13.0, 0.3 * box.width);
  const double room = box.width - tube - 1.5;
  const int drops = drops_of(picture);
  const bool countable = drops >= 1 && drops <= kMostDrops;
  const int drawn = countable ? drops : 1;
  // The second five stand apart, so that they need not be counted.
  const double pitch = std::min(0.75 * box.height, room / (kMostDrops + 0.8));
  const double width = std::min(0.72 * box.height, 0.78 * pitch);
  const double y = box.y + box.height / 2;
  double x = box.x + width / 2;
  for (int i = 0; i < drawn; ++i) {
    if (i == 5) x += 0.8 * pitch;
    draw_drop(pen, {x, y}, width);
    x += pitch;
  }
  double end = x - pitch + width / 2;
  if (!countable) {
    const Type type = fitting(pen, picture.fill_text, room - 2 * pitch, 0.6 * box.height, 3.6);
    pen.text({end + 1, y + pen.cap_height(type) / 2}, type, picture.fill_text);
    end += 1 + pen.width_of(picture.fill_text, type);
  }
  draw_dropper_tube(pen, {{end + 1.5, y}, false}, tube, box.height / 2 - kLying.wall / 2,
                    kLying.wall);
}

// ---- lying

void draw_spoon_lying(Pen& pen, const ToolPicture& picture, const Box& box) {
  const double bowl_width = std::min(2.6 * box.height, 0.34 * box.width);
  const Type type =
      fitting(pen, picture.fill_text, 0.4 * box.width, 0.52 * box.height, 0.8 * box.height);
  const double words = pen.width_of(picture.fill_text, type);
  const double spoon = std::min(box.width - words - 1.5, 2.4 * bowl_width);
  draw_spoon(pen, picture, {box.x, box.y, spoon, box.height}, bowl_width, kLying);
  pen.text({box.x + spoon + 1.5, box.y + (box.height + pen.cap_height(type)) / 2}, type,
           picture.fill_text);
}

// ---- upright

// The fill's text beside the heavy line: on one line, or its unit under it where room is narrow.
class FillText {
 public:
  FillText(const Pen& pen, const std::string& text, double room, double largest)
      : one_line_(pen.width_of(text, {largest * 0.8, Face::bold}) <= room) {
    const auto [figure, unit] = parted(text);
    first_ = one_line_ ? text : figure;
    second_ = one_line_ ? "" : unit;
    const double first = fitting(pen, first_, room, 100, largest).size;
    const double second = second_.empty() ? first : fitting(pen, second_, room, 100, first).size;
    type_ = {std::min(first, second), Face::bold};
    width_ = std::max(pen.width_of(first_, type_), pen.width_of(second_, type_));
    cap_ = pen.cap_height(type_);
    descent_ = pen.descent(type_);
  }
  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double size() const { return type_.size; }

  /// With the middle of its first line at `y`, moved to stay between `top` and `bottom`.
  void draw(Pen& pen, double x, double y, double top, double bottom) const {
    const double lead = second_.empty() ? 0 : 1.1 * type_.size;
    const double base =
        std::clamp(y + cap_ / 2, top + cap_, std::max(top + cap_, bottom - lead - descent_));
    pen.text({x, base}, type_, first_);
    pen.text({x, base + lead}, type_, second_);
  }

 private:
  bool one_line_;
  std::string first_;
  std::string second_;
  Type type_;
  double width_ = 0;
  double cap_ = 0;
  double descent_ = 0;
};

constexpr double kLargeText = 2.4;  // the fill's text over the figures at the marks

// Length and half width of an upright tool with marks in a box.
struct UprightSize {
  double length = 0;
  double half = 0;
};

UprightSize upright_size(Tool::Kind kind, const Box& box) {
  const auto slim = [&](double of_width, double aspect) -> UprightSize {
    return {box.height, std::min(of_width * box.width, box.height / aspect) / 2};
  };
  if (kind == Tool::Kind::syringe) return slim(0.3, 6);
  if (kind == Tool::Kind::transfer_pipette) return slim(0.3, 5.5);
  if (kind == Tool::Kind::graduated_pipette) return slim(0.3, 6);
  if (kind == Tool::Kind::cylinder) return slim(0.42, 3.2);
  const double width = std::min(0.54 * box.width, box.height / 1.5);
  return {1.5 * width, width / 2};
}

// Every how many divisions a figure stands: at long ticks, or at all where there are but a few.
int figure_step(const ToolPicture& picture, double length, double least) {
  const int ticks = division_step(picture, length, kMarkGap);
  const int room = division_step(picture, length, least);
  const bool few = picture.marks.back().division <= 10;
  for (int scale = few ? 1 : 5; scale <= 100'000; scale *= 10) {
    for (const int step : {scale, 2 * scale}) {
      if (step >= room && step % ticks == 0) return step;
    }
  }
  return 1'000'000;
}

// Marks whose figures stand clear of each other.
std::vector<MarkPicture> numbered(const ToolPicture& picture, double length, double figure_size) {
  const double least = 1.5 * figure_size;
  if (picture.marks.empty()) return {};
  const int step = picture.even ? figure_step(picture, length, least) : 1;
  std::vector<MarkPicture> out;
  for (const MarkPicture& mark : picture.marks) {
    if (mark.figure.empty() || mark.division % step != 0) continue;
    const bool crowded = !out.empty() && (mark.at - out.back().at) * length < least - 1e-9;
    if (!crowded && mark.at * length > 0.6 * figure_size) out.push_back(mark);
  }
  return out;
}

void draw_figures(Pen& pen, const Stand& stand, const Body& body,
                  const std::vector<MarkPicture>& marks, double gap, const Type& figures) {
  for (const MarkPicture& mark : marks) {
    const double u = body.zero + mark.at * (body.full - body.zero);
    const Point wall = stand.at(u, half_at(body.profile, u) + gap);
    pen.text_right({wall.x, wall.y + pen.cap_height(figures) / 2}, figures, mark.figure);
  }
}

// Everything of an upright tool with marks but its place in the box.
struct MarkedLayout {
  UprightSize size;
  Body body;
  double grip = 0;    // half the length of a syringe's grips
  double widest = 0;  // half width over all
  double left = 0;    // from the axis to the left end of the figures
  std::vector<MarkPicture> marks;
};

constexpr double kFigureGap = 1.5;  // from the wall, mm
constexpr double kTextGap = 2.4;    // from the tool's widest part

// Walls take their share of the box; at a spout's sharp corner a little more than half of one.
double drawn_length(const UprightSize& size) { return size.length - 1.3 * kUpright.wall; }

MarkedLayout marked_layout(const Pen& pen, const ToolPicture& picture, const UprightSize& size,
                           const Type& figures) {
  MarkedLayout out;
  out.size = size;
  out.grip = picture.kind == Tool::Kind::syringe ? 1.35 * size.half : size.half;
  out.body = body_of(picture.kind, drawn_length(size), size.half);
  out.widest = std::max(out.grip, out.body.widest) + kUpright.wall / 2;
  out.marks = numbered(picture, out.body.full - out.body.zero, figures.size);
  out.left = out.widest;
  for (const MarkPicture& mark : out.marks) {
    const double u = out.body.zero + mark.at * (out.body.full - out.body.zero);
    const double wall = half_at(out.body.profile, u);
    out.left = std::max(out.left, wall + kFigureGap + pen.width_of(mark.figure, figures));
  }
  return out;
}

void draw_marked_upright(Pen& pen, const ToolPicture& picture, const Box& box,
                         const Type& figures) {
  constexpr double kLineOut = 0.6;    // of the heavy line, towards the figures
  constexpr double kSlimmest = 2.2;   // half width
  constexpr double kLeastText = 1.7;  // the fill's text over the figures
  UprightSize size = upright_size(picture.kind, box);
  MarkedLayout tool = marked_layout(pen, picture, size, figures);
  const auto text_of = [&] {
    return FillText(pen, picture.fill_text, box.width - tool.left - tool.widest - kTextGap,
                    kLargeText * figures.size);
  };
  // In a narrow box the tool gets slimmer before its number gets small.
  while (text_of().size() < kLeastText * figures.size && size.half * 0.92 > kSlimmest) {
    size.half *= 0.92;
    tool = marked_layout(pen, picture, size, figures);
  }
  const FillText text = text_of();
  const double spare = box.width - tool.left - tool.widest - kTextGap - text.width();
  const double bottom = box.y + box.height;
  const Stand stand{{box.x + spare / 2 + tool.left, bottom - kUpright.wall / 2}, true};
  draw_vessel(pen, stand, tool.body, picture, drawn_length(size), size.half, tool.grip, kUpright);
  draw_figures(pen, stand, tool.body, tool.marks, kFigureGap, figures);
  const double u = fill_u(tool.body, picture);
  const double beside = -tool.widest - kTextGap;
  draw_bar(pen, stand, u, half_at(tool.body.profile, u) + kLineOut, beside + 1, kUpright.line);
  const Point at = stand.at(u, beside);
  text.draw(pen, at.x, at.y, box.y, bottom);
}

void draw_piston_upright(Pen& pen, const ToolPicture& picture, const Box& box) {
  const double half = std::min(0.36 * box.width, 0.14 * box.height);
  const double wall = kUpright.wall / 2;
  draw_piston_pipette(pen, {{box.x + box.width / 2, box.y + box.height - wall}, true}, picture,
                      box.height - wall, half, kUpright);
}

void draw_spoon_upright(Pen& pen, const ToolPicture& picture, const Box& box, const Type& figures) {
  const double width = std::min(box.width, 60.0);
  const double bowl_width = 0.5 * width;
  const double depth = std::min(0.52 * bowl_width, 0.5 * box.height);
  const Type type =
      fitting(pen, picture.fill_text, box.width, 0.2 * box.height, kLargeText * figures.size);
  const double words = pen.cap_height(type) + 0.7 * type.size;
  const double top = box.y + box.height - depth - words - pen.descent(type);
  const double left = box.x + (box.width - width) / 2;
  draw_spoon(pen, picture, {left, top, width, depth}, bowl_width, kUpright);
  pen.text_centred({box.x + box.width / 2, top + depth + words}, type, picture.fill_text);
}

void draw_scale_upright(Pen& pen, const ToolPicture& picture, const Box& box) {
  const double width = std::min(box.width, 46.0);
  const double height = std::min(0.55 * width, box.height);
  draw_scale(pen, picture,
             {box.x + (box.width - width) / 2, box.y + box.height - height, width, height},
             kUpright);
}

void draw_dropper_upright(Pen& pen, const ToolPicture& picture, const Box& box,
                          const Type& figures) {
  const int drops = drops_of(picture);
  const int drawn = drops >= 1 && drops <= kMostDrops ? drops : 1;
  const double pitch = std::min(0.17 * box.width, 0.09 * box.height);
  const int rows = (drawn + 4) / 5;
  const Type type =
      fitting(pen, picture.fill_text, box.width, 0.2 * box.height, kLargeText * figures.size);
  const double below = rows * 1.6 * pitch + pen.cap_height(type) + 0.8 * type.size;
  const double tube = std::min(box.height - below - pen.descent(type), 5.5 * pitch);
  const double top = box.y + box.height - tube - below - pen.descent(type);
  const double middle = box.x + box.width / 2;
  draw_dropper_tube(pen, {{middle, top + tube}, true}, tube - kUpright.wall, 0.16 * tube,
                    kUpright.wall);
  for (int i = 0; i < drawn; ++i) {
    const int row = i / 5;
    const int in_row = std::min(5, drawn - row * 5);
    const double x = middle + (i % 5 - (in_row - 1) / 2.0) * pitch;
    draw_drop(pen, {x, top + tube + (row + 0.6) * 1.6 * pitch}, 0.7 * pitch);
  }
  pen.text_centred({middle, top + tube + below}, type, picture.fill_text);
}

}  // namespace

std::string times_text(const ToolPicture& picture) {
  if (picture.count <= 1 || !picture.times.empty()) return picture.times;
  return std::to_string(picture.count) + " times";
}

void draw_tool_lying(Pen& pen, const ToolPicture& picture, const Box& box) {
  const double wall = kLying.wall / 2;
  const double inset = 1.5 * wall;  // walls that meet at an angle reach a little further
  const double length = box.width - 2 * inset;
  const double half = box.height / 2 - wall;
  const Stand stand{{box.x + inset, box.y + box.height / 2}, false};
  switch (picture.kind) {
    case Tool::Kind::piston_pipette:
      return draw_piston_pipette(pen, stand, picture, std::min(length, 16 * half), half, kLying);
    case Tool::Kind::spoon:
      return draw_spoon_lying(pen, picture, box);
    case Tool::Kind::scale:
      // The heap may stand out as far as a heavy line does: the number needs the height.
      return draw_scale(pen, picture,
                        {box.x, box.y - kLineStandsOut, std::min(box.width, 5 * box.height),
                         box.height + kLineStandsOut},
                        kLying);
    case Tool::Kind::dropper:
      return draw_dropper_lying(pen, picture, box);
    default:
      break;
  }
  const double own = picture.kind == Tool::Kind::cup ? std::min(length, 9 * half) : length;
  const Body body = body_of(picture.kind, own, half);
  draw_vessel(pen, stand, body, picture, own, half, half + wall + 0.6, kLying);
  const double u = fill_u(body, picture);
  const double reach = half_at(body.profile, u) + wall + kLineStandsOut;
  draw_bar(pen, stand, u, -reach, reach, kLying.line);
}

void draw_tool_upright(Pen& pen, const ToolPicture& picture, const Box& box, const Type& figures) {
  Box room = box;
  const std::string times = times_text(picture);
  if (!times.empty()) {
    const Type type = fitting(pen, times, box.width, 0.2 * box.height, kLargeText * figures.size);
    room.height -= pen.cap_height(type) + 0.7 * type.size;
    pen.text_centred({box.x + box.width / 2, box.y + box.height}, type, times);
  }
  switch (picture.kind) {
    case Tool::Kind::piston_pipette:
      return draw_piston_upright(pen, picture, room);
    case Tool::Kind::spoon:
      return draw_spoon_upright(pen, picture, room, figures);
    case Tool::Kind::scale:
      return draw_scale_upright(pen, picture, room);
    case Tool::Kind::dropper:
      return draw_dropper_upright(pen, picture, room, figures);
    default:
      return draw_marked_upright(pen, picture, room, figures);
  }
}

}  // namespace dosewright
