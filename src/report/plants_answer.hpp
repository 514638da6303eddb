// What lives on this roof and what could, as plain data; plants_json.hpp, plants_text.hpp and plants_html.hpp make
// documents of it.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "planting/batches.hpp"
#include "planting/bloom_calendar.hpp"
#include "planting/judge.hpp"
#include "planting/raise_plan.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

using results::Figure;

/// What a plant is good for, in a word and with its figure.
struct PlantService {
  std::string purpose;
  double worth = 0.0;
  std::string text;
};

/// One plant at one place.
struct PlantAtPlace {
  std::string name;
  std::string common_name;
  std::string group;
  std::vector<std::string> hazards;  // beside the name, wherever it stands
  std::string survival;              // likely, doubtful, no
  std::vector<planting::Reason> reasons;
  std::optional<int> first_month;  // of a plant of one season: when it can stand outside
  std::optional<int> last_month;
  std::string standing;       // by the country's lists
  std::string standing_text;  // empty: not listed
  std::string origin;         // new, already_here, from_wild
  std::string eaten;
  std::vector<PlantService> serves;
  std::optional<planting::OwnRate> lost_here;  // of those planted out, by the logbook
  std::string sentence;                        // why, in one sentence
};

/// How many plants fall out by what.
struct FallenOut {
  std::string about;
  int n_plants = 0;
};

/// A kind in a mix, and how many plants of it a module or container wants.
struct MixPlant {
  std::string name;
  std::string common_name;
  double n_per_module = 0.0;
};

struct MixAnswer {
  std::vector<MixPlant> plants;
  std::vector<int> months_in_bloom;  // 1 to 12
  std::vector<int> months_never;     // nothing that would live there blooms then
  std::string sentence;
};

struct PlantsOfPlace {
  std::string name;
  std::string kind;  // recipe, container
  int n_modules = 0;
  std::vector<std::string> rooms;
  double medium_depth_mm = 0.0;
  Figure dry_days;  // in a row
  std::string dry_month;
  std::string sun;
  std::string edible;  // yes, doubtful, no
  std::vector<std::string> edible_because;
  int n_likely = 0;
  int n_doubtful = 0;
  int n_no = 0;
  int n_refused = 0;                  // by a list; they are in none of the three
  std::vector<FallenOut> fallen_out;  // of n_no, by the first limit
  std::vector<PlantAtPlace> there;
  std::vector<PlantAtPlace> choices;  // all others, the best first
  MixAnswer mix;                      // of new plants alone
  MixAnswer additions;                // to what grows there
};

/// A plant of the country's lists that is on this roof, with what to do.
struct KeptIn {
  std::string plant;
  std::string where;
  std::string standing;
  std::string text;
  std::vector<std::string> steps;
  std::string from_wild;
};

struct BatchAnswer {
  planting::Batch batch;
  std::string way;  // empty: not told
  std::optional<planting::OwnRate> losses;
  std::string sentence;
  std::optional<planting::LeaveRoof> leave_roof;
};

struct RaiseAnswer {
  std::string plant;
  std::string way;
  double n_plants = 0.0;
  std::int64_t by_day = 0;
  planting::RaisePlan plan;
  bool is_in_season = true;  // the likely day to begin lies in the usual months
  std::string sentence;
};

struct TreeInContainer {
  std::string plant;
  std::string container;
  std::optional<planting::LeaveRoof> leave_roof;  // absent: nobody said since when it stands there
};

struct PlantsAnswer {
  std::string design_name;
  bool is_invented = false;
  std::string engine_version;
  std::string input_hash;
  std::string on;       // today, as it was taken to be
  std::string purpose;  // empty: none was named
  std::string plant;    // that alone was asked about; empty: all
  std::vector<catalogue::Caution> cautions;
  Figure coldest_night_c;
  Figure coldest_night_mean_c;  // of the years' coldest nights
  Figure wind_m_per_s;
  std::string climate;
  std::string country;
  std::string lists;  // of the country: looked at or not
  std::string wild;
  std::string roof_water_edible;
  std::vector<std::string> roof_water_because;
  std::vector<PlantsOfPlace> places;
  std::vector<KeptIn> kept_in;
  std::vector<TreeInContainer> trees;
  std::vector<planting::CalendarRow> calendar;
  std::vector<BatchAnswer> batches;
  std::vector<planting::Due> due;
  std::vector<planting::BatchLeftOut> left_out;
  std::optional<RaiseAnswer> raise;
  std::string statement;
};

}  // namespace houseleek::report
