// A study of the small house over eight days, four of its hot quarter and four of its cold one.
#include "studies/small_study.hpp"

#include <stdexcept>

#include "base/issue_text.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {

studies::StudyOptions short_options() {
  studies::StudyOptions options;
  options.engine_version = "0.0.0";
  options.input_hash = "sha256:" + std::string(64, '0');
  options.run.first_hour = 24 * 86;
  options.run.n_hours = 24 * 8;
  options.run.spin_up_hours = 24 * 3;
  return options;
}

report::StudyAnswer study_of(const std::string& toml_text, const studies::StudyOptions& options,
                             const studies::Executor& executor, const Context& context) {
  const design::ValidDesign design = valid_design(toml_text);
  const Result<climate::WeatherYear> weather = studies::make_weather(design, std::nullopt);
  if (!weather) throw std::runtime_error(text_from_issues(weather.error(), toml_text));
  return studies::study(design, shipped_catalogue(), weather.value(), options, executor, context);
}

}  // namespace houseleek::tests
