// Vessels: how much water is in them, from their volume, their measures or a salt tracer.
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// A vessel, or another that is joined to it, before what the tracer says.
class HoldingReader {
 public:
  HoldingReader(const MapReader& map, bool traced) : map_(map), traced_(traced) {}

  std::optional<Holding> read() {
    if (!given_once()) return std::nullopt;
    auto holding = map_.find("volume") != nullptr ? by_volume() : by_measures();
    if (!holding) return std::nullopt;
    if (!sensible(holding->water)) return std::nullopt;
    displace(*holding);
    return holding;
  }

 private:
  [[nodiscard]] bool given_once() const {
    const bool both = map_.find("shape") == nullptr && map_.find("inside") != nullptr &&
                      map_.find("across") != nullptr;
    const int given =
        (map_.find("volume") != nullptr ? 1 : 0) + (has_measures(map_) ? 1 : 0) + (both ? 1 : 0);
    if (given == 1 || !map_.is_map()) return map_.is_map();
    map_.error(map_.node().place, map_.path(),
               given == 0 ? "the volume is missing" : "the volume is given in more than one way",
               "give one of volume: 20 US gal, inside: 30 x 12 x 18 in, across: 60 cm, or shape: "
               "with its measures");
    return false;
  }

  [[nodiscard]] std::optional<Holding> by_volume() const {
    if (const Node* node = map_.find("substrate"); node != nullptr && !counted(*node, "substrate"))
      map_.error(node->place, map_.path_of("substrate"),
                 "a depth of substrate takes up an unknown part of a bare volume",
                 "give the vessel's shape and measures, or write displaced: with the volume of "
                 "the grains alone");
    const auto volume = real_volume(map_, "volume", "20 US gal", kMostWater);
    if (!volume) return std::nullopt;
    return Holding{*volume, {}, *volume};
  }

  [[nodiscard]] std::optional<Holding> by_measures() const {
    const auto made = read_shape(map_);
    if (!made) return std::nullopt;
    Holding holding{filled_to(made->shape, made->fill), {}, std::nullopt};
    if (made->brim_known) holding.nominal = full(made->shape);
    const Node* node = map_.find("substrate");
    if (node == nullptr || counted(*node, "substrate")) return holding;
    const auto substrate = read_substrate(*node, made->fill);
    if (!substrate) return std::nullopt;
    return less_substrate(holding, filled_to(made->shape, substrate->depth), *substrate);
  }

  [[nodiscard]] std::optional<Substrate> read_substrate(const Node& node, Length fill) const {
    const MapReader map(map_.checking(), node, map_.path_of("substrate"), keys::kSubstrate);
    const auto depth = map.needed<Length>("depth", "how deep it lies, such as 5 cm", parse_length);
    const auto porosity = map.value<Share>("porosity", parse_share);
    if (!depth) return std::nullopt;
    if (*depth >= fill) {
      map.error(map.find("depth")->place, map.path_of("depth"),
                "the substrate is " + map.text("depth") + " deep and the water " +
                    map_.text("filled to") + ": no water stands above it",
                "measure both from the same inside bottom: depth: to the top of the gravel, filled "
                "to: to the top of the water");
      return std::nullopt;
    }
    if (!porosity) return Substrate{*depth, kUsualPorosity, kPorosityUnsure};
    return Substrate{*depth, *porosity, {}};
  }

  void displace(Holding& holding) const {
    const auto displaced = map_.value<Volume>("displaced", volume_in(map_.checking()));
    if (!displaced || counted(*map_.find("displaced"), "displaced")) return;
    if (*displaced >= holding.water) {
      map_.error(map_.find("displaced")->place, map_.path_of("displaced"),
                 "what stands in the vessel takes up all of its water", "check the amounts");
    }
    holding.water = holding.water - *displaced;
  }

  // True, with a message, for what a tracer has found already: it spreads in the water alone.
  bool counted(const Node& node, const std::string& key) const {
    if (!traced_) return false;
    map_.error(node.place, map_.path_of(key), "the tracer has counted this already",
               "take it out: salt spreads in the water alone, also in that between the grains");
    return true;
  }

  [[nodiscard]] bool sensible(Volume water) const {
    if (in_millilitres(water) > 0 && water <= kMostWater) return true;
    if (in_millilitres(water) > 0) {
      map_.error(map_.node().place, map_.path(),
                 "an absurd volume: more than " + volume_text(kMostWater), "check its units");
    } else {
      map_.error(map_.node().place, map_.path(), "a vessel without water", "check its measures");
    }
    return false;
  }

  const MapReader& map_;
  bool traced_;
};

class VesselReader {
 public:
  VesselReader(const MapReader& map, Vessel& vessel) : map_(map), vessel_(vessel) {}

  void read_water() {
    const bool traced = map_.find("tracer") != nullptr;
    const bool measured = map_.find("volume") != nullptr || has_measures(map_);
    std::vector<Holding> parts;
    if (!traced || measured) take(map_, traced, parts);
    read_joined(traced, parts);
    if (parts.empty() && !traced) return;
    // A bare volume is what is in the vessel: how much it would hold, nobody has said.
    if (parts.size() == 1 && map_.find("volume") != nullptr && map_.find("displaced") == nullptr &&
        !traced) {
      vessel_.as_given = map_.text("volume");
      parts.front().nominal.reset();
    }
    Holding all = joined(parts);
    // A part that could not be read must not make the vessel look small to the tracer.
    if ((traced && !measured) || !whole_) all.nominal.reset();
    if (traced) read_tracer(all);
    vessel_.water = all.water;
    vessel_.nominal = all.nominal;
    add_unsure(all);
  }

 private:
  void take(const MapReader& map, bool traced, std::vector<Holding>& parts) {
    const auto holding = HoldingReader(map, traced).read();
    if (holding) parts.push_back(*holding);
    whole_ = whole_ && holding.has_value();
  }

  void read_joined(bool traced, std::vector<Holding>& parts) {
    const Node* list = map_.find("joined");
    if (list == nullptr) return;
    const std::string path = map_.path_of("joined");
    if (list->kind != Node::Kind::list || list->items.empty()) {
      map_.error(list->place, path, "expected a list of the vessels that are one water with it",
                 "write each on a line below: - volume: 20 L, or a shape with its measures");
      return;
    }
    for (const Node& item : list->items)
      take(MapReader(map_.checking(), item, path, keys::kJoined), traced, parts);
  }

  void read_tracer(Holding& all) const {
    const MapReader map(map_.checking(), *map_.find("tracer"), map_.path_of("tracer"),
                        keys::kTracer);
    const auto salt = map.needed<Mass>("salt", "how much was dissolved, such as 100 g", parse_mass);
    const auto rise =
        map.needed<Concentration>("rise", "how much the reading rose, such as 0.5 g/L",
                                  [system = map_.checking().measures](std::string_view text) {
                                    return parse_concentration(text, system);
                                  });
    if (!salt || !rise) return;
    for (const auto& [key, stored] :
         {std::pair("salt", salt->stored()), {"rise", rise->stored()}}) {
      if (stored > 0) continue;
      map.error(map.find(key)->place, map.path_of(key), "a tracer that changes nothing",
                "weigh the salt, and take the reading after less the reading before");
      return;
    }
    all.water = water_by_tracer(*salt, *rise);
    check_traced(map, all);
  }

  void check_traced(const MapReader& map, const Holding& all) const {
    const std::string hint =
        "weigh the salt again, wait until the reading stands still, and take its rise";
    if (all.water > kMostWater) {
      map.error(map.node().place, map.path(),
                "an absurd volume: more than " + volume_text(kMostWater), hint);
    } else if (all.nominal && all.water > *all.nominal * (1 + as_ratio(vessel_.right_to))) {
      map.error(map.node().place, map.path(),
                "the tracer finds " + volume_text(all.water) + ", the vessel holds " +
                    volume_text(*all.nominal) + " when full",
                hint);
    }
  }

  // A porosity that nobody has measured makes the volume less sure.
  void add_unsure(const Holding& all) {
    if (all.unsure.stored() <= 0 || all.water.stored() <= 0) return;
    vessel_.right_to = share(as_ratio(vessel_.right_to) + all.unsure / all.water);
    if (as_ratio(vessel_.right_to) <= 0.5) return;
    map_.error(map_.node().place, map_.path(),
               "without the porosity of its substrate this volume is known to no better than half",
               "add porosity: to the substrate, or find the volume by tracer:");
  }

  const MapReader& map_;
  Vessel& vessel_;
  bool whole_ = true;
};

void read_right_to(const MapReader& map, Vessel& vessel) {
  const auto right = map.value<Share>("right to", parse_share);
  if (!right) return;
  if (as_ratio(*right) > 0.5 || as_ratio(*right) <= 0) {
    map.error(map.find("right to")->place, map.path_of("right to"),
              as_ratio(*right) > 0 ? "a volume known to no better than half"
                                   : "no volume is known to nothing",
              "measure it, and write 2 % or so");
    return;
  }
  vessel.right_to = *right;
}

Vessel read_vessel(const Checking& checking, const std::string& id, const Node& node,
                   const std::string& path, const Place& place) {
  const MapReader map(checking, node, path, keys::kVessel);
  Vessel vessel;
  vessel.id = id;
  vessel.origin = {place, path};
  vessel.name = map.text("name", id);
  vessel.kind = map.word("kind", {"tank", "bucket"}, "tank") == "bucket" ? Vessel::Kind::bucket
                                                                         : Vessel::Kind::tank;
  vessel.place = map.text("place");
  read_right_to(map, vessel);
  VesselReader(map, vessel).read_water();
  vessel.usual_change = map.value<Share>("change", parse_share);
  if (vessel.usual_change && as_ratio(*vessel.usual_change) <= 0) {
    map.error(map.find("change")->place, map.path_of("change"), "a change of nothing",
              "write the part of the water that is changed, such as 25 %");
  }
  return vessel;
}

}  // namespace

void check_vessels(const Checking& checking, const Node& tree, Room& room) {
  for_each_entry(checking, tree, "vessels",
                 [&](const auto& id, const Node& node, const auto& path, const Place& place) {
                   room.vessels.push_back(read_vessel(checking, id, node, path, place));
                 });
}

}  // namespace dosewright
