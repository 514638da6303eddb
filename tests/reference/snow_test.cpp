// Drifts of snow against what stands on a flat roof.
#include "physics/snow.hpp"

#include <gtest/gtest.h>

#include <string>

#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

struct DriftRow {
  const char* id;
  double height_m;
  double ground_kn_per_m2;
  double shape;
  const char* source;
  double tolerance;
  const char* reason;
};

constexpr const char* clause = "[en1991_1_3] 6.2, a copy of the clause seen; recomputed from it by hand";
constexpr const char* worked = "[en1991_1_3] 6.2, a worked sheet of the clause (h 2.00 m, s_k 1.50) seen";

TEST(Snow, ShapeOfADrift) {
  const DriftRow rows[] = {
      {"SNOW-01", 2.0, 1.5, 2.0, worked, 1e-9, "the limit that the sheet prints, 2.67 before it"},
      {"SNOW-02", 0.5, 0.75, 1.333, clause, 5e-4, "half of the last digit"},
      {"SNOW-03", 0.2, 0.75, 0.8, clause, 1e-9, "the lower limit"},
      {"SNOW-04", 0.9, 1.6, 1.125, clause, 1e-9, "exact"},
  };
  for (const DriftRow& row : rows) {
    check_reference({.id = row.id,
                     .what = "snow at the foot of a drift over snow on the ground",
                     .source = row.source,
                     .expected = row.shape,
                     .got = physics::snow_drift(row.height_m, row.ground_kn_per_m2).peak_shape,
                     .tolerance = row.tolerance,
                     .reason = row.reason,
                     .function = "physics::snow_drift"});
  }
}

TEST(Snow, LengthOfADrift) {
  const DriftRow rows[] = {{"SNOW-05", 2.0, 1.5, 5.0, worked, 1e-9, "the lower limit that the sheet prints"},
                           {"SNOW-06", 4.0, 1.5, 8.0, clause, 1e-9, "exact"},
                           {"SNOW-07", 9.0, 1.5, 15.0, clause, 1e-9, "the upper limit"}};
  for (const DriftRow& row : rows) {
    check_reference({.id = row.id,
                     .what = "length of a drift, m",
                     .source = row.source,
                     .expected = row.shape,
                     .got = physics::snow_drift(row.height_m, row.ground_kn_per_m2).length_m,
                     .tolerance = row.tolerance,
                     .reason = row.reason,
                     .function = "physics::snow_drift"});
  }
}

}  // namespace
}  // namespace houseleek::tests
