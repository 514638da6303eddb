// Figures of every table: source, certainty, a rising range, and bounds that follow from one another.
#include <gtest/gtest.h>

#include <map>

#include "base/toml_tree.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/properties.hpp"
#include "support/catalogue_files.hpp"
#include "support/reference_check.hpp"

namespace houseleek::catalogue {
namespace {

using tests::check_reference;
using tests::shipped_catalogue;

struct NamedSpread {
  std::string name;
  Spread spread;
};

std::vector<NamedSpread> all_figures(const Catalogue& catalogue) {
  std::vector<NamedSpread> all;
  const auto add = [&all](const std::string& row, std::string_view key, const Spread* spread) {
    if (spread != nullptr) all.push_back({row + "." + std::string(key), *spread});
  };
  for (const Material& one : catalogue.materials) {
    for (const MaterialProperty& p : material_properties()) add(one.name, p.rule.key, find_property(one, p));
  }
  for (const Part& one : catalogue.parts) {
    for (const PartProperty& p : part_properties()) add(one.name, p.rule.key, find_property(one, p));
  }
  for (const PlantGroup& one : catalogue.plant_groups) {
    for (const FoliageProperty& p : foliage_properties()) add(one.name, p.rule.key, &(one.foliage.*p.figure));
  }
  for (const Plant& one : catalogue.plants) {
    for (const FoliageProperty& p : foliage_properties()) add(one.name, p.rule.key, &(one.foliage.*p.figure));
    for (const PlantProperty& p : plant_properties()) add(one.name, p.rule.key, find_property(one, p));
  }
  for (const Finish& one : catalogue.finishes) {
    add(one.name, "albedo", &one.albedo);
    add(one.name, "emissivity", &one.emissivity);
  }
  for (const PriceItem& one : catalogue.prices) {
    add(one.name, "price", &one.price);
    if (one.service_life_years) add(one.name, "service_life_years", &*one.service_life_years);
  }
  const RivalDefaults& rivals = catalogue.rivals;
  for (const Spread* one :
       {&rivals.white_albedo_new, &rivals.white_albedo_aged, &rivals.white_emissivity, &rivals.white_life_years,
        &rivals.net_height_mm, &rivals.board_thickness_mm, &rivals.ballast_thickness_mm}) {
    add("rivals", "", one);
  }
  const Tariff& tariff = catalogue.tariff;
  for (const Spread* one : {&tariff.electricity_per_kwh, &tariff.heating_per_kwh, &tariff.water_per_m3,
                            &tariff.heating_efficiency, &tariff.cooling_efficiency}) {
    add("tariff", "", one);
  }
  return all;
}

TEST(CatalogueFigures, EachRisesAndSaysWhereItIsFrom) {
  const std::vector<NamedSpread> all = all_figures(shipped_catalogue());
  EXPECT_GT(all.size(), 4000U);
  for (const NamedSpread& one : all) {
    EXPECT_LE(one.spread.low, one.spread.likely) << one.name;
    EXPECT_LE(one.spread.likely, one.spread.high) << one.name;
    EXPECT_FALSE(one.spread.source.empty()) << one.name;
    EXPECT_NE(one.spread.certainty, Certainty::own_figure) << one.name;
    const bool is_price = one.name.find(".price") != std::string::npos || one.name == "tariff.";
    EXPECT_TRUE(is_price || one.spread.certainty != Certainty::invented) << one.name;
  }
}

// A figure "text_seen" must name something that can be read; common knowledge and our own judgement are no texts.
TEST(CatalogueFigures, CertaintyAndSourceAgree) {
  for (const NamedSpread& one : all_figures(shipped_catalogue())) {
    const bool is_nowhere = one.spread.source.rfind("common ", 0) == 0 || one.spread.source.rfind("our own", 0) == 0;
    EXPECT_FALSE(is_nowhere && one.spread.certainty == Certainty::text_seen) << one.name << ": " << one.spread.source;
    EXPECT_FALSE(one.spread.source == "by definition" && one.spread.certainty != Certainty::by_definition) << one.name;
  }
}

TEST(CatalogueFigures, EveryRowSaysWhereItsWordsAreFrom) {
  const Catalogue catalogue = shipped_catalogue();
  for (const Material& one : catalogue.materials) {
    EXPECT_TRUE(one.family) << one.name;
    EXPECT_FALSE(one.words_from.source.empty()) << one.name;
  }
  for (const Part& one : catalogue.parts) EXPECT_FALSE(one.words_from.source.empty()) << one.name;
  for (const Plant& one : catalogue.plants) {
    EXPECT_FALSE(one.words_from.source.empty()) << one.name;
    ASSERT_TRUE(one.salt_spray && one.wind) << one.name;
    EXPECT_FALSE(one.salt_spray->from.source.empty()) << one.name;
    EXPECT_FALSE(one.wind->from.source.empty()) << one.name;
    for (const InvasiveListing& listing : one.invasive) {
      EXPECT_FALSE(listing.list.empty() || listing.from.source.empty()) << one.name;
    }
  }
}

// What solid is left between the pores weighs something between cork and stone: a slip in density or porosity shows.
TEST(CatalogueFigures, SolidsBetweenThePoresWeighWhatSolidsWeigh) {
  int n_porous = 0;
  for (const Material& one : shipped_catalogue().materials) {
    if (!one.porosity_frac || one.porosity_frac->likely >= 1.0) continue;
    ++n_porous;
    const double solid_kg_per_m3 = one.density_kg_per_m3.likely / (1.0 - one.porosity_frac->likely);
    EXPECT_GE(solid_kg_per_m3, 550.0) << one.name;
    EXPECT_LE(solid_kg_per_m3, 3300.0) << one.name;
  }
  EXPECT_GT(n_porous, 60);
}

// Polyolefins give most, about 46 MJ/kg gross; nothing here can give more than its combustible share of that.
TEST(CatalogueFigures, NothingBurnsHotterThanItsCombustibleShare) {
  constexpr double hottest_mj_per_kg = 46.0;
  for (const Material& one : shipped_catalogue().materials) {
    ASSERT_TRUE(one.combustible_frac && one.heat_of_combustion_mj_per_kg && one.plastic_frac) << one.name;
    EXPECT_LE(one.heat_of_combustion_mj_per_kg->likely, hottest_mj_per_kg * one.combustible_frac->likely) << one.name;
    EXPECT_GE(one.heat_of_combustion_mj_per_kg->likely, 12.0 * one.combustible_frac->likely) << one.name;
  }
}

TEST(CatalogueFigures, EveryMaterialHasItsCarbonAndItsWayForVapour) {
  for (const Material& one : shipped_catalogue().materials) {
    EXPECT_TRUE(one.carbon_kg_per_kg) << one.name;
    EXPECT_TRUE(one.vapour_air_layer_m || (one.vapour_resistance_factor_dry && one.vapour_resistance_factor_wet) ||
                (one.open_area_frac && one.open_area_frac->likely > 0.2))
        << one.name;
  }
}

// Dry figures lie between still air and solid; wet ones between dry and about twice that of water.
TEST(CatalogueFigures, WetMediaConductBetweenDryAndMineral) {
  int n_wet = 0;
  for (const Material& one : shipped_catalogue().materials) {
    EXPECT_GE(one.conductivity_w_per_m_k.low, 0.02) << one.name;
    if (!one.conductivity_wet_w_per_m_k) continue;
    ++n_wet;
    EXPECT_GT(one.conductivity_wet_w_per_m_k->likely, one.conductivity_w_per_m_k.likely) << one.name;
    EXPECT_LE(one.conductivity_wet_w_per_m_k->likely, 2.0) << one.name;
  }
  EXPECT_GT(n_wet, 15);
}

/// Names of a file's rows.
std::vector<std::string> names_in(const std::string& file, const std::string& table) {
  const std::string text = tests::source_file_text("catalogue/" + file);
  const TomlLimits limits{.max_bytes = 4'000'000, .max_line_bytes = 16384, .max_depth = 16};
  const TomlNode root = parse_toml(text, file, limits).value();
  std::vector<std::string> names;
  for (const TomlNode& row : find_member(root, table)->items) names.push_back(find_member(row, "name")->text);
  return names;
}

TEST(CatalogueFigures, WhatOneBuysHasAPrice) {
  const Catalogue catalogue = shipped_catalogue();
  for (const auto& [file, table] : {std::pair{"materials.toml", "material"}, std::pair{"parts.toml", "part"}}) {
    const std::vector<std::string> names = names_in(file, table);
    EXPECT_GE(names.size(), 40U);
    for (const std::string& name : names) EXPECT_NE(find_price(catalogue, name), nullptr) << name;
  }
}

// A price without its thing is a slip in a name.
TEST(CatalogueFigures, EveryPriceIsOfSomething) {
  const Catalogue catalogue = shipped_catalogue();
  const std::vector<std::string> neither = {"disposal",      "leak repair", "lifting", "module labour", "net frame",
                                            "plant cutting", "spacer set",  "ties",    "white paint"};
  for (const PriceItem& one : catalogue.prices) {
    const bool is_thing = find_material(catalogue, one.name) != nullptr || find_part(catalogue, one.name) != nullptr ||
                          std::find(neither.begin(), neither.end(), one.name) != neither.end();
    EXPECT_TRUE(is_thing) << one.name;
  }
}

TEST(CatalogueRows, WhatHouseholdersUseIsThere) {
  const Catalogue catalogue = shipped_catalogue();
  for (const char* name : {"HDPE shade cloth",
                           "jute fabric",
                           "PP fleece",
                           "PP geotextile",
                           "reclaimed PVC banner",
                           "reed",
                           "bark chips",
                           "straw",
                           "pine cones",
                           "EPS box offcuts",
                           "green compost",
                           "coir pith",
                           "biochar",
                           "pumice",
                           "lava",
                           "expanded clay",
                           "sheep wool",
                           "recycled polyester felt",
                           "sphagnum peat",
                           "posidonia fibre",
                           "softwood",
                           "bamboo",
                           "HDPE drainage board",
                           "PIR board",
                           "XPS board",
                           "foam glass board",
                           "polymer bitumen sheet",
                           "EPDM membrane",
                           "PVC membrane",
                           "TPO membrane",
                           "hollow clay blocks",
                           "galvanised steel sheet"}) {
    EXPECT_NE(find_material(catalogue, name), nullptr) << name;
  }
  for (const char* name : {"galvanised wire tie", "cable tie, natural", "jute string", "softwood slat 20 mm",
                           "bamboo cane 20 mm", "reed bundle 40 mm", "plastic grid tile 25 mm", "grow bag 30 l",
                           "plastic pot 10 l", "plastic tub 40 l", "polystyrene fish box 20 l", "rain barrel 200 l"}) {
    EXPECT_NE(find_part(catalogue, name), nullptr) << name;
  }
  for (const char* name : {"carob", "stone pine", "strawberry", "tomato", "lettuce", "onion", "green bean", "courgette",
                           "basil", "prickly pear", "houseleek", "purslane"}) {
    EXPECT_NE(find_plant(catalogue, name), nullptr) << name;
  }
  EXPECT_EQ(find_part(catalogue, "golden tie"), nullptr);
}

TEST(CatalogueRows, ASheetIsWhiterFreshThanWeathered) {
  const Catalogue catalogue = shipped_catalogue();
  std::map<FinishAge, int> n_of_age;
  for (const Finish& one : catalogue.finishes) ++n_of_age[one.age];
  EXPECT_GE(n_of_age[FinishAge::fresh], 5);
  EXPECT_GE(n_of_age[FinishAge::weathered], 10);
  EXPECT_GT(find_finish(catalogue, "TPO, white, new")->albedo.likely,
            find_finish(catalogue, "TPO, white, weathered")->albedo.likely);
  EXPECT_GT(find_finish(catalogue, "white membrane, new")->albedo.likely,
            find_finish(catalogue, "white membrane, weathered")->albedo.likely);
  EXPECT_LT(find_finish(catalogue, "EPDM, black")->albedo.likely,
            find_finish(catalogue, "EPDM, black, weathered")->albedo.likely);  // dust
}

TEST(CatalogueRows, ValuesOfPublishedTables) {
  const Catalogue catalogue = shipped_catalogue();
  struct Row {
    const char* id;
    const char* what;
    const char* source;
    double expected;
    double got;
  };
  const auto plant = [&catalogue](const char* name) { return *find_plant(catalogue, name); };
  const auto material = [&catalogue](const char* name) { return *find_material(catalogue, name); };
  const char* const table_22 = "[allen1998] Table 22 (text seen)";
  const char* const table_23 = "[allen1998] Table 23 (text seen)";
  const char* const table_12 = "[allen1998] Table 12 (text seen)";
  const char* const detail = "[detail_insulation] table of conductivities (text seen)";
  const Row rows[] = {
      {"CAT-01", "strawberry, share of water taken without harm", table_22, 0.20,
       plant("strawberry").easy_water_frac->likely},
      {"CAT-02", "lettuce, the same", table_22, 0.30, plant("lettuce").easy_water_frac->likely},
      {"CAT-03", "sweet potato, the same", table_22, 0.65, plant("sweet potato").easy_water_frac->likely},
      {"CAT-04", "tomato, salt threshold, low, dS/m", table_23, 0.9, plant("tomato").salt_threshold_ds_per_m->low},
      {"CAT-05", "tomato, salt threshold, high, dS/m", table_23, 2.5, plant("tomato").salt_threshold_ds_per_m->high},
      {"CAT-06", "courgette, salt threshold, dS/m", table_23, 4.7, plant("courgette").salt_threshold_ds_per_m->likely},
      {"CAT-07", "carrot, salt threshold, dS/m", table_23, 1.0, plant("carrot").salt_threshold_ds_per_m->likely},
      {"CAT-08", "aubergine, height, mm", table_12, 800, plant("aubergine").foliage.height_mm.likely},
      {"CAT-09", "strawberry, height, mm", table_12, 200, plant("strawberry").foliage.height_mm.likely},
      {"CAT-10", "reed, conductivity, low, W/(m K)", detail, 0.055, material("reed").conductivity_w_per_m_k.low},
      {"CAT-11", "reed, conductivity, high, W/(m K)", detail, 0.090, material("reed").conductivity_w_per_m_k.high},
      {"CAT-12", "coir mat, conductivity, high, W/(m K)", detail, 0.050,
       material("coir mat").conductivity_w_per_m_k.high},
      {"CAT-13", "asphalt, resistance to vapour",
       "[iso10456] as quoted by the Swiss register of building materials, asphalt (text seen)", 50000,
       material("asphalt").vapour_resistance_factor_dry->likely},
      {"CAT-14", "flax mat, kg CO2 a kg", "[scirep2024] Table 2 (text seen)", 1.70,
       material("flax mat").carbon_kg_per_kg->likely},
      {"CAT-15", "worm compost, pores", "[anicua2008] vermicompost 2-3.36 mm (text seen)", 0.677,
       material("worm compost").porosity_frac->likely},
  };
  for (const Row& row : rows) {
    check_reference({.id = row.id,
                     .what = row.what,
                     .source = row.source,
                     .expected = row.expected,
                     .got = row.got,
                     .tolerance = 1e-9,
                     .reason = "the same digits",
                     .function = "catalogue::read_catalogue"});
  }
}

}  // namespace
}  // namespace houseleek::catalogue
