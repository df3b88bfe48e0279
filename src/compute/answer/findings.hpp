// What a careful person would mend in a room; private to this folder.
#pragma once

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// Adds to `answers.problems` whatever the stocks and documents of the room give rise to.
void collect_findings(RoomAnswer& answers);

/// A finding that pages say too, in their language.
[[nodiscard]] Diagnostic said_finding(const Origin& origin, Phrases message, std::string hint);

}  // namespace dosewright
