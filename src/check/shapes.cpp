// The shape of a vessel from the measures that people take of it.
#include <map>

#include "dosewright/base/text.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

using Words = std::vector<std::string>;

struct ShapeKind {
  std::string word;
  Words measures;
};

const std::vector<ShapeKind>& shape_kinds() {
  static const std::vector<ShapeKind> kinds = {
      {"box", {"length", "width", "height"}},
      {"cylinder", {"across", "height"}},
      {"half cylinder", {"across", "height"}},
      {"quarter cylinder", {"side", "height"}},
      {"hexagon", {"side", "height"}},
      {"octagon", {"side", "height"}},
      {"ellipse", {"length", "width", "height"}},
      {"bow front", {"length", "width", "bow", "height"}},
      {"bucket", {"across top", "across bottom", "height"}},
      {"drum", {"across", "length"}},
  };
  return kinds;
}

// What each measure is and an example of it, for the hint when it is missing.
const std::map<std::string, std::string>& measures() {
  static const std::map<std::string, std::string> words = {
      {"length", "its length inside, such as 120 cm"},
      {"width", "its width inside (of a bow front, at its ends), such as 45 cm"},
      {"height", "from its inside bottom to the brim, such as 50 cm"},
      {"across", "its inside diameter, such as 60 cm"},
      {"side", "one straight side inside, such as 30 cm"},
      {"bow", "how far the middle of the front stands out beyond the ends, such as 10 cm"},
      {"across top", "its inside diameter at the brim, such as 30 cm"},
      {"across bottom", "its inside diameter at the bottom, such as 25 cm"},
  };
  return words;
}

Words shape_words() {
  Words words;
  for (const ShapeKind& kind : shape_kinds()) words.push_back(kind.word);
  return words;
}

const ShapeKind* kind_called(const std::string& word) {
  for (const ShapeKind& kind : shape_kinds()) {
    if (kind.word == word) return &kind;
  }
  return nullptr;
}

std::string with_article(const std::string& word) {
  return (word.find_first_of("aeiou") == 0 ? "an " : "a ") + word;
}

class ShapeReader {
 public:
  explicit ShapeReader(const MapReader& map) : map_(map) {}

  std::optional<FilledShape> read() {
    if (!find_kind()) return std::nullopt;
    refuse_strangers();
    bool whole = read_inside();
    for (const std::string& measure : kind_.measures) whole = read_measure(measure) && whole;
    const auto fill =
        map_.needed<Length>("filled to", "the height of the water, such as 16 in", parse_length);
    if (!fill || !whole) return std::nullopt;
    // Only "across" without a shape goes without the vessel's height.
    const bool brim_known = kind_.word == "drum" || lengths_.contains("height");
    if (!brim_known) lengths_["height"] = *fill;
    const FilledShape made{shape(), *fill, brim_known};
    if (!bow_fits() || !fill_fits(made)) return std::nullopt;
    return made;
  }

 private:
  // The shape that is named; "inside" without a name is a box, "across" an upright cylinder.
  bool find_kind() {
    std::string word = map_.find("inside") != nullptr ? "box" : "cylinder";
    named_ = map_.find("shape") != nullptr;
    if (named_) word = map_.word("shape", shape_words(), "");
    if (!named_ && map_.find("inside") == nullptr && map_.find("across") == nullptr) {
      map_.error(map_.node().place, map_.path(), "measures without a shape",
                 "add shape: " + either(shape_words()));
      return false;
    }
    const ShapeKind* found = kind_called(word);
    if (found == nullptr) return false;
    kind_ = *found;
    // A hexagon or octagon may be measured between two walls instead of along one.
    if (is_polygon() && map_.find("side") == nullptr && map_.find("across") != nullptr)
      kind_.measures.front() = "across";
    return true;
  }

  [[nodiscard]] bool is_polygon() const {
    return kind_.word == "hexagon" || kind_.word == "octagon";
  }

  // Whether "inside: length x width x height" says all its straight measures.
  [[nodiscard]] bool takes_inside() const {
    return among(kind_.measures, "length") && among(kind_.measures, "width");
  }

  void refuse_strangers() const {
    Words keys = kind_.measures;
    if (takes_inside()) keys.emplace_back("inside");
    for (const Entry& entry : map_.node().entries) {
      const bool measure = measures().contains(entry.key) || entry.key == "inside";
      if (!measure || among(keys, entry.key)) continue;
      if (is_polygon() && (entry.key == "side" || entry.key == "across")) {
        map_.error(entry.key_place, map_.path_of(entry.key),
                   with_article(kind_.word) + " is measured by its side or across, not by both",
                   "take one of the two out");
        continue;
      }
      map_.error(entry.key_place, map_.path_of(entry.key),
                 with_article(kind_.word) + " has no measure " + quoted(entry.key),
                 "it is measured by " + all_of(kind_.measures) + "; take this one out");
    }
  }

  bool read_inside() {
    if (!takes_inside() || map_.find("inside") == nullptr) return true;
    const auto sides = map_.value<std::vector<Length>>(
        "inside", [](std::string_view text) { return parse_lengths(text, 3); });
    // What the one line should have said is not asked for once more.
    std::size_t side = 0;
    for (const char* measure : {"length", "width", "height"}) {
      lengths_[measure] = sides ? (*sides)[side] : Length();
      ++side;
      if (map_.find(measure) == nullptr) continue;
      map_.error(map_.find(measure)->place, map_.path_of(measure), "this measure is given twice",
                 "inside: says it already; take one of them out");
    }
    return sides.has_value();
  }

  bool read_measure(const std::string& measure) {
    if (lengths_.contains(measure)) return true;
    if (map_.find(measure) == nullptr) {
      if (measure == "height" && !named_) return true;
      map_.error(map_.node().place, map_.path(),
                 with_article(kind_.word) + " needs " + quoted(measure),
                 "add " + measure + ": " + measures().at(measure));
      return false;
    }
    const auto length = map_.value<Length>(measure, parse_length);
    if (length) lengths_[measure] = *length;
    return length.has_value();
  }

  [[nodiscard]] Length at(const std::string& measure) const { return lengths_.at(measure); }

  [[nodiscard]] Length polygon_side() const {
    if (lengths_.contains("side")) return at("side");
    return kind_.word == "hexagon" ? side_of_hexagon(at("across")) : side_of_octagon(at("across"));
  }

  [[nodiscard]] Area base() const {
    if (kind_.word == "cylinder") return circle(at("across"));
    if (kind_.word == "half cylinder") return half_circle(at("across"));
    if (kind_.word == "quarter cylinder") return quarter_circle(at("side"));
    if (kind_.word == "hexagon") return hexagon(polygon_side());
    if (kind_.word == "octagon") return octagon(polygon_side());
    if (kind_.word == "ellipse") return ellipse(at("length"), at("width"));
    if (kind_.word == "bow front") return bow_front(at("length"), at("width"), at("bow"));
    return rectangle(at("length"), at("width"));
  }

  [[nodiscard]] VesselShape shape() const {
    if (kind_.word == "bucket") return Bucket{at("across bottom"), at("across top"), at("height")};
    if (kind_.word == "drum") return Drum{at("across"), at("length")};
    return Prism{base(), at("height")};
  }

  [[nodiscard]] bool bow_fits() const {
    if (kind_.word != "bow front" || at("bow") <= at("length") * 0.5) return true;
    map_.error(map_.find("bow")->place, map_.path_of("bow"),
               "the front stands out by more than half the length",
               "bow: is how far the middle of the front stands out beyond the ends");
    return false;
  }

  [[nodiscard]] bool fill_fits(const FilledShape& made) const {
    if (made.fill <= height_of(made.shape)) return true;
    std::string hint = "height: is from the inside bottom to the brim; the water ends below it";
    if (kind_.word == "drum") hint = "a drum lies on its side: it is as high as it is across";
    if (map_.find("inside") != nullptr)
      hint = "inside: is length x width x height; the water ends below the height";
    map_.error(map_.find("filled to")->place, map_.path_of("filled to"),
               "the water stands higher than the vessel", hint);
    return false;
  }

  const MapReader& map_;
  ShapeKind kind_;
  bool named_ = false;
  std::map<std::string, Length> lengths_;
};

}  // namespace

bool has_measures(const MapReader& map) {
  for (const Entry& entry : map.node().entries) {
    if (entry.key == "shape" || entry.key == "inside" || entry.key == "filled to" ||
        measures().contains(entry.key))
      return true;
  }
  return false;
}

std::optional<FilledShape> read_shape(const MapReader& map) { return ShapeReader(map).read(); }

}  // namespace dosewright
