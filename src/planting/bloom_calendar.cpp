// The year of some plants in letters: bloom and work, month by month, in the hemisphere of the house.
#include "planting/bloom_calendar.hpp"

namespace houseleek::planting {
namespace {

using catalogue::RaisedFrom;

char letter_of(RaisedFrom way) {
  switch (way) {
    case RaisedFrom::seed:
      return 's';
    case RaisedFrom::cuttings:
    case RaisedFrom::pads:
      return 'c';
    case RaisedFrom::division:
      return 'd';
    case RaisedFrom::bulbs:
      return 'p';
    case RaisedFrom::leaves:
    case RaisedFrom::offsets:
    case RaisedFrom::runners:
      return 'o';
  }
  return ' ';
}

}  // namespace

std::uint16_t bloom_bits(const catalogue::Plant& plant, catalogue::Hemisphere hemisphere) {
  std::uint16_t bits = 0;
  for (int month = 1; month <= 12; ++month) {
    if (blooms_in(plant, month, hemisphere)) bits = static_cast<std::uint16_t>(bits | (1U << (month - 1)));
  }
  return bits;
}

std::vector<CalendarRow> make_calendar(std::span<const catalogue::Plant* const> plants,
                                       std::span<const catalogue::Raising> raising, const CalendarYear& year) {
  const catalogue::Hemisphere hemisphere = year.hemisphere;
  std::vector<CalendarRow> rows;
  for (const catalogue::Plant* plant : plants) {
    CalendarRow row;
    row.plant = plant->name;
    for (int month = 1; month <= 12; ++month) {
      std::string& letters = row.letters[static_cast<std::size_t>(month) - 1];
      const auto add = [&letters](char letter) {
        if (letters.find(letter) == std::string::npos) letters += letter;
      };
      if (blooms_in(*plant, month, hemisphere)) add('b');
      for (const RaisedFrom way : plant->raised_from) {
        const catalogue::Raising* how = catalogue::find_raising(raising, way, plant->group);
        const bool is_frozen = way != RaisedFrom::seed && year.has_frost[static_cast<std::size_t>(month) - 1];
        if (how != nullptr && !is_frozen && catalogue::begins_in(*how, month, hemisphere)) add(letter_of(way));
      }
      const int before = (month + 10) % 12 + 1;
      const bool is_over = blooms_in(*plant, before, hemisphere) && !blooms_in(*plant, month, hemisphere);
      if (is_over && plant->lifespan == catalogue::Lifespan::years) add('t');
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace houseleek::planting
