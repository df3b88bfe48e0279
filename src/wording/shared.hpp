// Words that several documents share; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/wording/content.hpp"

namespace dosewright {

[[nodiscard]] std::string column_words(const DoseRule& rule, const Words& w);  ///< "for new water"
/// Known chemicals and "acids", "bleach" in the language of the page, as they stand behind "with";
/// other words as they are.
[[nodiscard]] std::vector<std::string> with_these(std::vector<std::string> names, const Words& w);
/// What a source is usually called, "the supplier's safety data sheet of 2026-03", in the language
/// of the page; anything else as it is written.
[[nodiscard]] std::string source_words(const std::string& source, const Words& w);
/// "Dechlorinator · for new water"; without the name on a page that has it for its title.
[[nodiscard]] std::string named_unless_titled(const std::string& title, const Stock& stock,
                                              const Words& w);
[[nodiscard]] CodeContent code_of(const StockAnswer& stock);
/// Code and caption of a page for this one stock.
void set_code(const StockAnswer& stock, ChartContent& page, const Words& w);
[[nodiscard]] FrameWords frame_words(const Words& w);

/// What the target stands for, the rule's own note, its limits in the user's words, and where a
/// dose that is given again leads at these changes.
[[nodiscard]] std::string dose_remarks(const StockAnswer& stock, MeasureSystem system,
                                       const std::vector<Share>& changes, const Words& w);
/// That a figure is one day's part, in a sentence; empty for a dose that is given at once.
[[nodiscard]] std::string parts_words(const DoseRule& rule, const Words& w);
/// "one; other", or the one that is there.
[[nodiscard]] std::string joined_remarks(const std::string& one, const std::string& other,
                                         const Words& w);

/// The same for so much water, with every change.
[[nodiscard]] std::string dose_remarks(const StockAnswer& stock, Volume water,
                                       const std::vector<Share>& changes, const Words& w);
/// dose_remarks for a label, whose contents line already names a stock's only product.
[[nodiscard]] std::string label_remarks(const StockAnswer& stock, Volume water,
                                        const std::string& of, const Words& w);

[[nodiscard]] CellContent cell_content(const StockAnswer& stock, const DoseAnswer& dose,
                                       ErrorShown shown, const Words& w);

/// One column for each stock, with a code where there are several.
[[nodiscard]] std::vector<ColumnContent> stock_columns(
    const std::vector<const StockAnswer*>& stocks, const Words& w);

/// Where it hangs and which revision it is.
[[nodiscard]] std::string foot_words(const Room& room, const ChartRequest& chart, const Words& w);
/// "revision 3 of 2026-11-20".
[[nodiscard]] std::string dated_words(const ChartRequest& chart, const Words& w);

/// Its own title, or the phrase.
[[nodiscard]] std::string title_of(const ChartRequest& chart, const char* phrase, const Words& w);
/// The subtitle, with the one bottle before it that the page holds for.
[[nodiscard]] std::string only_for_words(const ChartRequest& chart, const std::string& subtitle,
                                         const Words& w);

/// When the page may be used: the bottle shows the same code.
[[nodiscard]] std::string match_words(const std::vector<const StockAnswer*>& stocks,
                                      const Words& w);

/// What to do with a bottle that is past its date; empty where no stock says how long it keeps.
[[nodiscard]] std::string past_date_words(const std::vector<const StockAnswer*>& stocks,
                                          const Words& w);

[[nodiscard]] std::string no_replacement(const Words& w);

/// Whether an acid or base of unknown pH may corrode though the sums say nothing.
[[nodiscard]] bool may_be_corrosive(const HazardAnswer& answer);

/// Where the hazards come from: "calculation from its ingredients, with built-in figures for citric
/// acid", or what the description names.
[[nodiscard]] std::string basis_words(const HazardAnswer& answer, const Words& w);

/// What it may do beyond what was worked out: burn, or what is stated of a stronger stock.
[[nodiscard]] std::vector<std::string> suspected_lines(const HazardAnswer& answer, const Words& w);
/// Whether nothing at all can be said of what is in it, and what its label says then.
[[nodiscard]] bool is_not_assessed(const HazardAnswer& answer);
[[nodiscard]] std::vector<std::string> not_assessed_lines(const HazardAnswer& answer,
                                                          const Words& w);
[[nodiscard]] std::string not_assessed_precautions(const HazardAnswer& answer, const Words& w);
/// What the calculation could not know, in sentences: said, never left away.
[[nodiscard]] std::vector<std::string> unknown_lines(const HazardAnswer& answer, const Words& w);

}  // namespace dosewright
