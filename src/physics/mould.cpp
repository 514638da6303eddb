// Growth and decline of mould by the hour.
#include "physics/mould.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::physics {
namespace {

struct ClassFigures {
  double k1_below_1 = 0.0;
  double k1_above_1 = 0.0;
  double a = 0.0;
  double b = 0.0;
  double c = 0.0;
  double least_percent = 80.0;
};

ClassFigures figures_of(MouldClass sensitivity) {
  switch (sensitivity) {
    case MouldClass::very_sensitive:
      return {1.0, 2.0, 1.0, 7.0, 2.0, 80.0};
    case MouldClass::sensitive:
      return {0.578, 0.386, 0.3, 6.0, 1.0, 80.0};
    case MouldClass::medium_resistant:
      return {0.072, 0.097, 0.0, 5.0, 1.5, 85.0};
  }
  expects(false, "a class of the list");
  return {};
}

constexpr double hottest_growth_c = 50.0;
constexpr double hours_a_day = 24.0;
constexpr double days_a_week = 7.0;
constexpr double first_hours = 6.0;

double critical_percent(const ClassFigures& figures, double temperature_c) {
  // The cubic is meant up to 20 degC; beyond, the least humidity holds.
  if (temperature_c >= 20.0) return figures.least_percent;
  const double t = numerics::max(0.0, temperature_c);
  return numerics::max(figures.least_percent, ((-0.00267 * t + 0.16) * t - 3.13) * t + 100.0);
}

}  // namespace

double critical_mould_humidity(MouldClass sensitivity, double temperature_c) {
  return 0.01 * critical_percent(figures_of(sensitivity), temperature_c);
}

MouldState mould_after_hour(MouldClass sensitivity, const MouldState& before, double temperature_c, double humidity,
                            double decline_frac) {
  expects(decline_frac >= 0.0 && decline_frac <= 1.0 && humidity >= 0.0 && humidity <= 1.0,
          "a share of the decline and a humidity within 0 to 1");
  const ClassFigures figures = figures_of(sensitivity);
  const double percent = 100.0 * humidity;
  const double critical = critical_percent(figures, temperature_c);
  MouldState after;
  if (temperature_c > 0.0 && temperature_c < hottest_growth_c && percent >= critical) {
    // At 0 degC the critical humidity is saturation itself.
    const double excess = critical < 100.0 ? (percent - critical) / (100.0 - critical) : 0.0;
    const double most = numerics::max(0.0, figures.a + figures.b * excess - figures.c * excess * excess);
    const double k1 = before.index < 1.0 ? figures.k1_below_1 : figures.k1_above_1;
    const double k2 = numerics::max(0.0, 1.0 - numerics::exp(2.3 * (before.index - most)));
    const double weeks = numerics::exp(-0.68 * numerics::log(temperature_c) - 13.9 * numerics::log(percent) + 66.02);
    after.index = before.index + k1 * k2 / (days_a_week * weeks * hours_a_day);
    return after;
  }
  after.hours_unfit = before.hours_unfit + 1.0;
  double by_day = -0.016;
  if (after.hours_unfit <= first_hours) by_day = -0.032;
  if (after.hours_unfit > first_hours && after.hours_unfit <= hours_a_day) by_day = 0.0;
  after.index = numerics::max(0.0, before.index + decline_frac * by_day / hours_a_day);
  return after;
}

}  // namespace houseleek::physics
