// The fields of an event and what each kind of event wants: one table for every face of the logbook.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/event.hpp"

namespace houseleek::logbook {

struct TextField {
  std::string_view key;
  std::string Event::*member;
  std::string_view meaning;
  std::string_view choices = "";  // parted by blanks; empty: any text
};

struct NumberField {
  std::string_view key;
  std::optional<double> Event::*member;
  double least;
  double most;
  std::string_view unit;  // in messages; empty for counts and scores
  std::string_view meaning;
  bool is_whole = false;
};

struct DayField {
  std::string_view key;
  std::optional<std::int64_t> Event::*member;
  std::string_view meaning;
};

/// Keys are parted by blanks. Of keys joined by | one or more must be there. What an event is about, who and note may
/// always be there.
struct KindRule {
  EventKind kind;
  std::string_view word;
  std::string_view meaning;
  std::string_view wants;
  std::string_view may_have;
};

[[nodiscard]] std::span<const TextField> text_fields();
[[nodiscard]] std::span<const NumberField> number_fields();
[[nodiscard]] std::span<const DayField> day_fields();
/// One for every kind, in the order of the enumeration.
[[nodiscard]] std::span<const KindRule> kind_rules();

[[nodiscard]] const KindRule& rule_of(EventKind kind);
[[nodiscard]] std::optional<EventKind> kind_from_text(std::string_view word);

/// The parts of a text between its blanks (or another sign).
[[nodiscard]] std::vector<std::string_view> words_of(std::string_view text, char between = ' ');

/// True if a kind wants or may have this field.
[[nodiscard]] bool has_use_for(const KindRule& rule, std::string_view key);

}  // namespace houseleek::logbook
