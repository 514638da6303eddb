// houseleek order: what to build next, step by step, on the terminal or as JSON.
#include "order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <thread>

#include "base/nearest_name.hpp"
#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "progress.hpp"
#include "report/json_parts.hpp"
#include "report/order_json.hpp"
#include "report/order_text.hpp"
#include "studies/build_order.hpp"
#include "studies/open_design.hpp"
#include "studies/water_answers.hpp"
#include "threads.hpp"

namespace houseleek::cli {
namespace {

/// Points of all words; nothing after a message where one is none.
std::optional<std::vector<geometry::PointM>> points_of(const design::ValidDesign& design,
                                                       const std::vector<std::string>& words) {
  std::vector<geometry::PointM> points;
  for (const std::string& one : words) {
    const std::optional<geometry::PointM> point = studies::point_from_words(design, one);
    if (!point) {
      write_message(fmt::format(
          "houseleek: \"{}\" is no place on this roof; give a square of the report's maps, as B4, or x,y in metres\n",
          one));
      return std::nullopt;
    }
    points.push_back(*point);
  }
  return points;
}

}  // namespace

ExitCode run_order(const OrderArguments& arguments) {
  const InterruptWatch interrupt;
  const OpenedRoof roof = open_roof(arguments.file, "");
  if (!roof.issues.empty()) return refuse_input("order", roof.issues, roof.issues_text, arguments.is_json);
  const design::ValidDesign& design = *roof.design;
  studies::OrderWanted wanted;
  wanted.budgets.assign(static_cast<std::size_t>(arguments.n_seasons), arguments.budget);
  wanted.n_most = arguments.n_most;
  if (!arguments.recipe.empty()) {
    const auto found = std::find_if(design->recipes.begin(), design->recipes.end(), [&](const design::Recipe& one) {
      return folded_name(one.name) == folded_name(arguments.recipe);
    });
    if (found == design->recipes.end()) {
      write_message(fmt::format("houseleek: there is no recipe \"{}\" in {}\n", arguments.recipe, roof.file.name));
      return ExitCode::usage;
    }
    wanted.recipe = static_cast<int>(found - design->recipes.begin());
  }
  const auto pins = points_of(design, arguments.pins);
  const auto bans = points_of(design, arguments.bans);
  if (!pins || !bans) return ExitCode::usage;
  wanted.pins = *pins;
  wanted.bans = *bans;
  const plan::Layout layout = plan::make_layout(design);
  const studies::LimitsByDay limits = studies::adaptive_limits_by_day(*roof.weather);
  const studies::RunInputs year = studies::run_inputs_of(design, layout, *roof.weather, limits);
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  const report::OrderAnswer answer =
      studies::order({*roof.description, roof.catalogue, year}, wanted, executor_with_threads(n_threads), context);
  write_answer(arguments.is_json
                   ? report::text_from(report::json_from(answer, std::string(program_version()), roof.input_hash))
                   : report::text_from(answer));
  return ExitCode::done;
}

}  // namespace houseleek::cli
