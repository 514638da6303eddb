// What carries the roof, what presses on it besides modules, and which strips stay bare.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace houseleek::design {

/// How the deck carries. Only the first three get a model; the others are for an engineer alone.
enum class DeckKind {
  one_way_slab,
  two_way_slab,
  joists,
  hollow_pots,
  beams_and_blocks,
  stone_on_beams,
  boards,
  profiled_sheet
};

enum class SpanAxis { x, y };
enum class BeamEnds { resting, built_in };

/// Timber joists of one size; their sides are parallel to the spans.
struct Joists {
  double spacing_mm = 0.0;                  // from middle to middle
  double first_at_m = 0.0;                  // where the first one runs, across the spans
  std::optional<double> width_mm;           // both absent: no sag is worked out
  std::optional<double> height_mm;          // of the timber
  std::optional<double> modulus_n_per_mm2;  // mean modulus of elasticity along the grain
  int service_class = 2;                    // 1 dry inside, 2 under a roof, 3 wet; EN 1995-1-1
  bool operator==(const Joists&) const = default;
};

struct Structure {
  DeckKind kind = DeckKind::one_way_slab;
  SpanAxis spans_along = SpanAxis::x;
  std::vector<double> supports_at_m;        // rising, along the spans
  std::vector<double> cross_supports_at_m;  // two-way: the same across
  BeamEnds ends = BeamEnds::resting;
  std::optional<Joists> joists;  // there if and only if the deck has joists
  bool operator==(const Structure&) const = default;
};

/// EN 1995-1-1: how long a load acts.
enum class LoadDuration { permanent, long_term, medium_term, short_term };

/// Feet of a container, or of a module's spacers.
struct Feet {
  int count = 0;
  double area_mm2 = 0.0;  // of one foot
  bool operator==(const Feet&) const = default;
};

/// What a foot may press, by who said so.
struct Bearing {
  std::optional<double> membrane_kpa;    // hot and for years
  std::optional<double> insulation_kpa;  // for years
  std::string who;
  bool operator==(const Bearing&) const = default;
};

/// What else comes on the roof; an absent one is not looked at, and the answer says so.
struct Actions {
  std::optional<double> ground_snow_kn_per_m2;
  std::optional<double> snow_exposure;      // C_e C_t of EN 1991-1-3; absent: 1
  std::optional<double> hail_mm;            // depth of the hail that lies
  std::optional<double> blocked_outlet_mm;  // depth of the level pool behind a blocked outlet, mean over the roof
  std::optional<int> stack_modules;         // how many wet modules are piled up while they are moved
  std::optional<double> person_kn;
  bool operator==(const Actions&) const = default;
};

/// Widths that stay free of modules; absent: what the checks take as usual.
struct ClearStrips {
  std::optional<double> edge_mm;
  std::optional<double> opening_mm;  // hatches and rooflights
  std::optional<double> outlet_mm;
  std::optional<double> flue_mm;
  std::optional<double> equipment_mm;  // tanks, machines
  std::optional<double> wall_mm;       // walls with windows or doors that rise from the roof
  bool operator==(const ClearStrips&) const = default;
};

/// What an obstacle is; a hatch or rooflight is a hole in the deck.
enum class ObstacleKind { other, hatch, rooflight, flue, tank, equipment, wall };

}  // namespace houseleek::design
