// A beam under loads that come and go against the same beam under an allowance: every section, both signs.
#include "checks/sections.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/contract.hpp"

namespace houseleek::checks {
namespace {

using physics::Beam;
using physics::BeamResponse;

constexpr double least_piece_m = 1e-9;

/// A quadratic by its values at 1/6, 1/2 and 5/6 of a piece: inside it, so that jumps at its ends do not disturb.
struct Quadratic {
  double at_start = 0.0;
  double slope = 0.0;
  double bend = 0.0;
  [[nodiscard]] double at(double share) const { return at_start + share * (slope + share * bend); }
};

constexpr std::array<double, 3> sample_shares = {1.0 / 6.0, 0.5, 5.0 / 6.0};

Quadratic through(const std::array<double, 3>& values) {
  // With u = 3 (share - 1/2): values at -1, 0, 1.
  const double slope_u = 0.5 * (values[2] - values[0]);
  const double bend_u = 0.5 * (values[2] + values[0]) - values[1];
  return {values[1] - 1.5 * slope_u + 2.25 * bend_u, 3.0 * slope_u - 9.0 * bend_u, 9.0 * bend_u};
}

/// Where a quadratic is greatest on its piece.
double greatest_share(const Quadratic& q) {
  double best = q.at(0.0) >= q.at(1.0) ? 0.0 : 1.0;
  if (q.bend < 0.0) {
    const double top = -0.5 * q.slope / q.bend;
    if (top > 0.0 && top < 1.0 && q.at(top) > q.at(best)) best = top;
  }
  return best;
}

double value_of(const Beam& beam, const BeamResponse& response, bool is_moment, double x_m) {
  return is_moment ? physics::beam_moment_knm(beam, response, x_m) : physics::beam_shear_kn(beam, response, x_m);
}

std::array<double, 3> samples_of(const Beam& beam, const BeamResponse& response, bool is_moment, double from_m,
                                 double to_m) {
  std::array<double, 3> values{};
  for (std::size_t i = 0; i < 3; ++i) {
    values[i] = value_of(beam, response, is_moment, from_m + sample_shares[i] * (to_m - from_m));
  }
  return values;
}

/// Places on the piece where the quadratic changes its sign.
void add_zeros(std::vector<double>& cuts_m, const Quadratic& q, double from_m, double length_m) {
  const auto add = [&](double share) {
    if (share > 0.0 && share < 1.0) cuts_m.push_back(from_m + share * length_m);
  };
  const double size = std::fabs(q.at_start) + std::fabs(q.slope) + std::fabs(q.bend);
  if (size == 0.0) return;
  if (std::fabs(q.bend) <= 1e-13 * size) {
    if (std::fabs(q.slope) > 1e-13 * size) add(-q.at_start / q.slope);
    return;
  }
  const double inner = q.slope * q.slope - 4.0 * q.bend * q.at_start;
  if (inner <= 0.0) return;
  const double root = -0.5 * (q.slope + std::copysign(std::sqrt(inner), q.slope));
  add(root / q.bend);
  if (root != 0.0) add(q.at_start / root);
}

void sort_unique(std::vector<double>& cuts_m) {
  std::sort(cuts_m.begin(), cuts_m.end());
  const auto same = [](double a, double b) { return b - a < least_piece_m; };
  cuts_m.erase(std::unique(cuts_m.begin(), cuts_m.end(), same), cuts_m.end());
}

/// Greatest and least sums of one quantity; the least as a number not above zero.
struct BothSigns {
  double up = 0.0;
  double down = 0.0;
};

void add_changing(BothSigns& sum, double of_one_kn, const ChangingLoad& load) {
  const double light = load.least_kn * of_one_kn;
  const double heavy = load.greatest_kn * of_one_kn;
  sum.up += std::max(light, heavy);
  sum.down += std::min(light, heavy);
}

/// One effect of all spans under the figure: together or none, or each by itself.
BothSigns allowance_of(std::span<const double> of_spans, bool is_by_turns) {
  BothSigns sum;
  double together = 0.0;
  for (const double one : of_spans) {
    together += one;
    sum.up += std::max(0.0, one);
    sum.down += std::min(0.0, one);
  }
  if (is_by_turns) return sum;
  return {std::max(0.0, together), std::min(0.0, together)};
}

/// Shear of the span that holds the place: under the whole figure on it, and under the figure on the right or the left
/// of the place alone. What a part turns at the supports counts at its least over all parts.
struct OwnShear {
  double whole_kn = 0.0;
  double right_part_kn = 0.0;
  double left_part_kn = 0.0;  // downwards positive
};

OwnShear own_shear(const Beam& beam, const SpanAllowance& allowance, std::size_t k, double x_m) {
  const BeamResponse& span = allowance.spans[k];
  const double length_m = beam.supports_m[k + 1] - beam.supports_m[k];
  const double left_m = x_m - beam.supports_m[k];
  const double right_m = length_m - left_m;
  const double load_kn_per_m = span.load.total_kn / length_m;
  const double turn_kn = (span.support_moments_knm[k + 1] - span.support_moments_knm[k]) / length_m;
  const double least_turn_kn = allowance.least_turns_kn[k];
  const double half_share = 0.5 * load_kn_per_m / length_m;
  // The left part turns by the whole less the right part: at most by the whole less the least.
  return {turn_kn + 0.5 * load_kn_per_m * (right_m - left_m), half_share * right_m * right_m + least_turn_kn,
          half_share * left_m * left_m - (turn_kn - least_turn_kn)};
}

std::size_t span_of(const Beam& beam, double x_m) {
  std::size_t k = 0;
  while (k + 2 < beam.supports_m.size() && x_m >= beam.supports_m[k + 1]) ++k;
  return k;
}

/// Shears that the figure can bring to a place, of either sign; the greatest of them is the allowance, because a section
/// without links carries shear upwards as well as downwards.
constexpr std::size_t n_shears = 6;
std::array<double, n_shears> shears_of(const Beam& beam, const SpanAllowance& allowance, double x_m) {
  const std::size_t k = span_of(beam, x_m);
  const OwnShear own = own_shear(beam, allowance, k, x_m);
  BothSigns others;
  double together_kn = 0.0;
  for (std::size_t j = 0; j < allowance.spans.size(); ++j) {
    if (j == k) continue;
    const double one = physics::beam_shear_kn(beam, allowance.spans[j], x_m);
    together_kn += one;
    others.up += std::max(0.0, one);
    others.down += std::min(0.0, one);
  }
  const double up_kn = allowance.is_by_turns ? others.up : together_kn;
  const double down_kn = allowance.is_by_turns ? -others.down : -together_kn;
  return {up_kn,   up_kn + own.whole_kn,   up_kn + own.right_part_kn,
          down_kn, down_kn - own.whole_kn, down_kn + own.left_part_kn};
}

double bending_together(const Beam& beam, const SpanAllowance& allowance, double x_m) {
  double sum = 0.0;
  for (const BeamResponse& span : allowance.spans) sum += physics::beam_moment_knm(beam, span, x_m);
  return sum;
}

/// Where the allowance changes from one quadratic to another on a piece.
void add_allowance_cuts(std::vector<double>& cuts_m, const Beam& beam, const SpanAllowance& allowance, bool is_moment,
                        double from_m, double length_m) {
  std::array<std::array<double, 3>, n_shears> shears{};
  std::array<double, 3> together{};
  for (std::size_t s = 0; s < 3; ++s) {
    const double x_m = from_m + sample_shares[s] * length_m;
    if (is_moment) {
      together[s] = bending_together(beam, allowance, x_m);
      continue;
    }
    const std::array<double, n_shears> here = shears_of(beam, allowance, x_m);
    for (std::size_t i = 0; i < n_shears; ++i) shears[i][s] = here[i];
  }
  if (is_moment) {
    add_zeros(cuts_m, through(together), from_m, length_m);
    return;
  }
  for (std::size_t i = 0; i < n_shears; ++i) {
    add_zeros(cuts_m, through(shears[i]), from_m, length_m);
    for (std::size_t j = i + 1; j < n_shears; ++j) {
      const std::array<double, 3> between = {shears[i][0] - shears[j][0], shears[i][1] - shears[j][1],
                                             shears[i][2] - shears[j][2]};
      add_zeros(cuts_m, through(between), from_m, length_m);
    }
  }
}

/// Cuts after which every response, and the allowance, is one quadratic on each piece.
std::vector<double> cut_pieces(const Beam& beam, std::span<const ChangingLoad> loads, const SpanAllowance& allowance,
                               bool is_moment) {
  std::vector<double> cuts_m;
  const auto add_response = [&](const BeamResponse& response) {
    std::vector<double> ends_m = beam.supports_m;
    ends_m.push_back(response.load.from_m);
    ends_m.push_back(response.load.to_m);
    sort_unique(ends_m);
    cuts_m.insert(cuts_m.end(), ends_m.begin(), ends_m.end());
    for (std::size_t i = 0; i + 1 < ends_m.size(); ++i) {
      const std::array<double, 3> values = samples_of(beam, response, is_moment, ends_m[i], ends_m[i + 1]);
      add_zeros(cuts_m, through(values), ends_m[i], ends_m[i + 1] - ends_m[i]);
    }
  };
  for (const ChangingLoad& load : loads) add_response(load.of_one_kn);
  for (const BeamResponse& span : allowance.spans) add_response(span);
  if (is_moment) {
    for (const BeamResponse& part : allowance.parts) add_response(part);
  }
  sort_unique(cuts_m);
  const std::vector<double> pieces_m = cuts_m;
  for (std::size_t i = 0; i + 1 < pieces_m.size(); ++i) {
    const double length_m = pieces_m[i + 1] - pieces_m[i];
    add_allowance_cuts(cuts_m, beam, allowance, is_moment, pieces_m[i], length_m);
  }
  sort_unique(cuts_m);
  return cuts_m;
}

/// Keeps the section whose excess over its scale is greatest; scales are known only at the end, and one effect has one.
void keep_worse(Section& kept, bool& is_first, const Section& other) {
  if (is_first || other.excess > kept.excess) kept = other;
  is_first = false;
}

struct Kept {
  std::array<Section, 6> sections{};
  std::array<bool, 6> is_first{true, true, true, true, true, true};
};

void compare_along(const Beam& beam, std::span<const ChangingLoad> loads, const SpanAllowance& allowance,
                   bool is_moment, Kept& kept, double& scale) {
  const std::size_t up = is_moment ? 0 : 2;
  const std::vector<double> cuts_m = cut_pieces(beam, loads, allowance, is_moment);
  const std::vector<BeamResponse>& standing = allowance.is_by_turns ? allowance.parts : allowance.spans;
  std::vector<double> of_spans(standing.size());
  for (std::size_t i = 0; i + 1 < cuts_m.size(); ++i) {
    const double from_m = cuts_m[i];
    const double length_m = cuts_m[i + 1] - from_m;
    std::array<double, 3> demand_up{}, demand_down{}, allowed_up{}, allowed_down{};
    for (std::size_t s = 0; s < 3; ++s) {
      const double x_m = from_m + sample_shares[s] * length_m;
      BothSigns demand;
      for (const ChangingLoad& load : loads) add_changing(demand, value_of(beam, load.of_one_kn, is_moment, x_m), load);
      BothSigns allowed;
      if (is_moment) {
        for (std::size_t k = 0; k < of_spans.size(); ++k) {
          of_spans[k] = physics::beam_moment_knm(beam, standing[k], x_m);
        }
        allowed = allowance_of(of_spans, allowance.is_by_turns);
      } else {
        const std::array<double, n_shears> shears = shears_of(beam, allowance, x_m);
        allowed.up = std::max(0.0, *std::max_element(shears.begin(), shears.end()));
        allowed.down = -allowed.up;
      }
      demand_up[s] = demand.up;
      demand_down[s] = -demand.down;
      allowed_up[s] = allowed.up;
      allowed_down[s] = -allowed.down;
    }
    const auto compare = [&](std::size_t effect, const std::array<double, 3>& demand,
                             const std::array<double, 3>& allowed) {
      const Quadratic of_demand = through(demand);
      const Quadratic of_allowed = through(allowed);
      const Quadratic excess = {of_demand.at_start - of_allowed.at_start, of_demand.slope - of_allowed.slope,
                                of_demand.bend - of_allowed.bend};
      const double share = greatest_share(excess);
      scale = std::max({scale, of_allowed.at(0.0), of_allowed.at(greatest_share(of_allowed)), of_allowed.at(1.0)});
      keep_worse(kept.sections[effect], kept.is_first[effect],
                 {all_effects[effect], from_m + share * length_m, std::max(0.0, of_demand.at(share)),
                  std::max(0.0, of_allowed.at(share)), excess.at(share), 0.0});
    };
    compare(up, demand_up, allowed_up);
    compare(up + 1, demand_down, allowed_down);
  }
}

}  // namespace

std::string_view words_from(Effect effect) {
  switch (effect) {
    case Effect::sagging:
      return "bending that pulls the underside";
    case Effect::hogging:
      return "bending that pulls the top";
    case Effect::shear_up:
      return "shear, left part upwards";
    case Effect::shear_down:
      return "shear, left part downwards";
    case Effect::reaction:
      return "load on a support";
    case Effect::lift:
      break;
  }
  return "lift off a support";
}

SpanAllowance make_even_allowance(const Beam& beam, double load_kn_per_m, bool is_by_turns) {
  SpanAllowance allowance;
  allowance.is_by_turns = is_by_turns;
  constexpr int n_parts = 64;
  for (std::size_t k = 0; k + 1 < beam.supports_m.size(); ++k) {
    const double from_m = beam.supports_m[k];
    const double to_m = beam.supports_m[k + 1];
    const double length_m = to_m - from_m;
    allowance.spans.push_back(physics::solve_beam(beam, {from_m, to_m, load_kn_per_m * length_m}));
    constexpr int n_eighths = 8;
    for (int i = 0; is_by_turns && i < n_eighths; ++i) {
      const double part_m = length_m / n_eighths;
      const double left_m = from_m + i * part_m;
      const double right_m = i + 1 == n_eighths ? to_m : left_m + part_m;
      allowance.parts.push_back(physics::solve_beam(beam, {left_m, right_m, load_kn_per_m * (right_m - left_m)}));
    }
    double least_kn = 0.0;
    const bool is_turned = beam.supports_m.size() > 2 || beam.is_built_in;
    for (int i = 0; is_turned && i < n_parts; ++i) {
      const double part_m = length_m * (n_parts - i) / n_parts;
      const BeamResponse part = physics::solve_beam(beam, {to_m - part_m, to_m, load_kn_per_m * part_m});
      least_kn = std::min(least_kn, (part.support_moments_knm[k + 1] - part.support_moments_knm[k]) / length_m);
    }
    allowance.least_turns_kn.push_back(least_kn);
  }
  return allowance;
}

std::array<Section, 6> compare_sections(const Beam& beam, std::span<const ChangingLoad> loads,
                                        const SpanAllowance& allowance) {
  for (const ChangingLoad& load : loads) {
    expects(load.least_kn >= 0.0 && load.least_kn <= load.greatest_kn, "a lightest and a heaviest weight");
  }
  expects(allowance.spans.size() + 1 == beam.supports_m.size() &&
              allowance.least_turns_kn.size() == allowance.spans.size() &&
              allowance.parts.empty() != allowance.is_by_turns,
          "the figure on each span");
  Kept kept;
  double moment_scale_knm = 0.0;
  double shear_scale_kn = 0.0;
  compare_along(beam, loads, allowance, true, kept, moment_scale_knm);
  compare_along(beam, loads, allowance, false, kept, shear_scale_kn);
  double reaction_scale_kn = 0.0;
  std::vector<double> of_spans(allowance.spans.size());
  for (std::size_t support = 0; support < beam.supports_m.size(); ++support) {
    BothSigns demand;
    for (const ChangingLoad& load : loads) add_changing(demand, load.of_one_kn.reactions_kn[support], load);
    for (std::size_t k = 0; k < of_spans.size(); ++k) of_spans[k] = allowance.spans[k].reactions_kn[support];
    const BothSigns allowed = allowance_of(of_spans, allowance.is_by_turns);
    reaction_scale_kn = std::max({reaction_scale_kn, allowed.up, -allowed.down});
    keep_worse(kept.sections[4], kept.is_first[4],
               {Effect::reaction, beam.supports_m[support], std::max(0.0, demand.up), allowed.up,
                demand.up - allowed.up, 0.0});
    keep_worse(kept.sections[5], kept.is_first[5],
               {Effect::lift, beam.supports_m[support], std::max(0.0, -demand.down), -allowed.down,
                allowed.down - demand.down, 0.0});
  }
  for (std::size_t i = 0; i < 6; ++i) {
    kept.sections[i].scale = i < 2 ? moment_scale_knm : i < 4 ? shear_scale_kn : reaction_scale_kn;
  }
  return kept.sections;
}

double effect_of_one_kn(const Beam& beam, const BeamResponse& of_one_kn, Effect effect, double at_m) {
  switch (effect) {
    case Effect::sagging:
      return physics::beam_moment_knm(beam, of_one_kn, at_m);
    case Effect::hogging:
      return -physics::beam_moment_knm(beam, of_one_kn, at_m);
    case Effect::shear_up:
    case Effect::shear_down: {
      const double sign = effect == Effect::shear_up ? 1.0 : -1.0;
      const double step_m = 1e-7;  // either side of a jump
      const double left_m = std::max(beam.supports_m.front(), at_m - step_m);
      const double right_m = std::min(beam.supports_m.back() - step_m, at_m + step_m);
      return std::max(sign * physics::beam_shear_kn(beam, of_one_kn, left_m),
                      sign * physics::beam_shear_kn(beam, of_one_kn, right_m));
    }
    case Effect::reaction:
    case Effect::lift: {
      const auto nearest = std::min_element(beam.supports_m.begin(), beam.supports_m.end(), [at_m](double a, double b) {
        return std::fabs(a - at_m) < std::fabs(b - at_m);
      });
      const double reaction_kn = of_one_kn.reactions_kn[static_cast<std::size_t>(nearest - beam.supports_m.begin())];
      return effect == Effect::reaction ? reaction_kn : -reaction_kn;
    }
  }
  return 0.0;
}

}  // namespace houseleek::checks
