// Typed amounts with one stored unit each, so that a millilitre is never taken for a gram; not for
// reading or printing them (see parse.hpp and print.hpp).
#pragma once

#include <compare>
#include <stdexcept>
#include <string>
#include <variant>

namespace dosewright {

/// A number of one kind of amount. Values are made and read only through the named functions below,
/// which state the unit. Values are finite; parsing admits no negative ones.
template <class Kind>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double stored) : stored_(stored) {}
  [[nodiscard]] constexpr double stored() const { return stored_; }

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator+(Quantity other) const { return Quantity(stored_ + other.stored_); }
  constexpr Quantity operator-(Quantity other) const { return Quantity(stored_ - other.stored_); }
  constexpr Quantity operator*(double factor) const { return Quantity(stored_ * factor); }
  constexpr double operator/(Quantity other) const { return stored_ / other.stored_; }

 private:
  double stored_ = 0;
};

using Volume = Quantity<struct VolumeKind>;                    // stored in mL
using Mass = Quantity<struct MassKind>;                        // stored in g
using Concentration = Quantity<struct ConcentrationKind>;      // mass per volume, stored in g/L
using VolumePerVolume = Quantity<struct VolumePerVolumeKind>;  // stored in mL/L
using MassPerMass = Quantity<struct MassPerMassKind>;          // stored in g/g
using VolumePerMass = Quantity<struct VolumePerMassKind>;      // stored in mL/g
using Length = Quantity<struct LengthKind>;                    // stored in mm
using Area = Quantity<struct AreaKind>;                        // stored in square mm
using Duration = Quantity<struct DurationKind>;                // stored in days
using Temperature = Quantity<struct TemperatureKind>;          // stored in degrees Celsius
using Share = Quantity<struct ShareKind>;                      // a part of a whole, 1 = all of it

constexpr Volume millilitres(double v) { return Volume(v); }
constexpr Volume litres(double v) { return Volume(v * 1000); }
constexpr Mass grams(double v) { return Mass(v); }
constexpr Concentration grams_per_litre(double v) { return Concentration(v); }
constexpr VolumePerVolume millilitres_per_litre(double v) { return VolumePerVolume(v); }
constexpr MassPerMass grams_per_gram(double v) { return MassPerMass(v); }
constexpr VolumePerMass millilitres_per_gram(double v) { return VolumePerMass(v); }
constexpr Length millimetres(double v) { return Length(v); }
constexpr Duration days(double v) { return Duration(v); }
constexpr Temperature degrees_celsius(double v) { return Temperature(v); }
constexpr Share share(double v) { return Share(v); }

constexpr double in_millilitres(Volume v) { return v.stored(); }
constexpr double in_litres(Volume v) { return v.stored() / 1000; }
constexpr double in_grams(Mass v) { return v.stored(); }
constexpr double in_grams_per_litre(Concentration v) { return v.stored(); }
constexpr double in_millilitres_per_litre(VolumePerVolume v) { return v.stored(); }
constexpr double in_grams_per_gram(MassPerMass v) { return v.stored(); }
constexpr double in_millilitres_per_gram(VolumePerMass v) { return v.stored(); }
constexpr double in_millimetres(Length v) { return v.stored(); }
constexpr double in_days(Duration v) { return v.stored(); }
constexpr double in_degrees_celsius(Temperature v) { return v.stored(); }
constexpr double as_ratio(Share v) { return v.stored(); }

/// Stock that goes into `water` at `rate`.
constexpr Volume operator*(VolumePerVolume rate, Volume water) {
  return millilitres(in_millilitres_per_litre(rate) * in_litres(water));
}
/// `stock` for each litre of `water`.
constexpr VolumePerVolume rate_of(Volume stock, Volume water) {
  return millilitres_per_litre(in_millilitres(stock) / in_litres(water));
}
constexpr Mass operator*(Concentration strength, Volume volume) {
  return grams(in_grams_per_litre(strength) * in_litres(volume));
}
constexpr Concentration operator/(Mass mass, Volume volume) {
  return grams_per_litre(in_grams(mass) / in_litres(volume));
}
constexpr Volume operator*(VolumePerMass displacement, Mass mass) {
  return millilitres(in_millilitres_per_gram(displacement) * in_grams(mass));
}
constexpr Area operator*(Length a, Length b) { return Area(a.stored() * b.stored()); }
constexpr Volume operator*(Area base, Length height) {
  return millilitres(base.stored() * in_millimetres(height) / 1000);
}

/// What is measured out: mL of a liquid or g of a powder. Adding, comparing or dividing the one by
/// the other is a fault of the program and throws std::logic_error. A portion of nothing counts as
/// liquid.
class Portion {
 public:
  constexpr Portion() = default;
  constexpr Portion(Volume volume) : stored_(in_millilitres(volume)) {}
  constexpr Portion(Mass mass) : powder_(true), stored_(in_grams(mass)) {}
  /// A portion of the same kind as `other`, so many mL or g.
  static constexpr Portion like(Portion other, double stored) {
    Portion made;
    made.powder_ = other.powder_;
    made.stored_ = stored;
    return made;
  }

  [[nodiscard]] constexpr bool is_powder() const { return powder_; }
  /// mL of a liquid, g of a powder: for arithmetic that is the same for both.
  [[nodiscard]] constexpr double stored() const { return stored_; }

  constexpr Portion operator+(Portion other) const { return same(other, stored_ + other.stored_); }
  constexpr Portion operator-(Portion other) const { return same(other, stored_ - other.stored_); }
  constexpr Portion operator*(double factor) const { return like(*this, stored_ * factor); }
  constexpr double operator/(Portion other) const {
    return same(other, stored_).stored_ / other.stored_;
  }
  constexpr bool operator==(Portion other) const {
    return same(other, stored_).stored_ == other.stored_;
  }
  constexpr auto operator<=>(Portion other) const {
    return same(other, stored_).stored_ <=> other.stored_;
  }

 private:
  [[nodiscard]] constexpr Portion same(Portion other, double stored) const {
    if (powder_ != other.powder_) throw std::logic_error("a liquid measured against a powder");
    return like(*this, stored);
  }

  bool powder_ = false;
  double stored_ = 0;
};

/// Precondition: a liquid.
constexpr double in_millilitres(Portion portion) {
  if (portion.is_powder()) throw std::logic_error("a powder asked for its mL");
  return portion.stored();
}
/// Precondition: a powder.
constexpr double in_grams(Portion portion) {
  if (!portion.is_powder()) throw std::logic_error("a liquid asked for its grams");
  return portion.stored();
}

/// How much goes into an amount of water: of a liquid stock, or of a powder straight from its tub.
using DoseRate = std::variant<VolumePerVolume, Concentration>;

inline Portion operator*(const DoseRate& rate, Volume water) {
  if (const auto* liquid = std::get_if<VolumePerVolume>(&rate)) return *liquid * water;
  return std::get<Concentration>(rate) * water;
}
/// mL per L or g per L. Precondition for comparing two of them: both are of one kind.
inline double per_litre(const DoseRate& rate) {
  if (const auto* liquid = std::get_if<VolumePerVolume>(&rate))
    return in_millilitres_per_litre(*liquid);
  return in_grams_per_litre(std::get<Concentration>(rate));
}

/// A price in the user's own currency; no currency is ever assumed or converted.
struct Money {
  double amount = 0;
  std::string currency;  ///< three letters as in ISO 4217, such as EUR
};

/// Which kitchen and liquid measures a bare "gal", "cup" or "tbsp" belongs to.
enum class MeasureSystem { undeclared, us, imperial, metric, australian };

}  // namespace dosewright
