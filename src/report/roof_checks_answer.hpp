// What the checks of the roof answer, as plain data: load, drainage, wind, fire.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "results/figure.hpp"

namespace houseleek::report {

using results::Figure;

/// Squares of the plan that the maps name like those of a chess board: letters from the left, numbers from below.
struct SquareGrid {
  double left_m = 0.0;
  double bottom_m = 0.0;
  double side_m = 1.0;
  int columns = 0;
  int rows = 0;
};

struct PatchLoadAnswer {
  int patch = 0;
  std::string recipe;
  Figure soaked_kn_per_m2;
};

/// One of the two tests of the load.
struct LoadTestAnswer {
  std::string verdict;  // none, within, not_shown, above
  std::string statement;
};

struct LoadCaseAnswer {
  std::string name;
  std::string left_out;  // what is not looked at, or why the case is not worked out; may be empty
  Figure added_kn_per_m2;
  Figure heaviest_kn_per_m2;
  Figure whole_roof_kn;
  Figure factored_kn_per_m2;
  std::string uniform_verdict;
  std::string span_verdict;
  std::string statement;
};

/// Pressure under the feet of a patch's spacers, or of a container.
struct FootAnswer {
  std::string name;
  Figure soaked_kpa;
  Figure uneven_kpa;
  std::optional<double> limit_kpa;
  std::string who;
  std::string verdict;
  std::string statement;
};

/// The deepest sag of timber joists.
struct SagAnswer {
  Figure first_mm;
  Figure final_mm;
  Figure with_water_mm;
  std::string statement;
};

/// Lower left corner of a module.
struct NextPlaceAnswer {
  double left_m = 0.0;
  double bottom_m = 0.0;
};

/// Where the next ten modules of a recipe may go.
struct NextPlacesAnswer {
  std::string name;  // of the recipe
  std::vector<NextPlaceAnswer> places;
  std::string statement;
};

struct LoadSquareAnswer {
  std::string name;
  Figure soaked_kn_per_m2;  // mean over the whole square
  Figure use_frac;          // of the heaviest thing that reaches into it
};

struct LoadAnswer {
  std::optional<double> allowable_kn_per_m2;
  std::string who;
  std::string when;
  std::string includes;
  std::optional<double> averaging_area_m2;  // in use; absent: every square on its own
  std::vector<std::string> missing;
  Figure soaked_max_kn_per_m2;
  Figure utilisation_local_max_frac;
  Figure utilisation_span_max_frac;
  std::string span_model;  // none_given, engineer_only, computed
  LoadTestAnswer uniform;
  LoadTestAnswer spans;
  std::vector<PatchLoadAnswer> patches;
  std::vector<LoadCaseAnswer> cases;
  std::vector<FootAnswer> feet;
  SagAnswer sag;
  std::vector<NextPlacesAnswer> next;
  std::vector<LoadSquareAnswer> squares;
  std::string verdict;  // of both tests: none, within, not_shown, above
  std::string statement;
};

struct DrainageCaseAnswer {
  std::string name;
  std::string kind;  // capacity, storm, one_blocked, blocked, blocked_in_rain, hail
  Figure rain_mm_per_h;
  std::optional<double> duration_min;  // absent: steady, or no rain
  std::optional<double> return_years;
  Figure max_depth_mm;
  Figure freeboard_mm;
  Figure water_kn;
  Figure heaviest_kn_per_m2;
  Figure minutes_to_drain;
  std::string dry_modules;  // the worst of them: none_laid, stay, not_shown_to_stay, float
  std::string statement;
};

struct OutletAnswer {
  std::string name;
  double catchment_m2 = 0.0;
};

/// What should change under a patch.
struct SpacerAdviceAnswer {
  int patch = 0;
  std::string recipe;
  double spacer_mm = 0.0;
  double needs_spacer_mm = 0.0;
  bool is_better_empty = false;
  std::string statement;
};

struct WaterSquareAnswer {
  std::string name;
  Figure depth_mm;      // above deck or silt
  Figure freeboard_mm;  // least under a module in it
};

struct DrainageAnswer {
  std::string rain_note;
  std::string levels_from;
  std::vector<OutletAnswer> outlets;
  double walled_in_m2 = 0.0;
  Figure standing_mm;
  Figure days_to_dry;
  std::vector<DrainageCaseAnswer> cases;
  std::vector<SpacerAdviceAnswer> advice;
  std::string squares_case;  // the case of `squares`; the name of one of `cases`
  std::vector<WaterSquareAnswer> squares;
};

struct PatchWindAnswer {
  int patch = 0;
  std::string recipe;
  double suction_coefficient = 0.0;  // at its weakest module
  Figure dry_kn_per_m2;
  Figure not_shown_above_km_per_h;  // of its weakest module
  Figure linked_4_km_per_h;
  Figure linked_9_km_per_h;
  Figure ballast_kg_per_m2;
};

struct WindSquareAnswer {
  std::string name;
  double suction_coefficient = 0.0;
  Figure not_shown_above_km_per_h;
};

struct WindAnswer {
  Figure gust_of_place_km_per_h;
  Figure peak_pressure_kn_per_m2;
  Figure not_shown_above_km_per_h;  // of the weakest module of all
  double edge_m = 0.0;
  std::vector<std::string> taken_severest;
  std::vector<std::string> not_counted;
  std::vector<PatchWindAnswer> patches;
  std::vector<WindSquareAnswer> squares;
  std::string statement;
};

struct RecipeFireAnswer {
  std::string name;
  Figure fuel_mj_per_m2;
  Figure plants_mj_per_m2;
  Figure burning_frac;
  double mineral_mm = 0.0;
  std::vector<std::string> against;
  std::vector<std::string> not_counted;
  std::string statement;
};

struct StripAnswer {
  std::string beside;
  double width_mm = 0.0;
  std::string source;
  int n_reached_into = 0;  // modules and containers
  Figure nearest_mm;       // of what reaches into it
};

struct FireAnswer {
  std::vector<RecipeFireAnswer> recipes;
  std::vector<StripAnswer> strips;
  double left_m2 = 0.0;   // of the roof, outside strips and obstacles
  std::string statement;  // of the strips
};

}  // namespace houseleek::report
