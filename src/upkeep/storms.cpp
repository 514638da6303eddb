// Storms of the logbook, and what was found failed soon after each.
#include "upkeep/storms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/number_words.hpp"

namespace houseleek::upkeep {
namespace {

constexpr std::int64_t day_s = 86400;

std::string day_of(const logbook::Event& event) {
  CivilMoment day = event.at;
  day.is_time_known = false;
  return text_from_moment(day);
}

bool is_soon_after(std::int64_t at_utc_s, std::int64_t storm_utc_s) {
  // Found on the storm's own day counts: storms are often noted with the day alone, at its noon.
  return at_utc_s >= storm_utc_s - day_s / 2 && at_utc_s <= storm_utc_s + days_after_storm * day_s;
}

void add_failed(Storm& storm, const PartRecord& part) {
  for (FailedParts& one : storm.failed) {
    if (one.part != part.part || one.material != part.material) continue;
    one.n_parts += part.n_parts;
    return;
  }
  storm.failed.push_back({part.part, part.material, part.n_parts});
}

std::string statement_of(const StormsAnswer& answer) {
  if (answer.storms.empty()) return "No storm is logged.";
  const std::string storms = counted(static_cast<double>(answer.storms.size()), "storm is", "storms are");
  if (answer.n_failures == 0.0) return fmt::format("{} logged; nothing was found failed yet.", storms);
  return fmt::format(
      "{} logged. {:.0f} of {} found within {} days after one; those days are {:.0f} % of all. People look after "
      "storms, "
      "so what was found then need not have failed then; the lives above do not tell storms apart.",
      storms, answer.n_after_storms, counted(answer.n_failures, "failure was", "failures were"), days_after_storm,
      100.0 * answer.days_after_storms_frac);
}

}  // namespace

StormsAnswer find_storms(std::span<const logbook::EventRecord> records, const PartRecords& parts,
                         std::int64_t now_utc_s) {
  StormsAnswer answer;
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    if (event.kind != logbook::EventKind::storm || record.superseded_by || event.at.utc_s > now_utc_s) continue;
    Storm storm;
    storm.number = record.number;
    storm.at_utc_s = event.at.utc_s;
    storm.day = day_of(event);
    storm.gust_km_per_h = event.gust_km_per_h;
    storm.rain_mm = event.rain_mm;
    storm.hail_mm = event.hail_mm;
    storm.note = event.note;
    answer.storms.push_back(std::move(storm));
  }
  std::stable_sort(answer.storms.begin(), answer.storms.end(),
                   [](const Storm& a, const Storm& b) { return a.at_utc_s < b.at_utc_s; });
  for (const PartRecord& part : parts.parts) {
    if (!part.found_failed_utc_s || *part.found_failed_utc_s > now_utc_s) continue;
    answer.n_failures += part.n_parts;
    bool is_after = false;
    for (Storm& storm : answer.storms) {
      if (!is_soon_after(*part.found_failed_utc_s, storm.at_utc_s)) continue;
      is_after = true;
      add_failed(storm, part);
    }
    if (is_after) answer.n_after_storms += part.n_parts;
  }
  if (parts.first_utc_s && now_utc_s > *parts.first_utc_s) {
    std::set<std::int64_t> days;
    const std::int64_t n_days = (now_utc_s - *parts.first_utc_s) / day_s + 1;
    for (const Storm& storm : answer.storms) {
      for (std::int64_t day = 0; day <= days_after_storm; ++day) {
        const std::int64_t from_first = (storm.at_utc_s - *parts.first_utc_s) / day_s + day;
        if (from_first >= 0 && from_first < n_days) days.insert(from_first);
      }
    }
    answer.days_after_storms_frac = static_cast<double>(days.size()) / static_cast<double>(n_days);
  }
  if (!answer.storms.empty() && now_utc_s - answer.storms.back().at_utc_s <= days_after_storm * day_s + day_s / 2) {
    answer.latest_within_days = answer.storms.back().day;
  }
  answer.statement = statement_of(answer);
  return answer;
}

}  // namespace houseleek::upkeep
