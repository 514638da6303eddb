// Normal and gamma distributions.
#include "stats/distributions.hpp"

#include <array>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::stats {

namespace {

/// exp(x^2) erfc(x) for x >= 0.
double scaled_erfc(double x) {
  static constexpr std::array<double, 25> c{
      1.1775789345674018,     -0.0045900545806464773,  -0.084249133366517916,   0.05920993999819189,
      -0.026658668435305752,  0.0090749976707052651,   -0.0024131635404176082,  0.00049077583652580863,
      -6.9169733025012064e-5, 4.1390279860730102e-6,   7.7403830661984907e-7,   -2.1886401049234396e-7,
      1.076499946567091e-8,   4.5219598112182869e-9,   -7.7544002088313511e-10, -6.3180883408866845e-11,
      2.8687950109306699e-11, 1.9455868545777347e-13,  -9.6546967484334389e-13, 3.2525481481487398e-14,
      3.3478119482868054e-14, -1.8645628804193131e-15, -1.2507950530688647e-15, 7.4182352566240435e-17,
      5.0681489047961113e-17};
  const double t = (x - 3.75) / (x + 3.75);
  double later = 0.0;
  double latest = 0.0;
  for (std::size_t k = c.size() - 1; k > 0; --k) {
    const double next = 2.0 * t * latest - later + c[k];
    later = latest;
    latest = next;
  }
  return (t * latest - later + c[0]) / (1.0 + 2.0 * x);
}

template <std::size_t n>
double horner(const std::array<double, n>& c, double x) {
  double sum = c[n - 1];
  for (std::size_t i = n - 1; i-- > 0;) sum = sum * x + c[i];
  return sum;
}

void expect_shape(double shape) { expects(shape >= 0.01 && shape <= 1e3, "a gamma shape from 0.01 to 1000"); }

}  // namespace

double standard_normal_cdf(double z) {
  const double size = numerics::abs(z);
  expects(size >= 0.0, "a number");
  if (size > 37.6) return z < 0.0 ? 0.0 : 1.0;
  // exp(-z^2 / 2) without the rounding of the square: z = lead + rest, lead^2 exact.
  const double lead = numerics::elementary_detail::leading_26_bits(size);
  const double density = numerics::exp(-0.5 * lead * lead) * numerics::exp(-0.5 * (size - lead) * (size + lead));
  const double tail = 0.5 * density * scaled_erfc(size * 0.70710678118654752);
  return z < 0.0 ? tail : 1.0 - tail;
}

double standard_normal_quantile(double p) {
  expects(p > 0.0 && p < 1.0, "a share between 0 and 1");
  static constexpr std::array<double, 8> a{3.3871328727963666080e0,  1.3314166789178437745e+2, 1.9715909503065514427e+3,
                                           1.3731693765509461125e+4, 4.5921953931549871457e+4, 6.7265770927008700853e+4,
                                           3.3430575583588128105e+4, 2.5090809287301226727e+3};
  static constexpr std::array<double, 8> b{1.0,
                                           4.2313330701600911252e+1,
                                           6.8718700749205790830e+2,
                                           5.3941960214247511077e+3,
                                           2.1213794301586595867e+4,
                                           3.9307895800092710610e+4,
                                           2.8729085735721942674e+4,
                                           5.2264952788528545610e+3};
  static constexpr std::array<double, 8> c{
      1.42343711074968357734e0, 4.63033784615654529590e0,  5.76949722146069140550e0,  3.64784832476320460504e0,
      1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4};
  static constexpr std::array<double, 8> d{1.0,
                                           2.05319162663775882187e0,
                                           1.67638483018380384940e0,
                                           6.89767334985100004550e-1,
                                           1.48103976427480074590e-1,
                                           1.51986665636164571966e-2,
                                           5.47593808499534494600e-4,
                                           1.05075007164441684324e-9};
  static constexpr std::array<double, 8> e{
      6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,  2.96560571828504891230e-1,
      2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7};
  static constexpr std::array<double, 8> f{1.0,
                                           5.99832206555887937690e-1,
                                           1.36929880922735805310e-1,
                                           1.48753612908506148525e-2,
                                           7.86869131145613259100e-4,
                                           1.84631831751005468180e-5,
                                           1.42151175831644588870e-7,
                                           2.04426310338993978564e-15};
  const double q = p - 0.5;
  if (numerics::abs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * horner(a, r) / horner(b, r);
  }
  const double r = numerics::sqrt(-numerics::log(q < 0.0 ? p : 1.0 - p));
  const double size = r <= 5.0 ? horner(c, r - 1.6) / horner(d, r - 1.6) : horner(e, r - 5.0) / horner(f, r - 5.0);
  return q < 0.0 ? -size : size;
}

double log_gamma(double x) {
  expects(x >= 1e-10 && x <= 1e10, "an argument of log_gamma from 1e-10 to 1e10");
  double product = 1.0;
  while (x < 10.0) {
    product *= x;
    x += 1.0;
  }
  static constexpr std::array<double, 8> c{1.0 / 12.0,   -1.0 / 360.0,      1.0 / 1260.0, -1.0 / 1680.0,
                                           1.0 / 1188.0, -691.0 / 360360.0, 1.0 / 156.0,  -3617.0 / 122400.0};
  static constexpr double half_log_two_pi = 0.91893853320467274178;
  const double inverse = 1.0 / x;
  return (x - 0.5) * numerics::log(x) - x + half_log_two_pi + inverse * horner(c, inverse * inverse) -
         numerics::log(product);
}

GammaShares gamma_shares(double shape, double x) {
  expect_shape(shape);
  expects(x >= 0.0, "x >= 0");
  if (x < 1e-300) return {0.0, 1.0};
  const double log_front = shape * numerics::log(x) - x - log_gamma(shape);
  if (x < shape + 1.0) {
    double term = 1.0 / shape;
    double sum = term;
    for (double n = 1.0; term > 1e-17 * sum; n += 1.0) {
      term *= x / (shape + n);
      sum += term;
    }
    const double below = numerics::exp(log_front) * sum;
    return {below, 1.0 - below};
  }
  // Modified Lentz evaluation of 1 / (x + 1 - a - 1 (1 - a) / (x + 3 - a - ...)).
  double b = x + 1.0 - shape;
  double c = 1e300;
  double d = 1.0 / b;
  double fraction = d;
  double change = 0.0;
  for (double n = 1.0; numerics::abs(change - 1.0) > 1e-16 && n < 1e4; n += 1.0) {
    const double a = n * (shape - n);
    b += 2.0;
    d = 1.0 / (a * d + b);
    c = b + a / c;
    change = c * d;
    fraction *= change;
  }
  expects(numerics::abs(change - 1.0) <= 1e-15, "a continued fraction that converges");
  const double above = numerics::exp(log_front) * fraction;
  return {1.0 - above, above};
}

double gamma_quantile(double shape, double p) {
  expect_shape(shape);
  expects(p > 0.0 && p < 1.0, "a share between 0 and 1");
  // P < x^a / Gamma(a + 1), and Q < exp(-t) at a + sqrt(2 a t) + t: the answer lies between these two places.
  const double least_log_x = (numerics::log(p) + log_gamma(shape + 1.0)) / shape;
  if (least_log_x < -668.0 && p <= 0.5) return least_log_x < -690.0 ? 0.0 : numerics::exp(least_log_x);
  const double cube_root = 1.0 - 1.0 / (9.0 * shape) + standard_normal_quantile(p) / (3.0 * numerics::sqrt(shape));
  double log_x = cube_root > 0.3 ? numerics::log(shape * cube_root * cube_root * cube_root) : least_log_x;
  const double log_gamma_shape = log_gamma(shape);
  const bool is_lower = p <= 0.5;
  const double log_wanted = numerics::log(is_lower ? p : 1.0 - p);
  const double t = -numerics::log(1.0 - p);
  const double most_log_x = numerics::log(shape + numerics::sqrt(2.0 * shape * t) + t);
  for (int i = 0; i < 100; ++i) {
    const double x = numerics::exp(log_x);
    const GammaShares shares = gamma_shares(shape, x);
    const double share = is_lower ? shares.below : shares.above;
    const double density_by_log_x = numerics::exp(shape * log_x - x - log_gamma_shape);
    const double slope = (is_lower ? density_by_log_x : -density_by_log_x) / share;
    const double step = (log_wanted - numerics::log(share)) / slope;
    log_x = numerics::max(least_log_x, numerics::min(log_x + step, most_log_x));
    if (numerics::abs(step) <= 1e-9) return numerics::exp(log_x);  // the next step would be about its square
  }
  expects(false, "a gamma quantile that converges in 100 steps");
  return log_x;
}

}  // namespace houseleek::stats
