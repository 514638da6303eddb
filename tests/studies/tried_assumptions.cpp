// A study of the small house that tries its assumptions, and the way to one of them in the answer.
#include "studies/tried_assumptions.hpp"

#include <stdexcept>

#include "base/issue_text.hpp"

namespace houseleek::tests {

design::RawDesign raw_of(const std::string& text) {
  Result<design::RawDesign> raw = design::parse_design(text, "small.toml");
  if (!raw) throw std::runtime_error(text_from_issues(raw.error(), text));
  return std::move(raw).value();
}

std::string open_text() {
  return edited(small_design_text(), {{"infiltration_per_h = 0.5\n", ""},
                                      {"gap_wind_frac = 0.1\n", ""},
                                      {"heat_to_c = 20\n", ""},
                                      {"finish = { albedo = 0.2, emissivity = 0.9 }\n", ""}});
}

report::StudyAnswer tried(const std::string& text, const studies::Executor& executor, const Context& context) {
  const design::RawDesign raw = raw_of(text);
  studies::StudyOptions options = short_options();
  options.run.n_hours = 24 * 4;
  options.run.spin_up_hours = 24;
  options.description = &raw;
  options.tries_assumptions = true;
  return study_of(text, options, executor, context);
}

const report::AssumedEffect& effect_on(const report::StudyAnswer& answer, std::string_view path) {
  for (std::size_t i = 0; i < answer.assumed.size(); ++i) {
    if (answer.assumed[i].path == path) return answer.assumed_effects[i];
  }
  throw std::runtime_error("not assumed: " + std::string(path));
}

}  // namespace houseleek::tests
