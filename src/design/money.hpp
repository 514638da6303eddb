// [money], [bills], [carbon], [[stock]] and [order]: what was paid before, what is in the shed, how money is counted.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "geometry/outline.hpp"

namespace houseleek::design {

/// How costs to come are counted. All of it can be left out; what is assumed then is listed.
struct Money {
  int years_counted = 20;                    // what lies later is not counted
  catalogue::Spread real_interest_frac;      // a year, above the rise of prices
  catalogue::Spread energy_price_rise_frac;  // a year, above the rise of other prices
  catalogue::Spread wage_per_h;              // of one's own hours; nothing unless somebody says so
  catalogue::Spread own_hours_per_module;    // to make and lay one
  catalogue::Spread own_hours_per_m2;        // to put a square metre of a rival up
  catalogue::Spread leak_per_year_frac;      // chance that what lies on the roof makes it leak
  catalogue::Spread membrane_life_years;     // half of such membranes last longer
  catalogue::Spread membrane_age_years;      // today
  catalogue::Spread life_shape;              // of Weibull lives: 1 any age, 3 and more all together
  catalogue::Spread electricity_kg_per_kwh;  // CO2 equivalent
  catalogue::Spread heating_kg_per_kwh;      // of bought energy
  bool operator==(const Money&) const = default;
};

/// What was really paid a year for machines before anything lay on the roof; absent: nothing was.
struct Bills {
  std::optional<catalogue::Spread> cooling_kwh_per_year;  // of electricity
  std::optional<catalogue::Spread> cooling_per_year;      // or in money
  std::optional<catalogue::Spread> heating_kwh_per_year;  // of bought energy
  std::optional<catalogue::Spread> heating_per_year;
  bool operator==(const Bills&) const = default;
};

/// Something that is there already, at the price that was paid for it. Used before anything is bought.
struct StockItem {
  std::string name;  // of a price item
  catalogue::PricePer per = catalogue::PricePer::m2;
  double amount = 0.0;  // in the unit of `per`
  catalogue::Spread price;
  bool operator==(const StockItem&) const = default;
};

/// Where the next modules must, or must not, come to lie.
struct OrderWishes {
  std::vector<geometry::PointM> pins;
  std::vector<geometry::PointM> bans;
  bool operator==(const OrderWishes&) const = default;
};

}  // namespace houseleek::design
