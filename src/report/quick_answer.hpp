// What is answered at once after a change, as plain data, and its document (schema/quick.schema.json).
#pragma once
#include <string>
#include <vector>

#include "report/json_parts.hpp"
#include "report/study_answer.hpp"

namespace houseleek::report {

/// One room, bare and as the design lays it out. Only the figures that a run without machines gives are set.
struct QuickRoom {
  std::string name;
  bool is_bedroom = false;
  RoomFigures bare;
  RoomFigures planted;
};

/// A sentence, and the question of the study that it stands in for.
struct QuickSentence {
  std::string question;
  std::string text;
};

/// Every figure in it is the study's own of the same design in one year of weather, not an estimate of it.
struct QuickAnswer {
  std::string design_name;
  bool is_invented = false;
  std::string engine_version;
  std::string input_hash;
  int n_hours = 0;
  int n_runs = 0;       // of a year, worked out now
  int n_runs_kept = 0;  // taken over from earlier answers: nothing that they depend on has changed
  RoofAnswer roof;
  std::vector<RecipeAnswer> recipes;
  LoadAnswer load;
  std::vector<StackAnswer> stacks;  // bare, then recipes
  std::vector<QuickRoom> rooms;
  std::vector<QuickSentence> sentences;
  std::vector<std::string> still_running;  // questions that only the study answers
};

[[nodiscard]] Json json_from(const QuickAnswer& answer);

}  // namespace houseleek::report
