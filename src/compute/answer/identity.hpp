// Which known chemical a product is, and where its description leaves that in doubt; private to
// this folder.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// The substance of this CAS number or name; capitals and the spelling "sulph" make no difference.
/// Null when none is known.
[[nodiscard]] const Substance* known_as(const Knowledge& knowledge, const std::string& word);

/// The known substance a product is: by its CAS number, else by its chemical name. Null for a
/// mixture, and where the name leaves open which hydrate is meant and the hazards hang on it.
[[nodiscard]] const Substance* substance_of(const Product& product, const Knowledge& knowledge);

/// Whether what is bought is a solution of the substance: by its active part, or because it is
/// always sold as one.
[[nodiscard]] bool is_sold_as_solution(const Product& product, const Substance& substance);

/// The same substance without its water of crystals; itself when it has none, or when that form is
/// not known.
[[nodiscard]] const Substance* anhydrous_form(const Substance* substance,
                                              const Knowledge& knowledge);

/// As what a liquid with inhalation hazards is breathed in, as far as its own words, the built-in
/// table or what it contains say; nothing when nobody says.
[[nodiscard]] std::optional<Route> breathed_in_as(const Product& product, const Room& room,
                                                  const Knowledge& knowledge);

/// Adds what is amiss with a product's identity: a name and a CAS number of two substances, a name
/// that leaves the hydrate open, hazards that leave out what the shipped table has.
void collect_doubts(const Product& product, const Room& room, const Knowledge& knowledge,
                    Diagnostics& out);

/// Whether it is stated to need no class though the built-in table has some for it, at its
/// strength. That is no opinion on limits but an oversight, and counts for nothing.
[[nodiscard]] bool denies_what_is_known(const Product& product, const Knowledge& knowledge,
                                        const HazardRules& rules);

/// "Eye Dam. 1 H318": classes for whose effect others have none, or a milder one.
[[nodiscard]] std::vector<std::string> left_out(const std::vector<HazardClass>& stated,
                                                const std::vector<HazardClass>& others);

/// What to write for a product of which nothing is known: "did you mean \"copper sulfate\"?", or
/// nothing when no name is near.
[[nodiscard]] std::string nearest_name(const Product& product, const Knowledge& knowledge);

/// The name of the known substance where the product goes by none of its names, as a trade name
/// with a CAS number does; else the product's own.
[[nodiscard]] std::string chemical_name(const Product& product, const Substance& substance);

}  // namespace dosewright
