// The charts of a study's report: temperatures of the hottest and coldest days, the year by the hour, hours above the
// limit, weights, water, money.
#pragma once
#include "report/html.hpp"
#include "report/issue_json.hpp"
#include "report/year_columns.hpp"

namespace houseleek::report {

/// What a chart is drawn from: the answer's document, and the hours behind it.
struct ChartSource {
  const Json& document;
  const YearColumns& columns;
};

/// Which year the hours are of, for captions: figures are medians where there are more.
[[nodiscard]] std::string year_words(const ChartSource& source);

/// Membrane, then ceiling, on the days with the warmest and the coldest air.
[[nodiscard]] Html membrane_chart(const ChartSource& source);
[[nodiscard]] Html ceiling_chart(const ChartSource& source);

/// Planted minus bare, every hour: the ceiling of the largest room, then the operative temperature of every room.
[[nodiscard]] Html ceiling_map(const ChartSource& source);
[[nodiscard]] Html room_maps(const ChartSource& source);

/// Hours above the limit by cover, a small chart a room.
[[nodiscard]] Html hours_chart(const ChartSource& source);

/// Room-hours above the limit by month and cover, tinted.
[[nodiscard]] Html hours_by_month(const ChartSource& source);

/// Dry, drained and soaked against the allowance, if there is one.
[[nodiscard]] Html weights_chart(const ChartSource& source);

/// Store of each recipe with watering and rain.
[[nodiscard]] Html water_chart(const ChartSource& source);

/// Cash that has gone out by the end of each year; what could come back is never taken off it.
[[nodiscard]] Html cash_chart(const ChartSource& source);

}  // namespace houseleek::report
