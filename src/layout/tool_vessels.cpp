#include "tool_vessels.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tools.hpp"

namespace dosewright {

namespace {

// A wall from corner to corner, lengthened so that two walls meet without a notch.
void add_wall(Outline& outline, Point from, Point to, double thickness) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length < 1e-9) return;
  const double dx = (to.x - from.x) / length * thickness / 2;
  const double dy = (to.y - from.y) / length * thickness / 2;
  outline.stroke({from.x - dx, from.y - dy}, {to.x + dx, to.y + dy}, thickness);
}

void draw_walls(Pen& pen, const std::vector<Point>& corners, double wall) {
  Outline walls;
  for (std::size_t i = 0; i < corners.size(); ++i)
    add_wall(walls, corners[i], corners[(i + 1) % corners.size()], wall);
  pen.fill(walls, Ink::black);
}

}  // namespace

double half_at(const Profile& profile, double u) {
  // At a step, the wider side away from the outlet counts.
  std::size_t i = 0;
  while (i + 1 < profile.size() && profile[i + 1].u <= u) ++i;
  if (i + 1 == profile.size()) return profile.back().half;
  const Station& a = profile[i];
  const Station& b = profile[i + 1];
  return a.half + (b.half - a.half) * std::max(0.0, u - a.u) / (b.u - a.u);
}

Profile part_of(const Profile& profile, double from, double to) {
  Profile out = {{from, half_at(profile, from)}};
  for (const Station& station : profile) {
    if (station.u > from && station.u < to) out.push_back(station);
  }
  out.push_back({to, half_at(profile, to)});
  return out;
}

std::vector<Point> corners_of(const Stand& stand, const Profile& profile) {
  std::vector<Point> out;
  for (const Station& station : profile) out.push_back(stand.at(station.u, station.half));
  for (std::size_t i = profile.size(); i > 0; --i)
    out.push_back(stand.at(profile[i - 1].u, -profile[i - 1].half));
  return out;
}

void draw_shape(Pen& pen, const std::vector<Point>& corners, Ink ink, double wall) {
  pen.fill(Outline().polygon(corners), ink);
  draw_walls(pen, corners, wall);
}

void draw_profile(Pen& pen, const Stand& stand, const Profile& profile, double wall) {
  draw_shape(pen, corners_of(stand, profile), Ink::white, wall);
}

void draw_bar(Pen& pen, const Stand& stand, double u, double from, double to, double thickness) {
  pen.fill(Outline().polygon({stand.at(u - thickness / 2, from), stand.at(u + thickness / 2, from),
                              stand.at(u + thickness / 2, to), stand.at(u - thickness / 2, to)}),
           Ink::black);
}

void add_bulb(Profile& profile, double from, double to, double stem, double half) {
  constexpr int kSteps = 24;
  for (int i = 0; i <= kSteps; ++i) {
    const double angle = std::numbers::pi * i / kSteps;
    const double width = half * std::pow(std::sin(angle), 0.7);
    if (i <= kSteps / 2 && width < stem) continue;
    profile.push_back({(from + to) / 2 - (to - from) / 2 * std::cos(angle), std::max(width, 0.0)});
  }
}

namespace {

Body syringe_body(double length, double half) {
  const double nozzle = std::min(0.09 * length, 1.6 * half);
  const double end = 0.85 * length;
  Body out;
  out.profile = {{0, 0.26 * half}, {nozzle, 0.34 * half}, {nozzle, half}, {end, half}};
  out.zero = nozzle;
  out.full = end - 0.05 * length;
  out.long_tick = 0.36;  // ticks end before the rod
  return out;
}

Body transfer_pipette_body(double length, double half) {
  const double stem = 0.42 * half;
  Body out;
  out.profile = {{0, 0.3 * stem}, {0.1 * length, stem}, {0.68 * length, stem}};
  add_bulb(out.profile, 0.68 * length, length, stem, half);
  out.full = 0.64 * length;
  out.long_tick = 0.6;
  return out;
}

Body graduated_pipette_body(double length, double half) {
  const double tube = 0.46 * half;
  Body out;
  out.profile = {{0, 0.2 * tube}, {0.13 * length, tube}, {length, tube}};
  out.full = 0.9 * length;
  out.widest = tube;
  out.long_tick = 0.6;
  return out;
}

double cylinder_foot(double half) { return 0.5 * half; }
double cylinder_spout(double half) { return 0.55 * half; }

Body cylinder_body(double length, double half) {
  const double tube = 0.7 * half;
  Body out;
  out.zero = cylinder_foot(half);
  const double rim = length - cylinder_spout(half);
  out.profile = {{out.zero, tube}, {rim, tube}};
  out.full = out.zero + (rim - out.zero) * 0.95;
  return out;
}

Body cup_body(double length, double half) {
  Body out;
  out.profile = {{0, 0.55 * half}, {length, 0.92 * half}};
  out.full = 0.86 * length;
  return out;
}

}  // namespace

Body body_of(Tool::Kind kind, double length, double half) {
  Body out;
  if (kind == Tool::Kind::syringe) out = syringe_body(length, half);
  if (kind == Tool::Kind::transfer_pipette) out = transfer_pipette_body(length, half);
  if (kind == Tool::Kind::graduated_pipette) out = graduated_pipette_body(length, half);
  if (kind == Tool::Kind::cylinder) out = cylinder_body(length, half);
  if (kind == Tool::Kind::cup) out = cup_body(length, half);
  if (out.widest <= 0) out.widest = half;
  return out;
}

double fill_u(const Body& body, const ToolPicture& picture) {
  return body.zero + std::clamp(picture.fill, 0.0, 1.0) * (body.full - body.zero);
}

int division_step(const ToolPicture& picture, double length, double least) {
  if (picture.marks.size() < 2) return 1;
  const MarkPicture& first = picture.marks.front();
  const MarkPicture& last = picture.marks.back();
  const double gap = (last.at - first.at) * length / std::max(1, last.division - first.division);
  for (int scale = 1; scale <= 100'000; scale *= 10) {
    for (const int step : {scale, 2 * scale, 5 * scale}) {
      if (gap * step >= least - 1e-9) return step;
    }
  }
  return 1'000'000;
}

namespace {

bool is_fill(const MarkPicture& mark, const ToolPicture& picture) {
  return std::abs(mark.at - picture.fill) < 1e-4;
}

// The marks there is room for, without the one at the fill, and without those that would run
// together with the heavy line.
std::vector<MarkPicture> thinned(const ToolPicture& picture, double length,
                                 const Weights& weights) {
  const double clear = weights.line / 2 + 0.25;
  const int step = picture.even ? division_step(picture, length, kMarkGap) : 1;
  std::vector<MarkPicture> out;
  for (const MarkPicture& mark : picture.marks) {
    if (is_fill(mark, picture) || mark.division % step != 0) continue;
    if (std::abs(mark.at - picture.fill) * length < clear) continue;
    const bool crowded = !out.empty() && (mark.at - out.back().at) * length < kMarkGap - 1e-9;
    if (!crowded) out.push_back(mark);
  }
  return out;
}

// Length of a mark's tick over the longest. Where only every tenth division is drawn, the hundreds
// are the long ones: ticks that are all alike can't be counted.
double tick_rank(const ToolPicture& picture, int division, int step) {
  if (!picture.even) return 1;
  int tens = 10;
  while (tens <= step) tens *= 10;
  if (division % tens == 0) return 1;
  return division % (tens / 2) == 0 ? 0.72 : 0.46;
}

void draw_tick(Pen& pen, const Stand& stand, const Body& body, double u, double rank,
               double thickness) {
  const double half = half_at(body.profile, u);
  draw_bar(pen, stand, u, half - 2 * half * body.long_tick * rank, half, thickness);
}

void draw_ticks(Pen& pen, const Stand& stand, const Body& body, const ToolPicture& picture,
                const Weights& weights) {
  const double length = body.full - body.zero;
  const int step = division_step(picture, length, kMarkGap);
  // A lying tool has no figures at its marks: who counts them must find as many as on the real one.
  // It shows all of them, or only how far it is filled.
  const bool all = stand.upright || step == 1;
  for (const MarkPicture& mark :
       all ? thinned(picture, length, weights) : std::vector<MarkPicture>()) {
    draw_tick(pen, stand, body, body.zero + mark.at * length,
              tick_rank(picture, mark.division, step), weights.tick);
  }
  // There is always a tick where the fill is read, thinned or not.
  draw_tick(pen, stand, body, fill_u(body, picture), 1, weights.tick);
}

// From the plunger's seal to the thumb rest, and the grips at the barrel's end. The rod is drawn
// shorter than it is, so that the barrel keeps its size.
void draw_plunger(Pen& pen, const Stand& stand, const Body& body, const ToolPicture& picture,
                  double length, double grip, double wall) {
  const double half = body.profile.back().half;
  const double thick = 1.6 * wall;
  draw_bar(pen, stand, body.profile.back().u, -grip, grip, thick);
  const double rest = length * (0.89 + 0.11 * picture.fill) - thick / 2;
  const double rod = 0.18 * half;
  draw_profile(pen, stand, {{fill_u(body, picture), rod}, {rest, rod}}, wall);
  draw_bar(pen, stand, rest, -0.75 * half, 0.75 * half, thick);
}

// Foot and spout, the spout away from the marks.
void draw_cylinder_ends(Pen& pen, const Stand& stand, const Body& body, double length, double half,
                        double wall) {
  const double tube = body.profile.front().half;
  const double rim = body.profile.back().u;
  draw_profile(pen, stand, {{0, half}, {0.45 * body.zero, half}, {body.zero, tube}}, wall);
  draw_shape(
      pen,
      {stand.at(rim, tube), stand.at(length, tube), stand.at(length, -half), stand.at(rim, -tube)},
      Ink::white, wall);
  // The tube is open towards its spout.
  pen.fill(
      Outline().polygon(
          {stand.at(rim - wall, tube - 0.55 * wall), stand.at(rim + wall, tube - 0.55 * wall),
           stand.at(rim + wall, -tube + 0.55 * wall), stand.at(rim - wall, -tube + 0.55 * wall)}),
      Ink::white);
}

}  // namespace

void draw_vessel(Pen& pen, const Stand& stand, const Body& body, const ToolPicture& picture,
                 double length, double half, double grip, const Weights& weights) {
  pen.fill(Outline().polygon(corners_of(stand, body.profile)), Ink::white);
  const Profile filled = part_of(body.profile, body.zero, fill_u(body, picture));
  pen.fill(Outline().polygon(corners_of(stand, filled)), Ink::fill);
  draw_walls(pen, corners_of(stand, body.profile), weights.wall);
  if (picture.kind == Tool::Kind::cylinder)
    draw_cylinder_ends(pen, stand, body, length, half, weights.wall);
  draw_ticks(pen, stand, body, picture, weights);
  if (picture.kind == Tool::Kind::syringe)
    draw_plunger(pen, stand, body, picture, length, grip, weights.wall);
  if (picture.kind == Tool::Kind::cup)
    draw_bar(pen, stand, length, -half, half, 1.6 * weights.wall);
}

}  // namespace dosewright
