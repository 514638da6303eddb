// `houseleek water`: today's stores, the round, seasons, a barrel, salt, feeding, the sheet for a neighbour.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "base/result.hpp"
#include "report/watering_answer.hpp"
#include "studies/executor.hpp"
#include "studies/water_stores.hpp"

namespace houseleek::studies {

/// Years of weather behind seasons and barrel unless somebody asks for another number.
inline constexpr int usual_season_years = 8;

/// What a person asked beside the design and its logbook; days as they were typed.
struct WaterRequest {
  std::string on;
  TypedDay yesterday;
  std::string filled_on;  // everything was watered until it dripped
  double can_l = 10.0;
  int n_years = usual_season_years;
  bool has_seasons = true;             // seasons, barrel, changes: years of weather
  std::optional<double> catchment_m2;  // of another roof over the barrel
  std::string away_from;
  std::string away_to;
  std::optional<double> water_ds_per_m;  // how salty the water is
  std::string rinse_material;
  std::optional<double> rinse_first_ms_per_cm;
  std::optional<double> rinse_target_ms_per_cm;
  double rinse_water_ms_per_cm = 0.5;
  std::int64_t now_utc_s = 0;
  std::string engine_version;
  std::string input_hash;
  std::string file;
};

/// What it is asked of.
struct WaterSource {
  const design::ValidDesign& design;
  const catalogue::Catalogue& catalogue;
  const std::vector<logbook::EventRecord>& records;  // all; later ones are left out
  const std::vector<logbook::LoggerColumn>& loggers;
  const std::optional<NamedText>& weather_file;
  bool has_logbook = false;
};

/// Errors: issues of the request, with the option's name as path, all in one pass; of the weather.
///         Throws Cancelled, simulation::NumericalFailure, ContractViolation.
[[nodiscard]] Result<report::WateringAnswer> answer_watering(const WaterSource& source, const WaterRequest& request,
                                                             const Executor& executor, const Context& context);

}  // namespace houseleek::studies
