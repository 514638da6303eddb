// Water across the faces between squares and into outlets: how much runs, and how that grows with the depths.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "checks/drainage_cover.hpp"
#include "physics/outlet.hpp"
#include "plan/levels.hpp"

namespace houseleek::checks {

/// Where water leaves: an outlet, or an opening or edge (exactly one of the two).
struct Exit {
  std::string name;
  int square = 0;
  double lip_m = 0.0;  // level at which it begins to take water
  std::optional<physics::RoundOutlet> outlet;
  std::optional<physics::Opening> opening;
  std::optional<double> most_m3_per_s;  // what the pipe below takes
  double clear_frac = 1.0;              // of what it would take; 0: blocked
};

/// A deck, what stands on it and where water leaves it.
struct FlowSquares {
  plan::DeckShape deck;
  std::vector<SquareCover> cover;  // by square
  std::vector<Exit> exits;         // no lip below the deck
};

/// Slope of the water below which flow grows with the slope itself instead of its root.
inline constexpr double least_turbulent_slope = 1.0e-4;

/// Between two squares that water can pass.
struct Face {
  int from = 0;  // square
  int to = 0;
  bool is_along_x = false;
  double sill_m = 0.0;
  double width_m = 0.0;
  double distance_m = 0.0;
  std::size_t carrying_from = 0;  // of OpenFaces::carryings; both the same: one of them will do
  std::size_t carrying_to = 0;
};

/// All faces that water can pass, along x row by row, then along y, and what the covers beside them carry.
struct OpenFaces {
  std::vector<Face> faces;
  std::vector<Carrying> carryings;  // each once
  // Columns of the same, so that many faces are worked out at once.
  std::vector<int> from;
  std::vector<int> to;
  std::vector<double> sill_m;
  std::vector<double> width_m;
  std::vector<double> per_distance;  // 1/m
  std::vector<double> open;          // the lesser of both sides' `open`: all that faces between bare squares carry by
  std::vector<int> covered;          // faces beside modules, which carry by more than that; rising
};
[[nodiscard]] OpenFaces open_faces(const FlowSquares& squares);

/// Square of the water's slope along each face: the lesser of the one-sided slopes, none where they differ in sign.
[[nodiscard]] std::vector<double> squares_of_cross_slope(const FlowSquares& squares, std::span<const Face> faces,
                                                         std::span<const double> level_m);

/// Flows across faces, one value each.
struct FaceFlows {
  std::vector<double> m3_per_s;  // from `from` to `to`
  std::vector<double> by_from;   // its derivative by the depth there, not negative
  std::vector<double> by_to;     // the same, not positive
  std::vector<double> slope;     // of the water, down from `from` to `to`
  // By how much the secant through no slope is steeper by depth than the tangent. The flow grows like a root of the slope:
  // where water turns round between two iterations, tangents overshoot for ever and secants land beside the answer.
  std::vector<double> secant_more;
};

/// q of every face: k(h_f) S/(S^2 + T^2 + s^2)^(1/4) + K d S times its width; see advance_flow.
/// Shape:    level_m by square; cross_slope2 and flows by face. Loops without branches, which the compiler does for
///           several faces at once: the same operations, so the same bits, as one by one.
void find_face_flows(const OpenFaces& open, std::span<const double> cross_slope2, std::span<const double> level_m,
                     FaceFlows& flows);

struct ExitFlow {
  double m3_per_s = 0.0;
  double by_depth = 0.0;
};

[[nodiscard]] ExitFlow exit_flow(const Exit& exit, double level_m);

}  // namespace houseleek::checks
