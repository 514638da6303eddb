// What commands of the day read: the design with its own figures, its weather file, its logbook.
#include "roof_source.hpp"

#include "embedded.hpp"
#include "evidence.hpp"
#include "inputs.hpp"
#include "studies/logbook_day.hpp"
#include "studies/open_design.hpp"
#include "studies/own_figures.hpp"

namespace houseleek::cli {

std::optional<RoofSource> read_roof(const std::string& path, const std::string& on, RoofRefusal& refusal) {
  studies::NamedText file = read_design_file(path);
  catalogue::Catalogue catalogue = read_embedded_catalogue();
  refusal.text = file.text;
  const auto refuse = [&refusal](const Issues& issues) {
    refusal.issues = issues;
    return std::nullopt;
  };
  const Result<design::RawDesign> written = design::parse_design(file.text, file.name);
  if (!written) return refuse(written.error());
  Result<design::ValidDesign> read = design::validate_design(written.value(), catalogue);
  if (!read) return refuse(read.error());
  Result<std::optional<Evidence>> evidence = read_evidence(path, read.value()->site.time_zone, on);
  if (!evidence) {
    refusal.text.clear();
    return refuse(evidence.error());
  }
  std::vector<logbook::EventRecord> records;
  std::vector<logbook::LoggerColumn> loggers;
  const bool has_logbook = evidence.value().has_value();
  if (has_logbook) {
    Evidence found = *evidence.value();
    const studies::OwnFigures own = studies::find_own_figures(found.records, read.value(), catalogue, found.end_utc_s);
    read = design::validate_design(studies::with_own_figures(written.value(), *read.value(), own.figures), catalogue);
    if (!read) return refuse(read.error());
    records = std::move(found.records);
    loggers = std::move(found.loggers);
  }
  std::optional<studies::NamedText> weather_file = read_weather_file(read.value(), path);
  const Result<studies::WeatherInUse> weather = studies::open_weather_in_use(read.value(), file, weather_file);
  if (!weather) {
    if (weather_file) refusal.text = weather_file->text;
    return refuse(weather.error());
  }
  studies::NamedText behind = file;
  behind.text += studies::text_of_standing(records);
  std::string hash = studies::input_hash(embedded_catalogue(), behind, weather_file);
  return RoofSource{.file = std::move(file),
                    .catalogue = std::move(catalogue),
                    .design = std::move(read).value(),
                    .records = std::move(records),
                    .loggers = std::move(loggers),
                    .weather_file = std::move(weather_file),
                    .has_logbook = has_logbook,
                    .input_hash = std::move(hash)};
}

}  // namespace houseleek::cli
