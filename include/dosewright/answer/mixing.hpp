// A recipe for the container at hand, what becomes of it, and what else is said of its strength;
// not how it is worded.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"
#include "dosewright/mix/solubility.hpp"

namespace dosewright {

/// One product to weigh, scoop or pour, or a stronger stock to take.
struct MixStep {
  const Product* product = nullptr;  ///< null when it is a stock
  const Stock* stronger = nullptr;
  std::variant<Mass, Volume> amount;
  bool scooped = false;
  /// On the marks of the stock's scale, or of any that suits; nothing when none does.
  std::optional<Measured> measured;
};

/// What dissolving does to the temperature, as far as it is known here.
enum class Dissolving { plain, cools, heats };

/// How one product of a stock stands to its solubility.
struct SolubilityAnswer {
  const Product* product = nullptr;
  Dissolves result = Dissolves::unknown;
  std::optional<Concentration> soluble;  ///< g per L of water
  Temperature at;                        ///< the coldest it is kept at; 20 °C if not stated
  Temperature known_at;                  ///< what the figure is of: 20 °C above it
  bool alone = true;                     ///< nothing else is dissolved beside it
};

struct MixAnswer {
  const StockAnswer* stock = nullptr;
  const StockAnswer* stronger = nullptr;  ///< that it is mixed from, if it is
  const Container* container = nullptr;   ///< null when a volume was asked for
  Mixture filled;                         ///< the recipe scaled, with the error of this batch
  std::vector<MixStep> steps;
  Volume water;  ///< finished volume, or what is poured in
  /// What is poured in first where the finished volume is stated; nothing where the rest leaves no
  /// room for it.
  std::optional<Volume> first_water;
  Dissolving dissolving = Dissolving::plain;
  std::optional<Measured> water_measured;
  SolutionDensity density;
  std::optional<RelativeError> if_scooped;  ///< of a weighed recipe, were it scooped instead
  std::vector<SolubilityAnswer> solubility;
};

/// The recipe of a mixed stock for this finished volume. Precondition: the stock is not dry.
[[nodiscard]] MixAnswer answer_mixing(const RoomAnswer& answers, const StockAnswer& stock,
                                      Volume makes, const Container* container);

/// Every product of a stock against its solubility at the coldest temperature it is kept at.
[[nodiscard]] std::vector<SolubilityAnswer> answer_solubility(const Room& room,
                                                              const StockAnswer& stock,
                                                              const Knowledge& knowledge);

/// One statement about a stock, reduced to what all can be compared by.
struct ClaimAnswer {
  std::string name;  ///< "dose" for the rule that everything is printed from
  std::string text;
  Origin origin;
  double factor = 1;  ///< over the dose that is printed
  DoseRate rate;      ///< of the stock, per L of water
};

/// The dose rule first, then every claim. A dose is compared as it is; grams of a product by what
/// the recipe holds of it; a claim of strength by the recipe's own strength: the factor is what the
/// treated water would get, were the bottle as the claim says.
[[nodiscard]] std::vector<ClaimAnswer> answer_claims(const Room& room, const StockAnswer& stock);

/// Two statements disagree when the larger is over the smaller by more than the dose's tolerance.
[[nodiscard]] bool disagree(const ClaimAnswer& one, const ClaimAnswer& other, Share tolerance);

}  // namespace dosewright
