// Hazards on the label of a bottle that is not as strong as its recipe.
#include <catch2/catch.hpp>

#include "helpers.hpp"

namespace {

std::string quoted(const std::string& text) { return "'" + text + "'"; }

// A room with one stock of one powder, and the label of a half-litre batch of it.
std::string label_words(const std::string& product, const std::string& stock,
                        const std::string& weighed, const std::string& rules = "EU CLP") {
  const testing::TemporaryFolder folder;
  const std::string room =
      "room: {name: Test room, measures: metric, emergency: Doctor 555 0100, hazard rules: " +
      rules +
      "}\n"
      "products:\n  powder:\n    name: test powder\n" +
      product + "stocks:\n  mix:\n    name: Mix\n    recipe: {powder: 20 g}\n    water to: 1 L\n" +
      "    dose: {give: 10 mL per 10 L, for: new water}\n    container: bottle\n" + stock +
      "containers:\n  bottle: {holds: 1 L}\n"
      "tools:\n  cylinder: {kind: cylinder, holds: 100 mL, marks: every 1 mL}\n"
      "documents:\n  mix-label:\n    type: label\n    stock: mix\n"
      "    sheet: {paper: roll, label: 200 x 150 mm}\n";
  testing::write_file(folder / "room.yaml", room);
  const auto run = testing::program(
      "label " + quoted(folder / "room.yaml") + " --stock mix --volume '500 mL' --weighed '" +
      weighed + "' --mixed 2026-11-26 --no-record --to " + quoted(folder / "out"));
  INFO(run.err);
  CHECK(run.status <= 1);
  std::string out;
  for (const auto& entry : testing::fs::directory_iterator(folder / "out"))
    out += testing::shell("pdftotext '" + entry.path().string() + "' - | tr '\\n' ' '").out;
  return out;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

// CLP Annex I, 3.7.4, and Annex VI, 1.1.2.1.2: F and D, f and d name two effects; they are put
// together, the capital of category 1 before the small letter of category 2.
TEST_CASE("label: effects stated and calculated are put together, neither is dropped") {
  const std::string source = ", source: its sheet}\n";
  const auto words = [&](const std::string& listed, const std::string& stated) {
    return label_words("    hazards: {classes: [" + listed + "]" + source,
                       "    hazards: {statements: [" + stated + "]" + source, "20 g");
  };
  const std::string maybe_both =
      "Suspected of damaging fertility. Suspected of damaging the unborn child.";
  CHECK(holds(words("Repr. 2 H361d", "H361fd"), maybe_both));
  CHECK(holds(words("Repr. 2 H361d", "H361f"), maybe_both));
  CHECK(holds(words("Repr. 2 H361f", "H361d"), maybe_both));
  CHECK(holds(words("Repr. 1B H360F", "H360D"),
              "May damage fertility. May damage the unborn child."));
  CHECK(holds(words("Repr. 1B H360F", "H361d"),
              "May damage fertility. Suspected of damaging the unborn child."));
  CHECK(holds(words("Repr. 1B H360D", "H361f"),
              "May damage the unborn child. Suspected of damaging fertility."));
  CHECK(holds(words("Repr. 2 H361f", "H360Df"),
              "May damage the unborn child. Suspected of damaging fertility."));
  CHECK(holds(words("Repr. 2 H361d", "H360"), "May damage fertility or the unborn child."));
}

// The share by weight that the rules count is that of this solution (CLP Annex I, 3.3.3: 10 % for
// Eye Irrit. 2); the density that was weighed for the recipe says nothing of another. 110 g/L
// of a powder of unknown density are 10 % or more of any solution as light as 1.1 g/mL.
TEST_CASE("label: the density weighed for the recipe is not taken for another strength") {
  const std::string listed = "    hazards: {classes: [Eye Irrit. 2 H319], source: its sheet}\n";
  const std::string strong = "    density: 1.29 g/mL\n";
  std::string words = label_words(listed, strong, "55 g");
  INFO(words);
  CHECK(holds(words, "Causes serious eye irritation."));
  CHECK_FALSE(holds(words, "no hazard statement"));
}

// GHS Annex 3: H303, H316 and H401 are statements of the UN that the Union did not take over.
TEST_CASE(
    "label: what the UN alone states is read under its rules, and kept for a stronger bottle") {
  const std::string listed = "    hazards: {classes: [Skin Irrit. 2 H315], source: its sheet}\n";
  const std::string stated =
      "    hazards: {statements: [H303, H316, H401], precautions: [P273], source: its sheet}\n";
  const std::string words = label_words(listed, stated, "50 g", "UN GHS");
  INFO(words);
  CHECK(holds(words, "May be harmful if swallowed."));
  CHECK(holds(words, "Causes skin irritation."));
  CHECK_FALSE(holds(words, "mild skin"));
  CHECK(holds(words, "Toxic to aquatic life."));
}

// CLP Article 9: a test goes before the calculation. Who reads "by calculation" must not be told
// that the calculation finds nothing where only the test does.
TEST_CASE("label: what rests on a test says so") {
  const std::string listed = "    hazards: {classes: [Eye Irrit. 2 H319], source: its sheet}\n";
  const std::string words = label_words(
      listed, "    hazards: {tested: {eyes: none}, source: laboratory report 12}\n", "10 g");
  INFO(words);
  CHECK(holds(words, "by tests of the solution"));
}

// CLP Annex I, 3.2.3.3: per cent by weight. 119 g/L are 12.4 % where a litre weighs 960 g, halfway
// between water and what it was diluted from; the bound is that of the stronger one.
TEST_CASE("hazards: what is diluted from something lighter than water may be lighter than water") {
  const testing::TemporaryFolder folder;
  testing::write_file(
      folder / "room.yaml",
      "room: {name: R, measures: metric, emergency: D}\nproducts:\n  lq:\n    name: light liquid\n"
      "    form: liquid\n    density: 0.99 g/mL\n"
      "    hazards: {classes: [Skin Irrit. 2 H315], limits: {Skin Irrit. 2 H315: from 12.3 %}, "
      "source: its sheet}\nstocks:\n  strong:\n    name: Strong\n    recipe: {lq: 240 g}\n"
      "    water to: 1 L\n    density: 0.92 g/mL\n    dose: {give: 1 mL per 10 L, for: new water}\n"
      "  weak:\n    name: Weak\n    diluted from: strong\n    water to: 1 L\n    strength: 119 "
      "g/L\n"
      "    dose: {give: 1 mL per 10 L, for: new water}\n");
  const auto run = testing::program("hazards " + quoted(folder / "room.yaml") + " --stock weak");
  INFO(run.out << run.err);
  CHECK(holds(run.out, "H315"));
  CHECK(holds(run.out, "0.92 g per mL of what it is diluted from"));
  CHECK_FALSE(holds(run.out, "not no class"));
}
