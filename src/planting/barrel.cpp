// A barrel under a downpipe, day after day: what it gives, what runs over.
#include "planting/barrel.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::planting {

std::vector<BarrelDay> follow_barrel(std::span<const double> inflow_l, std::span<const double> demand_l, double size_l,
                                     double start_l) {
  expects(inflow_l.size() == demand_l.size(), "one inflow and one demand a day");
  expects(size_l >= 0.0 && start_l >= 0.0 && start_l <= size_l, "a barrel that holds what is in it");
  std::vector<BarrelDay> days;
  days.reserve(inflow_l.size());
  double held_l = start_l;
  for (std::size_t i = 0; i < inflow_l.size(); ++i) {
    expects(inflow_l[i] >= 0.0 && demand_l[i] >= 0.0, "no negative inflow or demand");
    BarrelDay day;
    day.taken_l = std::min(demand_l[i], held_l);
    const double without_spill_l = held_l + inflow_l[i] - day.taken_l;
    day.held_l = std::min(without_spill_l, size_l - day.taken_l);
    day.spilled_l = without_spill_l - day.held_l;
    held_l = day.held_l;
    days.push_back(day);
  }
  return days;
}

double covered_share_frac(std::span<const double> inflow_l, std::span<const double> demand_l, double size_l) {
  double wanted_l = 0.0;
  for (const double one_l : demand_l) wanted_l += one_l;
  if (wanted_l == 0.0) return 1.0;
  const std::vector<BarrelDay> first = follow_barrel(inflow_l, demand_l, size_l, 0.0);
  double taken_l = 0.0;
  for (const BarrelDay& day : follow_barrel(inflow_l, demand_l, size_l, first.back().held_l)) taken_l += day.taken_l;
  return std::min(1.0, taken_l / wanted_l);
}

}  // namespace houseleek::planting
