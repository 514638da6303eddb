// Mixes in bloom against every set of plants tried out; months in words; the calendar's letters.
#include "planting/mixes.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "base/random.hpp"
#include "planting/bloom_calendar.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::planting {
namespace {

struct Tried {
  int n_kinds = std::numeric_limits<int>::max();
  int worth = 0;
};

Tried try_every_set(const std::vector<BloomChoice>& choices, MonthSet already) {
  MonthSet wanted = already;
  for (const BloomChoice& one : choices) wanted |= one.blooms;
  Tried best;
  for (std::size_t set = 0; set < (std::size_t{1} << choices.size()); ++set) {
    MonthSet months = already;
    int n_kinds = 0;
    int worth = 0;
    for (std::size_t i = 0; i < choices.size(); ++i) {
      if ((set >> i & 1) == 0) continue;
      months |= choices[i].blooms;
      ++n_kinds;
      worth += choices[i].worth;
    }
    if (months != wanted) continue;
    if (n_kinds < best.n_kinds || (n_kinds == best.n_kinds && worth > best.worth)) best = {n_kinds, worth};
  }
  return best;
}

TEST(BloomMix, IsThatOfEveryTrial) {
  const RandomVariable drawn = random_variable(3, "bloom");
  for (std::uint32_t trial = 0; trial < 200; ++trial) {
    std::vector<BloomChoice> choices;
    const std::uint32_t n_choices = 1 + trial % 11;
    for (std::uint32_t i = 0; i < n_choices; ++i) {
      const int first = static_cast<int>(12 * random_uniform(drawn, {trial, 0, i}));
      const int length = 1 + static_cast<int>(5 * random_uniform(drawn, {trial, 1, i}));
      BloomChoice choice;
      for (int month = first; month < first + length; ++month) {
        choice.blooms = static_cast<MonthSet>(choice.blooms | (1U << (month % 12)));
      }
      choice.worth = static_cast<int>(9 * random_uniform(drawn, {trial, 2, i}));
      choices.push_back(choice);
    }
    const MonthSet already = trial % 3 == 0 ? MonthSet{0} : static_cast<MonthSet>(0x00F0);
    const Tried best = try_every_set(choices, already);
    const BloomMix mix = find_bloom_mix(choices, already);
    int worth = 0;
    MonthSet months = already;
    for (const std::size_t i : mix.chosen) {
      worth += choices[i].worth;
      months |= choices[i].blooms;
    }
    EXPECT_EQ(static_cast<int>(mix.chosen.size()), best.n_kinds) << trial;
    EXPECT_EQ(worth, best.worth) << trial;
    EXPECT_EQ(months, mix.in_bloom) << trial;
    EXPECT_EQ(mix.in_bloom ^ mix.never, all_months) << trial;
    // No filler: each brings a month that nothing else does.
    for (const std::size_t left_out : mix.chosen) {
      MonthSet others = already;
      for (const std::size_t i : mix.chosen) {
        if (i != left_out) others |= choices[i].blooms;
      }
      EXPECT_NE(others, mix.in_bloom) << trial;
    }
  }
}

TEST(BloomMix, NothingToChooseFrom) {
  const BloomMix mix = find_bloom_mix({});
  EXPECT_TRUE(mix.chosen.empty());
  EXPECT_EQ(mix.never, all_months);
}

TEST(BloomMix, MonthsInWords) {
  EXPECT_EQ(months_in_words(all_months), "all year");
  EXPECT_EQ(months_in_words(MonthSet{0}), "");
  EXPECT_EQ(months_in_words(MonthSet{0b000011110000}), "May to August");
  EXPECT_EQ(months_in_words(MonthSet{0b100000000011}), "December to February");
  EXPECT_EQ(months_in_words(MonthSet{0b001000010001}), "January, May and October");
  EXPECT_EQ(months_in_words(11, 2), "November to February");
  EXPECT_EQ(months_in_words(1, 12), "all year");
}

TEST(BloomCalendar, LettersNorthAndSouth) {
  const catalogue::Catalogue all = tests::shipped_catalogue();
  const catalogue::Plant* thyme = catalogue::find_plant(all, "Thymus vulgaris");  // May to July; seed, cuttings
  const std::vector<const catalogue::Plant*> plants = {thyme};
  const CalendarRow north = make_calendar(plants, all.raising, {catalogue::Hemisphere::north, {}}).front();
  const std::array<std::string, 12> wanted = {"", "s", "s", "s", "bc", "bc", "bc", "ct", "c", "", "", ""};
  EXPECT_EQ(north.letters, wanted);
  const CalendarRow south = make_calendar(plants, all.raising, {catalogue::Hemisphere::south, {}}).front();
  for (std::size_t month = 0; month < 12; ++month) EXPECT_EQ(south.letters[(month + 6) % 12], wanted[month]);
  EXPECT_EQ(bloom_bits(*thyme, catalogue::Hemisphere::north), 0b000001110000);
  CalendarYear frosty;
  frosty.has_frost.fill(true);
  EXPECT_EQ(make_calendar(plants, all.raising, frosty).front().letters[1], "s");  // under cover
  EXPECT_EQ(make_calendar(plants, all.raising, frosty).front().letters[4], "b");
}

}  // namespace
}  // namespace houseleek::planting
