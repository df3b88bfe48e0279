// What a page says, as finished words and figures; not where they stand.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"
#include "dosewright/answer/mixing.hpp"
#include "dosewright/answer/supply.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/wording/words.hpp"

namespace dosewright {

/// A number and its unit, set apart because they are printed in two sizes.
struct Amount {
  std::string figure;
  std::string unit;
};

/// The code that a bottle and its chart share, in letters and as a strip.
struct CodeContent {
  std::string letters;
  std::array<CellPattern, 8> strip{};
};

/// A caption over a value. An empty value leaves a line to write on.
struct Field {
  std::string caption;
  std::string value;
};

struct LabelContent {
  std::string name;
  std::string contents;
  CodeContent code;
  std::string code_caption;  ///< "match the chart"
  std::string dose;          ///< "1.4 mL"; empty when no dose can be measured
  std::string treats;        ///< "treats 20 L of new water"
  std::string note;          ///< the rule's own note and how to measure
  std::vector<Field> fields;
  std::string signal;
  std::vector<std::string> pictograms;
  std::vector<std::string> hazard_lines;  ///< bold: hazard statements, or what is unknown
  std::string precautions;                ///< one paragraph
  /// On a package of at most 125 mL these may stand for the two above (CLP Annex I, 1.5.2.1).
  bool may_be_shortened = false;
  std::vector<std::string> short_hazard_lines;
  std::string short_precautions;
  std::string short_words;                 ///< said on the label where that was done
  std::vector<std::string> warning_lines;  ///< bold, each on its own line: "Never mix with …"
  std::string safety;                      ///< one paragraph: not for drinking, who to call …
  std::string elsewhere;                   ///< on a front: where the hazard statements stand
  std::string short_elsewhere;             ///< the same where some are left off
  std::string under;                       ///< on the end of a wrap that the other covers
  std::string on_cap;                      ///< on a cap: where the label is
  std::string square;                      ///< plain text for a square code; empty: none
  std::string square_caption;              ///< beside it, where there is room: what is in it
  Volume capacity;                         ///< of the container; decides the law's floors
};

/// A mark of a tool as it is drawn.
struct MarkPicture {
  double at = 0;     ///< over the capacity, 0 to 1
  int division = 0;  ///< how many of the tool's smallest divisions from zero: 14 for 1.4 mL by 0.1
  std::string figure;  ///< "1.4"
};

/// One fill of a measuring tool as it is drawn.
struct ToolPicture {
  Tool::Kind kind = Tool::Kind::syringe;
  std::vector<MarkPicture> marks;  ///< ascending; long ones are multiples of 5 and 10 divisions
  bool even = true;                ///< marks at equal distances; else every mark is long
  double fill = 0;                 ///< 0 to 1
  std::string fill_text;           ///< "1.4 mL", "7 drops", "12.5 g"
  int count = 1;                   ///< how many times it is filled like this
  std::string times;               ///< "2 times"; empty: in English
};

struct CellContent {
  Amount dose;          ///< empty figure when the stock itself cannot be measured
  std::string instead;  ///< then, in place of the figure: "dilute first"; may be empty
  std::string how;      ///< "3 mL syringe to 1.4 mL", or why it cannot be measured
  std::string off_by;   ///< "off by at most 0.08 mL"
  bool strong = true;   ///< the column a reader of this row mostly wants
  std::vector<ToolPicture> pictures;  ///< every fill of the dose, in order
};

/// A figure of a page in words: "white pail 5 L, Buffer" and "0.35 mL".
struct ShownFigure {
  std::string what;
  std::string figure;
};

struct RowContent {
  std::string name;  ///< a vessel's name; may be empty
  Amount water;
  std::vector<CellContent> cells;
  bool changed = false;    ///< since the page that it replaces
  std::string place = {};  ///< of a tank
  std::string each = {};   ///< its water where it shares the row: "20 US gal each"
  /// Names of further tanks that this row stands for: same place, same water, same doses.
  std::vector<std::string> with = {};
};

struct ColumnContent {
  std::string heading;
  std::string below;                ///< a second, smaller line; may be empty
  std::optional<CodeContent> code;  ///< when the columns are different stocks
};

/// What layout itself writes on a page.
struct FrameWords {
  std::string give = "give";
  std::string how = "how";
  std::string no_tool = "no tool";
  std::string page_of = "{1} of {2}";  ///< number of the page, and of how many
  std::string true_print = "100 mm when printed true";
  std::string starts = "{1}, from {2}";  ///< title of a page for the outline, and its first row
  std::string colon = ": ";              ///< between what it is for and what is given
  char decimal_sign = '.';
};

struct ChartContent {
  FrameWords words;
  bool by_tank = false;  ///< rows are found by name, not by their water
  std::string title;
  std::string subtitle;
  std::optional<CodeContent> code;  ///< when the whole page is for one stock
  std::string code_caption;         ///< "match the bottle"
  std::string dated;        ///< "revision 3 of 2026-11-20": shown large where read from afar
  std::string row_caption;  ///< "bucket", "tank"
  std::vector<ColumnContent> columns;
  std::vector<RowContent> rows;
  std::string match;  ///< bold: when the chart may be used
  std::string small;  ///< one paragraph
  std::string foot;   ///< where it hangs, revision
  /// In place of rows: a chart for each stock, on pages of its own. Each knows that it has sisters.
  std::vector<ChartContent> own_pages;
  bool is_own_page = false;
};

/// A tick of a printed scale.
struct ScaleTick {
  double at = 0;       ///< 0 at the start of the scale, 1 at its end
  long division = 0;   ///< its value in a power of ten of the unit; thinned by 2, 5, 10, 20 …
  std::string figure;  ///< "2.5", printed beside the tick where there is room
  double next_by =
      2;  ///< the next tick must stand no later: beyond, a reading breaks the tolerance
};

/// A part of an axis that is read in one way: on a dose axis, the part measured with one tool.
struct ScalePart {
  double from = 0;  ///< 0 to 1
  double to = 0;
  std::string words;             ///< "3 mL syringe"; empty on the axis of water
  std::vector<ScaleTick> ticks;  ///< ascending, all there are; layout thins them
};

/// One side of a scale.
struct ScaleAxis {
  std::string unit;              ///< "mL", "US gal"
  std::vector<ScalePart> parts;  ///< ascending; between two parts nothing can be measured
};

/// A scale for any volume in between: water on one side, the dose of each stock on the other.
struct DoseScaleContent {
  ChartContent page;  ///< without rows; one column for each stock
  ScaleAxis water;
  std::vector<ScaleAxis> doses;  ///< as many as page.columns
};

/// One dose of a measuring card.
struct MeasurePanel {
  std::string name;  ///< of the bucket; may be empty
  Amount water;
  CellContent cell;
};

/// A card that shows in large drawings how each dose of one stock is measured.
struct MeasuringCardContent {
  ChartContent page;  ///< without rows; one column
  std::vector<MeasurePanel> panels;
};

/// A table of a sheet: headings, the part of the width each column takes, rows of cells.
struct SheetTable {
  std::vector<std::string> headings;
  std::vector<double> widths;  ///< of 1 together
  std::vector<std::vector<std::string>> rows;
  std::vector<bool> strong;  ///< as many as rows: bold ones
  bool large = false;        ///< read while the hands are busy: the second column in large figures
};

/// What is left of a supply, step by step, and where to order the next.
struct UsePicture {
  std::vector<double> left;  ///< 1 to 0
  double reorder = 0;        ///< 0 to 1
  std::string top;           ///< what 1 stands for: "1 kg"
  std::string start;
  std::string end;
  std::string order;
};

/// A part of a sheet: a heading, paragraphs, a table; any of them may be empty.
struct SheetBlock {
  std::string heading;
  std::vector<std::string> paragraphs;
  SheetTable table;
  std::optional<UsePicture> picture;
  bool together = false;  ///< on one page, if it finds room on one at all
};

/// A page of words and tables, for reading at a desk.
struct SheetContent {
  ChartContent page;  ///< title, subtitle, code, foot; without columns and rows
  std::vector<SheetBlock> blocks;
};

/// Lines to write on, in columns whose widths come to 1.
struct LogColumn {
  std::string caption;
  double width = 0;
};
struct DosingLogContent {
  ChartContent page;  ///< without columns and rows
  std::vector<LogColumn> columns;
  int pages = 1;
};
/// For one stock, or for all of them with a column more.
[[nodiscard]] DosingLogContent dosing_log_content(const RoomAnswer& answers,
                                                  const Document& document,
                                                  const Words& w = english());

/// What is measured on paper once; lengths in millimetres.
struct PrinterCheckContent {
  std::string title;
  double across = 0;
  double down = 0;
  double from_edge = 0;
  std::vector<std::string> paragraphs;
  std::vector<Field> fields;  ///< what to measure, and its unit
  std::string greys;
  std::string sizes;
  std::string sample;
  char decimal_sign = '.';
  std::string foot;
};
[[nodiscard]] PrinterCheckContent printer_check_content(const RoomAnswer& answers,
                                                        const Document& document,
                                                        const Words& w = english());

/// Why a stock's label says what it says: every rule, sum, limit and result, what was not
/// evaluated, and what was assumed. `chart` says where the sheet is kept.
[[nodiscard]] SheetContent hazard_sheet_content(const RoomAnswer& answers, const StockAnswer& stock,
                                                const ChartRequest& chart,
                                                const Words& w = english());

/// What of the room's stocks may not stand together, each with its source.
[[nodiscard]] SheetContent storage_list_content(const RoomAnswer& answers,
                                                const ChartRequest& chart,
                                                const Words& w = english());

/// How a stock is mixed, in the order of the work, with the cautions of its products and the error
/// of its strength.
[[nodiscard]] SheetContent mixing_content(const RoomAnswer& answers, const MixAnswer& mix,
                                          const ChartRequest& chart, const Words& w = english());

/// How far a tub goes, what that costs, how long it lasts and when to order.
[[nodiscard]] SheetContent supply_content(const RoomAnswer& answers, const Document& document,
                                          const Words& w = english());

/// The figures of one rule, such as "4.77 %" or "pH 1.8".
[[nodiscard]] std::string step_sum(const RuleStep& step, const Words& w = english());
[[nodiscard]] std::string step_limit(const RuleStep& step, const Words& w = english());

[[nodiscard]] LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request,
                                         ErrorShown shown, const Words& w = english());
/// One label that says everything in the languages of both: short words side by side, statements
/// and sentences one after the other. Figures, dates and names are the first one's.
[[nodiscard]] LabelContent in_both(const LabelContent& first, const LabelContent& second);
[[nodiscard]] ChartContent chart_content(const RoomAnswer& answers, const Document& document,
                                         ErrorShown shown, const Words& w = english());
[[nodiscard]] DoseScaleContent dose_scale_content(const RoomAnswer& answers,
                                                  const Document& document,
                                                  const Words& w = english());
[[nodiscard]] MeasuringCardContent measuring_card_content(const RoomAnswer& answers,
                                                          const Document& document,
                                                          ErrorShown shown,
                                                          const Words& w = english());

/// The chart with tanks that stand next to each other and have all in common but their name in one
/// row. A figure is looked up by its tank, so changes are marked before.
[[nodiscard]] ChartContent gathered_rows(const ChartContent& chart);

/// What a page shows, in figures that can be laid beside those of another print of it.
[[nodiscard]] std::vector<ShownFigure> figures_of(const LabelContent& label);
[[nodiscard]] std::vector<ShownFigure> figures_of(const ChartContent& chart);
[[nodiscard]] std::vector<ShownFigure> figures_of(const MeasuringCardContent& card);
[[nodiscard]] std::vector<ShownFigure> figures_of(const DoseScaleContent& scale);
[[nodiscard]] std::vector<ShownFigure> figures_of(const SheetContent& sheet);
/// None.
[[nodiscard]] std::vector<ShownFigure> figures_of(const DosingLogContent& log);
[[nodiscard]] std::vector<ShownFigure> figures_of(const PrinterCheckContent& page);

/// Marks the rows whose figures are not those of `before`, "(was 4 mL)" behind the way to measure,
/// and says in the small print what the marks stand for: `against` names the page that is replaced.
/// Without any figure of `before` nothing is marked. Whether something was.
bool mark_changes(ChartContent& chart, const std::vector<ShownFigure>& before,
                  const std::string& against, const Words& w = english());
/// The same, without bars.
bool mark_changes(MeasuringCardContent& card, const std::vector<ShownFigure>& before,
                  const std::string& against, const Words& w = english());

/// "3 mL syringe to 1.4 mL", "10 mL syringe full 2 times, then to 4 mL".
[[nodiscard]] std::string how_to_measure(const Measured& measured, const Words& w = english());

/// The measured dose at the resolution of its tools.
[[nodiscard]] Amount dose_amount(const Measured& measured, const Words& w = english());

/// What the target stands for, the rule's own note, its limits for this water, and what follows a
/// change: "brings 30 mg per L of …; never more than 1.3 mL for it". `change` is the vessel's,
/// where one is meant.
[[nodiscard]] std::string dose_remarks(const StockAnswer& stock, Volume water,
                                       std::optional<Share> change = std::nullopt,
                                       const Words& w = english());

/// "each day, 3 days"; empty for a dose that is given at once.
[[nodiscard]] std::string days_words(const DoseRule& rule, const Words& w = english());
/// "4.2 mL in all": the parts of all days together.
[[nodiscard]] std::string all_days_words(const DoseRule& rule, Portion part,
                                         const Words& w = english());

/// Why there is no measured dose.
[[nodiscard]] std::string why_not(const MeasureAnswer& answer, const Words& w = english());

/// A mark of a tool as a bare number of mL or g, at the decimals the tool resolves.
[[nodiscard]] std::string mark_figure(const Tool& tool, Portion mark, const Words& w = english());

/// What one fill shows: "1.4 mL", "7 drops", "12.5 g".
[[nodiscard]] std::string fill_text(const Pour& pour, const Words& w = english());

/// "1. Fill the 1 mL syringe to 1 mL with Permanganate, empty it into the 50 mL cylinder. 2. …":
/// four steps; what is given in the end is the mixture, not the stock.
[[nodiscard]] std::string how_to_dilute(const WorkingDilution& dilution, const std::string& stock,
                                        const Words& w = english());

/// "0.08 mL": a bound rounded up, to two figures. Precondition: more than 0.
[[nodiscard]] std::string rounded_up(Portion bound, const Words& w = english());
/// "off by at most 0.08 mL".
[[nodiscard]] std::string off_by_text(Portion off_by, const Words& w = english());
/// The error that the template asks for; empty when it asks for none or nothing can be measured.
[[nodiscard]] std::string error_text(const DoseAnswer& dose, ErrorShown shown,
                                     const Words& w = english());

/// A share as a whole percentage, rounded up: a bound must not shrink in print.
[[nodiscard]] std::string percent_up(Share part);

/// "sodium thiosulfate pentahydrate 100 g per L in water".
[[nodiscard]] std::string contents_text(const Room& room, const Mixture& mixture,
                                        const Words& w = english());
/// The same without the water and the error: "sodium thiosulfate pentahydrate 100 g per L".
[[nodiscard]] std::string strengths_text(const Room& room, const Mixture& mixture,
                                         const Words& w = english());

/// What goes into a bottle: one line for each product, then the water.
[[nodiscard]] std::vector<std::string> recipe_lines(const Room& room, const Stock& stock,
                                                    const Mixture& filled);

/// With a capital letter.
[[nodiscard]] std::string capitalised(std::string text);

[[nodiscard]] std::string date_text(const Date& date);  ///< "2026-11-25"

/// A water volume as its user wrote it, in printing style: "5 us gallons" gives 5 and US gal.
[[nodiscard]] Amount water_as_written(const std::string& text, Volume water, MeasureSystem system,
                                      const Words& w = english());

/// Of a vessel whose water was worked out: "A1: 231.66 L net of 270 L full, right to 5 %". Empty
/// for one whose user stated the water itself.
[[nodiscard]] std::string vessel_text(const Vessel& vessel, MeasureSystem system);

}  // namespace dosewright
