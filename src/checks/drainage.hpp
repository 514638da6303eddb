// Will the roof drain: depth of water against spacers, blocked outlets, hail, and how hard it may rain.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checks/drainage_deck.hpp"
#include "checks/flotation.hpp"
#include "checks/ponding.hpp"
#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

/// A range whose ends may be below zero.
struct SignedRange {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

enum class DrainageKind {
  capacity,         // steady rain at which water first reaches a module or leaves over the roof's edge
  storm,            // the critical duration of a return period
  one_blocked,      // the rarest storm with one outlet blocked, its own critical duration
  blocked,          // all outlets blocked, still water up to the lowest lip
  blocked_in_rain,  // all outlets blocked, the rarest storm's rain without end
  hail              // hail that lies on the blocked roof
};

/// What one square meets in a case; only squares under modules are listed.
struct SquareDepth {
  int square = 0;  // of the grid in DrainageCheck::shape
  int patch = 0;
  int recipe = 0;
  results::Interval depth_mm;       // above deck or silt
  results::Interval above_deck_mm;  // silt counted
  SignedRange freeboard_mm;         // spacer less silt and depth; of flat modules less the depth alone
  Buoyancy buoyancy = Buoyancy::stays;
};

struct DrainageCase {
  DrainageKind kind = DrainageKind::capacity;
  std::string name;
  std::optional<results::Interval> rain_mm_per_h;  // absent: no rain falls in this case, or nobody knows how hard
  std::optional<double> duration_min;              // absent: steady
  std::optional<double> return_years;
  bool is_rain_beyond_search = false;       // capacity: even the hardest rain looked at is taken
  results::Interval max_depth_mm;           // anywhere on the roof
  std::optional<SignedRange> freeboard_mm;  // least under raised modules; absent without any
  results::Interval water_kn;               // weight of all the water, and hail
  results::Interval heaviest_kn_per_m2;
  results::Interval minutes_to_drain;  // after the rain, until levels fall by less than 0.1 mm a minute; storms only
  std::vector<SquareDepth> squares;
  std::string statement;
};

/// What should change under a square of modules: by the storms, blocked outlets and hail left out; without a storm by the
/// puddles alone.
struct SquareAdvice {
  int square = 0;
  int patch = 0;
  double spacer_mm = 0.0;        // now; 0: flat
  double needs_spacer_mm = 0.0;  // high end of the depth, silt counted, in whole millimetres
  bool is_better_empty = false;  // that would be above what spacers reach
};

struct DrainageOptions {
  plan::LevelOptions levels;
  double step_s = 30.0;
  /// What each recipe still takes of a storm, mm; empty: nothing, every module is wet from the days before.
  std::vector<results::Interval> still_takes_mm;
  results::Interval evaporation_mm_per_day = {0.5, 2.0, 5.0};
  double highest_spacer_mm = 100.0;
};

struct DrainageCheck {
  plan::DeckShape shape;
  plan::DeckLevels levels;                   // likely
  std::vector<double> outlet_catchments_m2;  // by outlet of the design
  double walled_in_m2 = 0.0;                 // left out: obstacles cut it off from every outlet and edge
  std::vector<DrainageCase> cases;
  std::vector<SquareAdvice> advice;  // squares whose modules water may reach
  results::Interval standing_mm;     // deepest puddle that stays
  results::Interval days_to_dry;     // of it
  std::string rain_note;             // where the rain comes from, or why there is no storm
  std::vector<design::Assumption> assumed;
};

/// Rain, outlets and hollows of a design.
/// Equation: docs/equations/drainage.md
/// Shape:    design in, struct out; pure.
/// Units:    trade units as named.
/// Valid:    ends of all ranges at once (levels, silt, blocked width, roughness, rain), so wider than any real roof.
///           Without a table of intensities: a capacity, never a depth in a storm.
/// Errors:   ContractViolation where the water does not come to rest.
/// Cost:     about ten steady states and three storms for each return period.
/// Checked by: tests/checks/drainage_test.cpp.
[[nodiscard]] DrainageCheck check_drainage(const design::ValidDesign& design, const DrainageOptions& options);

}  // namespace houseleek::checks
