// What layout must know of the fonts; the render step provides it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "dosewright/layout/display_list.hpp"

namespace dosewright {

/// Measures as parts of the em.
struct FaceMetrics {
  double cap_height = 0;
  double x_height = 0;
  double ascent = 0;   ///< of the tallest letters with accents that occur
  double descent = 0;  ///< positive, below the baseline
};

class TextMeasurer {
 public:
  TextMeasurer() = default;
  TextMeasurer(const TextMeasurer&) = delete;
  TextMeasurer& operator=(const TextMeasurer&) = delete;
  virtual ~TextMeasurer() = default;

  /// Width of one line as a part of the em, exactly as both renderers set it.
  [[nodiscard]] virtual double width(std::string_view text, Face face) const = 0;
  [[nodiscard]] virtual FaceMetrics metrics(Face face) const = 0;

  /// Bytes of a word before which it may be broken with a hyphen, ascending; none where words stay
  /// whole. Layout breaks only a word that is wider than its line.
  [[nodiscard]] virtual std::vector<std::size_t> hyphen_points(std::string_view word) const {
    (void)word;
    return {};
  }
};

}  // namespace dosewright
