// Ceilings and rooms of a group solved together from the last slices and the rooms' masses, for the second program.
#pragma once
#include <vector>

#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

/// What a room is at one moment.
struct RoomNow {
  double outside_c = 0.0;
  double mass_c = 0.0;
  double internal_gain_w = 0.0;
  double solar_gain_w = 0.0;
  bool is_window_hour = false;
};

/// The last slice above a ceiling.
struct CeilingNow {
  double conductance_w_per_m2_k = 0.0;  // 2 lambda / d
  double last_slice_c = 0.0;
};

struct RoomNodes {
  std::vector<double> ceiling_c;  // by stack
  std::vector<double> air_c;      // by room
  std::vector<double> surface_c;  // by room
};

class Rooms {
 public:
  explicit Rooms(const simulation::Group& group);
  /// Newton from `nodes`, which it replaces; false where it does not converge.
  [[nodiscard]] bool solve(const std::vector<CeilingNow>& ceilings, const std::vector<RoomNow>& rooms,
                           RoomNodes& nodes);
  /// C_m dT_mass/dt of a room.
  [[nodiscard]] double mass_heating_w(std::size_t room, const RoomNow& now, double surface_c) const;

 private:
  [[nodiscard]] double& at(std::size_t row, std::size_t column) { return matrix_[row * n_ + column]; }
  void fill(const std::vector<CeilingNow>& ceilings, const std::vector<RoomNow>& rooms, const RoomNodes& nodes);
  [[nodiscard]] bool eliminate();

  const simulation::Group& group_;
  std::size_t n_ = 0;
  std::vector<double> matrix_;
  std::vector<double> step_;
};

[[nodiscard]] bool is_window_hour(const simulation::WindowRule& rule, int hour_of_day);

}  // namespace houseleek::tests::second_opinion
