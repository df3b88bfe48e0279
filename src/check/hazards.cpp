// The hazard statements a description gives for a stock, held against the statement book.
#include <algorithm>
#include <array>
#include <utility>

#include "dosewright/base/text.hpp"
#include "keys.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

const std::vector<std::string>& pictogram_codes() {
  static const std::vector<std::string> codes = {"GHS01", "GHS02", "GHS03", "GHS04", "GHS05",
                                                 "GHS06", "GHS07", "GHS08", "GHS09"};
  return codes;
}

class StatementReader {
 public:
  StatementReader(const MapReader& map, const StatementBook& book) : map_(map), book_(book) {}

  std::vector<StatementCode> read(std::string_view key, Statement::Kind kind) {
    std::vector<StatementCode> out;
    const Node* list = map_.find(key);
    if (list == nullptr) return out;
    path_ = map_.path_of(key);
    if (list->kind != Node::Kind::list) {
      map_.error(list->place, path_, "expected a list of codes",
                 "write " + std::string(key) +
                     (kind == Statement::Kind::hazard ? ": [H319]" : ": [P102, P264]"));
      return out;
    }
    for (const Node& item : list->items) {
      auto code = read_item(item, kind);
      if (!code) continue;
      const bool again = std::any_of(out.begin(), out.end(),
                                     [&](const StatementCode& c) { return c.code == code->code; });
      if (again)
        map_.error(code->origin.place, path_, code->code + " is given twice",
                   "take one of them out");
      out.push_back(std::move(*code));
    }
    return out;
  }

 private:
  // "P102", or a map of one key when something goes into the blank: "P280: eye protection".
  std::optional<StatementCode> read_item(const Node& item, Statement::Kind kind) {
    std::string written;
    std::string fill;
    Place place = item.place;
    const std::size_t colon = item.text.find(": ");
    if (item.kind == Node::Kind::scalar && item.quoted && colon != std::string::npos) {
      written = trimmed(item.text.substr(0, colon));
      fill = trimmed(item.text.substr(colon + 2));
    } else if (item.kind == Node::Kind::map && item.entries.size() == 1) {
      const Entry& entry = item.entries.front();
      written = entry.key;
      place = entry.key_place;
      if (!map_.is_scalar(entry.value, path_ + '.' + written)) return std::nullopt;
      fill = trimmed(entry.value.text);
    } else {
      if (!map_.is_scalar(item, path_)) return std::nullopt;
      written = trimmed(item.text);
    }
    const Statement* statement = known(written, place, kind);
    if (statement == nullptr || !fits(*statement, fill, place)) return std::nullopt;
    return StatementCode{statement->code, {place, path_}, fill};
  }

  const Statement* known(const std::string& written, const Place& place, Statement::Kind kind) {
    const Statement* statement = book_.find(normalised_code(written));
    if (statement == nullptr) {
      const auto near = nearest(written, book_.codes());
      map_.error(place, path_, quoted(written) + " is not a statement of the hazard standard",
                 near ? "did you mean " + quoted(*near) + "?"
                      : "copy the code from the safety data sheet");
      return nullptr;
    }
    if (statement->kind != kind) {
      const bool hazard = statement->kind == Statement::Kind::hazard;
      map_.error(
          place, path_,
          statement->code + (hazard ? " is a hazard statement" : " is a precautionary statement"),
          hazard ? "move it to statements:" : "move it to precautions:");
      return nullptr;
    }
    return statement;
  }

  bool fits(const Statement& statement, const std::string& fill, const Place& place) {
    if (!statement.has_blank && !fill.empty()) {
      map_.error(place, path_, statement.code + " has nothing to fill in",
                 "write just " + statement.code);
      return false;
    }
    if (statement.pattern.ends_with(':')) {
      map_.error(place, path_,
                 statement.code + " is only the beginning of a statement: " + statement.pattern,
                 "join it to what is to be done, as in P305+P351+P338");
      return false;
    }
    if (fill.find('\n') != std::string::npos) {
      map_.error(place, path_, "a text of more than one line", "write it on one line");
      return false;
    }
    if (sentence(statement, fill)) return true;
    map_.error(place, path_, statement.code + " leaves a choice open: " + statement.law_text,
               "write what fits, as in " + statement.code + ": " + example(statement.code));
    return false;
  }

  static std::string example(const std::string& code) {
    if (code == "P280") return "protective gloves and eye protection";
    if (code == "P260" || code == "P261") return "mist or spray";
    if (code == "P413") return "50 kg / 30 °C";
    return "the words that belong in its blank";
  }

  const MapReader& map_;
  const StatementBook& book_;
  std::string path_;
};

// A statement whose signal word depends on the category needs the word said.
void check_signal_is_known(const MapReader& map, const StatementBook& book,
                           const Hazards& hazards) {
  for (const StatementCode& code : hazards.statements) {
    const Statement* statement = book.find(code.code);
    if (statement == nullptr) continue;
    if (statement->signal == "varies" && hazards.signal.empty()) {
      map.error(code.origin.place, code.origin.path,
                code.code + " goes with Danger or Warning, depending on the category",
                "add signal: with the word of the safety data sheet");
    }
    const bool varies = !statement->pictograms.empty() && statement->pictograms.front() == "varies";
    if (varies && map.find("pictograms") == nullptr) {
      map.error(code.origin.place, code.origin.path,
                code.code + " goes with a pictogram or without, depending on the category",
                "add pictograms: as the safety data sheet has them, or pictograms: [none]");
    }
  }
}

}  // namespace

namespace {

// What a test can have shown, and the endpoint it speaks of.
constexpr std::array kTests = {
    std::pair("oral", Endpoint::acute_oral),
    std::pair("dermal", Endpoint::acute_dermal),
    std::pair("inhalation", Endpoint::acute_inhalation),
    std::pair("skin", Endpoint::skin),
    std::pair("eyes", Endpoint::eye),
    std::pair("aquatic", Endpoint::aquatic_chronic),
    std::pair("physical", Endpoint::physical),
};

void read_test(const MapReader& map, const Entry& entry, const ClassBook& classes,
               Hazards& hazards) {
  const std::string path = map.path_of("tested") + '.' + entry.key;
  std::vector<std::string> known;
  for (const auto& [word, endpoint] : kTests) known.emplace_back(word);
  const Node key{Node::Kind::scalar, entry.key_place, entry.key, false, {}, {}};
  if (!refer(map, key, path, "test", entry.key, known) || !map.is_scalar(entry.value, path)) return;
  TestedEndpoint test;
  for (const auto& [word, endpoint] : kTests) {
    if (entry.key == word) test.endpoint = endpoint;
  }
  if (trimmed(entry.value.text) != "none") {
    const auto found = map.parsed<HazardClass>(
        entry.value, path, [&](std::string_view text) { return classes.parse(text); });
    if (!found) return;
    if (found->endpoint != test.endpoint) {
      map.error(entry.value.place, path, found->name + " is no outcome of this test",
                "write none, or the class it gave");
      return;
    }
    test.gives = *found;
  }
  // "none" of the aquatic test speaks of both effects.
  if (test.endpoint == Endpoint::aquatic_chronic && !test.gives)
    hazards.tested.push_back({Endpoint::aquatic_acute, std::nullopt});
  hazards.tested.push_back(std::move(test));
}

// What the calculation is told beside the ingredients.
void read_facts(const MapReader& map, const ClassBook& classes, Hazards& hazards) {
  hazards.ph = read_number(map, "ph", 0, 14, "the pH as measured, such as 8.2");
  hazards.sprayed = map.truth("sprayed", false);
  const Node* tests = map.find("tested");
  if (tests == nullptr) return;
  if (tests->kind != Node::Kind::map) {
    map.error(tests->place, map.path_of("tested"), "expected a map from tests to outcomes",
              "write skin: none, or eyes: Eye Irrit. 2");
    return;
  }
  for (const Entry& entry : tests->entries) read_test(map, entry, classes, hazards);
  if (map.find("source") == nullptr) {
    map.error(tests->place, map.path_of("tested"), "who has tested it?",
              "add source: with the report or data sheet and its date");
  }
}

void read_signs(const MapReader& map, Hazards& hazards) {
  hazards.pictograms_given = map.find("pictograms") != nullptr;
  hazards.signal = map.word("signal", {"Danger", "Warning", "none"}, "");
  for (const std::string& code : map.texts("pictograms")) {
    if (code == "none") continue;
    if (std::find(hazards.pictograms.begin(), hazards.pictograms.end(), code) !=
        hazards.pictograms.end()) {
      map.error(map.find("pictograms")->place, map.path_of("pictograms"),
                quoted(code) + " is named twice", "take one of them out");
    }
    if (refer(map, *map.find("pictograms"), map.path_of("pictograms"), "pictogram", code,
              pictogram_codes())) {
      hazards.pictograms.push_back(code);
    }
  }
}

// Statements, or their absence, need somebody who says so.
void check_stated(const MapReader& map, bool none, const Hazards& hazards) {
  const Place& place =
      map.find("not classified") != nullptr ? map.find("not classified")->place : map.node().place;
  const std::string path = map.path_of("not classified");
  if (none && !hazards.statements.empty()) {
    map.error(place, path, "not classified, and yet hazard statements are given",
              "keep one of the two");
  }
  if (none && (!hazards.signal.empty() || !hazards.pictograms.empty())) {
    map.error(place, path, "not classified, and yet a signal word or pictograms are given",
              "keep one of the two");
  }
  if (!hazards.basis.empty()) return;
  map.error(none ? place : map.node().place, none ? path : map.path(), "who says so?",
            "add source: with the safety data sheet and its date");
}

}  // namespace

Hazards check_hazards(const MapReader& stock, const HazardBooks& books) {
  Hazards hazards;
  hazards.origin = stock.origin_of("hazards");
  const Node* node = stock.find("hazards");
  if (node == nullptr) return hazards;
  const MapReader map(stock.checking(), *node, stock.path_of("hazards"), keys::kHazards);
  StatementReader reader(map, books.statements);
  hazards.statements = reader.read("statements", Statement::Kind::hazard);
  hazards.precautions = reader.read("precautions", Statement::Kind::precautionary);
  read_signs(map, hazards);
  read_facts(map, books.classes, hazards);
  const bool none = map.truth("not classified", false);
  hazards.basis = map.text("source");
  if (!map.is_map()) return hazards;
  const Node* list = map.find("statements");
  const bool stated = none || list != nullptr || !hazards.precautions.empty() ||
                      hazards.pictograms_given || !hazards.signal.empty();
  const bool facts =
      map.find("ph") != nullptr || map.find("sprayed") != nullptr || map.find("tested") != nullptr;
  if (!stated && facts) return hazards;
  if (stated && facts) {
    map.error(node->place, map.path(), "statements are given, and facts for working them out",
              "keep statements: and the like as the data sheet of this strength has them, or ph:, "
              "sprayed: and tested:");
  }
  const bool empty = list == nullptr || (list->kind == Node::Kind::list && list->items.empty());
  if (!none && empty) {
    map.error(
        node->place, map.path(), "hazards without statements",
        "list statements: from the data sheet, or write not classified: true with its source:");
  } else {
    check_stated(map, none, hazards);
  }
  hazards.assessment = none ? Hazards::Assessment::not_classified : Hazards::Assessment::classified;
  check_signal_is_known(map, books.statements, hazards);
  return hazards;
}

}  // namespace dosewright
