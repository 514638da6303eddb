// Thermometers, loggers and bills of the invented house, out of its simulated years.
#include "readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/contract.hpp"

namespace houseleek::invent {
namespace {

constexpr const char* zone = "Europe/Athens";
constexpr std::int64_t standard_offset_s = 7200;
constexpr const char* first_bill = "2022-03-01";
constexpr const char* trial_begins = "2025-07-01";
constexpr int trial_days = 28;

/// Where a thermometer lies.
struct Spot {
  std::string name;  // in the logbook
  int recipe = -1;   // -1: bare roof
  int room = 0;
  bool is_ceiling = false;
};

/// The stack of a spot in a group: under the middle of a module, or the largest bare one of the room.
std::size_t stack_of(const std::vector<simulation::StackOrigin>& origins, const results::GroupYear& year,
                     const Spot& spot) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < origins.size(); ++i) {
    if (origins[i].recipe != spot.recipe || origins[i].room != spot.room) continue;
    if (spot.recipe >= 0 && !origins[i].is_middle) continue;
    if (!best || year.stacks[i].area_m2 > year.stacks[*best].area_m2) best = i;
  }
  expects(best.has_value(), "a stack of this spot");
  return *best;
}

/// A column at a moment of the place's standard time: at hours' ends, straight lines between.
double value_at(const Story& story, std::int64_t day, double hour, const auto& column_of) {
  const auto at_mark = [&](std::int64_t d, int mark) {  // mark 1..24: the end of an hour
    return column_of(year_of(story.years, d), hour_of_year(d, mark - 1));
  };
  const int mark = static_cast<int>(std::floor(hour));
  const double share = hour - mark;
  const double before = mark == 0 ? at_mark(day - 1, 24) : at_mark(day, mark);
  return before + share * (at_mark(day, mark + 1) - before);
}

double spot_c(const Story& story, std::int64_t day, double hour, const Spot& spot) {
  return value_at(story, day, hour, [&](const TrueYear& year, std::size_t at) {
    const results::StackYear& stack = year.planted.stacks[stack_of(year.planted_origins, year.planted, spot)];
    return spot.is_ceiling ? stack.ceiling_c[at] : stack.membrane_c[at];
  });
}

double air_c(const Story& story, std::int64_t day, double hour) {
  return value_at(story, day, hour,
                  [](const TrueYear& year, std::size_t at) { return year.weather.air_temperature_c[at + 1]; });
}

/// Hours of the standard clock for a time by the clocks of the place.
double standard_hour(std::int64_t day, int minute) {
  const std::string text = fmt::format("{}T{:02}:{:02}", text_from_day(day), minute / 60, minute % 60);
  const Result<CivilMoment> moment = moment_from_text(text, zone, "at");
  expects(moment.has_value(), "a time that clocks showed");
  return static_cast<double>(moment.value().utc_s + standard_offset_s - day * n_seconds_in_civil_day) / 3600.0;
}

}  // namespace

TrialTruth add_hand_readings(const Story& story, EventTable& table) {
  const std::vector<Spot> spots = {{"A3", 0, 0}, {"A5", 0, 0}, {"C1", 1, 1}, {"C2", 1, 1}, {"S1", -1, 1}};
  double raised_sum = 0.0;
  double flat_sum = 0.0;
  for (int i = 0; i < trial_days; ++i) {
    const std::int64_t day = day_of(trial_begins) + i;
    for (const auto& [name, usual_minute] : {std::pair{"morning", 7 * 60 + 30}, std::pair{"afternoon", 15 * 60 + 30}}) {
      const auto at = static_cast<std::size_t>(i);
      int minute = usual_minute + static_cast<int>(std::lround(8.0 * normal(fmt::format("{} round", name), 0, at)));
      for (const Spot& spot : spots) {
        minute += 1;
        const double offset_k = place_offset_k * normal("place " + spot.name, 0, 0);
        const double seen_c = spot_c(story, day, standard_hour(day, minute), spot) + offset_k +
                              hand_noise_k * normal(fmt::format("{} reading {}", name, spot.name), day, 0);
        const double usual_c = spot_c(story, day, standard_hour(day, usual_minute), spot);
        if (usual_minute > 12 * 60 && spot.recipe == 0) raised_sum += 0.5 * usual_c;
        if (usual_minute > 12 * 60 && spot.recipe == 1) flat_sum += 0.5 * usual_c;
        if (uniform(fmt::format("{} forgotten {}", name, spot.name), day, 0) < 0.02) continue;
        table.add({day, minute}, "read_off",
                  {{spot.recipe < 0 ? "square" : "module", spot.name}, {"temperature_c", number_text(seen_c, 1)}});
      }
    }
  }
  return {"thin stonecrop, raised (A3, A5)", "deeper herbs, flat (C1, C2)", (raised_sum - flat_sum) / trial_days,
          trial_days};
}

std::string outdoor_csv(const Story& story) {
  std::string text = "# INVENTED: made by houseleek_invent_logbook, not measured\ntime,air temperature (degC)\n";
  for (std::int64_t day = day_of(first_bill); day <= day_of(last_day_text); ++day) {
    for (int hour = 0; hour < 24; ++hour) {
      const double seen_c =
          air_c(story, day, hour) + logger_noise_k * normal("outdoor", day, static_cast<std::size_t>(hour));
      text += fmt::format("{}T{:02}:00,{:.2f}\n", text_from_day(day), hour, seen_c);
    }
  }
  return text;
}

std::string roof_csv(const Story& story) {
  struct Column {
    const char* head;
    Spot spot;
  };
  const std::array<Column, 5> columns = {{{"under A3 (degC)", {"A3", 0, 0}},
                                          {"under C1 (degC)", {"C1", 1, 1}},
                                          {"bare S1 (degC)", {"S1", -1, 1}},
                                          {"ceiling south bedroom (degC)", {"", 0, 0, true}},
                                          {"ceiling living room bare (degC)", {"", -1, 1, true}}}};
  std::string text = "# INVENTED: made by houseleek_invent_logbook, not measured\ntime";
  for (const Column& column : columns) text += fmt::format(";{}", column.head);
  text += "\n";
  // For 30 hours of August the second sensor shows one value: its battery was low.
  const std::int64_t stuck_day = day_of("2025-08-19");
  double stuck_c = 0.0;
  for (std::int64_t day = day_of("2025-05-15"); day <= day_of("2025-09-30"); ++day) {
    for (int half = 0; half < 48; ++half) {
      const std::string date = text_from_day(day);
      text += fmt::format("{}.{}.{} {:02}:{:02}", date.substr(8, 2), date.substr(5, 2), date.substr(0, 4), half / 2,
                          half % 2 * 30);
      for (std::size_t i = 0; i < columns.size(); ++i) {
        double seen_c = spot_c(story, day, 0.5 * half, columns[i].spot) +
                        logger_noise_k * normal(fmt::format("logger {}", i), day, static_cast<std::size_t>(half));
        const bool is_stuck = i == 1 && (day == stuck_day || (day == stuck_day + 1 && half < 12));
        if (i == 1 && !is_stuck) stuck_c = seen_c;
        if (is_stuck) seen_c = stuck_c;
        std::string number = fmt::format("{:.2f}", seen_c);
        std::replace(number.begin(), number.end(), '.', ',');
        text += ";" + number;
      }
      text += "\n";
    }
  }
  return text;
}

void add_bills(const Story& story, EventTable& table) {
  constexpr double efficiency = 0.88;          // of the gas heater
  constexpr double gas_always_kwh = 4.5;       // a day: hot water and the cooker
  constexpr double electricity_kwh = 6.8;      // a day, without fans
  constexpr double new_fridge_less_kwh = 0.9;  // a day
  constexpr double fan_from_c = 27.0;
  const std::int64_t fridge_day = day_of("2024-10-15");
  const std::int64_t tariff_day = day_of("2025-01-01");
  const double n_all = static_cast<double>(story.modules.size());
  std::int64_t first = day_of(first_bill);
  int year = 2022;
  int month = 3;
  while (first < day_of(last_day_text)) {
    month += 2;
    if (month > 12) {
      month -= 12;
      ++year;
    }
    const std::int64_t last = day_of(fmt::format("{:04}-{:02}-01", year, month)) - 1;
    double gas_kwh = 0.0;
    double power_kwh = 0.0;
    for (std::int64_t day = first; day <= last; ++day) {
      const TrueYear& of_day = year_of(story.years, day);
      const double share = modules_on(story, day, -1) / n_all;
      gas_kwh += gas_always_kwh;
      power_kwh += electricity_kwh - (day >= fridge_day ? new_fridge_less_kwh : 0.0);
      for (int hour = 0; hour < 24; ++hour) {
        const std::size_t at = hour_of_year(day, hour);
        const double heat_w = (1.0 - share) * of_day.bare_heat_w[at] + share * of_day.planted_heat_w[at];
        gas_kwh += 0.001 * heated_frac * heat_w / efficiency;
        for (std::size_t room = 0; room < story.truth->rooms.size(); ++room) {
          if (!story.truth->rooms[room].fan) continue;
          const double operative_c = (1.0 - share) * of_day.bare.rooms[room].operative_c[at] +
                                     share * of_day.planted.rooms[room].operative_c[at];
          if (operative_c > fan_from_c) power_kwh += 0.001 * story.truth->rooms[room].fan->power_w;
        }
      }
    }
    gas_kwh *= 1.0 + 0.03 * normal("gas", first, 0);
    power_kwh *= 1.0 + 0.03 * normal("electricity", first, 0);
    const double gas_price = first >= tariff_day ? 0.15 : 0.13;
    const auto add = [&](const char* item, double kwh, double price) {
      table.add({last + 6, -1}, "billed",
                {{"item", item},
                 {"first_day", text_from_day(first)},
                 {"last_day", text_from_day(last)},
                 {"energy_kwh", fmt::format("{:.0f}", kwh)},
                 {"cost", number_text(kwh * price, 2)},
                 {"currency", "EUR"},
                 {"note", "invented"}});
    };
    add("gas", gas_kwh, gas_price);
    add("electricity", power_kwh, 0.24);
    first = last + 1;
  }
  table.add({fridge_day, -1}, "noted", {{"item", "use of electricity"}, {"note", "a new refrigerator, invented"}});
  table.add({tariff_day, -1}, "noted", {{"item", "tariff of gas"}, {"note", "0.13 to 0.15 a kWh, invented"}});
}

}  // namespace houseleek::invent
