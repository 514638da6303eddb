// The cases a roof's drainage is looked at in: steady rain, storms, blocked outlets, hail.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checks/drainage_ends.hpp"

namespace houseleek::checks {

/// The steady rain at which water first reaches a raised module or runs over the roof's edge.
[[nodiscard]] DrainageCase make_capacity(const design::ValidDesign& design, const Decks& decks);

struct Storm {
  double return_years = 0.0;
  double duration_min = 0.0;
  results::Interval rain_mm_per_h;
};

/// Storms by return period, the rarest last, each with all its durations.
[[nodiscard]] std::vector<std::vector<Storm>> storms_of(const design::DesignRain& rain);

/// The critical storm of a return period; with this outlet blocked, or none (-1).
[[nodiscard]] DrainageCase make_storm(const design::ValidDesign& design, const Decks& decks,
                                      const DrainageOptions& options, const std::vector<Storm>& storms,
                                      int blocked_outlet);

/// All outlets blocked: still water, or rain without end, or hail that lies.
[[nodiscard]] DrainageCase make_blocked(const design::ValidDesign& design, const Decks& decks,
                                        const std::optional<results::Interval>& rain_mm_per_h,
                                        const results::Interval& hail_kn_per_m2);

}  // namespace houseleek::checks
