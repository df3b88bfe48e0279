#include "dosewright/answer/answer.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "dosewright/base/text.hpp"
#include "dosewright/dose/changes.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/units/parse.hpp"
#include "dosewright/units/print.hpp"
#include "findings.hpp"
#include "stronger.hpp"

namespace dosewright {

namespace {

// A bottle is filled by the recipe scaled to it; the error of that batch counts when it is the
// larger one.
void mind_the_bottle(const Room& room, const Stock& stock, Mixture& mixture) {
  const Container* container = find(room.containers, stock.container);
  if (container == nullptr || stock.dry) return;
  const Mixture batch = mix_batch(stock, room.products, room.tools, filling_of(*container));
  if (batch.strength_error.worst > mixture.strength_error.worst)
    mixture.strength_error = batch.strength_error;
}

// The first two products of a recipe that must not meet.
std::optional<Quarrel> quarrel_in(const Room& room, const Stock& stock,
                                  const Knowledge& knowledge) {
  for (std::size_t i = 0; i < stock.recipe.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Product& one = *find(room.products, stock.recipe[j].product);
      const Product& other = *find(room.products, stock.recipe[i].product);
      const Incompatibility* why = clash_between(families_of(one, room, knowledge),
                                                 families_of(other, room, knowledge), knowledge);
      if (why != nullptr && one.id != other.id) return Quarrel{&one, &other, why};
    }
  }
  return std::nullopt;
}

std::vector<Share> usual_changes(const Room& room) {
  std::vector<Share> out;
  for (const Vessel& vessel : room.vessels) {
    if (vessel.kind == Vessel::Kind::tank && vessel.usual_change)
      out.push_back(*vessel.usual_change);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

StockAnswer answer_stock(const Room& room, const Stock& stock, const HazardSources& sources) {
  StockAnswer answer;
  answer.stock = &stock;
  answer.mixture = mix(stock, room.products, room.tools);
  mind_the_bottle(room, stock, answer.mixture);
  answer.quarrel = quarrel_in(room, stock, sources.knowledge);
  answer.all = dose_rate(stock.dose, answer.mixture);
  answer.rate = one_days_part(stock.dose, answer.all);
  answer.changes = usual_changes(room);
  answer.code = strength_code(stock, answer.mixture, room.products);
  answer.hazards = answer_hazards(room, stock, answer.mixture, sources);
  for (const Component& component : answer.mixture.components) {
    const Product& product = *find(room.products, component.product);
    for (const std::string& family : families_of(product, room, sources.knowledge))
      answer.families.push_back(family);
  }
  return answer;
}

bool is_named(const Stock& stock, const Tool& tool) { return among(stock.tools, tool.id); }

std::optional<PowderByVolume> powder_of(const Room& room, const Stock& stock) {
  if (!stock.dry) return std::nullopt;
  const Product& product = *find(room.products, stock.recipe.front().product);
  return PowderByVolume{product.bulk_density.value_or(Concentration()), product.bulk_spread};
}

// The tools kept for this stock alone, out of all it may be measured with. What they cannot measure
// is diluted with all of them, not here.
ToolSet own_tools(const ToolSet& all, const Stock& stock) {
  ToolSet own = all;
  own.for_dilution.clear();
  std::erase_if(own.tools, [&](const Tool* tool) { return tool->only_for != stock.id; });
  return own;
}

// One water and how well its volume is known.
struct Water {
  Volume volume;
  Share right_to;
};

// Makes the doses of one stock, with its tools made ready once.
class DoseMaker {
 public:
  DoseMaker(const StockAnswer& stock, const ToolSet& tools)
      : stock_(stock), all_(tools), own_(own_tools(tools, *stock.stock)) {}

  [[nodiscard]] std::vector<DoseAnswer> column(const std::vector<Water>& waters) const {
    std::vector<MeasureTask> tasks;
    for (const Water& water : waters) tasks.push_back(task_for(water.volume));
    // A tool of its own goes before the shared ones, as long as it is not too coarse.
    const auto shared = all_.measure_column(tasks);
    const auto own = own_.measure_column(tasks);
    std::vector<DoseAnswer> out;
    for (std::size_t i = 0; i < waters.size(); ++i) {
      const auto& mine = own[i].measured;
      const bool good = mine && mine->grade != Grade::coarse;
      out.push_back(finished(waters[i], tasks[i], good ? own[i] : shared[i]));
    }
    return out;
  }

 private:
  [[nodiscard]] MeasureTask task_for(Volume water) const {
    const DoseRule& rule = stock_.stock->dose;
    MeasureTask task{stock_.rate * water, rule.rounding, rule.tolerance, {}, {}};
    if (rule.ceiling) task.ceiling = one_days_part(rule, *rule.ceiling) * water;
    if (rule.floor) task.floor = one_days_part(rule, *rule.floor) * water;
    return task;
  }

  [[nodiscard]] DoseAnswer finished(const Water& water, const MeasureTask& task,
                                    const MeasureAnswer& measured) const {
    DoseAnswer dose;
    dose.water = water.volume;
    dose.exact = task.exact;
    dose.measured = measured;
    Portion bound;
    Portion uncertainty;
    if (measured.measured) {
      dose.delivers = measured.measured->total;
      dose.off_by = measured.measured->off_by;
      bound = measured.measured->tool_bound;
      uncertainty = measured.measured->tool_uncertainty;
    } else if (measured.dilution) {
      dose.delivers = measured.dilution->delivers;
      dose.off_by = measured.dilution->off_by;
      bound = measured.dilution->bound;
      uncertainty = measured.dilution->uncertainty;
    } else {
      return dose;
    }
    dose.error = dose_error(dose.exact, dose.delivers, bound, uncertainty,
                            stock_.mixture.strength_error, evenly_spread(water.right_to));
    return dose;
  }

  const StockAnswer& stock_;
  Measurer all_;
  Measurer own_;
};

// The water a label speaks of when the rule names none: the first handy amount whose dose can be
// measured.
std::vector<std::string> handy_waters(MeasureSystem system) {
  std::string unit = " L";
  if (system == MeasureSystem::us) unit = " US gal";
  if (system == MeasureSystem::imperial) unit = " imperial gal";
  std::vector<std::string> out;
  for (const char* amount : {"10", "20", "50", "100", "200", "500", "5", "2", "1"}) {
    out.push_back(amount + unit);
  }
  return out;
}

void choose_label_dose(const Room& room, const DoseRule& rule, LabelAnswer& label) {
  std::vector<std::string> waters = handy_waters(room.measures);
  if (rule.per) waters.insert(waters.begin(), rule.per_text);
  for (const std::string& water : waters) {
    const auto volume = parse_volume(water, room.measures);
    if (!std::holds_alternative<Volume>(volume)) continue;
    const DoseAnswer dose =
        answer_dose(room, *label.stock, std::get<Volume>(volume), Vessel().right_to);
    // The first one stands when none can be measured by itself; one to dilute is better than none.
    const bool better = dose.can_be_measured() && !label.dose.can_be_measured();
    if (!label.water_text.empty() && !dose.measured.measured && !better) continue;
    label.dose = dose;
    label.water_text = water;
    if (dose.measured.measured) return;
  }
}

// All doses of a tank chart are one column to the tools: tanks and changes alike.
std::vector<std::vector<DoseAnswer>> tank_rows(const Room& room, const StockAnswer& stock,
                                               const ChartRequest& chart) {
  std::vector<Water> waters;
  for (const std::string& id : chart.vessels) {
    const Vessel& vessel = *find(room.vessels, id);
    for (const Share change : chart.changes)
      waters.push_back({water_to_dose(stock.stock->dose, vessel.water, change), vessel.right_to});
  }
  const auto doses = DoseMaker(stock, tools_for(room, *stock.stock)).column(waters);
  std::vector<std::vector<DoseAnswer>> rows;
  for (std::size_t i = 0; i < doses.size(); i += chart.changes.size()) {
    const auto first = doses.begin() + static_cast<std::ptrdiff_t>(i);
    rows.emplace_back(first, first + static_cast<std::ptrdiff_t>(chart.changes.size()));
  }
  return rows;
}

std::chrono::sys_days day_of(const Date& date) {
  using namespace std::chrono;
  return year_month_day(year(date.year), month(static_cast<unsigned>(date.month)),
                        day(static_cast<unsigned>(date.day)));
}

}  // namespace

Volume filling_of(const Container& container) { return container.holds * as_ratio(container.fill); }

Share off_by_share(const DoseAnswer& dose) { return share(dose.off_by / dose.exact); }

Share tool_share(const DoseAnswer& dose) {
  if (dose.measured.measured) return share(dose.measured.measured->tool_bound / dose.exact);
  // Of a dilution the rounding counts too: its steps are coarse, and nobody sees the exact dose.
  return share(dose.measured.dilution->off_by / dose.exact);
}

std::optional<Peak> peak_of(const StockAnswer& stock, Share change) {
  const DoseRule& rule = stock.stock->dose;
  if (rule.then != AfterChange::again || as_ratio(change) <= 0) return std::nullopt;
  Peak out;
  out.change = change;
  out.times = peak_in_the_end(grams_per_litre(1), change) / grams_per_litre(1);
  if (const auto* target = std::get_if<Target>(&rule.amount))
    out.comes_to = peak_in_the_end(target->concentration, change);
  return out;
}

Volume water_for(const StockAnswer& stock, Portion amount) {
  return litres(amount.stored() / per_litre(stock.rate));
}

bool suits(const Tool& tool, const Stock& stock) {
  if (stock.dry) return tool.for_powder;
  return !tool.holds.is_powder() && (!tool.for_powder || is_named(stock, tool));
}

bool is_kept_for_another(const Tool& tool, const Stock& stock) {
  return !tool.only_for.empty() && tool.only_for != stock.id;
}

ToolSet tools_for(const Room& room, const Stock& stock) {
  ToolSet set;
  set.powder = powder_of(room, stock);
  for (const Tool& tool : room.tools) {
    if (is_kept_for_another(tool, stock)) continue;
    const bool wanted = stock.tools.empty() || is_named(stock, tool);
    if (wanted && suits(tool, stock)) set.tools.push_back(&tool);
    // A dilution is stirred, and that of a powder given, with any tool for liquids.
    if (!tool.holds.is_powder() && !tool.for_powder) set.for_dilution.push_back(&tool);
  }
  return set;
}

RoomAnswer answer_room(const Room& room, const HazardSources& sources) {
  RoomAnswer answers;
  answers.room = &room;
  answers.sources = &sources;
  for (const Stock& stock : room.stocks)
    answers.stocks.push_back(answer_stock(room, stock, sources));
  for (StockAnswer& one : answers.stocks) mind_the_stronger(answers, one);
  for (StockAnswer& one : answers.stocks)
    one.clashes = clashes_of(one.families, one.stock, answers);
  collect_findings(answers);
  for (StockAnswer& one : answers.stocks) {
    for (const Diagnostic* finding : findings_about(answers, *one.stock))
      one.findings.push_back(finding->message);
  }
  return answers;
}

const Incompatibility* clash_between(const std::vector<std::string>& one,
                                     const std::vector<std::string>& other,
                                     const Knowledge& knowledge) {
  for (const Incompatibility& pair : knowledge.incompatibilities) {
    const bool meet = (among(one, pair.one) && among(other, pair.other)) ||
                      (among(one, pair.other) && among(other, pair.one));
    if (meet) return &pair;
  }
  return nullptr;
}

std::vector<Clash> clashes_of(const std::vector<std::string>& families, const Stock* itself,
                              const RoomAnswer& answers) {
  std::vector<Clash> out;
  for (const StockAnswer& other : answers.stocks) {
    if (other.stock == itself) continue;
    const Incompatibility* why =
        clash_between(families, other.families, answers.sources->knowledge);
    if (why != nullptr) out.push_back({other.stock->id, other.stock->name, why});
  }
  return out;
}

const StockAnswer* find_stock(const RoomAnswer& answers, const std::string& id) {
  for (const StockAnswer& stock : answers.stocks) {
    if (stock.stock->id == id) return &stock;
  }
  return nullptr;
}

DoseAnswer answer_dose(const Room& room, const StockAnswer& stock, Volume water, Share right_to,
                       const Tool* with) {
  ToolSet tools = tools_for(room, *stock.stock);
  // Who asks for one tool asks for no other: nothing is diluted then.
  if (with != nullptr) {
    tools.tools = {with};
    tools.for_dilution.clear();
  }
  return DoseMaker(stock, tools).column({{water, right_to}}).front();
}

LabelAnswer answer_label(const RoomAnswer& answers, const LabelRequest& request) {
  const Room& room = *answers.room;
  LabelAnswer label;
  label.stock = find_stock(answers, request.stock);
  label.container = find(room.containers, request.container);
  const Stock& stock = *label.stock->stock;
  label.filled = label.stock->mixture;
  if (!stock.dry)
    label.filled = mix_batch(stock, room.products, room.tools,
                             request.volume.value_or(filling_of(*label.container)));
  label.use_by = use_by_of(stock, request.mixed);
  choose_label_dose(room, stock.dose, label);
  return label;
}

ChartAnswer answer_chart(const RoomAnswer& answers, const Document& document) {
  const Room& room = *answers.room;
  ChartAnswer chart;
  for (const std::string& id : document.chart.stocks)
    chart.stocks.push_back(find_stock(answers, id));
  if (!document.chart.vessels.empty()) {
    chart.rows = tank_rows(room, *chart.stocks.front(), document.chart);
    return chart;
  }
  std::vector<Water> waters;
  for (const BucketRow& row : document.chart.buckets) waters.push_back({row.water, row.right_to});
  chart.rows.resize(waters.size());
  for (const StockAnswer* stock : chart.stocks) {
    const auto column = DoseMaker(*stock, tools_for(room, *stock->stock)).column(waters);
    for (std::size_t i = 0; i < waters.size(); ++i) chart.rows[i].push_back(column[i]);
  }
  return chart;
}

Date later(const Date& date, Duration by) {
  // Part days do not lengthen a shelf life.
  const auto whole = static_cast<int>(std::floor(in_days(by) + 1e-9));
  const std::chrono::year_month_day end(day_of(date) + std::chrono::days(whole));
  return {static_cast<int>(end.year()), static_cast<int>(static_cast<unsigned>(end.month())),
          static_cast<int>(static_cast<unsigned>(end.day()))};
}

long days_from(const Date& from, const Date& to) { return (day_of(to) - day_of(from)).count(); }

std::optional<Date> use_by_of(const Stock& stock, const std::optional<Date>& mixed) {
  return mixed && stock.keeps ? std::optional(later(*mixed, *stock.keeps)) : std::nullopt;
}

}  // namespace dosewright
