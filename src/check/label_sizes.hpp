// The label a container has room for, from its measures; private to this folder.
#pragma once

#include <optional>
#include <utility>

#include "dosewright/model/room.hpp"

namespace dosewright {

/// Width and height of the label to propose; nothing when a measure that it needs is not stated.
/// A panel needs `flat`, or `around` and `straight`, and takes at most a third of the girth, so
/// that it is read without turning the bottle; a wrap needs `around` and `straight`, a flag
/// `around`, a dot `cap`; a tag needs nothing but is only proposed where something is measured.
[[nodiscard]] std::optional<std::pair<Length, Length>> proposed_label(const Container& container,
                                                                      LabelForm form);

}  // namespace dosewright
