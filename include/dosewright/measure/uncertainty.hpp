// Putting errors together: worst cases and standard uncertainties of products and quotients.
#pragma once

#include <vector>

#include "dosewright/measure/measure.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// A relative error: at most so much either way, and as a standard uncertainty.
struct RelativeError {
  Share worst;
  Share standard;
};

/// Standard uncertainty of a value that lies anywhere within ±half with equal chance: half / root 3
/// (GUM, JCGM 100:2008, 4.3.7).
[[nodiscard]] Share rectangular(Share half);
/// The same where values near the middle are likelier: half / root 6 (GUM 4.3.9).
[[nodiscard]] Share triangular(Share half);

/// ±half, evenly spread.
[[nodiscard]] RelativeError evenly_spread(Share half);

/// Standard uncertainty of a product or quotient of independent values: root of the sum of squares
/// of their relative uncertainties (GUM 5.1.6).
[[nodiscard]] Share combined(const std::vector<Share>& parts);

inline constexpr Share kUnbounded = share(99);

/// Worst case of a product of `factors` over a product of `divisors`, at the corner where all of
/// them err the same way: (1 + a)(1 + b) … / (1 - c) … - 1; at most kUnbounded, which stands for
/// all that is not bounded at all: a divisor that may be next to nothing.
[[nodiscard]] Share worst_of(const std::vector<Share>& factors, const std::vector<Share>& divisors);

/// The error of what a dose brings into the water, expressed in mL or g of the dose.
struct DoseError {
  Portion bound;        ///< rounding, tools, strength and vessel, all at their worst
  Portion uncertainty;  ///< tools, strength and vessel in quadrature; the rounding is known, so it
                        ///< is no part of it
  Portion most;         ///< the largest dose it can amount to
  Portion least;        ///< the smallest
};

/// `delivered` with the tools' worst case and standard uncertainty, of a stock whose strength and
/// into a vessel whose volume are off by so much, against `exact`: delivered * strength / vessel.
[[nodiscard]] DoseError dose_error(Portion exact, Portion delivered, Portion tool_bound,
                                   Portion tool_uncertainty, const RelativeError& strength,
                                   const RelativeError& vessel);

}  // namespace dosewright
