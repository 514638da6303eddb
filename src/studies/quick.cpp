// What a change does, answered at once: weight, load, U-values, membrane and hours above the limit, bare and planted.
#include "studies/quick.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <memory>

#include "base/contract.hpp"
#include "geometry/outline.hpp"
#include "report/words.hpp"
#include "studies/load_answer.hpp"
#include "studies/recipe_answers.hpp"
#include "studies/roof_answers.hpp"
#include "studies/roof_squares.hpp"
#include "studies/room_answers.hpp"
#include "studies/run_parts.hpp"
#include "studies/stack_answers.hpp"
#include "studies/water_answers.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;
using report::short_figure;

/// A dozen changes there and back: bare, planted and two forms of a recipe each.
constexpr std::size_t most_kept_runs = 48;

// Questions that wait for runs of a year, by their names in the study.
constexpr std::string_view cooler = "3 Cooler?";
constexpr std::string_view fans = "4 Fans?";

/// One run that the answer needs: kept from before, or to be done.
struct Wanted {
  std::string name;
  KeptRun run;
  bool is_done = false;
  [[nodiscard]] double weight() const { return static_cast<double>(run.cover.group.stacks.size()); }
};
using Wants = std::vector<std::unique_ptr<Wanted>>;

bool has_same_inputs(const KeptRun& a, const KeptRun& b) {
  return a.is_whole_house == b.is_whole_house && a.cover == b.cover && a.rooms == b.rooms && a.seasons == b.seasons &&
         a.thresholds_frac == b.thresholds_frac;
}

Wanted& want(Wants& wants, const RunInputs& inputs, std::string name, simulation::CoverGroup cover,
             bool is_whole_house) {
  auto wanted = std::make_unique<Wanted>();
  wanted->name = std::move(name);
  wanted->run.cover = std::move(cover);
  wanted->run.rooms = inputs.design->rooms;
  wanted->run.seasons = inputs.seasons;
  wanted->run.thresholds_frac = inputs.thresholds_frac;
  wanted->run.is_whole_house = is_whole_house;
  wants.push_back(std::move(wanted));
  return *wants.back();
}

void take_over(Wants& wants, const QuickMemory& memory) {
  for (const auto& wanted : wants) {
    const auto found = std::find_if(memory.runs.begin(), memory.runs.end(),
                                    [&wanted](const KeptRun& kept) { return has_same_inputs(kept, wanted->run); });
    if (found == memory.runs.end()) continue;
    wanted->run.sums = found->sums;
    wanted->is_done = true;
  }
}

/// Does what is not done yet; the longest first. Returns how many.
int run_missing(const Wants& wants, const RunInputs& inputs, const Executor& executor, const Context& context) {
  // A part of its own each, because run_parts() counts what it is given.
  struct Part {
    Wanted* wanted = nullptr;
    std::atomic<double> done_frac = 0.0;
    [[nodiscard]] double weight() const { return wanted->weight(); }
  };
  std::vector<std::unique_ptr<Part>> parts;
  for (const auto& wanted : wants) {
    if (wanted->is_done) continue;
    parts.push_back(std::make_unique<Part>());
    parts.back()->wanted = wanted.get();
  }
  if (parts.empty()) return 0;
  std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a->weight() > b->weight(); });
  const auto do_part = [&inputs](Part& part, const Context& of_run) {
    Wanted& wanted = *part.wanted;
    wanted.run.sums = run_group_of(inputs, wanted.run.cover, wanted.name, wanted.run.is_whole_house, of_run);
  };
  run_parts(parts, do_part, executor, context);
  return static_cast<int>(parts.size());
}

void keep(const Wants& wants, QuickMemory& memory) {
  for (const auto& wanted : wants) {
    if (!wanted->is_done) memory.runs.push_back(wanted->run);
  }
  if (memory.runs.size() > most_kept_runs) {
    memory.runs.erase(memory.runs.begin(), memory.runs.end() - static_cast<std::ptrdiff_t>(most_kept_runs));
  }
}

std::string whole(double number) { return fmt::format("{:.0f}", number); }

std::string made_of_sentence(const report::RecipeAnswer& recipe, const report::RoofAnswer& roof) {
  const report::PlacedAnswer& placed = recipe.raised ? *recipe.raised : recipe.flat;
  return fmt::format("{}: {} kg/m2 dry, {} soaked; U {} W/m2K {}, bare {}", recipe.name,
                     short_figure(recipe.mass_dry_kg_per_m2), short_figure(recipe.mass_soaked_kg_per_m2),
                     short_figure(placed.u_value_dry_w_per_m2_k), recipe.raised ? "raised" : "flat",
                     short_figure(roof.bare.u_value_w_per_m2_k));
}

std::string membrane_sentence(const std::vector<report::StackAnswer>& stacks) {
  std::string text = fmt::format("membrane at its hottest: bare {} degC", whole(*stacks.front().membrane_max_c.value));
  for (std::size_t i = 1; i < stacks.size(); ++i) {
    text += fmt::format("; {}, {} {}", stacks[i].name, stacks[i].form, whole(*stacks[i].membrane_max_c.value));
  }
  return text;
}

std::string hours_sentence(const std::vector<report::QuickRoom>& rooms) {
  std::string text = "hours above the comfort limit: ";
  for (const report::QuickRoom& room : rooms) {
    if (&room != rooms.data()) text += "; ";
    text += fmt::format("{} {} (bare {})", room.name, whole(*room.planted.hours_above_limit.value),
                        whole(*room.bare.hours_above_limit.value));
  }
  return text;
}

}  // namespace

report::RoofAnswer answer_roof(const design::ValidDesign& design) {
  report::RoofAnswer answer;
  answer.area_m2 = geometry::area_m2(design->roof.outline);
  for (const design::ModulePlace& place : design->modules) {
    const geometry::RectangleM& r = place.rectangle;
    answer.covered_m2 += (r.right_m - r.left_m) * (r.top_m - r.bottom_m);
  }
  answer.n_modules = static_cast<int>(design->modules.size());
  answer.deck = deck_in_words(design->roof);
  answer.bare = answer_deck(design);
  answer.squares = make_square_grid(design->roof);
  return answer;
}

report::QuickAnswer answer_without_runs(const design::ValidDesign& design, const QuickOptions& options) {
  report::QuickAnswer answer;
  answer.design_name = design->name;
  answer.is_invented = design->is_invented;
  answer.engine_version = options.engine_version;
  answer.input_hash = options.input_hash;
  answer.n_hours = options.run.n_hours;
  answer.roof = answer_roof(design);
  answer.recipes = answer_recipes(design);
  answer.load = answer_load(design, answer_drainage(design));
  answer.sentences.push_back({"1 Carry it?", answer.load.statement});
  for (const report::RecipeAnswer& recipe : answer.recipes) {
    answer.sentences.push_back({"2 Made of?", made_of_sentence(recipe, answer.roof)});
  }
  answer.still_running = {std::string(cooler), std::string(fans), "Rivals?",  "  Stay down?", "  Warmer?", "  Dry?",
                          "7 Live?",           "5 Drain?",        "6 Water?", "8 Cost?",      "9 Next?"};
  return answer;
}

report::QuickAnswer answer_quickly(const design::ValidDesign& design, const climate::WeatherYear& weather,
                                   const QuickOptions& options, QuickMemory& memory, const Executor& executor,
                                   const Context& context) {
  if (memory.first_hour != options.run.first_hour || memory.n_hours != options.run.n_hours ||
      memory.spin_up_hours != options.run.spin_up_hours || !(memory.weather == weather)) {
    memory = {weather, options.run.first_hour, options.run.n_hours, options.run.spin_up_hours, {}};
  }
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  const RunInputs inputs = run_inputs_of(design, layout, weather, limits, options.run);
  Wants wants;
  const Wanted& bare = want(wants, inputs, "bare", group_of_cover(inputs, CoverKind::bare, false), true);
  const Wanted& planted = want(wants, inputs, "planted", group_of_cover(inputs, CoverKind::planted, false), true);
  struct OfRecipe {
    const Wanted* wanted = nullptr;
    std::string name;
    bool is_raised = false;
  };
  std::vector<OfRecipe> of_recipes;
  for (std::size_t i = 0; i < design->recipes.size(); ++i) {
    const design::Recipe& recipe = design->recipes[i];
    for (const bool is_raised : {false, true}) {
      if (is_raised && recipe.spacer.height_mm <= 0.0) continue;
      const design::Placed placed = is_raised ? design::Placed::raised : design::Placed::flat;
      of_recipes.push_back(
          {&want(wants, inputs, recipe.name,
                 simulation::make_recipe_group(design, layout, weather, static_cast<int>(i), placed), false),
           recipe.name, is_raised});
    }
  }
  take_over(wants, memory);

  report::QuickAnswer answer = answer_without_runs(design, options);
  answer.n_runs = run_missing(wants, inputs, executor, context);
  answer.n_runs_kept = static_cast<int>(wants.size()) - answer.n_runs;
  keep(wants, memory);
  answer.stacks.push_back(answer_stack("bare", "bare", bare.run.sums, largest_room(layout)));
  for (const OfRecipe& one : of_recipes) {
    answer.stacks.push_back(answer_stack(one.name, one.is_raised ? "raised" : "flat", one.wanted->run.sums, 0));
  }
  const RoomSums no_machines;
  for (std::size_t i = 0; i < design->rooms.size(); ++i) {
    const design::Room& room = design->rooms[i];
    answer.rooms.push_back({room.name, room.is_bedroom, figures_of_room(room, bare.run.sums.rooms[i], no_machines),
                            figures_of_room(room, planted.run.sums.rooms[i], no_machines)});
  }
  answer.sentences.push_back({std::string(cooler), membrane_sentence(answer.stacks)});
  answer.sentences.push_back({std::string(fans), hours_sentence(answer.rooms)});
  const auto is_answered = [](const std::string& question) { return question == cooler || question == fans; };
  answer.still_running.erase(std::remove_if(answer.still_running.begin(), answer.still_running.end(), is_answered),
                             answer.still_running.end());
  return answer;
}

}  // namespace houseleek::studies
