// What is raised: batches in sentences, and a plan backwards from a planting date.
#include "studies/plant_nursery.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "base/toml_fields.hpp"

namespace houseleek::studies {
namespace {

using catalogue::Plant;
using catalogue::RaisedFrom;

constexpr double most_raised = 100'000.0;
constexpr int least_batches = 3;  // as modules of a recipe in a trial

void add_issue(Issues& issues, IssueCode code, std::string path, const std::string& value, std::string limit,
               std::string message, std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = std::move(path);
  issue.value = value;
  issue.limit = std::move(limit);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  issues.push_back(std::move(issue));
}

/// A whole number of plants; nullopt where it is none.
std::optional<double> count_from(const std::string& text) {
  if (text.empty() || text.size() > 9) return std::nullopt;
  double count = 0.0;
  for (const char digit : text) {
    if (digit < '0' || digit > '9') return std::nullopt;
    count = 10.0 * count + (digit - '0');
  }
  return count >= 1.0 && count <= most_raised ? std::optional(count) : std::nullopt;
}

std::optional<RaisedFrom> way_from(const std::string& word) {
  for (const auto& [text, value] : catalogue::raised_from_words) {
    if (text == word) return value;
  }
  return std::nullopt;
}

std::string ways_of(const Plant& plant) {
  std::string text;
  for (const RaisedFrom way : plant.raised_from) {
    text += (text.empty() ? "" : ", ") + std::string(catalogue::text_from_way(way));
  }
  return text;
}

std::string what_to_do(RaisedFrom way, double count) {
  switch (way) {
    case RaisedFrom::seed:
      return fmt::format("sow {:.0f} seeds", count);
    case RaisedFrom::cuttings:
      return fmt::format("strike {:.0f} cuttings", count);
    case RaisedFrom::leaves:
      return fmt::format("lay out {:.0f} leaves", count);
    case RaisedFrom::division:
      return fmt::format("pot up {:.0f} divided pieces", count);
    case RaisedFrom::offsets:
      return fmt::format("pot up {:.0f} offsets", count);
    case RaisedFrom::runners:
      return fmt::format("pot up {:.0f} runners", count);
    case RaisedFrom::bulbs:
      return fmt::format("plant {:.0f} bulbs", count);
    case RaisedFrom::pads:
      return fmt::format("strike {:.0f} pads", count);
  }
  return fmt::format("begin {:.0f}", count);
}

std::string rate_words(const planting::OwnRate& rate) {
  const std::string counts = fmt::format("lost {:.0f} of {:.0f}", rate.n_events, rate.n_all);
  if (rate.is_too_few) return counts + ", too few to say";
  return fmt::format("{}, {:.0f} % ({:.0f} to {:.0f}) of this batch", counts, 100.0 * rate.share, 100.0 * rate.low,
                     100.0 * rate.high);
}

int month_of_day(std::int64_t day) { return std::stoi(text_from_day(day).substr(5, 2)); }

}  // namespace

Issues issues_of_raising(const RaisingWish& wish, const catalogue::Catalogue& catalogue) {
  Issues issues;
  const Plant* plant = wish.plant.empty() ? nullptr : catalogue::find_plant(catalogue, wish.plant);
  if (!wish.plant.empty() && plant == nullptr) {
    std::vector<std::string> names;
    for (const Plant& one : catalogue.plants) names.push_back(one.name);
    for (const Plant& one : catalogue.plants) names.push_back(one.common_name);
    const std::optional<std::string> nearest = find_nearest_name(wish.plant, names);
    add_issue(issues, IssueCode::unknown_name, "plant", wish.plant, "a plant of the catalogue",
              fmt::format("plant: there is no plant \"{}\"", wish.plant),
              nearest ? fmt::format("did you mean \"{}\"?", *nearest) : std::string("see catalogue/plants.toml"));
  }
  const bool is_raised = !wish.n_plants.empty();
  if (is_raised && !count_from(wish.n_plants)) {
    add_issue(issues, IssueCode::out_of_range, "raise", wish.n_plants, "a whole number from 1 to 100000",
              fmt::format("raise is \"{}\"; it must be a whole number of plants, from 1 to 100000", wish.n_plants), "");
  }
  if (is_raised && wish.plant.empty()) {
    add_issue(issues, IssueCode::missing_field, "plant", "", "a plant of the catalogue",
              "plant is missing: which one is to be raised?", "add --plant \"Sedum album\"");
  }
  if (is_raised && wish.by.empty()) {
    add_issue(issues, IssueCode::missing_field, "by", "", "a date", "by is missing: when are they to be planted out?",
              "add --by 2027-04-15");
  }
  if (!wish.by.empty() && !day_from_text(wish.by)) {
    add_issue(issues, IssueCode::wrong_type, "by", wish.by, "a date",
              fmt::format("by is \"{}\"; it must be a date", wish.by), "2027-04-15, for example");
  }
  if (!is_raised && !wish.by.empty()) {
    add_issue(issues, IssueCode::missing_field, "raise", "", "a whole number from 1 to 100000",
              "raise is missing: how many are to be planted out by then?", "add --raise 100");
  }
  if (!wish.way.empty()) {
    const std::optional<RaisedFrom> way = way_from(wish.way);
    std::vector<std::string> known;
    for (const auto& [text, value] : catalogue::raised_from_words) known.emplace_back(text);
    if (!way) {
      add_issue(issues, IssueCode::unknown_name, "from", wish.way, joined_names(known),
                fmt::format("from: there is no way \"{}\" of raising plants", wish.way),
                fmt::format("known: {}", joined_names(known)));
    } else if (plant != nullptr &&
               std::find(plant->raised_from.begin(), plant->raised_from.end(), *way) == plant->raised_from.end()) {
      add_issue(issues, IssueCode::inconsistent, "from", wish.way, ways_of(*plant),
                fmt::format("from: {} is not raised from {}", plant->name, wish.way),
                fmt::format("it is raised from {}", ways_of(*plant)));
    }
  }
  return issues;
}

report::RaiseAnswer answer_raising(const RaisingWish& wish, const catalogue::Catalogue& catalogue,
                                   std::span<const planting::Batch> batches, catalogue::Hemisphere hemisphere) {
  expects(issues_of_raising(wish, catalogue).empty(), "a wish without issues");
  const Plant& plant = *catalogue::find_plant(catalogue, wish.plant);
  const RaisedFrom way = wish.way.empty() ? plant.raised_from.front() : *way_from(wish.way);
  const catalogue::Raising* raising = catalogue::find_raising(catalogue.raising, way, plant.group);
  expects(raising != nullptr, "figures for every way of the catalogue's plants");
  planting::RaiseQuestion question;
  question.n_plants = *count_from(wish.n_plants);
  question.by_day = *day_from_text(wish.by);
  question.raising = raising;
  const std::optional<planting::PooledLosses> own = planting::pooled_losses(batches, plant.name, way);
  if (own && !own->rate.is_too_few && own->rate.high < 1.0) {
    planting::Share share{1.0 - own->rate.high, 1.0 - own->rate.share, 1.0 - own->rate.low,
                          fmt::format("your own losses, {}", counted(own->n_batches, "batch", "batches"))};
    if (own->n_batches < least_batches) {
      // One or two batches say little of the next: what growers know stays in the range.
      share.low = std::min(share.low, raising->taking_frac.low * raising->keeping_frac.low);
      share.high = std::max(share.high, raising->taking_frac.high * raising->keeping_frac.high);
      share.from += "; few batches, so the range holds what growers know too";
    }
    question.own_share = share;
  }
  report::RaiseAnswer answer;
  answer.plant = plant.name;
  answer.way = catalogue::text_from_way(way);
  answer.n_plants = question.n_plants;
  answer.by_day = question.by_day;
  answer.plan = planting::plan_raising(question);
  answer.is_in_season = catalogue::begins_in(*raising, month_of_day(answer.plan.begin_day), hemisphere);
  const planting::RaisePlan& plan = answer.plan;
  answer.sentence = fmt::format(
      "For {:.0f} {} to plant out on {}: {} ({:.0f} to {:.0f}) on {} (between {} and {}). Count what is up or rooted "
      "on "
      "{}: about {:.0f}.{} Share that lives from: {}.",
      answer.n_plants, plant.common_name.empty() ? plant.name : fmt::format("{} ({})", plant.name, plant.common_name),
      text_from_day(answer.by_day), what_to_do(way, plan.to_begin), plan.to_begin_low, plan.to_begin_high,
      text_from_day(plan.begin_day), text_from_day(plan.begin_earliest), text_from_day(plan.begin_latest),
      text_from_day(plan.taken_day), plan.to_expect,
      plan.potted_on_day ? fmt::format(" Pot on around {}.", text_from_day(*plan.potted_on_day)) : std::string(),
      plan.share_from);
  if (!answer.is_in_season) {
    answer.sentence += " That is not the usual season to begin: expect fewer, give shelter, or choose another day.";
  }
  return answer;
}

std::vector<report::BatchAnswer> answers_of_batches(std::span<const planting::Batch> batches,
                                                    const catalogue::Catalogue& catalogue) {
  std::vector<report::BatchAnswer> all;
  for (const planting::Batch& batch : batches) {
    report::BatchAnswer answer;
    answer.batch = batch;
    if (batch.raising != nullptr) answer.way = catalogue::text_from_way(batch.raising->way);
    answer.losses = planting::raising_losses(batch);
    const Plant* plant = batch.plant.empty() ? nullptr : catalogue::find_plant(catalogue, batch.plant);
    if (plant != nullptr && batch.n_standing > 0.0) answer.leave_roof = planting::leave_roof(*plant, batch.sown.day);
    std::string steps = fmt::format("begun {} with {:.0f}", text_from_day(batch.sown.day), batch.sown.count);
    if (batch.germinated) steps += fmt::format(", {:.0f} up", batch.germinated->count);
    if (batch.potted_on) steps += fmt::format(", {:.0f} potted on", batch.potted_on->count);
    if (batch.ready) steps += fmt::format(", {:.0f} ready {}", batch.ready->count, text_from_day(batch.ready->day));
    if (batch.n_planted_out > 0.0) steps += fmt::format(", {:.0f} planted out", batch.n_planted_out);
    if (batch.n_given_away > 0.0) steps += fmt::format(", {:.0f} given away", batch.n_given_away);
    if (batch.n_lost > 0.0) steps += fmt::format(", {:.0f} noted as lost", batch.n_lost);
    answer.sentence = fmt::format("{}; {:.0f} still stand", steps, batch.n_standing);
    if (answer.losses) answer.sentence += "; until ready it " + rate_words(*answer.losses);
    if (batch.plant.empty()) {
      answer.sentence += "; which plant it is was not told: name it as item when you log the sowing";
    }
    answer.sentence += ".";
    all.push_back(std::move(answer));
  }
  return all;
}

}  // namespace houseleek::studies
