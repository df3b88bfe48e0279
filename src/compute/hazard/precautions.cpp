#include "precautions.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <set>
#include <string_view>
#include <utility>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

// When the first is on the label, the second says nothing more.
constexpr std::array kRepeats = {
    std::pair("P308+P311", "P308+P313"),
    std::pair("P308+P316", "P316"),
    std::pair("P310", "P311"),
    std::pair("P310", "P312"),
    std::pair("P310", "P301+P312"),
    std::pair("P310", "P302+P312"),
    std::pair("P310", "P304+P312"),
    std::pair("P310", "P308+P311"),
    std::pair("P310", "P314"),
    std::pair("P310", "P332+P313"),
    std::pair("P310", "P337+P313"),
    std::pair("P310", "P342+P311"),
    std::pair("P301+P310", "P301+P312"),
    std::pair("P301+P310", "P312"),
    std::pair("P311", "P312"),
    std::pair("P308+P313", "P314"),
    std::pair("P301+P312", "P312"),
    std::pair("P333+P313", "P332+P313"),
    std::pair("P301+P330+P331", "P330"),
    std::pair("P301+P330+P331", "P331"),
    std::pair("P303+P361+P353", "P302+P352"),
    std::pair("P303+P361+P353", "P361+P364"),
    std::pair("P303+P361+P353", "P362+P364"),
    std::pair("P303+P361+P353", "P363"),
    std::pair("P361+P364", "P362+P364"),
    std::pair("P260", "P261"),
    std::pair("P264+P265", "P264"),
    std::pair("P202", "P201"),
    std::pair("P403+P233", "P233"),
    std::pair("P403+P233", "P403"),
    // The UN list's own codes.
    std::pair("P316", "P317"),
    std::pair("P316", "P319"),
    std::pair("P316", "P301+P317"),
    std::pair("P316", "P332+P317"),
    std::pair("P316", "P337+P317"),
    std::pair("P308+P316", "P317"),
    std::pair("P317", "P319"),
    std::pair("P317", "P337+P317"),
    std::pair("P317", "P332+P317"),
    std::pair("P333+P317", "P332+P317"),
    std::pair("P302+P361+P354", "P302+P352"),
    std::pair("P302+P361+P354", "P361+P364"),
    std::pair("P302+P361+P354", "P363"),
    std::pair("P305+P354+P338", "P305+P351+P338"),
    std::pair("P318", "P319"),
};

// These need words that only somebody who knows the product can give: an antidote, a figure, what
// to put a fire out with.
constexpr std::array kNeverByThemselves = {"P236",      "P401", "P230",     "P241",      "P250",
                                           "P320",      "P321", "P322",     "P370+P378", "P411",
                                           "P411+P235", "P413", "P335+P334"};

bool any_of_endpoint(const std::vector<HazardClass>& classes, Endpoint endpoint) {
  return std::any_of(classes.begin(), classes.end(),
                     [&](const HazardClass& c) { return c.endpoint == endpoint; });
}

// "Do not breathe …" only where something can be breathed in (CLP Annex IV, conditions of use of
// P260 and P261, from memory).
std::string what_is_breathed(const std::vector<HazardClass>& classes, const LabelFacts& facts) {
  if (facts.powder) return "dust";
  if (facts.sprayed) return "mist";
  if (facts.vapours) return "vapours";
  // Of what gives off no vapour only droplets can be breathed in.
  const bool poison = any_of_endpoint(classes, Endpoint::acute_inhalation) ||
                      any_of_endpoint(classes, Endpoint::respiratory_sensitisation) ||
                      any_of_endpoint(classes, Endpoint::single_exposure) ||
                      any_of_endpoint(classes, Endpoint::lactation) ||
                      any_of_endpoint(classes, Endpoint::repeated_exposure);
  return poison ? "mist" : "";
}

// The part of the body that each class wants covered (CLP Annex IV, P280, conditions of use, from
// memory).
std::set<std::string> covered(const std::vector<HazardClass>& classes) {
  std::set<std::string> out;
  for (const HazardClass& one : classes) {
    switch (one.endpoint) {
      case Endpoint::skin:
        out.insert("gloves");
        if (one.statement == "H314") out.insert("all");
        break;
      case Endpoint::eye:
        out.insert("eyes");
        break;
      case Endpoint::acute_dermal:
      case Endpoint::skin_sensitisation:
        out.insert("gloves");
        break;
      case Endpoint::mutagenicity:
      case Endpoint::carcinogenicity:
      case Endpoint::reproduction:
      case Endpoint::physical:
        out.insert("gloves");
        out.insert("eyes");
        break;
      default:
        break;
    }
  }
  return out;
}

std::size_t urgency(const std::string& code) {
  const auto& order = most_urgent_first();
  const auto at = std::find(order.begin(), order.end(), code);
  return static_cast<std::size_t>(at - order.begin());
}

// Whether it is locked up for what it can do, and not only for irritating the airways.
bool is_locked_up(const std::vector<HazardClass>& classes) {
  static const std::set<std::string> grave = {"H300", "H301",  "H304", "H310", "H311",
                                              "H314", "H330",  "H331", "H340", "H341",
                                              "H350", "H350i", "H351", "H370", "H371"};
  return std::any_of(classes.begin(), classes.end(), [](const HazardClass& one) {
    return grave.contains(one.statement) || one.statement.starts_with("H36");
  });
}

// Kinds of hazard that must not be left without any measure, and the measures against each.
struct GraveKind {
  std::set<std::string> statements;  // H codes that make it grave; empty: whenever a measure is due
  std::set<std::string> measures;
};

const std::vector<GraveKind>& grave_kinds() {
  static const std::vector<GraveKind> kinds = {
      {{}, {"P210", "P220", "P223", "P231+P232", "P235"}},
      {{"H270", "H271", "H272"}, {"P220"}},
      {{"H330", "H331", "H334"}, {"P284", "P260", "P261"}},
      {{"H330", "H331", "H334"}, {"P304+P340", "P342+P311", "P342+P316"}},
      // A call that only who swallows it is told to make is none for the others.
      {{"H310", "H311", "H314", "H318", "H330", "H331", "H334", "H370", "H371"},
       {"P310", "P311", "P308+P311", "P342+P311", "P316", "P317", "P308+P316", "P342+P316"}},
      {{"H340", "H350", "H350i", "H360", "H360F", "H360D", "H360FD", "H360Fd", "H360Df"},
       {"P201", "P202", "P203", "P308+P313", "P318"}},
      {{"H300", "H301", "H304"}, {"P301+P310", "P301+P316", "P301+P330+P331"}},
      {{"H304"}, {"P331", "P301+P330+P331"}},
      {{"H310", "H311"}, {"P302+P352", "P303+P361+P353", "P302+P361+P354"}},
      {{"H370", "H371", "H372", "H373"}, {"P260", "P264", "P270", "P314", "P319"}},
      {{"H400", "H410", "H411"}, {"P273"}},
      {{"H341", "H351", "H361", "H361d", "H361f", "H361fd"},
       {"P201", "P202", "P203", "P308+P313", "P318"}},
      // What is locked up weak must be locked up strong.
      {{"H300",   "H301", "H304",  "H310",  "H311",   "H314",  "H330",  "H331",   "H340",
        "H341",   "H350", "H350i", "H351",  "H360",   "H360F", "H360D", "H360FD", "H360Fd",
        "H360Df", "H361", "H361d", "H361f", "H361fd", "H370",  "H371"},
       {"P405"}}};
  return kinds;
}

bool is_grave(const GraveKind& kind, const std::vector<HazardClass>& classes) {
  if (kind.statements.empty()) return true;
  return std::any_of(classes.begin(), classes.end(), [&](const HazardClass& one) {
    return kind.statements.contains(one.statement);
  });
}

// What the grave kinds add to the first `room` of the codes.
std::vector<std::string> most_needed(const std::vector<std::string>& sorted, std::size_t room,
                                     const std::vector<HazardClass>& classes) {
  std::vector<std::string> out = sorted;
  if (out.size() <= room) return out;
  out.resize(room);
  for (const GraveKind& kind : grave_kinds()) {
    const auto fits = [&](const std::string& code) { return kind.measures.contains(code); };
    const auto best = std::find_if(sorted.begin(), sorted.end(), fits);
    if (best == sorted.end() || !is_grave(kind, classes)) continue;
    if (std::none_of(out.begin(), out.end(), fits)) out.push_back(*best);
  }
  return out;
}

// Prevention, response, storage, disposal: by the first number. What to do with the mouth says no
// more of its own when: it stands behind "if swallowed".
std::string place_of(const std::string& code) {
  return code == "P330" || code == "P331" ? "P301+P32x " + code : code;
}
bool printed_before(const std::string& a, const std::string& b) {
  return place_of(a) < place_of(b);
}

// "If swallowed" twice, or "rinse mouth" without it.
void settle_swallowing(std::vector<std::string>& codes) {
  const bool calls = among(codes, "P310") || among(codes, "P316") || among(codes, "P308+P316");
  if (calls && among(codes, "P301+P330+P331"))
    std::erase_if(
        codes, [](const std::string& code) { return code == "P301+P310" || code == "P301+P316"; });
  const bool swallowed = std::any_of(codes.begin(), codes.end(), [](const std::string& code) {
    return code.starts_with("P301+");
  });
  if (!swallowed) std::erase(codes, std::string("P330"));
}

}  // namespace

const std::vector<std::string>& most_urgent_first() {
  static const std::vector<std::string> order = {
      // corrosion and eyes
      "P280", "P305+P351+P338", "P305+P354+P338", "P303+P361+P353", "P302+P361+P354",
      "P301+P330+P331", "P310", "P316",
      // fire and reaction
      "P210", "P220", "P223", "P231+P232", "P235", "P222", "P302+P335+P334", "P230",
      // poison
      "P301+P310", "P301+P316", "P331", "P284", "P260", "P304+P340", "P308+P311", "P308+P316",
      "P311", "P342+P311", "P342+P316", "P240",
      // lasting harm, and children
      "P308+P313", "P318", "P317", "P405", "P302+P352", "P202", "P203", "P263", "P273",
      // harm and irritation
      "P333+P313", "P333+P317", "P301+P312", "P301+P317", "P337+P313", "P337+P317", "P332+P313",
      "P332+P317", "P314", "P319", "P312", "P304+P312", "P304+P317", "P261", "P271", "P361+P364",
      "P262",
      // surroundings and storage
      "P391", "P403+P233", "P402+P404", "P420", "P410", "P403", "P264", "P264+P265", "P270", "P272",
      "P330", "P362+P364", "P363", "P201", "P234", "P390", "P406", "P371+P380+P375", "P306+P360",
      "P283", "P407"};
  return order;
}

ChosenPrecautions chosen_precautions(const std::vector<std::string>& codes,
                                     const std::vector<HazardClass>& classes,
                                     const LabelFacts& facts) {
  std::vector<std::string> kept;
  for (const std::string& code : codes) {
    const bool never = std::find(kNeverByThemselves.begin(), kNeverByThemselves.end(), code) !=
                       kNeverByThemselves.end();
    const bool breath = code == "P260" || code == "P261";
    // "If the product is volatile" (CLP Annex IV, conditions of use of P403+P233, from memory).
    const bool tight = code == "P403+P233" && !facts.vapours;
    if (never || tight || among(kept, code) || (breath && what_is_breathed(classes, facts).empty()))
      continue;
    kept.push_back(code);
  }
  for (const auto& [stronger, weaker] : kRepeats) {
    if (among(kept, stronger)) std::erase(kept, std::string(weaker));
  }
  settle_swallowing(kept);
  // One statement on disposal, always the last (CLP Article 28 (2)).
  const bool disposal = std::erase(kept, std::string("P501")) > 0;
  const bool lock = is_locked_up(classes);
  const bool poison = any_of_endpoint(classes, Endpoint::acute_inhalation) ||
                      any_of_endpoint(classes, Endpoint::respiratory_sensitisation);
  const auto rank = [lock, poison](const std::string& code) {
    // Behind every measure against irritation.
    if (code == "P405" && !lock) return urgency("P262");
    return code == "P304+P340" && !poison ? urgency("P304+P312") : urgency(code);
  };
  std::stable_sort(kept.begin(), kept.end(),
                   [&](const std::string& a, const std::string& b) { return rank(a) < rank(b); });
  const std::size_t room = kMostPrecautions - (disposal ? 1 : 0);
  ChosenPrecautions out;
  out.codes = most_needed(kept, room, classes);
  settle_swallowing(out.codes);
  out.more = out.codes.size() < kept.size();
  std::sort(out.codes.begin(), out.codes.end(), printed_before);
  if (disposal) out.codes.emplace_back("P501");
  return out;
}

std::string worded_precaution(const std::string& code, const std::vector<HazardClass>& classes,
                              const LabelFacts& facts) {
  if (code == "P260" || code == "P261") return code + '.' + what_is_breathed(classes, facts);
  if (code != "P280") return code;
  const std::set<std::string> parts = covered(classes);
  if (parts.contains("all")) return "P280.all";
  const bool gloves = parts.contains("gloves") || parts.empty();
  const bool eyes = parts.contains("eyes") || parts.empty();
  if (gloves && eyes) return "P280.gloves+eyes";
  return gloves ? "P280.gloves" : "P280.eyes";
}

bool is_relieved_when_small(const HazardClass& found) {
  const std::string& name = found.name;
  // Supplies for the public: acute toxicity, STOT SE and RE are relieved for others only.
  static const std::set<std::string> relieved = {
      "Flam. Liq. 2", "Flam. Liq. 3",    "Flam. Sol. 1",      "Flam. Sol. 2",      "Self-heat. 2",
      "Ox. Liq. 2",   "Ox. Liq. 3",      "Ox. Sol. 2",        "Ox. Sol. 3",        "Skin Irrit. 2",
      "Eye Irrit. 2", "Aquatic Acute 1", "Aquatic Chronic 1", "Aquatic Chronic 2", "Met. Corr. 1"};
  return relieved.contains(name);
}

}  // namespace dosewright
