// A study's answer for a terminal: cautions first, then every question within one screen of 24 lines and 80 columns.
#include "report/study_text.hpp"

#include <fmt/format.h>

#include "base/utf8.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t label_width = 13;
constexpr std::size_t widest_title = 24;

/// Up to the first full stop, colon or semicolon that a blank follows.
std::string first_clause(const std::string& text) {
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    const bool is_mark = text[i] == '.' || text[i] == ':' || text[i] == ';';
    if (is_mark && text[i + 1] == ' ') return text.substr(0, i) + ".";
  }
  return text;
}

}  // namespace

std::string text_of_cautions(const StudyAnswer& answer) {
  std::string text;
  for (const catalogue::Caution& caution : answer.cautions) {
    if (caution.is_on_first_page) text += fmt::format(" {}", first_clause(caution.text));
  }
  return text.empty() ? "" : paragraph("", 0, "CAUTION:" + text);
}

std::string text_of_questions(const StudyAnswer& answer) {
  const std::string name = answer.design_name.empty() ? "This house" : short_name(answer.design_name, widest_title);
  std::string text =
      paragraph("", 0,
                fmt::format("{}: {} modules on {} of {} m2, bare against planted", name, answer.roof.n_modules,
                            short_number(answer.roof.covered_m2), short_number(answer.roof.area_m2)));
  for (const QuestionAnswer& one : answer.answers) {
    // Several questions with one answer need more than the column of labels.
    const bool is_wide = count_characters(one.question) >= label_width;
    if (!is_wide) {
      text += paragraph(one.question, label_width, one.text);
      continue;
    }
    const std::string line = fmt::format("{} {}", one.question, one.text);
    // Behind a short answer where there is room: the page has few lines.
    const std::size_t last = text.rfind('\n', text.size() - 2) + 1;
    const std::size_t n_last = count_characters(std::string_view(text).substr(last, text.size() - last - 1));
    if (n_last + 2 + count_characters(line) <= page_width) {
      text.insert(text.size() - 1, ". " + line);
    } else {
      text += paragraph("", 0, line);
    }
  }
  text += paragraph("", 0,
                    answer.engine.n_years == 1
                        ? std::string("Heat and water: one year's weather only. The rest: --json; houseleek check.")
                        : fmt::format("Middle, then 10 to 90 %: of {} made years, money of {} draws. The rest: "
                                      "--json; houseleek check.",
                                      answer.engine.n_years - answer.engine.n_years_failed, answer.engine.n_draws));
  return text;
}

std::string text_from(const StudyAnswer& answer) { return text_of_cautions(answer) + text_of_questions(answer); }

}  // namespace houseleek::report
