// Parts of the modules of a design, what their lives are believed to be, and where those figures stand.
#include "studies/design_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"

namespace houseleek::studies {
namespace {

using catalogue::Material;

DesignPart part_of(const std::string& recipe, std::string word, const Material& material, bool is_in_sun) {
  DesignPart part;
  part.part = {recipe, std::move(word), material.name};
  const bool has_in_sun = is_in_sun && material.service_life_in_sun_years.has_value();
  part.life_years = has_in_sun ? material.service_life_in_sun_years : material.service_life_years;
  if (part.life_years) {
    part.life_path =
        fmt::format("material[{}].{}", material.name, has_in_sun ? "service_life_in_sun_years" : "service_life_years");
  }
  return part;
}

DesignPart part_of_item(const design::Design& design, const std::string& recipe, std::string word,
                        std::string_view item_name) {
  DesignPart part;
  part.part = {recipe, std::move(word), ""};
  for (const catalogue::PriceItem& item : design.prices.items) {
    if (folded_name(item.name) != item_name) continue;
    part.life_years = item.service_life_years;
    if (part.life_years) part.life_path = fmt::format("prices[{}].service_life_years", item.name);
  }
  return part;
}

bool is_raised_somewhere(const design::Design& design, std::size_t recipe) {
  bool is_laid = false;
  for (const design::Patch& patch : design.patches) {
    if (patch.recipe != static_cast<int>(recipe)) continue;
    is_laid = true;
    if (patch.placed == design::Placed::raised) return true;
  }
  return !is_laid && design.recipes[recipe].placed == design::Placed::raised;
}

}  // namespace

std::vector<DesignPart> parts_of_design(const design::Design& design) {
  std::vector<DesignPart> parts;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const design::Recipe& recipe = design.recipes[i];
    if (recipe.net) parts.push_back(part_of(recipe.name, "net", recipe.net->material, true));
    if (recipe.cover) parts.push_back(part_of(recipe.name, "cover sheet", recipe.cover->material, true));
    for (const design::RecipeLayer& layer : recipe.layers) {
      parts.push_back(part_of(recipe.name, std::string(design::part_word(layer.role)), layer.layer.material, false));
    }
    if (is_raised_somewhere(design, i)) {
      parts.push_back(part_of_item(design, recipe.name, "spacer", "spacer set"));
    }
    parts.push_back(part_of_item(design, recipe.name, "tie", "ties"));
  }
  return parts;
}

std::optional<catalogue::Spread> believed_life(const std::vector<DesignPart>& parts,
                                               const catalogue::Catalogue& catalogue, const std::string& part,
                                               const std::string& material) {
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const DesignPart& one) {
    return one.part.part == part && folded_name(one.part.material) == folded_name(material);
  });
  if (found != parts.end() && found->life_years) return found->life_years;
  if (const catalogue::Part* counted = catalogue::find_part(catalogue, material)) {
    return counted->service_life_in_sun_years ? *counted->service_life_in_sun_years : counted->service_life_years;
  }
  const bool is_in_sun = part == "cover sheet" || part == "net" || part == "tie";
  if (const Material* sheet = catalogue::find_material(catalogue, material)) {
    if (is_in_sun && sheet->service_life_in_sun_years) return sheet->service_life_in_sun_years;
    if (sheet->service_life_years) return sheet->service_life_years;
  }
  return std::nullopt;
}

}  // namespace houseleek::studies
