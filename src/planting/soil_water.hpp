// Water in the medium of a bag, pot or tub by days: the FAO-56 method with two coefficients, each of its steps on its
// own.
//
// Units follow the source (mm and days) so that every step can be laid beside its page.
#pragma once

namespace houseleek::planting {

/// What coefficients are adjusted by.
struct StandClimate {
  double wind_2m_m_per_s = 2.0;
  double least_humidity_percent = 45.0;  // mean daily minimum
  double height_m = 0.3;                 // of the plants
};

/// What drier and windier air than that of the tables adds to a coefficient.
/// Equation: (0.04 (u - 2) - 0.004 (RH - 45)) (h/3)^0.3
/// Symbols:  u: wind_2m_m_per_s; RH: least_humidity_percent; h: height_m
/// Shape:    struct in, scalar out; pure.
/// Units:    m/s, percent, m in; none out.
/// Valid:    u 0 to 30 m/s, RH 0 to 100 %, h above 0 to 30 m (the source: 1 to 6 m/s, 20 to 80 %, 0.1 to 10 m).
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 70 and 72.   Checked by: SOW-01, SOW-02.
[[nodiscard]] double dry_air_addition(const StandClimate& climate);

/// Basal coefficient of plants that cover the ground wholly.
/// Equation: K = min(1.0 + 0.1 h, 1.2) + dry_air_addition
/// Symbols:  h: height_m
/// Shape:    struct in, scalar out; pure.
/// Units:    none.
/// Valid:    as dry_air_addition.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 100, 101.   Checked by: SOW-20, SOW-21.
[[nodiscard]] double full_cover_coefficient(const StandClimate& climate);

/// Least coefficient of dry bare ground: [allen1998] Eq. 97, 0.15 to 0.20.
inline constexpr double least_coefficient = 0.15;

/// Basal coefficient of plants by their leaves.
/// Equation: K = K_least + (K_full - K_least) (1 - exp(-0.7 L))
/// Symbols:  L: leaf_area_index over all of the ground; K_least = 0.15
/// Shape:    scalars in, scalar out; pure.
/// Units:    none.
/// Valid:    L 0 to 20; K_full at least K_least.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 97.   Checked by: SOW-22.
[[nodiscard]] double basal_coefficient_by_leaves(double leaf_area_index, double full_coefficient);

/// What plants that keep their stomata more closed than grass take off a basal coefficient.
/// Equation: F = (D + g (1 + 0.34 u)) / (D + g (1 + 0.34 u r/100))
/// Symbols:  D: slope of the saturation pressure; g: psychrometric constant; u: wind at 2 m; r: resistance of a leaf
/// Shape:    struct in, scalar out; pure.
/// Units:    kPa/K, kPa/K, m/s, s/m in; none out.
/// Valid:    all above 0.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 102.   Checked by: SOW-23.
struct LeafClimate {
  double slope_kpa_per_k = 0.0;
  double psychrometric_kpa_per_k = 0.0;
  double wind_2m_m_per_s = 2.0;
  double leaf_resistance_s_per_m = 100.0;
};
[[nodiscard]] double stomatal_factor(const LeafClimate& climate);

/// The most that ground and plants together can give off just after rain.
/// Equation: max(1.2 + dry_air_addition, K_b + 0.05)
/// Symbols:  K_b: basal_coefficient
/// Shape:    scalars in, scalar out; pure.
/// Units:    none.
/// Valid:    as dry_air_addition.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 72.   Checked by: SOW-04, SOW-30.
[[nodiscard]] double most_coefficient(double basal_coefficient, const StandClimate& climate);

/// Share of the ground that leaves cover, from the basal coefficient.
/// Equation: ((K_b - K_least) / (K_most - K_least))^(1 + 0.5 h), K_b - K_least at least 0.01, the whole at most 0.99
/// Symbols:  h: height_m
/// Shape:    scalars in, scalar out; pure.
/// Units:    none, m in.
/// Valid:    K_most above K_b and K_least.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 76.   Checked by: SOW-05.
[[nodiscard]] double covered_frac(double basal_coefficient, double most_coefficient, double height_m);

/// Share of its full rate at which drying ground still evaporates.
/// Equation: (T - D) / (T - R) for D > R, else 1
/// Symbols:  T: total_mm; R: ready_mm; D: depleted_mm
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm in; fraction out.
/// Valid:    0 <= R < T; 0 <= D <= T.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 74.   Checked by: SOW-12 to SOW-19.
struct TopSoil {
  double total_mm = 0.0;  // that can evaporate
  double ready_mm = 0.0;  // of it at the full rate
};
[[nodiscard]] double evaporation_reduction_frac(double depleted_mm, const TopSoil& top);

/// Water that can evaporate from the top of a medium.
/// Equation: 1000 (theta_field - 0.5 theta_wilting) Z
/// Symbols:  Z: depth_m, 0.10 to 0.15 m or all there is
/// Shape:    scalars in, scalar out; pure.
/// Units:    m in; mm out.
/// Valid:    0 <= theta_wilting < theta_field <= 1; Z above 0.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 73.   Checked by: SOW-31.
[[nodiscard]] double evaporable_mm(double field_capacity_frac, double wilting_frac, double depth_m);

/// Water that roots can reach.
/// Equation: 1000 (theta_field - theta_wilting) Z
/// Shape:    scalars in, scalar out; pure.
/// Units:    m in; mm out.
/// Valid:    as evaporable_mm.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 82.   Checked by: SOW-40 to SOW-42.
[[nodiscard]] double available_mm(double field_capacity_frac, double wilting_frac, double depth_m);

/// Share of it that plants take without slowing down, on a day of this evapotranspiration.
/// Equation: p = p_table + 0.04 (5 - ET), held in 0.1 to 0.8
/// Symbols:  ET: evapotranspiration_mm_per_d
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm/d in; fraction out.
/// Valid:    p_table 0 to 1; ET 0 to 30.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] p. 162, from memory.   Checked by: SOW-43.
[[nodiscard]] double easy_frac_on_day(double table_frac, double evapotranspiration_mm_per_d);

/// Share of their full transpiration that plants keep.
/// Equation: (T - D) / ((1 - p) T) for D > p T, else 1
/// Symbols:  T: total_mm; p: easy_frac; D: depleted_mm
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm in; fraction out.
/// Valid:    T above 0; 0 <= p < 1; 0 <= D <= T.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 84.   Checked by: SOW-50 to SOW-59.
[[nodiscard]] double stress_frac(double depleted_mm, double total_mm, double easy_frac);

/// A medium with plants on one day.
struct SoilDay {
  double reference_mm = 0.0;  // evapotranspiration of short grass
  double rain_mm = 0.0;
  double watering_mm = 0.0;        // over all of the ground
  double watered_frac = 1.0;       // of the ground that watering wets
  double basal_coefficient = 0.0;  // K_b
  double most_coefficient = 1.2;
  double covered_frac = 0.0;
  TopSoil top;
  double available_mm = 0.0;
  double easy_frac = 0.5;  // of the day
};

/// What is missing from field capacity.
struct SoilState {
  double top_depleted_mm = 0.0;   // where it is bare and was wetted
  double root_depleted_mm = 0.0;  // of the whole root zone
  double wetted_frac = 1.0;       // by the last rain or watering
};

struct SoilDayOut {
  SoilState end;
  double evapotranspiration_mm = 0.0;
  double drained_mm = 0.0;  // out of the root zone
};

/// One day: first rain and watering, then evaporation and transpiration.
/// Equation: D_e' = max(D_e - P - I/f_w, 0), D_r' = max(D_r - P - I, 0), drained = max(P + I - D_r, 0);
///           K_e = min(K_r (K_most - K_b), f K_most), f = min(1 - f_c, f_w); E = K_e ET_0;
///           ET = (K_s K_b + K_e) ET_0; D_e = D_e' + E/f, D_r = D_r' + ET; neither beyond its total: the last day of a
///           store gives only what is there
/// Symbols:  K_r, K_s: the functions above, after the day's water; f_w: 1 after more than 3 mm of rain without watering
/// Shape:    structs in, struct out; pure.
/// Units:    mm.
/// Valid:    all depths not negative; depletion within its totals.
/// Errors:   ContractViolation outside.
/// Conserves: water of the root zone: rise of depletion = evapotranspiration + drained - rain - watering.
/// Source:   [allen1998] Eq. 71, 75, 77, 80, 85; water before evapotranspiration, as its example 38 has it.
///           Checked by: SOW-06, SOW-07, SOW-10 to SOW-19, SOW-3D1 to SOW-3D10, SOW-3E1 to SOW-3E10, SOW-62 to SOW-69,
///           SOW-70, SOW-7D1 to SOW-7D9.
[[nodiscard]] SoilDayOut step_soil_day(const SoilState& start, const SoilDay& day);

}  // namespace houseleek::planting
