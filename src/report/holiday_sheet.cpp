// One printed page for a neighbour who waters: what, when, how many cans, boxes to tick.
#include "report/holiday_sheet.hpp"

#include <fmt/format.h>

#include "report/chart_parts.hpp"
#include "report/roof_sections.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html steps() {
  Html list;
  for (const std::string_view step :
       {"In the morning or the evening, not in the heat of the day.",
        "Pour slowly, a can in two goes, over the medium and not over the leaves, until it drips below. Then stop: "
        "more "
        "runs away.",
        "Feel one first: where a finger finds it moist two centimetres deep, leave it for the next visit.",
        "Clear the gratings of the outlets by hand when you pass them.",
        "Tick the box and write what was left over. Empty what holds standing water: mosquitoes."}) {
    list += element_of("li", step);
  }
  return element("ol", {}, list);
}

}  // namespace

std::string sheet_for_neighbour(const Json& document, const ReportHead& head) {
  const Json& holiday = document.at("holiday");
  const std::string name = text_at(document, "design");
  Html content = element("p", {{"class", "kind"}}, html_from("For whoever waters while we are away"));
  content += element("h1", {},
                     html_from(fmt::format("{} to {}", text_at(holiday, "first_day"), text_at(holiday, "last_day"))));
  if (document.at("is_invented").get<bool>()) {
    content += element("p", {{"class", "marked"}}, html_from("Invented example: no such house."));
  }
  content += element("p", {}, html_from("Thank you. ") + html_from(text_at(holiday, "statement")));
  Html cautions;
  // Whoever only waters neither cuts wool nor mixes medium.
  for (const Json& caution : document.at("cautions")) {
    const std::string id = text_at(caution, "id");
    if (id == "edges-and-ladders" || id == "barrels-and-mosquitoes" || id == "electrics" || id == "lifting") {
      cautions += element("li", {}, caution_from(caution));
    }
  }
  cautions +=
      element_of("li",
                 "Never go up alone, on a wet ladder, in wind or in a thunderstorm. Nothing up there is worth a "
                 "fall: let it dry out.");
  content += element("ul", {{"class", "caution"}}, cautions);
  TableData table;
  table.heads = {"day", "what, litres", fmt::format("cans of {:g} l", document.at("can_l").get<double>()), "done",
                 "what was left over, who, when"};
  // One line a day: whoever goes up does all of it.
  std::string what;
  double cans = 0.0;
  const Json& visits = holiday.at("visits");
  for (std::size_t i = 0; i < visits.size(); ++i) {
    const std::string day = text_at(visits[i], "day");
    what += fmt::format("{}{}: {:.0f}", what.empty() ? "" : "; ", text_at(visits[i], "what"),
                        visits[i].at("litres").get<double>());
    cans += visits[i].at("cans").get<double>();
    if (i + 1 < visits.size() && text_at(visits[i + 1], "day") == day) continue;
    table.rows.push_back({day, what, fmt::format("{:.0f}", cans), "\u2610", "______________________"});
    what.clear();
    cans = 0.0;
  }
  content += table.rows.empty()
                 ? element_of("p", "Nothing wants water in these days, if all is watered before we leave.")
                 : table_from(table, "Visits");
  content += element_of("h2", "How") + steps();
  Html blanks;
  for (const std::string_view line : {"Where the key and the cans are", "Where the water comes from", "Our telephone",
                                      "Who else can help, and their telephone"}) {
    blanks +=
        element("tr", {}, element("th", {{"scope", "row"}}, html_from(line)) + element("td", {{"class", "blank"}}));
  }
  content += element("table", {{"class", "blanks"}}, element("tbody", {}, blanks));
  content +=
      element("p", {{"class", "meta"}},
              html_from(fmt::format("{} \u00B7 Houseleek {}. Litres and days are a model's; the finger knows better.",
                                    head.date, text_at(document.at("engine"), "version"))));
  return page_from((name.empty() ? "This house" : name) + ": watering while we are away", content);
}

}  // namespace houseleek::report
