// Taking typed values out of a located map, with a located message for everything that is amiss;
// private to this folder.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/model/room.hpp"
#include "dosewright/read/tree.hpp"
#include "dosewright/units/parse.hpp"

namespace dosewright {

/// What one check shares: where problems go and which measures were declared.
struct Checking {
  Diagnostics& out;
  MeasureSystem measures = MeasureSystem::undeclared;

  void error(const Place& place, std::string path, std::string message, std::string hint) const;
};

/// Reads the keys of one map. Unknown keys are reported at once, with the nearest known one.
class MapReader {
 public:
  MapReader(const Checking& checking, const Node& node, std::string path,
            const std::vector<std::string>& known);

  [[nodiscard]] bool is_map() const { return node_.kind == Node::Kind::map; }
  [[nodiscard]] const Node* find(std::string_view key) const;
  /// Whether an unknown key was taken for a slip of the pen for this one, and told as such.
  [[nodiscard]] bool is_misspelt(std::string_view key) const;
  /// Like find, but a missing key is an error that shows `example`, unless it is only misspelt.
  [[nodiscard]] const Node* need(std::string_view key, std::string_view example) const;
  [[nodiscard]] std::string path_of(std::string_view key) const;
  [[nodiscard]] Origin origin_of(std::string_view key) const;

  [[nodiscard]] std::string text(std::string_view key, std::string fallback = "") const;
  [[nodiscard]] std::string needed_text(std::string_view key, std::string_view example) const;
  [[nodiscard]] bool truth(std::string_view key, bool fallback) const;
  [[nodiscard]] int count(std::string_view key, int fallback, int smallest, int largest) const;
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
  /// One of `words`; anything else is an error that lists them.
  [[nodiscard]] std::string word(std::string_view key, const std::vector<std::string>& words,
                                 const std::string& fallback) const;
  [[nodiscard]] std::optional<Date> date(std::string_view key) const;

  template <class Value>
  using Parse = std::function<Parsed<Value>(std::string_view)>;

  /// The value of `key` if it is there and well formed.
  template <class Value>
  [[nodiscard]] std::optional<Value> value(std::string_view key, const Parse<Value>& parse) const {
    const Node* node = find(key);
    if (node == nullptr) return std::nullopt;
    return parsed(*node, path_of(key), parse);
  }

  template <class Value>
  [[nodiscard]] std::optional<Value> needed(std::string_view key, std::string_view example,
                                            const Parse<Value>& parse) const {
    if (need(key, example) == nullptr) return std::nullopt;
    return value(key, parse);
  }

  /// A scalar taken apart by `parse`; a problem is reported at the offending part.
  template <class Value>
  [[nodiscard]] std::optional<Value> parsed(const Node& node, const std::string& path,
                                            const Parse<Value>& parse) const {
    if (!is_scalar(node, path)) return std::nullopt;
    auto result = parse(node.text);
    if (const auto* bad = std::get_if<QuantityProblem>(&result)) {
      report(node, path, *bad);
      return std::nullopt;
    }
    return std::get<Value>(std::move(result));
  }

  /// False, with a message, for a map, a list or nothing.
  bool is_scalar(const Node& node, const std::string& path) const;
  void error(const Place& place, std::string path, std::string message, std::string hint) const {
    checking_.error(place, std::move(path), std::move(message), std::move(hint));
  }
  [[nodiscard]] const Node& node() const { return node_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const Checking& checking() const { return checking_; }

 private:
  void report(const Node& node, const std::string& path, const QuantityProblem& problem) const;

  const Checking& checking_;
  const Node& node_;
  std::string path_;
  std::vector<std::string> misspelt_;  // what was meant
};

[[nodiscard]] std::string quoted(std::string_view text);

/// Looks up every item of the list `key`, each reported where it stands; returns the texts.
std::vector<std::string> refer_each(const MapReader& map, std::string_view key,
                                    const std::string& what, const std::vector<std::string>& known);

/// Looks `id` up among `known`; a dangling one is reported with the nearest id.
bool refer(const MapReader& map, const Node& node, const std::string& path, const std::string& what,
           const std::string& id, const std::vector<std::string>& known);

}  // namespace dosewright
