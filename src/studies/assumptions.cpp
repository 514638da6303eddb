// Everything that stands behind an answer without having been said: by the design, and by the answers themselves.
#include "studies/assumptions.hpp"

#include "studies/money_answers.hpp"
#include "studies/roof_answers.hpp"
#include "studies/water_answers.hpp"

namespace houseleek::studies {

std::string without_indices(std::string_view path) {
  std::string bare;
  bool is_inside = false;
  for (const char c : path) {
    if (c == '[') is_inside = true;
    if (!is_inside) bare += c;
    if (c == ']') is_inside = false;
  }
  return bare;
}

std::vector<design::Assumption> all_assumptions(const design::ValidDesign& design) {
  std::vector<design::Assumption> assumed = design.assumed();
  for (const std::vector<design::Assumption>& more :
       {assumed_thresholds(*design), assumed_costs(design), assumed_roof_checks(design)}) {
    assumed.insert(assumed.end(), more.begin(), more.end());
  }
  return assumed;
}

}  // namespace houseleek::studies
