// The only file that knows yaml-cpp. Events are taken instead of its node tree, because the tree
// drops repeated keys and follows aliases into loops without a word.
#include "dosewright/read/tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <cstddef>
#include <sstream>
#include <string_view>
#include <utility>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kDeepest = 32;

// yaml-cpp counts lines and bytes from 0; people count characters from 1.
Place place_at(const std::shared_ptr<const SourceText>& source, const YAML::Mark& mark) {
  if (mark.line < 0) return {source, 1, 1};
  const auto line = static_cast<std::size_t>(mark.line) + 1;
  const auto bytes = static_cast<std::size_t>(std::max(mark.column, 0));
  const std::string text = source->line(line);
  const std::size_t characters = to_characters(text.substr(0, std::min(bytes, text.size()))).size();
  return {source, line, characters + 1};
}

Diagnostic refusal(Place place, std::string message, std::string hint) {
  return {Severity::error, std::move(place), "", std::move(message), std::move(hint)};
}

class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(std::shared_ptr<const SourceText> source, Diagnostics& out)
      : source_(std::move(source)), out_(out) {}

  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    finish(made(Node::Kind::empty, mark));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    add(mark, "an alias (*name) is not read here", "write the value out where it is used");
    finish(made(Node::Kind::empty, mark));
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    Node node = made(Node::Kind::scalar, mark);
    node.text = to_nfc(value);
    node.quoted = tag == "!";
    refuse_unprintable(mark, node.text);
    finish(std::move(node));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(Node::Kind::list, mark, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(Node::Kind::map, mark, anchor);
  }
  void OnMapEnd() override { close(); }

  [[nodiscard]] Node take_root() { return std::move(root_); }
  [[nodiscard]] std::size_t last_line() const { return last_line_; }

 private:
  // A map or list being filled; `key` is the key that waits for its value.
  struct Open {
    Node node;
    std::optional<std::pair<std::string, Place>> key;
  };

  Node made(Node::Kind kind, const YAML::Mark& mark) {
    Node node;
    node.kind = kind;
    node.place = place_at(source_, mark);
    last_line_ = std::max(last_line_, node.place.line);
    return node;
  }

  void add(const YAML::Mark& mark, std::string message, std::string hint) {
    out_.push_back(refusal(place_at(source_, mark), std::move(message), std::move(hint)));
  }

  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor != YAML::NullAnchor) {
      add(mark, "an anchor (&name) is not read here", "write the value out where it is used");
    }
  }

  // libharu's fonts hold the Basic Multilingual Plane only, and a control character prints a box.
  void refuse_unprintable(const YAML::Mark& mark, const std::string& text) {
    for (const char32_t character : to_characters(text)) {
      const bool control = character < 0x20 && character != '\n';
      if (!control && character <= 0xFFFF) continue;
      add(mark, "a character that cannot be printed",
          control ? "take out the control character" : "write it in plain letters");
      return;
    }
  }

  void open(Node::Kind kind, const YAML::Mark& mark, YAML::anchor_t anchor) {
    refuse_anchor(mark, anchor);
    if (open_.size() >= kDeepest) {
      throw YAML::ParserException(mark, "too many levels, one inside the other");
    }
    open_.push_back({made(kind, mark), std::nullopt});
  }

  void close() {
    Node node = std::move(open_.back().node);
    open_.pop_back();
    finish(std::move(node));
  }

  void finish(Node node) {
    if (open_.empty()) {
      root_ = std::move(node);
    } else if (open_.back().node.kind == Node::Kind::list) {
      open_.back().node.items.push_back(std::move(node));
    } else if (!open_.back().key) {
      take_key(node);
    } else {
      take_value(std::move(node));
    }
  }

  void take_key(const Node& node) {
    if (node.kind != Node::Kind::scalar || trimmed(node.text).empty()) {
      out_.push_back(refusal(node.place, "a key must be a word", "write key: value"));
    }
    open_.back().key = {node.text, node.place};
  }

  void take_value(Node node) {
    Open& map = open_.back();
    auto [key, place] = std::move(*map.key);
    map.key.reset();
    // The parser sees nothing only at the next word; the reader looks behind the key.
    if (node.kind == Node::Kind::empty) node.place = place;
    for (const Entry& entry : map.node.entries) {
      if (entry.key != key) continue;
      out_.push_back(refusal(place, "\"" + key + "\" is given twice",
                             "the first one stands in line " +
                                 std::to_string(entry.key_place.line) + "; keep one of them"));
    }
    map.node.entries.push_back({std::move(key), std::move(place), std::move(node)});
  }

  std::shared_ptr<const SourceText> source_;
  Diagnostics& out_;
  std::vector<Open> open_;
  Node root_;
  std::size_t last_line_ = 1;
};

// Counts what a further document holds; only its being there matters.
class Anything : public YAML::EventHandler {
 public:
  void OnDocumentStart(const YAML::Mark& mark) override { start = mark; }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark&, YAML::anchor_t) override {}
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override {}
  void OnScalar(const YAML::Mark&, const std::string&, YAML::anchor_t,
                const std::string&) override {}
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {}
  void OnSequenceEnd() override {}
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {}
  void OnMapEnd() override {}

  YAML::Mark start;
};

bool refuse_tabs(const std::shared_ptr<const SourceText>& source, Diagnostics& out) {
  const std::vector<std::string> lines = split(source->text, '\n');
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t first = lines[i].find_first_not_of(" \t\r");
    if (first == std::string::npos || lines[i][first] == '#') continue;
    const std::size_t tab = lines[i].find('\t');
    if (tab >= first) continue;
    out.push_back(refusal({source, i + 1, tab + 1}, "a tab in the indentation",
                          "indent with spaces, two for each level"));
    return true;
  }
  return false;
}

// The parser notices an unclosed quote only at the end of the file. The one that was opened stands
// in or behind the last line it understood.
std::optional<Place> unclosed_quote(const std::shared_ptr<const SourceText>& source,
                                    std::size_t from_line) {
  const std::size_t lines = split(source->text, '\n').size();
  for (std::size_t number = std::max<std::size_t>(from_line, 1); number <= lines; ++number) {
    const std::string line = source->line(number);
    for (const std::string_view lead : {": ", "- ", "[", ", ", "{"}) {
      for (std::size_t at = line.find(lead); at != std::string::npos;
           at = line.find(lead, at + 1)) {
        const std::size_t quote = line.find_first_not_of(' ', at + lead.size());
        if (quote == std::string::npos || (line[quote] != '"' && line[quote] != '\'')) continue;
        if (line.find(line[quote], quote + 1) != std::string::npos) continue;
        return Place{source, number, to_characters(line.substr(0, quote)).size() + 1};
      }
    }
  }
  return std::nullopt;
}

Diagnostic explained(const std::shared_ptr<const SourceText>& source, const YAML::Exception& fault,
                     std::size_t last_line) {
  const std::string& said = fault.msg;
  if (said.find("EOF in scalar") != std::string::npos ||
      said.find("illegal EOF") != std::string::npos) {
    const Place place = unclosed_quote(source, last_line).value_or(place_at(source, fault.mark));
    return refusal(place, "a quote that is opened here is never closed",
                   "close it at the end of the value");
  }
  // An unclosed quote with another quote further down ends there, in the middle of nowhere.
  if (const auto quote = unclosed_quote(source, last_line)) {
    return refusal(*quote, "a quote that is opened here is not closed on its line",
                   "close it at the end of the value");
  }
  if (said.find("anchor is not defined") != std::string::npos) {
    return refusal(place_at(source, fault.mark), "an alias (*name) is not read here",
                   "write the value out where it is used");
  }
  if (said.find("too many levels") != std::string::npos ||
      said.find("bad file") != std::string::npos) {
    return refusal(place_at(source, fault.mark), "too many levels, one inside the other",
                   "a description needs no more than six");
  }
  if (said.find("illegal map value") != std::string::npos) {
    return refusal(place_at(source, fault.mark),
                   "a second colon in one line, or a line that is indented too far",
                   "put a text with a colon in quotes; indent keys of one map alike");
  }
  if (said.find("end of map not found") != std::string::npos) {
    return refusal(place_at(source, fault.mark), "this line fits into no map above it",
                   "indent the keys of one map alike, two spaces for each level");
  }
  return refusal(place_at(source, fault.mark), "this is not well-formed YAML (" + said + ")",
                 "check the indentation, the colon behind the key and the brackets around here");
}

}  // namespace

std::optional<Node> read_tree(const std::shared_ptr<const SourceText>& source, Diagnostics& out) {
  const std::size_t before = out.size();
  if (refuse_tabs(source, out)) return std::nullopt;
  // With its final newline in place, yaml-cpp takes an unclosed quote to be closed by the file's
  // end.
  std::string text = source->text;
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
  std::istringstream in(text);
  TreeBuilder builder(source, out);
  try {
    YAML::Parser parser(in);
    const bool found = parser.HandleNextDocument(builder);
    Node root = found ? builder.take_root() : Node{};
    Anything rest;
    if (found && parser.HandleNextDocument(rest)) {
      out.push_back(refusal(place_at(source, rest.start), "a second document begins here",
                            "keep one description in a file; take out the line --- or ..."));
    }
    if (root.kind != Node::Kind::map) {
      out.push_back(refusal({source, 1, 1}, "the description is not a map of keys",
                            "a description starts with \"room:\""));
    }
    if (out.size() > before) return std::nullopt;
    return root;
  } catch (const YAML::Exception& fault) {
    out.push_back(explained(source, fault, builder.last_line()));
    return std::nullopt;
  }
}

}  // namespace dosewright
