// Invented events as a table that `houseleek import --events` takes.
#include "event_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "logbook/event_fields.hpp"
#include "report/logbook_text.hpp"

namespace houseleek::invent {

void EventTable::add(const When& when, const std::string& kind, Fields fields) {
  rows_.push_back({when, kind, std::move(fields)});
}

std::string EventTable::csv() const {
  std::vector<std::string> keys;
  for (const logbook::TextField& field : logbook::text_fields()) keys.emplace_back(field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) keys.emplace_back(field.key);
  for (const logbook::DayField& field : logbook::day_fields()) keys.emplace_back(field.key);
  std::vector<Row> sorted = rows_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Row& a, const Row& b) { return a.when < b.when; });
  // Columns that no event uses are left out.
  std::erase_if(keys, [&](const std::string& key) {
    return std::none_of(sorted.begin(), sorted.end(), [&](const Row& row) {
      return std::any_of(row.fields.begin(), row.fields.end(), [&](const auto& field) { return field.first == key; });
    });
  });
  std::string text = "kind,at";
  for (const std::string& key : keys) text += fmt::format(",{}", key);
  text += "\n";
  for (const Row& row : sorted) {
    text += fmt::format("{},{}", row.kind, text_from_day(row.when.day));
    if (row.when.minute >= 0) text += fmt::format("T{:02}:{:02}", row.when.minute / 60, row.when.minute % 60);
    for (const std::string& key : keys) {
      const auto found =
          std::find_if(row.fields.begin(), row.fields.end(), [&](const auto& field) { return field.first == key; });
      text += fmt::format(",{}", found == row.fields.end() ? "" : report::csv_field(found->second));
    }
    text += "\n";
  }
  return text;
}

std::string number_text(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

std::int64_t day_of(const std::string& date) {
  const std::optional<std::int64_t> day = day_from_text(date);
  expects(day.has_value(), "a date");
  return *day;
}

}  // namespace houseleek::invent
