// What a chemist would mend in a stock: what does not dissolve, does not keep, does not agree;
// private to this folder.
#pragma once

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// Adds what the stock's solubility, shelf life, reagent ratio, chlorine and ammonia, repeated
/// doses and the claims about it give rise to.
void collect_chemistry(const Room& room, const StockAnswer& stock, const Knowledge& knowledge,
                       Diagnostics& out);

}  // namespace dosewright
