// Five years of damp in the deck under one cover, with one thing changed, and what they say.
#include "studies/damp_cases.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "physics/air.hpp"
#include "physics/build_up.hpp"
#include "physics/mould.hpp"

namespace houseleek::studies {
namespace {

using climate::n_hours_in_year;
using simulation::RangeEnd;

constexpr int n_damp_hours = n_damp_years * n_hours_in_year;
// Films of vapour [en15026] (from memory): at a roof, in a room.
constexpr double outside_film_kg_per_m2_s_pa = 7.5e-8;
constexpr double inside_film_kg_per_m2_s_pa = 2.5e-8;
constexpr double least_rise_kg_per_m2 = 0.01;
constexpr double tight_membrane_m = 100.0;
constexpr double least_decline_frac = 0.1;  // of mould on what dries slowly: our own estimate

/// A model wants the warmest class first; answers give the hardly sensitive one as the low end.
struct MouldCase {
  physics::MouldClass sensitivity;
  double decline_frac;
};
constexpr std::array<MouldCase, 3> mould_cases = {{{physics::MouldClass::medium_resistant, 1.0},
                                                   {physics::MouldClass::sensitive, 0.5},
                                                   {physics::MouldClass::very_sensitive, least_decline_frac}}};

double saturation_pa(double temperature_c) {
  return temperature_c >= 0.0 ? physics::saturation_vapour_pressure_pa(temperature_c)
                              : physics::saturation_vapour_pressure_over_ice_pa(temperature_c);
}

int month_of_hour(int hour) {
  return climate::month_of_day[static_cast<std::size_t>(hour % n_hours_in_year / climate::n_hours_in_day)];
}

int first_hour(bool is_north) {
  return climate::n_hours_in_day *
         climate::first_day_of_month[static_cast<std::size_t>(first_damp_month(is_north) - 1)];
}

/// Vapour in the room: that of the air outside and what people add, by the month's mean outside, at most saturated.
double room_vapour_pa(double outside_pa, double excess_pa, double outside_month_c, double room_c) {
  return std::min(outside_pa + physics::room_vapour_excess_pa(excess_pa, outside_month_c), saturation_pa(room_c));
}

/// The two sides of the deck, mark by mark through all years.
simulation::DampClimate climate_of(const DampCaseInputs& inputs, const DampChange& change) {
  const std::vector<DampYear>& years = inputs.years.years;
  const auto year_at = [&](int hour) -> const DampYear& {
    const std::size_t n = std::min(years.size(), static_cast<std::size_t>(n_damp_years));
    return years[(change.first_year + static_cast<std::size_t>(hour / n_hours_in_year) % n) % years.size()];
  };
  std::vector<std::array<double, 12>> outside_c;
  for (const DampYear& year : years) outside_c.push_back(month_means(year.weather.air_temperature_c));
  simulation::DampClimate climate;
  const int first = first_hour(inputs.is_north);
  for (int hour = first; hour <= first + n_damp_hours; ++hour) {
    // The value at a mark is that of the end of the hour before.
    const DampYear& year = year_at(hour - 1);
    const DampHours& hours = year.covers[inputs.cover];
    const auto at = static_cast<std::size_t>((hour - 1) % n_hours_in_year);
    const double membrane_c = hours.membrane_c[at];
    const double outside_pa = year.weather.vapour_pressure_pa[at + 1];
    const auto index = static_cast<std::size_t>(&year - years.data());
    const double month_c = outside_c[index][static_cast<std::size_t>(month_of_hour(hour - 1))];
    climate.top.temperature_c.push_back(membrane_c);
    climate.top.vapour_pressure_pa.push_back(inputs.is_wet_above ? saturation_pa(membrane_c) : outside_pa);
    climate.bottom.temperature_c.push_back(hours.room_c[at]);
    climate.bottom.vapour_pressure_pa.push_back(
        room_vapour_pa(outside_pa, change.excess_pa, month_c, hours.room_c[at]));
  }
  if (!inputs.is_wet_above) climate.top.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / outside_film_kg_per_m2_s_pa;
  climate.bottom.heat_film_resistance_m2_k_per_w =
      physics::inside_surface_resistance_m2_k_per_w(physics::HeatDirection::up);
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / inside_film_kg_per_m2_s_pa;
  return climate;
}

/// Gathers months' means from hours.
class Months {
 public:
  Months(const simulation::DampBuildUp& built, int first) : built_(built), mesh_(make_damp_mesh(built.deck, 1)) {
    first_hour_ = first;
    n_hours_.assign(n_damp_months, 0);
    water_.assign(n_damp_months, 0.0);
    humidity_.assign(n_damp_months, std::vector<double>(mesh_.thickness_m.size(), 0.0));
    layer_water_.assign(n_damp_months, std::vector<double>(built.names.size(), 0.0));
    for (std::size_t i = 0; i < mesh_.layer.size(); ++i) {
      const auto layer = static_cast<std::size_t>(mesh_.layer[i]);
      const bool is_face = i == 0 || i + 1 == mesh_.layer.size() || mesh_.layer[i - 1] != mesh_.layer[i] ||
                           mesh_.layer[i + 1] != mesh_.layer[i];
      if (built.is_wood[layer] && is_face) mould_.push_back({i, {}});
    }
  }

  void add(const simulation::DampMoment& moment) {
    const int hour = first_hour_ + moment.hour - 1;
    if (moment.hour > 1 && month_of_hour(hour) != month_of_hour(hour - 1)) ++month_;
    ++n_hours_[month_];
    double water = 0.0;
    for (std::size_t i = 0; i < mesh_.thickness_m.size(); ++i) {
      const double of_slice = mesh_.thickness_m[i] * moment.water_kg_per_m3[i];
      water += of_slice;
      layer_water_[month_][static_cast<std::size_t>(mesh_.layer[i])] += of_slice;
      humidity_[month_][i] += moment.humidity[i];
    }
    water_[month_] += water;
    if (moment.hour == n_hours_in_year) after_a_year_ = water;
    at_end_ = water;
    for (Place& place : mould_) {
      for (std::size_t k = 0; k < mould_cases.size(); ++k) {
        place.states[k] =
            physics::mould_after_hour(mould_cases[k].sensitivity, place.states[k], moment.temperature_c[place.slice],
                                      std::min(1.0, moment.humidity[place.slice]), mould_cases[k].decline_frac);
        worst_index_[k] = std::max(worst_index_[k], place.states[k].index);
      }
    }
  }

  [[nodiscard]] DampOutcome outcome() const {
    DampOutcome outcome;
    for (std::size_t month = 0; month < n_damp_months; ++month) {
      const double n = n_hours_[month];
      outcome.water_kg_per_m2.push_back(water_[month] / n);
      outcome.humidity.push_back(*std::max_element(humidity_[month].begin(), humidity_[month].end()) / n);
      double wood = 0.0;
      for (std::size_t layer = 0; layer < built_.names.size(); ++layer) {
        if (!built_.is_wood[layer]) continue;
        const double dry = built_.density_kg_per_m3[layer] * built_.deck.layers[layer].thickness_m;
        wood = std::max(wood, 100.0 * layer_water_[month][layer] / n / dry);
      }
      outcome.wood_percent.push_back(wood);
    }
    outcome.left_kg_per_m2 = at_end_ - after_a_year_;
    outcome.mould_index = worst_index_;
    outcome.says = judge_damp(outcome.water_kg_per_m2, outcome.humidity);
    return outcome;
  }

 private:
  struct Place {
    std::size_t slice = 0;
    std::array<physics::MouldState, 3> states;
  };
  const simulation::DampBuildUp& built_;
  simulation::DampMesh mesh_;
  int first_hour_ = 0;
  std::size_t month_ = 0;
  std::vector<int> n_hours_;
  std::vector<double> water_;
  std::vector<std::vector<double>> humidity_;
  std::vector<std::vector<double>> layer_water_;
  std::vector<Place> mould_;
  std::array<double, 3> worst_index_{};
  double after_a_year_ = 0.0;
  double at_end_ = 0.0;
};

}  // namespace

std::vector<DampChange> damp_changes(const design::Roof& roof, std::size_t n_years) {
  std::vector<DampChange> changes = {{.name = "likely figures"}};
  const auto add = [&changes](std::string name, const simulation::DampChoice& choice) {
    changes.push_back({.name = std::move(name), .choice = choice});
  };
  // Beyond it the deck dries through its underside alone, whichever end the membrane is at.
  if (simulation::membrane_air_layer_m(roof, RangeEnd::low) < tight_membrane_m) {
    add("membrane lets most vapour through", {.membrane = RangeEnd::low});
    add("membrane lets least vapour through", {.membrane = RangeEnd::high});
  }
  add("layers let most vapour through", {.layers = RangeEnd::low});
  add("layers let least vapour through", {.layers = RangeEnd::high});
  add("layers hold least water", {.holds = RangeEnd::low});
  add("layers hold most water", {.holds = RangeEnd::high});
  add(fmt::format("dry at the start ({:.0f} %)", 100.0 * start_humidities[0]), {.start_humidity = start_humidities[0]});
  add(fmt::format("damp at the start ({:.0f} %)", 100.0 * start_humidities[2]),
      {.start_humidity = start_humidities[2]});
  changes.push_back({.name = "dry room", .choice = {}, .excess_pa = room_excess_pa[0]});
  changes.push_back({.name = "damp room", .choice = {}, .excess_pa = room_excess_pa[2]});
  if (simulation::has_insulation(roof) && !simulation::has_vapour_control(roof)) {
    for (const double retarder_m : unnamed_retarder_m) {
      add(fmt::format("with vapour control of {:.0f} m that is not described", retarder_m),
          {.retarder_air_layer_m = retarder_m});
    }
  }
  if (n_years >= 2 * n_damp_years) {
    changes.push_back({.name = "five other years of weather", .choice = {}, .first_year = n_damp_years});
  }
  return changes;
}

std::string_view words_of(DampSays says) {
  switch (says) {
    case DampSays::dries_every_summer:
      return "dries out every summer";
    case DampSays::wetter_each_winter:
      return "wetter each winter";
    case DampSays::not_shown_to_dry:
      return "not shown to dry";
  }
  expects(false, "a judgement of the list");
  return "";
}

int first_damp_month(bool is_north) { return is_north ? 10 : 4; }

DampSays judge_damp(std::span<const double> water_kg_per_m2, std::span<const double> humidity) {
  expects(water_kg_per_m2.size() == n_damp_months && humidity.size() == n_damp_months, "all months of all years");
  bool is_wetter = true;
  bool dries = true;
  double most_before = 0.0;
  for (std::size_t year = 1; year < n_damp_years; ++year) {
    const std::span<const double> water = water_kg_per_m2.subspan(12 * year, 12);
    const std::span<const double> humid = humidity.subspan(12 * year, 12);
    const double most = *std::max_element(water.begin(), water.end());
    if (year > 1) is_wetter = is_wetter && most > most_before + least_rise_kg_per_m2;
    most_before = most;
    dries = dries && *std::min_element(humid.begin(), humid.end()) < physics::critical_surface_humidity;
  }
  if (is_wetter) return DampSays::wetter_each_winter;
  return dries ? DampSays::dries_every_summer : DampSays::not_shown_to_dry;
}

DampOutcome run_damp_case(const DampCaseInputs& inputs, const DampChange& change, const Context& context) {
  const simulation::DampBuildUp built = simulation::make_damp_build_up(inputs.roof, change.choice, inputs.pressure_pa);
  const simulation::DampClimate climate = climate_of(inputs, change);
  Months months(built, first_hour(inputs.is_north));
  const simulation::DampRun run = simulation::run_damp(
      built.deck, climate, {.n_hours = n_damp_hours},
      [&months](const simulation::DampMoment& moment) { months.add(moment); }, context);
  DampOutcome outcome = months.outcome();
  outcome.water_residual_kg_per_m2 = run.water_residual_kg_per_m2;
  outcome.heat_residual_frac = run.heat_residual_frac;
  return outcome;
}

std::array<double, 12> month_means(std::span<const double> hours) {
  std::array<double, 12> sums{};
  std::array<int, 12> counts{};
  for (std::size_t hour = 0; hour < std::min<std::size_t>(hours.size(), n_hours_in_year); ++hour) {
    const auto month = static_cast<std::size_t>(month_of_hour(static_cast<int>(hour)));
    sums[month] += hours[hour];
    ++counts[month];
  }
  for (std::size_t month = 0; month < 12; ++month) sums[month] /= counts[month];
  return sums;
}

std::array<physics::SteadySides, 12> steady_sides(const DampCaseInputs& inputs, double excess_pa) {
  const DampYear& year = inputs.years.years.front();
  const DampHours& hours = year.covers[inputs.cover];
  const std::array<double, 12> membrane_c = month_means(hours.membrane_c);
  const std::array<double, 12> room_c = month_means(hours.room_c);
  const std::array<double, 12> outside_c = month_means(year.weather.air_temperature_c);
  const std::array<double, 12> outside_pa = month_means(year.weather.vapour_pressure_pa);
  std::array<physics::SteadySides, 12> sides;
  for (std::size_t month = 0; month < 12; ++month) {
    sides[month] = {membrane_c[month], inputs.is_wet_above ? saturation_pa(membrane_c[month]) : outside_pa[month],
                    room_c[month], room_vapour_pa(outside_pa[month], excess_pa, outside_c[month], room_c[month])};
  }
  return sides;
}

}  // namespace houseleek::studies
