// What the upkeep of a roof answers, as plain data; upkeep_json.hpp, upkeep_text.hpp and upkeep_html.hpp make documents.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "report/logbook_answer.hpp"
#include "results/figure.hpp"
#include "upkeep/looks.hpp"
#include "upkeep/part_lives.hpp"
#include "upkeep/rounds.hpp"
#include "upkeep/service_life.hpp"
#include "upkeep/storms.hpp"

namespace houseleek::report {

using results::Figure;

/// One kind of part, of one material.
struct PartUpkeep {
  std::string part;
  std::string material;
  std::vector<std::string> recipes;
  double n_in_use = 0.0;
  double n_failures = 0.0;
  double n_taken_out = 0.0;  // in good order
  Figure oldest_in_use_years;
  bool is_too_few = true;
  bool is_prior_known = true;  // false: the catalogue has no life of it, and a very wide one stands in
  Figure life_years;           // the life that half of them reach; the prior's where there are too few failures
  Figure prior_life_years;
  Figure shape;
  std::string sentence;
  std::string forecast_sentence;
  std::vector<Figure> forecast;  // by month
  Figure forecast_total;
  std::vector<upkeep::ShareInUse> curve;
};

struct Round {
  bool is_shown = false;
  std::string because;  // why it is shown, or when it is
  std::vector<upkeep::Step> steps;
};

struct UpkeepAnswer {
  std::string project;
  std::string design_name;
  bool is_invented = false;
  std::string engine_version;
  std::int64_t revision = 0;
  std::uint64_t seed = 0;
  std::string input_hash;  // SHA-256 over the design and every event that stands
  std::string on;          // today, as it was taken to be
  std::vector<catalogue::Caution> cautions;
  std::size_t n_events = 0;
  std::string first_day;  // of the logbook; empty without events
  std::string last_day;
  double n_modules = 0.0;
  std::vector<upkeep::LeftOut> left_out;
  std::vector<PartUpkeep> parts;  // those with most failures first
  std::vector<std::string> months;
  std::vector<Figure> forecast;  // of all parts together, by month
  std::string forecast_statement;
  upkeep::StormsAnswer storms;
  std::vector<upkeep::LookDue> looks;
  std::vector<BillsAnswer> bills;
  Round before_storm;
  Round after_storm;
  bool is_taking_off_shown = false;
  upkeep::TakingOff taking_off;
};

inline constexpr double upkeep_confidence_frac = 0.9;

}  // namespace houseleek::report
