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

std::optional<Interval> life_of(const Material& material, Exposure exposure) {
  if (exposure == Exposure::in_sun && material.service_life_in_sun_years) {
    return interval_from(*material.service_life_in_sun_years);
  }
  if (material.service_life_years) return interval_from(*material.service_life_years);
  return std::nullopt;
}

void add_part(Cost& cost, std::string name, const Interval& amount, const std::optional<Interval>& life_years) {
  if (!life_years) cost.without_life.push_back(name);
  cost.parts.push_back({std::move(name), amount, life_years});
}

/// A material of this thickness over an area; a price by the piece counts `n_pieces` times.
struct Slab {
  const Material* material = nullptr;
  Interval thickness_mm;
  Exposure exposure = Exposure::sheltered;
};

void add_slab(Cost& cost, const design::Prices& prices, const Slab& slab, double area_m2, double n_pieces) {
  const Material& material = *slab.material;
  const PriceItem* item = find_item(prices, material.name);
  if (item == nullptr) {
    cost.unpriced.push_back(material.name);
    return;
  }
  const Interval price = interval_from(item->price);
  const Interval thickness_m = 0.001 * slab.thickness_mm;
  Interval amount;
  switch (item->per) {
    case PricePer::kg:
      amount = area_m2 * (thickness_m * interval_from(material.density_kg_per_m3) * price);
      break;
    case PricePer::m2:
      amount = area_m2 * price;
      break;
    case PricePer::m3:
      amount = area_m2 * (thickness_m * price);
      break;
    case PricePer::each:
      amount = n_pieces * price;
      break;
  }
  add_part(cost, material.name, amount, life_of(material, slab.exposure));
}

/// An item that is no material; `amount` in the item's own unit.
void add_item(Cost& cost, const design::Prices& prices, std::string_view name, const Interval& amount) {
  const PriceItem* item = find_item(prices, name);
  if (item == nullptr) {
    cost.unpriced.emplace_back(name);
    return;
  }
  std::optional<Interval> life_years;
  if (item->service_life_years) life_years = interval_from(*item->service_life_years);
  add_part(cost, std::string(name), amount * interval_from(item->price), life_years);
}

results::Figure figure_of(const std::optional<Interval>& sum, std::string_view from,
                          const std::vector<std::string>& unpriced) {
  if (sum) return results::figure_with_range(sum->likely, sum->low, sum->high, std::string(from));
  std::string names;
  for (const std::string& name : unpriced) names += (names.empty() ? "" : ", ") + name;
  return results::figure_missing(fmt::format("no price is known of {}: add it under [[prices.item]]", names));
}

std::vector<std::string> once_each(const std::vector<std::string>& names) {
  const std::set<std::string> sorted(names.begin(), names.end());
  return {sorted.begin(), sorted.end()};
}

Interval thickness_of(const design::ValidDesign& design, const std::string& path, double thickness_mm) {
  return plan::assumed_interval(design, path, thickness_mm);
}

}  // namespace

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
    add_item(cost, prices, "net frame", exactly(area_m2));
  }
  if (recipe.cover) {
    const std::string path = fmt::format("recipe[{}].cover.thickness_mm", index);
    add_slab(cost, prices,
             {&recipe.cover->material, thickness_of(design, path, recipe.cover->thickness_mm), Exposure::in_sun},
             area_m2, 1.0);
  }
  for (const design::RecipeLayer& layer : recipe.layers) {
    add_slab(cost, prices, {&layer.layer.material, exactly(layer.layer.thickness_mm), Exposure::sheltered}, area_m2,
             1.0);
  }
  if (recipe.canopy.cover_frac > 0.0) {
    const Interval cuttings = {cuttings_per_m2.low, cuttings_per_m2.likely, cuttings_per_m2.high};
    add_item(cost, prices, "plant cutting", (area_m2 * recipe.canopy.cover_frac) * cuttings);
  }
  if (placed == design::Placed::raised) add_item(cost, prices, "spacer set", exactly(1.0));
  add_item(cost, prices, "ties", exactly(1.0));
  add_item(cost, prices, "module labour", exactly(1.0));
  // Labour is spent once a module; what is renewed by oneself later has no price here.
  std::erase(cost.without_life, "module labour");
  return cost;
}

Cost cost_of_white_per_m2(const design::ValidDesign& design) {
  Cost cost;
  add_item(cost, design->prices, "white paint", exactly(1.0));
  return cost;
}

Cost cost_of_net_per_m2(const design::ValidDesign& design) {
  Cost cost;
  const design::Screen& net = design->rivals.net;
  add_slab(cost, design->prices,
           {&net.material, thickness_of(design, "rivals.net.thickness_mm", net.thickness_mm), Exposure::in_sun}, 1.0,
           1.0);
  add_item(cost, design->prices, "net frame", exactly(1.0));
  return cost;
}

Cost cost_of_board_per_m2(const design::ValidDesign& design) {
  Cost cost;
  const design::Rivals& rivals = design->rivals;
  const Interval board_mm = thickness_of(design, "rivals.board_thickness_mm", rivals.board.thickness_mm);
  const Interval ballast_mm = thickness_of(design, "rivals.ballast_thickness_mm", rivals.ballast.thickness_mm);
  add_slab(cost, design->prices, {&rivals.board.material, board_mm, Exposure::sheltered}, 1.0, 1.0);
  add_slab(cost, design->prices, {&rivals.ballast.material, ballast_mm, Exposure::sheltered}, 1.0, 1.0);
  return cost;
}

std::optional<Interval> outlay_of(const Cost& cost) {
  if (!cost.unpriced.empty()) return std::nullopt;
  Interval sum;
  for (const CostPart& part : cost.parts) sum = sum + part.cost;
  return sum;
}

std::optional<Interval> replacement_per_year(const Cost& cost) {
  if (!cost.unpriced.empty()) return std::nullopt;
  Interval sum;
  for (const CostPart& part : cost.parts) {
    if (part.life_years) sum = sum + part.cost / *part.life_years;
  }
  return sum;
}

PlantedOutlay planted_outlay(const design::ValidDesign& design) {
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
    for (const design::Patch& patch : design->patches) {
      if (patch.recipe != row.recipe) continue;
      const int n_modules = patch.columns * patch.rows;
      const Cost cost = cost_of_module(design, row.recipe, patch.placed);
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

RivalOutlay rival_outlay(const Cost& cost_per_m2, double area_m2) {
  const auto scaled = [area_m2](const std::optional<Interval>& one) {
    return one ? std::optional(area_m2 * *one) : std::nullopt;
  };
  return {
      .outlay = figure_of(scaled(outlay_of(cost_per_m2)), sums_from, cost_per_m2.unpriced),
      .replacement_per_year = figure_of(scaled(replacement_per_year(cost_per_m2)), lives_from, cost_per_m2.unpriced)};
}

results::Figure water_cost_per_year(const design::ValidDesign& design, double water_m3_per_year) {
  const Interval cost = water_m3_per_year * interval_from(design->prices.tariff.water_per_m3);
  return results::figure_with_range(cost.likely, cost.low, cost.high,
                                    "low and high price of water; one year's weather only");
}

CashSaving cash_saving(const design::ValidDesign& design) {
  const bool has_fan = std::any_of(design->rooms.begin(), design->rooms.end(),
                                   [](const design::Room& room) { return room.fan.has_value(); });
  CashSaving saving;
  saving.per_year = results::figure_without_range(0.0, "nothing was bought before that is not bought now");
  saving.statement = has_fan ? "Zero: there were only fans before, and no bill for cooling or heating is described."
                             : "Zero: no bill for cooling or heating is described.";
  saving.no_payback_because =
      "the cash saved is zero, so the outlay does not come back in cash; the comfort gained is a figure of its own";
  return saving;
}

}  // namespace houseleek::money
