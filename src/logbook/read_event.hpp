// An event from words, checked: every problem at once; and back into words.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "logbook/event.hpp"

namespace houseleek::logbook {

/// An event as a person gives it: `at` and any keys of logbook/event_fields.hpp, with their texts.
struct EventWords {
  std::string kind;
  std::vector<std::pair<std::string, std::string>> fields;
};

/// What a reader must know of the place and the moment.
struct NotedWhere {
  std::string zone;
  std::int64_t now_utc_s = 0;  // stands for `at` where that is not given
  std::string currency;        // of the design; stands for `currency` where there is a cost
};

/// A text is no longer than so many bytes; a note for the roof, not a book.
inline constexpr std::size_t longest_text_bytes = 4000;

/// Errors: issues whose path is the key: a kind, key, word or date that is not known, a number out of its limits, a
/// field that the kind wants and has not, or has and has no use for; a moment more than a day ahead of now; texts that
/// are too long or hold control characters.
[[nodiscard]] Result<Event> read_event(const EventWords& words, const NotedWhere& where);

/// Key and text of every field that is there, in a fixed order, numbers with all their digits: from `at` and `zone` to
/// the last. Equal events give equal words.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> fields_of(const Event& event);

}  // namespace houseleek::logbook
