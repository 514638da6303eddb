// The plan of a trial: how many modules and days a wanted difference takes, which side goes where, what to do.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "trials/day_values.hpp"

namespace houseleek::trials {

/// A recipe, or one recipe raised or flat, with net or without, or paint alone.
struct TrialSide {
  std::string name;
  std::string what;  // "raised on 20 mm spacers"; for the sheet
};

struct TrialSquare {
  std::string name;
  int row = 0;
  int column = 0;
  std::string block;  // squares alike (one room, one exposure) share it; empty everywhere: neighbours make blocks
};

enum class Layout { blocks, free, latin_square };

/// How values scatter: assumed, or from an earlier trial of one's own. Standard deviations in the measure's unit.
struct TrialSpread {
  double module_sd = 0.5;             // between modules of one recipe
  double day_sd = 1.0;                // one module's days about the days of all modules
  double day_correlation = 0.3;       // of neighbouring days
  double reading_sd = 0.2;            // one reading of one instrument
  double instrument_offset_sd = 0.3;  // between instruments of one kind
  std::string source;                 // "assumed", "trial of 2025"
};

struct TrialWish {
  std::vector<TrialSide> sides;
  std::vector<TrialSquare> squares;
  Layout layout = Layout::blocks;
  Measure measure = Measure::maximum;
  double wanted_difference = 1.0;
  double confidence_frac = 0.95;
  double power_frac = 0.8;  // how often a true difference of that size shall be told
  int most_days = 60;
  std::size_t modules_a_side = 0;  // that somebody wants; 0: as few as will do
  bool is_one_instrument = true;   // carried from place to place: its offset falls out
  bool is_by_hand = true;          // two looks a day; false: loggers
  std::string instrument = "a thermometer with a probe";
  double morning_h = 6.0;     // near the day's minimum
  double afternoon_h = 16.0;  // near the day's maximum
  TrialSpread spread;
  std::uint64_t seed = 0;
};

struct TrialSize {
  std::size_t n_modules = 0;  // a side
  int days = 0;
  double standard_error = 0.0;  // foreseen, of a difference of two sides
  double half_interval = 0.0;   // foreseen half width of its interval
  double power_frac = 0.0;      // of telling the wanted difference
  bool is_about_recipes = false;
  bool is_enough = false;  // power reached
  bool operator==(const TrialSize&) const = default;
};

struct Assignment {
  std::string square;
  std::string side;
  std::string block;         // for the verdict; empty where the layout is free
  std::string second_block;  // a Latin square's column
  int row = 0;
  int column = 0;
  bool operator==(const Assignment&) const = default;
};

struct TrialPlan {
  std::vector<TrialSize> sizes;       // fewest days for each number of modules that the squares allow
  std::optional<TrialSize> advised;   // about recipes where that can be had; nothing where no size is enough
  std::optional<TrialSize> quickest;  // enough, about these modules only
  std::vector<Assignment> assignments;
  double told_difference = 0.0;  // the least difference that the most modules and days would tell with the wanted power
  double comparison_confidence_frac = 0.95;  // of each of several comparisons
  std::uint64_t seed = 0;
  std::vector<std::string> household;  // what to do, a sentence each
  std::vector<std::string> adviser;    // what stands behind it
};

/// Foreseen error and power of n modules a side over so many days.
/// Equation: error^2 = 2/n (s_module^2 + s_day^2 (1 + r) / ((1 - r) T) + s_reading^2 / T + s_offset^2 if many);
///           without s_module for these modules only. Freedom: blocks (n - 1)(s - 1), free s (n - 1), Latin square
///           (n - 1)(n - 2), these modules 3
/// Symbols:  n modules a side; T days; r day_correlation; s sides
/// Errors:   as good as the assumed spread.
/// Source:   docs/equations/trials.md. Checked by: PWR-03, Judge.PowerForeseenIsWhatTrialsHave.
[[nodiscard]] TrialSize size_of_trial(const TrialWish& wish, std::size_t n_modules, int days);

/// Chooses the size and assigns sides to squares by the seed. Issues (paths sides, squares, ...) where the wish cannot
/// be met as written: fewer than two sides, names twice, too few squares, a Latin square without k x k squares.
[[nodiscard]] Result<TrialPlan> plan_trial(const TrialWish& wish);

/// The size that a plan's assignments have: the wanted one, else what is advised, else the quickest, else the largest.
[[nodiscard]] TrialSize chosen_size(const TrialWish& wish, const TrialPlan& plan);

}  // namespace houseleek::trials
