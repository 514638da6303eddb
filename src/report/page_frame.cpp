// What every page of ours has: the head with its marks, the style, and no need of anything else.
#include "report/page_frame.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/figure_html.hpp"
#include "report/page_style.hpp"
#include "report/roof_sections.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

/// What a design says of itself, and figures that somebody made up.
Html invented_mark(const Json& document) {
  const auto n_invented = std::count_if(document.at("assumed").begin(), document.at("assumed").end(),
                                        [](const Json& one) { return one.at("certainty") == "invented"; });
  std::string words;
  if (document.at("is_invented").get<bool>())
    words = "Invented example: no such house, town, weather, engineer or prices.";
  if (n_invented > 0) {
    words += fmt::format("{}{} of the {} assumed figures are invented, prices above all: see the list.",
                         words.empty() ? "" : " ", n_invented, document.at("assumed").size());
  }
  return words.empty() ? Html() : element("p", {{"class", "marked"}}, html_from(words));
}

/// Hatching of what is warmer than bare: closer lines for more.
Html hatch_patterns() {
  constexpr double pitches[] = {5.0, 3.4, 2.2};
  Html patterns;
  for (std::size_t i = 0; i < 3; ++i) {
    const std::string pitch = fmt::format("{}", pitches[i]);
    patterns += element("pattern",
                        {{"id", fmt::format("hatch-{}", i + 1)},
                         {"width", pitch},
                         {"height", pitch},
                         {"patternUnits", "userSpaceOnUse"},
                         {"patternTransform", "rotate(45)"}},
                        element("rect", {{"width", pitch}, {"height", pitch}, {"class", "hatch-paper"}}) +
                            element("line", {{"x1", "0"},
                                             {"y1", "0"},
                                             {"x2", "0"},
                                             {"y2", pitch},
                                             {"class", "hatch-line"},
                                             {"stroke-width", "1.1"}}));
  }
  return element("svg", {{"class", "defs"}, {"aria-hidden", "true"}}, element("defs", {}, patterns));
}

}  // namespace

Html made_from_line(const Json& engine, const ReportHead& head) {
  return element("p", {{"class", "meta"}},
                 html_from(fmt::format("{} \u00B7 Houseleek {} \u00B7 seed {}", head.date, text_at(engine, "version"),
                                       engine.at("seed").dump())) +
                     element("br") +
                     element("span", {{"class", "hash"}}, html_from("inputs " + text_at(engine, "input_hash"))));
}

Html cautions_section(const Json& document) {
  Html list;
  for (const Json& caution : document.at("cautions")) list += element("li", {}, caution_from(caution));
  const Html body = list.is_empty() ? element_of("p", "None of the conditions that call for a caution was found.")
                                    : element("ul", {{"class", "caution"}}, list);
  return section("cautions", "First, the cautions", body);
}

Html section(std::string_view id, std::string_view title, const Html& content) {
  return element("section", {{"id", std::string(id)}}, element_of("h2", title) + content);
}

Html page_header(const Json& document, const ReportHead& head, std::string_view kind) {
  const std::string name = text_at(document, "design");
  Html content = element("p", {{"class", "kind"}}, html_from(kind));
  content += element("h1", {}, name.empty() ? html_from("This house") : name_from(name));
  content += invented_mark(document);
  content +=
      element("p", {},
              html_from("Modules: ") + number_at(document, "/roof/modules") + html_from(" on ") +
                  number_at(document, "/roof/covered_m2") + html_from(" of ") + number_at(document, "/roof/area_m2") +
                  html_from(" m\u00B2. Deck, from above: ") + html_from(text_at(document.at("roof"), "deck") + "."));
  content += made_from_line(document.at("engine"), head);
  return element("header", {}, content);
}

std::string page_from(const std::string& title, const Html& content) {
  const Html head_html = element("meta", {{"charset", "utf-8"}}) +
                         element("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}}) +
                         element("meta", {{"http-equiv", "Content-Security-Policy"},
                                          {"content", "default-src 'none'; style-src 'unsafe-inline'"}}) +
                         element("title", {}, html_from(title)) + style_element(page_style());
  const Html page =
      element("html", {{"lang", "en"}},
              element("head", {}, head_html) + element("body", {}, hatch_patterns() + element("main", {}, content)));
  return "<!DOCTYPE html>\n" + page.text() + "\n";
}

}  // namespace houseleek::report
