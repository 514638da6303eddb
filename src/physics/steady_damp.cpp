// The steady, monthly method for vapour in a build-up.
#include "physics/steady_damp.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"

namespace houseleek::physics {
namespace {

double saturation_pa(double temperature_c) {
  expects(temperature_c >= lowest_air_temperature_c && temperature_c <= highest_air_temperature_c,
          "a temperature of an interface from -60 to 100 degC");
  return temperature_c >= 0.0 ? saturation_pressure_unchecked(temperature_c).pressure_pa
                              : saturation_pressure_over_ice_unchecked(temperature_c).pressure_pa;
}

/// A place on the way of the vapour: how much resistance lies above it, and the most pressure it takes.
struct Place {
  double resistance = 0.0;
  double pressure_pa = 0.0;
  std::size_t interface = 0;
};

/// The lower convex hull of places in the order of their resistance, from the first to the last.
std::vector<Place> taut_line(const std::vector<Place>& places) {
  std::vector<Place> line;
  for (const Place& place : places) {
    while (line.size() >= 2) {
      const Place& a = line[line.size() - 2];
      const Place& b = line.back();
      const double turn = (b.resistance - a.resistance) * (place.pressure_pa - a.pressure_pa) -
                          (place.resistance - a.resistance) * (b.pressure_pa - a.pressure_pa);
      if (turn > 0.0) break;
      line.pop_back();
    }
    line.push_back(place);
  }
  return line;
}

/// Flux between neighbours on the line, from the bottom side upwards; places at one resistance let everything through.
double flux_up(const Place& upper, const Place& lower) {
  return (lower.pressure_pa - upper.pressure_pa) / (lower.resistance - upper.resistance);
}

double sum_of(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum;
}

/// One month with water at interfaces; one that dries out before its end is set free.
void pass_month(std::span<const SteadyLayer> layers, const SteadySides& sides, double left_s,
                std::vector<double>& water) {
  std::vector<bool> is_wet(water.size());
  for (std::size_t round = 0; left_s > 0.0 && round <= 4 * water.size(); ++round) {
    for (std::size_t i = 0; i < water.size(); ++i) is_wet[i] = water[i] > 0.0;
    const std::vector<double> rate = steady_condensation_kg_per_m2_s(layers, sides, is_wet);
    double span_s = left_s;
    std::size_t first_dry = water.size();
    for (std::size_t i = 0; i < water.size(); ++i) {
      if (rate[i] < 0.0 && water[i] < -rate[i] * span_s) {
        span_s = water[i] / -rate[i];
        first_dry = i;
      }
    }
    for (std::size_t i = 0; i < water.size(); ++i) water[i] = numerics::max(0.0, water[i] + rate[i] * span_s);
    if (first_dry < water.size()) water[first_dry] = 0.0;
    left_s -= span_s;
  }
}

}  // namespace

std::vector<double> steady_condensation_kg_per_m2_s(std::span<const SteadyLayer> layers, const SteadySides& sides,
                                                    const std::vector<bool>& is_wet) {
  double heat_m2_k_per_w = 0.0;
  double vapour = 0.0;
  for (const SteadyLayer& layer : layers) {
    expects(layer.heat_resistance_m2_k_per_w >= 0.0 && layer.vapour_resistance_m2_s_pa_per_kg >= 0.0,
            "resistances of 0 or more");
    heat_m2_k_per_w += layer.heat_resistance_m2_k_per_w;
    vapour += layer.vapour_resistance_m2_s_pa_per_kg;
  }
  const std::size_t n = layers.size();
  expects(n > 0 && heat_m2_k_per_w > 0.0 && vapour > 0.0, "layers that resist heat and vapour");
  expects(is_wet.empty() || is_wet.size() == n + 1, "one value an interface");

  std::vector<Place> places;
  std::vector<std::size_t> fixed;  // places that the line must touch
  double heat_above = 0.0;
  double vapour_above = 0.0;
  for (std::size_t i = 0; i <= n; ++i) {
    const double temperature_c = sides.top_c + (sides.bottom_c - sides.top_c) * heat_above / heat_m2_k_per_w;
    Place place{vapour_above, saturation_pa(temperature_c), i};
    const bool is_wet_here = !is_wet.empty() && is_wet[i];
    const bool is_end = i == 0 || i == n;
    if (i == 0 && !is_wet_here) place.pressure_pa = numerics::min(place.pressure_pa, sides.top_pa);
    if (i == n && !is_wet_here) place.pressure_pa = numerics::min(place.pressure_pa, sides.bottom_pa);
    // Interfaces with nothing for vapour between them are one: the colder of them counts.
    if (!places.empty() && place.resistance <= places.back().resistance) {
      const bool was_fixed = !fixed.empty() && fixed.back() + 1 == places.size();
      if (is_end || is_wet_here || (!was_fixed && place.pressure_pa < places.back().pressure_pa)) {
        places.back() = place;
      }
      if ((is_end || is_wet_here) && !was_fixed) fixed.push_back(places.size() - 1);
    } else {
      places.push_back(place);
      if (is_end || is_wet_here) fixed.push_back(places.size() - 1);
    }
    if (i < n) {
      heat_above += layers[i].heat_resistance_m2_k_per_w;
      vapour_above += layers[i].vapour_resistance_m2_s_pa_per_kg;
    }
  }
  std::vector<Place> line;
  for (std::size_t k = 0; k + 1 < fixed.size(); ++k) {
    const auto first = places.begin() + static_cast<std::ptrdiff_t>(fixed[k]);
    const auto last = places.begin() + static_cast<std::ptrdiff_t>(fixed[k + 1]) + 1;
    const std::vector<Place> part = taut_line({first, last});
    line.insert(line.end(), part.begin() + (line.empty() ? 0 : 1), part.end());
  }
  std::vector<double> rate(n + 1, 0.0);
  for (std::size_t k = 1; k + 1 < line.size(); ++k) {
    rate[line[k].interface] = flux_up(line[k], line[k + 1]) - flux_up(line[k - 1], line[k]);
  }
  return rate;
}

SteadyYear steady_damp_year(std::span<const SteadyLayer> layers, const std::array<SteadySides, 12>& months,
                            const std::array<double, 12>& month_s) {
  for (const double one_s : month_s) expects(one_s > 0.0, "months longer than 0");
  std::array<bool, 12> condenses{};
  for (std::size_t month = 0; month < 12; ++month) {
    for (const double rate : steady_condensation_kg_per_m2_s(layers, months[month], {})) {
      condenses[month] = condenses[month] || rate > 0.0;
    }
  }
  SteadyYear year;
  for (std::size_t month = 0; month < 12 && !year.has_condensation; ++month) {
    // The first month after one without; where all condense, January.
    if (condenses[month] && !condenses[(month + 11) % 12]) {
      year.has_condensation = true;
      year.first_month = month;
    }
  }
  year.has_condensation = year.has_condensation || condenses[0];
  if (!year.has_condensation) return year;
  std::vector<double> water(layers.size() + 1, 0.0);
  for (std::size_t i = 0; i < 12; ++i) {
    const std::size_t month = (year.first_month + i) % 12;
    pass_month(layers, months[month], month_s[month], water);
    year.gathered_kg_per_m2[month] = sum_of(water);
    year.most_kg_per_m2 = numerics::max(year.most_kg_per_m2, year.gathered_kg_per_m2[month]);
  }
  year.left_kg_per_m2 = sum_of(water);
  return year;
}

double room_vapour_excess_pa(double excess_at_zero_pa, double outside_c) {
  expects(excess_at_zero_pa >= 0.0, "an excess of 0 or more");
  constexpr double no_excess_from_c = 20.0;
  const double share = 1.0 - outside_c / no_excess_from_c;
  return excess_at_zero_pa * numerics::min(1.0, numerics::max(0.0, share));
}

double needed_temperature_factor(double outside_c, double room_c, double room_vapour_pa) {
  expects(room_c > outside_c && room_vapour_pa > 0.0, "a room warmer than outside with vapour in it");
  // The inverse of e = 610.8 exp(17.27 t / (t + 237.3)), over water: faces of rooms do not freeze in this method.
  const double log_ratio = numerics::log(room_vapour_pa / critical_surface_humidity / 610.8);
  const double face_c = 237.3 * log_ratio / (17.27 - log_ratio);
  return (face_c - outside_c) / (room_c - outside_c);
}

}  // namespace houseleek::physics
