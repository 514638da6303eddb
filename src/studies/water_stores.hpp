// Stores of water up to a day and without rain after it, in draws of what is not known.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "base/result.hpp"
#include "climate/known_days.hpp"
#include "climate/year.hpp"
#include "design/defaults.hpp"
#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "logbook/reading.hpp"
#include "planting/module_days.hpp"
#include "studies/executor.hpp"
#include "studies/water_log.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// A month and a half: after it little is left of what a store held before.
inline constexpr int days_looked_back = 45;
inline constexpr int days_looked_ahead = 40;
inline constexpr int store_draws = 16;

/// Until a module has been put on the scale.
inline constexpr design::Default evapotranspiration_spread{"evapotranspiration over that of our defaults",
                                                           0.6,
                                                           1.0,
                                                           1.4,
                                                           design::defaults::own,
                                                           catalogue::Certainty::estimate};

/// What was typed in beside the logbook, of the day before.
struct TypedDay {
  std::optional<double> max_c;
  std::optional<double> min_c;
  std::optional<double> rain_mm;
};

/// What a store is asked from.
struct StoreInputs {
  const design::ValidDesign& design;
  const catalogue::Catalogue& catalogue;
  const std::vector<logbook::EventRecord>& records;  // up to the day; empty for a description
  const std::vector<logbook::LoggerColumn>& loggers;
  const std::optional<NamedText>& weather_file;
  bool has_logbook = false;
  std::int64_t today = 0;
  TypedDay yesterday;
  std::optional<std::int64_t> filled_day;  // everything was watered until it dripped on this day
};

/// The weather of the draws, with the known days in it and no rain after today.
struct DrawnWeather {
  std::vector<climate::WeatherYear> years;
  int first_day = 0;  // of the year: that of today - days_looked_back
  std::vector<std::string> known;
  std::vector<std::string> missing;
  bool has_rain = false;  // by a gauge, or typed
};

/// Errors: those of find_weather for the year in use.
[[nodiscard]] Result<DrawnWeather> draw_weather(const StoreInputs& inputs, int n_draws = store_draws);

/// Modules of one recipe that lie in one form.
struct StoreGroup {
  int recipe = 0;
  design::Placed placed = design::Placed::flat;
  int count = 0;
  std::vector<std::string> labels;
  std::vector<std::string> young;  // laid less than young_days ago
  std::optional<std::int64_t> youngest_day;
};
inline constexpr int young_days = 42;

/// As the logbook has them; as the design lays them where no module of a recipe is logged.
[[nodiscard]] std::vector<StoreGroup> store_groups(const StoreInputs& inputs);

/// Stores of one group or container: draws of evenings, day 0 being today - days_looked_back.
struct StoreDraws {
  std::vector<std::vector<double>> store_frac;
  std::vector<std::vector<double>> missing_mm;  // until it drips
  std::vector<double> given_mm;                 // by evening, up to today
  std::string driven_by;
  std::vector<std::string> notes;
  bool is_known = true;  // false: nothing says what it holds; the draws begin full today
};

/// Day of the year (of 365) of a day since 1970; 29 February counts as the 28th.
[[nodiscard]] int day_of_year(std::int64_t day);

/// How groups are driven: by the logbook's waterings; where there are none, by the recipe's own rule at any phase.
/// Errors: Cancelled, simulation::NumericalFailure, ContractViolation.
[[nodiscard]] std::vector<StoreDraws> run_store_draws(const StoreInputs& inputs, const DrawnWeather& weather,
                                                      const std::vector<StoreGroup>& groups, const Executor& executor,
                                                      const Context& context);

/// The factor of evapotranspiration of a draw: its share of the spread, in an order of its own.
[[nodiscard]] double drawn_factor(std::uint64_t seed, int draw, int n_draws, double low, double likely, double high);

}  // namespace houseleek::studies
