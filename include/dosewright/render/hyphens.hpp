// Where long words may be broken; for layout, as a measurer that knows it.
#pragma once

#include <string>

#include "dosewright/layout/text_measurer.hpp"

namespace dosewright {

/// Measures as `fonts` does, and breaks words by the patterns of a language (libhyphen, with the
/// pattern files of Debian's packages hyphen-en-us, hyphen-es, hyphen-fr and hyphen-de). Without a
/// file for the language no word is broken. `fonts` must outlive it.
class Hyphens : public TextMeasurer {
 public:
  Hyphens(const TextMeasurer& fonts, const std::string& language);

  [[nodiscard]] double width(std::string_view text, Face face) const override;
  [[nodiscard]] FaceMetrics metrics(Face face) const override;
  [[nodiscard]] std::vector<std::size_t> hyphen_points(std::string_view word) const override;

 private:
  struct Patterns;
  const TextMeasurer& fonts_;
  const Patterns* patterns_ = nullptr;  ///< of the language; lives as long as the program
};

}  // namespace dosewright
