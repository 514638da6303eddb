// What a medium loses with the years, and what ties up its nitrogen.
#pragma once
#include <optional>
#include <string_view>

#include "catalogue/spread.hpp"
#include "results/interval.hpp"

namespace houseleek::planting {

/// Depth of a layer that settles and rots.
/// Equation: d (t) = d_0 u (1 - s)^t
/// Symbols:  d_0: bought_mm; u: in_use_frac, after the first season; s: loss_per_year_frac; t: age_years
/// Shape:    struct and scalar in, interval out; pure. The low end has the low u with the high s.
/// Units:    mm, years.
/// Valid:    d_0 above 0; t not negative.
/// Errors:   ContractViolation outside.
/// Source:   the catalogue's figures, our own estimates; "compost halves in a few years" is common practice, no source.
///           Checked by: FED-01, FED-02.
struct SettlingLayer {
  double bought_mm = 0.0;
  catalogue::Spread in_use_frac;
  catalogue::Spread loss_per_year_frac;
};
[[nodiscard]] results::Interval settled_depth_mm(const SettlingLayer& layer, double age_years);

/// A material rich in carbon and poor in nitrogen: while it rots, it takes nitrogen from the plants.
struct CarbonRich {
  std::string_view material;              // as the catalogue calls it
  results::Interval carbon_per_nitrogen;  // of the material, by mass
  results::Interval rots_in_first_year_frac;
};

/// The material's entry; nullptr where none is known to tie up nitrogen.
[[nodiscard]] const CarbonRich* find_carbon_rich(std::string_view material);

/// Nitrogen that is tied up in the first year.
/// Equation: N = 1000 C r (e/M - 1/R), not below 0
/// Symbols:  C: carbon in dry matter, 0.45 to 0.5; r: share that rots; e: share of its carbon that becomes microbes, 0.3
///           to 0.5; M: carbon over nitrogen of microbes, 8 to 12; R: of the material
/// Shape:    struct in, interval out; pure. Ends: all at once.
/// Units:    g of nitrogen a kg of dry material.
/// Valid:    where it is mixed in; as a mulch on top about a tenth of it (common practice, no source).
/// Source:   textbook balance of soil nitrogen, from memory, not confirmed.   Checked by: FED-03.
[[nodiscard]] results::Interval nitrogen_tied_g_per_kg(const CarbonRich& material);

}  // namespace houseleek::planting
