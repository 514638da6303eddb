// A description or a project opened to be asked about: read, checked, with its logbook and its weather.
#include "opened_roof.hpp"

#include "base/contract.hpp"
#include "embedded.hpp"
#include "inputs.hpp"
#include "studies/bill_answers.hpp"
#include "studies/logbook_day.hpp"
#include "studies/open_design.hpp"
#include "studies/store_today.hpp"

namespace houseleek::cli {
namespace {

OpenedRoof refused(OpenedRoof roof, const Issues& issues, std::string text) {
  roof.issues = issues;
  roof.issues_text = std::move(text);
  return roof;
}

}  // namespace

OpenedRoof open_roof(const std::string& path, const std::string& on) {
  OpenedRoof roof;
  roof.file = read_design_file(path);
  roof.catalogue = read_embedded_catalogue();
  const Result<design::RawDesign> written = design::parse_design(roof.file.text, roof.file.name);
  if (!written) return refused(std::move(roof), written.error(), roof.file.text);
  const Result<design::ValidDesign> read = design::validate_design(written.value(), roof.catalogue);
  if (!read) return refused(std::move(roof), read.error(), roof.file.text);
  // A project's logbook stands before assumptions: what was weighed, what wore out.
  Result<std::optional<Evidence>> evidence = read_evidence(path, read.value()->site.time_zone, on);
  if (!evidence) return refused(std::move(roof), evidence.error(), "");
  roof.evidence = std::move(evidence).value();
  if (roof.evidence) {
    roof.own =
        studies::find_own_figures(roof.evidence->records, read.value(), roof.catalogue, roof.evidence->end_utc_s);
  }
  roof.description = studies::with_own_figures(written.value(), *read.value(), roof.own.figures);
  Result<design::ValidDesign> design = design::validate_design(*roof.description, roof.catalogue);
  if (!design) return refused(std::move(roof), design.error(), roof.file.text);
  roof.design = std::move(design).value();
  roof.weather_file = read_weather_file(*roof.design, path);
  Result<climate::WeatherYear> weather = studies::open_weather(*roof.design, roof.file, roof.weather_file);
  if (!weather) {
    const std::string text = roof.weather_file ? roof.weather_file->text : roof.file.text;
    return refused(std::move(roof), weather.error(), text);
  }
  roof.weather = std::move(weather).value();
  studies::NamedText behind = roof.file;
  if (roof.evidence) behind.text += studies::text_of_standing(roof.evidence->records);
  roof.input_hash = studies::input_hash(embedded_catalogue(), behind, roof.weather_file);
  return roof;
}

studies::WaterSource water_source(const OpenedRoof& roof) {
  expects(roof.issues.empty(), "a roof without issues");
  const Evidence& evidence = roof.evidence ? *roof.evidence : roof.nothing_logged;
  return {.design = *roof.design,
          .catalogue = roof.catalogue,
          .records = evidence.records,
          .loggers = evidence.loggers,
          .weather_file = roof.weather_file,
          .has_logbook = roof.evidence.has_value()};
}

report::LogbookAnswer answer_logbook(const OpenedRoof& roof, const studies::Executor& executor,
                                     const Context& context) {
  expects(roof.evidence.has_value(), "a project");
  const Evidence& evidence = *roof.evidence;
  report::LogbookAnswer logbook;
  logbook.on = evidence.on;
  logbook.left_out = roof.own.left_out;
  for (const studies::OwnFigure& figure : roof.own.figures) {
    const catalogue::Spread& value = figure.value;
    logbook.measured.push_back(
        {figure.path, results::figure_with_range(value.likely, value.low, value.high, value.source), figure.statement});
  }
  const studies::StoreInputs stores{.design = *roof.design,
                                    .catalogue = roof.catalogue,
                                    .records = evidence.records,
                                    .loggers = evidence.loggers,
                                    .weather_file = roof.weather_file,
                                    .has_logbook = true,
                                    .today = evidence.today,
                                    .yesterday = {},
                                    .filled_day = std::nullopt};
  logbook.stores = studies::answer_store_today(stores, executor, context);
  logbook.bills = studies::answer_bills(evidence.records, evidence.loggers, **roof.design);
  return logbook;
}

}  // namespace houseleek::cli
