// When what should be looked at next: common practice, counted from the last look in the logbook.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/event.hpp"

namespace houseleek::upkeep {

inline constexpr std::string_view looks_from = "common practice, no source";

/// Something to be looked at again and again.
struct LookRule {
  std::string_view what;
  std::string_view how;    // in a sentence
  std::string_view words;  // of an event's part or item that stand for such a look, each between commas
  int every_days = 0;
  bool by_any_look = false;  // a look round without a part counts too
};
[[nodiscard]] std::span<const LookRule> look_rules();

struct LookDue {
  std::string what;
  std::string how;
  int every_days = 0;
  std::optional<std::int64_t> last_day;  // since 1970; none: never logged
  std::int64_t due_day = 0;
  bool is_due = false;  // on or before today
};

/// Earliest first. What was never looked at is due today. `today` counts days since 1970, at the place.
[[nodiscard]] std::vector<LookDue> looks_due(std::span<const logbook::EventRecord> records, std::int64_t today);

}  // namespace houseleek::upkeep
