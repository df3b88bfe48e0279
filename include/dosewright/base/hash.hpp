// A hash that is the same on every machine; not one that keeps secrets.
#pragma once

#include <cstdint>
#include <string_view>

namespace dosewright {

/// FNV-1a with the basis and prime of its width: the IETF draft "The FNV Non-Cryptographic Hash
/// Algorithm".
template <class Word>
[[nodiscard]] constexpr Word fnv1a(std::string_view text, Word basis, Word prime) {
  Word hash = basis;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= prime;
  }
  return hash;
}

[[nodiscard]] constexpr std::uint64_t fnv1a_64(std::string_view text) {
  return fnv1a<std::uint64_t>(text, 0xcbf29ce484222325ULL, 0x100000001b3ULL);
}
[[nodiscard]] constexpr std::uint32_t fnv1a_32(std::string_view text) {
  return fnv1a<std::uint32_t>(text, 0x811c9dc5U, 0x01000193U);
}

}  // namespace dosewright
