// One step of mixing or mending on the marks of the tools at hand; private to this folder.
#pragma once

#include <string>

#include "dosewright/answer/mixing.hpp"

namespace dosewright {

/// The tool that the stock names for it, else all of this kind of thing.
[[nodiscard]] ToolSet tools_to_mix_with(const Room& room, const std::string& named, bool scales);

/// Nothing when no tool at hand shows it to 2 %: a recipe is poured with more patience than a dose.
/// What is more than all fills of the tools together is measured in up to 12 equal parts.
[[nodiscard]] std::optional<Measured> on_marks(Portion amount, const ToolSet& tools);

/// A product to weigh, scoop or pour; an amount to take of the stronger stock.
[[nodiscard]] MixStep step_for(const Room& room, const Stock& stock, const Component& component);
[[nodiscard]] MixStep step_taking(const Room& room, const Stock& stock, Volume taken);

}  // namespace dosewright
