// Outlines that drawings of tools are made of, and the vessels that have marks; private to this
// folder.
#pragma once

#include <vector>

#include "dosewright/wording/content.hpp"
#include "pen.hpp"

namespace dosewright {

/// Thicknesses in mm.
struct Weights {
  double wall = 0.25;
  double tick = 0.18;
  double line = 0.7;  ///< the heavy line at the fill
};
inline constexpr Weights kLying{0.25, 0.18, 0.7};
inline constexpr Weights kUpright{0.4, 0.25, 1.1};

/// Where a tool stands on the page. `u` runs along it from its outlet or foot, `v` across it from
/// its axis, positive on the side of its marks: below when lying, left when upright.
struct Stand {
  Point origin;
  bool upright = false;
  [[nodiscard]] Point at(double u, double v) const {
    return upright ? Point{origin.x - v, origin.y - u} : Point{origin.x + u, origin.y + v};
  }
};

/// The outline of a tool that is the same on both sides of its axis.
struct Station {
  double u = 0;
  double half = 0;
};
using Profile = std::vector<Station>;

/// Half width at `u`; at a step, on the side away from the outlet.
[[nodiscard]] double half_at(const Profile& profile, double u);
[[nodiscard]] Profile part_of(const Profile& profile, double from, double to);
[[nodiscard]] std::vector<Point> corners_of(const Stand& stand, const Profile& profile);

/// Adds round stations from `from` to `to`, as wide as `half`, no narrower than `stem` at the
/// start.
void add_bulb(Profile& profile, double from, double to, double stem, double half);

/// A closed shape with walls round it.
void draw_shape(Pen& pen, const std::vector<Point>& corners, Ink ink, double wall);
/// The same, white, by its profile.
void draw_profile(Pen& pen, const Stand& stand, const Profile& profile, double wall);
/// A bar across the tool, with its middle at `u`.
void draw_bar(Pen& pen, const Stand& stand, double u, double from, double to, double thickness);

/// The vessel of a tool with marks.
struct Body {
  Profile profile;
  double zero = 0;         ///< u where it is empty
  double full = 0;         ///< u of its capacity, a little before its end
  double widest = 0;       ///< half width over all, foot included
  double long_tick = 0.5;  ///< over the width
};

/// The vessel of a kind that has marks, `length` long and `half` the width of its box.
[[nodiscard]] Body body_of(Tool::Kind kind, double length, double half);

/// Where the fill is read.
[[nodiscard]] double fill_u(const Body& body, const ToolPicture& picture);

/// Every how many divisions marks stand at least `least` apart, when the capacity is `length` long:
/// 1, 2, 5, 10, 20 …
[[nodiscard]] int division_step(const ToolPicture& picture, double length, double least);

/// A tool with marks, all but its heavy line. `grip` is half the length of a syringe's grips.
void draw_vessel(Pen& pen, const Stand& stand, const Body& body, const ToolPicture& picture,
                 double length, double half, double grip, const Weights& weights);

}  // namespace dosewright
