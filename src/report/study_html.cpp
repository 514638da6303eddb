// A study's answer as one page that needs nothing else: no other file, no network, no script.
#include "report/study_html.hpp"

#include <fmt/format.h>

#include <cctype>
#include <map>

#include "catalogue/catalogue.hpp"
#include "report/figure_html.hpp"
#include "report/logbook_section.hpp"
#include "report/page_frame.hpp"
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

}  // namespace

std::string page_of_study(const Json& document, const YearColumns& columns, const ReportHead& head,
                          const Html& trials) {
  const ChartSource source{document, columns};
  Html content = page_header(document, head, "A roof with and without planted modules") + cautions_section(document) +
                 answers_section(document);
  for (const Question& question : questions) content += question_section(question, source);
  content += trials + logbook_section(document);
  content += assumptions_section(document) + weather_section(document) + engine_section(document);
  const std::string name = text_at(document, "design");
  return page_from((name.empty() ? "This house" : name) + ": planted modules on a roof", content);
}

}  // namespace houseleek::report
