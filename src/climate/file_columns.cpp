// Which field of a row is what: header, line of units, columns a person names, columns told by their words.
#include "climate/file_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/nearest_name.hpp"
#include "climate/file_words.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

constexpr std::size_t n_sample_rows = 50;

bool has_digit(std::string_view text) { return text.find_first_of("0123456789") != std::string_view::npos; }

/// Half or more of what is written in a row are numbers or times.
bool is_body_row(const DelimitedRow& row) {
  std::size_t n_written = 0;
  std::size_t n_plain = 0;
  for (const DelimitedField& field : row) {
    if (trimmed(field.text).empty()) continue;
    ++n_written;
    n_plain += has_digit(field.text) && is_number_or_time(field.text) ? 1 : 0;
  }
  return n_plain > 0 && 2 * n_plain >= n_written;
}

bool is_row_of_units(const DelimitedRow& row) {
  std::size_t n_written = 0;
  std::size_t n_units = 0;
  for (const DelimitedField& field : row) {
    if (trimmed(field.text).empty()) continue;
    ++n_written;
    std::string_view bare = trimmed(field.text);
    if (bare.size() > 2 && (bare.front() == '[' || bare.front() == '(')) bare = bare.substr(1, bare.size() - 2);
    n_units += unit_from_text(bare) ? 1 : 0;
  }
  return n_units > 0 && 2 * n_units >= n_written;
}

std::string parted_by_commas(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  return list;
}

class Finder {
 public:
  Finder(const FileRows& rows, std::string_view file_name, const FileRules& rules, FileReport& report)
      : rows_(rows.rows), file_name_(file_name), rules_(rules), report_(report) {}

  Result<FileColumns> find() {
    if (!find_body()) return Unexpected{std::move(issues_)};
    find_header();
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    take_named_columns();
    take_told_columns();
    take_time_by_content();
    judge_time();
    judge_quantities();
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    report_header();
    return std::move(columns_);
  }

 private:
  Issue issue_at(const DelimitedField* field, IssueCode code, std::string_view path, std::string message,
                 std::string hint) const {
    Issue issue;
    issue.code = code;
    issue.path = path;
    issue.file = file_name_;
    if (field == nullptr) field = &(header_ != nullptr ? *header_ : rows_.front()).front();
    issue.line = field->line;
    issue.column = field->column;
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    return issue;
  }

  bool find_body() {
    std::map<std::size_t, int> n_rows_with;
    for (const DelimitedRow& row : rows_) ++n_rows_with[row.size()];
    int most = 0;
    for (const auto& [n_fields, n_rows] : n_rows_with) {
      if (n_rows < most) continue;  // of equally many, the longer rows
      most = n_rows;
      columns_.n_fields = n_fields;
    }
    std::size_t row = 0;
    if (rules_.header_line && *rules_.header_line > 0) {
      while (row < rows_.size() && rows_[row].front().line <= *rules_.header_line) ++row;
    }
    while (row < rows_.size() && (rows_[row].size() != columns_.n_fields || !is_body_row(rows_[row]))) ++row;
    columns_.first_row = row;
    if (row < rows_.size()) return true;
    issues_.push_back(issue_at(nullptr, IssueCode::missing_field, "", "there is no row with a time and numbers",
                               "a header line that names the columns, then one row an hour"));
    return false;
  }

  void find_header() {
    if (rules_.header_line && *rules_.header_line == 0) return;
    std::size_t row = columns_.first_row;
    if (row > 1 && is_row_of_units(rows_[row - 1]) && rows_[row - 1].size() == columns_.n_fields &&
        rows_[row - 2].size() == columns_.n_fields) {
      units_ = &rows_[--row];
    }
    if (rules_.header_line) {
      const auto is_it = [&](const DelimitedRow& one) { return one.front().line == *rules_.header_line; };
      const auto found = std::find_if(rows_.begin(), rows_.end(), is_it);
      if (found == rows_.end() || found->size() < 2) {
        issues_.push_back(issue_at(&rows_.front().front(), IssueCode::inconsistent, "climate.layout.header_line",
                                   fmt::format("line {} names no columns", *rules_.header_line),
                                   "header_line = 0 says that there is no such line"));
        return;
      }
      header_ = &*found;
    } else if (row > 0 && rows_[row - 1].size() >= 2) {
      header_ = &rows_[row - 1];
    }
    if (header_ == nullptr || header_->size() == columns_.n_fields) return;
    const bool ends_empty =
        header_->size() + 1 == columns_.n_fields && trimmed(rows_[columns_.first_row].back().text).empty();
    if (ends_empty) {
      columns_.n_fields = header_->size();
      return;
    }
    Issue issue = issue_at(
        nullptr, IssueCode::inconsistent, "",
        fmt::format("the header names {} columns; most rows have {} fields", header_->size(), columns_.n_fields),
        "numbers with a decimal comma need another delimiter than the comma, or quotes");
    issue.value = fmt::format("{}", header_->size());
    issue.limit = fmt::format("{}", columns_.n_fields);
    issues_.push_back(std::move(issue));
  }

  [[nodiscard]] std::string header_of(std::size_t at) const {
    return header_ == nullptr ? std::string() : std::string(trimmed((*header_)[at].text));
  }

  [[nodiscard]] bool is_used(std::size_t at) const {
    return std::any_of(columns_.uses.begin(), columns_.uses.end(), [at](const ColumnUse& use) { return use.at == at; });
  }

  [[nodiscard]] std::vector<std::string> names_of_file() const {
    std::vector<std::string> names;
    if (header_ == nullptr) return names;
    for (const DelimitedField& field : *header_) names.emplace_back(trimmed(field.text));
    return names;
  }

  std::optional<std::size_t> place_of(const ColumnRule& rule) {
    const std::string path = "climate.columns." + rule.word;
    if (rule.number > 0) {
      if (static_cast<std::size_t>(rule.number) <= columns_.n_fields) return static_cast<std::size_t>(rule.number) - 1;
      issues_.push_back(issue_at(nullptr, IssueCode::out_of_range, path,
                                 fmt::format("{} is column {}; a row has {}", path, rule.number, columns_.n_fields),
                                 ""));
      return std::nullopt;
    }
    for (const bool is_exact : {true, false}) {
      for (std::size_t at = 0; header_ != nullptr && at < columns_.n_fields; ++at) {
        const std::string header = header_of(at);
        if (is_exact ? header == rule.name : folded_header(header) == folded_header(rule.name)) return at;
      }
    }
    const std::vector<std::string> names = names_of_file();
    const auto nearest = find_nearest_name(rule.name, names);
    issues_.push_back(issue_at(nullptr, IssueCode::unknown_name, path,
                               fmt::format("{} is {}; the file has no column of that name", path, quoted(rule.name)),
                               header_ == nullptr ? "the file has no header: give the number of the column, from 1"
                               : nearest          ? fmt::format("did you mean {}?", quoted(*nearest))
                                                  : "the columns are: " + parted_by_commas(names)));
    return std::nullopt;
  }

  void take_named_columns() {
    for (const ColumnRule& rule : rules_.columns) {
      const std::optional<std::size_t> at = place_of(rule);
      if (!at) continue;
      ColumnUse use = {.at = *at, .quantity = rule.quantity, .time_part = rule.time_part, .header = header_of(*at)};
      take_unit(use, meaning_of_header(use.header).unit);
      if (rule.unit) {
        use.unit = rule.unit;
        use.unit_evidence = "fixed under [climate.columns]";
      }
      columns_.uses.push_back(std::move(use));
    }
  }

  /// The unit of the header, or of the line below it.
  void take_unit(ColumnUse& use, std::optional<Unit> of_header) const {
    if (!use.quantity) return;
    std::string from = "the header says so";
    if (!of_header && units_ != nullptr) {
      std::string_view bare = trimmed((*units_)[use.at].text);
      if (bare.size() > 2 && (bare.front() == '[' || bare.front() == '(')) bare = bare.substr(1, bare.size() - 2);
      of_header = unit_from_text(bare);
      from = "the line below the header says so";
    }
    const auto possible = units_of(*use.quantity);
    if (!of_header || std::find(possible.begin(), possible.end(), *of_header) == possible.end()) return;
    use.unit = of_header;
    use.unit_evidence = from;
  }

  [[nodiscard]] bool is_fixed(const HeaderMeaning& meaning) const {
    return std::any_of(rules_.columns.begin(), rules_.columns.end(), [&](const ColumnRule& rule) {
      return (meaning.quantity && rule.quantity == meaning.quantity) || (meaning.time_part && rule.time_part);
    });
  }

  void take_told_columns() {
    if (header_ == nullptr) return;
    bool is_ours = rules_.columns.empty();
    for (std::size_t at = 0; at < columns_.n_fields; ++at) {
      if (is_used(at)) continue;
      const std::string header = header_of(at);
      const HeaderMeaning meaning = meaning_of_header(header);
      if ((!meaning.quantity && !meaning.time_part) || is_fixed(meaning)) {
        note_unknown(at, header);
        continue;
      }
      is_ours = is_ours && meaning.is_our_name;
      if (meaning.quantity && judge_second(at, header, *meaning.quantity)) continue;
      ColumnUse use = {.at = at, .quantity = meaning.quantity, .time_part = meaning.time_part, .header = header};
      take_unit(use, meaning.unit);
      columns_.uses.push_back(std::move(use));
      columns_.says_utc = columns_.says_utc || meaning.says_utc;
      if (meaning.says_marks) columns_.says_marks = meaning.says_marks;
    }
    columns_.is_our_layout = is_ours;
  }

  /// A column that says nothing known; one that nearly has a name of our own layout is a slip of the pen.
  void note_unknown(std::size_t at, const std::string& header) {
    constexpr int most_slips = 2;
    constexpr std::size_t shortest = 7;
    for (const WeatherColumnInfo& info : weather_columns) {
      const WeatherColumn column = static_cast<WeatherColumn>(&info - weather_columns.data());
      const bool is_there = std::any_of(header_->begin(), header_->end(),
                                        [&](const DelimitedField& field) { return trimmed(field.text) == info.name; });
      if (is_there || header.size() < shortest || is_fixed({.quantity = column})) continue;
      if (edit_distance(header, info.name) > most_slips) continue;
      issues_.push_back(issue_at(&(*header_)[at], IssueCode::unknown_field, header,
                                 fmt::format("there is no column called {}", quoted(header)),
                                 fmt::format("did you mean {}?", info.name)));
      return;
    }
    report_.unused_columns.push_back(header.empty() ? fmt::format("column {}", at + 1) : header);
  }

  bool judge_second(std::size_t at, const std::string& header, WeatherColumn quantity) {
    const ColumnUse* first = columns_.find(quantity);
    if (first == nullptr) return false;
    const std::string_view word = info_of(quantity).word;
    issues_.push_back(issue_at(&(*header_)[at], IssueCode::inconsistent, info_of(quantity).name,
                               first->header == header ? fmt::format("column {} is here a second time", header)
                                                       : fmt::format("{} may be the column {} or {}", word,
                                                                     quoted(first->header), quoted(header)),
                               fmt::format("write {} = \"{}\" under [climate.columns]", word, first->header)));
    return true;
  }

  [[nodiscard]] std::optional<StampText> common_form(std::size_t at) const {
    std::optional<StampText> form;
    const std::size_t end = std::min(rows_.size(), columns_.first_row + n_sample_rows);
    std::size_t n_read = 0;
    std::size_t n_rows = 0;
    for (std::size_t row = columns_.first_row; row < end; ++row) {
      if (rows_[row].size() <= at) continue;
      ++n_rows;
      const std::optional<StampText> stamp = stamp_text_from(trimmed(rows_[row][at].text));
      if (!stamp) continue;
      if (!form) form = stamp;
      ++n_read;
    }
    return 2 * n_read > n_rows ? form : std::nullopt;
  }

  [[nodiscard]] bool has_time() const {
    return std::any_of(columns_.uses.begin(), columns_.uses.end(),
                       [](const ColumnUse& use) { return use.time_part.has_value(); });
  }

  /// Without a header that says so, the column that is full of dates with signs between their numbers.
  void take_time_by_content() {
    if (has_time()) return;
    for (std::size_t at = 0; at < columns_.n_fields; ++at) {
      if (is_used(at)) continue;
      const std::optional<StampText> form = common_form(at);
      const bool is_parted = !rows_[columns_.first_row][at].text.empty() &&
                             rows_[columns_.first_row][at].text.find_first_of("-/.:") != std::string::npos;
      if (!form || form->epoch_s || !is_parted) continue;
      columns_.uses.push_back({.at = at, .time_part = TimePart::stamp, .header = header_of(at)});
      columns_.is_our_layout = false;
      const std::string name = header_of(at).empty() ? fmt::format("column {}", at + 1) : header_of(at);
      std::erase(report_.unused_columns, name);
      report_.findings.push_back({"time column", name, "it is full of dates or clock times"});
      if (form->has_date && form->has_clock) break;
    }
  }

  void judge_time() {
    int n_dates = 0;
    int n_clocks = 0;
    bool has_year = false;
    bool has_hour = false;
    for (const ColumnUse& use : columns_.uses) {
      if (!use.time_part) continue;
      if (*use.time_part == TimePart::stamp) {
        const std::optional<StampText> form = common_form(use.at);
        if (!form) continue;  // each row then has its issue
        n_dates += form->has_date || form->epoch_s ? 1 : 0;
        n_clocks += form->has_clock && !form->has_date ? 1 : 0;
      }
      has_year = has_year || *use.time_part == TimePart::year;
      has_hour = has_hour || *use.time_part == TimePart::hour;
    }
    if (n_dates > 1 || n_clocks > 1 || (has_hour && n_clocks > 0) || (has_year && n_dates > 0)) {
      std::string names;
      for (const ColumnUse& use : columns_.uses) {
        if (use.time_part) names += (names.empty() ? "" : ", ") + quoted(use.header);
      }
      issues_.push_back(issue_at(nullptr, IssueCode::inconsistent, time_column_name,
                                 fmt::format("the time of a row stands in more columns than needed: {}", names),
                                 "write time = \"...\" (or date and clock_time) under [climate.columns]"));
    }
    if (!has_time()) {
      issues_.push_back(issue_at(
          nullptr, IssueCode::missing_field, time_column_name, fmt::format("column {} is missing", time_column_name),
          header_ == nullptr ? "the file has no header: write time = 1 (the number of the column) under "
                               "[climate.columns]"
                             : "write time = \"...\" (the column's name) under [climate.columns]"));
    }
  }

  void miss(WeatherColumn quantity, const std::string& more) {
    const WeatherColumnInfo& info = info_of(quantity);
    const std::string how =
        header_ == nullptr ? fmt::format("write {} = {{number = 2, unit = \"...\"}} under [climate.columns]", info.word)
                           : fmt::format("write {} = \"...\" under [climate.columns]; there are: {}", info.word,
                                         parted_by_commas(names_of_file()));
    issues_.push_back(issue_at(nullptr, IssueCode::missing_field, info.name,
                               fmt::format("column {} is missing", info.name), more + how));
  }

  void judge_quantities() {
    if (columns_.find(WeatherColumn::air_temperature) == nullptr) miss(WeatherColumn::air_temperature, "");
    judge_rain();
    // One measure of humidity is enough: the one nearest to what is computed with.
    bool has_one = false;
    for (const WeatherColumn column :
         {WeatherColumn::vapour_pressure, WeatherColumn::dew_point, WeatherColumn::relative_humidity}) {
      const ColumnUse* use = columns_.find(column);
      if (use == nullptr) continue;
      if (!has_one) {
        has_one = true;
        continue;
      }
      report_.unused_columns.push_back(use->header + " (humidity is told already)");
      std::erase_if(columns_.uses, [column](const ColumnUse& one) { return one.quantity == column; });
    }
  }

  void judge_rain() {
    const bool has_rain = columns_.find(WeatherColumn::rain) != nullptr;
    std::size_t n_slots = 0;
    for (std::size_t i = 0; i < n_rain_slots; ++i) {
      n_slots += columns_.find(static_cast<WeatherColumn>(first_rain_slot + i)) != nullptr ? 1 : 0;
    }
    if (has_rain && n_slots > 0) {
      issues_.push_back(issue_at(nullptr, IssueCode::inconsistent, "rain_mm",
                                 "give either rain_mm or the six columns of ten minutes; there are both", ""));
    } else if (!has_rain && n_slots == 0) {
      miss(WeatherColumn::rain, "rain cannot be estimated; a year without rain is a column of zeros; ");
    } else if (n_slots > 0 && n_slots < n_rain_slots) {
      for (std::size_t i = first_rain_slot; i < first_rain_slot + n_rain_slots; ++i) {
        const WeatherColumn slot = static_cast<WeatherColumn>(i);
        if (columns_.find(slot) != nullptr) continue;
        issues_.push_back(issue_at(nullptr, IssueCode::missing_field, info_of(slot).name,
                                   fmt::format("column {} is missing", info_of(slot).name),
                                   "rain in six parts of the hour needs all six"));
      }
    }
  }

  void report_header() {
    if (header_ == nullptr) {
      report_.findings.push_back({"header", "none", "the first rows are numbers already"});
      return;
    }
    std::string evidence = "the last line of words above the numbers";
    if (rules_.header_line) evidence = "fixed under [climate.layout]";
    if (units_ != nullptr) evidence += "; a line of units below it";
    report_.findings.push_back({"header", fmt::format("line {}", header_->front().line), evidence});
    const auto n_above =
        std::count_if(rows_.begin(), rows_.begin() + static_cast<std::ptrdiff_t>(columns_.first_row),
                      [&](const DelimitedRow& row) { return row.front().line < header_->front().line; });
    if (n_above > 0) {
      report_.findings.push_back({"lines above the header", fmt::format("{} not read", n_above), "no table yet"});
    }
  }

  const std::vector<DelimitedRow>& rows_;
  std::string_view file_name_;
  const FileRules& rules_;
  FileReport& report_;
  FileColumns columns_;
  const DelimitedRow* header_ = nullptr;
  const DelimitedRow* units_ = nullptr;
  Issues issues_;
};

}  // namespace

const ColumnUse* FileColumns::find(WeatherColumn quantity) const {
  for (const ColumnUse& use : uses) {
    if (use.quantity == quantity) return &use;
  }
  return nullptr;
}

Result<FileColumns> find_columns(const FileRows& rows, std::string_view file_name, const FileRules& rules,
                                 FileReport& report) {
  return Finder(rows, file_name, rules, report).find();
}

}  // namespace houseleek::climate
