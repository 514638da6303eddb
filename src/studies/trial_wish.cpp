// A design's trial as src/trials takes it, and which trial is meant.
#include "studies/trial_wish.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"

namespace houseleek::studies {
namespace {

Issue issue_of_trial(IssueCode code, std::string value, std::string message, std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = "trial";
  issue.value = std::move(value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

trials::Layout layout_from(design::TrialLayout layout) {
  switch (layout) {
    case design::TrialLayout::blocks:
      return trials::Layout::blocks;
    case design::TrialLayout::free:
      return trials::Layout::free;
    case design::TrialLayout::latin_square:
      break;
  }
  return trials::Layout::latin_square;
}

trials::TrialSpread spread_from(const design::TrialSpread& given) {
  trials::TrialSpread spread;
  spread.module_sd = given.module_sd.value_or(spread.module_sd);
  spread.day_sd = given.day_sd.value_or(spread.day_sd);
  spread.day_correlation = given.day_correlation.value_or(spread.day_correlation);
  spread.reading_sd = given.reading_sd.value_or(spread.reading_sd);
  spread.instrument_offset_sd = given.instrument_offset_sd.value_or(spread.instrument_offset_sd);
  const bool is_all_own =
      given.module_sd && given.day_sd && given.day_correlation && given.reading_sd && given.instrument_offset_sd;
  spread.source = is_all_own ? given.source : given.source.empty() ? "assumed" : given.source + ", the rest assumed";
  return spread;
}

}  // namespace

Result<std::size_t> find_trial(const design::Design& design, const std::string& name) {
  std::vector<std::string> names;
  for (const design::Trial& trial : design.trials) names.push_back(trial.name);
  if (names.empty()) {
    return Unexpected{{issue_of_trial(
        IssueCode::missing_field, "", "the design has no trial",
        "add a table [[trial]], or give one: --name, --side (twice), --place (for each module), --difference")}};
  }
  std::string all;
  for (const std::string& one : names) all += (all.empty() ? "" : ", ") + one;
  if (name.empty()) {
    if (names.size() == 1) return std::size_t{0};
    return Unexpected{
        {issue_of_trial(IssueCode::missing_field, "", fmt::format("the design has {} trials; say which", names.size()),
                        "--trial and its name: " + all)}};
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (folded_name(names[i]) == folded_name(name)) return i;
  }
  const std::optional<std::string> nearest = find_nearest_name(name, names);
  Issue issue = issue_of_trial(IssueCode::unknown_name, name, fmt::format("no trial is called \"{}\"", name),
                               nearest ? fmt::format("did you mean \"{}\"?", *nearest) : "the design has: " + all);
  issue.limit = all;
  return Unexpected{{issue}};
}

trials::Measure measure_from(design::TrialMeasure measure) {
  switch (measure) {
    case design::TrialMeasure::maximum:
      return trials::Measure::maximum;
    case design::TrialMeasure::minimum:
      return trials::Measure::minimum;
    case design::TrialMeasure::swing:
      return trials::Measure::swing;
    case design::TrialMeasure::lag:
      return trials::Measure::lag;
    case design::TrialMeasure::degree_hours:
      return trials::Measure::degree_hours;
    case design::TrialMeasure::litres:
      break;
  }
  return trials::Measure::litres;
}

trials::TrialWish wish_from(const design::Trial& trial) {
  trials::TrialWish wish;
  for (const design::TrialSide& side : trial.sides) wish.sides.push_back({side.name, side.what});
  for (const design::TrialPlace& place : trial.places) {
    wish.squares.push_back({place.name, place.row, place.column, place.block});
  }
  wish.layout = layout_from(trial.layout);
  wish.measure = measure_from(trial.measure);
  wish.wanted_difference = trial.wanted_difference;
  wish.confidence_frac = trial.confidence_frac;
  wish.power_frac = trial.power_frac;
  wish.most_days = trial.most_days;
  wish.is_one_instrument = trial.is_one_instrument;
  wish.is_by_hand = trial.readings == design::TrialReadings::by_hand;
  wish.instrument = trial.instrument;
  wish.morning_h = trial.morning_hour;
  wish.afternoon_h = trial.afternoon_hour;
  wish.spread = spread_from(trial.spread);
  wish.seed = trial.seed;
  return wish;
}

report::TrialHead head_of(const NamedText& file, const design::Design& design, const design::Trial& trial) {
  return {file.name, trial.name, design.name, design.is_invented};
}

}  // namespace houseleek::studies
