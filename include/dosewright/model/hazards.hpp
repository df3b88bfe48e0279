// What is known of the hazards of a product or a stock; not what follows from it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "dosewright/base/diagnostic.hpp"
#include "dosewright/units/quantity.hpp"

namespace dosewright {

/// Where an entry or a value stands, for messages that come later than checking.
struct Origin {
  Place place;
  std::string path;
};

/// What a hazard class speaks of. Acute toxicity stands once for each route.
enum class Endpoint {
  acute_oral,
  acute_dermal,
  acute_inhalation,
  skin,
  eye,
  respiratory_sensitisation,
  skin_sensitisation,
  mutagenicity,
  carcinogenicity,
  reproduction,
  lactation,
  single_exposure,    ///< specific target organs, STOT SE 1 and 2
  airway_irritation,  ///< STOT SE 3, H335
  narcosis,           ///< STOT SE 3, H336
  repeated_exposure,  ///< specific target organs, STOT RE 1 and 2
  aspiration,
  aquatic_acute,
  aquatic_chronic,
  ozone,
  endocrine_health,       ///< ED HH, of the EU only, as the five below
  endocrine_environment,  ///< ED ENV
  pbt,
  vpvb,
  pmt,
  vpvm,
  physical,   ///< flammable, oxidising, self-heating …: never by calculation
  supplement  ///< EUH statements
};

/// A class and category in the short form of CLP Annex VI, with its statement.
struct HazardClass {
  Endpoint endpoint = Endpoint::physical;
  std::string name;       ///< "Skin Corr. 1B"; for a supplement its code
  std::string statement;  ///< "H314", "EUH031"
  std::string fill;       ///< what goes into the statement's blank, such as an organ; may be empty
};

/// A specific concentration limit: from this percentage by weight on, and below the other.
struct LimitBand {
  HazardClass gives;
  Share from;
  std::optional<Share> below;
};

/// How a substance can enter the body; inhalation stands once for each state in air.
enum class Route { oral, dermal, gas, vapour, mist };

/// An acute toxicity estimate: mg per kg of body weight (oral, dermal), ppm by volume (gas), or mg
/// per L of air in 4 hours (vapour, mist or dust). More than 0.
using ToxicityEstimate = Quantity<struct ToxicityEstimateKind>;
constexpr ToxicityEstimate toxicity_estimate(double value) { return ToxicityEstimate(value); }
constexpr double in_route_units(ToxicityEstimate estimate) { return estimate.stored(); }

/// The classification of a product or of a known substance.
struct Classification {
  enum class State { unknown, not_classified, classified };
  State state = State::unknown;
  Origin origin;
  std::vector<HazardClass> classes;
  std::vector<LimitBand> limits;
  std::map<Route, ToxicityEstimate> estimates;
  Route inhaled_as = Route::mist;  ///< how it can be breathed in
  bool inhaled_stated = false;     ///< by the description, in words or by an estimate
  std::optional<int> m_acute;      ///< M-factors of the aquatic classes
  std::optional<int> m_chronic;
  std::string source;      ///< where the classification was read
  bool completed = false;  ///< with limits or M-factors of the shipped table
};

/// A statement of the hazard standard, by code, with what goes into its blank.
struct StatementCode {
  std::string code;
  Origin origin;
  std::string fill;  ///< empty: the standard's own default is used where there is one
};

/// What a test of the solution itself has shown for one endpoint; it goes before the calculation.
struct TestedEndpoint {
  Endpoint endpoint = Endpoint::skin;
  std::optional<HazardClass> gives;  ///< nothing: not classified
};

/// The hazards of the stock as it stands in the bottle, as far as the description states them.
struct Hazards {
  enum class Assessment { computed, classified, not_classified };
  Assessment assessment = Assessment::computed;  ///< computed: from what went in
  Origin origin;
  std::vector<StatementCode> statements;
  std::vector<StatementCode> precautions;
  std::string signal;                   ///< "Danger", "Warning"; empty: follows from the statements
  std::vector<std::string> pictograms;  ///< GHS01 … GHS09, when the description gives them
  bool pictograms_given = false;        ///< then they replace what follows from the statements
  std::string basis;                    ///< where the assessment comes from
  std::optional<double> ph;             ///< of the solution, measured
  bool sprayed = false;                 ///< then its mist can be breathed in
  std::vector<TestedEndpoint> tested;
  std::vector<HazardClass> least;  ///< of a weaker solution: this one is not milder
};

/// The rule book that decides on classes and labels.
enum class RuleBookName { eu_clp, gb_clp, un_ghs, us_hazcom };

/// How the hazards of a room's stocks are worked out.
struct HazardRules {
  RuleBookName book = RuleBookName::eu_clp;
  bool conservative = false;  ///< non-additive limits for skin and eyes
  std::string language = "en";
};

/// A plain chemical that is known without its data sheet, by its CAS number.
struct Substance {
  std::string cas;
  std::string name;
  std::vector<std::string> also;         ///< other names
  std::vector<std::string> trade_names;  ///< those among them that are no chemical names
  double molar_mass = 0;                 ///< g per mol; 0 when not known
  std::string anhydrous;  ///< CAS number of the form without water; empty for such a form
  std::vector<std::string> families;
  std::optional<Concentration> soluble;       ///< g of this form per L of water at 20 °C
  std::optional<Concentration> soluble_cold;  ///< the same at 0 °C
  std::optional<Duration> lasts;              ///< how long a solution is published to keep
  std::string lasts_source;
  bool inert = false;             ///< water
  std::string outdated;           ///< why its hazards must not be relied on; empty when they may
  std::string dissolving;         ///< "heats" or "cools" the water; empty when not known
  std::string sold_with;          ///< what its solutions hold beside it and water; may be empty
  std::string named_by_strength;  ///< of what a label gives its per cent, as "w/w"; may be empty
  Classification hazards;
};

/// Two families that must not meet, as somebody has published.
struct Incompatibility {
  std::string one;
  std::string other;
  std::string because;  ///< "chlorine gas is set free"
  bool apart = false;   ///< must not be stored together either
  std::string source;
};

/// What is known without the user's own data sheets.
struct Knowledge {
  std::vector<Substance> substances;
  std::vector<Incompatibility> incompatibilities;
};

}  // namespace dosewright
