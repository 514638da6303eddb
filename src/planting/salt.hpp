// Salt: watering with salty water, and washing it out of what was found on a beach.
//
// Salt is told by the conductivity of water, dS/m; what cheap meters show as mS/cm is the same number.
#pragma once

namespace houseleek::planting {

/// Share of the water given that must run through so that salt does not gather above what plants bear.
/// Equation: LR = EC_w / (5 EC_e - EC_w)
/// Symbols:  EC_w: water_ds_per_m; EC_e: soil_ds_per_m, of the saturated extract
/// Shape:    scalars in, scalar out; pure.
/// Units:    dS/m in; fraction out.
/// Valid:    EC_w not negative; 5 EC_e > EC_w. At EC_w = 2.5 EC_e it is 1: no amount is enough from there on.
/// Errors:   ContractViolation outside.
/// Source:   [ayers1985] Eq. 9 as [allen1998] p. 180 prints it (text seen).   Checked by: SLT-01 to SLT-03.
[[nodiscard]] double leaching_requirement_frac(double water_ds_per_m, double soil_ds_per_m);

/// Water to give so that plants get what they use and the rest runs through.
/// Equation: ET / (1 - LR)
/// Shape:    scalars in, scalar out; pure.
/// Units:    those of the water used.
/// Valid:    0 <= LR < 1.
/// Errors:   ContractViolation outside.
/// Source:   [ayers1985] Eq. 7, not confirmed; seen as such in [ali2011].   Checked by: SLT-04, SLT-05.
[[nodiscard]] double water_with_leaching(double used, double leaching_frac);

/// Salt that gathers in the medium where this share runs through.
/// Equation: EC_e = EC_w (1 + LF) / (5 LF)
/// Shape:    scalars in, scalar out; pure.
/// Units:    dS/m, fraction in; dS/m out.
/// Valid:    0 < LF <= 1.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 93.   Checked by: SLT-06.
[[nodiscard]] double soil_salt_ds_per_m(double water_ds_per_m, double leaching_frac);

/// Yield over that without salt.
/// Equation: 1 - b (EC_e - a), within 0 and 1
/// Symbols:  a: threshold_ds_per_m; b: slope_frac_per_ds_per_m
/// Shape:    scalars in, scalar out; pure.
/// Units:    dS/m in; fraction out.
/// Valid:    all not negative.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] p. 175 (text seen); [maas1990].   Checked by: SLT-07, SLT-08.
[[nodiscard]] double salted_yield_frac(double soil_ds_per_m, double threshold_ds_per_m, double slope_frac_per_ds_per_m);

/// Soaking in a bucket, poured off, again and again.
/// Equation: C_n = C_w + (C_0 - C_w) (h / (h + v))^n
/// Symbols:  C_w: salt of the rinsing water; C_0: of the water the material holds; h: held_l_per_kg; v: litres a rinse
///           and kg
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    dS/m, l/kg.
/// Valid:    h and v above 0; C_0 > target > C_w; salt that is dissolved and evenly mixed each time.
/// Errors:   ContractViolation outside.
/// Source:   definition (dilution).   Checked by: SLT-20, SLT-21.
struct Rinse {
  double first_ds_per_m = 0.0;
  double target_ds_per_m = 0.0;
  double water_ds_per_m = 0.0;
  double held_l_per_kg = 0.0;  // by the drained material
};
[[nodiscard]] int bucket_rinses(const Rinse& rinse, double litres_per_kg_each);

/// Water that has to run through a heap or a bag.
/// Equation: V = h ln((C_0 - C_w) / (C - C_w)) / e
/// Symbols:  h: held_l_per_kg, the pore volume; e: efficiency_frac, share of the water that moves salt: 1 where all of it
///           mixes, less where it runs down cracks
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    dS/m, l/kg in; l/kg out.
/// Valid:    as bucket_rinses; 0 < e <= 1.
/// Errors:   ContractViolation outside.
/// Source:   mixing of pore water with a leaching efficiency, from memory: docs/equations/watering.md.
///           Checked by: SLT-22, SLT-23.
[[nodiscard]] double leaching_litres_per_kg(const Rinse& rinse, double efficiency_frac);

}  // namespace houseleek::planting
