// Thermometers, loggers and bills of the invented house, out of its simulated years.
#pragma once
#include <string>
#include <vector>

#include "story.hpp"

namespace houseleek::invent {

/// What the trial would show without any noise: the mean over its days of the highest minus that of the other side.
struct TrialTruth {
  std::string side;
  std::string against;
  double max_difference_k = 0.0;  // at the hour of the afternoon's reading
  int n_days = 0;
};

/// Two readings a day for 28 days under modules of both recipes and on the bare roof.
[[nodiscard]] TrialTruth add_hand_readings(const Story& story, EventTable& table);

/// Hourly outdoor air of four years; ISO stamps in standard time.
[[nodiscard]] std::string outdoor_csv(const Story& story);
/// Half-hourly under modules and on ceilings, for a summer; a European spreadsheet's dialect. One sensor sticks.
[[nodiscard]] std::string roof_csv(const Story& story);

/// Every two months, electricity and gas, from two years before the first module.
void add_bills(const Story& story, EventTable& table);

}  // namespace houseleek::invent
