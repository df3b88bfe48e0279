// What a dilution takes over from what is said of the stronger stock; private to this folder.
#pragma once

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// Fills in stronger_classes and stronger_states of a stock that is diluted from another, which
/// must be answered already. CLP Article 9: what is known of a mixture goes before what is
/// calculated for it, and no calculation of the weaker one finds it.
void mind_the_stronger(const RoomAnswer& answers, StockAnswer& one);

}  // namespace dosewright
