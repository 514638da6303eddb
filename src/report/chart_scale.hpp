// Where values stand on an axis, and which round values are written beside it.
#pragma once
#include <string>
#include <vector>

namespace houseleek::report {

/// A straight line from values to places: domain_low to place_low, domain_high to place_high.
struct Scale {
  double domain_low = 0.0;
  double domain_high = 1.0;
  double place_low = 0.0;
  double place_high = 1.0;
  [[nodiscard]] double operator()(double value) const {
    return place_low + (value - domain_low) / (domain_high - domain_low) * (place_high - place_low);
  }
};

/// Distance of round values: 1, 2 or 5 times a power of ten, the least that needs no more than `most` steps.
/// Errors: ContractViolation unless low < high, both finite, and most > 0.
[[nodiscard]] double nice_step(double low, double high, int most);

struct Ticks {
  double step = 1.0;
  std::vector<double>
      values;  // multiples of step; the first at or below the least value, the last at or above the most
};
/// Round values around all of [low, high]; a span of nothing is widened by one step on each side.
[[nodiscard]] Ticks nice_ticks(double low, double high, int most);

/// As many decimals as the step needs: 0.5 -> "1.5", 20 -> "40"; a true minus sign.
[[nodiscard]] std::string tick_label(double value, double step);

/// A place in a drawing: one decimal, no trailing zero.
[[nodiscard]] std::string place_text(double place);

}  // namespace houseleek::report
