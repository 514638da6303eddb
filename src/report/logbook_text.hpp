// Events of a logbook as a person reads them, as JSON, and as tables for other programs.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "logbook/event.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

/// 12: watered 2026-07-03T08:15+03:00, module A1, 6 l
[[nodiscard]] std::string line_from(const logbook::EventRecord& record);

/// A line for each event, and how many they are.
[[nodiscard]] std::string text_from(std::span<const logbook::EventRecord> records);

/// {number, noted_at, supersedes, superseded_by, kind, at, is_time_known, zone} and the fields that were noted.
[[nodiscard]] Json json_from(const logbook::EventRecord& record);

/// The document of `log`; `added` is the number of the event just noted.
[[nodiscard]] Json json_of_log(const std::string& project, std::optional<std::int64_t> added,
                               std::span<const logbook::EventRecord> records);

/// A table with a column for every field of any event; empty where it was not noted.
[[nodiscard]] std::string csv_from(std::span<const logbook::EventRecord> records);

/// A field of a table by RFC 4180: in quotes where it must be.
[[nodiscard]] std::string csv_field(std::string_view text);

}  // namespace houseleek::report
