// The water of one module day by day: the stepper on one stack, with the weather and the waterings of those days.
#include "planting/module_days.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"

namespace houseleek::planting {
namespace {

constexpr int hours = climate::n_hours_in_day;

int wrapped_day(int day) {
  return ((day % climate::n_days_in_year) + climate::n_days_in_year) % climate::n_days_in_year;
}

void divide_water(simulation::Layer& layer, double factor) {
  for (double* share : {&layer.saturated_frac, &layer.holds_frac, &layer.field_capacity_frac, &layer.wilting_frac,
                        &layer.residual_frac, &layer.wet_from_frac, &layer.saturated_conductivity_m_per_s}) {
    *share /= factor;
  }
}

void start_at(simulation::Layer& layer, double store_frac) {
  if (layer.saturated_frac <= 0.0) return;
  const double wanted = layer.wilting_frac + store_frac * (layer.field_capacity_frac - layer.wilting_frac);
  layer.initial_water_frac = std::clamp(wanted, layer.residual_frac, layer.saturated_frac);
}

double held_mm(const simulation::Stack& stack) {
  double held = 0.0;
  for (const simulation::Layer& layer : stack.module) {
    if (layer.saturated_frac > 0.0) held += 1000.0 * layer.thickness_m * layer.field_capacity_frac;
  }
  return held;
}

double rooted_mm(const simulation::Stack& stack) {
  double rooted = 0.0;
  for (const simulation::Layer& layer : stack.module) {
    if (layer.root_frac <= 0.0) continue;
    rooted += 1000.0 * layer.thickness_m * (layer.field_capacity_frac - layer.wilting_frac);
  }
  return rooted;
}

/// Sum of 24 hours from the day's first; `scale` on it.
double day_sum(const std::vector<double>& column, std::size_t day, double scale) {
  double sum = 0.0;
  for (std::size_t hour = 0; hour < static_cast<std::size_t>(hours); ++hour) {
    sum += column[day * static_cast<std::size_t>(hours) + hour];
  }
  return scale * sum;
}

}  // namespace

ModuleDays run_module_days(const ModuleQuestion& question, const Context& context) {
  const double factor = question.evapotranspiration_factor;
  expects(factor >= 0.2 && factor <= 5.0, "a factor of evapotranspiration from 0.2 to 5");
  expects(question.first_store_frac >= 0.0 && question.first_store_frac <= 1.0, "a store from 0 to 1");
  const DaySpan& span = question.span;
  expects(span.n_days >= 1 && span.n_days <= climate::n_days_in_year && span.n_days_before >= 0,
          "a span of 1 to 365 days");
  simulation::CoverGroup cover = simulation::make_recipe_group(question.design, question.layout, question.weather,
                                                               question.recipe, question.placed);
  simulation::Stack& stack = cover.group.stacks.front();
  ModuleDays days;
  days.held_mm = held_mm(stack);
  days.rooted_mm = rooted_mm(stack);
  for (simulation::Layer& layer : stack.module) {
    divide_water(layer, factor);
    start_at(layer, question.first_store_frac);
  }
  stack.waterings = question.watering.rules;
  for (const GivenWater& water : question.watering.given) {
    simulation::Watering one;
    one.depth_mm = water.depth_mm;
    one.hour = water.hour;
    one.every_days = 1;
    one.first_day = wrapped_day(span.first_day + water.day);
    one.last_day = one.first_day;
    stack.waterings.push_back(one);
  }
  for (simulation::Watering& one : stack.waterings) one.depth_mm /= factor;

  simulation::RunOptions options;
  options.first_hour = hours * wrapped_day(span.first_day);
  options.n_hours = hours * span.n_days;
  options.spin_up_hours = hours * span.n_days_before;
  const auto forcing = [&question, factor](int hour, double fraction) {
    climate::Forcing now = climate::forcing_at(question.weather, hour, fraction);
    now.rain_kg_per_m2_s /= factor;
    return now;
  };
  const results::GroupYear ran = simulation::run_group(cover.group, forcing, options, context);
  const results::StackYear& year = ran.stacks.front();
  for (std::size_t day = 0; day < static_cast<std::size_t>(span.n_days); ++day) {
    const std::size_t last = day * static_cast<std::size_t>(hours) + static_cast<std::size_t>(hours) - 1;
    days.store_frac.push_back(year.root_store_frac[last]);
    days.water_mm.push_back(factor * year.water_mm[last]);
    days.evapotranspiration_mm.push_back(day_sum(year.evapotranspiration_mm, day, factor));
    days.left_mm.push_back(day_sum(year.drainage_mm, day, factor) + day_sum(year.runoff_mm, day, factor));
    days.watered_mm.push_back(day_sum(year.watering_mm, day, factor));
    days.ceiling_wh_per_m2.push_back(day_sum(year.ceiling_flux_w_per_m2, day, 1.0));
  }
  return days;
}

}  // namespace houseleek::planting
