// The hours behind the charts of a report, as plain columns: what a study keeps of its runs where a report is asked for.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace houseleek::report {

/// One room under one cover, running free. The roof's columns are means over the roof of the room, by area.
struct RoomColumns {
  std::string name;
  std::vector<double> operative_c;  // means of hours
  std::vector<double> ceiling_c;    // at hours' ends
  std::vector<double> membrane_c;   // at hours' ends
};

/// All modules of one recipe as laid out, by area.
struct ModuleColumns {
  std::string recipe;
  std::string form;  // flat or raised: that of the larger area
  double area_m2 = 0.0;
  std::vector<double> store_frac;   // at hours' ends; water between wilting (0) and field capacity (1); may be empty
  std::vector<double> watering_mm;  // sums of hours
};

/// A closed cover over one room; in the order of StudyAnswer::stacks.
struct ClosedColumns {
  std::string name;
  std::string room;
  std::string form;
  std::vector<double> membrane_c;  // at hours' ends
  std::vector<double> ceiling_c;   // at hours' ends
};

/// One cover over the whole house.
struct CoverColumns {
  std::vector<RoomColumns> rooms;  // in the order of the design
  // Room-hours above the limit: of StudyAnswer::house by month. None for a month of which no hour was kept.
  std::array<std::optional<double>, 12> hours_above_limit_by_month;
};

/// Every column has n_hours values.
struct YearColumns {
  int first_hour = 0;  // of the year
  int n_hours = 0;
  std::vector<double> air_c;           // at hours' ends
  std::vector<double> rain_mm;         // sums of hours
  std::vector<CoverColumns> covers;    // in the order of all_covers
  std::vector<ModuleColumns> modules;  // recipes laid somewhere, in the order of WaterAnswer::recipes
  std::vector<ClosedColumns> stacks;
};

}  // namespace houseleek::report
