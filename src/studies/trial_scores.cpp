// Grades, counts and litres of a trial's modules, from the events that were noted of them.
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>

#include "logbook/event_fields.hpp"
#include "studies/trial_readings.hpp"

namespace houseleek::studies {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;

struct PlaceScore {
  std::size_t place = 0;
  double score = 0.0;
};

/// What is made of the events of one place; nothing where none of them says it.
using ScoreOf = std::function<std::optional<double>(const std::vector<const Event*>& events)>;

struct ScoreKind {
  std::string what;
  std::string unit;
  std::string from;
  ScoreOf score_of;
  bool is_nought_otherwise = false;  // of places without such an event, where another place has one
};

std::optional<double> last_of(const std::vector<const Event*>& events, std::optional<double> Event::*member) {
  std::optional<double> last;
  for (const Event* event : events) {
    if (event->kind == EventKind::looked_at && event->*member) last = event->*member;
  }
  return last;
}

std::optional<double> sum_of(const std::vector<const Event*>& events, EventKind kind,
                             std::optional<double> Event::*member) {
  std::optional<double> sum;
  for (const Event* event : events) {
    if (event->kind == kind && event->*member) sum = sum.value_or(0.0) + *(event->*member);
  }
  return sum;
}

/// 0 good, 1 worn, 2 torn, 3 gone; of the last look or repair.
std::optional<double> tear_grade(const std::vector<const Event*>& events) {
  constexpr std::string_view grades[] = {"good", "worn", "torn", "gone"};
  std::optional<double> last;
  for (const Event* event : events) {
    for (std::size_t i = 0; i < std::size(grades); ++i) {
      if (event->condition == grades[i]) last = static_cast<double>(i);
    }
  }
  return last;
}

std::vector<ScoreKind> kinds() {
  return {
      {"vigour", "of 5", "the last look at each module", [](const auto& e) { return last_of(e, &Event::vigour); }},
      {"cover", "%", "the last look at each module", [](const auto& e) { return last_of(e, &Event::cover_percent); }},
      {"tear grade", "0 good to 3 gone", "the last look at each module", tear_grade},
      {"litres given", "litres", "all that was given",
       [](const auto& e) { return sum_of(e, EventKind::watered, &Event::water_l); }},
      {"flowers counted", "", "all that was counted",
       [](const auto& e) { return sum_of(e, EventKind::flowered, &Event::count); }, true},
      {"harvest", "kg", "all that was picked",
       [](const auto& e) { return sum_of(e, EventKind::harvested, &Event::mass_kg); }, true},
  };
}

trials::ScoreOptions options_from(const design::Trial& trial, const std::string& what,
                                  const std::vector<std::string>& sides) {
  trials::ScoreOptions options;
  options.what = what;
  options.confidence_frac = trial.confidence_frac;
  options.reference_side = reference_of(trial, sides);
  options.seed = trial.seed;
  return options;
}

bool has_two_sides(const std::vector<std::string>& sides) {
  return std::any_of(sides.begin(), sides.end(), [&sides](const std::string& side) { return side != sides.front(); });
}

const std::string& side_of(const design::Trial& trial, std::size_t place) {
  return trial.sides[static_cast<std::size_t>(*trial.places[place].side)].name;
}

/// Places with a side, side by side in the order in which the sides are written.
std::vector<std::size_t> places_by_side(const design::Trial& trial) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < trial.places.size(); ++i) {
    if (trial.places[i].side) places.push_back(i);
  }
  std::stable_sort(places.begin(), places.end(),
                   [&trial](std::size_t a, std::size_t b) { return *trial.places[a].side < *trial.places[b].side; });
  return places;
}

void add_score(const ScoreKind& kind, const design::Trial& trial, const std::vector<std::vector<const Event*>>& events,
               std::vector<report::ScoreAnswer>& answers, std::vector<std::string>& notes) {
  std::vector<PlaceScore> scores;
  std::vector<std::string> without;
  for (const std::size_t i : places_by_side(trial)) {
    const std::optional<double> score = kind.score_of(events[i]);
    if (score) scores.push_back({i, *score});
    if (!score) without.push_back(trial.places[i].name);
  }
  if (scores.empty()) return;
  if (kind.is_nought_otherwise) {
    for (const std::size_t i : places_by_side(trial)) {
      const bool has_score =
          std::any_of(scores.begin(), scores.end(), [i](const PlaceScore& s) { return s.place == i; });
      if (!has_score) scores.push_back({i, 0.0});
    }
    without.clear();
    std::stable_sort(scores.begin(), scores.end(), [&trial](const PlaceScore& a, const PlaceScore& b) {
      return *trial.places[a.place].side < *trial.places[b.place].side;
    });
  }
  report::ScoreAnswer answer;
  answer.what = kind.what;
  answer.unit = kind.unit;
  answer.from = kind.from;
  std::vector<std::string> sides;
  for (const PlaceScore& score : scores) {
    const std::string& side = side_of(trial, score.place);
    sides.push_back(side);
    answer.modules.push_back({trial.places[score.place].name, side, trial.places[score.place].block, score.score});
  }
  if (!without.empty()) {
    std::string names;
    for (const std::string& name : without) names += (names.empty() ? "" : ", ") + name;
    notes.push_back(fmt::format("Of {} nothing was noted for {}; they are left out there.", kind.what, names));
  }
  if (!has_two_sides(sides)) {
    notes.push_back(fmt::format("Of {} only modules of one side were noted: nothing to compare.", kind.what));
    return;
  }
  answer.comparisons = trials::judge_scores(answer.modules, options_from(trial, kind.what, sides));
  answers.push_back(std::move(answer));
}

/// Planted and died, by place; both from events that name the module.
void add_survival(const design::Trial& trial, const std::vector<std::vector<const Event*>>& events,
                  std::vector<report::ScoreAnswer>& answers, std::vector<std::string>& notes) {
  std::vector<trials::ModuleCount> counts;
  std::vector<std::string> sides;
  for (const std::size_t i : places_by_side(trial)) {
    const std::string& name = trial.places[i].name;
    const std::optional<double> planted = sum_of(events[i], EventKind::planted_out, &Event::count);
    const double died = sum_of(events[i], EventKind::died, &Event::count).value_or(0.0);
    if (!planted || *planted < 1.0) {
      if (died > 0.0) {
        notes.push_back(
            fmt::format("{}: plants died, but how many were planted was not noted (planted_out); left out.", name));
      }
      continue;
    }
    if (died > *planted) {
      notes.push_back(fmt::format("{}: {} plants died of {} planted; left out.", name, died, *planted));
      continue;
    }
    const std::string& side = side_of(trial, i);
    sides.push_back(side);
    counts.push_back({name, side, trial.places[i].block, static_cast<std::size_t>(*planted - died),
                      static_cast<std::size_t>(*planted)});
  }
  if (counts.empty() || !has_two_sides(sides)) return;
  report::ScoreAnswer answer;
  answer.what = "share alive";
  answer.from = "planted_out less died";
  answer.is_survival = true;
  for (const trials::ModuleCount& count : counts) {
    answer.modules.push_back({count.module, count.side, count.block,
                              static_cast<double>(count.n_alive) / static_cast<double>(count.n_planted)});
  }
  answer.comparisons = trials::judge_survival(counts, options_from(trial, "share alive", sides));
  answers.push_back(std::move(answer));
}

/// The day by the clocks of the place.
std::int64_t civil_day(const CivilMoment& at) {
  const std::int64_t shown_s = at.utc_s + at.offset_s;
  const std::int64_t second = ((shown_s % n_seconds_in_civil_day) + n_seconds_in_civil_day) % n_seconds_in_civil_day;
  return (shown_s - second) / n_seconds_in_civil_day;
}

}  // namespace

std::vector<report::ScoreAnswer> scores_of(const ProjectReadings& all, const design::Trial& trial,
                                           std::vector<std::string>& notes) {
  std::vector<const EventRecord*> in_time;
  for (const EventRecord& record : all.events) {
    if (record.superseded_by || record.event.kind == EventKind::withdrawn) continue;
    in_time.push_back(&record);
  }
  std::stable_sort(in_time.begin(), in_time.end(),
                   [](const EventRecord* a, const EventRecord* b) { return a->event.at.utc_s < b->event.at.utc_s; });
  std::vector<std::vector<const Event*>> events(trial.places.size());
  for (const EventRecord* record : in_time) {
    const Event& event = record->event;
    const std::int64_t day = civil_day(event.at);
    // Plants may have been set before the trial began.
    const bool is_before = trial.first_day && day < *trial.first_day && event.kind != EventKind::planted_out;
    if (is_before || (trial.last_day && day > *trial.last_day)) continue;
    for (std::size_t i = 0; i < trial.places.size(); ++i) {
      const std::string& name = trial.places[i].name;
      if (event.module == name || event.square == name || event.container == name) events[i].push_back(&event);
    }
  }
  std::vector<report::ScoreAnswer> answers;
  for (const ScoreKind& kind : kinds()) add_score(kind, trial, events, answers, notes);
  add_survival(trial, events, answers, notes);
  return answers;
}

}  // namespace houseleek::studies
