// The roof as it "really" is, hidden from the program: drawn once by a seed, written down, never tuned.
#include "truth.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "plan/layout.hpp"
#include "simulation/run.hpp"
#include "stats/split_triangular.hpp"
#include "studies/weather.hpp"

namespace houseleek::invent {
namespace {

constexpr std::string_view hidden_paths[] = {"site.wind_factor",
                                             "roof.finish.albedo",
                                             "room[0].infiltration_per_h",
                                             "room[1].infiltration_per_h",
                                             "room[2].infiltration_per_h",
                                             "room[3].infiltration_per_h",
                                             "recipe[0].canopy.leaf_area_index",
                                             "recipe[0].spacer.gap_wind_frac",
                                             "recipe[0].spacer.blocked_frac",
                                             "recipe[1].canopy.leaf_area_index",
                                             "recipe[1].contact_m2_k_per_w",
                                             "material[light compost-perlite-coir mix].density_kg_per_m3",
                                             "material[light compost-perlite-coir mix].conductivity_w_per_m_k",
                                             "material[horticultural mineral wool].density_kg_per_m3"};

results::GroupYear run(const simulation::CoverGroup& cover, const climate::WeatherYear& weather) {
  const climate::ForcingSource forcing = [&weather](int hour, double fraction) {
    return climate::forcing_at(weather, hour, fraction);
  };
  return simulation::run_group(cover.group, forcing, {});
}

std::vector<double> heat_w(const results::GroupYear& year) {
  std::vector<double> sum(year.rooms.front().heat_added_w.size(), 0.0);
  for (const results::RoomYear& room : year.rooms) {
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += room.heat_added_w[i];
  }
  return sum;
}

}  // namespace

std::vector<studies::PlacedFigure> hidden_figures(const design::ValidDesign& design) {
  std::vector<studies::PlacedFigure> figures;
  for (const std::string_view path : hidden_paths) {
    const auto found = std::find_if(design.assumed().begin(), design.assumed().end(),
                                    [path](const design::Assumption& one) { return one.path == path; });
    expects(found != design.assumed().end(), "a figure that the design assumes");
    const RandomVariable variable = random_variable(seed, "hidden " + std::string(path));
    figures.push_back(
        {std::string(path), stats::random_split_triangular(variable, {}, {found->low, found->likely, found->high})});
  }
  return figures;
}

TrueYear simulate_year(const design::ValidDesign& truth, int year, int draw) {
  const Result<climate::WeatherYear> weather = studies::make_weather(truth, std::nullopt, draw);
  expects(weather.has_value(), "a year made from the normals");
  const plan::Layout layout = plan::make_layout(truth);
  TrueYear made;
  made.year = year;
  made.weather = weather.value();
  const auto group = [&](simulation::Cover cover, bool is_held) {
    return simulation::make_cover_group(truth, layout, made.weather, cover, {.is_held = is_held});
  };
  using simulation::Cover;
  const simulation::CoverGroup bare = group(Cover::bare, false);
  const simulation::CoverGroup planted = group(Cover::planted, false);
  made.bare_origins = bare.origins;
  made.planted_origins = planted.origins;
  made.bare = run(bare, made.weather);
  made.planted = run(planted, made.weather);
  made.bare_heat_w = heat_w(run(group(Cover::bare, true), made.weather));
  made.planted_heat_w = heat_w(run(group(Cover::planted, true), made.weather));
  return made;
}

}  // namespace houseleek::invent
