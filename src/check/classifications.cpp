// The hazards of products and known substances: classes, limits, estimates.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/classify.hpp"
#include "dosewright/mix/density.hpp"
#include "dosewright/units/print.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// A number at the start of a text; `rest` is what follows it.
std::optional<double> leading_number(const std::string& text, std::string& rest) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || !std::isfinite(value)) return std::nullopt;
  rest = trimmed(std::string_view(end, static_cast<std::size_t>(text.data() + text.size() - end)));
  return value;
}

struct RouteKey {
  Route route;
  const char* key;
  const char* unit;
  Endpoint endpoint;
};

constexpr std::array kRoutes = {
    RouteKey{Route::oral, "ate oral", "mg/kg", Endpoint::acute_oral},
    RouteKey{Route::dermal, "ate dermal", "mg/kg", Endpoint::acute_dermal},
    RouteKey{Route::gas, "ate gas", "ppm", Endpoint::acute_inhalation},
    RouteKey{Route::vapour, "ate vapour", "mg/L", Endpoint::acute_inhalation},
    RouteKey{Route::mist, "ate mist", "mg/L", Endpoint::acute_inhalation},
};

// Reads the map below `hazards:`.
class ClassificationReader {
 public:
  ClassificationReader(const MapReader& map, const ClassBook& classes)
      : map_(map), classes_(classes) {}

  Classification read() {
    read_classes();
    read_limits();
    for (const RouteKey& route : kRoutes) read_estimate(route);
    out_.m_acute = factor("m acute");
    out_.m_chronic = factor("m chronic");
    const std::string state =
        map_.word("inhaled as", {"mist", "vapour", "gas"}, inhaled_by_default());
    out_.inhaled_as = state == "gas" ? Route::gas : state == "vapour" ? Route::vapour : Route::mist;
    out_.inhaled_stated =
        map_.find("inhaled as") != nullptr || out_.estimates.contains(Route::gas) ||
        out_.estimates.contains(Route::vapour) || out_.estimates.contains(Route::mist);
    out_.source = map_.text("source");
    const bool none = map_.truth("not classified", false);
    const bool any = !out_.classes.empty() || !out_.limits.empty();
    settle(none, any);
    return out_;
  }

 private:
  void settle(bool none, bool any) {
    if (!map_.is_map()) return;
    if (none && any) {
      map_.error(map_.find("not classified")->place, map_.path_of("not classified"),
                 "not classified, and yet classes are given", "keep one of the two");
    }
    if (!none && !any && map_.find("classes") == nullptr && map_.find("limits") == nullptr) {
      map_.error(map_.node().place, map_.path(), "hazards without classes",
                 "list classes: from section 2 or 3 of the data sheet, or write not classified: "
                 "true with its source:");
    }
    if (out_.source.empty()) {
      map_.error(map_.node().place, map_.path(), "who says so?",
                 "add source: with the safety data sheet and its date");
    }
    out_.state = none ? Classification::State::not_classified : Classification::State::classified;
  }

  // "minimum" marks classes of Annex VI that may be stricter in truth; it is kept for readers.
  void read_classes() {
    read_list("classes");
    read_list("supplemental");
    for (const std::string& text : map_.texts("minimum"))
      (void)parsed(map_.find("minimum"), text, map_.path_of("minimum"));
  }

  void read_list(std::string_view key) {
    const Node* list = map_.find(key);
    if (list == nullptr) return;
    for (const std::string& text : map_.texts(key)) {
      const auto found = parsed(list, text, map_.path_of(key));
      if (!found) continue;
      const bool again =
          std::any_of(out_.classes.begin(), out_.classes.end(), [&](const HazardClass& c) {
            return c.name == found->name && c.statement == found->statement;
          });
      if (again) {
        map_.error(list->place, map_.path_of(key), quoted(text) + " is given twice",
                   "take one of them out");
      }
      out_.classes.push_back(*found);
    }
  }

  // The class that a text says, its problem reported at the item with that text.
  std::optional<HazardClass> parsed(const Node* list, const std::string& text,
                                    const std::string& path) {
    auto result = classes_.parse(text);
    if (const auto* bad = std::get_if<QuantityProblem>(&result)) {
      Place place = list->place;
      for (const Node& item : list->items) {
        if (trimmed(item.text) == text) place = item.place;
      }
      map_.error(place, path, bad->message, bad->hint);
      return std::nullopt;
    }
    return std::get<HazardClass>(std::move(result));
  }

  void read_limits() {
    const Node* node = map_.find("limits");
    if (node == nullptr) return;
    const std::string path = map_.path_of("limits");
    if (node->kind != Node::Kind::map) {
      map_.error(node->place, path, "expected a map from classes to limits",
                 "write Skin Irrit. 2 H315: 5 to 25 %, or EUH031: from 5 %");
      return;
    }
    for (const Entry& entry : node->entries) {
      const auto result = classes_.parse(entry.key);
      if (const auto* bad = std::get_if<QuantityProblem>(&result)) {
        map_.error(entry.key_place, path, bad->message, bad->hint);
        continue;
      }
      LimitBand band;
      band.gives = std::get<HazardClass>(result);
      if (read_band(entry.value, path + '.' + entry.key, band)) add_band(entry, path, band);
    }
  }

  bool read_band(const Node& node, const std::string& path, LimitBand& band) {
    if (!map_.is_scalar(node, path)) return false;
    const std::string text = trimmed(node.text);
    const auto share_of = [&](const std::string& part) {
      Node one = node;
      one.text = part;
      return map_.parsed<Share>(one, path, parse_share);
    };
    const std::size_t to = text.find(" to ");
    if (text.starts_with("from ")) {
      const auto from = share_of(text.substr(5));
      if (from) band.from = *from;
      return from.has_value();
    }
    if (to == std::string::npos) {
      map_.error(node.place, path, "expected a limit or two",
                 "write from 5 %, or 5 to 25 % for at least 5 and less than 25");
      return false;
    }
    const auto from = share_of(text.substr(0, to) + " %");
    const auto below = share_of(text.substr(to + 4));
    if (!from || !below) return false;
    if (*below <= *from) {
      map_.error(node.place, path, "a band that does not rise", "write the lower limit first");
      return false;
    }
    band.from = *from;
    band.below = below;
    return true;
  }

  void add_band(const Entry& entry, const std::string& path, const LimitBand& band) {
    for (const LimitBand& other : out_.limits) {
      const bool same = other.gives.endpoint == band.gives.endpoint &&
                        (band.gives.endpoint != Endpoint::supplement ||
                         other.gives.statement == band.gives.statement);
      const bool after = other.below && *other.below <= band.from;
      const bool before = band.below && *band.below <= other.from;
      if (!same || after || before) continue;
      map_.error(entry.key_place, path, quoted(entry.key) + " overlaps " + quoted(other.gives.name),
                 "at every percentage one of them must hold, or none: mend the limits");
    }
    out_.limits.push_back(band);
    // The organs stand with the class, and seldom once more with its limit.
    HazardClass& gives = out_.limits.back().gives;
    for (const HazardClass& one : out_.classes) {
      if (gives.fill.empty() && one.endpoint == gives.endpoint) gives.fill = one.fill;
    }
  }

  void read_estimate(const RouteKey& route) {
    const Node* node = map_.find(route.key);
    if (node == nullptr) return;
    const std::string path = map_.path_of(route.key);
    if (!map_.is_scalar(*node, path)) return;
    std::string unit;
    const auto value = leading_number(trimmed(node->text), unit);
    if (!value || *value <= 0 || unit != route.unit) {
      map_.error(node->place, path,
                 "not an estimate for this route: " + quoted(trimmed(node->text)),
                 std::string("write a number and ") + route.unit + ", such as 500 " + route.unit);
      return;
    }
    out_.estimates[route.route] = toxicity_estimate(*value);
    check_fits(route, *value, *node, path);
  }

  // An estimate and a category must say the same: one of them is a slip.
  void check_fits(const RouteKey& route, double value, const Node& node, const std::string& path) {
    for (const HazardClass& listed : out_.classes) {
      if (listed.endpoint != route.endpoint) continue;
      const int category = listed.name.back() - '0';
      const double upper = acute_limit(route.route, category);
      const double lower = category > 1 ? acute_limit(route.route, category - 1) : 0;
      if (value > lower && value <= upper) continue;
      map_.error(node.place, path, quoted(trimmed(node.text)) + " does not fit " + listed.name,
                 listed.name + " goes from above " + significant_figure(lower, 6) + " to " +
                     significant_figure(upper, 6) + ' ' + route.unit);
    }
  }

  std::optional<int> factor(std::string_view key) {
    if (map_.find(key) == nullptr) return std::nullopt;
    const int value = map_.count(key, 1, 1, 1'000'000);
    int power = 1;
    while (power < value) power *= 10;
    if (power != value) {
      map_.error(map_.find(key)->place, map_.path_of(key), "an M-factor is a power of ten",
                 "write 1, 10, 100 …");
    }
    return value;
  }

  [[nodiscard]] std::string inhaled_by_default() const {
    if (out_.estimates.contains(Route::gas)) return "gas";
    return out_.estimates.contains(Route::vapour) ? "vapour" : "mist";
  }

  const MapReader& map_;
  const ClassBook& classes_;
  Classification out_;
};

Substance read_substance(const Checking& checking, const Entry& entry, const ClassBook& classes) {
  const MapReader map(checking, entry.value, entry.key, keys::kSubstance);
  Substance substance;
  substance.cas = entry.key;
  substance.name = map.needed_text("name", "the chemical name");
  substance.also = map.texts("also");
  substance.trade_names = map.texts("trade names");
  substance.also.insert(substance.also.end(), substance.trade_names.begin(),
                        substance.trade_names.end());
  std::string unit;
  const std::string mass = map.text("molar mass");
  if (!mass.empty()) {
    const auto value = leading_number(mass, unit);
    if (value && *value > 0 && unit == "g/mol") {
      substance.molar_mass = *value;
    } else {
      map.error(map.find("molar mass")->place, map.path_of("molar mass"),
                "not a molar mass: " + quoted(mass), "write it as 58.44 g/mol");
    }
  }
  substance.anhydrous = map.text("anhydrous");
  substance.families = map.texts("families");
  const MapReader::Parse<Concentration> per_water = [](std::string_view text) {
    return parse_concentration(text, MeasureSystem::undeclared);
  };
  if (map.text("soluble") != "miscible") substance.soluble = map.value("soluble", per_water);
  substance.soluble_cold = map.value("soluble cold", per_water);
  substance.lasts = map.value<Duration>("lasts", parse_duration);
  substance.lasts_source = map.text("lasts source");
  substance.inert = map.truth("inert", false);
  substance.outdated = map.text("outdated");
  substance.dissolving = map.word("dissolving", {"heats", "cools"}, "");
  substance.named_by_strength = map.text("named by strength");
  substance.sold_with = map.text("sold with");
  substance.hazards = read_classification(map, classes);
  if (substance.inert) substance.hazards.state = Classification::State::not_classified;
  return substance;
}

// A hydrate without an entry of its own is judged by that of the form without water: its share by
// weight is the larger one, so that errs on the safe side.
void judge_hydrates(Knowledge& knowledge) {
  for (Substance& hydrate : knowledge.substances) {
    if (hydrate.anhydrous.empty() || hydrate.hazards.state != Classification::State::unknown)
      continue;
    for (const Substance& dry : knowledge.substances) {
      if (dry.cas != hydrate.anhydrous || dry.hazards.state == Classification::State::unknown)
        continue;
      hydrate.hazards = dry.hazards;
      hydrate.hazards.source += " (form without water)";
    }
  }
}

Incompatibility read_incompatibility(const Checking& checking, const Node& node) {
  const MapReader map(checking, node, "incompatibles", keys::kIncompatibility);
  Incompatibility out;
  const std::vector<std::string> pair = map.texts("between");
  if (pair.size() == 2) {
    out.one = pair[0];
    out.other = pair[1];
  } else {
    map.error(node.place, "incompatibles", "expected two families",
              "write between: [acid, hypochlorite]");
  }
  out.because = map.needed_text("because", "what happens");
  out.apart = map.truth("apart", false);
  out.source = map.needed_text("source", "where it is published");
  return out;
}

}  // namespace

Classification read_classification(const MapReader& parent, const ClassBook& classes) {
  Classification out;
  out.origin = parent.origin_of("hazards");
  const Node* node = parent.find("hazards");
  if (node == nullptr) return out;
  const MapReader map(parent.checking(), *node, parent.path_of("hazards"), keys::kProductHazards);
  const Origin origin = out.origin;
  out = ClassificationReader(map, classes).read();
  out.origin = origin;
  return out;
}

namespace {

// Whether what a product contains, however deep, is the one that is looked for.
bool leads_to(const Room& room, const std::string& from, const std::string& wanted,
              std::set<std::string>& seen) {
  if (from == wanted) return true;
  const Product* product = find(room.products, from);
  if (product == nullptr || !seen.insert(from).second) return false;
  return std::any_of(product->contains.begin(), product->contains.end(), [&](const Content& inner) {
    return leads_to(room, inner.what, wanted, seen);
  });
}

}  // namespace

void refuse_rings(const Checking& checking, const Room& room) {
  for (const Product& product : room.products) {
    for (const Content& content : product.contains) {
      std::set<std::string> seen;
      if (leads_to(room, content.what, product.id, seen))
        checking.error(
            content.origin.place, content.origin.path,
            quoted(product.id) + " and " + quoted(content.what) + " are said to contain each other",
            "write what is in each of them by plain chemicals");
    }
  }
}

std::vector<Content> read_contents(const MapReader& map, const Knowledge& knowledge,
                                   const std::vector<std::string>& products) {
  std::vector<Content> out;
  const Node* node = map.find("contains");
  if (node == nullptr) return out;
  const std::string path = map.path_of("contains");
  if (node->kind != Node::Kind::map) {
    map.error(node->place, path, "expected a map from substances to percentages",
              "write formaldehyde: 37 % on a line below");
    return out;
  }
  std::vector<std::string> known = products;
  for (const Substance& substance : knowledge.substances) {
    known.push_back(substance.cas);
    known.push_back(substance.name);
    known.insert(known.end(), substance.also.begin(), substance.also.end());
  }
  double total = 0;
  std::optional<std::size_t> rest;
  for (const Entry& entry : node->entries) {
    const Node key{Node::Kind::scalar, entry.key_place, entry.key, false, {}, {}};
    if (!refer(map, key, path, "product or known substance", entry.key, known)) continue;
    Content content{entry.key, {entry.value.place, path + '.' + entry.key}, {}};
    if (trimmed(entry.value.text) == "rest") {
      rest = out.size();
      out.push_back(content);
      continue;
    }
    const MapReader::Parse<Share> by_weight = [](std::string_view text) {
      std::string bare(trimmed(text));
      if (bare.ends_with("w/w")) bare = trimmed(std::string_view(bare).substr(0, bare.size() - 3));
      return parse_share(bare);
    };
    const auto part = map.parsed<Share>(entry.value, content.origin.path, by_weight);
    if (!part) continue;
    content.part = *part;
    total += as_ratio(*part);
    out.push_back(content);
  }
  if (total > 1 + 1e-9) {
    map.error(node->place, path,
              "the parts come to " + significant_figure(total * 100, 4) + " %, more than the whole",
              "write percentages by weight; where the data sheet gives a range, its upper end may "
              "make room for water: rest");
  }
  if (rest) out[*rest].part = share(std::max(0.0, 1 - total));
  return out;
}

std::vector<std::string> known_families(const Knowledge& knowledge) {
  std::vector<std::string> out;
  const auto add = [&](const std::string& family) {
    if (!among(out, family)) out.push_back(family);
  };
  for (const Incompatibility& pair : knowledge.incompatibilities) {
    add(pair.one);
    add(pair.other);
  }
  for (const Substance& substance : knowledge.substances) {
    for (const std::string& family : substance.families) add(family);
  }
  return out;
}

std::optional<double> read_number(const MapReader& map, std::string_view key, double least,
                                  double most, std::string_view example) {
  const Node* node = map.find(key);
  if (node == nullptr || !map.is_scalar(*node, map.path_of(key))) return std::nullopt;
  std::string rest;
  const auto value = leading_number(trimmed(node->text), rest);
  if (value && rest.empty() && *value >= least && *value <= most) return value;
  map.error(node->place, map.path_of(key),
            "not a number from " + figure(least, 1) + " to " + figure(most, 1) + ": " +
                quoted(trimmed(node->text)),
            "write " + std::string(example));
  return std::nullopt;
}

std::optional<Concentration> read_density(const MapReader& map) {
  const auto density = map.value<Concentration>(
      "density", [system = map.checking().measures](std::string_view text) {
        return parse_concentration(text, system);
      });
  if (!density) return density;
  if (*density >= kLightestLiquid && *density <= kDensestLiquid) return density;
  map.error(map.find("density")->place, map.path_of("density"),
            "no liquid of the trade is so dense or so light",
            "write grams per mL, such as 1.08 g/mL");
  return std::nullopt;
}

std::optional<Knowledge> check_knowledge(const Node& substances, const Node& incompatibles,
                                         const ClassBook& classes, Diagnostics& out) {
  const std::size_t before = out.size();
  const Checking checking{out};
  Knowledge knowledge;
  for (const Entry& entry : substances.entries)
    knowledge.substances.push_back(read_substance(checking, entry, classes));
  for (const Entry& entry : incompatibles.entries) {
    for (const Node& item : entry.value.items)
      knowledge.incompatibilities.push_back(read_incompatibility(checking, item));
  }
  judge_hydrates(knowledge);
  if (out.size() > before) return std::nullopt;
  return knowledge;
}

}  // namespace dosewright
