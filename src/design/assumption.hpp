// What the program assumed because the person did not say: listed in every answer.
#pragma once
#include <string>

#include "catalogue/spread.hpp"

namespace houseleek::design {

enum class AssumedFrom {
  default_value,  // a field of the design that was left out
  catalogue,      // a property of a material or plant, as the catalogue has it
  measured        // the design's own figure with its range, from readings on this roof
};

struct Assumption {
  std::string path;  // room[0].infiltration_per_h; material[crushed brick].density_kg_per_m3
  std::string name;  // in words
  std::string unit;  // "" for a pure number
  double low = 0.0;
  double likely = 0.0;  // the figure in use
  double high = 0.0;
  std::string source;
  catalogue::Certainty certainty = catalogue::Certainty::estimate;
  AssumedFrom from = AssumedFrom::default_value;
  bool operator==(const Assumption&) const = default;
};

}  // namespace houseleek::design
