// Atoms and molar masses from chemical formulas.
#include <array>
#include <cctype>
#include <map>
#include <stdexcept>

#include "dosewright/dose/chemistry.hpp"

namespace dosewright {

namespace {

struct Element {
  std::string_view symbol;
  double weight;  // g/mol
};

// IUPAC, abridged standard atomic weights 2021 (from memory).
constexpr std::array<Element, 12> kElements = {{{"H", 1.008},
                                                {"C", 12.011},
                                                {"N", 14.007},
                                                {"O", 15.999},
                                                {"Na", 22.990},
                                                {"Mg", 24.305},
                                                {"P", 30.974},
                                                {"S", 32.06},
                                                {"Cl", 35.45},
                                                {"K", 39.098},
                                                {"Ca", 40.078},
                                                {"Cu", 63.546}}};

using Atoms = std::map<std::string, int, std::less<>>;

void add(Atoms& to, const Atoms& from, int times) {
  for (const auto& [element, count] : from) to[element] += count * times;
}

// Reads "Ca(NO3)2·4H2O": parts joined by a middle dot, groups in brackets, counts behind them.
class FormulaReader {
 public:
  explicit FormulaReader(std::string_view text) : text_(text) {}

  Atoms read() {
    Atoms all;
    while (true) {
      const int times = number();
      add(all, group(), times);
      if (at_ == text_.size()) return all;
      if (!text_.substr(at_).starts_with(kDot)) fail();
      at_ += kDot.size();
    }
  }

 private:
  static constexpr std::string_view kDot = "·";

  [[noreturn]] void fail() const { throw std::logic_error("not a formula: " + std::string(text_)); }
  [[nodiscard]] char here() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  [[nodiscard]] bool is(int (*kind)(int)) const {
    return kind(static_cast<unsigned char>(here())) != 0;
  }

  // A count; 1 where none is written.
  int number() {
    if (!is(std::isdigit)) return 1;
    int value = 0;
    while (is(std::isdigit)) value = value * 10 + (text_[at_++] - '0');
    return value;
  }

  // Elements and bracketed groups up to the end, a dot, or a closing bracket.
  Atoms group() {
    Atoms found;
    while (is(std::isupper) || here() == '(') {
      Atoms one;
      if (here() == '(') {
        ++at_;
        one = group();
        if (here() != ')') fail();
        ++at_;
      } else {
        std::string symbol(1, text_[at_++]);
        while (is(std::islower)) symbol += text_[at_++];
        one[symbol] = 1;
      }
      add(found, one, number());
    }
    if (found.empty()) fail();
    return found;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

double weight_of(std::string_view symbol) {
  for (const Element& element : kElements) {
    if (element.symbol == symbol) return element.weight;
  }
  throw std::logic_error("no atomic weight for " + std::string(symbol));
}

}  // namespace

MolarMass molar_mass(std::string_view formula) {
  double sum = 0;
  for (const auto& [element, count] : FormulaReader(formula).read())
    sum += weight_of(element) * count;
  return grams_per_mole(sum);
}

int atoms_in(std::string_view formula, std::string_view element) {
  const Atoms atoms = FormulaReader(formula).read();
  const auto found = atoms.find(element);
  return found == atoms.end() ? 0 : found->second;
}

}  // namespace dosewright
