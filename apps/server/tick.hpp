// What a tick on the week's list notes in the logbook: an item's line of `houseleek log`, as fields to be sent and asked.
#pragma once
#include "report/json_parts.hpp"
#include "report/week_answer.hpp"

namespace houseleek::server {

/// {kind, fields: texts by key, asked: [{key, text, is_needed, unit}]}; what is asked starts with `text`, empty where
/// only the person knows. Null for an item that another command than `log` ticks off.
[[nodiscard]] report::Json tick_of(const report::WeekItem& item, const std::string& file);

}  // namespace houseleek::server
