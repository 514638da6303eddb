// What all charts of a report share: the drawing with its text alternative, axes, the figure around it, the table.
#include "report/chart_parts.hpp"

#include <fmt/format.h>

#include "climate/calendar.hpp"

namespace houseleek::report {

Html table_from(const TableData& table, std::string_view caption) {
  Html head;
  for (const std::string& text : table.heads) head += element("th", {{"scope", "col"}}, html_from(text));
  Html body;
  for (const std::vector<std::string>& cells : table.rows) {
    Html row;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      row += i == 0 ? element("th", {{"scope", "row"}}, html_from(cells[i])) : element_of("td", cells[i]);
    }
    body += element("tr", {}, row);
  }
  Html content = caption.empty() ? Html() : element_of("caption", caption);
  content += element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body);
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}}, element("table", {}, content));
}

Html folded_table(const TableData& table, std::string_view summary) {
  return element("details", {{"class", "numbers"}}, element_of("summary", summary) + table_from(table, ""));
}

Html drawing_from(const Drawing& drawing, const Html& content) {
  const std::string title_id = drawing.id + "-title";
  const std::string desc_id = drawing.id + "-desc";
  const Html words = element("title", {{"id", title_id}}, html_from(drawing.title)) +
                     element("desc", {{"id", desc_id}}, html_from(drawing.description));
  const Html svg =
      element("svg",
              {{"id", drawing.id},
               {"viewBox", fmt::format("0 0 {} {}", place_text(drawing.width), place_text(drawing.height))},
               {"role", "img"},
               {"aria-labelledby", title_id + " " + desc_id}},
              words + content);
  if (!drawing.is_wide) return element("div", {{"class", "panel"}}, svg);
  return element("div", {{"class", "panel wide scroll"}, {"tabindex", "0"}}, svg);
}

Html html_from(const ChartFigure& figure) {
  Html panels;
  for (const Html& panel : figure.panels) panels += panel;
  const Html caption = element(
      "figcaption", {}, element_of("strong", figure.title) + html_from(" ") + element_of("span", figure.caption));
  return element("figure", {{"id", figure.id}, {"class", "chart"}},
                 caption + figure.legend +
                     element("div", {{"class", figure.is_wide ? "panels one" : "panels"}}, panels) +
                     folded_table(figure.table, "The numbers of this chart"));
}

Html svg_text(double x, double y, std::string_view text, std::string_view css_class, Anchor anchor) {
  constexpr std::string_view anchors[] = {"start", "middle", "end"};
  return element("text",
                 {{"x", place_text(x)},
                  {"y", place_text(y)},
                  {"class", std::string(css_class)},
                  {"text-anchor", std::string(anchors[static_cast<std::size_t>(anchor)])}},
                 html_from(text));
}

Html svg_line(double x1, double y1, double x2, double y2, std::string_view css_class) {
  return element("line", {{"x1", place_text(x1)},
                          {"y1", place_text(y1)},
                          {"x2", place_text(x2)},
                          {"y2", place_text(y2)},
                          {"class", std::string(css_class)}});
}

Html svg_box(const Box& box, std::string_view css_class, std::string_view hover) {
  return element("rect",
                 {{"x", place_text(box.x)},
                  {"y", place_text(box.y)},
                  {"width", place_text(box.width)},
                  {"height", place_text(box.height)},
                  {"class", std::string(css_class)}},
                 hover.empty() ? Html() : element_of("title", hover));
}

Html left_axis(const Ticks& ticks, const Scale& y, double from_x, double to_x, std::string_view unit) {
  Html axis;
  for (const double value : ticks.values) {
    axis += svg_line(from_x, y(value), to_x, y(value), value == 0.0 ? "grid zero" : "grid");
    axis += svg_text(from_x - 6.0, y(value) + 4.0, tick_label(value, ticks.step), "tick", Anchor::end);
  }
  return axis + svg_text(2.0, y(ticks.values.back()) - 10.0, unit, "unit");
}

Html legend_from(const std::vector<LegendItem>& items) {
  Html list;
  for (const LegendItem& item : items) {
    const Html mark = item.is_line ? svg_line(1.0, 6.0, 27.0, 6.0, "line " + item.css_class)
                                   : svg_box({1.0, 1.0, 26.0, 10.0}, item.css_class);
    const Html swatch = element("svg", {{"viewBox", "0 0 28 12"}, {"class", "swatch"}, {"aria-hidden", "true"}}, mark);
    list += element("li", {}, swatch + html_from(item.words));
  }
  return element("ul", {{"class", "legend"}}, list);
}

std::string day_words(int day_of_year) {
  const auto day = static_cast<std::size_t>(day_of_year % climate::n_days_in_year);
  const auto month = static_cast<std::size_t>(climate::month_of_day[day]);
  return fmt::format("{} {}", static_cast<int>(day) - climate::first_day_of_month[month] + 1, month_letters[month]);
}

}  // namespace houseleek::report
