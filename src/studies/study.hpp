// The main job: bare, planted and the plain rivals through a year, and what follows for rooms, water, weight and money.
#pragma once
#include <string>

#include "base/context.hpp"
#include "catalogue/catalogue.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "report/study_answer.hpp"
#include "simulation/run.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

/// Two doubles fill the vector registers that every x86-64 has: measured a fifth faster than four lanes, and never
/// another bit.
inline constexpr int study_lane_width = 2;

struct StudyOptions {
  std::string engine_version;
  std::string input_hash;  // of the texts behind design, catalogue and weather
  // A shorter span than the year is for tests; the answer says which hours were kept.
  simulation::RunOptions run{.lane_width = study_lane_width};
  bool keeps_columns = false;  // the hours behind the charts of a report
};

/// Answers a design.
/// Shape:    pure but for progress; the same answer for every executor.
/// Errors:   throws Cancelled, simulation::NumericalFailure and ContractViolation; never a part of an answer.
[[nodiscard]] report::StudyAnswer study(const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                                        const climate::WeatherYear& weather, const StudyOptions& options,
                                        const Executor& executor, const Context& context);

}  // namespace houseleek::studies
