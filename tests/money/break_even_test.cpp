// Tariff, earlier use and cost at which an outlay comes back, put back into the flow; what moves the present value.
#include "money/break_even.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "money/interest.hpp"
#include "support/small_design.hpp"

namespace houseleek::money {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

/// A summer in which the modules halve the heat to remove.
YearOfUse half_of_summer() {
  YearOfUse use;
  for (const std::size_t month : {5U, 6U, 7U}) {
    use.bare.remove_kwh[month] = 400.0;
    use.covered.remove_kwh[month] = 200.0;
  }
  return use;
}

design::ValidDesign with_bill(const std::string& bill, const std::string& more = "") {
  return valid_design(edited(small_design_text(), {{"[rivals]", "[bills]\n" + bill + "\n" + more + "[rivals]"}}));
}

double balance_after(const design::ValidDesign& design, int n_years) {
  const Terms terms = terms_of(design);
  const FigureOf figure = likely_of;
  RenewalTable renewals(terms, figure);
  const std::vector<double> years = net_by_year(flow_of(modules_of(design), half_of_summer(), terms, figure, renewals));
  return std::accumulate(years.begin(), years.begin() + n_years + 1, 0.0);
}

TEST(BreakEven, TheTariffPutBackIsJustEnough) {
  const design::ValidDesign design = with_bill("cooling_kwh_per_year = 300");
  const BreakEven found = break_even(modules_of(design), half_of_summer(), terms_of(design), 3);
  ASSERT_TRUE(found.electricity_per_kwh);
  EXPECT_FALSE(found.is_reached == (balance_after(design, 3) < 0.0));
  const std::string tariff = "[tariff]\nelectricity_per_kwh = " + std::to_string(*found.electricity_per_kwh) + "\n";
  EXPECT_NEAR(balance_after(with_bill("cooling_kwh_per_year = 300", tariff), 3), 0.0, 1e-3);
}

TEST(BreakEven, TheEarlierUsePutBackIsJustEnough) {
  // Fans only: the use that would have had to be there.
  const design::ValidDesign design = valid_design(small_design_text());
  const BreakEven found = break_even(modules_of(design), half_of_summer(), terms_of(design), 3);
  EXPECT_FALSE(found.is_reached);
  EXPECT_FALSE(found.electricity_per_kwh) << "no bill, no tariff that would help";
  ASSERT_TRUE(found.cooling_kwh_per_year);
  const std::string bill = "cooling_kwh_per_year = " + std::to_string(*found.cooling_kwh_per_year);
  EXPECT_NEAR(balance_after(with_bill(bill), 3), 0.0, 1e-3);
}

TEST(BreakEven, NothingHelpsWhereTheModulesLeaveMoreHeat) {
  YearOfUse use = half_of_summer();
  std::swap(use.bare, use.covered);
  const design::ValidDesign design = with_bill("cooling_kwh_per_year = 300");
  const BreakEven found = break_even(modules_of(design), use, terms_of(design), 10);
  EXPECT_FALSE(found.is_reached);
  EXPECT_FALSE(found.electricity_per_kwh);
  EXPECT_FALSE(found.cooling_kwh_per_year);
  for (const QuickPayback& row : quick_paybacks(modules_of(design), use, terms_of(design))) {
    EXPECT_FALSE(row.kwh_for_one_year);
  }
}

TEST(BreakEven, TheUseForOneYearIsThatOfItsTable) {
  const design::ValidDesign design = valid_design(small_design_text());
  const std::vector<QuickPayback> rows = quick_paybacks(modules_of(design), half_of_summer(), terms_of(design));
  ASSERT_EQ(rows.size(), 9U);
  // The middle row has the design's own cost and price: the earlier use that break_even finds.
  const BreakEven one = break_even(modules_of(design), half_of_summer(), terms_of(design), 1);
  EXPECT_NEAR(*rows[4].kwh_for_one_year, *one.cooling_kwh_per_year, 1e-6 * *one.cooling_kwh_per_year);
  EXPECT_LT(*rows[0].kwh_for_two_years, *rows[0].kwh_for_one_year);
}

TEST(Sensitivities, TheGreatestFirstAndEachAsTheFlowHasIt) {
  const design::ValidDesign design = with_bill("cooling_kwh_per_year = { low = 100, likely = 3000, high = 9000 }");
  const Terms terms = terms_of(design);
  const std::vector<Sensitivity> all = sensitivities(modules_of(design), half_of_summer(), terms);
  ASSERT_GE(all.size(), 10U);
  EXPECT_EQ(all.front().path, "bills.cooling_kwh_per_year");
  EXPECT_LT(all.front().low_gives, all.front().high_gives);
  for (std::size_t i = 1; i < all.size(); ++i) {
    EXPECT_GE(std::fabs(all[i - 1].high_gives - all[i - 1].low_gives), std::fabs(all[i].high_gives - all[i].low_gives));
  }
  const FigureOf figure = [](const Factor& factor) {
    return factor.path == "bills.cooling_kwh_per_year" ? factor.range.low : likely_of(factor);
  };
  RenewalTable renewals(terms, figure);
  const std::vector<double> net = net_by_year(flow_of(modules_of(design), half_of_summer(), terms, figure, renewals));
  EXPECT_NEAR(all.front().low_gives, net_present_value(net, likely_of(terms.interest_step) - 1.0), 1e-9);
}

}  // namespace
}  // namespace houseleek::money
