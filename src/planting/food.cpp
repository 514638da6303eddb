// Whether one may eat what grows in a module: its materials, the membrane under it, and the water it is given.
#include "planting/food.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace houseleek::planting {
namespace {

using catalogue::NearFood;

void add(FoodWord& food, const catalogue::Material& material, std::string_view what) {
  const NearFood word = material.near_food.value_or(NearFood::doubtful);
  if (word == NearFood::yes) return;
  std::string text =
      word == NearFood::no ? fmt::format("{} ({}) is not for food", material.name, what)
      : material.near_food
          ? fmt::format("{} ({}): binders, dyes or dressings that nobody vouches for", material.name, what)
          : fmt::format("{} ({}): nobody said whether it may touch food", material.name, what);
  if (std::find(food.because.begin(), food.because.end(), text) == food.because.end()) {
    food.because.push_back(std::move(text));
  }
  food.word = std::max(food.word, word);
}

}  // namespace

FoodWord food_in(const design::Recipe& recipe) {
  FoodWord food;
  for (const design::RecipeLayer& layer : recipe.layers) add(food, layer.layer.material, design::part_word(layer.role));
  if (recipe.cover) add(food, recipe.cover->material, "cover sheet");
  if (recipe.net) add(food, recipe.net->material, "net");
  return food;
}

FoodWord food_of_material(const catalogue::Material& material) {
  FoodWord food;
  add(food, material, "filling");
  return food;
}

FoodWord food_from_roof_water(const design::Roof& roof) {
  FoodWord food;
  if (roof.deck.empty()) return food;
  const catalogue::Material& membrane = roof.deck.front().material;
  if (membrane.family == catalogue::Family::bitumen) {
    food.word = NearFood::doubtful;
    food.because.push_back(
        fmt::format("{}: bitumen sheets may hold poison against roots, and it washes out", membrane.name));
    return food;
  }
  add(food, membrane, "membrane");
  return food;
}

std::string word_of(NearFood word) {
  for (const auto& [text, value] : catalogue::near_food_words) {
    if (value == word) return std::string(text);
  }
  return "";
}

}  // namespace houseleek::planting
