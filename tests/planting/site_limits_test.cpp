// Winters, dry spells and the judgement of plants: figures worked out elsewhere or by hand, and what must hold always.
#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"
#include "base/random.hpp"
#include "catalogue/catalogue.hpp"
#include "planting/dry_spell.hpp"
#include "planting/judge.hpp"
#include "planting/purposes.hpp"
#include "planting/winter.hpp"
#include "support/catalogue_files.hpp"
#include "support/reference_check.hpp"

namespace houseleek::planting {
namespace {

using tests::check_reference;
using tests::shipped_catalogue;

const std::vector<double> winters_c = {-3.1, -5.2, -1.8, -4.4, -2.9, -6.3, -3.7, -2.2, -4.9, -3.3, -7.1, -2.6, -3.9,
                                       -5.6, -1.2, -4.1, -3.5, -2.4, -5.0, -3.0, -4.6, -2.8, -6.0, -3.8, -2.0};

TEST(ColdestNight, OnceInTwentyYears) {
  check_reference({.id = "WIN-01",
                   .what = "night once in 20 years of 25 invented winters, degC",
                   .source = "recomputed with SciPy 1.10.1, stats.gumbel_r.fit of 100 - t, 95 % point",
                   .expected = -6.8850,
                   .got = coldest_night(winters_c, 20.0).likely_c,
                   .tolerance = 0.001,
                   .reason = "SciPy's own search stops at 1e-8; digits printed",
                   .function = "planting::coldest_night"});
  const std::vector<double> one = {-3.0};
  check_reference({.id = "WIN-02",
                   .what = "night once in 20 years from one winter of -3 degC, spread assumed, degC",
                   .source = "recomputed by hand: -3 - 2.5 K_20, K_20 = 1.8658 of Gumbel's distribution [chow1988]",
                   .expected = -7.6645,
                   .got = coldest_night(one, 20.0).likely_c,
                   .tolerance = 0.001,
                   .reason = "digits of K_20",
                   .function = "planting::coldest_night"});
}

TEST(ColdestNight, RangeHoldsTheFigureAndFewYearsWidenIt) {
  const ColdestNight many = coldest_night(winters_c, 20.0);
  EXPECT_LT(many.low_c, many.likely_c);
  EXPECT_LT(many.likely_c, many.high_c);
  EXPECT_LT(many.likely_c, many.mean_c);
  EXPECT_FALSE(many.is_spread_assumed);
  const ColdestNight few = coldest_night(std::span(winters_c).first(3), 20.0);
  EXPECT_TRUE(few.is_spread_assumed);
  EXPECT_GT(few.high_c - few.low_c, many.high_c - many.low_c);
  EXPECT_THROW((void)coldest_night({}, 20.0), ContractViolation);
}

// Winters drawn from a known law: nine times in ten and more the range of 95 % holds the true night.
TEST(ColdestNight, CoversTheTruth) {
  const RandomVariable winters = random_variable(11, "winters");
  // Largest of 100 - t: Gumbel with location 103, scale 2.
  const double truth_c = 100.0 - (103.0 - 2.0 * std::log(-std::log(0.95)));
  int n_held = 0;
  constexpr std::uint32_t n_trials = 400;
  for (std::uint32_t trial = 0; trial < n_trials; ++trial) {
    std::vector<double> drawn;
    for (std::uint32_t year = 0; year < 30; ++year) {
      const double u = random_uniform(winters, {trial, 0, year});
      drawn.push_back(100.0 - (103.0 - 2.0 * std::log(-std::log(u))));
    }
    const ColdestNight night = coldest_night(drawn, 20.0);
    n_held += night.low_c <= truth_c && truth_c <= night.high_c ? 1 : 0;
  }
  EXPECT_GE(n_held, 360);
  EXPECT_LT(n_held, 400);
}

StoreOfModule store_of(double capacity_mm, double evaporation_mm) {
  StoreOfModule store;
  store.capacity_mm = capacity_mm;
  store.evaporation_mm_per_day.fill(evaporation_mm);
  return store;
}

std::vector<double> rain_on(const std::vector<std::pair<int, double>>& days) {
  std::vector<double> rain(365, 0.0);
  for (const auto& [day, mm] : days) rain[static_cast<std::size_t>(day)] = mm;
  return rain;
}

TEST(DrySpell, ByHand) {
  // 3 mm a day from a full 10 mm: 7, 4, 1, then empty; rain on days 100 and 200 ends the runs.
  const DrySpell rain = longest_dry_spell(store_of(10.0, 3.0), rain_on({{100, 50.0}, {200, 50.0}}));
  check_reference({.id = "DRY-01",
                   .what = "dry days in a row, two rains 100 days apart and 265 over the turn of the year",
                   .source = "recomputed by hand: days 203 to 464, 262 days",
                   .expected = 262,
                   .got = static_cast<double>(rain.days),
                   .tolerance = 0,
                   .reason = "whole days",
                   .function = "planting::longest_dry_spell"});
  EXPECT_EQ(rain.last_day, 99);  // of the year after
  StoreOfModule watered = store_of(10.0, 3.0);
  watered.watering = {{.depth_mm = 8.0, .hour = 7, .every_days = 7, .first_day = 0, .last_day = 364}};
  check_reference({.id = "DRY-02",
                   .what = "dry days in a row, 8 mm every seventh day and 3 mm a day",
                   .source = "recomputed by hand: 5, 2, then five empty days; 365 = 52 weeks and a day",
                   .expected = 5,
                   .got = static_cast<double>(longest_dry_spell(watered, rain_on({})).days),
                   .tolerance = 0,
                   .reason = "whole days",
                   .function = "planting::longest_dry_spell"});
  StoreOfModule by_store = store_of(10.0, 3.0);
  by_store.watering = {{.depth_mm = 8.0, .hour = 7, .every_days = 0, .when_store_below_frac = 0.5}};
  check_reference({.id = "DRY-03",
                   .what = "dry days where water is given below half the store",
                   .source = "recomputed by hand: 7, 4 then 8 mm more: 9",
                   .expected = 0,
                   .got = static_cast<double>(longest_dry_spell(by_store, rain_on({})).days),
                   .tolerance = 0,
                   .reason = "whole days",
                   .function = "planting::longest_dry_spell",
                   .scale = 1});
}

TEST(DrySpell, NoRainAtAllIsTheWholeYear) {
  EXPECT_EQ(longest_dry_spell(store_of(10.0, 3.0), rain_on({})).days, 365);
  EXPECT_THROW((void)longest_dry_spell(store_of(0.0, 3.0), rain_on({})), ContractViolation);
}

std::vector<double> drawn_rain(std::uint32_t trial) {
  const RandomVariable rain = random_variable(5, "rain");
  std::vector<double> days;
  for (std::uint32_t day = 0; day < 365; ++day) {
    const double u = random_uniform(rain, {trial, static_cast<std::int32_t>(day), 0});
    days.push_back(u > 0.85 ? 40.0 * (u - 0.85) : 0.0);
  }
  return days;
}

TEST(DrySpell, MoreStoreNeverLonger) {
  for (std::uint32_t trial = 0; trial < 30; ++trial) {
    const std::vector<double> rain = drawn_rain(trial);
    int before = 366;
    for (double capacity_mm = 2.0; capacity_mm <= 60.0; capacity_mm += 2.0) {
      StoreOfModule store = store_of(capacity_mm, 2.5);
      store.watering = {{.depth_mm = 6.0, .hour = 7, .every_days = 9, .first_day = 150, .last_day = 240}};
      const int days = longest_dry_spell(store, rain).days;
      EXPECT_LE(days, before) << capacity_mm;
      before = days;
    }
  }
}

Place mild_place(double depth_mm) {
  Place place;
  place.name = "here";
  place.medium_depth_mm = depth_mm;
  place.coldest = {.low_c = -4.0, .likely_c = -2.5, .high_c = -1.0, .mean_c = 0.5, .n_years = 30};
  place.coldest_by_month_c = {-2.5, -2.0, 0.0, 3.0, 7.0, 11.0, 14.0, 14.0, 10.0, 6.0, 2.0, -1.0};
  place.reference_days = 5.0;
  place.dry = DryDays{2.0, 4.0, 6.0, "August"};
  place.is_sun_said = true;
  place.wind = WindExposure::sheltered;
  place.wind_m_per_s = 4.0;
  place.climates = {catalogue::Climate::summer_dry};
  return place;
}

Place frost_place(double depth_mm) {
  Place place = mild_place(depth_mm);
  place.coldest = {.low_c = -24.0, .likely_c = -21.0, .high_c = -18.0, .mean_c = -15.0, .n_years = 30};
  place.coldest_by_month_c = {-21, -20, -14, -5, 0, 5, 8, 7, 1, -5, -11, -18};
  place.climates = {catalogue::Climate::cold};
  return place;
}

const Reason* find_reason(const Judged& judged, std::string_view about) {
  for (const Reason& one : judged.reasons) {
    if (one.about == about) return &one;
  }
  return nullptr;
}

// What tender plants are is common knowledge of growers: aloe, jade plant, carob and gazania stand no winter of -20 degC.
TEST(Judge, AFrostClimateRemovesTenderPlantsAndSaysWhy) {
  const catalogue::Catalogue all = shipped_catalogue();
  for (const char* name :
       {"Aloe vera", "Crassula ovata", "Ceratonia siliqua", "Gazania rigens", "Salvia rosmarinus (prostrate)"}) {
    const catalogue::Plant& plant = *catalogue::find_plant(all, name);
    const Judged frost = judge(plant, frost_place(1000.0));
    EXPECT_EQ(frost.word, Survival::no) << name;
    const Reason* winter = find_reason(frost, "winter");
    ASSERT_NE(winter, nullptr);
    EXPECT_EQ(winter->word, Survival::no) << name;
    EXPECT_NE(winter->text.find("one winter in 20 has a night of -21 degC (-24 degC to -18 degC)"), std::string::npos)
        << winter->text;
  }
  for (const char* name : {"Sedum album", "Phedimus spurius", "Thymus serpyllum"}) {
    const Judged frost = judge(*catalogue::find_plant(all, name), frost_place(100.0));
    EXPECT_EQ(find_reason(frost, "winter")->word, Survival::likely) << name;
  }
  const Judged mild = judge(*catalogue::find_plant(all, "Aloe vera"), mild_place(200.0));
  EXPECT_EQ(find_reason(mild, "winter")->word, Survival::doubtful);  // -4 to -1 against -2, -7 at the best
}

TEST(Judge, APlantOfOneSeasonIsJudgedByItsMonths) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& tomato = *catalogue::find_plant(all, "tomato");
  const Judged frost = judge(tomato, frost_place(400.0));
  EXPECT_EQ(find_reason(frost, "winter")->word, Survival::likely);
  EXPECT_EQ(frost.first_month, 6);
  EXPECT_EQ(frost.last_month, 9);
  Place cooler = frost_place(400.0);
  cooler.coldest_by_month_c[5] = -1.0;
  cooler.coldest_by_month_c[8] = -3.0;
  EXPECT_EQ(find_reason(judge(tomato, cooler), "winter")->word, Survival::doubtful);  // two months
  cooler.coldest_by_month_c.assign(12, -3.0);
  EXPECT_EQ(find_reason(judge(tomato, cooler), "winter")->word, Survival::no);
}

TEST(Judge, EachLimitHasItsWord) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& thyme =
      *catalogue::find_plant(all, "Thymus vulgaris");  // 80, 100, 150 mm; 10.5, 21, 31.5 days
  EXPECT_EQ(find_reason(judge(thyme, mild_place(100.0)), "depth")->word, Survival::likely);
  EXPECT_EQ(find_reason(judge(thyme, mild_place(90.0)), "depth")->word, Survival::doubtful);
  EXPECT_EQ(find_reason(judge(thyme, mild_place(70.0)), "depth")->word, Survival::no);
  Place dry = mild_place(100.0);
  dry.dry = DryDays{10.0, 14.0, 16.0, "August"};  // it bears 21 - 5 = 16
  EXPECT_EQ(find_reason(judge(thyme, dry), "dry")->word, Survival::likely);
  dry.dry = DryDays{10.0, 14.0, 17.0, "August"};
  EXPECT_EQ(find_reason(judge(thyme, dry), "dry")->word, Survival::doubtful);
  dry.dry = DryDays{20.0, 27.0, 30.0, "August"};
  EXPECT_EQ(find_reason(judge(thyme, dry), "dry")->word, Survival::no);
  dry.dry.reset();
  EXPECT_EQ(find_reason(judge(thyme, dry), "dry"), nullptr);
  Place shady = mild_place(100.0);
  shady.sun = catalogue::Sun::half;
  EXPECT_EQ(find_reason(judge(thyme, shady), "sun")->word, Survival::doubtful);
  shady.sun = catalogue::Sun::shade;
  EXPECT_EQ(find_reason(judge(thyme, shady), "sun")->word, Survival::no);
  const catalogue::Plant& tomato = *catalogue::find_plant(all, "tomato");  // bears no wind and no salt
  Place coast = mild_place(400.0);
  coast.salt = design::SaltSpray::some;
  EXPECT_EQ(find_reason(judge(tomato, coast), "salt")->word, Survival::doubtful);
  coast.salt = design::SaltSpray::strong;
  EXPECT_EQ(find_reason(judge(tomato, coast), "salt")->word, Survival::no);
  coast.wind = WindExposure::windy;
  EXPECT_EQ(find_reason(judge(tomato, coast), "wind")->word, Survival::doubtful);
  EXPECT_EQ(find_reason(judge(tomato, mild_place(400.0)), "salt"), nullptr);
}

// The word is the worst of the reasons, and the worst stands first.
TEST(Judge, TheWorstReasonDecides) {
  for (const catalogue::Plant& plant : shipped_catalogue().plants) {
    const Judged judged = judge(plant, frost_place(60.0));
    Survival worst = Survival::likely;
    for (const Reason& one : judged.reasons) {
      worst = std::max(worst, one.word);
      EXPECT_FALSE(one.text.empty());
      // Words, never a share.
      EXPECT_EQ(one.text.find('%'), std::string::npos) << one.text;
    }
    EXPECT_EQ(judged.word, worst) << plant.name;
    EXPECT_EQ(judged.reasons.front().word, worst) << plant.name;
  }
}

// With the store that comes with it, deeper medium never removes a plant.
TEST(Judge, MoreMediumNeverRemovesAPlant) {
  const catalogue::Catalogue all = shipped_catalogue();
  const std::vector<double> rain = drawn_rain(3);
  for (const catalogue::Plant& plant : all.plants) {
    Survival before = Survival::no;
    for (double depth_mm = 20.0; depth_mm <= 600.0; depth_mm += 20.0) {
      Place place = mild_place(depth_mm);
      const double days = longest_dry_spell(store_of(0.2 * depth_mm, 2.5), rain).days;
      place.dry = DryDays{0.7 * days, days, 1.3 * days, "August"};
      const Survival now = judge(plant, place).word;
      EXPECT_LE(now, before) << plant.name << " at " << depth_mm;
      before = now;
    }
  }
}

// A colder winter never admits one of the years.
TEST(Judge, AColderNightNeverAdmitsAPlant) {
  for (const catalogue::Plant& plant : shipped_catalogue().plants) {
    if (plant.lifespan != catalogue::Lifespan::years) continue;
    Survival before = Survival::likely;
    for (double night_c = 10.0; night_c >= -60.0; night_c -= 1.0) {
      Place place = mild_place(1000.0);
      place.coldest = {.low_c = night_c - 1.5, .likely_c = night_c, .high_c = night_c + 1.5, .mean_c = night_c + 4.0};
      const Survival now = find_reason(judge(plant, place), "winter")->word;
      EXPECT_GE(now, before) << plant.name << " at " << night_c;
      before = now;
    }
  }
}

TEST(Judge, SunUnderANetAndWind) {
  EXPECT_EQ(sun_on_plants(design::RoofSun::full, 1.0), catalogue::Sun::full);
  EXPECT_EQ(sun_on_plants(design::RoofSun::full, 0.5), catalogue::Sun::half);
  EXPECT_EQ(sun_on_plants(design::RoofSun::full, 0.3), catalogue::Sun::shade);
  EXPECT_EQ(sun_on_plants(design::RoofSun::half, 0.5), catalogue::Sun::shade);
  EXPECT_EQ(sun_on_plants(design::RoofSun::shade, 0.1), catalogue::Sun::shade);
  EXPECT_EQ(wind_exposure(5.4), WindExposure::sheltered);
  EXPECT_EQ(wind_exposure(5.5), WindExposure::breezy);
  EXPECT_EQ(wind_exposure(8.0), WindExposure::windy);
  EXPECT_EQ(days_beyond_store(14.0, 5.0), 9.0);
  EXPECT_EQ(days_beyond_store(1.0, 5.0), 0.0);
}

TEST(Purposes, CoolingOverALawn) {
  catalogue::Foliage foliage;
  foliage.cover_frac = {0.5, 0.8, 0.95, "", catalogue::Certainty::estimate};
  foliage.leaf_area_index = {1.0, 2.5, 4.0, "", catalogue::Certainty::estimate};
  foliage.least_stomatal_resistance_s_per_m = {200.0, 400.0, 800.0, "", catalogue::Certainty::estimate};
  check_reference({.id = "COO-01",
                   .what = "water let out by a succulent's leaves over a lawn's 70 s/m",
                   .source = "recomputed by hand from [allen1998] Eq. 5: 0.8 (2.5 / 2) / 400 x 70",
                   .expected = 0.175,
                   .got = cooling_over_lawn(foliage),
                   .tolerance = 1e-9,
                   .reason = "rounding",
                   .function = "planting::cooling_over_lawn"});
}

TEST(Purposes, WhoServesWhat) {
  const catalogue::Catalogue all = shipped_catalogue();
  const auto serves = [&](const char* name, Purpose purpose) {
    return service_of(*catalogue::find_plant(all, name), purpose).has_value();
  };
  EXPECT_TRUE(serves("tomato", Purpose::food));
  EXPECT_FALSE(serves("Sedum acre", Purpose::food));
  EXPECT_FALSE(serves("Festuca glauca", Purpose::bees));
  EXPECT_TRUE(serves("lavender", Purpose::windbreak));
  EXPECT_FALSE(serves("Sedum album", Purpose::windbreak));
  EXPECT_FALSE(serves("tomato", Purpose::hold));  // bare in winter
  EXPECT_EQ(service_of(*catalogue::find_plant(all, "Sedum album"), Purpose::bloom)->worth, 3.0);
  EXPECT_EQ(months_in_bloom(*catalogue::find_plant(all, "Crassula ovata")), 3);  // December to February
}

}  // namespace
}  // namespace houseleek::planting
