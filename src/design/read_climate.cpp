// [climate]: normals, and a weather file with what the person fixes about it.
#include <fmt/format.h>

#include <algorithm>

#include "design/climate_limits.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, WeatherDelimiter> delimiter_words[] = {{"comma", WeatherDelimiter::comma},
                                                                             {"semicolon", WeatherDelimiter::semicolon},
                                                                             {"tab", WeatherDelimiter::tab},
                                                                             {"bar", WeatherDelimiter::bar},
                                                                             {"blank", WeatherDelimiter::blank}};
constexpr std::pair<std::string_view, WeatherDecimalMark> decimal_mark_words[] = {{"point", WeatherDecimalMark::point},
                                                                                  {"comma", WeatherDecimalMark::comma}};
constexpr std::pair<std::string_view, WeatherDateOrder> date_order_words[] = {
    {"year_first", WeatherDateOrder::year_first},
    {"day_first", WeatherDateOrder::day_first},
    {"month_first", WeatherDateOrder::month_first}};
constexpr std::pair<std::string_view, WeatherStamps> stamps_words[] = {{"start", WeatherStamps::start},
                                                                       {"end", WeatherStamps::end}};
constexpr std::pair<std::string_view, WeatherClock> clock_words[] = {{"standard", WeatherClock::standard},
                                                                     {"daylight_saving", WeatherClock::daylight_saving},
                                                                     {"utc", WeatherClock::utc}};

std::optional<Months> read_months(DesignReader& reader, const TableView& table, const NumberRule& rule) {
  const std::optional<std::vector<double>> values = read_numbers(reader.fields, table, rule, 12);
  if (!values) return std::nullopt;
  Months months{};
  std::copy(values->begin(), values->end(), months.begin());
  return months;
}

Months read_required_months(DesignReader& reader, const TableView& table, const NumberRule& rule) {
  if (!has_field(reader.fields, table, rule.key, fmt::format("add {} = [twelve numbers, January first]", rule.key))) {
    return {};
  }
  return read_months(reader, table, rule).value_or(Months{});
}

void check_month_pair(DesignReader& reader, const TableView& table, std::string_view lower_key, const Months& lower,
                      std::string_view upper_key, const Months& upper) {
  for (std::size_t month = 0; month < 12; ++month) {
    if (lower[month] <= upper[month]) continue;
    const std::string path = path_from(table, lower_key, month);
    add_issue(reader.fields, IssueCode::inconsistent, find_member(*table.node, lower_key)->items[month], path,
              fmt::format("at most {}", upper[month]),
              fmt::format("{} is {}, above {} of the same month ({})", path, lower[month], upper_key, upper[month]),
              "");
  }
}

void check_rain_sd(DesignReader& reader, const TableView& table, const MonthlyNormals& normals) {
  constexpr std::string_view key = "month_rain_sd_mm";
  for (std::size_t month = 0; month < 12; ++month) {
    const double sd_mm = (*normals.month_rain_sd_mm)[month];
    const double most_mm = limits::most_rain_sd_times * normals.rain_mm[month];
    if (sd_mm <= most_mm) continue;
    const std::string path = path_from(table, key, month);
    add_issue(reader.fields, IssueCode::inconsistent, find_member(*table.node, key)->items[month], path,
              fmt::format("at most {}", most_mm),
              fmt::format("{} is {}, more than {} times the month's rain ({})", path, sd_mm, limits::most_rain_sd_times,
                          normals.rain_mm[month]),
              "the standard deviation between years of the month's sum, in mm");
  }
}

/// Two ways to say one thing: the first is used.
void warn_unused(DesignReader& reader, const TableView& table, std::string_view used, std::string_view unused) {
  const TomlNode* node = find_member(*table.node, unused);
  if (node == nullptr || find_member(*table.node, used) == nullptr) return;
  const std::string path = path_from(table, unused);
  add_warning(reader.fields, IssueCode::inconsistent, *node, path, fmt::format("one of {} and {}", used, unused),
              fmt::format("{} is not used, because {} is there too", path, used), "");
}

MonthlyNormals read_normals(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"max_c",           "min_c",
                                        "rain_mm",         "rain_days",
                                        "sunshine_h",      "global_mj_per_m2_d",
                                        "wind_m_per_s",    "relative_humidity_percent",
                                        "dew_point_c",     "month_mean_sd_k",
                                        "month_rain_sd_mm"};
  check_keys(reader.fields, table, known);
  const std::size_t n_issues_before = reader.fields.issues.size();
  MonthlyNormals normals;
  normals.max_c = read_required_months(reader, table, limits::with_key(limits::temperature_c, "max_c"));
  normals.min_c = read_required_months(reader, table, limits::with_key(limits::temperature_c, "min_c"));
  normals.rain_mm = read_required_months(reader, table, limits::rain_mm);
  normals.rain_days = read_months(reader, table, limits::rain_days);
  normals.sunshine_h = read_months(reader, table, limits::sunshine_h);
  normals.global_mj_per_m2_d = read_months(reader, table, limits::global_mj_per_m2_d);
  normals.relative_humidity_percent = read_months(reader, table, limits::relative_humidity_percent);
  normals.dew_point_c = read_months(reader, table, limits::with_key(limits::temperature_c, "dew_point_c"));
  normals.wind_m_per_s = read_months(reader, table, limits::wind_m_per_s);
  normals.month_mean_sd_k = read_months(reader, table, limits::month_mean_sd_k);
  normals.month_rain_sd_mm = read_months(reader, table, limits::month_rain_sd_mm);
  if (reader.fields.issues.size() != n_issues_before) return normals;
  check_month_pair(reader, table, "min_c", normals.min_c, "max_c", normals.max_c);
  if (normals.dew_point_c) check_month_pair(reader, table, "dew_point_c", *normals.dew_point_c, "max_c", normals.max_c);
  if (normals.month_rain_sd_mm) check_rain_sd(reader, table, normals);
  if (normals.sunshine_h &&
      *std::max_element(normals.sunshine_h->begin(), normals.sunshine_h->end()) <= limits::longest_day_mean_h) {
    const std::string path = path_from(table, "sunshine_h");
    add_issue(reader.fields, IssueCode::out_of_range, *find_member(*table.node, "sunshine_h"), path, "sums of months",
              fmt::format("{} has no month above {} h; these look like hours a day", path, limits::longest_day_mean_h),
              "give the sum of each month: 8 h a day in June are 240");
  }
  warn_unused(reader, table, "global_mj_per_m2_d", "sunshine_h");
  warn_unused(reader, table, "dew_point_c", "relative_humidity_percent");
  return normals;
}

std::vector<std::string> read_missing_words(DesignReader& reader, const TableView& table) {
  std::vector<std::string> words;
  const TomlNode* list = find_member(*table.node, "missing");
  if (list == nullptr) return words;
  const std::string path = path_from(table, "missing");
  if (list->kind != TomlKind::array || list->items.size() > limits::most_missing_words) {
    add_issue(reader.fields, IssueCode::wrong_type, *list, path,
              fmt::format("a list of at most {} texts", limits::most_missing_words),
              fmt::format("{} must be a list of at most {} texts", path, limits::most_missing_words),
              "like missing = [\"-77\", \"n/k\"]");
    return words;
  }
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const TomlNode& item = list->items[i];
    if (item.kind == TomlKind::text) {
      words.push_back(item.text);
      continue;
    }
    add_issue(
        reader.fields, IssueCode::wrong_type, item, path_from(table, "missing", i), "a text",
        fmt::format("{} is {}; it must be a text", path_from(table, "missing", i), written_text(reader.fields, item)),
        "put it in quotes");
  }
  return words;
}

void read_unit(DesignReader& reader, const TableView& table, std::string_view units, WeatherFileColumn& column) {
  const std::optional<std::string> unit = read_text(reader.fields, table, "unit");
  if (!unit) return;
  std::vector<std::string> known;
  for (std::size_t at = 0; at < units.size();) {
    const std::size_t blank = std::min(units.find(' ', at), units.size());
    known.emplace_back(units.substr(at, blank - at));
    at = blank + 1;
  }
  column.unit = *unit;
  if (std::find(known.begin(), known.end(), *unit) != known.end()) return;
  add_unknown_choice(reader.fields, *find_member(*table.node, "unit"), path_from(table, "unit"), known);
}

/// "T2m", 4, {name = "T2m", unit = "degF"} or {number = 4, unit = "degF"}.
void read_column(DesignReader& reader, const TableView& columns, const WeatherColumnWords& words,
                 WeatherLayout& layout) {
  const TomlNode* node = find_member(*columns.node, words.key);
  if (node == nullptr) return;
  const std::string path = path_from(columns, words.key);
  WeatherFileColumn column;
  column.key = words.key;
  if (node->kind == TomlKind::text) {
    column.name = node->text;
  } else if (node->kind == TomlKind::integer) {
    const std::optional<double> number = checked_number(reader.fields, *node, path, limits::column_number);
    column.number = static_cast<int>(number.value_or(1.0));
  } else if (node->kind == TomlKind::table) {
    const TableView table = {node, path};
    constexpr std::string_view with_unit[] = {"name", "number", "unit"};
    constexpr std::string_view without_unit[] = {"name", "number"};
    check_keys(reader.fields, table,
               words.units.empty() ? std::span<const std::string_view>(without_unit)
                                   : std::span<const std::string_view>(with_unit));
    column.name = read_text(reader.fields, table, "name").value_or("");
    column.number = static_cast<int>(read_integer(reader.fields, table, limits::column_number).value_or(0));
    if (!words.units.empty()) read_unit(reader, table, words.units, column);
    const bool has_name = find_member(*node, "name") != nullptr;
    const bool has_number = find_member(*node, "number") != nullptr;
    if (has_name == has_number) {
      add_issue(reader.fields, has_name ? IssueCode::inconsistent : IssueCode::missing_field, *node, path,
                "name or number", fmt::format("{} has {} name and number", path, has_name ? "both" : "neither"),
                "give the name in the header, or the number of the column from 1");
    }
  } else {
    add_issue(reader.fields, IssueCode::wrong_type, *node, path, "a text, a number or a table",
              fmt::format("{} is {}; it must be the column's name or number", path, written_text(reader.fields, *node)),
              "");
    return;
  }
  layout.columns.push_back(std::move(column));
}

void read_layout(DesignReader& reader, const TableView& climate, WeatherLayout& layout) {
  const std::optional<TableView> table = read_table(reader.fields, climate, "layout");
  if (!table) return;
  constexpr std::string_view known[] = {"delimiter", "decimal_mark", "header_line", "date_order",
                                        "stamps",    "clock",        "missing"};
  check_keys(reader.fields, *table, known);
  layout.delimiter = read_choice<WeatherDelimiter>(reader.fields, *table, "delimiter", delimiter_words);
  layout.decimal_mark = read_choice<WeatherDecimalMark>(reader.fields, *table, "decimal_mark", decimal_mark_words);
  if (const auto line = read_integer(reader.fields, *table, limits::header_line)) {
    layout.header_line = static_cast<int>(*line);
  }
  layout.date_order = read_choice<WeatherDateOrder>(reader.fields, *table, "date_order", date_order_words);
  layout.stamps = read_choice<WeatherStamps>(reader.fields, *table, "stamps", stamps_words);
  layout.clock = read_choice<WeatherClock>(reader.fields, *table, "clock", clock_words);
  layout.missing = read_missing_words(reader, *table);
}

void read_columns(DesignReader& reader, const TableView& climate, WeatherLayout& layout) {
  const std::optional<TableView> table = read_table(reader.fields, climate, "columns");
  if (!table) return;
  std::vector<std::string_view> known;
  for (const WeatherColumnWords& words : weather_column_words) known.push_back(words.key);
  check_keys(reader.fields, *table, known);
  for (const WeatherColumnWords& words : weather_column_words) read_column(reader, *table, words, layout);
}

/// Without a file there is nothing that these could say.
void check_needs_file(DesignReader& reader, const TableView& table) {
  for (const std::string_view key : {"year", "layout", "columns"}) {
    const TomlNode* node = find_member(*table.node, key);
    if (node == nullptr) continue;
    const std::string path = path_from(table, key);
    add_issue(reader.fields, IssueCode::inconsistent, *node, path, "with file",
              fmt::format("{} speaks of a weather file, and there is none", path), "add file = \"weather.csv\"");
  }
}

}  // namespace

Climate read_climate(DesignReader& reader, const TableView& root) {
  Climate climate;
  if (!has_field(reader.fields, root, "climate",
                 "add a table [climate.normals] with max_c, min_c and rain_mm of twelve months")) {
    return climate;
  }
  const std::optional<TableView> table = read_table(reader.fields, root, "climate");
  if (!table) return climate;
  constexpr std::string_view known[] = {"normals", "file", "year", "layout", "columns", "seed"};
  check_keys(reader.fields, *table, known);
  if (const std::optional<std::int64_t> seed = read_integer(reader.fields, *table, limits::seed)) {
    climate.seed = static_cast<std::uint64_t>(*seed);
  }
  const TomlNode* normals_node = find_member(*table->node, "normals");
  const TomlNode* file_node = find_member(*table->node, "file");
  if (normals_node == nullptr && file_node == nullptr) {
    add_issue(reader.fields, IssueCode::missing_field, *table->node, table->path, "normals or file",
              "climate has neither normals nor file", "give [climate.normals] or file = \"weather.csv\"");
    return climate;
  }
  if (normals_node != nullptr) {
    if (const auto normals = read_table(reader.fields, *table, "normals"))
      climate.normals = read_normals(reader, *normals);
  }
  if (file_node == nullptr) {
    check_needs_file(reader, *table);
    return climate;
  }
  climate.file =
      read_required_text(reader.fields, *table, "file", "the path of a weather file, from this design's folder");
  if (const std::optional<std::int64_t> year = read_integer(reader.fields, *table, limits::weather_year)) {
    climate.year = static_cast<int>(*year);
  }
  read_layout(reader, *table, climate.layout);
  read_columns(reader, *table, climate.layout);
  return climate;
}

}  // namespace houseleek::design
