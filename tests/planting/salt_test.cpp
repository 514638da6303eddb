// Salty water and rinsing against printed examples and sums by hand.
#include "planting/salt.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::planting {
namespace {

using tests::check_reference;

TEST(SaltyWater, SomeMustRunThrough) {
  check_reference({.id = "SLT-01",
                   .what = "leaching requirement of avocado under water of 0.6 dS/m",
                   .source = "[avocado2000] worked example (text seen)",
                   .expected = 0.43,
                   .got = leaching_requirement_frac(0.6, 0.4),
                   .tolerance = 0.0042,
                   .reason = "below half a unit of the last printed digit",
                   .function = "planting::leaching_requirement_frac"});
  check_reference({.id = "SLT-02",
                   .what = "leaching requirement of wheat under water of 1.5 dS/m",
                   .source = "[ali2011] Example 8.6 (text seen)",
                   .expected = 0.0526,
                   .got = leaching_requirement_frac(1.5, 6.0),
                   .tolerance = 0.00005,
                   .reason = "half a unit of the last printed digit",
                   .function = "planting::leaching_requirement_frac"});
  check_reference({.id = "SLT-03",
                   .what = "leaching requirement of maize, 10 % less yield, under water of 1.2 dS/m",
                   .source = "[ayers1985] example of a furrowed maize field, from memory, not confirmed",
                   .expected = 0.106,
                   .got = leaching_requirement_frac(1.2, 2.5),
                   .tolerance = 0.0005,
                   .reason = "half a unit of the last digit",
                   .function = "planting::leaching_requirement_frac"});
  check_reference({.id = "SLT-04",
                   .what = "water for wheat that uses 76 cm, cm",
                   .source = "[ali2011] Example 8.6 (text seen)",
                   .expected = 80.22,
                   .got = water_with_leaching(76.0, leaching_requirement_frac(1.5, 6.0)),
                   .tolerance = 0.005,
                   .reason = "half a unit of the last printed digit",
                   .function = "planting::water_with_leaching"});
  check_reference({.id = "SLT-05",
                   .what = "water for avocado that uses 40 inches, inches",
                   .source = "[avocado2000] worked example (text seen)",
                   .expected = 70.0,
                   .got = water_with_leaching(40.0, leaching_requirement_frac(0.6, 0.4)),
                   .tolerance = 0.5,
                   .reason = "half a unit of the last printed digit",
                   .function = "planting::water_with_leaching"});
  EXPECT_THROW((void)leaching_requirement_frac(5.0, 1.0), ContractViolation);
}

TEST(SaltyWater, SaltThatGathers) {
  check_reference({.id = "SLT-06",
                   .what = "salt in the medium over that of the water, 17 % running through",
                   .source = "[allen1998] p. 181: 1.5 where 15 to 20 % run through (text seen); Eq. 93 in the middle",
                   .expected = 1.376,
                   .got = soil_salt_ds_per_m(1.0, 0.17),
                   .tolerance = 0.0005,
                   .reason = "half a unit of the last digit worked out by hand: 1.17 / 0.85",
                   .function = "planting::soil_salt_ds_per_m"});
  EXPECT_NEAR(soil_salt_ds_per_m(1.0, 0.154), 1.5, 0.01);
  // The requirement is the share at which the salt is what the plants bear.
  EXPECT_NEAR(soil_salt_ds_per_m(1.2, leaching_requirement_frac(1.2, 2.5)), 2.5, 1e-12);
}

TEST(SaltyWater, YieldFallsBeyondTheThreshold) {
  check_reference({.id = "SLT-07",
                   .what = "yield of strawberries at 2 dS/m",
                   .source = "[maas1990] threshold 1, slope 33 % (text seen)",
                   .expected = 0.67,
                   .got = salted_yield_frac(2.0, 1.0, 0.33),
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "planting::salted_yield_frac"});
  check_reference({.id = "SLT-08",
                   .what = "yield of sweet corn at 3.8 dS/m",
                   .source = "[ayers1985] Table 4 as quoted by [maas1990]'s slope: 25 % less, text of a quotation seen",
                   .expected = 0.75,
                   .got = salted_yield_frac(3.8, 1.7, 0.12),
                   .tolerance = 0.005,
                   .reason = "half a unit of the last printed digit",
                   .function = "planting::salted_yield_frac"});
  EXPECT_EQ(salted_yield_frac(0.5, 1.0, 0.33), 1.0);
  EXPECT_EQ(salted_yield_frac(50.0, 1.0, 0.33), 0.0);
}

TEST(Rinsing, BucketsAndWaterRunThrough) {
  const Rinse rinse{8.0, 1.5, 0.5, 2.0};
  check_reference({.id = "SLT-20",
                   .what = "buckets of thrice what the material holds, 8 to 1.5 mS/cm",
                   .source = "definition (dilution): 7.5 becomes 1.875 and 0.469 above the water's",
                   .expected = 2.0,
                   .got = static_cast<double>(bucket_rinses(rinse, 6.0)),
                   .tolerance = 0.0,
                   .reason = "a count",
                   .function = "planting::bucket_rinses"});
  check_reference({.id = "SLT-21",
                   .what = "buckets of as much as the material holds",
                   .source = "definition (dilution): 7.5, 3.75, 1.875, 0.94",
                   .expected = 3.0,
                   .got = static_cast<double>(bucket_rinses(rinse, 2.0)),
                   .tolerance = 0.0,
                   .reason = "a count",
                   .function = "planting::bucket_rinses"});
  check_reference({.id = "SLT-22",
                   .what = "litres a kilo let through, all of it mixing",
                   .source = "definition (perfect mixing), recomputed by hand: 2 ln 7.5",
                   .expected = 4.0298,
                   .got = leaching_litres_per_kg(rinse, 1.0),
                   .tolerance = 5e-5,
                   .reason = "half a unit of the last digit given",
                   .function = "planting::leaching_litres_per_kg"});
  check_reference({.id = "SLT-23",
                   .what = "the same where half of it runs down cracks",
                   .source = "definition (perfect mixing), recomputed by hand: 4 ln 7.5",
                   .expected = 8.0596,
                   .got = leaching_litres_per_kg(rinse, 0.5),
                   .tolerance = 5e-5,
                   .reason = "half a unit of the last digit given",
                   .function = "planting::leaching_litres_per_kg"});
  // Many small rinses come to what runs through.
  EXPECT_NEAR(bucket_rinses(rinse, 0.001) * 0.001, leaching_litres_per_kg(rinse, 1.0), 0.005);
  EXPECT_THROW((void)bucket_rinses({8.0, 0.4, 0.5, 2.0}, 1.0), ContractViolation);
}

}  // namespace
}  // namespace houseleek::planting
