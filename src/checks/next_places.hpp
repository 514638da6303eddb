// Where the next modules may go so that both tests of the load still say "within": the best ten of all free places.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checks/footprints.hpp"
#include "design/parse.hpp"

namespace houseleek::checks {

struct NextPlacesOptions {
  int n_wanted = 10;
  double step_m = 0.5;             // of the grid of places
  double gap_m = 0.0;              // to what is laid already
  bool keeps_strips_clear = true;  // the strips of check_clear_strips stay bare
  long most_branches = 200000;     // of the exact search; beyond it the greedy answer stands
  std::size_t most_exact = 40;     // places up to which the exact search is tried
};

/// Columns, one row a chosen place.
struct NextPlaces {
  std::string because;  // why there is none; may be empty
  int n_free = 0;       // places on the grid that are free at all
  int n_allowed = 0;    // of them: where one module alone keeps both tests within
  std::vector<geometry::RectangleM> places;
  std::vector<double> nearness_frac;  // of each place alone: how far it uses up what is left of the allowance
  double value = 0.0;                 // what the search made greatest: see value_of_place
  bool is_exact = false;
  int most_possible = 0;  // never more than so many, by a bound of its own
  // With all chosen places laid; where nothing may be laid, with one module at the place that takes least. Heaviest
  // weights, as shares of the engineer's figure.
  double even_use_frac = 0.0;
  std::optional<double> span_use_frac;  // absent where no multiple of the figure is found
  std::string statement;
};

/// Value of a place: 1, less a share by how much of the allowance it takes; ten places are always worth more than nine.
/// Equation: v = 1 - u/(2 N), u its nearness, from 0 to 1
[[nodiscard]] double value_of_place(double nearness_frac, int n_wanted);

/// Chooses places for modules of one recipe.
/// Equation: greatest sum of values of at most N places that do not overlap, so that with all of them laid the heaviest
///           weights stay within the engineer's figure on every patch and averaging square and at every section
/// Shape:    design in; pure. Same choice for the same design.
/// Valid:    both tests must be within with what lies there now; otherwise there is no next place.
/// Errors:   ContractViolation for a recipe that is not there.
/// Cost:     exact up to `most_exact` allowed places: a search with bound, in which every section that a choice broke
///           becomes a condition of the next round; otherwise greedy, with `most_possible` beside it.
/// Source:   docs/equations/load.md.   Checked by: tests/checks/next_places_test.cpp.
[[nodiscard]] NextPlaces find_next_places(const design::ValidDesign& design, int recipe, design::Placed placed,
                                          const NextPlacesOptions& options = {});

}  // namespace houseleek::checks
