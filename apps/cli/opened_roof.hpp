// A description or a project opened to be asked about: read, checked, with its logbook and its weather.
#pragma once
#include <optional>
#include <string>

#include "base/context.hpp"
#include "catalogue/catalogue.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "evidence.hpp"
#include "report/logbook_answer.hpp"
#include "studies/executor.hpp"
#include "studies/own_figures.hpp"
#include "studies/water.hpp"
#include "studies/weather.hpp"

namespace houseleek::cli {

/// What studies and commands of the day ask for. Where there are issues, `issues_text` is the text that their places are
/// in, and what could not be had without it is empty.
struct OpenedRoof {
  studies::NamedText file;
  catalogue::Catalogue catalogue;
  std::optional<Evidence> evidence;  // of a project
  Evidence nothing_logged;           // what stands in its place for a description
  studies::OwnFigures own;           // measured there
  std::optional<design::RawDesign> description;
  std::optional<design::ValidDesign> design;
  std::optional<studies::NamedText> weather_file;
  std::optional<climate::WeatherYear> weather;
  std::string input_hash;
  Issues issues;
  std::string issues_text;
};

/// `on`: of a project, with its logbook as of this day. Errors: WorldFailed, store::StoreError.
[[nodiscard]] OpenedRoof open_roof(const std::string& path, const std::string& on);

/// What a round of watering and a week are asked of: a view of `roof`, which has no issues and must outlive it.
[[nodiscard]] studies::WaterSource water_source(const OpenedRoof& roof);

/// What the logbook of a project says beside a study's answer: figures measured there, stores today (runs of their own),
/// bills. A contract: the roof has evidence.
[[nodiscard]] report::LogbookAnswer answer_logbook(const OpenedRoof& roof, const studies::Executor& executor,
                                                   const Context& context);

}  // namespace houseleek::cli
