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

/// Years behind a range of weather unless somebody asks for another number.
inline constexpr int usual_years = 20;
/// A count out of so many is good to one or two per cent.
inline constexpr int usual_draws = 1000;

struct StudyOptions {
  std::string engine_version;
  std::string input_hash;  // of the texts behind design, catalogue and weather
  // A shorter span than the year is for tests; the answer says which hours were kept.
  simulation::RunOptions run;
  bool keeps_columns = false;  // the hours behind the charts of a report
  // Of weather. More than one needs normals to make them from; the first is the year that is handed in.
  int n_years = 1;
  int n_draws = usual_draws;  // of prices and lives
  // The text behind the design: more modules are laid in copies of it, to see what to build next.
  const design::RawDesign* description = nullptr;
  bool tries_assumptions = false;  // every one at both ends, one at a time; needs the description
};

/// Answers a design. With several years every figure of heat and water is the median of the years, with their tenth and
/// ninetieth part as its range (docs/equations/ranges.md).
/// Shape:    pure but for progress; the same answer for every executor.
/// Errors:   throws Cancelled, simulation::NumericalFailure (also where more than a hundredth of the years failed) and
///           ContractViolation; never a part of an answer.
[[nodiscard]] report::StudyAnswer study(const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                                        const climate::WeatherYear& weather, const StudyOptions& options,
                                        const Executor& executor, const Context& context);

}  // namespace houseleek::studies
