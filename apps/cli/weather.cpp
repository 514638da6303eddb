// houseleek weather: the year in use on the terminal, as JSON, or as a file of hours.
#include "weather.hpp"

#include <fmt/format.h>

#include <optional>

#include "base/issue_text.hpp"
#include "climate/write_csv.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "report/json_parts.hpp"
#include "report/weather_json.hpp"
#include "report/weather_text.hpp"
#include "studies/open_design.hpp"
#include "studies/weather_answer.hpp"

namespace houseleek::cli {
namespace {}  // namespace

ExitCode run_weather(const WeatherArguments& arguments) {
  const studies::NamedText file = read_design_file(arguments.file);
  const Result<design::ValidDesign> design = design::read_design(file.text, file.name, read_embedded_catalogue());
  if (!design) return refuse_input("weather", design.error(), file.text, arguments.is_json);
  const std::optional<studies::NamedText> weather_file = read_weather_file(design.value(), arguments.file);
  const std::string weather_text = weather_file ? weather_file->text : file.text;
  const bool is_over_input =
      !arguments.csv_path.empty() && (is_same_file(arguments.csv_path, arguments.file) ||
                                      (weather_file && is_same_file(arguments.csv_path, weather_file->name)));
  if (is_over_input) {
    write_message("houseleek: the hours would be written over what they come from; give --csv another name\n");
    return ExitCode::usage;
  }
  const Result<studies::WeatherInUse> weather = studies::open_weather_in_use(design.value(), file, weather_file);
  if (!weather) return refuse_input("weather", weather.error(), weather_text, arguments.is_json);
  const report::WeatherInUseAnswer answer = studies::answer_weather(design.value(), weather.value());
  if (answer.file) write_message(text_from_issues(answer.file->warnings, weather_text));
  if (!arguments.csv_path.empty()) {
    NewFile(arguments.csv_path).finish(climate::write_year_csv(weather.value().year));
  }
  write_answer(arguments.is_json ? report::text_from(report::json_from(answer)) : report::text_from(answer));
  if (!arguments.csv_path.empty()) write_message(fmt::format("The hours: {}\n", arguments.csv_path));
  return ExitCode::done;
}

}  // namespace houseleek::cli
