// The page about the catalogue: its counts are those of the program's own reader, and it explains every column.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <map>

#include "catalogue/catalogue.hpp"
#include "catalogue/properties.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::catalogue {
namespace {

constexpr std::array certainties = {Certainty::by_definition, Certainty::text_seen, Certainty::recomputed,
                                    Certainty::from_memory,   Certainty::estimate,  Certainty::invented};

struct Counts {
  std::size_t n_rows = 0;
  std::map<Certainty, int> n_figures;
};

void add(Counts& counts, const Spread* figure) {
  if (figure != nullptr) ++counts.n_figures[figure->certainty];
}

std::string line_of(std::string_view table, const Counts& counts) {
  std::string line = fmt::format("| {} | {} |", table, counts.n_rows);
  int n_all = 0;
  for (const Certainty certainty : certainties) {
    const auto found = counts.n_figures.find(certainty);
    const int n = found == counts.n_figures.end() ? 0 : found->second;
    n_all += n;
    line += fmt::format(" {} |", n);
  }
  return line + fmt::format(" {} |\n", n_all);
}

void expect_line(std::string_view table, const Counts& counts) {
  const std::string line = line_of(table, counts);
  const std::string page = tests::source_file_text("docs/catalogue.md");
  EXPECT_NE(page.find(line), std::string::npos)
      << "docs/catalogue.md is out of date, run tools/count_catalogue.py --write; it should have\n"
      << line;
}

TEST(CataloguePage, CountsAreTheReaders) {
  const Catalogue catalogue = tests::shipped_catalogue();
  Counts materials{catalogue.materials.size(), {}};
  for (const Material& one : catalogue.materials) {
    for (const MaterialProperty& p : material_properties()) add(materials, find_property(one, p));
  }
  expect_line("material", materials);
  Counts parts{catalogue.parts.size(), {}};
  for (const Part& one : catalogue.parts) {
    for (const PartProperty& p : part_properties()) add(parts, find_property(one, p));
  }
  expect_line("part", parts);
  Counts groups{catalogue.plant_groups.size(), {}};
  for (const PlantGroup& one : catalogue.plant_groups) {
    for (const FoliageProperty& p : foliage_properties()) add(groups, &(one.foliage.*p.figure));
  }
  expect_line("group", groups);
  Counts raising{catalogue.raising.size(), {}};
  for (const Raising& one : catalogue.raising) {
    for (const RaisingProperty& p : raising_properties()) add(raising, find_property(one, p));
  }
  expect_line("raising", raising);
  Counts plants{catalogue.plants.size(), {}};
  for (const Plant& one : catalogue.plants) {
    for (const PlantProperty& p : plant_properties()) add(plants, find_property(one, p));
    const auto same = [&one](const PlantGroup& group) { return group.name == one.group; };
    const PlantGroup& group = *std::find_if(catalogue.plant_groups.begin(), catalogue.plant_groups.end(), same);
    for (const FoliageProperty& p : foliage_properties()) {
      // The group's own figures are counted with the group.
      if (one.foliage.*p.figure != group.foliage.*p.figure) add(plants, &(one.foliage.*p.figure));
    }
  }
  expect_line("plant", plants);
  Counts finishes{catalogue.finishes.size(), {}};
  for (const Finish& one : catalogue.finishes) {
    add(finishes, &one.albedo);
    add(finishes, &one.emissivity);
  }
  expect_line("finish", finishes);
  Counts prices{catalogue.prices.size(), {}};
  for (const PriceItem& one : catalogue.prices) {
    add(prices, &one.price);
    if (one.service_life_years) add(prices, &*one.service_life_years);
  }
  expect_line("price", prices);
}

TEST(CataloguePage, ExplainsEveryColumnOfAMaterial) {
  const std::string page = tests::source_file_text("docs/catalogue.md");
  for (const std::string_view key : material_keys()) {
    EXPECT_NE(page.find(fmt::format("`{}`", key)), std::string::npos) << key;
  }
}

}  // namespace
}  // namespace houseleek::catalogue
