// Every column of the catalogue is read by some answer or says which answer it waits for; every key says its unit.
#include "catalogue/columns.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <regex>
#include <set>

#include "catalogue/catalogue.hpp"
#include "catalogue/properties.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::catalogue {
namespace {

using tests::shipped_catalogue;
using tests::source_file_text;

/// The text without line comments.
std::string without_comments(const std::string& text) {
  std::string code;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t slashes = std::min(text.find("//", at), text.size());
    code.append(text, at, slashes - at);
    at = std::min(text.find('\n', slashes), text.size());
  }
  return code;
}

/// All code that may read the catalogue, without comments and without the catalogue's own.
std::map<std::string, std::string> reading_code() {
  std::map<std::string, std::string> code;
  const std::filesystem::path root(HOUSELEEK_SOURCE_DIR);
  for (const char* folder : {"src", "apps"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / folder)) {
      const std::string path = std::filesystem::relative(entry.path(), root).generic_string();
      const std::string extension = entry.path().extension().string();
      if ((extension != ".cpp" && extension != ".hpp") || path.rfind("src/catalogue/", 0) == 0) continue;
      const std::string text = without_comments(source_file_text(path));
      if (text.find("catalogue") != std::string::npos) code[path] = text;
    }
  }
  return code;
}

/// What a file must name to hold rows of the table at all.
const std::map<std::string, std::string>& types_of_tables() {
  static const std::map<std::string, std::string> types = {{"material", R"(\bMaterial\b|\bmaterial\b)"},
                                                           {"part", R"(catalogue::Part\b)"},
                                                           {"group", R"(\bfoliage\b|\bPlant\b|\bFoliage\b)"},
                                                           {"plant", R"(\bPlant\b|\bplant\b|\bfoliage\b)"},
                                                           {"invasive", R"(\bInvasiveListing\b|\binvasive_listings\b)"},
                                                           {"raising", R"(\bRaising\b)"},
                                                           {"finish", R"(\bfind_finish\b|catalogue::Finish\b)"},
                                                           {"rivals", R"(\bRivalDefaults\b)"},
                                                           {"tariff", R"(\bTariff\b|\btariff\b)"},
                                                           {"price", R"(\bPriceItem\b)"},
                                                           {"caution", R"(\bCaution\b)"}};
  return types;
}

/// Where the member has another name than the column, or its name alone says too little.
const std::map<std::string, std::string>& special_evidence() {
  static const std::map<std::string, std::string> special = {
      {"material.source", R"(\.source\b)"},
      {"material.certainty", R"(\.certainty\b)"},
      {"material.form", R"(material\w*(\.|->)form\b)"},
      {"part.name", R"(\bfind_part\()"},
      {"part.source", R"(\bwords_from\b)"},
      {"part.certainty", R"(\bwords_from\b)"},
      {"group.name", R"((\.|->)group\b)"},
      {"plant.common_name", R"(\bfind_plant\()"},  // which looks both names up
      {"plant.medium_depth_mm", R"(\bleast_depth_mm\b|\bmedium_depth_mm\b)"},
      {"plant.width_mm", R"((plant|species)\w*(\.|->)width_mm\b)"},
      {"plant.wind", R"((plant|species)\w*(\.|->)wind\b)"},
      {"plant.sun", R"((plant|species)\w*(\.|->)sun\b)"},
      {"plant.source", R"(\.source\b)"},  // of its figures, among the assumptions
      {"plant.certainty", R"(\.certainty\b)"},
      {"plant.bloom_months", R"(\bblooms_in\(|\bbloom_first_month\b)"},
      {"plant.invasive", R"(\binvasive_listings\(|(\.|->)invasive\b)"},
      {"invasive.country", R"(\binvasive_listings\()"},
      {"invasive.source", R"(\binvasive_listings\()"},
      {"invasive.certainty", R"(\binvasive_listings\()"},
      {"invasive.region", R"(\btext_from_listing\()"},
      {"invasive.list", R"(\btext_from_listing\()"},
      {"raising.way", R"(\bfind_raising\()"},
      {"raising.groups", R"(\bfind_raising\()"},
      {"raising.begin_months", R"(\bbegins_in\()"},
      {"rivals.white_life_years", R"((\.|->)white_life_years\b)"},
      {"price.price_per_kg", R"(PricePer::kg\b)"},
      {"price.price_per_m2", R"(PricePer::m2\b)"},
      {"price.price_per_m3", R"(PricePer::m3\b)"},
      {"price.price_each", R"(PricePer::each\b)"},
      {"caution.source", R"(caution\.source\b)"},
      {"caution.first_page", R"(\bis_on_first_page\b)"}};
  return special;
}

bool is_read(const std::map<std::string, std::string>& code, const std::string& table, const std::string& column) {
  const auto special = special_evidence().find(table + "." + column);
  if (special != special_evidence().end()) {
    const std::regex evidence(special->second);
    return std::any_of(code.begin(), code.end(),
                       [&](const auto& file) { return std::regex_search(file.second, evidence); });
  }
  const std::regex evidence(R"((\.|->|::))" + column + R"(\b)");
  const std::regex type(types_of_tables().at(table));
  return std::any_of(code.begin(), code.end(), [&](const auto& file) {
    return file.second.find(column) != std::string::npos && std::regex_search(file.second, type) &&
           std::regex_search(file.second, evidence);
  });
}

TEST(CatalogueColumns, EachIsReadOrSaysWhatItWaitsFor) {
  const std::map<std::string, std::string> code = reading_code();
  EXPECT_GT(code.size(), 40U);
  const Catalogue catalogue = shipped_catalogue();
  int n_columns = 0;
  for (const CatalogueTable& table : catalogue_tables()) {
    for (const std::string_view key : table.keys) {
      ++n_columns;
      const bool waits = is_waiting(catalogue, table.name, key);
      const bool read = is_read(code, std::string(table.name), std::string(key));
      EXPECT_TRUE(read || waits) << table.name << "." << key
                                 << " is read by nothing: name the answer that will read it in [waits_for]";
      EXPECT_FALSE(read && waits) << table.name << "." << key << " is read now: take it out of [waits_for]";
    }
  }
  EXPECT_GT(n_columns, 130);
}

// The search above must be able to fail.
TEST(CatalogueColumns, AColumnThatNobodyReadsIsSeen) {
  const std::map<std::string, std::string> code = {{"a.cpp", "catalogue::Material m; use(m.density_kg_per_m3);"},
                                                   {"b.cpp", "catalogue; width_mm = recipe.width_mm; plant"}};
  EXPECT_TRUE(is_read(code, "material", "density_kg_per_m3"));
  EXPECT_FALSE(is_read(code, "material", "porosity_frac"));
  EXPECT_FALSE(is_read(code, "part", "density_kg_per_m3"));
  EXPECT_FALSE(is_read(code, "plant", "width_mm"));
  EXPECT_EQ(without_comments("a // b.width_mm\nc"), "a \nc");
}

TEST(CatalogueColumns, WaitForAnswersInPlainWords) {
  const std::regex plain("[a-z]+( [a-z]+)*");
  const Catalogue catalogue = shipped_catalogue();
  EXPECT_FALSE(catalogue.waiting.empty());
  for (const WaitingColumn& one : catalogue.waiting) {
    EXPECT_TRUE(std::regex_match(one.waits_for, plain)) << one.table << "." << one.column << ": " << one.waits_for;
  }
}

// What waits stands behind no answer, so it is not assumed by any.
TEST(CatalogueColumns, WaitingIsByTable) {
  Catalogue catalogue;
  catalogue.waiting = {{"material", "carbon_kg_per_kg", "carbon"}};
  EXPECT_TRUE(is_waiting(catalogue, "material", "carbon_kg_per_kg"));
  EXPECT_FALSE(is_waiting(catalogue, "part", "carbon_kg_per_kg"));
}

TEST(CatalogueColumns, KeysOfFiguresEndInTheirUnit) {
  const std::regex with_unit(
      "\\w+_(kg_per_m3|w_per_m_k|j_per_kg_k|frac|mm_per_h|years|m|kpa|kg_per_kg|mj_per_kg|kg|l|mm|cm2|n|c|days|"
      "ds_per_m|kg_per_m2|s_per_m|kg_per_m2_s05|m3_per_m3)");
  // Pure numbers.
  const std::set<std::string_view> pure = {"cote_konrad_k",
                                           "brooks_corey_exponent",
                                           "albedo_dry",
                                           "albedo_wet",
                                           "emissivity",
                                           "vapour_resistance_factor_dry",
                                           "vapour_resistance_factor_wet",
                                           "pieces_per_module",
                                           "leaf_area_index",
                                           "leaf_albedo",
                                           "longwave_emissivity"};
  const auto check = [&](std::string_view key) {
    EXPECT_TRUE(pure.contains(key) || std::regex_match(std::string(key), with_unit)) << key;
  };
  for (const MaterialProperty& one : material_properties()) check(one.rule.key);
  for (const PartProperty& one : part_properties()) check(one.rule.key);
  for (const FoliageProperty& one : foliage_properties()) check(one.rule.key);
  for (const PlantProperty& one : plant_properties()) check(one.rule.key);
  for (const std::string_view key : tariff_keys()) {
    const bool is_price_or_share = std::regex_match(std::string(key), std::regex("\\w+_(per_kwh|per_m3|efficiency)"));
    EXPECT_TRUE(is_price_or_share) << key;
  }
}

}  // namespace
}  // namespace houseleek::catalogue
