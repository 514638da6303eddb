// Which cautions of the catalogue apply to a design.
#include "checks/cautions.hpp"

#include <algorithm>
#include <string>

#include "base/contract.hpp"
#include "checks/uniform_load.hpp"
#include "checks/weights.hpp"
#include "checks/wind_uplift.hpp"

namespace houseleek::checks {
namespace {

using catalogue::Family;
using catalogue::Hazard;
using catalogue::Material;

// Of the solids' volume, or of the dry mass.
constexpr double organic_from_frac = 0.2;
constexpr double mostly_plastic_from_frac = 0.5;
// What health and safety authorities name for one person at best.
constexpr double heavy_from_kg = 25.0;
constexpr double mm2_per_m2 = 1e6;
// Mice need six millimetres.
constexpr double animal_gap_from_mm = 6.0;

bool is_of(const Material& material, Family family) { return material.family == family; }

double likely_or_zero(const std::optional<catalogue::Spread>& figure) { return figure ? figure->likely : 0.0; }

/// What burns of it and is no plastic.
bool is_organic(const Material& material) {
  if (likely_or_zero(material.organic_frac) >= organic_from_frac) return true;
  return likely_or_zero(material.combustible_frac) - likely_or_zero(material.plastic_frac) >= organic_from_frac &&
         !is_of(material, Family::bitumen);
}

bool is_mostly_plastic(const Material& material) {
  return likely_or_zero(material.plastic_frac) >= mostly_plastic_from_frac;
}

/// Recipes that lie on the roof, by number; all recipes while nothing is laid.
std::vector<std::size_t> recipes_in_use(const design::Design& design) {
  std::vector<std::size_t> recipes;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const auto is_here = [i](const design::Patch& patch) { return patch.recipe == static_cast<int>(i); };
    if (design.patches.empty() || std::any_of(design.patches.begin(), design.patches.end(), is_here)) {
      recipes.push_back(i);
    }
  }
  return recipes;
}

template <class Test>
bool is_any_recipe(const design::Design& design, const Test& test) {
  const std::vector<std::size_t> recipes = recipes_in_use(design);
  return std::any_of(recipes.begin(), recipes.end(), [&](std::size_t i) { return test(design.recipes[i]); });
}

/// Every material of a module: layers, cover and net.
std::vector<const Material*> materials_of(const design::Recipe& recipe) {
  std::vector<const Material*> materials;
  for (const design::RecipeLayer& layer : recipe.layers) materials.push_back(&layer.layer.material);
  if (recipe.cover) materials.push_back(&recipe.cover->material);
  if (recipe.net) materials.push_back(&recipe.net->material);
  return materials;
}

template <class Test>
bool is_any_material(const design::Recipe& recipe, const Test& test) {
  const std::vector<const Material*> materials = materials_of(recipe);
  return std::any_of(materials.begin(), materials.end(), [&test](const Material* one) { return test(*one); });
}

bool has_material_with(const design::Design& design, Hazard hazard) {
  const auto has = [hazard](const Material& one) { return has_hazard(one.hazards, hazard); };
  return is_any_recipe(design, [&has](const design::Recipe& recipe) { return is_any_material(recipe, has); }) ||
         std::any_of(design.containers.begin(), design.containers.end(),
                     [&has](const design::Container& one) { return has(one.fill.material); });
}

bool has_material_of(const design::Recipe& recipe, Family family) {
  return is_any_material(recipe, [family](const Material& one) { return is_of(one, family); });
}

template <class Test>
bool is_any_plant(const design::Design& design, const catalogue::Catalogue& catalogue, const Test& test) {
  return is_any_recipe(design, [&](const design::Recipe& recipe) {
    return std::any_of(recipe.plants.begin(), recipe.plants.end(), [&](const design::RecipePlant& planted) {
      const catalogue::Plant* plant = find_plant(catalogue, planted.name);
      return plant != nullptr && test(*plant);
    });
  });
}

bool is_any_raised(const design::Design& design) {
  if (design.patches.empty()) {
    return is_any_recipe(design, [](const design::Recipe& r) { return r.placed == design::Placed::raised; });
  }
  return std::any_of(design.patches.begin(), design.patches.end(),
                     [](const design::Patch& patch) { return patch.placed == design::Placed::raised; });
}

bool is_watered(const design::Recipe& recipe) {
  if (!recipe.watering) return false;
  const design::Watering& w = *recipe.watering;
  return w.when_store_below_frac.value_or(0.0) > 0.0 || w.summer_every_days.value_or(0.0) > 0.0 ||
         w.between_every_days.value_or(0.0) > 0.0 || w.winter_every_days.value_or(0.0) > 0.0;
}

bool is_organic_module(const design::Recipe& recipe) { return is_any_material(recipe, is_organic); }

/// The membrane is the deck's first layer.
bool is_membrane_of(const design::Design& design, Family family) {
  return !design.roof.deck.empty() && is_of(design.roof.deck.front().material, family);
}

bool has_heavy_module(const design::ValidDesign& valid) {
  const std::vector<std::size_t> recipes = recipes_in_use(*valid);
  return std::any_of(recipes.begin(), recipes.end(), [&valid](std::size_t i) {
    const design::Recipe& recipe = valid->recipes[i];
    const ModuleWeights weights = compute_weights(valid, static_cast<int>(i), recipe.placed);
    return weights.soaked_kg_per_m2.likely * recipe.length_mm * recipe.width_mm / mm2_per_m2 >= heavy_from_kg;
  });
}

/// Food that grows in, or drains onto, what nobody vouches for.
bool is_food_doubtful(const design::Design& design, const catalogue::Catalogue& catalogue) {
  const bool is_eaten = is_any_plant(design, catalogue, [](const catalogue::Plant& one) { return !one.eaten.empty(); });
  if (!is_eaten) return false;
  if (is_membrane_of(design, Family::bitumen)) return true;
  return is_any_recipe(design, [](const design::Recipe& recipe) {
    return is_any_material(recipe, [](const Material& one) { return one.near_food != catalogue::NearFood::yes; });
  });
}

bool is_not_shown_in_wind(const design::ValidDesign& valid) {
  const WindUplift wind = check_wind_uplift(valid);
  return std::any_of(wind.modules.begin(), wind.modules.end(), [&wind](const ModuleWind& one) {
    return !wind.gust_of_place_km_per_h || one.gust_km_per_h.low < *wind.gust_of_place_km_per_h;
  });
}

bool has_upstand(const design::Design& design) {
  return design.roof.parapet_height_mm.value_or(1.0) > 0.0 ||
         std::any_of(design.drainage.edges.begin(), design.drainage.edges.end(),
                     [](const design::EdgeHeight& edge) { return edge.height_mm > 0.0; });
}

struct Judged {
  std::string_view condition;
  bool (*is_met)(const design::ValidDesign& valid, const catalogue::Catalogue& catalogue);
};

using Valid = design::ValidDesign;
using Known = catalogue::Catalogue;

constexpr Judged judged_conditions[] = {
    {"always", [](const Valid&, const Known&) { return true; }},
    {"no_allowable_load", [](const Valid& valid, const Known&) { return !check_uniform_load(valid).missing.empty(); }},
    {"no_span_model",
     [](const Valid& valid, const Known&) {
       return !valid->roof.structure || valid->roof.structure->supports_at_m.empty();
     }},
    {"not_shown_in_wind", [](const Valid& valid, const Known&) { return is_not_shown_in_wind(valid); }},
    {"upstand", [](const Valid& valid, const Known&) { return has_upstand(*valid); }},
    {"raised_modules", [](const Valid& valid, const Known&) { return is_any_raised(*valid); }},
    {"timber_deck",
     [](const Valid& valid, const Known&) {
       return std::any_of(valid->roof.deck.begin(), valid->roof.deck.end(),
                          [](const design::Layer& layer) { return is_of(layer.material, Family::wood); });
     }},
    {"organic_medium",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid, is_organic_module) ||
              std::any_of(valid->containers.begin(), valid->containers.end(),
                          [](const design::Container& one) { return is_organic(one.fill.material); });
     }},
    {"raised_net",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid, [](const design::Recipe& recipe) { return recipe.net.has_value(); });
     }},
    {"watered", [](const Valid& valid, const Known&) { return is_any_recipe(*valid, is_watered); }},
    {"fan",
     [](const Valid& valid, const Known&) {
       return std::any_of(valid->rooms.begin(), valid->rooms.end(),
                          [](const design::Room& room) { return room.fan.has_value(); });
     }},
    {"hollow", [](const Valid& valid, const Known&) { return !valid->roof.hollows.empty(); }},
    {"containers", [](const Valid& valid, const Known&) { return !valid->containers.empty(); }},
    {"heavy_module", [](const Valid& valid, const Known&) { return has_heavy_module(valid); }},
    {"mineral_fibres", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::fibres); }},
    {"dust", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::dust); }},
    {"spores", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::spores); }},
    {"foil", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::foil); }},
    {"salty_finds", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::salt); }},
    {"live_shoots", [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::live_shoots); }},
    {"poisonous_mulch",
     [](const Valid& valid, const Known&) { return has_material_with(*valid, Hazard::poison_dogs); }},
    {"poisonous_plant",
     [](const Valid& valid, const Known& known) { return is_any_plant(*valid, known, catalogue::is_poisonous); }},
    {"irritating_plant",
     [](const Valid& valid, const Known& known) {
       return is_any_plant(*valid, known, [](const catalogue::Plant& one) {
         return has_hazard(one.hazards, Hazard::skin) || has_hazard(one.hazards, Hazard::spines);
       });
     }},
    {"invasive_plant",
     [](const Valid& valid, const Known& known) {
       return is_any_plant(*valid, known, [&valid](const catalogue::Plant& one) {
         return !invasive_listings(one, valid->site.country).empty();
       });
     }},
    {"country_not_given",
     [](const Valid& valid, const Known& known) {
       return valid->site.country.empty() &&
              is_any_plant(*valid, known, [](const catalogue::Plant& one) { return !one.invasive.empty(); });
     }},
    {"tree",
     [](const Valid& valid, const Known& known) {
       return is_any_plant(*valid, known, [](const catalogue::Plant& one) { return one.group == "tree"; });
     }},
    {"animal_gap",
     [](const Valid& valid, const Known&) {
       return is_any_raised(*valid) && is_any_recipe(*valid, [](const design::Recipe& recipe) {
                return recipe.spacer.edges == design::Edges::open && recipe.spacer.height_mm >= animal_gap_from_mm;
              });
     }},
    {"plastic_over_organic",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid, [](const design::Recipe& recipe) {
         const bool is_plastic_on_top = (recipe.cover && is_mostly_plastic(recipe.cover->material)) ||
                                        (recipe.net && is_mostly_plastic(recipe.net->material));
         return is_plastic_on_top && is_organic_module(recipe);
       });
     }},
    {"bitumen_meets_plasticised",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid, [&valid](const design::Recipe& recipe) {
         const bool is_on_bitumen = is_membrane_of(*valid, Family::bitumen) || has_material_of(recipe, Family::bitumen);
         const bool is_on_pvc = is_membrane_of(*valid, Family::pvc) || has_material_of(recipe, Family::pvc);
         return is_on_bitumen && is_on_pvc;
       });
     }},
    {"polystyrene_meets_plasticised",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid, [&valid](const design::Recipe& recipe) {
         return has_material_of(recipe, Family::polystyrene) &&
                (is_membrane_of(*valid, Family::pvc) || has_material_of(recipe, Family::pvc));
       });
     }},
    {"polystyrene_used",
     [](const Valid& valid, const Known&) {
       return is_any_recipe(*valid,
                            [](const design::Recipe& recipe) { return has_material_of(recipe, Family::polystyrene); });
     }},
    {"food_doubtful", [](const Valid& valid, const Known& known) { return is_food_doubtful(*valid, known); }}};

}  // namespace

bool is_condition_met(const design::ValidDesign& design, std::string_view condition,
                      const catalogue::Catalogue& catalogue) {
  const auto found = std::find_if(std::begin(judged_conditions), std::end(judged_conditions),
                                  [condition](const Judged& one) { return one.condition == condition; });
  expects(found != std::end(judged_conditions), "a condition that is known");
  return found->is_met(design, catalogue);
}

std::vector<catalogue::Caution> find_cautions(const design::ValidDesign& design,
                                              const catalogue::Catalogue& catalogue) {
  std::vector<catalogue::Caution> found;
  for (const catalogue::Caution& caution : catalogue.cautions) {
    if (is_condition_met(design, caution.when, catalogue)) found.push_back(caution);
  }
  return found;
}

}  // namespace houseleek::checks
