// The answer of `houseleek weather` for a terminal of 80 columns.
#include "report/weather_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t label_width = 13;
constexpr std::size_t finding_width = 26;
constexpr std::size_t column_width = 28;
constexpr std::size_t widest_title = 30;
constexpr std::array<std::string_view, 12> month_words = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                          "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

double mean_of(const climate::Months& months) {
  return std::accumulate(months.begin(), months.end(), 0.0) / static_cast<double>(months.size());
}
double sum_of(const climate::Months& months) { return std::accumulate(months.begin(), months.end(), 0.0); }
double most_of(const climate::Months& months) { return *std::max_element(months.begin(), months.end()); }
double least_of(const climate::Months& months) { return *std::min_element(months.begin(), months.end()); }

/// A label, twelve numbers of five characters, and the year's figure.
std::string row(std::string_view label, const climate::Months& months, int n_decimals, double of_year) {
  std::string line = fmt::format("{:<14}", label);
  for (const double month : months) line += fmt::format("{:5.{}f}", month, n_decimals);
  return line + fmt::format("{:6.{}f}\n", of_year, n_decimals);
}

/// How far a month lies from its normal.
std::string row_beside(const climate::Months& months, const climate::Months& normals, int n_decimals) {
  std::string line = fmt::format("{:<14}", "  off normals");
  for (std::size_t month = 0; month < months.size(); ++month) {
    const double off = months[month] - normals[month];
    const double least_shown = n_decimals == 0 ? 0.5 : 0.05;
    line += std::abs(off) < least_shown ? fmt::format("{:>5}", "=") : fmt::format("{:+5.{}f}", off, n_decimals);
  }
  return line + "\n";
}

/// One bar a month under its number, in eighths of a line.
std::string bars(const climate::Months& months) {
  constexpr std::array<std::string_view, 9> eighths = {" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
  const double most = most_of(months);
  std::string line = fmt::format("{:<14}", "");
  for (const double month : months) {
    const double share = most > 0.0 ? month / most : 0.0;
    const std::size_t n_eighths = static_cast<std::size_t>(8.0 * share + 0.5);
    line += "  ";
    for (int i = 0; i < 3; ++i) line += eighths[n_eighths];
  }
  while (!line.empty() && line.back() == ' ') line.pop_back();
  return line + "\n";
}

/// Each month from its lowest hour to its highest, its mean days in between.
std::string spans(const WeatherInUseAnswer& answer) {
  constexpr std::size_t n_places = 58;
  const double low_c = least_of(answer.extremes.lowest_c);
  const double high_c = most_of(answer.extremes.highest_c);
  const double width_c = high_c > low_c ? high_c - low_c : 1.0;
  const auto place_of = [&](double value_c) {
    return static_cast<std::size_t>((value_c - low_c) / width_c * static_cast<double>(n_places - 1) + 0.5);
  };
  std::string text = "Temperature, degC: lowest hour, mean minimum [ to mean maximum ], highest hour\n";
  for (std::size_t month = 0; month < month_words.size(); ++month) {
    std::string line(n_places, ' ');
    const std::size_t lowest = place_of(answer.extremes.lowest_c[month]);
    const std::size_t highest = place_of(answer.extremes.highest_c[month]);
    for (std::size_t i = lowest; i <= highest; ++i) line[i] = '.';
    const std::size_t begin = place_of(answer.months.min_c[month]);
    const std::size_t end = place_of(answer.months.max_c[month]);
    for (std::size_t i = begin; i <= end; ++i) line[i] = '=';
    line[begin] = '[';
    line[end] = ']';
    text += fmt::format("{} {:6.1f} {} {:6.1f}\n", month_words[month], answer.extremes.lowest_c[month], line,
                        answer.extremes.highest_c[month]);
  }
  return text;
}

std::string table(const WeatherInUseAnswer& answer) {
  std::string text = fmt::format("{:<14}", "");
  for (const std::string_view word : month_words) text += fmt::format("{:>5}", word);
  text += "  year\n";
  const climate::YearSummary& months = answer.months;
  const auto* normals = answer.normals ? &*answer.normals : nullptr;
  const auto beside = [&](const climate::Months& values, const std::optional<climate::Months>& given, int n_decimals) {
    if (given) text += row_beside(values, *given, n_decimals);
  };
  text += row("max, degC", months.max_c, 1, mean_of(months.max_c));
  if (normals != nullptr) text += row_beside(months.max_c, normals->max_c, 1);
  text += row("mean, degC", months.mean_c, 1, mean_of(months.mean_c));
  text += row("min, degC", months.min_c, 1, mean_of(months.min_c));
  if (normals != nullptr) text += row_beside(months.min_c, normals->min_c, 1);
  text += row("dew pt, degC", answer.extremes.dew_point_c, 1, mean_of(answer.extremes.dew_point_c));
  if (normals != nullptr) beside(answer.extremes.dew_point_c, normals->dew_point_c, 1);
  text += row("sun, MJ/m2 d", months.global_mj_per_m2_d, 1, mean_of(months.global_mj_per_m2_d));
  if (normals != nullptr) beside(months.global_mj_per_m2_d, normals->global_mj_per_m2_d, 1);
  text += bars(months.global_mj_per_m2_d);
  text += row("rain, mm", months.rain_mm, 0, sum_of(months.rain_mm));
  if (normals != nullptr) text += row_beside(months.rain_mm, normals->rain_mm, 0);
  text += bars(months.rain_mm);
  text += row("wet days", months.wet_days, 0, sum_of(months.wet_days));
  if (normals != nullptr) beside(months.wet_days, normals->rain_days, 0);
  text += row("wettest day", answer.extremes.wettest_day_mm, 0, most_of(answer.extremes.wettest_day_mm));
  text += row("wind, m/s", months.wind_m_per_s, 1, mean_of(months.wind_m_per_s));
  if (normals != nullptr) beside(months.wind_m_per_s, normals->wind_m_per_s, 1);
  return text;
}

std::string days(std::string_view label, const std::array<WeatherDay, 3>& list) {
  std::string text;
  for (const WeatherDay& day : list) {
    text += fmt::format("{}{} mean {:.1f} ({:.1f} to {:.1f}) degC", text.empty() ? "" : "; ", day.date, day.mean_c,
                        day.min_c, day.max_c);
  }
  return paragraph(label, label_width, text);
}

std::string file_text(const climate::FileReport& file) {
  std::string text = "Told by the file, with the evidence:\n";
  for (const climate::Finding& one : file.findings) {
    text += paragraph(fmt::format("  {}", one.about), finding_width, fmt::format("{} ({})", one.is, one.evidence));
  }
  text += "Columns in use:\n";
  for (const climate::UsedColumn& one : file.columns) {
    const std::string header = one.header.empty() ? "" : fmt::format(" \"{}\"", one.header);
    text += paragraph(fmt::format("  {}", one.name), column_width,
                      fmt::format("column {}{} in {} ({}); {} values, {} missing", one.number, header, one.unit,
                                  one.unit_evidence, one.n_values, one.n_missing));
  }
  if (!file.unused_columns.empty()) text += paragraph("Not used", label_width, joined(file.unused_columns));
  return text;
}

}  // namespace

std::string text_from(const WeatherInUseAnswer& answer) {
  const std::string name =
      answer.design_name.empty() ? std::string("This house") : short_name(answer.design_name, widest_title);
  std::string text =
      paragraph("", 0,
                fmt::format("{}: {} {}, {:.2f} deg {}, {:.2f} deg {}, {:.0f} m", name,
                            answer.file ? "weather of" : "a made year under the sun of", answer.year,
                            std::abs(answer.place.latitude_deg), answer.place.latitude_deg < 0.0 ? "south" : "north",
                            std::abs(answer.place.longitude_deg), answer.place.longitude_deg < 0.0 ? "west" : "east",
                            answer.place.elevation_m));
  text += paragraph("Source", label_width, answer.source);
  if (answer.file) text += file_text(*answer.file);
  text += fmt::format("\n{}\n{}\n", table(answer), spans(answer));
  text += days("Hottest days", answer.hottest_days);
  text += days("Coldest days", answer.coldest_days);
  text += paragraph("Range", label_width, answer.range_statement);
  for (std::size_t i = 0; i < answer.notes.size(); ++i) {
    text += paragraph(i == 0 ? "Notes" : "", label_width, answer.notes[i]);
  }
  return text;
}

}  // namespace houseleek::report
