#include "pen.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "dosewright/base/text.hpp"

namespace dosewright {

namespace {

constexpr double kCircle = 0.5522847498307936;  // control length of a quarter circle
constexpr double kHundredthPoint = 25.4 / 7200;
constexpr double kSlack = 0.02;  // mm; rounding may carry an edge this far

double gated(double value, double limit, const char* what) {
  if (!std::isfinite(value)) throw LayoutFault(std::string("not a number: ") + what);
  if (value < -kSlack || value > limit + kSlack) {
    throw LayoutFault(std::string("outside the page: ") + what + " at " + std::to_string(value));
  }
  return std::round(value / kHundredthPoint) * kHundredthPoint;
}

Point gated(const Point& point, const Page& page, const char* what) {
  return {gated(point.x, page.width, what), gated(point.y, page.height, what)};
}

// Half of a strength code: capitals and digits, so many of them; the end of a sentence may follow.
bool is_code_part(std::string_view word, std::size_t size) {
  if (word.size() < size || word.size() > size + 1) return false;
  if (word.size() > size && std::string_view(".,:;)").find(word.back()) == std::string_view::npos)
    return false;
  return std::all_of(word.begin(), word.begin() + static_cast<std::ptrdiff_t>(size),
                     [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); });
}

// "«" and what it opens, "± 7 %", "X4 9RF", "per L", "to 1.4", "mg/kg", "2-mal", "-ätzend".
bool is_one_sign(std::string_view last, std::string_view after, std::string_view next) {
  static const std::vector<std::string_view> per = {"per", "je", "par", "por"};
  static const std::vector<std::string_view> up_to = {
      "to", "hasta", "jusqu’à", "auf", "in", "en", "dans", "then", "luego", "encore", "noch"};
  // A "not" at the end of a line is lost, and the next line says the opposite.
  static const std::vector<std::string_view> negations = {
      "no", "not", "nie", "nicht", "pas", "nunca", "never", "jamais", "No", "Not", "Nicht", "Non"};
  const bool negated = std::find(negations.begin(), negations.end(), last) != negations.end();
  // "copper" at the end of a line is another amount than "copper sulfate".
  static const std::vector<std::string_view> metals = {"sodium",    "potassium", "calcium",
                                                       "magnesium", "ammonium",  "copper"};
  const bool salt = std::find(metals.begin(), metals.end(), last) != metals.end() &&
                    !after.empty() && after.front() >= 'a' && after.front() <= 'z';
  const bool quoted = last.ends_with("«") || last == "±" || after.starts_with("»");
  const bool code = is_code_part(last, 2) && is_code_part(after.substr(0, after.find(' ')), 3);
  const bool for_each = std::find(per.begin(), per.end(), last) != per.end() && next == "L";
  const bool mark = std::find(up_to.begin(), up_to.end(), last) != up_to.end() && !next.empty() &&
                    next.find_first_not_of("0123456789") == std::string_view::npos;
  const bool hyphen =
      last.ends_with('-') && (last.size() == 1 || last == "pH-" || last == "use-" ||
                              last.find_first_not_of("0123456789.,-") == std::string_view::npos);
  return negated || salt || quoted || code || for_each || mark || hyphen || last.ends_with("mg/");
}

// "3 mL" at the start of a sentence or of the text: what it is the size of belongs to it, for alone
// at the end of a line it would be read as a dose.
bool opens_with_a_size(std::string_view before) {
  for (const std::string_view unit : {" mL", " L", " g"}) {
    if (!before.ends_with(unit)) continue;
    before.remove_suffix(unit.size());
    const std::size_t from = before.find_last_not_of("0123456789.,");
    if (from + 1 >= before.size() && from != std::string_view::npos) return false;
    if (from == std::string_view::npos) return !before.empty();
    const std::string_view ahead = before.substr(0, from);
    return before[from] == ' ' && (ahead.ends_with('.') || ahead.ends_with(';'));
  }
  return false;
}

// "Skin Corr. 1B": the name of a class and its category.
bool is_class(std::string_view last, std::string_view next) {
  static const std::vector<std::string_view> names = {"Corr.", "Irrit.", "Dam.",  "Tox.",   "Sens.",
                                                      "Carc.", "Repr.",  "Muta.", "Liq.",   "Sol.",
                                                      "RE",    "SE",     "Acute", "Chronic"};
  const bool category = !next.empty() && next.front() >= '1' && next.front() <= '4';
  if (std::find(names.begin(), names.end(), last) != names.end()) return category;
  // "Eye Dam.", and "Annex I" of where it is found.
  static const std::vector<std::string_view> organs = {"Eye", "Skin", "Aquatic", "Resp."};
  static const std::vector<std::string_view> places = {"Annex",   "annexe",  "Annexe", "Anhang",
                                                       "anexo",   "Anexo",   "Table",  "Tabelle",
                                                       "tableau", "Tableau", "tabla",  "Tabla"};
  const bool effect = std::find(names.begin(), names.end(), next) != names.end() ||
                      std::find(names.begin(), names.end(), std::string(next) + '.') != names.end();
  return (effect && std::find(organs.begin(), organs.end(), last) != organs.end()) ||
         std::find(places.begin(), places.end(), last) != places.end();
}

// A break between these two words would part a number from its unit.
bool belongs_together(std::string_view before, std::string_view after) {
  static const std::vector<std::string_view> units = {
      "mL",       "L",       "g",       "mg",   "kg",    "%",     "US",  "gal",
      "imperial", "°C",      "EUR",     "ppm",  "mg/kg", "mg/L",  "g/L", "g/mL",
      "minutes",  "minutos", "Minuten", "days", "días",  "jours", "Tage"};
  const std::size_t space = before.find_last_of(' ');
  std::string_view last = space == std::string_view::npos ? before : before.substr(space + 1);
  if (last.starts_with('(')) last.remove_prefix(1);
  const std::string_view next = after.substr(0, after.find_first_of(" .,;:"));
  if (opens_with_a_size(before) || is_class(last, next)) return true;
  const bool number =
      !last.empty() && last.find_first_not_of("0123456789.,\xC2\xA0") == std::string_view::npos;
  const bool unit = std::find(units.begin(), units.end(), next) != units.end();
  const bool another =
      !next.empty() && next.find_first_not_of("0123456789") == std::string_view::npos;
  // "1." of a list of steps; a sentence that ends in such a number is rare, and loses nothing.
  const bool step = last.size() == 2 && last[0] >= '1' && last[0] <= '9' && last[1] == '.';
  return step || is_one_sign(last, after, next) || (number && (unit || another)) ||
         (last == "US" && next == "gal");
}

// The pieces between two allowed breaks, each with its trailing space.
std::vector<std::string> pieces_of(std::string_view text) {
  std::vector<std::string> out;
  std::size_t start = 0;
  for (const std::size_t at : line_breaks(text)) {
    const std::string before = trimmed(text.substr(0, at));
    if (belongs_together(before, text.substr(at))) continue;
    out.emplace_back(text.substr(start, at - start));
    start = at;
  }
  out.emplace_back(text.substr(start));
  return out;
}

// Letters at the start of a piece, and what stands before and behind them: "(Natrium" or
// "sulfate,".
std::pair<std::size_t, std::size_t> word_in(const std::string& piece) {
  const auto is_letter = [](char c) {
    return (static_cast<unsigned char>(c) & 0x80U) != 0 ||
           std::isalpha(static_cast<unsigned char>(c)) != 0;
  };
  std::size_t from = 0;
  while (from < piece.size() && !is_letter(piece[from])) ++from;
  std::size_t to = from;
  while (to < piece.size() && is_letter(piece[to])) ++to;
  return {from, to};
}

// A piece that is wider than the line, in parts that are not; as it is where it cannot be broken.
std::vector<std::string> broken(const TextMeasurer& measurer, const std::string& piece,
                                const Type& type, double width) {
  const auto [from, to] = word_in(piece);
  std::vector<std::string> out;
  std::size_t start = 0;
  std::size_t end = 0;
  const auto fits = [&](std::size_t at) {
    return width_of(measurer, piece.substr(start, at - start) + '-', type) <= width;
  };
  for (const std::size_t point : measurer.hyphen_points(piece.substr(from, to - from))) {
    const std::size_t at = from + point;
    if (!fits(at) && end > start) {
      out.push_back(piece.substr(start, end - start) + '-');
      start = end;
    }
    end = at;
  }
  const std::string rest = piece.substr(start);
  if (width_of(measurer, trimmed(rest), type) > width && end > start) {
    out.push_back(piece.substr(start, end - start) + '-');
    start = end;
  }
  out.push_back(piece.substr(start));
  return out;
}

// "2. Fill"
bool is_step(const std::string& piece) {
  return piece.size() > 3 && piece[0] >= '1' && piece[0] <= '9' && piece[1] == '.' &&
         piece[2] == ' ';
}

// Steps in order, each of which begins a line.
bool lists_steps(const std::vector<std::string>& pieces) {
  char next = '1';
  for (const std::string& piece : pieces) {
    if (is_step(piece) && piece.front() == next) ++next;
  }
  return next > '2';
}

std::vector<std::string> filled_lines(const TextMeasurer& measurer,
                                      const std::vector<std::string>& pieces, const Type& type,
                                      double width) {
  std::vector<std::string> lines;
  std::string line;
  const bool steps = lists_steps(pieces);
  for (const std::string& piece : pieces) {
    const bool fits = width_of(measurer, trimmed(line + piece), type) <= width;
    if (!line.empty() && (!fits || (steps && is_step(piece)))) {
      lines.push_back(trimmed(line));
      line.clear();
    }
    line += piece;
    if (width_of(measurer, trimmed(line), type) <= width) continue;
    std::vector<std::string> parts = broken(measurer, line, type, width);
    for (const std::string& part : parts) {
      if (width_of(measurer, trimmed(part), type) > width) return {};
    }
    line = parts.back();
    parts.pop_back();
    lines.insert(lines.end(), parts.begin(), parts.end());
  }
  if (!trimmed(line).empty()) lines.push_back(trimmed(line));
  return lines;
}

// A single word, or an amount alone, which would be read as a dose.
bool is_widow(const std::string& line) {
  std::size_t spaces = 0;
  for (std::size_t at = line.find(' '); at != std::string::npos; at = line.find(' ', at + 1)) {
    if (!belongs_together(line.substr(0, at), line.substr(at + 1))) return false;
    ++spaces;
  }
  return spaces <= 2;
}

bool ends_in_a_widow(const TextMeasurer& measurer, const std::vector<std::string>& lines,
                     const Type& type, double width) {
  constexpr double kLeast = 0.2;  // of the measure: two short words are as lost as one
  return lines.size() > 1 &&
         (is_widow(lines.back()) || width_of(measurer, lines.back(), type) < kLeast * width);
}

}  // namespace

Outline& Outline::move(Point to) {
  steps_.push_back({PathStep::Kind::move, to, {}, {}});
  return *this;
}

Outline& Outline::line(Point to) {
  steps_.push_back({PathStep::Kind::line, to, {}, {}});
  return *this;
}

Outline& Outline::curve(Point control1, Point control2, Point to) {
  steps_.push_back({PathStep::Kind::curve, to, control1, control2});
  return *this;
}

Outline& Outline::close() {
  steps_.push_back({PathStep::Kind::close, {}, {}, {}});
  return *this;
}

Outline& Outline::polygon(const std::vector<Point>& corners) {
  move(corners.front());
  for (std::size_t i = 1; i < corners.size(); ++i) line(corners[i]);
  return close();
}

Outline& Outline::rectangle(const Box& box) {
  return polygon({{box.x, box.y},
                  {box.x + box.width, box.y},
                  {box.x + box.width, box.y + box.height},
                  {box.x, box.y + box.height}});
}

Outline& Outline::circle(Point centre, double radius, bool hole) {
  return ellipse(centre, radius, radius, hole);
}

Outline& Outline::ellipse(Point c, double rx, double ry, bool hole) {
  const double s = hole ? -1 : 1;  // the direction round
  const double kx = rx * kCircle;
  const double ky = s * ry * kCircle;
  const double sy = s * ry;
  move({c.x + rx, c.y});
  curve({c.x + rx, c.y + ky}, {c.x + kx, c.y + sy}, {c.x, c.y + sy});
  curve({c.x - kx, c.y + sy}, {c.x - rx, c.y + ky}, {c.x - rx, c.y});
  curve({c.x - rx, c.y - ky}, {c.x - kx, c.y - sy}, {c.x, c.y - sy});
  curve({c.x + kx, c.y - sy}, {c.x + rx, c.y - ky}, {c.x + rx, c.y});
  return close();
}

Outline& Outline::stroke(Point from, Point to, double width) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (length <= 0) return *this;
  const double nx = -(to.y - from.y) / length * width / 2;
  const double ny = (to.x - from.x) / length * width / 2;
  return polygon({{from.x + nx, from.y + ny},
                  {to.x + nx, to.y + ny},
                  {to.x - nx, to.y - ny},
                  {from.x - nx, from.y - ny}});
}

void Pen::add(const Mark& mark) {
  if (const auto* run = std::get_if<TextRun>(&mark)) {
    TextRun checked = *run;
    if (!(run->size > 0)) throw LayoutFault("type of no size: " + run->text);
    checked.at = gated(run->at, page_, run->text.c_str());
    (void)gated(run->at.x + measurer_.width(run->text, run->face) * run->size, page_.width,
                run->text.c_str());
    page_.marks.emplace_back(std::move(checked));
    return;
  }
  Shape checked = std::get<Shape>(mark);
  for (PathStep& step : checked.steps) {
    if (step.kind == PathStep::Kind::close) continue;
    step.to = gated(step.to, page_, "outline");
    if (step.kind != PathStep::Kind::curve) continue;
    step.control1 = gated(step.control1, page_, "outline");
    step.control2 = gated(step.control2, page_, "outline");
  }
  page_.marks.emplace_back(std::move(checked));
}

void Pen::text(Point baseline, const Type& type, std::string_view words, Ink ink) {
  if (words.empty()) return;
  add(TextRun{baseline, type.size, type.face, ink, with_printers_quotes(words)});
}

void Pen::text_right(Point end, const Type& type, std::string_view words) {
  text({end.x - width_of(words, type), end.y}, type, words);
}

void Pen::text_centred(Point middle, const Type& type, std::string_view words) {
  text({middle.x - width_of(words, type) / 2, middle.y}, type, words);
}

void Pen::rectangle(const Box& box, Ink ink) { fill(Outline().rectangle(box), ink); }

void Pen::rule(double x, double y, double width, double thickness) {
  rectangle({x, y - thickness / 2, width, thickness}, Ink::black);
}

void Pen::frame(const Box& box, double thickness) {
  Outline outline;
  outline.rectangle(box);
  outline.rectangle({box.x + thickness, box.y + thickness, box.width - 2 * thickness,
                     box.height - 2 * thickness});
  fill(outline, Ink::black, true);
}

void Pen::fill(const Outline& outline, Ink ink, bool even_odd) {
  add(Shape{outline.steps(), ink, even_odd});
}

double Pen::width_of(std::string_view words, const Type& type) const {
  return dosewright::width_of(measurer_, words, type);
}

double Pen::cap_height(const Type& type) const {
  return measurer_.metrics(type.face).cap_height * type.size;
}

double Pen::descent(const Type& type) const {
  return measurer_.metrics(type.face).descent * type.size;
}

double width_of(const TextMeasurer& measurer, std::string_view words, const Type& type) {
  return measurer.width(words, type.face) * type.size;
}

std::vector<std::string> wrapped(const TextMeasurer& measurer, std::string_view text,
                                 const Type& type, double width) {
  if (const std::size_t end = text.find('\n'); end != std::string_view::npos) {
    auto out = wrapped(measurer, text.substr(0, end), type, width);
    const auto rest = wrapped(measurer, text.substr(end + 1), type, width);
    if (out.empty() || rest.empty()) return {};
    out.insert(out.end(), rest.begin(), rest.end());
    return out;
  }
  const std::vector<std::string> pieces = pieces_of(with_printers_quotes(text));
  std::vector<std::string> lines = filled_lines(measurer, pieces, type, width);
  if (!ends_in_a_widow(measurer, lines, type, width)) return lines;
  // A narrower measure moves a word down; it must not cost a line.
  for (int percent = 97; percent >= 55; percent -= 3) {
    auto narrower = filled_lines(measurer, pieces, type, width * percent / 100);
    if (narrower.size() == lines.size() && !ends_in_a_widow(measurer, narrower, type, width))
      return narrower;
  }
  return lines;
}

std::string with_printers_quotes(std::string_view words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool opens = i == 0 || words[i - 1] == ' ' || words[i - 1] == '(';
    if (words[i] == '\'')
      out += "’";
    else if (words[i] == '"')
      out += opens ? "“" : "”";
    else
      out += words[i];
  }
  return out;
}

std::string with_soft_spaces(std::string line) {
  constexpr std::string_view kHard = "\xC2\xA0";
  for (std::size_t at = line.find(kHard); at != std::string::npos; at = line.find(kHard, at))
    line.replace(at, kHard.size(), " ");
  return line;
}

Mark scaled(const Mark& mark, double factor) {
  if (const auto* run = std::get_if<TextRun>(&mark)) {
    TextRun out = *run;
    out.at = {run->at.x * factor, run->at.y * factor};
    out.size *= factor;
    return out;
  }
  Shape out = std::get<Shape>(mark);
  for (PathStep& step : out.steps) {
    for (Point* point : {&step.to, &step.control1, &step.control2})
      *point = {point->x * factor, point->y * factor};
  }
  return out;
}

Mark moved(const Mark& mark, double dx, double dy) {
  if (const auto* run = std::get_if<TextRun>(&mark)) {
    TextRun out = *run;
    out.at = {run->at.x + dx, run->at.y + dy};
    return out;
  }
  Shape out = std::get<Shape>(mark);
  for (PathStep& step : out.steps) {
    for (Point* point : {&step.to, &step.control1, &step.control2}) {
      *point = {point->x + dx, point->y + dy};
    }
  }
  return out;
}

}  // namespace dosewright
