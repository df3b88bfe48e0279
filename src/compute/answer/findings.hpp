// What a careful person would mend in a room; private to this folder.
#pragma once

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// Adds to `answers.problems` whatever the stocks and documents of the room give rise to.
void collect_findings(RoomAnswer& answers);

/// Adds what the hazards of a stock give rise to: what the calculation lacks, what the description
/// overrules, what the label's language cannot say.
/// Adds what a bought mixture's own classes leave out of those that it has by what it contains, and
/// what nothing in it explains.
void collect_contradictions(const Product& product, const Room& room, const HazardSources& sources,
                            Diagnostics& out);

void collect_hazards(const Room& room, const StockAnswer& stock, const Knowledge& knowledge,
                     Diagnostics& out);

/// A percentage rounded up to three figures.
[[nodiscard]] std::string percent_above(Share part);

/// A finding that pages say too, in their language.
[[nodiscard]] Diagnostic said_finding(const Origin& origin, Phrases message, std::string hint);

}  // namespace dosewright
