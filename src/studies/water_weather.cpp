// Weather up to a day as far as it is known, drawn where it is not; without rain after it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "climate/calendar.hpp"
#include "studies/trial_fit.hpp"
#include "studies/water_stores.hpp"

namespace houseleek::studies {
namespace {

constexpr int hours = climate::n_hours_in_day;

/// The thermometer outside: the one that a trial names, else one called so.
const logbook::LoggerColumn* outdoor_of(const StoreInputs& inputs) {
  const auto named = [&](const std::string& name) -> const logbook::LoggerColumn* {
    for (const logbook::LoggerColumn& column : inputs.loggers) {
      if (!name.empty() && folded_name(column.name) == folded_name(name)) return &column;
    }
    return nullptr;
  };
  for (const design::Trial& trial : inputs.design->trials) {
    if (const logbook::LoggerColumn* column = named(trial.outdoor_logger)) return column;
  }
  const logbook::LoggerColumn* column = named("outdoor");
  return column != nullptr ? column : named("outside");
}

/// Days from today - days_looked_back to the end of what is looked ahead.
std::vector<climate::KnownDay> known_days(const StoreInputs& inputs, DrawnWeather& drawn) {
  const std::int64_t first = inputs.today - days_looked_back;
  const RainLog rain = rain_log(inputs.records, first, inputs.today);
  const std::map<std::int64_t, climate::KnownDay> air = air_log(inputs.records);
  std::vector<climate::KnownDay> days(static_cast<std::size_t>(days_looked_back + 1 + days_looked_ahead));
  std::size_t n_air = 0;
  for (int i = 0; i <= days_looked_back; ++i) {
    climate::KnownDay& day = days[static_cast<std::size_t>(i)];
    const std::int64_t date = first + i;
    if (const auto found = air.find(date); found != air.end()) {
      day.max_c = found->second.max_c;
      day.min_c = found->second.min_c;
      ++n_air;
    }
    const auto rained = rain.rain_mm.find(date);
    if (rained != rain.rain_mm.end()) day.rain_mm = rained->second;
    if (rain.has_gauge && !day.rain_mm) day.rain_mm = 0.0;
  }
  climate::KnownDay& yesterday = days[static_cast<std::size_t>(days_looked_back - 1)];
  const TypedDay& typed = inputs.yesterday;
  if (typed.max_c) yesterday.max_c = typed.max_c;
  if (typed.min_c) yesterday.min_c = typed.min_c;
  if (typed.rain_mm) yesterday.rain_mm = typed.rain_mm;
  for (int i = days_looked_back + 1; i < static_cast<int>(days.size()); ++i) {
    days[static_cast<std::size_t>(i)].rain_mm = 0.0;
  }
  drawn.has_rain = rain.has_gauge || typed.rain_mm.has_value();
  if (rain.has_gauge) drawn.known.push_back("rain: by the gauge in the logbook");
  if (!rain.has_gauge && typed.rain_mm) {
    drawn.known.push_back("rain before yesterday: draws of the climate");
  } else if (!rain.has_gauge) {
    drawn.known.push_back("rain: draws of the climate; storms and typed days as they were noted");
    drawn.missing.push_back(
        inputs.has_logbook ? "rain of single days: houseleek log PROJECT rained --rain-mm 4 --at DAY (0 counts too)"
                           : "rain of yesterday: --rain 4; of many days: a project and its logbook");
  }
  if (n_air > 0) drawn.known.push_back(fmt::format("air: {} days read off by hand", n_air));
  if (typed.max_c || typed.min_c || typed.rain_mm) drawn.known.push_back("yesterday: as typed in");
  return days;
}

/// A shift that keeps a known extreme above, or below, the other one of the day as it is drawn.
void keep_order(const climate::WeatherYear& year, int first_day, std::vector<climate::KnownDay>& days) {
  for (std::size_t i = 0; i < days.size(); ++i) {
    climate::KnownDay& day = days[i];
    if (day.max_c.has_value() == day.min_c.has_value()) continue;
    const int wrapped = (first_day + static_cast<int>(i)) % climate::n_days_in_year;
    const auto begin = year.air_temperature_c.begin() + static_cast<std::ptrdiff_t>(wrapped) * hours;
    const auto [least, most] = std::minmax_element(begin, begin + hours);
    // One extreme alone shifts the whole day, so the other goes with it.
    if (day.max_c)
      day.min_c = *least + (*day.max_c - *most);
    else
      day.max_c = *most + (*day.min_c - *least);
  }
}

}  // namespace

int day_of_year(std::int64_t day) {
  const std::string text = text_from_day(day);
  const int month = std::stoi(text.substr(5, 2));
  const int of_month =
      std::min(std::stoi(text.substr(8, 2)), climate::n_days_in_month[static_cast<std::size_t>(month - 1)]);
  return climate::first_day_of_month[static_cast<std::size_t>(month - 1)] + of_month - 1;
}

Result<DrawnWeather> draw_weather(const StoreInputs& inputs, int n_draws) {
  DrawnWeather drawn;
  const int today = day_of_year(inputs.today);
  drawn.first_day = (today - days_looked_back + climate::n_days_in_year) % climate::n_days_in_year;
  const std::vector<climate::KnownDay> known = known_days(inputs, drawn);
  const logbook::LoggerColumn* outdoor = outdoor_of(inputs);
  const RunSpan span{.first_day = inputs.today - days_looked_back,
                     .first_hour = hours * drawn.first_day,
                     .n_hours = hours * (days_looked_back + 1),
                     .spin_up_hours = 0};
  int n_hours_measured = 0;
  for (int draw = 0; draw < n_draws; ++draw) {
    Result<climate::WeatherYear> year = make_weather(inputs.design, inputs.weather_file, draw);
    if (!year) {
      if (draw == 0) return Unexpected{year.error()};
      break;  // a file has no more years
    }
    climate::WeatherYear weather = std::move(year).value();
    if (outdoor != nullptr) {
      MeasuredAir measured = with_measured_air(weather, *outdoor, span);
      n_hours_measured = measured.n_hours_measured;
      weather = std::move(measured.weather);
    }
    std::vector<climate::KnownDay> days = known;
    keep_order(weather, drawn.first_day, days);
    drawn.years.push_back(climate::with_known_days(weather, drawn.first_day, days));
  }
  if (n_hours_measured > 0) {
    drawn.known.insert(drawn.known.begin(), fmt::format("air: {} hours of the logger \"{}\" in the last {} days",
                                                        n_hours_measured, outdoor->name, days_looked_back));
  } else if (!inputs.yesterday.max_c || !inputs.yesterday.min_c) {
    drawn.missing.push_back(inputs.has_logbook
                                ? "air: houseleek log PROJECT read_off --item \"air max\" --temperature-c 34 (and "
                                  "\"air min\"), or an outdoor logger"
                                : "air of yesterday: --max 34 --min 21");
  }
  drawn.known.push_back(fmt::format("all else: {} draws of the climate", drawn.years.size()));
  return drawn;
}

}  // namespace houseleek::studies
