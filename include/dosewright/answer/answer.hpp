// All figures of a room, computed once: what every document and command shows; not how it is shown.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/dose/strength_code.hpp"
#include "dosewright/hazard/block.hpp"
#include "dosewright/measure/measure.hpp"
#include "dosewright/measure/uncertainty.hpp"
#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// What hazards are worked out with: the label's language and rule book, classes, known chemicals.
struct HazardSources {
  const StatementBook& statements;
  const ClassBook& classes;
  const Knowledge& knowledge;
  /// The name of a known chemical in the language of the statements; without it names stay as they
  /// are.
  std::function<std::string(const std::string&)> chemical = {};
  /// The same of target organs.
  std::function<std::string(const std::string&)> organ = {};
  std::string language = {};  ///< of the statements; empty: the room's
};

/// Another stock or product of the room that must not meet this one.
struct Clash {
  std::string id;  ///< of the other stock
  std::string name;
  const Incompatibility* why = nullptr;
};

/// Two products of one recipe that must not meet.
struct Quarrel {
  const Product* one = nullptr;
  const Product* other = nullptr;
  const Incompatibility* why = nullptr;
};

/// A class of a stronger stock that its ingredients do not explain.
struct StrongerClass {
  HazardClass what;
  bool by_ph = false;  ///< it follows from the pH of that stock alone
};

/// What the label of one stock says of hazards, and how it was worked out.
struct HazardAnswer {
  HazardBlock block;
  HazardMixture mixture;  ///< what the rules looked at
  /// The same with bought mixtures that have classes of their own taken apart as far as that is
  /// known, all of them first: what is in them can have lower limits than the whole. The graver of
  /// all ways counts.
  std::vector<HazardMixture> by_contents;
  MixtureClasses found;                 ///< also where the description states the hazards itself
  std::vector<std::string> by_default;  ///< ingredients known from the shipped table
  std::vector<std::string> taken_as_harmless;  ///< ingredients that somebody says need no class
  Phrases outdated;  ///< "the built-in entry of formaldehyde is out of date: replaced by …"
  bool basis_stated = false;         ///< the block's basis is the user's, not a calculation
  std::vector<Phrase> to_be_named;   ///< ingredients that the label must name
  std::vector<std::string> unnamed;  ///< statements whose cause nobody has named
  Phrases not_counted;   ///< what a solution is often sold with, and nobody has said how much of
  Share strength_error;  ///< of the recipe, at its worst
  std::vector<std::string> at_upper_end;       ///< classes more, if that is all on the strong side
  Phrases density;                             ///< how g per L became % by weight
  std::vector<std::string> names_in_english;   ///< in a sentence of another language
  std::vector<std::string> organs_in_english;  ///< the same, of target organs
  /// What is stated, tested or measured of the stronger stock it is diluted from, beyond what that
  /// one's ingredients and this one's own classes say; and the statements of it.
  std::vector<StrongerClass> stronger_classes;
  std::vector<PrintedStatement> stronger_states;
  std::vector<std::string> unknown_weight;  ///< ingredients whose share by weight is not known
};

/// Whether its classes are the shipped table's, of one substance as it is, with nothing added up.
[[nodiscard]] inline bool is_by_table(const HazardAnswer& answer) {
  return answer.mixture.as_supplied && answer.mixture.parts.size() == 1 &&
         !answer.by_default.empty();
}

/// A stock with everything that follows from its recipe and dose rule.
struct StockAnswer {
  const Stock* stock = nullptr;
  Mixture mixture;  ///< its error: of the recipe as written or of its bottle, the larger one
  std::optional<Quarrel> quarrel;
  DoseRate rate;  ///< what is given at a time: where a dose is given over days, one day's part
  DoseRate all;   ///< the dose of all days together
  std::vector<Share> changes;  ///< usual changes of the room's tanks, ascending, each once
  StrengthCode code;
  HazardAnswer hazards;
  std::vector<std::string> families;
  std::vector<Clash> clashes;         ///< stocks of this room it must not meet
  std::vector<std::string> findings;  ///< what is amiss with it, without a full stop
};

/// One dose: for this much water, exactly so much, measured like this.
struct DoseAnswer {
  Volume water;
  Portion exact;
  MeasureAnswer measured;
  Portion delivers;  ///< what is measured out: of the stock, also when by a working dilution
  Portion off_by;    ///< rounding and tools, at their worst
  DoseError error;   ///< with strength and vessel; nothing when it cannot be measured
  [[nodiscard]] bool can_be_measured() const { return measured.measured || measured.dilution; }
};

/// What goes into a container, room for shaking left.
[[nodiscard]] Volume filling_of(const Container& container);

/// Rounding and tools at their worst, over the exact dose. Precondition: it can be measured.
[[nodiscard]] Share off_by_share(const DoseAnswer& dose);

/// The tools' worst case over the exact dose; of a working dilution with its rounding.
/// Precondition: it can be measured.
[[nodiscard]] Share tool_share(const DoseAnswer& dose);

/// What is amiss with this one dose, in sentences without a full stop: that it cannot be measured,
/// that tools are too coarse, that its error passes the ceiling or the floor; then what is amiss
/// with its stock.
[[nodiscard]] std::vector<std::string> dose_warnings(const StockAnswer& stock,
                                                     const DoseAnswer& dose);

/// Where the full dose runs to when it is given again after every change of this part.
struct Peak {
  Share change;
  double times = 1;                       ///< over the dose
  std::optional<Concentration> comes_to;  ///< of the target's product, where the rule has one
};
/// Nothing when the rule gives no full dose again.
[[nodiscard]] std::optional<Peak> peak_of(const StockAnswer& stock, Share change);

/// How much water a measured amount of a stock treats; over days, an amount for each day.
[[nodiscard]] Volume water_for(const StockAnswer& stock, Portion amount);

/// A label's figures.
struct LabelAnswer {
  const StockAnswer* stock = nullptr;
  const Container* container = nullptr;
  Mixture filled;  ///< the recipe scaled to the container's fill
  std::optional<Date> use_by;
  DoseAnswer dose;         ///< for a handy amount of water
  std::string water_text;  ///< that amount in words, such as "20 L"
};

/// A chart's figures: rows of buckets or tanks, columns of stocks or water changes.
struct ChartAnswer {
  std::vector<const StockAnswer*> stocks;
  std::vector<std::vector<DoseAnswer>> rows;
};

/// The room's stocks in the order of the description, and what a careful person would mend. The
/// answers point into the room, which must outlive them.
struct RoomAnswer {
  const Room* room = nullptr;
  const HazardSources* sources = nullptr;
  std::vector<StockAnswer> stocks;
  Diagnostics problems;
};

/// The findings that name a stock or a product of its recipe.
[[nodiscard]] std::vector<const Diagnostic*> findings_about(const RoomAnswer& answers,
                                                            const Stock& stock);

/// Gives products whose classes somebody states the specific limits and M-factors that the shipped
/// table has for them (CLP Article 10: those of Annex VI are binding), where none are stated. Not
/// what is sold as a solution: its classes are those of the solution, the limits the chemical's.
void complete_hazards(Room& room, const Knowledge& knowledge);

/// `sources` must outlive the answers.
[[nodiscard]] RoomAnswer answer_room(const Room& room, const HazardSources& sources);

/// The hazards of a stock; of a product as it is bought.
[[nodiscard]] HazardAnswer answer_hazards(const Room& room, const Stock& stock,
                                          const Mixture& mixture, const HazardSources& sources);
[[nodiscard]] HazardAnswer answer_tub_hazards(const Room& room, const Product& product,
                                              const HazardSources& sources);

/// The families of chemicals a product belongs to: its own and those of the known substance.
[[nodiscard]] std::vector<std::string> families_of(const Product& product, const Room& room,
                                                   const Knowledge& knowledge);

/// Why what belongs to the ones must not meet what belongs to the others; null when nothing is
/// published.
[[nodiscard]] const Incompatibility* clash_between(const std::vector<std::string>& one,
                                                   const std::vector<std::string>& other,
                                                   const Knowledge& knowledge);

/// The stocks of the room that must not meet what belongs to these families, `itself` left out.
[[nodiscard]] std::vector<Clash> clashes_of(const std::vector<std::string>& families,
                                            const Stock* itself, const RoomAnswer& answers);

[[nodiscard]] const StockAnswer* find_stock(const RoomAnswer& answers, const std::string& id);

/// Whether a tool measures this stock at all: scales and scoops a powder, all others a liquid, and
/// a spoon a liquid only when the stock names it.
[[nodiscard]] bool suits(const Tool& tool, const Stock& stock);
[[nodiscard]] bool is_kept_for_another(const Tool& tool, const Stock& stock);

/// The tools a stock may be measured with: those it names, else all that suit it; never one that is
/// kept for another stock.
[[nodiscard]] ToolSet tools_for(const Room& room, const Stock& stock);

/// The dose of a stock for `water`, known to `right_to`, with its tools or with `with` alone.
[[nodiscard]] DoseAnswer answer_dose(const Room& room, const StockAnswer& stock, Volume water,
                                     Share right_to, const Tool* with = nullptr);

/// A tool and the doses of a stock, by smallest and largest, that are measured with it in one fill.
struct ScaleRange {
  const Tool* tool = nullptr;
  Portion from;
  Portion to;
};
/// The ranges of a dose scale between two doses, ascending, without overlap: each dose goes to a
/// tool kept for the stock, else to the smallest tool that holds it whole, and to none where
/// reading it off by the rounding rule would break the tolerance, the ceiling or the floor.
[[nodiscard]] std::vector<ScaleRange> scale_ranges(const Room& room, const StockAnswer& stock,
                                                   Portion from, Portion to);
/// A mark on a scale and the exact doses, lowest to highest, that are read as it.
struct ScaleReading {
  const Tool* tool = nullptr;
  Portion mark;
  Portion lowest;
  Portion highest;
};
[[nodiscard]] std::vector<ScaleReading> scale_readings(const std::vector<ScaleRange>& ranges,
                                                       Rounding rounding);

/// On a scale, how large the next tick after `mark` may be: what is read between the two by the
/// stock's rule then keeps the tolerance, the ceiling and the floor.
[[nodiscard]] Portion next_mark_by(const StockAnswer& stock, Portion mark);

/// Rounding to a mark and the tool's error at their worst, over the dose, anywhere in the ranges.
[[nodiscard]] Share scale_bound(const std::vector<ScaleRange>& ranges, Rounding rounding);

[[nodiscard]] LabelAnswer answer_label(const RoomAnswer& answers, const LabelRequest& label);
[[nodiscard]] ChartAnswer answer_chart(const RoomAnswer& answers, const Document& document);

/// `date` moved on by whole days.
[[nodiscard]] Date later(const Date& date, Duration by);
/// Whole days from one date to another; below 0 when the other was before.
[[nodiscard]] long days_from(const Date& from, const Date& to);
/// The last day of what was mixed then; nothing when the day or how long it keeps is not known.
[[nodiscard]] std::optional<Date> use_by_of(const Stock& stock, const std::optional<Date>& mixed);

}  // namespace dosewright
