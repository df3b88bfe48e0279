// What a careful person would mend in a room; private to this folder.
#pragma once

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// Adds to `answers.problems` whatever the stocks and documents of the room give rise to.
void collect_findings(RoomAnswer& answers);

}  // namespace dosewright
