// [[recipe]]: what a module is made of.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "design/planting.hpp"
#include "design/roof.hpp"

namespace houseleek::design {

enum class LayerRole { medium, core, filter, sheet };
enum class Placed { flat, raised };

// As a description writes them, in the order of the enumerations.
inline constexpr std::pair<std::string_view, LayerRole> role_words[] = {{"medium", LayerRole::medium},
                                                                        {"core", LayerRole::core},
                                                                        {"filter", LayerRole::filter},
                                                                        {"sheet", LayerRole::sheet}};
inline constexpr std::pair<std::string_view, Placed> placed_words[] = {{"flat", Placed::flat},
                                                                       {"raised", Placed::raised}};
// As a person calls a layer, and as the logbook has it.
inline constexpr std::string_view layer_part_words[] = {"medium", "core", "filter sheet", "sheet below"};
[[nodiscard]] constexpr std::string_view part_word(LayerRole role) {
  return layer_part_words[static_cast<std::size_t>(role)];
}

enum class Edges { open, closed };

struct RecipeLayer {
  LayerRole role = LayerRole::medium;
  Layer layer;
  bool operator==(const RecipeLayer&) const = default;
};

/// A screen: a sheet on the medium, or a net held above it.
struct Screen {
  std::string material_name;
  catalogue::Material material;
  double thickness_mm = 0.0;
  double height_mm = 0.0;                  // above the medium; 0 for a cover sheet
  double wind_below_frac = 1.0;            // of a net: wind under it over wind above it
  double vapour_resistance_s_per_m = 0.0;  // of a cover sheet: what it adds to evaporation from the medium
  bool operator==(const Screen&) const = default;
};

struct RecipePlant {
  std::string name;  // botanical
  double cover_frac = 0.0;
  PlantOrigin origin = PlantOrigin::unsaid;
  bool operator==(const RecipePlant&) const = default;
};

/// The plants of a recipe taken together: means weighted by their cover. cover_frac 0: nothing planted.
struct Canopy {
  double cover_frac = 0.0;
  double height_mm = 0.0;
  double root_depth_mm = 0.0;
  double leaf_area_index = 0.0;  // over the covered part
  double leaf_albedo = 0.0;
  double longwave_emissivity = 0.0;
  double leaf_water_kg_per_m2 = 0.0;  // over the covered part
  double fresh_mass_kg_per_m2 = 0.0;  // over the covered part
  double least_stomatal_resistance_s_per_m = 0.0;
  double ground_resistance_s_per_m = 0.0;  // from the medium's surface to the air among the leaves
  double extinction_short = 0.0;           // of sun with leaf area
  double extinction_long = 0.0;            // of heat radiation
  bool operator==(const Canopy&) const = default;
};

/// Which way slats or canes under a module run.
enum class SlatsAlong { length, width };

struct Spacer {
  double height_mm = 0.0;
  Edges edges = Edges::open;
  double blocked_frac = 0.0;   // share of the gap's opening that the spacers themselves close
  double gap_wind_frac = 0.0;  // air speed in an unblocked open gap over the wind at the roof
  double mass_kg_per_module = 0.0;
  double slat_height_mm = 0.0;  // of slats or canes that lie on the deck; 0: feet, water passes them on all sides
  SlatsAlong slats_along = SlatsAlong::length;  // of the module
  std::optional<Feet> feet;                     // of one module; absent: not known
  bool operator==(const Spacer&) const = default;
};

/// Either days by season (0: never) or the store; both absent: never watered. Summer and winter are the three
/// hottest and the three coldest months.
struct Watering {
  std::optional<double> summer_every_days;
  std::optional<double> between_every_days;
  std::optional<double> winter_every_days;
  std::optional<double> when_store_below_frac;  // of what the drained module holds for its plants
  double litres_per_module = 0.0;
  double hour = 0.0;  // local standard time
  bool operator==(const Watering&) const = default;
};

/// What a module of this recipe weighs on a scale, plants and cover sheet with it, spacers not; over its area.
struct Weighed {
  std::optional<catalogue::Spread> dry_kg_per_m2;
  std::optional<catalogue::Spread> drained_kg_per_m2;
  std::optional<catalogue::Spread> soaked_kg_per_m2;
  bool operator==(const Weighed&) const = default;
};

struct Recipe {
  std::string name;
  double length_mm = 0.0;
  double width_mm = 0.0;
  std::vector<RecipeLayer> layers;  // from the top
  std::optional<Screen> cover;      // sheet on the surface of the medium
  std::optional<Screen> net;        // raised above it
  std::vector<RecipePlant> plants;
  Canopy canopy;
  double contact_m2_k_per_w = 0.0;  // between module and roof where it lies flat
  Spacer spacer;                    // used where a patch is raised
  Placed placed = Placed::raised;   // what a patch does unless it says otherwise
  std::optional<Watering> watering;
  std::optional<Weighed> weighed;  // takes the place of what the materials give
  bool operator==(const Recipe&) const = default;
};

}  // namespace houseleek::design
