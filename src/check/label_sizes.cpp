#include "label_sizes.hpp"

#include <algorithm>

namespace dosewright {

namespace {

using Size = std::optional<std::pair<Length, Length>>;

constexpr Length kEdge = millimetres(5);   // free of the panel's edge
constexpr Length kSlack = millimetres(2);  // free of the straight side's ends
constexpr Length kWing = millimetres(74);  // CLP Annex I, Table 1.3: 52 x 74 mm if possible
constexpr Length kWingHeight = millimetres(52);
constexpr Length kPunch = millimetres(10);

// Beyond these a larger label says nothing more; our own limits, about twice the law's sizes.
std::pair<Length, Length> largest_panel(Volume holds) {
  if (holds <= litres(3)) return {millimetres(105), millimetres(148)};
  if (holds <= litres(50)) return {millimetres(148), millimetres(210)};
  return {millimetres(200), millimetres(287)};
}

Size panel(const Container& container) {
  Length width;
  Length height;
  if (container.flat_width) {
    width = *container.flat_width - kEdge * 2;
    height = *container.flat_height - kEdge * 2;
  } else if (container.around && container.straight) {
    width = *container.around * (1.0 / 3);
    height = *container.straight - kSlack * 2;
  } else {
    return std::nullopt;
  }
  const auto [shorter, longer] = largest_panel(container.holds);
  const bool lies = width > height;
  return std::make_pair(std::min(width, lies ? longer : shorter),
                        std::min(height, lies ? shorter : longer));
}

// Two wings; a low tube gets longer ones.
Size flag(const Container& container) {
  if (!container.around) return std::nullopt;
  Length height = kWingHeight;
  if (container.straight) height = std::clamp(*container.straight, millimetres(26), kWing);
  const Length wing = std::clamp(kWing * (kWingHeight / height), kWing, millimetres(120));
  return std::make_pair(wing * 2 + *container.around, height);
}

bool is_measured(const Container& container) {
  return container.around || container.flat_width || container.cap;
}

}  // namespace

std::optional<std::pair<Length, Length>> proposed_label(const Container& container,
                                                        LabelForm form) {
  switch (form) {
    case LabelForm::panel:
      return panel(container);
    case LabelForm::wrap:
      if (!container.around || !container.straight) return std::nullopt;
      return std::make_pair(*container.around + kWrapOverlap, *container.straight - kSlack * 2);
    case LabelForm::flag:
      return flag(container);
    case LabelForm::tag:
      if (!is_measured(container)) return std::nullopt;
      return std::make_pair(kWing * 2, kWingHeight + kPunch);
    case LabelForm::dot:
      if (!container.cap) return std::nullopt;
      return std::make_pair(*container.cap - kSlack, *container.cap - kSlack);
  }
  return std::nullopt;
}

}  // namespace dosewright
