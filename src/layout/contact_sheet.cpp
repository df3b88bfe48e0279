// A contact sheet: every page of every document small, for looking at them all at once.
#include <algorithm>
#include <cmath>

#include "dosewright/layout/documents.hpp"
#include "pen.hpp"

namespace dosewright {

namespace {

constexpr double kMargin = 10;
constexpr double kGap = 8;
constexpr double kShare = as_ratio(kContactShare);
constexpr double kFrame = 0.2;
constexpr Type kTitle{7, Face::bold};
constexpr Type kCaption{3.4, Face::regular};

struct Small {
  const Page* page = nullptr;
  std::vector<std::string> caption;
  double width = 0;  // with its caption
  double height = 0;
};

struct Shelf {
  std::vector<const Small*> pages;
  double width = 0;
  double page_height = 0;
  double height = 0;
};

std::vector<Small> made_small(const std::vector<Exhibit>& documents, const TextMeasurer& measurer) {
  std::vector<Small> out;
  for (const Exhibit& document : documents) {
    const std::size_t count = document.pages->pages.size();
    for (std::size_t i = 0; i < count; ++i) {
      const Page& page = document.pages->pages[i];
      Small one;
      one.page = &page;
      one.width = std::max(page.width * kShare, 26.0);
      one.height = page.height * kShare;
      one.caption = wrapped(measurer, document.captions[i], kCaption, one.width);
      if (one.caption.empty()) {
        // A name without a place to break makes its own room.
        one.caption = {document.captions[i]};
        one.width = width_of(measurer, one.caption.front(), kCaption);
      }
      out.push_back(std::move(one));
    }
  }
  return out;
}

std::vector<Shelf> shelved(const std::vector<Small>& pages, double width) {
  std::vector<Shelf> out(1);
  for (const Small& page : pages) {
    if (!out.back().pages.empty() && out.back().width + kGap + page.width > width)
      out.emplace_back();
    Shelf& shelf = out.back();
    shelf.width += (shelf.pages.empty() ? 0 : kGap) + page.width;
    shelf.pages.push_back(&page);
    shelf.page_height = std::max(shelf.page_height, page.height);
  }
  for (Shelf& shelf : out) {
    std::size_t lines = 1;
    for (const Small* page : shelf.pages) lines = std::max(lines, page->caption.size());
    shelf.height = shelf.page_height + kCaption.size * (0.6 + 1.2 * static_cast<double>(lines));
  }
  return out;
}

double height_of(const std::vector<Shelf>& shelves) {
  double out = 0;
  for (const Shelf& shelf : shelves) out += (out > 0 ? kGap : 0) + shelf.height;
  return out;
}

// The width at which the sheet comes closest to 4 to 3.
double best_width(const std::vector<Small>& pages) {
  double widest = 0;
  double all = -kGap;
  for (const Small& page : pages) {
    widest = std::max(widest, page.width);
    all += page.width + kGap;
  }
  double best = widest;
  double best_error = 1e9;
  for (double width = widest; width < std::max(all, widest) + 1; width += 5) {
    const double error = std::abs(std::log(width / height_of(shelved(pages, width)) * 3 / 4));
    if (error < best_error) {
      best_error = error;
      best = width;
    }
  }
  return best;
}

void draw_small(Pen& pen, const Small& one, Point at, double page_height) {
  const double width = one.page->width * kShare;
  const double top = at.y + page_height - one.height;
  for (const Mark& mark : one.page->marks) pen.add(moved(scaled(mark, kShare), at.x, top));
  pen.frame({at.x, top, width, one.height}, kFrame);
  double y = at.y + page_height + kCaption.size * 1.4;
  for (const std::string& line : one.caption) {
    pen.text({at.x, y}, kCaption, line);
    y += kCaption.size * 1.2;
  }
}

}  // namespace

Page lay_out_contact_sheet(const std::string& title, const std::string& scale,
                           const std::vector<Exhibit>& documents, const TextMeasurer& measurer) {
  const std::vector<Small> pages = made_small(documents, measurer);
  const double scale_words = width_of(measurer, scale, kCaption);
  double inner =
      std::max(best_width(pages), width_of(measurer, title, kTitle) + kGap + scale_words);
  const std::vector<Shelf> shelves = shelved(pages, inner);
  double widest = 0;
  for (const Shelf& shelf : shelves) widest = std::max(widest, shelf.width);
  inner = std::max(widest, width_of(measurer, title, kTitle) + kGap + scale_words);
  const double head = kTitle.size * 1.6;
  Page page{inner + 2 * kMargin, height_of(shelves) + head + 2 * kMargin, title, {}};
  Pen pen(page, measurer);
  const double base = kMargin + pen.cap_height(kTitle);
  pen.text({kMargin, base}, kTitle, title);
  pen.text_right({kMargin + inner, base}, kCaption, scale);
  double y = kMargin + head;
  for (const Shelf& shelf : shelves) {
    double x = kMargin;
    for (const Small* one : shelf.pages) {
      draw_small(pen, *one, {x, y}, shelf.page_height);
      x += one->width + kGap;
    }
    y += shelf.height + kGap;
  }
  return page;
}

}  // namespace dosewright
