// The ten questions of a first description: fields, limits, choices, as one table.
#pragma once
#include <optional>
#include <span>
#include <string_view>

namespace houseleek::studies {

enum class FieldKind { text, number, whole, choice, flag };

/// One thing to be filled in.
struct FirstField {
  std::string_view key;
  std::string_view label;
  FieldKind kind = FieldKind::text;
  std::string_view unit = "";
  double least = 0.0;
  double most = 0.0;
  std::string_view choices = "";  // word=meaning, parted by |
  std::string_view usual = "";    // what stands there at first; empty: must be answered unless optional
  bool is_optional = false;
};

struct FirstQuestion {
  std::string_view title;
  std::string_view help;
  std::span<const FirstField> fields;
};

[[nodiscard]] std::span<const FirstQuestion> first_question_table();

}  // namespace houseleek::studies
