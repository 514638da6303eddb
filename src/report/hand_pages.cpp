// Pages to be printed and handed to the people who have to judge the roof.
#include "report/hand_pages.hpp"

#include <fmt/format.h>

#include <span>

#include "report/figure_html.hpp"
#include "report/roof_sections.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html list_of(std::string_view kind, std::span<const std::string_view> items) {
  Html list;
  for (const std::string_view item : items) list += element_of("li", item);
  return element(kind, {}, list);
}

/// Lines to be filled in by hand.
Html blanks(std::string_view title, std::span<const std::string_view> lines) {
  Html body;
  for (const std::string_view line : lines) {
    body += element("tr", {}, element("th", {{"scope", "row"}}, html_from(line)) + element("td", {{"class", "blank"}}));
  }
  return element("section", {{"class", "to-sign"}},
                 element_of("h2", title) + element("table", {{"class", "blanks"}}, element("tbody", {}, body)));
}

std::string title_of(const Json& document, std::string_view whom) {
  const std::string name = text_at(document, "design");
  return fmt::format("{}: for the {}", name.empty() ? "This house" : name, whom);
}

Html weights(const Json& document) {
  std::vector<FigureRow> rows;
  const Json& recipes = document.at("recipes");
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    for (const auto& [words, key] :
         {std::pair{"dry", "mass_dry_kg_per_m2"}, std::pair{"drained", "mass_drained_kg_per_m2"},
          std::pair{"soaked, all pores full", "mass_soaked_kg_per_m2"}}) {
      rows.push_back({name_from(text_at(recipes[i], "name")) + html_from(fmt::format(", {}", words)),
                      "kg/m\u00B2",
                      {fmt::format("/recipes/{}/{}", i, key), Form::plain}});
    }
  }
  return table_of_figures(document, html_from("Modules by themselves"), rows);
}

Html feet(const Json& document) {
  Html items;
  for (const Json& foot : document.at("load").at("feet")) {
    items += element("li", {}, html_from(sentence_in_print(text_at(foot, "statement"))));
  }
  return items.is_empty() ? element_of("p", "No module stands on spacers.") : element("ul", {}, items);
}

constexpr std::string_view engineer_questions[] = {
    "What may lie on this roof for good, evenly, besides what is there already, in kN/m\u00B2?",
    "What does that figure count in already: old screeds, tanks, machines, people for upkeep, snow?",
    "Over which area may a load be averaged, if at all?",
    "What may press on one point, and in a line along an edge or beside a wall?",
    "How deep may water stand if every outlet is blocked, and hail on top of it?",
    "How many wet modules may stand on one another while they are being moved, and where?",
    "Are spans loaded by turns counted in, and pull on supports?",
    "Which parts have to be seen or opened before you can say: joists' ends, hollow pots, beams, fixings, damp, old "
    "repairs?",
    "Until when, and under what conditions, does your answer hold?"};
constexpr std::string_view engineer_blanks[] = {"may lie there for good, kN/m\u00B2",
                                                "averaged over, m\u00B2",
                                                "counts in already",
                                                "on one point, kN, over mm \u00D7 mm",
                                                "along a line, kN/m",
                                                "water behind blocked outlets, mm",
                                                "not before this was seen",
                                                "holds until, and as long as",
                                                "name and licence",
                                                "date and signature"};
constexpr std::string_view roofer_inspect[] = {
    "The membrane: its kind, age, and whether it resists roots; blisters, open laps, repairs.",
    "Upstands, parapets, drips and every pipe: at least as high as water can stand, and a hand to spare.",
    "A flood test, or another proof that it is tight, before anything covers it; photographs with dates.",
    "Outlets: clear, with gratings that come off, and a way to each of them that stays free.",
    "An overflow through the parapet below the height at which water does harm.",
    "Hollows after rain: how deep, and how long they stay.",
    "What goes between feet and membrane: a sheet that bitumen, PVC, polystyrene and plasticisers stand for decades."};
constexpr std::string_view roofer_warranty[] = {
    "Does covering the membrane, walking on it, or standing water end the warranty?",
    "Who may lift and lay modules when a leak is looked for, and who pays for it?",
    "Which sheets, feet and sealants may touch this membrane?", "How often must it be looked at, and by whom?"};
constexpr std::string_view roofer_blanks[] = {"kind and age of the membrane",
                                              "pressure it bears for good, kPa, on a warm day",
                                              "protection sheet to be used",
                                              "mended before modules come",
                                              "flood test on, result",
                                              "warranty holds if",
                                              "name and firm",
                                              "date and signature"};

}  // namespace

std::string page_for_engineer(const Json& document, const ReportHead& head) {
  Html content = page_header(document, head, "For the structural engineer");
  content +=
      element("p", {{"class", "marked"}},
              html_from("A screening made by the owner with a program, from the owner's own description. It is no "
                        "structural calculation, and nothing in it has been seen on the building."));
  content += section("questions", "What is asked of you", list_of("ol", engineer_questions));
  content += section("what-lies-there", "What would lie there",
                     cautions_beside(document, "load") + weights(document) + load_section(document));
  content += section("water", "Water on the roof", cautions_beside(document, "drainage") + drainage_section(document));
  content += section("wind-on-it", "Wind", wind_section(document));
  content += blanks("To be filled in and signed", engineer_blanks);
  return page_from(title_of(document, "structural engineer"), content);
}

std::string page_for_roofer(const Json& document, const ReportHead& head) {
  Html content = page_header(document, head, "For the roofer");
  content += section("look", "To be looked at before anything covers the roof",
                     cautions_beside(document, "roof") + list_of("ol", roofer_inspect));
  content += section("press", "What would press on the membrane", feet(document) + weights(document));
  content += section("water", "Outlets and water", cautions_beside(document, "drainage") + drainage_section(document));
  content += section("warranty", "What voids a warranty", list_of("ol", roofer_warranty));
  content += blanks("To be filled in and signed", roofer_blanks);
  return page_from(title_of(document, "roofer"), content);
}

}  // namespace houseleek::report
