// The nine hazard pictograms, drawn by hand after UN GHS Annex 1 and CLP Annex V: a square standing
// on a point, black symbol, white ground, red frame.
//
// Each symbol is a list of parts laid over each other, in a space whose square reaches 100 from the
// middle to each point. A part is a path: M, L, C, Z as in SVG; O is an ellipse (centre, radii), S
// a straight stroke (from, to, width), R the same with round ends.
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
       // the blast, wider outwards, mostly to the upper right and to the left
       "M 9 5 L 60 6 L 60 1.5 L 9 3 Z M 8.5 1 L 56.5 -9 L 55 -14.5 L 8 -1 Z "
       "M 7.5 -3 L 43 -22 L 39.5 -27.5 L 6 -5 Z M 4.5 -6.5 L 34.5 -36.5 L 30 -41 L 3 -8 Z "
       "M 1 -9 L 21 -49 L 13.5 -52 L -1 -10 Z M -3 -10.5 L 0.5 -30 L -3 -31 L -4.5 -11 Z "
       "M -18 -5 L -36 -16.5 L -38 -13.5 L -19 -3.5 Z "
       "M -20.5 -0.5 L -60 -9.5 L -61 -5 L -21 1.5 Z M -21 4 L -55 4.5 L -55 7.5 L -21 5.5 Z "
       "M -20 8.5 L -53 19 L -50.5 24.5 L -19.5 10.5 Z M -17.5 14 L -36 29.5 L -32 34 L -16 15.5 Z "
       "M -3.5 19 L -1.5 30.5 L 1.5 30 L -2 18.5 Z M 2.5 16.5 L 16 35 L 19.5 32.5 L 4 15 Z "
       "M 8 9.5 L 40 23 L 42.5 17.5 L 8.5 7.5 Z "
       // splinters between
       "M 41 -4 L 46 -7 L 50 -2 L 44 -0.5 Z M 38 -16 L 43 -20 L 46 -17 L 41 -13.5 Z "
       "M -10 -42 L -2 -45 L 0 -37 L -6 -33 L -11 -37 Z M -23 -28 L -16 -31 L -13 -24 L -19 -20 Z "
       "M -35 -33 L -30 -35 L -27 -29 L -33 -27 Z M -52 -1 L -47 -3 L -44 1 L -49 2 Z "
       "M -45 14 L -50 14.5 L -49 10.5 L -43 10 Z M -22 36 L -17 30 L -12 35 L -17 41 Z "
       "M 22 23 L 28 23 L 31 30 L 25 31 Z M 6 36 L 10 35 L 13 41 L 7 42 Z "
       "M 45 10 L 50 9 L 53 14 L 47 14 Z"},
      // the bomb, torn in two
      {Ink::white, "O -6 4 19 19"},
      {Ink::black, "O -6 4 16.5 16.5"},
      {Ink::white,
       "M -26 6 L -17 1 L -10.5 8 L -5 -3 L 1 3 L 6 -5 L 14 -8 L 14 -1 L 8 2 L 2.5 9.5 L -3.5 4 "
       "L -9.5 15 L -16.5 8 L -26 13 Z"},
  };
  return parts;
}

const Symbol& flame() {
  static const Symbol parts = {
      {Ink::black,
       "M 0 -68 C 0 -56 13 -46 12 -27 C 17 -32 20 -39 19 -49 C 28 -38 28 -27 24 -13 "
       "C 31 -17 34 -23 34 -32 C 42 -20 39 -10 35 2 C 39 0 42 -4 43 -11 C 49 14 38 33 9 34 "
       "L -9 34 C -39 33 -47 12 -43 -14 C -41 -8 -38 -3 -34 -1 C -39 -14 -39 -25 -33 -37 "
       "C -32 -29 -29 -22 -24 -18 C -29 -32 -27 -43 -18 -53 C -18 -43 -16 -35 -10 -30 "
       "C -14 -47 -1 -54 0 -68 Z M -28.5 40 L 28.5 40 L 28.5 47 L -28.5 47 Z"},
      {Ink::white,
       "M 1 -19 C 1 -10 9 -5 9 5 C 13 2 15 -3 14 -9 C 21 0 21 8 18 15 C 22 13 24 10 25 6 "
       "C 28 20 19 32 3 34.5 L -4 34.5 C -20 32 -29 20 -24 4 C -23 9 -21 12 -18 14 "
       "C -21 5 -19 -4 -13 -11 C -13 -4 -11 1 -7 4 C -9 -7 1 -10 1 -19 Z"},
  };
  return parts;
}

const Symbol& flame_over_circle() {
  static const Symbol parts = {
      {Ink::black,
       "M 0 -73 C 1 -62 12 -54 11 -38 C 15 -42 18 -48 17 -57 C 25 -47 26 -36 23 -25 "
       "C 28 -29 31 -35 30 -43 C 38 -31 37 -22 34 -12 C 37 -14 39 -18 40 -23 C 43 -2 36 14 22 24 "
       "L -22 24 C -36 14 -43 -2 -40 -25 C -39 -19 -36 -14 -33 -12 C -37 -24 -36 -34 -29 -44 "
       "C -29 -36 -27 -30 -23 -25 C -26 -38 -25 -48 -16 -58 C -17 -48 -14 -42 -10 -38 "
       "C -12 -54 -1 -60 0 -73 Z"},
      {Ink::white,
       "M 0 -41 C 1 -33 6 -30 6 -22 C 9 -24 11 -28 11 -33 C 17 -26 18 -20 16 -14 "
       "C 20 -13 22 -15 24 -20 C 29 -12 31 -2 25 6 L -25 6 C -31 -2 -29 -12 -24 -20 "
       "C -22 -15 -20 -13 -16 -14 C -18 -21 -17 -28 -11 -34 C -11 -28 -9 -25 -6 -22 "
       "C -7 -31 0 -33 0 -41 Z"},
      {Ink::black, "O 0 13 25 25 M -29 37 L 29 37 L 29 46 L -29 46 Z"},
      {Ink::white, "O 0 13 18 18"},
  };
  return parts;
}

const Symbol& gas_cylinder() {
  static const Symbol parts = {
      {Ink::black,
       "M -48 -1.5 L 20.5 -20 C 27.5 -22 29.5 -13 35.5 -14 L 48 -17.5 C 53.5 -19 55.5 -10.5 "
       "50.5 -9 L 38 -5.5 C 32 -3.5 34.5 5 28 7 L -41 25.5 C -44.5 26.5 -48 22 -50 13.5 "
       "C -52.5 5 -52 -0.5 -48 -1.5 Z"},
  };
  return parts;
}

const Symbol& corrosion() {
  static const Symbol parts = {
      // the two tubes, the liquid at their mouths, their rims
      {Ink::black, "S -41 -24 -9 -31 13 O -9 -31 6.5 6.5 S 41 -24 9 -31 13 O 9 -31 6.5 6.5"},
      {Ink::white, "S -42 -23.8 -9 -31 8 O -9 -31 4 4 S 42 -23.8 9 -31 8 O 9 -31 4 4"},
      {Ink::black,
       "M -42.5 -26 L -12 -26 L -41 -18.5 Z M 42.5 -26 L 12 -26 L 41 -18.5 Z "
       "S -42.6 -31.5 -39 -15 3 S 42.6 -31.5 39 -15 3 "
       // the drops
       "M -39 -16 C -36 -10 -35.5 -9 -36 -7.5 C -37 -4.5 -41 -4.5 -42 -7.5 C -42.5 -9 -42 -10 "
       "-39 -16 Z M 39 -16 C 42 -10 42.5 -9 42 -7.5 C 41 -4.5 37 -4.5 36 -7.5 C 35.5 -9 36 -10 "
       "39 -16 Z "
       // the block, eaten into
       "M -56.5 8 L -8 8 L -8 19 L -56.5 19 Z"},
      {Ink::white, "O -38 7 9.5 6.5"},
      {Ink::black,
       "M -38 -3 C -35 3 -34.5 4 -35 5.5 C -36 8.5 -40 8.5 -41 5.5 C -41.5 4 -41 3 -38 -3 Z "
       // the fumes
       "M -55 -11 C -50 -6 -57 -1 -52 4 L -48.5 4 C -53.5 -1 -46.5 -6 -51.5 -11 Z "
       "M -28 -11 C -23 -6 -30 -1 -25 4 L -21.5 4 C -26.5 -1 -19.5 -6 -24.5 -11 Z "
       "M 24 -11 C 19 -6 26 -1 21 4 L 24.5 4 C 29.5 -1 22.5 -6 27.5 -11 Z "
       "M 51 -11 C 46 -6 53 -1 48 4 L 51.5 4 C 56.5 -1 49.5 -6 54.5 -11 Z "},
      // the hand, eaten into: four fingers, the palm, the thumb on top
      {Ink::black,
       "R 15 13.6 34 13.6 6.6 R 12 18 34 18 6.6 R 14 22.4 34 22.4 6.6 R 19 26.6 34 26.6 6.2 "
       "R 25 10 34 11 6.4 "
       "M 30 6.8 L 33 5.8 C 34 12 41 12 43 6.5 L 48 8.5 L 55 7.5 L 51.5 24 L 46 25.5 L 40 29.7 "
       "L 30 29.7 Z"},
      {Ink::white,
       "R 15 13.6 34 13.6 2.4 R 12 18 34 18 2.4 R 14 22.4 34 22.4 2.4 R 19 26.6 34 26.6 2.2 "
       "M 31 15 L 33 10.5 C 35 14.5 42 14.5 44.5 9.5 L 48 11 L 56 10 L 53.5 21.5 L 45 22.8 "
       "L 39 27.6 L 32 27.6 Z R 25 10 33 11.5 2"},
      {Ink::black, "M 38 -4 C 41 1 41.5 2 41 3.5 C 40 6.5 36 6.5 35 3.5 C 34.5 2 35 1 38 -4 Z"},
  };
  return parts;
}

const Symbol& skull_and_crossbones() {
  static const Symbol parts = {
      {Ink::black,
       "S -44 -10 41 23 11 S 44 -10 -41 23 11 O -44 -15 6.5 6.5 O -48 -6 6.5 6.5 "
       "O 44 -15 6.5 6.5 O 48 -6 6.5 6.5 O -46 18 6.5 6.5 O -39.5 27 6.5 6.5 O 46 18 6.5 6.5 "
       "O 39.5 27 6.5 6.5"},
      {Ink::white,
       "S -44 -10 41 23 5.5 S 44 -10 -41 23 5.5 O -44 -15 3.8 3.8 O -48 -6 3.8 3.8 "
       "O 44 -15 3.8 3.8 O 48 -6 3.8 3.8 O -46 18 3.8 3.8 O -39.5 27 3.8 3.8 O 46 18 3.8 3.8 "
       "O 39.5 27 3.8 3.8"},
      {Ink::black,
       "M 0 -58 C 20 -58 32 -46 32 -29 C 32 -23 31 -19 28 -15 L 27 -6 C 27 -2 24 0 19 2 L 18 15 "
       "C 18 22 9 25 0 25 C -9 25 -18 22 -18 15 L -19 2 C -24 0 -27 -2 -27 -6 L -28 -15 "
       "C -31 -19 -32 -23 -32 -29 C -32 -46 -20 -58 0 -58 Z"},
      {Ink::white,
       "M 0 -54.5 C 18 -54.5 28.5 -44 28.5 -29 C 28.5 -24 27.5 -20 24.7 -16.5 L 23.7 -7 "
       "C 23.5 -4 21 -2.5 15.8 -0.8 L 14.7 14 C 14.5 19 8 21.5 0 21.5 C -8 21.5 -14.5 19 -14.7 14 "
       "L -15.8 -0.8 C -21 -2.5 -23.5 -4 -23.7 -7 L -24.7 -16.5 C -27.5 -20 -28.5 -24 -28.5 -29 "
       "C -28.5 -44 -18 -54.5 0 -54.5 Z"},
      {Ink::black,
       "M 5 -21 C 7 -28 20 -30 22.5 -23 C 24 -15 20 -10 14 -10.5 C 8 -11 4 -15 5 -21 Z "
       "M -5 -21 C -7 -28 -20 -30 -22.5 -23 C -24 -15 -20 -10 -14 -10.5 C -8 -11 -4 -15 -5 -21 Z "
       "M 0 -13 C 3 -9 6 -5 5 -2 C 3 -1 1.5 -2 0 -4 C -1.5 -2 -3 -1 -5 -2 C -6 -5 -3 -9 0 -13 Z "
       "S -15 9 15 9 2.4 S -7.5 3.5 -7.5 15 2.4 S 0 3.5 0 16 2.4 S 7.5 3.5 7.5 15 2.4"},
  };
  return parts;
}

const Symbol& exclamation_mark() {
  static const Symbol parts = {
      {Ink::black,
       "M -14.5 -46 C -14.5 -58 14.5 -58 14.5 -46 C 14.5 -43 8 5 7.5 9 C 6.5 16.5 -6.5 16.5 "
       "-7.5 9 C -8 5 -14.5 -43 -14.5 -46 Z O 0 34 12 12"},
  };
  return parts;
}

const Symbol& health_hazard() {
  static const Symbol parts = {
      {Ink::black,
       "M 0 -66 C 12 -66 21 -56 21 -44 C 21 -33 17 -25 12 -19 L 12 -10 C 22 -3 46 -5 48 9 "
       "L 48 20 L 0 67 L -48 20 L -48 9 C -46 -5 -22 -3 -12 -10 L -12 -19 C -17 -25 -21 -33 "
       "-21 -44 C -21 -56 -12 -66 0 -66 Z"},
      {Ink::white,
       // the star bursting from the chest, ragged
       "M 0 -22 L 2 -12 L 1.5 -8 L 3.5 -4 L 3 0 L 6 6 L 11 6 L 13 3 L 18 3.5 L 21 0.5 L 25 1 "
       "L 32 -3 L 26 4 L 23 4.5 L 21 8 L 17 9 L 15.5 13 L 11.5 15 L 12 20 L 17 22 L 19 26 L 23 27 "
       "L 25 31 L 29 32 L 34 38 L 26 35 L 23 32 L 19 32 L 16 28.5 L 11 28 L 7 25 L 5 30 L 5.5 34 "
       "L 3 38 L 3.5 44 L 2 48 L 2.5 53 L 1 56 L 0 68 L -1 56 L -2.5 52 L -2 46 L -3.5 43 L -3 37 "
       "L -5.5 33 L -5 28 L -8 25 L -12 28.5 L -16 28 L -19 32 L -24 31.5 L -27 35 L -34 38 "
       "L -29 32 L -25 30 L -22 26 L -18 25 L -16 21 L -11.5 20 L -12 15 L -16 12.5 L -17 9 "
       "L -22 8 L -24 4 L -27 3.5 L -32 -3 L -25 0.5 L -21 1 L -18 4 L -13 3.5 L -10 6.5 L -6 6 "
       "L -3 -1 L -3.5 -5 L -1.5 -9 L -2 -13 Z "
       "O 13 -3 1.8 1.8 O -11 -4 1.6 1.6 O -17 17 1.8 1.8 O 19 15 1.6 1.6 O 12 39 1.8 1.8 "
       "O -11 36 1.6 1.6"},
      {Ink::black, "O 5 14 1.6 1.6 O -6 18 1.8 1.8 O 2 24 1.5 1.5 O -3 9 1.4 1.4"},
  };
  return parts;
}

const Symbol& environment() {
  static const Symbol parts = {
      {Ink::black,
       // the water line
       "M -46 -1 L 24 -1 L 24 1.6 L -46 1.6 Z "
       // the dead tree
       "M -25 31 L -20 23 L -20 -5 L -29 -10 L -40 -6.5 L -44 -10.5 L -30 -16 L -22 -13 L -25 -24 "
       "L -38 -33 L -36 -36 L -26.5 -30.5 L -28 -46 L -24.5 -47 L -20 -30 L -15 -19 L -12.5 -31 "
       "L -14 -54 L -10.5 -54 L -7.5 -37 L 0 -50 L 3 -48 L -4.5 -28 L -7 -15 L 2 -20 L 12 -33 "
       "L 15 -31 L 7 -16 L -4 -10 L -7.5 -4 L -7.5 22 L -2 31 Z "
       // the ground
       "M -42 34 L -42 31.5 C -34 30 -30 28 -22 27 L -4 27 L 10 22 L 28 16 L 37 20 L 31 23 "
       "L 42 24 L 37 28 L 42 30 L 42 34 Z "
       // the fish
       "M 14 20 C 12 8 22 -9 46 -14 L 43 -8 L 52 -10 C 53 8 40 22 20.5 26 L 13 34 L 11 29 "
       "L 1 23 Z"},
      {Ink::white,
       "M 16.5 21.5 C 15 9 25 -6 41.5 -10 L 37.5 -4 L 49.5 -6.5 C 49 7 38 19.5 19 23.8 L 13.9 29.8 "
       "L 12.8 27 L 7.5 23.8 Z"},
      {Ink::black, "O 37.5 0.5 2.6 2.6 M 28 -5 C 33 -1 36 5 36 12 L 34 13 C 33.5 6 31 0 26.5 -4 Z"},
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
      if (step == 'M' || step == 'O' || step == 'S' || step == 'R') pieces.emplace_back();
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
        case 'R': {
          const Point from = point();
          const Point to = point();
          const double width = number() * scale_;
          outline.stroke(from, to, width);
          for (const Point end : {from, to}) pieces.emplace_back().circle(end, width / 2);
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
