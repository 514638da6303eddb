// How far timber joists sag under soaked modules, what years add to it, and what water then gathers in the sag.
#include "checks/joist_sag.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "physics/timber.hpp"

namespace houseleek::checks {
namespace {

using results::exactly;
using results::Interval;

double sag_mm(const BeamLine& line, const std::vector<Footprint>& footprints, double Interval::*end, double at_m,
              double stiffness_knm2) {
  std::vector<physics::BeamResponse> responses;
  for (std::size_t i = 0; i < line.footprints.size(); ++i) {
    physics::BeamResponse one = line.of_one_kn[i];
    const double weight_kn = line.shares[i] * footprints[static_cast<std::size_t>(line.footprints[i])].soaked_kn.*end;
    one.load.total_kn *= weight_kn;
    for (double& moment : one.support_moments_knm) moment *= weight_kn;
    responses.push_back(std::move(one));
  }
  return 1000.0 * physics::beam_sag_m(line.beam, responses, at_m, stiffness_knm2);
}

/// Sag never below zero: what lifts a span is no relief to count on.
Interval not_below_zero(const Interval& one) {
  return {std::max(0.0, one.low), std::max(0.0, one.likely), std::max(0.0, one.high)};
}

}  // namespace

JoistSags compute_joist_sags(const design::ValidDesign& design, const SpanLoad& load) {
  JoistSags sags;
  const std::optional<design::Structure>& structure = design->roof.structure;
  if (!structure || !structure->joists) {
    sags.because = "the deck is not said to have joists";
    return sags;
  }
  const design::Joists& joists = *structure->joists;
  if (!joists.width_mm || !joists.height_mm || !joists.modulus_n_per_mm2) {
    sags.because = "width_mm, height_mm and modulus_n_per_mm2 of the joists are not all given";
    return sags;
  }
  const double stiffness_knm2 =
      physics::joist_stiffness_knm2(*joists.width_mm, *joists.height_mm, *joists.modulus_n_per_mm2);
  const double creep = 1.0 + physics::timber_creep_frac(joists.service_class);
  const std::vector<Footprint> footprints = find_footprints(design);
  for (std::size_t i = 0; i < load.lines.size(); ++i) {
    const BeamLine& line = load.lines[i];
    for (std::size_t k = 0; k + 1 < line.beam.supports_m.size(); ++k) {
      JoistSag one;
      one.line = static_cast<int>(i);
      one.span_m = line.beam.supports_m[k + 1] - line.beam.supports_m[k];
      one.at_m = line.beam.supports_m[k] + 0.5 * one.span_m;
      one.first_mm = not_below_zero({sag_mm(line, footprints, &Interval::low, one.at_m, stiffness_knm2),
                                     sag_mm(line, footprints, &Interval::likely, one.at_m, stiffness_knm2),
                                     sag_mm(line, footprints, &Interval::high, one.at_m, stiffness_knm2)});
      one.final_mm = creep * one.first_mm;
      one.ponding_frac = physics::ponding_frac(line.load_width_m, one.span_m, stiffness_knm2);
      if (one.ponding_frac < 1.0) one.with_water_mm = (1.0 / (1.0 - one.ponding_frac)) * one.final_mm;
      sags.spans.push_back(one);
    }
  }
  const auto deepest = std::max_element(sags.spans.begin(), sags.spans.end(), [](const JoistSag& a, const JoistSag& b) {
    return a.final_mm.likely < b.final_mm.likely;
  });
  if (deepest == sags.spans.end()) {
    sags.because = "nothing lies on the joists";
    return sags;
  }
  sags.statement = fmt::format(
      "Soaked modules bend the most loaded joist by {:.1f} mm when laid and {:.1f} mm after years ({:.1f} to {:.1f})",
      deepest->first_mm.likely, deepest->final_mm.likely, deepest->final_mm.low, deepest->final_mm.high);
  sags.statement +=
      deepest->ponding_frac < 1.0
          ? fmt::format(", {:.1f} mm with the water that a level roof then holds.", deepest->with_water_mm.likely)
          : ". Water that gathers there is not shown to come to an end.";
  return sags;
}

}  // namespace houseleek::checks
