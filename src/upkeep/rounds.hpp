// Rounds over the roof: before a storm, after one, and when the modules have to come off.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace houseleek::upkeep {

/// What of a roof decides which steps there are.
struct RoundFacts {
  bool has_raised = false;  // modules on spacers
  bool has_covers = false;  // cover sheets
  bool has_nets = false;
  bool has_containers = false;  // bags, pots, tubs
  bool has_mineral_core = false;
  bool has_plastic = false;
  std::optional<double> parapet_height_mm;
  double soaked_kg = 0.0;               // one module, the heaviest recipe
  double dry_kg = 0.0;                  // the same module
  std::vector<std::string> succulents;  // plants that root from any offcut
  std::vector<std::string> invasive;    // plants that a list of the country names
};

struct Step {
  std::string text;
  std::string caution;  // stands beside it; may be empty
};

[[nodiscard]] std::vector<Step> steps_before_storm(const RoundFacts& facts);
[[nodiscard]] std::vector<Step> steps_after_storm(const RoundFacts& facts);

/// Taking the modules off, for a new membrane or for good.
struct TakingOff {
  std::vector<Step> order;       // how they come off
  std::vector<Step> re_roofing;  // while they are off
  std::vector<Step> disposal;    // what will not go back
};
[[nodiscard]] TakingOff steps_for_taking_off(const RoundFacts& facts);

/// What stands beside every way to the roof's edge, and beside every lifting of a module.
[[nodiscard]] std::string edge_caution(const RoundFacts& facts);
[[nodiscard]] std::string lifting_caution(const RoundFacts& facts);

/// Above this a module is lifted by two, common practice; the program knows nobody's back.
inline constexpr double two_people_from_kg = 25.0;
/// Above this not even two lift it whole, common practice.
inline constexpr double nobody_from_kg = 50.0;

}  // namespace houseleek::upkeep
