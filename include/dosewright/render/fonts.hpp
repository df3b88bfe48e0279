// The printing fonts: two weights of one family, checked before a single letter is drawn.
#pragma once

#include <memory>
#include <string>
#include <variant>

#include "dosewright/layout/text_measurer.hpp"

namespace dosewright {

/// Fonts loaded from files. Widths are those libharu writes: whole thousandths of the em, cut off.
class Fonts : public TextMeasurer {
 public:
  /// Loads Go-Regular.ttf and Go-Bold.ttf from `folder`, or says what is wrong: missing, damaged,
  /// without TrueType outlines, or with composite letters inside composite letters, which libharu
  /// 2.3 would print without their base letter.
  [[nodiscard]] static std::variant<std::unique_ptr<Fonts>, std::string> load(
      const std::string& folder);

  /// Whether both weights have a letter for the character.
  [[nodiscard]] virtual bool covers(char32_t character) const = 0;
  [[nodiscard]] virtual const std::string& file(Face face) const = 0;
  /// The FreeType face behind a weight, for the renderers of this folder only.
  [[nodiscard]] virtual void* native(Face face) const = 0;
  /// Advance of one character as a part of the em.
  [[nodiscard]] virtual double advance(char32_t character, Face face) const = 0;
};

/// The folder Debian's package fonts-go installs to.
inline constexpr const char* kFontFolder = "/usr/share/fonts/fonts-go";

}  // namespace dosewright
