// The room as the description gives it: plain values without behaviour; not where they are computed
// from or how they look on paper.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/base/phrase.hpp"
#include "dosewright/model/hazards.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// A calendar date of the proleptic Gregorian calendar, as in ISO 8601.
struct Date {
  int year = 0;
  int month = 1;
  int day = 1;
};

/// A part of a bought mixture, by weight: "formaldehyde 37 %".
struct Content {
  std::string what;  ///< id of a product, or CAS number or name of a known substance
  Origin origin;
  Share part;
};

/// What is bought: a powder or a liquid of known identity.
struct Product {
  enum class Form { powder, liquid };
  std::string id;
  Origin origin;
  std::string name;  ///< its chemical name
  Form form = Form::powder;
  std::string cas;                            ///< CAS registry number; may be empty
  std::optional<Concentration> bulk_density;  ///< powder as scooped; needed for scoops
  /// Half-width of that density over its middle. Without a stated range a level scoop is taken to
  /// be right to 25 %, our own default: published loose-to-tapped spreads are 1.2 to 1.6 (Handbook
  /// of Pharmaceutical Excipients: sodium hydrogencarbonate 0.869 to 1.369 g/mL, ascorbic acid 0.7
  /// to 1.2 g/mL).
  Share bulk_spread = share(0.25);
  Share impurity;                             ///< at most this part of it is something else
  std::optional<VolumePerMass> displacement;  ///< volume gained per gram dissolved
  std::optional<Money> price;                 ///< of one pack
  std::optional<Mass> pack;
  Classification hazards;             ///< as its data sheet has it; unknown when it says nothing
  std::vector<std::string> families;  ///< besides those of the known substance
  std::vector<Content> contains;      ///< of a bought mixture; what is missing to 100 % is unknown
  std::optional<Concentration> density;  ///< of a liquid
  std::optional<Concentration> soluble;  ///< g per L of water at 20 °C, as its data sheet has it
  std::optional<Share> active;           ///< the part by weight that acts; nothing when not stated
};

/// One product of a recipe: weighed (or, as a volume, scooped if a powder, measured if a liquid).
struct Ingredient {
  std::string product;
  Origin origin;
  std::variant<Mass, Volume> amount;
};

/// The water of a recipe. "Made up to" states the final volume, "added" what is poured in.
struct RecipeWater {
  enum class Kind { made_up_to, added };
  Kind kind = Kind::made_up_to;
  Volume volume;
};

enum class Rounding { nearest, never_under, never_over };

/// What a dose is counted on: the water that comes in, or all the water in the vessel.
enum class WaterBasis { new_water, whole_vessel };

/// A target concentration of one product of the stock, as bought, in the treated water.
struct Target {
  Concentration concentration;
  std::string product;
};

/// All that a recipe makes, for so much water.
struct WholeMix {
  Volume treats;
};

/// What follows the first dose of a whole vessel when some of its water is changed.
enum class AfterChange {
  unstated,
  new_water,  ///< a dose for the new water alone
  again       ///< the full dose
};

/// What a reagent is to take out of the water.
enum class Oxidant {
  chlorine,
  chloramine_as_chlorine,  ///< stated as mg of Cl2, as total chlorine is
  chloramine               ///< stated as mg of NH2Cl
};

/// An oxidant to be removed, and the user's own figure of how much product that takes.
struct Removal {
  Oxidant what = Oxidant::chlorine;
  Concentration removed;
  MassPerMass ratio;  ///< product as bought for each part of chlorine, counted as Cl2
};

/// How much stock for how much water.
struct DoseRule {
  Origin origin;
  /// g/L: powder from the tub. However many days it is given over, this is all of it.
  std::variant<VolumePerVolume, Concentration, Target, WholeMix> amount;
  std::string target_key = "reach";  ///< the key it was asked by: reach, remove, raise or treats
  Phrases basis_text;       ///< "for 2 mg per L chlorine at 7 mg per mg"; empty for reach and give
  Phrases target_text;      ///< what the target comes to: "brings 14 mg per L"; empty for give
  std::string target_name;  ///< the chemical name of its product
  std::optional<Removal> removal;  ///< what the target was worked out from, when that was it
  WaterBasis basis = WaterBasis::new_water;
  AfterChange then = AfterChange::unstated;  ///< of a whole vessel
  int days = 1;                              ///< given in so many equal parts, one a day
  Rounding rounding = Rounding::nearest;
  Share tolerance = share(0.1);     ///< how far the measured dose may be from the exact one
  std::optional<DoseRate> ceiling;  ///< never more than this in all, on any document
  std::string ceiling_text;         ///< the ceiling as written
  std::optional<DoseRate> floor;    ///< never less than this in all
  std::string floor_text;           ///< the floor as written
  std::string note;                 ///< printed under the dose: "at up to 1 mg per L chlorine"
  std::optional<Volume> per;        ///< the water the rule was stated for, when one was
  std::string per_text;             ///< the same as written, such as "20 L"
};

/// Another way in which somebody states how strong a stock is or how it is dosed: "500 mL treats
/// 5,000 US gal", "1 mL per 5 US gal", "2 g of salt per 10 L", "4 tbsp of powder in 1.5 L".
struct Claim {
  enum class Kind { dose, strength };
  std::string name;  ///< in the user's words: "pipette habit"
  Origin origin;
  std::string text;  ///< as written
  Kind kind = Kind::dose;
  std::variant<Mass, Volume> amount;
  std::string product;  ///< whose amount it is; empty: of the stock itself
  Volume water;         ///< that is treated, or that the amount goes into
};

/// What is dosed: mixed from products and water, or one powder straight from its tub.
struct Stock {
  std::string id;
  Origin origin;
  std::string name;
  bool dry = false;  ///< a powder from its tub: one ingredient without an amount, and no water
  std::vector<Ingredient> recipe;
  RecipeWater water;
  /// Mixed from so much of this other stock; then the recipe is what that holds.
  std::shared_ptr<const Stock> stronger;
  Volume taken;
  std::string taken_with;    ///< id of the tool that measures what is taken; may be empty
  std::string weighed_with;  ///< id of the scale; may be empty
  std::string made_up_in;    ///< id of the tool that measures the water; may be empty
  DoseRule dose;
  std::optional<Duration> keeps;
  std::string container;           ///< id; may be empty
  std::vector<std::string> tools;  ///< ids of the tools it may be measured with; empty: all
  Hazards hazards;
  std::optional<Concentration> density;  ///< of the solution, weighed by the user
  std::vector<std::string> never_mix_with;
  std::optional<Temperature> coldest;  ///< that it is kept at
  std::vector<Claim> claims;
};

/// What a stock lives in.
struct Container {
  std::string id;
  Origin origin;
  std::string name;
  Volume holds;
  Share fill = share(0.8);  ///< headspace is left for shaking
  bool held_food = false;   ///< ever held food or drink
  std::string place;        ///< where it stands: "rack B"; may be empty
  /// Its measures, for the label; nothing where they are not stated.
  std::optional<Length> around;      ///< of a round one
  std::optional<Length> straight;    ///< height of the side on which a label lies flat
  std::optional<Length> flat_width;  ///< of a flat panel
  std::optional<Length> flat_height;
  std::optional<Length> cap;  ///< across
};

/// The published limit of error a tool keeps; by_kind: our default for its kind.
enum class AccuracyClass {
  by_kind,
  iso_7886_1,
  iso_8655_2,
  astm_e1272_a,
  astm_e1272_b,
  iso_4788_a,
  iso_4788_b,
  usp_31_a,
  usp_31_b,
  household,
  dropper
};

/// What doses are measured with.
struct Tool {
  enum class Kind {
    syringe,
    transfer_pipette,   ///< moulded, with a bulb and a few marks
    graduated_pipette,  ///< a glass tube with marks
    piston_pipette,     ///< set to a volume
    cylinder,
    cup,
    dropper,  ///< counted in drops
    spoon,
    scale
  };
  std::string id;
  Origin origin;
  std::string name;
  Kind kind = Kind::syringe;
  Portion holds;               ///< g for a scale, mL for all others
  std::vector<Portion> marks;  ///< ascending, every mark that a dose can be read at
  Portion step;                ///< the smallest distance between marks
  AccuracyClass accuracy_class = AccuracyClass::by_kind;
  std::variant<std::monostate, Share, Portion> accuracy;  ///< the user's own figure
  std::optional<Portion> reading;                         ///< the user's own, half-width
  int pours = 4;  ///< how many fills of it are reasonable for one dose, all told
  Share least;    ///< below this part of its capacity it is not used
  bool for_powder = false;
  std::string only_for;   ///< id of the one stock it is kept for; may be empty
  int drops_per_mL = 20;  ///< droppers
};

/// What gets dosed.
struct Vessel {
  enum class Kind { tank, bucket };
  std::string id;
  Origin origin;
  std::string name;
  Kind kind = Kind::tank;
  std::string place;     ///< "rack A"; may be empty
  Volume water;          ///< net of what stands in it
  std::string as_given;  ///< the volume as the user wrote it; empty when it was worked out
  /// Of the vessel empty and full to the brim; nothing when no measure says it.
  std::optional<Volume> nominal;
  std::optional<Share> usual_change;
  Share right_to = share(0.05);  ///< half-width of its volume's error
};

struct PaperSize {
  std::string name;  ///< "A4", "Letter", "roll" …
  Length width;
  Length height;
};

/// How a label lies on what it labels.
enum class LabelForm {
  panel,  ///< flat
  wrap,   ///< right round a bottle, its left end over its right
  flag,   ///< round a thin tube, its two ends back to back
  tag,    ///< folded, punched and tied on
  dot     ///< on a cap; never the only label
};
inline constexpr Length kWrapOverlap = millimetres(8);

/// A sheet of labels by its geometry, or a roll with one label a page.
struct LabelSheet {
  std::string id;  ///< of a sheet that several labels go onto, one behind the other; else empty
  Origin origin;
  PaperSize paper;
  int rows = 1;
  int columns = 1;
  Length label_width;
  Length label_height;
  Length pitch_x;
  Length pitch_y;
  Length left;
  Length top;
  int start_at = 1;  ///< the first label used, counted row by row
  int copies = 1;
  LabelForm form = LabelForm::panel;
  Length around;           ///< of the tube that a flag goes round
  bool cut_marks = false;  ///< on plain paper
  /// Radius of the label's corners; 0 to half its shorter side. Words keep clear of them.
  Length round_corners;
  /// The size comes from the container, and layout places it on the paper: a flag or a tag is made
  /// as large as its words need, anything else as small as the paper asks.
  bool proposed = false;
};

struct LabelRequest {
  std::string stock;
  std::string product;  ///< instead of a stock: a label for the powder or liquid as it was bought
  std::string container;
  std::optional<Date> mixed;
  std::string batch;
  std::string by;
  std::optional<Volume> volume;  ///< what is in it; the container's fill if not given
  bool square_code = false;      ///< with its plain text for a telephone
  std::string earlier;           ///< the hazards that an earlier label of the same bottle told
  LabelSheet sheet;
};

/// A row of a bucket chart.
struct BucketRow {
  Volume water;
  std::string text;  ///< as written, such as "5 US gal"
  std::string name;  ///< the vessel's name when the row came from a vessel
  Share right_to = share(0.05);
};

struct ChartRequest {
  std::string title;
  std::vector<std::string> stocks;
  bool own_rows = false;             ///< tank chart: a row for each tank, also for tanks alike
  bool own_pages = false;            ///< bucket chart: pages of its own for each stock
  std::vector<BucketRow> buckets;    ///< bucket chart
  std::vector<std::string> vessels;  ///< tank chart
  std::vector<Share> changes;        ///< tank chart
  PaperSize paper;                   ///< already turned to portrait or landscape
  std::optional<Length> read_from;   ///< how far away its reader stands; bucket and tank charts
  std::vector<PaperSize> papers;     ///< to choose from then, in either turn; smallest first
  std::string container;             ///< id; of a mixing card
  std::string place;
  std::string revision;
  std::optional<Date> revised;
  std::string replaces;
  Phrases only_for;  ///< the bottles it holds for: "bottles with code X4 9RF"; mostly empty
};

/// A scale for any volume between two.
struct ScaleRequest {
  Volume from;
  Volume to;
  std::string unit;  ///< of the water, in printing style: "L", "US gal"
  Volume one_unit;   ///< how much that is
  bool logarithmic = true;
};

/// How far a supply goes.
struct SupplyRequest {
  std::optional<Mass> in_stock;  ///< now; one pack if not given
  Duration every = days(7);      ///< how often the tanks get their usual change
  std::optional<Volume> water;   ///< that is dosed each time, instead of the tanks' changes
  Duration order_takes = days(14);
  std::optional<Money> ready_price;  ///< of a ready-made liquid that treats so much water
  std::optional<Volume> ready_treats;
};

/// Lines to write on.
struct LogRequest {
  int pages = 1;
};

/// What the printer check page shows, if the printer is true: its rulers, and how far the middle of
/// its crosses is from the edges.
inline constexpr Length kCheckAcross = millimetres(150);
inline constexpr Length kCheckDown = millimetres(200);
inline constexpr Length kCheckFromEdge = millimetres(10);

/// What was measured on that page.
struct PrinterError {
  Length cross_left = kCheckFromEdge;
  Length cross_top = kCheckFromEdge;
  Length across = kCheckAcross;
  Length down = kCheckDown;
};

struct Document {
  enum class Type {
    label,
    bucket_chart,
    tank_chart,
    dose_scale,
    measuring_card,
    mixing_card,
    hazard_sheet,
    storage_list,
    supply_sheet,
    dosing_log,
    printer_check
  };
  std::string id;
  Origin origin;
  Type type = Type::label;
  std::string design;  ///< the name of its template; empty: the plain one of its kind
  Origin design_origin;
  std::vector<std::string> languages;  ///< of its words, one; of a label one or two
  Origin language_origin;
  LabelRequest label;
  ChartRequest chart;  ///< of all but labels
  ScaleRequest scale;
  SupplyRequest supply;
  LogRequest log;
};

/// Beyond this a slip of the unit is likelier than the water. Our own limit.
inline constexpr Volume kMostWater = litres(20'000'000);

/// Everything a description says. Lists keep the order of the file.
struct Room {
  std::string name;
  MeasureSystem measures = MeasureSystem::undeclared;
  HazardRules hazard_rules;
  std::string emergency;  ///< who to call, the user's own words; empty when not given
  std::string by;
  std::string language = "en";  ///< of all pages, unless a document says otherwise
  Origin language_origin;
  PaperSize paper;                               ///< of charts, unless they say otherwise
  std::optional<PrinterError> printer;           ///< of label sheets
  std::optional<double> water_ph;                ///< of the water that is treated
  std::optional<Temperature> water_temperature;  ///< given together with its pH
  std::vector<Product> products;
  std::vector<Stock> stocks;
  std::vector<Container> containers;
  std::vector<Tool> tools;
  std::vector<Vessel> vessels;
  std::vector<LabelSheet> sheets;  ///< that labels share
  std::vector<Document> documents;
};

/// The entry with this id, or null.
template <class Item>
[[nodiscard]] const Item* find(const std::vector<Item>& items, const std::string& id) {
  for (const Item& item : items) {
    if (item.id == id) return &item;
  }
  return nullptr;
}

}  // namespace dosewright
