// The most and the least that a [[trial]] may say, and what it stands for where it does not.
#pragma once
#include "base/toml_fields.hpp"

namespace houseleek::design {

/// TrialSide::recipe of a side that is the deck with nothing on it.
inline constexpr int bare_deck = -1;

}  // namespace houseleek::design

namespace houseleek::design::limits {

inline constexpr std::size_t most_trials = 50;
inline constexpr std::size_t most_sides = 12;
inline constexpr std::size_t most_trial_places = 400;

inline constexpr NumberRule wanted_difference{.key = "wanted_difference",
                                              .least = 0,
                                              .most = 10000,
                                              .is_least_open = true,
                                              .hint = "how large a difference would change what you build?"};
inline constexpr NumberRule base_c{.key = "base_c", .least = -40, .most = 90, .unit = "degC"};
inline constexpr NumberRule trial_confidence_frac{
    .key = "confidence_frac", .least = 0.5, .most = 0.999, .unit = "share"};
inline constexpr NumberRule power_frac{.key = "power_frac", .least = 0.1, .most = 0.99, .unit = "share"};
// A week at least: below, src/trials has too few days to say anything.
inline constexpr NumberRule most_days{.key = "most_days", .least = 7, .most = 3650, .unit = "days"};
inline constexpr NumberRule trial_hour{.key = "", .least = 0, .most = 24, .unit = "h"};
inline constexpr NumberRule trial_seed{.key = "seed", .least = 0, .most = 9e15};
inline constexpr NumberRule trial_row{.key = "", .least = 0, .most = 1000};
inline constexpr NumberRule spread_sd{.key = "", .least = 0, .most = 10000};
inline constexpr NumberRule day_correlation{.key = "day_correlation", .least = 0, .most = 0.95};

// Where nothing is said. The hours are near a day's lowest and highest in most places and seasons; all of it common
// practice, no source.
inline constexpr double usual_base_c = 26.0;
inline constexpr double usual_confidence_frac = 0.95;
inline constexpr double usual_power_frac = 0.8;
inline constexpr int usual_most_days = 60;
inline constexpr double usual_morning_hour = 6.0;
inline constexpr double usual_afternoon_hour = 16.0;
inline constexpr std::uint64_t usual_trial_seed = 1;
inline constexpr std::string_view usual_instrument = "a thermometer with a probe";

}  // namespace houseleek::design::limits
