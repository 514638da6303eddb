// Interest: factors, present value, internal rates, and when an outlay has come back. Knows no design.
#include "money/interest.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/contract.hpp"

namespace houseleek::money {
namespace {

// Below it the differences of P/G cancel.
constexpr double smallest_interest_frac = 1e-4;

void expect_interest(double interest_frac, int n_periods) {
  expects(interest_frac > -1.0 && n_periods >= 0, "interest above -1 and periods from 0");
}

/// sum c_t exp(-s t), by Horner so that no power overflows on its own.
double value_at(const std::vector<double>& coefficients, double s) {
  const double step = std::exp(-s);
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i > 0; --i) sum = sum * step + coefficients[i - 1];
  return sum;
}

/// The size that rounding is measured against.
double scale_at(const std::vector<double>& coefficients, double s) {
  const double step = std::exp(-s);
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i > 0; --i) sum = sum * step + std::fabs(coefficients[i - 1]);
  return sum;
}

int sign_of(double value) { return value > 0.0 ? 1 : value < 0.0 ? -1 : 0; }

/// Places between which the sign changes, zeros skipped.
std::vector<std::pair<std::size_t, std::size_t>> sign_changes(const std::vector<double>& coefficients) {
  std::vector<std::pair<std::size_t, std::size_t>> changes;
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < coefficients.size(); ++i) {
    if (coefficients[i] == 0.0) continue;
    if (last && sign_of(coefficients[*last]) != sign_of(coefficients[i])) changes.emplace_back(*last, i);
    last = i;
  }
  return changes;
}

// log(1 + rate) at both ends of what is looked for: rates of -0.9999 and 1e4.
constexpr double lowest_s = -9.210340371976182;
constexpr double highest_s = 9.210440366976517;

double bisect(const std::vector<double>& coefficients, double low, double high) {
  const int sign_low = sign_of(value_at(coefficients, low));
  for (int i = 0; i < 200 && high - low > 1e-14 * std::max(1.0, std::fabs(low)); ++i) {
    const double middle = 0.5 * (low + high);
    (sign_of(value_at(coefficients, middle)) == sign_low ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// All zeros of the sum, rising.
std::vector<double> zeros_of(const std::vector<double>& coefficients) {
  const auto changes = sign_changes(coefficients);
  if (changes.empty()) return {};
  std::vector<double> marks{lowest_s};
  if (changes.size() > 1) {
    const auto [before, after] = changes[changes.size() / 2];
    const double pivot = 0.5 * static_cast<double>(before + after);
    std::vector<double> slope(coefficients.size());
    double most = 0.0;
    for (std::size_t i = 0; i < slope.size(); ++i) {
      slope[i] = (pivot - static_cast<double>(i)) * coefficients[i];
      most = std::max(most, std::fabs(slope[i]));
    }
    for (double& one : slope) one /= most;
    // A pivot on a coefficient of zero drops nothing: it is between two places, or on one that is zero already.
    for (const double zero : zeros_of(slope)) marks.push_back(zero);
  }
  marks.push_back(highest_s);
  constexpr double rounding = 1e-13;
  std::vector<double> zeros;
  const auto is_zero = [&](double s) {
    return std::fabs(value_at(coefficients, s)) <= rounding * scale_at(coefficients, s);
  };
  const auto add = [&zeros](double s) {
    if (zeros.empty() || s - zeros.back() > 1e-6) zeros.push_back(s);
  };
  for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
    const bool is_zero_low = is_zero(marks[i]);
    if (is_zero_low) add(marks[i]);
    if (is_zero_low || is_zero(marks[i + 1])) continue;
    if (sign_of(value_at(coefficients, marks[i])) != sign_of(value_at(coefficients, marks[i + 1]))) {
      add(bisect(coefficients, marks[i], marks[i + 1]));
    }
  }
  if (is_zero(marks.back())) add(marks.back());
  return zeros;
}

}  // namespace

double future_of_present(double interest_frac, int n_periods) {
  expect_interest(interest_frac, n_periods);
  return std::exp(n_periods * std::log1p(interest_frac));
}

double future_of_payments(double interest_frac, int n_periods) {
  expect_interest(interest_frac, n_periods);
  if (interest_frac == 0.0) return n_periods;
  return std::expm1(n_periods * std::log1p(interest_frac)) / interest_frac;
}

double present_of_payments(double interest_frac, int n_periods) {
  expect_interest(interest_frac, n_periods);
  if (interest_frac == 0.0) return n_periods;
  return -std::expm1(-n_periods * std::log1p(interest_frac)) / interest_frac;
}

double payment_of_present(double interest_frac, int n_periods) {
  expects(n_periods >= 1, "a period in which something is paid");
  return 1.0 / present_of_payments(interest_frac, n_periods);
}

double present_of_gradient(double interest_frac, int n_periods) {
  expect_interest(interest_frac, n_periods);
  if (std::fabs(interest_frac) < smallest_interest_frac) {
    double sum = 0.0;
    for (int t = 2; t <= n_periods; ++t) sum += (t - 1) / future_of_present(interest_frac, t);
    return sum;
  }
  return (present_of_payments(interest_frac, n_periods) - n_periods / future_of_present(interest_frac, n_periods)) /
         interest_frac;
}

double present_of_growing_payments(double interest_frac, double growth_frac, int n_periods) {
  expect_interest(interest_frac, n_periods);
  expects(growth_frac > -1.0, "growth above -1");
  const double per_period_frac = (1.0 + interest_frac) / (1.0 + growth_frac) - 1.0;
  return present_of_payments(per_period_frac, n_periods) / (1.0 + growth_frac);
}

double real_interest_frac(double nominal_frac, double rise_frac) {
  expects(nominal_frac > -1.0 && rise_frac > -1.0, "interest and rise above -1");
  return (1.0 + nominal_frac) / (1.0 + rise_frac) - 1.0;
}

double net_present_value(Flow flow, double interest_frac) {
  expects(interest_frac > -1.0, "interest above -1");
  const double per_period = 1.0 / (1.0 + interest_frac);
  double sum = 0.0;
  for (std::size_t i = flow.size(); i > 0; --i) sum = sum * per_period + flow[i - 1];
  return sum;
}

std::vector<double> internal_rates(Flow flow) {
  double most = 0.0;
  for (const double payment : flow) most = std::max(most, std::fabs(payment));
  if (most == 0.0) return {};
  std::vector<double> coefficients(flow.begin(), flow.end());
  for (double& one : coefficients) one /= most;
  std::vector<double> rates;
  for (const double s : zeros_of(coefficients)) rates.push_back(std::expm1(s));
  return rates;
}

std::optional<double> payback_periods(Flow flow, double interest_frac) {
  expects(interest_frac > -1.0, "interest above -1");
  const double per_period = 1.0 / (1.0 + interest_frac);
  double sum = 0.0;
  double before = 0.0;
  double weight = 1.0;
  std::optional<double> paid_back = 0.0;
  for (std::size_t i = 0; i < flow.size(); ++i, weight *= per_period) {
    before = sum;
    sum += weight * flow[i];
    if (sum < 0.0) {
      paid_back = std::nullopt;
    } else if (!paid_back) {
      paid_back = static_cast<double>(i) - 1.0 + (-before) / (sum - before);
    }
  }
  return paid_back;
}

}  // namespace houseleek::money
