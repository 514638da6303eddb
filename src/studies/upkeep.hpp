// `houseleek upkeep`: lives of parts from the logbook, what to replace and to look at when, storms, taking it all off.
#pragma once
#include <cstdint>
#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "logbook/reading.hpp"
#include "report/upkeep_answer.hpp"
#include "store/records.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

struct UpkeepRequest {
  std::string on;  // a day; empty: today by now_utc_s at the place. Later events are left out
  bool shows_before_storm = false;
  bool shows_after_storm = false;
  bool shows_taking_off = false;
  std::int64_t now_utc_s = 0;
  std::string engine_version;
  std::string project;  // its name, for the answer
};

/// Months that are forecast.
inline constexpr std::size_t upkeep_months = 12;

/// Lives of one kind of part, as the logbook tells them up to a moment.
struct PartLives {
  std::string part;
  std::string material;
  std::vector<std::string> recipes;
  std::string life_path;  // of the figure that its life would stand for; empty: none
  bool is_prior_known = true;
  double n_in_use = 0.0;
  double n_taken_out = 0.0;
  double oldest_in_use_years = 0.0;
  upkeep::ServiceLifeAnswer life;
};

/// Judges every kind of part of which so many have failed, most failures first. `found` must not go beyond `now_utc_s`.
[[nodiscard]] std::vector<PartLives> judge_part_lives(const upkeep::PartRecords& found, const design::Design& design,
                                                      const catalogue::Catalogue& catalogue, std::int64_t now_utc_s,
                                                      double least_failures = 0.0);

/// What rounds over the roof depend on.
[[nodiscard]] upkeep::RoundFacts round_facts(const design::ValidDesign& design, const catalogue::Catalogue& catalogue);

/// Parts of the modules as the logbook tells them.
[[nodiscard]] upkeep::PartRecords part_records_of(const std::vector<logbook::EventRecord>& records,
                                                  const design::Design& design);

/// Answers from the events, readings and the newest design of a project. Pure.
/// Errors: an issue with the path "on".
[[nodiscard]] Result<report::UpkeepAnswer> answer_upkeep(const std::vector<logbook::EventRecord>& records,
                                                         const std::vector<logbook::LoggerColumn>& loggers,
                                                         const design::ValidDesign& design,
                                                         const store::Revision& revision,
                                                         const catalogue::Catalogue& catalogue,
                                                         const UpkeepRequest& request);

}  // namespace houseleek::studies
