#include "dosewright/mix/density.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

struct Coefficients {
  std::string_view cas;
  std::array<double, 5> c;
  double coldest;
  double warmest;
  double most;  // mass fraction
};

// Laliberté, J. Chem. Eng. Data 54 (2009) 1725, supporting table, on the anhydrous basis. Ethanol
// is left out: its fit is off by 0.004 at 10 %.
constexpr std::array kCoefficients = {
    // sodium chloride
    Coefficients{"7647-14-5",
                 {-0.00324112223655149, 0.0636354335906616, 1.01371399467365, 0.0145951015210159,
                  3317.34854426537},
                 0,
                 140,
                 0.266},
    // sodium thiosulfate
    Coefficients{"7772-98-7",
                 {-1.38269885022596, 889.546797352274, 0.698935895205399, 0.00420349527799401,
                  1191.73071571581},
                 25,
                 80,
                 0.60},
    // sodium sulfite
    Coefficients{"7757-83-7",
                 {0.0000151967488422278, 0.000000437655086571068, 0.102960669860311,
                  -0.00152708622851478, -4500.84960861175},
                 25,
                 80,
                 0.20},
    // sodium hydrogensulfite
    Coefficients{"7631-90-5",
                 {-13.4660000968563, 22.7340851053589, 47.9384705050001, -0.0755567510590347,
                  -3013.64888406774},
                 10,
                 40,
                 0.243},
    // sodium carbonate
    Coefficients{"497-19-8",
                 {0.000000545486543455015, 0.000000172154929405038, -0.0825850207323492,
                  0.00168822949783412, 4705.39822185746},
                 0,
                 100,
                 0.209},
    // sodium hydrogencarbonate
    Coefficients{"144-55-8",
                 {0.0377378060615898, 0.00710029652458366, 0.0735733388535116, 0.00168369765511221,
                  3291.38382252025},
                 0,
                 125,
                 0.126},
    // magnesium sulfate
    Coefficients{"7487-88-9",
                 {98.1201663080777, 59.265764731786, -0.0303404982114453, 0.000503619228557116,
                  1763.7594229147},
                 0,
                 125,
                 0.268},
    // calcium chloride
    Coefficients{"10043-52-4",
                 {-9.72893747074295, 14.7005352975276, 4.19033341468332, 0.0397403624277021,
                  2708.12778894614},
                 15,
                 127,
                 0.513},
    // copper(II) sulfate
    Coefficients{"7758-98-7",
                 {-0.00000112078294150285, 0.000000606850590612117, -0.118863232463814,
                  0.00378050075860551, 4763.96073964247},
                 10,
                 60,
                 0.284},
    // potassium nitrate
    Coefficients{"7757-79-1",
                 {1.49068709973892, 6.67292354651383, 1.47150749460911, 0.0155872679453073,
                  2539.22687484937},
                 5,
                 95,
                 0.284},
    // potassium dihydrogenphosphate
    Coefficients{"7778-77-0",
                 {0.175127099215153, 0.0583801096029759, 0.170194505848805, 0.00323440066031267,
                  3062.75144963697},
                 20,
                 40,
                 0.232},
    // dipotassium hydrogenphosphate
    Coefficients{"7758-11-4",
                 {0.0102101570418478, 0.4771736273109, 0.27206857742866, 0.00184109952021235,
                  2889.86461891583},
                 25,
                 25,
                 0.181},
    // tripotassium phosphate
    Coefficients{"7778-53-2",
                 {-1.36808308486373, 1335.04870627511, -0.268093448711693, 0.0174393508387694,
                  1046.12029986562},
                 25,
                 25,
                 0.209},
    // hydrogen peroxide
    Coefficients{"7722-84-1",
                 {1245.67858462509, 1565.31293687729, 0.986168814056093, 0.00271435211005942,
                  200.77493156052},
                 0,
                 96,
                 0.996},
    // acetic acid
    Coefficients{"64-19-7",
                 {647.289243971958, -1054.58226029586, -1.74610768626879, 0.000365566432763641,
                  -822.999507010544},
                 5,
                 85,
                 1},
};

const Coefficients* coefficients_of(std::string_view cas) {
  const auto* found = std::find_if(kCoefficients.begin(), kCoefficients.end(),
                                   [&](const Coefficients& c) { return c.cas == cas; });
  return found == kCoefficients.end() ? nullptr : found;
}

// A liquid's volume changes by mixing; ours.
constexpr double kMixing = 0.05;

// Where the apparent density of one solute lies, mL per g.
struct TakesUp {
  double least = 0;
  double most = 1;
  bool known = false;
};

TakesUp taken_up(const Dissolved& one, Share solutes, Temperature at) {
  if (one.takes_up) {
    const double volume = in_millilitres_per_gram(*one.takes_up);
    if (one.liquid) return {volume * (1 - kMixing), volume * (1 + kMixing), false};
    return {volume, volume, true};
  }
  const auto density = apparent_density(one.anhydrous_cas, solutes, at);
  if (!density && one.liquid)
    return {1000 / in_grams_per_litre(kDensestLiquid), 1000 / in_grams_per_litre(kLightestLiquid),
            false};
  if (!density) return {};
  // Crystal water takes up the room of water.
  const double anhydrous = as_ratio(one.anhydrous);
  const double volume = anhydrous * 1000 / in_grams_per_litre(*density) +
                        (1 - anhydrous) * 1000 / in_grams_per_litre(water_density(at));
  return {volume, volume, true};
}

// g per L of the whole, when every solute takes up the least or the most it can.
double density_for(const std::vector<Dissolved>& dissolved, Share solutes, Temperature at,
                   bool least_volume) {
  double mass = 0;
  double volume = 0;  // mL per L
  for (const Dissolved& one : dissolved) {
    const TakesUp room = taken_up(one, solutes, at);
    mass += in_grams_per_litre(one.strength);
    volume += in_grams_per_litre(one.strength) * (least_volume ? room.least : room.most);
  }
  return mass + std::max(0.0, 1 - volume / 1000) * in_grams_per_litre(water_density(at));
}

}  // namespace

Concentration water_density(Temperature at) {
  const double t = in_degrees_celsius(at);
  const double above =
      ((((-2.8054253e-10 * t + 1.0556302e-7) * t - 4.6170461e-5) * t - 0.0079870401) * t +
       16.945176) *
          t +
      999.83952;
  return grams_per_litre(above / (1 + 0.01687985 * t));
}

std::optional<Concentration> apparent_density(const std::string& anhydrous_cas, Share solutes,
                                              Temperature at) {
  const Coefficients* salt = coefficients_of(anhydrous_cas);
  const double w = as_ratio(solutes);
  if (salt == nullptr || w > salt->most) return std::nullopt;
  // Just outside its range the fit is asked at its limit: five degrees move a density by 0.002.
  const double t = std::clamp(in_degrees_celsius(at), salt->coldest, salt->warmest);
  const auto& c = salt->c;
  return grams_per_litre((c[0] * w + c[1]) * std::exp(1e-6 * (t + c[4]) * (t + c[4])) /
                         (w + c[2] + c[3] * t));
}

SolutionDensity solution_density(const std::vector<Dissolved>& dissolved, Temperature at) {
  double low = in_grams_per_litre(water_density(at));
  double high = low;
  Share solutes;
  constexpr int kRounds = 60;  // converges in a few; the density moves slowly with w
  for (int i = 0; i < kRounds; ++i) {
    low = density_for(dissolved, solutes, at, false);
    high = density_for(dissolved, solutes, at, true);
    double anhydrous = 0;
    for (const Dissolved& one : dissolved)
      anhydrous += in_grams_per_litre(one.strength) * as_ratio(one.anhydrous);
    solutes = share(std::min(1.0, anhydrous / ((low + high) / 2)));
  }
  SolutionDensity out{grams_per_litre(low), grams_per_litre(high), {}};
  std::vector<std::string> unknown;
  bool measured = false;
  for (const Dissolved& one : dissolved) {
    measured = measured || (one.takes_up && !one.liquid);
    if (!taken_up(one, solutes, at).known) unknown.push_back(one.name);
  }
  const std::string degrees = figure(in_degrees_celsius(at), 0) + " °C";
  const std::string upper = figure(high / 1000, 3) + " g per mL";
  if (high - low > 0.5) {
    out.how = {{"density {1} to {2} at {3}", {figure(low / 1000, 3), upper, degrees}}};
  } else {
    out.how = {{"density {1} at {2}", {figure(low / 1000, 3) + " g per mL", degrees}}};
  }
  if (!unknown.empty()) {
    out.how.push_back({", bounded: no density data for {1}", {list_of(unknown)}});
  } else {
    out.how.push_back({measured ? ", from the displacement that the description states"
                                : ", by the model of Laliberté (2009)",
                       {}});
  }
  return out;
}

}  // namespace dosewright
