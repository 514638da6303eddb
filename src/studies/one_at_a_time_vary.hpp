// A description with other figures at some places, read again through the one door.
#pragma once
#include <span>
#include <string>
#include <string_view>

#include "design/parse.hpp"

namespace houseleek::studies {

/// A figure at the path that an assumption has: room[0].infiltration_per_h, material[crushed brick].density_kg_per_m3.
struct PlacedFigure {
  std::string path;
  double value = 0.0;
};

/// As if the owner had written these figures into the file: a field is added or replaced, a missing table or an entry
/// [[material]] is made, a finish by name becomes a finish by figures, and of the class of a room's mass the one with
/// this heat is written.
/// Shape:    `read` is the design that the description gives as it stands.
/// Errors:   the issues of reading; a contract violation where a path leads nowhere, or where a figure was written and
///           not read.
[[nodiscard]] Result<design::ValidDesign> read_varied(const design::RawDesign& description,
                                                      const design::ValidDesign& read,
                                                      const catalogue::Catalogue& catalogue,
                                                      std::span<const PlacedFigure> figures);

}  // namespace houseleek::studies
