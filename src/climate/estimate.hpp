// Columns that neither normals nor a file may tell, worked out from those they do.
#pragma once
#include <vector>

#include "climate/year.hpp"

namespace houseleek::climate {

/// Wind at 10 m where nothing is known: 2 m/s at 2 m over grass, carried up.
/// Equation: u_10 = u_2 ln(67.8 z - 5.42) / 4.87
/// Symbols:  u_2 = 2 m/s, the mean of over 2000 stations; z = 10 m
/// Shape:    scalar out; pure.
/// Units:    m/s.
/// Valid:    open land; single places and months lie from half to twice this.
/// Errors:   none.
/// Source:   [allen1998] ch. 3, "missing wind data", and Eq. 47.   Checked by: CLI-EST-01.
[[nodiscard]] double usual_wind_m_per_s();

/// Global radiation from each day's range of temperature.
/// Equation: G = K I, K = k sqrt(Tmax - Tmin), at most 0.75 + 2e-5 z
/// Symbols:  I: outside the air on the level, mean of the hour; k: 0.16 per sqrt(K), GenerateOptions; Tmax, Tmin: of the
///           day's 25 marks; z: elevation in m
/// Shape:    year in, one value an hour out; pure. All hours of a day have its clearness.
/// Units:    W/m2.
/// Valid:    months within some 15 %, single days from half to twice; coasts need 0.19.
/// Errors:   ContractViolation if columns differ in length.
/// Source:   [allen1998] Eq. 50 and Eq. 37.   Checked by: Estimate.GlobalByTheRangeOfTemperature.
[[nodiscard]] std::vector<double> estimate_global_w_per_m2(const WeatherYear& year);

/// Diffuse part of the global column.
/// Equation: D = G f(k), k = G / (normal irradiance outside the air * mean sine of elevation); D = G where the mean
///           sine is below least_shaping_sine
/// Symbols:  f: the fit of Erbs, Klein and Duffie
/// Shape:    year in, one value an hour out; pure.
/// Units:    W/m2.
/// Valid:    as the fit; above k = 0.8 it is constant.
/// Errors:   ContractViolation if columns differ in length.
/// Source:   [erbs1982].   Checked by: Estimate.DiffuseByTheFit.
[[nodiscard]] std::vector<double> estimate_diffuse_w_per_m2(const WeatherYear& year);

/// Long-wave radiation of the sky at marks, from temperature, vapour and how bright the days are.
/// Equation: L = (c + (1 - c) e0) sigma T^4; e0 = 1.24 (e / T)^(1/7); c = 1 - G / Gc, held between 0 and 1;
///           Gc = 1098 W/m2 s exp(-0.059 / s) (I0 / 1361 W/m2) (1 + 2e-5 z / 0.75)
/// Symbols:  e: vapour pressure in hPa; T: air in K; s: mean sine of elevation; I0: normal irradiance outside the air;
///           z: elevation in m. With s >= 0.17 (10 degrees) c is the hour's own; lower, c is that of the sums of G and
///           Gc over the half day before or behind solar noon; at night it runs straight from dusk to dawn. c at a mark
///           is the mean of the two hours that meet there
/// Shape:    year in, one value a mark out; pure.
/// Units:    W/m2.
/// Valid:    clear part +-5 % for hourly values; cloud at night is a guess from the days around it. Half days with less
///           than 20 Wh/m2 under a clear sky say nothing; where all are so, c = 0.5.
/// Errors:   ContractViolation if columns differ in length.
/// Source:   [brutsaert1975] for e0, [crawford1999] for c (both from memory), [haurwitz1945] for Gc (seen in a public
///           listing), with the rise by elevation of [allen1998] Eq. 37.
///           Checked by: Estimate.SkyOfClearAndOvercastDays, Estimate.NightsAreAsCloudyAsTheDaysAround.
[[nodiscard]] std::vector<double> estimate_sky_longwave_w_per_m2(const WeatherYear& year);

}  // namespace houseleek::climate
