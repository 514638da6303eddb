// Carbon dioxide: what making the modules gave off, what renewals add, what energy really bought before no longer does.
#include "money/carbon.hpp"

#include <algorithm>

#include "money/interest.hpp"

namespace houseleek::money {
namespace {

double carbon_kg(const CostPart& part, double n_units, const FigureOf& figure) {
  if (!part.carbon_kg_per_kg) return 0.0;
  double kg = n_units * part.mass_amount * figure(*part.carbon_kg_per_kg);
  for (const Factor& factor : part.mass_factors) kg *= figure(factor);
  return kg;
}

}  // namespace

CarbonLook carbon_of(const Alternative& alternative, const YearOfUse& use, const Terms& terms, const FigureOf& figure,
                     RenewalTable& renewals) {
  const auto n_years = static_cast<std::size_t>(terms.years_counted);
  const std::size_t n_months = 12 * n_years;
  std::vector<double> flow(n_years + 1, 0.0);  // kg by year, a plus for what is saved
  CarbonLook look;
  double renewed_kg = 0.0;
  double area_m2 = 0.0;
  for (const Lot& lot : alternative.lots) area_m2 += lot.area_m2;
  const YearlySaving saving = saving_of_year(use, terms, figure);
  look.saved_kg_per_year =
      saving.cooling_kwh * figure(terms.electricity_kg_per_kwh) + saving.heating_kwh * figure(terms.heating_kg_per_kwh);
  for (const Lot& lot : alternative.lots) {
    const auto laid = static_cast<std::size_t>(lot.month);
    if (laid > n_months) continue;
    for (const CostPart& part : lot.per_unit.parts) {
      const double kg = carbon_kg(part, lot.n_units, figure);
      look.made_kg += kg;
      flow[(laid + 11) / 12] -= kg;
      if (!part.life_years || kg == 0.0) continue;
      const std::span<const double> expected = renewals.of_new(*part.life_years);
      for (std::size_t month = laid + 1; month <= n_months; ++month) {
        const double again = kg * expected[month - laid - 1];
        renewed_kg += again;
        flow[(month + 11) / 12] -= again;
      }
    }
    const double share = area_m2 > 0.0 ? lot.area_m2 / area_m2 : 0.0;
    for (std::size_t month = laid + 1; month <= n_months; ++month) {
      flow[(month + 11) / 12] += share * look.saved_kg_per_year / 12.0;
    }
  }
  look.renewed_kg_per_year = renewed_kg / terms.years_counted;
  for (const double kg : flow) look.left_kg += kg;
  look.years = payback_periods(flow, 0.0);
  return look;
}

std::vector<std::string> not_counted_in_carbon(const Alternative& alternative) {
  std::vector<std::string> names;
  for (const Lot& lot : alternative.lots) {
    for (const CostPart& part : lot.per_unit.parts) {
      if (!part.carbon_kg_per_kg || part.mass_amount == 0.0) names.push_back(part.name);
    }
  }
  std::erase(names, "module labour");
  return once_each(names);
}

}  // namespace houseleek::money
