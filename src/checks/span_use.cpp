// How much of the engineer's figure bending, shear and supports take at the section that comes nearest to it.
#include "checks/span_use.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::checks {
namespace {

using results::exactly;
using results::Interval;

constexpr double least_use_frac = 1e-3;  // below it the spans count as unused
constexpr int most_rounds = 60;          // each round ends at another section; a handful is usual

/// Greatest demand over allowance among the sections that are passed; nothing passed: none. Infinite where the figure
/// brings nothing.
std::optional<double> worst_ratio(const SpanLoad& load) {
  std::optional<double> worst;
  const auto raise = [&worst](double demand, double allowance, double nothing) {
    const double ratio = allowance <= nothing ? HUGE_VAL : demand / allowance;
    worst = std::max(worst.value_or(0.0), ratio);
  };
  for (const LineSections& line : load.worst) {
    for (const Section& section : line.sections) {
      if (is_beyond(section)) raise(section.demand, section.allowance, section_rounding * section.scale);
    }
  }
  for (const PanelSection& panel : load.panels) {
    const double allowance = panel.allowance_knm_per_m;
    if (panel.demand_knm_per_m - allowance > section_rounding * std::fabs(allowance)) {
      raise(panel.demand_knm_per_m, allowance, 0.0);
    }
  }
  return worst;
}

/// Weights of one end, divided by the use that is tried.
std::vector<Footprint> scaled(std::span<const Footprint> footprints, Interval (*lightest)(const Footprint&),
                              Interval (*heaviest)(const Footprint&), double use_frac) {
  std::vector<Footprint> all(footprints.begin(), footprints.end());
  for (Footprint& one : all) {
    const Footprint as_it_is = one;
    one.dry_kn = (1.0 / use_frac) * lightest(as_it_is);
    one.soaked_kn = (1.0 / use_frac) * heaviest(as_it_is);
  }
  return all;
}

double use_of(const design::ValidDesign& design, std::span<const Footprint> footprints,
              Interval (*lightest)(const Footprint&), Interval (*heaviest)(const Footprint&)) {
  double use_frac = least_use_frac;
  for (int round = 0; round < most_rounds; ++round) {
    const SpanLoad load = check_span_load(design, scaled(footprints, lightest, heaviest, use_frac));
    const std::optional<double> ratio = worst_ratio(load);
    if (!ratio) return round == 0 ? 0.0 : use_frac;
    if (!std::isfinite(*ratio)) return HUGE_VAL;
    use_frac *= *ratio;
  }
  expects(false, "a multiple of the figure that is passed nowhere");
  return HUGE_VAL;
}

}  // namespace

SpanUse find_span_use(const design::ValidDesign& design, std::span<const Footprint> footprints) {
  const SpanLoad load = check_span_load(design, footprints);
  if (load.model != SpanModel::computed || !load.missing.empty()) return {std::nullopt, load.statement};
  const double high = use_of(
      design, footprints, [](const Footprint& one) { return exactly(one.dry_kn.low); },
      [](const Footprint& one) { return exactly(one.soaked_kn.high); });
  const double likely = use_of(
      design, footprints, [](const Footprint& one) { return exactly(one.dry_kn.likely); },
      [](const Footprint& one) { return exactly(one.soaked_kn.likely); });
  const double low = use_of(
      design, footprints, [](const Footprint& one) { return exactly(std::min(one.dry_kn.high, one.soaked_kn.low)); },
      [](const Footprint& one) { return exactly(one.soaked_kn.low); });
  if (!std::isfinite(high)) {
    return {std::nullopt,
            "at a section that the modules load the engineer's figure brings nothing, so no share of it can be given"};
  }
  return {Interval{std::min(low, likely), likely, std::max(high, likely)}, ""};
}

}  // namespace houseleek::checks
