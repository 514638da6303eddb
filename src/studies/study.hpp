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

struct StudyOptions {
  std::string engine_version;
  std::string input_hash;  // of the texts behind design, catalogue and weather
  // A shorter span than the year is for tests; the answer says which hours were kept.
  simulation::RunOptions run;
  bool keeps_columns = false;  // the hours behind the charts of a report
};

/// Answers a design.
/// Shape:    pure but for progress; the same answer for every executor.
/// Errors:   throws Cancelled, simulation::NumericalFailure and ContractViolation; never a part of an answer.
[[nodiscard]] report::StudyAnswer study(const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                                        const climate::WeatherYear& weather, const StudyOptions& options,
                                        const Executor& executor, const Context& context);

}  // namespace houseleek::studies
