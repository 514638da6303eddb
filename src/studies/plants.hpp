// `houseleek plants`: what lives on this roof, what could, mixes in bloom all year, what is invasive, what is raised.
#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "planting/purposes.hpp"
#include "report/plants_answer.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

struct PlantsRequest {
  std::string room;        // empty: all
  std::string recipe;      // recipe or container; empty: all
  std::string purpose;     // empty: none
  std::string plant;       // that is looked at, or raised; empty: every one
  std::string way;         // of raising it; empty: the plant's first
  std::string raise;       // how many; empty: nothing is raised
  std::string by;          // the day they are to be planted out
  std::int64_t today = 0;  // since 1970
  std::string on;
  std::string engine_version;
  std::string input_hash;
};

struct PlantsInputs {
  const design::ValidDesign& design;
  const catalogue::Catalogue& catalogue;
  const report::WaterAnswer& water;  // of a run of the planted roof through the weather
  const climate::WeatherYear& weather;
  std::span<const climate::WeatherYear> years;    // the same or more
  std::span<const logbook::EventRecord> records;  // up to the day; empty without a logbook
};

/// Every word of the request is known: issues with the paths room, recipe, for, plant, from, raise, by.
[[nodiscard]] Issues issues_of_plants_request(const PlantsRequest& request, const design::Design& design,
                                              const catalogue::Catalogue& catalogue);

/// Pure. Errors: as issues_of_plants_request.
[[nodiscard]] Result<report::PlantsAnswer> answer_plants(const PlantsInputs& inputs, const PlantsRequest& request);

}  // namespace houseleek::studies
