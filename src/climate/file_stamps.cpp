// Stamps of a weather file's rows: form, order of day and month, step, and the two parts of read_body put together.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "base/delimited.hpp"
#include "climate/file_body.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

constexpr std::array orders = {DateOrder::year_first, DateOrder::day_first, DateOrder::month_first};

std::string_view word_of(DateOrder order) {
  switch (order) {
    case DateOrder::year_first:
      return "year_first";
    case DateOrder::day_first:
      return "day_first";
    case DateOrder::month_first:
      break;
  }
  return "month_first";
}

/// Years of two digits lie from 1970 to 2069.
int full_year(int year, bool is_short) {
  constexpr int first_of_last_century = 70;
  if (!is_short) return year;
  return year >= first_of_last_century ? 1900 + year : 2000 + year;
}

CivilDate date_in_order(const StampText& stamp, DateOrder order) {
  const auto& [a, b, c] = stamp.date;
  if (stamp.is_year_first) return {a, b, c};
  if (order == DateOrder::year_first) return {full_year(a, stamp.is_year_short), b, c};
  const int year = full_year(c, stamp.is_year_short);
  return order == DateOrder::day_first ? CivilDate{year, b, a} : CivilDate{year, a, b};
}

void take_clock(const StampText& from, StampText& to) {
  to.has_clock = true;
  to.hour = from.hour;
  to.minute = from.minute;
  to.second = from.second;
  if (from.utc_offset_min) to.utc_offset_min = from.utc_offset_min;
}

class StampReader {
 public:
  StampReader(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
              FileReport& report, FileBody& body)
      : rows_(rows), columns_(columns), file_name_(file_name), rules_(rules), report_(report), body_(body) {}

  void read() {
    for (std::size_t row = columns_.first_row; row < rows_.rows.size(); ++row) add(rows_.rows[row]);
    judge_order();
    for (std::size_t i = 0; i < stamps_.size(); ++i) place(i);
    judge_offsets();
    if (n_at_24_ > 0 && n_at_0_ == 0) body_.counts_hours_from_one = true;
  }

 private:
  /// What the fields of a row's time say together.
  struct RowStamp {
    StampText stamp;
    const DelimitedField* field = nullptr;  // where an issue points
    bool is_known = false;
  };

  void add(const DelimitedRow& row) {
    RowStamp all;
    all.field = &row.front();
    bool is_good = true;
    bool is_first = true;
    for (const ColumnUse& use : columns_.uses) {
      if (!use.time_part || use.at >= row.size()) continue;
      if (is_first) all.field = &row[use.at];
      is_first = false;
      is_good = is_good && add_part(row[use.at], *use.time_part, all);
    }
    all.is_known = is_good && !is_first && (all.stamp.has_date || all.stamp.epoch_s);
    stamps_.push_back(all);
    body_.column_of_time.push_back(all.field->column);
  }

  [[nodiscard]] static bool add_part(const DelimitedField& field, TimePart part, RowStamp& all) {
    const std::string_view text = trimmed(field.text);
    const std::optional<StampText> stamp = stamp_text_from(text);
    if (part == TimePart::stamp || (part == TimePart::hour && stamp && stamp->has_clock)) {
      if (!stamp) return false;
      if (stamp->has_date || stamp->epoch_s) {
        const StampText clock = all.stamp;
        all.stamp = *stamp;
        if (clock.has_clock && !stamp->has_clock) take_clock(clock, all.stamp);
      } else {
        take_clock(*stamp, all.stamp);
      }
      return true;
    }
    const std::optional<double> number = number_from_text(text);
    constexpr double largest = 9999.0;
    if (!number || *number < 0.0 || *number > largest) return false;
    const int whole = static_cast<int>(*number);
    if (static_cast<double>(whole) != *number) return false;
    switch (part) {
      case TimePart::year:
        all.stamp.date[0] = whole;
        all.stamp.has_date = true;
        all.stamp.is_year_first = true;
        break;
      case TimePart::month:
        all.stamp.date[1] = whole;
        break;
      case TimePart::day:
        all.stamp.date[2] = whole;
        break;
      case TimePart::hour:
        all.stamp.hour = whole;
        all.stamp.has_clock = true;
        return whole <= 24;
      case TimePart::minute:
        all.stamp.minute = whole;
        return whole <= 59;
      case TimePart::stamp:
        break;
    }
    return true;
  }

  [[nodiscard]] bool needs_order(const RowStamp& row) const {
    return row.is_known && row.stamp.has_date && !row.stamp.is_year_first;
  }

  /// Of the orders of day, month and year the one under which every date is on the calendar and none goes back.
  void judge_order() {
    const auto n_needing =
        std::count_if(stamps_.begin(), stamps_.end(), [this](const RowStamp& row) { return needs_order(row); });
    const auto n_known =
        std::count_if(stamps_.begin(), stamps_.end(), [](const RowStamp& row) { return row.is_known; });
    is_year_first_usual_ = 2 * n_needing <= n_known;
    if (n_known == 0) return;
    if (rules_.date_order) {
      order_ = *rules_.date_order;
      report_.findings.push_back({"date order", std::string(word_of(order_)), "fixed under [climate.layout]"});
      return;
    }
    if (is_year_first_usual_) {
      report_.findings.push_back({"date order", "year_first", "four digits come first, or seconds are counted"});
      return;
    }
    struct Trial {
      DateOrder order;
      int n_faults = 0;
    };
    std::vector<Trial> trials;
    for (const DateOrder order : orders) trials.push_back({order, count_faults(order)});
    std::stable_sort(trials.begin(), trials.end(),
                     [](const Trial& a, const Trial& b) { return a.n_faults < b.n_faults; });
    order_ = trials[0].order;
    if (trials[0].n_faults == trials[1].n_faults) {
      Issue issue = issue_at(*stamps_.front().field, IssueCode::inconsistent, "climate.layout.date_order");
      issue.message = fmt::format("the dates may be read {} or {}: {}", word_of(trials[0].order),
                                  word_of(trials[1].order), quoted(stamps_.front().field->text));
      issue.hint = fmt::format("write date_order = \"{}\" under [climate.layout]", word_of(trials[0].order));
      body_.issues.push_back(std::move(issue));
      return;
    }
    report_.findings.push_back({"date order", std::string(word_of(order_)),
                                fmt::format("{} dates are not on the calendar or jump; read {} there were {}",
                                            trials[0].n_faults, word_of(trials[1].order), trials[1].n_faults)});
  }

  [[nodiscard]] int count_faults(DateOrder order) const {
    constexpr std::int64_t longest_jump_min = 2 * 1440;
    int n_faults = 0;
    std::int64_t last_minute = 0;
    for (const RowStamp& row : stamps_) {
      if (!needs_order(row)) continue;
      const bool has_year_last = !row.stamp.is_year_short;
      const CivilDate date = date_in_order(row.stamp, order);
      if ((order == DateOrder::year_first && has_year_last) || !is_on_calendar(date)) {
        ++n_faults;
        continue;
      }
      const std::int64_t minute = minute_from_date(date);
      const std::int64_t jump_min = minute > last_minute ? minute - last_minute : last_minute - minute;
      if (last_minute != 0 && jump_min > longest_jump_min) ++n_faults;
      last_minute = minute;
    }
    return n_faults;
  }

  void place(std::size_t i) {
    const RowStamp& row = stamps_[i];
    body_.minute.push_back(0);
    body_.has_minute.push_back(false);
    const bool has_other_form = row.is_known && needs_order(row) == is_year_first_usual_ && !row.stamp.epoch_s;
    if (!row.is_known || has_other_form) {
      report_unread(row);
      return;
    }
    if (row.stamp.epoch_s) {
      if (*row.stamp.epoch_s % 60 != 0) {
        report_second(row);
        return;
      }
      set(i, *row.stamp.epoch_s / 60);
      ++n_with_offset_;
      return;
    }
    const CivilDate date = date_in_order(row.stamp, order_);
    if (!is_on_calendar(date)) {
      report_unread(row);
      return;
    }
    if (row.stamp.second != 0) {
      report_second(row);
      return;
    }
    n_at_24_ += row.stamp.hour == 24 ? 1 : 0;
    n_at_0_ += row.stamp.hour == 0 && row.stamp.minute == 0 ? 1 : 0;
    std::int64_t minute = minute_from_date(date) + 60 * row.stamp.hour + row.stamp.minute;
    if (row.stamp.utc_offset_min) {
      minute -= *row.stamp.utc_offset_min;
      ++n_with_offset_;
    } else {
      first_without_offset_ = first_without_offset_ == nullptr ? row.field : first_without_offset_;
    }
    set(i, minute);
  }

  void set(std::size_t i, std::int64_t minute) {
    body_.minute[i] = minute;
    body_.has_minute[i] = true;
    if (example_.empty()) example_ = stamps_[i].field->text;
  }

  void judge_offsets() {
    if (n_with_offset_ == 0) return;
    body_.is_utc = true;
    if (first_without_offset_ == nullptr) return;
    Issue issue = issue_at(*first_without_offset_, IssueCode::inconsistent, time_column_name);
    issue.message = fmt::format("time is {}, without an offset from UTC; {} other rows have one",
                                quoted(first_without_offset_->text), n_with_offset_);
    body_.issues.push_back(std::move(issue));
  }

  Issue issue_at(const DelimitedField& field, IssueCode code, std::string_view path) const {
    Issue issue;
    issue.code = code;
    issue.path = path;
    issue.file = file_name_;
    issue.line = field.line;
    issue.column = field.column;
    issue.value = field.text;
    return issue;
  }

  void report_unread(const RowStamp& row) {
    Issue issue = issue_at(*row.field, IssueCode::wrong_type, time_column_name);
    issue.message = fmt::format("time is {}; it must be like {}", quoted(row.field->text),
                                example_.empty() ? std::string("2023-01-31T05:00") : example_);
    body_.issues.push_back(std::move(issue));
  }

  void report_second(const RowStamp& row) {
    Issue issue = issue_at(*row.field, IssueCode::out_of_range, time_column_name);
    issue.message = fmt::format("time is {}; a row must begin at a full minute", quoted(row.field->text));
    body_.issues.push_back(std::move(issue));
  }

  const FileRows& rows_;
  const FileColumns& columns_;
  std::string_view file_name_;
  const FileRules& rules_;
  FileReport& report_;
  FileBody& body_;
  std::vector<RowStamp> stamps_;
  DateOrder order_ = DateOrder::year_first;
  bool is_year_first_usual_ = true;
  int n_with_offset_ = 0;
  int n_at_24_ = 0;
  int n_at_0_ = 0;
  const DelimitedField* first_without_offset_ = nullptr;
  std::string example_;
};

/// Newest row first is turned round.
void turn_round(FileBody& body) {
  std::reverse(body.minute.begin(), body.minute.end());
  std::reverse(body.has_minute.begin(), body.has_minute.end());
  std::reverse(body.line.begin(), body.line.end());
  std::reverse(body.column_of_time.begin(), body.column_of_time.end());
  std::reverse(body.faults.begin(), body.faults.end());
  for (NumberColumn& column : body.columns) std::reverse(column.numbers.begin(), column.numbers.end());
}

Issue issue_of_step(const FileBody& body, std::string_view file_name, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::out_of_range;
  issue.path = time_column_name;
  issue.file = file_name;
  issue.line = body.line.front();
  issue.column = body.column_of_time.front();
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

/// The usual step between rows: an hour, or an even part of one.
void find_step(FileBody& body, std::string_view file_name, FileReport& report) {
  std::map<std::int64_t, int> n_by_step;
  const std::int64_t* last = nullptr;
  int n_steps = 0;
  for (std::size_t row = 0; row < body.n_rows(); ++row) {
    if (!body.has_minute[row]) continue;
    if (last != nullptr && *last != body.minute[row]) {
      ++n_by_step[body.minute[row] - *last];
      ++n_steps;
    }
    last = &body.minute[row];
  }
  if (n_steps == 0) return;  // a single row: the gaps tell
  const auto usual = std::max_element(n_by_step.begin(), n_by_step.end(),
                                      [](const auto& a, const auto& b) { return a.second < b.second; });
  std::int64_t step_min = usual->first;
  const int n_usual = usual->second;
  if (step_min < 0) {
    step_min = -step_min;
    turn_round(body);
    report.findings.push_back({"order of rows", "newest first", "turned round"});
  }
  constexpr std::int64_t minutes_per_day = 1440;
  if (step_min >= minutes_per_day) {
    body.issues.push_back(issue_of_step(
        body, file_name, "the file has one row a day or fewer; the hours of a day are needed",
        "give a file with a row an hour, or the means of its months under [climate.normals] (max_c, min_c, rain_mm, "
        "rain_days), from which hours are made"));
    return;
  }
  if (step_min > 60) {
    body.issues.push_back(issue_of_step(
        body, file_name, fmt::format("rows are {} minutes apart; at least one an hour is needed", step_min),
        "what happens between them is not in the file"));
    return;
  }
  if (60 % step_min != 0) {
    body.issues.push_back(issue_of_step(
        body, file_name, fmt::format("rows are {} minutes apart; an hour must hold a whole number", step_min),
        "steps of 1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30 or 60 minutes can be read"));
    return;
  }
  body.step_min = static_cast<int>(step_min);
  report.findings.push_back(
      {"step", fmt::format("{} min", step_min), fmt::format("{} of {} steps between rows", n_usual, n_steps)});
}

}  // namespace

void read_stamps(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
                 FileReport& report, FileBody& body) {
  StampReader(rows, columns, file_name, rules, report, body).read();
}

Result<FileBody> read_body(const FileRows& rows, const FileColumns& columns, std::string_view file_name,
                           const FileRules& rules, FileReport& report) {
  FileBody body;
  read_numbers(rows, columns, file_name, rules, report, body);
  read_stamps(rows, columns, file_name, rules, report, body);
  const bool has_any = std::find(body.has_minute.begin(), body.has_minute.end(), true) != body.has_minute.end();
  if (!has_any) {
    for (Issues& faults : body.faults) body.issues.insert(body.issues.end(), faults.begin(), faults.end());
    return Unexpected{std::move(body.issues)};
  }
  const auto is_of_layout = [](const Issue& issue) { return issue.path.starts_with("climate.layout."); };
  if (std::any_of(body.issues.begin(), body.issues.end(), is_of_layout)) return Unexpected{std::move(body.issues)};
  const std::size_t n_before_step = body.issues.size();
  find_step(body, file_name, report);
  if (body.issues.size() > n_before_step) return Unexpected{std::move(body.issues)};
  return body;
}

}  // namespace houseleek::climate
