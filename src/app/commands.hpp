// The commands behind the command line; private to this folder.
#pragma once

#include <iosfwd>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/answer/answer.hpp"
#include "dosewright/answer/mixing.hpp"
#include "dosewright/app/app.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/render/fonts.hpp"
#include "dosewright/wording/words.hpp"

namespace dosewright {

struct Options {
  std::string room_file;
  std::string format = "text";
  std::string to;
  std::string only;
  std::string proof;
  int dpi = 150;
  bool contact_sheet = false;        ///< a picture of all pages side by side
  std::vector<std::string> stocks;   ///< none: every stock
  std::vector<std::string> volumes;  ///< or vessels
  std::string amount;
  std::string with;
  std::string change;
  std::string container;
  std::string use;
  std::string fonts;
  std::string templates;
  std::string record;                ///< the print record; beside the description if not given
  bool no_record = false;            ///< print without recording
  bool dry_run = false;              ///< reprint: say what would be printed
  bool clean = false;                ///< reprint: without marks of changes
  std::string gone;                  ///< record: what is no longer out there
  std::string mixed;                 ///< label: the day
  std::vector<std::string> weighed;  ///< label: what really went in
  std::string batch;
  bool anew = false;  ///< label: the batch was recorded otherwise
  std::string by;
};

struct Streams {
  std::ostream& out;
  std::ostream& err;
};

struct AnswersInLanguage {
  explicit AnswersInLanguage(const HazardSources& its) : sources(its) {}
  HazardSources sources;
  RoomAnswer answers;
};

/// A description read, checked and computed, with all that printing needs.
struct Loaded {
  Room room;
  StatementBook statements;  ///< in the label's language, by the room's rule book
  ClassBook classes;
  Knowledge knowledge;
  HazardSources sources{statements, classes, knowledge};
  std::map<std::string, LabelStyle> label_styles;  ///< by the name of the design
  std::map<std::string, ChartStyle> chart_styles;
  std::unique_ptr<Fonts> fonts;
  RoomAnswer answers;
  std::map<std::string, Words> words;  ///< by language; English is always there
  /// Statements in the languages of documents that are not the room's, and answers with them.
  std::map<std::string, StatementBook> other_statements;
  mutable std::map<std::pair<const Room*, std::string>, std::unique_ptr<AnswersInLanguage>>
      other_answers;
};

/// The language of the hazard statements of a document in this language.
[[nodiscard]] std::string statement_language(const Loaded& loaded, const Document& document,
                                             const std::string& language);
/// The same answers with hazard statements in another language; worked out once.
[[nodiscard]] const RoomAnswer& answers_in(const Loaded& loaded, const RoomAnswer& answers,
                                           const std::string& language);

/// The design of what names none.
inline constexpr const char* kPlainLabel = "stacked";
inline constexpr const char* kPlainWrap = "around";
inline constexpr const char* kPlainWings = "two-sided";
inline constexpr const char* kPlainChart = "plain";

/// The looks of a document. Precondition: its design was found.
[[nodiscard]] const LabelStyle& label_style_of(const Loaded& loaded, const Document& document);
[[nodiscard]] const ChartStyle& chart_style_of(const Loaded& loaded, const Document& document);

/// What loading came to: a room, or the status and the problems that stop here.
struct LoadOutcome {
  std::unique_ptr<Loaded> loaded;  ///< null when the command must stop
  ExitStatus status = ExitStatus::done;
  Diagnostics problems;  ///< of the description and the templates
  std::string trouble;   ///< a font or data file that failed, in one sentence
};

[[nodiscard]] LoadOutcome load(const Options& options);

[[nodiscard]] ExitStatus check_command(const Options& options, const Streams& streams);
[[nodiscard]] ExitStatus print_command(const Options& options, const Streams& streams);
[[nodiscard]] ExitStatus hazards_command(const Options& options, const Streams& streams);
/// The classes of the stocks with every rule that led to them.
[[nodiscard]] std::string hazards_json(const std::vector<const StockAnswer*>& stocks,
                                       const Room& room);
/// What is out there by the record, and what of it is out of date.
[[nodiscard]] ExitStatus record_command(const Options& options, const Streams& streams);
/// Prints what is out of date, and nothing else.
[[nodiscard]] ExitStatus reprint_command(const Options& options, const Streams& streams);
/// The label of a freshly mixed bottle.
[[nodiscard]] ExitStatus label_command(const Options& options, const Streams& streams);
[[nodiscard]] ExitStatus dose_command(const Options& options, const Streams& streams);

[[nodiscard]] ExitStatus mix_command(const Options& options, const Streams& streams);
/// Recipes with what becomes of them; `findings` are those of each stock.
[[nodiscard]] std::string mix_json(const std::vector<MixAnswer>& answers,
                                   const std::vector<Diagnostics>& findings);

/// The findings as JSON, then the stocks and the vessels.
[[nodiscard]] std::string check_json(const Diagnostics& problems, const RoomAnswer* answers);

/// One stock's dose for one water.
struct StockDose {
  const StockAnswer* stock = nullptr;
  const DoseAnswer* dose = nullptr;
  std::string water;
  std::optional<Share> change;  ///< of the vessel
};
/// One dose as an object, several as a list of such objects.
[[nodiscard]] std::string dose_json(const std::vector<StockDose>& doses);

/// How much water an amount of a stock treats.
struct WaterAnswer {
  Portion amount;
  Volume water;
};
[[nodiscard]] std::string water_json(const std::vector<const StockAnswer*>& stocks,
                                     const std::vector<WaterAnswer>& answers);

/// Says why loading stopped; returns its status.
ExitStatus stopped(const LoadOutcome& outcome, const Streams& streams);

/// The nearest id, or all there are.
template <class Item>
[[nodiscard]] std::string did_you_mean(const std::string& word, const std::vector<Item>& items) {
  std::vector<std::string> ids;
  for (const Item& item : items) ids.push_back(item.id);
  if (const auto near = nearest(word, ids)) return "did you mean \"" + *near + "\"?";
  return ids.empty() ? "the description has none" : "the description has " + all_of(ids);
}

/// Where the data files lie: the option, beside the installed program, or the source tree.
[[nodiscard]] std::string template_folder(const Options& options);

}  // namespace dosewright
