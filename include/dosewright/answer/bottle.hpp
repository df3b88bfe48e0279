// A bottle that is not as strong as the recipe says: the room as it is for that bottle alone, and
// what brings it to the recipe's strength; not how that is worded.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/mixing.hpp"
#include "dosewright/mix/batch.hpp"

namespace dosewright {

/// The room with one stock as it stands in a bottle `times` as strong as its recipe: its label,
/// charts and hazards are worked out anew from this. Where it is stronger, statements that the
/// description makes of the solution, or tests have shown, are the least, and what is calculated is
/// added to them; that it was said or tested to be harmless counts no more; its pH is moved by
/// log10(times) away from 7, as far as that of a strong acid or base would. Its documents are those
/// of the room.
/// Precondition: that of as_in_bottle.
[[nodiscard]] Room room_of_bottle(const RoomAnswer& answers, const StockAnswer& stock,
                                  double times);

/// Whether the description states anything of the solution's hazards that holds for one strength.
[[nodiscard]] bool states_hazards(const Hazards& hazards);

/// The strengths written for the print record, one for each product: "10102-17-7=100" in g/L, or
/// with "~" in mL/L of a liquid by volume, as in the strength code; `from_text` takes them apart,
/// in the order of the recipe, and gives nothing when they are not of its products.
[[nodiscard]] std::vector<std::string> strengths_as_text(const Room& room, const Strengths& held,
                                                         const Mixture& recipe);
[[nodiscard]] std::optional<Strengths> strengths_from_text(const Room& room,
                                                           const std::vector<std::string>& text,
                                                           const Mixture& recipe);

/// What is added to `volume` of the liquid, on the marks of the tools at hand.
struct MendAnswer {
  std::vector<MixStep> steps;  ///< without those of nothing
  Volume water;
  std::optional<Measured> water_measured;
  Volume finishes;  ///< with what stands on the marks, where water alone is added
};
[[nodiscard]] MendAnswer answer_mending(const RoomAnswer& answers, const StockAnswer& stock,
                                        const Strengths& found, Volume volume);

/// Whether `batch`, as mix_weighed gives it, is to a bench what the recipe asks for (`filled`):
/// each amount as close to it as the measure at hand can tell, or within kSameStrength of it.
[[nodiscard]] bool is_by_recipe(const RoomAnswer& answers, const StockAnswer& stock,
                                const Mixture& filled, const Mixture& batch);

}  // namespace dosewright
