// Will this plant live at this place: hard limits one by one, in three words, with a sentence for and against each.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/plant.hpp"
#include "design/planting.hpp"
#include "planting/winter.hpp"

namespace houseleek::planting {

enum class Survival { likely, doubtful, no };
[[nodiscard]] std::string_view word_of(Survival survival);

/// Wind at the roof, by its strongest hours.
enum class WindExposure { sheltered, breezy, windy };

/// Wind at the roof that is passed in one hour of twenty.
/// Equation: sheltered below 5.5 m/s, windy from 8.0 m/s
/// Units:    m/s.
/// Valid:    not negative, else a contract violation.
/// Source:   Beaufort 4 (moves small branches) and 5 (small trees sway), from memory; which of them plants mind: ours.
[[nodiscard]] WindExposure wind_exposure(double wind_of_twentieth_hour_m_per_s);

/// Sun on the plants of a place: what the roof gets, less what a net keeps off.
/// Equation: full from 0.7 of the roof's sun on, half from 0.4 on; each step of the roof's own takes one off
/// Source:   own estimate; growers sort plants by such words, not by shares.
[[nodiscard]] catalogue::Sun sun_on_plants(design::RoofSun roof, double net_transmittance_frac);

/// Days that a place stands dry in a row.
struct DryDays {
  double low = 0.0;     // in one year of ten less
  double likely = 0.0;  // middle year
  double high = 0.0;    // in one year of ten more
  std::string when;     // July
};

/// What a place asks of plants.
struct Place {
  std::string name;
  bool is_container = false;
  double medium_depth_mm = 0.0;
  double reference_days = 0.0;  // that 90 mm of this medium lasts at the peak; counted in a plant's dry_spell_days
  std::optional<DryDays> dry;   // absent: not computed
  std::string why_no_dry;
  ColdestNight coldest;
  // Months without a night below so many degrees once in 20 years: what plants of one season are judged by.
  std::vector<double> coldest_by_month_c;  // 12
  catalogue::Sun sun = catalogue::Sun::full;
  bool is_sun_said = false;
  bool is_under_net = false;
  WindExposure wind = WindExposure::breezy;
  double wind_m_per_s = 0.0;
  design::SaltSpray salt = design::SaltSpray::none;
  std::vector<catalogue::Climate> climates;  // that this place has
};

struct Reason {
  std::string about;  // winter, depth, dry, sun, wind, salt, climate
  Survival word = Survival::likely;
  std::string text;
};

struct Judged {
  Survival word = Survival::likely;  // the worst of its reasons
  std::vector<Reason> reasons;       // every limit that was looked at, the worst first
  std::optional<int> first_month;    // of plants of one season: when they can stand outside
  std::optional<int> last_month;
};

/// summer-dry, temperate ...
[[nodiscard]] std::string_view climate_name(catalogue::Climate climate);

/// Days without water a plant lives through beyond the empty store.
/// Equation: d - r, not below 0
/// Symbols:  d: dry_spell_days of the catalogue, counted from a full 90 mm; r: reference_days
[[nodiscard]] double days_beyond_store(double dry_spell_days, double reference_days);

/// Judges a plant by every hard limit.
/// - winter: plants of years: likely if the cold end of the 20-year night is not below what it lives through at the
///   likely figure; no if the night is below its low figure; between, doubtful. Plants of one season need three months
///   in a row with no such night in them.
/// - depth: likely from the likely figure of medium_depth_mm on, no below its low one.
/// - dry: likely while one year in ten is no drier than the likely figure, no where the middle year is above the high.
/// - sun: one step off its list is doubtful, two are no. Too much sun counts as too little.
/// - wind and salt: one step short is doubtful; two are no for salt, doubtful for wind, which a screen can mend.
/// - climate: doubtful where growers do not name this kind of climate.
/// Shape: pure. More medium never gives a worse word while the rest of the place stays.
[[nodiscard]] Judged judge(const catalogue::Plant& plant, const Place& place);

}  // namespace houseleek::planting
