#include "chemistry.hpp"

#include "dosewright/answer/mixing.hpp"
#include "dosewright/base/text.hpp"
#include "dosewright/dose/chemistry.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/units/print.hpp"
#include "findings.hpp"
#include "identity.hpp"

namespace dosewright {

namespace {

class Chemistry {
 public:
  Chemistry(const Room& room, const Knowledge& knowledge, Diagnostics& out)
      : room_(room), knowledge_(knowledge), out_(out) {}

  void look_at(const StockAnswer& answer) {
    look_at_solubility(answer);
    look_at_shelf_life(answer);
    look_at_claims(answer);
    look_at_ratio(answer);
    look_at_chlorine(answer);
    look_at_ammonia(answer);
    look_at_peaks(answer);
  }

 private:
  void add(Severity severity, const Origin& origin, std::string message, std::string hint) {
    out_.push_back({severity, origin.place, origin.path, std::move(message), std::move(hint)});
  }

  void tell(const Origin& origin, Phrases message, std::string hint) {
    out_.push_back(said_finding(origin, std::move(message), std::move(hint)));
  }

  // What crystallises in the bottle makes every dose wrong.
  void look_at_solubility(const StockAnswer& answer) {
    for (const SolubilityAnswer& one : answer_solubility(room_, answer, knowledge_)) {
      const std::string at = figure(in_degrees_celsius(one.at), 1) + " °C";
      if (one.result == Dissolves::unknown && answer.stock->coldest) {
        tell(answer.stock->origin,
             {{"whether {1} stays dissolved at {2} is not known here", {one.product->name, at}}},
             "keep a little of it there for a day and look for crystals, or keep it at 20 °C");
      }
      if (one.result == Dissolves::yes || one.result == Dissolves::unknown) continue;
      tell(answer.stock->origin,
           {{one.result == Dissolves::no
                 ? "so much {1} does not dissolve at {2}: a litre of water takes up {3}"
                 : "so much {1} may not dissolve at {2}: a litre of water takes up {3}",
             {one.product->name, at,
              significant_figure(in_grams_per_litre(*one.soluble), 3) + " g"}}},
           "mix it weaker, keep it warmer (coldest:), or write soluble: from its data sheet");
    }
  }

  // A date far beyond what is published is a hope.
  void look_at_shelf_life(const StockAnswer& answer) {
    if (!answer.stock->keeps || answer.stock->dry) return;
    for (const Ingredient& ingredient : answer.stock->recipe) {
      const Product& product = *find(room_.products, ingredient.product);
      const Substance* known = substance_of(product, knowledge_);
      if (known == nullptr || !known->lasts || *answer.stock->keeps <= *known->lasts * 2) continue;
      tell(answer.stock->origin,
           {{"keeps: is {1} days, and a solution of {2} is published to keep about {3} ({4})",
             {figure(in_days(*answer.stock->keeps), 0), product.name,
              figure(in_days(*known->lasts), 0), known->lasts_source}}},
           "shorten keeps:, or test the strength before use");
    }
  }

  // Statements of one strength that do not agree: somebody doses by one of them.
  void look_at_claims(const StockAnswer& answer) {
    const std::vector<ClaimAnswer> claims = answer_claims(room_, answer);
    const Share tolerance = answer.stock->dose.tolerance;
    for (std::size_t i = 1; i < claims.size(); ++i) {
      // What says the same as the dose is not to blame for what others say.
      if (!disagree(claims[i], claims.front(), tolerance)) continue;
      std::vector<std::string> against;
      for (std::size_t j = 0; j < claims.size(); ++j) {
        // Those that say what the dose says add nothing to it.
        const bool apart = disagree(claims[j], claims.front(), tolerance);
        if (j > 0 && (!apart || j > i)) continue;
        if (i == j || !disagree(claims[i], claims[j], tolerance)) continue;
        const double times = claims[i].factor / claims[j].factor;
        against.push_back((times >= 1 ? significant_figure(times, 3) + " times"
                                      : "1/" + significant_figure(1 / times, 3) + " of") +
                          " what \"" + claims[j].name + "\" in line " +
                          std::to_string(claims[j].origin.place.line) + " says");
      }
      if (against.empty()) continue;
      add(Severity::finding, claims[i].origin,
          '"' + claims[i].name + "\" puts in " + all_of(against),
          "find out which is right, and dose by that one alone");
    }
  }

  // The published ratios of one reagent lie up to eightfold apart, by what becomes of it.
  void look_at_ratio(const StockAnswer& answer) {
    const DoseRule& rule = answer.stock->dose;
    if (!rule.removal) return;
    const Product& product = *find(room_.products, std::get<Target>(rule.amount).product);
    const Reagent* reagent = find_reagent(product.cas);
    if (reagent == nullptr) return;
    const RatioStands stands = compared(rule.removal->ratio, *reagent);
    if (stands == RatioStands::within) return;
    Phrases words = {{stands == RatioStands::below
                          ? "{1} for each mg of chlorine is less than published for {2}: "
                          : "{1} for each mg of chlorine is more than published for {2}: ",
                      {significant_figure(in_grams_per_gram(rule.removal->ratio), 4) + " mg",
                       std::string(reagent->name)}}};
    for (Phrase& one : published_range(*reagent)) words.push_back(std::move(one));
    tell(rule.origin, std::move(words),
         "check ratio:, and whether cas: names the hydrate that was bought");
  }

  // EPA's maximum residual disinfectant level, 4.0 mg/L as Cl2 for chlorine and for chloramines, is
  // a running annual average (40 CFR 141.65): a single sample may well hold more.
  void look_at_chlorine(const StockAnswer& answer) {
    const auto& removal = answer.stock->dose.removal;
    if (!removal) return;
    constexpr Concentration kMostInTapWater = grams_per_litre(0.004);
    const Concentration chlorine = chlorine_in(*removal);
    if (chlorine <= kMostInTapWater * (1 + 1e-9)) return;
    tell(answer.stock->dose.origin,
         {{"remove: comes to {1} as Cl2, more than the 4 mg per L that tap water of the United "
           "States may hold in the average of a year (40 CFR 141.65)",
           {mg_per_litre(chlorine, 3)}}},
         "a single day can be higher: check it with a test of total chlorine");
  }

  // UF/IFAS FA16: un-ionised ammonia may harm from 0.05 mg/L on.
  void look_at_ammonia(const StockAnswer& answer) {
    const auto& removal = answer.stock->dose.removal;
    if (!removal) return;
    constexpr Concentration kMayHarm = grams_per_litre(0.00005);
    const auto unionised = unionised_freed(*removal, room_);
    if (!unionised || *unionised < kMayHarm * (1 - 1e-9)) return;
    tell(answer.stock->dose.origin,
         {{"the ammonia that the chloramine leaves holds {1} un-ionised, and from {2} on it may "
           "harm "
           "fish (UF/IFAS FA16)",
           {mg_per_litre(*unionised, 2), "0.05 mg per L"}}},
         "no reagent of chlorine takes ammonia away: change less water at a time, and test it for "
         "ammonia");
  }

  // The full dose again after each change, C / f in the end, held against the ceiling.
  void look_at_peaks(const StockAnswer& answer) {
    const DoseRule& rule = answer.stock->dose;
    if (rule.then != AfterChange::again || !rule.ceiling) return;
    std::optional<Peak> worst;
    std::vector<std::string> tanks;
    for (const Vessel& vessel : room_.vessels) {
      if (vessel.kind != Vessel::Kind::tank || !vessel.usual_change) continue;
      const auto peak = peak_of(answer, *vessel.usual_change);
      if (!peak || per_litre(answer.all) * peak->times <= per_litre(*rule.ceiling) * (1 + 1e-9))
        continue;
      if (!worst || peak->times > worst->times) worst = peak;
      tanks.push_back(vessel.name);
    }
    if (!worst) return;
    const std::string unit = answer.stock->dry ? " g per L" : " mL per L";
    // No document passes a ceiling.
    add(Severity::error, rule.origin,
        "given again after each change of " + percent_text(worst->change) +
            " the dose runs towards " + significant_figure(worst->times, 3) + " times itself, " +
            significant_figure(per_litre(answer.all) * worst->times, 3) + unit +
            ", above its ceiling of " + significant_figure(per_litre(*rule.ceiling), 3) + unit +
            ": in " + all_of(tanks),
        "write then: new water, so that each change gets a dose for its own water alone");
  }

  static std::string mg_per_litre(Concentration concentration, int figures) {
    return significant_figure(in_grams_per_litre(concentration) * 1000, figures) + " mg per L";
  }

  const Room& room_;
  const Knowledge& knowledge_;
  Diagnostics& out_;
};

}  // namespace

void collect_chemistry(const Room& room, const StockAnswer& stock, const Knowledge& knowledge,
                       Diagnostics& out) {
  Chemistry(room, knowledge, out).look_at(stock);
}

}  // namespace dosewright
