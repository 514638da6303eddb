// One comparison of a computed number with a published one; the only way a reference test speaks.
#pragma once
#include <string>

namespace houseleek::tests {

/// A published number, what we computed for it, and why the tolerance is what it is. A field without a default must be
/// given.
struct ReferenceCheck {
  std::string id;        // unique in the whole tree: SUN-01
  std::string what;      // "topocentric zenith angle, degrees"
  std::string source;    // "[reda2004] Table A5.1 (text seen)"
  double expected;       // a literal in the test file
  double got;            // what our code returned
  double tolerance;      // absolute, in the unit of `expected`
  std::string reason;    // why this tolerance
  std::string function;  // what is judged: "physics::sun_position"
  double scale = 0.0;  // size of the quantity; 0: |expected|. Give it where `expected` is 0 or far below its usual size
};

struct Comparison {
  bool is_within = false;
  double difference = 0.0;             // got - expected
  bool would_see_one_percent = false;  // an answer wrong by 1 % of the scale lies outside the tolerance
  std::string message;                 // what to print where it is not within
};

/// Pure: |got - expected| <= tolerance. NaN, an infinite number, and a tolerance that is negative are never within.
[[nodiscard]] Comparison compare(const ReferenceCheck& check);

/// One line for docs/validation.md: tab-separated, tabs and line ends inside a text replaced by blanks, no line end.
[[nodiscard]] std::string validation_row(const ReferenceCheck& check, const Comparison& comparison,
                                         const std::string& place);

/// Expects the comparison to hold, and adds its row to a file of this process in $HOUSELEEK_VALIDATION_DIR (if that is
/// set).
void check_reference(const ReferenceCheck& check, const char* file = __builtin_FILE(), int line = __builtin_LINE());

}  // namespace houseleek::tests
