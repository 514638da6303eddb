// Charts of sums: hours above the limit, weights, water in the modules, cash that goes out.
#include <fmt/format.h>

#include <algorithm>

#include "climate/calendar.hpp"
#include "report/chart_bars.hpp"
#include "report/chart_lines.hpp"
#include "report/chart_year.hpp"
#include "report/palette.hpp"
#include "report/study_charts.hpp"
#include "report/study_words.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr double standard_gravity_m_per_s2 = 9.80665;

const Json& node_at(const ChartSource& source, const std::string& pointer) {
  return source.document.at(Json::json_pointer(pointer));
}

double value_of(const Json& figure) { return figure.at("value").get<double>(); }

std::string words_of(const Json& figure) {
  if (figure.at("value").is_null()) return figure.at("why").get<std::string>();
  std::string text = number_in_print(value_of(figure));
  if (figure.contains("low")) {
    text += fmt::format(" ({} to {})", number_in_print(figure.at("low").get<double>()),
                        number_in_print(figure.at("high").get<double>()));
  }
  return text;
}

/// None where the figure has no value.
std::optional<Bar> bar_of(const Json& figure, std::string name, std::string css_class) {
  if (figure.at("value").is_null()) return std::nullopt;
  Bar bar;
  bar.name = std::move(name);
  bar.css_class = std::move(css_class);
  bar.value = value_of(figure);
  if (figure.contains("low")) {
    bar.low = figure.at("low").get<double>();
    bar.high = figure.at("high").get<double>();
  }
  bar.words = number_in_print(bar.value);
  return bar;
}

const CoverWords& words_of(CoverKind cover) { return cover_words[index_of(cover)]; }

std::string figure_pointer(std::size_t room, const CoverWords& cover, std::string_view field) {
  return fmt::format("/rooms/{}/{}/{}", room, cover.key, field);
}

}  // namespace

Html hours_chart(const ChartSource& source) {
  const Json& rooms = source.document.at("rooms");
  ChartFigure figure;
  figure.id = "chart-hours";
  figure.table.heads = {"Room", "cover", "hours above the limit"};
  double most = 0.0;
  for (std::size_t room = 0; room < rooms.size(); ++room) {
    for (const CoverWords& cover : cover_words) {
      const Json& hours = node_at(source, figure_pointer(room, cover, "hours_above_limit"));
      figure.table.rows.push_back(
          {rooms[room].at("name").get<std::string>(), std::string(cover.words), words_of(hours)});
      most = std::max(most, value_of(hours));
    }
  }
  for (std::size_t room = 0; room < rooms.size(); ++room) {
    BarChart chart;
    chart.heading = rooms[room].at("name").get<std::string>();
    chart.unit = "hours";
    chart.most = most;
    chart.drawing.id = fmt::format("hours-room-{}", room);
    chart.drawing.title = fmt::format("Hours above the limit in {}", chart.heading);
    for (const CoverKind kind : compared_covers) {
      const CoverWords& cover = words_of(kind);
      const Json& hours = node_at(source, figure_pointer(room, cover, "hours_above_limit"));
      chart.bars.push_back(*bar_of(hours, std::string(cover.label), std::string(cover.css_class)));
      chart.drawing.description += fmt::format("{} {} h; ", cover.label, words_of(hours));
    }
    figure.panels.push_back(html_from(chart));
  }
  const auto house_hours = [&](CoverKind cover) {
    return words_of(node_at(source, fmt::format("/house/{}/hours_above_limit", words_of(cover).key)));
  };
  figure.title =
      fmt::format("Hours above the comfort limit, all rooms: bare {}, modules {}, painted on the same squares {}.",
                  house_hours(CoverKind::bare), house_hours(CoverKind::planted), house_hours(CoverKind::white_same));
  figure.caption =
      "Rooms running free, no fan counted; rivals on the same squares as the modules. One scale for all rooms.";
  return html_from(figure);
}

Html hours_by_month(const ChartSource& source) {
  double most = 0.0;
  for (const CoverColumns& cover : source.columns.covers) {
    for (const std::optional<double>& hours : cover.hours_above_limit_by_month)
      most = std::max(most, hours.value_or(0));
  }
  Html head = element("th", {{"scope", "col"}}, html_from("cover"));
  for (const std::string_view month : month_letters) head += element("th", {{"scope", "col"}}, html_from(month));
  Html body;
  for (const CoverWords& cover : cover_words) {
    Html row = element("th", {{"scope", "row"}}, html_from(cover.words));
    for (const std::optional<double>& hours : source.columns.covers[index_of(cover.cover)].hours_above_limit_by_month) {
      if (!hours) {
        row += element("td", {{"class", "n none"}}, html_from("\u2013"));
        continue;
      }
      const double share = most > 0.0 ? *hours / most : 0.0;
      const auto step = std::min(n_ramp_steps - 1, static_cast<std::size_t>(share * n_ramp_steps));
      row += element("td", {{"class", fmt::format("n tint{}", step)}}, html_from(fmt::format("{:.0f}", *hours)));
    }
    body += element("tr", {}, row);
  }
  const Html table =
      element("table", {{"class", "heat"}},
              element("caption", {},
                      html_from("Room-hours above the limit by month, all rooms added up; a stronger tint is more")) +
                  element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body));
  const std::string year = year_words(source);
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}, {"id", "hours-by-month"}}, table) +
         (year.empty() ? Html() : element("ul", {{"class", "notes"}}, element_of("li", year.substr(1))));
}

Html weights_chart(const ChartSource& source) {
  const Json& recipes = source.document.at("recipes");
  const Json& load = source.document.at("load");
  const Json& allowable = load.at("allowable_kn_per_m2");
  ChartFigure figure;
  figure.id = "chart-weights";
  figure.table.heads = {"Recipe", "dry kg/m\u00B2", "drained kg/m\u00B2", "soaked kg/m\u00B2"};
  std::optional<BarMark> mark;
  if (!allowable.is_null()) {
    const double kg_per_m2 = 1000.0 * allowable.get<double>() / standard_gravity_m_per_s2;
    mark = BarMark{kg_per_m2, fmt::format("{} kN/m\u00B2 written down", number_in_print(allowable.get<double>()))};
  }
  std::vector<std::string> soaked;
  double most = 0.0;
  for (const Json& recipe : recipes) {
    const Json& weight = recipe.at("mass_soaked_kg_per_m2");
    if (!weight.at("value").is_null()) most = std::max(most, weight.value("high", value_of(weight)));
  }
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    const Json& recipe = recipes[i];
    BarChart chart;
    chart.heading = recipe.at("name").get<std::string>();
    chart.unit = "kg/m\u00B2";
    chart.mark = mark;
    chart.most = most;
    chart.drawing.id = fmt::format("weights-recipe-{}", i);
    chart.drawing.title = fmt::format("Weight of {}", chart.heading);
    std::vector<std::string> row{chart.heading};
    for (const std::string_view state : {"dry", "drained", "soaked"}) {
      const Json& weight = recipe.at(fmt::format("mass_{}_kg_per_m2", state));
      const std::string css_class = state == "dry" ? "ramp1" : state == "drained" ? "ramp3" : "ramp5";
      if (const std::optional<Bar> bar = bar_of(weight, std::string(state), css_class)) chart.bars.push_back(*bar);
      row.push_back(words_of(weight));
      chart.drawing.description += fmt::format("{} {} kg/m\u00B2; ", state, words_of(weight));
    }
    soaked.push_back(fmt::format("{} {}", chart.heading, row.back()));
    figure.table.rows.push_back(std::move(row));
    if (!chart.bars.empty()) figure.panels.push_back(html_from(chart));
  }
  figure.title = fmt::format("Soaked, in kg/m\u00B2: {}.", joined(soaked));
  figure.caption =
      mark ? "On a square metre of module; thin lines: low to high. The upright line is the allowance, with "
             "all it may already carry still to be taken off."
           : "On a square metre of module; thin lines: low to high. Nobody has written down an allowance.";
  return html_from(figure);
}

Html water_chart(const ChartSource& source) {
  const YearColumns& columns = source.columns;
  ChartFigure figure;
  figure.id = "chart-water";
  figure.is_wide = true;
  figure.table.heads = {"Recipe, month", "mean store %", "lowest day %", "watering mm", "rain mm"};
  const std::vector<double> rain_mm = daily_sums(columns.rain_mm);
  const int first_day = columns.first_hour / 24;
  std::vector<std::string> lowest;
  for (std::size_t i = 0; i < columns.modules.size(); ++i) {
    const ModuleColumns& modules = columns.modules[i];
    DailyChart chart;
    chart.heading = fmt::format("{}: store above, watering and rain below", modules.recipe);
    chart.drawing.id = fmt::format("water-recipe-{}", i);
    chart.drawing.title = fmt::format("Water in {} by the day", modules.recipe);
    chart.first_day = first_day;
    chart.line_percent = daily_means(modules.store_frac);
    for (double& value : chart.line_percent) value *= 100.0;
    chart.watering_mm = daily_sums(modules.watering_mm);
    chart.rain_mm = rain_mm;
    if (!chart.line_percent.empty()) {
      const double least = *std::min_element(chart.line_percent.begin(), chart.line_percent.end());
      lowest.push_back(fmt::format("{} {} %", modules.recipe, tick_label(least, 1.0)));
      chart.drawing.description =
          fmt::format("The store is lowest at {} % of what roots can reach.", tick_label(least, 1.0));
    } else {
      chart.drawing.description = "Roots reach no layer that holds water.";
    }
    for (int month = 0; month < climate::n_months; ++month) {
      double store = 0.0;
      double least = 1e9;
      double watering = 0.0;
      double rain = 0.0;
      int n_days = 0;
      for (std::size_t day = 0; day < chart.watering_mm.size(); ++day) {
        const auto of_year = (static_cast<std::size_t>(first_day) + day) % climate::n_days_in_year;
        if (climate::month_of_day[of_year] != month) continue;
        ++n_days;
        watering += chart.watering_mm[day];
        rain += rain_mm[day];
        if (chart.line_percent.empty()) continue;
        store += chart.line_percent[day];
        least = std::min(least, chart.line_percent[day]);
      }
      if (n_days == 0) continue;
      const bool has_store = !chart.line_percent.empty();
      figure.table.rows.push_back(
          {fmt::format("{}, {}", modules.recipe, month_letters[static_cast<std::size_t>(month)]),
           has_store ? fmt::format("{:.0f}", store / n_days) : "\u2013",
           has_store ? fmt::format("{:.0f}", least) : "\u2013", number_in_print(watering), number_in_print(rain)});
    }
    figure.panels.push_back(html_from(chart));
  }
  figure.title = lowest.empty() ? "Watering and rain through the year."
                                : fmt::format("Driest day of the store: {}.", joined(lowest));
  figure.caption =
      std::string(
          "Means of days over all modules of a recipe; 0 % is wilting, 100 % a drained, full module; the store can be "
          "beyond both. "
          "Strong bars: watering; faint bars: rain.") +
      year_words(source);
  return html_from(figure);
}

Html cash_chart(const ChartSource& source) {
  const Json& money = source.document.at("money");
  const std::string currency = money.at("currency").get<std::string>();
  const Json& flow = money.at("flow");
  if (flow.empty()) {
    return element("p", {{"class", "not-yet"}},
                   html_from(fmt::format("No chart of cash by year: {}.",
                                         money.at("net_present_value").at("why").get<std::string>())));
  }
  LineChart chart;
  chart.unit = currency;
  chart.lines = {{"90 %", "planted thin", {}}, {"middle", "planted", {}}, {"10 %", "planted thin", {}}};
  ChartFigure figure;
  figure.table.heads = {"By the end of year", "out in the year", "saved in the year", "balance", "10 %", "90 %"};
  double least = 0.0;
  double most = 0.0;
  for (const Json& year : flow) {
    const Json& balance = year.at("balance");
    const double middle = value_of(balance);
    const double low = balance.value("low", middle);
    const double high = balance.value("high", middle);
    chart.lines[0].values.push_back(high);
    chart.lines[1].values.push_back(middle);
    chart.lines[2].values.push_back(low);
    least = std::min(least, low);
    most = std::max(most, high);
    const std::string name = fmt::format("{}", year.at("year").get<int>());
    chart.step_labels.push_back("year " + name);
    chart.spans.push_back({1, year.at("year").get<int>() % 5 == 0 ? name : ""});
    figure.table.rows.push_back({name, number_in_print(value_of(year.at("out"))),
                                 number_in_print(value_of(year.at("saved"))), number_in_print(middle),
                                 number_in_print(low), number_in_print(high)});
  }
  chart.ticks = nice_ticks(least, most, 6);
  chart.drawing.id = "cash-years";
  chart.drawing.width = 760.0;
  chart.drawing.height = 260.0;
  chart.drawing.is_wide = true;
  chart.drawing.title = "Cash saved less cash gone out, by the end of each year";
  const std::vector<std::string>& last = figure.table.rows.back();
  figure.title =
      fmt::format("After {} years the balance is {} {}, {} to {}.", last[0], last[3], currency, last[4], last[5]);
  chart.drawing.description = figure.title;
  figure.id = "chart-cash";
  figure.caption =
      "Saved on bills really paid before, less outlay, renewal, water, leaks, lifting and disposal, without interest; "
      "middle, 10 and 90 % of the draws of every year. Comfort is not in it.";
  figure.panels = {html_from(chart)};
  figure.is_wide = true;
  return html_from(figure);
}

}  // namespace houseleek::report
