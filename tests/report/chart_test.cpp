// The chart kit: round ticks around the values, labels apart, classes that cover every difference, texts for every mark.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "report/chart_bars.hpp"
#include "report/chart_lines.hpp"
#include "report/chart_map.hpp"
#include "report/chart_year.hpp"
#include "report/palette.hpp"

namespace houseleek::report {
namespace {

TEST(Ticks, AreRoundAndGoAroundTheValues) {
  EXPECT_EQ(nice_ticks(3.2, 47.9, 6).values, (std::vector<double>{0, 10, 20, 30, 40, 50}));
  EXPECT_EQ(nice_ticks(-4.0, 11.0, 4).values, (std::vector<double>{-5, 0, 5, 10, 15}));
  EXPECT_EQ(nice_ticks(0.0, 0.3, 3).step, 0.1);
  EXPECT_EQ(nice_ticks(0.0, 100.0, 5).values.back(), 100.0) << "no tick beyond a round end";
  EXPECT_THROW((void)nice_ticks(0.0, std::nan(""), 5), ContractViolation);
  EXPECT_THROW((void)nice_ticks(2.0, 1.0, 5), ContractViolation);
}

TEST(Ticks, OfOneValueStandAroundIt) {
  for (const double value : {0.0, 5.0, -3.0, 1e6}) {
    const Ticks ticks = nice_ticks(value, value, 5);
    EXPECT_LT(ticks.values.front(), value);
    EXPECT_GT(ticks.values.back(), value);
  }
}

TEST(TickLabel, HasTheDecimalsOfTheStepAndATrueMinus) {
  EXPECT_EQ(tick_label(1.5, 0.5), "1.5");
  EXPECT_EQ(tick_label(40.0, 20.0), "40");
  EXPECT_EQ(tick_label(-5.0, 5.0), "\u22125");
  EXPECT_EQ(tick_label(-1e-15, 0.1), "0.0");
}

TEST(PlaceText, IsShort) {
  EXPECT_EQ(place_text(12.04), "12");
  EXPECT_EQ(place_text(12.06), "12.1");
  EXPECT_EQ(place_text(-0.04), "0");
}

TEST(RampStep, CoversTheRampAndEndsAtItsEnds) {
  EXPECT_EQ(ramp_step(0.0), 0);
  EXPECT_EQ(ramp_step(0.5), 3);
  EXPECT_EQ(ramp_step(1.0), 6);
  EXPECT_EQ(ramp_step(-3.0), 0);
  EXPECT_EQ(ramp_step(40.0), 6);
}

TEST(SquareMap, WritesEachNumberIntoItsSquareAndRefusesOthers) {
  SquareMap map;
  map.columns = 28;
  map.rows = 2;
  map.drawing.id = "m";
  map.drawing.title = "a map";
  map.drawing.description = "two squares";
  map.squares = {{"A1", "42", 0.99, "low left"}, {"AB2", "7", 0.0, "far right"}};
  const std::string text = html_from(map).text();
  // Row 1 is the lower one; AB is the 28th column.
  EXPECT_NE(text.find("<rect x=\"24\" y=\"43\" width=\"42\" height=\"42\" class=\"cell tinted ramp6\">"),
            std::string::npos);
  EXPECT_NE(text.find("<rect x=\"1158\" y=\"1\" width=\"42\" height=\"42\" class=\"cell tinted ramp0\">"),
            std::string::npos);
  EXPECT_NE(text.find(">42</text>"), std::string::npos);
  for (const char* wrong : {"", "A", "7", "A0", "a1", "AC1", "A3", "A1x"}) {
    map.squares = {{wrong, "1", 0.5, ""}};
    EXPECT_THROW((void)html_from(map), ContractViolation) << wrong;
  }
}

TEST(SpreadLabels, KeepTheirOrderAndDistance) {
  const std::vector<double> places = spread_labels({50.0, 51.0, 49.0, 95.0}, 14.0, 0.0, 100.0);
  EXPECT_LT(places[2], places[0]);
  EXPECT_LT(places[0], places[1]);
  EXPECT_EQ(places[3], 95.0);
  std::vector<double> sorted = places;
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t i = 1; i < sorted.size(); ++i) EXPECT_GE(sorted[i] - sorted[i - 1], 14.0 - 1e-12);
}

TEST(SpreadLabels, StayWithinTheirSpanWhereTheyFit) {
  const std::vector<double> places = spread_labels({98.0, 99.0, 100.0}, 14.0, 0.0, 100.0);
  EXPECT_EQ(*std::max_element(places.begin(), places.end()), 100.0);
  EXPECT_EQ(*std::min_element(places.begin(), places.end()), 72.0);
}

TEST(DifferenceClasses, CoverEveryDifference) {
  for (const std::vector<double>& differences : {std::vector<double>{-6.7, -0.2, 1.4}, std::vector<double>{0.0, 0.0},
                                                 std::vector<double>{2.0, 9.0}, std::vector<double>{-0.03, -0.01}}) {
    const DifferenceClasses classes = classes_of(differences);
    EXPECT_LE(classes.n_below, static_cast<int>(n_ramp_steps));
    for (const double difference : differences) {
      const int of_class = class_of(classes, difference);
      if (difference > 0.0) {
        EXPECT_LT(of_class, 0);
        EXPECT_GT(difference, (-of_class - 1) * classes.step - 1e-9);
        EXPECT_LE(difference, -of_class * classes.step + 1e-9);
      } else {
        EXPECT_GE(of_class, 0);
        EXPECT_LE(-difference, (of_class + 1) * classes.step + 1e-9);
        EXPECT_GE(-difference, of_class * classes.step - 1e-9);
      }
    }
  }
}

TEST(YearMap, AllHoursOfTheDayAreDrawnOnce) {
  YearMap map;
  map.drawing = {.id = "m", .title = "t", .description = "d"};
  map.heading = "h";
  map.unit = "K";
  map.first_hour = 24 * 86;
  for (int hour = 0; hour < 48; ++hour) map.values.push_back(hour % 2 == 0 ? -1.0 : 1.0);
  map.classes = classes_of(map.values);
  const std::string svg = html_from(map).text();
  std::size_t n_squares = 0;
  for (std::size_t at = svg.find('M'); at != std::string::npos; at = svg.find('M', at + 1)) {
    if (std::isdigit(static_cast<unsigned char>(svg[at + 1])) != 0) ++n_squares;
  }
  EXPECT_EQ(n_squares, 48U) << "hours that differ from their neighbours are squares of their own";
  EXPECT_NE(svg.find("28 Mar: \u22121.00 K"), std::string::npos) << svg.substr(0, 3000);
}

TEST(MonthTable, HasTheMeansOfTheMonthsThatWereKept) {
  std::vector<double> values(48, 2.0);
  for (int hour = 0; hour < 3; ++hour) values[static_cast<std::size_t>(hour)] = 5.0;
  const TableData table = month_table(24 * 86, values);
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_EQ(table.rows[0][0], "Mar");
  EXPECT_EQ(table.rows[0][1], "3.50");
  EXPECT_EQ(table.rows[0][2], "2.00");
}

TEST(DailySums, OfWholeDaysOnly) {
  EXPECT_EQ(daily_sums(std::vector<double>(50, 0.5)), (std::vector<double>{12.0, 12.0}));
  EXPECT_EQ(daily_means(std::vector<double>(24, 0.5)), (std::vector<double>{0.5}));
}

TEST(BarChart, WritesEveryValueWithItsRange) {
  BarChart chart;
  chart.drawing = {.id = "b", .title = "t", .description = "d"};
  chart.heading = "weights";
  chart.unit = "kg";
  chart.bars = {{.name = "dry", .css_class = "x", .value = 10.0, .low = 8.0, .high = 14.0, .words = "10.0"},
                {.name = "none", .css_class = "x", .value = 0.0, .low = {}, .high = {}, .words = "0"}};
  const std::string svg = html_from(chart).text();
  EXPECT_NE(svg.find("dry: 10.0 kg (8.00 to 14.0)"), std::string::npos);
  EXPECT_NE(svg.find("none: 0 kg"), std::string::npos);
}

TEST(LineChart, RefusesLinesOfDifferentLengths) {
  LineChart chart;
  chart.lines = {{"a", "x", {1, 2, 3}}, {"b", "y", {1, 2}}};
  chart.step_labels = {"1", "2", "3"};
  chart.ticks = nice_ticks(0.0, 3.0, 3);
  EXPECT_THROW((void)html_from(chart), ContractViolation);
}

}  // namespace
}  // namespace houseleek::report
