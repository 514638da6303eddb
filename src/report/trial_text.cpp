// What the commands of trials answer, on a terminal of 80 columns.
#include "report/trial_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t indent = 2;
constexpr std::size_t most_lines_of_missing = 20;
constexpr std::size_t most_flags = 10;

std::string title_of(const TrialHead& head) {
  std::string text = paragraph("", 0, fmt::format("Trial \"{}\"", head.trial));
  if (head.is_invented) text += paragraph("", 0, "Invented example: no such house, town or readings.");
  return text;
}

std::string list_of(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += paragraph("- ", indent, sentence);
  return text;
}

std::string section(std::string_view heading, const std::vector<std::string>& sentences) {
  if (sentences.empty()) return {};
  return fmt::format("\n{}\n{}", heading, list_of(sentences));
}

std::string indented(std::string_view text) {
  std::string lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines += fmt::format("  {}\n", text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

/// One line a day: which places lack what.
std::string text_of_missing(const TrialReadAnswer& answer) {
  std::string text;
  std::size_t n_lines = 0;
  std::size_t n_more = 0;
  for (std::size_t i = 0; i < answer.missing.size();) {
    const std::int64_t day = answer.missing[i].day;
    std::vector<std::pair<std::string, std::vector<std::string>>> by_what;
    for (; i < answer.missing.size() && answer.missing[i].day == day; ++i) {
      const MissingReading& one = answer.missing[i];
      auto found = std::find_if(by_what.begin(), by_what.end(), [&one](const auto& w) { return w.first == one.what; });
      if (found == by_what.end()) found = by_what.insert(by_what.end(), {one.what, {}});
      found->second.push_back(one.place);
    }
    if (++n_lines > most_lines_of_missing) {
      ++n_more;
      continue;
    }
    std::string words;
    for (const auto& [what, places] : by_what) {
      words += fmt::format("{}{}: {}", words.empty() ? "" : "; ", what,
                           places.size() == answer.n_places && answer.n_places > 1 ? "all places" : joined(places));
    }
    text += paragraph(text_from_day(day), 12, words);
  }
  if (n_more > 0) text += fmt::format("and {} days more; --json lists all\n", n_more);
  return text;
}

/// What more modules would give: a word about the recipe, or more certainty.
std::vector<std::string> other_sizes(const TrialPlanAnswer& answer) {
  std::vector<std::string> sentences;
  for (const trials::TrialSize& size : answer.plan.sizes) {
    const bool is_first_about_recipes = size.is_about_recipes && !answer.chosen.is_about_recipes &&
                                        (size.is_enough || size.n_modules == answer.plan.sizes.back().n_modules);
    if (!is_first_about_recipes) continue;
    sentences.push_back(
        fmt::format("With {} modules a side and {} days (--modules {}) the answer would be about the recipe; it would "
                    "tell {} {} in {} "
                    "of 100 such trials.",
                    size.n_modules, size.days, size.n_modules, short_number(answer.wish.wanted_difference),
                    trials::unit_of(answer.wish.measure), static_cast<int>(100.0 * size.power_frac)));
    break;
  }
  return sentences;
}

std::string number_of(double value, std::string_view unit) {
  return fmt::format("{:.3g}{}{}", value, unit.empty() ? "" : " ", unit);
}

}  // namespace

std::string heading_of(trials::Measure measure) {
  std::string words(trials::words_of(measure));
  words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

std::string days_in_words(std::optional<std::int64_t> first_day, std::optional<std::int64_t> last_day) {
  if (!first_day || !last_day) return "no day yet";
  return fmt::format("{} to {}", text_from_day(*first_day), text_from_day(*last_day));
}

std::string text_from_flags(const std::vector<trials::LoggerFlag>& flags, std::size_t most) {
  std::string text;
  for (std::size_t i = 0; i < std::min(most, flags.size()); ++i) {
    text += paragraph("- ", indent, flags[i].sentence);
  }
  if (flags.size() > most) text += fmt::format("  and {} more; --json lists all\n", flags.size() - most);
  return text;
}

std::string sentence_of(const FittedFigure& figure) {
  const trials::FittedProperty& fitted = figure.fitted;
  std::string text = fmt::format("{}: {}", figure.words, number_of(fitted.value, figure.unit));
  if (fitted.low && fitted.high) {
    text += fmt::format(" (95 % interval {} to {})", number_of(*fitted.low, ""), number_of(*fitted.high, ""));
  } else {
    text += " (no interval can be given)";
  }
  text += fmt::format("; before: {}", number_of(figure.before, ""));
  if (figure.low_before < figure.high_before) {
    text += fmt::format(" ({} to {})", number_of(figure.low_before, ""), number_of(figure.high_before, ""));
  }
  return text + ".";
}

std::string text_from(const TrialPlanAnswer& answer, bool is_for_adviser) {
  std::string text = title_of(answer.head);
  text += section("What to do", answer.plan.household);
  if (!answer.was_given_out) text += section("Or", other_sizes(answer));
  if (is_for_adviser) text += section("For the adviser", answer.plan.adviser);
  if (answer.revision) {
    text += fmt::format("\nKept as revision {} of the design.\n", *answer.revision);
  } else if (!answer.was_given_out) {
    text += "\n";
    text += paragraph("", 0,
                      "So that the verdict knows which side is where, put this into the design in the place of the "
                      "trial's own tables of the same names (in a project: --keep does it):");
    text += fmt::format("\n{}", indented(answer.toml_text));
  }
  return text;
}

std::string text_from(const TrialReadAnswer& answer) {
  std::string text = title_of(answer.head);
  if (answer.n_noted + answer.n_known_before > 0) {
    text += fmt::format("{} reading{} noted", answer.n_noted, answer.n_noted == 1 ? "" : "s");
    if (answer.n_known_before > 0) text += fmt::format(", {} were there already", answer.n_known_before);
    text += "\n";
  }
  if (!answer.first_day) {
    text += "Nothing has been read yet.\n";
  } else {
    text +=
        fmt::format("{}: {} day{} whole, {} with something missing\n", days_in_words(answer.first_day, answer.last_day),
                    answer.n_days_whole, answer.n_days_whole == 1 ? "" : "s",
                    std::max<std::int64_t>(0, answer.last_day - *answer.first_day + 1) -
                        static_cast<std::int64_t>(answer.n_days_whole));
    if (!answer.missing.empty()) text += fmt::format("\nMissing\n{}", text_of_missing(answer));
  }
  if (!answer.flags.empty()) {
    text += fmt::format("\nLoggers that look wrong (flagged, and kept)\n{}", text_from_flags(answer.flags, most_flags));
  }
  return text + section("To know", answer.notes);
}

std::string text_from(const TrialJudgeAnswer& answer) {
  std::string text = title_of(answer.head);
  text += fmt::format("{}\n", days_in_words(answer.first_day, answer.last_day));
  std::vector<std::string> notes;
  for (const MeasureAnswer& measure : answer.measures) {
    text += fmt::format("\n{}{}\n", heading_of(measure.measure),
                        measure.is_main ? " (what the trial is about)" : " (looked at besides)");
    if (measure.verdict.comparisons.empty()) text += list_of({"Nothing can be said yet."});
    for (const trials::SideComparison& one : measure.verdict.comparisons) text += list_of({one.sentence});
    if (!measure.note.empty()) text += list_of({fmt::format("From {}.", measure.note)});
    // Of the others only what the main measure's notes do not say.
    for (const std::string& note : measure.verdict.notes) {
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    }
  }
  for (const ScoreAnswer& score : answer.scores) {
    text += fmt::format("\nOf {} ({})\n", score.what, score.from);
    for (const trials::ScoreComparison& one : score.comparisons) text += list_of({one.sentence});
  }
  if (!answer.flags.empty()) {
    text += fmt::format("\nLoggers that look wrong (flagged, and kept)\n{}", text_from_flags(answer.flags, most_flags));
  }
  notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
  return text + section("To know", notes);
}

std::string text_from(const TrialFitAnswer& answer) {
  std::string text = title_of(answer.head);
  text += paragraph("", 0,
                    fmt::format("{} readings of {} days; {} days held back to see whether the fit holds",
                                answer.n_readings, answer.fit.n_days, answer.held_back_days.size()));
  std::vector<std::string> figures;
  for (const FittedFigure& figure : answer.figures) figures.push_back(sentence_of(figure));
  text += section("Fitted", figures);
  std::vector<std::string> misfit = {fmt::format("Reading less model, root mean square: {} K before, {} K fitted.",
                                                 short_number(answer.fit.rms_start),
                                                 short_number(answer.fit.rms_fitted))};
  if (answer.fit.rms_held_back_start && answer.fit.rms_held_back_fitted) {
    misfit.push_back(fmt::format("On the days held back: {} K before, {} K fitted.",
                                 short_number(*answer.fit.rms_held_back_start),
                                 short_number(*answer.fit.rms_held_back_fitted)));
  }
  text += section("How well it fits", misfit);
  std::vector<std::string> warnings;
  for (const trials::FitWarning& warning : answer.fit.warnings) warnings.push_back(warning.sentence);
  text += section("What these readings cannot tell", warnings);
  std::vector<std::string> notes = {fmt::format("Weather: {}.", answer.weather)};
  notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
  text += section("To know", notes);
  text += "\n";
  if (answer.revision) {
    text += paragraph("", 0,
                      fmt::format("Accepted: revision {} of the design has these figures as measured on this roof; the "
                                  "next study uses them.",
                                  *answer.revision));
  } else if (answer.refused_because.empty()) {
    text += paragraph("", 0, "They may stand in the design as measured on this roof: --accept writes them there.");
  } else {
    text += paragraph("", 0, fmt::format("They are not offered for the design: {}", answer.refused_because));
  }
  return text;
}

}  // namespace houseleek::report
