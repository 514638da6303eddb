// What a project's logbook measured, in place of what its design would assume: weights of modules and lives of parts.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "logbook/event.hpp"

namespace houseleek::studies {

/// A figure with the place in a description where it would stand.
struct OwnFigure {
  std::string path;  // recipe[0].weighed.soaked_kg_per_m2; material[jute fabric].service_life_in_sun_years
  catalogue::Spread value;
  std::string statement;  // in a sentence
};

struct OwnFigures {
  std::vector<OwnFigure> figures;
  std::vector<std::string> left_out;  // what was weighed and cannot be used, and why
};

/// Weighings of modules whose recipe and state are said, and lives of parts of which five or more have failed.
/// Equation: a weight per m2 is the mean of N modules over the recipe's area; from three on its range is that of nine in
///           ten modules, mean -+ t s sqrt(1 + 1/N); with fewer the range is that of the estimate, scaled
/// Units:    kg/m2, without spacers; years.
/// Source:   prediction interval of a normal sample, definition.
[[nodiscard]] OwnFigures find_own_figures(const std::vector<logbook::EventRecord>& records,
                                          const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                                          std::int64_t now_utc_s);

/// The description as if its owner had written these figures into it.
[[nodiscard]] design::RawDesign with_own_figures(const design::RawDesign& description, const design::Design& read,
                                                 const std::vector<OwnFigure>& figures);

}  // namespace houseleek::studies
