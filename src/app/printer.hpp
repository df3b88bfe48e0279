// Documents, from words to bytes; private to this folder.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "commands.hpp"
#include "dosewright/layout/display_list.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/record/record.hpp"
#include "dosewright/render/render.hpp"
#include "dosewright/write/files.hpp"

namespace dosewright {

/// SOURCE_DATE_EPOCH, when it is set to seconds since 1970.
[[nodiscard]] std::optional<long long> source_date();

/// A document and whose figures it shows: the room's, or those of one bottle of another strength.
struct Printable {
  const RoomAnswer* answers = nullptr;
  const Document* document = nullptr;
  std::string file;                     ///< its name, without an ending
  std::optional<BottleEntry> bottle;    ///< of a label, and of a chart for one bottle alone
  const RecordEntry* before = nullptr;  ///< the print that it replaces, to mark its changes
};

/// What it became.
struct Made {
  Printable what;
  Pages pages;
  RecordEntry entry;  ///< for the print record, its time left empty; without marks of changes
};

class Printer {
 public:
  Printer(const Loaded& loaded, const Options& options) : loaded_(loaded), options_(options) {}

  /// Lays out everything before anything is drawn; false when a document does not fit.
  bool lay_out(const std::vector<Printable>& documents, Diagnostics& problems);
  /// Adds a page of words that is no document of the description and is not recorded.
  bool lay_out_notice(const SheetContent& sheet, const PaperSize& paper, const std::string& file,
                      Diagnostics& problems);

  /// Bytes of all files, or what failed.
  [[nodiscard]] std::variant<std::vector<OutputFile>, std::string> render() const;

  /// What was laid out, the notice left out.
  [[nodiscard]] const std::vector<Made>& made() const { return made_; }

 private:
  using Proofs = std::variant<std::vector<std::string>, RenderProblem>;
  [[nodiscard]] Proofs proofs_of(const Pages& pages) const;
  void add_proofs(const std::string& name, std::vector<std::string> proofs,
                  std::vector<OutputFile>& files) const;
  [[nodiscard]] std::optional<std::string> add_contact_sheet(std::vector<OutputFile>& files) const;
  [[nodiscard]] std::optional<std::string> render(const std::string& name, const Pages& pages,
                                                  const std::string& language,
                                                  std::vector<OutputFile>& files) const;

  const Loaded& loaded_;
  const Options& options_;
  /// What goes into one file: a document, or all labels of a sheet that they share.
  struct File {
    std::string name;
    Pages pages;
    std::string language;
  };
  [[nodiscard]] std::vector<File> files() const;

  std::vector<Made> made_;
  std::vector<std::pair<std::string, Pages>> notices_;
};

/// A document of the description, by the room's figures.
[[nodiscard]] Printable as_described(const Loaded& loaded, const Document& document);

/// The documents of the description, or the one that --only names.
[[nodiscard]] std::vector<Printable> wanted_documents(const Loaded& loaded,
                                                      const std::string& only);

/// Draws, writes and records what was laid out, and records `also`; `problems` are shown first.
[[nodiscard]] ExitStatus write_printed(const Printer& printer, Diagnostics problems,
                                       const std::vector<RecordEntry>& also, const Options& options,
                                       const Streams& streams);

/// Says each problem.
void show(const Diagnostics& problems, std::ostream& err);

}  // namespace dosewright
