#include "dosewright/render/fonts.hpp"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_TRUETYPE_TABLES_H

#include <array>
#include <cmath>
#include <filesystem>
#include <optional>
#include <unordered_map>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

// A letter made of a letter that is itself put together: libharu 2.3.0 loses the innermost part.
bool has_nested_composite(FT_Face face, FT_UInt glyph) {
  if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_RECURSE) != 0) return false;
  if (face->glyph->format != FT_GLYPH_FORMAT_COMPOSITE) return false;
  std::vector<FT_UInt> parts;
  for (FT_UInt i = 0; i < face->glyph->num_subglyphs; ++i) {
    FT_Int index = 0;
    FT_UInt flags = 0;
    FT_Int a = 0;
    FT_Int b = 0;
    FT_Matrix matrix{};
    if (FT_Get_SubGlyph_Info(face->glyph, i, &index, &flags, &a, &b, &matrix) == 0) {
      parts.push_back(static_cast<FT_UInt>(index));
    }
  }
  for (const FT_UInt part : parts) {
    if (FT_Load_Glyph(face, part, FT_LOAD_NO_SCALE | FT_LOAD_NO_RECURSE) != 0) continue;
    if (face->glyph->format == FT_GLYPH_FORMAT_COMPOSITE) return true;
  }
  return false;
}

std::optional<FT_ULong> first_nested_composite(FT_Face face) {
  FT_UInt glyph = 0;
  for (FT_ULong c = FT_Get_First_Char(face, &glyph); glyph != 0;
       c = FT_Get_Next_Char(face, c, &glyph)) {
    if (c <= 0xFFFF && has_nested_composite(face, glyph)) return c;
  }
  return std::nullopt;
}

class LoadedFonts : public Fonts {
 public:
  LoadedFonts() = default;
  LoadedFonts(const LoadedFonts&) = delete;
  LoadedFonts& operator=(const LoadedFonts&) = delete;
  ~LoadedFonts() override {
    for (FT_Face face : faces_) {
      if (face != nullptr) FT_Done_Face(face);
    }
    if (library_ != nullptr) FT_Done_FreeType(library_);
  }

  // Nothing on success, else what is wrong.
  std::optional<std::string> open(const std::string& folder) {
    if (FT_Init_FreeType(&library_) != 0) return "the font library could not be started";
    const std::array<const char*, 2> names = {"Go-Regular.ttf", "Go-Bold.ttf"};
    for (std::size_t i = 0; i < names.size(); ++i) {
      files_[i] = folder + '/' + names[i];
      if (auto problem = open_face(i)) return problem;
    }
    return std::nullopt;
  }

  [[nodiscard]] double width(std::string_view text, Face face) const override {
    double thousandths = 0;
    for (const char32_t c : to_characters(text)) thousandths += thousandths_of(c, face);
    return thousandths / 1000;
  }

  [[nodiscard]] FaceMetrics metrics(Face face) const override {
    FT_Face native = face_of(face);
    const auto* os2 = static_cast<TT_OS2*>(FT_Get_Sfnt_Table(native, FT_SFNT_OS2));
    const double em = native->units_per_EM;
    FaceMetrics out{0.7, 0.5, native->ascender / em, -native->descender / em};
    if (os2 != nullptr && os2->version >= 2) {
      out.cap_height = os2->sCapHeight / em;
      out.x_height = os2->sxHeight / em;
    }
    return out;
  }

  [[nodiscard]] bool covers(char32_t character) const override {
    return FT_Get_Char_Index(faces_[0], character) != 0 &&
           FT_Get_Char_Index(faces_[1], character) != 0;
  }
  [[nodiscard]] const std::string& file(Face face) const override { return files_[index(face)]; }
  [[nodiscard]] void* native(Face face) const override { return faces_[index(face)]; }
  [[nodiscard]] double advance(char32_t character, Face face) const override {
    return thousandths_of(character, face) / 1000;
  }

 private:
  static std::size_t index(Face face) { return face == Face::regular ? 0 : 1; }
  [[nodiscard]] FT_Face face_of(Face face) const { return faces_[index(face)]; }

  std::optional<std::string> open_face(std::size_t i) {
    const std::string& file = files_[i];
    if (!std::filesystem::exists(file)) {
      return "the printing font is missing: " + file + " (Debian package fonts-go)";
    }
    if (FT_New_Face(library_, file.c_str(), 0, &faces_[i]) != 0) {
      return "this is not a usable font: " + file;
    }
    FT_ULong length = 0;
    if (FT_Load_Sfnt_Table(faces_[i], FT_MAKE_TAG('g', 'l', 'y', 'f'), 0, nullptr, &length) != 0) {
      return "this font has no TrueType outlines, which the PDF needs: " + file;
    }
    if (first_nested_composite(faces_[i])) {
      return "this font nests composite letters, which would print with parts missing: " + file;
    }
    note_widths(i);
    return std::nullopt;
  }

  // Laying out a label asks for widths a million times; loading a letter each time took seconds.
  void note_widths(std::size_t i) {
    FT_UInt glyph = 0;
    for (FT_ULong c = FT_Get_First_Char(faces_[i], &glyph); glyph != 0;
         c = FT_Get_Next_Char(faces_[i], c, &glyph)) {
      widths_[i].emplace(static_cast<char32_t>(c), width_of_glyph(faces_[i], glyph));
    }
  }

  // In whole thousandths of the em, cut off, as libharu writes them.
  static double width_of_glyph(FT_Face face, FT_UInt glyph) {
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0) return 0;
    return std::floor(static_cast<double>(face->glyph->metrics.horiAdvance) * 1000 /
                      face->units_per_EM);
  }

  [[nodiscard]] double thousandths_of(char32_t character, Face face) const {
    const auto& widths = widths_[index(face)];
    const auto found = widths.find(character);
    return found == widths.end() ? width_of_glyph(face_of(face), 0) : found->second;
  }

  FT_Library library_ = nullptr;
  std::array<FT_Face, 2> faces_{};
  std::array<std::string, 2> files_;
  std::array<std::unordered_map<char32_t, double>, 2> widths_;
};

}  // namespace

std::variant<std::unique_ptr<Fonts>, std::string> Fonts::load(const std::string& folder) {
  auto fonts = std::make_unique<LoadedFonts>();
  if (auto problem = fonts->open(folder)) return *problem;
  return std::unique_ptr<Fonts>(std::move(fonts));
}

}  // namespace dosewright
