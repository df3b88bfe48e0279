// Classification of mixtures against published worked examples, the law's limits, and properties.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "hazard_mix.hpp"

using namespace dosewright;
using testing::Mix;

namespace {

std::string health_of(const Mix& mix) {
  std::string out;
  for (const HazardClass& one : mix.classes().classes) {
    const Endpoint e = one.endpoint;
    if (e == Endpoint::skin || e == Endpoint::eye || e == Endpoint::airway_irritation)
      out += (out.empty() ? "" : " ") + one.name;
  }
  return out;
}

// The most severe category of an endpoint: 1 is worst, 9 none.
int worst(const MixtureClasses& found, Endpoint endpoint) {
  int out = 9;
  for (const HazardClass& one : found.classes) {
    const std::string category = category_of(one.name);
    if (one.endpoint != endpoint) continue;
    out = std::min(out, category.empty() ? 1 : category.front() - '0');
  }
  return out;
}

constexpr const char* kCopper = "7758-99-8";
constexpr const char* kFormaldehyde = "50-00-0";
constexpr const char* kPeroxide = "7722-84-1";
constexpr const char* kHypochlorite = "7681-52-9";

}  // namespace

// UN GHS examples, ST/SG/AC.10/C.4/2008/23, file 3-1a: a range wider than one category counts with
// its lower value.
TEST_CASE("acute toxicity: the UN example with a range of estimates") {
  Mix mix;
  mix.add(16, {"Acute Tox. 4 H302"}).ate(Route::oral, 1600);
  mix.add(4, {"Acute Tox. 3 H301"}).ate(Route::oral, 200);
  mix.add(80, {"Acute Tox. 5 H303"}).ate(Route::oral, 3450);
  CHECK(mix.figure_of(Endpoint::acute_oral, RuleBookName::un_ghs) == Approx(1880).epsilon(0.001));
  CHECK(mix.names(RuleBookName::un_ghs) == "Acute Tox. 4 H302");
  // CLP has no category 5 and leaves the largest part out: 100 / (16/1600 + 4/200) = 3333.
  CHECK(mix.figure_of(Endpoint::acute_oral) == Approx(3333.33).epsilon(0.001));
  CHECK(mix.names().empty());
}

// UN GHS examples, file 3-1c (Annex 2, example 3).
TEST_CASE("acute toxicity: the UN example with clean limit tests") {
  Mix mix;
  mix.add(4, {"Acute Tox. 4 H302"}).ate(Route::oral, 1737);
  mix.harmless(5).harmless(5).harmless(86);
  CHECK(mix.figure_of(Endpoint::acute_oral, RuleBookName::un_ghs) == Approx(43425).epsilon(0.0001));
  CHECK(mix.names(RuleBookName::un_ghs).empty());
}

// UN GHS examples, file 3-2-3-3a: additivity may not apply; a mixture of pH 4.0 does not fall under
// the pH rule.
TEST_CASE("skin: the UN example in which additivity may not apply") {
  Mix mix;
  mix.add(4, {"Skin Corr. 1 H314"}).add(5, {"Skin Irrit. 2 H315"}).add(5, {"Skin Irrit. 3 H316"});
  mix.harmless(86).ph(4);
  CHECK_THAT(mix.names(RuleBookName::un_ghs, true), Catch::Contains("Skin Corr. 1 H314"));
  // By sums it would be an irritant: 4 % lies between 1 and 5, and 10 x 4 + 5 reaches 10.
  CHECK_THAT(mix.names(RuleBookName::un_ghs), Catch::Contains("Skin Irrit. 2 H315"));
  CHECK_THAT(mix.names(RuleBookName::un_ghs), !Catch::Contains("Skin Corr."));
}

// UN GHS examples, ST/SG/AC.10/C.4/2012/25, file 4-1a.
TEST_CASE("aquatic: the UN example, acute and long-term") {
  Mix mix;
  mix.add(0.01, {"Aquatic Acute 1", "Aquatic Chronic 1"}).m(10, 10);
  mix.add(1, {"Aquatic Acute 2", "Aquatic Chronic 2"});
  mix.add(25, {"Aquatic Chronic 4"});
  mix.harmless(73.99);
  const MixtureClasses found = mix.classes(RuleBookName::un_ghs);
  std::vector<double> acute;
  std::vector<double> chronic;
  for (const RuleStep& step : found.steps) {
    if (step.endpoint == Endpoint::aquatic_acute) acute.push_back(step.sum);
    if (step.endpoint == Endpoint::aquatic_chronic) chronic.push_back(step.sum);
  }
  REQUIRE(acute.size() == 3);
  CHECK(acute[0] == Approx(0.1));
  CHECK(acute[1] == Approx(2));
  CHECK(acute[2] == Approx(20));
  REQUIRE(chronic.size() == 4);
  CHECK(chronic[0] == Approx(0.1));
  CHECK(chronic[1] == Approx(2));
  CHECK(chronic[2] == Approx(20));
  CHECK(chronic[3] == Approx(26.01));
  CHECK(mix.names(RuleBookName::un_ghs) == "Aquatic Chronic 4 H413");
}

// ECHA helpdesk seminar, mixture exercises of 5 March 2012, examples 1 and 2; Czech guide to CLP
// (Krejsova 2014): an ingredient given as a range counts with its upper end.
TEST_CASE("skin: seminar exercises and the guide's range") {
  CHECK(Mix().add(0.8, {"Skin Irrit. 2"}).harmless(99.2).names().empty());
  CHECK(Mix().add(1.8, {"Skin Irrit. 2"}).harmless(98.2).names().empty());
  CHECK_THAT(Mix().add(4, {"Skin Corr. 1B"}).names(), Catch::Contains("Skin Irrit. 2 H315"));
  CHECK_THAT(Mix().add(7, {"Skin Corr. 1B"}).names(), Catch::Contains("Skin Corr. 1B H314"));
}

// CLP Annex VI 008-003-00-9, specific limits of hydrogen peroxide.
TEST_CASE("hydrogen peroxide falls into the bands of its entry") {
  const auto at = [](double percent) { return health_of(Mix().of(kPeroxide, percent)); };
  CHECK(at(3).empty());
  CHECK(at(4.999).empty());
  CHECK(at(5) == "Eye Irrit. 2");
  CHECK(at(6) == "Eye Irrit. 2");
  CHECK(at(7.999) == "Eye Irrit. 2");
  CHECK(at(8) == "Eye Dam. 1");
  CHECK(at(12) == "Eye Dam. 1");
  CHECK(at(35) == "Skin Irrit. 2 Eye Dam. 1 STOT SE 3");
  CHECK(at(50) == "Skin Corr. 1B Eye Dam. 1 STOT SE 3");
  CHECK(at(70) == "Skin Corr. 1A Eye Dam. 1 STOT SE 3");
  CHECK_THAT(Mix().of(kPeroxide, 49.9).names(), !Catch::Contains("Ox."));
  CHECK_THAT(Mix().of(kPeroxide, 50).names(), Catch::Contains("Ox. Liq. 2 H272"));
  CHECK_THAT(Mix().of(kPeroxide, 70).names(), Catch::Contains("Ox. Liq. 1 H271"));
  // By the acute formula, 500 / 2000: H302 from 25 %.
  CHECK_THAT(Mix().of(kPeroxide, 24.9).names(), !Catch::Contains("H302"));
  CHECK_THAT(Mix().of(kPeroxide, 25).names(), Catch::Contains("H302"));
}

// CLP Annex VI 605-001-00-5 (17th adaptation) and Tables 3.5.2, 3.6.2.
TEST_CASE("formaldehyde falls into the bands of its entry") {
  const auto at = [](double percent) { return Mix().of(kFormaldehyde, percent).names(); };
  CHECK_THAT(at(0.099), !Catch::Contains("H350"));
  CHECK(at(0.1) == "Carc. 1B H350");
  CHECK_THAT(at(0.2), Catch::Contains("Skin Sens. 1 H317"));
  CHECK_THAT(at(0.99), !Catch::Contains("H341"));
  CHECK_THAT(at(1), Catch::Contains("Muta. 2 H341"));
  CHECK_THAT(at(4.99), !Catch::Contains("H302"));
  CHECK_THAT(at(5), Catch::Contains("Acute Tox. 4 H302") && Catch::Contains("Skin Irrit. 2 H315") &&
                        Catch::Contains("Eye Irrit. 2 H319") && Catch::Contains("STOT SE 3 H335"));
  CHECK_THAT(at(15), Catch::Contains("Acute Tox. 4 H312"));
  CHECK_THAT(at(25), Catch::Contains("Skin Corr. 1B H314") && Catch::Contains("H335"));
  CHECK_THAT(at(30), Catch::Contains("Acute Tox. 3 H311"));
  CHECK_THAT(at(33.34), Catch::Contains("Acute Tox. 3 H301"));
}

// CLP Annex VI 017-011-00-1.
TEST_CASE("hypochlorite frees toxic gas with acids from 5 % active chlorine on") {
  CHECK_THAT(Mix().of(kHypochlorite, 4.9).statements(), !Catch::Contains("EUH031"));
  CHECK_THAT(Mix().of(kHypochlorite, 5).statements(), Catch::Contains("EUH031"));
  CHECK(health_of(Mix().of(kHypochlorite, 2)) == "Skin Irrit. 2 Eye Irrit. 2");
  CHECK(health_of(Mix().of(kHypochlorite, 4)) == "Skin Irrit. 2 Eye Dam. 1");
  CHECK(health_of(Mix().of(kHypochlorite, 5)) == "Skin Corr. 1B Eye Dam. 1");
}

// CLP Annex VI, label columns of 602-096-00-5, 029-023-00-4, 011-005-00-2 and 017-013-00-2.
TEST_CASE("labels of whole substances are the law's own") {
  const HazardBlock malachite = Mix().of("2437-29-8", 100).block({true, false});
  CHECK(Mix().of("2437-29-8", 100).statements() == "H302 H318 H361d H410");
  CHECK(malachite.pictograms == std::vector<std::string>{"GHS05", "GHS07", "GHS08", "GHS09"});
  CHECK(malachite.signal == "Danger");
  const HazardBlock copper = Mix().of(kCopper, 100).block({true, false});
  CHECK(Mix().of(kCopper, 100).statements() == "H302 H318 H410");
  CHECK(copper.pictograms == std::vector<std::string>{"GHS05", "GHS07", "GHS09"});
  CHECK(copper.signal == "Danger");
  for (const char* cas : {"497-19-8", "10043-52-4"}) {
    const HazardBlock block = Mix().of(cas, 100).block({true, false});
    CHECK(Mix().of(cas, 100).statements() == "H319");
    CHECK(block.pictograms == std::vector<std::string>{"GHS07"});
    CHECK(block.signal == "Warning");
  }
  // Glutaral, 605-022-00-X: Acute 1 and Chronic 2 are printed as H410.
  CHECK_THAT(Mix().of("111-30-8", 100).statements(), Catch::Contains("H410"));
  CHECK_THAT(Mix().of("111-30-8", 100).statements(), !Catch::Contains("H400"));
}

// CLP Annex I, Tables 3.1.1 and 3.1.2: from which share on one ingredient of a category brings the
// mixture into another, exactly limit / estimate.
TEST_CASE("acute toxicity: crossing points of one ingredient, at, under and over") {
  struct Case {
    Route route;
    int ingredient;
    int mixture;
    double from;
  };
  const std::vector<Case> cases = {
      {Route::oral, 1, 1, 10},        {Route::oral, 1, 2, 1},       {Route::oral, 1, 3, 0.5 / 3},
      {Route::oral, 2, 2, 10},        {Route::oral, 2, 3, 5 / 3.0}, {Route::oral, 2, 4, 0.25},
      {Route::oral, 3, 3, 100 / 3.0}, {Route::oral, 3, 4, 5},       {Route::oral, 4, 4, 25},
      {Route::dermal, 1, 1, 10},      {Route::dermal, 1, 2, 2.5},   {Route::dermal, 1, 3, 0.5},
      {Route::dermal, 1, 4, 0.25},    {Route::dermal, 2, 2, 25},    {Route::dermal, 2, 3, 5},
      {Route::dermal, 2, 4, 2.5},     {Route::dermal, 3, 3, 30},    {Route::dermal, 3, 4, 15},
      {Route::dermal, 4, 4, 55},      {Route::gas, 1, 1, 10},       {Route::gas, 1, 2, 2},
      {Route::gas, 1, 3, 0.4},        {Route::gas, 2, 2, 20},       {Route::gas, 2, 3, 4},
      {Route::gas, 2, 4, 0.5},        {Route::gas, 3, 3, 28},       {Route::gas, 3, 4, 3.5},
      {Route::gas, 4, 4, 22.5},       {Route::vapour, 1, 1, 10},    {Route::vapour, 1, 2, 2.5},
      {Route::vapour, 2, 2, 25},      {Route::vapour, 2, 3, 5},     {Route::vapour, 3, 3, 30},
      {Route::vapour, 3, 4, 15},      {Route::vapour, 4, 4, 55},    {Route::mist, 1, 1, 10},
      {Route::mist, 1, 2, 1},         {Route::mist, 1, 3, 0.5},     {Route::mist, 1, 4, 0.1},
      {Route::mist, 2, 2, 10},        {Route::mist, 2, 3, 5},       {Route::mist, 2, 4, 1},
      {Route::mist, 3, 3, 50},        {Route::mist, 3, 4, 10},      {Route::mist, 4, 4, 30}};
  const auto text = [](const Case& c) {
    const int base = c.route == Route::oral ? 300 : c.route == Route::dermal ? 310 : 330;
    return "Acute Tox. " + std::to_string(c.ingredient) + " H" +
           std::to_string(base + std::max(0, c.ingredient - 2));
  };
  const auto endpoint = [](Route route) {
    if (route == Route::oral) return Endpoint::acute_oral;
    return route == Route::dermal ? Endpoint::acute_dermal : Endpoint::acute_inhalation;
  };
  for (const Case& one : cases) {
    INFO(text(one) << " to category " << one.mixture << " from " << one.from);
    const auto category = [&](double percent) {
      Mix mix;
      mix.add(percent, {text(one)}).inhaled_as(one.route);
      return worst(mix.classes(), endpoint(one.route));
    };
    CHECK(category(one.from) == one.mixture);
    CHECK(category(one.from * 1.001) == one.mixture);
    CHECK(category(one.from * 0.999) > one.mixture);
  }
}

// CLP Annex I, Tables 3.2.3, 3.3.3, 3.4.5, 3.5.2, 3.6.2, 3.7.2, 3.8.3, 3.9.4, 4.1.1 and 4.1.2.
TEST_CASE("other classes: crossing points of one ingredient, at, under and over") {
  struct Case {
    const char* ingredient;
    double from;
    const char* gives;
  };
  const std::vector<Case> cases = {
      {"Skin Corr. 1A", 5, "Skin Corr. 1A H314"},
      {"Skin Corr. 1A", 1, "Skin Irrit. 2 H315"},
      {"Skin Corr. 1C", 5, "Skin Corr. 1C H314"},
      {"Skin Corr. 1B", 3, "Eye Dam. 1 H318"},
      {"Skin Corr. 1B", 1, "Eye Irrit. 2 H319"},
      {"Skin Irrit. 2", 10, "Skin Irrit. 2 H315"},
      {"Eye Dam. 1", 3, "Eye Dam. 1 H318"},
      {"Eye Dam. 1", 1, "Eye Irrit. 2 H319"},
      {"Eye Irrit. 2", 10, "Eye Irrit. 2 H319"},
      {"Resp. Sens. 1", 1, "Resp. Sens. 1 H334"},
      {"Resp. Sens. 1A", 0.1, "Resp. Sens. 1A H334"},
      {"Skin Sens. 1B", 1, "Skin Sens. 1B H317"},
      {"Skin Sens. 1A", 0.1, "Skin Sens. 1A H317"},
      {"Muta. 1B", 0.1, "Muta. 1B H340"},
      {"Muta. 2", 1, "Muta. 2 H341"},
      {"Carc. 1A H350", 0.1, "Carc. 1A H350"},
      {"Carc. 2", 1, "Carc. 2 H351"},
      {"Repr. 1B H360D", 0.3, "Repr. 1B H360D"},
      {"Repr. 2 H361d", 3, "Repr. 2 H361d"},
      {"Lact.", 0.3, "Lact. H362"},
      {"STOT SE 1", 10, "STOT SE 1 H370"},
      {"STOT SE 1", 1, "STOT SE 2 H371"},
      {"STOT SE 2", 10, "STOT SE 2 H371"},
      {"STOT SE 3 H335", 20, "STOT SE 3 H335"},
      {"STOT SE 3 H336", 20, "STOT SE 3 H336"},
      {"STOT RE 1", 10, "STOT RE 1 H372"},
      {"STOT RE 1", 1, "STOT RE 2 H373"},
      {"STOT RE 2", 10, "STOT RE 2 H373"},
      {"Asp. Tox. 1", 10, "Asp. Tox. 1 H304"},
      {"Aquatic Acute 1", 25, "Aquatic Acute 1 H400"},
      {"Aquatic Chronic 1", 25, "Aquatic Chronic 1 H410"},
      {"Aquatic Chronic 1", 2.5, "Aquatic Chronic 2 H411"},
      {"Aquatic Chronic 1", 0.25, "Aquatic Chronic 3 H412"},
      {"Aquatic Chronic 2", 25, "Aquatic Chronic 2 H411"},
      {"Aquatic Chronic 2", 2.5, "Aquatic Chronic 3 H412"},
      {"Aquatic Chronic 3", 25, "Aquatic Chronic 3 H412"},
      {"Aquatic Chronic 4", 25, "Aquatic Chronic 4 H413"},
  };
  for (const Case& one : cases) {
    INFO(one.ingredient << " gives " << one.gives << " from " << one.from);
    const auto at = [&](double percent) { return Mix().add(percent, {one.ingredient}).names(); };
    CHECK_THAT(at(one.from), Catch::Contains(one.gives));
    CHECK_THAT(at(one.from * 1.001), Catch::Contains(one.gives));
    CHECK_THAT(at(one.from * 0.999), !Catch::Contains(one.gives));
  }
}

TEST_CASE("copper sulfate: its own estimate and M-factors decide") {
  // 481 / 2000 = 24.05 % (CLP Annex VI 029-023-00-4).
  CHECK_THAT(Mix().of(kCopper, 24.04).statements(), !Catch::Contains("H302"));
  CHECK_THAT(Mix().of(kCopper, 24.05).statements(), Catch::Contains("H302"));
  CHECK(Mix().of(kCopper, 0.24).statements().empty());
  CHECK(Mix().of(kCopper, 0.25).statements() == "H412");
  CHECK(Mix().of(kCopper, 1).statements() == "H319 H412");
  // From 2.5 %: M 10 x 2.5 = 25 gives Acute 1, 10 x 2.5 Chronic 2; the label says H410.
  CHECK(Mix().of(kCopper, 2.5).statements() == "H319 H410");
  CHECK(Mix().of(kCopper, 3).statements() == "H318 H410");
}

TEST_CASE("an extreme pH corrodes below every limit") {
  // Saturated calcium hydroxide: 0.17 %, pH about 12.4 (from memory); CLP Annex I, 3.2.3.1.2.
  Mix lime;
  lime.add(0.17, {"Skin Irrit. 2", "Eye Dam. 1"}).ph(12.4);
  CHECK(lime.names() == "Eye Dam. 1 H318; Skin Corr. 1 H314");
  CHECK(lime.statements() == "H314");
  CHECK(Mix().harmless(100).ph(2).statements() == "H314");
  CHECK(Mix().harmless(100).ph(2.01).statements().empty());
  CHECK(Mix().harmless(100).ph(11.5).statements() == "H314");
  CHECK(Mix().harmless(100).ph(11.49).statements().empty());
}

TEST_CASE("sensitisers below their limit are named") {
  const MixtureClasses found = Mix().add(0.5, {"Skin Sens. 1"}).classes();
  REQUIRE(found.supplements.size() == 1);
  CHECK(found.supplements.front().statement == "EUH208");
  CHECK(found.supplements.front().fill == "part 1");
  CHECK(Mix().add(0.099, {"Skin Sens. 1"}).classes().supplements.empty());
  CHECK(Mix().add(0.01, {"Skin Sens. 1A"}).classes().supplements.size() == 1);
  // A specific limit of 0.2 % brings the naming down to 0.02 % (CLP Annex I, Table 3.4.6 note).
  Mix specific;
  specific.add(0.02, {"Skin Sens. 1"}).limit("Skin Sens. 1", 0.2);
  CHECK(specific.classes().supplements.size() == 1);
}

TEST_CASE("a missing classification is never harmless") {
  Mix mix;
  mix.add(30, {"Acute Tox. 4 H302"}).unknown(20);
  // 20 % unknown: (100 - 20) / (30 / 500) = 1333 (CLP Annex I, 3.1.3.6.2.3).
  CHECK(mix.figure_of(Endpoint::acute_oral) == Approx(80 / (30 / 500.0)));
  const MixtureClasses found = mix.classes();
  CHECK(found.unclassified == std::vector<std::string>{"part 2"});
  REQUIRE(!found.unknown.empty());
  CHECK(as_ratio(found.unknown.front().part) == Approx(0.2));
  CHECK(as_ratio(found.unknown_aquatic) == Approx(0.2));
  // At 10 % and below the formula stays as it is (3.1.3.6.2.2), and it is still said.
  Mix little;
  little.add(30, {"Acute Tox. 4 H302"}).unknown(10);
  CHECK(little.figure_of(Endpoint::acute_oral) == Approx(100 / (30 / 500.0)));
  CHECK(!little.classes().unknown.empty());
}

TEST_CASE("powders keep their physical class, solutions do not and say so") {
  Mix solution;
  solution.of("7775-14-6", 10);
  const MixtureClasses found = solution.classes();
  CHECK_THAT(solution.names(), !Catch::Contains("H251"));
  CHECK(std::any_of(found.not_evaluated.begin(), found.not_evaluated.end(), [](const Phrases& one) {
    const std::string words = in_english(one);
    return words.find("physical hazards") != std::string::npos &&
           words.find("Self-heat. 1 H251") != std::string::npos;
  }));
  HazardMixture tub;
  const auto& all = testing::knowledge().substances;
  const auto dithionite =
      std::find_if(all.begin(), all.end(), [](const Substance& s) { return s.cas == "7775-14-6"; });
  tub.parts.push_back(
      {"a", "sodium dithionite", share(1), share(1), &dithionite->hazards, false, false, {}, {}});
  tub.solution = false;
  const MixtureClasses powder = classify(tub, {});
  CHECK(std::any_of(powder.classes.begin(), powder.classes.end(),
                    [](const HazardClass& c) { return c.statement == "H251"; }));
}

TEST_CASE("tests of the solution go before the calculation") {
  Mix mix;
  mix.add(4, {"Eye Dam. 1"});
  HazardMixture tested;
  tested.parts.push_back({"a", "a", share(0.04), share(0.04), nullptr, false, false, {}, {}});
  Classification known;
  known.state = Classification::State::classified;
  known.classes.push_back(testing::hazard_class("Eye Dam. 1"));
  tested.parts.front().known = &known;
  tested.tested.push_back({Endpoint::eye, testing::hazard_class("Eye Irrit. 2")});
  const MixtureClasses found = classify(tested, {});
  REQUIRE(found.classes.size() == 1);
  CHECK(found.classes.front().name == "Eye Irrit. 2");
  tested.tested.front().gives.reset();
  CHECK(classify(tested, {}).classes.empty());
}

TEST_CASE("the rule book decides") {
  const auto sensitised = [](RuleBookName book) {
    return Mix().add(0.5, {"Skin Sens. 1"}).names(book);
  };
  CHECK(sensitised(RuleBookName::eu_clp).empty());
  CHECK(sensitised(RuleBookName::us_hazcom) == "Skin Sens. 1 H317");
  CHECK(Mix().of(kCopper, 4).names(RuleBookName::us_hazcom) == "Eye Dam. 1 H318");
  CHECK(Mix().add(2, {"STOT RE 1"}).names(RuleBookName::us_hazcom) == "STOT RE 1 H372");
  CHECK(Mix().add(20, {"Eye Irrit. 2"}).names(RuleBookName::un_ghs) == "Eye Irrit. 2A H319");
}

TEST_CASE("effects on fertility and on the unborn child come together") {
  CHECK(Mix().add(4, {"Repr. 2 H361f"}).add(4, {"Repr. 2 H361d"}).statements() == "H361fd");
  CHECK(Mix().add(1, {"Repr. 1B H360F"}).add(4, {"Repr. 2 H361d"}).statements() == "H360Fd");
  CHECK(Mix().add(1, {"Repr. 1B H360D"}).add(4, {"Repr. 2 H361f"}).statements() == "H360Df");
  CHECK(Mix().add(1, {"Repr. 1A H360F"}).add(1, {"Repr. 1B H360D"}).statements() == "H360FD");
}

TEST_CASE("joint sentences, six precautions, and one on disposal") {
  Mix formalin;
  formalin.of(kFormaldehyde, 37).of("67-56-1", 10);
  CHECK_THAT(formalin.statements(), Catch::Contains("H301+H311+H331"));
  const HazardBlock block = formalin.block();
  // Six, and one more each for breathing and its first aid (H331) and for lasting harm (H350):
  // Article 28 (3).
  CHECK(block.precautions.size() == kMostPrecautions + 4);
  const auto says = [&](const std::string& code) {
    return std::any_of(block.precautions.begin(), block.precautions.end(),
                       [&](const PrintedStatement& p) { return p.code == code; });
  };
  CHECK(says("P280"));
  CHECK(says("P260"));
  CHECK(says("P304+P340"));
  // P310 calls for help already; P201 or P202 stands for lasting harm.
  CHECK((says("P308+P313") || says("P201") || says("P202")));
  const auto disposals =
      std::count_if(block.precautions.begin(), block.precautions.end(),
                    [](const PrintedStatement& p) { return p.code.starts_with("P50"); });
  CHECK(disposals == 1);
  CHECK(block.precautions.back().code == "P501");
  CHECK(block.signal == "Danger");
  // GHS06 takes the exclamation mark away (CLP Article 26).
  CHECK(std::find(block.pictograms.begin(), block.pictograms.end(), "GHS07") ==
        block.pictograms.end());
}

TEST_CASE("organs of one category come together, another's organ stands beside the first") {
  // CLP Annex I, Table 3.9.4: each ingredient by itself; Annex III, H373: all organs, if known.
  Mix both;
  both.add(5, {"STOT RE 1 H372 (kidneys)"}).add(10, {"STOT RE 2 H373 (liver)"});
  REQUIRE(both.classes().classes.size() == 1);
  CHECK(both.classes().classes.front().statement == "H373");
  CHECK(both.classes().classes.front().fill == "kidneys and liver");
  Mix stronger;
  stronger.add(10, {"STOT RE 1 H372 (kidneys)"}).add(10, {"STOT RE 2 H373 (liver)"});
  REQUIRE(stronger.classes().classes.size() == 2);
  CHECK(stronger.classes().classes[0].statement == "H372");
  CHECK(stronger.classes().classes[0].fill == "kidneys");
  CHECK(stronger.classes().classes[1].statement == "H373");
  CHECK(stronger.classes().classes[1].fill == "liver");
}

TEST_CASE("organs: named once, and unnamed ones are not forgotten") {
  const auto fills = [](const Mix& mix) {
    std::string out;
    for (const HazardClass& one : mix.classes().classes)
      out += one.statement + ' ' + one.fill + ';';
    return out;
  };
  CHECK(fills(Mix()
                  .add(10, {"STOT RE 2 H373 (kidneys, liver)"})
                  .add(10, {"STOT RE 2 H373 (Liver and blood)"})) ==
        "H373 kidneys, liver and blood;");
  CHECK(fills(Mix().add(10, {"STOT RE 2"}).add(10, {"STOT RE 2 H373 (kidneys)"})) == "H373 ;");
  CHECK(
      fills(
          Mix().add(10, {"STOT RE 1 H372 (kidneys, liver)"}).add(10, {"STOT RE 2 H373 (liver)"})) ==
      "H372 kidneys and liver;");
  // 29 CFR 1910.1200, Table A.8.2 (from memory): category 2 from 1 % on.
  CHECK(Mix().add(5, {"STOT SE 2"}).names(RuleBookName::us_hazcom) == "STOT SE 2 H371");
  CHECK(Mix().add(5, {"STOT SE 2"}).names().empty());
}

TEST_CASE("an extreme pH keeps the sub-category that the sum knows") {
  // Sodium hydroxide: 1A from 5 %, 1B from 2 % (CLP Annex VI, index 011-002-00-6).
  CHECK(Mix().of("1310-73-2", 5.2).ph(14).names() == "Eye Dam. 1 H318; Skin Corr. 1A H314");
  CHECK(Mix().of("1310-73-2", 3).ph(13.8).names() == "Eye Dam. 1 H318; Skin Corr. 1B H314");
  CHECK(Mix().of("1310-73-2", 0.1).ph(12).names() == "Eye Dam. 1 H318; Skin Corr. 1 H314");
  CHECK(Mix().of("1310-73-2", 0.1).ph(11.4).names().empty());
}

TEST_CASE("what is gravest keeps a measure of its own, beyond six") {
  const auto codes = [](const HazardBlock& block) {
    std::string out;
    for (const PrintedStatement& one : block.precautions) out += one.code + ' ';
    // The book at hand is in the words of CLP and lacks some of the UN's codes.
    for (const std::string& code : block.untranslated) out += code + ' ';
    return out;
  };
  // Water life beside corrosion; breathing beside poison and corrosion.
  CHECK_THAT(codes(Mix().add(6, {"Skin Corr. 1B", "Aquatic Chronic 1"}).m(10, 10).block()),
             Catch::Contains("P273 "));
  CHECK_THAT(codes(Mix().add(6, {"Skin Corr. 1A", "Resp. Sens. 1", "Acute Tox. 1 H300"}).block()),
             Catch::Contains("P304+P340 ") || Catch::Contains("P284 "));
  // Of the UN's two statements on washing the longer one says both.
  const std::string un =
      codes(Mix().add(20, {"Skin Irrit. 2", "Eye Irrit. 2"}).block({}, RuleBookName::un_ghs));
  CHECK_THAT(un, Catch::Contains("P264+P265 "));
  CHECK_THAT(un, !Catch::Contains("P264 "));
  // HazCom 2024 keeps the codes of the UN's seventh revision (89 FR 44144, summary).
  const std::string us = codes(Mix().add(20, {"Eye Irrit. 2"}).block({}, RuleBookName::us_hazcom));
  CHECK_THAT(us, Catch::Contains("P337+P313"));
  CHECK_THAT(us, !Catch::Contains("P317"));
}

TEST_CASE("poison keeps what to do when it is swallowed or on the skin, beyond six") {
  // CLP Annex I, Tables 3.10.4 (H304: P301+P310 and P331), 3.1.4 (H310, H311: P302+P352) and 3.9.4.
  const auto has_one = [](const HazardBlock& block, const std::vector<std::string>& wanted) {
    const auto among_them = [&](const std::string& code) {
      return std::find(wanted.begin(), wanted.end(), code) != wanted.end();
    };
    return std::any_of(block.precautions.begin(), block.precautions.end(),
                       [&](const PrintedStatement& one) { return among_them(one.code); }) ||
           std::any_of(block.untranslated.begin(), block.untranslated.end(), among_them);
  };
  const std::vector<std::string> vomit = {"P331", "P301+P330+P331"};
  const std::vector<std::string> wash = {"P302+P352", "P303+P361+P353", "P302+P361+P354"};
  const std::vector<std::string> mouth = {"P301+P310", "P301+P316", "P330", "P331",
                                          "P301+P330+P331"};
  const std::vector<std::string> pool = {
      "Acute Tox. 3 H301", "Acute Tox. 3 H311", "Acute Tox. 2 H310", "Acute Tox. 3 H331",
      "Asp. Tox. 1",       "Skin Sens. 1",      "Skin Corr. 1B",     "Eye Dam. 1",
      "STOT SE 1",         "STOT RE 1",         "Carc. 1B H350",     "Aquatic Chronic 1",
      "Resp. Sens. 1",     "STOT SE 3 H336",    "Flam. Liq. 2"};
  for (const RuleBookName book :
       {RuleBookName::eu_clp, RuleBookName::un_ghs, RuleBookName::us_hazcom}) {
    for (std::size_t i = 0; i < pool.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        for (std::size_t k = 0; k < j; ++k) {
          Mix mix;
          mix.add(100, {pool[i], pool[j], pool[k]}).inhaled_as(Route::vapour);
          const HazardBlock block = mix.block({}, book);
          const std::string said = mix.names(book);
          INFO(said);
          const auto says = [&](const char* code) { return said.find(code) != std::string::npos; };
          if (says("H304")) CHECK(has_one(block, vomit));
          if (says("H310") || says("H311")) CHECK(has_one(block, wash));
          if (says("H301") || says("H304")) CHECK(has_one(block, mouth));
          if (says("H372")) CHECK(has_one(block, {"P260", "P264", "P270", "P314", "P319"}));
        }
      }
    }
  }
}

TEST_CASE("one substance as it is supplied has the classes of its source, however it is breathed") {
  HazardMixture tub;
  Classification own;
  own.state = Classification::State::classified;
  own.classes = {testing::hazard_class("Acute Tox. 3 H331"),
                 testing::hazard_class("Acute Tox. 4 H302")};
  tub.parts.push_back({"a", "a", share(1), share(1), &own, false, false, {}, {}});
  tub.as_supplied = true;
  const auto statements = [&] {
    std::string out;
    for (const HazardClass& one : classify(tub, {}).classes) out += one.statement + ' ';
    return out;
  };
  CHECK(statements() == "H302 H331 ");
  tub.solution = false;
  CHECK(statements() == "H302 H331 ");
  // Diluted, the mist of what nobody sprays is open, and is said.
  tub.as_supplied = false;
  tub.solution = true;
  tub.parts.front().most = share(0.1);
  const MixtureClasses diluted = classify(tub, {});
  REQUIRE(diluted.mist_open.size() == 1);
  CHECK(in_english(diluted.mist_open) == "a is Acute Tox. 3 H331");
  own.inhaled_as = Route::vapour;
  CHECK(classify(tub, {}).mist_open.empty());
}

TEST_CASE("small packages may be shortened, but not what harms most") {
  const HazardBlock block = Mix().of(kCopper, 4).block();
  CHECK(block.may_be_shortened);
  REQUIRE(block.small_hazards.size() == 1);
  CHECK(block.small_hazards.front().code == "H318");
  CHECK(!Mix().add(4, {"Eye Dam. 1"}).block().may_be_shortened);
  // CLP Annex I, 1.5.2, is no rule of the UN's book.
  CHECK(Mix().of(kCopper, 4).block({}, RuleBookName::gb_clp).may_be_shortened);
  CHECK(!Mix().of(kCopper, 4).block({}, RuleBookName::un_ghs).may_be_shortened);
}

TEST_CASE("random mixtures keep the properties of the rules") {
  const std::vector<std::string> pool = {
      "Acute Tox. 2 H300", "Acute Tox. 3 H311", "Acute Tox. 4 H302", "Skin Corr. 1A",
      "Skin Corr. 1C",     "Skin Irrit. 2",     "Eye Dam. 1",        "Eye Irrit. 2",
      "Skin Sens. 1A",     "Carc. 2",           "Repr. 2 H361d",     "STOT RE 1",
      "STOT SE 3 H335",    "Aquatic Chronic 1", "Aquatic Acute 1",   "Muta. 1B",
      "Resp. Sens. 1",     "Aquatic Chronic 3"};
  const std::vector<Endpoint> health = {
      Endpoint::acute_oral,   Endpoint::acute_dermal,       Endpoint::skin,
      Endpoint::eye,          Endpoint::skin_sensitisation, Endpoint::carcinogenicity,
      Endpoint::reproduction, Endpoint::repeated_exposure,  Endpoint::airway_irritation,
      Endpoint::mutagenicity, Endpoint::aquatic_chronic,    Endpoint::aquatic_acute};
  std::mt19937 random(7);
  std::uniform_int_distribution<std::size_t> pick(0, pool.size() - 1);
  std::uniform_real_distribution<double> exponent(-2, 1.3);
  std::uniform_real_distribution<double> part(0.05, 0.999);
  for (int round = 0; round < 3000; ++round) {
    const std::size_t first = pick(random);
    const std::size_t second = pick(random);
    const double a = std::pow(10, exponent(random));
    const double b = std::pow(10, exponent(random));
    Mix mix;
    mix.add(a, {pool[first]}).add(b, {pool[second]});
    const std::string whole = mix.names();
    INFO(pool[first] << ' ' << a << ", " << pool[second] << ' ' << b << ": " << whole);
    // The order of the ingredients does not matter.
    Mix other;
    other.add(a, {pool[first]}).add(b, {pool[second]}).reversed();
    REQUIRE(other.names() == whole);
    // One ingredient in two equal parts is still one.
    Mix halves;
    halves.add(a, {pool[first]}).add(b / 2, {pool[second]}).same_again(b / 2);
    REQUIRE(halves.names() == whole);
    // Thinning never raises a class.
    Mix thin;
    thin.add(a, {pool[first]}).add(b, {pool[second]}).thinned(part(random));
    const MixtureClasses before = mix.classes();
    const MixtureClasses after = thin.classes();
    for (const Endpoint endpoint : health)
      REQUIRE(worst(after, endpoint) >= worst(before, endpoint));
  }
}

TEST_CASE("the classes of 2023 carry over into a solution, in the EU alone") {
  // CLP Annex I, Table 3.11.2 (0.1 and 1 %); the rest from memory of Regulation (EU) 2023/707.
  struct Case {
    const char* written;
    double limit;
  };
  for (const Case& one :
       {Case{"ED HH 1 EUH380", 0.1}, Case{"ED HH 2 EUH381", 1}, Case{"ED ENV 1 EUH430", 0.1},
        Case{"ED ENV 2 EUH431", 1}, Case{"PBT EUH440", 0.1}, Case{"vPvB EUH441", 0.1},
        Case{"PMT EUH450", 0.1}, Case{"vPvM EUH451", 0.1}}) {
    INFO(one.written);
    CHECK(Mix().add(one.limit * 0.99, {one.written}).names().empty());
    CHECK(Mix().add(one.limit, {one.written}).names() == one.written);
    CHECK(Mix().add(5, {one.written}).names() == one.written);
    CHECK_FALSE(Mix().add(5, {one.written}).statements().empty());
    const auto un = Mix().add(5, {one.written}).classes(RuleBookName::un_ghs);
    CHECK(un.classes.empty());
    REQUIRE_FALSE(un.notes.empty());
    CHECK_THAT(in_english({un.notes.back()}), Catch::Contains("classes of the European Union"));
  }
}

TEST_CASE("non-additive limits never excuse what the sum says") {
  // 5.94 % of hydrochloric acid (limit 10) and as much acetic acid (limit 10) irritate by the sum.
  Mix mix;
  mix.of("7647-01-0", 5.94).of("64-19-7", 5.94).ph(2.2);
  CHECK(mix.names(RuleBookName::eu_clp, false) == "Eye Irrit. 2 H319; Skin Irrit. 2 H315");
  CHECK(mix.names(RuleBookName::eu_clp, true) == mix.names(RuleBookName::eu_clp, false));
}

TEST_CASE("an ingredient is relevant from its lowest limit on, for every category of the class") {
  // CLP Annex I, 1.1.2.2.2. 2.97 / 5 + 0.99 / 2 = 1.09, though lye is below 1 %.
  Mix mix;
  mix.of(kHypochlorite, 2.97).of("1310-73-2", 0.99);
  CHECK_THAT(mix.names(), Catch::Contains("Skin Corr. 1B H314"));
}

TEST_CASE("what makes the pH extreme is named, though it is classed milder or not at all") {
  Mix carbonate;
  carbonate.of("497-19-8", 12).ph(11.7);
  bool named = false;
  for (const RuleStep& step : carbonate.classes().steps)
    named = named || (step.unit == "pH" && step.met && step.counted.size() == 1);
  CHECK(named);
}

TEST_CASE("first aid for the breath keeps a place of its own") {
  Mix mix;
  mix.add(50, {"Acute Tox. 2 H330", "Acute Tox. 3 H301", "Skin Corr. 1B H314", "Resp. Sens. 1 H334",
               "Aquatic Acute 1 H400"});
  const auto codes = [](const HazardBlock& block) {
    std::string out;
    for (const PrintedStatement& one : block.precautions) out += one.code + ' ';
    return out;
  };
  const std::string eu = codes(mix.block({false, false, true}));
  INFO(eu);
  CHECK((eu.find("P304+P340") != std::string::npos || eu.find("P342+P311") != std::string::npos));
}

TEST_CASE("the UN's book: help is called, organs count from 1 %, 1B sensitisers from 1 %") {
  constexpr RuleBookName kUn = RuleBookName::un_ghs;
  Mix organs;
  organs.add(2, {"STOT RE 2 H373"}).add(1, {"STOT SE 1 H370"});
  CHECK_THAT(organs.names(kUn), Catch::Contains("STOT RE 2 H373"));
  CHECK_THAT(organs.names(kUn), Catch::Contains("STOT SE 1 H370"));
  CHECK(Mix().add(0.5, {"Skin Sens. 1B H317"}).names(kUn).empty());
  CHECK_FALSE(Mix().add(0.5, {"Skin Sens. 1 H317"}).names(kUn).empty());
  CHECK_FALSE(Mix().add(1, {"Resp. Sens. 1B H334"}).names(RuleBookName::us_hazcom).empty());
}

TEST_CASE("what makes the pH extreme is named even when it is said to need no class") {
  Mix salt;
  salt.harmless(12).ph(12);
  bool named = false;
  for (const RuleStep& step : salt.classes().steps) named = named || step.unit == "pH";
  CHECK(named);
}
