// Every figure of a material, part, foliage and plant: its key, unit, limits and words; one list for reading, checking,
// showing.
#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "base/toml_fields.hpp"
#include "catalogue/material.hpp"
#include "catalogue/part.hpp"
#include "catalogue/plant.hpp"

namespace houseleek::catalogue {

/// Either `required` or `optional` points to the figure.
struct MaterialProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Material::*required = nullptr;
  std::optional<Spread> Material::*optional = nullptr;
  bool is_of_damp = false;  // read by the answer about damp alone, which lists it itself
};

struct FoliageProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Foliage::*figure = nullptr;
};

/// Either `required` or `optional` points to the figure.
struct PartProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Part::*required = nullptr;
  std::optional<Spread> Part::*optional = nullptr;
};

struct PlantProperty {
  NumberRule rule;
  std::string_view words = "";
  std::optional<Spread> Plant::*figure = nullptr;
  bool is_needed = false;  // by every plant of the catalogue
};

[[nodiscard]] std::span<const MaterialProperty> material_properties();
[[nodiscard]] std::span<const PartProperty> part_properties();
[[nodiscard]] std::span<const FoliageProperty> foliage_properties();
[[nodiscard]] std::span<const PlantProperty> plant_properties();

/// The figure, or nullptr if there is none.
[[nodiscard]] const Spread* find_property(const Material& material, const MaterialProperty& property);
[[nodiscard]] const Spread* find_property(const Part& part, const PartProperty& property);
[[nodiscard]] const Spread* find_property(const Plant& plant, const PlantProperty& property);

}  // namespace houseleek::catalogue
