// What a dose may be asked by besides an amount of stock: a concentration of the product itself,
// chlorine to be removed, or a rise of alkalinity, hardness or a nutrient. Each becomes a target
// concentration of the product as bought, and words that are printed with the dose.
#include <algorithm>

#include "dosewright/base/text.hpp"
#include "dosewright/dose/bath.hpp"
#include "dosewright/dose/chemistry.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/units/print.hpp"
#include "parts.hpp"

namespace dosewright {

namespace {

// A target's words must not hide a slip: four figures, and mg wherever grams would be a fraction.
std::string per_litre_text(Concentration concentration, int figures) {
  const double g = in_grams_per_litre(concentration);
  if (g < 1) return significant_figure(g * 1000, figures) + " mg per L";
  return significant_figure(g, figures) + " g per L";
}
std::string as_asked(Concentration concentration) { return per_litre_text(concentration, 4); }
std::string worked_out(Concentration concentration) { return per_litre_text(concentration, 3); }

// The known chemical that a product is; null for a mixture and for any other.
const Substance* known_chemical(const Product& product, const Knowledge& knowledge) {
  if (!product.contains.empty()) return nullptr;
  const std::string name = lowered(product.name);
  for (const Substance& known : knowledge.substances) {
    const bool also = std::any_of(known.also.begin(), known.also.end(),
                                  [&](const std::string& one) { return lowered(one) == name; });
    const bool named = product.cas.empty() && (lowered(known.name) == name || also);
    if (named || (!product.cas.empty() && known.cas == product.cas)) return &known;
  }
  return nullptr;
}

// What the density of its solution is asked by.
Dissolved dissolved(const Product& product, const Knowledge& knowledge) {
  Dissolved out;
  out.name = product.name;
  const Substance* known = known_chemical(product, knowledge);
  if (known == nullptr) return out;
  out.anhydrous_cas = known->anhydrous.empty() ? known->cas : known->anhydrous;
  for (const Substance& dry : knowledge.substances) {
    if (dry.cas == known->anhydrous && dry.molar_mass > 0 && known->molar_mass > 0)
      out.anhydrous = share(dry.molar_mass / known->molar_mass);
  }
  return out;
}

// Reads one dose's target. Every step reports what is amiss and then gives nothing.
class TargetReader {
 public:
  TargetReader(const MapReader& map, const std::string& key, const Stock& stock, const Room& room,
               const Knowledge& knowledge, DoseRule& dose)
      : map_(map), key_(key), stock_(stock), room_(room), knowledge_(knowledge), dose_(dose) {}

  void read() {
    dose_.target_key = key_;
    const bool by_weight = key_ == "reach" && is_written_as("w/w");
    const auto asked =
        key_ == "raise" || by_weight ? std::optional(Concentration()) : read_concentration();
    if (!asked) return;
    product_ = target_product();
    if (product_ == nullptr) return;
    check_is_weighed();
    if (by_weight) {
      read_bath();
    } else if (key_ == "reach") {
      read_reach(*asked);
    } else if (key_ == "remove") {
      read_removal(*asked);
    } else {
      read_rise();
    }
  }

 private:
  void error(std::string message, std::string hint) const {
    map_.error(map_.find(key_)->place, map_.path_of(key_), std::move(message), std::move(hint));
  }

  void set_target(Concentration concentration, Phrases basis, const std::string& brings,
                  const char* phrase = "brings {1}") {
    dose_.amount = Target{concentration, product_->id};
    dose_.basis_text = std::move(basis);
    dose_.target_text = {{phrase, {brings}}};
    dose_.target_name = product_->name;
  }

  [[nodiscard]] std::optional<Concentration> read_concentration() const {
    const MeasureSystem system = map_.checking().measures;
    return map_.value<Concentration>(
        key_, [system](std::string_view text) { return parse_concentration(text, system); });
  }

  // The only product of the stock, or the one that of: names.
  [[nodiscard]] const Product* target_product() const {
    std::vector<std::string> ids;
    for (const Ingredient& ingredient : stock_.recipe) ids.push_back(ingredient.product);
    if (const Node* of = map_.find("of")) {
      const std::string id = map_.text("of");
      if (!refer(map_, *of, map_.path_of("of"), "product of this recipe", id, ids)) return nullptr;
      return find(room_.products, id);
    }
    if (ids.size() > 1) {
      error("the stock holds several products; which of them is to " + key_ + " this?",
            "add of: " + either(ids));
      return nullptr;
    }
    return ids.empty() ? nullptr : find(room_.products, ids.front());
  }

  // A target in grams cannot be met by a liquid whose grams are not known.
  void check_is_weighed() const {
    for (const Ingredient& ingredient : stock_.recipe) {
      const bool by_volume = std::holds_alternative<Volume>(ingredient.amount);
      if (ingredient.product != product_->id || !by_volume) continue;
      if (product_->form != Product::Form::liquid) continue;
      error(
          "the recipe measures " + quoted(product_->id) + " by volume, so its grams are not known",
          "use give: with mL per L, or write the recipe in grams");
    }
  }

  // A hydrate weighs more than its salt: without a CAS number nobody knows which was bought. The
  // table's entries that go by the product's name are offered.
  template <class Entry>
  [[nodiscard]] bool is_identified(const std::vector<Entry>& table) const {
    if (!product_->cas.empty()) return true;
    std::vector<std::string> likely;
    for (const Entry& entry : table) {
      if (lowered(entry.name).starts_with(lowered(product_->name)))
        likely.push_back(std::string(entry.cas) + " (" + std::string(entry.name) + ')');
    }
    error("which form of " + quoted(product_->id) +
              " is it? A hydrate weighs more than the same salt without water",
          "add cas: to products." + product_->id + ", the number on its tub" +
              (likely.empty() ? "" : ", such as " + either(likely)));
    return false;
  }

  // ---- reach:
  // ------------------------------------------------------------------------------------

  [[nodiscard]] bool is_written_as(const std::string& of) const {
    return lowered(trimmed(map_.find(key_)->text)).ends_with(of);
  }

  // Nothing, with a message, when the dose counts what acts and the product does not say how much
  // of it does; all of it when the dose counts the product as bought.
  [[nodiscard]] std::optional<Share> counted_part() const {
    if (map_.word("counted as", {"as bought", "active"}, "as bought") != "active") return share(1);
    if (product_->active) return product_->active;
    map_.error(map_.find("counted as")->place, map_.path_of("counted as"),
               "how much of " + quoted(product_->id) + " is active is not known",
               "add active: to products." + product_->id + " from its label, such as 40 %");
    return std::nullopt;
  }

  void read_reach(Concentration asked) {
    const auto part = counted_part();
    if (!part) return;
    const bool percent = is_written_as("w/v");
    // 1 % w/v is 1 g in 100 mL.
    const std::string words = percent
                                  ? significant_figure(in_grams_per_litre(asked) / 10, 4) + " % w/v"
                                  : as_asked(asked);
    if (map_.text("counted as") != "active") {
      set_target(asked, percent ? Phrases{{"for {1}", {words}}} : Phrases(), as_asked(asked));
      return;
    }
    const bool liquid = product_->form == Product::Form::liquid;
    const Concentration needed = asked * (1 / as_ratio(*part));
    set_target(
        needed,
        {{liquid ? "for {1} of active, {2} of the liquid" : "for {1} of active, {2} of the powder",
          {words, percent_text(*part)}}},
        worked_out(needed));
  }

  // "3 % w/w": grams in 100 g of the treated water.
  void read_bath() {
    const auto read = map_.value<MassPerMass>(key_, parse_mass_per_mass);
    if (!read) return;
    if (map_.find("counted as") != nullptr) {
      error("a part by weight is of the product as bought",
            "write reach: in mg/L or % w/v, or take counted as: out");
      return;
    }
    const Share part = share(in_grams_per_gram(*read));
    constexpr double kMost = 0.4;  // nothing of the trade dissolves so well; ours
    if (as_ratio(part) > kMost) {
      error("no bath holds so much: " + quoted(map_.text(key_)), "write 3 % w/w or so");
      return;
    }
    const std::string words = significant_figure(as_ratio(part) * 100, 4) + " % w/w";
    if (stock_.dry) {
      const Concentration added = added_by_weight(part);
      set_target(added, {{"for {1} at 20 °C", {words}}},
                 significant_figure(in_grams_per_litre(added), 3) + " g",
                 "brings to each L of water {1}");
      return;
    }
    const BathStrength bath = bath_by_weight(part, dissolved(*product_, knowledge_));
    set_target(bath.strength, by_which_density(words, bath), worked_out(bath.strength));
  }

  [[nodiscard]] static Phrases by_which_density(const std::string& words,
                                                const BathStrength& bath) {
    if (bath.most == bath.strength) return {{"for {1} at 20 °C", {words}}};
    const double above = (bath.most / bath.strength - 1) * 100;
    return {{"for {1} by the density of fresh water at 20 °C, up to {2} more",
             {words, significant_figure(rounded_outward(above, 2, true), 2) + " %"}}};
  }

  // ---- remove:
  // -----------------------------------------------------------------------------------

  void read_removal(Concentration asked) {
    const auto what = read_oxidant();
    // A mixture sold as a liquid has no number of its own; its ratio is its supplier's.
    const bool identified = product_->form == Product::Form::liquid || is_identified(reagents());
    const auto ratio = read_ratio();
    if (!what || !identified || !ratio) return;
    dose_.removal = Removal{*what, asked, *ratio};
    const Concentration chlorine = chlorine_in(*dose_.removal);
    const Concentration needed = chlorine * in_grams_per_gram(*ratio);
    Phrases basis = removal_words(*dose_.removal, chlorine);
    add_unionised(basis);
    set_target(needed, std::move(basis), worked_out(needed));
  }

  [[nodiscard]] std::optional<Oxidant> read_oxidant() const {
    if (map_.find("what") == nullptr) {
      error("chlorine and chloramine are counted in different ways; which of them is it?",
            "add what: chlorine, chloramine as chlorine (counted as Cl2, as tests of total "
            "chlorine do), or chloramine (counted as NH2Cl)");
      return std::nullopt;
    }
    const std::string word =
        map_.word("what", {"chlorine", "chloramine as chlorine", "chloramine"}, "");
    if (word == "chlorine") return Oxidant::chlorine;
    if (word == "chloramine as chlorine") return Oxidant::chloramine_as_chlorine;
    if (word == "chloramine") return Oxidant::chloramine;
    return std::nullopt;
  }

  [[nodiscard]] std::optional<MassPerMass> read_ratio() const {
    const std::string wanted = "mg of the product as bought for each mg of chlorine, such as 7";
    if (map_.find("ratio") == nullptr) {
      error("how many mg of " + product_->name + " does each mg of chlorine (as Cl2) take?",
            ratio_remedy());
      return std::nullopt;
    }
    // Our own bounds: no published ratio lies outside, save for very weak products.
    const auto ratio = read_number(map_, "ratio", 0.1, 1000, wanted);
    if (!ratio) return std::nullopt;
    return grams_per_gram(*ratio);
  }

  // The ratio is the user's to choose: no figure is offered as the right one.
  [[nodiscard]] std::string ratio_remedy() const {
    const Reagent* reagent = find_reagent(product_->cas);
    if (reagent == nullptr) return "add ratio: with the figure of its supplier";
    return "add ratio: with the figure you go by; published for " + std::string(reagent->name) +
           ": " + in_english(published_range(*reagent));
  }

  [[nodiscard]] static Phrases removal_words(const Removal& removal, Concentration chlorine) {
    const std::string at = significant_figure(in_grams_per_gram(removal.ratio), 4) + " mg";
    const std::string asked = as_asked(removal.removed);
    if (removal.what == Oxidant::chlorine) return {{"for {1} chlorine at {2} per mg", {asked, at}}};
    const bool as_chlorine = removal.what == Oxidant::chloramine_as_chlorine;
    return {{as_chlorine
                 ? "for {1} chloramine (as Cl2) at {2} per mg of Cl2, which frees {3} ammonia-N"
                 : "for {1} chloramine (as NH2Cl) at {2} per mg of Cl2, which frees {3} ammonia-N",
             {asked, at, worked_out(ammonia_nitrogen_freed(chlorine))}}};
  }

  void add_unionised(Phrases& basis) const {
    const auto unionised = unionised_freed(*dose_.removal, room_);
    if (!unionised) return;
    basis.push_back({", of it {1} un-ionised at pH {2} and {3}, fresh water",
                     {per_litre_text(*unionised, 2), figure(*room_.water_ph, 2),
                      figure(in_degrees_celsius(*room_.water_temperature), 1) + " °C"}});
  }

  // ---- raise:
  // ------------------------------------------------------------------------------------

  void read_rise() {
    const std::string text = map_.text(key_);
    if (text.empty() || !is_identified(salts())) return;
    const Salt* salt = find_salt(product_->cas);
    if (salt == nullptr) {
      error("what " + product_->name + " (CAS " + product_->cas + ") brings to water is not known",
            "check cas: of products." + product_->id +
                ", or use reach: with mg/L of the product itself");
      return;
    }
    read_rise_of(*salt, text);
  }

  void read_rise_of(const Salt& salt, const std::string& text) {
    for (const char* unit : {"dKH", "dGH", "meq/L"}) {
      if (lowered(text).ends_with(lowered(unit))) {
        read_charge(salt, text, unit);
        return;
      }
    }
    const std::size_t space = text.rfind(' ');
    const std::string last = space == std::string::npos ? "" : lowered(text.substr(space + 1));
    std::string rest = trimmed(text.substr(0, space));
    if (rest.ends_with(" as")) rest = trimmed(rest.substr(0, rest.size() - 3));
    if (last == "caco3") {
      const auto carbonate = read_counted(rest);
      if (carbonate)
        raise_either(salt, of_calcium_carbonate(*carbonate), as_asked(*carbonate) + " as CaCO3");
      return;
    }
    for (const std::string& nutrient : nutrients()) {
      if (lowered(nutrient) != last) continue;
      const auto asked = read_counted(rest);
      if (asked) raise_nutrient(salt, *asked, nutrient);
      return;
    }
    error(quoted(text) + " does not say what is raised, or counted as what",
          "write 1 dKH, 1 dGH, 0.5 meq/L, 20 mg/L CaCO3, or mg/L of " + either(nutrients()));
  }

  // mg/L in front of what it is counted as.
  [[nodiscard]] std::optional<Concentration> read_counted(const std::string& text) const {
    Node part = *map_.find(key_);
    part.text = text;
    const MeasureSystem system = map_.checking().measures;
    return map_.parsed<Concentration>(part, map_.path_of(key_), [system](std::string_view t) {
      return parse_concentration(t, system);
    });
  }

  void read_charge(const Salt& salt, const std::string& text, const std::string& unit) {
    // Read as a number of g/L, for numbers are read in one place only.
    const auto read = parse_concentration(text.substr(0, text.size() - unit.size()) + " g/L",
                                          MeasureSystem::undeclared);
    const auto* found = std::get_if<Concentration>(&read);
    if (found == nullptr) {
      error("not an amount: " + quoted(text), "write a number and the unit, such as 1 " + unit);
      return;
    }
    const double number = in_grams_per_litre(*found);
    const bool meq = unit == "meq/L";
    const Equivalents rise = meq ? milliequivalents_per_litre(number) : degrees_of_hardness(number);
    const std::string words = significant_figure(number, 4) + ' ' + (meq ? "meq per L" : unit);
    if (meq) {
      raise_either(salt, rise, words);
    } else if (unit == "dKH") {
      raise(salt, salt_for_alkalinity(salt, rise), "alkalinity", words);
    } else {
      raise(salt, salt_for_hardness(salt, rise), "hardness", words);
    }
  }

  // No salt of the table raises both.
  void raise_either(const Salt& salt, Equivalents rise, const std::string& words) {
    const auto alkaline = salt_for_alkalinity(salt, rise);
    const auto hard = salt_for_hardness(salt, rise);
    if (!alkaline && !hard) {
      refuse(salt, "alkalinity or hardness");
    } else {
      raise(salt, alkaline ? alkaline : hard, alkaline ? "alkalinity" : "hardness", words);
    }
  }

  void raise(const Salt& salt, const std::optional<Concentration>& needed, const std::string& what,
             const std::string& words) {
    if (!needed) {
      refuse(salt, what);
      return;
    }
    const bool alkaline = what == "alkalinity";
    set_target(*needed,
               {{alkaline ? "raises alkalinity by {1}" : "raises hardness by {1}", {words}}},
               worked_out(*needed));
  }

  void raise_nutrient(const Salt& salt, Concentration asked, const std::string& nutrient) {
    const auto part = part_of(salt, nutrient);
    if (!part) {
      refuse(salt, nutrient);
      return;
    }
    const Concentration needed = asked * (1 / as_ratio(*part));
    set_target(needed, {{"adds {1}", {as_asked(asked) + ' ' + nutrient}}}, worked_out(needed));
  }

  void refuse(const Salt& salt, const std::string& what) const {
    const Equivalents some = milliequivalents_per_litre(1);
    std::vector<std::string> brings;
    if (salt_for_alkalinity(salt, some)) brings.emplace_back("alkalinity");
    if (salt_for_hardness(salt, some)) brings.emplace_back("hardness");
    for (const std::string& nutrient : nutrients()) {
      if (part_of(salt, nutrient)) brings.push_back(nutrient);
    }
    error(std::string(salt.name) + " does not raise " + what,
          "it raises " + all_of(brings) + "; check the unit, and cas: of products." + product_->id);
  }

  const MapReader& map_;
  const std::string& key_;
  const Stock& stock_;
  const Room& room_;
  const Knowledge& knowledge_;
  DoseRule& dose_;
  const Product* product_ = nullptr;
};

}  // namespace

void read_dose_target(const MapReader& map, const std::string& key, const Stock& stock,
                      const Room& room, const Knowledge& knowledge, DoseRule& dose) {
  TargetReader(map, key, stock, room, knowledge, dose).read();
}

void refuse_stray_keys(const MapReader& dose) {
  if (dose.find("counted as") != nullptr && dose.find("reach") == nullptr) {
    dose.error(dose.find("counted as")->place, dose.path_of("counted as"),
               "counted as: goes with reach:, which is not given",
               "take it out, or write reach: with mg of active per litre");
  }
  if (dose.find("remove") != nullptr) return;
  for (const char* key : {"what", "ratio"}) {
    if (dose.find(key) == nullptr) continue;
    dose.error(dose.find(key)->place, dose.path_of(key),
               std::string(key) + ": goes with remove:, which is not given",
               "take it out, or write remove: 2 mg/L instead of the other way of giving the dose");
  }
}

}  // namespace dosewright
