// The catalogue: materials, parts, plants, decks, prices and cautions, read from data files that anyone may edit.
//
//   const Result<Catalogue> catalogue = read_catalogue(files);   // files: name and text; who reads the disk is apps/
//   const Material* clay = find_material(catalogue.value(), "expanded clay");   // nullptr if there is none
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "catalogue/columns.hpp"
#include "catalogue/material.hpp"
#include "catalogue/part.hpp"
#include "catalogue/plant.hpp"
#include "catalogue/raising.hpp"
#include "catalogue/spread.hpp"

namespace houseleek::catalogue {

enum class FinishAge { fresh, weathered };

/// The upper face of a bare roof.
struct Finish {
  std::string name;
  Spread albedo;
  Spread emissivity;
  std::string membrane;  // the material of the catalogue that it is the face of, or that it lies on
  FinishAge age = FinishAge::weathered;
  bool operator==(const Finish&) const = default;
};

/// What the plain rivals are made of unless the design says otherwise.
struct RivalDefaults {
  Spread white_albedo_new;
  Spread white_albedo_aged;
  Spread white_emissivity;
  Spread white_life_years;
  std::string net_material;
  Spread net_height_mm;
  std::string board_material;
  Spread board_thickness_mm;
  std::string ballast_material;
  Spread ballast_thickness_mm;
  bool operator==(const RivalDefaults&) const = default;
};

/// What a price is for. `each`: one piece, one module, one cutting, as the item's name says.
enum class PricePer { kg, m2, m3, each };

/// A price and a life; prices in the catalogue are invented and say so.
struct PriceItem {
  std::string name;  // a material's name, or one of the other items in catalogue/prices.toml
  PricePer per = PricePer::m2;
  Spread price;                              // in `currency` of the catalogue or design
  std::optional<Spread> service_life_years;  // for items that are no material
  bool operator==(const PriceItem&) const = default;
};

struct Tariff {
  Spread electricity_per_kwh;
  std::optional<std::array<double, 12>> electricity_by_month_per_kwh;  // instead, January first; in designs only
  Spread heating_per_kwh;                                              // bought energy
  Spread water_per_m3;
  Spread heating_efficiency;  // heat given to the room per energy bought (a heat pump: above 1)
  Spread cooling_efficiency;  // heat removed per electricity bought
  bool operator==(const Tariff&) const = default;
};

/// A sentence to show beside a figure, and the condition that calls for it.
struct Caution {
  std::string id;
  std::string when;  // one of caution_conditions
  std::string text;
  std::string source;
  std::string beside = "roof";  // one of caution_places: the part of an answer that it stands beside
  bool is_on_first_page = true;
  bool operator==(const Caution&) const = default;
};

/// What can call for a caution.
inline constexpr std::string_view caution_conditions[] = {"always",
                                                          "no_allowable_load",
                                                          "no_span_model",
                                                          "raised_modules",
                                                          "not_shown_in_wind",
                                                          "upstand",
                                                          "timber_deck",
                                                          "organic_medium",
                                                          "raised_net",
                                                          "watered",
                                                          "fan",
                                                          "hollow",
                                                          "containers",
                                                          "heavy_module",
                                                          "mineral_fibres",
                                                          "dust",
                                                          "spores",
                                                          "foil",
                                                          "salty_finds",
                                                          "live_shoots",
                                                          "poisonous_mulch",
                                                          "poisonous_plant",
                                                          "irritating_plant",
                                                          "invasive_plant",
                                                          "country_not_given",
                                                          "tree",
                                                          "animal_gap",
                                                          "plastic_over_organic",
                                                          "bitumen_meets_plasticised",
                                                          "polystyrene_meets_plasticised",
                                                          "polystyrene_used",
                                                          "food_doubtful"};

/// What a caution can stand beside.
inline constexpr std::string_view caution_places[] = {"roof",   "load",  "wind", "fire",  "drainage", "recipes",
                                                      "plants", "water", "work", "rooms", "damp",     "upkeep"};

struct Catalogue {
  std::vector<Material> materials;  // sorted by name
  std::vector<Part> parts;          // sorted by name
  std::vector<PlantGroup> plant_groups;
  std::vector<Plant> plants;
  std::vector<Raising> raising;
  std::vector<Finish> finishes;
  RivalDefaults rivals;
  std::string currency;
  std::vector<PriceItem> prices;
  Tariff tariff;
  std::vector<Caution> cautions;
  std::vector<WaitingColumn> waiting;
  bool operator==(const Catalogue&) const = default;
};

/// One file's name (for messages) and its whole text.
struct CatalogueFile {
  std::string name;
  std::string text;
};

/// Names of the files that make a catalogue, inside the folder catalogue/.
inline constexpr std::string_view catalogue_file_names[] = {"materials.toml", "plants.toml",   "decks.toml",
                                                            "prices.toml",    "cautions.toml", "parts.toml"};

/// Reads all files; every problem at once. The order of files does not matter.
[[nodiscard]] Result<Catalogue> read_catalogue(std::span<const CatalogueFile> files);

/// Lookup without regard to case and to doubled spaces; nullptr if there is none.
[[nodiscard]] const Material* find_material(const Catalogue& catalogue, std::string_view name);
[[nodiscard]] const Part* find_part(const Catalogue& catalogue, std::string_view name);
[[nodiscard]] const Plant* find_plant(const Catalogue& catalogue, std::string_view botanical_or_common_name);
[[nodiscard]] const Finish* find_finish(const Catalogue& catalogue, std::string_view name);
[[nodiscard]] const PriceItem* find_price(const Catalogue& catalogue, std::string_view name);

/// True if the column waits for an answer that will read it; such a figure stands behind no answer yet.
[[nodiscard]] bool is_waiting(const Catalogue& catalogue, std::string_view table, std::string_view column);

/// The word used in files and answers: text_seen, from_memory ...
[[nodiscard]] std::string_view text_from_certainty(Certainty certainty);

}  // namespace houseleek::catalogue
