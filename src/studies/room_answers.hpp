// How warm and how cold the rooms get under each cover, and the heat that machines would move.
#pragma once
#include <vector>

#include "report/study_answer.hpp"
#include "studies/cover_runs.hpp"

namespace houseleek::studies {

/// One room under one cover. What needs the run with machines is zero where `held` is empty.
[[nodiscard]] report::RoomFigures figures_of_room(const design::Room& room, const RoomSums& free, const RoomSums& held);

/// Every room of the design, in its order.
[[nodiscard]] std::vector<report::RoomAnswer> answer_rooms(const design::Design& design, const CoverRuns& runs);

/// The whole house: hours and heat added up over the rooms, the highest and the lowest of temperatures. A room without
/// a fan counts in hours_above_limit_with_fan with its hours above the limit.
[[nodiscard]] report::RoomAnswer answer_house(const design::Design& design, const CoverRuns& runs);

}  // namespace houseleek::studies
