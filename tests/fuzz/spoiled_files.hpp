// Spoiled descriptions and weather files through the door; what holds of every answer.
#pragma once
#include <cstdint>
#include <string>

namespace houseleek::tests {

struct SpoiledCounts {
  int n_accepted = 0;
  int n_refused = 0;
};

/// So many spoiled descriptions, each made of one of the shipped ones: a design whose layout and cautions can be worked
/// out, or issues with places inside the text. Anything else is a failure of the test.
[[nodiscard]] SpoiledCounts try_spoiled_designs(std::uint64_t first_seed, int n);

/// A day of the whole study for those that are accepted and have normals: books that close, and an answer in words.
[[nodiscard]] SpoiledCounts try_days_of_spoiled_designs(std::uint64_t first_seed, int n);

/// The same of weather files: a year whose hours are within their limits, or issues.
[[nodiscard]] SpoiledCounts try_spoiled_weather(std::uint64_t first_seed, int n);

}  // namespace houseleek::tests
