// What a label says of hazards that nobody has worked out.
#include <catch2/catch.hpp>

#include "helpers.hpp"

namespace {

std::string text_of(const std::string& pdf) {
  return testing::shell("pdftotext -raw '" + pdf + "' - | tr '\\n' ' '").out;
}

}  // namespace

TEST_CASE("a liquid as bought keeps its fire, and its solution says that it may still burn") {
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "room: {name: R, emergency: Doctor 555 0100}\n"
      "products:\n  spirit: {name: ethanol, cas: 64-17-5, form: liquid, density: 0.79 g/mL}\n"
      "stocks:\n  s:\n    name: Half spirit\n    recipe: {spirit: 500 mL}\n    water to: 1 L\n"
      "    dose: {give: 1 mL per 10 L}\n    container: bottle\n"
      "containers:\n  bottle: {holds: 1 L}\n"
      "tools:\n  syringe: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
      "documents:\n"
      "  tub: {type: label, product: spirit, container: bottle, sheet: {paper: roll, label: 140 x "
      "100 mm}}\n"
      "  mixed: {type: label, stock: s, sheet: {paper: roll, label: 140 x 100 mm}}\n");
  const auto run =
      testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
  INFO(run.err);
  CHECK(run.status == 1);
  CHECK(run.err.find("whether it burns or feeds a fire is not known") != std::string::npos);
  const std::string tub = text_of(folder / "out/tub.pdf");
  CHECK(tub.find("Highly flammable liquid and vapour.") != std::string::npos);
  CHECK(tub.find("Danger") != std::string::npos);
  const std::string mixed = text_of(folder / "out/mixed.pdf");
  INFO(mixed);
  CHECK(mixed.find("undiluted, ethanol is Flam. Liq. 2 H225") != std::string::npos);
}

// What a sheet says that its label says must stand on the label; a figure of seven digits finds
// room in its column.
TEST_CASE(
    "a hazard sheet quotes its label, also of what was not assessed, and holds long figures") {
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "room: {name: R, emergency: Doctor 555 0100}\nproducts:\n"
      "  spirit: {name: ethanol, cas: 64-17-5, form: liquid, active: 96 %, density: 0.81 g/mL}\n"
      "  formalin: {name: formaldehyde solution, form: liquid, density: 1.08 g/mL, contains: "
      "{formaldehyde: 37 %, methanol: 10 %, water: rest}}\nstocks:\n"
      "  a: {name: A, recipe: {spirit: 740 mL}, water to: 1 L, dose: {give: 1 mL per 10 L}, "
      "container: b}\n"
      "  f: {name: F, recipe: {formalin: 5 mL}, water to: 1 L, dose: {give: 1 mL per 10 L}, "
      "container: b}\n"
      "containers: {b: {holds: 1 L}}\n"
      "tools: {y: {kind: syringe, holds: 10 mL, marks: every 0.2 mL}}\n"
      "documents:\n  label: {type: label, stock: a, sheet: {paper: roll, label: 160 x 150 mm}}\n"
      "  why-a: {type: hazard sheet, stock: a}\n  why-f: {type: hazard sheet, stock: f}\n");
  const auto run =
      testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
  INFO(run.err);
  REQUIRE(run.status == 1);
  const std::string label = text_of(folder / "out/label.pdf");
  const std::string sheet = text_of(folder / "out/why-a.pdf");
  INFO(label);
  INFO(sheet);
  const std::string quoted = "What this can do at this strength has not been worked out.";
  CHECK(label.find(quoted) != std::string::npos);
  CHECK(sheet.find("What the label says Hazards not assessed. " + quoted) != std::string::npos);
  CHECK(sheet.find("unknown acute toxicity") == std::string::npos);
  CHECK(text_of(folder / "out/why-f.pdf").find("150,000 mg/kg") != std::string::npos);
}

// CLP Article 17 (2) and 21: what is known of the stronger one stands on the weak one's label,
// where an ingredient is unknown too; organs in the label's language; fire beside other statements.
TEST_CASE("labels say what is suspected beside what is known") {
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "room: {name: R, emergency: Doctor 555 0100}\nproducts:\n  dye: {name: mystery blue}\n"
      "  spirit: {name: ethanol, cas: 64-17-5, form: liquid, density: 0.79 g/mL}\n"
      "  salt: {name: a salt, hazards: {classes: ['STOT RE 2 H373 (kidneys and liver)'], source: "
      "sheet}}\nstocks:\n"
      "  strong: {name: Strong, recipe: {dye: 400 g}, water to: 1 L, density: 1 g/mL, hazards: "
      "{statements: [H318], precautions: [P280: eye protection], source: sheet}, dose: {give: 1 mL "
      "per 10 L}, container: b}\n"
      "  weak: {name: Weak, diluted from: strong, take: 500 mL, water to: 1 L, dose: {give: 1 mL "
      "per 10 L}, container: b}\n"
      "  both: {name: Both, recipe: {spirit: 400 mL, salt: 200 g}, water to: 1 L, dose: {give: 1 "
      "mL "
      "per 10 L}, container: b}\n"
      "containers:\n  b: {holds: 1 L}\n"
      "tools:\n  syringe: {kind: syringe, holds: 10 mL, marks: every 0.5 mL}\n"
      "documents:\n  weak: {type: label, stock: weak, sheet: {paper: roll, label: 140 x 120 mm}}\n"
      "  both: {type: label, stock: both, language: de, sheet: {paper: roll, label: 160 x 140 "
      "mm}}\n");
  const auto run =
      testing::program("print '" + (folder / "room.yaml") + "' --to '" + (folder / "out") + "'");
  INFO(run.err);
  REQUIRE(run.status == 1);
  const std::string weak = text_of(folder / "out/weak.pdf");
  INFO(weak);
  CHECK(weak.find("Stated of the stronger stock") != std::string::npos);
  CHECK(weak.find("Causes serious eye damage.") != std::string::npos);
  const std::string both = text_of(folder / "out/both.pdf");
  INFO(both);
  CHECK(both.find("die Organe (Nieren, Leber)") != std::string::npos);
  CHECK(both.find("Kann brennen oder einen Brand verstärken") != std::string::npos);
  CHECK(both.find("Von Hitze und offenen Flammen fernhalten.") != std::string::npos);
}
