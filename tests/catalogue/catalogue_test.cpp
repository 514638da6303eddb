// The shipped catalogue reads without an issue, carries its sources, and a broken one is refused with places.
#include "catalogue/catalogue.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "catalogue/properties.hpp"
#include "support/catalogue_files.hpp"
#include "support/reference_check.hpp"

namespace houseleek::catalogue {
namespace {

using tests::check_reference;
using tests::shipped_catalogue;

TEST(Catalogue, ShippedFilesReadWithoutAnIssue) {
  const Catalogue catalogue = shipped_catalogue();
  EXPECT_EQ(catalogue.currency, "EUR");
  EXPECT_GE(catalogue.plants.size(), 90U);
  EXPECT_EQ(catalogue.plant_groups.size(), 6U);
  EXPECT_GE(catalogue.parts.size(), 40U);
}

TEST(Catalogue, OrderOfFilesDoesNotMatter) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  const Catalogue forwards = read_catalogue(files).value();
  std::reverse(files.begin(), files.end());
  EXPECT_EQ(read_catalogue(files).value(), forwards);
}

TEST(Catalogue, NamesAreFoundHoweverTheyAreTyped) {
  const Catalogue catalogue = shipped_catalogue();
  ASSERT_NE(find_material(catalogue, "Crushed  Brick"), nullptr);
  EXPECT_EQ(find_material(catalogue, "granite"), nullptr);
  EXPECT_EQ(find_plant(catalogue, "white stonecrop"), find_plant(catalogue, "SEDUM ALBUM"));
  ASSERT_NE(find_plant(catalogue, "sedum album"), nullptr);
  ASSERT_NE(find_finish(catalogue, "bitumen, weathered"), nullptr);
  ASSERT_NE(find_price(catalogue, "white paint"), nullptr);
}

TEST(Catalogue, EveryFigureHasARisingRangeAndASource) {
  const Catalogue catalogue = shipped_catalogue();
  int n_figures = 0;
  const auto check = [&n_figures](const Spread& spread, std::string_view what) {
    ++n_figures;
    EXPECT_LE(spread.low, spread.likely) << what;
    EXPECT_LE(spread.likely, spread.high) << what;
    EXPECT_FALSE(spread.source.empty()) << what;
    EXPECT_NE(spread.certainty, Certainty::own_figure) << what;
  };
  for (const Material& material : catalogue.materials) {
    for (const MaterialProperty& property : material_properties()) {
      if (const Spread* figure = find_property(material, property)) check(*figure, material.name);
    }
  }
  for (const Plant& plant : catalogue.plants) {
    for (const FoliageProperty& property : foliage_properties()) check(plant.foliage.*property.figure, plant.name);
  }
  EXPECT_GT(n_figures, 1000);
}

// Every price is made up, and says so.
TEST(Catalogue, PricesAreMarkedInvented) {
  for (const PriceItem& item : shipped_catalogue().prices)
    EXPECT_EQ(item.price.certainty, Certainty::invented) << item.name;
}

TEST(Catalogue, ShadeClothHasBothLives) {
  const Material cloth = *find_material(shipped_catalogue(), "HDPE shade cloth");
  ASSERT_TRUE(cloth.service_life_in_sun_years && cloth.service_life_years);
  EXPECT_EQ(cloth.service_life_in_sun_years->low, 1.0);
  EXPECT_EQ(cloth.service_life_in_sun_years->high, 2.0);
  EXPECT_EQ(cloth.service_life_in_sun_years->source, "common practice in full sun, no source");
  EXPECT_EQ(cloth.service_life_years->low, 5.0);
  EXPECT_EQ(cloth.service_life_years->high, 10.0);
}

// The exponent is defined by the drained state: K_s Se^b is 1 mm a day there.
TEST(Catalogue, DrainageIsOneMillimetreADayAtFieldCapacity) {
  int n_media = 0;
  for (const Material& material : shipped_catalogue().materials) {
    if (!holds_water(material)) continue;
    ++n_media;
    const double effective = (material.field_capacity_frac->likely - material.residual_water_frac->likely) /
                             (material.saturated_water_frac->likely - material.residual_water_frac->likely);
    const double flow_mm_per_d = 24.0 * material.saturated_conductivity_mm_per_h->likely *
                                 std::pow(effective, material.brooks_corey_exponent->likely);
    EXPECT_NEAR(flow_mm_per_d, 1.0, 0.01) << material.name;  // the exponent is written with four digits
  }
  EXPECT_GT(n_media, 20);
}

TEST(Catalogue, ValuesOfTheStandards) {
  const Catalogue catalogue = shipped_catalogue();
  struct Row {
    const char* id;
    const char* name;
    double density_kg_per_m3;
    double conductivity_w_per_m_k;
    const char* source;
  };
  const Row rows[] = {
      {"MAT-01", "reinforced concrete", 2400, 2.5, "[iso10456] Table 3 (text seen)"},
      {"MAT-02", "dense concrete", 2400, 2.0, "[iso10456] Table 3 (text seen)"},
      {"MAT-03", "bitumen felt", 1100, 0.23, "[iso10456] Table 3 (text seen)"},
      {"MAT-04", "softwood", 500, 0.13, "[iso10077] (text seen)"},
      {"MAT-05", "HDPE sheet", 980, 0.50, "[iso10077] (text seen)"},
      {"MAT-06", "lightweight screed", 1200, 0.41, "[cibse_a] (from memory)"},
      {"MAT-07", "gypsum plaster", 1000, 0.40, "[iso10456] Table 3 (from memory)"},
  };
  for (const Row& row : rows) {
    const Material* material = find_material(catalogue, row.name);
    ASSERT_NE(material, nullptr) << row.name;
    check_reference({.id = std::string(row.id) + "a",
                     .what = std::string(row.name) + ", density, kg/m3",
                     .source = row.source,
                     .expected = row.density_kg_per_m3,
                     .got = material->density_kg_per_m3.likely,
                     .tolerance = 1e-9,
                     .reason = "the same digits",
                     .function = "catalogue::find_material"});
    check_reference({.id = std::string(row.id) + "b",
                     .what = std::string(row.name) + ", conductivity, W/(m K)",
                     .source = row.source,
                     .expected = row.conductivity_w_per_m_k,
                     .got = material->conductivity_w_per_m_k.likely,
                     .tolerance = 1e-9,
                     .reason = "the same digits",
                     .function = "catalogue::find_material"});
  }
}

std::string messages_of(const Result<Catalogue>& result) {
  if (result) return "no issue";
  std::string all;
  for (const Issue& issue : result.error()) {
    all += issue.file + ":" + std::to_string(issue.line) + ": " + issue.message + "\n";
  }
  return all;
}

TEST(Catalogue, BrokenFilesGiveEveryIssueWithItsPlace) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  files[0].text = R"([source]
x = "a book"
[[material]]
name = "mud"
wet_rule = "fibrous"
density_kg_per_m3 = { low = 900, likely = 800, high = 1000, source = "x", certainty = "from_memory" }
conductivity_w_per_m_k = { low = 0.1, likely = 0.2, high = 0.3, source = "y", certainty = "from_memory" }
heat_capacity_j_per_kg_k = 1000
porosity_frac = { low = 0.1, likely = 50, high = 0.3, source = "x", certainty = "sure" }
)";
  const std::string messages = messages_of(read_catalogue(files));
  EXPECT_NE(messages.find(
                "materials.toml:6: material[0].density_kg_per_m3 has low 900, likely 800, high 1000; they must rise"),
            std::string::npos)
      << messages;
  EXPECT_NE(
      messages.find(
          "materials.toml:7: material[0].conductivity_w_per_m_k.source is \"y\"; no source of that name is known"),
      std::string::npos)
      << messages;
  EXPECT_NE(messages.find("materials.toml:8: material[0].heat_capacity_j_per_kg_k is a number alone"),
            std::string::npos)
      << messages;
  EXPECT_NE(messages.find("materials.toml:9: material[0].porosity_frac.likely is 50; it must be from 0 to 1"),
            std::string::npos)
      << messages;
  EXPECT_NE(messages.find("material[0].field_capacity_frac is missing"), std::string::npos) << messages;
}

TEST(Catalogue, SameNameTwiceIsRefused) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  files.push_back({"again.toml", files[0].text});
  EXPECT_NE(messages_of(read_catalogue(files)).find("name is there twice: horticultural mineral wool"),
            std::string::npos);
}

TEST(Catalogue, AMissingFileIsNotHalfACatalogue) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  files.erase(files.begin() + 3);  // prices
  EXPECT_NE(messages_of(read_catalogue(files)).find("the catalogue has no tariff"), std::string::npos);
}

TEST(Catalogue, WaterFiguresMustRise) {
  std::vector<CatalogueFile> files = tests::shipped_catalogue_files();
  const std::string from = "field_capacity_frac = { low = 0.35, likely = 0.5,";
  const std::size_t at = files[0].text.find(from);
  ASSERT_NE(at, std::string::npos);
  files[0].text.replace(at, from.size(), "field_capacity_frac = { low = 0.35, likely = 0.95,");
  files[0].text.replace(files[0].text.find("high = 0.65", at), 11, "high = 0.99");
  EXPECT_NE(messages_of(read_catalogue(files)).find("is above saturated_water_frac (0.65)"), std::string::npos)
      << messages_of(read_catalogue(files));
}

}  // namespace
}  // namespace houseleek::catalogue
