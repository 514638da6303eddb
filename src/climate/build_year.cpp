// A weather year built from an hour table: short gaps filled in, missing columns estimated, small faults mended.
#include "climate/build_year.hpp"

#include <fmt/format.h>

#include <utility>

#include "climate/calendar.hpp"
#include "climate/estimate.hpp"
#include "climate/judge_table.hpp"
#include "climate/ring.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr std::size_t n_hours = n_hours_in_year;

/// What was mended, for the notes.
struct Mended {
  int n_dark = 0;
  int n_diffuse = 0;
};

std::vector<double> at_marks(std::vector<double> values) {
  values.push_back(values.front());
  return values;
}

/// Builds the year from a table without issues.
class Builder {
 public:
  Builder(const HourTable& table, WeatherYear sun, FileReport& report)
      : table_(table), year_(std::move(sun)), report_(report) {}

  WeatherYear build() {
    if (table_.n_leap_day_rows > 0) note("29 February is left out: {} rows", table_.n_leap_day_rows);
    if (table_.n_missing_rows > 0) {
      note("{} hours without a row are filled in", table_.n_missing_rows);
      report_.filled.push_back({std::string(time_column_name), table_.n_missing_rows});
    }
    if (table_.n_part_hours > 0) note("{} hours are worked out from a part of their rows", table_.n_part_hours);
    if (table_.n_borrowed_hours > 0) {
      note("{} hours of {} are those of the years before and behind", table_.n_borrowed_hours, table_.year);
    }
    year_.air_temperature_c = at_marks(filled(WeatherColumn::air_temperature));
    build_vapour();
    build_wind();
    build_rain();
    build_radiation();
    if (table_.has(WeatherColumn::sky_longwave)) {
      year_.sky_longwave_w_per_m2 = at_marks(filled(WeatherColumn::sky_longwave));
    } else {
      year_.sky_longwave_w_per_m2 = estimate_sky_longwave_w_per_m2(year_);
      estimated(WeatherColumn::sky_longwave,
                "estimated from temperature, vapour and cloud by day (Brutsaert; Crawford and Duchon)");
    }
    note("the last mark of the year is its first");
    return std::move(year_);
  }

 private:
  template <class... Values>
  void note(fmt::format_string<Values...> format, Values&&... values) {
    year_.notes.push_back(fmt::format(format, std::forward<Values>(values)...));
  }

  void note_filled(WeatherColumn column, int n_filled) {
    const int n_empty = n_filled - table_.n_missing_rows;
    if (n_empty <= 0) return;
    note("{}: {} empty hours are filled in", info_of(column).name, n_empty);
    report_.filled.push_back({std::string(info_of(column).name), n_empty});
  }

  /// `how` follows "no column;" in the notes.
  void estimated(WeatherColumn column, const std::string& how) {
    note("{}: no column; {}", info_of(column).name, how);
    report_.estimated.push_back({std::string(info_of(column).name), how});
  }

  std::vector<double> filled(WeatherColumn column) {
    std::vector<double> values(n_hours);
    std::vector<bool> is_known(n_hours);
    int n_filled = 0;
    const HourCells& cells = table_.cells(column);
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      values[hour] = cells[hour].value;
      is_known[hour] = cells[hour].is_known;
      n_filled += is_known[hour] ? 0 : 1;
    }
    note_filled(column, n_filled);
    return filled_on_ring(std::move(values), is_known);
  }

  void build_vapour() {
    std::vector<double> vapour_pa(n_hours);
    WeatherColumn column = WeatherColumn::count;
    for (const WeatherColumn each :
         {WeatherColumn::vapour_pressure, WeatherColumn::dew_point, WeatherColumn::relative_humidity}) {
      if (table_.has(each)) column = each;
    }
    if (column == WeatherColumn::count) {
      vapour_pa = vapour_from_dawn();
      estimated(WeatherColumn::vapour_pressure,
                "estimated: the dew point is the day's lowest temperature (FAO-56 Eq. 48)");
    } else {
      vapour_pa = filled(column);
      for (std::size_t hour = 0; hour < n_hours; ++hour) {
        vapour_pa[hour] = vapour_of_cell_pa(column, vapour_pa[hour], year_.air_temperature_c[hour]);
      }
    }
    int n_saturated = 0;
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      const double saturation_pa = physics::saturation_vapour_pressure_pa(year_.air_temperature_c[hour]);
      if (vapour_pa[hour] <= saturation_pa) continue;
      vapour_pa[hour] = saturation_pa;
      ++n_saturated;
    }
    if (n_saturated > 0) note("vapour_pressure_pa: {} hours were above saturation and are held at it", n_saturated);
    year_.vapour_pressure_pa = at_marks(std::move(vapour_pa));
  }

  std::vector<double> vapour_from_dawn() const {
    std::vector<double> vapour_pa(n_hours);
    for (std::size_t day = 0; day < n_days_in_year; ++day) {
      double lowest_c = year_.air_temperature_c[day * n_hours_in_day];
      for (std::size_t i = 1; i < n_hours_in_day; ++i) {
        const double here_c = year_.air_temperature_c[day * n_hours_in_day + i];
        if (here_c < lowest_c) lowest_c = here_c;
      }
      for (std::size_t i = 0; i < n_hours_in_day; ++i) {
        vapour_pa[day * n_hours_in_day + i] = physics::saturation_vapour_pressure_pa(lowest_c);
      }
    }
    return vapour_pa;
  }

  void build_wind() {
    if (table_.has(WeatherColumn::wind)) {
      year_.wind_m_per_s = at_marks(filled(WeatherColumn::wind));
      return;
    }
    year_.wind_m_per_s.assign(n_hours + 1, usual_wind_m_per_s());
    estimated(WeatherColumn::wind, fmt::format("{:.2f} m/s all year (2 m/s at 2 m, FAO-56)", usual_wind_m_per_s()));
  }

  void build_rain() {
    year_.rain_mm_per_10_min.resize(n_hours * n_rain_slots);
    if (table_.has(WeatherColumn::rain)) {
      const std::vector<double> rain_mm = filled(WeatherColumn::rain);
      for (std::size_t slot = 0; slot < year_.rain_mm_per_10_min.size(); ++slot) {
        year_.rain_mm_per_10_min[slot] = rain_mm[slot / n_rain_slots] / static_cast<double>(n_rain_slots);
      }
      note("rain_mm: spread evenly over each hour");
      return;
    }
    for (std::size_t part = 0; part < n_rain_slots; ++part) {
      const std::vector<double> rain_mm = filled(static_cast<WeatherColumn>(first_rain_slot + part));
      for (std::size_t hour = 0; hour < n_hours; ++hour)
        year_.rain_mm_per_10_min[hour * n_rain_slots + part] = rain_mm[hour];
    }
  }

  /// Missing global radiation keeps the clearness of the hours around it, so that it fits the sun; missing diffuse is
  /// estimated.
  void build_radiation() {
    if (table_.has(WeatherColumn::global)) {
      year_.global_w_per_m2 = filled_global();
    } else {
      year_.global_w_per_m2 = estimate_global_w_per_m2(year_);
      estimated(WeatherColumn::global,
                "estimated from each day's range of temperature (FAO-56 Eq. 50); a guess, days may be half or twice as "
                "bright");
    }
    Mended mended;
    mend_dark(year_.global_w_per_m2, mended);
    year_.diffuse_w_per_m2 = estimate_diffuse_w_per_m2(year_);
    if (table_.has(WeatherColumn::diffuse) && table_.has(WeatherColumn::global)) {
      take_diffuse(mended);
    } else {
      estimated(WeatherColumn::diffuse, "estimated from global radiation (Erbs, Klein and Duffie)");
    }
    if (mended.n_dark > 0)
      note("global_w_per_m2: {} hours below zero or with the sun down are set to zero", mended.n_dark);
    if (mended.n_diffuse > 0)
      note("diffuse_w_per_m2: {} hours below zero or above global are held there", mended.n_diffuse);
  }

  std::vector<double> filled_global() {
    const HourCells& cells = table_.cells(WeatherColumn::global);
    std::vector<double> values(n_hours);
    std::vector<double> clearness(n_hours);
    std::vector<bool> is_known(n_hours, false);
    bool is_any_known = false;
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      values[hour] = cells[hour].value;
      is_known[hour] = cells[hour].is_known && year_.sun_mean_sine[hour] >= least_shaping_sine;
      if (!is_known[hour]) continue;
      is_any_known = true;
      clearness[hour] = values[hour] / outside_air_w_per_m2(year_, hour);
    }
    if (is_any_known) clearness = filled_on_ring(std::move(clearness), is_known);
    int n_filled = 0;
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      if (cells[hour].is_known) continue;
      values[hour] = clearness[hour] * outside_air_w_per_m2(year_, hour);
      ++n_filled;
    }
    note_filled(WeatherColumn::global, n_filled);
    return values;
  }

  void mend_dark(std::vector<double>& global_w_per_m2, Mended& mended) const {
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      const bool is_wrong =
          global_w_per_m2[hour] < 0.0 || (year_.sun_mean_sine[hour] <= 0.0 && global_w_per_m2[hour] > 0.0);
      if (!is_wrong) continue;
      global_w_per_m2[hour] = 0.0;
      ++mended.n_dark;
    }
  }

  void take_diffuse(Mended& mended) {
    const HourCells& cells = table_.cells(WeatherColumn::diffuse);
    int n_filled = 0;
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      n_filled += cells[hour].is_known ? 0 : 1;
      if (!cells[hour].is_known) continue;  // keeps the estimate
      const double global = year_.global_w_per_m2[hour];
      double diffuse = cells[hour].value;
      if (diffuse < 0.0 || diffuse > global) {
        diffuse = diffuse < 0.0 ? 0.0 : global;
        ++mended.n_diffuse;
      }
      year_.diffuse_w_per_m2[hour] = diffuse;
    }
    note_filled(WeatherColumn::diffuse, n_filled);
  }

  const HourTable& table_;
  WeatherYear year_;
  FileReport& report_;
};

}  // namespace

WeatherYear build_year(const HourTable& table, WeatherYear sun, FileReport& report) {
  return Builder(table, std::move(sun), report).build();
}

}  // namespace houseleek::climate
