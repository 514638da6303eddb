// [[trial]]: what is held against what, where, and how it is read off.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "design/recipe.hpp"

namespace houseleek::design {

enum class TrialMeasure { maximum, minimum, swing, lag, degree_hours, litres };
enum class TrialReadings { by_hand, loggers };
enum class TrialLayout { blocks, free, latin_square };
/// What a place's thermometer touches.
enum class Probe { membrane, ceiling, surface, room_air };

struct TrialSide {
  std::string name;
  std::string what;              // in words, for the sheet
  std::optional<int> recipe;     // index into Design::recipes, or bare_deck; absent: something else
  std::optional<Placed> placed;  // absent: as the recipe has it
  bool operator==(const TrialSide&) const = default;
};

/// A module or square of the trial, by the label that the logbook has for it.
struct TrialPlace {
  std::string name;
  std::optional<int> side;  // index into Trial::sides; absent: not given out yet
  std::string block;
  std::string second_block;  // a Latin square's column
  int row = 0;
  int column = 0;
  std::string logger;  // the sensor that hangs there; by default the one of the place's own name
  Probe probe = Probe::membrane;
  std::optional<int> room;  // index into Design::rooms: the room below
  bool operator==(const TrialPlace&) const = default;
};

/// How values scatter, in the measure's unit; absent: as src/trials assumes it.
struct TrialSpread {
  std::optional<double> module_sd;
  std::optional<double> day_sd;
  std::optional<double> day_correlation;
  std::optional<double> reading_sd;
  std::optional<double> instrument_offset_sd;
  std::string source;
  bool operator==(const TrialSpread&) const = default;
};

struct Trial {
  std::string name;
  TrialMeasure measure = TrialMeasure::maximum;  // written down beforehand: what the trial is about
  TrialReadings readings = TrialReadings::by_hand;
  TrialLayout layout = TrialLayout::blocks;
  double wanted_difference = 0.0;  // in the measure's unit
  double base_c = 0.0;             // degree-hours count what lies above
  double confidence_frac = 0.0;
  double power_frac = 0.0;
  int most_days = 0;
  std::string instrument;
  bool is_one_instrument = true;
  double morning_hour = 0.0;  // standard time
  double afternoon_hour = 0.0;
  std::optional<std::int64_t> first_day;  // since 1970
  std::optional<std::int64_t> last_day;
  std::uint64_t seed = 0;
  std::optional<int> against;  // index into sides: what the others are held against; absent: each against each
  std::string outdoor_logger;  // the sensor of the outside air, in shade
  TrialSpread spread;
  std::vector<TrialSide> sides;
  std::vector<TrialPlace> places;
  bool operator==(const Trial&) const = default;
};

}  // namespace houseleek::design
