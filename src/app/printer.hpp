// One document, from words to bytes; private to this folder.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "commands.hpp"
#include "dosewright/layout/display_list.hpp"
#include "dosewright/layout/documents.hpp"
#include "dosewright/write/files.hpp"

namespace dosewright {

/// SOURCE_DATE_EPOCH, when it is set to seconds since 1970.
[[nodiscard]] std::optional<long long> source_date();

class Printer {
 public:
  Printer(const Loaded& loaded, const Options& options) : loaded_(loaded), options_(options) {}

  /// Lays out everything before anything is drawn; false when a document does not fit.
  bool lay_out(const std::vector<const Document*>& documents, Diagnostics& problems);

  /// Bytes of all files, or what failed.
  [[nodiscard]] std::variant<std::vector<OutputFile>, std::string> render() const;

  /// What was laid out.
  [[nodiscard]] const std::vector<std::pair<const Document*, Pages>>& made() const { return made_; }

 private:
  [[nodiscard]] std::variant<Pages, LayoutProblem> safely_laid_out(const Document& document) const;
  [[nodiscard]] std::variant<Pages, LayoutProblem> laid_out(const Document& document) const;
  [[nodiscard]] SheetContent mixing_card_content(const ChartRequest& chart) const;
  void add_proofs(const std::string& name, std::vector<std::string> proofs,
                  std::vector<OutputFile>& files) const;

  const Loaded& loaded_;
  const Options& options_;
  std::vector<std::pair<const Document*, Pages>> made_;
};

/// The documents of the description, or the one that --only names.
[[nodiscard]] std::vector<const Document*> wanted_documents(const Room& room,
                                                            const std::string& only);

/// Lays out, draws, writes and records these documents; `found` is what `load` found.
[[nodiscard]] ExitStatus print_documents(const Loaded& loaded,
                                         const std::vector<const Document*>& documents,
                                         const Diagnostics& found, const Options& options,
                                         const Streams& streams);

/// Says each problem.
void show(const Diagnostics& problems, std::ostream& err);

}  // namespace dosewright
