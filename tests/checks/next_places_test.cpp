// Where the next modules go: brute force on a small roof, conditions, and refusals.
#include "checks/next_places.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cstdint>

#include "base/contract.hpp"
#include "checks/choice.hpp"
#include "checks/span_load.hpp"
#include "checks/uniform_load.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

/// A roof of 5 x 5 m with nothing on it, one span of 5 m along x; strips of no width.
std::string five_by_five(const std::string& figure) {
  return edited(
      small_design_text(),
      {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish", "outline = [[0, 0], [5, 0], [5, 5], [0, 5]]\nfinish"},
       {"[[roof.outlet]]\nat = [3.8, 2.8]\ndiameter_mm = 80\n", ""},
       {"load_kn_per_m2 = 2.0", figure},
       {"[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50\n", ""},
       {"[[room]]\n", R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 5]
[roof.clear_strips]
edge_mm = 0
[[room]]
)"}});
}

NextPlacesOptions on_a_metre_grid() {
  NextPlacesOptions options;
  options.step_m = 1.0;
  return options;
}

TEST(NextPlaces, BruteForceOnFiveByFiveFindsNoBetter) {
  // A figure that an averaging area makes bite: 1.25 kN/m2 squares may lie on 0.6 kN/m2 over 4 m2, in part.
  const design::ValidDesign design =
      valid_design(five_by_five("load_kn_per_m2 = 0.62\naveraging_area_m2 = 4\nspans_by_turns = true"));
  NextPlacesOptions options = on_a_metre_grid();
  options.n_wanted = 3;
  const NextPlaces next = find_next_places(design, 0, design::Placed::raised, options);
  EXPECT_EQ(next.n_free, 25);
  ASSERT_TRUE(next.is_exact) << next.statement;
  EXPECT_GT(next.places.size(), 1U);
  EXPECT_LT(next.n_allowed, 25);  // a single module breaks the shear in the middle of its strip
  RecordProperty("n_allowed", next.n_allowed);
  // Every choice of at most three of the 25 squares, judged by both tests as they stand.
  const Footprint module = make_module_footprint(design, 0, design::Placed::raised);
  const auto is_within = [&](const std::vector<int>& squares) {
    std::vector<Footprint> laid;
    for (const int square : squares) {
      laid.push_back(module);
      const double left_m = square % 5;
      const double bottom_m = square / 5;
      laid.back().rectangle = {left_m, bottom_m, left_m + 1.0, bottom_m + 1.0};
    }
    return heaviest_mean(laid, 2.0).high <= 0.62 && check_span_load(design, laid).verdict == LoadVerdict::within;
  };
  std::vector<int> alone;
  for (int i = 0; i < 25; ++i) {
    if (is_within({i})) alone.push_back(i);
  }
  EXPECT_EQ(static_cast<int>(alone.size()), next.n_allowed);
  const auto nearness_of = [&](int square) {
    std::vector<Footprint> laid = {module};
    laid[0].rectangle = {1.0 * (square % 5), 1.0 * (square / 5), square % 5 + 1.0, square / 5 + 1.0};
    double nearness = heaviest_mean(laid, 2.0).high / 0.62;
    for (const LineSections& line : check_span_load(design, laid).worst) {
      for (const Section& s : line.sections) {
        if (s.scale > 0.0) nearness = std::max(nearness, 1.0 + s.excess / s.scale);
      }
    }
    return nearness;
  };
  std::vector<double> values;
  for (const int square : alone) values.push_back(value_of_place(nearness_of(square), 3));
  double best = 0.0;
  for (std::size_t i = 0; i < alone.size(); ++i) {
    best = std::max(best, values[i]);
    for (std::size_t j = i + 1; j < alone.size(); ++j) {
      if (!is_within({alone[i], alone[j]})) continue;
      best = std::max(best, values[i] + values[j]);
      for (std::size_t k = j + 1; k < alone.size(); ++k) {
        const double value = values[i] + values[j] + values[k];
        if (value > best + 1e-12 && is_within({alone[i], alone[j], alone[k]})) best = value;
      }
    }
  }
  EXPECT_NEAR(next.value, best, 1e-9);
  // How near both limits are with all of them laid, by the plain tests again.
  std::vector<Footprint> laid;
  for (const geometry::RectangleM& place : next.places) {
    laid.push_back(module);
    laid.back().rectangle = place;
  }
  EXPECT_NEAR(next.even_use_frac, heaviest_mean(laid, 2.0).high / 0.62, 1e-12);
  EXPECT_LE(next.even_use_frac, 1.0);
  ASSERT_TRUE(next.span_use_frac);
  EXPECT_LE(*next.span_use_frac, 1.0 + 1e-9);
  // The figure that is just used up is the border of the second test: a hair less is passed.
  const auto spans_hold = [&](double times) {
    const design::ValidDesign other = valid_design(five_by_five(
        fmt::format("load_kn_per_m2 = {:.9f}\naveraging_area_m2 = 4\nspans_by_turns = true", 0.62 * times)));
    return check_span_load(other, laid).verdict == LoadVerdict::within;
  };
  EXPECT_TRUE(spans_hold(*next.span_use_frac * 1.001));
  EXPECT_FALSE(spans_hold(*next.span_use_frac * 0.999));
  const char* nearer = *next.span_use_frac > next.even_use_frac ? "the spans are nearer to their limit"
                                                                : "the even load is nearer to its limit";
  EXPECT_NE(next.statement.find(nearer), std::string::npos) << next.statement;
}

TEST(NextPlaces, TenOnAnEmptyRoofWithRoomForAll) {
  const NextPlaces next = find_next_places(valid_design(five_by_five("load_kn_per_m2 = 2.0")), 0,
                                           design::Placed::raised, on_a_metre_grid());
  EXPECT_TRUE(next.is_exact);
  EXPECT_EQ(next.places.size(), 10U);
  for (std::size_t i = 0; i < next.places.size(); ++i) {
    for (std::size_t j = i + 1; j < next.places.size(); ++j) {
      EXPECT_FALSE(geometry::is_overlapping(next.places[i], next.places[j]));
    }
  }
  EXPECT_NE(next.statement.find("stay within the 2 kN/m2 that A. Engineer wrote down"), std::string::npos);
}

TEST(NextPlaces, StepByStepNeverPassesItsBound) {
  NextPlacesOptions options = on_a_metre_grid();
  options.most_exact = 0;
  const design::ValidDesign design =
      valid_design(five_by_five("load_kn_per_m2 = 0.62\naveraging_area_m2 = 4\nspans_by_turns = true"));
  const NextPlaces greedy = find_next_places(design, 0, design::Placed::raised, options);
  EXPECT_FALSE(greedy.is_exact);
  EXPECT_GT(greedy.places.size(), 0U);
  EXPECT_LE(static_cast<int>(greedy.places.size()), greedy.most_possible);
}

TEST(NextPlaces, AHeavyRecipeHasNoPlace) {
  const NextPlaces next = find_next_places(valid_design(five_by_five("load_kn_per_m2 = 0.9")), 0,
                                           design::Placed::raised, on_a_metre_grid());
  EXPECT_EQ(next.n_free, 25);
  EXPECT_EQ(next.n_allowed, 0);
  EXPECT_TRUE(next.places.empty());
  EXPECT_GT(next.even_use_frac, 1.0);
  EXPECT_NE(next.statement.find("None of 25 free places keeps one more module"), std::string::npos) << next.statement;
}

TEST(NextPlaces, WithoutTheFigureNoneIsNamed) {
  const NextPlaces next =
      find_next_places(valid_design(edited(five_by_five("load_kn_per_m2 = 2.0"), {{"who = \"A. Engineer\"\n", ""}})), 0,
                       design::Placed::raised, on_a_metre_grid());
  EXPECT_EQ(next.statement, "No next place is named, because nobody wrote down who wrote it down.");
  EXPECT_THROW((void)find_next_places(valid_design(small_design_text()), 7, design::Placed::flat), ContractViolation);
}

TEST(Choice, IsTheBestOfAllSubsets) {
  std::uint64_t state = 88172645463325252ULL;
  const auto draw = [&state]() {
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return static_cast<double>(state >> 11) * 0x1p-53;
  };
  for (int trial = 0; trial < 30; ++trial) {
    const int n = 12;
    std::vector<double> values;
    std::vector<Condition> conditions(3);
    for (int i = 0; i < n; ++i) {
      values.push_back(0.5 + draw());
      for (Condition& condition : conditions) condition.take.push_back(draw());
    }
    for (Condition& condition : conditions) condition.room = 1.0 + draw();
    const std::vector<std::pair<int, int>> excluded = {{0, 1}, {2, 5}, {3, 4}};
    const Choice choice = choose_best(values, conditions, excluded, 5, 1'000'000);
    double best = 0.0;
    for (unsigned mask = 0; mask < (1U << n); ++mask) {
      if (std::popcount(mask) > 5) continue;
      double value = 0.0;
      bool is_allowed = true;
      for (const auto& [a, b] : excluded) is_allowed = is_allowed && !((mask >> a) & (mask >> b) & 1U);
      for (const Condition& condition : conditions) {
        double used = 0.0;
        for (int i = 0; i < n; ++i) used += ((mask >> i) & 1U) ? condition.take[static_cast<std::size_t>(i)] : 0.0;
        is_allowed = is_allowed && used <= condition.room;
      }
      for (int i = 0; i < n; ++i) value += ((mask >> i) & 1U) ? values[static_cast<std::size_t>(i)] : 0.0;
      if (is_allowed) best = std::max(best, value);
    }
    EXPECT_TRUE(choice.is_exact);
    EXPECT_NEAR(choice.value, best, 1e-9);
    EXPECT_LE(static_cast<int>(choice.chosen.size()), most_that_fit(conditions, n, 5));
  }
  EXPECT_FALSE(choose_best(std::vector<double>(30, 1.0), {}, {}, 15, 3).is_exact);
}

}  // namespace
}  // namespace houseleek::checks
