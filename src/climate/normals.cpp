// Twelve monthly normals looked through for what cannot be.
#include "climate/normals.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "climate/calendar.hpp"

namespace houseleek::climate {
namespace {

/// Collects the issues of one set of normals.
class NormalsJudge {
 public:
  NormalsJudge(const MonthlyNormals& normals, const std::string& path) : normals_(normals), path_(path) {}

  Issues judge() {
    check_range("max_c", normals_.max_c, -45.0, 50.0);
    check_range("min_c", normals_.min_c, -50.0, 45.0);
    check_range("rain_mm", normals_.rain_mm, 0.0, 3000.0);
    if (normals_.sunshine_h) check_range("sunshine_h", *normals_.sunshine_h, 0.0, 744.0);
    if (normals_.global_mj_per_m2_d) check_range("global_mj_per_m2_d", *normals_.global_mj_per_m2_d, 0.0, 45.0);
    if (normals_.relative_humidity_frac)
      check_range("relative_humidity_frac", *normals_.relative_humidity_frac, 0.05, 1.0);
    if (normals_.dew_point_c) check_range("dew_point_c", *normals_.dew_point_c, -55.0, 35.0);
    if (normals_.wind_m_per_s) check_range("wind_m_per_s", *normals_.wind_m_per_s, 0.1, 30.0);
    if (normals_.month_mean_sd_k) check_range("month_mean_sd_k", *normals_.month_mean_sd_k, 0.0, 8.0);
    if (normals_.month_rain_sd_mm) check_range("month_rain_sd_mm", *normals_.month_rain_sd_mm, 0.0, 4000.0);
    for (std::size_t month = 0; month < n_months; ++month) check_month(month);
    return std::move(issues_);
  }

 private:
  void check_range(std::string_view name, const Months& months, double least, double most) {
    for (std::size_t month = 0; month < n_months; ++month) {
      if (months[month] >= least && months[month] <= most) continue;
      Issue& issue = add(IssueCode::out_of_range, name, month, months[month]);
      issue.limit = fmt::format("{} to {}", least, most);
      issue.message = fmt::format("{} is {}; it must be from {} to {}", issue.path, months[month], least, most);
    }
  }

  void check_month(std::size_t month) {
    constexpr double least_range_k = 1.0;
    const double range_k = normals_.max_c[month] - normals_.min_c[month];
    if (range_k < least_range_k) {
      Issue& issue = add(IssueCode::inconsistent, "max_c", month, normals_.max_c[month]);
      issue.message = fmt::format("{} is {}, the minimum {}; the maximum must lie at least {} K above", issue.path,
                                  normals_.max_c[month], normals_.min_c[month], least_range_k);
    }
    if (normals_.dew_point_c && (*normals_.dew_point_c)[month] > normals_.max_c[month]) {
      Issue& issue = add(IssueCode::inconsistent, "dew_point_c", month, (*normals_.dew_point_c)[month]);
      issue.message = fmt::format("{} is {}, above the mean maximum {}", issue.path, (*normals_.dew_point_c)[month],
                                  normals_.max_c[month]);
    }
    if (normals_.rain_days) check_rain_days(month, (*normals_.rain_days)[month]);
  }

  void check_rain_days(std::size_t month, double days) {
    const double n_days = static_cast<double>(n_days_in_month[month]);
    const double rain_mm = normals_.rain_mm[month];
    if (!(days >= 0.0 && days <= n_days + 0.5)) {  // half a day: a February of 28.25 days, rounded
      Issue& issue = add(IssueCode::out_of_range, "rain_days", month, days);
      issue.limit = fmt::format("0 to {}", n_days);
      issue.message = fmt::format("{} is {}; it must be from 0 to {}", issue.path, days, n_days);
    } else if (days == 0.0 && rain_mm > 0.0) {
      Issue& issue = add(IssueCode::inconsistent, "rain_days", month, days);
      issue.message = fmt::format("{} is 0, but the month has {} mm of rain", issue.path, rain_mm);
      issue.hint = "leave rain_days away to have them estimated";
    }
  }

  Issue& add(IssueCode code, std::string_view name, std::size_t month, double value) {
    Issue issue;
    issue.code = code;
    issue.path = path_.empty() ? fmt::format("{}[{}]", name, month) : fmt::format("{}.{}[{}]", path_, name, month);
    issue.value = fmt::format("{}", value);
    issues_.push_back(std::move(issue));
    return issues_.back();
  }

  const MonthlyNormals& normals_;
  const std::string& path_;
  Issues issues_;
};

}  // namespace

Issues issues_of_normals(const MonthlyNormals& normals, const std::string& path) {
  return NormalsJudge(normals, path).judge();
}

}  // namespace houseleek::climate
