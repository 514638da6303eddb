// Which cautions of the catalogue apply to a design.
#include "checks/cautions.hpp"

#include <algorithm>
#include <string>

#include "base/contract.hpp"
#include "checks/uniform_load.hpp"

namespace houseleek::checks {
namespace {

constexpr double organic_from_frac = 0.2;
constexpr std::string_view woods[] = {"softwood", "hardwood", "plywood", "OSB", "wood fibre board"};
// Loose organic materials of which the catalogue holds no share of solids.
constexpr std::string_view dry_fuels[] = {"straw",      "twigs",    "pine cones",   "posidonia fibre", "sheep wool",
                                          "hemp fibre", "coir mat", "cocoa shells", "cork granules",   "jute fabric"};

template <std::size_t n>
bool is_one_of(const std::string_view (&names)[n], const std::string& name) {
  return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

bool is_organic(const catalogue::Material& material) {
  if (material.organic_frac && material.organic_frac->likely >= organic_from_frac) return true;
  return is_one_of(dry_fuels, material.name);
}

/// Recipes that lie on the roof; all recipes while nothing is laid.
std::vector<const design::Recipe*> recipes_in_use(const design::Design& design) {
  std::vector<const design::Recipe*> recipes;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const auto is_here = [i](const design::Patch& patch) { return patch.recipe == static_cast<int>(i); };
    if (design.patches.empty() || std::any_of(design.patches.begin(), design.patches.end(), is_here)) {
      recipes.push_back(&design.recipes[i]);
    }
  }
  return recipes;
}

template <class Test>
bool is_any_recipe(const design::Design& design, const Test& test) {
  const std::vector<const design::Recipe*> recipes = recipes_in_use(design);
  return std::any_of(recipes.begin(), recipes.end(), [&test](const design::Recipe* recipe) { return test(*recipe); });
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

}  // namespace

bool is_condition_met(const design::ValidDesign& valid, std::string_view condition) {
  const design::Design& design = *valid;
  if (condition == "always") return true;
  if (condition == "no_allowable_load") return !check_uniform_load(valid).missing.empty();
  if (condition == "raised_modules") return is_any_raised(design);
  if (condition == "timber_deck") {
    return std::any_of(design.roof.deck.begin(), design.roof.deck.end(),
                       [](const design::Layer& layer) { return is_one_of(woods, layer.material_name); });
  }
  if (condition == "organic_medium") {
    return is_any_recipe(design, [](const design::Recipe& recipe) {
      const bool in_layers =
          std::any_of(recipe.layers.begin(), recipe.layers.end(),
                      [](const design::RecipeLayer& layer) { return is_organic(layer.layer.material); });
      return in_layers || (recipe.cover && is_organic(recipe.cover->material));
    });
  }
  if (condition == "raised_net") {
    return is_any_recipe(design, [](const design::Recipe& recipe) { return recipe.net.has_value(); });
  }
  if (condition == "watered") return is_any_recipe(design, is_watered);
  if (condition == "fan") {
    return std::any_of(design.rooms.begin(), design.rooms.end(),
                       [](const design::Room& room) { return room.fan.has_value(); });
  }
  if (condition == "hollow") return !design.roof.hollows.empty();
  expects(false, "a condition that is known");
  return false;
}

std::vector<catalogue::Caution> find_cautions(const design::ValidDesign& design,
                                              const catalogue::Catalogue& catalogue) {
  std::vector<catalogue::Caution> found;
  for (const catalogue::Caution& caution : catalogue.cautions) {
    if (is_condition_met(design, caution.when)) found.push_back(caution);
  }
  return found;
}

}  // namespace houseleek::checks
