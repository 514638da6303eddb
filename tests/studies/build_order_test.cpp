// What to build next on the small house: places, loads, wishes, budgets, and that a step's gain is what a run shows.
#include "studies/build_order.hpp"

#include <gtest/gtest.h>

#include "base/issue_text.hpp"
#include "studies/small_study.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/example_house.hpp"

namespace houseleek::studies {
namespace {

using tests::checked_design_text;
using tests::edited;
using tests::short_options;

OrderWanted with_money(std::vector<double> budgets) {
  OrderWanted wanted;
  wanted.budgets = std::move(budgets);
  return wanted;
}

report::OrderAnswer order_of(const std::string& text, const OrderWanted& wanted = {}) {
  const Result<design::RawDesign> description = design::parse_design(text, "roof.toml");
  const catalogue::Catalogue catalogue = tests::shipped_catalogue();
  const design::ValidDesign design = tests::valid_design(text);
  const Result<climate::WeatherYear> weather = make_weather(design, std::nullopt);
  EXPECT_TRUE(weather);
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather.value());
  const RunInputs year = run_inputs_of(design, layout, weather.value(), limits, short_options().run);
  return order({description.value(), catalogue, year}, wanted, run_in_turn, {});
}

TEST(CandidatePlaces, LieFreeAndDoNotTouch) {
  const design::ValidDesign design = tests::valid_design(checked_design_text());
  const std::vector<geometry::RectangleM> places = candidate_places(design, 0);
  ASSERT_FALSE(places.empty());
  for (std::size_t i = 0; i < places.size(); ++i) {
    EXPECT_TRUE(geometry::is_inside(design->roof.outline, places[i]));
    for (const design::ModulePlace& laid : design->modules) {
      EXPECT_FALSE(geometry::is_overlapping(laid.rectangle, places[i]));
    }
    for (std::size_t j = i + 1; j < places.size(); ++j) EXPECT_FALSE(geometry::is_overlapping(places[i], places[j]));
  }
}

TEST(CandidatePlaces, TheLongerDescriptionStands) {
  const std::string text = checked_design_text();
  const design::ValidDesign design = tests::valid_design(text);
  const std::vector<geometry::RectangleM> places = candidate_places(design, 0);
  const design::ValidDesign longer = tests::valid_design(text_with_modules(text, "thin stonecrop", places));
  ASSERT_EQ(longer->modules.size(), design->modules.size() + places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const geometry::RectangleM& laid = longer->modules[design->modules.size() + i].rectangle;
    EXPECT_NEAR(laid.left_m, places[i].left_m, 1e-5);
    EXPECT_NEAR(laid.bottom_m, places[i].bottom_m, 1e-5);
  }
}

TEST(BuildOrder, StepsStayWithinTheMoneyAndSayWhy) {
  const report::OrderAnswer all = order_of(checked_design_text(), with_money({1000.0}));
  ASSERT_GE(all.steps.size(), 2U);
  EXPECT_TRUE(all.about.is_exact);
  EXPECT_EQ(all.about.most_loss_k_h, 0.0);
  for (const report::OrderStep& step : all.steps) {
    EXPECT_GT(step.gain_k_h, 0.0);
    EXPECT_NEAR(step.cost, 12.34, 1e-6) << "as the plain sums have it";
    EXPECT_EQ(step.rooms, std::vector<std::string>{"bedroom"});
    EXPECT_NE(step.reason.find("bedroom gains"), std::string::npos);
  }
  const report::OrderAnswer one = order_of(checked_design_text(), with_money({13.0}));
  ASSERT_EQ(one.steps.size(), 1U);
  EXPECT_GE(one.steps[0].gain_k_h, all.steps[1].gain_k_h - 1e-9);
  const report::OrderAnswer none = order_of(checked_design_text(), with_money({5.0}));
  EXPECT_TRUE(none.steps.empty());
  EXPECT_EQ(none.about.because, "the first module costs 12.3 EUR");
  const report::OrderAnswer two = order_of(checked_design_text(), with_money({13.0, 13.0}));
  ASSERT_EQ(two.steps.size(), 2U);
  EXPECT_EQ(two.steps[1].season, 2);
}

TEST(BuildOrder, StockMakesTheFirstStepsCheap) {
  const std::string text =
      edited(checked_design_text(),
             {{"origin = [0.5, 0.4]", "origin = [0.5, 0.4]\nbuilt = 2025-05-01"},
              {"[rivals]", "[[stock]]\nname = \"horticultural mineral wool\"\namount_m3 = 0.03\n[rivals]"}});
  const report::OrderAnswer answer = order_of(text, with_money({1000.0}));
  ASSERT_GE(answer.steps.size(), 2U);
  EXPECT_NEAR(answer.steps[0].cost, 12.34 - 4.2, 1e-6);
  EXPECT_NE(answer.steps[0].reason.find("from the stock"), std::string::npos);
  EXPECT_NEAR(answer.steps[1].cost, 12.34, 1e-6);
}

TEST(BuildOrder, PinsComeFirstAndBansNever) {
  const design::ValidDesign design = tests::valid_design(checked_design_text());
  const std::vector<geometry::RectangleM> places = candidate_places(design, 0);
  const geometry::RectangleM& last = places.back();
  const geometry::PointM middle{0.5 * (last.left_m + last.right_m), 0.5 * (last.bottom_m + last.top_m)};
  OrderWanted wanted = with_money({1000.0});
  wanted.pins = {middle};
  const report::OrderAnswer pinned = order_of(checked_design_text(), wanted);
  ASSERT_FALSE(pinned.steps.empty());
  EXPECT_TRUE(std::any_of(pinned.steps.begin(), pinned.steps.end(), [](const report::OrderStep& one) {
    return one.reason.find("wanted by you") != std::string::npos;
  }));
  wanted.pins.clear();
  wanted.bans = {middle};
  for (const report::OrderStep& step : order_of(checked_design_text(), wanted).steps) {
    EXPECT_FALSE(step.left_m == last.left_m && step.bottom_m == last.bottom_m);
  }
  wanted.pins = {{0.6, 0.5}};  // under what is laid already
  EXPECT_EQ(order_of(checked_design_text(), wanted).about.left_out.size(), 1U);
}

TEST(BuildOrder, WithoutTheEngineersFigureThereIsNoVerdict) {
  const report::OrderAnswer answer =
      order_of(edited(checked_design_text(), {{"who = \"A. Engineer\"\n", ""}}), with_money({100.0}));
  EXPECT_NE(answer.about.load_statement.find("no verdict"), std::string::npos);
  EXPECT_NE(answer.about.load_statement.find("Ask an engineer"), std::string::npos);
}

TEST(BuildOrder, NothingNextWhereWhatLiesThereIsTooHeavy) {
  const report::OrderAnswer answer =
      order_of(edited(checked_design_text(), {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.3"}}), with_money({100.0}));
  EXPECT_TRUE(answer.steps.empty());
  EXPECT_NE(answer.about.statement.find("not shown to stay within"), std::string::npos);
}

TEST(BuildOrder, AFirstModuleOnOneSpanOfSeveralIsRefusedWithTheQuestionToAsk) {
  const std::string two_spans =
      edited(tests::with_patches(checked_design_text(), ""), {{"supports_at_m = [0, 4]", "supports_at_m = [0, 2, 4]"}});
  const report::OrderAnswer answer = order_of(two_spans, with_money({100.0}));
  EXPECT_TRUE(answer.steps.empty());
  EXPECT_NE(answer.about.statement.find("places are free"), std::string::npos) << answer.about.statement;
  EXPECT_NE(answer.about.statement.find("spans_by_turns"), std::string::npos);
  EXPECT_EQ(answer.about.load_statement.find("every step"), std::string::npos) << answer.about.load_statement;
}

TEST(BuildOrder, TheGainOfAllStepsIsThatOfTheRunWithAllLaid) {
  const report::OrderAnswer answer = order_of(checked_design_text(), with_money({1000.0}));
  ASSERT_EQ(answer.about.responses.size(), 1U);
  const report::RoomResponse& response = answer.about.responses[0];
  if (static_cast<int>(answer.steps.size()) == answer.about.n_places) {
    EXPECT_NEAR(answer.about.gain_k_h, response.gain_k_h.back() - response.gain_k_h.front(), 1e-6);
  }
  EXPECT_GT(response.gain_k_h.back(), response.gain_k_h.front());
}

TEST(PointFromWords, SquaresAndCoordinates) {
  const design::ValidDesign design = tests::valid_design(checked_design_text());
  const std::optional<geometry::PointM> square = point_from_words(design, "B2");
  ASSERT_TRUE(square);
  EXPECT_NEAR(square->x_m, 1.5, 1e-9);
  EXPECT_NEAR(square->y_m, 1.5, 1e-9);
  const std::optional<geometry::PointM> point = point_from_words(design, "2.5,0.75");
  ASSERT_TRUE(point);
  EXPECT_NEAR(point->y_m, 0.75, 1e-9);
  for (const char* wrong : {"Z9", "b2", "", "1", "1,", "x,y", "9,9"})
    EXPECT_FALSE(point_from_words(design, wrong)) << wrong;
}

}  // namespace
}  // namespace houseleek::studies
