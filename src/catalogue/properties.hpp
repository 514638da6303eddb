// Every figure of a material and of a foliage: its key, unit, limits and words; one list for reading, checking, showing.
#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "base/toml_fields.hpp"
#include "catalogue/material.hpp"
#include "catalogue/plant.hpp"

namespace houseleek::catalogue {

/// Either `required` or `optional` points to the figure.
struct MaterialProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Material::*required = nullptr;
  std::optional<Spread> Material::*optional = nullptr;
};

struct FoliageProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Foliage::*figure = nullptr;
};

[[nodiscard]] std::span<const MaterialProperty> material_properties();
[[nodiscard]] std::span<const FoliageProperty> foliage_properties();

/// The figure, or nullptr if the material has none.
[[nodiscard]] const Spread* find_property(const Material& material, const MaterialProperty& property);

}  // namespace houseleek::catalogue
