// The most and the least that a design may say of money that comes and goes, of its stock and of what to build next.
#pragma once
#include "design/limits.hpp"

namespace houseleek::design::limits {

// --- [money]
inline constexpr NumberRule years_counted{.key = "years_counted", .least = 1, .most = 40, .unit = "years"};
inline constexpr NumberRule real_interest_frac{.key = "real_interest_frac",
                                               .least = -0.05,
                                               .most = 0.3,
                                               .unit = "share",
                                               .hint = "a share a year, 0.02 for 2 %, after the rise of prices"};
inline constexpr NumberRule energy_price_rise_frac{.key = "energy_price_rise_frac",
                                                   .least = -0.1,
                                                   .most = 0.2,
                                                   .unit = "share",
                                                   .hint = "a share a year, 0.02 for 2 %, above other prices"};
// Any currency's small unit.
inline constexpr NumberRule wage_per_h{.key = "wage_per_h", .least = 0, .most = 1e6, .unit = "an hour"};
inline constexpr NumberRule own_hours_per_module{.key = "own_hours_per_module", .least = 0, .most = 100, .unit = "h"};
inline constexpr NumberRule own_hours_per_m2{.key = "own_hours_per_m2", .least = 0, .most = 100, .unit = "h"};
inline constexpr NumberRule leak_per_year_frac{.key = "leak_per_year_frac",
                                               .least = 0,
                                               .most = 1,
                                               .unit = "share",
                                               .hint = "a share a year: 0.01 is once in a hundred years"};
inline constexpr NumberRule membrane_life_years{.key = "membrane_life_years", .least = 1, .most = 100, .unit = "years"};
inline constexpr NumberRule membrane_age_years{.key = "membrane_age_years", .least = 0, .most = 100, .unit = "years"};
inline constexpr NumberRule life_shape{.key = "life_shape", .least = 0.5, .most = 20};

// --- [carbon]: from water power to brown coal
inline constexpr NumberRule electricity_kg_per_kwh{
    .key = "electricity_kg_per_kwh", .least = 0, .most = 2, .unit = "kg"};
inline constexpr NumberRule heating_kg_per_kwh{.key = "heating_kg_per_kwh", .least = 0, .most = 2, .unit = "kg"};

// --- [bills]: of a school at most
inline constexpr NumberRule bill_kwh{.key = "", .least = 0, .most = 1e6, .unit = "kWh"};
inline constexpr NumberRule bill_money{.key = "", .least = 0, .most = 1e9};

// --- [[stock]]
inline constexpr std::size_t most_stock = 200;
inline constexpr NumberRule stock_amount{.key = "", .least = 0, .most = 1e6, .is_least_open = true};
inline constexpr NumberRule stock_price{.key = "", .least = 0, .most = 1e8};

// --- [order]
inline constexpr std::size_t most_wishes = 200;

}  // namespace houseleek::design::limits
