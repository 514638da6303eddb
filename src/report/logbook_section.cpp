// What a project's logbook adds to a study, as a section of its report.
#include "report/logbook_section.hpp"

#include <fmt/format.h>

#include "report/chart_intervals.hpp"
#include "report/figure_html.hpp"
#include "report/page_frame.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

/// One paragraph of a list for each, or nothing.
Html listed(std::string_view words, const Json& parts, const char* key) {
  if (parts.empty()) return {};
  Html items;
  for (const Json& part : parts) {
    const std::string text = part.is_string() ? part.get<std::string>() : text_at(part, key);
    items += element("li", {}, html_from(sentence_in_print(text)));
  }
  return element_of("h3", words) + element("ul", {}, items);
}

/// Less energy a year than before, item by item, about zero.
Html bills_chart(const Json& bills) {
  IntervalChart chart;
  chart.heading = "Less energy a year than before the modules, for the same weather";
  chart.unit = "kWh a year";
  chart.drawing = {.id = "bills-before-and-after-1",
                   .title = "Less energy a year than before, by bill",
                   .description = "",
                   .width = 640.0};
  ChartFigure figure;
  figure.table.heads = {"Bill", "low", "value", "high", "unit", "bills before", "bills after", "weather"};
  for (const Json& bill : bills) {
    const Json& less = bill.at("less_kwh_per_year");
    if (!less.contains("low")) continue;
    const std::string item = text_at(bill, "item");
    const auto number = [&less](const char* key) { return less.at(key).get<double>(); };
    const bool is_apart = text_at(bill, "outcome") == "less" || text_at(bill, "outcome") == "more";
    chart.rows.push_back({.name = item,
                          .value = number("value"),
                          .low = number("low"),
                          .high = number("high"),
                          .words = is_apart ? "told apart" : "not told apart",
                          .css_class = is_apart ? "planted" : "bare"});
    chart.drawing.description += fmt::format("{}: {} ({} to {}) kWh a year. ", item, number_in_print(number("value")),
                                             number_in_print(number("low")), number_in_print(number("high")));
    figure.table.rows.push_back({item, number_in_print(number("low")), number_in_print(number("value")),
                                 number_in_print(number("high")), chart.unit, bill.at("n_before").dump(),
                                 bill.at("n_after").dump(), text_at(bill, "weather_from")});
  }
  if (chart.rows.empty()) return {};
  figure.id = "bills-before-and-after";
  figure.title = "What the bills show.";
  figure.caption = "The box is what was seen, the line its 95 % interval. A line that crosses zero: not told apart.";
  figure.panels = {html_from(chart)};
  figure.is_wide = true;
  return html_from(figure);
}

}  // namespace

Html logbook_section(const Json& document) {
  const Json& logbook = document.at("logbook");
  if (logbook.is_null()) return {};
  const Html content =
      listed("Measured on this roof, and used in the answers above", logbook.at("measured"), "statement") +
      listed("Noted, and not used", logbook.at("left_out"), "") +
      listed("Water in the modules", logbook.at("stores"), "statement") +
      listed("Bills", logbook.at("bills"), "sentence") + bills_chart(logbook.at("bills"));
  const Html body = content.is_empty() ? element_of("p", "Nothing in it changes an answer yet.") : content;
  return section("logbook", fmt::format("From the logbook, up to {}", text_at(logbook, "on")), body);
}

}  // namespace houseleek::report
