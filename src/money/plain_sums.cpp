// What modules and rivals cost to make, what wears out of them in a year, what the water costs: plain sums of ranges.
#include "money/plain_sums.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "plan/assumed_interval.hpp"

namespace houseleek::money {
namespace {

using catalogue::Material;
using catalogue::PriceItem;
using catalogue::PricePer;
using plan::interval_from;
using results::exactly;
using results::Interval;

constexpr std::string_view sums_from = "low and high ends of every price added up";
constexpr std::string_view lives_from = "low prices over long lives to high prices over short lives, added up";

const PriceItem* find_item(const design::Prices& prices, std::string_view name) {
  const std::string folded = folded_name(name);
  for (const PriceItem& item : prices.items) {
    if (folded_name(item.name) == folded) return &item;
  }
  return nullptr;
}

enum class Exposure { sheltered, in_sun };

Factor material_factor(const Material& material, std::string_view key, const catalogue::Spread& figure) {
  return {fmt::format("material[{}].{}", material.name, key), interval_from(figure)};
}

std::optional<Factor> life_of(const Material& material, Exposure exposure) {
  if (exposure == Exposure::in_sun && material.service_life_in_sun_years) {
    return material_factor(material, "service_life_in_sun_years", *material.service_life_in_sun_years);
  }
  if (!material.service_life_years) return std::nullopt;
  return material_factor(material, "service_life_years", *material.service_life_years);
}

Factor price_of(const PriceItem& item) { return {fmt::format("prices[{}]", item.name), interval_from(item.price)}; }

void add_part(Cost& cost, CostPart part) {
  if (!part.life_years) cost.without_life.push_back(part.name);
  cost.parts.push_back(std::move(part));
}

/// A material of this thickness over an area; a price by the piece counts `n_pieces` times.
struct Slab {
  const Material* material = nullptr;
  Factor thickness_mm;
  Exposure exposure = Exposure::sheltered;
};

constexpr double metres_per_mm = 0.001;

void add_slab(Cost& cost, const design::Prices& prices, const Slab& slab, double area_m2, double n_pieces) {
  const Material& material = *slab.material;
  const PriceItem* item = find_item(prices, material.name);
  if (item == nullptr) {
    cost.unpriced.push_back(material.name);
    return;
  }
  CostPart part;
  part.name = material.name;
  part.amount = area_m2;
  part.life_years = life_of(material, slab.exposure);
  const Factor density = material_factor(material, "density_kg_per_m3", material.density_kg_per_m3);
  part.mass_amount = area_m2 * metres_per_mm;
  part.mass_factors = {slab.thickness_mm, density};
  if (material.carbon_kg_per_kg) {
    part.carbon_kg_per_kg = material_factor(material, "carbon_kg_per_kg", *material.carbon_kg_per_kg);
  }
  switch (item->per) {
    case PricePer::kg:
      part.amount *= metres_per_mm;
      part.factors = {slab.thickness_mm, density};
      break;
    case PricePer::m2:
      break;
    case PricePer::m3:
      part.amount *= metres_per_mm;
      part.factors = {slab.thickness_mm};
      break;
    case PricePer::each:
      part.amount = n_pieces;
      break;
  }
  part.price = price_of(*item);
  add_part(cost, std::move(part));
}

/// An item that is no material; `amount`, and `count` if there is one, in the item's own unit.
void add_item(Cost& cost, const design::Prices& prices, std::string_view name, double amount,
              const std::optional<Factor>& count = std::nullopt) {
  const PriceItem* item = find_item(prices, name);
  if (item == nullptr) {
    cost.unpriced.emplace_back(name);
    return;
  }
  CostPart part;
  part.name = name;
  part.amount = amount;
  if (count) part.factors.push_back(*count);
  part.price = price_of(*item);
  if (item->service_life_years) {
    part.life_years =
        Factor{fmt::format("prices[{}].service_life_years", item->name), interval_from(*item->service_life_years)};
  }
  add_part(cost, std::move(part));
}

results::Figure figure_of(const std::optional<Interval>& sum, std::string_view from,
                          const std::vector<std::string>& unpriced) {
  if (sum) return results::figure_with_range(sum->likely, sum->low, sum->high, std::string(from));
  std::string names;
  for (const std::string& name : unpriced) names += (names.empty() ? "" : ", ") + name;
  return results::figure_missing(fmt::format("no price is known of {}: add it under [[prices.item]]", names));
}

/// A thickness that a person gave has no range, and so nothing to be drawn.
Factor given_thickness(double thickness_mm) { return {"", exactly(thickness_mm)}; }

Factor thickness_of(const design::ValidDesign& design, const std::string& path, double thickness_mm) {
  return {path, plan::assumed_interval(design, path, thickness_mm)};
}

}  // namespace

std::vector<std::string> once_each(const std::vector<std::string>& names) {
  const std::set<std::string> sorted(names.begin(), names.end());
  return {sorted.begin(), sorted.end()};
}

Interval cost_of(const CostPart& part) {
  Interval product = exactly(part.amount);
  for (const Factor& factor : part.factors) product = product * factor.range;
  return product * part.price.range;
}

Cost cost_of_module(const design::ValidDesign& design, int index, design::Placed placed) {
  expects(index >= 0 && index < static_cast<int>(design->recipes.size()), "a recipe of the design");
  const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(index)];
  const design::Prices& prices = design->prices;
  const double area_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
  Cost cost;
  if (recipe.net) {
    const std::string path = fmt::format("recipe[{}].net.thickness_mm", index);
    add_slab(cost, prices,
             {&recipe.net->material, thickness_of(design, path, recipe.net->thickness_mm), Exposure::in_sun}, area_m2,
             1.0);
    add_item(cost, prices, "net frame", area_m2);
  }
  if (recipe.cover) {
    const std::string path = fmt::format("recipe[{}].cover.thickness_mm", index);
    add_slab(cost, prices,
             {&recipe.cover->material, thickness_of(design, path, recipe.cover->thickness_mm), Exposure::in_sun},
             area_m2, 1.0);
  }
  for (const design::RecipeLayer& layer : recipe.layers) {
    add_slab(cost, prices, {&layer.layer.material, given_thickness(layer.layer.thickness_mm), Exposure::sheltered},
             area_m2, 1.0);
  }
  if (recipe.canopy.cover_frac > 0.0) {
    add_item(cost, prices, "plant cutting", area_m2 * recipe.canopy.cover_frac,
             Factor{"money.cuttings_per_m2", {cuttings_per_m2.low, cuttings_per_m2.likely, cuttings_per_m2.high}});
  }
  if (placed == design::Placed::raised) add_item(cost, prices, "spacer set", 1.0);
  add_item(cost, prices, "ties", 1.0);
  add_item(cost, prices, "module labour", 1.0);
  // Labour is spent once a module; what is renewed by oneself later has no price here.
  std::erase(cost.without_life, "module labour");
  return cost;
}

Cost cost_of_white_per_m2(const design::ValidDesign& design) {
  Cost cost;
  add_item(cost, design->prices, "white paint", 1.0);
  return cost;
}

Cost cost_of_net_per_m2(const design::ValidDesign& design) {
  Cost cost;
  const design::Screen& net = design->rivals.net;
  add_slab(cost, design->prices,
           {&net.material, thickness_of(design, "rivals.net.thickness_mm", net.thickness_mm), Exposure::in_sun}, 1.0,
           1.0);
  add_item(cost, design->prices, "net frame", 1.0);
  return cost;
}

Cost cost_of_board_per_m2(const design::ValidDesign& design) {
  Cost cost;
  const design::Rivals& rivals = design->rivals;
  const Factor board_mm = thickness_of(design, "rivals.board_thickness_mm", rivals.board.thickness_mm);
  const Factor ballast_mm = thickness_of(design, "rivals.ballast_thickness_mm", rivals.ballast.thickness_mm);
  add_slab(cost, design->prices, {&rivals.board.material, board_mm, Exposure::sheltered}, 1.0, 1.0);
  add_slab(cost, design->prices, {&rivals.ballast.material, ballast_mm, Exposure::sheltered}, 1.0, 1.0);
  return cost;
}

std::optional<Interval> outlay_of(const Cost& cost) {
  if (!cost.unpriced.empty()) return std::nullopt;
  Interval sum;
  for (const CostPart& part : cost.parts) sum = sum + cost_of(part);
  return sum;
}

std::optional<Interval> replacement_per_year(const Cost& cost) {
  if (!cost.unpriced.empty()) return std::nullopt;
  Interval sum;
  for (const CostPart& part : cost.parts) {
    if (part.life_years) sum = sum + cost_of(part) / part.life_years->range;
  }
  return sum;
}

std::vector<PatchCost> patch_costs(const design::ValidDesign& design) {
  std::vector<PatchCost> costs;
  for (const design::Patch& patch : design->patches) {
    costs.push_back({.recipe = patch.recipe,
                     .n_modules = patch.columns * patch.rows,
                     .per_module = cost_of_module(design, patch.recipe, patch.placed)});
  }
  return costs;
}

PlantedOutlay planted_outlay(const design::ValidDesign& design) {
  const std::vector<PatchCost> patches = patch_costs(design);
  PlantedOutlay planted;
  std::optional<Interval> whole = Interval{};
  std::optional<Interval> whole_per_year = Interval{};
  for (std::size_t recipe = 0; recipe < design->recipes.size(); ++recipe) {
    RecipeOutlay row;
    row.recipe = static_cast<int>(recipe);
    std::optional<Interval> outlay = Interval{};
    std::optional<Interval> per_year = Interval{};
    Cost usual;
    std::vector<std::string> unpriced;
    for (const PatchCost& patch : patches) {
      if (patch.recipe != row.recipe) continue;
      const int n_modules = patch.n_modules;
      const Cost& cost = patch.per_module;
      if (row.n_modules == 0) usual = cost;
      row.n_modules += n_modules;
      unpriced.insert(unpriced.end(), cost.unpriced.begin(), cost.unpriced.end());
      planted.without_life.insert(planted.without_life.end(), cost.without_life.begin(), cost.without_life.end());
      const std::optional<Interval> one = outlay_of(cost);
      const std::optional<Interval> one_per_year = replacement_per_year(cost);
      outlay = outlay && one ? std::optional(*outlay + static_cast<double>(n_modules) * *one) : std::nullopt;
      per_year = per_year && one_per_year ? std::optional(*per_year + static_cast<double>(n_modules) * *one_per_year)
                                          : std::nullopt;
    }
    if (row.n_modules == 0) continue;
    unpriced = once_each(unpriced);
    row.per_module = figure_of(outlay_of(usual), sums_from, usual.unpriced);
    row.outlay = figure_of(outlay, sums_from, unpriced);
    row.replacement_per_year = figure_of(per_year, lives_from, unpriced);
    planted.unpriced.insert(planted.unpriced.end(), unpriced.begin(), unpriced.end());
    whole = whole && outlay ? std::optional(*whole + *outlay) : std::nullopt;
    whole_per_year = whole_per_year && per_year ? std::optional(*whole_per_year + *per_year) : std::nullopt;
    planted.recipes.push_back(std::move(row));
  }
  planted.unpriced = once_each(planted.unpriced);
  planted.without_life = once_each(planted.without_life);
  planted.outlay = figure_of(whole, sums_from, planted.unpriced);
  planted.replacement_per_year = figure_of(whole_per_year, lives_from, planted.unpriced);
  return planted;
}

}  // namespace houseleek::money
