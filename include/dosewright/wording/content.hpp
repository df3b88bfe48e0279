// What a page says, as finished words and figures; not where they stand.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"

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
  std::string dose;    ///< "1.4 mL"; empty when no dose can be measured
  std::string treats;  ///< "treats 20 L of new water"
  std::string note;    ///< the rule's own note and how to measure
  std::vector<Field> fields;
  std::string signal;
  std::vector<std::string> pictograms;
  std::vector<std::string> hazard_lines;   ///< bold: hazard statements, or what is unknown
  std::string precautions;                 ///< one paragraph
  std::vector<std::string> warning_lines;  ///< bold, each on its own line: "Never mix with …"
  std::string safety;                      ///< one paragraph: not for drinking, who to call …
  Volume capacity;                         ///< of the container; decides the law's floors
};

/// A measuring tool as it is drawn: everything as parts of its capacity.
struct ToolPicture {
  bool nozzle = false;
  std::vector<double> marks;  ///< 0 to 1, ascending
  double fill = 0;            ///< 0 to 1
};

struct CellContent {
  Amount dose;         ///< empty figure when the dose cannot be measured
  std::string how;     ///< "3 mL syringe to 1.4 mL", or why it cannot be measured
  std::string off_by;  ///< "off by at most 0.08 mL"
  bool strong = true;  ///< the column a reader of this row mostly wants
  std::optional<ToolPicture> picture;
};

struct RowContent {
  std::string name;  ///< a vessel's name; may be empty
  Amount water;
  std::vector<CellContent> cells;
};

struct ColumnContent {
  std::string heading;
  std::string below;                ///< a second, smaller line; may be empty
  std::optional<CodeContent> code;  ///< when the columns are different stocks
};

struct ChartContent {
  std::string title;
  std::string subtitle;
  std::optional<CodeContent> code;  ///< when the whole page is for one stock
  std::string row_caption;          ///< "bucket", "tank"
  std::vector<ColumnContent> columns;
  std::vector<RowContent> rows;
  std::string match;  ///< bold: when the chart may be used
  std::string small;  ///< one paragraph
  std::string foot;   ///< where it hangs, revision
};

[[nodiscard]] LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request);
[[nodiscard]] ChartContent chart_content(const RoomAnswer& answers, const Document& document);

/// "3 mL syringe to 1.4 mL", "10 mL syringe full 2 times, then to 4 mL".
[[nodiscard]] std::string how_to_measure(const Measured& measured);

/// The measured dose at the resolution of its tools.
[[nodiscard]] Amount dose_amount(const Measured& measured);

/// Why there is no measured dose.
[[nodiscard]] std::string why_not(const MeasureAnswer& answer);

/// "off by at most 0.08 mL"; the bound is rounded up, to two figures. Precondition: more than 0.
[[nodiscard]] std::string off_by_text(Volume off_by);

/// "sodium thiosulfate pentahydrate 100 g per L in water".
[[nodiscard]] std::string contents_text(const Room& room, const Mixture& mixture);

/// What goes into a bottle: one line for each product, then the water.
[[nodiscard]] std::vector<std::string> recipe_lines(const Room& room, const Stock& stock,
                                                    const Mixture& filled);

[[nodiscard]] std::string date_text(const Date& date);  ///< "2026-11-25"

/// A water volume as its user wrote it, in printing style: "5 us gallons" gives 5 and US gal.
[[nodiscard]] Amount water_as_written(const std::string& text, Volume water, MeasureSystem system);

}  // namespace dosewright
