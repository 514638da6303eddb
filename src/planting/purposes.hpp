// What people want plants for, and how well each serves: an order, with the figure behind it.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "catalogue/plant.hpp"

namespace houseleek::planting {

enum class Purpose { cool, bloom, bees, food, hold, windbreak };
inline constexpr std::pair<std::string_view, Purpose> purpose_words[] = {
    {"cool", Purpose::cool}, {"bloom", Purpose::bloom}, {"bees", Purpose::bees},
    {"food", Purpose::food}, {"hold", Purpose::hold},   {"windbreak", Purpose::windbreak}};

[[nodiscard]] std::string_view word_of(Purpose purpose);

/// How freely leaves let out water, over a watered lawn's.
/// Equation: c (L/2) / r / (1 / 70)
/// Symbols:  c: cover_frac; L: leaf_area_index, of which half is in the sun; r: least_stomatal_resistance_s_per_m; 70 s/m:
///           the grass reference, 100 / (0.5 24 0.12)
/// Shape:    a plant's foliage in, scalar out; pure.   Units: pure number.
/// Valid:    a likeness between plants that have water; a thirsty one lets out little.
/// Source:   [allen1998] Eq. 5 and Box 5.   Checked by: COO-01.
[[nodiscard]] double cooling_over_lawn(const catalogue::Foliage& foliage);

/// How well a plant serves; nullopt: not at all. Larger is better, comparable within a purpose only.
/// - cool: cooling_over_lawn; bloom: months in bloom; bees: bee_worth, then months; food: 1 where a part is eaten
/// - hold (the medium against wind and rain): cover over the year times width over height, plants of years only
/// - windbreak: height of plants of years from 400 mm on that bear wind
struct Service {
  double worth = 0.0;
  std::string text;  // in a few words, with the figure
};
[[nodiscard]] std::optional<Service> service_of(const catalogue::Plant& plant, Purpose purpose);

/// Months in bloom, 0 to 12.
[[nodiscard]] int months_in_bloom(const catalogue::Plant& plant);

}  // namespace houseleek::planting
