// Carbon dioxide: what making the modules gave off, what renewals add, what energy really bought before no longer does.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "money/cash_flow.hpp"

namespace houseleek::money {

struct CarbonLook {
  double made_kg = 0.0;              // of what is laid
  double renewed_kg_per_year = 0.0;  // mean over the years counted
  double saved_kg_per_year = 0.0;    // below zero where more energy is bought
  double left_kg = 0.0;              // saved over the years counted, less made and renewed: the sign
  std::optional<double> years;       // until what was made is saved; none within the years counted
};

/// Of one alternative, in one look.
/// Equation: made: sum of dry mass times what making a kg gives off; renewed: times expected renewals; saved: kWh a year
///           no longer bought times what a kWh gives off
/// Valid:    parts whose mass or carbon is not known count as nothing: see not_counted_in_carbon. What plants and
///           compost hold, freight, water and burning at the end are not counted.
/// Source:   definition; figures of the catalogue.   Checked by: tests/money/carbon_test.cpp.
[[nodiscard]] CarbonLook carbon_of(const Alternative& alternative, const YearOfUse& use, const Terms& terms,
                                   const FigureOf& figure, RenewalTable& renewals);

/// Parts without a known mass or carbon, each once, sorted.
[[nodiscard]] std::vector<std::string> not_counted_in_carbon(const Alternative& alternative);

}  // namespace houseleek::money
