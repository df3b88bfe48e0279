#include "dosewright/answer/bottle.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/dose/strength_code.hpp"
#include "hazard_parts.hpp"
#include "steps.hpp"

namespace dosewright {

namespace {

bool is_nothing(const std::variant<Mass, Volume>& amount) {
  return std::visit([](const auto& value) { return value.stored() < 1e-9; }, amount);
}

// The pH of a strong acid or base moves by the logarithm of what it is stronger by (pH = -log c);
// that of all others by less.
std::optional<double> ph_of_stronger(std::optional<double> ph, double times) {
  if (!ph || *ph == 7) return ph;
  return *ph < 7 ? *ph - std::log10(times) : *ph + std::log10(times);
}

// What is stated or tested of the weaker liquid.
std::vector<HazardClass> least_of(const Hazards& hazards, const ClassBook& classes,
                                  RuleBookName book) {
  std::vector<HazardClass> out = hazards.least;
  for (const StatementCode& one : hazards.statements) {
    for (const std::string& code : split(one.code, '+'))
      out.push_back(class_with(code, one.fill, classes, book));
  }
  for (const TestedEndpoint& test : hazards.tested) {
    if (test.gives) out.push_back(*test.gives);
  }
  return out;
}

// Of a stronger bottle: by calculation, and no less than what is said of the recipe.
void make_stronger(Hazards& hazards, double times, const ClassBook& classes, RuleBookName book) {
  Hazards left;
  left.origin = hazards.origin;
  left.sprayed = hazards.sprayed;
  left.ph = ph_of_stronger(hazards.ph, times);
  left.least = least_of(hazards, classes, book);
  hazards = left;
}

// "1,000" as the strength code writes it.
std::optional<double> number_of(std::string text) {
  std::erase(text, ',');
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = failed == std::errc() && end == text.data() + text.size();
  return whole && value > 0 ? std::optional(value) : std::nullopt;
}

}  // namespace

Room room_of_bottle(const RoomAnswer& answers, const StockAnswer& stock, double times) {
  Room out = *answers.room;
  for (Stock& one : out.stocks) {
    if (one.id != stock.stock->id) continue;
    one = as_in_bottle(one, stock.mixture, times);
    if (times > 1)
      make_stronger(one.hazards, times, answers.sources->classes, out.hazard_rules.book);
  }
  return out;
}

bool states_hazards(const Hazards& hazards) {
  return hazards.assessment != Hazards::Assessment::computed || !hazards.tested.empty();
}

std::vector<std::string> strengths_as_text(const Room& room, const Strengths& held,
                                           const Mixture& recipe) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < held.size(); ++i) {
    Component component = recipe.components[i];
    component.strength = held[i];
    out.push_back(component_text(component, room.products));
  }
  return out;
}

std::optional<Strengths> strengths_from_text(const Room& room, const std::vector<std::string>& text,
                                             const Mixture& recipe) {
  if (text.size() != recipe.components.size()) return std::nullopt;
  Strengths out;
  for (const Component& component : recipe.components) {
    const std::string own = component_text(component, room.products);
    const std::size_t name = own.find_last_of("=~") + 1;
    const auto same = std::find_if(text.begin(), text.end(), [&](const std::string& one) {
      return one.substr(0, one.find_last_of("=~") + 1) == own.substr(0, name);
    });
    const auto value = same == text.end() ? std::nullopt : number_of(same->substr(name));
    if (!value) return std::nullopt;
    if (own[name - 1] == '=') {
      out.emplace_back(grams_per_litre(*value));
    } else {
      out.emplace_back(millilitres_per_litre(*value));
    }
  }
  return out;
}

MendAnswer answer_mending(const RoomAnswer& answers, const StockAnswer& stock,
                          const Strengths& found, Volume volume) {
  const Room& room = *answers.room;
  const Mending mending = mend(*stock.stock, room.products, stock.mixture, found, volume);
  MendAnswer out;
  out.water = mending.water;
  out.finishes = mending.finishes;
  for (std::size_t i = 0; i < mending.add.size(); ++i) {
    if (is_nothing(mending.add[i])) continue;
    if (stock.stock->stronger != nullptr) {
      out.steps.push_back(step_taking(room, *stock.stock, std::get<Volume>(mending.add[i])));
      continue;
    }
    Component component = stock.mixture.components[i];
    component.amount = mending.add[i];
    out.steps.push_back(step_for(room, *stock.stock, component));
  }
  if (in_millilitres(out.water) > 1e-9)
    out.water_measured = on_marks(out.water, tools_to_mix_with(room, "", false));
  if (out.steps.empty() && out.water_measured)
    out.finishes = volume + millilitres(in_millilitres(out.water_measured->total));
  return out;
}

bool is_by_recipe(const RoomAnswer& answers, const StockAnswer& stock, const Mixture& filled,
                  const Mixture& batch) {
  const MixAnswer mix = answer_mixing(answers, stock, filled.makes, nullptr);
  for (std::size_t i = 0; i < batch.components.size(); ++i) {
    Mixture one = filled;
    one.components = {filled.components[i]};
    const auto times = times_as_strong(strengths_of(one), {batch.components[i].strength});
    // A stock of a stronger one has a single step, whatever it holds.
    const MixStep& step = mix.steps[std::min(i, mix.steps.size() - 1)];
    double told = as_ratio(kSameStrength);
    if (step.measured) {
      const auto exact = std::visit([](auto amount) { return Portion(amount); }, step.amount);
      told = std::max(told, std::fabs(step.measured->total / exact - 1));
    }
    if (!times || std::fabs(*times - 1) > told * (1 + 1e-9)) return false;
  }
  return true;
}

}  // namespace dosewright
