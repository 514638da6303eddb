// What a logbook says of water: given, rained, weighed, and the air of single days.
#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "climate/known_days.hpp"
#include "design/design.hpp"
#include "logbook/event.hpp"

namespace houseleek::studies {

/// Days since 1970 in the civil time of the place.
[[nodiscard]] std::int64_t civil_day_of(const logbook::Event& event);

/// Water on one day.
struct GivenDay {
  double mm = 0.0;
  int hour = 7;                // of the last of it
  bool is_until_drip = false;  // watered, and nobody said how much
};

/// Water given to each square metre of a recipe's modules; one of several modules counts with its share.
[[nodiscard]] std::map<std::int64_t, GivenDay> given_to_recipe(const std::vector<logbook::EventRecord>& records,
                                                               const design::Recipe& recipe, bool is_only_recipe);

/// The same for a container, over its own area.
[[nodiscard]] std::map<std::int64_t, GivenDay> given_to_container(const std::vector<logbook::EventRecord>& records,
                                                                  const design::Container& container);

/// Rain of gauges and storms by day. `has_gauge`: a gauge was read between the two days, so that what is not logged did
/// not fall.
struct RainLog {
  std::map<std::int64_t, double> rain_mm;
  bool has_gauge = false;
};
[[nodiscard]] RainLog rain_log(const std::vector<logbook::EventRecord>& records, std::int64_t first, std::int64_t last);

/// Highest and lowest air temperature as they were read off: items "air max" and "air min".
[[nodiscard]] std::map<std::int64_t, climate::KnownDay> air_log(const std::vector<logbook::EventRecord>& records);
inline constexpr const char* air_max_item = "air max";
inline constexpr const char* air_min_item = "air min";

/// A module on the scale as it lay there: no wetness was named. The latest between the days.
struct ModuleWeighing {
  std::int64_t day = 0;
  int hour = 7;
  double mass_kg = 0.0;
  std::string module;
};
[[nodiscard]] std::optional<ModuleWeighing> last_weighing(const std::vector<logbook::EventRecord>& records,
                                                          const design::Recipe& recipe, std::int64_t first,
                                                          std::int64_t last);

/// A module that lies on the roof.
struct LaidModule {
  std::string label;
  std::string recipe;
  std::int64_t made_day = 0;
  std::optional<bool> is_raised;  // as it was last raised or lowered; nothing: as the design has it
};
[[nodiscard]] std::vector<LaidModule> laid_modules(const std::vector<logbook::EventRecord>& records);

}  // namespace houseleek::studies
