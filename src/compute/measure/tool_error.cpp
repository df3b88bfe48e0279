#include "dosewright/measure/tool_error.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dosewright {

namespace {

struct Limit {
  double capacity;  // mL
  double a;         // mL, class A
  double b;         // mL, class B
};

// ASTM E1272-02 (2012), Table 1; 1000 and 2000 mL from memory. Class B is twice class A.
constexpr Limit kE1272[] = {{5, 0.05, 0.10},   {10, 0.10, 0.20},  {25, 0.17, 0.34},
                            {50, 0.25, 0.50},  {100, 0.50, 1.00}, {250, 1.00, 2.00},
                            {500, 2.00, 4.00}, {1000, 3, 6},      {2000, 6, 12}};

// ISO 4788, from memory: half a smallest division, and one.
constexpr Limit kIso4788[] = {{5, 0.05, 0.1},  {10, 0.1, 0.2},  {25, 0.25, 0.5},
                              {50, 0.5, 1.0},  {100, 0.5, 1.0}, {250, 1.0, 2.0},
                              {500, 2.5, 5.0}, {1000, 5, 10},   {2000, 10, 20}};

// USP <31>, pipettes; 2, 5 and 10 mL as read in USP 29, 1 and 25 mL from memory. Class B is twice
// A.
constexpr Limit kUsp31[] = {
    {1, 0.01, 0.02}, {2, 0.010, 0.02}, {5, 0.020, 0.04}, {10, 0.030, 0.06}, {25, 0.05, 0.10}};

// ISO 8655-2 (2002), type A, in mL: systematic and random; from memory but for 1 mL.
struct PistonLimit {
  double capacity;
  double systematic;
  double random;
};
constexpr PistonLimit kIso8655[] = {
    {0.01, 0.00012, 0.00008}, {0.02, 0.0002, 0.0001}, {0.05, 0.0005, 0.0002}, {0.1, 0.0008, 0.0003},
    {0.2, 0.0016, 0.0006},    {0.5, 0.004, 0.0015},   {1, 0.008, 0.003},      {2, 0.016, 0.006},
    {5, 0.04, 0.015},         {10, 0.06, 0.03}};

bool is_household(Tool::Kind kind) { return kind == Tool::Kind::cup || kind == Tool::Kind::spoon; }

AccuracyClass class_of(const Tool& tool) {
  if (tool.accuracy_class != AccuracyClass::by_kind) return tool.accuracy_class;
  switch (tool.kind) {
    case Tool::Kind::syringe:
      return AccuracyClass::iso_7886_1;
    case Tool::Kind::piston_pipette:
      return AccuracyClass::iso_8655_2;
    case Tool::Kind::cup:
    case Tool::Kind::spoon:
      return AccuracyClass::household;
    case Tool::Kind::dropper:
      return AccuracyClass::dropper;
    default:
      return AccuracyClass::by_kind;
  }
}

// ASTM E1272 says it of itself: a size between two takes the limit of the smaller one.
template <std::size_t count>
const Limit* row_below(const Limit (&table)[count], Portion holds) {
  const Limit* found = &table[0];
  for (const Limit& row : table) {
    if (row.capacity <= in_millilitres(holds) * (1 + 1e-9)) found = &row;
  }
  return found;
}

// Elsewhere nobody says so: the larger one's limit is the safe one.
template <std::size_t count>
const Limit* row_above(const Limit (&table)[count], Portion holds) {
  for (const Limit& row : table) {
    if (row.capacity >= in_millilitres(holds) * (1 - 1e-9)) return &row;
  }
  return &table[count - 1];
}

// A piston pipette between two sizes takes the larger one's limits; null above the last.
const PistonLimit* piston_row(Portion holds) {
  for (const PistonLimit& row : kIso8655) {
    if (row.capacity >= in_millilitres(holds) * (1 - 1e-9)) return &row;
  }
  return nullptr;
}

Portion limit_of(const Limit* row, bool class_a) { return millilitres(class_a ? row->a : row->b); }

// The widest distance from a mark to its neighbours, below and above.
Portion division_at(const Tool& tool, Portion to) {
  Portion widest = tool.step;
  const double near = tool.step.stored() * 1e-3;
  const auto above =
      std::lower_bound(tool.marks.begin(), tool.marks.end(), Portion::like(to, to.stored() - near));
  if (above == tool.marks.end()) return widest;
  if ((*above - to).stored() > near) {
    // Between two marks: the gap it lies in.
    return above == tool.marks.begin() ? std::max(widest, *above)
                                       : std::max(widest, *above - *std::prev(above));
  }
  if (above != tool.marks.begin()) widest = std::max(widest, *above - *std::prev(above));
  if (std::next(above) != tool.marks.end()) widest = std::max(widest, *std::next(above) - *above);
  return widest;
}

Portion syringe_limit(const Tool& tool, Portion to) {
  const bool small = in_millilitres(tool.holds) < 5;
  if (to * 2 < tool.holds) return tool.holds * 0.015 + to * (small ? 0.02 : 0.01);
  return to * (small ? 0.05 : 0.04);
}

Portion limit_by_kind(const Tool& tool, Portion to) {
  switch (tool.kind) {
    case Tool::Kind::cylinder:
      return division_at(tool, to);
    case Tool::Kind::graduated_pipette:
      return tool.holds * 0.01;
    case Tool::Kind::scale:
      return std::max(tool.step * 2, to * 0.01);
    default:
      return tool.holds * 0.1;
  }
}

Portion calibration(const Tool& tool, Portion to) {
  if (const auto* part = std::get_if<Share>(&tool.accuracy)) return to * as_ratio(*part);
  if (const auto* fixed = std::get_if<Portion>(&tool.accuracy)) return *fixed;
  switch (class_of(tool)) {
    case AccuracyClass::iso_7886_1:
      return syringe_limit(tool, to);
    case AccuracyClass::iso_8655_2: {
      const PistonLimit* row = piston_row(tool.holds);
      return millilitres((row != nullptr ? *row : *std::rbegin(kIso8655)).systematic);
    }
    case AccuracyClass::astm_e1272_a:
    case AccuracyClass::astm_e1272_b:
      return limit_of(row_below(kE1272, tool.holds), class_of(tool) == AccuracyClass::astm_e1272_a);
    case AccuracyClass::iso_4788_a:
    case AccuracyClass::iso_4788_b:
      return limit_of(row_above(kIso4788, tool.holds), class_of(tool) == AccuracyClass::iso_4788_a);
    case AccuracyClass::usp_31_a:
    case AccuracyClass::usp_31_b:
      return limit_of(row_above(kUsp31, tool.holds), class_of(tool) == AccuracyClass::usp_31_a);
    case AccuracyClass::household:
      return to * 0.05;
    case AccuracyClass::dropper:
      return to * 0.15;
    case AccuracyClass::by_kind:
      break;
  }
  return limit_by_kind(tool, to);
}

// Half-width `worst`, evenly spread.
ErrorPart evenly(Portion worst) { return {worst, worst * (1 / std::numbers::sqrt3)}; }

ErrorPart reading(const Tool& tool, Portion to) {
  if (tool.reading) return evenly(*tool.reading);
  // The level of a full spoon or cup; a mark below the brim is read like any other.
  if (is_household(tool.kind)) {
    const bool brim = tool.marks.size() <= 1;
    return evenly(brim ? to * 0.05 : std::max(to * 0.05, division_at(tool, to) * 0.5));
  }
  switch (tool.kind) {
    case Tool::Kind::dropper:
      return {to * 0, to * 0};  // drops are counted
    case Tool::Kind::scale: {
      // Tare and weight, half a division each.
      const double root = std::numbers::sqrt2 / std::numbers::sqrt3;
      return {tool.step, tool.step * (0.5 * root)};
    }
    case Tool::Kind::piston_pipette: {
      const PistonLimit* row = piston_row(tool.holds);
      const double random = (row != nullptr ? *row : *std::rbegin(kIso8655)).random;
      return {millilitres(2 * random), millilitres(random)};  // a standard deviation, taken twice
    }
    default:
      return evenly(division_at(tool, to) * 0.5);
  }
}

struct ClassName {
  AccuracyClass is;
  const char* name;
  std::vector<Tool::Kind> kinds;
  double smallest;  // mL
  double largest;
};

const std::vector<ClassName>& class_names() {
  using Kind = Tool::Kind;
  constexpr double kAny = 1e12;
  static const std::vector<ClassName> names = {
      {AccuracyClass::iso_7886_1, "ISO 7886-1", {Kind::syringe}, 0, kAny},
      {AccuracyClass::iso_8655_2, "ISO 8655-2", {Kind::piston_pipette}, 0, 10},
      {AccuracyClass::astm_e1272_a, "ASTM E1272 class A", {Kind::cylinder}, 5, 2000},
      {AccuracyClass::astm_e1272_b, "ASTM E1272 class B", {Kind::cylinder}, 5, 2000},
      {AccuracyClass::iso_4788_a, "ISO 4788 class A", {Kind::cylinder}, 5, 2000},
      {AccuracyClass::iso_4788_b, "ISO 4788 class B", {Kind::cylinder}, 5, 2000},
      {AccuracyClass::usp_31_a, "USP 31 class A", {Kind::graduated_pipette}, 1, 25},
      {AccuracyClass::usp_31_b, "USP 31 class B", {Kind::graduated_pipette}, 1, 25},
      {AccuracyClass::household, "household", {Kind::cup, Kind::spoon, Kind::cylinder}, 0, kAny},
      {AccuracyClass::dropper, "dropper", {Kind::dropper}, 0, kAny},
  };
  return names;
}

const char* kind_in_words(Tool::Kind kind) {
  switch (kind) {
    case Tool::Kind::syringe:
      return "syringes";
    case Tool::Kind::transfer_pipette:
      return "transfer pipettes";
    case Tool::Kind::graduated_pipette:
      return "graduated pipettes";
    case Tool::Kind::piston_pipette:
      return "piston pipettes";
    case Tool::Kind::cylinder:
      return "cylinders";
    case Tool::Kind::cup:
      return "cups";
    case Tool::Kind::dropper:
      return "droppers";
    case Tool::Kind::spoon:
      return "spoons";
    case Tool::Kind::scale:
      break;
  }
  return "scales";
}

bool has_scale_of_marks(Tool::Kind kind) {
  return kind != Tool::Kind::dropper && kind != Tool::Kind::spoon && kind != Tool::Kind::scale;
}

}  // namespace

FillError fill_error(const Tool& tool, Portion to) {
  return {evenly(calibration(tool, to)), reading(tool, to)};
}

Portion fill_bound(const Tool& tool, Portion to) {
  const FillError error = fill_error(tool, to);
  return error.calibration.worst + error.reading.worst;
}

Share least_by_kind(Tool::Kind kind) { return share(has_scale_of_marks(kind) ? 0.1 : 0); }

bool is_small_fill(const Tool& tool, Portion to) {
  constexpr double kSmall = 0.2;
  // A tool with one mark is full there, whatever its brim would hold.
  return has_scale_of_marks(tool.kind) && tool.marks.size() > 1 &&
         to.stored() < kSmall * tool.holds.stored() * (1 - 1e-9);
}

const std::vector<std::string>& accuracy_class_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> out;
    for (const ClassName& name : class_names()) out.emplace_back(name.name);
    return out;
  }();
  return names;
}

AccuracyClass accuracy_class_named(const std::string& name) {
  for (const ClassName& known : class_names()) {
    if (known.name == name) return known.is;
  }
  return AccuracyClass::by_kind;
}

std::string class_objection(const Tool& tool) {
  for (const ClassName& name : class_names()) {
    if (name.is != class_of(tool)) continue;
    if (std::find(name.kinds.begin(), name.kinds.end(), tool.kind) == name.kinds.end()) {
      std::string kinds;
      for (const Tool::Kind kind : name.kinds) {
        kinds += (kinds.empty() ? "" : " and ") + std::string(kind_in_words(kind));
      }
      return std::string(name.name) + " is about " + kinds;
    }
    const double holds = in_millilitres(tool.holds);
    if (holds < name.smallest * (1 - 1e-9) || holds > name.largest * (1 + 1e-9))
      return std::string(name.name) + " has no limit for a tool of this size";
  }
  return "";
}

}  // namespace dosewright
