// Which ticks of a printed scale are drawn, and which carry figures; private to this folder.
#pragma once

#include <string>
#include <vector>

#include "dosewright/wording/content.hpp"

namespace dosewright {

/// How a tick stands out: figured ticks are longest, middle ones help to count the short ones.
enum class TickRank { minor, middle, figured };

struct KeptTick {
  double at = 0;  ///< 0 to 1, exactly as it was given
  TickRank rank = TickRank::minor;
  std::string figure;  ///< empty unless figured
};

/// What keeps a scale legible, in mm.
struct TickSpacing {
  double length = 0;       ///< of the whole scale
  double between = 0;      ///< least distance of two ticks
  double figure_room = 0;  ///< least distance of two ticks with figures
};

/// The ticks that can be told apart. Each part of the axis keeps every 1st, 2nd, 5th, 10th …
/// division, the smallest such step whose ticks are far enough apart, and figures the smallest
/// multiple of it. Where ticks crowd towards the end, as on a logarithmic scale, each stretch
/// between 1, 2, 5, 10, 20 … divisions has a step of its own. Where two parts meet too closely the
/// weaker tick gives way. The first and the last tick of the axis always stand with their figures.
[[nodiscard]] std::vector<KeptTick> kept_ticks(const ScaleAxis& axis, const TickSpacing& spacing);

}  // namespace dosewright
