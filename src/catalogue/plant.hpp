// What a plant is to the heat and water of a stack, to the choosing of plants, and to the law.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/spread.hpp"
#include "catalogue/words.hpp"

namespace houseleek::catalogue {

/// Figures of a canopy over the ground that it covers.
struct Foliage {
  Spread height_mm;
  Spread root_depth_mm;
  Spread cover_frac;       // of the module, established
  Spread leaf_area_index;  // over the covered part
  Spread leaf_albedo;      // of the canopy
  Spread longwave_emissivity;
  Spread leaf_water_kg_per_m2;  // over the covered part; gives the heat capacity of the foliage
  Spread fresh_mass_kg_per_m2;  // over the covered part; for weights
  Spread least_stomatal_resistance_s_per_m;
  bool operator==(const Foliage&) const = default;
};

/// Plants that are alike to the heat and water balance.
struct PlantGroup {
  std::string name;  // succulent, grass, herb, shrub, vegetable, tree
  Foliage foliage;
  bool operator==(const PlantGroup&) const = default;
};

/// How a leaf takes up carbon, and so when its stomata are open.
enum class CarbonWay {
  c3,          // by day
  c4,          // by day, with less water
  cam,         // by night
  c3_to_cam,   // by day while water lasts, by night after dry days
  c3_weak_cam  // by day; in drought they close and live on their own breath
};
enum class Sun { full, half, shade };
enum class Climate { summer_dry, temperate, cold, semi_arid, frost_free, coast };
enum class RaisedFrom { seed, cuttings, leaves, division, offsets, runners, bulbs, pads };
enum class Lifespan { season, years };

inline constexpr std::pair<std::string_view, CarbonWay> carbon_way_words[] = {{"c3", CarbonWay::c3},
                                                                              {"c4", CarbonWay::c4},
                                                                              {"cam", CarbonWay::cam},
                                                                              {"c3_to_cam", CarbonWay::c3_to_cam},
                                                                              {"c3_weak_cam", CarbonWay::c3_weak_cam}};
inline constexpr std::pair<std::string_view, Sun> sun_words[] = {
    {"full", Sun::full}, {"half", Sun::half}, {"shade", Sun::shade}};
inline constexpr std::pair<std::string_view, Climate> climate_words[] = {
    {"summer_dry", Climate::summer_dry}, {"temperate", Climate::temperate},   {"cold", Climate::cold},
    {"semi_arid", Climate::semi_arid},   {"frost_free", Climate::frost_free}, {"coast", Climate::coast}};
inline constexpr std::pair<std::string_view, RaisedFrom> raised_from_words[] = {
    {"seed", RaisedFrom::seed},         {"cuttings", RaisedFrom::cuttings}, {"leaves", RaisedFrom::leaves},
    {"division", RaisedFrom::division}, {"offsets", RaisedFrom::offsets},   {"runners", RaisedFrom::runners},
    {"bulbs", RaisedFrom::bulbs},       {"pads", RaisedFrom::pads}};
inline constexpr std::pair<std::string_view, Lifespan> lifespan_words[] = {{"season", Lifespan::season},
                                                                           {"years", Lifespan::years}};

/// What follows in one country for a plant that is not there yet, for one that already is, and for one taken from the
/// wild.
enum class NewPlant { refused, advised_against };
enum class AlreadyHere { remove, keep_in };
enum class FromWild { forbidden, ask_first };

inline constexpr std::pair<std::string_view, NewPlant> new_plant_words[] = {
    {"refused", NewPlant::refused}, {"advised_against", NewPlant::advised_against}};
inline constexpr std::pair<std::string_view, AlreadyHere> already_here_words[] = {{"remove", AlreadyHere::remove},
                                                                                  {"keep_in", AlreadyHere::keep_in}};
inline constexpr std::pair<std::string_view, FromWild> from_wild_words[] = {{"forbidden", FromWild::forbidden},
                                                                            {"ask_first", FromWild::ask_first}};

/// One country's word on one plant.
struct InvasiveListing {
  std::string country;  // two letters of ISO 3166, or EU
  std::string region;   // empty: the whole country
  std::string list;     // its name
  NewPlant new_plant = NewPlant::refused;
  AlreadyHere already_here = AlreadyHere::keep_in;
  FromWild from_wild = FromWild::forbidden;
  Origin from;
  bool operator==(const InvasiveListing&) const = default;
};

/// A tolerance with its own source.
struct Judgement {
  Tolerance tolerance = Tolerance::none;
  Origin from;
  bool operator==(const Judgement&) const = default;
};

struct Plant {
  std::string name;  // botanical
  std::string common_name;
  std::string group;
  double least_depth_mm = 0.0;  // of medium; the likely figure of medium_depth_mm; 0: not known
  Foliage foliage;              // the group's, with the plant's own figures over it

  std::optional<Spread> medium_depth_mm;          // low: hangs on; likely: lives; high: thrives
  std::optional<Spread> width_mm;                 // of one grown plant
  std::optional<Spread> lowest_temperature_c;     // that established plants live through
  std::optional<Spread> dry_spell_days;           // without water at the summer's peak in about 90 mm: a ranking
  std::optional<Spread> easy_water_frac;          // of the store it can reach, before growth slows
  std::optional<Spread> salt_threshold_ds_per_m;  // in the soil's saturation extract, before yield falls
  std::optional<Spread> leave_roof_after_years;   // of a tree: roots, weight and sail

  std::optional<Judgement> salt_spray;
  std::optional<Judgement> wind;
  std::vector<Sun> sun;
  std::vector<Climate> climates;
  std::optional<CarbonWay> carbon_way;
  std::optional<Lifespan> lifespan;
  std::vector<RaisedFrom> raised_from;
  std::string eaten;          // the parts that people eat; empty: none
  int bee_worth = 0;          // nectar and pollen, 0 to 3
  int bloom_first_month = 0;  // north of the equator; 0: no bloom to speak of
  int bloom_last_month = 0;   // may be before the first: over the turn of the year
  std::vector<Hazard> hazards;
  Origin words_from;  // of what is said in words, bees and months included
  std::vector<InvasiveListing> invasive;
  bool operator==(const Plant&) const = default;
};

enum class Hemisphere { north, south };

/// True if the plant blooms in the month (1 to 12); south of the equator half a year later.
[[nodiscard]] bool blooms_in(const Plant& plant, int month, Hemisphere hemisphere);

/// What the lists of a country say, and of the European Union where the country is in it: a refusal before an advice,
/// the whole country before a part of it. Country: two letters.
[[nodiscard]] std::vector<InvasiveListing> invasive_listings(const Plant& plant, std::string_view country);

/// Where it holds, the list's name, and how that is known: GR: naturalised ... (as remembered, not read again ...).
[[nodiscard]] std::string text_from_listing(const InvasiveListing& listing);

/// True if people, dogs or cats are poisoned by eating it.
[[nodiscard]] bool is_poisonous(const Plant& plant);

}  // namespace houseleek::catalogue
