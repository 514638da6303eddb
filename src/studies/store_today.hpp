// How much water modules hold today, by what was watered and rained since, and how long they can wait.
#pragma once
#include <cstdint>
#include <vector>

#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "report/logbook_answer.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// A month and a half: after it nothing is left of what a store held before.
inline constexpr int days_of_store = 45;

/// Recipes that were watered, or rained upon by a gauge, in the last days_of_store days; others are left out.
/// Equation: S_d = min(C, S_{d-1} + rain + water - e_m k), k = 1 above the threshold, S over the threshold's store below
/// Symbols:  C: water between wilting and field capacity; e_m: the study's mean evapotranspiration of moist days of the
///           month, with its range over the years; a month without one has that of the nearest month that has
/// Shape:    low, likely and high run side by side: from empty, half and full, with the high, likely and low end of e
/// Units:    mm over the module.
/// Valid:    where no gauge is logged the normals' rain stands in, spread evenly: none at the low end, twice it at the
///           high end. Where e has no range its ends are 0.7 and 1.3 of it (ours).
[[nodiscard]] std::vector<report::StoreToday> answer_store_today(const std::vector<logbook::EventRecord>& records,
                                                                 const design::ValidDesign& design,
                                                                 const report::WaterAnswer& water, std::int64_t today);

}  // namespace houseleek::studies
