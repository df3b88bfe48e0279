// How much water a vessel holds, from what a tape measure, a bag of salt or its label says; not for
// how people write it down.
//
// All lengths are inside measures. The formulas of plane and solid figures are those of any
// handbook of geometry; where a source has check figures, the tests name it.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// Base areas. Each is that of a vessel with upright walls, so that depth times it is volume.
[[nodiscard]] Area rectangle(Length length, Length width);  ///< length width
[[nodiscard]] Area circle(Length across);                   ///< pi r^2
[[nodiscard]] Area half_circle(Length across);              ///< pi r^2 / 2; across: its flat back
[[nodiscard]] Area quarter_circle(Length side);             ///< pi side^2 / 4; side: a straight one
[[nodiscard]] Area hexagon(Length side);                    ///< (3 sqrt 3 / 2) side^2
[[nodiscard]] Area octagon(Length side);                    ///< 2 (1 + sqrt 2) side^2
[[nodiscard]] Area ellipse(Length length, Length width);    ///< pi / 4 length width

/// The side of a regular hexagon or octagon from its width between opposite walls: it is
/// sqrt 3 sides of the one and 1 + sqrt 2 sides of the other.
[[nodiscard]] Length side_of_hexagon(Length across_flats);
[[nodiscard]] Length side_of_octagon(Length across_flats);

/// A segment of a circle over a chord: R = (c^2/4 + s^2) / (2s),
/// A = R^2 acos((R-s)/R) - (R-s) sqrt(2Rs - s^2); nothing for a bow of nothing.
[[nodiscard]] Area segment(Length chord, Length bow);
/// A box whose front stands out as a part of a circle: length width + segment(length, bow).
/// `width` is that of the ends.
[[nodiscard]] Area bow_front(Length length, Length width, Length bow);

/// Upright walls over any base.
struct Prism {
  Area base;
  Length height;
};

/// A frustum of a cone. V = pi h / 3 (R^2 + R r + r^2); at the depth y its radius is
/// r + (R - r) y / h, so that filled to y it holds a frustum of that upper radius.
struct Bucket {
  Length across_bottom;
  Length across_top;
  Length height;
};

/// A cylinder lying on its side with flat ends. Filled to y it holds the circular segment of that
/// depth times its length: A = r^2 acos((r-y)/r) - (r-y) sqrt(2ry - y^2).
struct Drum {
  Length across;
  Length length;
};

using VesselShape = std::variant<Prism, Bucket, Drum>;

/// From its bottom to its brim (a drum: to its top).
[[nodiscard]] Length height_of(const VesselShape& shape);
/// What it holds up to a height above its bottom. No more than when full.
[[nodiscard]] Volume filled_to(const VesselShape& shape, Length height);
[[nodiscard]] Volume full(const VesselShape& shape);

/// Gravel, sand or soil on the bottom: solids with water between them.
struct Substrate {
  Length depth;
  Share porosity;  ///< the part of its bulk that is water
  Share unsure;    ///< half-width of that part
};

/// What gravel and sand take when nobody has measured their porosity. Published void ratios e of
/// gravel (0.4) and of dense and loose sand (0.4 and 0.8) give n = e / (1 + e) = 0.29 to 0.44
/// (typical void ratios as compiled by sciencing.com; n = e / (1 + e) is the definition). The
/// middle, and a half-width that takes in both ends, are ours.
inline constexpr Share kUsualPorosity = share(0.36);
inline constexpr Share kPorosityUnsure = share(0.08);

/// The water a vessel holds, how far that is off for want of a measure, and what it would hold
/// empty and full to the brim.
struct Holding {
  Volume water;
  Volume unsure;
  std::optional<Volume> nominal;  ///< nothing when its height is not known
};

/// `holding` less the solids of a substrate that fills `bulk` of it: bulk (1 - porosity). In a
/// vessel with upright walls, bulk is area times depth.
[[nodiscard]] Holding less_substrate(Holding holding, Volume bulk, const Substrate& substrate);
/// All of them as one water; the nominal volume is known when each is. Their errors add up: the
/// same gravel is off the same way everywhere.
[[nodiscard]] Holding joined(const std::vector<Holding>& parts);

/// The water in which an amount of salt raises the concentration by `rise`: V = m / rise, by the
/// balance of mass. Precondition: a rise of more than nothing.
[[nodiscard]] Volume water_by_tracer(Mass salt, Concentration rise);

}  // namespace dosewright
