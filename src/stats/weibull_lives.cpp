// Service lives that are partly known: Weibull by likelihood and with a prior.
#include "stats/weibull_lives.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "base/contract.hpp"

namespace houseleek::stats {

namespace {

using Point = std::array<double, 2>;

struct Curvature {
  double aa = 0.0;
  double bb = 0.0;
  double ab = 0.0;
};

struct Top {
  Point at{};
  double value = 0.0;
  Curvature curvature;  // second derivatives, negative definite
};

/// Newton on a smooth function of two numbers that are logarithms, so that one step width suits both.
template <class F>
Top climb(const F& f, Point at) {
  constexpr double h = 1e-4;
  const auto shifted = [&](double a, double b) { return f(Point{at[0] + a, at[1] + b}); };
  double value = f(at);
  for (int i = 0; i < 200; ++i) {
    const double up_a = shifted(h, 0.0);
    const double down_a = shifted(-h, 0.0);
    const double up_b = shifted(0.0, h);
    const double down_b = shifted(0.0, -h);
    const Curvature c{(up_a - 2.0 * value + down_a) / (h * h), (up_b - 2.0 * value + down_b) / (h * h),
                      (shifted(h, h) - shifted(h, -h) - shifted(-h, h) + shifted(-h, -h)) / (4.0 * h * h)};
    const double slope_a = (up_a - down_a) / (2.0 * h);
    const double slope_b = (up_b - down_b) / (2.0 * h);
    const double determinant = c.aa * c.bb - c.ab * c.ab;
    Point step{};
    if (c.aa < 0.0 && determinant > 0.0) {
      step = {-(c.bb * slope_a - c.ab * slope_b) / determinant, -(c.aa * slope_b - c.ab * slope_a) / determinant};
    } else {  // not yet near the top: straight uphill
      const double size = std::hypot(slope_a, slope_b);
      if (size > 0.0) step = {0.5 * slope_a / size, 0.5 * slope_b / size};
    }
    const double length = std::hypot(step[0], step[1]);
    // So near the top rounding hides every rise, and one more step of Newton's lands on it.
    if (length < 1e-6) {
      at = {at[0] + step[0], at[1] + step[1]};
      return {at, f(at), c};
    }
    double share = std::min(1.0, 1.0 / length);
    for (; share > 1e-8; share *= 0.5) {
      const Point trial{at[0] + share * step[0], at[1] + share * step[1]};
      const double there = f(trial);
      if (there >= value) {
        at = trial;
        value = there;
        break;
      }
    }
    expects(share > 1e-8, "a likelihood that rises along its own slope");
  }
  expects(false, "a likelihood whose top is found in 200 steps");
  return {};
}

/// (age / scale)^shape, the accumulated hazard.
double accumulated_hazard(const Weibull& law, double age_years) {
  return age_years > 0.0 ? std::exp(law.shape * std::log(age_years / law.scale_years)) : 0.0;
}

bool is_exact(const PartLife& life) { return life.alive_at_years == life.failed_by_years; }

double rough_scale_years(std::span<const PartLife> lives) {
  double time = 0.0;
  double n_failed = 0.0;
  for (const PartLife& life : lives) {
    const bool has_failed = std::isfinite(life.failed_by_years);
    time += life.n_parts * (has_failed ? 0.5 * (life.alive_at_years + life.failed_by_years) : life.alive_at_years);
    n_failed += has_failed ? life.n_parts : 0.0;
  }
  return time / n_failed;
}

/// Standard normal distance that 90 % lie within.
constexpr double ninety_percent_reach = 1.6448536269514722;

Weibull law_of(double log_median, double log_shape) {
  const double shape = std::exp(log_shape);
  return {shape, std::exp(log_median - std::log(std::numbers::ln2) / shape)};
}

}  // namespace

double share_in_use(const Weibull& law, double age_years) { return std::exp(-accumulated_hazard(law, age_years)); }

double median_life_years(const Weibull& law) { return law.scale_years * std::pow(std::numbers::ln2, 1.0 / law.shape); }

double log_likelihood(std::span<const PartLife> lives, const Weibull& law) {
  expects(law.shape > 0.0 && law.scale_years > 0.0, "a shape and scale above 0");
  double sum = 0.0;
  for (const PartLife& life : lives) {
    expects(life.entered_at_years >= 0.0 && life.entered_at_years <= life.alive_at_years &&
                life.alive_at_years <= life.failed_by_years && std::isfinite(life.alive_at_years),
            "ages in order: entered, seen in use, seen failed");
    const double until_alive = accumulated_hazard(law, life.alive_at_years);
    double own = accumulated_hazard(law, life.entered_at_years) - until_alive;
    if (is_exact(life)) {
      expects(life.alive_at_years > 0.0, "a failure after the first day");
      own += std::log(law.shape / life.alive_at_years) + std::log(until_alive);
    } else if (std::isfinite(life.failed_by_years)) {
      own += std::log(-std::expm1(until_alive - accumulated_hazard(law, life.failed_by_years)));
    }
    sum += life.n_parts * own;
  }
  return sum;
}

WeibullFit fit_weibull(std::span<const PartLife> lives) {
  std::map<std::pair<double, double>, double> failures;
  for (const PartLife& life : lives) {
    if (std::isfinite(life.failed_by_years)) failures[{life.alive_at_years, life.failed_by_years}] += life.n_parts;
  }
  expects(failures.size() >= 2, "failures at two different ages");
  const auto at = [&](const Point& p) { return log_likelihood(lives, {std::exp(-p[1]), std::exp(p[0])}); };
  const Top top = climb(at, {std::log(rough_scale_years(lives)), -0.4});
  const Curvature& c = top.curvature;
  const double determinant = c.aa * c.bb - c.ab * c.ab;
  return {.law = {std::exp(-top.at[1]), std::exp(top.at[0])},
          .log_likelihood = top.value,
          .variance_log_scale = -c.bb / determinant,
          .variance_log_sigma = -c.aa / determinant,
          .covariance = c.ab / determinant};
}

std::vector<WeightedLaw> weibull_posterior(std::span<const PartLife> lives, const LifePrior& prior) {
  expects(0.0 < prior.median_low_years && prior.median_low_years < prior.median_high_years && 0.0 < prior.shape_low &&
              prior.shape_low < prior.shape_high,
          "a prior with 0 < low < high");
  const double middle_median = 0.5 * (std::log(prior.median_low_years) + std::log(prior.median_high_years));
  const double middle_shape = 0.5 * (std::log(prior.shape_low) + std::log(prior.shape_high));
  const double sd_median = 0.5 * std::log(prior.median_high_years / prior.median_low_years) / ninety_percent_reach;
  const double sd_shape = 0.5 * std::log(prior.shape_high / prior.shape_low) / ninety_percent_reach;
  const auto log_weight = [&](const Point& p) {
    const double a = (p[0] - middle_median) / sd_median;
    const double b = (p[1] - middle_shape) / sd_shape;
    return log_likelihood(lives, law_of(p[0], p[1])) - 0.5 * (a * a + b * b);
  };
  const Top top = climb(log_weight, {middle_median, middle_shape});
  const Curvature& c = top.curvature;
  const double determinant = c.aa * c.bb - c.ab * c.ab;
  expects(c.aa < 0.0 && determinant > 0.0, "a posterior that is curved at its top");
  // Cholesky factor of the covariance -C^-1: one axis per column.
  const double l_aa = std::sqrt(-c.bb / determinant);
  const double l_ba = c.ab / determinant / l_aa;
  const double l_bb = std::sqrt(-c.aa / determinant - l_ba * l_ba);
  constexpr int n_half = 60;
  for (double reach = 6.0; reach <= 48.0; reach *= 2.0) {
    std::vector<WeightedLaw> laws;
    double rim = 0.0;
    // The finer the more was reached: the step stays 0.1 standard deviations.
    const int n_each = static_cast<int>(n_half * reach / 6.0);
    for (int i = -n_each; i <= n_each; ++i) {
      for (int j = -n_each; j <= n_each; ++j) {
        const double u = reach * i / n_each;
        const double v = reach * j / n_each;
        const Point p{top.at[0] + l_aa * u, top.at[1] + l_ba * u + l_bb * v};
        const double weight = std::exp(log_weight(p) - top.value);
        if (std::abs(i) == n_each || std::abs(j) == n_each) rim = std::max(rim, weight);
        if (weight > 1e-7) laws.push_back({law_of(p[0], p[1]), weight});
      }
    }
    if (rim > 1e-5) continue;
    double kept = 0.0;
    for (const WeightedLaw& law : laws) kept += law.weight;
    for (WeightedLaw& law : laws) law.weight /= kept;
    return laws;
  }
  expects(false, "a posterior that ends within 48 standard deviations");
  return {};
}

Quantiles weighted_quantiles(std::vector<WeightedValue> values, double confidence_frac) {
  expects(!values.empty() && confidence_frac > 0.0 && confidence_frac < 1.0, "values and a confidence between 0 and 1");
  std::sort(values.begin(), values.end(),
            [](const WeightedValue& a, const WeightedValue& b) { return a.value < b.value; });
  // A grid holds many points of one value: they are one step of the distribution, not many.
  std::vector<WeightedValue> merged;
  for (const WeightedValue& value : values) {
    if (!merged.empty() && value.value - merged.back().value <= 1e-9 * std::fabs(value.value)) {
      merged.back().weight += value.weight;
    } else {
      merged.push_back(value);
    }
  }
  values = std::move(merged);
  double total = 0.0;
  for (const WeightedValue& value : values) total += value.weight;
  const auto below = [&](double share) {
    double sum = 0.0;
    double place_before = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double place = (sum + 0.5 * values[i].weight) / total;
      if (place >= share) {
        if (i == 0) return values[0].value;
        const double part = (share - place_before) / (place - place_before);
        return values[i - 1].value + part * (values[i].value - values[i - 1].value);
      }
      place_before = place;
      sum += values[i].weight;
    }
    return values.back().value;
  };
  return {below(0.5 - 0.5 * confidence_frac), below(0.5), below(0.5 + 0.5 * confidence_frac)};
}

std::vector<double> expected_replacements(const Weibull& law, std::span<const PartsInUse> parts, std::size_t n_months) {
  const auto in_use = [&](double age_years, std::size_t month) {
    return accumulated_hazard(law, age_years) - accumulated_hazard(law, age_years + static_cast<double>(month) / 12.0);
  };
  const auto failing = [&](double age_years, std::size_t month) {  // in month 1, 2, ... of a part of this age
    return std::exp(in_use(age_years, month - 1)) - std::exp(in_use(age_years, month));
  };
  // Every failure adds its successors to the months behind it: f by f, so that the inner loop runs along a row.
  const auto with_renewals = [n_months](const std::vector<double>& first, const std::vector<double>& of_new) {
    std::vector<double> sums = first;
    for (std::size_t i = 1; i < n_months; ++i) {
      const double here = sums[i];
      for (std::size_t j = i + 1; j <= n_months; ++j) sums[j] += here * of_new[j - i];
    }
    return sums;
  };
  std::vector<double> of_new(n_months + 1, 0.0);
  for (std::size_t j = 1; j <= n_months; ++j) of_new[j] = failing(0.0, j);
  std::vector<double> first(n_months + 1, 0.0);
  for (const PartsInUse& part : parts) {
    expects(part.age_years >= 0.0, "an age of at least 0");
    for (std::size_t j = 1; j <= n_months; ++j) first[j] += part.n_parts * failing(part.age_years, j);
  }
  std::vector<double> sums = with_renewals(first, of_new);
  return {sums.begin() + 1, sums.end()};
}

}  // namespace houseleek::stats
