// Ranges: figures of years put together, and every figure of an answer with its range or why it has none.
#include "studies/ranges.hpp"

#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include "report/study_json.hpp"
#include "stats/quantile.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;
using report::Json;
using tests::short_options;
using tests::small_design_text;
using tests::study_of;

const std::string of_years = "5 years";

std::vector<Figure> figures(const std::vector<double>& values) {
  std::vector<Figure> list;
  for (const double value : values) list.push_back(results::figure_without_range(value, "one year's weather only"));
  return list;
}

TEST(AcrossYears, MedianTenthAndNinetiethPart) {
  const Figure figure = across_years(figures({5.0, 1.0, 4.0, 2.0, 3.0}), of_years);
  // n = 5: the place of 10 % is 0.87, below the first; of 90 % 5.13, above the last.
  EXPECT_EQ(*figure.value, 3.0);
  EXPECT_EQ(figure.range->low, 1.0);
  EXPECT_EQ(figure.range->high, 5.0);
  EXPECT_EQ(figure.range->from, "10, 50 and 90 % of 5 years");
}

TEST(AcrossYears, OneYearKeepsItsFigure) {
  const Figure figure = across_years(figures({7.0}), "1 years");
  EXPECT_EQ(*figure.value, 7.0);
  EXPECT_FALSE(figure.range);
  EXPECT_EQ(figure.because, "one year's weather only");
}

TEST(AcrossYears, YearsWithoutAFigureAreSaid) {
  std::vector<Figure> list = figures({5.0, 1.0, 4.0});
  list.push_back(results::figure_missing("no such day"));
  const Figure most = across_years(list, "4 years");
  EXPECT_EQ(*most.value, 4.0);
  EXPECT_EQ(most.range->from,
            "10, 50 and 90 % of 4 years, without those that have none (in 1 of 4 years: no such day)");
  for (int i = 0; i < 4; ++i) list.push_back(results::figure_missing("no such day"));
  const Figure few = across_years(list, "8 years");
  EXPECT_FALSE(few.value);
  EXPECT_EQ(few.because, "in 5 of 8 years: no such day");
  const Figure none = across_years(std::vector<Figure>(3, results::figure_missing("no fan")), "3 years");
  EXPECT_EQ(none.because, "no fan");
}

// ---- Whole answers.

struct FigureCount {
  int n_with_range = 0;
  int n_without = 0;
  int n_missing = 0;
};

/// Every figure below a node: a value in its range with what that was made of, or a value and why it has no range, or
/// no value and why.
void expect_figures(const Json& node, const std::string& path, FigureCount& count) {
  if (node.is_object() && node.contains("value")) {
    const bool has_value = node.at("value").is_number();
    const auto is_said = [&node](const char* key) {
      return node.contains(key) && node.at(key).is_string() && !node.at(key).get<std::string>().empty();
    };
    if (!has_value) {
      ++count.n_missing;
      EXPECT_TRUE(is_said("why")) << path;
    } else if (node.contains("low")) {
      ++count.n_with_range;
      EXPECT_LE(node.at("low").get<double>(), node.at("value").get<double>()) << path;
      EXPECT_LE(node.at("value").get<double>(), node.at("high").get<double>()) << path;
      EXPECT_TRUE(is_said("from")) << path;
      EXPECT_FALSE(node.contains("no_range_because")) << path;
    } else {
      ++count.n_without;
      EXPECT_TRUE(is_said("no_range_because")) << path;
    }
    return;
  }
  if (!node.is_structured()) return;
  for (const auto& [key, child] : node.items()) expect_figures(child, path + "." + key, count);
}

/// Paths of figures that say so below a node.
void collect_one_year_only(const Json& node, const std::string& path, std::vector<std::string>& found) {
  if (node.is_object() && node.contains("no_range_because") && node.at("no_range_because") == report::one_year_only) {
    found.push_back(path);
  }
  if (!node.is_structured()) return;
  for (const auto& [key, child] : node.items()) collect_one_year_only(child, path + "." + key, found);
}

Json document_of(int n_years) {
  StudyOptions options = short_options();
  options.run.n_hours = 24 * 4;
  options.run.spin_up_hours = 24;
  options.n_years = n_years;
  return report::json_from(study_of(small_design_text(), options));
}

TEST(Ranges, EveryFigureHasARangeOrSaysWhyNot) {
  for (const int n_years : {1, 3}) {
    FigureCount count;
    expect_figures(document_of(n_years), "", count);
    EXPECT_GT(count.n_with_range + count.n_without, 200) << n_years;
    EXPECT_GT(count.n_with_range, n_years == 1 ? 20 : 200) << n_years;
  }
}

TEST(Ranges, WithSeveralYearsNoFigureIsOfOneOnly) {
  std::vector<std::string> found;
  collect_one_year_only(document_of(3), "", found);
  EXPECT_EQ(found, std::vector<std::string>{});
  collect_one_year_only(document_of(1), "", found);
  EXPECT_GT(found.size(), 100U);
}

TEST(Ranges, TheCheckItselfSeesAFigureOutsideItsRange) {
  FigureCount count;
  EXPECT_NONFATAL_FAILURE(expect_figures(Json{{"value", 3.0}, {"low", 1.0}, {"high", 2.0}, {"from", "x"}}, "a", count),
                          "a");
  EXPECT_NONFATAL_FAILURE(expect_figures(Json{{"value", 3.0}, {"no_range_because", ""}}, "b", count), "b");
}

}  // namespace
}  // namespace houseleek::studies
