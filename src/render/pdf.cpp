// The printer's file: the display list written by libharu. The only file that knows libharu and its
// installed internal headers, which are tied to version 2.3.
#include <hpdf.h>
#include <hpdf_catalog.h>
#include <hpdf_doc.h>
#include <hpdf_objects.h>
#include <hpdf_utils.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <map>
#include <set>
#include <vector>

#include "dosewright/base/text.hpp"
#include "dosewright/render/render.hpp"

namespace dosewright {

namespace {

static_assert(HPDF_MAJOR_VERSION == 2 && HPDF_MINOR_VERSION == 3,
              "the ToUnicode and title repairs below were checked against libharu 2.3 only");

// The first error counts: later calls only repeat that the document is broken.
struct FirstError {
  HPDF_STATUS code = HPDF_OK;
  HPDF_STATUS detail = HPDF_OK;
};

void remember(HPDF_STATUS code, HPDF_STATUS detail, void* user) noexcept {
  auto* first = static_cast<FirstError*>(user);
  if (first->code == HPDF_OK) *first = {code, detail};
}

HPDF_REAL points(double mm) { return static_cast<HPDF_REAL>(mm * 72 / 25.4); }

class PdfWriter {
 public:
  PdfWriter(const Pages& pages, const PdfFacts& facts, const Fonts& fonts)
      : pages_(pages), facts_(facts), fonts_(fonts), doc_(HPDF_New(remember, &error_)) {}
  PdfWriter(const PdfWriter&) = delete;
  PdfWriter& operator=(const PdfWriter&) = delete;
  ~PdfWriter() {
    if (doc_ != nullptr) HPDF_Free(doc_);
  }

  std::variant<std::string, RenderProblem> write() {
    if (doc_ == nullptr) return RenderProblem{"the PDF library could not be started"};
    HPDF_SetCompressionMode(doc_, HPDF_COMP_ALL);
    HPDF_SetPagesConfiguration(doc_, 200);
    HPDF_UseUTFEncodings(doc_);
    load_fonts();
    for (const Page& page : pages_.pages) {
      draw_page(page);
      if (failed()) return problem();
    }
    label_pages();
    set_facts();
    if (failed()) return problem();
    return bytes();
  }

 private:
  [[nodiscard]] bool failed() const { return error_.code != HPDF_OK; }

  [[nodiscard]] RenderProblem problem() const {
    std::array<char, 80> text{};
    (void)std::snprintf(
        text.data(), text.size(), "the PDF could not be made (libharu 0x%04lX, detail %lu)",
        static_cast<unsigned long>(error_.code), static_cast<unsigned long>(error_.detail));
    return {text.data()};
  }

  void load_fonts() {
    for (const Face face : {Face::regular, Face::bold}) {
      const char* name = HPDF_LoadTTFontFromFile(doc_, fonts_.file(face).c_str(), HPDF_TRUE);
      if (name == nullptr) return;
      HPDF_Font font = HPDF_GetFont(doc_, name, "UTF-8");
      if (font != nullptr) put_own_unicode_map(font, face);
      face_[face] = font;
    }
  }

  // libharu's own map of codes to characters uses an operator that readers complain of. Ours lists
  // the characters that are used, each as itself.
  void put_own_unicode_map(HPDF_Font font, Face face) {
    std::set<char32_t> used;
    for (const Page& page : pages_.pages) {
      for (const Mark& mark : page.marks) {
        const auto* run = std::get_if<TextRun>(&mark);
        if (run == nullptr || run->face != face) continue;
        for (const char32_t c : to_characters(run->text)) used.insert(c);
      }
    }
    HPDF_Dict map = HPDF_DictStream_New(doc_->mmgr, doc_->xref);
    if (map == nullptr) return;
    HPDF_Stream_WriteStr(map->stream, unicode_map({used.begin(), used.end()}).c_str());
    HPDF_Dict_Add(font, "ToUnicode", map);
  }

  static std::string unicode_map(const std::vector<char32_t>& used) {
    std::string out =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo\n"
        "<< /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS "
        "def\n"
        "/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    constexpr std::size_t kMost = 100;  // entries a block, ISO 32000-1 9.10.3
    for (std::size_t start = 0; start < used.size(); start += kMost) {
      const std::size_t end = std::min(start + kMost, used.size());
      out += std::to_string(end - start) + " beginbfchar\n";
      for (std::size_t i = start; i < end; ++i) {
        std::array<char, 24> line{};
        const auto code = static_cast<unsigned>(used[i]);
        (void)std::snprintf(line.data(), line.size(), "<%04X> <%04X>\n", code, code);
        out += line.data();
      }
      out += "endbfchar\n";
    }
    return out + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
  }

  void draw_page(const Page& page) {
    HPDF_Page native = HPDF_AddPage(doc_);
    if (native == nullptr) return;
    HPDF_Page_SetWidth(native, points(page.width));
    HPDF_Page_SetHeight(native, points(page.height));
    for (const Mark& mark : page.marks) {
      if (const auto* shape = std::get_if<Shape>(&mark)) draw(native, page, *shape);
      if (const auto* run = std::get_if<TextRun>(&mark)) draw(native, page, *run);
    }
    add_trim_box(native, page);
    add_to_outline(native, page);
  }

  // The paper as it is cut: the whole page. The library only changes boxes that are there.
  static void add_trim_box(HPDF_Page native, const Page& page) {
    HPDF_Array box = HPDF_Array_New(native->mmgr);
    if (box == nullptr) return;
    for (const double edge : {0.0, 0.0, page.width, page.height})
      HPDF_Array_AddReal(box, points(edge));
    HPDF_Dict_Add(native, "TrimBox", box);
  }

  void add_to_outline(HPDF_Page native, const Page& page) {
    HPDF_Encoder encoder = HPDF_GetEncoder(doc_, "UTF-8");
    HPDF_Outline entry = HPDF_CreateOutline(doc_, nullptr, page.title.c_str(), encoder);
    HPDF_Destination target = HPDF_Page_CreateDestination(native);
    HPDF_Destination_SetFit(target);
    HPDF_Outline_SetDestination(entry, target);
    if (pages_.pages.size() > 1) HPDF_SetPageMode(doc_, HPDF_PAGE_MODE_USE_OUTLINE);
  }

  // Shown by readers instead of a bare count: "Buckets 2".
  void label_pages() {
    HPDF_Dict label = HPDF_Dict_New(doc_->mmgr);
    if (label == nullptr) return;
    HPDF_Dict_AddName(label, "S", "D");
    HPDF_Dict_Add(
        label, "P",
        HPDF_String_New(doc_->mmgr, (pages_.title + ' ').c_str(), HPDF_GetEncoder(doc_, "UTF-8")));
    HPDF_Catalog_AddPageLabel(doc_->catalog, 0, label);
  }

  static void set_ink(HPDF_Page native, Ink ink) {
    const Rgb c = colour_of(ink);
    if (ink == Ink::red) {
      HPDF_Page_SetRGBFill(native, static_cast<HPDF_REAL>(c.red), static_cast<HPDF_REAL>(c.green),
                           static_cast<HPDF_REAL>(c.blue));
    } else {
      // Grey as grey: a colour printer then leaves its colours alone.
      HPDF_Page_SetGrayFill(native, static_cast<HPDF_REAL>(c.red));
    }
  }

  static void draw(HPDF_Page native, const Page& page, const Shape& shape) {
    const auto x = [](const Point& p) { return points(p.x); };
    const auto y = [&](const Point& p) { return points(page.height - p.y); };
    set_ink(native, shape.ink);
    for (const PathStep& step : shape.steps) {
      switch (step.kind) {
        case PathStep::Kind::move:
          HPDF_Page_MoveTo(native, x(step.to), y(step.to));
          break;
        case PathStep::Kind::line:
          HPDF_Page_LineTo(native, x(step.to), y(step.to));
          break;
        case PathStep::Kind::curve:
          HPDF_Page_CurveTo(native, x(step.control1), y(step.control1), x(step.control2),
                            y(step.control2), x(step.to), y(step.to));
          break;
        case PathStep::Kind::close:
          HPDF_Page_ClosePath(native);
          break;
      }
    }
    if (shape.even_odd) {
      HPDF_Page_Eofill(native);
    } else {
      HPDF_Page_Fill(native);
    }
  }

  void draw(HPDF_Page native, const Page& page, const TextRun& run) {
    set_ink(native, run.ink);
    HPDF_Page_BeginText(native);
    HPDF_Page_SetFontAndSize(native, face_[run.face], points(run.size));
    HPDF_Page_TextOut(native, points(run.at.x), points(page.height - run.at.y), run.text.c_str());
    HPDF_Page_EndText(native);
  }

  void set_facts() {
    HPDF_SetInfoAttr(doc_, HPDF_INFO_CREATOR, facts_.creator.c_str());
    // The library takes plain bytes for a title; the UTF-8 encoder turns it into what readers
    // expect.
    HPDF_Dict info = doc_->info;
    if (info != nullptr) {
      HPDF_Dict_Add(
          info, "Title",
          HPDF_String_New(doc_->mmgr, facts_.title.c_str(), HPDF_GetEncoder(doc_, "UTF-8")));
    }
    if (facts_.made_at) set_date(*facts_.made_at);
    HPDF_Dict_Add(doc_->catalog, "Lang",
                  HPDF_String_New(doc_->mmgr, facts_.language.c_str(), nullptr));
    HPDF_SetViewerPreference(doc_, HPDF_PRINT_SCALING_NONE);
    doc_->pdf_version = HPDF_VER_16;  // print scaling came with PDF 1.6
  }

  void set_date(long long made_at) {
    using namespace std::chrono;
    const sys_seconds at{seconds(made_at)};
    const sys_days day = floor<days>(at);
    const year_month_day date(day);
    const hh_mm_ss time(at - day);
    HPDF_Date stamp{};
    stamp.year = static_cast<int>(date.year());
    stamp.month = static_cast<int>(static_cast<unsigned>(date.month()));
    stamp.day = static_cast<int>(static_cast<unsigned>(date.day()));
    stamp.hour = static_cast<int>(time.hours().count());
    stamp.minutes = static_cast<int>(time.minutes().count());
    stamp.seconds = static_cast<int>(time.seconds().count());
    stamp.ind = '+';
    HPDF_SetInfoDateAttr(doc_, HPDF_INFO_CREATION_DATE, stamp);
  }

  std::variant<std::string, RenderProblem> bytes() {
    if (HPDF_SaveToStream(doc_) != HPDF_OK) return problem();
    HPDF_ResetStream(doc_);
    std::string out;
    std::vector<HPDF_BYTE> buffer(65536);
    while (true) {
      auto size = static_cast<HPDF_UINT32>(buffer.size());
      const HPDF_STATUS status = HPDF_ReadFromStream(doc_, buffer.data(), &size);
      out.append(reinterpret_cast<const char*>(buffer.data()), size);
      if (status == HPDF_STREAM_EOF || size == 0) return out;
      if (status != HPDF_OK) return problem();
    }
  }

  const Pages& pages_;
  const PdfFacts& facts_;
  const Fonts& fonts_;
  FirstError error_;
  HPDF_Doc doc_;
  std::map<Face, HPDF_Font> face_;
};

// A letter the font lacks would print as an empty box that text search does not show.
std::optional<std::string> missing_letter(const Pages& pages, const Fonts& fonts) {
  for (const Page& page : pages.pages) {
    for (const Mark& mark : page.marks) {
      const auto* run = std::get_if<TextRun>(&mark);
      if (run == nullptr) continue;
      for (const char32_t c : to_characters(run->text)) {
        if (!fonts.covers(c)) return to_utf8({&c, 1}) + " in " + run->text;
      }
    }
  }
  return std::nullopt;
}

}  // namespace

std::variant<std::string, RenderProblem> render_pdf(const Pages& pages, const PdfFacts& facts,
                                                    const Fonts& fonts) {
  if (const auto missing = missing_letter(pages, fonts)) {
    return RenderProblem{"the printing font has no letter for " + *missing};
  }
  return PdfWriter(pages, facts, fonts).write();
}

}  // namespace dosewright
