// The plan of a trial: size, squares by lot, and what to do.
#include "trials/plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/contract.hpp"
#include "base/random.hpp"
#include "stats/long_run.hpp"
#include "stats/student.hpp"
#include "trials/judge.hpp"
#include "trials/plan_words.hpp"

namespace houseleek::trials {

namespace {

constexpr std::array<int, 11> day_choices{7, 14, 21, 28, 42, 60, 90, 120, 180, 270, 365};

double comparison_confidence_frac(const TrialWish& wish) {
  const auto s = static_cast<double>(wish.sides.size());
  return 1.0 - (1.0 - wish.confidence_frac) / (0.5 * s * (s - 1.0));
}

class Lots {
 public:
  explicit Lots(std::uint64_t seed) : variable_(random_variable(seed, "trial assignment")) {}

  /// A random order of 0 .. n - 1; the same for the same seed and the same calls before.
  [[nodiscard]] std::vector<std::size_t> order(std::size_t n) {
    std::vector<std::size_t> order(n);
    for (std::size_t i = 0; i < n; ++i) order[i] = i;
    for (std::size_t i = n; i > 1; --i) {
      const double u = random_uniform(variable_, {.draw = 0, .day = n_orders_, .index = static_cast<std::uint32_t>(i)});
      std::swap(order[i - 1], order[static_cast<std::size_t>(u * static_cast<double>(i))]);
    }
    ++n_orders_;
    return order;
  }

 private:
  RandomVariable variable_;
  std::int32_t n_orders_ = 0;
};

std::vector<TrialSquare> by_place(std::vector<TrialSquare> squares) {
  // Back and forth like a furrow, so that neighbours in the list are neighbours on the roof.
  std::stable_sort(squares.begin(), squares.end(), [](const TrialSquare& a, const TrialSquare& b) {
    if (a.row != b.row) return a.row < b.row;
    return a.row % 2 == 0 ? a.column < b.column : a.column > b.column;
  });
  return squares;
}

bool names_blocks(const std::vector<TrialSquare>& squares) {
  return std::any_of(squares.begin(), squares.end(), [](const TrialSquare& square) { return !square.block.empty(); });
}

/// Groups of as many squares as there are sides, each within one block as named or made of neighbours.
std::vector<std::vector<TrialSquare>> groups_of(const TrialWish& wish) {
  std::map<std::string, std::vector<TrialSquare>> named;
  for (const TrialSquare& square : by_place(wish.squares)) named[square.block].push_back(square);
  std::vector<std::vector<TrialSquare>> groups;
  for (const auto& [name, squares] : named) {
    for (std::size_t i = 0; i + wish.sides.size() <= squares.size(); i += wish.sides.size()) {
      groups.emplace_back(squares.begin() + static_cast<std::ptrdiff_t>(i),
                          squares.begin() + static_cast<std::ptrdiff_t>(i + wish.sides.size()));
    }
  }
  return groups;
}

std::vector<Assignment> assign_blocks(const TrialWish& wish, std::size_t n_modules, Lots& lots) {
  const std::vector<std::vector<TrialSquare>> groups = groups_of(wish);
  std::vector<std::size_t> chosen = lots.order(groups.size());
  chosen.resize(n_modules);
  std::sort(chosen.begin(), chosen.end());
  std::vector<Assignment> assignments;
  for (std::size_t b = 0; b < chosen.size(); ++b) {
    const std::vector<std::size_t> order = lots.order(wish.sides.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      const TrialSquare& square = groups[chosen[b]][i];
      assignments.push_back(
          {square.name, wish.sides[order[i]].name, fmt::format("block {}", b + 1), "", square.row, square.column});
    }
  }
  return assignments;
}

std::vector<Assignment> assign_freely(const TrialWish& wish, std::size_t n_modules, Lots& lots) {
  const std::vector<TrialSquare> squares = by_place(wish.squares);
  std::vector<std::size_t> chosen = lots.order(squares.size());
  chosen.resize(n_modules * wish.sides.size());
  std::vector<Assignment> assignments;
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const TrialSquare& square = squares[chosen[i]];
    assignments.push_back({square.name, wish.sides[i % wish.sides.size()].name, "", "", square.row, square.column});
  }
  std::sort(assignments.begin(), assignments.end(), [](const Assignment& a, const Assignment& b) {
    return a.row != b.row ? a.row < b.row : a.column < b.column;
  });
  return assignments;
}

/// Rows and columns of a k x k square of squares, or empty where they make none.
std::vector<TrialSquare> latin_grid(const TrialWish& wish) {
  std::set<int> rows;
  std::set<int> columns;
  std::set<std::pair<int, int>> places;
  for (const TrialSquare& square : wish.squares) {
    rows.insert(square.row);
    columns.insert(square.column);
    places.emplace(square.row, square.column);
  }
  const std::size_t k = wish.sides.size();
  if (rows.size() != k || columns.size() != k || places.size() != k * k || wish.squares.size() != k * k) return {};
  std::vector<TrialSquare> squares = wish.squares;
  std::sort(squares.begin(), squares.end(), [](const TrialSquare& a, const TrialSquare& b) {
    return a.row != b.row ? a.row < b.row : a.column < b.column;
  });
  return squares;
}

/// Rows, columns and sides of the cyclic square, each in a random order.
std::vector<Assignment> assign_latin(const TrialWish& wish, Lots& lots) {
  const std::vector<TrialSquare> squares = latin_grid(wish);
  const std::size_t k = wish.sides.size();
  const std::vector<std::size_t> rows = lots.order(k);
  const std::vector<std::size_t> columns = lots.order(k);
  const std::vector<std::size_t> sides = lots.order(k);
  std::vector<Assignment> assignments;
  for (std::size_t i = 0; i < k * k; ++i) {
    const std::size_t side = sides[(rows[i / k] + columns[i % k]) % k];
    assignments.push_back({squares[i].name, wish.sides[side].name, fmt::format("row {}", i / k + 1),
                           fmt::format("column {}", i % k + 1), squares[i].row, squares[i].column});
  }
  return assignments;
}

std::size_t most_modules_a_side(const TrialWish& wish) {
  if (wish.layout == Layout::latin_square) return wish.sides.size();
  if (wish.layout == Layout::blocks) return groups_of(wish).size();
  return wish.squares.size() / wish.sides.size();
}

Issues issues_of(const TrialWish& wish) {
  Issues issues;
  const auto say = [&](IssueCode code, const std::string& path, const std::string& message, const std::string& hint) {
    Issue issue;
    issue.code = code;
    issue.path = path;
    issue.message = message;
    issue.hint = hint;
    issues.push_back(issue);
  };
  const auto names_twice = [](const auto& things) {
    std::set<std::string> names;
    return std::any_of(things.begin(), things.end(),
                       [&](const auto& thing) { return !names.insert(thing.name).second; });
  };
  if (wish.sides.size() < 2) {
    say(IssueCode::out_of_range, "sides", "a trial needs at least two sides", "add bare roof or paint as a side");
  }
  if (names_twice(wish.sides)) say(IssueCode::inconsistent, "sides", "two sides have the same name", "");
  if (names_twice(wish.squares)) say(IssueCode::inconsistent, "squares", "two squares have the same name", "");
  if (!(wish.wanted_difference > 0.0)) {
    say(IssueCode::out_of_range, "wanted_difference", "the wanted difference must be above 0",
        "say how large a difference would change what you build");
  }
  if (!(wish.confidence_frac > 0.5 && wish.confidence_frac < 1.0)) {
    say(IssueCode::out_of_range, "confidence_frac", "the confidence must lie between 0.5 and 1", "0.95 is usual");
  }
  if (!(wish.power_frac > 0.0 && wish.power_frac < 1.0)) {
    say(IssueCode::out_of_range, "power_frac", "the power must lie between 0 and 1", "0.8 is usual");
  }
  if (wish.most_days < day_choices.front()) {
    say(IssueCode::out_of_range, "most_days", fmt::format("at least {} days are needed", day_choices.front()), "");
  }
  const TrialSpread& spread = wish.spread;
  if (!(spread.module_sd >= 0.0 && spread.day_sd > 0.0 && spread.reading_sd >= 0.0 &&
        spread.instrument_offset_sd >= 0.0 && spread.day_correlation >= 0.0 && spread.day_correlation < 1.0)) {
    say(IssueCode::out_of_range, "spread", "standard deviations must not be negative, the correlation 0 to below 1",
        "");
  }
  if (!issues.empty()) return issues;
  if (wish.layout == Layout::latin_square && latin_grid(wish).empty()) {
    say(IssueCode::inconsistent, "squares",
        fmt::format("a Latin square of {0} sides needs {0} rows by {0} columns of squares", wish.sides.size()),
        "use blocks, or choose other squares");
  } else if (most_modules_a_side(wish) == 0) {
    say(IssueCode::out_of_range, "squares",
        fmt::format("too few squares for {} sides{}", wish.sides.size(),
                    names_blocks(wish.squares) ? ": no block holds one of each" : ""),
        "add squares, or leave a side out");
  } else if (wish.modules_a_side > most_modules_a_side(wish)) {
    say(IssueCode::out_of_range, "squares",
        fmt::format("{} modules a side are wanted; the squares allow {}", wish.modules_a_side,
                    most_modules_a_side(wish)),
        "add squares, or take fewer modules");
  }
  return issues;
}

double error_of(const TrialWish& wish, std::size_t n_modules, int days) {
  const TrialSpread& spread = wish.spread;
  const double r = spread.day_correlation;
  const double by_days =
      (spread.day_sd * spread.day_sd * (1.0 + r) / (1.0 - r) + spread.reading_sd * spread.reading_sd) / days;
  const double by_modules = n_modules >= least_modules_for_recipe ? spread.module_sd * spread.module_sd : 0.0;
  const double by_instrument = wish.is_one_instrument ? 0.0 : spread.instrument_offset_sd * spread.instrument_offset_sd;
  return std::sqrt(2.0 / static_cast<double>(n_modules) * (by_modules + by_days + by_instrument));
}

double freedom_of(const TrialWish& wish, std::size_t n_modules) {
  if (n_modules < least_modules_for_recipe) return stats::n_long_run_cosines;
  const double n = static_cast<double>(n_modules) - 1.0;
  const auto s = static_cast<double>(wish.sides.size());
  if (wish.layout == Layout::latin_square) return n * (n - 1.0);
  return wish.layout == Layout::blocks ? n * (s - 1.0) : n * s;
}

/// The difference that this size tells with the wanted power.
double difference_told(const TrialWish& wish, std::size_t n_modules, int days) {
  const double error = error_of(wish, n_modules, days);
  double low = 0.0;
  double high = 1000.0 * error;
  for (int i = 0; i < 32; ++i) {
    const double middle = 0.5 * (low + high);
    const double power =
        stats::power_of_t({middle, error, freedom_of(wish, n_modules), comparison_confidence_frac(wish)});
    (power < wish.power_frac ? low : high) = middle;
  }
  return high;
}

}  // namespace

TrialSize size_of_trial(const TrialWish& wish, std::size_t n_modules, int days) {
  expects(n_modules > 0 && days > 0 && wish.sides.size() >= 2, "modules, days and two sides");
  TrialSize size;
  size.n_modules = n_modules;
  size.days = days;
  size.is_about_recipes = n_modules >= least_modules_for_recipe;
  size.standard_error = error_of(wish, n_modules, days);
  const double confidence = comparison_confidence_frac(wish);
  const double freedom = freedom_of(wish, n_modules);
  size.half_interval = stats::student_quantile(0.5 + 0.5 * confidence, freedom) * size.standard_error;
  size.power_frac = stats::power_of_t({wish.wanted_difference, size.standard_error, freedom, confidence});
  size.is_enough = size.power_frac >= wish.power_frac;
  return size;
}

TrialSize chosen_size(const TrialWish& wish, const TrialPlan& plan) {
  for (const TrialSize& size : plan.sizes) {
    if (size.n_modules == wish.modules_a_side) return size;
  }
  return plan.advised ? *plan.advised : plan.quickest ? *plan.quickest : plan.sizes.back();
}

Result<TrialPlan> plan_trial(const TrialWish& wish) {
  Issues issues = issues_of(wish);
  if (!issues.empty()) return Unexpected{std::move(issues)};
  TrialPlan plan;
  plan.seed = wish.seed;
  plan.comparison_confidence_frac = comparison_confidence_frac(wish);
  const std::size_t most = most_modules_a_side(wish);
  // A Latin square has one size; other layouts may take any number of blocks.
  for (std::size_t n = wish.layout == Layout::latin_square ? most : 1; n <= most; ++n) {
    TrialSize size;
    for (const int days : day_choices) {
      if (days > wish.most_days) break;
      size = size_of_trial(wish, n, days);
      if (size.is_enough) break;
    }
    plan.sizes.push_back(size);
    if (!size.is_enough || (wish.modules_a_side > 0 && n != wish.modules_a_side)) continue;
    std::optional<TrialSize>& best = size.is_about_recipes ? plan.advised : plan.quickest;
    const auto work = [](const TrialSize& s) { return s.n_modules * static_cast<std::size_t>(s.days); };
    if (!best || work(size) < work(*best)) best = size;
  }
  const TrialSize chosen = chosen_size(wish, plan);
  plan.told_difference = difference_told(wish, most, plan.sizes.back().days);
  Lots lots(wish.seed);
  switch (wish.layout) {
    case Layout::blocks:
      plan.assignments = assign_blocks(wish, chosen.n_modules, lots);
      break;
    case Layout::free:
      plan.assignments = assign_freely(wish, chosen.n_modules, lots);
      break;
    case Layout::latin_square:
      plan.assignments = assign_latin(wish, lots);
      break;
  }
  plan.household = household_sentences(wish, plan, chosen);
  plan.adviser = adviser_sentences(wish, plan, chosen);
  return plan;
}

}  // namespace houseleek::trials
