// Salt: watering with salty water, and washing it out of what was found on a beach.
#include "planting/salt.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::planting {
namespace {

void expect_rinse(const Rinse& rinse) {
  expects(rinse.held_l_per_kg > 0.0, "a material that holds water");
  expects(rinse.water_ds_per_m >= 0.0 && rinse.first_ds_per_m > rinse.target_ds_per_m &&
              rinse.target_ds_per_m > rinse.water_ds_per_m,
          "a target between the rinsing water and what is there");
}

}  // namespace

double leaching_requirement_frac(double water_ds_per_m, double soil_ds_per_m) {
  expects(water_ds_per_m >= 0.0 && 5.0 * soil_ds_per_m > water_ds_per_m, "water that some amount can leach with");
  return water_ds_per_m / (5.0 * soil_ds_per_m - water_ds_per_m);
}

double water_with_leaching(double used, double leaching_frac) {
  expects(used >= 0.0 && leaching_frac >= 0.0 && leaching_frac < 1.0, "a share below one");
  return used / (1.0 - leaching_frac);
}

double soil_salt_ds_per_m(double water_ds_per_m, double leaching_frac) {
  expects(water_ds_per_m >= 0.0 && leaching_frac > 0.0 && leaching_frac <= 1.0, "a share that runs through");
  return water_ds_per_m * (1.0 + leaching_frac) / (5.0 * leaching_frac);
}

double salted_yield_frac(double soil_ds_per_m, double threshold_ds_per_m, double slope_frac_per_ds_per_m) {
  expects(soil_ds_per_m >= 0.0 && threshold_ds_per_m >= 0.0 && slope_frac_per_ds_per_m >= 0.0, "no negative salt");
  return std::clamp(1.0 - slope_frac_per_ds_per_m * (soil_ds_per_m - threshold_ds_per_m), 0.0, 1.0);
}

int bucket_rinses(const Rinse& rinse, double litres_per_kg_each) {
  expect_rinse(rinse);
  expects(litres_per_kg_each > 0.0, "some water in the bucket");
  double above = rinse.first_ds_per_m - rinse.water_ds_per_m;
  int n = 0;
  while (above > (rinse.target_ds_per_m - rinse.water_ds_per_m) * (1.0 + 1e-12)) {
    above *= rinse.held_l_per_kg / (rinse.held_l_per_kg + litres_per_kg_each);
    ++n;
  }
  return n;
}

double leaching_litres_per_kg(const Rinse& rinse, double efficiency_frac) {
  expect_rinse(rinse);
  expects(efficiency_frac > 0.0 && efficiency_frac <= 1.0, "an efficiency above 0, at most 1");
  return rinse.held_l_per_kg *
         std::log((rinse.first_ds_per_m - rinse.water_ds_per_m) / (rinse.target_ds_per_m - rinse.water_ds_per_m)) /
         efficiency_frac;
}

}  // namespace houseleek::planting
