// What a study answers, as plain data; study_json.hpp and study_text.hpp turn it into documents.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/assumption.hpp"
#include "report/damp_answer.hpp"
#include "report/order_answer.hpp"
#include "report/plants_answer.hpp"
#include "report/roof_checks_answer.hpp"
#include "report/year_columns.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

/// What made the answer, so that it can be made again.
struct EngineAnswer {
  std::string version;
  std::uint64_t seed = 0;
  std::string input_hash;  // SHA-256 over design, catalogue and weather file
  int first_hour = 0;      // of the year
  int n_hours = 0;         // kept; 8760 is the whole year
  int spin_up_hours = 0;
  int n_runs = 0;
  int n_stacks = 0;  // of all runs
  int n_slices = 0;
  long n_steps = 0;
  long n_newton_iterations = 0;
  long n_hours_redone = 0;
  int largest_split = 1;
  double largest_error_k = 0.0;
  int n_years = 1;         // of weather that were asked for
  int n_years_failed = 0;  // of them; left out of every range
  int n_draws = 0;         // of prices and lives
  // The worst of all runs, stacks, rooms and steps.
  double heat_residual_frac = 0.0;
  double water_residual_m = 0.0;
};

struct WeatherAnswer {
  std::string source;
  std::vector<std::string> notes;  // what was estimated, and how
  std::vector<int> summer_months;  // 1 is January
  std::vector<int> winter_months;
  Figure air_max_c;
  Figure air_min_c;
};

struct DeckAnswer {
  Figure u_value_w_per_m2_k;
  Figure decrement_factor;
  Figure time_lag_h;
};

struct RoofAnswer {
  double area_m2 = 0.0;
  double covered_m2 = 0.0;
  int n_modules = 0;
  std::string deck;  // in words
  DeckAnswer bare;
  SquareGrid squares;  // of the maps
};

/// The deck with a module on it, lying flat or raised.
struct PlacedAnswer {
  Figure u_value_dry_w_per_m2_k;
  Figure u_value_wet_w_per_m2_k;
  Figure decrement_factor;
  Figure time_lag_h;
  std::string note;
};

struct RecipeAnswer {
  std::string name;
  int n_modules = 0;
  Figure mass_dry_kg_per_m2;
  Figure mass_drained_kg_per_m2;
  Figure mass_soaked_kg_per_m2;
  std::vector<std::string> mass_not_counted;
  std::string deck;
  PlacedAnswer flat;
  std::optional<PlacedAnswer> raised;  // absent: the recipe has no spacers
  Figure floats_at_mm;
  std::string edible;  // yes, doubtful, no: may one eat what grows in it
  std::vector<std::string> edible_because;
  std::string edible_with_roof_water;  // watered with what ran over this roof
  std::vector<std::string> roof_water_because;
};

struct StackAnswer {
  std::string name;
  std::string room;
  std::string form;  // bare, flat, raised, rival
  Figure membrane_max_c;
  Figure membrane_min_c;
  Figure ceiling_max_c;
  Figure heat_gain_summer_kwh_per_m2;
  Figure heat_loss_winter_kwh_per_m2;
  Figure evapotranspiration_mm;
  Figure fire_dry_days;  // of the year: dry enough to burn
  double heat_residual_frac = 0.0;
  std::optional<double> water_residual_m;  // absent where no layer holds water
};

/// Bedrooms from 22 to 7 h.
struct NightAnswer {
  Figure hours_above_limit;
  Figure hours_above_limit_with_fan;
  Figure degree_hours_above_k_h;
};

/// One room, or all rooms added up, under one cover.
struct RoomFigures {
  Figure operative_max_c;
  Figure operative_min_c;
  Figure hours_above_limit;
  Figure hours_above_limit_with_fan;
  Figure hours_below_limit;
  Figure hours_without_limit;
  Figure degree_hours_above_k_h;
  Figure heat_to_add_kwh;
  Figure heat_to_remove_kwh;
  Figure fan_energy_kwh;
  Figure heat_gain_summer_kwh;       // gross, through the ceilings, running free
  std::optional<NightAnswer> night;  // bedrooms only
};

/// Planted less bare, on the same hours. Hours without a limit are those of the weather, and cancel out.
struct RoomDifference {
  Figure operative_max_k;
  Figure operative_min_k;
  Figure hours_above_limit;
  Figure hours_above_limit_with_fan;
  Figure hours_below_limit;
  Figure degree_hours_above_k_h;
  Figure heat_to_add_kwh;
  Figure heat_to_remove_kwh;
  Figure fan_energy_kwh;
  Figure heat_gain_summer_kwh;
  std::optional<NightAnswer> night;  // bedrooms only
};

/// In the order of Covers::all.
enum class CoverKind { bare, planted, white_same, white_whole, net_same, net_whole, board_same, board_whole };
inline constexpr std::size_t n_covers = 8;
inline constexpr std::array<CoverKind, n_covers> all_covers = {
    CoverKind::bare,     CoverKind::planted,   CoverKind::white_same, CoverKind::white_whole,
    CoverKind::net_same, CoverKind::net_whole, CoverKind::board_same, CoverKind::board_whole};
[[nodiscard]] constexpr std::size_t index_of(CoverKind cover) { return static_cast<std::size_t>(cover); }

struct RoomAnswer {
  std::string name;
  bool is_bedroom = false;
  bool has_fan = false;
  std::array<RoomFigures, n_covers> covers;
  RoomDifference planted_minus_bare;
};

struct WaterByRecipe {
  std::string name;
  Figure retained_frac;
  Figure watering_l_per_module;
  std::array<Figure, 12> can_wait_days_by_month;
};

struct WaterAnswer {
  Figure rain_mm;
  Figure retained_frac;
  Figure watering_l_per_module;
  std::array<Figure, 12> can_wait_days_by_month;  // of the recipe that waits least
  std::string can_wait_means;
  std::vector<WaterByRecipe> recipes;  // those laid somewhere
};

struct RecipeMoney {
  std::string name;
  int n_modules = 0;
  Figure per_module;
  Figure outlay;
  Figure replacement_per_year;
};

/// In how many of the draws something holds.
struct DrawCount {
  int n_draws = 0;
  int n_all = 0;
};

/// Years until what went out has come back, over the draws; an end that is absent lies beyond the years counted.
struct PaybackAnswer {
  std::optional<double> low;
  std::optional<double> likely;
  std::optional<double> high;
  DrawCount comes_back;  // within the years counted
};

/// What a cash flow comes to. Figures are missing where a price is.
struct CashAnswer {
  Figure cash_saving_per_year;
  Figure net_present_value;
  PaybackAnswer payback;             // plain sums
  PaybackAnswer discounted_payback;  // with interest
};

struct CashYear {
  int year = 0;  // 0: the day of the first module
  Figure out;
  Figure saved;
  Figure balance;  // all that was saved until then, less all that went out
};

/// Over all years counted.
struct CashSums {
  Figure outlay;
  Figure own_hours;
  Figure renewal;
  Figure water;
  Figure leaks;
  Figure lifting;
  Figure disposal;
};

struct InternalRates {
  Figure rate_frac;  // of draws that have one rate alone
  int n_none = 0;    // draws
  int n_one = 0;
  int n_several = 0;
  std::vector<double> likely_frac;  // every rate of the likely flow, rising
};

struct CashSensitivity {
  std::string path;
  std::string name;
  double low_gives = 0.0;
  double likely_gives = 0.0;
  double high_gives = 0.0;
};

struct BreakEvenAnswer {
  int n_years = 0;
  bool is_reached = false;
  std::optional<double> electricity_per_kwh;
  std::optional<double> cooling_kwh_per_year;
  std::optional<double> outlay;
  std::string statement;
};

struct QuickPaybackRow {
  double cost_per_m2 = 0.0;
  double electricity_per_kwh = 0.0;
  std::optional<double> kwh_for_one_year;
  std::optional<double> kwh_for_two_years;
};

struct OwnHours {
  Figure hours;
  double wage_per_h = 0.0;
  std::string statement;
};

struct MoneyAnswer {
  std::string currency;
  Figure outlay;
  Figure replacement_per_year;
  Figure water_per_year;
  std::string cash_saving_statement;
  Figure comfort_kwh_per_year;       // heat that need not be removed, if it were removed
  Figure heating_less_kwh_per_year;  // heat that need not be added, if it were added; negative: more is wanted
  CashAnswer cash;
  std::string payback_why;  // in words, with or without years
  int years_counted = 0;
  OwnHours own_hours;
  InternalRates rates;
  std::vector<CashYear> flow;
  CashSums sums;
  std::vector<CashSensitivity> sensitivities;  // of the present value; the greatest first
  std::vector<BreakEvenAnswer> break_even;
  std::vector<QuickPaybackRow> quick_paybacks;
  std::vector<RecipeMoney> recipes;
  std::vector<std::string> unpriced;
  std::vector<std::string> without_life;
};

struct CarbonAnswer {
  std::string sign;  // saves, costs, not_told_apart
  Figure made_kg;
  Figure renewed_kg_per_year;
  Figure saved_kg_per_year;
  Figure left_kg;  // over the years counted: saved less made and renewed
  PaybackAnswer years;
  std::string statement;
  std::vector<std::string> not_counted;
};

/// Compared with the modules as laid out. Figures of heat stand in `rooms` and `house`.
struct RivalAnswer {
  std::string name;    // white, net, board
  std::string extent;  // same_squares, whole_roof
  double area_m2 = 0.0;
  Figure outlay;
  Figure replacement_per_year;
  Figure mass_soaked_kg_per_m2;
  CashAnswer cash;
  Figure degree_hours_less_per_outlay_k_h;        // than bare, to a unit of money spent
  std::vector<std::string> better_in;             // fields of `house` in which it beats the modules
  bool is_better_for_its_money = false;           // takes more degree-hours away to a unit of money, in most draws
  std::optional<DrawCount> better_for_its_money;  // absent where a price or a cover to compare with is missing
  std::string statement;
};

/// What one figure of the answer becomes with an assumption at its ends and everything else as it is.
struct EffectFigure {
  std::string on;                   // its path in the document
  std::optional<double> low_gives;  // absent: the description would be refused with it
  double likely_gives = 0.0;
  std::optional<double> high_gives;
};

/// What hangs on an assumption.
struct AssumedEffect {
  std::vector<EffectFigure> figures;
  std::string from;                   // how it was found; with figures only
  int n_days = 0;                     // that were run for it; figures of few days are not those of a year
  std::string none_because;           // without figures
  std::vector<std::string> together;  // other paths that were moved with it
};

/// An assumption that moves the answer, or several of a kind that were moved together.
struct RankedAssumption {
  std::vector<std::string> paths;
  std::string name;
  EffectFigure effect;  // on the figure by which they are ranked
};

struct RankedAnswer {
  std::string on;  // the figure
  std::string from;
  std::vector<RankedAssumption> most;  // the one that moves it most first
};

/// One question of the householder with its answer in a sentence; in the order in which they are to be read.
struct QuestionAnswer {
  std::string question;  // a few letters: Carry it?
  std::string text;
};

struct StudyAnswer {
  std::string design_name;
  bool is_invented = false;  // as the design says of itself
  EngineAnswer engine;
  WeatherAnswer weather;
  std::vector<design::Assumption> assumed;
  std::vector<AssumedEffect> assumed_effects;  // one for each of `assumed`
  RankedAnswer assumed_ranked;
  std::vector<catalogue::Caution> cautions;
  RoofAnswer roof;
  std::vector<RecipeAnswer> recipes;
  std::vector<StackAnswer> stacks;
  std::vector<RoomAnswer> rooms;
  RoomAnswer house;  // sums of the rooms; maximum and minimum of temperatures
  WaterAnswer water;
  LoadAnswer load;
  DrainageAnswer drainage;
  WindAnswer wind;
  FireAnswer fire;
  DampAnswer damp;
  MoneyAnswer money;
  CarbonAnswer carbon;
  OrderAnswer order;
  PlantsAnswer plants;
  Figure planted_degree_hours_less_per_outlay_k_h;
  std::vector<RivalAnswer> rivals;
  std::vector<QuestionAnswer> answers;
  std::optional<YearColumns> columns;  // where a report was asked for; no part of the JSON document
};

/// What stands over the table of earlier use, tariff and cost.
inline constexpr std::string_view quick_payback_note =
    "One to two years is what people who build such modules name; common practice, no source. For that, cooling would "
    "have had to take this much electricity a year before, with likely figures";

inline constexpr std::string_view one_year_only = "one year's weather only";

}  // namespace houseleek::report
