// What to build next, as plain data.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "results/figure.hpp"

namespace houseleek::report {

/// One module more. Costs with likely prices; gains are hot degree-hours a year that the rooms no longer have.
struct OrderStep {
  std::string square;  // under its middle
  double left_m = 0.0;
  double bottom_m = 0.0;
  std::vector<std::string> rooms;  // below it
  int season = 1;
  double cost = 0.0;
  double gain_k_h = 0.0;
  std::string reason;
};

/// What a room gains from covered area, from runs of the whole year.
struct RoomResponse {
  std::string room;
  std::vector<double> covered_m2;
  std::vector<double> gain_k_h;  // over the bare roof
};

/// How the steps were found.
struct OrderAbout {
  std::string because;  // why there is no step; may be empty
  std::string recipe;
  std::string placed;
  std::string currency;
  std::vector<double> budgets;  // of each season; empty: no limit of money
  int n_places = 0;             // that could be chosen from
  double cost = 0.0;            // of all steps
  double gain_k_h = 0.0;
  bool is_exact = false;
  double most_loss_k_h = 0.0;  // never more than this is lost against the best order; summed over seasons
  std::string load_statement;
  std::string statement;
  std::vector<std::string> left_out;  // pins and wishes that could not be met, and why
  std::vector<RoomResponse> responses;
};

struct OrderAnswer {
  std::string design_name;
  bool is_invented = false;
  std::vector<OrderStep> steps;
  OrderAbout about;
};

}  // namespace houseleek::report
