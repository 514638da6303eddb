// Both tests of the load with more modules of one recipe laid: within or not, and what broke.
#pragma once
#include <span>
#include <vector>

#include "checks/choice.hpp"
#include "checks/footprints.hpp"
#include "checks/sections.hpp"
#include "checks/span_load.hpp"
#include "design/parse.hpp"

namespace houseleek::checks {

/// How far both tests are used up with some places laid, and what broke.
struct PlaceOutcome {
  bool is_within = false;
  double nearness_frac = 0.0;  // greatest of demand over allowance, where the allowance is not small
  bool is_mean_broken = false;
  geometry::RectangleM square;  // the averaging square that is too heavy
  double square_room_kn = 0.0;  // what it may carry
  bool is_section_broken = false;
  BeamLine line;
  Section section;
};

/// Modules to be laid beside what lies there. Needs a whole figure of the engineer and a deck with a model.
class PlaceTrial {
 public:
  PlaceTrial(const design::ValidDesign& design, const Footprint& module);

  [[nodiscard]] PlaceOutcome with(std::span<const geometry::RectangleM> places) const;

  [[nodiscard]] bool has_joists() const;

  /// What a place takes of a broken averaging square or section, and what the rest leaves. No place is counted on to
  /// hold another's load up.
  [[nodiscard]] Condition condition_from(const PlaceOutcome& broken,
                                         std::span<const geometry::RectangleM> places) const;

 private:
  [[nodiscard]] Footprint at(const geometry::RectangleM& place) const;
  [[nodiscard]] double on_section(const Footprint& one, const PlaceOutcome& broken) const;
  double judge_mean(const std::vector<Footprint>& all, PlaceOutcome& outcome) const;
  double judge_sections(const SpanLoad& spans, PlaceOutcome& outcome) const;

  const design::ValidDesign& design_;
  Footprint module_;
  std::vector<Footprint> laid_;
  double averaging_m2_ = 0.0;
  double figure_kn_per_m2_ = 0.0;
};

}  // namespace houseleek::checks
