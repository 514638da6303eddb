// Cash flows against sums done by hand, closed forms of renewal, and a simulation of its own.
#include "money/cash_flow.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

#include "base/contract.hpp"
#include "money/interest.hpp"
#include "support/reference_check.hpp"
#include "support/small_design.hpp"

namespace houseleek::money {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr double rounding = 1e-9;

double sum_of(const std::vector<double>& column) { return std::accumulate(column.begin(), column.end(), 0.0); }

Factor exact(double value) { return {"", results::exactly(value)}; }

/// Nothing is dear, nothing leaks, nothing lasts less than for ever; tests change what they are about.
Terms plain_terms(int years_counted) {
  Terms terms;
  terms.years_counted = years_counted;
  for (Factor* one : {&terms.wage_per_h, &terms.own_hours_per_module, &terms.own_hours_per_m2,
                      &terms.leak_per_year_frac, &terms.membrane_age_years, &terms.heating_per_kwh, &terms.water_per_m3,
                      &terms.electricity_kg_per_kwh, &terms.heating_kg_per_kwh}) {
    *one = exact(0.0);
  }
  terms.interest_step = exact(1.0);
  terms.energy_price_step = exact(1.0);
  terms.membrane_life_years = exact(1e6);
  terms.life_shape = exact(1.0);
  terms.electricity_per_kwh.fill(exact(0.0));
  terms.leak_repair = exact(0.0);
  terms.lifting_per_m2 = exact(0.0);
  terms.disposal_per_kg = exact(0.0);
  return terms;
}

Alternative of_one_part(double price, std::optional<double> life_years) {
  CostPart part;
  part.name = "thing";
  part.price = exact(price);
  if (life_years) part.life_years = Factor{"a life", results::exactly(*life_years)};
  Alternative alternative;
  alternative.lots.push_back({.per_unit = {.parts = {part}, .unpriced = {}, .without_life = {}},
                              .n_units = 1.0,
                              .month = 0,
                              .area_m2 = 1.0,
                              .is_module = true,
                              .recipe = 0});
  return alternative;
}

CashFlow likely_flow(const Alternative& alternative, const YearOfUse& use, const Terms& terms) {
  const FigureOf figure = likely_of;
  RenewalTable renewals(terms, figure);
  return flow_of(alternative, use, terms, figure, renewals);
}

TEST(CashFlow, RenewalsOfAnExponentialLifeComeAtAConstantRate) {
  // A life without memory: in every month the same share fails, p = 1 - exp(-log 2 / (12 L)) for a median of L years.
  const double median_years = 6.0;
  const CashFlow flow = likely_flow(of_one_part(10.0, median_years), {}, plain_terms(20));
  EXPECT_EQ(flow.renewal[0], 0.0);
  tests::check_reference({.id = "MON-70",
                          .what = "renewals in 20 years of an exponential life with a median of 6 years",
                          .source = "recomputed: 240 (1 - 2^(-1/72)), renewals of an exponential life",
                          .expected = 2.2994046080,
                          .got = sum_of(flow.renewal) / 10.0,
                          .tolerance = 1e-9,
                          .reason = "rounding of the literal",
                          .function = "money::flow_of"});
  for (std::size_t row = 2; row < flow.renewal.size(); ++row) {
    EXPECT_NEAR(flow.renewal[row], flow.renewal[1], 1e-12) << row;
  }
}

/// Lives drawn one behind the other, in years of real numbers, by the standard library's generator.
double simulated_renewals(double shape, double median_years, double n_years, int n_runs) {
  std::mt19937_64 random(20261130);
  std::weibull_distribution<double> life(shape, median_years / std::pow(std::numbers::ln2, 1.0 / shape));
  long n_renewals = 0;
  for (int run = 0; run < n_runs; ++run) {
    for (double age = life(random); age < n_years; age += life(random)) ++n_renewals;
  }
  return static_cast<double>(n_renewals) / n_runs;
}

TEST(CashFlow, RenewalsAgreeWithASimulationOfLives) {
  for (const double shape : {1.0, 2.5, 6.0}) {
    Terms terms = plain_terms(20);
    terms.life_shape = exact(shape);
    const double got = sum_of(likely_flow(of_one_part(1.0, 7.0), {}, terms).renewal);
    const double simulated = simulated_renewals(shape, 7.0, 20.0, 200000);
    // Three standard errors of 200 000 runs (a count's deviation is below 1.7), and renewal by whole months: each of the
    // two or three renewals comes half a month late, which leaves out up to 1.5 months' worth of a renewal rate.
    EXPECT_NEAR(got, simulated, 3.0 * 1.7 / std::sqrt(200000.0) + 1.5 / 12.0 / 7.0) << shape;
    EXPECT_GT(std::fabs(1.05 * got - simulated), 3.0 * 1.7 / std::sqrt(200000.0) + 1.5 / 12.0 / 7.0) << shape;
  }
}

TEST(CashFlow, BillsAreSavedByTheShareOfHeatAndTheMonthsPrice) {
  Terms terms = plain_terms(2);
  terms.cooling_kwh = exact(400.0);
  terms.electricity_per_kwh.fill(exact(0.2));
  terms.electricity_per_kwh[7] = exact(0.5);
  YearOfUse use;
  use.bare.remove_kwh[6] = 300.0;
  use.bare.remove_kwh[7] = 100.0;
  use.covered.remove_kwh[6] = 150.0;
  use.covered.remove_kwh[7] = 20.0;
  // 400 kWh of electricity for 400 kWh of heat: 150 saved at 0.2 in July, 80 at 0.5 in August.
  const CashFlow flow = likely_flow(of_one_part(10.0, std::nullopt), use, terms);
  EXPECT_NEAR(flow.cooling_saved[7], 150 * 0.2, rounding);
  EXPECT_NEAR(flow.cooling_saved[8], 80 * 0.5, rounding);
  EXPECT_NEAR(sum_of(flow.cooling_saved), 2 * 70.0, rounding);
  EXPECT_NEAR(saving_of_year(use, terms, likely_of).cooling, 70.0, rounding);
  // What was paid for it, 300 at 0.2 and 100 at 0.5, as a bill of money saves the same.
  terms.cooling_kwh.reset();
  terms.cooling_paid = exact(110.0);
  EXPECT_NEAR(saving_of_year(use, terms, likely_of).cooling, 70.0, rounding);
  EXPECT_NEAR(saving_of_year(use, terms, likely_of).cooling_kwh, 230.0, rounding);
  EXPECT_NEAR(saved_per_cooling_kwh(use, terms, likely_of), 70.0 / 400.0, rounding);
}

TEST(CashFlow, WithoutABillNothingIsSaved) {
  Terms terms = plain_terms(5);
  terms.electricity_per_kwh.fill(exact(0.3));
  YearOfUse use;
  use.bare.remove_kwh[6] = 300.0;
  const CashFlow flow = likely_flow(of_one_part(10.0, std::nullopt), use, terms);
  EXPECT_EQ(sum_of(flow.cooling_saved), 0.0);
  EXPECT_FALSE(payback_periods(net_by_year(flow), 0.0));
}

TEST(CashFlow, MoreHeatToAddCostsMoney) {
  Terms terms = plain_terms(1);
  terms.heating_kwh = exact(1000.0);
  terms.heating_per_kwh = exact(0.1);
  YearOfUse use;
  use.bare.add_kwh[0] = 500.0;
  use.covered.add_kwh[0] = 550.0;
  EXPECT_NEAR(sum_of(likely_flow(of_one_part(0.0, std::nullopt), use, terms).heating_saved), -10.0, rounding);
}

TEST(CashFlow, EnergyGrowsDearerYearByYear) {
  Terms terms = plain_terms(3);
  terms.energy_price_step = exact(1.1);
  terms.heating_kwh = exact(100.0);
  terms.heating_per_kwh = exact(1.0);
  YearOfUse use;
  use.bare.add_kwh[0] = 1.0;
  const std::vector<double> years = by_year(likely_flow(of_one_part(0.0, std::nullopt), use, terms).heating_saved);
  EXPECT_NEAR(years[1], 100.0, rounding);
  EXPECT_NEAR(years[2], 110.0, rounding);
  EXPECT_NEAR(years[3], 121.0, rounding);
}

TEST(CashFlow, LeaksLiftingOwnHoursAndDisposal) {
  Terms terms = plain_terms(20);
  terms.leak_per_year_frac = exact(0.01);
  terms.leak_repair = exact(300.0);
  terms.lifting_per_m2 = exact(5.0);
  terms.membrane_life_years = exact(10.0);  // without memory: 240 (1 - 2^(-1/120)) new ones
  terms.wage_per_h = exact(12.0);
  terms.own_hours_per_module = exact(2.0);
  terms.disposal_per_kg = exact(0.1);
  Alternative module = of_one_part(10.0, std::nullopt);
  module.lots[0].per_unit.parts[0].mass_amount = 40.0;
  const CashFlow flow = likely_flow(module, {}, terms);
  EXPECT_NEAR(sum_of(flow.leaks), 20 * 0.01 * 300, rounding);
  EXPECT_NEAR(sum_of(flow.lifting), 5.0 * 240 * (1 - std::exp2(-1.0 / 120)), rounding);
  EXPECT_NEAR(sum_of(flow.own_hours), 24.0, rounding);
  EXPECT_NEAR(sum_of(flow.disposal), 4.0, rounding);
  EXPECT_EQ(flow.disposal.back(), 4.0) << "at the end of what is counted";
  Alternative paint = of_one_part(10.0, std::nullopt);
  paint.can_leak = false;
  paint.is_lifted = false;
  paint.is_lost_with_membrane = true;
  const CashFlow painted = likely_flow(paint, {}, terms);
  EXPECT_EQ(sum_of(painted.leaks), 0.0);
  EXPECT_NEAR(sum_of(painted.lifting), 10.0 * 240 * (1 - std::exp2(-1.0 / 120)), rounding) << "painted anew";
}

TEST(CashFlow, StockComesFirstAtItsOwnPriceAndRunsOut) {
  const std::string stock = R"([[stock]]
name = "horticultural mineral wool"
amount_m3 = 0.05
[[stock]]
name = "horticultural mineral wool"
amount_m3 = 0.02
price_per_m3 = 50
[rivals])";
  const design::ValidDesign design = valid_design(edited(small_design_text(), {{"[rivals]", stock}}));
  // Four modules with 0.03 m3 each: 0.05 for nothing, 0.02 at 50, 0.05 at the shop's 140; the rest 12.34 less wool.
  const std::vector<double> outlays = outlay_of_lots(modules_of(design), terms_of(design), likely_of);
  ASSERT_EQ(outlays.size(), 1U);
  EXPECT_NEAR(outlays[0], 4 * (12.34 - 4.2) + 0.02 * 50 + 0.05 * 140, rounding);
}

TEST(CashFlow, APatchSavesFromItsMonthOnAndWhatIsBuiltTakesNothingFromTheStock) {
  const std::string text =
      edited(small_design_text(),
             {{"origin = [0.5, 0.4]", "origin = [0.5, 0.4]\nbuilt = 2026-05-01"}, {"[rivals]", R"([[patch]]
recipe = "thin stonecrop"
columns = 1
rows = 1
origin = [2.7, 0.4]
built = 2025-05-01
[[patch]]
recipe = "thin stonecrop"
columns = 1
rows = 1
origin = [2.7, 1.5]
[[stock]]
name = "horticultural mineral wool"
amount_m3 = 0.03
[rivals])"}});
  const design::ValidDesign design = valid_design(text);
  Alternative modules = modules_of(design);
  ASSERT_EQ(modules.lots.size(), 3U);
  EXPECT_EQ(modules.lots[0].n_units, 1.0) << "by month";
  EXPECT_EQ(modules.lots[2].month, 12);
  const std::vector<double> outlays = outlay_of_lots(modules, terms_of(design), likely_of);
  EXPECT_NEAR(outlays[0], 12.34, rounding);
  EXPECT_NEAR(outlays[1], 12.34 - 4.2, rounding) << "not built yet";
  EXPECT_NEAR(outlays[2], 4 * 12.34, rounding);
  modules.lots.erase(modules.lots.begin() + 1);
  Terms terms = plain_terms(2);
  terms.heating_kwh = exact(100.0);
  terms.heating_per_kwh = exact(1.0);
  YearOfUse use;
  use.bare.add_kwh[0] = 1.0;
  const CashFlow flow = likely_flow(modules, use, terms);
  const std::vector<double> saved = by_year(flow.heating_saved);
  EXPECT_NEAR(saved[1], 20.0, rounding) << "one module of five";
  EXPECT_NEAR(saved[2], 100.0, rounding);
  EXPECT_NEAR(by_year(flow.outlay)[1], 4 * 12.34, rounding) << "bought at the end of the first year";
}

TEST(CashFlow, WithoutAPriceThereIsNoFlow) {
  Alternative module = of_one_part(1.0, std::nullopt);
  module.lots[0].per_unit.unpriced = {"rag wool"};
  EXPECT_THROW((void)likely_flow(module, {}, plain_terms(1)), ContractViolation);
}

TEST(InternalRates, EveryRootIsFoundAndNoneInvented) {
  // Payments with known rates: the product of (x - 1 / (1 + r)) over several rates, x one over 1 + interest.
  const std::vector<double> rates = {-0.3, 0.05, 0.2, 0.9};
  std::vector<double> flow = {1.0};
  for (const double rate : rates) {
    std::vector<double> next(flow.size() + 1, 0.0);
    for (std::size_t i = 0; i < flow.size(); ++i) {
      next[i] -= flow[i] / (1.0 + rate);
      next[i + 1] += flow[i];
    }
    flow = next;
  }
  const std::vector<double> found = internal_rates(flow);
  ASSERT_EQ(found.size(), rates.size());
  for (std::size_t i = 0; i < rates.size(); ++i) EXPECT_NEAR(found[i], rates[i], 1e-9);
  EXPECT_TRUE(internal_rates(std::vector<double>{-1, -2, -3}).empty());
  EXPECT_TRUE(internal_rates(std::vector<double>{-10, 25, -16}).empty()) << "two changes of sign, no zero";
  EXPECT_TRUE(internal_rates(std::vector<double>{0, 0}).empty());
  const std::vector<double> touching = internal_rates(std::vector<double>{-1, 2.2, -1.21});
  ASSERT_EQ(touching.size(), 1U) << "a double zero once";
  EXPECT_NEAR(touching[0], 0.1, 1e-6);
}

TEST(Payback, CountsOutlayThatComesLater) {
  // Back after two years, and in debt again with the renewal in year three.
  EXPECT_NEAR(*payback_periods(std::vector<double>{-100, 60, 60, -50, 60}, 0.0), 3.5, rounding);
  EXPECT_EQ(*payback_periods(std::vector<double>{0, 5, 5}, 0.0), 0.0) << "nothing was ever owed";
  EXPECT_FALSE(payback_periods(std::vector<double>{-100, 10, 10}, 0.0));
}

}  // namespace
}  // namespace houseleek::money
