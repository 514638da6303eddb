// The cases of the load by name: dry, drained, soaked, snow, hail, a blocked outlet, a stack being moved, a person.
#include "checks/load_cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/uniform_load.hpp"
#include "physics/snow.hpp"

namespace houseleek::checks {
namespace {

using results::exactly;
using results::Interval;

constexpr double water_kn_per_m3 = 9.81;
constexpr Interval hail_kg_per_m3 = {400.0, 600.0, 900.0};  // heaps of stones with air between them; wet ice at the top

LoadVerdict verdict_of(const Interval& load, double allowable) {
  if (load.high <= allowable) return LoadVerdict::within;
  return load.likely <= allowable ? LoadVerdict::not_shown : LoadVerdict::above;
}

/// What all cases of one design have in common.
struct Ground {
  const design::ValidDesign* design;
  std::vector<Footprint> footprints;
  double roof_m2 = 0.0;
  double averaging_m2 = 0.0;  // 0: none
  bool has_figure = false;
  double figure_kn_per_m2 = 0.0;
};

std::vector<Footprint> in_state(const std::vector<Footprint>& footprints, Interval Footprint::*state) {
  std::vector<Footprint> same = footprints;
  for (Footprint& one : same) one.soaked_kn = one.*state;
  return same;
}

Interval heaviest_of(const Ground& ground, const std::vector<Footprint>& footprints) {
  if (ground.averaging_m2 > 0.0) return heaviest_mean(footprints, std::sqrt(ground.averaging_m2));
  Interval heaviest;
  for (const Footprint& one : footprints) {
    const Interval pressed = (1.0 / area_m2(one)) * one.soaked_kn;
    heaviest = {std::max(heaviest.low, pressed.low), std::max(heaviest.likely, pressed.likely),
                std::max(heaviest.high, pressed.high)};
  }
  return heaviest;
}

Interval sum_of(const std::vector<Footprint>& footprints) {
  Interval sum;
  for (const Footprint& one : footprints) sum = sum + one.soaked_kn;
  return sum;
}

/// How a case stands beside the figure along the spans, as the end of a sentence.
std::string_view words_of_spans(LoadVerdict verdict) {
  switch (verdict) {
    case LoadVerdict::within:
      return "; along the spans within it too";
    case LoadVerdict::not_shown:
      return "; along the spans not shown to stay within it";
    case LoadVerdict::above:
      return "; along the spans above it";
    case LoadVerdict::none:
      break;
  }
  return "; the spans are not looked at";
}

LoadCase make_case(const Ground& ground, std::string name, Interval Footprint::*state, const Interval& added,
                   bool is_apart, std::string because, bool is_along_spans = true) {
  LoadCase one;
  one.name = std::move(name);
  one.because = std::move(because);
  one.is_computed = true;
  one.is_apart = is_apart;
  one.added_kn_per_m2 = added;
  const std::vector<Footprint> footprints = in_state(ground.footprints, state);
  const Interval own = heaviest_of(ground, footprints);
  one.heaviest_kn_per_m2 = own + added;
  one.whole_roof_kn = sum_of(footprints) + ground.roof_m2 * added;
  one.factored_kn_per_m2 = permanent_factor * own + variable_factor * added;
  if (ground.has_figure) {
    const Interval counted = is_apart ? exactly(0.0) : added;
    one.uniform = verdict_of(own + counted, ground.figure_kn_per_m2);
    if (is_along_spans) one.spans = check_span_load(*ground.design, footprints, counted).verdict;
  }
  one.statement = fmt::format("{}: {:.2f} kN/m2 ({:.2f} to {:.2f}) where it is heaviest", one.name,
                              one.heaviest_kn_per_m2.likely, one.heaviest_kn_per_m2.low, one.heaviest_kn_per_m2.high);
  if (ground.has_figure) {
    if (is_apart) {
      one.statement += fmt::format("; {:.2f} of it is carried besides the figure, the rest is", added.likely);
    }
    // Both begin with ": ".
    one.statement += is_apart ? words_from(one.uniform).substr(1) : words_from(one.uniform);
    one.statement += figure_words((*ground.design)->roof);
    one.statement += words_of_spans(one.spans);
  } else {
    one.statement += "; no verdict without a complete figure";
  }
  one.statement += ".";
  return one;
}

LoadCase missing_case(std::string name, std::string because) {
  LoadCase one;
  one.name = std::move(name);
  one.because = std::move(because);
  one.statement = fmt::format("{}: not worked out, because {}.", one.name, one.because);
  return one;
}

/// A load at one place: on the averaging area if there is one; a uniform figure says nothing of it otherwise.
LoadCase make_local_case(const Ground& ground, std::string name, const Interval& load_kn, double base_m2, bool is_apart,
                         std::string because) {
  const double spread_m2 = std::max(ground.averaging_m2, base_m2);
  const Interval added = (1.0 / spread_m2) * load_kn;
  LoadCase one = make_case(ground, std::move(name), &Footprint::soaked_kn, added, is_apart, std::move(because), false);
  // Only at one place, not on the whole roof.
  one.whole_roof_kn = sum_of(ground.footprints) + load_kn;
  return one;
}

LoadCase stack_case(const Ground& ground, const std::optional<int>& n_modules) {
  const std::string name = "a stack of wet modules being moved";
  if (!n_modules) return missing_case(name, "nobody said how many are piled up (roof.actions.stack_modules)");
  const Footprint* heaviest = nullptr;
  for (const Footprint& one : ground.footprints) {
    if (one.module >= 0 && (heaviest == nullptr || one.soaked_kn.likely > heaviest->soaked_kn.likely)) heaviest = &one;
  }
  if (heaviest == nullptr) return missing_case(name, "no modules are laid yet");
  return make_local_case(ground, name, *n_modules * heaviest->soaked_kn, area_m2(*heaviest), false,
                         "bending under a stack is not looked at; it stands on laid modules at the worst");
}

/// The highest thing that snow drifts against: the parapet or an obstacle.
struct Windbreak {
  std::string name = "the parapet";
  double height_m = 0.0;
};

Windbreak highest_windbreak(const design::Roof& roof) {
  Windbreak highest;
  highest.height_m = 0.001 * roof.parapet_height_mm.value_or(0.0);
  for (const design::Obstacle& obstacle : roof.obstacles) {
    if (0.001 * obstacle.height_mm <= highest.height_m) continue;
    highest.name = obstacle.name;
    highest.height_m = 0.001 * obstacle.height_mm;
  }
  return highest;
}

/// The foot of the drift counted on everything: where it lies is a matter of the wind, and most roofs here are no longer
/// than it is.
LoadCase drift_case(const Ground& ground, const design::Actions& actions, bool is_apart) {
  const std::string name = "soaked with drifted snow";
  if (!actions.ground_snow_kn_per_m2) return missing_case(name, "no ground snow load is given (roof.actions)");
  if (*actions.ground_snow_kn_per_m2 <= 0.0) return missing_case(name, "no snow falls there");
  const Windbreak against = highest_windbreak((*ground.design)->roof);
  const physics::SnowDrift drift = physics::snow_drift(against.height_m, *actions.ground_snow_kn_per_m2);
  if (drift.peak_shape <= physics::flat_roof_snow_shape) {
    return missing_case(name, "nothing described stands high enough over the roof for a drift deeper than even snow");
  }
  const double peak = drift.peak_shape * actions.snow_exposure.value_or(1.0) * *actions.ground_snow_kn_per_m2;
  return make_case(
      ground, name, &Footprint::soaked_kn, exactly(peak), is_apart,
      fmt::format("the foot of a drift against {} ({:.1f} m high) counted on everything; it thins out over "
                  "{:.0f} m; whether what the roof carries for snow counts with drifts is for an engineer; snow from a "
                  "higher roof or wall beside is left out",
                  against.name, against.height_m, drift.length_m));
}

LoadCase person_case(const Ground& ground, const std::optional<double>& person_kn, bool is_apart) {
  const std::string name = "a person";
  if (!person_kn) return missing_case(name, "no weight is given (roof.actions.person_kn)");
  if (ground.averaging_m2 <= 0.0) {
    LoadCase one = missing_case(name, "an even figure without an averaging area says nothing of a load at one place");
    one.whole_roof_kn = sum_of(ground.footprints) + exactly(*person_kn);
    return one;
  }
  return make_local_case(ground, name, exactly(*person_kn), 0.0, is_apart,
                         "bending and punching under the feet are not looked at");
}

}  // namespace

std::vector<LoadCase> compute_load_cases(const design::ValidDesign& design,
                                         const std::optional<Interval>& pool_kn_per_m2) {
  const design::Roof& roof = design->roof;
  const design::Actions& actions = roof.actions;
  Ground ground;
  ground.design = &design;
  ground.footprints = find_footprints(design);
  ground.roof_m2 = geometry::area_m2(roof.outline);
  ground.averaging_m2 = averaging_area_in_use_m2(roof);
  ground.has_figure = missing_parts(roof).empty();
  const design::AllowableLoad allowed = roof.allowable_load.value_or(design::AllowableLoad{});
  if (ground.has_figure) ground.figure_kn_per_m2 = *allowed.load_kn_per_m2;
  std::vector<LoadCase> cases;
  cases.push_back(make_case(ground, "dry", &Footprint::dry_kn, exactly(0.0), false, ""));
  cases.push_back(make_case(ground, "drained", &Footprint::drained_kn, exactly(0.0), false, ""));
  cases.push_back(make_case(ground, "soaked", &Footprint::soaked_kn, exactly(0.0), false, ""));
  const auto add = [&](const std::string& name, const Interval& added, bool is_apart, const std::string& left_out) {
    cases.push_back(make_case(ground, name, &Footprint::soaked_kn, added, is_apart, left_out));
  };
  if (actions.ground_snow_kn_per_m2) {
    const double snow =
        physics::flat_roof_snow_shape * actions.snow_exposure.value_or(1.0) * *actions.ground_snow_kn_per_m2;
    add("soaked with snow", exactly(snow), allowed.is_snow_apart, "even snow; drifts are the next case");
  } else {
    cases.push_back(missing_case("soaked with snow", "no ground snow load is given (roof.actions)"));
  }
  cases.push_back(drift_case(ground, actions, allowed.is_snow_apart));
  const double hail_m = 0.001 * actions.hail_mm.value_or(0.0);
  const Interval hail = (0.001 * standard_gravity_m_per_s2 * hail_m) * hail_kg_per_m3;
  std::optional<Interval> pool = pool_kn_per_m2;
  if (actions.blocked_outlet_mm) pool = exactly(0.001 * water_kn_per_m3 * *actions.blocked_outlet_mm);
  if (actions.hail_mm) {
    add("soaked with hail", hail, allowed.is_rain_apart, "hail drifts against parapets and blocks outlets");
  } else {
    cases.push_back(missing_case("soaked with hail", "no depth of hail is given (roof.actions)"));
  }
  if (pool) {
    add("blocked outlet", *pool, allowed.is_rain_apart,
        actions.blocked_outlet_mm ? "the mean depth as given, on everything"
                                  : "still water up to the lowest lip, its mean over the roof on everything");
  } else {
    cases.push_back(missing_case("blocked outlet", "no depth of the pool is given (roof.actions)"));
  }
  if (actions.hail_mm && pool) {
    add("hail on a blocked outlet", hail + *pool, allowed.is_rain_apart,
        "hail lies in the pool: more than both together");
  } else {
    cases.push_back(missing_case("hail on a blocked outlet", "depths of hail and pool are not both given"));
  }
  cases.push_back(stack_case(ground, actions.stack_modules));
  cases.push_back(person_case(ground, actions.person_kn, allowed.are_people_apart));
  return cases;
}

}  // namespace houseleek::checks
