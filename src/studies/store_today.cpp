// How much water modules hold today, as a study of a project has it: the stores of `houseleek water`, in short.
#include "studies/store_today.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {

std::vector<report::StoreToday> answer_store_today(const StoreInputs& inputs, const Executor& executor,
                                                   const Context& context) {
  const std::int64_t first = inputs.today - days_looked_back;
  const bool is_gauged = rain_log(inputs.records, first, inputs.today).has_gauge;
  const bool is_only_recipe = inputs.design->recipes.size() == 1;
  std::vector<std::string> known;
  for (const design::Recipe& recipe : inputs.design->recipes) {
    const auto given = given_to_recipe(inputs.records, recipe, is_only_recipe);
    const bool is_watered = std::any_of(
        given.begin(), given.end(), [&](const auto& one) { return one.first >= first && one.first <= inputs.today; });
    if (is_watered || is_gauged) known.push_back(recipe.name);
  }
  std::vector<report::StoreToday> answers;
  if (known.empty()) return answers;
  const Result<DrawnWeather> weather = draw_weather(inputs);
  expects(weather.has_value(), "the weather that the study itself has run through");
  constexpr double can_l = 10.0;  // of figures that are not shown here
  for (const report::StoreNow& store : answer_stores(inputs, weather.value(), can_l, executor, context)) {
    const bool is_known = std::find(known.begin(), known.end(), store.name) != known.end();
    if (store.what != "module" || !is_known) continue;
    answers.push_back({store.name, store.store_frac, store.can_wait_days, store.statement});
  }
  return answers;
}

}  // namespace houseleek::studies
