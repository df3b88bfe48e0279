// The words of labels.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::vector<std::string> texts_of(const std::vector<PrintedStatement>& statements) {
  std::vector<std::string> out;
  for (const PrintedStatement& statement : statements) out.push_back(statement.text);
  return out;
}

std::string joined(const std::vector<PrintedStatement>& statements) {
  std::string out;
  for (const PrintedStatement& statement : statements)
    out += (out.empty() ? "" : " ") + statement.text;
  return out;
}

// What no calculation finds, in as few words as a label has room for.
std::string not_evaluated_words(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> out;
  const auto said = [&](const Phrases& phrases) {
    std::vector<std::string> words;
    for (const Phrase& one : phrases) words.push_back(w.say({one}));
    return words;
  };
  const std::vector<std::string> burns = said(answer.found.may_burn);
  if (answer.found.physical_open)
    out.push_back(burns.empty() ? w.say("physical hazards")
                                : w.say("physical hazards (undiluted, {1})", {w.all_of(burns)}));
  if (answer.found.ph_open) out.push_back(w.say("extreme pH"));
  if (!answer.found.mist_open.empty())
    out.push_back(w.say("its mist ({1})", {w.all_of(said(answer.found.mist_open))}));
  return out.empty() ? "" : w.say("Not evaluated: {1}.", {w.all_of(out)}) + ' ';
}

// A calculation is worth what its inputs are: where somebody has said "not classified", say who.
std::vector<std::string> by_whom(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> sources;
  for (const HazardPart& part : answer.mixture.parts) {
    const std::string source = source_words(part.known->source, w);
    if (among(answer.taken_as_harmless, part.name) && !among(sources, source))
      sources.push_back(source);
  }
  return sources;
}

// "built-in figures for citric acid"; empty where none are.
std::string built_in_words(const HazardAnswer& answer, const Words& w) {
  if (answer.by_default.empty()) return "";
  std::vector<std::string> said;
  for (const std::string& name : answer.by_default) said.push_back(w.chemical(name));
  const std::vector<std::string> names = {w.all_of(said)};
  return answer.outdated.empty() ? w.say("built-in figures for {1}", names)
                                 : w.say("built-in figures for {1} (out of date)", names);
}

}  // namespace

namespace {

// The data sheets of bought mixtures whose own classes count beside what they contain.
std::vector<std::string> sheets_of(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> out;
  for (const HazardPart& part : answer.mixture.parts) {
    const std::string source = source_words(part.known->source, w);
    const bool counts = !part.members.empty() || part.milder_than_law;
    if (counts && !source.empty() && !among(out, source)) out.push_back(source);
  }
  return out;
}

}  // namespace

std::string basis_words(const HazardAnswer& answer, const Words& w) {
  if (answer.basis_stated) return source_words(answer.block.basis, w);
  const std::vector<std::string> sheets = sheets_of(answer, w);
  if (is_by_table(answer) && sheets.empty()) return built_in_words(answer, w);
  // One substance as it is: nothing is added up.
  if (is_by_table(answer) && answer.mixture.parts.front().milder_than_law)
    return w.all_of({w.all_of(sheets), built_in_words(answer, w)});
  std::string out = w.say("calculation from its ingredients");
  if (!sheets.empty()) out = w.say("{1} and calculation from its ingredients", {w.all_of(sheets)});
  const std::string built_in = built_in_words(answer, w);
  if (!built_in.empty()) out += ", " + w.say("with {1}", {built_in});
  if (!answer.mixture.tested.empty()) out += ", " + w.say("and by tests of the solution");
  if (!answer.mixture.least.empty())
    out += ", " + w.say("and by what is stated of a weaker solution");
  return out;
}

namespace {

// That the calculation finds nothing, from whose data, and with which figures of ours.
std::string nothing_found_words(const HazardAnswer& answer, const Words& w) {
  const std::vector<std::string> sources = by_whom(answer, w);
  const std::string from = w.all_of(sources);
  const std::string built_in = built_in_words(answer, w);
  // One powder as its data sheet has it: nothing was calculated.
  if (answer.mixture.as_supplied && built_in.empty() && sources.size() == 1)
    return w.say("No hazard statement is called for, according to {1}.", sources);
  // A test goes before the calculation, and may be what makes it find nothing.
  if (!answer.mixture.tested.empty() || is_by_table(answer))
    return w.say("By {1} no hazard statement is called for.", {basis_words(answer, w)});
  if (built_in.empty())
    return sources.empty()
               ? w.say("By calculation no hazard statement is called for.")
               : w.say("By calculation from {1} no hazard statement is called for.", {from});
  return sources.empty()
             ? w.say("By calculation, with {1}, no hazard statement is called for.", {built_in})
             : w.say("By calculation from {1}, with {2}, no hazard statement is called for.",
                     {from, built_in});
}

bool says(const std::vector<PrintedStatement>& statements, const char* code) {
  return std::any_of(statements.begin(), statements.end(),
                     [&](const PrintedStatement& one) { return one.code == code; });
}

}  // namespace

bool is_not_assessed(const HazardAnswer& answer) {
  return answer.block.assessment == Hazards::Assessment::computed && answer.block.hazards.empty() &&
         answer.block.supplements.empty() && !answer.found.unclassified.empty();
}

std::vector<std::string> not_assessed_lines(const HazardAnswer& answer, const Words& w) {
  std::vector<std::string> out = {
      w.say("What this can do at this strength has not been worked out. Treat it as harmful.")};
  const std::vector<std::string> suspected = suspected_lines(answer, w);
  out.insert(out.end(), suspected.begin(), suspected.end());
  return out;
}

std::string not_assessed_precautions(const HazardAnswer& answer, const Words& w) {
  std::string out = w.say("Wear gloves and eye protection.") + ' ' +
                    w.say("Read the suppliers' safety data sheets before use.");
  // That it may burn is known.
  if (!answer.found.may_burn.empty())
    out += ' ' + w.say("Keep away from heat and open flames.") + ' ' +
           trimmed(not_evaluated_words(answer, w));
  return out;
}

namespace {

void add_computed(const HazardAnswer& answer, const Words& w, LabelContent& out) {
  const HazardBlock& block = answer.block;
  if (is_not_assessed(answer)) {
    out.signal = w.say("Hazards not assessed");
    out.hazard_lines = not_assessed_lines(answer, w);
    out.precautions = not_assessed_precautions(answer, w);
    return;
  }
  out.hazard_lines = texts_of(block.hazards);
  if (out.hazard_lines.empty() && block.supplements.empty())
    out.hazard_lines = {nothing_found_words(answer, w) + ' ' + not_evaluated_words(answer, w)};
  // What nobody has measured must not stand behind "no hazard statement".
  const bool open =
      may_be_corrosive(answer) || !answer.found.may_burn.empty() || !answer.stronger_states.empty();
  if (open && block.hazards.empty() && block.supplements.empty()) {
    out.signal = w.say("Hazards partly unknown");
    out.hazard_lines.clear();
  }
  const std::vector<std::string> unknown = unknown_lines(answer, w);
  out.hazard_lines.insert(out.hazard_lines.end(), unknown.begin(), unknown.end());
  out.precautions = joined(block.precautions);
  if (out.precautions.empty() && (may_be_corrosive(answer) || !answer.stronger_states.empty()))
    out.precautions = w.say("Wear gloves and eye protection.");
  if (!answer.found.may_burn.empty() && !says(block.precautions, "P210")) {
    const bool silent = out.precautions.empty();
    out.precautions += (silent ? "" : " ") + w.say("Keep away from heat and open flames.");
    if (silent) out.precautions += ' ' + trimmed(not_evaluated_words(answer, w));
  }
  // What may be corrosive is no lesser hazard.
  out.may_be_shortened = block.may_be_shortened && !may_be_corrosive(answer);
  out.short_hazard_lines = texts_of(block.small_hazards);
  out.short_hazard_lines.insert(out.short_hazard_lines.end(), unknown.begin(), unknown.end());
  out.short_precautions = joined(block.small_precautions);
}

// Where to find what a small label leaves off.
std::string short_words(const Room& room, const LabelRequest& request, const Words& w) {
  for (const Document& document : room.documents) {
    const auto& stocks = document.chart.stocks;
    if (document.type != Document::Type::hazard_sheet || request.stock.empty() ||
        !among(stocks, request.stock)) {
      continue;
    }
    const std::string& place = document.chart.place;
    if (!place.empty())
      return w.say(
          "Small package: some hazard statements are left off; they stand on its "
          "hazard sheet ({1}).",
          {place});
    return w.say(
        "Small package: some hazard statements are left off; they stand on its "
        "hazard sheet.");
  }
  return w.say(
      "Small package: some hazard statements are left off; see the supplier's "
      "safety data sheet.");
}

// `shown` are the chemical names that the label carries as such; a name inside another word, or
// behind "free of", names nothing.
void add_hazards(const HazardAnswer& answer, const std::vector<std::string>& shown, const Words& w,
                 LabelContent& out) {
  const HazardBlock& block = answer.block;
  out.signal = block.signal_word;
  out.pictograms = block.pictograms;
  switch (block.assessment) {
    case Hazards::Assessment::computed:
      add_computed(answer, w, out);
      break;
    case Hazards::Assessment::not_classified:
      out.hazard_lines = {w.say("No hazard statement is called for, according to {1}.",
                                {source_words(block.basis, w)})};
      out.precautions = joined(block.precautions);
      break;
    case Hazards::Assessment::classified:
      out.hazard_lines = texts_of(block.hazards);
      out.precautions = joined(block.precautions);
      break;
  }
  // Supplements stand apart from the statements of the classes (CLP Article 25 (6)).
  for (const PrintedStatement& line : block.supplements) out.warning_lines.push_back(line.text);
  std::vector<std::string> missing;
  for (const Phrase& name : answer.to_be_named) {
    const bool said = std::any_of(shown.begin(), shown.end(), [&](const std::string& one) {
      return lowered(one) == lowered(in_english({name}));
    });
    Phrase in_its_language = name;
    if (!name.fills.empty()) in_its_language.fills.front() = w.chemical(name.fills.front());
    if (!said) missing.push_back(w.say({in_its_language}));
  }
  std::vector<PrintedStatement> unnamed;
  for (const PrintedStatement& line : block.hazards) {
    if (among(answer.unnamed, line.code)) unnamed.push_back(line);
  }
  if (!unnamed.empty())
    out.warning_lines.push_back(
        w.say("What in it causes this nobody has said: {1}", {joined(unnamed)}));
  if (!missing.empty() && block.assessment != Hazards::Assessment::not_classified)
    out.warning_lines.push_back(w.say("Contains {1}.", {w.all_of(missing)}));
}

std::string safety_words(const Room& room, const HazardAnswer& answer, const Words& w) {
  const HazardBlock& block = answer.block;
  std::string out = w.say("Not for drinking. Keep out of reach of children.") + ' ';
  if (!room.emergency.empty()) out += w.say("In an emergency: {1}.", {room.emergency}) + ' ';
  const bool computed = block.assessment == Hazards::Assessment::computed;
  const bool any =
      !block.hazards.empty() || !block.supplements.empty() || answer.found.unclassified.empty();
  if (block.assessment == Hazards::Assessment::classified)
    out += w.say("Hazards according to {1}.", {source_words(block.basis, w)}) + ' ';
  if (computed && any) {
    if (!block.hazards.empty() || !block.supplements.empty())
      out +=
          w.say("Hazards by {1}.", {basis_words(answer, w)}) + ' ' + not_evaluated_words(answer, w);
    return out + w.say(
                     "Check the supplier's safety data sheet: this does not replace it, local "
                     "rules or a vet.");
  }
  return out + w.say("Does not replace the supplier's safety data sheet, local rules or a vet.");
}

// What the user says, and the stocks of this room that must not meet it beside those.
std::vector<std::string> mixing_warnings(const std::vector<std::string>& written,
                                         const std::vector<Clash>& clashes, const Words& w) {
  const std::vector<std::string> said = with_these(written, w);
  std::vector<std::string> names;
  for (const Clash& clash : clashes) {
    const auto holds = [&](const std::string& word) {
      return lowered(clash.name).find(lowered(word)) != std::string::npos;
    };
    const bool again = std::any_of(said.begin(), said.end(), holds) ||
                       std::any_of(written.begin(), written.end(), holds);
    if (!again) names.push_back(clash.name);
  }
  if (said.empty() && names.empty()) return {};
  if (names.empty()) return {w.say("Never mix with {1}.", {w.either(said)})};
  if (said.empty()) return {w.say("Never mix with {1} of this room.", {w.either(names)})};
  return {
      w.say("Never mix with {1}, nor with {2} of this room.", {w.either(said), w.either(names)})};
}

// "20 L of new water".
std::string treated_words(const DoseRule& rule, const Amount& water, const Words& w) {
  const std::vector<std::string> fills = {water.figure + ' ' + water.unit};
  return rule.basis == WaterBasis::new_water ? w.say("{1} of new water", fills)
                                             : w.say("{1} in the vessel", fills);
}

void add_dose(const LabelAnswer& label, const MeasureSystem system, ErrorShown shown,
              const Words& w, LabelContent& out) {
  const DoseRule& rule = label.stock->stock->dose;
  const Amount water = water_as_written(label.water_text, label.dose.water, system, w);
  const std::string days = days_words(rule, w);
  const std::string treated = treated_words(rule, water, w);
  const std::string of = water.figure + ' ' + water.unit;
  if (label.dose.measured.dilution) {
    out.treats = w.say("Dilute to dose {1}", {treated}) + (days.empty() ? "" : ", " + days);
    const std::string remarks = label_remarks(*label.stock, label.dose.water, of, w);
    out.note = (remarks.empty() ? "" : remarks + ". ") +
               how_to_dilute(*label.dose.measured.dilution, label.stock->stock->name, w);
    return;
  }
  if (!label.dose.measured.measured) {
    out.treats = w.say("No dose for {1} can be measured", {water.figure + ' ' + water.unit});
    out.note = why_not(label.dose.measured, w);
    return;
  }
  const Measured& measured = *label.dose.measured.measured;
  const Amount dose = dose_amount(measured, w);
  out.dose = dose.figure + ' ' + dose.unit;
  out.treats = days.empty() ? w.say("treats {1}", {treated})
                            : w.say("{1} ({2}) for {3}",
                                    {days, all_days_words(rule, measured.total, w), treated});
  const std::string error = error_text(label.dose, shown, w);
  const std::string how = how_to_measure(measured, w) + (error.empty() ? "" : ", " + error);
  // The way to measure stands next to its dose, and the limit apart from both.
  const std::string remarks = label_remarks(*label.stock, label.dose.water, of, w);
  out.note = remarks.empty() ? how : how + ". " + capitalised(remarks);
}

// Who fills in the day by pen is told how many days on.
std::string use_by_caption(const Stock& stock, const LabelRequest& request, const Words& w) {
  if (request.mixed || !stock.keeps) return w.say("use by");
  if (in_days(*stock.keeps) == 1) return w.say("use by: +1 day");
  return w.say("use by: +{1} days", {w.number(figure(in_days(*stock.keeps), 0))});
}

// Where the rest stands, and the whole in plain text for a square code.
void add_words_of_form(const LabelRequest& request, const Words& w, LabelContent& out) {
  const bool wings = request.sheet.form == LabelForm::flag || request.sheet.form == LabelForm::tag;
  out.elsewhere = wings ? w.say("Hazards and cautions: see the other side.")
                        : w.say("Hazards and cautions: see the label at the back.");
  out.short_elsewhere = wings ? w.say("More stands on the other side.")
                              : w.say("More stands on the label at the back.");
  out.under = w.say("goes under");
  out.on_cap = w.say("see the label");
  out.code_caption = w.say("match the chart");
  if (!request.square_code) return;
  out.square_caption = w.say("Name, strength and dates, for a phone.");
  std::vector<std::string> lines = {out.name, out.contents};
  if (!out.code.letters.empty()) lines.push_back(w.say("code {1}", {out.code.letters}));
  for (const Field& field : out.fields) {
    if (!field.value.empty()) lines.push_back(field.caption + ' ' + field.value);
  }
  for (const std::string& line : lines) out.square += (out.square.empty() ? "" : "\n") + line;
}

// The label of a powder or liquid as it was bought: no dose and no code, its own hazards.
LabelContent tub_content(const RoomAnswer& answers, const LabelRequest& request, const Words& w) {
  const Room& room = *answers.room;
  const Product& product = *find(room.products, request.product);
  const Container& container = *find(room.containers, request.container);
  const HazardAnswer hazards = answer_tub_hazards(room, product, *answers.sources);
  LabelContent out;
  out.name = capitalised(w.chemical(product.name));
  out.contents = w.say("as bought") + (product.cas.empty() ? "" : ", CAS " + product.cas);
  if (product.active)
    out.contents += ", " + w.say("{1} active", {w.quantity(percent_text(*product.active))});
  const bool liquid = product.form == Product::Form::liquid;
  out.fields = {{w.say("opened"), request.mixed ? date_text(*request.mixed) : ""},
                {w.say("lot"), request.batch},
                {w.say("by"), request.by},
                {liquid ? w.say("volume") : w.say("weight"), ""}};
  add_hazards(hazards, {product.name}, w, out);
  const auto clashes =
      clashes_of(families_of(product, room, answers.sources->knowledge), nullptr, answers);
  // A stock made of this very product is no stranger to it.
  std::vector<Clash> others;
  for (const Clash& clash : clashes) {
    const Stock& stock = *find_stock(answers, clash.id)->stock;
    const bool of_it = std::any_of(stock.recipe.begin(), stock.recipe.end(),
                                   [&](const Ingredient& i) { return i.product == product.id; });
    if (!of_it) others.push_back(clash);
  }
  for (std::string& line : mixing_warnings({}, others, w))
    out.warning_lines.push_back(std::move(line));
  if (container.held_food)
    out.warning_lines.push_back(
        product.form == Product::Form::liquid
            ? w.say("This bottle once held food or drink. Do not drink from it.")
            : w.say("This tub once held food or drink. Do not eat from it."));
  if (room.emergency.empty()) out.fields.push_back({w.say("in an emergency call"), ""});
  out.safety = safety_words(room, hazards, w);
  out.short_words = short_words(room, request, w);
  add_words_of_form(request, w, out);
  out.capacity = container.holds;
  return out;
}

}  // namespace

LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request, ErrorShown shown,
                           const Words& w) {
  if (!request.product.empty()) return tub_content(answers, request, w);
  const Room& room = *answers.room;
  const LabelAnswer label = answer_label(answers, request);
  const Stock& stock = *label.stock->stock;
  LabelContent out;
  out.name = stock.name;
  out.contents = contents_text(room, label.filled, w);
  out.code = code_of(*label.stock);
  add_dose(label, room.measures, shown, w, out);
  // A tub is opened, not mixed; how much is in it nobody has said.
  const bool dry = stock.dry;
  out.fields = {
      {dry ? w.say("opened") : w.say("mixed"), request.mixed ? date_text(*request.mixed) : ""},
      {use_by_caption(stock, request, w), label.use_by ? date_text(*label.use_by) : ""},
      {dry ? w.say("lot") : w.say("batch"), request.batch},
      {w.say("by"), request.by},
      {dry ? w.say("weight") : w.say("contents"),
       dry ? "" : w.quantity(volume_text(label.filled.makes))}};
  std::vector<std::string> names;
  for (const Component& component : label.filled.components)
    names.push_back(find(room.products, component.product)->name);
  add_hazards(label.stock->hazards, names, w, out);
  if (!request.earlier.empty() && request.earlier != figures_of(out).back().figure)
    out.warning_lines.push_back(w.say("Its earlier label said: {1}", {request.earlier}));
  if (const auto& quarrel = label.stock->quarrel)
    out.warning_lines.push_back(w.say(
        "{1} and {2} are both in it and must not meet: {3}. Do not mix this.",
        {capitalised(quarrel->one->name), quarrel->other->name, w.say(quarrel->why->because)}));
  for (std::string& line : mixing_warnings(stock.never_mix_with, label.stock->clashes, w))
    out.warning_lines.push_back(std::move(line));
  if (label.container->held_food) {
    out.warning_lines.push_back(
        stock.dry ? w.say("This tub once held food or drink. Do not eat from it.")
                  : w.say("This bottle once held food or drink. Do not drink from it."));
  }
  if (room.emergency.empty()) out.fields.push_back({w.say("in an emergency call"), ""});
  out.safety = safety_words(room, label.stock->hazards, w);
  out.short_words = short_words(room, request, w);
  add_words_of_form(request, w, out);
  out.capacity = label.container->holds;
  return out;
}

}  // namespace dosewright
