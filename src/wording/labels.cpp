// The words of labels.
#include "dosewright/base/text.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

void add_hazards(const HazardBlock& block, LabelContent& out) {
  out.signal = block.signal;
  out.pictograms = block.pictograms;
  switch (block.assessment) {
    case Hazards::Assessment::not_assessed:
      out.signal = "Hazards not assessed";
      out.hazard_lines = {"Nobody has worked out what this can do. Treat it as harmful."};
      out.precautions =
          "Wear gloves and eye protection. Read the suppliers' safety data sheets before use.";
      return;
    case Hazards::Assessment::not_classified:
      out.hazard_lines = {"No hazard statement is called for, according to " + block.basis + "."};
      break;
    case Hazards::Assessment::classified:
      out.hazard_lines = block.hazards;
      break;
  }
  for (const std::string& line : block.supplements) out.hazard_lines.push_back(line);
  for (const std::string& line : block.precautions) {
    out.precautions += (out.precautions.empty() ? "" : " ") + line;
  }
}

std::string safety_words(const Room& room, const HazardBlock& block) {
  std::string out = "Not for drinking. Keep out of reach of children. ";
  if (!room.emergency.empty()) out += "In an emergency: " + room.emergency + ". ";
  const bool stated = block.assessment == Hazards::Assessment::classified && !block.basis.empty();
  if (stated) out += "Hazards according to " + block.basis + ". ";
  return out + "Does not replace the supplier's safety data sheet, local rules or a vet.";
}

void add_dose(const LabelAnswer& label, const MeasureSystem system, ErrorShown shown,
              LabelContent& out) {
  const DoseRule& rule = label.stock->stock->dose;
  const Amount water = water_as_written(label.water_text, label.dose.water, system);
  if (label.dose.measured.dilution) {
    out.treats = "Dilute to dose " + water.figure + ' ' + water.unit + ' ' + basis_words(rule);
    const std::string remarks = dose_remarks(*label.stock, system);
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
  out.treats = "treats " + water.figure + ' ' + water.unit + ' ' + basis_words(rule);
  const std::string error = error_text(label.dose, shown);
  const std::string how = how_to_measure(measured) + (error.empty() ? "" : ", " + error);
  out.note = dose_remarks(*label.stock, system);
  out.note += out.note.empty() ? how : ". " + capitalised(how);
}

}  // namespace

LabelContent label_content(const RoomAnswer& answers, const LabelRequest& request,
                           ErrorShown shown) {
  const Room& room = *answers.room;
  const LabelAnswer label = answer_label(answers, request);
  const Stock& stock = *label.stock->stock;
  LabelContent out;
  out.name = stock.name;
  out.contents = contents_text(room, label.stock->mixture);
  out.code = code_of(*label.stock);
  add_dose(label, room.measures, shown, out);
  // A tub is opened, not mixed; how much is in it nobody has said.
  const bool dry = stock.dry;
  out.fields = {{dry ? "opened" : "mixed", request.mixed ? date_text(*request.mixed) : ""},
                {"use by", label.use_by ? date_text(*label.use_by) : ""},
                {dry ? "lot" : "batch", request.batch},
                {"by", request.by},
                {dry ? "weight" : "contents", dry ? "" : volume_text(label.filled.makes)}};
  add_hazards(label.stock->hazards, out);
  if (!stock.never_mix_with.empty()) {
    out.warning_lines.push_back("Never mix with " + either(stock.never_mix_with) + '.');
  }
  if (label.container->held_food) {
    out.warning_lines.emplace_back("This " + vessel_word(stock) +
                                   " once held food or drink. Do not " +
                                   (stock.dry ? "eat" : "drink") + " from it.");
  }
  if (room.emergency.empty()) out.fields.push_back({"in an emergency call", ""});
  out.safety = safety_words(room, label.stock->hazards);
  out.capacity = label.container->holds;
  return out;
}

}  // namespace dosewright
