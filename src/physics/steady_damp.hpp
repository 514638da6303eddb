// The steady, monthly method for vapour in a build-up: condensation between layers, and mould on an inner face.
#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace houseleek::physics {

/// Humidity at a face from which mould is feared.
inline constexpr double critical_surface_humidity = 0.8;  // [iso13788] (from memory)
/// Between a room's air and a corner's face, with furniture and still air: for mould, not for heat.
inline constexpr double mould_surface_resistance_m2_k_per_w = 0.25;  // [iso13788] (from memory)
/// The method's own permeability of still air.
inline constexpr double steady_air_permeability_kg_per_m_s_pa = 2e-10;  // [iso13788] (from memory)

/// One layer between two interfaces, films among them.
struct SteadyLayer {
  double heat_resistance_m2_k_per_w = 0.0;
  double vapour_resistance_m2_s_pa_per_kg = 0.0;
};

/// Both sides of a build-up, means of a month.
struct SteadySides {
  double top_c = 0.0;
  double top_pa = 0.0;
  double bottom_c = 0.0;
  double bottom_pa = 0.0;
};

/// Water that gathers at each interface by the second; interface i lies above layer i, the last below all layers.
/// Equation: vapour pressure is the lower convex hull, over the vapour resistance from the top, of the two sides and of
///           the saturation pressures at the interfaces; an interface that is wet already stays at its saturation
///           pressure. Rate at an interface: flux that comes in less flux that leaves.
/// Symbols:  saturation pressure at the temperature that the heat resistances give
/// Shape:    layers from the top; `is_wet` one value an interface or empty; out one value an interface; pure.
/// Units:    SI; kg/(m2 s), negative where it dries.
/// Valid:    at least one layer, resistances 0 or more, the sum of each above 0; temperatures -60 to 100 degC.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [iso13788] clause 6 (from memory).   Checked by: DAMP-30, DAMP-31, DAMP-32
[[nodiscard]] std::vector<double> steady_condensation_kg_per_m2_s(std::span<const SteadyLayer> layers,
                                                                  const SteadySides& sides,
                                                                  const std::vector<bool>& is_wet);

/// A year by the steady method.
struct SteadyYear {
  bool has_condensation = false;
  std::size_t first_month = 0;                  // where the year was begun: the first month with condensation
  std::array<double, 12> gathered_kg_per_m2{};  // at each month's end, all interfaces, by calendar month
  double most_kg_per_m2 = 0.0;                  // at a month's end
  double left_kg_per_m2 = 0.0;                  // twelve months later
};

/// Twelve months one after the other, begun with the first that condenses.
/// Equation: as steady_condensation_kg_per_m2_s; within a month an interface that has dried is set free
/// Symbols:  -
/// Shape:    layers from the top, twelve months from January in seconds; out one year; pure.
/// Units:    SI; kg/m2.
/// Valid:    as above; every month longer than 0.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [iso13788] clause 6 (from memory).   Checked by: DAMP-33,
///           DampDeck.OnlyAWetWinterIsDriedByASummerInTheSteadyMethod
[[nodiscard]] SteadyYear steady_damp_year(std::span<const SteadyLayer> layers,
                                          const std::array<SteadySides, 12>& months,
                                          const std::array<double, 12>& month_s);

/// What people and their water add to a room's vapour pressure over that of the air outside.
/// Equation: e at 0 degC outside and below, 0 at 20 degC and above, straight between
/// Symbols:  e = excess_at_zero_pa
/// Shape:    scalars; pure.
/// Units:    Pa, degC.
/// Valid:    excess 0 or more.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [iso13788] annex A (from memory).   Checked by: DAMP-34
[[nodiscard]] double room_vapour_excess_pa(double excess_at_zero_pa, double outside_c);

/// How warm an inner face must be, as a share of the way from outside to inside, so that mould is not to be feared.
/// Equation: f = (t_s - t_e) / (t_i - t_e), p_sat(t_s) = p_i / 0.8
/// Symbols:  t_e: outside; t_i: room; p_i: vapour pressure in the room; t_s: least temperature of the face
/// Shape:    scalars; pure.
/// Units:    degC, Pa; a share: above 1 even the room's own temperature is too low.
/// Valid:    room warmer than outside, vapour pressure above 0.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [iso13788] clause 5 (from memory).   Checked by: DAMP-35
[[nodiscard]] double needed_temperature_factor(double outside_c, double room_c, double room_vapour_pa);

}  // namespace houseleek::physics
