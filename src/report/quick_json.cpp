// The quick answer as the JSON document of schema/quick.schema.json.
#include "report/quick_answer.hpp"
#include "report/roof_checks_json.hpp"
#include "report/study_json.hpp"

namespace houseleek::report {
namespace {

Json free_figures_of(const RoomFigures& figures) {
  Json json = {{"operative_max_c", json_from(figures.operative_max_c)},
               {"operative_min_c", json_from(figures.operative_min_c)},
               {"hours_above_limit", json_from(figures.hours_above_limit)},
               {"hours_above_limit_with_fan", json_from(figures.hours_above_limit_with_fan)},
               {"degree_hours_above_k_h", json_from(figures.degree_hours_above_k_h)},
               {"night_hours_above_limit", nullptr}};
  if (figures.night) json["night_hours_above_limit"] = json_from(figures.night->hours_above_limit);
  return json;
}

}  // namespace

Json json_from(const QuickAnswer& answer) {
  Json recipes = Json::array();
  for (const RecipeAnswer& recipe : answer.recipes) recipes.push_back(json_from(recipe));
  Json stacks = Json::array();
  for (const StackAnswer& stack : answer.stacks) stacks.push_back(json_from(stack));
  Json rooms = Json::array();
  for (const QuickRoom& room : answer.rooms) {
    rooms.push_back({{"name", room.name},
                     {"is_bedroom", room.is_bedroom},
                     {"bare", free_figures_of(room.bare)},
                     {"planted", free_figures_of(room.planted)}});
  }
  Json sentences = Json::array();
  for (const QuickSentence& sentence : answer.sentences) {
    sentences.push_back({{"question", sentence.question}, {"text", sentence.text}});
  }
  return {{"answer", "quick"},
          {"is_valid", true},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine",
           {{"version", answer.engine_version},
            {"input_hash", answer.input_hash},
            {"n_hours", answer.n_hours},
            {"n_runs", answer.n_runs},
            {"n_runs_kept", answer.n_runs_kept}}},
          {"roof", json_from(answer.roof)},
          {"recipes", std::move(recipes)},
          {"load", json_from(answer.load)},
          {"stacks", std::move(stacks)},
          {"rooms", std::move(rooms)},
          {"sentences", std::move(sentences)},
          {"still_running", answer.still_running}};
}

}  // namespace houseleek::report
