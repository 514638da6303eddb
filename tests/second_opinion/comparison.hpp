// The largest hourly difference between the two programs, column by column.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include "results/group_year.hpp"
#include "second_opinion.hpp"

namespace houseleek::tests::second_opinion {

/// A column's largest difference and where it is; infinite where the columns differ in length or hold a NaN.
struct Difference {
  double largest = 0.0;
  double mean_square = 0.0;
  std::size_t hour = 0;
};

inline Difference difference(const std::vector<double>& judged, const std::vector<double>& judge) {
  Difference result;
  if (judged.size() != judge.size()) {
    result.largest = std::numeric_limits<double>::infinity();
    return result;
  }
  for (std::size_t hour = 0; hour < judge.size(); ++hour) {
    const double apart = std::abs(judged[hour] - judge[hour]);
    result.mean_square += apart * apart / static_cast<double>(judge.size());
    if (!(apart <= result.largest)) {
      result.largest = std::isnan(apart) ? std::numeric_limits<double>::infinity() : apart;
      result.hour = hour;
    }
  }
  return result;
}

struct StackDifference {
  Difference surface_k;
  Difference membrane_k;
  Difference ceiling_k;
  Difference room_air_k;
  Difference foliage_k;
  Difference water_mm;
};

inline StackDifference difference(const results::StackYear& judged, const results::RoomYear& room,
                                  const HourMarks& judge) {
  return {.surface_k = difference(judged.surface_c, judge.surface_c),
          .membrane_k = difference(judged.membrane_c, judge.membrane_c),
          .ceiling_k = difference(judged.ceiling_c, judge.ceiling_c),
          .room_air_k = difference(room.air_c, judge.room_air_c),
          .foliage_k = difference(judged.foliage_c, judge.foliage_c),
          .water_mm = judge.water_mm.empty() ? Difference{} : difference(judged.water_mm, judge.water_mm)};
}

}  // namespace houseleek::tests::second_opinion
