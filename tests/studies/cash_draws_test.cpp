// Cash in many draws: what never comes back says so, common random numbers, ranges that narrow.
#include "studies/cash_draws.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "money/terms.hpp"
#include "studies/cash_words.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using tests::edited;
using tests::small_design_text;

/// A year in which modules take `share` of the summer's heat away; the other covers nothing.
YearAnswer year_of(double share) {
  YearAnswer year;
  for (std::size_t cover = 0; cover < report::n_covers; ++cover) {
    const bool is_planted = cover == report::index_of(CoverKind::planted);
    year.heat[cover].remove_kwh[6] = is_planted ? 1000.0 * (1.0 - share) : 1000.0;
  }
  return year;
}

struct Asked {
  design::ValidDesign design;
  money::Terms terms;
  std::vector<YearAnswer> years;
  [[nodiscard]] CashDrawInputs inputs(int n_draws = 300) const {
    return {.design = design, .terms = terms, .years = years, .n_draws = n_draws};
  }
};

Asked asked(const std::string& more, std::vector<YearAnswer> years) {
  const design::ValidDesign design =
      tests::valid_design(edited(small_design_text(), {{"[rivals]", more + "[rivals]"}}));
  return {design, money::terms_of(design), std::move(years)};
}

CashDraws modules_in(const Asked& one) {
  return draw_cash(one.inputs(), money::modules_of(one.design), CoverKind::planted);
}

TEST(CashDraws, WithFansOnlyNothingIsSavedAndNothingComesBack) {
  const Asked one = asked("", {year_of(0.5)});
  const CashDraws drawn = modules_in(one);
  EXPECT_EQ(*drawn.cash.cash_saving_per_year.value, 0.0);
  EXPECT_LT(drawn.cash.net_present_value.range->high, 0.0);
  EXPECT_FALSE(drawn.cash.payback.likely);
  EXPECT_EQ(drawn.cash.payback.comes_back.n_draws, 0);
  EXPECT_EQ(drawn.rates.n_none, 300);
  EXPECT_NE(payback_statement(one.terms, drawn.cash, true).find("never comes back"), std::string::npos);
  EXPECT_EQ(saving_statement(one.design, one.terms, use_of(one.years[0], CoverKind::planted)),
            "Zero: there were only fans before, and no bill for cooling or heating is described.");
}

TEST(CashDraws, ACoverThatNeverPaysBackSaysSo) {
  const Asked one = asked("[bills]\ncooling_kwh_per_year = 20\n", {year_of(0.5)});
  const CashDraws drawn = modules_in(one);
  EXPECT_GT(*drawn.cash.cash_saving_per_year.value, 0.0);
  EXPECT_FALSE(drawn.cash.payback.likely);
  EXPECT_EQ(payback_statement(one.terms, drawn.cash, true),
            "it never pays back: in none of 300 draws has the outlay come back within the 20 years counted");
}

TEST(CashDraws, LargeBillsPayBackAndTheStraightLineTells) {
  const Asked one = asked("[bills]\ncooling_kwh_per_year = 2000\n", {year_of(0.5)});
  const CashDraws drawn = modules_in(one);
  ASSERT_TRUE(drawn.cash.payback.likely);
  EXPECT_EQ(drawn.cash.payback.comes_back.n_draws, 300);
  EXPECT_LE(*drawn.cash.payback.low, *drawn.cash.payback.likely);
  EXPECT_LE(*drawn.cash.payback.likely, *drawn.cash.payback.high);
  EXPECT_GE(*drawn.cash.discounted_payback.likely, *drawn.cash.payback.likely);
  EXPECT_EQ(drawn.rates.n_one, 300);
  // The balance of the likely year turns where payback says.
  const auto balance = [&drawn](double year) { return *drawn.flow[static_cast<std::size_t>(year)].balance.value; };
  EXPECT_LT(balance(std::floor(*drawn.cash.payback.likely)), 0.0);
}

TEST(CashDraws, AlternativesMeetTheSamePricesAndYears) {
  // A rival that is the modules themselves must give the same figures to the last bit.
  const Asked one = asked("[bills]\ncooling_kwh_per_year = 900\n", {year_of(0.5), year_of(0.3)});
  const CashDraws first = modules_in(one);
  const CashDraws again = modules_in(one);
  EXPECT_EQ(first.cash.net_present_value, again.cash.net_present_value);
  EXPECT_EQ(first.flow.back().balance, again.flow.back().balance);
}

TEST(CashDraws, WithoutASpreadARangeNarrows) {
  const std::string bill = "[bills]\ncooling_kwh_per_year = 900\n";
  const auto width = [](const CashDraws& drawn) {
    return drawn.cash.net_present_value.range->high - drawn.cash.net_present_value.range->low;
  };
  const double wide = width(modules_in(asked(bill, {year_of(0.5)})));
  EXPECT_LT(width(modules_in(asked(bill + "[tariff]\nelectricity_per_kwh = 0.25\n", {year_of(0.5)}))), wide);
  EXPECT_LT(width(modules_in(asked(bill + "[money]\nreal_interest_frac = 0.02\n", {year_of(0.5)}))), wide);
  EXPECT_GT(width(modules_in(asked(bill, {year_of(0.9), year_of(0.1)}))), wide) << "years of weather widen it";
}

TEST(CashDraws, WithoutAPriceThereIsAReason) {
  const design::ValidDesign design = tests::valid_design(edited(small_design_text(), tests::wool_without_a_price()));
  const Asked one{design, money::terms_of(design), {year_of(0.5)}};
  const CashDraws drawn = modules_in(one);
  EXPECT_EQ(drawn.cash.net_present_value.because, "no price is known of rag wool: add it under [[prices.item]]");
  EXPECT_TRUE(drawn.flow.empty());
  EXPECT_EQ(payback_statement(one.terms, drawn.cash, true), drawn.cash.net_present_value.because);
}

TEST(CarbonDraws, WithoutABillItCostsCarbonAndSaysSo) {
  const Asked one = asked("", {year_of(0.5)});
  const report::CarbonAnswer carbon = draw_carbon(one.inputs(), money::modules_of(one.design));
  EXPECT_EQ(carbon.sign, "costs");
  EXPECT_NE(carbon.statement.find("nothing was bought for cooling or heating before"), std::string::npos);
  const Asked other = asked("[bills]\ncooling_kwh_per_year = 3000\n", {year_of(0.5)});
  EXPECT_EQ(draw_carbon(other.inputs(), money::modules_of(other.design)).sign, "saves");
}

}  // namespace
}  // namespace houseleek::studies
