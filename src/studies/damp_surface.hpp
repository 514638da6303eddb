// Mould on the room's side of the deck and at its bare edges, by months.
#pragma once
#include "climate/year.hpp"
#include "design/design.hpp"
#include "report/damp_answer.hpp"

namespace houseleek::studies {

/// From the room's own humidity at the temperature it is heated to: how warm inner faces must be, and how warm they are.
/// Source: [iso13788] clause 5 (from memory); edges and parapets by an estimate of ours, no two-dimensional run.
[[nodiscard]] report::DampSurface answer_surface(const design::Design& design, const climate::WeatherYear& weather);

}  // namespace houseleek::studies
