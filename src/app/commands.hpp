// The commands behind the command line; private to this folder.
#pragma once

#include <iosfwd>
#include <memory>
#include <optional>
#include <string>

#include "dosewright/answer/answer.hpp"
#include "dosewright/app/app.hpp"
#include "dosewright/model/style.hpp"
#include "dosewright/render/fonts.hpp"

namespace dosewright {

struct Options {
  std::string room_file;
  std::string format = "text";
  std::string to;
  std::string only;
  std::string proof;
  int dpi = 150;
  std::string stock;
  std::string volume;
  std::string fonts;
  std::string templates;
};

struct Streams {
  std::ostream& out;
  std::ostream& err;
};

/// A description read, checked and computed, with all that printing needs.
struct Loaded {
  Room room;
  StatementBook statements;
  LabelStyle label_style;
  ChartStyle chart_style;
  std::unique_ptr<Fonts> fonts;
  RoomAnswer answers;
};

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
[[nodiscard]] ExitStatus dose_command(const Options& options, const Streams& streams);

/// The findings as JSON, then the stocks.
[[nodiscard]] std::string check_json(const Diagnostics& problems, const RoomAnswer* answers);
[[nodiscard]] std::string dose_json(const StockAnswer& stock, const DoseAnswer& dose);

/// Where the data files lie: the option, beside the installed program, or the source tree.
[[nodiscard]] std::string template_folder(const Options& options);

}  // namespace dosewright
