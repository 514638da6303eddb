// The roof as it "really" is, hidden from the program: drawn once by a seed, written down, never tuned.
#pragma once
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "results/group_year.hpp"
#include "simulation/covers.hpp"
#include "studies/one_at_a_time_vary.hpp"

namespace houseleek::invent {

inline constexpr std::uint64_t seed = 20240301;

/// Laws by which parts of the story wear out: shape and median life in years of a Weibull law. A storm ages every part
/// by so many years at once. Figures were chosen once, from what the catalogue says of such parts, and not looked at again.
struct WearLaw {
  double shape = 1.0;
  double median_years = 1.0;
  double years_a_storm = 0.0;
};
inline constexpr WearLaw tie_law{2.2, 1.1, 0.06};
inline constexpr WearLaw cover_law{2.8, 1.4, 0.04};

/// Noise of what people and instruments do.
inline constexpr double hand_noise_k = 0.4;       // of one reading, standard deviation
inline constexpr double place_offset_k = 0.3;     // of a place against its simulated square, standard deviation
inline constexpr double logger_noise_k = 0.1;     // of one stamp, standard deviation
inline constexpr double scale_noise_kg = 0.1;     // of the kitchen scale, standard deviation
inline constexpr double module_mass_frac = 0.03;  // from module to module, standard deviation

/// Share of the heat that would keep all rooms at their set temperature which this household really buys: it heats some
/// rooms in the evening.
inline constexpr double heated_frac = 0.45;

/// The figures of the design that are assumed and here have a value of their own, drawn between the assumption's ends.
[[nodiscard]] std::vector<studies::PlacedFigure> hidden_figures(const design::ValidDesign& design);

/// What the calendar years bring: each simulated once, bare and planted as laid out in the end.
struct TrueYear {
  int year = 0;
  climate::WeatherYear weather;
  std::vector<simulation::StackOrigin> bare_origins;
  std::vector<simulation::StackOrigin> planted_origins;
  results::GroupYear bare;          // rooms running free
  results::GroupYear planted;       // rooms running free
  std::vector<double> bare_heat_w;  // bought if all rooms were held, by hour
  std::vector<double> planted_heat_w;
};

/// `draw`: which made year of the design's climate it is.
[[nodiscard]] TrueYear simulate_year(const design::ValidDesign& truth, int year, int draw);

}  // namespace houseleek::invent
