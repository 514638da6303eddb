// What prices and lives that are not known exactly leave open: outlay, replacement and water in many draws, with the
// year of weather drawn too.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "design/parse.hpp"
#include "money/cash_flow.hpp"
#include "plan/layout.hpp"
#include "report/study_answer.hpp"
#include "studies/ranges.hpp"

namespace houseleek::studies {

/// A plain rival and where it lies.
struct RivalPlace {
  std::string_view name;
  std::string_view words;
  std::string_view extent;
  report::CoverKind cover = report::CoverKind::white_same;
};
inline constexpr std::array<RivalPlace, 6> rival_places = {
    {{"white", "White paint on the same squares", "same_squares", report::CoverKind::white_same},
     {"white", "White paint on the whole roof", "whole_roof", report::CoverKind::white_whole},
     {"net", "A raised net over the same squares", "same_squares", report::CoverKind::net_same},
     {"net", "A raised net over the whole roof", "whole_roof", report::CoverKind::net_whole},
     {"board", "A ballasted board on the same squares", "same_squares", report::CoverKind::board_same},
     {"board", "A ballasted board on the whole roof", "whole_roof", report::CoverKind::board_whole}}};

/// A rival by its name in the list, over so much roof.
[[nodiscard]] money::Alternative rival_of(const design::ValidDesign& design, std::string_view name, double area_m2);

struct DrawnRecipe {
  int recipe = 0;
  report::Figure per_module;  // as in the recipe's first patch
  report::Figure outlay;
  report::Figure replacement_per_year;
};

struct DrawnRival {
  double area_m2 = 0.0;
  report::Figure outlay;
  report::Figure replacement_per_year;
  report::Figure degree_hours_less_per_outlay_k_h;
  std::optional<report::DrawCount> better_for_its_money;
};

struct MoneyDraws {
  int n_draws = 0;
  report::Figure outlay;
  report::Figure replacement_per_year;
  report::Figure water_per_year;
  report::Figure degree_hours_less_per_outlay_k_h;  // the modules
  std::vector<DrawnRecipe> recipes;                 // those laid somewhere, in the order of the design
  std::array<DrawnRival, rival_places.size()> rivals;
};

struct MoneyDrawInputs {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  std::span<const YearAnswer> years;
  int n_draws = 0;
};

/// Draw by draw: a price and a life for every thing (money/draws.hpp), and one of the years, each as often as any other.
/// Modules, rivals and bare roof meet the same prices and the same year in a draw.
/// Shape:    pure.
/// Source:   docs/equations/ranges.md.   Checked by: tests/studies/draws_test.cpp.
[[nodiscard]] MoneyDraws draw_money(const MoneyDrawInputs& inputs);

}  // namespace houseleek::studies
