// The answer of `houseleek water` as a page: moisture with the waterings, seasons, the barrel's curve, tables.
#include "report/watering_html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/chart_lines.hpp"
#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/roof_sections.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html items(const Json& texts) {
  Html list;
  for (const Json& text : texts) list += element_of("li", text.get<std::string>());
  return element("ul", {}, list);
}

Html header_of(const Json& document, const ReportHead& head) {
  const std::string name = text_at(document, "design");
  const Json& engine = document.at("engine");
  Html content = element("p", {{"class", "kind"}}, html_from("Water, salt and feeding of planted modules"));
  content += element("h1", {}, name.empty() ? html_from("This house") : name_from(name));
  if (document.at("is_invented").get<bool>()) {
    content += element("p", {{"class", "marked"}}, html_from("Invented example: no such house."));
  }
  content += element_of("p", fmt::format("As of the evening of {}.", text_at(document, "on")));
  content += made_from_line(engine, head);
  return element("header", {}, content);
}

/// The store of one recipe or container over the evenings, with what was given below it.
Html moisture_of(const Json& store, std::size_t index) {
  LineChart chart;
  chart.drawing.id = fmt::format("moisture-{}", index);
  chart.heading = text_at(store, "name");
  chart.unit = "% of the store";
  Line likely{"likely", "planted", {}};
  Line low{"low", "planted thin", {}};
  Line high{"high", "planted thin", {}};
  Line wants{"wants", "net", {}};
  int n_before = 0;
  int n_ahead = 0;
  for (const Json& evening : store.at("evenings")) {
    // Drier than wilting is as empty for plants as wilting; the table has the numbers.
    const auto share = [&](const char* key) { return 100.0 * std::max(0.0, evening.at(key).get<double>()); };
    likely.values.push_back(share("likely_frac"));
    low.values.push_back(share("low_frac"));
    high.values.push_back(share("high_frac"));
    wants.values.push_back(100.0 * store.at("wants_below_frac").at("value").get<double>());
    const double given_mm = evening.at("given_mm").get<double>();
    if (given_mm > 0.0) chart.marks.push_back(chart.step_labels.size());
    chart.step_labels.push_back(
        given_mm > 0.0 ? fmt::format("{}: watered, {} mm", text_at(evening, "day"), number_in_print(given_mm))
                       : text_at(evening, "day"));
    ++(evening.at("is_ahead").get<bool>() ? n_ahead : n_before);
  }
  double most = 100.0;
  for (const double one : high.values) most = std::max(most, one);
  chart.ticks = nice_ticks(0.0, most, 5);
  chart.lines = {likely, low, high, wants};
  chart.spans = {{n_before, "up to today"}, {n_ahead - 1, "if it does not rain"}};
  chart.drawing.title = fmt::format("Store of water of {} by days", text_at(store, "name"));
  chart.drawing.description = text_at(store, "statement");
  return html_from(chart);
}

Html stores_section(const Json& document) {
  const Json& stores = document.at("stores");
  Html content = element_of("p", text_at(document.at("round"), "statement"));
  if (stores.empty()) return section("stores", "Today", content + element_of("p", "No modules and no containers."));
  std::vector<FigureRow> rows;
  Html sentences;
  ChartFigure figure;
  figure.id = "moisture";
  figure.title = "What they hold, day by day";
  figure.caption =
      "Bold: the middle of the draws. Thin: a tenth below and a tenth above. Dotted: below it the plants want water. "
      "Marks "
      "at the foot: watered. After today without rain.";
  figure.table.heads = {"what", "evening", "store, %", "low", "high", "given, mm"};
  for (std::size_t i = 0; i < stores.size(); ++i) {
    const Json& store = stores[i];
    sentences += element_of("li", text_at(store, "statement"));
    for (const Json& note : store.at("notes")) sentences += element_of("li", note.get<std::string>());
    const std::string name = text_at(store, "name");
    for (const auto& [key, words, unit] :
         {std::tuple{"store_frac", "store", "share"}, std::tuple{"can_wait_days", "can wait", "days"},
          std::tuple{"litres_each", "each until it drips, now", "l"},
          std::tuple{"litres_each_when_due", "each until it drips, when due", "l"},
          std::tuple{"litres_usual", "each, as the recipe has it", "l"},
          std::tuple{"litres_all", "all of them, now", "l"}}) {
      rows.push_back(
          {html_from(fmt::format("{}: {}", name, words)), unit, {fmt::format("/stores/{}/{}", i, key), Form::plain}});
    }
    figure.panels.push_back(moisture_of(store, i));
    for (const Json& evening : store.at("evenings")) {
      const auto share = [&](const char* key) { return number_in_print(100.0 * evening.at(key).get<double>()); };
      figure.table.rows.push_back({name, text_at(evening, "day"), share("likely_frac"), share("low_frac"),
                                   share("high_frac"), number_in_print(evening.at("given_mm").get<double>())});
    }
  }
  content += element("ul", {}, sentences) + html_from(figure) +
             table_of_figures(document, html_from("The figures with their ranges"), rows);
  content += element_of("h3", "What drives them") + items(document.at("known"));
  if (!document.at("missing").empty())
    content += element_of("h3", "What would narrow them") + items(document.at("missing"));
  return section("stores", "Today", content);
}

Html seasons_section(const Json& document) {
  const Json& seasons = document.at("seasons");
  if (seasons.empty()) return {};
  Html sentences;
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < seasons.size(); ++i) {
    sentences += element_of("li", text_at(seasons[i], "statement"));
    for (std::size_t month = 0; month < 12; ++month) {
      rows.push_back({html_from(fmt::format("{}: {}", text_at(seasons[i], "name"), month_letters[month])),
                      "every so many days",
                      {fmt::format("/seasons/{}/every_days_by_month/{}", i, month), Form::plain}});
    }
  }
  return section("seasons", "By season, for this roof",
                 element("ul", {}, sentences) + element_of("p", text_at(document, "seasons_note")) +
                     table_of_figures(document, html_from("Days between waterings"), rows));
}

Html barrel_section(const Json& document) {
  if (document.at("barrel").is_null()) return {};
  const Json& barrel = document.at("barrel");
  LineChart chart;
  chart.drawing.id = "barrel-curve";
  chart.drawing.width = 860.0;
  chart.drawing.height = 300.0;
  chart.drawing.is_wide = true;
  chart.heading = "Share of the year's water that a barrel covers";
  chart.unit = "%";
  Line likely{"likely", "planted", {}};
  Line low{"low", "planted thin", {}};
  Line high{"high", "planted thin", {}};
  std::vector<FigureRow> rows;
  TableData table;
  table.heads = {"litres", "covered, %", "low", "high"};
  const Json& sizes = barrel.at("sizes");
  std::string before;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const Json& covered = sizes[i].at("covered_frac");
    const auto share = [&](const char* key) { return 100.0 * covered.at(key).get<double>(); };
    likely.values.push_back(share("value"));
    low.values.push_back(share("low"));
    high.values.push_back(share("high"));
    const std::string litres = fmt::format("{:g}", sizes[i].at("size_l").get<double>());
    chart.step_labels.push_back(litres + " l");
    if (i > 0) chart.spans.push_back({1, fmt::format("{} to {} l", before, litres)});
    before = litres;
    table.rows.push_back(
        {litres, number_in_print(share("value")), number_in_print(share("low")), number_in_print(share("high"))});
  }
  chart.lines = {likely, low, high};
  chart.ticks = nice_ticks(0.0, 100.0, 5);
  chart.drawing.title = "Share of the demand that a barrel covers, by its size";
  chart.drawing.description = text_at(barrel, "statement");
  ChartFigure figure;
  figure.id = "barrel";
  figure.title = "What a barrel covers";
  figure.caption =
      fmt::format("Fed by {}. Only what was there the evening before can be taken; all years one after another.",
                  text_at(barrel, "catchment"));
  figure.is_wide = true;
  figure.panels.push_back(html_from(chart));
  figure.table = table;
  rows.push_back({html_from("wanted in a year"), "l", {"/barrel/wanted_l_per_year", Form::plain}});
  rows.push_back({html_from("caught in a year"), "l", {"/barrel/caught_l_per_year", Form::plain}});
  return section("barrel-section", "A barrel",
                 element_of("p", text_at(barrel, "statement")) + html_from(figure) +
                     table_of_figures(document, html_from("Wanted and caught"), rows));
}

Html salt_section(const Json& document) {
  const Json& salt = document.at("salt");
  Html list;
  for (const Json& plant : salt.at("plants")) list += element_of("li", text_at(plant, "statement"));
  if (!salt.at("rinse").is_null()) list += element_of("li", text_at(salt.at("rinse"), "statement"));
  for (const Json& statement : salt.at("statements")) list += element_of("li", statement.get<std::string>());
  return section("salt", "Salt", element("ul", {}, list));
}

Html feeding_section(const Json& document) {
  const Json& feeding = document.at("feeding");
  Html list;
  std::vector<FigureRow> rows;
  const Json& layers = feeding.at("layers");
  for (std::size_t i = 0; i < layers.size(); ++i) {
    list += element_of("li", text_at(layers[i], "statement"));
    for (const auto& [key, words, unit] :
         {std::tuple{"depth_now_mm", "depth now", "mm"}, std::tuple{"depth_in_three_years_mm", "in three years", "mm"},
          std::tuple{"store_now_frac", "water it holds, over when new", "share"},
          std::tuple{"mass_now_frac", "mass, over when new", "share"},
          std::tuple{"top_up_l_per_module", "to top up, a module", "l"}}) {
      rows.push_back(
          {html_from(fmt::format("{}, {}: {}", text_at(layers[i], "recipe"), text_at(layers[i], "material"), words)),
           unit,
           {fmt::format("/feeding/layers/{}/{}", i, key), Form::plain}});
    }
  }
  const Json& nitrogen = feeding.at("nitrogen");
  for (std::size_t i = 0; i < nitrogen.size(); ++i) {
    list += element_of("li", text_at(nitrogen[i], "statement"));
    rows.push_back({html_from(fmt::format("{}, {}: nitrogen tied up", text_at(nitrogen[i], "recipe"),
                                          text_at(nitrogen[i], "material"))),
                    "g a module",
                    {fmt::format("/feeding/nitrogen/{}/tied_g_per_module", i), Form::plain}});
  }
  list += element_of("li", text_at(feeding, "statement"));
  Html content = element("ul", {}, list);
  if (!rows.empty()) content += table_of_figures(document, html_from("What age takes"), rows);
  return section("feeding", "Feeding and topping up", content);
}

Html changes_section(const Json& document) {
  const Json& changes = document.at("changes");
  Html list;
  TableData table;
  table.heads = {"recipe", "month", "flat, kWh/m\u00B2", "raised, kWh/m\u00B2"};
  for (const Json& one : changes.at("recipes")) {
    list += element_of("li", text_at(one, "statement"));
    for (std::size_t month = 0; month < 12; ++month) {
      const auto value = [&](const char* key) { return fmt::format("{:.2f}", one.at(key)[month].get<double>()); };
      table.rows.push_back({text_at(one, "recipe"), std::string(month_letters[month]),
                            value("flat_heat_kwh_per_m2_by_month"), value("raised_heat_kwh_per_m2_by_month")});
    }
  }
  list += element_of("li", text_at(changes, "not_computed"));
  Html content = element("ul", {}, list);
  if (!table.rows.empty())
    content += folded_table(table, "Heat through the ceiling by month, into the room positive; one year, no range");
  return section("changes", "Raised or flat, by month", content);
}

}  // namespace

std::string page_of_watering(const Json& document, const ReportHead& head) {
  Html content = header_of(document, head) + cautions_section(document) + stores_section(document) +
                 seasons_section(document) + barrel_section(document) + salt_section(document) +
                 feeding_section(document) + changes_section(document);
  const std::string name = text_at(document, "design");
  return page_from((name.empty() ? "This house" : name) + ": water, salt and feeding", content);
}

}  // namespace houseleek::report
