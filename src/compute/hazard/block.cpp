#include "dosewright/hazard/block.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

namespace dosewright {

namespace {

// A pictogram and the statement that asks for it.
using Reason = std::pair<std::string, std::string>;

bool any_with(const std::vector<Reason>& reasons, std::string_view pictogram) {
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](const Reason& r) { return r.first == pictogram; });
}

bool is_irritation(const std::string& code) { return code == "H315" || code == "H319"; }

// CLP Article 26: the skull drops the exclamation mark altogether; corrosion drops it for skin and
// eye irritation; the health hazard sign for respiratory sensitisation drops it for skin
// sensitisation and for skin and eye irritation.
bool is_suppressed(const Reason& reason, const std::vector<Reason>& reasons) {
  if (reason.first != "GHS07") return false;
  if (any_with(reasons, "GHS06")) return true;
  if (any_with(reasons, "GHS05") && is_irritation(reason.second)) return true;
  const bool respiratory = std::any_of(reasons.begin(), reasons.end(),
                                       [](const Reason& r) { return r.second == "H334"; });
  return respiratory && (is_irritation(reason.second) || reason.second == "H317");
}

std::vector<std::string> pictograms_for(const std::vector<Reason>& reasons) {
  std::set<std::string> kept;
  for (const Reason& reason : reasons) {
    if (!is_suppressed(reason, reasons)) kept.insert(reason.first);
  }
  return {kept.begin(), kept.end()};
}

int rank_of(std::string_view signal) {
  if (signal == "Danger") return 2;
  return signal == "Warning" ? 1 : 0;
}

}  // namespace

HazardBlock hazard_block(const Hazards& hazards, const StatementBook& book) {
  HazardBlock block;
  block.assessment = hazards.assessment;
  block.basis = hazards.basis;
  std::vector<Reason> reasons;
  for (const StatementCode& code : hazards.statements) {
    const Statement& statement = *book.find(code.code);
    auto& target = code.code.starts_with("EUH") ? block.supplements : block.hazards;
    target.push_back(sentence(statement, code.fill).value_or(""));
    if (statement.signal == "Danger") block.signal = "Danger";
    if (statement.signal == "Warning" && block.signal.empty()) block.signal = "Warning";
    for (const std::string& pictogram : statement.pictograms) {
      if (pictogram != "varies") reasons.emplace_back(pictogram, code.code);
    }
  }
  for (const StatementCode& code : hazards.precautions) {
    block.precautions.push_back(sentence(*book.find(code.code), code.fill).value_or(""));
  }
  const std::vector<std::string> due = pictograms_for(reasons);
  block.pictograms = hazards.pictograms_given ? hazards.pictograms : due;
  std::sort(block.pictograms.begin(), block.pictograms.end());
  for (const std::string& pictogram : due) {
    if (std::find(block.pictograms.begin(), block.pictograms.end(), pictogram) ==
        block.pictograms.end()) {
      block.left_out.push_back(pictogram);
    }
  }
  const std::string signal_due = block.signal;
  if (!hazards.signal.empty()) block.signal = hazards.signal == "none" ? "" : hazards.signal;
  if (rank_of(block.signal) < rank_of(signal_due)) block.left_out.push_back(signal_due);
  return block;
}

}  // namespace dosewright
