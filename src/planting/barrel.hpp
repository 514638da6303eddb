// A barrel under a downpipe, day after day: what it gives, what runs over.
#pragma once
#include <span>
#include <vector>

namespace houseleek::planting {

/// One day of a barrel.
struct BarrelDay {
  double taken_l = 0.0;
  double spilled_l = 0.0;
  double held_l = 0.0;  // at the day's end
  bool operator==(const BarrelDay&) const = default;
};

/// Follows a barrel by yield after spillage: the day's rain fills it before anything is taken, and only what was there
/// the evening before can be taken.
/// Equation: Y = min(D, V); V' = min(V + Q - Y, S - Y); spilled = V + Q - Y - V'
/// Symbols:  Q: inflow; D: demand; V: held before; S: size_l
/// Shape:    one inflow and one demand a day; a day out for each; pure.
/// Units:    l.
/// Valid:    no negative inflow, demand or size; 0 <= start_l <= size_l.
/// Errors:   ContractViolation outside.
/// Conserves: inflow + start = taken + spilled + held at the end.
/// Source:   [fewkes2000] after [jenkins1978]; the rule's equations seen in a public copy of a review of 2019.
///           Checked by: BRL-01 to BRL-11.
[[nodiscard]] std::vector<BarrelDay> follow_barrel(std::span<const double> inflow_l, std::span<const double> demand_l,
                                                   double size_l, double start_l);

/// Share of the demand that a barrel covers in a year that follows itself: run twice, the second time counts.
/// Shape:    as follow_barrel; 1 where nothing is wanted.
[[nodiscard]] double covered_share_frac(std::span<const double> inflow_l, std::span<const double> demand_l,
                                        double size_l);

}  // namespace houseleek::planting
