// All outlets blocked: how high water stands at rest, under rain without end, and with hail on it.
#include <fmt/format.h>

#include "checks/drainage_cases.hpp"
#include "checks/drainage_outcome.hpp"

namespace houseleek::checks {

DrainageCase make_blocked(const design::ValidDesign& design, const Decks& decks,
                          const std::optional<results::Interval>& rain_mm_per_h,
                          const results::Interval& hail_kn_per_m2) {
  DrainageCase one;
  one.kind = hail_kn_per_m2.high > 0.0 ? DrainageKind::hail
             : rain_mm_per_h           ? DrainageKind::blocked_in_rain
                                       : DrainageKind::blocked;
  one.rain_mm_per_h = rain_mm_per_h;
  Outcome outcome;
  for (const DrainageEnd end : drainage_ends) {
    const FlowSquares squares = with_blocked(decks[at(end)], -1);
    outcome.depth_m[at(end)] =
        rain_mm_per_h ? steady_depths_m(squares, steady_runoff(decks[at(end)], end_of(*rain_mm_per_h, end)))
                      : find_still_pool(squares).depth_m;
  }
  put_outcome(design, decks, outcome, hail_kn_per_m2, one);
  const bool is_hail = one.kind == DrainageKind::hail;
  one.name = is_hail ? "hail on blocked outlets" : rain_mm_per_h ? "all outlets blocked, rain" : "all outlets blocked";
  const std::string water = rain_mm_per_h
                                ? fmt::format("{} of rain that does not end stand", range_words(*rain_mm_per_h, "mm/h"))
                                : std::string("still water up to the lowest lip stands");
  one.statement = fmt::format(
      "With all outlets blocked{}, {} up to {} deep and weigh{} {:.1f} kN ({:.1f} to {:.1f}), {:.2f} kN/m2 ({:.2f} to "
      "{:.2f}) at the deepest. {}{}",
      is_hail ? " by hail" : "", water, range_words(one.max_depth_mm, "mm"), rain_mm_per_h ? "" : "s",
      one.water_kn.likely, one.water_kn.low, one.water_kn.high, one.heaviest_kn_per_m2.likely,
      one.heaviest_kn_per_m2.low, one.heaviest_kn_per_m2.high, freeboard_words(one), floating_words(one));
  return one;
}

}  // namespace houseleek::checks
