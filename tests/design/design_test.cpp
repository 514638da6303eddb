// What a valid design comes out as: defaults filled in and listed, materials looked up, modules laid out.
#include <gtest/gtest.h>

#include <algorithm>

#include "design/parse.hpp"
#include "small_design.hpp"

namespace houseleek::design {
namespace {

using tests::shipped_catalogue;
using tests::small_with;
using tests::spelled_out_design_text;

ValidDesign read_valid(std::string_view text) {
  Result<ValidDesign> read = read_design(text, "roof.toml", shipped_catalogue());
  if (!read) throw std::runtime_error(text_from_issues(read.error(), text));
  return std::move(read).value();
}

const Assumption* find_assumption(const ValidDesign& design, std::string_view path) {
  for (const Assumption& one : design.assumed()) {
    if (one.path == path) return &one;
  }
  return nullptr;
}

TEST(Design, TerraceHouse) {
  const ValidDesign design = read_valid(tests::source_file_text("examples/01-terrace-house/roof.toml"));
  EXPECT_TRUE(design.warnings().empty());
  EXPECT_NEAR(geometry::area_m2(design->roof.outline), 63.84, 1e-9);
  EXPECT_EQ(design->rooms.size(), 4U);
  double rooms_m2 = 0.0;
  for (const Room& room : design->rooms) rooms_m2 += geometry::area_m2(room.outline);
  EXPECT_NEAR(rooms_m2, 63.84, 1e-9);
  EXPECT_EQ(design->partitions.size(), 5U);
  EXPECT_EQ(design->recipes.size(), 2U);
  EXPECT_EQ(design->roof.outlets.size(), 2U);
  EXPECT_EQ(design->roof.hollows.size(), 1U);
  EXPECT_EQ(design->modules.size(), 24U);
  ASSERT_TRUE(design->roof.allowable_load);
  EXPECT_EQ(design->roof.allowable_load->when, "2023-10-12");
  EXPECT_FALSE(design->roof.allowable_load->averaging_area_m2);
  EXPECT_EQ(design->prices.currency, "EUR");
  ASSERT_TRUE(design->climate.normals);
  EXPECT_EQ(design->climate.normals->max_c[6], 33.4);
  // 4.2 m by 2.7 m less the window of 1.8 m2 on the same side.
  EXPECT_NEAR(design->rooms[0].walls[0].area_m2, 9.54, 1e-9);
}

TEST(Design, EveryDefaultIsListedWithItsRange) {
  const ValidDesign design = read_valid(spelled_out_design_text());
  const char* paths[] = {"site.wind_factor",
                         "roof.finish.albedo",
                         "roof.outlet[0].diameter_mm",
                         "room[0].height_m",
                         "room[0].thermal_mass",
                         "room[1].infiltration_per_h",
                         "room[0].window_rule.opening_per_h",
                         "room[0].gains_day_w_per_m2",
                         "room[0].heat_to_c",
                         "partition[0].u_value_w_per_m2_k",
                         "recipe[0].canopy.leaf_area_index",
                         "recipe[0].canopy.ground_resistance_s_per_m",
                         "recipe[0].spacer.gap_wind_frac",
                         "recipe[0].spacer.blocked_frac",
                         "rivals.white_albedo_aged",
                         "tariff.electricity_per_kwh",
                         "prices[expanded clay]",
                         "material[expanded clay].field_capacity_frac",
                         "material[reinforced concrete].conductivity_w_per_m_k"};
  for (const char* path : paths) {
    const Assumption* found = find_assumption(design, path);
    ASSERT_NE(found, nullptr) << path;
    EXPECT_LT(found->low, found->high) << path;
    EXPECT_LE(found->low, found->likely) << path;
    EXPECT_LE(found->likely, found->high) << path;
    EXPECT_FALSE(found->name.empty()) << path;
    EXPECT_FALSE(found->source.empty()) << path;
  }
  // Said by the person: not assumed.
  EXPECT_EQ(find_assumption(design, "recipe[0].plant[0].cover_frac"), nullptr);
  EXPECT_EQ(find_assumption(design, "site.latitude_deg"), nullptr);
  std::vector<std::string> seen;
  for (const Assumption& one : design.assumed()) seen.push_back(one.path);
  std::sort(seen.begin(), seen.end());
  EXPECT_EQ(std::adjacent_find(seen.begin(), seen.end()), seen.end());
}

TEST(Design, ASaidFigureReplacesTheAssumedOne) {
  const ValidDesign design =
      read_valid(small_with("name = \"workshop\"", "name = \"workshop\"\ninfiltration_per_h = 0.7"));
  EXPECT_EQ(design->rooms[0].infiltration_per_h, 0.7);
  EXPECT_EQ(find_assumption(design, "room[0].infiltration_per_h"), nullptr);
  EXPECT_NE(find_assumption(design, "room[1].infiltration_per_h"), nullptr);
}

// Gains a square metre are multiplied by the room's own floor: 4 W/m2 over 12 m2 by default.
TEST(Design, GainsBySquareMetreOrByRoom) {
  EXPECT_NEAR(read_valid(spelled_out_design_text())->rooms[0].gains_day_w, 48.0, 1e-9);
  const std::string said =
      small_with("name = \"workshop\"", "name = \"workshop\"\ngains_day_w = 100\ngains_night_w_per_m2 = 2");
  EXPECT_EQ(read_valid(said)->rooms[0].gains_day_w, 100.0);
  EXPECT_NEAR(read_valid(said)->rooms[0].gains_night_w, 24.0, 1e-9);
}

TEST(Design, OwnMaterialsComeBeforeTheCatalogue) {
  const std::string own = R"([[material]]
name = "Expanded Clay"
density_kg_per_m3 = 555
field_capacity_frac = { low = 0.1, likely = 0.12, high = 0.2, source = "bucket on a kitchen scale" }
)";
  const ValidDesign design = read_valid(spelled_out_design_text() + own);
  const catalogue::Material& clay = design->recipes[0].layers[1].layer.material;
  EXPECT_TRUE(clay.is_own);
  EXPECT_EQ(clay.density_kg_per_m3.likely, 555.0);
  EXPECT_EQ(clay.density_kg_per_m3.certainty, catalogue::Certainty::own_figure);
  EXPECT_EQ(clay.field_capacity_frac->source, "bucket on a kitchen scale");
  // What the entry leaves out stays as the catalogue has it.
  EXPECT_EQ(clay.porosity_frac, catalogue::find_material(shipped_catalogue(), "expanded clay")->porosity_frac);
  // An owner's figure is no assumption; the catalogue's still are.
  EXPECT_EQ(find_assumption(design, "material[Expanded Clay].density_kg_per_m3"), nullptr);
  EXPECT_NE(find_assumption(design, "material[Expanded Clay].porosity_frac"), nullptr);
  EXPECT_EQ(design->own_materials.size(), 1U);
}

TEST(Design, ANewMaterialNeedsAllItIsUsedFor) {
  const std::string text = small_with("\"expanded clay\"", "\"seed husks\"") +
                           "[[material]]\nname = \"seed husks\"\nwet_rule = \"fibrous\"\ndensity_kg_per_m3 = 90\n"
                           "conductivity_w_per_m_k = 0.06\n";
  const std::string issues = tests::shown(text);
  EXPECT_NE(issues.find("material[0].heat_capacity_j_per_kg_k is missing"), std::string::npos) << issues;
  EXPECT_NE(issues.find("material[0].field_capacity_frac is missing"), std::string::npos) << issues;
}

TEST(Design, CanopyIsTheMeanByCover) {
  const std::string two = small_with(
      "cover_frac = 0.5", "cover_frac = 0.3\n[[recipe.plant]]\nname = \"Thymus serpyllum\"\ncover_frac = 0.1");
  const ValidDesign design = read_valid(two);
  const Canopy& canopy = design->recipes[0].canopy;
  EXPECT_NEAR(canopy.cover_frac, 0.4, 1e-12);
  // White stonecrop 100 mm high on three quarters of the cover, creeping thyme 60 mm on one: 90 mm.
  EXPECT_NEAR(canopy.height_mm, 90.0, 1e-9);
  // Least stomatal resistance of the groups: 400 and 140 s/m.
  EXPECT_NEAR(canopy.least_stomatal_resistance_s_per_m, 0.75 * 400.0 + 0.25 * 140.0, 1e-9);
  const std::string own = small_with("cover_frac = 0.5", "cover_frac = 0.5\n[recipe.canopy]\nleaf_area_index = 1.1");
  EXPECT_EQ(read_valid(own)->recipes[0].canopy.leaf_area_index, 1.1);
  EXPECT_EQ(find_assumption(read_valid(own), "recipe[0].canopy.leaf_area_index"), nullptr);
}

TEST(Design, PlantsThatWantMoreDepthAreAWarning) {
  const ValidDesign design = read_valid(small_with("Sedum album", "Salvia rosmarinus (prostrate)"));
  ASSERT_EQ(design.warnings().size(), 1U);
  EXPECT_EQ(design.warnings()[0].severity, Severity::warning);
  EXPECT_EQ(design.warnings()[0].message, "Salvia rosmarinus (prostrate) wants 150 mm of medium; this recipe has 60");
}

TEST(Design, AZoneFarFromTheLongitudeIsAWarning) {
  const ValidDesign design = read_valid(small_with("longitude_deg = 23.7", "longitude_deg = -123.7"));
  ASSERT_EQ(design.warnings().size(), 1U);
  EXPECT_EQ(design.warnings()[0].path, "site.time_zone");
}

TEST(Design, ModulesLieInColumnsAndRows) {
  const ValidDesign design = read_valid(spelled_out_design_text());
  ASSERT_EQ(design->modules.size(), 6U);
  const ModulePlace& last = design->modules.back();
  EXPECT_EQ(last.column, 1);
  EXPECT_EQ(last.row, 2);
  EXPECT_NEAR(last.rectangle.left_m, 1.0 + 1.05, 1e-12);
  EXPECT_NEAR(last.rectangle.bottom_m, 0.5 + 2 * 0.55, 1e-12);
  EXPECT_NEAR(last.rectangle.right_m - last.rectangle.left_m, 1.0, 1e-12);
  EXPECT_NEAR(last.rectangle.top_m - last.rectangle.bottom_m, 0.5, 1e-12);
  const ValidDesign turned = read_valid(small_with("rows = 3", "rows = 2\nturned = true"));
  EXPECT_NEAR(turned->modules[0].rectangle.right_m - turned->modules[0].rectangle.left_m, 0.5, 1e-12);
  EXPECT_NEAR(turned->modules[0].rectangle.top_m - turned->modules[0].rectangle.bottom_m, 1.0, 1e-12);
}

// Patches in another order, rooms in another order: the same roof.
TEST(Design, OrderOfPatchesDoesNotMatter) {
  const std::string second =
      "[[patch]]\nrecipe = \"thin\"\ncolumns = 1\nrows = 2\norigin = [4, 1]\nplaced = \"flat\"\n";
  const std::string text = spelled_out_design_text();
  const std::size_t at = text.find("[[patch]]");
  const ValidDesign forwards = read_valid(text + second);
  const ValidDesign backwards = read_valid(text.substr(0, at) + second + text.substr(at));
  const auto places = [](const ValidDesign& design) {
    std::vector<std::array<double, 5>> all;
    for (const ModulePlace& place : design->modules) {
      const bool is_raised = design->patches[static_cast<std::size_t>(place.patch)].placed == Placed::raised;
      all.push_back({place.rectangle.left_m, place.rectangle.bottom_m, place.rectangle.right_m, place.rectangle.top_m,
                     is_raised ? 1.0 : 0.0});
    }
    std::sort(all.begin(), all.end());
    return all;
  };
  EXPECT_EQ(places(forwards), places(backwards));
  EXPECT_EQ(places(forwards).size(), 8U);
  EXPECT_EQ(forwards->roof, backwards->roof);
  EXPECT_EQ(forwards.assumed(), backwards.assumed());
}

TEST(Design, OrderOfTablesDoesNotMatter) {
  const std::string text = spelled_out_design_text();
  const std::size_t site = text.find("[site]");
  const std::size_t roof = text.find("[roof]");
  const std::string moved = text.substr(0, site) + text.substr(roof) + text.substr(site, roof - site);
  EXPECT_EQ(*read_valid(moved), *read_valid(text));
}

TEST(Design, AnotherCurrencyUsesNoCataloguePrice) {
  const std::string text = spelled_out_design_text() + "[prices]\ncurrency = \"INR\"\n";
  EXPECT_NE(tests::shown(text).find("tariff is missing"), std::string::npos);
  const ValidDesign design =
      read_valid(text + "[tariff]\nelectricity_per_kwh = 8\nheating_per_kwh = 6\nwater_per_m3 = 20\n");
  EXPECT_TRUE(design->prices.items.empty());
  EXPECT_EQ(design->prices.tariff.electricity_per_kwh.likely, 8.0);
}

TEST(Design, OwnPricesComeBeforeTheCatalogue) {
  const std::string text = spelled_out_design_text() + "[[prices.item]]\nname = \"Expanded clay\"\nprice_per_m3 = 0\n";
  const ValidDesign design = read_valid(text);
  int n_found = 0;
  for (const catalogue::PriceItem& item : design->prices.items) {
    if (item.name != "expanded clay") continue;
    ++n_found;
    EXPECT_EQ(item.price.likely, 0.0);
  }
  EXPECT_EQ(n_found, 1);
  EXPECT_EQ(find_assumption(design, "prices[expanded clay]"), nullptr);
}

TEST(Design, RivalsMayBeChanged) {
  const ValidDesign design =
      read_valid(spelled_out_design_text() + "[rivals]\nboard_thickness_mm = 100\nboard_material = \"EPS board\"\n");
  EXPECT_EQ(design->rivals.board.thickness_mm, 100.0);
  EXPECT_EQ(design->rivals.board.material.name, "EPS board");
  EXPECT_EQ(design->rivals.ballast.material.name, "gravel 16/32");
}

TEST(Design, ClimateFromAFile) {
  const std::string text = spelled_out_design_text();
  const std::size_t from = text.find("[climate.normals]");
  const std::size_t to = text.find("[roof]");
  const std::string with_file = text.substr(0, from) + "[climate]\nfile = \"weather.csv\"\n" + text.substr(to);
  EXPECT_EQ(read_valid(with_file)->climate.file, "weather.csv");
  const std::string with_neither = text.substr(0, from) + "[climate]\nseed = 3\n" + text.substr(to);
  EXPECT_NE(tests::shown(with_neither).find("climate has neither normals nor file"), std::string::npos);
}

TEST(Design, FinishByNameOrByNumbers) {
  EXPECT_EQ(read_valid(small_with("[roof]\n", "[roof]\nfinish = \"gravel, grey\"\n"))->roof.finish.albedo, 0.30);
  const ValidDesign own = read_valid(small_with("[roof]\n", "[roof]\nfinish = { albedo = 0.77 }\n"));
  EXPECT_EQ(own->roof.finish.albedo, 0.77);
  EXPECT_EQ(find_assumption(own, "roof.finish.albedo"), nullptr);
  EXPECT_NE(find_assumption(own, "roof.finish.emissivity"), nullptr);
}

TEST(Design, WateringBySeasonOrByStore) {
  const auto with_watering = [](std::string_view lines) {
    return small_with("[[patch]]", "[recipe.watering]\n" + std::string(lines) + "\n[[patch]]");
  };
  const ValidDesign seasons = read_valid(with_watering("summer_every_days = 7\nlitres_per_module = 8"));
  EXPECT_EQ(seasons->recipes[0].watering->summer_every_days, 7.0);
  EXPECT_NE(tests::shown(with_watering("litres_per_module = 8")).find("recipe[0].watering says not when to water"),
            std::string::npos);
  EXPECT_NE(tests::shown(with_watering("summer_every_days = 7\nwhen_store_below_frac = 0.3\nlitres_per_module = 8"))
                .find("recipe[0].watering says twice when to water"),
            std::string::npos);
}

}  // namespace
}  // namespace houseleek::design
