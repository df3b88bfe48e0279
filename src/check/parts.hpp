// The checker's parts, one for each section of a description; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/check/check.hpp"
#include "dosewright/hazard/classes.hpp"
#include "dosewright/hazard/statements.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/vessel/shape.hpp"
#include "map_reader.hpp"

namespace dosewright {

/// Calls `read(id, node, path)` for every entry of the section `key`.
template <class Read>
void for_each_entry(const Checking& checking, const Node& tree, const std::string& key,
                    const Read& read) {
  for (const Entry& entry : tree.entries) {
    if (entry.key != key) continue;
    if (entry.value.kind == Node::Kind::empty) return;
    if (entry.value.kind != Node::Kind::map) {
      checking.error(entry.value.place, key, "expected a map from ids to entries",
                     "write an id, a colon, and its keys on the lines below");
      return;
    }
    for (const Entry& item : entry.value.entries) {
      read(item.key, item.value, key + '.' + item.key, item.key_place);
    }
  }
}

template <class Item>
[[nodiscard]] std::vector<std::string> ids_of(const std::vector<Item>& items) {
  std::vector<std::string> out;
  for (const Item& item : items) out.push_back(item.id);
  return out;
}

/// A volume in the measures that the file declares.
[[nodiscard]] inline MapReader::Parse<Volume> volume_in(const Checking& checking) {
  return [system = checking.measures](std::string_view text) { return parse_volume(text, system); };
}

/// Beyond these a slip of the unit is likelier than the thing: our own limits.
inline constexpr Volume kLargestBottle = litres(2'000);
inline constexpr Volume kLargestTool = litres(100);
inline constexpr Mass kLargestScale = grams(200'000);

void check_products(const Checking& checking, const Node& tree, const HazardBooks& books,
                    Room& room);
void check_stocks(const Checking& checking, const Node& tree, const HazardBooks& books, Room& room);
void check_containers(const Checking& checking, const Node& tree, Room& room);
void check_tools(const Checking& checking, const Node& tree, Room& room);
void check_vessels(const Checking& checking, const Node& tree, Room& room);
/// Needs all other sections in `room`. `paper` is what charts are printed on unless they say other.
void check_documents(const Checking& checking, const Node& tree, const std::string& paper,
                     Room& room);

/// The target that the dose's `key` asks for: reach, remove or raise.
void read_dose_target(const MapReader& map, const std::string& key, const Stock& stock,
                      const Room& room, const Knowledge& knowledge, DoseRule& dose);
/// A stock mixed from a stronger one: `diluted from`, with `take` or `strength`. Fills the recipe
/// with what is taken holds. Needs the stock's water.
void read_dilution(const MapReader& map, const Room& room, Stock& stock);
/// Whether the text asks for a finished strength, such as "100 g/L" or "64 g/L as anhydrous".
[[nodiscard]] bool asks_for_strength(const std::string& text);
/// The amount that brings the finished volume to the strength asked for.
[[nodiscard]] std::optional<Mass> amount_for_strength(const MapReader& recipe, const Entry& entry,
                                                      const Product& product,
                                                      const RecipeWater& water);

/// Reports the keys that say something of `remove:` or `reach:` where that is not given.
void refuse_stray_keys(const MapReader& dose);
/// `treats:`, the water that all of a recipe is for.
void read_whole_mix(const MapReader& map, const Stock& stock, DoseRule& dose);
/// `over:` and `then:`. Needs the rule's water basis.
void read_course(const MapReader& map, DoseRule& dose);

[[nodiscard]] Hazards check_hazards(const MapReader& stock, const HazardBooks& books);

/// The classification below `hazards:` of a product or a known substance.
[[nodiscard]] Classification read_classification(const MapReader& parent, const ClassBook& classes);
/// What a bought mixture contains; every name is a product or a known substance.
[[nodiscard]] std::vector<Content> read_contents(const MapReader& map, const Knowledge& knowledge,
                                                 const std::vector<std::string>& products);
/// Reports bought mixtures that contain themselves or each other.
void refuse_rings(const Checking& checking, const Room& room);
/// The families of chemicals that the table of incompatibilities knows.
[[nodiscard]] std::vector<std::string> known_families(const Knowledge& knowledge);

/// A volume that must be more than nothing and not absurd.
[[nodiscard]] std::optional<Volume> real_volume(const MapReader& map, std::string_view key,
                                                std::string_view example, Volume largest);

/// A vessel's inside and how high the water stands in it.
struct FilledShape {
  VesselShape shape;
  Length fill;
  bool brim_known = true;  ///< else the shape ends at the water
};
/// Whether the map holds the shape or a measure of a vessel.
[[nodiscard]] bool has_measures(const MapReader& map);
/// The shape that the measures of a vessel make; every measure it lacks, or that is not of it, is
/// reported.
[[nodiscard]] std::optional<FilledShape> read_shape(const MapReader& map);

/// `density:` of a liquid, between 0.5 and 3 g/mL.
[[nodiscard]] std::optional<Concentration> read_density(const MapReader& map);

/// A bare number; nothing, with a message, for anything else or outside the two.
[[nodiscard]] std::optional<double> read_number(const MapReader& map, std::string_view key,
                                                double least, double most,
                                                std::string_view example);

/// The other ways in which the description states a stock's strength or dose.
[[nodiscard]] std::vector<Claim> read_claims(const MapReader& stock_map, const Stock& stock,
                                             const Room& room);

[[nodiscard]] LabelRequest read_label(const MapReader& map, const Room& room);
/// The sheets that labels share.
void check_sheets(const Checking& checking, const Node& tree, Room& room);

/// The papers known by name.
[[nodiscard]] const std::vector<PaperSize>& papers();
[[nodiscard]] std::vector<std::string> paper_names();
/// A4 for a name that is not known.
[[nodiscard]] PaperSize paper_named(const std::string& name);

}  // namespace dosewright
