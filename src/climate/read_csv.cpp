// A weather file judged by physics and turned into a year.
#include "climate/read_csv.hpp"

#include <fmt/format.h>

#include <utility>

#include "base/issue_text.hpp"
#include "climate/calendar.hpp"
#include "climate/csv_table.hpp"
#include "climate/estimate.hpp"
#include "climate/ring.hpp"
#include "climate/sun_columns.hpp"
#include "climate/time_stamp.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr double most_offset_in_the_dark_w_per_m2 = 10.0;
constexpr double most_above_sun_w_per_m2 = 30.0;  // twilight and bent light in an hour that the sun only grazes
constexpr double most_above_sun_frac = 0.10;      // light from the edges of clouds
constexpr double most_diffuse_excess_w_per_m2 = 10.0;
constexpr double most_diffuse_excess_frac = 0.05;
constexpr double most_above_saturation_frac = 0.01;
constexpr std::size_t n_hours = n_hours_in_year;

/// What was mended, for the notes.
struct Mended {
  int n_dark = 0;
  int n_diffuse = 0;
  int n_saturated = 0;
};

double outside_air_w_per_m2(const WeatherYear& year, std::size_t hour) {
  return year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
}

double vapour_of_cell_pa(CsvColumn column, double value, double air_c) {
  if (column == CsvColumn::vapour_pressure) return value;
  if (column == CsvColumn::dew_point) return physics::saturation_vapour_pressure_pa(value);
  return 0.01 * value * physics::saturation_vapour_pressure_pa(air_c);
}

/// Finds values that cannot be together. Cells outside their own limits have their issue already.
class Judge {
 public:
  Judge(CsvTable& table, const WeatherYear& sun) : table_(table), sun_(sun) {}

  void judge() {
    const bool has_diffuse = table_.has(CsvColumn::diffuse);
    for (std::size_t hour = 0; hour < n_hours; ++hour) {
      judge_global(hour);
      if (has_diffuse) judge_diffuse(hour);
      for (const CsvColumn column : {CsvColumn::vapour_pressure, CsvColumn::dew_point}) {
        if (table_.has(column)) judge_vapour(column, hour);
      }
    }
  }

 private:
  [[nodiscard]] static bool is_judged(CsvColumn column, const CsvCell& cell) {
    const CsvColumnLimits& limits = csv_columns[index_of(column)];
    return cell.is_known && cell.value >= limits.least && cell.value <= limits.most;
  }

  void judge_global(std::size_t hour) {
    const CsvCell& cell = table_.cells(CsvColumn::global)[hour];
    if (!is_judged(CsvColumn::global, cell)) return;
    const double outside_w_per_m2 = outside_air_w_per_m2(sun_, hour);
    if (sun_.sun_mean_sine[hour] <= 0.0 && cell.value > most_offset_in_the_dark_w_per_m2) {
      report(CsvColumn::global, cell, fmt::format("global_w_per_m2 is {} while the sun is down", cell.value),
             "do the stamps mark the beginning of the hour, in standard time, and is the place right?");
    } else if (cell.value > (1.0 + most_above_sun_frac) * outside_w_per_m2 + most_above_sun_w_per_m2) {
      report(CsvColumn::global, cell,
             fmt::format("global_w_per_m2 is {}; the sun sends {:.0f} outside the air in this hour", cell.value,
                         outside_w_per_m2),
             "do the stamps mark the beginning of the hour, in standard time, and is the place right?");
    }
  }

  void judge_diffuse(std::size_t hour) {
    const CsvCell& diffuse = table_.cells(CsvColumn::diffuse)[hour];
    const CsvCell& global = table_.cells(CsvColumn::global)[hour];
    if (!is_judged(CsvColumn::diffuse, diffuse) || !is_judged(CsvColumn::global, global)) return;
    const double most =
        (1.0 + most_diffuse_excess_frac) * (global.value > 0.0 ? global.value : 0.0) + most_diffuse_excess_w_per_m2;
    if (diffuse.value <= most) return;
    report(CsvColumn::diffuse, diffuse,
           fmt::format("diffuse_w_per_m2 is {}, more than global_w_per_m2, {}", diffuse.value, global.value), "");
  }

  void judge_vapour(CsvColumn column, std::size_t hour) {
    const CsvCell& vapour = table_.cells(column)[hour];
    const CsvCell& air = table_.cells(CsvColumn::air_temperature)[hour];
    if (!is_judged(column, vapour) || !is_judged(CsvColumn::air_temperature, air)) return;
    const double saturation_pa = physics::saturation_vapour_pressure_pa(air.value);
    if (vapour_of_cell_pa(column, vapour.value, air.value) <= (1.0 + most_above_saturation_frac) * saturation_pa)
      return;
    report(column, vapour,
           fmt::format("{} is {}, more than air of {} degC can hold", csv_columns[index_of(column)].name, vapour.value,
                       air.value),
           "");
  }

  void report(CsvColumn column, const CsvCell& cell, std::string message, std::string hint) {
    table_.issues.push_back(
        issue_of_cell(table_, column, cell, IssueCode::inconsistent, std::move(message), std::move(hint)));
  }

  CsvTable& table_;
  const WeatherYear& sun_;
};

std::vector<double> at_marks(std::vector<double> values) {
  values.push_back(values.front());
  return values;
}

/// Builds the year from a table without issues.
class Builder {
 public:
  Builder(const CsvTable& table, WeatherYear sun) : table_(table), year_(std::move(sun)) {}

  WeatherYear build() {
    if (table_.n_leap_day_rows > 0) note("29 February is left out: {} rows", table_.n_leap_day_rows);
    if (table_.n_missing_rows > 0) note("{} hours without a row are filled in", table_.n_missing_rows);
    year_.air_temperature_c = at_marks(filled(CsvColumn::air_temperature));
    build_vapour();
    build_wind();
    build_rain();
    build_radiation();
    if (table_.has(CsvColumn::sky_longwave)) {
      year_.sky_longwave_w_per_m2 = at_marks(filled(CsvColumn::sky_longwave));
    } else {
      year_.sky_longwave_w_per_m2 = estimate_sky_longwave_w_per_m2(year_);
      note(
          "sky_longwave_w_per_m2: no column; estimated from temperature, vapour and cloud by day (Brutsaert; Crawford "
          "and Duchon)");
    }
    note("the last mark of the year is its first");
    return std::move(year_);
  }

 private:
  template <class... Values>
  void note(fmt::format_string<Values...> format, Values&&... values) {
    year_.notes.push_back(fmt::format(format, std::forward<Values>(values)...));
  }

  void note_filled(CsvColumn column, int n_filled) {
    const int n_empty = n_filled - table_.n_missing_rows;
    if (n_empty > 0) note("{}: {} empty hours are filled in", csv_columns[index_of(column)].name, n_empty);
  }

  std::vector<double> filled(CsvColumn column) {
    std::vector<double> values(n_hours);
    std::vector<bool> is_known(n_hours);
    int n_filled = 0;
    const CsvCells& cells = table_.cells(column);
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
    CsvColumn column = CsvColumn::count;
    for (const CsvColumn each : {CsvColumn::vapour_pressure, CsvColumn::dew_point, CsvColumn::relative_humidity}) {
      if (table_.has(each)) column = each;
    }
    if (column == CsvColumn::count) {
      vapour_pa = vapour_from_dawn();
      note(
          "vapour_pressure_pa: no column of humidity; estimated: the dew point is the day's lowest temperature (FAO-56 "
          "Eq. 48)");
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
    if (table_.has(CsvColumn::wind)) {
      year_.wind_m_per_s = at_marks(filled(CsvColumn::wind));
      return;
    }
    year_.wind_m_per_s.assign(n_hours + 1, usual_wind_m_per_s());
    note("wind_m_per_s: no column; {:.2f} m/s all year (2 m/s at 2 m, FAO-56)", usual_wind_m_per_s());
  }

  void build_rain() {
    year_.rain_mm_per_10_min.resize(n_hours * n_rain_slots);
    if (table_.has(CsvColumn::rain)) {
      const std::vector<double> rain_mm = filled(CsvColumn::rain);
      for (std::size_t slot = 0; slot < year_.rain_mm_per_10_min.size(); ++slot) {
        year_.rain_mm_per_10_min[slot] = rain_mm[slot / n_rain_slots] / static_cast<double>(n_rain_slots);
      }
      note("rain_mm: spread evenly over each hour");
      return;
    }
    for (std::size_t part = 0; part < n_rain_slots; ++part) {
      const std::vector<double> rain_mm = filled(static_cast<CsvColumn>(first_rain_slot + part));
      for (std::size_t hour = 0; hour < n_hours; ++hour)
        year_.rain_mm_per_10_min[hour * n_rain_slots + part] = rain_mm[hour];
    }
  }

  /// Missing global radiation keeps the clearness of the hours around it, so that it fits the sun; missing diffuse is
  /// estimated.
  void build_radiation() {
    year_.global_w_per_m2 = filled_global();
    Mended mended;
    mend_dark(year_.global_w_per_m2, mended);
    year_.diffuse_w_per_m2 = estimate_diffuse_w_per_m2(year_);
    if (table_.has(CsvColumn::diffuse)) {
      take_diffuse(mended);
    } else {
      note("diffuse_w_per_m2: no column; estimated from global radiation (Erbs, Klein and Duffie)");
    }
    if (mended.n_dark > 0)
      note("global_w_per_m2: {} hours below zero or with the sun down are set to zero", mended.n_dark);
    if (mended.n_diffuse > 0)
      note("diffuse_w_per_m2: {} hours below zero or above global are held there", mended.n_diffuse);
  }

  std::vector<double> filled_global() {
    const CsvCells& cells = table_.cells(CsvColumn::global);
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
    note_filled(CsvColumn::global, n_filled);
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
    const CsvCells& cells = table_.cells(CsvColumn::diffuse);
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
    note_filled(CsvColumn::diffuse, n_filled);
  }

  const CsvTable& table_;
  WeatherYear year_;
};

}  // namespace

Result<WeatherYear> read_year_csv(std::string_view text, std::string_view file_name, const Place& place) {
  constexpr int any_year = 2000;
  Issues place_issues = issues_of_place(place, any_year, "place");
  if (!place_issues.empty()) return Unexpected{std::move(place_issues)};
  Result<CsvTable> read = read_csv_table(text, file_name, place);
  if (!read) return Unexpected{sorted_by_place(read.error())};
  CsvTable table = std::move(read).value();
  place_issues = issues_of_place(place, table.year, "time");
  if (!place_issues.empty()) {
    place_issues.front().file = file_name;
    return Unexpected{std::move(place_issues)};
  }
  WeatherYear sun = make_year_with_sun(place, table.year);
  add_issues_of_gaps(table);
  Judge(table, sun).judge();
  if (!table.issues.empty()) return Unexpected{sorted_by_place(std::move(table.issues))};
  return Builder(table, std::move(sun)).build();
}

std::string write_year_csv(const WeatherYear& year) {
  expects(year.n_hours() == n_hours_in_year, "a weather year of 8760 hours");
  std::string text = std::string(csv_time_name);
  for (const CsvColumn column : {CsvColumn::air_temperature, CsvColumn::vapour_pressure, CsvColumn::wind,
                                 CsvColumn::sky_longwave, CsvColumn::global, CsvColumn::diffuse}) {
    text += fmt::format(",{}", csv_columns[index_of(column)].name);
  }
  for (std::size_t part = 0; part < n_rain_slots; ++part)
    text += fmt::format(",{}", csv_columns[first_rain_slot + part].name);
  text += '\n';
  for (int i = 0; i < n_hours_in_year; ++i) {
    const std::size_t hour = static_cast<std::size_t>(i);
    text += fmt::format("{},{},{},{},{},{},{}", text_from_hour_of_year(year.year, i), year.air_temperature_c[hour],
                        year.vapour_pressure_pa[hour], year.wind_m_per_s[hour], year.sky_longwave_w_per_m2[hour],
                        year.global_w_per_m2[hour], year.diffuse_w_per_m2[hour]);
    for (std::size_t part = 0; part < n_rain_slots; ++part) {
      text += fmt::format(",{}", year.rain_mm_per_10_min[hour * n_rain_slots + part]);
    }
    text += '\n';
  }
  return text;
}

}  // namespace houseleek::climate
