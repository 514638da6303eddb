// Damp in the deck as a part of a report.
#include "report/damp_section.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/chart_lines.hpp"
#include "report/figure_html.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t months_a_year = 12;

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html paragraph_of(std::string_view text) { return element("p", {}, html_from(sentence_in_print(text))); }

std::vector<double> numbers_at(const Json& node, const char* key) { return node.at(key).get<std::vector<double>>(); }

/// The recipe's name with its form; bare by itself.
std::string cover_words(const Json& cover) {
  const std::string form = text_at(cover, "form");
  return form == "bare" ? "bare" : fmt::format("{}, {}", text_at(cover, "name"), form);
}

Html cover_name(const Json& cover) {
  const std::string form = text_at(cover, "form");
  return form == "bare" ? html_from("bare") : name_from(text_at(cover, "name")) + html_from(", " + form);
}

/// Which month and year of the runs a step is: year 2, Jan.
std::string step_words(const Json& damp, std::size_t step) {
  const auto first = static_cast<std::size_t>(damp.at("first_month").get<int>()) - 1;
  return fmt::format("year {}, {}", step / months_a_year + 1, month_letters[(first + step) % months_a_year]);
}

Html cover_panel(const Json& damp, std::size_t index, const Ticks& ticks) {
  const Json& cover = damp.at("covers")[index];
  const Json& series = cover.at("water_by_month");
  LineChart chart;
  chart.drawing.id = fmt::format("chart-damp-{}", index);
  chart.heading = cover_words(cover);
  chart.unit = "kg/m\u00B2";
  chart.lines = {
      {"highest", "net", numbers_at(series, "high_kg_per_m2")},
      {"likely", text_at(cover, "form") == "bare" ? "bare" : "planted", numbers_at(series, "likely_kg_per_m2")},
      {"lowest", "net", numbers_at(series, "low_kg_per_m2")}};
  chart.ticks = ticks;
  const std::size_t n_steps = chart.lines.front().values.size();
  for (std::size_t step = 0; step < n_steps; ++step) chart.step_labels.push_back(step_words(damp, step));
  for (std::size_t step = 0; step < n_steps; step += months_a_year) {
    chart.spans.push_back({static_cast<int>(std::min(months_a_year, n_steps - 1 - step)),
                           fmt::format("year {}", step / months_a_year + 1)});
  }
  const std::vector<double>& likely = chart.lines[1].values;
  chart.drawing.title =
      fmt::format("Water in the deck, {}, month by month through {} years", chart.heading, damp.at("years").get<int>());
  chart.drawing.description =
      fmt::format("likely from {} to {} kg/m\u00B2", number_in_print(*std::min_element(likely.begin(), likely.end())),
                  number_in_print(*std::max_element(likely.begin(), likely.end())));
  return html_from(chart);
}

Html water_chart_of(const Json& damp) {
  const Json& covers = damp.at("covers");
  double most = 0.0;
  for (const Json& cover : covers) {
    const std::vector<double> high = numbers_at(cover.at("water_by_month"), "high_kg_per_m2");
    most = std::max(most, *std::max_element(high.begin(), high.end()));
  }
  const Ticks ticks = nice_ticks(0.0, most, 5);
  ChartFigure figure;
  figure.id = "chart-damp";
  figure.title = fmt::format("Water in the deck through {} years.", damp.at("years").get<int>());
  figure.caption = fmt::format(
      "Means of months, all layers together, over {}; {}. Likely figures, and the lowest and highest of all cases.",
      text_at(damp, "room"), text_at(damp, "weather"));
  figure.table.heads = {"month"};
  for (std::size_t i = 0; i < covers.size(); ++i) {
    figure.panels.push_back(cover_panel(damp, i, ticks));
    figure.table.heads.push_back(cover_words(covers[i]) + ", kg/m\u00B2 (lowest to highest)");
  }
  const std::size_t n_steps = covers[0].at("water_by_month").at("likely_kg_per_m2").size();
  for (std::size_t step = 0; step < n_steps; ++step) {
    std::vector<std::string> row = {step_words(damp, step)};
    for (const Json& cover : covers) {
      const Json& series = cover.at("water_by_month");
      const auto at = [&](const char* key) { return number_in_print(series.at(key)[step].get<double>()); };
      row.push_back(fmt::format("{} ({} to {})", at("likely_kg_per_m2"), at("low_kg_per_m2"), at("high_kg_per_m2")));
    }
    figure.table.rows.push_back(std::move(row));
  }
  return html_from(figure);
}

Html covers_table(const Json& document) {
  const Json& covers = document.at("damp").at("covers");
  Matrix matrix;
  matrix.caption = html_from("The last year of the deck, by cover");
  for (const std::string_view words :
       {"cover", "wood, wettest month, % of its mass", "months above 20 %", "wettest place, driest month, % humidity",
        "water left since the first year, kg/m\u00B2", "mould on wood, 0 to 6"}) {
    matrix.heads.push_back(html_from(words));
  }
  for (std::size_t i = 0; i < covers.size(); ++i) {
    MatrixRow row{cover_name(covers[i]), {}};
    for (const std::string_view field :
         {"wood_percent", "wood_months_above_20", "driest_humidity_percent", "left_kg_per_m2", "mould_index"}) {
      row.cells.push_back({fmt::format("/damp/covers/{}/{}", i, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  return table_of_matrix(document, matrix);
}

Html steady_table(const Json& document) {
  const Json& covers = document.at("damp").at("covers");
  Matrix matrix;
  matrix.caption = html_from("The steady monthly method, which may only say that there is a risk");
  for (const std::string_view words : {"cover", "gathers at most, kg/m\u00B2", "left after a year, kg/m\u00B2"}) {
    matrix.heads.push_back(html_from(words));
  }
  Html statements;
  for (std::size_t i = 0; i < covers.size(); ++i) {
    const std::string place = fmt::format("/damp/covers/{}/steady", i);
    matrix.rows.push_back({cover_name(covers[i]), {{place + "/most_kg_per_m2"}, {place + "/left_kg_per_m2"}}});
    statements += element(
        "p", {{"class", "key"}},
        cover_name(covers[i]) + html_from(": " + sentence_in_print(text_at(covers[i].at("steady"), "statement"))));
  }
  return table_of_matrix(document, matrix) + statements;
}

Html cases_table(const Json& damp) {
  const Json& covers = damp.at("covers");
  TableData table;
  table.heads = {"changed"};
  for (const Json& cover : covers) table.heads.push_back(cover_words(cover));
  for (std::size_t i = 0; i < covers[0].at("cases").size(); ++i) {
    std::vector<std::string> row = {text_at(covers[0].at("cases")[i], "name")};
    for (const Json& cover : covers) {
      const Json& one = cover.at("cases")[i];
      std::string cell = text_at(one, "says");
      if (!cover.at("wood_percent").at("value").is_null()) {
        cell += fmt::format("; wood to {} %", number_in_print(one.at("wood_percent").get<double>()));
      }
      row.push_back(std::move(cell));
    }
    table.rows.push_back(std::move(row));
  }
  return folded_table(table, "Every case: one thing changed at a time");
}

Html assumed_table(const Json& damp) {
  TableData table;
  table.heads = {"assumed", "unit", "low", "likely", "high", "source", "certainty"};
  for (const Json& one : damp.at("assumed")) {
    const auto number = [&one](const char* key) { return number_in_print(one.at(key).get<double>()); };
    table.rows.push_back({text_at(one, "name"), text_at(one, "unit"), number("low"), number("likely"), number("high"),
                          text_at(one, "source"), text_at(one, "certainty")});
  }
  return table.rows.empty() ? Html{} : folded_table(table, "What is assumed for damp");
}

Html list_of(std::string_view words, const Json& items) {
  if (items.empty()) return {};
  Html list;
  for (const Json& item : items) list += element("li", {}, html_from(item.get<std::string>()));
  return element("p", {}, html_from(words)) + element("ul", {}, list);
}

Html surface_part(const Json& document) {
  return paragraph_of(text_at(document.at("damp").at("surface"), "statement")) +
         table_of_figures(document, html_from("Inner faces: the way from outside (0) to inside (1)"),
                          {{html_from("needed so that mould need not be feared"), "", {"/damp/surface/needed_factor"}},
                           {html_from("the bare deck"), "", {"/damp/surface/deck_factor"}},
                           {html_from("bare edges and parapets"), "", {"/damp/surface/edge_factor"}}});
}

}  // namespace

Html damp_section(const Json& document) {
  const Json& damp = document.at("damp");
  Html content = element_of("h3", "Damp in the deck");
  const std::string professional = text_at(damp, "professional");
  if (!professional.empty()) content += element("p", {}, element_of("strong", professional));
  if (!damp.at("is_run").get<bool>()) {
    return content + paragraph_of(text_at(damp, "statement")) + surface_part(document);
  }
  for (const Json& cover : damp.at("covers")) content += paragraph_of(text_at(cover, "statement"));
  content += water_chart_of(damp) + covers_table(document) + cases_table(damp) + steady_table(document);
  content += surface_part(document);
  content += paragraph_of(text_at(damp, "deck"));
  content += list_of("Not run:", damp.at("not_run")) + list_of("Left out:", damp.at("left_out"));
  return content + assumed_table(damp);
}

}  // namespace houseleek::report
