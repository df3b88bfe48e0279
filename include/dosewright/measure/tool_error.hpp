// How far off one fill of a measuring tool can be, by published limits or the user's own figure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/model/room.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// One source of error: how much at most, and as a standard uncertainty.
struct ErrorPart {
  Portion worst;
  Portion standard;
};

/// The error of one fill. The calibration is the tool's own and the same at every fill; the reading
/// is new at every fill. Unless a table says other, a standard uncertainty is the half-width over
/// the root of 3 (a rectangular distribution, GUM 4.3.7).
struct FillError {
  ErrorPart calibration;
  ErrorPart reading;
};

/// Sources, by class:
/// - ISO 7886-1 Table 1 (figures from memory): below half the capacity 1.5 % of the capacity plus
///   2 % (from 5 mL on 1 %) of the fill, from half on 5 % (from 5 mL on 4 %) of the fill.
/// - ISO 8655-2 Table for type A pipettes (figures from memory but for 1000 µL): the limits at the
///   nominal volume hold, as absolute amounts, at every setting; the random error is the reading's.
/// - ASTM E1272-02 (2012), ISO 4788 (from memory), USP <31> (partly from memory): tables of
///   capacities up to 2 L; class B is twice class A in E1272 and USP. A size between two takes the
///   smaller one's limit in E1272, which says so; in the others the larger one's.
/// - household: 5 % of the fill at every mark (ANSI/ASA Z61.1); dropper: 15 % (USP <1101>).
/// By kind, where no class is given, these are our own defaults: syringe ISO 7886-1; piston pipette
/// ISO 8655-2; cylinder one smallest division; transfer pipette 10 % of the capacity; graduated
/// pipette 1 % of it; cup and spoon household and 5 % for the level; dropper 15 %; scale 1 % of the
/// weight, at least two divisions, and half a division each for tare and weight.
/// Reading otherwise: half of the widest division beside the mark; nothing for counted drops.
[[nodiscard]] FillError fill_error(const Tool& tool, Portion to);

/// Worst case of one fill: calibration plus reading.
[[nodiscard]] Portion fill_bound(const Tool& tool, Portion to);

/// The part of its capacity below which a kind of tool is not used unless the description says
/// other: a tenth where a scale of marks is read, nothing where a fill is all or counted. Our own.
[[nodiscard]] Share least_by_kind(Tool::Kind kind);

/// Whether a fill to this mark is one to avoid: below a fifth of the capacity (common teaching in
/// pharmacy, from memory) of a tool with a scale of marks.
[[nodiscard]] bool is_small_fill(const Tool& tool, Portion to);

/// How the classes are written in a description: "ISO 7886-1", "ASTM E1272 class B" …
[[nodiscard]] const std::vector<std::string>& accuracy_class_names();
/// Precondition: one of accuracy_class_names().
[[nodiscard]] AccuracyClass accuracy_class_named(const std::string& name);

/// Why the tool's class, or the one its kind goes by, says nothing of it: its kind, or a size its
/// table does not reach. Empty when it does.
[[nodiscard]] std::string class_objection(const Tool& tool);

}  // namespace dosewright
