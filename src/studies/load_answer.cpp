// Soaked modules against what an engineer wrote down.
#include "studies/load_answer.hpp"

#include "base/contract.hpp"
#include "checks/uniform_load.hpp"
#include "checks/weights.hpp"

namespace houseleek::studies {
namespace {

report::Figure figure_from(const results::Interval& interval) {
  return results::figure_with_range(interval.likely, interval.low, interval.high, std::string(checks::weights_from));
}

std::string word_from(checks::LoadVerdict verdict) {
  switch (verdict) {
    case checks::LoadVerdict::none:
      return "none";
    case checks::LoadVerdict::within:
      return "within";
    case checks::LoadVerdict::not_shown:
      return "not_shown";
    case checks::LoadVerdict::above:
      return "above";
  }
  expects(false, "a verdict of the list");
  return "";
}

}  // namespace

report::LoadAnswer answer_load(const design::ValidDesign& design) {
  const checks::UniformLoad load = checks::check_uniform_load(design);
  report::LoadAnswer answer;
  if (const std::optional<design::AllowableLoad>& given = design->roof.allowable_load) {
    answer.allowable_kn_per_m2 = given->load_kn_per_m2;
    answer.who = given->who;
    answer.when = given->when;
    answer.includes = given->includes;
  }
  if (load.averaging_area_m2 > 0.0) answer.averaging_area_m2 = load.averaging_area_m2;
  answer.missing = load.missing;
  answer.soaked_max_kn_per_m2 = figure_from(load.heaviest_kn_per_m2);
  answer.utilisation_local_max_frac = load.utilisation_frac
                                          ? figure_from(*load.utilisation_frac)
                                          : results::figure_missing("no figure to compare with, as `missing` says");
  for (const checks::PatchLoad& patch : load.patches) {
    const int recipe = design->patches[static_cast<std::size_t>(patch.patch)].recipe;
    answer.patches.push_back({.patch = patch.patch,
                              .recipe = design->recipes[static_cast<std::size_t>(recipe)].name,
                              .soaked_kn_per_m2 = figure_from(patch.soaked_kn_per_m2)});
  }
  answer.verdict = word_from(load.verdict);
  answer.statement = load.statement;
  return answer;
}

}  // namespace houseleek::studies
