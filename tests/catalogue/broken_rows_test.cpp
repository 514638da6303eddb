// Broken rows of every table: each slip has its own issue with its place, all in one pass.
#include <gtest/gtest.h>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::catalogue {
namespace {

using tests::shipped_catalogue;
using tests::source_file_text;

std::string messages_of(const Issues& issues) {
  std::string all;
  for (const Issue& issue : issues) all += issue.file + ":" + std::to_string(issue.line) + ": " + issue.message + "\n";
  return all;
}

/// The shipped files and one more.
std::string messages_with(const std::string& text) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  files.push_back({"more.toml", text});
  const Result<Catalogue> read = read_catalogue(files);
  return read ? "no issue" : messages_of(read.error());
}

void expect_messages(const std::string& all, const std::vector<const char*>& wanted) {
  for (const char* one : wanted) EXPECT_NE(all.find(one), std::string::npos) << one << "\nis not among\n" << all;
}

constexpr const char* head = "[source]\nx = \"a book\"\n";
constexpr const char* three_figures =
    R"(density_kg_per_m3 = { low = 1, likely = 20, high = 30, source = "x", certainty = "estimate" }
conductivity_w_per_m_k = { low = 0.1, likely = 0.2, high = 0.3, source = "x", certainty = "estimate" }
heat_capacity_j_per_kg_k = { low = 900, likely = 1000, high = 1100, source = "x", certainty = "estimate" }
)";

TEST(BrokenRows, WordsOfAMaterial) {
  const std::string all = messages_with(std::string(head) + R"([[material]]
name = "mud"
family = "minerals"
hazards = ["dust", "fibre", "dust", 3]
near_food = "perhaps"
preparations = "sieve"
source = "y"
)" + three_figures);
  expect_messages(
      all,
      {"more.toml:5: material[0].family is \"minerals\"", "more.toml:6: material[0].hazards[1] is \"fibre\"",
       "more.toml:6: material[0].hazards[2] is there twice: dust",
       "more.toml:6: material[0].hazards[3] is 3; material[0].hazards must be a list of words",
       "more.toml:7: material[0].near_food is \"perhaps\"", "more.toml:8: ", "preparations",
       "more.toml:9: material[0].source is \"y\"; no source of that name is known", "material[0].certainty is missing",
       "more.toml:10: material[0].density_kg_per_m3.low is 1; it must be from 5 to 9000 kg/m3"});
}

TEST(BrokenRows, FiguresOfAMaterialMustFollowFromOneAnother) {
  const auto figure = [](const char* key, double value) {
    return std::string(key) + " = { low = " + std::to_string(value) + ", likely = " + std::to_string(value) +
           ", high = " + std::to_string(value) + ", source = \"x\", certainty = \"estimate\" }\n";
  };
  const std::string all =
      messages_with(std::string(head) +
                    "[[material]]\nname = \"mud\"\nfamily = \"mineral\"\nsource = \"x\"\ncertainty = \"estimate\"\n" +
                    figure("density_kg_per_m3", 900) + figure("conductivity_w_per_m_k", 0.5) +
                    figure("heat_capacity_j_per_kg_k", 1000) + figure("conductivity_wet_w_per_m_k", 0.4) +
                    figure("vapour_resistance_factor_dry", 5) + figure("vapour_resistance_factor_wet", 8) +
                    figure("service_life_years", 3) + figure("service_life_in_sun_years", 4) +
                    figure("combustible_frac", 0.2) + figure("plastic_frac", 0.3) +
                    figure("solar_transmittance_aged_frac", 0.6) + figure("solar_reflectance_aged_frac", 0.6) +
                    figure("emissivity", 0.9) + figure("longwave_transmittance_frac", 0.3));
  expect_messages(all, {"material[0].conductivity_w_per_m_k (0.5) is above conductivity_wet_w_per_m_k (0.4)",
                        "material[0].vapour_resistance_factor_wet (8) is above vapour_resistance_factor_dry (5)",
                        "material[0].service_life_in_sun_years (4) is above service_life_years (3)",
                        "material[0].plastic_frac (0.3) is above combustible_frac (0.2)",
                        "material[0].solar_transmittance_aged_frac and solar_reflectance_aged_frac are more than 1",
                        "material[0].longwave_transmittance_frac and emissivity are more than 1"});
}

TEST(BrokenRows, Parts) {
  const std::string figures = R"(mass_kg = { low = 1, likely = 2, high = 3, source = "x", certainty = "estimate" }
carbon_kg_per_kg = { low = 1, likely = 2, high = 3, source = "x", certainty = "estimate" }
plastic_frac = { low = 0, likely = 2, high = 3, source = "x", certainty = "estimate" }
service_life_years = { low = 1, likely = 2, high = 3, source = "x", certainty = "estimate" }
service_life_in_sun_years = { low = 1, likely = 3, high = 3, source = "x", certainty = "estimate" }
)";
  const std::string all = messages_with(
      std::string(head) + "[[part]]\nname = \"tub\"\nuse = \"container\"\nfamily = \"metal\"\nsource = \"x\"\n" +
      "certainty = \"estimate\"\n" + figures + "[[part]]\nname = \"tub\"\nuse = \"hat\"\n" +
      "[[part]]\nname = \"peg\"\nuse = \"spacer\"\n");
  expect_messages(all, {"part[0].volume_l is missing", "part[0].foot_area_cm2 is missing",
                        "more.toml:11: part[0].plastic_frac.likely is 2; it must be from 0 to 1",
                        "more.toml:13: part[0].service_life_in_sun_years (3) is above service_life_years (2)",
                        "part[1].name is there twice: tub", "part[1].use is \"hat\"", "part[1].family is missing",
                        "part[1].mass_kg is missing", "part[2].height_mm is missing",
                        "part[2].pieces_per_module is missing", "part[2].blocked_frac is missing"});
}

TEST(BrokenRows, Raising) {
  const std::string all = messages_with(std::string(head) + R"([[raising]]
way = "hope"
groups = ["herb", "moss"]
begin_months = [2, 14]
taking_frac = { low = 0.1, likely = 60, high = 0.9, source = "x", certainty = "estimate" }
taken_after_days = { low = 1, likely = 2, high = 3, source = "x", certainty = "estimate" }
pots = 3
[[raising]]
way = "seed"
begin_months = [2, 4]
taking_frac = { low = 0.1, likely = 0.6, high = 0.9, source = "x", certainty = "estimate" }
keeping_frac = { low = 0.1, likely = 0.6, high = 0.9, source = "x", certainty = "estimate" }
taken_after_days = { low = 10, likely = 20, high = 30, source = "x", certainty = "estimate" }
potted_on_after_days = { low = 4, likely = 15, high = 16, source = "x", certainty = "estimate" }
ready_after_days = { low = 5, likely = 14, high = 17, source = "x", certainty = "estimate" }
)");
  expect_messages(all, {"raising[0].way is \"hope\"", "raising[0].groups[1] is \"moss\"",
                        "more.toml:6: raising[0].begin_months[1] is 14", "raising[0].taking_frac.likely is 60",
                        "raising[0].keeping_frac is missing", "raising[0].ready_after_days is missing", "pots",
                        "more.toml:16: raising[1].potted_on_after_days is before taken_after_days",
                        "more.toml:17: raising[1].ready_after_days is before potted_on_after_days"});
}

TEST(BrokenRows, Plants) {
  const std::string all = messages_with(std::string(head) + R"([[plant]]
name = "Rosa"
group = "herbs"
sun = []
climates = ["moon"]
carbon_way = "c5"
salt_spray = { tolerance = "much", source = "x", certainty = "estimate" }
bee_worth = 4
bloom_months = [5, 13]
lowest_temperature_c = { low = -90, likely = -5, high = 0, source = "x", certainty = "estimate" }
[[plant.invasive]]
country = "Spain"
new_plant = "allowed"
from_wild = "ask_first"
source = "x"
certainty = "estimate"
[[plant]]
name = "Viola"
bloom_months = [4.5, 6]
)");
  expect_messages(all, {"plant[0].group is \"herbs\"",
                        "plant[0].sun",
                        "plant[0].climates[0] is \"moon\"",
                        "plant[0].carbon_way is \"c5\"",
                        "plant[0].salt_spray.tolerance is \"much\"",
                        "plant[0].wind is missing",
                        "plant[0].raised_from is missing",
                        "plant[0].lifespan is missing",
                        "plant[0].bee_worth is 4",
                        "plant[0].bloom_months[1] is 13",
                        "plant[0].lowest_temperature_c.low is -90",
                        "plant[0].medium_depth_mm is missing",
                        "plant[0].width_mm is missing",
                        "plant[0].dry_spell_days is missing",
                        "plant[0].source is missing",
                        "plant[0].invasive[0].country is \"Spain\"; it must be two capital",
                        "plant[0].invasive[0].list is missing",
                        "plant[0].invasive[0].new_plant is \"allowed\"",
                        "plant[0].invasive[0].already_here is missing",
                        "plant[1].group is missing",
                        "more.toml:21: plant[1].bloom_months[0] is 4.5; it must be a whole number"});
}

TEST(BrokenRows, FinishesAndWaits) {
  const std::string sound = R"(albedo = { low = 0.1, likely = 0.2, high = 0.3, source = "x", certainty = "estimate" }
emissivity = { low = 0.8, likely = 0.9, high = 0.95, source = "x", certainty = "estimate" }
)";
  const std::string all = messages_with(std::string(head) + R"([waits_for.material]
carbon_kg_per_kgs = "carbon"
hazards = 3
[waits_for.plants]
wind = "wind"
[[finish]]
name = "mirror"
age = "old"
)" + sound);
  expect_messages(all,
                  {"more.toml:4: waits_for.material.carbon_kg_per_kgs is not known here",
                   "more.toml:6: waits_for.plants is not known here", "more.toml:5: waits_for.material.hazards is 3",
                   "finish[0].membrane is missing", "more.toml:10: finish[0].age is \"old\""});
  const std::string loose = messages_with(std::string(head) + "[[finish]]\nname = \"mirror\"\nage = \"fresh\"\n" +
                                          "membrane = \"silver\"\n" + sound);
  expect_messages(loose, {"the finish \"mirror\" is the face of \"silver\", which is no material of the catalogue"});
}

TEST(BrokenRows, Cautions) {
  const std::string all = messages_with(R"([[caution]]
id = "membrane"
when = "full moon"
beside = "the bed"
text = "Beware."
source = "x"
[[caution]]
id = "other"
)");
  expect_messages(
      all, {"more.toml:2: caution[0].id is there twice: membrane", "more.toml:3: caution[0].when is \"full moon\"",
            "more.toml:4: caution[0].beside is \"the bed\"", "caution[0].first_page is missing",
            "caution[1].when is missing", "caution[1].text is missing"});
}

// A person may use every column in a design, with a number alone, and change one figure of a row of the catalogue.
TEST(OwnEntries, UseEveryColumn) {
  const std::string text = source_file_text("schema/valid/own-materials.toml");
  const Catalogue catalogue = shipped_catalogue();
  const Result<design::ValidDesign> read = design::read_design(text, "own-materials.toml", catalogue);
  ASSERT_TRUE(read) << messages_of(read.error());
  const std::vector<Material>& own = read.value()->own_materials;
  ASSERT_EQ(own.size(), 3U);
  const Material& banner = own[0];
  EXPECT_TRUE(banner.is_own);
  EXPECT_EQ(banner.family, Family::pvc);
  EXPECT_EQ(banner.hazards, std::vector<Hazard>{Hazard::foil});
  EXPECT_EQ(banner.near_food, NearFood::no);
  EXPECT_EQ(banner.preparation, "wash off the glue");
  EXPECT_EQ(banner.words_from, (Origin{"our scale and a kitchen thermometer", Certainty::own_figure}));
  EXPECT_EQ(banner.vapour_air_layer_m->likely, 10.0);
  EXPECT_EQ(banner.vapour_air_layer_m->certainty, Certainty::own_figure);
  EXPECT_EQ(banner.service_life_in_sun_years->high, 8.0);
  EXPECT_EQ(banner.heat_of_combustion_mj_per_kg->likely, 20.0);
  EXPECT_EQ(banner.plastic_frac->likely, 0.9);
  EXPECT_EQ(banner.lasting_pressure_kpa->likely, 200.0);
  EXPECT_EQ(own[1].water_at_80_percent_kg_per_m3->high, 100.0);
  EXPECT_EQ(own[1].free_water_kg_per_m3->certainty, Certainty::own_figure);
  EXPECT_EQ(own[1].water_absorption_kg_per_m2_s05->likely, 0.004);
  const Material& compost = own[2];
  const Material& shipped = *find_material(catalogue, "green compost");
  EXPECT_EQ(compost.density_kg_per_m3.likely, 510.0);
  EXPECT_EQ(compost.carbon_kg_per_kg, shipped.carbon_kg_per_kg);
  EXPECT_EQ(compost.hazards, shipped.hazards);
  EXPECT_EQ(compost.words_from, shipped.words_from);
}

}  // namespace
}  // namespace houseleek::catalogue
