// The answer of `houseleek weather` as a JSON document.
#include "report/weather_json.hpp"

namespace houseleek::report {
namespace {

template <std::size_t n>
Json json_from_days(const std::array<WeatherDay, n>& days) {
  Json list = Json::array();
  for (const WeatherDay& day : days) {
    list.push_back({{"date", day.date}, {"mean_c", day.mean_c}, {"max_c", day.max_c}, {"min_c", day.min_c}});
  }
  return list;
}

Json json_from_months(const WeatherInUseAnswer& answer) {
  climate::Months humidity_percent{};
  for (std::size_t month = 0; month < humidity_percent.size(); ++month) {
    humidity_percent[month] = 100.0 * answer.months.relative_humidity_frac[month];
  }
  return {{"max_c", answer.months.max_c},
          {"min_c", answer.months.min_c},
          {"mean_c", answer.months.mean_c},
          {"highest_c", answer.extremes.highest_c},
          {"lowest_c", answer.extremes.lowest_c},
          {"dew_point_c", answer.extremes.dew_point_c},
          {"relative_humidity_percent", humidity_percent},
          {"global_mj_per_m2_d", answer.months.global_mj_per_m2_d},
          {"rain_mm", answer.months.rain_mm},
          {"wet_days", answer.months.wet_days},
          {"wettest_day_mm", answer.extremes.wettest_day_mm},
          {"wind_m_per_s", answer.months.wind_m_per_s}};
}

Json or_null(const std::optional<climate::Months>& months) { return months ? Json(*months) : Json(nullptr); }

Json json_from_normals(const std::optional<climate::MonthlyNormals>& normals) {
  if (!normals) return nullptr;
  Json humidity_percent = nullptr;
  if (normals->relative_humidity_frac) {
    climate::Months percent = *normals->relative_humidity_frac;
    for (double& month : percent) month *= 100.0;
    humidity_percent = percent;
  }
  return {{"max_c", normals->max_c},
          {"min_c", normals->min_c},
          {"rain_mm", normals->rain_mm},
          {"wet_days", or_null(normals->rain_days)},
          {"global_mj_per_m2_d", or_null(normals->global_mj_per_m2_d)},
          {"relative_humidity_percent", humidity_percent},
          {"dew_point_c", or_null(normals->dew_point_c)},
          {"wind_m_per_s", or_null(normals->wind_m_per_s)}};
}

Json json_from_file(const std::optional<climate::FileReport>& file) {
  if (!file) return nullptr;
  Json findings = Json::array();
  for (const climate::Finding& one : file->findings) {
    findings.push_back({{"about", one.about}, {"is", one.is}, {"evidence", one.evidence}});
  }
  Json columns = Json::array();
  for (const climate::UsedColumn& one : file->columns) {
    columns.push_back({{"name", one.name},
                       {"header", one.header},
                       {"number", one.number},
                       {"unit", one.unit},
                       {"unit_evidence", one.unit_evidence},
                       {"n_values", one.n_values},
                       {"n_missing", one.n_missing}});
  }
  Json gaps = Json::array();
  for (const climate::FilledColumn& one : file->filled) gaps.push_back({{"name", one.name}, {"filled_h", one.n_hours}});
  Json estimated = Json::array();
  for (const climate::EstimatedColumn& one : file->estimated) {
    estimated.push_back({{"name", one.name}, {"method", one.method}});
  }
  return {{"findings", std::move(findings)},
          {"columns", std::move(columns)},
          {"unused_columns", file->unused_columns},
          {"complete_years", file->complete_years},
          {"gaps", std::move(gaps)},
          {"estimated", std::move(estimated)}};
}

}  // namespace

Json json_from(const WeatherInUseAnswer& answer) {
  return {{"answer", "weather"},
          {"is_valid", true},
          {"name", answer.design_name},
          {"source", answer.source},
          {"place",
           {{"latitude_deg", answer.place.latitude_deg},
            {"longitude_deg", answer.place.longitude_deg},
            {"elevation_m", answer.place.elevation_m},
            {"utc_offset_h", answer.place.utc_offset_h}}},
          {"year", answer.year},
          {"file", json_from_file(answer.file)},
          {"issues", answer.file ? json_from_issues(answer.file->warnings) : Json::array()},
          {"months", json_from_months(answer)},
          {"normals", json_from_normals(answer.normals)},
          {"hottest_days", json_from_days(answer.hottest_days)},
          {"coldest_days", json_from_days(answer.coldest_days)},
          {"range_statement", answer.range_statement},
          {"notes", answer.notes}};
}

}  // namespace houseleek::report
