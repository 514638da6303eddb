// Which figures of a design a trial's readings may move.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/contract.hpp"
#include "catalogue/properties.hpp"
#include "design/limits.hpp"
#include "design/trial_limits.hpp"
#include "studies/trial_fit.hpp"

namespace houseleek::studies {
namespace {

constexpr std::string_view known_words[] = {"gap", "conductivity", "wet", "evaporation", "finish"};

/// Bounds of a figure that is known to about a factor.
constexpr double widest_factor = 6.0;

struct TrialRecipe {
  int recipe = 0;
  design::Placed placed = design::Placed::flat;
};

std::vector<TrialRecipe> recipes_in(const design::Design& design, const design::Trial& trial) {
  std::vector<TrialRecipe> recipes;
  for (const design::TrialSide& side : trial.sides) {
    if (!side.recipe || *side.recipe == design::bare_deck) continue;
    const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(*side.recipe)];
    recipes.push_back({*side.recipe, side.placed.value_or(recipe.placed)});
  }
  return recipes;
}

bool has_bare_side(const design::Trial& trial) {
  return std::any_of(trial.sides.begin(), trial.sides.end(),
                     [](const design::TrialSide& side) { return side.recipe == design::bare_deck; });
}

void set_range_before(const design::ValidDesign& design, FitCandidate& candidate) {
  candidate.low_before = candidate.high_before = candidate.start;
  for (const design::Assumption& one : design.assumed()) {
    if (one.path != candidate.path) continue;
    candidate.low_before = one.low;
    candidate.high_before = one.high;
  }
}

FitCandidate about(std::string path, std::string_view words, const NumberRule& rule, double start) {
  FitCandidate candidate;
  candidate.path = std::move(path);
  candidate.words = words;
  candidate.unit = rule.unit == "share" ? "" : std::string(rule.unit);
  candidate.start = start;
  candidate.low = std::max(rule.least, start / widest_factor);
  candidate.high = std::min(rule.most, start * widest_factor);
  return candidate;
}

void add_gap(const design::Design& design, const design::Trial& trial, std::vector<FitCandidate>& out) {
  for (const TrialRecipe& one : recipes_in(design, trial)) {
    const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(one.recipe)];
    if (one.placed != design::Placed::raised || recipe.spacer.edges == design::Edges::closed) continue;
    FitCandidate candidate = about(fmt::format("recipe[{}].spacer.gap_wind_frac", one.recipe),
                                   "air speed in the gap over wind at the roof, " + recipe.name,
                                   design::limits::gap_wind_frac, recipe.spacer.gap_wind_frac);
    // From still air to a gap as windy as the roof: nobody knows it beforehand.
    candidate.low = 0.001;
    candidate.high = 1.0;
    candidate.start = std::clamp(candidate.start, 0.002, 0.99);
    out.push_back(std::move(candidate));
  }
}

const catalogue::MaterialProperty& property_of(std::string_view key) {
  for (const catalogue::MaterialProperty& one : catalogue::material_properties()) {
    if (one.rule.key == key) return one;
  }
  expects(false, "a property of materials");
  return catalogue::material_properties().front();
}

void add_material(const catalogue::Material& material, std::string_view key, std::vector<FitCandidate>& out) {
  const catalogue::MaterialProperty& property = property_of(key);
  const catalogue::Spread* figure = catalogue::find_property(material, property);
  if (figure == nullptr || !(figure->likely > 0.0)) return;
  out.push_back(about(fmt::format("material[{}].{}", material.name, key),
                      fmt::format("{}: {}", material.name, property.words), property.rule, figure->likely));
}

void add_conductivity(const design::Design& design, const design::Trial& trial, std::vector<FitCandidate>& out) {
  for (const TrialRecipe& one : recipes_in(design, trial)) {
    // The layer that insulates most: of the others readings say little beside it.
    const design::RecipeLayer* most = nullptr;
    const auto resistance = [](const design::RecipeLayer& layer) {
      return layer.layer.thickness_mm / layer.layer.material.conductivity_w_per_m_k.likely;
    };
    for (const design::RecipeLayer& layer : design.recipes[static_cast<std::size_t>(one.recipe)].layers) {
      if (most == nullptr || resistance(layer) > resistance(*most)) most = &layer;
    }
    if (most != nullptr) add_material(most->layer.material, "conductivity_w_per_m_k", out);
  }
}

void add_wet(const design::Design& design, const design::Trial& trial, std::vector<FitCandidate>& out) {
  for (const TrialRecipe& one : recipes_in(design, trial)) {
    for (const design::RecipeLayer& layer : design.recipes[static_cast<std::size_t>(one.recipe)].layers) {
      if (layer.layer.material.wet_rule != catalogue::WetRule::mineral_medium) continue;
      add_material(layer.layer.material, "cote_konrad_k", out);
    }
  }
}

void add_evaporation(const design::Design& design, const design::Trial& trial, std::vector<FitCandidate>& out) {
  for (const TrialRecipe& one : recipes_in(design, trial)) {
    const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(one.recipe)];
    if (recipe.canopy.cover_frac == 0.0) continue;
    for (const catalogue::FoliageProperty& property : catalogue::foliage_properties()) {
      if (property.rule.key != "least_stomatal_resistance_s_per_m") continue;
      out.push_back(about(fmt::format("recipe[{}].canopy.{}", one.recipe, property.rule.key),
                          fmt::format("{}, {}", property.words, recipe.name), property.rule,
                          recipe.canopy.least_stomatal_resistance_s_per_m));
    }
  }
}

void add_finish(const design::Design& design, const design::Trial& trial, std::vector<FitCandidate>& out) {
  if (!has_bare_side(trial)) return;
  FitCandidate candidate = about("roof.finish.albedo", "sun thrown back by the bare roof", design::limits::albedo,
                                 design.roof.finish.albedo);
  candidate.low = 0.0;
  candidate.high = 0.95;
  candidate.start = std::clamp(candidate.start, 0.01, 0.94);
  out.push_back(std::move(candidate));
}

void add_by_word(const design::Design& design, const design::Trial& trial, std::string_view word,
                 std::vector<FitCandidate>& out) {
  if (word == "gap") add_gap(design, trial, out);
  if (word == "conductivity") add_conductivity(design, trial, out);
  if (word == "wet") add_wet(design, trial, out);
  if (word == "evaporation") add_evaporation(design, trial, out);
  if (word == "finish") add_finish(design, trial, out);
}

Issue unknown_property(const std::string& word, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::unknown_name;
  issue.path = "property";
  issue.value = word;
  issue.limit = fit_words();
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

}  // namespace

std::string fit_words() {
  std::string words;
  for (const std::string_view word : known_words) words += (words.empty() ? "" : ", ") + std::string(word);
  return words;
}

Result<std::vector<FitCandidate>> fit_candidates(const design::ValidDesign& design, std::size_t trial_index,
                                                 const std::vector<std::string>& words) {
  const design::Trial& trial = design->trials[trial_index];
  std::vector<FitCandidate> chosen;
  Issues issues;
  if (words.empty()) {
    for (const std::string_view word : {"gap", "conductivity", "finish"}) {
      if (chosen.empty()) add_by_word(*design, trial, word, chosen);
    }
    if (chosen.empty()) {
      issues.push_back(unknown_property("", "no side of the trial has a figure that can be fitted",
                                        "give the sides their recipes: recipe = \"name\" in [[trial.side]]"));
    }
  }
  for (const std::string& word : words) {
    std::vector<FitCandidate> found;
    const bool is_word = std::find(std::begin(known_words), std::end(known_words), word) != std::end(known_words);
    if (is_word) {
      add_by_word(*design, trial, word, found);
      if (found.empty()) {
        issues.push_back(unknown_property(word, fmt::format("no side of the trial has anything to fit by \"{}\"", word),
                                          word == "gap" ? "a gap is below raised modules with open edges" : ""));
      }
    } else {
      std::vector<FitCandidate> all;
      for (const std::string_view one : known_words) add_by_word(*design, trial, one, all);
      const auto by_path =
          std::find_if(all.begin(), all.end(), [&word](const FitCandidate& one) { return one.path == word; });
      if (by_path != all.end()) {
        found.push_back(*by_path);
      } else {
        std::string paths;
        for (const FitCandidate& one : all) paths += (paths.empty() ? "" : ", ") + one.path;
        issues.push_back(unknown_property(word, fmt::format("\"{}\" cannot be fitted", word),
                                          fmt::format("one of {}, or a path: {}", fit_words(), paths)));
      }
    }
    chosen.insert(chosen.end(), found.begin(), found.end());
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  std::set<std::string> paths;
  std::erase_if(chosen, [&paths](const FitCandidate& one) { return !paths.insert(one.path).second; });
  for (FitCandidate& candidate : chosen) set_range_before(design, candidate);
  return chosen;
}

}  // namespace houseleek::studies
