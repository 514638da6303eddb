// What of a recipe burns when it is dry, whether it is the mineral layer that rules presume, and dry days in a row.
#include "checks/fire_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "checks/allowance.hpp"
#include "checks/own_estimate.hpp"
#include "checks/weights.hpp"
#include "plan/assumed_interval.hpp"

namespace houseleek::checks {
namespace {

using results::exactly;
using results::Interval;

constexpr double organic_kg_per_m3 = 1500.0;  // of the solids alone
constexpr double mineral_kg_per_m3 = 2650.0;
// Of a fresh plant a tenth to a third is dry matter.
constexpr Interval dry_matter_frac = {0.05, 0.15, 0.35};
constexpr Interval plant_heat_mj_per_kg = {15.0, 17.5, 20.0};

double mass_share(double volume_share) {
  const double organic = volume_share * organic_kg_per_m3;
  const double mineral = (1.0 - volume_share) * mineral_kg_per_m3;
  return organic / (organic + mineral);
}

struct Part {
  Interval burning_frac;    // of the dry mass
  Interval heat_mj_per_kg;  // of the dry mass
  bool is_heat_known = true;
};

Part part_of(const catalogue::Material& material) {
  Part part;
  if (material.combustible_frac) {
    part.burning_frac = plan::interval_from(*material.combustible_frac);
  } else if (material.organic_frac) {
    const catalogue::Spread& f = *material.organic_frac;
    part.burning_frac = {mass_share(f.low), mass_share(f.likely), mass_share(f.high)};
  }
  if (material.heat_of_combustion_mj_per_kg) {
    part.heat_mj_per_kg = plan::interval_from(*material.heat_of_combustion_mj_per_kg);
  } else {
    part.is_heat_known = part.burning_frac.high == 0.0;
  }
  return part;
}

struct Sums {
  Interval mass_kg;     // of media and cores
  Interval burning_kg;  // of these
};

Interval add_part(RecipeFuel& fuel, Sums* body, const catalogue::Material& material, double thickness_mm) {
  const Part part = part_of(material);
  const Interval mass_kg = (0.001 * thickness_mm) * plan::interval_from(material.density_kg_per_m3);
  const Interval burning_kg = mass_kg * part.burning_frac;
  if (body != nullptr) {
    body->mass_kg = body->mass_kg + mass_kg;
    body->burning_kg = body->burning_kg + burning_kg;
  }
  const Interval heat_mj = mass_kg * part.heat_mj_per_kg;
  if (!part.is_heat_known) fuel.not_counted.push_back(material.name);
  if (heat_mj.high > 0.0) fuel.parts.push_back({material.name, part.burning_frac, heat_mj});
  fuel.fuel_mj_per_m2 = fuel.fuel_mj_per_m2 + heat_mj;
  return part.burning_frac;
}

RecipeFuel fuel_of(const design::ValidDesign& design, int index) {
  const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(index)];
  RecipeFuel fuel;
  fuel.recipe = index;
  Sums body;
  for (const design::RecipeLayer& layer : recipe.layers) {
    const bool is_body = layer.role == design::LayerRole::medium || layer.role == design::LayerRole::core;
    const Interval burning = add_part(fuel, is_body ? &body : nullptr, layer.layer.material, layer.layer.thickness_mm);
    if (is_body && burning.high <= most_organic_frac) fuel.mineral_mm += layer.layer.thickness_mm;
  }
  if (recipe.cover) add_part(fuel, nullptr, recipe.cover->material, recipe.cover->thickness_mm);
  if (recipe.net) add_part(fuel, nullptr, recipe.net->material, recipe.net->thickness_mm);
  if (body.mass_kg.likely > 0.0) {
    fuel.burning_frac = {body.burning_kg.low / body.mass_kg.low, body.burning_kg.likely / body.mass_kg.likely,
                         body.burning_kg.high / body.mass_kg.high};
  }
  const ModuleWeights weights = compute_weights(design, index, recipe.placed);
  fuel.plants_mj_per_m2 = weights.plants_kg_per_m2 * dry_matter_frac * plant_heat_mj_per_kg;
  const RecipeFuel& made = fuel;
  if (made.mineral_mm < mineral_layer_mm) {
    fuel.against.push_back(
        fmt::format("{:.0f} mm of mineral layers, and {:.0f} are presumed", made.mineral_mm, mineral_layer_mm));
  }
  if (made.burning_frac.high > most_organic_frac) {
    fuel.against.push_back(
        fmt::format("up to {:.0f} % of the dry mass of media and cores burns, and {:.0f} are presumed",
                    100.0 * made.burning_frac.high, 100.0 * most_organic_frac));
  }
  if (recipe.cover && part_of(recipe.cover->material).burning_frac.high > 0.0) {
    fuel.against.push_back(fmt::format("a cover sheet that burns ({}) on top", recipe.cover->material_name));
  }
  if (recipe.net) fuel.against.push_back("a net held above it");
  fuel.statement = fmt::format("\"{}\" dry: {:.0f} MJ/m2 ({:.0f} to {:.0f}) that can burn, its plants {:.0f} more",
                               recipe.name, made.fuel_mj_per_m2.likely, made.fuel_mj_per_m2.low,
                               made.fuel_mj_per_m2.high, made.plants_mj_per_m2.likely);
  fuel.statement +=
      made.against.empty()
          ? "; nothing listed here speaks against the usual mineral-layer presumption, which is for the fire "
            "authority to grant."
          : "; it does not meet the usual mineral-layer presumption.";
  return fuel;
}

}  // namespace

std::vector<RecipeFuel> compute_recipe_fuels(const design::ValidDesign& design) {
  std::vector<RecipeFuel> all;
  for (std::size_t i = 0; i < design->recipes.size(); ++i) all.push_back(fuel_of(design, static_cast<int>(i)));
  return all;
}

std::vector<design::Assumption> assumed_fire(const design::ValidDesign& design) {
  const bool is_any_planted = std::any_of(design->recipes.begin(), design->recipes.end(),
                                          [](const design::Recipe& one) { return one.canopy.cover_frac > 0.0; });
  if (!is_any_planted) return {};
  return {own_estimate("fire.plant_dry_matter_frac", "dry matter of a fresh plant", "", dry_matter_frac),
          own_estimate("fire.plant_heat_mj_per_kg", "heat of dry plants in a fire", "MJ/kg", plant_heat_mj_per_kg)};
}

DrySpells count_fire_dry_days(std::span<const double> store_frac_by_day, double threshold_frac, int after_days) {
  expects(after_days >= 1, "a spell of at least a day");
  DrySpells spells;
  int run_days = 0;
  for (const double store : store_frac_by_day) {
    expects(std::isfinite(store), "a store for each day");
    run_days = store < threshold_frac ? run_days + 1 : 0;
    if (run_days < after_days) continue;
    if (run_days == after_days) ++spells.n_spells;
    spells.n_days += run_days == after_days ? after_days : 1;
    spells.longest_days = std::max(spells.longest_days, run_days);
  }
  return spells;
}

}  // namespace houseleek::checks
