// What is raised: batches in sentences, and a plan backwards from a planting date.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "planting/batches.hpp"
#include "report/plants_answer.hpp"

namespace houseleek::studies {

/// As a person typed it.
struct RaisingWish {
  std::string plant;
  std::string way;       // empty: the plant's first
  std::string n_plants;  // empty: nothing is raised
  std::string by;        // a date
};

/// Issues with the paths plant, from, raise, by.
[[nodiscard]] Issues issues_of_raising(const RaisingWish& wish, const catalogue::Catalogue& catalogue);

/// A wish without issues. Own losses of ready batches of the same plant and way stand before the catalogue's once there
/// are enough of them.
[[nodiscard]] report::RaiseAnswer answer_raising(const RaisingWish& wish, const catalogue::Catalogue& catalogue,
                                                 std::span<const planting::Batch> batches,
                                                 catalogue::Hemisphere hemisphere);

[[nodiscard]] std::vector<report::BatchAnswer> answers_of_batches(std::span<const planting::Batch> batches,
                                                                  const catalogue::Catalogue& catalogue);

}  // namespace houseleek::studies
