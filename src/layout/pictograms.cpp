// The nine hazard pictograms, drawn by hand after UN GHS Annex 1 and CLP Annex V: a square standing
// on a point, black symbol, white ground, red frame.
//
// Each symbol is a list of parts laid over each other, in a space whose square reaches 100 from the
// middle to each point. A part is a path: M, L, C, Z as in SVG; O is an ellipse (centre, radii), S
// a straight stroke (from, to, width).
#include <cmath>
#include <map>
#include <numbers>
#include <sstream>
#include <vector>

#include "signs.hpp"

namespace dosewright {

namespace {

struct Part {
  Ink ink;
  const char* path;
};

using Symbol = std::vector<Part>;

const Symbol& exploding_bomb() {
  static const Symbol parts = {
      {Ink::black,
       "O -10 6 15 15 "
       "M -2 -2 L 14 -54 L 19 -52 L 4 0 Z M 2 -2 L 34 -42 L 37 -39 L 5 2 Z "
       "M 4 0 L 54 -21 L 55.5 -17.5 L 5 5 Z M 4 4 L 66 2 L 66 5 L 4 8 Z "
       "M 2 8 L 40 22 L 38 25 L 0 12 Z M -4 12 L 18 36 L 15 38 L -8 16 Z "
       "M -14 -4 L -22 -40 L -18.5 -41 L -9 -6 Z M -18 -2 L -50 -22 L -48.5 -25 L -14 -5 Z "
       "M -20 4 L -66 6 L -66 3.5 L -20 1 Z M -20 10 L -50 26 L -48 29 L -16 14 Z "
       "M -14 16 L -26 40 L -22.5 41.5 L -9 17 Z "
       "M 18 -54 L 25 -52 L 22 -46 L 16 -47 Z M 36 -38 L 43 -41 L 42 -34 L 37 -33 Z "
       "M 44 -10 L 53 -13 L 56 -8 L 47 -4 Z M 44 10 L 54 10 L 50 17 L 43 15 Z "
       "M 22 26 L 31 30 L 26 36 L 21 32 Z M -8 -52 L -1 -50 L -3 -42 L -9 -44 Z "
       "M -38 -34 L -31 -36 L -30 -29 L -37 -27 Z M -46 -8 L -38 -7 L -40 0 L -47 -2 Z "
       "M -44 32 L -36 34 L -40 41 L -46 38 Z M -4 40 L 3 42 L 0 49 L -6 46 Z"},
      {Ink::white,
       "M 6 -10 L -4 -1 L -7 -6 L -12 3 L -17 -1 L -13 9 L -6 5 L -3 10 L 4 2 L 9 4 L 7 -4 Z"},
  };
  return parts;
}

const Symbol& flame() {
  static const Symbol parts = {
      {Ink::black,
       "M 2 -62 C 5 -46 18 -38 15 -21 C 21 -26 22 -34 20 -43 C 32 -30 37 -17 32 -3 C 37 -7 39 -13 "
       "38 -20 C 47 -2 43 31 9 32 L -9 32 C -43 31 -47 2 -37 -15 C -37 -7 -35 -2 -30 1 C -34 -14 "
       "-30 -29 -17 -38 C -19 -29 -17 -22 -12 -18 C -13 -36 0 -44 2 -62 Z "
       "M -31 38 L 31 38 L 31 45 L -31 45 Z"},
      {Ink::white,
       "M 0 -10 C 4 0 12 4 11 14 C 14 12 15 9 15 4 C 22 14 19 30 5 32.2 L -6 32.2 C -20 30 -22 16 "
       "-15 6 C -15 11 -13 14 -10 15 C -11 5 -3 0 0 -10 Z"},
  };
  return parts;
}

const Symbol& flame_over_circle() {
  static const Symbol parts = {
      {Ink::black,
       "M 1 -72 C 4 -58 11 -53 10 -41 C 14 -45 15 -50 13 -57 C 22 -48 26 -39 24 -28 C 28 -31 29 "
       "-35 "
       "28 -40 C 37 -26 37 -4 26 10 L -26 10 C -37 -4 -37 -22 -29 -37 C -29 -32 -28 -29 -24 -27 C "
       "-27 -38 -23 -47 -14 -54 C -15 -47 -13 -43 -9 -41 C -10 -53 -2 -58 1 -72 Z"},
      {Ink::white,
       "M 0 -43 C 3 -36 8 -33 8 -26 C 11 -28 12 -31 12 -34 C 19 -27 23 -17 20 -6 L -20 -6 C -23 "
       "-17 "
       "-20 -26 -13 -33 C -13 -29 -12 -27 -9 -25 C -9 -33 -2 -36 0 -43 Z"},
      {Ink::black, "O 0 13 26 26 M -28 40 L 28 40 L 28 48 L -28 48 Z"},
      {Ink::white, "O 0 13 18.5 18.5"},
  };
  return parts;
}

const Symbol& gas_cylinder() {
  static const Symbol parts = {
      {Ink::black,
       "S -40 9.6 24 -6.4 22 O -40 9.6 11 11 "
       "M 24.7 4.7 C 33 2 35 -2 36.4 -5 L 34.3 -13.2 C 30 -16.4 26 -18 19.3 -16.5 Z "
       "S 31 -8.2 52 -13.4 8.5 O 52 -13.4 4.25 4.25"},
  };
  return parts;
}

const Symbol& corrosion() {
  static const Symbol parts = {
      {Ink::black,
       "S -40 -33 -8 -38 12 O -8 -38 6 6 S 40 -33 8 -38 12 O 8 -38 6 6 "
       "S -42 -40 -39.6 -25 3 S 42 -40 39.6 -25 3"},
      {Ink::white,
       "S -39.5 -33.1 -8 -38 7.5 O -8 -38 3.7 3.7 S 39.5 -33.1 8 -38 7.5 O 8 -38 3.7 3.7"},
      {Ink::black,
       "S -39 -31 -14 -35 4 S 39 -31 14 -35 4 "
       // the drops
       "M -39 -24 C -35 -18 -34.5 -15.5 -35.5 -13.5 C -37 -11 -41 -11 -42.5 -13.5 C -43.5 -15.5 "
       "-43 -18 -39 -24 Z "
       "M 39 -24 C 43 -18 43.5 -15.5 42.5 -13.5 C 41 -11 37 -11 35.5 -13.5 C 34.5 -15.5 35 -18 39 "
       "-24 Z "
       // the fumes
       "M -52 -14 C -46 -9 -56 -6 -50 -1 L -47.4 -1 C -53 -6 -43 -9 -49 -14 Z "
       "M -29 -14 C -23 -9 -33 -6 -27 -1 L -24.4 -1 C -30 -6 -20 -9 -26 -14 Z "
       "M 26 -14 C 20 -9 30 -6 24 -1 L 26.6 -1 C 33 -6 23 -9 29 -14 Z "
       "M 49 -14 C 43 -9 53 -6 47 -1 L 49.6 -1 C 56 -6 46 -9 52 -14 Z "
       // the block with its pit, and the hand
       "M -70 3 L -8 3 L -8 15 L -70 15 Z "
       "M 64 2 L 48 2 C 44 6 36 6 32 3 C 27 2 20 1 15 3 C 11 5 12 9 16 9.5 C 12 11 12 15 17 15.5 C "
       "15 "
       "17.5 17 20 21 20 C 30 21 42 21 64 19 Z"},
      {Ink::white,
       "O -39 2 9 6 "
       "M 64 5 L 49 5 C 44.5 9 36 9.2 31 6 C 26 5 20 4.4 17.4 5.4 C 17.4 6.6 20 6.8 27 7.2 L 27 "
       "10.2 C "
       "21 10.6 17.6 11 17.6 12 C 18 12.8 20 12.7 27 12.7 L 27 15.4 C 21 15.8 20.4 16.8 22.4 17.2 "
       "C 30 "
       "18.2 42 18.2 64 16.2 Z"},
  };
  return parts;
}

const Symbol& skull_and_crossbones() {
  static const Symbol parts = {
      {Ink::black,
       "S -40 -9 40 27 12 S 40 -9 -40 27 12 O -42 -15 7.5 7.5 O -47 -6 7.5 7.5 O 42 -15 7.5 7.5 "
       "O 47 -6 7.5 7.5 O -47 24 7.5 7.5 O -42 33 7.5 7.5 O 47 24 7.5 7.5 O 42 33 7.5 7.5"},
      {Ink::white,
       "S -40 -9 40 27 6.5 S 40 -9 -40 27 6.5 O -42 -15 4.6 4.6 O -47 -6 4.6 4.6 O 42 -15 4.6 4.6 "
       "O 47 -6 4.6 4.6 O -47 24 4.6 4.6 O -42 33 4.6 4.6 O 47 24 4.6 4.6 O 42 33 4.6 4.6"},
      {Ink::black,
       "M -32 -32 C -32 -70 32 -70 32 -32 C 32 -22 28 -15 19 -10 L 17 12 C 10 18 -10 18 -17 12 L "
       "-19 "
       "-10 C -28 -15 -32 -22 -32 -32 Z"},
      {Ink::white,
       "M -28.6 -32 C -28.6 -65 28.6 -65 28.6 -32 C 28.6 -24 25 -18 15.8 -12.4 L 13.8 10 C 8 14.2 "
       "-8 "
       "14.2 -13.8 10 L -15.8 -12.4 C -25 -18 -28.6 -24 -28.6 -32 Z"},
      {Ink::black,
       "O -12.5 -26 8.8 7.6 O 12.5 -26 8.8 7.6 M 0 -17 L 5.4 -6 L 0 -8 L -5.4 -6 Z "
       "S -7 1 -7 12.5 1.8 S 0 1 0 13.5 1.8 S 7 1 7 12.5 1.8 S -14 1 14 1 1.8"},
  };
  return parts;
}

const Symbol& exclamation_mark() {
  static const Symbol parts = {
      {Ink::black,
       "M -13.5 -50 C -13.5 -60 13.5 -60 13.5 -50 L 8 9 C 7 16 -7 16 -8 9 Z O 0 32 11.5 11.5"},
  };
  return parts;
}

const Symbol& health_hazard() {
  static const Symbol parts = {
      {Ink::black,
       "O 0 -43 20 23 M -11.5 -28 L 11.5 -28 L 11.5 -12 C 20 -3 45 -6 48 8 L 48 20 L 0 67 L -48 20 "
       "L "
       "-48 8 C -45 -6 -20 -3 -11.5 -12 Z"},
      {Ink::white,
       "M 0 -20 L 4 8 L 31 0 L 9.5 17 L 30 36 L 5 27 L 0 64 L -5 27 L -30 36 L -9.5 17 L -31 0 L "
       "-4 8 "
       "Z O 14 5 2 2 O -15 27 2.2 2.2 O 6 -2 1.7 1.7 O -13 4 1.8 1.8 O 15 28 1.9 1.9 O -6 37 1.8 "
       "1.8 "
       "O 6 42 1.7 1.7"},
  };
  return parts;
}

const Symbol& environment() {
  static const Symbol parts = {
      {Ink::black,
       // the dead tree
       "M -22 24 L -17 6 L -18 -12 L -8 -12 L -8 6 L -2 24 Z "
       "M -18 -10 L -22 -20 L -38 -30 L -36 -33 L -22 -26 L -29 -46 L -25.5 -47 L -17 -25 L -13 "
       "-12 Z "
       "M -15 -12 L -12 -30 L -16 -48 L -12.5 -49 L -8 -34 L -2 -44 L 1 -42 L -6 -28 L -8 -12 Z "
       "M -11 -12 L -4 -20 L 12 -28 L 14 -25 L 0 -15 L -8 -8 Z "
       "M -18 -6 L -30 -14 L -42 -12 L -42 -15.5 L -29 -18 L -18 -14 Z "
       // the water line and the ground
       "M -44 0 L -19 0 L -19 2 L -44 2 Z M -7 0 L 20 0 L 20 2 L -7 2 Z "
       "M -46 36 L -36 33 L -22 30 L -20 23 L -4 23 L -2 30 L 12 25 L 26 20 L 34 26 L 31 30 L 46 "
       "33 L 46 38 L -46 38 Z "
       // the fish, belly up
       "M 4 27 L 12 23 C 12 10 24 -7 46 -8 C 50 8 38 24 19 27 L 14 36 Z"},
      {Ink::white,
       "M 9 27.4 L 14.6 24.4 C 14.4 11 26 -4 43.6 -5.4 C 46 8 35 22 18 24.4 L 14 30.8 Z"},
      {Ink::black, "O 37 3 2.4 2.4 S 31 -1 39 11 1.6"},
  };
  return parts;
}

const Symbol& symbol_of(const std::string& code) {
  static const std::map<std::string, const Symbol& (*)()> symbols = {
      {"GHS01", exploding_bomb},   {"GHS02", flame},         {"GHS03", flame_over_circle},
      {"GHS04", gas_cylinder},     {"GHS05", corrosion},     {"GHS06", skull_and_crossbones},
      {"GHS07", exclamation_mark}, {"GHS08", health_hazard}, {"GHS09", environment}};
  const auto found = symbols.find(code);
  if (found == symbols.end()) throw LayoutFault("no pictogram " + code);
  return found->second();
}

// Turns a part's path into an outline on the page.
class PathReader {
 public:
  PathReader(const char* path, Point centre, double scale)
      : in_(path), centre_(centre), scale_(scale) {}

  // One outline a closed piece: pieces that overlap must not cancel each other out.
  std::vector<Outline> read() {
    std::vector<Outline> pieces;
    char step = 0;
    while (in_ >> step) {
      if (step == 'M' || step == 'O' || step == 'S') pieces.emplace_back();
      Outline& outline = pieces.back();
      switch (step) {
        case 'M':
          outline.move(point());
          break;
        case 'L':
          outline.line(point());
          break;
        case 'C': {
          const Point a = point();
          const Point b = point();
          outline.curve(a, b, point());
          break;
        }
        case 'O': {
          const Point middle = point();
          const double rx = number() * scale_;
          outline.ellipse(middle, rx, number() * scale_);
          break;
        }
        case 'S': {
          const Point from = point();
          const Point to = point();
          outline.stroke(from, to, number() * scale_);
          break;
        }
        default:
          outline.close();
          break;
      }
    }
    return pieces;
  }

 private:
  double number() {
    double value = 0;
    in_ >> value;
    return value;
  }
  Point point() {
    const double x = number();
    return {centre_.x + x * scale_, centre_.y + number() * scale_};
  }

  std::istringstream in_;
  Point centre_;
  double scale_;
};

void diamond(Pen& pen, Point centre, double half, Ink ink) {
  pen.fill(Outline().polygon({{centre.x, centre.y - half},
                              {centre.x + half, centre.y},
                              {centre.x, centre.y + half},
                              {centre.x - half, centre.y}}),
           ink);
}

}  // namespace

double pictogram_width(double side) { return side * std::numbers::sqrt2; }

void draw_pictogram(Pen& pen, const std::string& code, Point centre, double side) {
  constexpr double kFrame = 0.08;  // of the side; no law fixes it, it must be "clearly visible"
  const double half = pictogram_width(side) / 2;
  diamond(pen, centre, half, Ink::red);
  diamond(pen, centre, half * (1 - 2 * kFrame), Ink::white);
  for (const Part& part : symbol_of(code)) {
    for (const Outline& piece : PathReader(part.path, centre, half / 100).read()) {
      pen.fill(piece, part.ink);
    }
  }
}

}  // namespace dosewright
