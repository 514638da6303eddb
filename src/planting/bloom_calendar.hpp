// The year of some plants in letters: bloom and work, month by month, in the hemisphere of the house.
#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace houseleek::planting {

/// What a letter of the table stands for.
struct LetterWords {
  char letter = ' ';
  std::string_view words = "";
};
inline constexpr LetterWords letter_words[] = {{'b', "in bloom"},
                                               {'s', "sow"},
                                               {'c', "take cuttings"},
                                               {'d', "divide"},
                                               {'o', "take offsets, runners or leaves"},
                                               {'p', "plant bulbs"},
                                               {'t', "cut back after bloom"}};

struct CalendarRow {
  std::string plant;                    // botanical
  std::array<std::string, 12> letters;  // January first; empty: nothing
};

/// Equation: b in the plant's months; s, c, d, o, p in the months to begin of the ways it is raised by; t in the month
///           after the last of bloom, of plants of years
/// Shape:    plants in, a row each; pure. South of the equator half a year later. In a month of frost nothing is done but
///           sowing, which is under cover then.
struct CalendarYear {
  catalogue::Hemisphere hemisphere = catalogue::Hemisphere::north;
  std::array<bool, 12> has_frost = {};  // mean daily minimum below 0 degC, January first
};
[[nodiscard]] std::vector<CalendarRow> make_calendar(std::span<const catalogue::Plant* const> plants,
                                                     std::span<const catalogue::Raising> raising,
                                                     const CalendarYear& year);

/// Months of bloom as bits, bit 0 January, in the hemisphere.
[[nodiscard]] std::uint16_t bloom_bits(const catalogue::Plant& plant, catalogue::Hemisphere hemisphere);

}  // namespace houseleek::planting
