// Designs that invite a blessing: no sentence of load, wind, fire or strips ever gives one.
#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "checks/clear_strips.hpp"
#include "checks/fire_load.hpp"
#include "checks/foot_pressure.hpp"
#include "checks/joist_sag.hpp"
#include "checks/load_cases.hpp"
#include "checks/next_places.hpp"
#include "checks/span_load.hpp"
#include "checks/uniform_load.hpp"
#include "checks/wind_uplift.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

/// Every sentence and word list that the checks of one design give.
std::vector<std::string> sentences_of(const design::ValidDesign& design) {
  std::vector<std::string> all;
  const auto add = [&all](const std::vector<std::string>& some) { all.insert(all.end(), some.begin(), some.end()); };
  const UniformLoad uniform = check_uniform_load(design);
  const SpanLoad spans = check_span_load(design);
  const JoistSags sags = compute_joist_sags(design, spans);
  add({uniform.statement, spans.statement, sags.statement, sags.because});
  add(uniform.missing);
  for (const LoadCase& one : compute_load_cases(design)) add({one.name, one.because, one.statement});
  for (const FootPressure& one : compute_foot_pressures(design)) add({one.because, one.statement});
  const WindUplift wind = check_wind_uplift(design);
  add({wind.statement});
  add(wind.assumed);
  add(wind.not_counted);
  for (const RecipeFuel& one : compute_recipe_fuels(design)) {
    add({one.statement});
    add(one.against);
  }
  const ClearStripCheck strips = check_clear_strips(design);
  add({strips.statement});
  for (const StripRule& rule : strips.rules) add({rule.beside, rule.source});
  NextPlacesOptions options;
  options.step_m = 1.0;
  options.most_exact = 10;
  const NextPlaces next = find_next_places(design, 0, design->recipes[0].placed, options);
  add({next.statement, next.because});
  return all;
}

const std::regex& blessings() {
  static const std::regex words(
      "\\b(safe|safely|safety|ok|okay|pass|passes|passed|fine|secure|secured|approved|certified|guaranteed|"
      "acceptable|all clear|no risk|no problem|sound|sure)\\b",
      std::regex::icase);
  return words;
}

struct Hostile {
  std::string what;
  std::string text;
};

std::vector<Hostile> hostile_designs() {
  const std::string small = small_design_text();
  const std::string slab = "[roof.structure]\nkind = \"one_way_slab\"\nspans_along = \"x\"\nsupports_at_m = [0, 4]\n";
  const std::string actions =
      "[roof.actions]\nground_snow_kn_per_m2 = 0.8\nhail_mm = 40\nblocked_outlet_mm = 80\nstack_modules = 4\nperson_kn "
      "= "
      "1\n";
  const auto with = [&small](const std::string& before_room, std::vector<tests::Edit> edits = {}) {
    edits.push_back({"[[room]]\n", before_room + "[[room]]\n"});
    return edited(small, edits);
  };
  std::vector<Hostile> all = {
      {"as it is", small},
      {"everything said", with(slab + actions)},
      {"a figure of 50", with(slab + actions, {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 50"}})},
      {"a figure of next to nothing", with(slab + actions, {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.1"}})},
      {"averaged over the whole roof",
       with(slab + actions, {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.6\naveraging_area_m2 = 1000"}})},
      {"everything apart", with(slab + actions, {{"includes = \"old screed\"",
                                                  "includes = \"old screed\"\nsnow_apart = true\npeople_apart = "
                                                  "true\nrain_apart = true\nspans_by_turns = true\nduration = "
                                                  "\"permanent\""}})},
      {"nobody", with(slab, {{"who = \"A. Engineer\"\n", ""}})},
      {"blank name", with(slab, {{"who = \"A. Engineer\"", "who = \"\\t \""}})},
      {"no date", with(slab, {{"when = 2024-03-01\n", ""}})},
      {"no figure", with(slab, {{"load_kn_per_m2 = 2.0\n", ""}})},
      {"includes nothing", with(slab, {{"includes = \"old screed\"", "includes = \"\""}})},
      {"no allowance at all",
       with(slab, {{"[roof.allowable_load]\nload_kn_per_m2 = 2.0\nwho = \"A. Engineer\"\nwhen = 2024-03-01\nincludes = "
                    "\"old screed\"\n",
                    ""}})},
      {"nothing laid",
       with(slab + actions, {{"[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 2\nrows = 2\norigin = [0.5, "
                              "0.4]\nspacing_mm = 50\n",
                              ""}})},
      {"closed edges", with(slab, {{"edges = \"open\"", "edges = \"closed\""}})},
      {"flat modules", with(slab, {{"spacing_mm = 50", "spacing_mm = 50\nplaced = \"flat\""}})},
      {"no wind to speak of", with(slab, {{"[rivals]",
                                           "[wind]\nroof_height_m = 2\nbasic_wind_m_per_s = 15\nterrain = "
                                           "\"town\"\n[rivals]"}})},
      {"a tower by the sea", with(slab, {{"[rivals]",
                                          "[wind]\nroof_height_m = 200\nbasic_wind_m_per_s = 60\nterrain = "
                                          "\"sea\"\n[rivals]"}})},
      {"a parapet above all", with(slab, {{"finish = { albedo", "parapet_height_mm = 4000\nfinish = { albedo"},
                                          {"[rivals]", "[wind]\nroof_height_m = 3\n[rivals]"}})},
      {"one foot on a point",
       with(slab, {{"mass_kg_per_module = 0.5", "mass_kg_per_module = 0.5\nfeet = { count = 1, area_mm2 = 25 }"}})},
      {"feet like slabs on stone",
       with(slab + "[roof.bearing]\nmembrane_kpa = 50000\ninsulation_kpa = 50000\nwho = \"the seller\"\n",
            {{"mass_kg_per_module = 0.5", "mass_kg_per_module = 0.5\nfeet = { count = 100, area_mm2 = 1000000 }"}})},
      {"strips of nothing", with(slab + "[roof.clear_strips]\nedge_mm = 0\noutlet_mm = 0\n")},
      {"strips of ten metres", with(slab + "[roof.clear_strips]\nedge_mm = 10000\n")},
      {"a net", with(slab, {{"[recipe.cover]",
                             "[recipe.net]\nmaterial = \"HDPE shade cloth\"\nheight_mm = "
                             "300\n[recipe.cover]"}})},
      {"straw", with(slab, {{"material = \"horticultural mineral wool\"", "material = \"straw\""}})},
      {"no cover that burns", with(slab, {{"[recipe.cover]\nmaterial = \"jute fabric\"\nthickness_mm = "
                                           "2\nvapour_resistance_s_per_m = 100\n",
                                           ""}})},
      {"built-in ends", with(slab + "ends = \"built_in\"\n")},
      {"supports beside the modules",
       with("[roof.structure]\nkind = \"one_way_slab\"\nspans_along = \"y\"\nsupports_at_m = [2.5, 3]\n")},
  };
  for (const char* kind : {"hollow_pots", "beams_and_blocks", "stone_on_beams", "boards", "profiled_sheet"}) {
    all.push_back({kind, with(std::string("[roof.structure]\nkind = \"") + kind + "\"\n" + actions)});
  }
  all.push_back({"two ways", with("[roof.structure]\nkind = \"two_way_slab\"\nsupports_at_m = [0, 2, "
                                  "4]\ncross_supports_at_m = [0, 3]\n" +
                                  actions)});
  for (const int service_class : {1, 3}) {
    all.push_back({"joists", with("[roof.structure]\nkind = \"joists\"\nspans_along = \"y\"\nsupports_at_m = [0, "
                                  "3]\n[roof.structure.joist]\nspacing_mm = 600\nfirst_at_m = 0\nwidth_mm = "
                                  "20\nheight_mm = 50\nmodulus_n_per_mm2 = 3000\nservice_class = " +
                                  std::to_string(service_class) + "\n" + actions)});
  }
  return all;
}

TEST(HostileDesigns, NeverGetABlessing) {
  const std::vector<Hostile> designs = hostile_designs();
  EXPECT_GE(designs.size(), 30U);
  for (const Hostile& one : designs) {
    for (const std::string& sentence : sentences_of(valid_design(one.text))) {
      EXPECT_FALSE(std::regex_search(sentence, blessings())) << one.what << ": " << sentence;
    }
  }
}

TEST(HostileDesigns, TheListOfWordsWouldSeeOne) {
  EXPECT_TRUE(std::regex_search("The roof is safe.", blessings()));
  EXPECT_TRUE(std::regex_search("It PASSES both.", blessings()));
  EXPECT_FALSE(std::regex_search("passing unsafe", blessings()));
}

TEST(HostileDesigns, WithoutACompleteFigureNoVerdictAnywhere) {
  for (const Hostile& one : hostile_designs()) {
    const design::ValidDesign design = valid_design(one.text);
    if (missing_parts(design->roof).empty()) continue;
    EXPECT_EQ(check_uniform_load(design).verdict, LoadVerdict::none) << one.what;
    EXPECT_EQ(check_span_load(design).verdict, LoadVerdict::none) << one.what;
    for (const LoadCase& load_case : compute_load_cases(design)) {
      EXPECT_EQ(load_case.uniform, LoadVerdict::none) << one.what << load_case.name;
      EXPECT_EQ(load_case.spans, LoadVerdict::none) << one.what << load_case.name;
    }
    EXPECT_TRUE(find_next_places(design, 0, design::Placed::flat).places.empty()) << one.what;
  }
}

}  // namespace
}  // namespace houseleek::checks
