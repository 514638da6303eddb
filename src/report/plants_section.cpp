// Plants in a study's report: what grows there and why, what to add, what is kept in, the year in letters.
#include "report/plants_section.hpp"

#include <fmt/format.h>

#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/plants_text.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html sentence(const std::string& text) { return element("p", {}, html_from(sentence_in_print(text))); }

Html plant_name(const Json& plant) {
  Html name = name_from(text_at(plant, "name"));
  if (!plant.at("common_name").is_null()) name += html_from(", ") + name_from(text_at(plant, "common_name"));
  const std::string hazards = hazard_text(plant.at("hazards").get<std::vector<std::string>>());
  if (!hazards.empty()) name += element_of("br", "") + element_of("strong", "Caution: " + hazards);
  return name;
}

Html row_of(const std::string& cell_name, const std::vector<Html>& cells) {
  Html row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool is_head = i == 0 || cell_name == "th";
    row +=
        is_head ? element("th", {{"scope", cell_name == "th" ? "col" : "row"}}, cells[i]) : element("td", {}, cells[i]);
  }
  return element("tr", {}, row);
}

Html table_of(const Html& caption, const std::vector<Html>& heads, const Html& rows) {
  return element(
      "table", {},
      element("caption", {}, caption) + element("thead", {}, row_of("th", heads)) + element("tbody", {}, rows));
}

Html place_part(const Json& document, std::size_t index) {
  const Json& place = document.at("plants").at("places").at(index);
  const std::string at = fmt::format("/plants/places/{}", index);
  Html content = element("h3", {}, name_from(text_at(place, "name")));
  content += table_of_figures(document, html_from("What it asks of plants"),
                              {{html_from("depth of medium"), "mm", {at + "/medium_depth_mm"}},
                               {html_from("dry days in a row"), "days", {at + "/dry_days"}},
                               {html_from("other kinds that would likely live"), "", {at + "/counts/likely"}},
                               {html_from("doubtful ones"), "", {at + "/counts/doubtful"}},
                               {html_from("that would not live"), "", {at + "/counts/no"}},
                               {html_from("refused by a list"), "", {at + "/counts/refused"}}});
  Html rows;
  for (const Json& plant : place.at("there")) {
    Html why = html_from(sentence_in_print(text_at(plant, "sentence")));
    if (!plant.at("standing_text").is_null()) {
      why += element_of("strong", " Listed: " + text_at(plant, "standing_text"));
    }
    rows += row_of("td", {plant_name(plant), html_from(text_at(plant, "survival")), why});
  }
  if (!rows.is_empty()) {
    content +=
        table_of(html_from("Grows there now"), {html_from("plant"), html_from("lives on"), html_from("why")}, rows);
  }
  return content + sentence("In bloom with the fewest kinds: " + text_at(place, "additions"));
}

Html kept_part(const Json& plants) {
  Html content = element_of("h3", "Invasive plants") + sentence(text_at(plants, "lists"));
  for (const Json& kept : plants.at("kept_in")) {
    content += element("p", {},
                       name_from(text_at(kept, "plant")) + html_from(" in ") + name_from(text_at(kept, "where")) +
                           html_from(": " + text_at(kept, "text") + "."));
    Html steps;
    for (const Json& step : kept.at("steps")) steps += element("li", {}, html_from(step.get<std::string>()));
    if (!steps.is_empty()) content += element("ul", {}, steps);
  }
  return content;
}

Html calendar_part(const Json& plants) {
  if (plants.at("calendar").empty()) return {};
  std::vector<Html> heads = {html_from("plant")};
  for (const std::string_view letters : month_letters) heads.push_back(html_from(letters));
  Html rows;
  for (const Json& plant : plants.at("calendar")) {
    std::vector<Html> cells = {name_from(text_at(plant, "plant"))};
    for (const Json& letters : plant.at("months")) cells.push_back(html_from(letters.get<std::string>()));
    rows += row_of("td", cells);
  }
  std::string legend;
  for (const Json& letter : plants.at("letters")) {
    legend += fmt::format("{}{} {}", legend.empty() ? "" : ", ", text_at(letter, "letter"), text_at(letter, "words"));
  }
  return table_of(html_from("The year in letters"), heads, rows) +
         element("p", {{"class", "key"}}, html_from(legend + "."));
}

}  // namespace

Html plants_section(const Json& document) {
  const Json& plants = document.at("plants");
  Html content = sentence(text_at(plants, "statement"));
  content += element("p", {},
                     html_from("Coldest night once in 20 years: ") +
                         figure_line(document, "/plants/coldest_night_c", "\u00B0C") +
                         html_from(fmt::format("; a climate that growers call {}.", text_at(plants, "climate"))));
  for (std::size_t i = 0; i < plants.at("places").size(); ++i) content += place_part(document, i);
  return content + kept_part(plants) + calendar_part(plants);
}

}  // namespace houseleek::report
