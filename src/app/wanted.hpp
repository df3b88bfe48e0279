// What a command line asks for by name, and answers in lines of a terminal; private to this folder.
#pragma once

#include <cstddef>
#include <iosfwd>
#include <string>
#include <variant>
#include <vector>

#include "commands.hpp"
#include "dosewright/wording/content.hpp"

namespace dosewright {

/// What is wrong with a word of the command line, and what to write instead.
struct LineProblem {
  std::string message;
  std::string hint;
};

/// Says the problem; gives the status for bad input.
ExitStatus refused(const Streams& streams, const LineProblem& problem);

/// The item of this id, or the only one of this name; `of_name` counts those of the name.
template <class Item>
[[nodiscard]] const Item* called(const std::vector<Item>& items, const std::string& word,
                                 std::size_t& of_name) {
  of_name = 0;
  if (const Item* by_id = find(items, word)) return by_id;
  const Item* found = nullptr;
  for (const Item& item : items) {
    if (lowered(item.name) != lowered(word)) continue;
    ++of_name;
    found = &item;
  }
  return of_name == 1 ? found : nullptr;
}

template <class Item>
[[nodiscard]] LineProblem nothing_called(const std::string& what, const std::string& word,
                                         const std::vector<Item>& items, std::size_t of_name) {
  if (of_name > 1) {
    return {std::to_string(of_name) + ' ' + what + "s are called \"" + word + '"',
            "use the id from the description instead of the name"};
  }
  return {"no " + what + " is called \"" + word + '"', did_you_mean(word, items)};
}

using Stocks = std::vector<const StockAnswer*>;

/// The stocks named by --stock; all of them when none is named.
[[nodiscard]] std::variant<Stocks, LineProblem> wanted_stocks(const Loaded& loaded,
                                                              const Options& options);

/// `start` and the words behind it in lines of at most 80 columns, later ones set in by `hang`.
void put_wrapped(std::ostream& out, const std::string& start, const std::string& words,
                 std::size_t hang);

/// A page of words and tables for the terminal.
void put_sheet(std::ostream& out, const SheetContent& sheet);

}  // namespace dosewright
