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
std::string not_evaluated_words(const HazardAnswer& answer) {
  std::vector<std::string> out;
  const auto& burns = answer.found.may_burn;
  if (answer.found.physical_open)
    out.push_back("physical hazards" +
                  (burns.empty() ? std::string() : " (undiluted, " + all_of(burns) + ')'));
  if (answer.found.ph_open) out.emplace_back("extreme pH");
  if (!answer.found.mist_open.empty())
    out.push_back("its mist (" + all_of(answer.found.mist_open) + ')');
  return out.empty() ? "" : "Not evaluated: " + all_of(out) + ". ";
}

// A calculation is worth what its inputs are: where somebody has said "not classified", say who.
std::string by_whom(const HazardAnswer& answer) {
  std::vector<std::string> sources;
  for (const HazardPart& part : answer.mixture.parts) {
    const std::string& source = part.known->source;
    if (among(answer.taken_as_harmless, part.name) && !among(sources, source))
      sources.push_back(source);
  }
  return sources.empty() ? "" : " from " + all_of(sources);
}

std::string with_defaults(const HazardAnswer& answer) {
  if (answer.by_default.empty()) return "";
  return ", with built-in figures for " + all_of(answer.by_default) +
         (answer.outdated.empty() ? "," : " (out of date),");
}

void add_computed(const HazardAnswer& answer, LabelContent& out) {
  const HazardBlock& block = answer.block;
  const bool nothing_known =
      block.hazards.empty() && block.supplements.empty() && !answer.found.unclassified.empty();
  if (nothing_known) {
    out.signal = "Hazards not assessed";
    out.hazard_lines = {"Nobody has worked out what this can do. Treat it as harmful."};
    out.precautions =
        "Wear gloves and eye protection. Read the suppliers' safety data sheets before use.";
    return;
  }
  out.hazard_lines = texts_of(block.hazards);
  if (out.hazard_lines.empty() && block.supplements.empty())
    out.hazard_lines = {"By calculation" + by_whom(answer) + with_defaults(answer) +
                        " no hazard statement is called for. " + not_evaluated_words(answer)};
  // What nobody has measured must not stand behind "no hazard statement".
  if (may_be_corrosive(answer) && block.hazards.empty() && block.supplements.empty()) {
    out.signal = "Hazards not assessed";
    out.hazard_lines.clear();
  }
  const std::vector<std::string> unknown = unknown_lines(answer);
  out.hazard_lines.insert(out.hazard_lines.end(), unknown.begin(), unknown.end());
  out.precautions = joined(block.precautions);
  if (out.precautions.empty() && may_be_corrosive(answer))
    out.precautions = "Wear gloves and eye protection.";
  out.may_be_shortened = block.may_be_shortened;
  out.short_hazard_lines = texts_of(block.small_hazards);
  out.short_hazard_lines.insert(out.short_hazard_lines.end(), unknown.begin(), unknown.end());
  out.short_precautions = joined(block.small_precautions);
}

// Where to find what a small label leaves off.
std::string short_words(const Room& room, const LabelRequest& request) {
  const std::string words = "Small package: statements on lesser hazards are left off; ";
  for (const Document& document : room.documents) {
    const auto& stocks = document.chart.stocks;
    if (document.type != Document::Type::hazard_sheet || request.stock.empty() ||
        !among(stocks, request.stock)) {
      continue;
    }
    const std::string& place = document.chart.place;
    return words + "they stand on its hazard sheet" + (place.empty() ? "." : " (" + place + ").");
  }
  return words + "see the supplier's safety data sheet.";
}

// `shown` are the chemical names that the label carries as such; a name inside another word, or
// behind "free of", names nothing.
void add_hazards(const HazardAnswer& answer, const std::vector<std::string>& shown,
                 LabelContent& out) {
  const HazardBlock& block = answer.block;
  out.signal = block.signal_word;
  out.pictograms = block.pictograms;
  switch (block.assessment) {
    case Hazards::Assessment::computed:
      add_computed(answer, out);
      break;
    case Hazards::Assessment::not_classified:
      out.hazard_lines = {"No hazard statement is called for, according to " + block.basis + "."};
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
  for (const std::string& name : answer.to_be_named) {
    const bool said = std::any_of(shown.begin(), shown.end(), [&](const std::string& one) {
      return lowered(one) == lowered(name);
    });
    if (!said) missing.push_back(name);
  }
  if (!missing.empty() && block.assessment == Hazards::Assessment::computed)
    out.warning_lines.push_back("Contains " + all_of(missing) + '.');
}

std::string safety_words(const Room& room, const HazardAnswer& answer) {
  const HazardBlock& block = answer.block;
  std::string out = "Not for drinking. Keep out of reach of children. ";
  if (!room.emergency.empty()) out += "In an emergency: " + room.emergency + ". ";
  const bool computed = block.assessment == Hazards::Assessment::computed;
  const bool any =
      !block.hazards.empty() || !block.supplements.empty() || answer.found.unclassified.empty();
  if (block.assessment == Hazards::Assessment::classified)
    out += "Hazards according to " + block.basis + ". ";
  if (computed && any) {
    if (!block.hazards.empty() || !block.supplements.empty())
      out += "Hazards by " + block.basis + ". " + not_evaluated_words(answer);
    return out +
           "Check the supplier's safety data sheet: this does not replace it, local rules or a "
           "vet.";
  }
  return out + "Does not replace the supplier's safety data sheet, local rules or a vet.";
}

// What the user says, and the stocks of this room that must not meet it beside those.
std::vector<std::string> mixing_warnings(const std::vector<std::string>& said,
                                         const std::vector<Clash>& clashes) {
  std::vector<std::string> names;
  for (const Clash& clash : clashes) {
    const bool again = std::any_of(said.begin(), said.end(), [&](const std::string& word) {
      return lowered(clash.name).find(lowered(word)) != std::string::npos;
    });
    if (!again) names.push_back(clash.name);
  }
  if (said.empty() && names.empty()) return {};
  if (names.empty()) return {"Never mix with " + either(said) + '.'};
  const std::string tools = " of this room.";
  if (said.empty()) return {"Never mix with " + either(names) + tools};
  return {"Never mix with " + either(said) + ", nor with " + either(names) + tools};
}

void add_dose(const LabelAnswer& label, const MeasureSystem system, ErrorShown shown,
              LabelContent& out) {
  const DoseRule& rule = label.stock->stock->dose;
  const Amount water = water_as_written(label.water_text, label.dose.water, system);
  const std::string days = days_words(rule);
  if (label.dose.measured.dilution) {
    out.treats = "Dilute to dose " + water.figure + ' ' + water.unit + ' ' + basis_words(rule) +
                 (days.empty() ? "" : ", " + days);
    const std::string remarks = label_remarks(*label.stock, label.dose.water);
    out.note = (remarks.empty() ? "" : remarks + ". ") +
               how_to_dilute(*label.dose.measured.dilution, label.stock->stock->name);
    return;
  }
  if (!label.dose.measured.measured) {
    out.treats = "No dose for " + water.figure + ' ' + water.unit + " can be measured";
    out.note = why_not(label.dose.measured);
    return;
  }
  const Measured& measured = *label.dose.measured.measured;
  const Amount dose = dose_amount(measured);
  out.dose = dose.figure + ' ' + dose.unit;
  const std::string treated = water.figure + ' ' + water.unit + ' ' + basis_words(rule);
  out.treats = days.empty()
                   ? "treats " + treated
                   : days + " (" + all_days_words(rule, measured.total) + ") for " + treated;
  const std::string error = error_text(label.dose, shown);
  const std::string how = how_to_measure(measured) + (error.empty() ? "" : ", " + error);
  out.note = label_remarks(*label.stock, label.dose.water);
  out.note += out.note.empty() ? how : ". " + capitalised(how);
}

// Who fills in the day by pen is told how many days on.
std::string use_by_caption(const Stock& stock, const LabelRequest& request) {
  if (request.mixed || !stock.keeps) return "use by";
  return "use by: " + figure(in_days(*stock.keeps), 0) +
         (in_days(*stock.keeps) == 1 ? " day on" : " days on");
}

// Where the rest stands, and the whole in plain text for a square code.
void add_words_of_form(const LabelRequest& request, LabelContent& out) {
  const bool wings = request.sheet.form == LabelForm::flag || request.sheet.form == LabelForm::tag;
  out.elsewhere = wings ? "What it can do, and what to do then, stands on the other side."
                        : "What it can do, and what to do then, stands on the label at the back.";
  out.on_cap = "see the label";
  if (!request.square_code) return;
  std::vector<std::string> lines = {out.name, out.contents};
  if (!out.code.letters.empty()) lines.push_back("code " + out.code.letters);
  for (const Field& field : out.fields) {
    if (!field.value.empty()) lines.push_back(field.caption + ' ' + field.value);
  }
  for (const std::string& line : lines) out.square += (out.square.empty() ? "" : "\n") + line;
}

// The label of a powder or liquid as it was bought: no dose and no code, its own hazards.
LabelContent tub_content(const RoomAnswer& answers, const LabelRequest& request) {
  const Room& room = *answers.room;
  const Product& product = *find(room.products, request.product);
  const Container& container = *find(room.containers, request.container);
  const HazardAnswer hazards = answer_tub_hazards(room, product, *answers.sources);
  LabelContent out;
  out.name = capitalised(product.name);
  out.contents = "as bought" + (product.cas.empty() ? "" : ", CAS " + product.cas);
  if (product.active) out.contents += ", " + percent_text(*product.active) + " active";
  out.fields = {{"opened", request.mixed ? date_text(*request.mixed) : ""},
                {"lot", request.batch},
                {"by", request.by},
                {product.form == Product::Form::liquid ? "volume" : "weight", ""}};
  add_hazards(hazards, {product.name}, out);
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
  for (std::string& line : mixing_warnings({}, others))
    out.warning_lines.push_back(std::move(line));
  if (container.held_food)
    out.warning_lines.emplace_back("This tub once held food or drink. Do not eat from it.");
  if (room.emergency.empty()) out.fields.push_back({"in an emergency call", ""});
  out.safety = safety_words(room, hazards);
  out.short_words = short_words(room, request);
  add_words_of_form(request, out);
  out.capacity = container.holds;
  return out;
}

}  // namespace

LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request,
                           ErrorShown shown) {
  if (!request.product.empty()) return tub_content(answers, request);
  const Room& room = *answers.room;
  const LabelAnswer label = answer_label(answers, request);
  const Stock& stock = *label.stock->stock;
  LabelContent out;
  out.name = stock.name;
  out.contents = contents_text(room, label.filled);
  out.code = code_of(*label.stock);
  add_dose(label, room.measures, shown, out);
  // A tub is opened, not mixed; how much is in it nobody has said.
  const bool dry = stock.dry;
  out.fields = {{dry ? "opened" : "mixed", request.mixed ? date_text(*request.mixed) : ""},
                {use_by_caption(stock, request), label.use_by ? date_text(*label.use_by) : ""},
                {dry ? "lot" : "batch", request.batch},
                {"by", request.by},
                {dry ? "weight" : "contents", dry ? "" : volume_text(label.filled.makes)}};
  std::vector<std::string> names;
  for (const Component& component : label.filled.components)
    names.push_back(find(room.products, component.product)->name);
  add_hazards(label.stock->hazards, names, out);
  if (!request.earlier.empty() && request.earlier != figures_of(out).back().figure)
    out.warning_lines.push_back("Its earlier label said: " + request.earlier);
  if (const auto& quarrel = label.stock->quarrel)
    out.warning_lines.push_back(capitalised(quarrel->one->name) + " and " + quarrel->other->name +
                                " are both in it and must not meet: " + quarrel->why->because +
                                ". Do not mix this.");
  for (std::string& line : mixing_warnings(stock.never_mix_with, label.stock->clashes))
    out.warning_lines.push_back(std::move(line));
  if (label.container->held_food) {
    out.warning_lines.emplace_back("This " + vessel_word(stock) +
                                   " once held food or drink. Do not " +
                                   (stock.dry ? "eat" : "drink") + " from it.");
  }
  if (room.emergency.empty()) out.fields.push_back({"in an emergency call", ""});
  out.safety = safety_words(room, label.stock->hazards);
  out.short_words = short_words(room, request);
  add_words_of_form(request, out);
  out.capacity = label.container->holds;
  return out;
}

}  // namespace dosewright
