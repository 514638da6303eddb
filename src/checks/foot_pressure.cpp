// What each foot of a spacer or container presses into the roof, against what membrane and insulation are said to bear.
#include "checks/foot_pressure.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "checks/footprints.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

std::optional<double> least_limit_kpa(const design::Bearing& bearing) {
  if (!bearing.membrane_kpa) return bearing.insulation_kpa;
  if (!bearing.insulation_kpa) return bearing.membrane_kpa;
  return std::min(*bearing.membrane_kpa, *bearing.insulation_kpa);
}

void judge(FootPressure& one, const design::Bearing& bearing, const std::string& what) {
  one.limit_kpa = least_limit_kpa(bearing);
  one.statement =
      fmt::format("Under {} a foot presses {:.0f} kPa soaked ({:.0f} to {:.0f}), {:.0f} with one foot loose", what,
                  one.soaked_kpa.likely, one.soaked_kpa.low, one.soaked_kpa.high, one.uneven_kpa.likely);
  const bool has_who = bearing.who.find_first_not_of(" \t\r\n") != std::string::npos;
  if (!one.limit_kpa || !has_who) {
    one.statement += "; no verdict, because nobody wrote down what membrane and insulation bear, hot and for years.";
    return;
  }
  one.verdict = one.uneven_kpa.high <= *one.limit_kpa     ? LoadVerdict::within
                : one.uneven_kpa.likely <= *one.limit_kpa ? LoadVerdict::not_shown
                                                          : LoadVerdict::above;
  one.statement += fmt::format("{}the {:.3g} kPa that {} gave", words_from(one.verdict), *one.limit_kpa, bearing.who);
  if (!bearing.membrane_kpa) one.statement += " for the insulation; of the membrane nothing is known";
  if (!bearing.insulation_kpa) one.statement += " for the membrane; of insulation under it nothing is known";
  one.statement += ".";
}

void press(FootPressure& one, const Interval& soaked_kn, int n_feet, double foot_mm2) {
  one.n_feet = n_feet;
  one.foot_mm2 = foot_mm2;
  const double foot_m2 = 1e-6 * foot_mm2;
  one.soaked_kpa = (1.0 / (n_feet * foot_m2)) * soaked_kn;
  one.uneven_kpa = (1.0 / (std::max(1, n_feet - 1) * foot_m2)) * soaked_kn;
}

}  // namespace

std::vector<FootPressure> compute_foot_pressures(const design::ValidDesign& design) {
  std::vector<FootPressure> all;
  for (std::size_t i = 0; i < design->patches.size(); ++i) {
    const design::Patch& patch = design->patches[i];
    if (patch.placed != design::Placed::raised) continue;
    const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(patch.recipe)];
    FootPressure one;
    one.patch = static_cast<int>(i);
    if (!recipe.spacer.feet) {
      one.because = "count and area of the spacer's feet are not given";
      one.statement = fmt::format("Pressure under \"{}\" is not worked out, because {}.", recipe.name, one.because);
    } else {
      const Footprint module = make_module_footprint(design, patch.recipe, patch.placed);
      press(one, module.soaked_kn, recipe.spacer.feet->count, recipe.spacer.feet->area_mm2);
      judge(one, design->roof.bearing, fmt::format("\"{}\"", recipe.name));
    }
    all.push_back(std::move(one));
  }
  for (const Footprint& standing : find_footprints(design)) {
    if (standing.container < 0) continue;
    const design::Container& container = design->containers[static_cast<std::size_t>(standing.container)];
    FootPressure one;
    one.container = standing.container;
    press(one, standing.soaked_kn, container.feet ? container.feet->count : 1,
          container.feet ? container.feet->area_mm2 : container.length_mm * container.width_mm);
    if (!container.feet) one.n_feet = 0;
    judge(one, design->roof.bearing, fmt::format("\"{}\"", container.name));
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace houseleek::checks
