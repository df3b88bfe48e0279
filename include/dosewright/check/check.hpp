// From a located tree to the model, collecting every problem on the way; not for computing doses.
#pragma once

#include <functional>
#include <optional>
#include <string_view>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/hazard/classes.hpp"
#include "dosewright/hazard/statements.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/read/tree.hpp"

namespace dosewright {

/// What hazard codes, classes and chemicals are held against.
struct HazardBooks {
  const StatementBook& statements;
  const ClassBook& classes;
  const Knowledge& knowledge;
  const StatementBook* un = nullptr;  ///< for rooms whose rule book has the UN's statements
};

/// The known substances and incompatibilities of two files of templates/hazard.
[[nodiscard]] std::optional<Knowledge> check_knowledge(const Node& substances,
                                                       const Node& incompatibles,
                                                       const ClassBook& classes, Diagnostics& out);

/// The room a description speaks of. Every problem of the whole tree is added to `out`; the room is
/// returned only when none of them is an error.
[[nodiscard]] std::optional<Room> check_room(const Node& tree, const HazardBooks& books,
                                             Diagnostics& out);

/// Every value and key whose letters `can_print` refuses, as located errors.
void check_letters(const Node& tree, const std::function<bool(char32_t)>& can_print,
                   Diagnostics& out);

/// The languages that the law's hazard statements are there in.
[[nodiscard]] const std::vector<std::string>& statement_languages();

/// "2026-11-25" as a date; nothing when it is not a day of the calendar.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);

/// The looks a template file gives to labels or to charts.
[[nodiscard]] std::optional<LabelStyle> check_label_style(const Node& tree, Diagnostics& out);
[[nodiscard]] std::optional<ChartStyle> check_chart_style(const Node& tree, Diagnostics& out);

}  // namespace dosewright
