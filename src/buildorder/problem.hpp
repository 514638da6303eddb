// What to choose from when building on: places over rooms, what they gain, what they cost, what keeps them apart.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace houseleek::buildorder {

struct RoomShare {
  int room = 0;
  double area_m2 = 0.0;
};

/// Where one module could lie.
struct Place {
  std::vector<RoomShare> over;  // rooms below it
  int kind = 0;                 // of what would lie there
  bool is_pinned = false;       // wanted before anything else
};

/// What a room gains from covered area: straight lines between points that rise in area; level behind the last one.
struct Response {
  std::vector<double> covered_m2;  // from what is covered today
  std::vector<double> gain;
};
[[nodiscard]] double gain_at(const Response& response, double covered_m2);

/// sum over chosen of take <= room.
struct Condition {
  std::vector<double> take;  // one a place, not below zero
  double room = 0.0;
};

/// What the checks say of places that are all laid.
struct Judgement {
  bool is_within = true;
  std::optional<Condition> broken;  // what was too much, if that can be said
};

using CostFunction = std::function<double(std::span<const int> n_by_kind)>;
using JudgeFunction = std::function<Judgement(std::span<const int> chosen)>;

struct Problem {
  std::vector<Place> places;
  std::vector<Response> responses;  // by room
  std::vector<double> budgets;      // money that comes with each season; what is not spent stays
  int n_kinds = 1;
  CostFunction cost_of;  // of all new modules together; never falls with one more
  JudgeFunction judge;   // may be empty: nothing is forbidden
  std::vector<Condition> conditions;
  std::vector<std::pair<int, int>> excluded;  // places that overlap
};

/// Gain of all rooms with these places laid, over that of today.
[[nodiscard]] double gain_of(const Problem& problem, std::span<const int> chosen);
[[nodiscard]] double cost_of(const Problem& problem, std::span<const int> chosen);
/// By the conditions and pairs alone.
[[nodiscard]] bool is_allowed(const Problem& problem, std::span<const int> chosen);

}  // namespace houseleek::buildorder
