// The most and the least that a design may say of what carries the roof and what presses on it.
#pragma once
#include "design/limits.hpp"

namespace houseleek::design::limits {

// --- [roof.structure]
inline constexpr std::size_t most_supports = 11;  // ten spans; a school's classroom wing has about as many
inline constexpr NumberRule support_at_m{.key = "", .least = -1000, .most = 1000, .unit = "m"};
inline constexpr double least_span_m = 0.3;  // from joist to joist; below it somebody wrote kilometres
inline constexpr double most_span_m = 40.0;  // beyond it a roof is no matter for a screening
inline constexpr NumberRule joist_spacing_mm{.key = "spacing_mm", .least = 150, .most = 2000, .unit = "mm"};
inline constexpr NumberRule joist_first_at_m{.key = "first_at_m", .least = -1000, .most = 1000, .unit = "m"};
inline constexpr NumberRule joist_width_mm{.key = "width_mm", .least = 20, .most = 400, .unit = "mm"};
inline constexpr NumberRule joist_height_mm{.key = "height_mm", .least = 50, .most = 1000, .unit = "mm"};
// From weak softwood to the stiffest hardwood.
inline constexpr NumberRule modulus_n_per_mm2{.key = "modulus_n_per_mm2",
                                              .least = 3000,
                                              .most = 25000,
                                              .unit = "N/mm2",
                                              .hint = "mean modulus along the grain; 11000 for ordinary softwood"};
inline constexpr NumberRule service_class{.key = "service_class", .least = 1, .most = 3};

// --- [roof.bearing]: from soft mineral wool to stone
inline constexpr NumberRule bearing_kpa{.key = "", .least = 1, .most = 50000, .unit = "kPa"};

// --- [roof.actions]
inline constexpr NumberRule ground_snow_kn_per_m2{
    .key = "ground_snow_kn_per_m2", .least = 0, .most = 20, .unit = "kN/m2"};
inline constexpr NumberRule snow_exposure{.key = "snow_exposure", .least = 0.5, .most = 1.5};
inline constexpr NumberRule hail_mm{.key = "hail_mm", .least = 0, .most = 500, .unit = "mm"};
inline constexpr NumberRule blocked_outlet_mm{.key = "blocked_outlet_mm", .least = 0, .most = 2000, .unit = "mm"};
inline constexpr NumberRule stack_modules{.key = "stack_modules", .least = 1, .most = 30};
inline constexpr NumberRule person_kn{.key = "person_kn", .least = 0.5, .most = 5, .unit = "kN"};

// --- [roof.clear_strips]
inline constexpr NumberRule strip_mm{.key = "", .least = 0, .most = 10000, .unit = "mm"};

// --- [[container]]
inline constexpr std::size_t most_containers = 500;
inline constexpr NumberRule diameter_mm{.key = "diameter_mm", .least = 50, .most = 4000, .unit = "mm"};
inline constexpr NumberRule container_length_mm{.key = "length_mm", .least = 50, .most = 5000, .unit = "mm"};
inline constexpr NumberRule container_width_mm{.key = "width_mm", .least = 50, .most = 5000, .unit = "mm"};
inline constexpr NumberRule fill_mm{.key = "fill_mm", .least = 20, .most = 1500, .unit = "mm"};
inline constexpr NumberRule empty_kg{.key = "empty_kg", .least = 0, .most = 1000, .unit = "kg"};
inline constexpr NumberRule plant_kg{.key = "plant_kg", .least = 0, .most = 1000, .unit = "kg"};
inline constexpr NumberRule feet_count{.key = "count", .least = 1, .most = 100};
// From the point of a screw to a paving slab.
inline constexpr NumberRule foot_area_mm2{.key = "area_mm2", .least = 25, .most = 1e6, .unit = "mm2"};

// --- [wind]
inline constexpr NumberRule roof_height_m{.key = "roof_height_m", .least = 2, .most = 200, .unit = "m"};
inline constexpr NumberRule basic_wind_m_per_s{.key = "basic_wind_m_per_s",
                                               .least = 15,
                                               .most = 60,
                                               .unit = "m/s",
                                               .hint = "from the wind map of the national annex"};

}  // namespace houseleek::design::limits
