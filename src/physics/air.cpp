// Moist air: the parts that are not called inside the engine's inner loop.
#include "physics/air.hpp"

namespace houseleek::physics {
namespace {

void expects_moist_air(const MoistAir& air) {
  expects(air.temperature_c >= lowest_air_temperature_c && air.temperature_c <= highest_air_temperature_c,
          "an air temperature from -60 to 100 degC");
  expects(air.pressure_pa > 0.0 && air.vapour_pressure_pa >= 0.0 && air.vapour_pressure_pa < air.pressure_pa,
          "a vapour pressure from zero up to the pressure of the air");
}

double saturation_humidity_ratio_kg_per_kg(double temperature_c, double pressure_pa) {
  const double saturation_pa = saturation_vapour_pressure_pa(temperature_c);
  return molar_mass_ratio_vapour_to_air * saturation_pa / (pressure_pa - saturation_pa);
}

// Humidity ratio of air at `temperature_c` whose wet bulb is `wet_c`; grows with `wet_c`.
double humidity_ratio_of_wet_bulb_kg_per_kg(double temperature_c, double wet_c, double pressure_pa) {
  const double saturated = saturation_humidity_ratio_kg_per_kg(wet_c, pressure_pa);
  return ((2501.0 - 2.326 * wet_c) * saturated - 1.006 * (temperature_c - wet_c)) /
         (2501.0 + 1.86 * temperature_c - 4.186 * wet_c);
}

}  // namespace

double pressure_at_elevation_pa(double elevation_m) {
  expects(elevation_m >= -500.0 && elevation_m <= 9000.0, "an elevation from -500 to 9000 m");
  return 101300.0 * numerics::pow((293.0 - 0.0065 * elevation_m) / 293.0, 5.26);
}

double psychrometric_constant_pa_per_k(double pressure_pa) {
  expects(pressure_pa >= 30.0e3 && pressure_pa <= 110.0e3, "a pressure from 30 to 110 kPa");
  return 0.665e-3 * pressure_pa;
}

double vapour_pressure_pa(double temperature_c, double relative_humidity_frac) {
  expects(relative_humidity_frac >= 0.0 && relative_humidity_frac <= 1.0, "a relative humidity from 0 to 1");
  return relative_humidity_frac * saturation_vapour_pressure_pa(temperature_c);
}

double humidity_ratio_kg_per_kg(const MoistAir& air) {
  expects_moist_air(air);
  return molar_mass_ratio_vapour_to_air * air.vapour_pressure_pa / (air.pressure_pa - air.vapour_pressure_pa);
}

double vapour_pressure_from_humidity_ratio_pa(double ratio_kg_per_kg, double pressure_pa) {
  expects(ratio_kg_per_kg >= 0.0 && pressure_pa > 0.0, "a humidity ratio of zero or more and a positive pressure");
  return pressure_pa * ratio_kg_per_kg / (molar_mass_ratio_vapour_to_air + ratio_kg_per_kg);
}

double air_density_kg_per_m3(const MoistAir& air) {
  expects_moist_air(air);
  const double temperature_k = air.temperature_c + zero_celsius_k;
  return (air.pressure_pa - air.vapour_pressure_pa) / (gas_constant_dry_air_j_per_kg_k * temperature_k) +
         air.vapour_pressure_pa / (gas_constant_vapour_j_per_kg_k * temperature_k);
}

double moist_air_enthalpy_j_per_kg(const MoistAir& air) {
  return 1006.0 * air.temperature_c + humidity_ratio_kg_per_kg(air) * (2501.0e3 + 1860.0 * air.temperature_c);
}

double moist_air_volume_m3_per_kg(const MoistAir& air) {
  expects_moist_air(air);
  return gas_constant_dry_air_j_per_kg_k * (air.temperature_c + zero_celsius_k) /
         (air.pressure_pa - air.vapour_pressure_pa);
}

double dew_point_c(double vapour_pressure_pa) {
  expects(vapour_pressure_pa > 0.0, "a positive vapour pressure");
  const double y = numerics::log(vapour_pressure_pa / 610.8);
  const double dew_c = 237.3 * y / (17.27 - y);
  expects(y < 17.27 && dew_c >= lowest_air_temperature_c && dew_c <= highest_air_temperature_c,
          "a vapour pressure with a dew point from -60 to 100 degC");
  return dew_c;
}

double wet_bulb_c(const MoistAir& air) {
  expects_moist_air(air);
  expects(air.temperature_c <= 60.0 && air.pressure_pa >= 30.0e3 && air.pressure_pa <= 110.0e3,
          "air up to 60 degC and a pressure from 30 to 110 kPa");
  const double saturation_pa = saturation_vapour_pressure_pa(air.temperature_c);
  expects(air.vapour_pressure_pa <= saturation_pa * (1.0 + 1e-9), "air that is not more than saturated");
  if (air.vapour_pressure_pa >= saturation_pa) return air.temperature_c;
  const double wanted = humidity_ratio_kg_per_kg(air);
  double high_c = air.temperature_c;
  double low_c = lowest_air_temperature_c;
  expects(humidity_ratio_of_wet_bulb_kg_per_kg(air.temperature_c, low_c, air.pressure_pa) <= wanted,
          "air whose wet bulb is above -60 degC");
  while (high_c - low_c > 1e-9) {
    const double middle_c = 0.5 * (low_c + high_c);
    if (humidity_ratio_of_wet_bulb_kg_per_kg(air.temperature_c, middle_c, air.pressure_pa) < wanted) {
      low_c = middle_c;
    } else {
      high_c = middle_c;
    }
  }
  return 0.5 * (low_c + high_c);
}

double vapour_pressure_from_psychrometer_pa(const PsychrometerReading& reading) {
  expects(reading.wet_bulb_c <= reading.dry_bulb_c, "a wet bulb not warmer than the dry one");
  expects(reading.psychrometer_per_k >= 0.0006 && reading.psychrometer_per_k <= 0.0013 && reading.pressure_pa > 0.0,
          "a psychrometer coefficient from 0.0006 to 0.0013 per K and a positive pressure");
  const double vapour_pa = saturation_vapour_pressure_pa(reading.wet_bulb_c) -
                           reading.psychrometer_per_k * reading.pressure_pa * (reading.dry_bulb_c - reading.wet_bulb_c);
  expects(vapour_pa >= 0.0, "a pair of readings that leaves a vapour pressure of zero or more");
  return vapour_pa;
}

}  // namespace houseleek::physics
