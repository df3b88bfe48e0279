// Words that several documents share; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/wording/content.hpp"

namespace dosewright {

[[nodiscard]] std::string basis_words(const DoseRule& rule);   ///< "of new water"
[[nodiscard]] std::string column_words(const DoseRule& rule);  ///< "for new water"
[[nodiscard]] CodeContent code_of(const StockAnswer& stock);
[[nodiscard]] std::string vessel_word(const Stock& stock);  ///< "bottle"; a powder's "tub"
/// Code and caption of a page for this one stock.
void set_code(const StockAnswer& stock, ChartContent& page);

/// What the target stands for, the rule's own note, its limits in the user's words, and where a
/// dose that is given again leads at these changes.
[[nodiscard]] std::string dose_remarks(const StockAnswer& stock, MeasureSystem system,
                                       const std::vector<Share>& changes);
/// That a figure is one day's part, in a sentence; empty for a dose that is given at once.
[[nodiscard]] std::string parts_words(const DoseRule& rule);
/// "one; other", or the one that is there.
[[nodiscard]] std::string joined_remarks(const std::string& one, const std::string& other);

/// dose_remarks for a label, whose contents line already names a stock's only product.
[[nodiscard]] std::string label_remarks(const StockAnswer& stock, Volume water);

[[nodiscard]] CellContent cell_content(const StockAnswer& stock, const DoseAnswer& dose,
                                       ErrorShown shown);

/// One column for each stock, with a code where there are several.
[[nodiscard]] std::vector<ColumnContent> stock_columns(
    const std::vector<const StockAnswer*>& stocks);

/// Where it hangs and which revision it is.
[[nodiscard]] std::string foot_words(const Room& room, const ChartRequest& chart);
/// "revision 3 of 2026-11-20".
[[nodiscard]] std::string dated_words(const ChartRequest& chart);

/// When the page may be used: the bottle shows the same code.
[[nodiscard]] std::string match_words(const std::vector<const StockAnswer*>& stocks);

/// What to do with a bottle that is past its date; empty where no stock says how long it keeps.
[[nodiscard]] std::string past_date_words(const std::vector<const StockAnswer*>& stocks);

inline constexpr const char* kNoReplacement =
    "Does not replace the safety data sheet, local rules or a vet.";

/// Whether an acid or base of unknown pH may corrode though the sums say nothing.
[[nodiscard]] bool may_be_corrosive(const HazardAnswer& answer);

/// What the calculation could not know, in sentences: said, never left away.
[[nodiscard]] std::vector<std::string> unknown_lines(const HazardAnswer& answer);

}  // namespace dosewright
