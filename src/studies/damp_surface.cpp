// Mould on the room's side of the deck and at its bare edges, by months.
#include "studies/damp_surface.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "climate/calendar.hpp"
#include "physics/build_up.hpp"
#include "physics/steady_damp.hpp"
#include "studies/damp_cases.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;

/// Inner corners at an upstand without insulation of its own, as shares of the way from outside to inside: ours.
constexpr std::array<double, 3> edge_factors = {0.4, 0.55, 0.75};
constexpr std::string_view edge_source =
    "our own estimate for an upstand without insulation; not run in two dimensions";
/// A month this little colder than the room asks for nothing: any face is warm enough or the air itself is too damp.
constexpr double least_difference_k = 3.0;

struct Needed {
  double factor = 0.0;
  int month = 0;
};

/// The month that asks most.
Needed needed_in(const climate::WeatherYear& weather, double room_c, double excess_pa) {
  const std::array<double, 12> outside_c = month_means(weather.air_temperature_c);
  const std::array<double, 12> outside_pa = month_means(weather.vapour_pressure_pa);
  Needed most;
  for (std::size_t month = 0; month < 12; ++month) {
    if (outside_c[month] > room_c - least_difference_k) continue;
    const double room_pa = outside_pa[month] + physics::room_vapour_excess_pa(excess_pa, outside_c[month]);
    const double factor = physics::needed_temperature_factor(outside_c[month], room_c, room_pa);
    if (most.month == 0 || factor > most.factor) most = {factor, static_cast<int>(month) + 1};
  }
  return most;
}

double warmest_heating_c(const design::Design& design) {
  double most_c = 0.0;
  for (const design::Room& room : design.rooms) most_c = std::max(most_c, room.heat_to_c);
  return most_c;
}

/// Of the bare deck, by the room's side resistance for mould.
Figure deck_factor(const design::Roof& roof) {
  std::array<double, 3> factors{};
  for (std::size_t i = 0; i < factors.size(); ++i) {
    double resistance = physics::outside_surface_resistance_m2_k_per_w + physics::mould_surface_resistance_m2_k_per_w;
    for (const design::Layer& layer : roof.deck) {
      const catalogue::Spread& conductivity = layer.material.conductivity_w_per_m_k;
      const double by_end[] = {conductivity.high, conductivity.likely, conductivity.low};
      resistance += 0.001 * layer.thickness_mm / by_end[i];
    }
    factors[i] = 1.0 - physics::mould_surface_resistance_m2_k_per_w / resistance;
  }
  return results::figure_with_range(factors[1], factors[0], factors[2], "conductivities of the layers");
}

}  // namespace

report::DampSurface answer_surface(const design::Design& design, const climate::WeatherYear& weather) {
  report::DampSurface surface;
  surface.deck_factor = deck_factor(design.roof);
  surface.edge_factor =
      results::figure_with_range(edge_factors[1], edge_factors[0], edge_factors[2], std::string(edge_source));
  const double room_c = warmest_heating_c(design);
  const Needed likely = needed_in(weather, room_c, room_excess_pa[1]);
  surface.month = likely.month;
  if (likely.month == 0) {
    const std::string why = fmt::format("no month is colder than the room heated to {:.0f} degC", room_c);
    surface.needed_factor = results::figure_missing(why);
    surface.statement = "Mould on inner faces: " + why + "; air that is damp by itself is not judged.";
    return surface;
  }
  const double dry = needed_in(weather, room_c, room_excess_pa[0]).factor;
  const double damp = needed_in(weather, room_c, room_excess_pa[2]).factor;
  surface.needed_factor = results::figure_with_range(likely.factor, dry, damp, "a dry and a damp room");
  const auto is_below = [&](const Figure& warmth) { return warmth.range->low < damp; };
  const bool edge_at_risk = is_below(surface.edge_factor);
  const bool deck_at_risk = is_below(surface.deck_factor);
  const std::string where = edge_at_risk && deck_at_risk ? "bare edges, parapets and the deck itself"
                            : edge_at_risk               ? "bare edges and parapets"
                                                         : "the deck itself";
  surface.statement =
      edge_at_risk || deck_at_risk
          ? fmt::format("Mould on inner faces: at risk at {} in a room heated to {:.0f} degC.", where, room_c)
          : std::string(
                "Mould on inner faces: edges and corners were not run in two dimensions, so nothing is cleared.");
  return surface;
}

}  // namespace houseleek::studies
