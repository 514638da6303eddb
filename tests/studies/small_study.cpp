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
  options.n_draws = 200;
  return options;
}

std::string checked_design_text() {
  return edited(small_design_text(), {{"finish = {", "parapet_height_mm = 150\nfinish = {"},
                                      {"hour = 7\n", "hour = 7\n[recipe.spacer.feet]\ncount = 4\narea_mm2 = 2500\n"},
                                      {"[rivals]", R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 4]
[roof.bearing]
membrane_kpa = 400
who = "B. Roofer"
[roof.actions]
ground_snow_kn_per_m2 = 0.3
hail_mm = 20
stack_modules = 2
[roof.clear_strips]
edge_mm = 0
outlet_mm = 100
[wind]
roof_height_m = 5
basic_wind_m_per_s = 25
terrain = "suburb"
[design_rain]
source = "invented"
[[design_rain.intensity]]
return_years = 10
duration_min = 5
intensity_mm_per_h = 90
[rivals])"}});
}

report::StudyAnswer study_of(const std::string& toml_text, const studies::StudyOptions& options,
                             const studies::Executor& executor, const Context& context) {
  const design::ValidDesign design = valid_design(toml_text);
  const Result<climate::WeatherYear> weather = studies::make_weather(design, std::nullopt);
  if (!weather) throw std::runtime_error(text_from_issues(weather.error(), toml_text));
  const Result<design::RawDesign> description = design::parse_design(toml_text, "roof.toml");
  if (!description) throw std::runtime_error(text_from_issues(description.error(), toml_text));
  studies::StudyOptions with_text = options;
  if (with_text.description == nullptr) with_text.description = &description.value();
  return studies::study(design, shipped_catalogue(), weather.value(), with_text, executor, context);
}

}  // namespace houseleek::tests
