// Student's t, its power against a true difference, and the exact interval of a share.
#include "stats/student.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::stats {

namespace {

void expect_degrees(double degrees_of_freedom) {
  expects(degrees_of_freedom >= 0.1 && std::isfinite(degrees_of_freedom), "at least 0.1 degrees of freedom");
}

void expect_confidence(double confidence_frac) {
  expects(confidence_frac > 0.0 && confidence_frac < 1.0, "a confidence between 0 and 1");
}

}  // namespace

double student_quantile(double p, double degrees_of_freedom) {
  expect_degrees(degrees_of_freedom);
  expects(p > 0.0 && p < 1.0, "a share between 0 and 1");
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), p);
}

double student_two_sided_share(double t, double degrees_of_freedom) {
  expect_degrees(degrees_of_freedom);
  expects(!std::isnan(t), "a number");
  if (std::isinf(t)) return 0.0;
  return 2.0 * boost::math::cdf(boost::math::students_t(degrees_of_freedom), -std::fabs(t));
}

double power_of_t(const PowerQuestion& question) {
  expects(question.standard_error > 0.0 && std::isfinite(question.true_difference), "a difference and its error");
  expects(question.degrees_of_freedom >= 1.0, "at least one degree of freedom");
  expect_confidence(question.confidence_frac);
  const double limit = student_quantile(0.5 + 0.5 * question.confidence_frac, question.degrees_of_freedom);
  const double noncentrality = std::fabs(question.true_difference) / question.standard_error;
  if (noncentrality == 0.0) return 1.0 - question.confidence_frac;
  // Beyond this the distribution has no weight below the limit that a double could show.
  if (noncentrality > 30.0 + 10.0 * limit) return 1.0;
  const boost::math::non_central_t law(question.degrees_of_freedom, noncentrality);
  return boost::math::cdf(boost::math::complement(law, limit)) + boost::math::cdf(law, -limit);
}

ShareInterval exact_share_interval(std::size_t n_events, std::size_t n_all, double confidence_frac) {
  expects(n_all > 0 && n_events <= n_all, "events among at least one");
  expect_confidence(confidence_frac);
  const double tail = 0.5 * (1.0 - confidence_frac);
  const auto x = static_cast<double>(n_events);
  const auto n = static_cast<double>(n_all);
  ShareInterval interval;
  if (n_events > 0) interval.low = boost::math::quantile(boost::math::beta_distribution<>(x, n - x + 1.0), tail);
  if (n_events < n_all) {
    interval.high = boost::math::quantile(boost::math::beta_distribution<>(x + 1.0, n - x), 1.0 - tail);
  }
  return interval;
}

}  // namespace houseleek::stats
