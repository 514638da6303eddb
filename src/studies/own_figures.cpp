// What a project's logbook measured, in place of what its design would assume: weights of modules and lives of parts.
#include "studies/own_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "checks/weights.hpp"
#include "stats/student.hpp"
#include "studies/raw_edit.hpp"
#include "studies/upkeep.hpp"

namespace houseleek::studies {
namespace {

using catalogue::Spread;

constexpr std::array<std::string_view, 3> states = {"dry", "drained", "soaked"};
constexpr std::size_t least_for_spread = 3;

/// Weighings in kg/m2 of one recipe, by state.
using Weighings = std::array<std::vector<double>, 3>;

int recipe_named(const design::Design& design, const std::string& name) {
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    if (folded_name(design.recipes[i].name) == folded_name(name)) return static_cast<int>(i);
  }
  return -1;
}

/// Which recipe each module was last made by.
std::map<std::string, std::string> recipes_of_modules(const std::vector<logbook::EventRecord>& records) {
  std::map<std::string, std::string> recipes;
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    if (record.superseded_by || event.kind != logbook::EventKind::made || event.recipe.empty()) continue;
    recipes[event.module] = event.recipe;
  }
  return recipes;
}

Spread spread_of(const std::vector<double>& weights, const results::Interval& estimate) {
  const auto n = static_cast<double>(weights.size());
  double mean = 0.0;
  for (const double weight : weights) mean += weight / n;
  const std::string from = fmt::format("measured on this roof, from {}", counted(n, "weighing", "weighings"));
  Spread spread;
  spread.likely = mean;
  spread.certainty = catalogue::Certainty::own_figure;
  if (weights.size() >= least_for_spread) {
    double squares = 0.0;
    for (const double weight : weights) squares += (weight - mean) * (weight - mean);
    const double half =
        stats::student_quantile(0.95, n - 1.0) * std::sqrt(squares / (n - 1.0)) * std::sqrt(1.0 + 1.0 / n);
    if (half < mean) {
      spread.low = mean - half;
      spread.high = mean + half;
      spread.source = from + "; nine in ten modules lie within";
      return spread;
    }
  }
  spread.low = mean * estimate.low / estimate.likely;
  spread.high = mean * estimate.high / estimate.likely;
  spread.source = from + "; how modules differ is still guessed from the materials";
  return spread;
}

void add_weights(const std::vector<logbook::EventRecord>& records, const design::ValidDesign& design, OwnFigures& own) {
  const std::map<std::string, std::string> recipes = recipes_of_modules(records);
  std::map<int, Weighings> all;
  std::size_t n_unknown = 0;
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    const bool is_module = event.container.empty() && event.item.empty() && event.batch.empty();
    if (record.superseded_by || event.kind != logbook::EventKind::weighed || !is_module) continue;
    const auto made = recipes.find(event.module);
    const std::string& name = !event.recipe.empty() || made == recipes.end() ? event.recipe : made->second;
    const int recipe = recipe_named(*design, name);
    const auto state = std::find(states.begin(), states.end(), event.wetness);
    if (recipe < 0 || state == states.end() || *event.mass_kg <= 0.0) {
      ++n_unknown;
      continue;
    }
    const design::Recipe& of = design->recipes[static_cast<std::size_t>(recipe)];
    const double module_m2 = 1e-6 * of.length_mm * of.width_mm;
    const double n_modules = std::max(1.0, event.count.value_or(1.0));
    all[recipe][static_cast<std::size_t>(state - states.begin())].push_back(*event.mass_kg / module_m2 / n_modules);
  }
  if (n_unknown > 0) {
    own.left_out.push_back(fmt::format("{} without a recipe of the design or without how wet it was",
                                       counted(static_cast<double>(n_unknown), "weighing", "weighings")));
  }
  for (const auto& [recipe, weighings] : all) {
    const std::string& name = design->recipes[static_cast<std::size_t>(recipe)].name;
    // Weighed as it is carried: no spacers on the scale.
    const checks::ModuleWeights weights = checks::compute_weights(design, recipe, design::Placed::flat);
    const std::array<results::Interval, 3> estimates = {weights.dry_kg_per_m2, weights.drained_kg_per_m2,
                                                        weights.soaked_kg_per_m2};
    std::vector<OwnFigure> figures;
    double before = 0.0;
    bool is_in_order = true;
    for (std::size_t i = 0; i < states.size(); ++i) {
      if (weighings[i].empty()) continue;
      const Spread spread = spread_of(weighings[i], estimates[i]);
      is_in_order = is_in_order && spread.likely >= before;
      before = spread.likely;
      figures.push_back({fmt::format("recipe[{}].weighed.{}_kg_per_m2", recipe, states[i]), spread,
                         fmt::format("{}, {}: {:.1f} kg/m2 ({:.1f} to {:.1f}) instead of {:.1f}; {}", name, states[i],
                                     spread.likely, spread.low, spread.high, estimates[i].likely, spread.source)});
    }
    if (!is_in_order) {
      own.left_out.push_back(fmt::format("weighings of {}: wetter ones are lighter than drier ones", name));
      continue;
    }
    own.figures.insert(own.figures.end(), figures.begin(), figures.end());
  }
}

void add_lives(const std::vector<logbook::EventRecord>& records, const design::ValidDesign& design,
               const catalogue::Catalogue& catalogue, std::int64_t now_utc_s, OwnFigures& own) {
  const upkeep::PartRecords found = part_records_of(records, *design);
  for (const PartLives& lives : judge_part_lives(found, *design, catalogue, now_utc_s, upkeep::least_failures)) {
    if (lives.life_path.empty()) continue;
    // Of two materials at one place (ties of jute, then of wire) the one with more failures speaks.
    const bool is_taken = std::any_of(own.figures.begin(), own.figures.end(),
                                      [&](const OwnFigure& one) { return one.path == lives.life_path; });
    if (is_taken) continue;
    const stats::Quantiles& life = lives.life.median_life_years;
    Spread spread{
        life.low, life.middle, life.high,
        fmt::format("measured on this roof, from {} of {}{}{}", counted(lives.life.n_failures, "failure", "failures"),
                    lives.part, lives.material.empty() ? "" : ", ", lives.material),
        catalogue::Certainty::own_figure};
    own.figures.push_back({lives.life_path, spread, lives.life.sentence});
  }
}

TomlNode& recipe_at(TomlNode& root, std::size_t index) {
  TomlNode* list = member_of(root, "recipe");
  expects(list != nullptr && index < list->items.size(), "a recipe of the description");
  return list->items[index];
}

std::string_view price_key(catalogue::PricePer per) {
  switch (per) {
    case catalogue::PricePer::kg:
      return "price_per_kg";
    case catalogue::PricePer::m2:
      return "price_per_m2";
    case catalogue::PricePer::m3:
      return "price_per_m3";
    case catalogue::PricePer::each:
      return "price_each";
  }
  return "";
}

void place(TomlNode& root, const design::Design& read, const OwnFigure& figure) {
  const std::string_view path = figure.path;
  const std::size_t open = path.find('[');
  const std::size_t close = path.rfind("].");
  expects(open != std::string_view::npos && close != std::string_view::npos, "a place of an own figure");
  const std::string_view kind = path.substr(0, open);
  const std::string name(path.substr(open + 1, close - open - 1));
  const std::string_view key = path.substr(close + 2);
  if (kind == "material") return set_spread(material_table(root, name), key, figure.value);
  if (kind == "recipe") {
    expects(key.starts_with("weighed."), "a weight of a recipe");
    return set_spread(table_named(recipe_at(root, std::stoul(name)), "weighed"), key.substr(8), figure.value);
  }
  expects(kind == "prices", "a material, a recipe or an item with a price");
  TomlNode& item = entry_named(table_named(root, "prices"), "item", name);
  // An entry of one's own has a price; where there was none it is the catalogue's, and stays known as that.
  for (const catalogue::PriceItem& one : read.prices.items) {
    if (folded_name(one.name) != folded_name(name)) continue;
    if (member_of(item, price_key(one.per)) == nullptr) set_spread(item, price_key(one.per), one.price);
  }
  set_spread(item, key, figure.value);
}

}  // namespace

OwnFigures find_own_figures(const std::vector<logbook::EventRecord>& records, const design::ValidDesign& design,
                            const catalogue::Catalogue& catalogue, std::int64_t now_utc_s) {
  OwnFigures own;
  add_weights(records, design, own);
  add_lives(records, design, catalogue, now_utc_s, own);
  return own;
}

design::RawDesign with_own_figures(const design::RawDesign& description, const design::Design& read,
                                   const std::vector<OwnFigure>& figures) {
  design::RawDesign changed = description;
  for (const OwnFigure& figure : figures) place(changed.root, read, figure);
  return changed;
}

}  // namespace houseleek::studies
