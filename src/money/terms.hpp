// What a cash flow is counted with: interest, tariffs, bills paid before, chances, lives, stock; each with its range.
#pragma once
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "money/plain_sums.hpp"

namespace houseleek::money {

/// The value of a figure in one look at the money: likely, drawn, or one figure moved to an end.
using FigureOf = std::function<double(const Factor&)>;
[[nodiscard]] inline double likely_of(const Factor& factor) { return factor.range.likely; }

struct Stock {
  std::string name;  // of the price item
  double amount = 0.0;
  Factor price;
};

struct Terms {
  int years_counted = 0;
  Factor interest_step;      // 1 + interest of a year
  Factor energy_price_step;  // 1 + rise of a year
  Factor wage_per_h;
  Factor own_hours_per_module;
  Factor own_hours_per_m2;
  Factor leak_per_year_frac;
  Factor membrane_life_years;
  Factor membrane_age_years;
  Factor life_shape;
  std::array<Factor, 12> electricity_per_kwh;  // by month
  Factor heating_per_kwh;
  Factor water_per_m3;
  // Bills of before; none: nothing was paid for that.
  std::optional<Factor> cooling_kwh;
  std::optional<Factor> cooling_paid;
  std::optional<Factor> heating_kwh;
  std::optional<Factor> heating_paid;
  std::optional<Factor> leak_repair;
  std::optional<Factor> lifting_per_m2;
  std::optional<Factor> disposal_per_kg;
  std::vector<std::string> unpriced;  // of these three
  std::vector<Stock> stock;
  Factor electricity_kg_per_kwh;
  Factor heating_kg_per_kwh;

  [[nodiscard]] bool has_cooling_bill() const { return cooling_kwh || cooling_paid; }
  [[nodiscard]] bool has_heating_bill() const { return heating_kwh || heating_paid; }
};

[[nodiscard]] Terms terms_of(const design::ValidDesign& design);

}  // namespace houseleek::money
