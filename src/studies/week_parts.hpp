// The kinds of things on the week's list, one function each.
#pragma once
#include <vector>

#include "studies/week.hpp"
#include "upkeep/rounds.hpp"

namespace houseleek::studies {

struct WeekInputs {
  const StoreInputs& roof;
  const WeekRequest& request;
  upkeep::RoundFacts facts;
  std::int64_t end_utc_s = 0;
  int month = 1;             // 1 to 12
  bool is_southern = false;  // seasons shifted by half a year
};

void add_watering(const WeekInputs& inputs, const std::vector<report::StoreNow>& stores, report::WeekAnswer& answer);
void add_storm(const WeekInputs& inputs, report::WeekAnswer& answer);
void add_looks(const WeekInputs& inputs, report::WeekAnswer& answer);
void add_readings(const WeekInputs& inputs, report::WeekAnswer& answer);
void add_parts(const WeekInputs& inputs, report::WeekAnswer& answer);
void add_feeding(const WeekInputs& inputs, report::WeekAnswer& answer);
void add_more(const WeekInputs& inputs, report::WeekAnswer& answer);

/// The line that notes an event of this project; of a description, how to get one.
[[nodiscard]] std::string log_line(const WeekInputs& inputs, const std::string& event);

}  // namespace houseleek::studies
