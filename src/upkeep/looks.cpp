// When what should be looked at next: common practice, counted from the last look in the logbook.
#include "upkeep/looks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/nearest_name.hpp"
#include "upkeep/part_lives.hpp"

namespace houseleek::upkeep {
namespace {

// Intervals are common practice without a source, and every answer says so.
constexpr std::array<LookRule, 8> rules = {{
    {"outlets and gratings", "clear leaves and grit by hand, pour a can of water and see it go",
     ",outlet,outlets,grating,gratings,gutter,gutters,drain,", 30, false},
    {"ties", "pull at each knot; count what is frayed, rusted or gone", ",tie,", 90, true},
    {"cover sheets and nets", "torn seams, flapping edges, holes where plants do not yet close", ",cover sheet,net,",
     90, true},
    {"plants", "vigour 1 to 5, cover, what creeps over the edge, seedlings of trees", ",plant,plants,", 90, true},
    {"spacers and slats", "level, none slipped, nothing nesting in the gap, no foot sunk into the membrane", ",spacer,",
     180, false},
    {"membrane under one lifted module", "another module each time: blisters, damp, roots, grit, marks of feet",
     ",membrane,roof,deck,", 365, false},
    {"depth of the growing medium", "a ruler at three places; medium sinks as compost goes", ",medium,", 365, false},
    {"ceiling below", "stains, cracks, sag, a drip: stop, and have it looked at before anything else is laid",
     ",ceiling,ceilings,", 180, false},
}};

bool is_among(std::string_view words, const std::string& word) {
  return !word.empty() && words.find(fmt::format(",{},", folded_name(word))) != std::string_view::npos;
}

bool counts_for(const LookRule& rule, const logbook::Event& event) {
  using logbook::EventKind;
  if (event.kind != EventKind::looked_at && event.kind != EventKind::replaced && event.kind != EventKind::repaired) {
    // Medium that was topped up has been looked at.
    return event.kind == EventKind::topped_up && rule.words == ",medium,";
  }
  const std::string part = part_word(event.part);
  if (is_among(rule.words, part) || is_among(rule.words, event.item)) return true;
  if (rule.words == ",medium," && event.depth_mm) return true;
  if (rule.words == ",ceiling,ceilings," && !event.room.empty()) return true;
  if (rule.words == ",plant,plants," && (event.vigour || event.cover_percent)) return true;
  const bool is_round = event.part.empty() && event.item.empty() && event.room.empty() && event.container.empty();
  return rule.by_any_look && is_round && event.kind == EventKind::looked_at && !event.condition.empty();
}

std::int64_t day_of(const CivilMoment& moment) {
  const std::int64_t shown_s = moment.utc_s + moment.offset_s;
  const std::int64_t second = ((shown_s % n_seconds_in_civil_day) + n_seconds_in_civil_day) % n_seconds_in_civil_day;
  return (shown_s - second) / n_seconds_in_civil_day;
}

}  // namespace

std::span<const LookRule> look_rules() { return rules; }

std::vector<LookDue> looks_due(std::span<const logbook::EventRecord> records, std::int64_t today) {
  std::vector<LookDue> looks;
  for (const LookRule& rule : rules) {
    LookDue look;
    look.what = rule.what;
    look.how = rule.how;
    look.every_days = rule.every_days;
    for (const logbook::EventRecord& record : records) {
      if (record.superseded_by || !counts_for(rule, record.event)) continue;
      const std::int64_t day = day_of(record.event.at);
      if (day <= today && (!look.last_day || day > *look.last_day)) look.last_day = day;
    }
    look.due_day = look.last_day ? *look.last_day + rule.every_days : today;
    look.is_due = look.due_day <= today;
    looks.push_back(std::move(look));
  }
  std::stable_sort(looks.begin(), looks.end(),
                   [](const LookDue& a, const LookDue& b) { return a.due_day < b.due_day; });
  return looks;
}

}  // namespace houseleek::upkeep
