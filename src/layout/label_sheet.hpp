// Where the faces of a label lie, and where labels lie on their sheets; private to this folder.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/layout/documents.hpp"
#include "pen.hpp"

namespace dosewright {

/// The faces of a label of this form, left to right: one, or two for a label with wings.
[[nodiscard]] std::vector<Box> face_boxes(const LabelSheet& sheet, double width, double height);

/// What of a label's width goes round or under something and is not read, mm.
[[nodiscard]] double around_of(const LabelSheet& sheet);

/// A proposed label on its paper: turned if need be, as many beside and below each other as there
/// is room for; a label off a roll is its own paper. Nothing when the paper is too small for even
/// one.
[[nodiscard]] std::optional<LabelSheet> on_plain_paper(LabelSheet sheet);

/// Ticks at the label's edges where it is folded or overlaps, and what is punched; `under` is
/// written on the end of a wrap that goes under the other.
void mark_folds(Pen& pen, const LabelSheet& sheet, double thickness, const std::string& under);

/// `copies` of the labels, one after the other, from the sheet's first free position on.
[[nodiscard]] Pages on_sheets(const std::vector<Page>& labels, const LabelSheet& sheet,
                              const std::string& title, const TextMeasurer& measurer);

/// A round label for a cap, from which nobody doses: name, code and signal word.
[[nodiscard]] std::variant<Pages, LayoutProblem> lay_out_cap_dot(const LabelContent& content,
                                                                 const LabelSheet& sheet,
                                                                 const LabelStyle& style,
                                                                 const TextMeasurer& measurer);

}  // namespace dosewright
