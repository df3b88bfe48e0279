// Every key a description may hold, by the map it stands in. README.md explains each of them; a
// test fails when one is missing there.
#pragma once

#include <string>
#include <vector>

namespace dosewright::keys {

using Keys = std::vector<std::string>;

inline const Keys kTop = {"room",  "products", "stocks", "containers",
                          "tools", "vessels",  "sheets", "documents"};
inline const Keys kRoom = {
    "name",  "language",     "measures",        "emergency",  "by",       "printer",
    "paper", "hazard rules", "hazard language", "additivity", "water ph", "water temperature"};
inline const Keys kProduct = {"name",     "form",    "cas",     "bulk density", "displacement",
                              "price",    "pack",    "purity",  "hazards",      "families",
                              "contains", "density", "soluble", "active"};
inline const Keys kStock = {"name",   "recipe",       "water to",   "water added", "dose",
                            "keeps",  "container",    "tools",      "hazards",     "never mix with",
                            "powder", "weighed with", "made up in", "density",     "coldest",
                            "claims", "diluted from", "take",       "strength",    "taken with"};
inline const Keys kDose = {"give",  "reach",     "remove",     "what",     "ratio", "raise",
                           "of",    "treats",    "counted as", "over",     "then",  "for",
                           "round", "tolerance", "at most",    "at least", "note"};
inline const Keys kHazards = {"statements", "precautions",    "signal",
                              "pictograms", "not classified", "source",
                              "ph",         "sprayed",        "tested"};
/// The hazards of a product, as its data sheet has them.
inline const Keys kProductHazards = {
    "classes",    "limits",  "not classified", "source",   "m acute",    "m chronic",    "ate oral",
    "ate dermal", "ate gas", "ate vapour",     "ate mist", "inhaled as", "supplemental", "minimum"};
/// An entry of templates/hazard/substances.yaml.
inline const Keys kSubstance = {
    "name",         "also",     "formula",      "molar mass",        "anhydrous",  "soluble",
    "soluble cold", "lasts",    "lasts source", "soluble source",    "families",   "inert",
    "note",         "outdated", "hazards",      "named by strength", "dissolving", "trade names",
    "sold with"};
inline const Keys kIncompatibility = {"between", "because", "apart", "source"};
inline const Keys kContainer = {"name",   "holds",  "fill",     "held food", "place",
                                "around", "across", "straight", "flat",      "cap"};
inline const Keys kTool = {"name",    "kind",  "holds", "marks",    "accuracy",  "class",
                           "reading", "pours", "for",   "only for", "not below", "drops per mL"};
inline const Keys kVessel = {
    "name",      "kind",      "place",     "volume", "shape",  "inside",     "length",
    "width",     "height",    "across",    "side",   "bow",    "across top", "across bottom",
    "filled to", "substrate", "displaced", "joined", "tracer", "change",     "right to"};
/// Another vessel that is one water with it.
inline const Keys kJoined = {"volume",        "shape",     "inside",    "length",   "width",
                             "height",        "across",    "side",      "bow",      "across top",
                             "across bottom", "filled to", "substrate", "displaced"};
inline const Keys kSubstrate = {"depth", "porosity"};
inline const Keys kTracer = {"salt", "rise"};
inline const Keys kLabel = {"type",  "language",    "stock",  "product", "container",
                            "place", "mixed",       "batch",  "by",      "sheet",
                            "form",  "square code", "design", "copies"};
inline const Keys kSharedSheet = {"paper",   "rows",     "columns",   "label",        "pitch",
                                  "margins", "start at", "cut marks", "round corners"};
inline const Keys kSheet = {"paper",   "rows",     "columns", "label",     "pitch",
                            "margins", "start at", "copies",  "cut marks", "round corners"};
inline const Keys kBucketChart = {"type",     "language", "design",   "read from", "title",
                                  "stocks",   "buckets",  "paper",    "place",     "orientation",
                                  "revision", "revised",  "replaces", "own pages"};
inline const Keys kTankChart = {"type",     "language", "design",      "read from",
                                "title",    "stock",    "tanks",       "racks",
                                "changes",  "paper",    "orientation", "place",
                                "revision", "revised",  "replaces",    "own rows"};

inline const Keys kDoseScale = {"type",  "language", "design",  "title",   "stocks",
                                "from",  "to",       "scale",   "paper",   "orientation",
                                "place", "revision", "revised", "replaces"};
inline const Keys kMeasuringCard = {"type",        "language", "design",  "title",
                                    "stock",       "buckets",  "paper",   "place",
                                    "orientation", "revision", "revised", "replaces"};

inline const Keys kMixingCard = {"type",      "language", "design",  "stock",
                                 "container", "paper",    "place",   "orientation",
                                 "revision",  "revised",  "replaces"};
inline const Keys kHazardSheet = {"type",  "language",    "design",   "stock",   "paper",
                                  "place", "orientation", "revision", "revised", "replaces"};
inline const Keys kSupplySheet = {"type",  "language",    "design",      "stock",      "in stock",
                                  "every", "water",       "order takes", "ready made", "paper",
                                  "place", "orientation", "revision",    "revised",    "replaces"};
inline const Keys kDosingLog = {"type",        "language", "design",  "title",
                                "stock",       "pages",    "paper",   "place",
                                "orientation", "revision", "revised", "replaces"};
inline const Keys kPrinterCheck = {"type",  "language", "design",  "title",   "paper",
                                   "place", "revision", "revised", "replaces"};
inline const Keys kPrinter = {"cross", "rulers"};
inline const Keys kStorageList = {"type",        "language", "design",  "paper",   "place",
                                  "orientation", "revision", "revised", "replaces"};

}  // namespace dosewright::keys
