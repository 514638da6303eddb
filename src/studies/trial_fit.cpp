// `houseleek trial fit`: a few properties of the design fitted to a trial's readings by running the house through its days.
#include "studies/trial_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "design/trial_limits.hpp"
#include "plan/layout.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/trial_wish.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

using logbook::n_seconds_in_day;

constexpr double hours_per_day = 24.0;
constexpr std::int64_t seconds_per_hour = 3600;
/// Far above what the solver's own tolerance moves, and a watering more or less at the edge of its rule.
constexpr double relative_step = 2e-3;
constexpr std::int64_t longest_logger_gap_s = 5400;

/// A reading, and which column of the run stands for it.
struct Observed {
  std::size_t place = 0;
  std::int64_t at_s = 0;  // standard time
  double value_c = 0.0;
};

/// Where a place's thermometer hangs in the run.
struct RunPlace {
  design::Probe probe = design::Probe::membrane;
  std::size_t stack = 0;  // of the group
  std::size_t room = 0;
};

std::string_view word_of(design::Probe probe) {
  constexpr std::string_view words[] = {"membrane", "ceiling", "surface", "room air"};
  return words[static_cast<std::size_t>(probe)];
}

/// The stack that stands for a place: the middle strip under the modules of its side, or the bare deck farthest from
/// any module; over its room, or where most of its kind lies.
Result<RunPlace> find_run_place(const design::Design& design, const design::Trial& trial, std::size_t index,
                                const simulation::CoverGroup& cover, std::size_t trial_index) {
  const design::TrialPlace& place = trial.places[index];
  const std::string path = fmt::format("trial[{}].place[{}]", trial_index, index);
  RunPlace found{place.probe, 0, 0};
  if (place.probe == design::Probe::room_air) {
    if (!place.room && design.rooms.size() != 1) {
      return Unexpected{
          {inconsistent_issue(path, "", fmt::format("{}: in which room does the thermometer hang?", place.name),
                              "add room = \"the name of a room\" to the place")}};
    }
    found.room = static_cast<std::size_t>(place.room.value_or(0));
    return found;
  }
  const design::TrialSide& side = trial.sides[static_cast<std::size_t>(*place.side)];
  const bool is_bare = side.recipe == design::bare_deck;
  std::vector<std::size_t> stacks;
  for (std::size_t i = 0; i < cover.origins.size(); ++i) {
    const simulation::StackOrigin& origin = cover.origins[i];
    if (place.room && origin.room != *place.room) continue;
    if (!is_bare) {
      const design::Placed placed = side.placed.value_or(design.recipes[static_cast<std::size_t>(*side.recipe)].placed);
      const auto form = placed == design::Placed::raised ? simulation::StackForm::raised : simulation::StackForm::flat;
      if (origin.recipe == *side.recipe && origin.form == form && origin.is_middle) stacks.push_back(i);
    } else if (origin.form == simulation::StackForm::bare) {
      stacks.push_back(i);
    }
  }
  if (stacks.empty()) {
    return Unexpected{{inconsistent_issue(
        path, "",
        fmt::format("{}: the design lays nothing like its side, {}{}", place.name, side.name,
                    place.room ? ", over that room" : ""),
        "a fit runs the house as it is laid out: lay a [[patch]] of that recipe in that form, or correct the side")}};
  }
  found.stack = *std::max_element(stacks.begin(), stacks.end(), [&](std::size_t a, std::size_t b) {
    if (is_bare) return cover.origins[a].distance_to_edge_m > cover.origins[b].distance_to_edge_m;
    return cover.group.stacks[a].area_m2 < cover.group.stacks[b].area_m2;
  });
  found.room = static_cast<std::size_t>(cover.origins[found.stack].room);
  return found;
}

/// Readings of a logger at full hours, between its own.
void add_logger(const logbook::LoggerColumn& column, std::size_t place, const std::vector<trials::LoggerFlag>& flags,
                std::size_t& n_left_out, std::vector<Observed>& out) {
  if (column.time_s.empty()) return;
  const std::int64_t first = (column.time_s.front() + seconds_per_hour - 1) / seconds_per_hour * seconds_per_hour;
  std::size_t i = 0;
  for (std::int64_t at = first; at <= column.time_s.back(); at += seconds_per_hour) {
    while (column.time_s[i] < at) ++i;
    const bool is_between = column.time_s[i] != at;
    if (is_between && (i == 0 || column.time_s[i] - column.time_s[i - 1] > longest_logger_gap_s)) continue;
    const bool is_flagged = std::any_of(flags.begin(), flags.end(), [&](const trials::LoggerFlag& flag) {
      const bool is_wrong = flag.kind == trials::FlagKind::stuck || flag.kind == trials::FlagKind::sun_struck ||
                            flag.kind == trials::FlagKind::out_of_range;
      return is_wrong && flag.column == column.name && flag.from_s <= at && at <= flag.to_s;
    });
    if (is_flagged) {
      ++n_left_out;
      continue;
    }
    double value_c = column.value_c[i];
    if (is_between) {
      const double share =
          static_cast<double>(at - column.time_s[i - 1]) / static_cast<double>(column.time_s[i] - column.time_s[i - 1]);
      value_c = column.value_c[i - 1] + share * (column.value_c[i] - column.value_c[i - 1]);
    }
    out.push_back({place, at, value_c});
  }
}

std::int64_t day_of(std::int64_t at_s) {
  const std::int64_t second = ((at_s % n_seconds_in_day) + n_seconds_in_day) % n_seconds_in_day;
  return (at_s - second) / n_seconds_in_day;
}

int hour_of_year(std::int64_t day) {
  const std::string text = text_from_day(day);
  const int month = std::stoi(text.substr(5, 2));
  const int day_of_month = std::stoi(text.substr(8, 2));
  const int day_of_year = climate::first_day_of_month[static_cast<std::size_t>(month - 1)] + day_of_month - 1;
  // The last day of February of a leap year is taken as 1 March.
  return climate::n_hours_in_day * std::min(day_of_year, climate::n_days_in_year - 1);
}

const std::vector<double>& column_of(const results::GroupYear& year, const RunPlace& place) {
  const results::StackYear& stack = year.stacks[place.stack];
  switch (place.probe) {
    case design::Probe::membrane:
      return stack.membrane_c;
    case design::Probe::ceiling:
      return stack.ceiling_c;
    case design::Probe::surface:
      return stack.surface_c;
    case design::Probe::room_air:
      break;
  }
  return year.rooms[place.room].air_c;
}

/// A column's values stand at the ends of its hours; between them straight lines.
double value_at(const std::vector<double>& column, double hours_from_start) {
  const double place = std::clamp(hours_from_start - 1.0, 0.0, static_cast<double>(column.size() - 1));
  const auto before = std::min(static_cast<std::size_t>(place), column.size() - 2);
  const double share = place - static_cast<double>(before);
  return column[before] + share * (column[before + 1] - column[before]);
}

/// The house with some figures changed, run through the readings' days.
class House {
 public:
  House(const TrialFitInputs& inputs, const std::vector<FitCandidate>& candidates, const climate::WeatherYear& weather,
        const RunSpan& span, const Context& context)
      : inputs_(inputs), candidates_(candidates), weather_(weather), span_(span), context_(context) {}

  void watch(const std::vector<Observed>& observed, const std::vector<std::optional<RunPlace>>& places) {
    observed_ = &observed;
    places_ = &places;
  }

  [[nodiscard]] simulation::CoverGroup group_of(const design::ValidDesign& design) const {
    const plan::Layout layout = plan::make_layout(design);
    return simulation::make_cover_group(design, layout, weather_, simulation::Cover::planted,
                                        {.is_held = false, .has_sideways = true, .has_fine_strips = false});
  }

  [[nodiscard]] std::vector<double> answer(std::span<const double> values) {
    check_cancelled(context_);
    std::vector<PlacedFigure> figures;
    for (std::size_t i = 0; i < candidates_.size(); ++i) figures.push_back({candidates_[i].path, values[i]});
    const Result<design::ValidDesign> varied =
        read_varied(inputs_.description, inputs_.design, inputs_.catalogue, figures);
    expects(varied.has_value(), "figures within their bounds to be read");
    const simulation::CoverGroup cover = group_of(varied.value());
    simulation::RunOptions options;
    options.first_hour = span_.first_hour;
    options.n_hours = span_.n_hours;
    options.hours_in_year = weather_.n_hours();
    options.spin_up_hours = span_.spin_up_hours;
    Context of_run;
    of_run.is_cancelled = context_.is_cancelled;
    const climate::WeatherYear& weather = weather_;
    const results::GroupYear year = simulation::run_group(
        cover.group, [&weather](int hour, double fraction) { return climate::forcing_at(weather, hour, fraction); },
        options, of_run);
    std::vector<double> answers;
    const std::int64_t start_s = span_.first_day * n_seconds_in_day;
    for (const Observed& one : *observed_) {
      const double hours = static_cast<double>(one.at_s - start_s) / static_cast<double>(seconds_per_hour);
      answers.push_back(value_at(column_of(year, *(*places_)[one.place]), hours));
    }
    if (context_.on_progress) context_.on_progress(1.0 - 1.0 / (1.0 + 0.05 * ++n_runs_));
    return answers;
  }

 private:
  const TrialFitInputs& inputs_;
  const std::vector<FitCandidate>& candidates_;
  const climate::WeatherYear& weather_;
  RunSpan span_;
  const Context& context_;
  const std::vector<Observed>* observed_ = nullptr;
  const std::vector<std::optional<RunPlace>>* places_ = nullptr;
  double n_runs_ = 0.0;
};

/// Days from the first reading on, so many at most.
RunSpan span_of(std::vector<Observed>& observed, std::vector<std::string>& notes) {
  const auto earlier = [](const Observed& a, const Observed& b) { return a.at_s < b.at_s; };
  const auto [first, last] = std::minmax_element(observed.begin(), observed.end(), earlier);
  RunSpan span;
  span.first_day = day_of(first->at_s);
  std::int64_t n_days = day_of(last->at_s) - span.first_day + 1;
  if (n_days > most_fit_days) {
    n_days = most_fit_days;
    const std::int64_t end_s = (span.first_day + n_days) * n_seconds_in_day;
    std::erase_if(observed, [end_s](const Observed& one) { return one.at_s >= end_s; });
    notes.push_back(fmt::format("Only the first {} days are fitted.", n_days));
  }
  span.first_hour = hour_of_year(span.first_day);
  span.n_hours = static_cast<int>(n_days) * climate::n_hours_in_day;
  span.spin_up_hours = fit_spin_up_days * climate::n_hours_in_day;
  return span;
}

std::string weather_words(const design::Design& design, const design::Trial& trial, const TrialReadings& readings,
                          const RunSpan& span, int n_measured) {
  const std::string year = weather_source(design);
  if (!readings.outdoor) {
    return fmt::format(
        "{}, not what the days really were: where outside air was not measured, a fit takes for a property what "
        "the weather did. Hang a logger outside in shade and name it as outdoor_logger",
        year);
  }
  return fmt::format(
      "outside air from \"{}\" in {} of {} hours; sun, wind, rain and humidity are of the design's year "
      "({}), not measured",
      trial.outdoor_logger, n_measured, span.n_hours + span.spin_up_hours + 1, year);
}

void fill_series(const std::vector<Observed>& observed, const design::Trial& trial, const std::vector<double>& before,
                 const std::vector<double>& fitted, report::TrialFitAnswer& answer) {
  for (std::size_t p = 0; p < trial.places.size(); ++p) {
    report::FitSeries series;
    series.place = trial.places[p].name;
    series.probe = word_of(trial.places[p].probe);
    for (std::size_t i = 0; i < observed.size(); ++i) {
      if (observed[i].place != p) continue;
      series.at_s.push_back(observed[i].at_s);
      series.measured_c.push_back(observed[i].value_c);
      series.before_c.push_back(before[i]);
      series.fitted_c.push_back(fitted[i]);
    }
    if (!series.at_s.empty()) answer.series.push_back(std::move(series));
  }
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

/// Warnings name a figure by its path; a person knows it by its words.
void say_in_words(const std::vector<FitCandidate>& candidates, trials::FitAnswer& fit) {
  for (trials::FitWarning& warning : fit.warnings) {
    for (const FitCandidate& one : candidates) {
      for (std::size_t at = warning.sentence.find(one.path); at != std::string::npos;
           at = warning.sentence.find(one.path, at + one.words.size())) {
        warning.sentence.replace(at, one.path.size(), one.words);
      }
    }
  }
}

/// What narrows nothing need not stand in a design.
std::string unnarrowed(const std::vector<report::FittedFigure>& figures) {
  for (const report::FittedFigure& one : figures) {
    if (!one.fitted.low || !one.fitted.high || one.low_before >= one.high_before) continue;
    if (*one.fitted.high - *one.fitted.low < one.high_before - one.low_before) continue;
    return fmt::format("{}: the interval is no narrower than the range that was assumed before.", one.words);
  }
  return {};
}

std::string refusal_of(const trials::FitAnswer& fit, const std::vector<report::FittedFigure>& figures) {
  if (fit.may_be_offered) return unnarrowed(figures);
  for (const trials::FitWarning& warning : fit.warnings) {
    if (warning.kind != trials::FitWarningKind::bends) return warning.sentence;
  }
  return "on the days held back the model with these values is no better than before.";
}

}  // namespace

Result<report::TrialFitAnswer> fit_trial(const TrialFitInputs& inputs, const std::vector<FitCandidate>& candidates,
                                         const Context& context) {
  expects(!candidates.empty(), "figures to fit");
  const design::Trial& trial = inputs.design->trials[inputs.trial];
  const TrialReadings readings = readings_of_trial(inputs.readings, inputs.design->trials, trial);
  report::TrialFitAnswer answer;
  answer.head.trial = trial.name;
  answer.head.design = inputs.design->name;
  answer.head.is_invented = inputs.design->is_invented;
  answer.notes = readings.notes;
  std::vector<Observed> observed;
  std::size_t n_left_out = 0;
  std::vector<std::string> not_run;
  for (std::size_t i = 0; i < trial.places.size(); ++i) {
    if (!trial.places[i].side) continue;
    const design::TrialSide& side = trial.sides[static_cast<std::size_t>(*trial.places[i].side)];
    if (!side.recipe && trial.places[i].probe != design::Probe::room_air) {
      not_run.push_back(trial.places[i].name);
      continue;
    }
    if (trial.readings == design::TrialReadings::loggers) {
      if (readings.columns[i]) add_logger(*readings.columns[i], i, readings.flags, n_left_out, observed);
      continue;
    }
    for (const logbook::HandReading& one : readings.by_hand[i]) {
      const auto second = static_cast<std::int64_t>(std::lround(one.hour * 3600.0));
      observed.push_back({i, one.day * n_seconds_in_day + second, one.value_c});
    }
  }
  if (!not_run.empty()) {
    answer.notes.push_back(
        fmt::format("{}: not fitted, because the side names no recipe that the house could be run with (recipe = "
                    "\"bare\" is the bare "
                    "deck).",
                    listed(not_run)));
  }
  if (observed.size() < 2 * candidates.size() + 2) {
    return Unexpected{{inconsistent_issue(
        fmt::format("trial[{}]", inputs.trial), "",
        fmt::format("{} readings are too few to fit {} figures", observed.size(), candidates.size()),
        "trial read says what is missing")}};
  }
  if (n_left_out > 0) {
    answer.notes.push_back(fmt::format(
        "{} hours of loggers that look wrong (stuck, out of range or in the sun) are not fitted.", n_left_out));
  }
  const RunSpan span = span_of(observed, answer.notes);
  MeasuredAir air{inputs.weather, 0};
  if (readings.outdoor) {
    // Before the trial's own days too: the run settles in them.
    const auto whole =
        std::find_if(inputs.readings.columns.begin(), inputs.readings.columns.end(),
                     [&trial](const logbook::LoggerColumn& one) { return one.name == trial.outdoor_logger; });
    air = with_measured_air(inputs.weather, *whole, span);
  }
  answer.weather = weather_words(*inputs.design, trial, readings, span, air.n_hours_measured);
  House house(inputs, candidates, air.weather, span, context);
  const simulation::CoverGroup cover = house.group_of(inputs.design);
  std::vector<std::optional<RunPlace>> places(trial.places.size());
  Issues issues;
  std::map<std::size_t, std::vector<std::string>> guessed;  // places by the room that they are taken to lie over
  for (std::size_t i = 0; i < trial.places.size(); ++i) {
    const bool is_used =
        std::any_of(observed.begin(), observed.end(), [i](const Observed& one) { return one.place == i; });
    if (!is_used) continue;
    Result<RunPlace> place = find_run_place(*inputs.design, trial, i, cover, inputs.trial);
    if (place) {
      places[i] = place.value();
      const bool is_guessed = !trial.places[i].room && inputs.design->rooms.size() > 1;
      if (is_guessed) guessed[place.value().room].push_back(trial.places[i].name);
    } else {
      issues.insert(issues.end(), place.error().begin(), place.error().end());
    }
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  for (const auto& [room, names] : guessed) {
    answer.notes.push_back(
        fmt::format("Taken to lie over {}, where most of the kind lies: {}. If not, say it: room = \"...\" "
                    "in the place's table.",
                    inputs.design->rooms[room].name, listed(names)));
  }
  house.watch(observed, places);
  trials::FitQuestion question;
  std::vector<double> start;
  for (const FitCandidate& one : candidates) {
    question.properties.push_back({one.path, one.start, one.low, one.high});
    start.push_back(one.start);
  }
  question.model = [&house](std::span<const double> values) { return house.answer(values); };
  for (const Observed& one : observed) {
    question.observed.push_back(one.value_c);
    question.day.push_back(static_cast<int>(day_of(one.at_s)));
  }
  question.held_back_days = trials::last_quarter(question.day);
  question.relative_step = relative_step;
  answer.fit = trials::fit_properties(question);
  say_in_words(candidates, answer.fit);
  std::vector<double> fitted;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const FitCandidate& one = candidates[i];
    const trials::FittedProperty& property = answer.fit.properties[i];
    fitted.push_back(property.value);
    answer.figures.push_back({one.path, one.words, one.unit, one.start, one.low_before, one.high_before, property});
  }
  answer.n_readings = observed.size();
  answer.held_back_days.assign(question.held_back_days.begin(), question.held_back_days.end());
  fill_series(observed, trial, house.answer(start), house.answer(fitted), answer);
  answer.refused_because = refusal_of(answer.fit, answer.figures);
  answer.source =
      fmt::format("measured on this roof, {} to {}, trial \"{}\", 95 % interval{}", text_from_day(span.first_day),
                  text_from_day(span.first_day + span.n_hours / climate::n_hours_in_day - 1), trial.name,
                  readings.outdoor ? "" : "; outside air was not measured");
  return answer;
}

}  // namespace houseleek::studies
