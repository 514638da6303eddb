// What a person describes, in trade units, complete and checked; one header a table of the design file.
//
// How to get one (design/parse.hpp):
//   const Result<ValidDesign> read = read_design(toml_text, "roof.toml", catalogue);
//   if (!read) show(read.error());                 // every problem at once; base/issue_text.hpp formats them
//   const Design& design = *read.value();          // defaults filled in, materials looked up in each layer
//   read.value().assumed();                        // each default and catalogue figure in use, with its range
//   read.value().warnings();                       // issues of severity warning
// Only validation makes a ValidDesign; engines take nothing else. Lists keep the order of the file; names are unique.
#pragma once
#include <vector>

#include "design/climate.hpp"
#include "design/container.hpp"
#include "design/drainage.hpp"
#include "design/money.hpp"
#include "design/patch.hpp"
#include "design/planting.hpp"
#include "design/prices.hpp"
#include "design/recipe.hpp"
#include "design/roof.hpp"
#include "design/room.hpp"
#include "design/site.hpp"
#include "design/trial.hpp"
#include "design/wind.hpp"

namespace houseleek::design {

struct Design {
  std::string name;
  bool is_invented = false;  // an example: its owner says that no such house is there
  Site site;
  Climate climate;
  Roof roof;
  Drainage drainage;
  DesignRain design_rain;
  std::vector<Room> rooms;
  std::vector<Partition> partitions;
  std::vector<Recipe> recipes;
  std::vector<Patch> patches;
  std::vector<ModulePlace> modules;  // all patches laid out, patch by patch, row by row
  std::vector<Container> containers;
  std::optional<Wind> wind;
  Prices prices;
  Money money;
  Bills bills;
  std::vector<StockItem> stock;
  OrderWishes order;
  Rivals rivals;
  Planting planting;
  std::vector<Trial> trials;
  std::vector<catalogue::Material> own_materials;
  bool operator==(const Design&) const = default;
};

}  // namespace houseleek::design
