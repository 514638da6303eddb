// What `houseleek water` answers, as plain data; watering_json.hpp, watering_text.hpp and watering_html.hpp make
// documents.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

using results::Figure;

/// One evening of a store: what of the draws lies in the middle and at the ends.
struct StoreEvening {
  std::string day;
  bool is_ahead = false;  // not yet: nothing is given, and no rain is counted on
  double likely_frac = 0.0;
  double low_frac = 0.0;
  double high_frac = 0.0;
  double given_mm = 0.0;
};

/// Today's store of the modules of one recipe that lie in one form, or of one container.
struct StoreNow {
  std::string name;   // of the recipe or the container
  std::string what;   // module, container
  std::string form;   // flat, raised; empty for a container
  std::string plant;  // of a container; may be empty
  int count = 1;
  std::vector<std::string> labels;  // of modules, as the logbook has them; empty: not logged
  Figure store_frac;
  Figure wants_below_frac;
  Figure can_wait_days;
  Figure litres_each;           // until it drips, now
  Figure litres_each_when_due;  // until it drips, once the store is down
  Figure litres_usual;          // as the recipe has it
  Figure litres_all;            // until they drip, now
  Figure cans;
  std::string state;  // wants_water, soon, can_wait, not_known
  std::string driven_by;
  std::string statement;
  std::vector<StoreEvening> evenings;
  std::vector<std::string> notes;  // young plants, a weighing
};

struct WateringRound {
  Figure litres;
  Figure cans;
  Figure minutes;
  std::string statement;
};

/// How often a full module or container wants water in each month, by years of weather.
struct SeasonRule {
  std::string name;
  std::string form;
  int count = 1;
  std::array<Figure, 12> every_days;
  Figure litres_each;
  std::string statement;
};

struct BarrelSize {
  double size_l = 0.0;
  Figure covered_frac;
};

struct BarrelAnswer {
  std::string catchment;
  Figure wanted_l_per_year;
  Figure caught_l_per_year;
  std::vector<BarrelSize> sizes;
  std::string statement;
};

struct SaltyPlant {
  std::string plant;
  std::string where;
  Figure threshold_ds_per_m;
  Figure leaching_frac;
  Figure water_factor;  // over what the plants use
  std::string statement;
};

struct RinseAnswer {
  std::string material;
  double first_ms_per_cm = 0.0;
  double target_ms_per_cm = 0.0;
  double water_ms_per_cm = 0.0;
  Figure held_l_per_kg;
  Figure bucket_rinses;
  double bucket_l_per_kg = 0.0;
  Figure through_l_per_kg;
  std::string statement;
};

struct SaltAnswer {
  std::optional<double> water_ds_per_m;
  std::string water_from;
  std::vector<SaltyPlant> plants;
  std::vector<std::string> statements;
  std::optional<RinseAnswer> rinse;
};

struct SettlingLayerAnswer {
  std::string recipe;
  std::string material;
  double bought_mm = 0.0;
  Figure age_years;
  Figure depth_now_mm;
  Figure depth_in_three_years_mm;
  Figure store_now_frac;  // of the water it held when it was new
  Figure mass_now_frac;   // of the mass that it had when it was new
  Figure top_up_l_per_module;
  std::string statement;
};

struct NitrogenAnswer {
  std::string recipe;
  std::string material;
  std::string placed;  // mixed in, as a layer
  Figure tied_g_per_module;
  std::string statement;
};

struct FeedingAnswer {
  std::vector<SettlingLayerAnswer> layers;
  std::vector<NitrogenAnswer> nitrogen;
  std::string last_fed;  // a day; empty: never logged
  std::string statement;
};

/// A recipe with spacers, lying flat and raised through the same year.
struct FormMonths {
  std::string recipe;
  std::array<double, 12> flat_kwh_per_m2{};  // into the room positive
  std::array<double, 12> raised_kwh_per_m2{};
  Figure flat_watering_mm;
  Figure raised_watering_mm;
  std::string statement;
};

struct ChangesAnswer {
  std::vector<FormMonths> recipes;
  std::string not_computed;
};

struct HolidayVisit {
  std::string day;
  std::string what;
  double litres = 0.0;
  double cans = 0.0;
};

struct HolidayAnswer {
  std::string first_day;
  std::string last_day;
  std::vector<HolidayVisit> visits;
  double least_rain_mm = 0.0;  // that stands in for a visit
  std::string statement;
};

struct WateringAnswer {
  std::string file;
  std::string design_name;
  bool is_invented = false;
  std::string engine_version;
  std::uint64_t seed = 0;
  std::string input_hash;
  int n_draws = 0;
  int n_years = 0;  // 0: seasons, barrel and changes were not asked for
  std::string on;
  bool has_logbook = false;
  double can_l = 0.0;
  std::vector<std::string> known;    // what drives the stores
  std::vector<std::string> missing;  // what would narrow them, and how to say it
  std::vector<catalogue::Caution> cautions;
  std::vector<StoreNow> stores;
  WateringRound round;
  std::vector<SeasonRule> seasons;
  std::string seasons_note;
  std::optional<BarrelAnswer> barrel;
  SaltAnswer salt;
  FeedingAnswer feeding;
  ChangesAnswer changes;
  std::optional<HolidayAnswer> holiday;
};

}  // namespace houseleek::report
