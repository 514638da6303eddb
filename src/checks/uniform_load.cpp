// Soaked modules against the uniform load that an engineer wrote down: the first of two tests; no figure, no verdict.
#include "checks/uniform_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/footprints.hpp"
#include "checks/heaviest_mean.hpp"
#include "checks/weights.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

double lesser_side_m(const geometry::Outline& outline) {
  double left = outline.front().x_m, right = left, bottom = outline.front().y_m, top = bottom;
  for (const geometry::PointM& corner : outline) {
    left = std::min(left, corner.x_m);
    right = std::max(right, corner.x_m);
    bottom = std::min(bottom, corner.y_m);
    top = std::max(top, corner.y_m);
  }
  return std::min(right - left, top - bottom);
}

/// Each end for itself: the lightest load of one may be below that of another.
void raise_to(Interval& heaviest, const Interval& other) {
  heaviest = {std::max(heaviest.low, other.low), std::max(heaviest.likely, other.likely),
              std::max(heaviest.high, other.high)};
}

std::string statement_of(const UniformLoad& load, const design::ValidDesign& design) {
  const Interval& soaked = load.heaviest_kn_per_m2;
  if (design->modules.empty() && design->containers.empty())
    return "No modules are laid yet, so nothing is added to the roof.";
  std::string text =
      fmt::format("Soaked, {} {:.2f} kN/m2 ({:.2f} to {:.2f})",
                  load.averaging_area_m2 > 0.0 ? fmt::format("the heaviest {:.3g} m2 bring", load.averaging_area_m2)
                                               : "the heaviest square brings",
                  soaked.likely, soaked.low, soaked.high);
  if (load.verdict == LoadVerdict::none) {
    return text + fmt::format("; no verdict, because nobody wrote down {}.", joined_words(load.missing));
  }
  text += words_from(load.verdict);
  return text + fmt::format("{} ({}).", figure_words(design->roof), design->roof.allowable_load->includes);
}

}  // namespace

double averaging_area_in_use_m2(const design::Roof& roof) {
  if (!roof.allowable_load || !roof.allowable_load->averaging_area_m2) return 0.0;
  const double side_m = std::min(std::sqrt(*roof.allowable_load->averaging_area_m2), lesser_side_m(roof.outline));
  return side_m * side_m;
}

Interval heaviest_mean(std::span<const Footprint> footprints, double side_m) {
  const auto mean_of = [&](double Interval::*end) {
    std::vector<LoadedRectangle> loaded;
    for (const Footprint& one : footprints) loaded.push_back({one.rectangle, one.soaked_kn.*end / area_m2(one)});
    return find_heaviest_mean(loaded, side_m).load_kn_per_m2;
  };
  return {mean_of(&Interval::low), mean_of(&Interval::likely), mean_of(&Interval::high)};
}

UniformLoad check_uniform_load(const design::ValidDesign& design) {
  UniformLoad load;
  for (std::size_t i = 0; i < design->patches.size(); ++i) {
    const design::Patch& patch = design->patches[i];
    const Interval soaked = compute_weights(design, patch.recipe, patch.placed).soaked_kg_per_m2;
    const Interval pressed = (0.001 * standard_gravity_m_per_s2) * soaked;
    load.patches.push_back({static_cast<int>(i), pressed});
    raise_to(load.heaviest_kn_per_m2, pressed);
  }
  const std::vector<Footprint> footprints = find_footprints(design);
  for (const Footprint& one : footprints) {
    if (one.container < 0) continue;
    const Interval pressed = (1.0 / area_m2(one)) * one.soaked_kn;
    load.containers.push_back({one.container, pressed});
    raise_to(load.heaviest_kn_per_m2, pressed);
  }
  const std::optional<design::AllowableLoad>& allowed = design->roof.allowable_load;
  if (!footprints.empty()) load.averaging_area_m2 = averaging_area_in_use_m2(design->roof);
  if (load.averaging_area_m2 > 0.0) {
    load.heaviest_kn_per_m2 = heaviest_mean(footprints, std::sqrt(load.averaging_area_m2));
  }
  load.missing = missing_parts(design->roof);
  if (load.missing.empty()) {
    const double allowable = *allowed->load_kn_per_m2;
    load.utilisation_frac = (1.0 / allowable) * load.heaviest_kn_per_m2;
    load.verdict = load.heaviest_kn_per_m2.high <= allowable     ? LoadVerdict::within
                   : load.heaviest_kn_per_m2.likely <= allowable ? LoadVerdict::not_shown
                                                                 : LoadVerdict::above;
  }
  load.statement = statement_of(load, design);
  return load;
}

}  // namespace houseleek::checks
