// What a plant is to the heat and water of a stack, and what a mix of plants adds up to.
#pragma once
#include <string>
#include <vector>

#include "catalogue/spread.hpp"

namespace houseleek::catalogue {

/// Figures of a canopy over the ground that it covers.
struct Foliage {
  Spread height_mm;
  Spread root_depth_mm;
  Spread cover_frac;       // of the module, established
  Spread leaf_area_index;  // over the covered part
  Spread leaf_albedo;      // of the canopy
  Spread longwave_emissivity;
  Spread leaf_water_kg_per_m2;  // over the covered part; gives the heat capacity of the foliage
  Spread fresh_mass_kg_per_m2;  // over the covered part; for weights
  Spread least_stomatal_resistance_s_per_m;
  bool operator==(const Foliage&) const = default;
};

/// Plants that are alike to the heat and water balance.
struct PlantGroup {
  std::string name;  // succulent, grass, herb, shrub
  Foliage foliage;
  bool operator==(const PlantGroup&) const = default;
};

struct Plant {
  std::string name;  // botanical
  std::string common_name;
  std::string group;
  double least_depth_mm = 0.0;  // of medium; 0: not known
  Foliage foliage;              // the group's, with the plant's own figures over it
  bool operator==(const Plant&) const = default;
};

}  // namespace houseleek::catalogue
