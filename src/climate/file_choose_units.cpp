// Units of columns whose header does not say them: told by what the values can be.
#include "climate/file_choose_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "climate/sun_columns.hpp"
#include "climate/time_stamp.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr double bright_sine = 0.17;  // 10 degrees
constexpr double top_share = 0.99;    // so that single faults decide nothing

struct Extremes {
  double least = 0.0;
  double most = 0.0;
  bool has_any = false;
};

Extremes extremes_of(const NumberColumn& column) {
  Extremes extremes;
  for (const FileNumber& number : column.numbers) {
    if (!number.is_known) continue;
    extremes.least = extremes.has_any ? std::min(extremes.least, number.value) : number.value;
    extremes.most = extremes.has_any ? std::max(extremes.most, number.value) : number.value;
    extremes.has_any = true;
  }
  return extremes;
}

/// The value that 99 of 100 do not pass; nothing of fewer than 100.
std::optional<double> near_top_of(std::vector<double> values) {
  constexpr std::size_t fewest = 100;
  if (values.size() < fewest) return std::nullopt;
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(top_share * static_cast<double>(values.size()));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

void set_unit(NumberColumn& column, Unit unit, std::string evidence) {
  column.use.unit = unit;
  column.use.unit_evidence = "not in the header; " + std::move(evidence);
}

class UnitChooser {
 public:
  UnitChooser(FileBody& body, const RowTimes& times, const Place& place, std::string_view file_name)
      : body_(body), times_(times), place_(place), file_name_(file_name) {}

  Issues choose() {
    // Temperature first: humidity is judged by it.
    for (NumberColumn& column : body_.columns) {
      if (*column.use.quantity == WeatherColumn::air_temperature && !column.use.unit) choose_temperature(column);
    }
    for (NumberColumn& column : body_.columns) {
      if (column.use.unit || *column.use.quantity == WeatherColumn::air_temperature) continue;
      switch (*column.use.quantity) {
        case WeatherColumn::dew_point:
          choose_dew_point(column);
          break;
        case WeatherColumn::relative_humidity:
          choose_humidity(column);
          break;
        case WeatherColumn::vapour_pressure:
          choose_vapour(column);
          break;
        case WeatherColumn::global:
        case WeatherColumn::diffuse:
          choose_radiation(column);
          break;
        case WeatherColumn::sky_longwave:
          choose_sky(column);
          break;
        default:
          report_open(column, "neither header nor values say it");
      }
    }
    return std::move(issues_);
  }

 private:
  void choose_temperature(NumberColumn& column) {
    constexpr double hottest_c = 56.0;
    constexpr double coldest_k = 170.0;
    constexpr double coolest_summer_c = 10.0;
    constexpr double furthest_deg = 60.0;
    constexpr double highest_m = 3000.0;
    const Extremes extremes = extremes_of(column);
    if (!extremes.has_any) return;  // a column without values has its own issue
    const double read_as_f_c = value_in_our_unit(extremes.most, Unit::deg_f, 60.0);
    if (extremes.least > coldest_k) {
      set_unit(column, Unit::kelvin, fmt::format("lowest {}", extremes.least));
    } else if (extremes.most > hottest_c) {
      set_unit(column, Unit::deg_f, fmt::format("highest {}: no air has that many degC", extremes.most));
    } else if (read_as_f_c < coolest_summer_c && std::abs(place_.latitude_deg) <= furthest_deg &&
               place_.elevation_m <= highest_m) {
      set_unit(column, Unit::deg_c,
               fmt::format("highest {}: as degF that is {:.1f} degC, too cold for a summer here", extremes.most,
                           read_as_f_c));
    } else {
      report_open(column, fmt::format("degC or degF ({} to {})", extremes.least, extremes.most));
    }
  }

  /// Dew points are never above the air; read in another unit they are.
  void choose_dew_point(NumberColumn& column) {
    const NumberColumn* air = body_.find(WeatherColumn::air_temperature);
    if (air == nullptr || !air->use.unit) return;
    constexpr double most_above_k = 1.0;
    std::vector<Unit> left;
    for (const Unit unit : units_of(WeatherColumn::dew_point)) {
      const WeatherColumnInfo& info = info_of(WeatherColumn::dew_point);
      int n_wrong = 0;
      int n_known = 0;
      for (std::size_t row = 0; row < body_.n_rows(); ++row) {
        if (!column.numbers[row].is_known || !air->numbers[row].is_known) continue;
        const double dew_c = value_in_our_unit(column.numbers[row].value, unit, 60.0);
        const double air_c = value_in_our_unit(air->numbers[row].value, *air->use.unit, 60.0);
        ++n_known;
        n_wrong += dew_c > air_c + most_above_k || dew_c < info.least ? 1 : 0;
      }
      if (n_known > 0 && n_wrong * 100 <= n_known) left.push_back(unit);
    }
    if (left.size() == 1) {
      set_unit(column, left.front(), "read otherwise it is above the air's temperature, or colder than any air");
    } else {
      report_open(column, "degC or degF");
    }
  }

  void choose_humidity(NumberColumn& column) {
    const Extremes extremes = extremes_of(column);
    if (!extremes.has_any) return;
    set_unit(column, extremes.most > 1.0 ? Unit::percent : Unit::fraction, fmt::format("highest {}", extremes.most));
  }

  void choose_vapour(NumberColumn& column) {
    const NumberColumn* air = body_.find(WeatherColumn::air_temperature);
    if (air == nullptr || !air->use.unit) return;
    std::vector<double> saturation;
    const WeatherColumnInfo& limits = info_of(WeatherColumn::air_temperature);
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (!column.numbers[row].is_known || !air->numbers[row].is_known) continue;
      const double air_c = value_in_our_unit(air->numbers[row].value, *air->use.unit, 60.0);
      if (air_c < limits.least || air_c > limits.most) continue;
      saturation.push_back(column.numbers[row].value / physics::saturation_vapour_pressure_pa(air_c));
    }
    constexpr double least_frac = 0.40;
    constexpr double most_frac = 1.02;
    choose_by_top(column, std::move(saturation), least_frac, most_frac, "of saturation");
  }

  void choose_radiation(NumberColumn& column) {
    int minute_of_day = 0;
    std::size_t first = 0;
    while (first < body_.n_rows() && !times_.is_known[first]) ++first;
    const int year = date_from_minute(times_.begin_min[first], minute_of_day).year;
    if (!issues_of_place(place_, year, "time").empty()) return;  // said elsewhere
    const WeatherYear sun = make_year_with_sun(place_, year);
    std::vector<double> clearness;
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (!times_.is_known[row] || !column.numbers[row].is_known) continue;
      const double sine = sun_sine_at(sun, times_.begin_min[row] + body_.step_min / 2);
      if (sine >= bright_sine) clearness.push_back(column.numbers[row].value / (sine * sun.sun_normal_w_per_m2[0]));
    }
    // Of diffuse radiation the brightest hours reach half of what comes from outside the air.
    const bool is_diffuse = *column.use.quantity == WeatherColumn::diffuse;
    const double least_frac = is_diffuse ? 0.25 : 0.55;
    const double most_frac = is_diffuse ? 0.68 : 1.25;
    choose_by_top(column, std::move(clearness), least_frac, most_frac, "of the sun outside the air");
  }

  void choose_sky(NumberColumn& column) {
    double sum = 0.0;
    int n_known = 0;
    for (const FileNumber& number : column.numbers) {
      if (!number.is_known) continue;
      sum += number.value;
      ++n_known;
    }
    if (n_known == 0) return;
    constexpr double least_w_per_m2 = 100.0;
    constexpr double most_w_per_m2 = 500.0;
    choose_within(column, sum / n_known, least_w_per_m2, most_w_per_m2, "W/m2 on the mean");
  }

  void choose_by_top(NumberColumn& column, std::vector<double> values, double least, double most,
                     std::string_view words) {
    const std::optional<double> top = near_top_of(std::move(values));
    if (top) {
      choose_within(column, *top, least, most, words);
    } else {
      report_open(column, "too few hours to tell");
    }
  }

  /// The only unit under which a figure lies between two bounds. Wh/m2 in an hour are W/m2: one of them is enough.
  void choose_within(NumberColumn& column, double figure, double least, double most, std::string_view words) {
    std::vector<std::pair<Unit, double>> left;
    for (const Unit unit : units_of(*column.use.quantity)) {
      if (unit == Unit::wh_per_m2 && body_.step_min == 60) continue;
      const double read = value_in_our_unit(figure, unit, body_.step_min);
      if (read >= least && read <= most) left.emplace_back(unit, read);
    }
    if (left.size() == 1) {
      set_unit(column, left.front().first,
               fmt::format("brightest or dampest hours then have {:.2f} {}", left.front().second, words));
    } else if (left.empty()) {
      report_open(column, "no unit fits");
    } else {
      report_open(column, fmt::format("{} or {}", text_from_unit(left[0].first), text_from_unit(left[1].first)));
    }
  }

  void report_open(const NumberColumn& column, std::string what) {
    const WeatherColumn quantity = *column.use.quantity;
    std::size_t row = 0;
    while (row + 1 < body_.n_rows() && !column.numbers[row].is_known) ++row;
    Issue issue;
    issue.code = IssueCode::missing_field;
    issue.path = fmt::format("climate.columns.{}.unit", info_of(quantity).word);
    issue.file = file_name_;
    issue.line = body_.line[row];
    issue.column = column.numbers[row].column;
    issue.limit = unit_words_of(quantity);
    issue.message = fmt::format("the unit of {} cannot be told: {}", name_of(column.use), what);
    const std::string which = column.use.header.empty() ? fmt::format("number = {}", column.use.at + 1)
                                                        : fmt::format("name = \"{}\"", column.use.header);
    issue.hint = fmt::format("write {} = {{{}, unit = \"{}\"}} under [climate.columns] ({})", info_of(quantity).word,
                             which, text_from_unit(units_of(quantity).front()), unit_words_of(quantity));
    issues_.push_back(std::move(issue));
  }

  FileBody& body_;
  const RowTimes& times_;
  const Place& place_;
  std::string_view file_name_;
  Issues issues_;
};

}  // namespace

Issues choose_units(FileBody& body, const RowTimes& times, const Place& place, std::string_view file_name) {
  return UnitChooser(body, times, place, file_name).choose();
}

}  // namespace houseleek::climate
