// Doses as the whole of a mix, by weight or by what acts, over days, and after water changes.
#include <catch2/catch.hpp>
#include <cmath>

#include "dosewright/answer/supply.hpp"
#include "dosewright/dose/bath.hpp"
#include "dosewright/dose/changes.hpp"
#include "dosewright/dose/dose.hpp"
#include "dosewright/wording/content.hpp"
#include "helpers.hpp"

using namespace dosewright;

namespace {

constexpr double kGallon = 3.785411784;  // L, by definition
constexpr double kPound = 453.59237;     // g, by definition
constexpr double kAcreFoot = 1233481.8;  // L, 43,560 cubic feet

// One stock of one product, and what else the room holds.
struct Written {
  std::string product = "name: sodium chloride, cas: 7647-14-5";
  std::string stock = "recipe: {p: 100 g}, water to: 1 L";
  std::string dose;
  std::string head;
  std::string rest;
};

struct Made {
  Room room;
  RoomAnswer answers;
  [[nodiscard]] const StockAnswer& stock() const { return answers.stocks.front(); }
  [[nodiscard]] const DoseRule& rule() const { return room.stocks.front().dose; }
};

// The answers point into the room, which must not move.
std::unique_ptr<Made> made(const Written& written) {
  const std::string text =
      "room: {name: Test, emergency: Doctor 555 0100" + written.head + "}\nproducts:\n  p: {" +
      written.product + "}\nstocks:\n  s: {name: S, " + written.stock + ", dose: {" + written.dose +
      "}, container: jug}\ncontainers:\n  jug: {holds: 2 L}\n" + written.rest;
  INFO(text);
  auto read = testing::read_room(text);
  for (const Diagnostic& problem : read.problems) UNSCOPED_INFO(format(problem));
  REQUIRE(read.room);
  auto out = std::make_unique<Made>();
  out->room = *read.room;
  out->answers = answer_room(out->room, testing::hazard_sources());
  return out;
}

double rate(const Written& written) { return per_litre(made(written)->stock().all); }

Written dry(const std::string& dose) {
  Written out;
  out.stock = "powder: p";
  out.dose = dose;
  return out;
}

Written mixed(const std::string& dose) {
  Written out;
  out.dose = dose;
  return out;
}

double target(const Made& made) {
  return in_grams_per_litre(std::get<Target>(made.rule().amount).concentration);
}

// Half a unit of the last place of a printed figure.
Approx printed(double value, double half) { return Approx(value).epsilon(0).margin(half); }

const char* const kTools =
    "tools:\n  one: {kind: syringe, holds: 1 mL, marks: every 0.05 mL}\n"
    "  ten: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
    "  cup: {kind: cylinder, holds: 500 mL, marks: every 5 mL from 50 mL}\n";

const char* const kTanks =
    "vessels:\n  A1: {volume: 100 L, change: 25 %}\n  A2: {volume: 60 L, change: 50 %}\n"
    "  A3: {volume: 20 L}\n";

std::string code(const std::string& dose) { return made(mixed(dose))->stock().code.letters; }

}  // namespace

// ---- treats:

TEST_CASE("all of a mix for so much water") {
  Written twenty;
  twenty.stock = "recipe: {p: 100 g}, water to: 20 US gal";
  twenty.dose = "treats: 4000 US gal";
  // 20 gal of a concentrate used at 0.5 % v/v make 4,000 gal (mathcentral.uregina.ca, QQ.09.07).
  CHECK(rate(twenty) == Approx(5).epsilon(1e-12));
  // Common practice, no source: three bottles of 500 mL, each for 5,000 US gal.
  Written bottles;
  bottles.stock = "recipe: {p: 100 g}, water to: 1500 mL";
  bottles.dose = "treats: 3 x 5000 US gal";
  const auto answer = made(bottles);
  CHECK(per_litre(answer->stock().all) == Approx(1500 / (15000 * kGallon)).epsilon(1e-12));
  CHECK(in_english(answer->rule().basis_text) ==
        "the whole recipe as written treats 15,000 US gal, counted as 3 x 5,000 US gal");
  CHECK(dose_remarks(answer->stock(), litres(20)) == in_english(answer->rule().basis_text));
  bottles.dose = "treats: 15000 US gal";
  CHECK(in_english(made(bottles)->rule().basis_text) ==
        "the whole recipe as written treats 15,000 US gal");
  CHECK(made(bottles)->stock().code.letters == answer->stock().code.letters);
}

// Worked out from Laliberté's model: 967.8 mL of water and 100 g of sodium chloride make 1 L, 0.322
// mL for each gram.
TEST_CASE("all of a mix with water added is its finished volume") {
  Written added;
  added.product += ", displacement: 0.322 mL/g";
  added.stock = "recipe: {p: 100 g}, water added: 967.8 mL";
  added.dose = "treats: 1000 L";
  CHECK(rate(added) == Approx(1).epsilon(1e-6));
  // Without a displacement the volume lies between bounds, and the strength's error says so.
  added.product = "name: sodium chloride, cas: 7647-14-5";
  const auto open = made(added);
  CHECK(per_litre(open->stock().all) == Approx(1.0078).epsilon(1e-6));
  CHECK(as_ratio(open->stock().mixture.strength_error.worst) > 0.04);
}

// ---- reach: as a part

TEST_CASE("weight by volume is 10 g/L for each per cent") {
  // 1 % is 38 g per US gal, 10 g per L (Virginia DWR, Formulas for Determining Application Rates).
  const auto one = made(dry("reach: 1 % w/v"));
  CHECK(target(*one) == Approx(10).epsilon(1e-12));
  CHECK(target(*one) * kGallon == printed(38, 0.5));
  // Sea water: 3 %, 30 parts per thousand, 30,000 ppm (UF/IFAS VM86).
  const auto sea = made(dry("reach: 3 % w/v"));
  CHECK(target(*sea) == Approx(target(*made(dry("reach: 30000 ppm")))).epsilon(1e-12));
  CHECK(in_english(sea->rule().basis_text) == "for 3 % w/v");
  CHECK(in_english(sea->rule().target_text) == "brings 30 g per L");
}

TEST_CASE("weight by weight of a powder counts the water it goes into") {
  // Spellman, Mathematics and Statistics for the Environment, 23.33: 0.625 lb in 15 gal, printed
  // 0.5 %, 0.497 worked out; 23.34: 90 g in 6 gal, printed 0.4 %, 0.394 worked out. Water counted
  // at 8.34 lb per gal, cold: half a per cent.
  CHECK(rate(dry("reach: 0.497 % w/w")) * 15 * kGallon / kPound == Approx(0.625).epsilon(5e-3));
  CHECK(rate(dry("reach: 0.394 % w/w")) * 6 * kGallon == Approx(90).epsilon(7e-3));
  // 35 g with 965 g of water is 3.5 % (instructables.com); 36.5 with 963.5 is 3.65 %
  // (reefcentral.com). Water at 20 °C: 998.2 g per L.
  CHECK(rate(dry("reach: 3.5 % w/w")) == Approx(35 / 0.965 * 0.9982).epsilon(1e-4));
  CHECK(rate(dry("reach: 3.65 % w/w")) == Approx(36.5 / 0.9635 * 0.9982).epsilon(1e-4));
  const auto dip = made(dry("reach: 3 % w/w"));
  CHECK(dose_remarks(dip->stock(), litres(20)) ==
        "for 3 % w/w at 20 °C; brings to each L of water 30.9 g of sodium chloride");
}

// Densities at 20 °C worked out from Laliberté's model: sodium chloride 10 % 1070.8, 20 % 1148.1,
// magnesium sulfate 10 % 1103.3 kg/m3, the heptahydrate 48.83 % of it.
TEST_CASE("weight by weight of a known salt goes by the density of the treated water") {
  Dissolved salt;
  salt.anhydrous_cas = "7647-14-5";
  const auto ten = bath_by_weight(share(0.1), salt);
  CHECK(ten.strength == ten.most);
  CHECK(in_grams_per_litre(ten.strength) == printed(107.08, 0.006));
  CHECK(in_grams_per_litre(bath_by_weight(share(0.2), salt).strength) == printed(229.62, 0.02));
  Written bitter;
  bitter.product = "name: magnesium sulfate heptahydrate, cas: 10034-99-8";
  bitter.stock = "recipe: {p: 900 g}, water to: 1 L";
  bitter.dose = "reach: 20.48 % w/w";
  const auto answer = made(bitter);
  CHECK(target(*answer) == Approx(0.2048 * 1103.3).epsilon(2e-4));
  CHECK(in_english(answer->rule().basis_text) == "for 20.48 % w/w at 20 °C");
  CHECK(in_english(answer->rule().target_text) == "brings 226 g per L");
}

TEST_CASE("weight by weight of what has no density data says how far off it can be") {
  Written unknown = mixed("reach: 3 % w/w");
  unknown.product = "name: mixed sea salt";
  const auto answer = made(unknown);
  CHECK(target(*answer) == Approx(0.03 * 998.2).epsilon(1e-4));
  CHECK(in_english(answer->rule().basis_text) ==
        "for 3 % w/w by the density of fresh water at 20 °C, up to 3.1 % more");
  // The true figure of sodium chloride lies between.
  Dissolved salt;
  const BathStrength open = bath_by_weight(share(0.03), salt);
  salt.anhydrous_cas = "7647-14-5";
  const BathStrength known = bath_by_weight(share(0.03), salt);
  CHECK(known.strength > open.strength);
  CHECK(known.strength < open.most);
}

// ---- counted as: active

TEST_CASE("what acts is counted, and the dose rises by what does not") {
  // 0.25 ppm of active from a powder of 80 %, for an acre-foot: printed 0.84 lb, worked out 0.850
  // (Piper and others, Fish Hatchery Management, page 283).
  Written hatchery = dry("reach: 0.25 mg/L, counted as: active");
  hatchery.product = "name: a powder, active: 80 %";
  CHECK(rate(hatchery) * kAcreFoot / kPound == Approx(0.850).epsilon(1e-3));
  CHECK(rate(hatchery) * kAcreFoot / kPound == Approx(0.84).epsilon(0.015));
  // 0.5 mg/L of copper into 15 million gal from a product of 25 %: 250 lb (Spellman, 23.19, with
  // 8.34 lb per gal).
  Written copper = dry("reach: 0.5 mg/L, counted as: active");
  copper.product = "name: a copper product, active: 25 %";
  CHECK(rate(copper) * 15e6 * kGallon / kPound == printed(250, 0.5));
  // 4.6 mg per L with CF 0.0038 g per gal and 50 % active (Mississippi State: volume x CF x ppm x
  // 100 / per cent active): 3.5 g for 100 gal.
  Written half = dry("reach: 4.6 mg/L, counted as: active");
  half.product = "name: a powder, active: 50 %";
  CHECK(rate(half) * 100 * kGallon == Approx(100 * 0.0038 * 4.6 * 100 / 50).epsilon(5e-3));
}

TEST_CASE("what acts is said beside the dose, and changes the code") {
  Written remedy = mixed("reach: 2 mg/L, counted as: active");
  remedy.product = "name: a remedy, active: 40 %";
  const auto active = made(remedy);
  CHECK(dose_remarks(active->stock(), litres(20)) ==
        "for 2 mg per L of active, 40 % of the powder; brings 5 mg per L of a remedy");
  remedy.dose = "reach: 2 mg/L";
  const auto bought = made(remedy);
  CHECK(target(*active) == Approx(2.5 * target(*bought)));
  CHECK(active->stock().code.letters != bought->stock().code.letters);
  remedy.dose = "reach: 2 mg/L, counted as: as bought";
  CHECK(made(remedy)->stock().code.letters == bought->stock().code.letters);
  remedy.dose = "reach: 0.01 % w/v, counted as: active";
  CHECK(target(*made(remedy)) == Approx(0.1 / 0.4));
}

// ---- over:

TEST_CASE("a dose over days is shown as one day's part, its limits stand for the whole") {
  Written written = mixed("reach: 30 mg/L, over: 3 days, at most: 0.5 mL/L, tolerance: 20 %");
  written.rest = kTools;
  const auto parts = made(written);
  const auto at_once = made(mixed("reach: 30 mg/L, at most: 0.5 mL/L"));
  const StockAnswer& stock = parts->stock();
  CHECK(per_litre(stock.all) == Approx(per_litre(at_once->stock().rate)).epsilon(1e-12));
  CHECK(per_litre(stock.rate) * 3 == Approx(per_litre(stock.all)).epsilon(1e-12));
  for (const double water : {10.0, 20.0, 47.0, 100.0, 333.0}) {
    const DoseAnswer dose = answer_dose(parts->room, stock, litres(water), share(0.05));
    REQUIRE(dose.measured.measured);
    INFO(water << " L: " << dose.delivers.stored());
    CHECK(dose.exact.stored() * 3 == Approx(per_litre(stock.all) * water));
    CHECK(dose.delivers.stored() * 3 <= 0.5 * water * (1 + 1e-9));
    CHECK(in_litres(water_for(stock, dose.exact)) == Approx(water));
  }
  CHECK(days_words(parts->rule()) == "each day, 3 days");
  CHECK(all_days_words(parts->rule(), millilitres(1.4)) == "4.2 mL in all");
  CHECK(days_words(at_once->rule()).empty());
  CHECK(
      dose_remarks(stock, litres(20)) ==
      "brings 30 mg per L of sodium chloride; never more than 10 mL for that volume in all 3 days");
}

TEST_CASE("days change the code, and so does what follows a change") {
  const std::string whole = "reach: 30 mg/L, for: whole vessel";
  const std::vector<std::string> codes = {
      code(whole), code(whole + ", over: 3 days"), code(whole + ", over: 4 days"),
      code(whole + ", then: new water"), code(whole + ", then: again")};
  for (std::size_t i = 0; i < codes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) CHECK(codes[i] != codes[j]);
  }
  CHECK(code(whole + ", over: 1 week") == code(whole + ", over: 7 days"));
}

TEST_CASE("claims and supply go by all days together") {
  Written written = mixed("give: 6 mL per 10 L, over: 3 days");
  written.product += ", pack: 1 kg";
  written.stock += ", claims: {packet: 6 mL per 10 L}";
  written.rest = std::string(kTools) + "documents:\n  supply: {type: supply sheet, stock: s}\n";
  const auto answer = made(written);
  const auto claims = answer_claims(answer->room, answer->stock());
  REQUIRE(claims.size() == 2);
  CHECK(claims.back().factor == Approx(1));
  // 100 g/L at 0.6 mL/L is 60 mg in each litre.
  const auto supply = answer_supply(answer->answers, answer->room.documents.front());
  CHECK(in_grams_per_litre(supply.used) == Approx(0.06));
}

TEST_CASE("every document says that a figure is one day's part") {
  Written written = mixed("give: 6 mL per 10 L, for: whole vessel, over: 3 days");
  written.rest = std::string(kTools) + kTanks +
                 "documents:\n"
                 "  label: {type: label, stock: s, sheet: {paper: roll, label: 120 x 90 mm}}\n"
                 "  tanks: {type: tank chart, stock: s}\n"
                 "  buckets: {type: bucket chart, stocks: [s], buckets: [10 L]}\n"
                 "  card: {type: measuring card, stock: s, buckets: [10 L]}\n"
                 "  scale: {type: dose scale, stocks: [s], from: 5 L, to: 40 L}\n"
                 "  mix: {type: mixing card, stock: s}\n";
  const auto answer = made(written);
  const auto& documents = answer->room.documents;
  const std::string days = "each day, 3 days";
  const auto says = [&](const std::string& text) { return text.find(days) != std::string::npos; };
  const LabelContent label =
      label_content(answer->answers, documents[0].label, ErrorShown::measuring);
  CHECK(label.dose == "2 mL");
  CHECK(label.treats == "each day, 3 days (6 mL in all) for 10 L in the vessel");
  for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
    const ChartContent chart = chart_content(answer->answers, documents[i], ErrorShown::measuring);
    CHECK(says(chart.subtitle));
    CHECK(says(chart.small));
    for (const RowContent& row : chart.rows) CHECK(says(row.cells.front().how));
  }
  const auto card = measuring_card_content(answer->answers, documents[3], ErrorShown::measuring);
  CHECK(says(card.panels.front().cell.how));
  const auto scale = dose_scale_content(answer->answers, documents[4]);
  CHECK(says(scale.page.subtitle));
  CHECK(says(scale.page.small));
  const MixAnswer mix = answer_mixing(answer->answers, answer->stock(), litres(1), nullptr);
  bool said = false;
  for (const SheetBlock& block : mixing_content(answer->answers, mix, {}).blocks) {
    for (const std::string& words : block.paragraphs)
      said = said || words.find("each day, 3 days (60 mL in all)") != std::string::npos;
  }
  CHECK(said);
}

// ---- then:

TEST_CASE("after the first dose a change gets the part for its new water") {
  Written written = mixed("reach: 1 g/L, for: whole vessel, then: new water");
  written.rest = std::string(kTools) + kTanks +
                 "documents:\n  tanks: {type: tank chart, stock: s, changes: [25 %, 50 %]}\n";
  const auto answer = made(written);
  const auto& document = answer->room.documents.front();
  const ChartContent chart = chart_content(answer->answers, document, ErrorShown::measuring);
  REQUIRE(chart.columns.size() == 3);
  CHECK(chart.columns[0].heading == "first");
  CHECK(chart.columns[1].heading == "change 25 %");
  CHECK(chart.rows[0].cells[0].strong);
  CHECK(chart.rows[0].cells[1].strong);
  CHECK_FALSE(chart.rows[0].cells[2].strong);
  const ChartAnswer figures = answer_chart(answer->answers, document);
  // The part restores the target: C f V of the salt.
  const Mass restored = restoring_dose(grams_per_litre(1), litres(100), share(0.25));
  const double part = figures.rows[0][1].exact.stored();  // mL of 100 g/L
  CHECK(part * 0.1 - part / 1000 == Approx(in_grams(restored)).epsilon(1e-9));
  CHECK(figures.rows[0][0].exact.stored() == Approx(4 * part));
}

TEST_CASE("without then: a whole vessel has one column, and a chart takes no changes") {
  for (const char* then : {"", ", then: again"}) {
    Written written = mixed(std::string("reach: 1 g/L, for: whole vessel") + then);
    written.rest =
        std::string(kTools) + kTanks + "documents:\n  tanks: {type: tank chart, stock: s}\n";
    const auto answer = made(written);
    const ChartContent chart =
        chart_content(answer->answers, answer->room.documents.front(), ErrorShown::measuring);
    REQUIRE(chart.columns.size() == 1);
    CHECK(chart.columns.front().heading == "whole tank");
  }
}

// Worked out: the full dose after every change of a quarter runs towards four times itself, C / f.
TEST_CASE("a full dose given again is printed with where it runs to") {
  Written written = mixed("reach: 1 g/L, for: whole vessel, then: again");
  written.rest = std::string(kTools) + kTanks;
  const auto answer = made(written);
  const auto peak = peak_of(answer->stock(), share(0.25));
  REQUIRE(peak);
  CHECK(peak->times == Approx(4));
  CHECK(in_grams_per_litre(*peak->comes_to) == Approx(4));
  const std::string words = dose_remarks(answer->stock(), litres(20));
  CHECK(words ==
        "brings 1 g per L of sodium chloride; the full dose again after each change: it runs "
        "towards 4 times it, 4 g per L, at changes of 25 %");
  CHECK(dose_remarks(answer->stock(), litres(20), share(0.5)).find("towards 2 times it, 2 g") !=
        std::string::npos);
  const auto silent = made(mixed("reach: 1 g/L, for: whole vessel"));
  CHECK_FALSE(peak_of(silent->stock(), share(0.25)));
  CHECK(dose_remarks(silent->stock(), litres(20)) == "brings 1 g per L of sodium chloride");
}

TEST_CASE("a peak beyond the ceiling is a finding, one at it is not") {
  const auto finds = [](const std::string& ceiling) {
    Written written =
        mixed("give: 1 mL per 1 L, for: whole vessel, then: again, at most: " + ceiling);
    written.rest = std::string(kTools) + kTanks;
    const auto answer = made(written);
    int found = 0;
    for (const Diagnostic& problem : answer->answers.problems)
      found += problem.message.find("runs towards") != std::string::npos ? 1 : 0;
    return found;
  };
  CHECK(finds("4 mL per 1 L") == 0);
  CHECK(finds("3.9 mL per 1 L") == 1);
}

// ---- ammonia and chlorine

namespace {

std::unique_ptr<Made> dechlorinated(const std::string& removed, const std::string& what,
                                    const std::string& head) {
  Written written = mixed("remove: " + removed + ", what: " + what + ", ratio: 7");
  written.product = "name: sodium thiosulfate pentahydrate, cas: 10102-17-7";
  written.head = head;
  return made(written);
}

int says(const Made& made, const std::string& words) {
  int found = 0;
  for (const Diagnostic& problem : made.answers.problems)
    found += problem.message.find(words) != std::string::npos ? 1 : 0;
  return found;
}

double unionised(const Made& made) {
  const auto found = unionised_freed(*made.rule().removal, made.room);
  REQUIRE(found);
  return in_grams_per_litre(*found) * 1000;
}

}  // namespace

TEST_CASE("the un-ionised part of the ammonia that chloramine leaves") {
  const std::string as_cl2 = "chloramine as chlorine";
  const auto warm = dechlorinated("4 mg/L", as_cl2, ", water ph: 8, water temperature: 25 °C");
  // 4.0 mg/L frees 0.790 mg/L of nitrogen (worked out from atomic weights). Of it 5.28 % at pH 8
  // and 25 °C (Trussell 1972, a table; Emerson's formula is within 3 % of it), 0.0424 mg/L by the
  // formula.
  CHECK(unionised(*warm) == Approx(0.790 * 0.0528).epsilon(0.03));
  CHECK(unionised(*warm) == printed(0.0424, 5e-5));
  CHECK(in_english(warm->rule().basis_text)
            .find("frees 0.79 mg per L ammonia-N, of it 0.042 mg per L "
                  "un-ionised at pH 8 and 25 °C, fresh water") != std::string::npos);
  // pH 7.0 and 24 °C: .0052 (UF/IFAS FA16, Table 1).
  const auto mild = dechlorinated("4 mg/L", as_cl2, ", water ph: 7, water temperature: 24 °C");
  CHECK(unionised(*mild) == Approx(0.790 * 0.0052).epsilon(0.02));
  // Without pH and temperature, and for plain chlorine, nothing is said of it.
  for (const auto& silent :
       {dechlorinated("4 mg/L", as_cl2, ""),
        dechlorinated("4 mg/L", "chlorine", ", water ph: 8, water temperature: 25 °C")}) {
    CHECK_FALSE(unionised_freed(*silent->rule().removal, silent->room));
    CHECK(in_english(silent->rule().basis_text).find("un-ionised") == std::string::npos);
  }
}

// From 0.05 mg/L on un-ionised ammonia may harm (UF/IFAS FA16).
TEST_CASE("un-ionised ammonia that may harm is a finding") {
  const std::string as_cl2 = "chloramine as chlorine";
  const std::string water = ", water ph: 8, water temperature: 25 °C";
  CHECK(says(*dechlorinated("4 mg/L", as_cl2, water), "un-ionised") == 0);
  CHECK(says(*dechlorinated("4.8 mg/L", as_cl2, water), "un-ionised") == 1);
  CHECK(says(*dechlorinated("4.8 mg/L", as_cl2, ""), "un-ionised") == 0);
}

// 4.0 mg/L as Cl2, for chlorine and for chloramines (40 CFR 141.65).
TEST_CASE("more chlorine than tap water may hold on average is a finding") {
  CHECK(says(*dechlorinated("4 mg/L", "chlorine", ""), "40 CFR 141.65") == 0);
  CHECK(says(*dechlorinated("4.1 mg/L", "chlorine", ""), "40 CFR 141.65") == 1);
  // 70.90 / 51.473: 2.9 mg of NH2Cl count as 3.99 mg of Cl2, 2.95 as 4.06.
  CHECK(says(*dechlorinated("2.9 mg/L", "chloramine", ""), "40 CFR 141.65") == 0);
  CHECK(says(*dechlorinated("2.95 mg/L", "chloramine", ""), "40 CFR 141.65") == 1);
}
