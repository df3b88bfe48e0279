// Laying out labels, charts and cards; all measures in millimetres.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "dosewright/layout/display_list.hpp"
#include "dosewright/layout/text_measurer.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

/// Why something cannot be printed as asked, and what would do.
struct LayoutProblem {
  std::string message;
  std::string hint;
};

/// The label on its sheet: `copies` of it from position `start_at` on, over as many sheets as that
/// takes. A label on which the text does not fit at the smallest sizes is a problem that names the
/// smallest label of the same proportions that would do. Floors for hazard text and pictograms: CLP
/// Annex I, Table 1.3, and the x-heights of Regulation (EU) 2024/2865.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_label(const LabelContent& content,
                                                               const LabelSheet& sheet,
                                                               const LabelStyle& style,
                                                               const TextMeasurer& measurer);

/// The chart over as many pages as its rows take, with repeated headings.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_chart(const ChartContent& content,
                                                               const PaperSize& paper,
                                                               const ChartStyle& style,
                                                               const TextMeasurer& measurer);

/// One page with a scale for each stock: water left of a heavy line, the dose right of it, both
/// from the top down, and beside the dose which tool measures it. Ticks are thinned until they can
/// be told apart, figures until they do not touch; no tick moves. Precondition: as many dose axes
/// as columns, at least one; all positions from 0 to 1.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_dose_scale(const DoseScaleContent& content,
                                                                    const PaperSize& paper,
                                                                    const ChartStyle& style,
                                                                    const TextMeasurer& measurer);

/// The card over as many pages as its panels take, dealt out evenly; every page has the same grid.
/// Precondition: content.page has one column, and at least one panel is given.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_measuring_card(
    const MeasuringCardContent& content, const PaperSize& paper, const ChartStyle& style,
    const TextMeasurer& measurer);

/// The words and tables over as many pages as they take; a row never breaks, and a table that goes
/// on repeats its headings. Precondition: as many widths as headings and as cells in each row.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_sheet(const SheetContent& content,
                                                               const PaperSize& paper,
                                                               const ChartStyle& style,
                                                               const TextMeasurer& measurer);

/// As many lines to write on as each page holds, 8.5 to 11 mm high.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_dosing_log(const DosingLogContent& content,
                                                                    const PaperSize& paper,
                                                                    const ChartStyle& style,
                                                                    const TextMeasurer& measurer);

/// One page to be measured with a ruler.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_printer_check(
    const PrinterCheckContent& content, const PaperSize& paper, const TextMeasurer& measurer);

/// A document as it goes onto a contact sheet.
struct Exhibit {
  std::vector<std::string> captions;  ///< one for each page
  const Pages* pages = nullptr;
};

/// How large pages are on a contact sheet.
inline constexpr Share kContactShare = share(0.4);

/// All pages of all documents, side by side on one page in the order given, at one scale, so that
/// their sizes can be compared; each with its caption below. The sheet is about 4 to 3. `scale`
/// says how small they are. Precondition: at least one page.
[[nodiscard]] Page lay_out_contact_sheet(const std::string& title, const std::string& scale,
                                         const std::vector<Exhibit>& documents,
                                         const TextMeasurer& measurer);

/// Pages drawn so that a printer of this error prints them true. What would fall off the page is
/// a problem.
[[nodiscard]] std::variant<Pages, LayoutProblem> corrected(const Pages& pages,
                                                           const PrinterError& printer);

}  // namespace dosewright
