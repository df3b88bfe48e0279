// What each type of document says, and how it is laid out: the one place that knows them all;
// private to this folder.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "commands.hpp"
#include "dosewright/layout/display_list.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/record/record.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

using PageContent = std::variant<LabelContent, ChartContent, DoseScaleContent, MeasuringCardContent,
                                 SheetContent, DosingLogContent, PrinterCheckContent>;

[[nodiscard]] PageContent page_content(const Loaded& loaded, const RoomAnswer& answers,
                                       const Document& document);

[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_content(const Loaded& loaded,
                                                                 const PageContent& content,
                                                                 const Document& document);

/// Whether some page of the room writes decimals behind a comma.
[[nodiscard]] bool has_decimal_commas(const Loaded& loaded);
/// Takes the commas out of its thousands.
void ungroup(SheetContent& sheet);

/// What it shows in figures, for the print record.
[[nodiscard]] std::vector<ShownFact> facts_of(const PageContent& content);

/// Marks what is not as it was printed; only charts and cards of doses have marks. Whether there
/// was something to mark.
bool mark_against(const RecordEntry& before, const Words& w, PageContent& content);

/// "bucket chart", as the description writes it.
[[nodiscard]] std::string type_word(Document::Type type);

/// Whether it tells doses of stocks to whoever stands before it.
[[nodiscard]] bool tells_doses(const Document& document);

/// The ids of the stocks that it shows.
[[nodiscard]] std::vector<std::string> stocks_of(const Document& document);

}  // namespace dosewright
