// A trial as a page of its own, or as a section of a study's report.
#include "report/trial_html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/trial_charts.hpp"
#include "report/trial_text.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

Html sentences(const std::vector<std::string>& list) {
  Html items;
  for (const std::string& one : list) items += element("li", {}, html_from(sentence_in_print(one)));
  return list.empty() ? Html() : element("ul", {}, items);
}

Html head_of_page(const TrialHead& trial, const ReportHead& head, std::string_view kind, const std::string& version) {
  Html content = element("p", {{"class", "kind"}}, html_from(kind));
  content += element("h1", {}, name_from(trial.trial));
  if (trial.is_invented) {
    content +=
        element("p", {{"class", "marked"}}, html_from("Invented example: no such house, town, weather or readings."));
  }
  content += element("p", {{"class", "meta"}},
                     html_from(trial.design.empty() ? "" : trial.design + " \u00B7 ") +
                         html_from(fmt::format("{} \u00B7 Houseleek {}", head.date, version)));
  return element("header", {}, content);
}

Html flags_table(const std::vector<trials::LoggerFlag>& flags) {
  TableData table;
  table.heads = {"Logger", "from", "to", "what was seen"};
  for (const trials::LoggerFlag& flag : flags) {
    const std::string from = text_from_utc(flag.from_s);
    const std::string to = text_from_utc(flag.to_s);
    table.rows.push_back({flag.column, from.substr(0, from.size() - 1), to.substr(0, to.size() - 1), flag.sentence});
  }
  return element_of("h3", "Loggers that look wrong") +
         element_of("p", "Flagged, and kept: the verdict stands above with and without the days they touch.") +
         folded_table(table, fmt::format("{} flags", flags.size()));
}

Html left_out_table(const MeasureAnswer& measure) {
  TableData table;
  table.heads = {"Place", "day", "why it has no number"};
  for (const TrialSeries& series : measure.series) {
    for (const trials::LeftOutDay& day : series.left_out) {
      table.rows.push_back({series.place, text_from_day(day.day), day.why});
    }
  }
  return table.rows.empty() ? Html() : folded_table(table, fmt::format("{} days without a number", table.rows.size()));
}

Html scores_part(const ScoreAnswer& score) {
  std::vector<std::string> words;
  for (const trials::ScoreComparison& one : score.comparisons) words.push_back(one.sentence);
  TableData table;
  table.heads = {"Place", "side", score.unit.empty() ? score.what : fmt::format("{}, {}", score.what, score.unit)};
  for (const trials::ModuleScore& one : score.modules) {
    table.rows.push_back({one.module, one.side, number_in_print(one.score)});
  }
  return element_of("h3", fmt::format("Of {} ({})", score.what, score.from)) + sentences(words) +
         folded_table(table, "Module by module");
}

}  // namespace

Html trial_section(const TrialJudgeAnswer& answer, const std::string& id) {
  Html content = element_of("p", days_in_words(answer.first_day, answer.last_day) + ".");
  std::vector<std::string> notes;
  for (const MeasureAnswer& measure : answer.measures) {
    content += element_of("h3", fmt::format("{}{}", heading_of(measure.measure),
                                            measure.is_main ? ": what the trial is about" : ", looked at besides"));
    std::vector<std::string> words;
    for (const trials::SideComparison& one : measure.verdict.comparisons) words.push_back(one.sentence);
    if (words.empty()) words.emplace_back("Nothing can be said yet.");
    if (!measure.note.empty()) words.push_back(fmt::format("From {}.", measure.note));
    content += sentences(words);
    if (measure.is_main) content += paired_days_chart(measure, id + "-days") + left_out_table(measure);
    for (const std::string& note : measure.verdict.notes) {
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    }
  }
  content += differences_chart(answer, id + "-intervals");
  for (const ScoreAnswer& score : answer.scores) content += scores_part(score);
  if (!answer.flags.empty()) content += flags_table(answer.flags);
  notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
  if (!notes.empty()) content += element_of("h3", "To know") + sentences(notes);
  return content;
}

Html fit_section(const TrialFitAnswer& answer, const std::string& id) {
  TableData table;
  table.heads = {"Property", "before", "low", "fitted", "high", "unit"};
  for (const FittedFigure& figure : answer.figures) {
    const auto text = [](const std::optional<double>& value) { return value ? number_in_print(*value) : "not known"; };
    table.rows.push_back({figure.words, number_in_print(figure.before), text(figure.fitted.low),
                          number_in_print(figure.fitted.value), text(figure.fitted.high), figure.unit});
  }
  Html content = table_from(table, "Values fitted to the readings, with 95 % intervals");
  std::vector<std::string> words = {fmt::format("Reading less model, root mean square: {} K before, {} K fitted.",
                                                number_in_print(answer.fit.rms_start),
                                                number_in_print(answer.fit.rms_fitted))};
  if (answer.fit.rms_held_back_start && answer.fit.rms_held_back_fitted) {
    words.push_back(fmt::format("On {} days held back: {} K before, {} K fitted.", answer.held_back_days.size(),
                                number_in_print(*answer.fit.rms_held_back_start),
                                number_in_print(*answer.fit.rms_held_back_fitted)));
  }
  content += sentences(words);
  std::vector<std::string> warnings;
  for (const trials::FitWarning& warning : answer.fit.warnings) warnings.push_back(warning.sentence);
  if (!warnings.empty()) content += element_of("h3", "What these readings cannot tell") + sentences(warnings);
  content += fitted_chart(answer, id + "-fitted");
  std::vector<std::string> notes = {fmt::format("Weather: {}.", answer.weather)};
  notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
  if (!answer.refused_because.empty())
    notes.push_back(fmt::format("Not offered for the design: {}", answer.refused_because));
  return content + element_of("h3", "To know") + sentences(notes);
}

Html trials_section(const std::vector<TrialJudgeAnswer>& answers) {
  Html content;
  for (std::size_t i = 0; i < answers.size(); ++i) {
    content += element("h3", {}, html_from("Trial ") + name_from(answers[i].head.trial)) +
               trial_section(answers[i], fmt::format("trial-{}", i + 1));
  }
  if (content.is_empty()) return {};
  return element("section", {{"id", "trials"}},
                 element("h2", {},
                         element("span", {{"class", "number"}}, html_from("11")) +
                             html_from("Did it work, and which is better?")) +
                     content);
}

std::string page_of_trial(const TrialJudgeAnswer& answer, const ReportHead& head) {
  return page_from(answer.head.trial + ": the verdict of a trial",
                   head_of_page(answer.head, head, "Verdict of a trial", answer.engine_version) +
                       element("section", {{"id", "verdict"}},
                               element_of("h2", "What the readings say") + trial_section(answer, "trial")));
}

std::string page_of_fit(const TrialFitAnswer& answer, const ReportHead& head) {
  return page_from(answer.head.trial + ": the model fitted to readings",
                   head_of_page(answer.head, head, "The model fitted to readings of this roof", answer.engine_version) +
                       element("section", {{"id", "fit"}},
                               element_of("h2", "What the readings say of the model") + fit_section(answer, "fit")));
}

}  // namespace houseleek::report
