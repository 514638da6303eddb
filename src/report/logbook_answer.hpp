// What a project's logbook adds to an answer: figures measured on the roof, today's store of water, bills.
#pragma once
#include <string>
#include <vector>

#include "report/issue_json.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

/// A figure of the logbook that stands in place of what the design would assume.
struct MeasuredFigure {
  std::string path;
  results::Figure figure;
  std::string statement;
};

struct StoreToday {
  std::string recipe;
  results::Figure store_frac;  // water between wilting (0) and field capacity (1)
  results::Figure can_wait_days;
  std::string statement;
};

struct BillsAnswer {
  std::string item;
  std::string outcome;  // less, more, not_told_apart, not_separable, too_few
  int n_bills = 0;
  int n_before = 0;
  int n_after = 0;
  results::Figure less_kwh_per_year;
  std::string weather_from;
  std::string sentence;
};

struct LogbookAnswer {
  std::string on;
  std::vector<MeasuredFigure> measured;
  std::vector<std::string> left_out;
  std::vector<StoreToday> stores;  // of recipes that were watered or rained upon of late
  std::vector<BillsAnswer> bills;
};

[[nodiscard]] Json json_from(const LogbookAnswer& answer);
[[nodiscard]] Json json_from_bills(const std::vector<BillsAnswer>& bills);

/// A paragraph for a terminal; empty where the logbook says nothing.
[[nodiscard]] std::string text_from(const LogbookAnswer& answer);

}  // namespace houseleek::report
