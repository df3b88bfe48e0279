#include "wanted.hpp"

#include <ostream>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr std::size_t kColumns = 80;

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

}  // namespace dosewright
