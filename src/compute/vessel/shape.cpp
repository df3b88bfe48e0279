#include "dosewright/vessel/shape.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dosewright {

namespace {

constexpr double kPi = std::numbers::pi;

// The part of a circle up to a depth `y` from its edge, in the units of `r` squared. Past the
// centre, r - y is negative and the formula adds the triangle instead of taking it. The angle is
// taken from both legs of the triangle, because its cosine alone loses a shallow bow in rounding.
double circle_up_to(double r, double y) {
  const double to_centre = r - y;
  const double half_chord = std::sqrt(std::max(0.0, y * (2 * r - y)));
  return r * r * std::atan2(half_chord, to_centre) - to_centre * half_chord;
}

Volume filled(const Prism& prism, Length height) { return prism.base * height; }

Volume filled(const Bucket& bucket, Length height) {
  if (height.stored() <= 0) return {};
  const Length r = bucket.across_bottom * 0.5;
  const Length top = bucket.across_top * 0.5;
  const Length at = r + (top - r) * (height / bucket.height);
  return (at * at + at * r + r * r) * (kPi / 3) * height;
}

Volume filled(const Drum& drum, Length height) {
  const double r = in_millimetres(drum.across) / 2;
  if (r <= 0) return {};
  return Area(circle_up_to(r, in_millimetres(height))) * drum.length;
}

}  // namespace

Area rectangle(Length length, Length width) { return length * width; }
Area circle(Length across) { return across * across * (kPi / 4); }
Area half_circle(Length across) { return circle(across) * 0.5; }
Area quarter_circle(Length side) { return side * side * (kPi / 4); }
Area hexagon(Length side) { return side * side * (1.5 * std::numbers::sqrt3); }
Area octagon(Length side) { return side * side * (2 * (1 + std::numbers::sqrt2)); }
Area ellipse(Length length, Length width) { return length * width * (kPi / 4); }

Length side_of_hexagon(Length across_flats) { return across_flats * (1 / std::numbers::sqrt3); }
Length side_of_octagon(Length across_flats) {
  return across_flats * (1 / (1 + std::numbers::sqrt2));
}

Area segment(Length chord, Length bow) {
  const double s = in_millimetres(bow);
  if (s <= 0) return {};
  const double c = in_millimetres(chord);
  return Area(circle_up_to((c * c / 4 + s * s) / (2 * s), s));
}

Area bow_front(Length length, Length width, Length bow) {
  return rectangle(length, width) + segment(length, bow);
}

Length height_of(const VesselShape& shape) {
  if (const auto* drum = std::get_if<Drum>(&shape)) return drum->across;
  if (const auto* bucket = std::get_if<Bucket>(&shape)) return bucket->height;
  return std::get<Prism>(shape).height;
}

Volume filled_to(const VesselShape& shape, Length height) {
  const Length up_to = std::min(height, height_of(shape));
  return std::visit([&](const auto& one) { return filled(one, up_to); }, shape);
}

Volume full(const VesselShape& shape) { return filled_to(shape, height_of(shape)); }

Holding less_substrate(Holding holding, Volume bulk, const Substrate& substrate) {
  holding.water = holding.water - bulk * (1 - as_ratio(substrate.porosity));
  holding.unsure = holding.unsure + bulk * as_ratio(substrate.unsure);
  return holding;
}

Holding joined(const std::vector<Holding>& parts) {
  Holding all;
  all.nominal = Volume();
  for (const Holding& part : parts) {
    all.water = all.water + part.water;
    all.unsure = all.unsure + part.unsure;
    if (!part.nominal) all.nominal.reset();
    if (all.nominal) all.nominal = *all.nominal + *part.nominal;
  }
  return all;
}

Volume water_by_tracer(Mass salt, Concentration rise) {
  return litres(in_grams(salt) / in_grams_per_litre(rise));
}

}  // namespace dosewright
