// Bending, shear and supports of whole designs: hand sums, decks without a model, no figure, holes, joists, slabs.
#include "checks/span_load.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>

#include "checks/uniform_load.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr double soaked_kn_per_m2 = 102.525 * 9.80665 / 1000.0;  // likely, of the small design's modules

std::string with_structure(const std::string& structure, const std::vector<tests::Edit>& more = {}) {
  std::vector<tests::Edit> edits = more;
  edits.push_back({"[[room]]\n", structure + "\n[[room]]\n"});
  return edited(small_design_text(), edits);
}

constexpr const char* slab_along_x = R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 4])";

const Section& section_of(const LineSections& line, Effect effect) {
  return *std::find_if(line.sections.begin(), line.sections.end(),
                       [effect](const Section& s) { return s.effect == effect; });
}

TEST(SpanLoad, OneSpanOfSlabByHand) {
  const SpanLoad load = check_span_load(valid_design(with_structure(slab_along_x)));
  EXPECT_EQ(load.model, SpanModel::computed);
  EXPECT_EQ(load.verdict, LoadVerdict::within);
  ASSERT_EQ(load.lines.size(), 2U);  // two rows of modules, a space between
  // 0.5 to 1.5 m and 1.55 to 2.55 m: under the highest weights shear at the left support is w (3.0 + 1.95)/4.
  const double high = find_footprints(valid_design(with_structure(slab_along_x)))[0].soaked_kn.high;
  const Section& shear = section_of(load.worst[0], Effect::reaction);
  EXPECT_NEAR(shear.demand, high * (3.0 + 1.95) / 4.0, 1e-9);
  EXPECT_NEAR(shear.allowance, 4.0, 1e-12);
  EXPECT_NE(load.statement.find("within the 2 kN/m2 that A. Engineer wrote down on 2024-03-01"), std::string::npos)
      << load.statement;
}

TEST(SpanLoad, NoFigureNoVerdict) {
  const std::string text = with_structure(slab_along_x, {{"who = \"A. Engineer\"\n", ""}});
  const SpanLoad load = check_span_load(valid_design(text));
  EXPECT_EQ(load.verdict, LoadVerdict::none);
  EXPECT_EQ(load.statement, "Bending and shear have no verdict, because nobody wrote down who wrote it down.");
}

TEST(SpanLoad, NothingSaidNothingComputed) {
  const SpanLoad load = check_span_load(valid_design(small_design_text()));
  EXPECT_EQ(load.model, SpanModel::none_given);
  EXPECT_EQ(load.verdict, LoadVerdict::none);
}

TEST(SpanLoad, DecksWithoutAModelAreForAnEngineer) {
  for (const char* kind : {"hollow_pots", "beams_and_blocks", "stone_on_beams", "boards", "profiled_sheet"}) {
    const SpanLoad load =
        check_span_load(valid_design(with_structure(std::string("[roof.structure]\nkind = \"") + kind + "\"")));
    EXPECT_EQ(load.model, SpanModel::engineer_only) << kind;
    EXPECT_EQ(load.verdict, LoadVerdict::none) << kind;
    EXPECT_TRUE(load.lines.empty()) << kind;
    EXPECT_NE(load.statement.find("for an engineer alone"), std::string::npos) << kind;
  }
}

TEST(SpanLoad, AHeavyTubAtTheWallIsRefusedByTheOtherTest) {
  const std::string tub = R"(
[[container]]
name = "tub"
at = [0.25, 2.7]
length_mm = 400
width_mm = 400
medium = "crushed brick"
fill_mm = 300
empty_kg = 5
plant_kg = 5
)";
  const design::ValidDesign design = valid_design(with_structure(slab_along_x, {{"[rivals]", tub + "[rivals]"}}));
  const UniformLoad uniform = check_uniform_load(design);
  const SpanLoad spans = check_span_load(design);
  EXPECT_EQ(uniform.verdict, LoadVerdict::above);
  EXPECT_EQ(spans.verdict, LoadVerdict::within) << spans.statement;
  EXPECT_EQ(both_tests(uniform.verdict, spans.verdict), LoadVerdict::above);
  EXPECT_EQ(both_tests(LoadVerdict::within, LoadVerdict::none), LoadVerdict::none);
  EXPECT_EQ(both_tests(LoadVerdict::none, LoadVerdict::none), LoadVerdict::none);
  EXPECT_EQ(both_tests(LoadVerdict::above, LoadVerdict::none), LoadVerdict::above);
  EXPECT_EQ(both_tests(LoadVerdict::not_shown, LoadVerdict::none), LoadVerdict::not_shown);
  EXPECT_EQ(both_tests(LoadVerdict::within, LoadVerdict::above), LoadVerdict::above);
  EXPECT_EQ(both_tests(LoadVerdict::within, LoadVerdict::not_shown), LoadVerdict::not_shown);
}

TEST(SpanLoad, OneLoadedSpanOfTwoNeedsTheFigureByTurns) {
  const char* two = R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 2.6, 4])";
  // Soaked 1.01 of 1.15 kN/m2, on the first span alone: its bending is more than under the figure on both.
  const std::vector<tests::Edit> figure = {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 1.15"},
                                           {"includes = \"old screed\"\n", "includes = \"old screed\"\n"}};
  const SpanLoad alike = check_span_load(valid_design(with_structure(two, figure)));
  EXPECT_NE(alike.verdict, LoadVerdict::within);
  EXPECT_NE(alike.statement.find("ask the engineer whether it may stand on single ones"), std::string::npos);
  std::vector<tests::Edit> by_turns = figure;
  by_turns[1].to += "spans_by_turns = true\n";
  EXPECT_EQ(check_span_load(valid_design(with_structure(two, by_turns))).verdict, LoadVerdict::within);
}

TEST(SpanLoad, PastTheSupportsNothingIsShown) {
  const char* narrow = R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [1, 4])";
  const SpanLoad load = check_span_load(valid_design(with_structure(narrow)));
  EXPECT_EQ(load.not_modelled, (std::vector<int>{0, 2}));
  EXPECT_EQ(load.verdict, LoadVerdict::not_shown);
  EXPECT_NE(load.statement.find("nothing is shown"), std::string::npos);
}

TEST(SpanLoad, AHatchInTheStripLeavesNoSpan) {
  const std::string hatch = std::string(slab_along_x) + R"(
[[roof.obstacle]]
name = "hatch"
kind = "hatch"
outline = [[3, 0.2], [3.8, 0.2], [3.8, 1.2], [3, 1.2]])";
  const SpanLoad load = check_span_load(valid_design(with_structure(hatch)));
  EXPECT_EQ(load.not_modelled, (std::vector<int>{0, 1}));
  EXPECT_EQ(load.verdict, LoadVerdict::not_shown);
}

TEST(SpanLoad, JoistsShareAndTimeCounts) {
  const char* joists = R"([roof.structure]
kind = "joists"
spans_along = "x"
supports_at_m = [0, 4]
[roof.structure.joist]
spacing_mm = 600
first_at_m = 0)";
  const design::ValidDesign design = valid_design(with_structure(joists));
  const SpanLoad load = check_span_load(design);
  double shares = 0.0;
  for (const BeamLine& line : load.lines) {
    for (const double share : line.shares) shares += share;
  }
  EXPECT_NEAR(shares, 4.0, 1e-9);  // four modules, all of each
  // A figure of unknown duration counts as made for a short one: 0.9/0.6.
  EXPECT_NEAR(load.duration_factor, 1.5, 1e-12);
  EXPECT_NE(load.statement.find("weights that stay count 1.5 times"), std::string::npos) << load.statement;
  const SpanLoad lasting = check_span_load(valid_design(with_structure(
      joists, {{"includes = \"old screed\"\n", "includes = \"old screed\"\nduration = \"permanent\"\n"}})));
  EXPECT_NEAR(lasting.duration_factor, 1.0, 1e-12);
  EXPECT_NEAR(section_of(load.worst[1], Effect::reaction).demand,
              1.5 * section_of(lasting.worst[1], Effect::reaction).demand, 1e-9);
}

TEST(SpanLoad, TwoWaySlabLooksBothWaysAndAtThePlate) {
  const char* slab = R"([roof.structure]
kind = "two_way_slab"
supports_at_m = [0, 4]
cross_supports_at_m = [0, 3])";
  const SpanLoad load = check_span_load(valid_design(with_structure(slab)));
  EXPECT_EQ(load.lines.size(), 4U);
  ASSERT_EQ(load.panels.size(), 1U);
  EXPECT_LT(load.panels[0].demand_knm_per_m, load.panels[0].allowance_knm_per_m);
  EXPECT_EQ(load.verdict, LoadVerdict::within);
  const SpanLoad heavy =
      check_span_load(valid_design(with_structure(slab, {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.3"}})));
  EXPECT_EQ(heavy.verdict, LoadVerdict::above);
}

TEST(SpanLoad, AnEvenLoadAddsToTheDemand) {
  const design::ValidDesign design = valid_design(with_structure(slab_along_x));
  const std::vector<Footprint> footprints = find_footprints(design);
  const SpanLoad without = check_span_load(design, footprints);
  const SpanLoad with = check_span_load(design, footprints, results::exactly(0.6));
  EXPECT_NEAR(
      section_of(with.worst[0], Effect::reaction).demand - section_of(without.worst[0], Effect::reaction).demand,
      0.6 * 4.0 / 2.0, 1e-9);
  EXPECT_EQ(check_span_load(design, footprints, results::exactly(3.0)).verdict, LoadVerdict::above);
}

TEST(SpanLoad, AThousandSquaresInASecond) {
  // 32 x 32 modules of 1 m on a roof of 36 x 33 m over nine spans of 4 m.
  const std::string big = edited(small_design_text(), {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish",
                                                        "outline = [[0, 0], [36, 0], "
                                                        "[36, 33], [0, 33]]\nfinish"},
                                                       {"columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50",
                                                        "columns = 32\nrows = 32\norigin = [0.5, 0.4]\nspacing_mm = 0"},
                                                       {"at = [3.8, 2.8]", "at = [35, 32.9]"},
                                                       {"[[room]]\n", R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 4, 8, 12, 16, 20, 24, 28, 32, 36]
[[room]]
)"}});
  const design::ValidDesign design = valid_design(big);
  ASSERT_EQ(design->modules.size(), 1024U);
  const auto begin = std::chrono::steady_clock::now();
  const UniformLoad uniform = check_uniform_load(design);
  const SpanLoad load = check_span_load(design);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  EXPECT_EQ(load.lines.size(), 32U);
  EXPECT_EQ(uniform.verdict, LoadVerdict::within);
  RecordProperty("milliseconds", static_cast<int>(1000.0 * seconds));
  EXPECT_LT(seconds, 1.0);
}

}  // namespace
}  // namespace houseleek::checks
