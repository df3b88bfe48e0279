// The short code that a bottle and its chart share; not how it is drawn.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "dosewright/mix/mixture.hpp"
#include "dosewright/model/room.hpp"

namespace dosewright {

/// What one cell of the strip is filled with.
enum class CellPattern { blank, striped, dotted, solid };

/// Five characters, grouped as "K7 4HM", and eight cells from the same hash.
struct StrengthCode {
  std::string canonical;  ///< the text that was hashed
  std::string letters;    ///< "K7 4HM"
  std::array<CellPattern, 8> strip{};
};

/// The characters a code is made of: none of the pairs 0/O, 1/I/L, 5/S, 2/Z, 8/B, 6/G, U/V, D/O/Q.
inline constexpr std::string_view kCodeCharacters = "ACEFHJKMNPRTVWXY3479";

/// The canonical form is one line, fields joined by "|", figures at six significant digits:
/// `product=g/L` (or `product~mL/L` for a liquid by volume) for every component in alphabetical
/// order (`from the tub: product` for a powder that is dosed dry, whose doses are in g/L), then
/// `dose=mL/L` of all days together, the water basis, the rounding rule, and where they are given
/// `over=3 days`, `then=new water` or `again`, `atmost=mL/L`, `atleast=mL/L`. A product is named by
/// its CAS number, or by its chemical name without one. Ids, the stock's name, notes, order and
/// units that mean the same amount do not enter it. Hash: 64-bit FNV-1a, finished by the mixer of
/// splitmix64 so that every bit depends on every character.
[[nodiscard]] StrengthCode strength_code(const Stock& stock, const Mixture& mixture,
                                         const std::vector<Product>& products);

/// A component as the canonical form writes it: "10102-17-7=100".
[[nodiscard]] std::string component_text(const Component& component,
                                         const std::vector<Product>& products);

}  // namespace dosewright
