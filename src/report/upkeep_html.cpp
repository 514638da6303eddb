// The upkeep of a roof as a page: lives with their curves, the forecast, storms, looks, rounds, taking it off.
#include "report/upkeep_html.hpp"

#include <fmt/format.h>

#include "report/chart_lines.hpp"
#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/roof_sections.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

std::string text_or_dash(const Json& node) { return node.is_null() ? "\u2013" : node.get<std::string>(); }

std::string number_or_dash(const Json& node) { return node.is_null() ? "\u2013" : number_in_print(node.get<double>()); }

std::string title_of(const Json& part) {
  const std::string name = text_at(part, "part");
  return part.at("material").is_null() ? name : fmt::format("{}, {}", name, text_at(part, "material"));
}

Html header_of(const Json& document, const ReportHead& head) {
  const std::string name = text_at(document, "design");
  const Json& engine = document.at("engine");
  const Json& logbook = document.at("logbook");
  Html content = element("p", {{"class", "kind"}}, html_from("Upkeep of a roof with planted modules"));
  content += element("h1", {}, name.empty() ? html_from("This house") : name_from(name));
  if (document.at("is_invented").get<bool>()) {
    content += element("p", {{"class", "marked"}},
                       html_from("Invented example: no such house, and its logbook was made by a script."));
  }
  std::string span = "No events yet.";
  if (!logbook.at("first_day").is_null()) {
    span = fmt::format("{} events, {} to {}.", logbook.at("n_events").get<std::size_t>(), text_at(logbook, "first_day"),
                       text_at(logbook, "last_day"));
  }
  content += element("p", {},
                     html_from("Modules made: ") + number_at(document, "/logbook/n_modules") +
                         html_from(fmt::format(". {} Today is taken to be {}.", span, text_at(document, "on"))));
  content += made_from_line(engine, head);
  return element("header", {}, content);
}

/// Share in use over age: by the log, with its range, and as the catalogue believes.
Html curve_of(const Json& part, std::size_t index) {
  constexpr int n_spans = 4;
  const Json& curve = part.at("curve");
  const bool is_too_few = part.at("is_too_few").get<bool>();
  LineChart chart;
  chart.drawing.id = fmt::format("curve-{}", index);
  chart.heading = fmt::format("{}: by years of age", title_of(part));
  chart.unit = "% in use";
  Line here{"here", "planted", {}};
  Line low{"low", "planted thin", {}};
  Line high{"high", "planted thin", {}};
  Line believed{"believed", "net", {}};
  const double last_years = curve.back().at("age_years").get<double>();
  for (const Json& point : curve) {
    here.values.push_back(100.0 * point.at("in_use_frac").get<double>());
    low.values.push_back(100.0 * point.at("in_use_low_frac").get<double>());
    high.values.push_back(100.0 * point.at("in_use_high_frac").get<double>());
    believed.values.push_back(100.0 * point.at("prior_frac").get<double>());
    chart.step_labels.push_back(fmt::format("after {} years", number_in_print(point.at("age_years").get<double>())));
  }
  for (int span = 0; span < n_spans; ++span) {
    const std::string from = number_in_print(last_years * span / n_spans);
    const std::string to = number_in_print(last_years * (span + 1) / n_spans);
    chart.spans.push_back({static_cast<int>(curve.size() - 1) / n_spans, fmt::format("{} to {}", from, to)});
  }
  chart.lines = {believed};
  if (!is_too_few) chart.lines = {here, low, high, believed};
  chart.ticks = nice_ticks(0.0, 100.0, 5);
  chart.drawing.title = fmt::format("Share of {} still in use by age", title_of(part));
  chart.drawing.description = is_too_few
                                  ? std::string("Only what is believed: too few failures to say anything of this roof.")
                                  : fmt::format("Half are gone after {} years.",
                                                number_in_print(part.at("life_years").at("value").get<double>()));
  return html_from(chart);
}

/// Curves of the parts of which some have failed, and the numbers behind them.
Html curves_of(const Json& parts) {
  ChartFigure figure;
  figure.id = "curves";
  figure.title = "Share still in use by age";
  figure.caption =
      "Bold: this roof and what is believed together. Thin: nine in ten that it lies within. Dotted: as the catalogue "
      "believes; alone where fewer than five have failed.";
  figure.table.heads = {"part", "age, years", "in use, %", "low", "high", "as believed, %"};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Json& part = parts[i];
    if (part.at("n_failures").get<double>() == 0.0) continue;
    figure.panels.push_back(curve_of(part, i));
    const bool is_too_few = part.at("is_too_few").get<bool>();
    for (const Json& point : part.at("curve")) {
      const auto share = [&](const char* key) { return number_in_print(100.0 * point.at(key).get<double>()); };
      const auto own = [&](const char* key) { return is_too_few ? std::string("\u2013") : share(key); };
      figure.table.rows.push_back({title_of(part), number_in_print(point.at("age_years").get<double>()),
                                   own("in_use_frac"), own("in_use_low_frac"), own("in_use_high_frac"),
                                   share("prior_frac")});
    }
  }
  if (figure.panels.empty()) return {};
  return html_from(figure);
}

Html lives_section(const Json& document) {
  const Json& parts = document.at("parts");
  if (parts.empty()) {
    return section("lives", "How long parts last",
                   element_of("p", "No module is logged: log what was made, and when."));
  }
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const auto& [key, words] : {std::pair{"life_years", "half last"}, std::pair{"prior_life_years", "believed"}}) {
      rows.push_back({html_from(fmt::format("{}: {}", title_of(parts[i]), words)),
                      "years",
                      {fmt::format("/parts/{}/{}", i, key), Form::plain}});
    }
  }
  Html content = table_of_figures(document, html_from("The age that half of the parts reach"), rows);
  Html sentences;
  for (const Json& part : parts) sentences += element_of("li", text_at(part, "sentence"));
  content += element("ul", {}, sentences) + curves_of(parts);
  return section("lives", "How long parts last", content);
}

Html forecast_section(const Json& document) {
  Html content = element_of("p", text_at(document, "forecast_statement"));
  const Json& forecast = document.at("forecast");
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < forecast.size(); ++i) {
    rows.push_back({html_from(text_at(forecast[i], "month")),
                    "parts",
                    {fmt::format("/forecast/{}/replacements", i), Form::plain}});
  }
  if (!rows.empty()) content += table_of_figures(document, html_from("All parts together, by month"), rows);
  Html list;
  for (const Json& part : document.at("parts")) list += element_of("li", text_at(part, "forecast_sentence"));
  if (!list.is_empty()) content += element("ul", {}, list);
  return section("forecast", "What to replace, and when", content);
}

Html storms_section(const Json& document) {
  const Json& storms = document.at("storms");
  Html content = element_of("p", text_at(storms, "statement"));
  TableData table;
  table.heads = {"day", "gust, km/h", "rain, mm", "hail, mm", "found failed within 14 days"};
  for (const Json& storm : storms.at("list")) {
    std::string failed;
    for (const Json& one : storm.at("found_failed")) {
      failed +=
          fmt::format("{}{} ({:.0f})", failed.empty() ? "" : ", ", title_of(one), one.at("n_parts").get<double>());
    }
    table.rows.push_back({text_at(storm, "day"), number_or_dash(storm.at("gust_km_per_h")),
                          number_or_dash(storm.at("rain_mm")), number_or_dash(storm.at("hail_mm")),
                          failed.empty() ? "nothing" : failed});
  }
  if (!table.rows.empty()) content += table_from(table, "Storms of the logbook");
  return section("storms", "Storms", content);
}

Html looks_section(const Json& document) {
  TableData table;
  table.heads = {"what", "how", "every, days", "last", "due"};
  for (const Json& look : document.at("looks")) {
    table.rows.push_back({text_at(look, "what"), text_at(look, "how"), look.at("every_days").dump(),
                          text_or_dash(look.at("last")), look.at("is_due").get<bool>() ? "now" : text_at(look, "due")});
  }
  const Html from =
      element("p", {{"class", "meta"}}, html_from("Intervals: " + text_at(document.at("looks").front(), "from") + "."));
  return section("looks", "What to look at, and when", table_from(table, "Looks due, the earliest first") + from);
}

Html steps_of(const Json& steps) {
  Html list;
  for (const Json& step : steps) {
    Html item = html_from(text_at(step, "text"));
    if (!step.at("caution").is_null()) {
      item +=
          element("p", {{"class", "caution"}}, element_of("strong", "Caution") + html_from(text_at(step, "caution")));
    }
    list += element("li", {}, item);
  }
  return element("ol", {}, list);
}

Html round_section(const Json& round, std::string_view id, std::string_view title) {
  return section(
      id, title,
      element("p", {{"class", "meta"}}, html_from(text_at(round, "because") + ".")) + steps_of(round.at("steps")));
}

Html bills_section(const Json& document) {
  const Json& bills = document.at("bills");
  if (bills.empty()) return {};
  Html list;
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < bills.size(); ++i) {
    list += element_of(
        "li", fmt::format("{} Weather: {}.", text_at(bills[i], "sentence"), text_at(bills[i], "weather_from")));
    rows.push_back({html_from(text_at(bills[i], "item")),
                    "kWh a year less",
                    {fmt::format("/bills/{}/less_kwh_per_year", i), Form::plain}});
  }
  return section("bills", "Bills before and after the modules",
                 element("ul", {}, list) + table_of_figures(document, html_from("Energy bought"), rows));
}

Html left_out_section(const Json& document) {
  const Json& left_out = document.at("logbook").at("left_out");
  if (left_out.empty()) return {};
  Html list;
  for (const Json& one : left_out) {
    list += element_of("li", fmt::format("event {}: {}", one.at("event").dump(), text_at(one, "why")));
  }
  return section("left-out", "Events of which nothing could be made", element("ul", {}, list));
}

}  // namespace

std::string page_of_upkeep(const Json& document, const ReportHead& head) {
  Html content = header_of(document, head) + cautions_section(document) + lives_section(document) +
                 forecast_section(document) + storms_section(document) + looks_section(document);
  content += bills_section(document);
  content += round_section(document.at("before_storm"), "before-storm", "Before a storm");
  content += round_section(document.at("after_storm"), "after-storm", "After a storm");
  const Json& off = document.at("taking_off");
  content += section("taking-off", "How it comes off again",
                     element_of("h3", "The order") + steps_of(off.at("order")) +
                         element_of("h3", "While the roof is bare") + steps_of(off.at("re_roofing")) +
                         element_of("h3", "What will not go back") + steps_of(off.at("disposal")));
  content += left_out_section(document);
  const std::string name = text_at(document, "design");
  return page_from((name.empty() ? "This house" : name) + ": upkeep of planted modules", content);
}

}  // namespace houseleek::report
