#include "steps.hpp"

#include <algorithm>
#include <cmath>

namespace dosewright {

namespace {

// Level spoons and cups that powder goes into.
ToolSet spoons_of(const Room& room) {
  ToolSet set;
  for (const Tool& tool : room.tools) {
    if (tool.for_powder && !tool.holds.is_powder() && tool.only_for.empty())
      set.tools.push_back(&tool);
  }
  return set;
}

// A recipe is poured with more patience than a dose.
constexpr Share kRecipeTolerance = share(0.02);
constexpr double kMostParts = 12;

std::optional<Measured> at_once(Portion amount, const ToolSet& tools) {
  MeasureTask task;
  task.exact = amount;
  task.tolerance = kRecipeTolerance;
  return Measurer(tools).measure(task).measured;
}

// What no tool holds is measured in equal parts with the largest of them.
std::optional<Measured> in_equal_parts(Portion amount, const ToolSet& tools) {
  const auto largest =
      std::max_element(tools.tools.begin(), tools.tools.end(), [](const Tool* a, const Tool* b) {
        return a->marks.back().stored() < b->marks.back().stored();
      });
  const double most = (*largest)->marks.back().stored();
  const double parts = std::ceil(amount.stored() / most - 1e-9);
  if (parts < 2 || parts > kMostParts) return std::nullopt;
  ToolSet alone = tools;
  alone.tools = {*largest};
  auto part = at_once(amount * (1 / parts), alone);
  if (!part || part->pours.size() != 1) return std::nullopt;
  part->pours.front().count *= static_cast<int>(parts);
  for (Portion* figure : {&part->total, &part->off_by, &part->tool_bound, &part->tool_uncertainty})
    *figure = *figure * parts;
  return part;
}

}  // namespace

ToolSet tools_to_mix_with(const Room& room, const std::string& named, bool scales) {
  ToolSet set;
  for (const Tool& tool : room.tools) {
    const bool wanted = named.empty() || tool.id == named;
    const bool vessel =
        tool.id == named || tool.kind == Tool::Kind::cylinder || tool.kind == Tool::Kind::cup;
    if (!wanted || (scales ? !tool.holds.is_powder() : !vessel || tool.for_powder)) continue;
    if (tool.only_for.empty() || tool.id == named) set.tools.push_back(&tool);
  }
  if (scales) set.powder = PowderByVolume{};
  return set;
}

std::optional<Measured> on_marks(Portion amount, const ToolSet& tools) {
  if (tools.tools.empty()) return std::nullopt;
  if (auto found = at_once(amount, tools)) return found;
  return in_equal_parts(amount, tools);
}

MixStep step_for(const Room& room, const Stock& stock, const Component& component) {
  MixStep step;
  step.product = find(room.products, component.product);
  step.amount = component.amount;
  step.scooped = component.scooped;
  if (const auto* mass = std::get_if<Mass>(&component.amount)) {
    step.measured = on_marks(*mass, tools_to_mix_with(room, stock.weighed_with, true));
  } else if (component.scooped) {
    step.measured = on_marks(std::get<Volume>(component.amount), spoons_of(room));
  } else {
    step.measured =
        on_marks(std::get<Volume>(component.amount), tools_to_mix_with(room, "", false));
  }
  return step;
}

MixStep step_taking(const Room& room, const Stock& stock, Volume taken) {
  MixStep step;
  step.stronger = stock.stronger.get();
  step.amount = taken;
  step.measured = on_marks(taken, tools_to_mix_with(room, stock.taken_with, false));
  return step;
}

}  // namespace dosewright
