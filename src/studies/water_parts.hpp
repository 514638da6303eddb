// The parts of the answer about water, one file each.
#pragma once
#include <vector>

#include "results/interval.hpp"
#include "studies/water.hpp"

namespace houseleek::studies {

/// A request with its days read.
struct WaterDays {
  std::int64_t today = 0;
  std::int64_t end_utc_s = 0;
  std::string on;
  std::optional<std::int64_t> filled;
  std::optional<std::int64_t> away_from;
  std::optional<std::int64_t> away_to;
};
/// Everything wrong with a request, in one pass.
[[nodiscard]] Result<WaterDays> read_water_request(const WaterSource& source, const WaterRequest& request);

/// What stores are worked out from, as of the request's day; `records` (up to it) has to outlive it.
[[nodiscard]] StoreInputs store_inputs_of(const WaterSource& source, const std::vector<logbook::EventRecord>& records,
                                          const WaterDays& days, const TypedDay& yesterday);

/// Middle, tenth and ninetieth part of draws.
[[nodiscard]] report::Figure figure_of_draws(const std::vector<double>& draws, const std::string& from);

/// Share of the store of water below which a recipe's plants want some: as the recipe says, else by the easy water of
/// its plants, else as assumed.
[[nodiscard]] report::Figure wants_below(const design::Recipe& recipe, const catalogue::Catalogue& catalogue,
                                         double evapotranspiration_mm_per_d);

/// Evenings until a store is below what it may fall to; days_looked_ahead where it never is.
[[nodiscard]] double days_until_below(const std::vector<double>& store_frac, double below_frac);

[[nodiscard]] std::vector<report::StoreNow> answer_stores(const StoreInputs& inputs, const DrawnWeather& weather,
                                                          double can_l, const Executor& executor,
                                                          const Context& context);
[[nodiscard]] report::WateringRound answer_round(const std::vector<report::StoreNow>& stores,
                                                 const std::vector<logbook::EventRecord>& records, double can_l,
                                                 const std::string& when);

/// The catalogue's plant of a container; nullptr where none is said.
[[nodiscard]] const catalogue::Plant* plant_in(const design::Container& container,
                                               const catalogue::Catalogue& catalogue);

/// Minutes of carrying and pouring, at the pace of this logbook's rounds; at ours where it has fewer than five.
[[nodiscard]] report::Figure minutes_for(const results::Interval& litres,
                                         const std::vector<logbook::EventRecord>& records);

/// Seasons, barrel and changes; all from the same years.
struct SeasonAnswers {
  std::vector<report::SeasonRule> seasons;
  std::string note;
  report::BarrelAnswer barrel;
  report::ChangesAnswer changes;
};
[[nodiscard]] SeasonAnswers answer_seasons(const StoreInputs& inputs, const WaterRequest& request,
                                           const Executor& executor, const Context& context);

[[nodiscard]] report::SaltAnswer answer_salt(const StoreInputs& inputs, const WaterRequest& request);
[[nodiscard]] report::FeedingAnswer answer_feeding(const StoreInputs& inputs);
/// `full_stores`: as they would be had all been watered until it dripped today.
[[nodiscard]] report::HolidayAnswer answer_holiday(const std::vector<report::StoreNow>& full_stores,
                                                   const WaterDays& days, double can_l);

}  // namespace houseleek::studies
