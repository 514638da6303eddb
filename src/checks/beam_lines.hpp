// The deck cut into beams: strips of slab or joists, each with the supports and the loads that are its own.
#pragma once
#include <span>
#include <vector>

#include "checks/span_load.hpp"

namespace houseleek::checks {

struct BeamLines {
  std::vector<BeamLine> lines;
  std::vector<int> not_modelled;  // footprints, rising
};

/// Lines along one axis over these supports. With joists: those; without: strips of 1 m width between the sides of
/// footprints. `load_kn_per_m2`: the engineer's figure, 0 for none.
[[nodiscard]] BeamLines make_beam_lines(const design::Roof& roof, design::SpanAxis along,
                                        std::span<const double> supports_m, std::span<const Footprint> footprints,
                                        double load_kn_per_m2);

}  // namespace houseleek::checks
