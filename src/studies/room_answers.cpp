// How warm and how cold the rooms get under each cover, and the heat that machines would move.
#include "studies/room_answers.hpp"

#include <algorithm>

namespace houseleek::studies {
namespace {

using report::Figure;
using report::RoomFigures;

constexpr double kwh_per_wh = 0.001;

Figure of_one_year(double value) { return results::figure_without_range(value, std::string(report::one_year_only)); }

/// Sums of one or more rooms under one cover, before they become figures.
struct Tally {
  double operative_max_c = -1e9;
  double operative_min_c = 1e9;
  ComfortSums all;
  ComfortSums nights;  // of bedrooms
  double heat_added_kwh = 0.0;
  double heat_removed_kwh = 0.0;
  double fan_energy_kwh = 0.0;
  double heat_gain_summer_kwh = 0.0;
  bool has_fan = false;
  bool has_night_fan = false;
  bool has_bedroom = false;
};

void add(ComfortSums& sums, const ComfortSums& more) {
  sums.n_above += more.n_above;
  sums.n_above_with_fan += more.n_above_with_fan;
  sums.n_below += more.n_below;
  sums.n_without_limit += more.n_without_limit;
  sums.degree_hours_above_k_h += more.degree_hours_above_k_h;
}

void add_room(Tally& tally, const design::Room& room, const RoomSums& free, const RoomSums& held) {
  tally.operative_max_c = std::max(tally.operative_max_c, free.operative_max_c);
  tally.operative_min_c = std::min(tally.operative_min_c, free.operative_min_c);
  add(tally.all, free.all);
  tally.heat_added_kwh += held.heat_added_kwh;
  tally.heat_removed_kwh += held.heat_removed_kwh;
  tally.heat_gain_summer_kwh += free.heat_gain_summer_kwh;
  if (room.fan) {
    tally.has_fan = true;
    tally.fan_energy_kwh += kwh_per_wh * room.fan->power_w * free.all.n_above;
  }
  if (room.is_bedroom) {
    tally.has_bedroom = true;
    tally.has_night_fan = tally.has_night_fan || room.fan.has_value();
    add(tally.nights, free.nights);
  }
}

RoomFigures figures_from(const Tally& tally) {
  const Figure no_fan = results::figure_missing("no fan is described");
  RoomFigures figures;
  figures.operative_max_c = of_one_year(tally.operative_max_c);
  figures.operative_min_c = of_one_year(tally.operative_min_c);
  figures.hours_above_limit = of_one_year(tally.all.n_above);
  figures.hours_above_limit_with_fan = tally.has_fan ? of_one_year(tally.all.n_above_with_fan) : no_fan;
  figures.hours_below_limit = of_one_year(tally.all.n_below);
  figures.hours_without_limit = of_one_year(tally.all.n_without_limit);
  figures.degree_hours_above_k_h = of_one_year(tally.all.degree_hours_above_k_h);
  figures.heat_to_add_kwh = of_one_year(tally.heat_added_kwh);
  figures.heat_to_remove_kwh = of_one_year(tally.heat_removed_kwh);
  figures.fan_energy_kwh = tally.has_fan ? of_one_year(tally.fan_energy_kwh) : no_fan;
  figures.heat_gain_summer_kwh = of_one_year(tally.heat_gain_summer_kwh);
  if (tally.has_bedroom) {
    figures.night = report::NightAnswer{
        .hours_above_limit = of_one_year(tally.nights.n_above),
        .hours_above_limit_with_fan = tally.has_night_fan ? of_one_year(tally.nights.n_above_with_fan) : no_fan,
        .degree_hours_above_k_h = of_one_year(tally.nights.degree_hours_above_k_h)};
  }
  return figures;
}

Figure less(const Figure& here, const Figure& there) {
  if (!here.value) return here;
  if (!there.value) return there;
  return of_one_year(*here.value - *there.value);
}

report::NightAnswer less(const report::NightAnswer& here, const report::NightAnswer& there) {
  return {.hours_above_limit = less(here.hours_above_limit, there.hours_above_limit),
          .hours_above_limit_with_fan = less(here.hours_above_limit_with_fan, there.hours_above_limit_with_fan),
          .degree_hours_above_k_h = less(here.degree_hours_above_k_h, there.degree_hours_above_k_h)};
}

report::RoomDifference planted_minus_bare(const report::RoomAnswer& room) {
  const RoomFigures& here = room.covers[report::index_of(report::CoverKind::planted)];
  const RoomFigures& there = room.covers[report::index_of(report::CoverKind::bare)];
  report::RoomDifference difference;
  difference.operative_max_k = less(here.operative_max_c, there.operative_max_c);
  difference.operative_min_k = less(here.operative_min_c, there.operative_min_c);
  difference.hours_above_limit = less(here.hours_above_limit, there.hours_above_limit);
  difference.hours_above_limit_with_fan = less(here.hours_above_limit_with_fan, there.hours_above_limit_with_fan);
  difference.hours_below_limit = less(here.hours_below_limit, there.hours_below_limit);
  difference.degree_hours_above_k_h = less(here.degree_hours_above_k_h, there.degree_hours_above_k_h);
  difference.heat_to_add_kwh = less(here.heat_to_add_kwh, there.heat_to_add_kwh);
  difference.heat_to_remove_kwh = less(here.heat_to_remove_kwh, there.heat_to_remove_kwh);
  difference.fan_energy_kwh = less(here.fan_energy_kwh, there.fan_energy_kwh);
  difference.heat_gain_summer_kwh = less(here.heat_gain_summer_kwh, there.heat_gain_summer_kwh);
  if (here.night && there.night) difference.night = less(*here.night, *there.night);
  return difference;
}

}  // namespace

report::RoomFigures figures_of_room(const design::Room& room, const RoomSums& free, const RoomSums& held) {
  Tally tally;
  add_room(tally, room, free, held);
  return figures_from(tally);
}

std::vector<report::RoomAnswer> answer_rooms(const design::Design& design, const CoverRuns& runs) {
  std::vector<report::RoomAnswer> answers;
  for (std::size_t i = 0; i < design.rooms.size(); ++i) {
    const design::Room& room = design.rooms[i];
    report::RoomAnswer answer;
    answer.name = room.name;
    answer.is_bedroom = room.is_bedroom;
    answer.has_fan = room.fan.has_value();
    for (std::size_t cover = 0; cover < report::n_covers; ++cover) {
      answer.covers[cover] = figures_of_room(room, runs.free[cover].rooms[i], runs.held[cover].rooms[i]);
    }
    answer.planted_minus_bare = planted_minus_bare(answer);
    answers.push_back(std::move(answer));
  }
  return answers;
}

report::RoomAnswer answer_house(const design::Design& design, const CoverRuns& runs) {
  report::RoomAnswer answer;
  answer.name = "all rooms";
  for (std::size_t cover = 0; cover < report::n_covers; ++cover) {
    Tally tally;
    for (std::size_t i = 0; i < design.rooms.size(); ++i) {
      add_room(tally, design.rooms[i], runs.free[cover].rooms[i], runs.held[cover].rooms[i]);
    }
    answer.covers[cover] = figures_from(tally);
    answer.is_bedroom = tally.has_bedroom;
    answer.has_fan = tally.has_fan;
  }
  answer.planted_minus_bare = planted_minus_bare(answer);
  return answer;
}

}  // namespace houseleek::studies
