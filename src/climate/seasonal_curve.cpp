// A value for every day from twelve monthly means, without steps and with the same monthly means.
#include "climate/seasonal_curve.hpp"

#include <cstddef>
#include <utility>

#include "numerics/lane.hpp"

namespace houseleek::climate {
namespace {

constexpr std::size_t n = n_months;

/// The two knots a day lies between, and the share of the second.
struct DayPlace {
  std::size_t before;
  std::size_t behind;
  double share_behind;
};

double middle_of_month(std::size_t month) {
  return static_cast<double>(first_day_of_month[month]) + 0.5 * static_cast<double>(n_days_in_month[month]);
}

DayPlace place_of_day(std::size_t day) {
  const double noon = static_cast<double>(day) + 0.5;
  const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
  const bool is_early = noon < middle_of_month(month);
  const std::size_t before = is_early ? (month + n - 1) % n : month;
  const std::size_t behind = (before + 1) % n;
  const double span = 0.5 * static_cast<double>(n_days_in_month[before] + n_days_in_month[behind]);
  const double to_middle = noon - middle_of_month(month);
  return {before, behind, is_early ? 1.0 + to_middle / span : to_middle / span};
}

/// Gaussian elimination with the largest pivot of each column.
Months solved(std::array<Months, n> matrix, Months right) {
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k + 1; i < n; ++i) {
      if (numerics::abs(matrix[i][k]) > numerics::abs(matrix[pivot][k])) pivot = i;
    }
    std::swap(matrix[k], matrix[pivot]);
    std::swap(right[k], right[pivot]);
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = matrix[i][k] / matrix[k][k];
      for (std::size_t j = k; j < n; ++j) matrix[i][j] -= factor * matrix[k][j];
      right[i] -= factor * right[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j) right[k] -= matrix[k][j] * right[j];
    right[k] /= matrix[k][k];
  }
  return right;
}

}  // namespace

Days seasonal_curve(const Months& means) {
  std::array<Months, n> share_of_knot{};
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
    const DayPlace place = place_of_day(day);
    const double day_share = 1.0 / static_cast<double>(n_days_in_month[month]);
    share_of_knot[month][place.before] += day_share * (1.0 - place.share_behind);
    share_of_knot[month][place.behind] += day_share * place.share_behind;
  }
  const Months knots = solved(share_of_knot, means);
  Days days{};
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const DayPlace place = place_of_day(day);
    days[day] = (1.0 - place.share_behind) * knots[place.before] + place.share_behind * knots[place.behind];
  }
  return days;
}

}  // namespace houseleek::climate
