// Interest factors, present values, internal rates and paybacks against tables, published examples and recomputed cases.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "money/interest.hpp"
#include "support/reference_check.hpp"

namespace houseleek::money {
namespace {

using tests::check_reference;

constexpr const char* tables = "factor tables of engineering economics (from memory, recomputed)";
constexpr const char* numpy = "[numpy_irr] Examples (text seen)";
constexpr const char* recomputed = "recomputed from the definition";

struct Row {
  const char* id;
  const char* what;
  const char* source;
  double expected;
  double got;
  double tolerance;
  const char* function;
};

void check(const Row& row) {
  check_reference({.id = row.id,
                   .what = row.what,
                   .source = row.source,
                   .expected = row.expected,
                   .got = row.got,
                   .tolerance = row.tolerance,
                   .reason = "half of the last printed digit",
                   .function = row.function});
}

TEST(MoneyReference, InterestFactors) {
  const Row rows[] = {
      {"MON-01", "P/A 3 %, 25", tables, 17.4131, present_of_payments(0.03, 25), 5e-5, "money::present_of_payments"},
      {"MON-02", "A/P 3 %, 25", tables, 0.05743, payment_of_present(0.03, 25), 5e-6, "money::payment_of_present"},
      {"MON-03", "P/A 5 %, 10", tables, 7.7217, present_of_payments(0.05, 10), 5e-5, "money::present_of_payments"},
      {"MON-04", "A/P 5 %, 10", tables, 0.12950, payment_of_present(0.05, 10), 5e-6, "money::payment_of_present"},
      {"MON-05", "P/A 5 %, 20", tables, 12.4622, present_of_payments(0.05, 20), 5e-5, "money::present_of_payments"},
      {"MON-06", "A/P 5 %, 20", tables, 0.08024, payment_of_present(0.05, 20), 5e-6, "money::payment_of_present"},
      {"MON-07", "P/A 8 %, 5", tables, 3.9927, present_of_payments(0.08, 5), 5e-5, "money::present_of_payments"},
      {"MON-08", "A/P 8 %, 5", tables, 0.25046, payment_of_present(0.08, 5), 5e-6, "money::payment_of_present"},
      {"MON-09", "P/A 10 %, 10", tables, 6.1446, present_of_payments(0.10, 10), 5e-5, "money::present_of_payments"},
      {"MON-10", "A/P 10 %, 10", tables, 0.16275, payment_of_present(0.10, 10), 5e-6, "money::payment_of_present"},
      {"MON-11", "F/P 10 %, 10", tables, 2.5937, future_of_present(0.10, 10), 5e-5, "money::future_of_present"},
      {"MON-12", "F/A 10 %, 10", tables, 15.9374, future_of_payments(0.10, 10), 5e-5, "money::future_of_payments"},
      {"MON-13", "P/A 12 %, 15", tables, 6.8109, present_of_payments(0.12, 15), 5e-5, "money::present_of_payments"},
      {"MON-14", "A/P 12 %, 15", tables, 0.14682, payment_of_present(0.12, 15), 5e-6, "money::payment_of_present"},
      {"MON-15", "P/G 10 %, 10", tables, 22.8913, present_of_gradient(0.10, 10), 5e-5, "money::present_of_gradient"},
      {"MON-16", "P/A 0.25 %, 25", "[interest_tables] 0.25 %, n = 25 (text seen)", 24.2055,
       present_of_payments(0.0025, 25), 5e-5, "money::present_of_payments"},
      {"MON-17", "P/G 0.25 %, 25", "[interest_tables] 0.25 %, n = 25 (text seen)", 287.3230,
       present_of_gradient(0.0025, 25), 5e-5, "money::present_of_gradient"},
      {"MON-18", "F/A 0.25 %, 25", "[interest_tables] 0.25 %, n = 25 (text seen)", 25.76457,
       future_of_payments(0.0025, 25), 5e-6, "money::future_of_payments"},
      {"MON-19", "F/P 0.25 %, 25", "[interest_tables] 0.25 %, n = 25 (text seen)", 1.0644,
       future_of_present(0.0025, 25), 5e-5, "money::future_of_present"},
      {"MON-20", "A/P 0.25 %, 25", "[interest_tables] 0.25 %, n = 25 (text seen)", 0.04131,
       payment_of_present(0.0025, 25), 5e-6, "money::payment_of_present"},
      {"MON-21", "geometric row 100, 3 % growth, 8 %, 10", recomputed, 755.0134,
       100.0 * present_of_growing_payments(0.08, 0.03, 10), 5e-5, "money::present_of_growing_payments"},
      {"MON-22", "real interest of 7 % at 2.5 %", recomputed, 0.043902, real_interest_frac(0.07, 0.025), 5e-7,
       "money::real_interest_frac"},
  };
  for (const Row& row : rows) check(row);
}

const std::vector<double> level = {-1000, 300, 300, 300, 300, 300};
const std::vector<double> rising = {-1200, 150, 250, 350, 450, 550};

TEST(MoneyReference, NetPresentValues) {
  const char* function = "money::net_present_value";
  const Row rows[] = {
      {"MON-30", "-1000, 5 x 300, 3 %", recomputed, 373.9122, net_present_value(level, 0.03), 5e-5, function},
      {"MON-31", "-1000, 5 x 300, 5 %", recomputed, 298.8430, net_present_value(level, 0.05), 5e-5, function},
      {"MON-32", "-1000, 5 x 300, 8 %", recomputed, 197.8130, net_present_value(level, 0.08), 5e-5, function},
      {"MON-33", "-1200, 150 to 550, 8 %", recomputed, 136.1491, net_present_value(rising, 0.08), 5e-5, function},
      {"MON-34", "-100, 39, 59, 55, 20, 28.1 %", "[numpy_irr] Examples of npv (text seen)", -0.0084785916384548798,
       net_present_value(std::vector<double>{-100, 39, 59, 55, 20}, 0.281), 1e-12, function},
  };
  for (const Row& row : rows) check(row);
}

double only_rate(const std::vector<double>& flow) {
  const std::vector<double> rates = internal_rates(flow);
  EXPECT_EQ(rates.size(), 1U);
  return rates.empty() ? -1.0 : rates.front();
}

TEST(MoneyReference, InternalRates) {
  const char* function = "money::internal_rates";
  const std::vector<double> both = internal_rates(std::vector<double>{-1000, 2500, -1540});
  ASSERT_EQ(both.size(), 2U);
  // The published value is the one nearest to zero of two.
  const std::vector<double> three = internal_rates(std::vector<double>{-100, 100, 0, -7});
  ASSERT_EQ(three.size(), 2U);
  const Row rows[] = {
      {"MON-40", "-1000, 5 x 300", recomputed, 0.152382, only_rate(level), 5e-7, function},
      {"MON-41", "-1200, 150 to 550", recomputed, 0.114561, only_rate(rising), 5e-7, function},
      {"MON-42", "-100, 60, 60", recomputed, 0.130662, only_rate({-100, 60, 60}), 5e-7, function},
      {"MON-43", "-1000, 2500, -1540, the lower of two", "recomputed: roots of a quadratic", 0.10, both.front(), 1e-9,
       function},
      {"MON-44", "-1000, 2500, -1540, the higher of two", "recomputed: roots of a quadratic", 0.40, both.back(), 1e-9,
       function},
      {"MON-45", "-100, 39, 59, 55, 20", numpy, 0.28095, only_rate({-100, 39, 59, 55, 20}), 5e-6, function},
      {"MON-46", "-100, 0, 0, 74", numpy, -0.0955, only_rate({-100, 0, 0, 74}), 5e-5, function},
      {"MON-47", "-100, 100, 0, -7, the higher of two", numpy, -0.0833, three.back(), 5e-5, function},
      {"MON-48", "-100, 100, 0, 7", numpy, 0.06206, only_rate({-100, 100, 0, 7}), 5e-6, function},
      {"MON-49", "-250000, 100000 to 300000", "[numpy_irr] the package's first page (text seen)", 0.5672303344358536,
       only_rate({-250000, 100000, 150000, 200000, 250000, 300000}), 1e-12, function},
  };
  for (const Row& row : rows) check(row);
}

TEST(MoneyReference, Paybacks) {
  const char* function = "money::payback_periods";
  const auto years = [](const std::vector<double>& flow, double interest_frac) {
    return payback_periods(flow, interest_frac).value_or(-1.0);
  };
  const Row rows[] = {
      {"MON-60", "-1000, 5 x 300, 5 %", recomputed, 3.7416, years(level, 0.05), 5e-5, function},
      {"MON-61", "-1000, 5 x 300, 8 %", recomputed, 4.0312, years(level, 0.08), 5e-5, function},
      {"MON-62", "-1200, 150 to 550, 8 %", recomputed, 4.6363, years(rising, 0.08), 5e-5, function},
      {"MON-63", "-1000, 5 x 300, simple", "recomputed: 1000 / 300", 3.33333, years(level, 0.0), 5e-6, function},
  };
  for (const Row& row : rows) check(row);
}

}  // namespace
}  // namespace houseleek::money
