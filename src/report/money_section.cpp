// Money, rivals, carbon and what to build next, as sections of a report.
#include "report/money_section.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/study_words.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

// The adviser's table: what moves the present value less than these is in the JSON.
constexpr std::size_t most_sensitivities = 12;

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html paragraph_of(std::string_view text) { return element("p", {}, html_from(sentence_in_print(text))); }

Html words_with_list(std::string_view words, const Json& names) {
  if (names.empty()) return {};
  Html list;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) list += html_from(", ");
    list += name_from(names[i].get<std::string>());
  }
  return element("p", {}, html_from(words) + list + html_from("."));
}

Html number_cell(const Json& document, const std::string& pointer) {
  const bool is_there = !document.at(Json::json_pointer(pointer)).is_null();
  return element("td", {{"class", "n"}}, is_there ? number_at(document, pointer) : html_from("\u2013"));
}

Html scrolling_table(std::string_view caption, const std::vector<std::string>& heads, const Html& body) {
  Html head;
  for (const std::string& words : heads) head += element("th", {{"scope", "col"}}, html_from(words));
  const Html table = element("table", {},
                             element("caption", {}, html_from(caption)) +
                                 element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body));
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}}, table);
}

Html rivals_table(const Json& document, const std::string& currency) {
  Matrix matrix;
  matrix.caption = html_from("Paint, net or board instead");
  for (const std::string& words :
       {std::string("cover"), std::string("area, m\u00B2"), "outlay, " + currency, "renewal a year, " + currency,
        "cash saved a year, " + currency, "present value, " + currency, std::string("soaked, kg/m\u00B2"),
        "hot degree-hours less for 1 " + currency}) {
    matrix.heads.push_back(html_from(words));
  }
  matrix.rows.push_back({html_from("modules as laid out"),
                         {{"/roof/covered_m2"},
                          {"/money/outlay"},
                          {"/money/replacement_per_year"},
                          {"/money/cash_saving_per_year"},
                          {"/money/net_present_value"},
                          {""},
                          {"/planted_degree_hours_less_per_outlay_k_h"}}});
  const Json& rivals = document.at("rivals");
  Html statements;
  for (std::size_t i = 0; i < rivals.size(); ++i) {
    const std::string place = fmt::format("/rivals/{}", i);
    const std::string key = text_at(rivals[i], "name") + "/" + text_at(rivals[i], "extent");
    const auto cover =
        std::find_if(cover_words.begin(), cover_words.end(), [&](const CoverWords& one) { return one.key == key; });
    matrix.rows.push_back({html_from(cover == cover_words.end() ? std::string_view(key) : cover->words),
                           {{place + "/area_m2"},
                            {place + "/outlay"},
                            {place + "/replacement_per_year"},
                            {place + "/cash_saving_per_year"},
                            {place + "/net_present_value"},
                            {place + "/mass_soaked_kg_per_m2"},
                            {place + "/degree_hours_less_per_outlay_k_h"}}});
    Html statement = html_from(sentence_in_print(text_at(rivals[i], "statement")));
    if (rivals[i].at("is_better_for_its_money").get<bool>()) {
      statement += html_from(" ") + element_of("strong", "It does more for its money than the modules.");
    }
    statements += element("li", {}, statement);
  }
  return element("div", {{"id", "rivals"}}, table_of_matrix(document, matrix) + element("ul", {}, statements));
}

/// Low, likely and high years; a dash lies beyond the years counted.
Html payback_table(const Json& document) {
  const Json& money = document.at("money");
  Html body;
  for (const auto& [key, words] :
       {std::pair{"payback_years", "plain sums"}, std::pair{"discounted_payback_years", "with interest"}}) {
    if (money.at(key).is_null()) continue;
    Html row = element("th", {{"scope", "row"}}, html_from(words));
    for (const char* end : {"low", "likely", "high"})
      row += number_cell(document, fmt::format("/money/{}/{}", key, end));
    body += element("tr", {}, row);
  }
  if (body.is_empty()) return {};
  return scrolling_table("Years until the outlay has come back, 10, 50 and 90 % of the draws",
                         {"counted", "low", "likely", "high"}, body);
}

Html over_all_years(const Json& document, const std::string& currency) {
  std::vector<FigureRow> rows;
  for (const auto& [key, words] :
       {std::pair{"outlay", "outlay"}, std::pair{"own_hours", "own hours at the wage"}, std::pair{"renewal", "renewal"},
        std::pair{"water", "water"}, std::pair{"leaks", "leaks"}, std::pair{"lifting", "lifting for a new membrane"},
        std::pair{"disposal", "disposal"}}) {
    rows.push_back({html_from(words), currency, {fmt::format("/money/over_all_years/{}", key)}});
  }
  rows.push_back({html_from("present value, with interest"), currency, {"/money/net_present_value"}});
  return table_of_figures(
      document, html_from(fmt::format("Over {} years", document.at("money").at("years_counted").get<int>())), rows);
}

Html hangs_on(const Json& document, const std::string& currency) {
  const Json& money = document.at("money");
  Html content;
  for (const Json& one : money.at("break_even")) content += paragraph_of(text_at(one, "statement"));
  const Json& rows = money.at("sensitivities");
  Html body;
  for (std::size_t i = 0; i < std::min(rows.size(), most_sensitivities); ++i) {
    Html row = element("th", {{"scope", "row"}}, name_from(text_at(rows[i], "name")));
    for (const char* end : {"low_gives", "likely_gives", "high_gives"}) {
      row += number_cell(document, fmt::format("/money/sensitivities/{}/{}", i, end));
    }
    body += element("tr", {}, row);
  }
  if (!body.is_empty()) {
    content += scrolling_table(fmt::format("For the adviser: what moves the present value most, {}", currency),
                               {"figure", "at its low end", "as likely", "at its high end"}, body);
  }
  const Json& rates = money.at("internal_rates");
  std::string likely;
  for (const Json& rate : rates.at("likely_frac")) {
    likely += fmt::format("{}{:.1f} %", likely.empty() ? "" : " and ", 100.0 * rate.get<double>());
  }
  content += paragraph_of(fmt::format(
      "Internal rate with likely figures: {}. Of the draws {} have no such rate, {} have one, {} have several",
      likely.empty() ? "none" : likely, rates.at("draws_without").get<int>(), rates.at("draws_with_one").get<int>(),
      rates.at("draws_with_several").get<int>()));
  return content;
}

Html quick_payback(const Json& document, const std::string& currency) {
  const Json& quick = document.at("money").at("quick_payback");
  if (quick.at("rows").empty()) return {};
  Html body;
  for (std::size_t i = 0; i < quick.at("rows").size(); ++i) {
    Html row;
    for (const char* key :
         {"cost_per_m2", "electricity_per_kwh", "cooling_kwh_for_one_year", "cooling_kwh_for_two_years"}) {
      row += number_cell(document, fmt::format("/money/quick_payback/rows/{}/{}", i, key));
    }
    body += element("tr", {}, row);
  }
  return paragraph_of(text_at(quick, "note")) +
         scrolling_table("Back in one or two years: common practice, no source",
                         {fmt::format("modules, {}/m\u00B2", currency), fmt::format("electricity, {}/kWh", currency),
                          "kWh a year before, for one year", "for two years"},
                         body);
}

Html carbon_section(const Json& document) {
  const Json& carbon = document.at("carbon");
  return element_of("h3", "Carbon") + paragraph_of(text_at(carbon, "statement")) +
         table_of_figures(document, html_from("CO\u2082, kg"),
                          {{html_from("to make what is laid"), "kg", {"/carbon/made_kg"}},
                           {html_from("to renew"), "kg a year", {"/carbon/renewed_kg_per_year"}},
                           {html_from("saved on energy bought before"), "kg a year", {"/carbon/saved_kg_per_year"}},
                           {html_from("saved less made and renewed, all years"), "kg", {"/carbon/left_kg"}}}) +
         words_with_list("Not counted, for want of weight or figure: ", carbon.at("not_counted"));
}

}  // namespace

Html money_section(const ChartSource& source) {
  const Json& document = source.document;
  const Json& money = document.at("money");
  const std::string currency = text_at(money, "currency");
  Html content =
      table_of_figures(document, html_from("Cash that goes out"),
                       {{html_from("first outlay"), currency, {"/money/outlay"}},
                        {html_from("renewal a year, in the long run"), currency, {"/money/replacement_per_year"}},
                        {html_from("water a year"), currency, {"/money/water_per_year"}}});
  content += paragraph_of(text_at(money.at("own_hours"), "statement"));
  content += table_of_figures(
      document, html_from("Cash saved"),
      {{html_from("against bills really paid before, a year"), currency, {"/money/cash_saving_per_year"}}});
  content += paragraph_of(text_at(money, "cash_saving_statement"));
  content += table_of_figures(
      document, html_from("Comfort that was not bought before (never added to cash)"),
      {{html_from("less heat to remove, if it were removed"), "kWh a year", {"/money/comfort_kwh_per_year"}},
       {html_from("less heat to add, if it were added"), "kWh a year", {"/money/heating_less_kwh_per_year"}}});
  content += paragraph_of("Payback: " + text_at(money, "payback_why"));
  content += payback_table(document) + cash_chart(source) + over_all_years(document, currency);
  content += hangs_on(document, currency) + quick_payback(document, currency);
  const Json& recipes = money.at("recipes");
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    const std::string place = fmt::format("/money/recipes/{}", i);
    const Html name = name_from(text_at(recipes[i], "name"));
    rows.push_back({name + html_from(", a module"), currency, {place + "/per_module"}});
    rows.push_back({name + html_from(", all"), currency, {place + "/outlay"}});
    rows.push_back({name + html_from(", renewal a year"), currency, {place + "/replacement_per_year"}});
  }
  if (!rows.empty()) content += table_of_figures(document, html_from("By recipe"), rows);
  content += words_with_list("No price is known of: ", money.at("unpriced"));
  content += words_with_list("No service life is known, so never renewed here: ", money.at("without_life"));
  return content + rivals_table(document, currency) + carbon_section(document);
}

Html order_section(const Json& document) {
  const Json& about = document.at("order_about");
  const std::string currency = text_at(about, "currency");
  Html content = element("p", {{"class", "caution"}}, html_from(sentence_in_print(text_at(about, "load_statement"))));
  content += paragraph_of(text_at(about, "statement"));
  Html body;
  for (std::size_t i = 0; i < document.at("order").size(); ++i) {
    const Json& step = document.at("order")[i];
    const std::string place = fmt::format("/order/{}", i);
    body += element("tr", {},
                    element("th", {{"scope", "row"}}, html_from(text_at(step, "square"))) +
                        number_cell(document, place + "/cost") + number_cell(document, place + "/gain_k_h") +
                        element("td", {}, html_from(text_at(step, "reason"))));
  }
  if (!body.is_empty()) {
    content += scrolling_table("The next modules, one at a time",
                               {"square", "cost, " + currency, "hot degree-hours less, K h", "because"}, body);
  }
  content += words_with_list("Not laid: ", about.at("left_out"));
  return content + paragraph_of(
                       "Gains are from runs of the year with all free places laid and, where they are many, with half; "
                       "houseleek order takes "
                       "a budget, seasons, pins and bans.");
}

}  // namespace houseleek::report
