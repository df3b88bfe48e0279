// The words that explain a label, and the list of what may not stand together.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/hazard/rule_book.hpp"
#include "dosewright/units/print.hpp"
#include "shared.hpp"

namespace dosewright {

namespace {

std::string percent_range(const HazardPart& part, const Words& w) {
  const std::string most = w.number(significant_figure(as_ratio(part.most) * 100, 3));
  const std::string least = w.number(significant_figure(as_ratio(part.least) * 100, 3));
  return (least == most ? most : w.say("{1} to {2}", {least, most})) + " %";
}

// The law's own words for where a rule stands, in the page's language: "CLP Annex I, Table 3.2.3".
std::string law_words(const std::string& source, const Words& w) {
  std::string said = source_words(source, w);
  if (said != source) return said;
  std::string out;
  for (const std::string& piece : split(source, ',')) {
    std::string part = trimmed(piece);
    for (const char* kind : {"Annex", "Table", "Article", "chapter", "Appendix"}) {
      const std::string word = std::string(kind) + ' ';
      const std::size_t at = part.find(word);
      if (at == std::string::npos) continue;
      part = part.substr(0, at) + w.say(word + "{1}", {w.say(part.substr(at + word.size()))});
      break;
    }
    out += (out.empty() ? "" : ", ") + w.say(part);
  }
  return out;
}

std::string state_words(const HazardPart& part, const Words& w) {
  const Classification& known = part.stated != nullptr ? *part.stated : *part.known;
  switch (known.state) {
    case Classification::State::unknown:
      return w.say("unknown: nobody has said");
    case Classification::State::not_classified:
      return known.source.empty() ? w.say("none")
                                  : w.say("not classified ({1})", {law_words(known.source, w)});
    case Classification::State::classified:
      break;
  }
  std::vector<std::string> classes;
  for (const HazardClass& one : known.classes) {
    const bool supplement = one.endpoint == Endpoint::supplement;
    classes.push_back(supplement ? one.name : one.name + ' ' + one.statement);
  }
  std::string out;
  for (const std::string& one : classes) out += (out.empty() ? "" : "; ") + one;
  return out + " (" + law_words(known.source, w) + ")";
}

// "sodium chloride", "the rest of buffer blend".
std::string part_name(const HazardPart& part, const Words& w) { return w.chemical(part.name); }

constexpr const char* kWater = "7732-18-5";  // its CAS number

SheetBlock ingredients(const HazardAnswer& answer, const Words& w) {
  SheetBlock block;
  block.heading = w.say("What is in it, by weight");
  if (!answer.density.empty()) block.paragraphs.push_back(capitalised(w.say(answer.density)) + '.');
  block.table.headings = {w.say("ingredient"), w.say("share"),
                          w.say("classes (where they were read)")};
  block.table.widths = {0.27, 0.17, 0.56};
  // Water that came with an ingredient is no other than the water that it is made up with.
  const bool rest_is_water = answer.mixture.solution && answer.not_counted.empty();
  for (const HazardPart& part : answer.mixture.parts) {
    if (rest_is_water && part.id == kWater) continue;
    const std::string name = part_name(part, w);
    const bool built_in = among(answer.by_default, part.name);
    block.table.rows.push_back({built_in ? w.say("{1} (built-in figures)", {name}) : name,
                                percent_range(part, w), state_words(part, w)});
    block.table.strong.push_back(false);
  }
  for (const std::string& name : answer.unknown_weight)
    block.paragraphs.push_back(w.say("The share by weight of {1} is not known.", {name}));
  double all = 0;
  for (const HazardPart& part : answer.mixture.parts)
    all += part.id == kWater ? 0 : as_ratio(part.most);
  if (rest_is_water && all < 1 - 1e-9) block.paragraphs.push_back(w.say("The rest is water."));
  return block;
}

// A test that shows nothing gives no class; a sum below its limit does not give the class it could.
std::string gives_words(const RuleStep& step, const Words& w) {
  return step.met || step.tested ? w.say(step.gives) : w.say("not {1}", {step.gives});
}

bool was_tried(const HazardAnswer& answer, Endpoint endpoint) {
  return std::any_of(answer.found.steps.begin(), answer.found.steps.end(),
                     [&](const RuleStep& step) { return step.endpoint == endpoint; });
}

// Whether an ingredient has the class, in whatever share.
bool is_present(const HazardAnswer& answer, Endpoint endpoint) {
  const auto lists = [&](const HazardPart& part) {
    const auto& classes = part.known->classes;
    return std::any_of(classes.begin(), classes.end(),
                       [&](const HazardClass& one) { return one.endpoint == endpoint; });
  };
  const auto holds = [&](const HazardMixture& mixture) {
    return std::any_of(mixture.parts.begin(), mixture.parts.end(), lists);
  };
  return holds(answer.mixture) ||
         std::any_of(answer.by_contents.begin(), answer.by_contents.end(), holds);
}

SheetBlock rules(const HazardAnswer& answer, const Words& w) {
  SheetBlock block;
  block.heading = w.say("Every rule that was tried");
  block.table.headings = {w.say("rule"), w.say("figures"), w.say("result"), w.say("limit"),
                          w.say("gives")};
  block.table.widths = {0.26, 0.25, 0.13, 0.14, 0.22};
  for (const RuleStep& step : answer.found.steps) {
    block.table.rows.push_back({w.say(step.rule) + " (" + law_words(step.source, w) + ")",
                                w.say(step.figures), step_sum(step, w), step_limit(step, w),
                                gives_words(step, w)});
    block.table.strong.push_back(step.met);
  }
  if (block.table.rows.empty())
    block.paragraphs.push_back(w.say("No rule had anything to add up."));
  std::vector<std::string> without;
  std::vector<std::string> too_little;
  for (const Endpoint endpoint : answer.found.without) {
    if (was_tried(answer, endpoint)) continue;
    (is_present(answer, endpoint) ? too_little : without)
        .push_back(w.say(endpoint_words(endpoint)));
  }
  if (!too_little.empty())
    block.paragraphs.push_back(
        w.say("In too small a share to count for: {1} (CLP Annex I, Table 1.1, or own limits).",
              {w.all_of(too_little)}));
  if (!without.empty())
    block.paragraphs.push_back(
        w.say("No known ingredient is classified for: {1}.", {w.all_of(without)}));
  return block;
}

SheetBlock label_lines(const HazardAnswer& answer, const Words& w) {
  SheetBlock block;
  const HazardBlock& said = answer.block;
  block.heading = w.say("What the label says");
  if (said.assessment != Hazards::Assessment::computed) {
    block.paragraphs.push_back(
        w.say("The label follows the description, which goes before the calculation: {1}.",
              {source_words(said.basis, w)}));
  }
  if (is_not_assessed(answer)) {
    block.paragraphs = not_assessed_lines(answer, w);
    block.paragraphs.insert(block.paragraphs.begin(), w.say("Hazards not assessed") + '.');
    block.paragraphs.push_back(not_assessed_precautions(answer, w));
    return block;
  }
  const bool silent = said.hazards.empty() && said.supplements.empty();
  const std::string signal = said.signal.empty() ? w.say("No signal word") : said.signal_word;
  block.paragraphs.push_back(
      signal + w.say("; ") +
      (said.pictograms.empty() ? w.say("no pictogram") : w.all_of(said.pictograms)) + '.');
  if (silent) block.paragraphs.push_back(w.say("No hazard statement."));
  for (const std::string& line : unknown_lines(answer, w)) block.paragraphs.push_back(line);
  const auto& classes = answer.found.classes;
  const auto has = [&](const char* code) {
    return std::any_of(classes.begin(), classes.end(),
                       [&](const HazardClass& c) { return c.statement == code; });
  };
  const bool joined = std::any_of(said.hazards.begin(), said.hazards.end(),
                                  [](const PrintedStatement& one) { return one.code == "H410"; });
  if (has("H400") && has("H411") && joined)
    block.paragraphs.push_back(w.say("H400 and H411 together are said as H410."));
  for (const auto* list : {&said.hazards, &said.supplements, &said.precautions}) {
    for (const PrintedStatement& one : *list)
      block.paragraphs.push_back(one.code + "  " + one.text);
  }
  if (said.precautions.empty() && may_be_corrosive(answer))
    block.paragraphs.push_back(
        w.say("Wear gloves and eye protection (because the pH is not known)."));
  return block;
}

SheetBlock open_points(const HazardAnswer& answer, RuleBookName book, const Words& w) {
  SheetBlock block;
  block.heading = w.say("Not evaluated, and assumed");
  const MixtureClasses& found = answer.found;
  const auto sentences = [&](const Phrases& phrases) {
    for (const Phrase& one : phrases) block.paragraphs.push_back(capitalised(w.say({one})) + '.');
  };
  for (const std::string& name : found.unclassified)
    block.paragraphs.push_back(
        w.say({{"Not evaluated: {1}, of which no classification is known.", {name}}}));
  for (const Phrases& one : found.not_evaluated)
    block.paragraphs.push_back(w.say("Not evaluated: {1}.", {w.say(one)}));
  sentences(found.notes);
  if (worded_by_un(book) && answer.block.more_precautions)
    sentences(
        {{"all precautions called for are more than these: as in Europe, about six are chosen "
          "(CLP Article 28); a shipped container needs them all",
          {}}});
  if (!answer.at_upper_end.empty()) {
    block.paragraphs.push_back(
        w.say("Where the strength's error of {1} is on the strong side, it would also be {2}.",
              {percent_up(answer.strength_error), w.all_of(answer.at_upper_end)}));
  }
  sentences(answer.outdated);
  if (!answer.by_default.empty()) {
    block.paragraphs.push_back(
        w.say("Built-in figures were used for {1}: check them against the supplier's safety data "
              "sheet.",
              {w.all_of(answer.by_default)}));
  }
  return block;
}

// What stands on a shelf: a stock in its bottle, or a product in its own tub.
struct Stored {
  std::string name;
  std::string product;  // id, of a tub
  const Stock* stock = nullptr;
  std::vector<std::string> families;
  std::vector<std::string> unclassified;
};

std::vector<Stored> all_stored(const RoomAnswer& answers, const Words& w) {
  std::vector<Stored> out;
  for (const StockAnswer& one : answers.stocks) {
    out.push_back({one.stock->name, "", one.stock, one.families, one.hazards.found.unclassified});
  }
  const Room& room = *answers.room;
  for (const Document& document : room.documents) {
    const std::string& id = document.label.product;
    const bool again = std::any_of(out.begin(), out.end(),
                                   [&](const Stored& s) { return !id.empty() && s.product == id; });
    if (id.empty() || again) continue;
    const Product& product = *find(room.products, id);
    out.push_back({w.say("{1}, as bought", {capitalised(w.chemical(product.name))}), id, nullptr,
                   families_of(product, room, answers.sources->knowledge),
                   answer_tub_hazards(room, product, *answers.sources).found.unclassified});
  }
  return out;
}

// A stock made of this very product is no stranger to it.
bool made_of(const Stored& stored, const Stored& tub) {
  if (stored.stock == nullptr || tub.product.empty()) return false;
  return std::any_of(stored.stock->recipe.begin(), stored.stock->recipe.end(),
                     [&](const Ingredient& i) { return i.product == tub.product; });
}

}  // namespace

std::string step_sum(const RuleStep& step, const Words& w) {
  if (step.tested) return "";
  if (step.unit == "pH") return w.say("pH {1}", {w.number(figure(step.sum, 2))});
  return w.number(significant_figure(step.sum, 3)) + (step.unit.empty() ? "" : ' ' + step.unit);
}

std::string step_limit(const RuleStep& step, const Words& w) {
  if (step.tested) return "";
  const std::string unit = step.unit.empty() || step.unit == "pH" ? "" : ' ' + step.unit;
  // CLP Annex I, 3.2.3.1.2: an extreme pH is one of two.
  if (step.unit == "pH") return w.say("at most {1} or from {2}", {"2", w.number("11.5")});
  const std::string limit = w.number(significant_figure(step.limit, 4)) + unit;
  return step.at_most ? w.say("at most {1}", {limit}) : w.say("from {1}", {limit});
}

SheetContent hazard_sheet_content(const RoomAnswer& answers, const StockAnswer& stock,
                                  const ChartRequest& chart, const Words& w) {
  SheetContent out;
  const Room& room = *answers.room;
  out.page.title = w.say("Why this label: {1}", {stock.stock->name});
  out.page.subtitle = contents_text(room, stock.mixture, w);
  set_code(stock, out.page, w);
  SheetBlock basis;
  const std::string book = w.say(rule_book_title(room.hazard_rules.book));
  basis.paragraphs.push_back(
      room.hazard_rules.conservative
          ? w.say("Rule book: {1}. Skin and eyes: additivity not applied (conservative).", {book})
          : w.say("Rule book: {1}. Skin and eyes: additivity applied (the usual case).", {book}));
  out.blocks.push_back(basis);
  out.blocks.push_back(label_lines(stock.hazards, w));
  out.blocks.push_back(ingredients(stock.hazards, w));
  out.blocks.push_back(rules(stock.hazards, w));
  const SheetBlock open = open_points(stock.hazards, room.hazard_rules.book, w);
  if (!open.paragraphs.empty()) out.blocks.push_back(open);
  out.page.match = w.say("Keep it with the suppliers' safety data sheets.");
  out.page.words = frame_words(w);
  out.page.small = no_replacement(w);
  out.page.foot = foot_words(room, chart, w);
  return out;
}

namespace {

// The source's place in the list, from 1 on; it is put there where it is new.
std::size_t number_of(const std::string& source, std::vector<std::string>& sources) {
  const auto at = std::find(sources.begin(), sources.end(), source);
  if (at != sources.end()) return static_cast<std::size_t>(at - sources.begin()) + 1;
  sources.push_back(source);
  return sources.size();
}

// Pairs of what may not stand together, each with the number of its source; `paired` is told which
// are in one.
SheetTable pairs_of(const RoomAnswer& answers, const std::vector<Stored>& stored, const Words& w,
                    std::vector<bool>& paired, std::vector<std::string>& sources) {
  SheetTable table;
  table.headings = {w.say("keep this"), w.say("away from"), w.say("because"), ""};
  table.widths = {0.24, 0.24, 0.46, 0.06};
  for (std::size_t i = 0; i < stored.size(); ++i) {
    for (std::size_t j = i + 1; j < stored.size(); ++j) {
      if (made_of(stored[i], stored[j])) continue;
      const Incompatibility* why =
          clash_between(stored[i].families, stored[j].families, answers.sources->knowledge);
      if (why == nullptr) continue;
      paired[i] = paired[j] = true;
      table.rows.push_back({stored[i].name, stored[j].name,
                            w.say(why->because) + w.say("; ") +
                                (why->apart ? w.say("store apart") : w.say("never mix")),
                            std::to_string(number_of(why->source, sources))});
      table.strong.push_back(false);
    }
  }
  return table;
}

}  // namespace

SheetContent storage_list_content(const RoomAnswer& answers, const ChartRequest& chart,
                                  const Words& w) {
  SheetContent out;
  out.page.title = w.say("What may not stand together");
  out.page.subtitle = answers.room->name;
  const std::vector<Stored> stored = all_stored(answers, w);
  std::vector<bool> paired(stored.size(), false);
  SheetBlock pairs;
  std::vector<std::string> sources;
  pairs.table = pairs_of(answers, stored, w, paired, sources);
  if (pairs.table.rows.empty())
    pairs.paragraphs.push_back(w.say("No two things of this room are known to be incompatible."));
  out.blocks.push_back(pairs);
  SheetBlock rest;
  std::vector<std::string> unpaired;
  for (std::size_t i = 0; i < stored.size(); ++i) {
    if (!stored[i].unclassified.empty()) {
      rest.paragraphs.push_back(
          w.say({{"{1}: nobody has said what {2} can do. Keep it apart from everything else.",
                  {stored[i].name, list_of(stored[i].unclassified)}}}));
    } else if (!paired[i]) {
      unpaired.push_back(stored[i].name);
    }
  }
  if (!unpaired.empty()) {
    rest.paragraphs.push_back(
        w.say("For {1} no published pair is known here. That is no permission to mix: ask the "
              "supplier.",
              {w.all_of(unpaired)}));
  }
  rest.paragraphs.push_back(
      w.say("Only published pairs are listed. Keep everything in its own labelled bottle, upright, "
            "locked, away from food."));
  out.blocks.push_back(rest);
  if (!sources.empty()) {
    SheetBlock published;
    published.table.headings = {"", w.say("published in")};
    published.table.widths = {0.06, 0.94};
    for (std::size_t i = 0; i < sources.size(); ++i) {
      published.table.rows.push_back({std::to_string(i + 1), sources[i]});
      published.table.strong.push_back(false);
    }
    out.blocks.push_back(published);
  }
  out.page.match = w.say("Before anything that is not listed stands here, ask its supplier.");
  out.page.words = frame_words(w);
  out.page.small = no_replacement(w);
  out.page.foot = foot_words(*answers.room, chart, w);
  return out;
}

}  // namespace dosewright
