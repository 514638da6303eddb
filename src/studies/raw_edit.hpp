// Fields written into a description before it is read through its one door.
#pragma once
#include <string>
#include <string_view>

#include "base/toml_tree.hpp"
#include "catalogue/spread.hpp"

namespace houseleek::studies {

/// nullptr where there is none.
[[nodiscard]] TomlNode* member_of(TomlNode& table, std::string_view key);

/// What is made stands, for a message, where the table it is made in begins.
TomlNode& add_member(TomlNode& table, std::string_view key, TomlKind kind);

/// A field is added or replaced.
void set_number(TomlNode& table, std::string_view key, double value);
void set_text(TomlNode& table, std::string_view key, std::string text);
void set_spread(TomlNode& table, std::string_view key, const catalogue::Spread& spread);

/// A table of this name, made where it is missing.
[[nodiscard]] TomlNode& table_named(TomlNode& table, std::string_view key);

/// The entry of a list of tables with this name; list and entry are made where they are missing.
[[nodiscard]] TomlNode& entry_named(TomlNode& table, std::string_view list_key, std::string_view name);
[[nodiscard]] TomlNode& material_table(TomlNode& root, std::string_view name);

}  // namespace houseleek::studies
