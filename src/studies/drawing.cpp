// What a page draws and edits of a description.
#include "studies/drawing.hpp"

#include <string_view>

#include "catalogue/words.hpp"
#include "geometry/outline.hpp"
#include "report/roof_checks_json.hpp"
#include "studies/roof_squares.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

Json json_from(const geometry::PointM& point) { return Json::array({point.x_m, point.y_m}); }

Json json_from(const geometry::Outline& outline) {
  Json list = Json::array();
  for (const geometry::PointM& point : outline) list.push_back(json_from(point));
  return list;
}

Json json_from(const geometry::RectangleM& r) {
  return {{"left_m", r.left_m}, {"bottom_m", r.bottom_m}, {"right_m", r.right_m}, {"top_m", r.top_m}};
}

std::string_view words_of(design::Placed placed) {
  return design::placed_words[static_cast<std::size_t>(placed)].first;
}

std::string_view words_of(design::LayerRole role) { return design::role_words[static_cast<std::size_t>(role)].first; }
Json json_from(const std::optional<design::Screen>& screen) {
  if (!screen) return nullptr;
  return {
      {"material", screen->material_name}, {"thickness_mm", screen->thickness_mm}, {"height_mm", screen->height_mm}};
}

Json json_from(const design::Recipe& recipe) {
  Json layers = Json::array();
  for (const design::RecipeLayer& layer : recipe.layers) {
    layers.push_back({{"role", words_of(layer.role)},
                      {"material", layer.layer.material_name},
                      {"thickness_mm", layer.layer.thickness_mm}});
  }
  Json plants = Json::array();
  for (const design::RecipePlant& plant : recipe.plants) {
    plants.push_back({{"name", plant.name}, {"cover_frac", plant.cover_frac}});
  }
  return {{"name", recipe.name},
          {"length_mm", recipe.length_mm},
          {"width_mm", recipe.width_mm},
          {"placed", words_of(recipe.placed)},
          {"spacer_height_mm", recipe.spacer.height_mm},
          {"plant_height_mm", recipe.canopy.height_mm},
          {"layers", std::move(layers)},
          {"cover", json_from(recipe.cover)},
          {"net", json_from(recipe.net)},
          {"plants", std::move(plants)}};
}

Json drawn_roof(const design::Roof& roof) {
  const auto number = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
  Json outlets = Json::array();
  for (const design::Outlet& outlet : roof.outlets) {
    outlets.push_back({{"name", outlet.name}, {"at", json_from(outlet.at)}, {"diameter_mm", outlet.diameter_mm}});
  }
  Json obstacles = Json::array();
  for (const design::Obstacle& obstacle : roof.obstacles) {
    obstacles.push_back({{"name", obstacle.name}, {"outline", json_from(obstacle.outline)}});
  }
  Json hollows = Json::array();
  for (const design::Hollow& hollow : roof.hollows) {
    hollows.push_back({{"name", hollow.name}, {"outline", json_from(hollow.outline)}, {"depth_mm", hollow.depth_mm}});
  }
  Json deck = Json::array();
  for (const design::Layer& layer : roof.deck) {
    deck.push_back({{"material", layer.material_name}, {"thickness_mm", layer.thickness_mm}});
  }
  return {{"outline", json_from(roof.outline)},
          {"area_m2", geometry::area_m2(roof.outline)},
          {"north_deg", roof.north_deg},
          {"fall_mm_per_m", number(roof.fall_mm_per_m)},
          {"fall_towards_deg", number(roof.fall_towards_deg)},
          {"parapet_height_mm", number(roof.parapet_height_mm)},
          {"deck", std::move(deck)},
          {"outlets", std::move(outlets)},
          {"obstacles", std::move(obstacles)},
          {"hollows", std::move(hollows)}};
}

}  // namespace

Json draw_description(const design::ValidDesign& design) {
  Json rooms = Json::array();
  for (const design::Room& room : design->rooms) {
    rooms.push_back({{"name", room.name}, {"outline", json_from(room.outline)}, {"is_bedroom", room.is_bedroom}});
  }
  Json recipes = Json::array();
  for (const design::Recipe& recipe : design->recipes) recipes.push_back(json_from(recipe));
  Json modules = Json::array();
  for (const design::ModulePlace& place : design->modules) {
    const design::Patch& patch = design->patches[static_cast<std::size_t>(place.patch)];
    Json module = json_from(place.rectangle);
    module["patch"] = place.patch;
    module["recipe"] = patch.recipe;
    module["placed"] = words_of(patch.placed);
    modules.push_back(std::move(module));
  }
  Json containers = Json::array();
  for (const design::Container& container : design->containers) {
    Json one = json_from(container.rectangle);
    one["name"] = container.name;
    one["at"] = json_from(container.at);
    one["is_round"] = container.diameter_mm.has_value();
    containers.push_back(std::move(one));
  }
  return {{"answer", "drawing"},
          {"design", design->name},
          {"is_invented", design->is_invented},
          {"currency", design->prices.currency},
          {"time_zone", design->site.time_zone},
          {"roof", drawn_roof(design->roof)},
          {"squares", report::json_from(make_square_grid(design->roof))},
          {"rooms", std::move(rooms)},
          {"recipes", std::move(recipes)},
          {"modules", std::move(modules)},
          {"containers", std::move(containers)},
          {"warnings", report::json_from_issues(design.warnings())}};
}

Json list_choices(const catalogue::Catalogue& catalogue, const design::ValidDesign* design) {
  Json materials = Json::array();
  const auto add = [&materials](const catalogue::Material& material) {
    materials.push_back({{"name", material.name}, {"form", material.form}, {"is_own", material.is_own}});
  };
  if (design != nullptr) {
    for (const catalogue::Material& material : (*design)->own_materials) add(material);
  }
  for (const catalogue::Material& material : catalogue.materials) add(material);
  Json plants = Json::array();
  for (const catalogue::Plant& plant : catalogue.plants) {
    plants.push_back({{"name", plant.name}, {"common_name", plant.common_name}, {"group", plant.group}});
  }
  Json finishes = Json::array();
  for (const catalogue::Finish& finish : catalogue.finishes) finishes.push_back(finish.name);
  return {{"answer", "choices"},
          {"materials", std::move(materials)},
          {"plants", std::move(plants)},
          {"finishes", std::move(finishes)}};
}

}  // namespace houseleek::studies
