// What people want plants for, and how well each serves: an order, with the figure behind it.
#include "planting/purposes.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "base/number_words.hpp"

namespace houseleek::planting {
namespace {

using catalogue::Plant;

constexpr double lawn_resistance_s_per_m = 70.0;
constexpr double sunlit_share = 0.5;
constexpr double least_windbreak_mm = 400.0;

bool is_of_years(const Plant& plant) { return plant.lifespan == catalogue::Lifespan::years; }

}  // namespace

std::string_view word_of(Purpose purpose) {
  for (const auto& [word, value] : purpose_words) {
    if (value == purpose) return word;
  }
  expects(false, "a purpose of the list");
  return {};
}

double cooling_over_lawn(const catalogue::Foliage& foliage) {
  return foliage.cover_frac.likely * sunlit_share * foliage.leaf_area_index.likely /
         foliage.least_stomatal_resistance_s_per_m.likely * lawn_resistance_s_per_m;
}

int months_in_bloom(const Plant& plant) {
  int n_months = 0;
  for (int month = 1; month <= 12; ++month) n_months += blooms_in(plant, month, catalogue::Hemisphere::north) ? 1 : 0;
  return n_months;
}

std::optional<Service> service_of(const Plant& plant, Purpose purpose) {
  const int n_months = months_in_bloom(plant);
  switch (purpose) {
    case Purpose::cool: {
      const double worth = cooling_over_lawn(plant.foliage);
      return Service{worth, fmt::format("lets out {} of the water that a watered lawn does, and drinks as much",
                                        two_digits(worth))};
    }
    case Purpose::bloom:
      if (n_months == 0) return std::nullopt;
      return Service{static_cast<double>(n_months), counted(n_months, "month in bloom", "months in bloom")};
    case Purpose::bees:
      if (plant.bee_worth == 0 || n_months == 0) return std::nullopt;
      return Service{plant.bee_worth + n_months / 100.0,
                     fmt::format("worth to bees {} of 3, {}", plant.bee_worth, counted(n_months, "month", "months"))};
    case Purpose::food:
      if (plant.eaten.empty()) return std::nullopt;
      return Service{1.0, fmt::format("eaten: {}", plant.eaten)};
    case Purpose::hold: {
      if (!is_of_years(plant)) return std::nullopt;
      const double spread = plant.width_mm->likely / plant.foliage.height_mm.likely;
      return Service{plant.foliage.cover_frac.likely * spread,
                     fmt::format("covers {} of its ground, {:.0f} mm wide and {:.0f} high",
                                 percent(plant.foliage.cover_frac.likely), plant.width_mm->likely,
                                 plant.foliage.height_mm.likely)};
    }
    case Purpose::windbreak:
      if (!is_of_years(plant) || plant.foliage.height_mm.likely < least_windbreak_mm ||
          plant.wind->tolerance == catalogue::Tolerance::none) {
        return std::nullopt;
      }
      return Service{plant.foliage.height_mm.likely, fmt::format("{:.0f} mm high", plant.foliage.height_mm.likely)};
  }
  expects(false, "a purpose of the list");
  return std::nullopt;
}

}  // namespace houseleek::planting
