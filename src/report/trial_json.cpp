// What the commands of trials answer, as documents for other programs.
#include "report/trial_json.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/civil_time.hpp"
#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

std::string_view word_of(trials::FlagKind kind) {
  constexpr std::array<std::string_view, 5> words = {"gap", "out_of_range", "stuck", "sun_struck", "drift"};
  return words.at(static_cast<std::size_t>(kind));
}

std::string_view word_of(trials::Measure measure) {
  constexpr std::array<std::string_view, 6> words = {"maximum", "minimum", "swing", "lag", "degree_hours", "litres"};
  return words.at(static_cast<std::size_t>(measure));
}

std::string_view word_of(trials::Scope scope) { return scope == trials::Scope::recipe ? "recipes" : "these_modules"; }

std::string_view word_of(trials::Outcome outcome) {
  constexpr std::array<std::string_view, 4> words = {"higher", "lower", "not_told_apart", "too_few"};
  return words.at(static_cast<std::size_t>(outcome));
}

std::string_view word_of(trials::FitWarningKind kind) {
  constexpr std::array<std::string_view, 7> words = {"no_effect", "at_bound",      "not_told_apart", "no_information",
                                                     "bends",     "not_converged", "too_few_days"};
  return words.at(static_cast<std::size_t>(kind));
}

/// 2026-06-01T12:15 of standard time.
std::string local_text(std::int64_t at_s) {
  std::string text = text_from_utc(at_s);
  if (!text.empty() && text.back() == 'Z') text.pop_back();
  return text;
}

Json day_or_null(const std::optional<std::int64_t>& day) { return day ? Json(text_from_day(*day)) : Json(nullptr); }

Json head(std::string_view command, const TrialHead& head) {
  return {{"answer", command},
          {"file", head.file},
          {"trial", head.trial},
          {"design", head.design},
          {"is_invented", head.is_invented}};
}

Json json_of(const trials::TrialSize& size) {
  return {{"modules_a_side", size.n_modules},
          {"days", size.days},
          {"standard_error", size.standard_error},
          {"half_interval", size.half_interval},
          {"power_frac", size.power_frac},
          {"about", size.is_about_recipes ? "recipes" : "these_modules"},
          {"is_enough", size.is_enough}};
}

Json json_of(const std::optional<stats::Estimate>& estimate) {
  if (!estimate) return nullptr;
  return {{"value", estimate->value}, {"low", estimate->low}, {"high", estimate->high}};
}

Json json_of(const trials::SideComparison& one) {
  Json more = nullptr;
  if (one.more) {
    more = {{"difference", one.more->difference},
            {"days", one.more->days ? Json(*one.more->days) : Json(nullptr)},
            {"modules_a_side", one.more->modules ? Json(*one.more->modules) : Json(nullptr)}};
  }
  return {{"side", one.side},
          {"against", one.against},
          {"about", word_of(one.scope)},
          {"outcome", word_of(one.outcome)},
          {"difference", json_of(one.difference)},
          {"interval_confidence_frac", one.interval_confidence_frac},
          {"adjusted_share", one.adjusted_share},
          {"without_flagged", json_of(one.without_flagged)},
          {"modules_side", one.n_modules_side},
          {"modules_against", one.n_modules_against},
          {"days", one.n_days},
          {"days_partial", one.n_days_partial},
          {"days_flagged", one.n_days_flagged},
          {"day_correlation", one.day_correlation},
          {"more", std::move(more)},
          {"sentence", one.sentence}};
}

Json json_of(const TrialSeries& series) {
  Json days = Json::array();
  for (const trials::DayValue& day : series.days) {
    days.push_back({{"day", text_from_day(day.day)}, {"value", day.value}, {"flag", day.flag}});
  }
  Json left_out = Json::array();
  for (const trials::LeftOutDay& day : series.left_out) {
    left_out.push_back({{"day", text_from_day(day.day)}, {"why", day.why}});
  }
  return {{"place", series.place},
          {"side", series.side},
          {"block", series.block},
          {"days", std::move(days)},
          {"left_out", std::move(left_out)}};
}

Json json_of(const MeasureAnswer& measure) {
  Json comparisons = Json::array();
  for (const trials::SideComparison& one : measure.verdict.comparisons) comparisons.push_back(json_of(one));
  Json series = Json::array();
  for (const TrialSeries& one : measure.series) series.push_back(json_of(one));
  return {{"measure", word_of(measure.measure)},
          {"words", trials::words_of(measure.measure)},
          {"unit", trials::unit_of(measure.measure)},
          {"is_main", measure.is_main},
          {"note", measure.note},
          {"comparisons", std::move(comparisons)},
          {"notes", measure.verdict.notes},
          {"series", std::move(series)}};
}

Json share_json(double value, const stats::ShareInterval& interval) {
  return {{"value", value}, {"low", interval.low}, {"high", interval.high}};
}

Json json_of(const ScoreAnswer& score) {
  Json modules = Json::array();
  for (const trials::ModuleScore& one : score.modules) {
    modules.push_back({{"place", one.module}, {"side", one.side}, {"block", one.block}, {"score", one.score}});
  }
  Json comparisons = Json::array();
  for (const trials::ScoreComparison& one : score.comparisons) {
    Json json = {{"side", one.side},
                 {"against", one.against},
                 {"about", word_of(one.scope)},
                 {"outcome", word_of(one.outcome)},
                 {"difference", one.difference},
                 {"adjusted_share", one.adjusted_share},
                 {"could_be_told", one.could_be_told},
                 {"modules_side", one.n_modules_side},
                 {"modules_against", one.n_modules_against},
                 {"sentence", one.sentence}};
    if (score.is_survival) {
      json["share_side"] = share_json(one.share_side, one.interval_side);
      json["share_against"] = share_json(one.share_against, one.interval_against);
    }
    comparisons.push_back(std::move(json));
  }
  return {{"what", score.what},
          {"unit", score.unit},
          {"from", score.from},
          {"modules", std::move(modules)},
          {"comparisons", std::move(comparisons)}};
}

Json json_of(const FittedFigure& figure) {
  return {{"path", figure.path},
          {"words", figure.words},
          {"unit", figure.unit},
          {"before", {{"likely", figure.before}, {"low", figure.low_before}, {"high", figure.high_before}}},
          {"value", figure.fitted.value},
          {"low", json_from(figure.fitted.low)},
          {"high", json_from(figure.fitted.high)},
          {"standard_error", json_from(figure.fitted.standard_error)},
          {"is_at_bound", figure.fitted.is_at_bound}};
}

}  // namespace

Json json_from_flags(const std::vector<trials::LoggerFlag>& flags) {
  Json list = Json::array();
  for (const trials::LoggerFlag& flag : flags) {
    list.push_back({{"kind", word_of(flag.kind)},
                    {"sensor", flag.column},
                    {"from", local_text(flag.from_s)},
                    {"to", local_text(flag.to_s)},
                    {"size", flag.size},
                    {"sentence", flag.sentence}});
  }
  return list;
}

Json json_from(const TrialPlanAnswer& answer) {
  Json document = head("trial_plan", answer.head);
  const trials::TrialPlan& plan = answer.plan;
  document["measure"] = word_of(answer.wish.measure);
  document["unit"] = trials::unit_of(answer.wish.measure);
  document["wanted_difference"] = answer.wish.wanted_difference;
  document["seed"] = plan.seed;
  document["chosen"] = json_of(answer.chosen);
  document["told_difference"] = plan.told_difference;
  document["comparison_confidence_frac"] = plan.comparison_confidence_frac;
  Json sizes = Json::array();
  for (const trials::TrialSize& size : plan.sizes) sizes.push_back(json_of(size));
  document["sizes"] = std::move(sizes);
  Json assignments = Json::array();
  for (const trials::Assignment& one : plan.assignments) {
    assignments.push_back(
        {{"place", one.square}, {"side", one.side}, {"block", one.block}, {"second_block", one.second_block}});
  }
  document["assignments"] = std::move(assignments);
  document["was_given_out"] = answer.was_given_out;
  document["household"] = plan.household;
  document["adviser"] = plan.adviser;
  document["toml"] = answer.toml_text;
  document["revision"] = answer.revision ? Json(*answer.revision) : Json(nullptr);
  return document;
}

Json json_from(const TrialReadAnswer& answer) {
  Json document = head("trial_read", answer.head);
  document["readings"] = answer.is_by_hand ? "by_hand" : "loggers";
  document["n_noted"] = answer.n_noted;
  document["n_known_before"] = answer.n_known_before;
  document["first_day"] = day_or_null(answer.first_day);
  document["last_day"] = answer.first_day ? Json(text_from_day(answer.last_day)) : Json(nullptr);
  document["n_places"] = answer.n_places;
  document["n_days_whole"] = answer.n_days_whole;
  Json missing = Json::array();
  for (const MissingReading& one : answer.missing) {
    missing.push_back({{"day", text_from_day(one.day)}, {"place", one.place}, {"what", one.what}});
  }
  document["missing"] = std::move(missing);
  document["flags"] = json_from_flags(answer.flags);
  document["notes"] = answer.notes;
  return document;
}

Json json_from(const TrialJudgeAnswer& answer) {
  Json document = head("trial_judge", answer.head);
  document["engine_version"] = answer.engine_version;
  document["confidence_frac"] = answer.confidence_frac;
  document["wanted_difference"] = answer.wanted_difference;
  document["first_day"] = day_or_null(answer.first_day);
  document["last_day"] = day_or_null(answer.last_day);
  document["sides"] = answer.sides;
  Json measures = Json::array();
  for (const MeasureAnswer& measure : answer.measures) measures.push_back(json_of(measure));
  document["measures"] = std::move(measures);
  Json scores = Json::array();
  for (const ScoreAnswer& score : answer.scores) scores.push_back(json_of(score));
  document["scores"] = std::move(scores);
  document["flags"] = json_from_flags(answer.flags);
  document["notes"] = answer.notes;
  return document;
}

Json json_from(const TrialFitAnswer& answer) {
  Json document = head("trial_fit", answer.head);
  const trials::FitAnswer& fit = answer.fit;
  document["engine_version"] = answer.engine_version;
  document["input_hash"] = answer.input_hash;
  document["weather"] = answer.weather;
  document["n_readings"] = answer.n_readings;
  document["n_days"] = fit.n_days;
  Json held_back = Json::array();
  for (const std::int64_t day : answer.held_back_days) held_back.push_back(text_from_day(day));
  document["held_back_days"] = std::move(held_back);
  Json figures = Json::array();
  for (const FittedFigure& figure : answer.figures) figures.push_back(json_of(figure));
  document["figures"] = std::move(figures);
  document["correlations"] = fit.correlations;
  // JSON has no number for what cannot be bounded.
  document["condition"] = std::isfinite(fit.condition) ? Json(fit.condition) : Json(nullptr);
  document["rms_before_k"] = fit.rms_start;
  document["rms_fitted_k"] = fit.rms_fitted;
  document["rms_held_back_before_k"] = json_from(fit.rms_held_back_start);
  document["rms_held_back_fitted_k"] = json_from(fit.rms_held_back_fitted);
  document["n_model_runs"] = fit.n_model_runs;
  Json warnings = Json::array();
  for (const trials::FitWarning& warning : fit.warnings) {
    warnings.push_back(
        {{"kind", word_of(warning.kind)}, {"properties", warning.properties}, {"sentence", warning.sentence}});
  }
  document["warnings"] = std::move(warnings);
  document["may_be_accepted"] = answer.refused_because.empty();
  document["refused_because"] = answer.refused_because;
  document["source"] = answer.source;
  document["notes"] = answer.notes;
  Json series = Json::array();
  for (const FitSeries& one : answer.series) {
    Json at = Json::array();
    for (const std::int64_t at_s : one.at_s) at.push_back(local_text(at_s));
    series.push_back({{"place", one.place},
                      {"probe", one.probe},
                      {"at", std::move(at)},
                      {"measured_c", one.measured_c},
                      {"before_c", one.before_c},
                      {"fitted_c", one.fitted_c}});
  }
  document["series"] = std::move(series);
  document["revision"] = answer.revision ? Json(*answer.revision) : Json(nullptr);
  return document;
}

}  // namespace houseleek::report
