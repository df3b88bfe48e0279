// A YAML text as a tree in which every value knows its line and column; not for what a key means.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/diagnostic.hpp"

namespace dosewright {

struct Node;

/// One `key: value` of a map, with the place of the key.
struct Entry;

/// A value as it was written. Scalars stay text: what they mean is decided by the checker.
struct Node {
  enum class Kind { empty, scalar, map, list };
  Kind kind = Kind::empty;
  Place place;
  std::string text;     ///< scalars: normalised to Unicode form C
  bool quoted = false;  ///< scalars: written in quotes
  std::vector<Entry> entries;
  std::vector<Node> items;
};

struct Entry {
  std::string key;
  Place key_place;
  Node value;
};

/// Reads exactly one YAML document whose top is a map. Refused, each with its place: malformed
/// YAML, a second document, repeated keys, anchors and aliases, tabs in the indentation, more than
/// 32 levels, characters that no printed page can hold. Problems are added to `out`; without any,
/// the tree is returned.
[[nodiscard]] std::optional<Node> read_tree(const std::shared_ptr<const SourceText>& source,
                                            Diagnostics& out);

}  // namespace dosewright
