// What people did on the invented roof: modules made, looked at, mended, watered, weighed; storms; a nursery.
#pragma once
#include <string>
#include <vector>

#include "event_table.hpp"
#include "truth.hpp"

namespace houseleek::invent {

inline constexpr const char* first_day_text = "2024-03-01";
inline constexpr const char* last_day_text = "2026-02-28";

struct Module {
  std::string label;
  int recipe = 0;
  std::int64_t made_day = 0;
  double mass_factor = 1.0;  // against the mean of its recipe
};

struct StormDay {
  std::int64_t day = 0;
  double gust_km_per_h = 0.0;
  double rain_mm = 0.0;
};

struct Story {
  const design::ValidDesign& truth;
  const std::vector<TrueYear>& years;
  std::vector<Module> modules;   // in the order of making
  std::vector<StormDay> storms;  // oldest first
};

/// Modules in the order in which money came, and storms out of the made years.
[[nodiscard]] Story begin_story(const design::ValidDesign& truth, const std::vector<TrueYear>& years);

/// Modules that lie there on a day, of one recipe or of all (-1).
[[nodiscard]] int modules_on(const Story& story, std::int64_t day, int recipe);

void add_making(const Story& story, EventTable& table);
void add_storms(const Story& story, EventTable& table);
/// Looks and replacements: each tie and cover wears out by its hidden law.
void add_upkeep(const Story& story, EventTable& table);
void add_watering(const Story& story, EventTable& table);
void add_weighings(const Story& story, EventTable& table);
void add_nursery(const Story& story, EventTable& table);

/// The year that a day lies in.
[[nodiscard]] const TrueYear& year_of(const std::vector<TrueYear>& years, std::int64_t day);
/// Hour of its year's columns in which a moment of the place's standard time lies; 29 February is 28 February again.
[[nodiscard]] std::size_t hour_of_year(std::int64_t day, int hour);

[[nodiscard]] double uniform(const std::string& name, std::int64_t day, std::size_t index);
[[nodiscard]] double normal(const std::string& name, std::int64_t day, std::size_t index);

}  // namespace houseleek::invent
