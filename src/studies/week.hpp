// `houseleek week`: what to do this week, the most urgent first, each with the line that ticks it off.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "report/week_answer.hpp"
#include "studies/water.hpp"

namespace houseleek::studies {

inline constexpr int days_in_week = 7;

/// Something due that another part of the program knows of: a batch to pot on, a tree that has to leave.
struct WorkDue {
  std::int64_t day = 0;  // since 1970
  report::WeekKind kind = report::WeekKind::pot_on;
  std::string what;   // "Pot on 40 of the holm oaks"
  std::string where;  // a batch, a square; may be empty
  std::string why;    // one sentence
  report::Figure figure;
  std::string unit;
  std::string caution;      // may be empty
  std::string log_command;  // without the program and the file: "potted_on --batch ... --count 40"
};

struct WeekRequest {
  std::string on;
  TypedDay yesterday;
  double can_l = 10.0;
  std::optional<double> gust_km_per_h;  // of a storm that is announced
  std::vector<WorkDue> more;            // joined to the list
  std::int64_t now_utc_s = 0;
  std::string engine_version;
  std::string input_hash;
  std::string file;
};

/// Errors: issues of the request, with the option's name as path, all in one pass; of the weather.
///         Throws Cancelled, simulation::NumericalFailure, ContractViolation.
[[nodiscard]] Result<report::WeekAnswer> answer_week(const WaterSource& source, const WeekRequest& request,
                                                     const Executor& executor, const Context& context);

}  // namespace houseleek::studies
