// The most and the least that a design may say of levels, overflows and hard rain.
#pragma once
#include "design/limits.hpp"

namespace houseleek::design::limits {

// --- [[roof.outlet]]
inline constexpr NumberRule pipe_diameter_mm{.key = "pipe_diameter_mm", .least = 20, .most = 500, .unit = "mm"};
inline constexpr NumberRule rim_mm{.key = "rim_mm", .least = 0, .most = 100, .unit = "mm"};

// --- [recipe.spacer]: no higher than the spacer itself
inline constexpr NumberRule slat_height_mm{.key = "slat_height_mm", .least = 1, .most = 500, .unit = "mm"};

// --- [drainage]
inline constexpr std::size_t most_levels = 400;  // a large school roof by a grid of 4 m
inline constexpr NumberRule fall_to_outlets_mm_per_m{
    .key = "fall_to_outlets_mm_per_m", .least = 0, .most = 180, .unit = "mm/m", .is_least_open = true};
// 30: no instrument at all.
inline constexpr NumberRule level_error_mm{.key = "level_error_mm", .least = 0, .most = 30, .unit = "mm"};
inline constexpr NumberRule months_since_cleaning{
    .key = "months_since_cleaning", .least = 0, .most = 600, .unit = "months"};
inline constexpr NumberRule silt_mm_per_year{.key = "silt_mm_per_year", .least = 0, .most = 100, .unit = "mm"};
// Above any datum: a roof's own height above the street may be in it.
inline constexpr NumberRule level_mm{.key = "level_mm", .least = -100000, .most = 100000, .unit = "mm"};
inline constexpr NumberRule overflow_width_mm{.key = "width_mm", .least = 10, .most = 20000, .unit = "mm"};
inline constexpr NumberRule sill_mm{.key = "sill_mm", .least = 0, .most = 1000, .unit = "mm"};
inline constexpr NumberRule overflow_height_mm{.key = "height_mm", .least = 10, .most = 1000, .unit = "mm"};
inline constexpr NumberRule edge_height_mm{.key = "height_mm", .least = 0, .most = 4000, .unit = "mm"};
inline constexpr double edge_reach_m = 0.05;  // how far an end may lie from the outline and still be on it

// --- [design_rain]: from the worst minute ever measured anywhere to a day of drizzle
inline constexpr std::size_t most_intensities = 60;
inline constexpr NumberRule return_years{.key = "return_years", .least = 1.01, .most = 10000, .unit = "years"};
inline constexpr NumberRule duration_min{.key = "duration_min", .least = 1, .most = 1440, .unit = "min"};
inline constexpr NumberRule intensity_mm_per_h{.key = "intensity_mm_per_h",
                                               .least = 0,
                                               .most = 3000,
                                               .unit = "mm/h",
                                               .is_least_open = true,
                                               .hint = "mm/h: 300 l/(s ha) are 108 mm/h"};
inline constexpr std::size_t least_maxima = 5;  // fewer say nothing
inline constexpr std::size_t most_maxima = 300;
inline constexpr NumberRule maximum_mm{
    .key = "depths_mm", .least = 0, .most = 2000, .unit = "mm", .is_least_open = true};

}  // namespace houseleek::design::limits
