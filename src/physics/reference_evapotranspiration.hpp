// Water that short, well-watered grass would give off: the FAO-56 method, each of its steps on its own.
//
// Units follow the source (kPa, MJ per square metre and day or hour) so that every step can be laid beside its page.
#pragma once

namespace houseleek::physics {

inline constexpr double mm_per_mj_per_m2 = 0.408;            // [allen1998] Eq. 20: one over 2.45 MJ/kg
inline constexpr double reference_albedo_frac = 0.23;        // [allen1998] p. 43
inline constexpr double least_reference_wind_m_per_s = 0.5;  // [allen1998] p. 63

/// The sun of a day as the method takes it.
struct SolarDay {
  double inverse_distance;  // relative, squared: dr
  double declination_rad;
  double sunset_rad;                    // hour angle
  double day_length_h;                  // N
  double extraterrestrial_mj_per_m2_d;  // Ra
};

/// The sun of a day.
/// Equation: dr = 1 + 0.033 cos(2 pi J/365); d = 0.409 sin(2 pi J/365 - 1.39); ws = acos(-tan phi tan d), the product
///           held in -1 to 1; N = 24 ws/pi; Ra = (1440/pi) 0.0820 dr (ws sin phi sin d + cos phi cos d sin ws)
/// Symbols:  phi = latitude_rad; J = day_of_year, 1 on 1 January
/// Shape:    scalars in, struct out; pure.
/// Units:    radians in; see the fields.
/// Valid:    latitude -pi/2 to pi/2; day 1 to 366.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 21, 23 to 25, 34.   Checked by: ET-08, ET-09, ET-10, ET-11, ET-12.
[[nodiscard]] SolarDay solar_day(double latitude_rad, int day_of_year);

/// An hour, or a shorter or longer part of a day.
struct DayPart {
  double latitude_rad;
  double longitude_deg;       // east positive
  double zone_longitude_deg;  // middle of the time zone, east positive: 15 times the hours ahead of universal time
  int day_of_year;
  double middle_h;  // standard clock time
  double length_h = 1.0;
};

/// The sun of a part of a day as the method takes it.
struct SolarHour {
  double seasonal_correction_h;       // Sc
  double middle_rad;                  // hour angle w
  double start_rad;                   // w1, not before sunrise
  double end_rad;                     // w2, not after sunset
  double extraterrestrial_mj_per_m2;  // Ra, whole part
};

/// The sun of a part of a day.
/// Equation: b = 2 pi (J - 81)/364; Sc = 0.1645 sin 2b - 0.1255 cos b - 0.025 sin b;
///           w = (pi/12)(t + (L - Z)/15 + Sc - 12), brought into -pi to pi; w1, w2 = w -+ pi t1/24, held between
///           sunrise and sunset; Ra = (720/pi) 0.0820 dr ((w2 - w1) sin phi sin d + cos phi cos d (sin w2 - sin w1))
/// Symbols:  t = middle_h; t1 = length_h; L, Z: longitudes, east positive (the source counts them west positive)
/// Shape:    struct in, struct out; pure.
/// Units:    see the fields.
/// Valid:    middle 0 to 24 h; length above 0 to 3 h; as solar_day.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 28 to 33; that parts of an hour by night count as none is ours.
///           Checked by: ET-60, ET-61, ET-62, ET-63, ET-64.
[[nodiscard]] SolarHour solar_hour(const DayPart& part);

/// Share of extraterrestrial radiation that arrives, from sunshine.
/// Equation: Rs/Ra = a + b n/N
/// Symbols:  n/N = sunshine_frac; a = 0.25, b = 0.50 where nothing better is known
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 35.   Checked by: ET-13.
[[nodiscard]] double solar_frac_from_sunshine(double sunshine_frac, double a = 0.25, double b = 0.50);

/// Share of extraterrestrial radiation that arrives, from the day's range of temperature.
/// Equation: Rs/Ra = k sqrt(Tmax - Tmin), not above the share of a clear sky
/// Symbols:  k = 0.16 inland, 0.19 at the coast of a large land mass; not for islands
/// Shape:    scalars in, scalar out; pure.
/// Units:    K, 1/sqrt(K), fraction in; fraction out.
/// Valid:    range zero or more; k 0.1 to 0.25; clear share 0.5 to 0.9.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 50.   Checked by: ET-15, ET-16.
[[nodiscard]] double solar_frac_from_temperature_range(double range_k, double k_per_sqrt_k, double clear_frac);

/// Share of full clear-sky exchange that clouds leave to net long-wave.
/// Equation: 1.35 r - 0.35, r held at 1 at most
/// Symbols:  r = clear_share_frac: radiation over that of a clear sky
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    0 and more (the source: 0.3 to 1).
/// Errors:   ContractViolation if negative or not finite.
/// Source:   [allen1998] Eq. 39.   Checked by: ET-21.
[[nodiscard]] double longwave_cloud_frac(double clear_share_frac);

/// What net long-wave radiation depends on.
struct LongwaveDay {
  double max_c;
  double min_c;
  double vapour_kpa;
  double clear_share_frac;  // Rs/Rso
};

/// Net outgoing long-wave radiation of a day.
/// Equation: Rnl = 4.903e-9 (Tmax^4 + Tmin^4)/2 (0.34 - 0.14 sqrt(e)) (1.35 r - 0.35), T = t + 273.16
/// Symbols:  e: vapour pressure; r: radiation over that of a clear sky
/// Shape:    struct in, scalar out; pure.
/// Units:    degC, kPa in; MJ/(m2 d) out.
/// Valid:    -60 to 60 degC, max not below min; e 0 to 5.9 kPa (where the bracket ends); r as above.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 39.   Checked by: ET-20, ET-22.
[[nodiscard]] double net_longwave_mj_per_m2_d(const LongwaveDay& day);

/// Net outgoing long-wave radiation of an hour.
/// Equation: Rnl = 4.903e-9/24 T^4 (0.34 - 0.14 sqrt(e)) (1.35 r - 0.35), T = t + 273.16
/// Symbols:  e = vapour_kpa; r = clear_share_frac; by night that of 2 to 3 h before sunset
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC, kPa in; MJ/(m2 h) out.
/// Valid:    as net_longwave_mj_per_m2_d.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 39 and p. 74.   Checked by: ET-65.
[[nodiscard]] double net_longwave_mj_per_m2_h(double temperature_c, double vapour_kpa, double clear_share_frac);

/// Heat that goes into the ground over a month, between known neighbours.
/// Equation: G = 0.07 (T_next - T_previous)
/// Symbols:  T: mean air temperature of the next and of the previous month
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC in; MJ/(m2 d) out.
/// Valid:    any air temperatures.
/// Errors:   none.
/// Source:   [allen1998] Eq. 43.   Checked by: ET-30.
[[nodiscard]] double month_soil_heat_mj_per_m2_d(double previous_c, double next_c);

/// Heat that goes into the ground over a month, where the next is not known.
/// Equation: G = 0.14 (T_this - T_previous)
/// Symbols:  T: mean air temperature of this and of the previous month
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC in; MJ/(m2 d) out.
/// Valid:    any air temperatures.
/// Errors:   none.
/// Source:   [allen1998] Eq. 44.   Checked by: ET-31.
[[nodiscard]] double month_soil_heat_from_past_mj_per_m2_d(double previous_c, double this_c);

/// Mean saturation vapour pressure of a day.
/// Equation: (e0(Tmax) + e0(Tmin))/2
/// Symbols:  e0: saturation vapour pressure
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC in; kPa out.
/// Valid:    -60 to 100 degC.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 12.   Checked by: ET-01, ET-02.
[[nodiscard]] double mean_saturation_kpa(double max_c, double min_c);

/// Temperatures and humidities of a day.
struct HumidityDay {
  double max_c;
  double min_c;
  double max_frac;  // relative humidity near dawn
  double min_frac;  // relative humidity in the afternoon
};

/// Vapour pressure of a day from both extremes of relative humidity.
/// Equation: (e0(Tmin) RHmax + e0(Tmax) RHmin)/2
/// Symbols:  e0: saturation vapour pressure
/// Shape:    struct in, scalar out; pure.
/// Units:    kPa out.
/// Valid:    -60 to 100 degC; 0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 17.   Checked by: ET-05, ET-07.
[[nodiscard]] double vapour_pressure_of_day_kpa(const HumidityDay& day);

/// Vapour pressure of a day from its mean relative humidity.
/// Equation: RHmean (e0(Tmax) + e0(Tmin))/2
/// Symbols:  e0: saturation vapour pressure; RHmean = mean_frac
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC, fraction in; kPa out.
/// Valid:    -60 to 100 degC; 0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 19.   Checked by: ET-06.
[[nodiscard]] double vapour_pressure_of_mean_humidity_kpa(double max_c, double min_c, double mean_frac);

/// What the combination equation takes.
struct PenmanMonteith {
  double temperature_c;            // mean
  double net_radiation_mj_per_m2;  // of the day or hour
  double soil_heat_mj_per_m2;      // of the day or hour
  double wind_at_2_m_m_per_s;
  double saturation_kpa;
  double vapour_kpa;
  double psychrometric_kpa_per_k;
};

/// The two numbers that tell reference surfaces and time steps apart.
struct ReferenceSurface {
  double wind_coefficient;    // Cn, K mm s^3/(Mg step)
  double resistance_s_per_m;  // Cd
};

inline constexpr ReferenceSurface fao_daily{900.0, 0.34};  // [allen1998] Eq. 6
inline constexpr ReferenceSurface fao_hourly{37.0, 0.34};  // [allen1998] Eq. 53
inline constexpr ReferenceSurface asce_daily_short{900.0, 0.34};
inline constexpr ReferenceSurface asce_daily_tall{1600.0, 0.38};

/// Reference evapotranspiration of a day or an hour.
/// Equation: (0.408 D (Rn - G) + g Cn/(T + 273) u2 (es - ea))/(D + g (1 + Cd u2))
/// Symbols:  D: slope of the saturation curve at T; g: psychrometric constant; Cn, Cd: of the surface
/// Shape:    structs in, scalar out; pure.
/// Units:    mm per day or hour out, as the radiation and Cn were.
/// Valid:    -60 to 60 degC; wind zero or more (the source: not below 0.5 m/s, see least_reference_wind_m_per_s).
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 6 and 53.   Checked by: ET-50, ET-51, ET-70, ET-71, ET-72, ET-73.
[[nodiscard]] double penman_monteith_mm(const PenmanMonteith& air, const ReferenceSurface& surface);

enum class AsceCover { short_grass, tall_alfalfa };

/// Hourly numbers of the standardized equation, by day or night.
struct AsceHour {
  ReferenceSurface surface;
  double soil_heat_frac;  // of net radiation
};

/// Hourly numbers of the standardized equation.
/// Equation: short: 37, 0.24, G = 0.1 Rn by day, 0.96, 0.5 Rn by night; tall: 66, 0.25, 0.04 Rn and 1.7, 0.2 Rn;
///           day: Rn > 0
/// Symbols:  Rn = net_radiation_mj_per_m2_h
/// Shape:    enum and scalar in, struct out; pure.
/// Units:    MJ/(m2 h) in; see the fields.
/// Valid:    any finite net radiation.
/// Errors:   ContractViolation if not finite.
/// Source:   [asce2005] Table 1 (short cover seen in a public listing; the rest from memory).
///           Checked by: ET-72, ET-73.
[[nodiscard]] AsceHour asce_hour(AsceCover cover, double net_radiation_mj_per_m2_h);

/// Share of net radiation that goes into the ground in an hour, below short grass.
/// Equation: 0.1 by day, 0.5 by night; day: Rn > 0
/// Symbols:  Rn = net_radiation_mj_per_m2_h
/// Shape:    scalar in, scalar out; pure.
/// Units:    MJ/(m2 h) in; fraction out.
/// Valid:    any finite net radiation.
/// Errors:   ContractViolation if not finite.
/// Source:   [allen1998] Eq. 45, 46.   Checked by: ET-66.
[[nodiscard]] double hour_soil_heat_frac(double net_radiation_mj_per_m2_h);

/// A day or month at a place, all that the whole method needs.
struct ReferenceDayInput {
  double latitude_rad;
  double elevation_m;
  int day_of_year;  // of a month: its 15th
  double max_c;
  double min_c;
  double vapour_kpa;
  double wind_at_2_m_m_per_s;
  double solar_mj_per_m2_d;
  double soil_heat_mj_per_m2_d = 0.0;  // of a day: none
};

/// Every step of the method for a day or month.
struct ReferenceDay {
  double slope_kpa_per_k;
  double psychrometric_kpa_per_k;
  double saturation_kpa;
  double extraterrestrial_mj_per_m2_d;
  double clear_sky_mj_per_m2_d;
  double net_shortwave_mj_per_m2_d;
  double net_longwave_mj_per_m2_d;
  double net_radiation_mj_per_m2_d;
  double evapotranspiration_mm_per_d;
};

/// Reference evapotranspiration of a day or month, with every step.
/// Equation: Rns = (1 - 0.23) Rs; Rn = Rns - Rnl; then penman_monteith_mm with fao_daily
/// Symbols:  Rs: solar radiation; Rnl: net long-wave
/// Shape:    struct in, struct out; pure.
/// Units:    see the fields.
/// Valid:    as the steps; not where the sun stays down all day.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] chapter 4.   Checked by: ET-50, ET-51.
[[nodiscard]] ReferenceDay reference_day(const ReferenceDayInput& input);

/// Reference evapotranspiration from temperatures alone.
/// Equation: 0.0023 (Tmean + 17.8) sqrt(Tmax - Tmin) 0.408 Ra
/// Symbols:  Ra = extraterrestrial_mj_per_m2_d; Tmean = (Tmax + Tmin)/2
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC, MJ/(m2 d) in; mm/d out.
/// Valid:    -17.8 to 60 degC mean, max not below min, Ra zero or more.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 52.   Checked by: ET-80.
[[nodiscard]] double hargreaves_mm_per_d(double max_c, double min_c, double extraterrestrial_mj_per_m2_d);

}  // namespace houseleek::physics
