#include "wanted.hpp"

#include <ostream>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kColumns = 80;

void put(std::ostream& out, const std::string& words, std::size_t indent, std::size_t hang) {
  put_wrapped(out, std::string(indent, ' '), words, hang);
}

void put_table(std::ostream& out, const SheetTable& table) {
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::vector<std::string>& cells = table.rows[row];
    put(out, (table.strong[row] ? "* " : "- ") + cells.front(), 2, 4);
    for (std::size_t i = 1; i < cells.size(); ++i) {
      if (!cells[i].empty()) put(out, table.headings[i] + ": " + cells[i], 6, 8);
    }
  }
}

}  // namespace

ExitStatus refused(const Streams& streams, const LineProblem& problem) {
  streams.err << "dosewright: " << problem.message << "\n    " << problem.hint << '\n';
  return ExitStatus::bad_input;
}

std::variant<Stocks, LineProblem> wanted_stocks(const Loaded& loaded, const Options& options) {
  Stocks out;
  for (const std::string& word : options.stocks) {
    std::size_t of_name = 0;
    const Stock* stock = called(loaded.room.stocks, word, of_name);
    if (stock == nullptr) return nothing_called("stock", word, loaded.room.stocks, of_name);
    out.push_back(find_stock(loaded.answers, stock->id));
  }
  if (!out.empty()) return out;
  for (const StockAnswer& stock : loaded.answers.stocks) out.push_back(&stock);
  if (out.empty()) return LineProblem{"the description has no stock", "describe one under stocks:"};
  return out;
}

void put_wrapped(std::ostream& out, const std::string& start, const std::string& words,
                 std::size_t hang) {
  std::string line = start;
  std::size_t used = to_characters(start).size();
  bool empty = true;
  for (const std::string& word : split(words, ' ')) {
    if (word.empty()) continue;
    const std::size_t size = to_characters(word).size();
    if (!empty && used + 1 + size > kColumns) {
      out << line << '\n';
      line.assign(hang, ' ');
      used = hang;
      empty = true;
    }
    line += (empty ? "" : " ") + word;
    used += size + (empty ? 0 : 1);
    empty = false;
  }
  out << line << '\n';
}

void put_sheet(std::ostream& out, const SheetContent& sheet) {
  put(out, sheet.page.title + (sheet.page.code ? " (" + sheet.page.code->letters + ")" : ""), 0, 2);
  put(out, sheet.page.subtitle, 0, 2);
  for (const SheetBlock& block : sheet.blocks) {
    if (!block.heading.empty()) out << '\n' << block.heading << '\n';
    for (const std::string& paragraph : block.paragraphs) put(out, paragraph, 2, 4);
    put_table(out, block.table);
  }
  out << '\n';
  put(out, sheet.page.small, 0, 0);
}

}  // namespace dosewright
