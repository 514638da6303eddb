// Bills of the logbook against the weather of their days.
#include "studies/bill_answers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "money/bills.hpp"

namespace houseleek::studies {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;

constexpr int least_readings_a_day = 8;
constexpr double least_known_frac = 0.8;

struct DayMeans {
  std::map<std::int64_t, double> mean_c;
  std::string logger;
};

bool is_outdoor(const std::string& name) {
  const std::string folded = folded_name(name);
  return folded.find("outdoor") != std::string::npos || folded.find("outside") != std::string::npos ||
         folded == "air" || folded.ends_with(" air");
}

/// Daily means of the outdoor logger with most days.
DayMeans outdoor_means(const std::vector<logbook::LoggerColumn>& loggers) {
  DayMeans best;
  for (const logbook::LoggerColumn& logger : loggers) {
    if (!is_outdoor(logger.name)) continue;
    std::map<std::int64_t, std::pair<double, int>> sums;
    for (std::size_t i = 0; i < logger.time_s.size(); ++i) {
      const std::int64_t time_s = logger.time_s[i];
      const std::int64_t second =
          ((time_s % logbook::n_seconds_in_day) + logbook::n_seconds_in_day) % logbook::n_seconds_in_day;
      std::pair<double, int>& sum = sums[(time_s - second) / logbook::n_seconds_in_day];
      sum.first += logger.value_c[i];
      ++sum.second;
    }
    DayMeans means;
    means.logger = logger.name;
    for (const auto& [day, sum] : sums) {
      if (sum.second >= least_readings_a_day) means.mean_c[day] = sum.first / sum.second;
    }
    if (means.mean_c.size() > best.mean_c.size()) best = std::move(means);
  }
  return best;
}

double normal_mean_c(const design::MonthlyNormals& normals, std::int64_t day) {
  const auto month = static_cast<std::size_t>(std::stoi(text_from_day(day).substr(5, 2)) - 1);
  return 0.5 * (normals.max_c[month] + normals.min_c[month]);
}

/// Share of the modules of the end that lie there on a day.
class Covered {
 public:
  explicit Covered(const std::vector<EventRecord>& records) {
    for (const EventRecord& record : records) {
      const Event& event = record.event;
      if (record.superseded_by || event.kind != EventKind::made || !event.part.empty()) continue;
      const std::int64_t shown_s = event.at.utc_s + event.at.offset_s;
      const double count = event.count.value_or(1.0);
      made_[shown_s / n_seconds_in_civil_day] += count;
      all_ += count;
    }
  }
  [[nodiscard]] double frac(std::int64_t day) const {
    if (all_ == 0.0) return 0.0;
    double sum = 0.0;
    for (const auto& [made_day, count] : made_) {
      if (made_day <= day) sum += count;
    }
    return sum / all_;
  }

 private:
  std::map<std::int64_t, double> made_;
  double all_ = 0.0;
};

struct Step {
  std::string name;
  std::int64_t day = 0;
};

std::vector<Step> steps_of(const std::vector<EventRecord>& records, const std::string& item) {
  std::vector<Step> steps;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::noted) continue;
    const std::string about = folded_name(event.item);
    bool is_for_item = false;
    for (const std::string_view word : {"use", "tariff"}) {
      is_for_item = is_for_item || about == word || about == fmt::format("{} of {}", word, folded_name(item));
    }
    if (!is_for_item) continue;
    const std::int64_t day = (event.at.utc_s + event.at.offset_s) / n_seconds_in_civil_day;
    steps.push_back({fmt::format("{} since {}", event.item, text_from_day(day)), day});
  }
  return steps;
}

std::string_view word_of(money::BillOutcome outcome) {
  switch (outcome) {
    case money::BillOutcome::too_few:
      return "too_few";
    case money::BillOutcome::not_separable:
      return "not_separable";
    case money::BillOutcome::not_told_apart:
      return "not_told_apart";
    case money::BillOutcome::less:
      return "less";
    case money::BillOutcome::more:
      return "more";
  }
  return "";
}

}  // namespace

std::vector<report::BillsAnswer> answer_bills(const std::vector<EventRecord>& records,
                                              const std::vector<logbook::LoggerColumn>& loggers,
                                              const design::Design& design) {
  std::map<std::string, std::vector<const Event*>> by_item;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::billed || !event.energy_kwh) continue;
    by_item[event.item].push_back(&event);
  }
  std::vector<report::BillsAnswer> answers;
  if (by_item.empty()) return answers;
  const DayMeans outdoor = outdoor_means(loggers);
  const Covered covered(records);
  for (const auto& [item, events] : by_item) {
    std::int64_t n_days = 0;
    std::int64_t n_known = 0;
    for (const Event* event : events) {
      for (std::int64_t day = *event->first_day; day <= *event->last_day; ++day) {
        ++n_days;
        if (outdoor.mean_c.contains(day)) ++n_known;
      }
    }
    const bool is_own = static_cast<double>(n_known) >= least_known_frac * static_cast<double>(n_days);
    report::BillsAnswer answer;
    answer.item = item;
    if (!is_own && !design.climate.normals) {
      answer.outcome = "too_few";
      answer.n_bills = static_cast<int>(events.size());
      answer.less_kwh_per_year = results::figure_missing("no weather of those days is known");
      answer.weather_from = "none: no logger called outdoor covers the bills, and the design has no normals";
      answer.sentence = fmt::format("{}: nothing to say: no weather of the bills' days is known.", item);
      answers.push_back(std::move(answer));
      continue;
    }
    const std::vector<Step> steps = steps_of(records, item);
    money::BillQuestion question;
    question.item = item;
    for (const Step& step : steps) question.step_names.push_back(step.name);
    for (const Event* event : events) {
      money::BillPeriod bill;
      bill.first_day = *event->first_day;
      bill.last_day = *event->last_day;
      bill.energy_kwh = *event->energy_kwh;
      bill.steps.assign(steps.size(), 0.0);
      const double share = 1.0 / static_cast<double>(bill.last_day - bill.first_day + 1);
      double known_cold = 0.0;
      double known_warm = 0.0;
      double known_days = 0.0;
      for (std::int64_t day = bill.first_day; day <= bill.last_day; ++day) {
        bill.covered_frac += share * covered.frac(day);
        for (std::size_t i = 0; i < steps.size(); ++i) bill.steps[i] += day >= steps[i].day ? share : 0.0;
        const auto found = outdoor.mean_c.find(day);
        if (is_own && found == outdoor.mean_c.end()) continue;  // the bill's other days stand for it
        const double mean_c = is_own ? found->second : normal_mean_c(*design.climate.normals, day);
        known_cold += std::max(0.0, money::cold_below_c - mean_c);
        known_warm += std::max(0.0, mean_c - money::warm_above_c);
        known_days += 1.0;
      }
      if (known_days == 0.0) continue;  // a bill of which no day is known says nothing
      bill.cold_k = known_cold / known_days;
      bill.warm_k = known_warm / known_days;
      question.bills.push_back(std::move(bill));
    }
    const money::BillAnswer judged = money::judge_bills(question);
    answer.outcome = word_of(judged.outcome);
    answer.n_bills = judged.n_bills;
    answer.n_before = judged.n_before;
    answer.n_after = judged.n_after;
    answer.weather_from =
        is_own ? fmt::format("own readings of {}, on {} of {} days", outdoor.logger, n_known, n_days)
               : std::string("the design's normals: a warm or cold year cannot be told from the modules");
    answer.less_kwh_per_year =
        judged.less_kwh_per_year
            ? results::figure_with_range(
                  *judged.less_kwh_per_year, judged.low_kwh_per_year, judged.high_kwh_per_year,
                  fmt::format("95 % interval, from {} bills; weather: {}", judged.n_bills, answer.weather_from))
            : results::figure_missing(judged.sentence);
    answer.sentence = judged.sentence;
    if (!is_own) answer.sentence += " Weather: " + answer.weather_from + ".";
    answers.push_back(std::move(answer));
  }
  return answers;
}

}  // namespace houseleek::studies
