#include "dosewright/layout/reading.hpp"

#include <algorithm>
#include <cmath>

#include "dosewright/units/print.hpp"

namespace dosewright {

namespace {

constexpr double kPi = 3.14159265358979323846;

std::variant<Pages, LayoutProblem> lay_out_at(const ChartContent& content, const PaperSize& paper,
                                              ChartStyle style, Length figure,
                                              const TextMeasurer& measurer) {
  style.least_figure = figure;
  return lay_out_chart(content, paper, style, measurer);
}

// The first paper, smallest first, on which it takes at most `pages`.
std::optional<Pages> first_fit(const ChartContent& content, const std::vector<PaperSize>& papers,
                               const ChartStyle& style, Length figure, std::size_t pages,
                               const TextMeasurer& measurer) {
  for (const PaperSize& paper : papers) {
    auto out = lay_out_at(content, paper, style, figure, measurer);
    if (auto* made = std::get_if<Pages>(&out); made != nullptr && made->pages.size() <= pages)
      return std::move(*made);
  }
  return std::nullopt;
}

using LaidOut = std::variant<Pages, LayoutProblem>;

template <class LayOut>
LaidOut one_after_the_other(const std::string& title, const std::vector<ChartContent>& charts,
                            const LayOut& lay_out) {
  Pages out;
  out.title = title;
  for (const ChartContent& chart : charts) {
    LaidOut made = lay_out(chart);
    if (auto* problem = std::get_if<LayoutProblem>(&made)) {
      problem->message = chart.columns.front().heading + ": " + problem->message;
      return made;
    }
    for (Page& page : std::get<Pages>(made).pages) {
      page.title = chart.columns.front().heading + ": " + page.title;
      out.pages.push_back(std::move(page));
    }
  }
  return out;
}

double area(const Page& page) { return page.width * page.height; }

std::string metres(Length length) { return figure(in_millimetres(length) / 1000, 1) + " m"; }

}  // namespace

Length figure_height(Length distance, double arc_minutes) {
  return distance * (2 * std::tan(arc_minutes / 60 * kPi / 180 / 2));
}

std::variant<Pages, LayoutProblem> lay_out_chart_to_read(const ChartContent& content,
                                                         Length distance,
                                                         const std::vector<PaperSize>& papers,
                                                         const ChartStyle& style,
                                                         const TextMeasurer& measurer) {
  const Length aimed = figure_height(distance, kAimedArc);
  const Length least = figure_height(distance, kLeastArc);
  constexpr std::size_t kMany = 1000;
  if (auto out = first_fit(content, papers, style, aimed, 1, measurer)) return std::move(*out);
  if (auto out = first_fit(content, papers, style, least, 1, measurer)) return std::move(*out);
  // On several pages the largest paper takes the fewest.
  std::optional<Pages> best;
  for (const PaperSize& paper : papers) {
    auto out = first_fit(content, {paper}, style, least, kMany, measurer);
    if (out && (!best || out->pages.size() < best->pages.size())) best = std::move(out);
  }
  if (best) return std::move(*best);
  LayoutProblem problem;
  problem.message = "to be read from " + metres(distance) + " its figures must be " +
                    figure(in_millimetres(least), 1) +
                    " mm high, and there is no room for that on " + papers.back().name;
  for (Length nearer = distance * 0.95; in_millimetres(nearer) > 250; nearer = nearer * 0.95) {
    const Length figure_now = figure_height(nearer, kLeastArc);
    if (!first_fit(content, papers, style, figure_now, kMany, measurer)) continue;
    const double tenths = std::floor(in_millimetres(nearer) / 100) / 10;
    problem.hint = "it could be read from " + figure(tenths, 1) +
                   " m; or choose a larger paper, or fewer columns";
    return problem;
  }
  problem.hint = "choose a larger paper, or fewer columns";
  return problem;
}

std::variant<Pages, LayoutProblem> lay_out_charts(const std::string& title,
                                                  const std::vector<ChartContent>& charts,
                                                  const PaperSize& paper, const ChartStyle& style,
                                                  const TextMeasurer& measurer) {
  return one_after_the_other(title, charts, [&](const ChartContent& chart) {
    return lay_out_chart(chart, paper, style, measurer);
  });
}

std::variant<Pages, LayoutProblem> lay_out_charts_to_read(
    const std::string& title, const std::vector<ChartContent>& charts, Length distance,
    const std::vector<PaperSize>& papers, const ChartStyle& style, const TextMeasurer& measurer) {
  const auto on = [&](const std::vector<PaperSize>& some) {
    return one_after_the_other(title, charts, [&](const ChartContent& chart) {
      return lay_out_chart_to_read(chart, distance, some, style, measurer);
    });
  };
  LaidOut out = on(papers);
  if (std::holds_alternative<LayoutProblem>(out)) return out;
  const auto& pages = std::get<Pages>(out).pages;
  const auto largest = std::max_element(
      pages.begin(), pages.end(), [](const Page& a, const Page& b) { return area(a) < area(b); });
  std::vector<PaperSize> of_that_size;
  for (const PaperSize& paper : papers) {
    const double size = in_millimetres(paper.width) * in_millimetres(paper.height);
    if (std::abs(size - area(*largest)) < 1) of_that_size.push_back(paper);
  }
  return on(of_that_size);
}

}  // namespace dosewright
