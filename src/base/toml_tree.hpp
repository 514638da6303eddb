// A TOML file as a plain tree whose every node knows its place in the text.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace houseleek {

/// A place in a text: line and column from 1, columns in characters; 0: unknown.
struct TextPlace {
  int line = 0;
  int column = 0;
  auto operator<=>(const TextPlace&) const = default;
};

enum class TomlKind { table, array, text, integer, number, flag, date };

struct TomlMember;

struct TomlNode {
  TomlKind kind = TomlKind::table;
  TextPlace begin;
  TextPlace end;        // one past the last character
  std::string text;     // of a text node its value; of a date its ISO form
  double number = 0.0;  // of integer and number nodes
  std::int64_t integer = 0;
  bool is_true = false;
  std::vector<TomlNode> items;      // of an array
  std::vector<TomlMember> members;  // of a table, in the order of the file
};

struct TomlMember {
  std::string key;
  TextPlace key_place;
  TomlNode node;
};

/// What a text may be at most; each limit has its reason where it is set.
struct TomlLimits {
  std::size_t max_bytes = 0;
  std::size_t max_line_bytes = 0;
  int max_depth = 0;
};

/// Parses after checking size, control bytes and nesting. Of problems in the grammar the first is reported.
[[nodiscard]] Result<TomlNode> parse_toml(std::string_view text, std::string_view file_name, const TomlLimits& limits);

/// The member of a table, or nullptr.
[[nodiscard]] const TomlNode* find_member(const TomlNode& table, std::string_view key);

}  // namespace houseleek
