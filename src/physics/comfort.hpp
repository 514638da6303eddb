// How warm a room may be: adaptive limits, running mean, fans; and the simple hourly network of a room.
#pragma once
#include <optional>
#include <span>

namespace houseleek::physics {

enum class ComfortCategory { i, ii, iii };

inline constexpr double lowest_running_mean_c = 10.0;
inline constexpr double highest_running_mean_c = 30.0;

/// Operative temperatures that people accept who may open windows and dress as they like.
struct AdaptiveLimits {
  double comfort_c;
  double lower_c;
  double upper_c;
};

/// Adaptive limits of a day; none where the method does not reach.
/// Equation: c = 0.33 t + 18.8; I: c - 3 to c + 2; II: c - 4 to c + 3; III: c - 5 to c + 4
/// Symbols:  t = running_mean_c of the outside temperature
/// Shape:    scalar and enum in, struct or nothing out; pure.
/// Units:    degC.
/// Valid:    running mean 10 to 30 degC, no cooling by machine, sitting work; outside it there is no limit, and none is
///           made up.
/// Errors:   ContractViolation if not a number.
/// Source:   [en16798] annex B.2 (limits seen in a public set of test values).   Checked by: COMFORT-01, COMFORT-02.
[[nodiscard]] std::optional<AdaptiveLimits> adaptive_limits(double running_mean_c, ComfortCategory category);

/// Running mean of the outside temperature from yesterday's.
/// Equation: (1 - a) t + a r
/// Symbols:  t = yesterday_mean_c; r = yesterday_running_mean_c; a = memory_frac
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC.
/// Valid:    a from 0 to below 1; 0.8 is the standard's.
/// Errors:   ContractViolation outside the range.
/// Source:   [en16798] annex B.2 (from memory).   Checked by: COMFORT-10.
[[nodiscard]] double next_running_mean_c(double yesterday_running_mean_c, double yesterday_mean_c,
                                         double memory_frac = 0.8);

/// Running mean of the outside temperature from the last seven days.
/// Equation: (t1 + 0.8 t2 + 0.6 t3 + 0.5 t4 + 0.4 t5 + 0.3 t6 + 0.2 t7)/3.8
/// Symbols:  t1: daily mean of yesterday; t2: of the day before; and so on
/// Shape:    seven values, yesterday first; scalar out; pure.
/// Units:    degC.
/// Valid:    any outside temperatures.
/// Errors:   none.
/// Source:   [en16798] annex B.2 (from memory).   Checked by: COMFORT-11.
[[nodiscard]] double running_mean_of_week_c(std::span<const double, 7> daily_means_c);

/// By how much moved air raises the upper limit.
/// Equation: above 25 degC: 1.2 K from 0.6 m/s, 1.8 K from 0.9 m/s, 2.2 K from 1.2 m/s on; else 0
/// Symbols:  -
/// Shape:    scalars in, scalar out; pure.
/// Units:    m/s, degC in; K out.
/// Valid:    speed zero or more; people must be able to set it themselves. Between the listed speeds the lower one counts.
/// Errors:   ContractViolation outside the range.
/// Source:   [en16798] Table B.4 (from memory).   Checked by: COMFORT-20.
[[nodiscard]] double fan_allowance_k(double air_speed_m_per_s, double operative_c);

// ---- The room as five conductances and one capacity. ----

enum class RoomMass { very_light, light, medium, heavy, very_heavy };

/// How much of a room takes part in storing heat, to a square metre of floor.
struct RoomMassNumbers {
  double mass_area_per_floor_frac;  // Am/Af
  double capacity_j_per_m2_k;       // Cm/Af
};

/// How much of a room takes part in storing heat.
/// Equation: very light 2.5, 80 kJ; light 2.5, 110; medium 2.5, 165; heavy 3.0, 260; very heavy 3.5, 370
/// Symbols:  -
/// Shape:    enum in, struct out; pure.
/// Units:    m2/m2; J/(m2 K).
/// Valid:    every class.
/// Errors:   none.
/// Source:   [iso13790] Table 12 (light to very heavy seen in public listings, very light from memory).
///           Checked by: COMFORT-30.
[[nodiscard]] RoomMassNumbers room_mass_numbers(RoomMass mass);

/// What the network is made from.
struct RoomInput {
  double floor_area_m2;
  RoomMass mass;
  double ventilation_w_per_k;  // Hve
  double windows_w_per_k;      // Hw
  double opaque_w_per_k;       // Hop: walls; a roof that is computed on its own stays out of it
};

/// The conductances and the capacity of the network.
struct RoomNetwork {
  double ventilation_w_per_k;      // air to supply
  double windows_w_per_k;          // surfaces to outside
  double surface_to_air_w_per_k;   // His
  double mass_to_surface_w_per_k;  // Hms
  double mass_to_outside_w_per_k;  // Hem
  double capacity_j_per_k;         // Cm
  double mass_area_m2;             // Am
  double total_area_m2;            // At
};

/// The conductances and the capacity of a room.
/// Equation: Am, Cm by class; At = 4.5 Af; Hms = 9.1 Am; His = 3.45 At; Hem = 1/(1/Hop - 1/Hms)
/// Symbols:  Af: floor area; Hop: conductance of opaque walls
/// Shape:    struct in, struct out; pure.
/// Units:    see the fields.
/// Valid:    areas positive, ventilation positive, windows zero or more, 0 <= Hop < Hms (Hop of 0 gives Hem of 0).
/// Errors:   ContractViolation outside the range.
/// Source:   [iso13790] section 7.2.2 and 12.2.2 (constants seen in public listings).
///           Checked by: COMFORT-30, COMFORT-31.
[[nodiscard]] RoomNetwork room_network(const RoomInput& input);

/// What acts on a room in an hour.
struct RoomHour {
  double outside_c;
  double supply_c;
  double internal_gain_w;
  double solar_gain_w;
  double machine_w = 0.0;  // heat put into the air, below zero: taken out
};

/// How gains are shared among the three nodes.
struct RoomGains {
  double air_w;
  double surface_w;
  double mass_w;
};

/// How gains are shared among the three nodes.
/// Equation: air 0.5 i; mass (Am/At)(0.5 i + s); surface (1 - Am/At - Hw/(9.1 At))(0.5 i + s)
/// Symbols:  i: internal gain; s: solar gain
/// Shape:    structs in, struct out; pure.
/// Units:    W.
/// Valid:    finite gains.
/// Errors:   none.
/// Source:   [iso13790] Eq. C.1 to C.3 (seen in public listings).   Checked by: COMFORT-32.
[[nodiscard]] RoomGains room_gains(const RoomNetwork& network, const RoomHour& hour);

/// The room after an hour, and on its way there.
struct RoomState {
  double mass_end_c;  // start of the next hour
  double mass_c;      // mean of the hour
  double surface_c;
  double air_c;
  double operative_c;        // 0.3 air + 0.7 surface
  double total_mass_gain_w;  // all that flows to the mass node, outside temperatures counted in
};

/// A room's hour by the standard's own step.
/// Equation: H1 = 1/(1/Hve + 1/His); H2 = H1 + Hw; H3 = 1/(1/H2 + 1/Hms);
///           pm = p_m + Hem te + H3 (p_st + Hw te + H1 ((p_ia + p_hc)/Hve + ts))/H2;
///           t_end = (t (Cm/3600 - (H3 + Hem)/2) + pm)/(Cm/3600 + (H3 + Hem)/2); tm = (t + t_end)/2;
///           surface = (Hms tm + p_st + Hw te + H1 (ts + (p_ia + p_hc)/Hve))/(Hms + Hw + H1);
///           air = (His surface + Hve ts + p_ia + p_hc)/(His + Hve)
/// Symbols:  t = mass_start_c; te, ts: outside and supply; p: gains of air, surface, mass; p_hc: of the machine
/// Shape:    structs and scalar in, struct out; pure.
/// Units:    see the fields.
/// Valid:    a network of room_network.
/// Errors:   none.
/// Source:   [iso13790] Eq. C.4 to C.11 (from memory, checked against a node-by-node solution).   Checked by: COMFORT-32,
///           COMFORT-33.
/// Order:    2 in time (trapezoidal), stable; an hour's step overshoots where a room forgets within half an hour.
[[nodiscard]] RoomState room_hour(const RoomNetwork& network, const RoomHour& hour, double mass_start_c);

/// Where a room goes and how fast, if the hour lasted for ever.
struct RoomLimit {
  double mass_c;
  double surface_c;
  double air_c;
  double time_constant_h;
};

/// Where a room goes and how fast, if the hour lasted for ever.
/// Equation: t_inf = pm/(H3 + Hem); tau = Cm/(H3 + Hem); surface and air as room_hour with tm = t_inf
/// Symbols:  as room_hour; after a time s the mass is at t_inf + (t - t_inf) exp(-s/tau)
/// Shape:    structs in, struct out; pure.
/// Units:    see the fields.
/// Valid:    a network of room_network.
/// Errors:   none.
/// Source:   [iso13790] annex C, solved for its steady state.   Checked by: COMFORT-34.
[[nodiscard]] RoomLimit room_limit(const RoomNetwork& network, const RoomHour& hour);

}  // namespace houseleek::physics
