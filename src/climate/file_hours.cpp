// Rows of a weather file put into the hours of a year.
#include <fmt/format.h>

#include <algorithm>

#include "climate/calendar.hpp"
#include "climate/hour_table.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

constexpr int minutes_per_hour = 60;
constexpr int minutes_per_slot = 10;
constexpr int minutes_in_year = n_hours_in_year * minutes_per_hour;
constexpr double least_share = 0.5;  // of an hour's rows, for the hour to have a value

/// Weighted values of one hour or slot.
struct Pot {
  double sum = 0.0;
  double weight = 0.0;
  int line = 0;
  int column = 0;
  void add(double value, double with, int at_line, int at_column) {
    sum += with * value;
    weight += with;
    note(at_line, at_column);
  }
  void note(int at_line, int at_column) {
    if (line != 0) return;
    line = at_line;
    column = at_column;
  }
};

class HourFiller {
 public:
  HourFiller(const FileBody& body, const RowTimes& times, HourTable& table)
      : body_(body), times_(times), table_(table), is_filled_(n_hours_in_year, false) {
    for (const NumberColumn& column : body.columns) pots_.emplace_back(n_pots_of(*column.use.quantity));
    line_of_minute_.assign(static_cast<std::size_t>(minutes_in_year / body.step_min), 0);
  }

  /// Takes rows of a calendar year; of another year than the table's only for hours that have none yet.
  void take(int calendar_year) {
    const bool is_own = calendar_year == table_.year;
    const std::vector<bool> was_filled = is_filled_;
    std::int64_t last_min = -1;
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (!times_.is_known[row]) continue;
      int minute_of_day = 0;
      const CivilDate date = date_from_minute(times_.begin_min[row], minute_of_day);
      if (date.year != calendar_year) continue;
      if (is_leap_day(date)) {
        table_.n_leap_day_rows += is_own ? 1 : 0;
        if (is_own) judge_limits(row);
        continue;
      }
      const int minute = day_of_year(date) * n_hours_in_day * minutes_per_hour + minute_of_day;
      const std::size_t hour = static_cast<std::size_t>(minute / minutes_per_hour);
      if (!is_own && was_filled[hour]) continue;
      const bool is_backward = times_.begin_min[row] < last_min;
      last_min = times_.begin_min[row];
      judge_limits(row);
      if (!take_place(minute, row, is_backward)) continue;
      if (!is_own && !is_filled_[hour]) ++table_.n_borrowed_hours;
      is_filled_[hour] = true;
      add(row, minute);
    }
  }

  void pour() {
    table_.n_missing_rows = static_cast<int>(std::count(is_filled_.begin(), is_filled_.end(), false));
    for (std::size_t i = 0; i < body_.columns.size(); ++i) {
      const WeatherColumn quantity = *body_.columns[i].use.quantity;
      if (has_slots(quantity)) {
        pour_slots(pots_[i]);
      } else {
        pour_hours(quantity, pots_[i]);
      }
    }
    table_.n_part_hours = static_cast<int>(std::count(is_part_.begin(), is_part_.end(), true));
  }

 private:
  [[nodiscard]] bool is_hourly() const { return body_.step_min == minutes_per_hour; }

  /// Rain of rows that are no whole hours goes into slots of ten minutes.
  [[nodiscard]] bool has_slots(WeatherColumn quantity) const {
    return quantity == WeatherColumn::rain && !(is_hourly() && is_on_full_hours());
  }

  [[nodiscard]] bool is_on_full_hours() const {
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (times_.is_known[row]) return times_.begin_min[row] % minutes_per_hour == 0;
    }
    return true;
  }

  [[nodiscard]] std::size_t n_pots_of(WeatherColumn quantity) const {
    return has_slots(quantity) ? std::size_t{n_hours_in_year} * n_rain_slots : std::size_t{n_hours_in_year};
  }

  void add(std::size_t row, int minute) {
    for (std::size_t i = 0; i < body_.columns.size(); ++i) {
      const NumberColumn& column = body_.columns[i];
      const WeatherColumn quantity = *column.use.quantity;
      const FileNumber& number = column.numbers[row];
      if (has_slots(quantity)) {
        add_interval(pots_[i], minute, minutes_per_slot, number, row, column.use, true);
      } else if (info_of(quantity).kind == ColumnKind::at_stamp) {
        add_at_stamp(pots_[i], minute, number, row, column.use);
      } else {
        add_interval(pots_[i], minute, minutes_per_hour, number, row, column.use, false);
      }
    }
  }

  /// What the row's interval has of each hour (or slot) it touches.
  void add_interval(std::vector<Pot>& pots, int minute, int pot_min, const FileNumber& number, std::size_t row,
                    const ColumnUse& use, bool is_rate) const {
    const int end = minute + body_.step_min;
    for (int at = minute; at < end;) {
      const int next = std::min(end, (at / pot_min + 1) * pot_min);
      Pot& pot = pots[static_cast<std::size_t>(at / pot_min) % pots.size()];
      pot.note(body_.line[row], number.column);
      if (number.is_known) {
        const double share = static_cast<double>(next - at) / static_cast<double>(pot_min);
        // Rain comes as the row's sum: a slot's is its share of the row times a slot's length.
        const double value = in_our_unit(number, use);
        const double as_pot =
            is_rate ? value * static_cast<double>(pot_min) / static_cast<double>(body_.step_min) : value;
        pot.add(as_pot, share, body_.line[row], number.column);
      }
      at = next;
    }
  }

  void add_at_stamp(std::vector<Pot>& pots, int minute, const FileNumber& number, std::size_t row,
                    const ColumnUse& use) const {
    const int stamp = minute + (times_.stamps == StampMarks::end ? body_.step_min : 0);
    const int reach = is_hourly() ? minutes_per_hour - 1 : minutes_per_hour / 2;
    for (int hour = (stamp - reach + minutes_per_hour - 1) / minutes_per_hour; hour * minutes_per_hour <= stamp + reach;
         ++hour) {
      const int away = std::abs(stamp - hour * minutes_per_hour);
      double weight = 1.0;
      if (is_hourly()) weight = 1.0 - static_cast<double>(away) / minutes_per_hour;
      if (!is_hourly() && away == minutes_per_hour / 2) weight = 0.5;
      Pot& pot = pots[static_cast<std::size_t>((hour + n_hours_in_year) % n_hours_in_year)];
      pot.note(body_.line[row], number.column);
      if (number.is_known) pot.add(in_our_unit(number, use), weight, body_.line[row], number.column);
    }
  }

  [[nodiscard]] double in_our_unit(const FileNumber& number, const ColumnUse& use) const {
    return value_in_our_unit(number.value, *use.unit, body_.step_min);
  }

  /// False, with an issue, for a row that another stands for already or that lies between two steps.
  bool take_place(int minute, std::size_t row, bool is_backward) {
    const std::int64_t phase_min = times_.begin_min[first_known()] - times_.begin_min[row];
    if (phase_min % body_.step_min != 0) {
      report(row, fmt::format("time {} lies between the steps of {} minutes", stamp_of(row), body_.step_min), "");
      return false;
    }
    constexpr std::string_view hint_of_clock =
        "clocks put back in autumn? write clock = \"daylight_saving\" under [climate.layout]";
    const std::string_view hint = times_.clock == FileClock::daylight_saving
                                      ? "does the zone of [site] put its clocks back here?"
                                      : hint_of_clock;
    int& line = line_of_minute_[static_cast<std::size_t>(minute / body_.step_min)];
    if (line != 0) {
      report(row, fmt::format("time {} is here a second time; the first is in line {}", stamp_of(row), line), hint);
      return false;
    }
    if (is_backward) report(row, fmt::format("time {} goes back", stamp_of(row)), hint);
    line = body_.line[row];
    return true;
  }

  [[nodiscard]] std::size_t first_known() const {
    std::size_t row = 0;
    while (!times_.is_known[row]) ++row;
    return row;
  }

  [[nodiscard]] std::string stamp_of(std::size_t row) const { return text_from_minute(body_.minute[row]); }

  void report(std::size_t row, std::string message, std::string_view hint) {
    Issue issue;
    issue.code = IssueCode::inconsistent;
    issue.path = time_column_name;
    issue.file = table_.file_name;
    issue.line = body_.line[row];
    issue.column = body_.column_of_time[row];
    issue.value = stamp_of(row);
    issue.message = std::move(message);
    issue.hint = hint;
    table_.issues.push_back(std::move(issue));
  }

  void judge_limits(std::size_t row) {
    table_.issues.insert(table_.issues.end(), body_.faults[row].begin(), body_.faults[row].end());
    for (const NumberColumn& column : body_.columns) {
      const FileNumber& number = column.numbers[row];
      if (!number.is_known) continue;
      const WeatherColumnInfo& info = info_of(*column.use.quantity);
      const double value = in_our_unit(number, column.use);
      if (value >= info.least && value <= info.most) continue;
      const Unit ours = units_of(*column.use.quantity).front();
      const std::string in_ours =
          *column.use.unit == ours
              ? ""
              : fmt::format(" {}, that is {:.6g} {}", text_from_unit(*column.use.unit), value, text_from_unit(ours));
      Issue issue;
      issue.code = IssueCode::out_of_range;
      issue.path = info.name;
      issue.file = table_.file_name;
      issue.line = body_.line[row];
      issue.column = number.column;
      issue.value = fmt::format("{}", number.value);
      issue.limit = fmt::format("{} to {}", info.least, info.most);
      issue.message = fmt::format("{} is {}{}; it must be from {} to {}", name_of(column.use), number.value, in_ours,
                                  info.least, info.most);
      issue.hint = "a missing value is an empty field";
      table_.issues.push_back(std::move(issue));
    }
  }

  HourCell cell_of(const Pot& pot, double full_weight, std::size_t hour) {
    constexpr double rounding = 1e-9;
    HourCell cell = {.line = pot.line, .column = pot.column};
    const double share = pot.weight / full_weight;
    // Rows an hour apart that stand off the full hour lie between two: both must be there.
    const double least = is_hourly() ? 1.0 : least_share;
    if (share < least - rounding) return cell;
    cell.value = pot.sum / pot.weight;
    cell.is_known = true;
    if (share < 1.0 - rounding) is_part_[hour] = true;
    return cell;
  }

  void pour_hours(WeatherColumn quantity, const std::vector<Pot>& pots) {
    const bool is_stamp = info_of(quantity).kind == ColumnKind::at_stamp;
    const double full =
        is_stamp && !is_hourly() ? static_cast<double>(minutes_per_hour) / static_cast<double>(body_.step_min) : 1.0;
    HourCells& cells = table_.columns[index_of(quantity)];
    cells.resize(n_hours_in_year);
    for (std::size_t hour = 0; hour < cells.size(); ++hour) cells[hour] = cell_of(pots[hour], full, hour);
  }

  /// Slots that rain says nothing of get the mean of those of their hour that it does.
  void pour_slots(const std::vector<Pot>& pots) {
    for (std::size_t part = 0; part < n_rain_slots; ++part)
      table_.columns[first_rain_slot + part].resize(n_hours_in_year);
    for (std::size_t hour = 0; hour < n_hours_in_year; ++hour) {
      Pot all;
      for (std::size_t part = 0; part < n_rain_slots; ++part) {
        const Pot& pot = pots[hour * n_rain_slots + part];
        if (pot.line != 0) all.note(pot.line, pot.column);
        all.sum += pot.sum;
        all.weight += pot.weight / static_cast<double>(n_rain_slots);
      }
      const HourCell whole = cell_of(all, 1.0, hour);
      for (std::size_t part = 0; part < n_rain_slots; ++part) {
        const Pot& pot = pots[hour * n_rain_slots + part];
        HourCell cell = whole;
        const double mean = whole.is_known ? all.sum / all.weight / static_cast<double>(n_rain_slots) : 0.0;
        cell.value = pot.weight > 0.0 ? pot.sum + (1.0 - pot.weight) * mean : mean;
        table_.columns[first_rain_slot + part][hour] = cell;
      }
    }
  }

  const FileBody& body_;
  const RowTimes& times_;
  HourTable& table_;
  std::vector<std::vector<Pot>> pots_;
  std::vector<bool> is_filled_;
  std::vector<bool> is_part_ = std::vector<bool>(n_hours_in_year, false);
  std::vector<int> line_of_minute_;
};

}  // namespace

HourTable hours_of_year(const FileBody& body, const RowTimes& times, std::string_view file_name, int year,
                        bool has_neighbours) {
  HourTable table;
  table.year = year;
  table.file_name = file_name;
  HourFiller filler(body, times, table);
  filler.take(year);
  if (has_neighbours) {
    filler.take(year - 1);
    filler.take(year + 1);
  }
  filler.pour();
  return table;
}

}  // namespace houseleek::climate
