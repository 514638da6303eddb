// A study's answer as one page that needs nothing else: no other file, no network, no script.
#include "report/study_html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "catalogue/catalogue.hpp"
#include "report/figure_html.hpp"
#include "report/page_style.hpp"
#include "report/roof_sections.hpp"
#include "report/study_sections.hpp"

namespace houseleek::report {
namespace {

constexpr int beside_all_questions = -1;

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

/// Numbers of questions in a label of the answer: "1 Carry it?" or "0 Sound? 5 Drain?".
std::vector<int> numbers_in(const std::string& label) {
  std::vector<int> numbers;
  for (std::size_t i = 0; i < label.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(label[i])) == 0) continue;
    std::size_t end = i;
    int number = 0;
    while (end < label.size() && std::isdigit(static_cast<unsigned char>(label[end])) != 0) {
      number = 10 * number + (label[end++] - '0');
    }
    numbers.push_back(number);
    i = end;
  }
  return numbers;
}

/// Sentences of the answer by question. A label without a number goes on with the question before it.
std::map<int, std::vector<std::string>> sentences_by_question(const Json& document) {
  std::map<int, std::vector<std::string>> sentences;
  std::vector<int> last{beside_all_questions};
  for (const Json& answer : document.at("answers")) {
    const std::vector<int> numbers = numbers_in(text_at(answer, "question"));
    if (!numbers.empty()) last = numbers;
    for (const int number : last) sentences[number].push_back(text_at(answer, "text"));
  }
  return sentences;
}

/// The figure that a question turns on, with its range.
struct KeyFigure {
  int question;
  std::string_view words;
  std::string_view pointer;
  std::string_view unit;
};
constexpr KeyFigure key_figures[] = {
    {1, "Soaked, the heaviest square", "/load/soaked_max_kn_per_m2", "kN/m\u00B2"},
    {1, "Dry, not shown to stay above gusts of", "/wind/not_shown_above_km_per_h", "km/h"},
    {2, "Bare deck, U-value", "/roof/bare/u_value_w_per_m2_k", "W/m\u00B2K"},
    {3, "Hottest room under the modules", "/house/planted/operative_max_c", "\u00B0C"},
    {3, "Planted minus bare, at the hottest", "/house/planted_minus_bare/operative_max_k", "K"},
    {3, "Hottest room bare", "/house/bare/operative_max_c", "\u00B0C"},
    {4, "Room-hours too warm with fans", "/house/planted/hours_above_limit_with_fan", "h"},
    {5, "Steady rain it takes", "/drainage/cases/0/rain_mm_per_h", "mm/h"},
    {6, "Watering", "/water/watering_l_per_module", "litres a module and year"},
    {8, "Outlay", "/money/outlay", ""},
    {8, "Cash saved a year", "/money/cash_saving_per_year", ""},
    {8, "Comfort, apart from cash", "/money/comfort_kwh_per_year", "kWh a year less to remove"},
};

Html short_answer(const Json& document, int question, const std::vector<std::string>& sentences) {
  Html content;
  for (const std::string& sentence : sentences) {
    content += element("p", {}, html_from(sentence_in_print(sentence)));
  }
  for (const KeyFigure& key : key_figures) {
    if (key.question != question) continue;
    const std::string unit = key.unit.empty() ? text_at(document.at("money"), "currency") : std::string(key.unit);
    content +=
        element("p", {{"class", "key"}},
                html_from(fmt::format("{}: ", key.words)) + figure_line(document, std::string(key.pointer), unit));
  }
  return content;
}

Html heading_of(const Question& question) {
  return element("span", {{"class", "number"}}, html_from(fmt::format("{}", question.number))) +
         html_from(question.words);
}

Html answers_section(const Json& document) {
  const std::map<int, std::vector<std::string>> sentences = sentences_by_question(document);
  Html list;
  const auto beside = sentences.find(beside_all_questions);
  if (beside != sentences.end()) {
    const Html link = element("a", {{"href", "#rivals"}}, html_from("Beside the plain rivals"));
    list += element("li", {}, link + short_answer(document, beside_all_questions, beside->second));
  }
  for (const Question& question : questions) {
    const auto found = sentences.find(question.number);
    const std::vector<std::string> none{std::string(not_yet_words)};
    const Html link = element("a", {{"href", fmt::format("#question-{}", question.number)}}, heading_of(question));
    list += element("li", {},
                    link + short_answer(document, question.number, found == sentences.end() ? none : found->second));
  }
  return element("section", {{"id", "answers"}},
                 element_of("h2", "The answers in short") + element("ul", {{"class", "short"}}, list));
}

Html cautions_section(const Json& document) {
  Html list;
  for (const Json& caution : document.at("cautions")) list += element("li", {}, caution_from(caution));
  const Html body = list.is_empty() ? element_of("p", "None of the conditions that call for a caution was found.")
                                    : element("ul", {{"class", "caution"}}, list);
  return element("section", {{"id", "cautions"}}, element_of("h2", "First, the cautions") + body);
}

Html question_section(const Question& question, const ChartSource& source) {
  Html content = element("h2", {}, heading_of(question));
  // Wind and fire have a heading of their own under a question.
  for (const std::string_view place : catalogue::caution_places) {
    if (question_of_place(place) != question.number || place == "wind" || place == "fire") continue;
    content += cautions_beside(source.document, place);
  }
  content += answer_to(question.number, source);
  return element("section", {{"id", fmt::format("question-{}", question.number)}}, content);
}

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

Html header_of(const Json& document, const ReportHead& head) {
  const std::string name = text_at(document, "design");
  const Json& engine = document.at("engine");
  Html content = element("p", {{"class", "kind"}}, html_from("A roof with and without planted modules"));
  content += element("h1", {}, name.empty() ? html_from("This house") : name_from(name));
  content += invented_mark(document);
  content +=
      element("p", {},
              html_from("Modules: ") + number_at(document, "/roof/modules") + html_from(" on ") +
                  number_at(document, "/roof/covered_m2") + html_from(" of ") + number_at(document, "/roof/area_m2") +
                  html_from(" m\u00B2. Deck, from above: ") + html_from(text_at(document.at("roof"), "deck") + "."));
  content +=
      element("p", {{"class", "meta"}},
              html_from(fmt::format("{} \u00B7 Houseleek {} \u00B7 seed ", head.date, text_at(engine, "version"))) +
                  html_from(engine.at("seed").dump()) + element("br") +
                  element("span", {{"class", "hash"}}, html_from("inputs " + text_at(engine, "input_hash"))));
  return element("header", {}, content);
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

std::string page_of_study(const Json& document, const YearColumns& columns, const ReportHead& head) {
  const ChartSource source{document, columns};
  Html content = header_of(document, head) + cautions_section(document) + answers_section(document);
  for (const Question& question : questions) content += question_section(question, source);
  content += assumptions_section(document) + weather_section(document) + engine_section(document);
  const std::string name = text_at(document, "design");
  const Html head_html =
      element("meta", {{"charset", "utf-8"}}) +
      element("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}}) +
      element("meta", {{"http-equiv", "Content-Security-Policy"},
                       {"content", "default-src 'none'; style-src 'unsafe-inline'"}}) +
      element("title", {}, html_from((name.empty() ? "This house" : name) + ": planted modules on a roof")) +
      style_element(page_style());
  const Html page =
      element("html", {{"lang", "en"}},
              element("head", {}, head_html) + element("body", {}, hatch_patterns() + element("main", {}, content)));
  return "<!DOCTYPE html>\n" + page.text() + "\n";
}

}  // namespace houseleek::report
