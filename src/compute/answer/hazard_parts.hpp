// What a mixture is made of for the hazard rules; private to this folder.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"

namespace dosewright {

/// A bought mixture that nobody has classified as a whole is worked out from what it contains.
[[nodiscard]] bool is_calculated(const Product& product);
/// The same as if nobody had said anything of its hazards.
[[nodiscard]] Product without_hazards(const Product& product);
/// What is in it: as described, or of a solution of one chemical of known strength that chemical,
/// and water where such solutions are what is sold (Note B of CLP Annex VI).
[[nodiscard]] std::vector<Content> contents_of(const Product& product, const Knowledge& knowledge);

/// Whether a label must name the ingredients that bring about such a class (CLP Article 18 (3)):
/// not for irritation of skin and eyes, nor what is not of health.
[[nodiscard]] bool asks_for_a_name(Endpoint endpoint, const std::string& class_name);

/// How much of a liquid that has the hazards of the table is the chemical itself; nothing when it
/// is taken to be all of it, or has hazards of its own.
[[nodiscard]] std::optional<Share> held_by(const Product& product, const Substance* substance);

/// Whether a class of what is in a mixture is as grave as one that its data sheet states; which
/// organs they are the sheet alone may say.
[[nodiscard]] bool is_as_grave_as_stated(HazardClass found, const HazardClass& stated);

/// Gives the organs that one classification names to classes of the other that name none.
void take_organs(const Classification& from, Classification& into);

/// One product and its share of the whole, by weight.
struct ProductShare {
  const Product* product = nullptr;
  Share least;
  Share most;
};

/// The class that a statement belongs to; its category may be any that has it.
[[nodiscard]] HazardClass class_with(const std::string& code, const std::string& fill,
                                     const ClassBook& classes, RuleBookName book);

/// Organs, each in the label's language where it is known there: "Nieren, Leber".
[[nodiscard]] std::string organs_in_words(const std::string& organs, const HazardSources& sources);

/// Whether an effect goes by each ingredient that has it, and not by a sum.
[[nodiscard]] bool acts_alone(Endpoint endpoint);

/// What a product is by what it contains alone, as far as that is known.
[[nodiscard]] MixtureClasses classes_by_contents(const Room& room, const HazardSources& sources,
                                                 const Product& product);

/// Puts the parts that these products come to into the answer's mixture, and the same taken apart
/// into `by_contents`. The mixture's other facts must stand there already.
void gather(const Room& room, const HazardSources& sources,
            const std::vector<ProductShare>& products, HazardAnswer& answer);

}  // namespace dosewright
